//! Plans full widths that must match on a pattern: which of them come from which length, and in which order.
//!
//! Behind a piece some cloth is skipped until the next one may start, and how much depends on both. So the shortest end
//! of every sub-list of the pieces is worked out once, from the shorter sub-lists; then every way to share the list out
//! to the lengths. Both are exact. A list too long for that is left to the other planners, and only the order of the
//! pieces on each of their lengths is made the best. What is looked at counts against the steps of the search.
//!
//! Never here: pieces side by side, pieces without a pattern.

use crate::cutting::nanometre::size;
use crate::cutting::place::extent::Extent;
use crate::cutting::place::layout::{CutLength, Layout, Placed};
use crate::cutting::search::cost_model::CostModel;
use crate::cutting::task::demand::{Group, Measures, Start};
use crate::cutting::task::source::Source;
use crate::piece::{Layers, Lie};
use shirr_packing::Steps;
use std::collections::BTreeMap;

/// The most sub-lists whose ends are worked out.
const MOST_ENDS: usize = 1 << 20;
/// The most looks at sub-lists for sharing a list out to the lengths.
const MOST_SHARINGS: usize = 1 << 24;
/// How many looks at a sub-list count as a step of the search.
const LOOKS_IN_A_STEP: usize = 100;
/// So many looks are free, so that a short list is planned the best however few steps are left.
const FREE_LOOKS: usize = 50_000;

/// Takes the steps for so many looks; returns whether there are as many.
fn pay(looks: usize, steps: &mut Steps<'_>) -> bool {
    if steps.is_stopped() {
        return false;
    }
    let cost = u64::try_from(looks.saturating_sub(FREE_LOOKS) / LOOKS_IN_A_STEP).unwrap_or(u64::MAX);
    if cost > steps.left() {
        return false;
    }
    drop(steps.apart(cost));
    true
}

/// Pieces of one length that start alike on the pattern.
struct Kind<'g> {
    group: &'g Group<'g>,
    along: i64,
    first: i64,
}

/// The kinds of pieces and the pattern they lie on.
struct Kinds<'g> {
    kinds: Vec<Kind<'g>>,
    repeat: i64,
    loss: i64,
}

