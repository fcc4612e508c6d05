//! Checks a typed body measure: is it far from what anybody of that age measures, and would the same number be usual
//! on the other tape?
//!
//! A measure is questioned, never refused. The limits are our own (common practice, no source), wide enough that a
//! child at the ends of the tables is not questioned. Never here: where the words are shown.

use super::garment_limit::{self, Place};
use super::growth::{self, Chart, LAST_MONTH};
use super::sex::Sex;
use super::survey::{self, FIRST_YEAR};
use super::{age_of, months};
use crate::quantity::{Length, Quantity, Style, Time, Unit};

/// The person measured, as far as known.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Wearer {
    /// Girl or boy.
    pub sex: Option<Sex>,
    /// How old.
    pub age: Option<Time>,
}

/// The waist of a surveyed child may be a quarter beyond the ends of the survey before it is questioned.
const WAIST_LEAST: f64 = 0.8;
const WAIST_MOST: f64 = 1.25;

/// The stature may be a tenth beyond the 5th and the 95th percentile.
const STATURE_LEAST: f64 = 0.9;
const STATURE_MOST: f64 = 1.1;

/// Seat and chest, relative to the limit for tight sleepwear.
const LIMIT_LEAST: f64 = 0.7;
const LIMIT_MOST: f64 = 1.5;

/// Waist to floor is less than this share of the stature.
const WAIST_HEIGHT: f64 = 0.7;

/// Measures of people of any age, in centimetres: the names of one, the least and the most.
const ANYBODY: [(&[&str], f64, f64); 10] = [
    (WAIST, 25.0, 200.0),
    (SEAT, 25.0, 220.0),
    (CHEST, 25.0, 200.0),
    (STATURE, 40.0, 230.0),
    (HEM, 3.0, 140.0),
    (&["upper arm", "arm"], 6.0, 70.0),
    (&["head"], 28.0, 70.0),
    (&["neck"], 15.0, 70.0),
    (&["wrist"], 7.0, 35.0),
    (&["thigh"], 12.0, 110.0),
];

const WAIST: &[&str] = &["waist"];
const SEAT: &[&str] = &["hip", "hips", "seat"];
const CHEST: &[&str] = &["chest", "bust"];
const STATURE: &[&str] = &["stature", "height"];
const HEM: &[&str] = &["waist to hem", "skirt length"];

/// The bounds that a measure is compared with.
struct Bounds {
    least: Length,
    most: Length,
    /// `a girl of 5`, or `anybody`.
    whose: String,
    /// The reason for the bounds, with its source.
    because: String,
}

/// Says what is odd about a measure; `None` if nothing is, or if the measure is not known.
pub(crate) fn warning(measure: &str, given: Length, wearer: Wearer, style: &Style) -> Option<String> {
    if !given.steps().is_finite() {
        return None;
    }
    let name = plain(measure);
    let bounds = bounds_of_age(&name, wearer, style).or_else(|| bounds_of_any_age(&name, style))?;
    let far = if given > bounds.most {
        "more"
    } else if given < bounds.least {
        "less"
    } else {
        return None;
    };
    let meant = on_the_other_tape(given).filter(|other| *other >= bounds.least && *other <= bounds.most);
    let meant = meant.map_or_else(String::new, |other| format!("; did you mean {}?", style.show(other.into())));
    let given = style.show(given.into());
    Some(format!("{given} is far {far} than {} measures ({}){meant}", bounds.whose, bounds.because))
}

/// The reminder for a child under two years whose size comes from a list; `None` from two years on.
pub(crate) fn under_two(age: Time) -> Option<&'static str> {
    let young = months(age) < 12.0 * f64::from(FIRST_YEAR);
    young.then_some("there is no survey of bodies under two years to hold a size against: measure the child")
}

