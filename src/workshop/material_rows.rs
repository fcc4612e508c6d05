//! The file materials.csv: one row for each material.
//!
//! Never here: what a material costs, which is [`price`](super::price).

use super::checked_file::CheckedFile;
use super::fields::{self, Fields, Least, Most, UsedNames};
use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::{Column, Layout};
use super::materials::{Material, Materials, PriceFor, SoldBy};
use super::names;
use super::settings::Settings;
use super::washing::Washing;
use super::written::{self, CsvOut};
use crate::piece::{MaterialKind, Repeat};
use crate::quantity::{Dimension, Length, Money, Quantity, Tape, Unit, number};
use std::io;

impl Materials {
    /// Reads materials.csv, or returns all errors of the text.
    pub fn read(file: &str, text: &str, settings: &Settings) -> Result<Self, Vec<WorkshopFileError>> {
        let mut errors = Vec::new();
        let read = Self::gather(file, text, settings, &mut errors);
        if errors.is_empty() { Ok(read.materials) } else { Err(errors) }
    }

    /// Reads the rows without errors, and the names of all rows.
    pub(super) fn gather(file: &str, text: &str, settings: &Settings, errors: &mut Vec<WorkshopFileError>) -> Gathered {
        let Some(text) = CheckedFile::read(file, text, &LAYOUT, settings.file_reading(), errors) else {
            return Gathered { materials: Self::default(), names: None };
        };
        let mut used = UsedNames::default();
        let mut names = Vec::new();
        let rows = fields::read_rows(&text, errors, |fields| {
            let name = fields.own_name(MATERIAL, "a name such as ivory tulle", &mut used);
            names.extend(name.clone());
            read_material(fields, name, settings.tape)
        });
        let materials = Self { list: rows.into_iter().map(|(_, material)| material).collect() };
        Gathered { materials, names: Some(names) }
    }

    /// Writes materials.csv.
    pub fn write(&self, settings: &Settings, out: impl io::Write) -> io::Result<()> {
        let mut out = CsvOut::begin(settings, out, LAYOUT.names())?;
        for material in &self.list {
            let row = [
                written::guarded(&material.name),
                material.kind.word().to_owned(),
                out.measure(material.usable_width),
                out.measure(material.put_up),
                out.measure(material.price),
                match material.price_for {
                    PriceFor::Length(length) => out.length_or_unit(length),
                    PriceFor::Each => EACH.to_owned(),
                    PriceFor::PutUp => PUT_UP.to_owned(),
                },
                match material.sold_by {
                    SoldBy::Step(step) => out.length_or_unit(step),
                    SoldBy::Each => EACH.to_owned(),
                    SoldBy::PutUp => PUT_UP.to_owned(),
                },
                out.measure(material.repeat.map(|repeat| repeat.along)),
                match material.repeat {
                    Some(repeat) if !repeat.is_straight() && !repeat.is_half_drop() => out.measure(Some(repeat.shift)),
                    repeat => written::yes(repeat.is_some_and(|repeat| repeat.is_half_drop())),
                },
                written::yes(material.nap),
                out.share(material.shrink_along),
                out.share(material.shrink_across),
                material.washing.map(|washing| washing.words().to_owned()).unwrap_or_default(),
                out.measure(material.weight),
                written::words(material.fibre.as_ref()),
                out.measure(material.repeat_across),
            ];
            out.row(row)?;
        }
        out.end()
    }
}

/// The materials that could be read.
pub(super) struct Gathered {
    pub(super) materials: Materials,
    /// The names of all rows, also of those with errors; `None` if no row could be read.
    pub(super) names: Option<Vec<String>>,
}

const MATERIAL: &str = "material";
const KIND: &str = "kind";
const USABLE_WIDTH: &str = "usable width";
const PUT_UP: &str = "put-up";
const PRICE: &str = "price";
const PRICE_FOR: &str = "price for";
const SOLD_BY: &str = "sold by";
const REPEAT: &str = "repeat";
const HALF_DROP: &str = "half drop";
const NAP: &str = "nap";
const SHRINK_ALONG: &str = "shrink along";
const SHRINK_ACROSS: &str = "shrink across";
const WASHING: &str = "washing";
pub(super) const WEIGHT: &str = "weight";
const FIBRE: &str = "fibre";
const REPEAT_ACROSS: &str = "repeat across";
const EACH: &str = "each";

const LENGTH: &[Dimension] = &[Dimension::LENGTH];
const SHARE: &[Dimension] = &[Dimension::NUMBER];
const PRICES: &[Dimension] = &[Dimension::MONEY, Dimension::MONEY_BY_LENGTH];
const WEIGHTS: &[Dimension] = &[Dimension::MASS_BY_AREA, Dimension::MASS_BY_LENGTH];

