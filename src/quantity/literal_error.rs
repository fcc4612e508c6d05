//! Errors in a quantity as written, and their wording.
//!
//! Never here: parsing.

use super::unit::Unit;
use std::fmt;
use std::ops::Range;

/// A literal that cannot be read, and where it is in the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LiteralError {
    /// Bytes of the text that are wrong.
    pub span: Range<usize>,
    /// What is wrong with them.
    pub kind: LiteralErrorKind,
}

/// What can be wrong with a literal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LiteralErrorKind {
    /// A number followed by a word that is no unit.
    UnknownUnit {
        /// The word.
        written: String,
        /// The closest spelling of a known unit.
        nearest: Option<&'static str>,
    },
    /// Inches and centimetres in one length.
    TwoSystems {
        /// The whole length as written.
        written: String,
        /// The same length as a sum.
        sum: String,
    },
    /// Sizes not in falling order, as in `6 in 2 yd`.
    NotFalling {
        /// The same length as a sum.
        sum: String,
    },
    /// Ambiguous: does `a / 1/2 in` divide by half an inch, or by one and then by two inches?
    FractionAfterSlash {
        /// The fraction.
        written: String,
    },
    /// A fraction with zero below the line: `1/0 in`.
    ZeroBelow,
    /// A number with too many digits to compute with.
    TooLong,
    /// A currency other than the workshop's.
    OtherCurrency {
        /// The sign that was written.
        written: char,
        /// The workshop's.
        ours: char,
    },
    /// `±` without a quantity of the same dimension on either side.
    SpreadSides,
    /// `3 in [1, 2]`: a membership test that reads as inches.
    Membership,
    /// `7 % 3`: a remainder that reads as seven per cent.
    NoRemainder,
    /// `2026-12-03`: a day that reads as two subtractions.
    Date {
        /// The day as written.
        written: String,
    },
    /// A field that holds no quantity.
    NotAQuantity {
        /// The field.
        written: String,
    },
    /// Something follows the quantity in a field.
    Trailing {
        /// What follows.
        written: String,
    },
    /// Text that is not a unit where one is needed.
    UnknownExpression {
        /// The text.
        written: String,
    },
}

impl fmt::Display for LiteralErrorKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownUnit { written, .. } | Self::UnknownExpression { written } => {
                write!(f, "“{written}” is not a unit")
            }
            Self::TwoSystems { written, .. } => write!(f, "“{written}” mixes two tapes in one length"),
            Self::NotFalling { .. } => write!(f, "two sizes written together must go from the larger to the smaller"),
            Self::FractionAfterSlash { written } => {
                write!(f, "it is not clear what is divided by what before “{written}”")
            }
            Self::ZeroBelow => write!(f, "a fraction cannot have zero below the line"),
            Self::TooLong => write!(f, "that number has too many digits"),
            Self::OtherCurrency { written, ours } => {
                write!(f, "this workshop counts its money in {ours}, not in {written}")
            }
            Self::SpreadSides => write!(f, "“±” needs a measure of the same kind on either side"),
            Self::NoRemainder => write!(f, "“%” after a number means per cent, and a sign is missing behind it"),
            Self::Membership => write!(f, "“in” after a number always means inches"),
            Self::Date { written } => write!(f, "“{written}” looks like a day, and days cannot be used in sums yet"),
            Self::NotAQuantity { written } if written.is_empty() => write!(f, "nothing is written here"),
            Self::NotAQuantity { written } => write!(f, "“{written}” is not a number with a unit"),
            Self::Trailing { written } => write!(f, "“{written}” cannot follow here"),
        }
    }
}

impl LiteralErrorKind {
    /// What to type instead.
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::UnknownUnit { written, .. } if ["x", "X"].contains(&written.as_str()) => {
                Some("for times, type *; for an area, both sizes need a unit: 3 in * 4 in".to_owned())
            }
            Self::UnknownUnit { written, .. } if written == "mod" => {
                Some("for what is left over, type remainder(7, 3)".to_owned())
            }
            Self::UnknownUnit { nearest: Some(nearest), .. } => Some(format!("did you mean “{nearest}”?")),
            Self::UnknownUnit { nearest: None, .. } | Self::UnknownExpression { .. } => {
                Some(format!("units are {}", Unit::list()))
            }
            Self::TwoSystems { sum, .. } | Self::NotFalling { sum } => Some(format!("type {sum}")),
            Self::FractionAfterSlash { written } => Some(format!("put the fraction in brackets: / ({written})")),
            Self::OtherCurrency { ours, .. } => Some(format!("type {ours}4.50")),
            Self::SpreadSides => Some("type 2 in ± 1/8 in".to_owned()),
            Self::NoRemainder => {
                Some("for a part of something, type 8 % of 20 in; for what is left over, remainder(7, 3)".to_owned())
            }
            Self::Membership => Some("to ask whether a list holds 3, type list.contains(3)".to_owned()),
            Self::Date { written } => Some(format!(
                "to keep it, put it in quotes: due = \"{written}\"; for a sum, put blanks between the figures"
            )),
            Self::NotAQuantity { .. } => Some("type it like 14 1/2 in, 35 cm or 12 min".to_owned()),
            Self::Trailing { written } if written.chars().all(|c| c.is_ascii_digit()) => {
                Some("for feet and inches, give both their mark: 5' 3\"".to_owned())
            }
            Self::ZeroBelow | Self::TooLong | Self::Trailing { .. } => None,
        }
    }
}

impl fmt::Display for LiteralError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.kind.fmt(f)
    }
}

impl std::error::Error for LiteralError {}
