//! Sizes of bodies: what surveys, growth charts and rules print, and a doubt about a measure they make odd.
//!
//! Each table is what it says it is and no size chart: nothing here tells what to cut. Where nothing was
//! printed nothing is made up. Never here: scripts, orders, cloth.

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

/// An age in months, float noise aside, so that two years written in any unit are two years.
fn months(age: Time) -> f64 {
    number::snapped(age.steps() / Unit::Month.steps())
}

/// So many months.
fn age_of(months: f64) -> Time {
    let unit = if months < 24.0 { Unit::Month } else { Unit::Year };
    Time::from_steps(months * Unit::Month.steps()).liking(crate::quantity::Liked::unit(unit))
}

/// An age that somebody can have: a number, and not less than nothing.
fn an_age(age: Time) -> Result<f64, BodyError> {
    if !age.steps().is_finite() {
        return Err(BodyError::NoNumber { argument: "age" });
    }
    if age.steps() < 0.0 {
        return Err(BodyError::NotPositive { argument: "age", given: age.into() });
    }
    Ok(months(age))
}
