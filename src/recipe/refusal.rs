//! Why an order is turned away, by input.
//!
//! Never here: faults of the recipe itself.

use crate::engine::Problem;
use serde::{Deserialize, Serialize};
use std::fmt;

/// Why an order cannot be made as it was given.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Refusal {
    /// The input that is to blame.
    pub input: String,
    /// What is wrong with it.
    pub message: String,
    /// What to give instead.
    pub hint: Option<String>,
}

impl Refusal {
    /// A problem with the answer to an input.
    pub(super) fn of(input: &str, problem: Problem) -> Self {
        Self { input: input.to_owned(), message: problem.message, hint: problem.hint }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.input, self.message)?;
        match &self.hint {
            Some(hint) => write!(f, "\n  {hint}"),
            None => Ok(()),
        }
    }
}
