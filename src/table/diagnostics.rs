//! The errors of table files as diagnostics. The message names the file and the line already.

use super::CsvFault;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::Style;

impl Diagnose for CsvFault {
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
