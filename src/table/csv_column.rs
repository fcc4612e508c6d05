//! What one column of a CSV text holds, decided from its fields.
//!
//! The rule. A field is a *figure* when it reads as a number or a quantity; it *begins like one* when it
//! begins with a digit or a currency sign. Blanks do not count.
//!
//! - A unit in the heading, `width (in)`, makes it a column of that measure; `(text)` makes it a text.
//! - Otherwise it holds figures when more than half of the fields are figures, or half of them are and the
//!   rest begin like one. Then every field must be one, all with units of one dimension or all without.
//! - Fields that are all yes or no are flags. All else is text: `6 in tulle`, `B4-2`, `=2+3`.
//!
//! So a column of names is never taken for measures, and a slip among measures never makes them names.

use super::cell::Cell;
use super::column::{ColumnKind, ColumnUnit};
use super::csv_fault::CsvFaultKind;
use super::csv_rows::{has_other_mark, unguarded, with_unit};
use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{Dimension, Quantity, Reading, Unit, UnitExpression, number};

/// What a heading says about its column.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Said {
    /// Nothing; the fields decide.
    Nothing,
    /// It holds names.
    Text,
    /// It is measured in this unit, as written.
    Unit(String, UnitExpression),
}

/// A field and its line.
pub(super) type Field<'f> = (u64, &'f str);

/// The faults of one column, each with its line.
pub(super) type Faults = Vec<(u64, CsvFaultKind)>;

/// What a field is, taken by itself.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Reads {
    /// Nothing stands there.
    Blank,
    /// Words.
    Words,
    /// Yes or no.
    Flag(bool),
    /// A number without a unit.
    Bare(Quantity, Option<i64>),
    /// A number with a unit.
    Measured(Quantity),
    /// It begins like a figure, and is none.
    Broken(CsvFaultKind),
}

/// What a field is, taken by itself.
pub(super) fn reads(written: &str, reading: Reading) -> Reads {
    if written.is_empty() {
        return Reads::Blank;
    }
    match written.to_lowercase().as_str() {
        "yes" => return Reads::Flag(true),
        "no" => return Reads::Flag(false),
        _ => {}
    }
    if !begins_like_a_figure(written) {
        return Reads::Words;
    }
    let owned = || written.to_owned();
    if has_other_mark(written, reading.decimal_comma) {
        return Reads::Broken(CsvFaultKind::DecimalMark { written: owned(), comma: reading.decimal_comma });
    }
    let all_digits = written.chars().all(|c| c.is_ascii_digit());
    if all_digits && written.len() > 1 && written.starts_with('0') {
        return Reads::Broken(CsvFaultKind::ZeroBefore { written: owned() });
    }
    match literal::read_quantity(written, reading) {
        Ok(LiteralValue::Quantity(quantity)) if !quantity.steps().is_finite() => Reads::Words,
        Ok(LiteralValue::Quantity(bare)) if bare.dimension().is_number() && bare.liked().named.is_none() => {
            // A typed whole number is exact however long it is; 2.0 is a number and counts nothing.
            let whole = written.parse().ok().or_else(|| {
                let has_decimals = written.contains(['.', ',']);
                number::whole(bare.steps()).filter(|_| !has_decimals)
            });
            Reads::Bare(bare, whole)
        }
        Ok(LiteralValue::Quantity(quantity)) => Reads::Measured(quantity),
        Ok(LiteralValue::Spread { .. }) => Reads::Broken(CsvFaultKind::Spread { written: owned() }),
        Err(fault) => Reads::Broken(CsvFaultKind::NotRead { written: owned(), fault }),
    }
}

fn begins_like_a_figure(written: &str) -> bool {
    let unsigned = written.trim_start_matches(['-', '−']).trim_start();
    let amount = unsigned.trim_start_matches(literal::CURRENCIES).trim_start_matches(['.', ',']);
    amount.starts_with(char::is_numeric)
}

