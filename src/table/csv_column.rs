//! Decides from its fields what a column of a CSV text holds.
//!
//! The rule. A field is a *figure* if it reads as a number or a quantity; it *begins like one* if it begins with a
//! digit or a currency sign. Blanks do not count.
//!
//! - A unit in the heading, `width (in)`, makes it a column of that measure; `(text)` makes it a text.
//! - Otherwise it holds figures if more than half of the fields are figures, or if half of them are and the rest
//!   begin like one. Then every field must be one, all with units of one dimension or all without.
//! - Fields that are all yes or no are flags. Everything else is text: `6 in tulle`, `B4-2`, `=2+3`.
//!
//! So a column of names is never taken for measures, and a typo among measures never makes them names.

use super::cell::Cell;
use super::column::{ColumnKind, ColumnUnit};
use super::csv_file::{CsvErrorKind, Figure, HeadingUnit, NeededBy, quantity_in, unguarded};
use super::table_file_error::TableFileErrorKind;
use crate::quantity::{Dimension, Quantity, Reading, Unit, literal, number};

/// What a heading says about its column.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum HeadingKind {
    /// Nothing; the fields decide.
    Nothing,
    /// It holds names.
    Text,
    /// It holds values of any kind, each with its own unit.
    Any,
    /// It is measured in this unit.
    Unit(HeadingUnit),
}

/// A field and its line.
pub(super) type Field<'f> = (u64, &'f str);

/// The errors of one column, each with its line.
pub(super) type ColumnErrors = Vec<(u64, TableFileErrorKind)>;

/// The kind of a field by itself.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum FieldKind {
    /// An empty field.
    Blank,
    /// Words.
    Words,
    /// Yes or no.
    Flag(bool),
    /// A number without a unit, and the count it is if it is whole.
    Bare(Quantity, Option<i64>),
    /// A number with a unit.
    Measured(Quantity),
    /// Text that begins like a figure and is not one.
    Broken(TableFileErrorKind),
}

/// Parses a field by itself.
pub(super) fn field_kind(written: &str, reading: Reading) -> FieldKind {
    if written.is_empty() {
        return FieldKind::Blank;
    }
    match written.to_lowercase().as_str() {
        "yes" => return FieldKind::Flag(true),
        "no" => return FieldKind::Flag(false),
        _ => {}
    }
    if !begins_like_a_figure(written) {
        return FieldKind::Words;
    }
    let all_digits = written.chars().all(|c| c.is_ascii_digit());
    if all_digits && written.len() > 1 && written.starts_with('0') {
        return FieldKind::Broken(TableFileErrorKind::ZeroBefore { written: written.to_owned() });
    }
    match Figure::read(written, reading) {
        Ok(figure) if !figure.quantity().steps().is_finite() => FieldKind::Words,
        Ok(Figure::Bare(bare)) => {
            // A typed whole number is exact however long it is; 2.0 is a number, not a count.
            let whole = written.parse().ok().or_else(|| {
                let has_decimals = written.contains(['.', ',']);
                number::whole(bare.steps()).filter(|_| !has_decimals)
            });
            FieldKind::Bare(bare, whole)
        }
        Ok(Figure::Measured(quantity)) => FieldKind::Measured(quantity),
        Err(error) => FieldKind::Broken(error.into()),
    }
}

fn begins_like_a_figure(written: &str) -> bool {
    let unsigned = written.trim_start_matches(['-', '−']).trim_start();
    let amount = unsigned.trim_start_matches(literal::CURRENCIES).trim_start_matches(['.', ',']);
    amount.starts_with(char::is_numeric)
}

