//! What a host function says when it cannot answer: a value, not yet a diagnostic at a place in a text.

use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::quantity::{QuantityError, Style};
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

/// An error met while a script ran.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ScriptError {
    /// What code may branch on.
    pub kind: DiagnosticKind,
    /// What is wrong, in the maker's words.
    pub message: String,
    /// What to type instead; `(…)` in it stands for the marked argument as it was typed.
    pub hint: Option<String>,
    /// What to mark.
    pub marked: Marked,
}

impl ScriptError {
    /// An error of a whole call.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), ..Self::default() }
    }

    /// The error of a formula or a table below.
    pub fn of(error: &impl Diagnose, style: &Style) -> Self {
        Self { kind: error.kind(), message: error.message(style), hint: error.hint(), marked: Marked::Whole }
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

    /// Of another kind.
    #[must_use]
    pub fn of_kind(self, kind: DiagnosticKind) -> Self {
        Self { kind, ..self }
    }

    /// Turning an order away because of one input.
    #[must_use]
    pub fn refusing(self, input: &str) -> Self {
        self.of_kind(DiagnosticKind::Refusal { input: input.to_owned() })
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
        // The engine fills in the place of the call.
        Self::new(EvalAltResult::ErrorRuntime(Dynamic::from(error), Position::NONE))
    }
}
