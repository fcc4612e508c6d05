//! The cuts in the order a person makes them: equal ones in one row to tick off, and every single one with its marks.
//!
//! Never here: sentences.

use super::grouping::{Batch, batches, has_rest, stock_name};
use super::keeping::end_at_marks;
use super::plan_report::{PlanReport, PlanWords};
use super::sentences::lie_words;
use crate::cutting::{Cut, StockSource};
use crate::piece::Lie;
use crate::table::{Cell, Table, TableError};

/// One row for each run of equal cuts.
///
/// # Errors
/// Only errors of the table, which plans made here do not cause.
pub(crate) fn cuts(plans: &[PlanReport<'_>], words: &PlanWords) -> Result<Table, TableError> {
    let orders = plans.iter().flat_map(|report| report.pieces).any(|piece| piece.order.is_some());
    let columns = Table::new("cuts").text("from").count("pieces").text("piece");
    let columns = if orders { columns.text("order") } else { columns };
    let columns = columns.length("along", words.small()).length("across", words.small());
    let mut table = columns.length("mark to", words.small()).length("left", words.small()).ready()?;
    for report in plans {
        for batch in batches(report) {
            rows(report, &batch, words, orders, &mut table)?;
        }
    }
    Ok(table)
}

fn rows(
    report: &PlanReport<'_>,
    batch: &Batch<'_>,
    words: &PlanWords,
    orders: bool,
    table: &mut Table,
) -> Result<(), TableError> {
    let left = || Cell::from(end_at_marks(report, words, batch.first).0);
    // A new length has no mark on the shelf that tells the material.
    let from = match (batch.first.source, report.name) {
        (StockSource::New { .. }, Some(name)) => format!("{} ({name})", stock_name(batch)),
        _ => stock_name(batch),
    };
    let all: usize = batch.blocks.iter().map(|block| block.runs.len()).sum();
    let mut at = 0;
    for block in &batch.blocks {
        let from =
            if block.is_repeated() { format!("{from}, in each of {} rows", block.ends.len()) } else { from.clone() };
        for run in &block.runs {
            at += 1;
            let lie_words = lie_words(run);
            let piece =
                if lie_words.is_empty() { run.piece.to_owned() } else { format!("{} ({lie_words})", run.piece) };
            let end = if block.is_repeated() { block.ends.last().copied().unwrap_or(run.to) } else { run.to };
            let mut row: Vec<Cell> = vec![from.as_str().into(), run.pieces.into(), piece.into()];
            if orders {
                row.push(run.order.into());
            }
            row.extend([
                run.along.into(),
                run.across.map_or(Cell::Blank, Cell::from),
                end.into(),
                if at == all && has_rest(batch.first) { left() } else { Cell::Blank },
            ]);
            table.push(row)?;
        }
    }
    Ok(())
}

/// One row for each cut. Marks run along each length from its start, and across it from one selvedge.
///
/// # Errors
/// Only errors of the table, which plans made here do not cause.
pub(crate) fn plan(plans: &[PlanReport<'_>], words: &PlanWords) -> Result<Table, TableError> {
    let folded = plans.iter().flat_map(|report| &report.plan.uses).any(|stock| stock.folded);
    let columns = Table::new("plan").text("stock").count("cut").text("order").text("piece");
    let columns = columns.length("mark from", words.small()).length("mark to", words.small());
    let columns = columns.length("across from", words.small()).length("across to", words.small()).text("turned");
    let columns = if folded { columns.text("layers") } else { columns };
    let mut table = columns.text("material").text("note").ready()?;
    for report in plans {
        for stock in &report.plan.uses {
            for (number, cut) in (1_i64..).zip(&stock.cuts) {
                let mut row: Vec<Cell> = vec![
                    stock.stock.as_str().into(),
                    number.into(),
                    cut.order.as_deref().into(),
                    cut.piece.as_ref().into(),
                    cut.from.into(),
                    cut.to.into(),
                    cut.across_from.into(),
                    cut.across_to.into(),
                    cut.lie.word(cut.reversed).into(),
                ];
                if folded {
                    row.push(cut.through.word().into());
                }
                row.extend([report.name.into(), note(cut).into()]);
                table.push(row)?;
            }
        }
    }
    Ok(table)
}

fn note(cut: &Cut) -> String {
    let reversed = (cut.reversed && cut.lie != Lie::Along).then(|| "head to foot".to_owned());
    let mirrored = cut.mirrored.then(|| "mirrored".to_owned());
    let part = cut.part.map(|part| format!("part {} of {}", part.number, part.of));
    reversed.into_iter().chain(mirrored).chain(part).collect::<Vec<_>>().join(", ")
}
