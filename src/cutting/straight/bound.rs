//! What no plan can go below.
//!
//! Any line across the cloth meets pieces that fit side by side. So if every shape has a worth for each unit of its
//! length, and no choice that fits side by side is worth more than `K`, the cloth must be as long as the worth of all
//! pieces divided by `K`. Every bound here is of this kind and checked in whole numbers, whatever the worths came from:
//! the width of a shape gives the area bound, one for each shape at the edge the line of those, and the prices of a
//! linear program (the bar relaxation) the best there is.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::super::effort::Steps;
use super::Starts;
use super::front::{Front, Item, Thinning};
use super::simplex::Simplex;
use super::work::{Work, next, up};
use crate::quantity::number;

/// What one price of the linear program is counted in.
const UNIT: i64 = 1 << 30;
/// The most widths for which the linear program is tried.
const MOST_WIDTHS: usize = 150;
/// The most sets of marks that are looked at one by one.
const MOST_MARKS: usize = 4;
/// The most sums of row lengths that are looked at.
const MOST_SUMS: i64 = 400_000;
/// How many choices of a knapsack are looked at in a step.
const LOOKS_A_STEP: usize = 160;

/// The lengths the bounds reckon with.
struct Lengths {
    /// Of each shape.
    along: Vec<i64>,
    /// Of each stretch with an end.
    limited: Vec<i64>,
    /// What to add to a bound on the sum.
    lead: i64,
    /// What all of them are multiples of.
    unit: i64,
}

impl Lengths {
    /// Where all pieces begin at the same marks each takes whole repeats, but for the rest of the last.
    fn new(work: &Work) -> Self {
        let mut used = work.kinds.iter().filter(|kind| kind.count > 0).map(|kind| kind.starts);
        let first = used.next().flatten().filter(|first| used.all(|other| other == Some(*first)));
        let is_used = |kind: usize| work.kinds[kind].count > 0;
        let plain = work.shapes.iter().map(|shape| shape.along);
        let along: Vec<i64> = match first {
            Some(starts) => plain.map(|along| up(along, starts.every)).collect(),
            None => plain.collect(),
        };
        let of_use = || along.iter().zip(&work.shapes).filter(|(_, shape)| is_used(shape.kind));
        let trim = of_use().map(|(along, shape)| along - shape.along).max().unwrap_or(0);
        let start = next(first, 0);
        let limited = work.stretches.iter().filter_map(|stretch| stretch.length);
        let limited = limited.map(|length| (length + trim - start).max(0)).collect();
        // With marks of several kinds the lengths are no sums.
        let is_sum = first.is_some() || !work.is_marked;
        let unit = if is_sum { of_use().fold(0, |unit, (&along, _)| common(unit, along)) } else { 0 };
        Self { along, limited, lead: start - trim - work.loss, unit }
    }

    /// The length of the endless stretch if `worths` per shape are worth no more than `caps` across each stretch.
    fn proven(&self, work: &Work, worths: &[i64], caps: &[i64]) -> i64 {
        let Some((&cap, limited)) = caps.split_last() else { return 0 };
        if cap <= 0 || caps.contains(&i64::MAX) {
            return 0;
        }
        let least = |kind: &super::work::Kind| {
            let each = kind.shapes.iter().map(|&shape| i128::from(worths[shape]) * i128::from(self.along[shape]));
            each.min().unwrap_or(0).saturating_mul(i128::from(kind.count))
        };
        let wanted: i128 = work.kinds.iter().map(least).fold(0, i128::saturating_add);
        let held = |(&length, &cap): (&i64, &i64)| i128::from(length) * i128::from(cap);
        let left = wanted - self.limited.iter().zip(limited).map(held).sum::<i128>();
        if left <= 0 {
            return 0;
        }
        let cap = i128::from(cap);
        self.raised(i64::try_from((left + cap - 1) / cap).unwrap_or(0))
    }

    /// A bound on the sum of lengths as one on the length of the cloth.
    fn raised(&self, sum: i64) -> i64 {
        let sum = if self.unit > 0 { up(sum, self.unit) } else { sum };
        if sum <= 0 { 0 } else { (sum + self.lead).max(0) }
    }
}

fn common(left: i64, right: i64) -> i64 {
    let (mut left, mut right) = (left, right);
    while right != 0 {
        (left, right) = (right, left % right);
    }
    left
}

/// The problem, and beside it what it is with the pieces of one set of marks alone, which take whole repeats.
fn parts(work: &Work) -> Vec<Work> {
    let of_use = || work.kinds.iter().filter(|kind| kind.count > 0);
    let mut marks: Vec<Starts> = Vec::new();
    for starts in of_use().filter_map(|kind| kind.starts) {
        if marks.len() < MOST_MARKS && !marks.contains(&starts) {
            marks.push(starts);
        }
    }
    let part = |starts: Starts| {
        let mut kinds = work.kinds.clone();
        for kind in kinds.iter_mut().filter(|kind| kind.starts != Some(starts)) {
            kind.count = 0;
        }
        Work { kinds, shapes: work.shapes.clone(), stretches: work.stretches.clone(), ..*work }
    };
    let is_one = marks.len() == 1 && of_use().all(|kind| kind.starts.is_some());
    marks.into_iter().filter(|_| !is_one).map(part).collect()
}

