//! Upper bound on the value of pieces in a length: a table over scaled-down pieces in a scaled-down length.
//!
//! All lengths are divided by a step and rounded down, so that whatever really fits also fits here; with a step of 1
//! the table is exact. Values are whole numbers that floats hold exactly.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use crate::number;

/// Row `at`: the most value of the pieces from `at` on, in every scaled-down length.
#[derive(Clone, Debug, Default)]
pub(super) struct Ceiling {
    pub(super) step: i64,
    width: usize,
    table: Vec<f64>,
    spare: Vec<f64>,
}

impl Ceiling {
    /// Builds the table for lengths up to `capacity`, with about `size` entries; returns the work in thousands of
    /// operations.
    pub(super) fn build(&mut self, lengths: &[i64], counts: &[i64], values: &[i64], capacity: i64, size: i64) -> u64 {
        let items = lengths.len();
        let entries = (size / (number::from_size(items) + 1)).max(1);
        self.step = capacity / entries + 1;
        let width = number::index(capacity / self.step) + 1;
        self.width = width;
        self.table.resize(width * (items + 1), 0.0);
        self.table[width * items..width * (items + 1)].fill(0.0);
        self.spare.resize(width, 0.0);
        let mut work = 0;
        for at in (0..items).rev() {
            let (before, after) = self.table.split_at_mut(width * (at + 1));
            let target = &mut before[width * at..];
            let source = &after[..width];
            let length = lengths[at] / self.step;
            let mut left = counts[at].min(capacity / lengths[at]);
            if values[at] <= 0 || left <= 0 {
                target.copy_from_slice(source);
                continue;
            }
            let mut copies = 1;
            let mut first = true;
            // Copies by doubling, 1, 2, 4 …, and the remainder make up every number of them.
            while left > 0 {
                let now = copies.min(left);
                let shift = number::count(now * length).unwrap_or(width);
                let gain = number::from_whole(now * values[at]);
                if first {
                    with_piece(source, target, shift, gain);
                } else {
                    self.spare.copy_from_slice(target);
                    with_piece(&self.spare, target, shift, gain);
                }
                first = false;
                left -= now;
                copies *= 2;
                work += number::from_work(width / 1000) + 1;
            }
        }
        work
    }

    /// The most value of the pieces from `at` on in `left`, which is at most the `capacity` of the table.
    pub(super) fn most(&self, at: usize, left: i64) -> f64 {
        self.table[self.width * at + number::index(left / self.step)]
    }
}

/// `target[c]` becomes the greater of `source[c]` and `source[c − shift] + gain`.
fn with_piece(source: &[f64], target: &mut [f64], shift: usize, gain: f64) {
    target[..shift].copy_from_slice(&source[..shift]);
    let keeps = source[shift..].iter();
    for ((target, &keep), &from) in target[shift..].iter_mut().zip(keeps).zip(source) {
        let taken = from + gain;
        *target = if taken > keep { taken } else { keep };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_coarse_table_is_never_below_the_exact_one() {
        let (lengths, counts, values) = ([70, 51, 33, 20], [1, 2, 3, 1], [71, 50, -4, 22]);
        let mut exact = Ceiling::default();
        exact.build(&lengths, &counts, &values, 200, 5 * 201);
        let mut coarse = Ceiling::default();
        coarse.build(&lengths, &counts, &values, 200, 5 * 20);
        assert!(exact.step == 1 && coarse.step > 1);
        // Whole numbers, which floats hold exactly.
        assert_eq!((exact.most(0, 192).to_bits(), exact.most(1, 50).to_bits()), (193f64.to_bits(), 22f64.to_bits()));
        for left in 0..=200 {
            assert!((0..=4).all(|at| coarse.most(at, left) >= exact.most(at, left)));
        }
    }
}
