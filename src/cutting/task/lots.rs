//! Dye lots: the pieces of one garment are cut from one lot, and never from washed and unwashed goods.
//!
//! If one lot of the shelf holds the whole list, all of it comes from there, from the lot that costs least. Otherwise
//! the garments are shared out: the lots of the shelf take as many as they hold, new goods, bought in one lot, take the
//! rest. Only if that fails are lots mixed, and the plan says so. Washed and unwashed goods are not mixed even then:
//! what the wash would take of the one it has taken of the other.
//!
//! Never here: planning the garments of a lot.

use crate::cutting::nanometre::size;
use crate::cutting::place::layout::Layout;
use crate::cutting::plan::PlanNote;
use crate::cutting::task::demand::Group;
use crate::cutting::task::source::Source;
use crate::piece::CutPiece;
use crate::quantity::number;
use std::collections::BTreeMap;

/// The lot of a length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cutting) enum Lot {
    /// Known by its mark.
    Named { mark: String, washed: bool },
    /// On the shelf, of unknown lot.
    Unknown { washed: bool },
    /// Bought for this plan, all in one lot.
    New,
    /// Everything unwashed, from the shelf or bought, if no lot is known.
    Unwashed,
}

impl Lot {
    /// Whether it has goods that are bought.
    pub(in crate::cutting) fn is_bought(&self) -> bool {
        matches!(self, Self::New | Self::Unwashed)
    }

    /// Whether a length is of this lot.
    pub(in crate::cutting) fn holds(&self, source: &Source) -> bool {
        match self {
            Self::New => !source.is_on_shelf(),
            Self::Unwashed => !source.washed,
            Self::Unknown { washed } => source.is_on_shelf() && source.lot.is_none() && source.washed == *washed,
            Self::Named { mark, washed } => source.lot.as_ref() == Some(mark) && source.washed == *washed,
        }
    }
}

/// The lots to cut from, in the order they are tried; empty if no length has a known lot and none is washed.
pub(in crate::cutting) fn lots(sources: &[Source]) -> Vec<Lot> {
    let mut lots: Vec<Lot> = Vec::new();
    let known = is_any_known(sources);
    if !known && sources.iter().all(|source| !source.washed) {
        return lots;
    }
    for source in sources {
        let washed = source.washed;
        let lot = match (&source.lot, source.is_on_shelf()) {
            _ if !known && !washed => Lot::Unwashed,
            (_, false) => Lot::New,
            (Some(mark), true) => Lot::Named { mark: mark.clone(), washed },
            (None, true) => Lot::Unknown { washed },
        };
        if !lots.contains(&lot) {
            lots.push(lot);
        }
    }
    // New goods last, whatever the order of the list.
    lots.sort_by_key(Lot::is_bought);
    lots
}

fn is_any_known(sources: &[Source]) -> bool {
    sources.iter().any(|source| source.lot.is_some())
}

/// Whether some of the lengths are washed and some are not.
pub(in crate::cutting) fn are_partly_washed(sources: &[Source]) -> bool {
    let washed = sources.iter().filter(|source| source.washed).count();
    washed > 0 && washed < sources.len()
}

