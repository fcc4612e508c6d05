//! Exact tests on closed outlines with whole corners: whether two overlap, whether one crosses itself, and whether one
//! is its own mirror image.
//!
//! Two outlines overlap if a place lies inside both. Beside every stretch of either outline, between the points where
//! they touch, the winding number of each outline is computed; all sums are whole numbers, so that touching is never
//! taken for an overlap. Any outline is allowed: hollow ones, ones that touch themselves, one inside the other.
//!
//! Never here: which shape an outline belongs to.

/// How far a corner may be from its image, in nanometres: each is rounded to a whole one.
const NEAR: i64 = 3;

/// A corner of an outline, in nanometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Corner {
    pub(super) along: i64,
    pub(super) across: i64,
}

/// A straight edge, in half nanometres, so that its middle is whole.
#[derive(Clone, Copy, Debug)]
struct Edge {
    from: Corner,
    to: Corner,
}

/// A direction from a point to a place infinitely near it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Direction {
    Ahead,
    Behind,
    Above,
    Below,
}

impl Edge {
    /// Positive if the point lies to the left of the edge, zero if it is in line with it.
    fn side(self, point: Corner) -> i128 {
        let wide = |one: i64, other: i64| i128::from(one) - i128::from(other);
        wide(self.to.along, self.from.along) * wide(point.across, self.from.across)
            - wide(self.to.across, self.from.across) * wide(point.along, self.from.along)
    }

    fn least(self) -> Corner {
        Corner { along: self.from.along.min(self.to.along), across: self.from.across.min(self.to.across) }
    }

    fn most(self) -> Corner {
        Corner { along: self.from.along.max(self.to.along), across: self.from.across.max(self.to.across) }
    }

    /// Whether its bounding box meets a box, edges included.
    fn comes_near(self, least: Corner, most: Corner) -> bool {
        let (own_least, own_most) = (self.least(), self.most());
        own_least.along <= most.along
            && least.along <= own_most.along
            && own_least.across <= most.across
            && least.across <= own_most.across
    }

    /// Whether a point is on it, its ends included.
    fn holds(self, point: Corner) -> bool {
        self.comes_near(point, point) && self.side(point) == 0
    }

    /// Whether the two edges cross, each between its ends.
    fn crosses(self, other: Self) -> bool {
        let opposite = |one: i128, two: i128| (one > 0 && two < 0) || (one < 0 && two > 0);
        opposite(self.side(other.from), self.side(other.to)) && opposite(other.side(self.from), other.side(self.to))
    }

    /// The middles of its stretches between these points on it.
    fn middles(self, mut points: Vec<Corner>) -> Vec<Corner> {
        points.extend([self.from, self.to]);
        // Along a straight line, order by coordinates is order on the line.
        points.sort_unstable();
        points.dedup();
        let next = points.iter().skip(1);
        points
            .iter()
            .zip(next)
            .map(|(one, two)| Corner {
                along: (one.along + two.along).div_euclid(2),
                across: (one.across + two.across).div_euclid(2),
            })
            .collect()
    }

    /// The directions to its two sides.
    fn sides(self) -> [Direction; 2] {
        if self.from.across == self.to.across {
            [Direction::Above, Direction::Below]
        } else {
            [Direction::Ahead, Direction::Behind]
        }
    }
}

fn edges(corners: &[Corner]) -> Vec<Edge> {
    let twice = |corner: &Corner| Corner { along: 2 * corner.along, across: 2 * corner.across };
    corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .filter(|(from, to)| from != to)
        .map(|(from, to)| Edge { from: twice(from), to: twice(to) })
        .collect()
}

/// The winding number of the edges around the place beside a point, positive in the order of [`counterclockwise`].
fn winding(edges: &[Edge], point: Corner, direction: Direction) -> i64 {
    let mark = point.across;
    let spans = |low: i64, high: i64| {
        if direction == Direction::Below { low < mark && mark <= high } else { low <= mark && mark < high }
    };
    let turns = edges.iter().map(|edge| {
        let rises = spans(edge.from.across, edge.to.across);
        if !rises && !spans(edge.to.across, edge.from.across) {
            return 0;
        }
        let lies_ahead = match edge.side(point) {
            0 => direction == Direction::Behind,
            side => (side > 0) == rises,
        };
        match (lies_ahead, rises) {
            (false, _) => 0,
            (true, true) => 1,
            (true, false) => -1,
        }
    });
    turns.sum()
}

