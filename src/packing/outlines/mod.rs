//! Polygons — gores, sleeves, sectors of rings — nested on stretches of fixed width, on the least length.
//!
//! Pieces are kept apart by no-fit polygons: for each pair of posed outlines, the offsets at which they overlap,
//! computed exactly on whole numbers as the union of the Minkowski sums of their convex parts. A layout begins as
//! rows of one kind alternately turned, as shelves of boxes, or by bottom-left fill. Then the stretch is shortened
//! step by step and the pieces are separated again: guided local search on how deep they overlap (Egeblad, Nielsen
//! and Odgaard, "Fast neighborhood search for two- and three-dimensional nesting problems", 2007; Umetani, Yagiura,
//! Imahori, Imamichi, Nonobe and Ibaraki, "Solving the irregular strip packing problem via guided local search for
//! overlap minimization", 2009; Gardeyn, Vanden Berghe and Wauters on overlap by sampling, 2025; all from memory),
//! and all pieces pushed apart at once where single moves no longer help. The search uses floats; a layout counts
//! only after a check on whole numbers.
//!
//! Outlines with many corners are laid as coarser polygons that contain them. Many pieces are laid as one block that
//! repeats. Two threads, each with its own steps and seed, are joined in a fixed order: the same problem, seed and
//! steps give the same layout.
//!
//! ```
//! use shirr_packing::{Polygon, PolygonProblem, Steps, Watch, outlines};
//! use std::sync::atomic::AtomicBool;
//!
//! // Gores nest head to foot: the second begins where the slanted side of the first lets it.
//! let gore = Polygon { half: true, ..Polygon::new(vec![(85, 0), (175, 0), (260, 500), (0, 500)], 2) };
//! let stop = AtomicBool::new(false);
//! let mut steps = Steps::new(1_000, Watch::silent(&stop));
//! let solution = outlines::solve(&PolygonProblem::endless(500, vec![gore]), 1, &mut steps)?;
//! assert_eq!((solution.length, solution.placements.len()), (435, 2));
//! # Ok::<(), shirr_packing::Unsolved>(())
//! ```

mod blocks;
mod bottom_left;
mod coarse;
mod crowd;
mod depth;
mod depths;
mod forbidden;
pub(crate) mod geometry;
mod layout;
mod moves;
mod outline;
mod rows;
mod search;
mod sector;
mod separate;
mod settle;
mod shelves;
mod strip;
#[cfg(test)]
mod tests;

pub use sector::sector;

use crate::effort::Steps;
use crate::number;
use crate::problem::{PolygonProblem, Stretch, Unsolved};
use crate::solution::{Placement, StripSolution};
use crate::soundness;
use layout::{Pairs, Piece, PosePlacement, Table};

/// The largest width and gap; coordinates go up to half of it.
const FARTHEST: i64 = 20_000_000_000_000;
/// Below this all pieces laid end to end must be long, and below half of it a pattern begins and repeats.
const LONGEST: i64 = 1 << 61;
/// The most pieces.
const MOST_PIECES: i64 = 2_000_000;
/// The most corners of a shape, and of all together.
const MOST_CORNERS: usize = 1300;
const MOST_CORNERS_IN_ALL: usize = 100_000;
/// The most pieces for which bottom-left fill is tried on a stretch of given length.
const FEW: usize = 400;

/// With more pieces than this a debug build does not check the solution, which would take too long.
const MOST_CHECKED: usize = 5_000;

/// The best layout found within the steps; `seed` seeds the random choices. It is called proved only if its length
/// equals the bound.
///
/// # Errors
/// [`Unsolved::Malformed`] without a stretch, with an endless one before the last, for a width outside 1..=2·10^13,
/// corners that form no simple polygon or are further than 10^13 from zero, a negative count, gap or first position,
/// an odd count of mirrored pairs, more than 2,000,000 pieces or 1300 corners to a polygon, and sums that are too
/// large.
pub fn solve(problem: &PolygonProblem, seed: u64, steps: &mut Steps<'_>) -> Result<StripSolution, Unsolved> {
    let solution = solved(problem, seed, steps).ok_or(Unsolved::Malformed)?;
    debug_assert!(
        solution.placements.len() > MOST_CHECKED || soundness::polygons(problem, &solution).is_ok(),
        "{:?}",
        soundness::polygons(problem, &solution)
    );
    Ok(solution)
}

