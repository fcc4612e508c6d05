//! Plane geometry against a pencil, and against the slow ways that follow the definitions.

use super::*;

#[test]
fn a_polygon_is_put_in_order_or_refused() {
    assert_eq!(tidied(&[(0, 0), (0, 2), (2, 2), (2, 0), (1, 0), (0, 0)]), Some(vec![(2, 0), (2, 2), (0, 2), (0, 0)]));
    assert_eq!(tidied(&[(0, 0), (2, 2), (2, 0), (0, 2)]), None);
    assert_eq!(tidied(&[(0, 0), (5, 5), (9, 9)]), None);
    assert_eq!(tidied(&[]), None);
    // Touching itself in a corner is no simple polygon either.
    assert_eq!(tidied(&[(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)]), None);
}

#[test]
fn parts_are_convex_and_cover_the_polygon() {
    let comb = [(0, 0), (9, 0), (9, 9), (7, 9), (7, 2), (5, 2), (5, 9), (3, 9), (3, 2), (2, 9), (0, 9)];
    let tidy = tidied(&comb).unwrap();
    let parts = convex_parts(&tidy);
    assert!(parts.iter().all(|part| is_convex(part) && part.len() >= 3));
    assert_eq!(parts.iter().map(|part| twice_area(part)).sum::<i128>(), twice_area(&tidy));
    assert!(parts.len() <= 6, "{}", parts.len());
}

#[test]
fn random_stars_fall_into_parts_of_the_same_area() {
    let mut rng = fastrand::Rng::with_seed(7);
    for _ in 0..200 {
        let count = rng.i32(4..30);
        let star: Vec<Point> = (0..count)
            .map(|i| {
                let angle = f64::from(i) / f64::from(count) * std::f64::consts::TAU;
                let far = 100.0 + 900.0 * rng.f64();
                let whole = |value: f64| crate::number::nearest_whole(value).unwrap();
                (whole(far * angle.cos()), whole(far * angle.sin()))
            })
            .collect();
        if let Some(tidy) = tidied(&star) {
            let parts = convex_parts(&tidy);
            assert!(parts.iter().all(|part| is_convex(part)));
            assert_eq!(parts.iter().map(|part| twice_area(part)).sum::<i128>(), twice_area(&tidy));
        }
    }
}

#[test]
fn a_square_and_a_triangle_add_up() {
    let square = [(0, 0), (2, 0), (2, 2), (0, 2)];
    let triangle = [(0, 0), (3, 0), (0, 3)];
    assert_eq!(sum(&square, &triangle), vec![(0, 0), (5, 0), (5, 2), (2, 5), (0, 5)]);
    assert!(is_inside(&square, (1, 1)) && !is_inside(&square, (2, 1)));
}

/// An L of 7 by 5 whose arms are 3 and 2 wide: 3·5 + 4·2 = 23.
const L: [Point; 6] = [(1, 2), (8, 2), (8, 4), (4, 4), (4, 7), (1, 7)];

#[test]
fn turns_areas_and_boxes_by_hand() {
    // (5, 2) × (2, 7) = 35 − 4.
    assert_eq!(turn_of((1, 2), (6, 4), (3, 9)), 31);
    assert_eq!(turn_of((1, 2), (3, 9), (6, 4)), -31);
    assert_eq!(cross((5, 2), (-3, 7)), 41);
    assert_eq!(twice_area(&L), 46);
    assert_eq!(twice_area(&[(3, 4), (9, 4), (9, 15)]), 66);
    assert_eq!(twice_area(&[(3, 4), (9, 15), (9, 4)]), -66);
    assert_eq!(twice_area(&[]), 0);
    assert_eq!(around(&L), ((1, 2), (8, 7)));
    assert_eq!(around(&[(3, -4), (-9, 15), (5, 20), (7, 6)]), ((-9, -4), (7, 20)));
    assert_eq!(around(&[]), ((0, 0), (0, 0)));
}

#[test]
fn straight_and_repeated_corners_go_wherever_they_stand() {
    let triangle = [(0, 0), (6, 0), (6, 4)];
    for corners in [
        vec![(0, 0), (6, 0), (6, 4), (0, 0)],
        vec![(0, 0), (2, 0), (4, 0), (6, 0), (6, 1), (6, 3), (6, 4), (3, 2)],
        vec![(0, 0), (6, 0), (6, 0), (6, 4)],
        vec![(0, 0), (6, 0), (6, 0), (6, 0), (6, 4), (6, 4)],
    ] {
        assert_eq!(tidied(&corners), Some(triangle.to_vec()), "{corners:?}");
    }
    assert_eq!(tidied(&[(3, 0), (6, 0), (6, 4), (0, 0)]), Some(vec![(6, 0), (6, 4), (0, 0)]));
    // A spike encloses nothing and goes with its straight corners.
    assert_eq!(tidied(&[(0, 0), (6, 0), (9, 0), (6, 0), (6, 4)]), Some(triangle.to_vec()));
    assert_eq!(tidied(&[(0, 0), (6, 0), (0, 0), (6, 0)]), None);
    assert_eq!(tidied(&L), Some(L.to_vec()));
}

