//! Measures as they are typed: numbers, fractions, units, prices, sizes of two units, and what cannot be read.

use super::*;
use crate::quantity::show::Style;

#[track_caller]
fn check(text: &str, shown: &str) {
    let style = Style::default();
    let value = match read_quantity(text, Reading::default()) {
        Ok(LiteralValue::Quantity(quantity)) => style.show(quantity),
        Ok(LiteralValue::Spread { middle, half }) => format!("{} ± {}", style.show(middle), style.show(half)),
        Err(error) => format!("{:?}: {error}", text.get(error.span.clone()).unwrap_or_default()),
    };
    assert_eq!(value, shown, "{text}");
}

#[test]
fn lengths_on_the_inch_tape() {
    check("14.5in", "14 1/2 in");
    check("14 1/2 in", "14 1/2 in");
    check("14½ in", "14 1/2 in");
    check("14 ½ in", "14 1/2 in");
    check("½ in", "1/2 in");
    check("14\"", "14 in");
    check("14 1/2\"", "14 1/2 in");
    check("14″", "14 in");
    check("5' 3\"", "5 ft 3 in");
    check("3/8 in", "3/8 in");
    check("11/8 in", "1 3/8 in");
    check("2 yd 6 in", "2 yd 6 in");
    check("2 yd 6 3/8 in", "2 yd 6 3/8 in");
    check(".5 in", "1/2 in");
    check("-3 in", "-3 in");
    check("2 ells", "2 ell");
}

#[test]
fn the_rest_of_the_units() {
    check("35 cm", "35 cm");
    check("12 min", "12 min");
    check("1 h 20 min", "1 h 20 min");
    check("5 years", "5 years");
    check("1 year", "1 year");
    check("18 months", "18 months");
    check("1 1/2 years", "1.5 years");
    check("2 years 6 months", "2 years 6 months");
    check("1 year 1 month", "1 year 1 month");
    check("$4.50", "$4.50");
    check("$4.50/yd", "$4.50/yd");
    check("25 %", "25 %");
    check("2.6 oz/yd^2", "2.6 oz/yd^2");
    check("60 g/m^2", "60 g/m^2");
    check("40 tex", "40 tex");
    check("3 dozen", "36");
    check("2 in ± 1/8 in", "2 in ± 1/8 in");
    check("12/yd", "\"/yd\": “/yd” cannot follow here");
}

#[test]
fn what_cannot_be_read_is_marked() {
    check("5 inn", "\"inn\": “inn” is not a unit");
    check("14 in 3 cm", "\"14 in 3 cm\": “14 in 3 cm” mixes two tapes in one length");
    check("6 in 2 yd", "\"6 in 2 yd\": two sizes written together must go from the larger to the smaller");
    check("1/0 in", "\"1/0\": a fraction cannot have zero below the line");
    check("£4", "\"£\": this workshop counts its money in $, not in £");
    check("about 3", "\"about 3\": “about 3” is not a number with a unit");
    check("NaN", "\"NaN\": “NaN” is not a number with a unit");
    check("", "\"\": nothing is written here");
    check("3 in long", "\"long\": “long” cannot follow here");
    check("2,5 cm", "\",5 cm\": “,5 cm” cannot follow here");
    check("12345678901234567890 in", "\"12345678901234567890\": that number has too many digits");
}

#[test]
fn a_decimal_comma_is_read_only_where_the_dialect_says_so() {
    let comma = Reading { decimal_comma: true, currency: '€' };
    let Ok(LiteralValue::Quantity(read)) = read_quantity("2,5 cm", comma) else { panic!("not read") };
    assert_eq!(read.count_of(Unit::Centimetre), Ok(2.5));
}

#[test]
fn decimals_are_scaled_exactly() {
    let steps = |text| match read_quantity(text, Reading::default()) {
        Ok(LiteralValue::Quantity(quantity)) => quantity.steps(),
        other => panic!("{other:?}"),
    };
    assert_eq!(steps("1.1 cm").to_bits(), 11_000_000f64.to_bits());
    assert_eq!(steps("0.1 cm").to_bits(), 1_000_000f64.to_bits());
    assert_eq!(steps("1/64 in").to_bits(), 396_875f64.to_bits());
}

