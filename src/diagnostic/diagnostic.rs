//! One error as data: what is wrong, where, and what to do.

use super::kind::DiagnosticKind;
use super::span::{Label, Span};
use serde::{Deserialize, Serialize};

/// An error as a person is told of it, not yet drawn.
///
/// It has no `Display` on purpose: whoever shows it decides how much of it is shown.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Diagnostic {
    /// The only part that code branches on.
    pub kind: DiagnosticKind,
    /// One sentence; empty where `related` alone says what is wrong.
    pub message: String,
    /// What to do or type instead.
    pub hint: Option<String>,
    /// The first is the primary one.
    pub labels: Vec<Label>,
    /// What was being worked out, the innermost first.
    pub trace: Vec<String>,
    /// The topic of help, or the function, that explains more.
    pub topic: Option<String>,
    /// Further errors that were found with this one, shown after it.
    pub related: Vec<Diagnostic>,
}

impl Diagnostic {
    /// An error of no particular kind, with a message alone.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), ..Self::default() }
    }

    /// Several errors as one: a line above them, which may be empty, and each of them.
    pub fn several(message: impl Into<String>, related: Vec<Self>) -> Self {
        Self { related, ..Self::new(message) }
    }

    /// Of another kind.
    #[must_use]
    pub fn of_kind(self, kind: DiagnosticKind) -> Self {
        Self { kind, ..self }
    }

    /// With what to do or type instead.
    #[must_use]
    pub fn hinting(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }

    /// Replaces all labels by one on this span.
    #[must_use]
    pub fn at(self, span: Span) -> Self {
        Self { labels: vec![Label::of(span)], ..self }
    }

    /// Whether it only says that somebody asked for a stop.
    pub fn is_stop(&self) -> bool {
        self.kind == DiagnosticKind::Stopped
    }

    /// The input for which an order is turned away.
    pub fn input(&self) -> Option<&str> {
        match &self.kind {
            DiagnosticKind::Refusal { input } => Some(input),
            _ => None,
        }
    }
}
