//! The raw rows of a CSV text, each with the line it begins on.
//!
//! Never here: what a field or a heading means.

use super::{CsvErrorKind, Dialect};
use crate::quantity::Reading;

/// A row as written, each field without blanks at its ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct CsvRow {
    /// The line it begins on, from 1.
    pub(crate) line: u64,
    pub(crate) fields: Vec<String>,
}

impl CsvRow {
    /// Whether all fields are empty.
    pub(crate) fn is_blank(&self) -> bool {
        self.used() == 0
    }

    /// The number of fields up to the last one that is filled.
    pub(crate) fn used(&self) -> usize {
        self.fields.iter().rposition(|field| !field.is_empty()).map_or(0, |last| last + 1)
    }

    /// Drops blank fields beyond the headings, which spreadsheets leave.
    ///
    /// # Errors
    /// A row that still has more or fewer fields than there are headings.
    pub(crate) fn fit(&mut self, headings: usize, dialect: Dialect) -> Result<(), CsvErrorKind> {
        self.fields.truncate(self.used().max(headings));
        match self.fields.len() {
            found if found == headings => Ok(()),
            found => Err(CsvErrorKind::Ragged { found, headings, separator: dialect.separator() }),
        }
    }
}

impl Dialect {
    /// The dialect in which the first line scores more; the usual one if both score the same.
    pub(super) fn guess<S: Ord>(text: &str, default_reading: Reading, score: impl Fn(&[String]) -> S) -> Self {
        let scored = |dialect: Self| {
            let first = rows(text, dialect, 0).into_iter().next();
            score(&first.map(|row| row.fields).unwrap_or_default())
        };
        match scored(Self::CommaAndPoint).cmp(&scored(Self::SemicolonAndComma)) {
            std::cmp::Ordering::Less => Self::SemicolonAndComma,
            std::cmp::Ordering::Equal => Self::of(default_reading),
            std::cmp::Ordering::Greater => Self::CommaAndPoint,
        }
    }
}

/// The rows of a text that are not blank, including the headings; `skipped` lines came before it.
pub(super) fn rows(text: &str, dialect: Dialect, skipped: u64) -> Vec<CsvRow> {
    let Ok(delimiter) = u8::try_from(dialect.separator()) else { return Vec::new() };
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(delimiter).from_reader(text.as_bytes());
    let mut lines = Lines { text, at: 0, line: skipped + 1 };
    // A text in memory is always whole and readable, so no record fails.
    let records = reader.records().filter_map(Result::ok);
    records
        .map(|record| {
            let start = record.position().map_or(0, csv::Position::byte);
            let fields: Vec<String> = record.iter().map(|field| field.trim().to_owned()).collect();
            CsvRow { line: lines.line_of(start), fields }
        })
        .filter(|row| !row.is_blank())
        .collect()
}

/// Counts lines alongside the records. The reader's own count is off after blank lines, which it takes to be part of
/// the next record.
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
