//! Fills one row of a given length with as much value as possible: a knapsack of pieces for every width of column,
//! and one of columns for the row.
//!
//! Columns of different widths may want the same pieces; then the widest gets them, and the rest of the row is filled
//! again from the pieces left.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::plan::{Pile, Stack};
use super::prepared::{Prepared, Shape, apart, next_multiple};
use crate::front::{Choice, Front, FrontItem, Thinning};
use crate::problem::Starts;

/// Longer lists of choices are thinned.
const MOST_CHOICES: usize = 600;

/// The most gaps of a pile in which other pieces are laid.
const MOST_GAPS: i64 = 64;

/// The row that is wanted.
#[derive(Clone, Copy, Debug)]
pub(super) struct RowRequest {
    pub(super) width: i64,
    /// Where the row may begin.
    pub(super) from: i64,
    /// How long it may be.
    pub(super) along: i64,
    /// How much further pieces may reach while columns are chosen, since the last in a column needs no whole repeat.
    pub(super) overhang: i64,
    /// A column whose pieces are partly taken by the columns before is dropped for a better one, not shortened.
    pub(super) only_whole: bool,
}

/// A column that could be made.
#[derive(Clone, Copy, Debug)]
struct Offer {
    width: i64,
    choice: Choice,
    most: i64,
}

/// Fills rows and reuses its tables.
#[derive(Debug)]
pub(super) struct Filler<'a> {
    prepared: &'a Prepared,
    column_front: Front,
    edge_front: Front,
    row_front: Front,
    offers: Vec<Offer>,
    edge_offers: Vec<Offer>,
    chosen: Vec<(usize, i64)>,
    /// Choices looked at since last asked.
    looked: usize,
}

impl<'a> Filler<'a> {
    pub(super) fn new(prepared: &'a Prepared) -> Self {
        let front = || Front::new(MOST_CHOICES, Thinning::Dropping);
        Self {
            prepared,
            column_front: front(),
            edge_front: front(),
            row_front: front(),
            offers: Vec::new(),
            edge_offers: Vec::new(),
            chosen: Vec::new(),
            looked: 0,
        }
    }

    /// Returns the number of choices looked at since last asked.
    pub(super) fn looked(&mut self) -> usize {
        let fronts = [&mut self.column_front, &mut self.edge_front, &mut self.row_front];
        std::mem::take(&mut self.looked)
            + fronts.into_iter().map(|front| std::mem::take(&mut front.looked)).sum::<usize>()
    }

    /// Returns the columns of a row and their value, from the pieces in `left`, which is unchanged afterwards;
    /// `values` holds the value of each kind.
    pub(super) fn fill(&mut self, request: RowRequest, left: &mut [i64], values: &[i64]) -> (Vec<Stack>, i64) {
        let mut stacks: Vec<Stack> = Vec::new();
        let (mut free_width, mut value) = (request.width, 0);
        if self.prepared.is_edged {
            self.offer(request, free_width, left, values, true);
            self.edge_offers = std::mem::take(&mut self.offers);
            std::mem::swap(&mut self.column_front, &mut self.edge_front);
            self.offer(request, free_width, left, values, false);
            self.combine(free_width);
            let total = |offer: &Offer| {
                offer.choice.value.saturating_add(self.row_front.within(free_width - offer.width).value)
            };
            let best = self.edge_offers.iter().copied().max_by_key(total);
            if let Some(best) = best.filter(|best| total(best) > self.row_front.last().value) {
                self.chosen.clear();
                self.edge_front.add_chosen(best.choice, &mut self.chosen);
                if let Some(stack) = self.stack(request, best.width, 1, left) {
                    free_width -= stack.width;
                    value += take(self.prepared, &stack, left, values);
                    stacks.push(stack);
                }
            }
        }
        loop {
            self.offer(request, free_width, left, values, false);
            self.combine(free_width);
            let chosen = self.row_front.last();
            if chosen.value <= 0 {
                break;
            }
            let mut columns = Vec::new();
            self.row_front.add_chosen(chosen, &mut columns);
            columns.sort_by_key(|&(offer, _)| -self.offers[offer].width);
            let before = free_width;
            for (offer, times) in columns {
                let Offer { width, choice, .. } = self.offers[offer];
                self.chosen.clear();
                self.column_front.add_chosen(choice, &mut self.chosen);
                // Columns before may have taken its pieces; then look for better ones.
                let is_whole =
                    self.chosen.iter().all(|&(shape, times)| times <= left[self.prepared.shapes[shape].item]);
                if request.only_whole && !is_whole && free_width < before {
                    break;
                }
                if let Some(stack) = self.stack(request, width, times, left) {
                    free_width -= stack.width * stack.times;
                    value += take(self.prepared, &stack, left, values);
                    stacks.push(stack);
                }
            }
            if free_width == before || free_width <= 0 {
                break;
            }
        }
        for stack in &stacks {
            for pile in &stack.piles {
                left[self.prepared.shapes[pile.shape].item] += pile.times * stack.times;
            }
        }
        (stacks, value)
    }

