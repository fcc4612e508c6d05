//! Checks what every recipe asks against the list beside the ledgers: the least and the most of each answer, the usual
//! one, and when it is asked. A usual answer that slips is cut into cloth before anybody sees it.
//!
//! The list was copied from the recipes and read through: it holds them where they are and proves no value right. Usual
//! answers are common practice, no source; the ranges are the recipes' own.

use crate::common::recipes;
use crate::worked::read;
use shirr::engine::limits::StopFlag;
use shirr::quantity::{Quantity, number};
use shirr::recipe::run::answer_in;
use shirr::recipe::{Input, Reply, Task, library};
use shirr::ticket::TicketValue;
use shirr::workshop::Workshop;
use std::collections::BTreeMap;
use std::path::Path;

const COLUMNS: [&str; 9] =
    ["recipe", "input", "least", "most", "usual", "only if", "may be left out", "same as", "body"];

/// The rows by recipe, each with its cells under their headings.
fn rows() -> BTreeMap<String, Vec<BTreeMap<&'static str, String>>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/ledgers/inputs.csv");
    let mut table = csv::Reader::from_path(path).unwrap();
    assert!(table.headers().unwrap().iter().eq(COLUMNS));
    let mut rows: BTreeMap<String, Vec<_>> = BTreeMap::new();
    for record in table.records() {
        let cells: BTreeMap<&str, String> =
            COLUMNS.into_iter().zip(record.unwrap().iter().map(str::to_owned)).collect();
        rows.entry(cells["recipe"].clone()).or_default().push(cells);
    }
    rows
}

fn is_quantity(found: Quantity, written: &str) -> bool {
    let wanted = read(written);
    found.dimension() == wanted.dimension() && number::is_near(found.steps(), wanted.steps())
}

fn is_value(found: &TicketValue, written: &str) -> bool {
    match found {
        TicketValue::Quantity(quantity) => is_quantity(*quantity, written),
        TicketValue::Whole(count) => count.to_string() == written,
        TicketValue::Text(text) => text == written,
        TicketValue::Flag(flag) => flag.to_string() == written,
        TicketValue::List(values) => {
            let written = written.trim_start_matches('[').trim_end_matches(']');
            let items: Vec<&str> = written.split(", ").collect();
            values.len() == items.len() && values.iter().zip(items).all(|(value, item)| is_value(value, item))
        }
    }
}

/// What of an input is not as it is written.
fn slips(input: &Input, row: &BTreeMap<&str, String>) -> Vec<String> {
    let mut slips = Vec::new();
    let mut hold = |column: &str, holds: bool| {
        if !holds {
            slips.push(format!("{}: {column} is not “{}”: {input:?}", input.name, row[column]));
        }
    };
    let range = input.range;
    for (column, end) in [("least", range.map(|range| range.least)), ("most", range.map(|range| range.most))] {
        hold(column, end.map_or(row[column].is_empty(), |end| is_quantity(end, &row[column])));
    }
    hold("usual", input.usual.as_ref().map_or(row["usual"].is_empty(), |usual| is_value(usual, &row["usual"])));
    let condition = match row["only if"].split_once('=') {
        None => input.only_if.is_none(),
        Some((name, value)) => {
            input.only_if.as_ref().is_some_and(|(other, wanted)| other == name && is_value(wanted, value))
        }
    };
    hold("only if", condition);
    hold("may be left out", input.optional == (row["may be left out"] == "yes"));
    hold("same as", input.same_as.as_deref().unwrap_or_default() == row["same as"]);
    hold("body", input.body.as_deref().unwrap_or_default() == row["body"]);
    slips
}

#[test]
fn every_recipe_asks_what_is_written_of_it() {
    let rows = rows();
    let mut wrong = Vec::new();
    for name in recipes() {
        let recipe = library::shipped(name).unwrap();
        let Reply::Described(description) =
            answer_in(&recipe, &Workshop::default(), false, &Task::Describe, StopFlag::default())
        else {
            panic!("{name} tells nothing")
        };
        let written = &rows[name];
        let asked: Vec<&str> = description.inputs.iter().map(|input| input.name.as_str()).collect();
        let listed: Vec<&str> = written.iter().map(|row| row["input"].as_str()).collect();
        assert_eq!(asked, listed, "{name}");
        for (input, row) in description.inputs.iter().zip(written) {
            wrong.extend(slips(input, row).into_iter().map(|slip| format!("{name}, {slip}")));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(rows.len(), library::shipped_names().count());
}
