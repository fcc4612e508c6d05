//! Checks every row of `tests/worked/*.csv`: a published or reckoned sum that a formula must give.
//!
//! `counts` is `yes` only if inputs and result are both in a source that was read. A source's slip is kept as a known
//! misprint beside the exact value, and the exact value is tested; such a row is no published value that comes out, and
//! neither proves a formula that only adds, or converts a unit: these are counted apart. In `source`, the place within the work follows a
//! semicolon.

use crate::worked_formulas::{Arguments, FORMULAS, Resize};
use shirr::quantity::literal::{self, LiteralValue, Reading};
use shirr::quantity::{Quantity, number};
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

const COLUMNS: [&str; 9] =
    ["id", "formula", "inputs", "expected", "tolerance", "source", "read", "counts", "known misprint"];

struct Row {
    topic: String,
    cells: BTreeMap<&'static str, String>,
}

impl Row {
    fn get(&self, column: &str) -> &str {
        &self.cells[column]
    }
}

pub(crate) fn read(text: &str) -> Quantity {
    match literal::read_quantity(text, Reading::default()) {
        Ok(LiteralValue::Quantity(quantity)) => quantity,
        other => panic!("{text}: {other:?}"),
    }
}

fn rows() -> Vec<Row> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/worked");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let mut rows = Vec::new();
    for path in paths.iter().filter(|path| path.extension().is_some_and(|ending| ending == "csv")) {
        let topic = path.file_stem().unwrap().to_str().unwrap();
        let mut table = csv::Reader::from_path(path).unwrap();
        assert!(table.headers().unwrap().iter().eq(COLUMNS), "{topic}: columns");
        for record in table.records() {
            let record = record.unwrap();
            let cells = COLUMNS.into_iter().zip(record.iter().map(str::to_owned)).collect();
            rows.push(Row { topic: topic.to_owned(), cells });
        }
    }
    rows
}

fn is_met(found: Quantity, wanted: Quantity, tolerance: &str) -> bool {
    if found.dimension() != wanted.dimension() {
        return false;
    }
    match tolerance {
        "" => number::is_near(found.steps(), wanted.steps()),
        tolerance => (found.steps() - wanted.steps()).abs() <= read(tolerance).steps() * (1.0 + 1e-9),
    }
}

