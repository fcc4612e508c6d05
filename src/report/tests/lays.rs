//! Cloth drawn at 1 : 10, so that a centimetre of cloth is a millimetre on paper. Every place is worked out from the
//! distances that the code states: letters of 4.4 and 2.8 mm, 3.7 mm from line to line, 0.6 mm between what stands in a
//! piece, running marks 5.8 mm to the left.

use super::super::canvas::Sketch;
use super::super::drawn_lay::{DrawnCut, DrawnLayers, DrawnLength, DrawnRest};
use super::super::lay_panel::{View, break_sign};
use super::{assert_drawn, told};
use crate::quantity::{Length, Style, Tape};

pub(super) fn cm(value: f64) -> Length {
    Length::centimetres(value)
}

pub(super) fn style() -> Style {
    Style { tape: Tape::Metric, ..Style::default() }
}

/// A rectangle from a mark along and a mark across, so long and so wide.
pub(super) fn cut(letter: &str, name: &str, (from, left): (f64, f64), (along, across): (f64, f64)) -> DrawnCut {
    let corners = [(from, left), (from + along, left), (from + along, left + across), (from, left + across)];
    DrawnCut {
        letter: letter.to_owned(),
        name: name.to_owned(),
        order: None,
        size: String::new(),
        from: cm(from),
        to: cm(from + along),
        across_from: cm(left),
        across_to: cm(left + across),
        lines: vec![corners.map(|(along, across)| (cm(along), cm(across))).to_vec()],
        along: (1.0, 0.0),
        own_size: (cm(along), Some(cm(across))),
        one_way: false,
        layers: DrawnLayers::One,
    }
}

pub(super) fn rest((from, to): (f64, f64), (left, right): (f64, f64)) -> DrawnRest {
    DrawnRest {
        from: cm(from),
        to: cm(to),
        across_from: cm(left),
        across_to: cm(right),
        kept: true,
        along: cm(to - from),
        across: cm(right - left),
        unwashed: false,
    }
}

/// Cloth so long, used so far, and so wide.
pub(super) fn cloth((long, used): (f64, f64), width: f64, cuts: Vec<DrawnCut>) -> DrawnLength {
    DrawnLength {
        heading: "roll".to_owned(),
        times: 1,
        length: cm(long),
        lead: Length::ZERO,
        used: cm(used),
        width: cm(width),
        roll: false,
        folded: false,
        cuts,
        rests: Vec::new(),
        off_pieces: Vec::new(),
    }
}

const MOST: f64 = 240.0;

fn panel(length: &DrawnLength, most: f64, which: usize, orders: &[String]) -> (Sketch, Vec<String>) {
    let view = View::of(length, 10.0, most);
    view.panel(view.panels[which], orders, &style())
}

