//! Rows along the strip, each of one kind of piece, alternately turned where that nests them: gores turned half round
//! every other time, half circles interlocked, quarter circles in pairs.

use super::layout::{Piece, PosePlacement, Table};
use super::outline::Pose;
use crate::number;

/// How many of the preceding pieces of its row a piece is kept clear of.
const BACK: usize = 6;
/// The most pieces laid to choose the pattern of a row.
const TRIAL: usize = 120;

/// A row pattern: the poses its pieces take in turn, each with its position across within the row.
#[derive(Clone, Debug)]
struct Pattern {
    beats: Vec<(Pose, i64)>,
    high: i64,
}

/// Lays each kind in rows, one kind after another; `None` if a piece is too wide.
pub(super) fn fill(table: &Table<'_>, pieces: &[Piece]) -> Option<Vec<PosePlacement>> {
    let mut placements: Vec<PosePlacement> = Vec::with_capacity(pieces.len());
    let mut sorted = pieces.to_vec();
    sorted.sort_unstable();
    for group in sorted.chunk_by(|one, other| one.0 == other.0) {
        let item = group.first()?.0;
        let mirrored = group.iter().filter(|piece| piece.1).count();
        let start = if placements.is_empty() { 0 } else { table.length(&placements) + table.gap };
        let trial = TRIAL.min(group.len());
        let mut best: Option<(i64, Pattern)> = None;
        for pattern in patterns(table, item, mirrored > 0) {
            let length = lay(table, item, mirrored > 0, &pattern, trial, 0).map(|placements| table.length(&placements));
            if let Some(length) = length.filter(|&length| best.as_ref().is_none_or(|(least, _)| length < *least)) {
                best = Some((length, pattern));
            }
        }
        placements.extend(lay(table, item, mirrored > 0, &best?.1, group.len(), start)?);
    }
    Some(placements)
}

/// The patterns in which a kind may be laid.
fn patterns(table: &Table<'_>, item: usize, pairs: bool) -> Vec<Pattern> {
    let first = table.prepared.fitting(item, false, table.width);
    let second = if pairs { table.prepared.fitting(item, true, table.width) } else { first.clone() };
    let at_edge = table.prepared.items.get(item).is_some_and(|item| item.at_edge);
    let mut patterns = Vec::new();
    for &one in &first {
        for &other in &second {
            let (high, other_high) = (table.size(one).1, table.size(other).1);
            let mut shifts = vec![0, high - other_high];
            if let Some(forbidden) = table.pairs.get(one.outline, other.outline) {
                let corners = forbidden.parts.iter().flat_map(|part| part.corners.iter()).map(|corner| corner.1);
                let mut met: Vec<i64> = corners.collect();
                met.sort_unstable();
                met.dedup();
                // A sample of the shifts shows well enough what can be gained.
                let step = met.len().div_ceil(24).max(1);
                shifts.extend(met.into_iter().step_by(step));
            }
            if at_edge {
                shifts = vec![0];
            }
            shifts.sort_unstable();
            shifts.dedup();
            for shift in shifts {
                let (low, other_low) = ((-shift).max(0), shift.max(0));
                let whole = (low + high).max(other_low + other_high);
                if whole <= table.width {
                    patterns.push(Pattern { beats: vec![(one, low), (other, other_low)], high: whole });
                }
            }
        }
    }
    patterns
}

/// Lays `count` pieces of a kind in rows of a pattern.
fn lay(
    table: &Table<'_>,
    item: usize,
    pairs: bool,
    pattern: &Pattern,
    count: usize,
    start: i64,
) -> Option<Vec<PosePlacement>> {
    let rules = table.prepared.items.get(item)?;
    let fitting = (table.width + table.gap) / (pattern.high + table.gap).max(1);
    let rows = if rules.at_edge { 1 } else { number::count(fitting)?.max(1) };
    // Keep pairs together: an even count in each row.
    let mut in_row = count.div_ceil(rows);
    if pairs {
        in_row += in_row % 2;
    }
    let mut placements: Vec<PosePlacement> = Vec::with_capacity(count);
    let mut across = 0;
    while placements.len() < count {
        let first = placements.len();
        while placements.len() < count && placements.len() - first < in_row {
            let beat = (placements.len() - first) % pattern.beats.len();
            let &(pose, shift) = pattern.beats.get(beat)?;
            let place = across + shift;
            let least = placements.get(first..)?.last().map_or(start, |before| before.along);
            let row = placements.get(placements.len().saturating_sub(BACK).max(first)..)?;
            let along = clear(table, row, pose, place, least, |along| rules.begin(along))?;
            placements.push(PosePlacement { item, mirrored: pairs && beat == 1, pose, along, across: place });
        }
        across += pattern.high + table.gap;
    }
    Some(placements)
}

/// The first position at or after `least` where a piece is clear of the last ones of its row.
fn clear(
    table: &Table<'_>,
    row: &[PosePlacement],
    pose: Pose,
    across: i64,
    least: i64,
    begin: impl Fn(i64) -> i64,
) -> Option<i64> {
    let mut along = begin(least);
    // Each round moves past all pieces of the row at once; a round that moves nothing is the last.
    for _ in 0..=row.len() {
        let before = along;
        for other in row {
            let forbidden = table.pairs.get(other.pose.outline, pose.outline)?;
            let mut past = along - other.along;
            forbidden.along(across - other.across, |low, high| {
                if low < past && past < high {
                    past = high;
                }
            });
            along = begin(along.max(other.along + past));
        }
        if along == before {
            break;
        }
    }
    Some(along)
}

#[cfg(test)]
mod tests;
