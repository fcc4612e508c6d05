//! Checks that the plan's totals match its cuts.
//!
//! Never here: single cuts.

use super::{Errors, PlanError, exact};
use crate::cutting::plan::{Bought, CuttingPlan, StockSource, StockUse};
use crate::cutting::task::manner::CuttingTask;
use crate::piece::Supply;
use crate::quantity::{Money, number};
use std::collections::BTreeMap;

pub(super) fn check(plan: &CuttingPlan, task: &CuttingTask<'_>, errors: &mut Errors) {
    let mut wrong = |what: &str| errors.add(PlanError::Total { what: what.to_owned() });
    let used: Option<i128> = plan.uses.iter().map(|used| exact(used.used).map(i128::from)).sum();
    let stated = exact(plan.length_used).map(i128::from);
    if used.is_none() || stated != used {
        wrong("length used");
    }
    let bound = exact(plan.lower_bound).map(i128::from);
    if !bound.zip(used).is_some_and(|(bound, used)| (0..=used).contains(&bound)) {
        wrong("lower bound");
    }
    let mut counts: BTreeMap<String, i64> = BTreeMap::new();
    for piece in task.pieces {
        *counts.entry(piece.name.clone()).or_default() += piece.count;
    }
    if plan.pieces != counts {
        wrong("count of pieces");
    }
    let mut joins: BTreeMap<String, i64> = BTreeMap::new();
    for cut in plan.uses.iter().flat_map(|used| &used.cuts) {
        if cut.part.is_some_and(|part| part.number > 1) {
            *joins.entry(cut.piece.to_string()).or_default() += 1;
        }
    }
    if plan.joins != joins {
        wrong("count of joins");
    }
    let share = plan.quality.bound_ratio;
    let sound = (0.0..=1.0).contains(&share) && (!plan.quality.proved || share.total_cmp(&1.0).is_eq());
    if !sound {
        wrong("share of the best possible");
    }
    if !is_cost_right(plan, task) {
        wrong("cost");
    }
    if !is_bought_right(plan, task.supply) {
        wrong("list of what is bought");
    }
}

/// Whether the cost is the price of all lengths used, to a ten-thousandth, or `None` if one of them has no price.
fn is_cost_right(plan: &CuttingPlan, task: &CuttingTask<'_>) -> bool {
    let prices = plan.uses.iter().map(|used| match used.source {
        StockSource::Shelf { entry, .. } => task.stock.get(entry)?.price.map(Money::steps),
        StockSource::New { offer, .. } => price(offer, task.supply),
    });
    match (plan.cost, prices.sum::<Option<f64>>()) {
        (Some(cost), Some(prices)) => (cost.steps() - prices).abs() <= 1.0,
        // If no length is used, no cost is as right as a cost of zero.
        (None, priced) => priced.is_none() || plan.uses.is_empty(),
        (Some(_), None) => false,
    }
}

fn is_bought_right(plan: &CuttingPlan, supply: &Supply) -> bool {
    let mut new: BTreeMap<usize, Vec<&StockUse>> = BTreeMap::new();
    for used in &plan.uses {
        if let StockSource::New { offer, .. } = used.source {
            new.entry(offer).or_default().push(used);
        }
    }
    let stated: BTreeMap<usize, &Bought> = plan.bought.iter().map(|bought| (bought.offer, bought)).collect();
    stated.len() == plan.bought.len()
        && stated.len() == new.len()
        && stated.iter().all(|(offer, bought)| {
            let Some(uses) = new.get(offer) else { return false };
            let same = |used: &&StockUse| exact(used.length).is_some() && exact(used.length) == exact(bought.length);
            bought.count == number::from_size(uses.len())
                && uses.iter().all(same)
                && bought.price.map(Money::steps).map(f64::to_bits) == price(*offer, supply).map(f64::to_bits)
        })
}

fn price(offer: usize, supply: &Supply) -> Option<f64> {
    match supply {
        Supply::Offered(offers) => offers.get(offer)?.price.map(Money::steps),
        Supply::Endless | Supply::ShelfOnly => None,
    }
}
