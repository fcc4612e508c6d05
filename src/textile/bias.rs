//! Bias strips and bindings.
//!
//! The area rule is an upper bound: joins and trimmed corners take some 5 to 10 % more cloth (common
//! practice, no source).

use super::error::TextileError;
use super::guard;
use crate::quantity::{Area, Length, number};
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

/// Width to cut of a binding: `folds · finished + 2 · turning`. A single one lies twice over its edge, one folded
/// double first four times; each raw edge takes a turning, that of a single one under the fold or into the seam.
pub fn binding_width(finished: Length, folds: i64, turning: Length) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    let layers = finished * guard::count("folds", folds)?;
    guard::finite_result(layers + guard::not_negative("turning", turning)? * 2.0)
}

/// What a slanting line spans along the selvedge, and as much across it: `length / √2`.
pub fn bias_span(length: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("length", length)? / SQRT_2)
}

/// From one strip to the next, measured along the selvedge: `√2 · cut_width`.
pub fn bias_step(cut_width: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("cut_width", cut_width)? * SQRT_2)
}

/// Strip that a join takes: both allowances lie along the thread, so that each is longer measured along the strip:
/// `2 · √2 · allowance`.
pub fn bias_join(allowance: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::not_negative("allowance", allowance)? * 2.0 * SQRT_2)
}

/// Whole strips in a block of cloth whose ends all lie on its two long edges: `⌊(long - deep) / (√2 · cut_width)⌋`;
/// zero if the block is no longer than deep.
pub fn bias_pieces_in(long: Length, deep: Length, cut_width: Length) -> Result<i64, TextileError> {
    guard::positive("long", long)?;
    guard::positive("deep", deep)?;
    let step = bias_step(cut_width)?;
    Ok(guard::count_down("strips", (long - deep) / step)?.max(0))
}

/// Length of `count` such strips joined, their ends left slanting: `√2 · (count · deep - 2 · allowance · (count - 1))`.
pub fn bias_pieces_length(count: i64, deep: Length, allowance: Length) -> Result<Length, TextileError> {
    let count = guard::count("count", count)?;
    guard::remaining(("deep", deep), ("allowance", allowance), 2)?;
    guard::finite_result((deep * count - allowance * 2.0 * (count - 1.0)) * SQRT_2)
}

/// The most strips of one depth that make up `length` and lie in a block no longer than `usable_width`: the more they
/// are, the less deep the block. `step` is what each takes along the block. Between its joins none shows less than
/// `shortest`, unless there is one alone. Zero if there are no such strips.
pub fn bias_pieces_for(
    length: Length,
    usable_width: Length,
    step: Length,
    allowance: Length,
    shortest: Length,
) -> Result<i64, TextileError> {
    guard::positive("length", length)?;
    guard::positive("step", step)?;
    guard::not_negative("shortest", shortest)?;
    let across = guard::remaining(("usable_width", usable_width), ("allowance", allowance), 2)?;
    let fits = |count: i64| -> Result<bool, TextileError> {
        Ok(bias_pieces_depth(count, length, allowance)? + step * number::from_whole(count) <= usable_width)
    };
    // Less the allowances of one join: what the strips share out among themselves.
    let shared = length / SQRT_2 - allowance * 2.0;
    if !shared.is_positive() {
        return Ok(i64::from(fits(1)?));
    }
    // depth + count · step ≤ usable_width, with depth = shared / count + 2 · allowance, is quadratic in the count.
    let (half, product) = (across / step / 2.0, shared / step);
    let spread = (half * half - product).max(0.0).sqrt();
    let by_width = guard::count_down("strips", half + spread)?;
    let by_length =
        if shortest.is_positive() { guard::count_down("strips", shared * SQRT_2 / shortest)? } else { by_width };
    let most = by_width.min(by_length).max(1);
    Ok(if fits(most)? { most } else { 0 })
}

/// How deep a block of cloth must be for `count` strips that make up `length`, joined and their ends left slanting:
/// `(length / √2 + 2 · allowance · (count - 1)) / count`.
pub fn bias_pieces_depth(count: i64, length: Length, allowance: Length) -> Result<Length, TextileError> {
    let count = guard::count("count", count)?;
    let joins = guard::not_negative("allowance", allowance)? * 2.0 * (count - 1.0);
    guard::finite_result((bias_span(length)? + joins) / count)
}