fn bounds(edges: &[Edge]) -> Option<(Corner, Corner)> {
    let least = edges
        .iter()
        .map(|edge| edge.least())
        .reduce(|one, two| Corner { along: one.along.min(two.along), across: one.across.min(two.across) })?;
    let most = edges
        .iter()
        .map(|edge| edge.most())
        .reduce(|one, two| Corner { along: one.along.max(two.along), across: one.across.max(two.across) })?;
    Some((least, most))
}

/// The edges that come near the other outline, each with no touching points yet; [`overlap`] fills them in.
fn near(edges: &[Edge], others: &[Edge]) -> Vec<(Edge, Vec<Corner>, bool)> {
    let Some((least, most)) = bounds(others) else { return Vec::new() };
    edges.iter().filter(|edge| edge.comes_near(least, most)).map(|edge| (*edge, Vec::new(), false)).collect()
}

/// Whether two outlines overlap. Both must be in the order of [`counterclockwise`].
pub(super) fn overlap(one: &[Corner], other: &[Corner]) -> bool {
    let (one, other) = (edges(one), edges(other));
    let (mut near_one, mut near_other) = (near(&one, &other), near(&other, &one));
    for (edge, points, touched) in &mut near_one {
        for (opposite, opposite_points, opposite_touched) in &mut near_other {
            if !edge.comes_near(opposite.least(), opposite.most()) {
                continue;
            }
            if edge.crosses(*opposite) {
                return true;
            }
            if edge.holds(opposite.from) {
                points.push(opposite.from);
            }
            if opposite.holds(edge.from) {
                opposite_points.push(edge.from);
            }
            let touch = edge.holds(opposite.from)
                || edge.holds(opposite.to)
                || opposite.holds(edge.from)
                || opposite.holds(edge.to);
            *touched |= touch;
            *opposite_touched |= touch;
        }
    }
    let inside_both = |edge: Edge, points: Vec<Corner>| {
        edge.middles(points).into_iter().any(|middle| {
            edge.sides()
                .into_iter()
                .any(|direction| winding(&one, middle, direction) > 0 && winding(&other, middle, direction) > 0)
        })
    };
    let judge = |own: &[Edge], near: Vec<(Edge, Vec<Corner>, bool)>| {
        // From one touch to the next an outline stays inside or outside the other, so the edge that leaves a touch
        // decides for all edges up to the next.
        let touched: Vec<_> = near.into_iter().filter(|(.., touched)| *touched).collect();
        if touched.is_empty() {
            return own.first().is_some_and(|edge| inside_both(*edge, Vec::new()));
        }
        touched.into_iter().any(|(edge, points, _)| inside_both(edge, points))
    };
    judge(&one, near_one) || judge(&other, near_other)
}

/// Puts the corners in counterclockwise order: turning from along the goods towards across them.
pub(super) fn counterclockwise(mut corners: Vec<Corner>) -> Vec<Corner> {
    let first = corners.first().copied().unwrap_or(Corner { along: 0, across: 0 });
    let wide = |one: i64, other: i64| i128::from(one) - i128::from(other);
    let twice: i128 = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(here, next)| {
            wide(here.along, first.along) * wide(next.across, first.across)
                - wide(next.along, first.along) * wide(here.across, first.across)
        })
        .sum();
    if twice < 0 {
        corners.reverse();
    }
    corners
}

/// Whether an outline crosses itself; it may touch itself.
pub(super) fn crosses_itself(corners: Vec<Corner>) -> bool {
    let own = edges(&counterclockwise(corners));
    for (place, edge) in own.iter().enumerate() {
        let mut points = Vec::new();
        for (other_place, other) in own.iter().enumerate() {
            if place == other_place || !edge.comes_near(other.least(), other.most()) {
                continue;
            }
            if edge.crosses(*other) {
                return true;
            }
            if edge.holds(other.from) {
                points.push(other.from);
            }
        }
        // A winding number other than 0 and 1 means that it crosses itself at a corner.
        let wrong = |middle: Corner| {
            edge.sides().into_iter().any(|direction| !(0..=1).contains(&winding(&own, middle, direction)))
        };
        if edge.middles(points).into_iter().any(wrong) {
            return true;
        }
    }
    false
}

