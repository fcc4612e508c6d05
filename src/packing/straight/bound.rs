//! Lower bounds on the length.
//!
//! Any line across the cloth meets pieces that fit side by side. So if every shape has a value for each unit of its
//! length, and no choice that fits side by side has a value above `K`, the cloth is at least as long as the value of
//! all pieces divided by `K`. Every bound here is of this kind and checked in whole numbers, wherever the values came
//! from: the width of a shape gives the area bound, one for each shape at the edge gives the length of those in a
//! line, and the prices of a linear program (the bar relaxation) give the best bound.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::bars::{self, BarProblem, BarShape};
use super::prepared::{Prepared, next_multiple};
use crate::effort::Steps;
use crate::number;
use crate::problem::Starts;

/// The most sets of marks considered one by one.
const MOST_MARKS: usize = 4;

/// Lengths as the bounds use them.
struct Lengths {
    /// Of each shape.
    along: Vec<i64>,
    /// Of each limited stretch.
    limited: Vec<i64>,
    /// Added to a bound on the sum.
    lead: i64,
    /// A common divisor of all of them; 0 if they are no sums.
    unit: i64,
}

impl Lengths {
    /// If all pieces begin at the same marks, each takes whole repeats, except that the last one may end earlier.
    fn new(prepared: &Prepared) -> Self {
        let mut used = prepared.items.iter().filter(|item| item.count > 0).map(|item| item.starts);
        let first = used.next().flatten().filter(|first| used.all(|other| other == Some(*first)));
        let is_used = |item: usize| prepared.items[item].count > 0;
        let plain = prepared.shapes.iter().map(|shape| shape.along);
        let along: Vec<i64> = match first {
            Some(starts) => plain.map(|along| next_multiple(along, starts.every)).collect(),
            None => plain.collect(),
        };
        let of_use = || along.iter().zip(&prepared.shapes).filter(|(_, shape)| is_used(shape.item));
        let trim = of_use().map(|(along, shape)| along - shape.along).max().unwrap_or_default();
        let start = Starts::next_of(first, 0);
        let limited = prepared.stretches.iter().filter_map(|stretch| stretch.length);
        let limited = limited.map(|length| (length + trim - start).max(0)).collect();
        // With marks of several kinds the lengths are no sums.
        let is_sum = first.is_some() || !prepared.is_marked;
        let unit = if is_sum { of_use().fold(0, |unit, (&along, _)| number::gcd(unit, along)) } else { 0 };
        Self { along, limited, lead: start - trim - prepared.loss, unit }
    }

    /// The length of the endless stretch if pieces of value `values` per shape come to at most `caps` across each
    /// stretch.
    fn proven(&self, prepared: &Prepared, values: &[i64], caps: &[i64]) -> i64 {
        let Some((&cap, limited)) = caps.split_last() else { return 0 };
        if cap <= 0 || caps.contains(&i64::MAX) {
            return 0;
        }
        let least = |item: &super::prepared::PreparedItem| {
            let each = item.shapes.iter().map(|&shape| i128::from(values[shape]) * i128::from(self.along[shape]));
            each.min().unwrap_or(0).saturating_mul(i128::from(item.count))
        };
        let wanted: i128 = prepared.items.iter().map(least).fold(0, i128::saturating_add);
        let held = |(&length, &cap): (&i64, &i64)| i128::from(length) * i128::from(cap);
        let left = wanted - self.limited.iter().zip(limited).map(held).sum::<i128>();
        let cap = i128::from(cap);
        self.raised(i64::try_from((left + cap - 1) / cap).unwrap_or_default())
    }

    /// Turns a bound on the sum of lengths into one on the length of the cloth.
    fn raised(&self, sum: i64) -> i64 {
        let sum = next_multiple(sum, self.unit);
        if sum <= 0 { 0 } else { (sum + self.lead).max(0) }
    }
}