/// By pencil: `front` and its size are 7.25 and 11.62 mm wide, so that its arrow of 14 mm is 6 places of 35/24 mm beside
/// its middle; that of the cuff goes above its size, 6 and 5 places away; that of the band 3 and 5. What is left, 30 mm,
/// is drawn as 12.
#[test]
fn pieces_on_open_cloth_have_their_marks_letters_and_grain() {
    let cuts = vec![
        cut("A", "front", (0.0, 0.0), (40.0, 35.0)),
        cut("C", "cuff", (0.0, 35.0), (30.0, 20.0)),
        cut("B", "band", (40.0, 0.0), (30.0, 60.0)),
    ];
    let length = DrawnLength { rests: vec![rest((70.0, 100.0), (0.0, 60.0))], ..cloth((100.0, 70.0), 60.0, cuts) };
    let view = View::of(&length, 10.0, MOST);
    assert_eq!(view.panels, [(0.0, 82.0)]);
    assert!(view.is_legible() && (view.wide - 60.0).abs() < 1e-9);
    let (sketch, untold) = panel(&length, MOST, 0, &[]);
    assert_drawn(
        &sketch,
        &[
            "waste (0 0) (60 0) (60 82) (0 82)",
            "white (0.6 70.6) (59.4 70.6) (59.4 81.4) (0.6 81.4)",
            "dashed (0.6 70.6) (59.4 70.6) (59.4 81.4) (0.6 81.4) (0.6 70.6)",
            "keep 30 at (30 73.5) middle",
            "white (0 0) (0 40) (35 40) (35 0)",
            "edge (0 0) (0 40)",
            "edge (0 40) (35 40)",
            "edge (35 40) (35 0)",
            "edge (35 0) (0 0)",
            "35 at (32.28 2.3) middle",
            "A at (17.5 16.3) middle 4.4 bold",
            "front at (17.5 20.35) middle",
            "40 × 35 at (17.5 24.05) middle",
            "fine (8.75 13) (8.75 27)",
            "black (8.75 27) (8.15 25) (9.35 25)",
            "black (8.75 13) (9.35 15) (8.15 15)",
            "white (35 0) (35 30) (55 30) (55 0)",
            "edge (35 0) (35 30)",
            "edge (35 30) (55 30)",
            "edge (55 30) (55 0)",
            "edge (55 0) (35 0)",
            "55 at (52.28 2.3) middle",
            "C at (45 11.3) middle 4.4 bold",
            "cuff at (45 15.35) middle",
            "30 × 20 at (45 19.05) middle",
            "fine (40 1.75) (40 15.75)",
            "black (40 15.75) (39.4 13.75) (40.6 13.75)",
            "black (40 1.75) (40.6 3.75) (39.4 3.75)",
            "white (0 40) (0 70) (60 70) (60 40)",
            "edge (0 40) (0 70)",
            "edge (0 70) (60 70)",
            "edge (60 70) (60 40)",
            "edge (60 40) (0 40)",
            "B at (30 51.3) middle 4.4 bold",
            "band at (30 55.35) middle",
            "30 × 60 at (30 59.05) middle",
            "fine (22.5 41.75) (22.5 55.75)",
            "black (22.5 55.75) (21.9 53.75) (23.1 53.75)",
            "black (22.5 41.75) (23.1 43.75) (21.9 43.75)",
            "edge (0 0) (0 82)",
            "fine (-0.8 0) (-0.8 82)",
            "edge (60 0) (60 82)",
            "fine (60.8 0) (60.8 82)",
            "edge (0 0) (60 0)",
            "edge (0 82) (60 82)",
            "white (-1.4 78.3) (27 78.3) (28.5 77) (31.5 79.6) (33 78.3) (61.4 78.3) (61.4 79.3) (33 79.3) (31.5 80.6) \
             (28.5 78) (27 79.3) (-1.4 79.3)",
            "fine (-1.4 78.3) (27 78.3) (28.5 77) (31.5 79.6) (33 78.3) (61.4 78.3)",
            "fine (-1.4 79.3) (27 79.3) (28.5 78) (31.5 80.6) (33 79.3) (61.4 79.3)",
            "60 wide at (30 -2.6) middle",
            "fine (-2.4 0) (-1.2 0)",
            "fine (-2.4 0) (-5 0)",
            "0 at (-5.8 0) end",
            "fine (-2.4 30) (-1.2 30)",
            "fine (-2.4 30) (-5 30)",
            "30 at (-5.8 30) end",
            "fine (-2.4 40) (-1.2 40)",
            "fine (-2.4 40) (-5 40)",
            "40 at (-5.8 40) end",
            "fine (-2.4 70) (-1.2 70)",
            "fine (-2.4 70) (-5 70)",
            "70 at (-5.8 70) end",
            "fine (-2.4 82) (-1.2 82)",
            "fine (-2.4 82) (-5 82)",
            "100 at (-5.8 82) end",
        ],
    );
    assert!(untold.is_empty());
}

