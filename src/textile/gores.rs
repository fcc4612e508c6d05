//! Gored skirts: how a measure is shared among the gores.

use super::fault::TextileFault;
use super::guard;
use crate::quantity::Length;

/// Width to cut of one of `gores` equal gores at a level: `round / gores + 2 · allowance`.
pub fn gore_width(round: Length, gores: i64, allowance: Length) -> Result<Length, TextileFault> {
    guard::positive("round", round)?;
    let each = round / guard::count("gores", gores)?;
    guard::result(each + guard::not_negative("allowance", allowance)? * 2.0)
}

/// Width of each of the other gores when one, such as the front, is fixed: `(round - fixed) / others`.
pub fn gore_width_of_rest(round: Length, fixed: Length, others: i64) -> Result<Length, TextileFault> {
    Ok(guard::left_of(("round", round), ("fixed", fixed), 1)? / guard::count("others", others)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gores_share_the_measure() {
        let inches = Length::inches;
        assert_eq!(gore_width(inches(40.0), 5, inches(0.5)), Ok(inches(9.0)));
        assert_eq!(gore_width_of_rest(inches(81.0), inches(10.0), 4), Ok(inches(17.75)));
        assert!(gore_width(inches(40.0), 0, inches(0.5)).is_err());
        assert!(gore_width_of_rest(inches(10.0), inches(10.0), 4).is_err());
    }
}
