//! Layouts: pieces in their places, in whole nanometres, as every solver's answer is kept until it becomes a plan.
//!
//! Never here: deciding where anything goes.

use crate::cutting::place::extent::Extent;
use crate::cutting::plan::JoinedPart;
use crate::piece::{Layers, Lie};

/// All pieces in their places.
#[derive(Clone, Debug, Default)]
pub(in crate::cutting) struct Layout {
    /// The lengths that are cut. Those of one source are numbered in this order.
    pub(in crate::cutting) cut_lengths: Vec<CutLength>,
    /// Whether shaped pieces lie by their outlines, not by their bounding rectangles.
    pub(in crate::cutting) by_outline: bool,
}

/// A length that is cut.
#[derive(Clone, Debug)]
pub(in crate::cutting) struct CutLength {
    /// Index in the list of sources.
    pub(in crate::cutting) source: usize,
    /// Its number within its source, if a pin settles it.
    pub(in crate::cutting) number: Option<i64>,
    pub(in crate::cutting) placed: Vec<Placed>,
    /// Where the last cut ends.
    pub(in crate::cutting) end: i64,
    /// Whether it is folded lengthwise.
    pub(in crate::cutting) folded: bool,
    /// Rectangles left beside the pieces.
    pub(in crate::cutting) offcuts: Vec<Patch>,
}

impl CutLength {
    /// A length of a source that nothing is cut from yet.
    pub(in crate::cutting) fn of(source: usize) -> Self {
        Self { source, number: None, placed: Vec::new(), end: 0, folded: false, offcuts: Vec::new() }
    }
}

/// A piece or part in its place; marks across count on the opened cloth.
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
    /// The bounding rectangle.
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
    /// Total length laid, from the start of each length to its last cut.
    pub(in crate::cutting) fn laid(&self) -> i64 {
        self.cut_lengths.iter().map(|cut_length| cut_length.end).sum()
    }
}
