//! Stature for age by the two growth charts in use: the stature that a share of children has, and the share for a
//! stature.
//!
//! A chart gives three figures for an age, L, M and S: M is the middle stature, S the spread, L the skew. With z
//! standard deviations from the middle, `X = M·(1 + L·S·z)^(1/L)`, or `M·e^(S·z)` where L is zero. Between two rows
//! of a chart each of the three is interpolated linearly. The WHO chart is measured lying under two years and
//! standing from then on, and has a step of some 0.7 cm there.

use super::chart_row::Row;
use super::error::BodyError;
use super::sex::Sex;
use super::{age_of, an_age, growth_cdc, growth_who};
use crate::quantity::{Length, Time, Unit};
use statrs::distribution::{ContinuousCDF, Normal};

/// The shares of children between which a chart is reliable.
const SMALLEST_SHARE: f64 = 0.001;
const LARGEST_SHARE: f64 = 0.999;

/// The age at which the charts end, in months.
pub(super) const LAST_MONTH: f64 = 144.0;

/// Under this age in months the WHO chart measures lying, and the CDC chart has nothing.
const STANDING_FROM: f64 = 24.0;

/// A growth chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chart {
    /// Of the United States, 2000: two to twelve years.
    Cdc,
    /// Of the World Health Organization: birth to twelve years.
    Who,
}

