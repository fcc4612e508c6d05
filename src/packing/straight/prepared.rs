//! The problem prepared for the search: every orientation of every kind, with the loss of a cut added to every
//! length.
//!
//! With the loss added to each piece and to each stretch, pieces and rows follow one another without a gap.

use crate::problem::{RectangleProblem, Starts, Stretch};

/// Longer than all pieces in a line, and still far from overflow.
pub(super) const ENDLESS: i64 = 1 << 61;

/// A kind in one orientation.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shape {
    pub(super) item: usize,
    pub(super) turned: bool,
    /// Along the cloth, the loss of a cut included.
    pub(super) along: i64,
    pub(super) across: i64,
}

/// A kind of piece; its index is that of its rectangle in the problem.
#[derive(Clone, Debug)]
pub(super) struct PreparedItem {
    /// How many there are to place; zero if it fits nowhere.
    pub(super) count: i64,
    /// How many fit nowhere.
    pub(super) unplaceable: i64,
    pub(super) at_edge: bool,
    pub(super) starts: Option<Starts>,
    /// Its shapes, as indices.
    pub(super) shapes: Vec<usize>,
    /// The least area a piece takes, the loss of a cut included.
    pub(super) area: i128,
}

/// The prepared problem.
#[derive(Debug)]
pub(super) struct Prepared {
    pub(super) items: Vec<PreparedItem>,
    /// By rising width.
    pub(super) shapes: Vec<Shape>,
    /// Each length has the loss of a cut added, since the last row needs none.
    pub(super) stretches: Vec<Stretch>,
    pub(super) loss: i64,
    /// Whether some kind must begin at marks.
    pub(super) is_marked: bool,
    /// Whether some kind must lie at the edge.
    pub(super) is_edged: bool,
    /// Distance from mark to mark, if all kinds with marks share it.
    pub(super) repeat: Option<i64>,
}

impl Prepared {
    pub(super) fn new(problem: &RectangleProblem) -> Self {
        let loss = problem.loss;
        let stretches: Vec<Stretch> = problem
            .stretches
            .iter()
            .map(|stretch| Stretch { width: stretch.width, length: stretch.length.map(|length| length + loss) })
            .collect();
        let mut items = Vec::new();
        let mut shapes = Vec::new();
        for (item, rectangle) in problem.rectangles.iter().enumerate() {
            let mut orientations = vec![(rectangle.along, rectangle.across, false)];
            if rectangle.quarter && rectangle.along != rectangle.across {
                orientations.push((rectangle.across, rectangle.along, true));
            }
            orientations.retain(|&(along, across, _)| {
                let start = Starts::next_of(rectangle.starts, 0);
                let fits = |stretch: &Stretch| {
                    across <= stretch.width && stretch.length.is_none_or(|length| start + along + loss <= length)
                };
                rectangle.count > 0 && stretches.iter().any(fits)
            });
            let area =
                orientations.iter().map(|&(along, across, _)| i128::from(along + loss) * i128::from(across)).min();
            items.push(PreparedItem {
                count: if orientations.is_empty() { 0 } else { rectangle.count },
                unplaceable: if orientations.is_empty() { rectangle.count } else { 0 },
                at_edge: rectangle.at_edge,
                starts: rectangle.starts,
                shapes: Vec::new(),
                area: area.unwrap_or(0),
            });
            for (along, across, turned) in orientations {
                shapes.push(Shape { item, turned, along: along + loss, across });
            }
        }
        shapes.sort_by_key(|shape| (shape.across, shape.along, shape.item));
        for (at, shape) in shapes.iter().enumerate() {
            if let Some(item) = items.get_mut(shape.item) {
                item.shapes.push(at);
            }
        }
        let is_marked = items.iter().any(|item| item.count > 0 && item.starts.is_some());
        let is_edged = items.iter().any(|item| item.count > 0 && item.at_edge);
        let mut every = items.iter().filter(|item| item.count > 0).filter_map(|item| Some(item.starts?.every));
        let repeat = every.next().filter(|first| every.all(|other| other == *first));
        Self { items, shapes, stretches, loss, is_marked, is_edged, repeat }
    }

    /// Whether the last stretch has no end.
    pub(super) fn is_endless(&self) -> bool {
        self.stretches.last().is_some_and(|stretch| stretch.length.is_none())
    }

    /// How many pieces of each kind there are to place.
    pub(super) fn counts(&self) -> Vec<i64> {
        self.items.iter().map(|item| item.count).collect()
    }
}

/// Distance from one piece to the next equal one that may begin above it.
pub(super) fn apart(starts: Option<Starts>, along: i64) -> i64 {
    starts.map_or(along, |starts| next_multiple(along, starts.every))
}

/// The first multiple of `every` that is not below `size`.
pub(super) fn next_multiple(size: i64, every: i64) -> i64 {
    if every <= 0 { size } else { size + (-size).rem_euclid(every) }
}

#[cfg(test)]
mod tests;
