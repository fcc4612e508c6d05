//! The best plan, its bound, and what is told of them.

use std::sync::Mutex;
use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::Watch;
use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength};

fn model(kinds: &[(i64, i64, Option<i64>)], pieces: &[(i64, i64)]) -> Model {
    let kind = |&(length, cost, most): &_| StockLength { length, cost, most, rest: None };
    let pieces = pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect();
    Model::new(&LengthProblem { stock: kinds.iter().map(kind).collect(), pieces }).unwrap()
}

fn load(stock: usize, cuts: &[(usize, i64)], times: i64) -> Load {
    Load { stock, cuts: cuts.to_vec(), times }
}

#[test]
fn all_pieces_cost_at_least_their_length_at_the_cheapest_rate() {
    let bound = |model: &Model| LengthSearch::new(model, 1).length_bound();
    // 5 × 4 and 4 × 3 are 32: 96 / 10, rounded up, and 64 / 6.
    assert_eq!(bound(&model(&[(10, 3, None), (6, 2, None)], &[(4, 5), (3, 4)])), 10);
    assert_eq!(bound(&model(&[(10, 5, None), (6, 2, None)], &[(4, 5), (3, 4)])), 11);
    // 4 × 7 and 3 × 4 are 40: 120 / 10 is whole.
    assert_eq!(bound(&model(&[(10, 3, None), (6, 2, None)], &[(4, 7), (3, 4)])), 12);
    // 4 × 3 and 3 × 5 are 27: one of 81 is over, and 54 / 6 is whole.
    assert_eq!(bound(&model(&[(10, 3, None), (6, 2, None)], &[(4, 3), (3, 5)])), 9);
    // Nothing is wanted.
    assert_eq!(bound(&model(&[(10, 3, None)], &[])), 0);
    // 63 for ten units: 945 / 10. To keep two of them, 23 for eight and 4 for each that is used: 345 / 8 and 60.
    let kept = |value| {
        let stock = vec![StockLength { length: 10, cost: 63, most: None, rest: Some(KeptRest { least: 2, value }) }];
        let pieces = [(3, 3), (2, 3)].map(|(length, count)| PieceLength { length, count }).to_vec();
        bound(&Model::new(&LengthProblem { stock, pieces }).unwrap())
    };
    // With 6 off for each, in threes: 315 / 10, and 15 / 8 and 2 × 15.
    assert_eq!((kept(4), kept(6)), (95, 32));
}

#[test]
fn only_better_plans_and_bounds_are_taken_and_told() {
    // Costs are in units of 5: 2 and 1.
    let model = model(&[(100, 10, None), (60, 5, None)], &[(60, 4), (40, 4)]);
    let stop = AtomicBool::new(false);
    let told = Mutex::new(Vec::new());
    let progress = |progress: Progress| told.lock().unwrap().push((progress.best, progress.bound));
    let steps = Steps::new(100, Watch { stop: &stop, progress: &progress });
    let mut search = LengthSearch::new(&model, 1);
    assert_eq!((search.limit(), search.is_proved(), search.bound), (i64::MAX, false, 0));
    // Without a plan there is nothing to tell.
    search.raise(3, &steps);
    assert_eq!((search.bound, search.is_proved()), (3, false));
    search.offer(&[load(0, &[(0, 1), (1, 1)], 4)], &steps);
    assert_eq!(search.limit(), 8);
    // As good is no better. Six of 60 would be 6, also if they are told as of 100.
    search.offer(&[load(0, &[(0, 1), (1, 1)], 4)], &steps);
    search.offer(&[load(0, &[(0, 1)], 4), load(1, &[(1, 1)], 2), load(0, &[(1, 1)], 1)], &steps);
    assert_eq!(
        (search.limit(), search.best.clone()),
        (7, Some((7, vec![load(1, &[(0, 1)], 4), load(1, &[(1, 1)], 3)])))
    );
    search.raise(2, &steps);
    search.raise(3, &steps);
    assert_eq!(search.bound, 3);
    search.raise(6, &steps);
    assert_eq!((search.bound, search.is_proved()), (6, false));
    // No bound is above the plan.
    search.raise(9, &steps);
    assert_eq!((search.bound, search.is_proved()), (7, true));
    assert_eq!(*told.lock().unwrap(), [(40, 15), (35, 15), (35, 30), (35, 35)]);
    let solution = search.solution().unwrap();
    assert_eq!((solution.cost, solution.bound, solution.proved), (35, 35, true));
}

