//! Bias strips and bindings.
//!
//! The area rule is an upper bound: joins and trimmed corners take some 5 to 10 % more cloth (common
//! practice, no source).

use super::fault::TextileFault;
use super::guard;
use crate::quantity::{Area, Length};

/// The most bias strip that a piece of cloth can give: `area / cut_width`.
pub fn bias_length_at_most(area: Area, cut_width: Length) -> Result<Length, TextileFault> {
    guard::positive("area", area)?;
    guard::positive("cut_width", cut_width)?;
    guard::result(area / cut_width)
}

/// The smallest side of a square that could give so much bias strip: `√(length · cut_width)`.
pub fn bias_square_at_least(length: Length, cut_width: Length) -> Result<Length, TextileFault> {
    guard::positive("length", length)?;
    guard::positive("cut_width", cut_width)?;
    guard::result((length * cut_width).root())
}

/// Width to cut of a binding: `folds · finished`, with two folds for a single binding and four for one
/// whose edges are turned in on both sides.
pub fn binding_width(finished: Length, folds: i64) -> Result<Length, TextileFault> {
    guard::positive("finished", finished)?;
    guard::result(finished * guard::count("folds", folds)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_square_undoes_the_length() {
        let inches = Length::inches;
        let length = bias_length_at_most(inches(36.0) * inches(36.0), inches(2.0)).unwrap();
        assert_eq!(length, inches(648.0));
        assert_eq!(bias_square_at_least(length, inches(2.0)), Ok(inches(36.0)));
        assert_eq!(binding_width(inches(0.5), 4), Ok(inches(2.0)));
        assert!(bias_length_at_most(inches(36.0) * inches(36.0), inches(0.0)).is_err());
        assert!(bias_square_at_least(inches(-1.0), inches(2.0)).is_err());
    }
}
