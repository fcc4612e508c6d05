//! The relaxed problem, in which a filling may be used a fractional number of times (column generation).
//!
//! Method: P. C. Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock problem", 1961 and 1963;
//! the bound at every round: A. A. Farley, "A note on bounding a class of linear programming problems", 1990 (both
//! from memory).
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::construct::Open;
use super::knapsack::{Filled, Knapsack, Pieces};
use super::model::{Load, Lot, Model};
use crate::effort::Steps;
use crate::number;
use crate::simplex::{Basis, Columns, Upkeep};

/// Whole-number price units for the cost of the dearest lot, about.
const FINE: i64 = 1 << 36;
/// Cost of a missing piece in the program, in dearest lots: high, but within the range of whole prices.
const DETERRING: f64 = 300.0;
/// Upper limit of the value of a filling.
const DEAREST: f64 = 1e15;

/// A filling of a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Filling {
    pub(super) lot: usize,
    pub(super) cuts: Vec<(usize, i64)>,
    pub(super) cost: i64,
}

/// How a relaxation ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Relaxed {
    /// No further filling improves the cost, or none is needed for the bound.
    Done,
    /// The bound has reached the limit.
    LimitReached,
    /// Out of steps.
    OutOfSteps,
}

/// A filling whose value exceeds its cost by `gain`.
struct Priced {
    gain: i64,
    lot: usize,
    cuts: Vec<(usize, i64)>,
}

/// Whole-number prices at which no filling has more value than it costs.
///
/// In `rate` units to a unit of cost, a plan costs at least `bound` plus, for each of its lengths, the cost of the
/// filling and the charge for its kind less the value of its pieces, which together are never negative.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Prices {
    pub(super) rate: i64,
    pub(super) items: Vec<i64>,
    /// For each kind; negative for a discount.
    pub(super) charges: Vec<i64>,
    pub(super) bound: i128,
}

impl Prices {
    /// The same prices, with the bound of what is still open.
    pub(super) fn for_open(mut self, open: &Open) -> Self {
        let value: i128 = self.items.iter().zip(&open.counts).map(|(&p, &n)| i128::from(p) * i128::from(n)).sum();
        let charge = |(stock, &charge): (usize, &i64)| {
            let lengths = if charge >= 0 { open.most[stock].unwrap_or(0) } else { open.least[stock].max(0) };
            i128::from(charge) * i128::from(lengths)
        };
        self.bound = value - self.charges.iter().enumerate().map(charge).sum::<i128>();
        self
    }

    /// Lower bound on the cost of a plan.
    pub(super) fn least(&self) -> i64 {
        let rate = i128::from(self.rate);
        let cost = self.bound.div_euclid(rate) + i128::from(self.bound.rem_euclid(rate) > 0);
        i64::try_from(cost).unwrap_or(if cost > 0 { i64::MAX } else { 0 })
    }
}

/// All fillings found so far, and what is needed to price new ones.
#[derive(Clone, Debug)]
pub(super) struct Relaxation<'m> {
    pub(super) model: &'m Model,
    pub(super) columns: Columns,
    /// The filling of each column after the rows' own.
    fillings: Vec<Filling>,
    /// The row for the least use of each kind, if it has one.
    least_row: Vec<Option<usize>>,
    /// The row for the most use of each kind, if it has one.
    most_row: Vec<Option<usize>>,
    /// Lots by slope; those of one slope are priced with one table.
    slopes: Vec<(i64, Vec<usize>)>,
    knapsack: Knapsack,
    /// Units of whole prices per unit of cost.
    scale: i64,
    /// Costs in the program are costs times this.
    pub(super) shrink: f64,
    /// The prices with the best bound of the last program solved.
    pub(super) prices: Option<Prices>,
}

