//! Checks a recipe before it is trusted: its text, its examples, the corners of its ranges.

pub(crate) mod check;
pub(in crate::recipe) mod corners;
pub(crate) mod examples;
pub(in crate::recipe) mod goods_used;
mod reading;
pub(crate) mod what_changed;
