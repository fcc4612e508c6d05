//! Checks that the pieces of one garment come from one lot, or that the plan has a note of it; and never from washed
//! and unwashed goods.
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

/// Checks that no garment comes from washed and unwashed goods. Pieces that are not counted by the garment go with the
/// first one of their order.
pub(super) fn check_washing(plan: &CuttingPlan, task: &CuttingTask<'_>, errors: &mut Errors) {
    let mut garments: BTreeMap<(Option<&str>, i64), bool> = BTreeMap::new();
    let mut mixed = BTreeSet::new();
    for used in &plan.uses {
        let washed = match used.source {
            StockSource::Shelf { entry, .. } => task.stock.get(entry).is_some_and(|length| length.washed),
            StockSource::New { .. } => false,
        };
        for cut in &used.cuts {
            let Some(piece) = task.pieces.get(cut.entry) else { continue };
            let of_one = piece.per_garment.filter(|of_one| *of_one > 0);
            let number = of_one.map_or(1, |of_one| (cut.number - 1).div_euclid(of_one) + 1);
            let garment = (piece.order.as_deref(), number);
            if *garments.entry(garment).or_insert(washed) != washed && mixed.insert(garment) {
                errors.add(PlanError::GarmentWashing { piece: piece.name.clone(), garment: number });
            }
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
