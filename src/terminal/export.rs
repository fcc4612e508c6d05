//! Tables out to CSV files, one for each, all of them or none.

use super::files::{self, FileProblem};
use crate::quantity::Style;
use crate::report::{CsvDialect, write_csv};
use crate::table::Table;
use std::path::Path;

/// Writes tables into a folder; answers how many.
pub(super) fn write<'t>(
    tables: impl IntoIterator<Item = &'t Table>,
    dialect: CsvDialect,
    style: &Style,
    folder: &Path,
) -> Result<usize, FileProblem> {
    let mut files = Vec::new();
    for table in tables {
        let mut bytes = Vec::new();
        let name = table.file_name();
        write_csv(table, dialect, style, &mut bytes).map_err(|error| FileProblem::Write(folder.join(&name), error))?;
        files.push((name, bytes));
    }
    files::replace_all(folder, &files)?;
    Ok(files.len())
}