/// Decides the kind of a column and its cells, from top to bottom.
pub(super) fn decide(
    heading: &str,
    heading_kind: &HeadingKind,
    fields: &[Field<'_>],
    reading: Reading,
) -> Result<(ColumnKind, Vec<Cell>), ColumnErrors> {
    let texts = || fields.iter().map(|(_, field)| text(field)).collect();
    if *heading_kind == HeadingKind::Text {
        return Ok((ColumnKind::Text, texts()));
    }
    if *heading_kind == HeadingKind::Any {
        let no_units: Vec<Field<'_>> = fields.iter().map(|(line, _)| (*line, "")).collect();
        let kind = ColumnKind::Mixed { unit_heading: format!("{heading} unit") };
        return Ok((kind, mixed(fields, &no_units, reading)?));
    }
    let read: Vec<FieldKind> = fields.iter().map(|(_, field)| field_kind(field, reading)).collect();
    let count = |test: fn(&FieldKind) -> bool| read.iter().filter(|field| test(field)).count();
    let blank = count(|field| matches!(field, FieldKind::Blank));
    let filled = read.len() - blank;
    let figures = count(|field| matches!(field, FieldKind::Bare(..) | FieldKind::Measured(_)));
    let broken = count(|field| matches!(field, FieldKind::Broken(_)));
    let flags = count(|field| matches!(field, FieldKind::Flag(_)));
    if let HeadingKind::Unit(unit) = heading_kind {
        return Figures { heading, fields, read: &read, reading }.in_unit(unit);
    }
    if filled > 0 && flags == filled {
        let cell = |field: &FieldKind| if let FieldKind::Flag(flag) = field { Cell::Flag(*flag) } else { Cell::Blank };
        return Ok((ColumnKind::Flag, read.iter().map(cell).collect()));
    }
    if 2 * figures > filled || filled > 0 && 2 * figures == filled && figures + broken == filled {
        return Figures { heading, fields, read: &read, reading }.in_own_units();
    }
    Ok((ColumnKind::Text, texts()))
}

/// A text field as a cell.
pub(super) fn text(field: &str) -> Cell {
    if field.is_empty() { Cell::Blank } else { Cell::from(unguarded(field)) }
}

/// A number without a unit as a cell: a count if it is whole, otherwise a number.
fn bare(value: Quantity, whole: Option<i64>) -> Cell {
    whole.map_or(Cell::Number(value.steps()), Cell::Count)
}

/// A column that must hold figures.
struct Figures<'c> {
    heading: &'c str,
    fields: &'c [Field<'c>],
    read: &'c [FieldKind],
    reading: Reading,
}

impl Figures<'_> {
    fn each(&self) -> impl Iterator<Item = (u64, &str, &FieldKind)> {
        self.fields.iter().zip(self.read).map(|((line, field), read)| (*line, *field, read))
    }

    /// Errors for all fields that are not figures.
    fn field_errors(&self) -> ColumnErrors {
        let figure = self.each().find(|(.., read)| matches!(read, FieldKind::Bare(..) | FieldKind::Measured(_)));
        let like = figure.map_or("12", |(_, field, _)| field);
        let errors = self.each().filter_map(|(line, field, read)| match read {
            FieldKind::Words | FieldKind::Flag(_) => {
                Some((line, TableFileErrorKind::NotAFigure { written: field.to_owned(), like: like.to_owned() }))
            }
            FieldKind::Broken(kind) => Some((line, kind.clone())),
            FieldKind::Blank | FieldKind::Bare(..) | FieldKind::Measured(_) => None,
        });
        errors.collect()
    }

    /// Reads every figure in the unit of the heading, or in its own unit of the same dimension.
    fn in_unit(&self, unit: &HeadingUnit) -> Result<(ColumnKind, Vec<Cell>), ColumnErrors> {
        let mut errors = self.field_errors();
        let needed = unit.expression.dimension;
        let mut cells = Vec::with_capacity(self.read.len());
        for (line, field, read) in self.each() {
            let quantity = match read {
                FieldKind::Bare(..) => unit.measure(field, self.reading),
                FieldKind::Measured(quantity) => Ok(*quantity),
                _ => {
                    cells.push(Cell::Blank);
                    continue;
                }
            };
            let fitting = quantity.and_then(|quantity| match quantity.dimension() {
                given if given == needed => Ok(quantity),
                given => {
                    let needed_by = NeededBy::Heading { unit: unit.written.clone() };
                    Err(CsvErrorKind::Unlike { written: field.to_owned(), given, needed: vec![needed], needed_by })
                }
            });
            match fitting {
                Ok(quantity) => cells.push(Cell::Quantity(quantity)),
                Err(error) => errors.push((line, error.into())),
            }
        }
        let kind = self.kind(&unit.written, needed)?;
        if errors.is_empty() { Ok((kind, cells)) } else { Err(errors) }
    }

    /// Reads all fields without a unit, or all with units of the first one's dimension.
    fn in_own_units(&self) -> Result<(ColumnKind, Vec<Cell>), ColumnErrors> {
        let mut errors = self.field_errors();
        let first = self.each().find_map(|(line, field, read)| match read {
            FieldKind::Measured(quantity) => Some((line, field, *quantity)),
            _ => None,
        });
        let Some((first_line, first_field, first)) = first else {
            if !errors.is_empty() {
                return Err(errors);
            }
            let all_whole = self.read.iter().all(|read| matches!(read, FieldKind::Blank | FieldKind::Bare(_, Some(_))));
            let kind = if all_whole { ColumnKind::Count } else { ColumnKind::Number };
            let cell = |read: &FieldKind| match read {
                FieldKind::Bare(value, whole) => bare(*value, whole.filter(|_| all_whole)),
                _ => Cell::Blank,
            };
            return Ok((kind, self.read.iter().map(cell).collect()));
        };
        let unit = unit_of(first, self.reading);
        for (line, field, read) in self.each() {
            let written = field.to_owned();
            let needed_by = NeededBy::Field { written: first_field.to_owned(), line: first_line };
            match read {
                FieldKind::Measured(quantity) if quantity.dimension() != first.dimension() => {
                    let (given, needed) = (quantity.dimension(), vec![first.dimension()]);
                    errors.push((line, CsvErrorKind::Unlike { written, given, needed, needed_by }.into()));
                }
                FieldKind::Bare(..) => {
                    let unit = Some(unit.clone());
                    errors.push((line, CsvErrorKind::NoUnit { written, unit, needed_by }.into()));
                }
                _ => {}
            }
        }
        let kind = self.kind(&unit, first.dimension());
        if !errors.is_empty() {
            return Err(errors);
        }
        let system = |quantity: Quantity| quantity.liked().length.map(Unit::system);
        let two_tapes = self.read.iter().any(|read| match read {
            FieldKind::Measured(quantity) => system(*quantity) != system(first),
            _ => false,
        });
        let kind = match kind? {
            ColumnKind::Quantity(unit) if two_tapes => ColumnKind::Quantity(unit.shown_as_written()),
            kind => kind,
        };
        let cell = |read: &FieldKind| match read {
            FieldKind::Measured(quantity) => Cell::Quantity(*quantity),
            _ => Cell::Blank,
        };
        Ok((kind, self.read.iter().map(cell).collect()))
    }

    fn kind(&self, unit: &str, dimension: Dimension) -> Result<ColumnKind, ColumnErrors> {
        if dimension == Dimension::MONEY {
            return Ok(ColumnKind::Money);
        }
        // A column's unit is written with `$`, whatever the workshop's sign is.
        let unit = unit.replace(self.reading.currency, "$");
        let line = self.fields.first().map_or(1, |(line, _)| *line);
        let read = ColumnUnit::read(self.heading, &unit);
        read.map(ColumnKind::Quantity).map_err(|error| vec![(line, TableFileErrorKind::Table(error))])
    }
}

