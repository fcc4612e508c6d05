//! What a picture of pieces is drawn from: each piece with its letter, its edge and its marks.
//!
//! Never here: drawing; what a recipe's words for a mark mean.

use crate::piece::{Fold, Grain, OutlinePoint};
use crate::quantity::Length;

/// A piece to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct DrawnPiece {
    /// Its letters in the lay: one, or several where it is joined from parts or cut into widths; `B to F` is a run.
    pub letters: Vec<String>,
    /// What it is called.
    pub name: String,
    /// Lines below it: count, sizes, how it lies.
    pub notes: Vec<String>,
    /// Its edge.
    pub shape: DrawnShape,
    /// How it lies on the cloth, which gives the thread direction in the piece's own frame.
    pub grain: Grain,
    /// Whether it has a way up, of its own or from the nap of its cloth.
    pub one_way: bool,
    /// The middle line that is on a fold: along the piece, or across it.
    pub fold: Option<Fold>,
    /// The marks to make on it.
    pub marks: Vec<DrawnMark>,
}

/// The edge of a piece in its own frame.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum DrawnShape {
    /// A rectangle.
    Rectangle {
        /// Along the piece.
        along: Length,
        /// Across it.
        across: Length,
    },
    /// Corners in order; it closes by itself.
    Corners(Vec<OutlinePoint>),
    /// A length of the goods over their full width, with selvedges at both sides.
    FullWidth {
        /// Along the goods.
        along: Length,
        /// Their width.
        width: Length,
    },
    /// A ring or a part of one.
    Sector {
        /// Inner radius.
        inner: Length,
        /// Outer radius.
        outer: Length,
        /// Share of a whole turn, at most 1.
        turn: f64,
    },
}

/// A mark to make on a piece.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct DrawnMark {
    /// What it is.
    pub name: String,
    /// How far from there.
    pub distance: Length,
    /// Where the distance starts, in the recipe's words.
    pub from: String,
    /// Where it is drawn.
    pub place: MarkPlace,
}

/// Where a mark is, in the piece's own frame.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum MarkPlace {
    /// Lines over the whole piece at these distances up from its lower edge.
    Levels(Vec<Length>),
    /// Lines over the whole piece at these distances from its left edge.
    Columns(Vec<Length>),
    /// Notches in both long edges at these distances from the lower, or the left, end.
    Notches(Vec<Length>),
    /// A notch at either side of the middle of the upper edge, measured along the edge.
    HeadNotches(Length),
    /// A line round the middle of a sector at this radius.
    Ring(Length),
    /// A slit from the inner edge of a sector this far down its middle.
    Slit(Length),
    /// Only told below the piece.
    Told,
}
