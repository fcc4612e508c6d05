//! An answer to an input as it reaches a recipe: text as typed, or an exact value.
//!
//! Never here: the meaning of an answer, which the kind of its input decides.

use crate::quantity::Quantity;
use crate::ticket::TicketValue;
use serde::{Deserialize, Serialize};

/// An answer to one input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum InputAnswer {
    /// Text as typed on a command line, at a question or in a file.
    Typed(String),
    /// Text of goods without a name, `any wide at cp`, with the values of the expressions in it that read cells.
    Goods(String, Vec<(String, TicketValue)>),
    /// A value, such as that of a page's cell. A text counts as typed if the input takes words or the name of a trial.
    Value(TicketValue),
}

impl From<String> for InputAnswer {
    fn from(typed: String) -> Self {
        Self::Typed(typed)
    }
}

impl From<&str> for InputAnswer {
    fn from(typed: &str) -> Self {
        Self::Typed(typed.to_owned())
    }
}

impl From<TicketValue> for InputAnswer {
    fn from(value: TicketValue) -> Self {
        Self::Value(value)
    }
}

impl From<Quantity> for InputAnswer {
    fn from(quantity: Quantity) -> Self {
        Self::Value(TicketValue::Quantity(quantity))
    }
}
