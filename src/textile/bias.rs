//! Bias strips and bindings.
//!
//! The area rule is an upper bound: joins and trimmed corners take some 5 to 10 % more cloth (common
//! practice, no source).

use super::error::TextileError;
use super::guard;
use crate::quantity::{Area, Length};
use std::f64::consts::SQRT_2;

/// The most bias strip that a piece of cloth can give: `area / cut_width`.
pub fn bias_length_at_most(area: Area, cut_width: Length) -> Result<Length, TextileError> {
    guard::positive("area", area)?;
    guard::positive("cut_width", cut_width)?;
    guard::finite_result(area / cut_width)
}

/// The smallest side of a square that could give `length` of bias strip: `√(length · cut_width)`.
pub fn bias_square_at_least(length: Length, cut_width: Length) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    guard::positive("cut_width", cut_width)?;
    guard::finite_result((length * cut_width).root())
}

/// Side of a square that gives `length` of bias strip if a share is lost in joins and corners:
/// `√(length · cut_width / (1 - loss))`.
pub fn bias_square(length: Length, cut_width: Length, loss: f64) -> Result<Length, TextileError> {
    guard::positive("cut_width", cut_width)?;
    let with_loss = guard::positive("length", length)? / (1.0 - guard::share("loss", loss)?);
    guard::finite_result((with_loss * cut_width).root())
}

/// Strips cut at 45° from selvedge to selvedge that make up `length`, squared off at both ends: the least n for which
/// [`bias_strips_length`] reaches it.
pub fn bias_strips_for(
    length: Length,
    usable_width: Length,
    cut_width: Length,
    allowance: Length,
) -> Result<i64, TextileError> {
    guard::positive("length", length)?;
    guard::positive("cut_width", cut_width)?;
    let gained = guard::remaining(("usable_width", usable_width), ("allowance", allowance), 2)? * SQRT_2;
    guard::counted("strips", (length + cut_width - allowance * 2.0 * SQRT_2) / gained, 1)
}

/// Length of `count` strips, joined along the straight grain and squared off at both ends:
/// `√2 · (count · usable_width - 2 · allowance · (count - 1)) - cut_width`. The ends are slanted, so squaring both
/// takes one cut width in all.
pub fn bias_strips_length(
    count: i64,
    usable_width: Length,
    cut_width: Length,
    allowance: Length,
) -> Result<Length, TextileError> {
    let count = guard::count("count", count)?;
    guard::positive("cut_width", cut_width)?;
    guard::remaining(("usable_width", usable_width), ("allowance", allowance), 2)?;
    let slant = (usable_width * count - allowance * 2.0 * (count - 1.0)) * SQRT_2;
    guard::within("cut_width", cut_width, "the_strips_joined", slant)?;
    guard::finite_result((slant - cut_width).most(Length::ZERO))
}

/// Cloth along the selvedge that `count` such strips are cut from, including the two corners:
/// `usable_width + √2 · count · cut_width`.
pub fn bias_strips_cloth(count: i64, usable_width: Length, cut_width: Length) -> Result<Length, TextileError> {
    let strips = guard::positive("cut_width", cut_width)? * guard::count("count", count)? * SQRT_2;
    guard::finite_result(guard::positive("usable_width", usable_width)? + strips)
}

/// Width to cut of a binding: `folds · finished`, with two folds for a single binding and four for one
/// whose edges are turned in on both sides.
pub fn binding_width(finished: Length, folds: i64) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    guard::finite_result(finished * guard::count("folds", folds)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_square_undoes_the_length() {
        let inches = Length::inches;
        let length = bias_length_at_most(inches(36.0) * inches(36.0), inches(2.0)).unwrap();
        assert_eq!(length, inches(648.0));
        assert_eq!(bias_square_at_least(length, inches(2.0)), Ok(inches(36.0)));
        assert_eq!(binding_width(inches(0.5), 4), Ok(inches(2.0)));
        assert!(bias_length_at_most(inches(36.0) * inches(36.0), inches(0.0)).is_err());
        assert!(bias_square_at_least(inches(-1.0), inches(2.0)).is_err());
    }

    #[test]
    fn a_share_is_lost_in_a_square() {
        let inches = Length::inches;
        assert_eq!(bias_square(inches(648.0), inches(2.0), 0.0), Ok(inches(36.0)));
        // 583.2 in and a tenth lost is 648 in.
        assert_eq!(bias_square(inches(583.2), inches(2.0), 0.1), Ok(inches(36.0)));
        assert!(bias_square(inches(648.0), inches(2.0), 1.0).is_err());
    }

    #[test]
    fn strips_across_the_cloth_lose_joins_and_slanting_ends() {
        let inches = Length::inches;
        let (width, cut) = (inches(10.0) / SQRT_2, inches(2.0));
        // Each strip is 10 in along its edge; squared off one gives 8, two give 18.
        assert_eq!(bias_strips_length(1, width, cut, inches(0.0)), Ok(inches(8.0)));
        assert_eq!(bias_strips_length(2, width, cut, inches(0.0)), Ok(inches(18.0)));
        assert_eq!(bias_strips_for(inches(8.0), width, cut, inches(0.0)), Ok(1));
        assert_eq!(bias_strips_for(inches(8.1), width, cut, inches(0.0)), Ok(2));
        let allowance = inches(0.5) / SQRT_2;
        assert_eq!(bias_strips_length(2, width, cut, allowance), Ok(inches(17.0)));
        assert_eq!(bias_strips_for(inches(17.0), width, cut, allowance), Ok(2));
        assert_eq!(bias_strips_for(inches(17.1), width, cut, allowance), Ok(3));
        assert_eq!(bias_strips_cloth(3, inches(44.0), inches(2.0) / SQRT_2), Ok(inches(50.0)));
        // Both allowances are less than the width, though three would be more.
        assert_eq!(bias_strips_length(1, width, cut, inches(3.0)), Ok(inches(8.0)));
        assert!(bias_strips_for(inches(8.0), inches(1.0), cut, inches(0.5)).is_err());
        assert!(bias_strips_length(1, inches(1.0), inches(2.0), inches(0.0)).is_err());
    }
}
