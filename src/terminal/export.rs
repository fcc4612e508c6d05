//! Tables out to CSV files, one for each, with the picture of the pieces beside them: all of them or none.

use super::files::{self, FileProblem};
use crate::quantity::Style;
use crate::recipe::drawn_pieces;
use crate::report::plain_text;
use crate::report::{CsvDialect, write_csv, write_markdown, write_picture};
use crate::table::Table;
use crate::ticket::Ticket;
use std::io::{self, Write};
use std::path::Path;

/// The file that the pieces are drawn into.
pub(super) const PICTURE: &str = "pieces.svg";

/// The pieces of a ticket, drawn to one scale.
pub(super) fn picture(ticket: &Ticket, style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    write_picture(&ticket.recipe.replace('_', " "), &drawn_pieces(ticket, style), style, &mut bytes)?;
    Ok(bytes)
}

/// The tables of a ticket one after the other, each below its heading; those without rows are left out.
pub(super) fn markdown(ticket: &Ticket, tables: &[&Table], style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let name = ticket.recipe.replace('_', " ");
    writeln!(bytes, "# {name}\n\n{}", plain_text::one_line(&ticket.makes))?;
    for table in tables.iter().filter(|table| !table.is_empty()) {
        writeln!(bytes, "\n## {}\n", table.title())?;
        write_markdown(table, style, &mut bytes)?;
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ticket_in_one_file_has_a_heading_for_each_table_with_rows() {
        let mut cut_list = Table::new("cut list").text("piece").count("count").ready().unwrap();
        cut_list.push(vec!["panel".into(), 2.into()]).unwrap();
        let marks = Table::new("marks").text("piece").ready().unwrap();
        let ticket = Ticket::new("gathered_skirt", "Gathered skirt of straight panels.");
        let written = markdown(&ticket, &[&cut_list, &marks], &Style::default()).unwrap();
        assert_eq!(
            String::from_utf8(written).unwrap(),
            "# gathered skirt\n\nGathered skirt of straight panels.\n\n## cut list\n\n\
             | piece | count |\n| --- | ---: |\n| panel | 2 |\n"
        );
    }
}
