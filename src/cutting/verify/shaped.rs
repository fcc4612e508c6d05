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
    known: BTreeMap<(usize, Lie, bool, bool), Option<Arc<Outline>>>,
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
        if !shaped {
            return None;
        }
        let lying = Lying { lie: cut.lie, reversed: cut.reversed, mirrored: cut.mirrored };
        let outline = || lying.outline(&piece.shape).map(Arc::new);
        self.known.entry((cut.entry, cut.lie, cut.reversed, cut.mirrored)).or_insert_with(outline).clone()
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::tests::scene::{nm, oblong};
    use crate::piece::OutlinePoint;
    use crate::quantity::Length;

    fn drawn(corners: &[(f64, f64)]) -> Shape {
        let length = Length::from_steps;
        let corner = |(along, across): &(f64, f64)| OutlinePoint { along: length(*along), across: length(*across) };
        Shape::Outline(corners.iter().map(corner).collect())
    }

    #[test]
    fn an_outline_has_three_corners_that_can_be_read_and_does_not_cross_itself() {
        for (corners, wanted) in [
            (&[(0.0, 0.0), (30.0, 0.0), (0.0, 20.0)][..], true),
            (&[(0.0, 0.0), (30.0, 0.0)], false),
            (&[], false),
            (&[(0.0, 0.0), (30.0, f64::NAN), (0.0, 20.0)], false),
            (&[(0.0, 0.0), (f64::INFINITY, 0.0), (0.0, 20.0)], false),
            (&[(0.0, 0.0), (30.0, 20.0), (30.0, 0.0), (0.0, 20.0)], false),
        ] {
            assert_eq!(is_valid_outline(&drawn(corners)), wanted, "{corners:?}");
        }
        assert!(is_valid_outline(&Shape::FullWidth { along: nm(30) }));
    }

    fn cut(through: Layers) -> Cut {
        Cut {
            entry: 0,
            number: 1,
            piece: "panel".into(),
            order: None,
            from: nm(0),
            to: nm(0),
            across_from: nm(0),
            across_to: nm(0),
            lie: Lie::Along,
            through,
            reversed: false,
            mirrored: false,
            part: None,
        }
    }

    /// A rectangle of 30 by 70, seen from a corner that lies 7 before it and 40 to its side.
    #[test]
    fn a_rectangle_is_seen_between_its_marks_from_the_corner_of_another() {
        let patch = Patch { from: 10, to: 40, across_from: 100, across_to: 170 };
        let base = Patch { from: 3, to: 5, across_from: 60, across_to: 65 };
        let pieces = [oblong("panel", 1, 30, 70)];
        for through in [Layers::One, Layers::Both, Layers::Fold] {
            let cut = cut(through);
            let placed = PlacedCut::of(&cut, patch, 200, &mut Outlines::of(&pieces));
            let corners: Vec<_> =
                placed.corners(base).into_iter().map(|corner| (corner.along, corner.across)).collect();
            assert_eq!(corners, [(7, 40), (37, 40), (37, 110), (7, 110)], "{through:?}");
        }
    }

    /// A triangle of 3000 by 6900 in room of 3000 by 7000, 4 nm within its edges: at the near mark, at the far one of the far
    /// layer, and on the fold in the middle.
    #[test]
    fn what_room_a_drawn_piece_leaves_lies_behind_it_before_it_or_on_both_sides() {
        let pieces = [CutPiece::new("panel", 1, drawn(&[(0.0, 0.0), (3_000.0, 0.0), (0.0, 6_900.0)]))];
        let least = |through, across_from| {
            let patch = Patch { from: 10, to: 3_010, across_from, across_to: across_from + 7_000 };
            let cut = cut(through);
            let placed = PlacedCut::of(&cut, patch, 20_000, &mut Outlines::of(&pieces));
            placed.corners(patch).into_iter().map(|corner| corner.across).min().unwrap()
        };
        assert_eq!((least(Layers::One, 0), least(Layers::One, 13_000)), (4, 4));
        assert_eq!((least(Layers::Both, 3_000), least(Layers::Both, 13_000)), (4, 104));
        assert_eq!(least(Layers::Fold, 6_500), 54);
    }

    #[test]
    fn the_farther_half_begins_at_the_fold_or_half_a_nanometre_before() {
        let farther =
            |across_from, width| is_farther(Patch { from: 0, to: 9, across_from, across_to: across_from + 70 }, width);
        assert!(farther(100, 200) && farther(100, 201) && !farther(99, 200) && !farther(99, 201) && farther(101, 201));
    }
}
