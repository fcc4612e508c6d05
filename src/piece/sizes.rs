//! A shape with exact sizes, a shape with cut sizes, and the only way from the first to the second.
//!
//! Never here: which piece has which.

use super::marks::up_to;
use super::shape::{Room, Shape};
use crate::quantity::Length;
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
    pub(super) fn new(shape: Shape, mark: Option<Length>) -> Self {
        Self { shape, mark }
    }

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
