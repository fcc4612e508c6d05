//! Waist and stature of children in the United States, 2021 to 2023, as a national survey measured them.
//!
//! Source: Anthropometric Reference Data, 2021 to 2023 \[69\], tables 5 and 11 (public domain). The waist was measured
//! at the iliac crest, a little below where a skirt sits: an order of magnitude, not a size. What the survey does not
//! show is not here. Only three percentiles of stature were read.

use super::error::BodyError;
use super::sex::Sex;
use super::{age_of, an_age};
use crate::quantity::{Length, Time, number};

/// The percentiles of the waist table.
pub const WAIST_SHARES: [u8; 9] = [5, 10, 15, 25, 50, 75, 85, 90, 95];

/// The percentiles of the stature table that are kept here.
pub const STATURE_SHARES: [u8; 3] = [5, 50, 95];

/// The youngest age surveyed, and the first one past the groups kept here, in years.
pub const FIRST_YEAR: u8 = 2;
const END_YEAR: u8 = 14;

/// Two years of age of one sex, in centimetres; `None` where the survey shows nothing.
struct Group<const N: usize> {
    sex: Sex,
    from_years: u8,
    figures: [Option<f64>; N],
}

const fn girls<const N: usize>(from_years: u8, figures: [Option<f64>; N]) -> Group<N> {
    Group { sex: Sex::Girl, from_years, figures }
}

const fn boys<const N: usize>(from_years: u8, figures: [Option<f64>; N]) -> Group<N> {
    Group { sex: Sex::Boy, from_years, figures }
}

/// A figure that the survey prints.
#[allow(clippy::unnecessary_wraps, reason = "a short name for the many figures of the tables below")]
const fn p(centimetres: f64) -> Option<f64> {
    Some(centimetres)
}

/// A figure that the survey leaves out.
const NONE: Option<f64> = None;

/// Table 11, waist circumference.
const WAISTS: [Group<9>; 12] = [
    girls(2, [p(41.3), p(43.3), p(44.8), p(46.1), p(49.4), p(51.2), p(53.3), p(53.7), p(57.6)]),
    girls(4, [p(46.7), p(48.5), p(49.1), p(50.2), p(52.0), p(55.5), p(60.5), p(64.5), p(67.3)]),
    girls(6, [p(49.5), p(50.7), p(51.4), p(53.4), p(57.3), p(61.2), p(69.0), p(73.0), p(78.4)]),
    girls(8, [p(52.7), p(54.2), p(55.2), p(56.5), p(62.6), p(69.0), p(76.4), p(80.8), p(87.7)]),
    girls(10, [p(57.3), p(60.1), p(60.9), p(62.9), p(69.3), p(79.9), p(86.7), p(89.5), p(93.4)]),
    girls(12, [p(62.5), p(64.8), p(66.4), p(67.5), p(74.9), p(81.1), p(86.2), p(92.6), p(97.3)]),
    boys(2, [p(43.7), p(45.5), p(45.9), p(47.3), p(49.3), p(51.4), p(52.7), p(53.3), p(56.6)]),
    boys(4, [p(46.0), p(48.2), p(48.8), p(50.7), p(53.4), p(56.0), p(58.4), p(62.8), p(68.3)]),
    boys(6, [NONE, p(51.1), p(51.7), p(52.8), p(55.6), p(61.2), p(66.4), p(69.0), p(73.0)]),
    boys(8, [p(53.2), p(54.3), p(55.4), p(56.7), p(60.4), p(68.3), p(73.1), p(75.9), p(84.6)]),
    boys(10, [NONE, p(57.1), p(59.0), p(61.3), p(68.2), p(83.4), p(92.4), p(97.5), p(105.8)]),
    boys(12, [p(61.2), p(62.7), p(64.0), p(67.2), p(73.2), p(87.4), p(91.9), p(96.1), NONE]),
];

