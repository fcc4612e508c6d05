//! Cords, bows and sashes, and the bag that a cord closes.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Length to cut of a bag folded at its foot, with a casing turned down at both ends:
/// `2 · height + 2 · (casing + turning)`.
pub fn bag_cut_length(height: Length, casing: Length, turning: Length) -> Result<Length, TextileError> {
    guard::positive("height", height)?;
    let top = guard::not_negative("casing", casing)? + guard::not_negative("turning", turning)?;
    guard::finite_result((height + top) * 2.0)
}

/// Cord of a drawstring bag: `cords · (2 · flat_width + tails)`; with two cords it is drawn from both sides.
pub fn drawstring_cord(flat_width: Length, tails: Length, cords: i64) -> Result<Length, TextileError> {
    guard::positive("flat_width", flat_width)?;
    let one = flat_width * 2.0 + guard::not_negative("tails", tails)?;
    guard::finite_result(one * guard::count("cords", cords)?)
}

/// Length of a bow with two loops and two ends: `4 · loops + 2 · end + knot`. `loops` is one loop laid flat, from the
/// knot to its tip.
pub fn bow_length(loops: Length, end: Length, knot: Length) -> Result<Length, TextileError> {
    guard::positive("loops", loops)?;
    let ends = guard::not_negative("end", end)? * 2.0;
    guard::finite_result(loops * 4.0 + ends + guard::not_negative("knot", knot)?)
}

/// Length of a sash that goes once round the body and is tied: `round` and its bow, or `round + 2 · end + knot` if it
/// is only knotted and `loops` is zero.
pub fn sash_length(round: Length, loops: Length, end: Length, knot: Length) -> Result<Length, TextileError> {
    guard::positive("round", round)?;
    let loops = guard::not_negative("loops", loops)? * 4.0;
    let ends = guard::not_negative("end", end)? * 2.0;
    guard::finite_result(round + loops + ends + guard::not_negative("knot", knot)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cords_bows_and_sashes() {
        let cm = Length::centimetres;
        assert_eq!(bag_cut_length(cm(25.0), cm(3.0), cm(1.0)), Ok(cm(58.0)));
        assert_eq!(drawstring_cord(cm(20.0), cm(20.0), 2), Ok(cm(120.0)));
        assert_eq!(bow_length(cm(12.0), cm(30.0), cm(6.0)), Ok(cm(114.0)));
        assert_eq!(sash_length(cm(60.0), cm(12.0), cm(30.0), cm(6.0)), Ok(cm(174.0)));
        assert_eq!(sash_length(cm(60.0), cm(0.0), cm(30.0), cm(6.0)), Ok(cm(126.0)));
        assert!(bow_length(cm(0.0), cm(30.0), cm(6.0)).is_err());
        assert!(drawstring_cord(cm(20.0), cm(20.0), 0).is_err());
    }
}
