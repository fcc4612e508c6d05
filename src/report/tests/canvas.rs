//! Rectangles, strokes, letters and free places of a page, each worked by pencil.

use super::super::canvas::{
    Anchor, Fill, Frame, Item, MARGIN, PAGE, Pen, Point, Sketch, Text, first_lines, has_room, holds, is_inside,
    places_inside, spread, text_width, wrapped,
};
use super::{assert_drawn, told};

const FRAME: Frame = Frame { left: 2.0, top: 1.0, right: 12.0, bottom: 5.0 };

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() < 1e-9
}

#[track_caller]
fn assert_frame(found: Frame, left: f64, top: f64, right: f64, bottom: f64) {
    let sides = [(found.left, left), (found.top, top), (found.right, right), (found.bottom, bottom)];
    assert!(sides.iter().all(|(found, wanted)| near(*found, *wanted)), "{found:?}");
}

/// ISO 216: A4 is 210 mm by 297 mm. A centimetre at the edge is what most printers leave white (common practice, no
/// source).
#[test]
fn a_page_is_a4_upright() {
    assert_eq!(PAGE, (210.0, 297.0));
    assert!(near(MARGIN, 10.0));
}

#[test]
fn a_frame_goes_round_its_points() {
    assert_frame(Frame::around((7.0, 5.0), 4.0, 3.0), 5.0, 3.5, 9.0, 6.5);
    let round = |points: &[Point]| Frame::of(points.iter().copied());
    assert_frame(round(&[(3.0, -1.0), (-2.0, 4.0), (5.0, 2.0)]).unwrap(), -2.0, -1.0, 5.0, 4.0);
    assert_frame(round(&[(-2.0, 4.0), (3.0, -1.0)]).unwrap(), -2.0, -1.0, 3.0, 4.0);
    assert_frame(round(&[(3.0, 8.0)]).unwrap(), 3.0, 8.0, 3.0, 8.0);
    assert_eq!(round(&[]), None);
    let other = Frame { left: 1.0, top: 3.0, right: 11.0, bottom: 9.0 };
    assert_frame(FRAME.with(other), 1.0, 1.0, 12.0, 9.0);
    assert_frame(other.with(FRAME), 1.0, 1.0, 12.0, 9.0);
    assert_frame(FRAME.grown(0.5), 1.5, 0.5, 12.5, 5.5);
    assert!(near(FRAME.width(), 10.0) && near(FRAME.height(), 4.0));
    assert_eq!(FRAME.corners(), [(2.0, 1.0), (12.0, 1.0), (12.0, 5.0), (2.0, 5.0)]);
}

#[test]
fn frames_that_touch_do_not_overlap() {
    let moved = |x: f64, y: f64| Frame {
        left: FRAME.left + x,
        top: FRAME.top + y,
        right: FRAME.right + x,
        bottom: FRAME.bottom + y,
    };
    for (x, y, overlap) in [
        (0.0, 0.0, true),
        (9.9, 0.0, true),
        (10.0, 0.0, false),
        (-9.9, 0.0, true),
        (-10.0, 0.0, false),
        (0.0, 3.9, true),
        (0.0, 4.0, false),
        (0.0, -3.9, true),
        (0.0, -4.0, false),
        (9.9, 3.9, true),
        (-9.9, -3.9, true),
        (10.5, 3.0, false),
        (3.0, -4.5, false),
    ] {
        assert_eq!(FRAME.overlaps(moved(x, y)), overlap, "{x} {y}");
    }
}

