//! Checks that pinned cuts stay where the earlier plan had them, if they still can.
//!
//! Never here: whether a cut is right in itself.

use super::overlap::Patch;
use super::place::{lies_right, patch};
use super::{Errors, PlanError, Rules, Within};
use crate::cutting::plan::{Cut, CuttingPlan, PlanNote};
use crate::cutting::task::manner::{CuttingTask, PinnedCut};
use crate::piece::CutPiece;
use crate::piece::Layers;
use crate::piece::Supply;
use crate::quantity::Length;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

pub(super) fn check(plan: &CuttingPlan, task: &CuttingTask<'_>, rules: Rules, errors: &mut Errors) {
    if task.manner.pinned.is_empty() {
        return;
    }
    let dropped: BTreeSet<&str> = plan
        .notes
        .iter()
        .filter_map(|note| match note {
            PlanNote::PinDropped { piece } => Some(piece.as_str()),
            _ => None,
        })
        .collect();
    let mut cuts: BTreeMap<(&str, &str, i64), Vec<&Cut>> = BTreeMap::new();
    for used in &plan.uses {
        for cut in &used.cuts {
            cuts.entry((&used.stock, &cut.piece, super::exact_or_zero(cut.from))).or_default().push(cut);
        }
    }
    for pin in task.manner.pinned.iter().filter(|pin| !dropped.contains(pin.piece.as_str())) {
        let Some(place) = patch(pin.from, pin.to, pin.across_from, pin.across_to) else { continue };
        let candidates = cuts.get(&(pin.stock.as_str(), pin.piece.as_str(), place.from));
        let kept = candidates.is_some_and(|cuts| cuts.iter().any(|cut| is_kept(pin, place, cut)));
        if !kept && can_stay(pin, place, task, rules) {
            errors.add(PlanError::NotKept { piece: pin.piece.clone(), stock: pin.stock.clone() });
        }
    }
}

/// Whether a cut of the pinned piece, on the pinned length, is the pinned one.
fn is_kept(pin: &PinnedCut, place: Patch, cut: &Cut) -> bool {
    let marks = |patch: Patch| [patch.from, patch.to, patch.across_from, patch.across_to];
    patch(cut.from, cut.to, cut.across_from, cut.across_to).map(marks) == Some(marks(place))
        && cut.order.as_deref() == pin.order.as_deref()
        && cut.lie == pin.lie
        && cut.reversed == pin.reversed
        && cut.mirrored == pin.mirrored
        && cut.through == pin.through
}

/// Whether its piece, its length and its size still exist. A pin that has become impossible need not stay.
fn can_stay(pin: &PinnedCut, place: Patch, task: &CuttingTask<'_>, rules: Rules) -> bool {
    let layers = rules.folded || pin.through == Layers::One;
    let named = task.pieces.iter().enumerate().filter(|(_, piece)| {
        piece.name == pin.piece && piece.order == pin.order && piece.count > 0 && (piece.mirrored || !pin.mirrored)
    });
    layers
        && is_on_a_length(pin, place, task, rules)
        && named.into_iter().any(|(entry, piece)| fits(pin, place, entry, piece, task, rules))
}

fn fits(pin: &PinnedCut, place: Patch, entry: usize, piece: &CutPiece, task: &CuttingTask<'_>, rules: Rules) -> bool {
    let cut = Cut {
        entry,
        number: 1,
        piece: Arc::from(piece.name.as_str()),
        order: piece.order.as_deref().map(Arc::from),
        from: pin.from,
        to: pin.to,
        across_from: pin.across_from,
        across_to: pin.across_to,
        lie: pin.lie,
        through: pin.through,
        reversed: pin.reversed,
        mirrored: pin.mirrored,
        part: None,
    };
    let mut errors = Errors::default();
    lies_right(&cut, place, piece, task, rules, &mut errors);
    errors.found.is_empty()
}

/// Whether there is still a length of that name with room between these marks.
fn is_on_a_length(pin: &PinnedCut, place: Patch, task: &CuttingTask<'_>, rules: Rules) -> bool {
    let has_room = |along: Option<Length>, across: Option<Length>| {
        let within = |end: i64, limit: Option<Length>, off: i64| {
            limit.is_none_or(|limit| Within::of(limit.steps()).is_some_and(|limit| end <= limit.most - off))
        };
        place.from >= 0
            && place.across_from >= 0
            && place.across_to <= rules.width.most
            && within(place.to, along, 2 * rules.squaring.least)
            && within(place.across_to, across, 0)
    };
    let shelf = task
        .stock
        .iter()
        .any(|shelf| shelf.name == pin.stock && shelf.count > 0 && has_room(Some(shelf.along), shelf.across));
    let new = || match task.supply {
        Supply::ShelfOnly => false,
        Supply::Endless => {
            is_new(&pin.stock, task.goods.new_length_name(), task.goods.put_up.is_some().then_some(i64::MAX))
                && has_room(task.goods.put_up, None)
        }
        Supply::Offered(offers) => offers.iter().any(|offer| {
            let numbered = offer.along.map(|_| offer.most.unwrap_or(i64::MAX));
            is_new(&pin.stock, &offer.name, numbered) && has_room(offer.along, offer.across)
        }),
    };
    shelf || new()
}

/// Whether a length has the name of a new one: "new roll 2", without the number if there can be only one.
fn is_new(stock: &str, name: &str, numbered: Option<i64>) -> bool {
    let Some(rest) = stock.strip_prefix("new ").and_then(|rest| rest.strip_prefix(name)) else { return false };
    match numbered {
        None => rest.is_empty(),
        Some(most) => rest
            .strip_prefix(' ')
            .and_then(|number| number.parse::<i64>().ok())
            .is_some_and(|number| (1..=most).contains(&number)),
    }
}
