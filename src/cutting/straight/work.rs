//! The problem made ready for the search: every way a kind may lie, with the loss of a cut added to every length.
//!
//! With the loss added to each piece and to each stretch, pieces and rows follow one another without a gap.

use super::{Problem, Starts};

/// One way a kind may lie.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shape {
    pub(super) kind: usize,
    pub(super) turned: bool,
    /// Along the cloth, the loss of a cut included.
    pub(super) along: i64,
    pub(super) across: i64,
}

/// A kind of piece: rectangle `kind` of the problem.
#[derive(Clone, Debug)]
pub(super) struct Kind {
    /// How many there are to place; none of those that fit nowhere.
    pub(super) count: i64,
    /// How many fit nowhere.
    pub(super) hopeless: i64,
    pub(super) at_edge: bool,
    pub(super) starts: Option<Starts>,
    /// Its shapes, as indices.
    pub(super) shapes: Vec<usize>,
    /// The least area a piece takes, the loss of a cut included.
    pub(super) area: i128,
}

/// A stretch; its length has the loss of a cut added, for the last row needs none.
#[derive(Clone, Copy, Debug)]
pub(super) struct Length {
    pub(super) width: i64,
    pub(super) length: Option<i64>,
}

/// The problem made ready.
#[derive(Debug)]
pub(super) struct Work {
    pub(super) kinds: Vec<Kind>,
    /// Narrow ones first.
    pub(super) shapes: Vec<Shape>,
    pub(super) stretches: Vec<Length>,
    pub(super) loss: i64,
    /// Some kind must begin at marks.
    pub(super) is_marked: bool,
    /// Some kind must lie at the edge.
    pub(super) is_edged: bool,
    /// From mark to mark, where all kinds with marks have the same.
    pub(super) repeat: Option<i64>,
}

impl Work {
    pub(super) fn new(problem: &Problem) -> Self {
        let loss = problem.loss;
        let stretches: Vec<Length> = problem
            .stretches
            .iter()
            .map(|stretch| Length { width: stretch.width, length: stretch.length.map(|length| length + loss) })
            .collect();
        let mut kinds = Vec::new();
        let mut shapes = Vec::new();
        for (kind, rectangle) in problem.rectangles.iter().enumerate() {
            let mut ways = vec![(rectangle.along, rectangle.across, false)];
            if rectangle.quarter && rectangle.along != rectangle.across {
                ways.push((rectangle.across, rectangle.along, true));
            }
            ways.retain(|&(along, across, _)| {
                let start = next(rectangle.starts, 0);
                let fits = |stretch: &Length| {
                    across <= stretch.width && stretch.length.is_none_or(|length| start + along + loss <= length)
                };
                rectangle.count > 0 && stretches.iter().any(fits)
            });
            let area = ways.iter().map(|&(along, across, _)| i128::from(along + loss) * i128::from(across)).min();
            kinds.push(Kind {
                count: if ways.is_empty() { 0 } else { rectangle.count },
                hopeless: if ways.is_empty() { rectangle.count } else { 0 },
                at_edge: rectangle.at_edge,
                starts: rectangle.starts,
                shapes: Vec::new(),
                area: area.unwrap_or(0),
            });
            for (along, across, turned) in ways {
                shapes.push(Shape { kind, turned, along: along + loss, across });
            }
        }
        shapes.sort_by_key(|shape| (shape.across, shape.along, shape.kind));
        for (at, shape) in shapes.iter().enumerate() {
            if let Some(kind) = kinds.get_mut(shape.kind) {
                kind.shapes.push(at);
            }
        }
        let is_marked = kinds.iter().any(|kind| kind.count > 0 && kind.starts.is_some());
        let is_edged = kinds.iter().any(|kind| kind.count > 0 && kind.at_edge);
        let mut every = kinds.iter().filter(|kind| kind.count > 0).filter_map(|kind| Some(kind.starts?.every));
        let repeat = every.next().filter(|first| every.all(|other| other == *first));
        Self { kinds, shapes, stretches, loss, is_marked, is_edged, repeat }
    }

    /// Whether the last stretch has no end.
    pub(super) fn is_endless(&self) -> bool {
        self.stretches.last().is_some_and(|stretch| stretch.length.is_none())
    }

    /// How many pieces of each kind there are to place.
    pub(super) fn counts(&self) -> Vec<i64> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }
}

/// The first place at or after `from` where a piece may begin.
pub(super) fn next(starts: Option<Starts>, from: i64) -> i64 {
    match starts {
        None => from,
        Some(Starts { first, every }) if from <= first || every <= 0 => first.max(from),
        Some(Starts { first, every }) => from + (first - from).rem_euclid(every),
    }
}

/// From one piece to the next equal one that may begin above it.
pub(super) fn apart(starts: Option<Starts>, along: i64) -> i64 {
    starts.map_or(along, |starts| up(along, starts.every))
}

/// The first multiple of `every` that is not below `size`.
pub(super) fn up(size: i64, every: i64) -> i64 {
    if every <= 0 { size } else { size + (-size).rem_euclid(every) }
}