/// The notes if new goods are used although the shelf has more: what stays there although it would hold a piece, because
/// it is washed and new goods are not, or, if each garment is cut from `one_lot`, because of its dye lot.
pub(in crate::cutting) fn kept_apart(
    sources: &[Source],
    groups: &[Group<'_>],
    layout: &Layout,
    one_lot: bool,
) -> Vec<PlanNote> {
    let taken = |place: usize| number::from_size(layout.cut_lengths.iter().filter(|one| one.source == place).count());
    let is_bought = |(place, source): (usize, &Source)| !source.is_on_shelf() && taken(place) > 0;
    if !sources.iter().enumerate().any(is_bought) {
        return Vec::new();
    }
    let is_left = |(place, source): &(usize, &Source)| {
        source.is_on_shelf()
            && source.most.is_some_and(|most| taken(*place) < most)
            && groups.iter().any(|group| group.lies_whole_on(source.length, source.width))
    };
    let named = |(_, source): (usize, &Source)| match &source.lot {
        Some(lot) => format!("{} (lot {lot})", source.name),
        None => source.name.clone(),
    };
    let left = |washed: bool| -> Vec<String> {
        sources.iter().enumerate().filter(is_left).filter(|(_, source)| source.washed == washed).map(named).collect()
    };
    let (washed, unwashed) = (left(true), if one_lot && is_any_known(sources) { left(false) } else { Vec::new() });
    let of_lots = (!unwashed.is_empty()).then_some(PlanNote::LotsApart { left: unwashed });
    let of_washing = (!washed.is_empty()).then_some(PlanNote::WashedApart { left: washed });
    of_lots.into_iter().chain(of_washing).collect()
}

/// Whether a length that may be bought holds one of these pieces whole.
pub(in crate::cutting) fn is_held_whole(sources: &[Source], group: &Group<'_>) -> bool {
    sources.iter().filter(|source| !source.is_on_shelf()).any(|source| group.lies_whole_on(source.length, source.width))
}

/// The most garments, and lots of the shelf, that are shared out by trying everything.
const MOST_GARMENTS: usize = 6;
const MOST_LOTS: usize = 3;

/// Shares garments out to the lots so that as little as can be is left for new goods; `None` if those do not hold what
/// is left. `size` is what a garment takes, `holds` whether a lot holds some garments.
pub(in crate::cutting) fn share_out<'l, 'g, E>(
    lots: &'l [Lot],
    garments: &'g [Garment],
    size: &dyn Fn(&Garment) -> i64,
    holds: Holds<'_, 'g, E>,
) -> Result<Option<Vec<Share<'l, 'g>>>, E> {
    let shelf: Vec<&Lot> = lots.iter().filter(|lot| !lot.is_bought()).collect();
    let listed: Vec<&Garment> = garments.iter().collect();
    let mut shares = in_turn(&shelf, &listed, holds)?;
    let alike = garments.iter().zip(garments.iter().skip(1)).all(|(one, next)| one.is_like(next));
    if !alike && !shares.1.is_empty() {
        let mut largest_first = listed.clone();
        largest_first.sort_by_key(|garment| std::cmp::Reverse(size(garment)));
        let left = |shares: &Shares<'_, '_>| -> i64 { shares.1.iter().map(|garment| size(garment)).sum() };
        let others = [in_turn(&shelf, &largest_first, holds)?];
        let tried = if garments.len() <= MOST_GARMENTS && shelf.len() <= MOST_LOTS {
            Some(by_trying(&shelf, &listed, size, holds)?)
        } else {
            None
        };
        for other in others.into_iter().chain(tried) {
            if left(&other) < left(&shares) {
                shares = other;
            }
        }
    }
    let (mut shares, left) = shares;
    if left.is_empty() {
        return Ok(Some(shares));
    }
    match lots.iter().find(|lot| lot.is_bought()) {
        Some(new) if holds(new, &left)? => shares.push((new, left)),
        _ => return Ok(None),
    }
    Ok(Some(shares))
}

/// Some garments on a lot.
pub(in crate::cutting) type Share<'l, 'g> = (&'l Lot, Vec<&'g Garment>);

/// Whether a lot holds some garments.
type Holds<'h, 'g, E> = &'h mut dyn FnMut(&Lot, &[&'g Garment]) -> Result<bool, E>;

