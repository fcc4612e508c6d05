//! Exact plane geometry on whole numbers: simple polygons, their convex parts, and Minkowski sums of convex ones.
#![allow(clippy::indexing_slicing, reason = "every index is taken modulo the number of corners of its own polygon")]

/// A point: along the strip, across it.
pub(crate) type Point = (i64, i64);

/// Twice the area of the triangle from `origin` over `first` to `second`; positive if it turns left.
pub(crate) fn turn_of(origin: Point, first: Point, second: Point) -> i128 {
    cross(difference(first, origin), difference(second, origin))
}

/// The cross product of two vectors.
pub(super) fn cross(left: Point, right: Point) -> i128 {
    i128::from(left.0) * i128::from(right.1) - i128::from(left.1) * i128::from(right.0)
}

fn difference(to: Point, from: Point) -> Point {
    (to.0 - from.0, to.1 - from.1)
}

/// Twice the area inside a polygon; positive if its corners run counter-clockwise.
pub(super) fn twice_area(corners: &[Point]) -> i128 {
    let before = corners.iter().cycle().skip(corners.len().saturating_sub(1));
    corners.iter().zip(before).map(|(&here, &before)| cross(before, here)).sum()
}

/// The box around a polygon: its low and its high corner.
pub(crate) fn around(corners: &[Point]) -> (Point, Point) {
    let first = corners.first().copied().unwrap_or((0, 0));
    corners.iter().fold((first, first), |(low, high), &(along, across)| {
        ((low.0.min(along), low.1.min(across)), (high.0.max(along), high.1.max(across)))
    })
}

/// The same polygon counter-clockwise, without redundant corners; `None` if it encloses no area or touches itself.
pub(crate) fn tidied(corners: &[Point]) -> Option<Vec<Point>> {
    let mut tidy: Vec<Point> = corners.to_vec();
    if tidy.first() == tidy.last() {
        tidy.pop();
    }
    loop {
        let count = tidy.len();
        if count < 3 {
            return None;
        }
        // A corner given twice is straight on too.
        let straight =
            (0..count).find(|&i| turn_of(tidy[(i + count - 1) % count], tidy[i], tidy[(i + 1) % count]) == 0);
        match straight {
            Some(at) => drop(tidy.remove(at)),
            None => break,
        }
    }
    if twice_area(&tidy).is_negative() {
        tidy.reverse();
    }
    (!meets_itself(&tidy)).then_some(tidy)
}

fn meets_itself(corners: &[Point]) -> bool {
    let count = corners.len();
    (0..count).any(|i| {
        let (a, b) = (corners[i], corners[(i + 1) % count]);
        (i + 2..count).any(|j| {
            // Neighbouring sides share a corner and, none being straight on, nothing else.
            (j + 1) % count != i && meet(a, b, corners[j], corners[(j + 1) % count])
        })
    })
}

/// Whether two segments have a point in common.
fn meet(a: Point, b: Point, c: Point, d: Point) -> bool {
    let apart = |p: i64, q: i64, r: i64, s: i64| p.max(q) < r.min(s) || r.max(s) < p.min(q);
    if apart(a.0, b.0, c.0, d.0) || apart(a.1, b.1, c.1, d.1) {
        return false;
    }
    let opposed = |one: i128, other: i128| one.signum() * other.signum() <= 0;
    opposed(turn_of(a, b, c), turn_of(a, b, d)) && opposed(turn_of(c, d, a), turn_of(c, d, b))
}

/// Cuts a tidy polygon into convex ones along diagonals: ears first, then merged where the union stays convex
/// (Hertel and Mehlhorn 1983, from memory: at most four times the fewest).
pub(crate) fn convex_parts(corners: &[Point]) -> Vec<Vec<Point>> {
    if is_convex(corners) {
        return vec![corners.to_vec()];
    }
    let mut parts: Vec<Vec<Point>> = Vec::new();
    // Merge each triangle into the latest part possible: most ears adjoin the one cut before.
    for triangle in ears(corners) {
        add_part(&mut parts, triangle);
    }
    // Merging may have made further merges possible.
    loop {
        let before = parts.len();
        for part in std::mem::take(&mut parts) {
            add_part(&mut parts, part);
        }
        if parts.len() == before {
            return parts;
        }
    }
}

