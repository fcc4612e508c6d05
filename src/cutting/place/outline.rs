//! Checks that a drawn outline can be cut: it must not cross itself.
//!
//! Never here: the verifier's geometry, which is separate.

use crate::piece::OutlinePoint;
use crate::quantity::number;

type Place = (i128, i128);

/// Whether the outline crosses itself, on an edge or at a corner; it may touch itself. Corners are rounded to the
/// nearest nanometre.
pub(in crate::cutting) fn crosses_itself(points: &[OutlinePoint]) -> bool {
    let place = |point: &OutlinePoint| {
        let whole = |steps| number::nearest_whole(steps).map_or(0, i128::from);
        (whole(point.along.steps()), whole(point.across.steps()))
    };
    let mut places: Vec<Place> = points.iter().map(place).collect();
    places.dedup();
    if places.len() > 1 && places.first() == places.last() {
        places.pop();
    }
    let next = |by: usize| places.iter().copied().cycle().skip(by);
    let edges: Vec<(Place, Place)> = places.iter().copied().zip(next(1)).collect();
    let corners: Vec<(Place, Place, Place)> =
        edges.iter().zip(next(2)).map(|((before, corner), after)| (*before, *corner, after)).collect();
    let meets = |(one_from, one_to): (Place, Place), (from, to): (Place, Place)| {
        let apart = |one_from: i128, one_to: i128, from: i128, to: i128| {
            one_from.max(one_to) < from.min(to) || from.max(to) < one_from.min(one_to)
        };
        !apart(one_from.0, one_to.0, from.0, to.0) && !apart(one_from.1, one_to.1, from.1, to.1)
    };
    for (index, edge) in edges.iter().enumerate() {
        let crossed = edges.iter().skip(index + 1).any(|other| meets(*edge, *other) && cross(*edge, *other));
        let through =
            || corners.iter().any(|corner| meets(*edge, (corner.1, corner.1)) && goes_through(*edge, *corner));
        if crossed || through() {
            return true;
        }
    }
    corners.iter().enumerate().any(|(index, corner)| {
        corners.iter().skip(index + 1).any(|other| corner.1 == other.1 && corners_cross(*corner, *other))
    })
}

/// The side of the line `from`–`to` on which `place` lies, as a sign; 0 on the line.
fn side(from: Place, to: Place, place: Place) -> i128 {
    ((to.0 - from.0) * (place.1 - from.1) - (to.1 - from.1) * (place.0 - from.0)).signum()
}

fn cross((one_from, one_to): (Place, Place), (from, to): (Place, Place)) -> bool {
    side(one_from, one_to, from) * side(one_from, one_to, to) < 0
        && side(from, to, one_from) * side(from, to, one_to) < 0
}

/// Whether the outline passes through an edge at a corner that lies on it, between its ends.
fn goes_through((from, to): (Place, Place), (before, corner, after): (Place, Place, Place)) -> bool {
    corner != from && corner != to && side(from, to, corner) == 0 && side(from, to, before) * side(from, to, after) < 0
}

/// Whether two corners at the same place cross: one comes and goes on different sides of the other.
fn corners_cross(one: (Place, Place, Place), other: (Place, Place, Place)) -> bool {
    let (before, corner, after) = one;
    // Whether a direction lies between the one to `after` and, turning left, the one to `before`.
    let between = |place: Place| {
        let (from, to) = (side(corner, after, place), side(corner, place, before));
        if side(corner, after, before) > 0 { from > 0 && to > 0 } else { !(from < 0 && to < 0) }
    };
    let on_an_edge = |place: Place| {
        let alike = |end: &Place| {
            (end.0 - corner.0) * (place.0 - corner.0) + (end.1 - corner.1) * (place.1 - corner.1) > 0
                && side(corner, *end, place) == 0
        };
        [before, after].iter().any(alike)
    };
    // An outline that runs on along an edge does not cross it here.
    !on_an_edge(other.0) && !on_an_edge(other.2) && between(other.0) != between(other.2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;

    #[test]
    fn an_outline_may_touch_itself_and_not_cross_itself() {
        for (corners, wanted) in [
            (&[(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)][..], true),
            (&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)], false),
            (&[(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 2.0), (0.0, 10.0), (0.0, 0.0)], false),
            // It meets itself at a corner, and either turns back or goes across.
            (&[(0.0, 0.0), (10.0, 10.0), (0.0, 20.0), (20.0, 20.0), (10.0, 10.0), (20.0, 0.0)], false),
            (&[(0.0, 0.0), (10.0, 10.0), (20.0, 20.0), (0.0, 20.0), (10.0, 10.0), (20.0, 0.0)], true),
            // Its corner touches its own edge; one unit lower it goes through.
            (&[(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 0.0), (0.0, 10.0)], false),
            (&[(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, -1.0), (0.0, 10.0)], true),
            // A corner on an edge, at which the outline goes through.
            (&[(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 0.0), (5.0, -10.0), (0.0, 10.0)], true),
        ] {
            let points: Vec<OutlinePoint> = corners
                .iter()
                .map(|(along, across)| OutlinePoint {
                    along: Length::from_steps(*along),
                    across: Length::from_steps(*across),
                })
                .collect();
            assert_eq!(crosses_itself(&points), wanted, "{corners:?}");
        }
    }
}
