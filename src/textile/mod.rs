//! The trade's formulas: gathering, strips and joins, panels, bands, elastic, pleats, circles, thread, weight, price.
//!
//! Every formula is pure and total: for arguments that no cloth could have it returns a [`TextileError`], never a
//! number. Lengths are not rounded; only counts of whole things are, through
//! [`quantity::rounding`](crate::quantity::rounding).
//!
//! Never here: scripts, files, prices of a particular shop, plans of what is cut from what.

pub mod allowances;
pub mod band;
pub mod bias;
pub mod bunting;
pub mod circle;
pub mod curtains;
pub mod drapery;
pub mod elastic;
mod error;
pub(crate) mod fibres;
pub mod flounce;
pub mod gathering;
pub(crate) mod glossary;
pub mod gores;
mod guard;
pub mod headings;
pub mod joins;
pub mod knots;
pub mod labour;
pub mod panels;
pub mod pleats;
pub mod price;
pub mod rounded;
pub mod ruffles;
pub mod rules;
pub mod sleeves;
pub mod strips;
pub mod thread;
pub mod tiers;
pub mod ties;
pub mod trims;
pub mod tucks;
pub mod washing;
pub mod weight;

pub use error::TextileError;
