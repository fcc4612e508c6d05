//! How aims, breadths and shares of the work go on, by hand, and each construction on a plan that there is.

use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::{Steps, Watch};
use crate::problem::{Rectangle, RectangleProblem, Starts, Stretch};

const GUIDE: Guide = Guide { power: 1, rough: 0.1, narrowest: true, low_wall: false, expected_waste_share: 1.0 };
const ORDERS: ClimbMethod = ClimbMethod { construction: Construction::Orders, sideways: false };
const BEAM: ClimbMethod = ClimbMethod { construction: Construction::Beam(GUIDE), sideways: false };

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 }).expect("a sound problem")
}

fn piece(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

/// Six kinds cut from 23 by 20.
fn cut_up() -> Vec<Rectangle> {
    [(12, 9), (12, 11), (11, 5), (11, 8), (5, 7), (6, 7)].map(|(along, across)| piece(along, across, 1)).to_vec()
}

fn layout(missing: i128, length: i64) -> Layout {
    Layout { placements: Vec::new(), missing, length }
}

fn with_work<T>(work: u64, run: impl FnOnce(&mut Meter<'_, '_>) -> T) -> (T, u64) {
    let flag = AtomicBool::new(false);
    let mut steps = Steps::new(work, Watch::silent(&flag));
    let result = run(&mut Meter::new(&mut steps, 1));
    (result, work - steps.left())
}

#[test]
fn an_aim_lies_between_the_bound_and_one_less_than_now() {
    let cases = [
        ((100, 39, 1), 69),
        ((100, 39, 2), 84),
        ((100, 39, 5), 98),
        ((100, 39, 6), 99),
        ((41, 40, 1), 40),
        ((40, 40, 1), 39),
        ((30, 40, 1), 29),
        ((0, 0, 1), 0),
        (((1 << 62) + 1, 0, 80), (1 << 62) - 1),
    ];
    for ((length, bound, caution), expected) in cases {
        assert_eq!(aim(length, bound, caution), expected, "{length} {bound} {caution}");
    }
}

#[test]
fn work_is_shared_by_pieces_orientations_and_breadth() {
    let quarter = |one: Rectangle| Rectangle { quarter: true, ..one };
    // Six pieces in two orientations, or five in three, are pieces that differ; one more is not.
    assert_eq!(share(&prepared(&[(20, None)], vec![piece(5, 4, 5), piece(7, 3, 1)]), 5), 40 * 6 * 10 * 5);
    assert_eq!(share(&prepared(&[(20, None)], vec![piece(5, 4, 6), piece(7, 3, 1)]), 5), 3 * 7 * 10 * 5);
    assert_eq!(share(&prepared(&[(20, None)], vec![quarter(piece(5, 4, 6)), piece(7, 3, 1)]), 1), 40 * 7 * 11);
    let starts = Some(Starts { first: 2, every: 9 });
    let follows = Rectangle { starts, ..piece(7, 3, 1) };
    assert_eq!(share(&prepared(&[(20, None)], vec![piece(5, 4, 16), follows]), 2), 40 * 17 * 10 * 2);
}

#[test]
fn orders_are_searched_for_few_pieces_of_several_kinds() {
    let ordered = |rectangles: Vec<Rectangle>| is_ordered(&prepared(&[(20, None)], rectangles));
    assert!(ordered(vec![piece(5, 4, 1), piece(7, 3, 1)]) && !ordered(vec![piece(5, 4, 2)]));
    assert!(ordered(vec![piece(5, 4, 1499), piece(7, 3, 1)]) && !ordered(vec![piece(5, 4, 1500), piece(7, 3, 1)]));
}

#[test]
fn after_failures_the_aims_draw_near_and_then_a_search_starts_anew() {
    // One kind has no orders, so every aim fails at once. From 101 to 0 there is a span of 100: halved seven times it
    // is none. Each turn fails twice and then grows bolder by one; when nothing nearer is left, the seed changes.
    let plan = prepared(&[(20, None)], vec![piece(7, 3, 4)]);
    let mut run = MethodRun { method: ORDERS, orders: None, caution: 1, seed: 50 };
    let known = layout(0, 101);
    let turns = [(2, 50), (3, 50), (4, 50), (5, 50), (6, 50), (6, 51), (6, 52)];
    for (caution, seed) in turns {
        let (better, spent) = with_work(1000, |meter| run.go_on(&plan, &known, 0, 1, meter));
        assert!(better.is_none() && spent == 0);
        assert_eq!((run.caution, run.seed), (caution, seed));
    }
    // The bound is next: caution does not fall below one.
    let mut run = MethodRun { method: ORDERS, orders: None, caution: 1, seed: 50 };
    with_work(1000, |meter| run.go_on(&plan, &known, 100, 1, meter));
    assert_eq!((run.caution, run.seed), (1, 51));
    // Where the bound is met, or no work is left, nothing is tried.
    for (bound, work) in [(101, 1000), (0, 0)] {
        let mut run = MethodRun { method: ORDERS, orders: None, caution: 3, seed: 50 };
        with_work(work, |meter| run.go_on(&plan, &known, bound, 1, meter));
        assert_eq!((run.caution, run.seed), (2, 50));
    }
}

#[test]
fn a_climb_ends_when_breadth_is_beyond_memory_and_there_are_no_orders() {
    let plan = prepared(&[(20, None)], vec![piece(7, 3, 4)]);
    let mut climber = Climber::new(vec![ORDERS, ORDERS], 7);
    assert_eq!((climber.breadth, climber.next, climber.runs[0].caution), (1, 0, 1));
    assert_ne!(climber.runs[0].seed, climber.runs[1].seed);
    let (better, _) = with_work(1000, |meter| climber.climb(&plan, &layout(0, 101), 0, meter));
    assert!(better.is_none());
    // The first power of two above four million. Of 23 turns each, all but the first five began anew.
    assert_eq!((climber.breadth, climber.next), (1 << 22, 0));
    let again: Vec<u64> = Climber::new(vec![ORDERS, ORDERS], 7).runs.iter().map(|run| run.seed).collect();
    let turns: Vec<u64> = climber.runs.iter().zip(again).map(|(run, seed)| run.seed.wrapping_sub(seed)).collect();
    assert_eq!(turns, [22 - 5, 22 - 5]);
    assert!(with_work(0, |meter| Climber::new(vec![], 7).climb(&plan, &layout(0, 101), 0, meter)).0.is_none());
    // The bound is met: one turn of one method.
    let mut climber = Climber::new(vec![ORDERS, ORDERS], 7);
    with_work(1000, |meter| climber.climb(&plan, &layout(0, 101), 101, meter));
    assert_eq!((climber.breadth, climber.next), (1, 0));
}

#[test]
fn with_orders_a_climb_goes_on_until_the_work_is_spent_in_shares() {
    let plan = prepared(&[(20, None)], cut_up());
    let mut run = MethodRun { method: ORDERS, orders: None, caution: 1, seed: 1 };
    // One of 23 is known and nothing shorter is possible: one search takes the share, and no second follows.
    let share = share(&plan, 3);
    let (better, spent) = with_work(1_000_000, |meter| run.go_on(&plan, &layout(0, 23), 10, 3, meter));
    assert!(better.is_none() && spent >= share && spent < share + 60, "{spent} {share}");
    assert_eq!((run.caution, run.orders.is_some()), (1, true));
    // At the nearest aim the orders are given up.
    with_work(1_000_000, |meter| run.go_on(&plan, &layout(0, 23), 22, 3, meter));
    assert_eq!((run.seed, run.orders.is_some()), (2, false));
    let mut climber = Climber::new(vec![ORDERS], 1);
    let (better, spent) = with_work(60_000, |meter| climber.climb(&plan, &layout(0, 23), 10, meter));
    assert!(better.is_none() && spent == 60_000);
    // Shares at breadths 1, 2, 4 and 8 are 50 400; at 16 the work runs out.
    assert_eq!(climber.breadth, 16);
}

#[test]
fn every_construction_finds_the_plan_that_was_cut_up() {
    let plan = prepared(&[(20, None)], cut_up());
    for sideways in [false, true] {
        for construction in [Construction::Orders, Construction::Beam(GUIDE)] {
            let method = ClimbMethod { construction, sideways };
            let mut run = MethodRun { method, orders: None, caution: 1, seed: 1 };
            let (better, _) = with_work(2_000_000, |meter| run.search(&plan, &layout(0, 40), 23, 64, 0, meter));
            let better = better.expect("it was cut from 23 by 20");
            assert_eq!((better.missing, better.length), (0, 23), "{construction:?} {sideways}");
            for placed in &better.placements {
                let shape = &plan.shapes[placed.shape];
                assert!(placed.across + shape.across <= 20 && placed.along + shape.along <= 23);
            }
        }
    }
}

#[test]
fn pieces_at_the_edge_are_never_laid_sideways() {
    let edge = Rectangle { at_edge: true, ..piece(9, 4, 2) };
    let plan = prepared(&[(20, None)], vec![edge, piece(8, 15, 1), piece(7, 5, 3)]);
    for construction in [Construction::Orders, Construction::Beam(GUIDE)] {
        let mut run =
            MethodRun { method: ClimbMethod { construction, sideways: true }, orders: None, caution: 1, seed: 1 };
        let (found, _) = with_work(200_000, |meter| run.search(&plan, &layout(0, 40), 18, 8, 0, meter));
        let found = found.expect("the edge of 18, and the rest beside it");
        let edges: Vec<i64> =
            found.placements.iter().filter(|at| plan.shapes[at.shape].at_edge).map(|at| at.across).collect();
        assert_eq!((found.missing, found.length, edges), (0, 18, vec![0, 0]));
    }
}

#[test]
fn without_an_endless_stretch_more_must_be_placed_than_now() {
    // On 10 x 10, either one of 9 by 7 or two of 8 by 5.
    let plan = prepared(&[(10, Some(10))], vec![piece(9, 7, 1), piece(8, 5, 2)]);
    let all = 63 + 80;
    for method in [ORDERS, ClimbMethod { sideways: true, ..ORDERS }] {
        let mut climber = Climber::new(vec![method], 1);
        let (better, _) = with_work(20_000, |meter| climber.climb(&plan, &layout(all - 63, 0), 0, meter));
        assert_eq!(better.map(|better| (better.missing, better.length)), Some((63, 0)));
        let mut climber = Climber::new(vec![method], 1);
        let (better, _) = with_work(20_000, |meter| climber.climb(&plan, &layout(63, 0), 0, meter));
        assert!(better.is_none());
    }
}

#[test]
fn a_beam_wider_than_memory_is_not_begun() {
    let plan = prepared(&[(20, None)], cut_up());
    let mut run = MethodRun { method: BEAM, orders: None, caution: 1, seed: 1 };
    let (found, spent) = with_work(1_000_000, |meter| run.search(&plan, &layout(0, 40), 23, KEPT / 6 + 1, 0, meter));
    assert!(found.is_none() && spent == 0);
}
