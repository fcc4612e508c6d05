//! Typed tables: the form of every cut list, buy list, cost and summary before it is drawn.
//!
//! A column has a kind, and a row that does not fit is refused when it is added, so yards are never added to minutes
//! and a blank is never taken for a zero.
//!
//! Never here: how a table looks on a screen, in a file or on paper; opening files.

mod builder;
mod cell;
mod column;
mod csv_column;
pub(crate) mod csv_file;
mod error;
pub(crate) mod from_csv;
mod table_file_error;
mod typed;

pub(crate) use builder::TableBuilder;
pub(crate) use cell::Cell;
pub(crate) use column::{Column, ColumnKind, ColumnUnit, normalized_heading};
pub(crate) use csv_file::{CsvErrorKind, Dialect, Located, NeededBy};
pub(crate) use error::TableError;
#[cfg(test)]
pub(crate) use table_file_error::{TableFileError, TableFileErrorKind};
pub use typed::Table;
