//! Whether the cuts of an earlier plan are still where they were.
//!
//! Never here: keeping them there, which is the planner's work.

use crate::cutting::{CuttingPlan, PinnedCut};

/// The cuts of an earlier plan that are not where they were.
pub(crate) fn moved<'p>(plan: &CuttingPlan, pinned: &'p [PinnedCut]) -> Vec<&'p PinnedCut> {
    let mut places: Vec<_> =
        plan.uses.iter().flat_map(|stock| stock.cuts.iter().map(move |cut| (stock.stock.as_str(), cut))).collect();
    places.sort_by(|(stock, cut), (other, next)| {
        (stock, &cut.piece).cmp(&(other, &next.piece)).then(cut.from.steps().total_cmp(&next.from.steps()))
    });
    let is_there = |pin: &&PinnedCut| {
        let first = places.partition_point(|(stock, cut)| {
            (*stock, &*cut.piece).cmp(&(pin.stock.as_str(), pin.piece.as_str())).is_lt()
        });
        let candidates = places.get(first..).unwrap_or_default().iter();
        candidates.take_while(|(stock, cut)| *stock == pin.stock && *cut.piece == *pin.piece).any(|(_, cut)| {
            cut.from == pin.from
                && cut.to == pin.to
                && cut.across_from == pin.across_from
                && cut.across_to == pin.across_to
                && cut.order.as_deref() == pin.order.as_deref()
        })
    };
    pinned.iter().filter(|pin| !is_there(pin)).collect()
}
