//! Rectangles placed anywhere on stretches, on the least length.
//!
//! Stages: a plain layout (best fit on the skyline); an exhaustive search for a handful of pieces; then searches for
//! shorter and shorter lengths until the bound is met or the steps are spent: beam searches on the skyline and a
//! local search over the order of the pieces, on two threads, along the stretch and sideways. Each method names its
//! source in its own file.
//!
//! With an endless stretch, which comes last, as little as possible of it is used; without, as much area as possible
//! is placed. Pieces at the edge are not turned. With a loss no piece is turned, and a solution of a problem whose
//! pieces may be turned is then never called proved.
//!
//! ```
//! use shirr_packing::{Rectangle, RectangleProblem, Steps, Watch, rectangles};
//! use std::sync::atomic::AtomicBool;
//!
//! // Two of 60 by 50 fill the width, and the two of 30 by 25 lie side by side behind them.
//! let wanted = vec![Rectangle::new(60, 50, 2), Rectangle::new(30, 25, 2)];
//! let stop = AtomicBool::new(false);
//! let mut steps = Steps::new(10_000, Watch::silent(&stop));
//! let solution = rectangles::solve(&RectangleProblem::endless(100, wanted), 1, &mut steps)?;
//! assert_eq!((solution.length, solution.placements.len(), solution.proved), (90, 4, true));
//! # Ok::<(), shirr_packing::Unsolved>(())
//! ```

mod beam;
mod bound;
mod climb;
mod exact;
mod meter;
mod order;
mod plain;
mod prepared;
mod skyline;
#[cfg(test)]
mod tests;

use crate::effort::{Progress, Steps};
use crate::problem::{RectangleProblem, Unsolved};
use crate::solution::StripSolution;
use crate::soundness;
use beam::Guide;
use climb::{ClimbMethod, Climber, Construction};
use meter::{Meter, WORK};
use prepared::{Layout, Prepared};

/// The most pieces, and stretches, for which the search is exact.
const FEW: usize = 9;
/// The exact search comes first and gets one part in this many of the steps.
const EXACT_SHARE: u64 = 2;
/// The fewest steps that two threads share.
const SHARED: u64 = 60_000;

/// The best solution found within the steps; `seed` seeds the random choices.
///
/// # Errors
/// [`Unsolved::Malformed`] without a stretch, with an endless one before the last, for a size or a stretch below one, a
/// negative count or loss, more than 4,000,000 pieces, and where all pieces in one line are longer than 2^60.
pub fn solve(problem: &RectangleProblem, seed: u64, steps: &mut Steps<'_>) -> Result<StripSolution, Unsolved> {
    let prepared = Prepared::new(problem).ok_or(Unsolved::Malformed)?;
    let mut run = RectangleSearch {
        prepared: &prepared,
        best: plain::construct(&prepared),
        bound: bound::bound(&prepared),
        proved: false,
    };
    run.report(steps);
    run.search(seed, steps);
    let RectangleSearch { best, mut bound, mut proved, .. } = run;
    if proved && best.missing == 0 {
        bound = best.length;
    }
    proved |= best.meets(bound);
    let (placements, unplaced) = prepared.named(&best);
    // A quarter turn that was not tried because of the loss could be shorter than the bound says.
    let holds = problem.loss == 0 || problem.rectangles.iter().all(|one| !one.quarter);
    let solution = StripSolution {
        placements,
        length: prepared.real_length(best.length),
        unplaced,
        bound: if holds { prepared.real_length(bound.min(best.length)) } else { 0 },
        proved: proved && holds,
    };
    debug_assert_eq!(soundness::rectangles(problem, &solution), Ok(()));
    Ok(solution)
}

/// The state of a search.
struct RectangleSearch<'a> {
    prepared: &'a Prepared,
    best: Layout,
    bound: i64,
    proved: bool,
}

impl RectangleSearch<'_> {
    fn report(&self, steps: &Steps<'_>) {
        if self.prepared.endless().is_some() {
            steps.report(Progress {
                best: self.prepared.real_length(self.best.length),
                bound: self.prepared.real_length(self.bound.min(self.best.length)),
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
            self.report(steps);
        }
    }

    fn search(&mut self, seed: u64, steps: &mut Steps<'_>) {
        if self.is_done() {
            return;
        }
        if self.prepared.pieces <= FEW && self.prepared.stretches.len() <= FEW {
            let mut share = steps.apart(steps.left() / EXACT_SHARE);
            let outcome = exact::search(self.prepared, &self.best, self.bound, &mut Meter::new(&mut share, WORK));
            self.take(outcome.better, steps);
            self.proved = outcome.finished;
            if self.is_done() {
                return;
            }
        }
        let (upright, across) = methods();
        if steps.left() < SHARED {
            let better = Climber::new([upright, across].concat(), seed).climb(
                self.prepared,
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
            share = next_share(share, steps.left());
            let (mut mine, mut yours) = (steps.apart(share), steps.apart(share));
            let (prepared, best, bound) = (self.prepared, &self.best, self.bound);
            let (left, right) = std::thread::scope(|scope| {
                let handle = scope.spawn(|| other.climb(prepared, best, bound, &mut Meter::new(&mut yours, WORK * 2)));
                let left = one.climb(prepared, best, bound, &mut Meter::new(&mut mine, WORK * 2));
                (left, handle.join().ok().flatten())
            });
            self.take(left, steps);
            self.take(right, steps);
        }
    }
}

/// What each of two threads takes after a round of so many steps each: twice as many, until all that is left is shared.
fn next_share(share: u64, left: u64) -> u64 {
    (share * 2).min(left / 2 + 1)
}

/// The methods of the two climbers, which together did well over a range of problems.
fn methods() -> (Vec<ClimbMethod>, Vec<ClimbMethod>) {
    let guide = Guide { power: 1, rough: 0.1, narrowest: true, low_wall: false, expected_waste_share: 1.0 };
    let fine = Guide { rough: 0.02, ..guide };
    let beam = |guide: Guide| ClimbMethod { construction: Construction::Beam(guide), sideways: false };
    let orders = ClimbMethod { construction: Construction::Orders, sideways: false };
    let turned = ClimbMethod { sideways: true, ..orders };
    let upright = vec![beam(guide), orders, turned, beam(fine)];
    let lowest = Guide { narrowest: false, expected_waste_share: 0.0, ..fine };
    let steep = Guide { narrowest: false, low_wall: true, expected_waste_share: 0.0, ..guide };
    let across = vec![
        beam(lowest),
        ClimbMethod { sideways: true, ..orders },
        ClimbMethod { sideways: true, ..beam(fine) },
        beam(steep),
    ];
    (upright, across)
}
