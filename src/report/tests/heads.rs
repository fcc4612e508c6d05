//! The head of a page, and figures below and beside each other, from the distances that the code names.

use super::super::canvas::{Anchor, Pen, Sketch, Text, text_width};
use super::super::picture_page::{Pages, PictureHead, best_scale, fits, height_below, measure, on_paper, whole};
use super::told;
use crate::quantity::{Length, Style, Tape};

fn style() -> Style {
    Style { tape: Tape::Metric, ..Style::default() }
}

fn head(title: &str, answers: &str, date: Option<&str>) -> PictureHead {
    PictureHead { title: title.to_owned(), answers: answers.to_owned(), date: date.map(str::to_owned) }
}

/// By pencil: a letter of the title is 4.4 mm high, so that its middle is 2.2 below the margin of 10; the answers are
/// 2.2, half a line of 3.7 and 0.6 lower. A head of few lines is 28 mm high, and its scale stands 6.5 above its end. At
/// 1 : 4 ten centimetres are 25 mm, and twenty would be more than 40.
#[test]
fn a_head_has_title_answers_day_page_and_scale() {
    let head = head("a skirt", "waist 54 cm", Some("29 Nov 2026"));
    let mut pages = Pages::new(height_below(&head));
    let mut tall = Sketch::default();
    tall.line((0.0, 0.0), (5.0, 200.0), Pen::Edge);
    pages.below(tall.clone());
    pages.below(tall);
    let pages = pages.finished(&head, 4.0, &style());
    assert_eq!(pages.len(), 2);
    let first = told(&pages[0]);
    assert_eq!(
        first[..4],
        [
            "29 Nov 2026, page 1 of 2 at (200 12.2) end",
            "a skirt at (10 12.2) start 4.4 bold",
            "waist 54 cm at (10 16.85) start",
            "scale 1 : 4, all measures in centimetres, to the nearest 0.1 at (10 31.5) start",
        ]
    );
    // The words take, in shares of 2.8 mm, letter by letter: the bar begins 6 mm behind them.
    let long = "scale 1 : 4, all measures in centimetres, to the nearest 0.1";
    let wide: f64 = long
        .chars()
        .map(|letter| match letter {
            'l' | 'i' => 0.3,
            ' ' | '.' | ',' | ':' => 0.35,
            't' | 'r' => 0.43,
            'm' => 1.0,
            _ => 0.65,
        })
        .sum();
    let x = 10.0 + wide * 2.8 + 6.0;
    let strokes: Vec<_> = pages[0].segments().take(3).collect();
    let wanted = [((x, 31.5), (x + 25.0, 31.5)), ((x, 30.3), (x, 32.7)), ((x + 25.0, 30.3), (x + 25.0, 32.7))];
    let near = |one: (f64, f64), other: (f64, f64)| (one.0 - other.0).hypot(one.1 - other.1) < 1e-6;
    assert!(
        strokes.iter().zip(wanted).all(|(found, wanted)| near(found.0, wanted.0) && near(found.1, wanted.1)),
        "{strokes:?}, not {wanted:?}"
    );
    let text = pages[0].texts().nth(4).unwrap();
    assert!(text.text == "10 cm" && near(text.at, (x + 27.0, 31.5)) && text.anchor == Anchor::Start, "{text:?}");
    assert_eq!(first[8..], ["edge (10 38) (15 238)"]);
    assert!(told(&pages[1])[0].starts_with("29 Nov 2026, page 2 of 2"));
}

#[test]
fn an_inch_head_names_its_finest_mark_and_a_single_page_no_number() {
    let head = head("a skirt", "waist 21 in", None);
    let pages = Pages::new(height_below(&head)).finished(&head, 10.0, &Style::default());
    let all = told(&pages[0]);
    assert_eq!(all[..2], ["a skirt at (10 12.2) start 4.4 bold", "waist 21 in at (10 16.85) start"]);
    assert!(all[2].starts_with("scale 1 : 10, all measures in inches, to the nearest 1/8 at (10 31.5)"), "{all:?}");
    // 10 in are 25.4 mm at 1 : 10; 20 in would be 50.8.
    let bar = pages[0].segments().next().unwrap();
    assert!((bar.1.0 - bar.0.0 - 25.4).abs() < 1e-6 && all.iter().any(|item| item.starts_with("10 in at")));
    let without = Pages::new(height_below(&head)).finished_without_scale(&head);
    assert_eq!(told(&without[0]).len(), 2);
}

