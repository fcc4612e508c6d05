//! What a person types of goods and rates at the prompt, turned into fields of the workshop's files: `43 1/2`, `9.25/yd`,
//! `4.40 for 3000 yd`, `45`.
//!
//! Units and signs that go without saying are put in; whether a field is right is left to the readers of the files.
//! Never here: questions, whole lines, files.

use super::settings::Settings;
use super::written;
use crate::diagnostic::Diagnostic;
use crate::quantity::literal::{self, CURRENCIES, LiteralValue};
use crate::quantity::{Dimension, Quantity, Reading, Tape};
use crate::table::csv_file::with_unit;

/// The fields of a price: what is paid, what for, in which steps it is sold, and how much is in one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct PriceFields {
    pub(super) price: String,
    pub(super) price_for: String,
    pub(super) sold_by: String,
    pub(super) put_up: String,
}

/// Fields as a person types them in one workshop.
#[derive(Clone, Copy, Debug)]
pub(super) struct Typed<'s> {
    pub(super) settings: &'s Settings,
}

impl Typed<'_> {
    /// A length; a number alone is on the workshop's tape.
    pub(super) fn length(self, typed: &str) -> String {
        let unit = if self.settings.tape == Tape::Inch { "in" } else { "cm" };
        self.with(typed, unit)
    }

    /// A time; a number alone is in minutes.
    pub(super) fn minutes(self, typed: &str) -> String {
        self.with(typed, "min")
    }

    /// A share; a number alone is in per cent.
    pub(super) fn share(self, typed: &str) -> String {
        self.with(typed, "%")
    }

    /// An amount of money.
    pub(super) fn amount(self, typed: &str) -> String {
        self.field(&self.money(typed))
    }

    /// Money by the hour: `21`, `$21`, `21/h`, `21 an hour`.
    pub(super) fn by_the_hour(self, typed: &str) -> String {
        let amount = ["an hour", "per hour", "/ h", "/h"].iter().find_map(|end| typed.strip_suffix(end));
        let signed = self.money(amount.unwrap_or(typed).trim());
        let is_money = self.quantity(&signed).is_some_and(|money| money.dimension() == Dimension::MONEY);
        if is_money { self.field(&format!("{signed}/h")) } else { self.field(typed) }
    }

    /// Money by the hour, or a share that is written in per cent.
    pub(super) fn by_the_hour_or_share(self, typed: &str) -> String {
        if typed.ends_with('%') { self.field(typed) } else { self.by_the_hour(typed) }
    }

    /// A price with what it buys: `9.25/yd`, `0.18 each`, `4.40 for 3000 yd`, `3.20 for 1 m`.
    ///
    /// # Errors
    /// The text does not say what the price buys.
    pub(super) fn price(self, typed: &str) -> Result<PriceFields, Diagnostic> {
        if let Some((money, put_up)) = typed.split_once(" for ") {
            let put_up = put_up.trim();
            let (price_for, sold_by) = ("put-up".to_owned(), "put-up".to_owned());
            return Ok(PriceFields {
                price: self.field(&self.money(money)),
                price_for,
                sold_by,
                put_up: self.length(put_up),
            });
        }
        let each = typed.strip_suffix("each").map(|money| money.trim_end().trim_end_matches('/').trim_end());
        if let Some(money) = each {
            let (price_for, sold_by) = ("each".to_owned(), "each".to_owned());
            return Ok(PriceFields {
                price: self.field(&self.money(money)),
                price_for,
                sold_by,
                put_up: String::new(),
            });
        }
        let price = self.money(typed);
        let is_money = self.quantity(&price).is_some_and(|price| price.dimension() == Dimension::MONEY);
        if is_money {
            let sign = self.settings.currency;
            let unit = if self.settings.tape == Tape::Inch { "yd" } else { "m" };
            let number = typed.trim_start_matches(CURRENCIES).trim();
            return Err(Diagnostic::new(format!("“{typed}” does not say what it buys"))
                .hinting(format!("type {sign}{number}/{unit}, {sign}{number} each, or {sign}{number} for 25 {unit}")));
        }
        let price = self.field(&price);
        let sold_by = selling_step(price.rsplit('/').next().unwrap_or_default().trim()).to_owned();
        Ok(PriceFields { price, sold_by, ..PriceFields::default() })
    }

    /// Money with its sign in front, where a number alone stands there.
    fn money(self, typed: &str) -> String {
        let typed = typed.trim();
        if typed.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',')) && !typed.contains(CURRENCIES) {
            format!("{}{typed}", self.settings.currency)
        } else {
            typed.to_owned()
        }
    }

    /// A text with this unit, if it is a number alone.
    fn with(self, typed: &str, unit: &str) -> String {
        let typed = typed.trim();
        let is_number = !typed.contains(|c: char| c.is_alphabetic() || c == '%' || CURRENCIES.contains(&c))
            && self.quantity(typed).is_some_and(|number| number.dimension().is_number());
        if is_number { self.field(&with_unit(typed, unit, self.settings.reading())) } else { self.field(typed) }
    }

    /// A quantity as it is written in the workshop's files; words that are none stay as they are.
    fn field(self, typed: &str) -> String {
        let (style, reading) = (self.settings.file_style(), self.settings.file_reading());
        self.quantity(typed).map_or_else(|| typed.trim().to_owned(), |found| written::measure(found, &style, reading))
    }

    /// The quantity that is typed, with a point or a comma as its decimal mark.
    pub(super) fn quantity(self, typed: &str) -> Option<Quantity> {
        let read = |reading| match literal::read_quantity(typed.trim(), reading) {
            Ok(LiteralValue::Quantity(quantity)) => Some(quantity),
            _ => None,
        };
        let reading = self.settings.reading();
        read(reading).or_else(|| read(Reading { decimal_comma: true, ..reading }))
    }
}

/// The step in which what is priced by the yard or the metre is measured off in a shop: common practice, no source.
/// Blank, for any other length, is as the price.
fn selling_step(unit: &str) -> &'static str {
    match unit {
        "yd" | "yard" => "1/8 yd",
        "m" | "metre" => "0.1 m",
        _ => "",
    }
}
