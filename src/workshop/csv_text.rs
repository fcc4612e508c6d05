//! One CSV text as headings and rows: which sign parts the fields, which column is which, where each row stands.
//!
//! What spreadsheets do to a file is undone here: a mark at the start, a `sep=` line, semicolons with a
//! decimal comma, blank lines and empty columns at the edges. Never here: what a field means.

use super::fault::{FileFault, FileFaultKind};
use super::names;
use super::written;
use crate::quantity::{Dimension, Reading, Unit, literal};
use crate::table::csv_rows::{self, CsvRow, rows, separator_line};

/// What a column of a file holds.
#[derive(Clone, Copy, Debug)]
pub(super) enum Holds {
    /// A name, a word, a note.
    Words,
    /// How many; no unit.
    Count,
    /// A quantity of one of these dimensions, with its unit in the field or in the heading.
    Measure(&'static [Dimension]),
}

/// A column that a file may have.
#[derive(Clone, Copy, Debug)]
pub(super) struct Column {
    /// Its heading, without a unit.
    pub(super) name: &'static str,
    /// Whether the file makes no sense without it.
    pub(super) needed: bool,
    /// What it holds.
    pub(super) holds: Holds,
    /// The unit that the heading says by its own name, as “minutes” does.
    pub(super) implied: Option<&'static str>,
}

impl Column {
    pub(super) const fn words(name: &'static str) -> Self {
        Self { name, needed: false, holds: Holds::Words, implied: None }
    }

    pub(super) const fn count(name: &'static str) -> Self {
        Self { name, needed: false, holds: Holds::Count, implied: None }
    }

    pub(super) const fn measure(name: &'static str, dimensions: &'static [Dimension]) -> Self {
        Self { name, needed: false, holds: Holds::Measure(dimensions), implied: None }
    }

    pub(super) const fn needed(self) -> Self {
        Self { needed: true, ..self }
    }
}

/// The columns of one file.
#[derive(Clone, Copy, Debug)]
pub(super) struct Layout {
    /// The columns that are known by name.
    pub(super) columns: &'static [Column],
    /// What any further column holds, where further ones are allowed.
    pub(super) others: Option<Holds>,
}

impl Layout {
    fn column(&self, heading: &str) -> Option<&'static Column> {
        let heading = names::word_key(heading);
        self.columns.iter().find(|column| names::word_key(column.name) == heading)
    }

    fn names(&self) -> Vec<&'static str> {
        self.columns.iter().map(|column| column.name).collect()
    }
}

/// A heading as it stands in the file.
#[derive(Clone, Debug)]
pub(super) struct Heading {
    /// The column's name; blank where the heading is.
    pub(super) name: String,
    /// The unit it carries.
    pub(super) unit: Option<String>,
    /// What the column holds.
    pub(super) holds: Holds,
}

/// A CSV text taken apart.
#[derive(Clone, Debug)]
pub(super) struct CsvText {
    /// The file's name, for faults.
    pub(super) file: String,
    /// How quantities are written in it.
    pub(super) reading: Reading,
    /// Its headings, left to right.
    pub(super) headings: Vec<Heading>,
    /// Its rows, blank ones left out.
    pub(super) rows: Vec<CsvRow>,
    /// The line of the headings.
    pub(super) heading_line: u64,
}

