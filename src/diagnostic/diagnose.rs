//! The trait by which an error enum of any layer becomes a diagnostic.

use super::diagnostic::Diagnostic;
use super::kind::DiagnosticKind;
use super::span::Label;
use crate::quantity::Style;

/// An error of a layer. The enum carries values; all its sentences are in its implementation of this trait.
pub trait Diagnose {
    /// What is wrong, in a sentence, with measures as `style` shows them.
    fn message(&self, style: &Style) -> String;

    /// What code may branch on.
    fn kind(&self) -> DiagnosticKind {
        DiagnosticKind::default()
    }

    /// What to do or type instead, where that can be said.
    fn hint(&self) -> Option<String> {
        None
    }

    /// Where; the first is the primary one.
    fn labels(&self) -> Vec<Label> {
        Vec::new()
    }

    /// The topic of help, or the function, that explains more.
    fn topic(&self) -> Option<String> {
        None
    }

    /// All of it as data.
    fn diagnostic(&self, style: &Style) -> Diagnostic {
        Diagnostic {
            kind: self.kind(),
            message: self.message(style),
            hint: self.hint(),
            labels: self.labels(),
            topic: self.topic(),
            ..Diagnostic::default()
        }
    }
}
