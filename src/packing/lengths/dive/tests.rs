//! The steps of a dive by pencil.

use std::sync::atomic::AtomicBool;

use super::super::model::Model;
use super::super::relax::Prices;
use super::*;
use crate::effort::Watch;
use crate::problem::{LengthProblem, PieceLength, StockLength};

fn model(length: i64, pieces: &[(i64, i64)]) -> Model {
    let pieces = pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect();
    Model::new(&LengthProblem { stock: vec![StockLength::new(length, 1)], pieces }).unwrap()
}

/// Nine pieces each of 6, 5 and 4 from lengths of 10, and the fillings 6 + 4, 5 + 5 and 4 + 4.
fn three() -> (Model, [Vec<(usize, i64)>; 3]) {
    (model(10, &[(6, 9), (5, 9), (4, 9)]), [vec![(0, 1), (2, 1)], vec![(1, 2)], vec![(2, 2)]])
}

/// A dive whose basis has these levels of the three fillings.
fn diving<'d, 'm>(relaxation: &'d mut Relaxation<'m>, cuts: &[Vec<(usize, i64)>; 3], levels: [f64; 3]) -> Dive<'d, 'm> {
    let columns = cuts.clone().map(|cuts| relaxation.add(0, cuts));
    let [first, second, third] = levels;
    let rhs = vec![first, 2.0 * second, first + 2.0 * third];
    let basis = Basis::resume(&relaxation.columns, rhs, columns.to_vec());
    let open = Open::all(relaxation.model);
    Dive { relaxation, basis, open, limit: 100, stray: 0.0 }
}

#[test]
fn the_whole_part_of_every_level_is_fixed() {
    let (model, cuts) = three();
    let load = |at: usize, times| Load { stock: 0, cuts: cuts[at].clone(), times };
    let fixed = |stray, seed| {
        let mut relaxation = Relaxation::new(&model, false);
        // A hair below three is three; a little more below one is none.
        let mut dive = Dive { stray, ..diving(&mut relaxation, &cuts, [2.999_95, 1.5, 0.9998]) };
        let mut fixed = Vec::new();
        let cost = dive.fix_whole(&mut fixed, &mut fastrand::Rng::with_seed(seed));
        // What is left is wanted of the basis, to a hair.
        for (rhs, &count) in dive.basis.rhs.iter().zip(&dive.open.counts) {
            assert!((rhs - number::from_whole(count)).abs() < 1e-5);
        }
        (cost, fixed, dive.open.counts)
    };
    // Three of 6 + 4 and one of 5 + 5.
    assert_eq!(fixed(0.0, 1), (4, vec![load(0, 3), load(1, 1)], vec![6, 7, 6]));
    // Where it strays it is sometimes one less, of each by itself.
    let mut seen: Vec<(i64, i64)> = Vec::new();
    for seed in 0..40 {
        let (cost, fixed, _) = fixed(0.1, seed);
        let times = |at: usize| fixed.iter().filter(|load| load.cuts == cuts[at]).map(|load| load.times).sum::<i64>();
        assert_eq!(cost, times(0) + times(1));
        seen.push((times(0), times(1)));
    }
    seen.sort_unstable();
    seen.dedup();
    assert_eq!(seen, [(2, 0), (2, 1), (3, 0), (3, 1)]);
}

#[test]
fn a_filling_is_fixed_as_often_as_the_pieces_allow() {
    let (model, cuts) = three();
    let mut relaxation = Relaxation::new(&model, false);
    let mut dive = diving(&mut relaxation, &cuts, [0.5; 3]);
    let own = dive.relaxation.columns.own();
    let mut fixed = Vec::new();
    // Nine of 5 are four pairs.
    assert_eq!(dive.fix(own + 1, 7, &mut fixed), 4);
    assert_eq!((dive.fix(own + 1, 7, &mut fixed), dive.fix(0, 7, &mut fixed)), (0, 0));
    assert_eq!(fixed, [Load { stock: 0, cuts: cuts[1].clone(), times: 4 }]);
    assert_eq!(dive.open.counts, [9, 1, 9]);
}

