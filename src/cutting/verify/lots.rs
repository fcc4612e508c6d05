//! Checks that the pieces of one garment come from one lot, or that the plan has a note of it.
//!
//! Never here: which lot is better.

use super::{Errors, PlanError};
use crate::cutting::plan::{CuttingPlan, PlanNote, StockSource, StockUse};
use crate::cutting::task::manner::CuttingTask;
use std::collections::{BTreeMap, BTreeSet};

/// The lot of a length: all new lengths count as one lot, and all of unknown lot as another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Lot<'a> {
    Known(&'a str),
    New,
    Unknown,
}

impl<'a> Lot<'a> {
    fn of(used: &'a StockUse) -> Self {
        match (used.lot.as_deref(), used.source) {
            (Some(lot), _) => Self::Known(lot),
            (None, StockSource::New { .. }) => Self::New,
            (None, StockSource::Shelf { .. }) => Self::Unknown,
        }
    }
}

/// Checks only pieces with `per_garment`, and only if a length on the shelf has a lot. Garments are those of one order.
pub(super) fn check(plan: &CuttingPlan, task: &CuttingTask<'_>, errors: &mut Errors) {
    if task.stock.iter().all(|length| length.lot.is_none()) {
        return;
    }
    let stated: BTreeSet<&str> = plan
        .notes
        .iter()
        .filter_map(|note| match note {
            PlanNote::LotsMixed { piece, .. } => Some(piece.as_str()),
            _ => None,
        })
        .collect();
    let mut garments: BTreeMap<(Option<&str>, i64), Lot<'_>> = BTreeMap::new();
    let mut mixed = BTreeSet::new();
    for used in &plan.uses {
        for cut in &used.cuts {
            let Some(piece) = task.pieces.get(cut.entry).filter(|piece| !stated.contains(piece.name.as_str())) else {
                continue;
            };
            let Some(of_one) = piece.per_garment.filter(|of_one| *of_one > 0) else { continue };
            let garment = (piece.order.as_deref(), (cut.number - 1).div_euclid(of_one) + 1);
            let lot = Lot::of(used);
            if *garments.entry(garment).or_insert(lot) != lot && mixed.insert(garment) {
                errors.add(PlanError::GarmentLots { piece: piece.name.clone(), garment: garment.1 });
            }
        }
    }
}
