//! Exhaustive search for a plan below a limit, length by length: each takes the longest piece left, in every filling
//! that the prices allow.
//!
//! At exact prices a plan costs a known amount plus the regrets of its fillings, none of which is negative. A filling
//! with more regret than the slack left below the limit is pruned. Failed states are remembered.

use std::collections::BTreeMap;

use super::ceiling::Ceiling;
use super::construct::Open;
use super::model::{Load, Model};
use super::relax::Prices;
use crate::effort::Steps;
use crate::number;

/// Entries of a ceiling table, about.
const TABLE: i64 = 400_000;
/// The most fillings at one node; with more the search gives up.
const MOST_FILLINGS: usize = 4000;
/// The most failed states remembered.
const MOST_MEMORIES: usize = 60_000;
/// The most lengths in a plan: the recursion goes one deeper with each.
const DEEPEST: usize = 600;

/// How an exhaustive search ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Exhausted {
    Found(Vec<Load>),
    /// There is no plan below the limit.
    Nothing,
    /// Out of steps, or the problem is too large.
    GaveUp,
}

struct Exhaust<'e, 's, 'w> {
    model: &'e Model,
    prices: &'e Prices,
    open: Open,
    /// For each slope of a lot, the most value of the items from each one on.
    ceilings: Vec<(i64, Ceiling)>,
    plan: Vec<Load>,
    limit: i64,
    failed: BTreeMap<(Vec<i64>, Vec<Option<i64>>), i128>,
    steps: &'s mut Steps<'w>,
    /// Set if kept ends have no value: then only fillings without room for another open piece are needed.
    is_plain: bool,
    work: u64,
    /// Steps this search may still take.
    left: u64,
    gave_up: bool,
}

struct Choice {
    regret: i128,
    lot: usize,
    used: i64,
    cuts: Vec<(usize, i64)>,
}

/// Searches for a plan for the open pieces that costs less than `limit`, or proves that there is none.
///
/// Takes at most `most` steps.
pub(super) fn exhaust(
    model: &Model,
    open: &Open,
    prices: &Prices,
    limit: i64,
    most: u64,
    steps: &mut Steps<'_>,
) -> Exhausted {
    let slack = i128::from(limit - 1) * i128::from(prices.rate) - prices.bound;
    if slack < 0 {
        return Exhausted::Nothing;
    }
    let ceilings = ceilings(model, open, prices, steps);
    let is_plain = model.lots.iter().all(|lot| lot.slope == 0);
    let mut search = Exhaust {
        model,
        prices,
        open: open.clone(),
        ceilings,
        plan: Vec::new(),
        limit,
        failed: BTreeMap::new(),
        steps,
        is_plain,
        work: 0,
        left: most,
        gave_up: false,
    };
    if search.deepen(slack) {
        Exhausted::Found(search.plan)
    } else if search.gave_up {
        Exhausted::GaveUp
    } else {
        Exhausted::Nothing
    }
}

fn ceilings(model: &Model, open: &Open, prices: &Prices, steps: &mut Steps<'_>) -> Vec<(i64, Ceiling)> {
    let mut ceilings: Vec<(i64, Ceiling)> = Vec::new();
    for lot in &model.lots {
        if ceilings.iter().all(|(slope, _)| *slope != lot.slope) {
            let value = |(price, length): (&i64, &i64)| price - lot.slope * length * prices.rate;
            let values: Vec<i64> = prices.items.iter().zip(&model.lengths).map(value).collect();
            let capacity = model.lots.iter().filter(|other| other.slope == lot.slope).map(|other| other.capacity).max();
            let mut ceiling = Ceiling::default();
            steps.take(ceiling.build(&model.lengths, &open.counts, &values, capacity.unwrap_or(0), TABLE));
            ceilings.push((lot.slope, ceiling));
        }
    }
    ceilings
}

