//! The search for better plans: rows one after another, each the best use of the cloth at the current values of the
//! pieces; then rows of the current plan are taken out and their pieces laid again.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::exact;
use super::fill::{Filler, RowRequest, overhang};
use super::level::times;
use super::plan::{Band, Pile, Plan, Stack};
use super::prepared::{ENDLESS, Prepared};
use crate::effort::{Progress, Steps};
use crate::number;
use crate::problem::Starts;

/// How many choices of a knapsack are looked at in a step.
const LOOKS_A_STEP: usize = 160;
/// With more kinds, only the greedy rule is used.
const MOST_ITEMS: usize = 2_000;
/// The value of all pieces together at first.
const ALL: i128 = 1 << 46;

/// The most steps for laying a few pieces exactly.
const EXACT_STEPS: u64 = 1_200;

/// How rows are chosen.
#[derive(Clone, Copy, Debug)]
struct RowOptions {
    /// How many lengths of row are tried.
    tries: usize,
    /// Rows are at least as long as the longest piece left.
    longest_first: bool,
    /// One row in this many is not repeated as often as possible.
    sparing: usize,
}

/// The state of the search.
struct RowSearch<'a, 's, 'w> {
    prepared: &'a Prepared,
    filler: Filler<'a>,
    rng: fastrand::Rng,
    steps: &'s mut Steps<'w>,
    /// The value of each kind by its area.
    plain: Vec<i64>,
    /// Row lengths for which the bar relaxation keeps one choice of widths (see `bound`).
    lasting: Vec<i64>,
    best: Plan,
    measure: (i128, i64, i64),
    bound: i64,
}

/// The best plan found, no worse than `best`.
pub(super) fn improve(
    prepared: &Prepared,
    best: Plan,
    bound: i64,
    lasting: Vec<i64>,
    seed: u64,
    steps: &mut Steps<'_>,
) -> Plan {
    if prepared.items.len() > MOST_ITEMS || !steps.take(0) {
        return best;
    }
    let mut search = RowSearch::new(prepared, best, bound, lasting, seed, steps);
    search.run();
    search.best
}

impl<'a, 's, 'w> RowSearch<'a, 's, 'w> {
    fn new(
        prepared: &'a Prepared,
        best: Plan,
        bound: i64,
        lasting: Vec<i64>,
        seed: u64,
        steps: &'s mut Steps<'w>,
    ) -> Self {
        let all: i128 = prepared.items.iter().map(|item| item.area.saturating_mul(i128::from(item.count))).sum();
        let value = |area: i128| i64::try_from((area / (all / ALL).max(1)).max(1)).unwrap_or(i64::MAX);
        Self {
            prepared,
            filler: Filler::new(prepared),
            rng: fastrand::Rng::with_seed(seed),
            steps,
            plain: prepared.items.iter().map(|item| value(item.area)).collect(),
            lasting,
            measure: best.measure(prepared),
            best,
            bound,
        }
    }
}

