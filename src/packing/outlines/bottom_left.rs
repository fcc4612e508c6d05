//! Bottom-left fill: places one piece after another where it ends first along the strip, in holes between the others
//! too.

use super::layout::{Piece, PosePlacement, Table};
use super::outline::Pose;
use crate::effort::Steps;

/// The most positions across the strip tried for a piece.
const MOST_LEVELS: usize = 160;
/// Looks at a convex part that take about as long as one step.
pub(super) const LOOKS_A_STEP: u64 = 24;

/// Lays the pieces in this order on a strip, at most `limit` long if there is one; returns them with those left over.
/// When the steps are used up, the rest goes end to end.
pub(super) fn fill(
    table: &Table<'_>,
    pieces: &[Piece],
    limit: Option<i64>,
    steps: &mut Steps<'_>,
) -> (Vec<PosePlacement>, Vec<Piece>) {
    let mut placements: Vec<PosePlacement> = Vec::with_capacity(pieces.len());
    let mut left = Vec::new();
    // What did not fit once will not fit later.
    let mut refused: Option<Piece> = None;
    for &piece in pieces {
        if refused == Some(piece) {
            left.push(piece);
            continue;
        }
        let placement = if steps.take(0) {
            place(table, &placements, piece, limit, steps)
        } else {
            behind(table, &placements, piece, limit)
        };
        if let Some(placement) = placement {
            placements.push(placement);
        } else {
            refused = Some(piece);
            left.push(piece);
        }
    }
    (placements, left)
}

/// Places a piece behind all others.
fn behind(table: &Table<'_>, placements: &[PosePlacement], piece: Piece, limit: Option<i64>) -> Option<PosePlacement> {
    let pose = *table.prepared.fitting(piece.0, piece.1, table.width).first()?;
    let end = if placements.is_empty() { 0 } else { table.length(placements) + table.gap };
    let along = table.prepared.items.get(piece.0)?.begin(end);
    let placement = PosePlacement { item: piece.0, mirrored: piece.1, pose, along, across: 0 };
    limit.is_none_or(|limit| along + table.size(pose).0 <= limit).then_some(placement)
}

/// The placement where a piece ends first, given those already laid.
pub(super) fn place(
    table: &Table<'_>,
    placements: &[PosePlacement],
    piece: Piece,
    limit: Option<i64>,
    steps: &mut Steps<'_>,
) -> Option<PosePlacement> {
    let item = table.prepared.items.get(piece.0)?;
    let mut best: Option<(i64, PosePlacement)> = None;
    let mut spans = Vec::new();
    for pose in table.prepared.fitting(piece.0, piece.1, table.width) {
        let (long, high) = table.size(pose);
        let levels = if item.at_edge { vec![0] } else { levels(table, placements, pose, table.width - high) };
        for across in levels {
            let looks = taken(table, placements.iter(), pose, across, &mut spans);
            steps.take(looks / LOOKS_A_STEP + 1);
            let Some(along) = first_free(&spans, i64::MAX, |along| item.begin(along)) else { continue };
            let end = along + long;
            let fits = limit.is_none_or(|limit| end <= limit);
            if fits && best.as_ref().is_none_or(|(least, placement)| (end, across) < (*least, placement.across)) {
                best = Some((end, PosePlacement { item: piece.0, mirrored: piece.1, pose, along, across }));
            }
        }
    }
    best.map(|(_, placement)| placement)
}

/// The positions across worth trying: the edges of the strip, and where the piece touches a corner of another.
fn levels(table: &Table<'_>, placements: &[PosePlacement], pose: Pose, highest: i64) -> Vec<i64> {
    let mut levels = vec![0, highest];
    for placement in placements {
        if let Some(forbidden) = table.pairs.get(placement.pose.outline, pose.outline) {
            let all = forbidden.parts.iter().flat_map(|part| part.corners.iter());
            levels.extend(all.map(|corner| placement.across + corner.1).filter(|across| (1..highest).contains(across)));
        }
    }
    levels.sort_unstable();
    levels.dedup();
    if levels.len() > MOST_LEVELS {
        let step = levels.len().div_ceil(MOST_LEVELS);
        let kept = levels.iter().copied().step_by(step).chain(levels.last().copied()).collect();
        levels = kept;
    }
    levels
}

/// Collects, sorted, the spans along in which a piece may not begin at `across`; returns how many parts were looked
/// at.
pub(super) fn taken<'a>(
    table: &Table<'_>,
    placements: impl Iterator<Item = &'a PosePlacement>,
    pose: Pose,
    across: i64,
    spans: &mut Vec<(i64, i64)>,
) -> u64 {
    spans.clear();
    let mut looks = 0;
    for placement in placements {
        if let Some(forbidden) = table.pairs.get(placement.pose.outline, pose.outline) {
            forbidden.along(across - placement.across, |low, high| {
                looks += 1;
                spans.push((placement.along + low, placement.along + high));
            });
        }
    }
    spans.sort_unstable();
    looks
}

/// The first position from zero to `most` outside all spans, which are sorted.
pub(super) fn first_free(spans: &[(i64, i64)], most: i64, begin: impl Fn(i64) -> i64) -> Option<i64> {
    let mut along = begin(0);
    for &(low, high) in spans {
        if low >= along {
            // Spans are sorted: none of the rest begins before this position.
            break;
        }
        if high > along {
            along = begin(high);
        }
        if along > most {
            return None;
        }
    }
    (along <= most).then_some(along)
}

#[cfg(test)]
mod tests;