/// Shares, and the garments that are left.
type Shares<'l, 'g> = (Vec<Share<'l, 'g>>, Vec<&'g Garment>);

/// Gives each lot in turn as many garments as it holds: the first ones of the list, then any other that still fits.
fn in_turn<'l, 'g, E>(
    shelf: &[&'l Lot],
    garments: &[&'g Garment],
    holds: Holds<'_, 'g, E>,
) -> Result<Shares<'l, 'g>, E> {
    let mut rest = garments.to_vec();
    let mut shares = Vec::new();
    for lot in shelf {
        let (mut most, mut beyond) = (0, rest.len() + 1);
        while most + 1 < beyond {
            let middle = most.midpoint(beyond);
            if holds(lot, rest.get(..middle).unwrap_or(&rest))? {
                most = middle;
            } else {
                beyond = middle;
            }
        }
        let others = rest.split_off(most);
        let mut share = std::mem::take(&mut rest);
        let mut failed: Option<&Garment> = None;
        for garment in others {
            let is_like_failed = failed.is_some_and(|failed| failed.is_like(garment));
            share.push(garment);
            if is_like_failed || !holds(lot, &share)? {
                share.pop();
                rest.push(garment);
                failed = Some(garment);
            }
        }
        if !share.is_empty() {
            shares.push((*lot, share));
        }
    }
    Ok((shares, rest))
}

/// Tries every garment on every lot.
fn by_trying<'l, 'g, E>(
    shelf: &[&'l Lot],
    garments: &[&'g Garment],
    size: &dyn Fn(&Garment) -> i64,
    holds: Holds<'_, 'g, E>,
) -> Result<Shares<'l, 'g>, E> {
    let sets = 1_usize << garments.len();
    let some = |set: usize| -> Vec<&'g Garment> {
        let chosen = garments.iter().enumerate().filter(|(place, _)| set & (1 << place) != 0);
        chosen.map(|(_, garment)| *garment).collect()
    };
    let sizes: Vec<i64> = (0..sets).map(|set| some(set).into_iter().map(size).sum()).collect();
    // For each set of garments, which lots hold it together: what each of them holds.
    let mut reached: BTreeMap<usize, Vec<usize>> = BTreeMap::from([(0, Vec::new())]);
    for lot in shelf {
        let mut held = vec![0];
        for set in 1..sets {
            if holds(lot, &some(set))? {
                held.push(set);
            }
        }
        let mut next: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (before, shares) in &reached {
            for set in held.iter().filter(|set| **set & before == 0) {
                next.entry(before | set).or_insert_with(|| shares.iter().copied().chain([*set]).collect());
            }
        }
        reached = next;
    }
    let most = reached.into_iter().max_by_key(|(set, _)| sizes.get(*set).copied().unwrap_or(0));
    let (covered, shares) = most.unwrap_or_default();
    let shares = shelf.iter().zip(shares).filter(|(_, set)| *set > 0).map(|(lot, set)| (*lot, some(set))).collect();
    Ok((shares, some(sets - 1 - covered)))
}

/// The numbers of one garment's pieces, by entry.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(in crate::cutting) struct Garment(BTreeMap<usize, Vec<i64>>);

impl Garment {
    /// The numbers of its pieces of an entry.
    pub(in crate::cutting) fn numbers(&self, entry: usize) -> Vec<i64> {
        self.0.get(&entry).cloned().unwrap_or_default()
    }

    /// How many pieces it has.
    pub(in crate::cutting) fn pieces(&self) -> usize {
        self.0.values().map(Vec::len).sum()
    }

    /// Whether it has as many pieces of each entry as another.
    fn is_like(&self, other: &Self) -> bool {
        let sizes = |garment: &Self| -> Vec<(usize, usize)> {
            garment.0.iter().map(|(entry, numbers)| (*entry, numbers.len())).collect()
        };
        sizes(self) == sizes(other)
    }
}

/// The pieces of each garment, by entry: order by order, garment by garment. Pieces that are not counted by the garment
/// go with the first one of their order.
pub(in crate::cutting) fn garments(pieces: &[CutPiece], open: &dyn Fn(usize) -> Vec<i64>) -> Vec<Garment> {
    let mut garments: Vec<Garment> = Vec::new();
    // The orders as they are listed, each with its entries.
    let mut places: BTreeMap<Option<&str>, usize> = BTreeMap::new();
    let mut orders: Vec<Vec<(usize, &CutPiece)>> = Vec::new();
    for (entry, piece) in pieces.iter().enumerate() {
        let place = *places.entry(piece.order.as_deref()).or_insert(orders.len());
        orders.resize_with(orders.len().max(place + 1), Vec::new);
        if let Some(order) = orders.get_mut(place) {
            order.push((entry, piece));
        }
    }
    for order in orders {
        let first = garments.len();
        for (entry, piece) in order {
            for number in open(entry) {
                let garment = match piece.per_garment {
                    Some(each) if each > 0 => size((number - 1) / each),
                    _ => 0,
                };
                while garments.len() <= first + garment {
                    garments.push(Garment::default());
                }
                if let Some(garment) = garments.get_mut(first + garment) {
                    garment.0.entry(entry).or_default().push(number);
                }
            }
        }
    }
    garments.retain(|garment| !garment.0.is_empty());
    garments
}

/// All pieces of some garments.
pub(in crate::cutting) fn together(garments: &[&Garment]) -> Garment {
    let mut all = Garment::default();
    for (entry, numbers) in garments.iter().flat_map(|garment| &garment.0) {
        all.0.entry(*entry).or_default().extend(numbers);
    }
    all
}
