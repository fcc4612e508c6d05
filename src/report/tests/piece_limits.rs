//! Pieces so small, narrow or crowded that what is drawn of them has to give way, at 1 : 10.

use super::super::drawn_piece::{DrawnMark, DrawnPiece, DrawnShape, MarkPlace};
use super::super::piece_figure::Figure;
use super::piece_figures::{bare, cm, drawn, mark, outline, piece, rectangle};
use super::told;
use crate::piece::{Fold, Grain};

fn texts(figure: &Figure) -> Vec<String> {
    told(&figure.sketch).into_iter().filter(|item| item.contains(" at ")).collect()
}

/// By pencil: in a piece 2 wide neither side of the fold has room for its word, which is 2.8 high; it stands 2.8 above.
/// Its width, 1.82 mm wide, would meet the ends of the lines beside it 0.4 mm off, and so is 3.7 lower than 36.8.
#[test]
fn a_fold_in_a_narrow_piece_has_its_word_above_it_or_below_in_words() {
    let along = DrawnPiece { fold: Some(Fold::Along), ..bare(rectangle(2.0, 30.0)) };
    assert_eq!(
        texts(&drawn(&along)),
        ["fold at (1 -2.8) middle", "30 at (-6.8 15) middle upright", "2 at (1 40.5) middle"]
    );
    // Lying, its word would be over its left edge.
    let across = drawn(&DrawnPiece { fold: Some(Fold::Across), ..bare(rectangle(2.0, 30.0)) });
    assert_eq!(texts(&across), ["30 at (-6.8 15) middle upright", "2 at (1 40.5) middle"]);
    assert_eq!(across.told, ["the middle line with long and short dashes is on the fold"]);
    assert!(across.complete, "a fold is no dimension");
    // 8 wide, it has 4 on each side: 0.7, 2.8 and 0.4 are 3.9. 7.6 wide it has not.
    let wide =
        |across: f64| texts(&drawn(&DrawnPiece { fold: Some(Fold::Along), ..bare(rectangle(across, 30.0)) })).remove(0);
    assert_eq!(
        (wide(8.0), wide(7.6)),
        ("fold at (1.9 15) middle upright".to_owned(), "fold at (3.8 -2.8) middle".to_owned())
    );
    // A line right over the middle of the fold moves its word to three tenths, below the line, and if that is taken too to
    // seven tenths.
    let levels = |levels: &[f64]| {
        let places = levels.iter().map(|level| cm(*level)).collect();
        let marks = vec![mark("hem", 1.0, "foot", MarkPlace::Levels(places))];
        let figure = drawn(&DrawnPiece { fold: Some(Fold::Along), marks, ..bare(rectangle(20.0, 50.0)) });
        texts(&figure).into_iter().find(|text| text.starts_with("fold")).unwrap()
    };
    assert_eq!(levels(&[25.0]), "fold at (7.9 15) middle upright");
    assert_eq!(levels(&[25.0, 35.0]), "fold at (7.9 35) middle upright");
    assert_eq!(levels(&[25.0, 35.0, 15.0]), "fold at (7.9 7.5) middle upright");
    assert_eq!(levels(&[25.0, 35.0, 15.0, 42.5]), "fold at (7.9 42.5) middle upright");
}

/// By pencil: 1.5 is 4.62 mm wide, more than the line has, and so does not stand upright; half of that and 0.9 from the
/// line it would meet the ends of the lines beside it, and so it is 3.7 farther out.
#[test]
fn a_dimension_shorter_than_its_text_has_it_farther_out() {
    let low = drawn(&bare(rectangle(30.0, 1.5)));
    assert_eq!(texts(&low), ["1.5 at (-11.41 0.75) middle", "30 at (15 8.3) middle"]);
    // Heads are 2 mm long: on a line of 5 mm they are left out.
    let heads = |along: f64| {
        told(&drawn(&bare(rectangle(30.0, along))).sketch).iter().filter(|item| item.starts_with("black")).count()
    };
    assert_eq!((heads(5.0), heads(5.2)), (2, 4));
    let selvedges = |width: f64| {
        let shape = DrawnShape::FullWidth { along: cm(30.0), width: cm(width) };
        told(&drawn(&bare(shape)).sketch).contains(&"fine (0.8 0) (0.8 30)".to_owned())
    };
    assert!(selvedges(4.1) && !selvedges(4.0));
}

