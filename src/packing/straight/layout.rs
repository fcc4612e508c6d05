//! Turns the rows of a plan into positions on the cloth.

use super::plan::{Band, Plan, Stack};
use super::prepared::{Prepared, apart};
use crate::problem::Starts;
use crate::solution::{Column, Row, RowSolution, Run, Turn};

/// The plan with all positions; `None` if the plan is malformed.
pub(super) fn solution(prepared: &Prepared, plan: &Plan, bound: i64, proved: bool) -> Option<RowSolution> {
    let mut rows: Vec<Row> = Vec::new();
    let mut ends = vec![0i64; prepared.stretches.len()];
    for stretch in 0..prepared.stretches.len() {
        for band in plan.bands.iter().filter(|band| band.stretch == stretch) {
            let end = ends.get_mut(stretch)?;
            if !band.is_marked {
                let mut row = row(prepared, band, *end)?;
                row.times = band.times;
                *end = end.checked_add(band.along.checked_mul(band.times)?)?;
                rows.push(row);
                continue;
            }
            for _ in 0..band.times {
                let row = row(prepared, band, *end)?;
                *end = row.from + row.along + prepared.loss;
                push(&mut rows, row);
            }
        }
    }
    let length = (ends.last().copied().unwrap_or_default() - prepared.loss).max(0);
    let unplaced = prepared
        .items
        .iter()
        .zip(&plan.missing)
        .map(|(item, missing)| item.unplaceable + missing)
        .enumerate()
        .filter(|&(_, count)| count > 0)
        .collect();
    Some(RowSolution { rows, length, unplaced, bound, proved })
}

/// Adds a row, merged with the one before if it repeats that.
fn push(rows: &mut Vec<Row>, row: Row) {
    if let Some(last) = rows.last_mut()
        && (last.stretch, last.along, last.used) == (row.stretch, row.along, row.used)
        && last.columns == row.columns
    {
        let before = last.from + last.apart * (last.times - 1);
        if last.times == 1 || row.from - before == last.apart {
            last.apart = row.from - before;
            last.times += 1;
            return;
        }
    }
    rows.push(row);
}

/// One row that may begin at `at`; it begins with its first piece.
fn row(prepared: &Prepared, band: &Band, at: i64) -> Option<Row> {
    let mut columns = Vec::with_capacity(band.stacks.len());
    let mut across = 0;
    let (mut from, mut end) = (i64::MAX, at);
    for stack in &band.stacks {
        let (runs, stack_end) = runs(prepared, stack, at)?;
        from = from.min(runs.first()?.from);
        end = end.max(stack_end);
        columns.push(Column { across, width: stack.width, times: stack.times, runs });
        across += stack.width * stack.times;
    }
    for run in columns.iter_mut().flat_map(|column| &mut column.runs) {
        run.from -= from;
    }
    let along = end - prepared.loss - from;
    Some(Row { stretch: band.stretch, from, along, used: across, times: 1, apart: along + prepared.loss, columns })
}

/// The pieces of a column that may begin at `at`, placed along the stretch, and where they end.
fn runs(prepared: &Prepared, stack: &Stack, mut at: i64) -> Option<(Vec<Run>, i64)> {
    let mut runs = Vec::with_capacity(stack.piles.len());
    for pile in &stack.piles {
        let shape = prepared.shapes.get(pile.shape)?;
        let starts = prepared.items.get(shape.item)?.starts;
        let from = Starts::next_of(starts, at);
        let apart = apart(starts, shape.along);
        let turn = if shape.turned { Turn::Quarter } else { Turn::None };
        runs.push(Run { item: shape.item, turn, from, times: pile.times, apart });
        at = from + apart * (pile.times - 1) + shape.along;
    }
    Some((runs, at))
}

#[cfg(test)]
mod tests;
