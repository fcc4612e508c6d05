//! A table out of a CSV text whose columns nobody knows beforehand: an order list, a delivery note, a table
//! that was written here and changed in a spreadsheet.
//!
//! | in the file | in the table |
//! |---|---|
//! | `along (in)`, or fields such as `14 1/2 in` | a column of lengths; any unit goes |
//! | `cost ($)`, or fields such as `$4.50` | a column of money |
//! | `12`; `2.5` | counts, if all are whole and written without a decimal mark; numbers |
//! | `yes`, `no` | flags |
//! | `along (tape)` behind `along (in)` | nothing of its own: the same length, and checked to be the same |
//! | `value` and behind it `unit`, or `… unit` | one column of values of any kind |
//! | `class (text)` | texts, whatever stands there |
//! | anything else | texts |
//!
//! The rule by which the fields decide stands in `csv_column`. What tables are written as reads back the
//! same, with these losses:
//!
//! - a text of digits is a count, and an empty one a blank; texts that are amounts, or yes or no, throughout
//!   are taken for those, and unlike amounts are refused, unless the heading says `(text)`;
//! - blanks at the ends of a text and control characters are gone, and so are rows and columns without any field;
//! - a plain number in a column of any values is a count where it is whole;
//! - decimals are as near as they were written, a billionth of their size;
//! - a table without rows keeps its measured columns, and its others are texts.
//!
//! Never here: opening files, what a column means to the workshop.

use super::cell::Cell;
use super::column::{Column, ColumnKind, ColumnUnit, alike};
use super::csv_column::{self, Faults, Field, Reads, Said};
use super::csv_fault::{CsvFault, CsvFaultKind};
use super::csv_rows::{self, CsvRow};
use super::typed::Table;
use crate::quantity::{Dimension, LiteralValue, Quantity, Reading, Unit, literal, number};

/// Lists in scripts hold as many.
pub const MOST_ROWS: usize = 5_000;

/// Far more than a person reads across.
pub const MOST_COLUMNS: usize = 200;

/// So many faults of one column are told; of the rest, how many there are.
const FAULTS_TOLD: usize = 10;

/// Reads a table. `name` is its name or its file's, with or without folder and `.csv`; `reading` gives the
/// workshop's currency, and its decimal mark where a heading line of one column leaves the dialect open.
///
/// # Errors
/// Everything that is wrong with the text, in the order of its lines.
pub fn read(name: &str, text: &str, reading: Reading) -> Result<Table, Vec<CsvFault>> {
    let file = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let title = file.strip_suffix(".csv").or(file.strip_suffix(".CSV")).unwrap_or(file);
    let mut reader = Reader { file, reading, faults: Vec::new() };
    let table = reader.table(title, text);
    reader.faults.sort_by_key(|fault| fault.line);
    table.filter(|_| reader.faults.is_empty()).ok_or(reader.faults)
}

/// A heading taken apart.
struct Heading {
    name: String,
    said: Said,
    /// It is the column at its left as the tape reads.
    tape: bool,
}

struct Reader<'f> {
    file: &'f str,
    reading: Reading,
    faults: Vec<CsvFault>,
}

