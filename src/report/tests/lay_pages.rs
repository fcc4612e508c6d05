//! Lays on pages, and what goes over the edge of a panel; at 1 : 10 a centimetre of cloth is a millimetre on paper.

use super::super::canvas::{Sketch, at_most};
use super::super::drawn_lay::{DrawnCut, DrawnLength, DrawnRest};
use super::super::lay_bar;
use super::super::lay_panel::View;
use super::super::lay_picture::{Detail, laid_out};
use super::super::picture_page::{PictureHead, height_below};
use super::lays::{cloth, cm, cut, rest, style};
use super::told;

fn head() -> PictureHead {
    PictureHead { title: "order 7".to_owned(), answers: "waist 54 cm".to_owned(), date: None }
}

fn pages(lengths: &[DrawnLength]) -> Vec<Sketch> {
    laid_out(&head(), lengths, &style())
}

fn texts(pages: &[Sketch]) -> Vec<String> {
    pages.iter().flat_map(Sketch::texts).map(|text| text.text.clone()).collect()
}

fn scale(lengths: &[DrawnLength]) -> String {
    let all = texts(&pages(lengths));
    let scale = all.iter().find_map(|text| text.strip_prefix("scale 1 : ")?.split(',').next());
    scale.unwrap_or_default().to_owned()
}

#[test]
fn a_place_is_at_most_at_another_but_for_dust() {
    assert!(at_most(3.0, 3.0) && at_most(3.0 + 1e-7, 3.0) && at_most(2.0, 3.0));
    assert!(!at_most(3.0 + 1e-5, 3.0) && at_most(3.0, 3.0 + 1e-5));
}

/// By pencil: of 190 mm, 18 are for marks and 4 for the selvedge, so that 168 of cloth go on the page at 1 : 10.
#[test]
fn cloth_as_wide_as_the_page_has_room_is_not_drawn_smaller() {
    let wide = |across: f64| cloth((60.0, 60.0), across, vec![cut("A", "apron", (0.0, 0.0), (60.0, across))]);
    assert_eq!(scale(&[wide(167.9)]), "10");
    assert_eq!(scale(&[wide(168.1)]), "12");
}

/// By pencil: cloth 40 wide is 40 mm at 1 : 10 and 33.3 at 1 : 12, less than the 35 that are worth more pages. 30 m are 13
/// panels, three in a row.
#[test]
fn a_long_cloth_is_not_drawn_too_narrow_to_save_pages() {
    let cuts = (0..12).map(|at| cut("A", "apron", (f64::from(at) * 250.0, 0.0), (250.0, 40.0)));
    assert_eq!(scale(&[cloth((3000.0, 3000.0), 40.0, cuts.collect())]), "10");
}

fn rows(across: f64, long: f64) -> Vec<Sketch> {
    let length = cloth((long, long), across, vec![cut("A", "apron", (0.0, 0.0), (long, across))]);
    super::super::lay_picture::cloth((&length, Detail::Whole), (10.0, 150.0), &[], &style()).0
}

/// By pencil: a panel takes its width, 18 mm for marks and 4 for the selvedge, the last 2 of which may be beside the page:
/// of 192 mm two have 96 each, 74 of cloth, and three have 64 each, 42 of cloth.
#[test]
fn as_many_panels_stand_beside_each_other_as_the_page_has_room_for() {
    // Of 150 mm, 7.2 are for both lines of the heading and 2 below it, 4.5 for the width, and 4 for what hangs below.
    let panel = 150.0 - 7.2 - 2.0 - 8.5;
    let many = |across: f64| rows(across, 4.0 * panel).len();
    assert_eq!([42.1, 74.1, 41.9, 73.9].map(many), [2, 4, 2, 2]);
    let row = &rows(41.9, 3.0 * panel)[0];
    let cloths = told(row).into_iter().filter(|item| item.starts_with("waste"));
    let corners: Vec<String> = cloths.map(|item| item[..item.find(')').unwrap()].to_owned()).collect();
    let down = corners[0].rsplit(' ').next().unwrap();
    assert_eq!(corners, ["18", "81.9", "145.8"].map(|left| format!("waste ({left} {down}")));
    let longest = row.segments().map(|(from, to)| (to.1 - from.1).abs()).fold(0.0, f64::max);
    assert!((longest - panel).abs() < 1e-6, "{longest}");
}

