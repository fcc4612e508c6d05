//! shirr: a calculation notebook in the terminal for people who cut and gather cloth to order.

pub mod cutting;
pub mod quantity;
