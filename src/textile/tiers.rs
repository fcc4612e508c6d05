//! Tiered skirts: each tier gathered onto the one above.

use super::fault::TextileFault;
use super::guard;
use crate::quantity::Length;

/// Flat width of tier `tier`, the first being 1: `first · fullness^(tier - 1)`, the same fullness
/// from each tier to the next.
pub fn tier_flat(first: Length, fullness: f64, tier: i64) -> Result<Length, TextileFault> {
    guard::positive("first", first)?;
    let fullness = guard::fullness("fullness", fullness)?;
    guard::count("tier", tier)?;
    let steps = i32::try_from(tier - 1).map_err(|_| TextileFault::OutOfRange)?;
    guard::result(first * fullness.powi(steps))
}

/// Depth to cut of one of `tiers` equal tiers: `length / tiers + first + second`, an allowance at
/// each edge. `length` is what the tiers share; a band that is cut by itself is taken off before.
pub fn tier_depth(length: Length, tiers: i64, first: Length, second: Length) -> Result<Length, TextileFault> {
    guard::positive("length", length)?;
    let share = length / guard::count("tiers", tiers)?;
    let first = guard::not_negative("first", first)?;
    guard::result(share + first + guard::not_negative("second", second)?)
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
        assert_eq!(tier_flat(inches(50.0), 2.0, 9_999), Err(TextileFault::OutOfRange));
        assert!(tier_flat(inches(50.0), 0.5, 2).is_err());
    }
}