/// The bounds that need no search: the area, the wide pieces, the pieces for the edge, the longest piece.
pub(super) fn plain(work: &Work) -> i64 {
    parts(work).iter().map(plain_of).fold(plain_of(work), i64::max)
}

fn plain_of(work: &Work) -> i64 {
    if !work.is_endless() {
        return 0;
    }
    let lengths = Lengths::new(work);
    let widths: Vec<i64> = work.stretches.iter().map(|stretch| stretch.width).collect();
    let wide = widths.last().copied().unwrap_or(0);
    let across: Vec<i64> = work.shapes.iter().map(|shape| shape.across).collect();
    let mut best = lengths.proven(work, &across, &widths);
    for parts in 2..=6 {
        let least = wide / parts + 1;
        let worths: Vec<i64> = across.iter().map(|&across| i64::from(across >= least)).collect();
        let caps: Vec<i64> = widths.iter().map(|width| width / least).collect();
        best = best.max(lengths.proven(work, &worths, &caps));
    }
    let edge: Vec<i64> = work.shapes.iter().map(|shape| i64::from(work.kinds[shape.kind].at_edge)).collect();
    best = best.max(lengths.proven(work, &edge, &vec![1; widths.len()]));
    for kind in work.kinds.iter().filter(|kind| kind.count > 0) {
        let start = next(kind.starts, 0);
        let fits = |shape: &&super::work::Shape| {
            work.stretches.iter().any(|stretch| {
                stretch.width >= shape.across && stretch.length.is_some_and(|length| start + shape.along <= length)
            })
        };
        let shapes = || kind.shapes.iter().map(|&shape| &work.shapes[shape]);
        if !shapes().any(|shape| fits(&shape)) {
            let along = shapes().map(|shape| shape.along).min().unwrap_or(0);
            best = best.max(start + along - work.loss);
        }
    }
    best
}

/// The bound of the bar relaxation, and how long each choice of widths side by side goes on in its best plan.
pub(super) fn strong(work: &Work, steps: &mut Steps<'_>) -> (i64, Vec<i64>) {
    let (bound, lasting) = strong_of(work, steps);
    (parts(work).iter().map(|part| strong_of(part, steps).0).fold(bound, i64::max), lasting)
}

fn strong_of(work: &Work, steps: &mut Steps<'_>) -> (i64, Vec<i64>) {
    if !work.is_endless() {
        return (0, Vec::new());
    }
    let lengths = Lengths::new(work);
    let Some(mut bars) = Bars::new(work, &lengths) else { return (0, Vec::new()) };
    let allowed = steps.left() / 4;
    let mut left = allowed;
    let mut best = 0;
    for _ in 0..bars.widths.len() * 20 + 50 {
        let prices = bars.program.prices();
        let (bound, is_over) = bars.turn(work, &lengths, &prices);
        best = best.max(bound);
        let looked = std::mem::take(&mut bars.front.looked) + bars.rows * bars.rows;
        let Some(rest) = left.checked_sub(u64::try_from(looked / LOOKS_A_STEP + 1).unwrap_or(u64::MAX)) else { break };
        left = rest;
        if is_over {
            break;
        }
    }
    steps.take(allowed - left);
    let levels = bars.program.names.iter().zip(&bars.program.levels).filter(|(name, _)| name.is_some());
    let lasting =
        levels.filter_map(|(_, level)| number::nearest_whole(level * bars.total)).filter(|&length| length > 0);
    (best, lasting.collect())
}

/// The linear program of the bar relaxation.
struct Bars {
    /// The widths of shapes, and how many pieces have one.
    widths: Vec<(i64, i64)>,
    /// Which width each shape has.
    width_of: Vec<usize>,
    /// The kinds that may lie in two ways, each a row after those of the widths.
    turning: Vec<usize>,
    rows: usize,
    /// The sum all lengths are parts of.
    total: f64,
    program: Simplex,
    front: Front,
}

