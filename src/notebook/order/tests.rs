//! Which answers of an order are read as sums of cells, and which as the words that they are.

use super::*;
use crate::cutting::Planner;
use crate::engine::limits::{Limits, StopFlag};
use crate::notebook::objects::{TableObject, register};
use crate::notebook::{Page, Tools, World};
use crate::quantity::{Reading, Style};
use crate::recipe::{Input, LoadedRecipe, OpenRecipes, RecipeText, Reply, Task};
use crate::table::Table;
use crate::workshop::Workshop;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

/// A world of one recipe that only notes what it is answered; its one file is a table.
struct Noted {
    inputs: Rc<[Input]>,
    answers: Vec<(String, InputAnswer)>,
}

impl Noted {
    fn new() -> Self {
        let text = "//! Things.\n//! contract: 1   version: 1.0   licence: CC0-1.0   for: skirt\n\
            fn inputs() { [ length(\"waist\", \"waist\").between(1 in, 90 in), \
            choice(\"top\", \"upper edge\", [\"band\", \"elastic\"]), text(\"mark\", \"mark\"), \
            cloth(\"cloth\", \"cloth\") ] }\nfn make(order, ticket) { }\n";
        let recipe = RecipeText { name: "things".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
        let workshop = Arc::new(Workshop::default());
        let mut open = OpenRecipes::new(Planner::default());
        match open.answer(&LoadedRecipe::from(recipe), &workshop, false, Task::Describe) {
            Reply::Described(description) => Self { inputs: description.inputs.into(), answers: Vec::new() },
            reply => panic!("{reply:?}"),
        }
    }
}

impl World for Noted {
    fn inputs(&mut self, _: &str) -> Result<Rc<[Input]>, Diagnostic> {
        Ok(Rc::clone(&self.inputs))
    }

    fn run(&mut self, _: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        self.answers = answers;
        Ok(Dynamic::from_int(1))
    }

