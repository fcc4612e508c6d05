//! The depths of all pairs of outlines, and the offsets at which they touch.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::depth::Depth;
use super::layout::Table;
use crate::effort::Steps;
use crate::number;

/// The depths of all pairs of outlines.
#[derive(Debug)]
pub(super) struct Depths {
    outlines: usize,
    table: Vec<Depth>,
    /// Offsets at which two outlines touch in a corner of one of them.
    touches: Vec<Vec<(f64, f64)>>,
}

impl Depths {
    pub(super) fn new(table: &Table<'_>, steps: &mut Steps<'_>) -> Self {
        let outlines = table.prepared.outlines.len();
        let mut depths = Vec::with_capacity(outlines * (outlines + 1) / 2);
        let mut touches = Vec::with_capacity(outlines * outlines);
        for one in 0..outlines {
            for other in 0..outlines {
                if let Some(forbidden) = table.pairs.get(one, other) {
                    if other <= one {
                        let depth = Depth::new(forbidden);
                        steps.take(depth.weight());
                        depths.push(depth);
                    }
                    let free = forbidden.free_corners().into_iter();
                    touches.push(
                        free.map(|(along, across)| (number::from_whole(along), number::from_whole(across))).collect(),
                    );
                }
            }
        }
        Self { outlines, table: depths, touches }
    }

    /// How deep an outline overlaps another at an offset. Each pair is stored in one order only; for the other order
    /// the offset is negated.
    pub(super) fn at(&self, from: usize, to: usize, along: f64, across: f64) -> f64 {
        if to <= from {
            self.table[from * (from + 1) / 2 + to].at(along, across)
        } else {
            self.table[to * (to + 1) / 2 + from].at(-along, -across)
        }
    }

    /// The cost of a look into a pair, in looks at a box.
    pub(super) fn looks(&self, from: usize, to: usize) -> u64 {
        let (high, low) = (from.max(to), from.min(to));
        self.table[high * (high + 1) / 2 + low].looks()
    }

    /// The shortest way for the second outline out of the first.
    pub(super) fn way_out(&self, from: usize, to: usize, along: f64, across: f64) -> Option<(f64, f64)> {
        if to <= from {
            self.table[from * (from + 1) / 2 + to].way_out(along, across)
        } else {
            let out = self.table[to * (to + 1) / 2 + from].way_out(-along, -across)?;
            Some((-out.0, -out.1))
        }
    }

    /// Offsets at which an outline touches another in a corner of the no-fit polygon.
    pub(super) fn touches(&self, from: usize, to: usize) -> &[(f64, f64)] {
        &self.touches[from * self.outlines + to]
    }
}