impl Chart {
    /// The words, in the order of the variants.
    pub const WORDS: [&'static str; 2] = ["CDC", "WHO"];

    /// Parses a word.
    pub fn named(word: &str) -> Option<Self> {
        match word {
            "CDC" => Some(Self::Cdc),
            "WHO" => Some(Self::Who),
            _ => None,
        }
    }
}

/// The stature that a share of the children of a sex and age has at most, by a chart.
pub fn growth_stature(sex: Sex, age: Time, share: f64, chart: Chart) -> Result<Length, BodyError> {
    if !(SMALLEST_SHARE..=LARGEST_SHARE).contains(&share) {
        return Err(BodyError::ShareOffChart { given: share, least: SMALLEST_SHARE, most: LARGEST_SHARE });
    }
    let z = Normal::standard().inverse_cdf(share);
    Ok(Length::centimetres(row_at(sex, age, chart)?.stature(z)))
}

/// The share of the children of a sex and age that has this stature at most, by a chart.
pub fn growth_share(sex: Sex, age: Time, stature: Length, chart: Chart) -> Result<f64, BodyError> {
    if !stature.steps().is_finite() {
        return Err(BodyError::NotFinite { argument: "stature" });
    }
    if !stature.is_positive() {
        return Err(BodyError::NotPositive { argument: "stature", given: stature.into() });
    }
    let z = row_at(sex, age, chart)?.deviations(stature.in_centimetres());
    let share = Normal::standard().cdf(z);
    if (SMALLEST_SHARE..=LARGEST_SHARE).contains(&share) {
        Ok(share)
    } else {
        let taller = share > 0.5;
        let beyond = if taller { LARGEST_SHARE } else { 1.0 - SMALLEST_SHARE };
        Err(BodyError::OffChart { given: stature.into(), sex, taller, beyond })
    }
}

/// The chart's figures at an age, interpolated.
fn row_at(sex: Sex, age: Time, chart: Chart) -> Result<Row, BodyError> {
    let months = an_age(age)?;
    let (table, first) = match chart {
        Chart::Cdc => ("the CDC chart", STANDING_FROM),
        Chart::Who => ("the WHO chart", 0.0),
    };
    let (count, rows): (f64, &[Row]) = match (chart, sex) {
        (Chart::Cdc, Sex::Girl) => (months, &growth_cdc::GIRLS),
        (Chart::Cdc, Sex::Boy) => (months, &growth_cdc::BOYS),
        (Chart::Who, Sex::Girl) if months < STANDING_FROM => (days(age), &growth_who::GIRLS_LYING),
        (Chart::Who, Sex::Boy) if months < STANDING_FROM => (days(age), &growth_who::BOYS_LYING),
        (Chart::Who, Sex::Girl) => (days(age), &growth_who::GIRLS_STANDING),
        (Chart::Who, Sex::Boy) => (days(age), &growth_who::BOYS_STANDING),
    };
    let inside = (first..=LAST_MONTH).contains(&months);
    inside.then(|| between(rows, count)).flatten().ok_or_else(|| BodyError::OutsideAges {
        table,
        given: age,
        from: age_of(first),
        to: age_of(LAST_MONTH),
    })
}

fn days(age: Time) -> f64 {
    age.steps() / Unit::Hour.steps() / 24.0
}

/// Interpolates between the rows on both sides of an age. Before the first row and after the last, that row holds:
/// two years are half a day off the rows of the daily chart.
fn between(rows: &[Row], age: f64) -> Option<Row> {
    let after = rows.partition_point(|row| row.age < age);
    let (before, after) = (after.checked_sub(1).and_then(|before| rows.get(before)), rows.get(after));
    match (before, after) {
        (Some(before), Some(after)) => {
            let part = (age - before.age) / (after.age - before.age);
            let mix = |before: f64, after: f64| before + (after - before) * part;
            Some(Row { age, l: mix(before.l, after.l), m: mix(before.m, after.m), s: mix(before.s, after.s) })
        }
        (before, after) => before.or(after).copied(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cm(sex: Sex, months: f64, share: f64, chart: Chart) -> f64 {
        growth_stature(sex, age_of(months), share, chart).unwrap().in_centimetres()
    }

    #[test]
    fn the_charts_begin_and_end_where_they_say() {
        let at = |months: f64, chart| growth_stature(Sex::Girl, age_of(months), 0.5, chart).map(|_| ());
        assert_eq!((at(24.0, Chart::Cdc), at(144.0, Chart::Cdc)), (Ok(()), Ok(())));
        assert_eq!((at(0.0, Chart::Who), at(144.0, Chart::Who)), (Ok(()), Ok(())));
        let young = at(23.9, Chart::Cdc).unwrap_err().to_string();
        assert_eq!(young, "age is 23.9 months; the CDC chart goes from 2 years to 12 years");
        for (months, chart) in [(144.1, Chart::Cdc), (144.1, Chart::Who), (-0.1, Chart::Who), (f64::NAN, Chart::Who)] {
            assert!(at(months, chart).is_err(), "{months}");
        }
    }

    #[test]
    fn the_middle_is_as_listed_and_two_years_stand() {
        // CDC stature-for-age table at 24 months; WHO daily table at days 730 (lying) and 731 (standing).
        assert!((cm(Sex::Girl, 24.0, 0.5, Chart::Cdc) - 84.975_555_12).abs() < 1e-9);
        assert!((cm(Sex::Girl, 24.0, 0.5, Chart::Who) - 85.7299).abs() < 1e-9);
        assert!((cm(Sex::Girl, 23.999, 0.5, Chart::Who) - 86.4008).abs() < 1e-9);
        assert!((cm(Sex::Boy, 24.0, 0.5, Chart::Who) - 87.1303).abs() < 1e-9);
    }

    #[test]
    fn between_two_rows_it_runs_straight() {
        // Own arithmetic from the rows at 59.5 and 60.5 months.
        let wanted = f64::midpoint(107.370_684_1, 107.956_603_1);
        assert!((cm(Sex::Girl, 60.0, 0.5, Chart::Cdc) - wanted).abs() < 1e-9);
    }

    #[test]
    fn without_skew_the_root_becomes_a_power() {
        let (row, nearly) = (Row::new(0.0, 0.0, 100.0, 0.04), Row::new(0.0, 1e-8, 100.0, 0.04));
        for z in [-3.0, -1.0, 0.0, 0.5, 3.0] {
            assert!((row.stature(z) - nearly.stature(z)).abs() < 1e-4, "{z}");
            assert!((row.deviations(row.stature(z)) - z).abs() < 1e-12);
            assert!((nearly.deviations(nearly.stature(z)) - z).abs() < 1e-4);
        }
    }

    #[test]
    fn taller_with_age_and_with_share_and_back_again() {
        let shares = [0.001, 0.03, 0.25, 0.5, 0.75, 0.97, 0.999];
        for (chart, from) in [(Chart::Cdc, 24), (Chart::Who, 0)] {
            for sex in Sex::ALL {
                let mut last = [0.0; 7];
                for half_months in 2 * from..=288 {
                    let months = f64::from(half_months) / 2.0;
                    let statures = shares.map(|share| cm(sex, months, share, chart));
                    assert!(statures.is_sorted_by(|a, b| a < b), "{months}: {statures:?}");
                    // At two years the WHO chart changes from lying to standing.
                    let grew = statures.iter().zip(last).all(|(now, before)| *now > before);
                    assert!(grew || (chart == Chart::Who && half_months == 48), "{sex:?} {months}");
                    last = statures;
                    for (share, stature) in shares.iter().zip(statures) {
                        let stature = Length::centimetres(stature);
                        // Rounding may push the very ends off the chart.
                        if let Ok(back) = growth_share(sex, age_of(months), stature, chart) {
                            assert!((back - share).abs() < 1e-9, "{months}: {share} came back as {back}");
                        } else {
                            assert!(*share < 0.01 || *share > 0.99, "{months}: {share}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn what_is_off_the_chart_is_said_and_not_rounded() {
        let tall = growth_share(Sex::Girl, age_of(60.0), Length::centimetres(150.0), Chart::Cdc).unwrap_err();
        assert_eq!(tall.to_string(), "stature is 150 cm; that is more than 99.9 % of girls of that age have");
        let small = growth_share(Sex::Boy, age_of(60.0), Length::inches(30.0), Chart::Who).unwrap_err();
        assert_eq!(small.to_string(), "stature is 30 in; that is less than 99.9 % of boys of that age have");
        assert!(growth_share(Sex::Girl, age_of(60.0), Length::ZERO, Chart::Cdc).is_err());
        for share in [0.0, 1.0, -0.5, f64::NAN] {
            assert!(growth_stature(Sex::Girl, age_of(60.0), share, Chart::Cdc).is_err());
        }
    }
}