#[test]
fn units_alone() {
    let reading = Reading::default();
    assert_eq!(read_unit("yd", reading).unwrap().dimension, Dimension::LENGTH);
    assert_eq!(read_unit("oz/yd^2", reading).unwrap().dimension, Dimension::MASS_BY_AREA);
    assert_eq!(read_unit("$/yd", reading).unwrap().dimension, Dimension::MONEY_BY_LENGTH);
    assert!(read_unit("yd in", reading).unwrap().liked.compound);
    assert!(read_unit("furlong", reading).is_err());
}

#[test]
fn a_fraction_after_a_division_sign_is_asked_about() {
    let error = literal_at("a / 1/2 in", 4, Reading::default(), true).unwrap_err();
    assert_eq!(error.kind.hint().unwrap(), "put the fraction in brackets: / (1/2 in)");
}

fn steps(text: &str) -> f64 {
    match read_quantity(text, Reading::default()) {
        Ok(LiteralValue::Quantity(quantity)) => quantity.steps(),
        other => panic!("{text}: {other:?}"),
    }
}

#[test]
fn every_fraction_sign_is_its_fraction() {
    for (sign, value) in [
        ("½", 1.0 / 2.0),
        ("¼", 1.0 / 4.0),
        ("¾", 3.0 / 4.0),
        ("⅛", 1.0 / 8.0),
        ("⅜", 3.0 / 8.0),
        ("⅝", 5.0 / 8.0),
        ("⅞", 7.0 / 8.0),
        ("⅓", 1.0 / 3.0),
        ("⅔", 2.0 / 3.0),
        ("⅙", 1.0 / 6.0),
        ("⅚", 5.0 / 6.0),
        ("⅕", 1.0 / 5.0),
        ("⅖", 2.0 / 5.0),
        ("⅗", 3.0 / 5.0),
        ("⅘", 4.0 / 5.0),
    ] {
        assert_eq!(steps(sign).to_bits(), f64::to_bits(value), "{sign}");
        let (apart, together) = (steps(&format!("7 {sign}")), steps(&format!("7{sign}")));
        assert!((apart - 7.0 - value).abs() < 1e-12 && apart.to_bits() == together.to_bits(), "7{sign}");
        assert!(may_begin(sign.chars().next().unwrap()));
    }
    assert!("09$£€".chars().all(may_begin) && !".a-%".chars().any(may_begin));
}

/// Two sizes come to as much as all of it in the smaller one.
#[test]
fn two_sizes_are_added() {
    for (both, small) in [
        ("2 yd 6 in", "78 in"),
        ("5 ft 3 in", "63 in"),
        ("2 yd 1 ft 6 in", "90 in"),
        ("1 m 23 cm", "123 cm"),
        ("1 h 20 min", "80 min"),
        ("1 h 20 min 30 s", "4830 s"),
        ("3 min 20 s", "200 s"),
        ("2 lb 3 oz", "35 oz"),
        ("1 kg 200 g", "1200 g"),
        ("2 years 6 months", "30 months"),
        ("2 yd 6 3/8 in", "78 3/8 in"),
        ("5' ½\"", "60 1/2 in"),
        ("4 ft^2", "576 in^2"),
        ("1 ft^3", "1728 in^3"),
        ("1 ft^1", "12 in"),
        ("$36/yd", "$1/in"),
        ("3 gross", "432"),
    ] {
        assert!((steps(both) - steps(small)).abs() <= 1e-9 * steps(small), "{both}");
    }
    check("6 in 6 in", "\"6 in 6 in\": two sizes written together must go from the larger to the smaller");
    check("2 yd 6 min", "\"6 min\": “6 min” cannot follow here");
    check("2 yd 6", "\"6\": “6” cannot follow here");
    check("3 gross", "432");
}

