//! Whole pages: where a picture of pieces, one of a lay and one of bars put what is drawn and what is said of it, and how
//! it is written.

use super::super::canvas::{Anchor, Fill, Frame, Pen, Sketch, Text};
use super::super::canvas_svg::write_page;
use super::super::chart::{Bar, Chart, chart_pages};
use super::super::drawn_lay::{DrawnCut, DrawnLength};
use super::super::drawn_piece::{DrawnPiece, DrawnShape};
use super::super::picture_page::PictureHead;
use super::super::{lay_picture, picture};
use super::lays::{cloth, cm, cut, style};
use super::told;
use crate::piece::Grain;

fn head() -> PictureHead {
    PictureHead { title: "a skirt".to_owned(), answers: "waist 54 cm".to_owned(), date: None }
}

#[track_caller]
fn assert_has(page: &Sketch, wanted: &[&str]) {
    let all = told(page);
    let mut from = 0;
    for item in wanted {
        let found = all.iter().skip(from).position(|found| found == item);
        assert!(found.is_some(), "{item} is not there, or not in this order:\n{}", all.join("\n"));
        from += found.unwrap() + 1;
    }
}

fn panel(across: f64, along: f64) -> DrawnPiece {
    DrawnPiece {
        letters: vec!["A".to_owned()],
        name: "panel".to_owned(),
        notes: vec!["cut 2".to_owned(), "on the fold".to_owned()],
        shape: DrawnShape::Rectangle { along: cm(along), across: cm(across) },
        grain: Grain::Along,
        one_way: false,
        fold: None,
        marks: Vec::new(),
    }
}

/// By pencil: 30 by 40 go on a page at 1 : 2 and not at 1 : 1. To the left the dimension takes 8.2 mm and below 8.2; 3.4
/// lower are the letter, 5.94 mm wide with 2 beside it, and the name, and 4.3 lower the notes, 3.7 from line to line. The
/// page begins at 10 and 38.
#[test]
fn a_piece_has_its_letter_name_and_notes_below_it() {
    let drawn = picture::laid_out(&head(), &[panel(30.0, 40.0)], &[], &style());
    assert_eq!(drawn.len(), 1);
    assert_has(
        &drawn[0],
        &[
            "scale 1 : 2, all measures in centimetres, to the nearest 0.1 at (10 31.5) start",
            "edge (18.2 38) (168.2 38) (168.2 238) (18.2 238) (18.2 38)",
            "40 at (11.4 138) middle upright",
            "30 at (93.2 244.8) middle",
            "A at (10 249.6) start 4.4 bold",
            "panel at (15.942 249.6) start 3.2 bold",
            "cut 2 at (10 253.9) start",
            "on the fold at (10 257.6) start",
        ],
    );
    // Letters too wide for half of the width stand above the name, 5.3 mm from line to line; without any, the name begins
    // at the left. The narrowest notes are 58 mm wide, and half of that holds seven letters, with 2 mm beside them.
    let named = |letters: &[&str]| {
        let letters = letters.iter().map(|letter| (*letter).to_owned()).collect();
        let piece = DrawnPiece { letters, ..panel(10.0, 800.0) };
        let page = &picture::laid_out(&head(), &[piece], &[], &style())[0];
        let at = |wanted: &str| {
            let text = page.texts().find(|text| text.text == wanted);
            text.map(|text| text.at).unwrap()
        };
        let (name, note) = (at("panel"), at("cut 2"));
        assert!((note.1 - name.1 - 4.3).abs() < 1e-6 && (note.0 - 10.0).abs() < 1e-6);
        let letters = page.texts().filter(|text| text.bold && (text.size - 4.4).abs() < 1e-9);
        let letters = letters.filter(|text| text.text.chars().all(|letter| "ABC +".contains(letter)));
        let letters: Vec<_> = letters.map(|text| (name.0 - text.at.0, name.1 - text.at.1)).collect();
        (name.0, letters)
    };
    let near = |found: f64, wanted: f64| (found - wanted).abs() < 1e-6;
    let (x, letters) = named(&[]);
    assert!(near(x, 10.0) && letters.is_empty());
    // `A + B` is 3.15 wide in shares, 15.523 mm.
    let (x, letters) = named(&["A", "B"]);
    assert!(near(x, 27.5232) && letters.len() == 1 && near(letters[0].1, 0.0), "{x} {letters:?}");
    // `A + B + A + B + A` is 8.2 in shares, 40.4 mm.
    let (x, letters) = named(&["A", "B", "A", "B", "A"]);
    assert!(near(x, 10.0) && letters.len() == 1 && near(letters[0].1, 5.3), "{x} {letters:?}");
}

