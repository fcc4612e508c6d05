//! The shape of a piece, in its own frame: along the piece and across it.
//!
//! Never here: what sizes are rounded to, how the piece lies on the cloth.

use crate::quantity::Length;
use serde::{Deserialize, Serialize};

/// The shape of a piece, in its own frame.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Shape {
    /// A rectangle.
    Rectangle {
        /// Its size along the piece.
        along: Length,
        /// Its size across the piece.
        across: Length,
    },
    /// A length of the goods over their full width: a strip off a roll, a drop of curtain.
    FullWidth {
        /// How much of the goods' length it takes.
        along: Length,
    },
    /// A part of a ring: a circle skirt, a flounce. The first straight edge lies along the piece and the
    /// rest turns from it, so a half circle is twice its outer radius along and once across.
    Sector {
        /// Radius of the inner edge; zero for a sector that reaches the middle.
        inner: Length,
        /// Radius of the outer edge.
        outer: Length,
        /// Which share of the whole turn it is: 1 for a full ring, 0.5 for a half.
        turn: f64,
    },
    /// Any outline, given by its corners in turn; it closes by itself, and may touch itself but not cross itself.
    Outline(Vec<OutlinePoint>),
}

/// A corner of an outline.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OutlinePoint {
    /// Its place along the piece.
    pub along: Length,
    /// Its place across the piece.
    pub across: Length,
}
