//! The trait that turns an error enum of any layer into a diagnostic.

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

    /// What to do or type instead, if that is known.
    fn hint(&self) -> Option<String> {
        None
    }

    /// Where the error is; the first label is the primary one.
    fn labels(&self) -> Vec<Label> {
        Vec::new()
    }

    /// The help topic or the function that explains more.
    fn topic(&self) -> Option<String> {
        None
    }

    /// The whole error as data.
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
