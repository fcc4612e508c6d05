//! Checks folded cloth: cuts through both layers, on the fold, and through one layer.
//!
//! Marks count on the opened cloth; the fold is the middle of its width.
//!
//! Never here: whether cuts overlap.

use super::error::LayersWrong;
use super::shaped::{PlacedCut, is_farther};
use super::{Errors, PlanError, Rules};
use crate::cutting::plan::StockUse;
use crate::piece::{CutPiece, Fold, Shape};
use crate::piece::{Layers, Lie};
use std::collections::BTreeMap;

/// An entry and the marks of its cut.
type Place = (usize, [i64; 4]);

pub(super) fn check(
    used: &StockUse,
    placed: &[PlacedCut<'_>],
    pieces: &[CutPiece],
    width: i64,
    rules: Rules,
    errors: &mut Errors,
) {
    if used.folded != rules.folded {
        errors.add(PlanError::WronglyLaid { stock: used.stock.clone() });
    }
    let mut both: BTreeMap<Place, Vec<&PlacedCut<'_>>> = BTreeMap::new();
    for placed in placed.iter().filter(|placed| placed.cut.through == Layers::Both) {
        both.entry(place(placed)).or_default().push(placed);
    }
    for placed in placed {
        // A cut for an unknown piece has been reported already.
        let Some(piece) = pieces.get(placed.cut.entry) else { continue };
        let right = match placed.cut.through {
            Layers::One if !used.folded => Ok(()),
            _ if !used.folded => Err(LayersWrong::OneLayer),
            Layers::One => on_one_side(placed, width),
            Layers::Both => on_one_side(placed, width).and_then(|()| twin(placed, piece, width, &both)),
            Layers::Fold => on_fold(placed, piece, width),
        };
        if let Err(why) = right {
            errors.add(PlanError::Layers { piece: placed.cut.piece.to_string(), why });
        }
    }
}

fn place(placed: &PlacedCut<'_>) -> Place {
    let patch = placed.patch;
    (placed.cut.entry, [patch.from, patch.to, patch.across_from, patch.across_to])
}

/// Checks that a cut lies on one side of the fold; half of an odd nanometre may lie over it.
fn on_one_side(placed: &PlacedCut<'_>, width: i64) -> Result<(), LayersWrong> {
    let nearer = 2 * placed.patch.across_to <= width + 1;
    if nearer || is_farther(placed.patch, width) { Ok(()) } else { Err(LayersWrong::AcrossFold) }
}

fn is_symmetric(placed: &PlacedCut<'_>) -> bool {
    placed.outline.as_ref().is_none_or(|outline| outline.symmetric)
}

fn twin(
    placed: &PlacedCut<'_>,
    piece: &CutPiece,
    width: i64,
    both: &BTreeMap<Place, Vec<&PlacedCut<'_>>>,
) -> Result<(), LayersWrong> {
    let (cut, patch) = (placed.cut, placed.patch);
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
    if piece.mirrored || is_symmetric(placed) { Ok(()) } else { Err(LayersWrong::Uneven) }
}

fn on_fold(placed: &PlacedCut<'_>, piece: &CutPiece, width: i64) -> Result<(), LayersWrong> {
    let whole = placed.cut.part.is_none();
    let allowed = match (&*piece.shape, piece.on_fold, placed.cut.lie) {
        (Shape::FullWidth { .. }, ..) => true,
        (_, Some(Fold::Along), Lie::Along) | (_, Some(Fold::Across), Lie::Across) => whole,
        _ => false,
    };
    if !allowed {
        return Err(LayersWrong::NotOnFold);
    }
    // The middle may be a nanometre off.
    if (placed.patch.across_from + placed.patch.across_to - width).abs() > 2 {
        return Err(LayersWrong::OffFold);
    }
    if is_symmetric(placed) { Ok(()) } else { Err(LayersWrong::Uneven) }
}
