//! Pieces drawn at 1 : 10, so that a centimetre of cloth is a millimetre on paper. Every place is worked out from the
//! distances that the code names: 4.5 mm to a dimension line, 9 mm to the column beside the piece, 0.4 mm round a text.

use super::super::drawn_piece::{DrawnMark, DrawnPiece, DrawnShape, MarkPlace};
use super::super::piece_figure::{Figure, figure};
use super::{assert_drawn, told};
use crate::piece::{Fold, Grain, OutlinePoint};
use crate::quantity::{Length, Style, Tape};

pub(super) fn cm(value: f64) -> Length {
    Length::centimetres(value)
}

pub(super) fn piece(shape: DrawnShape) -> DrawnPiece {
    DrawnPiece {
        letters: vec!["A".to_owned()],
        name: "panel".to_owned(),
        notes: Vec::new(),
        shape,
        grain: Grain::Along,
        one_way: false,
        fold: None,
        marks: Vec::new(),
    }
}

pub(super) fn rectangle(across: f64, along: f64) -> DrawnShape {
    DrawnShape::Rectangle { along: cm(along), across: cm(across) }
}

pub(super) fn outline(corners: &[(f64, f64)]) -> DrawnShape {
    let corner = |(across, along): &(f64, f64)| OutlinePoint { across: cm(*across), along: cm(*along) };
    DrawnShape::Corners(corners.iter().map(corner).collect())
}

pub(super) fn bare(shape: DrawnShape) -> DrawnPiece {
    DrawnPiece { letters: Vec::new(), grain: Grain::Any, ..piece(shape) }
}

pub(super) fn drawn(piece: &DrawnPiece) -> Figure {
    figure(piece, 10.0, &Style { tape: Tape::Metric, ..Style::default() })
}

pub(super) fn mark(name: &str, distance: f64, from: &str, place: MarkPlace) -> DrawnMark {
    DrawnMark { name: name.to_owned(), distance: cm(distance), from: from.to_owned(), place }
}

/// The letter is 4.48 mm wide. Free of it by 0.6 mm, the arrow is 3 places of 1.25 mm to the left of the middle.
#[test]
fn a_rectangle_has_its_dimensions_its_letter_and_its_grain() {
    let Figure { sketch, told, complete } = drawn(&piece(rectangle(30.0, 40.0)));
    assert_drawn(
        &sketch,
        &[
            "white (0 0) (30 0) (30 40) (0 40)",
            "edge (0 0) (30 0) (30 40) (0 40) (0 0)",
            "fine (-0.8 40) (-5.7 40)",
            "fine (-0.8 0) (-5.7 0)",
            "fine (-4.5 40) (-4.5 0)",
            "black (-4.5 40) (-5.1 38) (-3.9 38)",
            "black (-4.5 0) (-3.9 2) (-5.1 2)",
            "fine (0 40.8) (0 45.7)",
            "fine (30 40.8) (30 45.7)",
            "fine (0 44.5) (30 44.5)",
            "black (0 44.5) (2 43.9) (2 45.1)",
            "black (30 44.5) (28 45.1) (28 43.9)",
            "40 at (-6.8 20) middle upright",
            "30 at (15 46.8) middle",
            "A at (15 20) middle 5 bold",
            "fine (11.25 29) (11.25 11)",
            "black (11.25 11) (11.85 13) (10.65 13)",
            "black (11.25 29) (10.65 27) (11.85 27)",
        ],
    );
    assert!(complete && told.is_empty(), "{told:?}");
}