#[test]
fn the_most_used_filling_that_was_not_tried_comes_next() {
    let (model, cuts) = three();
    let mut relaxation = Relaxation::new(&model, false);
    let mut dive = diving(&mut relaxation, &cuts, [0.4, 0.7, 0.000_05]);
    let own = dive.relaxation.columns.own();
    let mut rng = fastrand::Rng::with_seed(1);
    assert_eq!(dive.next(&[], &mut rng), Some(own + 1));
    assert_eq!(dive.next(&[own + 1], &mut rng), Some(own));
    // The last is as good as not used.
    assert_eq!(dive.next(&[own + 1, own], &mut rng), None);
    dive.open.counts[1] = 1;
    assert_eq!(dive.next(&[], &mut rng), Some(own));
    dive.open.counts[1] = 9;
    // 0.3 less is made up for by a stray of one, sometimes, but never by 0.2.
    let mut drawn = |stray| {
        dive.stray = stray;
        (0..60).filter(|_| dive.next(&[], &mut rng) == Some(own)).count()
    };
    assert_eq!(drawn(0.2), 0);
    assert!((1..59).contains(&drawn(1.0)));
    // Of equals the first.
    let mut relaxation = Relaxation::new(&model, false);
    let dive = diving(&mut relaxation, &cuts, [0.5, 0.5, 0.5]);
    assert_eq!(dive.next(&[], &mut rng), Some(own));
}

/// Two of 45, 28 and 27 each: as first fit has it three lengths, filled as full as can be two.
#[test]
fn the_rest_is_constructed_if_that_stays_below_the_limit() {
    let model = model(100, &[(45, 2), (28, 2), (27, 2)]);
    let stop = AtomicBool::new(false);
    let finished = |spent, limit| {
        let mut relaxation = Relaxation::new(&model, false);
        let open = Open::all(&model);
        let basis = relaxation.begin(&open);
        let dive = Dive { relaxation: &mut relaxation, basis, open, limit, stray: 0.0 };
        let mut steps = Steps::new(100, Watch::silent(&stop));
        let fixed = [Load { stock: 0, cuts: vec![(0, 9)], times: 1 }];
        let plan = dive.finish(&fixed, spent, &mut steps);
        (plan.map(|plan| (plan[0].clone() == fixed[0], plan.len())), steps.left())
    };
    // Two steps for each construction; the second is needed where three lengths are too many.
    assert_eq!(finished(5, 9), (Some((true, 4)), 98));
    assert_eq!(finished(5, 8), (Some((true, 2)), 96));
    assert_eq!(finished(5, 7), (None, 96));
}

#[test]
fn up_to_twenty_four_open_pieces_are_searched_exhaustively() {
    let stop = AtomicBool::new(false);
    let searched = |count, spent, has_prices| {
        let model = model(10, &[(10, count)]);
        let mut relaxation = Relaxation::new(&model, false);
        let free = Prices { rate: 1, items: vec![0], charges: vec![0], bound: 0 };
        relaxation.prices = Some(free).filter(|_| has_prices);
        let open = Open::all(&model);
        let basis = relaxation.begin(&open);
        let dive = Dive { relaxation: &mut relaxation, basis, open, limit: 30, stray: 0.0 };
        dive.exhaust(spent, &mut Steps::new(1000, Watch::silent(&stop)))
    };
    assert!(matches!(searched(24, 5, true), Exhausted::Found(plan) if plan.len() == 24));
    // 6 and 24 are not below 30.
    assert_eq!(searched(24, 6, true), Exhausted::Nothing);
    assert_eq!(searched(25, 0, true), Exhausted::GaveUp);
    assert_eq!(searched(24, 5, false), Exhausted::GaveUp);
}

