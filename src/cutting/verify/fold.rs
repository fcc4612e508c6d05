//! Checks folded cloth: cuts through both layers, on the fold, and through one layer.
//!
//! Marks count on the opened cloth; the fold is the middle of its width.
//!
//! Never here: whether cuts overlap.

use super::error::LayersWrong;
use super::shaped::{Laid, is_farther};
use super::{Faults, PlanError, Rules};
use crate::cutting::plan::StockUse;
use crate::piece::{CutPiece, Fold, Shape};
use crate::piece::{Layers, Lie};
use std::collections::BTreeMap;

/// An entry and the marks of its cut.
type Place = (usize, [i64; 4]);

pub(super) fn check(
    used: &StockUse,
    laid: &[Laid<'_>],
    pieces: &[CutPiece],
    width: i64,
    rules: Rules,
    faults: &mut Faults,
) {
    if used.folded != rules.folded {
        faults.add(PlanError::LaidOtherwise { stock: used.stock.clone() });
    }
    let mut both: BTreeMap<Place, Vec<&Laid<'_>>> = BTreeMap::new();
    for laid in laid.iter().filter(|laid| laid.cut.through == Layers::Both) {
        both.entry(place(laid)).or_default().push(laid);
    }
    for laid in laid {
        // A cut for an unknown piece has been reported already.
        let Some(piece) = pieces.get(laid.cut.entry) else { continue };
        let right = match laid.cut.through {
            Layers::One if !used.folded => Ok(()),
            _ if !used.folded => Err(LayersWrong::OneLayer),
            Layers::One => on_one_side(laid, width),
            Layers::Both => on_one_side(laid, width).and_then(|()| twin(laid, piece, width, &both)),
            Layers::Fold => on_fold(laid, piece, width),
        };
        if let Err(why) = right {
            faults.add(PlanError::Layers { piece: laid.cut.piece.to_string(), why });
        }
    }
}

fn place(laid: &Laid<'_>) -> Place {
    let patch = laid.patch;
    (laid.cut.entry, [patch.from, patch.to, patch.across_from, patch.across_to])
}

/// Checks that a cut lies on one side of the fold; half of an odd nanometre may lie over it.
fn on_one_side(laid: &Laid<'_>, width: i64) -> Result<(), LayersWrong> {
    let nearer = 2 * laid.patch.across_to <= width + 1;
    if nearer || is_farther(laid.patch, width) { Ok(()) } else { Err(LayersWrong::AcrossFold) }
}

fn is_even(laid: &Laid<'_>) -> bool {
    laid.outline.as_ref().is_none_or(|outline| outline.even)
}

fn twin(
    laid: &Laid<'_>,
    piece: &CutPiece,
    width: i64,
    both: &BTreeMap<Place, Vec<&Laid<'_>>>,
) -> Result<(), LayersWrong> {
    let (cut, patch) = (laid.cut, laid.patch);
    let mirrored = (cut.entry, [patch.from, patch.to, width - patch.across_to, width - patch.across_from]);
    let Some([twin]) = both.get(&mirrored).map(Vec::as_slice) else { return Err(LayersWrong::NoTwin) };
    let twin = twin.cut;
    if twin.number == cut.number {
        return Err(LayersWrong::NoTwin);
    }
    let alike = twin.lie == cut.lie && twin.reversed == cut.reversed && twin.part == cut.part;
    let pair = (twin.mirrored != cut.mirrored) == piece.mirrored;
    if !alike || !pair {
        return Err(LayersWrong::NotItsImage);
    }
    // Mirrored twins are images of each other; other twins must be their own images.
    if piece.mirrored || is_even(laid) { Ok(()) } else { Err(LayersWrong::Uneven) }
}

fn on_fold(laid: &Laid<'_>, piece: &CutPiece, width: i64) -> Result<(), LayersWrong> {
    let whole = laid.cut.part.is_none();
    let allowed = match (&*piece.shape, piece.on_fold, laid.cut.lie) {
        (Shape::FullWidth { .. }, ..) => true,
        (_, Some(Fold::Along), Lie::Along) | (_, Some(Fold::Across), Lie::Across) => whole,
        _ => false,
    };
    if !allowed {
        return Err(LayersWrong::NotOnFold);
    }
    // The middle may be a nanometre off.
    if (laid.patch.across_from + laid.patch.across_to - width).abs() > 2 {
        return Err(LayersWrong::OffFold);
    }
    if is_even(laid) { Ok(()) } else { Err(LayersWrong::Uneven) }
}
