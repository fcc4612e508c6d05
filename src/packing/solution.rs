//! The solutions of all solvers: where every piece lies, and how good that is.

/// How far a piece is turned, counter-clockwise from along towards across.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turn {
    /// Not turned.
    None,
    /// By a quarter.
    Quarter,
    /// By half a turn.
    Half,
    /// By three quarters.
    ThreeQuarters,
}

impl Turn {
    /// In the order in which they are tried.
    pub(crate) const ALL: [Self; 4] = [Self::None, Self::Half, Self::Quarter, Self::ThreeQuarters];

    /// Whether along and across are exchanged.
    pub fn is_sideways(self) -> bool {
        matches!(self, Self::Quarter | Self::ThreeQuarters)
    }
}

/// The position of one piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placement {
    /// Index of its rectangle or polygon in the problem.
    pub item: usize,
    /// Index of its stretch in the problem.
    pub stretch: usize,
    /// Low end along the stretch of its bounding box, after turning.
    pub along: i64,
    /// Low end across the stretch of its bounding box, after turning.
    pub across: i64,
    /// Rectangles are turned by a quarter or not at all.
    pub turn: Turn,
    /// Mirrored first, then turned; never for rectangles.
    pub mirrored: bool,
}

/// Pieces placed on stretches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StripSolution {
    /// Every placed piece, stretch by stretch.
    pub placements: Vec<Placement>,
    /// The length used of the last stretch. From [`crate::rectangles`], 0 if that one is not endless.
    pub length: i64,
    /// Items that did not fit, and how many of each.
    pub unplaced: Vec<(usize, i64)>,
    /// Lower bound: no solution that places as much uses less of the last stretch. From [`crate::outlines`], only for
    /// the same pieces on it.
    pub bound: i64,
    /// Whether the solution is proved to be the best.
    pub proved: bool,
}

/// Equal pieces one above the other in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run {
    /// Index of the rectangle in the problem.
    pub item: usize,
    /// By a quarter, or none.
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
    /// Width of each.
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
    /// In order from the edge `across = 0`.
    pub columns: Vec<Column>,
}

/// Rows of rectangles, each cut out by straight cuts from edge to edge.
///
/// Rows are in cutting order: stretch by stretch, each from its start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowSolution {
    /// Equal neighbouring rows are one entry.
    pub rows: Vec<Row>,
    /// The length used of the last stretch.
    pub length: i64,
    /// Rectangles that did not fit, and how many of each.
    pub unplaced: Vec<(usize, i64)>,
    /// Lower bound: no solution of this form that places as much uses less of the last stretch.
    pub bound: i64,
    /// Whether the solution is proved to be the best of this form.
    pub proved: bool,
}

impl RowSolution {
    /// Every placed piece, in cutting order; generated one by one, since there may be millions.
    pub fn placements(&self) -> impl Iterator<Item = Placement> + '_ {
        self.rows.iter().flat_map(|row| {
            (0..row.times).flat_map(move |again| {
                let from = row.from + again * row.apart;
                row.columns.iter().flat_map(move |column| {
                    (0..column.times).flat_map(move |index| {
                        let across = column.across + index * column.width;
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

/// Stock lengths cut in the same way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pattern {
    /// Index of the stock length in the problem.
    pub stock: usize,
    /// How many lengths are cut like this.
    pub times: i64,
    /// Indices of pieces, and how many of each come from one length.
    pub cuts: Vec<(usize, i64)>,
}

/// Patterns that cut every piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LengthSolution {
    /// In no particular order.
    pub patterns: Vec<Pattern>,
    /// Cost of all lengths used, less the value of the kept leftovers.
    pub cost: i64,
    /// Lower bound: no solution costs less.
    pub bound: i64,
    /// Whether the solution is proved to be the cheapest.
    pub proved: bool,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_exchanges_the_sides_and_a_half_does_not() {
        assert_eq!(Turn::ALL.map(Turn::is_sideways), [false, false, true, true]);
    }

    #[test]
    fn the_pieces_of_rows_lie_one_by_one_in_cutting_order() {
        let run = |item, from, times, apart| Run { item, turn: Turn::Quarter, from, times, apart };
        let columns = vec![
            Column { across: 3, width: 20, times: 2, runs: vec![run(5, 1, 2, 30)] },
            Column { across: 50, width: 9, times: 1, runs: vec![run(6, 7, 1, 30)] },
        ];
        let row = Row { stretch: 4, from: 1000, along: 60, used: 59, times: 2, apart: 200, columns };
        let rows = RowSolution { rows: vec![row], length: 0, unplaced: Vec::new(), bound: 0, proved: false };
        let placed: Vec<_> = rows.placements().map(|one| (one.item, one.along, one.across)).collect();
        let first = [(5, 1001, 3), (5, 1031, 3), (5, 1001, 23), (5, 1031, 23), (6, 1007, 50)];
        let again = first.map(|(item, along, across)| (item, along + 200, across));
        assert_eq!(placed, [first, again].concat());
        assert!(rows.placements().all(|one| one.stretch == 4 && one.turn == Turn::Quarter && !one.mirrored));
    }
}
