//! A type for shapes with exact sizes and one for shapes with cut sizes.
//!
//! Never here: which piece has which; the conversion.

use super::marks::up_to;
use super::shape::{Room, Shape};
use crate::quantity::Length;
use serde::{Deserialize, Serialize};
use std::ops::Deref;

/// A shape with the sizes that a recipe computed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Exact(Shape);

/// A shape with the sizes it is cut at: those of a rectangle and a full width are at marks of the tape. Radii and
/// corners stay exact, and the room round them is rounded up to a mark.
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

/// Takes sizes as cut sizes, as written in a list of pieces; the room round the shape is not rounded.
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
    pub(super) fn new(shape: Shape, mark: Option<Length>) -> Self {
        Self { shape, mark }
    }

    /// The mark that the room round a sector or an outline is rounded up to, so that marks along the cloth add up as
    /// shown; `None` if the room is not rounded.
    pub fn mark(&self) -> Option<Length> {
        self.mark
    }

    /// The bounding rectangle of the shape, both sizes rounded up to a mark.
    pub fn room(&self) -> Room {
        let Room { along, across } = self.shape.rectangle_round();
        let up = |size| self.mark.map_or(size, |mark| up_to(size, mark));
        Room { along: up(along), across: up(across) }
    }
}
