//! The fields of a workshop that is being set up, by their rows, and the texts of the files they make.
//!
//! Never here: which answer fills which field; whether a field is right.

use super::WorkshopFile;
use super::settings::Settings;
use super::typed::{PriceFields, Typed};
use super::written::{self, CsvOut};
use std::io;

/// A row of one of the files.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Row {
    Setting(&'static str),
    Rate(&'static str),
    Cloth,
    Elastic,
    Thread,
}

/// Fields, each by its row and its column.
#[derive(Clone, Debug, Default)]
pub(super) struct SetUpRows(Vec<(Row, &'static str, String)>);

const GOODS: [(Row, &str); 3] = [(Row::Cloth, "cloth"), (Row::Elastic, "notion"), (Row::Thread, "thread")];

const GOODS_COLUMNS: [&str; 10] = [
    "material",
    "kind",
    "usable width",
    "put-up",
    "price",
    "price for",
    "sold by",
    "shrink along",
    "shrink across",
    "washing",
];

impl SetUpRows {
    pub(super) fn put(&mut self, row: Row, column: &'static str, text: &str) {
        self.0.push((row, column, text.to_owned()));
    }

    /// Puts the value of a rate; nothing is not put.
    pub(super) fn put_amount(&mut self, row: Row, text: &str, own: Typed<'_>) {
        if own.quantity(text).is_none_or(|amount| amount.steps().abs() > 0.0) {
            self.put(row, "value", text);
        }
    }

    pub(super) fn put_price(&mut self, row: Row, fields: PriceFields) {
        let PriceFields { price, price_for, sold_by, put_up } = fields;
        for (column, text) in [("price", price), ("price for", price_for), ("sold by", sold_by), ("put-up", put_up)] {
            self.put(row, column, &text);
        }
    }

    pub(super) fn get(&self, row: Row, column: &str) -> Option<&str> {
        self.0.iter().find(|(known, named, _)| *known == row && *named == column).map(|(.., text)| text.as_str())
    }

    pub(super) fn add(&mut self, more: &Self) {
        self.0.extend(more.0.iter().cloned());
    }

    /// The texts of the files; a file without a row has its headings alone.
    pub(super) fn texts(&self) -> io::Result<[(WorkshopFile, String); 3]> {
        Ok([
            (
                WorkshopFile::Settings,
                self.text(&["setting", "value"], |row| match row {
                    Row::Setting(name) => Some(name),
                    _ => None,
                })?,
            ),
            (
                WorkshopFile::Rates,
                self.text(&["operation", "per", "minutes", "value"], |row| match row {
                    Row::Rate(name) => Some(name),
                    _ => None,
                })?,
            ),
            (WorkshopFile::Materials, self.goods()?),
        ])
    }

    /// A file of names, each with its value in the last column.
    fn text(&self, headings: &[&'static str], named: fn(Row) -> Option<&'static str>) -> io::Result<String> {
        let mut text = Vec::new();
        let mut out = CsvOut::begin(&Settings::default(), &mut text, headings.iter().copied())?;
        for (row, _, value) in &self.0 {
            let Some(name) = named(*row) else { continue };
            let mut fields = vec![String::new(); headings.len()];
            if let [first, .., last] = fields.as_mut_slice() {
                (*first, *last) = (name.to_owned(), value.clone());
            }
            out.row(fields)?;
        }
        out.end()?;
        Ok(String::from_utf8_lossy(&text).into_owned())
    }

    fn goods(&self) -> io::Result<String> {
        let mut text = Vec::new();
        let mut out = CsvOut::begin(&Settings::default(), &mut text, GOODS_COLUMNS)?;
        for (row, kind) in GOODS {
            let Some(name) = self.get(row, "material") else { continue };
            let field = |column: &str| match column {
                "material" => written::guarded(name),
                "kind" => kind.to_owned(),
                // A cloth must have a width: any will do until hers is asked.
                "usable width" if row == Row::Cloth => self.get(row, column).unwrap_or("1 in").to_owned(),
                _ => self.get(row, column).unwrap_or_default().to_owned(),
            };
            out.row(GOODS_COLUMNS.map(field))?;
        }
        out.end()?;
        Ok(String::from_utf8_lossy(&text).into_owned())
    }
}
