//! The reduced problem: equal items merged, lengths and costs divided by their common divisors, and every way to use
//! a stock length as a lot.

use std::collections::BTreeMap;

use crate::number;
use crate::problem::{LengthProblem, PieceLength, StockLength, Unsolved};

/// The largest single length, count or cost that the solver accepts.
const LARGEST: i64 = 1 << 53;
/// The upper limit of sums of costs.
const LARGEST_SUM: i128 = 1 << 61;

/// A way to use a length of a kind, with its end kept or not. It costs `base + slope × the length used`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Lot {
    pub(super) stock: usize,
    /// The most that may be used of it.
    pub(super) capacity: i64,
    pub(super) base: i64,
    pub(super) slope: i64,
}

/// Lengths of one kind cut in the same pattern.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Load {
    pub(super) stock: usize,
    /// Items of the model and how many of each, sorted by item, none twice.
    pub(super) cuts: Vec<(usize, i64)>,
    pub(super) times: i64,
}

/// The problem the search works on.
#[derive(Clone, Debug)]
pub(super) struct Model {
    /// The different piece lengths, the longest first.
    pub(super) lengths: Vec<i64>,
    /// How many are wanted of each.
    pub(super) counts: Vec<i64>,
    /// The items of the problem merged into each, with their counts.
    pub(super) sources: Vec<Vec<(usize, i64)>>,
    pub(super) lots: Vec<Lot>,
    /// How many lengths of each kind there are, `None` for unlimited; the last kind may be `artificial`.
    pub(super) most: Vec<Option<i64>>,
    /// The lots of each kind.
    pub(super) lots_of_stock: Vec<Vec<usize>>,
    /// An artificial kind for pieces beyond the stock, if the stock may not suffice.
    pub(super) artificial: Option<usize>,
    /// Costs of the problem are costs of the model times this.
    pub(super) cost_unit: i64,
}

impl Model {
    /// The model of a problem.
    pub(super) fn new(problem: &LengthProblem) -> Result<Self, Unsolved> {
        let fits = |value: i64| (0..=LARGEST).contains(&value);
        let is_sound = |stock: &StockLength| {
            fits(stock.length)
                && fits(stock.cost)
                && stock.most.is_none_or(|most| most >= 0)
                && stock.rest.as_ref().is_none_or(|rest| fits(rest.value))
        };
        if !problem.stock.iter().all(is_sound) {
            return Err(Unsolved::Malformed);
        }
        let mut merged: BTreeMap<i64, Vec<(usize, i64)>> = BTreeMap::new();
        let mut pieces = 0_i128;
        for (index, &PieceLength { length, count }) in problem.pieces.iter().enumerate() {
            if !fits(length) || length == 0 || !fits(count) {
                return Err(Unsolved::Malformed);
            }
            if count > 0 {
                merged.entry(length).or_default().push((index, count));
                pieces += i128::from(count);
            }
        }
        let longest = problem.stock.iter().filter(|stock| stock.most != Some(0)).map(|stock| stock.length).max();
        let too_long: Vec<(usize, i64)> = merged
            .iter()
            .filter(|&(&length, _)| longest.is_none_or(|longest| length > longest))
            .flat_map(|(_, sources)| sources.iter().copied())
            .collect();
        if !too_long.is_empty() {
            return Err(Unsolved::Missing { pieces: too_long, proved: true });
        }
        let unit = merged.keys().fold(0, |unit, &length| number::gcd(unit, length)).max(1);
        let mut model = Self {
            lengths: merged.keys().rev().map(|&length| length / unit).collect(),
            counts: merged.values().rev().map(|sources| sources.iter().map(|&(_, count)| count).sum()).collect(),
            sources: merged.values().rev().cloned().collect(),
            lots: Vec::new(),
            most: Vec::new(),
            lots_of_stock: Vec::new(),
            artificial: None,
            cost_unit: 1,
        };
        if pieces > i128::from(LARGEST) {
            return Err(Unsolved::Malformed);
        }
        for (index, stock) in problem.stock.iter().enumerate() {
            model.add_stock(index, stock, unit, pieces);
        }
        let dearest = problem.stock.iter().map(|stock| stock.cost).max().unwrap_or(0);
        if i128::from(dearest) * pieces >= LARGEST_SUM {
            return Err(Unsolved::Malformed);
        }
        model.add_artificial(pieces, dearest)?;
        model.share_costs();
        Ok(model)
    }

