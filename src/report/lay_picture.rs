//! Lays drawn to one scale on A4 pages, to print and pin over the cutting table.
//!
//! White pieces with black edges, hatched by order; letters that a legend explains, and that are those of the picture
//! of the pieces. Running marks are along the edge, marks across at the sides of the pieces; selvedges are double lines
//! and a fold has long and short dashes. Waste is lightly hatched; a rest worth keeping has a dashed edge and its size,
//! and a long one is broken off. Lengths that are cut alike are drawn once.
//!
//! Never here: where a piece lies; what is worth keeping.

use super::canvas::{Anchor, Fill, Frame, LINE, Pen, SMALLEST, Sketch, Text, text_width, wrapped};
use super::drawn_lay::DrawnLength;
use super::lay_bar;
use super::lay_labels::{hatched_orders, heading, legend, off_pieces};
use super::lay_panel::{MARKS, View};
use super::picture_page::{
    BETWEEN, Pages, PictureHead, SCALES, WIDE, best_scale, height_below, on_paper, whole, written,
};
use super::plain_text;
use crate::quantity::{Style, number};
use std::io;

/// The size of the words above a length.
const HEADING: f64 = 3.2;
/// Room at the left of a row for half of its first mark.
const INDENT: f64 = 5.0;
/// The narrowest heading.
const NARROWEST: f64 = 58.0;
/// The widest cloth is drawn at least so wide, if more pages allow it.
const COMFORTABLE: f64 = 35.0;

/// Draws lengths one below the other; each page is the bytes of a file.
pub(crate) fn lay_pages(head: &PictureHead, lengths: &[DrawnLength], style: &Style) -> io::Result<Vec<Vec<u8>>> {
    written(&laid_out(head, lengths, style))
}

/// The pages of a picture of lays.
pub(super) fn laid_out(head: &PictureHead, lengths: &[DrawnLength], style: &Style) -> Vec<Sketch> {
    let high = height_below(head);
    let scale = scale_of((lengths, high), style);
    drawn((lengths, high), scale, style, Detail::Whole).finished(head, scale, style)
}

/// The scale that all lengths go on the paper with and all letters can be read at, on as few pages as that takes.
fn scale_of((lengths, high): (&[DrawnLength], f64), style: &Style) -> f64 {
    let goes_on = |scale: f64| {
        lengths.iter().all(|length| {
            if length.roll {
                lay_bar::has_room(length, scale)
            } else {
                View::of(length, scale, high).wide <= WIDE - MARKS - 4.0
            }
        })
    };
    let possible: Vec<f64> = SCALES.into_iter().filter(|scale| goes_on(*scale)).collect();
    let is_legible = |scale: f64| {
        let mut cloth = lengths.iter().filter(|length| !length.roll);
        cloth.all(|length| View::of(length, scale, high).is_legible())
    };
    let is_wide = |scale: f64| {
        let widths = lengths.iter().filter(|length| !length.roll).map(|length| on_paper(length.width, scale));
        widths.fold(0.0, f64::max) >= COMFORTABLE || lengths.iter().all(|length| length.roll)
    };
    let mut tried = Vec::new();
    for scale in possible.iter().copied().take_while(|scale| is_legible(*scale)) {
        if !tried.is_empty() && !is_wide(scale) {
            break;
        }
        let pages = drawn((lengths, high), scale, style, Detail::Empty).count();
        tried.push((scale, pages));
        if pages == 1 {
            break;
        }
    }
    let last = SCALES.last().copied().unwrap_or(1.0);
    best_scale(tried).or(possible.first().copied()).unwrap_or(last)
}

/// Whether pieces are drawn, or only the cloth, to count its pages.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Detail {
    Whole,
    Empty,
}

fn drawn((lengths, high): (&[DrawnLength], f64), scale: f64, style: &Style, detail: Detail) -> Pages {
    let orders = hatched_orders(lengths);
    let mut pages = Pages::new(high);
    let mut untold: Vec<String> = Vec::new();
    // Rolls stand one below the other, cloth side by side where it is narrow.
    for run in lengths.chunk_by(|left, right| left.roll == right.roll) {
        let [first, ..] = run else { continue };
        if first.roll {
            for length in run {
                roll(&mut pages, length, scale, &orders, style);
            }
        } else {
            let mut figures = Vec::new();
            for length in run {
                let (drawn, marks) = cloth((length, detail), (scale, high), &orders, style);
                figures.extend(drawn);
                untold.extend(marks);
            }
            pages.flow(figures);
        }
    }
    legend_below(&mut pages, (lengths, scale), &orders, style);
    if !untold.is_empty() {
        pages.paragraph(&format!("Without room for it in the drawing: {}.", untold.join("; ")));
    }
    pages
}