/// By pencil: a letter of 5 needs 6.2 mm, of 3.6 4.8, of 2.8 4, and 0.6 at its sides.
#[test]
fn a_letter_is_as_large_as_its_piece_lets_it() {
    let letter = |side: f64| {
        let figure = drawn(&DrawnPiece { grain: Grain::Any, ..piece(rectangle(30.0, side)) });
        texts(&figure).into_iter().find(|text| text.starts_with('A'))
    };
    assert_eq!(letter(6.3).as_deref(), Some("A at (15 3.15) middle 5 bold"));
    assert_eq!(letter(6.1).as_deref(), Some("A at (15 3.05) middle 3.6 bold"));
    assert_eq!(letter(4.9).as_deref(), Some("A at (15 2.45) middle 3.6 bold"));
    assert_eq!(letter(4.7).as_deref(), Some("A at (15 2.35) middle bold"));
    assert_eq!(letter(4.1).as_deref(), Some("A at (15 2.05) middle bold"));
    assert_eq!(letter(3.9), None);
}

/// By pencil: beside a piece 2 wide, whose dimension reaches 8.2 to the left, the arrow is 2 mm farther out, from 0.5 to
/// 8.5 down; on a low piece, whose dimension is 3.7 farther out, it is
/// round its middle, and across it is 4 farther out.
#[test]
fn a_piece_too_narrow_for_its_grain_has_it_beside_it() {
    let grain = |across: f64, along: f64, grain: Grain, one_way: bool| {
        let piece = DrawnPiece { grain, one_way, ..bare(rectangle(across, along)) };
        let all = told(&drawn(&piece).sketch);
        let from = all.iter().rposition(|item| item.starts_with("fine")).unwrap();
        all[from..].to_vec()
    };
    assert_eq!(
        grain(2.0, 30.0, Grain::Along, false),
        [
            "fine (-10.2 8.5) (-10.2 0.5)",
            "black (-10.2 0.5) (-9.6 2.5) (-10.8 2.5)",
            "black (-10.2 8.5) (-10.8 6.5) (-9.6 6.5)"
        ]
    );
    assert_eq!(
        grain(30.0, 2.0, Grain::Along, true),
        ["fine (-13.9 5) (-13.9 -3)", "black (-13.9 -3) (-13.3 -1) (-14.5 -1)"]
    );
    assert_eq!(
        grain(2.0, 30.0, Grain::Across, true),
        ["fine (-10.2 4.5) (-18.2 4.5)", "black (-18.2 4.5) (-16.2 3.9) (-16.2 5.1)"]
    );
    // In it, an arrow of 18, 12, 8 or 5, which is no longer than 1.2 of its shorter side.
    for (side, long) in [(15.1, 18.0), (14.9, 12.0), (10.1, 12.0), (9.9, 8.0), (6.7, 8.0), (6.6, 5.0)] {
        let found = grain(side, 60.0, Grain::Along, true);
        let x = (side * 500.0_f64).round() / 1000.0;
        assert_eq!(found[0], format!("fine ({x} {}) ({x} {})", 30.0 + long / 2.0, 30.0 - long / 2.0), "{side}");
    }
}

