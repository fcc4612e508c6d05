//! Each bound by hand, and the functions against what makes a function dual feasible.

use super::*;
use crate::problem::{Rectangle, RectangleProblem, Stretch};

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 }).expect("a sound problem")
}

fn piece(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

fn quarter(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { quarter: true, ..piece(along, across, count) }
}

fn at_edge(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { at_edge: true, ..piece(along, across, count) }
}

fn follows(mut piece: Rectangle, first: i64, every: i64) -> Rectangle {
    piece.starts = Some(Starts { first, every });
    piece
}

fn bound_of(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> i64 {
    bound(&prepared(stretches, rectangles))
}

#[test]
fn the_area_behind_the_limited_stretches_lies_on_what_can_be_filled_of_the_width() {
    // 20 of 12 and one of 15 are 255; 9 x 10 lie before. Of 10 wide, 4 and 4 can be filled, and 4 and 3 only 7.
    let pieces = vec![piece(3, 4, 20), piece(5, 3, 1)];
    assert_eq!(bound_of(&[(9, Some(10)), (10, None)], pieces.clone()), 21);
    assert_eq!(bound_of(&[(9, Some(10)), (7, Some(11)), (10, None)], pieces.clone()), 11);
    assert_eq!(bound_of(&[(20, Some(40)), (10, None)], pieces.clone()), 0);
    assert_eq!(bound_of(&[(9, Some(10))], pieces), 0);
    // Nothing lies on a strip narrower than the unit of the pieces.
    assert_eq!(bound_of(&[(14, Some(6)), (6, None)], vec![piece(3, 7, 20)]), 0);
    // A piece too wide for the endless stretch counts for nothing there: 20 of 12 on 4 and 4 wide.
    assert_eq!(bound_of(&[(11, Some(1)), (11, Some(5)), (10, None)], vec![piece(3, 4, 20), piece(5, 11, 1)]), 22);
}

#[test]
fn no_plan_ends_before_the_end_of_a_piece_from_its_first_start() {
    assert_eq!(bound_of(&[(10, None)], vec![piece(30, 1, 1), piece(1, 3, 1)]), 30);
    assert_eq!(bound_of(&[(10, None)], vec![follows(piece(30, 1, 1), 4, 50), piece(1, 3, 1)]), 34);
    // Turned it is shorter; too wide to be turned, it is not; one that fits elsewhere tells nothing.
    assert_eq!(bound_of(&[(40, None)], vec![quarter(30, 4, 1), piece(1, 3, 1)]), 4);
    assert_eq!(bound_of(&[(29, None)], vec![quarter(30, 4, 1), piece(1, 3, 1)]), 30);
    assert_eq!(bound_of(&[(5, Some(30)), (29, None)], vec![piece(30, 4, 1), piece(1, 3, 1)]), 0);
    assert_eq!(bound_of(&[(5, Some(29)), (29, None)], vec![piece(30, 4, 1), piece(1, 3, 1)]), 30);
}

#[test]
fn pieces_at_the_edge_lie_end_to_end() {
    assert_eq!(bound_of(&[(10, None)], vec![at_edge(5, 2, 4), piece(3, 3, 2)]), 20);
    assert_eq!(bound_of(&[(10, None)], vec![at_edge(5, 2, 4), at_edge(3, 1, 3), piece(3, 3, 2)]), 29);
    // In steps of 10 from 2, each takes one step; the last ends after 7.
    assert_eq!(bound_of(&[(50, None)], vec![follows(at_edge(7, 3, 3), 2, 10)]), 2 + 10 + 10 + 7);
}

#[test]
fn pieces_on_a_pattern_take_whole_repeats() {
    // Three side by side on 10, so three rows of 8; the last row may end after 7 of 10.
    assert_eq!(bound_of(&[(10, None)], vec![follows(piece(7, 3, 8), 2, 10)]), 2 + 10 + 10 + 7);
    // Of two kinds on one pattern, the one with the most to spare may come last: one beside another, 4 rows in all.
    let kinds = vec![follows(piece(7, 6, 2), 2, 10), follows(piece(12, 6, 1), 2, 10)];
    assert_eq!(bound_of(&[(10, None)], kinds), 2 + 40 - 8);
    // Another pattern, and none, do not count in steps of this one: 3 rows of 10 and of 9, one after the other are
    // more, but the bound takes the greater alone.
    let kinds = vec![follows(piece(7, 6, 3), 2, 10), follows(piece(8, 6, 3), 1, 9), piece(1, 3, 1)];
    assert_eq!(bound_of(&[(10, None)], kinds.clone()), 7 * 3 + 8 * 3);
    let prepared = prepared(&[(10, None)], kinds);
    let must = fitting(&prepared, 10);
    let mut asked = Vec::new();
    let best = in_step(&must, |items| {
        asked.push(items.iter().map(|shapes| shapes.first().map(|shape| shape.along)).collect::<Vec<_>>());
        11
    });
    // Kinds in the order of their length: 1, 7 and 8. First the pattern of 9, then that of 10.
    assert_eq!(asked, [vec![None, None, Some(9)], vec![None, Some(10), None]]);
    // 11 are two repeats of either: 18 less 1 to spare from 1, and 20 less 3 from 2.
    assert_eq!(best, 20 - 3 + 2);
}

#[test]
fn pieces_too_wide_to_lie_side_by_side_lie_end_to_end() {
    // The small one has its place before; three of 6 wide and 7 long need 21 on 10.
    let pieces = vec![piece(7, 6, 3), piece(2, 3, 1)];
    assert_eq!(bound_of(&[(3, Some(3)), (10, None)], pieces.clone()), 21);
    assert_eq!(bound_of(&[(10, None)], pieces), 21);
    let narrowed_of = |width: i64, rectangles: Vec<Rectangle>| {
        let prepared = prepared(&[(width, None)], rectangles);
        let width = prepared.stretches[0].width;
        narrowed(&fitting(&prepared, width), &prepared.counts(), width)
    };
    // Two of 4 at a time on 11: 7 of 3 long in halves of rows, 10.5.
    assert_eq!(narrowed_of(11, vec![piece(3, 4, 7), piece(1, 1, 1)]), 11);
    // A six has room beside it for a three, so the sixes alone count.
    assert_eq!(narrowed_of(10, vec![piece(3, 6, 5), piece(2, 3, 2)]), 15);
    // Turned, two of 9 by 2 lie on 10 as 2 by 9 or 9 by 2: 5 of these in 9, 5 of those in 10.
    assert_eq!(narrowed_of(10, vec![quarter(9, 2, 5), piece(1, 1, 1)]), 10);
}

#[test]
fn pieces_too_long_to_follow_one_another_lie_side_by_side_or_need_more_length() {
    // Two of 4 side by side on 10; from 15 of area the third needs a second row, of 10 again.
    let small = || follows(piece(3, 1, 1), 0, 1);
    assert_eq!(bound_of(&[(10, None)], vec![piece(10, 4, 3), small()]), 20);
    let from = |width: i64, rectangles: Vec<Rectangle>, length: i64| {
        let prepared = prepared(&[(width, None)], rectangles);
        shortened(&fitting(&prepared, width), &prepared.counts(), width, length)
    };
    assert_eq!(from(10, vec![piece(10, 4, 3), piece(3, 1, 1)], 10), 20);
    assert_eq!(from(10, vec![piece(10, 4, 2), piece(3, 1, 1)], 10), 10);
    assert_eq!(from(10, vec![piece(6, 7, 2), piece(1, 1, 1)], 9), 12);
    assert_eq!(from(10, vec![piece(6, 7, 2), piece(1, 1, 1)], 0), 0);
    // Five of 9 by 2 lie across on 9 of 10 wide and 10 long, and one of 10 by 1 beside them.
    assert_eq!(from(10, vec![quarter(9, 2, 5), piece(10, 1, 1)], 10), 10);
}

#[test]
fn a_bound_is_raised_to_the_next_sum_of_lengths() {
    // Seven and five long: three of 7 or 10 at a time; 25 is no sum, 26 is 7 + 7 + 7 + 5.
    assert_eq!(bound_of(&[(10, None)], vec![piece(7, 3, 10), piece(5, 1, 1)]), 26);
    // Where a piece has to begin somewhere, lengths are no sums.
    assert_eq!(bound_of(&[(10, None)], vec![piece(7, 3, 10), follows(piece(5, 1, 1), 0, 1)]), 25);
    let prepared = prepared(&[(10, None)], vec![piece(20, 5, 3), piece(1, 3, 1)]);
    let counts = prepared.counts();
    let next = [1, 2, 20, 21, 22, 41, 42, 61, 62].map(|length| next_sum(length, &prepared, &counts));
    assert_eq!(next, [1, 20, 20, 21, 40, 41, 60, 61, 62]);
}

#[test]
fn work_on_lengths_is_limited_by_kinds() {
    // So many kinds that the area is all there is time for: the first look raises 9 to 10, the next is one too many.
    // With one kind more there is no look at all. With few kinds, seven of 9 by 7 raise it to 441 on 10.
    let prepared = prepared(&[(10, None)], vec![piece(9, 7, 1), piece(10, 10, 1)]);
    let of = |kinds: usize| {
        let mut must: Vec<Vec<&Shape>> = vec![Vec::new(); kinds];
        must[0] = vec![&prepared.shapes[0]];
        shortened(&must, &vec![7; kinds], 10, 9)
    };
    assert_eq!((of(TRIED), of(TRIED - 1), of(1)), (9, 10, 45));
}

#[test]
fn quotients_are_rounded_up_and_never_negative() {
    let cases = [((0, 7), 0), ((-5, 7), 0), ((1, 7), 1), ((7, 7), 1), ((8, 7), 2), ((20, 7), 3), ((5, 1), 5)];
    for ((area, width), length) in cases {
        assert_eq!(whole_up(area, width), length, "{area} {width}");
    }
}

#[test]
fn only_orientations_that_fit_the_width_and_kinds_that_fit_nowhere_else_count() {
    let prepared = prepared(&[(6, Some(8)), (10, None)], vec![quarter(11, 6, 1), quarter(9, 10, 1), piece(5, 7, 1)]);
    let sizes = |must: Vec<Vec<&Shape>>| {
        must.iter()
            .map(|shapes| shapes.iter().map(|shape| (shape.along, shape.across)).collect::<Vec<_>>())
            .collect::<Vec<_>>()
    };
    assert_eq!(sizes(fitting(&prepared, 10)), [vec![(5, 7)], vec![(9, 10), (10, 9)], vec![(11, 6)]]);
    assert_eq!(sizes(fitting(&prepared, 9)), [vec![(5, 7)], vec![(10, 9)], vec![(11, 6)]]);
    assert_eq!(sizes(nowhere_else(&prepared, 1)), sizes(fitting(&prepared, 10)));
    let elsewhere = tests::prepared(&[(6, Some(11)), (10, None)], vec![piece(11, 6, 1), piece(5, 7, 1)]);
    assert_eq!(sizes(nowhere_else(&elsewhere, 1)), [vec![(5, 7)], vec![]]);
}

#[test]
fn functions_take_the_values_of_their_definitions() {
    let cases = [
        (Function::Same, 10, vec![(7, 7)]),
        (Function::Without(3), 10, vec![(2, 0), (3, 3), (7, 7), (8, 10), (10, 10)]),
        // Twice the number of threes below the half; the whole's three less those of the complement above it.
        (Function::Multiples(3), 10, vec![(2, 0), (4, 2), (5, 3), (6, 4), (7, 4), (8, 6), (10, 6)]),
        // Three times the size, over the whole, rounded down; where it divides, twice the size.
        (Function::Steps(2), 9, vec![(2, 0), (3, 6), (4, 9), (6, 12), (7, 18), (9, 18)]),
    ];
    for (function, whole, values) in cases {
        for (size, value) in values {
            assert_eq!(function.of(size, whole), value, "{function:?} {size}");
        }
    }
}

#[test]
fn what_fits_the_whole_fits_it_by_every_function() {
    // Every list of sizes that fits, in falling order.
    fn check(function: Function, whole: i64, most: i64, room: i64, used: i128) {
        assert!(used <= function.of(whole, whole), "{function:?} {whole}");
        for size in 1..=most.min(room) {
            check(function, whole, size, room - size, used + function.of(size, whole));
        }
    }
    for whole in 1..16 {
        let sizes: Vec<i64> = (1..=whole / 2).collect();
        for function in functions(&sizes, 1) {
            check(function, whole, whole, whole, 0);
        }
    }
}

#[test]
fn the_functions_are_of_sizes_and_complements_up_to_the_half() {
    assert_eq!(sizes_of([7, 3, 6, 12, 9, 7].into_iter(), 12), [3, 5, 6]);
    assert_eq!(sizes_of([2, 13, 4].into_iter(), 13), [2, 4]);
    let names = |functions: Vec<Function>| functions.iter().map(|one| format!("{one:?}")).collect::<Vec<_>>();
    let all = names(functions(&[3, 5], 1));
    assert_eq!(all.len(), 1 + 20 + 4);
    assert_eq!(all[..2], ["Same", "Steps(1)"]);
    assert_eq!(all[20..], ["Steps(20)", "Without(3)", "Multiples(3)", "Without(5)", "Multiples(5)"]);
    // The more kinds, the fewer functions, but always one.
    assert_eq!(names(functions(&[3, 5], 4000)), all[..10]);
    assert_eq!((functions(&[3, 5], 0).len(), functions(&[3, 5], 50_000).len()), (25, 1));
}

#[test]
fn sums_take_no_size_more_often_than_there_are() {
    let reached = |most: i64, sizes: &[(i64, usize)]| {
        let table = sums(most, sizes.iter().copied())?;
        assert_eq!(number::from_size(table.len()), most + 1);
        Some((0..table.len()).filter(|&sum| table[sum]).collect::<Vec<_>>())
    };
    assert_eq!(reached(11, &[(3, 2)]), Some(vec![0, 3, 6]));
    assert_eq!(reached(11, &[(3, 2), (4, 2)]), Some(vec![0, 3, 4, 6, 7, 8, 10, 11]));
    assert_eq!(reached(9, &[(3, 9), (12, 1)]), Some(vec![0, 3, 6, 9]));
    assert_eq!(reached(5, &[]), Some(vec![0]));
    let filled = |width: i64, sizes: &[(i64, usize)]| reachable_up_to(width, sizes.iter().copied());
    assert_eq!(filled(10, &[(4, 2), (3, 1)]), 8);
    assert_eq!(filled(10, &[(4, 1), (3, 2)]), 10);
    assert_eq!((filled(10, &[]), filled(10, &[(11, 1)]), filled(10, &[(1, 1)])), (1, 1, 1));
    // A table of two million is made, a greater one is not.
    assert_eq!((filled(TABLE, &[(9, 1)]), filled(TABLE + 1, &[(9, 1)])), (9, TABLE + 1));
    let two = [(9, 1), (5, 1)];
    assert_eq!((filled(TABLE / 2, &two), filled(TABLE / 2 + 1, &two)), (14, TABLE / 2 + 1));
    assert!(sums(i64::MAX, two.into_iter()).is_none());
}
