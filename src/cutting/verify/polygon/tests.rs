//! Two outlines that touch or overlap, all on squared paper.

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
        // Away from the middle of the edge that it goes through.
        (&[(0, 0), (20, 0), (20, 10), (6, -1), (0, 10)], true),
        (&[(0, 0), (20, 0), (20, 10), (6, 0), (0, 10)], false),
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

fn at(along: i64, across: i64) -> Corner {
    Corner { along, across }
}

fn edge(from: (i64, i64), to: (i64, i64)) -> Edge {
    Edge { from: at(from.0, from.1), to: at(to.0, to.1) }
}

/// Twice the area of the triangle that the edge and the point make: 7 · 5 - 3 · 2, from (1, 2) on.
#[test]
fn a_point_lies_left_of_an_edge_or_right_of_it_or_in_line() {
    let slope = edge((1, 2), (8, 5));
    for (point, wanted) in [((3, 7), 29), ((8, 5), 0), ((15, 8), 0), ((6, 3), -8), ((1, 2), 0), ((-6, -1), 0)] {
        assert_eq!(slope.side(at(point.0, point.1)), wanted, "{point:?}");
    }
    assert_eq!(edge((8, 5), (1, 2)).side(at(3, 7)), -29);
}

#[test]
fn an_edge_comes_near_a_box_that_it_or_its_own_box_touches() {
    for slope in [edge((4, 7), (9, 2)), edge((9, 2), (4, 7)), edge((4, 2), (9, 7)), edge((9, 7), (4, 2))] {
        assert_eq!((slope.least(), slope.most()), (at(4, 2), at(9, 7)));
        for (least, most, wanted) in [
            ((9, 3), (12, 4), true),
            ((10, 3), (12, 4), false),
            ((1, 3), (4, 4), true),
            ((1, 3), (3, 4), false),
            ((5, 7), (6, 11), true),
            ((5, 8), (6, 11), false),
            ((5, -1), (6, 2), true),
            ((5, -1), (6, 1), false),
            ((5, 3), (6, 5), true),
            ((0, 0), (20, 30), true),
        ] {
            assert_eq!(slope.comes_near(at(least.0, least.1), at(most.0, most.1)), wanted, "{least:?} {most:?}");
        }
    }
}

#[test]
fn an_edge_holds_its_ends_and_what_is_between_them() {
    for slope in [edge((1, 2), (10, 5)), edge((10, 5), (1, 2))] {
        for (point, wanted) in [
            ((1, 2), true),
            ((4, 3), true),
            ((10, 5), true),
            ((13, 6), false),
            ((-2, 1), false),
            ((4, 4), false),
            ((5, 3), false),
        ] {
            assert_eq!(slope.holds(at(point.0, point.1)), wanted, "{point:?}");
        }
    }
}

/// The slope meets the uprights at (3, 1) and (6, 2).
#[test]
fn edges_cross_between_their_ends_only() {
    for (upright, wanted) in [
        (edge((6, -3), (6, 9)), true),
        (edge((3, 2), (3, 0)), true),
        (edge((6, 2), (6, 9)), false),
        (edge((6, 2), (6, -9)), false),
        (edge((6, 3), (6, 9)), false),
        (edge((6, 1), (6, -9)), false),
        // On through an end of the slope, and past it.
        (edge((12, -3), (12, 9)), false),
        (edge((0, -3), (0, 9)), false),
        (edge((15, -3), (15, 9)), false),
        (edge((-3, -3), (-3, 9)), false),
        // A stretch of the slope itself.
        (edge((3, 1), (9, 3)), false),
    ] {
        let slope = edge((0, 0), (12, 4));
        let turned = |edge: Edge| Edge { from: edge.to, to: edge.from };
        for one in [slope, turned(slope)] {
            for other in [upright, turned(upright)] {
                assert_eq!(one.crosses(other), wanted, "{one:?} {other:?}");
                assert_eq!(other.crosses(one), wanted, "{other:?} {one:?}");
            }
        }
    }
    // A unit to either side is enough: the slope lies 1 above one end, 1 below the other.
    assert!(edge((-1, 1), (1, -1)).crosses(edge((0, -1), (0, 1))));
    assert!(edge((0, 1), (1, 0)).crosses(edge((0, 0), (1, 1))));
}

#[test]
fn an_edge_has_a_middle_for_each_stretch_between_touches() {
    for slope in [edge((-2, 4), (10, 10)), edge((10, 10), (-2, 4))] {
        assert_eq!(slope.middles(vec![]), [at(4, 7)]);
        // In any order, and an end or a place named twice makes no stretch.
        let points = vec![at(6, 8), at(2, 6), at(6, 8), at(10, 10)];
        assert_eq!(slope.middles(points), [at(0, 5), at(4, 7), at(8, 9)]);
    }
}

