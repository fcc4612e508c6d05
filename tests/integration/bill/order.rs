//! Gives one order to the built program and reads the CSV files it leaves.

use super::written::{Amount, Kind, sum};
use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};

/// A CSV file as rows.
#[derive(Clone, Debug, Default)]
pub(super) struct Sheet {
    pub(super) rows: Vec<Row>,
}

/// One row of a CSV file, each field under its heading.
#[derive(Clone, Debug)]
pub(super) struct Row {
    headings: Vec<String>,
    fields: Vec<String>,
}

impl Sheet {
    pub(super) fn read(text: &str) -> Self {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let headings: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
        let rows = reader.records().map(|record| {
            let fields = record.unwrap().iter().map(str::to_owned).collect();
            Row { headings: headings.clone(), fields }
        });
        Self { rows: rows.collect() }
    }
}

impl Row {
    /// The text under a heading.
    pub(super) fn text(&self, heading: &str) -> &str {
        let at = self.headings.iter().position(|known| known == heading);
        at.and_then(|at| self.fields.get(at)).unwrap_or_else(|| panic!("no “{heading}” in {:?}", self.headings))
    }

    /// The figure under a heading that ends with its unit, as `length (yd)`; `None` if the field is empty.
    pub(super) fn amount(&self, heading: &str) -> Option<Amount> {
        let units = ["in", "yd", "mm", "cm", "m", "min", "$", "€", "%"];
        let unit = units.into_iter().find(|unit| self.headings.contains(&format!("{heading} ({unit})")));
        let unit = unit.unwrap_or_else(|| panic!("no “{heading}” with a unit in {:?}", self.headings));
        let field = self.text(&format!("{heading} ({unit})"));
        let unit = if unit == "€" { "$" } else { unit };
        Amount::in_unit(field, unit).or_else(|| {
            assert!(field.is_empty(), "“{field}” is no figure");
            None
        })
    }

    /// The figure under one heading with the unit under another.
    pub(super) fn amount_beside(&self, heading: &str, unit: &str) -> Option<Amount> {
        Amount::in_unit(self.text(heading), self.text(unit))
    }

    /// The money under a heading.
    pub(super) fn money(&self, heading: &str) -> Option<Amount> {
        self.amount(heading).inspect(|amount| assert_eq!(amount.kind, Kind::Money))
    }
}

/// The lines of a bill from the first material to the price: those of the cost, those from the cost to the price, and
/// the totals. Checks first that each table of money adds up to its total, and that no total is a row of it.
pub(super) fn bill_lines(files: &BTreeMap<String, Sheet>) -> Vec<(String, Option<Amount>)> {
    let lines = |table: &str| -> Vec<(String, Option<Amount>)> {
        let rows = files[table].rows.iter();
        rows.map(|row| (row.text("line").to_owned(), row.money("money"))).collect()
    };
    let (cost, raised, outside) = (lines("cost"), lines("price_lines"), lines("not_in_price"));
    let total = |name: &str| {
        let row = files["totals"].rows.iter().find(|row| row.text("total") == name)?;
        row.amount_beside("amount", "unit")
    };
    for (table, lines, name) in [
        ("cost", &cost, "cost"),
        ("price_lines", &raised, "price"),
        ("not_in_price", &outside, "goods with an empty shelf"),
    ] {
        assert!(lines.iter().all(|(line, _)| line != name), "{table} counts its total");
        let money: Vec<Amount> = lines.iter().filter_map(|(_, money)| *money).collect();
        match total(name) {
            Some(total) => assert!(sum(money.clone()).unwrap().agrees_with(total), "{table}: {money:?}, not {total:?}"),
            None => assert!(money.is_empty(), "{table} has no total"),
        }
    }
    let (first, raised) = raised.split_first().map_or((None, raised.as_slice()), |(first, rest)| (Some(first), rest));
    assert_eq!(first.is_some(), total("cost").is_some());
    if let Some((line, money)) = first {
        assert!(line == "cost" && money.unwrap().agrees_with(total("cost").unwrap()), "{line}: {money:?}");
    }
    let totals = |name: &'static str| total(name).map(|amount| (name.to_owned(), Some(amount)));
    let raised = raised.iter().cloned();
    let ends = totals("price").into_iter().chain(totals("price for one garment"));
    cost.into_iter().chain(totals("cost")).chain(raised).chain(ends).collect()
}

/// The result of a run: its CSV files by name without extension, or its error output if the order was refused.
pub(super) type Ran = Result<BTreeMap<String, Sheet>, String>;

/// Runs an order in a workshop and reads what `--csv` leaves.
pub(super) fn run(recipe: &str, given: &[(String, String)], workshop: &Path) -> Ran {
    run_in(tempfile::tempdir().unwrap().path(), recipe, given, workshop)
}

/// Runs an order from a folder that may hold a recipe of its own.
pub(super) fn run_in(here: &Path, recipe: &str, given: &[(String, String)], workshop: &Path) -> Ran {
    let given = given.iter().map(|(name, value)| format!("{name}={value}"));
    let out = tempfile::tempdir().unwrap();
    let done = Command::new(env!("CARGO_BIN_EXE_shirr"))
        .current_dir(here)
        .env("SHIRR_STATE", here.join("state"))
        .env("SHIRR_DATA", here.join("data"))
        .args(["run", recipe, "--workshop"])
        .arg(workshop)
        .args(given)
        .arg("--csv")
        .arg(out.path())
        .stdin(Stdio::null())
        .output()
        .unwrap();
    if !done.status.success() {
        return Err(String::from_utf8_lossy(&done.stderr).into_owned());
    }
    let files = std::fs::read_dir(out.path()).unwrap().map(|entry| entry.unwrap().path());
    let files = files.filter(|path| path.extension().is_some_and(|end| end == "csv"));
    Ok(files
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (name, Sheet::read(&std::fs::read_to_string(path).unwrap()))
        })
        .collect())
}

/// What the program prints for a command.
pub(super) fn printed(arguments: &[&str]) -> String {
    let here = tempfile::tempdir().unwrap();
    let done = Command::new(env!("CARGO_BIN_EXE_shirr"))
        .current_dir(here.path())
        .env("SHIRR_STATE", here.path())
        .args(arguments)
        .stdin(Stdio::null())
        .output()
        .unwrap();
    assert!(done.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8(done.stdout).unwrap()
}
