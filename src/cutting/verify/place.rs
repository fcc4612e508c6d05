//! One length and its cuts: is it there, does everything lie on it, and as it should?
//!
//! Never here: whether all pieces are there, totals.

use super::overlap::{Patch, first_overlap};
use super::shape::room_of;
use super::{Faults, PlanFault, Rules, Within, exact};
use crate::cutting::goods::Supply;
use crate::cutting::manner::CuttingTask;
use crate::cutting::piece::Grain;
use crate::cutting::plan::{Cut, Lie, StockSource, StockUse};
use crate::quantity::Length;

pub(super) fn check(used: &StockUse, task: &CuttingTask<'_>, rules: Rules, faults: &mut Faults) {
    let name = || used.stock.clone();
    let (Some(length), Some(width), Some(end), Some(left)) =
        (exact(used.length), exact(used.width), exact(used.used), exact(used.left_over))
    else {
        return faults.add(PlanFault::Unreadable { what: name() });
    };
    match Given::of(used, task) {
        None => faults.add(PlanFault::UnknownStock { stock: name() }),
        Some(given) => given.check(used, rules, (length, width, end), faults),
    }
    let mut patches = Vec::with_capacity(used.cuts.len() + used.offcuts.len() + 1);
    for cut in &used.cuts {
        let Some(patch) = patch(cut.from, cut.to, cut.across_from, cut.across_to) else {
            faults.add(PlanFault::Unreadable { what: cut.piece.to_string() });
            continue;
        };
        if patch.from < 0 || patch.to > length {
            faults.add(PlanFault::OutsideLength { piece: cut.piece.to_string(), stock: name() });
        }
        if patch.across_from < 0 || patch.across_to > width {
            faults.add(PlanFault::OutsideWidth { piece: cut.piece.to_string(), stock: name() });
        }
        lies_right(cut, patch, task, rules, faults);
        patches.push(patch);
    }
    if !patches.is_sorted_by_key(|patch| (patch.from, patch.across_from)) {
        faults.add(PlanFault::OutOfOrder { stock: name() });
    }
    let Some(last) = patches.iter().map(|patch| patch.to).max() else {
        return faults.add(PlanFault::NothingCut { stock: name() });
    };
    // With a loss at each cut, whatever comes next keeps that much clear.
    let apart: Vec<Patch> = patches.iter().map(|patch| Patch { to: patch.to + rules.loss, ..*patch }).collect();
    let overlap = |patches: &[Patch], faults: &mut Faults| {
        if let Some(mark) = first_overlap(patches) {
            let at = Length::from_steps(crate::quantity::number::from_whole(mark));
            faults.add(PlanFault::Overlap { stock: name(), at });
        }
    };
    overlap(&apart, faults);
    if end != last || left != (length - last - rules.loss).max(0) {
        faults.add(PlanFault::LeftOver { stock: name() });
    }
    if !used.offcuts.is_empty() {
        for offcut in &used.offcuts {
            match patch(offcut.from, offcut.to, offcut.across_from, offcut.across_to) {
                Some(patch)
                    if patch.from >= 0 && patch.to <= last && patch.across_from >= 0 && patch.across_to <= width =>
                {
                    patches.push(patch);
                }
                _ => faults.add(PlanFault::LeftOver { stock: name() }),
            }
        }
        overlap(&patches, faults);
    }
}

fn patch(from: Length, to: Length, across_from: Length, across_to: Length) -> Option<Patch> {
    let patch =
        Patch { from: exact(from)?, to: exact(to)?, across_from: exact(across_from)?, across_to: exact(across_to)? };
    (patch.from < patch.to && patch.across_from < patch.across_to).then_some(patch)
}

/// What the shelf or the supply says of a length.
struct Given<'a> {
    /// None for cloth cut as long as needed.
    length: Option<Length>,
    width: Option<Length>,
    most: Option<i64>,
    number: i64,
    lot: Option<&'a str>,
    /// Its mark on the shelf; what is bought may be called anything.
    name: Option<&'a str>,
}

