//! Converts between lengths and whole nanometres for the planner.
//!
//! A piece is rounded down to a whole nanometre and a stock length up, so that thirds of a length still fit three
//! times. This gains less than a nanometre per piece, which no tape could show.
//!
//! Never here: the verifier's conversion, which is separate.

use crate::piece::{CutPiece, Shape};
use crate::quantity::{Length, Liked, Quantity, number};

/// The longest single length in a plan: 10 km, in nanometres.
pub(super) const LONGEST: i64 = 10_000_000_000_000;

/// Whether a size is above zero and at most [`LONGEST`].
pub(super) fn is_sound(size: &i64) -> bool {
    (1..=LONGEST).contains(size)
}

/// The most length that one plan lays: 9000 km, in nanometres, still exact as an `f64`.
pub(super) const MOST_LAID: i64 = 9_000_000_000_000_000;

/// Tolerance for float noise around a whole number of nanometres.
const NOISE: f64 = 0.01;

/// Rounds down to a whole nanometre; `None` for NaN and for values too large to be exact.
pub(super) fn down(steps: f64) -> Option<i64> {
    whole(steps, f64::floor)
}

/// Rounds up to a whole nanometre, otherwise like [`down`].
pub(super) fn up(steps: f64) -> Option<i64> {
    whole(steps, f64::ceil)
}

fn whole(steps: f64, otherwise: fn(f64) -> f64) -> Option<i64> {
    let nearest = number::nearest_whole(steps)?;
    let noise = (steps - number::from_whole(nearest)).abs() <= NOISE;
    if noise { Some(nearest) } else { number::nearest_whole(otherwise(steps)) }
}

/// Converts whole nanometres to a length with the liked units.
pub(super) fn length(whole: i64, liked: Liked) -> Length {
    Length::from_steps(number::from_whole(whole)).liking(liked)
}

/// The units that a length is preferably shown in.
pub(super) fn liked(length: Length) -> Liked {
    Quantity::from(length).liked()
}

/// The preferred units of the piece's own sizes.
pub(super) fn likes(piece: &CutPiece) -> Liked {
    match &*piece.shape {
        Shape::Rectangle { along, .. } | Shape::FullWidth { along } => liked(*along),
        Shape::Sector { outer, .. } => liked(*outer),
        // A corner at zero does not tell which tape it was measured with.
        Shape::Outline(points) => {
            let measured = points.iter().find(|point| point.along.is_positive()).or_else(|| points.first());
            measured.map_or_else(Liked::default, |point| liked(point.along))
        }
    }
}

/// Converts a count that is known not to be negative.
pub(super) fn size(count: i64) -> usize {
    number::count(count).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thirds_of_a_length_fit_three_times() {
        for centimetres in [100.0, 200.0, 301.0] {
            let piece = down(Length::centimetres(centimetres / 3.0).steps()).unwrap();
            let stock = up(Length::centimetres(centimetres).steps()).unwrap();
            assert_eq!(stock / piece, 3, "{centimetres} cm");
        }
    }

    #[test]
    fn noise_is_no_nanometre() {
        assert_eq!(down(349_999_999.999_99), Some(350_000_000));
        assert_eq!(up(350_000_000.000_01), Some(350_000_000));
        // A hundredth of a nanometre is noise and no more is.
        assert_eq!((up(0.01), up(0.011), down(0.99), down(0.991)), (Some(0), Some(1), Some(0), Some(1)));
        assert_eq!(down(f64::NAN), None);
        assert_eq!(up(1e17), None);
        assert!(!is_sound(&0) && !is_sound(&(LONGEST + 1)) && is_sound(&LONGEST));
    }
}