fn solved(problem: &LengthProblem, given: u64) -> (Result<LengthSolution, Unsolved>, u64) {
    let stop = AtomicBool::new(false);
    let mut steps = Steps::new(given, Watch::silent(&stop));
    (super::super::solve(problem, 1, &mut steps), steps.left())
}

fn problem(kinds: &[(i64, i64, Option<i64>)], pieces: &[(i64, i64)]) -> LengthProblem {
    let kind = |&(length, cost, most): &_| StockLength { length, cost, most, rest: None };
    let pieces = pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect();
    LengthProblem { stock: kinds.iter().map(kind).collect(), pieces }
}

#[test]
fn the_stages_share_the_steps() {
    assert_eq!([reserve(1000, 1), reserve(1000, 2), reserve(1000, 3)], [500, 100, 100]);
    assert_eq!([0, 1000, 79_996, 80_004].map(most_for_one), [0, 250, 19_999, 20_000]);
}

#[test]
fn dives_stray_more_and_more_and_then_less_again() {
    let mut stray = 0.0;
    for expected in [0.2, 0.4, 0.6, 0.8, 1.0, 0.1, 0.3, 0.5] {
        stray = next_stray(stray);
        assert!((stray - expected).abs() < 1e-9, "{stray} {expected}");
    }
}

#[test]
fn before_any_plan_all_pieces_are_missing() {
    let model = model(&[(10, 3, None)], &[(4, 5), (3, 4)]);
    let missing = Err(Unsolved::Missing { pieces: vec![(0, 5), (1, 4)], proved: false });
    assert_eq!(LengthSearch::new(&model, 1).solution(), missing);
}

/// Two of 30, then two of 20, fill two lengths of 60, which is proved at once; one of each is one pattern.
#[test]
fn a_plan_is_tidied_at_the_same_cost() {
    let solution = solved(&problem(&[(60, 7, None)], &[(30, 2), (20, 2)]), 100).0.unwrap();
    assert_eq!((solution.cost, solution.patterns.len(), solution.patterns[0].times), (14, 1, 2));
}

#[test]
fn missing_pieces_are_named_once_each_and_in_order() {
    // One of the four fits, and the first item comes first.
    let (missing, _) = solved(&problem(&[(100, 7, Some(1))], &[(60, 2), (60, 2)]), 10_000);
    assert_eq!(missing, Err(Unsolved::Missing { pieces: vec![(0, 1), (1, 2)], proved: true }));
    // 60 + 40 is the best that one length can do; or 40 + 40, or 25 four times.
    let list = problem(&[(100, 7, Some(2))], &[(40, 5), (60, 3), (25, 6)]);
    let Err(Unsolved::Missing { pieces, proved }) = solved(&list, 20_000).0 else { panic!("nothing missing") };
    assert!(proved && pieces.windows(2).all(|pair| pair[0].0 < pair[1].0), "{pieces:?}");
    let missing: i64 = pieces.iter().map(|&(item, count)| list.pieces[item].length * count).sum();
    // 200 + 180 + 150 are wanted, and 200 there.
    assert!((330..=370).contains(&missing), "{pieces:?}");
}

/// Pieces that cannot be proved by their length alone: three of 51 to two lengths.
#[test]
fn with_more_than_seven_hundred_different_pieces_there_is_no_search() {
    let of = |kinds: i64| {
        let pieces: Vec<(i64, i64)> = (0..kinds).map(|index| (5100 + index, 1)).collect();
        let (solution, left) = solved(&problem(&[(10_000, 1, None)], &pieces), 100);
        let solution = solution.unwrap();
        // Each needs a length of its own.
        assert_eq!(solution.cost, kinds);
        (solution.proved, left)
    };
    // Tidying tries pairs of patterns until the steps are spent.
    assert!(!of(701).0);
    assert!(of(5).0);
}
