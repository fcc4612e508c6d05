//! Recomputation: a change reaches exactly the cells that read what changed, each once and in order.
//!
//! A cell whose value stays the same ends the propagation there. A failed cell does not stop the others; cells
//! that depend on it name the first that failed. If stopped, the caller can restore what had changed by then.

use super::change::{CellResult, Change, unchanged};
use super::formula::Formula;
use super::graph::{Graph, Node};
use super::line::Line;
use super::objects::check_plan;
use super::page::{LineRole, Page, Tools};
use super::world::{EvalContext, Source, Stage, World};
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use rhai::{Dynamic, Scope};
use std::collections::BTreeSet;

/// The results of cells before they were recomputed.
pub(super) type PreviousResults = Vec<(Node, Option<CellResult>)>;

impl Page {
    /// Recomputes cells and all that read them. Returns the previous result of each cell that changed or was
    /// typed. If stopped while `can_restore` is set, the error carries those so far, so that the caller can
    /// restore them.
    pub(super) fn recompute(
        &mut self,
        tools: &mut Tools<'_>,
        dirty: &[Node],
        can_restore: bool,
    ) -> Result<PreviousResults, (Box<Diagnostic>, PreviousResults)> {
        let cells = &self.cells;
        let rank = |node: Node| cells.get(Graph::index(node)).and_then(|cell| cell.line).unwrap_or(0);
        let (ordered, cycles) = self.graph.affected(dirty, rank);
        let mut stale: Vec<bool> = vec![false; self.graph.len()];
        for node in dirty {
            if let Some(stale) = stale.get_mut(Graph::index(*node)) {
                *stale = true;
            }
        }
        // Always report the typed line, even if its value is unchanged.
        let typed: BTreeSet<Node> = dirty.iter().copied().collect();
        let mut scope = Scope::new();
        let mut previous = PreviousResults::new();
        for node in cycles {
            let error = Diagnostic::new("this cell needs itself").hinting("give one of them its value anew");
            if let Some(cell) = self.cells.get_mut(Graph::index(node)) {
                cell.first_failed = None;
                previous.push((node, cell.result.replace(Err(Box::new(error)))));
            }
            for reader in self.graph.readers(node) {
                if let Some(stale) = stale.get_mut(Graph::index(reader)) {
                    *stale = true;
                }
            }
        }
        for node in ordered {
            let is_stale = stale.get(Graph::index(node)).is_some_and(|stale| *stale);
            if !is_stale {
                continue;
            }
            let (result, first_failed) = self.evaluate_cell(tools, node, &mut scope);
            if let Some(Err(error)) = result.as_ref().filter(|_| can_restore)
                && error.is_stop()
            {
                return Err((error.clone(), previous));
            }
            let Some(cell) = self.cells.get_mut(Graph::index(node)) else { continue };
            cell.first_failed = first_failed;
            let before = std::mem::replace(&mut cell.result, result);
            let same = unchanged(before.as_ref(), cell.result.as_ref());
            if !same {
                for reader in self.graph.readers(node) {
                    if let Some(stale) = stale.get_mut(Graph::index(reader)) {
                        *stale = true;
                    }
                }
            }
            if !same || typed.contains(&node) {
                previous.push((node, before));
            }
        }
        Ok(previous)
    }

    pub(super) fn changes_of(&self, changed: PreviousResults) -> Vec<Change> {
        changed.into_iter().filter_map(|(node, before)| self.change_of(node, before)).collect()
    }

    pub(super) fn change_of(&self, node: Node, before: Option<CellResult>) -> Option<Change> {
        let cell = self.at(node)?;
        if cell.line.is_none() && before.is_none() {
            return None;
        }
        let name = cell.condition.clone().unwrap_or_else(|| self.graph.name(node).to_owned());
        Some(Change { name, is_condition: cell.condition.is_some(), now: cell.result.clone(), before })
    }

    fn evaluate_cell(
        &self,
        tools: &mut Tools<'_>,
        node: Node,
        scope: &mut Scope<'static>,
    ) -> (Option<CellResult>, Option<Node>) {
        let Some(formula) = self.at(node).and_then(|cell| cell.formula.as_ref()) else { return (None, None) };
        match self.evaluate_with(tools, formula, self.graph.reads(node), scope, &|_| None) {
            Ok(value) => match check_plan(&value) {
                Ok(()) => (Some(Ok(value)), None),
                Err(error) => (Some(Err(Box::new(error))), None),
            },
            Err((error, first_failed)) => (Some(Err(error)), first_failed),
        }
    }

