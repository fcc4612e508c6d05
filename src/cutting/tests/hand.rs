//! Plans made by hand, for cases that the planner does not make: each cut where a test puts it, with matching totals.

use super::*;
use crate::cutting::plan::{Bought, PlanQuality};
use crate::cutting::verify::PlanError;
use std::sync::Arc;

/// The task of a hand-made plan.
pub(super) struct HandPlan {
    pub(super) pieces: Vec<CutPiece>,
    pub(super) goods: Goods,
    pub(super) stock: Vec<StockLength>,
    pub(super) supply: Supply,
    pub(super) manner: CuttingManner,
}

impl HandPlan {
    /// Plain cloth, bought as needed.
    pub(super) fn cloth(width: f64, pieces: Vec<CutPiece>) -> Self {
        Self {
            pieces,
            goods: Goods::cloth(cm(width)),
            stock: Vec::new(),
            supply: Supply::Endless,
            manner: CuttingManner::default(),
        }
    }

    /// A cut of an entry, with the grain, on one layer, with marks along and across in centimetres.
    pub(super) fn cut(&self, entry: usize, number: i64, marks: [f64; 4]) -> Cut {
        let piece = &self.pieces[entry];
        let [from, to, across_from, across_to] = marks.map(whole);
        Cut {
            entry,
            number,
            piece: Arc::from(piece.name.as_str()),
            order: piece.order.as_deref().map(Arc::from),
            from,
            to,
            across_from,
            across_to,
            lie: Lie::Along,
            through: Layers::One,
            reversed: false,
            mirrored: false,
            part: None,
        }
    }

    /// New cloth with these cuts, as much as they need.
    pub(super) fn new_cloth(&self, mut cuts: Vec<Cut>) -> StockUse {
        cuts.sort_by(|one, two| {
            let place = |cut: &Cut| (cut.from.steps(), cut.across_from.steps());
            place(one).partial_cmp(&place(two)).unwrap()
        });
        let used = cuts.iter().map(|cut| cut.to).reduce(|one, two| if one > two { one } else { two }).unwrap();
        StockUse {
            source: StockSource::New { offer: 0, number: 1 },
            stock: "new cloth".into(),
            lot: None,
            length: used + self.manner.squaring * 2.0,
            lead: Length::ZERO,
            width: self.goods.width,
            folded: self.manner.laid == Laid::Folded,
            cuts,
            used,
            left_over: Length::ZERO,
            offcuts: Vec::new(),
        }
    }

    /// A length of the shelf with these cuts.
    pub(super) fn off_the_shelf(&self, entry: usize, cuts: Vec<Cut>) -> StockUse {
        let shelf = &self.stock[entry];
        let new = self.new_cloth(cuts);
        StockUse {
            source: StockSource::Shelf { entry, number: 1 },
            stock: shelf.name.clone(),
            lot: shelf.lot.clone(),
            length: shelf.along,
            left_over: shelf.along - new.used - self.manner.squaring * 2.0,
            ..new
        }
    }

    /// The plan of these lengths.
    pub(super) fn plan(&self, uses: Vec<StockUse>) -> CuttingPlan {
        let bought = uses
            .iter()
            .filter(|used| matches!(used.source, StockSource::New { .. }))
            .map(|used| Bought { offer: 0, name: "cloth".into(), count: 1, length: used.length, price: None })
            .collect();
        let mut pieces = std::collections::BTreeMap::new();
        for piece in &self.pieces {
            *pieces.entry(piece.name.clone()).or_default() += piece.count;
        }
        CuttingPlan {
            length_used: uses.iter().map(|used| used.used).sum(),
            uses,
            bought,
            lower_bound: Length::ZERO,
            quality: PlanQuality { aim: Aim::Length, bound_ratio: 0.0, proved: false, stopped: false },
            cost: None,
            pieces,
            joins: std::collections::BTreeMap::new(),
            notes: Vec::new(),
        }
    }

    /// The errors of a plan.
    pub(super) fn errors(&self, plan: &CuttingPlan) -> Vec<PlanError> {
        let task = CuttingTask { manner: &self.manner, ..task(&self.pieces, &self.goods, &self.stock, &self.supply) };
        check(plan, &task).err().unwrap_or_default()
    }

    /// The errors of these cuts on new cloth.
    pub(super) fn on_cloth(&self, cuts: Vec<Cut>) -> Vec<PlanError> {
        self.errors(&self.plan(vec![self.new_cloth(cuts)]))
    }
}

/// A length in centimetres, rounded to the nanometre.
pub(super) fn whole(value: f64) -> Length {
    Length::from_steps((value * 1e7).round())
}

/// Pieces with an outline of these corners, in centimetres.
pub(super) fn outline(name: &str, count: i64, corners: &[(f64, f64)]) -> CutPiece {
    let corner = |(along, across): &(f64, f64)| OutlinePoint { along: cm(*along), across: cm(*across) };
    CutPiece::new(name, count, Shape::Outline(corners.iter().map(corner).collect()))
}

#[track_caller]
pub(super) fn sound(errors: &[PlanError]) {
    assert_eq!(errors, []);
}

/// Expects errors of one kind and no other.
#[track_caller]
pub(super) fn only(errors: &[PlanError], kind: impl Fn(&PlanError) -> bool) {
    assert!(!errors.is_empty(), "nothing is found");
    assert!(errors.iter().all(kind), "{errors:?}");
    assert!(errors.iter().all(|error| !error.to_string().is_empty()));
}

pub(super) fn overlaps(error: &PlanError) -> bool {
    matches!(error, PlanError::Overlap { .. })
}
