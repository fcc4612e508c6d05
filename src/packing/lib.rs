//! Cutting and packing on whole numbers, for goods on rolls, bolts and sheets.
//!
//! | solver | problem | solution |
//! |---|---|---|
//! | [`lengths`] | pieces from stock lengths, at the least cost: [`LengthProblem`] | [`LengthSolution`] |
//! | [`straight`] | rectangles by straight cuts from edge to edge: [`RectangleProblem`] | [`RowSolution`] |
//! | [`rectangles`] | rectangles anywhere: [`RectangleProblem`] | [`StripSolution`] |
//! | [`outlines`] | polygons, nested: [`PolygonProblem`] | [`StripSolution`] |
//!
//! # Units
//!
//! Sizes, positions and costs are whole numbers in a unit of the caller's choice; nothing is ever rounded to fit. All
//! solvers accept sizes up to 10^13. A stretch has a width and a length; *along* runs with its length, *across* with
//! its width, both from zero. Numbers beyond what a solver can add up exactly are refused with
//! [`Unsolved::Malformed`], never wrapped.
//!
//! # Effort
//!
//! A search ends when its result is proved, its [`Steps`] are spent, or the flag of its [`Watch`] is raised; it then
//! returns the best found so far. A million steps take about a second on each of at most two threads. Every solution
//! carries a lower bound and says whether it is proved to be the best.
//!
//! # Determinism
//!
//! The same problem, seed and steps give the same solution on every machine, with any number of processors. Only the
//! stop flag depends on time. Nothing here reads the clock, files or the environment.
//!
//! # Example
//!
//! ```
//! use shirr_packing::{Rectangle, RectangleProblem, Steps, Watch, rectangles};
//! use std::sync::atomic::AtomicBool;
//!
//! let problem = RectangleProblem::endless(150, vec![Rectangle::new(60, 75, 4), Rectangle::new(20, 50, 3)]);
//! let stop = AtomicBool::new(false);
//! let solution = rectangles::solve(&problem, 1, &mut Steps::new(100_000, Watch::silent(&stop)))?;
//! assert!(solution.proved && solution.length == 140);
//! for placement in &solution.placements {
//!     let rectangle = &problem.rectangles[placement.item];
//!     assert!(placement.across + rectangle.across <= 150);
//! }
//! # Ok::<(), shirr_packing::Unsolved>(())
//! ```

mod effort;
mod front;
mod number;
mod problem;
mod simplex;
mod solution;
mod soundness;

pub mod lengths;
pub mod outlines;
pub mod rectangles;
pub mod straight;

pub use effort::{Progress, Steps, Watch};
pub use problem::{
    KeptRest, LengthProblem, PieceLength, Polygon, PolygonProblem, Rectangle, RectangleProblem, Starts, StockLength,
    Stretch, Unsolved,
};
pub use solution::{Column, LengthSolution, Pattern, Placement, Row, RowSolution, Run, StripSolution, Turn};
