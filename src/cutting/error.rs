//! Why a list of pieces cannot be planned, and what the maker can do about it.
//!
//! Never here: deciding; the words alone.

use super::verify::PlanError;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Length, Quantity, Style};
use std::fmt;

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq)]
pub enum CuttingError {
    /// The work was stopped.
    Stopped,
    /// More pieces, or parts of pieces, than one plan takes.
    TooManyPieces {
        /// The most it takes.
        most: i64,
    },
    /// More length than one plan reckons with.
    TooMuchLength,
    /// A count below zero.
    NegativeCount {
        /// What is counted.
        what: String,
        /// The count given.
        count: i64,
    },
    /// Mirrored pieces come in pairs.
    OddPairs {
        /// The piece.
        piece: String,
        /// The count given.
        count: i64,
    },
    /// A size that is nothing, less than nothing, or more than a plan reckons with.
    BadSize {
        /// What has the size.
        what: String,
        /// The size given.
        given: Length,
    },
    /// A shape that closes on nothing, or an outline that crosses itself.
    NoShape {
        /// The piece.
        piece: String,
    },
    /// A full width with a grain that is not along.
    FullWidthTurned {
        /// The piece.
        piece: String,
    },
    /// A piece that does not take the full width, from roll goods.
    NotOffARoll {
        /// The piece.
        piece: String,
    },
    /// Wider than the goods.
    TooWide {
        /// The piece.
        piece: String,
        /// Its size across the goods.
        across: Length,
        /// What the goods offer.
        usable: Length,
        /// Whether its grain keeps it from fitting the other way round.
        fits_turned: bool,
    },
    /// Longer than the longest length there is.
    TooLong {
        /// The piece.
        piece: String,
        /// Its size along the goods.
        along: Length,
        /// The longest length.
        longest: Length,
    },
    /// It would take more joins than are allowed.
    TooManyJoins {
        /// The piece.
        piece: String,
        /// The joins it would take.
        needed: i64,
        /// The joins allowed.
        most: i64,
    },
    /// A part would be shorter than allowed.
    PartTooShort {
        /// The piece.
        piece: String,
        /// The longest that its shortest part can be.
        part: Length,
        /// The shortest allowed.
        shortest: Length,
    },
    /// The allowances alone fill the goods.
    NoRoomForJoins {
        /// The piece.
        piece: String,
        /// What two allowances take.
        allowances: Length,
        /// What the goods offer.
        usable: Length,
    },
    /// The shelf and what is offered run out.
    NotEnough {
        /// The first piece there is no room for.
        piece: String,
        /// How many of it are missing.
        missing: i64,
    },
    /// The verifier does not accept the plan that was made: a fault of the planner, so nothing is shown.
    Refused {
        /// What it found.
        errors: Vec<PlanError>,
    },
}

impl Diagnose for CuttingError {
    fn message(&self, style: &Style) -> String {
        let show = |length: &Length| style.show(Quantity::from(*length));
        match self {
            Self::Stopped => "stopped before the plan was ready".to_owned(),
            Self::TooManyPieces { most } => format!("more than {most} pieces in one plan"),
            Self::TooMuchLength => "more than 9000 km of goods in one plan".to_owned(),
            Self::NegativeCount { what, count } => format!("{what}: {count} cannot be counted"),
            Self::OddPairs { piece, count } => format!("{piece}: {count} pieces do not make mirrored pairs"),
            Self::BadSize { what, given } if given.is_positive() => {
                format!("{what}: {} is more than a plan reckons with, which is 10 km", show(given))
            }
            Self::BadSize { what, given } if given.steps().is_nan() => format!("{what}: there is no size"),
            Self::BadSize { what, given } => format!("{what}: the size is {}", show(given)),
            Self::NoShape { piece } => format!("{piece}: the shape encloses nothing, or its outline crosses itself"),
            Self::FullWidthTurned { piece } => {
                format!("{piece} takes the full width of the goods, so its grain can only be along")
            }
            Self::NotOffARoll { piece } => {
                format!("{piece} has a shape of its own, but roll goods are cut straight across in full widths")
            }
            Self::TooWide { piece, across, usable, .. } => {
                format!("{piece} is {} across; the usable width is {}", show(across), show(usable))
            }
            Self::TooLong { piece, along, longest } => {
                format!("{piece} is {} long; no length is longer than {}", show(along), show(longest))
            }
            Self::TooManyJoins { piece, needed, most } => {
                format!("{piece} needs {} in each piece; {} allowed", joins(*needed), joins_are(*most))
            }
            Self::PartTooShort { piece, part, shortest } => format!(
                "{piece}: one part of the joined piece would be only {}; the shortest allowed is {}",
                show(part),
                show(shortest)
            ),
            Self::NoRoomForJoins { piece, allowances, usable } => format!(
                "{piece}: the allowances of a join take {}, and the goods offer {}",
                show(allowances),
                show(usable)
            ),
            Self::NotEnough { piece, missing } => {
                format!("the stock runs out with {missing} of {piece} still to cut")
            }
            Self::Refused { errors } => {
                let first = errors.first().map_or_else(String::new, |error| format!(": {}", error.message(style)));
                format!("a plan was made but failed its check, so it is not shown{first}")
            }
        }
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::Stopped => DiagnosticKind::Stopped,
            Self::Refused { .. } => DiagnosticKind::Error,
            _ => DiagnosticKind::OutOfRange,
        }
    }

    fn hint(&self) -> Option<String> {
        let hint = match self {
            Self::TooManyPieces { .. } | Self::TooMuchLength => "plan fewer orders at a time",
            Self::NegativeCount { .. } => "give a count of 0 or more",
            Self::OddPairs { .. } => "give an even count: a pair is two pieces",
            Self::BadSize { given, .. } if given.is_positive() => "check the unit",
            Self::BadSize { .. } => "give a size of more than nothing",
            Self::NoShape { .. } => {
                "an outline needs three corners or more, given in turn round it; a sector an inner edge smaller than its outer one and a turn above 0, up to 1"
            }
            Self::FullWidthTurned { .. } => "leave the grain along, or give the piece as a rectangle",
            Self::NotOffARoll { .. } => "give only the length to cut, or choose a cloth",
            Self::TooWide { fits_turned: true, .. } => "let its grain be any, allow a join, or choose a wider cloth",
            Self::TooWide { .. } => "allow a join, or choose a wider cloth",
            Self::TooLong { .. } => "allow a join, or choose goods sold in longer lengths",
            Self::TooManyJoins { .. } => "allow more joins, or choose wider or longer goods",
            Self::PartTooShort { .. } => "allow shorter parts, or choose wider or longer goods",
            Self::NoRoomForJoins { .. } => "make the allowance smaller, or choose wider goods",
            Self::NotEnough { .. } => "add stock, or let more be bought",
            Self::Refused { .. } => "please report this, with the pieces and the stock",
            Self::Stopped => return None,
        };
        Some(hint.to_owned())
    }
}

fn joins(count: i64) -> String {
    if count == 1 { "1 join".to_owned() } else { format!("{count} joins") }
}

fn joins_are(count: i64) -> String {
    if count == 1 { "1 join is".to_owned() } else { format!("{count} joins are") }
}

impl fmt::Display for CuttingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message(&Style::default()))
    }
}

impl std::error::Error for CuttingError {}
