//! Typed tables: what every cut list, buy list, cost and summary is before anyone draws it.
//!
//! A column says what it holds, and a row that does not fit is refused where it is put in, so yards
//! are never added to minutes and a blank is never taken for a zero.
//!
//! Never here: how a table looks on a screen, in a file or on paper; opening files.

mod builder;
mod cell;
mod column;
mod csv_column;
mod csv_fault;
pub mod csv_rows;
mod diagnostics;
mod error;
pub mod from_csv;
mod typed;

pub use builder::TableBuilder;
pub use cell::Cell;
pub use column::{Column, ColumnKind, ColumnUnit};
pub use csv_fault::{CsvFault, CsvFaultKind};
pub use error::TableError;
pub use typed::Table;
