//! Recipes that stay open: whatever ran before on the same engine, a task gets the answer of a fresh engine, and each
//! plan is made once.

use super::common::demo_workshop;
use super::strips::Draws;
use shirr::cutting::Planner;
use shirr::recipe::run::answer_in;
use shirr::recipe::{LoadedRecipe, OpenRecipes, RecipeText, Reply, Task, library};
use shirr::ticket::{self, WorkshopOrder};
use shirr::workshop::Workshop;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Small recipes that together end in every possible way: name and body of `make`.
const OWN: &[(&str, &str)] = &[
    ("counts", "let n = 0; for i in 0..100 { n += i; } ticket.figure(\"n\", n, \"n\");"),
    ("refuses", "if order.waist < 20 in { order.refuse(\"waist\", \"too small\"); } ticket.figure(\"n\", 1, \"n\");"),
    ("fails", "ticket.figure(\"n\", order.waist + 1, \"n\");"),
    ("fails_late", "let a = []; a.push(order.waist); ticket.figure(\"n\", a[order.pieces], \"n\");"),
    ("loops", "if order.pieces == 3 { loop {} } ticket.figure(\"n\", 1, \"n\");"),
    ("grows", "if order.pieces == 3 { let t = \"x\"; loop { t += t; } } ticket.figure(\"n\", 1, \"n\");"),
    ("helped", "import \"extra\" as extra; ticket.figure(\"n\", extra::twice(order.waist), \"n\");"),
    ("lost", "import \"nowhere\" as nowhere; ticket.figure(\"n\", 1, \"n\");"),
    ("cautions", "ticket.figure(\"n\", elastic_cut(order.waist, 8 %, 1 in), \"n\"); ticket.step(\"Cut {n}.\");"),
];

fn own(name: &str, make: &str) -> RecipeText {
    let text = format!(
        "//! Something.\n//! contract: 1   version: 1.0   licence: CC0-1.0   for: trim\n\
         fn inputs() {{ [ length(\"waist\", \"waist\").between(5 in, 50 in) ] }}\n\
         fn make(order, ticket) {{ {make} }}\n"
    );
    let helpers = BTreeMap::from([("extra".to_owned(), "fn twice(a) { a + a }".to_owned())]);
    RecipeText { name: name.to_owned(), text, helpers }
}

/// Recipes, each with tasks to draw from.
fn recipes() -> Vec<(RecipeText, Vec<Task>)> {
    let mut recipes: Vec<(RecipeText, Vec<Task>)> = Vec::new();
    for (name, make) in OWN {
        let orders = [("14 in", "1"), ("30 in", "1"), ("30 in", "3"), ("60 in", "1"), ("30", "1"), ("1 in +", "1")];
        let mut tasks: Vec<Task> =
            orders.iter().map(|(waist, pieces)| Task::run([("waist", *waist), ("pieces", *pieces)])).collect();
        tasks.extend([
            Task::Describe,
            Task::run([("waste", "3 in")]),
            Task::run([("waist", "9 in"), ("waist", "9 in")]),
        ]);
        recipes.push((own(name, make), tasks));
    }
    let strips = |waist: &'static str| {
        let answers = [("waist", waist), ("strip", "10 in"), ("gathers", "[6, 5]"), ("tulle", "any_roll(6 in, 25 yd)")];
        Task::run(answers.into_iter().chain([("satin", "any_roll(6 in, 10 yd)"), ("elastic", "any")]))
    };
    let binding = |edge: &'static str| Task::run([("edge", edge), ("cloth", "any 44 in at $6/yd")]);
    let bag =
        |wide: &'static str| Task::run([("wide", wide), ("high", "12 in"), ("cloth", "any 44 in"), ("cord", "any")]);
    let shipped = [
        ("strips_on_band", vec![strips("14 in"), strips("15 in"), strips("1 mm")]),
        ("bias_binding", vec![binding("100 in"), binding("200 in"), binding("3 min")]),
        ("drawstring_bag", vec![bag("9 in"), bag("39 in"), bag("9 in"), Task::Describe]),
    ];
    recipes.extend(shipped.map(|(name, tasks)| (library::shipped(name).unwrap(), tasks)));
    recipes
}

fn bytes(reply: &Reply) -> String {
    serde_json::to_string(reply).unwrap()
}