/// By pencil: folded, 60 are 30 wide. The drop lies on the fold from 12 on, its arrow 7 and 3 places from its middle; its
/// own mark is the one at which the facing ends. The facing is 12 wide, too narrow for its size of 11.62 except upright,
/// 1 mm to the left of its middle so that its mark stays free. It is hatched, so that what stands in it has white
/// behind it; its arrow of 9 mm points to where its length began.
#[test]
fn pieces_on_folded_cloth_end_at_the_fold() {
    let facing = |left| DrawnCut {
        order: Some("32".to_owned()),
        one_way: true,
        along: (-1.0, 0.0),
        layers: DrawnLayers::Both,
        ..cut("E", "edge", (0.0, left), (20.0, 12.0))
    };
    let drop = DrawnCut { layers: DrawnLayers::Fold, ..cut("D", "drop", (0.0, 12.0), (50.0, 36.0)) };
    let length = DrawnLength {
        folded: true,
        rests: vec![rest((20.0, 50.0), (0.0, 12.0)), DrawnRest { kept: false, ..rest((0.0, 9.0), (0.0, 9.0)) }],
        ..cloth((50.0, 50.0), 60.0, vec![drop, facing(0.0), facing(48.0)])
    };
    let (sketch, untold) = panel(&length, MOST, 0, &["31".to_owned(), "32".to_owned()]);
    assert_drawn(
        &sketch,
        &[
            "waste (0 0) (30 0) (30 50) (0 50)",
            "white (0.6 20.6) (11.4 20.6) (11.4 49.4) (0.6 49.4)",
            "dashed (0.6 20.6) (11.4 20.6) (11.4 49.4) (0.6 49.4) (0.6 20.6)",
            "keep 30 × 12 at (6 35) middle upright",
            "white (12 0) (12 50) (30 50) (30 0)",
            "edge (12 0) (12 50)",
            "edge (12 50) (30 50)",
            "edge (30 0) (12 0)",
            "D at (21 21.3) middle 4.4 bold",
            "drop at (21 25.35) middle",
            "50 × 36 at (21 29.05) middle",
            "fine (15.75 11.75) (15.75 25.75)",
            "black (15.75 25.75) (15.15 23.75) (16.35 23.75)",
            "black (15.75 11.75) (16.35 13.75) (15.15 13.75)",
            "white (0 0) (0 20) (12 20) (12 0)",
            "order 1 (0 0) (0 20) (12 20) (12 0)",
            "edge (0 0) (0 20)",
            "edge (0 20) (12 20)",
            "edge (12 20) (12 0)",
            "edge (12 0) (0 0)",
            "white (7.26 0.7) (11.3 0.7) (11.3 3.9) (7.26 3.9)",
            "12 at (9.28 2.3) middle",
            "white (3.1 14.787) (6.9 14.787) (6.9 18.233) (3.1 18.233)",
            "E at (5 16.51) middle 3.4 bold upright",
            "white (3.4 1.767) (6.6 1.767) (6.6 13.787) (3.4 13.787)",
            "20 × 12 at (5 7.777) middle upright",
            "white (7.4 5) (9.6 5) (9.6 15) (7.4 15)",
            "fine (8.5 5.5) (8.5 14.5)",
            "black (8.5 5.5) (9.1 7.5) (7.9 7.5)",
            "edge (0 0) (0 50)",
            "fine (-0.8 0) (-0.8 50)",
            "fold (30 0) (30 50)",
            "fold at (32.2 25) middle upright",
            "edge (0 0) (30 0)",
            "edge (0 50) (30 50)",
            "30 wide at (15 -2.6) middle",
            "fine (-2.4 0) (-1.2 0)",
            "fine (-2.4 0) (-5 0)",
            "0 at (-5.8 0) end",
            "fine (-2.4 20) (-1.2 20)",
            "fine (-2.4 20) (-5 20)",
            "20 at (-5.8 20) end",
            "fine (-2.4 50) (-1.2 50)",
            "fine (-2.4 50) (-5 50)",
            "50 at (-5.8 50) end",
        ],
    );
    assert!(untold.is_empty());
    // A cut through one layer may lie under the fold: then the cloth is drawn opened.
    let mut opened = length;
    opened.cuts.push(cut("F", "flap", (30.0, 50.0), (5.0, 5.0)));
    assert!((View::of(&opened, 10.0, MOST).wide - 60.0).abs() < 1e-9);
}

