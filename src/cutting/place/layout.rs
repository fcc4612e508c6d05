//! Pieces in their places, in whole nanometres: what every planner answers, before it is a plan with names.
//!
//! Never here: deciding where anything goes.

use crate::cutting::place::extent::Extent;
use crate::cutting::plan::JoinedPart;
use crate::piece::{Layers, Lie};

/// Where everything lies.
#[derive(Clone, Debug, Default)]
pub(in crate::cutting) struct Layout {
    /// The lengths taken up. Those of one source are numbered in this order.
    pub(in crate::cutting) taken: Vec<Taken>,
    /// Shaped pieces lie by their outlines, not by the rectangles round them.
    pub(in crate::cutting) by_outline: bool,
}

/// A length that is cut.
#[derive(Clone, Debug)]
pub(in crate::cutting) struct Taken {
    /// Its place in the list of sources.
    pub(in crate::cutting) source: usize,
    /// Which one of its source it is, where that is settled.
    pub(in crate::cutting) number: Option<i64>,
    /// What lies on it.
    pub(in crate::cutting) placed: Vec<Placed>,
    /// Where the last cut ends.
    pub(in crate::cutting) end: i64,
    /// It is folded lengthwise.
    pub(in crate::cutting) folded: bool,
    /// What is left beside the pieces.
    pub(in crate::cutting) offcuts: Vec<Patch>,
}

/// A piece or part in its place; marks across are those of the opened cloth.
#[derive(Clone, Copy, Debug)]
pub(in crate::cutting) struct Placed {
    pub(in crate::cutting) entry: usize,
    pub(in crate::cutting) number: i64,
    pub(in crate::cutting) part: Option<JoinedPart>,
    pub(in crate::cutting) lie: Lie,
    pub(in crate::cutting) reversed: bool,
    pub(in crate::cutting) through: Layers,
    pub(in crate::cutting) from: i64,
    pub(in crate::cutting) across_from: i64,
    pub(in crate::cutting) extent: Extent,
}

/// A rectangle on a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Patch {
    pub(in crate::cutting) from: i64,
    pub(in crate::cutting) to: i64,
    pub(in crate::cutting) across_from: i64,
    pub(in crate::cutting) across_to: i64,
}

impl Placed {
    /// The rectangle round it.
    pub(in crate::cutting) fn patch(&self) -> Patch {
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
    pub(in crate::cutting) fn laid(&self) -> i64 {
        self.taken.iter().map(|taken| taken.end).sum()
    }
}
