//! Local search over the order in which pieces are offered to the gaps, for a plan within a given length.
//!
//! A decoder fills the lowest gap with the piece that fits it best, the first in the order among equals. A trial
//! swaps two pieces and keeps the new order if more area was placed, or hardly less (after Leung, Zhang and Sim, A
//! two-stage intelligent search algorithm for the two-dimensional strip packing problem, 2011, for the fit, and Wei,
//! Oon, Zhu and Lim, A skyline heuristic for the 2D rectangular packing and strip packing problems, 2011, for the
//! area placed within an aim as the measure; both from memory).
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

#[cfg(test)]
mod tests;

use super::meter::Meter;
use super::prepared::{Layout, Prepared, Shape, ShapePlacement};
use super::skyline::{Skyline, WALL};
use crate::number;

/// Trials of a cooling cycle, which begins with the largest losses.
const ROUND: u32 = 4000;
/// The mean area, in mean pieces, that a trial may lose at the start of a cycle; losses are seldom more than a few
/// times this.
const BOLD: f64 = 0.02;

/// An order of pieces that is improved from call to call.
#[derive(Clone, Debug)]
pub(super) struct Orders {
    rng: fastrand::Rng,
    order: Vec<usize>,
    trials: u32,
}

impl Orders {
    pub(super) fn new(prepared: &Prepared, seed: u64) -> Self {
        let sizes = prepared.sizes();
        let mut order: Vec<usize> =
            prepared.items.iter().enumerate().flat_map(|(item, of)| std::iter::repeat_n(item, of.count)).collect();
        order.sort_by_key(|&item| std::cmp::Reverse(sizes[item]));
        Self { rng: fastrand::Rng::with_seed(seed), order, trials: 0 }
    }

    /// Searches for a plan that places more area than `least`, with the endless stretch ending at `limit`, until no
    /// more work than `stop` is left.
    pub(super) fn run(
        &mut self,
        prepared: &Prepared,
        limit: i64,
        least: f64,
        stop: u64,
        meter: &mut Meter<'_, '_>,
    ) -> Option<Layout> {
        let mut decoder = Decoder::new(prepared, limit);
        if prepared.items.len() < 2 {
            return None;
        }
        let mean = decoder.total / number::from_count(self.order.len());
        let mut current = decoder.fill(&self.order, f64::NEG_INFINITY)?;
        // Even a search that succeeds at once takes some work, so that repeated calls come to an end.
        if !meter.spend(std::mem::take(&mut decoder.work) / 2 + 1) {
            return (current > least).then(|| prepared.layout(decoder.placements));
        }
        loop {
            if current > least {
                return Some(prepared.layout(decoder.placements));
            }
            if !meter.spend(std::mem::take(&mut decoder.work) / 2 + 1) || meter.left() <= stop {
                return None;
            }
            let trial = self.trials;
            self.trials = trial.wrapping_add(1);
            let (one, other) = (self.rng.usize(..self.order.len()), self.rng.usize(..self.order.len()));
            if self.order[one] == self.order[other] {
                decoder.work += 1;
                continue;
            }
            self.order.swap(one, other);
            match decoder.fill(&self.order, current - loss(self.rng.f64(), trial) * mean) {
                Some(placed) => current = placed,
                None => self.order.swap(one, other),
            }
        }
    }
}

/// The area, in mean pieces, that a trial may lose, from a number drawn between 0 and 1: larger losses are rarer.
fn loss(drawn: f64, trial: u32) -> f64 {
    let cooling = 1.0 - f64::from(trial % ROUND) / f64::from(ROUND);
    -drawn.max(1e-9).ln() * BOLD * cooling
}

/// An orientation of a kind with pieces left.
#[derive(Clone, Copy, Debug)]
struct Offer {
    across: i64,
    along: i64,
    /// Position in the order of the kind's next piece.
    place: usize,
    shape: usize,
    /// Bound to the edge or to a pattern.
    bound: bool,
}

/// Turns an order into a plan.
struct Decoder<'a> {
    prepared: &'a Prepared,
    limit: i64,
    space: f64,
    total: f64,
    /// Every orientation, by falling width.
    all: Vec<Offer>,
    offers: Vec<Offer>,
    /// Positions in the order of the pieces of each kind, kind by kind.
    places: Vec<usize>,
    /// For each kind, indices into `places`: its first, its next, and one past its last.
    queues: Vec<(usize, usize, usize)>,
    line: Skyline,
    placements: Vec<ShapePlacement>,
    work: u64,
}

impl<'a> Decoder<'a> {
    fn new(prepared: &'a Prepared, limit: i64) -> Self {
        let offer = |(shape, of): (usize, &Shape)| Offer {
            across: of.across,
            along: of.along,
            place: 0,
            shape,
            bound: of.at_edge || of.starts.is_some(),
        };
        let mut all: Vec<Offer> = prepared.shapes.iter().enumerate().map(offer).collect();
        all.sort_by_key(|offer| std::cmp::Reverse(offer.across));
        let area = |width: i64, length: i64| number::from_whole(width) * number::from_whole(length);
        let space = prepared.stretches.iter().map(|stretch| area(stretch.width, stretch.length.unwrap_or(limit))).sum();
        let total = number::from_wide(prepared.area());
        let mut queues = Vec::with_capacity(prepared.items.len());
        let mut from = 0;
        for item in &prepared.items {
            queues.push((from, from, from + item.count));
            from += item.count;
        }
        Self {
            prepared,
            limit,
            space,
            total,
            all,
            offers: Vec::new(),
            places: vec![0; from],
            queues,
            line: Skyline::default(),
            placements: Vec::new(),
            work: 0,
        }
    }

