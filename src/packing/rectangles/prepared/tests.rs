//! Problems in units and back, by hand, and what is refused at its limit.

use super::*;
use crate::problem::Rectangle;

fn piece(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

fn quarter(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { quarter: true, ..piece(along, across, count) }
}

fn follows(mut piece: Rectangle, first: i64, every: i64) -> Rectangle {
    piece.starts = Some(Starts { first, every });
    piece
}

fn new(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>, loss: i64) -> Option<Prepared> {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss })
}

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    new(stretches, rectangles, 0).expect("a sound problem")
}

/// Sizes along and across of the shapes, and whether each is turned.
fn shapes(prepared: &Prepared) -> Vec<(i64, i64, bool)> {
    prepared.shapes.iter().map(|shape| (shape.along, shape.across, shape.turned)).collect()
}

#[test]
fn sizes_are_in_the_greatest_units_that_divide_them_all() {
    // Along 12 and 18 by sixes, across 10 and 25 by fives; a rest of the stretch is no use.
    let plan = prepared(&[(57, Some(100)), (44, None)], vec![piece(12, 10, 3), piece(18, 25, 2)]);
    assert_eq!(shapes(&plan), [(2, 2, false), (3, 5, false)]);
    assert_eq!(plan.stretches, [Stretch { width: 11, length: Some(16) }, Stretch { width: 8, length: None }]);
    assert_eq!((plan.pieces, plan.counts(), plan.sizes(), plan.area()), (5, vec![3, 2], vec![4, 15], 42));
    assert_eq!((plan.real_length(7), plan.endless()), (42, Some(1)));
    // Starts are along: 12, 18, 4 and 14 by twos.
    let plan = prepared(&[(57, None)], vec![follows(piece(12, 10, 3), 4, 14), piece(18, 25, 2)]);
    assert_eq!(
        (shapes(&plan), plan.shapes[0].starts),
        (vec![(6, 2, false), (9, 5, false)], Some(Starts { first: 2, every: 7 }),)
    );
    let plan = prepared(&[(57, None)], vec![follows(piece(12, 10, 3), 4, 15)]);
    assert_eq!(plan.shapes[0].starts, Some(Starts { first: 4, every: 15 }));
    // A piece that may be turned wants one unit both ways: 12, 18, 10 and 26 by twos.
    let plan = prepared(&[(57, None)], vec![quarter(12, 10, 3), piece(18, 26, 2)]);
    assert_eq!(shapes(&plan), [(6, 5, false), (5, 6, true), (9, 13, false)]);
    // A square has but one orientation.
    assert_eq!(shapes(&prepared(&[(57, None)], vec![quarter(6, 6, 3)])), [(1, 1, false)]);
    let nothing = prepared(&[(57, Some(13))], vec![]);
    assert_eq!((nothing.stretches[0], nothing.endless()), (Stretch { width: 57, length: Some(13) }, None));
}

#[test]
fn a_loss_is_part_of_every_length_but_not_behind_the_last_piece() {
    let plan = new(&[(57, Some(13)), (20, None)], vec![quarter(7, 5, 3)], 2).expect("a sound problem");
    // 7 and 2 are one unit of 9; of 13 and 2 there is one.
    assert_eq!((shapes(&plan), plan.stretches[0].length), (vec![(1, 1, false)], Some(1)));
    assert_eq!((plan.real_length(3), plan.real_length(0)), (9 + 9 + 7, 0));
}

#[test]
fn orientations_that_fit_nowhere_are_not_there_and_kinds_without_one_stay_out() {
    let rectangles = vec![quarter(9, 4, 2), piece(3, 8, 2), piece(5, 7, 1), piece(3, 8, 1)];
    let plan = prepared(&[(7, None)], rectangles.clone());
    assert_eq!((shapes(&plan), plan.pieces), (vec![(5, 7, false), (9, 4, false)], 3));
    assert_eq!(plan.unplaceable, [(1, 2), (3, 1)]);
    let plan = prepared(&[(9, Some(4))], rectangles);
    assert_eq!((shapes(&plan), plan.pieces), (vec![(3, 8, false), (4, 9, true)], 5));
    assert_eq!(plan.unplaceable, [(2, 1)]);
    // From its start a piece ends within the stretch, or it does not fit.
    let shape = &prepared(&[(9, None)], vec![follows(piece(5, 4, 1), 2, 9), piece(1, 1, 1)]).shapes[1];
    let fits = |width: i64, length: Option<i64>| fits(shape, Stretch { width, length });
    assert!(fits(4, Some(7)) && !fits(4, Some(6)) && !fits(3, Some(7)) && fits(4, None) && !fits(3, None));
}