/// The unit to show a quantity in, as a heading writes it: `in`, `yd in`, `$/yd`.
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

/// The cells of a mixed column, whose units are in a column of their own.
pub(super) fn mixed(values: &[Field<'_>], units: &[Field<'_>], reading: Reading) -> Result<Vec<Cell>, ColumnErrors> {
    let (mut cells, mut errors) = (Vec::with_capacity(values.len()), ColumnErrors::new());
    for ((line, value), (_, unit)) in values.iter().zip(units) {
        let read = field_kind(value, reading);
        let cell = match (&read, unit.is_empty()) {
            (FieldKind::Bare(..), false) => {
                let Ok(quantity) = quantity_in(value, unit, reading) else {
                    let (written, nearest) = ((*unit).to_owned(), Unit::nearest(unit));
                    errors.push((*line, TableFileErrorKind::NotAUnit { written, nearest }));
                    continue;
                };
                Cell::Quantity(quantity)
            }
            (_, false) => {
                errors.push((
                    *line,
                    TableFileErrorKind::UnitAlone { written: (*value).to_owned(), unit: (*unit).to_owned() },
                ));
                continue;
            }
            (FieldKind::Bare(value, whole), true) => bare(*value, *whole),
            (FieldKind::Measured(quantity), true) => Cell::Quantity(*quantity),
            (FieldKind::Flag(flag), true) => Cell::Flag(*flag),
            (_, true) => text(value),
        };
        cells.push(cell);
    }
    if errors.is_empty() { Ok(cells) } else { Err(errors) }
}

/// Whether fields are the units of the column to their left: most of those filled read as a unit beside a bare
/// number, or none is filled.
pub(super) fn are_units(values: &[Field<'_>], units: &[Field<'_>], reading: Reading) -> bool {
    let filled = values.iter().zip(units).filter(|(_, (_, unit))| !unit.is_empty());
    let fits = |value: &str, unit: &str| {
        literal::read_unit(unit, reading).is_ok() && matches!(field_kind(value, reading), FieldKind::Bare(..))
    };
    let (all, fit) = filled
        .fold((0, 0), |(all, fit), ((_, value), (_, unit))| (all + 1, if fits(value, unit) { fit + 1 } else { fit }));
    all == 0 || 2 * fit > all
}
