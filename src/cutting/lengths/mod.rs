//! Cutting stock in one dimension: pieces of given lengths from lengths of several kinds, at the least cost.
//!
//! Solved by plain constructions, a relaxation by column generation (P. C. Gilmore, R. E. Gomory, 1961 and 1963) with
//! an exact bound from whole prices (A. A. Farley, 1990), dives from fractional to whole (R. Sadykov and others, 2019),
//! branch and bound on how many lengths of each kind are used (G. Belov, G. Scheithauer, 2002), an exhausting search
//! where little is left, and at last a pass that combines patterns (H. Foerster, G. Wäscher, 2000). References from
//! memory. A plan is called proved only by whole-number bounds.
//!
//! Never here: cloth, units, screen, disk, clock.

mod ceiling;
mod construct;
mod dive;
mod exhaust;
#[cfg(test)]
mod families;
mod finish;
mod knapsack;
mod model;
mod relax;
mod search;
mod simplex;
#[cfg(test)]
mod tests;
mod tidy;
mod tree;
#[cfg(test)]
mod verify;

use super::effort::Steps;
use model::Model;
use search::Search;

/// A kind of stock length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Kind {
    pub(super) length: i64,
    /// What one costs; never negative.
    pub(super) cost: i64,
    /// How many there are; none for as many as wanted.
    pub(super) most: Option<i64>,
    pub(super) rest: Option<Rest>,
}

/// An end of at least `least` is kept: `worth` per unit of its length is taken off the cost.
///
/// Where a whole length would be worth more than it cost, the worth is lowered to what it cost per unit, rounded down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rest {
    pub(super) least: i64,
    pub(super) worth: i64,
}

/// Pieces of one length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Item {
    pub(super) length: i64,
    pub(super) count: i64,
}

/// What is to be cut, and what from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Problem {
    pub(super) kinds: Vec<Kind>,
    pub(super) items: Vec<Item>,
}

/// Lengths of one kind that are cut alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Pattern {
    pub(super) kind: usize,
    pub(super) times: i64,
    /// Which item, and how many of it from each length.
    pub(super) cuts: Vec<(usize, i64)>,
}

/// A plan that cuts every piece, and how good it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Answer {
    pub(super) patterns: Vec<Pattern>,
    pub(super) cost: i64,
    /// No plan costs less.
    pub(super) bound: i64,
    /// The plan costs no more than the bound.
    pub(super) proved: bool,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoAnswer {
    /// These items, and how many of each, did not go on the lengths there are; `proved` if no plan can cut all.
    Missing { items: Vec<(usize, i64)>, proved: bool },
    /// A number is negative or too large, or an item has no length.
    TooLarge,
}

/// The cheapest plan found within the steps.
pub(super) fn solve(problem: &Problem, seed: u64, steps: &mut Steps<'_>) -> Result<Answer, NoAnswer> {
    let model = Model::new(problem)?;
    let mut search = Search::new(&model, seed);
    search.run(steps);
    search.answer()
}
