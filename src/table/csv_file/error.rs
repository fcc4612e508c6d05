//! Where an error of a CSV file is, and the kinds of error that every CSV file can have.
//!
//! Workshop files and tables also have kinds of their own; each wraps the common ones and adds advice.

use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Dimension, LiteralError, Style};
use std::fmt;

/// An error of a file, and where it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Located<K> {
    /// The file, as it was given.
    pub file: String,
    /// The line, from 1; `None` for the whole file.
    pub line: Option<u64>,
    /// The heading of the column, without its unit; `None` for the whole line.
    pub column: Option<String>,
    /// What is wrong.
    pub kind: K,
}

/// What a kind of error in a file provides besides its message.
pub trait FileErrorKind: fmt::Display {
    /// What to do about it. `column` is the column's heading, empty if no column is meant.
    fn hint(&self, column: &str) -> Option<String>;
}

impl<K> Located<K> {
    /// An error of the whole file.
    pub(crate) fn new(file: &str, kind: K) -> Self {
        Self { file: file.to_owned(), line: None, column: None, kind }
    }

    pub(crate) fn on_line(self, line: u64) -> Self {
        Self { line: Some(line), ..self }
    }

    pub(crate) fn in_column(self, column: &str) -> Self {
        Self { column: Some(column.to_owned()), ..self }
    }

    /// The same place with another kind.
    pub(crate) fn map<L>(self, kind: impl FnOnce(K) -> L) -> Located<L> {
        Located { file: self.file, line: self.line, column: self.column, kind: kind(self.kind) }
    }
}

/// The message already names the file, the line and the column.
impl<K: FileErrorKind> Diagnose for Located<K> {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        DiagnosticKind::Syntax
    }

    fn hint(&self) -> Option<String> {
        self.kind.hint(self.column.as_deref().unwrap_or_default())
    }
}

impl<K: fmt::Display> fmt::Display for Located<K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        if let Some(column) = &self.column {
            write!(f, ", column “{column}”")?;
        }
        write!(f, ": {}", self.kind)
    }
}

impl<K: fmt::Debug + fmt::Display> std::error::Error for Located<K> {}

/// What can be wrong with any CSV file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CsvErrorKind {
    /// A text without even a line of headings.
    Empty,
    /// A `sep=` line with a sign other than `,` or `;`.
    Separator {
        /// The sign.
        written: String,
    },
    /// Two columns with one heading.
    RepeatedColumn,
    /// Brackets after a heading that are not a unit.
    HeadingUnit {
        /// The text in the brackets.
        written: String,
        /// The closest unit.
        nearest: Option<&'static str>,
    },
    /// More or fewer fields than headings.
    Ragged {
        /// How many fields.
        found: usize,
        /// How many headings.
        headings: usize,
        /// The sign between fields.
        separator: char,
    },
    /// The decimal mark of the other dialect.
    DecimalMark {
        /// The field.
        written: String,
        /// Whether this file writes a decimal comma.
        comma: bool,
    },
    /// A figure that cannot be read.
    NotRead {
        /// The field.
        written: String,
        /// What is wrong with it.
        error: LiteralError,
    },
    /// A measure with ± where one figure is needed.
    Spread {
        /// The field.
        written: String,
    },
    /// A bare number where one with a unit is needed.
    NoUnit {
        /// The field.
        written: String,
        /// A unit that would do in the heading; `None` if the heading may have none.
        unit: Option<String>,
        /// What needs a unit.
        needed_by: NeededBy,
    },
    /// A figure of another dimension than needed.
    Unlike {
        /// The field.
        written: String,
        /// Its dimension.
        given: Dimension,
        /// The dimensions it may have.
        needed: Vec<Dimension>,
        /// What needs one of those.
        needed_by: NeededBy,
    },
}

/// What requires a measure in a field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NeededBy {
    /// The column, known by its name.
    Column,
    /// The unit in the heading.
    Heading {
        /// The unit as written.
        unit: String,
    },
    /// Another field of the column.
    Field {
        /// That field.
        written: String,
        /// Its line.
        line: u64,
    },
}

impl fmt::Display for CsvErrorKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the file is empty"),
            Self::Separator { written } => write!(f, "“{written}” names no sign that can stand between fields"),
            Self::RepeatedColumn => write!(f, "the column is there twice"),
            Self::HeadingUnit { written, .. } => write!(f, "“{written}” in the heading is not a unit"),
            Self::Ragged { found, headings, .. } => {
                let are = if *headings == 1 { "is" } else { "are" };
                write!(
                    f,
                    "the line has {} but there {are} {}",
                    pluralized(*found, "field"),
                    pluralized(*headings, "heading")
                )
            }
            Self::DecimalMark { written, comma: true } => {
                write!(f, "“{written}” has a point, and this file writes a decimal comma")
            }
            Self::DecimalMark { written, comma: false } => {
                write!(f, "“{written}” has a comma, and this file writes a decimal point")
            }
            Self::NotRead { error, .. } => error.fmt(f),
            Self::Spread { written } => write!(f, "“{written}” is a spread; one figure is needed"),
            Self::NoUnit { written, unit, needed_by } => match needed_by {
                NeededBy::Column if unit.is_some() => {
                    write!(f, "“{written}” has no unit, and the heading has none either")
                }
                NeededBy::Column | NeededBy::Heading { .. } => write!(f, "“{written}” has no unit"),
                NeededBy::Field { written: other, line } => {
                    write!(f, "“{written}” has no unit, and “{other}” on line {line} has one")
                }
            },
            Self::Unlike { written, given, needed, needed_by } => {
                let (given, needed) = (given.noun(), nouns(needed));
                match needed_by {
                    NeededBy::Column => write!(f, "“{written}” is {given}; {needed} is needed"),
                    NeededBy::Heading { unit } => {
                        write!(f, "“{written}” is {given}, and “{unit}” in the heading measures {needed}")
                    }
                    NeededBy::Field { written: other, line } => {
                        write!(f, "“{written}” is {given}, and “{other}” on line {line} is {needed}")
                    }
                }
            }
        }
    }
}

/// “a length”, “an amount of money or a price by the length”.
pub(crate) fn nouns(dimensions: &[Dimension]) -> String {
    dimensions.iter().map(|dimension| dimension.noun()).collect::<Vec<_>>().join(" or ")
}

/// “1 field”, “3 fields”.
pub(crate) fn pluralized(count: usize, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}
