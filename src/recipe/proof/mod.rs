//! Checking a recipe before it is trusted: its text, its examples, the corners of its ranges.

pub mod check;
pub(in crate::recipe) mod corners;
pub mod examples;
pub(in crate::recipe) mod goods_used;
