//! Forbidden offsets against a pencil, and against pieces laid on squared paper.

use super::*;
use crate::outlines::outline::prepare;
use crate::problem::Polygon;
use crate::solution::Turn;

fn set(corners: &[Point]) -> super::super::outline::Prepared {
    let polygon = Polygon { half: true, ..Polygon::new(corners.to_vec(), 1) };
    prepare(&[polygon]).unwrap()
}

#[test]
fn squares_may_touch_but_not_overlap() {
    let square = set(&[(0, 0), (4, 0), (4, 4), (0, 4)]);
    let forbidden = forbidden(&square.outlines[0], &square.outlines[0], 0);
    for along in -6..=6 {
        for across in -6..=6 {
            assert_eq!(forbidden.holds((along, across)), i64::abs(along) < 4 && i64::abs(across) < 4);
        }
    }
    let mut met = Vec::new();
    forbidden.along(3, |low, high| met.push((low, high)));
    assert_eq!(met, vec![(-4, 4)]);
    forbidden.along(4, |_, _| panic!("touching"));
}

#[test]
fn the_gap_is_kept_and_no_more_along_and_across() {
    let square = set(&[(0, 0), (4000, 0), (4000, 4000), (0, 4000)]);
    let forbidden = forbidden(&square.outlines[0], &square.outlines[0], 1000);
    assert!(forbidden.holds((4999, 0)) && !forbidden.holds((5000, 0)));
    assert!(forbidden.holds((0, -4999)) && !forbidden.holds((0, -5000)));
    // Corner to corner: at most two hundredths more than the gap.
    assert!(forbidden.holds((4706, 4706)) && !forbidden.holds((4722, 4722)));
}

#[test]
fn a_notch_holds_what_fits_into_it() {
    let notched = set(&[(0, 0), (30, 0), (30, 30), (20, 30), (20, 10), (10, 10), (10, 30), (0, 30)]);
    let upright = notched.items[0].plain.iter().find(|pose| pose.turn == Turn::None).unwrap().outline;
    let peg = set(&[(0, 0), (10, 0), (10, 20), (0, 20)]);
    let forbidden = forbidden(&notched.outlines[upright], &peg.outlines[0], 0);
    assert!(!forbidden.holds((10, 10)) && forbidden.holds((10, 9)) && forbidden.holds((11, 10)));
}

fn outline(corners: &[Point]) -> Outline {
    prepare(&[Polygon::new(corners.to_vec(), 1)]).unwrap().outlines.remove(0)
}

/// Shapes of right angles on squared paper: the squares of each, and its corners.
fn shapes() -> Vec<(Vec<Point>, Vec<Point>)> {
    let squares = |oblongs: &[(Point, Point)]| -> Vec<Point> {
        let oblong = |&(low, high): &(Point, Point)| {
            (low.0..high.0).flat_map(move |along| (low.1..high.1).map(move |across| (along, across)))
        };
        oblongs.iter().flat_map(oblong).collect()
    };
    vec![
        (squares(&[((0, 0), (5, 3))]), vec![(0, 0), (5, 0), (5, 3), (0, 3)]),
        (squares(&[((0, 0), (2, 6)), ((2, 0), (7, 3))]), vec![(0, 0), (7, 0), (7, 3), (2, 3), (2, 6), (0, 6)]),
        (
            squares(&[((0, 0), (8, 2)), ((0, 2), (1, 5)), ((5, 2), (8, 7))]),
            vec![(0, 0), (8, 0), (8, 7), (5, 7), (5, 2), (1, 2), (1, 5), (0, 5)],
        ),
    ]
}

#[test]
fn pieces_of_right_angles_overlap_where_they_share_a_square() {
    for (squares, corners) in shapes() {
        for (others, other_corners) in shapes() {
            for gap in [0, 1, 3] {
                let forbidden = forbidden(&outline(&corners), &outline(&other_corners), gap);
                for along in -13..=13 {
                    for across in -13..=13 {
                        // A small gap is kept as a square: some square of one is too near to one of the other.
                        let near = |one: &Point, other: &Point| {
                            let off = (other.0 + along - one.0, other.1 + across - one.1);
                            off.0.abs() <= gap && off.1.abs() <= gap
                        };
                        let meet = squares.iter().any(|one| others.iter().any(|other| near(one, other)));
                        assert_eq!(forbidden.holds((along, across)), meet, "{along}, {across} with {gap}");
                    }
                }
            }
        }
    }
}

