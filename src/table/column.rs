//! A column: its heading, and what its cells may hold.

use super::cell::Cell;
use crate::quantity::{Dimension, Liked, Unit, UnitExpression};

/// The unit of a column of quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct ColumnUnit {
    expression: UnitExpression,
    text: String,
    /// Its fields have units of two tapes, and each is shown as written.
    as_written: bool,
}

impl ColumnUnit {
    pub(super) fn of(expression: UnitExpression, text: &str) -> Self {
        Self { expression, text: text.trim().to_owned(), as_written: false }
    }

    /// The same unit for a column whose fields are not all written in it: each is shown as written. Files give all of
    /// them in this unit.
    #[must_use]
    pub fn shown_as_written(self) -> Self {
        Self { as_written: true, ..self }
    }

    /// The same unit for a column that people read in whole units; files give its values in full.
    #[must_use]
    pub fn shown_whole(mut self) -> Self {
        self.expression.liked.whole = true;
        self
    }

    /// Whether each field is shown as written.
    pub fn is_as_written(&self) -> bool {
        self.as_written
    }

    /// What it measures.
    pub fn dimension(&self) -> Dimension {
        self.expression.dimension
    }

    /// The unit itself, to show quantities in.
    pub fn expression(&self) -> UnitExpression {
        self.expression
    }

    /// The one unit that a decimal number counts, as in a heading: `in`, `£/yd`, and `yd` for a column shown in yards
    /// and inches.
    pub fn counted_in(&self, currency: char) -> String {
        let first = self.text.split_whitespace().next().unwrap_or_default();
        first.replace('$', &currency.to_string())
    }

    /// Whether it is a length on the inch tape, which people read in fractions.
    pub fn is_on_the_inch_tape(&self) -> bool {
        let Liked { length, .. } = self.expression.liked;
        self.dimension() == Dimension::LENGTH && matches!(length, Some(Unit::Inch | Unit::Foot | Unit::Yard))
    }
}

/// What the cells of a column may hold; any of them may be blank.
#[derive(Clone, Debug, PartialEq)]
pub enum ColumnKind {
    /// Texts: names, notes.
    Text,
    /// Whole numbers.
    Count,
    /// Plain numbers.
    Number,
    /// Yes or no.
    Flag,
    /// Quantities of one dimension, shown in one unit.
    Quantity(ColumnUnit),
    /// Money in the workshop's currency.
    Money,
    /// Values of any kind, each in its own unit, as in a list of figures. A file gives the unit in a column of its
    /// own.
    Mixed {
        /// The heading of that unit column.
        unit_heading: String,
    },
}

impl ColumnKind {
    /// Whether the cells are read as numbers, and so are aligned right.
    pub fn is_numeric(&self) -> bool {
        matches!(self, Self::Count | Self::Number | Self::Quantity(_) | Self::Money)
    }

    /// Names what it holds, in a sentence.
    pub fn noun(&self) -> String {
        match self {
            Self::Text => "a text".to_owned(),
            Self::Count => "a count".to_owned(),
            Self::Number => "a plain number".to_owned(),
            Self::Flag => "a yes or no".to_owned(),
            Self::Quantity(unit) => unit.dimension().noun(),
            Self::Money => Dimension::MONEY.noun(),
            Self::Mixed { .. } => "a value of any kind".to_owned(),
        }
    }

    /// An example of what may be typed there.
    pub(super) fn example(&self) -> String {
        match self {
            Self::Text => "a name or a note".to_owned(),
            Self::Count => "12".to_owned(),
            Self::Number => "2.5".to_owned(),
            Self::Flag => "yes".to_owned(),
            Self::Quantity(unit) if unit.dimension().money == 1 => unit.text.replacen('$', "$4.50", 1),
            Self::Quantity(unit) => format!("12 {}", unit.counted_in('$')),
            Self::Money => "$4.50".to_owned(),
            Self::Mixed { .. } => "14 1/2 in".to_owned(),
        }
    }

    /// Whether a cell belongs in a column of this kind.
    pub fn takes(&self, cell: &Cell) -> bool {
        match (self, cell) {
            (_, Cell::Blank)
            | (Self::Mixed { .. }, _)
            | (Self::Text, Cell::Text(_))
            | (Self::Count, Cell::Count(_))
            | (Self::Number, Cell::Number(_))
            | (Self::Flag, Cell::Flag(_)) => true,
            (Self::Quantity(unit), Cell::Quantity(quantity)) => quantity.dimension() == unit.dimension(),
            (Self::Money, Cell::Quantity(quantity)) => quantity.dimension() == Dimension::MONEY,
            _ => false,
        }
    }
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Its name, without a unit: `along`, `mark from`.
    pub heading: String,
    /// What it holds.
    pub kind: ColumnKind,
    /// Whether a narrow screen may leave it out, where the others have room then; files never do.
    pub gives_way: bool,
}

impl Column {
    /// The heading as in a file, with the unit that its decimals count: `along (in)`, `cost ($)`.
    pub fn heading_with_unit(&self, currency: char) -> String {
        match &self.kind {
            ColumnKind::Quantity(unit) => format!("{} ({})", self.heading, unit.counted_in(currency)),
            ColumnKind::Money => format!("{} ({currency})", self.heading),
            _ => self.heading.clone(),
        }
    }
}

/// Normalizes a heading for lookups: lower-case letters and digits, with one blank for anything between them, so that
/// `set-up` is found as `set_up`. A heading of signs alone stays as it is.
pub(crate) fn normalized_heading(heading: &str) -> String {
    let lower = heading.trim().to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    if words.is_empty() { lower } else { words.join(" ") }
}
