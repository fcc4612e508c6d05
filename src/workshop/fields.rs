//! The fields of one row, each checked when it is read; errors are collected and reading goes on.
//!
//! Never here: what a row as a whole means.

use super::checked_file::CheckedFile;
use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::Holds;
use super::names;
use super::written;
use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{Dimension, Length, Quantity, Reading, Unit, number};
use crate::table::csv_file::{CsvErrorKind, CsvRow, Figure, NeededBy, is_unprintable, unguarded, with_unit};
use std::collections::BTreeMap;

/// How small a figure may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Least {
    /// More than zero.
    AboveZero,
    /// Zero or more.
    Zero,
}

/// How large a part of a whole may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Most {
    /// Less than the whole.
    BelowWhole,
    /// The whole.
    Whole,
    /// Any number of times the whole.
    Any,
}

/// One row, and its errors so far.
pub(super) struct Fields<'r> {
    file: &'r CheckedFile,
    row: &'r CsvRow,
    errors: &'r mut Vec<WorkshopFileError>,
}

/// Reads every row, each with its line for later checks; rows with an error are left out.
pub(super) fn read_rows<T>(
    file: &CheckedFile,
    errors: &mut Vec<WorkshopFileError>,
    mut read: impl FnMut(&mut Fields<'_>) -> Option<T>,
) -> Vec<(u64, T)> {
    let mut found = Vec::new();
    for row in &file.csv.rows {
        let mut row_errors = Vec::new();
        let mut fields = Fields { file, row, errors: &mut row_errors };
        fields.check_filled();
        let value = read(&mut fields);
        if let Some(value) = value.filter(|_| row_errors.is_empty()) {
            found.push((row.line, value));
        }
        // Errors are in the order in which a person reads the line.
        row_errors
            .sort_by_key(|error| file.headings.iter().position(|heading| error.column.as_ref() == Some(&heading.name)));
        errors.append(&mut row_errors);
    }
    errors.sort_by_key(|error| error.line);
    found
}

/// Names that must be unique in a file, each with its first line.
#[derive(Debug, Default)]
pub(super) struct UsedNames(BTreeMap<String, u64>);

impl Fields<'_> {
    fn check_filled(&mut self) {
        for heading in self.file.headings.iter().filter(|heading| heading.filled) {
            if self.raw(&heading.name).is_empty() {
                let example = self.example(&heading.name);
                self.error(&heading.name, WorkshopFileErrorKind::Blank { example });
            }
        }
    }

    /// The line of this row.
    pub(super) fn line(&self) -> u64 {
        self.row.line
    }

    /// The text in a column; empty if the file has no such column.
    pub(super) fn raw(&self, column: &str) -> &str {
        let columns = self.file.headings.iter().zip(&self.row.fields);
        columns.filter(|(heading, _)| heading.name == column).map(|(_, field)| field.as_str()).next().unwrap_or("")
    }

    /// Adds an error in a column of this row.
    pub(super) fn error(&mut self, column: &str, kind: impl Into<WorkshopFileErrorKind>) {
        self.errors.push(self.file.error(self.row.line, Some(column), kind));
    }

    /// Whether this row has no error so far.
    pub(super) fn is_sound(&self) -> bool {
        self.errors.is_empty()
    }

    /// Whether this row has an error in this column.
    pub(super) fn has_error(&self, column: &str) -> bool {
        self.errors.iter().any(|error| error.column.as_deref() == Some(column))
    }

    /// An example to type into a blank field of a column.
    pub(super) fn example(&self, column: &str) -> String {
        match self.holds(column) {
            Holds::Words => "a name".to_owned(),
            Holds::Count => "a count such as 12".to_owned(),
            Holds::Measure(dimensions) => {
                format!("a figure such as {}", written::example(dimensions, self.file.csv.reading))
            }
        }
    }

    /// How figures are written in this file.
    pub(super) fn reading(&self) -> Reading {
        self.file.csv.reading
    }

    fn holds(&self, column: &str) -> Holds {
        self.file.heading(column).map_or(Holds::Words, |heading| heading.holds)
    }

    /// The words in a column; `None` if the field is blank.
    pub(super) fn words(&mut self, column: &str) -> Option<String> {
        let words = unguarded(self.raw(column)).to_owned();
        if words.chars().any(is_unprintable) {
            self.error(column, WorkshopFileErrorKind::Unprintable);
            return None;
        }
        (!words.is_empty()).then_some(words)
    }

    /// The words in a column that must not be blank.
    pub(super) fn needed_words(&mut self, column: &str, example: &str) -> Option<String> {
        if self.raw(column).is_empty() {
            self.error(column, WorkshopFileErrorKind::Blank { example: example.to_owned() });
            return None;
        }
        self.words(column)
    }

    /// A name that no earlier row has.
    pub(super) fn own_name(&mut self, column: &str, example: &str, used: &mut UsedNames) -> Option<String> {
        let name = self.needed_words(column, example)?;
        let line = self.row.line;
        let first_line = *used.0.entry(names::key(&name)).or_insert(line);
        if first_line != line {
            self.error(column, WorkshopFileErrorKind::RepeatedName { written: name, first_line });
            return None;
        }
        Some(name)
    }

    /// The meaning of one of a few words; `None` if the field is blank.
    pub(super) fn choice<T: Copy>(&mut self, column: &str, choices: &[(&'static str, T)]) -> Option<T> {
        let written = self.raw(column).to_owned();
        if written.is_empty() {
            return None;
        }
        let key = names::word_key(&written);
        let found = choices.iter().find(|(word, _)| names::word_key(word) == key);
        if found.is_none() {
            let allowed: Vec<&'static str> = choices.iter().map(|(word, _)| *word).collect();
            let nearest = names::nearest(&written, allowed.iter().copied()).map(str::to_owned);
            self.error(column, WorkshopFileErrorKind::UnknownWord { written, allowed, nearest });
        }
        found.map(|(_, value)| *value)
    }

    /// "yes" or "no"; blank is no.
    pub(super) fn yes(&mut self, column: &str) -> bool {
        self.choice(column, &[("yes", true), ("no", false)]).unwrap_or(false)
    }

    /// A length, or a unit of length alone: `1/8 yd`, `m`.
    pub(super) fn length_or_unit(&self, written: &str) -> Option<Length> {
        let quantity = match Unit::named(written) {
            Some(unit) => Quantity::of(1.0, unit),
            None => match literal::read_quantity(written, self.file.csv.reading) {
                Ok(LiteralValue::Quantity(quantity)) => quantity,
                _ => return None,
            },
        };
        Length::try_from(quantity).ok().filter(|length| length.is_positive())
    }

    /// A whole number; `None` if the field is blank.
    pub(super) fn count(&mut self, column: &str, least: Least) -> Option<usize> {
        let quantity = self.figure(column, &[Dimension::NUMBER], least)?;
        let whole = number::whole(quantity.steps()).and_then(number::count);
        if whole.is_none() {
            self.error(column, WorkshopFileErrorKind::NotWhole { written: self.raw(column).to_owned() });
        }
        whole
    }

    /// A share, written in per cent; `None` if the field is blank.
    pub(super) fn share(&mut self, column: &str, most: Most) -> Option<f64> {
        let share = self.figure(column, &[Dimension::NUMBER], Least::Zero)?;
        self.within(column, share, most)
    }

    /// Checks a share that has been read: written in per cent, and at most `most`.
    pub(super) fn within(&mut self, column: &str, share: Quantity, most: Most) -> Option<f64> {
        let written = || self.raw(column).to_owned();
        if share.liked().named != Some(Unit::Percent) {
            let example = with_unit(&written(), "%", self.file.csv.reading);
            let unit = matches!(self.holds(column), Holds::Measure(_)).then(|| "%".to_owned());
            let error = CsvErrorKind::NoUnit { written: written(), unit, needed_by: NeededBy::Column };
            self.error(column, WorkshopFileErrorKind::of_csv(error, example));
            return None;
        }
        let limit = match most {
            Most::BelowWhole if share.steps() >= 1.0 => "less than 100 %",
            Most::Whole if share.steps() > 1.0 => "at most 100 %",
            _ => return Some(share.steps()),
        };
        self.error(column, WorkshopFileErrorKind::TooMuch { written: written(), limit });
        None
    }

    /// A quantity of one kind; `None` if the field is blank.
    pub(super) fn measure<M: TryFrom<Quantity>>(&mut self, column: &str, least: Least) -> Option<M> {
        let Holds::Measure(dimensions) = self.holds(column) else { return None };
        M::try_from(self.figure(column, dimensions, least)?).ok()
    }

    /// A quantity of one of several kinds; `None` if the field is blank.
    pub(super) fn figure(&mut self, column: &str, needed: &[Dimension], least: Least) -> Option<Quantity> {
        let written = self.raw(column).to_owned();
        if written.is_empty() {
            return None;
        }
        self.read_figure(column, &written, needed, least).map_err(|kind| self.error(column, kind)).ok()
    }

    fn read_figure(
        &self,
        column: &str,
        written: &str,
        needed: &[Dimension],
        least: Least,
    ) -> Result<Quantity, WorkshopFileErrorKind> {
        let reading = self.file.csv.reading;
        let text = || written.to_owned();
        let heading = self.file.heading(column);
        let counts = matches!(self.holds(column), Holds::Count);
        let example = || if counts { "1 or 12".to_owned() } else { written::example(needed, reading) };
        let with_example = |error| WorkshopFileErrorKind::of_csv(error, example());
        let quantity = match Figure::read(written, reading).map_err(with_example)? {
            Figure::Bare(_) if !counts => {
                let Some(unit) = heading.and_then(|heading| heading.unit.as_ref()) else {
                    let unit = written::usual_unit(needed, reading);
                    let example = with_unit(written, &unit, reading);
                    let unit = matches!(self.holds(column), Holds::Measure(_)).then_some(unit);
                    let error = CsvErrorKind::NoUnit { written: text(), unit, needed_by: NeededBy::Column };
                    return Err(WorkshopFileErrorKind::of_csv(error, example));
                };
                unit.measure(written, reading).map_err(with_example)?
            }
            figure => figure.quantity(),
        };
        if !needed.contains(&quantity.dimension()) {
            let (given, needed) = (quantity.dimension(), needed.to_vec());
            let error = CsvErrorKind::Unlike { written: text(), given, needed, needed_by: NeededBy::Column };
            return Err(with_example(error));
        }
        match least {
            Least::AboveZero if quantity.steps() <= 0.0 => Err(WorkshopFileErrorKind::NotPositive { written: text() }),
            Least::Zero if quantity.steps() < 0.0 => Err(WorkshopFileErrorKind::Negative { written: text() }),
            _ => Ok(quantity),
        }
    }
}
