//! Work counted in steps, so that the same problem, seed and steps give the same solution on any machine.
//!
//! Nothing here reads the clock: a caller that wants a solution within some seconds raises the stop flag when they are
//! over.

use std::fmt;
use std::sync::atomic::{AtomicBool, Ordering};

/// How far a search has come, both numbers in the unit of its solution: a length or a cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// The best found so far.
    pub best: i64,
    /// Lower bound: no solution is better than this.
    pub bound: i64,
}

/// The stop flag and the progress callback of a search.
#[derive(Clone, Copy)]
pub struct Watch<'a> {
    /// Setting it ends the search with the best solution so far.
    pub stop: &'a AtomicBool,
    /// Called for every better solution and every better bound, from either thread of a search.
    pub progress: &'a (dyn Fn(Progress) + Sync),
}

impl<'a> Watch<'a> {
    /// Ignores progress.
    pub fn silent(stop: &'a AtomicBool) -> Self {
        Self { stop, progress: &|_| {} }
    }
}

impl fmt::Debug for Watch<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Watch").field("stop", self.stop).finish_non_exhaustive()
    }
}

/// The steps a search may still take. A million are about a second.
#[derive(Debug)]
pub struct Steps<'a> {
    left: u64,
    watch: Watch<'a>,
}

impl<'a> Steps<'a> {
    /// A budget of `steps`, observed by `watch`.
    pub fn new(steps: u64, watch: Watch<'a>) -> Self {
        Self { left: steps, watch }
    }

    /// Takes steps and returns whether the search may go on. Taking 0 only asks.
    pub(crate) fn take(&mut self, steps: u64) -> bool {
        self.left = self.left.saturating_sub(steps);
        self.left > 0 && !self.is_stopped()
    }

    /// How many are left.
    pub fn left(&self) -> u64 {
        self.left
    }

    /// Whether the stop flag is set.
    pub fn is_stopped(&self) -> bool {
        self.watch.stop.load(Ordering::Relaxed)
    }

    /// Splits off up to `steps` for a part of the work, which may run on another thread. What that part leaves is not
    /// given back.
    #[must_use]
    pub fn apart(&mut self, steps: u64) -> Steps<'a> {
        let taken = steps.min(self.left);
        self.left -= taken;
        Steps { left: taken, watch: self.watch }
    }

    /// Reports progress.
    pub(crate) fn report(&self, progress: Progress) {
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

    #[test]
    fn what_is_split_off_is_taken_and_no_more_than_there_is() {
        let stop = AtomicBool::new(false);
        let mut steps = Steps::new(10, Watch::silent(&stop));
        assert_eq!((steps.apart(7).left(), steps.left()), (7, 3));
        assert_eq!((steps.apart(7).left(), steps.left()), (3, 0));
        assert!(!steps.take(0));
        let mut steps = Steps::new(10, Watch::silent(&stop));
        assert!(!steps.take(11) && steps.left() == 0, "more than there are are all");
    }

    #[test]
    fn progress_is_told() {
        let stop = AtomicBool::new(false);
        let told = std::sync::Mutex::new(Vec::new());
        let progress = |progress: Progress| told.lock().expect("one thread").push(progress);
        let steps = Steps::new(10, Watch { stop: &stop, progress: &progress });
        steps.report(Progress { best: 7, bound: 5 });
        assert_eq!(*told.lock().expect("one thread"), [Progress { best: 7, bound: 5 }]);
    }
}
