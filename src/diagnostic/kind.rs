//! What sort of error a diagnostic reports: the part that code may branch on.

use serde::{Deserialize, Serialize};

/// The sort of an error.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum DiagnosticKind {
    /// Any error that code need not tell from others.
    #[default]
    Error,
    /// The text cannot be read.
    Syntax,
    /// A name that is not defined here.
    UnknownName(String),
    /// Values that do not go together, or a value of the wrong kind.
    Unlike,
    /// A figure beyond what can be computed or made.
    OutOfRange,
    /// An order that is refused because of one input. The input's name is not part of the message.
    Refusal {
        /// The input to blame.
        input: String,
        /// An answer that could be typed instead, such as `waist='36 in'`; `None` if none is known.
        typing: Option<Box<str>>,
    },
    /// An input that the recipe reads though the order need not give it: a fault of the recipe, which turns the order away.
    NotGiven {
        /// The input that is read.
        input: String,
    },
    /// A script that exceeded one of its limits.
    Limit,
    /// A stop that somebody asked for; nothing is wrong.
    Stopped,
    /// An error of files or processes.
    System,
}
