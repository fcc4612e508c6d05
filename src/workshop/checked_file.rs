//! A workshop file checked against its layout: headings matched to columns, and the rows that fit the headings.
//!
//! Never here: what a field means.

use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::{Column, Holds, Layout};
use super::names;
use super::written;
use crate::quantity::{Dimension, Reading, Unit};
use crate::table::csv_file::{CsvErrorKind, CsvFile, CsvRow, HeadingUnit, Unprintable, heading_text, split_heading};

/// A heading of the file, matched to its column.
#[derive(Clone, Debug)]
pub(super) struct Heading {
    /// The column's name; empty if the heading is blank.
    pub(super) name: String,
    pub(super) unit: Option<HeadingUnit>,
    pub(super) holds: Holds,
    /// Whether a blank field below it is an error.
    pub(super) filled: bool,
}

impl Heading {
    fn of_words(name: String) -> Self {
        Self { name, unit: None, holds: Holds::Words, filled: false }
    }
}

/// A parsed workshop file.
#[derive(Clone, Debug)]
pub(super) struct CheckedFile {
    /// Its rows have as many fields as there are headings.
    pub(super) csv: CsvFile,
    /// Left to right.
    pub(super) headings: Vec<Heading>,
}

impl CheckedFile {
    /// Parses a text. `default_reading` gives the workshop's currency, and the dialect to assume for a heading line with
    /// a single heading. Returns `None` if no field can be read; `errors` then says why.
    pub(super) fn read(
        file: &str,
        text: &str,
        layout: &Layout,
        default_reading: Reading,
        errors: &mut Vec<WorkshopFileError>,
    ) -> Option<Self> {
        // Prefer the separator that gives the most known headings, then the most headings.
        let score = |fields: &[String]| {
            let known = fields.iter().filter(|field| layout.column(field).or(layout.column(bare(field))).is_some());
            (known.count(), fields.len())
        };
        let csv = CsvFile::read(file, text, default_reading, Unprintable::Kept, score).map_err(|error| {
            let needed: Vec<&str> = layout.needed().collect();
            error.map(|error| WorkshopFileErrorKind::of_csv(error, needed.join(", ")))
        });
        let csv = csv.map_err(|error| errors.push(error)).ok()?;
        let mut found = Self { csv, headings: Vec::new() };
        let before = errors.len();
        found.read_headings(layout, errors);
        let sound = errors.len() == before;
        for mut row in std::mem::take(&mut found.csv.rows) {
            match found.check_row(&mut row, errors) {
                Ok(()) => found.csv.rows.push(row),
                Err(kind) => errors.push(found.error(row.line, None, kind)),
            }
        }
        // Fields below a wrong heading would only give errors that follow from it.
        sound.then_some(found)
    }

    /// Whether the file has this column.
    pub(super) fn has(&self, column: &str) -> bool {
        self.heading(column).is_some()
    }

    /// The heading of a column, by the name in the layout.
    pub(super) fn heading(&self, column: &str) -> Option<&Heading> {
        self.headings.iter().find(|heading| heading.name == column)
    }

    /// An error on a line of this file.
    pub(super) fn error(
        &self,
        line: u64,
        column: Option<&str>,
        kind: impl Into<WorkshopFileErrorKind>,
    ) -> WorkshopFileError {
        self.csv.error(line, column, kind)
    }

