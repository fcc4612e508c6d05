//! Groups what is cut alike: runs of equal cuts, rows that repeat, lengths that are cut the same way.
//!
//! Never here: the words for it.

use super::plan_report::PlanReport;
use crate::cutting::{Cut, JoinedPart, StockSource, StockUse};
use crate::piece::{Layers, Lie};
use crate::quantity::Length;

/// Consecutive lengths that are cut alike.
#[derive(Debug)]
pub(super) struct Batch<'a> {
    pub(super) first: &'a StockUse,
    /// Number of lengths.
    pub(super) lengths: i64,
    pub(super) blocks: Vec<Block<'a>>,
}

/// Cuts that are described together, for one or for several equal rows.
#[derive(Debug, PartialEq)]
pub(super) struct Block<'a> {
    /// Where each of the rows ends; one mark if the rows are not repeated.
    pub(super) ends: Vec<Length>,
    pub(super) runs: Vec<Run<'a>>,
}

impl Block<'_> {
    /// Whether it describes several equal rows.
    pub(super) fn is_repeated(&self) -> bool {
        self.ends.len() > 1
    }
}

/// Consecutive equal cuts.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run<'a> {
    pub(super) piece: &'a str,
    pub(super) order: Option<&'a str>,
    pub(super) pieces: i64,
    pub(super) along: Length,
    /// `None` for the full width.
    pub(super) across: Option<Length>,
    /// Where each cut starts.
    pub(super) starts: Vec<Length>,
    pub(super) to: Length,
    pub(super) across_from: Length,
    pub(super) across_to: Length,
    pub(super) lie: Lie,
    pub(super) through: Layers,
    pub(super) reversed: bool,
    pub(super) mirrored: bool,
    pub(super) part: Option<JoinedPart>,
}

impl<'a> Run<'a> {
    pub(super) fn of(report: &PlanReport<'a>, cut: &'a Cut) -> Self {
        Self {
            piece: &cut.piece,
            order: cut.order.as_deref(),
            pieces: 1,
            along: cut.to - cut.from,
            across: (!report.takes_full_width(cut.entry)).then(|| cut.across_to - cut.across_from),
            starts: vec![cut.from],
            to: cut.to,
            across_from: cut.across_from,
            across_to: cut.across_to,
            lie: cut.lie,
            through: cut.through,
            reversed: cut.reversed,
            mirrored: cut.mirrored,
            part: cut.part,
        }
    }

    pub(super) fn from(&self) -> Length {
        self.starts.iter().copied().reduce(Length::least).unwrap_or(Length::ZERO)
    }

    fn continues_in(&self, next: &Self) -> bool {
        self.piece == next.piece
            && self.order == next.order
            && self.along == next.along
            && self.across == next.across
            && self.lie == next.lie
            && self.through == next.through
            && self.reversed == next.reversed
            && self.part == next.part
    }

    fn take(&mut self, next: Self) {
        self.pieces += next.pieces;
        self.starts.extend(next.starts);
        self.to = self.to.most(next.to);
        self.across_from = self.across_from.least(next.across_from);
        self.across_to = self.across_to.most(next.across_to);
        self.mirrored |= next.mirrored;
    }

    /// Whether a row has the same cuts, wherever along the length it begins.
    fn repeats(&self, other: &Self) -> bool {
        self.continues_in(other)
            && self.pieces == other.pieces
            && self.mirrored == other.mirrored
            && self.across_from == other.across_from
            && self.across_to == other.across_to
    }
}

/// Adds a run, or merges it into the last one if it continues that.
fn add<'a>(runs: &mut Vec<Run<'a>>, next: Run<'a>) {
    match runs.last_mut() {
        Some(last) if last.continues_in(&next) => last.take(next),
        _ => runs.push(next),
    }
}

/// The lengths of a plan, with consecutive equal ones described once.
pub(super) fn batches<'a>(report: &PlanReport<'a>) -> Vec<Batch<'a>> {
    let mut batches: Vec<Batch<'a>> = Vec::new();
    for stock in &report.plan.uses {
        let blocks = blocks(report, stock);
        match batches.last_mut() {
            Some(last) if is_alike(last.first, stock) && last.blocks == blocks => last.lengths += 1,
            _ => batches.push(Batch { first: stock, lengths: 1, blocks }),
        }
    }
    batches
}

