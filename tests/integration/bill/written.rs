//! Amounts as people and CSV files write them, as plain numbers: millimetres, minutes, counts, dollars.
//!
//! Written for these tests alone; shares no code with the program.

/// What an amount measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// A count or a share.
    Number,
    /// In millimetres.
    Length,
    /// In minutes.
    Time,
    /// In dollars.
    Money,
}

/// An amount, and how far another figure may be off and still mean the same.
#[derive(Clone, Copy, Debug)]
pub(super) struct Amount {
    pub(super) kind: Kind,
    pub(super) value: f64,
    /// Half of the last digit if at least four follow the point; otherwise the noise of nine digits.
    pub(super) slack: f64,
}

/// The units: name, kind, and size in the measure of that kind.
const UNITS: [(&str, Kind, f64); 9] = [
    ("in", Kind::Length, 25.4),
    ("ft", Kind::Length, 304.8),
    ("yd", Kind::Length, 914.4),
    ("mm", Kind::Length, 1.0),
    ("cm", Kind::Length, 10.0),
    ("m", Kind::Length, 1000.0),
    ("min", Kind::Time, 1.0),
    ("h", Kind::Time, 60.0),
    ("%", Kind::Number, 0.01),
];

/// CSV files have nine digits of every figure.
const NOISE: f64 = 2e-8;

impl Amount {
    fn new(kind: Kind, value: f64, slack: f64) -> Self {
        Self { kind, value, slack: slack.max(value.abs() * NOISE) }
    }

    /// Reads a figure with its unit: `12`, `1/2 in`, `14 3/8 in`, `2 yd 6 in`, `12.3456 m`, `$4.50`; `None` for
    /// anything else.
    pub(super) fn read(text: &str) -> Option<Self> {
        if let Some(money) = text.trim().strip_prefix('$') {
            return Some(Self::new(Kind::Money, money.parse().ok()?, 0.0));
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        let mut sum: Option<Self> = None;
        let mut waiting: Option<(f64, f64)> = None;
        for word in words {
            if let Some((_, kind, size)) = UNITS.iter().find(|(name, ..)| *name == word) {
                let (value, slack) = waiting.take()?;
                let before = sum.filter(|sum| sum.kind == *kind).map_or((0.0, 0.0), |sum| (sum.value, sum.slack));
                if sum.is_some_and(|sum| sum.kind != *kind) {
                    return None;
                }
                sum = Some(Self::new(*kind, before.0 + value * size, before.1 + slack * size));
            } else {
                let (value, slack) = figure(word)?;
                let (whole, _) = waiting.unwrap_or((0.0, 0.0));
                waiting = Some((whole + value, slack));
            }
        }
        match (sum, waiting) {
            (None, Some((value, slack))) => Some(Self::new(Kind::Number, value, slack)),
            (sum, None) => sum,
            (Some(_), Some(_)) => None,
        }
    }

    /// Reads a plain figure whose unit is in its heading or in another field; `None` if the field is empty.
    pub(super) fn in_unit(figure: &str, unit: &str) -> Option<Self> {
        if figure.is_empty() {
            return None;
        }
        if unit == "$" {
            return Self::read(&format!("${figure}"));
        }
        Self::read(&format!("{figure} {unit}"))
    }

    /// Whether another amount means the same.
    pub(super) fn agrees_with(self, other: Self) -> bool {
        self.kind == other.kind && (self.value - other.value).abs() <= self.slack + other.slack + 1e-9
    }

    /// Whether it is zero, or less than any tape shows.
    pub(super) fn is_zero(self) -> bool {
        self.value.abs() < 1e-6
    }
}

/// The sum of amounts of one kind; `None` if there are none.
pub(super) fn sum(amounts: impl IntoIterator<Item = Amount>) -> Option<Amount> {
    amounts.into_iter().reduce(|sum, more| {
        assert_eq!(sum.kind, more.kind, "amounts of two kinds are added");
        Amount { value: sum.value + more.value, slack: sum.slack + more.slack, ..sum }
    })
}

/// A number or a fraction, with half of its last digit if that counts.
fn figure(word: &str) -> Option<(f64, f64)> {
    if let Some((above, below)) = word.split_once('/') {
        let (above, below): (f64, f64) = (above.parse().ok()?, below.parse().ok()?);
        return Some((above / below, 0.0));
    }
    let value: f64 = word.parse().ok()?;
    let digits = word.split_once('.').map_or(0, |(_, digits)| digits.len());
    let slack = if digits >= 4 { 0.5 * 0.1_f64.powi(i32::try_from(digits).ok()?) } else { 0.0 };
    Some((value, slack))
}

#[test]
fn amounts_are_read_as_they_are_written() {
    let value = |text: &str| Amount::read(text).map(|amount| amount.value);
    assert_eq!(value("2 yd 6 in"), Some(78.0 * 25.4));
    assert_eq!(value("14 3/8 in"), Some(14.375 * 25.4));
    assert_eq!(value("1/2"), Some(0.5));
    assert_eq!(value("$4.50"), Some(4.5));
    assert_eq!(value("1 h 20 min"), Some(80.0));
    for wrong in ["", "in", "2 yd 6", "3 inn", "1 h 2 in", "about 3 in"] {
        assert!(Amount::read(wrong).is_none(), "{wrong}");
    }
    let same = |one: &str, other: &str| Amount::read(one).unwrap().agrees_with(Amount::read(other).unwrap());
    assert!(same("19.6778 yd", "19.67777778 yd") && !same("19.6778 yd", "19.6780 yd"));
    assert!(same("159 7/30 min", "159.2333333 min") && !same("159 min", "159.2333333 min"));
    assert!(!same("1 in", "1 min") && !same("$0.10", "$0.11"));
}
