//! Parses quantities as a person writes them: the only tokenizer for cells, recipes and CSV fields.
//!
//! | written | read as |
//! |---|---|
//! | `14.5in`, `14 1/2 in`, `14½ in`, `14 1/2"` | fourteen and a half inches |
//! | `5' 3"`, `2 yd 6 in`, `1 h 20 min` | a compound of one system, falling sizes |
//! | `$4.50`, `$4.50/yd`, `60 g/m^2` | money, a price, a cloth weight |
//! | `25 %` | a quarter |
//! | `2 in ± 1/8 in` | a spread |
//!
//! Numbers without a unit are left to the script language, except `14½` and `14 1/2`, which it cannot read. Decimals
//! and fractions are scaled exactly before they become a float.

use super::dimension::Dimension;
use super::literal_error::{LiteralError, LiteralErrorKind};
use super::number;
use super::unit::{Liked, Unit, UnitExpression};
use super::value::Quantity;
use std::ops::Range;

/// How quantities are written in one workshop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The workshop's only currency sign.
    pub currency: char,
    /// Reads `2,5` as two and a half. True only in files of that dialect, never in cells or recipes.
    pub decimal_comma: bool,
}

impl Default for Reading {
    fn default() -> Self {
        Self { currency: '$', decimal_comma: false }
    }
}

/// The currency signs that are understood; a workshop uses one of them.
pub const CURRENCIES: [char; 3] = ['$', '£', '€'];

/// The value of a literal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LiteralValue {
    /// One quantity.
    Quantity(Quantity),
    /// A quantity with a tolerance.
    Spread {
        /// The middle.
        middle: Quantity,
        /// The tolerance to either side.
        half: Quantity,
    },
}

/// A literal found in a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParsedLiteral {
    /// Its value.
    pub value: LiteralValue,
    /// The byte after the literal.
    pub end: usize,
}

/// Words of scripts and cells that may follow a number; none is a unit.
const KEYWORDS: [&str; 20] = [
    "if", "else", "while", "until", "for", "do", "as", "where", "and", "or", "switch", "return", "throw", "within",
    "from", "to", "by", "over", "show", "with",
];

/// Parses the literal at byte `start`, which must hold a digit, a fraction sign, a currency sign or a point before a
/// digit. Returns `None` for a plain number, which the script language reads itself.
///
/// `after_slash` means that a division sign comes before it.
pub fn literal_at(
    text: &str,
    start: usize,
    reading: Reading,
    after_slash: bool,
) -> Result<Option<ParsedLiteral>, LiteralError> {
    Scanner { text, reading }.literal(start, after_slash)
}

/// Parses a whole field that must be one quantity: `14 1/2 in`, `-3 cm`, `25`, `$6.50`.
pub fn read_quantity(text: &str, reading: Reading) -> Result<LiteralValue, LiteralError> {
    let scanner = Scanner { text, reading };
    let start = text.len() - text.trim_start().len();
    let end = text.trim_end().len();
    let not_a_quantity =
        || scanner.error(start.min(end)..end, LiteralErrorKind::NotAQuantity { written: text.trim().to_owned() });
    let (start, sign) = match text.get(start..).and_then(|t| t.strip_prefix(['-', '−'])) {
        Some(rest) => (text.len() - rest.trim_start().len(), -1.0),
        None => (start, 1.0),
    };
    let found = match scanner.literal(start, false)? {
        Some(found) => found,
        None => scanner.plain(start).ok_or_else(not_a_quantity)??,
    };
    if let Some(rest) = text.get(found.end..end).filter(|rest| !rest.trim().is_empty()) {
        let written = rest.trim().to_owned();
        return Err(scanner.error(end - rest.trim_start().len()..end, LiteralErrorKind::Trailing { written }));
    }
    Ok(match found.value {
        LiteralValue::Quantity(q) if sign < 0.0 => LiteralValue::Quantity(q.negated()),
        LiteralValue::Spread { middle, half } if sign < 0.0 => LiteralValue::Spread { middle: middle.negated(), half },
        value => value,
    })
}