impl RowSearch<'_, '_, '_> {
    fn run(&mut self) {
        let start = self.steps.left();
        let mut values = self.plain.clone();
        // If nearly all pieces differ, building whole plans gains more than rebuilding parts.
        let pieces: i64 = self.prepared.items.iter().map(|item| item.count).sum();
        let share = if pieces < 3 * number::from_size(self.plain.len()) { start / 2 } else { start / 6 };
        let mut round = 0;
        while self.goes_on() && (round < 4 || self.steps.left() > start - share && round < 400) {
            let options = RowOptions {
                tries: [6, 1, 16, 3][round % 4],
                longest_first: round % 2 == 1,
                sparing: if round < 4 { usize::MAX } else { 3 },
            };
            let plan = self.complete(Vec::new(), self.prepared.counts(), &values, options);
            self.correct(&plan, &mut values);
            self.consider(&plan);
            self.spend_for(&plan);
            round += 1;
        }
        self.renew(values);
    }

    /// Whether there are steps left, and something to gain.
    fn goes_on(&mut self) -> bool {
        let is_met = self.measure.0 == 0 && self.prepared.is_endless() && self.best.length(self.prepared) <= self.bound;
        !is_met && self.steps.take(0)
    }

    /// Takes steps for the knapsacks since the last time; returns whether the search may go on.
    fn spend(&mut self) -> bool {
        let looked = self.filler.looked() / LOOKS_A_STEP + 1;
        self.steps.take(u64::try_from(looked).unwrap_or(u64::MAX))
    }

    /// Takes steps for measuring a plan: rows with marks are laid out one by one.
    fn spend_for(&mut self, plan: &Plan) {
        let rows: i64 = plan.bands.iter().filter(|band| band.is_marked).map(|band| band.times).sum();
        self.steps.take(u64::try_from(rows / 16).unwrap_or(u64::MAX));
    }

    /// Keeps a plan that is better than the best.
    fn consider(&mut self, plan: &Plan) -> bool {
        let measure = plan.measure(self.prepared);
        let is_better = measure < self.measure;
        if is_better {
            self.measure = measure;
            self.best = plan.clone();
            self.steps.report(Progress { best: plan.length(self.prepared), bound: self.bound });
        }
        is_better
    }

    /// Takes rows out of the current plan and lays their pieces again, until the steps are used up.
    fn renew(&mut self, values: Vec<i64>) {
        let mut values = values;
        let mut now = self.best.clone();
        let mut measure = self.measure;
        let mut idle = 0u32;
        while self.goes_on() {
            let before = self.steps.left();
            let (bands, left) = self.without_some(&now);
            let options = RowOptions {
                tries: [1, 2, 4, 8, 16][self.rng.usize(0..5)],
                longest_first: self.rng.bool(),
                sparing: [2, 4, usize::MAX][self.rng.usize(0..3)],
            };
            let tried: Vec<i64> = (0..self.plain.len())
                .map(|item| {
                    let base = if idle.is_multiple_of(2) { self.plain[item] } else { values[item] };
                    (base / 64).saturating_mul(self.rng.i64(52..=76)).max(1)
                })
                .collect();
            let plan = match self.laid_exactly(&now, &bands, &left) {
                Some(plan) => plan,
                None => self.complete(bands, left, &tried, options),
            };
            let found = plan.measure(self.prepared);
            self.spend_for(&plan);
            idle += 1;
            if self.consider(&plan) {
                idle = 0;
                self.correct(&plan, &mut values);
            }
            // A plan a little worse is taken now and then, and the best again after a while.
            let slack = found.2 - found.2 / 128;
            let is_near =
                found.0 <= measure.0 && (slack <= measure.2 && found.1 == measure.1 && self.rng.u8(0..8) == 0);
            if found <= measure || is_near {
                (now, measure) = (plan, found);
            }
            if idle % 400 == 399 {
                (now, measure) = (self.best.clone(), self.measure);
            }
            // A round without a knapsack takes a step too; otherwise the search for few pieces would never end.
            if self.steps.left() == before {
                self.steps.take(1);
            }
        }
    }

    /// The rows with the pieces left laid optimally on the last stretch; `None` if that is too much work;
    /// three of four calls are skipped at random.
    fn laid_exactly(&mut self, now: &Plan, bands: &[Band], left: &[i64]) -> Option<Plan> {
        if !self.prepared.is_endless() || self.prepared.is_marked || self.rng.u8(0..4) > 0 {
            return None;
        }
        let last = self.prepared.stretches.len() - 1;
        let length = |bands: &[Band]| {
            bands.iter().filter(|band| band.stretch == last).map(|band| band.along * band.times).sum::<i64>()
        };
        let most = length(&now.bands) - length(bands);
        let laid = exact::rest(self.prepared, left, most, EXACT_STEPS, self.steps)?;
        let mut bands = bands.to_vec();
        bands.extend(laid);
        Some(Plan { bands, missing: vec![0; left.len()] })
    }

    /// The plan without a few of its rows, preferably wasteful ones, and the pieces then left.
    fn without_some(&mut self, plan: &Plan) -> (Vec<Band>, Vec<i64>) {
        let mut bands = plan.bands.clone();
        let mut left = plan.missing.clone();
        let rows = number::count(bands.iter().map(|band| band.times).sum()).unwrap_or(1);
        let most = 2 + self.rng.usize(0..5) + self.rng.usize(0..2) * rows / 4;
        for _ in 0..most {
            if bands.is_empty() {
                break;
            }
            let (first, second) = (self.rng.usize(0..bands.len()), self.rng.usize(0..bands.len()));
            let at = if self.waste(&bands[first]) > self.waste(&bands[second]) { first } else { second };
            let times = bands[at].times;
            let taken = if times == 1 || self.rng.u8(0..4) == 0 { times } else { self.rng.i64(1..=times) };
            bands[at].each(self.prepared, |item, count| left[item] += count * taken);
            if taken == times {
                bands.remove(at);
            } else {
                bands[at].times -= taken;
            }
        }
        (bands, left)
    }

    /// How much of a row is wasted, in thousandths.
    fn waste(&self, band: &Band) -> i128 {
        let mut area = 0i128;
        band.each(self.prepared, |item, count| area += self.prepared.items[item].area * i128::from(count));
        let all = i128::from(band.along) * i128::from(self.prepared.stretches[band.stretch].width);
        1000 - area.saturating_mul(1000) / all
    }

    /// Raises the values of pieces in wasteful rows and lowers those in full rows.
    fn correct(&self, plan: &Plan, values: &mut [i64]) {
        let mut sums: Vec<(i128, i128)> = vec![(0, 0); values.len()];
        for band in &plan.bands {
            let used = (1000 - self.waste(band)).max(50);
            band.each(self.prepared, |item, count| {
                let times = i128::from(count) * i128::from(band.times);
                sums[item].0 += times * 1_000_000 / used;
                sums[item].1 += times;
            });
        }
        for ((value, (sum, times)), &plain) in values.iter_mut().zip(sums).zip(&self.plain) {
            if times > 0 {
                let paid = i128::from(plain) * (sum / times) / 1000;
                let mixed = (i128::from(*value) * 2 + paid) / 3;
                *value = i64::try_from(mixed).unwrap_or(i64::MAX);
            }
        }
    }

    /// Adds rows for the pieces in `left` to `bands`.
    fn complete(&mut self, bands: Vec<Band>, left: Vec<i64>, values: &[i64], options: RowOptions) -> Plan {
        let mut plan = Plan { bands, missing: left };
        let ends = plan.ends(self.prepared);
        for (stretch, mut from) in ends.into_iter().enumerate() {
            while plan.missing.iter().any(|&count| count > 0) {
                let Some(mut band) = self.row(stretch, from, &mut plan.missing, values, options) else { break };
                band.each(self.prepared, |item, count| plan.missing[item] -= count);
                let length = self.prepared.stretches[stretch].length;
                let mut often = times(self.prepared, &band, from, length, &plan.missing);
                if often > 1 && self.rng.usize(0..options.sparing) == 0 {
                    often = self.rng.i64(1..=often);
                }
                band.each(self.prepared, |item, count| plan.missing[item] -= count * (often - 1));
                band.times = often;
                from = band.last_end(self.prepared, from);
                plan.bands.push(band);
                // Without steps the plan is still finished, in the simplest manner.
                self.spend();
            }
        }
        plan
    }

    /// The best of several row lengths, by value for the length it takes.
    fn row(
        &mut self,
        stretch: usize,
        from: i64,
        left: &mut [i64],
        values: &[i64],
        options: RowOptions,
    ) -> Option<Band> {
        let prepared = self.prepared;
        let width = prepared.stretches[stretch].width;
        let free_length = prepared.stretches[stretch].length.map_or(ENDLESS, |length| length - from);
        let usable: Vec<usize> = (0..prepared.shapes.len())
            .filter(|&at| {
                let shape = &prepared.shapes[at];
                left[shape.item] > 0 && shape.across <= width && {
                    let lead = Starts::next_of(prepared.items[shape.item].starts, from) - from;
                    lead + shape.along <= free_length
                }
            })
            .collect();
        let (longest, longest_shape) = longest(prepared, &usable)?;
        let mut best: Option<Found> = None;
        let is_limited = prepared.stretches[stretch].length.is_some();
        let rest = line(prepared, &usable, left, width);
        for attempt in 0..options.tries.max(1) {
            let (mut opener, mut along) = (longest_shape, longest);
            if attempt > 0 || is_limited {
                opener = usable[self.rng.usize(0..usable.len())];
                let most = left[prepared.shapes[opener].item];
                along =
                    self.drawn(prepared.shapes[opener].along, most, rest, is_limited.then_some(free_length), &usable);
                if options.longest_first && along < longest {
                    along = longest.max(along * 2);
                }
            }
            let starts = prepared.items[prepared.shapes[opener].item].starts;
            let lead = Starts::next_of(starts, from) - from;
            // The gap before the next mark may hold a row of pieces without marks.
            if lead > 0 && self.rng.u8(0..4) == 0 {
                let request = RowRequest { width, from, along: lead, overhang: 0, only_whole: true };
                let (stacks, value) = self.filler.fill(request, left, values);
                if !stacks.is_empty() {
                    keep(prepared, &mut best, from..from + free_length, value, stacks);
                    continue;
                }
            }
            let begin = if starts.is_some() && self.rng.u8(0..4) > 0 { from + lead } else { from };
            along = along
                .max(Starts::next_of(starts, begin) - begin + prepared.shapes[opener].along)
                .min(free_length - (begin - from));
            let overhang = if self.rng.bool() { overhang(prepared, along) } else { 0 };
            let only_whole = self.rng.u8(0..4) > 0;
            let request = RowRequest { width, from: begin, along, overhang, only_whole };
            let (stacks, value) = self.filler.fill(request, left, values);
            if stacks.is_empty() {
                continue;
            }
            // The columns may begin before the planned start of the row, as soon as the cloth is free.
            keep(prepared, &mut best, from..from + free_length, value, stacks);
            if !self.spend() {
                break;
            }
        }
        // As a last resort, a row of one piece.
        let stacks = best.map_or_else(|| vec![single(prepared, longest_shape)], |(_, _, stacks)| stacks);
        Some(Band::new(prepared, stretch, stacks, 1))
    }

    /// Draws the length of a row for a piece of length `along`, of which there are `most`: so long, or so long that
    /// several lie one above the other. With `rest` a row takes all pieces left; with `end` the cloth ends.
    fn drawn(&mut self, along: i64, most: i64, rest: i64, end: Option<i64>, usable: &[usize]) -> i64 {
        match (self.rng.u8(0..10), end) {
            (0 | 1, _) => along + self.prepared.shapes[usable[self.rng.usize(0..usable.len())]].along,
            (2, _) => along * self.rng.i64(2..=4),
            (3, Some(end)) => end,
            (4, _) if !self.lasting.is_empty() => {
                let lasting = self.lasting[self.rng.usize(0..self.lasting.len())];
                along * (lasting / along + self.rng.i64(0..=1)).clamp(1, most)
            }
            (5, _) => along * self.rng.i64(1..=most.min(40)),
            (6, _) => along * (rest / along + self.rng.i64(0..=1)).clamp(1, most),
            _ => along,
        }
    }
}