/// By pencil: the page has 297 − 20 − 28 = 249 mm below a head of few lines. Below n lines of answers are the scale and
/// some white: 6.85 + 3.7 n + 1.4 + 6.5; with four that is 29.55, 1.55 more than 28. Each further line of the title takes
/// 5.2 mm.
#[test]
fn a_head_of_many_lines_leaves_less_room() {
    let words = |letters: usize, many: usize| vec!["m".repeat(letters); many].join(" ");
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-9, "{found}, not {wanted}");
    near(height_below(&head("a skirt", "waist 21 in", None)), 249.0);
    // 60 letters of 2.8 mm are 168 mm: one word fills a line of 186.
    near(height_below(&head("a", &words(60, 3), None)), 249.0);
    near(height_below(&head("a", &words(60, 4), None)), 249.0 - 1.55);
    near(height_below(&head("a", &words(60, 8), None)), 249.0 - 1.55 - 4.0 * 3.7);
    near(height_below(&head("a", &words(60, 9), None)), 249.0 - 1.55 - 4.0 * 3.7);
    // 30 bold letters of 4.4 mm are 147.84 mm.
    near(height_below(&head(&words(30, 3), &words(60, 4), None)), 249.0 - 1.55 - 2.0 * 5.2);
    near(height_below(&head(&words(30, 5), &words(60, 4), None)), 249.0 - 1.55 - 4.0 * 5.2);
    near(height_below(&head(&words(30, 6), &words(60, 4), None)), 249.0 - 1.55 - 4.0 * 5.2);
}

fn figure(wide: f64, high: f64) -> Sketch {
    let mut sketch = Sketch::default();
    sketch.line((-1.0, -2.0), (wide - 1.0, high - 2.0), Pen::Edge);
    sketch
}

/// What stands on each page below its head.
fn pages(pages: Pages) -> Vec<Vec<String>> {
    let pages = pages.finished_without_scale(&PictureHead::default());
    pages.iter().map(|page| told(page).into_iter().filter(|item| !item.starts_with("page ")).collect()).collect()
}

/// By pencil: figures begin at 10 + 28 + 249 − 100 = 187 where they have 100 mm, and at the margin of 10 even if they
/// reach to the left of their origin.
#[test]
fn figures_stand_below_each_other_as_long_as_there_is_room() {
    let mut flow = Pages::new(100.0);
    flow.below(figure(30.0, 60.0));
    flow.space(5.0);
    assert!((flow.left() - 35.0).abs() < 1e-9 && flow.count() == 1);
    flow.below(figure(20.0, 35.0));
    assert!(flow.left().abs() < 1e-9 && flow.count() == 1);
    flow.space(5.0);
    assert!(flow.left().abs() < 1e-9, "no more than the page");
    flow.below(figure(20.0, 10.0));
    // Too high for a page, it has one to itself.
    flow.below(figure(20.0, 130.0));
    assert_eq!(flow.count(), 3);
    assert_eq!(
        pages(flow),
        [
            vec!["edge (10 187) (40 247)", "edge (10 252) (30 287)"],
            vec!["edge (10 187) (30 197)"],
            vec!["edge (10 187) (30 317)"]
        ]
    );
    // What begins to the right of its origin stays there.
    let mut flow = Pages::new(100.0);
    let mut sketch = Sketch::default();
    sketch.line((3.0, 1.0), (9.0, 5.0), Pen::Fine);
    flow.below(sketch);
    assert_eq!(pages(flow), [["fine (13 187) (19 191)"]]);
}

/// By pencil: 190 mm are a row. 60 and 7.5 and 60 and 7.5 and 55 are just 190. The next row begins 5 mm lower than the
/// highest of the first.
#[test]
fn figures_stand_beside_each_other_as_long_as_there_is_room() {
    let mut flow = Pages::new(100.0);
    flow.flow([figure(60.0, 20.0), figure(60.0, 30.0), figure(55.0, 10.0), figure(25.0, 40.0)]);
    assert_eq!(
        pages(flow),
        [[
            "edge (10 187) (70 207)",
            "edge (77.5 187) (137.5 217)",
            "edge (145 187) (200 197)",
            "edge (10 222) (35 262)"
        ]]
    );
    let mut flow = Pages::new(100.0);
    flow.flow([figure(60.0, 20.0), figure(60.0, 30.0), figure(55.1, 10.0)]);
    assert!((flow.left() - (100.0 - 30.0 - 5.0 - 10.0 - 5.0)).abs() < 1e-9);
    // 70 beside 40 would need more than the 60 that are left; below it, on the next page, it has room.
    let mut flow = Pages::new(100.0);
    flow.below(figure(20.0, 40.0));
    flow.flow([figure(60.0, 40.0), figure(60.0, 70.0)]);
    assert_eq!(pages(flow), [vec!["edge (10 187) (30 227)", "edge (10 227) (70 267)"], vec!["edge (10 187) (70 257)"]]);
}

