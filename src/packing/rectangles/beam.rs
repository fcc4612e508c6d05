//! Beam search over partial plans: each step places one more piece in the chosen gap; the most promising plans go on.
//!
//! A partial plan is a skyline and the pieces left. Gaps that no piece left can fill become waste at once. A plan is
//! dropped if its waste exceeds what the target length allows, or if another has the same skyline and the same pieces
//! left. Beam search over such states is well known for packing problems (Libralesso and Fontan, An anytime tree
//! search algorithm for two-dimensional two- and three-staged guillotine packing problems, 2020, for guides of waste
//! against what is placed; from memory).
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use super::meter::Meter;
use super::prepared::{Layout, Prepared, Shape, ShapePlacement};
use super::skyline::{Skyline, WALL};
use crate::number;
use crate::problem::Stretch;

/// How partial plans are scored.
#[derive(Clone, Copy, Debug)]
pub(super) struct Guide {
    /// How much placing large pieces first counts: the power of the area placed that waste is divided by.
    pub(super) power: i32,
    /// How much each step of the skyline counts, as a share of the mean piece's area.
    pub(super) rough: f64,
    /// Fill the narrowest gap first, not the lowest.
    pub(super) narrowest: bool,
    /// Lay pieces against the lower wall of a gap, not the higher.
    pub(super) low_wall: bool,
    /// How much of the waste expected behind pieces that follow a pattern counts before they are placed, which makes
    /// the search place them early.
    pub(super) expected_waste_share: f64,
}

/// A partial plan.
#[derive(Clone, Debug, Default)]
struct Node {
    left: Vec<usize>,
    line: Skyline,
    stretch: usize,
    waste: f64,
    placed: f64,
    /// Hash of the pieces left: a sum over them, so that their order does not matter.
    hash: u64,
    last_entry: usize,
    /// Length that pieces at the edge still need.
    edge: i64,
    /// Expected waste behind the pieces left that follow a pattern.
    expected_waste: f64,
    /// The gap to fill next.
    gap: usize,
    narrowest_piece: i64,
}

impl Node {
    fn copy(&mut self, other: &Node) {
        self.left.clone_from(&other.left);
        self.line.steps.clone_from(&other.line.steps);
        (self.stretch, self.waste, self.placed) = (other.stretch, other.waste, other.placed);
        (self.hash, self.last_entry, self.edge) = (other.hash, other.last_entry, other.edge);
        (self.gap, self.narrowest_piece, self.expected_waste) =
            (other.gap, other.narrowest_piece, other.expected_waste);
    }
}

/// A scored extension of a partial plan, not yet made.
#[derive(Clone, Copy, Debug)]
struct Child {
    score: f64,
    node: usize,
    shape: usize,
    right: bool,
}

/// The last placement of a partial plan, and the entry before it.
#[derive(Clone, Copy, Debug)]
struct HistoryEntry {
    before: usize,
    placement: ShapePlacement,
}

const NOWHERE: usize = usize::MAX;

/// The state of a partial plan after its dead gaps are filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum State {
    Open,
    /// Nothing more can be placed, and no piece left is required.
    Complete,
    Dead,
}

/// One search of a given breadth for a plan no longer than a given limit.
pub(super) struct Beam<'a> {
    prepared: &'a Prepared,
    guide: Guide,
    breadth: usize,
    /// The end of the endless stretch in this search.
    limit: i64,
    /// The waste a plan within the limit can afford.
    budget: f64,
    mean: f64,
    total: f64,
    hash_keys: Vec<u64>,
    /// Kinds that may stay out: without an endless stretch all, else those too wide for it in every orientation.
    optional: Vec<bool>,
    /// For each kind, the area between the end of a piece and the next position where one may begin.
    waste_behind: Vec<f64>,
    history: Vec<HistoryEntry>,
    rest: Vec<Node>,
}

