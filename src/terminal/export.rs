//! Tables out to CSV files, one for each, with the picture of the pieces beside them: all of them or none.

use super::files::{self, FileProblem};
use crate::quantity::Style;
use crate::recipe::drawn_pieces;
use crate::report::{CsvDialect, write_csv, write_picture};
use crate::table::Table;
use crate::ticket::Ticket;
use std::io;
use std::path::Path;

/// The file that the pieces are drawn into.
pub(super) const PICTURE: &str = "pieces.svg";

/// The pieces of a ticket, drawn to one scale.
pub(super) fn picture(ticket: &Ticket, style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    write_picture(&ticket.recipe.replace('_', " "), &drawn_pieces(ticket, style), style, &mut bytes)?;
    Ok(bytes)
}

/// Writes tables and the picture into a folder; answers how many tables.
pub(super) fn write<'t>(
    ticket: &Ticket,
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
    let count = files.len();
    if !ticket.pieces.is_empty() {
        let bytes = picture(ticket, style).map_err(|error| FileProblem::Write(folder.join(PICTURE), error))?;
        files.push((PICTURE.to_owned(), bytes));
    }
    files::replace_all(folder, &files)?;
    Ok(count)
}
