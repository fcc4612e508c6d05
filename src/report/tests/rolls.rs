//! Rolls drawn as bars at 1 : 10, a centimetre of cloth to a millimetre on paper.

use super::super::canvas::Sketch;
use super::super::drawn_lay::{DrawnCut, DrawnLength, DrawnRest};
use super::super::lay_bar::{has_room, is_widened, rows};
use super::lays::{cloth, cm, cut, rest, style};
use super::{assert_drawn, told};

fn roll((long, used): (f64, f64), width: f64, cuts: Vec<DrawnCut>) -> DrawnLength {
    DrawnLength { roll: true, ..cloth((long, used), width, cuts) }
}

fn drawn(length: &DrawnLength) -> Vec<Sketch> {
    rows(length, 10.0, &["31".to_owned()], &style())
}

/// By pencil: two strips alike of 30, a gap of 5, a strip of 15 for order 31, and 120 worth keeping, drawn as 30 with a
/// break 4 mm before its end; what it is kept as has the 24 mm before that. Marks are 3.4 mm below the bar; 60 and 65
/// would be 1.36 mm apart, closer than 1.4, so that only one is told.
#[test]
fn a_roll_has_its_strips_its_gaps_and_its_rest_in_a_row() {
    let cuts = vec![
        cut("A", "strip", (0.0, 0.0), (30.0, 10.0)),
        cut("A", "strip", (30.0, 0.0), (30.0, 10.0)),
        DrawnCut { order: Some("31".to_owned()), ..cut("B", "band", (65.0, 0.0), (15.0, 10.0)) },
    ];
    let length = DrawnLength { rests: vec![rest((80.0, 200.0), (0.0, 10.0))], ..roll((200.0, 80.0), 10.0, cuts) };
    let drawn = drawn(&length);
    assert_eq!(drawn.len(), 1);
    assert_drawn(
        &drawn[0],
        &[
            "white (0 0) (30 0) (30 10) (0 10)",
            "white (30 0) (60 0) (60 10) (30 10)",
            "waste (60 0) (65 0) (65 10) (60 10)",
            "white (65 0) (80 0) (80 10) (65 10)",
            "order 0 (65 0) (80 0) (80 10) (65 10)",
            "white (80 0) (110 0) (110 10) (80 10)",
            "white (106.5 -0.8) (106.5 3.144) (107.428 4.072) (105.572 5.928) (106.5 6.856) (106.5 10.8) \
             (105.5 10.8) (105.5 6.856) (104.572 5.928) (106.428 4.072) (105.5 3.144) (105.5 -0.8)",
            "fine (106.5 -0.8) (106.5 3.144) (107.428 4.072) (105.572 5.928) (106.5 6.856) (106.5 10.8)",
            "fine (105.5 -0.8) (105.5 3.144) (106.428 4.072) (104.572 5.928) (105.5 6.856) (105.5 10.8)",
            "keep 120 at (92 5) middle",
            "edge (30 0) (30 10)",
            "edge (60 0) (60 10)",
            "edge (0 0) (0 10)",
            "A at (15 5) middle 4 bold",
            "A at (45 5) middle 4 bold",
            "edge (80 0) (80 10)",
            "edge (65 0) (65 10)",
            "white (70.508 2.8) (74.492 2.8) (74.492 7.2) (70.508 7.2)",
            "B at (72.5 5) middle 4 bold",
            "edge (0 0) (110 0)",
            "edge (0 10) (110 10)",
            "edge (0 0) (0 10)",
            "edge (110 0) (110 10)",
            "fine (0 10) (0 11.3)",
            "fine (30 10) (30 11.3)",
            "fine (60 10) (60 11.3)",
            "fine (65 10) (65 11.3)",
            "fine (80 10) (80 11.3)",
            "fine (110 10) (110 11.3)",
            "0 at (0 13.4) middle",
            "200 at (110 13.4) middle",
            "30 at (30 13.4) middle",
            "60 at (60 13.4) middle",
            "80 at (80 13.4) middle",
        ],
    );
}

