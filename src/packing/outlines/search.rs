//! Shortens a layout: cuts the strip a little shorter and separates the pieces again, as long as the steps last.

use super::crowd::Crowd;
use super::depths::Depths;
use super::layout::{PosePlacement, Table};
use super::settle;
use crate::effort::{Progress, Steps};
use crate::number;
use fastrand::Rng;
use std::sync::atomic::{AtomicI64, Ordering};

/// The largest and the smallest cut of the strip at once, as shares of its length.
const MOST_CUT: f64 = 0.01;
const LEAST_CUT: f64 = 0.0005;
/// Failures in a row at the least cut after which the search returns to the best layout.
const FAILURES: usize = 4;
/// With fewer steps, or more outlines, a search is not worthwhile.
const FEWEST_STEPS: u64 = 2000;
const MOST_OUTLINES: usize = 80;
/// The fewest steps for which two threads search side by side.
const ENOUGH_FOR_TWO: u64 = 50_000;
/// Shares of the remaining steps for each stage. The first `FRESH_STAGES` stages start from the first layout, because a
/// search depends much on chance; the later ones go on from the best.
const STAGES: [f64; 4] = [0.15, 0.18, 0.5, 1.0];
const FRESH_STAGES: usize = 2;

/// The fewest steps of a round: with few pieces its looks alone come to none, and the search would never end.
const ROUND: u64 = 10;

/// The fixed data of a search.
struct Task<'a> {
    table: &'a Table<'a>,
    depths: &'a Depths,
    bound: i64,
    /// The least length reported so far.
    reported: AtomicI64,
}

/// How much is cut off the strip at once.
#[derive(Debug)]
struct Cut {
    share: f64,
    /// Failures in a row at the least cut.
    failed: usize,
}

impl Cut {
    /// The length of a strip after the cut, not below the bound.
    fn shortened(&self, length: f64, bound: f64) -> f64 {
        (length * (1.0 - self.share)).max(bound)
    }

    fn succeed(&mut self) {
        self.failed = 0;
        self.share = (self.share * 1.2).min(MOST_CUT);
    }

    /// Makes the cut smaller: what almost fits will fit then. At the least cut, gives whether the search returns to the
    /// best layout before it goes on from a changed one.
    fn fail(&mut self) -> Option<bool> {
        if self.share > LEAST_CUT {
            self.share = (self.share * 0.5).max(LEAST_CUT);
            return None;
        }
        self.failed += 1;
        Some(self.failed.is_multiple_of(FAILURES))
    }
}

/// Shortens a valid layout; returns one that is no longer.
pub(super) fn shorten(
    table: &Table<'_>,
    placements: Vec<PosePlacement>,
    seed: u64,
    steps: &mut Steps<'_>,
) -> Vec<PosePlacement> {
    let bound = super::least_length(table, &placements);
    let length = table.length(&placements);
    let hopeless = steps.left() < FEWEST_STEPS || table.prepared.outlines.len() > MOST_OUTLINES;
    if placements.len() < 2 || length <= bound || hopeless {
        return placements;
    }
    let depths = Depths::new(table, steps);
    let task = Task { table, depths: &depths, bound, reported: AtomicI64::new(length) };
    if steps.left() < ENOUGH_FOR_TWO {
        return task.shortened(placements, Rng::with_seed(seed), steps, 1);
    }
    let mut best = placements.clone();
    for (stage, share) in STAGES.into_iter().enumerate() {
        if table.length(&best) <= bound || !steps.take(0) {
            break;
        }
        let each =
            number::nearest_whole(number::from_whole(i64::try_from(steps.left()).unwrap_or(i64::MAX)) * share / 2.0);
        let each = each.map_or(0, i64::unsigned_abs);
        let (mut first, mut second) = (steps.apart(each), steps.apart(each));
        let start = if stage < FRESH_STAGES { placements.clone() } else { best.clone() };
        let stage = number::from_work(stage);
        let rngs = [0, 1].map(|thread| Rng::with_seed(seed.wrapping_mul(64).wrapping_add(stage * 2 + thread)));
        let [rng, other_rng] = rngs;
        let (task, start) = (&task, &start);
        let (one, other) = std::thread::scope(|scope| {
            let handle = scope.spawn(move || task.shortened(start.clone(), other_rng, &mut second, 2));
            let one = task.shortened(start.clone(), rng, &mut first, 2);
            // If a thread panics, the layout of the other is used.
            (one, handle.join().ok())
        });
        for found in [Some(one), other].into_iter().flatten() {
            if table.length(&found) < table.length(&best) {
                best = found;
            }
        }
    }
    best
}

impl Task<'_> {
    /// One thread's search; with `threads` of them, each step covers that many times the work.
    fn shortened(
        &self,
        placements: Vec<PosePlacement>,
        mut rng: Rng,
        steps: &mut Steps<'_>,
        threads: u64,
    ) -> Vec<PosePlacement> {
        let mut best = placements;
        let Some(mut crowd) = Crowd::new(self.table, self.depths, &best, threads) else { return best };
        let mut good = crowd.clone();
        let mut cut = Cut { share: MOST_CUT, failed: 0 };
        while self.table.length(&best) > self.bound && steps.take(ROUND) {
            // Sliding may have made the best layout shorter than the strip it was separated on.
            let from = good.length().min(number::from_whole(self.table.length(&best)));
            if !crowd.set_length(cut.shortened(from, number::from_whole(self.bound))) {
                break;
            }
            if crowd.separate(&mut rng, steps) {
                good = crowd.clone();
                cut.succeed();
                if let Some(placements) =
                    crowd.placements().and_then(|placements| settle::settled(self.table, placements))
                {
                    let placements = settle::closer(self.table, placements, steps);
                    if self.table.length(&placements) < self.table.length(&best) {
                        best = placements;
                        self.report(&best, steps);
                    }
                }
            } else if let Some(goes_back) = cut.fail() {
                if goes_back {
                    crowd.restore_from(&good);
                }
                crowd.perturb(&mut rng);
            }
        }
        best
    }

    /// Reports a layout shorter than all reported before by either thread.
    fn report(&self, placements: &[PosePlacement], steps: &Steps<'_>) {
        let best = self.table.length(placements);
        if best < self.reported.fetch_min(best, Ordering::Relaxed) {
            steps.report(Progress { best, bound: self.bound });
        }
    }
}

#[cfg(test)]
mod tests;