    /// Places the pieces in this order; returns the area placed, or `None` if it would be less than `least`.
    fn fill(&mut self, order: &[usize], least: f64) -> Option<f64> {
        self.begin(order);
        let (mut placed, mut waste) = (0.0, 0.0);
        for (index, stretch) in self.prepared.stretches.iter().enumerate() {
            let limit = stretch.length.unwrap_or(self.limit);
            self.line.flat(stretch.width);
            loop {
                if self.offers.is_empty() {
                    return Some(placed);
                }
                let gap = self.line.lowest();
                let step = self.line.steps[gap];
                let walls = self.line.walls(gap);
                self.work += 4;
                let Some(offer) = self.choose(gap, limit) else {
                    let wall = walls.0.min(walls.1);
                    waste += number::from_whole(step.width) * number::from_whole(wall.min(limit) - step.top);
                    if self.space - waste < least || wall == WALL {
                        break;
                    }
                    self.line.raise(gap, step.width, false, wall);
                    continue;
                };
                let shape = &self.prepared.shapes[self.offers[offer].shape];
                let right = walls.0 < walls.1;
                let start = shape.start(step.top);
                let across = if right { step.across + step.width - shape.across } else { step.across };
                waste += number::from_whole(start - step.top) * number::from_whole(shape.across);
                placed += shape.area;
                self.placements.push(ShapePlacement {
                    shape: self.offers[offer].shape,
                    stretch: index,
                    along: start,
                    across,
                });
                self.line.raise(gap, shape.across, right, start + shape.along);
                self.use_up(offer);
            }
            if self.space - waste < least {
                return None;
            }
        }
        (placed >= least).then_some(placed)
    }

    /// Offers every kind again, each at its first position in the order.
    fn begin(&mut self, order: &[usize]) {
        self.placements.clear();
        for queue in &mut self.queues {
            queue.1 = queue.0;
        }
        for (place, &item) in order.iter().enumerate() {
            let queue = &mut self.queues[item];
            self.places[queue.1] = place;
            queue.1 += 1;
        }
        self.offers.clone_from(&self.all);
        for offer in &mut self.offers {
            let queue = &mut self.queues[self.prepared.shapes[offer.shape].item];
            queue.1 = queue.0;
            offer.place = self.places[queue.0];
        }
        self.work += number::from_work(order.len() / 2);
    }

    /// Takes the next piece of the kind offered.
    fn use_up(&mut self, at: usize) {
        let item = self.prepared.shapes[self.offers[at].shape].item;
        let queue = &mut self.queues[item];
        queue.1 += 1;
        if queue.1 < queue.2 {
            let place = self.places[queue.1];
            let old = self.offers[at].place;
            for offer in self.offers.iter_mut().filter(|offer| offer.place == old) {
                offer.place = place;
            }
        } else {
            let old = self.offers[at].place;
            self.offers.retain(|offer| offer.place != old);
        }
    }

    /// The offer that fits a gap best, the first in the order among equals.
    fn choose(&mut self, gap: usize, limit: i64) -> Option<usize> {
        let step = self.line.steps[gap];
        let (left, right) = self.line.walls(gap);
        // Pieces are placed at the higher wall.
        let (near, far) = (left.max(right), left.min(right));
        let (mut best, mut place, mut choice) = (-1, usize::MAX, None);
        let from = self.offers.partition_point(|offer| offer.across > step.width);
        self.work += number::from_work(self.offers.len() - from);
        for (at, offer) in self.offers.iter().enumerate().skip(from) {
            let fit = if offer.bound {
                let shape = &self.prepared.shapes[offer.shape];
                let start = shape.start(step.top);
                let fit = fit(shape.across, start + shape.along, step.width, near, far, limit);
                if shape.at_edge && step.across > 0 {
                    -1
                } else if start > step.top {
                    fit.min(0)
                } else {
                    fit
                }
            } else {
                fit(offer.across, step.top + offer.along, step.width, near, far, limit)
            };
            if fit > best || (fit == best && offer.place < place && fit >= 0) {
                (best, place, choice) = (fit, offer.place, Some(at));
            }
        }
        choice
    }
}

/// How well a piece `across` wide that ends at `end` fits a gap: 4 perfectly, 0 barely, -1 not at all.
fn fit(across: i64, end: i64, width: i64, near: i64, far: i64, limit: i64) -> i32 {
    if end > limit {
        -1
    } else if across < width {
        i32::from(end == near)
    } else if end == near {
        4
    } else if end == far {
        3
    } else {
        2
    }
}
