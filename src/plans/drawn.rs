//! A plan to draw: each length once, with its pieces as they lie and its leftovers.
//!
//! Never here: drawing.

use super::grouping::{Batch, batches, has_rest, stock_name};
use super::keeping::{beside_at_marks, end_at_marks, end_is_kept, kept_off_pieces, offcut_is_kept};
use super::letters::Letters;
use super::plan_report::{PlanReport, PlanWords};
use super::shapes;
use crate::cutting::{Cut, StockSource, StockUse};
use crate::piece::{Layers, Lie, Shape};
use crate::quantity::{Length, Liked, Quantity};
use crate::report::{DrawnCut, DrawnLayers, DrawnLength, DrawnRest};

/// The lengths to draw, with the letters of their pieces; lengths that are cut alike appear once.
pub(crate) fn drawn_lengths(report: &PlanReport<'_>, words: &PlanWords, letters: &Letters) -> Vec<DrawnLength> {
    batches(report)
        .into_iter()
        .map(|batch| {
            let stock = batch.first;
            let lot = stock.lot.as_ref().map(|lot| format!("lot {lot}"));
            let facts = report.name.map(str::to_owned).into_iter().chain(lot);
            let facts: Vec<String> = facts.collect();
            let facts = if facts.is_empty() { String::new() } else { format!(" ({})", facts.join(", ")) };
            let liked = likes(stock);
            DrawnLength {
                heading: format!("{}{facts}", name(&batch)),
                times: batch.lengths,
                length: (stock.length - stock.lead).liking(liked),
                lead: stock.lead.liking(liked),
                used: stock.used.liking(liked),
                width: stock.width,
                roll: report.is_roll(),
                folded: stock.folded,
                cuts: stock.cuts.iter().map(|cut| drawn_cut(report, words, letters, cut)).collect(),
                rests: rests(report, words, stock),
                off_pieces: kept_off_pieces(report, words, stock),
            }
        })
        .collect()
}

/// The name of a length without "each of"; the drawing shows the number of lengths beside it.
fn name(batch: &Batch<'_>) -> String {
    match batch.first.source {
        StockSource::Shelf { .. } => batch.first.stock.clone(),
        StockSource::New { .. } => {
            let name = stock_name(batch);
            name.strip_prefix("each of ").map_or_else(|| name.clone(), str::to_owned)
        }
    }
}

fn likes(stock: &StockUse) -> Liked {
    stock.cuts.first().map_or_else(|| Quantity::from(stock.length).liked(), |cut| Quantity::from(cut.to).liked())
}

fn drawn_cut(report: &PlanReport<'_>, words: &PlanWords, letters: &Letters, cut: &Cut) -> DrawnCut {
    let outline = shapes::outline(report, cut);
    let along = cut.to - cut.from;
    let size = if report.takes_full_width(cut.entry) {
        words.say(along)
    } else {
        format!("{} × {}", words.say(along), words.say(cut.across_to - cut.across_from))
    };
    let part = cut.part.map(|part| format!(" {}/{}", part.number, part.of)).unwrap_or_default();
    DrawnCut {
        letter: letters.of_cut(report, cut),
        name: format!("{}{part}", cut.piece),
        order: cut.order.as_deref().map(str::to_owned),
        size,
        from: cut.from,
        to: cut.to,
        across_from: cut.across_from,
        across_to: cut.across_to,
        lines: outline
            .lines
            .into_iter()
            .map(|line| line.into_iter().map(|(a, c)| (shapes::length(a), shapes::length(c))).collect())
            .collect(),
        along: outline.along,
        own_size: own_size(report, cut),
        one_way: report.goods.napped || report.pieces.get(cut.entry).is_some_and(|piece| piece.one_way),
        layers: match cut.through {
            Layers::One => DrawnLayers::One,
            Layers::Both => DrawnLayers::Both,
            Layers::Fold => DrawnLayers::Fold,
        },
    }
}

/// The size along the piece and across it; `None` across if it takes the full width.
fn own_size(report: &PlanReport<'_>, cut: &Cut) -> (Length, Option<Length>) {
    let lying = (cut.to - cut.from, cut.across_to - cut.across_from);
    let Some(shape) = report.pieces.get(cut.entry).map(|piece| &piece.shape) else { return (lying.0, Some(lying.1)) };
    match &**shape {
        Shape::FullWidth { along } if cut.part.is_none() => (*along, None),
        Shape::FullWidth { .. } => (lying.0, None),
        Shape::Rectangle { along, across } if cut.part.is_none() => (*along, Some(*across)),
        Shape::Outline(_) | Shape::Sector { .. } if cut.part.is_none() => {
            let room = shape.room();
            (room.along, Some(room.across))
        }
        _ if cut.lie == Lie::Across => (lying.1, Some(lying.0)),
        _ => (lying.0, Some(lying.1)),
    }
}

fn rests(report: &PlanReport<'_>, words: &PlanWords, stock: &StockUse) -> Vec<DrawnRest> {
    let beside = stock.offcuts.iter().map(|offcut| {
        let (along, across) = beside_at_marks(words, offcut);
        DrawnRest {
            from: offcut.from,
            to: offcut.to,
            across_from: offcut.across_from,
            across_to: offcut.across_to,
            kept: offcut_is_kept(report, offcut),
            along,
            across,
            unwashed: false,
        }
    });
    let end = (has_rest(stock) && stock.left_over.is_positive()).then(|| {
        let (along, across, unwashed) = end_at_marks(report, words, stock);
        DrawnRest {
            from: stock.length - stock.lead - stock.left_over,
            to: stock.length - stock.lead,
            across_from: Length::ZERO,
            across_to: stock.width,
            kept: end_is_kept(report, stock),
            along,
            across,
            unwashed,
        }
    });
    beside.chain(end).collect()
}