    /// Collects the best column for every width, with pieces for the edge or without.
    fn offer(&mut self, request: RowRequest, free_width: i64, left: &[i64], values: &[i64], for_edge: bool) {
        let prepared = self.prepared;
        self.offers.clear();
        self.column_front.clear(request.along + request.overhang);
        self.looked += prepared.shapes.len();
        let mut best = 0;
        for (name, shape) in prepared.shapes.iter().enumerate() {
            if shape.across > free_width {
                break;
            }
            let item = &prepared.items[shape.item];
            let most = left[shape.item];
            if shape.along <= request.along && (for_edge || !item.at_edge) {
                let size = match item.starts {
                    None => shape.along,
                    Some(_) => {
                        Starts::next_of(item.starts, request.from) - request.from + apart(item.starts, shape.along)
                    }
                };
                self.column_front.add(FrontItem { name, size, value: values[shape.item], most });
            }
            let is_last_of_width = prepared.shapes.get(name + 1).is_none_or(|next| next.across > shape.across);
            let choice = self.column_front.last();
            if is_last_of_width && choice.value > best {
                best = choice.value;
                self.chosen.clear();
                self.column_front.add_chosen(choice, &mut self.chosen);
                let often = |&(shape, times): &(usize, i64)| left[prepared.shapes[shape].item] / times;
                let most = self.chosen.iter().map(often).min().unwrap_or_default();
                self.offers.push(Offer { width: shape.across, choice, most });
            }
        }
    }

    /// Combines the offered columns side by side.
    fn combine(&mut self, free_width: i64) {
        self.row_front.clear(free_width);
        for (name, offer) in self.offers.iter().enumerate() {
            self.row_front.add(FrontItem { name, size: offer.width, value: offer.choice.value, most: offer.most });
        }
    }

    /// Lays pieces without marks between those with marks, where a repeat leaves room for them.
    fn fill_gaps(&self, stack: &mut Stack, left: &[i64]) {
        let prepared = self.prepared;
        let gap = |pile: &Pile| {
            let shape = &prepared.shapes[pile.shape];
            apart(prepared.items[shape.item].starts, shape.along) - shape.along
        };
        let widest = stack.piles.iter().map(|pile| prepared.shapes[pile.shape].across).max().unwrap_or_default();
        let longest = stack.piles.iter().map(gap).max().unwrap_or_default();
        // Long ones first.
        let mut free: Vec<usize> = (0..prepared.shapes.len())
            .filter(|&at| {
                let shape = &prepared.shapes[at];
                let item = &prepared.items[shape.item];
                shape.across <= widest && shape.along <= longest && item.starts.is_none() && !item.at_edge
            })
            .collect();
        if free.is_empty() {
            return;
        }
        free.sort_by_key(|&at| (-prepared.shapes[at].along, -prepared.shapes[at].across, at));
        let mut left = left.to_vec();
        for pile in &stack.piles {
            left[prepared.shapes[pile.shape].item] -= pile.times;
        }
        let last = stack.piles.iter().rposition(|pile| gap(pile) > 0).unwrap_or_default();
        let mut piles: Vec<Pile> = Vec::with_capacity(stack.piles.len());
        for (at, pile) in stack.piles.iter().enumerate() {
            // After the last there is no next mark to wait for.
            let gaps = pile.times - i64::from(at >= last);
            for _ in 0..gaps.min(MOST_GAPS) {
                let mut free_length = gap(pile);
                let before = piles.len();
                for &shape in &free {
                    let Shape { item, along, .. } = prepared.shapes[shape];
                    let times = (free_length / along).min(left[item]);
                    if times > 0 {
                        if before == piles.len() {
                            piles.push(Pile { times: 1, ..*pile });
                        }
                        piles.push(Pile { shape, times });
                        left[item] -= times;
                        free_length -= along * times;
                    }
                }
                // What does not fit now does not fit into the next gap either.
                if before == piles.len() {
                    break;
                }
            }
            let laid: i64 = piles.iter().filter(|other| other.shape == pile.shape).map(|other| other.times).sum();
            if pile.times > laid {
                piles.push(Pile { times: pile.times - laid, ..*pile });
            }
        }
        stack.piles = piles;
    }

