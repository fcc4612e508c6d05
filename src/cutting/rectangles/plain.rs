//! A plan without search, for any number of pieces: the widest that fits the lowest gap, in whole rows at a time.
//!
//! Best-fit on the skyline (Burke, Kendall and Whitwell, A new placement heuristic for the orthogonal stock-cutting
//! problem, 2004; from memory), on ordered sets, so that a row costs the logarithm of the steps it lies among.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use std::collections::{BTreeMap, BTreeSet};

use super::parts::{Form, Layout, Parts, Put, Room};
use crate::quantity::number;

/// How many forms are tried on one gap of a room with an end before the gap is given up.
const TRIES: usize = 64;

/// The plan.
pub(super) fn construct(parts: &Parts) -> Layout {
    let mut left = parts.counts();
    let mut puts = Vec::with_capacity(parts.pieces);
    let mut order: Vec<usize> = (0..parts.forms.len()).collect();
    order.sort_by_key(|&form| {
        let form = &parts.forms[form];
        (std::cmp::Reverse((form.across, form.along)), form.kind)
    });
    for (index, room) in parts.rooms.iter().enumerate() {
        fill(parts, &order, index, *room, &mut left, &mut puts);
    }
    parts.layout(puts)
}

/// The forms in falling width, those used up skipped over.
struct Shelf<'a> {
    parts: &'a Parts,
    order: Vec<usize>,
    next: Vec<usize>,
}

impl<'a> Shelf<'a> {
    fn new(parts: &'a Parts, order: Vec<usize>) -> Self {
        let next = (0..=order.len()).collect();
        Self { parts, order, next }
    }

    /// The first form at or behind `at` that is not used up.
    fn live(&mut self, mut at: usize, left: &[usize]) -> Option<usize> {
        loop {
            while self.next[at] != at {
                self.next[at] = self.next[self.next[at]];
                at = self.next[at];
            }
            let form = *self.order.get(at)?;
            if left[self.parts.forms[form].kind] > 0 {
                return Some(at);
            }
            self.next[at] = at + 1;
        }
    }

    /// The first form no wider than `gap`.
    fn first(&self, gap: i64) -> usize {
        self.order.partition_point(|&form| self.parts.forms[form].across > gap)
    }

    /// The form for a gap: one of the edge if it lies there, else the widest.
    fn choose(&mut self, gap: i64, at_edge: bool, top: i64, room: Room, left: &[usize]) -> Option<usize> {
        let mut at = self.first(gap);
        for _ in 0..TRIES {
            at = self.live(at, left)?;
            let form = &self.parts.forms[self.order[at]];
            if (at_edge || !form.at_edge) && ends_within(form, top, room) {
                return Some(self.order[at]);
            }
            at += 1;
        }
        None
    }
}

fn ends_within(form: &Form, top: i64, room: Room) -> bool {
    room.limit.is_none_or(|limit| form.start(top) + form.along <= limit)
}

/// Fills one room.
fn fill(parts: &Parts, order: &[usize], index: usize, room: Room, left: &mut [usize], puts: &mut Vec<Put>) {
    let (edge, free): (Vec<usize>, Vec<usize>) = order.iter().partition(|&&form| parts.forms[form].at_edge);
    let (mut edge, mut free) = (Shelf::new(parts, edge), Shelf::new(parts, free));
    // Steps by their place, and the same by their height.
    let mut steps: BTreeMap<i64, (i64, i64)> = BTreeMap::from([(0, (room.width, 0))]);
    let mut heights: BTreeSet<(i64, i64)> = BTreeSet::from([(0, 0)]);
    while let Some((top, across)) = heights.pop_first() {
        let Some((width, _)) = steps.remove(&across) else { break };
        let choice = (if across == 0 { edge.choose(width, true, top, room, left) } else { None })
            .or_else(|| free.choose(width, false, top, room, left));
        let Some(choice) = choice else {
            let before = steps.range(..across).next_back().map(|(_, &(_, top))| top);
            let after = steps.range(across..).next().map(|(_, &(_, top))| top);
            let Some(wall) = before.into_iter().chain(after).min() else { break };
            set(&mut steps, &mut heights, across, width, wall);
            continue;
        };
        let form = &parts.forms[choice];
        let room_for = if form.at_edge { 1 } else { number::count(width / form.across).unwrap_or(1) };
        let count = room_for.min(left[form.kind]);
        left[form.kind] -= count;
        let (along, mut at) = (form.start(top), across);
        for _ in 0..count {
            puts.push(Put { form: choice, room: index, along, across: at });
            at += form.across;
        }
        if at < across + width {
            set(&mut steps, &mut heights, at, across + width - at, top);
        }
        set(&mut steps, &mut heights, across, at - across, along + form.along);
    }
}

/// Adds a step, joined with neighbours of its height.
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
