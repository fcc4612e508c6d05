//! How much work a plan may take, counted in steps: the same input, seed and steps give the same plan on any machine.
//!
//! Never here: the clock. Who wants a plan within so many seconds raises the stop flag when they are over.

use std::fmt;
use std::sync::atomic::{AtomicBool, Ordering};

/// How much work a plan may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Steps of the search. A million of them take about a second.
    pub steps: u64,
    /// What the random choices of the search begin with.
    pub seed: u64,
}

impl Effort {
    /// The steps that take about a second.
    pub const SECOND: u64 = 1_000_000;

    /// So many steps, with the usual seed.
    pub fn of(steps: u64) -> Self {
        Self { steps, seed: 1 }
    }
}

impl Default for Effort {
    fn default() -> Self {
        Self::of(Self::SECOND)
    }
}

/// How far a search has come: the best found so far, and what no plan can go below, in the same measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// The best found so far.
    pub best: i64,
    /// No plan is better than this.
    pub bound: i64,
}

/// What looks on while a plan is made: it may stop the work, and hears how far it has come.
#[derive(Clone, Copy)]
pub struct Watch<'a> {
    /// Raised, it ends the work: with the best so far where there is one.
    pub stop: &'a AtomicBool,
    /// Told of every better plan and every better bound.
    pub progress: &'a (dyn Fn(Progress) + Sync),
}

impl<'a> Watch<'a> {
    /// Looks on in silence.
    pub fn silent(stop: &'a AtomicBool) -> Self {
        Self { stop, progress: &|_| {} }
    }
}

impl fmt::Debug for Watch<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Watch").field("stop", self.stop).finish_non_exhaustive()
    }
}

/// The steps a search still has.
#[derive(Debug)]
pub(super) struct Steps<'a> {
    left: u64,
    watch: Watch<'a>,
}

impl<'a> Steps<'a> {
    /// So many steps, looked on by `watch`.
    pub(super) fn new(steps: u64, watch: Watch<'a>) -> Self {
        Self { left: steps, watch }
    }

    /// Takes some steps; answers whether the search may go on. Taking nothing only asks.
    pub(super) fn take(&mut self, steps: u64) -> bool {
        self.left = self.left.saturating_sub(steps);
        self.left > 0 && !self.is_stopped()
    }

    /// How many are left.
    pub(super) fn left(&self) -> u64 {
        self.left
    }

    /// Somebody wants the work to end now.
    pub(super) fn is_stopped(&self) -> bool {
        self.watch.stop.load(Ordering::Relaxed)
    }

    /// Sets steps of this search aside for a part of it, which may run beside it; what it leaves is not given back.
    pub(super) fn apart(&mut self, steps: u64) -> Steps<'a> {
        let taken = steps.min(self.left);
        self.left -= taken;
        Steps { left: taken, watch: self.watch }
    }

    /// Tells how far the search has come.
    pub(super) fn tell(&self, progress: Progress) {
        (self.watch.progress)(progress);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_run_out_and_the_flag_ends_them() {
        let stop = AtomicBool::new(false);
        let mut steps = Steps::new(10, Watch::silent(&stop));
        assert!(steps.take(4) && steps.left() == 6);
        let mut part = steps.apart(4);
        assert!(part.take(3) && !part.take(1));
        assert!(steps.take(1) && !steps.take(1));
        let mut steps = Steps::new(10, Watch::silent(&stop));
        stop.store(true, Ordering::Relaxed);
        assert!(!steps.take(0) && steps.is_stopped() && steps.left() == 10);
    }
}
