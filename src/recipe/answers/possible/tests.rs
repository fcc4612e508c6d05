//! What an input may be, against a workshop of a few lines: every answer that is offered is taken by an order.

use super::*;
use crate::engine::limits::StopFlag;
use crate::recipe::run::answer_in;
use crate::recipe::{RecipeText, Reply, Task};
use crate::report::excerpt;
use std::collections::BTreeMap;

const RECIPE: &str = r#"//! A bag.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: bag
fn inputs() { [
    length("around", "round").between(10 in, 50 in).body("waist"),
    cloth("cloth", "which cloth"),
    notion("cord", "which cord"),
    choice("shape", "which shape", ["round", "with corners"]),
    yes_no("lined", "is it lined"),
    gathers("fullness", "how full").between(1, 3),
    text("note", "a note"),
] }
fn make(order, ticket) { ticket.figure("turn", order.around + 1 in, "cut"); ticket.step("Cut {turn}."); }
fn examples() { [] }
"#;

const MATERIALS: &str = "material,kind,usable width,price,price for,sold by\n\
    blue check lawn,cloth,43 in,$9.75,yd,1/8 yd\n\
    narrow net,roll,6 in,,,\n\
    white cord,notion,1/8 in,$0.50,yd,1/2 yd\n\
    white thread,thread,,,,\n";
const TRIALS: &str = "trial,date,machine,foot,setting,stitch,material,lot,pass,piece,overlap,pieces,flat,gathered\n\
    lawn twice,,,,,,blue check lawn,,1,,,,20 in,10 in\n\
    lawn five times,,,,,,blue check lawn,,1,,,,50 in,10 in\n";
const SIZES: &str = "size,waist\nPip,14 in\nWren,21 in\n";

fn workshop() -> Workshop {
    let files = [("materials.csv", MATERIALS), ("trials.csv", TRIALS), ("sizes.csv", SIZES)];
    Workshop::read(&files).unwrap_or_else(|errors| panic!("{errors:?}"))
}

fn answered(task: &Task) -> Reply {
    let recipe = RecipeText { name: "bag".to_owned(), text: RECIPE.to_owned(), helpers: BTreeMap::new() };
    answer_in(&recipe, &workshop(), false, task, StopFlag::default())
}

/// What may be typed behind `name=`, and whether sums go too.
fn possible(name: &str) -> Option<(Vec<String>, bool)> {
    let Reply::Described(description) = answered(&Task::Describe) else { panic!("no description") };
    let possible = description.possible(name, &workshop(), &Style::default())?;
    Some((possible.answers, possible.takes_sums))
}

/// The refusal of one answer, the others as they should be; empty if it is taken.
fn refused(name: &str, typed: &str) -> String {
    let usual = [
        ("around", "20 in"),
        ("cloth", "any 45 in"),
        ("cord", "any"),
        ("shape", "round"),
        ("lined", "no"),
        ("fullness", "2"),
        ("note", "red"),
    ];
    let fills = |known: &str| known == name || (name == "size" && known == "around");
    let others = usual.into_iter().filter(|(known, _)| !fills(known));
    match answered(&Task::run(others.chain([(name, typed)]))) {
        Reply::Ran(_) => String::new(),
        Reply::Refused(refusals) => excerpt::texts(&refusals),
        other => panic!("{other:?}"),
    }
}

#[test]
fn each_kind_of_input_has_its_own_answers() {
    let words = |answers: &[&str], sums| Some((answers.iter().map(|answer| (*answer).to_owned()).collect(), sums));
    assert_eq!(possible("cloth"), words(&["blue check lawn", "narrow net", "any"], false));
    assert_eq!(possible("cord"), words(&["white cord", "any"], false));
    assert_eq!(possible("shape"), words(&["round", "with corners"], false));
    assert_eq!(possible("lined"), words(&["yes", "no"], false));
    // A ratio of 5 is outside what the recipe is made for.
    assert_eq!(possible("fullness"), words(&["lawn twice"], true));
    assert_eq!(possible("size"), words(&["Pip", "Wren"], false));
    assert_eq!(possible("washing"), words(&["washed first", "cut longer", "as it comes"], false));
    assert_eq!(possible("around"), words(&[], true));
    assert_eq!(possible("age"), words(&[], true));
    assert_eq!(possible("note"), words(&[], false));
    assert_eq!(possible("for"), words(&[], false));
    assert_eq!(possible("nothing"), None);
}

#[test]
fn what_is_offered_is_taken() {
    let mut tried = 0;
    for name in ["cloth", "cord", "shape", "lined", "fullness", "size", "use", "washing"] {
        for answer in possible(name).unwrap().0 {
            // A cloth must have a width, which a person types behind the word.
            let answer = if (name, answer.as_str()) == ("cloth", "any") { "any 45 in".to_owned() } else { answer };
            assert_eq!(refused(name, &answer), "", "{name}={answer}");
            tried += 1;
        }
    }
    assert!(tried > 15, "{tried}");
}

#[test]
fn a_refusal_suggests_what_would_be_taken() {
    assert!(refused("cloth", "blue chek lawn").ends_with("did you mean “blue check lawn”?"));
    assert!(refused("shape", "with corner").ends_with("did you mean “with corners”?"));
    assert!(refused("fullness", "lawn twce").ends_with("did you mean “lawn twice”?"));
    // A cord is near, and no cloth.
    let refusal = refused("cloth", "white crd");
    assert!(refusal.starts_with("cloth: no cloth called white crd") && !refusal.contains("did you mean"), "{refusal}");
    let refusal = refused("cord", "white thred");
    assert!(!refusal.contains("white thread"), "{refusal}");
}
