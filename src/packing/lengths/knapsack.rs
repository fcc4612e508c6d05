//! The most valuable filling of a length: branch and bound by value per length or, if that takes too long, by a table
//! over scaled-down lengths.
//!
//! All values are whole numbers below 2^50, which floats hold exactly; the bounds it returns are exact.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::ceiling::Ceiling;
use crate::number;

/// Entries of a table, about; if a length has more units, one entry covers several.
const TABLE: i64 = 400_000;
/// The most entries of a table refined because a coarser one left the bound above the value.
const LARGEST_TABLE: i64 = 8_000_000;
/// For each of this many items, one more filling of the pieces left is looked for.
const OTHERS: usize = 16;
/// Nodes after which branch and bound by the table ends.
const MOST_NODES: usize = 100_000;

/// A filling; the best value is at least `value` (that of `cuts`) and at most `bound`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Filled {
    pub(super) value: i64,
    pub(super) bound: i64,
    pub(super) cuts: Vec<(usize, i64)>,
    /// Good fillings of the pieces that the best one leaves, with their values.
    pub(super) others: Vec<(i64, Vec<(usize, i64)>)>,
}

impl Filled {
    fn is_vague(&self) -> bool {
        self.bound > self.value
    }
}

/// Pieces to fill a length with; those without value are ignored.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pieces<'a> {
    pub(super) lengths: &'a [i64],
    pub(super) counts: &'a [i64],
    pub(super) values: &'a [i64],
}

/// Solves one problem after another and reuses its tables.
#[derive(Clone, Debug, Default)]
pub(super) struct Knapsack {
    /// Items by value per length, the best first.
    order: Vec<usize>,
    length: Vec<i64>,
    count: Vec<i64>,
    value: Vec<i64>,
    /// Value per length, rounded up, with a zero at the end.
    rate: Vec<f64>,
    /// The shortest length from each position on.
    shortest: Vec<i64>,
    ceiling: Ceiling,
    /// Recent failures of branch and bound by value per length; after three it is skipped for a while.
    failed: u32,
    /// Thousands of simple operations done.
    pub(super) work: u64,
}

impl Knapsack {
    /// For each capacity the best filling with more value than its `floor`; if there is none, no cuts, and the floor as
    /// both value and bound.
    pub(super) fn best(&mut self, pieces: Pieces<'_>, capacities: &[(i64, i64)]) -> Vec<Filled> {
        self.sort(pieces);
        let nodes = if self.failed >= 3 { 0 } else { 30 * self.order.len() + 200 };
        let rates = std::mem::take(&mut self.rate);
        let by_rate = |at: usize, left: i64| number::from_whole(left) * rates[at];
        let others = if capacities.len() > 1 { 1 } else { 1 + self.order.len() / OTHERS };
        let mut answers: Vec<Option<Filled>> = Vec::with_capacity(capacities.len());
        for &(capacity, floor) in capacities {
            let found = (nodes > 0).then(|| self.fill(capacity, floor, (nodes, others), true, by_rate));
            answers.push(found.filter(|filled| filled.bound == filled.value));
        }
        self.rate = rates;
        let open = answers.iter().zip(capacities).filter(|(answer, _)| answer.is_none());
        let Some(largest) = open.map(|(_, &(capacity, _))| capacity).max() else {
            self.failed = 0;
            return answers.into_iter().flatten().collect();
        };
        self.failed = if self.failed >= 3 { (self.failed + 1) % 20 } else { self.failed + 1 };
        let mut size = TABLE;
        loop {
            let mut ceiling = std::mem::take(&mut self.ceiling);
            self.work += ceiling.build(&self.length, &self.count, &self.value, largest, size);
            let by_table = |at: usize, left: i64| ceiling.most(at, left);
            for (answer, &(capacity, floor)) in answers.iter_mut().zip(capacities) {
                if answer.as_ref().is_none_or(Filled::is_vague) {
                    *answer = Some(self.fill(capacity, floor, (MOST_NODES, others), false, by_table));
                }
            }
            let is_exact = ceiling.step == 1;
            self.ceiling = ceiling;
            size *= 4;
            // Any filling will do to go on; without one the bound must be exact.
            let is_settled = answers.iter().flatten().any(|filled| !filled.cuts.is_empty())
                || !answers.iter().flatten().any(Filled::is_vague);
            if is_settled || is_exact || size > LARGEST_TABLE {
                return answers.into_iter().flatten().collect();
            }
        }
    }

