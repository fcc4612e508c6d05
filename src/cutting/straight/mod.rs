//! Rectangles from lengths of fixed width, freed by straight cuts from edge to edge in three stages, on the least
//! length.
//!
//! The stages: cuts across the whole cloth free *rows*; cuts along the cloth within a row free *columns*; cuts across
//! within a column free the pieces stacked in it. The form solved is the *non-exact* one: a piece may be narrower than
//! its column and is then trimmed by a last cut, and a column may end before its row does.
//!
//! The measure is the length used on the endless stretch (the last one). Where every stretch has an end, it is the
//! area placed, then the length used on the last stretch that is used at all.
//!
//! What is lost at a cut across counts between two rows and between two pieces of a column, never at the end of a
//! stretch; a strip of waste narrower than the loss is taken by the cut beside it. A piece with [`Starts`] lies at one
//! of its marks, counted from the start of its stretch; waste may be left before it, in its column or before its row.
//!
//! The method, in the order it is tried:
//! - rows filled by a greedy rule (level packing, as in Coffman, Garey, Johnson and Tarjan 1980, "Performance bounds
//!   for level-oriented two-dimensional packing algorithms"; from memory) in bulk, for any size of problem;
//! - for few pieces a search over all sets of pieces, exact: the earliest end of every set, as the last row varies,
//!   each row the best of all its divisions into columns (dynamic programming over sets, own work);
//! - for few kinds in large numbers, columns generated for the linear program over rows (Gilmore and Gomory 1965,
//!   "Multistage cutting stock problems of two and more dimensions"; from memory), rounded down, the rest as below;
//!   among the lengths of row tried are those for which the bar relaxation keeps one choice of widths, for long rows of
//!   long columns lose the least;
//! - rows one after another from two nested knapsacks, the worth of each kind corrected by the waste it caused
//!   (sequential value correction, as in Belov, Scheithauer and Mukhacheva 2008, "One-dimensional heuristics adapted
//!   for two-dimensional rectangular strip packing"; from memory), then rows of the best plan taken out and filled
//!   anew.
//!
//! The bound is that of the *bar relaxation* (Scheithauer, same paper; from memory): every line across the cloth meets
//! pieces that fit side by side. Its linear program gives worths per width; rounded to whole numbers they are checked
//! by a whole-number knapsack that errs to the safe side only, so the bound is proven whatever the program answered.
//! It is then raised to the next length that heights of rows can add up to. Pieces that all begin at the same marks
//! take whole repeats, which the bound for them alone reckons with.
//!
//! Never here: pieces across rows, two-sided fabric, anything that is not cut from edge to edge, cost.

mod bound;
mod check;
mod exact;
mod fill;
mod front;
mod improve;
mod layout;
mod level;
mod plan;
mod program;
mod simplex;
#[cfg(test)]
mod tests;
mod work;

use super::effort::{Progress, Steps};
use plan::Plan;
use work::Work;

/// Where along its stretch a piece may begin: at `first`, and every `every` from there on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Starts {
    /// The first mark; it may lie before the stretch begins.
    pub(in crate::cutting) first: i64,
    /// From one mark to the next.
    pub(in crate::cutting) every: i64,
}

/// A kind of rectangle to cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Rectangle {
    /// Its size along the cloth.
    pub(in crate::cutting) along: i64,
    /// Its size across the cloth.
    pub(in crate::cutting) across: i64,
    /// How many.
    pub(in crate::cutting) count: i64,
    /// It may be turned by a quarter, its sizes exchanged.
    pub(in crate::cutting) quarter: bool,
    /// It must lie in the first column, against the edge the widths are counted from.
    pub(in crate::cutting) at_edge: bool,
    /// Where it may begin; anywhere if none.
    pub(in crate::cutting) starts: Option<Starts>,
}

/// A length of cloth to cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Stretch {
    /// Its width.
    pub(in crate::cutting) width: i64,
    /// Its length; as long as needed if none, which only the last may be.
    pub(in crate::cutting) length: Option<i64>,
}

/// What to cut, and from what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Problem {
    /// The lengths of cloth, in the order they are to be used up.
    pub(in crate::cutting) stretches: Vec<Stretch>,
    /// The kinds of rectangles.
    pub(in crate::cutting) rectangles: Vec<Rectangle>,
    /// What is lost along the cloth at each cut across it.
    pub(in crate::cutting) loss: i64,
}

