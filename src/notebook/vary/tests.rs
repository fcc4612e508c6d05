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
    for twice in ["waist over 1 in, 2 in, show waist", "waist over 1 in, show x, x", "a over 1, a over 2, show x"] {
        assert!(read(twice).unwrap_err().message.ends_with("” would be shown twice"), "{twice}");
    }
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

/// What a line of `vary` shows on a page without orders: a column each, the varied first.
fn varied(page: &str, rest: &str) -> Result<Vec<Vec<String>>, Diagnostic> {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    register(&mut host);
    let mut world = crate::notebook::NoWorld;
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut page = Page::read(tools, page);
    let before = page.text();
    let table = page.vary(tools, rest)?;
    assert_eq!(page.text(), before);
    let shown = |cell: &Cell| match cell {
        Field::Quantity(quantity) => Style::default().show(*quantity),
        Field::Count(count) => count.to_string(),
        Field::Text(text) => text.clone(),
        Field::Flag(flag) => flag.to_string(),
        Field::Blank => "-".to_owned(),
        Field::Number(number) => number.to_string(),
    };
    let column = |at: usize| {
        let heading = table.columns()[at].heading.clone();
        std::iter::once(heading).chain(table.rows().iter().map(|row| shown(&row[at]))).collect()
    };
    Ok((0..table.columns().len()).map(column).collect())
}

#[track_caller]
fn refused(page: &str, rest: &str) -> (String, String) {
    let error = varied(page, rest).unwrap_err();
    (error.message.clone(), error.hint.unwrap_or_default())
}

/// The values of a range, by counting.
#[test]
fn a_range_has_its_first_and_last_value_and_every_step_between() {
    for (range, wanted) in [
        ("from 50 cm to 65 cm by 5 cm", vec!["50 cm", "55 cm", "60 cm", "65 cm"]),
        ("from 50 cm to 64 cm by 5 cm", vec!["50 cm", "55 cm", "60 cm"]),
        ("from 60 cm to 50 cm by 5 cm", vec!["60 cm", "55 cm", "50 cm"]),
        ("from 60 cm to 50 cm by -5 cm", vec!["60 cm", "55 cm", "50 cm"]),
        ("from 50 cm to 60 cm by -5 cm", vec!["50 cm", "55 cm", "60 cm"]),
        ("from 50 cm to 50 cm by 5 cm", vec!["50 cm"]),
        ("from 50 cm to 53 cm by 5 cm", vec!["50 cm"]),
        ("from 2 to 5", vec!["2", "3", "4", "5"]),
        ("from 5 to 2", vec!["5", "4", "3", "2"]),
        ("from 0.1 to 0.4 by 0.1", vec!["0.1", "0.2", "0.3", "0.4"]),
        ("from 3 in to 4 in by 1/4 in", vec!["3 in", "3 1/4 in", "3 1/2 in", "3 3/4 in", "4 in"]),
        ("over 50 cm, 7 in, 2 * 3 cm", vec!["50 cm", "7 in", "6 cm"]),
    ] {
        let table = varied("a = 3", &format!("a {range}, show a * 1")).unwrap();
        assert_eq!(table[0][1..], wanted, "{range}");
        assert_eq!(table[1][1..], wanted, "{range}");
        assert_eq!((table[0][0].as_str(), table[2][0].as_str()), ("a", "jump"));
    }
}

#[test]
fn a_range_that_is_none_says_what_it_lacks() {
    let says = |range: &str| refused("a = 3 cm", &format!("a {range}, show a * 1")).0;
    assert_eq!(says("from 50 cm to 60 cm"), "in which steps is a varied?");
    assert_eq!(says("from 50 cm to 60 cm by 0 cm"), "a needs a step other than zero");
    assert_eq!(says("from 50 cm to 50 cm by 0 cm"), "a needs a step other than zero");
    assert_eq!(says("from 50 cm"), "from where to where is a varied?");
    assert_eq!(says("from \"x\" to 60 cm by 1 cm"), "\"x\" is no measure to vary a from or to");
    for unlike in ["from 50 to 60 cm by 1 cm", "from 50 cm to 60 by 1 cm", "from 50 cm to 60 cm by 1", "from 5 to 6 cm"]
    {
        assert!(says(unlike).starts_with("the two ends and the step of a must be alike"), "{unlike}");
    }
    assert_eq!(says("upon 3"), "“a upon 3” says not over what it is varied");
    assert_eq!(refused("a = 3", "a over 1, show").0, "show what?");
    assert_eq!(refused("a = 3", "show a").0, "vary what?");
    let three = refused("a = 3", "a over 1, b over 2, c over 3, show a");
    assert_eq!(three.0, "one or two things can be varied at once, not more");
    assert!(three.1.starts_with("type vary "));
    assert!(refused("a = 3", "a over 1").0.starts_with("vary what"));
}