/// Returns the cheapest of all layouts; `None` if the pieces are not all full widths on a pattern, if they do not all go on
/// these lengths, if there are too many of them for the steps, or if pinned cuts settle where a pattern starts.
pub(in crate::cutting) fn plan(
    groups: &[Group<'_>],
    sources: &[Source],
    measures: Measures,
    cost_model: &CostModel,
    steps: &mut Steps<'_>,
) -> Option<Layout> {
    let kinds = Kinds::of(groups, measures.loss)?;
    if sources.iter().any(|source| source.settled) {
        return None;
    }
    let counts: Vec<usize> = kinds.kinds.iter().map(|kind| kind.group.numbers.len()).collect();
    let ends = Ends::of(&kinds, &counts, steps)?;
    let wide = |source: &(usize, &Source)| source.1.width >= measures.width;
    let wide: Vec<(usize, &Source)> = sources.iter().enumerate().filter(wide).collect();
    let shares = share_out(&ends, &wide, sources, cost_model, measures.loss, steps)?;
    let mut numbers: Vec<_> = kinds.kinds.iter().map(|kind| kind.group.numbers.iter().copied()).collect();
    let mut cut_lengths = Vec::new();
    for (source, list) in shares {
        let order = ends.order(&kinds, list);
        let mut cut_length = CutLength::of(source);
        kinds.lay(&mut cut_length, &order, measures.width, |kind| numbers.get_mut(kind)?.next())?;
        cut_lengths.push(cut_length);
    }
    cut_lengths.sort_by_key(|cut_length| cut_length.source);
    Some(Layout { cut_lengths, by_outline: false })
}

/// Puts the pieces on each length of a layout in the order that ends first, as far as the steps go; a length on which
/// anything else lies, or whose pattern pinned cuts settle, stays as it is.
pub(in crate::cutting) fn reorder(
    layout: &mut Layout,
    groups: &[Group<'_>],
    sources: &[Source],
    measures: Measures,
    steps: &mut Steps<'_>,
) {
    let Some(kinds) = Kinds::of(groups, measures.loss) else { return };
    let of_numbers = |(place, kind): (usize, &Kind<'_>)| {
        let entry = kind.group.entry;
        kind.group.numbers.iter().map(move |number| ((entry, *number), place)).collect::<Vec<_>>()
    };
    let kind_of: BTreeMap<(usize, i64), usize> = kinds.kinds.iter().enumerate().flat_map(of_numbers).collect();
    let is_settled = |source: usize| sources.get(source).is_some_and(|source| source.settled);
    let may_move = |cut_length: &&mut CutLength| !cut_length.folded && !is_settled(cut_length.source);
    for cut_length in layout.cut_lengths.iter_mut().filter(may_move) {
        let kind_of = |placed: &Placed| kind_of.get(&(placed.entry, placed.number)).copied();
        let mut numbers: Vec<Vec<i64>> = vec![Vec::new(); kinds.kinds.len()];
        let mut rest = cut_length.placed.iter();
        let sorted = rest.all(|placed| {
            let list = kind_of(placed).filter(|_| placed.part.is_none()).and_then(|kind| numbers.get_mut(kind));
            list.map(|list| list.push(placed.number)).is_some()
        });
        let counts: Vec<usize> = numbers.iter().map(Vec::len).collect();
        let Some(ends) = sorted.then(|| Ends::of(&kinds, &counts, steps)).flatten() else { continue };
        let order = ends.order(&kinds, ends.all());
        for list in &mut numbers {
            list.sort_unstable();
        }
        let mut numbers: Vec<_> = numbers.into_iter().map(Vec::into_iter).collect();
        let mut better = CutLength { placed: Vec::new(), end: 0, offcuts: Vec::new(), ..cut_length.clone() };
        let laid = kinds.lay(&mut better, &order, measures.width, |kind| numbers.get_mut(kind)?.next());
        if laid.is_some() && better.end < cut_length.end {
            *cut_length = better;
        }
    }
}

impl<'g> Kinds<'g> {
    fn of(groups: &'g [Group<'g>], loss: i64) -> Option<Self> {
        let mut every = None;
        let mut kinds = Vec::with_capacity(groups.len());
        for group in groups {
            let Start::Pattern { first, repeat } = group.start else { return None };
            let (_, extent) = group.choices.first().filter(|_| group.full_width && group.joining.is_none())?;
            every = Some(repeat);
            kinds.push(Kind { group, along: extent.along, first });
        }
        Some(Self { kinds, repeat: every?, loss })
    }

    /// How far behind the start of one piece the next one starts.
    fn step(&self, one: usize, next: usize) -> i64 {
        let (Some(one), Some(next)) = (self.kinds.get(one), self.kinds.get(next)) else { return 0 };
        let behind = one.along + self.loss;
        behind + (next.first - one.first - behind).rem_euclid(self.repeat)
    }

    fn along(&self, kind: usize) -> i64 {
        self.kinds.get(kind).map_or(0, |kind| kind.along)
    }

    /// Lays pieces in an order of kinds, the first at mark 0; `next` gives the next number of a kind.
    fn lay(
        &self,
        on: &mut CutLength,
        order: &[usize],
        width: i64,
        mut next: impl FnMut(usize) -> Option<i64>,
    ) -> Option<()> {
        let mut from = 0;
        let mut last = None;
        for kind in order {
            from += last.map_or(0, |last| self.step(last, *kind));
            last = Some(*kind);
            let Kind { group, along, .. } = self.kinds.get(*kind)?;
            on.placed.push(Placed {
                entry: group.entry,
                number: next(*kind)?,
                part: None,
                lie: Lie::Along,
                reversed: false,
                through: Layers::One,
                from,
                across_from: 0,
                extent: Extent { along: *along, across: width },
            });
            on.end = from + along;
        }
        Some(())
    }
}

/// The shortest end of every sub-list, by its last piece. A sub-list has so many pieces of each kind, and is known by
/// its place among all: the counts as digits of a number.
struct Ends {
    counts: Vec<usize>,
    /// How far apart sub-lists are that differ by one piece of a kind.
    strides: Vec<usize>,
    /// By sub-list and last kind.
    ends: Vec<i64>,
}

/// Longer than any end.
const NEVER: i64 = i64::MAX;

impl Ends {
    /// `None` if there are too many sub-lists for the steps.
    fn of(kinds: &Kinds<'_>, counts: &[usize], steps: &mut Steps<'_>) -> Option<Self> {
        let mut strides = Vec::with_capacity(counts.len());
        let mut lists = 1_usize;
        for count in counts {
            strides.push(lists);
            lists = lists.checked_mul(count + 1)?;
            if lists.checked_mul(counts.len())? > MOST_ENDS {
                return None;
            }
        }
        let looks = lists.checked_mul(counts.len())?.checked_mul(counts.len())?;
        if !pay(looks, steps) {
            return None;
        }
        let mut ends =
            Self { counts: counts.to_vec(), strides, ends: Vec::with_capacity(lists.checked_mul(counts.len())?) };
        for list in 0..lists {
            for last in 0..counts.len() {
                let end = ends.shortest(kinds, list, last);
                ends.ends.push(end);
            }
        }
        Some(ends)
    }

    /// How many pieces of a kind are in a sub-list.
    fn count(&self, list: usize, kind: usize) -> usize {
        let (stride, count) = (self.strides.get(kind).copied().unwrap_or(1), self.counts.get(kind).copied());
        list / stride % (count.unwrap_or(0) + 1)
    }

    /// The sub-list with one piece of a kind less.
    fn without(&self, list: usize, kind: usize) -> Option<usize> {
        (self.count(list, kind) > 0).then(|| list - self.strides.get(kind).copied().unwrap_or(0))
    }

    fn shortest(&self, kinds: &Kinds<'_>, list: usize, last: usize) -> i64 {
        let Some(before) = self.without(list, last) else { return NEVER };
        if before == 0 {
            return kinds.along(last);
        }
        let kinds_before = 0..self.counts.len();
        let via = |kind: usize| self.via(kinds, before, kind, last);
        kinds_before.map(via).min().unwrap_or(NEVER)
    }

    /// The end of a sub-list that ends with `kind`, with one more piece behind it.
    fn via(&self, kinds: &Kinds<'_>, before: usize, kind: usize, last: usize) -> i64 {
        match self.end_with(before, kind) {
            NEVER => NEVER,
            end => end - kinds.along(kind) + kinds.step(kind, last) + kinds.along(last),
        }
    }

    fn end_with(&self, list: usize, last: usize) -> i64 {
        self.ends.get(list * self.counts.len() + last).copied().unwrap_or(NEVER)
    }

    /// The shortest end of a sub-list; zero for the empty one.
    fn end(&self, list: usize) -> i64 {
        if list == 0 { 0 } else { (0..self.counts.len()).map(|last| self.end_with(list, last)).min().unwrap_or(NEVER) }
    }

    /// The whole list.
    fn all(&self) -> usize {
        self.strides.iter().zip(&self.counts).map(|(stride, count)| stride * count).sum()
    }

    fn lists(&self) -> usize {
        self.all() + 1
    }

    /// Whether one sub-list is part of another.
    fn is_within(&self, part: usize, list: usize) -> bool {
        (0..self.counts.len()).all(|kind| self.count(part, kind) <= self.count(list, kind))
    }

    /// The kinds of a sub-list in the order that ends first.
    fn order(&self, kinds: &Kinds<'_>, list: usize) -> Vec<usize> {
        let mut order = Vec::new();
        let mut left = list;
        // Of equal ends the one whose last kinds are listed last, so that the first listed comes first.
        let mut last = (0..self.counts.len()).rev().min_by_key(|last| self.end_with(left, *last));
        while let Some((kind, before)) = last.and_then(|last| Some((last, self.without(left, last)?))) {
            order.push(kind);
            let end = self.end_with(left, kind);
            last =
                (0..self.counts.len()).rev().find(|other| before != 0 && self.via(kinds, before, *other, kind) == end);
            left = before;
        }
        order.reverse();
        order
    }
}

/// Shares the whole list out to the lengths at the least cost: each length with its source and its sub-list. `None` if
/// it does not all go on them, or if there are too many ways.
fn share_out(
    ends: &Ends,
    sources: &[(usize, &Source)],
    all: &[Source],
    cost_model: &CostModel,
    loss: i64,
    steps: &mut Steps<'_>,
) -> Option<Vec<(usize, usize)>> {
    let lists = ends.lists();
    let shortest: Vec<i64> = (0..lists).map(|list| ends.end(list)).collect();
    // The one length cut off as needed takes a whole list without sharing.
    if let [(place, source)] = sources
        && source.as_needed
    {
        return (*shortest.last()? <= source.length).then(|| vec![(*place, ends.all())]);
    }
    let most_pieces: usize = ends.counts.iter().sum();
    let lengths = |source: &Source| source.most.map_or(most_pieces, size).min(most_pieces);
    let turns: usize = sources.iter().map(|(_, source)| lengths(source)).sum();
    let looks = lists.checked_mul(lists)?.checked_mul(turns)?;
    if looks > MOST_SHARINGS || !pay(looks, steps) {
        return None;
    }
    // For each number of lengths so far, the least cost of every sub-list, and what the last of them holds.
    let mut costs = vec![f64::INFINITY; lists];
    *costs.first_mut()? = 0.0;
    let mut held: Vec<(usize, Vec<usize>)> = Vec::new();
    for (place, source) in sources {
        for _ in 0..lengths(source) {
            if steps.is_stopped() {
                return None;
            }
            let mut next = costs.clone();
            let mut holds = vec![0; lists];
            for (list, (next, holds)) in next.iter_mut().zip(&mut holds).enumerate() {
                for part in (1..=list).filter(|part| ends.is_within(*part, list)) {
                    let end = shortest.get(part).copied().filter(|end| *end <= source.length);
                    let (Some(end), Some(before)) = (end, costs.get(list - part)) else { continue };
                    let cost = before + cost_model.of_length(*place, end, loss, all);
                    if cost < *next {
                        (*next, *holds) = (cost, part);
                    }
                }
            }
            // Another length of the source that betters nothing means that none will.
            if next.iter().zip(&costs).all(|(next, before)| next.total_cmp(before).is_eq()) {
                break;
            }
            costs = next;
            held.push((*place, holds));
        }
    }
    costs.last().filter(|cost| cost.is_finite())?;
    let mut left = ends.all();
    let mut shares = Vec::new();
    for (place, holds) in held.iter().rev() {
        let part = holds.get(left).copied().unwrap_or(0);
        if part > 0 {
            shares.push((*place, part));
            left -= part;
        }
    }
    shares.reverse();
    (left == 0).then_some(shares)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::tests::scene::{cloth, cut_length, full, new, nm, prepared, shelf};
    use crate::cutting::{CuttingManner, CuttingTask};
    use crate::piece::{CutPiece, Goods, Matching, Repeat, Supply};
    use shirr_packing::Watch;
    use std::sync::atomic::{AtomicBool, Ordering};

    /// By hand: of 51 000 looks 50 000 are free, and a hundred of the rest are one step.
    #[test]
    fn looks_are_paid_in_steps() {
        let stop = AtomicBool::new(false);
        let mut steps = Steps::new(20, Watch::silent(&stop));
        assert!(pay(50_000, &mut steps) && steps.left() == 20);
        assert!(pay(51_000, &mut steps) && steps.left() == 10);
        assert!(!pay(51_100, &mut steps) && steps.left() == 10);
        stop.store(true, Ordering::Relaxed);
        assert!(!pay(1, &mut steps));
    }

    /// The kinds by half a repeat of 16: drops of 40 start at once behind one of the other kind, and 8 later behind their own.
    fn with_drops<T>(loss: i64, ask: impl Fn(&[Group<'_>], Measures) -> T) -> T {
        let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), loss_per_cut: nm(loss), ..cloth(100) };
        let matching = Some(Matching::Shifts(vec![0, 0, 1, 1]));
        let pieces = [CutPiece { matching, ..full("drop", 4, 40) }];
        let manner = CuttingManner::default();
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        let prepared = prepared(&task);
        ask(&prepared.groups, prepared.measures)
    }

    #[test]
    fn the_steps_from_start_to_start() {
        with_drops(0, |groups, measures| {
            let kinds = Kinds::of(groups, measures.loss).unwrap();
            assert_eq!([(0, 0), (0, 1), (1, 0), (1, 1)].map(|(one, next)| kinds.step(one, next)), [48, 40, 40, 48]);
            assert_eq!((kinds.along(0), kinds.along(1)), (40, 40));
        });
        // Behind 43 the next starts are 48 and 56.
        with_drops(3, |groups, measures| {
            let kinds = Kinds::of(groups, measures.loss).unwrap();
            assert_eq!([(0, 0), (0, 1), (1, 0), (1, 1)].map(|(one, next)| kinds.step(one, next)), [48, 56, 56, 48]);
        });
    }

    /// Every sub-list of two and two: 1, 2, 3 and 4 drops in the best order, alternating as long as there are both.
    #[test]
    fn the_shortest_end_of_each_sub_list() {
        let stop = AtomicBool::new(false);
        with_drops(0, |groups, measures| {
            let kinds = Kinds::of(groups, measures.loss).unwrap();
            let ends = |steps| Ends::of(&kinds, &[2, 2], &mut Steps::new(steps, Watch::silent(&stop)));
            let ends = ends(0).unwrap();
            assert_eq!((ends.lists(), ends.all()), (9, 8));
            let by_count: Vec<i64> = (0..9).map(|list| ends.end(list)).collect();
            // None, one, two of the first; then each with one and with two of the second.
            assert_eq!(by_count, [0, 40, 88, 40, 80, 120, 88, 120, 160]);
            assert_eq!(ends.order(&kinds, 8), [0, 1, 0, 1]);
            assert_eq!((ends.order(&kinds, 5), ends.order(&kinds, 7)), (vec![0, 1, 0], vec![1, 0, 1]));
            assert!(ends.is_within(4, 5) && ends.is_within(4, 7) && !ends.is_within(5, 7) && !ends.is_within(6, 5));
        });
    }

    /// As they are laid, both of a kind first: at 0, 48, 88 and 136, up to 176; alternating up to 160.
    #[test]
    fn drops_are_put_in_the_order_that_ends_first() {
        let stop = AtomicBool::new(false);
        let laid = |numbers: &[i64], change: &dyn Fn(&mut CutLength), settled: bool| {
            with_drops(0, |groups, measures| {
                let kind = |number: i64| if number > 2 { 8 } else { 0 };
                let mut placed: Vec<Placed> = Vec::new();
                for number in numbers {
                    let behind = placed.last().map_or(0, |last| last.patch().to);
                    let first = numbers.first().map_or(0, |first| kind(*first));
                    let from = behind + (kind(*number) - first - behind).rem_euclid(16);
                    placed.push(crate::cutting::tests::scene::placed(0, *number, (from, 0), (40, 100)));
                }
                let mut one = cut_length(0, placed);
                change(&mut one);
                let mut layout = Layout { cut_lengths: vec![one], by_outline: false };
                let sources = [Source { settled, ..shelf(0, 700, 100) }];
                let mut steps = Steps::new(0, Watch::silent(&stop));
                reorder(&mut layout, groups, &sources, measures, &mut steps);
                let one = &layout.cut_lengths[0];
                (one.placed.iter().map(|placed| (placed.number, placed.from)).collect::<Vec<_>>(), one.end)
            })
        };
        let best = (vec![(1, 0), (3, 40), (2, 80), (4, 120)], 160);
        assert_eq!(laid(&[1, 2, 3, 4], &|_| {}, false), best);
        assert_eq!(laid(&[2, 1, 4, 3], &|_| {}, false), best);
        // What ends as early stays as it is.
        let other = (vec![(2, 0), (3, 40), (1, 80), (4, 120)], 160);
        assert_eq!(laid(&[2, 3, 1, 4], &|_| {}, false), other);
        // Where pinned cuts settle the pattern, on folded cloth, or with anything else on the length nothing moves.
        let as_laid = (vec![(1, 0), (2, 48), (3, 88), (4, 136)], 176);
        assert_eq!(laid(&[1, 2, 3, 4], &|_| {}, true), as_laid);
        assert_eq!(laid(&[1, 2, 3, 4], &|one| one.folded = true, false), as_laid);
        let part = Some(crate::cutting::plan::JoinedPart { number: 1, of: 2 });
        assert_eq!(laid(&[1, 2, 3, 4], &|one| one.placed[1].part = part, false), as_laid);
        assert_eq!(laid(&[1, 2, 3, 4], &|one| one.placed[1].entry = 9, false).1, 176);
    }

    /// Drops of two kinds on lengths of 80, which hold one of each, and of 88, which hold two of either kind.
    #[test]
    fn a_list_is_shared_out_to_the_lengths_that_just_hold_it() {
        let stop = AtomicBool::new(false);
        let planned = |sources: &[Source], steps| {
            with_drops(0, |groups, measures| {
                let manner = CuttingManner::default();
                let model = CostModel::of(sources, measures, &manner);
                let mut steps = Steps::new(steps, Watch::silent(&stop));
                let layout = plan(groups, sources, measures, &model, &mut steps)?;
                let one = |one: &CutLength| (one.source, one.placed.iter().map(|one| one.number).collect::<Vec<_>>());
                Some(layout.cut_lengths.iter().map(one).collect::<Vec<_>>())
            })
        };
        let some = |most, source| Source { most: Some(most), ..source };
        assert_eq!(planned(&[some(2, new(0, 80, 100))], 9), Some(vec![(0, vec![1, 3]), (0, vec![2, 4])]));
        assert_eq!(planned(&[some(1, new(0, 80, 100))], 9), None);
        assert_eq!(planned(&[some(2, new(0, 79, 100))], 9), None);
        assert_eq!(planned(&[some(4, new(0, 79, 100))], 9).map(|lengths| lengths.len()), Some(4));
        assert_eq!(planned(&[new(0, 160, 100)], 9), Some(vec![(0, vec![1, 3, 2, 4])]));
        // Three on 120 and one on 40, which are less than twice 90.
        let lengths =
            [some(1, new(0, 90, 100)), some(1, new(1, 120, 100)), some(1, new(2, 40, 100)), some(1, new(3, 90, 100))];
        let counts: Vec<_> = planned(&lengths, 9).unwrap().iter().map(|(source, all)| (*source, all.len())).collect();
        assert_eq!(counts, [(1, 3), (2, 1)]);
        // As much as needed, of a length that just holds it; too narrow; settled by pinned cuts.
        let needed = |length| Source { as_needed: true, most: Some(1), ..new(0, length, 100) };
        assert_eq!(planned(&[needed(160)], 9), Some(vec![(0, vec![1, 3, 2, 4])]));
        assert_eq!(planned(&[needed(159)], 9), None);
        assert_eq!(planned(&[new(0, 160, 99)], 9), None);
        assert_eq!(planned(&[Source { settled: true, ..new(0, 160, 100) }], 9), None);
    }
}