/// By pencil: 8.5 mm of the height are for the width above and what may hang below. A piece from 0 to 60 is cut right
/// through at 50; its lower part has its letter and size beside each other, and the arrow of 6 mm 10 places of 25/24 mm to
/// the left. The second panel begins with a fine line and ends with an edge.
#[test]
fn a_piece_goes_on_in_the_next_panel() {
    let cuts = vec![cut("A", "apron", (0.0, 0.0), (60.0, 25.0)), cut("B", "band", (60.0, 0.0), (40.0, 44.0))];
    let length = cloth((100.0, 100.0), 44.0, cuts);
    assert_eq!(View::of(&length, 10.0, 58.5).panels, [(0.0, 50.0), (50.0, 100.0)]);
    let (sketch, _) = panel(&length, 58.5, 1, &[]);
    assert_drawn(
        &sketch,
        &[
            "waste (0 0) (44 0) (44 50) (0 50)",
            "white (0 0) (0 10) (25 10) (25 0)",
            "edge (0 0) (0 10)",
            "edge (0 10) (25 10)",
            "edge (25 10) (25 0)",
            "A at (5.99 5) middle 3.4 bold",
            "60 × 25 at (14.723 5) middle",
            "fine (2.083 2) (2.083 8)",
            "black (2.083 8) (1.483 6) (2.683 6)",
            "black (2.083 2) (2.683 4) (1.483 4)",
            "white (0 10) (0 50) (44 50) (44 10)",
            "edge (0 10) (0 50)",
            "edge (0 50) (44 50)",
            "edge (44 50) (44 10)",
            "edge (44 10) (0 10)",
            "B at (22 26.3) middle 4.4 bold",
            "band at (22 30.35) middle",
            "40 × 44 at (22 34.05) middle",
            "fine (16.5 16.333) (16.5 30.333)",
            "black (16.5 30.333) (15.9 28.333) (17.1 28.333)",
            "black (16.5 16.333) (17.1 18.333) (15.9 18.333)",
            "edge (0 0) (0 50)",
            "fine (-0.8 0) (-0.8 50)",
            "edge (44 0) (44 50)",
            "fine (44.8 0) (44.8 50)",
            "fine (0 0) (44 0)",
            "edge (0 50) (44 50)",
            "44 wide at (22 -2.6) middle",
            "fine (-2.4 10) (-1.2 10)",
            "fine (-2.4 10) (-5 10)",
            "60 at (-5.8 10) end",
            "fine (-2.4 50) (-1.2 50)",
            "fine (-2.4 50) (-5 50)",
            "100 at (-5.8 50) end",
        ],
    );
    let first = told(&panel(&length, 58.5, 0, &[]).0);
    assert!(first.contains(&"edge (0 0) (44 0)".to_owned()) && first.contains(&"fine (0 50) (44 50)".to_owned()));
    // The band begins below it, and so does every mark but 0; the apron is white down to its end.
    let white: Vec<&String> = first.iter().filter(|item| item.starts_with("white")).collect();
    assert_eq!(white, ["white (0 0) (0 50) (25 50) (25 0)"]);
    assert_eq!(first.iter().filter(|item| item.ends_with(" end")).collect::<Vec<_>>(), ["0 at (-5.8 0) end"]);
}

/// Where the pieces end, and from where to where the panels go.
type Case = (&'static [f64], &'static [(f64, f64)]);

/// By pencil, on panels of at most 50: a break between pieces at 20 or less would leave a panel too empty, so that the
/// last break up to 50 is taken, and where there is none the cloth is cut through.
#[test]
fn panels_end_between_pieces_where_they_can() {
    let cases: [Case; 5] = [
        (&[50.0], &[(0.0, 50.0)]),
        (&[30.0, 60.0, 100.0], &[(0.0, 30.0), (30.0, 60.0), (60.0, 100.0)]),
        (&[50.0, 100.0], &[(0.0, 50.0), (50.0, 100.0)]),
        (&[20.0, 90.0], &[(0.0, 50.0), (50.0, 90.0)]),
        (&[21.0, 60.0], &[(0.0, 21.0), (21.0, 60.0)]),
    ];
    for (ends, panels) in cases {
        let starts = [0.0].iter().chain(ends);
        let cuts: Vec<DrawnCut> =
            starts.zip(ends).map(|(from, to)| cut("A", "apron", (*from, 0.0), (to - from, 40.0))).collect();
        let long = ends[ends.len() - 1];
        let found = View::of(&cloth((long, long), 40.0, cuts), 10.0, 58.5).panels;
        let near = |found: f64, wanted: f64| (found - wanted).abs() < 1e-9;
        assert!(
            found.len() == panels.len()
                && found.iter().zip(panels).all(|(found, wanted)| near(found.0, wanted.0) && near(found.1, wanted.1)),
            "{ends:?}: {found:?}"
        );
    }
    // Two pieces side by side: no break is within either of them. At 35 one ends while the other goes on to 45.
    let side_by_side = vec![
        cut("A", "apron", (0.0, 0.0), (35.0, 20.0)),
        cut("B", "band", (0.0, 20.0), (45.0, 20.0)),
        cut("A", "apron", (35.0, 0.0), (10.0, 20.0)),
        cut("C", "cuff", (45.0, 0.0), (45.0, 40.0)),
    ];
    assert_eq!(View::of(&cloth((90.0, 90.0), 40.0, side_by_side), 10.0, 58.5).panels, [(0.0, 45.0), (45.0, 90.0)]);
}

fn marks_of(ends: &[f64], long: f64) -> Vec<String> {
    let starts = [0.0].iter().chain(ends);
    let cuts = starts.zip(ends).map(|(from, to)| cut("A", "apron", (*from, 0.0), (to - from, 40.0))).collect();
    let length = cloth((long, long), 40.0, cuts);
    let view = View::of(&length, 10.0, MOST);
    told(&view.empty_panel(view.panels[0], &style())).split_off(7)
}

