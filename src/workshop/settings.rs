//! The file settings.csv: how this workshop measures, counts its money and writes its files.
//!
//! It is read before all others, because the currency and the dialect decide how they are read. A missing setting has
//! its default value. Never here: anything that differs from order to order.

use super::checked_file::CheckedFile;
use super::fields::{self, Fields, Least, Most, UsedNames};
use super::file_error::{WorkshopFileError, WorkshopFileErrorKind};
use super::layout::{Column, Layout};
use super::market::Market;
use super::names;
use super::written::CsvOut;
use crate::quantity::literal::CURRENCIES;
use crate::quantity::{Dimension, InchStep, Length, Money, Quantity, Reading, Style, Tape, rounding};
use crate::table::Dialect;
use std::io;

/// The settings of a workshop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// The tape: what a bare number means where a length is expected.
    pub tape: Tape,
    /// The finest mark of the inch tape; the metric one has millimetres.
    pub inch_step: InchStep,
    /// The currency sign.
    pub currency: char,
    /// How files are written, and how a file with a single column is read.
    pub dialect: Dialect,
    /// Whether screens and sheets show `2,5` instead of `2.5`; cells and recipes are always typed with a point.
    pub decimal_comma: bool,
    /// What every price must end in, below one whole of the currency: `$0.95`; `None` leaves prices as they are.
    pub price_ending: Option<Money>,
    /// The share of a price that is paid when an order is agreed, 0 to 1.
    pub deposit: Option<f64>,
    /// A leftover shorter than this, along or across, is not kept.
    pub smallest_remnant: Option<Length>,
    /// Where the workshop sells, which decides the cautions and labels that are shown.
    pub market: Market,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            tape: Tape::default(),
            inch_step: InchStep::default(),
            currency: '$',
            dialect: Dialect::default(),
            decimal_comma: false,
            price_ending: None,
            deposit: None,
            smallest_remnant: None,
            market: Market::default(),
        }
    }
}

impl Settings {
    /// How quantities are shown on a screen or a sheet. The decimal mark is the point, as it is typed in cells and
    /// recipes, unless a setting changes it.
    pub fn style(&self) -> Style {
        Style {
            inch_step: self.inch_step,
            tape: self.tape,
            currency: self.currency,
            decimal_comma: self.decimal_comma,
            plain: false,
        }
    }

    /// How quantities are typed in cells and recipes.
    pub fn reading(&self) -> Reading {
        Reading { currency: self.currency, decimal_comma: false }
    }

    /// How quantities are shown in files of the workshop's dialect.
    pub fn file_style(&self) -> Style {
        Style { decimal_comma: self.dialect.decimal_comma(), ..self.style() }
    }

    /// How quantities are read in files of the workshop's dialect.
    pub fn file_reading(&self) -> Reading {
        Reading { decimal_comma: self.dialect.decimal_comma(), ..self.reading() }
    }

    /// Raises a price to the next amount with the price ending; without one, returns the price itself.
    pub fn with_ending(&self, price: Money) -> Money {
        let Some(ending) = self.price_ending else { return price };
        let one = Quantity::money(1.0);
        // The part above the ending goes up to a whole amount; this cannot fail between two amounts of money.
        let whole = rounding::bought((price - ending).into(), one).and_then(Money::try_from);
        whole.map_or(price, |whole| (whole + ending).most(ending))
    }

    /// Reads settings.csv, or returns all errors of the text.
    pub fn read(file: &str, text: &str) -> Result<Self, Vec<WorkshopFileError>> {
        let mut errors = Vec::new();
        let settings = Self::gather(file, text, &mut errors);
        if errors.is_empty() { Ok(settings) } else { Err(errors) }
    }

    /// The settings that could be read, with default values for the rest.
    pub(super) fn gather(file: &str, text: &str, errors: &mut Vec<WorkshopFileError>) -> Self {
        let mut settings = Self::default();
        let Some(mut text) = CheckedFile::read(file, text, &LAYOUT, Reading::default(), errors) else {
            return settings;
        };
        // The currency may be set below a setting that is an amount of money.
        if let Some(currency) = stated_currency(&text) {
            text.csv.reading.currency = currency;
        }
        let mut used = UsedNames::default();
        fields::read_rows(&text, errors, |fields| {
            let name = fields.own_name(SETTING, "a setting such as tape", &mut used)?;
            let key = names::word_key(&name);
            let Some((_, setting)) = SETTINGS.iter().find(|(word, _)| *word == key) else {
                let allowed: Vec<&'static str> = SETTINGS.iter().map(|(word, _)| *word).collect();
                let nearest = names::nearest(&name, allowed.iter().copied()).map(str::to_owned);
                fields.error(SETTING, WorkshopFileErrorKind::UnknownWord { written: name, allowed, nearest });
                return None;
            };
            settings.take(*setting, fields);
            Some(())
        });
        settings
    }

