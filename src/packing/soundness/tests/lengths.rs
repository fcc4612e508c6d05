//! Patterns of stock lengths.

use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength};
use crate::solution::{LengthSolution, Pattern};
use crate::soundness::lengths;

/// Three kinds of lengths; a unit of leftover is worth 3 of the first, and 270 / 90 = 3 instead of 9 of the second.
fn problem() -> LengthProblem {
    let stock = |length, cost, most, rest: Option<(i64, i64)>| StockLength {
        length,
        cost,
        most,
        rest: rest.map(|(least, value)| KeptRest { least, value }),
    };
    LengthProblem {
        stock: vec![
            stock(100, 450, Some(2), Some((30, 3))),
            stock(90, 270, Some(1), Some((10, 9))),
            stock(65, 70, None, None),
        ],
        pieces: vec![PieceLength { length: 40, count: 5 }, PieceLength { length: 25, count: 3 }],
    }
}

/// Two lengths of the first kind with 35 left (450 − 105 = 345 each), one of the second with 10 left (270 − 30 = 240)
/// and a full one of the third (70): 1000.
fn solution() -> LengthSolution {
    let pattern = |stock, times, cuts: &[(usize, i64)]| Pattern { stock, times, cuts: cuts.to_vec() };
    LengthSolution {
        patterns: vec![pattern(0, 2, &[(0, 1), (1, 1)]), pattern(1, 1, &[(0, 2)]), pattern(2, 1, &[(0, 1), (1, 1)])],
        cost: 1000,
        bound: 1000,
        proved: true,
    }
}

type Case = (fn(&mut LengthProblem, &mut LengthSolution), Result<(), &'static str>);

fn hold(cases: &[Case]) {
    for (at, (change, expected)) in cases.iter().enumerate() {
        let (mut problem, mut solution) = (problem(), solution());
        change(&mut problem, &mut solution);
        assert_eq!(lengths(&problem, &solution), *expected, "case {at}");
    }
}

fn costs(solution: &mut LengthSolution, cost: i64) {
    (solution.cost, solution.bound) = (cost, cost);
}

#[test]
fn patterns_name_what_there_is_and_are_not_empty() {
    let nothing = Pattern { stock: 2, times: 0, cuts: vec![(1, 1)] };
    let mut more = solution();
    more.patterns.push(nothing);
    assert_eq!(lengths(&problem(), &more), Err("an empty pattern"));
    hold(&[
        (|_, _| {}, Ok(())),
        (|_, solution| solution.patterns[2].stock = 3, Err("a stock length that there is not")),
        (|_, solution| solution.patterns[2].cuts[1].0 = 2, Err("a piece that there is not")),
        (|_, solution| solution.patterns[1].cuts.push((1, 0)), Err("a cut of nothing")),
        (|_, solution| solution.patterns[1].cuts.push((1, -1)), Err("a cut of nothing")),
        (
            |_, solution| {
                solution.patterns.push(Pattern { stock: 2, times: 1, cuts: Vec::new() });
                costs(solution, 1070);
            },
            Err("an empty pattern"),
        ),
    ]);
}

#[test]
fn a_length_holds_its_pieces_and_no_unit_more() {
    hold(&[
        (|problem, _| problem.stock[2].length = 64, Err("too much on one length")),
        (|problem, _| problem.pieces[1].length = 26, Err("too much on one length")),
        // A longer one leaves something, which is worth nothing here.
        (|problem, _| problem.stock[2].length = 66, Ok(())),
        // Two of 45 fill 90, and two of 46 do not fit: 10 × 3 less of credit; 5 less on each of the first.
        (
            |problem, solution| {
                problem.pieces[0].length = 45;
                problem.stock[2].length = 70;
                costs(solution, 1060);
            },
            Ok(()),
        ),
        (
            |problem, _| {
                problem.pieces[0].length = 46;
                problem.stock[2].length = 71;
            },
            Err("too much on one length"),
        ),
    ]);
}

#[test]
fn every_piece_is_cut_as_often_as_wanted() {
    const WRONG: Result<(), &str> = Err("not the pieces that were wanted");
    hold(&[
        (|problem, _| problem.pieces[0].count = 4, WRONG),
        (|problem, _| problem.pieces[0].count = 6, WRONG),
        (|problem, _| problem.pieces[1].count = 2, WRONG),
        (|problem, _| problem.pieces[1].count = 4, WRONG),
        (|problem, _| problem.pieces.push(PieceLength { length: 5, count: 1 }), WRONG),
        (|problem, _| problem.pieces.push(PieceLength { length: 5, count: 0 }), Ok(())),
    ]);
}

#[test]
fn no_more_lengths_are_used_than_there_are() {
    const WRONG: Result<(), &str> = Err("more than there are");
    hold(&[
        (|problem, _| problem.stock[0].most = Some(1), WRONG),
        (|problem, _| problem.stock[0].most = Some(3), Ok(())),
        (|problem, _| problem.stock[1].most = Some(0), WRONG),
        // The same kind in two patterns, one length each.
        (
            |problem, solution| {
                problem.stock[0].most = Some(1);
                solution.patterns[0].times = 1;
                let again = solution.patterns[0].clone();
                solution.patterns.push(again);
            },
            WRONG,
        ),
    ]);
}

#[test]
fn a_leftover_counts_from_its_least_length_and_never_for_more_than_the_goods_cost() {
    const WRONG: Result<(), &str> = Err("not the cost it says");
    hold(&[
        (|_, solution| costs(solution, 999), WRONG),
        (|_, solution| costs(solution, 1001), WRONG),
        // The 10 left of the second kind are kept no more.
        (|problem, _| problem.stock[1].rest = Some(KeptRest { least: 11, value: 9 }), WRONG),
        (
            |problem, solution| {
                problem.stock[1].rest = Some(KeptRest { least: 11, value: 9 });
                costs(solution, 1030);
            },
            Ok(()),
        ),
        // 269 for 90 are 2 to a unit: 269 − 20.
        (
            |problem, solution| {
                problem.stock[1].cost = 269;
                costs(solution, 1009);
            },
            Ok(()),
        ),
    ]);
}

#[test]
fn a_bound_is_no_higher_than_the_cost_and_equal_where_it_is_proved() {
    let wrong = Err("a wrong bound");
    let cases = [
        (1000, true, Ok(())),
        (999, false, Ok(())),
        (1000, false, wrong),
        (999, true, wrong),
        (1001, false, wrong),
        (1001, true, wrong),
    ];
    for (bound, proved, expected) in cases {
        assert_eq!(lengths(&problem(), &LengthSolution { bound, proved, ..solution() }), expected, "{bound} {proved}");
    }
}
