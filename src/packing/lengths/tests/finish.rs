//! A plan turned into a solution, by pencil.

use super::super::finish::{join, name, settle};
use super::super::model::{Load, Model};
use super::plain;
use crate::problem::{LengthProblem, PieceLength, StockLength};
use crate::solution::Pattern;

fn load(stock: usize, cuts: &[(usize, i64)], times: i64) -> Load {
    Load { stock, cuts: cuts.to_vec(), times }
}

/// Pieces of 70, 30 and 20, twenty of each, from these kinds of length, cost and number.
fn model(kinds: &[(i64, i64, Option<i64>)]) -> Model {
    let kind = |&(length, cost, most): &_| StockLength { length, cost, most, rest: None };
    let pieces = [70, 30, 20].map(|length| PieceLength { length, count: 20 }).to_vec();
    Model::new(&LengthProblem { stock: kinds.iter().map(kind).collect(), pieces }).unwrap()
}

#[test]
fn loads_move_to_cheaper_kinds_as_far_as_those_last() {
    let short = [(1, 2)];
    let two = model(&[(100, 10, None), (60, 4, Some(3))]);
    assert_eq!(settle(&two, &[load(0, &short, 5)]), [load(0, &short, 2), load(1, &short, 3)]);
    assert_eq!(settle(&two, &[load(0, &short, 2)]), [load(1, &short, 2)]);
    // Two of the three are taken.
    let taken = load(1, &[(2, 3)], 2);
    assert_eq!(settle(&two, &[load(0, &short, 5), taken.clone()]), [load(0, &short, 4), load(1, &short, 1), taken]);
    // What is too long stays; so does what would cost the same.
    assert_eq!(settle(&two, &[load(0, &[(0, 1)], 5)]), [load(0, &[(0, 1)], 5)]);
    let alike = model(&[(100, 4, None), (60, 4, None)]);
    assert_eq!(settle(&alike, &[load(1, &short, 5)]), [load(1, &short, 5)]);
    // Of two cheaper kinds the cheapest comes first.
    let three = model(&[(100, 10, None), (60, 4, Some(2)), (60, 3, Some(1))]);
    assert_eq!(settle(&three, &[load(0, &short, 5)]), [load(0, &short, 2), load(1, &short, 2), load(2, &short, 1)]);
    // A kind that is too short for its load gives it away at any cost.
    assert_eq!(settle(&two, &[load(1, &[(0, 1)], 1)]), [load(0, &[(0, 1)], 1)]);
}

#[test]
fn what_moves_away_makes_room_for_others() {
    let model = model(&[(100, 10, Some(1)), (60, 4, None), (100, 20, None)]);
    let (short, long) = ([(1, 2)], [(0, 1), (1, 1)]);
    let plan = [load(0, &short, 1), load(2, &long, 2)];
    assert_eq!(settle(&model, &plan), [load(0, &long, 1), load(1, &short, 1), load(2, &long, 1)]);
}

#[test]
fn equal_loads_are_joined_and_empty_ones_dropped() {
    let plan = vec![
        load(1, &[(0, 1)], 2),
        load(0, &[(2, 1), (1, 3)], 2),
        load(0, &[(0, 1)], 0),
        load(0, &[], 5),
        load(0, &[(1, 3), (2, 1)], 5),
        load(0, &[(1, 3)], 1),
    ];
    assert_eq!(join(plan), [load(0, &[(1, 3)], 1), load(0, &[(1, 3), (2, 1)], 7), load(1, &[(0, 1)], 2)]);
}

fn named(pieces: &[(i64, i64)], plan: &[Load]) -> Vec<(i64, Vec<(usize, i64)>)> {
    let model = Model::new(&plain(100, pieces)).unwrap();
    name(&model, plan).into_iter().map(|Pattern { times, cuts, .. }| (times, cuts)).collect()
}

/// Pieces 0 and 2 are 50 long, three and four of them; 1 and 3 are 25 long, four and two.
#[test]
fn pieces_of_one_length_are_dealt_out_in_their_order() {
    let plan = [load(0, &[(0, 2)], 3), load(0, &[(0, 1), (1, 2)], 1), load(0, &[(1, 4)], 1)];
    let expected = [
        (1, vec![(0, 2)]),
        (1, vec![(0, 1), (2, 1)]),
        (1, vec![(2, 2)]),
        (1, vec![(1, 2), (2, 1)]),
        (1, vec![(1, 2), (3, 2)]),
    ];
    assert_eq!(named(&[(50, 3), (25, 4), (50, 4), (25, 2)], &plan), expected);
    // As many alike as one item yields: three of the first, four of the second.
    assert_eq!(named(&[(50, 3), (50, 4)], &[load(0, &[(0, 1)], 7)]), [(3, vec![(0, 1)]), (4, vec![(1, 1)])]);
    // Two of 25 each: the four of the second piece last for two lengths, the two of the fourth for one.
    assert_eq!(
        named(&[(50, 5), (25, 4), (25, 2)], &[load(0, &[(0, 1), (1, 2)], 3)]),
        [(2, vec![(0, 1), (1, 2)]), (1, vec![(0, 1), (2, 2)])]
    );
    // A piece of which none is cut takes nothing and holds nothing up.
    assert_eq!(named(&[(50, 3), (25, 4)], &[load(0, &[(0, 2), (1, 0)], 1)]), [(1, vec![(0, 2)])]);
}
