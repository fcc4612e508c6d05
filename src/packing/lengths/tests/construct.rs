//! First solutions by pencil.

use super::super::construct::{Filling, Open, construct};
use super::super::model::{Load, Model};
use super::plain;
use crate::problem::{LengthProblem, PieceLength, StockLength};

type Cuts<'c> = &'c [(usize, i64)];

fn load(stock: usize, cuts: Cuts<'_>, times: i64) -> Load {
    Load { stock, cuts: cuts.to_vec(), times }
}

fn constructed(model: &Model, filling: Filling) -> Option<Vec<Load>> {
    let mut open = Open::all(model);
    let plan = construct(model, &mut open, filling);
    assert_eq!(plan.is_some(), open.is_done());
    plan
}

fn kinds(kinds: &[(i64, i64, Option<i64>)], pieces: &[(i64, i64)]) -> Model {
    let kind = |&(length, cost, most): &_| StockLength { length, cost, most, rest: None };
    let pieces = pieces.iter().map(|&(length, count)| PieceLength { length, count }).collect();
    Model::new(&LengthProblem { stock: kinds.iter().map(kind).collect(), pieces }).unwrap()
}

#[test]
fn pieces_and_lengths_are_taken_and_given_back() {
    let model = kinds(&[(100, 1, Some(3)), (90, 1, None)], &[(30, 7), (20, 5)]);
    let mut open = Open::all(&model);
    open.least = vec![2, 0];
    let cuts = [(0, 2), (1, 1)];
    // Seven pieces in twos; three lengths; five in fours.
    assert_eq!((open.times(1, &cuts), open.times(0, &[(1, 1)]), open.times(0, &[(1, 4)])), (3, 3, 1));
    assert_eq!((open.times(1, &[(0, 2), (1, 5)]), open.times(1, &[]), open.times(1, &[(1, 0), (0, 3)])), (1, 0, 2));
    open.take(0, &cuts, 2);
    assert_eq!(
        (&open.counts[..], &open.most[..], &open.least[..]),
        (&[3, 3][..], &[Some(1), None, None][..2], &[0, 0][..])
    );
    assert_eq!(open.times(0, &[(1, 1)]), 1);
    open.take(0, &cuts, -1);
    open.take(1, &[(1, 4)], 1);
    assert_eq!((&open.counts[..], &open.most[..2], &open.least[..]), (&[5, 0][..], &[Some(2), None][..], &[1, -1][..]));
    assert!(!open.is_done());
    open.take(1, &[(0, 5)], 1);
    assert!(open.is_done());
}

#[test]
fn the_longest_piece_that_fits_comes_next() {
    let of =
        |length, pieces: &[(i64, i64)]| constructed(&Model::new(&plain(length, pieces)).unwrap(), Filling::Longest);
    // 60 + 40, 40 + 40, 30 + 30.
    let expected = [load(0, &[(0, 1), (1, 1)], 1), load(0, &[(1, 2)], 1), load(0, &[(2, 2)], 1)];
    assert_eq!(of(100, &[(60, 1), (40, 3), (30, 2)]), Some(expected.to_vec()));
    // Three and three and one of 30.
    assert_eq!(of(100, &[(30, 7)]), Some(vec![load(0, &[(0, 3)], 2), load(0, &[(0, 1)], 1)]));
    // 50 + 40: what does not fit is passed over; then 30 + 30 + 30.
    assert_eq!(of(95, &[(50, 1), (40, 1), (30, 3)]), Some(vec![load(0, &[(0, 1), (1, 1)], 1), load(0, &[(2, 3)], 1)]));
}

