//! The file stock.csv: what is on the shelf.
//!
//! Never here: changing the stock, which only explicit commands do.

use super::checked_file::CheckedFile;
use super::fields::{self, Fields, Least, UsedNames};
use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::{Column, Layout};
use super::materials::{Material, Materials, SoldBy};
use super::names;
use super::settings::Settings;
use super::written::{self, CsvOut};
use crate::quantity::{Dimension, Length, Money};
use std::io;

/// Rolls, bolts, remnants or boxes of notions: a number of equal ones.
#[derive(Clone, Debug, PartialEq)]
pub struct StockPiece {
    /// Its mark, unique on the shelf.
    pub name: String,
    /// The material's name, as in materials.csv.
    pub material: String,
    /// The lot it was dyed in.
    pub lot: Option<String>,
    /// Number of equal ones; 0 once they are used up.
    pub count: usize,
    /// The length of each; `None` for what is counted, such as hooks.
    pub along: Option<Length>,
    /// The width of each, if it is not the material's.
    pub across: Option<Length>,
    /// Whether it has been washed; its sizes are then those after the wash.
    pub washed: bool,
    /// What was paid for each, if known.
    pub price: Option<Money>,
    /// Where it lies.
    pub place: Option<String>,
    /// The order it is held for.
    pub held_for: Option<String>,
}

/// Everything on the shelf, in the order of its file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// The pieces, with unique names.
    pub list: Vec<StockPiece>,
}

impl StockPiece {
    /// Its own width, or else the material's.
    pub fn width(&self, material: &Material) -> Option<Length> {
        self.across.or(material.usable_width)
    }
}

impl Stock {
    /// The piece with this name, ignoring case and extra blanks.
    pub fn find(&self, name: &str) -> Option<&StockPiece> {
        let key = names::key(name);
        self.list.iter().find(|piece| names::key(&piece.name) == key)
    }

    /// The pieces of one material.
    pub fn of<'s>(&'s self, material: &str) -> impl Iterator<Item = &'s StockPiece> {
        let key = names::key(material);
        self.list.iter().filter(move |piece| names::key(&piece.material) == key)
    }

    /// Reads stock.csv, or returns all errors of the text. That the materials exist is checked by
    /// [`Workshop::read`](super::Workshop::read), which sees both files.
    pub fn read(file: &str, text: &str, settings: &Settings) -> Result<Self, Vec<WorkshopFileError>> {
        let mut errors = Vec::new();
        let rows = Self::gather(file, text, settings, None, &mut errors);
        if errors.is_empty() { Ok(rows) } else { Err(errors) }
    }

    pub(super) fn gather(
        file: &str,
        text: &str,
        settings: &Settings,
        known: Option<&KnownMaterials<'_>>,
        errors: &mut Vec<WorkshopFileError>,
    ) -> Self {
        let text = CheckedFile::read(file, text, &LAYOUT, settings.file_reading(), errors);
        let Some(text) = text else { return Self::default() };
        let mut used = UsedNames::default();
        let rows = fields::read_rows(&text, errors, |fields| {
            let name = fields.own_name(STOCK, "a mark such as B4-2", &mut used);
            read_piece(fields, name, known)
        });
        Self { list: rows.into_iter().map(|(_, piece)| piece).collect() }
    }

    /// Writes stock.csv.
    pub fn write(&self, settings: &Settings, out: impl io::Write) -> io::Result<()> {
        let mut out = CsvOut::begin(settings, out, LAYOUT.names())?;
        for piece in &self.list {
            out.row([
                written::guarded(&piece.name),
                written::guarded(&piece.material),
                written::words(piece.lot.as_ref()),
                piece.count.to_string(),
                out.measure(piece.along),
                out.measure(piece.across),
                written::yes(piece.washed),
                out.measure(piece.price),
                written::words(piece.place.as_ref()),
                written::words(piece.held_for.as_ref()),
            ])?;
        }
        out.end()
    }
}

/// The materials that stock and trials may name.
pub(super) struct KnownMaterials<'m> {
    pub(super) materials: &'m Materials,
    /// Every name in materials.csv, also of rows with errors.
    pub(super) names: &'m [String],
}

impl<'m> KnownMaterials<'m> {
    /// The material with this name; adds an error if there is none.
    pub(super) fn check(&self, fields: &mut Fields<'_>, column: &str, name: &str) -> Option<&'m Material> {
        let key = names::key(name);
        if !self.names.iter().any(|known| names::key(known) == key) {
            let nearest = names::nearest(name, self.names.iter().map(String::as_str)).map(str::to_owned);
            fields.error(column, WorkshopFileErrorKind::NoSuchMaterial { written: name.to_owned(), nearest });
        }
        self.materials.find(name)
    }
}

const STOCK: &str = "stock";
const MATERIAL: &str = "material";
const LOT: &str = "lot";
const COUNT: &str = "count";
const ALONG: &str = "along";
const ACROSS: &str = "across";
const WASHED: &str = "washed";
const PRICE: &str = "price";
const PLACE: &str = "place";
const HELD_FOR: &str = "held for";

const LENGTH: &[Dimension] = &[Dimension::LENGTH];

const LAYOUT: Layout = Layout {
    columns: &[
        Column::words(STOCK).needed(),
        Column::words(MATERIAL).needed(),
        Column::words(LOT),
        Column::count(COUNT),
        Column::measure(ALONG, LENGTH).needed(),
        Column::measure(ACROSS, LENGTH),
        Column::words(WASHED),
        Column::measure(PRICE, &[Dimension::MONEY]),
        Column::words(PLACE),
        Column::words(HELD_FOR),
    ],
    others: None,
};

fn read_piece(fields: &mut Fields<'_>, name: Option<String>, known: Option<&KnownMaterials<'_>>) -> Option<StockPiece> {
    let material = fields.needed_words(MATERIAL, "a material of materials.csv");
    let counted_out = match (&material, known) {
        (Some(name), Some(known)) => known.check(fields, MATERIAL, name).map(|found| found.sold_by == SoldBy::Each),
        _ => None,
    };
    let lot = fields.words(LOT);
    let count = fields.count(COUNT, Least::Zero).unwrap_or(1);
    let along = fields.measure::<Length>(ALONG, Least::AboveZero);
    if fields.raw(ALONG).is_empty() && counted_out == Some(false) {
        let example = fields.example(ALONG);
        let because = format!("“{}” is measured by the length", material.as_deref().unwrap_or_default());
        fields.error(ALONG, WorkshopFileErrorKind::Needed { because, example });
    }
    Some(StockPiece {
        along,
        across: fields.measure(ACROSS, Least::AboveZero),
        washed: fields.yes(WASHED),
        price: fields.measure(PRICE, Least::Zero),
        place: fields.words(PLACE),
        held_for: fields.words(HELD_FOR),
        name: name?,
        material: material?,
        lot,
        count,
    })
}