#[test]
fn a_thousand_runs_in_any_order_are_those_of_fresh_engines() {
    let recipes: Vec<(LoadedRecipe, Vec<Task>)> =
        recipes().into_iter().map(|(text, tasks)| (LoadedRecipe::from(text), tasks)).collect();
    let workshops = [Arc::new(Workshop::default()), Arc::new(demo_workshop())];
    let stop = Arc::new(AtomicBool::new(false));
    let mut open = OpenRecipes::new(Planner::new(Arc::clone(&stop)));
    let mut fresh: BTreeMap<(usize, usize, usize, bool, bool), String> = BTreeMap::new();
    let mut draws = Draws::of(11);
    let mut below = |most: usize| usize::try_from(draws.between(0, i64::try_from(most).unwrap() - 1)).unwrap();
    let (mut ran, mut refused, mut failed) = (0, 0, 0);
    for round in 0..1000 {
        let recipe = below(recipes.len());
        let (loaded, tasks) = &recipes[recipe];
        let task = below(tasks.len());
        let (workshop, plain, stopped) = (below(8) / 7, below(4) == 0, below(20) == 0);
        let wanted = fresh.entry((recipe, task, workshop, plain, stopped)).or_insert_with(|| {
            let stop = Arc::new(AtomicBool::new(stopped));
            bytes(&answer_in(&loaded.text, &workshops[workshop], plain, &tasks[task], stop))
        });
        stop.store(stopped, Ordering::SeqCst);
        let reply = open.answer(loaded, &workshops[workshop], plain, tasks[task].clone());
        assert_eq!(bytes(&reply), *wanted, "run {round} of {}: {:?}", loaded.text.name, tasks[task]);
        match reply {
            Reply::Ran(_) => ran += 1,
            Reply::Refused(_) => refused += 1,
            Reply::Failed(_) => failed += 1,
            _ => {}
        }
    }
    assert!(ran > 200 && refused > 200 && failed > 100, "{ran} ran, {refused} were refused, {failed} failed");
}