/// By pencil: `a 5` is 4.62 mm wide, so that 2 mm farther to the side a second one stands a line of 3.7 higher.
#[test]
fn marks_that_meet_move_and_those_without_room_are_told_in_words() {
    let with = |marks: Vec<DrawnMark>| drawn(&DrawnPiece { marks, ..bare(rectangle(30.0, 40.0)) });
    let columns = |places: &[f64]| MarkPlace::Columns(places.iter().map(|place| cm(*place)).collect());
    let two = with(vec![mark("a", 5.0, "left", columns(&[10.0, 12.0]))]);
    assert_eq!(texts(&two)[2..], ["a 5 at (10 -2.4) middle", "a 5 at (12 -6.1) middle"]);
    let six = with(vec![mark("a", 5.0, "left", columns(&[10.0, 11.0, 12.0, 13.0, 14.0, 15.0]))]);
    assert_eq!(six.sketch.texts().filter(|text| text.text == "a 5").count(), 5, "four more lines");
    assert_eq!(six.told, ["a 5: left"]);
    assert!(six.complete);
    // 22 letters as wide as they are high are 61.6 mm, and ` 5` 2.8 more; with 25 it is 72.8, more than 70.
    let named = |letters: usize, place: MarkPlace| with(vec![mark(&"m".repeat(letters), 5.0, "left", place)]);
    let level = || MarkPlace::Levels(vec![cm(5.0)]);
    for place in [columns(&[10.0]), level()] {
        assert!(named(22, place.clone()).told.is_empty());
        assert_eq!(named(25, place).told, [format!("{} 5: left", "m".repeat(25))]);
    }
    // A line above the piece has no place in it.
    assert_eq!(with(vec![mark("a", 5.0, "left", MarkPlace::Levels(vec![cm(45.0)]))]).told, ["a 5: left"]);
    // The column has 48 lines; the 49th is told below.
    let many = |count: usize| with(vec![mark("a", 5.0, "left", MarkPlace::Levels(vec![cm(20.0); count]))]);
    assert!(many(48).told.is_empty());
    assert_eq!(many(49).told, ["a 5: left"]);
    // Three at one place are 3.7 apart, round it.
    let three = told(&many(3).sketch);
    for y in ["16.3", "20", "23.7"] {
        assert!(three.contains(&format!("fine (30.9 20) (32 20) (38.2 {y})")), "{y}: {three:?}");
        assert!(three.contains(&format!("a 5 at (39 {y}) start")), "{y}");
    }
}

/// By pencil: on a flag 12 wide whose point is 8 up from its foot, a notch 5 along each side of 10 from the point is 3 to
/// the side and 4 down; it goes in 1.8, 0.8 of it to the middle and 0.6 down.
#[test]
fn head_notches_go_into_the_piece() {
    let flag = outline(&[(0.0, 0.0), (12.0, 0.0), (6.0, 8.0)]);
    let marks = vec![mark("top", 5.0, "point", MarkPlace::HeadNotches(cm(5.0)))];
    let figure = drawn(&DrawnPiece { marks, ..bare(flag) });
    let all = told(&figure.sketch);
    for notch in ["edge (9 4) (7.56 5.08)", "edge (3 4) (4.44 5.08)"] {
        assert!(all.contains(&notch.to_owned()), "{notch}: {all:?}");
    }
    assert!(figure.told.contains(&"top 5: point".to_owned()));
}

/// By counting: 40 heights are all stations; of 41 as many are told, the lowest and the highest among them.
#[test]
fn up_to_forty_heights_are_stations() {
    let stairs = |steps: u32| {
        let right = (0..steps).map(|at| (if at % 2 == 0 { 20.0 } else { 19.0 }, f64::from(at)));
        let corners: Vec<(f64, f64)> = right.chain([(0.0, f64::from(steps - 1)), (0.0, 0.0)]).collect();
        drawn(&bare(outline(&corners)))
    };
    let forty = stairs(40);
    assert_eq!(forty.sketch.texts().filter(|text| text.text.starts_with("up ")).count(), 40);
    assert_eq!(forty.told.len(), 1);
    let more = stairs(41);
    assert_eq!(more.sketch.texts().filter(|text| text.text.starts_with("up ")).count(), 40);
    assert!(more.told[0].starts_with("40 of the 41 heights where the edge turns are stations"), "{:?}", more.told);
    let says = |wanted: &str| more.sketch.texts().any(|text| text.text.starts_with(wanted));
    assert!(says("up 0, ") && says("up 40, "));
}
