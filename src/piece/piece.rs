//! A piece to be cut: its shape, how it lies on the cloth and what is allowed with it.
//!
//! Sizes are cut sizes of the unfolded piece, in its own frame. Only the grain ties that frame to the cloth.
//!
//! Never here: what it is cut from, placing.

use super::join_rule::JoinRule;
use super::lie::{Fold, Grain};
use super::matching::Matching;
use super::panels::{Edge, MatchLine, Panels};
use super::shape::Shape;
use super::sizes::AtMark;
use crate::quantity::Length;
use serde::{Deserialize, Serialize};

/// A piece whose shape has [`Exact`](super::Exact) sizes, as a recipe works them out, or sizes [`AtMark`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Piece<S> {
    /// What the maker calls it.
    pub name: String,
    /// The order it is cut for, so that every piece keeps its order's mark; `None` within a single order.
    pub order: Option<String>,
    /// How many single pieces; a mirrored pair is two, a piece on the fold is one.
    pub count: i64,
    /// The whole piece, unfolded.
    pub shape: S,
    /// How its frame lies on the cloth.
    pub grain: Grain,
    /// The line of the piece that may lie on a fold of the cloth. The shape is the whole piece even so.
    pub on_fold: Option<Fold>,
    /// Half of the pieces are cut as mirror images of the others.
    pub mirrored: bool,
    /// Head up as drawn: never turned half round, nor a quarter by choice, even on cloth without a nap.
    pub one_way: bool,
    /// How many of the count go into one garment, so that a garment's pieces come from one lot; `None` if unknown,
    /// and then all of them come from one lot.
    pub per_garment: Option<i64>,
    /// Where each starts on the pattern, if the cloth has one; `None` if that does not matter.
    pub matching: Option<Matching>,
    /// The line of it that stands at the same place of the pattern on every piece, if it is matched by one.
    pub line: Option<MatchLine>,
    /// What of its length is turned or hidden at an edge, if the recipe says so.
    pub allowed: Vec<(Edge, Length)>,
    /// The panels that it is the widths of; `None` if its pieces are not joined side by side.
    pub panels: Option<Panels>,
    /// How it may be pieced together if it does not fit whole; `None` if it must be whole.
    pub may_join: Option<JoinRule>,
    /// When a size is rounded to a mark of the tape it goes up. A plan rounds nothing.
    pub never_smaller: bool,
}

/// An entry of a cut list; a plan uses its sizes unrounded.
pub type CutPiece = Piece<AtMark>;

impl<S: From<Shape>> Piece<S> {
    /// `count` pieces of a shape: with the grain, whole, unmatched, for no order in particular.
    pub fn new(name: &str, count: i64, shape: Shape) -> Self {
        Self {
            name: name.to_owned(),
            order: None,
            count,
            shape: shape.into(),
            grain: Grain::Along,
            on_fold: None,
            mirrored: false,
            one_way: false,
            per_garment: None,
            matching: None,
            line: None,
            allowed: Vec::new(),
            panels: None,
            may_join: None,
            never_smaller: false,
        }
    }
}

impl<S> Piece<S> {
    /// The same piece with other sizes.
    pub(super) fn resized<T>(&self, shape: T) -> Piece<T> {
        Piece {
            name: self.name.clone(),
            order: self.order.clone(),
            count: self.count,
            shape,
            grain: self.grain,
            on_fold: self.on_fold,
            mirrored: self.mirrored,
            one_way: self.one_way,
            per_garment: self.per_garment,
            matching: self.matching.clone(),
            line: self.line,
            allowed: self.allowed.clone(),
            panels: self.panels.clone(),
            may_join: self.may_join,
            never_smaller: self.never_smaller,
        }
    }
}
