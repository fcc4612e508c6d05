//! The reduced problem by pencil.

use super::super::model::{Load, Lot, Model};
use super::plain;
use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength, Unsolved};

fn stock(length: i64, cost: i64, most: Option<i64>, rest: Option<(i64, i64)>) -> StockLength {
    StockLength { length, cost, most, rest: rest.map(|(least, value)| KeptRest { least, value }) }
}

fn problem(stock: Vec<StockLength>, pieces: &[(i64, i64)]) -> LengthProblem {
    LengthProblem { stock, pieces: pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect() }
}

fn lots(model: &Model) -> Vec<(usize, i64, i64, i64)> {
    model.lots.iter().map(|&Lot { stock, capacity, base, slope }| (stock, capacity, base, slope)).collect()
}

/// Pieces of 60 and 40 come in steps of 20: 3 and 2. Of 210, cost 630, ten and a half steps can be used; to keep at
/// least 50 of it, eight, at 630 − 2 × 210 and 2 × 20 for each step used. Of 39 nothing can be cut; of 40 nothing is
/// kept; of 41 there is none. All costs are multiples of ten.
fn mixed() -> Model {
    let kinds = vec![
        stock(210, 630, None, Some((50, 2))),
        stock(39, 90, Some(6), None),
        stock(40, 60, Some(5), Some((40, 1))),
        stock(41, 123, Some(0), None),
    ];
    Model::new(&problem(kinds, &[(60, 2), (40, 3), (60, 1), (1000, 0)])).unwrap()
}

#[test]
fn lengths_and_costs_are_counted_in_their_greatest_common_units() {
    let model = mixed();
    assert_eq!((&model.lengths[..], &model.counts[..]), (&[3, 2][..], &[3, 3][..]));
    assert_eq!(model.sources, [vec![(0, 2), (2, 1)], vec![(1, 3)]]);
    assert_eq!(lots(&model), [(0, 10, 63, 0), (0, 8, 21, 4), (2, 2, 6, 0)]);
    assert_eq!(model.lots_of_stock, [vec![0, 1], vec![], vec![2], vec![]]);
    // Six lengths are as good as any number for six pieces.
    assert_eq!(model.most, [None, None, Some(5), Some(0)]);
    assert_eq!((model.artificial, model.cost_unit), (None, 10));
    assert_eq!(model.whole_length(), 3 * 3 + 3 * 2);
}

#[test]
fn a_length_costs_what_the_best_way_to_use_it_costs() {
    let model = mixed();
    assert_eq!([0, 1, 2, 3, 4].map(|stock| model.capacity(stock)), [10, -1, 2, -1, -1]);
    // 21 + 4 × 5; 21 + 4 × 8; nothing kept beyond; too long.
    assert_eq!([5, 8, 9, 10, 11].map(|used| model.cost(0, used)), [Some(41), Some(53), Some(63), Some(63), None]);
    assert_eq!([model.cost(2, 2), model.cost(2, 3), model.cost(1, 1), model.cost(4, 1)], [Some(6), None, None, None]);
    assert_eq!((model.length(0), model.length(1), model.length(2)), (3, 2, 1));
    let load = |stock, cuts: &[(usize, i64)], times| Load { stock, cuts: cuts.to_vec(), times };
    assert_eq!(model.used(&[(0, 2), (1, 3)]), 12);
    assert_eq!(model.total(&[load(0, &[(0, 1), (1, 1)], 3), load(2, &[(1, 1)], 2)]), 3 * 41 + 2 * 6);
}

#[test]
fn a_leftover_is_at_least_one_long_and_worth_no_more_than_the_goods() {
    let of = |length, cost, rest, piece| {
        let model = Model::new(&problem(vec![stock(length, cost, None, Some(rest))], &[(piece, 1)])).unwrap();
        (lots(&model), model.cost_unit)
    };
    // 300 / 100 = 3 for a unit: two pieces of 50 use it all; with one, 50 are paid for.
    assert_eq!(of(100, 300, (0, 5), 50), (vec![(0, 2, 2, 0), (0, 1, 0, 1)], 150));
    assert_eq!(of(100, 300, (-7, 5), 50), (vec![(0, 2, 2, 0), (0, 1, 0, 1)], 150));
    // Of 100 one unit is used if 99 are kept; 100 cannot be kept of what is cut.
    assert_eq!(of(100, 100, (99, 1), 1), (vec![(0, 100, 100, 0), (0, 1, 0, 1)], 1));
    assert_eq!(of(100, 100, (100, 1), 1), (vec![(0, 100, 1, 0)], 100));
    // Worth nothing: by itself, or since 99 / 100 is less than one.
    assert_eq!(of(100, 100, (9, 0), 1), (vec![(0, 100, 1, 0)], 100));
    assert_eq!(of(100, 99, (9, 5), 1), (vec![(0, 100, 1, 0)], 99));
}

