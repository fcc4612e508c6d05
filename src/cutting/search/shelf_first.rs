//! Full-width pieces on the shelf, by trying everything: of all plans that buy the least, the one that fills the
//! shortest length of the shelf the furthest, then the next longer one, and so on.
//!
//! Never here: pieces side by side, lists too long to try everything; the solvers plan those.

use crate::cutting::nanometre::size;
use crate::cutting::place::by_length::wanted;
use crate::cutting::place::extent::Extent;
use crate::cutting::place::item::Want;
use crate::cutting::place::layout::{CutLength, Layout};
use crate::cutting::search::cost_model::CostModel;
use crate::cutting::task::demand::{Group, Measures};
use crate::cutting::task::source::Source;
use crate::quantity::number;
use std::collections::BTreeMap;

/// The most choices to try; beyond it there is no answer.
const MOST_CHOICES: usize = 2_000_000;
/// The cost of the dearest new length, in the units that costs are compared in.
const DEAREST: f64 = 1e12;
/// The cost of what cannot be had.
const NEVER: i64 = i64::MAX;

/// Returns the layout; `None` if more than lengths matters, nothing of the shelf is free of a price, or the choices are
/// too many.
pub(in crate::cutting) fn plan(
    groups: &[Group<'_>],
    sources: &[Source],
    measures: Measures,
    cost_model: &CostModel,
) -> Option<Layout> {
    if groups.iter().any(|group| !group.full_width || group.start.is_on_pattern()) {
        return None;
    }
    let (shelf, new): (Vec<usize>, Vec<usize>) = (0..sources.len())
        .filter(|place| is_usable(sources, *place, measures))
        .partition(|place| sources.get(*place).is_some_and(Source::is_on_shelf));
    let is_plain = |place: &usize| {
        sources
            .get(*place)
            .is_some_and(|source| source.opened_at == 0 && (source.price.is_none() || !source.is_on_shelf()))
    };
    let is_endless =
        |place: &usize| sources.get(*place).is_some_and(|source| source.as_needed || source.most.is_none());
    if shelf.is_empty() || !shelf.iter().chain(&new).all(is_plain) || !new.iter().all(is_endless) {
        return None;
    }
    let usable: Vec<Source> = shelf.iter().chain(&new).filter_map(|place| sources.get(*place).cloned()).collect();
    let wants = wanted(groups, &usable)?;
    Table::of(&wants, &shelf, &new, sources, measures)?.layout(wants, cost_model)
}

/// Whether full-width pieces can come from a source.
fn is_usable(sources: &[Source], place: usize, measures: Measures) -> bool {
    sources.get(place).is_some_and(|source| source.width >= measures.width)
}

/// How many pieces of each length: all that are wanted, or some of them.
type Counts = Vec<usize>;

/// Every choice of some of the pieces, numbered so that a difference of choices is one of their numbers.
struct Table<'a> {
    sources: &'a [Source],
    measures: Measures,
    lengths: Vec<i64>,
    choices: Vec<Counts>,
    /// What each choice takes, with the loss behind every piece.
    taken: Vec<i64>,
    /// The lengths of the shelf, the longest first, each with the number of choices that fit on it.
    shelf: Vec<usize>,
    new: Vec<usize>,
}

/// The best way found for each choice of pieces.
struct Best {
    /// The cost of what is bought.
    cost: Vec<i64>,
    /// Among equal costs the plan with the lower rank fills shorter lengths further.
    rank: Vec<usize>,
}

impl<'a> Table<'a> {
    fn of(
        wants: &BTreeMap<i64, Vec<Want>>,
        shelf: &[usize],
        new: &[usize],
        sources: &'a [Source],
        measures: Measures,
    ) -> Option<Self> {
        // The longest first, so that they are cut first.
        let (lengths, counts): (Vec<i64>, Counts) =
            wants.iter().rev().map(|(length, wants)| (*length, wants.len())).unzip();
        let pieces: usize = counts.iter().sum();
        let most = |place: &usize| {
            let most = sources.get(*place).and_then(|source| source.most).map_or(0, size);
            most.min(pieces)
        };
        let states = counts.iter().try_fold(1_usize, |states, count| states.checked_mul(count + 1))?;
        let lengths_of_shelf: usize = shelf.iter().map(most).sum();
        let work = states.checked_mul(states)?.checked_mul(lengths_of_shelf + new.len())?;
        if work > MOST_CHOICES {
            return None;
        }
        let mut choices: Vec<Counts> = vec![Vec::new()];
        for count in &counts {
            let longer = |choice: &Counts| {
                let choice = choice.clone();
                (0..=*count).map(move |next| choice.iter().copied().chain([next]).collect::<Counts>())
            };
            choices = choices.iter().flat_map(longer).collect();
        }
        let taken = |choice: &Counts| {
            choice
                .iter()
                .zip(&lengths)
                .map(|(count, length)| number::from_size(*count) * (length + measures.loss))
                .sum()
        };
        let taken = choices.iter().map(taken).collect();
        let mut places: Vec<usize> = shelf.iter().flat_map(|place| std::iter::repeat_n(*place, most(place))).collect();
        places.sort_by_key(|place| std::cmp::Reverse(sources.get(*place).map(|source| source.length)));
        Some(Self { sources, measures, lengths, choices, taken, shelf: places, new: new.to_vec() })
    }

    /// Where the last piece of a choice ends.
    fn end(&self, choice: usize) -> i64 {
        self.taken.get(choice).map_or(0, |taken| (taken - self.measures.loss).max(0))
    }

    /// The choices, without the empty one, that fit on a length.
    fn fitting(&self, place: usize) -> Vec<usize> {
        let room = self.sources.get(place).map_or(0, |source| source.length);
        (1..self.choices.len()).filter(|choice| self.end(*choice) <= room).collect()
    }

