//! Rows and columns filled by hand.

use super::*;
use crate::problem::{Rectangle, RectangleProblem};

fn prepared(width: i64, rectangles: Vec<Rectangle>) -> Prepared {
    Prepared::new(&RectangleProblem::endless(width, rectangles))
}

fn marked(along: i64, across: i64, count: i64, every: i64) -> Rectangle {
    Rectangle { starts: Some(Starts { first: 0, every }), ..Rectangle::new(along, across, count) }
}

fn at_edge(along: i64, across: i64, count: i64) -> Rectangle {
    Rectangle { at_edge: true, ..Rectangle::new(along, across, count) }
}

fn row(width: i64, along: i64) -> RowRequest {
    RowRequest { width, from: 0, along, overhang: 0, only_whole: true }
}

/// A column as its width, how often, and the kinds in it with how many of each.
type Told = (i64, i64, Vec<(usize, i64)>);

fn told(prepared: &Prepared, stack: &Stack) -> Told {
    let piles = stack.piles.iter().map(|pile| (prepared.shapes[pile.shape].item, pile.times));
    (stack.width, stack.times, piles.collect())
}

/// The columns of a row, and its value.
fn filled(prepared: &Prepared, request: RowRequest, values: &[i64]) -> (Vec<Told>, i64) {
    let mut left = prepared.counts();
    let (stacks, value) = Filler::new(prepared).fill(request, &mut left, values);
    assert_eq!(left, prepared.counts(), "left as it was");
    (stacks.iter().map(|stack| told(prepared, stack)).collect(), value)
}

#[test]
fn a_row_takes_the_most_value_that_lies_side_by_side() {
    // Two high and two side by side in 10; of the three pieces more, one column takes two.
    let cloth = prepared(10, vec![Rectangle::new(3, 4, 5)]);
    assert_eq!(filled(&cloth, row(10, 6), &[7]), (vec![(4, 2, vec![(0, 2)])], 28));
    assert_eq!(filled(&cloth, row(12, 6), &[7]), (vec![(4, 2, vec![(0, 2)]), (4, 1, vec![(0, 1)])], 35));
    // A single long piece is worth more than the two short ones in its place.
    let cloth = prepared(10, vec![Rectangle::new(3, 4, 9), Rectangle::new(6, 5, 1)]);
    assert_eq!(filled(&cloth, row(10, 6), &[7, 15]), (vec![(5, 1, vec![(1, 1)]), (4, 1, vec![(0, 2)])], 29));
    assert_eq!(filled(&cloth, row(10, 6), &[7, 14]).1, 28);
    // Nothing that is longer or wider than the row.
    assert_eq!(filled(&cloth, row(10, 5), &[7, 15]), (vec![(4, 2, vec![(0, 1)])], 14));
    assert_eq!(filled(&cloth, row(3, 6), &[7, 15]), (vec![], 0));
    assert_eq!(filled(&cloth, row(4, 3), &[7, 15]), (vec![(4, 1, vec![(0, 1)])], 7));
}

#[test]
fn a_narrow_piece_lies_in_a_wide_column() {
    let cloth = prepared(10, vec![Rectangle::new(3, 4, 1), Rectangle::new(4, 9, 1), Rectangle::new(3, 9, 1)]);
    assert_eq!(filled(&cloth, row(10, 7), &[12, 36, 27]), (vec![(9, 1, vec![(2, 1), (1, 1)])], 63));
    assert_eq!(filled(&cloth, row(10, 7), &[28, 36, 27]), (vec![(9, 1, vec![(0, 1), (1, 1)])], 64));
}

