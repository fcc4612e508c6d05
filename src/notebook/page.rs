//! Cells that recompute when one changes.
//!
//! Order on the page does not matter: a change recomputes exactly the cells that read it, directly or
//! through others, and a cell that fails stops nobody else.

use crate::engine::{Expression, Fault, Host, value};
use crate::quantity::Style;
use rhai::{Dynamic, Scope};
use std::collections::{BTreeMap, BTreeSet};

/// What happened to one cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The cell.
    pub name: String,
    /// Its value as shown, or what is wrong with it.
    pub now: Result<String, Fault>,
    /// What it was before, where it was something else.
    pub was: Option<String>,
}

#[derive(Debug)]
struct Cell {
    expression: Expression,
    value: Result<Dynamic, Fault>,
}

/// The cells of one page.
#[derive(Debug, Default)]
pub struct Page {
    cells: BTreeMap<String, Cell>,
    that: Option<Dynamic>,
}

/// The name of the last answer.
const THAT: &str = "that";

impl Page {
    /// Works out an expression, which is then known as `that`.
    pub fn answer(&mut self, host: &Host, typed: &str) -> Result<String, Fault> {
        let expression = Expression::compile(host, typed)?;
        let value = self.worked_out(host, &expression)?;
        let shown = shown(&value, &host.style())?;
        self.that = Some(value);
        Ok(shown)
    }

    /// Gives a cell its expression; what changed is told in the order in which it was worked out.
    pub fn set(&mut self, host: &Host, name: &str, typed: &str) -> Result<Vec<Change>, Fault> {
        if name == THAT {
            return Err(Fault::new("“that” is the last answer and cannot be given a value"));
        }
        if crate::engine::functions::named(name).is_some() {
            return Err(Fault::new(format!("“{name}” is the name of a function")).hinting("give the cell another name"));
        }
        let expression = Expression::compile(host, typed)?;
        if let Some(path) = self.circle(name, &expression) {
            return Err(Fault::new(format!("the cells would go round in a circle: {}", path.join(" → "))));
        }
        let before = self.cells.get(name).map(|cell| cell.value.clone());
        let value = self.worked_out(host, &expression);
        self.cells.insert(name.to_owned(), Cell { expression, value });
        let style = host.style();
        let mut changes = vec![self.change(name, before, &style)];
        for dependent in self.dependents(name) {
            let Some(cell) = self.cells.get(&dependent) else { continue };
            let before = Some(cell.value.clone());
            let value = self.worked_out(host, &cell.expression);
            if let Some(cell) = self.cells.get_mut(&dependent) {
                cell.value = value;
            }
            // A cell that can be worked out again is news as much as one with another value.
            let failed = before.as_ref().is_some_and(Result::is_err);
            let change = self.change(&dependent, before, &style);
            if change.was.is_some() || change.now.is_err() || failed {
                changes.push(change);
            }
        }
        Ok(changes)
    }

