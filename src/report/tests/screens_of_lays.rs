//! Cloth on a screen, counted out by hand: a character is twice as high as it is wide, and a cloth takes 7 to 16 lines.

use super::super::drawn_lay::{DrawnCut, DrawnLength, DrawnRest};
use super::super::lay_text::lay_text;
use super::lays::{cloth, cut, rest, style};

fn drawn(length: DrawnLength, width: usize) -> Vec<String> {
    lay_text(&[length], &style(), false, width)
}

fn piece(letter: &str, from: f64, along: f64, across: f64) -> DrawnCut {
    DrawnCut { size: "so big".to_owned(), ..cut(letter, &format!("piece {letter}"), (from, 0.0), (along, across)) }
}

/// By counting: of 60 used and 40 wide, 60 × 1.1 + 40 × 0.1 = 70 are drawn. In 70 columns they would be 20 lines, more than
/// 16, which take 70 × 16 × 2 / 40 = 56 columns, 48 of them for the piece.
#[test]
fn the_beginning_of_a_long_rest_is_drawn() {
    let lost = DrawnRest { kept: false, ..rest((60.0, 200.0), (0.0, 40.0)) };
    let length = DrawnLength { rests: vec![lost], ..cloth((200.0, 60.0), 40.0, vec![piece("A", 0.0, 60.0, 40.0)]) };
    let lines = drawn(length, 72);
    assert_eq!(lines.len(), 1 + 17 + 2);
    assert_eq!(lines[1], format!("+{}+{}+", "-".repeat(47), "-".repeat(7)));
    assert_eq!(lines[2], format!("|{}|{}|", " ".repeat(47), ".".repeat(7)));
    assert_eq!(lines[17], lines[1]);
    assert_eq!(lines[18], "the rest of it is not drawn");
    // A rest that ends sooner is drawn whole.
    let whole = drawn(cloth((69.0, 60.0), 40.0, vec![piece("A", 0.0, 60.0, 40.0)]), 72);
    assert!(!whole.iter().any(|line| line.contains("not drawn")));
}

/// By counting: 100 by 20 in 50 columns would be 5 lines, so that it is broken into two parts of 50 with 10 lines and 50
/// columns each. The piece from 40 to 70 goes on in the second.
#[test]
fn a_long_cloth_is_broken_into_parts() {
    let cuts = vec![piece("A", 0.0, 40.0, 20.0), piece("B", 40.0, 30.0, 20.0), piece("C", 70.0, 30.0, 20.0)];
    let lines = drawn(cloth((100.0, 100.0), 20.0, cuts), 52);
    assert_eq!(lines.len(), 1 + 2 * 11 + 3);
    let wall = |left: usize, right: usize| format!("+{}+{}+", "-".repeat(left - 1), "-".repeat(right - 1));
    assert_eq!(
        [&lines[1], &lines[11], &lines[12], &lines[22]],
        [&wall(40, 10), &wall(40, 10), &wall(20, 30), &wall(20, 30)]
    );
    assert_eq!(lines[6], format!("|{}A{}|    B    |", " ".repeat(19), " ".repeat(19)));
    assert_eq!(lines[17], format!("|{}B{}|{}C{}|", " ".repeat(9), " ".repeat(9), " ".repeat(14), " ".repeat(14)));
    // What only touches a part is not in it: the piece before the break is the first that is known.
    let cuts = vec![piece("B", 50.0, 50.0, 20.0), piece("A", 0.0, 50.0, 20.0)];
    let lines = drawn(cloth((100.0, 100.0), 20.0, cuts), 52);
    assert_eq!(lines[23..], ["A  piece A, so big", "B  piece B, so big"]);
    // What is kept in the second part is blank there.
    let kept = DrawnLength { rests: vec![rest((80.0, 100.0), (0.0, 20.0))], ..cloth((100.0, 100.0), 20.0, Vec::new()) };
    let lines = drawn(kept, 52);
    assert_eq!(lines[2], format!("|{}|", ".".repeat(49)));
    assert_eq!(lines[13], format!("|{}{}|", ".".repeat(29), " ".repeat(20)));
}

/// By counting, of 50 columns: 50 by 14 are just 7 lines, 100 by 10 are 7.5 in three parts, by 8 they are 8 in four, by 4 no
/// more than 4 even in four, which get 7 and all columns. 10 by 100 have 16 lines, and 8 columns at the least.
#[test]
fn parts_have_seven_lines_or_more_as_far_as_four_parts_go() {
    let sized = |long: f64, across: f64| {
        let lines = drawn(cloth((long, long), across, vec![piece("A", 0.0, long, across)]), 52);
        let rows = lines.iter().filter(|line| line.starts_with('|')).count();
        let parts = lines.iter().filter(|line| line.starts_with('+')).count() / 2;
        (parts, rows / parts + 1, lines[1].len() - 1)
    };
    assert_eq!(sized(50.0, 14.0), (1, 7, 50));
    assert_eq!(sized(100.0, 8.0), (4, 8, 50));
    assert_eq!(sized(100.0, 4.0), (4, 7, 50));
    assert_eq!(sized(10.0, 100.0), (1, 16, 8));
    // 7.5 lines are 8, which would take 53 columns.
    assert_eq!(sized(100.0, 10.0), (3, 8, 50));
}

/// A bar takes the width but for two columns, at least 16 and at most 110, and the wall at its end.
#[test]
fn a_bar_is_neither_too_short_nor_too_long() {
    let wide = |width: usize| {
        let length = DrawnLength { roll: true, ..cloth((40.0, 40.0), 6.0, vec![piece("A", 0.0, 40.0, 6.0)]) };
        drawn(length, width)[1].chars().count()
    };
    assert_eq!([17, 18, 60, 112, 113, 300].map(wide), [17, 17, 59, 111, 111, 111]);
}

/// By counting: 40 in 20 columns are two each. A strip from 10 to 30 has its walls at 5 and 15, and its letter between them.
#[test]
fn a_strip_behind_a_gap_has_both_its_walls() {
    let length = DrawnLength { roll: true, ..cloth((40.0, 30.0), 6.0, vec![piece("L", 10.0, 20.0, 6.0)]) };
    assert_eq!(drawn(length, 22)[1], "|    |    L    |    |");
}

/// By counting: a strip of a quarter of a column still has one.
#[test]
fn the_narrowest_strip_has_a_column() {
    let cuts = vec![
        piece("L", 0.0, 20.0, 6.0),
        piece("S", 20.0, 4.0, 6.0),
        piece("T", 24.0, 0.5, 6.0),
        piece("U", 30.0, 10.0, 6.0),
    ];
    let length = DrawnLength { roll: true, ..cloth((40.0, 40.0), 6.0, cuts) };
    assert_eq!(drawn(length, 22)[1], "|LLLLLLLLLSST  UUUUU|");
}