#[test]
fn a_piece_for_the_edge_lies_first_and_once_where_it_pays() {
    let both = |count: i64| vec![at_edge(6, 4, count), Rectangle::new(6, 3, 9)];
    // Beside the edge piece 6 are free for two others; without it three lie in 10.
    let cloth = prepared(10, both(2));
    let edge = vec![(4, 1, vec![(0, 1)]), (3, 2, vec![(1, 1)])];
    let plain = vec![(3, 3, vec![(1, 1)])];
    assert_eq!(filled(&cloth, row(10, 6), &[9, 8]), (edge, 25));
    assert_eq!(filled(&cloth, row(10, 6), &[7, 8]), (plain.clone(), 24));
    assert_eq!(filled(&cloth, row(10, 6), &[8, 8]), (plain, 24), "no gain");
    // Alone, one column is all.
    let alone = prepared(10, vec![at_edge(3, 4, 5)]);
    assert_eq!(filled(&alone, row(10, 6), &[9]), (vec![(4, 1, vec![(0, 2)])], 18));
    // Others lie in its column.
    let above = prepared(5, vec![at_edge(3, 4, 1), Rectangle::new(3, 4, 1)]);
    assert_eq!(filled(&above, row(5, 6), &[9, 8]).1, 17);
}

#[test]
fn where_columns_want_the_same_pieces_the_widest_gets_them() {
    // The column of 6 takes a piece of the first kind, the column of 4 two, of which only one is left then: one long
    // piece is worth more.
    let kinds = vec![Rectangle::new(3, 4, 2), Rectangle::new(3, 6, 1), Rectangle::new(6, 4, 1)];
    let cloth = prepared(10, kinds);
    let first = (6, 1, vec![(0, 1), (1, 1)]);
    let values = [10, 15, 19];
    assert_eq!(filled(&cloth, row(10, 6), &values), (vec![first.clone(), (4, 1, vec![(2, 1)])], 44));
    let shortened = RowRequest { only_whole: false, ..row(10, 6) };
    assert_eq!(filled(&cloth, shortened, &values), (vec![first, (4, 1, vec![(0, 1)])], 35));
}

#[test]
fn the_choices_looked_at_are_those_of_all_knapsacks() {
    // Five pieces, two high and two side by side. The columns: one kind looked at, then one choice kept and one made,
    // then two kept and two made. The row: the same of columns. With 2 left, one kind looked at, which is too wide.
    let cloth = prepared(10, vec![Rectangle::new(3, 4, 5)]);
    let mut filler = Filler::new(&cloth);
    filler.fill(row(10, 6), &mut [5], &[7]);
    assert_eq!(filler.looked(), (1 + 2 + 4) + (2 + 4) + 1);
    assert_eq!(filler.looked(), 0);
    // For the edge the columns alone, without it the kind is passed by, and again beside its column.
    let cloth = prepared(10, vec![at_edge(3, 4, 5)]);
    let mut filler = Filler::new(&cloth);
    filler.fill(row(10, 6), &mut [5], &[7]);
    assert_eq!(filler.looked(), (1 + 2 + 4) + 1 + 1);
}

#[test]
fn pieces_with_marks_take_whole_repeats_and_the_way_to_the_first() {
    // They are 3 long and begin at every fifth: from 0 two take 10, or 8 if the last may reach into its repeat.
    let cloth = prepared(4, vec![marked(3, 4, 9, 5)]);
    for (from, along, overhang, many) in [
        (0, 10, 0, 2),
        (0, 9, 0, 1),
        (0, 9, 1, 2),
        (0, 8, 2, 2),
        (0, 7, 3, 1),
        (0, 4, 0, 0),
        (2, 8, 0, 1),
        (2, 7, 0, 0),
        (2, 7, 1, 1),
        (2, 15, 1, 2),
    ] {
        let request = RowRequest { from, overhang, ..row(4, along) };
        let columns = if many > 0 { vec![(4, 1, vec![(0, many)])] } else { vec![] };
        assert_eq!(filled(&cloth, request, &[12]), (columns, 12 * many), "{from} {along} {overhang}");
    }
    assert_eq!([(10, 0), (9, 1), (6, 4), (3, 2)].map(|(along, _)| overhang(&cloth, along)), [0, 1, 4, 2]);
    assert_eq!(overhang(&prepared(4, vec![Rectangle::new(3, 4, 9)]), 7), 0);
}

