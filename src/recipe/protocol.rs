//! Requests to the process that runs a recipe, and its replies: plain data.
//!
//! Never here: running.

use super::library::RecipeText;
use crate::diagnostic::Diagnostic;
use crate::recipe::answers::answer::InputAnswer;
use crate::recipe::answers::size_row;
use crate::recipe::answers::washing;
use crate::recipe::answers::wearer;
use crate::recipe::contract::header::Header;
use crate::recipe::contract::input::{AGE, DUE, FOR, Input, ORDER, PIECES, SIZE, USE, WASHING};
use crate::recipe::proof::check::CheckReport;
use crate::recipe::proof::examples::WorkedExample;
use crate::recipe::proof::goods_used::GoodsUsed;
use crate::ticket::Ticket;
use crate::workshop::Workshop;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The version of requests and replies; both sides must have the same.
pub const PROTOCOL: u32 = 10;

/// A task for a recipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Task {
    /// Describe what it makes and asks for.
    Describe,
    /// Run it with these answers, by input name.
    Run(Vec<(String, InputAnswer)>),
    /// Run it with these answers up to the end of `make`: nothing is planned, and the ticket lacks what
    /// `after_cutting` adds.
    Make(Vec<(String, InputAnswer)>),
    /// Look at its text, and run nothing.
    Read,
    /// Check it.
    Check,
    /// Run its examples.
    Examples,
}

impl Task {
    /// Creates a task that runs a recipe with these answers, typed or as values.
    pub fn run(answers: impl IntoIterator<Item = (impl Into<String>, impl Into<InputAnswer>)>) -> Self {
        Self::Run(answers.into_iter().map(|(name, answer)| (name.into(), answer.into())).collect())
    }
}

/// A task with its recipe and workshop, as text that can cross to another process.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Request {
    /// The version of this request.
    pub protocol: u32,
    /// The recipe; `None` for that of the request before.
    pub recipe: Option<RecipeText>,
    /// The workshop's files, each a name and its text; `None` for those of the request before.
    pub workshop: Option<Vec<(String, String)>>,
    /// Whether to show words instead of signs.
    pub plain: bool,
    /// The task.
    pub task: Task,
}

/// What a recipe makes and asks for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Description {
    /// The header of the recipe.
    pub header: Header,
    /// The inputs, in recipe order.
    pub inputs: Vec<Input>,
    /// How its cloth and notion inputs are used, by input, as far as its examples show.
    pub goods: BTreeMap<String, GoodsUsed>,
}

impl Description {
    /// Returns what an order may answer besides the inputs, each with its question and its terms: `size` if body
    /// measures are asked for, `age`, `use`, `washing`, `pieces`, `order`, `for` and `due`.
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
        let terms = format!("{}; asked if the list of materials does not say it", washing::all_words());
        let washing = (WASHING, "how cloth is cut that loses in the first wash".to_owned(), terms);
        let words = "a few words; may be left out".to_owned();
        let mark = [
            (ORDER, "its number or mark, for sheets and pictures".to_owned(), words.clone()),
            (FOR, "whom it is for".to_owned(), words.clone()),
            (DUE, "the day it is due".to_owned(), words),
        ];
        size.into_iter().chain([age, usage, washing, pieces]).chain(mark).collect()
    }
}

/// The answer to a request.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reply {
    /// The description of the recipe.
    Described(Description),
    /// The ticket of an order.
    Ran(Box<Ticket>),
    /// The order is refused; every diagnostic names an input.
    Refused(Vec<Diagnostic>),
    /// The recipe failed.
    Failed(Vec<Diagnostic>),
    /// The result of the check.
    Checked(CheckReport),
    /// The examples that produce a ticket.
    Worked(Vec<WorkedExample>),
}
