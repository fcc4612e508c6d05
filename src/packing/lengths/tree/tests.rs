//! Where to branch, by pencil, and the tree alone against trying everything.

use std::sync::atomic::AtomicBool;

use super::super::construct::{Filling, construct};
use super::super::model::Model;
use super::*;
use crate::effort::Watch;
use crate::problem::{LengthProblem, PieceLength, StockLength};

fn model(kinds: &[(i64, i64, Option<i64>)], pieces: &[(i64, i64)]) -> Model {
    let kind = |&(length, cost, most): &_| StockLength { length, cost, most, rest: None };
    let pieces = pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect();
    Model::new(&LengthProblem { stock: kinds.iter().map(kind).collect(), pieces }).unwrap()
}

/// The kind and the most of it in the lower branch, for lengths of 10 and 6 and the use of each.
fn split(usage: [f64; 2], least: [i64; 2], most: [i64; 2]) -> Option<(usize, i64)> {
    let model = model(&[(10, 3, None), (6, 2, None)], &[(4, 20), (3, 20)]);
    let mut search = LengthSearch::new(&model, 1);
    let relaxation = Relaxation::new(&model, true);
    let tree = Tree { relaxation, search: &mut search, nodes: BTreeMap::new(), age: 0, given_up: i64::MAX };
    let open = Open { least: least.to_vec(), most: most.map(Some).to_vec(), ..Open::all(&model) };
    tree.split(&open, &usage)
}

#[test]
fn the_kind_farthest_from_whole_for_its_length_is_branched() {
    let at = |usage| split(usage, [0, 0], [9, 9]);
    // 0.6 × 10 and 0.6 × 6; 0.2 × 10 and 0.6 × 6; 0.4 × 10 against 3.6, from either side.
    assert_eq!(at([2.5, 1.5]), Some((0, 2)));
    assert_eq!(at([2.9, 1.5]), Some((1, 1)));
    assert_eq!(at([2.1, 1.5]), Some((1, 1)));
    assert_eq!(at([2.3, 1.5]), Some((0, 2)));
    assert_eq!(at([2.7, 1.5]), Some((0, 2)));
    // 0.35 × 10 is less than 0.6 × 6, and 0.37 more.
    assert_eq!((at([2.25, 1.5]), at([2.27, 1.5])), (Some((1, 1)), Some((0, 2))));
    // The other is as good as whole.
    assert_eq!(at([2.999_95, 1.2]), Some((1, 1)));
}

#[test]
fn a_whole_count_is_parted_from_the_wider_side() {
    let at = |first, least, most| split([first, 4.000_01], [least, 0], [most, 9]);
    // The longer kind first. 3 of 0 to 9: 4 to 9 are more; 7: 0 to 6 are; 4 of 0 to 8 is in the middle.
    assert_eq!(at(3.0, 0, 9), Some((0, 3)));
    assert_eq!(at(7.0, 0, 9), Some((0, 6)));
    assert_eq!(at(4.0, 0, 8), Some((0, 3)));
    assert_eq!(at(4.0, 0, 9), Some((0, 4)));
    assert_eq!(at(4.999_95, 2, 9), Some((0, 5)));
    assert_eq!(at(6.0, 2, 9), Some((0, 5)));
    // Both branches hold something: below stays from the least to one under the most.
    assert_eq!(split([9.2, 4.0], [0, 0], [9, 9]), Some((0, 8)));
    assert_eq!(split([0.5, 4.0], [1, 0], [9, 9]), Some((0, 1)));
    assert_eq!(split([0.5, 4.0], [-3, 0], [9, 9]), Some((0, 0)));
    // A count that is given cannot be branched.
    assert_eq!(split([2.5, 1.5], [3, 0], [3, 9]), Some((1, 1)));
    assert_eq!(split([2.5, 1.5], [2, 0], [3, 9]), Some((0, 2)));
    assert_eq!(split([2.5, 1.5], [3, 1], [3, 1]), None);
    assert_eq!(split([2.5, 1.5], [-1, 1], [0, 1]), None);
}

#[test]
fn of_equals_the_first_is_branched() {
    let model = model(&[(10, 3, None), (10, 2, None)], &[(4, 20), (3, 20)]);
    let mut search = LengthSearch::new(&model, 1);
    let relaxation = Relaxation::new(&model, true);
    let tree = Tree { relaxation, search: &mut search, nodes: BTreeMap::new(), age: 0, given_up: i64::MAX };
    let open = Open { most: vec![Some(9), Some(9)], ..Open::all(&model) };
    assert_eq!(tree.split(&open, &[1.5, 3.5]), Some((0, 1)));
}