/// Parses a unit alone, as in `band as yd` or a heading: `cm`, `oz/yd^2`, `$/yd`, `yd in` for a compound.
pub fn read_unit(text: &str, reading: Reading) -> Result<UnitExpression, LiteralError> {
    let scanner = Scanner { text, reading };
    let start = text.len() - text.trim_start().len();
    let end = text.trim_end().len();
    let unknown = || {
        let written = text.trim().to_owned();
        scanner.error(start.min(end)..end, LiteralErrorKind::UnknownExpression { written })
    };
    if let Some((large, small)) = text.trim().split_once(' ') {
        return match (Unit::named(large), Unit::named(small.trim())) {
            (Some(large), Some(small)) if next_smaller(large) == Some(small) => {
                let mut unit = UnitExpression::of(large);
                unit.liked.compound = true;
                Ok(unit)
            }
            _ => Err(unknown()),
        };
    }
    let first = scanner.char_at(start).filter(|c| CURRENCIES.contains(c) || *c == '%');
    let (unit, at) = match first {
        Some('%') => (UnitExpression::of(Unit::Percent), start + 1),
        Some(sign) => (scanner.currency(start, sign)?, start + sign.len_utf8()),
        None => scanner.unit_word(start).map_err(|_| unknown())?.ok_or_else(unknown)?,
    };
    let (unit, at) = scanner.rate(unit, at);
    if at == end { Ok(unit) } else { Err(unknown()) }
}

impl UnitExpression {
    fn of(unit: Unit) -> Self {
        let (numerator, denominator) = unit.step_fraction();
        Self {
            dimension: unit.dimension(),
            liked: Liked::unit(unit),
            steps: (i128::from(numerator), i128::from(denominator)),
        }
    }

    /// `value` of this unit.
    pub fn times(self, value: f64) -> Quantity {
        let steps = value * number::from_wide(self.steps.0) / number::from_wide(self.steps.1);
        Quantity::from_steps(steps, self.dimension).liking(self.liked)
    }

    /// The magnitude of a quantity in this unit. The dimensions must be equal; this is not checked.
    pub fn count_in(self, quantity: Quantity) -> f64 {
        quantity.steps() * number::from_wide(self.steps.1) / number::from_wide(self.steps.0)
    }
}

/// The smaller unit that follows a larger one in a compound.
fn next_smaller(large: Unit) -> Option<Unit> {
    match large {
        Unit::Yard | Unit::Foot => Some(Unit::Inch),
        Unit::Metre => Some(Unit::Centimetre),
        Unit::Hour => Some(Unit::Minute),
        Unit::Year => Some(Unit::Month),
        Unit::Pound => Some(Unit::Ounce),
        Unit::Kilogram => Some(Unit::Gram),
        Unit::Minute => Some(Unit::Second),
        _ => None,
    }
}

/// A number as written: the fraction `numerator / denominator`.
#[derive(Clone, Copy)]
struct Written {
    numerator: i128,
    denominator: i128,
    /// A bare `n/d`, with no whole part before it.
    bare_fraction: bool,
    /// Has a part that the script language cannot read: `½`, or a fraction after a whole number.
    mixed: bool,
    end: usize,
}

struct Scanner<'t> {
    text: &'t str,
    reading: Reading,
}

