//! The size of children's clothes where sizes are heights: a body height in steps of 6 cm.
//!
//! Source: EN 13402-2 \[66\] and ISO 8559-2 \[67\], from memory: the steps were not read. Makers differ on whether a
//! number is the middle of its range or its upper end; here it is the nearest one, and the taller of two that are
//! equally near.

use super::error::BodyError;
use crate::quantity::{Length, number};

/// The smallest and the largest designation kept here, and the step, in centimetres.
const SMALLEST: i64 = 50;
const LARGEST: i64 = 164;
const STEP: i64 = 6;

/// The designation of a body height, in centimetres. Fails below and above the designations kept here.
pub fn height_designation(height: Length) -> Result<i64, BodyError> {
    if !height.steps().is_finite() {
        return Err(BodyError::NotFinite { argument: "height" });
    }
    let smallest = number::from_whole(SMALLEST);
    let steps = number::snapped((height.in_centimetres() - smallest) * 2.0 / number::from_whole(STEP));
    let nearest = number::nearest_whole(f64::midpoint(steps, 1.0).floor()).map(|steps| SMALLEST + STEP * steps);
    nearest
        .filter(|designation| (SMALLEST..=LARGEST).contains(designation))
        .ok_or_else(|| BodyError::NoDesignation { given: height.into() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_step_and_the_taller_of_two() {
        let at = |cm: f64| height_designation(Length::centimetres(cm)).ok();
        for (cm, wanted) in [(50.0, 50), (104.0, 104), (106.9, 104), (107.0, 110), (109.0, 110), (112.9, 110)] {
            assert_eq!(at(cm), Some(wanted), "{cm}");
        }
        assert_eq!([46.9, 47.0, 166.9, 167.0].map(at), [None, Some(50), Some(164), None]);
        assert_eq!([f64::NAN, 1e300, -5.0].map(at), [None, None, None]);
        // A step that was computed on the other tape.
        assert_eq!(height_designation(Length::inches(107.0 / 2.54)), Ok(110));
    }

    #[test]
    fn every_designation_is_its_own() {
        for designation in (50..=164).step_by(6) {
            assert_eq!(height_designation(Length::centimetres(f64::from(designation))), Ok(i64::from(designation)));
        }
    }
}
