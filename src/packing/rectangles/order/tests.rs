//! Orders turned into plans by hand, and searches over orders for plans that there are by construction.

use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::{Steps, Watch};
use crate::problem::{Rectangle, RectangleProblem, Starts, Stretch};
use crate::rectangles::skyline::Step;

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 }).expect("a sound problem")
}

fn piece(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle::new(along, across, count)
}

fn follows(mut piece: Rectangle, first: i64, every: i64) -> Rectangle {
    piece.starts = Some(Starts { first, every });
    piece
}

/// Four kinds, 80 of area in all; in this order they are worked through below.
fn four_kinds(limit: Option<i64>) -> Prepared {
    prepared(&[(10, limit)], vec![piece(2, 7, 1), piece(3, 4, 2), piece(4, 3, 1), piece(5, 6, 1)])
}

const ORDER: [usize; 5] = [1, 0, 3, 2, 1];

fn laid(decoder: &Decoder<'_>) -> Vec<(usize, usize, i64, i64)> {
    decoder.placements.iter().map(|at| (at.shape, at.stretch, at.along, at.across)).collect()
}

#[test]
fn each_gap_takes_what_fits_it_best_and_else_the_first_of_the_order() {
    // The first of the order on the empty strip; beside it the 6 wide that fills the rest; the 4 wide again, which is
    // level with nothing but fills its gap; the 3 wide at the higher wall, on the right; 3 x 1 left of it are filled,
    // and the 7 wide lies on that.
    let plan = four_kinds(None);
    let mut decoder = Decoder::new(&plan, 9);
    assert_eq!((decoder.space, decoder.total), (90.0, 80.0));
    assert_eq!(decoder.fill(&ORDER, 87.0), Some(80.0));
    assert_eq!(laid(&decoder), [(1, 0, 0, 0), (3, 0, 0, 4), (1, 0, 3, 0), (2, 0, 5, 7), (0, 0, 6, 0)]);
    // Half of the order; 4 for each of six gaps, and each offer looked at: 4, 3, 2, 1, 0, 1.
    assert_eq!(decoder.work, 2 + 6 * 4 + 11);
    // Where no more than 87 can be placed, a plan of more is given up.
    assert_eq!(decoder.fill(&ORDER, 87.5), None);
    // Again from the start.
    assert_eq!(decoder.fill(&ORDER, 0.0), Some(80.0));
    assert_eq!(decoder.placements.len(), 5);
}

#[test]
fn a_gap_at_the_edge_is_filled_up_to_its_one_wall() {
    // 2 by 4 at the edge, 7 by 6 beside it; 3 by 9 lies behind both, and 4 x 5 are lost.
    let plan = prepared(&[(10, None)], vec![piece(2, 4, 1), piece(3, 9, 1), piece(7, 6, 1)]);
    let mut decoder = Decoder::new(&plan, 10);
    assert_eq!(decoder.fill(&[0, 2, 1], 80.0), Some(77.0));
    assert_eq!(laid(&decoder), [(0, 0, 0, 0), (2, 0, 0, 4), (1, 0, 7, 0)]);
}

#[test]
fn what_ends_beyond_the_limit_is_left_out() {
    // Up to 8 the 3 wide has no place: 6 x 1 are filled up to 6, then 3 x 2 beside the 7 wide.
    for limited in [false, true] {
        let plan = four_kinds(limited.then_some(8));
        let mut decoder = Decoder::new(&plan, 8);
        assert_eq!(decoder.fill(&ORDER, 68.0), Some(68.0));
        assert_eq!(laid(&decoder), [(1, 0, 0, 0), (3, 0, 0, 4), (1, 0, 3, 0), (0, 0, 6, 0)]);
        assert_eq!(decoder.fill(&ORDER, 68.5), None);
    }
}

