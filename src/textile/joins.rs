//! Strips seamed end to end, each join taking an allowance off both sides.
//!
//! The exact rules are plain geometry; the cautious ones are a handbook's (course
//! book, practical, vol. 2 \[11\]), never short and at times one strip more.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Strips of `strip` that make up `flat` with open ends, `flat` counted to the raw ends:
/// the least n with `n · strip - 2 · allowance · (n - 1) ≥ flat`.
pub fn strips_joined(flat: Length, strip: Length, allowance: Length) -> Result<i64, TextileError> {
    guard::positive("flat", flat)?;
    let gained = guard::remaining(("strip", strip), ("allowance", allowance), 2)?;
    guard::counted("strips", (flat - allowance * 2.0) / gained, 1)
}

/// Length of `count` strips sewn end to end, to the raw ends: `count · strip - 2 · allowance · (count - 1)`.
pub fn joined_length(count: i64, strip: Length, allowance: Length) -> Result<Length, TextileError> {
    let count = guard::count("count", count)?;
    guard::remaining(("strip", strip), ("allowance", allowance), 2)?;
    guard::finite_result(strip * count - allowance * 2.0 * (count - 1.0))
}

/// Strips of `strip` that make up a closed loop `flat` round: `⌈flat / (strip - 2 · allowance)⌉`.
pub fn strips_looped(flat: Length, strip: Length, allowance: Length) -> Result<i64, TextileError> {
    guard::positive("flat", flat)?;
    let gained = guard::remaining(("strip", strip), ("allowance", allowance), 2)?;
    guard::counted("strips", flat / gained, 1)
}

/// Length round a closed loop of `count` strips: `count · (strip - 2 · allowance)`.
pub fn looped_length(count: i64, strip: Length, allowance: Length) -> Result<Length, TextileError> {
    let count = guard::count("count", count)?;
    guard::finite_result(guard::remaining(("strip", strip), ("allowance", allowance), 2)? * count)
}

/// The handbook's cautious rule for pleated strips: both allowances come off every strip and nothing
/// off the flat length, open ends or not: `⌈flat / (strip - 2 · allowance)⌉`.
pub fn strips_cautious(flat: Length, strip: Length, allowance: Length) -> Result<i64, TextileError> {
    strips_looped(flat, strip, allowance)
}

/// The handbook's rule for frills: no allowance, and one strip more where the quotient is whole, so
/// that rounding up always leaves something for the joins: `⌊flat / strip⌋ + 1`.
///
/// What it leaves may still be less than the joins take; [`strips_joined`] is exact.
pub fn strips_for_frill(flat: Length, strip: Length) -> Result<i64, TextileError> {
    guard::positive("flat", flat)?;
    guard::positive("strip", strip)?;
    Ok(guard::count_down("strips", flat / strip)? + 1)
}

/// Cloth that `count` strips take when they are cut across it, one below the other: `count · depth`.
pub fn cloth_for_strips(count: i64, depth: Length) -> Result<Length, TextileError> {
    guard::positive("depth", depth)?;
    guard::finite_result(depth * guard::count_or_none("count", count)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn allowances_must_leave_something_of_the_strip() {
        let error = strips_joined(Length::inches(60.0), Length::inches(6.0), Length::inches(3.0)).unwrap_err();
        assert_eq!(error.to_string(), "allowance is 3 in; twice that must be less than strip, 6 in");
        assert_eq!(error, strips_looped(Length::inches(60.0), Length::inches(6.0), Length::inches(3.0)).unwrap_err());
    }

    #[test]
    fn a_loop_has_one_join_more_than_a_flap() {
        let (strip, allowance) = (Length::inches(45.0), Length::inches(0.5));
        assert_eq!(strips_joined(Length::inches(133.0), strip, allowance), Ok(3));
        assert_eq!(strips_looped(Length::inches(133.0), strip, allowance), Ok(4));
        assert_eq!(joined_length(3, strip, allowance), Ok(Length::inches(133.0)));
        assert_eq!(looped_length(3, strip, allowance), Ok(Length::inches(132.0)));
        // Both allowances are less than the strip, though three would be more.
        assert_eq!(joined_length(1, Length::inches(6.0), Length::inches(2.5)), Ok(Length::inches(6.0)));
    }

    #[test]
    fn the_frill_rule_adds_a_strip_to_a_whole_quotient() {
        let cloth = Length::centimetres(110.0);
        assert_eq!(strips_for_frill(Length::centimetres(550.0), cloth), Ok(6));
        assert_eq!(strips_for_frill(Length::centimetres(549.0), cloth), Ok(5));
    }
}
