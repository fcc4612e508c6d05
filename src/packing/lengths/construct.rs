//! First solutions: fills one length after another and repeats a filling as often as the pieces allow.

use super::model::{Load, Model};

/// How a length is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Filling {
    /// The longest piece that still fits, as in first fit decreasing.
    Longest,
    /// The longest piece, then what fills the length best (a subset sum, within a small search).
    Fullest,
}

/// Pieces still to be cut and lengths still there.
#[derive(Clone, Debug)]
pub(super) struct Open {
    pub(super) counts: Vec<i64>,
    pub(super) most: Vec<Option<i64>>,
    /// Lengths of each kind that must still be cut, in a branch of the search limited to such plans.
    pub(super) least: Vec<i64>,
}

/// A filling of a length of a kind, with its cost and the length it uses.
struct Offer {
    stock: usize,
    cuts: Vec<(usize, i64)>,
    cost: i64,
    used: i64,
}

impl Open {
    pub(super) fn all(model: &Model) -> Self {
        Self { counts: model.counts.clone(), most: model.most.clone(), least: vec![0; model.most.len()] }
    }

    pub(super) fn is_done(&self) -> bool {
        self.counts.iter().all(|&count| count == 0)
    }

    /// How many pieces of an item are open.
    pub(super) fn count(&self, item: usize) -> i64 {
        self.counts.get(item).copied().unwrap_or(0)
    }

    /// How many lengths may be cut like this.
    pub(super) fn times(&self, stock: usize, cuts: &[(usize, i64)]) -> i64 {
        let available = self.most.get(stock).copied().flatten().unwrap_or(i64::MAX);
        let pieces = cuts.iter().filter(|cut| cut.1 > 0);
        pieces.map(|&(item, count)| self.count(item) / count).min().unwrap_or(0).min(available)
    }

    /// Takes the pieces and lengths of a load away; a negative count gives them back.
    pub(super) fn take(&mut self, stock: usize, cuts: &[(usize, i64)], times: i64) {
        for &(item, count) in cuts {
            if let Some(open) = self.counts.get_mut(item) {
                *open -= count * times;
            }
        }
        if let Some(Some(most)) = self.most.get_mut(stock) {
            *most -= times;
        }
        if let Some(least) = self.least.get_mut(stock) {
            *least -= times;
        }
    }
}

/// Cuts everything that is open; `None` if the stock does not suffice for this way of filling.
pub(super) fn construct(model: &Model, open: &mut Open, filling: Filling) -> Option<Vec<Load>> {
    let mut plan: Vec<Load> = Vec::new();
    let mut alive: Vec<usize> = (0..open.counts.len()).filter(|&item| is_open(open, item)).collect();
    let mut stock: Vec<usize> = (0..model.most.len()).filter(|&stock| !is_used_up(open, stock)).collect();
    stock.sort_by_key(|&stock| (model.capacity(stock), stock));
    while let Some(&first) = alive.first() {
        let mut best: Option<Offer> = None;
        let mut last: Option<(i64, Vec<(usize, i64)>)> = None;
        for &stock in &stock {
            let capacity = model.capacity(stock);
            if capacity < model.length(first) || is_used_up(open, stock) {
                continue;
            }
            // Kinds of equal length are filled alike.
            let cuts = match &last {
                Some((filled, cuts)) if *filled == capacity => cuts.clone(),
                _ => fill(model, open, &alive, capacity, filling),
            };
            last = Some((capacity, cuts.clone()));
            let used = model.used(&cuts);
            let Some(cost) = model.cost(stock, used) else { continue };
            let better = best
                .as_ref()
                .is_none_or(|best| i128::from(cost) * i128::from(best.used) < i128::from(best.cost) * i128::from(used));
            if better {
                best = Some(Offer { stock, cuts, cost, used });
            }
        }
        let Offer { stock, cuts, .. } = best?;
        let times = open.times(stock, &cuts);
        open.take(stock, &cuts, times);
        alive.retain(|&item| is_open(open, item));
        plan.push(Load { stock, cuts, times });
    }
    Some(plan)
}

fn is_open(open: &Open, item: usize) -> bool {
    open.count(item) > 0
}

fn is_used_up(open: &Open, stock: usize) -> bool {
    open.most.get(stock).copied().flatten().is_some_and(|most| most <= 0)
}

/// Fills `capacity` with pieces of `alive`, all of them open, always taking the longest.
fn fill(model: &Model, open: &Open, alive: &[usize], capacity: i64, filling: Filling) -> Vec<(usize, i64)> {
    let longest = greedy(model, open, alive, capacity);
    let gap = capacity - model.used(&longest);
    if filling == Filling::Longest || alive.len() > 1000 {
        return longest;
    }
    let mut search = Fill { model, open, alive, nodes: 4000, gap, cuts: Vec::new(), best: longest };
    let Some(&first) = alive.first() else { return Vec::new() };
    let most = open.count(first).min(capacity / model.length(first));
    for count in (1..=most).rev() {
        search.cuts = vec![(first, count)];
        search.deepen(1, capacity - count * model.length(first));
    }
    search.best
}

fn greedy(model: &Model, open: &Open, alive: &[usize], capacity: i64) -> Vec<(usize, i64)> {
    let mut cuts = Vec::new();
    let mut left = capacity;
    let mut from = 0;
    while let Some(rest) = alive.get(from..) {
        // Items are sorted by falling length: binary search finds the first that fits.
        let skip = rest.partition_point(|&item| model.length(item) > left);
        let Some(&item) = rest.get(skip) else { break };
        let count = open.count(item).min(left / model.length(item));
        cuts.push((item, count));
        left -= count * model.length(item);
        from += skip + 1;
    }
    cuts
}

struct Fill<'a> {
    model: &'a Model,
    open: &'a Open,
    alive: &'a [usize],
    nodes: u32,
    gap: i64,
    cuts: Vec<(usize, i64)>,
    best: Vec<(usize, i64)>,
}

impl Fill<'_> {
    fn deepen(&mut self, from: usize, left: i64) {
        if left < self.gap {
            self.gap = left;
            self.best.clone_from(&self.cuts);
        }
        let mut at = from;
        while self.gap > 0 && self.nodes > 0 {
            let Some(rest) = self.alive.get(at..) else { return };
            let skip = rest.partition_point(|&item| self.model.length(item) > left);
            let Some(&item) = rest.get(skip) else { return };
            self.nodes -= 1;
            let length = self.model.length(item);
            let most = self.open.count(item).min(left / length);
            for count in (1..=most).rev() {
                self.cuts.push((item, count));
                self.deepen(at + skip + 1, left - count * length);
                self.cuts.pop();
                if self.gap == 0 || self.nodes == 0 {
                    return;
                }
            }
            at += skip + 1;
        }
    }
}
