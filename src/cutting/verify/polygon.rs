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
fn near(edges: &[Edge], others: &[Edge]) -> Vec<(Edge, Vec<Corner>)> {
    let Some((least, most)) = bounds(others) else { return Vec::new() };
    edges.iter().filter(|edge| edge.comes_near(least, most)).map(|edge| (*edge, Vec::new())).collect()
}

/// Whether two outlines overlap. Both must be in the order of [`counterclockwise`].
pub(super) fn overlap(one: &[Corner], other: &[Corner]) -> bool {
    let (one, other) = (edges(one), edges(other));
    let (mut near_one, mut near_other) = (near(&one, &other), near(&other, &one));
    for (edge, points) in &mut near_one {
        for (opposite, opposite_points) in &mut near_other {
            if !edge.comes_near(opposite.least(), opposite.most()) {
                continue;
            }
            if edge.crosses(*opposite) {
                return true;
            }
            // Every corner is the start of an edge, so that no touch is missed.
            let corners = [(*edge, opposite.from), (*opposite, edge.from)];
            for (_, corner) in corners.into_iter().filter(|(edge, corner)| edge.holds(*corner)) {
                points.push(corner);
                opposite_points.push(corner);
            }
        }
    }
    let inside_both = |edge: Edge, points: Vec<Corner>| {
        edge.middles(points).into_iter().any(|middle| {
            edge.sides()
                .into_iter()
                .any(|direction| winding(&one, middle, direction) > 0 && winding(&other, middle, direction) > 0)
        })
    };
    let judge = |own: &[Edge], near: Vec<(Edge, Vec<Corner>)>| {
        // From one touch to the next an outline stays inside or outside the other, so the edge that leaves a touch
        // decides for all edges up to the next.
        let touched: Vec<_> = near.into_iter().filter(|(_, points)| !points.is_empty()).collect();
        if touched.is_empty() {
            return own.first().is_some_and(|edge| inside_both(*edge, Vec::new()));
        }
        touched.into_iter().any(|(edge, points)| inside_both(edge, points))
    };
    judge(&one, near_one) || judge(&other, near_other)
}

/// Puts the corners in counterclockwise order: turning from along the goods towards across them.
pub(super) fn counterclockwise(mut corners: Vec<Corner>) -> Vec<Corner> {
    let product = |one: i64, other: i64| i128::from(one) * i128::from(other);
    let twice: i128 = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(here, next)| product(here.along, next.across) - product(next.along, here.across))
        .sum();
    if twice < 0 {
        corners.reverse();
    }
    corners
}

/// Whether an outline crosses itself; it may touch itself.
pub(super) fn crosses_itself(corners: Vec<Corner>) -> bool {
    let own = edges(&counterclockwise(corners));
    for edge in &own {
        let mut points = Vec::new();
        for other in &own {
            if !edge.comes_near(other.least(), other.most()) {
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
mod tests;
