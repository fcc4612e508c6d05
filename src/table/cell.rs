//! One typed value in a table, or none.

use crate::quantity::{Measure, Quantity, number};

/// The content of one cell of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Cell {
    /// Nothing: not asked for, not known, without a price. Never the same as zero.
    #[default]
    Blank,
    /// A text.
    Text(String),
    /// A whole number of pieces, strips, rolls.
    Count(i64),
    /// A plain number.
    Number(f64),
    /// Yes or no.
    Flag(bool),
    /// A quantity, including money.
    Quantity(Quantity),
}

impl Cell {
    /// A count of items in memory.
    pub fn count(size: usize) -> Self {
        Self::Count(number::from_size(size))
    }

    /// Whether the cell is blank.
    pub fn is_blank(&self) -> bool {
        matches!(self, Self::Blank)
    }

    /// Names the content in a sentence: "a text", "a length".
    pub fn noun(&self) -> String {
        match self {
            Self::Blank => "nothing".to_owned(),
            Self::Text(_) => "a text".to_owned(),
            Self::Count(_) => "a count".to_owned(),
            Self::Number(_) => "a plain number".to_owned(),
            Self::Flag(_) => "a yes or no".to_owned(),
            Self::Quantity(quantity) => quantity.dimension().noun(),
        }
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<i64> for Cell {
    fn from(count: i64) -> Self {
        Self::Count(count)
    }
}

impl From<f64> for Cell {
    fn from(value: f64) -> Self {
        Self::Number(value)
    }
}

impl From<bool> for Cell {
    fn from(flag: bool) -> Self {
        Self::Flag(flag)
    }
}

impl From<Quantity> for Cell {
    fn from(quantity: Quantity) -> Self {
        Self::Quantity(quantity)
    }
}

impl<K> From<Measure<K>> for Cell
where
    Quantity: From<Measure<K>>,
{
    fn from(measure: Measure<K>) -> Self {
        Self::Quantity(Quantity::from(measure))
    }
}

impl<T: Into<Cell>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Blank, Into::into)
    }
}