/// Own geometry, on a frame from 2 to 12 to the right and from 1 to 5 down.
#[test]
fn a_stroke_is_in_a_frame_from_whichever_side_it_comes() {
    let crosses = [
        ((0.0, 3.0), (14.0, 3.0)),
        ((14.0, 3.0), (0.0, 3.0)),
        ((7.0, 0.0), (7.0, 9.0)),
        ((7.0, 9.0), (7.0, 0.0)),
        ((0.0, 1.5), (14.0, 1.5)),
        ((2.5, 0.0), (2.5, 9.0)),
        ((0.0, 3.0), (2.5, 3.0)),
        ((14.0, 3.0), (11.5, 3.0)),
        ((7.0, 0.0), (7.0, 1.5)),
        ((7.0, 9.0), (7.0, 4.5)),
        ((7.0, 2.0), (7.2, 2.1)),
        // Over each corner: 1 mm in on both sides of it.
        ((1.0, 3.0), (4.0, 0.0)),
        ((10.0, 0.0), (13.0, 3.0)),
        ((13.0, 3.0), (10.0, 6.0)),
        ((4.0, 6.0), (1.0, 3.0)),
    ];
    for (from, to) in crosses {
        assert!(FRAME.is_crossed(from, to), "{from:?} to {to:?}");
        assert!(FRAME.is_crossed(to, from), "{to:?} to {from:?}");
    }
    let passes = [
        // Along each side, and beyond it.
        ((0.0, 1.0), (14.0, 1.0)),
        ((0.0, 5.0), (14.0, 5.0)),
        ((2.0, 0.0), (2.0, 9.0)),
        ((12.0, 0.0), (12.0, 9.0)),
        ((0.0, 0.5), (14.0, 0.5)),
        ((0.0, 5.5), (14.0, 5.5)),
        ((1.5, 0.0), (1.5, 9.0)),
        ((12.5, 0.0), (12.5, 9.0)),
        // Ends before it.
        ((-3.0, 3.0), (1.5, 3.0)),
        ((12.2, 3.0), (12.7, 3.0)),
        ((7.0, -4.0), (7.0, 0.5)),
        ((7.0, 5.2), (7.0, 5.7)),
        ((1.2, 3.0), (1.7, 3.0)),
        ((7.0, 0.2), (7.0, 0.7)),
        // Touches each corner.
        ((1.0, 2.0), (3.0, 0.0)),
        ((11.0, 0.0), (13.0, 2.0)),
        ((13.0, 4.0), (11.0, 6.0)),
        ((3.0, 6.0), (1.0, 4.0)),
    ];
    for (from, to) in passes {
        assert!(!FRAME.is_crossed(from, to), "{from:?} to {to:?}");
        assert!(!FRAME.is_crossed(to, from), "{to:?} to {from:?}");
    }
}

/// One letter of each width, in letters of 10 mm. The shares are those of a wide usual font (`DejaVu` Sans, from
/// memory), rounded up.
#[test]
fn letters_are_as_wide_as_in_a_wide_font() {
    let letters =
        [('i', 3.0), (' ', 3.5), ('f', 4.3), ('a', 6.5), ('w', 8.5), ('m', 10.0), ('Q', 8.0), ('絹', 10.5), ('7', 6.5)];
    for (letter, wide) in letters {
        assert!(near(text_width(&letter.to_string(), 10.0, false), wide), "{letter}");
    }
    // In order: 3 and 6.5 in letters half as high, and 12 % more in bold.
    assert!(near(text_width("ia", 5.0, false), 4.75));
    assert!(near(text_width("ia", 5.0, true), 5.32));
}

/// `abc` is three times 0.65 of 2.8 mm, 5.46 mm.
#[test]
fn a_text_stands_at_before_or_behind_its_place() {
    let of = |anchor| Text::new("abc", (20.0, 30.0), anchor);
    assert_frame(of(Anchor::Start).frame(), 20.0, 28.6, 25.46, 31.4);
    assert_frame(of(Anchor::Middle).frame(), 17.27, 28.6, 22.73, 31.4);
    assert_frame(of(Anchor::End).frame(), 14.54, 28.6, 20.0, 31.4);
    assert_frame(of(Anchor::Start).upright().frame(), 18.6, 27.27, 21.4, 32.73);
    // In bold, 5 mm high: 3 × 0.65 × 5 × 1.12.
    assert_frame(of(Anchor::Start).bold(5.0).frame(), 20.0, 27.5, 30.92, 32.5);
    assert!(!of(Anchor::Start).bold && !of(Anchor::Start).upright && of(Anchor::Start).bold(5.0).bold);
    assert!(!of(Anchor::Start).bold(5.0).upright);
}

