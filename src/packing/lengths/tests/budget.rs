//! Lists cut up from full lengths, so that their best cost is known, within budgets that leave some room and no more.

use std::sync::atomic::AtomicBool;

use super::super::solve;
use super::families::Family;
use crate::effort::{Steps, Watch};
use crate::problem::{LengthProblem, PieceLength, StockLength};
use crate::soundness;

/// Full lengths of these kinds, length and how many, cut into pieces of at least `shortest` at random. A unit of any
/// kind costs the same, so that no plan is cheaper than one without waste.
fn cut_up(seed: u64, kinds: &[(i64, i64)], shortest: i64, most: i64) -> (LengthProblem, i64) {
    let mut rng = fastrand::Rng::with_seed(seed);
    let mut pieces = Vec::new();
    let mut cost = 0;
    for &(length, count) in kinds {
        for _ in 0..count {
            cost += length;
            let mut left = length;
            for _ in 1..rng.i64(2..=most) {
                if left >= 2 * shortest {
                    let piece = rng.i64(shortest..=left - shortest);
                    pieces.push(PieceLength { length: piece, count: 1 });
                    left -= piece;
                }
            }
            pieces.push(PieceLength { length: left, count: 1 });
        }
    }
    let stock = kinds.iter().map(|&(length, _)| StockLength::new(length, length)).collect();
    (LengthProblem { stock, pieces }, cost)
}

/// Lists that are not solved within their steps, at the cost that nothing can be below, and proved.
#[derive(Default)]
struct Unsolved(Vec<String>);

impl Unsolved {
    fn check(&mut self, name: String, problem: &LengthProblem, best: i64, given: u64) {
        let stop = AtomicBool::new(false);
        let solution = solve(problem, 1, &mut Steps::new(given, Watch::silent(&stop))).unwrap();
        assert_eq!(soundness::lengths(problem, &solution), Ok(()));
        if (solution.cost, solution.proved) != (best, true) {
            self.0.push(name);
        }
    }
}

/// A list of one kind of length takes no fewer than its pieces fill in a row.
fn rounded_up(problem: &LengthProblem) -> i64 {
    let whole: i64 = problem.pieces.iter().map(|piece| piece.length * piece.count).sum();
    let length = problem.stock[0].length;
    (whole + length - 1) / length
}

#[test]
fn lists_of_one_length_are_proved_within_their_steps() {
    let mut unsolved = Unsolved::default();
    let cases = [
        (Family::Uniform, 1, 6_500),
        (Family::Uniform, 4, 5_500),
        (Family::Triplets, 2, 18_000),
        (Family::Triplets, 3, 16_000),
        (Family::Triplets, 8, 17_000),
        (Family::Coarse, 1, 15_000),
        (Family::Coarse, 7, 20_000),
        (Family::Narrow, 4, 14_000),
        (Family::Scattered, 3, 5_500),
        (Family::Scattered, 5, 12_000),
    ];
    for (family, seed, given) in cases {
        let problem = family.problem(seed);
        let best = rounded_up(&problem);
        unsolved.check(format!("{family:?} {seed}"), &problem, best, given);
    }
    assert_eq!(unsolved.0, [""; 0]);
}

#[test]
fn lengths_of_one_kind_cut_up_are_put_together_again() {
    let mut unsolved = Unsolved::default();
    for (seed, given) in [(0, 4_500), (3, 5_000), (6, 5_000)] {
        let (problem, cost) = cut_up(seed, &[(1000, 12)], 150, 4);
        unsolved.check(format!("twelve {seed}"), &problem, cost, given);
    }
    for (seed, given) in [(0, 5_500), (1, 5_500), (7, 5_500)] {
        let (problem, cost) = cut_up(seed, &[(1000, 20)], 200, 3);
        unsolved.check(format!("twenty {seed}"), &problem, cost, given);
    }
    assert_eq!(unsolved.0, [""; 0]);
}

#[test]
fn lengths_of_several_kinds_cut_up_are_put_together_again() {
    let mut unsolved = Unsolved::default();
    for (seed, given) in [(0, 4_500), (1, 4_500), (3, 5_000), (7, 5_000), (9, 5_500)] {
        let (problem, cost) = cut_up(seed, &[(1000, 6), (730, 5)], 150, 4);
        unsolved.check(format!("two kinds {seed}"), &problem, cost, given);
    }
    for (seed, given) in [(0, 5_000), (2, 5_500), (6, 7_500), (8, 5_000), (9, 42_000)] {
        let (problem, cost) = cut_up(seed, &[(1000, 4), (730, 4), (410, 4)], 90, 4);
        unsolved.check(format!("three kinds {seed}"), &problem, cost, given);
    }
    assert_eq!(unsolved.0, [""; 0]);
}
