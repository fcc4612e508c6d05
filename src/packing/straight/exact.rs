//! The exact search for few pieces: the earliest end of every set of pieces, over all sets its last row may hold.
//!
//! A set is a number in mixed radix, one digit per kind, so that equal pieces are not distinguished and taking a part
//! from a set is a subtraction. A row for a set is the best of all its divisions into columns, kept as the pairs of
//! end and width of which none is worse in both. An earlier end is never worse, since waste may always be left; so
//! the earliest end of a set, on the earliest stretch, is all that needs to be known of it.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::plan::{Band, Pile, Plan, Stack};
use super::prepared::{ENDLESS, Prepared};
use crate::effort::Steps;
use crate::number;
use crate::problem::{Starts, Stretch};

/// The most sets.
const MOST_SETS: usize = 1 << 16;
/// How many pairs of columns and rows are looked at in a step.
const PAIRS_A_STEP: u64 = 30;

/// A column or a row: where it ends, how wide it is, and what it was made from.
#[derive(Clone, Copy, Debug, Default)]
struct Made {
    end: i64,
    width: i64,
    /// Of a column: its last piece's shape. Of a row: the set in its first column.
    last: usize,
    /// Of a row: which column of that set.
    column: usize,
    /// Which column or row of the rest.
    rest: usize,
}

/// The sets: digits, and the place value of each digit.
#[derive(Debug)]
struct Sets {
    /// The kind of each digit.
    items: Vec<usize>,
    place_values: Vec<usize>,
    digits: Vec<Vec<i64>>,
}

/// All columns and rows that may begin at `from`, for the sets within one set.
#[derive(Debug)]
struct Fronts {
    columns: Vec<Vec<Made>>,
    rows: Vec<Vec<Made>>,
}

/// The best way to place a set.
#[derive(Clone, Copy, Debug, Default)]
struct Best {
    stretch: usize,
    end: i64,
    /// The set placed before the last row, and where that row may begin.
    before: usize,
    from: i64,
    row: usize,
}

/// Searches all plans; `None` if there are too many, or the steps for it run out. `known` is the best plan so far.
pub(super) fn solve(prepared: &Prepared, known: &Plan, steps: &mut Steps<'_>) -> Option<Plan> {
    let sets = Sets::new(prepared)?;
    let allowed = (steps.left() / 2).saturating_mul(PAIRS_A_STEP);
    if sets.looks(prepared)? > allowed {
        return None;
    }
    let mut search = SetSearch { prepared, sets, limits: limits(prepared, known), left: allowed };
    let plan = search.run();
    steps.take((allowed - search.left) / PAIRS_A_STEP);
    plan
}

/// The rows for some of the pieces, without marks, on the last stretch, at most `most` long; `None` if there are
/// none, or that takes more than `dear` steps.
pub(super) fn rest(
    prepared: &Prepared,
    counts: &[i64],
    most: i64,
    dear: u64,
    steps: &mut Steps<'_>,
) -> Option<Vec<Band>> {
    let last = prepared.stretches.len().checked_sub(1)?;
    let mut items = prepared.items.clone();
    for (item, &count) in items.iter_mut().zip(counts) {
        item.count = count;
    }
    let part =
        Prepared { items, shapes: prepared.shapes.clone(), stretches: vec![prepared.stretches[last]], ..*prepared };
    let sets = Sets::new(&part)?;
    let allowed = dear.min(steps.left() / 2).saturating_mul(PAIRS_A_STEP);
    if sets.looks(&part)? > allowed {
        return None;
    }
    let mut search = SetSearch { prepared: &part, sets, limits: vec![most], left: allowed };
    let plan = search.run();
    steps.take((allowed - search.left) / PAIRS_A_STEP + 1);
    let plan = plan.filter(|plan| plan.missing.iter().all(|&missing| missing == 0))?;
    Some(plan.bands.into_iter().map(|band| Band { stretch: last, ..band }).collect())
}

