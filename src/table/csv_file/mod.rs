//! The only reader of CSV files: it parses both workshop files and tables of any columns.
//!
//! It finds the dialect, numbers the lines and undoes what spreadsheets do to a file: a byte order mark, a `sep=`
//! line, blank lines, blank fields at the right edge. A line that begins with `# ` is a remark and skipped. [`Located`]
//! says where an error is.
//!
//! Never here: which columns a file may have; what a field means to the workshop or a table.

mod characters;
mod dialect;
mod error;
mod figure;
mod heading;
mod rows;
#[cfg(test)]
mod tests;

pub(crate) use characters::{guarded, is_unprintable, unguarded};
pub(crate) use dialect::Dialect;
pub(crate) use error::{CsvErrorKind, FileErrorKind, Located, NeededBy};
pub(crate) use error::{nouns, pluralized};
pub(crate) use figure::{Figure, quantity_in, with_unit};
pub(crate) use heading::{HeadingUnit, heading_text, split_heading};
pub(crate) use rows::CsvRow;

use crate::quantity::Reading;

/// What happens to invisible characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unprintable {
    /// They stay, and the reader of the field refuses it.
    Kept,
    /// They are removed before anything else is read; line breaks and tabs stay.
    Removed,
}

/// A CSV text as headings and rows, not yet interpreted.
#[derive(Clone, Debug)]
pub(crate) struct CsvFile {
    /// The file's name in errors.
    pub(crate) file: String,
    pub(crate) dialect: Dialect,
    /// How figures are written in it.
    pub(crate) reading: Reading,
    /// The first row that is neither blank nor a remark.
    pub(crate) headings: CsvRow,
    /// The rows below, without blank ones.
    pub(crate) rows: Vec<CsvRow>,
}

impl CsvFile {
    /// Parses a text. `default_reading` gives the currency, and the dialect if `score` is the same for both; `score`
    /// says how well the first line fits as headings, more being better.
    ///
    /// # Errors
    /// A `sep=` line with a sign other than `,` or `;`, and a text without any field.
    pub(crate) fn read<S: Ord>(
        file: &str,
        text: &str,
        default_reading: Reading,
        unprintable: Unprintable,
        score: impl Fn(&[String]) -> S,
    ) -> Result<Self, Box<Located<CsvErrorKind>>> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let (dialect, text, skipped) = match dialect::separator_line(text) {
            None => (Dialect::guess(text, default_reading, score), text, 0),
            Some((sign, rest)) => {
                let named = Dialect::ALL.into_iter().find(|dialect| dialect.is_separator(sign));
                let unknown = || CsvErrorKind::Separator { written: characters::cleaned(sign) };
                (named.ok_or_else(|| Box::new(Located::new(file, unknown()).on_line(1)))?, rest, 1)
            }
        };
        let mut rows = rows::rows(text, dialect, skipped);
        if unprintable == Unprintable::Removed {
            for field in rows.iter_mut().flat_map(|row| &mut row.fields) {
                *field = characters::cleaned(field);
            }
            rows.retain(|row| !row.is_blank());
        }
        let mut rows = rows.into_iter();
        let headings = rows.next().ok_or_else(|| Box::new(Located::new(file, CsvErrorKind::Empty)))?;
        let reading = Reading { decimal_comma: dialect.decimal_comma(), ..default_reading };
        Ok(Self { file: file.to_owned(), dialect, reading, headings, rows: rows.collect() })
    }

    /// An error on a line of this file.
    pub(crate) fn error<K>(&self, line: u64, column: Option<&str>, kind: impl Into<K>) -> Located<K> {
        let error = Located::new(&self.file, kind.into()).on_line(line);
        match column {
            Some(column) => error.in_column(column),
            None => error,
        }
    }
}
