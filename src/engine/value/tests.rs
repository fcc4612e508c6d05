//! Script values as values of the trade, their nouns and how they are shown.

use super::*;
use crate::engine::host::Host;
use crate::engine::limits::{Limits, StopFlag};
use crate::quantity::Reading;
use rhai::{FnPtr, Map, Scope};

/// A host object as a higher layer has them.
#[derive(Clone)]
struct Apron(i64);

impl Shown for Apron {
    const TYPE: &'static str = "apron";

    fn shown(&self, _: &Style) -> String {
        format!("apron of {} pieces", self.0)
    }
}

#[derive(Clone)]
struct Lace;

impl Shown for Lace {
    const TYPE: &'static str = "lace";

    fn shown(&self, _: &Style) -> String {
        "lace".to_owned()
    }
}

/// What no layer has told the engine of.
#[derive(Clone)]
struct Unheard;

fn host() -> Host {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    host.register_shown::<Apron>();
    host.register_shown::<Lace>();
    host
}

fn spread() -> Dynamic {
    Dynamic::from(Spread { middle: Quantity::of(3.0, Unit::Inch), half: Quantity::of(0.5, Unit::Inch) })
}

fn blank() -> Dynamic {
    Dynamic::from(Blank { name: Rc::from("cost") })
}

#[test]
fn each_kind_has_its_noun_and_its_line() {
    let _registered = host();
    let style = Style::default();
    let list = Dynamic::from_array(vec![Dynamic::from_int(4), Dynamic::from_array(vec![Dynamic::from_int(5)])]);
    for (value, told, line) in [
        (Dynamic::UNIT, "nothing", None),
        (blank(), "a blank", None),
        (spread(), "a measure with ±", Some("3 in ± 1/2 in")),
        (Dynamic::from(Apron(7)), "an apron", Some("apron of 7 pieces")),
        (Dynamic::from(Lace), "a lace", Some("lace")),
        (Dynamic::from_char('x'), "a letter", None),
        (Dynamic::from(0_i64..3), "a range", None),
        (Dynamic::from(0_i64..=3), "a range", None),
        (Dynamic::from_map(Map::new()), "a #{ … } group", None),
        (Dynamic::from(FnPtr::new("f").unwrap()), "a function", None),
        (Dynamic::from(Unheard), "something that is no number or text", None),
        (Dynamic::from_int(4), "a plain number", Some("4")),
        (Dynamic::from_float(2.5), "a plain number", Some("2.5")),
        (quantity_to_script(Quantity::of(3.0, Unit::Inch)), "a length", Some("3 in")),
        (Dynamic::from("a"), "a text", Some("a")),
        (Dynamic::from_bool(true), "a yes or no", Some("yes")),
        (Dynamic::from_bool(false), "a yes or no", Some("no")),
        (list, "a list", Some("4, [5]")),
    ] {
        assert_eq!(noun(&value), told);
        assert_eq!(show(&value, &style).as_deref(), line, "{told}");
    }
    assert_eq!((Value::Blank.noun(), Value::Blank.show(&style)), ("nothing".to_owned(), "blank".to_owned()));
}

#[test]
fn what_goes_into_a_script_comes_back_as_it_was() {
    let inch: Value = Quantity::of(3.0, Unit::Inch).into();
    let list = Value::List(vec![Value::Whole(4), inch.clone(), Value::Blank]);
    for value in [inch, Value::Whole(4), Value::Text("a".to_owned()), Value::Flag(true), list, Value::Blank] {
        assert_eq!(Value::from_script(&value.clone().into_script()), Some(value));
    }
    assert_eq!(Value::from_script(&blank()), Some(Value::Blank));
    assert_eq!(Value::from_script(&Dynamic::from(Unheard)), None);
    assert_eq!(Value::from_script(&Dynamic::from_array(vec![Dynamic::from(Unheard)])), None);
}

#[test]
fn a_number_without_a_unit_is_a_plain_one_unless_it_is_in_per_cent() {
    assert_eq!(quantity_to_script(Quantity::number(2.5)).as_float(), Ok(2.5));
    let share = quantity_to_script(Quantity::of(50.0, Unit::Percent));
    assert!(share.as_float().is_err());
    assert_eq!(quantity_from_script(&share).and_then(|share| share.to_number().ok()), Some(0.5));
    assert_eq!(quantity_from_script(&Dynamic::from_int(4)), Some(Quantity::number(4.0)));
    for value in [Dynamic::from("a"), Dynamic::from_bool(true), Dynamic::UNIT] {
        assert_eq!(quantity_from_script(&value), None);
    }
}

#[test]
fn a_number_beyond_all_numbers_is_refused() {
    for beyond in [f64::INFINITY, f64::NEG_INFINITY, f64::NAN] {
        let error = checked(Dynamic::from_float(beyond)).unwrap_err();
        assert_eq!(error.message, "the result is too large to reckon with");
    }
    assert_eq!(checked(Dynamic::from_float(2.5)).unwrap().as_float(), Ok(2.5));
    assert_eq!(checked(Dynamic::from_int(4)).unwrap().as_int(), Ok(4));
    let host = host();
    let script = host.compile_expression("1.0e308 * 10").unwrap();
    assert_eq!(
        host.evaluate(&script, &mut Scope::new()).unwrap_err().message,
        "the result is too large to reckon with"
    );
}

#[test]
fn a_host_object_compares_with_nothing() {
    let host = host();
    for operator in ["==", "!=", "<", "<=", ">", ">="] {
        for (left, right, nouns) in [
            ("apron", "3", "an apron and a plain number"),
            ("3", "apron", "a plain number and an apron"),
            ("lace", "\"a\"", "a lace and a text"),
        ] {
            let mut scope = Scope::new();
            scope.push_dynamic("apron", Dynamic::from(Apron(7)));
            scope.push_dynamic("lace", Dynamic::from(Lace));
            let typed = format!("{left} {operator} {right}");
            let script = host.compile_expression(&typed).unwrap();
            let error = host.evaluate(&script, &mut scope).unwrap_err();
            assert_eq!(error.message, format!("{nouns} cannot be compared"), "{typed}");
            let span = &error.labels[0].span;
            let marked: Vec<&str> = span.bytes.iter().map(|bytes| &span.text[bytes.clone()]).collect();
            assert_eq!(marked, [left, right], "{typed}");
        }
    }
}
