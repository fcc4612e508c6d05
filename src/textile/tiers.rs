//! Tiered skirts: each tier gathered onto the one above.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Length, number};

/// Flat width of tier `tier`, the first being 1: `first · fullness^(tier - 1)`, the same fullness
/// from each tier to the next.
pub fn tier_flat(first: Length, fullness: f64, tier: i64) -> Result<Length, TextileError> {
    guard::positive("first", first)?;
    let fullness = guard::fullness("fullness", fullness)?;
    guard::count("tier", tier)?;
    let steps = i32::try_from(tier - 1).map_err(|_| TextileError::OutOfRange)?;
    guard::finite_result(first * fullness.powi(steps))
}

/// Depth to cut of one of `tiers` equal tiers: `length / tiers + first + second`, an allowance at each edge. `length`
/// is what the tiers share; subtract a band that is cut by itself first.
pub fn tier_depth(length: Length, tiers: i64, first: Length, second: Length) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    let share = length / guard::count("tiers", tiers)?;
    let first = guard::not_negative("first", first)?;
    guard::finite_result(share + first + guard::not_negative("second", second)?)
}

/// Flat widths of all tiers, the top one first: each is the one above times its own fullness.
pub fn tier_widths(first: Length, fullness: &[f64]) -> Result<Vec<Length>, TextileError> {
    let mut width = guard::positive("first", first)?;
    let mut widths = vec![width];
    for given in fullness {
        width = guard::finite_result(width * guard::fullness("fullness", *given)?)?;
        widths.push(width);
    }
    Ok(widths)
}

/// Finished depths of tiers that share `length`, the top one first, each deeper than the one above by its step:
/// `first · tiers` and all that is deeper make up `length`.
pub fn tier_depths(length: Length, steps: &[Length]) -> Result<Vec<Length>, TextileError> {
    let (mut deeper, mut together) = (Length::ZERO, Length::ZERO);
    let mut extra = vec![deeper];
    for step in steps {
        deeper = guard::finite_result(deeper + guard::not_negative("steps", *step)?)?;
        together = guard::finite_result(together + deeper)?;
        extra.push(deeper);
    }
    let shared = guard::remaining(("length", length), ("steps_together", together), 1)?;
    let first = shared / number::from_count(extra.len());
    Ok(extra.into_iter().map(|extra| first + extra).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_tier_is_gathered_onto_the_one_above() {
        let inches = Length::inches;
        assert_eq!(tier_flat(inches(50.0), 2.0, 1), Ok(inches(50.0)));
        assert_eq!(tier_flat(inches(50.0), 2.0, 3), Ok(inches(200.0)));
        assert_eq!(tier_depth(inches(30.0), 3, inches(0.5), inches(0.5)), Ok(inches(11.0)));
        assert!(tier_flat(inches(50.0), 2.0, 0).is_err());
        assert!(tier_flat(inches(50.0), 2.0, i64::MIN).is_err());
        assert_eq!(tier_flat(inches(50.0), 2.0, 9_999), Err(TextileError::OutOfRange));
        assert!(tier_flat(inches(50.0), 0.5, 2).is_err());
    }

    #[test]
    fn ratios_and_steps_may_differ_from_tier_to_tier() {
        let inches = Length::inches;
        assert_eq!(tier_widths(inches(40.0), &[1.5, 2.0]), Ok(vec![inches(40.0), inches(60.0), inches(120.0)]));
        assert_eq!(tier_widths(inches(40.0), &[]), Ok(vec![inches(40.0)]));
        assert!(tier_widths(inches(40.0), &[1.5, 0.9]).is_err());
        let steps = [inches(0.5), inches(0.5), inches(1.5)];
        let depths = [6.25, 6.75, 7.25, 8.75].map(inches).to_vec();
        assert_eq!(tier_depths(inches(29.0), &steps), Ok(depths));
        assert!(tier_depths(inches(4.0), &steps).is_err(), "the steps alone come to 4 in");
        assert!(tier_depths(inches(29.0), &[inches(-1.0)]).is_err());
    }
}