/// The fold leaves no room for an arrow of 18 or 12 mm; one of 8 mm is 6 places of 25/24 mm below the fold, for above it
/// is the word.
#[test]
fn a_full_width_on_the_fold_has_selvedges_and_notches_in_its_long_edges() {
    let piece = DrawnPiece {
        one_way: true,
        letters: vec!["A".to_owned(), "B".to_owned()],
        fold: Some(Fold::Across),
        marks: vec![mark("notch", 6.0, "left end", MarkPlace::Notches(vec![cm(6.0)]))],
        ..piece(DrawnShape::FullWidth { along: cm(25.0), width: cm(60.0) })
    };
    let Figure { sketch, told, complete } = drawn(&piece);
    assert_drawn(
        &sketch,
        &[
            "white (0 0) (60 0) (60 25) (0 25)",
            "edge (0 0) (60 0) (60 25) (0 25) (0 0)",
            "fine (0.8 0) (0.8 25)",
            "fine (59.2 0) (59.2 25)",
            "fold (0 12.5) (60 12.5)",
            "fine (-0.8 25) (-5.7 25)",
            "fine (-0.8 0) (-5.7 0)",
            "fine (-4.5 25) (-4.5 0)",
            "black (-4.5 25) (-5.1 23) (-3.9 23)",
            "black (-4.5 0) (-3.9 2) (-5.1 2)",
            "fine (0 25.8) (0 30.7)",
            "fine (60 25.8) (60 30.7)",
            "fine (0 29.5) (60 29.5)",
            "black (0 29.5) (2 28.9) (2 30.1)",
            "black (60 29.5) (58 30.1) (58 28.9)",
            "edge (6 0) (6 1.8)",
            "edge (6 25) (6 23.2)",
            "fold at (30 10.4) middle",
            "25 at (-6.8 12.5) middle upright",
            "full width 60 at (30 31.8) middle",
            "fine (30 22.75) (30 14.75)",
            "black (30 14.75) (30.6 16.75) (29.4 16.75)",
        ],
    );
    assert!(complete);
    assert_eq!(told, ["notch 6: left end"]);
}

/// Right of the fold at 10 the letter is 4 places of 20/24 mm to the side. There is only room for an arrow of 5 mm, and
/// only above or below the letter.
#[test]
fn marks_stand_beside_their_lines() {
    let piece = DrawnPiece {
        one_way: true,
        grain: Grain::Across,
        fold: Some(Fold::Along),
        marks: vec![
            mark("hem", 8.0, "lower edge", MarkPlace::Levels(vec![cm(8.0), cm(42.0)])),
            mark("pleat", 5.0, "left edge", MarkPlace::Columns(vec![cm(5.0)])),
            mark("notch", 10.0, "lower end", MarkPlace::Notches(vec![cm(10.0)])),
        ],
        ..piece(rectangle(20.0, 50.0))
    };
    let Figure { sketch, told, complete } = drawn(&piece);
    assert_drawn(
        &sketch,
        &[
            "white (0 0) (20 0) (20 50) (0 50)",
            "edge (0 0) (20 0) (20 50) (0 50) (0 0)",
            "fold (10 0) (10 50)",
            "fine (-0.8 50) (-5.7 50)",
            "fine (-0.8 0) (-5.7 0)",
            "fine (-4.5 50) (-4.5 0)",
            "black (-4.5 50) (-5.1 48) (-3.9 48)",
            "black (-4.5 0) (-3.9 2) (-5.1 2)",
            "fine (0 50.8) (0 55.7)",
            "fine (20 50.8) (20 55.7)",
            "fine (0 54.5) (20 54.5)",
            "black (0 54.5) (2 53.9) (2 55.1)",
            "black (20 54.5) (18 55.1) (18 53.9)",
            "dashed (0 42) (20 42)",
            "dashed (0 8) (20 8)",
            "dashed (5 0) (5 50)",
            "edge (0 40) (1.8 40)",
            "edge (20 40) (18.2 40)",
            "fine (20.9 8) (22 8) (28.2 8)",
            "hem 8 at (29 8) start",
            "fine (20.9 42) (22 42) (28.2 42)",
            "hem 8 at (29 42) start",
            "fold at (7.9 25) middle upright",
            "50 at (-6.8 25) middle upright",
            "20 at (10 56.8) middle",
            "pleat 5 at (5 -2.4) middle",
            "A at (13.333 25) middle 5 bold",
            "fine (16.667 20.833) (11.667 20.833)",
            "black (11.667 20.833) (13.667 20.233) (13.667 21.433)",
        ],
    );
    assert!(complete);
    assert_eq!(told, ["notch 10: lower end"]);
}

