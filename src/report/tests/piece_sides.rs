//! Pieces whose two sides differ, and which part of them is where.

use super::super::canvas::Sketch;
use super::super::drawn_piece::{DrawnPiece, DrawnShape, MarkPlace};
use super::super::picture::laid_out;
use super::super::picture_page::PictureHead;
use super::lays::style;
use super::piece_figures::{bare, cm, drawn, mark, outline, piece, rectangle};
use super::told;
use crate::piece::{Fold, Grain};

/// Every station in the column of a shape, and what is said of them all.
fn stations(corners: &[(f64, f64)]) -> (Vec<String>, Vec<String>) {
    let figure = drawn(&bare(outline(corners)));
    let all = figure.sketch.texts().map(|text| text.text.clone()).filter(|text| text.starts_with("up "));
    (all.collect(), figure.told)
}

const FROM_THE_LEFT: &str = "stations: up from the lower edge, at so far to the right of the thin line at the left";
const FROM_THE_MIDDLE: &str = "stations: up from the lower edge, out from the middle line to either side";

/// Stations are from the middle line only where both sides are alike, whichever side goes out farther.
#[test]
fn a_piece_that_leans_to_either_side_is_not_even() {
    let (right, said) = stations(&[(0.0, 0.0), (20.0, 0.0), (30.0, 20.0), (10.0, 20.0)]);
    assert_eq!(right, ["up 20, at 10 and 30", "up 0, at 0 and 20"]);
    assert_eq!(said, [FROM_THE_LEFT]);
    let (left, said) = stations(&[(10.0, 0.0), (30.0, 0.0), (20.0, 20.0), (0.0, 20.0)]);
    assert_eq!(left, ["up 20, at 0 and 20", "up 0, at 10 and 30"]);
    assert_eq!(said, [FROM_THE_LEFT]);
    // Out to the left at the foot and at the head, level on its right.
    let (_, said) = stations(&[(0.0, 0.0), (30.0, 0.0), (28.0, 10.0), (30.0, 20.0), (0.0, 20.0)]);
    assert_eq!(said, [FROM_THE_LEFT]);
    let (_, said) = stations(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0), (2.0, 10.0)]);
    assert_eq!(said, [FROM_THE_LEFT]);
}

/// By pencil: a flag 12 wide and 20 high comes to its point in the middle line, nothing out. Its place in its own frame
/// does not matter.
#[test]
fn a_point_in_the_middle_is_nothing_out() {
    for (across, along) in [(0.0, 0.0), (3.0, 5.0), (-7.0, -2.0)] {
        let flag = [(0.0, 0.0), (12.0, 0.0), (6.0, 20.0)].map(|(x, y)| (x + across, y + along));
        let (found, said) = stations(&flag);
        assert_eq!(found, ["up 20, out 0", "up 0, out 6"], "{across} {along}");
        assert_eq!(said, [FROM_THE_MIDDLE]);
        let sides = drawn(&bare(outline(&flag))).sketch;
        let has = |wanted: &str| sides.texts().any(|text| text.text == wanted);
        assert!(has("12") && has("20"));
    }
}

/// A fold along a piece runs upright and across it level, and so does its word, be the piece wide or high.
#[test]
fn the_word_of_a_fold_runs_with_it() {
    for (across, along) in [(60.0, 20.0), (20.0, 60.0)] {
        for (fold, upright) in [(Fold::Along, true), (Fold::Across, false)] {
            let figure = drawn(&DrawnPiece { fold: Some(fold), ..bare(rectangle(across, along)) });
            let word = figure.sketch.texts().find(|text| text.text == "fold").unwrap();
            assert_eq!(word.upright, upright, "{across} {along} {fold:?}");
        }
    }
}

fn sector(turn: f64, inner: f64) -> DrawnShape {
    DrawnShape::Sector { inner: cm(inner), outer: cm(40.0), turn }
}

