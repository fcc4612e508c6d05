//! The world outside a page: recipes, files and the workshop, and which of them its cells depend on.

use crate::diagnostic::Diagnostic;
use crate::engine::Host;
use crate::quantity::Quantity;
use crate::recipe::{Input, InputAnswer};
use rhai::{Dynamic, Scope};
use std::fmt;
use std::rc::Rc;

/// Gives a page access to recipes and files. The terminal implements it.
pub trait World {
    /// Returns the inputs of a recipe.
    fn inputs(&mut self, recipe: &str) -> Result<Rc<[Input]>, Diagnostic>;
    /// Runs a recipe; returns its ticket as a cell value.
    fn run(&mut self, recipe: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic>;
    /// Runs a recipe up to its ticket, without a plan: what the recipe adds after cutting is missing.
    fn make(&mut self, recipe: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        self.run(recipe, answers)
    }
    /// Reads the table in a file as a cell value.
    fn read(&mut self, file: &str) -> Result<Dynamic, Diagnostic>;
    /// Returns a value of the workshop by the name that a page gives it, such as `wage` or `white_lawn`; `None` if the
    /// workshop has none of that name.
    fn workshop_value(&mut self, _name: &str) -> Option<Dynamic> {
        None
    }
    /// Lets figures of the workshop have other values until the next call; each has its name, such as `wage` or
    /// `white_lawn.price`. None: the workshop is as it is.
    fn suppose(&mut self, figures: &[(&str, Quantity)]) -> Result<(), Diagnostic> {
        match figures.first() {
            None => Ok(()),
            Some((name, _)) => Err(Diagnostic::new(format!("there is no “{name}” in the workshop"))),
        }
    }
}

/// A world without recipes and files.
#[derive(Debug, Default)]
pub struct NoWorld;

impl World for NoWorld {
    fn inputs(&mut self, recipe: &str) -> Result<Rc<[Input]>, Diagnostic> {
        Err(Diagnostic::new(format!("there is no recipe “{recipe}”")))
    }

    fn run(&mut self, recipe: &str, _: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        Err(Diagnostic::new(format!("there is no recipe “{recipe}”")))
    }

    fn read(&mut self, file: &str) -> Result<Dynamic, Diagnostic> {
        Err(Diagnostic::new(format!("there is no file {file}")))
    }
}

/// Something outside the page that a cell depends on: when it changes, its readers are stale.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// The workshop's files.
    Workshop,
    /// A recipe, by name or file.
    Recipe(String),
    /// A file.
    File(String),
}

impl Source {
    /// Its name in the graph. It contains a space, which no cell's name does.
    pub(super) fn node_name(&self) -> String {
        match self {
            Self::Workshop => "the workshop".to_owned(),
            Self::Recipe(name) => format!("recipe {name}"),
            Self::File(name) => format!("file {name}"),
        }
    }
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Workshop => write!(f, "the workshop"),
            Self::Recipe(name) | Self::File(name) => write!(f, "{name}"),
        }
    }
}

/// How far an order is computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// Until its ticket is made: enough for its figures and inputs.
    Made,
    /// Including its plan.
    Planned,
}

/// The context in which a formula is evaluated.
pub(super) struct EvalContext<'s> {
    pub(super) host: &'s Host,
    pub(super) world: &'s mut dyn World,
    /// The cells it reads.
    pub(super) scope: &'s mut Scope<'static>,
    /// Returns all names of the page, for “did you mean”; called only if a name is unknown.
    pub(super) names: &'s dyn Fn() -> Vec<String>,
    pub(super) stage: Stage,
}
