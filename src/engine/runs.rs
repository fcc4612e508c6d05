//! Which statements of a script have run: for the check of a recipe, whose other runs pay nothing for it.
//!
//! A mark is written before each statement of a block. The literal pass writes it, as it writes literals, so that places
//! still lead back to what was typed.

use super::read_script::ReadScript;
use super::text::rewrite::RAN;
use super::tree::{Node, What};
use rhai::{Dynamic, Engine};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// Functions that are no part of an order.
const LEFT_OUT: [&str; 2] = ["inputs", "examples"];

/// The numbers of marks by the token before which they stand.
pub(super) type Marks = Rc<BTreeMap<usize, usize>>;

#[derive(Debug, Default)]
struct Noted {
    /// The file and the byte of each statement, by its number.
    places: Vec<(String, usize)>,
    ran: BTreeSet<usize>,
}

/// What has run so far, shared by an engine and its helper files.
#[derive(Clone, Debug, Default)]
pub(crate) struct Runs(Rc<RefCell<Noted>>);

impl Runs {
    /// Lets an engine note what runs.
    pub(super) fn register(&self, engine: &mut Engine) {
        let noted = Rc::clone(&self.0);
        // Registered raw, because the compiler would call it once and for all otherwise.
        engine.register_raw_fn(RAN, [std::any::TypeId::of::<i64>()], move |_, arguments| {
            let number = arguments.first().and_then(|number| number.as_int().ok());
            if let Some(number) = number.and_then(|number| usize::try_from(number).ok()) {
                noted.borrow_mut().ran.insert(number);
            }
            Ok(Dynamic::UNIT)
        });
    }

    /// The marks of a file, numbered on from those of other files.
    pub(super) fn marks(&self, file: &str, script: &ReadScript) -> Marks {
        let mut noted = self.0.borrow_mut();
        let mut marks = BTreeMap::new();
        let functions = script.tree.functions.iter();
        let mut found = Vec::new();
        for function in functions.filter(|function| !LEFT_OUT.contains(&function.name.as_str())) {
            found.extend(&function.body);
            function.body.iter().for_each(|node| node.each(&mut |node| found.extend(in_blocks(node))));
        }
        for statement in found {
            let at = statement.start();
            if let Some(token) = script.statement_token(at) {
                marks.entry(token).or_insert_with(|| {
                    noted.places.push((file.to_owned(), at));
                    noted.places.len() - 1
                });
            }
        }
        Rc::new(marks)
    }

    /// Whether the statement around a byte of a file ran; `None` where there is no mark before it.
    pub(crate) fn has_run(&self, file: &str, at: usize) -> Option<bool> {
        let noted = self.0.borrow();
        let before = noted.places.iter().enumerate().filter(|(_, (known, start))| known == file && *start <= at);
        let (number, _) = before.max_by_key(|(_, (_, start))| *start)?;
        Some(noted.ran.contains(&number))
    }

    /// The bytes of the statements of a file that never ran.
    pub(crate) fn never(&self, file: &str) -> Vec<usize> {
        let noted = self.0.borrow();
        let places = noted.places.iter().enumerate();
        let never = places.filter(|(number, (known, _))| known == file && !noted.ran.contains(number));
        never.map(|(_, (_, at))| *at).collect()
    }
}

/// The statements of the blocks right inside a node.
fn in_blocks(node: &Node) -> Vec<&Node> {
    match &node.what {
        What::Block(nodes) => nodes.iter().collect(),
        What::If { then, otherwise, .. } => then.iter().chain(otherwise).collect(),
        What::While { body, .. } | What::For { body, .. } => body.iter().collect(),
        What::Function(function) => function.body.iter().collect(),
        _ => Vec::new(),
    }
}
