//! The only place where numbers change their machine type, each change checked.
#![allow(clippy::as_conversions, reason = "this module exists so that no other needs them")]
#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "each function says what happens at its limits"
)]

const LARGEST_EXACT: f64 = (1_u64 << 53) as f64;

/// A whole number as a float; exact up to 2^53, the nearest beyond.
pub(crate) fn from_whole(whole: i64) -> f64 {
    whole as f64
}

/// A count as a float; exact up to 2^53.
pub(crate) fn from_count(count: usize) -> f64 {
    count as f64
}

/// A wide whole number as a float; exact up to 2^53, the nearest beyond.
pub(crate) fn from_wide(whole: i128) -> f64 {
    whole as f64
}

/// The whole number nearest to `value`, halves away from zero; `None` beyond 2^53 and for NaN.
pub(crate) fn nearest_whole(value: f64) -> Option<i64> {
    let rounded = value.round();
    (rounded.abs() <= LARGEST_EXACT).then_some(rounded as i64)
}

/// The whole part of a value as a count: zero for negative values and NaN, the largest count beyond it. One
/// instruction, where [`nearest_whole`] calls a function.
pub(crate) fn whole_part(value: f64) -> usize {
    value as usize
}

/// A whole number as a count; `None` if it is negative.
pub(crate) fn count(whole: i64) -> Option<usize> {
    usize::try_from(whole).ok()
}

/// A whole number as an index or a count; 0 if it is negative.
pub(crate) fn index(whole: i64) -> usize {
    usize::try_from(whole).unwrap_or(0)
}

/// A count as a whole number; `i64::MAX` if it does not fit.
pub(crate) fn from_size(size: usize) -> i64 {
    i64::try_from(size).unwrap_or(i64::MAX)
}

/// A count as steps of work.
pub(crate) fn from_work(count: usize) -> u64 {
    u64::try_from(count).unwrap_or(u64::MAX)
}

/// The greatest common divisor of two numbers that are not negative; 0 only for two zeros.
pub(crate) fn gcd(one: i64, other: i64) -> i64 {
    let (mut left, mut right) = (one, other);
    while right != 0 {
        (left, right) = (right, left % right);
    }
    left
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_whole_number_is_one_that_decimal_numbers_hold() {
        assert_eq!(nearest_whole(2.5), Some(3));
        assert_eq!(nearest_whole(-2.5), Some(-3));
        assert_eq!(nearest_whole(f64::NAN), None);
        assert_eq!(nearest_whole(1e300), None);
        assert_eq!(nearest_whole(9_007_199_254_740_992.0), Some(9_007_199_254_740_992));
        assert_eq!(nearest_whole(-9_007_199_254_740_992.0), Some(-9_007_199_254_740_992));
        assert_eq!([nearest_whole(9_007_199_254_740_994.0), nearest_whole(-9_007_199_254_740_994.0)], [None, None]);
    }

    #[test]
    fn the_whole_part_is_never_negative() {
        let parts = [-3.0, -0.5, 0.0, 0.5, 0.999_999, 1.0, 31.999, f64::NAN].map(whole_part);
        assert_eq!(parts, [0, 0, 0, 0, 0, 1, 31, 0]);
    }

    #[test]
    fn the_greatest_divisor_of_nothing_is_the_other() {
        let of = [(12, 18), (18, 12), (7, 5), (0, 6), (6, 0), (0, 0), (6, 6)].map(|(one, other)| gcd(one, other));
        assert_eq!(of, [6, 6, 1, 6, 6, 0, 6]);
    }

    #[test]
    fn counts_are_never_negative() {
        assert_eq!((count(7), count(-1)), (Some(7), None));
        assert_eq!((index(7), index(0), index(-1)), (7, 0, 0));
        assert_eq!(from_size(7), 7);
    }
}
