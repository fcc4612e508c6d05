//! Exhaustive search for a handful of pieces: the result is the best there is.
//!
//! Any plan can be pushed together towards the near end and the edge, then built up piece by piece with each in a
//! corner of the envelope: the area left of, and before, some piece placed earlier (Martello, Pisinger and Vigo, The
//! three-dimensional bin packing problem, 2000; Martello, Monaci and Vigo, An exact approach to the strip-packing
//! problem, 2003; from memory). Pieces that follow a pattern are pushed only from start to start, pieces at the edge
//! only along it; the argument still holds. Partial plans with the same envelope and the same pieces left are visited
//! once.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use super::meter::Meter;
use super::prepared::{Layout, Prepared, ShapePlacement, wide};
use crate::number;

/// The most partial plans remembered.
const REMEMBERED: usize = 400_000;

/// The result of the search.
pub(super) struct Outcome {
    /// A plan better than the one it was given, if there was one.
    pub(super) better: Option<Layout>,
    /// Everything was searched: nothing is better.
    pub(super) finished: bool,
}

/// Searches for plans better than `known`, down to `bound`.
pub(super) fn search(prepared: &Prepared, known: &Layout, bound: i64, meter: &mut Meter<'_, '_>) -> Outcome {
    let mut search = ExactSearch::new(prepared, (known.missing, known.length), bound);
    search.extend(0, &[(0, 0)], &mut prepared.counts(), prepared.area(), meter);
    Outcome { better: search.found.map(|placements| prepared.layout(placements)), finished: search.finished }
}

struct ExactSearch<'a> {
    prepared: &'a Prepared,
    sizes: Vec<i128>,
    fits_last: Vec<bool>,
    behind: Vec<i128>,
    bound: i64,
    /// Area left out and length of the best plan known.
    best: (i128, i64),
    found: Option<Vec<ShapePlacement>>,
    placements: Vec<ShapePlacement>,
    seen: BTreeSet<Vec<i64>>,
    finished: bool,
    /// Whether nothing can be better.
    met: bool,
}

impl<'a> ExactSearch<'a> {
    fn new(prepared: &'a Prepared, best: (i128, i64), bound: i64) -> Self {
        let mut fits_last = vec![false; prepared.items.len()];
        if let Some(last) = prepared.endless() {
            for shape in &prepared.shapes {
                fits_last[shape.item] |= shape.across <= prepared.stretches[last].width;
            }
        }
        // Space of the limited stretches from each one on.
        let mut behind = vec![0i128; prepared.stretches.len() + 1];
        for (index, stretch) in prepared.stretches.iter().enumerate().rev() {
            behind[index] = behind[index + 1] + i128::from(stretch.width) * i128::from(stretch.length.unwrap_or(0));
        }
        Self {
            prepared,
            sizes: prepared.sizes(),
            fits_last,
            behind,
            bound,
            best,
            found: None,
            placements: Vec::new(),
            seen: BTreeSet::new(),
            finished: true,
            met: false,
        }
    }

    /// Tries everything that can follow a partial plan: stretch, corners of its envelope, pieces left, their area.
    fn extend(
        &mut self,
        stretch: usize,
        corners: &[(i64, i64)],
        left: &mut [usize],
        remaining: i128,
        meter: &mut Meter<'_, '_>,
    ) {
        if !meter.spend(60) {
            self.finished = false;
            return;
        }
        let is_last = stretch + 1 == self.prepared.stretches.len();
        let endless = is_last && self.prepared.endless().is_some();
        if is_last || remaining == 0 {
            self.consider(endless, left, remaining);
        }
        if remaining == 0
            || self.is_hopeless(stretch, endless, corners, left, remaining)
            || !self.is_new(stretch, corners, left)
        {
            return;
        }
        let width = self.prepared.stretches[stretch].width;
        let limit = self.prepared.stretches[stretch].length;
        for index in 0..self.prepared.shapes.len() {
            let shape = &self.prepared.shapes[index];
            let (item, across, along, at_edge) = (shape.item, shape.across, shape.along, shape.at_edge);
            if left[item] == 0 {
                continue;
            }
            for (at, &(place, height)) in corners.iter().enumerate() {
                if (at_edge && at > 0) || place + across > width {
                    break;
                }
                let start = self.prepared.shapes[index].start(height);
                // The piece could move further left: another corner covers this.
                if at > 0 && corners[at - 1].1 <= start {
                    continue;
                }
                let end = start + along;
                if limit.is_some_and(|limit| end > limit) || (endless && self.is_too_long(end, left)) {
                    continue;
                }
                let next = raised(corners, place, place + across, end, width);
                left[item] -= 1;
                self.placements.push(ShapePlacement { shape: index, stretch, along: start, across: place });
                self.extend(stretch, &next, left, remaining - self.sizes[item], meter);
                self.placements.pop();
                left[item] += 1;
                if self.met {
                    return;
                }
            }
        }
        if !is_last {
            self.extend(stretch + 1, &[(0, 0)], left, remaining, meter);
        }
    }

