//! The shape of a piece, in its own frame: along the piece and across it.
//!
//! Never here: rounding sizes, how the piece lies on the cloth.

use crate::quantity::Length;
use serde::{Deserialize, Serialize};
use std::f64::consts::{FRAC_PI_2, TAU};

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
        /// The share of a whole turn: 1 for a full ring, 0.5 for a half.
        turn: f64,
    },
    /// Any outline, given by its corners in order; it closes by itself, and may touch but not cross itself.
    Outline(Vec<OutlinePoint>),
}

/// The bounding rectangle of a shape, in the shape's own frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Its size along the piece.
    pub along: Length,
    /// Its size across the piece.
    pub across: Length,
}

impl Shape {
    /// Whether it takes the full width of the goods.
    pub fn is_full_width(&self) -> bool {
        matches!(self, Self::FullWidth { .. })
    }

    /// The bounding rectangle of the exact shape. A full width is zero across.
    pub(crate) fn rectangle_round(&self) -> Room {
        let corner = |along, across| OutlinePoint { along, across };
        let points: Vec<OutlinePoint> = match self {
            Self::Outline(points) => points.clone(),
            Self::Sector { inner, outer, turn } => {
                let sweep = TAU * turn;
                let at = |radius: Length, angle: f64| corner(radius * angle.cos(), radius * angle.sin());
                let quarters = (0..4_u8).map(|quarter| f64::from(quarter) * FRAC_PI_2).filter(|angle| *angle <= sweep);
                let ends = [at(*inner, 0.0), at(*inner, sweep), at(*outer, sweep)];
                quarters.map(|angle| at(*outer, angle)).chain(ends).collect()
            }
            Self::Rectangle { along, across } => vec![corner(Length::ZERO, Length::ZERO), corner(*along, *across)],
            Self::FullWidth { along } => vec![corner(Length::ZERO, Length::ZERO), corner(*along, Length::ZERO)],
        };
        let spread = |pick: fn(&OutlinePoint) -> Length| {
            let mut places = points.iter().map(pick);
            let Some(first) = places.next() else { return Length::ZERO };
            let (least, most) =
                places.fold((first, first), |(least, most), place| (least.least(place), most.most(place)));
            most - least
        };
        Room { along: spread(|point| point.along), across: spread(|point| point.across) }
    }
}

/// A corner of an outline.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OutlinePoint {
    /// Its place along the piece.
    pub along: Length,
    /// Its place across the piece.
    pub across: Length,
}