#[test]
fn stretches_are_filled_one_after_the_other() {
    // On 4 x 4 lies one of 4 by 3 and nothing else, 4 are wasted; on 10 x 6 the rest, less what does not fit.
    let plan = prepared(&[(4, Some(4)), (10, None)], vec![piece(3, 4, 2), piece(5, 6, 1), piece(7, 9, 1)]);
    let mut decoder = Decoder::new(&plan, 6);
    assert!((decoder.space - 76.0).abs() < 1e-9);
    assert_eq!(decoder.fill(&[2, 0, 1, 0], f64::NEG_INFINITY), Some(54.0));
    assert_eq!(laid(&decoder), [(0, 0, 0, 0), (1, 1, 0, 0), (0, 1, 0, 6)]);
    assert_eq!(decoder.fill(&[2, 0, 1, 0], 72.5), None);
    assert_eq!(laid(&decoder), [(0, 0, 0, 0)]);
}

#[test]
fn a_piece_on_a_pattern_wastes_what_lies_before_its_start() {
    // From 2 to 7 on 10 x 9: 2 x 4 before it are lost.
    let plan = prepared(&[(10, None)], vec![piece(9, 5, 1), follows(piece(5, 4, 1), 2, 8)]);
    let mut decoder = Decoder::new(&plan, 9);
    assert_eq!(decoder.fill(&[0, 1], 82.0), Some(65.0));
    assert_eq!(laid(&decoder), [(0, 0, 2, 0), (1, 0, 0, 5)]);
    // Up to 8 there is no room for the other: 6 x 7 beside it and 10 x 1 behind it are lost as well.
    let mut decoder = Decoder::new(&plan, 8);
    assert_eq!(decoder.fill(&[1, 0], 80.0 - 8.0 - 42.0 - 10.0), Some(20.0));
    assert_eq!(decoder.fill(&[1, 0], 20.5), None);
}

#[test]
fn how_well_a_piece_fits_a_gap() {
    // A gap 6 wide, its walls 9 and 7 high, nothing beyond 12.
    let cases = [
        ((6, 9), 4),
        ((6, 7), 3),
        ((6, 8), 2),
        ((5, 9), 1),
        ((5, 7), 0),
        ((5, 8), 0),
        ((6, 12), 2),
        ((6, 13), -1),
        ((5, 13), -1),
        ((5, 12), 0),
    ];
    for ((across, end), expected) in cases {
        assert_eq!(fit(across, end, 6, 9, 7, 12), expected, "{across} {end}");
    }
}

#[test]
fn the_best_fit_is_offered_and_a_piece_bound_to_its_place_only_there() {
    // In the order of their length: 3 by 4 from 2 or 7, 5 by 4, 4 wide at the edge and 6 long, 7 by 5.
    let edge = Rectangle { at_edge: true, ..piece(6, 4, 1) };
    let rectangles = vec![follows(piece(3, 4, 1), 2, 5), piece(5, 4, 1), edge, piece(7, 5, 1)];
    let plan = prepared(&[(20, None)], rectangles);
    let mut decoder = Decoder::new(&plan, 12);
    decoder.begin(&[0, 1, 2, 3]);
    assert_eq!(decoder.all.iter().map(|offer| offer.bound).collect::<Vec<_>>(), [false, true, false, true]);
    // A gap at 4 between walls; what is chosen, if anything.
    let mut chosen = |from: i64, width: i64, top: i64, (left, right): (i64, i64), limit: i64| {
        let before = (from > 0).then_some(Step { across: 0, width: from, top: left });
        let after = Step { across: from + width, width: 20 - from - width, top: right };
        decoder.line.steps = before.into_iter().chain([Step { across: from, width, top }, after]).collect();
        let gap = usize::from(from > 0);
        decoder.choose(gap, limit).map(|at| decoder.offers[at].shape)
    };
    // All fit barely, so the first of the order; a step later it would have to wait, which is no better.
    assert_eq!(chosen(2, 9, 2, (20, 18), 30), Some(0));
    assert_eq!(chosen(2, 9, 3, (20, 18), 30), Some(0));
    // Level with the higher wall.
    assert_eq!(chosen(2, 9, 4, (9, 8), 30), Some(1));
    assert_eq!(chosen(2, 9, 4, (8, 9), 30), Some(1));
    assert_eq!(chosen(2, 9, 4, (11, 9), 30), Some(3));
    // Level with the lower wall is nothing, unless the width is filled.
    assert_eq!(chosen(2, 9, 4, (13, 9), 30), Some(0));
    assert_eq!(chosen(2, 4, 4, (13, 9), 30), Some(1));
    // The first fills the width from 2 to 5, but from 3 it would begin at 7: that is barely a fit.
    assert_eq!(chosen(2, 4, 2, (13, 5), 30), Some(0));
    assert_eq!(chosen(2, 4, 3, (13, 11), 30), Some(1));
    // At the edge the third fills the gap level with the wall; beside it, even by one, it may not lie.
    assert_eq!(chosen(0, 4, 4, (0, 10), 30), Some(2));
    assert_eq!(chosen(1, 4, 4, (10, 12), 30), Some(1));
    // Nothing wider than the gap, nothing longer than the limit.
    assert_eq!(chosen(2, 3, 4, (13, 9), 30), None);
    assert_eq!(chosen(2, 4, 4, (13, 12), 9), Some(1));
    assert_eq!(chosen(2, 4, 4, (13, 12), 8), None);
    assert_eq!(chosen(2, 9, 4, (13, 12), 10), Some(0));
}