/// In half units, round and round; a corner named twice in a row makes no edge.
#[test]
fn edges_run_round_from_each_corner_to_the_next_that_differs() {
    let made = edges(&[at(1, 3), at(5, 3), at(5, 3), at(2, 9)]);
    let made: Vec<_> = made.iter().map(|edge| (edge.from, edge.to)).collect();
    assert_eq!(made, [(at(2, 6), at(10, 6)), (at(10, 6), at(4, 18)), (at(4, 18), at(2, 6))]);
    let (least, most) =
        bounds(&edges(&[at(5, 6), at(6, 5), at(3, 7), at(4, 2), at(9, 9), at(6, 11), at(5, 8)])).unwrap();
    assert_eq!((least, most), (at(6, 4), at(18, 22)));
    assert!(bounds(&[]).is_none() && near(&[edge((0, 0), (3, 5))], &[]).is_empty());
}

/// An oblong of 12 by 8 in half units, and a triangle whose long side rises from (20, 0) to (0, 12).
#[test]
fn winding_tells_in_from_out_right_beside_an_edge() {
    use Direction::{Above, Ahead, Behind, Below};
    let oblong = edges(&outline(&[(0, 0), (6, 0), (6, 4), (0, 4)]));
    let triangle = edges(&outline(&[(0, 0), (10, 0), (0, 6)]));
    for (point, ahead, behind, above, below) in [
        ((5, 3), 1, 1, 1, 1),
        ((12, 4), 0, 1, 0, 0),
        ((0, 4), 1, 0, 1, 1),
        ((6, 0), 1, 1, 1, 0),
        ((6, 8), 0, 0, 0, 1),
        ((13, 4), 0, 0, 0, 0),
        ((-1, 4), 0, 0, 0, 0),
        ((6, 9), 0, 0, 0, 0),
        ((6, -1), 0, 0, 0, 0),
        ((-1, 8), 0, 0, 0, 0),
        ((-1, 0), 0, 0, 0, 0),
        ((17, 8), 0, 0, 0, 0),
        ((17, 0), 0, 0, 0, 0),
    ] {
        let point_at = at(point.0, point.1);
        let horizontal = point.1 == 0 || point.1 == 8;
        // Beside an upright edge only ahead and behind are asked, beside a level one only above and below.
        if !horizontal {
            assert_eq!((winding(&oblong, point_at, Ahead), winding(&oblong, point_at, Behind)), (ahead, behind));
        }
        if point.0 != 12 && point.0 != 0 {
            assert_eq!((winding(&oblong, point_at, Above), winding(&oblong, point_at, Below)), (above, below));
        }
    }
    let slant = at(10, 6);
    assert_eq!((winding(&triangle, slant, Ahead), winding(&triangle, slant, Behind)), (0, 1));
    let turned: Vec<Edge> = triangle.iter().map(|edge| Edge { from: edge.to, to: edge.from }).collect();
    assert_eq!((winding(&turned, slant, Ahead), winding(&turned, slant, Behind)), (0, -1));
    // 3 · 3 - 4 · 2: the least there is to the left.
    let rising = [edge((0, 0), (3, 4))];
    assert_eq!((winding(&rising, at(2, 3), Ahead), winding(&rising, at(2, 2), Ahead)), (1, 0));
    assert_eq!(edge((3, 4), (9, 4)).sides(), [Above, Below]);
    assert_eq!(edge((4, 3), (4, 9)).sides(), [Ahead, Behind]);
    assert_eq!(edge((3, 4), (9, 5)).sides(), [Ahead, Behind]);
}

#[test]
fn corners_are_put_counterclockwise_wherever_the_outline_lies() {
    for (along, across) in [(0, 0), (500, -70), (-900, 40)] {
        let counter: Vec<Corner> = moved(&[at(0, 0), at(9, 1), at(7, 6), at(2, 5)], along, across);
        let clockwise: Vec<Corner> = counter.iter().rev().copied().collect();
        assert_eq!(counterclockwise(counter.clone()), counter);
        assert_eq!(counterclockwise(clockwise), counter);
    }
    // Half a unit of area tells the order, and where there is none, it stays.
    let least = [at(4, 7), at(4, 8), at(5, 8)];
    assert_eq!(counterclockwise(least.to_vec()), [at(5, 8), at(4, 8), at(4, 7)]);
    assert_eq!(counterclockwise(vec![at(1, 2), at(5, 7)]), [at(1, 2), at(5, 7)]);
}