/// Table 5, height.
const STATURES: [Group<3>; 12] = [
    girls(2, [p(82.9), p(94.3), p(105.5)]),
    girls(4, [p(98.8), p(108.5), p(121.8)]),
    girls(6, [p(113.1), p(122.2), p(134.3)]),
    girls(8, [p(123.3), p(133.8), p(146.0)]),
    girls(10, [p(133.9), p(147.4), p(163.4)]),
    girls(12, [p(142.2), p(157.2), p(166.6)]),
    boys(2, [p(84.7), p(95.3), p(107.5)]),
    boys(4, [p(100.0), p(109.5), p(122.1)]),
    boys(6, [p(110.8), p(122.7), p(132.1)]),
    boys(8, [p(123.9), p(134.1), p(146.4)]),
    boys(10, [NONE, p(147.5), NONE]),
    boys(12, [p(148.3), p(163.0), p(176.6)]),
];

/// The waist that a share of the children of a sex and age had at most.
pub fn survey_waist(sex: Sex, age: Time, share: f64) -> Result<Length, BodyError> {
    let group = group_of(&WAISTS, sex, age)?;
    figure(group, &WAIST_SHARES, share)
}

/// The stature that a share of the children of a sex and age had at most.
pub fn survey_stature(sex: Sex, age: Time, share: f64) -> Result<Length, BodyError> {
    let group = group_of(&STATURES, sex, age)?;
    figure(group, &STATURE_SHARES, share)
}

/// The lowest and the highest figure that the survey shows, each with its percentile.
pub(super) struct Ends {
    pub(super) least: (Length, u8),
    pub(super) most: (Length, u8),
}

/// The ends of the waists of a sex and age; `None` outside the survey.
pub(super) fn waist_ends(sex: Sex, age: Time) -> Option<Ends> {
    ends(group_of(&WAISTS, sex, age).ok()?, &WAIST_SHARES)
}

/// The ends of the statures of a sex and age; `None` outside the survey.
pub(super) fn stature_ends(sex: Sex, age: Time) -> Option<Ends> {
    ends(group_of(&STATURES, sex, age).ok()?, &STATURE_SHARES)
}

fn ends<const N: usize>(group: &Group<N>, shares: &[u8; N]) -> Option<Ends> {
    let shown = || {
        let shown = group.figures.iter().zip(shares);
        shown.filter_map(|(figure, share)| figure.map(|cm| (Length::centimetres(cm), *share)))
    };
    Some(Ends { least: shown().next()?, most: shown().next_back()? })
}

