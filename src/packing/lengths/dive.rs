//! Diving from a fractional to a whole plan: fixes the most used fillings and relaxes the rest again, down to the
//! last piece.
//!
//! Method: diving on columns as in R. Sadykov, F. Vanderbeck, A. Pessoa, I. Tahiri, E. Uchoa, "Primal heuristics for
//! branch and price: the assets of diving methods", 2019 (from memory), with random choices in place of their
//! limited discrepancies.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use std::collections::VecDeque;

use super::construct::{Filling, Open, construct};
use super::exhaust::{Exhausted, exhaust};
use super::model::Load;
use super::relax::{Relaxation, Relaxed};
use crate::effort::Steps;
use crate::number;
use crate::simplex::Basis;

/// How often a dive backtracks: a plain one, and one that strays or has several kinds of stock, where a new dive
/// works better.
const RETURNS: [u32; 2] = [24, 3];
/// The most fillings tried at one choice.
const TRIES: usize = 3;
/// The most table entries of choices kept for backtracking.
const REMEMBERED: usize = 4_000_000;
/// The most open pieces for which a dive searches exhaustively.
const FEW: i64 = 24;
/// The most steps of such a search.
const EXHAUSTING: u64 = 400;

/// How a dive ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Dived {
    /// Found a plan that costs less than the limit.
    Better(Vec<Load>),
    /// Found none.
    Nothing,
    /// Ran out of steps.
    OutOfSteps,
}

/// A dive from a solved relaxation of what is open.
pub(super) struct Dive<'d, 'm> {
    pub(super) relaxation: &'d mut Relaxation<'m>,
    pub(super) basis: Basis,
    pub(super) open: Open,
    /// Only plans that cost less are accepted.
    pub(super) limit: i64,
    /// How far choices stray at random from the most used filling.
    pub(super) stray: f64,
}

/// A choice to backtrack to: the state before it, and the columns already tried.
struct Choice {
    basis: Basis,
    open: Open,
    fixed: usize,
    spent: i64,
    tried: Vec<usize>,
}

/// How many choices are kept for backtracking, each with a square of so many rows.
fn most_choices(rows: usize) -> usize {
    (REMEMBERED / (rows.pow(2) + 1)).max(2)
}

/// How often a dive backtracks that strays so far, with so many ways to cut a length.
fn returns(stray: f64, lots: usize) -> u32 {
    RETURNS[usize::from(stray > 0.0 || lots > 1)]
}

impl Dive<'_, '_> {
    pub(super) fn run(mut self, rng: &mut fastrand::Rng, steps: &mut Steps<'_>) -> Dived {
        let mut fixed: Vec<Load> = Vec::new();
        let mut spent = 0_i64;
        let mut choices: VecDeque<Choice> = VecDeque::new();
        let most_choices = most_choices(self.relaxation.columns.rows);
        let mut returns = returns(self.stray, self.relaxation.model.lots.len());
        self.relaxation.prices = None; // Prices of another dive do not fit the open pieces of this one.
        loop {
            spent += self.fix_whole(&mut fixed, rng);
            if let Some(plan) = self.finish(&fixed, spent, steps) {
                return Dived::Better(plan);
            }
            let is_dead = self.open.is_done() || spent >= self.limit;
            match if is_dead { Exhausted::Nothing } else { self.exhaust(spent, steps) } {
                Exhausted::Found(rest) => return Dived::Better(fixed.into_iter().chain(rest).collect()),
                Exhausted::GaveUp => {
                    if choices.len() >= most_choices {
                        choices.pop_front();
                    }
                    let (basis, open) = (self.basis.clone(), self.open.clone());
                    choices.push_back(Choice { basis, open, fixed: fixed.len(), spent, tried: Vec::new() });
                }
                Exhausted::Nothing => {}
            }
            // Take the next filling, or backtrack and take another.
            loop {
                let Some(choice) = choices.back_mut() else { return Dived::Nothing };
                if !choice.tried.is_empty() || is_dead {
                    if returns == 0 {
                        return Dived::Nothing;
                    }
                    returns -= 1;
                    self.basis.clone_from(&choice.basis);
                    self.open.clone_from(&choice.open);
                    fixed.truncate(choice.fixed);
                    spent = choice.spent;
                }
                let next = if choice.tried.len() < TRIES { self.next(&choice.tried, rng) } else { None };
                let Some(column) = next else {
                    choices.pop_back();
                    continue;
                };
                choice.tried.push(column);
                spent += self.fix(column, 1, &mut fixed);
                self.rest();
                let relaxed = if spent >= self.limit { Relaxed::LimitReached } else { self.relax(spent, steps) };
                match relaxed {
                    Relaxed::Done => break,
                    Relaxed::LimitReached => {}
                    Relaxed::OutOfSteps => return Dived::OutOfSteps,
                }
            }
        }
    }

