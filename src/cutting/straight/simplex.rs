//! A linear program whose columns are found as they are needed: least cost, every row met exactly.
//!
//! The revised simplex method with the inverse of the basis kept whole (Dantzig; from memory). What it answers is a
//! proposal only: plans are rounded to whole numbers, bounds are proved elsewhere.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

const SMALL: f64 = 1e-9;

/// The program at one of its corners.
#[derive(Debug)]
pub(super) struct Simplex {
    rows: usize,
    /// Row by row.
    inverse: Vec<f64>,
    pub(super) levels: Vec<f64>,
    costs: Vec<f64>,
    /// What the caller calls the columns of the basis; none for those it began with.
    pub(super) names: Vec<Option<usize>>,
}

impl Simplex {
    /// Begins with one column of its own for each row, at a cost nobody would pay.
    pub(super) fn new(wanted: &[f64], costs: Vec<f64>) -> Self {
        let rows = wanted.len();
        let mut inverse = vec![0.0; rows * rows];
        for row in 0..rows {
            inverse[row * rows + row] = 1.0;
        }
        Self { rows, inverse, levels: wanted.to_vec(), costs, names: vec![None; rows] }
    }

    /// What one more of each row's demand costs.
    pub(super) fn prices(&self) -> Vec<f64> {
        let mut prices = vec![0.0; self.rows];
        for (row, cost) in self.costs.iter().enumerate().filter(|(_, cost)| **cost > 0.0) {
            for (price, entry) in prices.iter_mut().zip(&self.inverse[row * self.rows..]) {
                *price += cost * entry;
            }
        }
        prices
    }

    /// Takes a column into the basis; answers whether it could.
    pub(super) fn enter(&mut self, name: Option<usize>, cost: f64, column: &[(usize, f64)]) -> bool {
        let rows = self.rows;
        let alpha: Vec<f64> = (0..rows)
            .map(|row| column.iter().map(|&(at, entry)| self.inverse[row * rows + at] * entry).sum())
            .collect();
        let mut leaving: Option<(usize, f64)> = None;
        for row in 0..rows {
            if alpha[row] > SMALL {
                let ratio = self.levels[row].max(0.0) / alpha[row];
                let is_less = leaving.is_none_or(|(old, least)| {
                    ratio < least - 1e-12 || (ratio <= least + 1e-12 && alpha[row] > alpha[old])
                });
                if is_less {
                    leaving = Some((row, ratio));
                }
            }
        }
        let Some((pivot, ratio)) = leaving else { return false };
        let turn: Vec<f64> =
            self.inverse[pivot * rows..(pivot + 1) * rows].iter().map(|entry| entry / alpha[pivot]).collect();
        for row in (0..rows).filter(|&row| row != pivot && alpha[row] != 0.0) {
            for (entry, turn) in self.inverse[row * rows..(row + 1) * rows].iter_mut().zip(&turn) {
                *entry -= alpha[row] * turn;
            }
            self.levels[row] -= alpha[row] * ratio;
        }
        self.inverse[pivot * rows..(pivot + 1) * rows].copy_from_slice(&turn);
        self.levels[pivot] = ratio;
        self.costs[pivot] = cost;
        self.names[pivot] = name;
        true
    }
}
