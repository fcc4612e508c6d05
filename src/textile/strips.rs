//! Strips laid end to end with an overlap, and the rolls they are cut from.
//!
//! Strips are bought in whole pieces: a roll holds whole strips, and the rest of it is not joined to the next roll.
//! Common practice, no source.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Strips of `width` that cover `flat` when each overlaps the next by `overlap`:
/// `⌈(flat - overlap) / (width - overlap)⌉`, at least one.
pub fn strips_for(flat: Length, width: Length, overlap: Length) -> Result<i64, TextileError> {
    guard::positive("flat", flat)?;
    let gained = guard::remaining(("width", width), ("overlap", overlap), 1)?;
    guard::counted("strips", (flat - overlap) / gained, 1)
}

/// Flat length that `count` overlapping strips cover: `count · width - (count - 1) · overlap`.
pub fn strips_laid(count: i64, width: Length, overlap: Length) -> Result<Length, TextileError> {
    let count = guard::count("count", count)?;
    guard::remaining(("width", width), ("overlap", overlap), 1)?;
    guard::finite_result(width * count - overlap * (count - 1.0))
}

/// Whole strips of `cut_length` in one roll; zero if the roll is too short.
pub fn strips_on_roll(put_up: Length, cut_length: Length) -> Result<i64, TextileError> {
    guard::positive("put_up", put_up)?;
    guard::positive("cut_length", cut_length)?;
    guard::count_down("strips", put_up / cut_length)
}

/// Rolls needed for `count` strips of `cut_length`, by whole strips a roll.
pub fn rolls_for(count: i64, cut_length: Length, put_up: Length) -> Result<i64, TextileError> {
    guard::count_or_none("count", count)?;
    let on_one = strips_on_roll(put_up, cut_length)?;
    if on_one == 0 {
        return Err(TextileError::RollTooShort { put_up: put_up.into(), cut_length: cut_length.into() });
    }
    // Whole numbers divide exactly, so no tolerance is needed.
    Ok(count / on_one + i64::from(count % on_one != 0))
}

/// What is left of the last roll once `count` strips have been cut.
pub fn left_on_last_roll(count: i64, cut_length: Length, put_up: Length) -> Result<Length, TextileError> {
    guard::count("count", count)?;
    let rolls = rolls_for(count, cut_length, put_up)?;
    let on_last = count - (rolls - 1) * strips_on_roll(put_up, cut_length)?;
    Ok((put_up - cut_length * guard::count("count", on_last)?).most(Length::ZERO))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    #[test]
    fn an_overlap_must_leave_something_of_the_strip() {
        let error = strips_for(inches(60.0), inches(6.0), inches(6.0)).unwrap_err();
        assert_eq!(error.to_string(), "overlap is 6 in; it must be less than width, 6 in");
        assert!(strips_laid(3, inches(6.0), inches(-1.0)).is_err());
        assert!(strips_for(inches(0.0), inches(6.0), inches(0.0)).is_err());
        assert!(strips_for(inches(f64::NAN), inches(6.0), inches(0.0)).is_err());
        assert_eq!(
            strips_for(inches(1e9), inches(1e-3), inches(0.0)),
            Err(TextileError::TooMany { counted: "strips" })
        );
    }

    #[test]
    fn one_strip_is_the_least() {
        assert_eq!(strips_for(inches(0.25), inches(6.0), inches(0.5)), Ok(1));
        assert_eq!(strips_for(inches(6.0), inches(6.0), inches(0.5)), Ok(1));
        // An overlap of more than half a strip is still an overlap.
        assert_eq!(strips_laid(2, inches(6.0), inches(4.0)), Ok(inches(8.0)));
    }

    #[test]
    fn a_roll_holds_whole_strips() {
        let roll = Length::yards(25.0);
        assert_eq!(strips_on_roll(roll, inches(54.0)), Ok(16));
        assert_eq!(rolls_for(33, inches(54.0), roll), Ok(3));
        assert_eq!(rolls_for(0, inches(54.0), roll), Ok(0));
        assert_eq!(left_on_last_roll(33, inches(54.0), roll), Ok(inches(846.0)));
        let error = rolls_for(1, inches(54.0), inches(50.0)).unwrap_err();
        assert_eq!(error.to_string(), "put up is 50 in; a roll must hold at least one strip of 54 in");
        assert!(left_on_last_roll(0, inches(54.0), roll).is_err());
        assert!(rolls_for(-1, inches(54.0), roll).is_err());
        assert!(rolls_for(i64::MAX, inches(54.0), roll).is_err());
    }
}