    /// The names of its cells.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.cells.keys().map(String::as_str)
    }

    fn change(&self, name: &str, before: Option<Result<Dynamic, Fault>>, style: &Style) -> Change {
        let now = match self.cells.get(name).map(|cell| &cell.value) {
            Some(Ok(value)) => shown(value, style),
            Some(Err(fault)) => Err(fault.clone()),
            None => Err(Fault::new("there is no such cell")),
        };
        let was = before.and_then(|value| value.and_then(|value| shown(&value, style)).ok());
        let was = was.filter(|was| now.as_ref() != Ok(was));
        Change { name: name.to_owned(), now, was }
    }

    /// The cells an expression reads that are cells of this page.
    fn reads<'p>(&'p self, expression: &'p Expression) -> impl Iterator<Item = &'p str> {
        expression.names().into_iter().filter(|name| self.cells.contains_key(*name))
    }

    fn worked_out(&self, host: &Host, expression: &Expression) -> Result<Dynamic, Fault> {
        let mut scope = Scope::new();
        for (name, cell) in &self.cells {
            match &cell.value {
                Ok(value) => {
                    scope.push_constant_dynamic(name.as_str(), value.clone());
                }
                // The first fault is told where it is; who reads it only says whom it waits for.
                Err(fault) if expression.names().contains(name.as_str()) => {
                    let waits = Fault::new(format!("it waits for “{name}”, which cannot be worked out"));
                    return Err(Fault { stopped: fault.stopped, ..waits });
                }
                Err(_) => {}
            }
        }
        if let Some(that) = &self.that {
            scope.push_constant_dynamic(THAT, that.clone());
        }
        expression.evaluate(host, &mut scope)
    }

    /// The path by which a cell would read itself.
    fn circle(&self, name: &str, expression: &Expression) -> Option<Vec<String>> {
        let mut path = vec![name.to_owned()];
        let start: Vec<String> = expression.names().into_iter().map(str::to_owned).collect();
        self.leads_to(name, &start, &mut path, &mut BTreeSet::new()).then_some(path)
    }

    fn leads_to(&self, target: &str, reads: &[String], path: &mut Vec<String>, seen: &mut BTreeSet<String>) -> bool {
        for read in reads {
            if read == target {
                path.push(target.to_owned());
                return true;
            }
            let Some(cell) = self.cells.get(read).filter(|_| seen.insert(read.clone())) else { continue };
            path.push(read.clone());
            let next: Vec<String> = self.reads(&cell.expression).map(str::to_owned).collect();
            if self.leads_to(target, &next, path, seen) {
                return true;
            }
            path.pop();
        }
        false
    }

    /// Every cell that reads `name`, directly or through others, each after those it reads.
    fn dependents(&self, name: &str) -> Vec<String> {
        let mut reached = BTreeSet::from([name.to_owned()]);
        loop {
            let more: Vec<String> = self
                .cells
                .iter()
                .filter(|(other, cell)| {
                    !reached.contains(*other) && self.reads(&cell.expression).any(|read| reached.contains(read))
                })
                .map(|(other, _)| other.clone())
                .collect();
            if more.is_empty() {
                break;
            }
            reached.extend(more);
        }
        reached.remove(name);
        let mut ordered: Vec<String> = Vec::new();
        while ordered.len() < reached.len() {
            let ready = reached.iter().find(|other| {
                !ordered.contains(other)
                    && self.cells.get(*other).is_some_and(|cell| {
                        self.reads(&cell.expression)
                            .all(|read| !reached.contains(read) || ordered.iter().any(|o| o == read))
                    })
            });
            match ready {
                Some(ready) => ordered.push(ready.clone()),
                None => break,
            }
        }
        ordered
    }
}

fn shown(value: &Dynamic, style: &Style) -> Result<String, Fault> {
    if value.is_unit() {
        return Err(Fault::new("this gives nothing to show"));
    }
    value::show(value, style).ok_or_else(|| Fault::new(format!("{} cannot be shown here", value::noun(value))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::limits::{Limits, StopFlag};
    use crate::quantity::Reading;

    fn host() -> Host {
        Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default())
    }

    fn told(changes: &[Change]) -> Vec<String> {
        let told = changes.iter().map(|change| {
            let now = change.now.clone().unwrap_or_else(|fault| fault.message);
            format!("{} {now} was {}", change.name, change.was.as_deref().unwrap_or("-"))
        });
        told.collect()
    }

    #[test]
    fn a_change_reaches_exactly_its_readers_in_order() {
        let (host, mut page) = (host(), Page::default());
        page.set(&host, "waist", "56 cm").unwrap();
        page.set(&host, "band", "waist + 10 in").unwrap();
        page.set(&host, "twice", "band * 2").unwrap();
        page.set(&host, "other", "3 in").unwrap();
        let changes = page.set(&host, "waist", "60 cm").unwrap();
        assert_eq!(
            told(&changes),
            ["waist 60 cm was 56 cm", "band 85.4 cm was 81.4 cm", "twice 170.8 cm was 162.8 cm"]
        );
    }

    #[test]
    fn a_circle_is_refused_with_its_path() {
        let (host, mut page) = (host(), Page::default());
        page.set(&host, "a", "1 in").unwrap();
        page.set(&host, "b", "a * 2").unwrap();
        let fault = page.set(&host, "a", "b + 1 in").unwrap_err();
        assert_eq!(fault.message, "the cells would go round in a circle: a → b → a");
        assert_eq!(page.answer(&host, "a").unwrap(), "1 in");
    }

    #[test]
    fn a_failing_cell_stops_only_its_readers() {
        let (host, mut page) = (host(), Page::default());
        page.set(&host, "a", "1 in").unwrap();
        page.set(&host, "b", "4 in / a").unwrap();
        page.set(&host, "c", "b + 1").unwrap();
        page.set(&host, "d", "a * 2").unwrap();
        let changes = page.set(&host, "a", "0 in").unwrap();
        assert_eq!(
            told(&changes),
            [
                "a 0 in was 1 in",
                "b nothing can be divided by zero was 4",
                "c it waits for “b”, which cannot be worked out was 5",
                "d 0 in was 2 in"
            ]
        );
    }
}
