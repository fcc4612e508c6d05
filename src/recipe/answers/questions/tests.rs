//! Whole dialogues with the shipped recipes: questions, answers and replies.

use super::*;
use crate::diagnostic::Diagnostic;
use crate::engine::limits::Limits;
use crate::quantity::Unit;
use crate::recipe::contract::input_words::scripted;
use crate::recipe::run::answer_in;
use crate::recipe::{InputAnswer, Reply, Task, library};
use crate::report::excerpt;
use rhai::Scope;

mod cells;
mod kinds;
mod washing;

const SETTINGS: &str = include_str!("../../../../recipes/demo/settings.csv");
const MATERIALS: &str = include_str!("../../../../recipes/demo/materials.csv");
const TRIALS: &str = include_str!("../../../../recipes/demo/trials.csv");
const SIZES: &str = include_str!("../../../../recipes/demo/sizes.csv");

fn workshop() -> Workshop {
    let files =
        [("settings.csv", SETTINGS), ("materials.csv", MATERIALS), ("trials.csv", TRIALS), ("sizes.csv", SIZES)];
    Workshop::read(&files).unwrap()
}

/// A metric workshop with empty lists.
fn metric() -> Workshop {
    Workshop::read(&[("settings.csv", "setting,value\ntape,metric\ncurrency,€\n")]).unwrap()
}

fn pairs(given: &[(&str, &str)]) -> Vec<(String, String)> {
    given.iter().map(|(name, typed)| ((*name).to_owned(), (*typed).to_owned())).collect()
}

struct Dialogue {
    questions: Questions,
    page: Host,
    cells: BTreeMap<String, TicketValue>,
    workshop: Workshop,
    recipe: crate::recipe::RecipeText,
}

fn page_value(page: &Host, cells: &BTreeMap<String, TicketValue>, typed: &str) -> Result<Dynamic, Diagnostic> {
    let mut scope = Scope::new();
    for (name, value) in cells {
        scope.push_constant_dynamic(name.as_str(), scripted(value));
    }
    page.evaluate(&page.compile_expression(typed)?, &mut scope)
}

fn start(
    recipe: &str,
    workshop: Workshop,
    given: &[(&str, &str)],
    cells: &[(&str, TicketValue)],
) -> Result<Dialogue, String> {
    let recipe = library::shipped(recipe).unwrap();
    let style = workshop.settings.style();
    let described = answer_in(&recipe, &workshop, false, &Task::Describe, StopFlag::default());
    let Reply::Described(description) = described else { panic!("{described:?}") };
    let page = Host::new(workshop.settings.reading(), style, Limits::CELL, StopFlag::default());
    let cells: BTreeMap<String, TicketValue> =
        cells.iter().map(|(name, value)| ((*name).to_owned(), value.clone())).collect();
    let questions =
        Questions::new(description, &workshop, style, pairs(given), &cells, &|typed| page_value(&page, &cells, typed));
    match questions {
        Ok(questions) => Ok(Dialogue { questions, page, cells, workshop, recipe }),
        Err(refusals) => Err(excerpt::texts(&refusals)),
    }
}

impl Dialogue {
    /// Types one line after the other and returns the dialogue, each answer after `>`.
    fn typed(&mut self, lines: &[&str]) -> String {
        let mut transcript = String::new();
        for line in lines {
            let asked = self.questions.next().map_or("nothing is asked".to_owned(), |question| question.to_string());
            let reply = if *line == "back" {
                if self.questions.back() { "going back".to_owned() } else { "this is the first question".to_owned() }
            } else {
                let (page, cells) = (&self.page, &self.cells);
                let answer = self.questions.answer(line, &|typed| page_value(page, cells, typed));
                answer.unwrap_or_else(|refusal| format!("no: {}", excerpt::text(&refusal).replace('\n', "\n  ")))
            };
            transcript.push_str(&format!("{asked}\n> {line}\n{reply}\n"));
        }
        if let Some(question) = self.questions.next() {
            transcript.push_str(&format!("{question}\n"));
        }
        transcript
    }

    fn answers(&self) -> Vec<String> {
        self.questions.answers().iter().map(|(name, typed)| format!("{name}={typed}")).collect()
    }

