//! Why a list of pieces cannot be planned, and what the maker can do about it.
//!
//! Never here: deciding whether there is a plan; only the words.

use super::verify::PlanError;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Length, Quantity, Style};
use std::fmt;

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq)]
pub enum CuttingError {
    /// The work was stopped before there was a plan.
    Stopped,
    /// More pieces, or parts of pieces, than one plan takes.
    TooManyPieces {
        /// The limit.
        most: i64,
    },
    /// More length than one plan can lay: over 9000 km.
    TooMuchLength,
    /// A count below zero.
    NegativeCount {
        /// What is counted.
        what: String,
        /// The count given.
        count: i64,
    },
    /// An odd count of mirrored pieces, which come in pairs.
    OddPairs {
        /// The piece.
        piece: String,
        /// The count given.
        count: i64,
    },
    /// A size that is zero, negative, NaN, or over 10 km.
    BadSize {
        /// What has the size.
        what: String,
        /// The size.
        size: Length,
    },
    /// A shape that encloses nothing, or an outline that crosses itself.
    NoShape {
        /// The piece.
        piece: String,
    },
    /// A full width with its grain across or on the bias.
    FullWidthTurned {
        /// The piece.
        piece: String,
    },
    /// A piece on roll goods that does not take the full width.
    NotOffARoll {
        /// The piece.
        piece: String,
    },
    /// The piece is wider than the goods.
    TooWide {
        /// The piece.
        piece: String,
        /// Its size across the goods.
        across: Length,
        /// The usable width: half the goods if the cloth is folded.
        usable: Length,
        /// Whether only its grain keeps it from fitting turned a quarter.
        fits_turned: bool,
    },
    /// The piece is longer than the longest length available.
    TooLong {
        /// The piece.
        piece: String,
        /// Its size along the goods.
        along: Length,
        /// The longest length available.
        longest: Length,
    },
    /// The piece needs more joins than are allowed.
    TooManyJoins {
        /// The piece.
        piece: String,
        /// Joins needed in each piece.
        needed: i64,
        /// The joins allowed.
        most: i64,
    },
    /// A part of a joined piece would be shorter than allowed.
    PartTooShort {
        /// The piece.
        piece: String,
        /// The longest that its shortest part can be.
        part: Length,
        /// The shortest part allowed.
        shortest: Length,
    },
    /// The join allowances alone fill the goods.
    NoRoomForJoins {
        /// The piece.
        piece: String,
        /// Length that two allowances take.
        allowances: Length,
        /// Room that the goods offer.
        usable: Length,
    },
    /// The stock and the goods on offer run out.
    NotEnough {
        /// The first piece there is no room for.
        piece: String,
        /// How many of it are missing.
        missing: i64,
    },
    /// There is enough only of washed and unwashed goods together, and no garment is cut from both.
    NotOfBoth {
        /// The first piece there is no room for.
        piece: String,
        /// How many of it are missing.
        missing: i64,
    },
    /// The verifier rejected the plan: a bug of the planner, so the plan is not shown.
    Refused {
        /// What the verifier found.
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
            Self::BadSize { what, size } if size.is_positive() => {
                format!("{what}: {} is more than a plan reckons with, which is 10 km", show(size))
            }
            Self::BadSize { what, size } if size.steps().is_nan() => format!("{what}: there is no size"),
            Self::BadSize { what, size } => format!("{what}: the size is {}", show(size)),
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
            Self::NotOfBoth { piece, missing } => format!(
                "the unwashed stock runs out with {missing} of {piece} still to cut, and no garment is cut from washed \
                 and unwashed cloth"
            ),
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
            Self::BadSize { size, .. } if size.is_positive() => "check the unit",
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
            Self::NotEnough { .. } | Self::NotOfBoth { .. } => "add stock, or let more be bought",
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