/// How far rows may reach on each stretch: to its end, or as far as those of the best plan so far.
fn limits(prepared: &Prepared, known: &Plan) -> Vec<i64> {
    let is_whole = known.missing.iter().all(|&missing| missing == 0);
    let ends = known.ends(prepared);
    let limit = |(stretch, end): (&Stretch, i64)| stretch.length.unwrap_or(if is_whole { end } else { ENDLESS });
    prepared.stretches.iter().zip(ends).map(limit).collect()
}

impl Sets {
    fn new(prepared: &Prepared) -> Option<Self> {
        let items: Vec<usize> = (0..prepared.items.len()).filter(|&item| prepared.items[item].count > 0).collect();
        let mut place_values = Vec::with_capacity(items.len());
        let mut sets = 1usize;
        for &item in &items {
            place_values.push(sets);
            let choices = number::count(prepared.items[item].count)?.checked_add(1)?;
            sets = sets.checked_mul(choices).filter(|&sets| sets <= MOST_SETS)?;
        }
        let mut digits = Vec::with_capacity(sets);
        let mut digit = vec![0; items.len()];
        for _ in 0..sets {
            digits.push(digit.clone());
            for (at, &item) in items.iter().enumerate() {
                digit[at] += 1;
                if digit[at] <= prepared.items[item].count {
                    break;
                }
                digit[at] = 0;
            }
        }
        Some(Self { items, place_values, digits })
    }

    /// About how many pairs of columns and rows the search looks at.
    fn looks(&self, prepared: &Prepared) -> Option<u64> {
        self.pairs(prepared.is_marked)?.checked_mul(2)
    }

    /// The number of pairs of a set and a part of it; with marks, of pairs of such pairs.
    fn pairs(&self, is_marked: bool) -> Option<u64> {
        let full = self.digits.last()?;
        full.iter().try_fold(1u64, |pairs, &digit| {
            let count = u64::try_from(digit).ok()?;
            let each = (count + 1) * (count + 2) / 2;
            let each = if is_marked { each * (count + 3) / 3 } else { each };
            pairs.checked_mul(each)
        })
    }
}

/// Iterates over all parts of a set: from `least` to `most`, digit by digit.
struct Parts<'a> {
    place_values: &'a [usize],
    least: Vec<i64>,
    most: &'a [i64],
    digits: Vec<i64>,
    part: usize,
    is_over: bool,
}

impl<'a> Parts<'a> {
    fn new(place_values: &'a [usize], least: Vec<i64>, most: &'a [i64]) -> Self {
        let part = place_values.iter().zip(&least).map(|(value, &digit)| value * number::index(digit)).sum();
        Self { place_values, digits: least.clone(), least, most, part, is_over: false }
    }
}

impl Iterator for Parts<'_> {
    type Item = usize;

    fn next(&mut self) -> Option<usize> {
        if self.is_over {
            return None;
        }
        let part = self.part;
        self.is_over = true;
        for at in 0..self.digits.len() {
            if self.digits[at] < self.most[at] {
                self.digits[at] += 1;
                self.part += self.place_values[at];
                self.is_over = false;
                break;
            }
            let back = number::index(self.digits[at] - self.least[at]);
            self.part -= self.place_values[at] * back;
            self.digits[at] = self.least[at];
        }
        Some(part)
    }
}

/// Keeps the Pareto front of end and width.
fn prune(made: &mut Vec<Made>) {
    made.sort_by_key(|one| (one.end, one.width));
    let mut width = i64::MAX;
    made.retain(|one| {
        let is_better = one.width < width;
        width = width.min(one.width);
        is_better
    });
}

struct SetSearch<'a> {
    prepared: &'a Prepared,
    sets: Sets,
    limits: Vec<i64>,
    /// Pairs that may still be looked at.
    left: u64,
}

