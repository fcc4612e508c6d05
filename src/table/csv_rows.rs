//! The raw rows of a CSV text, and the small signs that a spreadsheet leaves in its fields.
//!
//! Workshop files and tables from elsewhere are both taken apart here, and what is written as a guard
//! against a spreadsheet is taken off again here. Never here: what a field or a heading means.

use crate::quantity::Reading;
use std::borrow::Cow;

/// Signs that make a spreadsheet take a text for a formula (OWASP ASVS 5.0, 1.2.10, from memory; the
/// carriage return is common practice, no source).
const FORMULA_SIGNS: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\0'];

/// A row as it stands in the file, each field without blanks at its ends.
#[derive(Clone, Debug)]
pub struct CsvRow {
    /// The line it begins on, from one.
    pub line: u64,
    /// Its fields.
    pub fields: Vec<String>,
}

/// A first line `sep=;`, which some spreadsheets write: its sign and the text behind it.
pub fn separator_line(text: &str) -> Option<(&str, &str)> {
    let (line, rest) = text.split_once('\n').unwrap_or((text, ""));
    let line = line.trim_end_matches('\r').trim_matches('"');
    let start = line.get(..4)?;
    start.eq_ignore_ascii_case("sep=").then(|| (line.get(4..).unwrap_or_default(), rest))
}

/// The sign that scores more on the first line; the workshop's own where neither does.
pub fn separator<S: Ord>(text: &str, usual: Reading, score: impl Fn(&[String]) -> S) -> char {
    let scored = |sign: char| {
        let first = rows(text, sign, 0).into_iter().next();
        score(&first.map(|row| row.fields).unwrap_or_default())
    };
    let (comma, semicolon) = (scored(','), scored(';'));
    if semicolon > comma || semicolon == comma && usual.decimal_comma { ';' } else { ',' }
}

/// The rows of a text that are not blank, the line of headings among them; `skipped` lines went before it.
pub fn rows(text: &str, separator: char, skipped: u64) -> Vec<CsvRow> {
    let Ok(delimiter) = u8::try_from(separator) else { return Vec::new() };
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(delimiter).from_reader(text.as_bytes());
    let mut lines = Lines { text, at: 0, line: skipped + 1 };
    // A text in memory is always whole and readable, so no record of it fails.
    let records = reader.records().filter_map(Result::ok);
    records
        .map(|record| {
            let start = record.position().map_or(0, csv::Position::byte);
            let fields: Vec<String> = record.iter().map(|field| field.trim().to_owned()).collect();
            CsvRow { line: lines.line_of(start), fields }
        })
        .filter(|row| row.fields.iter().any(|field| !field.is_empty()))
        .collect()
}

/// Counts lines alongside the records. The reader's own count is put off by blank lines, which it takes to
/// be part of the record behind them.
struct Lines<'t> {
    text: &'t str,
    at: usize,
    line: u64,
}

impl Lines<'_> {
    fn line_of(&mut self, byte: u64) -> u64 {
        let start = usize::try_from(byte).unwrap_or(usize::MAX).min(self.text.len());
        let rest = self.text.get(start..).unwrap_or_default();
        let first = start + (rest.len() - rest.trim_start_matches(['\r', '\n']).len());
        let passed = self.text.get(self.at..first).unwrap_or_default();
        let breaks = passed.matches('\n').count() + passed.replace("\r\n", "").matches('\r').count();
        self.line += u64::try_from(breaks).unwrap_or(0);
        self.at = self.at.max(first);
        self.line
    }
}

/// A text as a field that no spreadsheet takes for a formula; see [`unguarded`].
pub fn guarded(text: &str) -> Cow<'_, str> {
    if text.trim_start_matches('\'').starts_with(FORMULA_SIGNS) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text behind the guard, if there is one.
pub fn unguarded(field: &str) -> &str {
    match field.strip_prefix('\'') {
        Some(text) if text.trim_start_matches('\'').starts_with(FORMULA_SIGNS) => text,
        _ => field,
    }
}

/// A number and the unit of its heading, put together as one literal.
pub fn with_unit(number: &str, unit: &str, reading: Reading) -> String {
    let (sign, number) = match number.strip_prefix(['-', '−']) {
        Some(number) => ("-", number.trim_start()),
        None => ("", number),
    };
    match unit.strip_prefix(reading.currency) {
        Some(rate) => format!("{sign}{}{number}{rate}", reading.currency),
        None if unit.is_empty() => format!("{sign}{number}"),
        None => format!("{sign}{number} {unit}"),
    }
}

/// Signs that a terminal would act on, or that hide what stands around them.
pub fn is_unprintable(sign: char) -> bool {
    sign.is_control()
        || matches!(sign, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// Whether a figure has the decimal mark of the other dialect between two digits.
pub fn has_other_mark(written: &str, comma: bool) -> bool {
    let other = if comma { '.' } else { ',' };
    let digit_before =
        |at: usize| written.get(..at).is_some_and(|before| before.ends_with(|c: char| c.is_ascii_digit()));
    let digit_after =
        |at: usize| written.get(at + 1..).is_some_and(|after| after.starts_with(|c: char| c.is_ascii_digit()));
    written.match_indices(other).any(|(at, _)| digit_before(at) && digit_after(at))
}
