//! Checks body tables against print: every percentile of one growth chart, the days between the rows of the other,
//! every figure of the survey and of the rule on sleepwear.

use shirr::body::garment_limit::{Place, SIZES, garment_limit_of_size};
use shirr::body::growth::{Chart, growth_share, growth_stature};
use shirr::body::survey::{survey_stature, survey_waist};
use shirr::body::{BodyError, Sex};
use shirr::quantity::{Length, Quantity, Time, Unit};
use std::path::PathBuf;

fn table(name: &str) -> (Vec<String>, Vec<Vec<String>>) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/published").join(name);
    let mut table = csv::Reader::from_path(path).unwrap();
    let headings = table.headings();
    let rows = table.records().map(|record| record.unwrap().iter().map(str::to_owned).collect()).collect();
    (headings, rows)
}

trait Headings {
    fn headings(&mut self) -> Vec<String>;
}

impl<R: std::io::Read> Headings for csv::Reader<R> {
    fn headings(&mut self) -> Vec<String> {
        self.headers().unwrap().iter().map(str::to_owned).collect()
    }
}

fn months(count: f64) -> Time {
    Time::try_from(Quantity::of(count, Unit::Month)).unwrap()
}

/// CDC growth charts of 2000, stature-for-age data table, its columns P3 to P97 (National Center for Health
/// Statistics, public domain; read in a stored copy).
#[test]
fn every_printed_percentile_of_the_cdc_chart_comes_out() {
    let (headings, rows) = table("cdc_stature.csv");
    let shares: Vec<f64> = headings[2..].iter().map(|share| share.parse::<f64>().unwrap() / 100.0).collect();
    let mut checked = 0;
    for row in rows {
        let (sex, age) = (Sex::named(&row[0]).unwrap(), row[1].parse::<f64>().unwrap());
        if age > 144.0 {
            assert!(growth_stature(sex, months(age), 0.5, Chart::Cdc).is_err(), "{age} is past the end");
            continue;
        }
        for (share, printed) in shares.iter().zip(&row[2..]) {
            let printed: f64 = printed.parse().unwrap();
            let found = growth_stature(sex, months(age), *share, Chart::Cdc).unwrap();
            // Printed to seven places and more.
            assert!((found.in_centimetres() - printed).abs() < 1e-6, "{sex:?} {age} {share}: {found:?}");
            let back = growth_share(sex, months(age), found, Chart::Cdc).unwrap();
            assert!((back - share).abs() < 1e-9, "{sex:?} {age} {share}: {back}");
            checked += 1;
        }
    }
    assert_eq!(checked, 2 * 121 * 9);
}

/// At an age between two printed months, the value lies between both printed ones, near their mean.
#[test]
fn between_two_printed_months_lies_the_mean_of_both() {
    let (headings, rows) = table("cdc_stature.csv");
    let shares: Vec<f64> = headings[2..].iter().map(|share| share.parse::<f64>().unwrap() / 100.0).collect();
    for pair in rows.windows(2).filter(|pair| pair[0][0] == pair[1][0]) {
        let sex = Sex::named(&pair[0][0]).unwrap();
        let ages: Vec<f64> = pair.iter().map(|row| row[1].parse().unwrap()).collect();
        let age = f64::midpoint(ages[0], ages[1]);
        for (index, share) in shares.iter().enumerate() {
            let [young, old] = [&pair[0], &pair[1]].map(|row| row[2 + index].parse::<f64>().unwrap());
            let found = growth_stature(sex, months(age), *share, Chart::Cdc).unwrap().in_centimetres();
            assert!(young < found && found < old, "{sex:?} {age} {share}");
            assert!((found - f64::midpoint(young, old)).abs() < 0.02, "{sex:?} {age} {share}");
        }
    }
}

/// WHO Child Growth Standards, length/height-for-age, daily table as in the public repository
/// WorldHealthOrganization/anthro: every seventeenth day, most of them between the rows that are kept.
#[test]
fn the_days_between_the_rows_of_the_who_chart_are_met_within_a_millimetre() {
    let (_, rows) = table("who_height.csv");
    assert_eq!(rows.len(), 2 * 110);
    for row in rows {
        let number = |index: usize| row[index].parse::<f64>().unwrap();
        let (sex, day) = (Sex::named(&row[0]).unwrap(), number(1));
        let age = Time::try_from(Quantity::of(24.0 * day, Unit::Hour)).unwrap();
        for (share, z) in [(0.5, 0.0), (0.158_655_253_931_457, -1.0), (0.977_249_868_051_821, 2.0)] {
            // M·(1 + S·z), for the chart's L is one.
            let wanted = number(2) * (1.0 + number(3) * z);
            let found = growth_stature(sex, age, share, Chart::Who).unwrap().in_centimetres();
            assert!((found - wanted).abs() < 0.1, "{sex:?} day {day} {share}: {found}, not {wanted}");
        }
    }
}

/// C. D. Fryar and others 2025, Vital and Health Statistics 3 (50), tables 11 and 5 (public domain, read); an empty
/// field is one that the survey does not show.
#[test]
fn every_figure_of_the_survey_comes_out() {
    type Survey = fn(Sex, Time, f64) -> Result<Length, BodyError>;
    let surveys: [(&str, Survey); 2] = [("survey_waist.csv", survey_waist), ("survey_stature.csv", survey_stature)];
    for (name, survey) in surveys {
        let (headings, rows) = table(name);
        assert_eq!(rows.len(), 12, "{name}");
        for row in rows {
            let (sex, years) = (Sex::named(&row[0]).unwrap(), row[1].parse::<f64>().unwrap());
            for (share, printed) in headings[2..].iter().zip(&row[2..]) {
                let share = share.parse::<f64>().unwrap() / 100.0;
                // Both years of a group.
                for age in [12.0 * years, 12.0 * years + 23.0] {
                    match (survey(sex, months(age), share), printed.parse::<f64>()) {
                        (Ok(found), Ok(printed)) => assert_eq!(found, Length::centimetres(printed), "{name} {row:?}"),
                        (Err(BodyError::LeftOut { .. }), Err(_)) => {}
                        (found, _) => panic!("{name} {row:?} {share}: {found:?}"),
                    }
                }
            }
        }
    }
}

/// 16 CFR 1615.1(o) and 1616.2(m), edition of 2015, read: girls' sizes in inches and in centimetres.
#[test]
fn every_limit_of_tight_sleepwear_comes_out() {
    let (_, rows) = table("garment_limits.csv");
    assert!(rows.iter().map(|row| row[0].as_str()).eq(SIZES));
    for row in rows {
        let printed = |index: usize| row[index].parse::<f64>().unwrap();
        for (index, place) in [Place::Waist, Place::Seat, Place::Chest].into_iter().enumerate() {
            let found = garment_limit_of_size(place, Sex::Girl, &row[0]).unwrap();
            let (inches, centimetres) = (printed(1 + 2 * index), printed(2 + 2 * index));
            assert_eq!(found, Length::inches(inches), "{place:?} {row:?}");
            // The text converts 22 in to 56 cm twice, a slip, and to 55.9 cm once.
            let slip = row[2 + 2 * index] == "56" && row[1 + 2 * index] == "22";
            assert!(slip || (found.in_centimetres() - centimetres).abs() < 0.050_001, "{place:?} {row:?}");
        }
    }
}