    /// Runs the order as a page would: answers that name a cell are evaluated there, the rest stay as typed.
    fn run(&self) -> crate::ticket::Ticket {
        let given = self.questions.answers().into_iter().map(|(name, typed)| {
            let uses_cell = self
                .cells
                .keys()
                .any(|cell| typed.split(|c: char| !c.is_alphanumeric() && c != '_').any(|word| word == cell));
            let kind =
                self.questions.description.inputs.iter().find(|input| input.name == name).map(|input| &input.kind);
            let answer = if uses_cell && kind.is_some_and(crate::recipe::InputKind::reads_expression) {
                let value = page_value(&self.page, &self.cells, &typed).unwrap();
                InputAnswer::Value(crate::recipe::contract::input_words::plain(&value).unwrap())
            } else {
                InputAnswer::Typed(typed)
            };
            (name, answer)
        });
        match answer_in(&self.recipe, &self.workshop, false, &Task::run(given), StopFlag::default()) {
            Reply::Ran(ticket) => *ticket,
            other => panic!("{other:?}"),
        }
    }
}

#[track_caller]
fn check(found: &str, expected: &str) {
    assert_eq!(found.trim(), expected.trim(), "found:\n{found}");
}

fn inches(value: f64) -> TicketValue {
    TicketValue::Quantity(Quantity::of(value, Unit::Inch))
}

#[test]
fn an_odd_body_measure_is_questioned_after_its_answer_and_taken() {
    let mut dialogue = start("gathered_skirt", workshop(), &[("age", "5 years")], &[]).unwrap();
    assert_eq!(dialogue.questions.warnings(), Vec::<String>::new());
    dialogue.typed(&["56"]);
    let doubt = "waist: 56 in is far more than a child of 5 measures (survey: 46 to 68.3 cm, 5th to 95th); did you \
                 mean 56 cm?";
    assert_eq!(dialogue.questions.warnings(), [doubt]);
    dialogue.typed(&["12"]);
    assert_eq!(dialogue.questions.warnings(), Vec::<String>::new());

    let mut dialogue = start("gathered_skirt", workshop(), &[("age", "18 months")], &[]).unwrap();
    dialogue.typed(&["size Pip"]);
    assert!(dialogue.questions.warnings().iter().any(|warning| warning.contains("measure the child")));
    dialogue.typed(&["back", "20", "10"]);
    assert_eq!(dialogue.questions.warnings(), Vec::<String>::new());
}

#[test]
fn a_skirt_is_asked_for_from_the_first_question_to_the_last() {
    let mut dialogue = start("gathered_skirt", workshop(), &[], &[]).unwrap();
    check(
        &dialogue.typed(&["", "21", "12 inn", "3 min", "300", "14 1/2", "ivory sattin", "white cotton lawn", "zip", "elastic 1 in", "more"]),
        "
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
>{}
no: waist: missing: waist, tape snug
    type 36 in
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
> 21
21 in
skirt: finished, top edge to hem
  a length; 5 in to 50 in; body measure “waist to hem”
  or size Pip, size Wren, size Juno, size Alder
> 12 inn
no: skirt: “12 inn”: “inn” is not a unit
    did you mean “in”?
skirt: finished, top edge to hem
  a length; 5 in to 50 in; body measure “waist to hem”
  or size Pip, size Wren, size Juno, size Alder
> 3 min
no: skirt: a length is needed, not a time
skirt: finished, top edge to hem
  a length; 5 in to 50 in; body measure “waist to hem”
  or size Pip, size Wren, size Juno, size Alder
> 300
no: skirt: 300 in is outside what the recipe is made for, 5 in to 50 in
skirt: finished, top edge to hem
  a length; 5 in to 50 in; body measure “waist to hem”
  or size Pip, size Wren, size Juno, size Alder
> 14 1/2
14 1/2 in
cloth: skirt cloth
  a cloth by name, or one such as any 45 in at $6/yd
  or wide ivory tulle, ivory satin, white cotton lawn, blue check lawn, garden face cloth, curtain lining, ivory tulle, ivory tulle large roll; and 2 more, which list shows
> ivory sattin
no: cloth: no cloth called ivory sattin
    did you mean “ivory satin”?
cloth: skirt cloth
  a cloth by name, or one such as any 45 in at $6/yd
  or wide ivory tulle, ivory satin, white cotton lawn, blue check lawn, garden face cloth, curtain lining, ivory tulle, ivory tulle large roll; and 2 more, which list shows
> white cotton lawn
white cotton lawn
elastic: elastic for the waist
  elastic, tape, hook …: name it, or any
  or elastic 1 in, elastic 1/4 in, heading tape, hem tape
> zip
no: elastic: no notion called zip
    type any, or with a price any $0.50/yd
elastic: elastic for the waist
  elastic, tape, hook …: name it, or any
  or elastic 1 in, elastic 1/4 in, heading tape, hem tape
> elastic 1 in
elastic 1 in
nothing is asked
> more
no: the order: everything is answered
"
        .replace(">{}", "> ")
        .as_str(),
    );
    assert_eq!(
        dialogue.answers(),
        ["waist=21 in", "skirt=14 1/2 in", "cloth=white cotton lawn", "elastic=elastic 1 in"]
    );
    assert_eq!(dialogue.run().input("waist").unwrap().value, inches(21.0));
}

