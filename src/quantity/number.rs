//! All conversions between machine number types, with their limits checked.
#![allow(clippy::as_conversions, reason = "this module exists so that no other needs them")]
#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "each function says what happens at its limits"
)]

/// How close a value must be to a whole number or a mark, relative to its size, to count as that number or mark.
///
/// It covers floating-point noise and nothing a tape could show: on a hundred yards it is a ten-thousandth of a
/// millimetre.
pub const TOLERANCE: f64 = 1e-9;

const LARGEST_EXACT: f64 = 9_007_199_254_740_992.0;

/// Converts a whole number to a float; exact up to 2^53, the nearest beyond.
pub fn from_whole(whole: i64) -> f64 {
    whole as f64
}

/// Converts a count to a float; exact up to 2^53.
pub fn from_count(count: usize) -> f64 {
    count as f64
}

/// Converts a wide whole number to a float; exact up to 2^53, the nearest beyond.
pub fn from_wide(whole: i128) -> f64 {
    whole as f64
}

/// The whole number nearest to `value`, halves away from zero; `None` for NaN and beyond 2^53.
pub fn nearest_whole(value: f64) -> Option<i64> {
    let rounded = value.round();
    (rounded.abs() <= LARGEST_EXACT).then_some(rounded as i64)
}

/// The whole number that `value` equals within [`TOLERANCE`]; `None` if there is none.
pub fn whole(value: f64) -> Option<i64> {
    let nearest = nearest_whole(value)?;
    is_near(value, from_whole(nearest)).then_some(nearest)
}

/// Converts a whole number to a count; `None` if it is negative.
pub fn count(whole: i64) -> Option<usize> {
    usize::try_from(whole).ok()
}

/// Converts a count to a whole number; the largest one if it does not fit.
pub fn from_size(size: usize) -> i64 {
    i64::try_from(size).unwrap_or(i64::MAX)
}

/// Whether two counts of things or marks are equal but for float noise.
pub fn is_near(left: f64, right: f64) -> bool {
    is_within(left, right, TOLERANCE)
}

/// Whether two magnitudes are equal but for float noise: relative to their size, with `floor` as the least difference
/// that counts, for values that should be zero.
pub fn is_within(left: f64, right: f64, floor: f64) -> bool {
    let size = left.abs().max(right.abs());
    size.is_finite() && (left - right).abs() <= (TOLERANCE * size).max(floor)
}

/// Rounds `value` if it is within [`TOLERANCE`] of a whole number; otherwise returns it unchanged.
pub fn snapped(value: f64) -> f64 {
    let nearest = value.round();
    if is_near(value, nearest) { nearest } else { value }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_is_swallowed_and_a_real_difference_is_not() {
        assert_eq!(whole(0.1 + 0.2 + 0.7), Some(1));
        assert_eq!(whole(120.000_001), None);
        assert!(!is_near(f64::INFINITY, 1.0) && !is_near(f64::NAN, f64::NAN));
        assert_eq!(nearest_whole(f64::NAN), None);
        assert_eq!(nearest_whole(1e300), None);
        assert_eq!(nearest_whole(LARGEST_EXACT), Some(9_007_199_254_740_992));
        assert!(is_near(1.0, 1.0 + 0.9e-9) && !is_near(1.0, 1.0 + 1.1e-9));
        assert!(is_within(0.0, 0.5, 0.5) && !is_within(0.0, 0.5, 0.25));
        assert_eq!(snapped(2.5).to_bits(), 2.5f64.to_bits());
    }
}