/// Three pieces of 60 and two of 40; only 50 can be bought without limit, which holds no 60.
#[test]
fn where_the_stock_may_not_do_an_artificial_kind_costs_more_than_any_plan() {
    let pieces = [(60, 3), (40, 2)];
    // No plan takes more than five lengths of at most 70: 351, rounded up to a multiple of ten.
    let model = Model::new(&problem(vec![stock(100, 70, Some(2), None), stock(50, 30, None, None)], &pieces)).unwrap();
    assert_eq!((lots(&model), model.artificial), (vec![(0, 5, 7, 0), (1, 2, 3, 0), (2, 5, 36, 0)], Some(2)));
    assert_eq!((model.most, model.lots_of_stock), (vec![Some(2), None, None], vec![vec![0], vec![1], vec![2]]));
    // There are but three lengths: 211.
    let kinds = vec![stock(100, 70, Some(2), None), stock(50, 30, Some(1), None)];
    let model = Model::new(&problem(kinds, &pieces)).unwrap();
    assert_eq!((lots(&model).pop(), model.cost_unit), (Some((2, 5, 22, 0)), 10));
    // A multiple already stays: 3 × 33 + 1 = 100, by tens and by one.
    let kinds = vec![stock(100, 33, Some(2), None), stock(50, 3, Some(1), None)];
    assert_eq!(lots(&Model::new(&problem(kinds, &pieces)).unwrap()).pop(), Some((2, 5, 34, 0)));
    let kinds = vec![stock(100, 33, Some(2), None), stock(50, 10, Some(1), None)];
    assert_eq!(lots(&Model::new(&problem(kinds, &pieces)).unwrap()).pop(), Some((2, 5, 100, 0)));
    // As many as there are pieces are enough of any kind, and a length that just holds the longest.
    for kind in [stock(100, 70, Some(5), None), stock(60, 70, None, None)] {
        assert_eq!(Model::new(&problem(vec![kind], &pieces)).unwrap().artificial, None);
    }
    let model = Model::new(&problem(vec![stock(100, 70, Some(4), None)], &pieces)).unwrap();
    assert_eq!((model.artificial, model.most), (Some(1), vec![Some(4), None]));
}

#[test]
fn pieces_longer_than_every_length_there_is_are_missing() {
    let kinds = vec![stock(90, 1, None, None), stock(120, 1, Some(0), None)];
    let missing = Model::new(&problem(kinds.clone(), &[(100, 2), (91, 3), (90, 1), (100, 4), (130, 0)])).err();
    assert_eq!(missing, Some(Unsolved::Missing { pieces: vec![(1, 3), (0, 2), (3, 4)], proved: true }));
    assert!(Model::new(&problem(kinds, &[(90, 1), (130, 0)])).is_ok());
}

#[test]
fn numbers_up_to_two_to_the_53rd_are_accepted_and_costs_below_two_to_the_61st() {
    let top = 1_i64 << 53;
    let accepted = |problem: &LengthProblem| match Model::new(problem) {
        Ok(_) => true,
        Err(Unsolved::Malformed) => false,
        Err(missing) => panic!("{missing:?}"),
    };
    let one = |kind: StockLength| accepted(&problem(vec![kind], &[(1, 1)]));
    assert!(one(stock(top, 1, None, None)) && !one(stock(top + 1, 1, None, None)));
    assert!(one(stock(9, top, None, None)) && !one(stock(9, top + 1, None, None)));
    assert!(one(stock(9, 0, None, None)) && !one(stock(9, -1, None, None)));
    assert!(one(stock(9, 1, Some(1), None)) && !one(stock(9, 1, Some(-1), None)));
    assert!(one(stock(9, 1, None, Some((1, top)))) && !one(stock(9, 1, None, Some((1, top + 1)))));
    assert!(one(stock(9, 1, None, Some((1, 0)))) && !one(stock(9, 1, None, Some((1, -1)))));
    assert!(accepted(&problem(vec![stock(1, 1, None, None), stock(0, 1, None, None)], &[(1, 1)])));
    assert!(accepted(&plain(top, &[(top, 1)])) && !accepted(&plain(top, &[(top + 1, 1)])));
    assert!(!accepted(&plain(9, &[(0, 1)])) && !accepted(&plain(9, &[(0, 0)])) && !accepted(&plain(9, &[(1, -1)])));
    // All pieces together.
    let free = |pieces: &[(i64, i64)]| accepted(&problem(vec![stock(9, 0, None, None)], pieces));
    assert!(free(&[(1, top)]) && !free(&[(1, top), (2, 1)]) && !free(&[(1, top + 1)]));
    let dear = |cost, count| accepted(&problem(vec![stock(9, cost, None, None)], &[(1, count)]));
    assert!(dear(1 << 31, (1 << 30) - 1) && !dear(1 << 31, 1 << 30));
    // 2^15 pieces on one length less: the artificial kind costs 2^31 × 2^15, and all pieces of it 2^61.
    let scarce = |cost| accepted(&problem(vec![stock(9, cost, Some((1 << 15) - 1), None)], &[(1, 1 << 15)]));
    assert!(scarce((1 << 31) - 1) && !scarce(1 << 31));
}