impl<'m> Relaxation<'m> {
    /// If `counted`, each kind has rows for its least and its most use; otherwise only kinds with limited stock have
    /// a row.
    pub(super) fn new(model: &'m Model, counted: bool) -> Self {
        let mut rows = model.lengths.len();
        let mut number = |has_row: bool| {
            rows += usize::from(has_row);
            has_row.then(|| rows - 1)
        };
        let usable = |stock: usize| !model.lots_of_stock[stock].is_empty();
        let least_row: Vec<Option<usize>> =
            (0..model.most.len()).map(|stock| number(counted && usable(stock))).collect();
        let most_row: Vec<Option<usize>> = model
            .most
            .iter()
            .enumerate()
            .map(|(stock, most)| number(usable(stock) && (counted || most.is_some())))
            .collect();
        let stocks = most_row.iter().flatten().count();
        let mut slopes: Vec<(i64, Vec<usize>)> = Vec::new();
        for (index, lot) in model.lots.iter().enumerate() {
            match slopes.iter_mut().find(|(slope, _)| *slope == lot.slope) {
                Some((_, lots)) => lots.push(index),
                None => slopes.push((lot.slope, vec![index])),
            }
        }
        let dearest = model.lots.iter().map(|lot| lot.base.max(lot.slope * lot.capacity)).max().unwrap_or(1).max(1);
        Self {
            model,
            columns: Columns::new(rows - stocks, stocks, DETERRING),
            fillings: Vec::new(),
            least_row,
            most_row,
            slopes,
            knapsack: Knapsack::default(),
            scale: (FINE / dearest).max(1),
            shrink: 1.0 / number::from_whole(dearest),
            prices: None,
        }
    }

    /// The right-hand sides for what is open: slightly perturbed, differently for each row, so that the simplex
    /// method does not stall on ties.
    pub(super) fn rhs(&self, open: &Open) -> Vec<f64> {
        let mut spread = 0.5;
        let mut hair = || {
            spread = (spread + 0.618_033_988_749_895) % 1.0;
            1e-6 * (0.5 + spread)
        };
        let mut rhs: Vec<f64> = open.counts.iter().map(|&count| number::from_whole(count) - hair()).collect();
        let required = self.least_row.iter().zip(&open.least).filter(|(row, _)| row.is_some());
        rhs.extend(required.map(|(_, &least)| number::from_whole(least) - hair()));
        let limited = self.most_row.iter().zip(&open.most).filter(|(row, _)| row.is_some());
        rhs.extend(limited.map(|(_, most)| number::from_whole(most.unwrap_or(0)) + hair()));
        rhs
    }

    pub(super) fn begin(&self, open: &Open) -> Basis {
        Basis::new(&self.columns, self.rhs(open), Upkeep::Updated)
    }

    pub(super) fn column(&self, index: usize) -> Option<&Filling> {
        self.fillings.get(index.checked_sub(self.columns.own())?)
    }

    /// Whether a column may be used for what is open.
    pub(super) fn is_proper(&self, index: usize, open: &Open) -> bool {
        self.column(index).is_none_or(|filling| {
            let stock = self.model.lots[filling.lot].stock;
            filling.cuts.iter().all(|&(item, count)| count <= open.counts[item]) && open.most[stock] != Some(0)
        })
    }

    pub(super) fn proper(&self, open: &Open) -> Vec<bool> {
        (0..self.columns.len()).map(|index| self.is_proper(index, open)).collect()
    }

    pub(super) fn add(&mut self, lot: usize, cuts: Vec<(usize, i64)>) -> usize {
        let way = &self.model.lots[lot];
        let cost = Model::lot_cost(way, self.model.used(&cuts));
        let counted = [self.least_row[way.stock], self.most_row[way.stock]].into_iter().flatten().map(|row| (row, 1.0));
        let entries = cuts.iter().map(|&(item, count)| (item, number::from_whole(count))).chain(counted);
        let index = self.columns.add(number::from_whole(cost) * self.shrink, entries);
        self.fillings.push(Filling { lot, cuts, cost });
        index
    }

