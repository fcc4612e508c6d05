//! The dependency graph: names, the names each reads, and the order of evaluation.
//!
//! A name may be read before anything defines it, so there is a node for every name, defined or not. Never
//! here: values and how they are computed.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};
use std::ops::Bound;
use std::rc::Rc;

/// A node of the graph: a name, defined or not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Node(usize);

#[derive(Debug)]
struct Links {
    name: Rc<str>,
    reads: Vec<Node>,
    readers: BTreeSet<Node>,
}

/// Names and their dependencies.
#[derive(Debug, Default)]
pub(super) struct Graph {
    nodes: Vec<Links>,
    by_name: BTreeMap<Rc<str>, Node>,
    /// For each node, the last walk that visited it and how many of its dependencies that walk still waits for.
    /// Kept between walks, so that a walk costs only the nodes it visits.
    visited: Vec<(u64, usize)>,
    walk: u64,
}

impl Graph {
    /// Returns the node of a name; creates it if needed.
    pub(super) fn node(&mut self, name: &str) -> Node {
        if let Some(node) = self.by_name.get(name) {
            return *node;
        }
        let node = Node(self.nodes.len());
        let name: Rc<str> = Rc::from(name);
        self.nodes.push(Links { name: Rc::clone(&name), reads: Vec::new(), readers: BTreeSet::new() });
        self.by_name.insert(name, node);
        node
    }

    /// Returns the node of a name, if it exists.
    pub(super) fn find(&self, name: &str) -> Option<Node> {
        self.by_name.get(name).copied()
    }

