//! The file trials.csv: one row for each test strip; rows of one name and pass belong together.
//!
//! Never here: what follows from the strips.

use super::checked_file::CheckedFile;
use super::fields::{self, Fields, Least};
use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::{Column, Layout};
use super::names;
use super::settings::Settings;
use super::stock::KnownMaterials;
use super::trials::{self, Pass, TestStrip, Trial, Trials};
use super::written::{self, CsvOut};
use crate::quantity::{Dimension, Length, Style};
use std::collections::BTreeMap;
use std::io;

/// How far a measured flat length may be from the sum of its pieces, as a share of it. More is a forgotten overlap or a
/// miscounted piece; less is how cloth lies.
const FLAT_TOLERANCE: f64 = 0.01;

const TRIAL: &str = "trial";
const DATE: &str = "date";
const MACHINE: &str = "machine";
const FOOT: &str = "foot";
const SETTING: &str = "setting";
const STITCH: &str = "stitch";
const MATERIAL: &str = "material";
const LOT: &str = "lot";
const PASS: &str = "pass";
const PIECE: &str = "piece";
const OVERLAP: &str = "overlap";
const PIECES: &str = "pieces";
const FLAT: &str = "flat";
const GATHERED: &str = "gathered";

const LENGTH: &[Dimension] = &[Dimension::LENGTH];

const LAYOUT: Layout = Layout {
    columns: &[
        Column::words(TRIAL).needed(),
        Column::words(DATE),
        Column::words(MACHINE),
        Column::words(FOOT),
        Column::words(SETTING),
        Column::measure(STITCH, LENGTH),
        Column::words(MATERIAL).needed(),
        Column::words(LOT),
        Column::count(PASS),
        Column::measure(PIECE, LENGTH),
        Column::measure(OVERLAP, LENGTH),
        Column::count(PIECES),
        Column::measure(FLAT, LENGTH),
        Column::measure(GATHERED, LENGTH).needed(),
    ],
    others: None,
};

/// A row as read.
struct Row {
    trial: String,
    material: String,
    lot: Option<String>,
    number: usize,
    pass: Pass,
}

/// The meaning of a field in the first row of a trial or a pass.
enum FieldValue {
    Words(String),
    Length(Length),
}

