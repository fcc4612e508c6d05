//! Finds the largest rectangles beside and between the pieces of a length that are clear of all of them.
//!
//! Never here: the end of a length, which is a leftover over its full width.

use crate::cutting::place::layout::{CutLength, Patch};

/// The least size of an offcut in either direction, in nanometres: 5 cm.
const LEAST: i64 = 50_000_000;
/// At most this many are reported for a length, the largest first.
const MOST: usize = 6;
/// Lengths with more pieces than this are not searched.
const MOST_PIECES: usize = 150;

/// The largest clear rectangles on a length of this width, without overlaps, in order along the length.
pub(in crate::cutting) fn beside(cut_length: &CutLength, width: i64) -> Vec<Patch> {
    let mut filled: Vec<Patch> = cut_length.placed.iter().map(crate::cutting::place::layout::Placed::patch).collect();
    if filled.len() > MOST_PIECES {
        return Vec::new();
    }
    let mut found: Vec<Patch> = Vec::new();
    while found.len() < MOST {
        filled.sort_by_key(|patch| patch.from);
        let Some(largest) = largest_clear(&filled, cut_length.end, width) else { break };
        found.push(largest);
        filled.push(largest);
    }
    found.sort_by_key(|patch| (patch.from, patch.across_from));
    found
}

/// The largest clear rectangle between the start and `end`; `filled` must be sorted by its start.
fn largest_clear(filled: &[Patch], end: i64, width: i64) -> Option<Patch> {
    let mut best: Option<(i128, Patch)> = None;
    let starts = std::iter::once(0).chain(filled.iter().map(|patch| patch.to));
    for from in starts {
        // The gaps across that are clear from `from` on, narrowed by each piece that is met.
        let mut gaps = vec![(0, width)];
        let mut look = |gaps: &[(i64, i64)], to: i64| {
            for (across_from, across_to) in gaps {
                let patch = Patch { from, to, across_from: *across_from, across_to: *across_to };
                let (along, across) = (to - from, across_to - across_from);
                let area = i128::from(along) * i128::from(across);
                if along >= LEAST && across >= LEAST && best.is_none_or(|(most, _)| area > most) {
                    best = Some((area, patch));
                }
            }
        };
        for patch in filled.iter().filter(|patch| patch.to > from) {
            if patch.from > from {
                look(&gaps, patch.from);
            }
            gaps = gaps.iter().flat_map(|gap| without(*gap, *patch)).collect();
            if gaps.is_empty() {
                break;
            }
        }
        look(&gaps, end);
    }
    best.map(|(_, patch)| patch)
}

/// The parts of a gap that a piece leaves free, without those that are too narrow.
fn without((from, to): (i64, i64), patch: Patch) -> impl Iterator<Item = (i64, i64)> {
    let parts = if patch.across_from >= to || patch.across_to <= from {
        [Some((from, to)), None]
    } else {
        [Some((from, patch.across_from)), Some((patch.across_to, to))]
    };
    parts.into_iter().flatten().filter(|(from, to)| to - from >= LEAST)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::place::extent::Extent;
    use crate::cutting::place::layout::Placed;
    use crate::piece::{Layers, Lie};

    const CM: i64 = 10_000_000;

    fn cut_length(boxes: &[(i64, i64, i64, i64)]) -> CutLength {
        let placed = boxes.iter().map(|(from, across_from, along, across)| Placed {
            entry: 0,
            number: 1,
            part: None,
            lie: Lie::Along,
            reversed: false,
            through: Layers::One,
            from: from * CM,
            across_from: across_from * CM,
            extent: Extent { along: along * CM, across: across * CM },
        });
        let placed: Vec<Placed> = placed.collect();
        let end = placed.iter().map(|placed| placed.from + placed.extent.along).max().unwrap_or(0);
        CutLength { placed, end, ..CutLength::of(0) }
    }

    #[test]
    fn the_largest_first_and_none_over_another() {
        // A 60 by 100 piece on 150 of width, a 30 by 40 one beside it: 30 × 50 behind the small one, 30 × 10 beside
        // both.
        let left = beside(&cut_length(&[(0, 0, 60, 100), (0, 100, 30, 40)]), 150 * CM);
        let sizes: Vec<_> =
            left.iter().map(|p| (p.from / CM, p.to / CM, p.across_from / CM, p.across_to / CM)).collect();
        assert_eq!(sizes, [(0, 30, 140, 150), (30, 60, 100, 150)]);
        assert!(beside(&cut_length(&[(0, 0, 60, 147)]), 150 * CM).is_empty());
    }
}
