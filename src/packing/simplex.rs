//! The revised simplex method with a dense inverse, on floats, for programs whose columns are generated as needed. It
//! guides searches and proves nothing: bounds are checked elsewhere in whole numbers.
//!
//! Method: G. B. Dantzig, revised simplex with explicit inverse, as in every textbook of linear programming.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use crate::number;

/// Values below this count as zero, in a basis that is updated.
const TINY: f64 = 1e-9;
/// The smallest pivot, in a basis that is updated.
const PIVOT: f64 = 1e-7;
/// Ratios this close count as equal, in a basis that is computed.
const SAME: f64 = 1e-12;
/// Pivots after which the inverse is recomputed.
const RENEW: usize = 150;
/// Marks a column outside the basis.
const NOWHERE: usize = usize::MAX;

/// The columns of all programs over the same rows. Each row begins with two columns of its own: a free one for a
/// surplus (of a demand) or a slack (of a stock), and the opposite at a deterring cost.
#[derive(Clone, Debug)]
pub(crate) struct Columns {
    pub(crate) rows: usize,
    /// The first rows, this many, demand at least so much; the others allow at most so much.
    demands: usize,
    start: Vec<usize>,
    row: Vec<usize>,
    value: Vec<f64>,
    pub(crate) cost: Vec<f64>,
}

impl Columns {
    /// Demands first, then stocks.
    pub(crate) fn new(demands: usize, stocks: usize, deterring: f64) -> Self {
        let rows = demands + stocks;
        let mut columns = Self { rows, demands, start: vec![0], row: Vec::new(), value: Vec::new(), cost: Vec::new() };
        for row in 0..rows {
            columns.add(0.0, [(row, if row < demands { -1.0 } else { 1.0 })]);
        }
        for row in 0..rows {
            columns.add(deterring, [(row, if row < demands { 1.0 } else { -1.0 })]);
        }
        columns
    }

    pub(crate) fn add(&mut self, cost: f64, entries: impl IntoIterator<Item = (usize, f64)>) -> usize {
        for (row, value) in entries {
            self.row.push(row);
            self.value.push(value);
        }
        self.start.push(self.row.len());
        self.cost.push(cost);
        self.cost.len() - 1
    }

    /// The free column for the surplus over the demand of `row`.
    pub(crate) fn surplus(row: usize) -> usize {
        row
    }

    /// How many columns belong to the rows themselves.
    pub(crate) fn own(&self) -> usize {
        2 * self.rows
    }

    pub(crate) fn len(&self) -> usize {
        self.cost.len()
    }

    fn entries(&self, column: usize) -> impl Iterator<Item = (usize, f64)> {
        let range = self.start[column]..self.start[column + 1];
        self.row[range.clone()].iter().copied().zip(self.value[range].iter().copied())
    }

    pub(crate) fn dot(&self, column: usize, vector: &[f64]) -> f64 {
        self.entries(column).map(|(row, value)| value * vector[row]).sum()
    }
}

/// How a basis keeps its numbers accurate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Upkeep {
    /// For programs with many pivots: prices are updated, the inverse is recomputed now and then, and small pivots
    /// are avoided.
    Updated,
    /// For short ones: prices are computed from the inverse after each pivot.
    Computed,
}

/// The state of a program: the columns in the basis, and their levels.
#[derive(Clone, Debug)]
pub(crate) struct Basis {
    upkeep: Upkeep,
    rows: usize,
    /// The inverse, row by row.
    inverse: Vec<f64>,
    /// The column in each position of the basis.
    pub(crate) basic: Vec<usize>,
    position_of: Vec<usize>,
    pub(crate) level: Vec<f64>,
    /// The price of each row.
    pub(crate) price: Vec<f64>,
    pub(crate) rhs: Vec<f64>,
    pivots: usize,
    alpha: Vec<f64>,
    /// Thousands of simple operations done.
    pub(crate) work: u64,
}

impl Basis {
    /// Begins with demands unmet and stocks unused.
    pub(crate) fn new(columns: &Columns, rhs: Vec<f64>, upkeep: Upkeep) -> Self {
        let (rows, demands) = (columns.rows, columns.demands);
        let mut basis = Self {
            upkeep,
            rows,
            inverse: vec![0.0; rows * rows],
            basic: (0..rows).map(|row| if row < demands { rows + row } else { row }).collect(),
            position_of: Vec::new(),
            level: rhs.clone(),
            price: vec![0.0; rows],
            rhs,
            pivots: 0,
            alpha: vec![0.0; rows],
            work: 0,
        };
        for row in 0..rows {
            basis.inverse[row * rows + row] = 1.0;
        }
        basis.index_positions(columns);
        basis.value(columns);
        basis
    }

