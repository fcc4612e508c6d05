//! Pieces to a cutting plan, and a verifier that shares no code with the planner.
//!
//! Inside, every length is a whole number of nanometres, so that whether a piece fits is never a matter
//! of float noise. [`plan()`] answers only plans that [`check()`] has accepted.
//!
//! Never here: tickets, prices, the shelf's bookkeeping, writing plans out.

mod assemble;
mod bound;
mod demand;
mod effort;
mod extent;
mod fault;
mod first_fit;
mod goods;
mod join;
mod lay;
mod manner;
mod nanometre;
mod piece;
mod plan;
mod source;
#[cfg(test)]
mod tests;
mod verify;

pub use effort::{Effort, Progress, Watch};
pub use fault::CuttingFault;
pub use goods::{Goods, GoodsKind, PutUp, StockLength, Supply};
pub use manner::{CutsRun, CuttingTask, Laid, Manner, PinnedCut};
pub use piece::{CutPiece, CutShape, Fold, Grain, JoinRule, OutlinePoint};
pub use plan::{
    Aim, Bought, Cut, CuttingPlan, JoinedPart, Lie, Merit, Offcut, PlanNote, StockSource, StockUse, Through,
};
pub use verify::{JoinedWrong, PlanFault, check};

/// The most pieces, and the most cuts, in one plan.
pub const MOST_PIECES: i64 = 1_000_000;

/// Plans pieces onto goods: the shelf first, remnants before opened rolls, then what the supply allows.
///
/// Each piece is placed whole in the first place that takes it, longest pieces first; one that fits
/// nowhere whole is turned if its grain is any, or joined if that is allowed. The flag of `watch` is looked at all
/// along; raised before there is a plan, it ends the work with [`CuttingFault::Stopped`].
///
/// # Errors
/// What is wrong with the pieces, the goods or the stock, or what does not fit. A plan that the verifier
/// does not accept is a fault too and is not handed out.
pub fn plan(task: &CuttingTask<'_>, watch: Watch<'_>) -> Result<CuttingPlan, CuttingFault> {
    let plan = unverified(task, watch)?;
    match check(&plan, task) {
        Ok(()) => Ok(plan),
        Err(faults) => Err(CuttingFault::Refused { faults }),
    }
}

fn unverified(task: &CuttingTask<'_>, watch: Watch<'_>) -> Result<CuttingPlan, CuttingFault> {
    let measures = demand::Measures::of(task.goods)?;
    let sources = source::sources(task.goods, measures.width, task.stock, task.supply)?;
    let longest = sources.iter().map(|source| source.length).max().unwrap_or(0);
    let groups = demand::groups(task.pieces, task.goods, measures, longest)?;
    let mut lay = lay::Lay::new(sources, measures, task.pieces.len(), watch.stop);
    for group in &groups {
        lay.place_all(group)?;
    }
    Ok(assemble::assemble(&lay, task.pieces, &groups, bound::lower_bound(&groups, measures)))
}
