//! What can be wrong with a workshop file, and the words for it.
//!
//! Every message says what was found and what is allowed; the hint says what to type.

use crate::quantity::{Dimension, LiteralErrorKind};
use crate::table::csv_file::{CsvErrorKind, FileErrorKind, Located, nouns};
use std::fmt;

/// An error of a workshop file.
pub(crate) type WorkshopFileError = Located<WorkshopFileErrorKind>;

/// What can be wrong with a workshop file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WorkshopFileErrorKind {
    /// What can be wrong with any CSV file.
    Csv {
        /// What is wrong.
        error: CsvErrorKind,
        /// What could stand there instead, where that is known.
        example: Option<String>,
    },
    /// The file was given twice.
    GivenTwice,
    /// A column that must be there is not.
    MissingColumn,
    /// A heading that no column of this file has.
    UnknownColumn {
        /// The heading.
        written: String,
        /// The column that is written nearly so.
        nearest: Option<String>,
        /// All columns of this file.
        known: Vec<&'static str>,
    },
    /// Brackets behind a heading that hold a unit of something else.
    HeadingMeasure {
        /// What stands in the brackets.
        written: String,
        /// What it measures.
        given: Dimension,
        /// What the column measures.
        needed: Vec<Dimension>,
        /// A unit that would do.
        example: String,
    },
    /// Something stands under an empty heading.
    NoHeading {
        /// What stands there.
        written: String,
    },
    /// A field that goes on over the end of its line.
    LineBreak,
    /// A sign that cannot be seen.
    Unprintable,
    /// A field that must hold something is blank.
    Blank {
        /// What could stand there.
        example: String,
    },
    /// Zero or less where more is needed.
    NotPositive {
        /// What stands there.
        written: String,
    },
    /// Less than zero.
    Negative {
        /// What stands there.
        written: String,
    },
    /// More than can be.
    TooMuch {
        /// What stands there.
        written: String,
        /// What it must stay below, or may be at most.
        limit: &'static str,
    },
    /// A count that is not a whole number.
    NotWhole {
        /// What stands there.
        written: String,
    },
    /// None of the words that may stand in this column.
    UnknownWord {
        /// What stands there.
        written: String,
        /// The words.
        allowed: Vec<&'static str>,
        /// The word that is written nearly so.
        nearest: Option<String>,
    },
    /// A name that stands in an earlier line.
    RepeatedName {
        /// The name.
        written: String,
        /// Where it stands first.
        first_line: u64,
    },
    /// A material that materials.csv does not hold.
    NoSuchMaterial {
        /// The name.
        written: String,
        /// The material that is written nearly so.
        nearest: Option<String>,
    },
    /// Another field of the row makes this one needed.
    Needed {
        /// Why, as a clause: "it is sold by the put-up".
        because: String,
        /// What could stand there.
        example: String,
    },
    /// Another field of the row leaves no room for this one.
    NotNeeded {
        /// What stands there.
        written: String,
        /// Why, as a clause: "the row is an operation".
        because: String,
    },
    /// The flat length of a test strip is not what its pieces make.
    FlatDisagrees {
        /// The flat length that stands there.
        written: String,
        /// The sum the pieces make: "10 pieces of 6 in less 9 overlaps of 1/2 in lie 55 1/2 in flat".
        sum: String,
    },
    /// A row of a trial says something else than its first row.
    Differs {
        /// What stands there.
        written: String,
        /// What stands in the first row.
        first: String,
        /// The line of the first row.
        first_line: u64,
    },
    /// There are headings and nothing below them.
    NoRows {
        /// What is missing.
        what: &'static str,
    },
    /// A row says something else than the first of what all must have in common.
    NotAlike {
        /// What stands there.
        written: String,
        /// What stands in the first row.
        first: String,
        /// The line of the first row.
        first_line: u64,
    },
    /// A trial has a later pass and not the one before it.
    NoEarlierPass {
        /// The trial.
        trial: String,
        /// The pass that is missing.
        missing: usize,
    },
}

