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

#[cfg(test)]
mod tests {
    use super::*;

    fn inch() -> Settings {
        Settings { tape: Tape::Inch, ..Settings::default() }
    }

    fn metric() -> Settings {
        Settings { tape: Tape::Metric, currency: '£', ..Settings::default() }
    }

    #[test]
    fn a_number_alone_is_in_the_unit_that_goes_without_saying() {
        let (inch, metric) = (inch(), metric());
        let (here, there) = (Typed { settings: &inch }, Typed { settings: &metric });
        assert_eq!((here.length("43 1/2"), there.length("110")), ("43 1/2 in".to_owned(), "110 cm".to_owned()));
        assert_eq!((here.length("110 cm"), here.length(" wide ")), ("110 cm".to_owned(), "wide".to_owned()));
        assert_eq!((here.minutes("12"), here.minutes("2 h")), ("12 min".to_owned(), "2 h".to_owned()));
        assert_eq!((here.share("8"), here.share("8 %")), ("8 %".to_owned(), "8 %".to_owned()));
        assert_eq!((here.length("$8"), here.length("8 %")), ("$8.00".to_owned(), "8 %".to_owned()));
        for typed in ["9.25", "$9.25", " 9,25 "] {
            assert_eq!(here.amount(typed), "$9.25", "{typed}");
        }
        assert_eq!((here.amount(".5"), here.amount("9.25 €")), ("$0.50".to_owned(), "9.25 €".to_owned()));
        assert_eq!(there.amount("9.25"), "£9.25");
    }

    #[test]
    fn money_by_the_hour_is_typed_in_many_ways() {
        let settings = inch();
        let own = Typed { settings: &settings };
        for typed in ["21", "$21", "21/h", "21 / h", "$21/h", "21 an hour", "$21 per hour"] {
            assert_eq!(own.by_the_hour(typed), "$21.00/h", "{typed}");
            assert_eq!(own.by_the_hour_or_share(typed), "$21.00/h", "{typed}");
        }
        assert_eq!(own.by_the_hour("21 in"), "21 in");
        assert_eq!(own.by_the_hour("much"), "much");
        assert_eq!(own.by_the_hour_or_share("45 %"), "45 %");
    }

    #[test]
    fn a_price_says_what_it_buys() {
        let (inch, metric) = (inch(), metric());
        let own = Typed { settings: &inch };
        let fields = |price: &str, price_for: &str, sold_by: &str, put_up: &str| PriceFields {
            price: price.to_owned(),
            price_for: price_for.to_owned(),
            sold_by: sold_by.to_owned(),
            put_up: put_up.to_owned(),
        };
        for (typed, wanted) in [
            ("9.25/yd", fields("$9.25/yd", "", "1/8 yd", "")),
            ("8.40/m", fields("$8.40/m", "", "0.1 m", "")),
            ("0.18 each", fields("$0.18", "each", "each", "")),
            ("$0.18 / each", fields("$0.18", "each", "each", "")),
            ("4.40 for 3000 yd", fields("$4.40", "put-up", "put-up", "3000 yd")),
            ("3.20 for 36", fields("$3.20", "put-up", "put-up", "36 in")),
        ] {
            assert_eq!(own.price(typed).unwrap(), wanted, "{typed}");
        }
        let refused = own.price("45").unwrap_err();
        assert_eq!(refused.message, "“45” does not say what it buys");
        assert_eq!(refused.hint.as_deref(), Some("type $45/yd, $45 each, or $45 for 25 yd"));
        let refused = Typed { settings: &metric }.price("£45").unwrap_err();
        assert_eq!(refused.hint.as_deref(), Some("type £45/m, £45 each, or £45 for 25 m"));
    }
}
