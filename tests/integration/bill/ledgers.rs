//! Checks that the program gives every order that was worked out by hand line by line: pieces, cloth, needs, seams,
//! thread, work, cost and price. No figure comes from the program; see `tests/ledgers/README.md`.

use super::ledger::{Ledger, Line};
use super::order::{Row, Sheet, bill_lines, printed, run};
use super::written::{Amount, sum};
use crate::common::{is_tested, tests_all_recipes};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

pub(super) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/ledgers")
}

fn sorted(folder: &Path) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

/// All ledgers; `LEDGERS` keeps those whose name contains it, and `SHIRR_RECIPES` those of these recipes.
pub(super) fn ledgers() -> Vec<Ledger> {
    let wanted = std::env::var("LEDGERS").unwrap_or_default();
    let folders = sorted(&folder()).into_iter().filter(|path| path.is_dir() && !path.ends_with("workshop"));
    let files = folders.flat_map(|folder| sorted(&folder));
    files
        .map(|path| Ledger::read(&path))
        .filter(|ledger| ledger.name.contains(&wanted) && is_tested(&ledger.recipe))
        .collect()
}

/// Whether all ledgers are read, so that totals over them can be held to.
pub(super) fn reads_all_ledgers() -> bool {
    std::env::var("LEDGERS").is_err() && tests_all_recipes()
}