    /// Restarts with these columns in the basis.
    pub(crate) fn resume(columns: &Columns, rhs: Vec<f64>, basic: Vec<usize>) -> Self {
        let mut basis = Self::new(columns, rhs, Upkeep::Updated);
        basis.basic = basic;
        basis.index_positions(columns);
        basis.renew(columns);
        basis
    }

    fn index_positions(&mut self, columns: &Columns) {
        self.position_of.clear();
        self.position_of.resize(columns.len(), NOWHERE);
        for (position, &column) in self.basic.iter().enumerate() {
            self.position_of[column] = position;
        }
    }

    /// Computes levels and prices from the inverse.
    fn value(&mut self, columns: &Columns) {
        let rows = self.rows;
        for position in 0..rows {
            let line = &self.inverse[position * rows..(position + 1) * rows];
            self.level[position] = line.iter().zip(&self.rhs).map(|(entry, rhs)| entry * rhs).sum();
        }
        self.value_rows(columns);
        self.work += number::from_work(rows * rows / 500) + 1;
    }

    /// Computes prices from the inverse.
    fn value_rows(&mut self, columns: &Columns) {
        let rows = self.rows;
        self.price.fill(0.0);
        for position in 0..rows {
            let line = &self.inverse[position * rows..(position + 1) * rows];
            let cost = columns.cost[self.basic[position]];
            if cost.abs() > 0.0 {
                for (price, entry) in self.price.iter_mut().zip(line) {
                    *price += cost * entry;
                }
            }
        }
    }

    /// Recomputes levels and prices after `rhs` or costs have changed.
    pub(crate) fn revalue(&mut self, columns: &Columns) {
        self.value(columns);
    }

    pub(crate) fn objective(&self, columns: &Columns) -> f64 {
        self.basic.iter().zip(&self.level).map(|(&column, level)| columns.cost[column] * level).sum()
    }

    pub(crate) fn is_in(&self, column: usize) -> bool {
        self.position_of.get(column).is_some_and(|&position| position != NOWHERE)
    }

    fn expand(&mut self, columns: &Columns, column: usize) {
        let rows = self.rows;
        let entries: Vec<(usize, f64)> = columns.entries(column).collect();
        for position in 0..rows {
            let line = &self.inverse[position * rows..(position + 1) * rows];
            self.alpha[position] = entries.iter().map(|&(row, value)| value * line[row]).sum();
        }
        self.work += number::from_work(rows * entries.len() / 700);
    }

    fn pivot(&mut self, columns: &Columns, column: usize, position: usize) {
        let rows = self.rows;
        let divisor = self.alpha[position];
        let is_updated = self.upkeep == Upkeep::Updated;
        let step = if is_updated { self.level[position] } else { self.level[position].max(0.0) } / divisor;
        let least_factor = if is_updated { 1e-12 } else { f64::MIN_POSITIVE };
        let reduced = columns.cost[column] - columns.dot(column, &self.price);
        let mut line = self.inverse[position * rows..(position + 1) * rows].to_vec();
        for entry in &mut line {
            *entry /= divisor;
        }
        let mut touched = 1;
        for other in 0..rows {
            let factor = self.alpha[other];
            if other == position || factor.abs() < least_factor {
                continue;
            }
            touched += 1;
            self.level[other] -= step * factor;
            for (entry, pivot) in self.inverse[other * rows..(other + 1) * rows].iter_mut().zip(&line) {
                *entry -= factor * pivot;
            }
        }
        if is_updated {
            for (price, entry) in self.price.iter_mut().zip(&line) {
                *price += reduced * entry;
            }
        }
        self.inverse[position * rows..(position + 1) * rows].copy_from_slice(&line);
        self.level[position] = step;
        self.position_of[self.basic[position]] = NOWHERE;
        self.basic[position] = column;
        self.position_of[column] = position;
        self.work += number::from_work(touched * rows / 2000) + 1;
        if !is_updated {
            return self.value_rows(columns);
        }
        self.pivots += 1;
        if self.pivots >= RENEW.max(rows) {
            self.renew(columns);
        }
    }