/// By pencil: 80 by 30 go on one page at 1 : 4 first, 200 by 75 mm. The heading's lines are 4 mm from each other, and
/// 2 mm below them begins the room for the width, 4 mm; marks take 18 mm at the left. Below are 5 mm, the legend, its
/// words 8 mm to the right, and 1.7 mm lower what is said of every lay.
#[test]
fn a_lay_has_its_heading_above_and_its_legend_below() {
    let length = cloth((80.0, 80.0), 30.0, vec![cut("A", "panel", (0.0, 0.0), (80.0, 30.0))]);
    let drawn = lay_picture::laid_out(&head(), &[length], &style());
    assert_eq!(drawn.len(), 1);
    assert_has(
        &drawn[0],
        &[
            "scale 1 : 4, all measures in centimetres, to the nearest 0.1 at (10 31.5) start",
            "roll at (10 39.6) start 3.2 bold",
            "80 long, 30 wide at (10 43.6) start 3.2 bold",
            "waste (28 51.2) (103 51.2) (103 251.2) (28 251.2)",
            "30 wide at (65.5 48.6) middle",
            "80 at (22.2 251.2) end",
            "A at (10 259.3) start 3.4 bold",
            "1 × panel, 80 × 30 at (18 259.3) start",
        ],
    );
    let said = drawn[0].texts().find(|text| text.text.starts_with("At the left of the cloth")).unwrap();
    assert!((said.at.0 - 10.0).abs() < 1e-6 && (said.at.1 - 264.1).abs() < 1e-6, "{said:?}");
}

/// By pencil: a row is 178 mm, so that strips of 50 go on from 1 : 3 on, each in a row of its own, 33.333 mm high. The row
/// is 5 mm to the right, and 2 mm below its heading of 3.2; its marks end 4.8 mm lower, and 1.6 mm lower is the next. 1.6
/// and 5 mm below the second is the legend, in letters of 3.4. Two orders have a swatch of 8 by 4 mm each.
#[test]
fn a_roll_has_its_row_below_its_heading_and_its_orders_below_that() {
    let of = |order: &str, letter: &str, from: f64| DrawnCut {
        order: Some(order.to_owned()),
        ..cut(letter, "strip", (from, 0.0), (50.0, 10.0))
    };
    let cuts = vec![of("31", "A", 0.0), of("32", "B", 50.0)];
    let length = DrawnLength { roll: true, times: 2, ..cloth((100.0, 100.0), 10.0, cuts) };
    let drawn = lay_picture::laid_out(&head(), &[length], &style());
    assert_eq!(drawn.len(), 1);
    let scale = drawn[0].texts().find(|text| text.text.starts_with("scale")).unwrap();
    assert!(scale.text.starts_with("scale 1 : 3,"), "{scale:?}");
    let high: f64 = 100.0 / 3.0;
    let first = (38.0 + 3.2 + 2.0, 38.0 + 3.2 + 2.0 + high);
    assert_has(
        &drawn[0],
        &[
            "roll, 2 cut alike: 100 long at (10 39.6) start 3.2 bold",
            &format!("white (15 43.2) (181.667 43.2) (181.667 {0}) (15 {0})", (first.1 * 1000.0).round() / 1000.0),
            "2 × strip, 50 × 10, for 31 at (18 129.367) start",
        ],
    );
    let texts: Vec<&Text> = drawn[0].texts().collect();
    let orders: Vec<&&Text> = texts.iter().filter(|text| text.text == "31" || text.text == "32").collect();
    // Swatches are 4 mm high, with a millimetre between them, and 10 mm left of the words.
    assert!(orders.len() == 2 && (orders[1].at.1 - orders[0].at.1 - 5.0).abs() < 1e-6, "{orders:?}");
    let y = orders[0].at.1;
    let swatch = format!("order 0 (10 {0}) (18 {0}) (18 {1}) (10 {1})", short(y - 2.0), short(y + 2.0));
    assert!(told(&drawn[0]).contains(&swatch), "{swatch}");
    assert!((orders[0].at.0 - 20.0).abs() < 1e-6);
}

fn short(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

fn written(sketch: &Sketch) -> String {
    let mut bytes = Vec::new();
    write_page(sketch, &mut bytes).unwrap();
    String::from_utf8(bytes).unwrap()
}

/// The elements that hold all of these words.
fn with<'t>(text: &'t str, words: &[&str]) -> Vec<&'t str> {
    text.split('<').filter(|element| words.iter().all(|word| element.contains(word))).collect()
}

