//! Positions, costs and looks of a few pieces, worked by hand.

use super::*;
use crate::outlines::tests::{Made, fixed, many_steps};
use crate::problem::{Polygon, Starts};

/// An oblong of 30 by 10 that may be turned by a quarter, one of 8 by 5 that lies at the edge, and one of 7 by 4 that
/// begins at 2, 13, 24 and so on, on a strip of 40.
fn ruled(gap: i64) -> Made {
    let turning = Polygon { quarter: true, ..fixed(30, 10, 1) };
    let at_edge = Polygon { at_edge: true, ..fixed(8, 5, 1) };
    let starting = Polygon { starts: Some(Starts { first: 2, every: 11 }), ..fixed(7, 4, 1) };
    Made::new(40, gap, &[turning, at_edge, starting])
}

fn at(pose: usize, along: f64, across: f64) -> Position {
    Position { pose, along, across }
}

fn told(position: Position) -> (usize, f64, f64) {
    (position.pose, position.along, position.across)
}

/// Does `work` on these pieces of the ruled kinds, each at a place along and across.
fn with(gap: i64, pieces: &[(usize, i64, i64)], work: impl FnOnce(&mut Crowd<'_>)) {
    let made = ruled(gap);
    let table = made.table();
    let depths = Depths::new(&table, &mut many_steps());
    let placements: Vec<PosePlacement> =
        pieces.iter().map(|&(item, along, across)| made.placed(item, along, across)).collect();
    work(&mut Crowd::new(&table, &depths, &placements, 2).unwrap());
}

#[test]
fn a_crowd_begins_as_the_layout_does() {
    with(3, &[(0, 6, 1), (1, 50, 0), (2, 13, 20)], |crowd| {
        assert_eq!((crowd.width, crowd.length(), crowd.gap, crowd.looks, crowd.threads), (40.0, 58.0, 3.0, 0, 2));
        assert!((crowd.noise - 0.001_000_000_04).abs() < 1e-15);
        assert_eq!(crowd.weights, vec![1.0; 9]);
        assert_eq!(crowd.boxes, vec![[6.0, 36.0, 1.0, 11.0], [50.0, 58.0, 0.0, 5.0], [13.0, 20.0, 20.0, 24.0]]);
        assert_eq!(crowd.pieces.iter().map(|piece| piece.poses.len()).collect::<Vec<_>>(), vec![2, 1, 1]);
        assert_eq!((crowd.pieces[2].starts, crowd.pieces[1].at_edge), (Some((2.0, 11.0)), true));
        // Turned, it has another outline and its sizes exchanged; places are rounded to whole ones.
        let before = crowd.outlines[0];
        crowd.set_position(0, at(1, 5.4, 8.6));
        assert_eq!(crowd.boxes[0].to_vec(), vec![5.4, 5.4 + 10.0, 8.6, 38.6]);
        assert_ne!(crowd.outlines[0], before);
        let placements = crowd.placements().unwrap();
        assert_eq!((placements[0].along, placements[0].across), (5, 9));
        assert_eq!(placements[0].pose, crowd.pieces[0].poses[1].pose);
        assert_eq!((placements[2].item, placements[2].along, placements[2].across), (2, 13, 20));
        crowd.set_position(0, at(0, f64::NAN, 0.0));
        assert_eq!(crowd.placements(), None);
    });
    // Too wide to lie as it does.
    let made = Made::new(9, 0, &[fixed(30, 10, 1)]);
    let depths = Depths::new(&made.table(), &mut many_steps());
    assert!(Crowd::new(&made.table(), &depths, &[made.placed(0, 0, 0)], 1).is_none());
}

#[test]
fn positions_are_brought_onto_the_strip_and_its_rules() {
    with(0, &[(0, 0, 0), (1, 30, 0), (2, 35, 10)], |crowd| {
        crowd.length = 50.0;
        for (piece, wanted, expected) in [
            (0, at(0, -5.0, -1.0), Some((0, 0.0, 0.0))),
            (0, at(0, 25.0, 35.0), Some((0, 20.0, 30.0))),
            (0, at(0, 12.5, 7.5), Some((0, 12.5, 7.5))),
            (0, at(1, 45.0, 15.0), Some((1, 40.0, 10.0))),
            (1, at(0, 12.5, 7.5), Some((0, 12.5, 0.0))),
            // 50 − 7 is 43: of 2, 13, 24 and 35 the nearest.
            (2, at(0, 0.0, 7.5), Some((0, 2.0, 7.5))),
            (2, at(0, 7.4, 7.5), Some((0, 2.0, 7.5))),
            (2, at(0, 7.6, 7.5), Some((0, 13.0, 7.5))),
            (2, at(0, 30.0, 99.0), Some((0, 35.0, 36.0))),
            (2, at(0, 99.0, 7.5), Some((0, 35.0, 7.5))),
        ] {
            assert_eq!(crowd.clamped(piece, wanted).map(told), expected, "{piece}: {wanted:?}");
        }
        for (length, piece, fits) in
            [(30.0, 0, true), (29.9, 0, false), (9.0, 2, true), (8.9, 2, false), (6.9, 2, false)]
        {
            crowd.length = length;
            assert_eq!(crowd.clamped(piece, at(0, 1.0, 1.0)).is_some(), fits, "{length}");
        }
        crowd.length = 13.0 + 7.0;
        assert_eq!(crowd.clamped(2, at(0, 12.0, 0.0)).map(told), Some((0, 13.0, 0.0)));
    });
}

#[test]
fn boxes_are_near_if_less_than_the_gap_lies_between() {
    with(3, &[(0, 0, 0)], |crowd| {
        let own = [10.0, 20.0, 5.0, 9.0];
        for (other, near) in [
            ([22.9, 30.0, 5.0, 9.0], true),
            ([23.0, 30.0, 5.0, 9.0], false),
            ([1.0, 7.1, 5.0, 9.0], true),
            ([1.0, 7.0, 5.0, 9.0], false),
            ([10.0, 20.0, 11.9, 14.0], true),
            ([10.0, 20.0, 12.0, 14.0], false),
            ([10.0, 20.0, -4.0, 2.1], true),
            ([10.0, 20.0, -4.0, 2.0], false),
        ] {
            assert_eq!(crowd.is_near(own, other), near, "{other:?}");
        }
    });
}

#[test]
fn a_position_costs_its_weighted_depths_and_looks_are_counted() {
    // The third overlaps the first by 7 of its own along and 3 across, the second by 4 along and 4 across.
    with(0, &[(0, 0, 0), (0, 34, 0), (0, 27, 7), (1, 90, 0)], |crowd| {
        crowd.set_position(2, at(0, 0.0, 7.0));
        crowd.set_position(1, at(0, 26.0, 5.0));
        let now = crowd.positions[2];
        // Depths of 3 with the first; with the second 4 along, 8 across.
        crowd.weights[8] = 2.0;
        crowd.weights[9] = 5.0;
        crowd.looks = 100;
        assert!((crowd.cost(2, now, f64::INFINITY) - (3.0 * 2.0 + 4.0 * 5.0)).abs() < 1e-9);
        // Two depths at eight looks each, and one for each of four pieces.
        assert_eq!(crowd.looks, 100 + 2 * 8 + 4);
        // Beyond the most that matters nothing more is looked at.
        assert!((crowd.cost(2, now, 6.0) - 6.0).abs() < 1e-9);
        assert_eq!(crowd.looks, 120 + 8 + 4);
        assert!((crowd.cost(2, now, 6.1) - 26.0).abs() < 1e-9);
        assert!(crowd.cost(3, crowd.positions[3], f64::INFINITY).abs() < 1e-9);
        // Elsewhere it would cost something else.
        assert!((crowd.cost(2, at(0, 0.0, 9.0), f64::INFINITY) - (2.0 + 20.0)).abs() < 1e-9);
        crowd.looks = 0;
        let (sum, pairs) = crowd.overlaps();
        // The first and the second overlap by 4 along and 5 across.
        assert!((sum - (4.0 + 3.0 + 4.0)).abs() < 1e-9, "{sum}");
        let found: Vec<(usize, usize)> = pairs.iter().map(|pair| (pair.0, pair.1)).collect();
        assert_eq!(found, vec![(0, 1), (0, 2), (1, 2)]);
        assert!((pairs[1].2 - 3.0).abs() < 1e-9);
        // A look for each pair that overlaps, and half of four times four.
        assert_eq!(crowd.looks, 3 + 8);
    });
}

#[test]
fn less_than_the_noise_is_no_overlap() {
    with(0, &[(0, 0, 0), (0, 30, 0)], |crowd| {
        for (overlap, counts) in [(0.0009, false), (0.0011, true)] {
            crowd.set_position(1, at(0, 30.0 - overlap, 0.0));
            let cost = crowd.cost(1, crowd.positions[1], f64::INFINITY);
            assert_eq!((cost > 0.0, crowd.overlaps().1.len()), (counts, usize::from(counts)));
        }
    });
}

#[test]
fn a_shorter_strip_moves_and_turns_what_no_longer_fits() {
    with(0, &[(0, 40, 2), (1, 50, 0), (2, 46, 20)], |crowd| {
        let before = crowd.clone();
        assert!(crowd.set_length(61.0));
        assert_eq!(
            crowd.positions.iter().copied().map(told).collect::<Vec<_>>(),
            [(0, 31.0, 2.0), (0, 50.0, 0.0), (0, 46.0, 20.0)]
        );
        assert!(crowd.set_length(30.0));
        assert_eq!(
            crowd.positions.iter().copied().map(told).collect::<Vec<_>>(),
            [(0, 0.0, 2.0), (0, 22.0, 0.0), (0, 13.0, 20.0)]
        );
        // The first lies in its other pose.
        assert!(crowd.set_length(29.0));
        assert_eq!(told(crowd.positions[0]), (1, 0.0, 2.0));
        assert_eq!(crowd.boxes[0].to_vec(), vec![0.0, 10.0, 2.0, 32.0]);
        assert!(crowd.set_length(10.0) && !crowd.set_length(9.9));
        crowd.restore_from(&before);
        assert_eq!((crowd.length(), told(crowd.positions[1]), crowd.boxes[2]), (70.0, (0, 50.0, 0.0), before.boxes[2]));
        assert_eq!(crowd.outlines, before.outlines);
    });
    with(0, &[(2, 46, 20)], |crowd| assert!(crowd.set_length(9.0) && !crowd.set_length(8.5)));
}
