//! What the first wash takes of cloth: sizes before and after it, how much a deep hem can give back, and how far a test
//! piece can be trusted.
//!
//! Never here: what a shop does about it, and cloth that is not measured. No loss is assumed without a test piece.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// The shares of its length and of its width that goods lose in the first wash, each from 0 to less than 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Loss {
    along: f64,
    across: f64,
}

impl Loss {
    /// Nothing is lost.
    pub const NONE: Self = Self { along: 0.0, across: 0.0 };

    /// These shares.
    ///
    /// # Errors
    /// A share below zero, or that leaves nothing.
    pub fn new(along: f64, across: f64) -> Result<Self, TextileError> {
        Ok(Self { along: guard::share("along", along)?, across: guard::share("across", across)? })
    }

    /// The share of the length.
    pub fn along(self) -> f64 {
        self.along
    }

    /// The share of the width.
    pub fn across(self) -> f64 {
        self.across
    }

    /// Whether nothing is lost.
    pub fn is_none(self) -> bool {
        self == Self::NONE
    }

    /// Returns the length that a length has before the wash.
    pub fn before_along(self, length: Length) -> Length {
        length / (1.0 - self.along)
    }

    /// Returns the length that is left of a length.
    pub fn after_along(self, length: Length) -> Length {
        length * (1.0 - self.along)
    }

    /// Returns the width that a width has before the wash.
    pub fn before_across(self, width: Length) -> Length {
        width / (1.0 - self.across)
    }

    /// Returns the width that is left of a width.
    pub fn after_across(self, width: Length) -> Length {
        width * (1.0 - self.across)
    }

    /// Returns how many times the area after the wash that before it is.
    pub fn area_before(self) -> f64 {
        1.0 / ((1.0 - self.along) * (1.0 - self.across))
    }
}

/// Longest drop whose loss a length in hand gives back: `in_hand / shrinkage`.
pub fn longest_drop(in_hand: Length, shrinkage: f64) -> Result<Length, TextileError> {
    guard::positive("in_hand", in_hand)?;
    let share = guard::positive("shrinkage", guard::share("shrinkage", shrinkage)?)?;
    guard::finite_result(in_hand / share)
}

/// Uncertainty of the share that a test piece lost, if it is read to one mark before and after the wash:
/// `mark / length / √6`. A reading is off by anything up to half a mark, so by the mark over `√12`, and there are two.
pub fn shrinkage_uncertainty(length: Length, mark: Length) -> Result<f64, TextileError> {
    guard::positive("length", length)?;
    let mark = guard::not_negative("mark", mark)?;
    guard::within("mark", mark, "length", length)?;
    Ok((mark / length) * (1.0_f64 / 6.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cm(value: f64) -> Length {
        Length::centimetres(value)
    }

    /// Own arithmetic: 72 in at 4 % are 75 in before the wash; 44 in at 2 % are left of 44.898 in.
    #[test]
    fn before_and_after_undo_each_other() {
        let loss = Loss::new(0.04, 0.02).unwrap();
        assert_eq!(loss.before_along(Length::inches(72.0)), Length::inches(75.0));
        assert_eq!(loss.after_along(Length::inches(75.0)), Length::inches(72.0));
        assert_eq!(loss.after_across(loss.before_across(cm(44.0))), cm(44.0));
        assert!((loss.area_before() - 1.0 / (0.96 * 0.98)).abs() < 1e-12);
        assert!(Loss::NONE.is_none() && !loss.is_none());
        // Without a loss not a bit changes.
        let odd = Length::from_steps(1.0 / 3.0);
        assert_eq!(Loss::NONE.before_along(odd).steps().to_bits(), odd.steps().to_bits());
        assert_eq!(Loss::NONE.after_across(odd).steps().to_bits(), odd.steps().to_bits());
        for (along, across) in [(-0.01, 0.0), (0.0, 1.0), (f64::NAN, 0.0)] {
            assert!(Loss::new(along, across).is_err(), "{along} {across}");
        }
    }

    /// Own arithmetic: of four drops of 210 cm on a half drop of 64 cm the last starts 672 cm, ten repeats and a half,
    /// behind the first.
    #[test]
    fn planning_washed_cloth_and_longer_drops_is_the_same() {
        let loss = Loss::new(0.03, 0.0).unwrap();
        let end = |repeat: Length, drop: Length| repeat * 10.5 + drop;
        let washed = end(loss.after_along(cm(64.0)), cm(210.0));
        assert_eq!(washed, cm(861.84));
        let longer = end(cm(64.0), loss.before_along(cm(210.0)));
        assert_eq!(loss.before_along(washed), longer);
        assert!((longer.in_centimetres() - 888.495).abs() < 0.0005);
        // Dividing the plan of the unwashed drops buys too much.
        assert!(loss.before_along(end(cm(64.0), cm(210.0))) > longer + cm(20.0));
    }

    #[test]
    fn a_hem_in_hand_covers_a_drop_and_nothing_covers_without_a_loss() {
        assert!((longest_drop(cm(5.0), 0.03).unwrap().in_centimetres() - 500.0 / 3.0).abs() < 1e-9);
        assert!(longest_drop(cm(5.0), 0.0).is_err());
        assert!(longest_drop(cm(0.0), 0.03).is_err());
        assert!(longest_drop(cm(5.0), 1.0).is_err());
    }

    #[test]
    fn a_longer_test_piece_is_surer() {
        let surely = |length| shrinkage_uncertainty(cm(length), cm(0.1)).unwrap();
        assert!(surely(50.0) < surely(20.0));
        assert!(shrinkage_uncertainty(cm(0.05), cm(0.1)).is_err());
        assert!(shrinkage_uncertainty(cm(20.0), cm(-0.1)).is_err());
    }
}
