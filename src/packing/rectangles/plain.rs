//! A plan without search, for any number of pieces: the widest piece that fits the lowest gap, in whole rows at a
//! time.
//!
//! Best fit on the skyline (Burke, Kendall and Whitwell, A new placement heuristic for the orthogonal stock-cutting
//! problem, 2004; from memory), on ordered sets, so that a row costs time logarithmic in the number of steps.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use std::collections::{BTreeMap, BTreeSet};

use super::prepared::{Layout, Prepared, Shape, ShapePlacement};
use crate::number;
use crate::problem::Stretch;

/// The most shapes tried on one gap of a limited stretch.
const TRIES: usize = 64;

/// Constructs the plan.
pub(super) fn construct(prepared: &Prepared) -> Layout {
    let mut left = prepared.counts();
    let mut placements = Vec::with_capacity(prepared.pieces);
    let mut order: Vec<usize> = (0..prepared.shapes.len()).collect();
    order.sort_by_key(|&shape| {
        let shape = &prepared.shapes[shape];
        (std::cmp::Reverse((shape.across, shape.along)), shape.item)
    });
    for (index, stretch) in prepared.stretches.iter().enumerate() {
        fill(prepared, &order, index, *stretch, &mut left, &mut placements);
    }
    prepared.layout(placements)
}

/// The shapes by falling width, skipping those used up.
struct Shelf<'a> {
    prepared: &'a Prepared,
    order: Vec<usize>,
    next: Vec<usize>,
}

impl<'a> Shelf<'a> {
    fn new(prepared: &'a Prepared, order: Vec<usize>) -> Self {
        let next = (0..=order.len()).collect();
        Self { prepared, order, next }
    }

    /// The first shape at or after `at` that is not used up.
    fn live(&mut self, mut at: usize, left: &[usize]) -> Option<usize> {
        loop {
            while self.next[at] != at {
                self.next[at] = self.next[self.next[at]];
                at = self.next[at];
            }
            let shape = *self.order.get(at)?;
            if left[self.prepared.shapes[shape].item] > 0 {
                return Some(at);
            }
            self.next[at] = at + 1;
        }
    }

    /// The first shape no wider than `gap`.
    fn first(&self, gap: i64) -> usize {
        self.order.partition_point(|&shape| self.prepared.shapes[shape].across > gap)
    }

    /// The widest shape for a gap; one bound to the edge only if the gap is there.
    fn choose(&mut self, gap: i64, at_edge: bool, top: i64, stretch: Stretch, left: &[usize]) -> Option<usize> {
        let mut at = self.first(gap);
        for _ in 0..TRIES {
            at = self.live(at, left)?;
            let shape = &self.prepared.shapes[self.order[at]];
            if (at_edge || !shape.at_edge) && ends_within(shape, top, stretch) {
                return Some(self.order[at]);
            }
            at += 1;
        }
        None
    }
}

fn ends_within(shape: &Shape, top: i64, stretch: Stretch) -> bool {
    stretch.length.is_none_or(|limit| shape.start(top) + shape.along <= limit)
}

/// Fills one stretch.
fn fill(
    prepared: &Prepared,
    order: &[usize],
    index: usize,
    stretch: Stretch,
    left: &mut [usize],
    placements: &mut Vec<ShapePlacement>,
) {
    let (edge, free): (Vec<usize>, Vec<usize>) = order.iter().partition(|&&shape| prepared.shapes[shape].at_edge);
    let (mut edge, mut free) = (Shelf::new(prepared, edge), Shelf::new(prepared, free));
    // Steps by position, and the same by height.
    let mut steps: BTreeMap<i64, (i64, i64)> = BTreeMap::from([(0, (stretch.width, 0))]);
    let mut heights: BTreeSet<(i64, i64)> = BTreeSet::from([(0, 0)]);
    while let Some((top, across)) = heights.pop_first() {
        let Some((width, _)) = steps.remove(&across) else { break };
        let choice = (if across == 0 { edge.choose(width, true, top, stretch, left) } else { None })
            .or_else(|| free.choose(width, false, top, stretch, left));
        let Some(choice) = choice else {
            let before = steps.range(..across).next_back().map(|(_, &(_, top))| top);
            let after = steps.range(across..).next().map(|(_, &(_, top))| top);
            let Some(wall) = before.into_iter().chain(after).min() else { break };
            set(&mut steps, &mut heights, across, width, wall);
            continue;
        };
        let shape = &prepared.shapes[choice];
        let fitting = if shape.at_edge { 1 } else { number::count(width / shape.across).unwrap_or(1) };
        let count = fitting.min(left[shape.item]);
        left[shape.item] -= count;
        let (along, mut at) = (shape.start(top), across);
        for _ in 0..count {
            placements.push(ShapePlacement { shape: choice, stretch: index, along, across: at });
            at += shape.across;
        }
        if at < across + width {
            set(&mut steps, &mut heights, at, across + width - at, top);
        }
        set(&mut steps, &mut heights, across, at - across, along + shape.along);
    }
}

