//! What can be wrong with a table in a CSV text, where it stands, and the words for it.
//!
//! Never here: reading; the words alone.

use super::error::TableError;
use crate::diagnostic::Diagnose;
use crate::quantity::{Dimension, LiteralError};
use std::fmt;

/// One thing wrong with a CSV text.
#[derive(Clone, Debug, PartialEq)]
pub struct CsvFault {
    /// The file.
    pub file: String,
    /// The line, from one, where it is about one.
    pub line: Option<u64>,
    /// The heading of the column, where it is about one.
    pub column: Option<String>,
    /// What is wrong.
    pub kind: CsvFaultKind,
}

/// What can be wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum CsvFaultKind {
    /// Not even a line of headings.
    Empty,
    /// A `sep=` line with another sign than `,` or `;`.
    Separator {
        /// The sign.
        written: String,
    },
    /// A column without a heading.
    NoHeading {
        /// Its place, from one.
        place: usize,
    },
    /// A heading that stands there twice.
    SameHeading,
    /// Something in brackets behind a heading that is nearly a unit.
    HeadingUnit {
        /// What stands there.
        written: String,
        /// The unit it is nearly.
        nearest: &'static str,
    },
    /// Something in brackets behind a heading that cannot be a unit here, as another currency.
    HeadingNotRead(LiteralError),
    /// More or fewer fields than headings.
    Ragged {
        /// How many fields.
        found: usize,
        /// How many headings.
        headings: usize,
        /// What parts them.
        separator: char,
    },
    /// More rows than a table may have here.
    TooManyRows {
        /// How many there are.
        rows: usize,
        /// How many there may be.
        most: usize,
    },
    /// More columns than a table may have here.
    TooManyColumns {
        /// How many there are.
        columns: usize,
        /// How many there may be.
        most: usize,
    },
    /// Words in a column of figures.
    NotAFigure {
        /// What stands there.
        written: String,
        /// A figure of the column.
        like: String,
    },
    /// A figure that cannot be read.
    NotRead {
        /// What stands there.
        written: String,
        /// What is wrong with it.
        fault: LiteralError,
    },
    /// The decimal mark of the other dialect.
    DecimalMark {
        /// What stands there.
        written: String,
        /// Whether this file writes a decimal comma.
        comma: bool,
    },
    /// A measure with ±.
    Spread {
        /// What stands there.
        written: String,
    },
    /// A whole number with a zero before it, among figures.
    ZeroBefore {
        /// What stands there.
        written: String,
    },
    /// Two dimensions in one column.
    Unlike {
        /// What stands there.
        written: String,
        /// What that is.
        given: Dimension,
        /// What stands elsewhere in the column.
        other: String,
        /// On which line.
        other_line: u64,
        /// What that is.
        needed: Dimension,
    },
    /// A bare number in a column whose other fields have units.
    NoUnit {
        /// What stands there.
        written: String,
        /// A field with a unit.
        other: String,
        /// On which line.
        other_line: u64,
        /// The heading with that unit behind it.
        heading: String,
    },
    /// A field of another dimension than the heading says.
    OtherThanHeading {
        /// What stands there.
        written: String,
        /// What that is.
        given: Dimension,
        /// The unit of the heading.
        unit: String,
        /// What that measures.
        needed: Dimension,
    },
    /// A length whose decimal and whose reading on the tape are not the same.
    TapeDiffers {
        /// The decimal, with its unit.
        decimal: String,
        /// The tape.
        tape: String,
    },
    /// A word among units that is none.
    NotAUnit {
        /// What stands there.
        written: String,
        /// The unit it is nearly.
        nearest: Option<&'static str>,
    },
    /// A unit without a number before it.
    UnitAlone {
        /// What stands there instead of a number.
        written: String,
        /// The unit.
        unit: String,
    },
    /// So many more faults in the same column.
    More {
        /// How many.
        count: usize,
    },
    /// What the table itself refuses.
    Table(TableError),
}

