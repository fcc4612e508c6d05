//! What each kind of argument accepts, and what is told of any other.

use super::*;
use crate::engine::functions;
use crate::quantity::Unit;

fn inch(value: f64) -> Value {
    Quantity::of(value, Unit::Inch).into()
}

fn plain(value: f64) -> Value {
    Quantity::number(value).into()
}

fn word(text: &str) -> Value {
    Value::Text(text.to_owned())
}

#[test]
fn a_kind_accepts_what_it_is_and_nothing_else() {
    let words = ParameterKind::OneOf(&["one", "two"]);
    let values = [
        ("length", inch(3.0)),
        ("time", Quantity::of(3.0, Unit::Minute).into()),
        ("decimal", plain(2.5)),
        ("whole decimal", plain(2.0)),
        ("below zero", Value::Whole(-1)),
        ("zero", Value::Whole(0)),
        ("whole", Value::Whole(4)),
        ("word", word("two")),
        ("other word", word("three")),
        ("flag", Value::Flag(false)),
        ("blank", Value::Blank),
        ("numbers", Value::List(vec![Value::Whole(1), plain(2.5)])),
        ("measures", Value::List(vec![inch(1.0), Value::Blank])),
        ("texts", Value::List(vec![Value::Whole(1), word("a")])),
        ("empty", Value::List(Vec::new())),
    ];
    for (kind, accepted) in [
        (LENGTH, &["length"][..]),
        (TIME, &["time"]),
        (ParameterKind::Number, &["decimal", "whole decimal", "below zero", "zero", "whole"]),
        (ParameterKind::Share, &["decimal", "whole decimal", "below zero", "zero", "whole"]),
        (ParameterKind::Count, &["whole decimal", "zero", "whole"]),
        (ParameterKind::Any, &["length", "time", "decimal", "whole decimal", "below zero", "zero", "whole"]),
        (words, &["word"]),
        (ParameterKind::Numbers, &["numbers"]),
        (ParameterKind::List, &["numbers", "measures"]),
        (ParameterKind::Flag, &["flag"]),
    ] {
        let found: Vec<&str> = values.iter().filter(|(_, value)| kind.accepts(value)).map(|(name, _)| *name).collect();
        assert_eq!(found, accepted, "{kind:?}");
    }
    assert!(values.iter().all(|(_, value)| ParameterKind::Anything.accepts(value)));
}

#[test]
fn a_kind_is_told_in_words() {
    for (kind, noun) in [
        (LENGTH, "a length"),
        (MONEY, "an amount of money"),
        (ParameterKind::Number, "a plain number"),
        (ParameterKind::Share, "a plain number"),
        (ParameterKind::Count, "a whole number, zero or more"),
        (ParameterKind::Any, "a number or a measure"),
        (ParameterKind::OneOf(&["one", "two"]), "\"one\" or \"two\""),
        (ParameterKind::Numbers, "a list of plain numbers such as [6, 5]"),
        (ParameterKind::List, "a list of numbers or measures"),
        (ParameterKind::Flag, "a yes or no"),
        (ParameterKind::Anything, "anything"),
    ] {
        assert_eq!(kind.noun(), noun);
    }
}

/// What is told of a call with these arguments.
fn told(name: &str, values: &[Value]) -> (String, String, Marked) {
    let error = functions::named(name).unwrap().call(values, &Style::default()).unwrap_err();
    (error.message, error.hint.unwrap_or_default(), error.marked)
}

#[test]
fn a_wrong_argument_is_told_with_what_is_needed() {
    for (name, values, message, hint, index) in [
        (
            "gathered_flat",
            vec![inch(3.0), inch(2.0)],
            "fullness in gathered_flat must be a plain number, not a length",
            "type gathered_flat(finished, fullness)",
            1,
        ),
        (
            "gathered_flat",
            vec![plain(30.5), plain(2.0)],
            "finished in gathered_flat must be a length, not a plain number",
            "give it a unit: 30.5 in or 30.5 cm",
            0,
        ),
        (
            "gathered_flat",
            vec![word("wide"), plain(2.0)],
            "finished in gathered_flat must be a length, not a text",
            "type gathered_flat(finished, fullness)",
            0,
        ),
        (
            "widths_for",
            vec![inch(90.0), inch(45.0), inch(0.5), word("thirds")],
            "joins in widths_for must be \"whole widths\" or \"half widths\", not \"thirds\"",
            "",
            3,
        ),
        (
            "even_marks",
            vec![inch(25.0), plain(2.5)],
            "parts in even_marks must be a whole number, zero or more, not 2.5",
            "type even_marks(length, parts)",
            1,
        ),
        (
            "even_marks",
            vec![inch(25.0), Value::Whole(-2)],
            "parts in even_marks must be a whole number, zero or more, not -2",
            "type even_marks(length, parts)",
            1,
        ),
        (
            "even_marks",
            vec![inch(25.0), inch(2.0)],
            "parts in even_marks must be a whole number, zero or more, not a length",
            "type even_marks(length, parts)",
            1,
        ),
        (
            "total",
            vec![Value::Flag(true)],
            "list in total must be a list of numbers or measures, not a yes or no",
            "type total(list)",
            0,
        ),
        (
            "total",
            vec![Value::List(vec![inch(1.0), Value::Flag(true)])],
            "list in total must be a list of numbers or measures, not a list with a yes or no in it",
            "type total(list)",
            0,
        ),
        (
            "gathered_flat",
            vec![inch(3.0), plain(f64::INFINITY)],
            "fullness in gathered_flat is too large to reckon with",
            "",
            1,
        ),
        (
            "total",
            vec![Value::List(vec![inch(1.0), plain(f64::NEG_INFINITY)])],
            "list in total is too large to reckon with",
            "",
            0,
        ),
    ] {
        let (said, hinted, marked) = told(name, &values);
        assert_eq!((said.as_str(), marked), (message, Marked::Argument(index)));
        assert!(hint.is_empty() || hinted == hint, "{hinted}");
    }
}

