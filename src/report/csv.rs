//! Tables for spreadsheets and other programs: comma-separated values as in RFC 4180.
//!
//! | column | in the file |
//! |---|---|
//! | length in `in` | `along (in)` with decimals, and beside it `along (tape)` as the tape reads |
//! | other quantities | `minutes (min)`, `price ($/yd)`, plain decimals |
//! | money | `cost ($)`, with its cents |
//! | mixed | the value, and its unit under a heading of its own |
//! | flag | `yes`, `no` |
//!
//! A blank stays blank. Text that a spreadsheet would run as a formula gets an apostrophe before it; numbers never
//! do, because they stay numbers until they are written. Texts are cleaned as for a terminal, where a file may be looked
//! at too.

use super::{amounts, plain_text};
use crate::quantity::Style;
use crate::table::csv_file::guarded;
use crate::table::{Cell, Column, ColumnKind, Dialect, Table};
use std::io::{self, Write};

/// Writes the headings and the rows. The style gives the currency sign and the tape's finest mark; its decimal comma
/// is for display and is ignored here.
///
/// Fails only if `out` does.
pub(crate) fn write_csv<W: Write>(table: &Table, dialect: Dialect, style: &Style, out: W) -> io::Result<()> {
    let mut writer = dialect.writer(out)?;
    writer.write_record(table.columns().iter().flat_map(|column| headings(column, style)))?;
    for row in table.rows() {
        let cells = table.columns().iter().zip(row);
        writer.write_record(cells.flat_map(|(column, cell)| fields(column, cell, dialect, style)))?;
    }
    writer.flush()
}

/// A text on one line, without codes that a terminal would act on, and guarded against a spreadsheet.
fn safe(text: &str) -> String {
    guarded(&plain_text::one_line(text)).into_owned()
}

fn headings(column: &Column, style: &Style) -> Vec<String> {
    let own = safe(&column.heading_with_unit(style.currency));
    match &column.kind {
        ColumnKind::Quantity(unit) if unit.is_on_the_inch_tape() => {
            vec![own, safe(&format!("{} (tape)", column.heading))]
        }
        ColumnKind::Mixed { unit_heading } => vec![own, safe(unit_heading)],
        _ => vec![own],
    }
}

