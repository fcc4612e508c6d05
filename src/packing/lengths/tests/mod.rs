//! The solver against trying everything, hostile problems, and itself.

mod budget;
mod ceiling;
mod construct;
mod families;
mod finish;
mod model;

use std::sync::atomic::AtomicBool;

use super::solve;
use crate::effort::{Steps, Watch};
use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength, Unsolved};
use crate::solution::LengthSolution;
use crate::soundness;
use families::Family;

fn solved(problem: &LengthProblem, steps: u64) -> Result<LengthSolution, Unsolved> {
    let stop = AtomicBool::new(false);
    let answer = solve(problem, 1, &mut Steps::new(steps, Watch::silent(&stop)));
    if let Ok(answer) = &answer {
        assert_eq!(soundness::lengths(problem, answer), Ok(()), "{problem:?}");
    }
    answer
}

fn plain(length: i64, pieces: &[(i64, i64)]) -> LengthProblem {
    LengthProblem {
        stock: vec![StockLength { length, cost: 1, most: None, rest: None }],
        pieces: pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect(),
    }
}

/// The least cost by putting every piece on every length.
pub(super) fn least(problem: &LengthProblem, pieces: &[i64], lengths: &mut Vec<(usize, i64)>, best: &mut Option<i64>) {
    let Some((&piece, rest)) = pieces.split_first() else {
        let cost = |&(stock, used): &(usize, i64)| {
            let StockLength { length, cost, rest, .. } = problem.stock[stock];
            let end = length - used;
            let kept =
                rest.filter(|rest| end > 0 && end >= rest.least).map_or(0, |rest| rest.value.min(cost / length) * end);
            cost - kept
        };
        let cost = lengths.iter().map(cost).sum();
        *best = Some(best.map_or(cost, |best| best.min(cost)));
        return;
    };
    for at in 0..lengths.len() {
        if lengths[at].1 + piece <= problem.stock[lengths[at].0].length {
            lengths[at].1 += piece;
            least(problem, rest, lengths, best);
            lengths[at].1 -= piece;
        }
    }
    for stock in 0..problem.stock.len() {
        let taken = lengths.iter().filter(|length| length.0 == stock).count();
        let is_left = problem.stock[stock].most.is_none_or(|most| i64::try_from(taken).unwrap() < most);
        if is_left && piece <= problem.stock[stock].length {
            lengths.push((stock, piece));
            least(problem, rest, lengths, best);
            lengths.pop();
        }
    }
}

pub(super) fn tiny(rng: &mut fastrand::Rng) -> LengthProblem {
    let stock = (0..rng.usize(1..4)).map(|_| StockLength {
        length: rng.i64(8..30),
        cost: rng.i64(0..40),
        most: rng.bool().then(|| rng.i64(0..4)),
        rest: (rng.u8(0..3) == 0).then(|| KeptRest { least: rng.i64(0..9), value: rng.i64(0..3) }),
    });
    let stock = stock.collect();
    let mut left = 7;
    let mut pieces = Vec::new();
    while left > 0 && rng.u8(0..6) > 0 {
        let count = rng.i64(1..=left.min(3));
        left -= count;
        pieces.push(PieceLength { length: rng.i64(2..16), count });
    }
    LengthProblem { stock, pieces }
}

#[test]
fn tiny_problems_are_solved_as_by_trying_everything() {
    let mut rng = fastrand::Rng::with_seed(11);
    for round in 0..800 {
        let problem = tiny(&mut rng);
        let pieces: Vec<i64> = problem.pieces.iter().flat_map(|item| (0..item.count).map(|_| item.length)).collect();
        let mut best = None;
        least(&problem, &pieces, &mut Vec::new(), &mut best);
        match (solved(&problem, 300_000), best) {
            (Ok(answer), Some(best)) => {
                assert_eq!((answer.cost, answer.proved), (best, true), "round {round}: {problem:?}");
            }
            (Err(Unsolved::Missing { pieces, proved }), None) => {
                assert!(proved && !pieces.is_empty(), "round {round}: {problem:?}");
            }
            (answer, best) => panic!("round {round}: {answer:?} for {best:?}: {problem:?}"),
        }
    }
}

