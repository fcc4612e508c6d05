//! Tape, ribbon, lace and binding along a hem.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Trim along a hem: `flat + joins · lap + 2 · end`. `flat` is the hem's length before anything is
/// gathered: by the gathered length a trim comes out short by the whole fullness.
pub fn trim_length(flat: Length, joins: i64, lap: Length, end: Length) -> Result<Length, TextileError> {
    guard::positive("flat", flat)?;
    let laps = guard::not_negative("lap", lap)? * guard::count_or_none("joins", joins)?;
    guard::finite_result(flat + laps + guard::not_negative("end", end)? * 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn joins_and_ends_are_added_to_the_flat_hem() {
        let inches = Length::inches;
        assert_eq!(trim_length(inches(145.0), 1, inches(0.5), inches(0.25)), Ok(inches(146.0)));
        assert_eq!(trim_length(inches(145.0), 0, inches(0.5), inches(0.0)), Ok(inches(145.0)));
        assert!(trim_length(inches(145.0), -1, inches(0.5), inches(0.0)).is_err());
    }
}
