//! One error as data: what is wrong, where, and what to do.

use super::kind::DiagnosticKind;
use super::span::{Label, Span};
use serde::{Deserialize, Serialize};

/// An error to be shown to a person, not yet drawn.
///
/// It has no `Display` on purpose: the caller decides how much of it to show.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Diagnostic {
    /// The only part that code branches on.
    pub kind: DiagnosticKind,
    /// One sentence; empty if `related` alone says what is wrong.
    pub message: String,
    /// What to do or type instead.
    pub hint: Option<String>,
    /// The first is the primary one.
    pub labels: Vec<Label>,
    /// What was being computed, innermost first.
    pub trace: Vec<String>,
    /// The help topic or the function that explains more.
    pub topic: Option<String>,
    /// Further errors that were found with this one, shown after it.
    pub related: Vec<Diagnostic>,
}

impl Diagnostic {
    /// An error with a message and no particular kind.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), ..Self::default() }
    }

    /// Combines several errors under one message, which may be empty.
    pub fn several(message: impl Into<String>, related: Vec<Self>) -> Self {
        Self { related, ..Self::new(message) }
    }

    /// Sets the kind.
    #[must_use]
    pub fn of_kind(self, kind: DiagnosticKind) -> Self {
        Self { kind, ..self }
    }

    /// Sets the hint.
    #[must_use]
    pub fn hinting(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }

    /// Replaces all labels by one on this span.
    #[must_use]
    pub fn at(self, span: Span) -> Self {
        Self { labels: vec![Label::of(span)], ..self }
    }

    /// Whether it only reports that somebody asked for a stop.
    pub fn is_stop(&self) -> bool {
        self.kind == DiagnosticKind::Stopped
    }

    /// The input named by a refusal; `None` for any other kind.
    pub fn input(&self) -> Option<&str> {
        match &self.kind {
            DiagnosticKind::Refusal { input, .. } | DiagnosticKind::NotGiven { input } => Some(input),
            _ => None,
        }
    }
}
