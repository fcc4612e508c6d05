//! Shelves of boxes: the pieces by falling length, side by side across the strip until one does not fit. Always works
//! and takes hardly more time than sorting (next fit decreasing height; Coffman, Garey, Johnson and Tarjan 1980, from
//! memory).

use super::layout::{Piece, PosePlacement, Table};
use super::outline::Pose;

/// Lays the pieces in shelves, at most `limit` long if there is one; returns them with those left over.
pub(super) fn fill(table: &Table<'_>, pieces: &[Piece], limit: Option<i64>) -> (Vec<PosePlacement>, Vec<Piece>) {
    let mut sorted: Vec<(i64, Piece, Pose)> = Vec::with_capacity(pieces.len());
    let mut left = Vec::new();
    for &piece in pieces {
        match shortest(table, piece) {
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
        if !placements.is_empty() && (across + high > table.width || rules.at_edge) {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outlines::tests::{Made, fixed};
    use crate::problem::{Polygon, Starts};

    fn laid(made: &Made, pieces: &[Piece], limit: Option<i64>) -> (Vec<(usize, i64, i64)>, Vec<Piece>) {
        let (placements, left) = fill(&made.table(), pieces, limit);
        (placements.iter().map(|placed| (placed.item, placed.along, placed.across)).collect(), left)
    }

    #[test]
    fn boxes_stand_side_by_side_the_longest_first() {
        let made = Made::new(20, 1, &[fixed(4, 6, 1), fixed(9, 8, 1), fixed(5, 21, 1), fixed(4, 5, 1)]);
        let pieces = [(3, false), (0, false), (1, false), (2, false), (0, false)];
        // 8 and 6 with a gap of 1 leave 5, and 5 more need 6: a second shelf at 9 + 1.
        let expected = vec![(1, 0, 0), (0, 0, 9), (0, 10, 0), (3, 10, 7)];
        assert_eq!(laid(&made, &pieces, None), (expected.clone(), vec![(2, false)]));
        assert_eq!(laid(&made, &pieces, Some(14)), (expected.clone(), vec![(2, false)]));
        assert_eq!(laid(&made, &pieces, Some(13)), (expected[..2].to_vec(), vec![(2, false), (0, false), (3, false)]));
        // Exactly as wide as all of it: 8 + 1 + 6 + 1 + 4.
        let made = Made::new(20, 1, &[fixed(4, 6, 1), fixed(9, 8, 1), fixed(2, 4, 1)]);
        let pieces = [(0, false), (1, false), (2, false), (2, false)];
        assert_eq!(laid(&made, &pieces, None).0, vec![(1, 0, 0), (0, 0, 9), (2, 0, 16), (2, 10, 0)]);
    }

    #[test]
    fn a_piece_of_the_edge_opens_a_shelf_and_one_of_a_pattern_begins_on_it() {
        let at_edge = Polygon { at_edge: true, ..fixed(9, 3, 1) };
        let starting = Polygon { starts: Some(Starts { first: 5, every: 10 }), ..fixed(7, 4, 1) };
        let made = Made::new(20, 0, &[at_edge, starting, fixed(3, 2, 1)]);
        let pieces = [(0, false), (0, false), (1, false), (2, false), (1, false)];
        // Shelves at 0 and 9; on the second the pattern begins at 15, which ends at 22.
        let expected = vec![(0, 0, 0), (0, 9, 0), (1, 15, 3), (1, 15, 7), (2, 9, 11)];
        assert_eq!(laid(&made, &pieces, None).0, expected);
    }

    #[test]
    fn a_piece_lies_in_its_shortest_pose_that_fits() {
        let turning = Polygon { quarter: true, ..fixed(9, 4, 1) };
        for (width, long) in [(8, 9), (9, 4)] {
            let made = Made::new(width, 0, std::slice::from_ref(&turning));
            let (placed, _) = fill(&made.table(), &[(0, false)], None);
            assert_eq!(made.table().length(&placed), long);
        }
    }
}