/// By pencil: the page ends with its margin, 10 mm from its lower edge.
#[test]
fn a_full_panel_is_no_longer_than_the_page() {
    let length = cloth((3000.0, 3000.0), 150.0, vec![cut("A", "apron", (0.0, 0.0), (3000.0, 150.0))]);
    for page in pages(&[length]) {
        assert!(page.bounds().bottom <= 287.0 + 1e-6, "{:?}", page.bounds());
    }
    assert!(height_below(&head()) <= 249.0);
}

/// By pencil: between what a piece at 10 has room for, a letter of 2.509 by 2.8 mm with 0.6 round it, and its marks beside
/// it, which have none; what has no room is told below all.
#[test]
fn marks_without_room_are_told_below_the_legend() {
    let tie = cut("A", "tie", (10.0, 3.0), (4.3, 4.0));
    let all = texts(&pages(&[cloth((40.0, 40.0), 167.0, vec![tie])]));
    let wanted = "Without room for it in the drawing: A from 10 to 14.3 along lies from 3 to 7 across.";
    assert!(all.iter().any(|text| text == wanted), "{all:?}");
}

/// Where rolls and cloth are drawn, each has its note; and the note on widened rolls where only one of them is.
#[test]
fn a_note_stands_where_one_length_needs_it() {
    let roll = |across: f64| DrawnLength {
        roll: true,
        ..cloth((60.0, 60.0), across, vec![cut("A", "strip", (0.0, 0.0), (60.0, across))])
    };
    let sheet = || cloth((60.0, 60.0), 167.0, vec![cut("A", "apron", (0.0, 0.0), (60.0, 100.0))]);
    let notes = |lengths: &[DrawnLength]| {
        let all = texts(&pages(lengths)).join(" ");
        (all.contains("wider than they are"), all.contains("At the left of the cloth"))
    };
    assert_eq!(notes(&[roll(2.0), roll(90.0), sheet()]), (true, true));
    assert_eq!(notes(&[roll(90.0), sheet()]), (false, true));
    assert_eq!(notes(&[roll(90.0)]), (false, false));
}

/// By pencil: three bold letters of 3.4 mm are 1.12 × 3 × 3.4 = 11.424 wide, and 2 are left behind them. A letter `a` of
/// 2.8 mm is 1.82 wide: behind a single letter 190 − 6 − 2 = 182 mm have 100 of them.
#[test]
fn a_legend_begins_behind_its_letter_and_ends_at_the_margin() {
    let legend = |letter: &str, name: &str| {
        let drawn = pages(&[cloth((60.0, 60.0), 167.0, vec![cut(letter, name, (0.0, 0.0), (60.0, 100.0))])]);
        let texts: Vec<(String, f64)> = drawn[0].texts().map(|text| (text.text.clone(), text.at.0)).collect();
        texts
    };
    let found = legend("MMM", "apron");
    let (_, left) = found.iter().find(|(text, _)| text == "1 × apron, 60 × 100").unwrap();
    assert!((left - 23.424).abs() < 1e-6, "{left}");
    let found = legend("A", &"a".repeat(230));
    let longest = found.iter().filter(|(text, left)| text.starts_with("aaaa") && (left - 18.0).abs() < 1e-6);
    assert_eq!(longest.map(|(text, _)| text.chars().take_while(|c| *c == 'a').count()).max(), Some(100));
}

fn panel(length: &DrawnLength, most: f64, which: usize) -> (Vec<String>, Vec<String>) {
    let view = View::of(length, 10.0, most);
    let (sketch, untold) = view.panel(view.panels[which], &[], &style());
    (told(&sketch), untold)
}

