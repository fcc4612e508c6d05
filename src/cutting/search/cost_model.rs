//! The cost of a layout in one measure: by the prices of the lengths it uses, or by their length if none has a price.
//! Shelf lengths without a price count for far less than new goods, and the shorter they are the less; a leftover worth
//! keeping is taken off again.
//!
//! Never here: the amount paid, which is the plan's own sum of prices.

use crate::cutting::nanometre::down;
use crate::cutting::place::layout::{CutLength, Layout};
use crate::cutting::task::demand::Measures;
use crate::cutting::task::manner::CuttingManner;
use crate::cutting::task::source::{Origin, Source};
use crate::quantity::number;

/// Value of a leftover of a new length, as a share of its cost. Our own choice.
const LEFT_OF_NEW: f64 = 0.6;
/// Value of a leftover of a shelf length, as a share of its cost: slightly below 1, so that no more lengths are cut
/// than need be.
const LEFT_OF_SHELF: f64 = 0.98;
/// What a shelf length with a price of its own counts for, as a share of that: at the same price the shelf comes first.
const PRICED_SHELF: f64 = 0.9999;
/// What the shortest unpriced length of the shelf counts for, as a share of the longest one, by length: well below 1, so
/// that the shortest that serves is cut first.
const SHORTEST_OF_SHELF: f64 = 0.5;

/// The costs of each source.
#[derive(Debug)]
pub(in crate::cutting) struct CostModel {
    of: Vec<Counts>,
    /// The shortest leftover of each worth keeping, in nanometres.
    kept_from: Vec<Option<i64>>,
}

/// The costs of one source.
#[derive(Clone, Copy, Debug)]
pub(in crate::cutting) struct Counts {
    /// A whole length; not used for a length cut off as needed.
    pub(in crate::cutting) whole: f64,
    /// One nanometre cut off as needed.
    pub(in crate::cutting) used: f64,
    /// One nanometre of a leftover that is kept.
    pub(in crate::cutting) kept: f64,
}

impl CostModel {
    /// The costs of these sources in this manner.
    pub(in crate::cutting) fn of(sources: &[Source], measures: Measures, manner: &CuttingManner) -> Self {
        let price = |source: &Source| {
            let share = if source.is_on_shelf() { PRICED_SHELF } else { 1.0 };
            source.price.map(|price| price.steps() * share)
        };
        let by_length = |source: &Source| {
            let price = price(source).filter(|price| *price > 0.0 && !source.as_needed)?;
            Some(price / number::from_whole(source.length))
        };
        // Unpriced lengths count as the dearest priced one, by length; without any price, length itself counts.
        let dearest = sources.iter().filter_map(by_length).reduce(f64::max).unwrap_or(1.0);
        let width = number::from_whole(measures.width);
        // How far up a shelf length stands among the unpriced ones, sorted by size.
        let size = |source: &Source| i128::from(source.length) * i128::from(source.width);
        let is_unpriced = |source: &&Source| source.is_on_shelf() && source.price.is_none();
        let mut sizes: Vec<i128> = sources.iter().filter(is_unpriced).map(size).collect();
        sizes.sort_unstable();
        sizes.dedup();
        let rank = |source: &Source| {
            let shorter = number::from_count(sizes.partition_point(|other| *other < size(source)));
            let longest = number::from_count(sizes.len().saturating_sub(1)).max(1.0);
            SHORTEST_OF_SHELF + (1.0 - SHORTEST_OF_SHELF) * shorter / longest
        };
        let counts = |source: &Source| {
            let shelf = matches!(source.origin, Origin::Shelf(_));
            let cost_share = manner.shelf_cost_share.clamp(0.0, 1.0);
            let share = if shelf && source.price.is_none() { cost_share * rank(source) } else { 1.0 };
            let unpriced = dearest * share * number::from_whole(source.width) / width;
            let each = by_length(source).unwrap_or(unpriced);
            // A length opened by pinned cuts is in use already, so it costs nothing more.
            let own = if source.opened_at > 0 { Some(0.0) } else { price(source) };
            let own = own.filter(|_| !source.as_needed);
            Counts {
                whole: own.unwrap_or(each * number::from_whole(source.length)),
                used: each,
                kept: each * if shelf { LEFT_OF_SHELF } else { LEFT_OF_NEW },
            }
        };
        let keep_from = manner.keep_from.and_then(|length| down(length.steps())).map(|length| length.max(1));
        // What is paid for and stays on the shelf is no waste, however short: it must not make a longer length look
        // cheaper.
        let kept_from = |source: &Source| if is_unpriced(&source) { Some(1) } else { keep_from };
        Self { of: sources.iter().map(counts).collect(), kept_from: sources.iter().map(kept_from).collect() }
    }

    /// The costs of a source.
    pub(in crate::cutting) fn counts(&self, source: usize) -> Option<Counts> {
        self.of.get(source).copied()
    }

    /// The shortest leftover of a source worth keeping; `None` if none is.
    pub(in crate::cutting) fn kept_from(&self, source: usize) -> Option<i64> {
        self.kept_from.get(source).copied().flatten()
    }

    /// The cost of one length that is cut.
    fn cost(&self, cut_length: &CutLength, sources: &[Source], loss: i64) -> f64 {
        self.of_length(cut_length.source, cut_length.end, loss, sources)
    }

    /// The cost of one length of a source that is cut up to `end`.
    pub(in crate::cutting) fn of_length(&self, place: usize, end: i64, loss: i64, sources: &[Source]) -> f64 {
        let (Some(source), Some(counts)) = (sources.get(place), self.counts(place)) else {
            return 0.0;
        };
        if source.as_needed {
            return counts.used * number::from_whole(end);
        }
        let rest = source.length - end - loss;
        let kept = self.kept_from(place).is_some_and(|least| rest >= least);
        let whole = counts.whole - if kept { counts.kept * number::from_whole(rest) } else { 0.0 };
        whole.max(0.0)
    }

    /// The cost of a layout.
    pub(in crate::cutting) fn total(&self, layout: &Layout, sources: &[Source], loss: i64) -> f64 {
        layout.cut_lengths.iter().map(|cut_length| self.cost(cut_length, sources, loss)).sum()
    }

    /// The least that any layout of this length can cost: all of it cut from the cheapest lengths, as far as they
    /// reach.
    pub(in crate::cutting) fn least(&self, length: i64, sources: &[Source]) -> f64 {
        let each = |(place, source, counts): (usize, &Source, &Counts)| {
            let least = if source.as_needed { counts.used } else { counts.whole / number::from_whole(source.length) };
            // A kept leftover is taken off at no more than its cost.
            let least = if self.kept_from(place).is_some() { least.min(counts.used) } else { least };
            let most = source.most.filter(|_| !source.as_needed);
            (least, most.map_or(i64::MAX, |most| source.length.saturating_mul(most)))
        };
        let mut cheapest: Vec<(f64, i64)> = sources
            .iter()
            .zip(&self.of)
            .enumerate()
            .map(|(place, (source, counts))| each((place, source, counts)))
            .collect();
        cheapest.sort_by(|one, other| one.0.total_cmp(&other.0));
        let mut left = length;
        let mut least = 0.0;
        for (each, reach) in cheapest {
            let cut = left.min(reach);
            least += each * number::from_whole(cut);
            left -= cut;
        }
        least
    }
}
