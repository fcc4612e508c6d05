//! The units a maker writes, each with its exact size, declared once.

use super::dimension::Dimension;
use serde::{Deserialize, Serialize};

/// A unit of the tape, the scales, the clock or the thread cone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Unit {
    /// 25.4 mm exactly.
    Inch,
    /// 12 in.
    Foot,
    /// 36 in.
    Yard,
    /// 2 1/4 in, the sixteenth of a yard.
    Nail,
    /// The English ell, 45 in.
    Ell,
    /// A thousandth of a metre.
    Millimetre,
    /// A hundredth of a metre.
    Centimetre,
    /// The metre.
    Metre,
    /// A thousand metres.
    Kilometre,
    /// A thousandth of a gram.
    Milligram,
    /// The gram.
    Gram,
    /// A thousand grams.
    Kilogram,
    /// The avoirdupois ounce.
    Ounce,
    /// The avoirdupois pound.
    Pound,
    /// The second.
    Second,
    /// 60 seconds.
    Minute,
    /// 60 minutes.
    Hour,
    /// A twelfth of a year, for ages.
    Month,
    /// 365 1/4 days, for ages.
    Year,
    /// Grams in a thousand metres of thread.
    Tex,
    /// Grams in ten thousand metres of thread.
    Decitex,
    /// Grams in nine thousand metres of thread.
    Denier,
    /// A hundredth.
    Percent,
    /// Twelve.
    Dozen,
    /// Twelve dozen.
    Gross,
}

/// Which tape or scale a unit belongs to; compounds such as `2 yd 6 in` never mix them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// Inches, feet, yards, ounces, pounds.
    Inch,
    /// Metres and grams.
    Metric,
    /// Time, counts, thread sizes.
    Neither,
}

struct Facts {
    spellings: &'static [&'static str],
    dimension: Dimension,
    system: System,
    /// Base steps in one unit, as a fraction.
    steps: (i64, i64),
}

impl Unit {
    /// Every unit, in the order help lists them.
    pub const ALL: [Self; 25] = [
        Self::Inch,
        Self::Foot,
        Self::Yard,
        Self::Nail,
        Self::Ell,
        Self::Millimetre,
        Self::Centimetre,
        Self::Metre,
        Self::Kilometre,
        Self::Milligram,
        Self::Gram,
        Self::Kilogram,
        Self::Ounce,
        Self::Pound,
        Self::Second,
        Self::Minute,
        Self::Hour,
        Self::Month,
        Self::Year,
        Self::Tex,
        Self::Decitex,
        Self::Denier,
        Self::Percent,
        Self::Dozen,
        Self::Gross,
    ];

    /// Sizes are in base steps: nanometres, nanograms, milliseconds. The inch and the pound are the international
    /// ones of 1959 (NIST SP 811, Appendix B).
    fn facts(self) -> Facts {
        const LENGTH: Dimension = Dimension::LENGTH;
        const MASS: Dimension = Dimension::MASS;
        const TIME: Dimension = Dimension::TIME;
        const THREAD: Dimension = Dimension::MASS_BY_LENGTH;
        let (spellings, dimension, system, steps): (&'static [&'static str], _, _, _) = match self {
            Self::Inch => (&["in", "inch", "inches"], LENGTH, System::Inch, (25_400_000, 1)),
            Self::Foot => (&["ft", "foot", "feet"], LENGTH, System::Inch, (304_800_000, 1)),
            Self::Yard => (&["yd", "yard", "yards", "yds"], LENGTH, System::Inch, (914_400_000, 1)),
            Self::Nail => (&["nail", "nails"], LENGTH, System::Inch, (57_150_000, 1)),
            Self::Ell => (&["ell", "ells"], LENGTH, System::Inch, (1_143_000_000, 1)),
            Self::Millimetre => {
                (&["mm", "millimetre", "millimetres", "millimeters"], LENGTH, System::Metric, (1_000_000, 1))
            }
            Self::Centimetre => {
                (&["cm", "centimetre", "centimetres", "centimeters"], LENGTH, System::Metric, (10_000_000, 1))
            }
            Self::Metre => (&["m", "metre", "metres", "meter", "meters"], LENGTH, System::Metric, (1_000_000_000, 1)),
            Self::Kilometre => (&["km"], LENGTH, System::Metric, (1_000_000_000_000, 1)),
            Self::Milligram => (&["mg"], MASS, System::Metric, (1_000_000, 1)),
            Self::Gram => (&["g", "gram", "grams"], MASS, System::Metric, (1_000_000_000, 1)),
            Self::Kilogram => (&["kg", "kilo", "kilos"], MASS, System::Metric, (1_000_000_000_000, 1)),
            Self::Ounce => (&["oz", "ounce", "ounces"], MASS, System::Inch, (28_349_523_125, 1)),
            Self::Pound => (&["lb", "lbs", "pound", "pounds"], MASS, System::Inch, (453_592_370_000, 1)),
            Self::Second => (&["s", "sec", "second", "seconds"], TIME, System::Neither, (1_000, 1)),
            Self::Minute => (&["min", "mins", "minute", "minutes"], TIME, System::Neither, (60_000, 1)),
            Self::Hour => (&["h", "hr", "hrs", "hour", "hours"], TIME, System::Neither, (3_600_000, 1)),
            // The mean year, leap years included; twelve months are exactly one year.
            Self::Month => (&["month", "months"], TIME, System::Neither, (2_629_800_000, 1)),
            Self::Year => (&["year", "years"], TIME, System::Neither, (31_557_600_000, 1)),
            Self::Tex => (&["tex"], THREAD, System::Neither, (1, 1_000)),
            Self::Decitex => (&["dtex"], THREAD, System::Neither, (1, 10_000)),
            Self::Denier => (&["den", "denier"], THREAD, System::Neither, (1, 9_000)),
            Self::Percent => (&["%", "percent"], Dimension::NUMBER, System::Neither, (1, 100)),
            Self::Dozen => (&["dozen", "doz"], Dimension::NUMBER, System::Neither, (12, 1)),
            Self::Gross => (&["gross"], Dimension::NUMBER, System::Neither, (144, 1)),
        };
        Facts { spellings, dimension, system, steps }
    }

    /// Parses a unit by any accepted spelling.
    pub fn named(written: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.spellings().contains(&written))
    }

    /// The symbols of all units in one line: `in, ft, yd, …`.
    pub fn list() -> String {
        Self::ALL.map(Self::symbol).join(", ")
    }

    /// All accepted spellings, the symbol first.
    pub fn spellings(self) -> &'static [&'static str] {
        self.facts().spellings
    }

    /// The spelling used for display.
    pub fn symbol(self) -> &'static str {
        self.facts().spellings.first().copied().unwrap_or_default()
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        self.facts().dimension
    }

    /// The tape or scale it belongs to.
    pub fn system(self) -> System {
        self.facts().system
    }

    /// Base steps in one unit, as an exact fraction.
    pub fn step_fraction(self) -> (i64, i64) {
        self.facts().steps
    }

    /// Base steps in one unit.
    pub fn steps(self) -> f64 {
        let (numerator, denominator) = self.step_fraction();
        super::number::from_whole(numerator) / super::number::from_whole(denominator)
    }

    /// The accepted spelling closest to a mistyped one, if any is close.
    pub fn nearest(written: &str) -> Option<&'static str> {
        let lower = written.to_lowercase();
        Self::ALL
            .into_iter()
            .flat_map(|unit| unit.spellings().iter().copied())
            .map(|spelling| (strsim::damerau_levenshtein(&lower, spelling), spelling))
            .filter(|(distance, spelling)| *distance <= if spelling.len() <= 3 { 1 } else { 2 })
            .min_by_key(|(distance, spelling)| (*distance, spelling.len().abs_diff(written.len())))
            .map(|(_, spelling)| spelling)
    }
}

