//! Shelves of boxes: the pieces by falling length, side by side across the strip until one does not fit. Always works
//! and takes hardly more time than sorting (next fit decreasing height; Coffman, Garey, Johnson and Tarjan 1980, from
//! memory).

use super::layout::{Piece, PosePlacement, Table};
use super::outline::Pose;

/// Lays the pieces in shelves, at most `limit` long if there is one; returns them with those left over.
pub(super) fn fill(table: &Table<'_>, pieces: &[Piece], limit: Option<i64>) -> (Vec<PosePlacement>, Vec<Piece>) {
    let mut sorted: Vec<(i64, Piece, Pose)> = Vec::with_capacity(pieces.len());
    let mut left = Vec::new();
    let mut known: Option<(Piece, Option<Pose>)> = None;
    for &piece in pieces {
        let pose = match known {
            Some((before, pose)) if before == piece => pose,
            _ => shortest(table, piece),
        };
        known = Some((piece, pose));
        match pose {
            Some(pose) => sorted.push((table.size(pose).0, piece, pose)),
            None => left.push(piece),
        }
    }
    sorted.sort_by_key(|&(long, piece, _)| (std::cmp::Reverse(long), piece));
    let mut placements: Vec<PosePlacement> = Vec::with_capacity(sorted.len());
    let (mut shelf, mut end, mut across) = (0, 0, 0);
    for (long, (item, mirrored), pose) in sorted {
        let Some(rules) = table.prepared.items.get(item) else { continue };
        let high = table.size(pose).1;
        if !placements.is_empty() && (across + high > table.width || (rules.at_edge && across > 0)) {
            (shelf, across) = (end + table.gap, 0);
        }
        let along = rules.begin(shelf);
        if limit.is_some_and(|limit| along + long > limit) {
            left.push((item, mirrored));
            continue;
        }
        placements.push(PosePlacement { item, mirrored, pose, along, across });
        across += high + table.gap;
        end = end.max(along + long);
    }
    (placements, left)
}

fn shortest(table: &Table<'_>, piece: Piece) -> Option<Pose> {
    table.prepared.fitting(piece.0, piece.1, table.width).into_iter().min_by_key(|&pose| table.size(pose))
}
