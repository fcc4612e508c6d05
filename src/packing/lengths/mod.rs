//! Cutting stock in one dimension: pieces of given lengths from stock lengths of several kinds, at the least cost.
//!
//! Stages: plain constructions; a relaxation by column generation (P. C. Gilmore, R. E. Gomory, 1961 and 1963) with an
//! exact bound from whole prices (A. A. Farley, 1990); dives from fractional to whole (R. Sadykov and others, 2019);
//! branch and bound on how many lengths of each kind are used (G. Belov, G. Scheithauer, 2002); an exhaustive search
//! where little is left; at last a pass that combines patterns (H. Foerster, G. Wäscher, 2000). References from memory.
//! A solution is called proved only by whole-number bounds.
//!
//! ```
//! use shirr_packing::{LengthProblem, PieceLength, Steps, StockLength, Watch, lengths};
//! use std::sync::atomic::AtomicBool;
//!
//! // Three pieces of 40 and two of 55 from lengths of 100.
//! let problem = LengthProblem {
//!     stock: vec![StockLength::new(100, 1)],
//!     pieces: vec![PieceLength { length: 40, count: 3 }, PieceLength { length: 55, count: 2 }],
//! };
//! let stop = AtomicBool::new(false);
//! let solution = lengths::solve(&problem, 1, &mut Steps::new(10_000, Watch::silent(&stop)))?;
//! assert_eq!((solution.cost, solution.proved), (3, true));
//! # Ok::<(), shirr_packing::Unsolved>(())
//! ```

mod ceiling;
mod construct;
mod dive;
mod exhaust;
mod finish;
mod knapsack;
mod model;
mod relax;
mod search;
#[cfg(test)]
mod tests;
mod tidy;
mod tree;

use crate::effort::Steps;
use crate::problem::{LengthProblem, Unsolved};
use crate::solution::LengthSolution;
use crate::soundness;
use model::Model;
use search::LengthSearch;

/// The cheapest solution found within the steps; `seed` seeds the random choices.
///
/// # Errors
/// [`Unsolved::Malformed`] for a negative or too large number (lengths, counts and costs go up to 2^53, the cost of
/// all pieces at the dearest stock length stays below 2^61) and for a piece without length; [`Unsolved::Missing`] if
/// the stock does not hold all pieces, as far as the steps could tell.
pub fn solve(problem: &LengthProblem, seed: u64, steps: &mut Steps<'_>) -> Result<LengthSolution, Unsolved> {
    let model = Model::new(problem)?;
    let mut search = LengthSearch::new(&model, seed);
    search.run(steps);
    let solution = search.solution();
    debug_assert_eq!(solution.as_ref().map_or(Ok(()), |solution| soundness::lengths(problem, solution)), Ok(()));
    solution
}
