//! Shows quantities as on a tape, a clock or a price ticket.
//!
//! Text that had to be rounded starts with `≈`, or with "about" if it is to be read aloud. Only the text is rounded,
//! never the value.

use super::dimension::Dimension;
use super::number;
use super::unit::{Unit, UnitExpression};
use super::value::Quantity;

/// Relative noise of a long sum, which is not shown. Finer than the tolerance of counts and marks, because here every
/// digit is visible.
const SHOWN_NOISE: f64 = 1e-12;

/// Numbers of at least this size are shown in powers of ten.
const HUGE: f64 = 1e15;

/// The finest mark of an inch tape.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum InchStep {
    /// Quarters.
    Quarter,
    /// Eighths, as on a sewing tape.
    #[default]
    Eighth,
    /// Sixteenths.
    Sixteenth,
    /// Thirty-seconds.
    ThirtySecond,
}

impl InchStep {
    /// Marks in one inch.
    pub fn marks(self) -> i64 {
        match self {
            Self::Quarter => 4,
            Self::Eighth => 8,
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
        }
    }

    /// The length of one step.
    pub fn length(self) -> Quantity {
        Quantity::of(1.0 / number::from_whole(self.marks()), Unit::Inch)
    }
}

/// The tape a workshop measures with, which gives a bare number its unit where a length is needed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tape {
    /// Inches.
    #[default]
    Inch,
    /// Centimetres.
    Metric,
}

impl Tape {
    /// The unit of a length typed without one.
    pub fn unit(self) -> Unit {
        match self {
            Self::Inch => Unit::Inch,
            Self::Metric => Unit::Centimetre,
        }
    }

    /// The other tape.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Inch => Self::Metric,
            Self::Metric => Self::Inch,
        }
    }
}

/// How quantities are shown in one workshop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Style {
    /// The finest mark of the inch tape.
    pub inch_step: InchStep,
    /// The tape for lengths without a preferred unit.
    pub tape: Tape,
    /// The currency sign.
    pub currency: char,
    /// `2,5` instead of `2.5`.
    pub decimal_comma: bool,
    /// Words instead of signs, for reading aloud.
    pub plain: bool,
}

impl Default for Style {
    fn default() -> Self {
        Self {
            inch_step: InchStep::default(),
            tape: Tape::default(),
            currency: '$',
            decimal_comma: false,
            plain: false,
        }
    }
}

/// A text, and whether the value was rounded for it.
struct Shown {
    text: String,
    rounded: bool,
}

impl Style {
    /// Shows a quantity in its preferred units.
    pub fn show(&self, quantity: Quantity) -> String {
        let shown = self.shown(quantity);
        match (shown.rounded, self.plain) {
            (false, _) => shown.text,
            (true, false) => format!("≈ {}", shown.text),
            (true, true) => format!("about {}", shown.text),
        }
    }

    /// Shows a quantity in a given unit.
    pub fn show_in(&self, quantity: Quantity, unit: UnitExpression) -> String {
        self.show(quantity.liking(unit.liked))
    }

    /// Shows a length on this style's tape: one of the other tape in the small unit of this one, `36.8 cm` as
    /// `14 1/2 in`. Anything else is shown as by `show`.
    pub fn show_on_tape(&self, quantity: Quantity) -> String {
        self.show(self.on_tape(quantity))
    }

    /// Returns a length that is to be shown on this style's tape, if it would be on the other; other quantities as they
    /// are.
    pub fn on_tape(&self, quantity: Quantity) -> Quantity {
        let own = quantity.liked().length.unwrap_or(self.tape.unit());
        if quantity.dimension() != Dimension::LENGTH || own.system() == self.tape.unit().system() {
            return quantity;
        }
        let mut liked = quantity.liked();
        (liked.length, liked.compound) = (Some(self.tape.unit()), false);
        quantity.liking(liked)
    }

    /// Shows a length on this style's tape, at the nearest mark and without its unit or a word on rounding: for where a
    /// head tells both.
    pub fn show_bare(&self, length: Quantity) -> String {
        let unit = self.tape.unit();
        let text = self.length(length.steps(), unit, false).text;
        text.strip_suffix(unit.symbol()).map_or(text.as_str(), str::trim_end).to_owned()
    }

    /// Shows a plain number; one with more than six decimals is rounded to four, or to four figures if it is small.
    pub fn show_number(&self, value: f64) -> String {
        self.show(Quantity::number(value))
    }

