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
    if places.first() == places.last() {
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

    /// Each outline from every corner, either way round, and in all eight ways of turning and mirroring it: by hand, none of
    /// which makes it cross itself or keeps it from it.
    #[test]
    fn it_does_not_matter_where_an_outline_begins_or_how_it_lies() {
        type Corners = &'static [(i64, i64)];
        let crossing: [Corners; 11] = [
            // Two edges cross, in the middle or far from it.
            &[(0, 0), (30, 20), (30, 0), (0, 20)],
            &[(0, 0), (31, 7), (29, 0), (28, 40)],
            // Through a corner on an edge, and through a corner on a corner.
            &[(0, 0), (40, 0), (40, 20), (15, 0), (10, -10), (0, 20)],
            &[(0, 0), (10, 10), (20, 20), (0, 30), (10, 10), (25, 0)],
            &[(-20, -7), (0, 0), (20, 9), (-5, 30), (0, 0), (5, -30)],
            // Two corners at one place where the one is blunt, beyond half a turn, and the other goes into it and out of it.
            &[(10, 0), (0, 0), (-10, 1), (-20, 20), (0, 0), (-8, -20), (20, -20)],
            // Out through one corner on an edge and in again through another; and in by a narrow corner, out beside it.
            &[(0, 0), (40, 0), (40, 20), (15, 0), (10, -10), (5, 0), (0, 20)],
            &[(20, 10), (0, 0), (20, -10), (30, 0), (0, 0), (-10, 30)],
            // A star of five points.
            &[(0, 30), (20, -25), (-30, 10), (30, 10), (-20, -25)],
            // Its edges cross that are far apart in the list.
            &[(0, 0), (40, 0), (40, 30), (50, 30), (50, -10), (20, -10), (20, 10)],
            &[(0, 0), (50, 0), (50, 50), (20, 50), (20, -1), (10, -1), (10, 40), (0, 40)],
        ];
        let sound: [Corners; 11] = [
            &[(0, 0), (30, 0), (0, 20)],
            &[(0, 0), (31, 7), (28, 40), (5, 33)],
            // A notch that comes near an edge, that touches it with a corner, and that lies on it with an edge.
            &[(0, 0), (40, 0), (40, 20), (15, 1), (0, 20)],
            &[(0, 0), (40, 0), (40, 20), (15, 0), (0, 20)],
            &[(0, 0), (40, 0), (40, 20), (25, 0), (15, 0), (0, 20)],
            // Two corners at one place, each on its own side.
            &[(0, 0), (10, 10), (0, 20), (25, 22), (10, 10), (21, 0)],
            &[(-20, -7), (0, 0), (-18, 25), (20, 30), (0, 0), (22, -9)],
            // Two pieces that hang together at the end of an edge.
            &[(0, 0), (30, 0), (30, 20), (45, 5), (60, 20), (30, 20), (0, 15)],
            // It goes through the line of an edge beyond the edge's end.
            &[(0, 0), (20, 0), (30, -10), (40, 0), (40, 20), (0, 20)],
            // A corner in the middle of a side, and a slit that is cut in and out.
            &[(0, 0), (20, 0), (40, 0), (40, 30), (0, 30)],
            &[(0, 0), (40, 0), (40, 15), (10, 15), (40, 15), (40, 30), (0, 30)],
        ];
        let all = crossing.iter().map(|one| (one, true)).chain(sound.iter().map(|one| (one, false)));
        for (corners, wanted) in all {
            for turn in 0..8 {
                let turned = |(along, across): &(i64, i64)| {
                    let (along, across) = if turn & 1 == 0 { (*along, *across) } else { (*across, *along) };
                    let along = if turn & 2 == 0 { along } else { -along };
                    (along, if turn & 4 == 0 { across } else { -across })
                };
                let mut points: Vec<OutlinePoint> = corners
                    .iter()
                    .map(turned)
                    .map(|(along, across)| OutlinePoint {
                        along: Length::from_steps(number::from_whole(along)),
                        across: Length::from_steps(number::from_whole(across)),
                    })
                    .collect();
                for _ in 0..points.len() {
                    points.rotate_left(1);
                    assert_eq!(crosses_itself(&points), wanted, "{points:?}");
                    let mut back = points.clone();
                    back.reverse();
                    assert_eq!(crosses_itself(&back), wanted, "{back:?}");
                    // A corner given twice, and the first one again at the end, are no further corners.
                    back.insert(1, back[0]);
                    back.push(back[0]);
                    assert_eq!(crosses_itself(&back), wanted, "{back:?}");
                }
            }
        }
    }

    #[test]
    fn sides_of_a_line() {
        let (from, to) = ((2, 3), (12, 8));
        for (place, wanted) in [((7, 9), 1), ((7, 5), -1), ((22, 13), 0), ((-8, -2), 0), ((22, 14), 1), ((22, 12), -1)]
        {
            assert_eq!(side(from, to, place), wanted, "{place:?}");
            assert_eq!(side(to, from, place), -wanted, "{place:?}");
        }
    }
}
