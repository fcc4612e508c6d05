//! Reading a line of `vary`, and how far it runs the orders it varies.

use super::*;
use crate::cutting::Planner;
use crate::engine::Host;
use crate::engine::limits::{Limits, StopFlag};
use crate::notebook::objects::register;
use crate::notebook::world::World;
use crate::quantity::Style;
use crate::recipe::{Input, InputAnswer, LoadedRecipe, OpenRecipes, RecipeText, Reply, Task};
use crate::table::Cell;
use crate::ticket::WorkshopOrder;
use crate::workshop::Workshop;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

#[test]
fn the_leap_among_few_steps_is_the_large_one() {
    assert_eq!(lower_median(vec![]), None);
    assert_eq!(lower_median(vec![9.0]), Some(9.0));
    assert_eq!(lower_median(vec![1.0, 9.0]), Some(1.0));
    assert_eq!(lower_median(vec![9.0, 1.0, 2.0]), Some(2.0));
}

#[test]
fn the_line_is_read_with_lists_and_ranges() {
    let read = |rest: &str| VaryLine::read(rest, Reading::default());
    let line = read("waist from 50 cm to 65 cm by 5 cm, pieces over 1, 2, max(3, 4), show a.b, c * 2").unwrap();
    let range = VariedValues::Range { from: "50 cm".to_owned(), to: "65 cm".to_owned(), by: Some("5 cm".to_owned()) };
    let list = VariedValues::List(["1", "2", "max(3, 4)"].map(str::to_owned).to_vec());
    assert_eq!(line.varied, [("waist".to_owned(), range), ("pieces".to_owned(), list)]);
    assert_eq!(line.results, ["a.b", "c * 2"]);
    assert_eq!(read("waist over 1 in show x").unwrap().results, ["x"]);
    for wrong in ["", "waist", "waist over 1 in", "waist 3, show x", "show x", "waist from 3 cm, show x"] {
        assert!(read(wrong).unwrap_err().hint.is_some(), "{wrong}");
    }
}

/// A world of one recipe. It counts how often the recipe was run to its end, and how often only made.
struct OneRecipe {
    recipe: LoadedRecipe,
    workshop: Arc<Workshop>,
    planner: Planner,
    open: OpenRecipes,
    runs: usize,
    makes: usize,
}

impl OneRecipe {
    fn new() -> Self {
        let text = "//! Panels.\n//! contract: 1   version: 1.0   licence: CC0-1.0   for: skirt\n\
            fn inputs() { [ length(\"waist\", \"waist\").between(10 in, 90 in), cloth(\"cloth\", \"cloth\") ] }\n\
            fn make(order, ticket) {\n\
                if order.waist > 80 in { order.refuse(\"waist\", \"too large\"); }\n\
                ticket.figure(\"wide\", order.waist * 2, \"width\");\n\
                ticket.piece(\"panel\", order.cloth).rectangle(20 in, order.waist).count(2);\n\
            }\n\
            fn after_cutting(order, plan, ticket) {\n\
                ticket.figure(\"laid\", plan.length_of(order.cloth), \"length laid\");\n\
            }\n";
        let recipe = RecipeText { name: "panels".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
        let planner = Planner::default();
        Self {
            recipe: LoadedRecipe::from(recipe),
            workshop: Arc::new(Workshop::default()),
            open: OpenRecipes::new(planner.clone()),
            planner,
            runs: 0,
            makes: 0,
        }
    }

    fn order(&mut self, task: Task) -> Result<Dynamic, Diagnostic> {
        match self.open.answer(&self.recipe, &self.workshop, false, task) {
            Reply::Ran(ticket) => {
                let (workshop, planner) = (Arc::clone(&self.workshop), self.planner.clone());
                let order = WorkshopOrder::new(*ticket, workshop, &Style::default(), planner).unwrap();
                Ok(Dynamic::from(TicketObject::new(order)))
            }
            Reply::Refused(refusals) => Err(Diagnostic::several("refused", refusals)),
            reply => panic!("{reply:?}"),
        }
    }
}

impl World for OneRecipe {
    fn inputs(&mut self, _: &str) -> Result<Rc<[Input]>, Diagnostic> {
        match self.open.answer(&self.recipe, &self.workshop, false, Task::Describe) {
            Reply::Described(description) => Ok(description.inputs.into()),
            reply => panic!("{reply:?}"),
        }
    }

    fn run(&mut self, _: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        self.runs += 1;
        self.order(Task::Run(answers))
    }

    fn make(&mut self, _: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        self.makes += 1;
        self.order(Task::Make(answers))
    }

    fn read(&mut self, _: &str) -> Result<Dynamic, Diagnostic> {
        panic!("there is no file")
    }
}

#[test]
fn an_order_is_planned_only_for_what_needs_a_plan() {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    register(&mut host);
    // Of a square panel of 40 in from cloth 45 in wide two lie one behind the other: 40 in along.
    for (shown, makes, runs, plans, first) in [
        ("first.wide", 3, 0, 0, "80 in"),
        ("first.waist + 1 in", 3, 0, 0, "41 in"),
        ("first.wide * 2", 3, 0, 0, "160 in"),
        ("half", 3, 0, 0, "40 in"),
        ("first.pieces_to_cut", 3, 0, 0, "2"),
        // What only the plan tells, or the money: to the end.
        ("first.price", 0, 3, 3, "$6.67"),
        ("first.cut_list.rows", 0, 3, 3, "1"),
        // A figure that the recipe adds after cutting is looked for first.
        ("first.laid", 3, 3, 3, "1 yd 4 in"),
        ("first.wide, first.laid", 3, 3, 3, "80 in"),
    ] {
        let mut world = OneRecipe::new();
        let mut page = Page::read(
            &mut Tools { host: &host, world: &mut world },
            "run panels as first waist=12 in cloth=any 45 in at $6/yd\nhalf = first.wide / 2\n",
        );
        let before = world.planner.made();
        (world.runs, world.makes) = (0, 0);
        let table = page.vary(
            &mut Tools { host: &host, world: &mut world },
            &format!("first.waist over 40 in, 41 in, 42 in, show {shown}"),
        );
        let table = table.unwrap_or_else(|error| panic!("{shown}: {}", excerpt::text(&error)));
        assert_eq!((world.makes, world.runs, world.planner.made() - before), (makes, runs, plans), "{shown}");
        let shown_first = match &table.rows()[0][1] {
            Field::Quantity(quantity) => Style::default().show(*quantity),
            Field::Count(count) => count.to_string(),
            field => panic!("{shown}: {field:?}"),
        };
        assert_eq!(shown_first, first, "{shown}");
    }
}

#[test]
fn an_order_that_is_turned_away_says_why_in_its_row() {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    register(&mut host);
    let mut world = OneRecipe::new();
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut page = Page::read(tools, "run panels as first waist=12 in cloth=any 45 in\n");
    // Too large for the recipe; too wide for the cloth.
    for (waist, reason) in [("85 in", "too large"), ("50 in", "a wider cloth")] {
        let table = page.vary(tools, &format!("first.waist over 20 in, {waist}, show first.wide")).unwrap();
        let at = table.columns().iter().position(|column| column.heading == "why not").unwrap();
        assert!(matches!(&table.rows()[0][at], Cell::Text(why) if why.is_empty()), "{:?}", table.rows()[0]);
        assert!(matches!(&table.rows()[1][at], Cell::Text(why) if why.contains(reason)), "{:?}", table.rows()[1]);
    }
}
