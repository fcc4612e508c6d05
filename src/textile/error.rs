//! Errors in the figures given to a formula, and their wording.
//!
//! Errors carry values; all sentences are written here, in the workshop's own units.

use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Quantity, QuantityError, Style};
use std::fmt;

/// A figure that no cloth could have. `argument` is its name in scripts.
#[derive(Clone, Debug, PartialEq)]
pub enum TextileError {
    /// A number that is NaN or infinite.
    NotFinite {
        /// Which argument.
        argument: &'static str,
    },
    /// Zero or less where more is needed.
    NotPositive {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: Quantity,
    },
    /// Less than zero.
    Negative {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: Quantity,
    },
    /// Cloth gathered to more than its own length.
    FullnessTooSmall {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: Quantity,
    },
    /// More than the maximum.
    TooLarge {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: Quantity,
        /// The maximum.
        most: Quantity,
    },
    /// A share of the whole that leaves nothing.
    NothingLeft {
        /// Which argument.
        argument: &'static str,
        /// What was given; 1 is the whole.
        given: Quantity,
    },
    /// Longer than what it must fit into, or shorter than what it must reach.
    TooLong {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: Quantity,
        /// The argument it must not exceed.
        than: &'static str,
        /// The value of `than`.
        limit: Quantity,
    },
    /// An overlap or allowance that eats up the strip it is on.
    EatsTheStrip {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: Quantity,
        /// How many times it is taken off.
        times: i64,
        /// The argument it is taken off.
        strip: &'static str,
        /// The value of `strip`.
        limit: Quantity,
    },
    /// Elastic cut so short that it would press hard on the body.
    ElasticTooTight {
        /// The reduction given.
        given: Quantity,
        /// The largest reduction allowed.
        most: Quantity,
    },
    /// A roll that does not hold one whole strip.
    RollTooShort {
        /// Length on the roll.
        put_up: Quantity,
        /// Length of one strip.
        cut_length: Quantity,
    },
    /// A space between fewer than two things.
    SpaceNeedsTwo,
    /// An empty list.
    Empty {
        /// Which argument.
        argument: &'static str,
    },
    /// A word that is not one of the known ones.
    UnknownWord {
        /// Which argument.
        argument: &'static str,
        /// What was given.
        given: String,
        /// The known words, in reading order.
        known: Vec<&'static str>,
    },
    /// A quantity that is not money by time, or is negative or not finite.
    NotAWage {
        /// What was given.
        given: Quantity,
    },
    /// A quantity that is not mass by area.
    NotAClothWeight {
        /// What was given.
        given: Quantity,
    },
    /// More pieces than anyone could mean.
    TooMany {
        /// What is counted.
        counted: &'static str,
    },
    /// A result too large to compute with.
    OutOfRange,
    /// An error of quantity arithmetic.
    Sum(QuantityError),
}

