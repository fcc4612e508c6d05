//! Draped valances and the edges of a bed: festoons, their tails, and the rules of thumb for their cloth.
//!
//! Rules as in Cutting and Draping (1905) \[1\].

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Depth to cut of a festoon: twice its hang, `2 · finished`; thin silk takes more.
pub fn festoon_cut_depth(finished: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("finished", finished)? * 2.0)
}

/// A part of a festoon's tail, as a share of its long edge.
const TAIL_PARTS: [(&str, f64); 3] = [("front edge", 1.0 / 2.0), ("top", 1.0 / 6.0), ("widest", 2.0 / 9.0)];

/// The words for the parts of a tail.
pub const TAIL_WORDS: [&str; 3] = {
    let [(front, _), (top, _), (widest, _)] = TAIL_PARTS;
    [front, top, widest]
};

/// A measure of a festoon's tail by its long edge: the front edge is half of it, the top a sixth, and the
/// widest place a third wider than the top.
pub fn festoon_tail(long: Length, part: &str) -> Result<Length, TextileError> {
    guard::positive("long", long)?;
    let share = TAIL_PARTS.into_iter().find(|(known, _)| *known == part).map(|(_, share)| share);
    let unknown = || TextileError::UnknownWord { argument: "part", given: part.to_owned(), known: TAIL_WORDS.to_vec() };
    guard::finite_result(long * share.ok_or_else(unknown)?)
}

/// Cloth of a flat valance with a tail at each end: `widths · (depth + turning) + tails`, `tails` being the
/// cloth of both.
pub fn flat_valance_cloth(widths: i64, depth: Length, turning: Length, tails: Length) -> Result<Length, TextileError> {
    let widths = guard::count("widths", widths)?;
    let one = guard::positive("depth", depth)? + guard::not_negative("turning", turning)?;
    guard::finite_result(one * widths + guard::not_negative("tails", tails)?)
}

/// A first guess at the cloth of a draped valance: a yard for each foot that it covers, `3 · width`.
pub fn drapery_guess(width: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("width", width)? * 3.0)
}

/// A first guess at its fringe: three yards more than the cloth, `3 · width + 3 yd`.
pub fn fringe_guess(width: Length) -> Result<Length, TextileError> {
    guard::finite_result(drapery_guess(width)? + Length::yards(3.0))
}

/// The edge that a bed valance hangs from: both sides and the foot, `2 · length + width`.
pub fn bed_valance_edge(length: Length, width: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("length", length)? * 2.0 + guard::positive("width", width)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tail_hangs_by_its_long_edge() {
        let inches = Length::inches;
        let part = |part| festoon_tail(inches(72.0), part);
        assert_eq!((part("front edge"), part("top")), (Ok(inches(36.0)), Ok(inches(12.0))));
        assert_eq!(part("widest"), Ok(inches(16.0)));
        assert!(part("bottom").is_err());
        assert!(festoon_tail(inches(0.0), "top").is_err());
    }

    #[test]
    fn cloth_for_draperies() {
        let (feet, yards) = (|n: f64| Length::inches(12.0 * n), Length::yards);
        assert_eq!(drapery_guess(feet(5.0)), Ok(yards(5.0)));
        assert_eq!(fringe_guess(feet(5.0)), Ok(yards(8.0)));
        assert_eq!(festoon_cut_depth(feet(1.0)), Ok(feet(2.0)));
        assert_eq!(flat_valance_cloth(2, feet(1.0), feet(0.5), feet(3.0)), Ok(feet(6.0)));
        assert_eq!(bed_valance_edge(feet(6.0), feet(4.0)), Ok(feet(16.0)));
        assert!(flat_valance_cloth(0, feet(1.0), feet(0.5), feet(3.0)).is_err());
        assert!(bed_valance_edge(feet(6.0), feet(0.0)).is_err());
    }
}
