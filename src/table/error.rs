//! Errors of tables, and their wording.

use super::cell::Cell;
use super::column::Column;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Dimension, LiteralError, Style};
use std::fmt;

/// A table that cannot be built, a row that does not fit, or a question a table cannot answer.
#[derive(Clone, Debug, PartialEq)]
pub enum TableError {
    /// A table without columns.
    NoColumns {
        /// The table's title.
        table: String,
    },
    /// Two columns, or a column and the unit of another, with one heading.
    SameHeading {
        /// The table's title.
        table: String,
        /// The heading.
        heading: String,
    },
    /// A column without a heading.
    NoHeading {
        /// The table's title.
        table: String,
    },
    /// A column's unit that is not a unit.
    UnknownUnit {
        /// The column.
        heading: String,
        /// What is wrong with it.
        error: Box<LiteralError>,
    },
    /// A column's unit with another dimension, as in a length in minutes.
    OtherUnit {
        /// The column.
        heading: String,
        /// The dimension that the column holds.
        needed: Dimension,
        /// The unit.
        unit: String,
        /// The dimension of the unit.
        given: Dimension,
    },
    /// A row with too few or too many cells.
    CellCount {
        /// The table's title.
        table: String,
        /// The row, counted from 1.
        row: usize,
        /// How many columns there are.
        needed: usize,
        /// How many cells the row has.
        given: usize,
    },
    /// A cell that does not belong in its column.
    WrongCell {
        /// The table's title.
        table: String,
        /// The row, counted from 1.
        row: usize,
        /// The column.
        column: Box<Column>,
        /// The cell.
        given: Box<Cell>,
    },
    /// A number that is not finite.
    NotFinite {
        /// The table's title.
        table: String,
        /// The row, counted from 1.
        row: usize,
        /// The column.
        heading: String,
    },
    /// A column that does not exist.
    NoColumn {
        /// The table's title.
        table: String,
        /// The name asked for.
        name: String,
        /// The closest heading.
        nearest: Option<String>,
        /// All headings.
        known: Vec<String>,
    },
    /// A row that does not exist.
    NoRow {
        /// The table's title.
        table: String,
        /// The row asked for, counted from 1.
        row: usize,
        /// How many there are.
        rows: usize,
    },
    /// A total of a column that cannot be added up.
    NoTotal {
        /// The column.
        heading: String,
        /// What it holds, in words.
        holds: String,
    },
    /// A total too large to compute with.
    TotalTooLarge {
        /// The column.
        heading: String,
    },
}

impl fmt::Display for TableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoColumns { table } => write!(f, "the table “{table}” has no columns"),
            Self::SameHeading { table, heading } => {
                write!(f, "the table “{table}” has more than one column “{heading}”")
            }
            Self::NoHeading { table } => write!(f, "a column of the table “{table}” has no heading"),
            Self::UnknownUnit { heading, error } => write!(f, "column “{heading}”: {error}"),
            Self::OtherUnit { heading, needed, unit, given } => {
                write!(f, "column “{heading}” holds {}, and “{unit}” measures {}", needed.noun(), given.noun())
            }
            Self::CellCount { table, row, needed, given } => {
                let columns = if *needed == 1 { "column" } else { "columns" };
                write!(f, "row {row} of “{table}” has {given} of the {needed} {columns}")
            }
            Self::WrongCell { table, row, column, given } => {
                let (heading, needed, given) = (&column.heading, column.kind.noun(), given.noun());
                write!(f, "row {row} of “{table}”: “{heading}” holds {needed}, not {given}")
            }
            Self::NotFinite { table, row, heading } => {
                write!(f, "row {row} of “{table}”: the value of “{heading}” is too large to reckon with")
            }
            Self::NoColumn { table, name, .. } => write!(f, "the table “{table}” has no column “{name}”"),
            Self::NoRow { table, row, rows: 0 } => write!(f, "the table “{table}” is empty; there is no row {row}"),
            Self::NoRow { table, row, rows } => {
                let are = if *rows == 1 { "is 1 row" } else { &format!("are {rows} rows") };
                write!(f, "there {are} in “{table}”, and no row {row}")
            }
            Self::NoTotal { heading, holds } => write!(f, "“{heading}” holds {holds}; it has no total"),
            Self::TotalTooLarge { heading } => write!(f, "the total of “{heading}” is too large to reckon with"),
        }
    }
}

impl std::error::Error for TableError {}

impl Diagnose for TableError {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::UnknownUnit { .. } => DiagnosticKind::Syntax,
            Self::OtherUnit { .. } | Self::WrongCell { .. } | Self::NoTotal { .. } => DiagnosticKind::Unlike,
            Self::NotFinite { .. } | Self::TotalTooLarge { .. } | Self::NoRow { .. } => DiagnosticKind::OutOfRange,
            Self::NoColumn { name, .. } => DiagnosticKind::UnknownName(name.clone()),
            _ => DiagnosticKind::Error,
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::NoColumns { .. } => Some("give it at least one column".to_owned()),
            Self::SameHeading { .. } => Some("give each column a name of its own".to_owned()),
            Self::NoHeading { .. } => Some("give the column a name".to_owned()),
            Self::UnknownUnit { error, .. } => error.kind.hint(),
            Self::OtherUnit { needed, .. } => Some(format!("give it a unit for {}", needed.noun())),
            Self::CellCount { .. } => Some("leave a cell blank where there is nothing to say".to_owned()),
            Self::WrongCell { column, .. } => Some(format!("give something like {}", column.kind.example())),
            Self::NotFinite { .. } | Self::TotalTooLarge { .. } => {
                Some("check the figures it comes from: is one of them far too large?".to_owned())
            }
            Self::NoColumn { nearest: Some(nearest), .. } => Some(format!("did you mean “{nearest}”?")),
            Self::NoColumn { known, .. } => Some(format!("its columns are {}", known.join(", "))),
            Self::NoRow { rows: 0, .. } => None,
            Self::NoRow { rows, .. } => Some(format!("rows are counted from 1 to {rows}")),
            Self::NoTotal { .. } => Some("a total is taken of counts, numbers, measures or money".to_owned()),
        }
    }
}