/// By pencil: 40 at the foot, 28 at 24 up, 20 at 60 up, on a middle line at 20. The grain is on the bias: 12 mm of it
/// are 12/√2 = 8.485 mm to the side and up.
#[test]
fn an_even_outline_has_stations_from_its_middle_line() {
    let gore = [(0.0, 0.0), (40.0, 0.0), (34.0, 24.0), (30.0, 60.0), (10.0, 60.0), (6.0, 24.0)];
    let gore = DrawnPiece { grain: Grain::Bias, ..piece(outline(&gore)) };
    let Figure { sketch, told: words, complete } = drawn(&gore);
    assert_drawn(
        &sketch,
        &[
            "white (0 60) (40 60) (34 36) (30 0) (10 0) (6 36)",
            "edge (0 60) (40 60) (34 36) (30 0) (10 0) (6 36) (0 60)",
            "fine (-0.8 60) (-5.7 60)",
            "fine (-0.8 0) (-5.7 0)",
            "fine (-4.5 60) (-4.5 0)",
            "black (-4.5 60) (-5.1 58) (-3.9 58)",
            "black (-4.5 0) (-3.9 2) (-5.1 2)",
            "fine (0 60.8) (0 65.7)",
            "fine (40 60.8) (40 65.7)",
            "fine (0 64.5) (40 64.5)",
            "black (0 64.5) (2 63.9) (2 65.1)",
            "black (40 64.5) (38 65.1) (38 63.9)",
            "fine (20 0) (20 60)",
            "fine (19.2 60) (20.8 60)",
            "black (-0.45 59.55) (0.45 59.55) (0.45 60.45) (-0.45 60.45)",
            "black (39.55 59.55) (40.45 59.55) (40.45 60.45) (39.55 60.45)",
            "fine (19.2 36) (20.8 36)",
            "black (5.55 35.55) (6.45 35.55) (6.45 36.45) (5.55 36.45)",
            "black (33.55 35.55) (34.45 35.55) (34.45 36.45) (33.55 36.45)",
            "fine (19.2 0) (20.8 0)",
            "black (9.55 -0.45) (10.45 -0.45) (10.45 0.45) (9.55 0.45)",
            "black (29.55 -0.45) (30.45 -0.45) (30.45 0.45) (29.55 0.45)",
            "fine (30.9 0) (42 0) (48.2 0)",
            "up 60, out 10 at (49 0) start",
            "fine (34.9 36) (42 36) (48.2 36)",
            "up 24, out 14 at (49 36) start",
            "fine (40.9 60) (42 60) (48.2 60)",
            "up 0, out 20 at (49 60) start",
            "60 at (-6.8 30) middle upright",
            "40 at (20 66.8) middle",
            "A at (16.667 30) middle 5 bold",
            "fine (30.909 34.243) (22.424 25.757)",
            "black (22.424 25.757) (24.263 26.747) (23.414 27.596)",
            "black (30.909 34.243) (29.071 33.253) (29.919 32.404)",
        ],
    );
    assert!(complete);
    assert_eq!(words, ["stations: up from the lower edge, out from the middle line to either side"]);
    // On the fold, the fold is its middle line.
    let folded = drawn(&DrawnPiece { fold: Some(Fold::Along), ..gore });
    assert!(told(&folded.sketch).contains(&"fold (20 0) (20 60)".to_owned()));
    assert!(!told(&folded.sketch).contains(&"fine (20 0) (20 60)".to_owned()));
}

