//! The refusal of an order: a diagnostic that names one input.
//!
//! Never here: errors of the recipe itself.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::ScriptError;

/// Returns the refusal of the answer to an input.
pub(in crate::recipe) fn refusal(input: &str, error: ScriptError) -> Diagnostic {
    Diagnostic::from(error).of_kind(DiagnosticKind::Refusal { input: input.to_owned() })
}
