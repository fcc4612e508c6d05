//! Decision tables of the rules on labels, burning and children's sleepwear: the class, or the side of a limit, that
//! a reading falls on.
//!
//! They judge the figures alone. Never here: that something is safe, may be sold, or meets a rule as a whole; which
//! rule applies to which order.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Area, Length, Quantity, Time, Unit, number};

/// Cloth of any fibre at least this heavy is exempt from testing, 16 CFR 1610.1(d)(1): ounces per square yard.
const EXEMPT_OUNCES: f64 = 2.6;

/// Burn times of 16 CFR 1610.4, in seconds.
const PLAIN_LEAST: f64 = 3.5;
const RAISED_LEAST: f64 = 4.0;
const RAISED_MOST: f64 = 7.0;

/// A fibre of at least this share is named, 16 CFR 303.3 and 303.6.
const NAMED_LEAST: f64 = 0.05;
/// How far a share may be off its label, 16 CFR 303.43.
const TOLERANCE: f64 = 0.03;
/// Ornament up to this share may be left out, 16 CFR 303.26.
const ORNAMENT_MOST: f64 = 0.05;
/// Decorative trim up to this share of the surface is a trimming, 16 CFR 303.12.
const TRIM_MOST: f64 = 0.15;
/// Elastic up to this share is a trimming, 16 CFR 303.12.
const ELASTIC_MOST: f64 = 0.2;

type Rule<T> = Result<T, TextileError>;

/// What burns when raised-surface cloth is tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RaisedBurn {
    /// The ground of the cloth ignites or melts.
    Base,
    /// The flame only runs over the nap.
    FlashOnly,
}

