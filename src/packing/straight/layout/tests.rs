//! Rows with their positions, by hand.

use super::super::plan::Pile;
use super::*;
use crate::problem::{Rectangle, RectangleProblem, Stretch};

fn prepared(stretches: &[(i64, Option<i64>)], loss: i64, rectangles: Vec<Rectangle>) -> Prepared {
    let stretches = stretches.iter().map(|&(width, length)| Stretch { width, length }).collect();
    Prepared::new(&RectangleProblem { stretches, rectangles, loss })
}

fn marked(first: i64, every: i64, along: i64, across: i64) -> Rectangle {
    Rectangle { starts: Some(Starts { first, every }), ..Rectangle::new(along, across, 9) }
}

fn stack(prepared: &Prepared, width: i64, piles: &[(usize, i64)], times: i64) -> Stack {
    let pile = |&(item, times): &(usize, i64)| Pile { shape: prepared.items[item].shapes[0], times };
    Stack { width, piles: piles.iter().map(pile).collect(), times }
}

#[test]
fn rows_without_marks_follow_one_another() {
    let turned = Rectangle { quarter: true, ..Rectangle::new(25, 9, 9) };
    let cloth =
        prepared(&[(20, Some(90)), (20, None)], 2, vec![Rectangle::new(6, 4, 9), Rectangle::new(3, 5, 9), turned]);
    let wide = stack(&cloth, 5, &[(1, 1), (0, 2)], 3);
    let narrow = stack(&cloth, 4, &[(0, 1)], 1);
    // Bands of the first stretch come first, whatever their order.
    let bands = vec![
        Band::new(&cloth, 1, vec![narrow.clone()], 4),
        Band::new(&cloth, 0, vec![wide, narrow.clone()], 2),
        Band::new(&cloth, 0, vec![narrow], 1),
    ];
    let plan = Plan { bands, missing: vec![0, 7, 3] };
    let solution = solution(&cloth, &plan, 11, true).expect("a sound plan");
    let rows: Vec<_> =
        solution.rows.iter().map(|row| (row.stretch, row.from, row.along, row.used, row.times, row.apart)).collect();
    // 3 + 2 + 2 * 8 = 21 long with the losses, 19 without the last.
    assert_eq!(rows, [(0, 0, 19, 19, 2, 21), (0, 42, 6, 4, 1, 8), (1, 0, 6, 4, 4, 8)]);
    let run = |item, from, times, apart| Run { item, turn: Turn::None, from, times, apart };
    let columns = [
        Column { across: 0, width: 5, times: 3, runs: vec![run(1, 0, 1, 5), run(0, 5, 2, 8)] },
        Column { across: 15, width: 4, times: 1, runs: vec![run(0, 0, 1, 8)] },
    ];
    assert_eq!(solution.rows[0].columns, columns);
    assert_eq!((solution.length, solution.bound, solution.proved), (4 * 8 - 2, 11, true));
    assert_eq!(solution.unplaced, [(1, 7), (2, 3)]);
}

#[test]
fn a_piece_is_placed_turned_and_what_fits_nowhere_is_left_out_with_what_is_missing() {
    let turning = Rectangle { quarter: true, ..Rectangle::new(5, 12, 9) };
    let cloth = prepared(&[(10, None)], 0, vec![turning, Rectangle::new(3, 11, 4)]);
    let bands = vec![Band::new(&cloth, 0, vec![stack(&cloth, 5, &[(0, 1)], 2)], 3)];
    let solution = solution(&cloth, &Plan { bands, missing: vec![3, 0] }, 0, false).expect("a sound plan");
    assert_eq!(solution.rows[0].columns[0].runs, [Run { item: 0, turn: Turn::Quarter, from: 0, times: 1, apart: 12 }]);
    assert_eq!((solution.length, solution.unplaced), (36, vec![(0, 3), (1, 4)]));
    // One that is not known, a column of nothing, and rows beyond all numbers.
    let bad = |piles: Vec<Pile>, times: i64| {
        let band =
            Band { stretch: 0, stacks: vec![Stack { width: 5, piles, times: 1 }], times, along: 12, is_marked: false };
        super::solution(&cloth, &Plan { bands: vec![band], missing: vec![0, 0] }, 0, false)
    };
    assert!(bad(vec![Pile { shape: 9, times: 1 }], 1).is_none() && bad(Vec::new(), 1).is_none());
    assert!(bad(vec![Pile { shape: 0, times: 1 }], i64::MAX).is_none());
}

#[test]
fn rows_with_marks_begin_with_their_first_piece_and_are_told_together_where_alike() {
    let cloth = prepared(&[(20, None)], 1, vec![marked(2, 10, 6, 4), Rectangle::new(2, 5, 9), marked(2, 5, 2, 4)]);
    // With the loss 7 and 3. Beside the marks, what has none begins where the cloth is free.
    let bands = vec![
        Band::new(&cloth, 0, vec![stack(&cloth, 4, &[(0, 1)], 1), stack(&cloth, 4, &[(2, 2)], 2)], 3),
        Band::new(&cloth, 0, vec![stack(&cloth, 4, &[(0, 1)], 1), stack(&cloth, 5, &[(1, 1)], 1)], 1),
    ];
    let solution = solution(&cloth, &Plan { bands, missing: vec![0, 0, 0] }, 0, false).expect("a sound plan");
    let rows: Vec<_> = solution.rows.iter().map(|row| (row.from, row.along, row.used, row.times, row.apart)).collect();
    // From 2 to 9 and from 7 to 10: so from 2, at 12 and at 22, then from 30 to 33 and from 32 to 39.
    assert_eq!(rows, [(2, 7, 12, 3, 10), (30, 8, 9, 1, 9)]);
    let from = |row: usize, column: usize| solution.rows[row].columns[column].runs[0].from;
    assert_eq!([from(0, 0), from(0, 1), from(1, 0), from(1, 1)], [0, 0, 2, 0]);
    assert_eq!(solution.rows[0].columns[1].runs[0], Run { item: 2, turn: Turn::None, from: 0, times: 2, apart: 5 });
    assert_eq!(solution.length, 38);
}

#[test]
fn equal_rows_at_equal_distances_are_one_entry() {
    let row = |from: i64| {
        let runs = vec![Run { item: 0, turn: Turn::None, from: 0, times: 1, apart: 4 }];
        let columns = vec![Column { across: 0, width: 5, times: 1, runs }];
        Row { stretch: 0, from, along: 3, used: 5, times: 1, apart: 4, columns }
    };
    let mut rows = Vec::new();
    for from in [0, 5, 10, 15, 22, 29, 33] {
        push(&mut rows, row(from));
    }
    let told: Vec<_> = rows.iter().map(|row| (row.from, row.times, row.apart)).collect();
    assert_eq!(told, [(0, 4, 5), (22, 2, 7), (33, 1, 4)]);
    let mut other = row(5);
    other.columns[0].runs[0].item = 1;
    let others = [Row { stretch: 1, ..row(5) }, Row { along: 2, ..row(5) }, Row { used: 4, ..row(5) }, other];
    for other in others {
        let mut rows = vec![row(0)];
        push(&mut rows, other);
        assert_eq!(rows.len(), 2);
    }
}