/// The preferred units to show a quantity in: one for each base dimension, or one for the whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Liked {
    /// Unit of length.
    pub length: Option<Unit>,
    /// Unit of mass.
    pub mass: Option<Unit>,
    /// Unit of time.
    pub time: Option<Unit>,
    /// A unit for the whole quantity, such as tex or per cent.
    pub named: Option<Unit>,
    /// Show it in two units, such as yards and inches.
    pub compound: bool,
    /// Show it whole: a length up to the next yard or metre, a time to the nearest minute or hour. What is reckoned from
    /// it is shown in full.
    pub whole: bool,
}

impl Liked {
    /// Prefers one unit.
    pub fn unit(unit: Unit) -> Self {
        let mut liked = Self::default();
        match unit.dimension() {
            Dimension::LENGTH => liked.length = Some(unit),
            Dimension::MASS => liked.mass = Some(unit),
            Dimension::TIME => liked.time = Some(unit),
            _ => liked.named = Some(unit),
        }
        liked
    }

    /// The preferences of a product or quotient: those of `self`, then those of `other` where `self` has none.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self {
            length: self.length.or(other.length),
            mass: self.mass.or(other.mass),
            time: self.time.or(other.time),
            named: self.named.or(other.named),
            compound: self.compound,
            whole: false,
        }
    }
}

/// A unit as typed: `yd`, `g/m^2`, `$/yd`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnitExpression {
    /// What it measures.
    pub dimension: Dimension,
    /// The units to show it in.
    pub liked: Liked,
    /// Base steps in one, as an exact fraction.
    pub steps: (i128, i128),
}

/// Writes the unit in which a quantity is counted: `in`, `oz/yd^2`, `$/h`. `length` is the unit of a length that
/// prefers none. Empty for a plain number; the larger unit of a compound.
pub(crate) fn unit_text(dimension: Dimension, liked: Liked, length: Unit, currency: char) -> String {
    if let Some(named) = liked.named.filter(|unit| unit.dimension() == dimension) {
        return named.symbol().to_owned();
    }
    let bases = [
        (dimension.money, currency.to_string()),
        (dimension.mass, liked.mass.unwrap_or(Unit::Gram).symbol().to_owned()),
        (dimension.time, liked.time.unwrap_or(Unit::Minute).symbol().to_owned()),
        (dimension.length, liked.length.unwrap_or(length).symbol().to_owned()),
    ];
    let mut text = String::new();
    for (exponent, symbol) in bases.iter().filter(|(exponent, _)| *exponent != 0) {
        let below = if *exponent < 0 { "/" } else { "" };
        let power = if exponent.abs() == 1 { String::new() } else { format!("^{}", exponent.abs()) };
        text.extend([below, symbol, &power]);
    }
    text
}