/// The longest piece, in its shorter orientation: its length and its shape.
fn longest(prepared: &Prepared, usable: &[usize]) -> Option<(i64, usize)> {
    let of = |&shape: &usize| (prepared.shapes[shape].item, prepared.shapes[shape].along, shape);
    let mut shortest: Vec<(usize, i64, usize)> = usable.iter().map(of).collect();
    shortest.sort_unstable();
    shortest.dedup_by_key(|(item, ..)| *item);
    shortest.into_iter().map(|(_, along, shape)| (along, shape)).rev().max_by_key(|(along, _)| *along)
}

/// The length of a row as wide as the cloth with all pieces left; a kind counts once, shared by its orientations.
fn line(prepared: &Prepared, usable: &[usize], left: &[i64], width: i64) -> i64 {
    let area = |&shape: &usize| {
        let at = prepared.shapes[shape].item;
        let item = &prepared.items[at];
        item.area * i128::from(left[at]) / i128::from(number::from_size(item.shapes.len()))
    };
    i64::try_from(usable.iter().map(area).sum::<i128>() / i128::from(width)).unwrap_or(i64::MAX)
}

/// A column of one piece.
fn single(prepared: &Prepared, shape: usize) -> Stack {
    Stack { width: prepared.shapes[shape].across, piles: vec![Pile { shape, times: 1 }], times: 1 }
}

/// A row: its value, the length it takes, its columns.
type Found = (i64, i64, Vec<Stack>);

/// Keeps the row with more value for the length it takes, if it lies within the cloth that is free.
fn keep(prepared: &Prepared, best: &mut Option<Found>, free: std::ops::Range<i64>, value: i64, stacks: Vec<Stack>) {
    let end = stacks.iter().map(|stack| stack.end(prepared, free.start)).max().unwrap_or(free.start);
    let taken = end - free.start;
    let is_better = best
        .as_ref()
        .is_none_or(|(old, length, _)| i128::from(value) * i128::from(*length) > i128::from(*old) * i128::from(taken));
    if is_better && end <= free.end {
        *best = Some((value, taken, stacks));
    }
}

#[cfg(test)]
mod tests;
