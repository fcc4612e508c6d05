//! What a solver returns: where every piece lies, and how good that is.

/// How far a piece is turned, counter-clockwise from along towards across.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turn {
    /// As the problem gives it.
    None,
    /// By a quarter.
    Quarter,
    /// By half a turn.
    Half,
    /// By three quarters.
    ThreeQuarters,
}

impl Turn {
    /// In the order they are tried.
    pub(crate) const ALL: [Self; 4] = [Self::None, Self::Half, Self::Quarter, Self::ThreeQuarters];

    /// Whether along and across change places.
    pub fn is_sideways(self) -> bool {
        matches!(self, Self::Quarter | Self::ThreeQuarters)
    }
}

/// Where one piece lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placement {
    /// Index of its rectangle or polygon in the problem.
    pub item: usize,
    /// Index of its stretch in the problem.
    pub stretch: usize,
    /// Low end of its bounding box along the stretch, as it lies.
    pub along: i64,
    /// Low end of its bounding box across the stretch, as it lies.
    pub across: i64,
    /// Rectangles lie as they are or turned by a quarter.
    pub turn: Turn,
    /// Mirrored first, then turned; never for rectangles.
    pub mirrored: bool,
}

/// Pieces placed on stretches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StripSolution {
    /// Every piece that is placed, stretch by stretch.
    pub placements: Vec<Placement>,
    /// The length used of the last stretch. From [`crate::rectangles`], 0 where that one is not endless.
    pub length: i64,
    /// Items that found no room, and how many of each.
    pub unplaced: Vec<(usize, i64)>,
    /// Lower bound: a solution that places as much uses no less of the last stretch. From [`crate::outlines`], of the
    /// same pieces on it.
    pub bound: i64,
    /// The solution is the best there is.
    pub proved: bool,
}

/// Equal pieces one above the other in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run {
    /// Index of the rectangle in the problem.
    pub item: usize,
    /// By a quarter, or not at all.
    pub turn: Turn,
    /// Where the first begins, from the start of the row.
    pub from: i64,
    /// How many.
    pub times: i64,
    /// From the start of one to the start of the next.
    pub apart: i64,
}

/// Equal columns side by side in a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Where the first begins across the stretch.
    pub across: i64,
    /// Of each column.
    pub width: i64,
    /// How many.
    pub times: i64,
    /// What is stacked in each, in order.
    pub runs: Vec<Run>,
}

/// Equal rows one after another on a stretch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Index of the stretch in the problem.
    pub stretch: usize,
    /// Where the first begins along the stretch.
    pub from: i64,
    /// The length of each.
    pub along: i64,
    /// The width that its columns use.
    pub used: i64,
    /// How many.
    pub times: i64,
    /// From the start of one to the start of the next.
    pub apart: i64,
    /// From the edge on.
    pub columns: Vec<Column>,
}

/// Rows of rectangles, each freed by straight cuts from edge to edge.
///
/// Rows stand in cutting order: stretch by stretch, each from its start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowSolution {
    /// Equal neighbours are one entry.
    pub rows: Vec<Row>,
    /// The length used of the last stretch.
    pub length: i64,
    /// Rectangles that found no room, and how many of each.
    pub unplaced: Vec<(usize, i64)>,
    /// Lower bound: a solution of this form that places as much uses no less of the last stretch.
    pub bound: i64,
    /// The solution is the best there is of this form.
    pub proved: bool,
}

impl RowSolution {
    /// Every piece where it lies, in cutting order; made one by one, for there may be millions.
    pub fn placements(&self) -> impl Iterator<Item = Placement> + '_ {
        self.rows.iter().flat_map(|row| {
            (0..row.times).flat_map(move |again| {
                let from = row.from + again * row.apart;
                row.columns.iter().flat_map(move |column| {
                    (0..column.times).flat_map(move |beside| {
                        let across = column.across + beside * column.width;
                        column.runs.iter().flat_map(move |run| {
                            (0..run.times).map(move |above| Placement {
                                item: run.item,
                                stretch: row.stretch,
                                along: from + run.from + above * run.apart,
                                across,
                                turn: run.turn,
                                mirrored: false,
                            })
                        })
                    })
                })
            })
        })
    }
}

/// Stock lengths that are cut alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pattern {
    /// Index of the stock length in the problem.
    pub stock: usize,
    /// How many lengths are cut so.
    pub times: i64,
    /// Indices of pieces, and how many of each come from one length.
    pub cuts: Vec<(usize, i64)>,
}

/// Patterns that cut every piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LengthSolution {
    /// In no particular order.
    pub patterns: Vec<Pattern>,
    /// Of all lengths taken, less what the kept leftovers are worth.
    pub cost: i64,
    /// Lower bound: no solution costs less.
    pub bound: i64,
    /// The solution is the cheapest.
    pub proved: bool,
}
