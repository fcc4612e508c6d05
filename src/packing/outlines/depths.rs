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
        let mut depths = Vec::new();
        let mut touches = Vec::new();
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outlines::tests::{Made, many_steps, polygon};

    #[test]
    fn every_pair_is_found_from_either_side() {
        let made = Made::new(
            900,
            0,
            &[
                polygon(&[(0, 0), (30, 0), (30, 10), (0, 10)], 1),
                polygon(&[(0, 0), (40, 0), (0, 30)], 1),
                polygon(&[(0, 0), (60, 0), (60, 20), (20, 20), (20, 90), (0, 90)], 1),
            ],
        );
        let mut steps = many_steps();
        let before = steps.left();
        let depths = Depths::new(&made.table(), &mut steps);
        let mut weights = 0;
        for one in 0..3 {
            for other in 0..3 {
                let forbidden = made.pairs.get(one, other).unwrap();
                let depth = Depth::new(forbidden);
                let mut inside = 0;
                for along in (-45..65).step_by(7).map(f64::from) {
                    for across in (-35..95).step_by(6).map(f64::from) {
                        let (at, expected) = (depths.at(one, other, along, across), depth.at(along, across));
                        assert!((at - expected).abs() < 1e-9, "{one}, {other}: {at} for {expected}");
                        inside += usize::from(at > 0.0);
                        let Some(out) = depths.way_out(one, other, along, across) else {
                            assert!(at <= 0.0);
                            continue;
                        };
                        // Hardly any depth is left where it leads.
                        assert!((out.0.hypot(out.1) - at).abs() < 1e-9);
                        let end = (along + out.0 * 0.999, across + out.1 * 0.999);
                        assert!(depth.at(end.0, end.1) <= at * 0.0011 + 1e-9);
                    }
                }
                assert!(inside > 10);
                let free = forbidden.free_corners().into_iter();
                let free = free.map(|(along, across)| (number::from_whole(along), number::from_whole(across)));
                assert_eq!(depths.touches(one, other), free.collect::<Vec<_>>());
                // Each pair is made once, in one order.
                let (high, low) = (one.max(other), one.min(other));
                let made_once = Depth::new(made.pairs.get(high, low).unwrap());
                assert_eq!(depths.looks(one, other), made_once.looks());
                weights += if other <= one { made_once.weight() } else { 0 };
            }
        }
        assert_eq!(before - steps.left(), weights);
    }
}