#[test]
fn equal_pieces_are_one_kind_and_get_their_names_back() {
    let rectangles = vec![piece(5, 4, 1), piece(7, 3, 2), piece(5, 4, 2), piece(9, 9, 1), piece(5, 4, 0)];
    let plan = prepared(&[(8, None)], rectangles);
    assert_eq!((plan.counts(), plan.unplaceable.clone()), (vec![3, 2], vec![(3, 1)]));
    // Two of 5 by 4 from the front, one 7 by 3; named from the front.
    let at = |shape: usize, along: i64, across: i64| ShapePlacement { shape, stretch: 0, along, across };
    let layout = plan.layout(vec![at(0, 7, 4), at(1, 0, 4), at(0, 0, 0)]);
    assert_eq!((layout.length, layout.missing), (12, 20 + 21));
    let (placements, out) = plan.named(&layout);
    let named: Vec<(usize, i64, i64)> = placements.iter().map(|at| (at.item, at.along, at.across)).collect();
    assert_eq!(named, [(0, 0, 0), (1, 0, 4), (2, 7, 4)]);
    assert_eq!(out, [(1, 1), (2, 1), (3, 1)]);
    // Positions in the units of the problem, stretch by stretch, and turns.
    let plan = prepared(&[(60, Some(90)), (60, None)], vec![quarter(50, 30, 2)]);
    let layout = plan.layout(vec![
        ShapePlacement { shape: 1, stretch: 1, along: 2, across: 1 },
        ShapePlacement { shape: 0, stretch: 0, along: 4, across: 3 },
    ]);
    // Only what lies on the endless stretch counts for the length.
    assert_eq!((layout.length, layout.missing), (2 + 3, 0));
    let (placements, _) = plan.named(&layout);
    let at = |stretch, along, across, turn| Placement { item: 0, stretch, along, across, turn, mirrored: false };
    assert_eq!(placements, [at(0, 40, 30, Turn::None), at(1, 20, 10, Turn::Quarter)]);
}

#[test]
fn what_differs_in_a_rule_is_another_kind() {
    let edge = Rectangle { at_edge: true, ..piece(5, 4, 1) };
    let kinds = |rectangles: Vec<Rectangle>, loss: i64| {
        new(&[(8, None)], rectangles, loss).expect("a sound problem").items.len()
    };
    assert_eq!(kinds(vec![piece(5, 4, 1), edge.clone(), quarter(5, 4, 1), follows(piece(5, 4, 1), 0, 3)], 0), 4);
    // At the edge, and with a loss, there is no turning.
    assert_eq!(kinds(vec![edge.clone(), Rectangle { quarter: true, ..edge }], 0), 1);
    assert_eq!(kinds(vec![piece(5, 4, 1), quarter(5, 4, 1)], 1), 1);
    // Before the stretch begins, a start is as good as some repeats later.
    assert_eq!(kinds(vec![follows(piece(5, 4, 1), -2, 3), follows(piece(5, 4, 1), 1, 3)], 0), 1);
    assert_eq!(kinds(vec![follows(piece(5, 4, 1), 4, 3), follows(piece(5, 4, 1), 1, 3)], 0), 2);
}

#[test]
fn a_better_plan_leaves_less_out_and_then_is_shorter() {
    let layout = |missing: i128, length: i64| Layout { placements: Vec::new(), missing, length };
    assert!(layout(3, 9).is_better_than(&layout(4, 1)) && layout(3, 8).is_better_than(&layout(3, 9)));
    assert!(!layout(3, 9).is_better_than(&layout(3, 9)) && !layout(4, 1).is_better_than(&layout(3, 9)));
    assert!(layout(0, 9).meets(9) && !layout(0, 10).meets(9) && !layout(1, 9).meets(9));
}