/// The kind of a column and its cells, from top to bottom.
pub(super) fn decide(
    heading: &str,
    said: &Said,
    fields: &[Field<'_>],
    reading: Reading,
) -> Result<(ColumnKind, Vec<Cell>), Faults> {
    let texts = || fields.iter().map(|(_, field)| text(field)).collect();
    if *said == Said::Text {
        return Ok((ColumnKind::Text, texts()));
    }
    let read: Vec<Reads> = fields.iter().map(|(_, field)| reads(field, reading)).collect();
    let count = |what: fn(&Reads) -> bool| read.iter().filter(|field| what(field)).count();
    let blank = count(|field| matches!(field, Reads::Blank));
    let filled = read.len() - blank;
    let figures = count(|field| matches!(field, Reads::Bare(..) | Reads::Measured(_)));
    let broken = count(|field| matches!(field, Reads::Broken(_)));
    let flags = count(|field| matches!(field, Reads::Flag(_)));
    if let Said::Unit(unit, expression) = said {
        let column = Figures { heading, fields, read: &read, reading };
        return column.in_unit(unit, *expression);
    }
    if filled > 0 && flags == filled {
        let cell = |field: &Reads| if let Reads::Flag(flag) = field { Cell::Flag(*flag) } else { Cell::Blank };
        return Ok((ColumnKind::Flag, read.iter().map(cell).collect()));
    }
    if 2 * figures > filled || filled > 0 && 2 * figures == filled && figures + broken == filled {
        return Figures { heading, fields, read: &read, reading }.as_they_are();
    }
    Ok((ColumnKind::Text, texts()))
}

/// A text as a cell.
pub(super) fn text(field: &str) -> Cell {
    if field.is_empty() { Cell::Blank } else { Cell::from(unguarded(field)) }
}

/// A number without a unit as a cell: of a count, of a number.
fn bare(value: Quantity, whole: Option<i64>) -> Cell {
    whole.map_or(Cell::Number(value.steps()), Cell::Count)
}

/// A column that must hold figures.
struct Figures<'c> {
    heading: &'c str,
    fields: &'c [Field<'c>],
    read: &'c [Reads],
    reading: Reading,
}

impl Figures<'_> {
    fn each(&self) -> impl Iterator<Item = (u64, &str, &Reads)> {
        self.fields.iter().zip(self.read).map(|((line, field), read)| (*line, *field, read))
    }

    /// What cannot be a figure.
    fn unread(&self) -> Faults {
        let figure = self.each().find(|(.., read)| matches!(read, Reads::Bare(..) | Reads::Measured(_)));
        let like = figure.map_or("12", |(_, field, _)| field);
        let faults = self.each().filter_map(|(line, field, read)| match read {
            Reads::Words | Reads::Flag(_) => {
                Some((line, CsvFaultKind::NotAFigure { written: field.to_owned(), like: like.to_owned() }))
            }
            Reads::Broken(kind) => Some((line, kind.clone())),
            Reads::Blank | Reads::Bare(..) | Reads::Measured(_) => None,
        });
        faults.collect()
    }

    /// Every figure in the unit of the heading, or with one of its own that measures the same.
    fn in_unit(&self, unit: &str, expression: UnitExpression) -> Result<(ColumnKind, Vec<Cell>), Faults> {
        let mut faults = self.unread();
        // Bare numbers count in the larger unit of `yd in`.
        let counted = unit.split_whitespace().next().unwrap_or_default();
        let mut cells = Vec::with_capacity(self.read.len());
        for (line, field, read) in self.each() {
            let quantity = match read {
                Reads::Bare(..) => {
                    match literal::read_quantity(&with_unit(field, counted, self.reading), self.reading) {
                        Ok(LiteralValue::Quantity(quantity)) => quantity,
                        Ok(LiteralValue::Spread { .. }) => continue,
                        Err(fault) => {
                            faults.push((line, CsvFaultKind::NotRead { written: field.to_owned(), fault }));
                            continue;
                        }
                    }
                }
                Reads::Measured(quantity) => *quantity,
                _ => {
                    cells.push(Cell::Blank);
                    continue;
                }
            };
            if quantity.dimension() == expression.dimension {
                cells.push(Cell::Quantity(quantity));
            } else {
                let (written, unit) = (field.to_owned(), unit.to_owned());
                let (given, needed) = (quantity.dimension(), expression.dimension);
                faults.push((line, CsvFaultKind::OtherThanHeading { written, given, unit, needed }));
            }
        }
        let kind = self.kind(unit, expression.dimension);
        match kind {
            Ok(kind) if faults.is_empty() => Ok((kind, cells)),
            Ok(_) => Err(faults),
            Err(fault) => Err(fault),
        }
    }

    /// All without a unit, or all with units of the first one's dimension.
    fn as_they_are(&self) -> Result<(ColumnKind, Vec<Cell>), Faults> {
        let mut faults = self.unread();
        let first = self.each().find_map(|(line, field, read)| match read {
            Reads::Measured(quantity) => Some((line, field, *quantity)),
            _ => None,
        });
        let Some((first_line, first_field, first)) = first else {
            if !faults.is_empty() {
                return Err(faults);
            }
            let all_whole = self.read.iter().all(|read| matches!(read, Reads::Blank | Reads::Bare(_, Some(_))));
            let kind = if all_whole { ColumnKind::Count } else { ColumnKind::Number };
            let cell = |read: &Reads| match read {
                Reads::Bare(value, whole) => bare(*value, whole.filter(|_| all_whole)),
                _ => Cell::Blank,
            };
            return Ok((kind, self.read.iter().map(cell).collect()));
        };
        let unit = unit_of(first, self.reading);
        for (line, field, read) in self.each() {
            let (written, other, other_line) = (field.to_owned(), first_field.to_owned(), first_line);
            match read {
                Reads::Measured(quantity) if quantity.dimension() != first.dimension() => {
                    let (given, needed) = (quantity.dimension(), first.dimension());
                    faults.push((line, CsvFaultKind::Unlike { written, given, other, other_line, needed }));
                }
                Reads::Bare(..) => {
                    let heading = format!("{} ({unit})", self.heading);
                    faults.push((line, CsvFaultKind::NoUnit { written, other, other_line, heading }));
                }
                _ => {}
            }
        }
        let kind = self.kind(&unit, first.dimension());
        if !faults.is_empty() {
            return Err(faults);
        }
        let system = |quantity: Quantity| quantity.liked().length.map(Unit::system);
        let two_tapes = self.read.iter().any(|read| match read {
            Reads::Measured(quantity) => system(*quantity) != system(first),
            _ => false,
        });
        let kind = match kind? {
            ColumnKind::Quantity(unit) if two_tapes => ColumnKind::Quantity(unit.as_written()),
            kind => kind,
        };
        let cell = |read: &Reads| match read {
            Reads::Measured(quantity) => Cell::Quantity(*quantity),
            _ => Cell::Blank,
        };
        Ok((kind, self.read.iter().map(cell).collect()))
    }

    fn kind(&self, unit: &str, dimension: Dimension) -> Result<ColumnKind, Faults> {
        if dimension == Dimension::MONEY {
            return Ok(ColumnKind::Money);
        }
        // A column's unit is written with `$` whatever the workshop's sign is.
        let unit = unit.replace(self.reading.currency, "$");
        let line = self.fields.first().map_or(1, |(line, _)| *line);
        let read = ColumnUnit::read(self.heading, &unit);
        read.map(ColumnKind::Quantity).map_err(|fault| vec![(line, CsvFaultKind::Table(fault))])
    }
}