/// A part of a circle without a waist comes to a point in its middle.
#[test]
fn a_sector_without_a_waist_is_pointed() {
    let figure = drawn(&bare(sector(1.0 / 6.0, 0.0)));
    // By pencil: 30 degrees to either side, so that the middle is half of 40 to the right, above all.
    let edge = told(&figure.sketch).into_iter().find(|item| item.starts_with("edge")).unwrap();
    assert!(edge.contains(" (20 0)"), "{edge}");
}

/// Every place of a line round the middle is as far from it as it says. By pencil: of a sixth of a turn, 30 degrees to
/// either side, the middle is 20 to the right, and as far above the ends of the waist as 10 × 0.866; of a quarter, 45
/// degrees, 28.284 to the right and 7.071 above.
#[test]
fn a_line_round_the_middle_has_its_radius() {
    for (turn, middle) in [(1.0 / 6.0, (20.0, -8.660)), (0.25, (28.284, -7.071)), (1.0, (40.0, 40.0))] {
        let round = vec![mark("line", 20.0, "middle", MarkPlace::Ring(cm(20.0)))];
        let figure = drawn(&DrawnPiece { marks: round, ..bare(sector(turn, 10.0)) });
        let dashed = told(&figure.sketch).into_iter().find(|item| item.starts_with("dashed")).unwrap();
        let numbers = dashed.split(['(', ')', ' ']).filter_map(|number| number.parse::<f64>().ok());
        for place in numbers.collect::<Vec<_>>().chunks(2) {
            let far = (place[0] - middle.0).hypot(place[1] - middle.1);
            assert!((far - 20.0).abs() < 0.005, "{turn}: {place:?} is {far} from {middle:?}");
        }
    }
}

/// By pencil: an arrow is at most 1.2 of the shorter side: 12 in 10.5 either way. A piece 3 wide has one of 5 in it all the
/// same, with 0.7 to either side and 0.6 to its edges.
#[test]
fn an_arrow_is_as_long_as_the_shorter_side_lets_it() {
    let arrow = |across: f64, along: f64, grain: Grain| {
        let figure = drawn(&DrawnPiece { grain, ..bare(rectangle(across, along)) });
        let (from, to) = figure.sketch.segments().last().unwrap();
        let inside = [from, to].iter().all(|(x, y)| *x > 0.0 && *x < across && *y > 0.0 && *y < along);
        ((((to.0 - from.0).hypot(to.1 - from.1) * 1000.0).round() / 1000.0), inside)
    };
    assert_eq!(arrow(60.0, 10.5, Grain::Across), (12.0, true));
    assert_eq!(arrow(10.5, 60.0, Grain::Along), (12.0, true));
    assert_eq!(arrow(3.0, 60.0, Grain::Along), (5.0, true));
    assert_eq!(arrow(60.0, 3.0, Grain::Across), (5.0, true));
}

/// By pencil: in a piece with two legs, open from above, a level at 15 of 20 is in both, and its leader begins at the right.
#[test]
fn a_level_through_two_legs_has_its_words_at_the_right() {
    let legs = outline(&[
        (0.0, 0.0),
        (30.0, 0.0),
        (30.0, 20.0),
        (20.0, 20.0),
        (20.0, 10.0),
        (10.0, 10.0),
        (10.0, 20.0),
        (0.0, 20.0),
    ]);
    let marks = vec![mark("level", 15.0, "foot", MarkPlace::Levels(vec![cm(15.0)]))];
    let all = told(&drawn(&DrawnPiece { marks, ..bare(legs) }).sketch);
    assert!(all.contains(&"dashed (0 5) (10 5)".to_owned()) && all.contains(&"dashed (20 5) (30 5)".to_owned()));
    assert!(all.iter().any(|item| item.starts_with("fine (30.9 5) (32 5) ")), "{all:?}");
}