#[test]
fn sideways_both_axes_are_exchanged_where_no_rule_holds_them() {
    let plan = prepared(&[(10, None)], vec![piece(5, 4, 1), quarter(7, 3, 2)]);
    assert!(plan.is_plain());
    let other = plan.sideways(23);
    assert_eq!(other.stretches, [Stretch { width: 23, length: Some(10) }]);
    assert_eq!(shapes(&other), [(4, 5, false), (3, 7, false), (7, 3, true)]);
    let edge = Rectangle { at_edge: true, ..piece(5, 4, 1) };
    assert!(!prepared(&[(10, None)], vec![edge, piece(7, 3, 1)]).is_plain());
    assert!(!prepared(&[(10, None)], vec![follows(piece(5, 4, 1), 0, 3), piece(7, 3, 1)]).is_plain());
    assert!(!prepared(&[(10, Some(9)), (10, None)], vec![piece(5, 4, 1)]).is_plain());
}

#[test]
fn numbers_are_taken_up_to_their_limits() {
    let is_taken =
        |stretches: &[(i64, Option<i64>)], piece: Rectangle, loss: i64| new(stretches, vec![piece], loss).is_some();
    let strip = [(10, None)];
    assert!(is_taken(&strip, piece(5, 4, 4_000_000), 0) && !is_taken(&strip, piece(5, 4, 4_000_001), 0));
    // The longest line of all pieces, each with its loss, the longer of its sizes and the way to its start, is 2^60.
    let quarter_of_all = 1 << 58;
    assert!(is_taken(&strip, piece(quarter_of_all, 4, 4), 0) && !is_taken(&strip, piece(quarter_of_all + 1, 4, 4), 0));
    assert!(is_taken(&strip, piece(4, quarter_of_all, 4), 0) && !is_taken(&strip, piece(4, quarter_of_all + 1, 4), 0));
    assert!(is_taken(&strip, piece(quarter_of_all - 3, 4, 4), 3));
    assert!(!is_taken(&strip, piece(quarter_of_all - 2, 4, 4), 3));
    assert!(is_taken(&strip, follows(piece(quarter_of_all - 9, 4, 4), 8, 7), 0));
    assert!(!is_taken(&strip, follows(piece(quarter_of_all - 9, 4, 4), 9, 9), 0));
    assert!(!is_taken(&strip, follows(piece(quarter_of_all - 9, 4, 4), 1, 9), 0));
    assert!(is_taken(&strip, follows(piece(quarter_of_all - 9, 4, 4), 0, 9), 0));
    assert!(is_taken(&strip, follows(piece(5, 4, 4), -7, 1), 0) && !is_taken(&strip, follows(piece(5, 4, 4), 7, 0), 0));
    for (along, across, count) in [(0, 4, 4), (5, 0, 4), (5, 4, -1)] {
        assert!(!is_taken(&strip, piece(along, across, count), 0));
    }
    assert!(is_taken(&strip, piece(1, 1, 0), 0) && is_taken(&[(1, Some(1))], piece(1, 1, 1), 0));
    assert!(!is_taken(&[(0, Some(1))], piece(1, 1, 1), 0) && !is_taken(&[(1, Some(0))], piece(1, 1, 1), 0));
    // With a loss of one, none of the length is left to fit.
    assert!(is_taken(&[(1, Some(0))], piece(1, 1, 1), 1) && !is_taken(&[(1, Some(-1))], piece(1, 1, 1), 1));
    assert!(!is_taken(&strip, piece(5, 4, 4), -1) && !is_taken(&[], piece(5, 4, 4), 0));
    assert!(is_taken(&[(5, Some(4)), (10, None)], piece(5, 4, 4), 0));
    assert!(!is_taken(&[(5, None), (10, Some(4))], piece(5, 4, 4), 0));
    assert!(!is_taken(&[(5, None), (10, None)], piece(5, 4, 4), 0));
    // More room than the longest line is not needed.
    let huge = prepared(&[(i64::MAX, Some(i64::MAX))], vec![piece(5, 4, 1), piece(7, 3, 1)]);
    assert_eq!(huge.stretches, [Stretch { width: 1 << 60, length: Some(1 << 60) }]);
}