    /// Takes one setting; a blank value leaves the default.
    fn take(&mut self, setting: Setting, fields: &mut Fields<'_>) {
        match setting {
            Setting::Tape => self.tape = fields.choice(VALUE, &TAPES).unwrap_or(self.tape),
            Setting::TapeStep => self.inch_step = fields.choice(VALUE, &STEPS).unwrap_or(self.inch_step),
            Setting::Currency => self.currency = fields.choice(VALUE, &CURRENCY_WORDS).unwrap_or(self.currency),
            Setting::Dialect => self.dialect = fields.choice(VALUE, &DIALECTS).unwrap_or(self.dialect),
            Setting::DecimalMark => {
                self.decimal_comma = fields.choice(VALUE, &DECIMAL_MARKS).unwrap_or(self.decimal_comma);
            }
            Setting::PriceEnding => {
                let ending = fields.figure(VALUE, &[Dimension::MONEY], Least::Zero);
                self.price_ending = ending.and_then(|ending| Money::try_from(ending).ok());
                let whole = Money::try_from(Quantity::money(1.0)).ok();
                if self.price_ending.zip(whole).is_some_and(|(ending, whole)| ending >= whole) {
                    let written = fields.raw(VALUE).to_owned();
                    fields.error(VALUE, WorkshopFileErrorKind::TooMuch { written, limit: "less than one whole" });
                }
            }
            Setting::Deposit => {
                let deposit = fields.figure(VALUE, &[Dimension::NUMBER], Least::Zero);
                self.deposit = deposit.and_then(|deposit| fields.within(VALUE, deposit, Most::Whole));
            }
            Setting::SmallestRemnant => {
                let remnant = fields.figure(VALUE, &[Dimension::LENGTH], Least::AboveZero);
                self.smallest_remnant = remnant.and_then(|remnant| Length::try_from(remnant).ok());
            }
            Setting::Market => self.market = fields.choice(VALUE, &Market::WORDS).unwrap_or(self.market),
        }
    }

    /// Writes settings.csv.
    pub fn write(&self, out: impl io::Write) -> io::Result<()> {
        let mut out = CsvOut::begin(self, out, LAYOUT.names())?;
        for (name, setting) in SETTINGS {
            let value = match setting {
                Setting::Tape => word_of(&TAPES, &self.tape),
                Setting::TapeStep => word_of(&STEPS, &self.inch_step),
                Setting::Currency => self.currency.to_string(),
                Setting::Dialect => word_of(&DIALECTS, &self.dialect),
                Setting::DecimalMark => word_of(&DECIMAL_MARKS, &self.decimal_comma),
                Setting::PriceEnding => out.measure(self.price_ending),
                Setting::Deposit => out.share(self.deposit),
                Setting::SmallestRemnant => out.measure(self.smallest_remnant),
                Setting::Market => self.market.word().to_owned(),
            };
            out.row([name.to_owned(), value])?;
        }
        out.end()
    }
}

#[derive(Clone, Copy)]
enum Setting {
    Tape,
    TapeStep,
    Currency,
    Dialect,
    DecimalMark,
    PriceEnding,
    Deposit,
    SmallestRemnant,
    Market,
}

const SETTING: &str = "setting";
pub(super) const VALUE: &str = "value";

const LAYOUT: Layout =
    Layout { columns: &[Column::words(SETTING).needed(), Column::words(VALUE).needed()], others: None };

const SETTINGS: [(&str, Setting); 9] = [
    ("tape", Setting::Tape),
    ("tape step", Setting::TapeStep),
    ("currency", Setting::Currency),
    ("dialect", Setting::Dialect),
    ("decimal mark", Setting::DecimalMark),
    ("price ending", Setting::PriceEnding),
    ("deposit", Setting::Deposit),
    ("smallest remnant", Setting::SmallestRemnant),
    ("market", Setting::Market),
];

const TAPES: [(&str, Tape); 2] = [("inch", Tape::Inch), ("metric", Tape::Metric)];

const STEPS: [(&str, InchStep); 4] = [
    ("1/8 in", InchStep::Eighth),
    ("1/4 in", InchStep::Quarter),
    ("1/16 in", InchStep::Sixteenth),
    ("1/32 in", InchStep::ThirtySecond),
];

const CURRENCY_WORDS: [(&str, char); 3] = [("$", '$'), ("£", '£'), ("€", '€')];

const DIALECTS: [(&str, Dialect); 2] =
    [("comma and point", Dialect::CommaAndPoint), ("semicolon and decimal comma", Dialect::SemicolonAndComma)];

const DECIMAL_MARKS: [(&str, bool); 2] = [("point", false), ("comma", true)];

fn word_of<T: PartialEq>(words: &[(&str, T)], value: &T) -> String {
    words.iter().find(|(_, known)| known == value).map_or(String::new(), |(word, _)| (*word).to_owned())
}

fn stated_currency(text: &CheckedFile) -> Option<char> {
    let column = |name: &str| text.headings.iter().position(|heading| heading.name == name);
    let (setting, value) = (column(SETTING)?, column(VALUE)?);
    let row =
        text.csv.rows.iter().find(|row| row.fields.get(setting).is_some_and(|name| names::key(name) == "currency"))?;
    row.fields.get(value)?.chars().next().filter(|sign| CURRENCIES.contains(sign))
}

impl<W: io::Write> CsvOut<W> {
    /// Begins a text with its headings, in the dialect of the settings.
    pub(super) fn begin<'h>(
        settings: &Settings,
        out: W,
        headings: impl IntoIterator<Item = &'h str>,
    ) -> io::Result<Self> {
        Self::begin_as((settings.dialect, settings.file_style(), settings.file_reading()), out, headings)
    }
}