#[test]
fn a_kind_is_offered_in_each_orientation_until_its_last_piece() {
    let rectangles = vec![piece(5, 4, 2), Rectangle { quarter: true, ..piece(7, 3, 2) }, piece(9, 8, 1)];
    let plan = prepared(&[(20, None)], rectangles);
    let mut decoder = Decoder::new(&plan, 30);
    decoder.begin(&[1, 0, 2, 1, 0]);
    let offered = |decoder: &Decoder<'_>| {
        decoder.offers.iter().map(|offer| (offer.across, offer.along, offer.place)).collect::<Vec<_>>()
    };
    assert_eq!(offered(&decoder), [(8, 9, 2), (7, 3, 0), (4, 5, 1), (3, 7, 0)]);
    decoder.use_up(1);
    assert_eq!(offered(&decoder), [(8, 9, 2), (7, 3, 3), (4, 5, 1), (3, 7, 3)]);
    decoder.use_up(3);
    assert_eq!(offered(&decoder), [(8, 9, 2), (4, 5, 1)]);
    decoder.use_up(0);
    decoder.use_up(0);
    assert_eq!(offered(&decoder), [(4, 5, 4)]);
    decoder.begin(&[0, 0, 1, 1, 2]);
    assert_eq!(offered(&decoder), [(8, 9, 4), (7, 3, 2), (4, 5, 0), (3, 7, 2)]);
    // Half of five, twice.
    assert_eq!(decoder.work, 2 + 2);
}

#[test]
fn a_trial_may_lose_a_fiftieth_of_a_mean_piece_and_less_as_the_cycle_goes_on() {
    let one = (-1.0_f64).exp();
    let is_near = |one: f64, other: f64| (one - other).abs() < 1e-9;
    // One in e loses more than the mean, one in e squared more than twice.
    assert!(is_near(loss(one, 0), 0.02) && is_near(loss(one * one, 0), 0.04));
    assert!(is_near(loss(one, 1000), 0.015) && is_near(loss(one, 3000), 0.005));
    assert!(is_near(loss(one, 4000), 0.02) && is_near(loss(one, 4001), 0.02 * 3999.0 / 4000.0));
    assert!(is_near(loss(1.0, 0), 0.0) && is_near(loss(0.0, 0), 0.02 * 9.0 * 10.0_f64.ln()));
}

