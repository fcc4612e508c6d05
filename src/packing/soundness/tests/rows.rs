//! Rectangles in rows, cut by straight cuts from edge to edge.

use crate::problem::{Rectangle, RectangleProblem, Stretch};
use crate::solution::{Column, Row, RowSolution, Run, Turn};
use crate::soundness::rows;

const ROWS: Result<(), &str> = Err("rows overlap");
const COLUMNS: Result<(), &str> = Err("columns overlap");
const COLUMN: Result<(), &str> = Err("pieces overlap in a column");

fn problem() -> RectangleProblem {
    RectangleProblem {
        stretches: vec![Stretch { width: 30, length: Some(200) }, Stretch::endless(26)],
        rectangles: vec![Rectangle::new(8, 5, 18), Rectangle { quarter: true, ..Rectangle::new(9, 7, 15) }],
        loss: 3,
    }
}

fn run(item: usize, turn: Turn, from: i64, times: i64, apart: i64) -> Run {
    Run { item, turn, from, times, apart }
}

/// Three rows of 32 from 4 to 106, two of 9 from 109 to 130 and, on the other stretch, one of 9; everywhere 3 apart.
/// A long row has two columns with three of the first rectangle, 2..10, 13..21 and 24..32, and a column with two of
/// the second, 0..9 and, turned, 12..19.
fn solution() -> RowSolution {
    let column = |across, width, times, runs: Vec<Run>| Column { across, width, times, runs };
    let long = vec![
        column(0, 5, 2, vec![run(0, Turn::None, 2, 3, 11)]),
        column(10, 9, 1, vec![run(1, Turn::None, 0, 1, 0), run(1, Turn::Quarter, 12, 1, 0)]),
    ];
    let short = vec![column(2, 7, 4, vec![run(1, Turn::None, 0, 1, 0)])];
    let single = vec![column(3, 7, 1, vec![run(1, Turn::None, 0, 1, 0)])];
    let row = |stretch, from, along, used, times, apart, columns: Vec<Column>| Row {
        stretch,
        from,
        along,
        used,
        times,
        apart,
        columns,
    };
    RowSolution {
        rows: vec![row(0, 4, 32, 19, 3, 35, long), row(0, 109, 9, 30, 2, 12, short), row(1, 0, 9, 10, 1, 0, single)],
        length: 9,
        unplaced: Vec::new(),
        bound: 9,
        proved: true,
    }
}

