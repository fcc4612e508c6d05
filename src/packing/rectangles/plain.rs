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
        steps.remove(&at);
        heights.remove(&(top, at));
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