/// By pencil: on panels of 50 a piece from 0 to 50 is in the first alone, and one from 50 to 100 in the second alone, with
/// the edges where they meet and with its marks.
#[test]
fn a_piece_that_ends_with_its_panel_is_not_in_the_next() {
    let cuts = vec![cut("A", "apron", (0.0, 0.0), (50.0, 25.0)), cut("B", "band", (50.0, 7.0), (50.0, 4.0))];
    let length = cloth((100.0, 100.0), 44.0, cuts);
    assert_eq!(View::of(&length, 10.0, 58.5).panels, [(0.0, 50.0), (50.0, 100.0)]);
    let edges = |items: &[String]| items.iter().filter(|item| item.starts_with("edge")).cloned().collect::<Vec<_>>();
    let (first, untold) = panel(&length, 58.5, 0);
    assert_eq!(
        edges(&first)[..4],
        ["edge (0 0) (0 50)", "edge (0 50) (25 50)", "edge (25 50) (25 0)", "edge (25 0) (0 0)"]
    );
    assert_eq!(edges(&first).len(), 4 + 3, "two selvedges and the beginning");
    assert!(untold.is_empty());
    let (second, _) = panel(&length, 58.5, 1);
    assert_eq!(
        edges(&second)[..4],
        ["edge (7 0) (7 50)", "edge (7 50) (11 50)", "edge (11 50) (11 0)", "edge (11 0) (7 0)"]
    );
    assert_eq!(edges(&second).len(), 4 + 3, "two selvedges and the end");
}

/// By pencil: `4` is 1.82 wide and has room in a piece 4 by 4.3, but not with a letter of 2.509 beside it. The letter says
/// more: it stands in the middle, and the marks are told in words. A piece that goes on in a further panel has told its
/// marks before, and one over the full width has none.
#[test]
fn a_letter_stands_before_the_marks_that_leave_no_room_for_it() {
    let (items, untold) = panel(&cloth((40.0, 40.0), 60.0, vec![cut("A", "tie", (10.0, 0.0), (4.3, 4.0))]), 240.0, 0);
    assert_eq!(untold, ["A from 10 to 14.3 along lies from 0 to 4 across"]);
    let texts: Vec<&String> = items.iter().filter(|item| item.contains(" at ") && !item.contains("end")).collect();
    assert_eq!(texts, ["A at (2 12.15) middle bold", "60 wide at (30 -2.6) middle"]);
    let long = cloth((53.0, 53.0), 60.0, vec![cut("A", "tie", (0.0, 0.0), (53.0, 4.0))]);
    assert!(panel(&long, 58.5, 1).1.is_empty());
    let full = cloth((40.0, 40.0), 60.0, vec![cut("A", "tie", (10.0, 0.0), (3.0, 60.0))]);
    assert!(panel(&full, 240.0, 0).1.is_empty());
}

/// By pencil: marks 3.64 wide and 0.9 from either side leave 4.92 in a piece 14 wide, which an upright letter of 3.4 mm has
/// room in with 0.6 at either side; one of 4.4 has not.
#[test]
fn a_letter_alone_stands_between_the_marks() {
    let (items, untold) = panel(&cloth((40.0, 40.0), 60.0, vec![cut("A", "tie", (10.0, 20.0), (4.5, 14.0))]), 240.0, 0);
    let texts: Vec<&String> = items.iter().filter(|item| item.contains(" at ") && !item.contains("end")).collect();
    assert_eq!(
        texts[..3],
        ["20 at (22.72 12.3) middle", "34 at (31.28 12.3) middle", "A at (27 12.25) middle 3.4 bold upright"]
    );
    assert!(untold.is_empty());
}

/// By pencil: what is kept from 60 to 95 is drawn 10 below the beginning of the panel that begins at 50, and 0.6 inside its
/// edges; from 30 to 95 it begins with the panel.
#[test]
fn a_rest_goes_on_in_the_next_panel() {
    let dashed = |from: f64| {
        let cuts = vec![cut("A", "apron", (0.0, 0.0), (50.0, 20.0)), cut("B", "band", (50.0, 0.0), (50.0, 20.0))];
        let length = DrawnLength { rests: vec![rest((from, 95.0), (20.0, 44.0))], ..cloth((100.0, 100.0), 44.0, cuts) };
        panel(&length, 58.5, 1).0.into_iter().find(|item| item.starts_with("dashed")).unwrap()
    };
    assert_eq!(dashed(60.0), "dashed (20.6 10.6) (43.4 10.6) (43.4 44.4) (20.6 44.4) (20.6 10.6)");
    assert_eq!(dashed(30.0), "dashed (20.6 0.6) (43.4 0.6) (43.4 44.4) (20.6 44.4) (20.6 0.6)");
}

