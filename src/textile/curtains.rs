//! Curtains: the flat width of one, and the length of cloth that a drop takes.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Length, number};

/// Flat width of one curtain: `finished · fullness + returns + 2 · side_hem`.
///
/// `finished` is the part that is gathered: the track and its overlap without the returns, which hang flat here. To
/// gather the returns too, count them in `finished` and give zero for `returns`.
pub fn curtain_flat(
    finished: Length,
    fullness: f64,
    returns: Length,
    side_hem: Length,
) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    let gathered = finished * guard::fullness("fullness", fullness)?;
    let still = guard::not_negative("returns", returns)? + guard::not_negative("side_hem", side_hem)? * 2.0;
    guard::finite_result(gathered + still)
}

/// Length to cut for one drop of patterned cloth: `length` rounded up to whole repeats, so that every drop starts at
/// the same place in the pattern. It is in the repeat's unit: on the other tape a whole repeat is seldom at a mark,
/// and a hair more than a repeat wastes a whole one.
pub fn cut_drop(length: Length, repeat: Length) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    guard::positive("repeat", repeat)?;
    let repeats = guard::counted("repeats", length / repeat, 1)?;
    guard::finite_result(repeat * number::from_whole(repeats))
}

/// Cloth to add once if every other width starts half a repeat lower: `repeat / 2`.
pub fn half_drop_addition(repeat: Length) -> Result<Length, TextileError> {
    Ok(guard::positive("repeat", repeat)? / 2.0)
}

/// Cloth for several drops, one below the other: `drops · cut_drop`.
pub fn cloth_for_drops(drops: i64, cut_drop: Length) -> Result<Length, TextileError> {
    guard::positive("cut_drop", cut_drop)?;
    guard::finite_result(cut_drop * guard::count_or_none("drops", drops)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cm(value: f64) -> Length {
        Length::centimetres(value)
    }

    #[test]
    fn a_drop_goes_up_to_whole_repeats_but_not_for_noise() {
        assert_eq!(cut_drop(cm(240.0), cm(64.0)), Ok(cm(256.0)));
        assert_eq!(cut_drop(cm(256.0), cm(64.0)), Ok(cm(256.0)));
        assert_eq!(cut_drop(cm(10.0), cm(64.0)), Ok(cm(64.0)));
        assert_eq!(cut_drop(cm(0.1) + cm(0.2), cm(0.1)), Ok(cm(0.3)));
        assert_eq!(cut_drop(cm(1e-10), cm(64.0)), Ok(cm(64.0)), "one repeat is the least");
        assert!(cut_drop(cm(1e9), cm(0.01)).is_err(), "more repeats than can be meant");
        assert!(cut_drop(cm(10.0), cm(0.0)).is_err());
        assert!(cut_drop(cm(f64::INFINITY), cm(64.0)).is_err());
    }

    #[test]
    fn returns_hang_flat() {
        let inches = Length::inches;
        assert_eq!(curtain_flat(inches(84.0), 2.5, inches(7.0), inches(4.0)), Ok(inches(225.0)));
        assert!(curtain_flat(inches(84.0), 0.9, inches(7.0), inches(4.0)).is_err());
    }
}
