//! Layouts on the endless stretch: the best plain one, improved by the search.

use super::layout::{Piece, PosePlacement, Table};
use super::{blocks, bottom_left, rows, search, shelves};
use crate::effort::Steps;
use crate::number;

/// The most pieces laid without blocks.
const BLOCK: usize = 120;
/// The most pieces of a block, if there are more pieces: a small block is searched better.
const SMALL_BLOCK: usize = 48;

/// Lays the pieces on an endless strip; returns them with those that are too wide for it.
pub(super) fn lay(
    table: &Table<'_>,
    pieces: &[Piece],
    seed: u64,
    steps: &mut Steps<'_>,
) -> (Vec<PosePlacement>, Vec<Piece>) {
    let mut sorted = pieces.to_vec();
    sorted.sort_unstable();
    let (mut narrow, mut wide) = (Vec::with_capacity(sorted.len()), Vec::new());
    for group in sorted.chunk_by(|one, other| one == other) {
        let fits = group.first().is_some_and(|piece| !table.prepared.fitting(piece.0, piece.1, table.width).is_empty());
        if fits { &mut narrow } else { &mut wide }.extend_from_slice(group);
    }
    if narrow.is_empty() {
        return (Vec::new(), wide);
    }
    let mut best = plain(table, &narrow);
    if table.pairs.is_empty() {
        return (best, wide);
    }
    if narrow.len() <= BLOCK {
        best = searched(table, &narrow, best, seed, steps);
    } else {
        let blocks = blocks::blocks(table, &narrow, SMALL_BLOCK);
        let mut left = number::from_work(blocks.len());
        let mut laid = Vec::with_capacity(blocks.len());
        for (pieces, times) in blocks {
            let mut part = steps.apart(steps.left() / left.max(1));
            left -= 1;
            laid.push((searched(table, &pieces, plain(table, &pieces), seed, &mut part), times));
        }
        if let Some(placements) = blocks::chained(table, &laid) {
            best = better(table, best, placements);
        }
    }
    (best, wide)
}

/// The best layout that needs no search.
fn plain(table: &Table<'_>, pieces: &[Piece]) -> Vec<PosePlacement> {
    let shelves = shelves::fill(table, pieces, None).0;
    match rows::fill(table, pieces) {
        Some(rows) => better(table, shelves, rows),
        None => shelves,
    }
}

fn searched(
    table: &Table<'_>,
    pieces: &[Piece],
    best: Vec<PosePlacement>,
    seed: u64,
    steps: &mut Steps<'_>,
) -> Vec<PosePlacement> {
    let filled = filled(table, pieces, best, steps);
    search::shorten(table, filled, seed, steps)
}

/// Bottom-left fill in several orders that usually do well.
fn filled(
    table: &Table<'_>,
    pieces: &[Piece],
    mut best: Vec<PosePlacement>,
    steps: &mut Steps<'_>,
) -> Vec<PosePlacement> {
    let area = |item: usize| table.prepared.items.get(item).map(|item| item.twice_area);
    for order in [
        table.sorted(pieces, |item, _| area(item)),
        table.sorted(pieces, |_, outline| (outline.long, outline.high)),
        table.sorted(pieces, |_, outline| (outline.high, outline.long)),
    ] {
        if !steps.take(1) {
            break;
        }
        best = better(table, best, bottom_left::fill(table, &order, None, steps).0);
    }
    best
}

/// Returns `other` if it is complete, shorter and valid, otherwise `best`.
fn better(table: &Table<'_>, best: Vec<PosePlacement>, other: Vec<PosePlacement>) -> Vec<PosePlacement> {
    let shorter = other.len() == best.len() && table.length(&other) < table.length(&best);
    if shorter && table.is_valid(&other) { other } else { best }
}

#[cfg(test)]
mod tests;
