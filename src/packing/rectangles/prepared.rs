//! The problem as the searches see it: equal rectangles as one kind, sizes in their greatest common unit.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

#[cfg(test)]
mod tests;

use std::cmp::Ordering;
use std::collections::BTreeMap;

use crate::number;
use crate::problem::{RectangleProblem, Starts, Stretch};
use crate::solution::{Placement, Turn};

/// The most pieces accepted, since a plan lists every one of them.
const MOST_PIECES: i64 = 4_000_000;
/// Upper limit of sums of lengths, so that no position overflows.
const LONGEST: i64 = 1 << 60;

/// Equal rectangles, from one or more entries of the problem.
#[derive(Clone, Debug)]
pub(super) struct PreparedItem {
    pub(super) count: usize,
    /// The entries of the problem they come from, and how many from each.
    from: Vec<(usize, usize)>,
}

/// A kind in one orientation.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    pub(super) item: usize,
    pub(super) across: i64,
    pub(super) along: i64,
    pub(super) turned: bool,
    pub(super) at_edge: bool,
    pub(super) starts: Option<Starts>,
    pub(super) area: f64,
}

impl Shape {
    /// The first position along, not before `from`, where it may begin.
    pub(super) fn start(&self, from: i64) -> i64 {
        Starts::next_of(self.starts, from)
    }

    /// Its exact area.
    pub(super) fn size(&self) -> i128 {
        i128::from(self.across) * i128::from(self.along)
    }
}

/// One placed piece, in units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct ShapePlacement {
    pub(super) shape: usize,
    pub(super) stretch: usize,
    pub(super) along: i64,
    pub(super) across: i64,
}

/// A plan in units. A better one leaves less area out, then uses less of the endless stretch.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) placements: Vec<ShapePlacement>,
    pub(super) missing: i128,
    pub(super) length: i64,
}

impl Layout {
    /// Whether nothing can be better.
    pub(super) fn meets(&self, bound: i64) -> bool {
        self.missing == 0 && self.length <= bound
    }

    pub(super) fn is_better_than(&self, other: &Layout) -> bool {
        (self.missing, self.length).cmp(&(other.missing, other.length)) == Ordering::Less
    }
}

/// The problem in units.
#[derive(Clone, Debug)]
pub(super) struct Prepared {
    pub(super) items: Vec<PreparedItem>,
    pub(super) shapes: Vec<Shape>,
    pub(super) stretches: Vec<Stretch>,
    /// All pieces that fit somewhere.
    pub(super) pieces: usize,
    /// Entries of the problem that fit nowhere.
    pub(super) unplaceable: Vec<(usize, i64)>,
    unit_along: i64,
    unit_across: i64,
    /// Included in every length along, of pieces and of limited stretches.
    loss: i64,
}

/// What equal rectangles share: size, whether they may be turned or lie at the edge, and starts.
type GroupKey = (i64, i64, bool, bool, Option<(i64, i64)>);

impl Prepared {
    /// The problem in units; `None` if it is malformed or too large.
    pub(super) fn new(problem: &RectangleProblem) -> Option<Self> {
        let endless = problem.stretches.iter().filter(|stretch| stretch.length.is_none()).count();
        let last_endless = problem.stretches.last().is_some_and(|stretch| stretch.length.is_none());
        let loss = problem.loss;
        let is_sound = |length: i64| length.saturating_add(loss) > 0;
        let sound = problem.stretches.iter().all(|stretch| stretch.width > 0 && stretch.length.is_none_or(is_sound));
        if problem.stretches.is_empty() || !sound || loss < 0 || endless > usize::from(last_endless) {
            return None;
        }
        let merged = merged(problem)?;
        let (unit_along, unit_across) = units(&merged);
        let stretches: Vec<Stretch> = problem
            .stretches
            .iter()
            .map(|stretch| Stretch {
                // All pieces in one line reach no further than LONGEST: more room is never needed.
                width: stretch.width.min(LONGEST) / unit_across,
                length: stretch.length.map(|length| length.saturating_add(loss).min(LONGEST) / unit_along),
            })
            .collect();
        let mut prepared = Self {
            items: Vec::new(),
            shapes: Vec::new(),
            stretches,
            pieces: 0,
            unplaceable: Vec::new(),
            unit_along,
            unit_across,
            loss,
        };
        for (key, from) in merged {
            prepared.add(key, from);
        }
        prepared.unplaceable.sort_unstable();
        Some(prepared)
    }

