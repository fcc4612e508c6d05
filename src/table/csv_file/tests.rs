//! Tests of the shared reader, on texts well written and not.

use super::*;
use crate::quantity::{Dimension, Quantity, Unit};
use proptest::prelude::*;

fn read(text: &str, default_reading: Reading) -> Result<CsvFile, Box<Located<CsvErrorKind>>> {
    CsvFile::read("t.csv", text, default_reading, Unprintable::Kept, <[String]>::len)
}

/// The headings and the rows below, each with its line.
fn lines(csv: CsvFile) -> Vec<(u64, Vec<String>)> {
    std::iter::once(csv.headings).chain(csv.rows).map(|row| (row.line, row.fields)).collect()
}

#[test]
fn the_dialect_is_named_or_found_by_what_fits_better() {
    let dialect = |text: &str| read(text, Reading::default()).map(|csv| (csv.dialect, csv.reading.decimal_comma));
    assert_eq!(dialect("a,b\n1,2\n"), Ok((Dialect::CommaAndPoint, false)));
    assert_eq!(dialect("\u{feff}a;b\n1,5;2\n"), Ok((Dialect::SemicolonAndComma, true)));
    assert_eq!(dialect("sep=;\na,b\n"), Ok((Dialect::SemicolonAndComma, true)));
    assert_eq!(dialect("\"SEP=,\"\r\na;b\r\n"), Ok((Dialect::CommaAndPoint, false)));
    let abroad = Reading { decimal_comma: true, ..Reading::default() };
    assert_eq!(read("along\n", abroad).map(|csv| csv.dialect), Ok(Dialect::SemicolonAndComma));
    let error = dialect("sep=|\na|b\n").unwrap_err();
    assert_eq!(error.to_string(), "t.csv, line 1: “|” names no sign that can stand between fields");
    assert_eq!(dialect(" \n\n \n").unwrap_err().to_string(), "t.csv: the file is empty");
}

#[test]
fn signs_that_nobody_sees_stay_or_go() {
    let text = "\u{200b}\na\u{7},b\n\u{202e},\n1,\u{1b}2\n";
    let read = |unprintable| CsvFile::read("t", text, Reading::default(), unprintable, <[String]>::len).map(lines);
    let row = |line, fields: [&str; 2]| (line, fields.map(str::to_owned).to_vec());
    assert_eq!(read(Unprintable::Removed).unwrap(), [row(2, ["a", "b"]), row(4, ["1", "2"])]);
    let kept = read(Unprintable::Kept).unwrap();
    assert_eq!((kept.len(), kept[0].0, kept[1].1[0].as_str()), (4, 1, "a\u{7}"));
}

#[test]
fn a_row_fits_its_headings_or_is_ragged() {
    let fit = |fields: &[&str], headings| {
        let mut row = CsvRow { line: 1, fields: fields.iter().map(|field| (*field).to_owned()).collect() };
        row.fit(headings, Dialect::CommaAndPoint).map(|()| row.fields.len())
    };
    let ragged = |found, headings| Err(CsvErrorKind::Ragged { found, headings, separator: ',' });
    assert_eq!(fit(&["a", "b"], 2), Ok(2));
    assert_eq!(fit(&["a", "", "", ""], 2), Ok(2));
    assert_eq!(fit(&["a", "", "c", ""], 2), ragged(3, 2));
    assert_eq!(fit(&["a"], 2), ragged(1, 2));
    assert_eq!(ragged(2, 1).unwrap_err().to_string(), "the line has 2 fields but there is 1 heading");
}

#[test]
fn headings_end_in_a_unit_or_a_remark() {
    assert_eq!(split_heading("width (in)"), ("width", Some("in")));
    assert_eq!(split_heading("waist (by eye) ( cm )"), ("waist (by eye)", Some("cm")));
    assert_eq!(split_heading("waist (cm"), ("waist (cm", None));
    assert_eq!(heading_text("'=waist\r\n(cm)"), "=waist (cm)");
    let unit = |written| HeadingUnit::read(written, Reading::default());
    let measure = |written, number| unit(written).map(|unit| unit.measure(number, Reading::default()));
    assert_eq!(measure("in", "14 1/2"), Ok(Ok(Quantity::of(14.5, Unit::Inch))));
    assert_eq!(measure("yd in", "2"), Ok(Ok(Quantity::of(2.0, Unit::Yard))));
    assert!(unit("over the vest").is_err());
}

#[test]
fn an_error_says_where_it_stands() {
    let kind = || CsvErrorKind::Unlike {
        written: "12 min".to_owned(),
        given: Dimension::TIME,
        needed: vec![Dimension::LENGTH],
        needed_by: NeededBy::Column,
    };
    let words = "“12 min” is a time; a length is needed";
    let error = Located::new("cuts.csv", kind());
    assert_eq!(error.to_string(), format!("cuts.csv: {words}"));
    let error = error.on_line(3);
    assert_eq!(error.to_string(), format!("cuts.csv, line 3: {words}"));
    assert_eq!(error.in_column("along").to_string(), format!("cuts.csv, line 3, column “along”: {words}"));
}

