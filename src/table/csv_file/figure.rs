//! One field of a CSV file as a figure: a number, with a unit of its own or without one.
//!
//! Never here: which figure a column needs.

use super::CsvErrorKind;
use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{Quantity, Reading};

/// A figure as written in a field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Figure {
    /// A number without a unit.
    Bare(Quantity),
    /// A number with a unit, including a percentage.
    Measured(Quantity),
}

impl Figure {
    /// Parses a field.
    ///
    /// # Errors
    /// [`CsvErrorKind::DecimalMark`], [`CsvErrorKind::Spread`] and [`CsvErrorKind::NotRead`].
    pub(crate) fn read(written: &str, reading: Reading) -> Result<Self, CsvErrorKind> {
        if has_other_mark(written, reading.decimal_comma) {
            return Err(CsvErrorKind::DecimalMark { written: written.to_owned(), comma: reading.decimal_comma });
        }
        let quantity = quantity(written, written, reading)?;
        let bare = quantity.dimension().is_number() && quantity.liked().named.is_none();
        Ok(if bare { Self::Bare(quantity) } else { Self::Measured(quantity) })
    }

    /// Its value, with or without a unit.
    pub(crate) fn quantity(self) -> Quantity {
        match self {
            Self::Bare(quantity) | Self::Measured(quantity) => quantity,
        }
    }
}

/// Parses a bare number in a unit that is written elsewhere.
///
/// # Errors
/// [`CsvErrorKind::Spread`] and [`CsvErrorKind::NotRead`], about the number.
pub(crate) fn quantity_in(number: &str, unit: &str, reading: Reading) -> Result<Quantity, CsvErrorKind> {
    quantity(&with_unit(number, unit, reading), number, reading)
}

/// Parses `text`; errors quote `field`, which it was made from.
fn quantity(text: &str, field: &str, reading: Reading) -> Result<Quantity, CsvErrorKind> {
    let written = || field.to_owned();
    match literal::read_quantity(text, reading) {
        Ok(LiteralValue::Quantity(quantity)) => Ok(quantity),
        Ok(LiteralValue::Spread { .. }) => Err(CsvErrorKind::Spread { written: written() }),
        Err(error) => Err(CsvErrorKind::NotRead { written: written(), error }),
    }
}

/// Joins a number and a unit into one literal.
pub(crate) fn with_unit(number: &str, unit: &str, reading: Reading) -> String {
    let (sign, number) = match number.strip_prefix(['-', '−']) {
        Some(number) => ("-", number.trim_start()),
        None => ("", number),
    };
    match unit.strip_prefix(reading.currency) {
        Some(rate) => format!("{sign}{}{number}{rate}", reading.currency),
        None if unit.is_empty() => format!("{sign}{number}"),
        None => format!("{sign}{number} {unit}"),
    }
}

/// Whether a figure has the decimal mark of the other dialect between two digits.
fn has_other_mark(written: &str, comma: bool) -> bool {
    let other = if comma { '.' } else { ',' };
    let digit_before =
        |at: usize| written.get(..at).is_some_and(|before| before.ends_with(|c: char| c.is_ascii_digit()));
    let digit_after =
        |at: usize| written.get(at + 1..).is_some_and(|after| after.starts_with(|c: char| c.is_ascii_digit()));
    written.match_indices(other).any(|(at, _)| digit_before(at) && digit_after(at))
}