impl RaisedBurn {
    /// The word for each value.
    pub const WORDS: [(&'static str, Self); 2] = [("base burns", Self::Base), ("flash only", Self::FlashOnly)];

    /// Parses one of these words.
    pub fn named(written: &str) -> Rule<Self> {
        let found = Self::WORDS.iter().find(|(word, _)| *word == written).map(|(_, burn)| *burn);
        let known = || Self::WORDS.iter().map(|(word, _)| *word).collect();
        let given = || written.to_owned();
        found.ok_or_else(|| TextileError::UnknownWord { argument: "surface", given: given(), known: known() })
    }
}

/// The result of a series of specimens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Series {
    /// The rule's class 1.
    One,
    /// The rule's class 3.
    Three,
    /// Five more must be tested.
    FiveMore,
    /// A single burn among ten: no class.
    NoClass,
}

impl Series {
    /// The words for all of them.
    pub const WORDS: [&'static str; 4] = ["class 1", "class 3", "test five more", "cannot be classed"];

    /// The words for it.
    pub fn words(self) -> &'static str {
        let [one, three, five_more, no_class] = Self::WORDS;
        match self {
            Self::One => one,
            Self::Three => three,
            Self::FiveMore => five_more,
            Self::NoClass => no_class,
        }
    }
}

/// Whether `value` is at most `limit`, float noise aside.
fn at_most(value: f64, limit: f64) -> bool {
    value <= limit || number::is_near(value, limit)
}

fn share(argument: &'static str, given: f64) -> Rule<f64> {
    if at_most(guard::not_negative(argument, given)?, 1.0) {
        Ok(given)
    } else {
        let (given, most) = (Quantity::number(given), Quantity::of(100.0, Unit::Percent));
        Err(TextileError::TooLarge { argument, given, most })
    }
}

fn seconds(argument: &'static str, time: Time) -> Rule<f64> {
    Ok(guard::not_negative(argument, time)?.steps() / Unit::Second.steps())
}

/// Whether cloth is heavy enough for the first exemption from testing in 16 CFR 1610.1(d).
pub fn reaches_exempt_weight(weight: Quantity) -> Rule<bool> {
    let ounce = Quantity::of(EXEMPT_OUNCES, Unit::Ounce);
    let yard = Quantity::of(1.0, Unit::Yard);
    let limit = ounce.per(yard.times(yard)?)?;
    if !weight.steps().is_finite() {
        return Err(TextileError::NotFinite { argument: "weight" });
    }
    if weight.steps() < 0.0 {
        return Err(TextileError::Negative { argument: "weight", given: weight });
    }
    Ok(weight.compared(limit)?.is_ge())
}

/// The class of a plain-surfaced cloth by its burn time: 1 or 3; there is no class 2 for these.
pub fn burn_class_plain(burn_time: Time) -> Rule<i64> {
    let time = seconds("burn_time", burn_time)?;
    Ok(if at_most(PLAIN_LEAST, time) { 1 } else { 3 })
}

/// The class of a raised-surfaced cloth by its burn time: 1, 2 or 3.
pub fn burn_class_raised(burn_time: Time, surface: RaisedBurn) -> Rule<i64> {
    let time = seconds("burn_time", burn_time)?;
    Ok(match surface {
        RaisedBurn::FlashOnly => 1,
        RaisedBurn::Base if !at_most(time, RAISED_MOST) => 1,
        RaisedBurn::Base if at_most(RAISED_LEAST, time) => 2,
        RaisedBurn::Base => 3,
    })
}

/// The result of testing five or ten specimens of plain-surfaced cloth: `burned` of them burned, in `mean_time` on
/// average.
pub fn burn_series(tested: i64, burned: i64, mean_time: Time) -> Rule<Series> {
    let mean = seconds("mean_time", mean_time)?;
    guard::count_or_none("burned", burned)?;
    let limit = |argument, given: i64, most: i64| {
        let plain = |count| Quantity::number(number::from_whole(count));
        TextileError::TooLarge { argument, given: plain(given), most: plain(most) }
    };
    if tested != 5 && tested != 10 {
        let known = vec!["5", "10"];
        return Err(TextileError::UnknownWord { argument: "tested", given: tested.to_string(), known });
    }
    if burned > tested {
        return Err(limit("burned", burned, tested));
    }
    let slow = at_most(PLAIN_LEAST, mean);
    Ok(match (tested, burned) {
        (_, 0) => Series::One,
        (5, _) if slow => Series::One,
        (5, _) => Series::FiveMore,
        (_, 1) => Series::NoClass,
        _ if slow => Series::One,
        _ => Series::Three,
    })
}

/// Whether the label names a fibre: at 5 % or more, or at any share if it has a function, such as stretch. The rest
/// is “other fibre”.
pub fn fibre_is_named(part: f64, functional: bool) -> Rule<bool> {
    let part = share("part", part)?;
    Ok(functional && part > 0.0 || at_most(NAMED_LEAST, part))
}

/// Whether a tested share is within three points of the label; a label of 100 % has no tolerance.
pub fn within_label_tolerance(labelled: f64, found: f64) -> Rule<bool> {
    let (labelled, found) = (share("labelled", labelled)?, share("found", found)?);
    let room = if at_most(1.0, labelled) { 0.0 } else { TOLERANCE };
    Ok(at_most((labelled - found).abs(), room) || number::is_near(labelled, found))
}

/// Whether ornament is little enough to be left out of the fibre content, if the label says so.
pub fn ornament_may_be_left_out(part: f64) -> Rule<bool> {
    Ok(at_most(share("part", part)?, ORNAMENT_MOST))
}

/// Whether decorative trim covers little enough of the surface to count as a trimming.
pub fn trim_is_left_out(part: f64) -> Rule<bool> {
    Ok(at_most(share("part", part)?, TRIM_MOST))
}

/// Whether elastic in the ground cloth is little enough to count as a trimming.
pub fn elastic_is_left_out(part: f64) -> Rule<bool> {
    Ok(at_most(share("part", part)?, ELASTIC_MOST))
}

/// The makes of infant garment with a limit of their own.
pub const INFANT_GARMENTS: [&str; 2] = ["one piece", "two piece"];

/// The length up to which an infant garment is outside the rule for sleepwear. The rule prints inches and centimetres
/// that disagree; this is the smaller.
pub fn infant_garment_limit(made: &str) -> Rule<Length> {
    let [one_piece, two_piece] = INFANT_GARMENTS;
    let centimetres = match made {
        _ if made == one_piece => 64.8, // beside 25.75 in
        _ if made == two_piece => 40.0, // beside 15.75 in
        _ => {
            let (given, known) = (made.to_owned(), INFANT_GARMENTS.to_vec());
            return Err(TextileError::UnknownWord { argument: "made", given, known });
        }
    };
    Ok(Length::centimetres(centimetres))
}

/// Whether the trim of children's sleepwear is small enough not to be tested: each under 2 in, and at most 20 square
/// inches together.
pub fn sleepwear_trim_is_left_out(largest: Length, together: Area) -> Rule<bool> {
    let inch = Unit::Inch.steps();
    let largest = guard::not_negative("largest", largest)?.steps() / inch;
    let together = guard::not_negative("together", together)?.steps() / (inch * inch);
    Ok(!at_most(2.0, largest) && at_most(together, 20.0))
}

/// Whether a ruffle is too wide for sleepwear to count as tight-fitting: more than 6 mm. The 1/4 in printed beside it
/// is a little more; this is the smaller.
pub fn ruffle_bars_tight_fit(width: Length) -> Rule<bool> {
    let millimetres = guard::not_negative("width", width)?.steps() / Unit::Millimetre.steps();
    Ok(!at_most(millimetres, 6.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn time(seconds: f64) -> Time {
        Time::try_from(Quantity::of(seconds, Unit::Second)).unwrap()
    }

    #[test]
    fn a_series_is_told_in_words() {
        for (tested, burned, mean, words) in [
            (5, 0, 0.0, "class 1"),
            (5, 1, 3.5, "class 1"),
            (5, 1, 3.4, "test five more"),
            (5, 2, 3.5, "class 1"),
            (5, 5, 3.49, "test five more"),
            (10, 1, 3.4, "cannot be classed"),
            (10, 1, 9.0, "cannot be classed"),
            (10, 2, 3.5, "class 1"),
            (10, 2, 3.49, "class 3"),
        ] {
            assert_eq!(burn_series(tested, burned, time(mean)).unwrap().words(), words, "{burned} of {tested}: {mean}");
        }
        let message = |tested, burned| burn_series(tested, burned, time(4.0)).unwrap_err().to_string();
        assert_eq!(message(5, 6), "burned is 6; the most is 5");
        assert_eq!(message(7, 1), "tested is “7”; it must be one of 5, 10");
    }

    #[test]
    fn what_no_report_could_say_is_refused() {
        let message = |error: TextileError| error.to_string();
        assert_eq!(message(fibre_is_named(1.2, false).unwrap_err()), "part is 1.2; the most is 100 %");
        assert_eq!(
            message(within_label_tolerance(-0.1, 0.0).unwrap_err()),
            "labelled is -0.1; it must be zero or more"
        );
        assert_eq!(message(burn_class_plain(time(-1.0)).unwrap_err()), "burn time is -1 s; it must be zero or more");
        assert!(infant_garment_limit("three piece").is_err());
        assert!(RaisedBurn::named("melts").is_err());
        assert!(reaches_exempt_weight(Quantity::of(1.0, Unit::Yard)).is_err());
        let nothing = Quantity::from_steps(0.0, crate::quantity::Dimension::MASS_BY_AREA);
        assert_eq!(reaches_exempt_weight(nothing), Ok(false));
        assert!(reaches_exempt_weight(Quantity::number(f64::NAN)).is_err());
    }

    #[test]
    fn nothing_at_all_has_no_fibre_to_name() {
        assert_eq!(fibre_is_named(0.0, true), Ok(false));
        assert_eq!(fibre_is_named(0.001, true), Ok(true));
    }
}
