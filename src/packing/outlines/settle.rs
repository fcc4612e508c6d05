//! Turns float positions into whole-unit positions without overlap, exactly, and then moves the pieces closer.

use super::bottom_left::{LOOKS_A_STEP, first_free, taken};
use super::layout::{Lay, Table};
use crate::effort::Steps;

/// The most pushes for each piece.
const PUSHES: usize = 4;
/// The most rounds in which all pieces slide.
const SLIDES: usize = 8;

/// Pushes apart pieces that still overlap by very little; `None` if that fails.
pub(super) fn settled(table: &Table<'_>, mut lays: Vec<Lay>) -> Option<Vec<Lay>> {
    for _ in 0..lays.len() * PUSHES {
        if table.is_right(&lays) {
            return Some(lays);
        }
        let (at, other) = pair(table, &lays)?;
        let moved = pushed(table, &lays, at).or_else(|| pushed(table, &lays, other));
        let (at, lay) = moved?;
        *lays.get_mut(at)? = lay;
    }
    None
}

/// A pair of overlapping pieces.
fn pair(table: &Table<'_>, lays: &[Lay]) -> Option<(usize, usize)> {
    lays.iter().enumerate().find_map(|(at, lay)| {
        let upon = |other: &Lay| table.overlap(other, lay);
        lays.iter().take(at).position(upon).map(|other| (at, other))
    })
}

/// A piece moved to the nearest free position along or across; `None` if that is too far.
fn pushed(table: &Table<'_>, lays: &[Lay], at: usize) -> Option<(usize, Lay)> {
    let lay = *lays.get(at)?;
    let item = table.prepared.items.get(lay.item)?;
    let others: Vec<Lay> = lays.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, lay)| *lay).collect();
    let mut moves: Vec<Lay> = Vec::new();
    let mut spans = Vec::new();
    if item.starts.is_none() {
        taken(table, others.iter(), lay.pose, lay.across, &mut spans);
        moves.extend(nearest(&spans, lay.along, i64::MAX).map(|along| Lay { along, ..lay }));
    }
    if !item.at_edge {
        spans.clear();
        for other in &others {
            if let Some(forbidden) = table.pairs.get(other.pose.outline, lay.pose.outline) {
                forbidden
                    .across(lay.along - other.along, |low, high| spans.push((other.across + low, other.across + high)));
            }
        }
        spans.sort_unstable();
        let highest = table.width - table.size(lay.pose).1;
        moves.extend(nearest(&spans, lay.across, highest).map(|across| Lay { across, ..lay }));
    }
    let far = |moved: &Lay| (moved.along - lay.along).abs() + (moved.across - lay.across).abs();
    let moved = moves.into_iter().min_by_key(far)?;
    // A move of more than a thousandth of the width would make another layout.
    (far(&moved) <= table.width / 1000 + 4).then_some((at, moved))
}

/// The free position nearest to the wanted one.
fn nearest(spans: &[(i64, i64)], wanted: i64, most: i64) -> Option<i64> {
    let mut free = 0;
    let mut best: Option<i64> = None;
    let mut offer = |place: i64| {
        if place <= most && best.is_none_or(|best| (place - wanted).abs() < (best - wanted).abs()) {
            best = Some(place);
        }
    };
    for &(low, high) in spans {
        if low >= free {
            offer(wanted.clamp(free, low.min(most).max(free)));
        }
        free = free.max(high);
    }
    offer(wanted.max(free));
    best
}

/// Slides each piece towards the beginning of the strip as far as it goes, holes included, until none moves or the
/// steps are used up.
pub(super) fn closer(table: &Table<'_>, mut lays: Vec<Lay>, steps: &mut Steps<'_>) -> Vec<Lay> {
    let mut spans = Vec::new();
    for _ in 0..SLIDES {
        lays.sort_by_key(|lay| (lay.along, lay.across));
        let mut moved = false;
        for at in 0..lays.len() {
            let Some(lay) = lays.get(at).copied() else { break };
            let Some(item) = table.prepared.items.get(lay.item) else { break };
            let looks = taken(
                table,
                lays.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, lay)| lay),
                lay.pose,
                lay.across,
                &mut spans,
            );
            if !steps.take(looks / LOOKS_A_STEP) {
                return lays;
            }
            let free = first_free(&spans, lay.along - 1, |along| item.begin(along));
            if let (Some(along), Some(lay)) = (free, lays.get_mut(at)) {
                lay.along = along;
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
    lays
}