impl WorkshopFileErrorKind {
    /// A common error, with what could stand there instead.
    pub(super) fn of_csv(error: CsvErrorKind, example: String) -> Self {
        Self::Csv { error, example: Some(example) }
    }
}

impl From<CsvErrorKind> for WorkshopFileErrorKind {
    fn from(error: CsvErrorKind) -> Self {
        Self::Csv { error, example: None }
    }
}

impl fmt::Display for WorkshopFileErrorKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Csv { error, .. } => error.fmt(f),
            Self::GivenTwice => write!(f, "the file is given twice"),
            Self::MissingColumn => write!(f, "the column is missing"),
            Self::UnknownColumn { written, .. } => write!(f, "“{written}” is not a column of this file"),
            Self::HeadingMeasure { written, given, needed, .. } => {
                write!(f, "“{written}” in the heading measures {}; {} is needed", given.noun(), nouns(needed))
            }
            Self::NoHeading { written } => write!(f, "“{written}” stands under no heading"),
            Self::LineBreak => write!(f, "a field goes on over the end of the line"),
            Self::Unprintable => write!(f, "a sign stands here that cannot be seen"),
            Self::Blank { .. } => write!(f, "nothing stands here"),
            Self::NotPositive { written } => write!(f, "“{written}” is not more than zero"),
            Self::Negative { written } => write!(f, "“{written}” is less than zero"),
            Self::TooMuch { written, limit } => write!(f, "“{written}” is too much; it must be {limit}"),
            Self::NotWhole { written } => write!(f, "“{written}” is not a whole number"),
            Self::UnknownWord { written, allowed, .. } => {
                write!(f, "“{written}” is not one of {}", allowed.join(", "))
            }
            Self::RepeatedName { written, first_line } => write!(f, "“{written}” stands in line {first_line} already"),
            Self::NoSuchMaterial { written, .. } => write!(f, "there is no material “{written}” in materials.csv"),
            Self::Needed { because, .. } => write!(f, "nothing stands here, but {because}"),
            Self::NotNeeded { written, because } => write!(f, "“{written}” cannot stand here, for {because}"),
            Self::FlatDisagrees { written, sum } => write!(f, "“{written}” does not agree with the pieces: {sum}"),
            Self::Differs { written, first, first_line } => {
                write!(f, "“{written}” stands here, but “{first}” in line {first_line} of the same trial")
            }
            Self::NoRows { what } => write!(f, "there are headings and no {what} below them"),
            Self::NotAlike { written, first, first_line } => {
                write!(f, "{} stands here, but {} in line {first_line}", quoted(written), quoted(first))
            }
            Self::NoEarlierPass { trial, missing } => {
                write!(f, "the trial “{trial}” has a later pass but no pass {missing}")
            }
        }
    }
}

