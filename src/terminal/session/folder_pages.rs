//! Lists the pages of a folder: which of its text files are pages, and how many lines and cells each has.
//!
//! No page is evaluated for it. Never here: opening one.

use crate::notebook::{Line, read_line, statements};
use crate::quantity::Reading;
use crate::table::{Cell, Table, TableError};
use crate::terminal::files;
use std::path::Path;

/// A page of the folder.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct FolderPage {
    name: String,
    lines: usize,
    cells: usize,
}

/// Maximum number of names in the folder that are looked at, whatever their kind.
const MAX_NAMES: usize = 500;

/// Returns the pages of a folder by name: its text files with at least one cell.
pub(crate) fn listed(folder: &Path, reading: Reading) -> Vec<FolderPage> {
    let names =
        files::names_from(folder, "", MAX_NAMES).into_iter().filter(|name| name.to_lowercase().ends_with(".txt"));
    let pages = names.filter_map(|name| {
        let text = files::read(&folder.join(&name)).ok()?;
        let statements = statements(text.strip_prefix('\u{feff}').unwrap_or(&text), reading);
        let fills = |statement: &String| {
            matches!(read_line(statement, reading), Line::Cell { .. } | Line::Order { .. } | Line::File { .. })
        };
        let cells = statements.iter().filter(|statement| fills(statement)).count();
        let lines = statements.iter().filter(|statement| !statement.trim().is_empty()).count();
        (cells > 0).then_some(FolderPage { name, lines, cells })
    });
    pages.collect()
}

/// The pages as a table.
///
/// # Errors
/// Only what the table itself reports; not expected for pages.
pub(crate) fn table(pages: &[FolderPage]) -> Result<Table, TableError> {
    let mut table = Table::new("pages").text("page").count("lines").count("cells").ready()?;
    for page in pages {
        table.push(vec![page.name.as_str().into(), Cell::count(page.lines), Cell::count(page.cells)])?;
    }
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_files_with_a_cell_are_pages() {
        let here = tempfile::tempdir().unwrap();
        let files = [
            ("fair.txt", "waist = 56 cm\n\n# a note\nwaist + 1 cm\n"),
            ("letter.txt", "Dear customer,\nyour skirt is done.\n"),
            ("order.txt", "run gathered_skirt as first waist=21 in\n"),
            ("stock.csv", "a = 3\n"),
        ];
        for (name, text) in files {
            std::fs::write(here.path().join(name), text).unwrap();
        }
        let found = listed(here.path(), Reading::default());
        let found: Vec<_> = found.iter().map(|page| (page.name.as_str(), page.lines, page.cells)).collect();
        assert_eq!(found, [("fair.txt", 3, 1), ("order.txt", 1, 1)]);
    }
}
