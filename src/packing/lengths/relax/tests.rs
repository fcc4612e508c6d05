//! Prices and bounds by pencil, and against every filling.

use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::Watch;
use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength};

fn model(kinds: &[(i64, i64, Option<i64>)], pieces: &[(i64, i64)]) -> Model {
    let kind = |&(length, cost, most): &_| StockLength { length, cost, most, rest: None };
    let pieces = pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect();
    Model::new(&LengthProblem { stock: kinds.iter().map(kind).collect(), pieces }).unwrap()
}

/// Five pieces of 4 and four of 3, from lengths of 10 at 3 and two of 6 at 2.
fn two_kinds() -> Model {
    model(&[(10, 3, None), (6, 2, Some(2))], &[(4, 5), (3, 4)])
}

fn prices(rate: i64, charges: &[i64], bound: i128) -> Prices {
    Prices { rate, items: vec![7, 5], charges: charges.to_vec(), bound }
}

#[test]
fn a_bound_is_rounded_up_to_a_whole_cost() {
    let cases = [(57, 6), (51, 6), (50, 5), (49, 5), (0, 0), (-1, 0), (-9, 0), (-10, -1), (-13, -1), (-20, -2)];
    for (bound, least) in cases {
        assert_eq!(prices(10, &[], bound).least(), least, "{bound}");
    }
    assert_eq!((prices(1, &[], i128::MAX).least(), prices(1, &[], i128::MIN).least()), (i64::MAX, 0));
}

#[test]
fn the_bound_of_what_is_open_counts_charges_for_the_most_and_discounts_for_the_least() {
    let model = two_kinds();
    let of = |charges: &[i64], most: [Option<i64>; 2], least: [i64; 2]| {
        let open = Open { most: most.to_vec(), least: least.to_vec(), ..Open::all(&model) };
        prices(10, charges, 9).for_open(&open).bound
    };
    // 7 × 5 + 5 × 4.
    assert_eq!(of(&[0, 0], [None, Some(2)], [0, 0]), 55);
    assert_eq!(of(&[0, 4], [None, Some(2)], [0, 1]), 55 - 4 * 2);
    assert_eq!(of(&[0, -2], [None, Some(4)], [0, 3]), 55 + 2 * 3);
    assert_eq!(of(&[-3, 4], [None, Some(2)], [5, 1]), 55 + 3 * 5 - 4 * 2);
    assert_eq!(of(&[0, -2], [None, Some(4)], [0, -3]), 55);
    assert_eq!(of(&[6, 0], [None, Some(2)], [3, 0]), 55);
}

#[test]
fn pieces_have_rows_and_so_have_limited_kinds_or_all_that_are_counted() {
    // The last kind is too short for any piece, and its cost does not matter.
    let model = model(&[(10, 3, None), (6, 2, Some(2)), (2, 99, None)], &[(4, 5), (3, 4)]);
    let plain = Relaxation::new(&model, false);
    assert_eq!((plain.columns.rows, plain.columns.own()), (3, 6));
    assert_eq!((&plain.least_row[..], &plain.most_row[..]), (&[None; 3][..], &[None, Some(2), None][..]));
    let counted = Relaxation::new(&model, true);
    assert_eq!(counted.columns.rows, 6);
    assert_eq!(counted.least_row, [Some(2), Some(3), None]);
    assert_eq!(counted.most_row, [Some(4), Some(5), None]);
    // 2^36 / 3, and costs in thirds.
    assert_eq!(counted.scale, 22_906_492_245);
    assert!((counted.shrink - 1.0 / 3.0).abs() < 1e-15);
    assert_eq!(counted.slopes, [(0, vec![0, 1])]);
    // A surplus column takes from its demand, a slack column adds to its stock.
    assert!((counted.columns.dot(3, &[0.0, 0.0, 0.0, 1.0, 0.0, 0.0]) + 1.0).abs() < 1e-9);
    assert!((counted.columns.dot(4, &[0.0, 0.0, 0.0, 0.0, 1.0, 0.0]) - 1.0).abs() < 1e-9);
    // With an end kept a length costs 1 × 90 at most, not its base.
    let rest = Some(KeptRest { least: 10, value: 1 });
    let stock = vec![StockLength { length: 100, cost: 100, most: None, rest }];
    let model = Model::new(&LengthProblem {
        stock,
        pieces: vec![PieceLength { length: 7, count: 5 }, PieceLength { length: 6, count: 5 }],
    });
    let model = model.unwrap();
    let relaxation = Relaxation::new(&model, false);
    assert_eq!(relaxation.slopes, [(0, vec![0]), (1, vec![1])]);
    assert!((relaxation.shrink - 0.01).abs() < 1e-15);
}

