//! What can be wrong with a workshop file, and the words for it.
//!
//! Every message says what was found and what is allowed; the hint says what to type.

use crate::diagnostic::Diagnostic;
use crate::quantity::{Dimension, LiteralErrorKind};
use crate::table::csv_file::{CsvErrorKind, FileErrorKind, Located, nouns};
use std::fmt;

/// An error of a workshop file.
pub(crate) type WorkshopFileError = Located<WorkshopFileErrorKind>;

/// What can be wrong with a workshop file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WorkshopFileErrorKind {
    /// An error that any CSV file can have.
    Csv {
        /// The error.
        error: CsvErrorKind,
        /// A correct example of the field or the headings, if known.
        example: Option<String>,
    },
    /// The file was given twice.
    GivenTwice,
    /// A required column is missing.
    MissingColumn,
    /// A heading that is not a column of this file.
    UnknownColumn {
        /// The heading.
        written: String,
        /// The most similar column.
        nearest: Option<String>,
        /// All columns of this file.
        known: Vec<&'static str>,
    },
    /// The unit in brackets behind a heading measures something else.
    HeadingMeasure {
        /// The text in the brackets.
        written: String,
        /// What it measures.
        given: Dimension,
        /// What the column measures.
        needed: Vec<Dimension>,
        /// A suitable unit.
        example: String,
    },
    /// A field below an empty heading is not blank.
    NoHeading {
        /// The text of the field.
        written: String,
    },
    /// A field with a line break.
    LineBreak,
    /// An unprintable character.
    Unprintable,
    /// A required field is blank.
    Blank {
        /// What to type.
        example: String,
    },
    /// A figure of zero or less that must be above zero.
    NotPositive {
        /// The text of the field.
        written: String,
    },
    /// A figure below zero.
    Negative {
        /// The text of the field.
        written: String,
    },
    /// A figure above its limit.
    TooMuch {
        /// The text of the field.
        written: String,
        /// The limit, as in "at most 100 %".
        limit: &'static str,
    },
    /// A count that is not a whole number.
    NotWhole {
        /// The text of the field.
        written: String,
    },
    /// A word that is not allowed in this column.
    UnknownWord {
        /// The text of the field.
        written: String,
        /// The allowed words.
        allowed: Vec<&'static str>,
        /// The most similar word.
        nearest: Option<String>,
    },
    /// A name that an earlier line has.
    RepeatedName {
        /// The name.
        written: String,
        /// The earlier line.
        first_line: u64,
    },
    /// A material that is not in materials.csv.
    NoSuchMaterial {
        /// The name.
        written: String,
        /// The most similar material.
        nearest: Option<String>,
    },
    /// A blank field that is required because of another field of the row.
    Needed {
        /// Why, as a clause: "it is sold by the put-up".
        because: String,
        /// What to type.
        example: String,
    },
    /// A field that must be blank because of another field of the row.
    NotNeeded {
        /// The text of the field.
        written: String,
        /// Why, as a clause: "the row is an operation".
        because: String,
    },
    /// The flat length of a test strip does not match its pieces.
    FlatDisagrees {
        /// The text of the flat length.
        written: String,
        /// The sum of the pieces: "10 pieces of 6 in less 9 overlaps of 1/2 in lie 55 1/2 in flat".
        sum: String,
    },
    /// A row of a trial differs from its first row.
    Differs {
        /// The text of the field.
        written: String,
        /// The text in the first row.
        first: String,
        /// The line of the first row.
        first_line: u64,
    },
    /// There are headings and no rows below them.
    NoRows {
        /// What the rows are, such as "pieces".
        noun: &'static str,
    },
    /// A row differs from the first row in something that all rows must have in common.
    NotAlike {
        /// The text of the field.
        written: String,
        /// The text in the first row.
        first: String,
        /// The line of the first row.
        first_line: u64,
    },
    /// A trial has a later pass but not the one before it.
    NoEarlierPass {
        /// The trial.
        trial: String,
        /// The pass that is missing.
        missing: usize,
    },
}

impl WorkshopFileErrorKind {
    /// Wraps a CSV error, with a correct example of the field or the headings.
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
            Self::NoRows { noun } => write!(f, "there are headings and no {noun} below them"),
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

/// The hint for a CSV error in a file whose columns have fixed names.
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
            LiteralErrorKind::NotAQuantity { .. } | LiteralErrorKind::Trailing { .. } => type_like(example),
            kind => kind.hint().unwrap_or_else(|| type_like(example)),
        },
        CsvErrorKind::Spread { .. } => "type the middle alone".to_owned(),
        CsvErrorKind::NoUnit { unit: Some(unit), .. } => {
            format!("type {example}, or put the unit into the heading: “{column} ({unit})”")
        }
        CsvErrorKind::NoUnit { unit: None, .. } => format!("type {example}"),
        CsvErrorKind::Unlike { .. } => type_like(example),
    }
}

fn type_like(example: &str) -> String {
    format!("type it like {example}")
}

/// The text in quotation marks, or "nothing" if it is empty.
fn quoted(written: &str) -> String {
    if written.is_empty() { "nothing".to_owned() } else { format!("“{written}”") }
}

/// Joins words: "cloth, roll or thread".
pub(super) fn either(words: &[&str]) -> String {
    match words.split_last() {
        Some((last, [])) => (*last).to_owned(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
        None => String::new(),
    }
}

/// What a reader refuses, without the place: the person has not seen the file.
pub(super) fn said(error: &WorkshopFileError) -> Diagnostic {
    let said = Diagnostic::new(error.kind.to_string());
    match error.kind.hint(error.column.as_deref().unwrap_or_default()) {
        Some(hint) => said.hinting(hint),
        None => said,
    }
}
