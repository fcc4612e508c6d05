//! Filters: which rows are kept, which lines are rejected, and what the errors mark.

use super::*;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::value::show;
use crate::quantity::{Quantity, Style, Unit};
use crate::report::excerpt;
use crate::table::from_csv;
use std::sync::atomic::Ordering;

fn host(stop: StopFlag) -> Host {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, stop);
    super::super::objects::register(&mut host);
    host
}

fn scope() -> Scope<'static> {
    let text = "order,mark from,days,cloth,cost,rush\n1,14 1/2 in,2,ivory tulle,$12,yes\n\
                2,10 cm,5,white satin,,no\n3,36 in,4,ivory tulle,$7.50,no\n";
    let mut scope = Scope::new();
    scope.push_constant("orders", TableObject::from(from_csv::read("orders", text, Reading::default()).unwrap()));
    scope.push_constant("least", 3_i64);
    scope.push_constant("days", 1_000_i64);
    scope
}

fn answer(typed: &str) -> String {
    let host = host(StopFlag::default());
    let mut scope = scope();
    let before = scope.len();
    let answer = Filter::compile(&host, typed).and_then(|filter| filter.evaluate(&host, &mut scope));
    assert_eq!(scope.len(), before);
    match answer {
        Ok(value) => {
            let table = value.clone().try_cast::<TableObject>().expect("a table").0;
            let orders = table.values("order").unwrap().map(|cell| format!("{cell:?}")).collect::<Vec<_>>();
            assert!(show(&value, &Style::default()).unwrap().contains("order, mark from"));
            orders.join(" ").replace("Count(", "").replace(')', "")
        }
        Err(error) => excerpt::text(&error),
    }
}

#[track_caller]
fn check(typed: &str, shown: &str) {
    assert_eq!(answer(typed), shown, "{typed}");
}

#[test]
fn where_is_found_outside_brackets_and_texts_alone() {
    let split = |typed| Filter::split(typed, Reading::default());
    assert_eq!(split("orders where days > 3"), Some(("orders", "days > 3")));
    assert_eq!(split("(a where b)"), None);
    assert_eq!(split("\"a where b\" + `x ${1} where`"), None);
    assert_eq!(split("f(x where y) where z == \"where\""), Some(("f(x where y)", "z == \"where\"")));
    assert_eq!(split("orders.where"), None);
    assert_eq!(split("somewhere + 1"), None);
}

#[test]
fn rows_that_meet_the_condition_are_kept() {
    check("orders where days > 3 && cloth == \"ivory tulle\"", "3");
    check("orders where days > 3 and cloth = \"ivory tulle\"", "3");
    check("orders where not (days ≤ 3) and not (cloth ≠ \"ivory tulle\")", "3");
    check("orders where days > least", "2 3");
    check("orders where mark_from > 13 cm", "1 3");
    check("orders where rush", "1");
    check("orders where known(cost) && cost > $10", "1");
    check("orders where !known(cost)", "2");
    check("orders where cost != ()", "1 3");
    check("orders where false", "");
    check("orders where up(days / 2) == 2", "3");
    check("orders where cloth.contains(\"satin\")", "2");
    check("orders where [2, 5].contains(days)", "1 2");
}

#[test]
fn names_are_those_of_both_sides() {
    let host = host(StopFlag::default());
    let filter = Filter::compile(&host, "orders where days > least && first.panels == 2").unwrap();
    assert_eq!(filter.names().into_iter().collect::<Vec<_>>(), ["days", "first", "least", "orders"]);
}

#[test]
fn what_is_refused_is_marked_in_the_whole_line() {
    check(
        "orders where dayz > 3",
        "“dayz” is neither a column of “orders” nor a cell\n  orders where dayz > 3\n               ~~~~\n  did you mean “days”?",
    );
    check(
        "orders where colour == \"red\"",
        "“colour” is neither a column of “orders” nor a cell\n  orders where colour == \"red\"\n               ~~~~~~\n  \
         its columns are order, mark_from, days, cloth, cost, rush",
    );
    check(
        "orders where days",
        "a condition must be yes or no, and this is a plain number\n  orders where days\n               ~~~~\n  \
         while working out row 1 of “orders”\n  compare it with something, as in: days > 3",
    );
    check(
        "orders where mark_from > 3",
        "a length and a plain number cannot be compared\n  orders where mark_from > 3\n               ~~~~~~~~~   ~\n  \
         while working out row 1 of “orders”\n  give the plain number a unit, such as in or cm",
    );
    check(
        "orders where cost > $10",
        "“cost” is blank here\n  orders where cost > $10\n               ~~~~   ~~~\n  \
         while working out row 2 of “orders”\n  ask first whether it is filled: known(cost) and …",
    );
    check(
        "least where days > 3",
        "“where” picks rows of a table, and this is a plain number\n  least where days > 3\n  ~~~~~",
    );
    check(
        "orders where days > 3 where rush",
        "“where” stands here twice\n  orders where days > 3 where rush\n                        ~~~~~\n  join two conditions with and",
    );
    check(
        "orders where days > 3 inn",
        "“inn” is not a unit\n  orders where days > 3 inn\n                        ~~~\n  did you mean “in”?",
    );
    check(
        "orders where",
        "a condition is missing behind “where”\n  orders where\n         ~~~~~\n  type orders where days > 3",
    );
    check("where rush", "a table is missing before “where”\n  where rush\n  ~~~~~\n  type orders where days > 3");
    let shown = answer("orders where days >");
    assert!(shown.contains("\n  orders where days >\n"), "{shown}");
    let shown = answer("ordres where days > 3");
    assert!(
        shown.contains("did you mean “orders”?") && shown.contains("\n  ordres where days > 3\n  ~~~~~~"),
        "{shown}"
    );
}

fn long(rows: i64) -> TableObject {
    let mut table = Table::new("long").count("n").length("along", "in").ready().unwrap();
    for n in 0..rows {
        table.push(vec![n.into(), Quantity::of(1.0, Unit::Inch).into()]).unwrap();
    }
    table.into()
}

#[test]
fn the_limits_of_a_line_hold_for_a_row_and_a_stop_for_the_whole() {
    let stop = StopFlag::default();
    let host = host(StopFlag::clone(&stop));
    // Over 200 operations per row; the limit is a million per line.
    let condition = "[1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map(|x| x * 2 + n).filter(|x| x > 1).map(|x| x + n).len() >= 0";
    let filter = Filter::compile(&host, &format!("long where {condition} && n >= 10")).unwrap();
    let mut scope = Scope::new();
    scope.push_constant("long", long(5_000));
    let kept = filter.evaluate(&host, &mut scope).unwrap().try_cast::<TableObject>().unwrap();
    assert_eq!(kept.0.len(), 4_990);
    stop.store(true, Ordering::Relaxed);
    let error = filter.evaluate(&host, &mut scope).unwrap_err();
    assert!(error.is_stop(), "{error:?}");
}