#[test]
fn a_size_answers_every_body_measure_and_is_taken_back_at_once() {
    let mut dialogue = start("gathered_skirt", workshop(), &[], &[]).unwrap();
    check(
        &dialogue.typed(&["back", "size Wern", "Wren", "size wren", "back", "22 in", "size=Wren", "any 45 in at $6/yd"]),
        "
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
> back
this is the first question
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
> size Wern
no: size: there is no size “Wern”
    did you mean “Wren”?
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
> Wren
no: waist: “Wren”: I don't know the word Wren
    for the measures of that size, type size Wren
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
> size wren
size Wren: waist 21 in, hips 23 in, skirt 12 in
cloth: skirt cloth
  a cloth by name, or one such as any 45 in at $6/yd
  or wide ivory tulle, ivory satin, white cotton lawn, blue check lawn, garden face cloth, curtain lining, ivory tulle, ivory tulle large roll; and 2 more, which list shows
> back
going back
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Pip, size Wren, size Juno, size Alder
> 22 in
22 in
skirt: finished, top edge to hem
  a length; 5 in to 50 in; body measure “waist to hem”
  or size Pip, size Wren, size Juno, size Alder
> size=Wren
size Wren: hips 23 in, skirt 12 in
cloth: skirt cloth
  a cloth by name, or one such as any 45 in at $6/yd
  or wide ivory tulle, ivory satin, white cotton lawn, blue check lawn, garden face cloth, curtain lining, ivory tulle, ivory tulle large roll; and 2 more, which list shows
> any 45 in at $6/yd
any 45 in at $6/yd
elastic: elastic for the waist
  elastic, tape, hook …: name it, or any
  or elastic 1 in, elastic 1/4 in, heading tape, hem tape
",
    );
    assert_eq!(dialogue.answers(), ["size=Wren", "waist=22 in", "cloth=any 45 in at $6/yd"]);
    assert_eq!(dialogue.typed(&["any"]).lines().last(), Some("any"));
    let ticket = dialogue.run();
    assert_eq!(ticket.input("waist").unwrap().source, InputSource::Given);
    assert_eq!(ticket.input("hips").unwrap().source, InputSource::Size("Wren".to_owned()));
}

#[test]
fn a_sleeve_is_asked_for_on_the_other_tape_with_a_size_that_lacks_a_measure() {
    let mut dialogue =
        start("puff_sleeve", workshop(), &[("size", "Pip"), ("cloth", "white cotton lawn")], &[]).unwrap();
    check(
        &dialogue.typed(&["size Wren", "11", "2", "4", "none"]),
        "
head: armhole, front notch to back notch
  a length; 8 cm to 40 cm (≈ 3 1/8 in to ≈ 15 3/4 in); body measure “armhole between notches”; size Pip does not say it
> size Wren
no: size: size Pip is taken already, and an order has one size
    type the measure itself
head: armhole, front notch to back notch
  a length; 8 cm to 40 cm (≈ 3 1/8 in to ≈ 15 3/4 in); body measure “armhole between notches”; size Pip does not say it
> 11
11 in
sleeve: underarm seam, armhole to cuff
  a length; 3 cm to 60 cm (≈ 1 1/8 in to ≈ 23 5/8 in)
> 2
2 in
cap: height of the fitted sleeve head
  a length; 5 cm to 20 cm (≈ 2 in to ≈ 7 7/8 in)
> 4
4 in
stiffening: cuff stiffening
  a cloth by name, or one such as any 45 in at $6/yd
  or ivory tulle, ivory tulle large roll, rose tulle, wide ivory tulle, ivory satin, ivory satin strip, white cotton lawn, blue check lawn; and 2 more, which list shows
  Enter = without it
> none
without stiffening
",
    );
    assert_eq!(dialogue.answers(), ["size=Pip", "head=11 in", "sleeve=2 in", "cap=4 in", "cloth=white cotton lawn"]);
    let ticket = dialogue.run();
    assert_eq!(ticket.input("arm").unwrap().value, inches(5.5));
}

