//! Tests of planner and verifier together.

mod assembled;
mod cache;
mod costs;
mod cut_up;
mod damage;
mod figures;
mod folded;
mod garments;
mod hand;
mod items;
mod judged_counts;
mod judged_folded;
mod judged_pins;
mod judged_places;
mod kept;
mod lots;
mod pinned;
mod random;
mod refusals;
mod repeats;
mod rows;
pub(in crate::cutting) mod scene;
mod shaped;
mod shelf;
mod straight;
mod wanted;

use super::*;
use crate::piece::{
    CutPiece, Fold, Goods, GoodsKind, Grain, JoinRule, Layers, Lie, Matching, OutlinePoint, PutUp, Repeat, Shape,
    StockLength, Supply,
};
use crate::quantity::Length;
use std::sync::LazyLock;
use std::sync::atomic::AtomicBool;

/// Makes a plan without stopping.
fn planned(
    pieces: &[CutPiece],
    goods: &Goods,
    stock: &[StockLength],
    supply: &Supply,
) -> Result<CuttingPlan, CuttingError> {
    plan(&task(pieces, goods, stock, supply), Watch::silent(&AtomicBool::new(false)))
}

/// A task in the default manner, but with all leftovers kept and a small effort.
fn task<'a>(pieces: &'a [CutPiece], goods: &'a Goods, stock: &'a [StockLength], supply: &'a Supply) -> CuttingTask<'a> {
    static USUAL: LazyLock<CuttingManner> = LazyLock::new(|| CuttingManner {
        keep_from: Some(Length::ZERO),
        effort: Effort::of(3_000),
        ..CuttingManner::default()
    });
    CuttingTask { pieces, goods, stock, supply, manner: &USUAL }
}

fn inches(value: f64) -> Length {
    Length::inches(value)
}

fn cm(value: f64) -> Length {
    Length::centimetres(value)
}

fn strips(count: i64, along: Length) -> CutPiece {
    CutPiece::new("strip", count, Shape::FullWidth { along })
}

fn rectangle(name: &str, count: i64, along: Length, across: Length) -> CutPiece {
    CutPiece::new(name, count, Shape::Rectangle { along, across })
}

/// A narrow roll of tulle in 25 yd put-ups.
fn tulle() -> Goods {
    Goods::roll(inches(6.0), Length::yards(25.0))
}
