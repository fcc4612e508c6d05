//! The problems of all solvers: what is wanted and what it is cut from.
//!
//! Every size, position and cost is a whole number in a unit of the caller's choice. Sizes up to 10^13 are accepted by
//! every solver, ten kilometres in nanometres.

/// Where a piece may begin along its stretch: at `first`, and every `every` after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Starts {
    /// The first position. For rectangles it may be before the stretch begins.
    pub first: i64,
    /// Distance from one position to the next, at least one.
    pub every: i64,
}

impl Starts {
    /// The first position at or after `from` where a piece may begin.
    pub(crate) fn next(self, from: i64) -> i64 {
        let from = from.max(self.first);
        from + (self.first - from).rem_euclid(self.every.max(1))
    }

    /// Like [`Self::next`]; without a rule, `from` itself.
    pub(crate) fn next_of(starts: Option<Self>, from: i64) -> i64 {
        starts.map_or(from, |starts| starts.next(from))
    }
}

/// A strip of fixed width, or a length of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// At least one.
    pub width: i64,
    /// `None` for as long as needed, which only the last stretch of a problem may be.
    pub length: Option<i64>,
}

impl Stretch {
    /// A stretch as long as needed.
    pub fn endless(width: i64) -> Self {
        Self { width, length: None }
    }
}

/// Equal rectangles.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rectangle {
    /// Size along the stretch, at least one.
    pub along: i64,
    /// Size across the stretch, at least one.
    pub across: i64,
    /// How many are wanted.
    pub count: i64,
    /// Each may be turned by a quarter, which exchanges its sizes.
    pub quarter: bool,
    /// Each must touch the edge `across = 0`.
    pub at_edge: bool,
    /// Where each may begin; `None` for anywhere.
    pub starts: Option<Starts>,
}

impl Rectangle {
    /// Rectangles that may begin anywhere and are not turned.
    pub fn new(along: i64, across: i64, count: i64) -> Self {
        Self { along, across, count, quarter: false, at_edge: false, starts: None }
    }
}

/// Rectangles wanted from stretches.
///
/// The stretches are used in their order. With an endless one, as little as possible of it is used; without, as much
/// area as possible is placed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RectangleProblem {
    /// At least one.
    pub stretches: Vec<Stretch>,
    /// What is wanted; a solution names rectangles by their index here.
    pub rectangles: Vec<Rectangle>,
    /// Length lost along the stretch at each cut across it: between two pieces, never at the end of a stretch.
    pub loss: i64,
}

impl RectangleProblem {
    /// Rectangles from one endless stretch, without loss.
    pub fn endless(width: i64, rectangles: Vec<Rectangle>) -> Self {
        Self { stretches: vec![Stretch::endless(width)], rectangles, loss: 0 }
    }
}

/// Equal polygons, simple and without holes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Polygon {
    /// The corners as (along, across), in either sense of rotation.
    pub corners: Vec<(i64, i64)>,
    /// How many are wanted.
    pub count: i64,
    /// Each may be turned by half a turn.
    pub half: bool,
    /// Each may be turned by a quarter and by three quarters.
    pub quarter: bool,
    /// Half of the count, which must be even, is mirrored before any turn: low and high across are exchanged.
    pub mirror: bool,
    /// Positions along at which the low end of each may be; `None` for anywhere. `first` must not be negative.
    pub starts: Option<Starts>,
    /// The low end across of each must be at zero.
    pub at_edge: bool,
}

impl Polygon {
    /// Polygons that may begin anywhere and are neither turned nor mirrored.
    pub fn new(corners: Vec<(i64, i64)>, count: i64) -> Self {
        Self { corners, count, half: false, quarter: false, mirror: false, starts: None, at_edge: false }
    }
}

/// Polygons wanted from stretches, which are used in their order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PolygonProblem {
    /// At least one.
    pub stretches: Vec<Stretch>,
    /// What is wanted; a solution names polygons by their index here.
    pub polygons: Vec<Polygon>,
    /// The least distance between two pieces. The borders of a stretch need none.
    pub gap: i64,
}

impl PolygonProblem {
    /// Polygons from one endless stretch, without a gap.
    pub fn endless(width: i64, polygons: Vec<Polygon>) -> Self {
        Self { stretches: vec![Stretch::endless(width)], polygons, gap: 0 }
    }
}

