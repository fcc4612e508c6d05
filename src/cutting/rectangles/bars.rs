//! A bound by cutting the plan into bars: every line across holds some of the pieces, no wider together than the room.
//!
//! The least length of bars that covers all pieces is a linear problem over the fillings of a line, solved by making
//! fillings as they are needed (Gilmore and Gomory, A linear programming approach to the cutting-stock problem, 1961;
//! Scheithauer's bar relaxation; from memory). Only its prices are used: in whole numbers, any prices at all give a
//! true bound, the value of all pieces over that of the most valuable line, which a table finds exactly.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::meter::Meter;
use super::parts::Form;
use crate::quantity::number;

/// A table of a line has so many entries, over all ways of lying, at most.
const TABLE: usize = 200_000;
/// Kinds at most.
const KINDS: usize = 40;
/// Rounds of making fillings.
const ROUNDS: usize = 200;
/// The dearest price in whole numbers.
const DEAREST: f64 = 1_073_741_824.0;

/// A length that no plan of these kinds goes below; 0 if it would take too much to say.
pub(super) fn bound(kinds: &[Vec<&Form>], counts: &[usize], width: i64, meter: &mut Meter<'_, '_>) -> i64 {
    let (rows, counts): (Vec<&Vec<&Form>>, Vec<f64>) = kinds
        .iter()
        .zip(counts)
        .filter(|(forms, count)| !forms.is_empty() && **count > 0)
        .map(|(forms, &count)| (forms, number::from_count(count)))
        .unzip();
    let Some(line) = Line::new(&rows, width) else { return 0 };
    let Some(mut basis) = Basis::new(&line, &counts) else { return 0 };
    let mut prices = basis.prices();
    for _ in 0..ROUNDS {
        if !meter.spend(line.work()) {
            return 0;
        }
        let filling = line.most_valuable(&prices);
        if filling.value <= 1.0 + 1e-9 || !basis.enter(&filling.cover) {
            break;
        }
        prices = basis.prices();
    }
    line.proven(&prices, &rows, &counts)
}

/// The ways of lying on one line across.
struct Line {
    width: usize,
    rows: usize,
    /// Across, row, length along.
    ways: Vec<(usize, usize, i64)>,
}

/// What a line may hold: how much of each row's pieces a unit of length of it covers, and what that is worth.
struct Filling {
    value: f64,
    cover: Vec<f64>,
}

impl Line {
    fn new(rows: &[&Vec<&Form>], width: i64) -> Option<Self> {
        let width = number::count(width)?;
        let mut ways = Vec::new();
        for (row, forms) in rows.iter().enumerate() {
            for form in *forms {
                ways.push((number::count(form.across)?, row, form.along));
            }
        }
        let entries = width.checked_mul(ways.len().max(1))?;
        (!rows.is_empty() && rows.len() <= KINDS && entries <= TABLE).then_some(Self { width, rows: rows.len(), ways })
    }

    fn work(&self) -> u64 {
        u64::try_from(self.width * self.ways.len() / 4 + 10).unwrap_or(u64::MAX)
    }

    /// The filling that is worth most at these prices of a piece of each row.
    fn most_valuable(&self, prices: &[f64]) -> Filling {
        let mut best = vec![0.0f64; self.width + 1];
        let mut last = vec![usize::MAX; self.width + 1];
        for at in 1..=self.width {
            best[at] = best[at - 1];
            for (index, &(across, row, along)) in self.ways.iter().enumerate() {
                if across <= at {
                    let value = best[at - across] + prices[row] / number::from_whole(along);
                    if value > best[at] {
                        (best[at], last[at]) = (value, index);
                    }
                }
            }
        }
        let mut cover = vec![0.0; self.rows];
        let mut at = self.width;
        while at > 0 {
            if let Some(&(across, row, along)) = self.ways.get(last[at]) {
                cover[row] += 1.0 / number::from_whole(along);
                at -= across;
            } else {
                at -= 1;
            }
        }
        Filling { value: best[self.width], cover }
    }

