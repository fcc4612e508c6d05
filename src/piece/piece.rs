//! What is to be cut: one entry of a cut list, with its shape, its grain and what is allowed with it.
//!
//! Sizes are cut sizes, unfolded, in the piece's own frame, and already rounded to the marks of the
//! tape where that is wanted: a plan places what it is given. Only the room round a curved or slanting
//! piece is the plan's own, and goes up to a mark. Only the grain ties the frame to the cloth.
//!
//! Never here: cloth, stock, placing.

use super::join_rule::JoinRule;
use super::lie::{Fold, Grain};
use super::shape::Shape;
use crate::quantity::Length;
use serde::{Deserialize, Serialize};

/// One entry of a cut list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutPiece {
    /// What the maker calls it.
    pub name: String,
    /// The order it is cut for, so that every piece keeps its order's mark.
    pub order: Option<String>,
    /// How many single pieces; a mirrored pair is two, a piece on the fold is one.
    pub count: i64,
    /// Its shape and cut size.
    pub shape: Shape,
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
    pub fn new(name: &str, count: i64, shape: Shape) -> Self {
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
