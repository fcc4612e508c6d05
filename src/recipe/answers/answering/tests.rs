//! Answers given as values: exact, and equal to typed words for inputs that take words.

use crate::engine::limits::StopFlag;
use crate::quantity::{Quantity, Unit};
use crate::recipe::run::answer_in;
use crate::recipe::{InputAnswer, InputKind, RecipeText, Reply, Task};
use crate::report::excerpt;
use crate::ticket::{Ticket, TicketValue};
use crate::workshop::Workshop;
use std::collections::BTreeMap;

const RECIPE: &str = r#"
fn inputs() { [
    length("waist", "waist").between(10 in, 60 in),
    number("shorter", "part").between(0 %, 25 %).usual(0 %),
    count("layers", "layers").between(1, 6).usual(1),
    list("drops", "drops").between(1 in, 20 in).usual([2 in]),
    gathers("gathers", "fullness").between(1, 60).usual(2),
    choice("end", "edge", ["cuff", "elastic"]).usual("cuff"),
    yes_no("bows", "bows").usual(false),
    text("note", "a note").usual("none"),
    cloth("cloth", "the cloth").usual("any 45 in"),
    notion("tape", "the tape").optional(),
    money("gift", "a gift").between($0, $9).usual($1),
    area("patch", "a patch").between(1 in^2, 90 in^2).usual(2 in^2),
] }
fn make(order, ticket) { ticket.figure("width", order.cloth.usable_width, "of the cloth"); }
"#;

fn workshop() -> Workshop {
    let files = [
        ("materials.csv", include_str!("../../../../recipes/demo/materials.csv")),
        ("trials.csv", include_str!("../../../../recipes/demo/trials.csv")),
    ];
    Workshop::read(&files).unwrap()
}

fn ticket_for(given: Vec<(&str, InputAnswer)>) -> Result<Ticket, String> {
    let recipe = RecipeText { name: "trial".to_owned(), text: RECIPE.to_owned(), helpers: BTreeMap::new() };
    match answer_in(&recipe, &workshop(), false, &Task::run(given), StopFlag::default()) {
        Reply::Ran(ticket) => Ok(*ticket),
        Reply::Refused(refusals) => Err(excerpt::texts(&refusals)),
        other => panic!("{other:?}"),
    }
}

fn with_waist(name: &str, answer: impl Into<InputAnswer>) -> Result<Ticket, String> {
    ticket_for(vec![("waist", "21 in".into()), (name, answer.into())])
}

fn words(text: &str) -> TicketValue {
    TicketValue::Text(text.to_owned())
}

#[test]
fn a_value_is_taken_to_the_last_bit() {
    let third = Quantity::of(64.0 / 3.0, Unit::Inch);
    let ticket = ticket_for(vec![("waist", third.into())]).unwrap();
    let value = &ticket.input("waist").unwrap().value;
    assert_eq!(value, &TicketValue::Quantity(third));
    assert_eq!(value.quantity().unwrap().steps().to_bits(), third.steps().to_bits());

    let task = Task::run([("waist", InputAnswer::from(third))]);
    let crossed: Task = serde_json::from_str(&serde_json::to_string(&task).unwrap()).unwrap();
    assert_eq!(crossed, task);
}

#[test]
fn a_text_is_the_same_as_if_it_were_typed() {
    for (input, text) in [
        ("gathers", "tulle overlapped"),
        ("gathers", "[3, 2]"),
        ("end", "elastic"),
        ("bows", "yes"),
        ("note", "for Saturday"),
        ("cloth", "Ivory  Satin"),
        ("cloth", "any 54 in at $2/yd"),
        ("cloth", "any_cloth(54 in).napped()"),
        ("tape", "elastic 1 in"),
        ("tape", "any"),
        ("end", "zip"),
        ("cloth", "ivory sattin"),
        ("gathers", "tulle overlaped"),
        ("gathers", "2 * "),
    ] {
        assert_eq!(with_waist(input, text), with_waist(input, words(text)), "{input}={text}");
    }
    let ticket = with_waist("gathers", words("[3, 2]")).unwrap();
    assert_eq!(ticket.input("gathers").unwrap().value.show(&crate::quantity::Style::default()), "3, 2");
}

#[test]
fn values_of_every_kind() {
    let list = TicketValue::List(
        vec![Quantity::of(3.0, Unit::Inch), Quantity::of(4.0, Unit::Inch)]
            .into_iter()
            .map(TicketValue::Quantity)
            .collect(),
    );
    for (input, value) in [
        ("layers", TicketValue::Whole(3)),
        ("bows", TicketValue::Flag(true)),
        ("drops", list),
        ("gathers", TicketValue::Quantity(Quantity::number(2.5))),
        ("shorter", TicketValue::Quantity(Quantity::of(5.0, Unit::Percent))),
        ("gift", TicketValue::Quantity(Quantity::money(2.5))),
    ] {
        let ticket = with_waist(input, value.clone()).unwrap();
        assert_eq!(ticket.input(input).unwrap().value, value, "{input}");
    }
    let two = ticket_for(vec![("waist", "21 in".into()), ("pieces", TicketValue::Whole(2).into())]).unwrap();
    assert_eq!(two.garments, 2);
}

#[test]
fn a_value_of_another_kind_is_refused_in_the_same_words() {
    for (input, answer, message) in [
        ("waist", words("21 in").into(), "waist: a length is needed, not a text"),
        (
            "waist",
            TicketValue::Whole(21).into(),
            "waist: a length is needed, not a plain number\n  give it a unit: 21 in or 21 cm",
        ),
        (
            "waist",
            Quantity::of(300.0, Unit::Inch).into(),
            "waist: 300 in is outside what the recipe is made for, 10 in to 60 in",
        ),
        (
            "patch",
            InputAnswer::from("3"),
            "patch: an area is needed, not a plain number\n  give it a unit: 3 in^2 or 3 cm^2",
        ),
        (
            "gift",
            InputAnswer::from("3"),
            "gift: an amount of money is needed, not a plain number\n  give it a unit: $3",
        ),
        ("gift", Quantity::of(1.0, Unit::Inch).into(), "gift: an amount of money is needed, not a length"),
        ("end", TicketValue::Whole(1).into(), "end: a text is needed"),
        ("bows", TicketValue::Whole(1).into(), "bows: yes or no is needed"),
        (
            "cloth",
            TicketValue::Whole(1).into(),
            "cloth: a cloth by name, or one such as any 45 in at $6/yd is needed, not a plain number",
        ),
    ] {
        let found = match input {
            "waist" => ticket_for(vec![("waist", answer)]),
            _ => with_waist(input, answer),
        };
        assert_eq!(found.unwrap_err(), message, "{input}");
    }
}

#[test]
fn cells_stand_where_something_is_worked_out() {
    use crate::quantity::Dimension;
    for kind in
        [InputKind::Measure(Dimension::AREA), InputKind::Number, InputKind::Count, InputKind::List, InputKind::Gathers]
    {
        assert!(kind.reads_expression(), "{kind:?}");
    }
    for kind in [InputKind::Choice(Vec::new()), InputKind::YesNo, InputKind::Text, InputKind::Cloth, InputKind::Notion]
    {
        assert!(!kind.reads_expression(), "{kind:?}");
    }
}
