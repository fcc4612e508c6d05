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

/// The rows of a text that are neither blank nor a remark, including the headings; `skipped` lines came before it.
pub(super) fn rows(text: &str, dialect: Dialect, skipped: u64) -> Vec<CsvRow> {
    let Ok(delimiter) = u8::try_from(dialect.separator()) else { return Vec::new() };
    let mut builder = csv::ReaderBuilder::new();
    builder.has_headers(false).flexible(true).delimiter(delimiter);
    let mut lines = Lines { text, at: 0, line: skipped + 1 };
    let mut rows = Vec::new();
    let mut begin = 0;
    // A remark may hold quotes, which would run on into the next row: the reader never sees one, and starts anew behind it.
    while let Some(from) = behind_remarks(text, begin) {
        begin = text.len();
        let mut reader = builder.from_reader(text.get(from..).unwrap_or_default().as_bytes());
        // A text in memory is always whole and readable, so no record fails.
        for record in reader.records().filter_map(Result::ok) {
            let start = record.position().map_or(0, csv::Position::byte);
            let start = from + usize::try_from(start).unwrap_or(usize::MAX).min(text.len() - from);
            let line = lines.line_of(start);
            if is_remark(text.get(lines.at..).unwrap_or_default()) {
                begin = lines.at;
                break;
            }
            let fields: Vec<String> = record.iter().map(|field| field.trim().to_owned()).collect();
            rows.push(CsvRow { line, fields });
        }
    }
    rows.retain(|row| !row.is_blank());
    rows
}

/// Whether a text begins with a remark: `#` and a blank, or `#` alone on its line. `#12` is a name.
fn is_remark(text: &str) -> bool {
    text.strip_prefix('#').is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t', '\r', '\n']))
}

/// Where the text goes on behind the blank lines and remarks that it has from a place on; `None` at its end.
fn behind_remarks(text: &str, mut at: usize) -> Option<usize> {
    loop {
        let rest = text.get(at..)?;
        let line = rest.trim_start_matches(['\r', '\n']);
        at += rest.len() - line.len();
        if line.is_empty() {
            return None;
        }
        if !is_remark(line) {
            return Some(at);
        }
        at += line.find(['\r', '\n']).unwrap_or(line.len());
    }
}

/// Counts lines alongside the records. The reader's own count is off after blank lines, which it takes to be part of
/// the next record.
struct Lines<'t> {
    text: &'t str,
    at: usize,
    line: u64,
}

impl Lines<'_> {
    /// The line of the first byte from `start` on that is no line break, where `at` stands afterwards.
    fn line_of(&mut self, start: usize) -> u64 {
        let rest = self.text.get(start..).unwrap_or_default();
        let first = start + (rest.len() - rest.trim_start_matches(['\r', '\n']).len());
        let passed = self.text.get(self.at..first).unwrap_or_default();
        let breaks = passed.matches('\n').count() + passed.replace("\r\n", "").matches('\r').count();
        self.line += u64::try_from(breaks).unwrap_or(0);
        self.at = self.at.max(first);
        self.line
    }
}