#[test]
fn curtains_on_the_metric_tape_with_nothing_in_the_lists() {
    let mut dialogue = start("curtains", metric(), &[("pieces", "2")], &[]).unwrap();
    check(
        &dialogue.typed(&["180", "2.2 m", "any 137 cm at €29/m", "any", "any 137 cm at €8/m"]),
        "
track: track or pole, end to end
  a length; 30 cm to 600 cm
> 180
180 cm
drop: top of heading to finished hem
  a length; 20 cm to 500 cm
> 2.2 m
2.2 m
face: face cloth
  a cloth by name, or one such as any 112 cm at €6/m
> any 137 cm at €29/m
any 137 cm at €29/m
tape: heading tape
  elastic, tape, hook …: name it, or any
> any
any
lining: lining
  a cloth by name, or one such as any 112 cm at €6/m
  Enter = without it
> any 137 cm at €8/m
any 137 cm at €8/m
",
    );
    let lining = "lining=any 137 cm at €8/m";
    assert_eq!(
        dialogue.answers(),
        ["track=180 cm", "drop=2.2 m", "face=any 137 cm at €29/m", lining, "tape=any", "pieces=2"]
    );
    let ticket = dialogue.run();
    assert_eq!((ticket.garments, ticket.without.len()), (2, 0));
    // Going back asks again, and an empty line leaves it out.
    assert_eq!(dialogue.typed(&["back", ""]).lines().last(), Some("without lining"));
    assert_eq!(dialogue.run().without, ["lining"]);
}

#[test]
fn what_is_given_and_wrong_is_said_before_the_first_question() {
    let errors = |given: &[(&str, &str)]| start("gathered_skirt", workshop(), given, &[]).err().unwrap_or_default();
    assert_eq!(errors(&[("wasit", "21 in")]), "wasit: this recipe does not ask for it\n  did you mean “waist”?");
    assert_eq!(
        errors(&[("waist", "21"), ("top", "bnad"), ("size", "Wern"), ("pieces", "0")]),
        "pieces: the number of garments in the order is 0; the least is 1\n\
         size: there is no size “Wern”\n  did you mean “Wren”?\n\
         waist: a length is needed, not a plain number\n  give it a unit: 21 in or 21 cm\n\
         top: “bnad” is none of elastic, band\n  did you mean “band”?"
    );
    assert_eq!(errors(&[("waist", "21 in"), ("waist", "22 in")]), "waist: it is given twice");
    assert_eq!(errors(&[("waist", "21 in")]), "");
}

#[test]
fn a_measure_of_a_size_that_does_not_fit_is_asked() {
    let sizes = "size,waist,hip,waist to hem\nOdd,21 in,99 in,2 in\n";
    let workshop = Workshop::read(&[("sizes.csv", sizes)]).unwrap();
    let mut dialogue = start("gathered_skirt", workshop, &[], &[]).unwrap();
    let transcript = dialogue.typed(&["size Odd", "23", "12"]);
    check(
        &transcript,
        "
waist: waist, tape snug
  a length; 12 in to 60 in; body measure “waist”
  or size Odd
> size Odd
size Odd: waist 21 in
hips: hips, where they are widest
  a length; 12 in to 80 in; body measure “hip”; the 99 in of size Odd do not fit
> 23
23 in
skirt: finished, top edge to hem
  a length; 5 in to 50 in; body measure “waist to hem”; the 2 in of size Odd do not fit
> 12
12 in
cloth: skirt cloth
  a cloth by name, or one such as any 45 in at $6/yd
",
    );
}
