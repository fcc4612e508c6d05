//! Tables out to CSV files, one for each, with the pictures of pieces and lays beside them: all of them or none.

use super::files::{self, FileProblem};
use crate::plans::leftovers_as_stock;
use crate::quantity::Style;
use crate::recipe::drawn_pieces;
use crate::report::plain_text;
use crate::report::{DrawnLength, write_csv, write_lays, write_markdown, write_picture};
use crate::table::{Dialect, Table};
use crate::ticket::{OrderTables, Ticket};
use crate::workshop::{Settings, Stock};
use std::io::{self, Write};
use std::path::Path;

/// The file that the pieces are drawn into.
pub(super) const PICTURE: &str = "pieces.svg";

/// The file that the lengths are drawn into, as they are cut.
pub(super) const LAYS: &str = "lays.svg";

/// The pieces of a ticket, drawn to one scale.
pub(super) fn picture(ticket: &Ticket, style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    write_picture(&ticket.recipe.replace('_', " "), &drawn_pieces(ticket, style), style, &mut bytes)?;
    Ok(bytes)
}

/// The lengths of a plan as they are cut.
pub(super) fn lay_picture(title: &str, lengths: &[DrawnLength], style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    write_lays(title, lengths, style, &mut bytes)?;
    Ok(bytes)
}

/// Writes the tables of a plan, its leftovers as lines of stock.csv and the picture of its lay into a folder; answers
/// how many tables.
pub(super) fn write_plan<'t>(
    tables: impl IntoIterator<Item = &'t Table>,
    (leftovers, settings): (&Stock, &Settings),
    (title, lengths): (&str, &[DrawnLength]),
    dialect: Dialect,
    style: &Style,
    folder: &Path,
) -> Result<usize, FileProblem> {
    let problem = |name: &str| {
        let path = folder.join(name);
        move |error| FileProblem::Write(path, error)
    };
    let mut files = as_csv(tables, dialect, style, folder)?;
    let mut bytes = Vec::new();
    leftovers.write(settings, &mut bytes).map_err(problem("leftovers.csv"))?;
    files.push(("leftovers.csv".to_owned(), bytes));
    let count = files.len();
    let picture = lay_picture(title, lengths, style).map_err(problem("lay.svg"))?;
    files.push(("lay.svg".to_owned(), picture));
    files::replace_all(folder, &files)?;
    Ok(count)
}

fn as_csv<'t>(
    tables: impl IntoIterator<Item = &'t Table>,
    dialect: Dialect,
    style: &Style,
    folder: &Path,
) -> Result<Vec<(String, Vec<u8>)>, FileProblem> {
    let mut files = Vec::new();
    for table in tables {
        let mut bytes = Vec::new();
        let name = table.file_name();
        write_csv(table, dialect, style, &mut bytes).map_err(|error| FileProblem::Write(folder.join(&name), error))?;
        files.push((name, bytes));
    }
    Ok(files)
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

/// Writes the tables of an order and its pictures into a folder; answers how many tables.
pub(super) fn write(
    ticket: &Ticket,
    tables: &OrderTables,
    (dialect, settings): (Dialect, &Settings),
    folder: &Path,
) -> Result<usize, FileProblem> {
    let style = settings.file_style();
    let problem = |name: &str| {
        let path = folder.join(name);
        move |error| FileProblem::Write(path, error)
    };
    let mut files = as_csv(tables.all(), dialect, &style, folder)?;
    let count = files.len();
    // What is written of the leftovers goes into stock.csv as it stands.
    let leftovers = tables.leftovers.file_name();
    if let Some((_, bytes)) = files.iter_mut().find(|(name, _)| *name == leftovers) {
        bytes.clear();
        leftovers_as_stock(&tables.kept).write(settings, &mut *bytes).map_err(problem(&leftovers))?;
    }
    if !ticket.pieces.is_empty() {
        files.push((PICTURE.to_owned(), picture(ticket, &style).map_err(problem(PICTURE))?));
        let lays = lay_picture(&ticket.recipe.replace('_', " "), &tables.drawn_lengths(), &style);
        files.push((LAYS.to_owned(), lays.map_err(problem(LAYS))?));
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