const LAYOUT: Layout = Layout {
    columns: &[
        Column::words(MATERIAL).needed(),
        Column::words(KIND).needed(),
        Column::measure(USABLE_WIDTH, LENGTH),
        Column::measure(PUT_UP, LENGTH),
        Column::measure(PRICE, PRICES),
        Column::words(PRICE_FOR),
        Column::words(SOLD_BY),
        Column::measure(REPEAT, LENGTH),
        Column::words(HALF_DROP),
        Column::words(NAP),
        Column::measure(SHRINK_ALONG, SHARE),
        Column::measure(SHRINK_ACROSS, SHARE),
        Column::words(WASHING),
        Column::measure(WEIGHT, WEIGHTS),
        Column::words(FIBRE),
        Column::measure(REPEAT_ACROSS, LENGTH),
    ],
    others: None,
};

fn read_material(fields: &mut Fields<'_>, name: Option<String>, tape: Tape) -> Option<Material> {
    if fields.raw(KIND).is_empty() {
        fields.error(KIND, WorkshopFileErrorKind::Blank { example: MaterialKind::words() });
    }
    let kind = fields.choice(KIND, &MaterialKind::WORDS);
    let usable_width = fields.measure(USABLE_WIDTH, Least::AboveZero);
    if kind.is_some_and(MaterialKind::is_cut) && fields.raw(USABLE_WIDTH).is_empty() {
        let because = format!("a {} is cut across its width", fields.raw(KIND).to_lowercase());
        let example = literal_example(fields, "54", "in");
        fields.error(USABLE_WIDTH, WorkshopFileErrorKind::Needed { because, example });
    }
    let put_up = fields.measure(PUT_UP, Least::AboveZero);
    let (price, by_length) = read_price(fields);
    let price_for = if fields.raw(PRICE_FOR).is_empty() && fields.raw(PRICE).is_empty() {
        Some(usual_price_for(kind, put_up, tape))
    } else {
        read_price_for(fields, by_length)
    };
    let sold_by = read_sold_by(fields, price_for);
    let repeat = read_repeat(fields);
    let repeat_across = fields.measure(REPEAT_ACROSS, Least::AboveZero);
    let nap = fields.yes(NAP);
    let shrink_along = fields.share(SHRINK_ALONG, Most::BelowWhole);
    let shrink_across = fields.share(SHRINK_ACROSS, Most::BelowWhole);
    let washing = fields.choice(WASHING, &Washing::WORDS);
    let weighed_by = kind.map_or(WEIGHTS, MaterialKind::weighed_by);
    let weight = fields.figure(WEIGHT, weighed_by, Least::AboveZero);
    let fibre = fields.words(FIBRE);
    Some(Material {
        name: name?,
        kind: kind?,
        usable_width,
        put_up,
        price,
        price_for: price_for?,
        sold_by: sold_by?,
        repeat,
        repeat_across,
        nap,
        shrink_along,
        shrink_across,
        washing,
        weight,
        fibre,
    })
}

/// The repeat along the cloth. Under `half drop` stands `yes`, `no`, or how much later the pattern starts on the next
/// width.
fn read_repeat(fields: &mut Fields<'_>) -> Option<Repeat> {
    let along: Option<Length> = fields.measure(REPEAT, Least::AboveZero);
    let shift = fields.length_or_unit(fields.raw(HALF_DROP)).filter(|_| !fields.raw(HALF_DROP).is_empty());
    let half_drop = shift.is_none() && read_half_drop(fields);
    if (half_drop || shift.is_some()) && fields.raw(REPEAT).is_empty() {
        let example = literal_example(fields, "64", "cm");
        let because =
            if half_drop { "the pattern has a half drop" } else { "the pattern starts later on the next width" };
        let because = because.to_owned();
        fields.error(REPEAT, WorkshopFileErrorKind::Needed { because, example });
    }
    let along = along?;
    Some(match shift {
        Some(shift) => Repeat::shifted(along, shift),
        None if half_drop => Repeat::half_drop(along),
        None => Repeat::straight(along),
    })
}

/// Reads `yes` or `no`; blank is no.
fn read_half_drop(fields: &mut Fields<'_>) -> bool {
    let written = fields.raw(HALF_DROP).to_owned();
    match names::word_key(&written).as_str() {
        "" | "no" => false,
        "yes" => true,
        _ => {
            let nearest = names::nearest(&written, ["yes", "no"]).map(str::to_owned);
            let allowed = vec!["yes", "no", "how much later the pattern starts on the next width, such as 21 cm"];
            fields.error(HALF_DROP, WorkshopFileErrorKind::UnknownWord { written, allowed, nearest });
            false
        }
    }
}

fn literal_example(fields: &Fields<'_>, number: &str, unit: &str) -> String {
    format!("a figure such as {}", crate::table::csv_file::with_unit(number, unit, fields.reading()))
}