#[test]
fn an_uneven_outline_has_stations_from_a_line_at_its_left() {
    let odd = bare(outline(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (6.0, 20.0), (3.0, 10.0)]));
    let Figure { sketch, told: words, .. } = drawn(&odd);
    assert_drawn(
        &sketch,
        &[
            "white (0 20) (30 20) (30 0) (6 0) (3 10)",
            "edge (0 20) (30 20) (30 0) (6 0) (3 10) (0 20)",
            "fine (-0.8 20) (-5.7 20)",
            "fine (-0.8 0) (-5.7 0)",
            "fine (-4.5 20) (-4.5 0)",
            "black (-4.5 20) (-5.1 18) (-3.9 18)",
            "black (-4.5 0) (-3.9 2) (-5.1 2)",
            "fine (0 20.8) (0 25.7)",
            "fine (30 20.8) (30 25.7)",
            "fine (0 24.5) (30 24.5)",
            "black (0 24.5) (2 23.9) (2 25.1)",
            "black (30 24.5) (28 25.1) (28 23.9)",
            "fine (0 0) (0 20)",
            "fine (-0.8 20) (0.8 20)",
            "black (-0.45 19.55) (0.45 19.55) (0.45 20.45) (-0.45 20.45)",
            "black (29.55 19.55) (30.45 19.55) (30.45 20.45) (29.55 20.45)",
            "fine (-0.8 10) (0.8 10)",
            "black (2.55 9.55) (3.45 9.55) (3.45 10.45) (2.55 10.45)",
            "black (29.55 9.55) (30.45 9.55) (30.45 10.45) (29.55 10.45)",
            "fine (-0.8 0) (0.8 0)",
            "black (5.55 -0.45) (6.45 -0.45) (6.45 0.45) (5.55 0.45)",
            "black (29.55 -0.45) (30.45 -0.45) (30.45 0.45) (29.55 0.45)",
            "fine (30.9 0) (32 0) (38.2 0)",
            "up 20, at 6 and 30 at (39 0) start",
            "fine (30.9 10) (32 10) (38.2 10)",
            "up 10, at 3 and 30 at (39 10) start",
            "fine (30.9 20) (32 20) (38.2 20)",
            "up 0, at 0 and 30 at (39 20) start",
            "20 at (-6.8 10) middle upright",
            "30 at (15 26.8) middle",
        ],
    );
    assert_eq!(words, ["stations: up from the lower edge, at so far to the right of the thin line at the left"]);
    // A fold is no middle line of what is uneven.
    let folded = drawn(&DrawnPiece { fold: Some(Fold::Along), ..odd });
    assert!(told(&folded.sketch).contains(&"fine (0 0) (0 20)".to_owned()));
}

/// By pencil: `radius 30` is 13.944 mm wide, in the middle between a fifth of the hem and the hem, above its line; that
/// of the waist stands 1.2 mm behind its tip. The letter has its first room 7.5 to the left and 12.5 up from the middle,
/// the arrow 12.5 both ways.
#[test]
fn a_ring_has_a_radius_to_either_side() {
    let ring = piece(DrawnShape::Sector { inner: cm(10.0), outer: cm(30.0), turn: 1.0 });
    let Figure { sketch, told: words, complete } = drawn(&ring);
    let all = told(&sketch);
    // The cloth, and two circles of 96 steps that begin and end above.
    assert!(all[0].starts_with("white (30 0) ") && all[0].contains(" (60 30) ") && all[0].contains(" and (30 20) "));
    assert_eq!(all[1].matches('(').count(), 98);
    assert!(all[1].starts_with("edge (30 0) ") && all[1].contains(" (30 60) ") && all[2].starts_with("edge (30 20) "));
    assert_eq!(
        all[3..],
        [
            "fine (28.5 30) (31.5 30)",
            "fine (30 28.5) (30 31.5)",
            "fine (31.5 30) (60 30)",
            "black (60 30) (58 30.6) (58 29.4)",
            "fine (28.5 30) (20 30)",
            "black (20 30) (22 29.4) (22 30.6)",
            "radius 30 at (48 27.9) middle",
            "radius 10 at (11.828 30) middle",
            "A at (22.5 17.5) middle 5 bold",
            "fine (17.5 26.5) (17.5 8.5)",
            "black (17.5 8.5) (18.1 10.5) (16.9 10.5)",
            "black (17.5 26.5) (16.9 24.5) (18.1 24.5)",
        ]
    );
    assert!(complete && words.is_empty());
    let marked = DrawnPiece {
        marks: vec![
            mark("slit", 5.0, "waist", MarkPlace::Slit(cm(5.0))),
            mark("line", 20.0, "middle", MarkPlace::Ring(cm(20.0))),
            mark("dots", 7.0, "waist", MarkPlace::Told),
        ],
        ..ring
    };
    let marked = drawn(&marked);
    let all = told(&marked.sketch);
    assert!(all.contains(&"dashed (30 40) (30 45)".to_owned()) && all.contains(&"edge (29 45) (31 45)".to_owned()));
    let line = all.iter().find(|line| line.starts_with("dashed (30 10) ")).unwrap();
    assert!(line.contains(" (50 30) ") && line.contains(" (10 30) ") && line.contains(" (30 50) "));
    assert_eq!(marked.told, ["slit 5: waist", "line 20: middle", "dots 7: waist"]);
}