#[test]
fn a_length_is_filled_as_full_as_its_longest_piece_allows() {
    let of = |pieces: &[(i64, i64)]| constructed(&Model::new(&plain(100, pieces)).unwrap(), Filling::Fullest);
    // 60 + 20 + 20 in place of 60 + 30.
    assert_eq!(of(&[(60, 1), (30, 1), (20, 2)]), Some(vec![load(0, &[(0, 1), (2, 2)], 1), load(0, &[(1, 1)], 1)]));
    // 45 + 28 + 27 in place of 45 + 45.
    let expected = [load(0, &[(0, 1), (1, 1), (2, 1)], 1), load(0, &[(0, 1)], 1)];
    assert_eq!(of(&[(45, 2), (28, 1), (27, 1)]), Some(expected.to_vec()));
    // 51 + 33 + 13 = 97 leaves 3; 51 + 26 + 22 leaves 1, and no other leaves less: 51 + 22 + 13 + 13, 51 + 48.
    let plan = of(&[(51, 1), (33, 1), (26, 1), (22, 1), (13, 1)]).unwrap();
    assert_eq!(plan[0], load(0, &[(0, 1), (2, 1), (3, 1)], 1));
    // 51 + 26 + 22 = 99 is not given up for 51 + 25 + 22 = 98.
    let plan = of(&[(51, 1), (33, 1), (26, 1), (25, 1), (22, 1), (13, 1)]).unwrap();
    assert_eq!(plan[0], load(0, &[(0, 1), (2, 1), (4, 1)], 1));
    // It is for 51 + 25 + 24 = 100, though only one was left.
    let plan = of(&[(51, 1), (33, 1), (26, 1), (25, 1), (24, 1), (22, 1), (13, 1)]).unwrap();
    assert_eq!(plan[0], load(0, &[(0, 1), (3, 1), (4, 1)], 1));
    // 60 + 16 + 14 is no fuller than 60 + 30.
    let plan = of(&[(60, 1), (30, 1), (16, 1), (14, 1)]).unwrap();
    assert_eq!(plan[0], load(0, &[(0, 1), (1, 1)], 1));
    // Two of 45 fit, never three; 45 + 55 is longer than it may be: 45 + 31 + 24.
    let plan = of(&[(45, 3), (31, 1), (24, 1)]).unwrap();
    assert_eq!(plan, [load(0, &[(0, 1), (1, 1), (2, 1)], 1), load(0, &[(0, 2)], 1)]);
    // 44 + 2 × 28 for two lengths at once: four of 28, not two of 30.
    let plan = of(&[(44, 2), (30, 2), (28, 4)]).unwrap();
    assert_eq!(plan, [load(0, &[(0, 1), (2, 2)], 2), load(0, &[(1, 2)], 1)]);
}

#[test]
fn the_kind_that_costs_least_for_what_it_yields_is_cut() {
    let first = |model: &Model| constructed(model, Filling::Longest).unwrap()[0].clone();
    // 10 for 60, or 5.
    assert_eq!(first(&kinds(&[(100, 10, None), (60, 5, None)], &[(60, 1)])), load(1, &[(0, 1)], 1));
    // 9 for 60 + 40, or 6 for 60.
    assert_eq!(first(&kinds(&[(100, 9, None), (60, 6, None)], &[(60, 1), (40, 1)])), load(0, &[(0, 1), (1, 1)], 1));
    // 10 for 100 is as good as 6 for 60: the shorter one.
    assert_eq!(first(&kinds(&[(100, 10, None), (60, 6, None)], &[(60, 1), (40, 1)])), load(1, &[(0, 1)], 1));
    // Of two of one length the cheaper, and of equals the first.
    assert_eq!(first(&kinds(&[(100, 10, None), (100, 9, None)], &[(60, 1)])), load(1, &[(0, 1)], 1));
    assert_eq!(first(&kinds(&[(100, 9, None), (100, 9, None)], &[(60, 1)])), load(0, &[(0, 1)], 1));
    // One that is too short for the longest piece has to wait: 3 for 40.
    let model = kinds(&[(60, 30, None), (40, 3, None)], &[(60, 1), (40, 1)]);
    assert_eq!(constructed(&model, Filling::Longest), Some(vec![load(0, &[(0, 1)], 1), load(1, &[(1, 1)], 1)]));
}

/// All but the longest are multiples of four, it is one more than one: three of 4000 are always left, in a great many
/// ways, and nobody looks at all of them.
#[test]
fn the_search_for_a_full_length_comes_to_an_end() {
    let pieces: Vec<(i64, i64)> = std::iter::once((801, 1)).chain((0..60).map(|index| (400 - 4 * index, 1))).collect();
    let plan = constructed(&Model::new(&plain(4000, &pieces)).unwrap(), Filling::Fullest).unwrap();
    assert_eq!(plan[0].cuts[0], (0, 1));
}

#[test]
fn what_is_used_up_is_not_cut() {
    let one = kinds(&[(60, 5, Some(1)), (100, 10, None)], &[(60, 2)]);
    assert_eq!(constructed(&one, Filling::Longest), Some(vec![load(0, &[(0, 1)], 1), load(1, &[(0, 1)], 1)]));
    let model = kinds(&[(60, 5, Some(2)), (100, 10, None)], &[(60, 5)]);
    assert_eq!(constructed(&model, Filling::Longest), Some(vec![load(0, &[(0, 1)], 2), load(1, &[(0, 1)], 3)]));
    let mut open = Open::all(&model);
    open.most = vec![Some(2), Some(2)];
    assert_eq!(construct(&model, &mut open, Filling::Longest), None);
    let mut open = Open::all(&model);
    open.most = vec![Some(2), Some(3)];
    assert!(construct(&model, &mut open, Filling::Longest).is_some());
    open.counts = vec![1];
    assert_eq!(construct(&model, &mut open, Filling::Longest), None);
}
