//! Pieces of any outline — gores, sleeves, sectors of rings — laid on a strip of fixed width so that the least length
//! is cut.
//!
//! Pieces keep apart by no-fit polygons: for each pair of outlines as they lie, the offsets at which they overlap, as
//! the union of the Minkowski sums of their convex parts; on whole numbers, and so exactly. A layout begins as rows of
//! one kind alternately turned, as shelves of boxes, or by bottom-left fill. Then the strip is cut shorter step by step
//! and the pieces moved apart again: guided local search on how deep they lie in each other (Egeblad, Nielsen and
//! Odgaard, "Fast neighborhood search for two- and three-dimensional nesting problems", 2007; Umetani, Yagiura, Imahori,
//! Imamichi, Nonobe and Ibaraki, "Solving the irregular strip packing problem via guided local search for overlap
//! minimization", 2009; Gardeyn, Vanden Berghe and Wauters on overlap by sampling, 2025; all from memory), and all
//! pieces pushed off each other at once where single moves no longer help. What the search found in floats counts only
//! when it was checked on whole numbers.
//!
//! Outlines of many corners are searched coarser, by polygons that hold them, and brought closer by their own at the
//! end. Many pieces are laid as one block that repeats. Two threads, each with its own steps and seed, are joined in a
//! fixed order: the same problem, seed and steps give the same layout.
//!
//! Never here: a claim that a layout is the best, unless its length is the bound.

mod blocks;
mod bottom_left;
mod coarse;
mod crowd;
mod depth;
mod depths;
mod forbidden;
mod geometry;
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
mod trials;

pub(super) use sector::sector;

use super::effort::Steps;
use crate::quantity::number;
use layout::{Lay, Pairs, Piece, Table};

/// How far a piece is turned, counter-clockwise from along towards across.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Turn {
    None,
    Quarter,
    Half,
    ThreeQuarters,
}

impl Turn {
    pub(super) const ALL: [Self; 4] = [Self::None, Self::Half, Self::Quarter, Self::ThreeQuarters];
}

/// Equal pieces: a simple polygon without holes, and how it may lie.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    /// Its corners, along and across, either way round.
    pub(super) corners: Vec<(i64, i64)>,
    pub(super) count: i64,
    /// It may be turned by half a turn.
    pub(super) half: bool,
    /// It may be turned by a quarter and by three.
    pub(super) quarter: bool,
    /// Half of the count is mirrored: low and high across change places, before any turn.
    pub(super) mirror: bool,
    /// Its low corner along must lie at the first of these or so many times the second behind it.
    pub(super) starts: Option<(i64, i64)>,
    /// Its low corner across must lie at zero.
    pub(super) at_edge: bool,
}

/// A length of the strip.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    pub(super) width: i64,
    /// Its length; none for as long as needed, which only the last may be.
    pub(super) length: Option<i64>,
}

/// What is to be laid on what.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub(super) stretches: Vec<Stretch>,
    pub(super) shapes: Vec<Shape>,
    /// The least distance between pieces; the borders of the strip need none.
    pub(super) gap: i64,
}

/// Where a piece lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Spot {
    pub(super) shape: usize,
    pub(super) stretch: usize,
    /// The low corner of its box, as it lies.
    pub(super) along: i64,
    pub(super) across: i64,
    pub(super) turn: Turn,
    /// Mirrored first, then turned.
    pub(super) mirrored: bool,
}

/// Where everything lies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Answer {
    pub(super) spots: Vec<Spot>,
    /// The length used of the last stretch.
    pub(super) length: i64,
    /// The shapes that found no place, and how many of each.
    pub(super) unplaced: Vec<(usize, i64)>,
    /// What the last stretch takes at least for the pieces on it: their area over its width, the longest of them.
    pub(super) bound: i64,
}

/// The largest coordinate and width.
const FARTHEST: i64 = 20_000_000_000_000;
/// The most pieces.
const MOST_PIECES: i64 = 2_000_000;
/// The most corners of a shape, and of all together.
const MOST_CORNERS: usize = 1300;
const MOST_CORNERS_IN_ALL: usize = 100_000;
/// Up to so many pieces, bottom-left fill is tried on a stretch of given length.
const FEW: usize = 400;

/// Lays the pieces; nothing for a problem that is none: no stretch, a width below one, an endless stretch before the
/// last, corners of no simple polygon, an odd count of mirrored pairs, numbers beyond all measure.
pub(super) fn solve(problem: &Problem, seed: u64, steps: &mut Steps<'_>) -> Option<Answer> {
    check(problem)?;
    let wardrobe = outline::wardrobe(&problem.shapes)?;
    let pairs = Pairs::new(&wardrobe.outlines, problem.gap, steps);
    let mut pieces: Vec<Piece> = Vec::new();
    for (kind, shape) in problem.shapes.iter().enumerate() {
        let mirrored = if shape.mirror { shape.count / 2 } else { 0 };
        pieces.extend(std::iter::repeat_n((kind, false), number::count(shape.count - mirrored)?));
        pieces.extend(std::iter::repeat_n((kind, true), number::count(mirrored)?));
    }
    let mut spots = Vec::with_capacity(pieces.len());
    let (mut length, mut bound) = (0, 0);
    for (at, stretch) in problem.stretches.iter().enumerate() {
        let table = Table { wardrobe: &wardrobe, pairs: &pairs, width: stretch.width, gap: problem.gap };
        let (lays, left) = match stretch.length {
            Some(limit) => limited(&table, &pieces, limit, steps),
            None => strip::lay(&table, &pieces, seed, steps),
        };
        length = table.length(&lays);
        bound = least_length(&table, &lays);
        spots.extend(lays.iter().map(|lay| spot(lay, at)));
        pieces = left;
    }
    Some(Answer { spots, length, unplaced: counted(&pieces), bound })
}

