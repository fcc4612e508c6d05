//! Polygons, and the plane geometry with which they are compared.

use crate::problem::{Polygon, PolygonProblem, Starts, Stretch};
use crate::solution::{Placement, StripSolution, Turn};
use crate::soundness::{apart, distance, placed_corners, polygons};

type Corners = Vec<(i64, i64)>;

const OVERLAP: Result<(), &str> = Err("two pieces overlap");
const NEAR: Result<(), &str> = Err("nearer than the gap");
const PAIRS: Result<(), &str> = Err("not in pairs, left and right");

/// A rectangle from its low to its high corner, counter-clockwise.
fn between(low: (i64, i64), high: (i64, i64)) -> Corners {
    vec![low, (high.0, low.1), high, (low.0, high.1)]
}

fn at(along: i64, across: i64) -> Placement {
    Placement { item: 0, stretch: 0, along, across, turn: Turn::None, mirrored: false }
}

/// A stretch 100 wide and 200 long.
fn sheet(polygons: Vec<Polygon>, gap: i64) -> PolygonProblem {
    PolygonProblem { stretches: vec![Stretch { width: 100, length: Some(200) }], polygons, gap }
}

/// Placed with the length that the ends of the pieces say.
fn verdict(problem: &PolygonProblem, placements: &[Placement], length: i64) -> Result<(), &'static str> {
    told(problem, placements, length, length, &[])
}

fn told(
    problem: &PolygonProblem,
    placements: &[Placement],
    length: i64,
    bound: i64,
    unplaced: &[(usize, i64)],
) -> Result<(), &'static str> {
    let (placements, unplaced) = (placements.to_vec(), unplaced.to_vec());
    polygons(problem, &StripSolution { placements, length, unplaced, bound, proved: false })
}

#[test]
fn convex_polygons_lie_apart_if_a_side_of_either_parts_them() {
    let triangle = [(0, 0), (6, 0), (0, 6)];
    // The line along + across = 6 is a side of the triangle; no side of the square parts the two.
    let cases = [((4, 4), true), ((3, 3), true), ((3, 2), false), ((2, 3), false), ((6, 0), true), ((5, 0), false)];
    for ((along, across), expected) in cases {
        let square = between((along, across), (along + 3, across + 3));
        assert_eq!(apart(&triangle, &square), expected, "{along} {across}");
        assert_eq!(apart(&square, &triangle), expected, "{along} {across}");
    }
}

/// Twice the area of the smallest triangle is one.
#[test]
fn the_smallest_triangle_does_not_lie_apart_from_itself() {
    let triangle = [(0, 0), (1, 0), (0, 1)];
    assert!(!apart(&triangle, &triangle));
    assert!(apart(&triangle, &[(0, 1), (1, 0), (1, 1)]));
}

/// Hypotenuses of right triangles with sides 3, 4, 5.
#[test]
fn the_distance_is_from_a_corner_to_a_side_or_a_corner() {
    let square = between((0, 0), (10, 10));
    let slanted = [(0, 0), (40, 30), (0, 30)];
    let cases = [
        (square.clone(), between((13, 14), (20, 25)), 5.0),
        (square.clone(), between((-9, -14), (-3, -4)), 5.0),
        (square.clone(), between((17, 3), (30, 8)), 7.0),
        (square, between((3, -19), (8, -6)), 6.0),
        // From (20, 15) on the slanted side ten units square to it.
        (slanted.to_vec(), vec![(26, 7), (36, -20), (46, -10)], 10.0),
    ];
    for (one, other, expected) in cases {
        assert!((distance(&one, &other) - expected).abs() < 1e-9, "{one:?} {other:?}");
        assert!((distance(&other, &one) - expected).abs() < 1e-9, "{other:?} {one:?}");
    }
}

