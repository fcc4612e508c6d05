//! The exact search: its sets and fronts by hand, and what it takes by its own rule of counting.

use super::*;
use crate::effort::Watch;
use crate::problem::{Rectangle, RectangleProblem};
use std::sync::atomic::AtomicBool;

static GOES_ON: AtomicBool = AtomicBool::new(false);

fn steps(count: u64) -> Steps<'static> {
    Steps::new(count, Watch::silent(&GOES_ON))
}

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 })
}

fn marked(along: i64, across: i64, count: i64, every: i64) -> Rectangle {
    Rectangle { starts: Some(Starts { first: 0, every }), ..Rectangle::new(along, across, count) }
}

fn nothing(prepared: &Prepared) -> Plan {
    Plan { bands: Vec::new(), missing: prepared.counts() }
}

#[test]
fn a_set_is_a_number_with_a_digit_for_each_kind_there_is() {
    let counts = [2, 0, 3, 1];
    let kinds = counts.map(|count| Rectangle::new(3, 4, count)).to_vec();
    let sets = Sets::new(&prepared(&[(9, None)], kinds)).expect("few");
    assert_eq!((&sets.items, &sets.place_values), (&vec![0, 2, 3], &vec![1, 3, 12]));
    let digits: Vec<Vec<i64>> = (0..24).map(|set| vec![set % 3, set / 3 % 4, set / 12]).collect();
    assert_eq!(sets.digits, digits);
}

#[test]
fn there_are_sixty_five_thousand_sets_at_the_most() {
    let of = |counts: &[i64]| {
        let kinds = counts.iter().map(|&count| Rectangle::new(3, 4, count)).collect();
        Sets::new(&prepared(&[(9, None)], kinds)).map(|sets| sets.digits.len())
    };
    assert_eq!(of(&[65_535]), Some(65_536));
    assert_eq!(of(&[65_536]), None);
    assert_eq!(of(&[255, 255]), Some(65_536));
    assert_eq!(of(&[255, 256]), None);
}

#[test]
fn what_is_looked_at_are_pairs_of_a_set_and_a_part_of_it() {
    let sets = Sets::new(&prepared(&[(9, None)], vec![Rectangle::new(3, 4, 2), Rectangle::new(5, 4, 3)])).expect("few");
    let parts = |of: &[i64]| -> Vec<Vec<i64>> {
        (0..=of[0]).flat_map(|first| (0..=of[1]).map(move |second| vec![first, second])).collect()
    };
    let pairs: usize = parts(&[2, 3]).iter().map(|set| parts(set).len()).sum();
    let of_pairs: usize = parts(&[2, 3]).iter().flat_map(|set| parts(set)).map(|part| parts(&part).len()).sum();
    assert_eq!((sets.pairs(false), sets.pairs(true)), (u64::try_from(pairs).ok(), u64::try_from(of_pairs).ok()));
    // Columns and rows.
    let plain = prepared(&[(9, None)], vec![Rectangle::new(3, 4, 2), Rectangle::new(5, 4, 3)]);
    assert_eq!(sets.looks(&plain), u64::try_from(2 * pairs).ok());
}

#[test]
fn parts_are_gone_through_digit_by_digit() {
    let of = |least: [i64; 3], most: [i64; 3]| Parts::new(&[1, 3, 12], least.to_vec(), &most).collect::<Vec<_>>();
    assert_eq!(of([0, 1, 0], [2, 2, 1]), [3, 4, 5, 6, 7, 8, 15, 16, 17, 18, 19, 20]);
    assert_eq!(of([1, 0, 0], [2, 0, 1]), [1, 2, 13, 14]);
    assert_eq!(of([2, 3, 1], [2, 3, 1]), [2 + 9 + 12]);
}

#[test]
fn of_ends_and_widths_only_those_stay_that_no_other_betters() {
    let made = |&(end, width, last): &(i64, i64, usize)| Made { end, width, last, column: 0, rest: 0 };
    let all = [(8, 2, 0), (5, 8, 1), (3, 9, 2), (9, 2, 3), (5, 7, 4), (3, 9, 5), (6, 7, 6), (8, 2, 7), (6, 9, 8)];
    let mut front: Vec<Made> = all.iter().map(made).collect();
    prune(&mut front);
    let left: Vec<_> = front.iter().map(|one| (one.end, one.width, one.last)).collect();
    assert_eq!(left, [(3, 9, 2), (5, 7, 4), (8, 2, 0)]);
}

