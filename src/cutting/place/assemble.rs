//! Turns a layout into a cutting plan with names, marks, leftovers and totals.
//!
//! Never here: deciding where anything goes.

use crate::cutting::nanometre::{length, likes};
use crate::cutting::place::layout::{CutLength, Layout, Placed};
use crate::cutting::plan::{Bought, Cut, CuttingPlan, Offcut, PlanNote, PlanQuality, StockSource, StockUse};
use crate::cutting::task::demand::Measures;
use crate::cutting::task::manner::CuttingTask;
use crate::cutting::task::source::{Origin, Source};
use crate::piece::{CutPiece, Grain, Shape};
use crate::quantity::{Liked, Money, number};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Builds the plan of a layout on these sources.
pub(in crate::cutting) fn assemble(
    layout: &Layout,
    sources: &[Source],
    task: &CuttingTask<'_>,
    measures: Measures,
    lower_bound: i64,
    quality: PlanQuality,
) -> CuttingPlan {
    let pieces = task.pieces;
    let names: Vec<Names> = pieces.iter().map(Names::of).collect();
    let first_likes = pieces.first().map_or_else(Liked::default, likes);
    let mut uses = Vec::with_capacity(layout.cut_lengths.len());
    let mut bought = Vec::new();
    for (place, source) in sources.iter().enumerate() {
        let cut_lengths: Vec<&CutLength> = layout.cut_lengths.iter().filter(|one| one.source == place).collect();
        for (number, cut_length) in numbered(&cut_lengths) {
            uses.push(stock_use(source, number, cut_length, task, measures, &names));
        }
        bought.extend(bought_from(source, &cut_lengths, pieces, measures, first_likes));
    }
    let total_likes = sources.iter().find_map(|source| source.liked).unwrap_or(first_likes);
    let mut counts = BTreeMap::new();
    for piece in pieces {
        *counts.entry(piece.name.clone()).or_default() += piece.count;
    }
    let mut joins = BTreeMap::new();
    for placed in layout.cut_lengths.iter().flat_map(|cut_length| &cut_length.placed) {
        if let Some(piece) = pieces.get(placed.entry).filter(|_| placed.part.is_some_and(|part| part.number > 1)) {
            *joins.entry(piece.name.clone()).or_default() += 1;
        }
    }
    let notes = notes(task, measures, layout, &uses);
    CuttingPlan {
        cost: cost(layout, sources),
        uses,
        bought,
        length_used: length(layout.laid(), total_likes),
        lower_bound: length(lower_bound, total_likes),
        quality,
        pieces: counts,
        joins,
        notes,
    }
}

/// Numbers the lengths of a source: settled ones keep their number, the others take the free numbers in order.
fn numbered<'a>(cut_lengths: &[&'a CutLength]) -> Vec<(i64, &'a CutLength)> {
    let settled: BTreeSet<i64> = cut_lengths.iter().filter_map(|cut_length| cut_length.number).collect();
    let mut free = (1..).filter(|number| !settled.contains(number));
    let mut numbered: Vec<(i64, &CutLength)> = cut_lengths
        .iter()
        .filter_map(|cut_length| Some((cut_length.number.or_else(|| free.next())?, *cut_length)))
        .collect();
    numbered.sort_by_key(|(number, _)| *number);
    numbered
}

