//! What stands in a piece of a lay where it has little room, at 1 : 10.

use super::super::drawn_lay::{DrawnCut, DrawnLength};
use super::super::lay_panel::View;
use super::lays::{cloth, cm, cut, style};
use super::told;

fn texts(length: &DrawnLength) -> Vec<String> {
    let view = View::of(length, 10.0, 240.0);
    let (sketch, _) = view.panel(view.panels[0], &[], &style());
    let items = told(&sketch).into_iter();
    items.filter(|item| item.contains(" at ") && !item.contains(" wide at ") && !item.contains(" end")).collect()
}

/// By pencil, 0.6 mm from every edge. Letters are 4.4, 3.4 or 2.8 mm high, 3.942, 3.046 or 2.509 wide; `front` and
/// `40 × 35` are 7.252 and 11.62 wide, both on a line 20.832; a line takes 3.7, and 1.4 are between a letter and what is
/// behind it. What goes upright reads from below.
#[test]
fn a_label_takes_the_form_that_its_piece_has_room_for() {
    let cases: [((f64, f64), &[&str]); 13] = [
        (
            (13.0, 13.1),
            &["A at (6.5 2.85) middle 4.4 bold", "front at (6.5 6.9) middle", "40 × 35 at (6.5 10.6) middle"],
        ),
        ((27.0, 5.0), &["A at (2.384 2.5) middle 3.4 bold", "front, 40 × 35 at (15.723 2.5) middle"]),
        (
            (13.1, 12.9),
            &[
                "A at (2.85 6.45) middle 4.4 bold upright",
                "front at (6.9 6.45) middle upright",
                "40 × 35 at (10.6 6.45) middle upright",
            ],
        ),
        ((5.0, 27.0), &["A at (2.5 24.616) middle 3.4 bold upright", "front, 40 × 35 at (2.5 11.277) middle upright"]),
        ((18.0, 5.0), &["A at (2.49 2.5) middle 3.4 bold", "40 × 35 at (11.223 2.5) middle"]),
        ((13.0, 8.5), &["A at (6.5 2.4) middle 3.4 bold", "40 × 35 at (6.5 5.95) middle"]),
        ((5.0, 18.0), &["A at (2.5 15.51) middle 3.4 bold upright", "40 × 35 at (2.5 6.777) middle upright"]),
        ((5.2, 5.7), &["A at (2.6 2.85) middle 4.4 bold"]),
        ((5.7, 5.2), &["A at (2.85 2.6) middle 4.4 bold upright"]),
        ((4.3, 4.7), &["A at (2.15 2.35) middle 3.4 bold"]),
        ((4.7, 4.3), &["A at (2.35 2.15) middle 3.4 bold upright"]),
        ((3.8, 4.1), &["A at (1.9 2.05) middle bold"]),
        ((4.1, 3.8), &["A at (2.05 1.9) middle bold upright"]),
    ];
    for ((across, along), wanted) in cases {
        let piece = DrawnCut { own_size: (cm(40.0), Some(cm(35.0))), ..cut("A", "front", (0.0, 0.0), (along, across)) };
        assert_eq!(texts(&cloth((along, along), across, vec![piece])), wanted, "{across} by {along}");
    }
}

/// By pencil: both sides go out by 1 in 4. A mark 3.64 mm wide, 0.9 from where the piece is widest and 0.4 free all round,
/// has no room there; 0.8 farther in it has, from 36.6 down, and places down are 2.3 and 0.8 each.
#[test]
fn marks_across_stand_where_a_slanting_side_lets_them() {
    let lines = [(0.0, 20.0), (40.0, 10.0), (40.0, 40.0), (0.0, 30.0)];
    let flared = DrawnCut {
        lines: vec![lines.map(|(along, across)| (cm(along), cm(across))).to_vec()],
        ..cut("A", "front", (0.0, 10.0), (40.0, 30.0))
    };
    let found = texts(&cloth((40.0, 40.0), 60.0, vec![flared]));
    assert_eq!(found[..2], ["10 at (13.52 36.7) middle", "40 at (36.48 36.7) middle"]);
}

/// By pencil: a piece 4.5 wide has room for 3.64 mm and what is round them only upright, 2.8 mm and 0.9 and 0.4. The other
/// mark, 6.44 mm long, stands 0.6 lower, 6 times 0.8 below its first place.
#[test]
fn marks_across_a_narrow_piece_stand_upright() {
    let narrow = cut("A", "tie", (0.0, 20.0), (40.0, 4.5));
    let found = texts(&cloth((40.0, 40.0), 60.0, vec![narrow]));
    assert_eq!(found[..2], ["20 at (22.3 2.72) middle upright", "24.5 at (22.2 8.92) middle upright"]);
}

/// Marks at the edges of the cloth are not told, nor where the neighbour to the left has ended there and lies beside it;
/// where the neighbour ends before the piece begins, or begins after it, its mark is not at hand.
#[test]
fn a_mark_across_is_told_once() {
    let marks = |left: DrawnCut, right: DrawnCut| {
        let found = texts(&cloth((90.0, 90.0), 60.0, vec![left, right]));
        let marks = found.into_iter().filter_map(|text| text.split(" at ").next().map(str::to_owned));
        marks.filter(|text| text.chars().all(|letter| letter.is_ascii_digit())).collect::<Vec<_>>()
    };
    let at = |letter: &str, from: f64, along: f64, left: f64, across: f64| {
        cut(letter, "front", (from, left), (along, across))
    };
    assert_eq!(marks(at("A", 10.0, 40.0, 0.0, 25.0), at("B", 10.0, 30.0, 25.0, 35.0)), ["25"]);
    assert_eq!(marks(at("A", 0.0, 40.0, 0.0, 25.0), at("B", 30.0, 30.0, 25.0, 35.0)), ["25"]);
    assert_eq!(marks(at("A", 0.0, 30.0, 0.0, 25.0), at("B", 30.0, 30.0, 25.0, 35.0)), ["25", "25"]);
    assert_eq!(marks(at("A", 20.0, 40.0, 0.0, 25.0), at("B", 0.0, 40.0, 25.0, 35.0)), ["25", "25"]);
    assert_eq!(marks(at("A", 0.0, 40.0, 0.0, 24.0), at("B", 0.0, 40.0, 25.0, 35.0)), ["24", "25"]);
}

/// By pencil: 1.1 to either side, half a millimetre beyond either end, and 0.6 to every edge: arrows of 14, 9 and 6 need
/// 16.2, 11.2 and 8.2. Beside a letter 3.942 wide alone they need 3.4 more, and 0.6 on its other side.
#[test]
fn a_grain_is_as_long_as_its_piece_lets_it() {
    let long = |along: f64, across: f64| {
        let piece = cut("A", "front", (0.0, 0.0), (along, across));
        let length = cloth((along, along), across, vec![piece]);
        let view = View::of(&length, 10.0, 240.0);
        let (sketch, _) = view.panel(view.panels[0], &[], &style());
        let inside = sketch
            .segments()
            .filter(|(from, to)| from.0 > 0.1 && from.0 < across - 0.1 && (from.0 - to.0).abs() < 1e-9 && from.1 > 0.1);
        inside.map(|(from, to)| (to.1 - from.1).abs()).fold(0.0, f64::max)
    };
    for (along, wanted) in [(16.3, 14.0), (16.1, 9.0), (11.3, 9.0), (11.1, 6.0), (8.3, 6.0), (8.1, 0.0)] {
        assert!((long(along, 60.0) - wanted).abs() < 1e-6, "{along}: {}", long(along, 60.0));
    }
}