impl Scanner<'_> {
    fn error(&self, span: Range<usize>, kind: LiteralErrorKind) -> LiteralError {
        debug_assert!(self.text.is_char_boundary(span.start.min(self.text.len())));
        LiteralError { span, kind }
    }

    fn rest(&self, at: usize) -> &str {
        self.text.get(at..).unwrap_or_default()
    }

    fn slice(&self, span: Range<usize>) -> String {
        self.text.get(span).unwrap_or_default().to_owned()
    }

    fn char_at(&self, at: usize) -> Option<char> {
        self.rest(at).chars().next()
    }

    fn skip_blanks(&self, at: usize) -> usize {
        let rest = self.rest(at);
        at + (rest.len() - rest.trim_start_matches([' ', '\t', '\u{a0}']).len())
    }

    fn digits(&self, at: usize) -> Option<(i128, usize)> {
        let rest = self.rest(at);
        let digits = &rest.get(..rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len()))?;
        if digits.is_empty() || digits.len() > 15 {
            return None;
        }
        Some((digits.parse().ok()?, at + digits.len()))
    }

    /// `14`, `14.5`, `.5`, `14½`, `½`, `14 1/2`, `1/2`.
    fn number(&self, start: usize) -> Result<Option<Written>, LiteralError> {
        if let Some((numerator, denominator)) = self.char_at(start).and_then(fraction_sign) {
            let end = start + self.char_at(start).map_or(0, char::len_utf8);
            return Ok(Some(Written { numerator, denominator, bare_fraction: false, mixed: true, end }));
        }
        let point_first = self.is_point(start) && self.rest(start + 1).starts_with(|c: char| c.is_ascii_digit());
        let (whole, at) = match self.digits(start) {
            Some(found) => found,
            None if point_first => (0, start),
            None => {
                let run = self.rest(start).bytes().take_while(u8::is_ascii_digit).count();
                return if run > 15 {
                    Err(self.error(start..start + run, LiteralErrorKind::TooLong))
                } else {
                    Ok(None)
                };
            }
        };
        let mut written = Written { numerator: whole, denominator: 1, bare_fraction: false, mixed: false, end: at };
        if self.is_point(at) && self.rest(at + 1).starts_with(|c: char| c.is_ascii_digit()) {
            let (decimals, end) = self
                .digits(at + 1)
                .filter(|(_, end)| end - start <= 17)
                .ok_or_else(|| self.error(start..at + 1, LiteralErrorKind::TooLong))?;
            let scale = 10i128.pow(u32::try_from(end - at - 1).unwrap_or(0));
            (written.numerator, written.denominator) = (whole * scale + decimals, scale);
            written.end = end;
            return Ok(Some(written));
        }
        if let Some((numerator, denominator)) = self.char_at(at).and_then(fraction_sign) {
            let end = at + self.char_at(at).map_or(0, char::len_utf8);
            let (numerator, denominator) = (whole * denominator + numerator, denominator);
            return Ok(Some(Written { numerator, denominator, bare_fraction: false, mixed: true, end }));
        }
        if let Some((denominator, end)) = self.fraction_tail(at) {
            if denominator == 0 {
                return Err(self.error(start..end, LiteralErrorKind::ZeroBelow));
            }
            return Ok(Some(Written { numerator: whole, denominator, bare_fraction: true, mixed: false, end }));
        }
        let gap = self.skip_blanks(at);
        if gap > at {
            let mixed = self.digits(gap).and_then(|(numerator, end)| Some((numerator, self.fraction_tail(end)?)));
            if let Some((numerator, (denominator, end))) = mixed {
                if denominator == 0 {
                    return Err(self.error(gap..end, LiteralErrorKind::ZeroBelow));
                }
                let numerator = whole * denominator + numerator;
                return Ok(Some(Written { numerator, denominator, bare_fraction: false, mixed: true, end }));
            }
            if let Some((numerator, denominator)) = self.char_at(gap).and_then(fraction_sign) {
                let end = gap + self.char_at(gap).map_or(0, char::len_utf8);
                let numerator = whole * denominator + numerator;
                return Ok(Some(Written { numerator, denominator, bare_fraction: false, mixed: true, end }));
            }
        }
        Ok(Some(written))
    }

    fn is_point(&self, at: usize) -> bool {
        match self.char_at(at) {
            Some('.') => true,
            Some(',') => self.reading.decimal_comma,
            _ => false,
        }
    }

    /// The `/8` of `3/8`, written without blanks and not followed by more of the number.
    fn fraction_tail(&self, at: usize) -> Option<(i128, usize)> {
        let denominator = self.rest(at).strip_prefix('/')?;
        let (denominator, end) = self.digits(self.text.len() - denominator.len())?;
        let more =
            self.rest(end).starts_with(['.', '_']) && self.rest(end + 1).starts_with(|c: char| c.is_ascii_digit());
        (!more).then_some((denominator, end))
    }

    /// Parses a plain number, for a whole field.
    fn plain(&self, start: usize) -> Option<Result<ParsedLiteral, LiteralError>> {
        match self.number(start) {
            Err(error) => Some(Err(error)),
            Ok(None) => None,
            Ok(Some(written)) => {
                let value = LiteralValue::Quantity(Quantity::number(exact(written.numerator, written.denominator)));
                Some(Ok(ParsedLiteral { value, end: written.end }))
            }
        }
    }

    fn literal(&self, start: usize, after_slash: bool) -> Result<Option<ParsedLiteral>, LiteralError> {
        let Some(first) = self.number_with_unit(start, after_slash)? else { return Ok(None) };
        let mut total = first;
        let mut last = first.unit;
        // 2 yd 6 in, 5' 3", 1 h 20 min
        while let Some(large) = last {
            let gap = self.skip_blanks(total.end);
            if !self.rest(gap).starts_with(|c: char| c.is_ascii_digit() || fraction_sign(c).is_some()) {
                break;
            }
            let Some(next) = self.number_with_unit(gap, false)? else { break };
            let whole = start..next.end;
            let Some(small) = next.unit.filter(|small| small.dimension() == large.dimension()) else { break };
            let sum = format!("{} + {}", self.slice(start..total.end), self.slice(gap..next.end));
            if large.system() != small.system() {
                let written = self.slice(whole.clone());
                return Err(self.error(whole, LiteralErrorKind::TwoSystems { written, sum }));
            }
            if large.steps() <= small.steps() {
                return Err(self.error(whole, LiteralErrorKind::NotFalling { sum }));
            }
            let mut liked = first.quantity.liked();
            liked.compound = next_smaller(first.unit.unwrap_or(large)).is_some();
            let added = total.quantity.plus(next.quantity);
            let added = added.map_err(|_| self.error(whole, LiteralErrorKind::TooLong))?;
            total = Part { quantity: added.liking(liked), unit: next.unit, end: next.end };
            last = next.unit;
        }
        self.spread(start, total).map(Some)
    }

    fn spread(&self, start: usize, total: Part) -> Result<ParsedLiteral, LiteralError> {
        let gap = self.skip_blanks(total.end);
        let Some(after) = ["±", "+/-"].iter().find_map(|sign| self.rest(gap).strip_prefix(sign)) else {
            return Ok(ParsedLiteral { value: LiteralValue::Quantity(total.quantity), end: total.end });
        };
        let at = self.skip_blanks(self.text.len() - after.len());
        let half = self.number_with_unit(at, false)?;
        match half {
            Some(half) if half.quantity.dimension() == total.quantity.dimension() => Ok(ParsedLiteral {
                value: LiteralValue::Spread { middle: total.quantity, half: half.quantity },
                end: half.end,
            }),
            _ => Err(self.error(start..at, LiteralErrorKind::SpreadSides)),
        }
    }

    /// Parses one number with its unit; `None` for a plain number that the script language can read.
    fn number_with_unit(&self, start: usize, after_slash: bool) -> Result<Option<Part>, LiteralError> {
        if let Some(sign) = self.char_at(start).filter(|c| CURRENCIES.contains(c)) {
            let unit = self.currency(start, sign)?;
            let at = start + sign.len_utf8();
            let Some(written) = self.number(at)? else { return Ok(None) };
            let (unit, end) = self.rate(unit, written.end);
            return Ok(Some(part(written, unit, None, end)));
        }
        let Some(written) = self.number(start)? else { return Ok(None) };
        let Some((unit, single, end)) = self.unit_after(&written, start)? else {
            let plain = written.mixed.then(|| Part {
                quantity: Quantity::number(exact(written.numerator, written.denominator)),
                unit: None,
                end: written.end,
            });
            return Ok(plain);
        };
        if written.bare_fraction && after_slash {
            let written = self.slice(start..end);
            return Err(self.error(start..end, LiteralErrorKind::FractionAfterSlash { written }));
        }
        Ok(Some(part(written, unit, single, end)))
    }

    /// Parses the unit after a number. Returns the whole unit, the simple unit if it is one, and the end byte.
    fn unit_after(
        &self,
        written: &Written,
        start: usize,
    ) -> Result<Option<(UnitExpression, Option<Unit>, usize)>, LiteralError> {
        let at = self.inch_mark_apart(written.end).unwrap_or(written.end);
        let mark = match self.char_at(at) {
            Some('"' | '″' | '”') => Some(Unit::Inch),
            Some('\'' | '′' | '’') => Some(Unit::Foot),
            _ => None,
        };
        if let Some(unit) = mark {
            let end = at + self.char_at(at).map_or(0, char::len_utf8);
            return Ok(Some((UnitExpression::of(unit), Some(unit), end)));
        }
        let gap = self.skip_blanks(at);
        match self.char_at(gap) {
            Some('%') => return Ok(Some((UnitExpression::of(Unit::Percent), None, gap + 1))),
            Some(sign) if CURRENCIES.contains(&sign) && sign != '$' => {
                let unit = self.currency(gap, sign)?;
                let (unit, end) = self.rate(unit, gap + sign.len_utf8());
                return Ok(Some((unit, None, end)));
            }
            _ => {}
        }
        let Some((simple, end)) = self.unit_word(gap)? else { return Ok(None) };
        if simple.liked == Liked::unit(Unit::Inch) {
            let bracket = self.skip_blanks(end);
            if self.rest(bracket).starts_with('[') {
                return Err(self.error(start..end, LiteralErrorKind::Membership));
            }
        }
        let word = self.slice(gap..end);
        let single = Unit::named(&word);
        let (unit, rated) = self.rate(simple, end);
        Ok(Some((unit, single.filter(|_| rated == end), rated)))
    }

    /// Where an inch mark stands that a blank keeps from its number: `14 "`. A text cannot follow a number.
    fn inch_mark_apart(&self, at: usize) -> Option<usize> {
        let gap = self.skip_blanks(at);
        self.rest(gap).starts_with(['"', '″', '”']).then_some(gap)
    }

    fn currency(&self, at: usize, sign: char) -> Result<UnitExpression, LiteralError> {
        if sign != self.reading.currency {
            let kind = LiteralErrorKind::OtherCurrency { written: sign, ours: self.reading.currency };
            return Err(self.error(at..at + sign.len_utf8(), kind));
        }
        Ok(UnitExpression { dimension: Dimension::MONEY, liked: Liked::default(), steps: (10_000, 1) })
    }

    /// Parses a unit word with its power, `yd` or `m^2`; `None` at a keyword or if there is no word.
    fn unit_word(&self, at: usize) -> Result<Option<(UnitExpression, usize)>, LiteralError> {
        let rest = self.rest(at);
        if !rest.starts_with(|c: char| c.is_alphabetic()) {
            return Ok(None);
        }
        let length = rest.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(rest.len());
        let (word, end) = (self.slice(at..at + length), at + length);
        if KEYWORDS.contains(&word.as_str()) {
            return Ok(None);
        }
        let Some(unit) = Unit::named(&word) else {
            let nearest = Unit::nearest(&word);
            return Err(self.error(at..end, LiteralErrorKind::UnknownUnit { written: word, nearest }));
        };
        let mut expression = UnitExpression::of(unit);
        let power = self.rest(end).strip_prefix('^').and_then(|t| t.chars().next()).and_then(|c| c.to_digit(10));
        let Some(power @ 1..=3) = power else { return Ok(Some((expression, end))) };
        let dimension = i8::try_from(power).ok().and_then(|p| unit.dimension().to_the(p));
        expression.dimension = dimension.unwrap_or(unit.dimension());
        expression.steps = (expression.steps.0.pow(power), expression.steps.1.pow(power));
        Ok(Some((expression, end + 2)))
    }

    /// Parses the `/yd` or `/m^2` directly after a unit.
    fn rate(&self, unit: UnitExpression, at: usize) -> (UnitExpression, usize) {
        let Some(denominator) = self.rest(at).strip_prefix('/') else { return (unit, at) };
        let start = self.text.len() - denominator.len();
        if !denominator.starts_with(|c: char| c.is_alphabetic()) {
            return (unit, at);
        }
        // A variable may follow the slash; only a known unit makes a rate.
        let Ok(Some((denominator, end))) = self.unit_word(start) else { return (unit, at) };
        if self.rest(end).starts_with(['(', '.', ':']) && !self.rest(end + 1).starts_with(char::is_whitespace) {
            return (unit, at);
        }
        let Some(dimension) = unit.dimension.per(denominator.dimension) else { return (unit, at) };
        let steps = (unit.steps.0 * denominator.steps.1, unit.steps.1 * denominator.steps.0);
        (UnitExpression { dimension, liked: unit.liked.or(denominator.liked), steps }, end)
    }
}