#[test]
fn the_first_order_is_of_falling_area() {
    let orders = Orders::new(&prepared(&[(10, None)], vec![piece(2, 7, 2), piece(3, 4, 1), piece(5, 6, 2)]), 1);
    assert_eq!((orders.order.as_slice(), orders.trials), ([2, 2, 0, 0, 1].as_slice(), 0));
}

/// What a run finds with so much work, and what is left of it.
fn run(
    orders: &mut Orders,
    prepared: &Prepared,
    limit: i64,
    least: f64,
    work: u64,
    stop: u64,
) -> (Option<Layout>, u64) {
    let flag = AtomicBool::new(false);
    let mut steps = Steps::new(work, Watch::silent(&flag));
    let found = orders.run(prepared, limit, least, stop, &mut Meter::new(&mut steps, 1));
    (found, steps.left())
}

/// Nine kinds, cut from 23 by 20 at random lines, so that all of it can be filled.
fn cut_up() -> Prepared {
    let sheet = [(12, 9), (12, 11), (11, 5), (11, 8), (5, 7), (6, 7)];
    prepared(&[(20, None)], sheet.iter().map(|&(along, across)| piece(along, across, 1)).collect())
}

#[test]
fn a_plan_of_everything_is_found_among_the_orders() {
    let plan = cut_up();
    let (found, _) = run(&mut Orders::new(&plan, 1), &plan, 23, 459.5, 200_000, 0);
    let found = found.expect("it was cut from 23 by 20");
    assert_eq!((found.missing, found.length, found.placements.len()), (0, 23, 6));
}

#[test]
fn a_search_over_orders_stops_where_it_is_told() {
    let plan = cut_up();
    let mut orders = Orders::new(&plan, 1);
    let (found, left) = run(&mut orders, &plan, 22, 459.5, 50_000, 30_000);
    assert!(found.is_none() && left <= 30_000 && left > 30_000 - 60, "{left}");
    assert!(orders.trials > 500, "{}", orders.trials);
    // The first order is tried whatever is left, and found good or not; it takes half its work and one.
    let plan = four_kinds(None);
    let falling = [3, 0, 1, 1, 2];
    let mut decoder = Decoder::new(&plan, 20);
    assert_eq!(decoder.fill(&falling, 0.0), Some(80.0));
    let first = decoder.work / 2 + 1;
    for (least, is_found) in [(79.5, true), (80.0, false)] {
        let (found, left) = run(&mut Orders::new(&plan, 1), &plan, 20, least, first, 0);
        assert_eq!((found.is_some(), left), (is_found, 0));
    }
    let (found, left) = run(&mut Orders::new(&plan, 1), &plan, 20, 79.5, 1000, 999);
    assert_eq!((found.map(|found| found.placements.len()), left), (Some(5), 1000 - first));
    // One kind has one order.
    let plan = prepared(&[(10, None)], vec![piece(2, 7, 4)]);
    assert_eq!(run(&mut Orders::new(&plan, 1), &plan, 20, 0.0, 1000, 0).1, 1000);
    let plan = prepared(&[(10, None)], vec![piece(2, 7, 4), piece(3, 5, 1)]);
    assert!(run(&mut Orders::new(&plan, 1), &plan, 20, 0.0, 1000, 0).0.is_some());
}

#[test]
fn late_in_a_cycle_an_order_grows_no_worse() {
    let plan = cut_up();
    let mut orders = Orders::new(&plan, 1);
    orders.trials = ROUND - 400;
    let placed = |orders: &Orders| Decoder::new(&plan, 22).fill(&orders.order, 0.0).unwrap_or(0.0);
    let before = placed(&orders);
    run(&mut orders, &plan, 22, 459.5, 6_000, 0);
    assert!(orders.trials > ROUND - 300 && orders.trials < ROUND, "{}", orders.trials);
    assert!(placed(&orders) > before - 2.0, "{before} {}", placed(&orders));
    let mut order = orders.order.clone();
    order.sort_unstable();
    assert_eq!(order, [0, 1, 2, 3, 4, 5]);
}