    fn add(&mut self, (along, across, quarter, at_edge, starts): GroupKey, from: Vec<(usize, usize)>) {
        let (along_units, across_units) = (along / self.unit_along, across / self.unit_across);
        let starts =
            starts.map(|(first, every)| Starts { first: first / self.unit_along, every: every / self.unit_along });
        let item = self.items.len();
        let mut orientations = vec![(across_units, along_units, false)];
        if quarter && along != across {
            // A turned piece needs both axes in one unit; `units` sees to it.
            orientations.push((along_units, across_units, true));
        }
        let before = self.shapes.len();
        for (across, along, turned) in orientations {
            let area = number::from_whole(across) * number::from_whole(along);
            let shape = Shape { item, across, along, turned, at_edge, starts, area };
            if self.stretches.iter().any(|stretch| fits(&shape, *stretch)) {
                self.shapes.push(shape);
            }
        }
        if self.shapes.len() == before {
            self.unplaceable.extend(from.iter().map(|&(entry, count)| (entry, number::from_size(count))));
            return;
        }
        let count = from.iter().map(|&(_, count)| count).sum();
        self.pieces += count;
        self.items.push(PreparedItem { count, from });
    }

    /// The endless stretch, if there is one.
    pub(super) fn endless(&self) -> Option<usize> {
        let last = self.stretches.len().checked_sub(1)?;
        self.stretches[last].length.is_none().then_some(last)
    }

    /// How many of each kind there are to place.
    pub(super) fn counts(&self) -> Vec<usize> {
        self.items.iter().map(|item| item.count).collect()
    }

    /// Area of one piece of each kind.
    pub(super) fn sizes(&self) -> Vec<i128> {
        let mut sizes = vec![0; self.items.len()];
        for shape in &self.shapes {
            sizes[shape.item] = shape.size();
        }
        sizes
    }

    /// Area of all pieces.
    pub(super) fn area(&self) -> i128 {
        self.items.iter().zip(self.sizes()).map(|(item, size)| size * i128::from(wide(item.count))).sum()
    }

    /// The layout of the given placements.
    pub(super) fn layout(&self, placements: Vec<ShapePlacement>) -> Layout {
        let placed: i128 = placements.iter().map(|placement| self.shapes[placement.shape].size()).sum();
        let endless = self.endless();
        let length = placements
            .iter()
            .filter(|placement| Some(placement.stretch) == endless)
            .map(|placement| placement.along + self.shapes[placement.shape].along)
            .max()
            .unwrap_or(0);
        Layout { placements, missing: self.area() - placed, length }
    }

    /// A length in units as a length of the problem, without the loss after its last piece.
    pub(super) fn real_length(&self, units: i64) -> i64 {
        (units.saturating_mul(self.unit_along) - self.loss).max(0)
    }

    /// The placed pieces by their entries in the problem, and how many of which are left out.
    pub(super) fn named(&self, layout: &Layout) -> (Vec<Placement>, Vec<(usize, i64)>) {
        let mut stock: Vec<(usize, Vec<(usize, usize)>)> =
            self.items.iter().map(|item| (0, item.from.clone())).collect();
        let mut order: Vec<&ShapePlacement> = layout.placements.iter().collect();
        order.sort_unstable_by_key(|placement| (placement.stretch, placement.along, placement.across));
        let mut placements = Vec::with_capacity(order.len());
        for placement in order {
            let shape = &self.shapes[placement.shape];
            let (at, from) = &mut stock[shape.item];
            while *at < from.len() && from[*at].1 == 0 {
                *at += 1;
            }
            let Some((entry, count)) = from.get_mut(*at) else { continue };
            *count -= 1;
            placements.push(Placement {
                item: *entry,
                stretch: placement.stretch,
                along: placement.along * self.unit_along,
                across: placement.across * self.unit_across,
                turn: if shape.turned { Turn::Quarter } else { Turn::None },
                mirrored: false,
            });
        }
        let mut out = self.unplaceable.clone();
        for (_, from) in stock {
            out.extend(
                from.into_iter().filter(|&(_, count)| count > 0).map(|(e, count)| (e, number::from_size(count))),
            );
        }
        out.sort_unstable();
        (placements, out)
    }