/// Adds a step, merged with neighbours of its height.
fn set(
    steps: &mut BTreeMap<i64, (i64, i64)>,
    heights: &mut BTreeSet<(i64, i64)>,
    mut across: i64,
    mut width: i64,
    top: i64,
) {
    if let Some((&at, &(more, height))) = steps.range(..across).next_back()
        && height == top
        && at + more == across
    {
        (across, width) = (at, width + more);
    }
    if let Some(&(more, height)) = steps.get(&(across + width))
        && height == top
    {
        steps.remove(&(across + width));
        heights.remove(&(top, across + width));
        width += more;
    }
    steps.insert(across, (width, top));
    heights.insert((top, across));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::{Rectangle, RectangleProblem, Starts};

    fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
        let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
        Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 }).expect("a sound problem")
    }

    fn piece(along: i64, across: i64, count: i64) -> Rectangle {
        Rectangle::new(along, across, count)
    }

    /// Shape, stretch, along and across of each piece.
    fn constructed(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Vec<(usize, usize, i64, i64)> {
        let layout = construct(&prepared(stretches, rectangles));
        layout.placements.iter().map(|at| (at.shape, at.stretch, at.along, at.across)).collect()
    }

    #[test]
    fn the_lowest_gap_takes_the_widest_that_fits() {
        // Kinds by length: 2 by 7, 3 by 4, 5 by 6. The 7 wide; nothing beside it; the 6 wide and two of 4 beside it;
        // the last of 4 on the 6, which is lower by then.
        let rectangles = vec![piece(2, 7, 1), piece(3, 4, 3), piece(5, 6, 1)];
        let expected = [(0, 0, 0, 0), (2, 0, 2, 0), (1, 0, 2, 6), (1, 0, 5, 6), (1, 0, 7, 0)];
        assert_eq!(constructed(&[(10, None)], rectangles), expected);
    }

    #[test]
    fn equal_pieces_lie_in_rows() {
        // Three in a row of 13, one of 10 long and 1 wide beside them, and two more.
        let rows = constructed(&[(13, None)], vec![piece(3, 4, 5), piece(10, 1, 1)]);
        let expected = [(0, 0, 0, 0), (0, 0, 0, 4), (0, 0, 0, 8), (1, 0, 0, 12), (0, 0, 3, 0), (0, 0, 3, 4)];
        assert_eq!(rows, expected);
        // The longer of two as wide goes first; widths are in units of 4.
        let two = constructed(&[(13, None)], vec![piece(3, 4, 5), piece(7, 4, 1)]);
        assert_eq!(two[..2], [(1, 0, 0, 0), (0, 0, 0, 1)]);
    }

    #[test]
    fn pieces_at_the_edge_lie_there_one_behind_the_other_and_first() {
        // One at the edge, the 7 wide beside it twice, then the gap at the edge again, level with it after one unit.
        let edge = Rectangle { at_edge: true, ..piece(5, 3, 2) };
        let rectangles = vec![piece(2, 7, 2), edge];
        let expected = [(1, 0, 0, 0), (0, 0, 0, 3), (0, 0, 2, 3), (1, 0, 5, 0)];
        assert_eq!(constructed(&[(10, None)], rectangles), expected);
    }

    #[test]
    fn stretches_are_filled_in_order_up_to_their_ends() {
        // On 10 x 6 two rows of two; the fifth, and the one of 7, behind.
        let rectangles = vec![piece(3, 4, 5), piece(7, 5, 1)];
        let expected = [(0, 0, 0, 0), (0, 0, 0, 4), (0, 0, 3, 0), (0, 0, 3, 4), (1, 1, 0, 0), (0, 1, 0, 5)];
        assert_eq!(constructed(&[(10, Some(6)), (9, None)], rectangles), expected);
        // A start at 2 holds on either; widths are in units of 4.
        let follows = Rectangle { starts: Some(Starts { first: 2, every: 9 }), ..piece(5, 4, 2) };
        let expected = [(0, 0, 2, 0), (0, 1, 2, 0)];
        assert_eq!(constructed(&[(7, Some(7)), (5, None)], vec![follows.clone()]), expected);
        assert_eq!(constructed(&[(7, Some(6)), (8, None)], vec![follows]), [(0, 1, 2, 0), (0, 1, 2, 1)]);
    }

    #[test]
    fn sixty_four_kinds_are_tried_on_a_gap() {
        // All but the last are too long for the first stretch; the last, which is not, is the narrowest.
        let is_laid = |too_long: i64| {
            let long = (0..too_long).map(|more| piece(100 + more, 40, 1));
            let laid = constructed(&[(60, Some(10)), (60, None)], long.chain([piece(5, 3, 1)]).collect());
            laid[0].1 == 0
        };
        assert!(is_laid(63) && !is_laid(64));
    }

    #[test]
    fn a_shelf_skips_what_is_used_up() {
        let plan = prepared(&[(10, None)], vec![piece(2, 7, 1), piece(3, 6, 1), piece(4, 5, 1), piece(5, 3, 1)]);
        let mut shelf = Shelf::new(&plan, vec![0, 1, 2, 3]);
        assert_eq!([11, 7, 6, 5, 4, 3, 2].map(|gap| shelf.first(gap)), [0, 0, 1, 2, 3, 3, 4]);
        assert_eq!([0, 1, 3].map(|at| shelf.live(at, &[1, 1, 1, 1])), [Some(0), Some(1), Some(3)]);
        assert_eq!(shelf.live(1, &[1, 0, 0, 1]), Some(3));
        // What was used up is passed over without a look.
        assert_eq!((shelf.next[1], shelf.next[2], shelf.live(1, &[1, 1, 1, 1])), (2, 3, Some(3)));
        assert_eq!(shelf.live(0, &[0, 0, 0, 0]), None);
        assert_eq!((shelf.live(0, &[1, 1, 1, 1]), shelf.next.len()), (None, 5));
    }

    #[test]
    fn a_step_joins_neighbours_of_its_height_that_touch_it() {
        let joined = |across: i64, width: i64, top: i64| {
            let (mut steps, mut heights) = (BTreeMap::new(), BTreeSet::new());
            for (across, width, top) in [(0, 5, 9), (12, 8, 6)] {
                steps.insert(across, (width, top));
                heights.insert((top, across));
            }
            set(&mut steps, &mut heights, across, width, top);
            let listed: Vec<(i64, i64, i64)> = steps.iter().map(|(&at, &(width, top))| (at, width, top)).collect();
            let mut by_height: Vec<(i64, i64)> = listed.iter().map(|&(at, _, top)| (top, at)).collect();
            by_height.sort_unstable();
            assert!(heights.into_iter().eq(by_height));
            listed
        };
        assert_eq!(joined(5, 7, 8), [(0, 5, 9), (5, 7, 8), (12, 8, 6)]);
        assert_eq!(joined(5, 7, 9), [(0, 12, 9), (12, 8, 6)]);
        assert_eq!(joined(5, 7, 6), [(0, 5, 9), (5, 15, 6)]);
        // Where there is something between, they do not.
        assert_eq!(joined(7, 5, 9), [(0, 5, 9), (7, 5, 9), (12, 8, 6)]);
        assert_eq!(joined(5, 4, 6), [(0, 5, 9), (5, 4, 6), (12, 8, 6)]);
    }
}