fn check(problem: &Problem) -> Option<()> {
    let (last, others) = problem.stretches.split_last()?;
    let measured = others.iter().all(|stretch| stretch.length.is_some());
    let sound = |stretch: &Stretch| {
        (1..=FARTHEST).contains(&stretch.width)
            && stretch.length.is_none_or(|length| (0..=i64::MAX / 4).contains(&length))
    };
    if !measured || !problem.stretches.iter().all(sound) || !(0..=FARTHEST).contains(&problem.gap) {
        return None;
    }
    if problem.shapes.iter().map(|shape| shape.corners.len()).sum::<usize>() > MOST_CORNERS_IN_ALL {
        return None;
    }
    let mut total = 0i64;
    // The pieces one behind the other: what no layout here is longer than.
    let mut longest = i128::from(last.length.unwrap_or(0));
    for shape in &problem.shapes {
        let near = |corner: &(i64, i64)| corner.0.abs() <= FARTHEST / 2 && corner.1.abs() <= FARTHEST / 2;
        let (first, every) = shape.starts.unwrap_or((0, 1));
        let sound = shape.count >= 0
            && shape.corners.len() <= MOST_CORNERS
            && shape.corners.iter().all(near)
            && !(shape.mirror && shape.count % 2 != 0)
            && (0..=i64::MAX / 8).contains(&first)
            && (1..=i64::MAX / 8).contains(&every);
        if !sound {
            return None;
        }
        total = total.checked_add(shape.count).filter(|&total| total <= MOST_PIECES)?;
        let (low, high) = geometry::around(&shape.corners);
        let size = (high.0 - low.0).max(high.1 - low.1);
        let each = i128::from(size) + i128::from(every) + i128::from(problem.gap);
        longest = longest.max(i128::from(first)) + each * i128::from(shape.count);
    }
    (longest < i128::from(i64::MAX / 4)).then_some(())
}

/// Fills a stretch of given length: the largest pieces first.
fn limited(table: &Table<'_>, pieces: &[Piece], limit: i64, steps: &mut Steps<'_>) -> (Vec<Lay>, Vec<Piece>) {
    let area = |lays: &[Lay]| {
        lays.iter().filter_map(|lay| table.wardrobe.kinds.get(lay.kind)).map(|kind| kind.twice_area).sum::<i128>()
    };
    let shelves = shelves::fill(table, pieces, Some(limit));
    if table.pairs.is_empty() || pieces.len() > FEW || !steps.take(0) {
        return shelves;
    }
    let areas = |kind: usize, _: &outline::Outline| table.wardrobe.kinds.get(kind).map(|kind| kind.twice_area);
    let filled = bottom_left::fill(table, &table.sorted(pieces, areas), Some(limit), steps);
    if area(&filled.0) >= area(&shelves.0) && table.is_right(&filled.0) { filled } else { shelves }
}

fn least_length(table: &Table<'_>, lays: &[Lay]) -> i64 {
    let mut area = 0;
    let mut longest = 0;
    for group in lays.chunk_by(|one, other| (one.kind, one.mirrored) == (other.kind, other.mirrored)) {
        let Some((first, kind)) = group.first().and_then(|lay| Some((lay, table.wardrobe.kinds.get(lay.kind)?))) else {
            continue;
        };
        area += kind.twice_area * i128::from(number::from_size(group.len()));
        let poses = table.wardrobe.fitting(first.kind, first.mirrored, table.width);
        let long = poses.into_iter().map(|pose| table.size(pose).0).min().unwrap_or(0);
        longest = longest.max(kind.begin(0) + long);
    }
    let twice = i128::from(table.width) * 2;
    i64::try_from((area + twice - 1) / twice).unwrap_or(0).max(longest)
}

fn spot(lay: &Lay, stretch: usize) -> Spot {
    Spot { shape: lay.kind, stretch, along: lay.along, across: lay.across, turn: lay.pose.turn, mirrored: lay.mirrored }
}

fn counted(pieces: &[Piece]) -> Vec<(usize, i64)> {
    let mut kinds: Vec<usize> = pieces.iter().map(|piece| piece.0).collect();
    kinds.sort_unstable();
    kinds
        .chunk_by(|one, other| one == other)
        .filter_map(|group| Some((*group.first()?, number::from_size(group.len()))))
        .collect()
}
