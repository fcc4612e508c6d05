//! The verifier: is a plan what it says it is, and can it be cut?
//!
//! It shares nothing with the planner but the data types: its own conversion, its own geometry, its own
//! idea of what is offered. Whoever makes plans, this judges them.
//!
//! Never here: making or mending a plan.

mod demand;
mod fault;
mod overlap;
mod place;
mod shape;
mod total;

pub use fault::{JoinedWrong, PlanFault};

use super::goods::Goods;
use super::manner::CuttingTask;
use super::plan::CuttingPlan;
use crate::quantity::{Length, number};
use std::collections::BTreeSet;

/// Judges a plan against everything it was made from.
///
/// Nothing overlaps or leaves its length; sizes, grain, nap and pattern are right; every piece is there
/// once and no other; joined parts obey their rule; no length is used twice; what is left, bought and
/// summed up is what the cuts leave, take and come to.
///
/// # Errors
/// All that is wrong, up to a hundred faults.
pub fn check(plan: &CuttingPlan, task: &CuttingTask<'_>) -> Result<(), Vec<PlanFault>> {
    let mut faults = Faults::default();
    let Some(rules) = Rules::of(task.goods) else {
        return Err(vec![PlanFault::Unreadable { what: "the goods".to_owned() }]);
    };
    let mut lengths = BTreeSet::new();
    for used in &plan.uses {
        if !lengths.insert(used.source) {
            faults.add(PlanFault::StockExceeded { stock: used.stock.clone() });
        }
        place::check(used, task, rules, &mut faults);
    }
    demand::check(plan, task.pieces, rules, &mut faults);
    total::check(plan, task, &mut faults);
    if faults.found.is_empty() { Ok(()) } else { Err(faults.found) }
}

/// The faults found so far.
#[derive(Debug, Default)]
struct Faults {
    found: Vec<PlanFault>,
}

impl Faults {
    const MOST: usize = 100;

    fn add(&mut self, fault: PlanFault) {
        if self.found.len() < Self::MOST {
            self.found.push(fault);
        }
    }
}

/// What the goods ask of every cut.
#[derive(Clone, Copy, Debug)]
struct Rules {
    width: Within,
    loss: i64,
    repeat: Option<i64>,
    half_drop: bool,
}

impl Rules {
    fn of(goods: &Goods) -> Option<Self> {
        let repeat = match goods.repeat {
            Some(repeat) => Some(number::nearest_whole(repeat.steps()).filter(|repeat| *repeat > 0)?),
            None => None,
        };
        let loss = Within::of(goods.loss_per_cut.steps())?.least;
        Some(Self { width: Within::of(goods.width.steps())?, loss, repeat, half_drop: goods.half_drop })
    }
}

/// The whole nanometres that a given length may stand for: itself, or the two it lies between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Within {
    least: i64,
    most: i64,
}

impl Within {
    /// A thousandth of a nanometre is float noise.
    const NOISE: f64 = 1e-3;

    fn of(steps: f64) -> Option<Self> {
        let least = number::nearest_whole((steps + Self::NOISE).floor())?;
        let most = number::nearest_whole((steps - Self::NOISE).ceil())?;
        Some(Self { least: least.min(most), most: most.max(least) })
    }

    fn holds(self, whole: i64) -> bool {
        (self.least..=self.most).contains(&whole)
    }
}

/// The whole nanometres of a length in a plan; none where it is not whole.
fn exact(length: Length) -> Option<i64> {
    let whole = number::nearest_whole(length.steps())?;
    number::from_whole(whole).total_cmp(&(length.steps() + 0.0)).is_eq().then_some(whole)
}

/// A length in a plan that is known to be whole; nothing where it is not.
fn exact_or_none(length: Length) -> i64 {
    exact(length).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_whole_length_stands_for_itself_and_another_for_its_neighbours() {
        assert_eq!(Within::of(350_000_000.0), Some(Within { least: 350_000_000, most: 350_000_000 }));
        assert_eq!(Within::of(349_999_999.999_9), Some(Within { least: 350_000_000, most: 350_000_000 }));
        assert_eq!(Within::of(666_666_666.67), Some(Within { least: 666_666_666, most: 666_666_667 }));
        assert_eq!(Within::of(f64::NAN), None);
    }

    #[test]
    fn a_plan_holds_whole_lengths_only() {
        assert_eq!(exact(Length::inches(0.125)), Some(3_175_000));
        assert_eq!(exact(Length::from_steps(0.5)), None);
        assert_eq!(exact(Length::from_steps(-0.0)), Some(0));
    }
}
