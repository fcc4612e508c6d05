//! Writes workshop data as CSV text that reads back as the same data.
//!
//! A quantity is written as a person would write it if that is exact, otherwise to the last digit. Words that a
//! spreadsheet would take for a formula are made harmless; figures never need it. Never here: files.

use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{Dimension, Length, Liked, Quantity, Reading, Style, Unit, unit_text};
use crate::table::Dialect;
use crate::table::csv_file::{self, with_unit};
use std::io;

/// Writes rows as CSV text.
pub(super) struct CsvOut<W: io::Write> {
    writer: csv::Writer<W>,
    style: Style,
    reading: Reading,
}

impl<W: io::Write> CsvOut<W> {
    /// Begins a text with its headings.
    pub(super) fn begin_as<'h>(
        (dialect, style, reading): (Dialect, Style, Reading),
        out: W,
        headings: impl IntoIterator<Item = &'h str>,
    ) -> io::Result<Self> {
        let mut out = Self { writer: dialect.writer(out)?, style, reading };
        out.row(headings.into_iter().map(guarded))?;
        Ok(out)
    }

    /// Writes one row.
    pub(super) fn row(&mut self, fields: impl IntoIterator<Item = String>) -> io::Result<()> {
        self.writer.write_record(fields).map_err(io::Error::from)
    }

    /// A quantity as a field; blank if there is none.
    pub(super) fn measure(&self, quantity: Option<impl Into<Quantity>>) -> String {
        quantity.map(|quantity| measure(quantity.into(), &self.style, self.reading)).unwrap_or_default()
    }

    /// A length as a field; one unit of length by the unit alone: `yd`, `1/8 yd`.
    pub(super) fn length_or_unit(&self, length: Length) -> String {
        let text = self.measure(Some(length));
        text.strip_prefix("1 ").filter(|unit| Unit::named(unit).is_some()).map(str::to_owned).unwrap_or(text)
    }

    /// A share as a field, in per cent.
    pub(super) fn share(&self, share: Option<f64>) -> String {
        self.measure(share.map(|share| Quantity::number(share).liking(Liked::unit(Unit::Percent))))
    }

    /// Finishes the text.
    pub(super) fn end(mut self) -> io::Result<()> {
        self.writer.flush()
    }
}

/// Words as a field that no spreadsheet takes for a formula.
pub(super) fn guarded(words: &str) -> String {
    csv_file::guarded(words).into_owned()
}

/// Words as a field; blank if there are none.
pub(super) fn words(words: Option<&String>) -> String {
    words.map(|words| guarded(words)).unwrap_or_default()
}

/// "yes" or "no".
pub(super) fn yes(yes: bool) -> String {
    if yes { "yes".to_owned() } else { "no".to_owned() }
}

/// The unit to suggest for a quantity of the first of these dimensions.
pub(super) fn usual_unit(dimensions: &[Dimension], reading: Reading) -> String {
    let currency = reading.currency;
    match dimensions.first().copied().unwrap_or(Dimension::NUMBER) {
        Dimension::NUMBER => "%".to_owned(),
        Dimension::MONEY => currency.to_string(),
        Dimension::MONEY_BY_LENGTH => format!("{currency}/yd"),
        Dimension::MONEY_BY_TIME => format!("{currency}/h"),
        Dimension::TIME => "min".to_owned(),
        Dimension::MASS_BY_AREA => "g/m^2".to_owned(),
        Dimension::MASS_BY_LENGTH => "tex".to_owned(),
        _ => "in".to_owned(),
    }
}

/// A quantity as exact text: as a person writes it, else as a decimal, else as a fraction; in its preferred unit, else
/// in the smallest of its kind. If none is exact, the nearest.
pub(super) fn measure(quantity: Quantity, style: &Style, reading: Reading) -> String {
    let exact = |text: &String| {
        let read = literal::read_quantity(text, reading);
        let Ok(LiteralValue::Quantity(read)) = read else { return false };
        read.dimension() == quantity.dimension() && read.steps().to_bits() == quantity.steps().to_bits()
    };
    let shown = style.show(quantity);
    if exact(&shown) {
        return shown;
    }
    let liked = quantity.liked();
    let own = unit_text(quantity.dimension(), liked, style.tape.unit(), reading.currency);
    let small = Liked {
        length: Some(Unit::Millimetre),
        mass: Some(Unit::Milligram),
        time: Some(Unit::Second),
        named: None,
        ..Liked::default()
    };
    let smallest = unit_text(quantity.dimension(), small, Unit::Millimetre, reading.currency);
    let all = || candidates(quantity, &own, reading).chain(candidates(quantity, &smallest, reading));
    let off = |text: &String| match literal::read_quantity(text, reading) {
        Ok(LiteralValue::Quantity(read)) => (read.steps() - quantity.steps()).abs(),
        _ => f64::INFINITY,
    };
    let nearest = || all().min_by(|left, right| off(left).total_cmp(&off(right)));
    all().find(exact).or_else(nearest).unwrap_or(shown)
}

/// Ways to write a quantity in a unit, the shortest first.
fn candidates(quantity: Quantity, unit: &str, reading: Reading) -> impl Iterator<Item = String> {
    let count = match literal::read_unit(unit, reading) {
        Ok(unit) => unit.count_in(quantity),
        Err(_) => quantity.steps(),
    };
    let mark = move |text: String| if reading.decimal_comma { text.replace('.', ",") } else { text };
    let decimals = (0..=14usize).map(move |decimals| mark(format!("{count:.decimals$}")));
    let fractions = (3..=64i32).map(move |below| {
        let above = (count * f64::from(below)).round();
        format!("{above}/{below}")
    });
    decimals.chain(fractions).map(move |number| with_unit(&number, unit, reading))
}

/// An example of a field: `6 in`, `$4.50`, `3 %`.
pub(super) fn example(dimensions: &[Dimension], reading: Reading) -> String {
    let number = match dimensions.first().copied().unwrap_or(Dimension::NUMBER) {
        Dimension::NUMBER => "3",
        Dimension::MONEY | Dimension::MONEY_BY_LENGTH if reading.decimal_comma => "4,50",
        Dimension::MONEY | Dimension::MONEY_BY_LENGTH => "4.50",
        Dimension::TIME => "12",
        Dimension::MONEY_BY_TIME => "20",
        Dimension::MASS_BY_AREA => "90",
        Dimension::MASS_BY_LENGTH => "27",
        _ => "6",
    };
    with_unit(number, &usual_unit(dimensions, reading), reading)
}