/// What is found and proved after some steps, from a first plan.
fn grown(model: &Model, given: u64, reserve: u64) -> (i64, bool, u64) {
    let stop = AtomicBool::new(false);
    let mut steps = Steps::new(given, Watch::silent(&stop));
    let mut search = LengthSearch::new(model, 1);
    let plan = construct(model, &mut Open::all(model), Filling::Longest).unwrap();
    search.offer(&plan, &steps);
    let root = Relaxation::new(model, false);
    grow(&mut search, &root, reserve, &mut steps);
    (search.limit(), search.is_proved(), steps.left())
}

/// The least cost of lengths for pieces that are put on them one by one.
fn least(kinds: &[(i64, i64, Option<i64>)], pieces: &[i64], lengths: &mut Vec<(usize, i64)>) -> i64 {
    let Some((&piece, rest)) = pieces.split_first() else {
        return lengths.iter().map(|&(kind, _)| kinds[kind].1).sum();
    };
    let mut best = 1 << 40;
    for at in 0..lengths.len() {
        if lengths[at].1 >= piece {
            lengths[at].1 -= piece;
            best = best.min(least(kinds, rest, lengths));
            lengths[at].1 += piece;
        }
    }
    for (kind, &(length, _, most)) in kinds.iter().enumerate() {
        let taken = lengths.iter().filter(|length| length.0 == kind).count();
        if length >= piece && most.is_none_or(|most| number::from_size(taken) < most) {
            lengths.push((kind, length - piece));
            best = best.min(least(kinds, rest, lengths));
            lengths.pop();
        }
    }
    best
}

#[test]
fn the_tree_alone_finds_and_proves_what_trying_everything_finds() {
    let mut rng = fastrand::Rng::with_seed(31);
    for round in 0..120 {
        let mut kinds: Vec<(i64, i64, Option<i64>)> = (0..rng.usize(1..4))
            .map(|_| (rng.i64(12..30), rng.i64(1..40), rng.bool().then(|| rng.i64(1..3))))
            .collect();
        kinds.push((30, 37, None));
        let pieces: Vec<i64> = (0..7).map(|_| rng.i64(4..16)).collect();
        let list: Vec<(i64, i64)> = pieces.iter().map(|&length| (length, 1)).collect();
        let model = model(&kinds, &list);
        let (cost, proved, _) = grown(&model, 100_000, 0);
        assert_eq!((cost * model.cost_unit, proved), (least(&kinds, &pieces, &mut Vec::new()), true), "round {round}");
    }
}

/// Three of 6 need a length of 10 each, of which one costs nothing.
#[test]
fn a_kind_that_costs_nothing_is_used_as_far_as_it_lasts() {
    let model = model(&[(10, 0, Some(1)), (10, 3, None)], &[(6, 3)]);
    let (cost, proved, _) = grown(&model, 10_000, 0);
    assert_eq!((cost * model.cost_unit, proved), (6, true));
}

#[test]
fn a_node_that_is_not_branched_may_take_a_quarter_of_the_steps() {
    assert_eq!(
        [most_for_one(1000, true), most_for_one(159_992, true), most_for_one(160_008, true)],
        [125, 19_999, 20_000]
    );
    assert_eq!([most_for_one(1000, false), most_for_one(1_000_000, false)], [250, 250_000]);
}

#[test]
fn the_first_four_nodes_and_every_eighth_are_dived_from() {
    let dived: Vec<u32> = (0..25).filter(|&visited| is_dived(visited)).collect();
    assert_eq!(dived, [0, 1, 2, 3, 8, 16, 24]);
}

/// Two lengths of 100 at 10 are cut up into 45, 28 and 27 each; the longest first takes 45 and 45. Nothing is cheaper,
/// since a unit of 70 at 8 costs more.
#[test]
fn the_tree_keeps_its_reserve() {
    let model = model(&[(100, 10, None), (70, 8, None)], &[(45, 2), (28, 2), (27, 2)]);
    // Costs are in units of two.
    let (cost, proved, left) = grown(&model, 1000, 0);
    assert!((cost, proved) == (10, true) && left > 500, "{cost} {left}");
    let (cost, proved, left) = grown(&model, 1000, 1000);
    assert!(cost > 10 && !proved && left < 1000, "{cost} {left}");
}