/// The column of these piles, of kinds with one shape, after its gaps are filled from `left`.
fn with_gaps(prepared: &Prepared, piles: &[(usize, i64)], left: &[i64]) -> Vec<(usize, i64)> {
    let pile = |&(item, times): &(usize, i64)| Pile { shape: prepared.items[item].shapes[0], times };
    let mut stack = Stack { width: 9, piles: piles.iter().map(pile).collect(), times: 1 };
    Filler::new(prepared).fill_gaps(&mut stack, left);
    told(prepared, &stack).2
}

#[test]
fn pieces_without_marks_lie_before_the_next_mark() {
    // 6 long at every tenth: 4 are free behind each but the last.
    let kinds = vec![
        marked(6, 8, 9, 10),
        Rectangle::new(4, 8, 9),
        Rectangle::new(3, 5, 9),
        Rectangle::new(1, 8, 99),
        Rectangle::new(5, 8, 9),
        Rectangle::new(4, 9, 9),
        at_edge(4, 8, 9),
        marked(7, 8, 9, 10),
    ];
    let cloth = prepared(20, kinds);
    let of = |piles: &[(usize, i64)], left: [i64; 5]| {
        with_gaps(&cloth, piles, &[9, left[0], left[1], left[2], left[3], left[4], 9, 9])
    };
    assert_eq!(of(&[(0, 3)], [9, 9, 9, 9, 9]), [(0, 1), (1, 1), (0, 1), (1, 1), (0, 1)], "the longest");
    assert_eq!(of(&[(0, 3)], [1, 0, 0, 9, 9]), [(0, 1), (1, 1), (0, 2)], "as many as there are");
    assert_eq!(of(&[(0, 2)], [0, 9, 9, 9, 9]), [(0, 1), (2, 1), (3, 1), (0, 1)], "two in a gap");
    assert_eq!(of(&[(0, 2)], [0, 0, 9, 9, 9]), [(0, 1), (3, 4), (0, 1)], "several in a gap");
    assert_eq!(of(&[(0, 3)], [0, 0, 6, 9, 9]), [(0, 1), (3, 4), (0, 1), (3, 2), (0, 1)]);
    assert_eq!(of(&[(0, 3)], [0, 0, 0, 9, 9]), [(0, 3)], "too long and too wide ones not");
    assert_eq!(of(&[(0, 2), (1, 1)], [1, 0, 0, 9, 9]), [(0, 2), (1, 1)], "nor what lies in the column");
    assert_eq!(of(&[(0, 2), (3, 2)], [9, 0, 2, 9, 9]), [(0, 1), (1, 1), (0, 1), (3, 2)], "nor before what has none");
    // Where another kind with marks follows, the way behind the last of the first is free, too: 4, and 3 behind that.
    let two = of(&[(0, 2), (7, 2)], [0, 9, 0, 0, 0]);
    assert_eq!(two, [(0, 1), (2, 1), (0, 1), (2, 1), (7, 1), (2, 1), (7, 1)]);
    // Without a gap nothing is done.
    assert_eq!(of(&[(1, 3), (3, 2)], [9, 9, 9, 9, 9]), [(1, 3), (3, 2)]);
}

#[test]
fn sixty_four_gaps_are_filled_at_the_most() {
    let cloth = prepared(8, vec![marked(6, 8, 100, 10), Rectangle::new(4, 8, 200)]);
    let piles = with_gaps(&cloth, &[(0, 100)], &[100, 200]);
    let of = |kind: usize| piles.iter().filter(|(item, _)| *item == kind).map(|(_, times)| times).sum::<i64>();
    assert_eq!((of(0), of(1), piles.len()), (100, 64, 2 * 64 + 1));
}

/// The column of the chosen shapes, wanted so often, from `left`.
fn column(prepared: &Prepared, request: RowRequest, chosen: &[(usize, i64)], times: i64, left: &[i64]) -> Option<Told> {
    let mut filler = Filler::new(prepared);
    filler.chosen = chosen.to_vec();
    filler.stack(request, 9, times, left).map(|stack| told(prepared, &stack))
}