#[test]
fn a_polygon_is_mirrored_then_turned_and_lies_in_the_corner_of_its_box() {
    let problem = sheet(vec![Polygon::new(vec![(2, 1), (8, 1), (2, 5)], 1)], 0);
    let cases = [
        (Turn::None, false, [(0, 0), (0, 4), (6, 0)]),
        (Turn::Half, false, [(0, 4), (6, 0), (6, 4)]),
        (Turn::Quarter, false, [(0, 0), (4, 0), (4, 6)]),
        (Turn::ThreeQuarters, false, [(0, 0), (0, 6), (4, 6)]),
        (Turn::None, true, [(0, 0), (0, 4), (6, 4)]),
        (Turn::Quarter, true, [(0, 0), (0, 6), (4, 0)]),
    ];
    for (turn, mirrored, expected) in cases {
        let mut corners = placed_corners(&problem, &Placement { turn, mirrored, ..at(30, 50) }).unwrap();
        corners.sort_unstable();
        assert_eq!(corners, expected, "{turn:?} {mirrored}");
    }
    assert_eq!(placed_corners(&problem, &Placement { item: 1, ..at(0, 0) }), None);
    // On a line there is no polygon.
    let flat = sheet(vec![Polygon::new(vec![(0, 0), (4, 4), (9, 9)], 1)], 0);
    assert_eq!(verdict(&flat, &[at(0, 0)], 9), Err("no polygon"));
}

#[test]
fn two_triangles_make_a_rectangle_and_come_no_nearer() {
    let triangle = Polygon { half: true, ..Polygon::new(vec![(0, 0), (60, 0), (0, 40)], 2) };
    let problem = sheet(vec![triangle], 0);
    let half = |along, across| Placement { turn: Turn::Half, ..at(along, across) };
    assert_eq!(verdict(&problem, &[at(7, 9), half(7, 9)], 67), Ok(()));
    assert_eq!(verdict(&problem, &[at(7, 9), half(6, 9)], 67), OVERLAP);
    assert_eq!(verdict(&problem, &[at(7, 9), half(7, 8)], 67), OVERLAP);
    assert_eq!(verdict(&problem, &[half(7, 9), at(8, 9)], 68), OVERLAP);
    assert_eq!(verdict(&problem, &[half(8, 9), at(7, 9)], 68), Ok(()));
    // Only the boxes overlap.
    assert_eq!(verdict(&problem, &[half(7, 10), at(7, 9)], 67), Ok(()));
}

#[test]
fn a_bar_fits_into_the_notch_of_another_piece_and_no_farther() {
    let notched = vec![(0, 0), (60, 0), (60, 40), (40, 40), (40, 20), (20, 20), (20, 40), (0, 40)];
    let problem = sheet(vec![Polygon::new(notched, 1), Polygon::new(between((0, 0), (20, 30)), 1)], 0);
    let bar = |along, across| Placement { item: 1, ..at(along, across) };
    assert_eq!(verdict(&problem, &[at(5, 7), bar(25, 27)], 65), Ok(()));
    for (along, across) in [(24, 27), (26, 27), (25, 26)] {
        assert_eq!(verdict(&problem, &[at(5, 7), bar(along, across)], 65), OVERLAP, "{along} {across}");
    }
}

#[test]
fn pieces_keep_the_gap_in_every_direction() {
    let square = Polygon::new(between((0, 0), (20, 20)), 2);
    let cases = [
        (5, (25, 0), Ok(())),
        (5, (24, 0), NEAR),
        (5, (0, 25), Ok(())),
        (5, (0, 24), NEAR),
        (5, (23, 24), Ok(())),
        (5, (22, 24), NEAR),
        (5, (23, 23), NEAR),
        (1, (20, 0), NEAR),
        (1, (21, 0), Ok(())),
        (0, (20, 0), Ok(())),
        (0, (19, 0), OVERLAP),
    ];
    for (gap, (along, across), expected) in cases {
        let problem = sheet(vec![square.clone()], gap);
        assert_eq!(verdict(&problem, &[at(0, 0), at(along, across)], 20 + along), expected, "{gap} {along} {across}");
    }
}

