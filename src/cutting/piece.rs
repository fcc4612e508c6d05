//! What is to be cut: one entry of a cut list, with its shape, its grain and what is allowed with it.
//!
//! Sizes are cut sizes, unfolded, in the piece's own frame, and already rounded to the marks of the
//! tape where that is wanted: a plan places what it is given. Only the room round a curved or slanting
//! piece is the plan's own, and goes up to a mark. Only the grain ties the frame to the cloth.
//!
//! Never here: cloth, stock, placing.

use crate::quantity::Length;

/// One entry of a cut list.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPiece {
    /// What the maker calls it.
    pub name: String,
    /// The order it is cut for, so that every piece keeps its order's mark.
    pub order: Option<String>,
    /// How many single pieces; a mirrored pair is two, a piece on the fold is one.
    pub count: i64,
    /// Its shape and cut size.
    pub shape: CutShape,
    /// How its frame lies on the cloth.
    pub grain: Grain,
    /// The line of the piece that may lie on a fold of the cloth. The shape is the whole piece all the same.
    pub on_fold: Option<Fold>,
    /// Half of the pieces are cut as mirror images of the others.
    pub mirrored: bool,
    /// Head up as drawn: it is never turned half round, nor a quarter by choice, even on cloth without a nap.
    pub one_way: bool,
    /// How many of the count go into one garment, so that a garment's pieces come from one lot; all of them where
    /// it is not known.
    pub per_garment: Option<i64>,
    /// Every piece starts at the same place of the pattern, where the cloth has one.
    pub matched: bool,
    /// On a half drop, too, all start level, because none is joined beside another.
    pub level: bool,
    /// How it may be pieced together when it does not fit whole; none where it must be whole.
    pub may_join: Option<JoinRule>,
    /// When its size is rounded to a mark of the tape it goes up. Carried for the cutting sheet: a plan rounds nothing.
    pub never_smaller: bool,
    /// The marks of the tape that the room round a sector or an outline goes up to, so that marks along the cloth
    /// add up as they are shown; none where the room is taken as it is.
    pub mark: Option<Length>,
}

impl CutPiece {
    /// So many pieces of a shape: with the grain, whole, unmatched, for no order in particular.
    pub fn new(name: &str, count: i64, shape: CutShape) -> Self {
        Self {
            name: name.to_owned(),
            order: None,
            count,
            shape,
            grain: Grain::Along,
            on_fold: None,
            mirrored: false,
            one_way: false,
            per_garment: None,
            matched: false,
            level: false,
            may_join: None,
            never_smaller: false,
            mark: None,
        }
    }
}

/// The shape of a piece, in its own frame.
#[derive(Clone, Debug, PartialEq)]
pub enum CutShape {
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
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutlinePoint {
    /// Its place along the piece.
    pub along: Length,
    /// Its place across the piece.
    pub across: Length,
}

/// How a piece's frame lies on the cloth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Grain {
    /// Along the piece runs with the selvedge.
    #[default]
    Along,
    /// Along the piece runs from selvedge to selvedge.
    Across,
    /// Along the piece runs at 45 degrees to the selvedge.
    Bias,
    /// With the selvedge or across it, whichever takes less. On napped cloth this means along: a piece
    /// turned a quarter there looks another shade.
    Any,
}

/// The line of a piece that may lie on a fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fold {
    /// The middle line that runs along the piece.
    Along,
    /// The middle line that runs across the piece.
    Across,
}

/// How a piece may be pieced together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JoinRule {
    /// The most joins in one piece.
    pub most: i64,
    /// The shortest part, its allowances included, measured in the direction that is joined.
    pub shortest: Length,
    /// Seam allowance at each side of a join; a join takes two.
    pub allowance: Length,
}