impl Reader<'_> {
    fn fault(&mut self, line: Option<u64>, column: Option<&str>, kind: CsvFaultKind) {
        let (file, column) = (self.file.to_owned(), column.map(str::to_owned));
        self.faults.push(CsvFault { file, line, column, kind });
    }

    fn table(&mut self, title: &str, text: &str) -> Option<Table> {
        let mut rows = self.rows(text)?;
        let first = rows.remove(0);
        if rows.len() > MOST_ROWS {
            self.fault(None, None, CsvFaultKind::TooManyRows { rows: rows.len(), most: MOST_ROWS });
            return None;
        }
        let headings = self.headings(&first, &rows)?;
        self.level(&mut rows, headings.len(), if self.reading.decimal_comma { ';' } else { ',' });
        if !self.faults.is_empty() {
            // A field under a doubtful heading, or in a row that is out of step, would only be blamed for it.
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
            Err(fault) => {
                if self.faults.is_empty() {
                    self.fault(Some(first.line), None, CsvFaultKind::Table(fault));
                }
                return None;
            }
        };
        let mut cells: Vec<_> = found.into_iter().map(|(_, cells)| cells.into_iter()).collect();
        for row in &rows {
            let cells = cells.iter_mut().map(|column| column.next().unwrap_or_default()).collect();
            if let Err(fault) = table.push(cells) {
                self.fault(Some(row.line), None, CsvFaultKind::Table(fault));
            }
        }
        Some(table)
    }

    /// The rows, headings first, with the dialect found out; none where there are none.
    fn rows(&mut self, text: &str) -> Option<Vec<CsvRow>> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let (named, text, skipped) = match csv_rows::separator_line(text) {
            None => (None, text, 0),
            Some((",", rest)) => (Some(','), rest, 1),
            Some((";", rest)) => (Some(';'), rest, 1),
            Some((other, _)) => {
                self.fault(Some(1), None, CsvFaultKind::Separator { written: clean(other) });
                return None;
            }
        };
        let separator = named.unwrap_or_else(|| csv_rows::separator(text, self.reading, <[String]>::len));
        self.reading.decimal_comma = separator == ';';
        let mut rows = csv_rows::rows(text, separator, skipped);
        for field in rows.iter_mut().flat_map(|row| &mut row.fields) {
            *field = clean(field);
        }
        rows.retain(|row| row.fields.iter().any(|field| !field.is_empty()));
        if rows.is_empty() {
            self.fault(None, None, CsvFaultKind::Empty);
            return None;
        }
        Some(rows)
    }

    fn headings(&mut self, first: &CsvRow, rows: &[CsvRow]) -> Option<Vec<Heading>> {
        let line = Some(first.line);
        // Spreadsheets leave columns at the right edge in which nothing stands.
        let used = |fields: &[String]| fields.iter().rposition(|field| !field.is_empty()).map_or(0, |last| last + 1);
        let stray = rows.iter().filter(|row| row.fields.len() == first.fields.len()).map(|row| used(&row.fields));
        let count = used(&first.fields).max(stray.max().unwrap_or(0));
        if count > MOST_COLUMNS {
            self.fault(line, None, CsvFaultKind::TooManyColumns { columns: count, most: MOST_COLUMNS });
            return None;
        }
        let mut headings: Vec<Heading> = Vec::with_capacity(count);
        for (at, field) in first.fields.iter().take(count).enumerate() {
            let field = csv_rows::unguarded(field).replace('\n', " ");
            let heading = self.heading(field.trim(), headings.last()).unwrap_or_else(|kind| {
                self.fault(line, Some(field.trim()), kind);
                Heading { name: field.clone(), said: Said::Nothing, tape: false }
            });
            if heading.name.is_empty() {
                self.fault(line, None, CsvFaultKind::NoHeading { place: at + 1 });
            } else if !heading.tape && headings.iter().any(|other| alike(&other.name) == alike(&heading.name)) {
                self.fault(line, Some(&heading.name), CsvFaultKind::SameHeading);
            }
            headings.push(heading);
        }
        Some(headings)
    }

    fn heading(&self, field: &str, before: Option<&Heading>) -> Result<Heading, CsvFaultKind> {
        let plain = || Heading { name: field.to_owned(), said: Said::Nothing, tape: false };
        let Some((name, brackets)) = field.strip_suffix(')').and_then(|field| field.rsplit_once('(')) else {
            return Ok(plain());
        };
        let (name, brackets) = (name.trim().to_owned(), brackets.trim());
        let unit = |written: &str| literal::read_unit(written, self.reading);
        match brackets {
            "text" => return Ok(Heading { name, said: Said::Text, tape: false }),
            "tape" => {
                let own = before.is_some_and(|before| before.name == name && is_a_length(&before.said));
                // Alone, what the tape reads is inches where it has no unit.
                let said = unit("in").map_or(Said::Nothing, |inch| Said::Unit("in".to_owned(), inch));
                return Ok(Heading { name, said, tape: own });
            }
            _ => {}
        }
        match unit(brackets) {
            Ok(read) => Ok(Heading { name, said: Said::Unit(brackets.to_owned(), read), tape: false }),
            Err(fault) if brackets.starts_with(literal::CURRENCIES) => Err(CsvFaultKind::HeadingNotRead(fault)),
            Err(_) => match Unit::nearest(brackets).filter(|near| strsim::levenshtein(near, brackets) == 1) {
                Some(nearest) if brackets.chars().count() > 1 => {
                    Err(CsvFaultKind::HeadingUnit { written: brackets.to_owned(), nearest })
                }
                // A remark: “waist (over the vest)”.
                _ => Ok(plain()),
            },
        }
    }

    /// Every row gets as many fields as there are headings; blank ones beyond them are no fault.
    fn level(&mut self, rows: &mut [CsvRow], headings: usize, separator: char) {
        for row in rows {
            while row.fields.len() > headings && row.fields.last().is_some_and(String::is_empty) {
                row.fields.pop();
            }
            if row.fields.len() != headings {
                let kind = CsvFaultKind::Ragged { found: row.fields.len(), headings, separator };
                self.fault(Some(row.line), None, kind);
            }
        }
    }

    /// The columns and their cells; what is wrong with them is noted.
    fn columns(&mut self, headings: &[Heading], fields: &[Vec<Field<'_>>]) -> Vec<(Column, Vec<Cell>)> {
        let mut found = Vec::new();
        let mut columns = headings.iter().zip(fields).peekable();
        while let Some((heading, own)) = columns.next() {
            let name = &heading.name;
            let units = columns.next_if(|(next, units)| {
                is_of_units(&next.name)
                    && next.said == Said::Nothing
                    && heading.said == Said::Nothing
                    && csv_column::are_units(own, units, self.reading)
            });
            let tape = columns.next_if(|(next, _)| next.tape).map(|(_, tape)| tape);
            let decided = match units {
                Some((unit, units)) => csv_column::mixed(own, units, self.reading)
                    .map(|cells| (ColumnKind::Mixed { unit_heading: unit.name.clone() }, cells)),
                None => csv_column::decide(name, &heading.said, own, self.reading),
            };
            let compared = decided.and_then(|(kind, cells)| match tape {
                Some(tape) => Ok((kind, self.by_the_tape(cells, own, tape)?)),
                None => Ok((kind, cells)),
            });
            match compared {
                Ok((kind, cells)) => found.push((Column { heading: name.clone(), kind }, cells)),
                Err(faults) => self.column_faults(name, faults),
            }
        }
        found
    }

    fn column_faults(&mut self, column: &str, mut faults: Faults) {
        faults.sort_by_key(|(line, _)| *line);
        let more = faults.len().saturating_sub(FAULTS_TOLD);
        let last = faults.last().map(|(line, _)| *line);
        for (line, kind) in faults.into_iter().take(FAULTS_TOLD) {
            self.fault(Some(line), Some(column), kind);
        }
        if more > 0 {
            self.fault(last, Some(column), CsvFaultKind::More { count: more });
        }
    }

    /// The lengths, checked against what stands beside them; what is written on one side alone is taken.
    fn by_the_tape(&self, cells: Vec<Cell>, own: &[Field<'_>], tape: &[Field<'_>]) -> Result<Vec<Cell>, Faults> {
        let mut faults = Faults::new();
        let mut checked = Vec::with_capacity(cells.len());
        for ((cell, (line, decimal)), (_, tape)) in cells.into_iter().zip(own).zip(tape) {
            let rounded = tape.strip_prefix("about ");
            let read = self.on_the_tape(rounded.unwrap_or(tape));
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
                faults.push((*line, CsvFaultKind::TapeDiffers { decimal, tape: (*tape).to_owned() }));
            }
        }
        if faults.is_empty() { Ok(checked) } else { Err(faults) }
    }

    /// A length as the tape reads: inches where it has no unit.
    fn on_the_tape(&self, written: &str) -> Option<Quantity> {
        let written = match csv_column::reads(written, self.reading) {
            Reads::Bare(..) => csv_rows::with_unit(written, "in", self.reading),
            _ => written.to_owned(),
        };
        match literal::read_quantity(&written, self.reading) {
            Ok(LiteralValue::Quantity(length)) if length.dimension() == Dimension::LENGTH => Some(length),
            _ => None,
        }
    }
}

fn is_a_length(said: &Said) -> bool {
    let Said::Unit(unit, _) = said else { return false };
    ColumnUnit::read("", unit).is_ok_and(|unit| unit.is_on_the_inch_tape())
}

/// Whether a heading is that of the units of the column at its left.
fn is_of_units(name: &str) -> bool {
    let name = alike(name);
    name == "unit" || name.ends_with(" unit")
}

/// A field without the signs that a terminal would act on; its line breaks, its tabs and the guard before
/// it stay.
fn clean(field: &str) -> String {
    let text = csv_rows::unguarded(field);
    let kept = |sign: &char| {
        let joins_letters = matches!(sign, '\u{200c}' | '\u{200d}');
        matches!(sign, '\n' | '\t') || joins_letters || !csv_rows::is_unprintable(*sign)
    };
    let cleaned: String = text.replace("\r\n", "\n").chars().filter(kept).collect();
    if text.len() == field.len() { cleaned.trim().to_owned() } else { csv_rows::guarded(&cleaned).into_owned() }
}

#[cfg(test)]
mod tests;
