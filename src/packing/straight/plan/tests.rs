//! Where columns and rows end, and which plan is better, by hand.

use super::*;
use crate::problem::{Rectangle, RectangleProblem, Stretch};

fn prepared(stretches: &[(i64, Option<i64>)], loss: i64, rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss })
}

fn marked(first: i64, every: i64, along: i64) -> Rectangle {
    Rectangle { starts: Some(Starts { first, every }), ..Rectangle::new(along, 4, 9) }
}

/// A column of piles, each of a kind with one shape and so many pieces.
fn stack(prepared: &Prepared, piles: &[(usize, i64)], times: i64) -> Stack {
    let pile = |&(item, times): &(usize, i64)| Pile { shape: prepared.items[item].shapes[0], times };
    Stack { width: 4, piles: piles.iter().map(pile).collect(), times }
}

#[test]
fn a_column_ends_with_its_last_piece() {
    let cloth = prepared(&[(20, None)], 0, vec![marked(2, 5, 3), Rectangle::new(6, 4, 9), marked(0, 5, 8)]);
    let end = |piles: &[(usize, i64)], from: i64| stack(&cloth, piles, 7).end(&cloth, from);
    assert_eq!([end(&[(1, 3)], 4), end(&[], 4)], [22, 4]);
    // At 7, 12 and 17; at 2; then one of 6 behind it, then again at a mark.
    assert_eq!([end(&[(0, 3)], 4), end(&[(0, 1)], 0), end(&[(0, 1)], 7), end(&[(0, 1)], 8)], [20, 5, 10, 15]);
    assert_eq!(end(&[(0, 1), (1, 1), (0, 1)], 0), 15);
    // One of 8 at every tenth.
    assert_eq!(end(&[(2, 2)], 1), 5 + 10 + 8);
}

#[test]
fn a_row_has_its_edge_column_first_and_is_as_long_as_its_longest() {
    let edge = Rectangle { at_edge: true, ..Rectangle::new(2, 4, 9) };
    let cloth = prepared(&[(20, None)], 0, vec![Rectangle::new(6, 4, 9), edge, marked(2, 5, 3)]);
    let columns = [stack(&cloth, &[(0, 2)], 1), stack(&cloth, &[(0, 1), (1, 1)], 1), stack(&cloth, &[(0, 1)], 2)];
    let band = Band::new(&cloth, 0, columns.to_vec(), 3);
    assert_eq!((band.along, band.is_marked, band.times), (12, false, 3));
    assert_eq!(band.stacks, [columns[1].clone(), columns[0].clone(), columns[2].clone()]);
    let marks = Band::new(&cloth, 0, vec![columns[0].clone(), stack(&cloth, &[(0, 1), (2, 1)], 1)], 3);
    assert_eq!((marks.along, marks.is_marked), (12, true), "at 7, behind the one of 6");
    assert_eq!([band.end(&cloth, 9), marks.end(&cloth, 9)], [21, 21]);
    assert_eq!(marks.end(&cloth, 4), 16, "6 to 10, then 12 to 15 beside 4 to 16");
    let mut counts = vec![0; 3];
    Band::new(&cloth, 0, vec![stack(&cloth, &[(0, 2), (1, 3)], 5), stack(&cloth, &[(0, 4)], 1)], 7)
        .each(&cloth, |item, count| counts[item] += count);
    assert_eq!(counts, [2 * 5 + 4, 3 * 5, 0]);
}