    /// The same pieces with both axes exchanged, on one stretch of width `limit` whose length is this stretch's
    /// width.
    ///
    /// The caller must check [`Self::is_plain`]: one stretch, no pieces bound to the edge or a pattern.
    pub(super) fn sideways(&self, limit: i64) -> Self {
        let mut other = self.clone();
        let width = self.stretches.first().map_or(0, |stretch| stretch.width);
        other.stretches = vec![Stretch { width: limit, length: Some(width) }];
        for shape in &mut other.shapes {
            std::mem::swap(&mut shape.across, &mut shape.along);
        }
        other
    }

    /// Whether [`Self::sideways`] may be called.
    pub(super) fn is_plain(&self) -> bool {
        self.stretches.len() == 1 && self.shapes.iter().all(|shape| !shape.at_edge && shape.starts.is_none())
    }
}

/// A count as an `i64`.
pub(super) fn wide(count: usize) -> i64 {
    number::from_size(count)
}

/// Whether a shape fits into an empty stretch.
pub(super) fn fits(shape: &Shape, stretch: Stretch) -> bool {
    shape.across <= stretch.width && stretch.length.is_none_or(|limit| shape.start(0) + shape.along <= limit)
}

/// Groups equal rectangles, in a fixed order; `None` if a size, a count or a start is out of range.
fn merged(problem: &RectangleProblem) -> Option<BTreeMap<GroupKey, Vec<(usize, usize)>>> {
    let mut merged: BTreeMap<GroupKey, Vec<(usize, usize)>> = BTreeMap::new();
    let (mut pieces, mut reach) = (0i64, 0i128);
    for (entry, piece) in problem.rectangles.iter().enumerate() {
        if piece.along <= 0 || piece.across <= 0 || piece.count < 0 {
            return None;
        }
        let starts = match piece.starts {
            None => None,
            Some(starts) if starts.every <= 0 => return None,
            Some(Starts { first, every }) if first < 0 => Some((first.rem_euclid(every), every)),
            Some(Starts { first, every }) => Some((first, every)),
        };
        pieces = pieces.checked_add(piece.count)?;
        let (first, every) = starts.unwrap_or((0, 0));
        let along = piece.along.checked_add(problem.loss)?;
        let longest = i128::from(along.max(piece.across)) + i128::from(every);
        reach = reach.checked_add(longest * i128::from(piece.count) + i128::from(first))?;
        if pieces > MOST_PIECES || reach > i128::from(LONGEST) {
            return None;
        }
        if piece.count > 0 {
            let quarter = piece.quarter && !piece.at_edge && problem.loss == 0;
            merged
                .entry((along, piece.across, quarter, piece.at_edge, starts))
                .or_default()
                .push((entry, number::count(piece.count)?));
        }
    }
    Some(merged)
}

/// The greatest units that divide every size exactly, along and across.
fn units(merged: &BTreeMap<GroupKey, Vec<(usize, usize)>>) -> (i64, i64) {
    let (mut unit_along, mut unit_across, mut any_turn) = (0, 0, false);
    for &(along, across, quarter, _, starts) in merged.keys() {
        unit_along = number::gcd(unit_along, along);
        unit_across = number::gcd(unit_across, across);
        any_turn |= quarter;
        if let Some((first, every)) = starts {
            unit_along = number::gcd(number::gcd(unit_along, first), every);
        }
    }
    if any_turn {
        unit_along = number::gcd(unit_along, unit_across);
        unit_across = unit_along;
    }
    // With nothing to place, any unit will do, and one keeps the lengths as they are.
    (unit_along.max(1), unit_across.max(1))
}
