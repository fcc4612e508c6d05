//! How panels and their widths are named, joined and checked, and the steps of a piece. Windows as in the tests of what is
//! split and trimmed.

use super::panels::{Window, cm, layout_of, metric, pair, panel, spec};
use super::*;
use crate::piece::{Middle, PanelSide, Panels, WidthPart};
use WidthPart::{LeftHand, RightHand, Whole};

/// By hand: four widths a curtain, from the wall to the middle and from the middle to the wall.
#[test]
fn widths_are_called_by_where_they_hang() {
    let window = Window::new(pair(551.0, 8), 1, &[1, 2, 3, 4, 5, 6, 7, 8]);
    let places = ["leading", "2nd from the middle", "3rd from the middle", "outer"];
    let wanted = ["left", "right"].map(|side| places.map(|place| format!("{side} curtain, {place}")));
    assert_eq!(window.become_of(&[1, 2, 3, 4, 5, 6, 7, 8]), wanted.concat());
    // The row from the left wall to the right one.
    assert_eq!(window.block("JOIN")[1], "wall  [ D | C | B | A ]  middle  [ E | F | G | H ]  wall");
    // A panel of thirteen widths.
    let many: Vec<i64> = (1..=13).collect();
    let wide = Window::new(spec(1784.0, 26), 1, &many).become_of(&[3, 4, 11, 12, 13]);
    assert_eq!(wide, ["3rd", "4th", "11th", "12th", "13th"].map(|place| format!("panel, {place} from the left")));
}