    fn read_headings(&mut self, layout: &Layout, errors: &mut Vec<WorkshopFileError>) {
        let line = self.csv.headings.line;
        for field in &self.csv.headings.fields {
            let heading = match self.read_heading(field, layout) {
                Ok(heading) => heading,
                Err(kind) => {
                    let column = layout.column(bare(field)).map(|column| column.name);
                    errors.push(self.error(line, column, kind));
                    Heading::of_words(field.clone())
                }
            };
            let same = |other: &Heading| !other.name.is_empty() && names::key(&other.name) == names::key(&heading.name);
            if self.headings.iter().any(same) {
                errors.push(self.error(line, Some(&heading.name), CsvErrorKind::RepeatedColumn));
            }
            self.headings.push(heading);
        }
        for column in layout.needed() {
            // A misspelt heading of this column has been reported already.
            let is_near = |heading: &Heading| {
                layout.others.is_none() && names::nearest(&heading.name, layout.names()) == Some(column)
            };
            if !self.headings.iter().any(|heading| heading.name == column || is_near(heading)) {
                errors.push(self.error(line, Some(column), WorkshopFileErrorKind::MissingColumn));
            }
        }
    }

    fn read_heading(&self, field: &str, layout: &Layout) -> Result<Heading, WorkshopFileErrorKind> {
        let field = heading_text(field);
        if field.is_empty() {
            return Ok(Heading::of_words(field));
        }
        let (name, brackets) = match layout.column(&field) {
            Some(_) => (field.as_str(), None),
            None => split_heading(&field),
        };
        let known = layout.column(name);
        let holds = known.map(|column| column.holds).or(layout.others);
        let named = known.map_or(name, |column| column.name);
        let (Some(holds), true) = (holds, brackets.is_none() || known.is_none_or(Column::may_have_unit)) else {
            let nearest = names::nearest(name, layout.names()).map(str::to_owned);
            return Err(WorkshopFileErrorKind::UnknownColumn { written: field, nearest, known: layout.names() });
        };
        let implied = || HeadingUnit::read(known?.implied?, self.csv.reading).ok();
        let unit = match (brackets, holds) {
            (Some(brackets), Holds::Measure(needed)) => match self.heading_unit(brackets, needed) {
                Ok(unit) => Some(unit),
                // A further column may have a remark in brackets: “waist (over the vest)”.
                Err(_) if known.is_none() && brackets.contains(' ') => {
                    return Ok(Heading { name: field, unit: None, holds, filled: false });
                }
                Err(kind) => return Err(kind),
            },
            _ => implied(),
        };
        Ok(Heading { name: named.to_owned(), unit, holds, filled: known.is_some_and(|column| column.filled) })
    }

    fn heading_unit(&self, brackets: &str, needed: &'static [Dimension]) -> Result<HeadingUnit, WorkshopFileErrorKind> {
        let written = brackets.to_owned();
        match HeadingUnit::read(brackets, self.csv.reading) {
            Ok(unit) if unit.expression.liked.compound => {
                Err(CsvErrorKind::HeadingUnit { written, nearest: None }.into())
            }
            Ok(unit) if needed.contains(&unit.expression.dimension) => Ok(unit),
            Ok(unit) => {
                let example = written::usual_unit(needed, self.csv.reading);
                let (given, needed) = (unit.expression.dimension, needed.to_vec());
                Err(WorkshopFileErrorKind::HeadingMeasure { written, given, needed, example })
            }
            Err(_) => Err(CsvErrorKind::HeadingUnit { written, nearest: Unit::nearest(brackets) }.into()),
        }
    }

    fn check_row(&self, row: &mut CsvRow, errors: &mut Vec<WorkshopFileError>) -> Result<(), WorkshopFileErrorKind> {
        let fits = row.fit(self.headings.len(), self.csv.dialect);
        if row.fields.iter().any(|field| field.contains(['\n', '\r'])) {
            return Err(WorkshopFileErrorKind::LineBreak);
        }
        fits?;
        for (heading, field) in self.headings.iter().zip(&row.fields) {
            if heading.name.is_empty() && !field.is_empty() {
                errors.push(self.error(row.line, None, WorkshopFileErrorKind::NoHeading { written: field.clone() }));
            }
        }
        Ok(())
    }
}

/// A heading without the brackets behind it.
fn bare(heading: &str) -> &str {
    heading.rsplit_once('(').map_or(heading, |(name, _)| name)
}