fn random_outline(rng: &mut fastrand::Rng) -> Outline {
    loop {
        let corners: Vec<Point> = (0..rng.usize(3..8)).map(|_| (rng.i64(0..12), rng.i64(0..9))).collect();
        if let Some(corners) = geometry::tidied(&corners) {
            return outline(&corners);
        }
    }
}

#[test]
fn the_intervals_at_a_level_hold_the_forbidden_offsets_and_no_others() {
    let mut rng = fastrand::Rng::with_seed(5);
    for _ in 0..80 {
        let (one, other) = (random_outline(&mut rng), random_outline(&mut rng));
        let forbidden = forbidden(&one, &other, rng.i64(0..3));
        for level in -16..=16 {
            let (mut along, mut across) = (Vec::new(), Vec::new());
            forbidden.along(level, |low, high| along.push((low, high)));
            forbidden.across(level, |low, high| across.push((low, high)));
            let holds = |spans: &[(i64, i64)], at: i64| spans.iter().any(|&(low, high)| low < at && at < high);
            for at in -16..=16 {
                assert_eq!(holds(&along, at), forbidden.holds((at, level)), "{at}, {level}");
                assert_eq!(holds(&across, at), forbidden.holds((level, at)), "{level}, {at}");
            }
        }
        let all = forbidden.parts.iter().flat_map(|part| part.corners.clone());
        let free: Vec<Point> = all.filter(|&corner| !forbidden.holds(corner)).collect();
        assert_eq!(forbidden.free_corners(), free);
        let corners: Vec<Point> = forbidden.parts.iter().flat_map(|part| part.corners.clone()).collect();
        assert_eq!((forbidden.low, forbidden.high), geometry::around(&corners));
    }
}

#[test]
fn the_border_of_a_rectangle_is_not_within_it() {
    for along in 0..9 {
        for across in 0..9 {
            let within = [3, 4, 5].contains(&along) && [5, 6].contains(&across);
            assert_eq!(is_within((along, across), (2, 4), (6, 7)), within, "{along}, {across}");
        }
    }
}

#[test]
fn a_side_meets_a_level_between_two_whole_numbers() {
    // 7 on 3: at 1 it is 7/3, at 2 it is 14/3, at 3 all of it.
    for (level, expected) in [(0, (10, 10)), (1, (12, 13)), (2, (14, 15)), (3, (17, 17))] {
        assert_eq!(met((10, 0), (17, 3), level), expected);
        assert_eq!(met((17, 3), (10, 0), level), expected);
        let turned = |(low, high): (i64, i64)| (-high, -low);
        assert_eq!(met((-10, 0), (-17, 3), level), turned(expected));
    }
    // The same where the product is beyond 64 bits: 7·10^12 on 3·10^12.
    let far = 1_000_000_000_000;
    assert_eq!(met((10, 0), (10 + 7 * far, 3 * far), 2 * far), (10 + 4_666_666_666_666, 10 + 4_666_666_666_667));
    assert_eq!(met((10, 0), (10 - 7 * far, 3 * far), 2 * far), (10 - 4_666_666_666_667, 10 - 4_666_666_666_666));
    assert_eq!(met((10, 0), (10 + 6 * far, 3 * far), 2 * far), (10 + 4 * far, 10 + 4 * far));
}

#[test]
fn a_round_gap_is_kept_all_around_and_hardly_more() {
    for gap in [1000, 1234, 7_000_001] {
        let corners = round(gap);
        let radius = number::from_whole(gap);
        assert_eq!(corners.len(), 16);
        assert_eq!(geometry::around(&corners), ((-gap, -gap), (gap, gap)));
        for (at, &corner) in corners.iter().enumerate() {
            let next = corners[(at + 1) % 16];
            let float = |point: Point| (number::from_whole(point.0), number::from_whole(point.1));
            let ((x, y), (x2, y2)) = (float(corner), float(next));
            // A regular polygon of sixteen sides round the circle, its corners rounded outward by less than one.
            let angle = PI / 16.0 * (2.0 * number::from_count(at) + 1.0);
            let far = radius / (PI / 16.0).cos();
            let off = (x.abs() - (far * angle.cos()).abs(), y.abs() - (far * angle.sin()).abs());
            assert!(off.0 > -1e-6 && off.0 < 1.0 + 1e-6 && off.1 > -1e-6 && off.1 < 1.0 + 1e-6, "{gap}: {off:?}");
            let away = (x * y2 - y * x2) / (x2 - x).hypot(y2 - y);
            assert!(away > radius - 1e-6 && away < radius + 1.5, "{gap}: {away}");
        }
    }
    assert_eq!(round(999), vec![(-999, -999), (999, -999), (999, 999), (-999, 999)]);
}
