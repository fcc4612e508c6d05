//! Turns float positions into whole-unit positions without overlap, exactly, and then moves the pieces closer.

use super::bottom_left::{LOOKS_A_STEP, first_free, taken};
use super::layout::{PosePlacement, Table};
use crate::effort::Steps;

/// The most pushes for each piece.
const PUSHES: usize = 4;
/// The most rounds in which all pieces slide.
const SLIDES: usize = 8;

/// Pushes apart pieces that still overlap by very little; `None` if that fails.
pub(super) fn settled(table: &Table<'_>, mut placements: Vec<PosePlacement>) -> Option<Vec<PosePlacement>> {
    for _ in 0..placements.len() * PUSHES {
        if table.is_valid(&placements) {
            return Some(placements);
        }
        let (at, other) = pair(table, &placements)?;
        let moved = pushed(table, &placements, at).or_else(|| pushed(table, &placements, other));
        let (at, placement) = moved?;
        *placements.get_mut(at)? = placement;
    }
    None
}

/// A pair of overlapping pieces.
fn pair(table: &Table<'_>, placements: &[PosePlacement]) -> Option<(usize, usize)> {
    placements.iter().enumerate().find_map(|(at, placement)| {
        let overlaps = |other: &PosePlacement| table.overlap(other, placement);
        placements.iter().take(at).position(overlaps).map(|other| (at, other))
    })
}

/// A piece moved to the nearest free position along or across; `None` if that is too far.
fn pushed(table: &Table<'_>, placements: &[PosePlacement], at: usize) -> Option<(usize, PosePlacement)> {
    let placement = *placements.get(at)?;
    let item = table.prepared.items.get(placement.item)?;
    let others: Vec<PosePlacement> =
        placements.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, placement)| *placement).collect();
    let mut moves: Vec<PosePlacement> = Vec::new();
    let mut spans = Vec::new();
    if item.starts.is_none() {
        taken(table, others.iter(), placement.pose, placement.across, &mut spans);
        moves.extend(nearest(&spans, placement.along, i64::MAX).map(|along| PosePlacement { along, ..placement }));
    }
    if !item.at_edge {
        spans.clear();
        for other in &others {
            if let Some(forbidden) = table.pairs.get(other.pose.outline, placement.pose.outline) {
                forbidden.across(placement.along - other.along, |low, high| {
                    spans.push((other.across + low, other.across + high));
                });
            }
        }
        spans.sort_unstable();
        let highest = table.width - table.size(placement.pose).1;
        moves.extend(nearest(&spans, placement.across, highest).map(|across| PosePlacement { across, ..placement }));
    }
    let far = |moved: &PosePlacement| (moved.along - placement.along).abs() + (moved.across - placement.across).abs();
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
            offer(wanted.clamp(free, low));
        }
        free = free.max(high);
    }
    offer(wanted.max(free));
    best
}

/// Slides each piece towards the beginning of the strip as far as it goes, holes included, until none moves or the
/// steps are used up.
pub(super) fn closer(
    table: &Table<'_>,
    mut placements: Vec<PosePlacement>,
    steps: &mut Steps<'_>,
) -> Vec<PosePlacement> {
    let mut spans = Vec::new();
    for _ in 0..SLIDES {
        placements.sort_by_key(|placement| (placement.along, placement.across));
        let mut moved = false;
        for at in 0..placements.len() {
            let Some(placement) = placements.get(at).copied() else { break };
            let Some(item) = table.prepared.items.get(placement.item) else { break };
            let looks = taken(
                table,
                placements.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, placement)| placement),
                placement.pose,
                placement.across,
                &mut spans,
            );
            if !steps.take(looks / LOOKS_A_STEP) {
                return placements;
            }
            let free = first_free(&spans, placement.along - 1, |along| item.begin(along));
            if let (Some(along), Some(placement)) = (free, placements.get_mut(at)) {
                placement.along = along;
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
    placements
}

#[cfg(test)]
mod tests;