    /// Returns the names from `name` on, in alphabetical order.
    pub(super) fn from<'g>(&'g self, name: &'g str) -> impl Iterator<Item = (&'g str, Node)> {
        let from = (Bound::Included(name), Bound::Unbounded);
        self.by_name.range::<str, _>(from).map(|(name, node)| (&**name, *node))
    }

    pub(super) fn name(&self, node: Node) -> &str {
        self.nodes.get(node.0).map_or("", |links| &links.name)
    }

    /// The direct dependencies of a node.
    pub(super) fn reads(&self, node: Node) -> &[Node] {
        self.nodes.get(node.0).map_or(&[], |links| &links.reads)
    }

    /// The direct readers of a node.
    pub(super) fn readers(&self, node: Node) -> impl Iterator<Item = Node> {
        self.nodes.get(node.0).into_iter().flat_map(|links| links.readers.iter().copied())
    }

    /// The index of a node in a list of all nodes.
    pub(super) fn index(node: Node) -> usize {
        node.0
    }

    /// The number of nodes.
    pub(super) fn len(&self) -> usize {
        self.nodes.len()
    }

    /// Replaces the dependencies of a node.
    pub(super) fn set_reads(&mut self, node: Node, reads: Vec<Node>) {
        let before = self.nodes.get_mut(node.0).map(|links| std::mem::take(&mut links.reads)).unwrap_or_default();
        for read in before {
            if let Some(links) = self.nodes.get_mut(read.0) {
                links.readers.remove(&node);
            }
        }
        for read in &reads {
            if let Some(links) = self.nodes.get_mut(read.0) {
                links.readers.insert(node);
            }
        }
        if let Some(links) = self.nodes.get_mut(node.0) {
            links.reads = reads;
        }
    }

    /// Returns the nodes and all that they read, directly or through others.
    pub(super) fn ancestry(&self, of: &[Node]) -> BTreeSet<Node> {
        let mut reached: BTreeSet<Node> = of.iter().copied().collect();
        let mut waiting = of.to_vec();
        while let Some(node) = waiting.pop() {
            waiting.extend(self.reads(node).iter().filter(|read| reached.insert(**read)));
        }
        reached
    }

    /// Returns the cycle that would arise if `node` read `reads`, from `node` to `node`; `None` if there would
    /// be none.
    pub(super) fn find_cycle(&self, node: Node, reads: &[Node]) -> Option<Vec<Node>> {
        // Search among the readers of the node: they are few where its dependencies are many.
        let mut came_from: BTreeMap<Node, Node> = BTreeMap::new();
        let mut waiting = vec![node];
        let targets: BTreeSet<Node> = reads.iter().copied().collect();
        while let Some(at) = waiting.pop() {
            if targets.contains(&at) {
                let mut path = vec![node];
                let mut step = at;
                while step != node {
                    path.push(step);
                    step = came_from.get(&step).copied()?;
                }
                path.push(node);
                return Some(path);
            }
            for reader in self.nodes.get(at.0).into_iter().flat_map(|links| &links.readers) {
                if *reader != node && !came_from.contains_key(reader) {
                    came_from.insert(*reader, at);
                    waiting.push(*reader);
                }
            }
        }
        None
    }

    /// Returns the nodes and all that read them, directly or through others. The first list is in order of
    /// evaluation: each node after those it reads, otherwise by `rank`; nodes that only read cycles come last.
    /// The second list is the nodes in cycles, by rank.
    pub(super) fn affected(&mut self, from: &[Node], rank: impl Fn(Node) -> u64) -> (Vec<Node>, Vec<Node>) {
        let reached = self.collect_readers(from);
        self.ordered(&reached, rank)
    }

    /// As [`affected`](Self::affected), of the nodes on paths from `from` to `to`, without cycles.
    pub(super) fn between(&mut self, from: &[Node], to: &[Node], rank: impl Fn(Node) -> u64) -> Vec<Node> {
        let above = self.ancestry(to);
        let mut reached = self.collect_readers(from);
        reached.retain(|node| above.contains(node));
        self.walk += 1;
        for node in &reached {
            if let Some(visited) = self.visited.get_mut(node.0) {
                *visited = (self.walk, 0);
            }
        }
        self.ordered(&reached, rank).0
    }

    /// Returns the nodes and all that read them, directly or through others, and marks each as visited by this
    /// walk.
    fn collect_readers(&mut self, from: &[Node]) -> Vec<Node> {
        self.walk += 1;
        self.visited.resize(self.nodes.len(), (0, 0));
        let mut reached = Vec::with_capacity(from.len());
        let mut at = 0;
        for node in from {
            Self::visit(&mut self.visited, self.walk, *node, &mut reached);
        }
        while let Some(node) = reached.get(at).copied() {
            at += 1;
            for reader in self.nodes.get(node.0).into_iter().flat_map(|links| &links.readers) {
                Self::visit(&mut self.visited, self.walk, *reader, &mut reached);
            }
        }
        reached
    }

    fn visit(visited: &mut [(u64, usize)], walk: u64, node: Node, reached: &mut Vec<Node>) {
        if let Some(visited) = visited.get_mut(node.0).filter(|visited| visited.0 != walk) {
            *visited = (walk, 0);
            reached.push(node);
        }
    }

    /// Sorts nodes that the last walk visited, as [`affected`](Self::affected) returns them.
    fn ordered(&mut self, nodes: &[Node], rank: impl Fn(Node) -> u64) -> (Vec<Node>, Vec<Node>) {
        let walk = self.walk;
        let mut heap = BinaryHeap::new();
        for node in nodes {
            let visited = |read: &&Node| self.visited.get(read.0).is_some_and(|visited| visited.0 == walk);
            let waits_for = self.reads(*node).iter().filter(visited).count();
            if waits_for == 0 {
                heap.push(Reverse((rank(*node), *node)));
            }
            if let Some(visited) = self.visited.get_mut(node.0) {
                visited.1 = waits_for;
            }
        }
        let mut ordered = Vec::with_capacity(nodes.len());
        while let Some(Reverse((_, node))) = heap.pop() {
            ordered.push(node);
            for reader in self.nodes.get(node.0).into_iter().flat_map(|links| &links.readers) {
                let Some(visited) = self.visited.get_mut(reader.0).filter(|visited| visited.0 == walk) else {
                    continue;
                };
                visited.1 -= 1;
                if visited.1 == 0 {
                    heap.push(Reverse((rank(*reader), *reader)));
                }
            }
        }
        if ordered.len() == nodes.len() {
            return (ordered, Vec::new());
        }
        let waits = |node: &&Node| self.visited.get(node.0).is_some_and(|visited| visited.1 > 0);
        let mut left: Vec<Node> = nodes.iter().filter(waits).copied().collect();
        left.sort_by_key(|node| rank(*node));
        let behind = self.split_off_readers(&mut left);
        ordered.extend(behind);
        (ordered, left)
    }

    /// Removes from `cycles` the nodes that only read cycles, and returns them in order of evaluation.
    fn split_off_readers(&self, cycles: &mut Vec<Node>) -> Vec<Node> {
        let mut left: BTreeSet<Node> = cycles.iter().copied().collect();
        let read_by = |node: Node| self.readers(node).filter(|reader| left.contains(reader)).count();
        let mut counts: BTreeMap<Node, usize> = cycles.iter().map(|node| (*node, read_by(*node))).collect();
        let mut unread: Vec<Node> = cycles.iter().filter(|node| counts.get(node) == Some(&0)).copied().collect();
        let mut behind = Vec::new();
        while let Some(node) = unread.pop() {
            left.remove(&node);
            behind.push(node);
            for read in self.reads(node) {
                if let Some(count) = counts.get_mut(read) {
                    *count -= 1;
                    if *count == 0 {
                        unread.push(*read);
                    }
                }
            }
        }
        cycles.retain(|node| left.contains(node));
        behind.reverse();
        behind
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// In `a: b c`, a reads b and c.
    fn graph(lines: &[&str]) -> Graph {
        let mut graph = Graph::default();
        for line in lines {
            let (name, reads) = line.split_once(':').unwrap();
            let node = graph.node(name);
            let reads = reads.split_whitespace().map(|read| graph.node(read)).collect();
            graph.set_reads(node, reads);
        }
        graph
    }

    fn names(graph: &Graph, nodes: &[Node]) -> String {
        nodes.iter().map(|node| graph.name(*node)).collect::<Vec<_>>().join(" ")
    }

    fn order(graph: &mut Graph, from: &[&str]) -> (String, String) {
        let from: Vec<Node> = from.iter().map(|name| graph.find(name).unwrap()).collect();
        let (ordered, left) = graph.affected(&from, |node| u64::try_from(node.0).unwrap());
        (names(graph, &ordered), names(graph, &left))
    }

    #[test]
    fn readers_come_behind_what_they_read_and_nobody_else_comes() {
        let mut graph = graph(&["sum: left right", "left: base", "right: base left", "other: far"]);
        assert_eq!(order(&mut graph, &["base"]), ("base left right sum".to_owned(), String::new()));
        assert_eq!(order(&mut graph, &["right"]), ("right sum".to_owned(), String::new()));
        let [base, right] = ["base", "right"].map(|name| graph.find(name).unwrap());
        let between = graph.between(&[base], &[right], |_| 0);
        assert_eq!(names(&graph, &between), "base left right");
    }

    #[test]
    fn a_circle_is_found_with_its_path() {
        let mut graph = graph(&["b: a", "c: b", "d: c", "e: a"]);
        let (a, c, e) = (graph.node("a"), graph.node("c"), graph.node("e"));
        let path = graph.find_cycle(a, &[e, c]).unwrap();
        assert!(["a e a", "a c b a"].contains(&names(&graph, &path).as_str()));
        assert_eq!(names(&graph, &graph.find_cycle(a, &[c]).unwrap()), "a c b a");
        assert_eq!(names(&graph, &graph.find_cycle(a, &[a]).unwrap()), "a a");
        assert_eq!(graph.find_cycle(e, &[c]), None);
        graph.set_reads(a, vec![c]);
        // A node that only reads a cycle comes last and is not part of it.
        assert_eq!(order(&mut graph, &["a"]), ("d e".to_owned(), "b a c".to_owned()));
    }

    #[test]
    fn a_node_that_reads_other_things_is_forgotten_by_the_old() {
        let mut graph = graph(&["b: a", "c: b"]);
        let (b, x) = (graph.node("b"), graph.node("x"));
        graph.set_reads(b, vec![x]);
        assert_eq!(order(&mut graph, &["a"]), ("a".to_owned(), String::new()));
        assert_eq!(order(&mut graph, &["x"]), ("x b c".to_owned(), String::new()));
    }

    #[test]
    fn of_what_can_be_worked_out_at_once_the_lower_rank_comes_first() {
        let mut graph = graph(&["left: base", "right: base", "sum: left right", "apart: base"]);
        let from = [graph.node("base")];
        let ranked = |graph: &mut Graph, order: [&str; 5]| {
            let nodes = order.map(|name| graph.find(name).unwrap());
            let rank = |node: Node| nodes.iter().position(|ranked| *ranked == node).unwrap().try_into().unwrap();
            let (ordered, left) = graph.affected(&from, rank);
            assert!(left.is_empty());
            names(graph, &ordered)
        };
        assert_eq!(ranked(&mut graph, ["base", "left", "right", "sum", "apart"]), "base left right sum apart");
        // What reads two waits for both, however early its rank.
        assert_eq!(ranked(&mut graph, ["sum", "apart", "right", "left", "base"]), "base apart right left sum");
        // And once more: a walk leaves nothing behind for the next.
        assert_eq!(ranked(&mut graph, ["base", "right", "apart", "left", "sum"]), "base right apart left sum");
    }

    #[test]
    fn readers_of_a_circle_come_in_order_behind_it() {
        let mut graph = graph(&["a: b", "b: a", "c: a", "d: c a", "e: d c", "f: top", "top: "]);
        assert_eq!(order(&mut graph, &["a"]), ("c d e".to_owned(), "a b".to_owned()));
        // Those outside are worked out all the same, and before the readers of the circle.
        assert_eq!(order(&mut graph, &["a", "top"]), ("top f c d e".to_owned(), "a b".to_owned()));
        // A circle that hangs on another is one too; between two circles a cell is in neither.
        let mut two = self::graph(&["a: b", "b: a", "m: b", "x: y m", "y: x"]);
        assert_eq!(order(&mut two, &["a"]).0, "");
    }

    #[test]
    fn between_two_cells_are_those_on_a_way_from_one_to_the_other() {
        let mut graph = graph(&["left: base", "right: base", "mix: left right", "sum: left far", "end: sum mix"]);
        let [base, far, sum, end] = ["base", "far", "sum", "end"].map(|name| graph.find(name).unwrap());
        let between = |graph: &mut Graph, from: &[Node], to: &[Node]| {
            let found = graph.between(from, to, |node| u64::try_from(node.0).unwrap());
            names(graph, &found)
        };
        assert_eq!(between(&mut graph, &[base], &[sum]), "base left sum");
        assert_eq!(between(&mut graph, &[far], &[end]), "far sum end");
        assert_eq!(between(&mut graph, &[base], &[end]), "base left right mix sum end");
        assert_eq!(between(&mut graph, &[sum], &[base]), "");
        let above = graph.ancestry(&[sum]).into_iter().collect::<Vec<_>>();
        assert_eq!(names(&graph, &above), "left base sum far");
    }

    #[test]
    fn a_circle_is_not_looked_for_in_what_it_reads() {
        let mut graph = graph(&["b: a", "c: b", "d: c b"]);
        let [a, b, d] = ["a", "b", "d"].map(|name| graph.find(name).unwrap());
        assert_eq!(names(&graph, &graph.find_cycle(a, &[d]).unwrap()).split(' ').next_back(), Some("a"));
        assert_eq!(graph.find_cycle(d, &[a, b]), None);
        // In a circle that is there already the search ends too.
        graph.set_reads(a, vec![d]);
        let apart = graph.node("apart");
        assert_eq!(graph.find_cycle(a, &[apart]), None);
        assert_eq!(graph.from("b").map(|(name, _)| name).collect::<Vec<_>>(), ["b", "c", "d"]);
        assert_eq!(graph.len(), 5);
    }
}
