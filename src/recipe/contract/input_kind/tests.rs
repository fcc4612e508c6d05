//! What follows from each kind of input.

use super::*;
use crate::quantity::Liked;

fn words() -> InputKind {
    InputKind::Choice(vec!["one".to_owned(), "two".to_owned()])
}

fn kinds() -> [InputKind; 10] {
    [
        InputKind::Measure(Dimension::LENGTH),
        InputKind::Number,
        InputKind::Count,
        words(),
        InputKind::YesNo,
        InputKind::Text,
        InputKind::Gathers,
        InputKind::Cloth,
        InputKind::Notion,
        InputKind::List,
    ]
}

/// The kinds, by their place above, for which something holds.
fn holding(holds: impl Fn(&InputKind) -> bool) -> Vec<usize> {
    let kinds = kinds();
    kinds.iter().enumerate().filter(|(_, kind)| holds(kind)).map(|(place, _)| place).collect()
}

fn inches(least: f64, most: f64) -> Range {
    Range { least: Quantity::of(least, Unit::Inch), most: Quantity::of(most, Unit::Inch) }
}

#[test]
fn kinds_are_told_apart() {
    assert_eq!(holding(InputKind::takes_range), [0, 1, 2, 6, 9]);
    assert_eq!(holding(InputKind::reads_expression), [0, 1, 2, 6, 9]);
    assert_eq!(holding(InputKind::is_named), [3, 6, 7, 8]);
    assert_eq!(holding(InputKind::is_goods), [7, 8]);
    assert_eq!(holding(|kind| kind.choices().is_some()), [3]);
    assert_eq!(holding(|kind| kind.measured(None).is_some()), [0]);
    assert_eq!(holding(|kind| kind.measured(Some(inches(1.0, 2.0))) == Some(Dimension::LENGTH)), [0, 9]);
    assert_eq!(InputKind::List.range_dimension(|| Some(Dimension::TIME)), Some(Dimension::TIME));
    assert_eq!(InputKind::List.range_dimension(|| None), Some(Dimension::NUMBER));
    assert_eq!(InputKind::Measure(Dimension::MASS).range_dimension(|| Some(Dimension::TIME)), Some(Dimension::MASS));
    assert_eq!(InputKind::Gathers.range_dimension(|| None), Some(Dimension::NUMBER));
}

#[test]
fn a_usual_answer_is_of_the_kind_that_is_asked_for() {
    let text = |text: &str| TicketValue::Text(text.to_owned());
    for (value, fits) in [
        (TicketValue::Quantity(Quantity::of(3.0, Unit::Inch)), &[0][..]),
        (TicketValue::Quantity(Quantity::of(3.0, Unit::Minute)), &[]),
        (TicketValue::Quantity(Quantity::number(2.5)), &[1, 2, 6]),
        (TicketValue::Whole(2), &[1, 2, 6]),
        (text("two"), &[3, 5, 6, 7, 8]),
        (text("three"), &[5, 6, 7, 8]),
        (TicketValue::Flag(false), &[4]),
        (TicketValue::List(vec![TicketValue::Whole(6)]), &[6, 9]),
    ] {
        assert_eq!(holding(|kind| kind.may_be(&value)), fits, "{value:?}");
    }
}

#[test]
fn corners_are_the_ends_of_what_may_be_answered() {
    let style = Style::default();
    let corners = |kind: &InputKind, range| kind.corners(range, &style);
    assert_eq!(corners(&words(), None), ["one", "two"]);
    assert_eq!(corners(&InputKind::YesNo, None), ["yes", "no"]);
    assert_eq!(corners(&InputKind::Notion, None), ["any_notion()"]);
    assert_eq!(corners(&InputKind::Cloth, None).len(), 3);
    assert_eq!(corners(&InputKind::Number, None), [""; 0]);
    assert_eq!(corners(&InputKind::List, None), [""; 0]);
    let range = inches(10.5, 40.0);
    assert_eq!(corners(&InputKind::Measure(Dimension::LENGTH), Some(range)), ["10.5 in", "40 in"]);
    assert_eq!(corners(&InputKind::List, Some(range)), ["[10.5 in]", "[40 in, 10.5 in]"]);
    let bare = |value: f64| Quantity::of(value, Unit::Centimetre).liking(Liked::default());
    let range = Range { least: bare(30.0), most: bare(600.0) };
    assert_eq!(corners(&InputKind::Measure(Dimension::LENGTH), Some(range)), ["30 cm", "600 cm"]);
    let range = Range { least: Quantity::number(1.0), most: Quantity::number(2.5) };
    assert_eq!(corners(&InputKind::Number, Some(range)), ["1", "2.5"]);
}

#[test]
fn a_cloth_without_a_name_is_typed_on_the_workshops_tape() {
    let inch = Style { tape: Tape::Inch, currency: '$', ..Style::default() };
    let metric = Style { tape: Tape::Metric, currency: '£', ..Style::default() };
    assert_eq!(unnamed_cloth(&inch), "any 45 in at $6/yd");
    assert_eq!(unnamed_cloth(&metric), "any 112 cm at £6/m");
    assert_eq!(InputKind::Cloth.noun_on(&metric), "a cloth by name, or one such as any 112 cm at £6/m");
    assert_eq!(InputKind::Count.noun_on(&metric), "a whole number");
    assert_eq!(words().noun(), "one or two");
}