/// The names of the recipes: the shipped files with a `make`, not the helpers.
fn recipes() -> BTreeSet<String> {
    let files = sorted(&Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes")).into_iter();
    let files = files.filter(|path| path.extension().is_some_and(|end| end == "rhai"));
    let makes = files.filter(|path| std::fs::read_to_string(path).unwrap().contains("fn make("));
    makes.map(|path| path.file_stem().unwrap().to_string_lossy().into_owned()).collect()
}

/// Lines in which ledger and program differ.
#[derive(Default)]
struct Differences(Vec<String>);

impl Differences {
    /// Pairs the lines of both, in any order, and records those without a partner.
    fn pair<'a>(
        &mut self,
        table: &str,
        hand: impl IntoIterator<Item = (String, &'a [Option<Amount>])>,
        program: impl IntoIterator<Item = (String, &'a [Option<Amount>])>,
        described: impl Fn(&str, &[Option<Amount>]) -> String,
    ) {
        let mut left: Vec<_> = program.into_iter().collect();
        for (key, amounts) in hand {
            let same = left.iter().position(|(other, found)| {
                *other == key
                    && found.len() == amounts.len()
                    && found.iter().zip(amounts).all(|pair| match pair {
                        (Some(one), Some(other)) => one.agrees_with(*other),
                        (None, None) => true,
                        _ => false,
                    })
            });
            match same {
                Some(at) => {
                    left.remove(at);
                }
                None => self.0.push(format!("{table}: by hand {}", described(&key, amounts))),
            }
        }
        for (key, amounts) in left {
            self.0.push(format!("{table}: the program has {}", described(&key, amounts)));
        }
    }
}

fn described(key: &str, amounts: &[Option<Amount>]) -> String {
    let amounts = amounts.iter().map(|amount| match amount {
        Some(amount) => match amount.kind {
            super::written::Kind::Length => {
                format!("{:.4} in = {:.4} cm", amount.value / 25.4, amount.value / 10.0)
            }
            kind => format!("{} ({kind:?})", amount.value),
        },
        None => "—".to_owned(),
    });
    format!("{key} [{}]", amounts.collect::<Vec<_>>().join(", "))
}

type Keyed = Vec<(String, Vec<Option<Amount>>)>;

fn borrowed(keyed: &Keyed) -> impl Iterator<Item = (String, &[Option<Amount>])> {
    keyed.iter().map(|(key, amounts)| (key.clone(), amounts.as_slice()))
}

fn count(text: &str) -> Option<Amount> {
    Amount::read(text)
}

/// The lengths in the text of a shape: the radii of a circle, a ring or a part of one.
fn radii(shape: &str) -> Vec<Option<Amount>> {
    let words: Vec<&str> = shape.split([' ', ',']).filter(|word| !word.is_empty()).collect();
    let mut found = Vec::new();
    let mut figure: Vec<&str> = Vec::new();
    for word in words {
        let is_unit = ["in", "cm", "mm"].contains(&word);
        if is_unit && !figure.is_empty() {
            found.push(Amount::read(&format!("{} {word}", figure.join(" "))));
            figure.clear();
        } else if word.starts_with(|letter: char| letter.is_ascii_digit()) {
            figure.push(word);
        } else {
            figure.clear();
        }
    }
    found
}

/// The kind of a shape, in the ledger's words.
fn kind(shape: &str) -> &'static str {
    let known = [
        ("full width", "full width"),
        ("outline", "outline"),
        ("shaped", "outline"),
        ("circle", "round"),
        ("ring", "round"),
    ];
    let known = known.into_iter().find(|(word, _)| shape.contains(word));
    known.map_or(if shape.contains("rectangle") { "rectangle" } else { "round" }, |(_, kind)| kind)
}

fn pieces_by_hand(ledger: &Ledger) -> Keyed {
    let piece = |line: &Line| {
        let shape = line.text("shape");
        let mut amounts = vec![count(line.text("count")), line.amount("along"), line.amount("across")];
        amounts.extend(radii(shape));
        (format!("{} of {}", kind(shape), line.text("of")), amounts)
    };
    ledger.lines("Pieces").iter().map(piece).collect()
}

fn pieces_of(cut_list: &Sheet) -> Keyed {
    let piece = |row: &Row| {
        let shape = row.text("shape");
        let mut amounts = vec![count(row.text("count")), row.amount("along"), row.amount("across")];
        amounts.extend(radii(shape));
        (format!("{} of {}", kind(shape), row.text("material")), amounts)
    };
    cut_list.rows.iter().map(piece).collect()
}

/// Adds up amount, set-up and minutes of each operation.
fn by_operation(rows: impl Iterator<Item = (String, [Option<Amount>; 3])>) -> Keyed {
    let mut operations: BTreeMap<String, [Vec<Amount>; 3]> = BTreeMap::new();
    for (operation, amounts) in rows {
        let sums = operations.entry(operation).or_default();
        for (sum, amount) in sums.iter_mut().zip(amounts) {
            sum.extend(amount);
        }
    }
    let sums = operations.into_iter().map(|(name, amounts)| (name, amounts.into_iter().map(sum).collect::<Vec<_>>()));
    // An operation that is not done takes no time and need not be listed.
    sums.filter(|(_, sums)| !sums.iter().flatten().all(|sum| sum.is_zero())).collect()
}

fn compare(ledger: &Ledger, files: &BTreeMap<String, Sheet>) -> Vec<String> {
    let mut differences = Differences::default();
    let mut pair = |table: &str, hand: &Keyed, program: &Keyed| {
        differences.pair(table, borrowed(hand), borrowed(program), described);
    };
    pair("pieces", &pieces_by_hand(ledger), &pieces_of(&files["cut_list"]));

    let cloths: BTreeSet<&str> = files["cut_list"].rows.iter().map(|row| row.text("material")).collect();
    let sewn: Vec<&Line> = ledger.lines("Thread").iter().filter(|line| line.text("class") == "all").collect();
    let is_thread = |row: &Row| row.text("material").contains("thread");
    let needed = |wanted: &dyn Fn(&Row) -> bool| -> Keyed {
        let rows = files["buy_list"].rows.iter().filter(|row| wanted(row));
        rows.map(|row| (row.text("material").to_owned(), vec![row.amount_beside("needed", "needed unit")])).collect()
    };
    let by_hand = |table: &str, heading: &str| -> Keyed {
        let lines = ledger.lines(table).iter();
        lines.map(|line| (line.text("of").to_owned(), vec![line.amount(heading)])).collect()
    };
    pair("cloth", &by_hand("Cloth", "laid"), &needed(&|row| cloths.contains(row.text("material"))));
    let is_need = |row: &Row| !cloths.contains(row.text("material")) && !is_thread(row);
    pair("needs", &by_hand("Needs", "needed"), &needed(&is_need));
    let all_thread: Keyed = sewn.iter().map(|line| ("thread".to_owned(), vec![line.amount("thread")])).collect();
    let all_wound: Keyed = needed(&is_thread).into_iter().map(|(_, needed)| ("thread".to_owned(), needed)).collect();
    pair("all thread", &all_thread, &all_wound);

    let seam = |class: &str, length: Option<Amount>| (class.to_owned(), vec![length]);
    let is_sewn = |keyed: &(String, Vec<Option<Amount>>)| !keyed.1.iter().flatten().all(|length| length.is_zero());
    let hand = ledger.lines("Seams").iter().map(|line| seam(line.text("class"), line.amount("length")));
    let program = files["stitching"].rows.iter().map(|row| seam(row.text("class"), row.amount("length")));
    pair("seams", &hand.filter(is_sewn).collect(), &program.filter(is_sewn).collect());

    let hand = ledger.lines("Thread").iter().filter(|line| line.text("class") != "all");
    let hand = hand.map(|line| (line.text("class").to_owned(), vec![line.amount("length"), line.amount("thread")]));
    let program = files["thread"].rows.iter();
    let program = program.map(|row| (row.text("class").to_owned(), vec![row.amount("length"), row.amount("thread")]));
    pair("thread", &hand.filter(is_sewn).collect(), &program.filter(is_sewn).collect());

    let hand = ledger.lines("Work").iter().map(|line| {
        (line.text("operation").to_owned(), [line.amount("amount"), line.amount("set-up"), line.amount("minutes")])
    });
    let program = files["minutes"].rows.iter().map(|row| {
        let amounts = [row.amount_beside("amount", "unit"), row.amount("set-up"), row.amount("minutes")];
        (row.text("operation").to_owned(), amounts)
    });
    pair("work", &by_operation(hand), &by_operation(program));

    let hand = ledger.lines("Cost").iter().map(|line| (line.text("line").to_owned(), vec![line.amount("money")]));
    let program = bill_lines(files).into_iter().map(|(line, money)| (line, vec![money]));
    pair("cost", &hand.collect(), &program.collect());
    differences.0
}

#[test]
fn every_order_worked_by_hand_comes_out_line_by_line() {
    let workshop = folder().join("workshop");
    let mut found = Vec::new();
    for ledger in ledgers() {
        let given = ledger.inputs(&["given"]);
        let differences = match run(&ledger.recipe, &given, &workshop) {
            Ok(files) => compare(&ledger, &files),
            Err(message) => vec![format!("the order is turned away: {message}")],
        };
        found.extend(differences.into_iter().map(|difference| format!("{}: {difference}", ledger.name)));
    }
    assert!(found.is_empty(), "hand and program differ:\n{}", found.join("\n"));
}

/// The program takes the usual answers of a ledger where none is given.
#[test]
fn an_order_with_its_usual_answers_said_is_the_order_without_them() {
    let workshop = folder().join("workshop");
    for ledger in ledgers() {
        let Ok(left_out) = run(&ledger.recipe, &ledger.inputs(&["given"]), &workshop) else { continue };
        let stated = run(&ledger.recipe, &ledger.inputs(&["given", "usual"]), &workshop);
        let stated = stated.unwrap_or_else(|message| panic!("{}: with its usual answers: {message}", ledger.name));
        for table in ["cut_list", "stitching", "minutes", "buy_list", "cost", "price_lines", "totals"] {
            let rows = |files: &BTreeMap<String, Sheet>| format!("{:?}", files[table].rows);
            assert_eq!(rows(&left_out), rows(&stated), "{}: {table} with the usual answers said", ledger.name);
        }
    }
}

#[test]
fn every_recipe_has_two_ledgers_that_say_every_input() {
    let ledgers = ledgers();
    if !reads_all_ledgers() {
        return;
    }
    for recipe in recipes() {
        let own: Vec<&Ledger> = ledgers.iter().filter(|ledger| ledger.recipe == recipe).collect();
        assert!(own.len() >= 2, "{recipe} has {} ledgers; two orders worked by hand are due", own.len());
        let described = printed(&["describe", &recipe]);
        let recipe_inputs =
            described.lines().skip_while(|line| !line.is_empty()).take_while(|line| !line.starts_with("shirr"));
        let recipe_inputs = recipe_inputs.filter(|line| !line.starts_with(' ') && !line.is_empty());
        let recipe_inputs = recipe_inputs.map(|line| line.split_whitespace().next().unwrap());
        let recipe_inputs: BTreeSet<&str> = recipe_inputs
            .filter(|name| !["age", "size", "use", "washing", "order", "for", "due"].contains(name))
            .collect();
        assert!(recipe_inputs.contains("pieces") && recipe_inputs.len() > 3, "{recipe} asks {recipe_inputs:?}");
        let more_than_one = own.iter().filter(|ledger| {
            ledger.lines("Order").iter().any(|line| line.text("input") == "pieces" && line.text("value") != "1")
        });
        assert!(more_than_one.count() > 0, "{recipe}: no ledger is of more than one garment");
        for ledger in own {
            let ledger_inputs = ledger.lines("Order").iter().map(|line| line.text("input"));
            // How its goods are washed may be said of any order.
            let ledger_inputs: BTreeSet<&str> = ledger_inputs.filter(|input| *input != "washing").collect();
            assert_eq!(ledger_inputs, recipe_inputs, "{}: the inputs", ledger.name);
            let all: usize =
                ["given", "usual", "same", "left out"].map(|from| ledger.inputs(&[from]).len()).iter().sum();
            assert_eq!(all, ledger.lines("Order").len(), "{}: an input comes from somewhere else", ledger.name);
        }
    }
}

/// Every order of the ledgers, in a workshop with either tape: the notes before cutting and the steps are on the one tape
/// that the head of the sheet names.
#[test]
fn a_sheet_is_on_one_tape() {
    let metric = tempfile::tempdir().unwrap();
    for path in sorted(&folder().join("workshop")) {
        let text = std::fs::read_to_string(&path).unwrap();
        let text = text.replace("tape,inch", "tape,metric").replace("tape step,1/8 in\n", "");
        std::fs::write(metric.path().join(path.file_name().unwrap()), text).unwrap();
    }
    let inch = folder().join("workshop");
    let materials = std::fs::read_to_string(inch.join("materials.csv")).unwrap();
    let names: Vec<String> = materials.lines().skip(1).map(|line| line.split(',').next().unwrap().to_owned()).collect();
    let (mut checked, mut wrong) = (0, Vec::new());
    for ledger in ledgers() {
        for workshop in [inch.as_path(), metric.path()] {
            let answers: Vec<String> =
                ledger.inputs(&["given"]).into_iter().map(|(name, value)| format!("{name}={value}")).collect();
            let arguments = ["--workshop", workshop.to_str().unwrap(), "sheet", &ledger.recipe];
            let arguments: Vec<&str> = arguments.into_iter().chain(answers.iter().map(String::as_str)).collect();
            let sheet = printed(&arguments);
            let other = if sheet.contains("tape: inch") { &["cm", "m"][..] } else { &["in", "yd", "ft"][..] };
            assert!(sheet.contains("\nSew\n") && sheet.contains("\nCUT "), "{}: {sheet}", ledger.name);
            // What is said before cutting, the answers, what to have ready, and the steps. Goods have sizes in their names.
            let sheet = names.iter().fold(sheet, |sheet, name| sheet.replace(name.as_str(), "goods"));
            let part = |from: &str, to: &str| sheet.split(from).nth(1).and_then(|part| part.split(to).next());
            // A measure that is questioned is given as it was typed, with a guess at the tape that was meant.
            let answers = part("page 2 of 2: sewing", "\n\n");
            let said =
                [part("\nNOTE ", "\nSHEET "), answers, part("\nHave ready\n", "\nSew\n"), part("\nSew\n", "\n\n")];
            let words: Vec<&str> = said.into_iter().flatten().flat_map(str::split_whitespace).collect();
            for (at, two) in words.windows(2).enumerate() {
                let is_number = two[0].trim_start_matches('(').ends_with(|c: char| c.is_ascii_digit());
                let unit = two[1].trim_end_matches(|c: char| !c.is_alphanumeric());
                // “24 in all” and “30 in each” are counts, never parts of an inch; machines are set in millimetres on
                // either tape.
                let next = words.get(at + 2).copied().unwrap_or_default();
                let is_count = two[0].chars().all(|c| c.is_ascii_digit()) && two[1] == "in";
                let in_all = is_count && (next.starts_with("all") || next.starts_with("each"));
                if is_number && !in_all && other.contains(&unit) {
                    wrong.push(format!("{}: {}", ledger.name, words[at.saturating_sub(8)..(at + 2)].join(" ")));
                }
            }
            checked += 1;
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(checked > 100 || !reads_all_ledgers(), "{checked}");
}
