//! The checks that formulas share: each returns the figure or an error.
//!
//! Never here: formulas.

use super::error::TextileError;
use crate::quantity::{Length, Measure, Quantity, number, rounding};

/// The most pieces that can be meant; in a larger count, float noise could hide a whole piece.
const MOST_PIECES: i64 = 10_000_000;

type Checked<T> = Result<T, TextileError>;

/// A measure or a plain number, as an error shows it.
pub(super) trait Figure: Copy {
    fn size(self) -> f64;
    fn shown(self) -> Quantity;
}

impl Figure for f64 {
    fn size(self) -> f64 {
        self
    }
    fn shown(self) -> Quantity {
        Quantity::number(self)
    }
}

impl<K> Figure for Measure<K>
where
    Self: Into<Quantity> + Copy,
{
    fn size(self) -> f64 {
        Into::<Quantity>::into(self).steps()
    }
    fn shown(self) -> Quantity {
        self.into()
    }
}

/// Finite: neither NaN nor infinite.
pub(super) fn finite<F: Figure>(argument: &'static str, given: F) -> Checked<F> {
    if given.size().is_finite() { Ok(given) } else { Err(TextileError::NotFinite { argument }) }
}

/// More than zero.
pub(super) fn positive<F: Figure>(argument: &'static str, given: F) -> Checked<F> {
    if finite(argument, given)?.size() > 0.0 {
        Ok(given)
    } else {
        Err(TextileError::NotPositive { argument, given: given.shown() })
    }
}

/// Zero or more.
pub(super) fn not_negative<F: Figure>(argument: &'static str, given: F) -> Checked<F> {
    if finite(argument, given)?.size() >= 0.0 {
        Ok(given)
    } else {
        Err(TextileError::Negative { argument, given: given.shown() })
    }
}

/// Flat over finished: 1 or more; float noise below 1 counts as 1.
pub(super) fn fullness(argument: &'static str, given: f64) -> Checked<f64> {
    let fullness = number::snapped(finite(argument, given)?);
    if fullness >= 1.0 {
        Ok(given.max(1.0))
    } else {
        Err(TextileError::FullnessTooSmall { argument, given: given.shown() })
    }
}

/// A share of zero or more and less than 1, so that something is left.
pub(super) fn share(argument: &'static str, given: f64) -> Checked<f64> {
    if number::snapped(not_negative(argument, given)?) < 1.0 {
        Ok(given)
    } else {
        Err(TextileError::NothingLeft { argument, given: given.shown() })
    }
}

/// A count of one or more.
pub(super) fn count(argument: &'static str, given: i64) -> Checked<f64> {
    match given {
        ..=0 => Err(TextileError::NotPositive { argument, given: whole(given) }),
        1..=MOST_PIECES => Ok(number::from_whole(given)),
        _ => Err(TextileError::TooLarge { argument, given: whole(given), most: whole(MOST_PIECES) }),
    }
}

/// A count of zero or more.
pub(super) fn count_or_none(argument: &'static str, given: i64) -> Checked<f64> {
    match given {
        ..0 => Err(TextileError::Negative { argument, given: whole(given) }),
        0 => Ok(0.0),
        _ => count(argument, given),
    }
}

fn whole(given: i64) -> Quantity {
    Quantity::number(number::from_whole(given))
}

/// At most another length.
pub(super) fn within(argument: &'static str, given: Length, than: &'static str, limit: Length) -> Checked<Length> {
    if given <= limit {
        Ok(given)
    } else {
        Err(TextileError::TooLong { argument, given: given.into(), than, limit: limit.into() })
    }
}

/// What is left of a strip after an overlap or allowance is taken off it `times` times.
pub(super) fn remaining(
    (strip, length): (&'static str, Length),
    (argument, given): (&'static str, Length),
    times: i64,
) -> Checked<Length> {
    positive(strip, length)?;
    not_negative(argument, given)?;
    let left = length - given * number::from_whole(times);
    // Compared as measures, so that the rest is more than float noise.
    if length > given * number::from_whole(times) {
        Ok(left)
    } else {
        Err(TextileError::EatsTheStrip { argument, given: given.into(), times, strip, limit: length.into() })
    }
}

/// A count rounded up, at least `least`.
pub(super) fn counted(noun: &'static str, value: f64, least: i64) -> Checked<i64> {
    rounding::counted(value)
        .map(|count| count.max(least))
        .filter(|count| *count <= MOST_PIECES)
        .ok_or(TextileError::TooMany { counted: noun })
}

/// A count rounded down.
pub(super) fn count_down(noun: &'static str, value: f64) -> Checked<i64> {
    rounding::rounded_down(value).filter(|count| *count <= MOST_PIECES).ok_or(TextileError::TooMany { counted: noun })
}

/// A finite result.
pub(super) fn finite_result<F: Figure>(value: F) -> Checked<F> {
    if value.size().is_finite() { Ok(value) } else { Err(TextileError::OutOfRange) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_is_itself_allowed() {
        let inches = Length::inches;
        assert_eq!(within("one", inches(0.1) + inches(0.2), "other", inches(0.3)), Ok(inches(0.3)));
        assert!(within("one", inches(0.31), "other", inches(0.3)).is_err());
        assert_eq!(counted("pieces", 1e7, 1), Ok(MOST_PIECES));
        assert!(counted("pieces", 1e7 + 1.0, 1).is_err());
        assert_eq!(count_down("pieces", 1e7), Ok(MOST_PIECES));
        assert!(count_down("pieces", 1e7 + 1.0).is_err());
        assert_eq!(count("pieces", MOST_PIECES), Ok(1e7));
        assert!(count("pieces", MOST_PIECES + 1).is_err());
    }
}