impl<'a> Beam<'a> {
    pub(super) fn new(prepared: &'a Prepared, guide: Guide, breadth: usize, limit: i64) -> Self {
        let items = prepared.items.len();
        let mut total = 0.0;
        let sizes = prepared.sizes();
        let mut optional = vec![true; items];
        let endless = prepared.endless();
        for shape in &prepared.shapes {
            if let Some(last) = endless
                && shape.across <= prepared.stretches[last].width
            {
                optional[shape.item] = false;
            }
        }
        for (item, size) in prepared.items.iter().zip(&sizes) {
            total += number::from_wide(*size) * number::from_count(item.count);
        }
        let space: f64 = prepared
            .stretches
            .iter()
            .map(|stretch| number::from_whole(stretch.width) * number::from_whole(stretch.length.unwrap_or(limit)))
            .sum();
        let budget =
            if optional.iter().any(|&optional| optional) { f64::INFINITY } else { space - total + 1e-9 * space };
        let mut rng = fastrand::Rng::with_seed(0x5eed);
        let hash_keys = (0..items).map(|_| rng.u64(..)).collect();
        let mut waste_behind = vec![0.0; items];
        for shape in &prepared.shapes {
            if let Some(starts) = shape.starts {
                let end = starts.first + shape.along;
                waste_behind[shape.item] =
                    number::from_whole(shape.start(end) - end) * number::from_whole(shape.across);
            }
        }
        let mean = total / number::from_count(prepared.pieces);
        Self {
            prepared,
            guide,
            breadth,
            limit,
            budget,
            mean,
            total,
            hash_keys,
            optional,
            waste_behind,
            history: Vec::new(),
            rest: Vec::new(),
        }
    }

    /// The best plan found; `None` if there is none, or the steps ran out before.
    pub(super) fn run(&mut self, meter: &mut Meter<'_, '_>) -> Option<Layout> {
        let mut best: Option<(f64, usize)> = None;
        let mut nodes = Vec::new();
        let mut root = self.root();
        match self.settle(&mut root) {
            State::Open => nodes.push(root),
            State::Complete => return Some(self.prepared.layout(Vec::new())),
            State::Dead => return None,
        }
        let mut children: Vec<Child> = Vec::new();
        let mut seen: BTreeSet<u64> = BTreeSet::new();
        while !nodes.is_empty() {
            children.clear();
            let mut work = 0;
            for (index, node) in nodes.iter().enumerate() {
                work += self.expand(index, node, &mut children);
            }
            keep_best(&mut children, self.breadth.saturating_mul(3));
            seen.clear();
            let mut next = Vec::with_capacity(self.breadth);
            for child in &children {
                if next.len() >= self.breadth {
                    break;
                }
                let mut made = self.rest.pop().unwrap_or_default();
                work += self.make(&nodes[child.node], *child, &mut made);
                let state = self.settle(&mut made);
                if matches!(state, State::Complete) && best.is_none_or(|(placed, _)| made.placed > placed) {
                    best = Some((made.placed, made.last_entry));
                }
                if matches!(state, State::Open) && seen.insert(state_hash(&made)) {
                    next.push(made);
                } else {
                    self.rest.push(made);
                }
            }
            self.rest.append(&mut nodes);
            nodes = next;
            if !meter.spend(work) {
                break;
            }
        }
        let (_, mut at) = best?;
        let mut placements = Vec::with_capacity(self.prepared.pieces);
        while at != NOWHERE {
            let entry = self.history[at];
            placements.push(entry.placement);
            at = entry.before;
        }
        placements.reverse();
        Some(self.prepared.layout(placements))
    }

    fn root(&self) -> Node {
        let mut root = Node { left: self.prepared.counts(), last_entry: NOWHERE, ..Node::default() };
        root.line.flat(self.prepared.stretches[0].width);
        for (item, &count) in root.left.iter().enumerate() {
            let count = number::from_work(count);
            root.hash = root.hash.wrapping_add(self.hash_keys[item].wrapping_mul(count));
        }
        root.expected_waste = root
            .left
            .iter()
            .zip(&self.waste_behind)
            .map(|(&left, waste_behind)| number::from_count(left) * waste_behind)
            .sum();
        for shape in self.prepared.shapes.iter().filter(|shape| shape.at_edge && !self.optional[shape.item]) {
            root.edge += shape.along * number::from_size(root.left[shape.item]);
        }
        root
    }