#[test]
fn right_hand_sides_differ_from_the_whole_numbers_by_a_hair_each() {
    let model = two_kinds();
    let relaxation = Relaxation::new(&model, true);
    let mut open = Open::all(&model);
    (open.most, open.least) = (vec![Some(9), Some(2)], vec![1, -3]);
    let rhs = relaxation.rhs(&open);
    // A demand is a hair less, a stock a hair more.
    let hairs: Vec<f64> = rhs.iter().zip([5.0, 4.0, 1.0, -3.0, 9.0, 2.0]).map(|(rhs, whole)| rhs - whole).collect();
    assert_eq!(hairs.len(), 6);
    assert!(hairs[..4].iter().all(|hair| (-1.6e-6..-0.4e-6).contains(hair)), "{hairs:?}");
    assert!(hairs[4..].iter().all(|hair| (0.4e-6..1.6e-6).contains(hair)), "{hairs:?}");
    for (at, hair) in hairs.iter().enumerate() {
        assert!(hairs[..at].iter().all(|other| (hair.abs() - other.abs()).abs() > 1e-8), "{hairs:?}");
    }
    // Without rows for all kinds, those of the limited ones alone; none of it left is none.
    open.most = vec![Some(9), None];
    let rhs = Relaxation::new(&model, false).rhs(&open);
    assert!(rhs.len() == 3 && rhs[2] > 0.4e-6 && rhs[2] < 1.6e-6);
}

#[test]
fn a_filling_is_a_column_of_its_pieces_its_kind_and_its_cost() {
    let model = two_kinds();
    let mut relaxation = Relaxation::new(&model, true);
    let index = relaxation.add(1, vec![(0, 1), (1, 2)]);
    assert_eq!(index, relaxation.columns.own());
    let filling = Filling { lot: 1, cuts: vec![(0, 1), (1, 2)], cost: 2 };
    assert_eq!((relaxation.column(index), relaxation.column(index + 1)), (Some(&filling), None));
    assert_eq!((relaxation.column(index - 1), relaxation.column(0)), (None, None));
    assert!((relaxation.columns.cost[index] - 2.0 / 3.0).abs() < 1e-12);
    // One of 4, two of 3, and one of the second kind in both of its rows.
    let worth = relaxation.columns.dot(index, &[1.0, 100.0, 1e4, 1e6, 1e8, 1e10]);
    assert!((worth - (1.0 + 200.0 + 1e6 + 1e10)).abs() < 1e-3, "{worth}");
    let other = relaxation.add(0, vec![(0, 2)]);
    assert!((relaxation.columns.cost[other] - 1.0).abs() < 1e-12);
    // What is open has to have the pieces and the kind; the columns of the rows may always be used.
    let mut open = Open::all(&model);
    assert_eq!(relaxation.proper(&open), [true; 14]);
    open.counts = vec![1, 2];
    assert!(
        relaxation.is_proper(index, &open) && !relaxation.is_proper(other, &open) && relaxation.is_proper(3, &open)
    );
    open.counts = vec![2, 1];
    assert!(!relaxation.is_proper(index, &open) && relaxation.is_proper(other, &open));
    open.counts = vec![5, 4];
    open.most = vec![Some(1), Some(0)];
    assert!(!relaxation.is_proper(index, &open) && relaxation.is_proper(other, &open));
    let mut copy = Relaxation::new(&model, false);
    copy.add_all(&relaxation);
    assert_eq!(copy.fillings, relaxation.fillings);
}

#[test]
fn the_loads_of_a_plan_become_columns_of_their_cheapest_lot() {
    // 100 at 100: to keep 20 of it costs what is used. Of 30 used that is 30, of 90 it is all.
    let rest = Some(KeptRest { least: 20, value: 1 });
    let stock = vec![StockLength { length: 100, cost: 100, most: None, rest }];
    let pieces = vec![PieceLength { length: 30, count: 5 }, PieceLength { length: 1, count: 5 }];
    let model = Model::new(&LengthProblem { stock, pieces }).unwrap();
    let mut relaxation = Relaxation::new(&model, false);
    let load = |cuts: &[(usize, i64)]| Load { stock: 0, cuts: cuts.to_vec(), times: 2 };
    relaxation.add_plan(&[load(&[(0, 1)]), load(&[(0, 3)]), load(&[(0, 4)]), load(&[(0, 2), (1, 20)])]);
    let found: Vec<(usize, i64)> = relaxation.fillings.iter().map(|filling| (filling.lot, filling.cost)).collect();
    assert_eq!(found, [(1, 30), (0, 100), (1, 80)]);
}