type Case = (fn(&mut RectangleProblem, &mut RowSolution), Result<(), &'static str>);

fn hold(cases: &[Case]) {
    for (at, (change, expected)) in cases.iter().enumerate() {
        let (mut problem, mut solution) = (problem(), solution());
        change(&mut problem, &mut solution);
        assert_eq!(rows(&problem, &solution), *expected, "case {at}");
    }
}

#[test]
fn rows_keep_the_loss_between_them() {
    hold(&[
        (|_, _| {}, Ok(())),
        (|_, solution| solution.rows[1].from = 110, Ok(())),
        (|_, solution| solution.rows[1].from = 108, ROWS),
        (|_, solution| solution.rows[0].from = 5, ROWS),
        (|_, solution| solution.rows[0].apart = 34, ROWS),
        (|_, solution| solution.rows[1].apart = 11, ROWS),
        (|_, solution| solution.rows[1].apart = 13, Ok(())),
        (|problem, _| problem.loss = 2, Ok(())),
        // On another stretch a row may begin at once, and before what was last.
        (|_, solution| solution.rows[2].from = 1, Err("not the length it says")),
        (|_, solution| solution.rows.swap(1, 2), Err("stretches out of order")),
        (|_, solution| solution.rows.swap(0, 1), ROWS),
    ]);
}

#[test]
fn a_row_has_columns_and_is_there() {
    hold(&[
        (
            |_, solution| {
                let nothing = Row { from: 30, times: 0, apart: 12, ..solution.rows[2].clone() };
                solution.rows.push(nothing);
            },
            Err("an empty row"),
        ),
        (
            |_, solution| {
                let nothing = Row { from: 30, columns: Vec::new(), ..solution.rows[2].clone() };
                solution.rows.push(nothing);
            },
            Err("an empty row"),
        ),
    ]);
}

#[test]
fn columns_lie_side_by_side_within_their_row() {
    hold(&[
        (|_, solution| solution.rows[1].used = 31, Err("a row wider than its stretch")),
        (|problem, _| problem.stretches[0].width = 31, Ok(())),
        // The second column ends at 19, the four of the short row at 30.
        (|_, solution| solution.rows[0].used = 18, Err("a column out of its row")),
        (|_, solution| solution.rows[1].used = 29, Err("a column out of its row")),
        (|_, solution| solution.rows[0].columns[1].across = 9, COLUMNS),
        (
            |_, solution| {
                solution.rows[0].columns[1].across = 11;
                solution.rows[0].used = 20;
            },
            Ok(()),
        ),
        (|_, solution| solution.rows[0].columns[1].across = 11, Err("a column out of its row")),
        (|_, solution| solution.rows[1].columns[0].across = 3, Err("outside its stretch")),
        (
            |_, solution| {
                let nothing = Column { across: 19, times: 0, ..solution.rows[0].columns[1].clone() };
                solution.rows[0].columns.push(nothing);
            },
            COLUMNS,
        ),
    ]);
}

#[test]
fn pieces_are_stacked_with_the_loss_between_them() {
    hold(&[
        (|_, solution| solution.rows[0].columns[0].runs[0].apart = 10, COLUMN),
        (|_, solution| solution.rows[0].columns[0].runs[0].from = 1, Ok(())),
        // The last of three ends at 32.
        (|_, solution| solution.rows[0].columns[0].runs[0].from = 3, Err("a piece out of its row")),
        (|_, solution| solution.rows[0].columns[0].runs[0].apart = 12, Err("a piece out of its row")),
        (|_, solution| solution.rows[0].columns[1].runs[1].from = 11, COLUMN),
        (|_, solution| solution.rows[0].columns[1].runs[1].from = 25, Ok(())),
        (|_, solution| solution.rows[0].columns[1].runs[1].from = 26, Err("a piece out of its row")),
        // Two in a run: 1..9 and 12..20 would do for the first rectangle, 1..9 and 11..19 do not.
        (
            |problem, solution| {
                problem.rectangles[0].count = 12;
                solution.rows[0].columns[0].runs[0] = run(0, Turn::None, 1, 2, 11);
            },
            Ok(()),
        ),
        (
            |problem, solution| {
                problem.rectangles[0].count = 12;
                solution.rows[0].columns[0].runs[0] = run(0, Turn::None, 1, 2, 10);
            },
            COLUMN,
        ),
        // What comes after a run of several begins after its last: 21 and 3.
        (
            |problem, solution| {
                problem.rectangles[0].count = 18;
                solution.rows[0].columns[0].runs = vec![run(0, Turn::None, 2, 2, 11), run(0, Turn::None, 24, 1, 0)];
            },
            Ok(()),
        ),
        (
            |problem, solution| {
                problem.rectangles[0].count = 18;
                solution.rows[0].columns[0].runs = vec![run(0, Turn::None, 2, 2, 11), run(0, Turn::None, 23, 1, 0)];
            },
            COLUMN,
        ),
        (|_, solution| solution.rows[0].columns[1].runs.push(run(1, Turn::None, 22, 0, 12)), COLUMN),
        (
            |_, solution| solution.rows[0].columns[1].runs.push(run(2, Turn::None, 22, 0, 12)),
            Err("a rectangle that there is not"),
        ),
    ]);
}

#[test]
fn a_column_is_as_wide_as_its_widest_piece() {
    hold(&[
        (|_, solution| solution.rows[0].columns[0].width = 4, Err("a piece wider than its column")),
        // Turned, the second rectangle is 9 wide.
        (|_, solution| solution.rows[0].columns[1].width = 8, Err("a piece wider than its column")),
        (|_, solution| solution.rows[2].columns[0].width = 6, Err("a piece wider than its column")),
    ]);
}

#[test]
fn the_length_and_its_bound_are_those_of_an_endless_last_stretch() {
    hold(&[
        (|_, solution| solution.length = 8, Err("not the length it says")),
        (|_, solution| solution.length = 10, Err("not the length it says")),
        (|_, solution| solution.bound = 10, Err("a bound above the length")),
        (|_, solution| solution.bound = 8, Err("proved without a bound")),
        (|_, solution| (solution.bound, solution.proved) = (8, false), Ok(())),
        (|_, solution| solution.proved = false, Ok(())),
        // A stretch with an end has no bound on its length.
        (
            |problem, solution| {
                problem.stretches[1].length = Some(9);
                solution.bound = 10;
            },
            Ok(()),
        ),
        (
            |problem, solution| {
                problem.stretches[1].length = Some(9);
                solution.bound = 8;
            },
            Ok(()),
        ),
        (|problem, _| problem.rectangles[0].count = 19, Err("not as many pieces as wanted")),
    ]);
}
