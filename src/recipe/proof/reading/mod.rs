//! A recipe checked from its text, in every branch: what its values are rather than how much they are.
//!
//! Each part of the script is walked through once for every kind of value that can reach it. A value that is not known
//! is never complained of; what could not be looked at is counted.

mod calls;
mod conditions;
mod examples;
mod findings;
mod helper_examples;
mod kind;
mod lists;
mod members;
mod names;
mod operators;
mod reader;
mod settled;
mod sides;
mod state;
mod steps;
mod unused;
mod vocabulary;
mod walk;
mod words;

pub(super) use examples::{Part, place_of_example};
pub(super) use helper_examples::with_examples;
pub(super) use reader::read;
pub(super) use vocabulary::Vocabulary;

#[cfg(test)]
mod tests;
