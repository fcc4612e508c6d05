//! What lies outside a page: recipes, files and the workshop, and what of them its cells follow.

use crate::diagnostic::Diagnostic;
use crate::engine::Host;
use crate::recipe::{Input, InputAnswer};
use rhai::{Dynamic, Scope};
use std::fmt;
use std::rc::Rc;

/// What a page asks of the world: recipes to run and files to read. The terminal is one.
pub trait World {
    /// What a recipe asks.
    fn inputs(&mut self, recipe: &str) -> Result<Rc<[Input]>, Diagnostic>;
    /// The ticket of an order, as a value of a cell.
    fn run(&mut self, recipe: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic>;
    /// The same without a plan, so that it lacks what the recipe adds after cutting.
    fn make(&mut self, recipe: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        self.run(recipe, answers)
    }
    /// The table in a file, as a value of a cell.
    fn read(&mut self, file: &str) -> Result<Dynamic, Diagnostic>;
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

/// Something outside the page that a cell follows: when it changes, its readers are stale.
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
    /// Its name in the graph: with a blank, as no cell's name has.
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

/// How far an order is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// Until its ticket is made: enough for its figures and inputs.
    Made,
    /// To its end.
    Planned,
}

/// What a formula is evaluated with.
pub(super) struct EvalContext<'s> {
    pub(super) host: &'s Host,
    pub(super) world: &'s mut dyn World,
    /// The cells it reads.
    pub(super) scope: &'s mut Scope<'static>,
    /// All names of the page, for “did you mean”; asked for only when a name is unknown.
    pub(super) names: &'s dyn Fn() -> Vec<String>,
    pub(super) stage: Stage,
}
