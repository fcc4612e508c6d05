//! Dye lots: the pieces of one garment are cut from one lot.
//!
//! If one lot of the shelf holds the whole list, all of it comes from there, from the lot that costs least. Otherwise
//! the garments are shared out: each lot takes as many as it holds, new goods, bought in one lot, take the rest. Only
//! if that fails are lots mixed, and the plan says so.
//!
//! Never here: planning the garments of a lot.

use crate::cutting::nanometre::size;
use crate::cutting::place::layout::Layout;
use crate::cutting::task::demand::Group;
use crate::cutting::task::source::Source;
use crate::piece::CutPiece;
use crate::quantity::number;
use std::collections::{BTreeMap, BTreeSet};

/// The lot of a length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cutting) enum Lot {
    /// Known by its mark.
    Named(String),
    /// On the shelf, of unknown lot.
    Unknown,
    /// Bought for this plan, all in one lot.
    New,
}

/// The lots to cut from, in the order they are tried; empty if no length has a known lot.
pub(in crate::cutting) fn lots(sources: &[Source]) -> Vec<Lot> {
    let mut lots: Vec<Lot> = Vec::new();
    if sources.iter().all(|source| source.lot.is_none()) {
        return lots;
    }
    for source in sources {
        let lot = lot_of(source);
        if !lots.contains(&lot) {
            lots.push(lot);
        }
    }
    // New goods last, whatever the order of the list.
    lots.sort_by_key(|lot| *lot == Lot::New);
    lots
}

/// Whether new goods are used only to keep lots apart: the shelf has more that would hold a piece.
pub(in crate::cutting) fn are_kept_apart(sources: &[Source], groups: &[Group<'_>], layout: &Layout) -> bool {
    let holds = |source: &Source| {
        let extents = groups.iter().flat_map(|group| &group.choices).map(|(_, extent)| extent);
        extents.into_iter().any(|extent| extent.along <= source.length && extent.across <= source.width)
    };
    let taken = |place: usize| number::from_size(layout.cut_lengths.iter().filter(|one| one.source == place).count());
    let mut shelf = sources.iter().enumerate().filter(|(_, source)| source.is_on_shelf());
    let mut new = sources.iter().enumerate().filter(|(_, source)| !source.is_on_shelf());
    !lots(sources).is_empty()
        && new.any(|(place, _)| taken(place) > 0)
        && shelf.any(|(place, source)| holds(source) && source.most.is_some_and(|most| taken(place) < most))
}

pub(in crate::cutting) fn lot_of(source: &Source) -> Lot {
    match (&source.lot, source.is_on_shelf()) {
        (_, false) => Lot::New,
        (Some(lot), true) => Lot::Named(lot.clone()),
        (None, true) => Lot::Unknown,
    }
}

/// The pieces of each garment, by entry: order by order, garment by garment. Pieces that are not counted by the garment
/// go with the first one of their order.
pub(in crate::cutting) fn garments(
    pieces: &[CutPiece],
    open: &dyn Fn(usize) -> Vec<i64>,
) -> Vec<BTreeMap<usize, Vec<i64>>> {
    let mut garments: Vec<BTreeMap<usize, Vec<i64>>> = Vec::new();
    let mut seen: BTreeSet<Option<&str>> = BTreeSet::new();
    for piece in pieces {
        if !seen.insert(piece.order.as_deref()) {
            continue;
        }
        let first = garments.len();
        for (entry, piece) in pieces.iter().enumerate().filter(|(_, other)| other.order == piece.order) {
            for number in open(entry) {
                let garment = match piece.per_garment {
                    Some(each) if each > 0 => size((number - 1) / each),
                    _ => 0,
                };
                while garments.len() <= first + garment {
                    garments.push(BTreeMap::new());
                }
                if let Some(garment) = garments.get_mut(first + garment) {
                    garment.entry(entry).or_default().push(number);
                }
            }
        }
    }
    garments.retain(|garment| !garment.is_empty());
    garments
}

/// Merges the pieces of some garments, by entry.
pub(in crate::cutting) fn together(garments: &[BTreeMap<usize, Vec<i64>>]) -> BTreeMap<usize, Vec<i64>> {
    let mut all: BTreeMap<usize, Vec<i64>> = BTreeMap::new();
    for garment in garments {
        for (entry, numbers) in garment {
            all.entry(*entry).or_default().extend(numbers);
        }
    }
    all
}
