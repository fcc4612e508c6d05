//! What a host function says when it cannot answer: a value, not yet a fault at a place.

use crate::quantity::QuantityError;
use rhai::{Dynamic, EvalAltResult, Position};

/// What to mark in the text that was typed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Marked {
    /// The call, the operator or the name.
    #[default]
    Whole,
    /// Both sides of an operator.
    Sides,
    /// One argument of a call, counted from zero.
    Argument(usize),
}

/// A problem met while a script ran.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong, in the maker's words.
    pub message: String,
    /// What to type instead.
    pub hint: Option<String>,
    /// What to mark.
    pub marked: Marked,
    /// The input for which an order must be turned away, if that is what happened.
    pub refuses: Option<String>,
}

impl Problem {
    /// A problem with the whole of a call.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), ..Self::default() }
    }

    /// With what to type instead.
    #[must_use]
    pub fn hinting(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }

    /// With what to type instead, where there is something.
    #[must_use]
    pub fn with_hint(self, hint: Option<String>) -> Self {
        Self { hint, ..self }
    }

    /// Marking one part.
    #[must_use]
    pub fn marking(self, marked: Marked) -> Self {
        Self { marked, ..self }
    }

    /// Turning an order away because of one input.
    #[must_use]
    pub fn refusing(self, input: &str) -> Self {
        Self { refuses: Some(input.to_owned()), ..self }
    }
}

impl From<QuantityError> for Problem {
    fn from(fault: QuantityError) -> Self {
        Self::new(fault.to_string()).with_hint(fault.hint())
    }
}

impl From<Problem> for Box<EvalAltResult> {
    fn from(problem: Problem) -> Self {
        // The engine fills in the place of the call.
        Self::new(EvalAltResult::ErrorRuntime(Dynamic::from(problem), Position::NONE))
    }
}
