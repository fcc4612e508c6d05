//! A plan without positions: which pieces make which columns and rows.

use super::prepared::{Prepared, apart};
use crate::number;
use crate::problem::Starts;

/// Equal pieces one above the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pile {
    pub(super) shape: usize,
    pub(super) times: i64,
}

/// Equal columns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Stack {
    pub(super) width: i64,
    pub(super) piles: Vec<Pile>,
    pub(super) times: i64,
}

/// Equal rows on one stretch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Band {
    pub(super) stretch: usize,
    /// Its columns; one with pieces for the edge comes first.
    pub(super) stacks: Vec<Stack>,
    pub(super) times: i64,
    /// Its length; with marks, if it may begin at 0.
    pub(super) along: i64,
    /// Whether it holds a piece that begins at marks.
    pub(super) is_marked: bool,
}

/// Rows, in the order they lie on each stretch, and how many pieces of each kind they leave out.
#[derive(Clone, Debug)]
pub(super) struct Plan {
    pub(super) bands: Vec<Band>,
    pub(super) missing: Vec<i64>,
}

impl Stack {
    /// Where the column ends if it may begin at `from`.
    pub(super) fn end(&self, prepared: &Prepared, from: i64) -> i64 {
        self.piles.iter().fold(from, |at, pile| pile_end(prepared, *pile, at))
    }
}

/// Where the last piece of a pile ends.
fn pile_end(prepared: &Prepared, pile: Pile, at: i64) -> i64 {
    let Some(shape) = prepared.shapes.get(pile.shape) else { return at };
    let starts = prepared.items.get(shape.item).and_then(|item| item.starts);
    Starts::next_of(starts, at) + apart(starts, shape.along) * (pile.times - 1) + shape.along
}

impl Band {
    /// A row of these columns, a column for the edge put first.
    pub(super) fn new(prepared: &Prepared, stretch: usize, mut stacks: Vec<Stack>, times: i64) -> Self {
        let is_at_edge =
            |stack: &Stack| stack.items(prepared).any(|item| prepared.items.get(item).is_some_and(|k| k.at_edge));
        stacks.sort_by_key(|stack| !is_at_edge(stack));
        let along = stacks.iter().map(|stack| stack.end(prepared, 0)).max().unwrap_or_default();
        let is_marked = prepared.is_marked
            && stacks
                .iter()
                .flat_map(|stack| stack.items(prepared))
                .any(|item| prepared.items.get(item).is_some_and(|item| item.starts.is_some()));
        Self { stretch, stacks, times, along, is_marked }
    }

    /// Where one such row ends if it may begin at `from`.
    pub(super) fn end(&self, prepared: &Prepared, from: i64) -> i64 {
        if self.is_marked {
            self.stacks.iter().map(|stack| stack.end(prepared, from)).max().unwrap_or(from)
        } else {
            from + self.along
        }
    }

    /// Where the last of the rows ends.
    pub(super) fn last_end(&self, prepared: &Prepared, from: i64) -> i64 {
        if self.is_marked {
            let mut at = from;
            for done in 0..self.times {
                let end = self.end(prepared, at);
                // A row that advances by whole repeats is followed by equal ones.
                if prepared.repeat.is_some_and(|every| done > 0 && (end - at) % every == 0) {
                    return end + (end - at) * (self.times - done - 1);
                }
                at = end;
            }
            at
        } else {
            from.saturating_add(self.along.saturating_mul(self.times))
        }
    }

    /// Calls `take` with the kind and the count of every pile in one such row.
    pub(super) fn each(&self, prepared: &Prepared, mut take: impl FnMut(usize, i64)) {
        for stack in &self.stacks {
            for pile in &stack.piles {
                if let Some(shape) = prepared.shapes.get(pile.shape) {
                    take(shape.item, pile.times * stack.times);
                }
            }
        }
    }
}

impl Stack {
    fn items<'a>(&'a self, prepared: &'a Prepared) -> impl Iterator<Item = usize> + 'a {
        self.piles.iter().filter_map(|pile| prepared.shapes.get(pile.shape)).map(|shape| shape.item)
    }
}

impl Plan {
    /// Where the rows end on each stretch, the loss of a cut included.
    pub(super) fn ends(&self, prepared: &Prepared) -> Vec<i64> {
        let mut ends = vec![0; prepared.stretches.len()];
        for band in &self.bands {
            if let Some(end) = ends.get_mut(band.stretch) {
                *end = band.last_end(prepared, *end);
            }
        }
        ends
    }

    /// The length used of the last stretch.
    pub(super) fn length(&self, prepared: &Prepared) -> i64 {
        (self.ends(prepared).last().copied().unwrap_or_default() - prepared.loss).max(0)
    }

    /// The rank of a plan, least first: the area left out, then the last stretch used, and how far.
    pub(super) fn measure(&self, prepared: &Prepared) -> (i128, i64, i64) {
        let missing =
            self.missing.iter().zip(&prepared.items).map(|(&count, item)| i128::from(count) * item.area).sum::<i128>();
        let ends = self.ends(prepared);
        let last = ends.iter().rposition(|&end| end > 0).unwrap_or_default();
        let end = ends.get(last).copied().unwrap_or(0);
        (missing, if prepared.is_endless() && last + 1 < ends.len() { 0 } else { number::from_size(last) }, end)
    }
}

#[cfg(test)]
mod tests;
