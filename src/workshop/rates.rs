//! The file rates.csv: how long work takes and what it costs.
//!
//! A row is an operation, with its unit, its minutes and its set-up; or it is one of the workshop's rates, known by its
//! name, with its figure in the column “value”:
//!
//! | name | value | meaning |
//! |---|---|---|
//! | wage | `$22/h` | paid for an hour of work |
//! | overhead | `$4/h`, or `15 %` | rent and the like: by the hour worked, or as a share of materials plus wages |
//! | mark-up | `60 %` | added to the cost to make the price; 100 % doubles it |
//! | fee | `6.5 %` | the share of the selling price that a market or a card takes |
//! | waste | `5 %` | cloth added at a flat rate to what the pieces need, for the standard cost |
//! | minimum | `$18` | the lowest price of an order |
//! | built-in minutes | `132 %` | an operation without a row takes this share of the built-in minutes |
//!
//! Never here: the sums of a price.

use super::checked_file::CheckedFile;
use super::demo_files::DEMO_RATES;
use super::fields::{self, Fields, Least, Most, UsedNames};
use super::figure::FigureError;
use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::{Column, Layout};
use super::names;
use super::settings::Settings;
use super::written::{self, CsvOut};
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Dimension, Length, Liked, Money, Quantity, Style, Time, Unit};
use std::fmt;
use std::io;
use std::sync::LazyLock;

/// What the minutes of an operation are for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Per {
    /// One cut piece.
    Piece,
    /// One item, whatever is counted: a hook, a buttonhole, a curtain.
    Each,
    /// This length of seam, hem or edge.
    Length(Length),
}

/// A repeated operation, and how long it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Operation {
    /// Its unique name.
    pub name: String,
    /// What the minutes are for.
    pub per: Per,
    /// How long one takes.
    pub minutes: Time,
    /// Threading up, setting the foot: once, whatever the amount.
    pub set_up: Time,
}

/// Rent, light, repairs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Overhead {
    /// Money by the time worked.
    ByTime(Quantity),
    /// A share of materials and wages together.
    Share(f64),
}

/// The rates of a workshop. Shares are plain numbers: 5 % is 0.05.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rates {
    /// The operations, in the order of the file, with unique names.
    pub operations: Vec<Operation>,
    /// Money by the time worked.
    pub wage: Option<Quantity>,
    /// Rent, light, repairs.
    pub overhead: Option<Overhead>,
    /// Share added to the cost to make the price.
    pub mark_up: Option<f64>,
    /// Share of the selling price that others take; less than 1.
    pub fee: Option<f64>,
    /// Share added to what the pieces need.
    pub waste: Option<f64>,
    /// The lowest price of an order.
    pub minimum: Option<Money>,
    /// How many times the built-in minutes an operation takes that has no row; `None` leaves it unknown.
    pub built_in_times: Option<f64>,
}

/// How long a piece of work takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Minutes {
    /// Whether the workshop has not timed it: built-in minutes, as often as it says.
    pub built_in: bool,
    /// Once, before it begins.
    pub set_up: Time,
    /// The work itself.
    pub running: Time,
}

impl Minutes {
    /// Set-up and running together, for work with a set-up of its own.
    pub fn total(self) -> Time {
        self.running + self.set_up
    }
}

/// Why the minutes of a piece of work are not known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RateError {
    /// No such operation.
    NoSuchOperation {
        /// The name asked for.
        written: String,
        /// The most similar operation.
        nearest: Option<String>,
    },
    /// The amount measures something else than the operation is timed by.
    Unlike {
        /// The operation.
        operation: String,
        /// What the amount measures.
        given: Dimension,
        /// What it must measure.
        needed: Dimension,
    },
    /// The amount is below zero.
    Negative {
        /// The operation.
        operation: String,
    },
}

impl fmt::Display for RateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchOperation { written, .. } => write!(f, "rates.csv has no operation “{written}”"),
            Self::Unlike { operation, given, needed } => {
                let by = if needed.is_number() { "a count" } else { "a length" };
                write!(f, "“{operation}” is timed by {by}; {} was given", given.noun())
            }
            Self::Negative { operation } => write!(f, "“{operation}” cannot be done less than nothing"),
        }
    }
}

impl std::error::Error for RateError {}

