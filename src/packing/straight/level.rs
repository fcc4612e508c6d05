//! Rows by a greedy rule, for any number of pieces and kinds: the longest piece left opens a row, the others follow
//! beside it while there is width, each stacked as often as the row is long; equal rows are made in one go.
//!
//! It is instant, handles problems too large for any search, and gives every search its first plan.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::plan::{Band, Pile, Plan, Stack};
use super::prepared::{Prepared, Shape, apart};
use crate::problem::Starts;

/// The most kinds tried for one row.
const TRIES: usize = 200;

/// The better of two rules for orientation: as short as possible, or as narrow as possible.
pub(super) fn best(prepared: &Prepared) -> Plan {
    let short = |shape: &Shape| (shape.along, shape.across);
    let narrow = |shape: &Shape| (shape.across, shape.along);
    let first = build(prepared, &chosen(prepared, short));
    if prepared.shapes.len() == prepared.items.len() {
        return first;
    }
    let second = build(prepared, &chosen(prepared, narrow));
    if second.measure(prepared) < first.measure(prepared) { second } else { first }
}

/// One shape for every kind to place, then all other shapes, long ones first: a kind that no longer fits in its
/// preferred orientation may then use the other.
fn chosen(prepared: &Prepared, key: impl Fn(&Shape) -> (i64, i64)) -> Vec<usize> {
    let mut first = Vec::new();
    let mut others = Vec::new();
    for item in prepared.items.iter().filter(|item| item.count > 0) {
        let mut shapes = item.shapes.clone();
        shapes.sort_by_key(|&shape| key(&prepared.shapes[shape]));
        first.extend(shapes.first().copied());
        others.extend(shapes.get(1).copied());
    }
    let long = |shape: &usize| (-prepared.shapes[*shape].along, -prepared.shapes[*shape].across, *shape);
    first.sort_by_key(long);
    others.sort_by_key(long);
    first.extend(others);
    first
}

/// Rows of the shapes in their order, stretch by stretch.
fn build(prepared: &Prepared, shapes: &[usize]) -> Plan {
    let mut left = prepared.counts();
    let mut bands = Vec::new();
    for (stretch, length) in prepared.stretches.iter().enumerate() {
        let mut from = 0;
        let mut open = shapes;
        loop {
            let opener = open.iter().position(|&shape| {
                let shape = &prepared.shapes[shape];
                left[shape.item] > 0 && shape.across <= length.width && {
                    let at = Starts::next_of(prepared.items[shape.item].starts, from);
                    length.length.is_none_or(|end| at + shape.along <= end)
                }
            });
            let Some(opener) = opener else { break };
            // What does not fit now does not fit further on either.
            open = &open[opener..];
            let mut band = row(prepared, stretch, open, &mut left);
            let times = times(prepared, &band, from, length.length, &left);
            band.each(prepared, |item, count| left[item] -= count * (times - 1));
            band.times = times;
            from = band.last_end(prepared, from);
            bands.push(band);
        }
    }
    Plan { bands, missing: left }
}

/// How often a row can be cut, by pieces and by length. One of them is already taken from `left`.
pub(super) fn times(prepared: &Prepared, band: &Band, from: i64, length: Option<i64>, left: &[i64]) -> i64 {
    let mut used = std::collections::BTreeMap::new();
    band.each(prepared, |item, count| *used.entry(item).or_insert(0i64) += count);
    let more = used.iter().map(|(&item, &count)| left[item] / count).min().unwrap_or_default();
    match length {
        None => more + 1,
        Some(length) if !band.is_marked => (1 + more).min((length - from) / band.along.max(1)).max(1),
        Some(length) => {
            let (mut times, mut at) = (0, from);
            while times <= more {
                at = band.end(prepared, at);
                if at > length {
                    break;
                }
                times += 1;
            }
            times.max(1)
        }
    }
}

/// One row, opened by the first shape; its pieces are taken from `left`.
fn row(prepared: &Prepared, stretch: usize, shapes: &[usize], left: &mut [i64]) -> Band {
    let opener = &prepared.shapes[shapes[0]];
    let (long, starts) = (opener.along, prepared.items[opener.item].starts);
    let mut free_width = prepared.stretches[stretch].width;
    let mut stacks = Vec::new();
    let mut has_edge = false;
    let mut tries = 0;
    for &at in shapes {
        let shape = &prepared.shapes[at];
        let item = &prepared.items[shape.item];
        if left[shape.item] == 0 {
            continue;
        }
        tries += 1;
        if tries > TRIES {
            break;
        }
        let fits = shape.along <= long && shape.across <= free_width;
        if !fits || (item.starts.is_some() && item.starts != starts) || (item.at_edge && has_edge) {
            continue;
        }
        let high = 1 + (long - shape.along) / apart(item.starts, shape.along);
        let most = if item.at_edge { 1 } else { free_width / shape.across };
        has_edge |= item.at_edge;
        let whole = most.min(left[shape.item] / high);
        for (piled, times) in [(high, whole), (left[shape.item] - whole * high, i64::from(whole < most))] {
            let piled = piled.min(high);
            if piled > 0 && times > 0 {
                stacks.push(Stack { width: shape.across, piles: vec![Pile { shape: at, times: piled }], times });
                left[shape.item] -= piled * times;
                free_width -= shape.across * times;
            }
        }
    }
    Band::new(prepared, stretch, stacks, 1)
}

#[cfg(test)]
mod tests;
