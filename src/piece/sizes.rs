//! A shape with exact sizes, a shape with cut sizes, and the only way from the first to the second.
//!
//! Never here: which piece has which.

use super::lie::Grain;
use super::marks::{cut_size, mark_of, up_to};
use super::piece::{CutPiece, Piece};
use super::shape::{Room, Shape};
use crate::quantity::{Length, Style};
use serde::{Deserialize, Serialize};
use std::ops::Deref;

/// A shape with the sizes that a recipe worked out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Exact(Shape);

/// A shape with the sizes it is cut at: those of a rectangle and a full width stand at marks of the tape. Radii and
/// corners stay exact, and the room round them goes up to a mark.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AtMark {
    shape: Shape,
    mark: Option<Length>,
}

impl From<Shape> for Exact {
    fn from(shape: Shape) -> Self {
        Self(shape)
    }
}

impl Deref for Exact {
    type Target = Shape;

    fn deref(&self) -> &Shape {
        &self.0
    }
}

/// Takes sizes as cut sizes, as somebody wrote them in a list of pieces; the room round a shape is taken as it is.
impl From<Shape> for AtMark {
    fn from(shape: Shape) -> Self {
        Self { shape, mark: None }
    }
}

impl Deref for AtMark {
    type Target = Shape;

    fn deref(&self) -> &Shape {
        &self.shape
    }
}

impl AtMark {
    /// The marks of the tape that the room round a sector or an outline goes up to, so that marks along the cloth
    /// add up as they are shown; `None` where the room is taken as it is.
    pub fn mark(&self) -> Option<Length> {
        self.mark
    }

    /// The rectangle round the shape, both sizes up to a mark.
    pub fn room(&self) -> Room {
        let Room { along, across } = self.shape.rectangle_round();
        let up = |size| self.mark.map_or(size, |mark| up_to(size, mark));
        Room { along: up(along), across: up(across) }
    }
}

impl Piece<Exact> {
    /// The piece with cut sizes. `width` is the usable width of the goods: where the mark lies beyond the edge of
    /// a cloth that the size itself does not pass, the size stays, because there is no more cloth.
    pub fn at_marks(&self, width: Option<Length>, style: &Style) -> CutPiece {
        let cut = |size: Length| cut_size(size, self.never_smaller, style);
        let on_cloth = |size: Length, lies_across: bool| {
            let is_beyond = |width: Length| lies_across && cut(size) > width && size <= width;
            if width.is_some_and(is_beyond) { size } else { cut(size) }
        };
        let shape = match &*self.shape {
            Shape::Rectangle { along, across } => {
                let turned = self.grain == Grain::Across;
                Shape::Rectangle { along: on_cloth(*along, turned), across: on_cloth(*across, !turned) }
            }
            Shape::FullWidth { along } => Shape::FullWidth { along: cut(*along) },
            drawn @ (Shape::Sector { .. } | Shape::Outline(_)) => drawn.clone(),
        };
        let mark = mark_of(self.shape.rectangle_round().along, style);
        self.resized(AtMark { shape, mark: Some(mark) })
    }
}

impl CutPiece {
    /// The piece with the marks that the room round its shape goes up to.
    #[must_use]
    pub fn with_mark(mut self, mark: Option<Length>) -> Self {
        self.shape.mark = mark;
        self
    }
}
