//! Checks unit factors against the `uom` crate, which has its own tables.
//!
//! `uom` rounds the ounce and the pound to seven figures, so masses agree to that; NIST SP 811 has the exact ones.

use shirr::quantity::{Dimension, Quantity, Unit};
use uom::si::f64::{Length, LinearMassDensity, Mass, Time};
use uom::si::{length, linear_mass_density, mass, time};

/// The size of a unit in metres, kilograms, seconds or kilograms a metre, by `uom`; `None` if `uom` does not have it.
fn by_reference(unit: Unit) -> Option<f64> {
    let metres = |length: Length| Some(length.get::<length::meter>());
    let kilograms = |mass: Mass| Some(mass.get::<mass::kilogram>());
    let seconds = |time: Time| Some(time.get::<time::second>());
    let by_length = |density: LinearMassDensity| Some(density.get::<linear_mass_density::kilogram_per_meter>());
    match unit {
        Unit::Inch => metres(Length::new::<length::inch>(1.0)),
        Unit::Foot => metres(Length::new::<length::foot>(1.0)),
        Unit::Yard => metres(Length::new::<length::yard>(1.0)),
        Unit::Nail => metres(Length::new::<length::yard>(1.0) / 16.0),
        Unit::Ell => metres(Length::new::<length::inch>(45.0)),
        Unit::Millimetre => metres(Length::new::<length::millimeter>(1.0)),
        Unit::Centimetre => metres(Length::new::<length::centimeter>(1.0)),
        Unit::Metre => metres(Length::new::<length::meter>(1.0)),
        Unit::Kilometre => metres(Length::new::<length::kilometer>(1.0)),
        Unit::Milligram => kilograms(Mass::new::<mass::milligram>(1.0)),
        Unit::Gram => kilograms(Mass::new::<mass::gram>(1.0)),
        Unit::Kilogram => kilograms(Mass::new::<mass::kilogram>(1.0)),
        Unit::Ounce => kilograms(Mass::new::<mass::ounce>(1.0)),
        Unit::Pound => kilograms(Mass::new::<mass::pound>(1.0)),
        Unit::Second => seconds(Time::new::<time::second>(1.0)),
        Unit::Minute => seconds(Time::new::<time::minute>(1.0)),
        Unit::Hour => seconds(Time::new::<time::hour>(1.0)),
        // The year of `uom` has 365 days; its day is the same as ours.
        Unit::Month => seconds(Time::new::<time::day>(365.25 / 12.0)),
        Unit::Year => seconds(Time::new::<time::day>(365.25)),
        Unit::Tex => by_length(LinearMassDensity::new::<linear_mass_density::gram_per_kilometer>(1.0)),
        Unit::Decitex => by_length(LinearMassDensity::new::<linear_mass_density::gram_per_kilometer>(0.1)),
        Unit::Denier => by_length(Mass::new::<mass::gram>(1.0) / Length::new::<length::kilometer>(9.0)),
        Unit::Percent | Unit::Dozen | Unit::Gross => None,
    }
}

#[test]
fn every_factor_agrees_with_the_reference_library() {
    for unit in Unit::ALL {
        let base = match unit.dimension() {
            Dimension::LENGTH => Quantity::of(1.0, Unit::Metre),
            Dimension::MASS => Quantity::of(1.0, Unit::Kilogram),
            Dimension::TIME => Quantity::of(1.0, Unit::Second),
            Dimension::MASS_BY_LENGTH => Quantity::of(1.0, Unit::Kilogram).per(Quantity::of(1.0, Unit::Metre)).unwrap(),
            _ => continue,
        };
        let ours = Quantity::of(1.0, unit).per(base).unwrap().to_number().unwrap();
        let theirs = by_reference(unit).unwrap_or_else(|| panic!("{unit:?} has no reference"));
        let tolerance = if matches!(unit, Unit::Ounce | Unit::Pound) { 2e-7 } else { 1e-12 };
        assert!((ours / theirs - 1.0).abs() <= tolerance, "{unit:?}: {ours}, not {theirs}");
    }
}