/// By pencil: a direction of 3 and 4 is 0.6 and 0.8 of its length. The head is 2 mm long, and either half of its foot
/// is 0.6 mm wide.
#[test]
fn an_arrow_has_its_head_at_its_tip() {
    let mut sketch = Sketch::default();
    sketch.arrow_head((10.0, 20.0), (3.0, 4.0));
    sketch.arrow_head((10.0, 20.0), (0.0, 0.0));
    assert_drawn(&sketch, &["black (10 20) (8.32 18.76) (9.28 18.04)", "black (10 20) (10 20) (10 20)"]);
}

#[test]
fn a_figure_moves_as_a_whole() {
    let mut figure = Sketch::default();
    figure.box_of(FRAME, Fill::Waste);
    figure.closed(&[(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)], Pen::Fold);
    figure.line((1.0, 2.0), (5.0, 3.0), Pen::Dashed);
    figure.stroke(vec![(1.0, 2.0), (1.5, 2.0), (7.0, 9.0)], Pen::Fine);
    figure.text(Text::new("a", (3.0, 4.0), Anchor::End));
    let mut page = Sketch::default();
    page.area(vec![vec![(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]], Fill::Order(3));
    page.add(figure, (100.0, 20.0));
    assert_drawn(
        &page,
        &[
            "order 3 (0 0) (1 0) (0 1)",
            "waste (102 21) (112 21) (112 25) (102 25)",
            "fold (100 20) (104 20) (104 23) (100 20)",
            "dashed (101 22) (105 23)",
            "fine (101 22) (101.5 22) (107 29)",
            "a at (103 24) end",
        ],
    );
    // Six straight parts: three, one and two.
    assert_eq!(page.segments().count(), 6);
    assert!(page.segments().any(|part| part == ((101.5, 22.0), (107.0, 29.0))));
    assert_eq!(page.texts().count(), 1);
    assert_frame(page.bounds(), 0.0, 0.0, 112.0, 29.0);
}

#[test]
fn bounds_go_round_areas_strokes_and_texts() {
    let bounds = |item: Item| Sketch { items: vec![item] }.bounds();
    let line = vec![(3.0, 4.0), (9.0, 6.0)];
    assert_frame(bounds(Item::Stroke { points: line.clone(), pen: Pen::Fine }), 3.0, 4.0, 9.0, 6.0);
    assert_frame(bounds(Item::Area { lines: vec![line], fill: Fill::White }), 3.0, 4.0, 9.0, 6.0);
    assert_frame(bounds(Item::Text(Text::new("abc", (20.0, 30.0), Anchor::Start))), 20.0, 28.6, 25.46, 31.4);
    assert_frame(Sketch::default().bounds(), 0.0, 0.0, 0.0, 0.0);
}

/// By pencil: round `abc` at its place the frame is from 20 to 25.46 and from 28.6 to 31.4, and 0.4 mm wider for a
/// text or a stroke beside it.
#[test]
fn a_text_keeps_its_distance_from_texts_and_strokes() {
    let mut page = Sketch::default();
    page.text(Text::new("abc", (20.0, 30.0), Anchor::Start));
    page.line((50.0, 0.0), (50.0, 60.0), Pen::Fine);
    let at = |x: f64, y: f64| Text::new("abc", (x, y), Anchor::Start);
    // To the right of the text, below it, and on either side of the stroke.
    for (x, y, free) in [
        (25.8, 30.0, false),
        (25.9, 30.0, true),
        (20.0, 33.1, false),
        (20.0, 33.3, true),
        (44.2, 10.0, false),
        (44.1, 10.0, true),
        (50.3, 10.0, false),
        (50.5, 10.0, true),
    ] {
        assert_eq!(page.is_free(at(x, y).frame(), 0.4), free, "{x} {y}");
        assert_eq!(page.clone().place([at(x, y)]), free, "{x} {y}");
    }
    for (y, clear) in [(28.1, true), (28.3, false), (30.0, false), (31.7, false), (31.9, true)] {
        assert_eq!(page.is_clear((0.0, y), (49.0, y)), clear, "{y}");
    }
    // The first free one of several is taken, and none where none is.
    let mut placed = page.clone();
    assert!(placed.place([at(21.0, 30.0), at(60.0, 30.0), at(70.0, 30.0)]));
    assert_eq!(told(&placed)[2..], ["abc at (60 30) start"]);
    assert!(!page.place([at(21.0, 30.0), at(49.0, 30.0)]));
    assert_eq!(page.items.len(), 2);
}

fn diamond() -> Vec<Vec<Point>> {
    vec![vec![(0.0, -5.0), (7.0, 0.0), (0.0, 5.0), (-7.0, 0.0)]]
}

fn upright(wide: f64, high: f64) -> Vec<Vec<Point>> {
    vec![vec![(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]]
}

/// Own geometry: the diamond's upper right side runs from 0 over, 5 up to 7 over; half-way up it is 3.5 to the side.
#[test]
fn a_place_is_inside_or_outside_by_its_crossings() {
    for (x, y, inside) in [
        (0.0, 0.0, true),
        (-6.9, 0.0, true),
        (6.9, 0.0, true),
        (7.1, 0.0, false),
        (-7.1, 0.0, false),
        (3.4, -2.5, true),
        (3.6, -2.5, false),
        (-3.4, 2.5, true),
        (-3.6, 2.5, false),
        (0.0, 5.1, false),
        (0.0, -5.1, false),
        (-9.0, 5.0, false),
        (-9.0, -5.0, false),
    ] {
        assert_eq!(is_inside(&diamond(), (x, y)), inside, "{x} {y}");
    }
    // Of two pieces side by side, a place on their common edge is in one alone.
    let square = upright(4.0, 3.0);
    assert!(is_inside(&square, (0.0, 1.0)) && !is_inside(&square, (4.0, 1.0)));
    assert!(is_inside(&square, (1.0, 0.0)) != is_inside(&square, (1.0, 3.0)));
}

/// By pencil: a rectangle 20 by 10 with a slot 2 wide from above to 6 down, in its middle. A frame over the slot has all
/// its corners in cloth.
#[test]
fn a_frame_in_a_piece_has_cloth_everywhere_and_a_gap_round_it() {
    let slotted = vec![vec![
        (0.0, 0.0),
        (9.0, 0.0),
        (9.0, 6.0),
        (11.0, 6.0),
        (11.0, 0.0),
        (20.0, 0.0),
        (20.0, 10.0),
        (0.0, 10.0),
    ]];
    for ((x, y), (wide, high), gap, held) in [
        ((10.0, 4.0), (8.0, 2.0), 0.0, false),
        ((10.0, 8.0), (8.0, 3.0), 0.0, true),
        ((10.0, 8.0), (8.0, 3.0), 0.4, true),
        ((10.0, 8.0), (8.0, 3.0), 0.6, false),
        ((4.5, 5.0), (8.0, 9.0), 0.4, true),
        ((4.5, 5.0), (8.0, 9.0), 0.6, false),
        ((19.5, 5.0), (3.0, 2.0), 0.0, false),
        ((30.0, 5.0), (3.0, 2.0), 0.0, false),
    ] {
        assert_eq!(holds(&slotted, Frame::around((x, y), wide, high), gap), held, "{x} {y} {wide} {high} {gap}");
    }
}

/// By pencil: in 48 by 24 the places are 2 apart to the side and 1 apart down, the nearest first. A frame of 6 by 2 has
/// to stay 0.6 inside: up to 20 of 24 to the side, and up to 10 of 12 down.
#[test]
fn places_in_a_piece_begin_at_its_middle() {
    let places: Vec<Point> = places_inside(&upright(48.0, 24.0), 6.0, 2.0).collect();
    let nearest = [(24.0, 12.0), (24.0, 11.0), (24.0, 13.0), (24.0, 10.0), (22.0, 12.0), (26.0, 12.0), (24.0, 14.0)];
    assert!(
        places.iter().zip(nearest).all(|(found, wanted)| near(found.0, wanted.0) && near(found.1, wanted.1)),
        "{:?}",
        &places[..7]
    );
    assert_eq!(places.len(), 21 * 21);
    let distance = |place: &Point| (place.0 - 24.0).hypot(place.1 - 12.0);
    assert!(places.iter().zip(&places[1..]).all(|(one, next)| distance(one) <= distance(next) + 1e-9));
    // 0.6 on both sides is 1.2 in all.
    for (wide, high, room) in [(46.7, 1.0, true), (46.9, 1.0, false), (1.0, 22.7, true), (1.0, 22.9, false)] {
        assert_eq!(has_room(&upright(48.0, 24.0), wide, high), room, "{wide} {high}");
    }
    assert!(!has_room(&[], 1.0, 1.0));
}

/// By pencil, 3 apart. 10, 11 and 12 go to 8, 11 and 14; where that meets what comes before, it moves along, and
/// nothing goes before the start.
#[test]
fn runs_of_places_grow_until_they_touch_no_other() {
    let cases: [(&[f64], f64, &[f64]); 8] = [
        (&[], 0.0, &[]),
        (&[1.0], 4.0, &[4.0]),
        (&[10.0, 13.0], 0.0, &[10.0, 13.0]),
        (&[0.0, 10.0, 11.0, 12.0], f64::NEG_INFINITY, &[0.0, 8.0, 11.0, 14.0]),
        (&[6.0, 10.0, 11.0, 12.0], 0.0, &[5.25, 8.25, 11.25, 14.25]),
        (&[6.0, 10.0, 11.0, 12.0], 6.0, &[6.0, 9.0, 12.0, 15.0]),
        (&[-5.0, -4.0, 20.0], f64::NEG_INFINITY, &[-6.0, -3.0, 20.0]),
        (&[1.0, 1.0, 40.0, 41.0], 0.5, &[0.5, 3.5, 39.0, 42.0]),
    ];
    for (wanted, from, places) in cases {
        let found = spread(wanted, 3.0, from);
        assert!(
            found.len() == places.len() && found.iter().zip(places).all(|(found, place)| near(*found, *place)),
            "{wanted:?}: {found:?}"
        );
    }
}

#[test]
fn a_line_may_be_exactly_as_wide_as_it_is_let() {
    let whole = text_width("ab cd", 10.0, false);
    assert_eq!(wrapped("ab cd", 10.0, false, whole), ["ab cd"]);
    assert_eq!(wrapped("ab cd", 10.0, false, whole - 0.1), ["ab", "cd"]);
    // Bold is wider, so that the same line does not go.
    assert_eq!(wrapped("ab cd", 10.0, true, whole), ["ab", "cd"]);
    // Two of three letters that are as wide as they are high.
    assert_eq!(wrapped("mmm", 10.0, false, 20.0), ["mm", "m"]);
    assert_eq!(wrapped("mmm i", 10.0, false, 20.0), ["mm", "m i"]);
    assert_eq!(wrapped("mm", 10.0, false, 9.0), ["m", "m"]);
    // A word goes whole into the next line before it is broken.
    assert_eq!(wrapped("i mmm", 10.0, false, 20.0), ["i", "mm", "m"]);
    assert!(wrapped(" ", 10.0, false, 20.0).is_empty());
}

#[test]
fn lines_cut_short_say_so() {
    let lines = |many: usize| (0..many).map(|at| format!("l{at}")).collect::<Vec<_>>();
    assert_eq!(first_lines(lines(3), 3), ["l0", "l1", "l2"]);
    assert_eq!(first_lines(lines(4), 3), ["l0", "l1", "l2 …"]);
}

/// A frame that ends at the right or the lower edge of a piece is not wholly in it.
#[test]
fn a_frame_at_the_edge_is_not_held() {
    let square = upright(10.0, 10.0);
    assert!(!holds(&square, Frame { left: 6.0, top: 2.0, right: 10.0, bottom: 4.0 }, 0.0));
    assert!(!holds(&square, Frame { left: 6.0, top: 2.0, right: 8.0, bottom: 10.0 }, 0.0));
}