#[test]
fn rows_end_where_they_do_one_by_one() {
    let kinds = vec![marked(7, 5, 3), Rectangle::new(6, 4, 9), marked(7, 5, 8)];
    let shared = prepared(&[(20, None)], 0, kinds.clone());
    // Another distance, so that no repeat is shared.
    let unlike = prepared(&[(20, None)], 0, [kinds, vec![marked(0, 6, 3)]].concat());
    assert_eq!((shared.repeat, unlike.repeat), (Some(5), None));
    for cloth in [&shared, &unlike] {
        let end = |piles: &[(usize, i64)], times: i64, from: i64| {
            Band::new(cloth, 0, vec![stack(cloth, piles, 1)], times).last_end(cloth, from)
        };
        assert_eq!([end(&[(1, 1)], 3, 5), end(&[(1, 2)], 3, 5)], [23, 41], "without marks");
        // At 7, 12 and 17: the first ends at 10, two repeats from where the cloth begins, yet the next follow by one.
        assert_eq!(
            [end(&[(0, 1)], 1, 0), end(&[(0, 1)], 2, 0), end(&[(0, 1)], 3, 0), end(&[(0, 1)], 6, 0)],
            [10, 15, 20, 35]
        );
        assert_eq!([end(&[(0, 1)], 3, 8), end(&[(0, 1)], 4, 11)], [25, 30]);
        // At 7, 17 and 27, each 8; and each 3 with 6 behind, from 7 to 16, from 17 to 26.
        assert_eq!([end(&[(2, 1)], 3, 0), end(&[(0, 1), (1, 1)], 3, 3)], [35, 36]);
        assert_eq!(end(&[(0, 1)], 0, 4), 4);
    }
}

#[test]
fn a_plan_is_as_long_as_its_rows_on_the_last_stretch_without_the_last_loss() {
    let cloth = prepared(&[(20, Some(99)), (20, None)], 2, vec![Rectangle::new(6, 4, 9), Rectangle::new(3, 5, 9)]);
    let band = |stretch: usize, item: usize, times: i64| {
        Band::new(&cloth, stretch, vec![stack(&cloth, &[(item, 1)], 1)], times)
    };
    let plan = |bands: Vec<Band>, missing: [i64; 2]| Plan { bands, missing: missing.to_vec() };
    let both = plan(vec![band(0, 0, 3), band(1, 1, 2), band(0, 1, 1), band(1, 0, 1)], [0, 0]);
    // 3 * 8 + 5 on the first, 2 * 5 + 8 on the last.
    assert_eq!((both.ends(&cloth), both.length(&cloth)), (vec![29, 18], 16));
    assert_eq!(both.measure(&cloth), (0, 1, 18));
    let first = plan(vec![band(0, 0, 3)], [2, 3]);
    assert_eq!((first.length(&cloth), first.measure(&cloth)), (0, (2 * 8 * 4 + 3 * 5 * 5, 0, 24)));
    // Where each stretch ends, the last used counts by its place.
    let stretches = [(20, Some(99)), (20, Some(99)), (20, Some(99)), (20, Some(99))];
    let ended = prepared(&stretches, 2, vec![Rectangle::new(6, 4, 9), Rectangle::new(3, 5, 9)]);
    assert_eq!(plan(vec![band(2, 0, 3), band(0, 0, 9)], [0, 0]).measure(&ended), (0, 2, 24));
    assert_eq!(plan(vec![], [0, 1]).measure(&ended), (25, 0, 0));
    // With an endless one behind them all stretches that end count alike.
    let mixed = prepared(&[(20, Some(99)), (20, Some(99)), (20, None)], 2, vec![Rectangle::new(6, 4, 9)]);
    assert_eq!(plan(vec![band(1, 0, 3)], [0, 0]).measure(&mixed), (0, 0, 24));
    assert_eq!(plan(vec![band(2, 0, 3)], [0, 0]).measure(&mixed), (0, 2, 24));
}

#[test]
fn a_row_that_does_not_advance_by_whole_repeats_is_laid_one_by_one() {
    // One of 5 at every fifth beside one of 7 without marks: to 7; from 10 to 15; to 22 and from 15 to 20; from 25 to 30.
    let cloth = prepared(&[(20, None)], 0, vec![marked(0, 5, 5), Rectangle::new(7, 4, 9)]);
    let columns = vec![stack(&cloth, &[(0, 1)], 1), stack(&cloth, &[(1, 1)], 1)];
    let ends = [1, 2, 3, 4, 5].map(|times| Band::new(&cloth, 0, columns.clone(), times).last_end(&cloth, 0));
    assert_eq!(ends, [7, 15, 22, 30, 37]);
}
