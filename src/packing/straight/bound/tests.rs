//! The lower bounds, each worked by hand.

use super::*;
use crate::effort::Watch;
use crate::problem::{Rectangle, RectangleProblem, Stretch};
use std::sync::atomic::AtomicBool;

fn prepared(loss: i64, stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss })
}

fn endless(width: i64, rectangles: Vec<Rectangle>) -> Prepared {
    prepared(0, &[(width, None)], rectangles)
}

fn marked(first: i64, every: i64, along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { starts: Some(Starts { first, every }), ..Rectangle::new(along, across, count) }
}

/// The lengths as a bound uses them: of shapes, of limited stretches, the lead, the unit.
fn lengths(prepared: &Prepared) -> (Vec<i64>, Vec<i64>, i64, i64) {
    let Lengths { along, limited, lead, unit } = Lengths::new(prepared);
    (along, limited, lead, unit)
}

#[test]
fn pieces_at_the_same_marks_take_whole_repeats() {
    // With the loss of 1 they are 4 and 7 long and take 5 and 10, of which the last may save 3. The stretch of 20 has
    // room for 20 + 1 + 3 - 2 of whole repeats behind the first mark at 2. As long as the repeats are together, a
    // cloth begins 2 earlier and ends 3 earlier, without the last loss.
    let kinds = vec![marked(2, 5, 3, 4, 9), marked(2, 5, 6, 7, 1), marked(9, 9, 50, 99, 1)];
    let same = prepared(1, &[(10, Some(20)), (10, None)], kinds);
    assert_eq!(lengths(&same), (vec![5, 10], vec![22], 2 - 3 - 1, 5));
    // A stretch that ends before the first mark has no room.
    let short = prepared(0, &[(10, Some(3)), (10, None)], vec![marked(8, 5, 5, 4, 1)]);
    assert_eq!(lengths(&short), (vec![5], vec![0], 8, 5));
    // With other marks, or with none, lengths are as they are; of several kinds of marks they are no sums.
    let other = prepared(1, &[(10, Some(20)), (10, None)], vec![marked(2, 5, 3, 4, 9), marked(2, 6, 7, 7, 1)]);
    assert_eq!(lengths(&other), (vec![4, 8], vec![21], -1, 0));
    let plain = prepared(1, &[(10, Some(20)), (10, None)], vec![Rectangle::new(3, 4, 9), Rectangle::new(5, 7, 1)]);
    assert_eq!(lengths(&plain), (vec![4, 6], vec![21], -1, 2));
    let mixed = prepared(0, &[(10, None)], vec![marked(2, 5, 3, 4, 9), Rectangle::new(6, 7, 1)]);
    assert_eq!(lengths(&mixed), (vec![3, 6], vec![], 0, 0));
}

#[test]
fn a_bound_on_the_sum_is_raised_to_what_sums_there_are() {
    let of = |unit: i64, lead: i64, sum: i64| Lengths { along: vec![], limited: vec![], lead, unit }.raised(sum);
    assert_eq!([of(4, -2, 5), of(4, -2, 8), of(4, 3, 9), of(0, -2, 5), of(1, -2, 5)], [6, 6, 15, 3, 3]);
    assert_eq!([of(4, -9, 5), of(4, 3, 0), of(4, 3, -5), of(0, -1, 1)], [0, 0, 0, 0]);
}

#[test]
fn the_value_of_all_pieces_over_what_lies_side_by_side_is_a_length() {
    // 2 of 5 for 3 each unit, and 3 that take 4 for 6 or 7 for 3: 30 + 3 * 21 = 93, of which the first stretch holds
    // 11 for 4 each: 49 are left, which are nine and four fifths of 5.
    let turning = Rectangle { quarter: true, ..Rectangle::new(4, 7, 3) };
    let cloth = prepared(0, &[(10, Some(11)), (10, None)], vec![Rectangle::new(5, 8, 2), turning]);
    let lengths = Lengths::new(&cloth);
    assert_eq!(lengths.along, [7, 4, 5]);
    let of = |values: [i64; 3], caps: &[i64]| lengths.proven(&cloth, &values, caps);
    assert_eq!(of([3, 6, 3], &[4, 5]), 10);
    assert_eq!(of([3, 6, 3], &[4, 7]), 7);
    assert_eq!(of([3, 6, 3], &[8, 1]), 5);
    assert_eq!(of([3, 6, 3], &[9, 1]), 0, "99 on the first");
    assert_eq!(of([0, 0, 0], &[4, 5]), 0);
    assert_eq!(of([3, 6, 3], &[4, 0]), 0, "no value side by side proves nothing");
    assert_eq!(of([3, 6, 3], &[4, i64::MAX]), 0, "nor does what could not be added up");
    assert_eq!(of([3, 6, 3], &[i64::MAX, 5]), 0);
    assert_eq!(of([3, 6, 3], &[]), 0);
}

#[test]
fn each_set_of_marks_is_a_part_of_the_problem() {
    let of =
        |kinds: Vec<Rectangle>| -> Vec<Vec<i64>> { parts(&endless(10, kinds)).iter().map(Prepared::counts).collect() };
    let (one, two) = (|count| marked(0, 5, 3, 4, count), |count| marked(1, 5, 3, 4, count));
    assert!(of(vec![Rectangle::new(3, 4, 7)]).is_empty());
    assert!(of(vec![one(7), one(1), two(0)]).is_empty(), "the whole problem");
    assert_eq!(of(vec![one(7), Rectangle::new(3, 4, 1)]), [[7, 0]]);
    assert_eq!(of(vec![one(7), two(1), one(3)]), [[7, 0, 3], [0, 1, 0]]);
    assert_eq!(of((0..6).map(|first| marked(first, 7, 3, 4, 1)).collect()).len(), 4, "four at the most");
}

