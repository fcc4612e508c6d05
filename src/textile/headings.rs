//! Headings of curtains and valances: pinch pleats, pockets for a rod, and how full a valance is.
//!
//! Spaces between pleats are [`even_spaces`](super::band::even_spaces) over the heading less its return and
//! overlap; the cloth in a pleat is [`pleat_take_up`](super::pleats::pleat_take_up).

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Pinch pleats along a heading, the first and the last at its ends, no space wider than `space`:
/// `⌈section / space⌉ + 1`. `section` is the finished width less return and overlap, which stay flat.
pub fn pinch_pleat_count(section: Length, space: Length) -> Result<i64, TextileError> {
    guard::positive("section", section)?;
    guard::positive("space", space)?;
    Ok(guard::counted("pleats", section / space, 1)? + 1)
}

/// Depth of a pocket, from stitching line to stitching line, by the rod's diameter: `2 · diameter`.
///
/// The books disagree: for a rod of 1 in this is 2 in, [`rod_pocket_for_round`] with a fifth for shrinking
/// 1 7/8 in, and half round the rod without any ease 1.571 in, which no rod slips through.
pub fn rod_pocket_depth(diameter: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("diameter", diameter)? * 2.0)
}

/// The same from the length round the rod, with a share of it for ease and shrinking: `round · (1 + ease) / 2`.
pub fn rod_pocket_for_round(round: Length, ease: f64) -> Result<Length, TextileError> {
    guard::positive("round", round)?;
    guard::finite_result(round * (1.0 + guard::not_negative("ease", ease)?) / 2.0)
}

/// Kinds of valance, and how full each is.
const VALANCES: [(&str, f64); 3] = [("gathered light cloth", 2.0), ("gathered medium cloth", 1.5), ("box pleats", 3.0)];

/// The words for the kinds of valance.
pub const VALANCE_WORDS: [&str; 3] = {
    let [(light, _), (medium, _), (boxed, _)] = VALANCES;
    [light, medium, boxed]
};

/// Flat over finished of a valance: 2 gathered of light cloth, 1½ of medium, 3 in box pleats that touch.
pub fn valance_fullness(kind: &str) -> Result<f64, TextileError> {
    VALANCES.into_iter().find(|(known, _)| *known == kind).map(|(_, fullness)| fullness).ok_or_else(|| {
        TextileError::UnknownWord { argument: "kind", given: kind.to_owned(), known: VALANCE_WORDS.to_vec() }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_pleat_more_than_spaces() {
        let cm = Length::centimetres;
        assert_eq!(pinch_pleat_count(cm(90.0), cm(15.0)), Ok(7));
        assert_eq!(pinch_pleat_count(cm(91.0), cm(15.0)), Ok(8));
        assert_eq!(pinch_pleat_count(cm(5.0), cm(15.0)), Ok(2));
        assert!(pinch_pleat_count(cm(90.0), cm(0.0)).is_err());
    }

    #[test]
    fn pockets_by_each_rule() {
        let inches = Length::inches;
        assert_eq!(rod_pocket_depth(inches(1.0)), Ok(inches(2.0)));
        assert_eq!(rod_pocket_for_round(inches(3.125), 0.2), Ok(inches(1.875)));
        assert_eq!(rod_pocket_for_round(inches(3.125), 0.0), Ok(inches(1.5625)));
        assert!(rod_pocket_depth(inches(0.0)).is_err());
        assert!(rod_pocket_for_round(inches(3.0), -0.1).is_err());
    }

    #[test]
    fn a_kind_of_valance_that_is_not_known_is_told_the_kinds() {
        // Cutting and Draping (1905) [1], valances.
        let read = [("gathered light cloth", 2.0), ("gathered medium cloth", 1.5), ("box pleats", 3.0)];
        assert_eq!(VALANCE_WORDS, read.map(|(kind, _)| kind));
        for (kind, fullness) in read {
            assert_eq!(valance_fullness(kind), Ok(fullness));
        }
        let error = valance_fullness("puffed").unwrap_err();
        assert_eq!(
            error.to_string(),
            "kind is “puffed”; it must be one of gathered light cloth, gathered medium cloth, box pleats"
        );
    }
}
