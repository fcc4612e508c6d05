//! Rectangles placed freely on lengths of fixed width, so that the least length is used.
//!
//! First a plain plan (best-fit on the skyline), then, for a handful of pieces, every plan worth looking at, else
//! searches for shorter and shorter lengths until the bound is met or the steps are spent: beam searches on the
//! skyline, and a local search over the order of the pieces, on two threads, along the stretch and sideways. Each
//! method names its source in its own file.
//!
//! Pieces may be turned a quarter, be bound to the edge `across = 0` (cut on a fold), or start only at certain places
//! along (a pattern that must match). Stretches with an end come before the endless one and are filled so that the
//! least of that is needed; among stretches with an end only, as much area as possible is placed.
//!
//! It never cuts, joins or tilts a piece, knows no cloth and no clock, and takes sizes as they are: whoever needs room
//! for the blade adds it to the sizes.

mod bars;
mod beam;
mod bound;
mod climb;
mod exact;
mod meter;
mod order;
mod parts;
mod plain;
mod skyline;
#[cfg(test)]
mod tests;

use beam::Guide;
use climb::{Climber, Manner, Way};
use meter::{Meter, WORK};
use parts::{Layout, Parts};

use super::effort::{Progress, Steps};

/// Equal pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Rectangle {
    pub(super) along: i64,
    pub(super) across: i64,
    pub(super) count: i64,
    /// May be turned a quarter.
    pub(super) quarter: bool,
    /// Must touch `across = 0`; such a piece is not turned.
    pub(super) at_edge: bool,
    /// Where it may begin along the stretch; anywhere if not said.
    pub(super) starts: Option<Starts>,
}

/// The places `first`, `first + every`, `first + 2·every` …
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Starts {
    pub(super) first: i64,
    pub(super) every: i64,
}

/// A length of fixed width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stretch {
    pub(super) width: i64,
    /// None: as long as needed, which only the last may be.
    pub(super) length: Option<i64>,
}

/// What is to be placed on what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Problem {
    pub(super) stretches: Vec<Stretch>,
    pub(super) rectangles: Vec<Rectangle>,
}

/// One piece where it lies: its corner nearest to the beginning and the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Spot {
    pub(super) rectangle: usize,
    pub(super) stretch: usize,
    pub(super) along: i64,
    pub(super) across: i64,
    pub(super) turned: bool,
}

/// A plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Answer {
    /// Stretch by stretch, in the order along it.
    pub(super) spots: Vec<Spot>,
    /// Used of the endless stretch; 0 without one.
    pub(super) length: i64,
    /// Entries with pieces left out, and how many: too large for every stretch, or no place was found for them.
    pub(super) unplaced: Vec<(usize, i64)>,
    /// No plan that places as much uses less of the endless stretch; 0 without one.
    pub(super) bound: i64,
    /// No plan places more area, and none that places as much is shorter.
    pub(super) proved: bool,
}

/// Up to so many pieces, on as many stretches, every plan worth looking at is looked at.
const FEW: usize = 9;
/// Of the steps, the search that looks at everything gets one part in so many before the others; the rest comes last.
const EXACT_SHARE: u64 = 2;
/// From so many steps on two threads share them.
const SHARED: u64 = 60_000;

/// A plan for the problem; none if it is no problem: sizes below one, negative counts, an endless stretch that is not
/// the last, more than four million pieces, or sizes beyond all reason.
pub(super) fn solve(problem: &Problem, seed: u64, steps: &mut Steps<'_>) -> Option<Answer> {
    let parts = Parts::new(problem)?;
    let mut run = Run { parts: &parts, best: plain::construct(&parts), bound: bound::bound(&parts), proved: false };
    run.tell(steps);
    run.search(seed, steps);
    let Run { best, mut bound, mut proved, .. } = run;
    if proved && best.missing == 0 {
        bound = best.length;
    }
    proved |= best.meets(bound);
    let (spots, unplaced) = parts.named(&best);
    Some(Answer {
        spots,
        length: parts.real_length(best.length),
        unplaced,
        bound: parts.real_length(bound.min(best.length)),
        proved,
    })
}

/// A search under way.
struct Run<'a> {
    parts: &'a Parts,
    best: Layout,
    bound: i64,
    proved: bool,
}

impl Run<'_> {
    fn tell(&self, steps: &Steps<'_>) {
        if self.parts.endless().is_some() {
            steps.tell(Progress {
                best: self.parts.real_length(self.best.length),
                bound: self.parts.real_length(self.bound.min(self.best.length)),
            });
        }
    }

    fn is_done(&self) -> bool {
        self.proved || self.best.meets(self.bound)
    }

    fn take(&mut self, better: Option<Layout>, steps: &Steps<'_>) {
        if let Some(better) = better
            && better.is_better_than(&self.best)
        {
            self.best = better;
            self.tell(steps);
        }
    }

    fn search(&mut self, seed: u64, steps: &mut Steps<'_>) {
        if self.is_done() {
            return;
        }
        if self.parts.pieces <= FEW && self.parts.rooms.len() <= FEW {
            let mut share = steps.apart(steps.left() / EXACT_SHARE);
            let outcome = exact::search(self.parts, &self.best, self.bound, &mut Meter::new(&mut share, WORK));
            self.take(outcome.better, steps);
            self.proved = outcome.finished;
            if self.is_done() {
                return;
            }
        }
        // A tenth of the steps at most for what tells how good the plan is.
        let mut tenth = steps.apart(steps.left() / 10);
        self.bound = self.bound.max(bound::harder(self.parts, &mut Meter::new(&mut tenth, WORK)));
        if self.is_done() {
            return;
        }
        let (upright, across) = manners();
        if steps.left() < SHARED {
            let better = Climber::new([upright, across].concat(), seed).climb(
                self.parts,
                &self.best,
                self.bound,
                &mut Meter::new(steps, WORK),
            );
            self.take(better, steps);
            return;
        }
        let (mut one, mut other) = (Climber::new(upright, seed), Climber::new(across, !seed));
        let mut share = steps.left() / 64;
        while !self.is_done() && steps.take(0) {
            share = (share * 2).min(steps.left() / 2 + 1);
            let (mut mine, mut yours) = (steps.apart(share), steps.apart(share));
            let (parts, best, bound) = (self.parts, &self.best, self.bound);
            let (left, right) = std::thread::scope(|scope| {
                let beside = scope.spawn(|| other.climb(parts, best, bound, &mut Meter::new(&mut yours, WORK * 2)));
                let left = one.climb(parts, best, bound, &mut Meter::new(&mut mine, WORK * 2));
                (left, beside.join().ok().flatten())
            });
            self.take(left, steps);
            self.take(right, steps);
        }
    }
}

/// The manners of the two climbers: what did well together, over a range of problems.
fn manners() -> (Vec<Manner>, Vec<Manner>) {
    let guide = Guide { power: 1, rough: 0.1, narrowest: true, low_wall: false, owed: 1.0 };
    let fine = Guide { rough: 0.02, ..guide };
    let beam = |guide: Guide| Manner { way: Way::Beam(guide), sideways: false };
    let orders = Manner { way: Way::Orders, sideways: false };
    let turned = Manner { sideways: true, ..orders };
    let upright = vec![beam(guide), orders, turned, beam(fine)];
    let lowest = Guide { narrowest: false, owed: 0.0, ..fine };
    let steep = Guide { narrowest: false, low_wall: true, owed: 0.0, ..guide };
    let across =
        vec![beam(lowest), Manner { sideways: true, ..orders }, Manner { sideways: true, ..beam(fine) }, beam(steep)];
    (upright, across)
}
