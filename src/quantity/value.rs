//! A number with a dimension and the units to show it in.

use super::dimension::Dimension;
use super::error::{Operation, QuantityError};
use super::number;
use super::unit::{Liked, Unit};
use serde::{Deserialize, Serialize};
use std::cmp::Ordering;

/// A number with a dimension. Magnitudes count base steps: nanometres, nanograms, milliseconds and
/// ten-thousandths of the currency unit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Quantity {
    steps: f64,
    dimension: Dimension,
    liked: Liked,
}

/// Base steps in one currency unit.
const MONEY_STEPS: f64 = 10_000.0;

impl Quantity {
    /// A quantity of `steps` base steps.
    pub fn from_steps(steps: f64, dimension: Dimension) -> Self {
        Self { steps, dimension, liked: Liked::default() }
    }

    /// A plain number.
    pub fn number(value: f64) -> Self {
        Self::from_steps(value, Dimension::NUMBER)
    }

    /// `value` of a unit, to be shown in that unit.
    pub fn of(value: f64, unit: Unit) -> Self {
        let (numerator, denominator) = unit.step_fraction();
        let steps = value * number::from_whole(numerator) / number::from_whole(denominator);
        Self { steps, dimension: unit.dimension(), liked: Liked::unit(unit) }
    }

    /// An amount in the workshop's currency.
    pub fn money(value: f64) -> Self {
        Self::from_steps(value * MONEY_STEPS, Dimension::MONEY)
    }

    /// Sets the units to show it in.
    #[must_use]
    pub fn liking(self, liked: Liked) -> Self {
        Self { liked, ..self }
    }

    /// The magnitude in base steps.
    pub fn steps(self) -> f64 {
        self.steps
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        self.dimension
    }

    /// The units to show it in.
    pub fn liked(self) -> Liked {
        self.liked
    }

    /// The magnitude in `unit`. Fails if the dimension differs.
    pub fn count_of(self, unit: Unit) -> Result<f64, QuantityError> {
        self.expect_dimension(unit.dimension())?;
        let (numerator, denominator) = unit.step_fraction();
        Ok(self.steps * number::from_whole(denominator) / number::from_whole(numerator))
    }

    /// The amount in currency units.
    pub fn currency_units(self) -> Result<f64, QuantityError> {
        self.expect_dimension(Dimension::MONEY)?;
        Ok(self.steps / MONEY_STEPS)
    }

    /// The value of a plain number. Fails if it has a dimension.
    pub fn to_number(self) -> Result<f64, QuantityError> {
        self.expect_dimension(Dimension::NUMBER)?;
        Ok(self.steps)
    }

    /// Fails unless the dimension is `needed`.
    pub fn expect_dimension(self, needed: Dimension) -> Result<(), QuantityError> {
        if self.dimension == needed {
            Ok(())
        } else {
            Err(QuantityError::WrongDimension { needed, given: self.dimension })
        }
    }

    /// `self + other`, shown in the units of `self` first. Fails if the dimensions differ.
    pub fn plus(self, other: Self) -> Result<Self, QuantityError> {
        self.expect_same_dimension(other, Operation::Add)?;
        Self::checked(self.steps + other.steps, self.dimension, self.liked.or(other.liked))
    }

    /// `self - other`, shown in the units of `self` first. Fails if the dimensions differ.
    pub fn minus(self, other: Self) -> Result<Self, QuantityError> {
        self.expect_same_dimension(other, Operation::Subtract)?;
        Self::checked(self.steps - other.steps, self.dimension, self.liked.or(other.liked))
    }

    /// `self * other`.
    pub fn times(self, other: Self) -> Result<Self, QuantityError> {
        let dimension = self.dimension.times(other.dimension).ok_or(QuantityError::OutOfRange)?;
        Self::checked(self.steps * other.steps, dimension, self.product_likes(other))
    }

    /// `self / other`; a plain number if the dimensions are equal.
    pub fn per(self, other: Self) -> Result<Self, QuantityError> {
        if other.steps == 0.0 {
            return Err(QuantityError::DividedByZero);
        }
        let dimension = self.dimension.per(other.dimension).ok_or(QuantityError::OutOfRange)?;
        Self::checked(self.steps / other.steps, dimension, self.product_likes(other))
    }

    /// `-self`.
    #[must_use]
    pub fn negated(self) -> Self {
        Self { steps: -self.steps, ..self }
    }

