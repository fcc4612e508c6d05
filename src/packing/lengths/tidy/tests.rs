//! Patterns combined by pencil.

use std::sync::atomic::AtomicBool;

use super::*;
use crate::effort::Watch;
use crate::problem::{KeptRest, LengthProblem, PieceLength, StockLength};

#[test]
fn patterns_are_combined_where_the_pieces_allow() {
    let stock = vec![StockLength { length: 100, cost: 1, most: None, rest: None }];
    let pieces = vec![PieceLength { length: 30, count: 6 }, PieceLength { length: 20, count: 6 }];
    let model = Model::new(&LengthProblem { stock, pieces }).unwrap();
    let load = |cuts: &[(usize, i64)], times| Load { stock: 0, cuts: cuts.to_vec(), times };
    let plan = [load(&[(0, 2), (1, 2)], 1), load(&[(0, 3)], 1), load(&[(0, 1), (1, 3)], 1), load(&[(1, 1)], 1)];
    let stop = AtomicBool::new(false);
    let tidied = tidy(&model, &plan, 1000, &mut Steps::new(1000, Watch::silent(&stop)));
    assert!(model.total(&tidied) <= model.total(&plan));
    assert!(tidied.len() < plan.len());
    let cut = |item: usize| -> i64 {
        tidied
            .iter()
            .flat_map(|load| load.cuts.iter().map(move |cut| (cut, load.times)))
            .filter(|(cut, _)| cut.0 == item)
            .map(|(cut, times)| cut.1 * times)
            .sum()
    };
    assert_eq!((cut(0), cut(1)), (6, 6));
}

/// Pieces of 30 and 20 from lengths of 100, so that ten units hold 3 and 2.
fn model(rest: Option<KeptRest>, cost: i64) -> Model {
    let stock = vec![StockLength { length: 100, cost, most: None, rest }, StockLength::new(90, 1000)];
    let pieces = vec![PieceLength { length: 30, count: 60 }, PieceLength { length: 20, count: 60 }];
    Model::new(&LengthProblem { stock, pieces }).unwrap()
}

fn load(cuts: &[(usize, i64)], times: i64) -> Load {
    Load { stock: 0, cuts: cuts.to_vec(), times }
}

#[test]
fn two_patterns_become_one_where_every_piece_divides() {
    let model = model(None, 1);
    let of = |plan: &[Load]| combined(&model, plan, &[0, 1]);
    assert_eq!(of(&[load(&[(0, 2)], 1), load(&[(1, 2)], 1)]), Some(vec![load(&[(0, 1), (1, 1)], 2)]));
    // 3 × 2 of 30 and 2 × 4 of 20 and 2 on five lengths; not one more or less.
    assert_eq!(of(&[load(&[(0, 2), (1, 1)], 3), load(&[(0, 2), (1, 1)], 2)]), Some(vec![load(&[(0, 2), (1, 1)], 5)]));
    assert_eq!(of(&[load(&[(0, 1), (1, 3)], 1), load(&[(0, 2), (1, 1)], 4)]), None);
    assert_eq!(of(&[load(&[(0, 1)], 1), load(&[(0, 2)], 1)]), None);
    // The others stay.
    let other = load(&[(1, 5)], 7);
    assert_eq!(
        combined(&model, &[load(&[(0, 2)], 1), other.clone(), load(&[(1, 2)], 1)], &[0, 2]),
        Some(vec![load(&[(0, 1), (1, 1)], 2), other])
    );
    // Another kind is no match.
    assert_eq!(of(&[load(&[(0, 2)], 1), Load { stock: 1, ..load(&[(1, 2)], 1) }]), None);
}

/// Four of 30 and eight of 20 on three lengths, one by itself: 2 and 2 on it, 1 and 3 on each other.
#[test]
fn three_patterns_become_two() {
    let model = model(None, 1);
    let plan = [load(&[(0, 3)], 1), load(&[(1, 5)], 1), load(&[(0, 1), (1, 3)], 1)];
    let two = vec![load(&[(0, 1), (1, 3)], 2), load(&[(0, 2), (1, 2)], 1)];
    assert_eq!(combined(&model, &plan, &[0, 1, 2]), Some(two));
    // All on one length: the other two are not needed.
    let plan = [load(&[(0, 1)], 1), load(&[(0, 1), (1, 1)], 1), load(&[(1, 1)], 1)];
    assert_eq!(combined(&model, &plan, &[0, 1, 2]), Some(vec![load(&[(0, 2), (1, 2)], 1)]));
    // Four of 30 and five of 20 on two, three and four lengths: 5 is no sum of twos and sevens, 4 none of threes and
    // sixes; one of 30 on each of four and one of 20 on each of five.
    let plan = [load(&[(1, 1)], 2), load(&[(1, 1)], 3), load(&[(0, 1)], 4)];
    assert_eq!(combined(&model, &plan, &[0, 1, 2]), Some(vec![load(&[(0, 1)], 4), load(&[(1, 1)], 5)]));
}