impl fmt::Display for CsvFault {
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

impl std::error::Error for CsvFault {}

impl CsvFault {
    /// What to do about it.
    pub fn hint(&self) -> Option<String> {
        self.kind.hint()
    }
}

fn counted(count: usize, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}

impl fmt::Display for CsvFaultKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the file is empty"),
            Self::Separator { written } => write!(f, "“{written}” names no sign that can stand between fields"),
            Self::NoHeading { place } => write!(f, "column {place} has no heading"),
            Self::SameHeading => write!(f, "the column is there twice"),
            Self::HeadingUnit { written, .. } => write!(f, "“{written}” in the heading is not a unit"),
            Self::Ragged { found, headings, .. } => {
                let are = if *headings == 1 { "is" } else { "are" };
                write!(f, "the line has {} but there {are} {}", counted(*found, "field"), counted(*headings, "heading"))
            }
            Self::TooManyRows { rows, most } => write!(f, "the table has {rows} rows; at most {most} can be read"),
            Self::TooManyColumns { columns, most } => {
                write!(f, "the table has {columns} columns; at most {most} can be read")
            }
            Self::NotAFigure { written, like } => {
                write!(f, "“{written}” is not a figure, and most of the column are, such as {like}")
            }
            Self::HeadingNotRead(fault) | Self::NotRead { fault, .. } => fault.fmt(f),
            Self::DecimalMark { written, comma: true } => {
                write!(f, "“{written}” has a point, and this file writes a decimal comma")
            }
            Self::DecimalMark { written, comma: false } => {
                write!(f, "“{written}” has a comma, and this file writes a decimal point")
            }
            Self::Spread { written } => write!(f, "“{written}” is a measure with ±, which a table cannot hold"),
            Self::ZeroBefore { written } => write!(f, "“{written}” has a zero before it, as a mark or a code has"),
            Self::Unlike { written, given, other, other_line, needed } => {
                write!(f, "“{written}” is {}, and “{other}” on line {other_line} is {}", given.noun(), needed.noun())
            }
            Self::NoUnit { written, other, other_line, .. } => {
                write!(f, "“{written}” has no unit, and “{other}” on line {other_line} has one")
            }
            Self::OtherThanHeading { written, given, unit, needed } => {
                write!(f, "“{written}” is {}, and “{unit}” in the heading measures {}", given.noun(), needed.noun())
            }
            Self::TapeDiffers { decimal, tape } => {
                write!(f, "{decimal} is not what stands beside it as the tape reads, “{tape}”")
            }
            Self::NotAUnit { written, .. } => write!(f, "“{written}” is not a unit"),
            Self::UnitAlone { written, unit } if written.is_empty() => {
                write!(f, "the unit “{unit}” has no number before it")
            }
            Self::UnitAlone { written, unit } => {
                write!(f, "“{written}” is no number, and the unit “{unit}” follows it")
            }
            Self::More { count } => write!(f, "{} of this kind in the column", counted(*count, "more fault")),
            Self::Table(fault) => fault.fmt(f),
        }
    }
}

/// How to say that a column holds names and not figures.
const AS_TEXT: &str = "write (text) behind the heading if the column holds names";

impl CsvFaultKind {
    /// What to do about it.
    pub fn hint(&self) -> Option<String> {
        let hint = match self {
            Self::Empty => "the first line names the columns: order,cloth,width (in)".to_owned(),
            Self::Separator { .. } => "use a comma or a semicolon".to_owned(),
            Self::NoHeading { .. } => "name it in the first line, or take the column away".to_owned(),
            Self::SameHeading => "give each column a name of its own".to_owned(),
            Self::HeadingUnit { nearest, .. } => {
                format!("did you mean “{nearest}”? Leave the brackets out if it is no unit")
            }
            Self::HeadingNotRead(fault) => return fault.kind.hint(),
            Self::Ragged { found, headings, separator } if found > headings => {
                format!("put a field that has “{separator}” in it between quotes: \"…{separator} …\"")
            }
            Self::Ragged { .. } => "leave a field blank where there is nothing to say".to_owned(),
            Self::TooManyRows { most, .. } => format!("split the file into parts of at most {most} rows"),
            Self::TooManyColumns { .. } => "take away the columns that are not needed".to_owned(),
            Self::NotAFigure { .. } => format!("leave it blank where nothing is known; or {AS_TEXT}"),
            Self::NotRead { fault, .. } => match fault.kind.hint() {
                Some(hint) if hint.ends_with('?') => format!("{hint} Or {AS_TEXT}"),
                Some(hint) => format!("{hint}; or {AS_TEXT}"),
                None => AS_TEXT.to_owned(),
            },
            Self::DecimalMark { comma: true, .. } => "type 2,5, and no point between thousands".to_owned(),
            Self::DecimalMark { comma: false, .. } => "type 2.5, and no comma between thousands".to_owned(),
            Self::Spread { .. } => "give the measure alone, without ±".to_owned(),
            Self::ZeroBefore { .. } => format!("take the zero away if it is a number; or {AS_TEXT}"),
            Self::Unlike { needed, .. } => {
                format!("give {} there, or put it into a column of its own; or {AS_TEXT}", needed.noun())
            }
            Self::NoUnit { heading, .. } => {
                format!(
                    "give it a unit, or put the unit into the heading for the whole column: {heading}; or {AS_TEXT}"
                )
            }
            Self::OtherThanHeading { needed, .. } => format!("give {} there", needed.noun()),
            Self::TapeDiffers { .. } => "change both, or take the column as the tape reads away".to_owned(),
            Self::NotAUnit { nearest, .. } => {
                return nearest.map(|nearest| format!("did you mean “{nearest}”?"));
            }
            Self::UnitAlone { .. } => "give the number in the column before the unit, or leave both blank".to_owned(),
            Self::More { .. } => return None,
            Self::Table(fault) => return fault.hint(),
        };
        Some(hint)
    }
}