/// The price, and its length if it is written by length, as in `$4.50/yd`.
fn read_price(fields: &mut Fields<'_>) -> (Option<Money>, Option<Length>) {
    let Some(price) = fields.figure(PRICE, PRICES, Least::Zero) else { return (None, None) };
    if price.dimension() == Dimension::MONEY {
        return (Money::try_from(price).ok(), None);
    }
    let unit = price.liked().length.unwrap_or(Unit::Yard);
    let length = Quantity::of(1.0, unit);
    // This undoes the division of the reading; snapping removes the float noise.
    let steps = number::snapped(price.steps() * length.steps());
    (Some(Money::from_steps(steps)), Length::try_from(length).ok())
}

/// The default if there is no price yet.
fn usual_price_for(kind: Option<MaterialKind>, put_up: Option<Length>, tape: Tape) -> PriceFor {
    let unit = if tape == Tape::Inch { Unit::Yard } else { Unit::Metre };
    match (put_up, kind, Length::try_from(Quantity::of(1.0, unit))) {
        (Some(_), _, _) => PriceFor::PutUp,
        (None, Some(kind), Ok(length)) if kind.is_cut() => PriceFor::Length(length),
        _ => PriceFor::Each,
    }
}

fn read_price_for(fields: &mut Fields<'_>, by_length: Option<Length>) -> Option<PriceFor> {
    let written = fields.raw(PRICE_FOR).to_owned();
    match (written.as_str(), by_length) {
        ("", Some(length)) => return Some(PriceFor::Length(length)),
        ("", None) => {
            let kind = WorkshopFileErrorKind::Needed {
                because: "there is a price".to_owned(),
                example: "what the price buys: yd, m, each or put-up".to_owned(),
            };
            fields.error(PRICE_FOR, kind);
            return None;
        }
        _ => {}
    }
    let wanted = read_measure_word(fields, PRICE_FOR, &written)?;
    if let Some(length) = by_length
        && wanted != MeasureWord::Length(length)
    {
        let because = "the price names its own length".to_owned();
        fields.error(PRICE_FOR, WorkshopFileErrorKind::NotNeeded { written, because });
        return None;
    }
    if wanted == MeasureWord::PutUp && fields.raw(PUT_UP).is_empty() {
        needs_put_up(fields, "the price is for a put-up");
    }
    Some(match wanted {
        MeasureWord::Length(length) => PriceFor::Length(length),
        MeasureWord::Each => PriceFor::Each,
        MeasureWord::PutUp => PriceFor::PutUp,
    })
}

/// A blank field means the same as for the price: what is priced by the yard can be bought by the yard.
fn read_sold_by(fields: &mut Fields<'_>, price_for: Option<PriceFor>) -> Option<SoldBy> {
    let written = fields.raw(SOLD_BY).to_owned();
    if written.is_empty() {
        return price_for.map(|price_for| match price_for {
            PriceFor::Length(length) => SoldBy::Step(length),
            PriceFor::Each => SoldBy::Each,
            PriceFor::PutUp => SoldBy::PutUp,
        });
    }
    let sold_by = match read_measure_word(fields, SOLD_BY, &written)? {
        MeasureWord::Length(step) => SoldBy::Step(step),
        MeasureWord::Each => SoldBy::Each,
        MeasureWord::PutUp => SoldBy::PutUp,
    };
    if sold_by == SoldBy::PutUp && fields.raw(PUT_UP).is_empty() && price_for != Some(PriceFor::PutUp) {
        needs_put_up(fields, "it is sold by the put-up");
    }
    let each = (price_for == Some(PriceFor::Each), sold_by == SoldBy::Each);
    if price_for.is_some() && each.0 != each.1 {
        let because = if each.0 { "the price is for each" } else { "the price is not for each" };
        fields.error(SOLD_BY, WorkshopFileErrorKind::NotNeeded { written, because: because.to_owned() });
        return None;
    }
    Some(sold_by)
}

fn needs_put_up(fields: &mut Fields<'_>, because: &str) {
    let example = literal_example(fields, "25", "yd");
    fields.error(PUT_UP, WorkshopFileErrorKind::Needed { because: because.to_owned(), example });
}

#[derive(Clone, Copy, PartialEq)]
enum MeasureWord {
    Length(Length),
    Each,
    PutUp,
}

/// Reads `each`, `put-up`, a length such as `1/8 yd`, or a unit of length alone.
fn read_measure_word(fields: &mut Fields<'_>, column: &str, written: &str) -> Option<MeasureWord> {
    match names::word_key(written).as_str() {
        "each" => return Some(MeasureWord::Each),
        "put up" => return Some(MeasureWord::PutUp),
        _ => {}
    }
    if let Some(length) = fields.length_or_unit(written) {
        return Some(MeasureWord::Length(length));
    }
    let nearest = names::nearest(written, [EACH, PUT_UP]).map(str::to_owned);
    let allowed = vec!["each", PUT_UP, "a length such as yd, 1/8 yd or m"];
    fields.error(column, WorkshopFileErrorKind::UnknownWord { written: written.to_owned(), allowed, nearest });
    None
}
