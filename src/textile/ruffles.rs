//! Ruffles with a rule of their own, and lace gathered round a corner.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Depth to cut of a puff ruffle, gathered along both edges: `2 · finished + 2 in`, as The New Dressmaker
/// (1921) \[4\] has it.
pub fn puff_ruffle_depth(finished: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("finished", finished)? * 2.0 + Length::inches(2.0))
}

/// Flat strip of a French ruffle: `2⅓ · edge`, as Cutting and Draping (1905) \[1\] has it.
pub fn french_ruffle_flat(edge: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("edge", edge)? * 7.0 / 3.0)
}

/// Lace to push together at each side of a corner, so that it lies flat round it:
/// `(1 + fullness) · width`.
///
/// *Handicraft for Girls*, 1910, gives twice the width where the lace has no fullness and 2½
/// times with half as much again; the line through both is ours.
pub fn corner_lace(width: Length, fullness: f64) -> Result<Length, TextileError> {
    guard::positive("width", width)?;
    guard::finite_result(width * (1.0 + guard::fullness("fullness", fullness)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_by_its_rule() {
        let inches = Length::inches;
        assert_eq!(puff_ruffle_depth(inches(3.0)), Ok(inches(8.0)));
        assert_eq!(french_ruffle_flat(inches(72.0)), Ok(inches(168.0)));
        assert_eq!(corner_lace(inches(1.5), 1.0), Ok(inches(3.0)));
        assert_eq!(corner_lace(inches(1.5), 1.5), Ok(inches(3.75)));
        assert!(corner_lace(inches(1.5), 0.5).is_err());
        assert!(puff_ruffle_depth(inches(0.0)).is_err());
    }
}