    /// Evaluates a formula with the cells it reads; `overrides` may replace their results for this time. An error
    /// carries the first failed cell that the formula depends on, if any.
    pub(super) fn evaluate_with<'w>(
        &self,
        tools: &mut Tools<'_>,
        formula: &Formula,
        reads: &[Node],
        scope: &mut Scope<'static>,
        overrides: &dyn Fn(Node) -> Option<&'w CellResult>,
    ) -> Result<Dynamic, (Box<Diagnostic>, Option<Node>)> {
        self.fill_scope(reads, scope, overrides)?;
        self.fill_from_workshop(&mut *tools.world, formula, scope);
        let names = || self.names().map(str::to_owned).collect();
        let stage = Stage::Planned;
        let mut with = EvalContext { host: tools.host, world: &mut *tools.world, scope, names: &names, stage };
        formula.evaluate(&mut with).map_err(|error| (Box::new(error), None))
    }

    /// Puts the cells that a formula reads into its scope; fails at the first one that failed.
    pub(super) fn fill_scope<'w>(
        &self,
        reads: &[Node],
        scope: &mut Scope<'static>,
        overrides: &dyn Fn(Node) -> Option<&'w CellResult>,
    ) -> Result<(), (Box<Diagnostic>, Option<Node>)> {
        scope.clear();
        for read in reads {
            let Some(cell) = self.at(*read) else { continue };
            match overrides(*read).or(cell.result.as_ref()) {
                Some(Ok(value)) => {
                    scope.push_constant_dynamic(self.graph.name(*read), value.clone());
                }
                // The error is shown at its own cell; a reader only names the cell it waits for.
                Some(Err(error)) => {
                    let first = cell.first_failed.unwrap_or(*read);
                    let name = self.graph.name(first);
                    let waits = Diagnostic::new(format!("needs {name}, and {name} has an error"));
                    let waits = if error.is_stop() { waits.of_kind(DiagnosticKind::Stopped) } else { waits };
                    return Err((Box::new(waits), Some(first)));
                }
                None => {}
            }
        }
        Ok(())
    }

    /// Puts the values of the workshop that a formula reads into its scope, under names that no cell has.
    pub(super) fn fill_from_workshop(&self, world: &mut dyn World, formula: &Formula, scope: &mut Scope<'static>) {
        for name in formula.names().into_iter().filter(|name| self.cell(name).is_none()) {
            if let Some(value) = world.workshop_value(name).filter(|value| formula.takes_from_workshop(name, value)) {
                scope.push_constant_dynamic(name, value);
            }
        }
    }

    /// Evaluates a sum with the cells of the page; the page does not change.
    pub fn answer(&self, tools: &mut Tools<'_>, sum: &str) -> Result<Dynamic, Diagnostic> {
        let formula = Formula::compile(tools.host, &Line::Expression(sum.to_owned()));
        let Some(formula) = formula else { return Err(Diagnostic::new("nothing is written here")) };
        self.evaluate(tools, &formula?)
    }

    pub(super) fn evaluate(&self, tools: &mut Tools<'_>, formula: &Formula) -> Result<Dynamic, Diagnostic> {
        let reads: Vec<Node> = formula.names().into_iter().filter_map(|name| self.graph.find(name)).collect();
        let mut scope = Scope::new();
        self.evaluate_with(tools, formula, &reads, &mut scope, &|_| None).map_err(|(error, _)| *error)
    }

    /// Recomputes what depends on the given sources outside the page.
    pub fn sources_changed(&mut self, tools: &mut Tools<'_>, sources: &[Source]) -> Vec<Change> {
        let nodes: Vec<Node> = sources.iter().filter_map(|source| self.graph.find(&source.node_name())).collect();
        let dirty: BTreeSet<Node> = nodes.iter().flat_map(|node| self.graph.readers(*node)).collect();
        let dirty: Vec<Node> = dirty.into_iter().collect();
        self.recompute(tools, &dirty, true).map(|changed| self.changes_of(changed)).unwrap_or_default()
    }

    /// What the page depends on outside itself.
    pub fn sources(&self) -> BTreeSet<Source> {
        self.cells.iter().filter_map(|cell| cell.formula.as_ref()).flat_map(Formula::sources).collect()
    }

    /// Recomputes every cell, in order.
    pub fn recompute_all(&mut self, tools: &mut Tools<'_>) -> Vec<Change> {
        let nodes = self.entries.values().filter_map(|entry| match entry.role {
            LineRole::Fills(node) => Some(node),
            _ => None,
        });
        let dirty: Vec<Node> = nodes.collect();
        self.recompute(tools, &dirty, true).map(|changed| self.changes_of(changed)).unwrap_or_default()
    }
}
