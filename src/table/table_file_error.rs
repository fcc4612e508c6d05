//! Errors of a table in a CSV file, and their wording.

use super::csv_file::{CsvErrorKind, FileErrorKind, Located, NeededBy, nouns, pluralized};
use super::error::TableError;
use crate::diagnostic::Diagnose;
use crate::quantity::LiteralError;
use std::fmt;

/// An error of a table in a CSV file.
pub(crate) type TableFileError = Located<TableFileErrorKind>;

/// What can be wrong with a table in a CSV file.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum TableFileErrorKind {
    /// An error that any CSV file can have.
    Csv(CsvErrorKind),
    /// A column without a heading.
    NoHeading {
        /// The column's position, from 1.
        position: usize,
    },
    /// Brackets after a heading that cannot be a unit here, such as another currency.
    HeadingNotRead(LiteralError),
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
        /// The field.
        written: String,
        /// A figure of the column.
        like: String,
    },
    /// A whole number with a leading zero, among figures.
    ZeroBefore {
        /// The field.
        written: String,
    },
    /// A length whose decimal differs from its reading on the tape.
    TapeDiffers {
        /// The decimal field in quotes, or "a blank".
        decimal: String,
        /// The tape field.
        tape: String,
    },
    /// A word among units that is not a unit.
    NotAUnit {
        /// The word.
        written: String,
        /// The closest unit.
        nearest: Option<&'static str>,
    },
    /// A unit without a number before it.
    UnitAlone {
        /// The field in place of a number.
        written: String,
        /// The unit.
        unit: String,
    },
    /// Further errors of the same column that are not listed.
    More {
        /// How many.
        count: usize,
    },
    /// An error of the table itself.
    Table(TableError),
}

impl From<CsvErrorKind> for TableFileErrorKind {
    fn from(error: CsvErrorKind) -> Self {
        Self::Csv(error)
    }
}

impl fmt::Display for TableFileErrorKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Csv(CsvErrorKind::Spread { written }) => {
                write!(f, "“{written}” is a measure with ±, which a table cannot hold")
            }
            Self::Csv(error) => error.fmt(f),
            Self::NoHeading { position } => write!(f, "column {position} has no heading"),
            Self::HeadingNotRead(error) => error.fmt(f),
            Self::TooManyRows { rows, most } => write!(f, "the table has {rows} rows; at most {most} can be read"),
            Self::TooManyColumns { columns, most } => {
                write!(f, "the table has {columns} columns; at most {most} can be read")
            }
            Self::NotAFigure { written, like } => {
                write!(f, "“{written}” is not a figure, and most of the column are, such as {like}")
            }
            Self::ZeroBefore { written } => write!(f, "“{written}” has a zero before it, as a mark or a code has"),
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
            Self::More { count } => write!(f, "{} of this kind in the column", pluralized(*count, "more fault")),
            Self::Table(error) => error.fmt(f),
        }
    }
}

/// Advice for a column that holds names and not figures.
const AS_TEXT: &str = "write (text) behind the heading if the column holds names";

impl FileErrorKind for TableFileErrorKind {
    fn hint(&self, column: &str) -> Option<String> {
        let hint = match self {
            Self::Csv(error) => csv_hint(error, column),
            Self::NoHeading { .. } => "name it in the first line, or take the column away".to_owned(),
            Self::HeadingNotRead(error) => return error.kind.hint(),
            Self::TooManyRows { most, .. } => format!("split the file into parts of at most {most} rows"),
            Self::TooManyColumns { .. } => "take away the columns that are not needed".to_owned(),
            Self::NotAFigure { .. } => format!("leave it blank where nothing is known; or {AS_TEXT}"),
            Self::ZeroBefore { .. } => format!("take the zero away if it is a number; or {AS_TEXT}"),
            Self::TapeDiffers { .. } => "change both, or take the column as the tape reads away".to_owned(),
            Self::NotAUnit { nearest, .. } => return nearest.map(|nearest| format!("did you mean “{nearest}”?")),
            Self::UnitAlone { .. } => "give the number in the column before the unit, or leave both blank".to_owned(),
            Self::More { .. } => return None,
            Self::Table(error) => return error.hint(),
        };
        Some(hint)
    }
}

/// Advice on an error that any CSV file can have, for a file that may have any column.
fn csv_hint(error: &CsvErrorKind, column: &str) -> String {
    match error {
        CsvErrorKind::Empty => "the first line names the columns: order,cloth,width (in)".to_owned(),
        CsvErrorKind::Separator { .. } => "use a comma or a semicolon".to_owned(),
        CsvErrorKind::RepeatedColumn => "give each column a name of its own".to_owned(),
        CsvErrorKind::HeadingUnit { nearest: Some(nearest), .. } => {
            format!("did you mean “{nearest}”? Leave the brackets out if it is no unit")
        }
        CsvErrorKind::HeadingUnit { nearest: None, .. } => "leave the brackets out if it is no unit".to_owned(),
        CsvErrorKind::Ragged { found, headings, separator } if found > headings => {
            format!("put a field that has “{separator}” in it between quotes: \"…{separator} …\"")
        }
        CsvErrorKind::Ragged { .. } => "leave a field blank where there is nothing to say".to_owned(),
        CsvErrorKind::DecimalMark { comma: true, .. } => "type 2,5, and no point between thousands".to_owned(),
        CsvErrorKind::DecimalMark { comma: false, .. } => "type 2.5, and no comma between thousands".to_owned(),
        CsvErrorKind::NotRead { error, .. } => match error.kind.hint() {
            Some(hint) if hint.ends_with('?') => format!("{hint} Or {AS_TEXT}"),
            Some(hint) => format!("{hint}; or {AS_TEXT}"),
            None => AS_TEXT.to_owned(),
        },
        CsvErrorKind::Spread { .. } => "give the measure alone, without ±".to_owned(),
        CsvErrorKind::NoUnit { unit, .. } => {
            let heading = unit.as_ref().map(|unit| format!(": {column} ({unit})")).unwrap_or_default();
            format!("give it a unit, or put the unit into the heading for the whole column{heading}; or {AS_TEXT}")
        }
        CsvErrorKind::Unlike { needed, needed_by: NeededBy::Field { .. }, .. } => {
            format!("give {} there, or put it into a column of its own; or {AS_TEXT}", nouns(needed))
        }
        CsvErrorKind::Unlike { needed, .. } => format!("give {} there", nouns(needed)),
    }
}
