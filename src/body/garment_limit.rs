//! Upper limits of tight sleepwear by size, by the rules of the United States.
//!
//! Source: 16 CFR 1615.1(o) (nine months to 6X) and 16 CFR 1616.2(m) (sizes 7 to 10), edition of 2015, read; the
//! larger sizes of 1616 were not. They are upper limits of garments that must fit tightly, so near to the body that a
//! measure far from them is worth a second look. They are not a size chart, and nothing here says that a garment
//! meets the rule. The text prints inches and centimetres, which differ in places: the inches are kept.

use super::error::BodyError;
use super::sex::Sex;
use super::{age_of, an_age};
use crate::quantity::{Length, Time};

/// The sizes, as the rules name them.
pub const SIZES: [&str; 13] =
    ["9-12 months", "12-18 months", "18-24 months", "2", "3", "4", "5", "6", "6X", "7", "8", "9", "10"];

/// Where a garment is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Round the waist.
    Waist,
    /// Round the seat.
    Seat,
    /// Round the chest.
    Chest,
}

impl Place {
    /// The words, in the order of the rules.
    pub const WORDS: [&'static str; 3] = ["waist", "seat", "chest"];

    /// Parses a word.
    pub fn named(word: &str) -> Option<Self> {
        match word {
            "waist" => Some(Self::Waist),
            "seat" => Some(Self::Seat),
            "chest" => Some(Self::Chest),
            _ => None,
        }
    }
}

/// One size: the age in months from which it is used here, and its limits in inches.
struct Limits {
    /// `None` for 6X, which is for larger children of six.
    from_months: Option<f64>,
    waist: f64,
    seat: f64,
    /// Equal to `seat`, unless boys have a limit of their own.
    boys_seat: f64,
    chest: f64,
}

const fn both(from_months: Option<f64>, waist: f64, seat: f64, chest: f64) -> Limits {
    Limits { from_months, waist, seat, boys_seat: seat, chest }
}

const fn parted(years: f64, waist: f64, seat: f64, boys_seat: f64, chest: f64) -> Limits {
    Limits { from_months: Some(12.0 * years), waist, seat, boys_seat, chest }
}

const LIMITS: [Limits; SIZES.len()] = [
    both(Some(9.0), 19.0, 19.0, 19.0),
    both(Some(12.0), 19.5, 20.0, 19.5),
    both(Some(18.0), 20.0, 21.0, 20.5),
    both(Some(24.0), 20.0, 21.0, 20.5),
    both(Some(36.0), 20.5, 22.0, 21.0),
    both(Some(48.0), 21.0, 23.0, 22.0),
    both(Some(60.0), 21.5, 24.0, 23.0),
    both(Some(72.0), 22.0, 25.0, 24.0),
    both(None, 22.5, 25.75, 24.75),
    parted(7.0, 23.0, 26.5, 26.0, 25.0),
    parted(8.0, 23.5, 28.0, 26.5, 26.0),
    parted(9.0, 24.0, 29.0, 27.25, 27.0),
    parted(10.0, 24.5, 30.0, 28.0, 28.0),
];

/// The age past the last size, in months.
const END_MONTH: f64 = 132.0;

/// The limit for the last size that begins at or before the child's age. The first begins at nine months, and from
/// two years on a size's number is its age in years. Fails outside nine months to ten years.
pub fn garment_limit(place: Place, sex: Sex, age: Time) -> Result<Length, BodyError> {
    let months = an_age(age)?;
    let begun = |limits: &&Limits| limits.from_months.is_some_and(|from| from <= months);
    let limits = LIMITS.iter().rfind(begun).filter(|_| months < END_MONTH);
    let limits = limits.ok_or_else(|| BodyError::OutsideAges {
        table: "the rule's table",
        given: age,
        from: age_of(9.0),
        to: age_of(END_MONTH - 12.0),
    })?;
    Ok(at(limits, place, sex))
}

/// The limit for a size by its name.
pub fn garment_limit_of_size(place: Place, sex: Sex, size: &str) -> Result<Length, BodyError> {
    let found = SIZES.iter().zip(&LIMITS).find(|(name, _)| **name == size);
    let (_, limits) = found.ok_or(BodyError::UnknownWord { argument: "size", known: &SIZES })?;
    Ok(at(limits, place, sex))
}

fn at(limits: &Limits, place: Place, sex: Sex) -> Length {
    Length::inches(match (place, sex) {
        (Place::Waist, _) => limits.waist,
        (Place::Seat, Sex::Girl) => limits.seat,
        (Place::Seat, Sex::Boy) => limits.boys_seat,
        (Place::Chest, _) => limits.chest,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seat(sex: Sex, months: f64) -> Option<f64> {
        garment_limit(Place::Seat, sex, age_of(months)).ok().map(Length::in_inches)
    }

    #[test]
    fn each_size_begins_with_its_age() {
        let girls = [8.9, 9.0, 12.0, 18.0, 24.0, 35.9, 36.0, 83.9, 84.0, 131.9, 132.0].map(|age| seat(Sex::Girl, age));
        let wanted = [None, Some(19.0), Some(20.0), Some(21.0), Some(21.0), Some(21.0), Some(22.0)];
        assert_eq!(girls[..7], wanted);
        assert_eq!(girls[7..], [Some(25.0), Some(26.5), Some(30.0), None]);
        assert_eq!(
            [47.9, 48.0, 59.9, 60.0, 71.9, 72.0].map(|age| seat(Sex::Girl, age)),
            [22.0, 23.0, 23.0, 24.0, 24.0, 25.0].map(Some)
        );
        assert_eq!(
            [95.9, 96.0, 107.9, 108.0, 119.9, 120.0].map(|age| seat(Sex::Boy, age)),
            [26.0, 26.5, 26.5, 27.25, 27.25, 28.0].map(Some)
        );
        assert_eq!([84.0, 96.0, 108.0, 120.0].map(|age| seat(Sex::Boy, age)), [26.0, 26.5, 27.25, 28.0].map(Some));
    }

    #[test]
    fn an_age_off_the_table_is_told_its_ends() {
        let error = garment_limit(Place::Seat, Sex::Girl, age_of(144.0)).unwrap_err().to_string();
        assert_eq!(error, "age is 12 years; the rule's table goes from 9 months to 10 years");
    }

    #[test]
    fn larger_sizes_are_larger() {
        for pair in LIMITS.windows(2) {
            let [small, large] = pair else { panic!() };
            assert!(small.waist <= large.waist && small.seat <= large.seat && small.chest <= large.chest);
            assert!(small.boys_seat <= large.boys_seat && large.boys_seat <= large.seat);
        }
    }

    #[test]
    fn a_size_that_is_not_there_is_told_from_those_that_are() {
        let six_x = garment_limit_of_size(Place::Seat, Sex::Boy, "6X").unwrap();
        assert_eq!(six_x, Length::inches(25.75));
        let error = garment_limit_of_size(Place::Seat, Sex::Boy, "11").unwrap_err().to_string();
        assert!(error.contains("9-12 months, 12-18 months") && error.ends_with("9, 10"), "{error}");
        for word in Place::WORDS {
            assert!(Place::named(word).is_some());
        }
    }
}