#[test]
fn a_column_is_made_as_often_as_there_are_pieces() {
    let cloth = prepared(20, vec![Rectangle::new(3, 4, 9), Rectangle::new(5, 7, 9)]);
    let of = |chosen: &[(usize, i64)], times: i64, left: &[i64]| column(&cloth, row(20, 30), chosen, times, left);
    // Shapes lie by width: the index of each is that of its kind.
    assert_eq!(of(&[(1, 1), (0, 2)], 3, &[9, 9]), Some((7, 3, vec![(0, 2), (1, 1)])));
    assert_eq!(of(&[(1, 1), (0, 2)], 3, &[5, 9]), Some((7, 2, vec![(0, 2), (1, 1)])));
    assert_eq!(of(&[(1, 1), (0, 2)], 9, &[9, 3]), Some((7, 3, vec![(0, 2), (1, 1)])));
    assert_eq!(of(&[(1, 1), (0, 2)], 3, &[1, 9]), Some((7, 1, vec![(0, 1), (1, 1)])), "shortened");
    assert_eq!(of(&[(1, 1), (0, 2)], 3, &[9, 0]), Some((4, 3, vec![(0, 2)])), "and narrower");
    assert_eq!(of(&[(1, 1), (0, 2)], 3, &[0, 0]), None);
}

#[test]
fn both_orientations_of_a_kind_take_from_the_same_pieces() {
    let turning = Rectangle { quarter: true, ..Rectangle::new(3, 4, 9) };
    let cloth = prepared(20, vec![turning]);
    let of = |times: i64, left: i64| column(&cloth, row(20, 30), &[(0, 2), (1, 3)], times, &[left]);
    assert_eq!(of(1, 5), Some((4, 1, vec![(0, 2), (0, 3)])));
    assert_eq!(of(3, 9), Some((4, 1, vec![(0, 2), (0, 3)])));
    assert_eq!(of(3, 10), Some((4, 2, vec![(0, 2), (0, 3)])));
    assert_eq!(of(1, 4), Some((4, 1, vec![(0, 2), (0, 2)])));
    assert_eq!(of(1, 2), Some((3, 1, vec![(0, 2)])));
}

#[test]
fn a_column_with_marks_begins_with_the_least_waste_and_is_cut_to_the_row() {
    // By waste behind each: 7 at every 10 wastes 3, 6 wastes 4; without marks comes last.
    let kinds = vec![Rectangle::new(5, 4, 9), marked(6, 5, 9, 10), marked(7, 6, 9, 10), Rectangle::new(4, 3, 9)];
    let cloth = prepared(20, kinds);
    let shape = |item: usize| cloth.items[item].shapes[0];
    let chosen: Vec<(usize, i64)> =
        [(0, 1), (1, 2), (2, 1)].iter().map(|&(item, times)| (shape(item), times)).collect();
    let of = |along: i64, from: i64, times: i64| {
        column(&cloth, RowRequest { from, ..row(20, along) }, &chosen, times, &[9, 9, 9, 0])
    };
    // 0..7, 10..16, 20..26, 26..31.
    assert_eq!(of(31, 0, 2), Some((6, 2, vec![(2, 1), (1, 2), (0, 1)])));
    assert_eq!(of(30, 0, 2), Some((6, 2, vec![(2, 1), (1, 2)])));
    assert_eq!(of(25, 0, 2), Some((6, 2, vec![(2, 1), (1, 1)])));
    assert_eq!(of(15, 0, 2), Some((6, 2, vec![(2, 1)])));
    assert_eq!(of(6, 0, 2), None);
    // From 8 the first lies at 10..17, the last at 36..41.
    assert_eq!(of(33, 8, 2), Some((6, 2, vec![(2, 1), (1, 2), (0, 1)])));
    assert_eq!(of(32, 8, 2), Some((6, 2, vec![(2, 1), (1, 2)])));
    // A column made once has pieces in its gaps: 4 behind the first of the 6, and no 3.
    let once = column(&cloth, row(20, 31), &chosen, 1, &[9, 9, 9, 9]);
    assert_eq!(once, Some((6, 1, vec![(2, 1), (1, 1), (3, 1), (1, 1), (0, 1)])));
}
