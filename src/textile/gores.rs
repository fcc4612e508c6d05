//! Gored skirts: how a measure is shared among the gores.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Width to cut of one of `gores` equal gores at a level: `round / gores + 2 · allowance`.
pub fn gore_width(round: Length, gores: i64, allowance: Length) -> Result<Length, TextileError> {
    guard::positive("round", round)?;
    let each = round / guard::count("gores", gores)?;
    guard::finite_result(each + guard::not_negative("allowance", allowance)? * 2.0)
}

/// Width of each of the other gores when one, such as the front, is fixed: `(round - fixed) / others`.
pub fn gore_width_of_rest(round: Length, fixed: Length, others: i64) -> Result<Length, TextileError> {
    Ok(guard::remaining(("round", round), ("fixed", fixed), 1)? / guard::count("others", others)?)
}

/// How far the waist rises across each pattern piece from the front to the back: `(back - front) / pieces`.
pub fn gore_rise(front: Length, back: Length, pieces: i64) -> Result<Length, TextileError> {
    guard::positive("front", front)?;
    guard::positive("back", back)?;
    guard::within("front", front, "back", back)?;
    Ok((back - front).most(Length::ZERO) / guard::count("pieces", pieces)?)
}

/// Shares of the waist in half a pattern of five gores: half the front gore takes a quarter of the half, the side a
/// third of the half, the back the rest.
pub fn five_gore_shares(waist: Length) -> Result<[Length; 3], TextileError> {
    let half = guard::positive("waist", waist)? / 2.0;
    let (front, side) = (half / 4.0, half / 3.0);
    Ok([front, side, half - front - side])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gores_share_the_measure() {
        let inches = Length::inches;
        assert_eq!(gore_width(inches(40.0), 5, inches(0.5)), Ok(inches(9.0)));
        assert_eq!(gore_width_of_rest(inches(81.0), inches(10.0), 4), Ok(inches(17.75)));
        assert_eq!(gore_rise(inches(38.0), inches(39.5), 3), Ok(inches(0.5)));
        assert!(gore_rise(inches(39.5), inches(38.0), 3).is_err());
        assert_eq!(five_gore_shares(inches(24.0)), Ok([3.0, 4.0, 5.0].map(inches)));
        assert!(gore_width(inches(40.0), 0, inches(0.5)).is_err());
        assert!(gore_width_of_rest(inches(10.0), inches(10.0), 4).is_err());
    }
}