fn lines(pieces: &[DrawnPiece], others: &[&str]) -> Vec<String> {
    let head = PictureHead { title: "order 7".to_owned(), ..PictureHead::default() };
    let others: Vec<String> = others.iter().map(|other| (*other).to_owned()).collect();
    let pages = laid_out(&head, pieces, &others, &style());
    pages.iter().flat_map(Sketch::texts).map(|text| text.text.clone()).collect()
}

#[test]
fn marks_on_what_is_no_piece_stand_below_the_pieces() {
    let said = lines(&[piece(rectangle(30.0, 40.0))], &["cord 90", "tape 20"]);
    assert_eq!(said.last().unwrap(), "Other marks: cord 90; tape 20.");
    assert!(!lines(&[piece(rectangle(30.0, 40.0))], &[]).iter().any(|line| line.contains("Other marks")));
}

/// By pencil: a piece 3 by 4 at 1 : 1 is narrower than the 58 mm that its notes have: 31 letters of 1.82 mm are 56.42. Its
/// letter is 3.942 wide with 2 behind it; 22 bold letters of 3.2 mm, 0.728 of that wide, are 51.25 of the other 52.06.
#[test]
fn notes_below_a_narrow_piece_have_58_millimetres() {
    let narrow = DrawnPiece { notes: vec!["b".repeat(40)], name: "a".repeat(40), ..piece(rectangle(3.0, 4.0)) };
    let said = lines(&[narrow], &[]);
    let longest = |letter: char| {
        said.iter().filter(|line| line.chars().all(|c| c == letter)).map(|line| line.chars().count()).max()
    };
    assert_eq!(longest('b'), Some(31), "{said:?}");
    assert_eq!(longest('a'), Some(22), "{said:?}");
}

/// By pencil: more than half a ring is as wide as twice its hem; a hundredth of one is drawn in two steps, three places on
/// the hem and three on the waist, and closes.
#[test]
fn a_sector_is_as_wide_as_its_circle_from_a_half_on() {
    let has = |turn: f64, wanted: &str| drawn(&bare(sector(turn, 10.0))).sketch.texts().any(|text| text.text == wanted);
    assert!(has(0.75, "80 over all") && has(0.5, "80 over all") && has(1.0 / 6.0, "40 over all"));
    let edge =
        told(&drawn(&bare(sector(0.01, 10.0))).sketch).into_iter().find(|item| item.starts_with("edge")).unwrap();
    assert_eq!(edge.matches('(').count(), 7);
}

/// By pencil: of 9 pieces 165 by 211.75, 60.5 mm high at 1 : 35, three are in a row and two rows on a page, which makes
/// two pages; two are in a row from 1 : 20 on, 82.5 mm and 8.2 for the dimension twice and 7.5 between them, and two rows
/// on a page, which makes three. Of 209 they would be 59.7 high at 1 : 35, less than the 60 that are worth more pages.
/// Two pieces 170 by 220 stand beside each other from 1 : 25 on.
#[test]
fn pieces_are_drawn_smaller_as_long_as_that_saves_pages() {
    let scale = |many: usize, across: f64, along: f64| {
        let said = lines(&vec![piece(rectangle(across, along)); many], &[]);
        let scale = said.iter().find_map(|text| text.strip_prefix("scale 1 : ")?.split(',').next()).unwrap();
        scale.to_owned()
    };
    assert_eq!(scale(9, 165.0, 211.75), "35");
    assert_eq!(scale(9, 165.0, 209.0), "20");
    assert_eq!(scale(2, 170.0, 220.0), "25");
}

/// By pencil: across a piece 60 by 30 an arrow of 18 mm goes from 39 to 21, with a head 2 mm long and 1.2 wide at either end.
#[test]
fn an_arrow_across_has_its_heads_at_its_ends() {
    let all = told(&drawn(&DrawnPiece { grain: Grain::Across, ..bare(rectangle(60.0, 30.0)) }).sketch);
    let arrow = ["fine (39 15) (21 15)", "black (21 15) (23 14.4) (23 15.6)", "black (39 15) (37 15.6) (37 14.4)"];
    assert_eq!(all[all.len() - 3..], arrow);
}