/// By pencil: the base line is 0.27 of the letters' height below their middle: 30 and 0.756, 30 and 1.35.
#[test]
fn a_page_is_written_in_millimetres() {
    let mut page = Sketch::default();
    let frame = Frame { left: 1.0, top: 2.0, right: 5.004, bottom: 9.006 };
    for fill in [Fill::White, Fill::Black, Fill::Waste, Fill::Order(2)] {
        page.box_of(frame, fill);
    }
    for (x, pen) in [(1.0, Pen::Edge), (2.0, Pen::Fine), (3.0, Pen::Fold), (4.0, Pen::Dashed)] {
        page.line((x, -0.001), (x, 7.5), pen);
    }
    page.text(Text::new("start", (20.0, 30.0), Anchor::Start));
    page.text(Text::new("middle", (20.0, 30.0), Anchor::Middle).bold(5.0));
    page.text(Text::new("end", (20.0, 30.0), Anchor::End));
    page.text(Text::new("rising", (20.0, 30.0), Anchor::End).upright());
    let text = written(&page);
    assert_eq!(with(&text, &["svg ", "width=\"210mm\"", "height=\"297mm\"", "viewBox=\"0 0 210 297\""]).len(), 1);
    // The paper, and each area, closed.
    assert_eq!(with(&text, &["d=\"M0,0 L210,0 L210,297 L0,297 z\"", "fill=\"#ffffff\""]).len(), 1);
    for fill in ["#ffffff", "#000000", "url(#waste)", "url(#order2)"] {
        let area = ["path", "d=\"M1,2 L5,2 L5,9.01 L1,9.01 z\"", "fill-rule=\"evenodd\"", &format!("fill=\"{fill}\"")];
        assert_eq!(with(&text, &area).len(), 1, "{fill}: {text}");
    }
    let pens = [
        ("M1,0 L1,7.5", "stroke-width=\"0.35\"", "#000000", None),
        ("M2,0 L2,7.5", "stroke-width=\"0.18\"", "#555555", None),
        ("M3,0 L3,7.5", "stroke-width=\"0.3\"", "#000000", Some("4 1 1 1")),
        ("M4,0 L4,7.5", "stroke-width=\"0.22\"", "#000000", Some("1.6 0.9")),
    ];
    for (path, width, colour, dashes) in pens {
        let found = with(&text, &[&format!("d=\"{path}\""), width, "fill=\"none\"", &format!("stroke=\"{colour}\"")]);
        assert_eq!(found.len(), 1, "{path}");
        let dashed = dashes.map(|dashes| format!("stroke-dasharray=\"{dashes}\""));
        assert!(dashed.is_none_or(|dashed| found[0].contains(&dashed)), "{path}");
        assert_eq!(found[0].contains("dasharray"), dashes.is_some(), "{path}");
    }
    let at = ["x=\"20\"", "y=\"30.76\"", "font-size=\"2.8\""];
    let words = |anchor: &str| with(&text, &[&at[..], &[&format!("text-anchor=\"{anchor}\"")]].concat());
    assert!(words("start").len() == 1 && words("end").len() == 1 && words("middle").len() == 1);
    assert!(words("middle")[0].contains("transform=\"rotate(-90 20 30)\"") && !words("end")[0].contains("transform"));
    assert!(!words("start")[0].contains("bold"));
    let bold = ["y=\"31.35\"", "font-size=\"5\"", "font-weight=\"bold\"", "text-anchor=\"middle\""];
    assert_eq!(with(&text, &bold).len(), 1, "{text}");
    // Only the hatches that are used are there, and waste.
    assert!(with(&text, &["pattern", "id=\"order2\""]).len() == 1 && with(&text, &["pattern", "id=\""]).len() == 2);
}