    /// Area that stays out for certain, once the last stretch is being filled.
    fn stays_out(&self, left: &[usize]) -> i128 {
        (0..left.len())
            .filter(|&item| !self.fits_last[item])
            .map(|item| self.sizes[item] * i128::from(wide(left[item])))
            .sum()
    }

    /// Keeps the current plan if it is complete and better than the best.
    fn consider(&mut self, endless: bool, left: &[usize], remaining: i128) {
        let out = if endless { self.stays_out(left) } else { remaining };
        if endless && remaining > out {
            return;
        }
        let last = self.prepared.endless();
        let ends = self.placements.iter().filter(|placement| Some(placement.stretch) == last);
        let length =
            ends.map(|placement| placement.along + self.prepared.shapes[placement.shape].along).max().unwrap_or(0);
        if (out, length) < self.best {
            self.best = (out, length);
            self.found = Some(self.placements.clone());
            self.met = out == 0 && length <= self.bound;
        }
    }

    /// Whether a piece that ends there makes the plan no better than the best.
    fn is_too_long(&self, end: i64, left: &[usize]) -> bool {
        (self.stays_out(left), end) >= self.best
    }

    /// Whether nothing better can follow.
    fn is_hopeless(
        &self,
        stretch: usize,
        endless: bool,
        corners: &[(i64, i64)],
        left: &[usize],
        remaining: i128,
    ) -> bool {
        let width = self.prepared.stretches[stretch].width;
        let covered = envelope_area(corners, width);
        if endless {
            let out = self.stays_out(left);
            if out != self.best.0 {
                return out > self.best.0;
            }
            return covered + (remaining - out) > i128::from(self.best.1 - 1) * i128::from(width);
        }
        let here = i128::from(width) * i128::from(self.prepared.stretches[stretch].length.unwrap_or(0)) - covered;
        let ends = here + self.behind[stretch + 1];
        match self.prepared.endless() {
            None => remaining - ends >= self.best.0,
            Some(last) if self.best.0 == 0 => {
                remaining - ends > i128::from(self.best.1 - 1) * i128::from(self.prepared.stretches[last].width)
            }
            Some(_) => false,
        }
    }

    /// Whether this state is new; states beyond the memory limit count as new.
    fn is_new(&mut self, stretch: usize, corners: &[(i64, i64)], left: &[usize]) -> bool {
        let counts = std::iter::once(stretch).chain(left.iter().copied()).map(number::from_size);
        let state: Vec<i64> = counts.chain(corners.iter().flat_map(|&(across, top)| [across, top])).collect();
        if self.seen.len() < REMEMBERED { self.seen.insert(state) } else { !self.seen.contains(&state) }
    }
}

/// The corners of an envelope after adding everything left of `to` and before `end`.
fn raised(corners: &[(i64, i64)], from: i64, to: i64, end: i64, width: i64) -> Vec<(i64, i64)> {
    let mut next: Vec<(i64, i64)> = Vec::new();
    for &(across, top) in corners.iter().take_while(|&&(across, _)| across < from) {
        if top > end {
            next.push((across, top));
        }
    }
    // The added step begins where the steps above it end.
    let begin = corners.iter().find(|&&(_, top)| top <= end).map_or(from, |&(across, _)| across);
    next.push((begin, end));
    if to < width {
        let behind = corners.iter().rposition(|&(across, _)| across <= to).unwrap_or(0);
        next.push((to, corners[behind].1));
        next.extend(corners[behind + 1..].iter().copied());
    }
    next
}

fn envelope_area(corners: &[(i64, i64)], width: i64) -> i128 {
    let mut area = 0;
    for (at, &(across, top)) in corners.iter().enumerate() {
        let to = corners.get(at + 1).map_or(width, |&(across, _)| across);
        area += i128::from(to - across) * i128::from(top);
    }
    area
}
