//! The stages of the search: constructions, a cheap bound, the relaxation, dives, the tree, more dives, tidying.

use super::construct::{Filling, Open, construct};
use super::dive::{Dive, Dived};
use super::exhaust::{Exhausted, exhaust};
use super::finish;
use super::model::{Load, Model};
use super::relax::{Prices, Relaxation, Relaxed};
use super::{tidy, tree};
use crate::effort::{Progress, Steps};
use crate::problem::Unsolved;
use crate::solution::LengthSolution;

/// With more different items, only the constructions run.
const MOST_ITEMS: usize = 700;

/// Steps reserved for tidying the plan at the end.
const TIDYING: u64 = 3000;

/// The best plan and bound so far.
pub(super) struct LengthSearch<'m> {
    pub(super) model: &'m Model,
    pub(super) rng: fastrand::Rng,
    best: Option<(i64, Vec<Load>)>,
    bound: i64,
}

/// The steps that the tree leaves to later dives: with several ways to cut a length most of the gain is in their counts.
fn reserve(left: u64, lots: usize) -> u64 {
    if lots > 1 { left / 10 } else { left / 2 }
}

/// The most steps of one exhaustive search: a quarter of all.
fn most_for_one(left: u64) -> u64 {
    (left / 4).min(20_000)
}

/// How far a dive strays after one that strayed so far: a fifth more, and after the whole again from a tenth.
fn next_stray(stray: f64) -> f64 {
    if stray > 0.9 { 0.1 } else { stray + 0.2 }
}

impl<'m> LengthSearch<'m> {
    pub(super) fn new(model: &'m Model, seed: u64) -> Self {
        Self { model, rng: fastrand::Rng::with_seed(seed), best: None, bound: 0 }
    }

    pub(super) fn run(&mut self, steps: &mut Steps<'_>) {
        self.look(steps);
        if let Some((cost, plan)) = &mut self.best {
            let tidied = tidy::tidy(self.model, plan, TIDYING, steps);
            let less = self.model.total(&tidied);
            // Tidying may also merge leftovers into one long enough to be kept.
            if less <= *cost {
                (*cost, *plan) = (less, tidied);
            }
        }
    }

    fn look(&mut self, steps: &mut Steps<'_>) {
        for filling in [Filling::Longest, Filling::Fullest] {
            let mut open = Open::all(self.model);
            if let Some(plan) = construct(self.model, &mut open, filling) {
                self.offer(&plan, steps);
            }
        }
        self.raise(self.length_bound(), steps);
        if self.is_proved() || self.model.lengths.len() > MOST_ITEMS || !steps.take(1) {
            return;
        }
        let open = Open::all(self.model);
        let mut relaxation = Relaxation::new(self.model, false);
        if let Some((_, plan)) = &self.best {
            relaxation.add_plan(plan);
        }
        let mut basis = relaxation.begin(&open);
        let mut bound = self.bound;
        let relaxed = relaxation.solve(&mut basis, &open, &mut bound, self.limit(), false, steps);
        self.raise(bound, steps);
        if relaxed != Relaxed::Done {
            return;
        }
        let mut stray = 0.0;
        let mut round = 0_u32;
        while !self.is_proved() && steps.take(1) && steps.left() > TIDYING {
            let dive = Dive {
                relaxation: &mut relaxation,
                basis: basis.clone(),
                open: open.clone(),
                limit: self.limit(),
                stray,
            };
            match dive.run(&mut self.rng, steps) {
                Dived::Better(plan) => self.offer(&plan, steps),
                Dived::Nothing => {}
                Dived::OutOfSteps => break,
            }
            if round == 0 && !self.is_proved() {
                // The exhaustive search needs the best prices.
                let relaxed = relaxation.solve(&mut basis, &open, &mut bound, self.limit(), true, steps);
                self.raise(bound, steps);
                if relaxed == Relaxed::Done
                    && let Some(prices) = &relaxation.prices
                {
                    self.exhaust(&open, prices, steps);
                }
                if !self.is_proved() {
                    tree::grow(self, &relaxation, reserve(steps.left(), self.model.lots.len()), steps);
                }
            }
            round += 1;
            stray = next_stray(stray);
        }
    }