/// By pencil: `keep` is 7.28 wide, with 0.4 at either side and 0.6 to either edge 9.28. Over the full width the length alone
/// is told, in one line or not at all.
#[test]
fn lines_below_each_other_have_room_at_both_sides() {
    let words = |kept: DrawnRest, width: f64| {
        let all = panel(&DrawnLength { rests: vec![kept], ..cloth((40.0, 40.0), width, Vec::new()) }, 240.0, 0).0;
        all.iter().skip(3).take_while(|item| !item.starts_with("edge")).count()
    };
    let sized = |across: f64| DrawnRest { along: cm(9.0), across: cm(8.0), ..rest((0.0, 15.0), (0.0, across)) };
    assert_eq!([words(sized(9.4), 60.0), words(sized(9.1), 60.0)], [4, 0]);
    let unwashed = || DrawnRest { unwashed: true, along: cm(10.0), ..rest((0.0, 16.0), (0.0, 26.0)) };
    assert_eq!([words(unwashed(), 26.0), words(unwashed(), 60.0)], [0, 4]);
}

/// Whatever the sizes, both ends of a cloth have their running marks, and each end of a piece its own.
#[test]
fn both_ends_of_a_cloth_are_told() {
    for at in 1..200 {
        let used = 11.1 * f64::from(at) / 7.0;
        let (long, third) = (used + f64::from(at % 9) * 1.3, used / 3.0);
        let cuts = (0..3).map(|place| cut("A", "apron", (f64::from(place) * third, 0.0), (third, 40.0)));
        let length = cloth((long, used), 40.0, cuts.collect());
        let view = View::of(&length, 7.0, 58.5);
        let marks: usize = view
            .panels
            .iter()
            .map(|panel| {
                let items = told(&view.empty_panel(*panel, &style()));
                items.iter().filter(|item| item.starts_with("fine (-2.4 ") && item.contains("(-1.2 ")).count()
            })
            .sum();
        // A mark at the end of a panel is told again at the beginning of the next.
        let between = (1..3).filter(|place| {
            let y = f64::from(*place) * third * 10.0 / 7.0;
            view.panels.iter().skip(1).any(|panel| (panel.0 - y).abs() < 1e-6)
        });
        let at_rest = view.panels.iter().skip(1).any(|panel| long > used && (panel.0 - used * 10.0 / 7.0).abs() < 1e-6);
        let distinct = 4 + usize::from(long > used);
        assert_eq!(marks, distinct + between.count() + usize::from(at_rest), "{used} {long}");
    }
}

/// By pencil: a strip from 5 to 30 on a roll begins behind a gap, whose own beginning is mark 0.
#[test]
fn a_row_that_begins_with_a_gap_has_its_first_mark() {
    let length =
        DrawnLength { roll: true, ..cloth((30.0, 30.0), 10.0, vec![cut("A", "strip", (5.0, 0.0), (25.0, 10.0))]) };
    let rows = lay_bar::rows(&length, 10.0, &[], &style());
    let items = told(&rows[0]);
    assert_eq!(
        items[items.len() - 6..],
        [
            "fine (0 10) (0 11.3)",
            "fine (5 10) (5 11.3)",
            "fine (30 10) (30 11.3)",
            "0 at (0 13.4) middle",
            "30 at (30 13.4) middle",
            "5 at (5 13.4) middle"
        ]
    );
}

/// Strips that fill a row but for dust fill it: three of a third of 178 mm.
#[test]
fn a_row_is_full_but_for_dust() {
    for many in [3_u32, 7, 11, 13] {
        let each = 178.0 / f64::from(many);
        let cuts = (0..many).map(|at| cut("A", "strip", (f64::from(at) * each, 0.0), (each, 10.0))).collect();
        let length = DrawnLength { roll: true, ..cloth((178.0, 178.0), 10.0, cuts) };
        assert_eq!(lay_bar::rows(&length, 10.0, &[], &style()).len(), 1, "{many}");
    }
}

