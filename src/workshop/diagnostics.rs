//! The errors of workshop files as diagnostics. The message names the file and the line already.

use super::FileFault;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::Style;

impl Diagnose for FileFault {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        DiagnosticKind::Syntax
    }

    fn hint(&self) -> Option<String> {
        Self::hint(self)
    }
}