    /// Recomputes the inverse from the columns in the basis (Gauss–Jordan with row exchange).
    fn renew(&mut self, columns: &Columns) {
        let rows = self.rows;
        self.pivots = 0;
        // Row operations turn the matrix of the basic columns into a unit matrix and the unit matrix into the inverse.
        let mut matrix = vec![0.0; rows * rows];
        for (position, &column) in self.basic.iter().enumerate() {
            for (row, value) in columns.entries(column) {
                matrix[row * rows + position] = value;
            }
        }
        let mut inverse = vec![0.0; rows * rows];
        for row in 0..rows {
            inverse[row * rows + row] = 1.0;
        }
        let mut touched = 0;
        for at in 0..rows {
            let size = |row: usize, matrix: &[f64]| matrix[row * rows + at].abs();
            let largest =
                (at..rows).max_by(|&left, &right| size(left, &matrix).total_cmp(&size(right, &matrix))).unwrap_or(at);
            if size(largest, &matrix) < 1e-10 {
                return; // The old inverse, though inaccurate, is better than none.
            }
            if largest != at {
                for column in 0..rows {
                    matrix.swap(at * rows + column, largest * rows + column);
                    inverse.swap(at * rows + column, largest * rows + column);
                }
            }
            let divisor = matrix[at * rows + at];
            let lead: Vec<f64> = matrix[at * rows..(at + 1) * rows].iter().map(|entry| entry / divisor).collect();
            let mark: Vec<f64> = inverse[at * rows..(at + 1) * rows].iter().map(|entry| entry / divisor).collect();
            matrix[at * rows..(at + 1) * rows].copy_from_slice(&lead);
            inverse[at * rows..(at + 1) * rows].copy_from_slice(&mark);
            for row in 0..rows {
                let factor = matrix[row * rows + at];
                if row == at || factor.abs() < 1e-13 {
                    continue;
                }
                touched += 2;
                for (entry, lead) in matrix[row * rows + at..(row + 1) * rows].iter_mut().zip(&lead[at..]) {
                    *entry -= factor * lead;
                }
                for (entry, mark) in inverse[row * rows..(row + 1) * rows].iter_mut().zip(&mark) {
                    *entry -= factor * mark;
                }
            }
        }
        self.inverse = inverse;
        self.work += number::from_work(touched * rows / 2000);
        self.value(columns);
    }

    /// Brings a column into the basis; `false` if nothing limits it.
    pub(crate) fn enter(&mut self, columns: &Columns, column: usize) -> bool {
        self.position_of.resize(columns.len(), NOWHERE);
        self.expand(columns, column);
        let is_updated = self.upkeep == Upkeep::Updated;
        let (pivot, same) = if is_updated { (PIVOT, TINY) } else { (TINY, SAME) };
        let mut best: Option<(usize, f64)> = None;
        for position in 0..self.rows {
            let alpha = self.alpha[position];
            if alpha > pivot {
                let ratio = self.level[position].max(0.0) / alpha;
                let better = best.is_none_or(|(other, least)| {
                    ratio < least - same || (ratio <= least + same && alpha > self.alpha[other])
                });
                if better {
                    let least = best.map_or(ratio, |(_, least)| least.min(ratio));
                    best = Some((position, if is_updated { least } else { ratio }));
                }
            }
        }
        let Some((position, _)) = best else { return false };
        self.pivot(columns, column, position);
        true
    }

    /// Enters existing columns until none improves, at most `most`; returns the number of pivots.
    pub(crate) fn improve(&mut self, columns: &Columns, usable: impl Fn(usize) -> bool, most: usize) -> usize {
        let mut done = 0;
        while done < most {
            let mut best = (-1e-8, NOWHERE);
            for column in 0..columns.len() {
                if !self.is_in(column) && usable(column) {
                    let reduced = columns.cost[column] - columns.dot(column, &self.price);
                    if reduced < best.0 {
                        best = (reduced, column);
                    }
                }
            }
            self.work += number::from_work(columns.row.len() / 700) + 1;
            if best.1 == NOWHERE || !self.enter(columns, best.1) {
                break;
            }
            done += 1;
        }
        done
    }

    /// Brings negative levels back to zero, with reduced costs kept from turning negative (dual simplex); `false` if
    /// that fails within `most` pivots.
    pub(crate) fn repair(&mut self, columns: &Columns, usable: impl Fn(usize) -> bool, most: usize) -> bool {
        self.position_of.resize(columns.len(), NOWHERE);
        for _ in 0..most {
            let lowest = (0..self.rows).min_by(|&left, &right| self.level[left].total_cmp(&self.level[right]));
            let Some(position) = lowest.filter(|&position| self.level[position] < -TINY) else { return true };
            let line = self.inverse[position * self.rows..(position + 1) * self.rows].to_vec();
            let mut best: Option<(f64, f64, usize)> = None;
            for column in 0..columns.len() {
                if self.is_in(column) || !usable(column) {
                    continue;
                }
                let alpha = columns.dot(column, &line);
                if alpha < -PIVOT {
                    let reduced = (columns.cost[column] - columns.dot(column, &self.price)).max(0.0);
                    let ratio = reduced / -alpha;
                    let better = best.is_none_or(|(least, other, _)| {
                        ratio < least - TINY || (ratio < least + TINY && alpha < other)
                    });
                    if better {
                        best = Some((ratio, alpha, column));
                    }
                }
            }
            self.work += number::from_work(columns.row.len() / 500) + 1;
            let Some((_, _, column)) = best else { return false };
            self.expand(columns, column);
            self.pivot(columns, column, position);
        }
        false
    }
}

#[cfg(test)]
mod tests;