    fn add_stock(&mut self, index: usize, stock: &StockLength, unit: i64, pieces: i128) {
        let mut lots_of_stock = Vec::new();
        self.most.push(stock.most.filter(|&most| i128::from(most) < pieces));
        let shortest = self.lengths.last().copied().unwrap_or(1);
        let mut add = |capacity: i64, base: i64, slope: i64| {
            if capacity >= shortest && stock.most != Some(0) {
                lots_of_stock.push(self.lots.len());
                self.lots.push(Lot { stock: index, capacity, base, slope });
            }
        };
        add(stock.length / unit, stock.cost, 0);
        if let Some(rest) = stock.rest
            && stock.length > rest.least.max(1)
        {
            // At most cost / length, so that neither product exceeds the cost.
            let value = rest.value.min(stock.cost / stock.length);
            if value > 0 {
                add((stock.length - rest.least.max(1)) / unit, stock.cost - value * stock.length, value * unit);
            }
        }
        self.lots_of_stock.push(lots_of_stock);
    }

    /// Adds the `artificial` kind if the stock may not suffice: it makes every problem solvable, at a cost above that
    /// of any real plan.
    fn add_artificial(&mut self, pieces: i128, dearest: i64) -> Result<(), Unsolved> {
        let (Some(&longest), Some(capacity)) = (self.lengths.first(), self.lots.iter().map(|lot| lot.capacity).max())
        else {
            return Ok(());
        };
        if self.lots.iter().any(|lot| lot.capacity >= longest && self.most.get(lot.stock) == Some(&None)) {
            return Ok(());
        }
        let available: i128 = self.most.iter().map(|most| most.map_or(pieces, i128::from)).sum();
        let price = i128::from(dearest) * available.min(pieces) + 1;
        let shared = self.lots.iter().fold(0, |unit, lot| number::gcd(number::gcd(unit, lot.base), lot.slope)).max(1);
        let price = (price + i128::from(shared) - 1) / i128::from(shared) * i128::from(shared);
        if price * pieces >= LARGEST_SUM {
            return Err(Unsolved::Malformed);
        }
        let base = i64::try_from(price).map_err(|_| Unsolved::Malformed)?;
        self.artificial = Some(self.most.len());
        self.lots_of_stock.push(vec![self.lots.len()]);
        self.lots.push(Lot { stock: self.most.len(), capacity, base, slope: 0 });
        self.most.push(None);
        Ok(())
    }

    fn share_costs(&mut self) {
        let unit = self.lots.iter().fold(0, |unit, lot| number::gcd(number::gcd(unit, lot.base), lot.slope)).max(1);
        for lot in &mut self.lots {
            lot.base /= unit;
            lot.slope /= unit;
        }
        self.cost_unit = unit;
    }

    /// The length of an item, at least one.
    pub(super) fn length(&self, item: usize) -> i64 {
        self.lengths.get(item).copied().unwrap_or(1)
    }

    pub(super) fn used(&self, cuts: &[(usize, i64)]) -> i64 {
        cuts.iter().map(|&(item, count)| self.length(item) * count).sum()
    }

    /// What a lot costs with `used` of its length used.
    pub(super) fn lot_cost(lot: &Lot, used: i64) -> i64 {
        lot.base + lot.slope * used
    }

    /// The least that a length of a kind costs with `used` of it used; `None` if it is too short.
    pub(super) fn cost(&self, stock: usize, used: i64) -> Option<i64> {
        let lots = self.lots_of_stock.get(stock)?.iter().filter_map(|&lot| self.lots.get(lot));
        lots.filter(|lot| lot.capacity >= used).map(|lot| Self::lot_cost(lot, used)).min()
    }

    /// The most usable length of a kind; -1 if it has no lot.
    pub(super) fn capacity(&self, stock: usize) -> i64 {
        let lots = self.lots_of_stock.get(stock).into_iter().flatten();
        lots.filter_map(|&lot| self.lots.get(lot)).map(|lot| lot.capacity).max().unwrap_or(-1)
    }

    /// The cost of a plan. Loads that fit nowhere would count as zero, but never occur.
    pub(super) fn total(&self, plan: &[Load]) -> i64 {
        plan.iter().map(|load| self.cost(load.stock, self.used(&load.cuts)).unwrap_or(0) * load.times).sum()
    }

    /// The length of all pieces together.
    pub(super) fn whole_length(&self) -> i128 {
        self.lengths.iter().zip(&self.counts).map(|(&length, &count)| i128::from(length) * i128::from(count)).sum()
    }
}