    fn shown(&self, quantity: Quantity) -> Shown {
        let liked = quantity.liked();
        if let Some(unit) = liked.named.filter(|unit| unit.dimension() == quantity.dimension()) {
            let Shown { text, rounded } = self.decimal(quantity.steps() / unit.steps());
            return Shown { text: format!("{text} {}", unit.symbol()), rounded };
        }
        match quantity.dimension() {
            Dimension::NUMBER => self.decimal(quantity.steps()),
            Dimension::LENGTH if liked.whole => {
                let unit = match liked.length.unwrap_or(self.tape.unit()) {
                    Unit::Inch | Unit::Foot | Unit::Yard => Unit::Yard,
                    _ => Unit::Metre,
                };
                self.whole(quantity.steps(), unit, f64::ceil)
            }
            Dimension::LENGTH => {
                self.length(quantity.steps(), liked.length.unwrap_or(self.tape.unit()), liked.compound)
            }
            Dimension::MONEY => self.money(quantity.steps() / 10_000.0),
            Dimension::TIME if liked.compound => match liked.time {
                Some(Unit::Year | Unit::Month) => Self::age(quantity.steps()),
                _ => Self::clock(quantity.steps()),
            },
            Dimension::TIME if liked.whole => {
                self.whole(quantity.steps(), liked.time.unwrap_or(Unit::Minute), f64::round)
            }
            Dimension::TIME => self.time(quantity.steps(), liked.time.unwrap_or(Unit::Minute)),
            Dimension::MASS if liked.compound => self.pair(quantity.steps(), liked.mass.unwrap_or(Unit::Pound)),
            _ => self.general(quantity),
        }
    }

    /// A whole number of a unit.
    fn whole(&self, steps: f64, unit: Unit, rounding: fn(f64) -> f64) -> Shown {
        let value = steps / unit.steps();
        let whole = rounding(number::snapped(value));
        let text = counted(&self.fixed(whole, 0), unit);
        Shown { text, rounded: !number::is_near(value, whole) }
    }

    fn length(&self, steps: f64, unit: Unit, compound: bool) -> Shown {
        match unit {
            Unit::Inch => self.inches(steps),
            Unit::Foot => self.inches_under(steps, Unit::Foot),
            Unit::Yard => {
                // Shops sell by the eighth of a yard; anything finer reads better in yards and inches.
                let eighths = steps * 8.0 / unit.steps();
                match number::whole(eighths).filter(|_| !compound) {
                    Some(eighths) => Shown { text: format!("{} yd", fraction(eighths, 8)), rounded: false },
                    None => self.inches_under(steps, Unit::Yard),
                }
            }
            Unit::Millimetre | Unit::Centimetre | Unit::Metre | Unit::Kilometre if !compound => {
                let (decimals, scale) = match unit {
                    Unit::Millimetre => (0, 1.0),
                    Unit::Centimetre => (1, 10.0),
                    Unit::Metre => (3, 1_000.0),
                    _ => (6, 1_000_000.0),
                };
                let marks = steps / Unit::Millimetre.steps();
                let nearest = number::snapped(marks).round();
                let text = self.fixed(nearest / scale, decimals);
                Shown { text: format!("{text} {}", unit.symbol()), rounded: !number::is_near(marks, nearest) }
            }
            Unit::Metre => self.pair(steps, Unit::Metre),
            _ => {
                let Shown { text, rounded } = self.decimal(steps / unit.steps());
                Shown { text: format!("{text} {}", unit.symbol()), rounded }
            }
        }
    }

    fn inch_marks(&self, steps: f64) -> (i64, bool) {
        let marks = steps * number::from_whole(self.inch_step.marks()) / Unit::Inch.steps();
        let nearest = number::nearest_whole(number::snapped(marks)).unwrap_or(i64::MAX);
        (nearest, !number::is_near(marks, number::from_whole(nearest)))
    }

    fn inches(&self, steps: f64) -> Shown {
        let (marks, rounded) = self.inch_marks(steps);
        Shown { text: format!("{} in", fraction(marks, self.inch_step.marks())), rounded }
    }

