//! The fields of one row, each checked as it is taken; what is wrong is noted and the taking goes on.
//!
//! Never here: what a row as a whole means.

use super::csv_text::{CsvText, Holds};
use super::fault::{FileFault, FileFaultKind};
use super::names;
use super::written;
use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{Dimension, Length, Quantity, Reading, Unit, number};
use crate::table::csv_rows::{self, CsvRow, has_other_mark, is_unprintable, with_unit};
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

/// One row, and the faults of its file.
pub(super) struct Fields<'r> {
    text: &'r CsvText,
    row: &'r CsvRow,
    faults: &'r mut Vec<FileFault>,
    sound: bool,
}

/// Reads every row; those with a fault are left out, and each keeps its line for later checks.
pub(super) fn read_rows<T>(
    text: &CsvText,
    faults: &mut Vec<FileFault>,
    mut read: impl FnMut(&mut Fields<'_>) -> Option<T>,
) -> Vec<(u64, T)> {
    let mut found = Vec::new();
    for row in &text.rows {
        let mut of_row = Vec::new();
        let mut fields = Fields { text, row, faults: &mut of_row, sound: true };
        let value = read(&mut fields);
        if let Some(value) = value.filter(|_| fields.sound) {
            found.push((row.line, value));
        }
        // A person goes along the line from left to right.
        of_row
            .sort_by_key(|fault| text.headings.iter().position(|heading| fault.column.as_ref() == Some(&heading.name)));
        faults.append(&mut of_row);
    }
    faults.sort_by_key(|fault| fault.line);
    found
}

/// Names that may stand in a file only once.
#[derive(Debug, Default)]
pub(super) struct UsedNames(BTreeMap<String, u64>);

impl Fields<'_> {
    /// The line of this row.
    pub(super) fn line(&self) -> u64 {
        self.row.line
    }

    /// What stands in a column; nothing where the file has no such column.
    pub(super) fn raw(&self, column: &str) -> &str {
        let columns = self.text.headings.iter().zip(&self.row.fields);
        columns.filter(|(heading, _)| heading.name == column).map(|(_, field)| field.as_str()).next().unwrap_or("")
    }

    /// Notes a fault in a column of this row.
    pub(super) fn fault(&mut self, column: &str, kind: FileFaultKind) {
        self.sound = false;
        let fault = self.text.fault(self.row.line, Some(column), kind);
        self.faults.push(fault);
    }

    /// Whether this row has no fault so far.
    pub(super) fn is_sound(&self) -> bool {
        self.sound
    }

    /// Whether a fault has been noted in a column of this row.
    pub(super) fn is_blamed(&self, column: &str) -> bool {
        self.faults.iter().any(|fault| fault.column.as_deref() == Some(column))
    }

    /// What to type into a blank field of a column.
    pub(super) fn example(&self, column: &str) -> String {
        match self.holds(column) {
            Holds::Words => "a name".to_owned(),
            Holds::Count => "a count such as 12".to_owned(),
            Holds::Measure(dimensions) => {
                format!("a figure such as {}", written::example(dimensions, self.text.reading))
            }
        }
    }

    /// How figures are written in this file.
    pub(super) fn reading(&self) -> Reading {
        self.text.reading
    }

    fn holds(&self, column: &str) -> Holds {
        let heading = self.text.headings.iter().find(|heading| heading.name == column);
        heading.map_or(Holds::Words, |heading| heading.holds)
    }

    /// Words; none where the field is blank.
    pub(super) fn words(&mut self, column: &str) -> Option<String> {
        let words = csv_rows::unguarded(self.raw(column)).to_owned();
        if words.chars().any(is_unprintable) {
            self.fault(column, FileFaultKind::Unprintable);
            return None;
        }
        (!words.is_empty()).then_some(words)
    }

    /// Words that must be there.
    pub(super) fn needed_words(&mut self, column: &str, example: &str) -> Option<String> {
        if self.raw(column).is_empty() {
            self.fault(column, FileFaultKind::Blank { example: example.to_owned() });
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
            self.fault(column, FileFaultKind::RepeatedName { written: name, first_line });
            return None;
        }
        Some(name)
    }

    /// One of a few words; none where the field is blank.
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
            self.fault(column, FileFaultKind::UnknownWord { written, allowed, nearest });
        }
        found.map(|(_, value)| *value)
    }

    /// "yes" or "no"; blank is no.
    pub(super) fn yes(&mut self, column: &str) -> bool {
        self.choice(column, &[("yes", true), ("no", false)]).unwrap_or(false)
    }

    /// A length, or the unit of one alone: `1/8 yd`, `m`.
    pub(super) fn length_or_unit(&self, written: &str) -> Option<Length> {
        let quantity = match Unit::named(written) {
            Some(unit) => Quantity::of(1.0, unit),
            None => match literal::read_quantity(written, self.text.reading) {
                Ok(LiteralValue::Quantity(quantity)) => quantity,
                _ => return None,
            },
        };
        Length::try_from(quantity).ok().filter(|length| length.is_positive())
    }

    /// A whole number of things; none where the field is blank.
    pub(super) fn count(&mut self, column: &str, least: Least) -> Option<usize> {
        let quantity = self.figure(column, &[Dimension::NUMBER], least)?;
        let whole = number::whole(quantity.steps()).and_then(number::count);
        if whole.is_none() {
            self.fault(column, FileFaultKind::NotWhole { written: self.raw(column).to_owned() });
        }
        whole
    }

    /// A part of a whole, written in per cent; none where the field is blank.
    pub(super) fn share(&mut self, column: &str, most: Most) -> Option<f64> {
        let share = self.figure(column, &[Dimension::NUMBER], Least::Zero)?;
        self.within(column, share, most)
    }

    /// A part of a whole that has been read.
    pub(super) fn within(&mut self, column: &str, share: Quantity, most: Most) -> Option<f64> {
        let written = || self.raw(column).to_owned();
        if share.liked().named != Some(Unit::Percent) {
            let example = with_unit(&written(), "%", self.text.reading);
            let unit = matches!(self.holds(column), Holds::Measure(_)).then(|| "%".to_owned());
            self.fault(column, FileFaultKind::NoUnit { written: written(), unit, example });
            return None;
        }
        let limit = match most {
            Most::BelowWhole if share.steps() >= 1.0 => "less than 100 %",
            Most::Whole if share.steps() > 1.0 => "at most 100 %",
            _ => return Some(share.steps()),
        };
        self.fault(column, FileFaultKind::TooMuch { written: written(), limit });
        None
    }

    /// A quantity of one kind; none where the field is blank.
    pub(super) fn measure<M: TryFrom<Quantity>>(&mut self, column: &str, least: Least) -> Option<M> {
        let Holds::Measure(dimensions) = self.holds(column) else { return None };
        M::try_from(self.figure(column, dimensions, least)?).ok()
    }

    /// A quantity of one of several kinds; none where the field is blank.
    pub(super) fn figure(&mut self, column: &str, needed: &[Dimension], least: Least) -> Option<Quantity> {
        let written = self.raw(column).to_owned();
        if written.is_empty() {
            return None;
        }
        match self.read_figure(column, &written, needed, least) {
            Ok(quantity) => Some(quantity),
            Err(kind) => {
                self.fault(column, kind);
                None
            }
        }
    }

    fn read_figure(
        &self,
        column: &str,
        written: &str,
        needed: &[Dimension],
        least: Least,
    ) -> Result<Quantity, FileFaultKind> {
        let reading = self.text.reading;
        let text = || written.to_owned();
        let heading = self.text.headings.iter().find(|heading| heading.name == column);
        let counts = heading.is_some_and(|heading| matches!(heading.holds, Holds::Count));
        let example = || if counts { "1 or 12".to_owned() } else { written::example(needed, reading) };
        if has_other_mark(written, reading.decimal_comma) {
            return Err(FileFaultKind::DecimalMark { written: text(), comma: reading.decimal_comma });
        }
        let mut value = literal::read_quantity(written, reading);
        if let (Ok(LiteralValue::Quantity(bare)), false) = (&value, counts)
            && bare.dimension().is_number()
            && bare.liked().named.is_none()
        {
            let Some(unit) = heading.and_then(|heading| heading.unit.as_deref()) else {
                let unit = written::usual_unit(needed, reading);
                let example = with_unit(written, &unit, reading);
                let unit = matches!(self.holds(column), Holds::Measure(_)).then_some(unit);
                return Err(FileFaultKind::NoUnit { written: text(), unit, example });
            };
            value = literal::read_quantity(&with_unit(written, unit, reading), reading);
        }
        let quantity = match value {
            Ok(LiteralValue::Quantity(quantity)) => quantity,
            Ok(LiteralValue::Spread { .. }) => return Err(FileFaultKind::Spread { written: text() }),
            Err(fault) => return Err(FileFaultKind::not_read(written, fault, example())),
        };
        if !needed.contains(&quantity.dimension()) {
            let (given, needed, example) = (quantity.dimension(), needed.to_vec(), example());
            return Err(FileFaultKind::Unlike { written: text(), given, needed, example });
        }
        match least {
            Least::AboveZero if quantity.steps() <= 0.0 => Err(FileFaultKind::NotPositive { written: text() }),
            Least::Zero if quantity.steps() < 0.0 => Err(FileFaultKind::Negative { written: text() }),
            _ => Ok(quantity),
        }
    }
}