impl FileErrorKind for WorkshopFileErrorKind {
    fn hint(&self, column: &str) -> Option<String> {
        Some(match self {
            Self::Csv { error, example } => csv_hint(error, example.as_deref().unwrap_or_default(), column),
            Self::GivenTwice => "keep one of them".to_owned(),
            Self::MissingColumn => format!("add “{column}” to the line of headings"),
            Self::UnknownColumn { nearest: Some(nearest), .. }
            | Self::UnknownWord { nearest: Some(nearest), .. }
            | Self::NoSuchMaterial { nearest: Some(nearest), .. } => format!("did you mean “{nearest}”?"),
            Self::UnknownColumn { known, .. } => format!("the columns are {}", known.join(", ")),
            Self::UnknownWord { allowed, .. } => format!("type {}", either(allowed)),
            Self::NoSuchMaterial { .. } => "add it to materials.csv, or name one that is there".to_owned(),
            Self::HeadingMeasure { example, .. } => format!("type the heading like “{column} ({example})”"),
            Self::NoHeading { .. } => "give the column a heading, or clear the field".to_owned(),
            Self::LineBreak => "close the quotation mark, or write the field in one line".to_owned(),
            Self::Unprintable => "clear the field and type it again".to_owned(),
            Self::Blank { example } | Self::Needed { example, .. } => format!("type {example}"),
            Self::NotPositive { .. } => "type a figure above zero".to_owned(),
            Self::Negative { .. } => "type zero or more".to_owned(),
            Self::TooMuch { limit, .. } => format!("type a figure that is {limit}"),
            Self::NotWhole { .. } => "type a whole number such as 1, 2 or 10".to_owned(),
            Self::RepeatedName { .. } => "give each its own name, or drop one line".to_owned(),
            Self::NotNeeded { .. } => "clear the field".to_owned(),
            Self::FlatDisagrees { .. } => "leave the flat length blank, or correct piece, overlap or pieces".to_owned(),
            Self::Differs { .. } => "correct one of them, or give the row a trial name of its own".to_owned(),
            Self::NoRows { .. } => "write a line for each of them".to_owned(),
            Self::NotAlike { .. } => "one plan has one kind of goods: give each kind its own files".to_owned(),
            Self::NoEarlierPass { .. } => "number the passes 1, 2 and so on".to_owned(),
        })
    }
}

/// What to do about a common kind where the columns are known by name.
fn csv_hint(error: &CsvErrorKind, example: &str, column: &str) -> String {
    match error {
        CsvErrorKind::Empty => format!("its first line must be headings: {example}"),
        CsvErrorKind::Separator { .. } => "type sep=, or sep=; or leave the line out".to_owned(),
        CsvErrorKind::RepeatedColumn => "keep one of the two columns".to_owned(),
        CsvErrorKind::HeadingUnit { nearest: Some(nearest), .. } => format!("did you mean “{nearest}”?"),
        CsvErrorKind::HeadingUnit { nearest: None, .. } => {
            "units are in, ft, yd, mm, cm, m, g, kg, oz, lb, s, min, h, %".to_owned()
        }
        CsvErrorKind::Ragged { found, headings, separator } if found < headings => {
            format!("a blank field needs its sign too: roll{separator}{separator}25 yd")
        }
        CsvErrorKind::Ragged { separator: ',', .. } => {
            "a text with a comma in it needs quotation marks: \"satin, ivory\"".to_owned()
        }
        CsvErrorKind::Ragged { .. } => {
            "a text with a semicolon in it needs quotation marks: \"satin; ivory\"".to_owned()
        }
        CsvErrorKind::DecimalMark { comma: true, .. } => {
            "type 2,5 for two and a half, and no mark between thousands".to_owned()
        }
        CsvErrorKind::DecimalMark { comma: false, .. } => {
            "type 2.5 for two and a half, and no mark between thousands".to_owned()
        }
        CsvErrorKind::NotRead { error, .. } => match &error.kind {
            LiteralErrorKind::NotAQuantity { .. } | LiteralErrorKind::Trailing { .. } => like(example),
            kind => kind.hint().unwrap_or_else(|| like(example)),
        },
        CsvErrorKind::Spread { .. } => "type the middle alone".to_owned(),
        CsvErrorKind::NoUnit { unit: Some(unit), .. } => {
            format!("type {example}, or put the unit into the heading: “{column} ({unit})”")
        }
        CsvErrorKind::NoUnit { unit: None, .. } => format!("type {example}"),
        CsvErrorKind::Unlike { .. } => like(example),
    }
}

fn like(example: &str) -> String {
    format!("type it like {example}")
}

/// What stands there between quotation marks, or that nothing does.
fn quoted(written: &str) -> String {
    if written.is_empty() { "nothing".to_owned() } else { format!("“{written}”") }
}

/// "cloth, roll or thread".
pub(super) fn either(words: &[&str]) -> String {
    match words.split_last() {
        Some((last, [])) => (*last).to_owned(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
        None => String::new(),
    }
}
