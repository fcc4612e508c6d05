//! What a typed expression reads, gives and refuses.

use super::*;
use crate::engine::limits::{Limits, StopFlag};
use crate::quantity::{Reading, Style};

fn host() -> Host {
    Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default())
}

fn compiled(typed: &str) -> Expression {
    Expression::compile(&host(), typed).unwrap_or_else(|error| panic!("{typed}: {}", error.message))
}

/// The parts of the text that an error marks.
fn marked(error: &Diagnostic) -> Vec<&str> {
    error.labels.iter().flat_map(|label| label.span.bytes.iter().map(|bytes| &label.span.text[bytes.clone()])).collect()
}

fn refused(typed: &str) -> Diagnostic {
    let host = host();
    Expression::compile(&host, typed).and_then(|sum| sum.evaluate(&host, &mut Scope::new())).unwrap_err()
}

fn shown(typed: &str) -> String {
    let host = host();
    let value = compiled(typed).evaluate(&host, &mut Scope::new()).unwrap_or_else(|error| panic!("{}", error.message));
    value::show(&value, &Style::default()).unwrap_or_default()
}

#[test]
fn a_result_is_shown_in_the_unit_asked_for() {
    assert_eq!(shown("254 cm as in"), "100 in");
    assert_eq!(shown("2 * 1 yd as in"), "72 in");
    assert_eq!(shown("0.5 as %"), "50 %");
    assert_eq!(shown("  90 in   as   yd  "), "2 1/2 yd");
    assert_eq!(shown("90 in"), "90 in");
    assert_eq!(compiled("  2 * 1 yd  as in").sum(), "2 * 1 yd");
    assert_eq!(compiled(" 90 in as yd").sum(), "90 in");
}

#[test]
fn a_unit_that_does_not_fit_is_marked() {
    for (typed, message, marks) in [
        ("3 min as cm", "a time cannot be shown as a length", "cm"),
        ("2 * 3 min as cm  ", "a time cannot be shown as a length", "cm"),
        ("3 in as %", "a length cannot be shown as a share", "%"),
        ("\"a\" as cm", "a text cannot be shown in a unit", "cm"),
        ("7 as yd", "a plain number cannot be shown as a length", "yd"),
    ] {
        let error = refused(typed);
        assert_eq!((error.message.as_str(), &error.kind), (message, &DiagnosticKind::Unlike), "{typed}");
        assert_eq!(marked(&error), [marks], "{typed}");
    }
    let error = refused("2 * 3 in as  cubits ");
    assert_eq!(error.kind, DiagnosticKind::Syntax);
    assert_eq!(marked(&error), ["cubits"]);
    // What is wrong in the sum comes first.
    assert_eq!(refused("waist waist as cubits").message, "put = or + before waist");
    assert_eq!(marked(&refused("5'3 as cubits")), ["3"]);
}

#[test]
fn nothing_is_no_sum() {
    for typed in ["", "   ", " as cm"] {
        let error = refused(typed);
        assert_eq!(error.message, "nothing is written here", "{typed:?}");
        assert_eq!(error.hint.as_deref(), Some("type a sum such as 56 cm + 10 in"));
    }
}

#[test]
fn a_unit_below_a_line_is_one_of_it_unless_a_cell_has_its_name() {
    let host = host();
    let price = compiled("$9.25 / yd * 3 yd + 4 ÷ 2 * $1");
    let mut scope = Scope::new();
    scope.push_dynamic("waist", Dynamic::from_int(1));
    let shows = |value: Dynamic| value::show(&value, &Style::default()).unwrap_or_default();
    assert_eq!(shows(price.evaluate(&host, &mut scope).unwrap()), "$29.75");
    assert_eq!(scope.len(), 1);
    assert_eq!(shown("$9.25 ÷ yd * 2 yd"), "$18.50");
    let taken = compiled("6 in / yd");
    scope.push_dynamic("yd", Dynamic::from_int(2));
    assert_eq!(shows(taken.evaluate(&host, &mut scope).unwrap()), "3 in");
    assert_eq!(scope.len(), 2);
    // A failing sum leaves the scope as it was.
    let wrong = compiled("6 in / ft + oops");
    assert!(wrong.evaluate(&host, &mut scope).is_err());
    assert_eq!(scope.len(), 2);
    // The symbol alone stands for the unit, and only below a line.
    assert_eq!(refused("6 in / yard").message, "I don't know the word yard");
    assert_eq!(refused("6 in * yd").message, "I don't know the word yd");
}

#[test]
fn names_are_the_words_that_may_be_cells() {
    for (typed, wanted) in [
        ("waist + hips * waist", &["waist", "hips"][..]),
        ("up(waist) + up", &["waist", "up"]),
        ("oops(waist)", &["oops", "waist"]),
        ("first.panels + first?.waist", &["first"]),
        ("#{ panels: waist }.panels", &["waist"]),
        ("if a and not b or true { c } else { d }", &["a", "b", "c", "d"]),
        ("list.map(|x, y| x + y + z)", &["list", "z"]),
        ("list.map(|x| x) + list.map(|y| y + w)", &["list", "w"]),
        ("a | b + c", &["a", "b", "c"]),
        ("a in b", &["a", "b"]),
        ("3 in", &[]),
    ] {
        let reading = Reading::default();
        let rewritten = rewrite_expression(typed, reading, Words::Sum).unwrap();
        let found = names(typed, &rewritten.tokens);
        assert_eq!(found.iter().map(|name| &**name).collect::<Vec<_>>(), wanted, "{typed}");
    }
    assert_eq!(compiled("waist + hips").names().collect::<Vec<_>>(), ["waist", "hips"]);
}

#[test]
fn variables_are_read_from_the_scope() {
    let of = |typed: &str| compiled(typed).variables().into_iter().collect::<Vec<_>>();
    assert_eq!(of("waist + up(hips) + 3 in"), ["hips", "waist"]);
    assert_eq!(of("$9.25 / yd * length"), ["length"]);
    assert_eq!(of("first.panels"), ["first"]);
    assert_eq!(of("3 in"), [""; 0]);
}

#[test]
fn members_are_known_unless_the_value_itself_is_read() {
    let of = |typed: &str, name: &str| {
        let expression = compiled(typed);
        expression.members_of(name).map(|members| members.into_iter().map(str::to_owned).collect::<Vec<_>>())
    };
    let some = |members: &[&str]| Some(members.iter().map(|member| (*member).to_owned()).collect::<Vec<_>>());
    assert_eq!(of("first.panels + first?.waist", "first"), some(&["panels", "waist"]));
    assert_eq!(of("first.panels + first", "first"), None);
    assert_eq!(of("first.total()", "first"), None);
    assert_eq!(of("second.first + 1", "first"), some(&[]));
    assert_eq!(of("second.first + first.band", "first"), some(&["band"]));
    assert_eq!(of("waist + 1", "first"), some(&[]));
    assert_eq!(of("first.a.b", "first"), some(&["a"]));
    assert_eq!(of("3 in", "first"), some(&[]));
}

#[test]
fn a_condition_compares_with_one_sign() {
    let host = host();
    let condition = Expression::compile_condition(&host, "3 = 3 and not (2 = 3)").unwrap();
    let value = condition.evaluate(&host, &mut Scope::new()).unwrap();
    assert_eq!(value.as_bool(), Ok(true));
    assert!(Expression::compile(&host, "3 = 3").is_err());
}
