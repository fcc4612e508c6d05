//! Quantities whose dimension the compiler knows, for the trade's formulas.
//!
//! A formula over [`Length`] and [`Money`] cannot add yards to minutes and needs no check of its own; the only check
//! is where a [`Quantity`] becomes a measure.

use super::dimension::Dimension;
use super::error::QuantityError;
use super::number;
use super::unit::{Liked, Unit};
use super::value::Quantity;
use std::cmp::Ordering;
use std::marker::PhantomData;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A dimension known to the compiler.
pub trait Kind: Copy + std::fmt::Debug {
    /// The dimension as a [`Dimension`] value.
    const DIMENSION: Dimension;
}

/// Marks a length.
#[derive(Clone, Copy, Debug)]
pub struct LengthKind;
/// Marks an area.
#[derive(Clone, Copy, Debug)]
pub struct AreaKind;
/// Marks a mass.
#[derive(Clone, Copy, Debug)]
pub struct MassKind;
/// Marks a time.
#[derive(Clone, Copy, Debug)]
pub struct TimeKind;
/// Marks an amount of money.
#[derive(Clone, Copy, Debug)]
pub struct MoneyKind;

impl Kind for LengthKind {
    const DIMENSION: Dimension = Dimension::LENGTH;
}
impl Kind for AreaKind {
    const DIMENSION: Dimension = Dimension::AREA;
}
impl Kind for MassKind {
    const DIMENSION: Dimension = Dimension::MASS;
}
impl Kind for TimeKind {
    const DIMENSION: Dimension = Dimension::TIME;
}
impl Kind for MoneyKind {
    const DIMENSION: Dimension = Dimension::MONEY;
}

/// A quantity of one known dimension.
#[derive(Clone, Copy, Debug)]
pub struct Measure<K> {
    steps: f64,
    liked: Liked,
    kind: PhantomData<K>,
}

/// A length.
pub type Length = Measure<LengthKind>;
/// An area.
pub type Area = Measure<AreaKind>;
/// A mass.
pub type Mass = Measure<MassKind>;
/// A time.
pub type Time = Measure<TimeKind>;
/// An amount of money.
pub type Money = Measure<MoneyKind>;

impl<K: Kind> Measure<K> {
    /// Zero.
    pub const ZERO: Self = Self { steps: 0.0, liked: NO_LIKES, kind: PhantomData };

    /// A measure of `steps` base steps.
    pub fn from_steps(steps: f64) -> Self {
        Self { steps, ..Self::ZERO }
    }

    /// The magnitude in base steps.
    pub fn steps(self) -> f64 {
        self.steps
    }

    /// Sets the units to show it in.
    #[must_use]
    pub fn liking(self, liked: Liked) -> Self {
        Self { liked, ..self }
    }

    /// The units to show it in.
    pub fn liked(self) -> Liked {
        self.liked
    }

    /// Whether it is more than zero, without a tolerance for float noise.
    pub fn is_positive(self) -> bool {
        self.steps > 0.0
    }

    /// The smaller of two.
    #[must_use]
    pub fn least(self, other: Self) -> Self {
        if other.steps < self.steps { other } else { self }
    }

    /// The larger of two.
    #[must_use]
    pub fn most(self, other: Self) -> Self {
        if other.steps > self.steps { other } else { self }
    }
}

const NO_LIKES: Liked = Liked { length: None, mass: None, time: None, named: None, compound: false, whole: false };

impl Length {
    /// A length in inches, to be shown in inches.
    pub fn inches(value: f64) -> Self {
        Self { liked: Liked { length: Some(Unit::Inch), ..NO_LIKES }, ..Self::from_steps(value * Unit::Inch.steps()) }
    }

    /// A length in centimetres, to be shown in centimetres.
    pub fn centimetres(value: f64) -> Self {
        Self {
            liked: Liked { length: Some(Unit::Centimetre), ..NO_LIKES },
            ..Self::from_steps(value * Unit::Centimetre.steps())
        }
    }

    /// A length in yards, to be shown in yards.
    pub fn yards(value: f64) -> Self {
        Self { liked: Liked { length: Some(Unit::Yard), ..NO_LIKES }, ..Self::from_steps(value * Unit::Yard.steps()) }
    }

    /// The length in inches.
    pub fn in_inches(self) -> f64 {
        self.steps / Unit::Inch.steps()
    }

    /// The length in centimetres.
    pub fn in_centimetres(self) -> f64 {
        self.steps / Unit::Centimetre.steps()
    }
}

impl Area {
    /// The side of a square of this area; zero if the area is negative.
    pub fn root(self) -> Length {
        Length { steps: self.steps.max(0.0).sqrt(), liked: self.liked, kind: PhantomData }
    }
}

impl<K: Kind> PartialEq for Measure<K> {
    /// Equal within the tolerance for float noise.
    fn eq(&self, other: &Self) -> bool {
        number::is_within(self.steps, other.steps, K::DIMENSION.noise_floor())
    }
}

impl<K: Kind> PartialOrd for Measure<K> {
    /// Equal within the tolerance for float noise.
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        if self == other { Some(Ordering::Equal) } else { self.steps.partial_cmp(&other.steps) }
    }
}

impl<K: Kind> Add for Measure<K> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { steps: self.steps + other.steps, liked: self.liked.or(other.liked), kind: PhantomData }
    }
}

impl<K: Kind> Sub for Measure<K> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl<K: Kind> Neg for Measure<K> {
    type Output = Self;
    fn neg(self) -> Self {
        Self { steps: -self.steps, ..self }
    }
}

impl<K: Kind> Mul<f64> for Measure<K> {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self { steps: self.steps * factor, ..self }
    }
}

impl<K: Kind> Div<f64> for Measure<K> {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self { steps: self.steps / divisor, ..self }
    }
}

impl<K: Kind> Div for Measure<K> {
    type Output = f64;
    fn div(self, other: Self) -> f64 {
        self.steps / other.steps
    }
}

impl Mul for Length {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area { steps: self.steps * other.steps, liked: self.liked.or(other.liked), kind: PhantomData }
    }
}

impl Div<Length> for Area {
    type Output = Length;
    fn div(self, other: Length) -> Length {
        Length { steps: self.steps / other.steps, liked: self.liked.or(other.liked), kind: PhantomData }
    }
}

impl<K: Kind> std::iter::Sum for Measure<K> {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self::ZERO, |total, part| total + part)
    }
}

impl<K: Kind> From<Measure<K>> for Quantity {
    fn from(measure: Measure<K>) -> Self {
        Self::from_steps(measure.steps, K::DIMENSION).liking(measure.liked)
    }
}

impl<K: Kind> TryFrom<Quantity> for Measure<K> {
    type Error = QuantityError;
    fn try_from(quantity: Quantity) -> Result<Self, QuantityError> {
        quantity.expect_dimension(K::DIMENSION)?;
        Ok(Self { steps: quantity.steps(), liked: quantity.liked(), kind: PhantomData })
    }
}

impl<K: Kind> serde::Serialize for Measure<K> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Quantity::from(*self).serialize(serializer)
    }
}

impl<'de, K: Kind> serde::Deserialize<'de> for Measure<K> {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::try_from(Quantity::deserialize(deserializer)?).map_err(serde::de::Error::custom)
    }
}