#[test]
fn half_of_a_mirrored_polygon_is_mirrored_where_all_are_placed() {
    let square = Polygon::new(between((0, 0), (20, 30)), 4);
    let mut problem = sheet(vec![Polygon { mirror: true, ..square.clone() }, square], 0);
    let placements = |mirrored: usize, others: usize| -> Vec<Placement> {
        let place = |(index, along): (usize, i64)| Placement { mirrored: index < mirrored, ..at(along, 0) };
        let own = (0..4).zip((0..).step_by(20)).map(place);
        let other = |(index, along): (usize, i64)| Placement { item: 1, mirrored: index < others, ..at(along, 40) };
        own.chain((0..4).zip((0..).step_by(20)).map(other)).collect()
    };
    for (mirrored, others, expected) in
        [(2, 0, Ok(())), (1, 0, PAIRS), (3, 0, PAIRS), (0, 0, PAIRS), (4, 0, PAIRS), (2, 1, PAIRS)]
    {
        assert_eq!(verdict(&problem, &placements(mirrored, others), 80), expected, "{mirrored} {others}");
    }
    // Of what is left out nobody knows which it would be, but of the others all are known.
    assert_eq!(told(&problem, &placements(1, 0)[..7], 80, 0, &[(1, 1)]), PAIRS);
    assert_eq!(told(&problem, &placements(1, 0)[1..], 80, 0, &[(0, 1)]), Ok(()));
    assert_eq!(told(&problem, &placements(1, 0)[1..7], 80, 0, &[(0, 1), (1, 1)]), Ok(()));
    assert_eq!(told(&problem, &placements(1, 0)[1..7], 80, 0, &[(1, 1), (0, 1)]), Ok(()));
    problem.polygons[0].mirror = false;
    assert_eq!(verdict(&problem, &placements(0, 0), 80), Ok(()));
}

#[test]
fn polygons_are_turned_and_placed_only_as_they_may() {
    let plain = Polygon::new(between((0, 0), (20, 30)), 1);
    let half = Polygon { half: true, ..plain.clone() };
    let quarter = Polygon { quarter: true, ..plain.clone() };
    let turned = Err("turned, which it must not be");
    let cases = [
        (&plain, Turn::None, Ok(()), 20),
        (&plain, Turn::Half, turned, 20),
        (&plain, Turn::Quarter, turned, 30),
        (&half, Turn::Half, Ok(()), 20),
        (&half, Turn::ThreeQuarters, turned, 30),
        (&quarter, Turn::Quarter, Ok(()), 30),
        (&quarter, Turn::ThreeQuarters, Ok(()), 30),
        (&quarter, Turn::Half, turned, 20),
    ];
    for (polygon, turn, expected, length) in cases {
        let problem = sheet(vec![polygon.clone()], 0);
        assert_eq!(verdict(&problem, &[Placement { turn, ..at(0, 0) }], length), expected, "{turn:?}");
    }
    let edge = sheet(vec![Polygon { at_edge: true, ..plain.clone() }], 0);
    assert_eq!(verdict(&edge, &[at(0, 0)], 20), Ok(()));
    assert_eq!(verdict(&edge, &[at(0, 1)], 20), Err("off the edge"));
    let marked = sheet(vec![Polygon { starts: Some(Starts { first: 4, every: 9 }), ..plain }], 0);
    assert_eq!(verdict(&marked, &[at(13, 0)], 33), Ok(()));
    assert_eq!(verdict(&marked, &[at(14, 0)], 34), Err("begins where it must not"));
}

#[test]
fn polygons_end_where_the_length_says_and_no_bound_is_above() {
    let problem = sheet(vec![Polygon::new(between((0, 0), (20, 30)), 1)], 0);
    assert_eq!(verdict(&problem, &[at(180, 70)], 200), Ok(()));
    assert_eq!(verdict(&problem, &[at(181, 70)], 201), Err("outside its stretch"));
    assert_eq!(verdict(&problem, &[at(180, 71)], 200), Err("outside its stretch"));
    assert_eq!(verdict(&problem, &[at(13, 0)], 34), Err("not the length it says"));
    assert_eq!(told(&problem, &[at(13, 0)], 33, 5, &[]), Ok(()));
    assert_eq!(told(&problem, &[at(13, 0)], 33, 34, &[]), Err("a bound above the length"));
}