/// By English usage.
#[test]
fn ordinals() {
    let cases = [(1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (9, "9th"), (10, "10th"), (11, "11th"), (12, "12th")];
    let more = [(13, "13th"), (14, "14th"), (20, "20th"), (21, "21st"), (22, "22nd"), (23, "23rd"), (24, "24th")];
    let hundreds = [(101, "101st"), (111, "111th"), (112, "112th"), (113, "113th"), (114, "114th"), (121, "121st")];
    for (number, text) in cases.into_iter().chain(more).chain(hundreds) {
        assert_eq!(super::super::panels::ordinal(number), text);
    }
}

/// A panel of one width is only named; one drop for both curtains stands nowhere in particular. With more garments the
/// number is told, and of several pairs in one garment no curtain is the left one.
#[test]
fn panels_are_named_as_far_as_it_tells_them_apart() {
    assert_eq!(Window::new(spec(130.0, 2), 1, &[1]).become_of(&[1]), ["panel"]);
    assert_eq!(Window::new(pair(60.0, 1), 1, &[1]).become_of(&[1]), ["both curtains"]);
    assert_eq!(
        Window::new(pair(60.0, 1), 2, &[1, 2]).become_of(&[1, 2]),
        ["no. 1, both curtains", "no. 2, both curtains"]
    );
    assert_eq!(
        Window::new(pair(130.0, 2), 2, &[1, 2, 3, 4]).become_of(&[1, 4]),
        ["no. 1, left curtain", "no. 2, right curtain"]
    );
    let two_pairs = Window::new(Panels { count: 4, ..pair(130.0, 2) }, 1, &[1, 2, 3, 4]);
    assert_eq!(two_pairs.become_of(&[1, 2, 3]), ["a left curtain", "a right curtain", "a left curtain"]);
    // Singles that share a drop are no pair.
    let singles = Window::new(Panels { count: 2, ..spec(60.0, 1) }, 1, &[1]);
    assert_eq!(singles.become_of(&[1]), ["panel 1 and panel 2"]);
    // Nor are curtains of two windows.
    let layout =
        layout_of(vec![panel(1, PanelSide::Left, &[(1, RightHand)]), panel(2, PanelSide::Right, &[(1, LeftHand)])], 1);
    assert_eq!(
        Window::laid(pair(60.0, 1), layout, &[1]).become_of(&[1]),
        ["no. 1, left curtain and no. 2, right curtain"]
    );
    // A drop whose halves stand at different places says both.
    let halves = Window::new(Panels { count: 2, ..spec(200.0, 3) }, 1, &[1, 2, 3]);
    assert_eq!(halves.become_of(&[2]), ["panel 1, 1st from the left; panel 2, 2nd from the left"]);
    // A drop that is in no panel becomes nothing.
    let spare = Window::new(spec(130.0, 2), 1, &[1, 2]);
    assert_eq!((spare.become_of(&[2]), spare.block("SPLIT").len()), (vec![String::new()], 0));
}

/// Articles: only a panel that is the only one of its name has "the".
#[test]
fn a_half_goes_to_a_panel_with_its_article() {
    let to = |window: Window| window.block("SPLIT")[1].rsplit_once("  to ").unwrap().1.to_owned();
    assert_eq!(to(Window::new(pair(60.0, 1), 1, &[1])), "the right curtain");
    assert_eq!(to(Window::new(Panels { count: 4, ..pair(60.0, 1) }, 1, &[1, 2])), "a right curtain");
    assert_eq!(to(Window::new(pair(60.0, 1), 2, &[1, 2])), "no. 1, right curtain");
}

/// A drop that no cut is of has no letter.
#[test]
fn a_width_without_a_cut_is_unknown() {
    let window = Window::new(spec(250.0, 4), 1, &[2]);
    assert_eq!(window.block("JOIN")[1], "panel  [ ? | A ]");
}

/// Steps of a piece by its name; of one without panels only the cutting is told, of one that is not cut nothing.
#[test]
fn steps_are_those_of_the_piece() {
    let mut window = Window::new(pair(250.0, 4), 1, &[1, 2, 3, 4]);
    let valance = Cut {
        entry: 0,
        piece: "valance".into(),
        number: 1,
        to: cm(1040.0),
        from: cm(1000.0),
        ..window.plan.uses[0].cuts[0].clone()
    };
    let of_nothing = Cut { entry: 7, ..valance.clone() };
    window.plan.uses[0].cuts.extend([valance, of_nothing]);
    let report = window.report();
    let letters = letters(&[report]);
    let steps = |piece: &str| cut_steps(&report, piece, &letters, &metric());
    assert_eq!(steps("valance"), ["Cut 1 valance of 40 cm, as the list of cuts has them."]);
    assert_eq!(steps("pelmet"), [""; 0]);
    assert_eq!(steps("curtain width").len(), 3);
    assert!(steps("curtain width")[0].starts_with("Cut 4 curtain widths of 250 cm: A 0 to 250 cm, "));
}

/// Eight drops are listed one by one, nine are not. One is not in the plural, nor is a name that ends in s.
#[test]
fn many_drops_are_left_to_the_list_of_cuts() {
    let told = |count: i64| {
        let order: Vec<i64> = (1..=count).collect();
        Window::new(Panels { count, ..spec(140.0, 2) }, 1, &order).steps()
    };
    assert!(told(8)[0].ends_with("H 1750 to 2000 cm. Chalk letter and way up on the wrong side."));
    assert_eq!(told(9), ["Cut 9 curtain widths of 250 cm, as the list of cuts has them."]);
    assert_eq!(told(1), ["Cut 1 curtain width of 250 cm: A 0 to 250 cm. Chalk letter and way up on the wrong side."]);
    let mut window = Window::new(spec(277.0, 4), 1, &[1, 2]);
    window.pieces[1].name = "drops".to_owned();
    let report = window.report();
    let steps = cut_steps(&report, "drops", &letters(&[report]), &metric());
    assert!(steps[0].starts_with("Cut 2 drops of 250 cm: "), "{steps:?}");
}

/// One width or less is not joined; one and a half are.
#[test]
fn joins_are_told_if_there_are_any() {
    for (half_widths, across, is_joined) in [(1, 60.0, false), (2, 140.0, false), (3, 200.0, true)] {
        let window = Window::new(pair(across, half_widths), 1, &[1, 2, 3]);
        assert_eq!(window.block("JOIN").is_empty(), !is_joined, "{half_widths}");
        assert_eq!(window.steps().iter().any(|step| step.starts_with("Join")), is_joined, "{half_widths}");
    }
}

/// Eight rows are told, a ninth and tenth are alike.
#[test]
fn many_rows_are_told_by_their_first() {
    let joined = |garments: i64| {
        let order: Vec<i64> = (1..=garments * 2).collect();
        Window::new(spec(277.0, 4), garments, &order).steps()[1].clone()
    };
    assert!(joined(8).contains("no. 8, panel O P. Each"), "{}", joined(8));
    assert!(joined(9).contains("no. 8, panel O P and 1 more alike. Each"), "{}", joined(9));
    assert!(joined(10).contains("no. 8, panel O P and 2 more alike. Each"), "{}", joined(10));
}

/// Where the pattern repeats 6 cm narrower than the cloth less its seams: 140 - 3 - 131 = 6 cm further in. One nanometre
/// is not told, two are.
#[test]
fn a_join_moves_in_to_where_the_pattern_meets() {
    let told = |moved: Length| {
        let mut window = Window::new(Panels { gained: cm(137.0) - moved, ..pair(250.0, 4) }, 1, &[1, 2, 3, 4]);
        window.goods.repeat = Some(Repeat::half_drop(cm(64.0)));
        window.pieces[1].matching = Some(Matching::Level);
        (window.block("JOIN"), window.steps()[1].clone(), window.moved_in())
    };
    let (sheet, step, by) = told(cm(6.0));
    assert_eq!(by, cm(6.0));
    assert_eq!(
        sheet[1..4],
        [
            "the pattern meets 6 further in: turn that much under at one side",
            "wall  [ B | A ]  middle  [ C | D ]  wall",
            "[ ] right edge of B to left edge of A, pattern to pattern",
        ]
    );
    assert_eq!(
        step,
        "Join, left to right as seen from the room: left curtain B A; right curtain C D. Each side of a join takes 1.5 cm, \
         pattern to pattern; the pattern meets 6 cm further in, so turn that much under at one side of each join."
    );
    let is_told = |moved: f64| told(Length::from_steps(moved)).1.contains("further in");
    assert_eq!([0.0, 1.0, 2.0].map(is_told), [false, false, true]);
    let lines = |moved: f64| told(Length::from_steps(moved)).0.len();
    assert_eq!([0.0, 1.0, 2.0].map(lines), [4, 4, 5]);
}

/// Which widths hang level: from the middle on outwards, pair by pair; if the pattern runs on, only that it does.
#[test]
fn a_pair_is_checked_where_its_curtains_meet() {
    let checked = |spec: Panels, garments: i64, order: &[i64]| {
        let mut window = Window::new(spec, garments, order);
        window.goods.repeat = Some(Repeat::half_drop(cm(64.0)));
        window.pieces[1].matching = Some(Matching::Level);
        window.block("CHECK")
    };
    let two = ["[ ] A and C level at the middle", "[ ] B and D level"];
    assert_eq!(checked(pair(250.0, 4), 1, &[1, 2, 3, 4]), two);
    let four = [
        "[ ] A and C level at the middle",
        "[ ] B and D level",
        "[ ] E and G level at the middle",
        "[ ] F and H level",
    ];
    assert_eq!(checked(pair(250.0, 4), 2, &[1, 2, 3, 4, 5, 6, 7, 8]), four);
    let runs_on = ["[ ] the pattern runs on from A to C where the curtains meet"];
    assert_eq!(checked(Panels { middle: Middle::RunsOn, ..pair(250.0, 4) }, 1, &[1, 2, 3, 4]), runs_on);
    assert_eq!(checked(spec(250.0, 4), 1, &[1, 2]), [""; 0]);
}

/// Pairs of several windows have their numbers.
#[test]
fn rows_of_several_windows_are_numbered() {
    let lines = Window::new(pair(277.0, 4), 2, &[1, 2, 3, 4, 5, 6, 7, 8]).block("JOIN");
    assert_eq!(lines[1], "no. 1: wall  [ B | A ]  middle  [ C | D ]  wall");
    assert_eq!(lines[4], "no. 2: wall  [ F | E ]  middle  [ G | H ]  wall");
    assert_eq!(lines.len(), 7);
}

/// A right panel that no left one goes before, and a left one without its right, hang alone.
#[test]
fn panels_without_their_other_half_stand_alone() {
    let widths = |first: i64| [(first, Whole), (first + 1, Whole)];
    let layout = layout_of(vec![panel(1, PanelSide::Right, &widths(1)), panel(1, PanelSide::Left, &widths(3))], 4);
    let lines = Window::laid(pair(277.0, 4), layout, &[1, 2, 3, 4]).block("JOIN");
    assert_eq!(lines[1], "right curtain  [ A | B ]");
    assert_eq!(lines[3], "left curtain  [ C | D ]");
    let layout = layout_of(vec![panel(1, PanelSide::Left, &widths(1)), panel(1, PanelSide::Left, &widths(3))], 4);
    let lines = Window::laid(pair(277.0, 4), layout, &[1, 2, 3, 4]).block("JOIN");
    assert_eq!([&lines[1], &lines[3]], ["a left curtain  [ A | B ]", "a left curtain  [ C | D ]"]);
    let layout = layout_of(vec![panel(1, PanelSide::Single(1), &widths(1)), panel(1, PanelSide::Right, &widths(3))], 4);
    let lines = Window::laid(pair(277.0, 4), layout, &[1, 2, 3, 4]).block("JOIN");
    assert_eq!(lines[1], "panel 1  [ A | B ]");
}

/// Only a piece that says so, and has a layout, makes panels.
#[test]
fn a_piece_without_a_layout_makes_no_panels() {
    let window = Window::new(spec(250.0, 4), 1, &[1, 2]);
    // The first piece may make some as well as any.
    let mut first = Window::new(spec(250.0, 4), 1, &[1, 2]);
    first.pieces.swap(0, 1);
    first.layouts.swap(0, 1);
    for cut in &mut first.plan.uses[0].cuts {
        cut.entry = 0;
    }
    assert_eq!(first.block("JOIN")[1], "panel  [ A | B ]");
    let found = |report: PlanReport<'_>| [0, 1, 2].map(|entry| report.panels_of(entry).is_some());
    assert_eq!(found(window.report()), [false, true, false]);
    assert_eq!(found(PlanReport { panels: &[], ..window.report() }), [false; 3]);
    assert_eq!(found(PlanReport { panels: &[None, None], ..window.report() }), [false; 3]);
}
