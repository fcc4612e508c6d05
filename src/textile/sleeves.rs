//! Sleeve heads, and sleeves made fuller by slashing a fitted pattern and spreading the slashes.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// How far each slash is opened so that an edge gets a fullness: `(fullness - 1) · edge / slashes`.
pub fn slash_spread(edge: Length, fullness: f64, slashes: i64) -> Result<Length, TextileError> {
    guard::positive("edge", edge)?;
    let added = guard::finite_result(edge * (guard::fullness("fullness", fullness)? - 1.0))?;
    Ok(added / guard::count("slashes", slashes)?)
}

/// Length along the curve of a sleeve head that is drawn as a parabola over its width:
/// `√(width² + 16 · height²) / 2 + width² / (8 · height) · ln((4 · height + √(width² + 16 · height²)) / width)`.
pub fn sleeve_head(width: Length, height: Length) -> Result<Length, TextileError> {
    guard::positive("width", width)?;
    let steepness = guard::positive("height", height)? / width * 4.0;
    let slant = steepness.hypot(1.0);
    guard::finite_result(width * (slant / 2.0 + steepness.asinh() / (2.0 * steepness)))
}

/// Length of a buttonhole: `diameter + more`. Books differ over what is added: 1/8 in, the button's thickness, nothing.
pub fn buttonhole(diameter: Length, more: Length) -> Result<Length, TextileError> {
    guard::finite_result(guard::positive("diameter", diameter)? + guard::not_negative("more", more)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_slashes_together_add_the_fullness() {
        let cm = Length::centimetres;
        assert_eq!(slash_spread(cm(30.0), 1.6, 5), Ok(cm(3.6)));
        assert_eq!(slash_spread(cm(30.0), 1.0, 5), Ok(cm(0.0)));
        assert!(slash_spread(cm(30.0), 0.9, 5).is_err());
        assert!(slash_spread(cm(30.0), 1.6, 0).is_err());
    }

    #[test]
    fn a_head_is_as_long_as_its_parabola() {
        let cm = Length::centimetres;
        // y = 1 - x² from -1 to 1: √5 + ln(2 + √5) / 2 = 2.957886.
        let found = sleeve_head(cm(2.0), cm(1.0)).unwrap();
        assert!((found / cm(1.0) - 2.957_886).abs() < 1e-6, "{found:?}");
        // A head without height is its width.
        let flat = sleeve_head(cm(2.0), cm(1e-6)).unwrap();
        assert!((flat / cm(1.0) - 2.0).abs() < 1e-6, "{flat:?}");
        assert!(sleeve_head(cm(2.0), cm(0.0)).is_err());
        assert_eq!(buttonhole(Length::inches(0.625), Length::inches(0.125)), Ok(Length::inches(0.75)));
    }
}
