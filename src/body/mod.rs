//! Body sizes as surveys, growth charts and rules print them, and a check for measures that they make implausible.
//!
//! Each table is only what it says it is and not a size chart: nothing here tells what to cut. What was not printed
//! is not made up. Never here: scripts, orders, cloth.

mod chart_row;
pub mod designation;
mod error;
pub mod garment_limit;
pub mod growth;
mod growth_cdc;
mod growth_who;
pub(crate) mod plausibility;
mod sex;
pub mod survey;

pub use error::BodyError;
pub use sex::Sex;

use crate::quantity::{Time, Unit, number};

/// The age in months, float noise aside, so that two years are two years in any unit.
fn months(age: Time) -> f64 {
    number::snapped(age.steps() / Unit::Month.steps())
}

/// An age of `months` months, to be shown in months under two years.
fn age_of(months: f64) -> Time {
    let unit = if months < 24.0 { Unit::Month } else { Unit::Year };
    Time::from_steps(months * Unit::Month.steps()).liking(crate::quantity::Liked::unit(unit))
}

/// The age in months. Fails unless it is finite and not negative.
fn an_age(age: Time) -> Result<f64, BodyError> {
    if !age.steps().is_finite() {
        return Err(BodyError::NotFinite { argument: "age" });
    }
    if age.steps() < 0.0 {
        return Err(BodyError::NotPositive { argument: "age", given: age.into() });
    }
    Ok(months(age))
}