/// By pencil: a strip of 150 and a rest of 20 go into a row of 178. A rest of 20 in the middle is kept, the last one is not.
#[test]
fn a_rest_of_a_roll_stands_where_it_is() {
    let strip = |from: f64, along: f64| cut("A", "strip", (from, 0.0), (along, 10.0));
    let roll = |long: f64, cuts: Vec<DrawnCut>| DrawnLength { roll: true, ..cloth((long, long), 10.0, cuts) };
    assert_eq!(lay_bar::rows(&roll(170.0, vec![strip(0.0, 150.0)]), 10.0, &[], &style()).len(), 1);
    let rests = vec![rest((40.0, 60.0), (0.0, 10.0)), DrawnRest { kept: false, ..rest((80.0, 100.0), (0.0, 10.0)) }];
    let length = DrawnLength { rests, ..roll(100.0, vec![strip(0.0, 40.0), strip(60.0, 20.0)]) };
    let items = told(&lay_bar::rows(&length, 10.0, &[], &style())[0]);
    assert!(items.contains(&"waste (80 0) (100 0) (100 10) (80 10)".to_owned()), "{items:?}");
}

/// By pencil: pieces that start one after the other in two columns, 21 of 3.38, have 22 marks, 74.8 mm, more than their
/// 70.98 and a line of 3.7; of 3.4 each they have room. They are in the second panel, below one with two marks.
#[test]
fn every_panel_has_room_for_its_marks() {
    let is_legible = |each: f64| {
        let small = (0..20).map(|at| {
            let left = f64::from(at % 2) * 20.0;
            cut("B", "band", (200.0 + f64::from(at) * each, left), (2.0 * each, 20.0))
        });
        let cuts = [cut("A", "apron", (0.0, 0.0), (200.0, 40.0))].into_iter().chain(small).collect();
        let length = cloth((200.0 + 21.0 * each, 200.0 + 21.0 * each), 40.0, cuts);
        let view = View::of(&length, 10.0, 240.0);
        assert_eq!(view.panels.len(), 2);
        view.is_legible()
    };
    assert!(is_legible(3.4) && !is_legible(3.38));
}

/// By pencil: 10 and 11 below the beginning of the second panel are 3.4 mm apart round 10.5, 8.8 and 12.2.
#[test]
fn marks_move_apart_in_the_second_panel_too() {
    let ends = [0.0, 50.0, 60.0, 61.0, 100.0];
    let cuts = ends.iter().zip(&ends[1..]).map(|(from, to)| cut("A", "apron", (*from, 0.0), (to - from, 40.0)));
    let items = panel(&cloth((100.0, 100.0), 40.0, cuts.collect()), 58.5, 1).0;
    for wanted in ["fine (-2.4 10) (-5 8.8)", "fine (-2.4 11) (-5 12.2)", "fine (-2.4 50) (-5 50)"] {
        assert!(items.contains(&wanted.to_owned()), "{wanted}: {items:?}");
    }
}

/// By pencil: the slanting edge of a piece ends at 20, above the panel that begins at 50; only what is below is drawn.
#[test]
fn an_edge_above_its_panel_is_not_drawn() {
    let corners = [(0.0, 0.0), (20.0, 5.0), (60.0, 5.0), (60.0, 30.0), (0.0, 30.0)];
    let slanting = DrawnCut {
        lines: vec![corners.map(|(along, across)| (cm(along), cm(across))).to_vec()],
        ..cut("A", "apron", (0.0, 0.0), (60.0, 30.0))
    };
    let items =
        panel(&cloth((90.0, 90.0), 44.0, vec![slanting, cut("B", "band", (60.0, 0.0), (30.0, 44.0))]), 58.5, 1).0;
    let edges: Vec<&String> = items.iter().filter(|item| item.starts_with("edge")).collect();
    assert_eq!(edges[..3], ["edge (5 0) (5 10)", "edge (5 10) (30 10)", "edge (30 10) (30 0)"]);
    assert!(edges[3].starts_with("edge (0 10)"), "{edges:?}");
}

