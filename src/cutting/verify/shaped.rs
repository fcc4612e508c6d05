//! Cuts in their places, shaped ones with their true outlines: which outlines are valid, and which cuts overlap.
//!
//! Never here: how an outline is made from a shape, exact tests on outlines.

use super::lying::{Lying, Outline};
use super::overlap::Patch;
use super::polygon::{Corner, crosses_itself, overlap};
use crate::cutting::plan::Cut;
use crate::piece::{CutPiece, Shape};
use crate::piece::{Layers, Lie};
use crate::quantity::number;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Whether an outline encloses something and does not cross itself; other shapes are judged by their room.
pub(super) fn is_valid_outline(shape: &Shape) -> bool {
    let Shape::Outline(points) = shape else { return true };
    let corner = |point: &crate::piece::OutlinePoint| {
        Some(Corner {
            along: number::nearest_whole(point.along.steps())?,
            across: number::nearest_whole(point.across.steps())?,
        })
    };
    let corners: Option<Vec<Corner>> = points.iter().map(corner).collect();
    corners.is_some_and(|corners| corners.len() > 2 && !crosses_itself(corners))
}

/// The outlines of shaped pieces for each way they lie, each made once.
pub(super) struct Outlines<'a> {
    pieces: &'a [CutPiece],
    known: BTreeMap<(usize, u8, bool, bool), Option<Arc<Outline>>>,
}

impl<'a> Outlines<'a> {
    pub(super) fn of(pieces: &'a [CutPiece]) -> Self {
        Self { pieces, known: BTreeMap::new() }
    }

    /// The outline of a cut; `None` if it is the rectangle between its marks.
    fn outline(&mut self, cut: &Cut) -> Option<Arc<Outline>> {
        let piece = self.pieces.get(cut.entry)?;
        let shaped = match *piece.shape {
            Shape::Sector { .. } | Shape::Outline(_) => true,
            Shape::Rectangle { .. } => cut.lie == Lie::Bias,
            Shape::FullWidth { .. } => false,
        };
        if !shaped || cut.part.is_some() {
            return None;
        }
        let lie = match cut.lie {
            Lie::Along => 0,
            Lie::Across => 1,
            Lie::Bias => 2,
        };
        let lying = Lying { lie: cut.lie, reversed: cut.reversed, mirrored: cut.mirrored };
        let outline = || lying.outline(&piece.shape).map(Arc::new);
        self.known.entry((cut.entry, lie, cut.reversed, cut.mirrored)).or_insert_with(outline).clone()
    }
}

/// A cut in its place.
pub(super) struct PlacedCut<'a> {
    pub(super) cut: &'a Cut,
    /// The room between its marks.
    pub(super) patch: Patch,
    /// Its outline, if that is not the whole room.
    pub(super) outline: Option<Arc<Outline>>,
    /// Distance across from the start of its room to its outline.
    shift: i64,
}

impl<'a> PlacedCut<'a> {
    /// A cut between its marks on a length of this width.
    pub(super) fn of(cut: &'a Cut, patch: Patch, width: i64, outlines: &mut Outlines<'_>) -> Self {
        let outline = outlines.outline(cut);
        let spare = outline.as_ref().map_or(0, |outline| patch.across_to - patch.across_from - outline.across);
        let shift = match cut.through {
            Layers::Both if is_farther(patch, width) => spare,
            Layers::Fold => spare.div_euclid(2),
            Layers::One | Layers::Both => 0,
        };
        Self { cut, patch, outline, shift }
    }

    /// Whether the two are judged by their outlines and not by their rooms.
    pub(super) fn is_shaped_beside(&self, other: &Self) -> bool {
        self.outline.is_some() || other.outline.is_some()
    }

    /// Whether the outlines of the two cuts overlap.
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        overlap(&self.corners(self.patch), &other.corners(self.patch))
    }

    /// Its corners, relative to the low corner of a patch.
    fn corners(&self, base: Patch) -> Vec<Corner> {
        let (along, across) = (self.patch.from - base.from, self.patch.across_from - base.across_from);
        let moved =
            |corner: &Corner| Corner { along: corner.along + along, across: corner.across + across + self.shift };
        if let Some(outline) = &self.outline {
            return outline.corners.iter().map(moved).collect();
        }
        let (long, wide) = (self.patch.to - self.patch.from, self.patch.across_to - self.patch.across_from);
        [(0, 0), (long, 0), (long, wide), (0, wide)]
            .iter()
            .map(|(along, across)| moved(&Corner { along: *along, across: *across }))
            .collect()
    }
}

/// Whether it lies on the far half of folded cloth; marks across begin at the near half.
pub(super) fn is_farther(patch: Patch, width: i64) -> bool {
    2 * patch.across_from >= width - 1
}
