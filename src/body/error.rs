//! Errors of the tables of bodies, and their wording.
//!
//! Errors carry values; all sentences are written here, in the workshop's own units.

use super::sex::Sex;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Liked, Quantity, Style, Time, Unit};
use std::fmt;

/// A question that no table here answers. `argument` is its name in scripts.
#[derive(Clone, Debug, PartialEq)]
pub enum BodyError {
    /// A number that is NaN or infinite.
    NotFinite {
        /// Which argument.
        argument: &'static str,
    },
    /// Less than zero, or zero where more is needed.
    NotPositive {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: Quantity,
    },
    /// A word that is not one of the known ones.
    UnknownWord {
        /// Which argument.
        argument: &'static str,
        /// The known words.
        known: &'static [&'static str],
    },
    /// No survey goes below two years.
    UnderTwo {
        /// The age given.
        given: Time,
    },
    /// An age outside the table.
    OutsideAges {
        /// The table, as the message names it.
        table: &'static str,
        /// The age given.
        given: Time,
        /// The youngest age in it.
        from: Time,
        /// The oldest age in it.
        to: Time,
    },
    /// A share of children that the table does not print.
    NotPrinted {
        /// The share given; 1 is the whole.
        given: f64,
        /// The shares it prints, in per cent.
        printed: &'static [u8],
    },
    /// A figure that the survey itself leaves out, because too few were measured.
    LeftOut {
        /// Girls or boys.
        sex: Sex,
        /// The first of the group's two years of age.
        from_years: u8,
        /// The share, in per cent.
        share: u8,
    },
    /// A share too near the ends of a chart to be reliable.
    ShareOffChart {
        /// The share given; 1 is the whole.
        given: f64,
        /// The smallest share the chart has.
        least: f64,
        /// The largest.
        most: f64,
    },
    /// A stature beyond the ends of the chart.
    OffChart {
        /// The stature given.
        given: Quantity,
        /// Girls or boys.
        sex: Sex,
        /// Taller than nearly all of them; otherwise smaller.
        taller: bool,
        /// The share of them that is smaller than this, or taller.
        beyond: f64,
    },
    /// A height for which there is no designation.
    NoDesignation {
        /// The height given.
        given: Quantity,
    },
}

impl BodyError {
    /// The argument it is about.
    pub fn argument(&self) -> &'static str {
        match self {
            Self::NotFinite { argument } | Self::NotPositive { argument, .. } | Self::UnknownWord { argument, .. } => {
                argument
            }
            Self::UnderTwo { .. } | Self::OutsideAges { .. } => "age",
            Self::NotPrinted { .. } | Self::LeftOut { .. } | Self::ShareOffChart { .. } => "percentile",
            Self::OffChart { .. } => "stature",
            Self::NoDesignation { .. } => "height",
        }
    }
}

impl Diagnose for BodyError {
    fn message(&self, style: &Style) -> String {
        match self {
            Self::NotFinite { argument } => format!("{argument} is not a number"),
            Self::NotPositive { argument, given } => {
                format!("{argument} is {}; it must be more than zero", style.show(*given))
            }
            Self::UnknownWord { argument, known } => format!("{argument} must be one of {}", known.join(", ")),
            Self::UnderTwo { given } => {
                format!("age is {}; no survey measured children under two years", style.show((*given).into()))
            }
            Self::OutsideAges { table, given, from, to } => {
                let [given, from, to] = [given, from, to].map(|age| style.show((*age).into()));
                format!("age is {given}; {table} goes from {from} to {to}")
            }
            Self::NotPrinted { given, printed } => {
                format!("percentile is {}; the survey prints {} %", per_cent(*given, style), listed(printed))
            }
            Self::LeftOut { sex, from_years, share } => format!(
                "the survey leaves out the {share} % of {}s of {from_years} to {}, for it measured too few",
                sex.word(),
                from_years + 1
            ),
            Self::ShareOffChart { given, least, most } => {
                let [given, least, most] = [given, least, most].map(|share| per_cent(*share, style));
                format!("percentile is {given}; a growth chart tells nothing below {least} or above {most}")
            }
            Self::OffChart { given, sex, taller, beyond } => {
                let more = if *taller { "more" } else { "less" };
                let (given, share) = (style.show(*given), per_cent(*beyond, style));
                format!("stature is {given}; that is {more} than {share} of {}s of that age have", sex.word())
            }
            Self::NoDesignation { given } => {
                format!("height is {}; these designations go from 50 cm to 164 cm", style.show(*given))
            }
        }
    }

    fn kind(&self) -> DiagnosticKind {
        DiagnosticKind::OutOfRange
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::UnderTwo { .. } => Some("measure the child".to_owned()),
            Self::OutsideAges { .. } => Some("measure, or give the age in years or months, such as 5 years".to_owned()),
            Self::NotPrinted { .. } => Some("type one of those: nothing is put in between".to_owned()),
            Self::LeftOut { .. } => Some("type the next one to it".to_owned()),
            Self::OffChart { .. } => Some("measure again, and check the unit and the age".to_owned()),
            _ => None,
        }
    }
}

fn per_cent(share: f64, style: &Style) -> String {
    style.show(Quantity::number(share).liking(Liked::unit(Unit::Percent)))
}

fn listed(printed: &[u8]) -> String {
    printed.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

impl fmt::Display for BodyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message(&Style::default()))
    }
}

impl std::error::Error for BodyError {}