/// From 1 to 1,000 there are 1,000 values; two times 500 rows are 1,000 too.
#[test]
fn a_thousand_rows_are_the_most() {
    assert_eq!(varied("a = 3", "a from 1 to 1000, show a * 2").unwrap()[0].len(), 1 + 1_000);
    let more = refused("a = 3", "a from 0 to 1000, show a * 2");
    assert_eq!(more, ("more than 1000 steps".to_owned(), "take larger steps".to_owned()));
    let page = "a = 3\nb = 4\nc = a + b";
    assert_eq!(varied(page, "a over 7, 9, b from 1 to 500, show c").unwrap()[0].len(), 1 + 1_000);
    let more = refused(page, "a over 7, 9, b from 1 to 501, show c");
    assert_eq!(more.0, "that would be 1002 rows; 1000 are the most");
}

/// The second runs through for each value of the first: 7 and 1, 7 and 2, 9 and 1, 9 and 2.
#[test]
fn of_two_that_vary_the_second_runs_faster() {
    let table = varied("a = 3\nb = 4\nc = a * b", "a over 7, 9, b over 1, 2, show c, a - b").unwrap();
    assert_eq!(table[0], ["a", "7", "7", "9", "9"]);
    assert_eq!(table[1], ["b", "1", "2", "1", "2"]);
    assert_eq!(table[2], ["c", "7", "14", "9", "18"]);
    assert_eq!(table[3], ["a - b", "6", "5", "8", "7"]);
    // A count jumps from the row with the same b: 7 to 9, 14 to 18, 6 to 8, 5 to 7.
    assert_eq!(table[4], ["jump", "", "", "c 7 → 9, a - b 6 → 8", "c 14 → 18, a - b 5 → 7"]);
}

#[test]
fn only_what_lies_between_is_worked_out_and_the_rest_stays() {
    let page = "a = 3 cm\nb = a + 1 cm\nc = b * 2\nd = 100 cm\ne = d + c";
    let table = varied(page, "b over 10 cm, 20 cm, show c, d, e, a").unwrap();
    let wanted =
        [["b", "10 cm", "20 cm"], ["c", "20 cm", "40 cm"], ["d", "100 cm", "100 cm"], ["e", "120 cm", "140 cm"]];
    assert_eq!(table[..4], wanted);
    assert_eq!(table[4], ["a", "3 cm", "3 cm"]);
}

/// A measure jumps by more than three times the step in the middle; a text and a yes when they change.
#[test]
fn a_measure_jumps_where_its_step_is_far_from_the_others() {
    let jumps = |list: &str, show: &str| {
        let table = varied("a = 3 cm\nb = a * 1", &format!("a over {list}, show {show}")).unwrap();
        table.iter().find(|column| column[0] == "jump").unwrap()[1..].to_vec()
    };
    // Steps of 1, 1 and 3: three times is no jump. Of 1, 1 and 3.5 it is one.
    assert_eq!(jumps("1 cm, 2 cm, 3 cm, 6 cm", "b"), ["", "", "", ""]);
    assert_eq!(jumps("1 cm, 2 cm, 3 cm, 6.5 cm", "b"), ["", "", "", "b 3 cm → 6.5 cm"]);
    assert_eq!(jumps("6.5 cm, 3 cm, 2 cm, 1 cm", "b"), ["", "b 6.5 cm → 3 cm", "", ""]);
    // Where most stays the same, any step is a jump, and where all does, there is none.
    assert_eq!(jumps("1 cm, 1 cm, 1 cm, 2 cm", "b"), ["", "", "", "b 1 cm → 2 cm"]);
    assert_eq!(jumps("1 cm, 1 cm, 1 cm", "b"), ["", "", ""]);
    assert_eq!(jumps("1 cm, 2 cm, 9 cm", "a > 1.5 cm"), ["", "a > 1.5 cm no → yes", ""]);
    assert_eq!(jumps("8 cm, 12 cm, 13 cm", "up(a / 4 cm)"), ["", "up(a / 4 cm) 2 → 3", "up(a / 4 cm) 3 → 4"]);
}