fn is_alike(first: &StockUse, second: &StockUse) -> bool {
    let same = match (first.source, second.source) {
        (StockSource::Shelf { entry: first, .. }, StockSource::Shelf { entry: second, .. })
        | (StockSource::New { offer: first, .. }, StockSource::New { offer: second, .. }) => first == second,
        _ => false,
    };
    same && first.length == second.length && first.folded == second.folded
}

/// The cuts of one length in blocks: with repeated rows if that is shorter, otherwise in one block.
fn blocks<'a>(report: &PlanReport<'a>, stock: &'a StockUse) -> Vec<Block<'a>> {
    let mut flat: Vec<Run<'a>> = Vec::new();
    for cut in &stock.cuts {
        add(&mut flat, Run::of(report, cut));
    }
    let once = |runs: Vec<Run<'a>>| {
        let end = runs.iter().map(|run| run.to).reduce(Length::most).unwrap_or(Length::ZERO);
        Block { ends: vec![end], runs }
    };
    let rows = rows(report, stock);
    let mut blocks: Vec<Block<'a>> = Vec::new();
    let mut at = 0;
    while let Some(row) = rows.get(at) {
        let behind = rows.get(at..).unwrap_or_default().iter();
        // Rows of one run are taken into the one before: looking how many are alike at each would take the square of them.
        let again = if row.len() > 1 { behind.take_while(|next| rows_repeat(row, next)).count() } else { 1 };
        if again > 1 {
            let ends = rows.get(at..at + again).unwrap_or_default().iter().map(|row| end_of(row)).collect();
            blocks.push(Block { ends, runs: row.clone() });
            at += again;
            continue;
        }
        match blocks.last_mut().filter(|last| !last.is_repeated()) {
            Some(last) => {
                for run in row.clone() {
                    add(&mut last.runs, run);
                }
                last.ends = vec![last.ends.iter().copied().fold(end_of(row), Length::most)];
            }
            None => blocks.push(once(row.clone())),
        }
        at += 1;
    }
    let runs_in_blocks: usize = blocks.iter().map(|block| block.runs.len()).sum();
    if runs_in_blocks < flat.len() { blocks } else { vec![once(flat)] }
}

fn end_of(row: &[Run<'_>]) -> Length {
    row.iter().map(|run| run.to).reduce(Length::most).unwrap_or(Length::ZERO)
}

fn rows_repeat(first: &[Run<'_>], next: &[Run<'_>]) -> bool {
    let start = |row: &[Run<'_>]| row.first().map_or(Length::ZERO, Run::from);
    let (first_start, next_start) = (start(first), start(next));
    first.len() == next.len()
        && first
            .iter()
            .zip(next)
            .all(|(run, other)| run.repeats(other) && run.to - first_start == other.to - next_start)
}

/// The cuts in rows: those that start at the same mark.
fn rows<'a>(report: &PlanReport<'a>, stock: &'a StockUse) -> Vec<Vec<Run<'a>>> {
    let rows = stock.cuts.chunk_by(|cut, next| cut.from == next.from);
    rows.map(|row| {
        let mut runs = Vec::new();
        for cut in row {
            add(&mut runs, Run::of(report, cut));
        }
        runs
    })
    .collect()
}

/// Whether the pieces lie in rows, side by side from one selvedge, so that marks along the length are enough.
pub(super) fn lies_in_rows(stock: &StockUse) -> bool {
    let mut rows = stock.cuts.chunk_by(|cut, next| cut.from == next.from);
    rows.all(|row| {
        row.first().is_none_or(|first| first.across_from == Length::ZERO)
            && row.windows(2).all(|pair| match pair {
                [left, right] => left.across_to == right.across_from,
                _ => true,
            })
    })
}

/// Whether there is a rest to report: cloth bought as needed leaves none.
pub(super) fn has_rest(stock: &StockUse) -> bool {
    let as_needed = matches!(stock.source, StockSource::New { .. }) && stock.length == stock.used + stock.lead;
    !as_needed
}

/// The name of a length, or of several that are cut alike.
pub(super) fn stock_name(batch: &Batch<'_>) -> String {
    let stock = &batch.first.stock;
    match (batch.lengths, batch.first.source) {
        (1, _) => stock.clone(),
        (lengths, StockSource::Shelf { .. }) => format!("each of {lengths} lengths of {stock}"),
        (lengths, StockSource::New { number, .. }) => {
            let name = stock.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end();
            let last = number.saturating_add(lengths - 1);
            if name.ends_with(|c: char| c.is_ascii_lowercase()) {
                format!("each of {name}s {number} to {last}")
            } else {
                format!("each of {name}, numbers {number} to {last}")
            }
        }
    }
}