/// By pencil: 300 are 166.7 mm at 1 : 18, less than 168, and 200 mm at 1 : 15.
#[test]
fn the_scale_is_that_of_the_widest_cloth() {
    let sheet = |across: f64| cloth((60.0, 60.0), across, vec![cut("A", "apron", (0.0, 0.0), (60.0, across))]);
    assert_eq!(scale(&[sheet(300.0), sheet(60.0)]), "18");
    assert_eq!(scale(&[sheet(60.0), sheet(300.0)]), "18");
}

/// By pencil: a letter of 2.8 mm with 0.6 at either side takes 4: a piece 5 high has it at 1 : 12, 4.17 mm, but not at
/// 1 : 15, where a cloth of 20 m would take fewer pages.
#[test]
fn every_letter_can_be_read() {
    let cuts = vec![cut("A", "tie", (0.0, 0.0), (5.0, 5.0)), cut("B", "apron", (5.0, 0.0), (1995.0, 100.0))];
    let strip =
        DrawnLength { roll: true, ..cloth((60.0, 60.0), 10.0, vec![cut("C", "strip", (0.0, 0.0), (60.0, 10.0))]) };
    assert_eq!(scale(&[cloth((2000.0, 2000.0), 100.0, cuts), strip]), "12");
}

/// By pencil: over a cloth of 100 mm a heading has 18 and 4 more: 52 bold letters of 3.2 mm, 0.728 of that wide, are 121.14.
#[test]
fn a_heading_is_as_wide_as_its_cloth_with_its_marks() {
    let length = DrawnLength { heading: "a".repeat(200), ..cloth((40.0, 40.0), 100.0, Vec::new()) };
    let rows = super::super::lay_picture::cloth((&length, Detail::Empty), (10.0, 200.0), &[], &style()).0;
    let longest = rows[0].texts().map(|text| text.text.chars().take_while(|c| *c == 'a').count()).max();
    assert_eq!(longest, Some(52));
    // A cloth wider than the page is still drawn, a panel to a row.
    assert_eq!(super::super::lay_picture::cloth((&length, Detail::Empty), (5.0, 200.0), &[], &style()).0.len(), 1);
}

/// By pencil: on panels of 50 what is cut ends at 45, and its rest of 12 begins the next panel.
#[test]
fn a_panel_may_end_where_the_last_piece_does() {
    let length = cloth((200.0, 45.0), 44.0, vec![cut("A", "apron", (0.0, 0.0), (45.0, 44.0))]);
    let found = View::of(&length, 10.0, 58.5).panels;
    assert_eq!(found, [(0.0, 45.0), (45.0, 57.0)]);
}

/// By pencil: a side that goes from 0 to 20 across over 100 is at 10 where the second panel begins, at 50.
#[test]
fn a_slanting_side_goes_on_where_it_was() {
    let corners = [(0.0, 0.0), (100.0, 20.0), (100.0, 40.0), (0.0, 40.0)];
    let slanting = DrawnCut {
        lines: vec![corners.map(|(along, across)| (cm(along), cm(across))).to_vec()],
        ..cut("A", "apron", (0.0, 0.0), (100.0, 40.0))
    };
    let length = cloth((100.0, 100.0), 44.0, vec![slanting]);
    assert!(panel(&length, 58.5, 0).0.contains(&"edge (0 0) (10 50)".to_owned()));
    assert!(panel(&length, 58.5, 1).0.contains(&"edge (10 0) (20 50)".to_owned()));
}

/// By pencil: 42.6 wide are 35.5 mm at 1 : 12, where three panels are in a row, and two at 1 : 10; 41.9 are 34.9, less than
/// the 35 that are worth more pages, and 27.9 and 29.8 at the next scales.
#[test]
fn a_cloth_is_drawn_35_millimetres_wide_or_more() {
    let long = |across: f64| {
        let cuts = (0..12).map(|at| cut("A", "apron", (f64::from(at) * 250.0, 0.0), (250.0, across)));
        scale(&[cloth((3000.0, 3000.0), across, cuts.collect())])
    };
    assert_eq!([long(42.6), long(41.9)], ["12", "10"]);
}