/// Twenty-four different pieces of 5628 in all never go on five lengths of 1000. Prices of nothing do not tell, and there
/// is far more to try than four hundred steps allow.
#[test]
fn an_exhaustive_search_within_a_dive_takes_four_hundred_steps_at_the_most() {
    let stop = AtomicBool::new(false);
    let pieces: Vec<(i64, i64)> = (0..24).map(|at| (200 + 3 * at, 1)).collect();
    let model = model(1000, &pieces);
    let free = Prices { rate: 1, items: vec![0; 24], charges: vec![0], bound: 0 };
    let open = Open::all(&model);
    let mut relaxation = Relaxation::new(&model, false);
    relaxation.prices = Some(free.clone());
    let basis = relaxation.begin(&open);
    let dive = Dive { relaxation: &mut relaxation, basis, open: open.clone(), limit: 6, stray: 0.0 };
    let mut steps = Steps::new(10_000, Watch::silent(&stop));
    assert_eq!(dive.exhaust(0, &mut steps), Exhausted::GaveUp);
    let mut alone = Steps::new(10_000, Watch::silent(&stop));
    exhaust(&model, &open, &free.for_open(&open), 6, 400, &mut alone);
    assert!(steps.left() == alone.left() && steps.left() < 9_700, "{} {}", steps.left(), alone.left());
}

#[test]
fn more_rows_leave_room_for_fewer_choices_and_straying_for_fewer_returns() {
    // 4,000,000 by 1, by 82 and by 1,000,001; of so large ones two.
    assert_eq!([0, 9, 1000, 4000].map(most_choices), [4_000_000, 48_780, 3, 2]);
    assert_eq!([returns(0.0, 1), returns(0.1, 1), returns(0.0, 2), returns(0.1, 2)], [24, 3, 3, 3]);
}

/// Three pieces to a length without waste: 40 lengths of 1000, cut up at random.
#[test]
fn a_dive_finds_a_plan_without_waste() {
    let stop = AtomicBool::new(false);
    let mut found = 0;
    for seed in 0..6 {
        let mut rng = fastrand::Rng::with_seed(seed);
        let mut pieces = Vec::new();
        for _ in 0..12 {
            let first = rng.i64(380..=490);
            let second = rng.i64(250..=(750 - first));
            pieces.extend([(first, 1), (second, 1), (1000 - first - second, 1)]);
        }
        let model = model(1000, &pieces);
        let mut relaxation = Relaxation::new(&model, false);
        let open = Open::all(&model);
        let (mut basis, mut bound) = (relaxation.begin(&open), 0);
        let mut steps = Steps::new(20_000, Watch::silent(&stop));
        relaxation.solve(&mut basis, &open, &mut bound, 13, true, &mut steps);
        assert_eq!(bound, 12);
        let dived = |limit, given, relaxation: &mut Relaxation<'_>| {
            let dive = Dive { relaxation, basis: basis.clone(), open: open.clone(), limit, stray: 0.0 };
            dive.run(&mut fastrand::Rng::with_seed(1), &mut Steps::new(given, Watch::silent(&stop)))
        };
        match dived(13, 3000, &mut relaxation.clone()) {
            Dived::Better(plan) => {
                found += 1;
                assert_eq!(model.total(&plan), 12);
                let cut = |item: usize| -> i64 {
                    let all = plan.iter().flat_map(|load| load.cuts.iter().map(move |cut| (cut, load.times)));
                    all.filter(|(cut, _)| cut.0 == item).map(|(cut, times)| cut.1 * times).sum()
                };
                assert!((0..model.counts.len()).all(|item| cut(item) == model.counts[item]));
            }
            Dived::Nothing | Dived::OutOfSteps => {}
        }
        // No plan has less than no waste.
        assert!(!matches!(dived(12, 3000, &mut relaxation.clone()), Dived::Better(_)));
    }
    assert!(found >= 5, "{found} of 6");
}