    /// Adds the fillings of a plan.
    pub(super) fn add_plan(&mut self, plan: &[Load]) {
        for load in plan {
            let used = self.model.used(&load.cuts);
            let lots = self.model.lots_of_stock[load.stock]
                .iter()
                .copied()
                .filter(|&lot| self.model.lots[lot].capacity >= used);
            let Some(lot) = lots.min_by_key(|&lot| Model::lot_cost(&self.model.lots[lot], used)) else { continue };
            self.add(lot, load.cuts.clone());
        }
    }

    /// Adds the fillings found by another relaxation of the same problem.
    pub(super) fn add_all(&mut self, other: &Self) {
        for filling in &other.fillings {
            self.add(filling.lot, filling.cuts.clone());
        }
    }

    /// How often each kind is used.
    pub(super) fn usage(&self, basis: &Basis) -> Vec<f64> {
        let mut usage = vec![0.0; self.model.most.len()];
        for (&column, level) in basis.basic.iter().zip(&basis.level) {
            if let Some(filling) = self.column(column) {
                usage[self.model.lots[filling.lot].stock] += level;
            }
        }
        usage
    }

    /// A price of the program in whole units, rounded down, no more than `most`.
    fn whole(&self, price: f64, most: f64) -> i64 {
        let unit = number::from_whole(self.scale) / self.shrink;
        number::nearest_whole((price * unit).min(most).floor()).unwrap_or(0).max(0)
    }

    /// Adds fillings that improve at the prices of the basis; returns their columns and the exact prices.
    fn price(&mut self, basis: &Basis, open: &Open) -> (Vec<usize>, Prices) {
        let model = self.model;
        let largest = number::from_whole(model.lots.iter().map(|lot| lot.capacity).max().unwrap_or(1));
        // Keeps the value of a full length below `DEAREST`.
        let items: Vec<i64> = (model.lengths.iter().zip(&basis.price))
            .map(|(&length, &price)| self.whole(price, DEAREST * number::from_whole(length) / largest))
            .collect();
        let row_price =
            |row: Option<usize>, sign: f64| row.map_or(0, |row| self.whole(basis.price[row] * sign, DEAREST));
        let discounts: Vec<i64> = self.least_row.iter().map(|&row| row_price(row, 1.0)).collect();
        let charges: Vec<i64> = self.most_row.iter().map(|&row| row_price(row, -1.0)).collect();
        let usable = |lot: &usize| open.most[model.lots[*lot].stock] != Some(0);
        let floor = |lot: usize| {
            let Lot { stock, base, .. } = model.lots[lot];
            (base * self.scale + charges[stock] - discounts[stock]).max(0)
        };
        let mut found: Vec<Priced> = Vec::new();
        let mut most_values: Vec<Option<i64>> = vec![None; model.lots.len()];
        for (slope, lots) in &self.slopes {
            let values: Vec<i64> =
                items.iter().zip(&model.lengths).map(|(price, length)| price - slope * length * self.scale).collect();
            let lots: Vec<usize> = lots.iter().copied().filter(usable).collect();
            let capacities: Vec<(i64, i64)> = lots.iter().map(|&lot| (model.lots[lot].capacity, floor(lot))).collect();
            let pieces = Pieces { lengths: &model.lengths, counts: &open.counts, values: &values };
            for (lot, filled) in lots.into_iter().zip(self.knapsack.best(pieces, &capacities)) {
                let Filled { value, bound, cuts, others } = filled;
                most_values[lot] = Some(bound);
                found.extend(others.into_iter().map(|(value, cuts)| Priced { gain: value - floor(lot), lot, cuts }));
                if !cuts.is_empty() {
                    found.push(Priced { gain: value - floor(lot), lot, cuts });
                }
            }
        }
        let prices = self.exact(items, &discounts, &most_values, open);
        found.sort_by(|left, right| right.gain.cmp(&left.gain).then(left.lot.cmp(&right.lot)));
        let columns = found.into_iter().map(|priced| self.add(priced.lot, priced.cuts)).collect();
        (columns, prices)
    }