impl SetSearch<'_> {
    fn spend(&mut self, pairs: usize) -> Option<()> {
        self.left = self.left.checked_sub(u64::try_from(pairs).ok()?)?;
        Some(())
    }

    fn run(&mut self) -> Option<Plan> {
        let full = self.sets.digits.len() - 1;
        let fresh = self.fronts(0, full)?;
        let mut best: Vec<Option<Best>> = vec![None; full + 1];
        best[0] = Some(Best::default());
        // On one endless stretch without marks the order of rows does not matter: each takes the first piece left.
        let is_free = self.prepared.stretches.len() == 1 && self.prepared.is_endless() && !self.prepared.is_marked;
        for set in 0..full {
            let Some(now) = best[set] else { continue };
            let most: Vec<i64> =
                self.sets.digits[full].iter().zip(&self.sets.digits[set]).map(|(full, has)| full - has).collect();
            let here =
                if self.prepared.is_marked && now.end > 0 { Some(self.fronts(now.end, full - set)?) } else { None };
            let mut least = vec![0; most.len()];
            if is_free && let Some(first) = most.iter().position(|&digit| digit > 0) {
                least[first] = 1;
            }
            let parts: Vec<usize> =
                Parts::new(&self.sets.place_values, least, &most).filter(|&part| part > 0).collect();
            self.spend(parts.len())?;
            for part in parts {
                if let Some(found) = self.place(now, part, &fresh, here.as_ref()) {
                    let found = Best { before: set, ..found };
                    let old = &mut best[set + part];
                    if old.is_none_or(|old| (found.stretch, found.end) < (old.stretch, old.end)) {
                        *old = Some(found);
                    }
                }
            }
        }
        let area = |set: usize| -> i128 {
            let each = |(&digit, &item): (&i64, &usize)| i128::from(digit) * self.prepared.items[item].area;
            self.sets.digits[set].iter().zip(&self.sets.items).map(each).sum()
        };
        let reached = |set: &usize| best[*set].map(|best| (-area(*set), best.stretch, best.end));
        let last = (0..=full).filter(|set| best[*set].is_some()).min_by_key(reached)?;
        self.plan(&best, last, &fresh)
    }

    /// The first stretch, and there the earliest end, for a row with the set `part` after `now`.
    fn place(&self, now: Best, part: usize, fresh: &Fronts, here: Option<&Fronts>) -> Option<Best> {
        (now.stretch..self.prepared.stretches.len()).find_map(|stretch| {
            let from = if stretch == now.stretch { now.end } else { 0 };
            let rows = if from > 0 { here.unwrap_or(fresh) } else { fresh };
            let width = self.prepared.stretches[stretch].width;
            // Later rows are narrower: the first that is narrow enough ends the earliest.
            let row = rows.rows[part].iter().position(|row| row.width <= width)?;
            let end = rows.rows[part][row].end + if here.is_none() { from } else { 0 };
            (end <= self.limits[stretch]).then_some(Best { stretch, end, from, row, ..Best::default() })
        })
    }

    /// All columns and rows for parts of the set `whole` that may begin at `from`.
    fn fronts(&mut self, from: i64, whole: usize) -> Option<Fronts> {
        let count = self.sets.digits.len();
        let start = Made { end: from, ..Made::default() };
        let mut fronts = Fronts { columns: vec![Vec::new(); count], rows: vec![Vec::new(); count] };
        fronts.columns[0].push(start);
        fronts.rows[0].push(start);
        let width = self.prepared.stretches.iter().map(|stretch| stretch.width).max()?;
        let limit = self.limits.iter().copied().max()?;
        let most = self.sets.digits[whole].clone();
        let parts: Vec<usize> = Parts::new(&self.sets.place_values, vec![0; most.len()], &most).collect();
        for &set in parts.iter().filter(|&&set| set > 0) {
            let made = self.columns(set, &fronts, width, limit)?;
            fronts.columns[set] = made;
            let made = self.rows(set, &fronts, width)?;
            fronts.rows[set] = made;
        }
        Some(fronts)
    }

    /// The columns that hold the set.
    fn columns(&mut self, set: usize, fronts: &Fronts, width: i64, limit: i64) -> Option<Vec<Made>> {
        let mut made = Vec::new();
        for at in (0..self.sets.items.len()).rev() {
            if self.sets.digits[set][at] == 0 {
                continue;
            }
            let item = &self.prepared.items[self.sets.items[at]];
            let below = &fronts.columns[set - self.sets.place_values[at]];
            for (rest, column) in below.iter().enumerate() {
                for &last in &item.shapes {
                    let shape = &self.prepared.shapes[last];
                    let end = Starts::next_of(item.starts, column.end) + shape.along;
                    let width_now = column.width.max(shape.across);
                    if end <= limit && width_now <= width {
                        made.push(Made { end, width: width_now, last, rest, ..Made::default() });
                    }
                }
            }
            let looked = below.len() + 1;
            self.spend(looked)?;
            // Without marks the order within a column does not matter.
            if !self.prepared.is_marked {
                break;
            }
        }
        prune(&mut made);
        Some(made)
    }

    /// The rows that hold the set.
    fn rows(&mut self, set: usize, fronts: &Fronts, width: i64) -> Option<Vec<Made>> {
        let most = &self.sets.digits[set];
        let at_edge = |at: usize| self.prepared.items[self.sets.items[at]].at_edge;
        let mut least: Vec<i64> = (0..most.len()).map(|at| if at_edge(at) { most[at] } else { 0 }).collect();
        if least.iter().all(|&digit| digit == 0)
            && let Some(first) = most.iter().position(|&digit| digit > 0)
        {
            least[first] = 1;
        }
        let mut made = Vec::new();
        let mut looked = 0;
        for last in Parts::new(&self.sets.place_values, least, most) {
            looked += 1;
            for (column, first) in fronts.columns[last].iter().enumerate() {
                let others = &fronts.rows[set - last];
                // Of those that end no later than this column only the narrowest counts.
                let skipped = others.partition_point(|other| other.end <= first.end).saturating_sub(1);
                looked += others.len() - skipped;
                for (rest, other) in others.iter().enumerate().skip(skipped) {
                    if first.width + other.width <= width {
                        let end = first.end.max(other.end);
                        made.push(Made { end, width: first.width + other.width, last, column, rest });
                    }
                }
            }
        }
        self.spend(looked)?;
        prune(&mut made);
        Some(made)
    }

    /// The plan that leads to the set `last`.
    fn plan(&mut self, best: &[Option<Best>], last: usize, fresh: &Fronts) -> Option<Plan> {
        let mut missing = self.prepared.counts();
        for (at, &item) in self.sets.items.iter().enumerate() {
            missing[item] -= self.sets.digits[last][at];
        }
        let mut bands = Vec::new();
        let mut set = last;
        while set > 0 {
            let now = best[set]?;
            let part = set - now.before;
            let again = if self.prepared.is_marked && now.from > 0 { Some(self.fronts(now.from, part)?) } else { None };
            let stacks = self.stacks(again.as_ref().unwrap_or(fresh), part, now.row);
            bands.push(Band::new(self.prepared, now.stretch, stacks, 1));
            set = now.before;
        }
        bands.reverse();
        Some(Plan { bands, missing })
    }

    /// The columns of a row.
    fn stacks(&self, fronts: &Fronts, mut set: usize, mut row: usize) -> Vec<Stack> {
        let mut stacks = Vec::new();
        while set > 0 {
            let made = fronts.rows[set][row];
            let mut piles: Vec<Pile> = Vec::new();
            let (mut held, mut column) = (made.last, made.column);
            let width = fronts.columns[held][column].width;
            while held > 0 {
                let one = fronts.columns[held][column];
                match piles.last_mut() {
                    Some(pile) if pile.shape == one.last => pile.times += 1,
                    _ => piles.push(Pile { shape: one.last, times: 1 }),
                }
                let item = self.prepared.shapes[one.last].item;
                let at = self.sets.items.iter().position(|&other| other == item).unwrap_or(0);
                (held, column) = (held - self.sets.place_values[at], one.rest);
            }
            piles.reverse();
            stacks.push(Stack { width, piles, times: 1 });
            (set, row) = (set - made.last, made.rest);
        }
        stacks
    }
}

#[cfg(test)]
mod tests;
