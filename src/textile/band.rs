//! Waistbands and other bands: what to cut, and where the marks go.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Length, number};

/// Length to cut: `waist + ease + overlap + 2 · turning`, one turning at each end.
pub fn band_length(waist: Length, ease: Length, overlap: Length, turning: Length) -> Result<Length, TextileError> {
    guard::positive("waist", waist)?;
    let added = guard::not_negative("ease", ease)? + guard::not_negative("overlap", overlap)?;
    guard::finite_result(waist + added + guard::not_negative("turning", turning)? * 2.0)
}

/// Depth to cut of a band folded once: `2 · finished + 2 · turning`.
pub fn band_depth(finished: Length, turning: Length) -> Result<Length, TextileError> {
    band_depth_in_layers(finished, 2, turning)
}

/// Depth to cut of a band of several layers folded from one piece: `layers · finished + 2 · turning`.
pub fn band_depth_in_layers(finished: Length, layers: i64, turning: Length) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    guard::not_negative("turning", turning)?;
    guard::finite_result(finished * guard::count("layers", layers)? + turning * 2.0)
}

/// Finished depth of a band or binding of several layers folded from a piece `cut` deep:
/// `(cut - 2 · turning) / layers`.
pub fn band_finished(cut: Length, layers: i64, turning: Length) -> Result<Length, TextileError> {
    let layers = guard::count("layers", layers)?;
    Ok(guard::remaining(("cut", cut), ("turning", turning), 2)? / layers)
}

/// Distance from mark to mark when `length` is divided in `parts`: `length / parts`.
pub fn even_marks(length: Length, parts: i64) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    Ok(length / guard::count("parts", parts)?)
}

/// Space between items set in a row with the first and last at the ends, such as pleats along a
/// heading or buttons on a band: `(length - count · width) / (count - 1)`.
pub fn even_spaces(length: Length, count: i64, width: Length) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    guard::not_negative("width", width)?;
    if count == 1 {
        return Err(TextileError::SpaceNeedsTwo);
    }
    let taken = width * guard::count("count", count)?;
    guard::within("all_the_widths", taken, "length", length)?;
    Ok((length - taken).most(Length::ZERO) / (number::from_whole(count) - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    #[test]
    fn a_band_has_two_turnings() {
        assert_eq!(band_length(inches(24.0), inches(0.0), inches(1.0), inches(1.0)), Ok(inches(27.0)));
        assert_eq!(band_depth(inches(1.0), inches(0.25)), Ok(inches(2.5)));
        assert_eq!(band_depth_in_layers(inches(2.0), 3, inches(0.25)), Ok(inches(6.5)));
        assert_eq!(band_finished(inches(2.5), 2, inches(0.25)), Ok(inches(1.0)));
        assert!(band_length(inches(24.0), inches(-1.0), inches(1.0), inches(1.0)).is_err());
        assert!(band_finished(inches(0.5), 2, inches(0.25)).is_err());
    }

    #[test]
    fn marks_and_spaces() {
        assert_eq!(even_marks(inches(24.5), 8), Ok(inches(3.0625)));
        assert!(even_marks(inches(24.5), 0).is_err());
        assert_eq!(even_spaces(inches(40.0), 5, inches(4.0)), Ok(inches(5.0)));
        assert!(even_spaces(inches(40.0), 1, inches(4.0)).is_err());
        assert!(even_spaces(inches(40.0), 11, inches(4.0)).is_err());
    }
}
