//! One row put into the text of a file, which stays as it is to the byte but for that row.
//!
//! Never here: what the row says, and whether it is right.

use super::names;
use super::settings::Settings;
use crate::table::Dialect;
use crate::table::csv_file::{CsvFile, Unprintable, heading_text, split_heading};

/// Why a row cannot be put in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum RowError {
    /// The text has no headings.
    Unreadable,
    /// The file has no such column.
    NoColumn(&'static str),
    /// A field that should be filled is: the column and what stands there.
    Filled(&'static str, String),
    /// No row has this name.
    NoRow(String),
}

/// Fields, each by its column; the first is the name.
type Fields = [(&'static str, String)];

/// The dialect a text is written in.
pub(super) fn dialect_of(text: &str, settings: &Settings) -> Option<Dialect> {
    parsed(text, settings).map(|csv| csv.dialect)
}

/// The text with one more row at its end.
pub(super) fn appended(text: &str, fields: &Fields, settings: &Settings) -> Result<String, RowError> {
    let csv = parsed(text, settings).ok_or(RowError::Unreadable)?;
    let mut row = vec![String::new(); csv.headings.fields.len()];
    put(&mut row, &csv, fields)?;
    let end = line_end(text);
    let gap = if text.ends_with(['\n', '\r']) { "" } else { end };
    Ok(format!("{text}{gap}{}{end}", csv.dialect.line(&row)))
}

/// The text with blank fields of the row of the first field's name filled in.
pub(super) fn filled(text: &str, fields: &Fields, settings: &Settings) -> Result<String, RowError> {
    let csv = parsed(text, settings).ok_or(RowError::Unreadable)?;
    let Some(((name_column, name), rest)) = fields.split_first() else { return Err(RowError::Unreadable) };
    let at = place_of(&csv, name_column).ok_or(RowError::NoColumn(name_column))?;
    let row = csv.rows.iter().find(|row| row.fields.get(at).is_some_and(|there| names::key(there) == names::key(name)));
    let row = row.ok_or_else(|| RowError::NoRow(name.clone()))?;
    for column in ["price", "put-up"] {
        let there = place_of(&csv, column).and_then(|at| row.fields.get(at)).filter(|there| !there.is_empty());
        let new = rest.iter().find(|(known, text)| *known == column && !text.is_empty());
        if let (Some(there), Some((column, new))) = (there, new)
            && there != new
        {
            return Err(RowError::Filled(column, there.clone()));
        }
    }
    let mut new = row.fields.clone();
    new.resize(csv.headings.fields.len(), String::new());
    put(&mut new, &csv, rest)?;
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let at = usize::try_from(row.line).ok().and_then(|line| line.checked_sub(1)).filter(|at| *at < lines.len());
    let at = at.ok_or(RowError::Unreadable)?;
    let line = csv.dialect.line(&new);
    let whole = lines.iter().enumerate().map(|(place, old)| {
        if place != at {
            return (*old).to_owned();
        }
        let end = old.strip_prefix(old.trim_end_matches(['\r', '\n'])).unwrap_or_default();
        format!("{line}{end}")
    });
    Ok(whole.collect())
}

fn parsed(text: &str, settings: &Settings) -> Option<CsvFile> {
    CsvFile::read("", text, settings.file_reading(), Unprintable::Kept, <[String]>::len).ok()
}

/// Fills fields of a row. What would be blank is left as it stands.
fn put(row: &mut [String], csv: &CsvFile, fields: &Fields) -> Result<(), RowError> {
    for (column, text) in fields.iter().filter(|(_, text)| !text.is_empty()) {
        let at = place_of(csv, column).ok_or(RowError::NoColumn(column))?;
        if let Some(field) = row.get_mut(at) {
            field.clone_from(&crate::table::csv_file::guarded(text).into_owned());
        }
    }
    Ok(())
}

/// Where a column stands, by its heading with or without a unit.
fn place_of(csv: &CsvFile, column: &str) -> Option<usize> {
    let key = names::word_key(column);
    csv.headings.fields.iter().position(|heading| {
        let heading = heading_text(heading);
        names::word_key(&heading) == key || names::word_key(split_heading(&heading).0) == key
    })
}

fn line_end(text: &str) -> &'static str {
    if text.contains('\n') && !text.contains("\r\n") { "\n" } else { "\r\n" }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "name,price,put-up\nlawn,,25 yd\nvoile,$4,\n";

    fn fields(of: &[(&'static str, &str)]) -> Vec<(&'static str, String)> {
        of.iter().map(|(column, text)| (*column, (*text).to_owned())).collect()
    }

    #[test]
    fn a_row_goes_to_the_end_in_the_lines_of_the_file() {
        let added = |text: &str| appended(text, &fields(&[("name", "net"), ("price", "$6")]), &Settings::default());
        assert_eq!(added("name,price\nlawn,$9\n"), Ok("name,price\nlawn,$9\nnet,$6\n".to_owned()));
        assert_eq!(added("name,price\nlawn,$9"), Ok("name,price\nlawn,$9\nnet,$6\n".to_owned()));
        assert_eq!(added("name,price\r\nlawn,$9\r\n"), Ok("name,price\r\nlawn,$9\r\nnet,$6\r\n".to_owned()));
        assert_eq!(added("name,price\r\nlawn,$9"), Ok("name,price\r\nlawn,$9\r\nnet,$6\r\n".to_owned()));
        assert_eq!(added("name,price"), Ok("name,price\r\nnet,$6\r\n".to_owned()));
        assert_eq!(added("price,colour,name\n"), Ok("price,colour,name\n$6,,net\n".to_owned()));
        assert_eq!(added("name,colour\n"), Err(RowError::NoColumn("price")));
        assert_eq!(added(""), Err(RowError::Unreadable));
    }

    #[test]
    fn a_blank_needs_no_column() {
        let added = appended("name,price\n", &fields(&[("name", "net"), ("colour", "")]), &Settings::default());
        assert_eq!(added, Ok("name,price\nnet,\n".to_owned()));
    }

    #[test]
    fn blanks_of_one_row_are_filled_and_all_else_stays() {
        let filled = |of: &[(&'static str, &str)]| filled(TEXT, &fields(of), &Settings::default());
        assert_eq!(
            filled(&[("name", " LAWN "), ("price", "$9")]),
            Ok("name,price,put-up\nlawn,$9,25 yd\nvoile,$4,\n".to_owned())
        );
        assert_eq!(
            filled(&[("name", "voile"), ("price", "$4"), ("put-up", "30 yd")]),
            Ok("name,price,put-up\nlawn,,25 yd\nvoile,$4,30 yd\n".to_owned())
        );
        // What is left out leaves what stands there.
        assert_eq!(filled(&[("name", "voile"), ("price", "")]), Ok(TEXT.to_owned()));
        assert_eq!(filled(&[("name", "voile"), ("price", "$5")]), Err(RowError::Filled("price", "$4".to_owned())));
        assert_eq!(
            filled(&[("name", "lawn"), ("price", "$9"), ("put-up", "30 yd")]),
            Err(RowError::Filled("put-up", "25 yd".to_owned()))
        );
        assert_eq!(filled(&[("name", "net"), ("price", "$5")]), Err(RowError::NoRow("net".to_owned())));
        assert_eq!(filled(&[("mark", "net")]), Err(RowError::NoColumn("mark")));
        assert_eq!(filled(&[]), Err(RowError::Unreadable));
    }
}