#[test]
fn usage_adds_up_the_fillings_of_each_kind() {
    let model = two_kinds();
    let mut relaxation = Relaxation::new(&model, false);
    let columns =
        [(0, vec![(0, 2)]), (0, vec![(1, 2)]), (1, vec![(0, 1)])].map(|(lot, cuts)| relaxation.add(lot, cuts));
    // Two lengths of the second kind; then 2a + 2 = 5 and 2b = 4.
    let basis = Basis::resume(&relaxation.columns, vec![5.0, 4.0, 2.0], columns.to_vec());
    let usage = relaxation.usage(&basis);
    assert!((usage[0] - 3.5).abs() < 1e-9 && (usage[1] - 2.0).abs() < 1e-9, "{usage:?}");
}

/// A cost of 3 is 30 at this scale. Where a filling of the first kind is worth 40, prices sink to three quarters.
#[test]
fn prices_sink_until_no_unlimited_length_is_worth_more_than_it_costs() {
    let model = two_kinds();
    let mut relaxation = Relaxation::new(&model, true);
    relaxation.scale = 10;
    let open = |most: Option<i64>, least| Open { most: vec![None, most], least: vec![0, least], ..Open::all(&model) };
    let exact = |discounts: [i64; 2], most_values: [Option<i64>; 2], open: &Open| {
        let Prices { rate, items, charges, bound } = relaxation.exact(vec![20, 10], &discounts, &most_values, open);
        assert_eq!(rate, 10);
        (items, charges, bound)
    };
    let limited = open(Some(2), 1);
    // 20 × 5 + 10 × 4.
    assert_eq!(exact([0, 0], [Some(30), Some(19)], &limited), (vec![20, 10], vec![0, 0], 140));
    // 15 and, rounded down, 7: 75 + 28. A filling of the second kind worth 25 sinks to 18, and one for safety.
    assert_eq!(exact([0, 0], [Some(40), Some(25)], &limited), (vec![15, 7], vec![0, 0], 103));
    // 40 sinks to 30, and one, less 20: a charge of 11 for each of two.
    assert_eq!(exact([0, 0], [Some(40), Some(40)], &limited), (vec![15, 7], vec![0, 11], 103 - 22));
    // With 4 off for one that must be used, the charge is 15.
    assert_eq!(exact([0, 4], [Some(40), Some(40)], &limited), (vec![15, 7], vec![0, 11], 103 + 4 - 30));
    assert_eq!(exact([0, 4], [Some(40), Some(40)], &open(Some(2), -1)), (vec![15, 7], vec![0, 11], 103 - 30));
    assert_eq!(exact([0, 4], [Some(40), None], &limited), (vec![15, 7], vec![0, -4], 103 + 4));
    assert_eq!(exact([0, 4], [Some(40), None], &open(Some(0), 0)), (vec![15, 7], vec![0, 0], 103));
    // Worth just its cost and one for safety.
    assert_eq!(exact([0, 0], [Some(30), Some(20)], &limited), (vec![20, 10], vec![0, 1], 140 - 2));
    // Without limit the second kind makes them sink too, to 20 / 40.
    assert_eq!(exact([0, 0], [Some(40), Some(40)], &open(None, 0)), (vec![10, 5], vec![0, 0], 70));
}

fn steps(stop: &AtomicBool, steps: u64) -> Steps<'_> {
    Steps::new(steps, Watch::silent(stop))
}

/// 6 + 4 and 5 + 5 fill lengths of 10: five of each piece but six of 5 are eight lengths, and none could be saved.
#[test]
fn a_list_without_waste_has_its_number_of_lengths_as_bound() {
    let model = model(&[(10, 1, None)], &[(6, 5), (5, 6), (4, 5)]);
    let stop = AtomicBool::new(false);
    let solved = |limit, given| {
        let mut relaxation = Relaxation::new(&model, false);
        let open = Open::all(&model);
        let (mut basis, mut bound, mut steps) = (relaxation.begin(&open), 0, steps(&stop, given));
        let ended = relaxation.solve(&mut basis, &open, &mut bound, limit, true, &mut steps);
        (ended, bound, relaxation.prices.map(|prices| prices.least()))
    };
    assert_eq!(solved(100, 1000), (Relaxed::Done, 8, Some(8)));
    assert_eq!(solved(9, 1000), (Relaxed::Done, 8, Some(8)));
    assert_eq!((solved(8, 1000).0, solved(8, 1000).1), (Relaxed::LimitReached, 8));
    assert_eq!(solved(100, 1).0, Relaxed::OutOfSteps);
    // A bound that was known before stays, and is enough.
    let mut relaxation = Relaxation::new(&model, false);
    let open = Open::all(&model);
    let (mut basis, mut bound) = (relaxation.begin(&open), 12);
    let ended = relaxation.solve(&mut basis, &open, &mut bound, 12, true, &mut steps(&stop, 1000));
    assert_eq!((ended, bound), (Relaxed::LimitReached, 12));
    let mut basis = relaxation.begin(&open);
    let ended = relaxation.solve(&mut basis, &open, &mut bound, 13, false, &mut steps(&stop, 1000));
    assert_eq!((ended, bound), (Relaxed::Done, 12));
}

