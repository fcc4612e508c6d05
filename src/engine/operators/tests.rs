//! Operators on every pair of kinds of values: what comes out, and what is refused.

use super::*;
use crate::engine::host::Host;
use crate::engine::limits::{Limits, StopFlag};
use crate::quantity::Unit;
use rhai::Scope;
use std::rc::Rc;

const EVERY: [&str; 11] = ["+", "-", "*", "/", "^", "==", "!=", "<", "<=", ">", ">="];
const COMPARING: [&str; 6] = ["==", "!=", "<", "<=", ">", ">="];

/// The value of a sum, or its message, hint and marked parts. `wide` is a measure with ±, `cost` a blank cell, `none`
/// nothing, and the others are what their names say.
fn answer(typed: &str) -> Result<String, (String, String, Vec<String>)> {
    let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    let mut scope = Scope::new();
    let three = Quantity::of(3.0, Unit::Inch);
    scope.push_dynamic("wide", Dynamic::from(Spread { middle: three, half: Quantity::of(1.0, Unit::Inch) }));
    scope.push_dynamic("cost", Dynamic::from(Blank { name: Rc::from("cost") }));
    scope.push_dynamic("none", Dynamic::UNIT);
    scope.push_dynamic("measure", quantity_to_script(three));
    scope.push_dynamic("whole", Dynamic::from_int(2));
    scope.push_dynamic("decimal", Dynamic::from_float(2.5));
    scope.push_dynamic("text", Dynamic::from("a"));
    scope.push_dynamic("flag", Dynamic::from_bool(true));
    scope.push_dynamic("list", Dynamic::from_array(vec![Dynamic::from_int(4), Dynamic::from_int(5)]));
    let sum = host.compile_expression(typed).and_then(|script| host.evaluate(&script, &mut scope));
    match sum {
        Ok(value) => Ok(value::show(&value, &Style::default()).unwrap_or_else(|| "nothing to show".to_owned())),
        Err(error) => {
            let marked = error.labels.iter().flat_map(|label| {
                let text = label.span.text.clone();
                label.span.bytes.iter().map(move |bytes| text[bytes.start..bytes.end].to_owned()).collect::<Vec<_>>()
            });
            let marked = marked.collect();
            Err((error.message, error.hint.unwrap_or_default(), marked))
        }
    }
}

#[track_caller]
fn refused(left: &str, operator: &str, right: &str, message: &str, hint: &str) {
    let typed = format!("{left} {operator} {right}");
    let (said, hinted, marked) = answer(&typed).unwrap_err();
    assert_eq!((said.as_str(), hinted.as_str()), (message, hint), "{typed}");
    assert_eq!(marked, [left, right], "{typed}");
}

#[test]
fn a_measure_is_compared_with_its_like_alone() {
    for (other, noun) in
        [("whole", "a plain number"), ("decimal", "a plain number"), ("text", "a text"), ("flag", "a yes or no")]
    {
        for operator in COMPARING {
            let hint = if noun == "a plain number" { "give the plain number a unit, such as in or cm" } else { "" };
            refused("measure", operator, other, &format!("a length and {noun} cannot be compared"), hint);
            refused(other, operator, "measure", &format!("{noun} and a length cannot be compared"), hint);
        }
    }
}

#[test]
fn a_list_is_searched_for_what_its_items_compare_with() {
    let kinds = [
        ("measure", "a length", 0),
        ("whole", "a plain number", 1),
        ("decimal", "a plain number", 1),
        ("text", "a text", 2),
        ("flag", "a yes or no", 3),
    ];
    for (item, item_noun, one) in kinds {
        for (wanted, wanted_noun, other) in kinds {
            let typed = format!("[{item}].contains({wanted})");
            if one == other {
                // 2 is not 2.5.
                let same = if item == wanted { "yes" } else { "no" };
                assert_eq!(answer(&typed).as_deref(), Ok(same), "{typed}");
            } else {
                let (said, ..) = answer(&typed).unwrap_err();
                assert_eq!(said, format!("{item_noun} and {wanted_noun} cannot be compared"), "{typed}");
            }
        }
    }
}

#[test]
fn a_measure_with_a_tolerance_is_refused_by_every_operator() {
    let message = "a measure with ± cannot be used in sums yet";
    let hint = "use the measure alone, without ±";
    for operator in EVERY {
        for other in ["measure", "decimal", "whole", "wide"] {
            refused("wide", operator, other, message, hint);
            refused(other, operator, "wide", message, hint);
        }
    }
}

#[test]
fn a_blank_is_refused_by_every_operator_and_names_its_column() {
    let hint = "ask first whether it is filled: known(cost) and …";
    for operator in EVERY {
        for other in ["measure", "whole", "decimal", "flag", "text", "list", "cost"] {
            refused("cost", operator, other, "“cost” is blank here", hint);
            refused(other, operator, "cost", "“cost” is blank here", hint);
        }
    }
    for (typed, wanted) in
        [("cost == none", "yes"), ("none == cost", "yes"), ("cost != none", "no"), ("none != cost", "no")]
    {
        assert_eq!(answer(typed).as_deref(), Ok(wanted), "{typed}");
    }
}

#[test]
fn a_measure_is_not_more_or_less_than_nothing() {
    let message = "nothing stands on one side, so there is nothing to compare";
    for operator in ["<", "<=", ">", ">="] {
        refused("measure", operator, "none", message, "ask first whether it is filled: known(…)");
        refused("none", operator, "measure", message, "ask first whether it is filled: known(…)");
    }
}