/// Fifteen digits before the point and fifteen behind it, in seventeen places at most.
#[test]
fn a_number_has_no_more_digits_than_are_exact() {
    assert!((steps("123456789012345") - 123_456_789_012_345.0).abs() < 0.5);
    let too_long = |text: &str| {
        let error = read_quantity(text, Reading::default()).unwrap_err();
        matches!(error.kind, LiteralErrorKind::TooLong)
    };
    assert!(too_long("1234567890123456"));
    assert!((steps("1.123456789012345") - 1.123_456_789_012_345).abs() < 1e-15);
    assert!(too_long("12.123456789012345") && too_long("0.1234567890123456"));
    check("2 1/0 in", "\"1/0\": a fraction cannot have zero below the line");
    check("3/8.5 in", "\"/8.5 in\": “/8.5 in” cannot follow here");
    check("3/8_1 in", "\"/8_1 in\": “/8_1 in” cannot follow here");
}

#[test]
fn a_tolerance_is_of_the_same_kind_as_its_middle() {
    check("2 in +/- 1/8 in", "2 in ± 1/8 in");
    check("-2 in ±1/8 in", "-2 in ± 1/8 in");
    for wrong in ["2 in ± 3 min", "2 in ±", "2 in ± 3"] {
        let error = read_quantity(wrong, Reading::default()).unwrap_err();
        assert!(matches!(error.kind, LiteralErrorKind::SpreadSides), "{wrong}");
    }
}

#[test]
fn money_and_prices_are_in_the_workshops_own() {
    let euro = Reading { currency: '€', decimal_comma: false };
    let read = |text: &str| read_quantity(text, euro);
    assert!(read("5 €").is_ok() && read("€5/m").is_ok() && read("5 €/m").is_ok());
    assert!(read("$5").is_err() && read("5 £").is_err());
    check("5 $", "\"$\": “$” cannot follow here");
    check("$36/yd(3)", "\"/yd(3)\": “/yd(3)” cannot follow here");
    check("$36/yd.x", "\"/yd.x\": “/yd.x” cannot follow here");
    check("$36/yd: x", "\": x\": “: x” cannot follow here");
    check("$36/bolts", "\"/bolts\": “/bolts” cannot follow here");
    check("3 m^4", "\"^4\": “^4” cannot follow here");
    check("3 m^0", "\"^0\": “^0” cannot follow here");
    check("  − 3 in ", "-3 in");
    check("-", "\"-\": “-” is not a number with a unit");
}

#[test]
fn words_that_may_follow_a_number_are_no_units() {
    for word in KEYWORDS {
        let text = format!("3 {word}");
        assert_eq!(literal_at(&text, 0, Reading::default(), false), Ok(None), "{text}");
    }
    assert!(literal_at("3 iffy", 0, Reading::default(), false).is_err());
    let member = literal_at("3 in [1, 2]", 0, Reading::default(), false).unwrap_err();
    assert!(matches!(member.kind, LiteralErrorKind::Membership));
    assert!(literal_at("3 cm [1, 2]", 0, Reading::default(), false).is_ok());
    // A whole number before it makes the fraction no division.
    let found = literal_at("/ 2 1/2 in", 2, Reading::default(), true).unwrap().unwrap();
    assert_eq!(found.end, 10);
    assert_eq!(literal_at("/ 1/2", 2, Reading::default(), true), Ok(None));
}

#[test]
fn a_unit_counts_what_is_measured_in_it() {
    let unit = |text: &str| read_unit(text, Reading::default());
    let cm = unit(" cm ").unwrap();
    assert_eq!(cm.times(3.0).steps().to_bits(), steps("3 cm").to_bits());
    assert!((cm.count_in(cm.times(7.5)) - 7.5).abs() < 1e-12);
    assert!((unit("in").unwrap().count_in(unit("yd").unwrap().times(2.0)) - 72.0).abs() < 1e-9);
    assert_eq!(unit("%").unwrap().dimension, Dimension::NUMBER);
    for compound in ["yd in", "ft in", "m cm", "h min", "lb oz", "kg g", "yd  in", "year month", "min s"] {
        assert!(unit(compound).unwrap().liked.compound, "{compound}");
    }
    for none in ["in yd", "yd cm", "yd ft", "cm x", "£/yd", "cm/", "5", "", "in mm", "as"] {
        assert!(unit(none).is_err(), "{none}");
    }
    assert!(!unit("yd").unwrap().liked.compound);
}
