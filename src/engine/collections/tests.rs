//! Lists, groups and texts as a recipe works with them.

use super::*;
use crate::engine::host::Host;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::value;
use crate::quantity::{Reading, Style};
use rhai::Scope;

/// What the body of a function gives, or its message.
fn gives(body: &str) -> Result<String, String> {
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    let script = host.compile("a.rhai", &format!("fn f() {{ {body} }}"));
    let answer = script.and_then(|script| host.call(&script, "f", ()));
    answer
        .map(|answer| value::show(&answer, &Style::default()).unwrap_or_else(|| "blank".to_owned()))
        .map_err(|error| error.message)
}

#[track_caller]
fn check(body: &str, wanted: &str) {
    assert_eq!(gives(body).as_deref(), Ok(wanted), "{body}");
}

#[track_caller]
fn refused(body: &str, message: &str) {
    assert_eq!(gives(body), Err(message.to_owned()), "{body}");
}

#[test]
fn a_list_is_asked_and_changed() {
    check("[7, 8, 9].len()", "3");
    check("[7, 8, 9].len", "3");
    check("[].len()", "0");
    check("`${[].is_empty()} ${[1].is_empty()}`", "yes no");
    check("let l = [1]; l.push(2 in); l", "1, 2 in");
    check("let l = [1, 2]; let last = l.pop(); [last, l.len()]", "2, 1");
    check("[].pop()", "blank");
    check("let l = [1, 2, 3]; l.reverse(); l", "3, 2, 1");
    check("`${[1 in, 2 in].contains(2 in)} ${[1, 2].contains(3)} ${[].contains(3)}`", "yes no no");
    check("[1, 2] + [3]", "1, 2, 3");
    refused("[1, \"a\"].contains(\"a\")", "a plain number and a text cannot be compared");
}

#[test]
fn a_function_is_handed_to_a_list() {
    check("[1, 2, 3].map(|x| x * 2 in)", "2 in, 4 in, 6 in");
    check("[1, 2, 3, 4].filter(|x| x > 2)", "3, 4");
    check("[1, 2, 3].reduce(|sum, x| sum - x, 10)", "4");
    check("[].reduce(|sum, x| sum + x, 10)", "10");
    check("`${[1, 2].all(|x| x > 0)} ${[1, 2].all(|x| x > 1)} ${[].all(|x| x > 1)}`", "yes no yes");
    check("`${[1, 2].some(|x| x > 1)} ${[1, 2].some(|x| x > 2)} ${[].some(|x| x > 1)}`", "yes no no");
    refused("[1].filter(|x| x)", "a test must answer yes or no, not a plain number");
    refused("[1].all(|x| \"a\")", "a test must answer yes or no, not a text");
    refused("[1].some(|x| 2 in)", "a test must answer yes or no, not a length");
}

#[test]
fn a_list_is_added_up() {
    check("[1 in, 2 in, 4 in].sum()", "7 in");
    check("[5].sum()", "5");
    refused("[].sum()", "an empty list has no sum");
    refused("[1 in, 2 min].sum()", "a length and a time cannot be added");
}

#[test]
fn a_list_is_put_in_order() {
    check("let l = [3 in, 2 cm, 1 in]; l.sort(); l", "2 cm, 1 in, 3 in");
    check("let l = [5, 4, 3, 2, 1]; l.sort(); l", "1, 2, 3, 4, 5");
    check("let l = [2.5, 1, 2]; l.sort(); l", "1, 2, 2.5");
    check("let l = [\"c\", \"a\", \"b\"]; l.sort(); l", "a, b, c");
    check("let l = []; l.sort(); l.len()", "0");
    check("let l = [true]; l.sort(); l", "yes");
    check("let l = [1, 3, 2]; l.sort(|a, b| b - a); l", "3, 2, 1");
    check("let l = [1, 3, 2]; l.sort(|a, b| a < b); l", "1, 2, 3");
    check(
        "let l = [[1, \"a\"], [0, \"b\"], [1, \"c\"], [0, \"d\"]]; l.sort(|a, b| a[0] - b[0]); l.map(|x| x[1])",
        "b, d, a, c",
    );
    refused("let l = [1, \"a\"]; l.sort(); l", "a plain number and a text cannot be put in order");
    refused("let l = [true, false]; l.sort(); l", "a yes or no and a yes or no cannot be put in order");
    refused("let l = [1 in, 2 min]; l.sort(); l", "a length and a time cannot be compared");
    refused("let l = [#{ a: 1 }, 1]; l.sort(); l", "only numbers, measures and texts can be put in order");
    refused("let l = [1, #{ a: 1 }]; l.sort(); l", "only numbers, measures and texts can be put in order");
    refused(
        "let l = [1, 2]; l.sort(|a, b| 2.5); l",
        "what puts a list in order must answer a whole number or yes or no",
    );
}

