//! Diagnostics for the errors of `quantity`, which does not know diagnostics.

use super::diagnose::Diagnose;
use super::diagnostic::Diagnostic;
use super::kind::DiagnosticKind;
use super::span::Span;
use crate::quantity::{LiteralError, QuantityError, Style};

/// The help topic on how measures are typed.
const UNITS: &str = "units";

impl Diagnose for QuantityError {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::Unlike { .. } | Self::WrongDimension { .. } => DiagnosticKind::Unlike,
            Self::OutOfRange => DiagnosticKind::OutOfRange,
            _ => DiagnosticKind::Error,
        }
    }

    fn hint(&self) -> Option<String> {
        Self::hint(self)
    }
}

impl Diagnose for LiteralError {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        DiagnosticKind::Syntax
    }

    fn hint(&self) -> Option<String> {
        self.kind.hint()
    }

    fn topic(&self) -> Option<String> {
        Some(UNITS.to_owned())
    }
}

/// A diagnostic for a literal that cannot be read, marked in its text.
pub fn literal_diagnostic(file: Option<&str>, typed: &str, error: &LiteralError) -> Diagnostic {
    error.diagnostic(&Style::default()).at(Span::in_text(file, typed, vec![error.span.clone()]))
}