fn group_of<const N: usize>(groups: &'static [Group<N>], sex: Sex, age: Time) -> Result<&'static Group<N>, BodyError> {
    let months = an_age(age)?;
    if months < 12.0 * f64::from(FIRST_YEAR) {
        return Err(BodyError::UnderTwo { given: age });
    }
    let holds = |group: &&Group<N>| {
        let first = 12.0 * f64::from(group.from_years);
        group.sex == sex && (first..first + 24.0).contains(&months)
    };
    groups.iter().find(holds).ok_or_else(|| BodyError::OutsideAges {
        table: "the part of the survey kept here",
        given: age,
        from: age_of(12.0 * f64::from(FIRST_YEAR)),
        to: age_of(12.0 * f64::from(END_YEAR - 1)),
    })
}

fn figure<const N: usize>(group: &Group<N>, shares: &'static [u8; N], share: f64) -> Result<Length, BodyError> {
    let printed = shares.iter().zip(group.figures).find(|(printed, _)| {
        // A percentile typed as 0.15 or as 15 % may differ by noise.
        number::is_near(share * 100.0, f64::from(**printed))
    });
    match printed {
        Some((_, Some(centimetres))) => Ok(Length::centimetres(centimetres)),
        Some((share, None)) => Err(BodyError::LeftOut { sex: group.sex, from_years: group.from_years, share: *share }),
        None => Err(BodyError::NotPrinted { given: share, printed: shares }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn waist(sex: Sex, months: f64, share: f64) -> Result<f64, BodyError> {
        survey_waist(sex, age_of(months), share).map(|waist| (waist.in_centimetres() * 10.0).round() / 10.0)
    }

    #[test]
    fn a_group_begins_with_its_first_year_and_ends_before_the_next() {
        assert_eq!(waist(Sex::Girl, 24.0, 0.5), Ok(49.4));
        assert_eq!(waist(Sex::Girl, 47.9, 0.5), Ok(49.4));
        assert_eq!(waist(Sex::Girl, 48.0, 0.5), Ok(52.0));
        assert_eq!(waist(Sex::Boy, 143.9, 0.5), Ok(68.2));
        assert_eq!(waist(Sex::Boy, 144.0, 0.5), Ok(73.2));
        assert_eq!(waist(Sex::Boy, 167.9, 0.5), Ok(73.2));
        let past = waist(Sex::Boy, 168.0, 0.5).unwrap_err().to_string();
        assert_eq!(past, "age is 14 years; the part of the survey kept here goes from 2 years to 13 years");
        assert!(matches!(waist(Sex::Girl, 23.9, 0.5), Err(BodyError::UnderTwo { .. })));
        assert!(matches!(waist(Sex::Girl, -1.0, 0.5), Err(BodyError::NotPositive { .. })));
    }

    #[test]
    fn what_the_survey_leaves_out_stays_out() {
        let missing: Vec<(Sex, u8, u8)> = WAISTS
            .iter()
            .flat_map(|group| group.figures.iter().zip(WAIST_SHARES).map(move |(f, share)| (group, f, share)))
            .filter(|(_, figure, _)| figure.is_none())
            .map(|(group, _, share)| (group.sex, group.from_years, share))
            .collect();
        assert_eq!(missing, [(Sex::Boy, 6, 5), (Sex::Boy, 10, 5), (Sex::Boy, 12, 95)]);
        for (sex, from_years, share) in missing {
            let error = waist(sex, 12.0 * f64::from(from_years), f64::from(share) / 100.0);
            assert_eq!(error, Err(BodyError::LeftOut { sex, from_years, share }));
        }
        let error = survey_stature(Sex::Boy, age_of(120.0), 0.05).unwrap_err();
        assert_eq!(error.to_string(), "the survey leaves out the 5 % of boys of 10 to 11, for it measured too few");
    }

    #[test]
    fn nothing_is_put_in_between() {
        let error = waist(Sex::Girl, 60.0, 0.4).unwrap_err();
        assert_eq!(error.to_string(), "percentile is 40 %; the survey prints 5, 10, 15, 25, 50, 75, 85, 90, 95 %");
        assert!(waist(Sex::Girl, 60.0, f64::NAN).is_err());
    }

    #[test]
    fn more_children_reach_further_and_medians_grow() {
        fn check<const N: usize>(groups: &[Group<N>], shares: &[u8; N]) {
            for group in groups {
                let shown: Vec<f64> = group.figures.iter().flatten().copied().collect();
                assert!(shown.windows(2).all(|pair| matches!(pair, [a, b] if a < b)), "{shown:?}");
            }
            for sex in Sex::ALL {
                let of_sex: Vec<_> = groups.iter().filter(|group| group.sex == sex).collect();
                assert_eq!(of_sex.iter().map(|group| group.from_years).collect::<Vec<_>>(), [2, 4, 6, 8, 10, 12]);
                let middle = shares.iter().position(|share| *share == 50).unwrap();
                let medians: Vec<f64> = of_sex.iter().filter_map(|group| group.figures[middle]).collect();
                assert!(medians.len() == 6 && medians.is_sorted_by(|a, b| a < b), "{medians:?}");
            }
        }
        check(&WAISTS, &WAIST_SHARES);
        check(&STATURES, &STATURE_SHARES);
    }
}
