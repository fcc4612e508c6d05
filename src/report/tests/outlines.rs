//! Where lines meet the outline of a piece, on shapes drawn by hand.

use super::super::canvas::Point;
use super::super::outline_places::{along_edge, crossings, evenly, extents, inside, least_mark};
use crate::piece::OutlinePoint;
use crate::quantity::Length;

fn cm(value: f64) -> Length {
    Length::centimetres(value)
}

fn corners(places: &[(f64, f64)]) -> Vec<OutlinePoint> {
    places.iter().map(|(across, along)| OutlinePoint { across: cm(*across), along: cm(*along) }).collect()
}

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() < 1e-9
}

#[track_caller]
fn assert_places(found: &[Length], wanted: &[f64]) {
    assert!(
        found.len() == wanted.len()
            && found.iter().zip(wanted).all(|(found, wanted)| near(found.in_centimetres(), *wanted)),
        "{:?}, not {wanted:?}",
        found.iter().map(|place| place.in_centimetres()).collect::<Vec<_>>()
    );
}

#[test]
fn evenly_chosen_heights_have_the_first_and_the_last() {
    let heights: Vec<Length> = (0..10).map(|at| cm(f64::from(at))).collect();
    assert_places(&evenly(&heights, 4), &[0.0, 3.0, 6.0, 9.0]);
    assert_places(&evenly(&heights, 3), &[0.0, 4.0, 9.0]);
    assert_places(&evenly(&heights, 2), &[0.0, 9.0]);
    assert_places(&evenly(&heights, 1), &[0.0]);
    assert_places(&evenly(&[], 3), &[]);
}

#[test]
fn extents_are_the_least_and_the_most_either_way() {
    let (along, across) = extents(&corners(&[(3.0, 7.0), (-2.0, 9.0), (5.0, -4.0), (1.0, 2.0)]));
    assert_places(&[along.0, along.1, across.0, across.1], &[-4.0, 9.0, -2.0, 5.0]);
    let (along, across) = extents(&[]);
    assert_places(&[along.0, along.1, across.0, across.1], &[0.0; 4]);
}

/// By pencil: a gore 20 at the foot, from −4, whose right side goes in by 6 over 30 and whose left side is straight. Half
/// a tenth of a millimetre is one place.
#[test]
fn a_height_crosses_an_outline_at_its_corners_and_between_them() {
    let gore = corners(&[(-4.0, 0.0), (16.0, 0.0), (10.0, 30.0), (-4.0, 30.0)]);
    let at = |height: f64| crossings(&gore, cm(height), cm(-4.0));
    assert_places(&at(0.0), &[0.0, 20.0]);
    assert_places(&at(5.0), &[0.0, 19.0]);
    assert_places(&at(20.0), &[0.0, 16.0]);
    assert_places(&at(30.0), &[0.0, 14.0]);
    assert_places(&at(31.0), &[]);
    assert_places(&at(-1.0), &[]);
    // As near as a tape can tell, it is the corner.
    assert_places(&at(0.004), &[0.0, 20.0]);
    assert_places(&at(30.004), &[0.0, 14.0]);
    assert_places(&at(30.006), &[]);
    assert!(near(least_mark().in_centimetres(), 0.005));
    // Of two corners at one place only one is told.
    let doubled = corners(&[(0.0, 0.0), (20.0, 0.0), (20.004, 0.0), (9.0, 30.0)]);
    assert_places(&crossings(&doubled, cm(0.0), cm(0.0)), &[0.0, 20.0]);
    let apart = corners(&[(0.0, 0.0), (20.0, 0.0), (20.006, 0.0), (9.0, 30.0)]);
    assert_places(&crossings(&apart, cm(0.0), cm(0.0)), &[0.0, 20.0, 20.006]);
    // The point of a flag is one place, and a notch makes two more.
    let notched = corners(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (15.0, 10.0), (0.0, 20.0)]);
    assert_places(&crossings(&notched, cm(16.0), cm(0.0)), &[0.0, 6.0, 24.0, 30.0]);
    assert_places(&crossings(&notched, cm(10.0), cm(0.0)), &[0.0, 15.0, 30.0]);
}

#[track_caller]
fn assert_runs(found: &[(Point, Point)], wanted: &[(Point, Point)]) {
    let same = |one: Point, other: Point| near(one.0, other.0) && near(one.1, other.1);
    assert!(
        found.len() == wanted.len()
            && found.iter().zip(wanted).all(|(found, wanted)| same(found.0, wanted.0) && same(found.1, wanted.1)),
        "{found:?}, not {wanted:?}"
    );
}

