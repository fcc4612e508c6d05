//! Fractions of whole numbers and their rounding to a cent: the oracle's own arithmetic.

use std::ops::{Add, Div, Mul, Sub};

/// A fraction in lowest terms with a positive denominator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Exact(i128, i128);

fn common(one: i128, other: i128) -> i128 {
    if other == 0 { one.abs().max(1) } else { common(other, one % other) }
}

/// The fraction `above / below`.
pub(super) fn ratio(above: i128, below: i128) -> Exact {
    let common = common(above, below) * below.signum();
    Exact(above / common, below / common)
}

/// A whole number as a fraction.
pub(super) fn whole(number: i64) -> Exact {
    Exact(i128::from(number), 1)
}

impl Exact {
    /// Eighths of an inch in a yard.
    pub(super) const YARD: Self = Self(288, 1);
    /// Eighths of an inch in a metre: one is 3.175 mm.
    pub(super) const METRE: Self = Self(40_000, 127);

    /// Rounds to the nearest whole number, halves up; for amounts of cents. Panics below zero.
    pub(super) fn nearest(self) -> i64 {
        assert!(self.0 >= 0, "{self:?}");
        i64::try_from((2 * self.0 + self.1).div_euclid(2 * self.1)).unwrap()
    }

    /// Divides by a whole number above zero.
    pub(super) fn over(self, number: i64) -> Self {
        self / whole(number)
    }

    pub(super) fn is_less_than(self, other: Self) -> bool {
        self.0 * other.1 < other.0 * self.1
    }

    /// A decimal with nine digits behind the point, truncated.
    pub(super) fn as_text(self) -> String {
        let billionths = self.0 * 1_000_000_000 / self.1;
        format!("{}.{:09}", billionths / 1_000_000_000, billionths % 1_000_000_000)
    }

    /// Rounds up to a whole number.
    pub(super) fn up(self) -> i64 {
        i64::try_from(-(-self.0).div_euclid(self.1)).unwrap()
    }
}

impl Add for Exact {
    type Output = Self;
    fn add(self, more: Self) -> Self {
        ratio(self.0 * more.1 + more.0 * self.1, self.1 * more.1)
    }
}

impl Sub for Exact {
    type Output = Self;
    fn sub(self, less: Self) -> Self {
        ratio(self.0 * less.1 - less.0 * self.1, self.1 * less.1)
    }
}

impl Mul for Exact {
    type Output = Self;
    fn mul(self, times: Self) -> Self {
        ratio(self.0 * times.0, self.1 * times.1)
    }
}

impl Div for Exact {
    type Output = Self;
    fn div(self, by: Self) -> Self {
        ratio(self.0 * by.1, self.1 * by.0)
    }
}

impl std::iter::Sum for Exact {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(whole(0), Add::add)
    }
}

#[test]
fn fractions_are_exact_and_halves_go_up() {
    assert_eq!(ratio(1, 3) + ratio(1, 6), ratio(1, 2));
    assert_eq!(ratio(6, -4), ratio(-3, 2));
    assert_eq!((whole(1) - ratio(1, 25)) * ratio(25, 8), whole(3));
    assert_eq!([ratio(5, 2).nearest(), ratio(249, 100).nearest(), whole(2).nearest()], [3, 2, 2]);
    assert_eq!([ratio(5, 2).up(), whole(2).up(), ratio(1, 100).up()], [3, 2, 1]);
}
