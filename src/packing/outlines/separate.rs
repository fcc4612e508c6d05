//! Separates overlapping pieces on a strip of given length: guided local search on weighted depths.
//!
//! One colliding piece after another moves to the best of many positions: some anywhere, some near, some touching
//! another piece, the best of them improved along the axes and diagonals. Pairs that keep overlapping weigh more from
//! round to round. (Guided local search for nesting: Egeblad, Nielsen and Odgaard 2007; Umetani et al. 2009; the
//! sampling and the weights: Gardeyn, Vanden Berghe and Wauters 2025; all from memory.)
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::crowd::{Crowd, Position};
use crate::effort::Steps;
use crate::number;
use fastrand::Rng;

/// The most times all pieces are pushed at once.
const SWEEPS: usize = 320;
/// Rounds without a better sum, and how often that may happen, before the pieces count as inseparable.
const PATIENCE: usize = 40;
const STRIKES: usize = 2;
/// Looks (at a piece: one, into a depth: eight) that take about as long as one step.
const LOOKS_A_STEP: u64 = 280;

/// Whether a sum is noticeably less than the one before.
fn is_gain(sum: f64, before: f64) -> bool {
    sum < before * 0.98
}

impl Crowd<'_> {
    /// Moves the pieces until none overlap; returns whether that succeeded. If not, the positions are those with the
    /// least sum of depths seen.
    pub(super) fn separate(&mut self, rng: &mut Rng, steps: &mut Steps<'_>) -> bool {
        self.weights.fill(1.0);
        let mut best = (self.overlaps().0, self.positions.clone());
        if self.push_apart() {
            return true;
        }
        self.keep(&mut best);
        let mut relaxed = f64::INFINITY;
        for _ in 0..STRIKES {
            let start = best.0;
            let mut idle = 0;
            while idle < PATIENCE {
                let (sum, colliding) = self.round(rng);
                if colliding == 0 {
                    return true;
                }
                idle = if is_gain(sum, best.0) { 0 } else { idle + 1 };
                if sum < best.0 {
                    best = (sum, self.positions.clone());
                }
                if idle == PATIENCE / 4 && best.0 < relaxed * 0.9 {
                    // Where single moves no longer help, all together may.
                    relaxed = best.0;
                    let kept = self.positions.clone();
                    self.restore(&best.1);
                    if self.push_apart() {
                        return true;
                    }
                    self.keep(&mut best);
                    self.restore(&kept);
                }
                let looks = std::mem::take(&mut self.looks);
                if !steps.take(looks / (LOOKS_A_STEP * self.threads) + 1) {
                    self.restore(&best.1);
                    return false;
                }
            }
            self.restore(&best.1);
            if !is_gain(best.0, start) {
                break;
            }
        }
        self.restore(&best.1);
        false
    }

    /// Keeps the positions if they are the best.
    fn keep(&mut self, best: &mut (f64, Vec<Position>)) {
        let sum = self.overlaps().0;
        if sum < best.0 {
            *best = (sum, self.positions.clone());
        }
    }

    /// Pushes all overlapping pieces apart at once, each pair by half its depth to either side, again and again: this
    /// clears small depths throughout the layout, which no single move can. Returns whether none is left.
    fn push_apart(&mut self) -> bool {
        let count = self.pieces.len();
        let mut before = f64::INFINITY;
        for sweep in 0..SWEEPS {
            let mut sum = 0.0;
            let mut met = 0;
            for one in 0..count {
                for other in one + 1..count {
                    let (here, there) = (self.boxes[one], self.boxes[other]);
                    if !self.is_near(here, there) {
                        continue;
                    }
                    met += 1;
                    let outlines = (self.outlines[one], self.outlines[other]);
                    let out = self.depths.way_out(outlines.0, outlines.1, there[0] - here[0], there[2] - here[2]);
                    let Some(out) = out else { continue };
                    let depth = out.0.hypot(out.1);
                    if depth > self.noise {
                        sum += depth;
                        // Push slightly beyond the border, or rounding would never let it end.
                        let share = 0.5 + 4.0 * self.noise / depth;
                        self.shift(one, (-out.0 * share, -out.1 * share));
                        self.shift(other, (out.0 * share, out.1 * share));
                    }
                }
            }
            self.looks += met * 8 + number::from_size(count * count / 2).unsigned_abs();
            if sum <= 0.0 {
                return true;
            }
            if sweep % 16 == 15 {
                if sum > before * 0.8 {
                    return false;
                }
                before = sum;
            }
        }
        false
    }

    fn shift(&mut self, at: usize, by: (f64, f64)) {
        let position = self.positions[at];
        let moved = Position { along: position.along + by.0, across: position.across + by.1, ..position };
        if let Some(position) = self.clamped(at, moved) {
            self.set_position(at, position);
        }
    }

    /// One round: each colliding piece moves once, then the weights are updated. Returns the sum of the depths and
    /// the number of colliding pairs.
    fn round(&mut self, rng: &mut Rng) -> (f64, usize) {
        let mut colliding: Vec<usize> =
            (0..self.pieces.len()).filter(|&at| self.cost(at, self.positions[at], f64::INFINITY) > 0.0).collect();
        rng.shuffle(&mut colliding);
        for at in colliding {
            let now = self.cost(at, self.positions[at], f64::INFINITY);
            if now > 0.0 {
                let position = self.best_position(at, now, rng);
                self.set_position(at, position);
            }
        }
        let (sum, pairs) = self.overlaps();
        let most = pairs.iter().map(|pair| pair.2).fold(0.0, f64::max);
        for weight in &mut self.weights {
            *weight = (*weight * 0.95).max(1.0);
        }
        let count = self.pieces.len();
        for &(one, other, depth) in &pairs {
            // Undo the decay above.
            let factor = (1.2 + 0.8 * depth / most) / 0.95;
            for at in [one * count + other, other * count + one] {
                self.weights[at] = (self.weights[at] * factor).min(1e9);
            }
        }
        (sum, pairs.len())
    }
}

#[cfg(test)]
mod tests;
