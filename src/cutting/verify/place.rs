//! Checks one length and its cuts: it exists, and everything lies on it as it should.
//!
//! Never here: whether all pieces are there, totals.

use super::overlap::{Patch, first_meeting, first_overlap};
use super::shape::{bare_room_of, room_of};
use super::shaped::{Outlines, PlacedCut};
use super::{Errors, PlanError, Rules, Within, exact};
use super::{fold, straight};
use crate::cutting::plan::{Cut, StockSource, StockUse};
use crate::cutting::task::manner::CuttingTask;
use crate::piece::Lie;
use crate::piece::Supply;
use crate::piece::{CutPiece, Grain, Repeat};
use crate::quantity::{Length, number};

pub(super) fn check(
    used: &StockUse,
    task: &CuttingTask<'_>,
    rules: Rules,
    outlines: &mut Outlines<'_>,
    errors: &mut Errors,
) {
    let name = || used.stock.clone();
    let (Some(length), Some(width), Some(end), Some(left)) =
        (exact(used.length), exact(used.width), exact(used.used), exact(used.left_over))
    else {
        return errors.add(PlanError::Unreadable { what: name() });
    };
    let is_matched = |cut: &Cut| known(cut, task).is_some_and(|piece| piece.matching.is_some());
    let Some(lead) = rules.lead(used.cuts.iter().any(is_matched)) else {
        return errors.add(PlanError::Unreadable { what: name() });
    };
    let lost = rules.lost(lead);
    match Listed::of(used, task) {
        None => errors.add(PlanError::UnknownStock { stock: name() }),
        Some(listed) => listed.check(used, rules, lost, (length, width, end), errors),
    }
    let mut placed = Vec::with_capacity(used.cuts.len());
    for cut in &used.cuts {
        let Some(patch) = patch(cut.from, cut.to, cut.across_from, cut.across_to) else {
            errors.add(PlanError::Unreadable { what: cut.piece.to_string() });
            continue;
        };
        if patch.from < 0 || patch.to > length - lost.least {
            errors.add(PlanError::OutsideLength { piece: cut.piece.to_string(), stock: name() });
        }
        if patch.across_from < 0 || patch.across_to > width {
            errors.add(PlanError::OutsideWidth { piece: cut.piece.to_string(), stock: name() });
        }
        match known(cut, task) {
            Some(piece) => lies_right(cut, patch, piece, task, rules, errors),
            None => errors.add(PlanError::UnknownPiece { piece: cut.piece.to_string() }),
        }
        placed.push(PlacedCut::of(cut, patch, width, outlines));
    }
    if let Some(repeat) = rules.repeat {
        on_pattern(used, task, repeat, errors);
    }
    let mut patches: Vec<Patch> = placed.iter().map(|placed| placed.patch).collect();
    if !patches.is_sorted_by_key(|patch| (patch.from, patch.across_from)) {
        errors.add(PlanError::OutOfOrder { stock: name() });
    }
    let Some(last) = patches.iter().map(|patch| patch.to).max() else {
        return errors.add(PlanError::NothingCut { stock: name() });
    };
    let overlap = |mark: Option<i64>, errors: &mut Errors| {
        if let Some(mark) = mark {
            let at = Length::from_steps(number::from_whole(mark));
            errors.add(PlanError::Overlap { stock: name(), at });
        }
    };
    // With a loss at each cut, the next straight piece keeps that much clear.
    let straight = placed.iter().filter(|placed| placed.outline.is_none()).map(|placed| placed.patch);
    let apart: Vec<Patch> = straight.map(|patch| Patch { to: patch.to + rules.loss, ..patch }).collect();
    overlap(first_overlap(&apart), errors);
    if apart.len() < placed.len() {
        let matters = |one: usize, other: usize| {
            let both = placed.get(one).zip(placed.get(other));
            both.is_some_and(|(one, other)| one.is_shaped_beside(other) && one.overlaps(other))
        };
        overlap(first_meeting(&patches, matters), errors);
    }
    let rest = |lost: i64| (length - lost - last - rules.loss).max(0);
    if end != last || !(rest(lost.most)..=rest(lost.least)).contains(&left) {
        errors.add(PlanError::LeftOver { stock: name() });
    }
    if !exact(used.lead).is_some_and(|stated| lead.holds(stated)) {
        errors.add(PlanError::NoLead { stock: name() });
    }
    fold::check(used, &placed, task.pieces, width, rules, errors);
    if rules.straight {
        straight::check(used, &placed, width, errors);
    }
    for offcut in &used.offcuts {
        match patch(offcut.from, offcut.to, offcut.across_from, offcut.across_to) {
            Some(patch)
                if patch.from >= 0 && patch.to <= last && patch.across_from >= 0 && patch.across_to <= width =>
            {
                patches.push(patch);
            }
            _ => errors.add(PlanError::LeftOver { stock: name() }),
        }
    }
    // Offcuts must be clear of the bounding rectangles of shaped pieces.
    if patches.len() > placed.len() {
        overlap(first_meeting(&patches, |one, other| one.max(other) >= placed.len()), errors);
    }
}