impl<'a> Given<'a> {
    fn of(used: &StockUse, task: &CuttingTask<'a>) -> Option<Self> {
        match (used.source, task.supply) {
            (StockSource::Shelf { entry, number }, _) => task.stock.get(entry).map(|shelf| Self {
                length: Some(shelf.along),
                width: shelf.across,
                most: Some(shelf.count),
                number,
                lot: shelf.lot.as_deref(),
                name: Some(&shelf.name),
            }),
            (StockSource::New { offer: 0, number }, Supply::Endless) => {
                Some(Self { length: task.goods.put_up, width: None, most: None, number, lot: None, name: None })
            }
            (StockSource::New { offer, number }, Supply::Offered(offers)) => offers.get(offer).map(|offer| Self {
                length: offer.along,
                width: offer.across,
                most: offer.most,
                number,
                lot: None,
                name: None,
            }),
            (StockSource::New { .. }, _) => None,
        }
    }

    fn check(&self, used: &StockUse, rules: Rules, (length, width, end): (i64, i64, i64), faults: &mut Faults) {
        let stock = || used.stock.clone();
        if used.lot.as_deref() != self.lot || self.name.is_some_and(|name| name != used.stock) {
            faults.add(PlanFault::UnknownStock { stock: stock() });
        }
        // Cloth cut as long as needed is one length, however long.
        let most = if self.length.is_none() { Some(self.most.unwrap_or(1).min(1)) } else { self.most };
        if self.number < 1 || most.is_some_and(|most| self.number > most) {
            faults.add(PlanFault::StockExceeded { stock: stock() });
        }
        let right_length = match self.length {
            Some(given) => Within::of(given.steps()).is_some_and(|given| given.holds(length)),
            None => length == end,
        };
        let narrower = self.width.map(|given| Within::of(given.steps()));
        let right_width = match narrower {
            Some(None) => false,
            Some(Some(given)) if given.least < rules.width.least => given.holds(width),
            _ => rules.width.holds(width),
        };
        if !right_length || !right_width {
            faults.add(PlanFault::StockSize { stock: stock() });
        }
    }
}

/// Whether a cut is a piece of the list and lies as that piece must.
fn lies_right(cut: &Cut, patch: Patch, task: &CuttingTask<'_>, rules: Rules, faults: &mut Faults) {
    let name = || cut.piece.to_string();
    let known = task
        .pieces
        .get(cut.entry)
        .filter(|piece| *piece.name == *cut.piece && piece.order.as_deref() == cut.order.as_deref());
    let Some(piece) = known else { return faults.add(PlanFault::UnknownPiece { piece: name() }) };
    let with_grain = match piece.grain {
        Grain::Along => cut.lie == Lie::Along,
        Grain::Across => cut.lie == Lie::Across,
        Grain::Bias => cut.lie == Lie::Bias,
        Grain::Any => cut.lie != Lie::Bias,
    };
    if !with_grain {
        faults.add(PlanFault::AgainstGrain { piece: name() });
    }
    let turned_by_choice = piece.grain == Grain::Any && cut.lie == Lie::Across;
    if task.goods.napped && (cut.reversed || turned_by_choice) {
        faults.add(PlanFault::AgainstNap { piece: name() });
    }
    let Some(room) = room_of(piece, cut.lie, rules.width) else {
        return faults.add(PlanFault::WrongSize { piece: name() });
    };
    let along = room.along.holds(patch.to - patch.from);
    let across = room.across.holds(patch.across_to - patch.across_from);
    // A part has the piece's size one way; the other way all parts are looked at together.
    let right_size = if cut.part.is_some() { along || across } else { along && across };
    if !right_size {
        faults.add(PlanFault::WrongSize { piece: name() });
    }
    if let Some(repeat) = rules.repeat.filter(|_| piece.matched) {
        let full_width = matches!(piece.shape, crate::cutting::piece::CutShape::FullWidth { .. });
        let lower = full_width && rules.half_drop && is_lower(patch.from, repeat);
        if patch.from.rem_euclid(repeat) != 0 && !lower {
            faults.add(PlanFault::OffPattern { piece: name() });
        }
    }
}

/// Whether a mark lies half a repeat below a whole one; half of an odd nanometre either way.
pub(super) fn is_lower(mark: i64, repeat: i64) -> bool {
    (2 * mark.rem_euclid(repeat) - repeat).abs() <= 1
}