#[derive(Clone, Copy)]
struct Part {
    quantity: Quantity,
    unit: Option<Unit>,
    end: usize,
}

fn part(written: Written, unit: UnitExpression, single: Option<Unit>, end: usize) -> Part {
    let steps = match (written.numerator.checked_mul(unit.steps.0), written.denominator.checked_mul(unit.steps.1)) {
        (Some(numerator), Some(denominator)) => exact(numerator, denominator),
        _ => exact(written.numerator, written.denominator) * exact(unit.steps.0, unit.steps.1),
    };
    // Once read, a dozen is a plain number.
    let liked = match single {
        Some(Unit::Dozen | Unit::Gross) => Liked::default(),
        _ => unit.liked,
    };
    Part { quantity: Quantity::from_steps(steps, unit.dimension).liking(liked), unit: single, end }
}

/// A quotient rounded once, or not at all if it is whole.
fn exact(numerator: i128, denominator: i128) -> f64 {
    if denominator != 0 && numerator % denominator == 0 {
        number::from_wide(numerator / denominator)
    } else {
        number::from_wide(numerator) / number::from_wide(denominator)
    }
}

/// Whether a literal may begin with this character.
pub fn may_begin(c: char) -> bool {
    c.is_ascii_digit() || fraction_sign(c).is_some() || CURRENCIES.contains(&c)
}

fn fraction_sign(c: char) -> Option<(i128, i128)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        _ => return None,
    })
}

#[cfg(test)]
mod tests;
