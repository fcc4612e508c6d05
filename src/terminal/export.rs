//! Writes the files of a plan into a folder: its tables as CSV and the picture of its lay, all or none.

use super::files::{self, FileProblem};
use crate::diagnostic::Diagnose;
use crate::present::{NamedFile, OrderFileError, PLAN_PICTURE, as_files, csv_file, page_name, plan_picture};
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
    let picture = plan_picture(title, lengths, Some(date), style).map_err(problem(PLAN_PICTURE))?;
    files.extend(as_files(PLAN_PICTURE, picture));
    files::replace_all(folder, &files)?;
    remove_earlier_pages(folder, &[PLAN_PICTURE], &files)?;
    Ok(count)
}

/// Removes the pages of pictures that an earlier run left in a folder and this one has not written.
pub(super) fn remove_earlier_pages(folder: &Path, pictures: &[&str], written: &[NamedFile]) -> Result<(), FileProblem> {
    let is_written = |name: &str| written.iter().any(|(known, _)| known == name);
    let earlier = pictures.iter().flat_map(|picture| {
        let pages = (0..).map(|place| page_name(picture, place)).skip_while(|name| is_written(name));
        pages.take_while(|name| folder.join(name).is_file())
    });
    files::remove_all(folder, &earlier.collect::<Vec<_>>())
}

/// The message for files of an order that were not written.
pub(super) fn not_written(error: OrderFileError, folder: &Path, style: &Style) -> String {
    match error {
        OrderFileError::Order(error) => format!("{}{UNCHANGED}", excerpt::text(&error.diagnostic(style))),
        OrderFileError::Write(name, error) => problem_text(&FileProblem::Write(folder.join(name), error)),
    }
}

const UNCHANGED: &str = "\n  the tables were not written; nothing that was there before has changed";

/// What is wrong with the files of a folder, and what that means for the others.
pub(super) fn problem_text(problem: &FileProblem) -> String {
    match problem {
        FileProblem::Left(..) | FileProblem::Partly(..) | FileProblem::Unsure(..) => problem.to_string(),
        _ => format!("{problem}{UNCHANGED}"),
    }
}
