//! What sort of error a diagnostic reports: the part that code may branch on.

use serde::{Deserialize, Serialize};

/// The sort of an error.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum DiagnosticKind {
    /// An error that nobody needs to tell from others.
    #[default]
    Error,
    /// The text cannot be read.
    Syntax,
    /// A name that stands for nothing here.
    UnknownName(String),
    /// Values that do not go together, or another kind of value than is needed.
    Unlike,
    /// A figure beyond what can be computed or made.
    OutOfRange,
    /// An order that is turned away because of one input. The input's name is not part of the message.
    Refusal {
        /// The input to blame.
        input: String,
    },
    /// A script that exceeded one of its limits.
    Limit,
    /// Somebody asked for the stop; nothing is wrong.
    Stopped,
    /// Files and processes.
    System,
}