/// The unit a quantity likes, as a heading writes it: `in`, `yd in`, `$/yd`.
fn unit_of(quantity: Quantity, reading: Reading) -> String {
    let liked = quantity.liked();
    let large = liked.length.or(liked.mass).or(liked.time).filter(|_| liked.compound);
    let compound = match large {
        Some(Unit::Yard) => "yd in",
        Some(Unit::Foot) => "ft in",
        Some(Unit::Metre) => "m cm",
        Some(Unit::Hour) => "h min",
        Some(Unit::Minute) => "min s",
        Some(Unit::Pound) => "lb oz",
        Some(Unit::Kilogram) => "kg g",
        _ => return crate::quantity::unit_text(quantity.dimension(), liked, Unit::Inch, reading.currency),
    };
    compound.to_owned()
}

/// The cells of a column of any values, whose units stand in a column of their own.
pub(super) fn mixed(values: &[Field<'_>], units: &[Field<'_>], reading: Reading) -> Result<Vec<Cell>, Faults> {
    let (mut cells, mut faults) = (Vec::with_capacity(values.len()), Faults::new());
    for ((line, value), (_, unit)) in values.iter().zip(units) {
        let read = reads(value, reading);
        let cell = match (&read, unit.is_empty()) {
            (Reads::Bare(..), false) => {
                let read = literal::read_quantity(&with_unit(value, unit, reading), reading);
                let Ok(LiteralValue::Quantity(quantity)) = read else {
                    let (written, nearest) = ((*unit).to_owned(), Unit::nearest(unit));
                    faults.push((*line, CsvFaultKind::NotAUnit { written, nearest }));
                    continue;
                };
                Cell::Quantity(quantity)
            }
            (_, false) => {
                faults
                    .push((*line, CsvFaultKind::UnitAlone { written: (*value).to_owned(), unit: (*unit).to_owned() }));
                continue;
            }
            (Reads::Bare(value, whole), true) => bare(*value, *whole),
            (Reads::Measured(quantity), true) => Cell::Quantity(*quantity),
            (Reads::Flag(flag), true) => Cell::Flag(*flag),
            (_, true) => text(value),
        };
        cells.push(cell);
    }
    if faults.is_empty() { Ok(cells) } else { Err(faults) }
}

/// Whether fields are the units of the column at their left: most of them read as one, behind a number.
pub(super) fn are_units(values: &[Field<'_>], units: &[Field<'_>], reading: Reading) -> bool {
    let filled = values.iter().zip(units).filter(|(_, (_, unit))| !unit.is_empty());
    let fits = |value: &str, unit: &str| {
        literal::read_unit(unit, reading).is_ok() && matches!(reads(value, reading), Reads::Bare(..))
    };
    let (all, fit) = filled
        .fold((0, 0), |(all, fit), ((_, value), (_, unit))| (all + 1, if fits(value, unit) { fit + 1 } else { fit }));
    all == 0 || 2 * fit > all
}