/// The pairs that a search with one limit for all stretches looks at, and its plan, which takes exactly these.
fn searched(prepared: &Prepared, limit: i64) -> (u64, Plan) {
    let of = |left: u64| {
        let limits = vec![limit; prepared.stretches.len()];
        let mut search = SetSearch { prepared, sets: Sets::new(prepared).expect("few"), limits, left };
        let plan = search.run();
        (left - search.left, plan)
    };
    let (pairs, plan) = of(1_000_000);
    assert!(of(pairs).1.is_some() && of(pairs - 1).1.is_none());
    (pairs, plan.expect("enough"))
}

#[test]
fn columns_and_rows_are_counted_as_they_are_looked_at() {
    // A column is looked at with each of the same pieces but one, and once more; a row with each of the same pieces
    // without its first column, but for those that end earlier than another that ends no later than the column, and
    // once more; at last each part of what is left behind each set.
    let one = |kind: Rectangle| searched(&prepared(&[(10, None)], vec![kind]), ENDLESS);
    // Columns: 2 + 2. Rows: 2 for one piece; for two, 2 with one in the first column, 2 with both. Parts: 2 + 1.
    let (pairs, plan) = one(Rectangle::new(3, 4, 2));
    assert_eq!((pairs, plan.bands.len(), plan.bands[0].stacks.len()), (13, 1, 2));
    // Both must be in the first column: 2 less.
    let (pairs, plan) = one(Rectangle { at_edge: true, ..Rectangle::new(3, 4, 2) });
    assert_eq!((pairs, plan.missing), (11, vec![0]));
    // With marks again 13; behind the first piece, which ends at 3, a column and a row of one: 4.
    let (pairs, plan) = searched(&prepared(&[(4, None)], vec![marked(3, 4, 2, 5)]), ENDLESS);
    assert_eq!((pairs, &plan.bands), (17, &vec![Band { along: 8, ..plan.bands[0].clone() }]));
}

#[test]
fn two_kinds_are_counted_as_they_are_looked_at() {
    // A long piece and two short ones. Sets with their columns and rows: long 2 + 2, short 2 + 2, both 2 + 4, two short
    // 2 + 4, all 2 + 6: behind the long one, which ends at 7, two short ones side by side need not be looked at, since
    // they end no later above each other.
    let kinds = vec![Rectangle::new(7, 2, 1), Rectangle::new(3, 4, 2)];
    // Every row begins with the first kind left: 3 parts for nothing, 2 behind the long piece, 1 behind both.
    let (pairs, plan) = searched(&prepared(&[(10, None)], kinds.clone()), ENDLESS);
    assert_eq!((pairs, plan.bands.len(), plan.bands[0].along), (28 + 6, 1, 7));
    // Where the cloth ends, the order counts: 5 parts for nothing, 2 behind the long piece, 3 behind a short one, 1
    // behind both and 1 behind two short ones.
    let (pairs, plan) = searched(&prepared(&[(10, Some(99))], kinds), 99);
    assert_eq!((pairs, plan.bands.len(), plan.bands[0].along), (28 + 12, 1, 7));
}

#[test]
fn with_marks_columns_are_looked_at_in_every_order_and_rows_from_every_end() {
    // From 0: each piece alone 2 + 2, both 4 + 4, since either may be the last. Behind nothing 3 parts; behind each
    // piece 4 for the other from there, and 1 part. One column with the marked piece first ends at 5, which no second
    // row betters.
    let cloth = prepared(&[(4, None)], vec![marked(3, 4, 1, 5), Rectangle::new(2, 4, 1)]);
    let (pairs, plan) = searched(&cloth, ENDLESS);
    assert_eq!((pairs, plan.bands.len(), plan.length(&cloth)), (16 + 3 + 5 + 5, 1, 5));
    let shapes: Vec<usize> = plan.bands[0].stacks[0].piles.iter().map(|pile| cloth.shapes[pile.shape].item).collect();
    assert_eq!(shapes, [0, 1]);
}

