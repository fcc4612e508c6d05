//! Reads a table from a CSV text whose columns are not known beforehand: an order list, a delivery note, a table that
//! was written here and changed in a spreadsheet.
//!
//! | in the file | in the table |
//! |---|---|
//! | `along (in)`, or fields such as `14 1/2 in` | a column of lengths, in any unit |
//! | `cost ($)`, or fields such as `$4.50` | a column of money |
//! | `12`; `2.5` | counts, if all are whole and written without a decimal mark; otherwise numbers |
//! | `yes`, `no` | flags |
//! | `along (tape)` after `along (in)` | no column of its own: the same length, checked against the first |
//! | `value` and after it `unit`, or `… unit` | one column of values of any kind |
//! | `class (text)` | texts, whatever the fields are |
//! | anything else | texts |
//!
//! The rule by which the fields decide is in `csv_column`. A table that was written reads back the same, with these
//! losses:
//!
//! - a text of digits becomes a count, and an empty one a blank; texts that are all amounts, or all yes or no, become
//!   those, and amounts of different dimensions are refused, unless the heading says `(text)`;
//! - blanks at the ends of a text and control characters are lost, and so are rows and columns without any field;
//! - a whole plain number in a mixed column becomes a count;
//! - decimals are only as exact as they were written, to a billionth of their size;
//! - a table without rows keeps its measured columns; its others become texts.
//!
//! Never here: opening files; what a column means to the workshop.

use super::cell::Cell;
use super::column::{Column, ColumnKind, ColumnUnit, normalized_heading};
use super::csv_column::{self, ColumnErrors, Field, FieldKind, HeadingKind};
use super::csv_file::{
    CsvErrorKind, CsvFile, CsvRow, HeadingUnit, Located, Unprintable, heading_text, quantity_in, split_heading,
};
use super::table_file_error::{TableFileError, TableFileErrorKind};
use super::typed::Table;
use crate::quantity::{Dimension, Quantity, Reading, Unit, literal, number};

/// As many as a list in a script holds.
pub(crate) const MOST_ROWS: usize = 5_000;

/// Far more than a person reads across.
pub(crate) const MOST_COLUMNS: usize = 200;

/// How many errors of one column are listed; the rest are only counted.
const ERRORS_LISTED: usize = 10;

/// As [`read_with`], of a file in which no column holds values of any kind.
#[cfg(test)]
pub(crate) fn read(name: &str, text: &str, reading: Reading) -> Result<Table, Vec<TableFileError>> {
    read_with(name, text, reading, &[])
}

/// Reads a table. `name` is its name or its file's, with or without folder and `.csv`; `reading` gives the workshop's
/// currency, and its decimal mark if a heading line of one column leaves the dialect open. The columns with the headings
/// in `any` hold values of any kind, each with its own unit.
///
/// # Errors
/// Everything that is wrong with the text, in the order of its lines.
pub(crate) fn read_with(name: &str, text: &str, reading: Reading, any: &[&str]) -> Result<Table, Vec<TableFileError>> {
    let file = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let title = file.strip_suffix(".csv").or(file.strip_suffix(".CSV")).unwrap_or(file);
    let found = CsvFile::read(file, text, reading, Unprintable::Removed, <[String]>::len);
    let mut csv = found.map_err(|error| vec![error.map(TableFileErrorKind::from)])?;
    let rows = std::mem::take(&mut csv.rows);
    let mut reader = Reader { csv: &csv, any, errors: Vec::new() };
    let table = reader.table(title, rows);
    reader.errors.sort_by_key(|error| error.line);
    table.filter(|_| reader.errors.is_empty()).ok_or(reader.errors)
}

/// A parsed heading.
struct Heading {
    name: String,
    kind: HeadingKind,
    /// It repeats the column to its left as the tape reads.
    tape: bool,
}

impl Heading {
    fn plain(name: &str) -> Self {
        Self { name: name.to_owned(), kind: HeadingKind::Nothing, tape: false }
    }
}

struct Reader<'f> {
    csv: &'f CsvFile,
    /// The headings of columns that hold values of any kind.
    any: &'f [&'f str],
    errors: Vec<TableFileError>,
}