/// The problem with the pieces of each set of marks alone, which take whole repeats; empty if that is the whole
/// problem.
fn parts(prepared: &Prepared) -> Vec<Prepared> {
    let of_use = || prepared.items.iter().filter(|item| item.count > 0);
    let mut marks: Vec<Starts> = Vec::new();
    for starts in of_use().filter_map(|item| item.starts) {
        if marks.len() < MOST_MARKS && !marks.contains(&starts) {
            marks.push(starts);
        }
    }
    let part = |starts: Starts| {
        let mut items = prepared.items.clone();
        for item in items.iter_mut().filter(|item| item.starts != Some(starts)) {
            item.count = 0;
        }
        Prepared { items, shapes: prepared.shapes.clone(), stretches: prepared.stretches.clone(), ..*prepared }
    };
    let is_one = marks.len() == 1 && of_use().all(|item| item.starts.is_some());
    marks.into_iter().filter(|_| !is_one).map(part).collect()
}

/// The bounds that need no search: the area, the wide pieces, the pieces for the edge, the longest piece.
pub(super) fn plain(prepared: &Prepared) -> i64 {
    parts(prepared).iter().map(plain_of).fold(plain_of(prepared), i64::max)
}

fn plain_of(prepared: &Prepared) -> i64 {
    if !prepared.is_endless() {
        return 0;
    }
    let lengths = Lengths::new(prepared);
    let widths: Vec<i64> = prepared.stretches.iter().map(|stretch| stretch.width).collect();
    let wide = widths.last().copied().unwrap_or_default();
    let across: Vec<i64> = prepared.shapes.iter().map(|shape| shape.across).collect();
    let mut best = lengths.proven(prepared, &across, &widths);
    for parts in 2..=6 {
        let least = wide / parts + 1;
        let values: Vec<i64> = across.iter().map(|&across| i64::from(across >= least)).collect();
        let caps: Vec<i64> = widths.iter().map(|width| width / least).collect();
        best = best.max(lengths.proven(prepared, &values, &caps));
    }
    let edge: Vec<i64> = prepared.shapes.iter().map(|shape| i64::from(prepared.items[shape.item].at_edge)).collect();
    best = best.max(lengths.proven(prepared, &edge, &vec![1; widths.len()]));
    for item in prepared.items.iter().filter(|item| item.count > 0) {
        let start = Starts::next_of(item.starts, 0);
        let fits = |shape: &&super::prepared::Shape| {
            prepared.stretches.iter().any(|stretch| {
                stretch.width >= shape.across && stretch.length.is_some_and(|length| start + shape.along <= length)
            })
        };
        let shapes = || item.shapes.iter().map(|&shape| &prepared.shapes[shape]);
        if !shapes().any(|shape| fits(&shape)) {
            let along = shapes().map(|shape| shape.along).min().unwrap_or(0);
            best = best.max(start + along - prepared.loss);
        }
    }
    best
}

/// The bound of the bar relaxation, and the length for which each choice of widths side by side is used in its best
/// solution.
pub(super) fn strong(prepared: &Prepared, steps: &mut Steps<'_>) -> (i64, Vec<i64>) {
    let (bound, lasting) = strong_of(prepared, steps);
    (parts(prepared).iter().map(|part| strong_of(part, steps).0).fold(bound, i64::max), lasting)
}

fn strong_of(prepared: &Prepared, steps: &mut Steps<'_>) -> (i64, Vec<i64>) {
    if !prepared.is_endless() {
        return (0, Vec::new());
    }
    let lengths = Lengths::new(prepared);
    let shape =
        |(shape, &along): (&super::prepared::Shape, &i64)| BarShape { item: shape.item, across: shape.across, along };
    let shapes: Vec<BarShape> = prepared.shapes.iter().zip(&lengths.along).map(shape).collect();
    let widths: Vec<i64> = prepared.stretches.iter().map(|stretch| stretch.width).collect();
    let problem = BarProblem { shapes: &shapes, counts: &prepared.counts(), widths: &widths };
    let proven = |values: &[i64], caps: &[i64]| lengths.proven(prepared, values, caps);
    let found = bars::bound(problem, steps.left() / 4, proven);
    steps.take(found.steps);
    (found.bound, found.lasting)
}

#[cfg(test)]
mod tests;
