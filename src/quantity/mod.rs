//! The base layer: numbers that carry a dimension, how a person writes them and how they are shown.
//!
//! A magnitude counts base steps so small that every mark on either tape is a whole number of them, so sums, whole
//! multiples and exact quotients of marked lengths are exact.
//!
//! Never here: scripts, tables, the trade, input and output.

mod dimension;
mod error;
pub mod literal;
mod literal_error;
mod measure;
pub(crate) mod nearest;
pub mod number;
pub(crate) mod rounding;
pub(crate) mod show;
mod unit;
mod value;

pub use dimension::Dimension;
pub(crate) use error::{Operation, QuantityError};
pub use literal::{LiteralValue, Reading};
pub use literal_error::{LiteralError, LiteralErrorKind};
pub(crate) use measure::Measure;
pub use measure::{Area, Length, Mass, Money, Time};
pub use show::Style;
pub(crate) use show::{InchStep, Tape};
pub use unit::Unit;
pub(crate) use unit::{Liked, System, UnitExpression, unit_text};
pub use value::Quantity;
