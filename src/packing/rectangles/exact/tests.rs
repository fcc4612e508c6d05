//! What the search rules out and remembers, by hand; that its plans are the best, see the tests of all rectangles.

use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::{Steps, Watch};
use crate::problem::{Rectangle, RectangleProblem, Stretch};

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 }).expect("a sound problem")
}

fn piece(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

/// The stretches and pieces of most tests: a piece of 33, which fits only the first stretch, and three of 20.
const STRETCHES: [(i64, Option<i64>); 3] = [(12, Some(8)), (5, Some(7)), (9, None)];

fn pieces() -> Vec<Rectangle> {
    vec![piece(3, 11, 1), piece(5, 4, 3)]
}

#[test]
fn a_piece_in_a_corner_of_the_envelope_makes_its_new_corners() {
    // On 10 wide: 9 high up to 3, 6 up to 6, 2 beyond.
    let corners = [(0, 9), (3, 6), (6, 2)];
    let cases = [
        ((6, 8, 5), vec![(0, 9), (3, 6), (6, 5), (8, 2)]),
        ((6, 8, 6), vec![(0, 9), (3, 6), (8, 2)]),
        ((6, 8, 10), vec![(0, 10), (8, 2)]),
        ((6, 8, 9), vec![(0, 9), (8, 2)]),
        ((3, 7, 8), vec![(0, 9), (3, 8), (7, 2)]),
        ((0, 6, 11), vec![(0, 11), (6, 2)]),
        ((0, 3, 12), vec![(0, 12), (3, 6), (6, 2)]),
        ((0, 2, 12), vec![(0, 12), (2, 9), (3, 6), (6, 2)]),
        ((6, 10, 4), vec![(0, 9), (3, 6), (6, 4)]),
        ((3, 10, 7), vec![(0, 9), (3, 7)]),
    ];
    for ((from, to, end), expected) in cases {
        assert_eq!(raised(&corners, from, to, end, 10), expected, "{from} {to} {end}");
    }
    assert_eq!(envelope_area(&corners, 10), 3 * 9 + 3 * 6 + 4 * 2);
    assert_eq!(envelope_area(&[(0, 7)], 10), 70);
}

#[test]
fn the_search_knows_what_lies_behind_and_what_the_last_stretch_takes() {
    let plan = prepared(&STRETCHES, pieces());
    let search = ExactSearch::new(&plan, (0, 10), 0);
    assert_eq!(search.behind, [12 * 8 + 35, 35, 0, 0]);
    assert_eq!((search.sizes.as_slice(), search.fits_last.as_slice()), ([33, 20].as_slice(), [false, true].as_slice()));
    assert_eq!((search.stays_out(&[1, 3]), search.stays_out(&[2, 1]), search.stays_out(&[0, 3])), (33, 66, 0));
    // As wide as the last stretch fits it.
    let plan = prepared(&[(12, Some(8)), (11, None)], pieces());
    assert_eq!(ExactSearch::new(&plan, (0, 10), 0).fits_last, [true, true]);
}

#[test]
fn nothing_better_follows_where_the_rest_of_the_area_has_no_room() {
    let plan = prepared(&STRETCHES, pieces());
    let endless = |best: (i128, i64), left: [usize; 2], remaining: i128| {
        let corners = [(0, 5), (4, 2)];
        ExactSearch::new(&plan, best, 0).is_hopeless(2, true, &corners, &left, remaining)
    };
    // 4 x 5 and 5 x 2 are covered; of 9 x 9, which a plan shorter than 10 has, 51 are left.
    assert!(!endless((0, 10), [0, 3], 51) && endless((0, 10), [0, 3], 52));
    assert!(!endless((33, 10), [1, 3], 33 + 51) && endless((33, 10), [1, 3], 33 + 52));
    // What stays out decides where it differs.
    assert!(endless((32, 10), [1, 3], 33) && !endless((34, 10), [1, 3], 33 + 500));
    let before = |best: (i128, i64), stretch: usize, remaining: i128| {
        ExactSearch::new(&plan, best, 0).is_hopeless(stretch, false, &[(0, 5), (4, 2)], &[1, 3], remaining)
    };
    // On 12 x 8, 4 x 5 and 8 x 2 are covered; 60 and the 35 behind are left, and 81 on the last. On 5 x 7, 13.
    assert!(!before((0, 10), 0, 60 + 35 + 81) && before((0, 10), 0, 60 + 35 + 82));
    assert!(!before((0, 10), 1, 13 + 81) && before((0, 10), 1, 13 + 82));
    assert!(!before((1, 10), 0, 1000));
    // Without an endless stretch, what is left out must become less.
    let limited = prepared(&STRETCHES[..2], pieces());
    let limited = |best: i128, stretch: usize, remaining: i128| {
        ExactSearch::new(&limited, (best, 0), 0).is_hopeless(stretch, false, &[(0, 5), (4, 2)], &[1, 3], remaining)
    };
    assert!(!limited(10, 0, 60 + 35 + 9) && limited(10, 0, 60 + 35 + 10));
    assert!(!limited(10, 1, 13 + 9) && limited(10, 1, 13 + 10));
}

#[test]
fn a_piece_that_ends_no_sooner_than_the_best_plan_is_too_long() {
    let plan = prepared(&STRETCHES, pieces());
    let too_long =
        |best: (i128, i64), end: i64, left: [usize; 2]| ExactSearch::new(&plan, best, 0).is_too_long(end, &left);
    assert!(too_long((0, 10), 10, [0, 2]) && !too_long((0, 10), 9, [0, 2]));
    assert!(too_long((20, 10), 1, [1, 2]) && !too_long((40, 10), 12, [1, 2]));
}

#[test]
fn a_plan_is_kept_when_it_leaves_less_out_or_ends_sooner() {
    let plan = prepared(&STRETCHES, pieces());
    // One of 5 long on the second stretch, one from 3 to 8 on the last.
    let placed = |stretch: usize, along: i64| ShapePlacement { shape: 1, stretch, along, across: 0 };
    let considered = |best: (i128, i64), bound: i64, endless: bool, left: [usize; 2], remaining: i128| {
        let mut search = ExactSearch::new(&plan, best, bound);
        search.placements = vec![placed(1, 2), placed(2, 3), placed(2, 0)];
        search.consider(endless, &left, remaining);
        (search.best, search.found.map(|found| found.len()), search.met)
    };
    assert_eq!(considered((0, 9), 7, true, [0, 0], 0), ((0, 8), Some(3), false));
    assert_eq!(considered((0, 9), 8, true, [0, 0], 0), ((0, 8), Some(3), true));
    assert_eq!(considered((0, 8), 8, true, [0, 0], 0), ((0, 8), None, false));
    assert_eq!(considered((33, 9), 8, true, [1, 0], 33), ((33, 8), Some(3), false));
    assert_eq!(considered((33, 9), 8, true, [1, 1], 53), ((33, 9), None, false));
    assert_eq!(considered((0, 9), 8, false, [0, 0], 0), ((0, 8), Some(3), true));
    assert_eq!(considered((50, 0), 8, false, [0, 1], 20), ((20, 8), Some(3), false));
    let limited = prepared(&STRETCHES[..2], pieces());
    let mut search = ExactSearch::new(&limited, (50, 0), 0);
    search.placements = vec![placed(1, 2)];
    search.consider(false, &[0, 2], 40);
    assert_eq!((search.best, search.met), ((40, 0), false));
}

#[test]
fn a_state_is_new_once() {
    let plan = prepared(&STRETCHES, pieces());
    let mut search = ExactSearch::new(&plan, (0, 10), 0);
    let corners = [(0, 5), (4, 2)];
    assert!(search.is_new(0, &corners, &[1, 3]) && !search.is_new(0, &corners, &[1, 3]));
    assert!(search.is_new(1, &corners, &[1, 3]) && search.is_new(0, &corners, &[1, 2]));
    assert!(search.is_new(0, &[(0, 5), (4, 1)], &[1, 3]) && search.is_new(0, &[(0, 5), (3, 2)], &[1, 3]));
    // Memory is limited; what is in it is still known.
    search.seen.extend((0..).map(|at| vec![at]).take(REMEMBERED - 1 - search.seen.len()));
    assert!(search.is_new(2, &corners, &[1, 3]) && !search.is_new(2, &corners, &[1, 3]));
    assert!(search.is_new(2, &corners, &[1, 1]) && search.is_new(2, &corners, &[1, 1]));
    assert!(!search.is_new(0, &corners, &[1, 3]));
}

/// The length found, whether everything was searched, and the partial plans visited.
fn searched(prepared: &Prepared, known: i64, bound: i64, visits: u64) -> (Option<i64>, bool, u64) {
    let stop = AtomicBool::new(false);
    let all = visits * 60 + 1;
    let mut steps = Steps::new(all, Watch::silent(&stop));
    let known = Layout { placements: Vec::new(), missing: 0, length: known };
    let outcome = search(prepared, &known, bound, &mut Meter::new(&mut steps, 1));
    (outcome.better.map(|better| better.length), outcome.finished, (all - steps.left()) / 60)
}

#[test]
fn partial_plans_are_visited_once_each_until_none_can_be_better() {
    // 2 by 3 and 3 by 4 on 7. Nothing; the first; the second behind it, 5; beside it, 3; the second first is as long.
    let plan = prepared(&[(7, None)], vec![piece(2, 3, 1), piece(3, 4, 1)]);
    assert_eq!(searched(&plan, 100, 0, 50), (Some(3), true, 4));
    assert_eq!(searched(&plan, 100, 0, 4), (Some(3), true, 4));
    assert_eq!(searched(&plan, 100, 0, 3), (Some(5), false, 3));
    assert_eq!(searched(&plan, 3, 0, 50).0, None);
    // Where the bound is met, the search ends: one behind the other is as good as it says.
    assert_eq!(searched(&plan, 100, 5, 50), (Some(5), true, 3));
    // On 6, one lies behind the other: first one, both, then the other, and behind it the piece is too long.
    let plan = prepared(&[(6, None)], vec![piece(2, 3, 1), piece(3, 4, 1)]);
    assert_eq!(searched(&plan, 100, 0, 50), (Some(5), true, 4));
}