impl Diagnose for RateError {
    fn message(&self, _: &Style) -> String {
        self.to_string()
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::NoSuchOperation { written, .. } => DiagnosticKind::UnknownName(written.clone()),
            Self::Unlike { .. } => DiagnosticKind::Unlike,
            Self::Negative { .. } => DiagnosticKind::OutOfRange,
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::NoSuchOperation { nearest: Some(nearest), .. } => Some(format!("did you mean “{nearest}”?")),
            Self::NoSuchOperation { nearest: None, written } => {
                Some(format!("type add rate {written}, 1.6 min/yd, or 3 min each"))
            }
            Self::Unlike { needed, .. } if needed.is_number() => Some("give a plain number, such as 2".to_owned()),
            Self::Unlike { .. } => Some("give a length, such as 3 yd".to_owned()),
            Self::Negative { .. } => Some("give zero or more".to_owned()),
        }
    }
}

/// The operations whose minutes are built in, usual ones of a made-up workshop and no measurement of anybody's: what is
/// reckoned with them is marked. A test reads the file, so that it is never without them.
static BUILT_IN: LazyLock<Vec<Operation>> = LazyLock::new(|| {
    Rates::read("rates.csv", DEMO_RATES, &Settings::default()).map(|rates| rates.operations).unwrap_or_default()
});

fn named<'o>(operations: &'o [Operation], name: &str) -> Option<&'o Operation> {
    let key = names::key(name);
    operations.iter().find(|known| names::key(&known.name) == key)
}

impl Rates {
    /// The operation with this name in the file, ignoring case and extra blanks.
    pub fn find(&self, operation: &str) -> Option<&Operation> {
        named(&self.operations, operation)
    }

    /// Whether the file has a row of this name, an operation's or a rate's.
    pub(super) fn says(&self, name: &str) -> bool {
        let key = names::word_key(name);
        match RATES.iter().find(|(word, _)| names::word_key(word) == key) {
            Some((_, rate)) => self.figure(*rate).is_some(),
            None => self.find(name).is_some(),
        }
    }

    fn figure(&self, rate: Rate) -> Option<Quantity> {
        let share = |share: Option<f64>| Some(Quantity::number(share?).liking(Liked::unit(Unit::Percent)));
        match rate {
            Rate::Wage => self.wage,
            Rate::Overhead => match self.overhead? {
                Overhead::ByTime(by_time) => Some(by_time),
                Overhead::Share(part) => share(Some(part)),
            },
            Rate::MarkUp => share(self.mark_up),
            Rate::Fee => share(self.fee),
            Rate::Waste => share(self.waste),
            Rate::Minimum => self.minimum.map(Quantity::from),
            Rate::BuiltIn => share(self.built_in_times),
        }
    }

    /// The rates by name, each with its figure if it has one.
    pub(super) fn figures(&self) -> impl Iterator<Item = (&'static str, Option<Quantity>)> {
        RATES.iter().map(|(name, rate)| (*name, self.figure(*rate)))
    }

    /// Gives the rate of this name another figure.
    pub(super) fn set_figure(&mut self, name: &str, value: Quantity) -> Result<(), FigureError> {
        let key = names::word_key(name);
        let rate = RATES.iter().find(|(word, _)| names::word_key(word) == key).map(|(_, rate)| *rate);
        let rate = rate.ok_or(FigureError::NoFigure)?;
        if !rate.dimensions().contains(&value.dimension()) {
            return Err(FigureError::Unlike { given: value.dimension(), needed: rate.dimensions() });
        }
        if value.steps() < 0.0 {
            return Err(FigureError::BelowZero);
        }
        let share = value.to_number().ok();
        match rate {
            Rate::Wage => self.wage = Some(value),
            Rate::Overhead => self.overhead = Some(share.map_or(Overhead::ByTime(value), Overhead::Share)),
            Rate::MarkUp => self.mark_up = share,
            Rate::Fee if share.is_some_and(|share| share >= 1.0) => return Err(FigureError::WholePrice),
            Rate::Fee => self.fee = share,
            Rate::Waste => self.waste = share,
            Rate::Minimum => self.minimum = Money::try_from(value).ok(),
            Rate::BuiltIn => self.built_in_times = share,
        }
        Ok(())
    }

    /// The name nearest to a mistyped operation, of the file or built in where that counts.
    pub fn nearest(&self, operation: &str) -> Option<&str> {
        let built_in: &[Operation] = if self.built_in_times.is_some() { &BUILT_IN } else { &[] };
        names::nearest(operation, self.operations.iter().chain(built_in).map(|known| known.name.as_str()))
    }

