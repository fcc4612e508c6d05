//! The file sizes.csv: body measures under a name.
//!
//! A row is one person, or one size of a chart; each column behind the name is a measure that the file itself names.
//! Never here: charts of a population, and guesses at missing measures.

use super::checked_file::CheckedFile;
use super::fields::{self, Least, UsedNames};
use super::file_error::WorkshopFileError;
use super::layout::{Column, Holds, Layout};
use super::names;
use super::settings::Settings;
use super::written::{self, CsvOut};
use crate::quantity::{Dimension, Length};
use std::collections::BTreeMap;
use std::io;

/// The measures under one name.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Its unique name.
    pub name: String,
    /// The measures that are filled in, by the names in the headings.
    pub measures: BTreeMap<String, Length>,
}

/// All sizes of a workshop, in the order of its file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sizes {
    /// The measures that the file has columns for, in its order.
    pub measures: Vec<String>,
    /// The sizes, with unique names.
    pub list: Vec<Size>,
}

impl Size {
    /// A measure by its name, ignoring case, extra blanks and hyphens; `None` if it is not filled in.
    pub fn measure(&self, name: &str) -> Option<Length> {
        let key = names::word_key(name);
        self.measures.iter().find(|(known, _)| names::word_key(known) == key).map(|(_, length)| *length)
    }
}

impl Sizes {
    /// The size with this name, ignoring case and extra blanks.
    pub fn find(&self, name: &str) -> Option<&Size> {
        let key = names::key(name);
        self.list.iter().find(|size| names::key(&size.name) == key)
    }

    /// The name nearest to a mistyped one.
    pub fn nearest(&self, name: &str) -> Option<&str> {
        names::nearest(name, self.list.iter().map(|size| size.name.as_str()))
    }

    /// Reads sizes.csv, or returns all errors of the text.
    pub fn read(file: &str, text: &str, settings: &Settings) -> Result<Self, Vec<WorkshopFileError>> {
        let mut errors = Vec::new();
        let sizes = Self::gather(file, text, settings, &mut errors);
        if errors.is_empty() { Ok(sizes) } else { Err(errors) }
    }

    pub(super) fn gather(file: &str, text: &str, settings: &Settings, errors: &mut Vec<WorkshopFileError>) -> Self {
        let text = CheckedFile::read(file, text, &LAYOUT, settings.file_reading(), errors);
        let Some(text) = text else { return Self::default() };
        let headings = text.headings.iter().map(|heading| heading.name.clone());
        let measures: Vec<String> = headings.filter(|name| !name.is_empty() && name != SIZE).collect();
        let mut used = UsedNames::default();
        let rows = fields::read_rows(&text, errors, |fields| {
            let name = fields.own_name(SIZE, "a name such as Wren", &mut used);
            let mut found = BTreeMap::new();
            for measure in &measures {
                if let Some(length) = fields.measure(measure, Least::AboveZero) {
                    found.insert(measure.clone(), length);
                }
            }
            Some(Size { name: name?, measures: found })
        });
        Self { measures, list: rows.into_iter().map(|(_, size)| size).collect() }
    }

    /// Writes sizes.csv.
    pub fn write(&self, settings: &Settings, out: impl io::Write) -> io::Result<()> {
        let measures = self.measures.iter().map(String::as_str);
        let mut out = CsvOut::begin(settings, out, std::iter::once(SIZE).chain(measures))?;
        for size in &self.list {
            let name = std::iter::once(written::guarded(&size.name));
            let lengths = self.measures.iter().map(|measure| out.measure(size.measures.get(measure).copied()));
            let row: Vec<String> = name.chain(lengths).collect();
            out.row(row)?;
        }
        out.end()
    }
}

const SIZE: &str = "size";

const LAYOUT: Layout =
    Layout { columns: &[Column::words(SIZE).needed()], others: Some(Holds::Measure(&[Dimension::LENGTH])) };