/// Length of one strip cut round and round a block sewn into a tube, its ends left slanting:
/// `(long - 2 · allowance) · (deep - 2 · allowance) / cut_width`.
pub fn bias_tube_length(
    long: Length,
    deep: Length,
    cut_width: Length,
    allowance: Length,
) -> Result<Length, TextileError> {
    guard::positive("cut_width", cut_width)?;
    let long = guard::remaining(("long", long), ("allowance", allowance), 2)?;
    let deep = guard::remaining(("deep", deep), ("allowance", allowance), 2)?;
    guard::finite_result(long * deep / cut_width)
}

/// How deep a block so long must be for a tube that gives `length`: `2 · allowance + length · cut_width /
/// (long - 2 · allowance)`.
pub fn bias_tube_depth(
    length: Length,
    long: Length,
    cut_width: Length,
    allowance: Length,
) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    guard::positive("cut_width", cut_width)?;
    let long = guard::remaining(("long", long), ("allowance", allowance), 2)?;
    guard::finite_result(allowance * 2.0 + length * (cut_width / long))
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
        assert_eq!(binding_width(inches(0.5), 4, inches(0.0)), Ok(inches(2.0)));
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

    #[test]
    fn a_binding_takes_its_folds_and_two_turnings() {
        let inches = Length::inches;
        // Clothing and Health (1916) [2]: a single binding of 1 in is cut 2 1/2 in.
        assert_eq!(binding_width(inches(1.0), 2, inches(0.25)), Ok(inches(2.5)));
        // Indian Agricultural Statistics Research Institute, neckline finishes: single 3/4 in, double 1 in.
        assert_eq!(binding_width(inches(0.125), 2, inches(0.25)), Ok(inches(0.75)));
        assert_eq!(binding_width(inches(0.125), 4, inches(0.25)), Ok(inches(1.0)));
        assert!(binding_width(inches(1.0), 2, inches(-0.25)).is_err());
    }

    #[test]
    fn a_block_across_the_cloth_gives_strips_or_a_tube() {
        let cm = Length::centimetres;
        let near = |found: Result<Length, TextileError>, wanted: f64| {
            let found = found.unwrap();
            assert!((found / cm(1.0) - wanted).abs() < 0.0005, "{found:?}");
        };
        // By hand: 500 cm of 2.5 cm out of 86 cm with joins of 6 mm. The tube is 2 · 0.6 + 500 · 2.5 / 84.8 deep.
        near(bias_tube_depth(cm(500.0), cm(86.0), cm(2.5), cm(0.6)), 15.9406);
        near(bias_tube_length(cm(86.0), cm(15.940_566), cm(2.5), cm(0.6)), 500.0);
        // 18 strips: (353.5534 + 2 · 0.6 · 17) / 18; 19 would reach 19.745 + 19 · 3.5355 = 86.92 across.
        let step = bias_step(cm(2.5)).unwrap();
        assert_eq!(bias_pieces_for(cm(500.0), cm(86.0), step, cm(0.6), cm(15.24)), Ok(18));
        near(bias_pieces_depth(18, cm(500.0), cm(0.6)), 20.7752);
        assert_eq!(bias_pieces_in(cm(86.0), cm(20.7752), cm(2.5)), Ok(18));
        near(bias_pieces_length(18, cm(20.775_188), cm(0.6)), 500.0);
        // 40 cm lie in two of 20.28 cm along the strip; three of 13.52 are shorter than is allowed.
        assert_eq!(bias_pieces_for(cm(40.0), cm(86.0), step, cm(0.0), cm(15.24)), Ok(2));
        // One alone may be as short as it is wanted; and 900 cm go on no block of this width.
        assert_eq!(bias_pieces_for(cm(10.0), cm(86.0), step, cm(0.6), cm(15.24)), Ok(1));
        assert_eq!(bias_pieces_for(cm(1.0), cm(86.0), step, cm(0.6), cm(15.24)), Ok(1));
        assert_eq!(bias_pieces_for(cm(900.0), cm(86.0), step, cm(0.6), cm(15.24)), Ok(0));
        assert_eq!(bias_pieces_for(cm(10.0), cm(8.0), step, cm(0.6), cm(15.24)), Ok(0));
        assert_eq!(bias_pieces_in(cm(20.0), cm(20.0), cm(2.0)), Ok(0));
        assert_eq!(bias_pieces_in(cm(20.0), cm(30.0), cm(2.0)), Ok(0));
    }
}
