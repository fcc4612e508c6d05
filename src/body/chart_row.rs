//! One row of a growth chart: L, M and S at an age, and the stature that they give.

/// Below this, L counts as zero, because the root of that order is no longer a usable number.
const NO_SKEW: f64 = 1e-9;

/// A row of a chart: an age in the chart's own unit, then L, M and S.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub(super) age: f64,
    pub(super) l: f64,
    pub(super) m: f64,
    pub(super) s: f64,
}

impl Row {
    pub(super) const fn new(age: f64, l: f64, m: f64, s: f64) -> Self {
        Self { age, l, m, s }
    }

    /// The World Health Organization's L is always one.
    pub(super) const fn who(age: f64, m: f64, s: f64) -> Self {
        Self { age, l: 1.0, m, s }
    }

    /// The stature in centimetres, `z` standard deviations from the middle.
    pub(super) fn stature(self, z: f64) -> f64 {
        if self.l.abs() < NO_SKEW {
            self.m * (self.s * z).exp()
        } else {
            self.m * (1.0 + self.l * self.s * z).powf(1.0 / self.l)
        }
    }

    /// How many standard deviations a stature is from the middle.
    pub(super) fn deviations(self, centimetres: f64) -> f64 {
        let by_middle = centimetres / self.m;
        if self.l.abs() < NO_SKEW {
            by_middle.ln() / self.s
        } else {
            (by_middle.powf(self.l) - 1.0) / (self.l * self.s)
        }
    }
}