    /// The absolute value.
    #[must_use]
    pub fn size(self) -> Self {
        Self { steps: self.steps.abs(), ..self }
    }

    /// `self` to a power: any power of a plain number, only a whole one otherwise.
    pub fn to_the(self, power: f64) -> Result<Self, QuantityError> {
        if self.dimension.is_number() {
            return Self::checked(self.steps.powf(power), self.dimension, Liked::default());
        }
        let whole = number::whole(power).and_then(|p| i8::try_from(p).ok()).ok_or(QuantityError::FractionalPower)?;
        let dimension = self.dimension.to_the(whole).ok_or(QuantityError::OutOfRange)?;
        Self::checked(self.steps.powi(i32::from(whole)), dimension, self.liked)
    }

    /// The square root of a value that is not negative and has even exponents: a plain number, an area.
    pub fn root(self) -> Result<Self, QuantityError> {
        let dimension = self.dimension.root().filter(|_| self.steps >= 0.0);
        let dimension = dimension.ok_or(QuantityError::NoRoot { given: self.dimension })?;
        Self::checked(self.steps.sqrt(), dimension, self.liked)
    }

    /// Compares two quantities, equal within the tolerance for float noise. Fails if the dimensions differ.
    pub fn compared(self, other: Self) -> Result<Ordering, QuantityError> {
        self.expect_same_dimension(other, Operation::Compare)?;
        if number::is_within(self.steps, other.steps, self.dimension.noise_floor()) {
            return Ok(Ordering::Equal);
        }
        Ok(self.steps.total_cmp(&other.steps))
    }

    fn expect_same_dimension(self, other: Self, operation: Operation) -> Result<(), QuantityError> {
        if self.dimension == other.dimension {
            Ok(())
        } else {
            Err(QuantityError::Unlike { operation, left: self.dimension, right: other.dimension })
        }
    }

    /// The units of a product. One for the whole quantity, such as tex, survives only if the other factor is a plain
    /// number.
    fn product_likes(self, other: Self) -> Liked {
        let mut liked = self.liked.or(other.liked);
        if self.dimension.is_number() {
            liked.compound = other.liked.compound;
            liked.named = other.liked.named;
        } else if !other.dimension.is_number() {
            liked.named = None;
        }
        liked
    }

    fn checked(steps: f64, dimension: Dimension, liked: Liked) -> Result<Self, QuantityError> {
        if steps.is_finite() { Ok(Self { steps, dimension, liked }) } else { Err(QuantityError::OutOfRange) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Quantity {
        Quantity::of(value, Unit::Inch)
    }

    #[test]
    fn marked_lengths_divide_exactly() {
        let pitch = inches(2.0).per(Quantity::number(10.0)).unwrap();
        assert_eq!(inches(23.0).per(pitch).unwrap().to_number().unwrap().to_bits(), 115.0f64.to_bits());
    }

    #[test]
    fn unlike_dimensions_are_refused() {
        let error = inches(14.0).plus(Quantity::of(3.0, Unit::Minute)).unwrap_err();
        assert_eq!(error.to_string(), "a length and a time cannot be added");
        assert_eq!(inches(1.0).per(inches(0.0)), Err(QuantityError::DividedByZero));
        assert_eq!(inches(1.0).root(), Err(QuantityError::NoRoot { given: Dimension::LENGTH }));
    }

    #[test]
    fn small_steps_of_a_mixed_dimension_are_told_apart() {
        let cloth = |ounces: f64| {
            let yard = Quantity::of(1.0, Unit::Yard);
            Quantity::of(ounces, Unit::Ounce).per(yard.times(yard).unwrap()).unwrap()
        };
        assert_eq!(cloth(0.8).compared(cloth(0.81)), Ok(Ordering::Less));
        assert_eq!(cloth(0.8).compared(cloth(0.8)), Ok(Ordering::Equal));
        assert_eq!(inches(0.3).minus(inches(0.1)).unwrap().compared(inches(0.2)), Ok(Ordering::Equal));
    }

    #[test]
    fn money_by_length_times_length_is_money() {
        let price = Quantity::money(4.5).per(Quantity::of(1.0, Unit::Yard)).unwrap();
        let total = price.times(Quantity::of(3.5, Unit::Yard)).unwrap();
        assert!((total.currency_units().unwrap() - 15.75).abs() < 1e-9);
    }
}
