//! Turns a plan into a solution: equal loads joined, cheaper kinds where they fit, the problem's own items.

use super::model::{Load, Model};
use crate::solution::Pattern;

/// Gives every load the cheapest kind that holds it and is not used up, and joins equal loads.
pub(super) fn settle(model: &Model, plan: &[Load]) -> Vec<Load> {
    let mut left = model.most.clone();
    for load in plan {
        if let Some(Some(most)) = left.get_mut(load.stock) {
            *most -= load.times;
        }
    }
    let mut settled: Vec<Load> = Vec::with_capacity(plan.len());
    for load in plan {
        let used = model.used(&load.cuts);
        let mut times = load.times;
        while times > 0 {
            let now = model.cost(load.stock, used);
            let cheaper = (0..model.most.len())
                .filter(|&stock| left.get(stock).copied().flatten().is_none_or(|most| most > 0))
                .filter_map(|stock| Some((model.cost(stock, used)?, stock)))
                .min()
                .filter(|&(cost, _)| now.is_none_or(|now| cost < now));
            let (stock, moved) = match cheaper {
                Some((_, stock)) => (stock, left.get(stock).copied().flatten().map_or(times, |most| most.min(times))),
                None => (load.stock, times),
            };
            if stock != load.stock {
                if let Some(Some(most)) = left.get_mut(stock) {
                    *most -= moved;
                }
                if let Some(Some(most)) = left.get_mut(load.stock) {
                    *most += moved;
                }
            }
            settled.push(Load { stock, cuts: load.cuts.clone(), times: moved });
            times -= moved;
        }
    }
    join(settled)
}

/// Joins equal loads and drops empty ones.
pub(super) fn join(mut plan: Vec<Load>) -> Vec<Load> {
    plan.retain(|load| load.times > 0 && !load.cuts.is_empty());
    for load in &mut plan {
        load.cuts.sort_unstable();
    }
    plan.sort_unstable();
    let mut joined: Vec<Load> = Vec::with_capacity(plan.len());
    for load in plan {
        match joined.last_mut() {
            Some(last) if last.stock == load.stock && last.cuts == load.cuts => last.times += load.times,
            _ => joined.push(load),
        }
    }
    joined
}

/// Replaces the model's items by those of the problem; if several have the same length, pieces are dealt out in their
/// order.
pub(super) fn name(model: &Model, plan: &[Load]) -> Vec<Pattern> {
    let mut sources = model.sources.clone();
    for source in &mut sources {
        source.reverse();
    }
    let mut patterns: Vec<Pattern> = Vec::with_capacity(plan.len());
    for load in plan {
        let mut times = load.times;
        while times > 0 {
            let now = load.cuts.iter().map(|&(item, count)| {
                let first = sources.get(item).and_then(|source| source.last()).map_or(0, |&(_, open)| open);
                if count > 0 { first / count } else { times }
            });
            let alike = now.min().unwrap_or(times).clamp(1, times);
            let mut cuts: Vec<(usize, i64)> = Vec::with_capacity(load.cuts.len());
            for &(item, count) in &load.cuts {
                let mut wanted = count;
                while wanted > 0 {
                    let Some(source) = sources.get_mut(item) else { break };
                    let Some(last) = source.last_mut() else { break };
                    // Repeated lengths take equal shares of one item; a single length may take from several.
                    let each = wanted.min(last.1 / alike);
                    if each > 0 {
                        cuts.push((last.0, each));
                        last.1 -= each * alike;
                        wanted -= each;
                    }
                    if last.1 == 0 {
                        source.pop();
                    } else if each == 0 {
                        break;
                    }
                }
            }
            cuts.sort_unstable();
            patterns.push(Pattern { stock: load.stock, times: alike, cuts });
            times -= alike;
        }
    }
    patterns
}