#[test]
fn two_recipes_of_one_text_keep_their_names() {
    let mut open = OpenRecipes::default();
    let workshop = Arc::new(Workshop::default());
    for name in ["one", "two", "one"] {
        let recipe = LoadedRecipe::from(own(name, "ticket.figure(\"n\", 1, \"n\");"));
        match open.answer(&recipe, &workshop, false, Task::run([("waist", "9 in")])) {
            Reply::Ran(ticket) => assert_eq!(ticket.recipe, name),
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn more_recipes_than_stay_open_are_answered_all_the_same() {
    let mut open = OpenRecipes::default();
    let workshop = Arc::new(Workshop::default());
    for round in 0..100 {
        let make = format!("ticket.figure(\"n\", {}, \"n\");", round % 40);
        let recipe = LoadedRecipe::from(own("counts", &make));
        match open.answer(&recipe, &workshop, false, Task::run([("waist", "9 in")])) {
            Reply::Ran(ticket) => assert_eq!(ticket.figures[0].value, ticket::TicketValue::Whole(round % 40)),
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn an_order_is_planned_once_for_each_task() {
    let workshop = Arc::new(Workshop::default());
    let style = workshop.settings.style();
    let gores = |skirt: &'static str| {
        let body = [("waist", "28 in"), ("hips", "38 in"), ("skirt", skirt), ("hem_round", "80 in")];
        Task::run(body.into_iter().chain([("cloth", "any 45 in at $6/yd")]))
    };
    let planner = Planner::default();
    let mut open = OpenRecipes::new(planner.clone());
    let recipe = LoadedRecipe::from(library::shipped("gored_skirt").unwrap());
    let mut made = Vec::new();
    for skirt in ["20 in", "21 in", "20 in", "21 in", "22 in"] {
        match open.answer(&recipe, &workshop, false, gores(skirt)) {
            Reply::Ran(made) => {
                let order = WorkshopOrder::new(*made, Arc::clone(&workshop), &style, planner.clone()).unwrap();
                assert!(order.price().unwrap().is_some() && order.leftovers().unwrap().is_empty());
            }
            other => panic!("{other:?}"),
        }
        made.push(planner.made());
    }
    // Asking for leftovers makes no further plan: cloth that is cut off as needed leaves none.
    assert_eq!(made, [1, 2, 2, 2, 3]);
}

fn with_helpers(text: &str, helpers: &[(&str, &str)]) -> RecipeText {
    let helpers = helpers.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect();
    RecipeText { name: "a".to_owned(), text: text.to_owned(), helpers }
}

/// Letters that move from a recipe into its helper, or from one helper to the next, make it another, though all
/// of them together read the same; helpers that import each other are each read once.
#[test]
fn a_fingerprint_tells_one_file_from_the_next() {
    let import = "import \"b\" as b;";
    let print = |text: &str, helpers: &[(&str, &str)]| with_helpers(text, helpers).fingerprint();
    assert_ne!(print(&format!("{import}1"), &[("b", "2")]), print(import, &[("b", "12")]));
    assert_ne!(print(&format!("{import}b 1"), &[("b", "")]), print(import, &[("b", "b 1")]));
    let both = "import \"b\" as b; import \"c\" as c;";
    assert_ne!(print(both, &[("b", "12"), ("c", "3")]), print(both, &[("b", "1"), ("c", "23")]));
    assert_ne!(print(both, &[("b", "1")]), print(both, &[("c", "1")]));
    let round = [("b", "import \"c\" as c;"), ("c", "import \"b\" as b;")];
    assert_eq!(print(import, &round), print(import, &round));
    assert_ne!(print(import, &round), print(import, &round[..1]));
    assert_eq!(print("1", &[]).len(), 64);
    assert!(print("1", &[]).chars().all(|digit| digit.is_ascii_hexdigit()));
    assert_eq!(library::imports(both), ["b", "c"]);
    assert_eq!(library::imports("import b as c; x(\"d\"); import"), [""; 0]);
    assert_eq!(library::imports("import \"b\" as b; 3 inn"), [""; 0]);
}

#[test]
fn a_shipped_recipe_is_one_by_its_text_and_its_name() {
    let shipped = library::shipped("gathered_trim").unwrap();
    assert!(shipped.is_shipped() && LoadedRecipe::from(shipped.clone()).is_shipped);
    // A helper that it does not import is nothing to it.
    let mut more = shipped.clone();
    more.helpers.insert("unread".to_owned(), "1".to_owned());
    assert!(more.is_shipped() && LoadedRecipe::from(more).is_shipped);
    let mut other = shipped.clone();
    other.text.push(' ');
    assert!(!other.is_shipped() && !LoadedRecipe::from(other).is_shipped);
    let renamed = RecipeText { name: "mine".to_owned(), ..shipped };
    assert!(!renamed.is_shipped() && !LoadedRecipe::from(renamed).is_shipped);
    assert!(library::shipped("nosuch").is_none());
}

/// A size is a row of body measures: where a recipe asks for none, it fills nothing.
#[test]
fn an_order_may_say_besides_its_inputs_who_it_is_for() {
    let described = |input: &str| {
        let text = format!(
            "//! Something.\n//! contract: 1   version: 1.0   licence: CC0-1.0   for: trim\n\
             fn inputs() {{ [ {input} ] }}\nfn make(order, ticket) {{ }}\n"
        );
        let recipe = LoadedRecipe::from(with_helpers(&text, &[]));
        let workshop = Arc::new(Workshop::default());
        match OpenRecipes::new(Planner::default()).answer(&recipe, &workshop, false, Task::Describe) {
            Reply::Described(description) => description,
            reply => panic!("{reply:?}"),
        }
    };
    let body = described("length(\"waist\", \"waist\").body(\"waist\").between(5 in, 50 in)");
    let edge = described("length(\"edge\", \"edge\").between(5 in, 50 in)");
    let sizes = Workshop::read(&[("sizes.csv", "size,waist\nPip,51 cm\nWren,53 cm\n")]).unwrap();
    let besides = ["age", "use", "washing", "pieces", "order", "for", "due"];
    let told = body.answered_besides(&sizes);
    assert_eq!(told.iter().map(|(name, ..)| *name).collect::<Vec<_>>(), [&["size"][..], &besides].concat());
    assert_eq!(told[0].2, "Pip or Wren; may be left out");
    assert!(told.iter().all(|(_, question, terms)| !question.is_empty() && !terms.is_empty()), "{told:?}");
    assert_eq!(body.answered_besides(&Workshop::default())[0].2, "none is listed in sizes.csv; may be left out");
    let told = edge.answered_besides(&sizes);
    assert_eq!(told.iter().map(|(name, ..)| *name).collect::<Vec<_>>(), besides);
}