/// By pencil: a roll 3 cm wide is drawn 4.6 mm high, its letters 3.2 mm. With 1.2 mm round it a letter takes 4.07, more
/// than a strip of 4 has, so that it stands once with the count and the lines leave 0.4 mm above and below it.
#[test]
fn narrow_strips_have_one_letter_with_their_count() {
    let cuts: Vec<DrawnCut> = (0..5).map(|at| cut("A", "strip", (f64::from(at) * 4.0, 0.0), (4.0, 3.0))).collect();
    let length = roll((20.0, 20.0), 3.0, cuts);
    let all = told(&drawn(&length)[0]);
    assert_eq!(
        all[5..24],
        [
            "edge (4 0) (4 0.3)",
            "edge (4 4.3) (4 4.6)",
            "edge (8 0) (8 0.3)",
            "edge (8 4.3) (8 4.6)",
            "edge (12 0) (12 0.3)",
            "edge (12 4.3) (12 4.6)",
            "edge (16 0) (16 0.3)",
            "edge (16 4.3) (16 4.6)",
            "edge (20 0) (20 0.3)",
            "edge (20 4.3) (20 4.6)",
            "edge (0 0) (0 0.3)",
            "edge (0 4.3) (0 4.6)",
            "edge (0 0) (0 4.6)",
            "edge (20 0) (20 4.6)",
            "5 × A at (10 2.3) middle 3.2 bold",
            "edge (0 0) (20 0)",
            "edge (0 4.6) (20 4.6)",
            "edge (0 0) (0 4.6)",
            "edge (20 0) (20 4.6)",
        ]
    );
    // In strips of 4.1 each has its own.
    let cuts: Vec<DrawnCut> = (0..5).map(|at| cut("A", "strip", (f64::from(at) * 4.1, 0.0), (4.1, 3.0))).collect();
    let letters = drawn(&roll((20.5, 20.5), 3.0, cuts))[0].texts().filter(|text| text.text == "A").count();
    assert_eq!(letters, 5);
    assert!(is_widened(&length, 10.0) && !is_widened(&roll((20.0, 20.0), 4.6, Vec::new()), 10.0));
}

/// By pencil: the picture is 190 mm wide, and 12 of it are kept for the first and the last mark. Two strips of 89 fill a
/// row; a third begins the next, with its own first mark, and only the ends of the roll have an edge.
#[test]
fn a_long_roll_goes_on_in_the_next_row() {
    let cuts: Vec<DrawnCut> = (0..3).map(|at| cut("A", "strip", (f64::from(at) * 89.0, 0.0), (89.0, 10.0))).collect();
    let length = roll((300.0, 267.0), 10.0, cuts);
    let drawn = drawn(&length);
    assert_eq!(drawn.len(), 2);
    let first = told(&drawn[0]);
    assert_eq!(
        first[2..],
        [
            "edge (89 0) (89 10)",
            "edge (178 0) (178 10)",
            "edge (0 0) (0 10)",
            "A at (44.5 5) middle 4 bold",
            "A at (133.5 5) middle 4 bold",
            "edge (0 0) (178 0)",
            "edge (0 10) (178 10)",
            "edge (0 0) (0 10)",
            "fine (0 10) (0 11.3)",
            "fine (89 10) (89 11.3)",
            "fine (178 10) (178 11.3)",
            "0 at (0 13.4) middle",
            "178 at (178 13.4) middle",
            "89 at (89 13.4) middle",
        ]
    );
    // What is left, 33, is drawn as 30, and not worth keeping.
    let second = told(&drawn[1]);
    assert_eq!(second[..2], ["white (0 0) (89 0) (89 10) (0 10)", "waste (89 0) (119 0) (119 10) (89 10)"]);
    assert!(second[2].starts_with("white (115.5 -0.8)"));
    assert_eq!(
        second[5..],
        [
            "edge (89 0) (89 10)",
            "edge (0 0) (0 10)",
            "A at (44.5 5) middle 4 bold",
            "edge (0 0) (119 0)",
            "edge (0 10) (119 10)",
            "edge (119 0) (119 10)",
            "fine (0 10) (0 11.3)",
            "fine (89 10) (89 11.3)",
            "fine (119 10) (119 11.3)",
            "178 at (0 13.4) middle",
            "300 at (119 13.4) middle",
            "267 at (89 13.4) middle",
        ]
    );
    let fits =
        |along: f64| has_room(&roll((along, along), 10.0, vec![cut("A", "strip", (0.0, 0.0), (along, 10.0))]), 10.0);
    assert!(fits(178.0) && !fits(178.1));
}

/// By pencil: `keep 10` is 11.9 mm wide and takes 12.7 with the room at its sides; in two lines, 3.1 mm apart, `keep`
/// takes 8.08.
#[test]
fn a_short_rest_says_its_size_in_a_line_or_two() {
    let words = |left: f64, along: f64, high: f64| {
        let kept = DrawnRest { along: cm(along), ..rest((50.0, 50.0 + left), (0.0, high)) };
        let strip = cut("A", "strip", (0.0, 0.0), (50.0, high));
        let length = DrawnLength { rests: vec![kept], ..roll((50.0 + left, 50.0), high, vec![strip]) };
        let all = told(&drawn(&length)[0]);
        all.into_iter().filter(|item| item.starts_with("keep") || item.starts_with("10")).collect::<Vec<_>>()
    };
    assert_eq!(words(12.8, 10.0, 9.0), ["keep 10 at (56.4 4.5) middle"]);
    assert_eq!(words(12.6, 10.0, 9.0), ["keep at (56.3 2.95) middle", "10 at (56.3 6.05) middle"]);
    assert_eq!(words(8.2, 10.0, 9.0).len(), 2);
    assert!(words(8.0, 10.0, 9.0).is_empty());
    // Two lines are 5.9 mm high, and 0.4 above and below.
    assert_eq!(words(12.6, 10.0, 6.8).len(), 2);
    assert!(words(12.6, 10.0, 6.6).is_empty());
    let unwashed = DrawnRest { unwashed: true, ..rest((50.0, 80.0), (0.0, 9.0)) };
    let strip = cut("A", "strip", (0.0, 0.0), (50.0, 9.0));
    let length = DrawnLength { rests: vec![unwashed], ..roll((80.0, 50.0), 9.0, vec![strip]) };
    // 28 mm wide.
    assert!(told(&drawn(&length)[0]).contains(&"keep 30 unwashed at (65 4.5) middle".to_owned()));
}