    /// Constructs the rest greedily; returns the plan if it costs less than the limit.
    fn finish(&self, fixed: &[Load], spent: i64, steps: &mut Steps<'_>) -> Option<Vec<Load>> {
        let model = self.relaxation.model;
        for filling in [Filling::Longest, Filling::Fullest] {
            steps.take(2 + number::from_work(self.open.counts.len() / 50));
            let mut open = self.open.clone();
            if let Some(rest) = construct(model, &mut open, filling)
                && spent + model.total(&rest) < self.limit
            {
                return Some(fixed.iter().cloned().chain(rest).collect());
            }
        }
        None
    }

    /// Searches exhaustively if only few pieces are open.
    fn exhaust(&self, spent: i64, steps: &mut Steps<'_>) -> Exhausted {
        match &self.relaxation.prices {
            Some(prices) if self.open.counts.iter().sum::<i64>() <= FEW => {
                let prices = prices.clone().for_open(&self.open);
                exhaust(self.relaxation.model, &self.open, &prices, self.limit - spent, EXHAUSTING, steps)
            }
            _ => Exhausted::GaveUp,
        }
    }

    /// Fixes the whole part of every level, in a dive that strays sometimes one less; returns the cost. Prices stay
    /// valid, since only levels and demands change.
    fn fix_whole(&mut self, fixed: &mut Vec<Load>, rng: &mut fastrand::Rng) -> i64 {
        let mut cost = 0;
        let mut columns: Vec<(usize, i64)> = Vec::new();
        for (position, &column) in self.basis.basic.iter().enumerate() {
            let times = number::nearest_whole((self.basis.level[position] + 1e-4).floor()).unwrap_or(0);
            if times > 0 && self.relaxation.column(column).is_some() {
                let spared = self.stray > 0.0 && rng.bool();
                columns.push((column, times - i64::from(spared)));
            }
        }
        for (column, times) in columns {
            cost += self.fix(column, times, fixed);
        }
        self.rest();
        cost
    }

    fn fix(&mut self, column: usize, times: i64, fixed: &mut Vec<Load>) -> i64 {
        let Some(filling) = self.relaxation.column(column) else { return 0 };
        let stock = self.relaxation.model.lots[filling.lot].stock;
        let times = times.min(self.open.times(stock, &filling.cuts));
        if times > 0 {
            self.open.take(stock, &filling.cuts, times);
            fixed.push(Load { stock, cuts: filling.cuts.clone(), times });
        }
        filling.cost * times
    }

    fn rest(&mut self) {
        self.basis.rhs = self.relaxation.rhs(&self.open);
        self.basis.revalue(&self.relaxation.columns);
    }

    /// The filling to round up next.
    fn next(&self, tried: &[usize], rng: &mut fastrand::Rng) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for (position, &column) in self.basis.basic.iter().enumerate() {
            let level = self.basis.level[position];
            let is_filling = level > 1e-4 && self.relaxation.column(column).is_some() && !tried.contains(&column);
            if is_filling && self.relaxation.is_proper(column, &self.open) {
                let score = level + self.stray * rng.f64();
                if best.is_none_or(|(other, _)| score > other) {
                    best = Some((score, column));
                }
            }
        }
        best.map(|(_, column)| column)
    }

    /// Solves the relaxation for what is still open.
    fn relax(&mut self, spent: i64, steps: &mut Steps<'_>) -> Relaxed {
        let columns = &mut self.relaxation.columns;
        let rows = columns.rows;
        self.basis.repair(columns, |_| true, 4 * rows + 20);
        // Fillings that need more than is open get a penalty while this program is solved.
        let improper: Vec<usize> = (columns.own()..columns.len())
            .filter(|&column| self.basis.is_in(column) && !self.relaxation.is_proper(column, &self.open))
            .collect();
        let columns = &mut self.relaxation.columns;
        let costs: Vec<f64> = improper.iter().map(|&column| columns.cost[column]).collect();
        for &column in &improper {
            columns.cost[column] += 1e3;
        }
        if !improper.is_empty() {
            self.basis.revalue(columns);
        }
        let mut bound = 0;
        let relaxed = self.relaxation.solve(&mut self.basis, &self.open, &mut bound, self.limit - spent, false, steps);
        for (&column, cost) in improper.iter().zip(costs) {
            self.relaxation.columns.cost[column] = cost;
        }
        relaxed
    }
}

#[cfg(test)]
mod tests;