fn roll(pages: &mut Pages, length: &DrawnLength, scale: f64, orders: &[String], style: &Style) {
    let [which, size] = heading(length, style);
    let mut title = Some(titled(&[format!("{which}: {size}")], WIDE));
    for row in lay_bar::rows(length, scale, orders, style) {
        // All rows of a roll begin below each other, however wide their first mark is.
        let mut indented = Sketch::default();
        indented.add(row, (INDENT, 0.0));
        pages.below(below(title.take(), indented));
        pages.space(1.6);
    }
    pages.space(BETWEEN);
}

/// A length of cloth in rows of panels, the first row below its heading, and the marks that have no room in them.
pub(super) fn cloth(
    (length, detail): (&DrawnLength, Detail),
    (scale, high): (f64, f64),
    orders: &[String],
    style: &Style,
) -> (Vec<Sketch>, Vec<String>) {
    let wide = on_paper(length.width, scale) + MARKS + 4.0;
    let words: Vec<String> = heading(length, style).into_iter().chain(off_pieces(length, style)).collect();
    let title = titled(&words, wide.clamp(NARROWEST, WIDE));
    let view = View::of(length, scale, high - title.bounds().height() - 2.0);
    let step = MARKS + view.wide + 4.0;
    let in_row = whole((WIDE + 2.0) / step).max(1);
    let mut title = Some(title);
    let (mut rows, mut untold) = (Vec::new(), Vec::new());
    for panels in view.panels.chunks(in_row) {
        let mut row = Sketch::default();
        let mut left = MARKS;
        for panel in panels {
            let (drawn, marks) = match detail {
                Detail::Whole => view.panel(*panel, orders, style),
                Detail::Empty => (view.empty_panel(*panel, style), Vec::new()),
            };
            row.add(drawn, (left, 0.0));
            untold.extend(marks);
            left += step;
        }
        rows.push(below(title.take(), row));
    }
    (rows, untold)
}

/// A figure with its title above it, so that they stand on one page.
fn below(title: Option<Sketch>, figure: Sketch) -> Sketch {
    let Some(mut whole) = title else { return figure };
    let down = whole.bounds().bottom + 2.0 - figure.bounds().top;
    whole.add(figure, (0.0, down));
    whole
}

fn titled(texts: &[String], width: f64) -> Sketch {
    let mut sketch = Sketch::default();
    let mut down = 0.0;
    for line in texts.iter().flat_map(|text| wrapped(text, HEADING, true, width)) {
        sketch.text(Text::new(&line, (0.0, down), Anchor::Start).bold(HEADING));
        down += HEADING + 0.8;
    }
    sketch
}