/// By pencil: a frame 40 by 20 with a slot from 15 to 20 over and from above to 12 down, and a hole from 30 to 34 over and
/// from 4 to 8 down.
#[test]
fn a_line_is_drawn_only_in_cloth() {
    let lines = vec![
        vec![(0.0, 0.0), (15.0, 0.0), (15.0, 12.0), (20.0, 12.0), (20.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)],
        vec![(30.0, 4.0), (34.0, 4.0), (34.0, 8.0), (30.0, 8.0)],
    ];
    let level = |y: f64| inside(&lines, (0.0, y), (40.0, y));
    assert_runs(&level(6.0), &[((0.0, 6.0), (15.0, 6.0)), ((20.0, 6.0), (30.0, 6.0)), ((34.0, 6.0), (40.0, 6.0))]);
    assert_runs(&level(10.0), &[((0.0, 10.0), (15.0, 10.0)), ((20.0, 10.0), (40.0, 10.0))]);
    assert_runs(&level(15.0), &[((0.0, 15.0), (40.0, 15.0))]);
    assert_runs(&level(21.0), &[]);
    let upright = |x: f64| inside(&lines, (x, 0.0), (x, 20.0));
    assert_runs(&upright(17.0), &[((17.0, 12.0), (17.0, 20.0))]);
    assert_runs(&upright(32.0), &[((32.0, 0.0), (32.0, 4.0)), ((32.0, 8.0), (32.0, 20.0))]);
    // From outside, and slanting: 40 over and 20 down is half a millimetre down for each to the side.
    assert_runs(&inside(&lines, (-10.0, 17.0), (50.0, 17.0)), &[((0.0, 17.0), (40.0, 17.0))]);
    assert_runs(&inside(&lines, (0.0, 0.0), (40.0, 20.0)), &[((0.0, 0.0), (15.0, 7.5)), ((20.0, 10.0), (40.0, 20.0))]);
}

/// By pencil: on a head 8 wide whose top is level at 2 down and whose sides fall 6 down over 3 to the side, as far as 5
/// from its middle is 4 level and 1 down the side, 1/√45 of 3 and 6.
#[test]
fn a_notch_is_measured_round_a_corner_and_points_into_the_piece() {
    let line = [(3.0, 2.0), (11.0, 2.0), (14.0, 8.0), (0.0, 8.0)];
    let root = 45.0_f64.sqrt();
    let (over, down) = (3.0 / root, 6.0 / root);
    let (right, into) = along_edge(&line, 5.0, true).unwrap();
    assert!(near(right.0, 11.0 + over) && near(right.1, 2.0 + down), "{right:?}");
    assert!(near(into.0, -down) && near(into.1, over), "{into:?}");
    let (left, into) = along_edge(&line, 5.0, false).unwrap();
    assert!(near(left.0, 3.0 - over) && near(left.1, 2.0 + down), "{left:?}");
    assert!(near(into.0, down) && near(into.1, over), "{into:?}");
    // On the level part a notch goes straight down, the other way round too.
    let (at, into) = along_edge(&line, 2.5, true).unwrap();
    assert!(near(at.0, 9.5) && near(at.1, 2.0) && near(into.0, 0.0) && near(into.1, 1.0), "{at:?} {into:?}");
    let turned: Vec<Point> = line.iter().rev().copied().collect();
    let (at, into) = along_edge(&turned, 2.5, true).unwrap();
    assert!(near(at.0, 4.5) && near(at.1, 2.0) && near(into.0, 0.0) && near(into.1, 1.0), "{at:?} {into:?}");
    // Exactly at the corner, all the way round, and farther than that: 8 and 14 and two sides of √45.
    let (at, _) = along_edge(&line, 4.0, true).unwrap();
    assert!(near(at.0, 11.0) && near(at.1, 2.0), "{at:?}");
    let (at, _) = along_edge(&line, 4.0 + root + 14.0, true).unwrap();
    assert!(near(at.0, 0.0) && near(at.1, 8.0), "{at:?}");
    assert_eq!(along_edge(&line, 40.0, true), None);
    assert_eq!(along_edge(&[], 1.0, true), None);
}

/// By pencil: from 2 to 8 in a square of 10 its sides are crossed before the line begins and behind its end.
#[test]
fn a_line_within_cloth_is_drawn_as_long_as_it_is() {
    let square = vec![vec![(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]];
    assert_runs(&inside(&square, (2.0, 5.0), (8.0, 5.0)), &[((2.0, 5.0), (8.0, 5.0))]);
    assert_runs(&inside(&square, (5.0, 9.0), (5.0, 3.0)), &[((5.0, 9.0), (5.0, 3.0))]);
}

/// By pencil: on a head 10 wide, 8 is 5 level and 3 down the side, from where into the piece is level.
#[test]
fn a_notch_in_an_upright_side_is_level() {
    let line = [(0.0, 0.0), (10.0, 0.0), (10.0, 20.0), (0.0, 20.0)];
    for (forward, x, level) in [(true, 10.0, -1.0), (false, 0.0, 1.0)] {
        let (at, into) = along_edge(&line, 8.0, forward).unwrap();
        assert!(near(at.0, x) && near(at.1, 3.0) && near(into.0, level) && near(into.1, 0.0), "{at:?} {into:?}");
    }
    // At the point of a flag itself a notch still has a way to go.
    let flag = [(0.0, 8.0), (12.0, 8.0), (6.0, 0.0)];
    for forward in [true, false] {
        let (at, into) = along_edge(&flag, 0.0, forward).unwrap();
        assert!(near(at.0, 6.0) && near(at.1, 0.0) && near(into.0.hypot(into.1), 1.0), "{at:?} {into:?}");
    }
}

/// A piece may be narrower or lower than 5 mm: its notches still go into it.
#[test]
fn a_notch_goes_into_a_narrow_piece() {
    let upright = |wide: f64, high: f64| [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)];
    let (_, into) = along_edge(&upright(4.0, 20.0), 5.0, true).unwrap();
    assert!(near(into.0, -1.0) && near(into.1, 0.0), "{into:?}");
    let (_, into) = along_edge(&upright(20.0, 4.0), 3.0, true).unwrap();
    assert!(near(into.0, 0.0) && near(into.1, 1.0), "{into:?}");
}
