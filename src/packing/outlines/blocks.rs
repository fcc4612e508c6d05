//! Splits many pieces into few blocks: one block is laid out and repeated, each as close to the one before as its
//! pieces allow.

use super::layout::{Piece, PosePlacement, Table};
use crate::number;
use std::cmp::Reverse;

/// Equal blocks: their pieces, and how many of them there are.
pub(super) type Block = (Vec<Piece>, i64);

/// Splits sorted pieces into blocks of at most `most`: as many equal ones as possible, then the rest.
pub(super) fn blocks(table: &Table<'_>, pieces: &[Piece], most: usize) -> Vec<Block> {
    let times = pieces.len().div_ceil(most.max(1)).max(1);
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
    all.extend(sorted.chunks(most.max(1)).map(|chunk| (chunk.to_vec(), 1)));
    all
}

/// Lays the blocks end to end; `None` if a position overflows, as with patterns that rarely repeat together.
pub(super) fn chained(table: &Table<'_>, blocks: &[(Vec<PosePlacement>, i64)]) -> Option<Vec<PosePlacement>> {
    let mut all: Vec<PosePlacement> = Vec::new();
    // The last two blocks as laid: nothing reaches further back.
    let mut before: Vec<PosePlacement> = Vec::new();
    for (block, times) in blocks {
        let every = common_repeat(table, block)?;
        let first = checked_next_multiple(distance(table, &before, block), every)?;
        let step = checked_next_multiple(distance(table, block, block).max(1), every)?;
        for at in 0..*times {
            let offset = first.checked_add(step.checked_mul(at)?)?;
            offset.checked_add(table.length(block))?;
            let moved = block.iter().map(|placement| PosePlacement { along: placement.along + offset, ..*placement });
            all.extend(moved);
        }
        let near = block.len() * usize::try_from(*times).ok()?.min(2);
        before.drain(..before.len().saturating_sub(block.len()));
        before.extend(all.get(all.len() - near..)?);
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