    /// A column of the chosen shapes, as often as there are pieces for; `None` if there are too few or none fits.
    fn stack(&self, request: RowRequest, width: i64, times: i64, left: &[i64]) -> Option<Stack> {
        let prepared = self.prepared;
        let mut piles: Vec<Pile> = self.chosen.iter().map(|&(shape, times)| Pile { shape, times }).collect();
        // Both orientations of a kind use the same pieces.
        for at in 0..piles.len() {
            let item = prepared.shapes[piles[at].shape].item;
            let before: i64 =
                piles[..at].iter().filter(|pile| prepared.shapes[pile.shape].item == item).map(|pile| pile.times).sum();
            piles[at].times = piles[at].times.min(left[item] - before);
        }
        piles.retain(|pile| pile.times > 0);
        // Pieces with marks first, by rising waste behind each: the last one's waste is not needed.
        let waste = |pile: &Pile| {
            let shape = &prepared.shapes[pile.shape];
            let starts = prepared.items[shape.item].starts;
            (starts.is_none(), apart(starts, shape.along) - shape.along, pile.shape)
        };
        piles.sort_by_key(waste);
        let mut stack = Stack { width, piles, times };
        if prepared.is_marked {
            while stack.end(prepared, request.from) > request.from + request.along {
                let pile = stack.piles.last_mut()?;
                pile.times -= 1;
                if pile.times == 0 {
                    stack.piles.pop();
                }
            }
        }
        if prepared.is_marked && times == 1 {
            self.fill_gaps(&mut stack, left);
        }
        stack.width = stack.piles.iter().map(|pile| prepared.shapes[pile.shape].across).max()?;
        let mut need: Vec<(usize, i64)> = Vec::with_capacity(stack.piles.len());
        for pile in &stack.piles {
            let item = prepared.shapes[pile.shape].item;
            match need.iter_mut().find(|(other, _)| *other == item) {
                Some((_, times)) => *times += pile.times,
                None => need.push((item, pile.times)),
            }
        }
        let often = need.iter().map(|&(item, times)| left[item] / times).min()?;
        stack.times = times.min(often);
        (stack.times > 0).then_some(stack)
    }
}

/// Takes the pieces of a column from `left`; returns their value.
fn take(prepared: &Prepared, stack: &Stack, left: &mut [i64], values: &[i64]) -> i64 {
    let mut value = 0i64;
    for pile in &stack.piles {
        let item = prepared.shapes[pile.shape].item;
        left[item] -= pile.times * stack.times;
        value = value.saturating_add(values[item].saturating_mul(pile.times * stack.times));
    }
    value
}

/// How far columns may be planned beyond the end of a row of this length.
pub(super) fn overhang(prepared: &Prepared, along: i64) -> i64 {
    prepared.repeat.map_or(0, |every| next_multiple(along, every) - along)
}

#[cfg(test)]
mod tests;
