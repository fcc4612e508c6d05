//! The trade's formulas: gathering, strips and joins, panels, bands, elastic, pleats, circles, thread, price.
//!
//! Every formula is pure and total: for arguments that no cloth could have it returns a
//! [`TextileFault`], never a number. Lengths come in and go out unrounded; only counts of whole
//! things are rounded, through [`quantity::rounding`](crate::quantity::rounding).
//!
//! Never here: scripts, files, prices of a particular shop, plans of what is cut from what.

pub mod allowances;
pub mod band;
pub mod bias;
pub mod bunting;
pub mod circle;
pub mod curtains;
pub mod elastic;
mod fault;
pub mod fibres;
pub mod flounce;
pub mod gathering;
pub mod gores;
mod guard;
pub mod joins;
pub mod labour;
pub mod panels;
pub mod pleats;
pub mod price;
pub mod rounded;
pub mod rules;
pub mod strips;
pub mod thread;
pub mod tiers;
pub mod tucks;

pub use fault::TextileFault;