impl Diagnose for TextileError {
    fn message(&self, style: &Style) -> String {
        match self {
            Self::NotFinite { argument } => format!("{} is not a number", spoken(argument)),
            Self::NotPositive { argument, given } => {
                format!("{} is {}; it must be more than zero", spoken(argument), style.show(*given))
            }
            Self::Negative { argument, given } => {
                format!("{} is {}; it must be zero or more", spoken(argument), style.show(*given))
            }
            Self::FullnessTooSmall { argument, given } => {
                format!("{} is {}; a gathered edge needs 1 or more", spoken(argument), style.show(*given))
            }
            Self::TooLarge { argument, given, most } => {
                format!("{} is {}; the most is {}", spoken(argument), style.show(*given), style.show(*most))
            }
            Self::NothingLeft { argument, given } => {
                format!("{} is {}; it must be less than 1 (100 %)", spoken(argument), style.show(*given))
            }
            Self::TooLong { argument, given, than, limit } => format!(
                "{} is {}; it cannot be more than {}, {}",
                spoken(argument),
                style.show(*given),
                spoken(than),
                style.show(*limit)
            ),
            Self::EatsTheStrip { argument, given, times, strip, limit } => {
                let taken = if *times == 2 { "; twice that must be less than" } else { "; it must be less than" };
                let (given, limit) = (style.show(*given), style.show(*limit));
                format!("{} is {given}{taken} {}, {limit}", spoken(argument), spoken(strip))
            }
            Self::ElasticTooTight { given, most } => format!(
                "reduction is {}; elastic cut more than {} shorter than the body is not reckoned here",
                style.show(*given),
                style.show(*most)
            ),
            Self::RollTooShort { put_up, cut_length } => format!(
                "put up is {}; a roll must hold at least one strip of {}",
                style.show(*put_up),
                style.show(*cut_length)
            ),
            Self::SpaceNeedsTwo => "count is 1; a space needs two things to lie between".to_owned(),
            Self::Empty { argument } => format!("{} is an empty list; at least one is needed", spoken(argument)),
            Self::UnknownWord { argument, given, known } => {
                format!("{} is “{given}”; it must be one of {}", spoken(argument), known.join(", "))
            }
            Self::NotAWage { given } => {
                format!("wage is {}; it must be money by the time, zero or more", style.show(*given))
            }
            Self::NotAClothWeight { given } => {
                format!("weight is {}; it must be a weight of cloth, mass by the area", style.show(*given))
            }
            Self::TooMany { counted } => format!("more than ten million {counted} cannot be meant"),
            Self::OutOfRange => "the result is too large to reckon with".to_owned(),
            Self::Sum(error) => error.to_string(),
        }
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::NotAWage { .. } | Self::NotAClothWeight { .. } => DiagnosticKind::Unlike,
            Self::Sum(error) => error.kind(),
            _ => DiagnosticKind::OutOfRange,
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::FullnessTooSmall { .. } => {
                Some("fullness is flat length over finished length: 2 is twice as much cloth as seam".to_owned())
            }
            Self::TooLarge { argument: "turn", .. } => {
                Some("a full circle is 1, a half circle 0.5; 2 is two full circles".to_owned())
            }
            Self::NothingLeft { argument, .. } => Some(format!("write {} as 8 % or 0.08", spoken(argument))),
            Self::TooLong { argument: "finished", .. } => {
                Some("measure the cloth flat first, then gathered".to_owned())
            }
            Self::EatsTheStrip { strip: "length" | "radius" | "flat", .. } => {
                Some("take less, or look at the units again".to_owned())
            }
            Self::EatsTheStrip { .. } => Some("use wider cloth, or take less at each join".to_owned()),
            Self::ElasticTooTight { .. } => {
                Some("measure the body again; 5 % to 8 % shorter is usual for soft elastic".to_owned())
            }
            Self::RollTooShort { .. } => Some("choose a longer put-up, or join the strip".to_owned()),
            Self::NotAWage { .. } => Some("give it by the hour, such as $18/h".to_owned()),
            Self::NotAClothWeight { .. } => Some("give it such as 150 g/m^2 or 4 oz/yd^2".to_owned()),
            Self::TooMany { .. } => Some("check the units: is a width in mm where inches are meant?".to_owned()),
            Self::Sum(error) => error.hint(),
            _ => None,
        }
    }
}

/// A script name as spoken: `cut_length` is "cut length".
fn spoken(argument: &str) -> String {
    argument.replace('_', " ")
}

impl fmt::Display for TextileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message(&Style::default()))
    }
}

impl std::error::Error for TextileError {}

impl From<QuantityError> for TextileError {
    fn from(error: QuantityError) -> Self {
        Self::Sum(error)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;

    #[test]
    fn the_words_are_in_the_workshop_s_own_style() {
        let error = TextileError::FullnessTooSmall { argument: "fullness", given: Quantity::number(0.5) };
        let comma = Style { decimal_comma: true, ..Style::default() };
        assert_eq!(error.message(&comma), "fullness is 0,5; a gathered edge needs 1 or more");
        assert_eq!(error.message(&Style::default()), error.to_string());
        let given = Quantity::of(1.0 / 3.0, Unit::Inch);
        let error = TextileError::Negative { argument: "side_hem", given: given.negated() };
        let plain = Style { plain: true, ..Style::default() };
        assert_eq!(error.message(&plain), "side hem is about -3/8 in; it must be zero or more");
    }

    #[test]
    fn a_hint_goes_with_what_can_be_mended() {
        let many = TextileError::TooMany { counted: "strips" };
        assert_eq!(many.to_string(), "more than ten million strips cannot be meant");
        assert!(many.hint().is_some_and(|hint| hint.contains("units")));
        let sum = TextileError::from(QuantityError::DividedByZero);
        assert_eq!(sum.hint(), QuantityError::DividedByZero.hint());
        assert_eq!(TextileError::OutOfRange.hint(), None);
    }
}