#[test]
fn a_group_is_asked() {
    check("#{ a: 1, b: 2 }.len()", "2");
    check("`${#{}.is_empty()} ${#{ a: 1 }.is_empty()}`", "yes no");
    check("`${#{ a: 1 }.contains(\"a\")} ${#{ a: 1 }.contains(\"b\")}`", "yes no");
    check("#{ b: 1, a: 2 }.keys()", "a, b");
    check("#{ b: 1, a: 2 }.values()", "2, 1");
}

#[test]
fn a_text_is_asked_and_changed() {
    check("\"äbc\".len()", "3");
    check("\"äbc\".len", "3");
    check("`${\"\".is_empty()} ${\"a\".is_empty()}`", "yes no");
    check("`${\"abc\".contains(\"bc\")} ${\"abc\".contains(\"ac\")}`", "yes no");
    check("`${\"abc\".starts_with(\"ab\")} ${\"abc\".starts_with(\"bc\")}`", "yes no");
    check("`${\"abc\".ends_with(\"bc\")} ${\"abc\".ends_with(\"ab\")}`", "yes no");
    check("let t = \"abcb\"; t.replace(\"b\", \"xy\"); t", "axycxy");
    check("let t = \"abc\"; t.replace(\"\", \"x\"); t", "abc");
    check("let t = \"abc\"; t.replace(\"d\", \"x\"); t", "abc");
}

#[test]
fn a_text_grows_to_a_hundred_thousand_bytes() {
    let replaced = |text: String, by: &str| {
        let mut text: ImmutableString = text.into();
        replace(&mut text, "x", by).map(|()| text.len())
    };
    assert!(replaced("x".repeat(50_000), "z").is_ok_and(|length| length == 50_000));
    assert!(replaced(format!("{}y", "x".repeat(50_000)), "z").is_err());
    assert!(replaced(format!("{}y", "x".repeat(50_000)), "").is_ok_and(|length| length == 1));
    assert!(replaced(format!("x{}", "y".repeat(99_997)), "zz").is_ok_and(|length| length == 99_999));
    assert!(replaced(format!("x{}", "y".repeat(99_998)), "zz").is_err());
}

/// Whether a sum over a list and a text of these lengths comes to an end within so many operations.
fn ends_within(operations: u64, typed: &str) -> bool {
    let limits = Limits { operations, ..Limits::CELL };
    let host = Host::new(Reading::default(), Style::default(), limits, StopFlag::default());
    let mut scope = Scope::new();
    scope.push_dynamic("list", Dynamic::from_array(vec![Dynamic::from_int(1); 1_000]));
    scope.push_dynamic("text", Dynamic::from("x".repeat(16_000)));
    // What was counted is seen by the next operation.
    let typed = format!("[{typed}, up(1)]");
    host.compile_expression(&typed).and_then(|script| host.evaluate(&script, &mut scope)).is_ok()
}

#[test]
fn what_is_looked_through_counts_as_operations() {
    // Each item counts as four operations besides the one of its operator, sixteen bytes as one; the rest takes a few.
    for (typed, operations) in [
        ("list.contains(2)", 5_000),
        ("list.sum()", 5_000),
        ("text.len()", 1_000),
        ("text.len", 1_000),
        ("text.contains(\"y\")", 1_000),
        ("text.replace(\"y\", \"z\")", 1_000),
    ] {
        assert!(!ends_within(operations, typed), "{typed}");
        assert!(ends_within(operations + 50, typed), "{typed}");
    }
    let meter = Meter::default();
    for (length, wanted) in [(15, 0), (16, 1), (31, 1), (32, 2)] {
        meter.begin();
        looks_through(&meter, length);
        assert_eq!(meter.charge(0), wanted, "{length}");
    }
}

/// Written beside its registration, so that neither is forgotten.
#[test]
fn every_word_that_is_offered_is_listed() {
    let source = include_str!("../collections.rs");
    let named = source.split("(\"").skip(1).filter_map(|rest| rest.split_once("\",").map(|(name, _)| name));
    let named: std::collections::BTreeSet<&str> = named.filter(|name| *name != "+").collect();
    let names = named.iter().filter(|name| name.chars().all(|c| c.is_ascii_lowercase() || c == '_'));
    assert!(names.clone().count() >= 18);
    for name in names {
        assert!(WORDS.contains(name), "{name}");
    }
}