/// Total price of the lengths used; `None` if one of them has no price.
fn cost(layout: &Layout, sources: &[Source]) -> Option<Money> {
    layout.cut_lengths.iter().map(|cut_length| sources.get(cut_length.source)?.price).sum()
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

fn stock_use(
    source: &Source,
    number: i64,
    cut_length: &CutLength,
    task: &CuttingTask<'_>,
    measures: Measures,
    names: &[Names],
) -> StockUse {
    let pieces = task.pieces;
    let own_likes =
        cut_length.placed.iter().find_map(|placed| pieces.get(placed.entry)).map_or_else(Liked::default, likes);
    let stock_likes = source.liked.unwrap_or(own_likes);
    let lead = lead(cut_length, pieces, measures);
    let whole = if source.as_needed { cut_length.end } else { source.length + source.spare - lead };
    let mut placed: Vec<&Placed> = cut_length.placed.iter().collect();
    placed.sort_by_key(|placed| (placed.from, placed.across_from));
    let cuts =
        placed.into_iter().filter_map(|placed| Some(cut(placed, pieces.get(placed.entry)?, names.get(placed.entry)?)));
    StockUse {
        source: source.origin.nth(number),
        stock: source.label(number),
        lot: source.lot.clone(),
        length: length(whole + measures.lost_at_ends() + lead, stock_likes),
        lead: length(lead, stock_likes),
        width: length(source.width, measures.width_likes),
        folded: cut_length.folded,
        cuts: cuts.collect(),
        used: length(cut_length.end, stock_likes),
        left_over: length((whole - cut_length.end - measures.loss).max(0), stock_likes),
        offcuts: cut_length
            .offcuts
            .iter()
            .map(|patch| Offcut {
                from: length(patch.from, own_likes),
                to: length(patch.to, own_likes),
                across_from: length(patch.across_from, own_likes),
                across_to: length(patch.across_to, own_likes),
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
        through: placed.through,
        reversed: placed.reversed,
        mirrored: piece.mirrored && placed.number % 2 == 0,
        part: placed.part,
    }
}

/// What of a length lies before its first mark: one repeat if a matched piece is cut from it.
fn lead(cut_length: &CutLength, pieces: &[CutPiece], measures: Measures) -> i64 {
    let is_matched = |placed: &Placed| pieces.get(placed.entry).is_some_and(|piece| piece.matching.is_some());
    if cut_length.placed.iter().any(is_matched) { measures.lead } else { 0 }
}

fn bought_from(
    source: &Source,
    cut_lengths: &[&CutLength],
    pieces: &[CutPiece],
    measures: Measures,
    first_likes: Liked,
) -> Option<Bought> {
    let Origin::Offer(offer) = source.origin else { return None };
    let last = cut_lengths.last()?;
    let whole = if source.as_needed { last.end + lead(last, pieces, measures) } else { source.length + source.spare };
    Some(Bought {
        offer,
        name: source.name.clone(),
        count: number::from_size(cut_lengths.len()),
        length: length(whole + measures.lost_at_ends(), source.liked.unwrap_or(first_likes)),
        price: source.price,
    })
}

fn notes(task: &CuttingTask<'_>, measures: Measures, layout: &Layout, uses: &[StockUse]) -> Vec<PlanNote> {
    let pieces = task.pieces;
    let mut notes = Vec::new();
    let mut noted = BTreeSet::new();
    let mut say = |note: PlanNote| {
        if noted.insert(note.clone()) {
            notes.push(note);
        }
    };
    for piece in pieces.iter().filter(|piece| piece.count > 0) {
        let straight = matches!(*piece.shape, Shape::Rectangle { .. } | Shape::FullWidth { .. });
        if !layout.by_outline && (!straight || piece.grain == Grain::Bias) {
            say(PlanNote::RectangleRound { piece: piece.name.clone() });
        }
        if piece.on_fold.is_some() && !layout.cut_lengths.iter().any(|cut_length| cut_length.folded) {
            say(PlanNote::PlacedOpen { piece: piece.name.clone() });
        }
    }
    let on_pattern = |piece: &&CutPiece| piece.matching.is_some() && piece.count > 0 && measures.has_pattern();
    for piece in pieces.iter().filter(on_pattern) {
        say(PlanNote::MarksFromPattern);
        if !piece.shape.is_full_width() {
            say(PlanNote::MatchedAlongOnly { piece: piece.name.clone() });
        }
    }
    let mut lots = lots(uses);
    let known = task.stock.iter().any(|length| length.lot.is_some());
    for (entry, mixed) in garment_lots(pieces, uses).into_iter().filter(|_| known) {
        lots.entry(entry).or_default().extend(mixed);
    }
    for (entry, lots) in lots {
        if let Some(piece) = pieces.get(entry).filter(|_| lots.len() > 1) {
            say(PlanNote::LotsMixed { piece: piece.name.clone(), lots: lots.into_iter().collect() });
        }
    }
    notes
}

/// The lots that each entry comes from; empty if no lot is known.
fn lots(uses: &[StockUse]) -> BTreeMap<usize, BTreeSet<String>> {
    let mut lots: BTreeMap<usize, BTreeSet<String>> = BTreeMap::new();
    if uses.iter().all(|stock| stock.lot.is_none()) {
        return lots;
    }
    for stock in uses {
        let lot = shown_lot(stock);
        for cut in &stock.cuts {
            let known = lots.entry(cut.entry).or_default();
            if !known.contains(lot) {
                known.insert(lot.to_owned());
            }
        }
    }
    lots
}

/// The entries and lots of one garment.
#[derive(Default)]
struct Garment<'a> {
    entries: BTreeSet<usize>,
    lots: BTreeSet<&'a str>,
}

/// The lots of each entry of a garment cut from several lots; only pieces with `per_garment` belong to a garment.
fn garment_lots(pieces: &[CutPiece], uses: &[StockUse]) -> BTreeMap<usize, BTreeSet<String>> {
    let mut garments: BTreeMap<(Option<&str>, i64), Garment<'_>> = BTreeMap::new();
    for stock in uses {
        for cut in &stock.cuts {
            let Some(piece) = pieces.get(cut.entry) else { continue };
            let Some(of_one) = piece.per_garment.filter(|of_one| *of_one > 0) else { continue };
            let garment = (cut.number - 1).div_euclid(of_one) + 1;
            let garment = garments.entry((piece.order.as_deref(), garment)).or_default();
            garment.entries.insert(cut.entry);
            garment.lots.insert(shown_lot(stock));
        }
    }
    let mut mixed: BTreeMap<usize, BTreeSet<String>> = BTreeMap::new();
    for garment in garments.into_values().filter(|garment| garment.lots.len() > 1) {
        for entry in garment.entries {
            mixed.entry(entry).or_default().extend(garment.lots.iter().map(|lot| (*lot).to_owned()));
        }
    }
    mixed
}

/// The lot of a length in words.
fn shown_lot(stock: &StockUse) -> &str {
    match (&stock.lot, stock.source) {
        (Some(lot), _) => lot,
        (None, StockSource::New { .. }) => "newly bought",
        (None, StockSource::Shelf { .. }) => "not known",
    }
}