/// A field in quotes, with quotes inside doubled.
fn quoted(field: &str) -> String {
    format!("\"{}\"", field.replace('"', "\"\""))
}

fn field() -> impl Strategy<Value = String> {
    "[a-z0-9 ,;\"'=\n½“-]{0,8}".prop_map(|field| field.trim().to_owned())
}

/// Rows that are not blank, with the number of blank lines before each.
fn rows() -> impl Strategy<Value = Vec<(usize, Vec<String>)>> {
    let row = prop::collection::vec(field(), 1..5);
    let row = row.prop_filter("blank", |fields| fields.iter().any(|field| !field.is_empty()));
    prop::collection::vec((0..3usize, row), 1..8)
}

proptest! {
    #[test]
    fn rows_keep_their_fields_and_lines(
        rows in rows(),
        dialect in prop::sample::select(Dialect::ALL.to_vec()),
        end in prop::sample::select(vec!["\n", "\r\n", "\r"]),
        mark in any::<bool>(),
        blank in prop::sample::select(vec!["", " ", "sep sep"]),
    ) {
        let separator = dialect.separator().to_string();
        // A `sep=` line is recognised only if it ends in `\n`.
        let mut text = format!("{}sep={separator}\n", if mark { "\u{feff}" } else { "" });
        let (mut line, mut wanted) = (2u64, Vec::new());
        for (blanks, fields) in rows {
            for _ in 0..blanks {
                text.push_str(&blank.replace("sep", &separator));
                text.push_str(end);
                line += 1;
            }
            wanted.push((line, fields.clone()));
            text.push_str(&fields.iter().map(|field| quoted(field)).collect::<Vec<_>>().join(&separator));
            text.push_str(end);
            line += 1 + u64::try_from(fields.concat().matches('\n').count()).unwrap();
        }
        let csv = read(&text, Reading::default()).unwrap();
        prop_assert_eq!(csv.dialect, dialect);
        prop_assert_eq!(lines(csv), wanted, "{:?}", text);
    }

    #[test]
    fn what_is_written_reads_back(
        rows in prop::collection::vec(prop::collection::vec("[a-z][a-z0-9 ,;\"'=½-]{0,8}[a-z]", 3), 1..8),
        dialect in prop::sample::select(Dialect::ALL.to_vec()),
    ) {
        let mut out = Vec::new();
        let mut writer = dialect.writer(&mut out).unwrap();
        for row in &rows {
            writer.write_record(row).unwrap();
        }
        drop(writer);
        let text = String::from_utf8(out).unwrap();
        let score = |first: &[String]| first.iter().filter(|field| rows[0].contains(field)).count();
        let default_reading = Reading { decimal_comma: dialect.decimal_comma(), ..Reading::default() };
        let csv = CsvFile::read("t.csv", &text, default_reading, Unprintable::Kept, score).unwrap();
        prop_assert_eq!(csv.dialect, dialect);
        let read: Vec<Vec<String>> = lines(csv).into_iter().map(|(_, fields)| fields).collect();
        prop_assert_eq!(read, rows);
    }

    #[test]
    fn any_text_is_rows_or_an_error(
        text in prop_oneof![any::<String>(), "(sep=[,;|]\n)?[a-z ,;\"'\r\n\u{200b}\u{feff}]{0,120}"],
        comma in any::<bool>(),
        removed in any::<bool>(),
    ) {
        let unprintable = if removed { Unprintable::Removed } else { Unprintable::Kept };
        let default_reading = Reading { decimal_comma: comma, ..Reading::default() };
        match CsvFile::read("t.csv", &text, default_reading, unprintable, <[String]>::len) {
            Ok(csv) => {
                let last = u64::try_from(text.split(['\n', '\r']).count()).unwrap();
                let mut before = 0;
                for (line, fields) in lines(csv) {
                    prop_assert!(line > before && line <= last);
                    prop_assert!(fields.iter().any(|field| !field.is_empty()));
                    before = line;
                }
            }
            Err(error) => prop_assert!(error.to_string().starts_with("t.csv")),
        }
    }
}

#[test]
fn a_line_that_begins_with_a_hash_and_a_blank_is_a_remark() {
    let text = "# hers, \"since May\n\na,b\n# one; two\n#\n1,2\n\n# \"odd, quotes\n\"# 3\",4\n#5,6\n# end";
    let row = |line, fields: [&str; 2]| (line, fields.map(str::to_owned).to_vec());
    let found = lines(read(text, Reading::default()).unwrap());
    assert_eq!(found, [row(3, ["a", "b"]), row(6, ["1", "2"]), row(9, ["# 3", "4"]), row(10, ["#5", "6"])]);
    // Line ends of every kind are counted, and a hash inside a field is no remark.
    let found = lines(read("# x\r\n#\r\na;b\r\n1;# 2\r\n\"1\r\n# 2\";3\r\n", Reading::default()).unwrap());
    assert_eq!(found, [row(3, ["a", "b"]), row(4, ["1", "# 2"]), row(5, ["1\r\n# 2", "3"])]);
    assert_eq!(read("# only\n#\n", Reading::default()).unwrap_err().to_string(), "t.csv: the file is empty");
}
