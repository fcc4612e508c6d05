//! Plans pieces onto goods, and verifies plans with code that shares nothing with the planner.
//!
//! Inside, every length is a whole number of nanometres, so that float noise never decides whether a piece fits.
//! [`plan()`] returns only plans that [`check()`] has accepted.
//!
//! Never here: tickets, setting prices, keeping the stock, writing plans out.

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
pub use plan::{Aim, CuttingPlan, StockSource, StockUse};
#[cfg(test)]
pub(crate) use plan::{Bought, PlanQuality};
pub(crate) use plan::{Cut, JoinedPart, Offcut, PlanNote};
pub use plan_cache::Planner;
pub(crate) use shirr_packing::Progress;
pub use shirr_packing::Watch;
pub(crate) use task::manner::PinnedCut;
pub use task::manner::{CutsRun, CuttingManner, CuttingTask, Laid};
pub use verify::check;

/// The most pieces, and the most cuts, in one plan.
pub const MOST_PIECES: i64 = 1_000_000;

/// Plans pieces onto goods: the shelf first, remnants before other lengths, then what the supply allows.
///
/// First fit makes a layout at once; the solvers of `shirr_packing` then improve it within the effort of the manner:
/// `lengths` for whole lengths, `straight` for straight cuts, `rectangles` for pieces placed freely, `outlines` for
/// pieces placed by their outlines. Pieces that fit nowhere whole are joined if that is allowed. The flag of `watch` is
/// checked throughout: raised before there is a plan, it ends the work with [`CuttingError::Stopped`], later with the
/// best plan so far.
///
/// # Errors
/// If the pieces, the goods or the stock are unsound, or if something does not fit. A plan that the verifier rejects is
/// an error too and is not returned.
pub fn plan(task: &CuttingTask<'_>, watch: Watch<'_>) -> Result<CuttingPlan, CuttingError> {
    let judged = |pinned: bool| {
        let plan = making::make(task, watch, pinned)?;
        match check(&plan, task) {
            Ok(()) => Ok(plan),
            Err(errors) => Err(CuttingError::Refused { errors }),
        }
    };
    // Pinned cuts of an earlier plan, perhaps edited by hand, may be impossible to keep: plan again without them.
    match judged(true) {
        Err(_) if !task.manner.pinned.is_empty() => judged(false),
        answer => answer,
    }
}

/// Checks that [`plan()`] finds a plan for a task, without searching for a good one. Runs [`plan()`] if first fit does
/// not settle it.
///
/// # Errors
/// As for [`plan()`].
pub fn check_task(task: &CuttingTask<'_>, watch: Watch<'_>) -> Result<(), CuttingError> {
    match making::first_fit(task, watch) {
        Ok(true) => Ok(()),
        Ok(false) | Err(_) => plan(task, watch).map(|_| ()),
    }
}