/// Whether two segments meet, by where their lines do: shares of both, as fractions.
fn met(a: Point, b: Point, c: Point, d: Point) -> bool {
    let (run, other) = (difference(b, a), difference(d, c));
    let (base, between) = (cross(run, other), difference(c, a));
    if base != 0 {
        let on = |share: i128| (0..=base.abs()).contains(&(share * base.signum()));
        return on(cross(between, other)) && on(cross(between, run));
    }
    // Parallel: some end of one lies on the other.
    let on = |from: Point, to: Point, point: Point| {
        let (to, point) = (difference(to, from), difference(point, from));
        let dot = |one: Point, other: Point| one.0 * other.0 + one.1 * other.1;
        cross(to, point) == 0 && (0..=dot(to, to)).contains(&dot(to, point))
    };
    on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b)
}

fn grid(columns: i64, rows: i64) -> Vec<Point> {
    (0..columns).flat_map(|along| (0..rows).map(move |across| (along, across))).collect()
}

#[test]
fn segments_meet_where_their_lines_do() {
    let points = grid(4, 3);
    for &a in &points {
        for &b in points.iter().filter(|&&b| b != a) {
            for &c in &points {
                for &d in points.iter().filter(|&&d| d != c) {
                    assert_eq!(meet(a, b, c, d), met(a, b, c, d), "{a:?} {b:?} {c:?} {d:?}");
                }
            }
        }
    }
}

/// A simple polygon of up to so many corners on a small grid, where many lie straight between others.
fn random_polygon(rng: &mut fastrand::Rng, most: usize) -> Vec<Point> {
    loop {
        let corners: Vec<Point> = (0..rng.usize(3..=most)).map(|_| (rng.i64(0..6), rng.i64(0..5))).collect();
        if let Some(tidy) = tidied(&corners) {
            return tidy;
        }
    }
}

#[test]
fn a_polygon_is_simple_if_no_side_meets_one_beyond_its_neighbours() {
    let mut rng = fastrand::Rng::with_seed(23);
    let (mut simple, mut crossed) = (0, 0);
    for _ in 0..4000 {
        let corners: Vec<Point> = (0..rng.usize(4..7)).map(|_| (rng.i64(0..6), rng.i64(0..5))).collect();
        let count = corners.len();
        let at = |i: usize| corners[i % count];
        if (0..count).any(|i| turn_of(at(i), at(i + 1), at(i + 2)) == 0) {
            continue;
        }
        let apart = |i: usize, j: usize| i.abs_diff(j) > 1 && i.abs_diff(j) < count - 1;
        let crosses = (0..count).any(|i| (0..count).any(|j| apart(i, j) && met(at(i), at(i + 1), at(j), at(j + 1))));
        assert_eq!(tidied(&corners).is_none(), crosses, "{corners:?}");
        if crosses { crossed += 1 } else { simple += 1 }
    }
    assert!(simple > 300 && crossed > 300, "{simple} and {crossed}");
}

/// Whether a point that lies on no line through two grid points is inside: how many sides a ray from it meets.
fn holds(corners: &[Point], point: Point) -> bool {
    let sides = corners.iter().zip(corners.iter().cycle().skip(1));
    let met = sides.filter(|&(&from, &to)| {
        (from.1 > point.1) != (to.1 > point.1) && (turn_of(from, to, point) > 0) == (to.1 > from.1)
    });
    met.count() % 2 == 1
}

#[test]
fn every_point_of_a_polygon_lies_in_one_of_its_parts() {
    let mut rng = fastrand::Rng::with_seed(31);
    for _ in 0..400 {
        let corners = random_polygon(&mut rng, 9);
        let parts = convex_parts(&corners);
        assert_eq!(parts.iter().map(|part| twice_area(part)).sum::<i128>(), twice_area(&corners), "{corners:?}");
        // A thousand times as large, so that there are points between.
        let corners: Vec<Point> = corners.iter().map(|corner| (corner.0 * 1000, corner.1 * 1000)).collect();
        let parts = convex_parts(&corners);
        assert!(parts.iter().all(|part| part.len() >= 3 && is_convex(part) && twice_area(part) > 0), "{corners:?}");
        assert!(parts.iter().flatten().all(|corner| corners.contains(corner)));
        assert_eq!(parts.iter().map(|part| twice_area(part)).sum::<i128>(), twice_area(&corners));
        for (along, across) in grid(10, 9) {
            let point = (along * 500 + 137, across * 500 + 211);
            let holding = parts.iter().filter(|part| is_inside(part, point)).count();
            assert_eq!(holding, usize::from(holds(&corners, point)), "{corners:?} at {point:?}");
        }
    }
}

