//! The cost of a layout in one measure: by the prices of the lengths it uses, or by their length if none has a price.
//! Shelf lengths without a price count for less than new goods, and a leftover worth keeping is taken off again.
//!
//! Never here: the amount paid, which is the plan's own sum of prices.

use crate::cutting::nanometre::down;
use crate::cutting::place::layout::{CutLength, Layout};
use crate::cutting::task::demand::Measures;
use crate::cutting::task::manner::CuttingManner;
use crate::cutting::task::source::{Origin, Source};
use crate::quantity::{Money, number};

/// Value of a leftover of a new length, as a share of its cost. Our own choice.
const LEFT_OF_NEW: f64 = 0.6;
/// Value of a leftover of a shelf length, as a share of its cost: slightly below 1, so that the shortest of several
/// suitable lengths is cut.
const LEFT_OF_SHELF: f64 = 0.98;

/// The costs of each source.
#[derive(Debug)]
pub(in crate::cutting) struct CostModel {
    of: Vec<Counts>,
    /// The shortest leftover worth keeping, in nanometres.
    keep_from: Option<i64>,
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
        let by_length = |source: &Source| {
            let price = source.price.map(Money::steps).filter(|price| *price > 0.0 && !source.as_needed)?;
            Some(price / number::from_whole(source.length))
        };
        // Unpriced lengths count as the dearest priced one, by length; without any price, length itself counts.
        let dearest = sources.iter().filter_map(by_length).reduce(f64::max).unwrap_or(1.0);
        let width = number::from_whole(measures.width);
        let counts = |source: &Source| {
            let shelf = matches!(source.origin, Origin::Shelf(_));
            let cost_share = manner.shelf_cost_share.clamp(0.0, 1.0);
            let share = if shelf && source.price.is_none() { cost_share } else { 1.0 };
            let unpriced = dearest * share * number::from_whole(source.width) / width;
            let each = by_length(source).unwrap_or(unpriced);
            // A length opened by pinned cuts is in use already, so it costs nothing more.
            let own = if source.opened_at > 0 { Some(0.0) } else { source.price.map(Money::steps) };
            let own = own.filter(|_| !source.as_needed);
            Counts {
                whole: own.unwrap_or(each * number::from_whole(source.length)),
                used: each,
                kept: each * if shelf { LEFT_OF_SHELF } else { LEFT_OF_NEW },
            }
        };
        let keep_from = manner.keep_from.and_then(|length| down(length.steps())).map(|length| length.max(1));
        Self { of: sources.iter().map(counts).collect(), keep_from }
    }

    /// The costs of a source.
    pub(in crate::cutting) fn counts(&self, source: usize) -> Option<Counts> {
        self.of.get(source).copied()
    }

    pub(in crate::cutting) fn keep_from(&self) -> Option<i64> {
        self.keep_from
    }

    /// The cost of one length that is cut.
    fn cost(&self, cut_length: &CutLength, sources: &[Source], loss: i64) -> f64 {
        let place = cut_length.source;
        sources.get(place).map_or(0.0, |source| self.cost_to(place, source, cut_length.end, loss))
    }

    /// The cost of one length of the source at this place, cut as far as `end`.
    pub(in crate::cutting) fn cost_to(&self, place: usize, source: &Source, end: i64, loss: i64) -> f64 {
        let Some(counts) = self.counts(place) else { return 0.0 };
        if source.as_needed {
            return counts.used * number::from_whole(end);
        }
        let rest = source.length - end - loss;
        let kept = self.keep_from.is_some_and(|least| rest >= least);
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
        let each = |(source, counts): (&Source, &Counts)| {
            let least = if source.as_needed { counts.used } else { counts.whole / number::from_whole(source.length) };
            // A kept leftover is taken off at no more than its cost.
            let least = if self.keep_from.is_some() { least.min(counts.used) } else { least };
            let most = source.most.filter(|_| !source.as_needed);
            (least, most.map_or(i64::MAX, |most| source.length.saturating_mul(most)))
        };
        let mut cheapest: Vec<(f64, i64)> = sources.iter().zip(&self.of).map(each).collect();
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