/// A trapezium whose middle runs at 800 across; its image comes about after any corner that it begins with.
#[test]
fn an_image_may_be_three_off_at_a_corner_and_not_four() {
    let even = [(70, 300), (1_070, 500), (1_070, 1_100), (70, 1_300)];
    let judged = |along: i64, across: i64| {
        let answers: Vec<bool> = (0..4)
            .map(|start| {
                let mut corners: Vec<Corner> = even.iter().map(|(along, across)| at(*along, *across)).collect();
                corners[2] = at(1_070 + along, 1_100 + across);
                corners.rotate_left(start);
                is_symmetric(&corners)
            })
            .collect();
        assert!(answers.iter().all(|answer| *answer == answers[0]), "{along} {across}: {answers:?}");
        answers[0]
    };
    for off in [-3, 3] {
        assert!(judged(off, 0) && judged(0, off), "{off}");
    }
    for off in [-4, 4] {
        assert!(!judged(off, 0) && !judged(0, off), "{off}");
    }
    assert!(judged(0, 0) && judged(3, -3));
    assert!(!is_symmetric(&[]));
}

/// Over a line of 100 by 99 a corner lies half a unit high where twice the triangle is 99, half of 199 rounded down.
#[test]
fn a_corner_within_half_a_unit_of_the_line_is_none() {
    for (along, across) in [(1, 1), (-1, 1), (1, -1), (-1, -1)] {
        let place = |(one, other): (i64, i64)| at(1_000 + along * one, 5_000 + across * other);
        let kept = |corner: (i64, i64)| {
            let corners = [place((0, 0)), place(corner), place((100, 99)), place((0, 300))];
            (0..4).all(|start| {
                let mut corners = corners.to_vec();
                corners.rotate_left(start);
                without_collinear(&corners).contains(&place(corner))
            })
        };
        // 100 · 99 - 99 · 99 is 99; 100 · 1 - 0 is 100.
        assert!(!kept((99, 99)) && !kept((1, 0)), "{along} {across}");
        assert!(kept((0, 1)) && kept((50, 50 + 2)) && kept((50, 50 - 3)), "{along} {across}");
    }
    // On the line and beyond its end it is a corner, and so is the one after it.
    let spike = [at(0, 0), at(30, 0), at(20, 0), at(20, 50)];
    assert_eq!(without_collinear(&spike), spike);
    let three_in_a_row = [at(0, 0), at(10, 5), at(20, 10), at(40, 20), at(0, 60)];
    assert_eq!(without_collinear(&three_in_a_row), [at(0, 0), at(40, 20), at(0, 60)]);
    assert_eq!(without_collinear(&[at(10, 5), at(40, 20), at(0, 60), at(0, 0)]), [at(40, 20), at(0, 60), at(0, 0)]);
}

/// Each touches the other in one place only; what decides is the stretch behind the touch.
#[test]
fn one_touch_is_enough_to_tell_in_from_out() {
    let oblong = outline(&[(0, 0), (40, 0), (40, 30), (0, 30)]);
    for (inner, wanted) in [
        // A corner on an edge, from within and from without, on each of the four.
        (&[(7, 0), (12, 9), (3, 11)][..], true),
        (&[(7, 0), (12, -9), (3, -11)], false),
        (&[(40, 8), (31, 13), (33, 4)], true),
        (&[(40, 8), (49, 13), (47, 4)], false),
        (&[(13, 30), (5, 21), (18, 23)], true),
        (&[(13, 30), (5, 39), (18, 37)], false),
        (&[(0, 11), (9, 5), (7, 17)], true),
        (&[(0, 11), (-9, 5), (-7, 17)], false),
        // Corner on corner.
        (&[(0, 0), (9, 3), (4, 11)], true),
        (&[(0, 0), (-9, -3), (-4, -11)], false),
        // It touches on its way and goes through between two touches.
        (&[(0, 0), (40, 30), (60, -5)], true),
        (&[(40, 0), (60, 15), (40, 30)], false),
        (&[(40, 0), (60, 15), (40, 30), (39, 15)], true),
        // An edge along an edge, shorter and longer.
        (&[(40, 5), (40, 12), (50, 9)], false),
        (&[(40, -5), (40, 42), (55, 9)], false),
        (&[(40, 5), (40, 12), (30, 9)], true),
        (&[(-3, 30), (45, 30), (20, 47)], false),
        (&[(-3, 29), (45, 30), (20, 47)], true),
    ] {
        check(&oblong, &outline(inner), wanted);
    }
}
