//! Pieces to a cutting plan, and a verifier that shares no code with the planner.
//!
//! Inside, every length is a whole number of nanometres, so that whether a piece fits is never a matter
//! of float noise. [`plan()`] answers only plans that [`check()`] has accepted.
//!
//! Never here: tickets, prices, the shelf's bookkeeping, writing plans out.

mod effort;
mod error;
mod nanometre;
mod place;
mod plan;
mod plan_cache;
mod search;
mod task;
#[cfg(test)]
mod tests;
mod verify;

use search::making;

pub use effort::Effort;
pub use error::CuttingError;
#[cfg(test)]
pub(crate) use plan::PlanQuality;
pub use plan::{Aim, CuttingPlan, StockSource, StockUse};
pub(crate) use plan::{Cut, JoinedPart, Offcut};
pub use plan_cache::Planner;
pub(crate) use shirr_packing::Progress;
pub use shirr_packing::Watch;
pub(crate) use task::manner::PinnedCut;
pub use task::manner::{CutsRun, CuttingManner, CuttingTask, Laid};
pub use verify::check;

/// The most pieces, and the most cuts, in one plan.
pub const MOST_PIECES: i64 = 1_000_000;

/// Plans pieces onto goods: the shelf first, small lengths before large ones, then what the supply allows.
///
/// What can be laid by first fit is laid so at once, and bettered within the effort of the manner by the solvers of
/// `shirr_packing`: whole lengths by `lengths`, straight cuts by `straight`, pieces wherever they go by `rectangles` and
/// by their outlines by `outlines`. Pieces that fit nowhere whole are joined if that is allowed. The flag of `watch` is
/// looked at all along; raised before there is a plan, it ends the work with [`CuttingError::Stopped`], later with the
/// best so far.
///
/// # Errors
/// What is wrong with the pieces, the goods or the stock, or what does not fit. A plan that the verifier
/// does not accept is a fault too and is not handed out.
pub fn plan(task: &CuttingTask<'_>, watch: Watch<'_>) -> Result<CuttingPlan, CuttingError> {
    let judged = |pinned: bool| {
        let plan = making::make(task, watch, pinned)?;
        match check(&plan, task) {
            Ok(()) => Ok(plan),
            Err(errors) => Err(CuttingError::Refused { errors }),
        }
    };
    // An earlier plan may have been changed by hand so that its cuts cannot stay.
    match judged(true) {
        Err(CuttingError::Stopped) => Err(CuttingError::Stopped),
        Err(_) if !task.manner.pinned.is_empty() => judged(false),
        answer => answer,
    }
}

/// Whether [`plan()`] has an answer to a task; no search is made for a good one. What first fit does not settle is
/// planned.
///
/// # Errors
/// Those of [`plan()`].
pub fn check_task(task: &CuttingTask<'_>, watch: Watch<'_>) -> Result<(), CuttingError> {
    match making::first_fit(task, watch) {
        Ok(true) => Ok(()),
        Ok(false) | Err(_) => plan(task, watch).map(|_| ()),
    }
}