/// By pencil, 3.4 mm apart: 0, 1 and 2 would begin at −2.4, above the room for the width, and so begin at −2.25. 57 to 60
/// would end at 63.6, lower than 3 mm below the cloth, and so end at 63.
#[test]
fn running_marks_that_are_close_move_apart() {
    let marks = marks_of(&[1.0, 2.0, 60.0], 60.0);
    assert_eq!(
        marks,
        [
            "fine (-2.4 0) (-1.2 0)",
            "fine (-2.4 0) (-5 -2.25)",
            "0 at (-5.8 -2.25) end",
            "fine (-2.4 1) (-1.2 1)",
            "fine (-2.4 1) (-5 1.15)",
            "1 at (-5.8 1.15) end",
            "fine (-2.4 2) (-1.2 2)",
            "fine (-2.4 2) (-5 4.55)",
            "2 at (-5.8 4.55) end",
            "fine (-2.4 60) (-1.2 60)",
            "fine (-2.4 60) (-5 60)",
            "60 at (-5.8 60) end",
        ]
    );
    let words = |marks: Vec<String>| marks.into_iter().filter(|mark| mark.contains(" at ")).collect::<Vec<_>>();
    assert_eq!(
        words(marks_of(&[57.0, 58.0, 59.0, 60.0], 60.0)),
        [
            "0 at (-5.8 0) end",
            "57 at (-5.8 52.8) end",
            "58 at (-5.8 56.2) end",
            "59 at (-5.8 59.6) end",
            "60 at (-5.8 63) end"
        ]
    );
    // Eleven in 10 mm: upwards from 13 only six have room, the highest no more than 2 mm above the room for the width.
    let eleven: Vec<f64> = (1..=10).map(f64::from).collect();
    assert_eq!(
        words(marks_of(&eleven, 10.0)),
        [
            "5 at (-5.8 -4) end",
            "6 at (-5.8 -0.6) end",
            "7 at (-5.8 2.8) end",
            "8 at (-5.8 6.2) end",
            "9 at (-5.8 9.6) end",
            "10 at (-5.8 13) end"
        ]
    );
}

/// By pencil: so many marks as 3.4 mm each have room beside the cloth and a line more. Four marks take 13.6 mm: of 9.9 and
/// 3.7 they have just room. A letter of 2.8 mm takes 2.51 by 2.8, and 1.2 more.
#[test]
fn a_lay_is_legible_where_its_letters_and_marks_have_room() {
    let is_legible = |ends: &[f64], wide: f64| {
        let starts = [0.0].iter().chain(ends);
        let cuts = starts.zip(ends).map(|(from, to)| cut("A", "apron", (*from, 0.0), (to - from, wide))).collect();
        let long = ends[ends.len() - 1];
        View::of(&cloth((long, long), 40.0, cuts), 10.0, MOST).is_legible()
    };
    assert!(is_legible(&[4.1], 3.8) && !is_legible(&[4.1], 3.6));
    assert!(is_legible(&[4.1], 30.0) && !is_legible(&[3.9], 30.0));
    // One piece in two has no room.
    assert!(!is_legible(&[4.1, 8.0], 30.0) && !is_legible(&[3.9, 8.0], 30.0));
    // Ten pieces of 4.1 have eleven marks, 37.4 mm, beside 41 and 3.7.
    let many = |each: f64, count: u32| (1..=count).map(|at| each * f64::from(at)).collect::<Vec<_>>();
    assert!(is_legible(&many(4.1, 10), 30.0));
    // Two columns of pieces that start one after the other give twice as many marks: 20 and 1 are 71.4 mm.
    let staggered = |each: f64| {
        let cuts = (0..20).map(|at| {
            let left = f64::from(at % 2) * 20.0;
            cut("A", "apron", (f64::from(at) * each, left), (2.0 * each, 20.0))
        });
        View::of(&cloth((21.0 * each, 21.0 * each), 40.0, cuts.collect()), 10.0, MOST).is_legible()
    };
    // 22 marks are 74.8 mm; 21 pieces of 3.38 and a line are 74.68, of 3.4 they are 75.1.
    assert!(staggered(3.4) && !staggered(3.38));
}

