//! Pieces in their places, in whole nanometres: what every planner answers, before it is a plan with names.
//!
//! Never here: deciding where anything goes.

use super::extent::Extent;
use super::plan::JoinedPart;
use crate::piece::{Layers, Lie};

/// Where everything lies.
#[derive(Clone, Debug, Default)]
pub(super) struct Layout {
    /// The lengths taken up. Those of one source are numbered in this order.
    pub(super) taken: Vec<Taken>,
    /// Shaped pieces lie by their outlines, not by the rectangles round them.
    pub(super) by_outline: bool,
}

/// A length that is cut.
#[derive(Clone, Debug)]
pub(super) struct Taken {
    /// Its place in the list of sources.
    pub(super) source: usize,
    /// Which one of its source it is, where that is settled.
    pub(super) number: Option<i64>,
    /// What lies on it.
    pub(super) placed: Vec<Placed>,
    /// Where the last cut ends.
    pub(super) end: i64,
    /// It is folded lengthwise.
    pub(super) folded: bool,
    /// What is left beside the pieces.
    pub(super) offcuts: Vec<Patch>,
}

/// A piece or part in its place; marks across are those of the opened cloth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    pub(super) entry: usize,
    pub(super) number: i64,
    pub(super) part: Option<JoinedPart>,
    pub(super) lie: Lie,
    pub(super) reversed: bool,
    pub(super) through: Layers,
    pub(super) from: i64,
    pub(super) across_from: i64,
    pub(super) extent: Extent,
}

/// A rectangle on a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Patch {
    pub(super) from: i64,
    pub(super) to: i64,
    pub(super) across_from: i64,
    pub(super) across_to: i64,
}

impl Placed {
    /// The rectangle round it.
    pub(super) fn patch(&self) -> Patch {
        Patch {
            from: self.from,
            to: self.from + self.extent.along,
            across_from: self.across_from,
            across_to: self.across_from + self.extent.across,
        }
    }
}

impl Layout {
    /// All length laid, from the start of each length to its last cut.
    pub(super) fn laid(&self) -> i64 {
        self.taken.iter().map(|taken| taken.end).sum()
    }
}