    /// Makes prices exact, given that no filling of a lot has more value than `most_values`: lowers all until no length
    /// of an unlimited kind has more value than it costs; limited kinds are charged for the excess.
    fn exact(&self, mut items: Vec<i64>, discounts: &[i64], most_values: &[Option<i64>], open: &Open) -> Prices {
        const PARTS: i128 = 1 << 40;
        let cost = |lot: usize| i128::from(self.model.lots[lot].base) * i128::from(self.scale);
        let mut share = PARTS;
        for (lot, &value) in most_values.iter().enumerate() {
            let value = i128::from(value.unwrap_or(0));
            if open.most[self.model.lots[lot].stock].is_none() && value > cost(lot) {
                share = share.min((cost(lot) * PARTS).div_euclid(value));
            }
        }
        let lowered = |price: i64| i64::try_from(i128::from(price) * share / PARTS).unwrap_or(0);
        for price in &mut items {
            *price = lowered(*price);
        }
        let mut bound: i128 = items.iter().zip(&open.counts).map(|(&p, &n)| i128::from(p) * i128::from(n)).sum();
        let mut charges = vec![0; self.model.most.len()];
        for (stock, lots_of_stock) in self.model.lots_of_stock.iter().enumerate() {
            let Some(most) = open.most[stock].filter(|&most| most > 0) else { continue };
            let discount = i128::from(discounts[stock]);
            let beyond = lots_of_stock.iter().filter_map(|&lot| {
                let value = i128::from(most_values[lot]?);
                Some((value * share).div_euclid(PARTS) + 1 - cost(lot) + discount)
            });
            let charge = beyond.max().unwrap_or(0).max(0);
            bound += discount * i128::from(open.least[stock].max(0)) - charge * i128::from(most);
            charges[stock] = i64::try_from(charge - discount).unwrap_or(i64::MAX);
        }
        Prices { rate: self.scale, items, charges, bound }
    }

    /// Solves the relaxed problem for what is open and raises `bound` to its lower bound. Ends early if the bound
    /// reaches `limit` or, unless `thorough`, the cost rounded up.
    pub(super) fn solve(
        &mut self,
        basis: &mut Basis,
        open: &Open,
        bound: &mut i64,
        limit: i64,
        thorough: bool,
        steps: &mut Steps<'_>,
    ) -> Relaxed {
        let mut proper = self.proper(open);
        self.prices = None;
        loop {
            basis.improve(&self.columns, |column| proper[column], 20 * self.columns.rows + 100);
            let (entering, now) = self.price(basis, open);
            proper.resize(self.columns.len(), true);
            *bound = (*bound).max(now.least());
            if self.prices.as_ref().is_none_or(|prices| prices.bound < now.bound) {
                self.prices = Some(now);
            }
            let work = std::mem::take(&mut basis.work) + std::mem::take(&mut self.knapsack.work) + 1;
            let goes_on = steps.take(work);
            if *bound >= limit {
                return Relaxed::LimitReached;
            }
            let objective = basis.objective(&self.columns) / self.shrink;
            let reached = number::nearest_whole((objective - 1e-4).ceil()).is_some_and(|cost| *bound >= cost);
            if entering.is_empty() || reached && !thorough {
                return Relaxed::Done;
            }
            if !goes_on {
                return Relaxed::OutOfSteps;
            }
            let mut entered = false;
            for column in entering {
                let reduced = self.columns.cost[column] - self.columns.dot(column, &basis.price);
                entered |= reduced < -1e-9 && basis.enter(&self.columns, column);
            }
            if !entered {
                return Relaxed::Done; // The remaining gain is below float noise.
            }
        }
    }
}

#[cfg(test)]
mod tests;
