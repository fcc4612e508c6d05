//! Tucks: folds stitched down, each taking twice its width of cloth.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Cloth that tucks take up: `2 · width · count`.
pub fn tucks_taken(count: i64, width: Length) -> Result<Length, TextileError> {
    guard::positive("width", width)?;
    guard::finite_result(width * 2.0 * guard::count_or_none("count", count)?)
}

/// Length to cut so that `finished` is left once the tucks are sewn: `finished + 2 · width · count`.
pub fn tucked_flat(finished: Length, count: i64, width: Length) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    guard::finite_result(finished + tucks_taken(count, width)?)
}

/// Distance on the flat cloth from the stitching of one tuck to the fold of the next: `2 · width + gap`,
/// where `gap` shows between tucks.
pub fn tuck_pitch(width: Length, gap: Length) -> Result<Length, TextileError> {
    guard::positive("width", width)?;
    guard::finite_result(width * 2.0 + guard::not_negative("gap", gap)?)
}

/// What shows between tucks whose folds are `pitch` apart on the flat cloth: `pitch - 2 · width`.
pub fn tuck_gap(pitch: Length, width: Length) -> Result<Length, TextileError> {
    guard::positive("pitch", pitch)?;
    guard::positive("width", width)?;
    guard::within("twice_the_width", width * 2.0, "pitch", pitch)?;
    Ok((pitch - width * 2.0).most(Length::ZERO))
}

/// Distance from the raw edge to the fold of a hem-tuck, which covers the seam of a frill set on that edge:
/// `2 · hem + seam`.
pub fn hem_tuck_fold(hem: Length, seam: Length) -> Result<Length, TextileError> {
    guard::positive("hem", hem)?;
    guard::finite_result(hem * 2.0 + guard::not_negative("seam", seam)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tuck_takes_twice_its_width() {
        let inches = Length::inches;
        assert_eq!(tucks_taken(32, inches(0.25)), Ok(inches(16.0)));
        assert_eq!(tucked_flat(inches(6.0), 8, inches(0.125)), Ok(inches(8.0)));
        assert_eq!(tuck_pitch(inches(0.5), inches(0.5)), Ok(inches(1.5)));
        assert_eq!(tuck_gap(inches(0.375), inches(0.125)), Ok(inches(0.125)));
        assert_eq!(
            tuck_gap(inches(0.375), inches(0.25)).unwrap_err().to_string(),
            "twice the width is 1/2 in; it cannot be more than pitch, 3/8 in"
        );
        assert_eq!(hem_tuck_fold(inches(1.0), inches(0.25)), Ok(inches(2.25)));
        assert!(tucks_taken(-1, inches(0.25)).is_err());
        assert!(tucks_taken(3, inches(0.0)).is_err());
    }
}