/// Equal pieces one above the other in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Run {
    /// Which rectangle of the problem.
    pub(in crate::cutting) rectangle: usize,
    /// Turned by a quarter.
    pub(in crate::cutting) turned: bool,
    /// Where the first begins, from the start of the row.
    pub(in crate::cutting) from: i64,
    /// How many.
    pub(in crate::cutting) times: i64,
    /// From the start of one to the start of the next.
    pub(in crate::cutting) apart: i64,
}

/// Equal columns side by side in a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Column {
    /// Where the first begins across the cloth.
    pub(in crate::cutting) across: i64,
    /// The width of each.
    pub(in crate::cutting) width: i64,
    /// How many.
    pub(in crate::cutting) times: i64,
    /// What is stacked in each, in order.
    pub(in crate::cutting) runs: Vec<Run>,
}

/// Equal rows one after another on a stretch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Row {
    /// On which stretch.
    pub(in crate::cutting) stretch: usize,
    /// Where the first begins along the stretch.
    pub(in crate::cutting) from: i64,
    /// The length of each.
    pub(in crate::cutting) along: i64,
    /// The width its columns use.
    pub(in crate::cutting) used: i64,
    /// How many.
    pub(in crate::cutting) times: i64,
    /// From the start of one to the start of the next.
    pub(in crate::cutting) apart: i64,
    /// Its columns, from the edge on.
    pub(in crate::cutting) columns: Vec<Column>,
}

/// One piece where it lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Spot {
    /// Which rectangle of the problem.
    pub(in crate::cutting) rectangle: usize,
    /// On which stretch.
    pub(in crate::cutting) stretch: usize,
    /// In which row of the stretch, counted from its start.
    pub(in crate::cutting) row: usize,
    /// In which column of the row, counted from the edge.
    pub(in crate::cutting) column: usize,
    /// Where it begins along the stretch.
    pub(in crate::cutting) along: i64,
    /// Where it begins across it.
    pub(in crate::cutting) across: i64,
    /// Turned by a quarter.
    pub(in crate::cutting) turned: bool,
}

/// A plan and what is known of it. Rows stand in cutting order: stretch by stretch, each from its start; within a row
/// the columns from the edge, within a column the pieces from the row's start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Answer {
    /// The rows, equal neighbours in one.
    pub(in crate::cutting) rows: Vec<Row>,
    /// The length used of the last stretch.
    pub(in crate::cutting) length: i64,
    /// The rectangles for which there is no room, and how many of each.
    pub(in crate::cutting) unplaced: Vec<(usize, i64)>,
    /// No plan that places as much uses less of the last stretch.
    pub(in crate::cutting) bound: i64,
    /// The plan is the best there is.
    pub(in crate::cutting) proved: bool,
}

impl Answer {
    /// Every piece where it lies, in cutting order; made one by one, for there may be millions.
    pub(in crate::cutting) fn spots(&self) -> impl Iterator<Item = Spot> + '_ {
        layout::spots(&self.rows)
    }
}

/// The best plan found; none if the problem is not one (see `check`) or too large to count in whole numbers.
pub(in crate::cutting) fn solve(problem: &Problem, seed: u64, steps: &mut Steps<'_>) -> Option<Answer> {
    check::is_sound(problem).then_some(())?;
    let work = Work::new(problem);
    let mut best = level::best(&work);
    let mut bound = bound::summed(&work, bound::plain(&work), best.length(&work), steps);
    let mut proved = is_met(&work, &best, bound);
    steps.tell(Progress { best: best.length(&work), bound });
    if !proved {
        if let Some(found) = exact::solve(&work, &best, steps) {
            bound = found.length(&work);
            best = found;
            proved = true;
            steps.tell(Progress { best: bound, bound });
        } else {
            let (strong, lasting) = bound::strong(&work, steps);
            bound = bound.max(strong);
            bound = bound::summed(&work, bound, best.length(&work), steps);
            proved = is_met(&work, &best, bound);
            if !proved {
                steps.tell(Progress { best: best.length(&work), bound });
                best = improve::improve(&work, best, bound, lasting, seed, steps);
                proved = is_met(&work, &best, bound);
            }
        }
    }
    layout::answer(&work, &best, bound, proved)
}

/// Whether the plan cannot be bettered: all is placed that can be, on no more than the bound.
fn is_met(work: &Work, plan: &Plan, bound: i64) -> bool {
    plan.missing.iter().all(|&missing| missing == 0) && work.is_endless() && plan.length(work) <= bound
}
