//! The refusal of an order: a diagnostic that names one input.
//!
//! Never here: errors of the recipe itself.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::ScriptError;

/// Returns the refusal of the answer to an input.
pub(in crate::recipe) fn refusal(input: &str, error: ScriptError) -> Diagnostic {
    Diagnostic::from(error).of_kind(DiagnosticKind::Refusal { input: input.to_owned(), typing: None })
}

/// Returns the refusal of the answer to an input, with an answer to type instead.
pub(in crate::recipe) fn refusal_with(input: &str, error: ScriptError, answer: &str) -> Diagnostic {
    let quoted = if answer.contains([' ', '$', ',']) { format!("'{answer}'") } else { answer.to_owned() };
    let typing = (answer != "…").then(|| format!("{input}={quoted}").into_boxed_str());
    Diagnostic::from(error).of_kind(DiagnosticKind::Refusal { input: input.to_owned(), typing })
}
