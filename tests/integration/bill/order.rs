//! Gives one order to the built program and reads the CSV files it leaves.

use super::written::{Amount, Kind};
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
