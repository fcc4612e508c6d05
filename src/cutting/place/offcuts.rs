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
    let parts = [(from, patch.across_from.min(to)), (patch.across_to.max(from), to)];
    parts.into_iter().filter(|(from, to)| to - from >= LEAST)
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

    /// 60 by 60 beside 55 by 40 on a width of 100: 5 by 40 is left behind the shorter one. And 5 across beside a piece.
    #[test]
    fn five_centimetres_are_kept_and_a_hair_less_is_not() {
        let with = |along: i64, across: i64| {
            let mut two = cut_length(&[(0, 0, 60, 60), (0, 60, 55, 40)]);
            two.placed[1].extent.along += along;
            beside(&two, 100 * CM + across)
        };
        let behind = Patch { from: 55 * CM, to: 60 * CM, across_from: 60 * CM, across_to: 100 * CM };
        assert_eq!(with(0, 0), [behind]);
        assert_eq!(with(1, 0), []);
        let beside = |width: i64| beside(&cut_length(&[(0, 0, 60, 100)]), width);
        let strip = Patch { from: 0, to: 60 * CM, across_from: 100 * CM, across_to: 105 * CM };
        assert_eq!(beside(105 * CM), [strip]);
        assert_eq!(beside(105 * CM - 1), []);
        // Before a piece, 7 by 50 being more than 27 by 12, and on either side of it.
        let sides = super::beside(&cut_length(&[(7, 8, 20, 30)]), 50 * CM);
        let told: Vec<_> =
            sides.iter().map(|p| (p.from / CM, p.to / CM, p.across_from / CM, p.across_to / CM)).collect();
        assert_eq!(told, [(0, 7, 0, 50), (7, 27, 0, 8), (7, 27, 38, 50)]);
    }

    /// Rows of 10 with 10, 11, … 16 left beside them, parted by full widths: the six largest are told, along the length.
    #[test]
    fn the_six_largest_are_told() {
        let rows = |count: i64| {
            let of = |row: i64| [(11 * row, 0, 10, 90 - row), (11 * row + 10, 0, 1, 100)];
            let boxes: Vec<_> = (0..count).flat_map(of).collect();
            let left = beside(&cut_length(&boxes), 100 * CM);
            left.iter().map(|p| (p.from / CM, (p.across_to - p.across_from) / CM)).collect::<Vec<_>>()
        };
        assert_eq!(rows(6), [(0, 10), (11, 11), (22, 12), (33, 13), (44, 14), (55, 15)]);
        // Of equal ones those nearest the start.
        let equal: Vec<_> = (0..7).flat_map(|row| [(11 * row, 0, 10, 90), (11 * row + 10, 0, 1, 100)]).collect();
        let left = beside(&cut_length(&equal), 100 * CM);
        assert_eq!(left.iter().map(|patch| patch.from / CM).collect::<Vec<_>>(), [0, 11, 22, 33, 44, 55]);
        assert_eq!(rows(7), [(11, 11), (22, 12), (33, 13), (44, 14), (55, 15), (66, 16)]);
    }

    #[test]
    fn a_length_with_very_many_pieces_is_not_searched() {
        let strips = |count: i64| cut_length(&(0..count).map(|at| (at, 0, 1, 90)).collect::<Vec<_>>());
        assert_eq!(beside(&strips(150), 100 * CM).len(), 1);
        assert_eq!(beside(&strips(151), 100 * CM).len(), 0);
    }

    /// On a grid of 3 cm, so that two squares are long enough and one is not: what is told is clear and apart, the first is
    /// the largest there is, and nothing large enough is left untold.
    #[test]
    fn nothing_large_enough_is_left_untold() {
        const SQUARE: i64 = 3;
        let mut random = fastrand::Rng::with_seed(5);
        for round in 0..300 {
            let (wide, mut boxes) = (random.i64(4..9), Vec::new());
            let mut filled = vec![vec![false; 9]; 8];
            for _ in 0..random.i64(1..6) {
                let (from, across) = (random.i64(0..6), random.i64(0..wide));
                let (along, broad) = (random.i64(1..3), random.i64(1..=(wide - across).min(3)));
                let squares =
                    || (from..from + along).flat_map(move |row| (across..across + broad).map(move |at| (row, at)));
                let place = |at: i64| usize::try_from(at).unwrap();
                if squares().any(|(row, at)| filled[place(row)][place(at)]) {
                    continue;
                }
                squares().for_each(|(row, at)| filled[place(row)][place(at)] = true);
                boxes.push((from * SQUARE, across * SQUARE, along * SQUARE, broad * SQUARE));
            }
            let length = cut_length(&boxes);
            let rows = length.end / (SQUARE * CM);
            // Every clear rectangle of two squares or more either way.
            let clear = |filled: &[Vec<bool>]| {
                let mut areas = Vec::new();
                for (from, to) in (0..rows).flat_map(|from| (from + 2..=rows).map(move |to| (from, to))) {
                    for (low, high) in (0..wide).flat_map(|low| (low + 2..=wide).map(move |high| (low, high))) {
                        let mut squares = (from..to).flat_map(|row| (low..high).map(move |at| (row, at)));
                        let is_filled =
                            |(row, at): (i64, i64)| filled[usize::try_from(row).unwrap()][usize::try_from(at).unwrap()];
                        if !squares.any(is_filled) {
                            areas.push((to - from) * (high - low));
                        }
                    }
                }
                areas
            };
            let most = clear(&filled).into_iter().max();
            let told = beside(&length, wide * SQUARE * CM);
            let squares = |patch: &Patch| {
                let of = |mark: i64| mark / (SQUARE * CM);
                (of(patch.from), of(patch.to), of(patch.across_from), of(patch.across_to))
            };
            let mut largest = None;
            for patch in &told {
                let (from, to, low, high) = squares(patch);
                largest = largest.max(Some((to - from) * (high - low)));
                for (row, at) in (from..to).flat_map(|row| (low..high).map(move |at| (row, at))) {
                    let square = &mut filled[usize::try_from(row).unwrap()][usize::try_from(at).unwrap()];
                    assert!(!*square, "round {round}: {told:?} on {boxes:?}");
                    *square = true;
                }
            }
            assert_eq!(largest, most, "round {round}: {told:?} on {boxes:?}");
            assert!(told.len() == 6 || clear(&filled).is_empty(), "round {round}: {told:?} on {boxes:?}");
            assert!(told.is_sorted_by_key(|patch| (patch.from, patch.across_from)));
        }
    }
}
