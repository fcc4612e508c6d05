//! A workshop file and a table of the same bytes have the same headings, rows and line numbers.

use super::*;
use crate::quantity::Reading;
use crate::table::csv_file::unguarded;
use crate::table::{Cell, ColumnKind, CsvErrorKind, Table, TableFileErrorKind, from_csv};
use crate::workshop::checked_file::CheckedFile;
use crate::workshop::layout::{Holds, Layout};
use proptest::prelude::*;

const ANY_COLUMNS: Layout = Layout { columns: &[], others: Some(Holds::Words) };

/// Line, number of fields and number of headings, for rows that do not fit.
type Ragged = Vec<(Option<u64>, usize, usize)>;

fn ragged<'e>(errors: impl Iterator<Item = (Option<u64>, &'e CsvErrorKind)>) -> Ragged {
    let found = errors.filter_map(|(line, kind)| match kind {
        CsvErrorKind::Ragged { found, headings, .. } => Some((line, *found, *headings)),
        _ => None,
    });
    found.collect()
}

fn words(cell: &Cell) -> &str {
    match cell {
        Cell::Text(text) => text,
        Cell::Blank => "",
        other => panic!("{other:?}"),
    }
}

proptest! {
    #[test]
    fn read_alike(
        headings in 1..5usize,
        dialect in prop::sample::select(Dialect::ALL.to_vec()),
        comma in any::<bool>(),
        before in "(\u{feff})?(sep=[,;]\r?\n)?( {0,2}\n|,{1,3}\n|;{1,3}\n){0,2}",
        rows in prop_oneof!["[a-z ,;'=½-]{0,12}(\r?\n[a-z ,;'=½-]{0,12}){0,8}", "[a-z ,;\"\r\n]{0,80}"],
    ) {
        let separator = dialect.separator().to_string();
        let names: Vec<String> = (1..=headings).map(|number| format!("h{number} (text)")).collect();
        let text = format!("{before}{}\n{rows}", names.join(&separator));
        let reading = Reading { decimal_comma: comma, ..Reading::default() };
        let mut errors = Vec::new();
        let file = CheckedFile::read("t.csv", &text, &ANY_COLUMNS, reading, &mut errors);
        let table = from_csv::read("t.csv", &text, reading);

        let broken: Vec<Option<u64>> =
            errors.iter().filter(|error| error.kind == WorkshopFileErrorKind::LineBreak).map(|error| error.line).collect();
        let of_workshop = ragged(errors.iter().filter_map(|error| match &error.kind {
            WorkshopFileErrorKind::Csv { error: kind, .. } => Some((error.line, kind)),
            _ => None,
        }));
        let mut of_table = ragged(table.as_ref().err().into_iter().flatten().filter_map(
            |error| match &error.kind {
                TableFileErrorKind::Csv(kind) => Some((error.line, kind)),
                _ => None,
            },
        ));
        // For a row with a line break in a field, a workshop file reports nothing else.
        of_table.retain(|(line, ..)| !broken.contains(line));
        prop_assert_eq!(of_workshop, of_table, "{:?}", text);

        // A line of the other dialect's separators is taken for the headings, which then do not say that they are
        // texts.
        let of_texts = |table: &Table| table.columns().iter().all(|column| column.kind == ColumnKind::Text);
        if let (Some(file), Some(table), true) = (file, table.ok().filter(of_texts), errors.is_empty()) {
            let names: Vec<&str> = file.headings.iter().map(|heading| heading.name.as_str()).collect();
            let columns: Vec<&str> = table.columns().iter().map(|column| column.heading.as_str()).collect();
            prop_assert_eq!(names, columns);
            prop_assert_eq!(file.csv.rows.len(), table.len());
            for (row, cells) in file.csv.rows.iter().zip(table.rows()) {
                let fields: Vec<&str> = row.fields.iter().map(|field| unguarded(field)).collect();
                prop_assert_eq!(fields, cells.iter().map(words).collect::<Vec<_>>());
            }
        }
    }
}