#[test]
fn every_row_comes_out() {
    let mut failures = Vec::new();
    for row in rows() {
        let id = row.get("id");
        let (_, formula) = FORMULAS
            .iter()
            .find(|(name, _)| *name == row.get("formula"))
            .unwrap_or_else(|| panic!("{id}: no formula {}", row.get("formula")));
        let arguments = Arguments::read(row.get("inputs"));
        match formula(&arguments) {
            Ok(found) if !is_met(found, read(row.get("expected")), row.get("tolerance")) => {
                failures.push(format!("{id}: {found:?}, not {}", row.get("expected")));
            }
            Ok(_) => {}
            Err(error) => failures.push(format!("{id}: {}", error.words())),
        }
        assert_eq!(arguments.unread(), Vec::<String>::new(), "{id}: inputs no argument of the formula");
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// Formulas that take negative inputs: rounding and conversion to another unit.
const OF_EITHER_SIGN: [&str; 7] =
    ["rounded_up", "rounded_down", "rounded_nearest", "up", "down", "nearest", "converted"];

#[test]
fn no_formula_takes_less_than_nothing() {
    let rows = rows();
    let mut failures = Vec::new();
    for (name, formula) in FORMULAS.iter().filter(|(name, _)| !OF_EITHER_SIGN.contains(name)) {
        let row = rows.iter().find(|row| row.get("formula") == *name).unwrap_or_else(|| panic!("{name}: no row"));
        for input in Arguments::read(row.get("inputs")).sizes() {
            let below = |size: f64| if size == 0.0 { -1.0 } else { -size };
            let error = match formula(&Arguments::resized(row.get("inputs"), &input, below)) {
                Ok(found) => {
                    failures.push(format!("{name} takes a negative {input} and answers {found:?}"));
                    continue;
                }
                Err(error) => error.words().to_owned(),
            };
            // The formula takes the passes as one list; here they are two inputs.
            let named = if *name == "passes_together" { "passes" } else { &input.replace('_', " ") };
            // The message must blame this input, not another that it conflicts with.
            if !error.starts_with(&format!("{named} is ")) {
                failures.push(format!("{name}, negative {input}: {error}"));
            }
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

#[test]
fn no_formula_answers_without_a_number() {
    let rows = rows();
    // A conversion is no formula of the trade: an infinite value stays infinite.
    for (name, formula) in FORMULAS.iter().filter(|(name, _)| *name != "converted") {
        let row = rows.iter().find(|row| row.get("formula") == *name).unwrap_or_else(|| panic!("{name}: no row"));
        for input in Arguments::read(row.get("inputs")).sizes() {
            let endless: [Resize; 3] = [|_| f64::INFINITY, |_| f64::NEG_INFINITY, |_| 0.0];
            for size in endless {
                if let Ok(found) = formula(&Arguments::resized(row.get("inputs"), &input, size)) {
                    assert!(found.steps().is_finite() && size(1.0) == 0.0, "{name}, {input}: {found:?}");
                }
            }
        }
    }
}

#[test]
fn a_misprint_is_kept_only_where_it_differs() {
    for row in rows().iter().filter(|row| !row.get("known misprint").is_empty()) {
        let (printed, exact) = (read(row.get("known misprint")), read(row.get("expected")));
        assert!(!is_met(printed, exact, row.get("tolerance")), "{}: the printed value is met", row.get("id"));
    }
}

#[test]
fn rows_say_where_they_are_from() {
    let mut ids = BTreeSet::new();
    for row in rows() {
        let id = row.get("id");
        assert!(ids.insert(id.to_owned()), "{id} is there twice");
        assert!(id.starts_with(&row.topic), "{id} stands in {}", row.topic);
        assert!(!row.get("source").is_empty(), "{id}: no source");
        assert!(["read", "from memory", "own arithmetic"].contains(&row.get("read")), "{id}: read");
        assert!(["yes", "no"].contains(&row.get("counts")), "{id}: counts");
        assert!(row.get("counts") == "no" || row.get("read") == "read", "{id} counts though nobody read it");
    }
}

#[test]
fn every_formula_has_a_row() {
    let rows = rows();
    let used: BTreeSet<&str> = rows.iter().map(|row| row.get("formula")).collect();
    let without: Vec<_> = FORMULAS.iter().map(|(name, _)| *name).filter(|name| !used.contains(name)).collect();
    assert_eq!(without, Vec::<&str>::new());
}

/// Formulas that add or take away and do nothing else: published, but no proof of a formula.
const ADDITIONS: [&str; 4] = ["cut_size", "finished_size", "buttonhole", "circle_outer_radius"];
/// Formulas that are one addition with this input.
const ADDITIONS_WITH: [(&str, &str); 1] = [("pleat_take_up", "count=1")];
const CONVERSIONS: [&str; 1] = ["converted"];

/// How a row counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Group {
    /// The printed value comes out.
    ComesOut,
    /// The source prints another value than its own figures give.
    Misprint,
    Addition,
    Conversion,
    /// Not published, or not read.
    OnlyChecks,
}

fn group(row: &Row) -> Group {
    let formula = row.get("formula").split(' ').next().unwrap();
    let has = |wanted: &str| row.get("inputs").split("; ").any(|input| input == wanted);
    if row.get("counts") != "yes" {
        Group::OnlyChecks
    } else if !row.get("known misprint").is_empty() {
        Group::Misprint
    } else if ADDITIONS.contains(&formula) || ADDITIONS_WITH.iter().any(|(name, input)| *name == formula && has(input))
    {
        Group::Addition
    } else if CONVERSIONS.contains(&formula) {
        Group::Conversion
    } else {
        Group::ComesOut
    }
}

/// What there is; fewer would be a loss. At most three values count of a formula and source, so that no source carries it
/// alone. `scripts/count-values` prints the groups.
#[test]
fn enough_values_from_enough_sources() {
    const NOT_CLOTH: [&str; 6] = ["units", "price", "rounding", "rules", "sizes", "thread"];
    let mut taken: BTreeMap<(String, String), usize> = BTreeMap::new();
    let (mut values, mut cloth, mut sources) = (0, 0, BTreeSet::new());
    let mut groups: BTreeMap<Group, usize> = BTreeMap::new();
    for row in rows() {
        *groups.entry(group(&row)).or_default() += 1;
        if group(&row) != Group::ComesOut {
            continue;
        }
        let formula = row.get("formula").split(' ').next().unwrap().to_owned();
        // The place within the work follows a semicolon.
        let source = row.get("source").split(';').next().unwrap().to_owned();
        let so_far = taken.entry((formula, source.clone())).or_default();
        *so_far += 1;
        if *so_far <= 3 {
            values += 1;
            cloth += usize::from(!NOT_CLOTH.contains(&row.topic.as_str()));
            sources.insert(source);
        }
    }
    assert!(values >= 135 && cloth >= 90, "{values} values, {cloth} of them cloth formulas; {groups:?}");
    assert!(sources.len() >= 50, "{} sources", sources.len());
    let apart = [Group::Misprint, Group::Addition, Group::Conversion].map(|group| groups[&group]);
    assert!(apart.iter().all(|count| *count > 5), "misprints, additions, conversions: {apart:?}");
}

/// The script that prints the groups has the same lists.
#[test]
fn the_script_counts_by_the_same_lists() {
    let script = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("scripts/count-values");
    let script = std::fs::read_to_string(script).unwrap();
    let list = |names: &[&str]| names.iter().map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", ");
    let with = ADDITIONS_WITH.map(|(name, input)| format!("\"{name}\": \"{input}\"")).join(", ");
    for line in [
        format!("\nADDITIONS = {{{}}}\n", list(&ADDITIONS)),
        format!("\nADDITIONS_WITH = {{{with}}}\n"),
        format!("\nCONVERSIONS = {{{}}}\n", list(&CONVERSIONS)),
    ] {
        assert!(script.contains(&line), "scripts/count-values has not{line}");
    }
}