    /// The operations that are built in, whether or not the file counts on them.
    pub(crate) fn built_in_names() -> impl Iterator<Item = &'static str> {
        BUILT_IN.iter().map(|operation| operation.name.as_str())
    }

    /// The operation with this name and how many times its minutes it takes: the row of the file, else the built-in one
    /// where the file says how many times. The flag says whether it is built in.
    fn timed(&self, operation: &str) -> Option<(&Operation, f64, bool)> {
        if let Some(own) = self.find(operation) {
            return Some((own, 1.0, false));
        }
        Some((named(&BUILT_IN, operation)?, self.built_in_times?, true))
    }

    /// How long an amount of an operation takes: a length if it is timed by length, otherwise a plain number. The
    /// set-up is separate, because it comes once however many orders follow.
    pub fn minutes_for(&self, operation: &str, amount: Quantity) -> Result<Minutes, RateError> {
        let (known, often, built_in) = self.timed(operation).ok_or_else(|| RateError::NoSuchOperation {
            written: operation.to_owned(),
            nearest: self.nearest(operation).map(str::to_owned),
        })?;
        let unlike = |needed| RateError::Unlike { operation: known.name.clone(), given: amount.dimension(), needed };
        let times = match known.per {
            Per::Piece | Per::Each => amount.to_number().map_err(|_| unlike(Dimension::NUMBER))?,
            Per::Length(length) => Length::try_from(amount).map_err(|_| unlike(Dimension::LENGTH))? / length,
        };
        if times < 0.0 {
            return Err(RateError::Negative { operation: known.name.clone() });
        }
        Ok(Minutes { built_in, set_up: known.set_up * often, running: known.minutes * (times * often) })
    }

    /// Reads rates.csv, or returns all errors of the text.
    pub fn read(file: &str, text: &str, settings: &Settings) -> Result<Self, Vec<WorkshopFileError>> {
        let mut errors = Vec::new();
        let rates = Self::gather(file, text, settings, &mut errors);
        if errors.is_empty() { Ok(rates) } else { Err(errors) }
    }

    pub(super) fn gather(file: &str, text: &str, settings: &Settings, errors: &mut Vec<WorkshopFileError>) -> Self {
        let text = CheckedFile::read(file, text, &LAYOUT, settings.file_reading(), errors);
        let Some(text) = text else { return Self::default() };
        let mut rates = Self::default();
        let mut used = UsedNames::default();
        let operations = fields::read_rows(&text, errors, |fields| {
            let name = fields.own_name(OPERATION, "an operation such as gather, first pass", &mut used);
            let key = names::word_key(fields.raw(OPERATION));
            match RATES.iter().find(|(word, _)| names::word_key(word) == key) {
                Some((_, rate)) => {
                    rates.take(*rate, fields);
                    None
                }
                None => read_operation(fields, name),
            }
        });
        rates.operations = operations.into_iter().map(|(_, operation)| operation).collect();
        rates
    }

    fn take(&mut self, rate: Rate, fields: &mut Fields<'_>) {
        for column in [PER, MINUTES, SET_UP] {
            let written = fields.raw(column).to_owned();
            if !written.is_empty() {
                let because = format!("“{}” is no operation; its figure stands in “value”", fields.raw(OPERATION));
                fields.error(column, WorkshopFileErrorKind::NotNeeded { written, because });
            }
        }
        if fields.raw(VALUE).is_empty() {
            let example = format!("a figure such as {}", written::example(rate.dimensions(), fields.reading()));
            fields.error(VALUE, WorkshopFileErrorKind::Blank { example });
            return;
        }
        let least = if matches!(rate, Rate::BuiltIn) { Least::AboveZero } else { Least::Zero };
        let Some(value) = fields.figure(VALUE, rate.dimensions(), least) else { return };
        match rate {
            Rate::Wage => self.wage = Some(value),
            Rate::Overhead if value.dimension() == Dimension::MONEY_BY_TIME => {
                self.overhead = Some(Overhead::ByTime(value));
            }
            Rate::Overhead => self.overhead = fields.within(VALUE, value, Most::Any).map(Overhead::Share),
            Rate::MarkUp => self.mark_up = fields.within(VALUE, value, Most::Any),
            Rate::Fee => self.fee = fields.within(VALUE, value, Most::BelowWhole),
            Rate::Waste => self.waste = fields.within(VALUE, value, Most::Any),
            Rate::Minimum => self.minimum = Money::try_from(value).ok(),
            Rate::BuiltIn => self.built_in_times = fields.within(VALUE, value, Most::Any),
        }
    }

    /// Writes rates.csv, the rates after the operations.
    pub fn write(&self, settings: &Settings, out: impl io::Write) -> io::Result<()> {
        let mut out = CsvOut::begin(settings, out, LAYOUT.names())?;
        for operation in &self.operations {
            let per = match operation.per {
                Per::Piece => PIECE.to_owned(),
                Per::Each => EACH.to_owned(),
                Per::Length(length) => out.length_or_unit(length),
            };
            let (minutes, set_up) = (out.measure(Some(operation.minutes)), out.measure(Some(operation.set_up)));
            out.row([written::guarded(&operation.name), per, minutes, set_up, String::new()])?;
        }
        for (name, rate) in RATES {
            let value = match rate {
                Rate::Wage => out.measure(self.wage),
                Rate::Overhead => match self.overhead {
                    Some(Overhead::ByTime(by_time)) => out.measure(Some(by_time)),
                    Some(Overhead::Share(share)) => out.share(Some(share)),
                    None => String::new(),
                },
                Rate::MarkUp => out.share(self.mark_up),
                Rate::Fee => out.share(self.fee),
                Rate::Waste => out.share(self.waste),
                Rate::Minimum => out.measure(self.minimum),
                Rate::BuiltIn => out.share(self.built_in_times),
            };
            if !value.is_empty() {
                out.row([name.to_owned(), String::new(), String::new(), String::new(), value])?;
            }
        }
        out.end()
    }
}

