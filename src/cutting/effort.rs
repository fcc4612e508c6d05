//! How much work a plan may take, counted in steps: the same input, seed and steps give the same plan on any machine.

/// How much work a plan may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Steps of the search. A million of them take about a second.
    pub steps: u64,
    /// Seed of the search's random choices.
    pub seed: u64,
}

impl Effort {
    /// The steps that take about a second.
    pub const SECOND: u64 = 1_000_000;

    /// Returns this many steps with the usual seed.
    pub fn of(steps: u64) -> Self {
        Self { steps, seed: 1 }
    }
}

impl Default for Effort {
    fn default() -> Self {
        Self::of(Self::SECOND)
    }
}