impl Exhaust<'_, '_, '_> {
    fn deepen(&mut self, slack: i128) -> bool {
        let Some(item) = self.open.counts.iter().position(|&count| count > 0) else {
            // Unused lengths that carry a charge cost more than the regrets say.
            return self.model.total(&self.plan) < self.limit;
        };
        if self.plan.len() >= DEEPEST {
            self.gave_up = true;
            return false;
        }
        self.step(24);
        let state = (self.open.counts.clone(), self.open.most.clone());
        if self.failed.get(&state).is_some_and(|&failed| failed >= slack) {
            return false;
        }
        let mut choices = Vec::new();
        for lot in 0..self.model.lots.len() {
            self.fill(lot, item, slack, &mut choices);
            if self.gave_up {
                return false;
            }
        }
        choices.sort_by(|left, right| left.regret.cmp(&right.regret).then(right.used.cmp(&left.used)));
        for choice in choices {
            let Some(stock) = self.model.lots.get(choice.lot).map(|lot| lot.stock) else { continue };
            self.open.take(stock, &choice.cuts, 1);
            self.plan.push(Load { stock, cuts: choice.cuts, times: 1 });
            if self.deepen(slack - choice.regret) {
                return true;
            }
            if let Some(load) = self.plan.pop() {
                self.open.take(stock, &load.cuts, -1);
            }
            if self.gave_up {
                return false;
            }
        }
        if self.failed.len() < MOST_MEMORIES {
            self.failed.insert(state, slack);
        }
        false
    }

    /// Takes `eighths` of a step.
    fn step(&mut self, eighths: u64) {
        self.work += eighths;
        let whole = self.work / 8;
        if whole > 0 {
            self.work %= 8;
            self.left = self.left.saturating_sub(whole);
            self.gave_up |= !self.steps.take(whole) || self.left == 0;
        }
    }

    /// Collects all fillings of a lot that contain the item and have no more regret than the slack.
    fn fill(&mut self, lot: usize, item: usize, slack: i128, choices: &mut Vec<Choice>) {
        let Some(way) = self.model.lots.get(lot).cloned() else { return };
        if self.open.most.get(way.stock).copied().flatten().is_some_and(|most| most <= 0) {
            return;
        }
        let charge = self.prices.charges.get(way.stock).copied().unwrap_or(0);
        let regret = i128::from(way.base) * i128::from(self.prices.rate) + i128::from(charge);
        let slope = i128::from(way.slope) * i128::from(self.prices.rate);
        let mut cuts = Vec::new();
        let ceiling = self.ceilings.iter().position(|(slope, _)| *slope == way.slope).unwrap_or(0);
        let task = Task { lot, ceiling, first: item, slope, slack };
        self.add(&task, item, way.capacity, regret, &mut cuts, choices);
    }

    fn add(
        &mut self,
        task: &Task,
        from: usize,
        capacity: i64,
        regret: i128,
        cuts: &mut Vec<(usize, i64)>,
        choices: &mut Vec<Choice>,
    ) {
        self.step(1);
        let Some(item) = (from..self.open.counts.len())
            .find(|&item| self.open.count(item) > 0 && self.model.length(item) <= capacity)
        else {
            if regret <= task.slack && !cuts.is_empty() && !self.is_wasteful(cuts, capacity) {
                if choices.len() >= MOST_FILLINGS {
                    self.gave_up = true;
                    return;
                }
                let used = self.model.used(cuts);
                choices.push(Choice { regret: regret.max(0), lot: task.lot, used, cuts: cuts.clone() });
            }
            return;
        };
        if from == task.first && item != task.first {
            return;
        }
        // Prune if even the most value of the remaining room leaves too much regret.
        let most = self.ceilings.get(task.ceiling).map_or(0.0, |(_, ceiling)| ceiling.most(item, capacity));
        if regret - number::nearest_whole(most).map_or(i128::MAX / 2, i128::from) > task.slack {
            return;
        }
        let length = self.model.length(item);
        let most = self.open.count(item).min(capacity / length);
        let price = i128::from(self.prices.items.get(item).copied().unwrap_or(0));
        let least = i64::from(item == task.first);
        for count in (least..=most).rev() {
            let regret = regret - (price - task.slope * i128::from(length)) * i128::from(count);
            if count > 0 {
                cuts.push((item, count));
            }
            self.add(task, item + 1, capacity - count * length, regret, cuts, choices);
            if count > 0 {
                cuts.pop();
            }
            if self.gave_up {
                return;
            }
        }
    }

    /// Whether another open piece would fit: a plan with the fuller filling is no worse.
    fn is_wasteful(&self, cuts: &[(usize, i64)], capacity: i64) -> bool {
        let fitting = (0..self.open.counts.len()).rev().take_while(|&item| self.model.length(item) <= capacity);
        let is_open = |item: usize| {
            let taken = cuts.iter().find(|cut| cut.0 == item).map_or(0, |cut| cut.1);
            self.open.count(item) > taken
        };
        self.is_plain && fitting.into_iter().any(is_open)
    }
}

struct Task {
    lot: usize,
    ceiling: usize,
    first: usize,
    slope: i128,
    slack: i128,
}

#[cfg(test)]
mod tests;