    fn limit_of(&self, stretch: Stretch) -> i64 {
        stretch.length.unwrap_or(self.limit)
    }

    /// Scores every piece that fits the gap; returns the work done.
    fn expand(&self, index: usize, node: &Node, children: &mut Vec<Child>) -> u64 {
        let limit = self.limit_of(self.prepared.stretches[node.stretch]);
        let step = node.line.steps[node.gap];
        let (left_wall, right_wall) = node.line.walls(node.gap);
        let steps = number::from_size(node.line.steps.len());
        for (shape_index, shape) in self.prepared.shapes.iter().enumerate() {
            if node.left[shape.item] == 0 || shape.across > step.width || (shape.at_edge && step.across > 0) {
                continue;
            }
            let start = shape.start(step.top);
            let top = start + shape.along;
            if top > limit {
                continue;
            }
            let mut right = left_wall < right_wall;
            if left_wall != right_wall {
                right ^= self.guide.low_wall;
            }
            if shape.at_edge {
                right = false;
            } else if step.across == 0 && node.edge > 0 {
                right = true;
            }
            let (near, far) = if right { (right_wall, left_wall) } else { (left_wall, right_wall) };
            let rest = step.width - shape.across;
            let mut waste = number::from_whole(start - step.top) * number::from_whole(shape.across);
            let mut after = steps + i64::from(rest > 0) - i64::from(near == top);
            if rest == 0 {
                after -= i64::from(far == top);
            } else if rest < node.narrowest_piece {
                waste += number::from_whole(rest) * number::from_whole(far.min(top) - step.top);
                after -= 1;
            }
            if node.waste + waste > self.budget {
                continue;
            }
            let rough = self.guide.rough * self.mean * number::from_whole(after);
            let expected_waste =
                (node.expected_waste - self.waste_behind[shape.item]) * self.guide.expected_waste_share;
            let score = (node.waste + waste + expected_waste + rough)
                / ((node.placed + shape.area) / self.total).powi(self.guide.power);
            children.push(Child { score, node: index, shape: shape_index, right });
        }
        u64::try_from(self.prepared.shapes.len()).unwrap_or(u64::MAX)
    }

    /// Makes a scored extension; returns the work done.
    fn make(&mut self, node: &Node, child: Child, made: &mut Node) -> u64 {
        made.copy(node);
        let shape = &self.prepared.shapes[child.shape];
        let step = made.line.steps[made.gap];
        let start = shape.start(step.top);
        let across = if child.right { step.across + step.width - shape.across } else { step.across };
        made.waste += number::from_whole(start - step.top) * number::from_whole(shape.across);
        made.placed += shape.area;
        made.expected_waste -= self.waste_behind[shape.item];
        made.left[shape.item] -= 1;
        made.hash = made.hash.wrapping_sub(self.hash_keys[shape.item]);
        if shape.at_edge && !self.optional[shape.item] {
            made.edge -= shape.along;
        }
        made.line.raise(made.gap, shape.across, child.right, start + shape.along);
        let placement = ShapePlacement { shape: child.shape, stretch: made.stretch, along: start, across };
        self.history.push(HistoryEntry { before: made.last_entry, placement });
        made.last_entry = self.history.len() - 1;
        u64::try_from(self.prepared.shapes.len() + made.left.len() / 4 + made.line.steps.len() + 10).unwrap_or(u64::MAX)
    }