/// What must be equal in the rows of one trial, or of one pass of it: by name, pass (0 for all) and column, the first
/// line with a value, its text and its meaning.
type FirstValues = BTreeMap<(String, usize, &'static str), (u64, String, FieldValue)>;

impl Trials {
    /// Reads trials.csv, or returns all errors of the text. That the materials exist is checked by
    /// [`Workshop::read`](super::Workshop::read), which sees both files.
    pub fn read(file: &str, text: &str, settings: &Settings) -> Result<Self, Vec<WorkshopFileError>> {
        let mut errors = Vec::new();
        let trials = Self::gather(file, text, settings, None, &mut errors);
        if errors.is_empty() { Ok(trials) } else { Err(errors) }
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
        let style = settings.style();
        let before = errors.len();
        let mut first_values = FirstValues::new();
        let rows = fields::read_rows(&text, errors, |fields| read_row(fields, known, &style, &mut first_values));
        let trials = grouped(rows);
        if errors.len() == before {
            errors.extend(trials.iter().filter_map(|(line, passes)| passes.gap(*line, &text)));
        }
        Self { list: trials.into_iter().map(|(_, numbered)| numbered.trial()).collect() }
    }

    /// Writes trials.csv.
    pub fn write(&self, settings: &Settings, out: impl io::Write) -> io::Result<()> {
        let mut out = CsvOut::begin(settings, out, LAYOUT.names())?;
        for trial in &self.list {
            for (pass, number) in trial.passes.iter().zip(1usize..) {
                for strip in &pass.strips {
                    out.row([
                        written::guarded(&trial.name),
                        written::words(strip.date.as_ref()),
                        written::words(pass.machine.as_ref()),
                        written::words(pass.foot.as_ref()),
                        written::words(pass.setting.as_ref()),
                        out.measure(pass.stitch),
                        written::guarded(&trial.material),
                        written::words(trial.lot.as_ref()),
                        number.to_string(),
                        out.measure(strip.piece),
                        out.measure(strip.overlap),
                        strip.pieces.map(|pieces| pieces.to_string()).unwrap_or_default(),
                        out.measure(Some(strip.flat)),
                        out.measure(Some(strip.gathered)),
                    ])?;
                }
            }
        }
        out.end()
    }
}

fn read_row(
    fields: &mut Fields<'_>,
    known: Option<&KnownMaterials<'_>>,
    style: &Style,
    first_values: &mut FirstValues,
) -> Option<Row> {
    let trial = fields.needed_words(TRIAL, "a name such as ivory tulle twice");
    let material = fields.needed_words(MATERIAL, "a material of materials.csv");
    if let (Some(name), Some(known)) = (&material, known) {
        known.check(fields, MATERIAL, name);
    }
    let number = fields.count(PASS, Least::AboveZero).unwrap_or(1);
    let row = Row {
        trial: trial?,
        material: material?,
        lot: fields.words(LOT),
        number,
        pass: Pass {
            machine: fields.words(MACHINE),
            foot: fields.words(FOOT),
            setting: fields.words(SETTING),
            stitch: fields.measure(STITCH, Least::AboveZero),
            strips: Vec::new(),
        },
    };
    let strip = read_strip(fields, style)?;
    check_rows_agree(fields, &row, &strip, first_values);
    let pass = Pass { strips: vec![strip], ..row.pass };
    Some(Row { pass, ..row })
}

fn read_strip(fields: &mut Fields<'_>, style: &Style) -> Option<TestStrip> {
    let date = fields.words(DATE);
    let piece = fields.measure::<Length>(PIECE, Least::AboveZero);
    let overlap = fields.measure::<Length>(OVERLAP, Least::Zero);
    let pieces = fields.count(PIECES, Least::AboveZero);
    let stated = fields.measure::<Length>(FLAT, Least::AboveZero);
    let gathered = fields.measure::<Length>(GATHERED, Least::AboveZero);
    if fields.raw(GATHERED).is_empty() {
        let example = fields.example(GATHERED);
        fields.error(GATHERED, WorkshopFileErrorKind::Blank { example });
    }
    if let (Some(piece), Some(overlap)) = (piece, overlap)
        && overlap >= piece
    {
        let written = fields.raw(OVERLAP).to_owned();
        fields.error(OVERLAP, WorkshopFileErrorKind::TooMuch { written, limit: "less than the piece" });
    }
    let computed = piece.zip(pieces).map(|(piece, pieces)| {
        let overlap = overlap.unwrap_or(Length::ZERO);
        (trials::laid_flat(pieces, piece, overlap), Pieces { pieces, piece, overlap })
    });
    let flat = match (stated, computed) {
        (Some(stated), Some((computed, sum))) => {
            if fields.is_sound() && ((stated - computed) / stated).abs() > FLAT_TOLERANCE {
                let written = fields.raw(FLAT).to_owned();
                fields
                    .error(FLAT, WorkshopFileErrorKind::FlatDisagrees { written, sum: sum.sentence(computed, style) });
            }
            Some(stated)
        }
        (Some(stated), None) => Some(stated),
        (None, Some((computed, _))) => Some(computed),
        (None, None) => None,
    };
    if flat.is_none() && fields.is_sound() {
        let because = "piece and pieces do not tell it".to_owned();
        let example = fields.example(FLAT);
        fields.error(FLAT, WorkshopFileErrorKind::Needed { because, example });
    }
    if let (Some(flat), Some(gathered)) = (flat, gathered)
        && gathered > flat
        && fields.is_sound()
    {
        let written = fields.raw(GATHERED).to_owned();
        fields.error(GATHERED, WorkshopFileErrorKind::TooMuch { written, limit: "no longer than the strip was flat" });
    }
    Some(TestStrip { date, piece, overlap, pieces, flat: flat?, gathered: gathered? })
}

/// The pieces of a strip, for a message.
struct Pieces {
    pieces: usize,
    piece: Length,
    overlap: Length,
}

impl Pieces {
    fn sentence(&self, flat: Length, style: &Style) -> String {
        let (piece, overlap, flat) =
            (style.show(self.piece.into()), style.show(self.overlap.into()), style.show(flat.into()));
        let (one, count) = (if self.pieces == 1 { "piece" } else { "pieces" }, self.pieces);
        match count.saturating_sub(1) {
            gaps if gaps > 0 && self.overlap.is_positive() => {
                let word = if gaps == 1 { "overlap" } else { "overlaps" };
                format!("{count} {one} of {piece} less {gaps} {word} of {overlap} lie {flat} flat")
            }
            _ => format!("{count} {one} of {piece} without overlap lie {flat} flat"),
        }
    }
}

/// Checks that rows of one name agree: a word that differs is another trial, or a mistake.
fn check_rows_agree(fields: &mut Fields<'_>, row: &Row, strip: &TestStrip, first_values: &mut FirstValues) {
    let words = |words: &Option<String>| words.as_deref().map(|words| FieldValue::Words(names::key(words)));
    let length = |length: Option<Length>| length.map(FieldValue::Length);
    let values = [
        (0, MATERIAL, Some(FieldValue::Words(names::key(&row.material)))),
        (0, LOT, words(&row.lot)),
        (row.number, MACHINE, words(&row.pass.machine)),
        (row.number, FOOT, words(&row.pass.foot)),
        (row.number, SETTING, words(&row.pass.setting)),
        (row.number, STITCH, length(row.pass.stitch)),
        (row.number, PIECE, length(strip.piece)),
        (row.number, OVERLAP, length(strip.overlap)),
    ];
    for (pass, column, value) in values {
        let Some(value) = value.filter(|_| !fields.has_error(column)) else { continue };
        let written = fields.raw(column).to_owned();
        let entry = (names::key(&row.trial), pass, column);
        match first_values.get(&entry) {
            None => {
                first_values.insert(entry, (fields.line(), written, value));
            }
            Some((_, _, first)) if *first == value => {}
            Some((first_line, first, _)) => {
                let kind = WorkshopFileErrorKind::Differs { written, first: first.clone(), first_line: *first_line };
                fields.error(column, kind);
            }
        }
    }
}

impl PartialEq for FieldValue {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Words(left), Self::Words(right)) => left == right,
            (Self::Length(left), Self::Length(right)) => left == right,
            _ => false,
        }
    }
}