#[test]
fn comparisons_hold_on_the_right_side_of_equal() {
    let before = ["yes", "no", "no"];
    let (not_after, same) = (["yes", "yes", "no"], ["no", "yes", "no"]);
    let (unlike, after, not_before) = (["yes", "no", "yes"], ["no", "no", "yes"], ["no", "yes", "yes"]);
    for (operator, forward, backward) in [
        ("<", before, after),
        ("<=", not_after, not_before),
        ("==", same, same),
        ("!=", unlike, unlike),
        (">", after, before),
        (">=", not_before, not_after),
    ] {
        for (lefts, right) in [
            (["50 %", "100 %", "200 %"], "100 %"),
            (["50 %", "100 %", "200 %"], "1"),
            (["50 %", "100 %", "200 %"], "1.0"),
            (["99 mm", "10 cm", "101 mm"], "10 cm"),
        ] {
            for ((left, forward), backward) in lefts.iter().zip(forward).zip(backward) {
                let typed = format!("{left} {operator} {right}");
                assert_eq!(answer(&typed).as_deref(), Ok(forward), "{typed}");
                let typed = format!("{right} {operator} {left}");
                assert_eq!(answer(&typed).as_deref(), Ok(backward), "{typed}");
            }
        }
    }
}

#[test]
fn sums_come_out_whichever_side_is_a_plain_number() {
    for sum in [
        "(50 % + 1) == 1.5",
        "(50 % + 1.0) == 1.5",
        "(1 + 50 %) == 1.5",
        "(1.0 + 50 %) == 1.5",
        "(50 % + 25 %) == 0.75",
        "(50 % - 2) == -1.5",
        "(50 % - 2.0) == -1.5",
        "(2 - 50 %) == 1.5",
        "(2.0 - 50 %) == 1.5",
        "(50 % - 25 %) == 0.25",
        "(3 in * 2) == 6 in",
        "(3 in * 2.5) == 7.5 in",
        "(2 * 3 in) == 6 in",
        "(2.5 * 3 in) == 7.5 in",
        "(3 in * 2 in) == 6 in^2",
        "(6 in / 4) == 1.5 in",
        "(6 in / 1.5) == 4 in",
        "(3 / 50 %) == 6",
        "(3.0 / 50 %) == 6",
        "(6 in / (4 in)) == 1.5",
        "((3 in) ^ 2) == 9 in^2",
        "((3 in) ^ 2.0) == 9 in^2",
        "(4 ^ 50 %) == 2",
        "(4.0 ^ 50 %) == 2",
        "(25 % ^ 50 %) == 0.5",
        "-(3 in) == 0 in - 3 in",
        "+(3 in) == 3 in",
        "7 / 2 == 3.5",
        "7.0 / 2 == 3.5",
        "7 / 2.0 == 3.5",
        "7.5 / 2.5 == 3",
        "2 ^ 3 == 8",
        "2 ^ -1 == 0.5",
        "4 ^ 0.5 == 2",
        "2.5 ^ 2 == 6.25",
        "6.25 ^ 0.5 == 2.5",
        "10 ^ 20 / 10 ^ 19 == 10",
        "list[2 ^ 0] == 5",
        "list[1 dozen - 11] == 5",
    ] {
        assert_eq!(answer(sum).as_deref(), Ok("yes"), "{sum}");
    }
    assert_eq!(answer("100 %").as_deref(), Ok("100 %"));
    for (typed, left, right) in [("1 / 0", "1", "0"), ("1.5 / 0.0", "1.5", "0.0"), ("2 ^ measure", "2", "measure")] {
        let (_, _, marked) = answer(typed).unwrap_err();
        assert_eq!(marked, [left, right], "{typed}");
    }
    let (said, hinted, marked) = answer("$80 + 15 %").unwrap_err();
    assert_eq!(said, "an amount of money and a plain number cannot be added");
    assert!(hinted.starts_with("for 15 % more, type $80.00 + 15 % of $80.00"), "{hinted}");
    assert_eq!(marked, ["$80", "15 %"]);
}

#[test]
fn values_stand_in_texts_as_anywhere_else() {
    for (typed, wanted) in [
        ("text + measure", "a3 in"),
        ("measure + text", "3 ina"),
        ("text + whole", "a2"),
        ("whole + text", "2a"),
        ("text + 0.1 * 3", "a0.3"),
        ("0.1 * 3 + text", "0.3a"),
        ("`${text} ${measure} ${whole} ${0.1 * 3} ${flag} ${list} ${wide}`", "a 3 in 2 0.3 yes 4, 5 3 in ± 1 in"),
        ("to_string(measure)", "3 in"),
        ("to_string(0.1 * 3)", "0.3"),
        ("to_debug(measure)", "3 in"),
        ("to_debug(0.1 * 3)", "0.3"),
    ] {
        assert_eq!(answer(typed).as_deref(), Ok(wanted), "{typed}");
    }
    let (said, ..) = answer("`a ${none}`").unwrap_err();
    assert_eq!(said, "nothing cannot be written into a text");
    let (said, ..) = answer("`a ${cost}`").unwrap_err();
    assert_eq!(said, "a blank cannot be written into a text");
}
