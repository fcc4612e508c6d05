//! An order in files: a CSV file for each table, all tables on one page of Markdown, pictures of pieces and lays.
//!
//! Never here: files on disk, which the caller writes.

use super::pieces::drawn_pieces;
use crate::plans::{Leftover, leftovers_as_stock};
use crate::quantity::Style;
use crate::report::{DrawnLength, plain_text, write_csv, write_lays, write_markdown, write_picture};
use crate::table::{Dialect, Table};
use crate::ticket::{FileForm, LayError, OrderSection, Ticket, WorkshopOrder};
use crate::workshop::Settings;
use std::io::{self, Write};
use std::rc::Rc;

/// A file name and its content.
pub(crate) type NamedFile = (String, Vec<u8>);

/// The file with the drawing of the pieces.
const PIECES: &str = "pieces.svg";

/// The file with the drawing of the lengths and their cuts.
const LAYS: &str = "lays.svg";

/// Why the files of an order cannot be made.
#[derive(Debug)]
pub(crate) enum OrderFileError {
    /// A part of the order cannot be made.
    Order(LayError),
    /// The content of the file of this name cannot be written.
    Write(String, io::Error),
}

impl From<LayError> for OrderFileError {
    fn from(error: LayError) -> Self {
        Self::Order(error)
    }
}

/// The files of an order.
#[derive(Debug)]
pub(crate) struct OrderFiles {
    /// The tables, then the pictures.
    pub files: Vec<NamedFile>,
    /// The number of tables among them.
    pub tables: usize,
}

/// Makes the files of an order: its tables, and pictures of its pieces and lays if it has pieces.
///
/// # Errors
/// A part of the order cannot be made or written.
pub(crate) fn order_files(
    order: &WorkshopOrder,
    dialect: Dialect,
    settings: &Settings,
) -> Result<OrderFiles, OrderFileError> {
    let style = settings.file_style();
    let mut files = Vec::new();
    for (form, table) in tables(order)? {
        let name = table.file_name();
        let file = match form {
            FileForm::Table => csv_file(&table, dialect, &style),
            FileForm::Stock => stock_file(name.clone(), order.leftovers()?, settings),
        };
        files.push(file.map_err(|error| OrderFileError::Write(name, error))?);
    }
    let tables = files.len();
    if !order.ticket().pieces.is_empty() {
        let problem = |name: &'static str| move |error| OrderFileError::Write(name.to_owned(), error);
        files.push((PIECES.to_owned(), pieces_picture(order.ticket(), &style).map_err(problem(PIECES))?));
        let lays = lays_picture(&title(order.ticket()), &order.drawn_lengths()?, &style);
        files.push((LAYS.to_owned(), lays.map_err(problem(LAYS))?));
    }
    Ok(OrderFiles { files, tables })
}

/// Makes the CSV file of a table.
///
/// # Errors
/// The table cannot be written.
pub(crate) fn csv_file(table: &Table, dialect: Dialect, style: &Style) -> io::Result<NamedFile> {
    let mut bytes = Vec::new();
    write_csv(table, dialect, style, &mut bytes)?;
    Ok((table.file_name(), bytes))
}

/// Makes a file of the leftovers as lines for stock.csv.
fn stock_file(name: String, leftovers: &[Leftover], settings: &Settings) -> io::Result<NamedFile> {
    let mut bytes = Vec::new();
    leftovers_as_stock(leftovers).write(settings, &mut bytes)?;
    Ok((name, bytes))
}

/// Returns the tables of an order one after the other, each below its heading; tables without rows are left out.
///
/// # Errors
/// A part of the order cannot be made or written.
pub(crate) fn markdown(order: &WorkshopOrder, style: &Style) -> Result<Vec<u8>, OrderFileError> {
    let tables = tables(order)?;
    let page = page(order.ticket(), tables.iter().map(|(_, table)| &**table), style);
    page.map_err(|error| OrderFileError::Write("tables".to_owned(), error))
}

fn page<'t>(ticket: &Ticket, tables: impl IntoIterator<Item = &'t Table>, style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    writeln!(bytes, "# {}\n\n{}", title(ticket), plain_text::one_line(&ticket.makes))?;
    for table in tables.into_iter().filter(|table| !table.is_empty()) {
        writeln!(bytes, "\n## {}\n", table.title())?;
        write_markdown(table, style, &mut bytes)?;
    }
    Ok(bytes)
}

/// Draws the pieces of a ticket to one scale.
///
/// # Errors
/// A size is not finite.
pub(crate) fn pieces_picture(ticket: &Ticket, style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    write_picture(&title(ticket), &drawn_pieces(ticket, style), style, &mut bytes)?;
    Ok(bytes)
}

/// Draws the lengths of a plan and their cuts.
///
/// # Errors
/// A size is not finite.
pub(crate) fn lays_picture(title: &str, lengths: &[DrawnLength], style: &Style) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    write_lays(title, lengths, style, &mut bytes)?;
    Ok(bytes)
}

fn tables(order: &WorkshopOrder) -> Result<Vec<(FileForm, Rc<Table>)>, LayError> {
    let table =
        |(section, form): (&OrderSection, FileForm)| Some(section.table(order).transpose()?.map(|table| (form, table)));
    OrderSection::in_files().filter_map(table).collect()
}

fn title(ticket: &Ticket) -> String {
    ticket.recipe.replace('_', " ")
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
        let written = page(&ticket, [&cut_list, &marks], &Style::default()).unwrap();
        assert_eq!(
            String::from_utf8(written).unwrap(),
            "# gathered skirt\n\nGathered skirt of straight panels.\n\n## cut list\n\n\
             | piece | count |\n| --- | ---: |\n| panel | 2 |\n"
        );
    }
}