/// A length costs 100, and what is left from 50, or from 55, is worth one for each unit.
#[test]
fn combining_never_costs_more() {
    // Apart: 60 used leave too little, 40 used leave 60: 140. Together twice 50 used: 2 × 50 or 2 × 100.
    let plan = [load(&[(0, 2)], 1), load(&[(1, 2)], 1)];
    let kept = |least| combined(&model(Some(KeptRest { least, value: 1 }), 100), &plan, &[0, 1]);
    assert_eq!(kept(50), Some(vec![load(&[(0, 1), (1, 1)], 2)]));
    assert_eq!(kept(55), None);
}

#[test]
fn pieces_are_dealt_out_within_the_tries_they_need() {
    let model = model(None, 1);
    let dealt = |pieces: &[(usize, i64)], tries| {
        let mut cuts = [Vec::new(), Vec::new()];
        let mut sharing = Sharing { model: &model, pieces, times: [1, 2], tries };
        sharing.deal(0, [10, 10], &mut cuts).then_some(cuts)
    };
    // 3 of 30 leave an odd one; 2, with 2 of 20: three tries.
    let pieces = [(0, 4), (1, 8)];
    assert_eq!(dealt(&pieces, 2), None);
    assert_eq!(dealt(&pieces, 3), Some([vec![(0, 2), (1, 2)], vec![(0, 1), (1, 3)]]));
    // Two of 30 leave no room for nine of 20 (2 and 0 leave an odd number, 1 four on the others): none of 30, five of
    // 20, after 3, 2, (2, 1, 0), 1, 0, (5).
    let pieces = [(0, 4), (1, 9)];
    assert_eq!(dealt(&pieces, 7), None);
    assert_eq!(dealt(&pieces, 8), Some([vec![(1, 5)], vec![(0, 2), (1, 2)]]));
    assert_eq!(dealt(&[(0, 20)], 300), None);
}

/// What is left of `steps`, and how many patterns.
fn tidied(plan: &[Load], most: u64, steps: u64) -> (u64, usize) {
    let stop = AtomicBool::new(false);
    let mut steps = Steps::new(steps, Watch::silent(&stop));
    let tidied = tidy(&model(None, 1), plan, most, &mut steps);
    (steps.left(), tidied.len())
}

/// A pair that fails costs a step, three that fail cost two.
#[test]
fn every_pair_is_tried_then_every_three() {
    // Only the last pair combines: the second and third; then the two patterns are tried once more.
    let last = [load(&[(0, 3)], 1), load(&[(0, 1), (1, 1)], 1), load(&[(0, 1), (1, 3)], 1)];
    assert_eq!(tidied(&last, 100, 100), (97, 2));
    assert_eq!(tidied(&last, 3, 100).1, 2);
    assert_eq!(tidied(&last, 2, 100), (99, 3));
    assert_eq!(tidied(&last, 100, 2), (0, 3));
    assert_eq!(tidied(&last, 100, 3).1, 2);
    // Only all three combine, after three pairs; then one pair more.
    let three = [load(&[(0, 3)], 1), load(&[(1, 5)], 1), load(&[(0, 1), (1, 3)], 1)];
    assert_eq!(tidied(&three, 100, 100), (96, 2));
    assert_eq!(tidied(&three, 3, 100), (98, 3));
    assert_eq!(tidied(&three, 4, 100).1, 2);
    // Nothing combines: one pattern is of another kind.
    let none = [load(&[(0, 3)], 1), Load { stock: 1, ..load(&[(0, 1)], 1) }];
    assert_eq!(tidied(&none, 100, 100), (99, 2));
    let none = [load(&[(0, 3)], 1), Load { stock: 1, ..load(&[(0, 1)], 1) }, load(&[(0, 2)], 1)];
    // Three pairs and all three; 3 + 2 of 30 on two lengths do not divide.
    assert_eq!(tidied(&none, 100, 100), (95, 3));
    assert_eq!(tidied(&none, 4, 100), (97, 3));
    assert_eq!(tidied(&none, 100, 5), (0, 3));
}
