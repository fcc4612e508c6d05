//! Built-in minutes: taken only where rates.csv says how often, after the workshop's own rows, and marked.

use super::*;
use crate::diagnostic::Diagnose;
use crate::workshop::rates::Per;

fn rates(rows: &str) -> Rates {
    read(&[("rates.csv", &format!("operation,per,minutes,set-up,value\n{rows}"))]).rates
}

fn minutes(count: f64) -> Time {
    Time::try_from(Quantity::of(count, Unit::Minute)).unwrap()
}

/// Whether two times are the same but for the noise of sums.
fn near(found: Time, wanted: f64) -> bool {
    (found / minutes(1.0) - wanted).abs() < 1e-9
}

#[test]
fn an_operation_without_a_row_takes_the_built_in_minutes_as_often_as_is_said() {
    let rates = rates("built-in minutes,,,,150 %\nsew a seam,yd,2 min,1 min,\n");
    // Built in: a hem 4 min a metre and 3 min before it, from recipes/demo/rates.csv. 2 m: 1.5 x 8 and 1.5 x 3.
    let hem = rates.minutes_for("turn and sew a hem", Length::centimetres(200.0).into()).unwrap();
    assert!(hem.built_in && near(hem.running, 12.0) && near(hem.set_up, 4.5), "{hem:?}");
    // Her own row counts first, and is taken as it stands.
    let seam = rates.minutes_for("Sew a  seam", Length::yards(3.0).into()).unwrap();
    assert!(!seam.built_in && near(seam.running, 6.0) && near(seam.set_up, 1.0), "{seam:?}");
    let error = rates.minutes_for("turn and sew a hemm", Quantity::number(1.0)).unwrap_err();
    assert_eq!(error.hint().as_deref(), Some("did you mean “turn and sew a hem”?"));
}

#[test]
fn without_that_row_nothing_is_built_in() {
    let error = rates("wage,,,,$21/h\n").minutes_for("turn and sew a hem", Length::yards(1.0).into()).unwrap_err();
    assert_eq!(error.to_string(), "rates.csv has no operation “turn and sew a hem”");
    assert_eq!(error.hint().as_deref(), Some("type add rate turn and sew a hem, 1.6 min/yd, or 3 min each"));
}

#[test]
fn all_operations_of_the_demo_are_built_in() {
    let (rates, demo) = (rates("built-in minutes,,,,100 %\n"), demo::demo().rates);
    assert_eq!(demo.operations.len(), 35);
    for operation in demo.operations {
        let amount = match operation.per {
            Per::Length(length) => length.into(),
            _ => Quantity::number(1.0),
        };
        let found = rates.minutes_for(&operation.name, amount).unwrap();
        assert!(found.built_in && found.set_up == operation.set_up, "{}", operation.name);
        assert!(((found.running - operation.minutes) / minutes(1.0)).abs() < 1e-9, "{}", operation.name);
    }
}

#[test]
fn how_often_is_a_figure_above_nothing() {
    let said = |value: &str| {
        let text = format!("operation,per,minutes,value\nbuilt-in minutes,,,{value}\n");
        let errors = Workshop::read(&[("rates.csv", &text)]).unwrap_err();
        errors.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
    };
    for value in ["0 %", "-1 %", "", "3 min", "1.5"] {
        assert!(said(value).starts_with("rates.csv, line 2, column “value”: "), "{value}: {}", said(value));
    }
    assert_eq!(rates("built in minutes,,,,132 %\n").built_in_times, Some(1.32));
}