/// Whether an outline is its own mirror image about a line along the goods, each corner to within [`NEAR`].
pub(super) fn is_symmetric(corners: &[Corner]) -> bool {
    let corners = without_collinear(corners);
    let (Some(least), Some(most)) =
        (corners.iter().map(|corner| corner.across).min(), corners.iter().map(|corner| corner.across).max())
    else {
        return false;
    };
    let image: Vec<Corner> = corners
        .iter()
        .rev()
        .map(|corner| Corner { along: corner.along, across: least + most - corner.across })
        .collect();
    let same =
        |one: &Corner, two: &Corner| (one.along - two.along).abs() <= NEAR && (one.across - two.across).abs() <= NEAR;
    (0..corners.len())
        .any(|start| image.iter().zip(corners.iter().cycle().skip(start)).all(|(one, two)| same(one, two)))
}

/// Drops the corners that lie on the straight line between their neighbours, to within a nanometre.
fn without_collinear(corners: &[Corner]) -> Vec<Corner> {
    let mut kept: Vec<Corner> = Vec::with_capacity(corners.len());
    let next = corners.iter().cycle().skip(1);
    let mut before = corners.last().copied();
    for (corner, next) in corners.iter().zip(next) {
        let collinear = before.is_some_and(|before| {
            let line = Edge { from: before, to: *next };
            let long = (i128::from(next.along) - i128::from(before.along)).abs()
                + (i128::from(next.across) - i128::from(before.across)).abs();
            // `side` is the height over the line times its length: the height is below a nanometre.
            line.side(*corner).abs() <= long / 2 && line.comes_near(*corner, *corner)
        });
        if !collinear {
            kept.push(*corner);
            before = Some(*corner);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline(corners: &[(i64, i64)]) -> Vec<Corner> {
        counterclockwise(corners.iter().map(|(along, across)| Corner { along: *along, across: *across }).collect())
    }

    fn moved(corners: &[Corner], along: i64, across: i64) -> Vec<Corner> {
        let by = |corner: &Corner| Corner { along: corner.along + along, across: corner.across + across };
        corners.iter().map(by).collect()
    }

    #[track_caller]
    fn check(one: &[Corner], other: &[Corner], wanted: bool) {
        assert_eq!(overlap(one, other), wanted, "{one:?} {other:?}");
        assert_eq!(overlap(other, one), wanted, "turned about: {one:?} {other:?}");
    }

    /// Own arithmetic, each on squared paper.
    #[test]
    fn touching_is_no_overlap() {
        let square = outline(&[(0, 0), (10, 0), (10, 10), (0, 10)]);
        for (along, across, wanted) in [
            (10, 0, false),
            (10, 10, false),
            (10, 3, false),
            (0, -10, false),
            (9, 0, true),
            (9, 9, true),
            (0, 0, true),
            (-1, 0, true),
            (20, 0, false),
        ] {
            check(&square, &moved(&square, along, across), wanted);
        }
        // A corner touches the middle of an edge.
        let kite = outline(&[(10, 5), (20, 0), (20, 10)]);
        check(&square, &kite, false);
        check(&square, &moved(&kite, -1, 0), true);
        // Wholly inside, touching nothing, and touching three edges from within.
        check(&square, &outline(&[(3, 3), (5, 3), (4, 5)]), true);
        check(&square, &outline(&[(0, 0), (10, 0), (5, 10)]), true);
        // Two gores head to foot share a slanting edge.
        let gore = outline(&[(0, 0), (100, 20), (100, 80), (0, 100)]);
        let other = outline(&[(0, 100), (100, 80), (100, 140), (0, 120)]);
        check(&gore, &other, false);
        check(&gore, &moved(&other, 0, -1), true);
        check(&gore, &moved(&other, 5, 0), false);
        check(&gore, &moved(&other, -5, 0), true);
    }

    #[test]
    fn hollow_outlines_hold_others() {
        // A frame with a slit, by which its outline reaches its hole.
        let frame =
            outline(&[(0, 0), (30, 0), (30, 30), (0, 30), (0, 0), (10, 10), (10, 20), (20, 20), (20, 10), (10, 10)]);
        assert!(!crosses_itself(frame.clone()));
        let plug = outline(&[(10, 10), (20, 10), (20, 20), (10, 20)]);
        check(&frame, &plug, false);
        check(&frame, &moved(&plug, 1, 0), true);
        check(&frame, &outline(&[(12, 12), (18, 12), (15, 18)]), false);
        // A piece on the slit lies on cloth.
        check(&frame, &outline(&[(4, 5), (6, 5), (6, 6), (4, 6)]), true);
        let comb = outline(&[(0, 0), (10, 0), (10, 50), (20, 50), (20, 0), (30, 0), (30, 60), (0, 60)]);
        check(&comb, &outline(&[(10, 0), (20, 0), (20, 50), (10, 50)]), false);
        check(&comb, &outline(&[(10, 0), (20, 0), (20, 51), (10, 51)]), true);
    }

    #[test]
    fn an_outline_that_crosses_itself_is_found() {
        for (corners, wanted) in [
            (&[(0, 0), (10, 10), (10, 0), (0, 10)][..], true),
            (&[(0, 0), (10, 0), (10, 10), (0, 10)], false),
            (&[(0, 0), (20, 0), (20, 10), (10, 2), (0, 10)], false),
            // It meets itself at a corner, and either turns back or goes across.
            (&[(0, 0), (10, 10), (0, 20), (20, 20), (10, 10), (20, 0)], false),
            (&[(0, 0), (10, 10), (20, 20), (0, 20), (10, 10), (20, 0)], true),
            // It runs round twice.
            (&[(0, 0), (10, 0), (10, 10), (0, 10), (0, 0), (10, 0), (10, 10), (0, 10)], true),
            // Its corner touches its own edge; one unit lower it goes through.
            (&[(0, 0), (20, 0), (20, 10), (10, 0), (0, 10)], false),
            (&[(0, 0), (20, 0), (20, 10), (10, -1), (0, 10)], true),
        ] {
            assert_eq!(crosses_itself(outline(corners)), wanted, "{corners:?}");
        }
    }

    #[test]
    fn an_even_outline_is_its_own_image() {
        assert!(is_symmetric(&outline(&[(0, 0), (100, 20), (100, 80), (0, 100)])));
        assert!(is_symmetric(&outline(&[(0, 0), (50, 10), (100, 20), (100, 80), (0, 100)])));
        assert!(!is_symmetric(&outline(&[(0, 0), (100, 20), (100, 70), (0, 100)])));
        assert!(!is_symmetric(&outline(&[(0, 0), (100, 0), (200, 100), (100, 100)])));
        assert!(is_symmetric(&outline(&[(0, 50), (100, 0), (200, 50), (100, 100)])));
    }

    /// Compared with counting all cells of squared paper, for outlines along its lines.
    #[test]
    fn it_finds_what_counting_cells_finds() {
        let mut seed = 5_u64;
        let mut draw = |below: i64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            i64::try_from(seed >> 33).unwrap() % below
        };
        let mut clear = 0;
        for _ in 0..4_000 {
            // Stairs: columns of given heights side by side, standing or hanging.
            let mut stairs = || {
                let (start, foot, up) = (draw(8), draw(10), if draw(2) == 0 { 1 } else { -1 });
                let heights: Vec<i64> = (0..=draw(5)).map(|_| 1 + draw(5)).collect();
                let mut corners = vec![(start, foot)];
                let mut cells = Vec::new();
                for (place, height) in (start..).zip(&heights) {
                    corners.extend([(place, foot + up * height), (place + 1, foot + up * height)]);
                    cells.extend((0..*height).map(|step| (place, if up > 0 { foot + step } else { foot - step - 1 })));
                }
                corners.push((start + i64::try_from(heights.len()).unwrap(), foot));
                (outline(&corners), cells)
            };
            let ((one, one_cells), (other, other_cells)) = (stairs(), stairs());
            let wanted = one_cells.iter().any(|cell| other_cells.contains(cell));
            check(&one, &other, wanted);
            clear += i64::from(!wanted);
        }
        assert!((500..3_500).contains(&clear), "{clear} of 4000 are clear");
    }
}
