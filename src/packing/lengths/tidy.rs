//! Reduces the number of patterns at the same cost: two become one, or three become two, with the same pieces on the
//! same lengths.
//!
//! Method: combining patterns as in H. Foerster, G. Wäscher, "Pattern reduction in one-dimensional cutting stock
//! problems" (KOMBI), 2000 (from memory), without their larger combinations.

use std::collections::BTreeMap;

use super::finish::join;
use super::model::{Load, Model};
use crate::effort::Steps;

/// The most tries at dealing out pieces to two patterns.
const MOST_TRIES: u32 = 300;

/// The plan with as few patterns as combining yields within `most` steps; never dearer.
pub(super) fn tidy(model: &Model, plan: &[Load], most: u64, steps: &mut Steps<'_>) -> Vec<Load> {
    let mut plan = plan.to_vec();
    let mut left = most;
    'again: loop {
        for first in 0..plan.len() {
            for second in first + 1..plan.len() {
                let pair = [first, second];
                if let Some(fewer) = combined(model, &plan, &pair) {
                    plan = fewer;
                    continue 'again;
                }
                left = left.saturating_sub(1);
                if left == 0 || !steps.take(1) {
                    return plan;
                }
            }
        }
        for first in 0..plan.len() {
            for second in first + 1..plan.len() {
                for third in second + 1..plan.len() {
                    if let Some(fewer) = combined(model, &plan, &[first, second, third]) {
                        plan = fewer;
                        continue 'again;
                    }
                    left = left.saturating_sub(2);
                    if left == 0 || !steps.take(2) {
                        return plan;
                    }
                }
            }
        }
        return plan;
    }
}

/// The plan with the chosen loads, all of one kind, replaced by one pattern less; `None` if that fails.
fn combined(model: &Model, plan: &[Load], chosen: &[usize]) -> Option<Vec<Load>> {
    let loads: Vec<&Load> = chosen.iter().filter_map(|&at| plan.get(at)).collect();
    let stock = loads.first()?.stock;
    if loads.iter().any(|load| load.stock != stock) {
        return None;
    }
    let mut pieces: BTreeMap<usize, i64> = BTreeMap::new();
    for load in &loads {
        for &(item, count) in &load.cuts {
            *pieces.entry(item).or_default() += count * load.times;
        }
    }
    let pieces: Vec<(usize, i64)> = pieces.into_iter().collect();
    let lengths: i64 = loads.iter().map(|load| load.times).sum();
    let before: i64 =
        loads.iter().filter_map(|load| Some(model.cost(stock, model.used(&load.cuts))? * load.times)).sum();
    // Of three patterns, one keeps its number of lengths and the others share one pattern; try each.
    let shares: Vec<i64> = if loads.len() == 2 { vec![lengths] } else { loads.iter().map(|load| load.times).collect() };
    for times in shares {
        let mut sharing = Sharing { model, pieces: &pieces, times: [times, lengths - times], tries: MOST_TRIES };
        let capacity = [model.capacity(stock); 2];
        let mut cuts = [Vec::new(), Vec::new()];
        if !sharing.deal(0, capacity, &mut cuts) {
            continue;
        }
        let made = cuts.into_iter().zip(sharing.times).map(|(cuts, times)| Load { stock, cuts, times });
        let made: Vec<Load> = made.filter(|load| !load.cuts.is_empty()).collect();
        let after: i64 =
            made.iter().filter_map(|load| Some(model.cost(stock, model.used(&load.cuts))? * load.times)).sum();
        if after <= before {
            let kept = plan.iter().enumerate().filter(|(at, _)| !chosen.contains(at)).map(|(_, load)| load.clone());
            return Some(join(kept.chain(made).collect()));
        }
    }
    None
}

/// Deals out pieces to two patterns, used `times` often.
struct Sharing<'s> {
    model: &'s Model,
    pieces: &'s [(usize, i64)],
    times: [i64; 2],
    tries: u32,
}

impl Sharing<'_> {
    fn deal(&mut self, at: usize, capacity: [i64; 2], cuts: &mut [Vec<(usize, i64)>; 2]) -> bool {
        let Some(&(item, count)) = self.pieces.get(at) else { return true };
        let [times, others] = self.times;
        let length = self.model.length(item);
        let most = (count / times.max(1)).min(capacity[0] / length);
        for here in (0..=most).rev() {
            if self.tries == 0 {
                return false;
            }
            self.tries -= 1;
            let rest = count - here * times;
            let there = if rest == 0 {
                0
            } else if others > 0 && rest % others == 0 {
                rest / others
            } else {
                continue;
            };
            if there > capacity[1] / length {
                continue;
            }
            if here > 0 {
                cuts[0].push((item, here));
            }
            if there > 0 {
                cuts[1].push((item, there));
            }
            if self.deal(at + 1, [capacity[0] - here * length, capacity[1] - there * length], cuts) {
                return true;
            }
            if here > 0 {
                cuts[0].pop();
            }
            if there > 0 {
                cuts[1].pop();
            }
        }
        false
    }
}

#[cfg(test)]
mod tests;
