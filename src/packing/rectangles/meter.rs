//! Small units of work, taken from the steps as they add up.

use crate::effort::Steps;

/// Units of work in a step: with it, a million steps are about a second.
pub(super) const WORK: u64 = 100;

/// Counts work against steps.
#[derive(Debug)]
pub(super) struct Meter<'s, 'w> {
    steps: &'s mut Steps<'w>,
    work: u64,
    per_step: u64,
}

impl<'s, 'w> Meter<'s, 'w> {
    /// `per_step` units of work are a step.
    pub(super) fn new(steps: &'s mut Steps<'w>, per_step: u64) -> Self {
        Self { steps, work: 0, per_step: per_step.max(1) }
    }

    /// Spends some work; returns whether there may be more.
    pub(super) fn spend(&mut self, work: u64) -> bool {
        self.work = self.work.saturating_add(work);
        let steps = self.work / self.per_step;
        self.work %= self.per_step;
        self.steps.take(steps)
    }

    /// The work that is left.
    pub(super) fn left(&self) -> u64 {
        if self.steps.is_stopped() { 0 } else { self.steps.left().saturating_mul(self.per_step) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::effort::Watch;
    use std::sync::atomic::{AtomicBool, Ordering};

    #[test]
    fn work_adds_up_to_steps_and_none_is_lost() {
        let stop = AtomicBool::new(false);
        let mut steps = Steps::new(5, Watch::silent(&stop));
        let mut meter = Meter::new(&mut steps, 7);
        assert!(meter.spend(6) && meter.left() == 35);
        assert!(meter.spend(1) && meter.left() == 28);
        // 20 are two steps and 6; one more is another.
        assert!(meter.spend(20) && meter.left() == 14);
        assert!(meter.spend(1) && meter.left() == 7);
        assert!(meter.spend(0) && meter.spend(6) && !meter.spend(1));
        assert_eq!(meter.left(), 0);
        let mut steps = Steps::new(5, Watch::silent(&stop));
        let mut meter = Meter::new(&mut steps, 0);
        assert!(meter.spend(3) && meter.left() == 2);
        stop.store(true, Ordering::Relaxed);
        assert!(meter.left() == 0 && !meter.spend(0));
    }
}