/// Every filling of a lot with what is open.
fn fillings(model: &Model, open: &Open, item: usize, room: i64, cuts: &mut Vec<i64>, each: &mut impl FnMut(&[i64])) {
    if item == model.lengths.len() {
        return each(cuts);
    }
    for count in 0..=open.counts[item].min(room / model.lengths[item]) {
        cuts.push(count);
        fillings(model, open, item + 1, room - count * model.lengths[item], cuts, each);
        cuts.pop();
    }
}

/// No filling is worth more than it costs with the charge, so that the bound holds for every plan; the dual program
/// comes within a hair of the primal one, so that the bound is no less than it could be.
#[test]
fn prices_are_sound_for_every_filling_and_their_bound_is_tight() {
    let mut rng = fastrand::Rng::with_seed(23);
    let stop = AtomicBool::new(false);
    for round in 0..150 {
        // So dear that a price of several hundred lengths is beyond whole prices.
        let unit = if round % 3 == 0 { 1 << 43 } else { 1 };
        let stock: Vec<StockLength> = (0..rng.usize(1..4))
            .map(|_| StockLength {
                length: rng.i64(12..40),
                cost: rng.i64(5..40) * unit + rng.i64(0..unit.min(1000)),
                most: rng.bool().then(|| rng.i64(1..5)),
                rest: rng.bool().then(|| KeptRest { least: rng.i64(0..9), value: rng.i64(0..3) }),
            })
            .collect();
        let pieces =
            (0..rng.usize(1..5)).map(|_| PieceLength { length: rng.i64(3..12), count: rng.i64(1..6) }).collect();
        let model = Model::new(&LengthProblem { stock, pieces }).unwrap();
        for counted in [false, true] {
            let mut relaxation = Relaxation::new(&model, counted);
            let mut open = Open::all(&model);
            if counted {
                for most in &mut open.most {
                    *most = Some(most.unwrap_or(30).min(30));
                }
                if let Some(stock) = (0..open.most.len()).find(|&stock| !model.lots_of_stock[stock].is_empty()) {
                    open.least[stock] = open.most[stock].unwrap().min(rng.i64(0..3));
                }
            }
            let (mut basis, mut bound) = (relaxation.begin(&open), 0);
            let ended = relaxation.solve(&mut basis, &open, &mut bound, i64::MAX, true, &mut steps(&stop, 100_000));
            assert_eq!(ended, Relaxed::Done, "round {round}");
            let prices = relaxation.prices.clone().unwrap();
            // A charge of which a discount is taken counts once, for the most or for the least.
            assert!(prices.clone().for_open(&open).bound >= prices.bound, "round {round}");
            let objective = basis.objective(&relaxation.columns) / relaxation.shrink;
            let told = number::from_wide(prices.bound) / number::from_whole(prices.rate);
            // Where a kind must be used more than is of use, the bound is lower than it could be, but sound.
            let least = if counted || unit > 1 { f64::NEG_INFINITY } else { objective - 1e-3 * (1.0 + objective) };
            let most = if unit > 1 { f64::INFINITY } else { objective + 1e-3 };
            assert!((least..=most).contains(&told), "round {round}: {told} of {objective}");
            for lot in &model.lots {
                let charge = i128::from(prices.charges[lot.stock]);
                if open.most[lot.stock] == Some(0) {
                    continue;
                }
                fillings(&model, &open, 0, lot.capacity, &mut Vec::new(), &mut |cuts| {
                    let sum = |each: &[i64]| {
                        cuts.iter().zip(each).map(|(&n, &one)| i128::from(n) * i128::from(one)).sum::<i128>()
                    };
                    let cost = i128::from(lot.base) + i128::from(lot.slope) * sum(&model.lengths);
                    let worth = sum(&prices.items);
                    assert!(worth <= cost * i128::from(prices.rate) + charge, "round {round}: {cuts:?} {lot:?}");
                });
            }
        }
    }
}