/// Equal lengths to cut from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StockLength {
    /// Not negative.
    pub length: i64,
    /// Cost of one, not negative.
    pub cost: i64,
    /// How many there are; `None` for as many as wanted.
    pub most: Option<i64>,
    /// The value of kept leftovers; `None` if leftovers are worthless.
    pub rest: Option<KeptRest>,
}

impl StockLength {
    /// As many as wanted, with worthless leftovers.
    pub fn new(length: i64, cost: i64) -> Self {
        Self { length, cost, most: None, rest: None }
    }
}

/// A leftover of at least `least` is kept, and `value` per unit of its length taken off the cost.
///
/// If a whole length would be worth more than its cost, `value` is lowered to the cost per unit, rounded down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeptRest {
    /// The shortest leftover that is kept.
    pub least: i64,
    /// Value per unit of length, not negative.
    pub value: i64,
}

/// Pieces of one length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PieceLength {
    /// At least one.
    pub length: i64,
    /// How many are wanted.
    pub count: i64,
}

/// Pieces wanted from stock lengths at the least cost.
///
/// What is lost at a cut is no part of the problem: add it to every length, of stock and of pieces.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LengthProblem {
    /// A solution names stock lengths by their index here.
    pub stock: Vec<StockLength>,
    /// A solution names pieces by their index here.
    pub pieces: Vec<PieceLength>,
}

/// Why a problem has no solution.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unsolved {
    /// A number is negative, zero where it must not be, or too large; or the problem is otherwise malformed.
    Malformed,
    /// Some pieces do not fit on the stock there is. Only [`crate::lengths`] refuses such a problem; the other
    /// solvers name these pieces in the solution.
    Missing {
        /// Indices of pieces, and how many of each.
        pieces: Vec<(usize, i64)>,
        /// Whether it is proved that no solution cuts all pieces.
        proved: bool,
    },
}

impl std::fmt::Display for Unsolved {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Malformed => f.write_str("the problem is malformed or its numbers are too large"),
            Self::Missing { pieces, .. } => {
                let count: i64 = pieces.iter().map(|(_, count)| count).sum();
                write!(f, "the stock is too short for {count} of the pieces")
            }
        }
    }
}

impl std::error::Error for Unsolved {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_begins_at_the_first_mark_or_whole_repeats_behind_it() {
        let starts = Starts { first: 3, every: 5 };
        let next = [-9, 2, 3, 4, 7, 8, 9, 103].map(|from| starts.next(from));
        assert_eq!(next, [3, 3, 3, 8, 8, 8, 13, 103]);
        let before = Starts { first: -7, every: 4 };
        assert_eq!([-9, -7, 0, 1, 2].map(|from| before.next(from)), [-7, -7, 1, 1, 5]);
        assert_eq!([3, 7].map(|from| Starts { first: 3, every: 0 }.next(from)), [3, 7], "never a division by nothing");
        assert_eq!((Starts::next_of(Some(starts), 4), Starts::next_of(None, 4)), (8, 4));
    }

    #[test]
    fn a_plain_piece_is_neither_turned_nor_bound_and_a_plain_problem_has_one_stretch() {
        let rectangle = Rectangle::new(3, 4, 5);
        assert_eq!((rectangle.along, rectangle.across, rectangle.count), (3, 4, 5));
        assert!(!rectangle.quarter && !rectangle.at_edge && rectangle.starts.is_none());
        let polygon = Polygon::new(vec![(0, 0), (3, 0), (0, 4)], 5);
        assert!(!polygon.half && !polygon.quarter && !polygon.mirror && !polygon.at_edge && polygon.starts.is_none());
        let problem = RectangleProblem::endless(7, vec![rectangle]);
        assert_eq!((problem.stretches, problem.loss), (vec![Stretch { width: 7, length: None }], 0));
        let problem = PolygonProblem::endless(7, vec![polygon]);
        assert_eq!((problem.stretches, problem.gap), (vec![Stretch { width: 7, length: None }], 0));
    }

    #[test]
    fn what_is_missing_is_counted_over_all_kinds() {
        let missing = Unsolved::Missing { pieces: vec![(0, 3), (4, 2)], proved: false };
        assert_eq!(missing.to_string(), "the stock is too short for 5 of the pieces");
    }
}