/// What each letter is, and whose each hatch.
fn legend_below(pages: &mut Pages, (lengths, scale): (&[DrawnLength], f64), orders: &[String], style: &Style) {
    for line in legend(lengths, style) {
        let mut sketch = Sketch::default();
        let letter = Text::new(&line.letter, (0.0, 0.0), Anchor::Start).bold(3.4);
        let left = text_width(&line.letter, 3.4, true).max(6.0) + 2.0;
        sketch.text(letter);
        for (place, text) in wrapped(&line.text, SMALLEST, false, WIDE - left).iter().enumerate() {
            let y = number::from_count(place) * LINE;
            sketch.text(Text::new(text, (left, y), Anchor::Start));
        }
        pages.below(sketch);
        pages.space(0.7);
    }
    for (place, order) in orders.iter().enumerate() {
        let mut sketch = Sketch::default();
        let swatch = Frame { left: 0.0, top: -2.0, right: 8.0, bottom: 2.0 };
        sketch.box_of(swatch, Fill::Order(place));
        sketch.closed(&swatch.corners(), Pen::Fine);
        for (place, line) in wrapped(&plain_text::one_line(order), SMALLEST, false, WIDE - 12.0).iter().enumerate() {
            sketch.text(Text::new(line, (10.0, number::from_count(place) * LINE), Anchor::Start));
        }
        pages.below(sketch);
        pages.space(1.0);
    }
    if lengths.iter().any(|length| length.roll && lay_bar::is_widened(length, scale)) {
        pages.space(1.0);
        pages.paragraph("Rolls are drawn to scale along their length, but wider than they are.");
    }
    if lengths.iter().any(|length| !length.roll) {
        pages.space(1.0);
        pages.paragraph(
            "At the left of the cloth are the running marks; at the sides of a piece the marks across, from the left edge of the cloth as drawn. Dashed edges: keep. Light hatch: waste.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::canvas::{Item, Point, Text};
    use super::super::drawn_lay::{DrawnCut, DrawnLayers, DrawnRest};
    use super::super::picture::tests::{assert_readable, head};
    use super::super::picture_page::HIGH;
    use super::*;
    use crate::quantity::{Length, Tape};
    use proptest::prelude::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    /// A rectangle at a mark along and a mark across, with its length and width.
    fn piece(name: &str, (from, left): (f64, f64), (along, across): (f64, f64)) -> DrawnCut {
        let corners = [(from, left), (from + along, left), (from + along, left + across), (from, left + across)];
        DrawnCut {
            letter: name.chars().next().map(|c| c.to_ascii_uppercase().to_string()).unwrap_or_default(),
            name: name.to_owned(),
            order: None,
            size: format!("{along} in × {across} in"),
            from: inches(from),
            to: inches(from + along),
            across_from: inches(left),
            across_to: inches(left + across),
            lines: vec![corners.map(|(along, across)| (inches(along), inches(across))).to_vec()],
            along: (1.0, 0.0),
            own_size: (inches(along), Some(inches(across))),
            one_way: false,
            layers: DrawnLayers::One,
        }
    }

    fn length(long: f64, used: f64, cuts: Vec<DrawnCut>) -> DrawnLength {
        let rest = DrawnRest {
            from: inches(used),
            to: inches(long),
            across_from: Length::ZERO,
            across_to: inches(44.0),
            kept: true,
            along: inches(long - used),
            across: inches(44.0),
            unwashed: false,
        };
        DrawnLength {
            heading: "C1-1 (lawn)".to_owned(),
            times: 1,
            length: inches(long),
            lead: Length::ZERO,
            used: inches(used),
            width: inches(44.0),
            roll: false,
            folded: false,
            cuts,
            rests: if long > used { vec![rest] } else { Vec::new() },
            off_pieces: Vec::new(),
        }
    }

    fn pages(lengths: &[DrawnLength]) -> Vec<Sketch> {
        let pages = laid_out(&head(), lengths, &Style::default());
        pages.iter().for_each(assert_readable);
        pages
    }

    fn texts(pages: &[Sketch]) -> Vec<String> {
        pages.iter().flat_map(Sketch::texts).map(|text| text.text.clone()).collect()
    }

    fn find<'p>(page: &'p Sketch, wanted: &str) -> &'p Text {
        page.texts().find(|text| text.text == wanted).unwrap_or_else(|| panic!("no {wanted}"))
    }

    /// By pencil: two pieces of 20 by 20 and 20 by 12 in side by side, one of 10 by 44 below, on 126 in of cloth. At
    /// the scale the page tells, marks 0, 20 and 30 are 20 and 10 in apart; the second piece starts at 20 and ends at
    /// 32 across.
    #[test]
    fn a_lay_has_marks_along_and_across_and_a_broken_rest() {
        let cuts = vec![
            piece("front", (0.0, 0.0), (20.0, 20.0)),
            piece("back", (0.0, 20.0), (20.0, 12.0)),
            piece("strip", (20.0, 0.0), (10.0, 44.0)),
        ];
        let drawn = pages(&[length(126.0, 30.0, cuts)]);
        let [page] = drawn.as_slice() else { panic!("{} pages", drawn.len()) };
        let told = texts(&drawn);
        let scale =
            told.iter().find_map(|text| text.strip_prefix("scale 1 : ")?.split(',').next()?.parse::<f64>().ok());
        let inch = 25.4 / scale.unwrap();
        let marks: Vec<&Text> = page.texts().filter(|text| text.anchor == Anchor::End && text.at.0 < 26.0).collect();
        let at = |wanted: &str| marks.iter().find(|mark| mark.text == wanted).map(|mark| mark.at.1).unwrap();
        assert!((at("20") - at("0") - 20.0 * inch).abs() < 1e-6, "{marks:?}");
        assert!((at("30") - at("20") - 10.0 * inch).abs() < 1e-6);
        // A rest of 96 in is 12 mm on paper, and its end still has its mark.
        assert!((at("126") - at("30") - 12.0).abs() < 1e-6);
        // Across, the first piece ends at 20 where the second starts, and the second at 32.
        let left = find(page, "0").at.0 + 5.8;
        let (first, second) = (page.texts().filter(|text| text.text == "20" && text.at.0 > 28.0), find(page, "32"));
        assert!(first.count() == 1);
        let frame = second.frame();
        assert!(frame.right < left + 32.0 * inch && frame.left > left + 20.0 * inch, "{frame:?}");
        for wanted in ["F", "B", "S", "keep 96", "44 wide", "1 × front, 20 × 20", "1 × back, 20 × 12"] {
            assert!(told.iter().any(|text| text == wanted), "{wanted}: {told:?}");
        }
    }

    #[test]
    fn texts_cannot_leave_their_place() {
        let odd = piece("<script>\u{1b}[31m & \"x\"", (0.0, 0.0), (30.0, 40.0));
        let pages = lay_pages(&head(), &[length(30.0, 30.0, vec![odd])], &Style::default()).unwrap();
        let picture = String::from_utf8(pages.concat()).unwrap();
        assert!(!picture.contains("<script>") && !picture.contains('\u{1b}'), "{picture}");
        assert!(picture.contains("&lt;script&gt;"), "{picture}");
    }

    #[test]
    fn twins_on_double_cloth_are_drawn_once_as_they_lie() {
        let both = |left| DrawnCut { layers: DrawnLayers::Both, ..piece("front", (0.0, left), (30.0, 20.0)) };
        let folded = DrawnLength { folded: true, ..length(30.0, 30.0, vec![both(0.0), both(24.0)]) };
        let told = texts(&pages(&[folded]));
        assert_eq!(told.iter().filter(|text| *text == "front").count(), 1, "{told:?}");
        for wanted in ["22 wide", "fold", "2 × front, 30 × 20, on double cloth"] {
            assert!(told.iter().any(|text| text == wanted), "{wanted}: {told:?}");
        }
    }

    #[test]
    fn a_piece_on_the_fold_is_drawn_to_the_fold() {
        let fold = DrawnCut { layers: DrawnLayers::Fold, ..piece("front", (0.0, 12.0), (30.0, 20.0)) };
        let folded = DrawnLength { folded: true, ..length(30.0, 30.0, vec![fold]) };
        let view = View::of(&folded, 10.0, HIGH);
        let (drawn, _) = view.panel(view.panels[0], &[], &Style::default());
        // Half of 44 in at 1 : 10; nothing of the piece is beyond it.
        let right = |points: &Vec<Point>| points.iter().map(|point| point.0).fold(0.0, f64::max);
        let areas = drawn.items.iter().filter_map(|item| match item {
            Item::Area { lines, fill: Fill::White } => Some(lines.iter().map(right).fold(0.0, f64::max)),
            _ => None,
        });
        let widest = areas.fold(0.0, f64::max);
        assert!((widest - 55.88).abs() < 1e-6, "{widest}");
    }

    /// By pencil: 44 in of cloth folded is 22 in wide, 55.88 mm at 1 : 10. Two pieces of 22 in cut through both layers
    /// are cut apart at the fold, 76.2 mm along it; a piece on the fold is not.
    #[test]
    fn pieces_on_double_cloth_are_cut_apart_at_the_fold() {
        let at_the_fold = |cuts: Vec<DrawnCut>| {
            let folded = DrawnLength { folded: true, ..length(30.0, 30.0, cuts) };
            let view = View::of(&folded, 10.0, HIGH);
            let (drawn, _) = view.panel(view.panels[0], &[], &Style::default());
            let edges = drawn.items.iter().filter_map(|item| match item {
                Item::Stroke { points, pen: Pen::Edge } => Some(points.clone()),
                _ => None,
            });
            let along = edges.filter(|points| points.iter().all(|point| (point.0 - 55.88).abs() < 1e-6));
            along.map(|points| (points[0].1 - points[1].1).abs()).sum::<f64>()
        };
        let both = |left| DrawnCut { layers: DrawnLayers::Both, ..piece("front", (0.0, left), (30.0, 22.0)) };
        let cut_apart = at_the_fold(vec![both(0.0), both(22.0)]);
        assert!((cut_apart - 76.2).abs() < 1e-6, "{cut_apart}");
        let fold = DrawnCut { layers: DrawnLayers::Fold, ..piece("front", (0.0, 12.0), (30.0, 20.0)) };
        assert!(at_the_fold(vec![fold]).abs() < 1e-6);
    }

    /// By pencil: 126 in from mark 0 and 25 in before it are 151 in.
    #[test]
    fn what_lies_before_mark_0_is_told_above_the_length() {
        let off_pieces =
            [(30.0, 12.0), (30.0, 12.0), (30.0, 7.0)].map(|(along, across)| (inches(along), inches(across)));
        let off_pieces = off_pieces.to_vec();
        let lead = DrawnLength {
            lead: inches(25.0),
            off_pieces,
            ..length(126.0, 30.0, vec![piece("drop", (0.0, 0.0), (30.0, 44.0))])
        };
        let told = texts(&pages(&[lead])).join(" ");
        assert!(told.contains("151 long, 44 wide, up to 25 of it before 0") && told.contains("keep 96"), "{told}");
        // And what is kept of the pieces themselves.
        assert!(told.contains("split or trimmed off its pieces, keep 2 of 30 × 12, 1 of 30 × 7"), "{told}");
    }

    /// A title and the names of orders of any length are told whole, in as many lines as they take.
    #[test]
    fn a_long_title_and_long_orders_are_told_whole() {
        let words = |first: &str, many: usize| (0..many).map(|at| format!("{first}{at}")).collect::<Vec<_>>();
        let (title, orders) = (words("t", 40), [words("o", 80), words("p", 80)]);
        let cuts = orders
            .iter()
            .zip([0.0, 9.0])
            .map(|(order, from)| DrawnCut { order: Some(order.join(" ")), ..piece("strip", (from, 0.0), (9.0, 44.0)) });
        let head = PictureHead { title: title.join(" "), date: Some("29 Nov 2026".to_owned()), ..head() };
        let drawn = laid_out(&head, &[length(20.0, 18.0, cuts.collect())], &Style::default());
        drawn.iter().for_each(assert_readable);
        let told = texts(&drawn);
        let said: Vec<&str> = told.iter().flat_map(|text| text.split([' ', ','])).collect();
        for word in title.iter().chain(&orders[0]).chain(&orders[1]) {
            assert!(said.contains(&word.as_str()), "{word}: {told:?}");
        }
    }

    #[test]
    fn a_long_cloth_goes_on_between_pieces() {
        let cuts: Vec<DrawnCut> =
            (0..40).map(|row| piece("drop", (f64::from(row) * 90.0, 0.0), (90.0, 44.0))).collect();
        let whole = length(3600.0, 3600.0, cuts);
        let view = View::of(&whole, 30.0, HIGH);
        assert!(view.panels.len() > 1);
        let drop = 90.0 * 25.4 / 30.0;
        for (from, _) in &view.panels {
            assert!((from / drop - (from / drop).round()).abs() < 1e-6, "a panel begins within a piece");
        }
        let covered: f64 = view.panels.iter().map(|(from, to)| to - from).sum();
        assert!((covered - 40.0 * drop).abs() < 1e-6);
        assert_eq!(
            View::of(&length(61.5, 61.5, vec![piece("drop", (0.0, 0.0), (61.5, 44.0))]), 10.0, HIGH).panels.len(),
            1
        );
    }

    #[test]
    fn a_roll_has_a_letter_in_each_piece_or_once_with_the_count() {
        let strip = |from: f64, along: f64| piece("strip", (from, 0.0), (along, 6.0));
        let roll = |long: f64, cuts: Vec<DrawnCut>| {
            let used = cuts.iter().map(|cut| cut.to).fold(Length::ZERO, Length::most);
            DrawnLength { roll: true, width: inches(6.0), used, ..length(long, used.in_inches(), cuts) }
        };
        let told = texts(&pages(&[roll(396.0, (0..39).map(|at| strip(f64::from(at) * 10.0, 10.0)).collect())]));
        // 39 in the pieces, one in the legend.
        assert_eq!(told.iter().filter(|text| *text == "S").count(), 40, "{told:?}");
        assert!(["0", "10", "390", "396"].iter().all(|mark| told.iter().any(|text| text == mark)), "{told:?}");
        let narrow = texts(&pages(&[roll(900.0, (0..800).map(|at| strip(f64::from(at), 1.0)).collect())]));
        assert!(narrow.iter().any(|text| text.ends_with(" × S")), "{narrow:?}");
    }

    #[test]
    fn orders_are_told_apart_by_their_hatch_and_one_alone_has_none() {
        let of =
            |order: &str, from| DrawnCut { order: Some(order.to_owned()), ..piece("strip", (from, 0.0), (9.0, 44.0)) };
        let written = |cuts: Vec<DrawnCut>| {
            let pages = lay_pages(&head(), &[length(20.0, 18.0, cuts)], &Style::default()).unwrap();
            String::from_utf8(pages.concat()).unwrap()
        };
        let two = written(vec![of("31", 0.0), of("32", 9.0)]);
        assert!(two.contains("url(#order0)") && two.contains("url(#order1)"), "{two}");
        let one = written(vec![of("31", 0.0), of("31", 9.0)]);
        assert!(!one.contains("url(#order0)"), "{one}");
        assert!(one.contains("width=\"210mm\"") && one.contains("height=\"297mm\""));
    }

    #[test]
    fn grain_on_nap_has_one_head_towards_the_head_of_the_piece() {
        let heads = |cut: DrawnCut| {
            let whole = length(30.0, 30.0, vec![cut]);
            let view = View::of(&whole, 10.0, HIGH);
            let (page, _) = view.panel(view.panels[0], &[], &Style::default());
            let black: Vec<Vec<Point>> = page
                .items
                .iter()
                .filter_map(|item| match item {
                    Item::Area { lines, fill: Fill::Black } => lines.first().cloned(),
                    _ => None,
                })
                .collect();
            // A head points down if its tip, the first corner, is its lowest.
            black.iter().map(|head| head[0].1 > head[1].1).collect::<Vec<bool>>()
        };
        let panel = || piece("panel", (0.0, 0.0), (30.0, 44.0));
        assert_eq!(heads(panel()).len(), 2);
        assert_eq!(heads(DrawnCut { one_way: true, ..panel() }), [true]);
        assert_eq!(heads(DrawnCut { one_way: true, along: (-1.0, 0.0), ..panel() }), [false]);
    }

    #[test]
    fn a_metric_lay_is_in_centimetres() {
        let style = Style { tape: Tape::Metric, ..Style::default() };
        let metric = PictureHead { answers: "waist 54 cm".to_owned(), ..head() };
        let drawn = laid_out(&metric, &[length(30.0, 30.0, vec![piece("panel", (0.0, 0.0), (30.0, 44.0))])], &style);
        let told = texts(&drawn);
        assert!(
            told.iter().any(|text| text == "76.2") && told.iter().any(|text| text.contains("centimetres")),
            "{told:?}"
        );
        assert!(!told.iter().any(|text| text.ends_with(" in") || text.contains("inch")), "{told:?}");
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]
        /// Rows of pieces of any size on cloths and rolls: nothing overlaps, no text is small, one scale; and every
        /// letter is in the legend.
        #[test]
        fn any_lay_is_readable(
            rows in prop::collection::vec((1_i32..300, 1_i32..176, 1_usize..9), 1..9),
            rest in 0_i32..600,
            roll in any::<bool>(),
            orders in 1_usize..4,
        ) {
            let mut cuts = Vec::new();
            let mut from = 0.0;
            for (place, (along, across, most)) in rows.iter().enumerate() {
                let (along, across) = (f64::from(*along) / 4.0, f64::from(*across) / 4.0);
                let name = ["apron", "band", "cuff", "drop"][place % 4];
                let order = (orders > 1).then(|| format!("order {}", place % orders));
                let mut left = 0.0;
                for _ in 0..*most {
                    if left + across <= 44.0 && !roll {
                        cuts.push(DrawnCut { order: order.clone(), ..piece(name, (from, left), (along, across)) });
                        left += across;
                    }
                }
                if roll {
                    cuts.push(DrawnCut { order, ..piece(name, (from, 0.0), (along, 44.0)) });
                }
                from += along;
            }
            let one = DrawnLength { roll, ..length(from + f64::from(rest), from, cuts) };
            let drawn = pages(&[one.clone(), one]);
            let told = texts(&drawn);
            let scales: Vec<&String> = told.iter().filter(|text| text.starts_with("scale 1 : ")).collect();
            prop_assert_eq!(scales.len(), drawn.len());
            prop_assert!(scales.iter().all(|scale| *scale == scales[0]));
            for place in 0..rows.len().min(4) {
                let name = ["apron", "band", "cuff", "drop"][place];
                prop_assert!(told.iter().any(|text| text.contains(&format!("× {name}, "))), "{name}");
            }
        }
    }
}
