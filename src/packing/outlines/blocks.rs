//! Splits many pieces into few blocks: one block is laid out and repeated, each as close to the one before as its
//! pieces allow.

use super::layout::{Piece, PosePlacement, Table};
use crate::number;
use std::cmp::Reverse;

/// Equal blocks: their pieces, and how many of them there are.
pub(super) type Block = (Vec<Piece>, i64);

/// Splits sorted pieces into blocks of at most `most`: as many equal ones as possible, then the rest.
pub(super) fn blocks(table: &Table<'_>, pieces: &[Piece], most: usize) -> Vec<Block> {
    let times = pieces.len().div_ceil(most);
    let (mut block, mut rest): (Vec<Piece>, Vec<Piece>) = (Vec::new(), Vec::new());
    for group in pieces.chunk_by(|one, other| one == other) {
        let Some(&piece) = group.first() else { continue };
        block.extend(std::iter::repeat_n(piece, group.len() / times));
        rest.extend(std::iter::repeat_n(piece, group.len() % times));
    }
    let mut all = Vec::new();
    if !block.is_empty() {
        all.push((block, i64::try_from(times).unwrap_or(1)));
    }
    // Pieces of about the same length stay together.
    let sorted = table.sorted(&rest, |item, outline| (outline.long, Reverse(item)));
    all.extend(sorted.chunks(most).map(|chunk| (chunk.to_vec(), 1)));
    all
}

/// Lays the blocks end to end; `None` if a position overflows, as with patterns that rarely repeat together.
pub(super) fn chained(table: &Table<'_>, blocks: &[(Vec<PosePlacement>, i64)]) -> Option<Vec<PosePlacement>> {
    let mut all: Vec<PosePlacement> = Vec::new();
    // Where the last block but one, and the last, begin in `all`, two times each: nothing reaches further back.
    let (mut reach, mut last) = (0, 0);
    for (block, times) in blocks {
        let every = common_repeat(table, block)?;
        let first = checked_next_multiple(distance(table, all.get(reach..)?, block), every)?;
        let step = checked_next_multiple(distance(table, block, block).max(1), every)?;
        for at in 0..*times {
            let offset = first.checked_add(step.checked_mul(at)?)?;
            offset.checked_add(table.length(block))?;
            let moved = block.iter().map(|placement| PosePlacement { along: placement.along + offset, ..*placement });
            all.extend(moved);
        }
        (reach, last) = (last, all.len().saturating_sub(2 * block.len()));
    }
    Some(all)
}

/// How far a block must be moved to be clear of the pieces before it.
fn distance(table: &Table<'_>, before: &[PosePlacement], block: &[PosePlacement]) -> i64 {
    let mut least = 0;
    for one in before {
        for other in block {
            if let Some(forbidden) = table.pairs.get(one.pose.outline, other.pose.outline) {
                forbidden.along(other.across - one.across, |_, high| least = least.max(one.along + high - other.along));
            }
        }
    }
    least
}

/// The length after which the patterns of all pieces repeat together.
fn common_repeat(table: &Table<'_>, block: &[PosePlacement]) -> Option<i64> {
    block.iter().try_fold(1i64, |common, placement| {
        let every = table.prepared.items.get(placement.item)?.starts.map_or(1, |starts| starts.every);
        common.checked_mul(every.checked_div(number::gcd(common, every))?)
    })
}