fn add_part(parts: &mut Vec<Vec<Point>>, part: Vec<Point>) {
    for other in parts.iter_mut().rev() {
        if let Some(both) = merged(other, &part) {
            *other = both;
            return;
        }
    }
    parts.push(part);
}

/// The union of two convex polygons with a common side, if it is convex.
fn merged(left: &[Point], right: &[Point]) -> Option<Vec<Point>> {
    for i in 0..left.len() {
        let (from, to) = (left[i], left[(i + 1) % left.len()]);
        let Some(j) = (0..right.len()).find(|&j| right[j] == to && right[(j + 1) % right.len()] == from) else {
            continue;
        };
        let rest = (2..right.len()).map(|k| right[(j + k) % right.len()]);
        let both: Vec<Point> = left[..=i].iter().copied().chain(rest).chain(left[i + 1..].iter().copied()).collect();
        return is_convex(&both).then_some(both);
    }
    None
}

fn is_convex(corners: &[Point]) -> bool {
    let count = corners.len();
    (0..count).all(|i| turn_of(corners[i], corners[(i + 1) % count], corners[(i + 2) % count]) >= 0)
}

fn ears(corners: &[Point]) -> Vec<Vec<Point>> {
    let mut left = corners.to_vec();
    let mut triangles = Vec::new();
    let mut at = 0;
    let mut tried = 0;
    while left.len() > 3 && tried <= left.len() {
        let count = left.len();
        let (before, here, after) = (left[(at + count - 1) % count], left[at % count], left[(at + 1) % count]);
        let turn = turn_of(before, here, after);
        let blocked = turn <= 0
            || left.iter().any(|&point| {
                point != before
                    && point != here
                    && point != after
                    && turn_of(before, here, point) >= 0
                    && turn_of(here, after, point) >= 0
                    && turn_of(after, before, point) >= 0
            });
        // A straight corner left by the ears cut beside it encloses nothing.
        if turn == 0 && tried == count || !blocked {
            if turn > 0 {
                triangles.push(vec![before, here, after]);
            }
            left.remove(at % count);
            tried = 0;
        } else {
            at = (at + 1) % count;
            tried += 1;
        }
    }
    if left.len() == 3 && twice_area(&left) > 0 {
        triangles.push(left);
    }
    triangles
}

/// The Minkowski sum of two convex counter-clockwise polygons.
pub(super) fn sum(left: &[Point], right: &[Point]) -> Vec<Point> {
    let lowest = |corners: &[Point]| (0..corners.len()).min_by_key(|&i| (corners[i].1, corners[i].0)).unwrap_or(0);
    let (start, other_start) = (lowest(left), lowest(right));
    let (mut i, mut j) = (0, 0);
    let mut corners: Vec<Point> = Vec::new();
    while i < left.len() || j < right.len() {
        let at = |k: usize| left[(start + k) % left.len()];
        let other = |k: usize| right[(other_start + k) % right.len()];
        let (here, there) = (at(i), other(j));
        corners.push((here.0 + there.0, here.1 + there.1));
        let turn = cross(difference(at(i + 1), here), difference(other(j + 1), there));
        let (first, second) = (i < left.len(), j < right.len());
        // Parallel sides go together, so that the sum has no straight corners.
        if first && (turn >= 0 || !second) {
            i += 1;
        }
        if second && (turn <= 0 || !first) {
            j += 1;
        }
    }
    corners
}

/// Whether a point lies inside a convex counter-clockwise polygon, not on its border.
pub(super) fn is_inside(corners: &[Point], point: Point) -> bool {
    let count = corners.len();
    (0..count).all(|i| turn_of(corners[i], corners[(i + 1) % count], point) > 0)
}

#[cfg(test)]
mod tests;
