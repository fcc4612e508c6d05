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

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    /// Pages are counted without a gap: what stands behind one is another person's.
    #[test]
    fn pages_that_were_not_written_again_go() {
        let here = tempfile::tempdir().unwrap();
        let name = |place: usize| page_name("lay.svg", place);
        for place in [0, 1, 2, 3, 5] {
            fs::write(here.path().join(name(place)), "").unwrap();
        }
        fs::write(here.path().join("other.svg"), "").unwrap();
        let written = [(name(0), Vec::new()), (name(1), Vec::new())];
        remove_earlier_pages(here.path(), &["lay.svg", "pieces.svg"], &written).unwrap();
        let there: Vec<usize> = (0..7).filter(|place| here.path().join(name(*place)).exists()).collect();
        assert_eq!(there, [0, 1, 5]);
        assert!(here.path().join("other.svg").exists());
    }

    #[test]
    fn a_problem_says_whether_the_others_are_new() {
        let full = || std::io::Error::from(std::io::ErrorKind::StorageFull);
        let path = || here("cuts.csv");
        for told in [
            FileProblem::Partly(path(), 2, 5, full()),
            FileProblem::Left(path(), full()),
            FileProblem::Unsure(path(), full()),
        ] {
            assert_eq!(problem_text(&told), told.to_string());
        }
        let write = FileProblem::Write(path(), full());
        assert_eq!(problem_text(&write), format!("{write}{UNCHANGED}"));
        let named =
            not_written(OrderFileError::Write("cuts.csv".to_owned(), full()), Path::new("out"), &Style::default());
        assert_eq!(named, format!("out/cuts.csv cannot be written: the disk is full{UNCHANGED}"));
    }

    fn here(name: &str) -> std::path::PathBuf {
        Path::new(name).to_path_buf()
    }
}
