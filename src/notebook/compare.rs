//! Compares two pages cell by cell.

use super::line;
use super::listing::formula_text;
use super::page::{LineRole, Page, Tools};
use super::value::shown;
use crate::diagnostic::{Diagnose, Diagnostic};
use crate::quantity::Style;
use crate::report::excerpt;
use crate::table::{Cell as Field, Table, TableError};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// The parts of a line that are compared: its formula as typed, and its value as shown.
struct Line {
    formula_text: String,
    value: String,
}

/// Returns the differences between two pages as a table, empty if there are none. `one` and `other` are the
/// headings for their values.
pub fn compare(
    tools: &mut Tools<'_>,
    (one, page): (&str, &Page),
    (other, with): (&str, &Page),
) -> Result<Table, Diagnostic> {
    let style = tools.host.style();
    let (left_order, left) = lines(page, tools, &style);
    let (right_order, right) = lines(with, tools, &style);
    // In the order of the second page; lines that only the first has come last.
    let only_left = left_order.iter().filter(|key| !right.contains_key(*key));
    let mut rows = Vec::new();
    for key in right_order.iter().chain(only_left) {
        let (before, now) = (left.get(key), right.get(key));
        let same = match (before, now) {
            (Some(before), Some(now)) => before.formula_text == now.formula_text && before.value == now.value,
            _ => false,
        };
        if same {
            continue;
        }
        let value = |line: Option<&Line>| line.map_or_else(|| "is not there".to_owned(), |line| line.value.clone());
        let formula_text = match (before, now) {
            (Some(before), Some(now)) if before.formula_text == now.formula_text => now.formula_text.clone(),
            (Some(before), Some(now)) => format!("{} → {}", before.formula_text, now.formula_text),
            (Some(line), None) | (None, Some(line)) => line.formula_text.clone(),
            (None, None) => String::new(),
        };
        rows.push([key.clone(), value(before), value(now), formula_text]);
    }
    table(one, other, rows).map_err(|error| Diagnostic::new(error.message(&style)))
}

fn table(one: &str, other: &str, rows: Vec<[String; 4]>) -> Result<Table, TableError> {
    let mut table = Table::new("differences").text("name").text(one).text(other).text("how").ready()?;
    for row in rows {
        table.push(row.map(Field::Text).to_vec())?;
    }
    Ok(table)
}

/// The lines of a page by the cell they fill, or else by their own text; also these keys in page order.
fn lines(page: &Page, tools: &mut Tools<'_>, style: &Style) -> (Vec<String>, BTreeMap<String, Line>) {
    let mut order = Vec::new();
    let mut found = BTreeMap::new();
    for entry in page.entries.values() {
        let line = line::read(&entry.text, tools.host.reading());
        let formula_text = formula_text(&line);
        let (key, value) = match &entry.role {
            LineRole::Fills(node) => {
                let Some(cell) = page.at(*node) else { continue };
                let value = match &cell.result {
                    Some(Ok(_)) if cell.condition.is_some() => "holds".to_owned(),
                    Some(Ok(value)) => shown(value, style).unwrap_or_else(|error| excerpt::headline(&error)),
                    Some(Err(error)) => excerpt::headline(error),
                    None => String::new(),
                };
                let name =
                    if cell.condition.is_some() { formula_text.clone() } else { page.graph.name(*node).to_owned() };
                (name, value)
            }
            LineRole::Invalid(error) => (formula_text.clone(), excerpt::headline(error)),
            LineRole::Inert | LineRole::Answer if !entry.text.trim().is_empty() => {
                (entry.text.trim().to_owned(), "is there".to_owned())
            }
            LineRole::Inert | LineRole::Answer => continue,
        };
        if let Entry::Vacant(vacant) = found.entry(key) {
            order.push(vacant.key().clone());
            vacant.insert(Line { formula_text, value });
        }
    }
    (order, found)
}