    /// Fills dead gaps, goes on to the next stretch where this one is full, and chooses the gap to fill next.
    fn settle(&self, node: &mut Node) -> State {
        loop {
            let stretch = self.prepared.stretches[node.stretch];
            let limit = self.limit_of(stretch);
            let (mut narrowest, mut shortest) = (WALL, WALL);
            let mut needed = false;
            for shape in &self.prepared.shapes {
                if node.left[shape.item] > 0 {
                    needed |= !self.optional[shape.item];
                    narrowest = narrowest.min(shape.across);
                    shortest = shortest.min(shape.along);
                }
            }
            node.narrowest_piece = narrowest;
            let finished = narrowest == WALL || !self.find_gap(node, limit, narrowest);
            if !finished {
                if node.waste + dead_above(node, limit, shortest) > self.budget {
                    return State::Dead;
                }
                let late = stretch.length.is_none() && node.line.steps[0].top + node.edge > limit;
                return if late { State::Dead } else { State::Open };
            }
            if node.stretch + 1 == self.prepared.stretches.len() || narrowest == WALL {
                return if needed { State::Dead } else { State::Complete };
            }
            for step in &node.line.steps {
                node.waste += number::from_whole(step.width) * number::from_whole(limit - step.top);
            }
            node.stretch += 1;
            node.line.flat(self.prepared.stretches[node.stretch].width);
        }
    }

    /// Fills gaps until one is found that takes a piece; returns whether there is one.
    fn find_gap(&self, node: &mut Node, limit: i64, narrowest: i64) -> bool {
        loop {
            let mut at = 0;
            while at < node.line.steps.len() && node.line.steps.len() > 1 {
                let (left, right) = node.line.walls(at);
                let step = node.line.steps[at];
                if step.width < narrowest && left.min(right) > step.top {
                    fill(node, at, left.min(right));
                    at = at.saturating_sub(2);
                } else {
                    at += 1;
                }
            }
            let gap = if self.guide.narrowest { narrowest_gap(&node.line) } else { node.line.lowest() };
            let step = node.line.steps[gap];
            let takes = |shape: &Shape| {
                node.left[shape.item] > 0
                    && shape.across <= step.width
                    && (!shape.at_edge || step.across == 0)
                    && shape.start(step.top) + shape.along <= limit
            };
            if self.prepared.shapes.iter().any(takes) {
                node.gap = gap;
                return true;
            }
            let (left, right) = node.line.walls(gap);
            if left.min(right) == WALL {
                return false;
            }
            fill(node, gap, left.min(right));
        }
    }
}

/// Fills a gap as waste.
fn fill(node: &mut Node, at: usize, top: i64) {
    let step = node.line.steps[at];
    node.waste += number::from_whole(step.width) * number::from_whole(top - step.top);
    node.line.raise(at, step.width, false, top);
}

/// The narrowest step lower than both its neighbours.
fn narrowest_gap(line: &Skyline) -> usize {
    let mut best = line.lowest();
    for (at, step) in line.steps.iter().enumerate() {
        let (left, right) = line.walls(at);
        if left.min(right) > step.top && step.width < line.steps[best].width {
            best = at;
        }
    }
    best
}

/// Area under the limit that no piece left is short enough for.
fn dead_above(node: &Node, limit: i64, shortest: i64) -> f64 {
    let mut dead = 0.0;
    for step in &node.line.steps {
        if limit - step.top < shortest {
            dead += number::from_whole(step.width) * number::from_whole(limit - step.top);
        }
    }
    dead
}

/// The best `most` of the children, in their order.
fn keep_best(children: &mut Vec<Child>, most: usize) {
    if children.len() > most {
        children.select_nth_unstable_by(most, order);
        children.truncate(most);
    }
    children.sort_unstable_by(order);
}

fn order(one: &Child, other: &Child) -> std::cmp::Ordering {
    one.score.total_cmp(&other.score).then(one.node.cmp(&other.node)).then(one.shape.cmp(&other.shape))
}

/// Hash of the skyline and the pieces left: equal for equal states.
fn state_hash(node: &Node) -> u64 {
    let mut hash = node.hash ^ number::from_work(node.stretch);
    for step in &node.line.steps {
        let (across, top) = (step.across.cast_unsigned(), step.top.cast_unsigned());
        hash = (hash ^ across.wrapping_mul(0x9e37_79b9_7f4a_7c15)).rotate_left(23).wrapping_mul(0xd6e8_feb8_6659_fd93);
        hash = (hash ^ top).wrapping_mul(0xa076_1d64_78bd_642f);
        hash ^= hash >> 29;
    }
    hash
}