/// By pencil: of a sixth of a turn the straight edges are 30° from the vertical, sine 0.5 and cosine 0.866. Radii of 10
/// and 40 then have ends 5 and 20 to the side, 8.66 and 34.641 down; over all it is 40 wide and 31.34 high. Outwards from
/// the right edge is 0.866 to the side and 0.5 up. A text 13.944 wide is 0.433 of that and 0.7 out from its line, and 0.9
/// more.
#[test]
fn a_part_of_a_ring_has_its_radii_beside_its_straight_edges() {
    let part = bare(DrawnShape::Sector { inner: cm(10.0), outer: cm(40.0), turn: 1.0 / 6.0 });
    let Figure { sketch, complete, .. } = drawn(&part);
    let all = told(&sketch);
    let edge: Vec<&str> = all[1].trim_start_matches("edge ").split(") (").collect();
    // Sixteen steps on the hem and on the waist, and back to the start.
    assert_eq!(edge.len(), 17 + 17 + 1);
    assert_eq!((edge[0], edge[8], edge[16]), ("(0 25.981", "20 31.34", "40 25.981"));
    assert_eq!((edge[17], edge[25], edge[33], edge[34]), ("25 0", "20 1.34", "15 0", "0 25.981)"));
    assert_eq!(
        all[2..],
        [
            "fine (18.5 -8.66) (21.5 -8.66)",
            "fine (20 -10.16) (20 -7.16)",
            "fine (20.693 -9.06) (24.936 -11.51)",
            "fine (40.693 25.581) (44.936 23.131)",
            "fine (23.897 -10.91) (43.897 23.731)",
            "black (23.897 -10.91) (25.417 -9.478) (24.377 -8.878)",
            "black (43.897 23.731) (42.377 22.299) (43.417 21.699)",
            "fine (19.307 -9.06) (15.064 -11.51)",
            "fine (14.307 -0.4) (10.064 -2.85)",
            "fine (16.103 -10.91) (11.103 -2.25)",
            "black (16.103 -10.91) (15.623 -8.878) (14.583 -9.478)",
            "black (11.103 -2.25) (11.583 -4.282) (12.623 -3.682)",
            "fine (0 32.14) (0 37.04)",
            "fine (40 32.14) (40 37.04)",
            "fine (0 35.84) (40 35.84)",
            "black (0 35.84) (2 35.24) (2 36.44)",
            "black (40 35.84) (38 36.44) (38 35.24)",
            "radius 40 at (40.512 2.591) middle",
            "radius 10 at (6.988 -10.399) middle",
            "40 over all at (20 38.14) middle",
        ]
    );
    assert!(complete);
    // From a quarter of a turn on, the hem is as wide as its whole circle, and without a waist there is one radius.
    let half = bare(DrawnShape::Sector { inner: Length::ZERO, outer: cm(40.0), turn: 0.5 });
    let words: Vec<String> = drawn(&half).sketch.texts().map(|text| text.text.clone()).collect();
    assert_eq!(words, ["radius 40", "80 over all"]);
}