fn solved(problem: &PolygonProblem, seed: u64, steps: &mut Steps<'_>) -> Option<StripSolution> {
    check(problem)?;
    let prepared = outline::prepare(&problem.polygons)?;
    let pairs = Pairs::new(&prepared.outlines, problem.gap, steps);
    let mut pieces: Vec<Piece> = Vec::new();
    for (item, polygon) in problem.polygons.iter().enumerate() {
        let mirrored = if polygon.mirror { polygon.count / 2 } else { 0 };
        pieces.extend(std::iter::repeat_n((item, false), number::count(polygon.count - mirrored)?));
        pieces.extend(std::iter::repeat_n((item, true), number::count(mirrored)?));
    }
    let mut placements = Vec::with_capacity(pieces.len());
    let (mut length, mut bound) = (0, 0);
    for (at, stretch) in problem.stretches.iter().enumerate() {
        let table = Table { prepared: &prepared, pairs: &pairs, width: stretch.width, gap: problem.gap };
        let (placed, left) = match stretch.length {
            Some(limit) => limited(&table, &pieces, limit, steps),
            None => strip::lay(&table, &pieces, seed, steps),
        };
        length = table.length(&placed);
        bound = least_length(&table, &placed);
        placements.extend(placed.iter().map(|one| placement(one, at)));
        pieces = left;
    }
    let unplaced = counted(&pieces);
    let proved = unplaced.is_empty() && length <= bound;
    Some(StripSolution { placements, length, unplaced, bound, proved })
}

fn check(problem: &PolygonProblem) -> Option<()> {
    let (last, others) = problem.stretches.split_last()?;
    let measured = others.iter().all(|stretch| stretch.length.is_some());
    let sound = |stretch: &Stretch| {
        (1..=FARTHEST).contains(&stretch.width) && stretch.length.is_none_or(|length| (0..LONGEST).contains(&length))
    };
    if !measured || !problem.stretches.iter().all(sound) || !(0..=FARTHEST).contains(&problem.gap) {
        return None;
    }
    if problem.polygons.iter().map(|polygon| polygon.corners.len()).sum::<usize>() > MOST_CORNERS_IN_ALL {
        return None;
    }
    let mut total = 0i64;
    // All pieces end to end: no layout here is longer.
    let mut longest = i128::from(last.length.unwrap_or(0));
    for polygon in &problem.polygons {
        let near = |corner: &(i64, i64)| corner.0.abs() <= FARTHEST / 2 && corner.1.abs() <= FARTHEST / 2;
        let (first, every) = polygon.starts.map_or((0, 1), |starts| (starts.first, starts.every));
        let sound = polygon.count >= 0
            && polygon.corners.len() <= MOST_CORNERS
            && polygon.corners.iter().all(near)
            && !(polygon.mirror && polygon.count % 2 != 0)
            && (0..LONGEST / 2).contains(&first)
            && (1..LONGEST / 2).contains(&every);
        if !sound {
            return None;
        }
        total = total.checked_add(polygon.count).filter(|&total| total <= MOST_PIECES)?;
        let (low, high) = geometry::around(&polygon.corners);
        let size = (high.0 - low.0).max(high.1 - low.1);
        let each = i128::from(size) + i128::from(every) + i128::from(problem.gap);
        longest = longest.max(i128::from(first)) + each * i128::from(polygon.count);
    }
    (longest < i128::from(LONGEST)).then_some(())
}

/// Fills a stretch of given length: the largest pieces first.
fn limited(table: &Table<'_>, pieces: &[Piece], limit: i64, steps: &mut Steps<'_>) -> (Vec<PosePlacement>, Vec<Piece>) {
    let area = |placements: &[PosePlacement]| {
        placements
            .iter()
            .filter_map(|placement| table.prepared.items.get(placement.item))
            .map(|item| item.twice_area)
            .sum::<i128>()
    };
    let shelves = shelves::fill(table, pieces, Some(limit));
    if table.pairs.is_empty() || pieces.len() > FEW || !steps.take(0) {
        return shelves;
    }
    let areas = |item: usize, _: &outline::Outline| table.prepared.items.get(item).map(|item| item.twice_area);
    let filled = bottom_left::fill(table, &table.sorted(pieces, areas), Some(limit), steps);
    if area(&filled.0) >= area(&shelves.0) { filled } else { shelves }
}

fn least_length(table: &Table<'_>, placements: &[PosePlacement]) -> i64 {
    let mut area = 0;
    let mut longest = 0;
    for group in placements.chunk_by(|one, other| (one.item, one.mirrored) == (other.item, other.mirrored)) {
        let Some((first, item)) =
            group.first().and_then(|placement| Some((placement, table.prepared.items.get(placement.item)?)))
        else {
            continue;
        };
        area += item.twice_area * i128::from(number::from_size(group.len()));
        let poses = table.prepared.fitting(first.item, first.mirrored, table.width);
        let long = poses.into_iter().map(|pose| table.size(pose).0).min().unwrap_or(0);
        longest = longest.max(item.begin(0) + long);
    }
    let twice = i128::from(table.width) * 2;
    i64::try_from((area + twice - 1) / twice).unwrap_or(0).max(longest)
}

fn placement(placement: &PosePlacement, stretch: usize) -> Placement {
    let PosePlacement { item, mirrored, pose, along, across } = *placement;
    Placement { item, stretch, along, across, turn: pose.turn, mirrored }
}

fn counted(pieces: &[Piece]) -> Vec<(usize, i64)> {
    let mut items: Vec<usize> = pieces.iter().map(|piece| piece.0).collect();
    items.sort_unstable();
    items
        .chunk_by(|one, other| one == other)
        .filter_map(|group| Some((*group.first()?, number::from_size(group.len()))))
        .collect()
}
