//! The greedy rule, by hand.

use super::*;
use crate::problem::{Rectangle, RectangleProblem, Stretch};

fn prepared(stretches: &[(i64, Option<i64>)], rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss: 0 })
}

fn turning(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { quarter: true, ..Rectangle::new(along, across, count) }
}

fn marked(first: i64, every: i64, along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { starts: Some(Starts { first, every }), ..Rectangle::new(along, across, count) }
}

fn at_edge(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { at_edge: true, ..Rectangle::new(along, across, count) }
}

/// Columns as the kind in them, how many, and how often.
fn columns(prepared: &Prepared, band: &Band) -> Vec<(usize, i64, i64)> {
    let of = |stack: &Stack| {
        assert_eq!((stack.piles.len(), stack.width), (1, prepared.shapes[stack.piles[0].shape].across));
        (prepared.shapes[stack.piles[0].shape].item, stack.piles[0].times, stack.times)
    };
    band.stacks.iter().map(of).collect()
}

#[test]
fn the_preferred_shape_of_every_kind_comes_first_and_long_ones_before_short_ones() {
    let kinds =
        vec![turning(9, 4, 1), Rectangle::new(6, 3, 1), turning(7, 5, 0), turning(8, 6, 1), Rectangle::new(6, 5, 1)];
    let cloth = prepared(&[(20, None)], kinds);
    let of = |key: fn(&Shape) -> (i64, i64)| -> Vec<(i64, i64)> {
        let sizes = |&at: &usize| (cloth.shapes[at].along, cloth.shapes[at].across);
        chosen(&cloth, key).iter().map(sizes).collect()
    };
    let (short, narrow) = ([(6, 8), (6, 5), (6, 3), (4, 9)], [(9, 4), (8, 6), (6, 5), (6, 3)]);
    assert_eq!(of(|shape| (shape.along, shape.across)), [&short[..], &[(9, 4), (8, 6)]].concat());
    assert_eq!(of(|shape| (shape.across, shape.along)), [&narrow[..], &[(6, 8), (4, 9)]].concat());
}

#[test]
fn a_row_is_cut_as_often_as_there_are_pieces_and_cloth() {
    let cloth =
        prepared(&[(20, None)], vec![Rectangle::new(5, 4, 99), Rectangle::new(3, 2, 99), marked(0, 5, 3, 4, 99)]);
    let band = |piles: &[(usize, i64, i64)]| {
        let stack = |&(item, piled, times): &(usize, i64, i64)| {
            let pile = Pile { shape: cloth.items[item].shapes[0], times: piled };
            Stack { width: 4, piles: vec![pile], times }
        };
        Band::new(&cloth, 0, piles.iter().map(stack).collect(), 1)
    };
    let plain = band(&[(0, 1, 2), (0, 1, 1), (1, 1, 2)]);
    // Three of the first kind and two of the other: four times more by the first, three by the other.
    assert_eq!(times(&cloth, &plain, 7, None, &[14, 7, 0]), 4);
    assert_eq!(times(&cloth, &plain, 7, None, &[11, 9, 0]), 4);
    assert_eq!(times(&cloth, &plain, 7, None, &[2, 9, 0]), 1);
    // Each 5 long, from 7.
    for (length, often) in [(21, 2), (22, 3), (26, 3), (27, 4), (99, 4), (8, 1)] {
        assert_eq!(times(&cloth, &plain, 7, Some(length), &[14, 7, 0]), often, "{length}");
    }
    // At 10, 15 and 20, each 3 long.
    let marks = band(&[(2, 1, 2)]);
    for (length, often) in [(12, 1), (13, 1), (17, 1), (18, 2), (22, 2), (23, 3), (28, 4), (33, 4), (99, 4)] {
        assert_eq!(times(&cloth, &marks, 7, Some(length), &[0, 0, 7]), often, "{length}");
    }
}

/// The first row of these kinds in their order, and what is left.
fn first_row(width: i64, kinds: Vec<Rectangle>) -> (Vec<(usize, i64, i64)>, Vec<i64>) {
    let cloth = prepared(&[(width, None)], kinds);
    let shapes: Vec<usize> = cloth.items.iter().map(|item| item.shapes[0]).collect();
    let mut left = cloth.counts();
    let band = row(&cloth, 0, &shapes, &mut left);
    assert_eq!(band.times, 1);
    (columns(&cloth, &band), left)
}

#[test]
fn the_opener_says_how_long_a_row_is_and_others_are_stacked_beside_it() {
    // Of 20 the opener takes 7 twice; of the 6 left one of 2 in three columns, each two high, as 9 is.
    let (row, left) = first_row(20, vec![Rectangle::new(9, 7, 5), Rectangle::new(4, 2, 50)]);
    assert_eq!((row, left), (vec![(0, 1, 2), (1, 2, 3)], vec![3, 44]));
    // Of five, two whole columns and one of one.
    let (row, left) = first_row(20, vec![Rectangle::new(9, 7, 2), Rectangle::new(4, 2, 5)]);
    assert_eq!((row, left), (vec![(0, 1, 2), (1, 2, 2), (1, 1, 1)], vec![0, 0]));
    let (row, _) = first_row(18, vec![Rectangle::new(9, 7, 2), Rectangle::new(4, 2, 5)]);
    assert_eq!(row, [(0, 1, 2), (1, 2, 2)], "no width for the one");
    // Longer and wider ones are passed by, just fitting ones not.
    let kinds =
        vec![Rectangle::new(9, 7, 1), Rectangle::new(10, 2, 1), Rectangle::new(9, 14, 1), Rectangle::new(9, 13, 1)];
    assert_eq!(first_row(20, kinds), (vec![(0, 1, 1), (3, 1, 1)], vec![0, 1, 1, 0]));
}

