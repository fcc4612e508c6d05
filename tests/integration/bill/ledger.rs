//! A ledger: one order worked out by hand, as a page of plain tables. `tests/ledgers/README.md` tells how to write one.

use super::written::Amount;
use std::collections::BTreeMap;
use std::path::Path;

/// One order, worked out by hand.
pub(super) struct Ledger {
    /// `recipe/order`, as the files are named.
    pub(super) name: String,
    pub(super) recipe: String,
    tables: BTreeMap<String, Vec<Line>>,
}

/// A line of a table, each cell under its heading.
#[derive(Clone, Debug)]
pub(super) struct Line(BTreeMap<String, String>);

/// The tables with their columns.
const TABLES: [(&str, &[&str]); 10] = [
    ("Order", &["input", "value", "from"]),
    ("Pieces", &["piece", "of", "count", "shape", "along", "across", "working"]),
    ("Cloth", &["of", "laid", "working"]),
    ("Needs", &["of", "needed", "working"]),
    ("Seams", &["class", "length", "seam", "working"]),
    ("Thread", &["class", "length", "thread", "working"]),
    ("Work", &["operation", "amount", "set-up", "minutes", "working"]),
    ("Cost", &["line", "money", "working"]),
    ("Marks", &["piece", "mark", "distance", "from", "working"]),
    ("Steps", &["step", "says", "working"]),
];

impl Ledger {
    /// Reads a ledger; panics with what is wrong in it.
    pub(super) fn read(path: &Path) -> Self {
        let stem = |path: &Path| path.file_stem().unwrap().to_string_lossy().into_owned();
        let recipe = stem(path.parent().unwrap());
        let name = format!("{recipe}/{}", stem(path));
        let text = std::fs::read_to_string(path).unwrap();
        let mut tables: BTreeMap<String, Vec<Line>> = BTreeMap::new();
        let mut headings: Vec<String> = Vec::new();
        let mut table = String::new();
        for line in text.lines() {
            if let Some(title) = line.strip_prefix("## ") {
                title.trim().clone_into(&mut table);
                headings.clear();
            } else if let Some(cells) = line.strip_prefix('|').filter(|_| TABLES.iter().any(|(name, _)| *name == table))
            {
                let cells: Vec<&str> = cells.trim_end().trim_end_matches('|').split('|').map(str::trim).collect();
                if headings.is_empty() {
                    headings = cells.into_iter().map(str::to_owned).collect();
                    let (_, wanted) = TABLES.iter().find(|(name, _)| *name == table).unwrap();
                    assert_eq!(headings, *wanted, "{name}: the columns of {table}");
                    assert!(tables.insert(table.clone(), Vec::new()).is_none(), "{name} has two tables “{table}”");
                } else if !cells.iter().all(|cell| cell.chars().all(|letter| "-: ".contains(letter))) {
                    assert_eq!(cells.len(), headings.len(), "{name}, {table}: {line}");
                    let cells = headings.iter().cloned().zip(cells.into_iter().map(str::to_owned));
                    tables.get_mut(&table).unwrap().push(Line(cells.collect()));
                }
            }
        }
        for (table, _) in TABLES {
            assert!(tables.contains_key(table), "{name} has no table “{table}”; one without lines has its headings");
        }
        Self { name, recipe, tables }
    }

    pub(super) fn lines(&self, table: &str) -> &[Line] {
        &self.tables[table]
    }

    /// The inputs whose values come from one of `from`: given, usual, same, or left out.
    pub(super) fn inputs(&self, from: &[&str]) -> Vec<(String, String)> {
        let lines = self.lines("Order").iter().filter(|line| from.contains(&line.text("from")));
        lines.map(|line| (line.text("input").to_owned(), line.text("value").to_owned())).collect()
    }
}

impl Line {
    /// The text under a heading.
    pub(super) fn text(&self, heading: &str) -> &str {
        &self.0[heading]
    }

    /// The amount under a heading; `None` if the cell is empty or a dash.
    pub(super) fn amount(&self, heading: &str) -> Option<Amount> {
        let text = self.text(heading);
        let amount = Amount::read(text);
        assert!(amount.is_some() || text.is_empty() || text == "—", "“{text}” under “{heading}” is no amount");
        amount
    }
}