/// Normalizes a measure's name: lower case, blanks for hyphens and underscores.
fn plain(measure: &str) -> String {
    measure.to_lowercase().replace(['_', '-'], " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The same number on the other tape, for inches and centimetres only.
fn on_the_other_tape(given: Length) -> Option<Length> {
    match given.liked().length? {
        Unit::Inch => Some(Length::centimetres(given.in_inches())),
        Unit::Centimetre => Some(Length::inches(given.in_centimetres())),
        _ => None,
    }
}

fn bounds_of_any_age(name: &str, style: &Style) -> Option<Bounds> {
    let (_, least, most) = ANYBODY.into_iter().find(|(names, ..)| names.contains(&name))?;
    let (least, most) = (Length::centimetres(least), Length::centimetres(most));
    let because = format!("any age: {}", range(least, most, style));
    Some(Bounds { least, most, whose: "anybody".to_owned(), because })
}

fn bounds_of_age(name: &str, wearer: Wearer, style: &Style) -> Option<Bounds> {
    let age = wearer.age?;
    let sexes: Vec<Sex> = wearer.sex.map_or_else(|| Sex::ALL.to_vec(), |sex| vec![sex]);
    let whose = whose(wearer.sex, age, style);
    if WAIST.contains(&name) {
        let ends = widest(sexes.iter().filter_map(|sex| survey::waist_ends(*sex, age)))?;
        let because = format!("survey: {}", ends.show(style));
        return Some(ends.bounds(WAIST_LEAST, WAIST_MOST, whose, because));
    }
    let place = [(SEAT, Place::Seat), (CHEST, Place::Chest)].into_iter().find(|(names, _)| names.contains(&name));
    if let Some((_, place)) = place {
        let limits = sexes.iter().filter_map(|sex| garment_limit::garment_limit(place, *sex, age).ok());
        let (least, most) = ends_of(limits)?;
        let because = format!("tight sleepwear of that size: {} at most", style.show(most.into()));
        return Some(Bounds { least: least * LIMIT_LEAST, most: most * LIMIT_MOST, whose, because });
    }
    let ends = widest(sexes.iter().filter_map(|sex| statures(*sex, age)))?;
    if STATURE.contains(&name) {
        let because = format!("stature of that age: {}", ends.show(style));
        return Some(ends.bounds(STATURE_LEAST, STATURE_MOST, whose, because));
    }
    if HEM.contains(&name) {
        let (_, least, _) = ANYBODY.into_iter().find(|(names, ..)| names.contains(&name))?;
        let most = ends.most.0;
        let because = format!("stature of that age: {} at the {}th", style.show(most.into()), ends.most.1);
        return Some(Bounds { least: Length::centimetres(least), most: most * WAIST_HEIGHT, whose, because });
    }
    None
}

/// The 5th percentile of stature at an age and the 95th at its end: five years run from five to six, eighteen months
/// to twenty. From the chart of the survey's country, from the other one before that begins, and from the survey
/// itself after both end.
fn statures(sex: Sex, age: Time) -> Option<survey::Ends> {
    let begins = months(age);
    let ends = if begins < 24.0 { begins + 2.0 } else { (begins + 12.0).min(LAST_MONTH) };
    let of = |chart| {
        let at = |months, share: u8| {
            let stature = growth::growth_stature(sex, age_of(months), f64::from(share) / 100.0, chart).ok()?;
            Some((to_the_millimetre(stature), share))
        };
        Some(survey::Ends { least: at(begins, 5)?, most: at(ends, 95)? })
    };
    let charted = if begins < LAST_MONTH { of(Chart::Cdc).or_else(|| of(Chart::Who)) } else { None };
    charted.or_else(|| survey::stature_ends(sex, age))
}

/// Charts are finer than a tape, and the sentence needs no more than a millimetre.
fn to_the_millimetre(stature: Length) -> Length {
    Length::centimetres((stature.in_centimetres() * 10.0).round() / 10.0)
}

impl survey::Ends {
    fn bounds(&self, least: f64, most: f64, whose: String, because: String) -> Bounds {
        Bounds { least: self.least.0 * least, most: self.most.0 * most, whose, because }
    }

    /// `46.7 to 67.3 cm, 5th to 95th`.
    fn show(&self, style: &Style) -> String {
        format!("{}, {}th to {}th", range(self.least.0, self.most.0, style), self.least.1, self.most.1)
    }
}

fn widest(all: impl Iterator<Item = survey::Ends>) -> Option<survey::Ends> {
    all.reduce(|one, other| survey::Ends {
        least: if other.least.0 < one.least.0 { other.least } else { one.least },
        most: if other.most.0 > one.most.0 { other.most } else { one.most },
    })
}

fn ends_of(lengths: impl Iterator<Item = Length> + Clone) -> Option<(Length, Length)> {
    Some((lengths.clone().reduce(Length::least)?, lengths.reduce(Length::most)?))
}

/// `46.7 to 67.3 cm`: both in centimetres, as printed.
fn range(least: Length, most: Length, style: &Style) -> String {
    let least = style.show_number((least.in_centimetres() * 10.0).round() / 10.0);
    format!("{least} to {}", style.show(most.into()))
}

/// `a girl of 5`, `a child of 18 months`.
fn whose(sex: Option<Sex>, age: Time, style: &Style) -> String {
    let child = sex.map_or("child", Sex::word);
    let months = months(age);
    let age = if months < 24.0 {
        style.show(Quantity::from(age_of(months.floor())))
    } else {
        style.show_number((months / 12.0).floor())
    };
    format!("a {child} of {age}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn warning_of(measure: &str, given: Length, sex: Option<Sex>, months: Option<f64>) -> Option<String> {
        warning(measure, given, Wearer { sex, age: months.map(age_of) }, &Style::default())
    }

    /// 300 cm round a waist is too much, and so is 300 in; 2 in too little, and so is 2 cm: neither tape is meant.
    #[test]
    fn the_other_tape_is_named_only_where_it_would_do() {
        for given in [Length::centimetres(300.0), Length::inches(2.0)] {
            let told = warning_of("waist", given, None, None).unwrap();
            assert!(!told.contains("did you mean"), "{told}");
        }
    }

    #[test]
    fn a_waist_on_the_wrong_tape_is_questioned() {
        let girl = Some(Sex::Girl);
        assert_eq!(
            warning_of("waist", Length::inches(56.0), girl, Some(60.0)).as_deref(),
            Some(
                "56 in is far more than a girl of 5 measures (survey: 46.7 to 67.3 cm, 5th to 95th); did you mean 56 cm?"
            )
        );
        assert_eq!(
            warning_of("Waist", Length::centimetres(21.0), None, Some(70.0)).as_deref(),
            Some(
                "21 cm is far less than a child of 5 measures (survey: 46 to 68.3 cm, 5th to 95th); did you mean 21 in?"
            )
        );
        // A percentile that the survey leaves out is not made up: the next one is used.
        let boy = warning_of("waist", Length::centimetres(20.0), Some(Sex::Boy), Some(72.0)).unwrap();
        assert!(boy.contains("51.1 to 73 cm, 10th to 95th"), "{boy}");
    }

    #[test]
    fn what_the_tables_print_is_left_in_peace() {
        for sex in Sex::ALL {
            for years in 2..14 {
                let months = f64::from(years) * 12.0;
                for share in survey::WAIST_SHARES {
                    let Ok(waist) = survey::survey_waist(sex, age_of(months), f64::from(share) / 100.0) else {
                        continue;
                    };
                    assert_eq!(warning_of("waist", waist, Some(sex), Some(months)), None);
                    assert_eq!(warning_of("waist", waist, None, Some(months)), None);
                    assert_eq!(warning_of("waist", waist, None, None), None);
                }
                for share in [5u8, 50, 95] {
                    let Ok(stature) = survey::survey_stature(sex, age_of(months), f64::from(share) / 100.0) else {
                        continue;
                    };
                    assert_eq!(
                        warning_of("stature", stature, Some(sex), Some(months)),
                        None,
                        "{sex:?} {years} {share}"
                    );
                }
                let limit = |place| garment_limit::garment_limit(place, sex, age_of(months));
                if let (Ok(seat), Ok(chest)) = (limit(Place::Seat), limit(Place::Chest)) {
                    assert_eq!(warning_of("hip", seat, Some(sex), Some(months)), None);
                    assert_eq!(warning_of("chest", chest, Some(sex), Some(months)), None);
                }
            }
        }
    }

    #[test]
    fn without_an_age_only_what_nobody_measures() {
        assert_eq!(warning_of("waist", Length::inches(56.0), None, None), None);
        assert_eq!(
            warning_of("waist", Length::inches(100.0), None, None).as_deref(),
            Some("100 in is far more than anybody measures (any age: 25 to 200 cm); did you mean 100 cm?")
        );
        assert_eq!(
            warning_of("hips", Length::centimetres(9.0), None, None).as_deref(),
            Some("9 cm is far less than anybody measures (any age: 25 to 220 cm)")
        );
        assert_eq!(warning_of("armhole between notches", Length::inches(900.0), None, None), None);
        // Past the ages of the tables, only the bounds for any age apply.
        assert_eq!(warning_of("waist", Length::inches(56.0), None, Some(14.0 * 12.0)), None);
    }

    #[test]
    fn the_other_measures_have_their_own_tables() {
        let seat = warning_of("hip", Length::inches(60.0), Some(Sex::Girl), Some(60.0)).unwrap();
        assert!(seat.starts_with("60 in is far more than a girl of 5 measures (tight sleepwear of that size: 24 in"));
        let hem = warning_of("waist to hem", Length::inches(45.0), None, Some(60.0)).unwrap();
        assert!(hem.contains("far more than a child of 5") && hem.contains("stature of that age"), "{hem}");
        assert_eq!(warning_of("waist-to-hem", Length::inches(12.0), None, Some(60.0)), None);
        let tall = warning_of("stature", Length::inches(110.0), Some(Sex::Boy), Some(60.0)).unwrap();
        assert!(tall.ends_with("did you mean 110 cm?"), "{tall}");
        let lying = warning_of("stature", Length::centimetres(30.0), None, Some(18.0)).unwrap();
        assert!(lying.contains("a child of 18 months"), "{lying}");
        // A short skirt is plausible from 3 cm, whatever the age.
        assert_eq!(warning_of("waist to hem", Length::centimetres(5.0), None, Some(60.0)), None);
    }

    /// Computed by hand from the rows of the charts on both sides of an age, each percentile 1.644854 standard
    /// deviations from the middle.
    #[test]
    fn a_stature_is_held_against_its_age_and_the_end_of_it() {
        let far = Length::centimetres(250.0);
        for (sex, months, wanted) in [
            // WHO daily table: the 5th at 18 months, the 95th at 20.
            (Sex::Girl, 18.0, "a girl of 18 months measures (stature of that age: 75.9 to 87.7 cm, 5th to 95th)"),
            (Sex::Boy, 18.6, "a boy of 18 months"),
            // CDC table: the 5th at five years, the 95th at six.
            (Sex::Girl, 60.0, "a girl of 5 measures (stature of that age: 100.1 to 123.6 cm, 5th to 95th)"),
            (Sex::Boy, 60.0, "a boy of 5 measures (stature of that age: 101.2 to 123.6 cm, 5th to 95th)"),
            (Sex::Girl, 24.0, "a girl of 2 measures (stature of that age: 79.3 to 100.5 cm, 5th to 95th)"),
            (Sex::Girl, 24.5, "a girl of 2 measures"),
            // Past the charts, the survey is used.
            (Sex::Girl, 144.0, "a girl of 12 measures (stature of that age: 142.2 to 166.6 cm, 5th to 95th)"),
        ] {
            let warning = warning_of("stature", far, Some(sex), Some(months)).unwrap();
            assert!(warning.contains(wanted), "{warning}");
        }
    }

    /// The limits are our own (common practice, no source): a measure just inside is not questioned.
    #[test]
    fn each_measure_has_its_own_limits() {
        let cm = Length::centimetres;
        for (measure, age, least, most) in [
            ("waist", None, 25.0, 200.0),
            ("seat", None, 25.0, 220.0),
            ("bust", None, 25.0, 200.0),
            ("height", None, 40.0, 230.0),
            ("skirt length", None, 3.0, 140.0),
            ("arm", None, 6.0, 70.0),
            ("head", None, 28.0, 70.0),
            ("neck", None, 15.0, 70.0),
            ("wrist", None, 7.0, 35.0),
            ("thigh", None, 12.0, 110.0),
            // A girl of five: a fifth under 46.7 and a quarter over 67.3, a tenth beyond 100.1 and 123.6, of 24 in for
            // seat and 23 in for chest 7/10 and 3/2, and 7/10 of 123.6.
            ("waist", Some(60.0), 37.36, 84.125),
            ("stature", Some(60.0), 90.09, 135.96),
            ("seat", Some(60.0), 16.8 * 2.54, 36.0 * 2.54),
            ("chest", Some(60.0), 16.1 * 2.54, 34.5 * 2.54),
            ("skirt length", Some(60.0), 3.0, 86.52),
        ] {
            let has_warning = |size: f64| warning_of(measure, cm(size), Some(Sex::Girl), age).is_some();
            assert!(!has_warning(least + 0.05) && !has_warning(most - 0.05), "{measure}");
            assert!(has_warning(least - 0.05) && has_warning(most + 0.05), "{measure}");
        }
    }

    #[test]
    fn the_ends_themselves_are_left_in_peace() {
        let cm = Length::centimetres;
        assert_eq!([25.0, 200.0].map(|size| warning_of("waist", cm(size), None, None)), [None, None]);
        assert!(
            warning_of("waist", cm(24.9), None, None).is_some() && warning_of("waist", cm(200.1), None, None).is_some()
        );
        // On the other tape, 9.84 cm becomes 25 cm and 200 in becomes 200 cm: both ends could be meant.
        for meant in [cm(25.0 / 2.54), Length::inches(200.0)] {
            let warning = warning_of("waist", meant, None, None).unwrap();
            assert!(warning.contains("did you mean"), "{warning}");
        }
    }

    #[test]
    fn under_two_years_a_child_is_measured() {
        assert!(under_two(age_of(23.9)).is_some_and(|warning| warning.contains("measure the child")));
        assert_eq!(under_two(age_of(24.0)), None);
        // No survey has waists under two years, so only sizes that nobody has are questioned.
        assert_eq!(warning_of("waist", Length::centimetres(44.0), None, Some(18.0)), None);
        assert!(warning_of("waist", Length::inches(90.0), None, Some(18.0)).is_some());
    }

    #[test]
    fn the_words_are_in_the_workshop_s_own_style() {
        let style = Style { decimal_comma: true, ..Style::default() };
        let wearer = Wearer { sex: Some(Sex::Girl), age: Some(age_of(60.0)) };
        let shown = warning("waist", Length::centimetres(20.5), wearer, &style).unwrap();
        assert!(shown.starts_with("20,5 cm is far less") && shown.contains("46,7 to 67,3 cm"), "{shown}");
        assert_eq!(warning("waist", Length::from_steps(f64::NAN), wearer, &style), None);
    }
}
