//! What a number measures: length, mass, time, money, their products, or nothing.

use serde::{Deserialize, Serialize};

/// Exponents of the four base dimensions; all zero is a plain number.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Dimension {
    /// Exponent of length.
    pub length: i8,
    /// Exponent of mass.
    pub mass: i8,
    /// Exponent of time.
    pub time: i8,
    /// Exponent of money.
    pub money: i8,
}

impl Dimension {
    /// A plain number.
    pub const NUMBER: Self = Self::new(0, 0, 0, 0);
    /// A length.
    pub const LENGTH: Self = Self::new(1, 0, 0, 0);
    /// An area.
    pub const AREA: Self = Self::new(2, 0, 0, 0);
    /// A mass; the trade says weight.
    pub const MASS: Self = Self::new(0, 1, 0, 0);
    /// A time.
    pub const TIME: Self = Self::new(0, 0, 1, 0);
    /// An amount of money.
    pub const MONEY: Self = Self::new(0, 0, 0, 1);
    /// A price per length.
    pub const MONEY_BY_LENGTH: Self = Self::new(-1, 0, 0, 1);
    /// A price per area.
    pub const MONEY_BY_AREA: Self = Self::new(-2, 0, 0, 1);
    /// A price per weight.
    pub const MONEY_BY_MASS: Self = Self::new(0, -1, 0, 1);
    /// A wage.
    pub const MONEY_BY_TIME: Self = Self::new(0, 0, -1, 1);
    /// Cloth weight.
    pub const MASS_BY_AREA: Self = Self::new(-2, 1, 0, 0);
    /// Thread size.
    pub const MASS_BY_LENGTH: Self = Self::new(-1, 1, 0, 0);
    /// Time per length: the inverse of a working speed.
    pub const TIME_BY_LENGTH: Self = Self::new(-1, 0, 1, 0);
    /// A count per length: stitches, hooks, strips.
    pub const NUMBER_BY_LENGTH: Self = Self::new(-1, 0, 0, 0);

    const fn new(length: i8, mass: i8, time: i8, money: i8) -> Self {
        Self { length, mass, time, money }
    }

    /// The difference in base steps below which two values are equal, whatever their size.
    ///
    /// A thousandth of a base step is far below any mark. Products and quotients of base dimensions have steps of any
    /// size, so for them only the relative tolerance holds.
    pub fn noise_floor(self) -> f64 {
        match self {
            Self::NUMBER => super::number::TOLERANCE,
            Self::LENGTH | Self::MASS | Self::TIME | Self::MONEY => 1e-3,
            _ => 0.0,
        }
    }

    /// Whether this is a plain number.
    pub fn is_number(self) -> bool {
        self == Self::NUMBER
    }

    /// The dimension of a product; `None` if an exponent overflows.
    pub fn times(self, other: Self) -> Option<Self> {
        Some(Self {
            length: self.length.checked_add(other.length)?,
            mass: self.mass.checked_add(other.mass)?,
            time: self.time.checked_add(other.time)?,
            money: self.money.checked_add(other.money)?,
        })
    }

    /// The dimension of a quotient; `None` if an exponent overflows.
    pub fn per(self, other: Self) -> Option<Self> {
        self.times(other.to_the(-1)?)
    }

    /// The dimension of a whole power; `None` if an exponent overflows.
    pub fn to_the(self, power: i8) -> Option<Self> {
        Some(Self {
            length: self.length.checked_mul(power)?,
            mass: self.mass.checked_mul(power)?,
            time: self.time.checked_mul(power)?,
            money: self.money.checked_mul(power)?,
        })
    }

    /// The dimension of a square root (of an area, a length); `None` if an exponent is odd.
    pub fn root(self) -> Option<Self> {
        let even = [self.length, self.mass, self.time, self.money].iter().all(|e| e % 2 == 0);
        even.then(|| Self::new(self.length / 2, self.mass / 2, self.time / 2, self.money / 2))
    }

    /// Names the dimension in a sentence: "a length", "a price by the length".
    pub fn noun(self) -> String {
        let known = match self {
            Self::NUMBER => "a plain number",
            Self::LENGTH => "a length",
            Self::AREA => "an area",
            Self::MASS => "a weight",
            Self::TIME => "a time",
            Self::MONEY => "an amount of money",
            Self::MONEY_BY_LENGTH => "a price by the length",
            Self::MONEY_BY_AREA => "a price by the area",
            Self::MONEY_BY_MASS => "a price by the weight",
            Self::MONEY_BY_TIME => "a wage",
            Self::MASS_BY_AREA => "a cloth weight",
            Self::MASS_BY_LENGTH => "a thread size",
            Self::TIME_BY_LENGTH => "a time by the length",
            Self::NUMBER_BY_LENGTH => "a count by the length",
            _ => "",
        };
        if known.is_empty() { self.spelled() } else { known.to_owned() }
    }

    /// Names a product that nobody means, such as money times length: an error, unless it is an intermediate result.
    /// `None` for volumes and for rates such as a price per length.
    pub fn odd_product(self) -> Option<String> {
        let bases = [("money", self.money), ("weight", self.mass), ("time", self.time), ("length", self.length)];
        let above: Vec<&str> = bases.iter().filter(|(_, exponent)| *exponent > 0).map(|(name, _)| *name).collect();
        match above.as_slice() {
            [_, _, ..] => Some(above.join(" times ")),
            ["money"] if self.money > 1 => Some("money times money".to_owned()),
            _ => None,
        }
    }

    fn spelled(self) -> String {
        let bases = [("length", self.length), ("weight", self.mass), ("time", self.time), ("money", self.money)];
        let words: Vec<String> = bases
            .iter()
            .filter(|(_, exponent)| *exponent != 0)
            .map(|(name, exponent)| if *exponent == 1 { (*name).to_owned() } else { format!("{name}^{exponent}") })
            .collect();
        format!("a mixed measure ({})", words.join(" "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn products_and_quotients_add_and_take_away_exponents() {
        assert_eq!(Dimension::LENGTH.times(Dimension::LENGTH), Some(Dimension::AREA));
        assert_eq!(Dimension::MONEY.per(Dimension::LENGTH), Some(Dimension::MONEY_BY_LENGTH));
        assert_eq!(Dimension::AREA.root(), Some(Dimension::LENGTH));
        assert_eq!(Dimension::LENGTH.root(), None);
        assert_eq!(Dimension::LENGTH.to_the(100).and_then(|d| d.times(d)), None);
    }

    #[test]
    fn products_that_nobody_means_have_words() {
        let odd = |one: Dimension, other| one.times(other).unwrap().odd_product();
        assert_eq!(odd(Dimension::MONEY, Dimension::LENGTH).as_deref(), Some("money times length"));
        assert_eq!(odd(Dimension::MONEY, Dimension::MONEY).as_deref(), Some("money times money"));
        assert_eq!(odd(Dimension::AREA, Dimension::TIME).as_deref(), Some("time times length"));
        for meant in [Dimension::AREA, Dimension::MONEY_BY_AREA, Dimension::MASS_BY_LENGTH, Dimension::NUMBER] {
            assert_eq!(meant.odd_product(), None);
        }
        assert_eq!(odd(Dimension::AREA, Dimension::LENGTH), None);
    }

    #[test]
    fn every_dimension_has_words() {
        assert_eq!(Dimension::TIME.noun(), "a time");
        assert_eq!(Dimension::AREA.times(Dimension::LENGTH).unwrap().noun(), "a mixed measure (length^3)");
    }
}