#[test]
fn what_nothing_follows_or_nobody_knows_is_not_varied() {
    let page = "a = 3 cm\nb = a + 1 cm\nhips = 61 cm";
    assert_eq!(
        refused(page, "hips over 1 cm, show b"),
        (
            "nothing that is shown follows “hips”".to_owned(),
            "show names cells that read it, or orders that ask for it".to_owned()
        )
    );
    assert_eq!(refused(page, "hisp over 1 cm, show b").0, "there is no cell “hisp”");
    assert_eq!(refused(page, "hisp over 1 cm, show b").1, "did you mean “hips”?");
    assert_eq!(refused(page, "a.b over 1 cm, show b").0, "“a” is no order, so it has no input “b” to vary");
    assert_eq!(refused(page, "none.b over 1 cm, show b").0, "there is no cell “none”");
    let list = refused(page, "a over 1 cm, show [a, a]");
    assert_eq!(list.0, "“[a, a]” is a list, which does not go into one column");
    assert!(list.1.contains("total([a, a])"), "{list:?}");
}

/// The reason stands in the row where a result is missing; where all are missing it is the answer.
#[test]
fn a_result_that_fails_leaves_its_reason_in_its_row() {
    let page = "a = 3\nb = 12 / a";
    let table = varied(page, "a over 0, 4, show b, a * 1").unwrap();
    assert_eq!(table[1], ["b", "-", "3"]);
    assert_eq!(table[2], ["a * 1", "0", "4"]);
    let why = table.iter().find(|column| column[0] == "why not").unwrap();
    assert!(!why[1].is_empty() && why[2].is_empty(), "{why:?}");
    assert_eq!(varied(page, "a over 3, 4, show b").unwrap().len(), 3);
    let all = refused(page, "a over 0, show b").0;
    assert!(why[1].contains(&all), "{all} {why:?}");
    assert!(refused(page, "a over 1, 2, show b + nosuch").0.contains("nosuch"));
}

/// What a line of `vary` shows on a page of orders: a column each, the varied first.
fn varied_orders(page: &str, rest: &str) -> Result<Vec<Vec<String>>, Diagnostic> {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    register(&mut host);
    let mut world = OneRecipe::new();
    let tools = &mut Tools { host: &host, world: &mut world };
    let mut page = Page::read(tools, page);
    let table = page.vary(tools, rest)?;
    let shown = |cell: &Cell| match cell {
        Field::Quantity(quantity) => Style::default().show(*quantity),
        Field::Count(count) => count.to_string(),
        Field::Text(text) => text.clone(),
        cell => format!("{cell:?}"),
    };
    let column = |at: usize| {
        let heading = table.columns()[at].heading.clone();
        std::iter::once(heading).chain(table.rows().iter().map(|row| shown(&row[at]))).collect()
    };
    Ok((0..table.columns().len()).map(column).collect())
}

#[track_caller]
fn refused_of_orders(page: &str, rest: &str) -> (String, String) {
    let error = varied_orders(page, rest).unwrap_err();
    (error.message.clone(), error.hint.unwrap_or_default())
}

const ONE: &str = "run panels as first waist=12 in cloth=any 45 in at $6/yd\n";

