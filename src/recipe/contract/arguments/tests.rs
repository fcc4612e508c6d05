//! Each reader of an argument at its limits.

use super::*;
use crate::quantity::Unit;

fn read<T>(
    value: impl Into<Dynamic>,
    reading: impl FnOnce(Argument<'_>) -> Result<T, ScriptError>,
) -> Result<T, String> {
    let value = value.into();
    reading(argument("word", "it", 2, &value)).map_err(|error| {
        assert_eq!(error.marked, Marked::Argument(2));
        error.message
    })
}

fn inches(value: f64) -> Dynamic {
    value::quantity_to_script(Quantity::of(value, Unit::Inch))
}

#[test]
fn a_count_is_whole_and_no_less_than_the_least() {
    assert_eq!(read(3_i64, |it| it.count(3)), Ok(3));
    assert_eq!(read(4.0, |it| it.count(3)), Ok(4));
    assert_eq!(read(2_i64, |it| it.count(3)), Err("it in word is 2; the least is 3".to_owned()));
    assert_eq!(read(3.5, |it| it.count(3)), Err("it in word must be a whole number, not 3.5".to_owned()));
    assert_eq!(read(inches(3.0), |it| it.count(3)), Err("it in word must be a plain number, not a length".to_owned()));
    let half = Dynamic::from_float(3.5);
    assert_eq!(argument("word", "it", 2, &half).count(3).unwrap_err().hint.as_deref(), Some("round it with up(…)"));
}

#[test]
fn a_share_is_from_nothing_to_less_than_all() {
    assert_eq!(read(0.0, |it| it.share()), Ok(0.0));
    assert_eq!(read(0.99, |it| it.share()), Ok(0.99));
    for beyond in [-0.01, 1.0, 8.0] {
        let message = "it in word must be from 0 % to less than 100 %, as in 3 %";
        assert_eq!(read(beyond, |it| it.share()), Err(message.to_owned()));
    }
    assert_eq!(read("a", |it| it.share()), Err("it in word must be a plain number, not a text".to_owned()));
}

#[test]
fn a_length_is_more_than_nothing_and_finite() {
    assert_eq!(read(inches(0.5), |it| it.positive_length()), Ok(Length::inches(0.5)));
    assert_eq!(read(inches(0.0), |it| it.length()), Ok(Length::ZERO));
    assert_eq!(
        read(inches(-1.0), |it| it.positive_length()),
        Err("it in word is -1 in; it must be more than zero".to_owned())
    );
    assert!(read(inches(0.0), |it| it.positive_length()).is_err());
    assert!(read(inches(f64::INFINITY), |it| it.positive_length()).is_err());
    assert_eq!(read(3_i64, |it| it.length()), Err("it in word must be a length, not a plain number".to_owned()));
    assert_eq!(
        read(true, |it| it.quantity()),
        Err("it in word must be a number or a measure, not a yes or no".to_owned())
    );
    assert_eq!(read(3_i64, |it| it.quantity()), Ok(Quantity::number(3.0)));
}

#[test]
fn a_text_is_not_empty_and_no_longer_than_the_most() {
    assert_eq!(read("äbc", |it| it.text_of(3)), Ok("äbc".to_owned()));
    assert_eq!(read("abcd", |it| it.text_of(3)), Err("it in word has 4 letters; 3 are the most".to_owned()));
    assert_eq!(read("  ", |it| it.text_of(3)), Err("it in word is an empty text".to_owned()));
    assert_eq!(read("", |it| it.text()), Err("it in word is an empty text".to_owned()));
    assert_eq!(read(3_i64, |it| it.text()), Err("it in word must be a text, not a plain number".to_owned()));
    assert!(read("a".repeat(1_000), |it| it.text()).is_ok());
    assert_eq!(
        read("a".repeat(1_001), |it| it.text()),
        Err("it in word has 1001 letters; 1000 are the most".to_owned())
    );
    let value = Dynamic::from_int(3);
    assert_eq!(argument("", "it", 2, &value).text().unwrap_err().message, "it must be a text, not a plain number");
}

#[test]
fn a_name_can_be_seen_whole() {
    assert_eq!(read("blue lawn", |it| it.name()), Ok("blue lawn".to_owned()));
    assert!(read("a".repeat(80), |it| it.name()).is_ok());
    assert_eq!(read("a".repeat(81), |it| it.name()), Err("it in word has 81 letters; 80 are the most".to_owned()));
    for blank in [" lawn", "lawn "] {
        assert_eq!(read(blank, |it| it.name()), Err("it in word has a blank at an end, which nobody sees".to_owned()));
    }
    assert_eq!(read("la\u{7}wn", |it| it.name()), Err("it in word has a character that cannot be seen".to_owned()));
}

#[test]
fn a_word_is_one_of_those_that_are_known() {
    let words = [("one", 1), ("two", 2)];
    assert_eq!(read("two", |it| it.one_of(&words)), Ok(2));
    assert_eq!(
        read("three", |it| it.one_of(&words)),
        Err("it in word must be \"one\" or \"two\", not \"three\"".to_owned())
    );
}
