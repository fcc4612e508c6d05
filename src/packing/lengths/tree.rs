//! Branch and bound on how many lengths of each kind are used, the least bound first.
//!
//! Once every count is whole, the cost is as good as settled; a dive or an exhaustive search then finds the plan or
//! proves that there is none. Method: branching on the number of lengths used, as in G. Belov, G. Scheithauer, "A
//! cutting plane algorithm for the one-dimensional cutting stock problem with multiple stock lengths", 2002 (from
//! memory), without their cuts.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use std::collections::BTreeMap;

use super::construct::Open;
use super::dive::{Dive, Dived};
use super::exhaust::{Exhausted, exhaust};
use super::relax::{Prices, Relaxation, Relaxed};
use super::search::LengthSearch;
use crate::effort::Steps;
use crate::number;
use crate::simplex::Basis;

/// A count this close to a whole number is taken as whole.
const NEAR: f64 = 1e-4;
/// The most open nodes kept.
const MOST_NODES: usize = 3000;

struct Node {
    open: Open,
    basic: Vec<usize>,
    usage: Vec<f64>,
    prices: Prices,
}

/// The open nodes, by bound and age.
struct Tree<'t, 'm> {
    relaxation: Relaxation<'m>,
    search: &'t mut LengthSearch<'m>,
    nodes: BTreeMap<(i64, u64), Node>,
    age: u64,
    /// The least bound among the nodes given up.
    given_up: i64,
}

/// Searches until the plan is proved, nothing is left to search, or only `reserve` steps are left.
pub(super) fn grow<'m>(search: &mut LengthSearch<'m>, root: &Relaxation<'m>, reserve: u64, steps: &mut Steps<'_>) {
    let model = root.model;
    let mut relaxation = Relaxation::new(model, true);
    relaxation.add_all(root);
    let mut open = Open::all(model);
    let pieces: i64 = model.counts.iter().sum();
    for (stock, most) in open.most.iter_mut().enumerate() {
        let cheapest = model.cost(stock, model.lengths.last().copied().unwrap_or(0)).unwrap_or(0);
        let affordable = if cheapest > 0 { search.limit() / cheapest } else { pieces };
        *most = Some(most.unwrap_or(pieces).min(pieces).min(affordable));
    }
    let basis = relaxation.begin(&open);
    let mut tree = Tree { relaxation, search, nodes: BTreeMap::new(), age: 0, given_up: i64::MAX };
    let mut out_of_steps = !tree.plant(basis, open, 0, steps);
    let mut visited = 0_u32;
    while !out_of_steps && !tree.search.is_proved() && steps.left() > reserve {
        let Some(((bound, _), node)) = tree.nodes.pop_first() else { break };
        if bound >= tree.search.limit() {
            tree.nodes.clear();
            break;
        }
        out_of_steps = !tree.visit(bound, node, visited, steps);
        visited += 1;
        if !out_of_steps {
            tree.raise(steps);
        }
    }
    if !out_of_steps {
        tree.raise(steps);
    }
}

/// The most steps of an exhaustive search in a node: one that cannot be branched is settled there or never.
fn most_for_one(left: u64, is_branched: bool) -> u64 {
    if is_branched { (left / 8).min(20_000) } else { left / 4 }
}

/// Whether a node after so many is dived from though its counts are not whole: the first four and every eighth.
fn is_dived(visited: u32) -> bool {
    visited < 4 || visited.is_multiple_of(8)
}

impl Tree<'_, '_> {
    fn raise(&mut self, steps: &Steps<'_>) {
        let least = self.nodes.first_key_value().map_or(i64::MAX, |(&(bound, _), _)| bound);
        self.search.raise(least.min(self.given_up), steps);
    }