    /// Whether one choice is part of another; then the difference of their numbers is the rest.
    fn is_part(&self, part: usize, whole: usize) -> bool {
        let (part, whole) = (self.choices.get(part), self.choices.get(whole));
        part.zip(whole).is_some_and(|(part, whole)| part.iter().zip(whole).all(|(part, whole)| part <= whole))
    }

    fn layout(&self, mut wants: BTreeMap<i64, Vec<Want>>, cost_model: &CostModel) -> Option<Layout> {
        let bought = self.bought(cost_model);
        let mut best = Best { cost: bought.iter().map(|(cost, _)| *cost).collect(), rank: vec![0; self.choices.len()] };
        let mut cuts: Vec<Vec<usize>> = Vec::new();
        for place in &self.shelf {
            cuts.push(self.cut_also(&mut best, *place));
        }
        let mut left = self.choices.len() - 1;
        if best.cost.get(left) == Some(&NEVER) {
            return None;
        }
        let mut cut_lengths = Vec::new();
        for (place, cuts) in self.shelf.iter().zip(cuts).rev() {
            let cut = *cuts.get(left)?;
            if cut > 0 {
                cut_lengths.push(self.cut_length(*place, cut, &mut wants)?);
                left -= cut;
            }
        }
        while left > 0 {
            let (_, (place, cut)) = *bought.get(left)?;
            cut_lengths.push(self.cut_length(place, cut, &mut wants)?);
            left = left.checked_sub(cut).filter(|_| cut > 0)?;
        }
        cut_lengths.sort_by_key(|cut_length| cut_length.source);
        Some(Layout { cut_lengths, by_outline: false })
    }

    /// What each choice costs if all of it is bought, with the source of its first length and what that holds.
    fn bought(&self, cost_model: &CostModel) -> Vec<(i64, (usize, usize))> {
        let cost = |place: usize, choice: usize| {
            cost_model.of_length(place, self.end(choice), self.measures.loss, self.sources)
        };
        let last = self.choices.len() - 1;
        let whole = |place: usize| self.sources.get(place).is_some_and(|source| !source.as_needed);
        let dearest = self.new.iter().map(|place| cost(*place, if whole(*place) { 0 } else { last }));
        let dearest = dearest.fold(0.0, f64::max);
        let scale = if dearest > 0.0 { DEAREST / dearest } else { 1.0 };
        let cost = |place: usize, choice: usize| number::nearest_whole(cost(place, choice) * scale).unwrap_or(NEVER);
        let fitting: Vec<(usize, Vec<usize>)> = self.new.iter().map(|place| (*place, self.fitting(*place))).collect();
        let mut bought: Vec<(i64, (usize, usize))> = vec![(NEVER, (0, 0)); self.choices.len()];
        if let Some(nothing) = bought.first_mut() {
            nothing.0 = 0;
        }
        for choice in 1..self.choices.len() {
            let mut best = (NEVER, (0, 0));
            for (place, fitting) in &fitting {
                for cut in fitting {
                    // All that is cut off as needed from one source is one length.
                    let wanted = if whole(*place) { self.is_part(*cut, choice) } else { *cut == choice };
                    let Some(rest) = choice.checked_sub(*cut).filter(|_| wanted) else { continue };
                    let rest = bought.get(rest).map_or(NEVER, |(cost, _)| *cost);
                    let all = rest.saturating_add(cost(*place, *cut));
                    if all < best.0 {
                        best = (all, (*place, *cut));
                    }
                }
            }
            if let Some(entry) = bought.get_mut(choice) {
                *entry = best;
            }
        }
        bought
    }

    /// Lets a further length of the shelf, no longer than the ones before it, be cut too; returns what is cut from it
    /// for each choice.
    fn cut_also(&self, best: &mut Best, place: usize) -> Vec<usize> {
        let fitting = self.fitting(place);
        let mut cuts = Vec::with_capacity(self.choices.len());
        let mut costs = Vec::with_capacity(self.choices.len());
        let mut keys = Vec::with_capacity(self.choices.len());
        let at = |list: &[usize], place: usize| list.get(place).copied().unwrap_or(usize::MAX);
        for choice in 0..self.choices.len() {
            // Cost, then the most from this length, then the ranks of the longer ones.
            let key = |cut: usize| {
                let rest = choice - cut;
                let cost = best.cost.get(rest).copied().unwrap_or(NEVER);
                let taken = self.taken.get(cut).copied().unwrap_or(0);
                (cost, std::cmp::Reverse(taken), at(&best.rank, rest))
            };
            let (mut chosen, mut least) = (0, key(0));
            for cut in fitting.iter().copied().take_while(|cut| *cut <= choice) {
                if self.is_part(cut, choice) && key(cut) < least {
                    (chosen, least) = (cut, key(cut));
                }
            }
            cuts.push(chosen);
            costs.push(least.0);
            keys.push((least.1, least.2));
        }
        let mut order: Vec<_> = keys.clone();
        order.sort_unstable();
        order.dedup();
        best.rank = keys.iter().map(|key| order.binary_search(key).unwrap_or(usize::MAX)).collect();
        best.cost = costs;
        cuts
    }

    /// Cuts a choice of pieces from a length.
    fn cut_length(&self, place: usize, choice: usize, wants: &mut BTreeMap<i64, Vec<Want>>) -> Option<CutLength> {
        let mut cut_length = CutLength::of(place);
        for (count, along) in self.choices.get(choice)?.iter().zip(&self.lengths) {
            let list = wants.get_mut(along)?;
            let extent = Extent { along: *along, across: self.measures.width };
            cut_length.put(list.drain(..(*count).min(list.len())), extent, self.measures.loss);
        }
        Some(cut_length)
    }
}
