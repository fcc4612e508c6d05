//! From what the planner has laid to a cutting plan with names, marks, leftovers and totals.
//!
//! Never here: deciding where anything goes.

use super::demand::{Group, likes};
use super::lay::{Lay, Placed, Taken};
use super::nanometre::length;
use super::piece::{CutPiece, CutShape, Grain};
use super::plan::{Aim, Bought, Cut, CuttingPlan, Merit, Offcut, PlanNote, StockSource, StockUse, Through};
use super::source::{Origin, Source};
use crate::quantity::{Liked, number};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The plan of what was laid.
pub(super) fn assemble(lay: &Lay<'_>, pieces: &[CutPiece], groups: &[Group<'_>], lower_bound: i64) -> CuttingPlan {
    let names: Vec<Names> = pieces.iter().map(Names::of).collect();
    let first_likes = pieces.first().map_or_else(Liked::default, likes);
    let mut uses = Vec::with_capacity(lay.taken.len());
    let mut bought = Vec::new();
    let mut laid = 0;
    for source in &lay.sources {
        for (number, taken) in (1..).zip(taken_of(lay, source)) {
            laid += taken.end;
            uses.push(stock_use(lay, source, number, taken, pieces, &names));
        }
        bought.extend(bought_from(lay, source, first_likes));
    }
    let total_likes = lay.sources.iter().find_map(|source| source.liked).unwrap_or(first_likes);
    let mut counts = BTreeMap::new();
    let mut joins = BTreeMap::new();
    for (piece, joined) in pieces.iter().zip(&lay.joins) {
        *counts.entry(piece.name.clone()).or_default() += piece.count;
        if *joined > 0 {
            *joins.entry(piece.name.clone()).or_default() += joined;
        }
    }
    let notes = notes(pieces, groups, &uses);
    let share = number::from_whole(lower_bound) / number::from_whole(laid.max(1));
    let best_possible = if laid == 0 { 1.0 } else { share.min(1.0) };
    CuttingPlan {
        uses,
        bought,
        length_used: length(laid, total_likes),
        lower_bound: length(lower_bound, total_likes),
        merit: Merit { aim: Aim::Length, best_possible, proved: laid <= lower_bound, stopped: false },
        cost: None,
        pieces: counts,
        joins,
        notes,
    }
}

/// An entry's names, shared by all its cuts.
struct Names {
    piece: Arc<str>,
    order: Option<Arc<str>>,
}

impl Names {
    fn of(piece: &CutPiece) -> Self {
        Self { piece: Arc::from(piece.name.as_str()), order: piece.order.as_deref().map(Arc::from) }
    }
}

fn taken_of<'a>(lay: &'a Lay<'_>, source: &'a Source) -> impl Iterator<Item = &'a Taken> {
    source.taken.iter().filter_map(|place| lay.taken.get(*place))
}

fn stock_use(
    lay: &Lay<'_>,
    source: &Source,
    number: i64,
    taken: &Taken,
    pieces: &[CutPiece],
    names: &[Names],
) -> StockUse {
    let own_likes = taken.placed.iter().find_map(|placed| pieces.get(placed.entry)).map_or_else(Liked::default, likes);
    let stock_likes = source.liked.unwrap_or(own_likes);
    let whole = if source.as_needed { taken.end } else { source.length };
    let mut placed: Vec<&Placed> = taken.placed.iter().collect();
    placed.sort_by_key(|placed| (placed.from, placed.across_from));
    let cuts =
        placed.into_iter().filter_map(|placed| Some(cut(placed, pieces.get(placed.entry)?, names.get(placed.entry)?)));
    let rows = taken.rows.iter().filter_map(|row| lay.rows.get(*row)).filter(|row| row.across < row.width);
    StockUse {
        source: source.origin.nth(number),
        stock: source.label(number),
        lot: source.lot.clone(),
        length: length(whole, stock_likes),
        width: length(source.width, lay.width_likes),
        folded: false,
        cuts: cuts.collect(),
        used: length(taken.end, stock_likes),
        left_over: length((whole - taken.end - lay.loss).max(0), stock_likes),
        offcuts: rows
            .map(|row| Offcut {
                from: length(row.from, own_likes),
                to: length(row.from + row.along, own_likes),
                across_from: length(row.across, own_likes),
                across_to: length(row.width, own_likes),
            })
            .collect(),
    }
}

fn cut(placed: &Placed, piece: &CutPiece, names: &Names) -> Cut {
    let likes = likes(piece);
    Cut {
        entry: placed.entry,
        number: placed.number,
        piece: Arc::clone(&names.piece),
        order: names.order.clone(),
        from: length(placed.from, likes),
        to: length(placed.from + placed.extent.along, likes),
        across_from: length(placed.across_from, likes),
        across_to: length(placed.across_from + placed.extent.across, likes),
        lie: placed.lie,
        through: Through::One,
        reversed: false,
        mirrored: piece.mirrored && placed.number % 2 == 0,
        part: placed.part,
    }
}

fn bought_from(lay: &Lay<'_>, source: &Source, first_likes: Liked) -> Option<Bought> {
    let Origin::Offer(offer) = source.origin else { return None };
    let last = taken_of(lay, source).last()?;
    Some(Bought {
        offer,
        name: source.name.clone(),
        count: number::from_size(source.taken.len()),
        length: length(if source.as_needed { last.end } else { source.length }, source.liked.unwrap_or(first_likes)),
        price: source.price,
    })
}

fn notes(pieces: &[CutPiece], groups: &[Group<'_>], uses: &[StockUse]) -> Vec<PlanNote> {
    let mut notes = Vec::new();
    let mut said = BTreeSet::new();
    let mut say = |note: PlanNote| {
        if said.insert(note.clone()) {
            notes.push(note);
        }
    };
    for piece in pieces.iter().filter(|piece| piece.count > 0) {
        let straight = matches!(piece.shape, CutShape::Rectangle { .. } | CutShape::FullWidth { .. });
        if !straight || piece.grain == Grain::Bias {
            say(PlanNote::RectangleRound { piece: piece.name.clone() });
        }
        if piece.on_fold.is_some() {
            say(PlanNote::PlacedOpen { piece: piece.name.clone() });
        }
    }
    for group in groups.iter().filter(|group| group.start.is_on_pattern()) {
        say(PlanNote::MarksFromPattern);
        if !group.full_width {
            say(PlanNote::MatchedAlongOnly { piece: group.piece.name.clone() });
        }
    }
    for (entry, lots) in lots(uses) {
        if let Some(piece) = pieces.get(entry).filter(|_| lots.len() > 1) {
            say(PlanNote::LotsMixed { piece: piece.name.clone(), lots: lots.into_iter().collect() });
        }
    }
    notes
}

/// The lots that each entry comes from; nothing where no lot is known at all.
fn lots(uses: &[StockUse]) -> BTreeMap<usize, BTreeSet<String>> {
    let mut lots: BTreeMap<usize, BTreeSet<String>> = BTreeMap::new();
    if uses.iter().all(|stock| stock.lot.is_none()) {
        return lots;
    }
    for stock in uses {
        let lot = match (&stock.lot, stock.source) {
            (Some(lot), _) => lot,
            (None, StockSource::New { .. }) => "newly bought",
            (None, StockSource::Shelf { .. }) => "not known",
        };
        for cut in &stock.cuts {
            let known = lots.entry(cut.entry).or_default();
            if !known.contains(lot) {
                known.insert(lot.to_owned());
            }
        }
    }
    lots
}
