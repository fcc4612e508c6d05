//! Moves of single pieces: to the best of many positions, and swaps out of a dead end.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::crowd::{Crowd, FloatPose, Position};
use fastrand::Rng;

/// Positions tried for a piece: anywhere on the strip, near its own, touching another piece.
const ANYWHERE: usize = 12;
const NEAR: usize = 5;
const TOUCHING: usize = 12;
/// How many of them are improved.
const IMPROVED: usize = 2;

impl Crowd<'_> {
    /// Swaps two large pieces of different kinds, to escape a layout that cannot be separated further; if all are of
    /// one kind, moves one at random.
    pub(super) fn perturb(&mut self, rng: &mut Rng) {
        let size = |at: usize| self.pieces[at].poses[0].long * self.pieces[at].poses[0].high;
        let mut order: Vec<usize> = (0..self.pieces.len()).collect();
        order.sort_by(|&one, &other| size(other).total_cmp(&size(one)));
        let large = order.len().div_ceil(2).max(order.len().min(2));
        let one = order[rng.usize(..large)];
        let others: Vec<usize> =
            order[..large].iter().copied().filter(|&other| self.pieces[other].id.0 != self.pieces[one].id.0).collect();
        if others.is_empty() {
            let anywhere = self.anywhere(one, rng);
            self.set_position(one, anywhere);
            return;
        }
        let other = others[rng.usize(..others.len())];
        let boxes = (self.boxes[one], self.boxes[other]);
        for (at, bounds) in [(one, boxes.1), (other, boxes.0)] {
            let pose = rng.usize(..self.pieces[at].poses.len());
            let FloatPose { long, high, .. } = self.pieces[at].poses[pose];
            let along = f64::midpoint(bounds[0], bounds[1]) - long / 2.0;
            let across = f64::midpoint(bounds[2], bounds[3]) - high / 2.0;
            if let Some(position) = self.clamped(at, Position { pose, along, across }) {
                self.set_position(at, position);
            }
        }
    }

    /// The best of many positions for a piece whose position now costs `now`.
    pub(super) fn best_position(&mut self, at: usize, now: f64, rng: &mut Rng) -> Position {
        let here = self.positions[at];
        let mut best = vec![(now, here)];
        let mut most = f64::INFINITY;
        for try_at in 0..ANYWHERE + NEAR + TOUCHING {
            let wanted = if try_at < ANYWHERE {
                Some(self.anywhere(at, rng))
            } else if try_at < ANYWHERE + NEAR {
                self.nearby(at, rng)
            } else {
                self.touching(at, rng)
            };
            let Some(position) = wanted else { continue };
            let cost = self.cost(at, position, most);
            if cost < most {
                best.push((cost, position));
                best.sort_by(|one, other| one.0.total_cmp(&other.0));
                best.truncate(IMPROVED);
                if best.len() == IMPROVED {
                    most = best[IMPROVED - 1].0;
                }
                if cost <= 0.0 {
                    return position;
                }
            }
        }
        let mut least = (now, here);
        for (cost, position) in best {
            let (cost, position) = self.improved(at, position, cost, 0.01, rng);
            if cost < least.0 {
                least = (cost, position);
            }
        }
        if least.0 > 0.0 {
            least = self.improved(at, least.1, least.0, 1e-4, rng);
        }
        least.1
    }

    /// Anywhere on the strip, or where it is if it is too long for it.
    fn anywhere(&self, at: usize, rng: &mut Rng) -> Position {
        let pose = rng.usize(..self.pieces[at].poses.len());
        let FloatPose { long, high, .. } = self.pieces[at].poses[pose];
        let position =
            Position { pose, along: rng.f64() * (self.length - long), across: rng.f64() * (self.width - high) };
        self.clamped(at, position).unwrap_or(self.positions[at])
    }

    /// Up to a quarter of its size off, as often in its own pose as in any.
    fn nearby(&self, at: usize, rng: &mut Rng) -> Option<Position> {
        let here = self.positions[at];
        let pose = if rng.bool() { here.pose } else { rng.usize(..self.pieces[at].poses.len()) };
        let FloatPose { long, high, .. } = self.pieces[at].poses[pose];
        let along = here.along + (rng.f64() - 0.5) * long * 0.5;
        let across = here.across + (rng.f64() - 0.5) * high * 0.5;
        self.clamped(at, Position { pose, along, across })
    }

    /// A position where the piece touches another in a corner.
    fn touching(&self, at: usize, rng: &mut Rng) -> Option<Position> {
        let pose = rng.usize(..self.pieces[at].poses.len());
        let other = rng.usize(..self.pieces.len());
        if other == at {
            return None;
        }
        let there = self.positions[other];
        let from = self.outline(other, there);
        let touches = self.depths.touches(from, self.pieces[at].poses[pose].pose.outline);
        if touches.is_empty() {
            return None;
        }
        let touch = touches[rng.usize(..touches.len())];
        let wanted = Position { pose, along: there.along + touch.0, across: there.across + touch.1 };
        self.clamped(at, wanted)
    }

    /// Improves a position by steps along the axes and diagonals, growing with success, halved without, down to a
    /// share of the piece's size.
    fn improved(
        &mut self,
        at: usize,
        mut position: Position,
        mut cost: f64,
        least: f64,
        rng: &mut Rng,
    ) -> (f64, Position) {
        let FloatPose { long, high, .. } = self.pieces[at].poses[position.pose];
        let size = long.min(high);
        let mut step = (size * least * 25.0, size * least * 25.0);
        let least = size * least;
        while cost > 0.0 && (step.0 > least || step.1 > least) {
            let (along, across) = match rng.u8(..4) {
                0 => (step.0, 0.0),
                1 => (0.0, step.1),
                2 => (step.0, step.1),
                _ => (step.0, -step.1),
            };
            let mut better = None;
            for sign in [1.0, -1.0] {
                let wanted = Position {
                    along: position.along + sign * along,
                    across: position.across + sign * across,
                    ..position
                };
                if let Some(moved) = self.clamped(at, wanted) {
                    let there = self.cost(at, moved, cost);
                    if there < cost {
                        cost = there;
                        better = Some(moved);
                    }
                }
            }
            let factor: f64 = if better.is_some() { 1.1 } else { 0.5 };
            if along > 0.0 {
                step.0 *= if across == 0.0 { factor } else { factor.max(0.7) };
            }
            if across != 0.0 {
                step.1 *= if along == 0.0 { factor } else { factor.max(0.7) };
            }
            position = better.unwrap_or(position);
        }
        (cost, position)
    }
}

#[cfg(test)]
mod tests;
