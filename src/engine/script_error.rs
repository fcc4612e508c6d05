//! Errors of host functions: values that are not yet diagnostics with a span.

use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::quantity::{QuantityError, Style};
use rhai::{Dynamic, EvalAltResult, Position};

/// The part of the typed text to mark.
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

/// An error met while a script ran.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ScriptError {
    /// The kind; code may branch on it.
    pub kind: DiagnosticKind,
    /// What is wrong, in the user's words.
    pub message: String,
    /// What to type instead; `(…)` in it is replaced by the marked argument as typed.
    pub hint: Option<String>,
    /// The part to mark.
    pub marked: Marked,
}

impl ScriptError {
    /// An error that marks the whole call.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), ..Self::default() }
    }

    /// Converts the error of a formula or a table.
    pub fn of(error: &impl Diagnose, style: &Style) -> Self {
        Self { kind: error.kind(), message: error.message(style), hint: error.hint(), marked: Marked::Whole }
    }

    /// Adds a hint.
    #[must_use]
    pub fn hinting(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }

    /// Sets or clears the hint.
    #[must_use]
    pub fn with_hint(self, hint: Option<String>) -> Self {
        Self { hint, ..self }
    }

    /// Sets what to mark.
    #[must_use]
    pub fn marking(self, marked: Marked) -> Self {
        Self { marked, ..self }
    }

    /// Sets the kind.
    #[must_use]
    pub fn of_kind(self, kind: DiagnosticKind) -> Self {
        Self { kind, ..self }
    }

    /// Makes it a refusal of an order because of one input.
    #[must_use]
    pub fn refusing(self, input: &str) -> Self {
        self.of_kind(DiagnosticKind::Refusal { input: input.to_owned(), typing: None })
    }
}

impl From<QuantityError> for ScriptError {
    fn from(error: QuantityError) -> Self {
        Self::of(&error, &Style::default())
    }
}

impl From<ScriptError> for Diagnostic {
    fn from(error: ScriptError) -> Self {
        Self { kind: error.kind, message: error.message, hint: error.hint, ..Self::default() }
    }
}

impl From<ScriptError> for Box<EvalAltResult> {
    fn from(error: ScriptError) -> Self {
        // The script engine fills in the position of the call.
        Self::new(EvalAltResult::ErrorRuntime(Dynamic::from(error), Position::NONE))
    }
}