fn checked_next_multiple(least: i64, every: i64) -> Option<i64> {
    let past = least.checked_rem(every)?;
    if past == 0 { Some(least) } else { least.checked_add(every - past) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outlines::tests::{Made, fixed, polygon};
    use crate::problem::{Polygon, Starts};

    #[test]
    fn pieces_are_split_into_equal_blocks_and_a_rest() {
        let made = Made::new(100, 0, &[fixed(3, 2, 1), fixed(9, 2, 1), fixed(5, 2, 1), fixed(9, 4, 1)]);
        let pieces = |counts: &[(usize, usize)]| -> Vec<Piece> {
            counts.iter().flat_map(|&(item, count)| vec![(item, false); count]).collect()
        };
        let split = |counts: &[(usize, usize)], most: usize| blocks(&made.table(), &pieces(counts), most);
        // 20 in blocks of up to 7: three, with 11 = 3·3 + 2, 7 = 3·2 + 1 and 2.
        assert_eq!(
            split(&[(0, 11), (1, 7), (2, 2)], 7),
            vec![(pieces(&[(0, 3), (1, 2)]), 3), (pieces(&[(1, 1), (2, 2), (0, 2)]), 1)]
        );
        // The rest by length, of one length by kind, in blocks of their own.
        assert_eq!(
            split(&[(0, 2), (1, 2), (2, 2), (3, 2)], 3),
            vec![(pieces(&[(1, 2), (3, 1)]), 1), (pieces(&[(3, 1), (2, 2)]), 1), (pieces(&[(0, 2)]), 1)]
        );
        assert_eq!(split(&[(0, 14)], 7), vec![(pieces(&[(0, 7)]), 2)]);
        assert_eq!(split(&[(0, 15)], 7), vec![(pieces(&[(0, 5)]), 3)]);
        assert_eq!(split(&[(0, 5)], 7), vec![(pieces(&[(0, 5)]), 1)]);
        assert_eq!(split(&[], 7), Vec::new());
    }

    #[test]
    fn blocks_follow_each_other_as_closely_as_their_pieces_allow() {
        let made = Made::new(100, 5, &[fixed(20, 10, 1), fixed(12, 30, 1)]);
        let block = vec![made.placed(0, 0, 0), made.placed(0, 4, 20)];
        let other = vec![made.placed(1, 0, 0)];
        let table = made.table();
        let alongs = |blocks: &[(Vec<PosePlacement>, i64)]| {
            chained(&table, blocks).map(|all| all.iter().map(|placed| (placed.item, placed.along)).collect::<Vec<_>>())
        };
        // 20 long and a gap of 5 each time; behind the one at 4 + 50 the next begins at 79.
        assert_eq!(
            alongs(&[(block.clone(), 3), (other.clone(), 2)]),
            Some(vec![(0, 0), (0, 4), (0, 25), (0, 29), (0, 50), (0, 54), (1, 79), (1, 96)])
        );
        // A block of one narrow piece does not hide the one before from the next.
        let narrow = vec![made.placed(0, 0, 60)];
        let wide = vec![made.placed(0, 30, 60), made.placed(1, 0, 0)];
        assert_eq!(alongs(&[(other.clone(), 1), (narrow, 1), (wide, 1)]), Some(vec![(1, 0), (0, 0), (0, 47), (1, 17)]));
        // Nor do the shorter pieces of a block hide its longer one, whichever comes first.
        let mixed = vec![made.placed(0, 4, 0), made.placed(1, 0, 60)];
        assert_eq!(
            alongs(&[(mixed.clone(), 2), (vec![made.placed(1, 0, 60)], 1), (vec![made.placed(0, 0, 0)], 1)]),
            Some(vec![(0, 4), (1, 0), (0, 29), (1, 25), (1, 42), (0, 54)])
        );
        assert_eq!(
            alongs(&[(mixed, 1), (vec![made.placed(1, 0, 60)], 1), (vec![made.placed(0, 0, 0)], 1)]),
            Some(vec![(0, 4), (1, 0), (1, 17), (0, 29)])
        );
        assert_eq!(distance(&table, &block, &other), 29);
        assert_eq!(distance(&table, &other, &block), 17);
        assert_eq!(distance(&table, &[], &block), 0);
        // At the level 3 of the triangle, 54 of 60 are left.
        let no_gap = Made::new(100, 0, &[fixed(20, 10, 1), polygon(&[(0, 0), (60, 0), (0, 30)], 1)]);
        let table = no_gap.table();
        assert_eq!(distance(&table, &[no_gap.placed(1, 7, 2)], &[no_gap.placed(0, 1, 5)]), 7 + 54 - 1);
        assert_eq!(alongs(&[]), Some(Vec::new()));
    }

    #[test]
    fn patterns_repeat_together_at_their_least_common_multiple() {
        let starting = |every: i64| Polygon { starts: Some(Starts { first: 3, every }), ..fixed(20, 10, 1) };
        let huge = i64::MAX / 8;
        let made =
            Made::new(100, 0, &[starting(12), starting(18), fixed(20, 10, 1), starting(huge), starting(huge - 1)]);
        let repeat = |items: &[usize]| {
            let block: Vec<PosePlacement> = items.iter().map(|&item| made.placed(item, 3, 0)).collect();
            common_repeat(&made.table(), &block)
        };
        assert_eq!((repeat(&[0, 1, 2]), repeat(&[2]), repeat(&[0, 2, 0])), (Some(36), Some(1), Some(12)));
        assert_eq!((repeat(&[3]), repeat(&[3, 4])), (Some(huge), None));
        // 20 long, repeated every 12: at 3, 27, 51.
        let chain = chained(&made.table(), &[(vec![made.placed(0, 3, 0)], 3)]).unwrap();
        assert_eq!(chain.iter().map(|placed| placed.along).collect::<Vec<_>>(), vec![3, 27, 51]);
        for (least, every, expected) in [(0, 7, 0), (1, 7, 7), (13, 7, 14), (14, 7, 14), (15, 7, 21)] {
            assert_eq!(checked_next_multiple(least, every), Some(expected));
        }
        assert_eq!((checked_next_multiple(i64::MAX, 4), checked_next_multiple(5, 0)), (None, None));
    }
}
