//! Checks that every piece is there once, in pairs where required, and that joined parts make up their
//! piece.
//!
//! Never here: where a piece lies.

use super::error::JoinedWrong;
use super::shape::room_of;
use super::{Errors, PlanError, Rules, Within, exact_or_zero};
use crate::cutting::plan::{Cut, CuttingPlan, JoinedPart};
use crate::piece::Lie;
use crate::piece::{CutPiece, Shape};
use crate::quantity::number;

pub(super) fn check(plan: &CuttingPlan, pieces: &[CutPiece], rules: Rules, errors: &mut Errors) {
    let mut by_entry: Vec<Vec<&Cut>> = vec![Vec::new(); pieces.len()];
    for cut in plan.uses.iter().flat_map(|used| &used.cuts) {
        // A cut without an entry has been reported already.
        if let Some(cuts) = by_entry.get_mut(cut.entry) {
            cuts.push(cut);
        }
    }
    for (piece, mut cuts) in pieces.iter().zip(by_entry) {
        cuts.sort_by_key(|cut| (cut.number, cut.part.map_or(0, |part| part.number)));
        count(piece, &cuts, rules, errors);
        pairs(piece, &cuts, errors);
    }
}

/// Checks that each number from one to the count is there, whole or in parts, and nothing else.
fn count(piece: &CutPiece, cuts: &[&Cut], rules: Rules, errors: &mut Errors) {
    let wrong = |number| PlanError::WrongCount { piece: piece.name.clone(), wanted: piece.count, number };
    let mut next = 1;
    for parts in cuts.chunk_by(|left, right| left.number == right.number) {
        let Some(first) = parts.first() else { continue };
        if first.number != next || next > piece.count {
            return errors.add(wrong(first.number.min(next)));
        }
        next += 1;
        if first.part.is_some() {
            if let Err(why) = joined(piece, parts, rules) {
                errors.add(PlanError::Joined { piece: piece.name.clone(), why });
            }
        } else if parts.len() > 1 {
            errors.add(wrong(first.number));
        }
    }
    if next <= piece.count {
        errors.add(wrong(next));
    }
}

/// Checks one joined piece; its parts must be in order.
fn joined(piece: &CutPiece, parts: &[&Cut], rules: Rules) -> Result<(), JoinedWrong> {
    let straight = matches!(*piece.shape, Shape::Rectangle { .. } | Shape::FullWidth { .. });
    let rule = piece.may_join.filter(|_| straight).ok_or(JoinedWrong::NotAllowed)?;
    let first = parts.first().ok_or(JoinedWrong::Parts)?;
    let of = number::from_size(parts.len());
    let complete = (1..)
        .zip(parts)
        .all(|(number, cut)| cut.part == Some(JoinedPart { number, of }) && cut.mirrored == first.mirrored);
    if of < 2 || !complete {
        return Err(JoinedWrong::Parts);
    }
    if parts.iter().any(|cut| cut.lie != first.lie) || first.lie == Lie::Bias {
        return Err(JoinedWrong::NotAllowed);
    }
    let joins = of - 1;
    if joins > rule.most {
        return Err(JoinedWrong::TooMany);
    }
    let whole = room_of(piece, first.lie, rules.width).ok_or(JoinedWrong::Sum)?;
    let allowance = Within::of(rule.allowance.steps()).ok_or(JoinedWrong::Sum)?;
    let shortest = Within::of(rule.shortest.steps()).ok_or(JoinedWrong::TooShort)?;
    let along = |cut: &&Cut| exact_or_zero(cut.to) - exact_or_zero(cut.from);
    let across = |cut: &&Cut| exact_or_zero(cut.across_to) - exact_or_zero(cut.across_from);
    let makes_up = |sizes: Vec<i64>, size: Within| {
        let total: i128 = sizes.iter().map(|size| i128::from(*size)).sum();
        let with = |size: i64, allowance: i64| i128::from(size) + 2 * i128::from(allowance) * i128::from(joins);
        if !(with(size.least, allowance.least)..=with(size.most, allowance.most)).contains(&total) {
            return Err(JoinedWrong::Sum);
        }
        if sizes.iter().any(|size| *size < shortest.least) { Err(JoinedWrong::TooShort) } else { Ok(()) }
    };
    let full_width = piece.shape.is_full_width();
    if parts.iter().all(|cut| whole.along.holds(along(cut))) && !full_width {
        makes_up(parts.iter().map(across).collect(), whole.across)
    } else if parts.iter().all(|cut| whole.across.holds(across(cut))) {
        makes_up(parts.iter().map(along).collect(), whole.along)
    } else {
        Err(JoinedWrong::Sum)
    }
}

/// The first cut of each piece.
fn firsts<'a>(cuts: &'a [&'a Cut]) -> impl Iterator<Item = &'a Cut> {
    cuts.iter().copied().filter(|cut| cut.part.is_none_or(|part| part.number == 1))
}

fn pairs(piece: &CutPiece, cuts: &[&Cut], errors: &mut Errors) {
    let mirrored = number::from_size(firsts(cuts).filter(|cut| cut.mirrored).count());
    let wanted = if piece.mirrored { piece.count } else { 0 };
    if 2 * mirrored != wanted {
        errors.add(PlanError::Mirrored { piece: piece.name.clone() });
    }
}