#[derive(Clone, Copy)]
enum Rate {
    Wage,
    Overhead,
    MarkUp,
    Fee,
    Waste,
    Minimum,
    BuiltIn,
}

impl Rate {
    fn dimensions(self) -> &'static [Dimension] {
        match self {
            Self::Wage => &[Dimension::MONEY_BY_TIME],
            Self::Overhead => &[Dimension::MONEY_BY_TIME, Dimension::NUMBER],
            Self::MarkUp | Self::Fee | Self::Waste | Self::BuiltIn => &[Dimension::NUMBER],
            Self::Minimum => &[Dimension::MONEY],
        }
    }
}

const RATES: [(&str, Rate); 7] = [
    ("wage", Rate::Wage),
    ("overhead", Rate::Overhead),
    ("mark-up", Rate::MarkUp),
    ("fee", Rate::Fee),
    ("waste", Rate::Waste),
    ("minimum", Rate::Minimum),
    ("built-in minutes", Rate::BuiltIn),
];

const OPERATION: &str = "operation";
const PER: &str = "per";
const MINUTES: &str = "minutes";
const SET_UP: &str = "set-up";
pub(super) const VALUE: &str = "value";
const PIECE: &str = "piece";
const EACH: &str = "each";

const LAYOUT: Layout = Layout {
    columns: &[
        Column::words(OPERATION).needed(),
        Column::words(PER).needed(),
        Column { implied: Some("min"), ..Column::measure(MINUTES, &[Dimension::TIME]).needed() },
        Column { implied: Some("min"), ..Column::measure(SET_UP, &[Dimension::TIME]) },
        Column::words(VALUE),
    ],
    others: None,
};

fn read_operation(fields: &mut Fields<'_>, name: Option<String>) -> Option<Operation> {
    let value = fields.raw(VALUE).to_owned();
    if !value.is_empty() {
        let rates: Vec<&str> = RATES.iter().map(|(word, _)| *word).collect();
        let because = match names::nearest(fields.raw(OPERATION), rates.iter().copied()) {
            Some(nearest) => format!("only rates have a value: did you mean “{nearest}”?"),
            None => format!("only these have a value: {}", rates.join(", ")),
        };
        fields.error(VALUE, WorkshopFileErrorKind::NotNeeded { written: value, because });
        return None;
    }
    let minutes = fields.measure(MINUTES, Least::Zero);
    if fields.raw(MINUTES).is_empty() {
        let example = fields.example(MINUTES);
        fields.error(MINUTES, WorkshopFileErrorKind::Blank { example });
    }
    let per = read_per(fields);
    let set_up = fields.measure(SET_UP, Least::Zero).unwrap_or(Time::ZERO);
    Some(Operation { name: name?, per: per?, minutes: minutes?, set_up })
}

fn read_per(fields: &mut Fields<'_>) -> Option<Per> {
    let written = fields.raw(PER).to_owned();
    match names::word_key(&written).as_str() {
        "" => {
            fields
                .error(PER, WorkshopFileErrorKind::Blank { example: "piece, each, or a length such as yd".to_owned() });
            return None;
        }
        PIECE => return Some(Per::Piece),
        EACH => return Some(Per::Each),
        _ => {}
    }
    let length = fields.length_or_unit(&written);
    if length.is_none() {
        let nearest = names::nearest(&written, [PIECE, EACH]).map(str::to_owned);
        let allowed = vec![PIECE, EACH, "a length such as yd or m"];
        fields.error(PER, WorkshopFileErrorKind::UnknownWord { written, allowed, nearest });
    }
    length.map(Per::Length)
}