    fn inches_under(&self, steps: f64, large: Unit) -> Shown {
        let (marks, rounded) = self.inch_marks(steps);
        let in_large = number::nearest_whole(large.steps() / Unit::Inch.steps()).unwrap_or(1) * self.inch_step.marks();
        let (whole, rest) = (marks.abs() / in_large, marks.abs() % in_large);
        let sign = if marks < 0 { "-" } else { "" };
        let text = match (whole, rest) {
            (0, rest) => format!("{sign}{} in", fraction(rest, self.inch_step.marks())),
            (whole, 0) => format!("{sign}{whole} {}", large.symbol()),
            (whole, rest) => {
                format!("{sign}{whole} {} {} in", large.symbol(), fraction(rest, self.inch_step.marks()))
            }
        };
        Shown { text, rounded }
    }

    /// Hours and whole minutes.
    fn clock(steps: f64) -> Shown {
        let minutes = steps / Unit::Minute.steps();
        let nearest = number::nearest_whole(number::snapped(minutes)).unwrap_or(i64::MAX);
        let rounded = !number::is_near(minutes, number::from_whole(nearest));
        let sign = if nearest < 0 { "-" } else { "" };
        let text = match (nearest.abs() / 60, nearest.abs() % 60) {
            (0, minutes) => format!("{sign}{minutes} min"),
            (hours, 0) => format!("{sign}{hours} h"),
            (hours, minutes) => format!("{sign}{hours} h {minutes} min"),
        };
        Shown { text, rounded }
    }

    /// Years and whole months.
    fn age(steps: f64) -> Shown {
        let months = steps / Unit::Month.steps();
        let nearest = number::nearest_whole(number::snapped(months)).unwrap_or(i64::MAX);
        let rounded = !number::is_near(months, number::from_whole(nearest));
        let sign = if nearest < 0 { "-" } else { "" };
        let several = |count: i64, unit: Unit| counted(&count.to_string(), unit);
        let text = match (nearest.abs() / 12, nearest.abs() % 12) {
            (0, months) => format!("{sign}{}", several(months, Unit::Month)),
            (years, 0) => format!("{sign}{}", several(years, Unit::Year)),
            (years, months) => format!("{sign}{} {}", several(years, Unit::Year), several(months, Unit::Month)),
        };
        Shown { text, rounded }
    }

    /// Two decimals if they are exact, otherwise one: nobody measures minutes finer.
    fn time(&self, steps: f64, unit: Unit) -> Shown {
        let value = steps / unit.steps();
        let exact = number::is_near(value * 100.0, (value * 100.0).round());
        let decimals = if exact { 2 } else { 1 };
        Shown { text: counted(&self.fixed(value, decimals), unit), rounded: !exact }
    }

    /// Pounds and ounces, kilograms and grams, metres and centimetres.
    fn pair(&self, steps: f64, large: Unit) -> Shown {
        let small = match large {
            Unit::Pound => Unit::Ounce,
            Unit::Kilogram => Unit::Gram,
            _ => Unit::Centimetre,
        };
        let per_large = large.steps() / small.steps();
        let tenths = steps * 10.0 / small.steps();
        let nearest = number::snapped(tenths).round();
        let whole = (nearest.abs() / 10.0 / per_large).floor();
        let rest = nearest.abs() / 10.0 - whole * per_large;
        let sign = if nearest < 0.0 { "-" } else { "" };
        let rest_text = self.fixed(rest, 1);
        let text = if whole == 0.0 {
            format!("{sign}{rest_text} {}", small.symbol())
        } else if rest == 0.0 {
            format!("{sign}{} {}", self.fixed(whole, 0), large.symbol())
        } else {
            format!("{sign}{} {} {rest_text} {}", self.fixed(whole, 0), large.symbol(), small.symbol())
        };
        Shown { text, rounded: !number::is_near(tenths, nearest) }
    }

    fn money(&self, value: f64) -> Shown {
        let cents = value * 100.0;
        let nearest = number::snapped(cents).round();
        let sign = if nearest < 0.0 { "-" } else { "" };
        let text = self.separated(format!("{:.2}", (nearest / 100.0).abs()));
        Shown { text: format!("{sign}{}{text}", self.currency), rounded: !number::is_near(cents, nearest) }
    }