impl CsvText {
    /// Takes a text apart. `usual` tells the workshop's currency, and which dialect to assume of a heading
    /// line with a single heading. None where no row can be read at all; the faults then say why.
    pub(super) fn read(
        file: &str,
        text: &str,
        layout: &Layout,
        usual: Reading,
        faults: &mut Vec<FileFault>,
    ) -> Option<Self> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let whole_file = |kind| FileFault { file: file.to_owned(), line: None, column: None, kind };
        let (named, text, skipped) = match separator_line(text) {
            None => (None, text, 0),
            Some((sign, rest)) => match sign {
                "," => (Some(','), rest, 1),
                ";" => (Some(';'), rest, 1),
                other => {
                    let kind = FileFaultKind::Separator { written: other.to_owned() };
                    faults.push(FileFault { line: Some(1), ..whole_file(kind) });
                    return None;
                }
            },
        };
        // The sign that makes the most of the headings known, then the one that makes more of them.
        let score = |fields: &[String]| {
            let known = fields.iter().filter(|field| layout.column(field).or(layout.column(bare(field))).is_some());
            (known.count(), fields.len())
        };
        let separator = named.unwrap_or_else(|| csv_rows::separator(text, usual, score));
        let mut rows = rows(text, separator, skipped);
        if rows.is_empty() {
            let needed = layout.columns.iter().filter(|column| column.needed).map(|column| column.name).collect();
            faults.push(whole_file(FileFaultKind::Empty { needed }));
            return None;
        }
        let first = rows.remove(0);
        let reading = Reading { decimal_comma: separator == ';', ..usual };
        let mut found =
            Self { file: file.to_owned(), reading, headings: Vec::new(), rows: Vec::new(), heading_line: first.line };
        let before = faults.len();
        found.read_headings(&first.fields, layout, faults);
        let sound = faults.len() == before;
        found.take_rows(rows, separator, faults);
        // A field under a doubtful heading would only be blamed for it.
        sound.then_some(found)
    }

    /// A fault of this file.
    pub(super) fn fault(&self, line: u64, column: Option<&str>, kind: FileFaultKind) -> FileFault {
        FileFault { file: self.file.clone(), line: Some(line), column: column.map(str::to_owned), kind }
    }

    fn read_headings(&mut self, fields: &[String], layout: &Layout, faults: &mut Vec<FileFault>) {
        for field in fields {
            let heading = match self.heading(field, layout) {
                Ok(heading) => heading,
                Err(kind) => {
                    let column = layout.column(bare(field)).map(|column| column.name);
                    faults.push(self.fault(self.heading_line, column, kind));
                    Heading { name: field.clone(), unit: None, holds: Holds::Words }
                }
            };
            let same = |other: &Heading| !other.name.is_empty() && names::key(&other.name) == names::key(&heading.name);
            if self.headings.iter().any(same) {
                faults.push(self.fault(self.heading_line, Some(&heading.name), FileFaultKind::RepeatedColumn));
            }
            self.headings.push(heading);
        }
        for column in layout.columns.iter().filter(|column| column.needed) {
            // A heading that is nearly this one has been blamed already.
            let there = |heading: &Heading| {
                layout.others.is_none() && names::nearest(&heading.name, layout.names()) == Some(column.name)
            };
            if !self.headings.iter().any(|heading| heading.name == column.name || there(heading)) {
                faults.push(self.fault(self.heading_line, Some(column.name), FileFaultKind::MissingColumn));
            }
        }
    }

    fn heading(&self, field: &str, layout: &Layout) -> Result<Heading, FileFaultKind> {
        let field = csv_rows::unguarded(field);
        if field.is_empty() {
            return Ok(Heading { name: String::new(), unit: None, holds: Holds::Words });
        }
        let (name, brackets) = match field.strip_suffix(')').and_then(|field| field.rsplit_once('(')) {
            Some((name, brackets)) if layout.column(field).is_none() => (name.trim(), Some(brackets.trim())),
            _ => (field, None),
        };
        let known = layout.column(name);
        let holds = known.map(|column| column.holds).or(layout.others);
        let named = known.map_or(name, |column| column.name);
        let (Some(holds), true) = (holds, brackets.is_none() || known.is_none_or(Column::may_have_unit)) else {
            let nearest = names::nearest(name, layout.names()).map(str::to_owned);
            return Err(FileFaultKind::UnknownColumn { written: field.to_owned(), nearest, known: layout.names() });
        };
        let implied = known.and_then(|column| column.implied);
        let unit = match (brackets, holds) {
            (Some(brackets), Holds::Measure(needed)) => match self.heading_unit(brackets, needed) {
                Ok(()) => Some(brackets.to_owned()),
                // A further column may have a remark in brackets: “waist (over the vest)”.
                Err(_) if known.is_none() && brackets.contains(' ') => {
                    return Ok(Heading { name: field.to_owned(), unit: None, holds });
                }
                Err(kind) => return Err(kind),
            },
            _ => implied.map(str::to_owned),
        };
        Ok(Heading { name: named.to_owned(), unit, holds })
    }

    fn heading_unit(&self, brackets: &str, needed: &'static [Dimension]) -> Result<(), FileFaultKind> {
        let written = brackets.to_owned();
        match literal::read_unit(brackets, self.reading) {
            Ok(unit) if unit.liked.compound => Err(FileFaultKind::HeadingUnit { written, nearest: None }),
            Ok(unit) if needed.contains(&unit.dimension) => Ok(()),
            Ok(unit) => {
                let example = written::usual_unit(needed, self.reading);
                let needed = needed.to_vec();
                Err(FileFaultKind::HeadingMeasure { written, given: unit.dimension, needed, example })
            }
            Err(_) => {
                let nearest = Unit::nearest(brackets).map(str::to_owned);
                Err(FileFaultKind::HeadingUnit { written, nearest })
            }
        }
    }

    fn take_rows(&mut self, rows: Vec<CsvRow>, separator: char, faults: &mut Vec<FileFault>) {
        let headings = self.headings.len();
        for mut row in rows {
            let mut sound = true;
            while row.fields.len() > headings && row.fields.last().is_some_and(String::is_empty) {
                row.fields.pop();
            }
            if row.fields.iter().any(|field| field.contains(['\n', '\r'])) {
                faults.push(self.fault(row.line, None, FileFaultKind::LineBreak));
                sound = false;
            } else if row.fields.len() != headings {
                let kind = FileFaultKind::Ragged { found: row.fields.len(), headings, separator };
                faults.push(self.fault(row.line, None, kind));
                sound = false;
            }
            for (heading, field) in self.headings.iter().zip(&row.fields) {
                if sound && heading.name.is_empty() && !field.is_empty() {
                    faults.push(self.fault(row.line, None, FileFaultKind::NoHeading { written: field.clone() }));
                }
            }
            if sound {
                self.rows.push(row);
            }
        }
    }
}

impl Column {
    fn may_have_unit(&self) -> bool {
        matches!(self.holds, Holds::Measure(_))
    }
}

/// A heading without what stands in brackets behind it.
fn bare(heading: &str) -> &str {
    heading.rsplit_once('(').map_or(heading, |(name, _)| name)
}
