//! What is cut from where, in a line for each cloth, then the notions and the thread.
//!
//! Never here: marks and single cuts, which the sheet has.

use super::OverviewRow;
use crate::cutting::StockSource;
use crate::piece::Shape;
use crate::plans::pluralized;
use crate::ticket::job::Job;
use crate::ticket::lay::Lay;
use crate::ticket::lay_error::LayError;
use crate::ticket::needs;
use crate::ticket::workshop_order::WorkshopOrder;

/// The row of cuts; where room is short it gives way to the number of pieces of each cloth, then of all.
pub(super) fn row(order: &WorkshopOrder) -> Result<OverviewRow, LayError> {
    let job = order.job();
    let lays = order.lays()?;
    let notions = notions(order, &job)?;
    let mut lines: Vec<Vec<String>> = lays.iter().map(|lay| of_lay(lay, &job)).collect();
    let mut shorter: Vec<Vec<String>> = lays.iter().map(briefly).collect();
    if !notions.is_empty() {
        lines.push(notions.clone());
        shorter.push(notions);
    }
    let all = format!("{} in all: the sheet has every cut", pluralized(job.piece_count(), "piece"));
    Ok(OverviewRow { label: "CUT", lines, shorter: vec![shorter, vec![vec![all]]], ..OverviewRow::default() })
}

fn of_lay(lay: &Lay, job: &Job<'_>) -> Vec<String> {
    let mut parts = pieces(lay, job);
    let mut places = places(lay);
    let lots: Vec<&Option<String>> = places.iter().map(|place| &place.lot).collect();
    let one_lot = lots.first().filter(|first| lots.iter().all(|lot| lot == *first)).copied().cloned().flatten();
    let name = &lay.material.material.name;
    parts.push(match &one_lot {
        Some(lot) => format!("{name}, lot {lot}"),
        None => name.clone(),
    });
    if one_lot.is_some() {
        for place in &mut places {
            place.lot = None;
        }
    }
    let is_one = places.len() == 1;
    parts.extend(places.iter().map(|place| place.words(is_one)));
    parts
}

/// The number of pieces alone: `6 pieces   blue check lawn   C2-1`; pieces of one name keep it.
fn briefly(lay: &Lay) -> Vec<String> {
    let cut: Vec<_> = lay.pieces.iter().filter(|piece| piece.count > 0).collect();
    let count = cut.iter().fold(0_i64, |sum, piece| sum.saturating_add(piece.count));
    let one_name = cut.first().filter(|first| cut.iter().all(|piece| piece.name == first.name));
    let name = one_name.map_or("piece", |piece| piece.name.as_str());
    let from: Vec<String> = places(lay).into_iter().map(|place| place.stock).collect();
    vec![pluralized(count, name), lay.material.material.name.clone(), from.join(", ")]
}

/// The pieces with their cut sizes, like ones together: `2 panels 18 3/4 x 43 in`. Shapes have no size here.
fn pieces(lay: &Lay, job: &Job<'_>) -> Vec<String> {
    let words = job.plan_words();
    let mut like: Vec<(String, String, i64)> = Vec::new();
    for piece in lay.pieces.iter().filter(|piece| piece.count > 0) {
        let size = match *piece.shape {
            Shape::Rectangle { along, across } => {
                format!(" {} x {} {}", words.bare(along), words.bare(across), words.small())
            }
            Shape::FullWidth { along } => format!(" {} {}", words.bare(along), words.small()),
            Shape::Sector { .. } | Shape::Outline(_) => String::new(),
        };
        match like.iter_mut().find(|(name, known, _)| *name == piece.name && *known == size) {
            Some((.., count)) => *count = count.saturating_add(piece.count),
            None => like.push((piece.name.clone(), size, piece.count)),
        }
    }
    like.into_iter().map(|(name, size, count)| format!("{}{size}", pluralized(count, &name))).collect()
}

/// A length on the shelf, or all new ones, and how many pieces come from there.
struct Place {
    stock: String,
    lot: Option<String>,
    pieces: usize,
}

impl Place {
    fn words(&self, is_one: bool) -> String {
        let lot = self.lot.as_ref().map(|lot| format!(" lot {lot}")).unwrap_or_default();
        if is_one { format!("{}{lot}", self.stock) } else { format!("{}{lot}: {}", self.stock, self.pieces) }
    }
}

fn places(lay: &Lay) -> Vec<Place> {
    let mut places: Vec<Place> = Vec::new();
    let (mut new, mut new_pieces) = (0_i64, 0);
    for used in lay.plan.uses.iter().filter(|used| !used.cuts.is_empty()) {
        if matches!(used.source, StockSource::New { .. }) {
            new += 1;
            new_pieces += used.cuts.len();
            continue;
        }
        match places.iter_mut().find(|place| place.stock == used.stock) {
            Some(place) => place.pieces += used.cuts.len(),
            None => {
                places.push(Place { stock: used.stock.clone(), lot: used.lot.clone(), pieces: used.cuts.len() });
            }
        }
    }
    if new > 0 {
        let stock = if new == 1 { "new".to_owned() } else { format!("{new} new") };
        places.push(Place { stock, lot: None, pieces: new_pieces });
    }
    places
}

/// Lengths of notions with where they come from, then what is counted and the thread, by whole yards or metres.
fn notions(order: &WorkshopOrder, job: &Job<'_>) -> Result<Vec<String>, LayError> {
    let words = job.plan_words();
    let small_cuts = order.small_cuts()?;
    let mut parts = Vec::new();
    for cut_from in small_cuts {
        let runs: Vec<String> = cut_from
            .runs()
            .into_iter()
            .map(|(first, _, times)| {
                let long = words.say(first.to - first.from);
                if times == 1 { long } else { format!("{times} of {long}") }
            })
            .collect();
        parts.push(format!("{} {} {}", cut_from.material, runs.join(" + "), cut_from.stock_name()));
    }
    for required in needs::required_materials(job, order.stitching()?) {
        if small_cuts.iter().any(|cut| cut.material == required.name) {
            continue;
        }
        let whole = if required.includes_thread { job.in_whole_units(required.amount) } else { required.amount };
        parts.push(format!("{} {}", required.name, job.sentence_style.show(whole)));
    }
    Ok(parts)
}