#[test]
fn arguments_are_read_as_what_they_are() {
    static PARAMETERS: [Parameter; 6] = [
        Parameter::new("length", LENGTH),
        Parameter::new("number", ParameterKind::Number),
        Parameter::new("word", ParameterKind::OneOf(&["a"])),
        Parameter::new("flag", ParameterKind::Flag),
        Parameter::new("list", ParameterKind::List),
        Parameter::with_default("other", LENGTH, "0 in"),
    ];
    let list = Value::List(vec![Value::Whole(4), plain(2.5)]);
    let values = [inch(3.0), Value::Whole(2), word("a"), Value::Flag(true), list.clone(), inch(5.0)];
    let a = Arguments { values: &values, parameters: &PARAMETERS };
    assert_eq!((a.length(0).unwrap(), a.number(1).unwrap(), a.count(1).unwrap()), (Length::inches(3.0), 2.0, 2));
    assert_eq!((a.text(2).unwrap(), a.flag(3).unwrap()), ("a", true));
    assert_eq!((a.items(4).unwrap().len(), a.numbers(4).unwrap()), (2, vec![4.0, 2.5]));
    assert_eq!((a.name(1), a.name(5), a.name(6)), ("number", "other", ""));
    assert_eq!((a.named("flag"), a.named("none")), (Some(3), None));
    assert_eq!(a.first_of(LENGTH), Some(Quantity::of(3.0, Unit::Inch)));
    assert_eq!(a.first_of(TIME), None);
    assert_eq!((a.get(4), a.get(6)), (Some(&list), None));
    let message = |error: ScriptError| error.message;
    assert_eq!(a.quantity(6).map_err(message), Err("a measure is missing here".to_owned()));
    assert_eq!(a.count(0).map_err(message), Err("a whole number is missing here".to_owned()));
    assert_eq!(a.text(0).map_err(message), Err("a word in quotes is missing here".to_owned()));
    assert_eq!(a.flag(0).map_err(message), Err("a yes or no is missing here".to_owned()));
    assert_eq!(a.items(0).map_err(message), Err("a list is missing here".to_owned()));
    assert_eq!(a.numbers(0).map_err(message), Err("a list of numbers is missing here".to_owned()));
    assert!(a.time(0).is_err() && a.area(0).is_err() && a.mass(0).is_err() && a.money(0).is_err());
}

#[test]
fn a_signature_shows_what_may_be_left_out() {
    let signature = |name| functions::named(name).unwrap().signature();
    assert_eq!(signature("strips_for"), "strips_for(flat, width, overlap = 0 in)");
    assert_eq!(signature("pi"), "pi()");
}

#[test]
fn a_caution_is_raised_by_elastic_that_is_tight() {
    use crate::engine::host::Host;
    use crate::engine::limits::{Limits, StopFlag};
    use crate::quantity::Reading;
    use rhai::Scope;
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    let raised = |typed: &str| {
        let answer = host.compile_expression(typed).and_then(|script| host.evaluate(&script, &mut Scope::new()));
        assert!(answer.is_ok(), "{typed}");
        host.take_notices()
    };
    // Soft elastic is cut up to 10 % shorter without a word.
    for (typed, wanted) in [
        ("elastic_worn(20 in, 5 %)", &[][..]),
        ("elastic_worn(20 in, 20 %)", &["elastic-tight"]),
        ("elastic_length(20 in, 20 %, 1 in)", &["elastic-tight"]),
        ("elastic_length(20 in, 5 %, 1 in)", &[]),
        ("elastic_shorter_by(20 in, 4 in, 1 in)", &["elastic-tight"]),
        ("elastic_shorter_by(20 in, 1 in, 1 in)", &[]),
        ("gathered_flat(20 in, 2)", &[]),
        ("elastic_worn(20 in, 20 %) + elastic_worn(20 in, 20 %)", &["elastic-tight", "elastic-tight"]),
    ] {
        assert_eq!(raised(typed), wanted, "{typed}");
    }
}