    /// Any product of units: `$4.50/yd`, `60 g/m^2`, `12 in^2`.
    fn general(&self, quantity: Quantity) -> Shown {
        let (dimension, liked) = (quantity.dimension(), quantity.liked());
        let bases = [
            (dimension.mass, liked.mass.unwrap_or(Unit::Gram)),
            (dimension.time, liked.time.unwrap_or(Unit::Minute)),
            (dimension.length, liked.length.unwrap_or(self.tape.unit())),
        ];
        let mut value = quantity.steps();
        let (mut above, mut below) = (Vec::new(), String::new());
        for (exponent, unit) in bases {
            value /= unit.steps().powi(i32::from(exponent));
            let power = if exponent.abs() == 1 { String::new() } else { format!("^{}", exponent.abs()) };
            match exponent {
                0 => {}
                1.. => above.push(format!("{}{power}", unit.symbol())),
                _ => below.extend(["/", unit.symbol(), &power]),
            }
        }
        let Shown { text, rounded } = match dimension.money {
            0 => self.decimal(value),
            exponent => {
                value /= 10_000f64.powi(i32::from(exponent));
                self.money(value)
            }
        };
        let above = if above.is_empty() { String::new() } else { format!(" {}", above.join(" ")) };
        Shown { text: format!("{text}{above}{below}"), rounded }
    }

    /// As many decimals as the value has, up to six; otherwise four, or four significant figures of a small value.
    fn decimal(&self, value: f64) -> Shown {
        if value.abs() >= HUGE {
            return Shown { text: self.separated(format!("{value:.3e}")), rounded: true };
        }
        let fits = (0..=6).find(|decimals| {
            let scaled = value * 10f64.powi(*decimals);
            let noise = (SHOWN_NOISE * scaled.abs()).max(SHOWN_NOISE);
            (scaled - scaled.round()).abs() <= noise && scaled.abs() < HUGE
        });
        if let Some(decimals) = fits {
            return Shown { text: self.fixed(value, usize::try_from(decimals).unwrap_or(0)), rounded: false };
        }
        let leading = value.abs().log10().floor();
        let decimals = if leading >= 0.0 { 4 } else { 4 + number::nearest_whole(-leading - 1.0).unwrap_or(0).min(12) };
        Shown { text: self.fixed(value, usize::try_from(decimals).unwrap_or(4)), rounded: true }
    }

    /// A number with at most `decimals` decimals, without zeros at the end.
    fn fixed(&self, value: f64, decimals: usize) -> String {
        let text = format!("{value:.decimals$}");
        let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
        let text = if text == "-0" { "0" } else { text };
        self.separated(text.to_owned())
    }

    fn separated(&self, text: String) -> String {
        if self.decimal_comma { text.replace('.', ",") } else { text }
    }
}

/// Writes `marks / parts` as on a tape: `14 3/8`.
fn fraction(marks: i64, parts: i64) -> String {
    let sign = if marks < 0 { "-" } else { "" };
    let (whole, mut above, mut below) = (marks.abs() / parts, marks.abs() % parts, parts);
    while above % 2 == 0 && below % 2 == 0 && above != 0 {
        (above, below) = (above / 2, below / 2);
    }
    match (whole, above) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, above) => format!("{sign}{above}/{below}"),
        (whole, above) => format!("{sign}{whole} {above}/{below}"),
    }
}