    /// The bound that these prices prove, in whole numbers from beginning to end.
    fn proven(&self, prices: &[f64], rows: &[&Vec<&Form>], counts: &[f64]) -> i64 {
        let price = |row: usize, along: i64| prices[row].max(0.0) / number::from_whole(along);
        let dearest = self.ways.iter().map(|&(_, row, along)| price(row, along)).fold(0.0, f64::max);
        if dearest <= 0.0 || !dearest.is_finite() {
            return 0;
        }
        let whole = |row: usize, along: i64| {
            number::nearest_whole((price(row, along) / dearest * DEAREST).floor()).unwrap_or(0)
        };
        let ways: Vec<(usize, i64)> =
            self.ways.iter().map(|&(across, row, along)| (across, whole(row, along))).collect();
        let mut best = vec![0i64; self.width + 1];
        for at in 1..=self.width {
            best[at] = best[at - 1];
            for &(across, value) in &ways {
                if across <= at {
                    best[at] = best[at].max(best[at - across] + value);
                }
            }
        }
        let line = i128::from(best[self.width]);
        let mut total = 0i128;
        for (row, forms) in rows.iter().enumerate() {
            let least = forms.iter().map(|form| i128::from(form.along) * i128::from(whole(row, form.along))).min();
            let count = number::nearest_whole(counts[row]).unwrap_or(0);
            total = total.saturating_add(least.unwrap_or(0).saturating_mul(i128::from(count)));
        }
        if line == 0 || total >= i128::MAX / 2 {
            return 0;
        }
        i64::try_from((total + line - 1) / line).unwrap_or(0)
    }
}

/// Fillings in use, by the inverse of their matrix, and how long each is.
struct Basis {
    inverse: Vec<Vec<f64>>,
    lengths: Vec<f64>,
}

impl Basis {
    /// A line of one kind for each.
    fn new(line: &Line, counts: &[f64]) -> Option<Self> {
        let mut inverse = vec![vec![0.0; line.rows]; line.rows];
        let mut lengths = vec![0.0; line.rows];
        for &(across, row, along) in &line.ways {
            let cover = number::from_count(line.width / across) / number::from_whole(along);
            if cover > 0.0 {
                inverse[row][row] = 1.0 / cover;
                lengths[row] = counts[row] / cover;
            }
        }
        lengths.iter().all(|&length| length > 0.0).then_some(Self { inverse, lengths })
    }

    /// What a piece of each row costs.
    fn prices(&self) -> Vec<f64> {
        let rows = self.lengths.len();
        (0..rows).map(|column| self.inverse.iter().map(|row| row[column]).sum()).collect()
    }

    /// Takes a filling into use, for the one that is used up first; answers whether it could.
    fn enter(&mut self, cover: &[f64]) -> bool {
        let column: Vec<f64> =
            self.inverse.iter().map(|row| row.iter().zip(cover).map(|(one, other)| one * other).sum()).collect();
        let mut leaves: Option<(usize, f64)> = None;
        for (row, &share) in column.iter().enumerate() {
            if share > 1e-12 {
                let length = self.lengths[row] / share;
                if leaves.is_none_or(|(_, least)| length < least) {
                    leaves = Some((row, length));
                }
            }
        }
        let Some((leaves, length)) = leaves else { return false };
        let pivot = column[leaves];
        for value in &mut self.inverse[leaves] {
            *value /= pivot;
        }
        let entering = self.inverse[leaves].clone();
        for (row, &share) in column.iter().enumerate() {
            if row == leaves {
                self.lengths[row] = length;
            } else {
                self.lengths[row] = (self.lengths[row] - share * length).max(0.0);
                for (value, new) in self.inverse[row].iter_mut().zip(&entering) {
                    *value -= share * new;
                }
            }
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::AtomicBool;

    use super::super::super::effort::{Steps, Watch};
    use super::*;

    #[test]
    fn a_width_that_cannot_be_filled_counts() {
        let form = |kind, across, along| Form {
            kind,
            across,
            along,
            turned: false,
            at_edge: false,
            starts: None,
            area: number::from_whole(across * along),
        };
        let stop = AtomicBool::new(false);
        let mut steps = Steps::new(1_000_000, Watch::silent(&stop));
        let mut meter = Meter::new(&mut steps, 100);
        // Of 5 in 12 two lie side by side: fifteen rows for thirty.
        let five = form(0, 5, 3);
        assert_eq!(bound(&[vec![&five]], &[30], 12, &mut meter), 45);
        // 7 and 5 fill the line together, and the fives left over lie two by two.
        let seven = form(1, 7, 3);
        assert_eq!(bound(&[vec![&five], vec![&seven]], &[30, 10], 12, &mut meter), 60);
        // Turned, the five lie four to a line of 12, 5 long.
        let turned = form(0, 3, 5);
        assert_eq!(bound(&[vec![&five, &turned]], &[30], 12, &mut meter), 38);
    }
}