#[test]
fn beside_an_opener_lie_pieces_with_its_marks_or_none() {
    let kinds = vec![marked(0, 5, 13, 4, 1), marked(0, 5, 3, 3, 9), marked(1, 5, 3, 3, 9), Rectangle::new(4, 2, 9)];
    // 3 at every fifth: three in 13.
    assert_eq!(first_row(9, kinds.clone()).0, [(0, 1, 1), (1, 3, 1), (3, 3, 1)]);
    let kinds = vec![kinds[3].clone(), kinds[1].clone(), Rectangle::new(2, 1, 9)];
    assert_eq!(first_row(9, kinds).0, [(0, 1, 4), (2, 2, 1)], "none beside an opener without");
}

#[test]
fn one_column_is_for_the_edge() {
    let kinds = vec![Rectangle::new(9, 4, 2), at_edge(3, 2, 7), at_edge(3, 1, 9), Rectangle::new(9, 1, 9)];
    assert_eq!(first_row(15, kinds.clone()).0, [(1, 3, 1), (0, 1, 2), (3, 1, 5)]);
    let kinds = vec![kinds[0].clone(), at_edge(3, 2, 2), kinds[3].clone()];
    assert_eq!(first_row(15, kinds).0, [(1, 2, 1), (0, 1, 2), (2, 1, 5)], "fewer than a column");
}

#[test]
fn two_hundred_kinds_are_tried_for_a_row() {
    for (others, is_tried) in [(198, true), (199, false)] {
        // All but the first and the last are too wide to lie beside the first; those used up do not count.
        let mut kinds = vec![Rectangle::new(9, 7, 1)];
        kinds.extend((0..others).map(|_| Rectangle::new(9, 14, 1)));
        kinds.extend((0..50).map(|_| Rectangle::new(0, 0, 0)));
        kinds.push(Rectangle::new(9, 6, 1));
        let cloth = prepared(&[(20, None)], kinds);
        let shapes: Vec<usize> = cloth.items.iter().filter_map(|item| item.shapes.first().copied()).collect();
        let row = row(&cloth, 0, &shapes, &mut cloth.counts());
        assert_eq!(row.stacks.len() == 2, is_tried, "{others}");
    }
}

#[test]
fn rows_are_opened_by_the_longest_on_each_stretch_in_turn() {
    let kinds = vec![Rectangle::new(9, 6, 5), Rectangle::new(4, 5, 2), Rectangle::new(3, 12, 1)];
    let cloth = prepared(&[(7, Some(20)), (12, None)], kinds);
    let plan = best(&cloth);
    let told: Vec<_> = plan.bands.iter().map(|band| (band.stretch, band.times, columns(&cloth, band))).collect();
    // Two rows of 9 on 20, each with one; on the rest two beside each other, one beside the two others, and the widest.
    let second = vec![(0, 1, 1), (1, 2, 1)];
    assert_eq!(told, [(0, 2, vec![(0, 1, 1)]), (1, 1, vec![(0, 1, 2)]), (1, 1, second), (1, 1, vec![(2, 1, 1)])]);
    assert_eq!((plan.missing, cloth.counts()), (vec![0, 0, 0], vec![5, 2, 1]));
    // From the first mark one of 9 ends at 19: no room for another.
    let cloth = prepared(&[(7, Some(19))], vec![marked(10, 9, 9, 6, 3)]);
    assert_eq!(best(&cloth).missing, [2]);
    let cloth = prepared(&[(7, Some(18))], vec![marked(9, 9, 9, 6, 3), Rectangle::new(8, 6, 1)]);
    assert_eq!(best(&cloth).missing, [2, 1]);
}

#[test]
fn the_better_of_short_and_narrow_is_taken() {
    // Upright 2 beside each other are 9 long; lying, three of 4 in 10 take 3 * 4 for three, which is worse.
    let length = |width: i64, count: i64| {
        let cloth = prepared(&[(width, None)], vec![turning(9, 4, count)]);
        best(&cloth).length(&cloth)
    };
    assert_eq!([length(9, 1), length(9, 2), length(9, 3)], [4, 8, 12], "lying");
    assert_eq!([length(12, 3), length(12, 6)], [9, 18], "narrow");
    // As good, the short one is taken.
    let cloth = prepared(&[(12, None)], vec![turning(3, 6, 2)]);
    let plan = best(&cloth);
    assert_eq!((plan.length(&cloth), cloth.shapes[plan.bands[0].stacks[0].piles[0].shape].turned), (3, false));
    // A kind that no longer fits in its preferred way lies in the other.
    let cloth = prepared(&[(9, Some(4)), (4, Some(9))], vec![turning(9, 4, 2)]);
    assert_eq!(best(&cloth).missing, [0]);
}