#[test]
fn nothing_to_cut_needs_nothing() {
    let answer = solved(&plain(100, &[]), 1000).unwrap();
    assert!(answer.patterns.is_empty() && answer.cost == 0 && answer.proved);
    let answer = solved(&LengthProblem::default(), 1000).unwrap();
    assert!(answer.patterns.is_empty() && answer.proved);
    let answer = solved(&plain(100, &[(30, 0)]), 0).unwrap();
    assert!(answer.patterns.is_empty() && answer.proved);
}

#[test]
fn what_cannot_be_cut_is_named() {
    let missing = |items: &[(usize, i64)]| Err(Unsolved::Missing { pieces: items.to_vec(), proved: true });
    assert_eq!(solved(&plain(100, &[(30, 2), (101, 3)]), 1000), missing(&[(1, 3)]));
    let mut problem = plain(100, &[(60, 5)]);
    problem.stock[0].most = Some(3);
    assert_eq!(solved(&problem, 10_000), missing(&[(0, 2)]));
    problem.stock.clear();
    assert_eq!(solved(&problem, 10_000), missing(&[(0, 5)]));
}

#[test]
fn numbers_out_of_range_are_refused() {
    for (length, count) in [(-1, 1), (0, 1), (1, -1), (i64::MAX, 1), (1, i64::MAX)] {
        assert_eq!(solved(&plain(100, &[(length, count)]), 1000), Err(Unsolved::Malformed));
    }
    assert_eq!(solved(&plain(-5, &[(1, 1)]), 1000), Err(Unsolved::Malformed));
}

#[test]
fn large_problems_come_back() {
    let answer =
        solved(&plain(10_000_000_000_000, &[(3_333_333_333_333, 1_000_000), (2_500_000_000_001, 999_999)]), 2000);
    assert!(answer.unwrap().cost >= 583_333);
    let items: Vec<(i64, i64)> = (0..10_000).map(|n| (1_000_000_007 + 97 * n, 1 + n % 100)).collect();
    let answer = solved(&plain(9_999_999_999, &items), 2000).unwrap();
    assert!(answer.cost >= 50_000 && answer.patterns.len() <= 60_000);
    let pieces: Vec<(i64, i64)> = (0..300).map(|n| (10 + n, 1_000_000)).collect();
    assert!(solved(&plain(1000, &pieces), 5000).is_ok());
}

#[test]
fn the_same_steps_give_the_same_answer() {
    let mut rng = fastrand::Rng::with_seed(3);
    let pieces: Vec<(i64, i64)> = (0..40).map(|_| (rng.i64(150..700), rng.i64(1..4))).collect();
    let problem = plain(1000, &pieces);
    for steps in [10, 3000, 50_000] {
        assert_eq!(solved(&problem, steps), solved(&problem, steps));
    }
}

#[test]
fn items_of_one_length_are_dealt_out_to_their_owners() {
    let answer = solved(&plain(100, &[(50, 3), (25, 4), (50, 4), (25, 2)]), 10_000).unwrap();
    assert_eq!((answer.cost, answer.proved), (5, true));
}

#[test]
fn families_of_the_literature_are_solved_and_proved() {
    for family in [Family::Uniform, Family::Triplets, Family::Coarse, Family::Narrow, Family::Scattered] {
        for seed in 1..=2 {
            assert!(solved(&family.problem(seed), 400_000).unwrap().proved, "{family:?} {seed}");
        }
    }
}

#[test]
fn every_family_is_cut_right_within_few_steps() {
    for family in Family::ALL {
        let problem = family.problem(3);
        let answer = solved(&problem, 2_000).unwrap();
        assert!(answer.bound <= answer.cost, "{family:?}: {} of {}", answer.cost, answer.bound);
    }
}

#[test]
fn small_work_on_several_kinds_is_proved_soon() {
    for seed in 0..60 {
        let mut rng = fastrand::Rng::with_seed(seed);
        let lengths: Vec<i64> = (0..rng.usize(1..4)).map(|_| 100 * rng.i64(10..60)).collect();
        let longest = *lengths.iter().max().unwrap();
        let stock = |&length: &i64| StockLength { length, cost: length / 10 * 9 + length % 7, most: None, rest: None };
        let piece = |_| PieceLength { length: (5 * rng.i64(20..200)).min(longest), count: rng.i64(1..=20) };
        let pieces = (0..5).map(piece).collect();
        let problem = LengthProblem { stock: lengths.iter().map(stock).collect(), pieces };
        let answer = solved(&problem, 200_000).unwrap();
        assert!(answer.proved, "seed {seed}: {} of {}", answer.cost, answer.bound);
    }
}