/// A trial whose passes still have their numbers, perhaps with gaps.
struct Numbered {
    name: String,
    material: String,
    lot: Option<String>,
    passes: BTreeMap<usize, Pass>,
}

impl Numbered {
    /// The error of a missing pass, if there is one.
    fn gap(&self, line: u64, text: &CheckedFile) -> Option<WorkshopFileError> {
        let missing = (1..).zip(self.passes.keys()).find(|(wanted, pass)| wanted != *pass)?.0;
        let kind = WorkshopFileErrorKind::NoEarlierPass { trial: self.name.clone(), missing };
        Some(text.error(line, Some(PASS), kind))
    }

    fn trial(self) -> Trial {
        let passes = self.passes.into_values().collect();
        Trial { name: self.name, material: self.material, lot: self.lot, passes }
    }
}

/// Groups the rows by trial, in the order in which the trials begin, with the line of each first row.
fn grouped(rows: Vec<(u64, Row)>) -> Vec<(u64, Numbered)> {
    let mut trials: Vec<(u64, Numbered)> = Vec::new();
    for (line, row) in rows {
        let key = names::key(&row.trial);
        let Some((_, trial)) = trials.iter_mut().find(|(_, trial)| names::key(&trial.name) == key) else {
            let passes = BTreeMap::from([(row.number, row.pass)]);
            trials.push((line, Numbered { name: row.trial, material: row.material, lot: row.lot, passes }));
            continue;
        };
        trial.lot = trial.lot.take().or(row.lot);
        match trial.passes.get_mut(&row.number) {
            None => {
                trial.passes.insert(row.number, row.pass);
            }
            Some(pass) => {
                pass.machine = pass.machine.take().or(row.pass.machine);
                pass.foot = pass.foot.take().or(row.pass.foot);
                pass.setting = pass.setting.take().or(row.pass.setting);
                pass.stitch = pass.stitch.or(row.pass.stitch);
                pass.strips.extend(row.pass.strips);
            }
        }
    }
    trials
}
