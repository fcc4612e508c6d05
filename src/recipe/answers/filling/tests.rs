//! Orders that name a size: what its row fills, what overrides it, what is refused.

use crate::engine::limits::StopFlag;
use crate::quantity::Style;
use crate::recipe::run::answer_in;
use crate::recipe::{InputAnswer, RecipeText, Reply, Task, library};
use crate::report::excerpt;
use crate::ticket::{InputSource, Ticket, TicketValue};
use crate::workshop::Workshop;
use std::collections::BTreeMap;

const SIZES: &str = "\
size,waist,hip,waist to hem,upper arm,armhole between notches
Pip,14 in,,6 1/2 in,5 1/2 in,
Wren,21 in,23 in,12 in,7 in,9 in
Alder,71 cm,94 cm,66 cm,28 cm,34 cm
Giant,99 in,,,,
12,22 in,24 in,13 in,,
";

fn workshop(sizes: &str) -> Workshop {
    let materials = ("materials.csv", include_str!("../../../../recipes/demo/materials.csv"));
    Workshop::read(&[materials, ("sizes.csv", sizes)]).unwrap()
}

fn run(recipe: &RecipeText, workshop: &Workshop, given: &[(&str, &str)]) -> Result<Ticket, String> {
    match answer_in(recipe, workshop, false, &Task::run(given.iter().copied()), StopFlag::default()) {
        Reply::Ran(ticket) => Ok(*ticket),
        Reply::Refused(refusals) => Err(excerpt::texts(&refusals)),
        Reply::Failed(errors) => Err(excerpt::texts(&errors)),
        other => panic!("{other:?}"),
    }
}

const GOODS: [(&str, &str); 2] = [("cloth", "white cotton lawn"), ("elastic", "elastic 1 in")];

fn skirt(sizes: &str, given: &[(&str, &str)]) -> Result<Ticket, String> {
    run(&library::shipped("gathered_skirt").unwrap(), &workshop(sizes), &[given, &GOODS].concat())
}

fn inputs_of(ticket: &Ticket) -> Vec<String> {
    let filled = ticket.inputs.iter().filter_map(|input| {
        let remark = input.source.remark();
        let body = ["waist", "hips", "skirt"].contains(&input.name.as_str());
        body.then(|| format!("{} {} {}", input.name, input.value.show(&Style::default()), remark.unwrap_or_default()))
    });
    filled.collect()
}

#[test]
fn a_row_fills_what_is_not_answered() {
    let ticket = skirt(SIZES, &[("size", "wren")]).unwrap();
    assert_eq!(
        inputs_of(&ticket),
        ["waist 21 in from size Wren", "hips 23 in from size Wren", "skirt 12 in from size Wren"]
    );
    assert_eq!(ticket.input("waist").unwrap().source, InputSource::Size("Wren".to_owned()));

    let ticket = skirt(SIZES, &[("size", "Alder"), ("waist", "70 cm")]).unwrap();
    assert_eq!(inputs_of(&ticket), ["waist 70 cm ", "hips 94 cm from size Alder", "skirt 66 cm from size Alder"]);

    // An optional measure is left out if the row has none.
    let ticket = skirt(SIZES, &[("size", "Pip")]).unwrap();
    assert_eq!(inputs_of(&ticket), ["waist 14 in from size Pip", "skirt 6 1/2 in from size Pip"]);
}

#[test]
fn a_size_may_be_a_number_and_a_value() {
    let recipe = library::shipped("gathered_skirt").unwrap();
    for size in [InputAnswer::from("12"), InputAnswer::Value(TicketValue::Whole(12))] {
        let goods = GOODS.map(|(name, typed)| (name, InputAnswer::from(typed)));
        let given = goods.into_iter().chain([("size", size)]);
        match answer_in(&recipe, &workshop(SIZES), false, &Task::run(given), StopFlag::default()) {
            Reply::Ran(ticket) => assert_eq!(inputs_of(&ticket).first().unwrap(), "waist 22 in from size 12"),
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn two_inputs_of_one_body_measure_are_both_filled() {
    let text = "fn inputs() { [
            length(\"left\", \"left arm\").body(\"upper arm\").between(1 in, 30 in),
            length(\"right\", \"right arm\").body(\"Upper-Arm\").between(1 in, 30 in),
        ] }
        fn make(order, ticket) { ticket.figure(\"both\", order.left + order.right, \"both arms\"); }";
    let recipe = RecipeText { name: "arms".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
    let ticket = run(&recipe, &workshop(SIZES), &[("size", "Wren")]).unwrap();
    assert_eq!(ticket.figure("both").unwrap().value.show(&Style::default()), "14 in");
}

#[test]
fn a_size_that_cannot_be_used_is_refused_in_words() {
    for (given, message) in [
        (("size", "Wern"), "size: there is no size “Wern”\n  did you mean “Wren”?"),
        (("size", "medium"), "size: there is no size “medium”\n  type Pip, Wren, Alder, Giant or 12"),
        (("size", " "), "size: nothing is written here\n  type the name of a size"),
        (
            ("size", "Giant"),
            "waist: 99 in is outside what the recipe is made for, 12 in to 60 in\n  it is the waist of size Giant; \
             type waist='36 in'\nskirt: missing: finished, top edge to hem\n  size Giant has no “waist to hem”; \
             type skirt='27 in'",
        ),
    ] {
        assert_eq!(skirt(SIZES, &[given]).unwrap_err(), message);
    }
    assert_eq!(
        skirt("size,waist\n", &[("size", "Wren")]).unwrap_err(),
        "size: the workshop lists no sizes\n  write them into sizes.csv, or give each measure: waist='36 in'"
    );
    let sleeve = library::shipped("puff_sleeve").unwrap();
    let given = [("size", "Pip"), ("arm", "20 cm"), ("sleeve", "6 cm"), ("cap", "10 cm"), ("cloth", "any 45 in")];
    assert_eq!(
        run(&sleeve, &workshop(SIZES), &given).unwrap_err(),
        "head: missing: armhole, front notch to back notch\n  size Pip has no “armhole between notches”; \
         type head='24 cm'"
    );
    let curtains = library::shipped("curtains").unwrap();
    let given = [("size", "Wren"), ("track", "180 cm"), ("drop", "2 m"), ("face", "any 54 in"), ("tape", "any")];
    assert_eq!(
        run(&curtains, &workshop(SIZES), &given).unwrap_err(),
        "size: this recipe asks for no body measure, so a size fills nothing\n  leave the size out"
    );
}

#[test]
fn a_recipe_cannot_ask_for_what_every_order_has() {
    for (name, meaning) in [
        ("pieces", "“pieces” is the number of garments, which every order has"),
        ("size", "“size” is a row of the workshop's sizes, which every order may name"),
        ("age", "“age” is the age of the wearer, which every order may say"),
        ("use", "“use” is what the garment is for, which every order may say"),
    ] {
        let text = format!("fn inputs() {{ [text(\"{name}\", \"which\")] }}\nfn make(order, ticket) {{}}");
        let recipe = RecipeText { name: "trap".to_owned(), text, helpers: BTreeMap::new() };
        let message = run(&recipe, &workshop(SIZES), &[]).unwrap_err();
        assert!(message.contains(meaning) && message.contains("give the input another name"), "{message}");
    }
}