/// A line of a paragraph takes 3.7 mm: 2.8 mm of letters and 0.9 below.
#[test]
fn a_paragraph_takes_a_line_for_every_190_mm() {
    let mut flow = Pages::new(100.0);
    flow.paragraph(&[vec!["m".repeat(60); 2].join(" "), "end".to_owned()].join(" "));
    assert!((flow.left() - (100.0 - 2.0 * 3.7)).abs() < 1e-9);
    let m = "m".repeat(60);
    assert_eq!(pages(flow), [[format!("{m} at (10 188.4) start"), format!("{m} end at (10 192.1) start")]]);
}

#[test]
fn the_largest_scale_with_the_fewest_pages_is_best() {
    assert_eq!(best_scale([(2.0, 3), (4.0, 1), (5.0, 1)]), Some(4.0));
    assert_eq!(best_scale([(5.0, 1), (4.0, 1), (2.0, 2)]), Some(4.0));
    assert_eq!(best_scale([]), None);
    // 30 in are 76.2 cm, 190.5 mm at 1 : 4.
    assert!((on_paper(Length::inches(30.0), 4.0) - 190.5).abs() < 1e-9);
    assert_eq!(
        (measure(Length::inches(30.0), &style()), measure(Length::inches(30.0), &Style::default())),
        ("76.2".to_owned(), "30".to_owned())
    );
    assert_eq!((whole(3.9), whole(-1.0), whole(0.2)), (3, 0, 0));
    let room = |wide: f64, high: f64| fits(figure(wide, high).bounds(), 100.0);
    assert!(room(190.0, 100.0) && !room(190.1, 100.0) && !room(190.0, 100.1));
    let text = Text::new("", (0.0, 0.0), Anchor::Start);
    assert!(text.frame().width().abs() < 1e-9);
}

/// By pencil: the largest of 1, 2, 5, 10, 20, 50 and so on of which no more than 40 mm are drawn.
#[test]
fn a_scale_has_a_measured_line_of_at_most_forty_millimetres() {
    for (scale, count) in
        [(1.0, 2), (2.0, 5), (3.0, 10), (6.0, 20), (15.0, 50), (30.0, 100), (60.0, 200), (150.0, 500), (300.0, 1000)]
    {
        let page = &Pages::new(100.0).finished(&PictureHead::default(), scale, &style())[0];
        let text = page.texts().find(|text| text.text == format!("{count} cm"));
        let text = text.unwrap_or_else(|| panic!("{scale}: {:?}", page.texts().collect::<Vec<_>>()));
        let long = f64::from(count) * 10.0 / scale;
        assert!(long <= 40.0 && page.segments().any(|(from, to)| (to.0 - from.0 - long).abs() < 1e-6));
        assert!(page.segments().any(|(from, _)| (text.at.0 - 2.0 - from.0).abs() < 1e-6));
    }
}

/// By pencil: one figure higher than a page stands beside another all the same, for no page has more room.
#[test]
fn figures_too_high_for_any_page_stand_beside_each_other() {
    let mut flow = Pages::new(100.0);
    flow.flow([figure(60.0, 40.0), figure(60.0, 130.0)]);
    assert_eq!(pages(flow), [["edge (10 187) (70 227)", "edge (77.5 187) (137.5 317)"]]);
    // Half a millimetre wide, the first is still the first of its row.
    let mut flow = Pages::new(100.0);
    flow.flow([figure(189.9, 40.0), figure(0.5, 10.0)]);
    assert_eq!(pages(flow), [["edge (10 187) (199.9 227)", "edge (10 232) (10.5 242)"]]);
}

/// By pencil: a line of answers is 4 mm narrower than the page, 102 letters of 1.82 mm. A title leaves room for the day and
/// the highest number of pages, and 4 mm before them; its letters are 0.728 of 4.4 mm wide.
#[test]
fn a_title_ends_before_the_day() {
    let longest = |head: &PictureHead| {
        let page = &Pages::new(100.0).finished_without_scale(head)[0];
        page.texts().map(|text| text.text.chars().take_while(|c| *c == 'a').count()).max().unwrap()
    };
    assert_eq!(longest(&head("", &"a".repeat(150), None)), 102);
    for date in ["1 May", "12 May", "12 May 1912", "Monday, 12 May 1912"] {
        let room = 190.0 - 4.0 - text_width(&format!("{date}, page 888 of 888"), 2.8, false);
        let found = longest(&head(&"a".repeat(100), "", Some(date)));
        let wide = |letters: usize| text_width(&"a".repeat(letters), 4.4, true);
        assert!(wide(found) <= room && wide(found + 1) > room, "{date}: {found}");
    }
}

/// Figures in a row begin at one height, wherever their own upper edges are.
#[test]
fn figures_of_a_row_begin_at_one_height() {
    let mut low = Sketch::default();
    low.line((0.0, 5.0), (10.0, 25.0), Pen::Edge);
    let mut flow = Pages::new(100.0);
    flow.flow([figure(60.0, 40.0), low]);
    assert_eq!(pages(flow), [["edge (10 187) (70 227)", "edge (77.5 187) (87.5 207)"]]);
}
