//! The columns that a workshop file may have: their names, what they hold, and which are required.
//!
//! Never here: reading them.

use super::names;
use crate::quantity::Dimension;

/// What a column of a file holds.
#[derive(Clone, Copy, Debug)]
pub(super) enum Holds {
    /// A name, a word, a note.
    Words,
    /// A count, without a unit.
    Count,
    /// A quantity of one of these dimensions, with its unit in the field or in the heading.
    Measure(&'static [Dimension]),
}

/// A column that a file may have.
#[derive(Clone, Copy, Debug)]
pub(super) struct Column {
    /// Its heading, without a unit.
    pub(super) name: &'static str,
    /// Whether the file must have it.
    pub(super) needed: bool,
    /// Whether every row must have a figure in it.
    pub(super) filled: bool,
    pub(super) holds: Holds,
    /// The unit that the column's name implies, as in “minutes”.
    pub(super) implied: Option<&'static str>,
}

impl Column {
    pub(super) const fn words(name: &'static str) -> Self {
        Self { name, needed: false, filled: false, holds: Holds::Words, implied: None }
    }

    pub(super) const fn count(name: &'static str) -> Self {
        Self { name, needed: false, filled: false, holds: Holds::Count, implied: None }
    }

    pub(super) const fn measure(name: &'static str, dimensions: &'static [Dimension]) -> Self {
        Self { name, needed: false, filled: false, holds: Holds::Measure(dimensions), implied: None }
    }

    pub(super) const fn needed(self) -> Self {
        Self { needed: true, ..self }
    }

    /// Needed, with a figure in every row.
    pub(super) const fn filled(self) -> Self {
        Self { needed: true, filled: true, ..self }
    }

    /// Whether its heading may have a unit in brackets.
    pub(super) fn may_have_unit(&self) -> bool {
        matches!(self.holds, Holds::Measure(_))
    }
}

/// The columns of one file.
#[derive(Clone, Copy, Debug)]
pub(super) struct Layout {
    pub(super) columns: &'static [Column],
    /// What further columns hold; `None` if there may be none.
    pub(super) others: Option<Holds>,
}

impl Layout {
    /// The column with this name, ignoring case, blanks and hyphens.
    pub(super) fn column(&self, heading: &str) -> Option<&'static Column> {
        let heading = names::word_key(heading);
        self.columns.iter().find(|column| names::word_key(column.name) == heading)
    }

    /// The names of the required columns.
    pub(super) fn needed(&self) -> impl Iterator<Item = &'static str> {
        self.columns.iter().filter(|column| column.needed).map(|column| column.name)
    }

    /// The names of all columns, in the order in which they are written.
    pub(super) fn names(&self) -> Vec<&'static str> {
        self.columns.iter().map(|column| column.name).collect()
    }
}