impl Reader<'_> {
    fn error(&mut self, line: u64, column: Option<&str>, kind: impl Into<TableFileErrorKind>) {
        self.errors.push(self.csv.error(line, column, kind));
    }

    fn table(&mut self, title: &str, mut rows: Vec<CsvRow>) -> Option<Table> {
        if rows.len() > MOST_ROWS {
            let kind = TableFileErrorKind::TooManyRows { rows: rows.len(), most: MOST_ROWS };
            self.errors.push(Located::new(&self.csv.file, kind));
            return None;
        }
        let headings = self.headings(&rows)?;
        for row in &mut rows {
            if let Err(ragged) = row.fit(headings.len(), self.csv.dialect) {
                self.error(row.line, None, ragged);
            }
        }
        if !self.errors.is_empty() {
            // A field under a faulty heading, or in a row that is out of step, would only be blamed for that.
            return None;
        }
        let columns: Vec<Vec<Field<'_>>> = (0..headings.len())
            .map(|at| rows.iter().map(|row| (row.line, row.fields.get(at).map_or("", String::as_str))).collect())
            .collect();
        let found = self.columns(&headings, &columns);
        let builder = found
            .iter()
            .fold(Table::new(title), |builder, (column, _)| builder.column(&column.heading, column.kind.clone()));
        let mut table = match builder.ready() {
            Ok(table) => table,
            Err(error) => {
                if self.errors.is_empty() {
                    self.error(self.csv.headings.line, None, TableFileErrorKind::Table(error));
                }
                return None;
            }
        };
        let mut cells: Vec<_> = found.into_iter().map(|(_, cells)| cells.into_iter()).collect();
        for row in &rows {
            let cells = cells.iter_mut().map(|column| column.next().unwrap_or_default()).collect();
            if let Err(error) = table.push(cells) {
                self.error(row.line, None, TableFileErrorKind::Table(error));
            }
        }
        Some(table)
    }

    fn headings(&mut self, rows: &[CsvRow]) -> Option<Vec<Heading>> {
        let first = &self.csv.headings;
        // Spreadsheets leave empty columns at the right edge.
        let stray = rows.iter().filter(|row| row.fields.len() == first.fields.len()).map(CsvRow::used);
        let count = first.used().max(stray.max().unwrap_or(0));
        if count > MOST_COLUMNS {
            self.error(first.line, None, TableFileErrorKind::TooManyColumns { columns: count, most: MOST_COLUMNS });
            return None;
        }
        let mut headings: Vec<Heading> = Vec::with_capacity(count);
        for (at, field) in first.fields.iter().take(count).enumerate() {
            let field = heading_text(field);
            let heading = self.heading(&field, headings.last()).unwrap_or_else(|kind| {
                self.error(first.line, Some(&field), kind);
                Heading::plain(&field)
            });
            if heading.name.is_empty() {
                self.error(first.line, None, TableFileErrorKind::NoHeading { position: at + 1 });
            } else if !heading.tape
                && headings.iter().any(|other| normalized_heading(&other.name) == normalized_heading(&heading.name))
            {
                self.error(first.line, Some(&heading.name), CsvErrorKind::RepeatedColumn);
            }
            headings.push(heading);
        }
        Some(headings)
    }

    fn heading(&self, field: &str, before: Option<&Heading>) -> Result<Heading, TableFileErrorKind> {
        let (name, Some(brackets)) = split_heading(field) else {
            let any = self.any.iter().any(|any| normalized_heading(any) == normalized_heading(field));
            let kind = if any { HeadingKind::Any } else { HeadingKind::Nothing };
            return Ok(Heading { kind, ..Heading::plain(field) });
        };
        let of_kind = |kind| Heading { name: name.to_owned(), kind, tape: false };
        let unit = |written: &str| HeadingUnit::read(written, self.csv.reading);
        match brackets {
            "text" => return Ok(of_kind(HeadingKind::Text)),
            "tape" => {
                let tape = before.is_some_and(|before| before.name == name && is_a_length(&before.kind));
                // Alone, a tape column is in inches where it has no unit.
                let inches = unit("in").map_or(HeadingKind::Nothing, HeadingKind::Unit);
                return Ok(Heading { tape, ..of_kind(inches) });
            }
            _ => {}
        }
        match unit(brackets) {
            Ok(unit) => Ok(of_kind(HeadingKind::Unit(unit))),
            Err(error) if brackets.starts_with(literal::CURRENCIES) => Err(TableFileErrorKind::HeadingNotRead(error)),
            Err(_) => match Unit::nearest(brackets).filter(|near| strsim::levenshtein(near, brackets) == 1) {
                Some(nearest) if brackets.chars().count() > 1 => {
                    Err(CsvErrorKind::HeadingUnit { written: brackets.to_owned(), nearest: Some(nearest) }.into())
                }
                // A remark: “waist (over the vest)”.
                _ => Ok(Heading::plain(field)),
            },
        }
    }

    /// Returns the columns and their cells; records what is wrong with them.
    fn columns(&mut self, headings: &[Heading], fields: &[Vec<Field<'_>>]) -> Vec<(Column, Vec<Cell>)> {
        let reading = self.csv.reading;
        let mut found = Vec::new();
        let mut columns = headings.iter().zip(fields).peekable();
        while let Some((heading, own)) = columns.next() {
            let name = &heading.name;
            let units = columns.next_if(|(next, units)| {
                is_of_units(&next.name)
                    && next.kind == HeadingKind::Nothing
                    && heading.kind == HeadingKind::Nothing
                    && csv_column::are_units(own, units, reading)
            });
            let tape = columns.next_if(|(next, _)| next.tape).map(|(_, tape)| tape);
            let decided = match units {
                Some((unit, units)) => csv_column::mixed(own, units, reading)
                    .map(|cells| (ColumnKind::Mixed { unit_heading: unit.name.clone() }, cells)),
                None => csv_column::decide(name, &heading.kind, own, reading),
            };
            let compared = decided.and_then(|(kind, cells)| match tape {
                Some(tape) => Ok((kind, self.checked_against_tape(cells, own, tape)?)),
                None => Ok((kind, cells)),
            });
            match compared {
                Ok((kind, cells)) => found.push((Column { heading: name.clone(), kind, gives_way: false }, cells)),
                Err(errors) => self.column_errors(name, errors),
            }
        }
        found
    }

    fn column_errors(&mut self, column: &str, mut errors: ColumnErrors) {
        errors.sort_by_key(|(line, _)| *line);
        let more = errors.len().saturating_sub(ERRORS_LISTED);
        let last = errors.last().map(|(line, _)| *line);
        for (line, kind) in errors.into_iter().take(ERRORS_LISTED) {
            self.error(line, Some(column), kind);
        }
        if let Some(last) = last.filter(|_| more > 0) {
            self.error(last, Some(column), TableFileErrorKind::More { count: more });
        }
    }

    /// Checks the lengths against the tape column beside them; a length written on one side only is taken.
    fn checked_against_tape(
        &self,
        cells: Vec<Cell>,
        own: &[Field<'_>],
        tape: &[Field<'_>],
    ) -> Result<Vec<Cell>, ColumnErrors> {
        let mut errors = ColumnErrors::new();
        let mut checked = Vec::with_capacity(cells.len());
        for ((cell, (line, decimal)), (_, tape)) in cells.into_iter().zip(own).zip(tape) {
            let rounded = tape.strip_prefix("about ");
            let read = self.length_on_tape(rounded.unwrap_or(tape));
            let cell = match (&cell, read) {
                (Cell::Quantity(length), Some(read)) => {
                    let apart = (length.steps() - read.steps()).abs();
                    let half_a_mark = Quantity::of(0.125, Unit::Inch).steps() * (1.0 + number::TOLERANCE);
                    let noise = 10.0 * number::TOLERANCE * length.steps().abs();
                    let same = apart <= if rounded.is_some() { half_a_mark } else { noise };
                    same.then_some(cell)
                }
                (_, None) if tape.is_empty() => Some(cell),
                (Cell::Blank, Some(read)) if rounded.is_none() => Some(Cell::Quantity(read)),
                _ => None,
            };
            if let Some(cell) = cell {
                checked.push(cell);
            } else {
                let decimal = if decimal.is_empty() { "a blank".to_owned() } else { format!("“{decimal}”") };
                errors.push((*line, TableFileErrorKind::TapeDiffers { decimal, tape: (*tape).to_owned() }));
            }
        }
        if errors.is_empty() { Ok(checked) } else { Err(errors) }
    }

    /// Parses a length as the tape reads: in inches if it has no unit.
    fn length_on_tape(&self, written: &str) -> Option<Quantity> {
        let reading = self.csv.reading;
        let length = match csv_column::field_kind(written, reading) {
            FieldKind::Bare(..) => quantity_in(written, "in", reading).ok()?,
            FieldKind::Measured(quantity) => quantity,
            _ => return None,
        };
        (length.dimension() == Dimension::LENGTH).then_some(length)
    }
}

fn is_a_length(kind: &HeadingKind) -> bool {
    let HeadingKind::Unit(unit) = kind else { return false };
    ColumnUnit::read("", &unit.written).is_ok_and(|unit| unit.is_on_the_inch_tape())
}

/// Whether a heading names the units of the column to its left.
fn is_of_units(name: &str) -> bool {
    let name = normalized_heading(name);
    name == "unit" || name.ends_with(" unit")
}

#[cfg(test)]
mod tests;