    fn sort(&mut self, pieces: Pieces<'_>) {
        let rate = |item: usize| number::from_whole(pieces.values[item]) / number::from_whole(pieces.lengths[item]);
        let mut rated: Vec<(f64, usize)> = (0..pieces.lengths.len())
            .filter(|&item| pieces.values[item] > 0 && pieces.counts[item] > 0)
            .map(|item| (rate(item), item))
            .collect();
        rated.sort_by(|left, right| right.0.total_cmp(&left.0).then(left.1.cmp(&right.1)));
        self.order.clear();
        self.order.extend(rated.iter().map(|&(_, item)| item));
        self.length.clear();
        self.length.extend(self.order.iter().map(|&item| pieces.lengths[item]));
        self.count.clear();
        self.count.extend(self.order.iter().map(|&item| pieces.counts[item]));
        self.value.clear();
        self.value.extend(self.order.iter().map(|&item| pieces.values[item]));
        self.rate.clear();
        // Rounded up by more than the rounding error of a division and a product.
        self.rate.extend(rated.iter().map(|&(rate, _)| rate * (1.0 + 4.0 * f64::EPSILON)));
        self.rate.push(0.0);
        self.shortest.clear();
        self.shortest.resize(self.order.len() + 1, i64::MAX);
        for at in (0..self.order.len()).rev() {
            self.shortest[at] = self.shortest[at + 1].min(self.length[at]);
        }
    }

    /// The best filling, then up to `others` best fillings of the pieces left.
    fn fill(
        &mut self,
        capacity: i64,
        floor: i64,
        (nodes, others): (usize, usize),
        falling: bool,
        most: impl Fn(usize, i64) -> f64,
    ) -> Filled {
        let mut best = self.branch(capacity, floor, nodes, falling, &most);
        if others == 0 || best.cuts.is_empty() || best.is_vague() {
            return best;
        }
        let counts = self.count.clone();
        let mut cuts = best.cuts.clone();
        for _ in 0..others {
            for (count, item) in self.count.iter_mut().zip(&self.order) {
                *count -= cuts.iter().find(|cut| cut.0 == *item).map_or(0, |cut| cut.1);
            }
            let other = self.branch(capacity, floor, nodes.min(2000), falling, &most);
            if other.cuts.is_empty() {
                break;
            }
            cuts.clone_from(&other.cuts);
            best.others.push((other.value, other.cuts));
        }
        self.count = counts;
        best
    }

    /// Searches depth first, trying the most of each piece first. `most(at, left)` bounds the value of the pieces
    /// from `at` on in `left`; if `falling`, fewer of a piece cannot beat more of it. If the nodes do not suffice,
    /// the bound is above the value.
    fn branch(
        &mut self,
        capacity: i64,
        floor: i64,
        nodes: usize,
        falling: bool,
        most: impl Fn(usize, i64) -> f64,
    ) -> Filled {
        let items = self.order.len();
        let mut taken = vec![0_i64; items];
        let mut best: Option<Vec<i64>> = None;
        let mut best_value = floor;
        let (mut left, mut value, mut at) = (capacity, 0_i64, 0);
        let mut visited = 0;
        let hopeless = |value: i64, left: i64, at: usize, best: i64| {
            number::from_whole(value) + most(at, left) < number::from_whole(best) + 1.0
        };
        let finished = 'search: loop {
            while at < items && left >= self.shortest[at] {
                if hopeless(value, left, at, best_value) {
                    break;
                }
                visited += 1;
                let count = if self.length[at] > left { 0 } else { self.count[at].min(left / self.length[at]) };
                taken[at] = count;
                left -= count * self.length[at];
                value += count * self.value[at];
                at += 1;
            }
            if value > best_value {
                best_value = value;
                let mut cuts = taken.clone();
                cuts[at..].fill(0);
                best = Some(cuts);
            }
            if visited > nodes {
                break false;
            }
            loop {
                if at == 0 {
                    break 'search true;
                }
                at -= 1;
                if taken[at] == 0 {
                    continue;
                }
                visited += 1;
                taken[at] -= 1;
                left += self.length[at];
                value -= self.value[at];
                if !hopeless(value, left, at + 1, best_value) {
                    at += 1;
                    break;
                }
                if falling {
                    left += taken[at] * self.length[at];
                    value -= taken[at] * self.value[at];
                } else {
                    at += 1; // One fewer of the same.
                }
            }
        };
        self.work += number::from_work(visited / 100 + items / 50);
        let cuts = best.map_or_else(Vec::new, |taken| self.cuts(&taken));
        let whole = if items == 0 { 0.0 } else { most(0, capacity).ceil() };
        let bound =
            if finished { best_value } else { number::nearest_whole(whole).unwrap_or(i64::MAX).max(best_value + 1) };
        Filled { value: best_value, bound, cuts, others: Vec::new() }
    }

    fn cuts(&self, taken: &[i64]) -> Vec<(usize, i64)> {
        let mut cuts: Vec<(usize, i64)> = taken
            .iter()
            .zip(&self.order)
            .filter(|&(&count, _)| count > 0)
            .map(|(&count, &item)| (item, count))
            .collect();
        cuts.sort_unstable();
        cuts
    }
}

#[cfg(test)]
mod tests;
