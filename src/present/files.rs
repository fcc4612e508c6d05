//! An order in files: a CSV file for each table, all tables on one page of Markdown, pictures of pieces and lays.
//!
//! Never here: files on disk, which the caller writes.

use super::charts::{charts_of_order, charts_of_table};
use super::pieces::{drawable, picture_head};
use crate::plans::{Leftover, leftovers_as_stock};
use crate::quantity::Style;
use crate::report::{
    DrawnLength, PictureHead, chart_pages, escaped, lay_pages, picture_pages, write_csv, write_markdown,
};
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

/// The pictures of an order by the names of their first pages.
pub(crate) const ORDER_PICTURES: [&str; 2] = [PIECES, LAYS];

/// The picture of a plan by the name of its first page.
pub(crate) const PLAN_PICTURE: &str = "lay.svg";

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

/// What pictures are headed with besides what the order says.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct PictureNote<'n> {
    /// What the order is called.
    pub order: Option<&'n str>,
    /// The day, in words.
    pub date: Option<&'n str>,
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
    note: PictureNote<'_>,
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
        files.extend(as_files(PIECES, pieces_picture(order, note, &style)?));
        files.extend(as_files(LAYS, lays_picture(order, note, &style)?));
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
    writeln!(bytes, "# {}\n\n{}", escaped(&title(ticket)), escaped(&ticket.makes))?;
    for table in tables.into_iter().filter(|table| !table.is_empty()) {
        writeln!(bytes, "\n## {}\n", escaped(&table.title()))?;
        write_markdown(table, style, &mut bytes)?;
    }
    Ok(bytes)
}

/// Draws the pieces of an order to one scale, on as many pages as they take.
///
/// # Errors
/// The order cannot be planned, or a size is not finite.
pub(crate) fn pieces_picture(
    order: &WorkshopOrder,
    note: PictureNote<'_>,
    style: &Style,
) -> Result<Vec<Vec<u8>>, OrderFileError> {
    let (style, head) = style_and_head(order, note, style);
    let drawable = drawable(order.ticket(), &mut order.letters()?, &style);
    let pages = picture_pages(&head("pieces"), &drawable.pieces, &drawable.other_marks, &style);
    pages.map_err(|error| OrderFileError::Write(PIECES.to_owned(), error))
}

/// Draws the lengths of an order and their cuts, on as many pages as they take.
///
/// # Errors
/// The order cannot be planned, or a size is not finite.
pub(crate) fn lays_picture(
    order: &WorkshopOrder,
    note: PictureNote<'_>,
    style: &Style,
) -> Result<Vec<Vec<u8>>, OrderFileError> {
    let (style, head) = style_and_head(order, note, style);
    let pages = lay_pages(&head("lays"), &order.drawn_lengths()?, &style);
    pages.map_err(|error| OrderFileError::Write(LAYS.to_owned(), error))
}

/// Draws where the money, time and cloth of an order go.
///
/// # Errors
/// A plan cannot be made, or the bytes cannot be written.
pub(crate) fn charts_picture(
    order: &WorkshopOrder,
    note: PictureNote<'_>,
    style: &Style,
) -> Result<Vec<Vec<u8>>, OrderFileError> {
    let (style, head) = style_and_head(order, note, style);
    let pages = chart_pages(&charts_of_order(order, &style)?, &head("where it goes"));
    pages.map_err(|error| OrderFileError::Write("chart.svg".to_owned(), error))
}

/// Draws the figures of a table as bars; `None` if it has none.
pub(crate) fn table_picture(table: &Table, title: &str, date: &str, style: &Style) -> Option<io::Result<Vec<Vec<u8>>>> {
    let charts = charts_of_table(table, style)?;
    let head = PictureHead { title: title.to_owned(), answers: String::new(), date: Some(date.to_owned()) };
    Some(chart_pages(&charts, &head))
}

/// The style on the order's own tape, and the head of a picture of its pieces or lays.
fn style_and_head(
    order: &WorkshopOrder,
    note: PictureNote<'_>,
    style: &Style,
) -> (Style, impl Fn(&str) -> PictureHead) {
    let style = Style { tape: order.tape(), plain: false, ..*style };
    let head = picture_head(order.ticket(), note.order, note.date, &style);
    let of = move |what: &str| PictureHead { title: format!("{}: {what}", head.title), ..head.clone() };
    (style, of)
}

/// Draws the lengths of a plan and their cuts, on as many pages as they take.
///
/// # Errors
/// A size is not finite.
pub(crate) fn plan_picture(
    title: &str,
    lengths: &[DrawnLength],
    date: Option<&str>,
    style: &Style,
) -> io::Result<Vec<Vec<u8>>> {
    let head = PictureHead { title: title.to_owned(), answers: String::new(), date: date.map(str::to_owned) };
    lay_pages(&head, lengths, style)
}

/// Names the pages of a picture: the first as the picture, the others with their number.
pub(crate) fn as_files(name: &str, pages: Vec<Vec<u8>>) -> Vec<NamedFile> {
    let named = pages.into_iter().enumerate().map(|(place, page)| (page_name(name, place), page));
    named.collect()
}

/// The file name of a page: lays.svg, then `lays_2.svg`.
pub(crate) fn page_name(name: &str, place: usize) -> String {
    match (place, name.rsplit_once('.')) {
        (0, _) => name.to_owned(),
        (_, Some((stem, end))) => format!("{stem}_{}.{end}", place + 1),
        (_, None) => format!("{name}_{}", place + 1),
    }
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
    fn the_pages_of_a_picture_are_numbered_from_the_second_on() {
        let files = as_files("lays.svg", vec![b"a".to_vec(), b"b".to_vec(), b"c".to_vec()]);
        let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["lays.svg", "lays_2.svg", "lays_3.svg"]);
    }

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