    /// Solves a node and keeps it if it may hold a better plan; false when out of steps.
    fn plant(&mut self, mut basis: Basis, open: Open, bound: i64, steps: &mut Steps<'_>) -> bool {
        let mut bound = bound;
        let limit = self.search.limit();
        match self.relaxation.solve(&mut basis, &open, &mut bound, limit, true, steps) {
            Relaxed::LimitReached => true,
            Relaxed::OutOfSteps => false,
            Relaxed::Done => {
                let Some(prices) = self.relaxation.prices.clone() else { return false };
                if self.nodes.len() >= MOST_NODES {
                    self.given_up = self.given_up.min(bound);
                    return true;
                }
                let usage = self.relaxation.usage(&basis);
                self.nodes.insert((bound, self.age), Node { open, basic: basis.basic, usage, prices });
                self.age += 1;
                true
            }
        }
    }

    /// Looks for a plan in a node, and branches it; false when out of steps.
    fn visit(&mut self, bound: i64, node: Node, visited: u32, steps: &mut Steps<'_>) -> bool {
        let rhs = self.relaxation.rhs(&node.open);
        let basis = Basis::resume(&self.relaxation.columns, rhs, node.basic);
        let split = self.split(&node.open, &node.usage);
        let is_whole = node.usage.iter().all(|usage| (usage - usage.round()).abs() < NEAR);
        if is_whole || is_dived(visited) {
            let dive = Dive {
                relaxation: &mut self.relaxation,
                basis: basis.clone(),
                open: node.open.clone(),
                limit: self.search.limit(),
                stray: 0.0,
            };
            match dive.run(&mut self.search.rng, steps) {
                Dived::Better(plan) => self.search.offer(&plan, steps),
                Dived::Nothing => {}
                Dived::OutOfSteps => return false,
            }
        }
        if is_whole {
            while bound < self.search.limit() {
                let most = most_for_one(steps.left(), split.is_some());
                match exhaust(self.search.model, &node.open, &node.prices, self.search.limit(), most, steps) {
                    Exhausted::Found(plan) => self.search.offer(&plan, steps),
                    Exhausted::Nothing => return true,
                    Exhausted::GaveUp => break,
                }
            }
        }
        if bound >= self.search.limit() {
            return true;
        }
        let Some((stock, below)) = split else {
            self.given_up = self.given_up.min(bound);
            return steps.take(1);
        };
        let mut lower = node.open.clone();
        lower.most[stock] = Some(below);
        let mut upper = node.open;
        upper.least[stock] = below + 1;
        for open in [lower, upper] {
            let mut basis = basis.clone();
            basis.rhs = self.relaxation.rhs(&open);
            basis.revalue(&self.relaxation.columns);
            let rows = self.relaxation.columns.rows;
            basis.repair(&self.relaxation.columns, |_| true, 4 * rows + 20);
            if !self.plant(basis, open, bound, steps) {
                return false;
            }
        }
        true
    }

    /// The kind to branch on, and the most of it in the lower branch.
    fn split(&self, open: &Open, usage: &[f64]) -> Option<(usize, i64)> {
        let model = self.search.model;
        let mut best: Option<(f64, usize, i64)> = None;
        for (stock, &usage) in usage.iter().enumerate() {
            let (least, most) = (open.least[stock].max(0), open.most[stock].unwrap_or(0));
            if least >= most {
                continue;
            }
            let part = (usage - usage.floor()).min(usage.ceil() - usage);
            let capacity = number::from_whole(model.capacity(stock).max(1));
            let score = if part > NEAR { (part + 0.1) * capacity } else { -1.0 / capacity };
            let floor = number::nearest_whole(if part > NEAR { usage.floor() } else { usage.round() }).unwrap_or(0);
            // A whole count is separated from the larger of the two ranges beside it.
            let below = if part <= NEAR && floor - least >= most - floor { floor - 1 } else { floor };
            if best.is_none_or(|(other, ..)| score > other) {
                best = Some((score, stock, below.clamp(least, most - 1)));
            }
        }
        best.map(|(_, stock, below)| (stock, below))
    }
}

#[cfg(test)]
mod tests;
