//! What crosses between whoever wants something of a recipe and the process that runs it: plain data.
//!
//! Never here: running.

use super::library::RecipeText;
use crate::diagnostic::Diagnostic;
use crate::recipe::answers::answer::InputAnswer;
use crate::recipe::answers::size_row;
use crate::recipe::answers::wearer;
use crate::recipe::contract::header::Header;
use crate::recipe::contract::input::{AGE, Input, PIECES, SIZE, USE};
use crate::recipe::proof::check::CheckReport;
use crate::recipe::proof::examples::WorkedExample;
use crate::recipe::proof::goods_used::GoodsUsed;
use crate::ticket::Ticket;
use crate::workshop::Workshop;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The form of requests and replies; both sides must have the same.
pub const PROTOCOL: u32 = 6;

/// What is wanted of a recipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Task {
    /// Tell what it makes and asks.
    Describe,
    /// Run it with these answers, each to the input of a name.
    Run(Vec<(String, InputAnswer)>),
    /// Run it with these answers up to the end of `make`: nothing is planned, and the ticket lacks what
    /// `after_cutting` adds.
    Make(Vec<(String, InputAnswer)>),
    /// Check it.
    Check,
    /// Work out its examples.
    Examples,
}

impl Task {
    /// Run it with these answers, typed or known as values.
    pub fn run(given: impl IntoIterator<Item = (impl Into<String>, impl Into<InputAnswer>)>) -> Self {
        Self::Run(given.into_iter().map(|(name, answer)| (name.into(), answer.into())).collect())
    }
}

/// A recipe, a workshop and what is wanted, as text that can cross to another process.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Request {
    /// The form of this request.
    pub protocol: u32,
    /// The recipe.
    pub recipe: RecipeText,
    /// The workshop's files, each a name and its text.
    pub workshop: Vec<(String, String)>,
    /// Words instead of signs in what is shown.
    pub plain: bool,
    /// What is wanted.
    pub task: Task,
}

/// What a recipe makes and asks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Description {
    /// Its top lines.
    pub header: Header,
    /// Its inputs.
    pub inputs: Vec<Input>,
    /// What its cloths and notions are used as, as far as its examples tell.
    pub goods: BTreeMap<String, GoodsUsed>,
}

impl Description {
    /// What an order may answer besides the inputs, each with its question and its terms: `size`, where body
    /// measures are asked, `age`, `use` and `pieces`.
    pub fn answered_besides(&self, workshop: &Workshop) -> Vec<(&'static str, String, String)> {
        let pieces = (PIECES, "how many garments".to_owned(), "a whole number; usually 1".to_owned());
        let asks = "a row of the workshop's sizes, for each body measure that is not answered itself";
        let size = self.inputs.iter().any(|input| input.body.is_some()).then(|| {
            let known = size_row::listed(&workshop.sizes);
            let known = if known.is_empty() { "none is listed in sizes.csv".to_owned() } else { known };
            (SIZE, asks.to_owned(), format!("{known}; may be left out"))
        });
        let age = "such as 5 years or 18 months; may be left out".to_owned();
        let age = (AGE, "the age of the wearer, for cautions and labels".to_owned(), age);
        let usage = (USE, "what it is for, for cautions".to_owned(), format!("{}; may be left out", wearer::uses()));
        size.into_iter().chain([age, usage, pieces]).collect()
    }
}

/// The answer to a request.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reply {
    /// What it makes and asks.
    Described(Description),
    /// The ticket of an order.
    Ran(Box<Ticket>),
    /// The order is turned away; every diagnostic names an input.
    Refused(Vec<Diagnostic>),
    /// The recipe failed.
    Failed(Vec<Diagnostic>),
    /// What the check found.
    Checked(CheckReport),
    /// The tickets of its examples.
    Worked(Vec<WorkedExample>),
}