#[test]
fn equal_pieces_of_a_column_are_one_pile() {
    let cloth = prepared(&[(5, None)], vec![Rectangle::new(3, 4, 3)]);
    let (_, plan) = searched(&cloth, ENDLESS);
    assert_eq!(plan.bands.len(), 1);
    assert_eq!(plan.bands[0].stacks, [Stack { width: 4, piles: vec![Pile { shape: 0, times: 3 }], times: 1 }]);
}

#[test]
fn half_of_the_steps_may_be_taken_and_thirty_pairs_take_one() {
    let of = |prepared: &Prepared, count: u64| {
        let mut left = steps(count);
        let plan = solve(prepared, &nothing(prepared), &mut left);
        (plan.is_some(), left.left())
    };
    // 34 pairs, as above; 36 are expected at the most.
    let kinds = vec![Rectangle::new(7, 2, 1), Rectangle::new(3, 4, 2)];
    let plain = prepared(&[(10, None)], kinds);
    assert_eq!(of(&plain, 1_000), (true, 999));
    assert_eq!(of(&plain, 4), (true, 3));
    assert_eq!(of(&plain, 3), (false, 3));
    // 2 * 6 * 10 pairs are expected: four steps. A piece as wide as the cloth has few rows.
    let wide = prepared(&[(4, None)], vec![Rectangle::new(7, 4, 2), Rectangle::new(3, 3, 3)]);
    assert!(of(&wide, 8).0 && !of(&wide, 7).0);
}

#[test]
fn a_rest_is_laid_on_the_last_stretch_within_its_room_and_its_steps() {
    let kinds = vec![Rectangle::new(7, 2, 9), Rectangle::new(3, 4, 9)];
    let both = prepared(&[(6, Some(50)), (10, None)], kinds);
    let of = |most: i64, dear: u64, count: u64| {
        let mut left = steps(count);
        let bands = rest(&both, &[1, 2], most, dear, &mut left);
        let lie = bands.map(|bands| bands.iter().map(|band| (band.stretch, band.along)).collect::<Vec<_>>());
        (lie, left.left())
    };
    // As above: 34 pairs for one row of 7, of which 36 are expected, and a step for asking.
    assert_eq!(of(7, 500, 1_000), (Some(vec![(1, 7)]), 998));
    assert_eq!(of(6, 500, 1_000).0, None);
    assert_eq!(of(7, 2, 1_000), (Some(vec![(1, 7)]), 998));
    assert_eq!(of(7, 1, 1_000), (None, 1_000));
    assert_eq!(of(7, 500, 4).0, Some(vec![(1, 7)]));
    assert_eq!(of(7, 500, 3), (None, 3));
    // 120 pairs are expected for two and three: four steps.
    let wide = prepared(&[(4, None)], vec![Rectangle::new(7, 4, 2), Rectangle::new(3, 3, 3)]);
    assert!(rest(&wide, &[2, 3], 23, 4, &mut steps(1_000)).is_some());
    assert!(rest(&wide, &[2, 3], 23, 3, &mut steps(1_000)).is_none());
}

#[test]
fn rows_may_reach_as_far_as_in_the_best_plan_if_that_lacks_nothing() {
    let cloth = prepared(&[(9, Some(20)), (10, None)], vec![Rectangle::new(3, 4, 2)]);
    let stack = Stack { width: 4, piles: vec![Pile { shape: 0, times: 1 }], times: 1 };
    let bands = vec![Band::new(&cloth, 1, vec![stack], 2)];
    assert_eq!(limits(&cloth, &Plan { bands: bands.clone(), missing: vec![0] }), [20, 6]);
    let lacking = limits(&cloth, &Plan { bands, missing: vec![1] });
    // Longer than all pieces that are accepted lie in a line.
    assert!(lacking[0] == 20 && lacking[1] > 1_000_000_000_000_000_000, "{lacking:?}");
}
