//! What can be wrong with a workshop file, where it stands, and the words for it.
//!
//! Every message says what was found and what is allowed; the hint says what to type. Never here: finding
//! the faults.

use crate::quantity::LiteralErrorKind;
use crate::quantity::{Dimension, LiteralError, Unit};
use std::fmt;

/// One thing that is wrong with a workshop file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// The file's name, as it was given.
    pub file: String,
    /// The line, counted from 1; none where it concerns the whole file.
    pub line: Option<u64>,
    /// The column's heading without its unit; none where it concerns the whole line.
    pub column: Option<String>,
    /// What is wrong.
    pub kind: FileFaultKind,
}

/// What can be wrong with a workshop file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileFaultKind {
    /// There is not even a line of headings.
    Empty {
        /// The headings that are needed.
        needed: Vec<&'static str>,
    },
    /// The file was given twice.
    GivenTwice,
    /// A first line `sep=` with something else than a comma or a semicolon.
    Separator {
        /// What stands there.
        written: String,
    },
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
    /// Two columns with one heading.
    RepeatedColumn,
    /// Brackets behind a heading that hold no unit.
    HeadingUnit {
        /// What stands in the brackets.
        written: String,
        /// The unit that is written nearly so.
        nearest: Option<String>,
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
    /// A row with more or fewer fields than there are headings.
    Ragged {
        /// Fields in the row.
        found: usize,
        /// Headings.
        headings: usize,
        /// The sign between fields.
        separator: char,
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
    /// Not a number with a unit.
    NotRead {
        /// What stands there.
        written: String,
        /// What is wrong with it.
        fault: LiteralErrorKind,
        /// What could stand there.
        example: String,
    },
    /// The decimal mark of the other kind of file.
    DecimalMark {
        /// What stands there.
        written: String,
        /// Whether this file writes a decimal comma.
        comma: bool,
    },
    /// A number that needs a unit, and neither it nor its heading has one.
    NoUnit {
        /// What stands there.
        written: String,
        /// A unit that would do in the heading; none where the column holds figures of several kinds.
        unit: Option<String>,
        /// How the number is typed with it.
        example: String,
    },
    /// A time where a length is needed, and its like.
    Unlike {
        /// What stands there.
        written: String,
        /// What it measures.
        given: Dimension,
        /// What the column measures.
        needed: Vec<Dimension>,
        /// What could stand there.
        example: String,
    },
    /// A spread where one figure is needed.
    Spread {
        /// What stands there.
        written: String,
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

impl fmt::Display for FileFault {
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

impl fmt::Display for FileFaultKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty { .. } => write!(f, "the file is empty"),
            Self::GivenTwice => write!(f, "the file is given twice"),
            Self::Separator { written } => write!(f, "“{written}” names no sign that can stand between fields"),
            Self::MissingColumn => write!(f, "the column is missing"),
            Self::UnknownColumn { written, .. } => write!(f, "“{written}” is not a column of this file"),
            Self::RepeatedColumn => write!(f, "the column is there twice"),
            Self::HeadingUnit { written, .. } => write!(f, "“{written}” in the heading is not a unit"),
            Self::HeadingMeasure { written, given, needed, .. } => {
                write!(f, "“{written}” in the heading measures {}; {} is needed", given.noun(), nouns(needed))
            }
            Self::Ragged { found, headings, .. } => {
                write!(f, "the line has {} but there are {}", counted(*found, "field"), counted(*headings, "heading"))
            }
            Self::NoHeading { written } => write!(f, "“{written}” stands under no heading"),
            Self::LineBreak => write!(f, "a field goes on over the end of the line"),
            Self::Unprintable => write!(f, "a sign stands here that cannot be seen"),
            Self::Blank { .. } => write!(f, "nothing stands here"),
            Self::NotRead { fault, .. } => fault.fmt(f),
            Self::DecimalMark { written, comma: true } => {
                write!(f, "“{written}” has a point, and this file writes a decimal comma")
            }
            Self::DecimalMark { written, comma: false } => {
                write!(f, "“{written}” has a comma, and this file writes a decimal point")
            }
            Self::NoUnit { written, unit: Some(_), .. } => {
                write!(f, "“{written}” has no unit, and the heading has none either")
            }
            Self::NoUnit { written, unit: None, .. } => write!(f, "“{written}” has no unit"),
            Self::Unlike { written, given, needed, .. } => {
                write!(f, "“{written}” is {}; {} is needed", given.noun(), nouns(needed))
            }
            Self::Spread { written } => write!(f, "“{written}” is a spread; one figure is needed"),
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

impl std::error::Error for FileFault {}

impl FileFault {
    /// What to type instead, or to do.
    pub fn hint(&self) -> Option<String> {
        let column = self.column.as_deref().unwrap_or_default();
        Some(match &self.kind {
            FileFaultKind::Empty { needed } => format!("its first line must be headings: {}", needed.join(", ")),
            FileFaultKind::GivenTwice => "keep one of them".to_owned(),
            FileFaultKind::Separator { .. } => "type sep=, or sep=; or leave the line out".to_owned(),
            FileFaultKind::MissingColumn => format!("add “{column}” to the line of headings"),
            FileFaultKind::UnknownColumn { nearest: Some(nearest), .. }
            | FileFaultKind::UnknownWord { nearest: Some(nearest), .. }
            | FileFaultKind::NoSuchMaterial { nearest: Some(nearest), .. }
            | FileFaultKind::HeadingUnit { nearest: Some(nearest), .. } => format!("did you mean “{nearest}”?"),
            FileFaultKind::UnknownColumn { known, .. } => format!("the columns are {}", known.join(", ")),
            FileFaultKind::UnknownWord { allowed, .. } => format!("type {}", either(allowed)),
            FileFaultKind::NoSuchMaterial { .. } => "add it to materials.csv, or name one that is there".to_owned(),
            FileFaultKind::HeadingUnit { .. } => format!("units are {}", Unit::list()),
            FileFaultKind::RepeatedColumn => "keep one of the two columns".to_owned(),
            FileFaultKind::HeadingMeasure { example, .. } => format!("type the heading like “{column} ({example})”"),
            FileFaultKind::Ragged { found, headings, separator } if found < headings => {
                format!("a blank field needs its sign too: roll{separator}{separator}25 yd")
            }
            FileFaultKind::Ragged { separator: ',', .. } => {
                "a text with a comma in it needs quotation marks: \"satin, ivory\"".to_owned()
            }
            FileFaultKind::Ragged { .. } => {
                "a text with a semicolon in it needs quotation marks: \"satin; ivory\"".to_owned()
            }
            FileFaultKind::NoHeading { .. } => "give the column a heading, or clear the field".to_owned(),
            FileFaultKind::LineBreak => "close the quotation mark, or write the field in one line".to_owned(),
            FileFaultKind::Unprintable => "clear the field and type it again".to_owned(),
            FileFaultKind::Blank { example }
            | FileFaultKind::Needed { example, .. }
            | FileFaultKind::NoUnit { unit: None, example, .. } => format!("type {example}"),
            FileFaultKind::NotRead { fault, example, .. } => match fault {
                LiteralErrorKind::NotAQuantity { .. } | LiteralErrorKind::Trailing { .. } => {
                    format!("type it like {example}")
                }
                _ => fault.hint().unwrap_or_else(|| format!("type it like {example}")),
            },
            FileFaultKind::DecimalMark { comma: true, .. } => {
                "type 2,5 for two and a half, and no mark between thousands".to_owned()
            }
            FileFaultKind::DecimalMark { comma: false, .. } => {
                "type 2.5 for two and a half, and no mark between thousands".to_owned()
            }
            FileFaultKind::NoUnit { unit: Some(unit), example, .. } => {
                format!("type {example}, or put the unit into the heading: “{column} ({unit})”")
            }
            FileFaultKind::Unlike { example, .. } => format!("type it like {example}"),
            FileFaultKind::Spread { .. } => "type the middle alone".to_owned(),
            FileFaultKind::NotPositive { .. } => "type a figure above zero".to_owned(),
            FileFaultKind::Negative { .. } => "type zero or more".to_owned(),
            FileFaultKind::TooMuch { limit, .. } => format!("type a figure that is {limit}"),
            FileFaultKind::NotWhole { .. } => "type a whole number such as 1, 2 or 10".to_owned(),
            FileFaultKind::RepeatedName { .. } => "give each its own name, or drop one line".to_owned(),
            FileFaultKind::NotNeeded { .. } => "clear the field".to_owned(),
            FileFaultKind::FlatDisagrees { .. } => {
                "leave the flat length blank, or correct piece, overlap or pieces".to_owned()
            }
            FileFaultKind::Differs { .. } => "correct one of them, or give the row a trial name of its own".to_owned(),
            FileFaultKind::NoRows { .. } => "write a line for each of them".to_owned(),
            FileFaultKind::NotAlike { .. } => "one plan has one kind of goods: give each kind its own files".to_owned(),
            FileFaultKind::NoEarlierPass { .. } => "number the passes 1, 2 and so on".to_owned(),
        })
    }
}

impl FileFaultKind {
    /// A field that could not be read.
    pub(super) fn not_read(written: &str, fault: LiteralError, example: String) -> Self {
        Self::NotRead { written: written.to_owned(), fault: fault.kind, example }
    }
}

/// What stands there between quotation marks, or that nothing does.
fn quoted(written: &str) -> String {
    if written.is_empty() { "nothing".to_owned() } else { format!("“{written}”") }
}

/// "a length", "an amount of money or a price by the length".
fn nouns(dimensions: &[Dimension]) -> String {
    dimensions.iter().map(|dimension| dimension.noun()).collect::<Vec<_>>().join(" or ")
}

/// "cloth, roll or thread".
fn either(words: &[&str]) -> String {
    match words.split_last() {
        Some((last, [])) => (*last).to_owned(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
        None => String::new(),
    }
}

/// "1 field", "3 fields".
fn counted(count: usize, word: &str) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {word}{plural}")
}
