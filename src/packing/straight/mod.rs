//! Rectangles cut from stretches by straight cuts from edge to edge in three stages, on the least length.
//!
//! The stages: cuts across the whole stretch free *rows*; cuts along it within a row free *columns*; cuts across within
//! a column free the pieces stacked in it. The form solved is the *non-exact* one: a piece may be narrower than its
//! column and is then trimmed by a last cut, and a column may end before its row does.
//!
//! The aim is the least length used on the endless stretch (the last one). If every stretch has an end, it is the
//! most area placed, then the least length used on the last stretch that is used at all.
//!
//! The loss counts between two rows and between two pieces of a column, never at the end of a stretch; a strip of waste
//! narrower than the loss is taken by the cut beside it. A piece with [`Starts`](crate::Starts) may leave waste before
//! it, in its column or before its row. A piece bound to the edge lies in the first column.
//!
//! ```
//! use shirr_packing::{Rectangle, RectangleProblem, Steps, Watch, straight};
//! use std::sync::atomic::AtomicBool;
//!
//! // Four to a row: seven pieces need two rows of 30, and 2 are lost at the cut between them.
//! let problem = RectangleProblem { loss: 2, ..RectangleProblem::endless(100, vec![Rectangle::new(30, 25, 7)]) };
//! let stop = AtomicBool::new(false);
//! let solution = straight::solve(&problem, 1, &mut Steps::new(10_000, Watch::silent(&stop)))?;
//! assert_eq!((solution.length, solution.placements().count(), solution.proved), (62, 7, true));
//! # Ok::<(), shirr_packing::Unsolved>(())
//! ```
//!
//! Stages, in the order they are tried:
//! - rows filled by a greedy rule (level packing, as in Coffman, Garey, Johnson and Tarjan 1980, "Performance bounds
//!   for level-oriented two-dimensional packing algorithms"; from memory) in bulk, for any size of problem;
//! - for few pieces an exact search over all sets of pieces: the earliest end of every set, as the last row varies,
//!   each row the best of all its divisions into columns (dynamic programming over sets, own work);
//! - rows one after another from two nested knapsacks, the value of each kind corrected by the waste it caused
//!   (sequential value correction, as in Belov, Scheithauer and Mukhacheva 2008, "One-dimensional heuristics adapted
//!   for two-dimensional rectangular strip packing"; from memory), then rows of the best plan taken out and filled
//!   again.
//!
//! The bound is that of the *bar relaxation* (Scheithauer, same paper; from memory): every line across the stretch
//! meets pieces that fit side by side. Its linear program gives a value per width; rounded to whole numbers these are
//! checked by a whole-number knapsack that errs to the safe side only, so the bound is proven whatever the program
//! answered. Pieces that all begin at the same marks take whole repeats, which the bound for them alone uses.

mod bars;
mod bound;
mod check;
mod exact;
mod fill;
mod improve;
mod layout;
mod level;
mod plan;
mod prepared;
#[cfg(test)]
mod tests;

use crate::effort::{Progress, Steps};
use crate::problem::{RectangleProblem, Unsolved};
use crate::solution::RowSolution;
use crate::soundness;
use plan::Plan;
use prepared::Prepared;

/// With more pieces than this a debug build does not check the solution, which would take too long.
const MOST_CHECKED: i64 = 100_000;

/// The best solution found within the steps; `seed` seeds the random choices.
///
/// # Errors
/// [`Unsolved::Malformed`] without a stretch, with an endless one before the last, for a size or a width outside
/// 1..=10^13, a negative count or loss, more than 2,000,000 pieces that begin at marks, and if all pieces in one line
/// are longer than 10^18.
pub fn solve(problem: &RectangleProblem, seed: u64, steps: &mut Steps<'_>) -> Result<RowSolution, Unsolved> {
    check::is_sound(problem).then_some(()).ok_or(Unsolved::Malformed)?;
    let prepared = Prepared::new(problem);
    let (best, bound, proved) = search(&prepared, seed, steps);
    let solution = layout::solution(&prepared, &best, bound, proved).ok_or(Unsolved::Malformed)?;
    debug_assert!(
        problem.rectangles.iter().map(|one| one.count).sum::<i64>() > MOST_CHECKED
            || soundness::rows(problem, &solution).is_ok(),
        "{:?}",
        soundness::rows(problem, &solution)
    );
    Ok(solution)
}

/// The best plan, a bound, and whether the plan is proved to be the best.
fn search(prepared: &Prepared, seed: u64, steps: &mut Steps<'_>) -> (Plan, i64, bool) {
    let mut best = level::best(prepared);
    let mut bound = bound::plain(prepared);
    let mut proved = is_met(prepared, &best, bound);
    steps.report(Progress { best: best.length(prepared), bound });
    if !proved {
        if let Some(found) = exact::solve(prepared, &best, steps) {
            bound = found.length(prepared);
            best = found;
            proved = true;
            steps.report(Progress { best: bound, bound });
        } else {
            let (strong, lasting) = bound::strong(prepared, steps);
            bound = bound.max(strong);
            proved = is_met(prepared, &best, bound);
            if !proved {
                steps.report(Progress { best: best.length(prepared), bound });
                best = improve::improve(prepared, best, bound, lasting, seed, steps);
                proved = is_met(prepared, &best, bound);
            }
        }
    }
    (best, bound, proved)
}

/// Whether the plan cannot be improved: everything that can be is placed, within the bound.
fn is_met(prepared: &Prepared, plan: &Plan, bound: i64) -> bool {
    plan.missing.iter().all(|&missing| missing == 0) && prepared.is_endless() && plan.length(prepared) <= bound
}