impl Bars {
    fn new(work: &Work, lengths: &Lengths) -> Option<Self> {
        let mut widths: Vec<(i64, i64)> = work.shapes.iter().map(|shape| (shape.across, 0)).collect();
        widths.dedup();
        if widths.is_empty() || widths.len() > MOST_WIDTHS {
            return None;
        }
        let width_of: Vec<usize> =
            work.shapes.iter().map(|shape| widths.partition_point(|&(across, _)| across < shape.across)).collect();
        let total: f64 = work
            .shapes
            .iter()
            .zip(&lengths.along)
            .map(|(shape, &along)| number::from_whole(along) * number::from_whole(work.kinds[shape.kind].count))
            .sum();
        let mut wanted = vec![0.0; widths.len()];
        let mut turning = Vec::new();
        for (at, kind) in work.kinds.iter().enumerate().filter(|(_, kind)| kind.count > 0) {
            for &shape in &kind.shapes {
                widths[width_of[shape]].1 += kind.count;
            }
            if let [shape] = kind.shapes[..] {
                let share = number::from_whole(lengths.along[shape]) * number::from_whole(kind.count) / total;
                wanted[width_of[shape]] += share;
            } else {
                turning.push(at);
                wanted.push(1.0);
            }
        }
        let rows = wanted.len();
        if rows > 2 * MOST_WIDTHS {
            return None;
        }
        let program = Simplex::new(&wanted, vec![10.0; rows]);
        let front = Front::new(3000, Thinning::Promising);
        Some(Self { widths, width_of, turning, rows, total, program, front })
    }

    /// Proves the bound the prices give and takes in the columns they call for; whether there are none.
    fn turn(&mut self, work: &Work, lengths: &Lengths, prices: &[f64]) -> (i64, bool) {
        let whole = |price: f64| number::nearest_whole(price.max(0.0) * number::from_whole(UNIT)).unwrap_or(0);
        let worths: Vec<i64> = prices[..self.widths.len()].iter().map(|&price| whole(price)).collect();
        let mut caps = Vec::with_capacity(work.stretches.len());
        for stretch in &work.stretches {
            self.front.clear(stretch.width);
            for (name, (&(size, most), &worth)) in self.widths.iter().zip(&worths).enumerate() {
                self.front.add(Item { name, size, worth, most });
            }
            caps.push(self.front.last().worth);
        }
        let of_shapes: Vec<i64> = self.width_of.iter().map(|&width| worths[width]).collect();
        let bound = lengths.proven(work, &of_shapes, &caps);
        // The way a kind should lie at these prices.
        let mut is_over = true;
        for (at, &kind) in self.turning.iter().enumerate() {
            let row = self.widths.len() + at;
            let count = number::from_whole(work.kinds[kind].count);
            let share = |shape: usize| number::from_whole(lengths.along[shape]) * count / self.total;
            for &shape in &work.kinds[kind].shapes {
                let width = self.width_of[shape];
                if prices[row] > share(shape) * prices[width] + 1e-9 {
                    is_over &= !self.program.enter(None, 0.0, &[(row, 1.0), (width, -share(shape))]);
                    break;
                }
            }
            if !is_over {
                return (bound, false);
            }
        }
        if let Some(row) = prices[..self.widths.len()].iter().position(|&price| price < -1e-9) {
            return (bound, !self.program.enter(None, 0.0, &[(row, -1.0)]));
        }
        let choice = self.front.last();
        if choice.worth > UNIT + UNIT / 1_000_000 {
            let mut items = Vec::new();
            self.front.items(choice, &mut items);
            let column: Vec<(usize, f64)> =
                items.iter().map(|&(width, times)| (width, number::from_whole(times))).collect();
            is_over = !self.program.enter(Some(0), 1.0, &column);
        }
        (bound, is_over)
    }
}

/// The bound raised to the next length that lengths of rows can add up to; `best` is the length of some plan.
pub(super) fn summed(work: &Work, bound: i64, best: i64, steps: &mut Steps<'_>) -> i64 {
    let lengths = Lengths::new(work);
    if !work.is_endless() || work.is_marked || lengths.unit <= 0 || bound >= best {
        return bound;
    }
    let (from, to) = ((bound - lengths.lead) / lengths.unit, (best - lengths.lead) / lengths.unit + 1);
    let shapes = i64::try_from(work.shapes.len()).unwrap_or(i64::MAX);
    let cost = to.saturating_mul(shapes) / 300 + 1;
    let is_dear = u64::try_from(cost).unwrap_or(u64::MAX) > steps.left() / 10;
    let Some(size) = number::count(to + 1).filter(|_| to <= MOST_SUMS && !is_dear) else { return bound };
    steps.take(u64::try_from(cost).unwrap_or(0));
    // How many of the shape at hand the sum needs at least; none if it cannot be had.
    let mut reached: Vec<bool> = vec![false; size];
    reached[0] = true;
    let mut needed: Vec<i64> = vec![0; size];
    for (shape, &along) in work.shapes.iter().zip(&lengths.along) {
        let Some(step) = number::count(along / lengths.unit) else { continue };
        let count = work.kinds[shape.kind].count;
        for sum in 0..size {
            needed[sum] = 0;
            if !reached[sum] && sum >= step && reached[sum - step] && needed[sum - step] < count {
                reached[sum] = true;
                needed[sum] = needed[sum - step] + 1;
            }
        }
    }
    let from = number::count(from.max(0)).unwrap_or(0);
    let sum = (from..size).find(|&sum| reached[sum]);
    sum.map_or(bound, |sum| (number::from_size(sum) * lengths.unit + lengths.lead).clamp(bound, best))
}
