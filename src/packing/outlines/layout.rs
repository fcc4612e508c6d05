//! Layouts of pieces on a strip: the tables they are built with, their length, and an exact check.

use super::forbidden::{self, Forbidden};
use super::outline::{Outline, Pose, Prepared};
use crate::effort::Steps;
use crate::number;
use std::cmp::Reverse;

/// A placed piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct PosePlacement {
    pub(super) item: usize,
    pub(super) mirrored: bool,
    pub(super) pose: Pose,
    pub(super) along: i64,
    pub(super) across: i64,
}

/// A piece to place: its kind, and whether it is mirrored.
pub(super) type Piece = (usize, bool);

/// The forbidden offsets of all pairs of outlines.
#[derive(Debug, Default)]
pub(super) struct Pairs {
    outlines: usize,
    table: Vec<Forbidden>,
}

/// With more pairs of convex parts than this, no tables are made.
const MOST_PAIRS: usize = 300_000;
/// Up to this many pairs, tables are always made.
const FEW_PAIRS: usize = 10_000;
/// Pairs that take about as long as one step.
const PAIRS_A_STEP: u64 = 2;

impl Pairs {
    /// The tables of these outlines; empty if they would be too large or take more steps than are left.
    pub(super) fn new(outlines: &[Outline], gap: i64, steps: &mut Steps<'_>) -> Self {
        let parts: usize = outlines.iter().map(|outline| outline.parts.len()).sum();
        let corners: usize = outlines.iter().map(|outline| outline.parts.iter().map(Vec::len).sum::<usize>()).sum();
        let most = parts.saturating_mul(parts).max(corners.saturating_mul(outlines.len()));
        let work = number::from_size(most).unsigned_abs() / PAIRS_A_STEP;
        if most > MOST_PAIRS || (most > FEW_PAIRS && work > steps.left()) {
            return Self::default();
        }
        steps.take(work);
        let pairs = outlines.iter().flat_map(|one| outlines.iter().map(move |other| (one, other)));
        let table = pairs.map(|(one, other)| forbidden::forbidden(one, other, gap)).collect();
        Self { outlines: outlines.len(), table }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.table.is_empty()
    }

    /// The offsets at which outline `to` may not lie from outline `from`.
    pub(super) fn get(&self, from: usize, to: usize) -> Option<&Forbidden> {
        self.table.get(from * self.outlines + to)
    }
}

/// The data a layout is built with.
#[derive(Clone, Copy, Debug)]
pub(super) struct Table<'a> {
    pub(super) prepared: &'a Prepared,
    pub(super) pairs: &'a Pairs,
    pub(super) width: i64,
    pub(super) gap: i64,
}

impl Table<'_> {
    /// The size of a pose along and across.
    pub(super) fn size(&self, pose: Pose) -> (i64, i64) {
        self.prepared.outline(pose).map_or((0, 0), |outline| (outline.long, outline.high))
    }

    /// The length of a layout.
    pub(super) fn length(&self, placements: &[PosePlacement]) -> i64 {
        placements.iter().map(|placement| placement.along + self.size(placement.pose).0).max().unwrap_or(0)
    }

    /// Whether every piece is where it may be and no two overlap; exact.
    pub(super) fn is_valid(&self, placements: &[PosePlacement]) -> bool {
        let mut order: Vec<&PosePlacement> = placements.iter().collect();
        order.sort_by_key(|placement| placement.along);
        let mut open: Vec<&PosePlacement> = Vec::new();
        order.iter().all(|placement| {
            open.retain(|other| other.along + self.size(other.pose).0 + self.gap > placement.along);
            let valid = self.is_allowed(placement) && open.iter().all(|other| !self.overlap(other, placement));
            open.push(placement);
            valid
        })
    }

    fn is_allowed(&self, placement: &PosePlacement) -> bool {
        let Some(item) = self.prepared.items.get(placement.item) else { return false };
        item.poses(placement.mirrored).contains(&placement.pose)
            && placement.along >= 0
            && item.begin(placement.along) == placement.along
            && placement.across >= 0
            && placement.across + self.size(placement.pose).1 <= self.width
            && (!item.at_edge || placement.across == 0)
    }

    /// Whether two pieces overlap or are nearer than the gap.
    pub(super) fn overlap(&self, one: &PosePlacement, other: &PosePlacement) -> bool {
        let offset = (other.along - one.along, other.across - one.across);
        if let Some(forbidden) = self.pairs.get(one.pose.outline, other.pose.outline) {
            return forbidden.holds(offset);
        }
        let (size, other_size) = (self.size(one.pose), self.size(other.pose));
        offset.0 < size.0 + self.gap
            && -offset.0 < other_size.0 + self.gap
            && offset.1 < size.1 + self.gap
            && -offset.1 < other_size.1 + self.gap
    }

    /// The pieces sorted by `rank`, the greatest first.
    pub(super) fn sorted<K: Ord>(&self, pieces: &[Piece], rank: impl Fn(usize, &Outline) -> K) -> Vec<Piece> {
        let ranks: Vec<Option<K>> = (0..self.prepared.items.len())
            .map(|item| {
                let pose = *self.prepared.items.get(item)?.plain.first()?;
                Some(rank(item, self.prepared.outline(pose)?))
            })
            .collect();
        let mut sorted = pieces.to_vec();
        sorted.sort_by_key(|&(item, mirrored)| (Reverse(ranks.get(item)), item, mirrored));
        sorted
    }
}

#[cfg(test)]
mod tests;