#[test]
fn simple_shapes_fall_into_the_fewest_parts() {
    let t = [(0, 5), (4, 5), (4, 0), (7, 0), (7, 5), (12, 5), (12, 8), (0, 8)];
    let u = [(0, 0), (9, 0), (9, 7), (6, 7), (6, 2), (2, 2), (2, 7), (0, 7)];
    let arrow = [(0, 0), (9, 3), (0, 7), (4, 3)];
    for (corners, fewest) in [(&L[..], 2), (&t, 2), (&u, 3), (&arrow, 2), (&[(0, 0), (9, 0), (4, 7)], 1)] {
        assert_eq!(convex_parts(corners).len(), fewest, "{corners:?}");
    }
    assert!(is_convex(&[(0, 0), (4, 0), (9, 0), (4, 7)]) && !is_convex(&L));
}

#[test]
fn parts_are_merged_along_a_common_side_only_where_that_stays_convex() {
    let (left, right) = ([(0, 0), (5, 0), (5, 3), (0, 3)], [(5, 3), (5, 0), (8, 1)]);
    assert_eq!(merged(&left, &right), Some(vec![(0, 0), (5, 0), (8, 1), (5, 3), (0, 3)]));
    assert_eq!(merged(&left, &[(5, 3), (5, 0), (8, -9)]), None);
    assert_eq!(merged(&left, &[(5, 3), (6, 0), (8, 1)]), None);
    // The latest part that takes a new one does.
    let far = vec![(0, 3), (5, 3), (2, 9)];
    let mut parts = vec![left.to_vec(), vec![(5, 0), (0, 0), (3, -4)]];
    add_part(&mut parts, vec![(0, 0), (5, 0), (2, 5)]);
    assert_eq!(parts, vec![left.to_vec(), vec![(5, 0), (2, 5), (0, 0), (3, -4)]]);
    add_part(&mut parts, far.clone());
    assert_eq!(parts[0], vec![(0, 0), (5, 0), (5, 3), (2, 9), (0, 3)]);
    add_part(&mut parts, far.clone());
    assert_eq!(parts[2..], [far]);
}

/// The convex polygon around points, from its lowest point: each next corner has all others to its left.
fn hull(points: &[Point]) -> Vec<Point> {
    let first = *points.iter().min_by_key(|point| (point.1, point.0)).unwrap();
    let mut corners = vec![first];
    loop {
        let here = *corners.last().unwrap();
        let far = |point: Point| {
            let off = difference(point, here);
            off.0 * off.0 + off.1 * off.1
        };
        let next = points.iter().copied().filter(|&point| point != here).find(|&next| {
            points.iter().all(|&point| {
                let turn = turn_of(here, next, point);
                turn > 0 || turn == 0 && far(point) <= far(next)
            })
        });
        match next.unwrap() {
            next if next == first => return corners,
            next => corners.push(next),
        }
    }
}

#[test]
fn the_sum_of_two_polygons_is_the_hull_of_the_sums_of_their_corners() {
    let mut rng = fastrand::Rng::with_seed(41);
    for _ in 0..400 {
        let mut random = || hull(&random_polygon(&mut rng, 7));
        let (mut left, mut right) = (random(), random());
        let all = |right: &[Point]| {
            let sums = |&a: &Point| right.iter().map(move |b| (a.0 + b.0, a.1 + b.1));
            left.iter().flat_map(sums).collect::<Vec<Point>>()
        };
        let expected = hull(&all(&right));
        left.rotate_left(1);
        right.rotate_left(2);
        assert_eq!(sum(&left, &right), expected, "{left:?} and {right:?}");
    }
}

#[test]
fn a_point_is_inside_a_convex_polygon_short_of_its_border() {
    let triangle = [(0, 0), (6, 0), (0, 4)];
    // Below the line from (6, 0) to (0, 4): 2·along + 3·across < 12.
    for (along, across) in grid(8, 6) {
        let (along, across) = (along - 1, across - 1);
        let inside = along > 0 && across > 0 && 2 * along + 3 * across < 12;
        assert_eq!(is_inside(&triangle, (along, across)), inside, "{along}, {across}");
    }
}
