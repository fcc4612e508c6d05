//! Tables for spreadsheets and other programs: comma-separated values as RFC 4180 has them.
//!
//! | column | in the file |
//! |---|---|
//! | length in `in` | `along (in)` with decimals, and beside it `along (tape)` as the tape reads |
//! | other quantities | `minutes (min)`, `price ($/yd)`, plain decimals |
//! | money | `cost ($)`, with its cents |
//! | mixed | the value, and its unit under a heading of its own |
//! | flag | `yes`, `no` |
//!
//! A blank stays blank. Text that a spreadsheet would run as a formula gets an apostrophe before it;
//! numbers never do, for they are known as numbers until they are written.
//!
//! Never here: cleaning texts for a screen; a file keeps line breaks and all else.

use super::amounts;
use crate::quantity::Style;
use crate::table::{Cell, Column, ColumnKind, Table};
use csv::{Terminator, WriterBuilder};
use std::borrow::Cow;
use std::io::{self, Write};

/// How a file separates values and writes decimals. The workshop's setting says which, never the machine.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CsvDialect {
    /// `,` between values and a decimal point.
    #[default]
    Comma,
    /// `;` between values, a decimal comma, and the mark that tells spreadsheets it is UTF-8.
    Semicolon,
}

/// The mark at the start of a file that says its text is UTF-8.
const UTF8_MARK: &[u8] = b"\xEF\xBB\xBF";

impl CsvDialect {
    fn delimiter(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
        }
    }

    fn number(self, decimal: String) -> String {
        match self {
            Self::Comma => decimal,
            Self::Semicolon => decimal.replace('.', ","),
        }
    }
}

/// Writes the headings and the rows. The style gives the currency sign and the tape's finest mark; its
/// decimal comma is for showing and is not looked at here.
///
/// Fails only where `out` does.
pub fn write_csv<W: Write>(table: &Table, dialect: CsvDialect, style: &Style, mut out: W) -> io::Result<()> {
    if dialect == CsvDialect::Semicolon {
        out.write_all(UTF8_MARK)?;
    }
    let mut builder = WriterBuilder::new();
    builder.delimiter(dialect.delimiter()).terminator(Terminator::CRLF);
    let mut writer = builder.from_writer(out);
    writer.write_record(table.columns().iter().flat_map(|column| headings(column, style)))?;
    for row in table.rows() {
        let cells = table.columns().iter().zip(row);
        writer.write_record(cells.flat_map(|(column, cell)| fields(column, cell, dialect, style)))?;
    }
    writer.flush()
}

fn headings(column: &Column, style: &Style) -> Vec<String> {
    let own = guarded(&column.heading_with_unit(style.currency)).into_owned();
    match &column.kind {
        ColumnKind::Quantity(unit) if unit.is_on_the_inch_tape() => {
            vec![own, guarded(&format!("{} (tape)", column.heading)).into_owned()]
        }
        ColumnKind::Mixed { unit_heading } => vec![own, guarded(unit_heading).into_owned()],
        _ => vec![own],
    }
}

/// The fields of one cell: two where the column has two headings.
fn fields(column: &Column, cell: &Cell, dialect: CsvDialect, style: &Style) -> Vec<String> {
    let alone = match cell {
        Cell::Blank => String::new(),
        Cell::Text(text) => guarded(text).into_owned(),
        Cell::Count(count) => count.to_string(),
        Cell::Number(value) => dialect.number(amounts::decimal(*value)),
        Cell::Flag(flag) => amounts::yes_or_no(*flag).to_owned(),
        Cell::Quantity(quantity) if amounts::is_money(*quantity) => dialect.number(amounts::money_decimal(*quantity)),
        Cell::Quantity(quantity) => {
            let value = match &column.kind {
                ColumnKind::Quantity(unit) => unit.expression().count_in(*quantity),
                _ => amounts::counted(*quantity, style).0,
            };
            dialect.number(amounts::decimal(value))
        }
    };
    let beside = match (&column.kind, cell) {
        (ColumnKind::Quantity(unit), Cell::Quantity(length)) if unit.is_on_the_inch_tape() => {
            amounts::tape_text(*length, unit, style)
        }
        (ColumnKind::Mixed { .. }, Cell::Quantity(quantity)) => amounts::counted(*quantity, style).1,
        (ColumnKind::Mixed { .. }, _) => String::new(),
        (ColumnKind::Quantity(unit), _) if unit.is_on_the_inch_tape() => String::new(),
        _ => return vec![alone],
    };
    vec![alone, beside]
}

/// A text that no spreadsheet runs as a formula (OWASP ASVS 5.0, 1.2.10; the carriage return is
/// common practice, no source).
fn guarded(text: &str) -> Cow<'_, str> {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r', '\0']) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}
