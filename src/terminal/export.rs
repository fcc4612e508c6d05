//! Writes the files of a plan into a folder: its tables as CSV and the picture of its lay, all or none.

use super::files::{self, FileProblem};
use crate::diagnostic::Diagnose;
use crate::present::{NamedFile, OrderFileError, as_files, csv_file, plan_picture};
use crate::quantity::Style;
use crate::report::{DrawnLength, excerpt};
use crate::table::{Dialect, Table};
use crate::workshop::{Settings, Stock};
use std::path::Path;

/// Writes the tables of a plan, its leftovers as lines of stock.csv and the picture of its lay into a folder;
/// returns the number of tables.
pub(super) fn write_plan<'t>(
    tables: impl IntoIterator<Item = &'t Table>,
    (leftovers, settings): (&Stock, &Settings),
    (title, lengths, date): (&str, &[DrawnLength], &str),
    dialect: Dialect,
    style: &Style,
    folder: &Path,
) -> Result<usize, FileProblem> {
    let problem = |name: &str| {
        let path = folder.join(name);
        move |error| FileProblem::Write(path, error)
    };
    let csv = |table: &Table| csv_file(table, dialect, style).map_err(problem(&table.file_name()));
    let mut files = tables.into_iter().map(csv).collect::<Result<Vec<NamedFile>, _>>()?;
    let mut bytes = Vec::new();
    leftovers.write(settings, &mut bytes).map_err(problem("leftovers.csv"))?;
    files.push(("leftovers.csv".to_owned(), bytes));
    let count = files.len();
    let picture = plan_picture(title, lengths, Some(date), style).map_err(problem("lay.svg"))?;
    files.extend(as_files("lay.svg", picture));
    files::replace_all(folder, &files)?;
    Ok(count)
}

/// The message for files of an order that were not written.
pub(super) fn not_written(error: OrderFileError, folder: &Path, style: &Style) -> String {
    match error {
        OrderFileError::Order(error) => excerpt::text(&error.diagnostic(style)),
        OrderFileError::Write(name, error) => FileProblem::Write(folder.join(name), error).to_string(),
    }
}