#[test]
fn the_plain_bound_is_the_best_of_area_and_wide_and_edge_and_long_pieces() {
    let edge = |along, across, count| Rectangle { at_edge: true, ..Rectangle::new(along, across, count) };
    let turning = |along, across| Rectangle { quarter: true, ..Rectangle::new(along, across, 1) };
    for (kinds, length, why) in [
        (vec![Rectangle::new(3, 5, 4)], 6, "60 of 10 wide"),
        (vec![Rectangle::new(4, 4, 3)], 8, "48 of 10 wide, in rows of 4"),
        (vec![Rectangle::new(3, 6, 4)], 12, "no two lie side by side"),
        (vec![Rectangle::new(3, 6, 4), Rectangle::new(3, 4, 6)], 15, "144 of 10 wide, in rows of 3"),
        (vec![edge(3, 2, 4)], 12, "in a line at the edge"),
        (vec![edge(3, 2, 4), Rectangle::new(3, 2, 4)], 12, "the others beside them"),
        (vec![Rectangle::new(9, 1, 1)], 9, "the longest"),
        (vec![turning(9, 1)], 1, "turned"),
        (vec![turning(9, 11)], 11, "which cannot turn"),
        (vec![marked(4, 7, 9, 1, 1)], 13, "from its mark"),
        (vec![Rectangle::new(9, 1, 1), Rectangle::new(1, 1, 4)], 9, "not the last"),
        (vec![marked(0, 5, 3, 10, 4), Rectangle::new(1, 1, 1)], 18, "whole repeats, but for the last"),
    ] {
        assert_eq!(plain(&endless(10, kinds)), length, "{why}");
    }
    assert_eq!(plain(&prepared(0, &[(10, Some(99))], vec![Rectangle::new(3, 5, 4)])), 0);
    assert_eq!(plain(&prepared(2, &[(10, None)], vec![Rectangle::new(9, 1, 1)])), 9, "no loss behind it");
    assert_eq!(plain(&prepared(2, &[(10, None)], vec![Rectangle::new(3, 6, 4)])), 18, "three losses between them");
}

#[test]
fn up_to_five_pieces_side_by_side_are_seen_and_the_strong_bound_sees_six() {
    // A little too wide for one more side by side, twelve rows of 1.
    for beside in 1..=6 {
        let across = 60 / (beside + 1) + 1;
        let cloth = endless(60, vec![Rectangle::new(1, across, 12 * beside)]);
        let area = (12 * beside * across + 59) / 60;
        assert_eq!(plain(&cloth), if beside < 6 { 12 } else { area }, "{beside}");
        assert!(area < 12);
        let stop = AtomicBool::new(false);
        assert_eq!(strong(&cloth, &mut Steps::new(100_000, Watch::silent(&stop))).0, 12);
    }
}

#[test]
fn the_longest_piece_counts_where_no_other_stretch_has_room_for_it() {
    let of = |width: i64, length: i64, first: i64| {
        let cloth = prepared(2, &[(width, Some(length)), (10, None)], vec![marked(first, 1, 9, 4, 1)]);
        plain(&cloth)
    };
    assert_eq!([of(4, 9, 0), of(4, 12, 3)], [0, 0]);
    assert_eq!([of(4, 8, 0), of(3, 9, 0), of(4, 11, 3)], [9, 9, 12]);
    // Beside another kind no sum of whole lengths raises the bound: the area alone, 37 less 32 or 36, would say 1.
    let of = |length: i64| {
        let kinds = vec![Rectangle::new(9, 4, 1), Rectangle::new(1, 1, 1)];
        plain(&prepared(0, &[(4, Some(length)), (10, None)], kinds))
    };
    assert_eq!([of(8), of(9)], [9, 1]);
}

#[test]
fn the_strong_bound_takes_steps_and_tells_how_long_each_choice_lasts() {
    let stop = AtomicBool::new(false);
    let of = |kinds: Vec<Rectangle>, count: u64| {
        let mut steps = Steps::new(count, Watch::silent(&stop));
        let (bound, mut lasting) = strong(&endless(12, kinds), &mut steps);
        lasting.sort_unstable();
        (bound, lasting, count - steps.left())
    };
    // Two fives side by side: 45 for the 90 of thirty pieces.
    let (bound, lasting, taken) = of(vec![Rectangle::new(3, 5, 30)], 100_000);
    assert_eq!((bound, lasting), (45, vec![45]));
    assert!((1..100).contains(&taken), "{taken}");
    // Beside each of ten sevens a five, for 30; the twenty fives left two by two, for 30.
    let (bound, lasting, _) = of(vec![Rectangle::new(3, 5, 30), Rectangle::new(3, 7, 10)], 100_000);
    assert_eq!((bound, lasting), (60, vec![30, 30]));
    // A quarter of the steps may be taken: without one, only the first prices are tried.
    assert_eq!(of(vec![Rectangle::new(3, 5, 30)], 3).2, 0);
    assert_eq!(of(vec![Rectangle::new(3, 5, 30)], 4).2, 1);
    // Kinds with marks alone take whole repeats: ten of 5, of which the last saves 2.
    let (bound, ..) = of(vec![marked(0, 5, 3, 12, 10), Rectangle::new(1, 1, 1)], 100_000);
    assert_eq!(bound, 48);
    let cloth = prepared(0, &[(12, Some(99))], vec![Rectangle::new(3, 5, 30)]);
    assert_eq!(strong(&cloth, &mut Steps::new(9, Watch::silent(&stop))), (0, vec![]));
}
