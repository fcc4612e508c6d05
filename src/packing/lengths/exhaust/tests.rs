//! The exhaustive search by pencil, at prices of nothing, where every length has its whole cost as regret.

use std::sync::atomic::AtomicBool;

use super::super::relax::Relaxation;
use super::super::tests::{least, tiny};
use super::*;
use crate::effort::Watch;
use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength};

fn model(kinds: &[(i64, i64, Option<i64>)], pieces: &[(i64, i64)]) -> Model {
    let kind = |&(length, cost, most): &_| StockLength { length, cost, most, rest: None };
    let pieces = pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect();
    Model::new(&LengthProblem { stock: kinds.iter().map(kind).collect(), pieces }).unwrap()
}

fn nothing(model: &Model) -> Prices {
    Prices { rate: 1, items: vec![0; model.lengths.len()], charges: vec![0; model.most.len()], bound: 0 }
}

/// How a search ends, and the steps it took.
fn searched(model: &Model, prices: &Prices, limit: i64, most: u64, given: u64) -> (Exhausted, u64) {
    let stop = AtomicBool::new(false);
    let mut steps = Steps::new(given, Watch::silent(&stop));
    let ended = exhaust(model, &Open::all(model), prices, limit, most, &mut steps);
    (ended, given - steps.left())
}

fn load(stock: usize, cuts: &[(usize, i64)]) -> Load {
    Load { stock, cuts: cuts.to_vec(), times: 1 }
}

/// Two pieces of 4 go on a length of 10. A node is three steps, each look at what else fits an eighth: here 2 + 2
/// fills it at once, 1 leaves room for the other.
#[test]
fn a_plan_below_the_limit_is_found_within_its_steps() {
    let model = model(&[(10, 1, None)], &[(4, 2), (1, 1)]);
    let prices = nothing(&model);
    let found = Exhausted::Found(vec![load(0, &[(0, 2), (1, 1)])]);
    assert_eq!(searched(&model, &prices, 2, 1000, 1000), (found.clone(), 3));
    assert_eq!(searched(&model, &prices, 2, 4, 1000), (found.clone(), 3));
    assert_eq!(searched(&model, &prices, 2, 3, 1000), (Exhausted::GaveUp, 3));
    assert_eq!(searched(&model, &prices, 2, 1000, 4), (found, 3));
    assert_eq!(searched(&model, &prices, 2, 1000, 3), (Exhausted::GaveUp, 3));
    assert_eq!(searched(&model, &prices, 1, 1000, 1000), (Exhausted::Nothing, 3));
    // A bound of one rules out a plan for nothing, before any search.
    let prices = Prices { bound: 1, ..prices };
    assert_eq!(searched(&model, &prices, 1, 1000, 1000), (Exhausted::Nothing, 0));
}

#[test]
fn the_limit_is_a_cost_that_a_plan_stays_below() {
    // 6 + 4 and 5 + 5 in two lengths; 6 + 5 do not fit.
    let model = model(&[(10, 3, None)], &[(6, 1), (5, 2), (4, 1)]);
    for (limit, expected) in [(3, true), (2, false), (1, false)] {
        // A cost of 3 is one of the model, by its unit.
        let (ended, _) = searched(&model, &nothing(&model), limit, 1000, 1000);
        assert_eq!(matches!(ended, Exhausted::Found(_)), expected, "{limit}");
        assert!(expected || ended == Exhausted::Nothing);
    }
}

#[test]
fn a_cheaper_kind_is_used_until_it_is_used_up() {
    // One length of 6 at 2, others of 10 at 5: three pieces of 6.
    let model = model(&[(10, 5, None), (6, 2, Some(1))], &[(6, 3)]);
    let Exhausted::Found(plan) = searched(&model, &nothing(&model), 13, 1000, 1000).0 else { panic!("no plan") };
    assert_eq!(plan, [load(1, &[(0, 1)]), load(0, &[(0, 1)]), load(0, &[(0, 1)])]);
    assert_eq!(searched(&model, &nothing(&model), 12, 1000, 1000).0, Exhausted::Nothing);
}