    fn read(&mut self, _: &str) -> Result<Dynamic, Diagnostic> {
        Ok(Dynamic::from(TableObject::new(Table::new("rows").count("n").ready().unwrap())))
    }
}

fn host() -> Host {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    register(&mut host);
    host
}

/// The cells that the orders here may read.
const CELLS: &str = "wide = 45 in\nn = 2\nold = 5 years\nwords = \"band\"\nband = 3 cm\nelastic = \"band\"\n\
                     shade = \"ivory\"\nfirst = 1 cm + 1 min\nread x.csv as rows\n";

/// What a recipe is answered: `name: text` as typed, `name = value` for a value, with those of the sums in goods.
fn answered(line: &str) -> Result<Vec<String>, Diagnostic> {
    let host = host();
    let mut world = Noted::new();
    let page = Page::read(&mut Tools { host: &host, world: &mut world }, &format!("{CELLS}run things as o {line}\n"));
    let found = page.errors().into_iter().find(|(name, _)| name == "o");
    if let Some((_, error)) = found {
        return Err(error);
    }
    let shown = |value: &TicketValue| value.show(&Style::default());
    let told = |(name, answer): &(String, InputAnswer)| match answer {
        InputAnswer::Typed(typed) => format!("{name}: {typed}"),
        InputAnswer::Value(value) => format!("{name} = {}", shown(value)),
        InputAnswer::Goods(typed, known) => {
            let known: Vec<String> = known.iter().map(|(sum, value)| format!("{sum} = {}", shown(value))).collect();
            format!("{name}: {typed} [{}]", known.join(", "))
        }
    };
    Ok(world.answers.iter().map(told).collect())
}

#[track_caller]
fn check(line: &str, wanted: &[&str]) {
    assert_eq!(answered(line).unwrap_or_else(|error| panic!("{line}: {}", error.message)), wanted, "{line}");
}

/// Twice 45 in are 90 in.
#[test]
fn a_sum_of_cells_is_its_value_where_a_measure_is_asked_for() {
    check("waist=wide * 2 pieces=n age=old", &["waist = 90 in", "pieces = 2", "age = 5 years"]);
    check("waist=21 in pieces=3 age=4 years", &["waist: 21 in", "pieces: 3", "age: 4 years"]);
    check("waist=nosuch", &["waist: nosuch"]);
    // Of an input that the recipe does not know nothing is known.
    check("length=wide colour=shade", &["length: wide", "colour: shade"]);
}

#[test]
fn words_are_themselves_unless_a_cell_holds_a_text() {
    check("top=words mark=shade", &["top = band", "mark = ivory"]);
    // A length is no word, and a word of the choice is that word, whatever a cell holds.
    check("top=wide mark=wide", &["top: wide", "mark: wide"]);
    check("top=band", &["top: band"]);
    check("top=elastic", &["top: elastic"]);
    check("mark=elastic", &["mark = band"]);
    check("mark=words + shade", &["mark: words + shade"]);
}

/// How cloth is cut that loses in the wash is said in words, though a cell of the name has an error.
#[test]
fn how_it_is_washed_never_reads_a_cell() {
    check("washing=first waist=wide", &["washing: first", "waist = 45 in"]);
    let waits = answered("mark=first").unwrap_err();
    assert_eq!(waits.message, "needs first, and first has an error");
}

#[test]
fn the_sums_in_goods_are_worked_out_where_they_read_cells() {
    check("cloth=any 45 in at $6/yd", &["cloth: any 45 in at $6/yd"]);
    check("cloth=any wide at $6/yd", &["cloth: any wide at $6/yd [wide = 45 in]"]);
    check("cloth=any wide - n * 1 in at $6/yd", &["cloth: any wide - n * 1 in at $6/yd [wide - n * 1 in = 43 in]"]);
    check("cloth=ivory net", &["cloth: ivory net"]);
    for (line, word) in [("cloth=any wide + nosuch", "nosuch"), ("cloth=any wide + n", "a plain number")] {
        let error = answered(line).unwrap_err();
        assert!(error.message.contains(word), "{line}: {error:?}");
        let kind = DiagnosticKind::Refusal { input: "cloth".to_owned(), typing: None };
        assert_eq!(error.kind, kind, "{line}");
    }
}

#[test]
fn what_cannot_be_an_answer_refuses_its_input() {
    let kind = |input: &str| DiagnosticKind::Refusal { input: input.to_owned(), typing: None };
    let table = answered("waist=rows").unwrap_err();
    assert_eq!((table.message.as_str(), table.kind), ("a table is no answer to a recipe", kind("waist")));
    let unlike = answered("waist=wide + n").unwrap_err();
    assert_eq!(unlike.kind, kind("waist"));
    assert!(unlike.message.contains("cannot be added"), "{unlike:?}");
    // Where it was stopped, the answer is not to blame.
    let stopped = as_refusal("waist", Diagnostic::new("stopped").of_kind(DiagnosticKind::Stopped));
    assert!(stopped.is_stop());
    assert!(!as_refusal("waist", Diagnostic::new("wrong")).is_stop());
}

fn order(answers: &[(&str, &str)]) -> OrderLine {
    let answers: Vec<_> = answers.iter().map(|(input, typed)| ((*input).to_owned(), (*typed).to_owned())).collect();
    OrderLine::read(&host(), "things", &answers).unwrap()
}

#[test]
fn an_order_tells_what_it_reads() {
    let line = order(&[("waist", "b + a"), ("hem", "a * 2"), ("cloth", "any wide at cp"), ("washing", "first")]);
    assert_eq!(line.names().iter().filter(|name| ["a", "b", "cp", "wide", "first"].contains(name)).count(), 4);
    assert!(!line.names().contains(&"first"));
    let line = order(&[("waist", "first.wide + first.laid"), ("cloth", "any first.hem"), ("hem", "second.x")]);
    assert_eq!(line.members_of("first"), Some(vec!["wide", "laid", "hem"]));
    assert_eq!(line.members_of("second"), Some(vec!["x"]));
    assert_eq!(line.members_of("third"), Some(Vec::new()));
    assert_eq!(order(&[("waist", "first.wide"), ("hem", "first")]).members_of("first"), None);
    let typed: Vec<(&str, &str)> = line.answers().collect();
    assert_eq!(typed, [("waist", "first.wide + first.laid"), ("cloth", "any first.hem"), ("hem", "second.x")]);
    assert!(OrderLine::read(&host(), "", &[]).unwrap_err().message.starts_with("which recipe?"));
}
