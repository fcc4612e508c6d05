//! How much work a plan may take, counted in steps: the same input, seed and steps give the same plan on any machine.
//!
//! Never here: the clock. Who wants a plan within so many seconds raises the stop flag when they are over.

use std::fmt;
use std::sync::atomic::AtomicBool;

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