/// The figure is twice the waist.
#[test]
fn an_input_of_the_one_order_that_is_shown_needs_no_order_before_it() {
    let table = varied_orders(ONE, "waist over 40 in, 41 in, show first.wide").unwrap();
    assert_eq!(table[..2], [["first.waist", "40 in", "41 in"], ["first.wide", "80 in", "82 in"]]);
    let pieces = varied_orders(ONE, "pieces over 1, 3, show first.wide, first.pieces * 1").unwrap();
    assert_eq!(pieces[0], ["first.pieces", "1", "3"]);
    assert_eq!(pieces[1..3], [["first.wide", "24 in", "24 in"], ["first.pieces * 1", "1", "3"]]);
    let age = varied_orders(ONE, "age over 5 years, 7 years, show first.age * 1").unwrap();
    assert_eq!((age[0][0].as_str(), &age[0][1..]), ("first.age", &age[1][1..]));
    // A cell of the name that the order does not read is not meant, one that it reads is.
    let apart = format!("{ONE}waist = 3 in\n");
    assert_eq!(varied_orders(&apart, "waist over 40 in, show first.wide").unwrap()[0][0], "first.waist");
    let read = "waist = 12 in\nrun panels as first waist=waist cloth=any 45 in at $6/yd\n";
    let table = varied_orders(read, "waist over 40 in, 41 in, show first.wide").unwrap();
    assert_eq!(table[..2], [["waist", "40 in", "41 in"], ["first.wide", "80 in", "82 in"]]);
    // Two orders that are shown ask for it, and of the two one is.
    let two = format!("{ONE}run panels as second waist=20 in cloth=any 45 in at $6/yd\n");
    let both = refused_of_orders(&two, "waist over 40 in, show first.wide + second.wide");
    assert_eq!(both.0, "more than one order asks for “waist”");
    assert!(["type first.waist", "type second.waist"].contains(&both.1.as_str()), "{both:?}");
    let one = varied_orders(&two, "waist over 40 in, show second.wide").unwrap();
    assert_eq!(one[..2], [["second.waist", "40 in"], ["second.wide", "80 in"]]);
    let of_one = varied_orders(&two, "second.waist over 40 in, show first.wide + second.wide").unwrap();
    assert_eq!(of_one[1][1], "104 in");
}

#[test]
fn what_is_no_figure_says_what_of_it_could_be_shown() {
    assert_eq!(
        refused_of_orders(ONE, "waist over 40 in, show first"),
        (
            "“first” is a ticket, which does not go into one column".to_owned(),
            "show what you want to know of it: first.wide, first.laid, first.price".to_owned()
        )
    );
    assert_eq!(
        refused_of_orders(ONE, "waist over 40 in, show first.cut_list"),
        (
            "“first.cut_list” is a table, which does not go into one column".to_owned(),
            "show a figure of it, such as first.cut_list.rows".to_owned()
        )
    );
    assert_eq!(
        refused_of_orders(ONE, "waist over 40 in, show [first.wide]").1,
        "show one figure of it: total([first.wide]), or largest([first.wide])"
    );
    // A word of the order alone is said with the order before it.
    assert_eq!(refused_of_orders(ONE, "waist over 40 in, show wide").1, "type first.wide");
    assert_eq!(refused_of_orders(ONE, "waist over 40 in, show first.wide + laid").1, "type first.laid");
    // Of four orders three are named.
    let four: String = ["a", "b", "c", "d"].map(|name| ONE.replace("first", name)).concat();
    let which = refused_of_orders(&four, "a.waist over 40 in, show wide");
    assert_eq!(which.1, "type a.wide or b.wide or c.wide");
    assert_eq!(refused_of_orders(ONE, "waist over first, show first.wide").0, "waist cannot be varied over that");
    assert_eq!(refused_of_orders(ONE, "nosuch over 3, show first.wide").0, "there is no cell “nosuch”");
    assert_eq!(refused_of_orders(ONE, "cloth over 3, show 2 in").0, "there is no cell “cloth”");
}

/// Of two results one fails in every row and the other does not; then of two the same error is told once.
#[test]
fn the_reasons_of_a_row_are_told_once_each() {
    let page = "a = 3\nb = 12 / a\nc = b + 1\nd = [1, 2][a]";
    let rows = varied(page, "a over 0, 5, show a * 1, b, c, d").unwrap();
    assert_eq!(rows[1][1..], ["0", "5"]);
    let why = rows.iter().find(|column| column[0] == "why not").unwrap();
    // By nothing cannot be divided: b and c say the same. Of two items there is none at 5.
    assert_eq!((why[1].matches("; ").count(), why[2].matches("; ").count()), (0, 0), "{why:?}");
    assert!(!why[1].is_empty() && !why[2].is_empty() && why[1] != why[2], "{why:?}");
    let both = varied(page, "a over 0, 1, show b, [1, 2][2 - a * 2]").unwrap();
    let why = both.iter().find(|column| column[0] == "why not").unwrap();
    assert_eq!((why[1].matches("; ").count(), why[2].as_str()), (1, ""), "{why:?}");
    // Where every result has one and the same error, that is the answer.
    let same = refused(page, "a over 0, 0.0, show b, c");
    assert!(why[1].starts_with(&same.0), "{same:?} {why:?}");
}