/// By pencil, what a rest says: along alone over the full width, both sizes otherwise; in a row, upright, one below the
/// other 3.3 mm apart, or nothing. `keep 9 × 8` is 16.24 mm wide, `keep` 7.28.
#[test]
fn a_rest_worth_keeping_says_its_size_where_it_has_room() {
    let words = |rests: Vec<DrawnRest>| {
        let length = DrawnLength { rests, ..cloth((40.0, 40.0), 60.0, Vec::new()) };
        let all = told(&panel(&length, MOST, 0, &[]).0);
        let end = all.iter().position(|item| item.starts_with("edge")).unwrap();
        all[1..end].to_vec()
    };
    let boxed = |at: f64| format!("white (0.6 0.6) ({at} 0.6) ");
    let unwashed = DrawnRest { unwashed: true, ..rest((0.0, 10.0), (0.0, 60.0)) };
    assert_eq!(words(vec![unwashed])[2..], ["keep 10 unwashed at (30 5) middle"]);
    assert_eq!(words(vec![rest((0.0, 9.0), (0.0, 30.0))])[2..], ["keep 9 × 30 at (15 4.5) middle"]);
    // 1.2 mm are lost to its edges, and 0.8 to the room round the text: 18.24 are needed in a row, 4.8 across it.
    let sized =
        |along: f64, across: f64| DrawnRest { along: cm(9.0), across: cm(8.0), ..rest((0.0, along), (0.0, across)) };
    assert_eq!(words(vec![sized(9.0, 18.3)])[2..], ["keep 9 × 8 at (9.15 4.5) middle"]);
    assert_eq!(words(vec![sized(18.3, 8.0)])[2..], ["keep 9 × 8 at (4 9.15) middle upright"]);
    assert_eq!(
        words(vec![sized(15.0, 18.2)])[2..],
        ["keep at (9.1 2.55) middle", "9 at (9.1 5.85) middle", "× at (9.1 9.15) middle", "8 at (9.1 12.45) middle"]
    );
    assert_eq!(words(vec![sized(18.2, 4.7)]).len(), 2, "neither row nor column");
    // Four lines are 13.6 mm high, with 1.2 for the edges.
    assert_eq!(words(vec![sized(14.9, 18.2)]).len(), 2 + 4);
    assert_eq!(words(vec![sized(14.7, 18.2)]).len(), 2);
    assert!(words(vec![sized(9.0, 18.3)])[0].starts_with(&boxed(17.7)));
    // Less than 1 mm inside its edges, it is not drawn.
    assert!(words(vec![rest((0.0, 2.1), (0.0, 30.0))]).is_empty());
    assert_eq!(words(vec![rest((0.0, 2.3), (0.0, 30.0))]).len(), 2);
    assert!(words(vec![rest((0.0, 30.0), (0.0, 2.1))]).is_empty());
    assert!(words(vec![DrawnRest { kept: false, ..rest((0.0, 9.0), (0.0, 30.0)) }]).is_empty());
}

/// By pencil: over 20 mm the zigzag goes out 1.3 at most, and 3 mm or 0.16 of its way to either side of the middle.
#[test]
fn a_break_is_a_zigzag_over_a_gap_of_a_millimetre() {
    let mut sketch = Sketch::default();
    break_sign(&mut sketch, (5.0, 10.0), (5.0, 20.0));
    // 10 down: 0.8 out, 1.6 to either side of the middle.
    assert_eq!(
        told(&sketch)[1..],
        [
            "fine (5.5 10) (5.5 13.4) (6.3 14.2) (4.7 15.8) (5.5 16.6) (5.5 20)",
            "fine (4.5 10) (4.5 13.4) (5.3 14.2) (3.7 15.8) (4.5 16.6) (4.5 20)"
        ]
    );
}

/// By pencil: in a piece 4 by 30 the mark `7` of 1.82 by 2.8 mm has no room in a row or upright, for the letter has taken
/// it; the words below say where it lies.
#[test]
fn a_piece_without_room_for_its_marks_is_told_in_words() {
    let narrow = cut("A", "tie", (10.0, 3.0), (4.1, 4.0));
    let length = cloth((40.0, 40.0), 60.0, vec![narrow]);
    let (sketch, untold) = panel(&length, MOST, 0, &[]);
    assert_eq!(untold, ["A from 10 to 14.1 along lies from 3 to 7 across"]);
    let words: Vec<&str> = sketch.texts().map(|text| text.text.as_str()).collect();
    assert!(words.contains(&"A") && !words.contains(&"3") && !words.contains(&"7"), "{words:?}");
    assert!(told(&sketch).contains(&"A at (5 12.05) middle bold".to_owned()), "{:?}", told(&sketch));
}
