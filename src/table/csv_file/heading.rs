//! A heading in two parts: the name of the column, and the unit or remark in brackets after it.
//!
//! Never here: which columns there may be.

use super::CsvErrorKind;
use super::characters::unguarded;
use super::figure::quantity_in;
use crate::quantity::{LiteralError, Quantity, Reading, UnitExpression, literal};

/// A field of the heading row as one line of text, without the guard.
pub(crate) fn heading_text(field: &str) -> String {
    unguarded(field).replace("\r\n", " ").replace(['\r', '\n'], " ").trim().to_owned()
}

/// Splits `width (in)` into `width` and `in`; `None` for the brackets if the heading does not end in them.
pub(crate) fn split_heading(heading: &str) -> (&str, Option<&str>) {
    match heading.strip_suffix(')').and_then(|heading| heading.rsplit_once('(')) {
        Some((name, brackets)) => (name.trim(), Some(brackets.trim())),
        None => (heading, None),
    }
}

/// The unit that a heading gives to every figure below it without one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct HeadingUnit {
    /// As written in the heading.
    pub(crate) written: String,
    pub(crate) expression: UnitExpression,
}

impl HeadingUnit {
    /// Parses the text in the brackets.
    ///
    /// # Errors
    /// A text that is not a unit, and a currency other than the workshop's.
    pub(crate) fn read(written: &str, reading: Reading) -> Result<Self, LiteralError> {
        literal::read_unit(written, reading).map(|expression| Self { written: written.to_owned(), expression })
    }

    /// A bare number in this unit; in the larger of the two units of `yd in`.
    ///
    /// # Errors
    /// [`CsvErrorKind::Spread`] and [`CsvErrorKind::NotRead`].
    pub(crate) fn measure(&self, number: &str, reading: Reading) -> Result<Quantity, CsvErrorKind> {
        let larger = self.written.split_whitespace().next().filter(|_| self.expression.liked.compound);
        quantity_in(number, larger.unwrap_or(&self.written), reading)
    }
}