#[test]
fn strips_that_differ_are_no_run() {
    let letters = |other: DrawnCut| {
        let cuts = vec![cut("A", "strip", (0.0, 0.0), (3.0, 10.0)), other];
        let sketch = &drawn(&roll((6.0, 6.0), 10.0, cuts))[0];
        sketch.texts().any(|text| text.text.contains('×'))
    };
    let alike = || cut("A", "strip", (3.0, 0.0), (3.0, 10.0));
    assert!(!letters(cut("B", "strip", (3.0, 0.0), (3.0, 10.0))));
    assert!(!letters(DrawnCut { name: "band".to_owned(), ..alike() }));
    assert!(!letters(DrawnCut { order: Some("31".to_owned()), ..alike() }));
    assert!(!letters(DrawnCut { own_size: (cm(9.0), None), ..alike() }));
}

/// By pencil: a strip of 178 fills its row, and the rest begins the next with its own mark. One longer than any row has a
/// row to itself.
#[test]
fn a_rest_may_begin_a_row() {
    let strip = |along: f64| vec![cut("A", "strip", (0.0, 0.0), (along, 10.0))];
    let drawn_rows = drawn(&roll((190.0, 178.0), 10.0, strip(178.0)));
    assert_eq!(drawn_rows.len(), 2);
    let second = told(&drawn_rows[1]);
    assert_eq!(second[0], "waste (0 0) (12 0) (12 10) (0 10)");
    assert_eq!(second[second.len() - 2..], ["178 at (0 13.4) middle", "190 at (12 13.4) middle"]);
    assert_eq!(drawn(&roll((200.0, 200.0), 10.0, strip(200.0))).len(), 1);
}

/// By pencil: four letters of 4.48 mm take 17.92 and 1.2, more than 19, and with their count 27.78, less than 38. A strip
/// alone has lines from edge to edge, even without its letter.
#[test]
fn two_strips_have_a_count_and_one_has_none() {
    let strips = |many: u32, along: f64| {
        let cuts = (0..many).map(|at| cut("MMMM", "strip", (f64::from(at) * along, 0.0), (along, 10.0)));
        let long = f64::from(many) * along;
        told(&drawn(&roll((long, long), 10.0, cuts.collect()))[0])
    };
    assert!(strips(2, 19.0).contains(&"2 × MMMM at (19 5) middle 4 bold".to_owned()));
    let one = strips(1, 3.0);
    assert_eq!(one[1..3], ["edge (3 0) (3 10)", "edge (0 0) (0 10)"]);
    assert!(!one.iter().any(|item| item.contains("MMMM")), "{one:?}");
    assert!(strips(1, 19.2).contains(&"MMMM at (9.6 5) middle 4 bold".to_owned()));
}

/// By pencil: between strips of a run, too narrow for their letters, are short lines of 1.2 mm; between others one from
/// edge to edge. Strips that differ in anything, or with a gap between them, are no run.
#[test]
fn lines_within_a_run_are_short() {
    let is_run = |other: DrawnCut| {
        let cuts = vec![cut("A", "strip", (0.0, 0.0), (3.0, 10.0)), other];
        let items = told(&drawn(&roll((9.0, 9.0), 10.0, cuts))[0]);
        items.contains(&"edge (3 8.8) (3 10)".to_owned())
    };
    let alike = || cut("A", "strip", (3.0, 0.0), (3.0, 10.0));
    assert!(is_run(alike()));
    assert!(!is_run(cut("B", "strip", (3.0, 0.0), (3.0, 10.0))));
    assert!(!is_run(DrawnCut { name: "band".to_owned(), ..alike() }));
    assert!(!is_run(DrawnCut { order: Some("31".to_owned()), ..alike() }));
    assert!(!is_run(DrawnCut { own_size: (cm(9.0), None), ..alike() }));
    assert!(!is_run(cut("A", "strip", (5.0, 0.0), (3.0, 10.0))));
}
