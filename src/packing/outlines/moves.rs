//! Moves of single pieces: to the best of many positions, and swaps out of a dead end.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::crowd::{Crowd, Place, Way};
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
    pub(super) fn upset(&mut self, rng: &mut Rng) {
        let size = |at: usize| self.members[at].ways[0].long * self.members[at].ways[0].high;
        let mut order: Vec<usize> = (0..self.members.len()).collect();
        order.sort_by(|&one, &other| size(other).total_cmp(&size(one)));
        let large = order.len().div_ceil(2).max(order.len().min(2));
        let one = order[rng.usize(..large)];
        let others: Vec<usize> = order[..large]
            .iter()
            .copied()
            .filter(|&other| self.members[other].piece.0 != self.members[one].piece.0)
            .collect();
        if others.is_empty() {
            let anywhere = self.anywhere(one, rng);
            self.put(one, anywhere);
            return;
        }
        let other = others[rng.usize(..others.len())];
        let spaces = (self.boxes[one], self.boxes[other]);
        for (at, space) in [(one, spaces.1), (other, spaces.0)] {
            let way = rng.usize(..self.members[at].ways.len());
            let Way { long, high, .. } = self.members[at].ways[way];
            let along = f64::midpoint(space[0], space[1]) - long / 2.0;
            let across = f64::midpoint(space[2], space[3]) - high / 2.0;
            if let Some(place) = self.bound(at, Place { way, along, across }) {
                self.put(at, place);
            }
        }
    }

    /// The best of many positions for a piece whose position now costs `now`.
    pub(super) fn best_place(&mut self, at: usize, now: f64, rng: &mut Rng) -> Place {
        let here = self.places[at];
        let mut best = vec![(now, here)];
        let mut most = f64::INFINITY;
        for try_at in 0..ANYWHERE + NEAR + TOUCHING {
            let wanted = if try_at < ANYWHERE {
                Some(self.anywhere(at, rng))
            } else if try_at < ANYWHERE + NEAR {
                let way = if rng.bool() { here.way } else { rng.usize(..self.members[at].ways.len()) };
                let Way { long, high, .. } = self.members[at].ways[way];
                let along = here.along + (rng.f64() - 0.5) * long * 0.5;
                let across = here.across + (rng.f64() - 0.5) * high * 0.5;
                self.bound(at, Place { way, along, across })
            } else {
                self.touching(at, rng)
            };
            let Some(place) = wanted else { continue };
            let cost = self.cost(at, place, most);
            if cost < most {
                best.push((cost, place));
                best.sort_by(|one, other| one.0.total_cmp(&other.0));
                best.truncate(IMPROVED);
                if best.len() == IMPROVED {
                    most = best[IMPROVED - 1].0;
                }
                if cost <= 0.0 {
                    return place;
                }
            }
        }
        let mut least = (now, here);
        for (cost, place) in best {
            let (cost, place) = self.improved(at, place, cost, 0.01, rng);
            if cost < least.0 {
                least = (cost, place);
            }
        }
        if least.0 > 0.0 {
            least = self.improved(at, least.1, least.0, 1e-4, rng);
        }
        least.1
    }

    fn anywhere(&self, at: usize, rng: &mut Rng) -> Place {
        let way = rng.usize(..self.members[at].ways.len());
        let Way { long, high, .. } = self.members[at].ways[way];
        let place = Place {
            way,
            along: rng.f64() * (self.length - long).max(0.0),
            across: rng.f64() * (self.width - high).max(0.0),
        };
        self.bound(at, place).unwrap_or(self.places[at])
    }

    /// A position where the piece touches another in a corner.
    fn touching(&self, at: usize, rng: &mut Rng) -> Option<Place> {
        let way = rng.usize(..self.members[at].ways.len());
        let other = rng.usize(..self.members.len());
        if other == at {
            return None;
        }
        let there = self.places[other];
        let from = self.outline(other, there);
        let touches = self.depths.touches(from, self.members[at].ways[way].pose.outline);
        if touches.is_empty() {
            return None;
        }
        let touch = touches[rng.usize(..touches.len())];
        let wanted = Place { way, along: there.along + touch.0, across: there.across + touch.1 };
        self.bound(at, wanted)
    }

    /// Improves a position by steps along the axes and diagonals, growing with success, halved without, down to a
    /// share of the piece's size.
    fn improved(&mut self, at: usize, mut place: Place, mut cost: f64, least: f64, rng: &mut Rng) -> (f64, Place) {
        let Way { long, high, .. } = self.members[at].ways[place.way];
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
                let wanted = Place { along: place.along + sign * along, across: place.across + sign * across, ..place };
                if let Some(moved) = self.bound(at, wanted) {
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
            place = better.unwrap_or(place);
        }
        (cost, place)
    }
}
