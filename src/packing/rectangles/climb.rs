//! Repeated searches, each aiming at a length between the bound and the best so far.
//!
//! After a failed aim, the next one is nearer to the best so far; once each method has searched at a breadth, the
//! breadth doubles (after the iterative doubling binary search of Wei, Oon, Zhu and Lim, 2011; from memory).

#[cfg(test)]
mod tests;

use super::beam::{Beam, Guide};
use super::meter::Meter;
use super::order::Orders;
use super::prepared::{Layout, Prepared, ShapePlacement};
use crate::number;

/// How a search builds its plans.
#[derive(Clone, Copy, Debug)]
pub(super) enum Construction {
    /// Beam search with this guide.
    Beam(Guide),
    /// Local search over the order of the pieces.
    Orders,
}

/// A construction, and the direction it builds in.
#[derive(Clone, Copy, Debug)]
pub(super) struct ClimbMethod {
    pub(super) construction: Construction,
    /// Build up from one selvedge to the other within the length aimed at, not along the length.
    pub(super) sideways: bool,
}

/// A method and its progress.
#[derive(Debug)]
struct MethodRun {
    method: ClimbMethod,
    /// Its search over orders, if begun.
    orders: Option<Orders>,
    /// How cautious its aims are: each increment halves their distance from the best towards the bound.
    caution: u32,
    seed: u64,
}

/// Searches by several methods in turn.
#[derive(Debug)]
pub(super) struct Climber {
    runs: Vec<MethodRun>,
    next: usize,
    breadth: usize,
}

/// The most placed pieces that a beam keeps in memory.
const KEPT: usize = 4_000_000;
/// The most failed aims of one method at one breadth.
const FAILURES: u32 = 2;
/// The most pieces for which searches over orders are fast enough.
const ORDERED: usize = 1500;
/// Work of a method per unit of breadth, in multiples of what one order takes: where many pieces differ or any
/// follows a pattern, and otherwise. Orders do better in the first case, beams with many equal pieces.
const SHARES: (u64, u64) = (40, 3);

impl Climber {
    pub(super) fn new(methods: Vec<ClimbMethod>, seed: u64) -> Self {
        let mut rng = fastrand::Rng::with_seed(seed);
        let run = |method| MethodRun { method, orders: None, caution: 1, seed: rng.u64(..) };
        Self { runs: methods.into_iter().map(run).collect(), next: 0, breadth: 1 }
    }

    /// Goes on until the bound is met or the work is spent; returns the best plan if it is better than `known`.
    pub(super) fn climb(
        &mut self,
        prepared: &Prepared,
        known: &Layout,
        bound: i64,
        meter: &mut Meter<'_, '_>,
    ) -> Option<Layout> {
        let mut best: Option<Layout> = None;
        loop {
            let Some(run) = self.runs.get_mut(self.next) else { return best };
            if let Some(better) = run.go_on(prepared, best.as_ref().unwrap_or(known), bound, self.breadth, meter) {
                best = Some(better);
            }
            if best.as_ref().unwrap_or(known).meets(bound) || meter.left() == 0 {
                return best;
            }
            self.next += 1;
            if self.next == self.runs.len() {
                self.next = 0;
                self.breadth = self.breadth.saturating_mul(2);
                if self.breadth > KEPT && !is_ordered(prepared) {
                    return best;
                }
            }
        }
    }
}

impl MethodRun {
    /// Runs some searches of one breadth; returns the best plan found.
    fn go_on(
        &mut self,
        prepared: &Prepared,
        known: &Layout,
        bound: i64,
        breadth: usize,
        meter: &mut Meter<'_, '_>,
    ) -> Option<Layout> {
        let mut best: Option<Layout> = None;
        let mut failures = 0;
        let stop = meter.left().saturating_sub(share(prepared, breadth));
        while failures < FAILURES && meter.left() > stop {
            let current = best.as_ref().unwrap_or(known);
            if current.meets(bound) {
                break;
            }
            let aim = aim(current.length, bound, self.caution);
            let is_nearest = aim + 1 >= current.length;
            match self.search(prepared, current, aim, breadth, stop, meter) {
                Some(layout) if layout.is_better_than(current) => best = Some(layout),
                _ if is_nearest => {
                    // Stuck: the next, longer search starts from scratch.
                    self.orders = None;
                    self.seed = self.seed.wrapping_add(1);
                    break;
                }
                _ => {
                    self.caution += 1;
                    failures += 1;
                }
            }
        }
        // A wider search may aim further.
        self.caution = self.caution.saturating_sub(1).max(1);
        best
    }

    /// One search for a plan no longer than the aim or, without an endless stretch, with more area placed than now.
    fn search(
        &mut self,
        prepared: &Prepared,
        current: &Layout,
        aim: i64,
        breadth: usize,
        stop: u64,
        meter: &mut Meter<'_, '_>,
    ) -> Option<Layout> {
        let endless = prepared.endless().is_some();
        let sideways = self.method.sideways && prepared.is_plain() && endless;
        let other = sideways.then(|| prepared.sideways(aim));
        let seen = other.as_ref().unwrap_or(prepared);
        let found = match self.method.construction {
            Construction::Beam(_) if breadth.saturating_mul(prepared.pieces) > KEPT => None,
            Construction::Beam(guide) => Beam::new(seen, guide, breadth, aim).run(meter),
            Construction::Orders if is_ordered(prepared) => {
                let placed = number::from_wide(prepared.area() - current.missing);
                // With an endless stretch, as much area in less length will do; otherwise it must be more.
                let noise = (placed * 1e-12).max(0.5);
                let least = if endless { placed - noise } else { placed + noise };
                let orders = self.orders.get_or_insert_with(|| Orders::new(prepared, self.seed));
                orders.run(seen, aim, least, stop, meter)
            }
            Construction::Orders => None,
        }?;
        if !sideways {
            return Some(found);
        }
        let turned = |placement: ShapePlacement| ShapePlacement {
            along: placement.across,
            across: placement.along,
            ..placement
        };
        (found.missing == 0).then(|| prepared.layout(found.placements.into_iter().map(turned).collect()))
    }
}

/// The length to aim at: shorter than now by one and a share of what there is between that and the bound, halved by
/// each increment of caution.
fn aim(length: i64, bound: i64, caution: u32) -> i64 {
    let span = (length - 1 - bound).max(0);
    (length - 1 - (span >> caution.min(62))).max(0)
}

/// The work that the searches of one method may take at this breadth.
fn share(prepared: &Prepared, breadth: usize) -> u64 {
    let once = prepared.pieces.saturating_mul(prepared.shapes.len() + 8).saturating_mul(breadth);
    let patterned = prepared.shapes.iter().any(|shape| shape.starts.is_some());
    let share = if patterned || prepared.shapes.len() * 3 >= prepared.pieces { SHARES.0 } else { SHARES.1 };
    share.saturating_mul(u64::try_from(once).unwrap_or(u64::MAX))
}

/// Whether a search over orders is affordable and has anything to change.
fn is_ordered(prepared: &Prepared) -> bool {
    prepared.pieces <= ORDERED && prepared.items.len() > 1
}
