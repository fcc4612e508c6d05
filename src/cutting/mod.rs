//! Pieces to a cutting plan, and a verifier that shares no code with the planner.
//!
//! Inside, every length is a whole number of nanometres, so that whether a piece fits is never a matter
//! of float noise. [`plan()`] answers only plans that [`check()`] has accepted.
//!
//! Never here: tickets, prices, the shelf's bookkeeping, writing plans out.

mod assemble;
mod bound;
mod demand;
mod extent;
mod fault;
mod first_fit;
mod goods;
mod join;
mod lay;
mod nanometre;
mod piece;
mod plan;
mod source;
#[cfg(test)]
mod tests;
mod verify;

pub use fault::CuttingFault;
pub use goods::{Goods, GoodsKind, PutUp, StockLength, Supply};
pub use piece::{CutPiece, CutShape, Fold, Grain, JoinRule, OutlinePoint};
pub use plan::{Bought, Cut, CuttingPlan, JoinedPart, Lie, Offcut, PlanNote, StockSource, StockUse};
pub use verify::{JoinedWrong, PlanFault, check};

use std::sync::atomic::AtomicBool;

/// The most pieces, and the most cuts, in one plan.
pub const MOST_PIECES: i64 = 1_000_000;

/// Plans pieces onto goods: the shelf first, remnants before opened rolls, then what `supply` allows.
///
/// Each piece is placed whole in the first place that takes it, longest pieces first; one that fits
/// nowhere whole is turned if its grain is any, or joined if that is allowed. `stop` is looked at all
/// along; set, it ends the work with [`CuttingFault::Stopped`].
///
/// # Errors
/// What is wrong with the pieces, the goods or the stock, or what does not fit. A plan that the verifier
/// does not accept is a fault too and is not handed out.
pub fn plan(
    pieces: &[CutPiece],
    goods: &Goods,
    stock: &[StockLength],
    supply: &Supply,
    stop: &AtomicBool,
) -> Result<CuttingPlan, CuttingFault> {
    let plan = unverified(pieces, goods, stock, supply, stop)?;
    match check(&plan, pieces, goods, stock, supply) {
        Ok(()) => Ok(plan),
        Err(faults) => Err(CuttingFault::Refused { faults }),
    }
}

fn unverified(
    pieces: &[CutPiece],
    goods: &Goods,
    stock: &[StockLength],
    supply: &Supply,
    stop: &AtomicBool,
) -> Result<CuttingPlan, CuttingFault> {
    let measures = demand::Measures::of(goods)?;
    let sources = source::sources(goods, measures.width, stock, supply)?;
    let longest = sources.iter().map(|source| source.length).max().unwrap_or(0);
    let groups = demand::groups(pieces, goods, measures, longest)?;
    let mut lay = lay::Lay::new(sources, measures, pieces.len(), stop);
    for group in &groups {
        lay.place_all(group)?;
    }
    Ok(assemble::assemble(&lay, pieces, &groups, bound::lower_bound(&groups, measures)))
}