/// In tenths of a cost: a piece is worth 20 of the 30 or the 20 that a length costs. With the charge the second kind
/// has more regret than the first (10), so that two of the first are tried first, for 6. After one of those, 15 of 25
/// are left.
#[test]
fn a_charge_adds_to_the_regret_of_its_kind() {
    let model = model(&[(10, 3, None), (10, 2, Some(1))], &[(6, 2)]);
    let ended = |charge, bound, limit| {
        let prices = Prices { rate: 10, items: vec![20], charges: vec![0, charge], bound };
        searched(&model, &prices, limit, 1000, 1000).0
    };
    let found = |stocks: [usize; 2]| Exhausted::Found(stocks.map(|stock| load(stock, &[(0, 1)])).to_vec());
    assert_eq!(ended(0, 25, 6), found([1, 0]));
    assert_eq!(ended(15, 25, 6), found([0, 1]));
    assert_eq!(ended(16, 25, 6), Exhausted::Nothing);
    assert_eq!(ended(16, 24, 6), found([0, 1]));
    assert_eq!(ended(15, 25, 7), found([0, 0]));
    // A discount makes no regret less than none.
    assert_eq!(ended(-3, 40, 6), found([1, 0]));
    assert_eq!(ended(-3, 41, 6), Exhausted::Nothing);
}

#[test]
fn the_recursion_goes_six_hundred_lengths_deep() {
    let of = |count| {
        let model = model(&[(10, 1, None)], &[(10, count)]);
        searched(&model, &nothing(&model), count + 1, 100_000, 100_000).0
    };
    assert!(matches!(of(600), Exhausted::Found(plan) if plan.len() == 600));
    assert_eq!(of(601), Exhausted::GaveUp);
}

/// With ends that are kept any choice of the other pieces may be best: 2 to the 11th for each of two lots.
#[test]
fn too_many_fillings_are_not_searched() {
    let of = |others: i64| {
        let pieces = std::iter::once(1000).chain((0..others).map(|index| 20 + index));
        let pieces = pieces.map(|length| PieceLength { length, count: 1 }).collect();
        let stock =
            vec![StockLength { length: 3000, cost: 6000, most: None, rest: Some(KeptRest { least: 9, value: 1 }) }];
        let model = Model::new(&LengthProblem { stock, pieces }).unwrap();
        assert_eq!(model.lots.len(), 2);
        searched(&model, &nothing(&model), 10_000, 100_000, 100_000).0
    };
    assert!(matches!(of(10), Exhausted::Found(_)));
    assert_eq!(of(11), Exhausted::GaveUp);
}

/// Beside each of eight pieces of 51 go two of 20, one of each, or three of 15. In three choices for each of seven
/// lengths there are 3280 nodes of three steps; what is left after k lengths can be told in (k + 1)(k + 2) / 2 ways,
/// 120 in all, each of them reached by three.
#[test]
fn a_state_that_failed_is_not_searched_again() {
    let model = model(&[(100, 1, None)], &[(51, 8), (20, 30), (15, 30)]);
    let (ended, taken) = searched(&model, &nothing(&model), 8, 20_000, 20_000);
    assert_eq!(ended, Exhausted::Nothing);
    assert!(taken < 2000, "{taken}");
}

/// At prices from a relaxation, with limited kinds, leftovers and charges.
#[test]
fn just_the_plans_below_the_limit_are_found() {
    let mut rng = fastrand::Rng::with_seed(41);
    let stop = AtomicBool::new(false);
    let mut solved = 0;
    for round in 0..250 {
        let problem = tiny(&mut rng);
        let pieces: Vec<i64> = problem.pieces.iter().flat_map(|item| (0..item.count).map(|_| item.length)).collect();
        let mut best = None;
        least(&problem, &pieces, &mut Vec::new(), &mut best);
        let (Some(best), Ok(model)) = (best, Model::new(&problem)) else { continue };
        if pieces.is_empty() {
            continue;
        }
        let best = best / model.cost_unit;
        solved += 1;
        for counted in [false, true] {
            let mut relaxation = Relaxation::new(&model, counted);
            let mut open = Open::all(&model);
            if counted {
                open.most = open.most.iter().map(|most| Some(most.unwrap_or(9).min(9))).collect();
            }
            let (mut basis, mut bound) = (relaxation.begin(&open), 0);
            let mut steps = Steps::new(100_000, Watch::silent(&stop));
            relaxation.solve(&mut basis, &open, &mut bound, i64::MAX, true, &mut steps);
            let prices = relaxation.prices.unwrap();
            assert!(bound <= best, "round {round}");
            let ended = |limit| {
                let mut steps = Steps::new(100_000, Watch::silent(&stop));
                exhaust(&model, &open, &prices, limit, 50_000, &mut steps)
            };
            assert_eq!(ended(best), Exhausted::Nothing, "round {round}: {problem:?}");
            let Exhausted::Found(plan) = ended(best + 1) else { panic!("round {round}: {problem:?}") };
            assert_eq!(model.total(&plan), best, "round {round}: {problem:?}");
        }
    }
    assert!(solved > 100, "{solved}");
}