    /// Searches exhaustively for better plans, within a share of the steps.
    fn exhaust(&mut self, open: &Open, prices: &Prices, steps: &mut Steps<'_>) {
        let most = most_for_one(steps.left());
        while !self.is_proved() {
            match exhaust(self.model, open, prices, self.limit(), most, steps) {
                Exhausted::Found(plan) => self.offer(&plan, steps),
                Exhausted::Nothing => self.raise(self.limit(), steps),
                Exhausted::GaveUp => break,
            }
        }
    }

    pub(super) fn limit(&self) -> i64 {
        self.best.as_ref().map_or(i64::MAX, |(cost, _)| *cost)
    }

    pub(super) fn is_proved(&self) -> bool {
        self.best.as_ref().is_some_and(|(cost, _)| *cost <= self.bound)
    }

    pub(super) fn raise(&mut self, bound: i64, steps: &Steps<'_>) {
        let bound = bound.min(self.limit());
        if bound > self.bound {
            self.bound = bound;
            self.report(steps);
        }
    }

    pub(super) fn offer(&mut self, plan: &[Load], steps: &Steps<'_>) {
        let settled = finish::settle(self.model, plan);
        let cost = self.model.total(&settled);
        if cost < self.limit() {
            self.best = Some((cost, settled));
            self.report(steps);
        }
    }

    fn report(&self, steps: &Steps<'_>) {
        if let Some((best, _)) = self.best {
            let unit = self.model.cost_unit;
            steps.report(Progress { best: best * unit, bound: self.bound * unit });
        }
    }

    /// Lower bound: all pieces at the least cost per length of any lot.
    fn length_bound(&self) -> i64 {
        let whole = self.model.whole_length();
        let lots = self.model.lots.iter().filter(|lot| lot.capacity > 0);
        let bound = |lot: &super::model::Lot| {
            let cost = whole.checked_mul(i128::from(lot.base))?;
            let capacity = i128::from(lot.capacity);
            let kept = whole.checked_mul(i128::from(lot.slope))?;
            Some(cost.div_euclid(capacity) + i128::from(cost.rem_euclid(capacity) > 0) + kept)
        };
        let least = lots.map(bound).try_fold(i128::MAX, |least, bound| Some(least.min(bound?)));
        least.and_then(|bound| i64::try_from(bound).ok()).unwrap_or(0).max(0)
    }

    pub(super) fn solution(self) -> Result<LengthSolution, Unsolved> {
        let Some((cost, plan)) = self.best else {
            let wanted = self.model.sources.iter().flatten().copied().collect();
            return Err(Unsolved::Missing { pieces: wanted, proved: false });
        };
        if let Some(artificial) = self.model.artificial {
            let artificial_cost = self.model.cost(artificial, 0).unwrap_or(i64::MAX);
            if cost >= artificial_cost {
                let missing = finish::name(self.model, &plan).into_iter().filter(|pattern| pattern.stock == artificial);
                let mut pieces: Vec<(usize, i64)> = Vec::new();
                for pattern in missing {
                    for (item, count) in pattern.cuts {
                        pieces.push((item, count * pattern.times));
                    }
                }
                pieces.sort_unstable();
                pieces.dedup_by(|next, last| {
                    let same = next.0 == last.0;
                    if same {
                        last.1 += next.1;
                    }
                    same
                });
                return Err(Unsolved::Missing { pieces, proved: self.bound >= artificial_cost });
            }
        }
        let unit = self.model.cost_unit;
        Ok(LengthSolution {
            patterns: finish::name(self.model, &plan),
            cost: cost * unit,
            bound: self.bound * unit,
            proved: cost <= self.bound,
        })
    }
}

#[cfg(test)]
mod tests;