/// The piece of the list that a cut names.
fn known<'a>(cut: &Cut, task: &CuttingTask<'a>) -> Option<&'a CutPiece> {
    let piece = task.pieces.get(cut.entry)?;
    (*piece.name == *cut.piece && piece.order.as_deref() == cut.order.as_deref()).then_some(piece)
}

pub(super) fn patch(from: Length, to: Length, across_from: Length, across_to: Length) -> Option<Patch> {
    let patch =
        Patch { from: exact(from)?, to: exact(to)?, across_from: exact(across_from)?, across_to: exact(across_to)? };
    (patch.from < patch.to && patch.across_from < patch.across_to).then_some(patch)
}

/// A length as the shelf or the supply has it.
struct Listed<'a> {
    /// `None` for cloth cut as needed.
    length: Option<Length>,
    width: Option<Length>,
    most: Option<i64>,
    number: i64,
    lot: Option<&'a str>,
    /// Its mark on the shelf; `None` for new lengths, whose names are not checked.
    name: Option<&'a str>,
}

impl<'a> Listed<'a> {
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

    fn check(
        &self,
        used: &StockUse,
        rules: Rules,
        lost: Within,
        (length, width, end): (i64, i64, i64),
        errors: &mut Errors,
    ) {
        let stock = || used.stock.clone();
        if used.lot.as_deref() != self.lot || self.name.is_some_and(|name| name != used.stock) {
            errors.add(PlanError::UnknownStock { stock: stock() });
        }
        // Cloth cut as needed is one length, however long.
        let most = if self.length.is_none() { Some(self.most.map_or(1, |most| most.min(1))) } else { self.most };
        if self.number < 1 || most.is_some_and(|most| self.number > most) {
            errors.add(PlanError::StockExceeded { stock: stock() });
        }
        let right_length = match self.length {
            Some(listed) => Within::of(listed.steps()).is_some_and(|listed| listed.holds(length)),
            None => lost.holds(length - end),
        };
        let narrower = self.width.map(|listed| Within::of(listed.steps()));
        let right_width = match narrower {
            Some(None) => false,
            Some(Some(listed)) if listed.least < rules.width.least => listed.holds(width),
            _ => rules.width.holds(width),
        };
        if !right_length || !right_width {
            errors.add(PlanError::StockSize { stock: stock() });
        }
    }
}

/// Checks that a cut lies as its piece must.
pub(super) fn lies_right(
    cut: &Cut,
    patch: Patch,
    piece: &CutPiece,
    task: &CuttingTask<'_>,
    rules: Rules,
    errors: &mut Errors,
) {
    let name = || cut.piece.to_string();
    let with_grain = match piece.grain {
        Grain::Along => cut.lie == Lie::Along,
        Grain::Across => cut.lie == Lie::Across,
        Grain::Bias => cut.lie == Lie::Bias,
        Grain::Any => cut.lie != Lie::Bias,
    };
    if !with_grain {
        errors.add(PlanError::AgainstGrain { piece: name() });
    }
    let turned_by_choice = piece.grain == Grain::Any && cut.lie == Lie::Across;
    if task.goods.napped && (cut.reversed || turned_by_choice) {
        errors.add(PlanError::AgainstNap { piece: name() });
    } else if piece.one_way && (cut.reversed || turned_by_choice) {
        errors.add(PlanError::NotHeadUp { piece: name() });
    }
    let rooms = room_of(piece, cut.lie, rules.width).zip(bare_room_of(piece, cut.lie, rules.width));
    let Some((room, bare)) = rooms else {
        return errors.add(PlanError::WrongSize { piece: name() });
    };
    // At an edge of the goods there may be no room to round up to a mark.
    let either = |room: Within, bare: Within, size: i64| room.holds(size) || bare.holds(size);
    let along = either(room.along, bare.along, patch.to - patch.from);
    let across = either(room.across, bare.across, patch.across_to - patch.across_from);
    // A part has the piece's size one way; the other way all parts are checked together.
    let right_size = if cut.part.is_some() { along || across } else { along && across };
    if !right_size {
        errors.add(PlanError::WrongSize { piece: name() });
    }
}

/// Checks that the matched cuts of a length start on the pattern as the first of them does. Marks, the repeat and each
/// start are rounded to a nanometre, so two of them may be off.
fn on_pattern(used: &StockUse, task: &CuttingTask<'_>, repeat: Repeat, errors: &mut Errors) {
    let along = repeat.along.steps().round();
    let shift = repeat.shift.steps() * along / repeat.along.steps();
    let mut first = None;
    for cut in &used.cuts {
        let Some((piece, mark)) = known(cut, task).zip(exact(cut.from)) else { continue };
        let Some(matching) = &piece.matching else { continue };
        let shifts = if piece.shape.is_full_width() { matching.shifts(cut.number) } else { 0 };
        let start = number::from_whole(mark) - number::from_whole(shifts) * shift;
        let behind = start - *first.get_or_insert(start);
        if (behind - (behind / along).round() * along).abs() > 1.5 {
            errors.add(PlanError::OffPattern { piece: cut.piece.to_string() });
        }
    }
}