/// A number and its unit; years and months are words, so they have a plural.
fn counted(number: &str, unit: Unit) -> String {
    let plural = matches!(unit, Unit::Year | Unit::Month) && !["1", "-1"].contains(&number);
    format!("{number} {}{}", unit.symbol(), if plural { "s" } else { "" })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Liked;
    use crate::quantity::literal::{self, LiteralValue, Reading};

    #[test]
    fn whole_lengths_go_up_and_whole_times_to_the_nearest() {
        let whole = |text: &str, liked: Liked| Style::default().show(read(text).liking(Liked { whole: true, ..liked }));
        // 13 yd 34 in are 13.94 yd; 31 5/8 in less than one; what is whole is shown as it is.
        for (text, shown) in [
            ("13 yd 34 in", "≈ 14 yd"),
            ("31 5/8 in", "≈ 1 yd"),
            ("36 in", "1 yd"),
            ("0 in", "0 yd"),
            ("49.91 m", "≈ 50 m"),
            ("12 cm", "≈ 1 m"),
            ("47.3 min", "≈ 47 min"),
            ("4.55 min", "≈ 5 min"),
            ("1 h 5 min", "65 min"),
        ] {
            let liked = if text.contains("min") { Liked::unit(Unit::Minute) } else { read(text).liked() };
            assert_eq!(whole(text, liked), shown, "{text}");
        }
        // What is reckoned from it is shown in full.
        let thread = read("13 yd 34 in").liking(Liked { whole: true, ..Liked::unit(Unit::Yard) });
        assert_eq!(Style::default().show(thread.plus(thread).unwrap()), "27 yd 32 in");
        assert_eq!(Style::default().show(Quantity::number(2.0).times(thread).unwrap()), "27 yd 32 in");
    }

    fn read(text: &str) -> Quantity {
        match literal::read_quantity(text, Reading::default()) {
            Ok(LiteralValue::Quantity(quantity)) => quantity,
            other => panic!("{text}: {other:?}"),
        }
    }

    #[track_caller]
    fn check_in(text: &str, unit: &str, shown: &str) {
        let unit = literal::read_unit(unit, Reading::default()).unwrap();
        assert_eq!(Style::default().show_in(read(text), unit), shown);
    }

    #[test]
    fn what_was_rounded_says_so() {
        check_in("100 cm", "in", "≈ 39 3/8 in");
        check_in("14.5 in", "cm", "≈ 36.8 cm");
        check_in("1 in", "cm", "≈ 2.5 cm");
        check_in("2 in", "mm", "≈ 51 mm");
        check_in("10 in", "cm", "25.4 cm");
        let plain = Style { plain: true, ..Style::default() };
        assert_eq!(plain.show_number(1.0 / 3.0), "about 0.3333");
        assert_eq!(Style::default().show_number(0.1 + 0.2), "0.3");
        assert_eq!(Style::default().show_number(0.375), "0.375");
        assert_eq!(Style::default().show_number(1500.0 * std::f64::consts::PI), "≈ 4712.389");
        assert_eq!(Style::default().show_number(123_456_789.05), "123456789.05");
        assert_eq!(Style::default().show_number(1e300), "≈ 1.000e300");
        assert_eq!(Style::default().show_number(1e-7 / 3.0), "≈ 0.00000003333");
    }

    #[test]
    fn yards_are_shown_as_they_are_sold() {
        check_in("126 in", "yd", "3 1/2 yd");
        check_in("1200 in", "yd", "33 yd 12 in");
        check_in("78 3/8 in", "yd in", "2 yd 6 3/8 in");
        check_in("-40 in", "yd", "-1 yd 4 in");
    }

    #[test]
    fn compounds() {
        check_in("80 min", "h min", "1 h 20 min");
        check_in("35 oz", "lb oz", "2 lb 3 oz");
        check_in("123.4 cm", "m cm", "1 m 23.4 cm");
        check_in("-90 min", "h min", "-1 h 30 min");
    }

    #[test]
    fn a_length_on_either_tape() {
        let style = Style::default();
        assert_eq!(style.show_on_tape(read("14 1/2 in")), "14 1/2 in");
        assert_eq!(style.show_on_tape(read("35 cm")), "≈ 13 3/4 in");
        assert_eq!(style.show_on_tape(read("12 min")), "12 min");
        let metric = Style { tape: Tape::Metric, ..style };
        assert_eq!(metric.show_on_tape(read("14 1/2 in")), "≈ 36.8 cm");
    }

    #[test]
    fn a_decimal_comma_where_it_is_set() {
        let style = Style { decimal_comma: true, currency: '€', ..Style::default() };
        assert_eq!(style.show(Quantity::money(4.5)), "€4,50");
        assert_eq!(style.show(read("36.8 cm")), "36,8 cm");
    }

    #[test]
    fn an_inch_tape_shows_its_finest_mark_and_none_finer() {
        let on = |inch_step: InchStep, text: &str| Style { inch_step, ..Style::default() }.show(read(text));
        // 5/64 of an inch lie next to nothing, an eighth and a sixteenth; 3/32 are a mark of the finest tape.
        assert_eq!(on(InchStep::Quarter, "14 5/64 in"), "≈ 14 in");
        assert_eq!(on(InchStep::Eighth, "14 5/64 in"), "≈ 14 1/8 in");
        assert_eq!(on(InchStep::Sixteenth, "14 5/64 in"), "≈ 14 1/16 in");
        assert_eq!(on(InchStep::ThirtySecond, "14 3/32 in"), "14 3/32 in");
        assert_eq!(on(InchStep::ThirtySecond, "14 12/32 in"), "14 3/8 in");
        let marks = [InchStep::Quarter, InchStep::Eighth, InchStep::Sixteenth, InchStep::ThirtySecond];
        assert_eq!(marks.map(InchStep::marks), [4, 8, 16, 32]);
        assert_eq!(Style::default().show(InchStep::Quarter.length()), "1/4 in");
        for (above, below, shown) in [(0, 8, "0"), (8, 8, "1"), (-3, 8, "-3/8"), (20, 8, "2 1/2"), (-21, 8, "-2 5/8")] {
            assert_eq!(fraction(above, below), shown);
        }
    }

    #[test]
    fn lengths_in_two_sizes() {
        check_in("63 in", "ft in", "5 ft 3 in");
        check_in("60 in", "ft in", "5 ft");
        check_in("6 in", "ft in", "6 in");
        check_in("-63 in", "ft in", "-5 ft 3 in");
        check_in("-6 in", "ft in", "-6 in");
        check_in("45 in", "yd", "1 1/4 yd");
        check_in("45 in", "yd in", "1 yd 9 in");
        check_in("100 cm", "m cm", "1 m");
        check_in("99.9 cm", "m cm", "99.9 cm");
        check_in("-123.4 cm", "m cm", "-1 m 23.4 cm");
        check_in("32 oz", "lb oz", "2 lb");
        check_in("3 oz", "lb oz", "3 oz");
        check_in("1200 g", "kg g", "1 kg 200 g");
        check_in("25.4 mm", "mm", "≈ 25 mm");
        check_in("1.2344 m", "m", "≈ 1.234 m");
        check_in("1.5 m", "m", "1.5 m");
    }

    #[test]
    fn times_are_shown_as_on_a_clock_or_with_two_decimals() {
        check_in("60 min", "h min", "1 h");
        check_in("59 min", "h min", "59 min");
        check_in("59.6 min", "h min", "≈ 1 h");
        check_in("80.4 min", "h min", "≈ 1 h 20 min");
        check_in("-20 min", "h min", "-20 min");
        check_in("12.25 min", "min", "12.25 min");
        check_in("12.257 min", "min", "≈ 12.3 min");
        check_in("30 months", "year month", "2 years 6 months");
        check_in("12 months", "year month", "1 year");
        check_in("1 month", "year month", "1 month");
    }

    #[test]
    fn money_is_shown_to_the_cent() {
        let style = Style::default();
        for (value, shown) in
            [(0.0, "$0.00"), (-4.5, "-$4.50"), (4.507, "≈ $4.51"), (1234.0, "$1234.00"), (-0.003, "≈ $0.00")]
        {
            assert_eq!(style.show(Quantity::money(value)), shown, "{value}");
        }
        assert_eq!(style.show(read("$4.50/yd")), "$4.50/yd");
        assert_eq!(style.show(read("2 in^2")), "2 in^2");
        assert_eq!(style.show(read("60 g/m^2")), "60 g/m^2");
    }

    #[test]
    fn a_number_has_six_decimals_or_four_figures() {
        let style = Style::default();
        for (value, shown) in [
            (0.123_456, "0.123456"),
            (0.123_456_7, "≈ 0.1235"),
            (12.345_678_9, "≈ 12.3457"),
            (0.001_234_567_89, "≈ 0.001235"),
            (0.999_999_99, "≈ 1"),
            (999_999_999_999_999.0, "999999999999999"),
            (1e15, "≈ 1.000e15"),
            (-0.25, "-0.25"),
            (-0.0, "0"),
            (1200.0, "1200"),
        ] {
            assert_eq!(style.show_number(value), shown);
        }
    }

    #[test]
    fn a_bare_length_leaves_its_unit_to_the_head() {
        let (inch, metric) = (Style::default(), Style { tape: Tape::Metric, ..Style::default() });
        assert_eq!(inch.show_bare(read("14 3/8 in")), "14 3/8");
        assert_eq!(inch.show_bare(read("36.8 cm")), "14 1/2");
        assert_eq!(metric.show_bare(read("36.8 cm")), "36.8");
        assert_eq!(metric.show_on_tape(read("2 yd 6 in")), "≈ 198.1 cm");
        assert_eq!(inch.show_on_tape(read("2 yd 6 in")), "2 yd 6 in");
        assert_eq!(metric.show_on_tape(read("1.5 m")), "1.5 m");
        assert_eq!([Tape::Inch.other(), Tape::Metric.other()], [Tape::Metric, Tape::Inch]);
        assert_eq!([Tape::Inch.unit(), Tape::Metric.unit()], [Unit::Inch, Unit::Centimetre]);
    }
}