/// Six kinds of hatch, and then the same at 2.6 / 1.5 mm; no two are alike.
#[test]
fn hatches_of_any_orders_differ() {
    let mut page = Sketch::default();
    for place in 0..13 {
        page.box_of(Frame { left: 0.0, top: 0.0, right: 1.0, bottom: 1.0 }, Fill::Order(place));
    }
    let text = written(&page);
    for (place, size, turn) in [
        (0, "2.6", "0"),
        (1, "2.6", "90"),
        (2, "2.6", "-30"),
        (3, "2.6", "0"),
        (4, "2.6", "0"),
        (5, "2.6", "30"),
        (6, "1.73", "0"),
        (7, "1.73", "90"),
        (12, "1.3", "0"),
    ] {
        let wanted = [
            format!("id=\"order{place}\""),
            format!("width=\"{size}\""),
            format!("height=\"{size}\""),
            format!("patternTransform=\"rotate({turn})\""),
            "patternUnits=\"userSpaceOnUse\"".to_owned(),
        ];
        let wanted: Vec<&str> = wanted.iter().map(String::as_str).collect();
        assert_eq!(with(&text, &wanted).len(), 1, "{place}: {text}");
    }
    let waste = ["pattern", "id=\"waste\"", "width=\"1.2\"", "height=\"1.2\"", "patternTransform=\"rotate(45)\""];
    assert_eq!(with(&text, &waste).len(), 1);
    // Full lines of 2.6: the kinds 0, 1, 2, 4 and, dashed, 5. A dot of 0.4 mm in the middle, and a second line downwards.
    assert_eq!(with(&text, &["d=\"M0,0 L2.6,0\""]).len(), 5);
    assert_eq!(with(&text, &["d=\"M0,0 L2.6,0\"", "stroke-width=\"0.25\""]).len(), 4);
    assert_eq!(with(&text, &["d=\"M0,0 L2.6,0\"", "stroke-width=\"0.2\""]).len(), 1);
    assert_eq!(with(&text, &["d=\"M0,0 L2.6,0\"", "stroke-dasharray=\"1.2 0.9\""]).len(), 1);
    assert_eq!(with(&text, &["d=\"M1.1,1.3 L1.5,1.3\"", "stroke-width=\"0.45\""]).len(), 1);
    assert_eq!(with(&text, &["d=\"M0,0 L0,2.6\"", "stroke-width=\"0.2\""]).len(), 1);
    assert_eq!(with(&text, &["d=\"M0,0 L1.2,0\"", "stroke-width=\"0.12\""]).len(), 1);
}

/// By pencil: labels are 7.28 mm wide, figures 11.2, and bars begin 6 mm behind both; of 190 mm the remark takes 10.92 and
/// 3 more, so that the longest bar has 151.6. The heading takes 3.4 mm and 0.9 below; bars are 4 mm high, 6 from each
/// other.
#[test]
fn bars_stand_between_their_figures_and_their_remarks() {
    let bar = |label: &str, figure: &str, size: f64, remark: &str| Bar {
        label: label.to_owned(),
        figure: figure.to_owned(),
        size,
        remark: remark.to_owned(),
    };
    let bars = vec![bar("20 in", "$35.50", 35.5, ""), bar("21 in", "$71.00", 71.0, "second")];
    let chart = Chart { heading: "price".to_owned(), bars };
    let head = PictureHead { title: "order 32".to_owned(), ..PictureHead::default() };
    let pages = chart_pages(&[chart.clone(), chart], &head).unwrap();
    let text = String::from_utf8(pages.concat()).unwrap();
    for (words, x, y) in [
        ("price", "10", "40.62"),
        ("20 in", "10", "45.06"),
        ("$35.50", "31.48", "45.06"),
        ("21 in", "10", "51.06"),
        ("$71.00", "31.48", "51.06"),
        ("second", "188.08", "51.06"),
        // 6 mm below the first chart.
        ("price", "10", "62.92"),
    ] {
        let place = [format!("x=\"{x}\""), format!("y=\"{y}\"")];
        let found = text.split("<text").filter(|text| text.contains(words) && place.iter().all(|at| text.contains(at)));
        assert_eq!(found.count(), 1, "{words}: {text}");
    }
    for path in
        ["M34.48,42.3 L110.28,42.3 L110.28,46.3 L34.48,46.3 z", "M34.48,48.3 L186.08,48.3 L186.08,52.3 L34.48,52.3 z"]
    {
        assert_eq!(with(&text, &[&format!("d=\"{path}\""), "url(#order2)"]).len(), 1, "{path}: {text}");
    }
    let edge = "M34.48,42.3 L110.28,42.3 L110.28,46.3 L34.48,46.3 L34.48,42.3";
    assert_eq!(with(&text, &[&format!("d=\"{edge}\""), "stroke-width=\"0.35\""]).len(), 1);
}

/// By pencil: labels have at most a third of 190 mm, figures a quarter, remarks a third. With 6 mm the bars begin at
/// 116.833, and as 6.833 is too little, the longest has 10.
#[test]
fn a_bar_keeps_ten_millimetres_beside_long_texts() {
    let words = |letters: usize| "m".repeat(letters);
    let bar = Bar { label: words(40), figure: words(20), size: 3.0, remark: words(40) };
    let pages = chart_pages(&[Chart { heading: String::new(), bars: vec![bar] }], &head()).unwrap();
    let text = String::from_utf8(pages.concat()).unwrap();
    let path = "d=\"M126.83,38 L136.83,38 L136.83,42 L126.83,42 z\"";
    assert_eq!(with(&text, &[path]).len(), 1, "{text}");
}