/// The fields of one cell: two if the column has two headings.
fn fields(column: &Column, cell: &Cell, dialect: Dialect, style: &Style) -> Vec<String> {
    let alone = match cell {
        Cell::Blank => String::new(),
        Cell::Text(text) => safe(text),
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
    let extra = match (&column.kind, cell) {
        (ColumnKind::Quantity(unit), Cell::Quantity(length)) if unit.is_on_the_inch_tape() => {
            amounts::tape_text(*length, unit, style)
        }
        (ColumnKind::Mixed { .. }, Cell::Quantity(quantity)) => amounts::counted(*quantity, style).1,
        (ColumnKind::Mixed { .. }, _) => String::new(),
        (ColumnKind::Quantity(unit), _) if unit.is_on_the_inch_tape() => String::new(),
        _ => return vec![alone],
    };
    vec![alone, extra]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Quantity, Unit};
    use proptest::prelude::*;

    fn written(table: &Table, dialect: Dialect, style: &Style) -> String {
        let mut out = Vec::new();
        write_csv(table, dialect, style, &mut out).unwrap();
        String::from_utf8(out).unwrap()
    }

    fn cut_list() -> Table {
        let columns = Table::new("cut_list").text("piece").count("count").length("along", "in").length("across", "cm");
        let columns = columns.time("work", "min").quantity("price", "$/yd").money("cost").flag("joined");
        let mut table = columns.number("fullness").ready().unwrap();
        let price = Quantity::money(4.5).per(Quantity::of(1.0, Unit::Yard)).unwrap();
        table
            .push(vec![
                "band, \"waist\"".into(),
                2.into(),
                Length::inches(10.375).into(),
                Length::centimetres(0.1 + 0.2).into(),
                Quantity::of(1.5, Unit::Hour).into(),
                price.into(),
                Quantity::money(23.4).into(),
                true.into(),
                2.5.into(),
            ])
            .unwrap();
        table
            .push(vec![
                "-ruffle\nupper".into(),
                (-1).into(),
                Length::inches(-0.375).into(),
                Cell::Blank,
                Cell::Blank,
                Cell::Blank,
                Quantity::money(-0.5).into(),
                false.into(),
                (-0.25).into(),
            ])
            .unwrap();
        table.push(vec![Cell::Blank; 9]).unwrap();
        table
    }

    #[test]
    fn comma_and_point() {
        assert_eq!(
            written(&cut_list(), Dialect::CommaAndPoint, &Style::default()),
            "piece,count,along (in),along (tape),across (cm),work (min),price ($/yd),cost ($),joined,fullness\r\n\
             \"band, \"\"waist\"\"\",2,10.375,10 3/8,0.3,90,4.5,23.40,yes,2.5\r\n\
             '-ruffle upper,-1,-0.375,-0 3/8,,,,-0.50,no,-0.25\r\n\
             ,,,,,,,,,\r\n"
        );
    }

    #[test]
    fn semicolon_and_decimal_comma() {
        let style = Style { currency: '€', ..Style::default() };
        assert_eq!(
            written(&cut_list(), Dialect::SemicolonAndComma, &style),
            "\u{feff}piece;count;along (in);along (tape);across (cm);work (min);price (€/yd);cost (€);joined;fullness\r\n\
             \"band, \"\"waist\"\"\";2;10,375;10 3/8;0,3;90;4,5;23,40;yes;2,5\r\n\
             '-ruffle upper;-1;-0,375;-0 3/8;;;;-0,50;no;-0,25\r\n\
             ;;;;;;;;;\r\n"
        );
    }

    #[test]
    fn figures_bring_their_units() {
        let mut table = Table::new("summary").text("figure").mixed("value", "unit").ready().unwrap();
        for (figure, value) in [
            ("length used", Cell::from(Quantity::of(4.5, Unit::Yard))),
            ("cost", Quantity::money(12.0).into()),
            ("rolls", 3.into()),
            ("use", Quantity::of(87.5, Unit::Percent).into()),
            ("proved", true.into()),
            ("note", "=2+3".into()),
            ("bound", Cell::Blank),
        ] {
            table.push(vec![figure.into(), value]).unwrap();
        }
        assert_eq!(
            written(&table, Dialect::CommaAndPoint, &Style::default()),
            "figure,value,unit\r\nlength used,4.5,yd\r\ncost,12.00,$\r\nrolls,3,\r\nuse,87.5,%\r\nproved,yes,\r\n\
             note,'=2+3,\r\nbound,,\r\n"
        );
    }

    /// OWASP ASVS 1.2.10: these characters at the start of a text.
    #[test]
    fn texts_that_a_spreadsheet_would_run_are_guarded() {
        for begin in ["=", "+", "-", "@", "\u{200B}=", "\u{FF1D}", "'="] {
            let text = format!("{begin}1+1");
            let mut table = Table::new("notes").text("=note").ready().unwrap();
            table.push(vec![text.as_str().into()]).unwrap();
            let file = written(&table, Dialect::CommaAndPoint, &Style::default());
            assert_eq!(file, format!("'=note\r\n'{text}\r\n"), "{begin:?}");
        }
        // A line break, a tab and an escape code do not reach the file, nor do they hide a sign.
        for (text, field) in
            [("\t=1", "'=1"), ("\r\n +1", "'+1"), ("\u{1b}[31m@red", "'@red"), ("a\u{202e}b\nc", "ab c")]
        {
            let mut table = Table::new("notes").text("note").ready().unwrap();
            table.push(vec![text.into()]).unwrap();
            let file = written(&table, Dialect::CommaAndPoint, &Style::default());
            assert_eq!(file, format!("note\r\n{field}\r\n"), "{text:?}");
        }
    }

    /// RFC 4180, section 2: records end in CRLF, quotes inside a quoted field are doubled.
    #[test]
    fn a_lone_blank_is_still_a_row() {
        let mut table = Table::new("notes").text("note").ready().unwrap();
        table.push(vec![Cell::Blank]).unwrap();
        table.push(vec!["say \"hem\"".into()]).unwrap();
        let file = written(&table, Dialect::CommaAndPoint, &Style::default());
        assert_eq!(file, "note\r\n\"\"\r\n\"say \"\"hem\"\"\"\r\n");
    }

    #[test]
    fn a_full_disk_is_the_callers_to_tell() {
        struct Full;
        impl Write for Full {
            fn write(&mut self, _: &[u8]) -> io::Result<usize> {
                Err(io::ErrorKind::StorageFull.into())
            }
            fn flush(&mut self) -> io::Result<()> {
                Ok(())
            }
        }
        for dialect in [Dialect::CommaAndPoint, Dialect::SemicolonAndComma] {
            let error = write_csv(&cut_list(), dialect, &Style::default(), Full).unwrap_err();
            assert_eq!(error.kind(), io::ErrorKind::StorageFull);
        }
    }

    fn any_row() -> impl Strategy<Value = Vec<Cell>> {
        let text = prop_oneof![any::<String>(), "[-=+@\\t\\r\\n\0,;\"'a絹 ]{0,8}"].prop_map(Cell::from);
        let count = any::<i64>().prop_map(Cell::from);
        let along = (-1e6..1e6).prop_map(|inches| Length::inches(inches).into());
        let cost = (-1_000_000_i32..1_000_000).prop_map(|cents| Quantity::money(f64::from(cents) / 100.0).into());
        let ratio = prop::num::f64::NORMAL.prop_map(Cell::from);
        let blank = || Just(Cell::Blank);
        (
            prop_oneof![text, blank()],
            prop_oneof![count, blank()],
            prop_oneof![along, blank()],
            prop_oneof![cost, blank()],
            prop_oneof![ratio, blank()],
        )
            .prop_map(|(text, count, along, cost, ratio)| vec![text, count, along, cost, ratio])
    }

    fn near(field: &str, dialect: Dialect, value: f64) -> bool {
        let point = if dialect == Dialect::SemicolonAndComma { field.replace(',', ".") } else { field.to_owned() };
        point.parse::<f64>().is_ok_and(|read| (read - value).abs() <= 1e-9 * value.abs())
    }

    fn reads_back(cell: &Cell, field: &str, dialect: Dialect) -> bool {
        match cell {
            Cell::Blank => field.is_empty(),
            Cell::Text(text) => {
                let text = plain_text::one_line(text);
                field.strip_prefix('\'').is_some_and(|rest| rest == text) || field == text
            }
            Cell::Count(count) => field.parse() == Ok(*count),
            Cell::Number(value) => near(field, dialect, *value),
            Cell::Flag(_) => false,
            Cell::Quantity(q) => q.count_of(Unit::Inch).or(q.currency_units()).is_ok_and(|v| near(field, dialect, v)),
        }
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back(rows in prop::collection::vec(any_row(), 0..8), semicolon in any::<bool>()) {
            let columns = Table::new("t").text("note").count("count").length("along", "in").money("cost");
            let mut table = columns.number("ratio").ready().unwrap();
            for row in rows {
                table.push(row).unwrap();
            }
            let dialect = if semicolon { Dialect::SemicolonAndComma } else { Dialect::CommaAndPoint };
            let file = written(&table, dialect, &Style::default());
            prop_assert!(file.ends_with("\r\n"));
            let mut reader = csv::ReaderBuilder::new();
            let mut reader = reader.delimiter(u8::try_from(dialect.separator()).unwrap()).from_reader(file.as_bytes());
            let headings: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
            prop_assert_eq!(headings, ["note", "count", "along (in)", "along (tape)", "cost ($)", "ratio"]);
            let records: Vec<_> = reader.records().collect::<Result<_, _>>().unwrap();
            prop_assert_eq!(records.len(), table.len());
            for (row, record) in table.rows().iter().zip(&records) {
                let own = [0, 1, 2, 4, 5].map(|at| &record[at]);
                for (cell, field) in row.iter().zip(own) {
                    prop_assert!(reads_back(cell, field, dialect), "{cell:?} as {field:?}");
                    let text = matches!(cell, Cell::Text(_));
                    prop_assert!(!text || !field.starts_with(['=', '+', '-', '@', '\t', '\r', '\0']), "{field:?}");
                }
                prop_assert_eq!(record[3].is_empty(), row[2].is_blank());
            }
        }
    }
}
