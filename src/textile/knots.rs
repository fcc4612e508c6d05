//! Strips folded in half and knotted on a band, without sewing.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Length, number};

/// Length to cut of a strip that hangs double from its knot: `2 · finished + knot`.
pub fn knotted_strip(finished: Length, knot: Length) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    guard::finite_result(finished * 2.0 + guard::not_negative("knot", knot)?)
}

/// Strips that fill a band as densely as a trial: `⌈band · counted / tried⌉`.
pub fn knotted_strips(band: Length, counted: i64, tried: Length) -> Result<i64, TextileError> {
    guard::positive("band", band)?;
    guard::positive("tried", tried)?;
    guard::count("counted", counted)?;
    guard::counted("strips", band / tried * number::from_whole(counted), 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_is_filled_as_the_trial_was() {
        let inches = Length::inches;
        assert_eq!(knotted_strip(inches(10.0), inches(2.0)), Ok(inches(22.0)));
        assert_eq!(knotted_strips(inches(21.0), 12, inches(4.0)), Ok(63));
        assert_eq!(knotted_strips(inches(21.1), 12, inches(4.0)), Ok(64));
        assert_eq!(knotted_strips(inches(0.2), 12, inches(4.0)), Ok(1), "one strip is the least");
        assert!(knotted_strips(inches(21.0), 0, inches(4.0)).is_err());
        assert!(knotted_strip(inches(0.0), inches(2.0)).is_err());
    }
}
