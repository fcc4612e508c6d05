//! What is written and never used: variables, functions, imports; and values that are set anew before they are used.

use super::findings::{Findings, Sure};
use super::kind::Place;
use crate::engine::ScriptError;
use crate::engine::tree::{FunctionTree, Node, Tree, What};
use std::collections::BTreeSet;

/// The functions that the program calls.
const CALLED: [&str; 4] = ["inputs", "make", "after_cutting", "examples"];

/// Adds what is unused in one file. In a helper file every function is for others.
pub(super) fn add(findings: &mut Findings, file: usize, tree: &Tree) {
    let mut unused = Unused { findings, file, scope: Vec::new() };
    for function in &tree.functions {
        unused.function(function);
    }
    if file == 0 {
        unused.functions(tree);
    }
    unused.imports(tree);
}

struct Variable {
    name: String,
    at: usize,
    used: bool,
}

struct Unused<'f> {
    findings: &'f mut Findings,
    file: usize,
    scope: Vec<Variable>,
}

impl Unused<'_> {
    fn found(&mut self, at: usize, message: String, hint: &str) {
        let place = Place { file: self.file, at };
        self.findings.add(place, Sure::Caution, ScriptError::new(message).hinting(hint), Vec::new(), &[], true);
    }

    fn functions(&mut self, tree: &Tree) {
        let mut called = BTreeSet::new();
        let mut note = |node: &Node| {
            if let What::Call { space: None, name, .. } = &node.what {
                called.insert(name.clone());
            }
        };
        for function in &tree.functions {
            function.body.iter().for_each(|node| {
                node.each(&mut |node| {
                    // A function that calls itself is not used by that.
                    let own = matches!(&node.what, What::Call { name, .. } if *name == function.name);
                    if !own {
                        note(node);
                    }
                });
            });
        }
        for function in &tree.functions {
            let name = &function.name;
            if !CALLED.contains(&name.as_str()) && !called.contains(name) && !name.starts_with('_') {
                self.found(function.at, format!("nothing calls “{name}”"), "take it out, or begin its name with _");
            }
        }
    }

    fn imports(&mut self, tree: &Tree) {
        let mut spaces = BTreeSet::new();
        let nodes = tree.functions.iter().flat_map(|function| &function.body).chain(&tree.statements);
        nodes.clone().for_each(|node| {
            node.each(&mut |node| match &node.what {
                What::Call { space: Some(space), .. } | What::Path(space) => {
                    spaces.insert(space.clone());
                }
                _ => {}
            });
        });
        for node in nodes {
            if let What::Import(path, name) = &node.what
                && !spaces.contains(name)
            {
                self.found(node.at, format!("nothing of the helper file “{path}” is used"), "take the import out");
            }
        }
    }

    fn function(&mut self, function: &FunctionTree) {
        self.block(&function.body);
    }

    fn block(&mut self, nodes: &[Node]) {
        let outer = self.scope.len();
        for node in nodes {
            self.node(node);
        }
        self.set_anew(nodes);
        for variable in self.scope.split_off(outer) {
            if !variable.used && !variable.name.starts_with('_') {
                let message = format!("“{}” is worked out and never used", variable.name);
                self.found(variable.at, message, "use it, take it out, or begin its name with _");
            }
        }
    }

    fn declare(&mut self, name: &str, at: usize) {
        self.scope.push(Variable { name: name.to_owned(), at, used: false });
    }

    fn read(&mut self, name: &str) {
        if let Some(variable) = self.scope.iter_mut().rev().find(|variable| variable.name == name) {
            variable.used = true;
        }
    }

    fn node(&mut self, node: &Node) {
        match &node.what {
            What::Name(name) => self.read(name),
            What::Let(name, value) => {
                self.node(value);
                self.declare(name, node.at);
            }
            What::Set { to, operator, value } => {
                self.node(value);
                // A value that is only set is not used by that; nor where it only grows.
                match (&to.what, operator) {
                    (What::Name(_), _) => {}
                    _ => self.node(to),
                }
            }
            What::Block(nodes) => self.block(nodes),
            What::Function(function) => {
                let outer = self.scope.len();
                for parameter in &function.parameters {
                    self.declare(parameter, node.at);
                }
                for node in &function.body {
                    self.node(node);
                }
                self.scope.truncate(outer);
            }
            What::If { when, then, otherwise } => {
                self.node(when);
                self.block(then);
                self.block(otherwise);
            }
            What::While { when, body, .. } => {
                if let Some(when) = when {
                    self.node(when);
                }
                self.block(body);
            }
            What::For { item, counter, over, body } => {
                self.node(over);
                let outer = self.scope.len();
                // What is gone through may be of no interest, only how often.
                self.declare(item, node.at);
                if let Some(counter) = counter {
                    self.declare(counter, node.at);
                }
                self.block(body);
                self.scope.truncate(outer);
            }
            _ => {
                for inner in node.inner() {
                    self.node(inner);
                }
            }
        }
    }

    /// Values that a later statement of the same block sets anew before anything could use them.
    fn set_anew(&mut self, nodes: &[Node]) {
        for (index, node) in nodes.iter().enumerate() {
            let Some(name) = set_whole(node) else { continue };
            for later in nodes.iter().skip(index + 1) {
                let again = set_whole(later).is_some_and(|again| again == name);
                let value_reads = matches!(
                    &later.what,
                    What::Set { value, .. } | What::Let(_, value) if speaks_of(value, name)
                );
                if again && !value_reads {
                    let message = format!("“{name}” is given a value here and another one before it is used");
                    self.found(node.at, message, "take one of the two out");
                    break;
                }
                if speaks_of(later, name) || leaves(later) {
                    break;
                }
            }
        }
    }
}

/// The name that a statement gives a whole new value.
fn set_whole(node: &Node) -> Option<&str> {
    match &node.what {
        // One that begins as nothing waits for its value.
        What::Let(_, value) if matches!(value.what, What::Nothing) => None,
        What::Let(name, _) => Some(name),
        What::Set { to, operator: None, .. } => match &to.what {
            What::Name(name) => Some(name),
            _ => None,
        },
        _ => None,
    }
}

fn speaks_of(node: &Node, name: &str) -> bool {
    let mut found = false;
    node.each(&mut |inner| found |= matches!(&inner.what, What::Name(known) if known == name));
    found
}

fn leaves(node: &Node) -> bool {
    let mut found = false;
    node.each(&mut |inner| found |= matches!(inner.what, What::Return(_) | What::Break(_) | What::Continue));
    found
}
