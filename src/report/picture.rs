//! The pieces of an order drawn to one scale on A4 pages, to cut from: dimensions, marks, grain and fold of each.
//!
//! White pieces with black edges. Below each is its letter, which is that of the lay, with name, count and size.
//! Nothing is shown by colour alone.
//!
//! Never here: where a piece lies on its cloth; rounding sizes.

use super::canvas::{Anchor, LINE, SMALLEST, Sketch, Text, text_width, wrapped};
use super::drawn_piece::DrawnPiece;
use super::picture_page::{Pages, PictureHead, SCALES, WIDE, best_scale, fits, height_below, written};
use super::piece_figure::{Figure, figure, size};
use super::plain_text;
use crate::quantity::Style;
use std::io;

/// The largest side of the largest piece is drawn at least so long if more pages allow it.
const LEGIBLE: f64 = 60.0;
/// The narrowest block of notes.
const NOTES: f64 = 58.0;

/// Draws the pieces to one scale, in their order, row by row; each page is the bytes of a file. `others` are marks on
/// what is no piece.
pub(crate) fn picture_pages(
    head: &PictureHead,
    pieces: &[DrawnPiece],
    others: &[String],
    style: &Style,
) -> io::Result<Vec<Vec<u8>>> {
    written(&laid_out(head, pieces, others, style))
}

/// The pages of a picture of pieces.
pub(super) fn laid_out(head: &PictureHead, pieces: &[DrawnPiece], others: &[String], style: &Style) -> Vec<Sketch> {
    let high = height_below(head);
    // The scales that every piece goes on a page at; of a piece too long for any, the last is the least bad.
    let goes_on = |scale: f64| {
        let mut bare = pieces.iter().filter_map(|piece| size(&piece.shape, scale));
        bare.all(|(wide, tall)| wide <= WIDE && tall <= high)
            && pieces.iter().all(|piece| fits(figure(piece, scale, style).sketch.bounds(), high))
    };
    let mut tried = Vec::new();
    let mut first = None;
    for scale in SCALES.into_iter().filter(|scale| goes_on(*scale)) {
        first = first.or(Some(scale));
        let figures: Vec<Captioned> = pieces.iter().map(|piece| Captioned::of(piece, scale, style)).collect();
        if !figures.iter().all(|figure| fits(figure.whole().bounds(), high)) {
            continue;
        }
        let largest = pieces.iter().map(|piece| extent(piece, scale)).fold(0.0, f64::max);
        if !tried.is_empty() && largest < LEGIBLE {
            break;
        }
        // Where all dimensions have room beside their pieces, a page more does not matter.
        let crowded = figures.iter().filter(|figure| !figure.complete).count();
        let pages = flowed(figures, others, high).count();
        tried.push((scale, pages + crowded));
        if pages == 1 && crowded == 0 {
            break;
        }
    }
    let last = SCALES.last().copied().unwrap_or(1.0);
    let scale = best_scale(tried).or(first).unwrap_or(last);
    let figures = pieces.iter().map(|piece| Captioned::of(piece, scale, style)).collect();
    flowed(figures, others, high).finished(head, scale, style)
}

/// The longer side of a piece on paper.
fn extent(piece: &DrawnPiece, scale: f64) -> f64 {
    size(&piece.shape, scale).map_or(0.0, |(wide, high)| wide.max(high))
}

/// Figures row by row on pages. What is said of a piece goes on below the pieces if a page has no room for it.
fn flowed(figures: Vec<Captioned>, others: &[String], high: f64) -> Pages {
    let mut pages = Pages::new(high);
    let mut paragraphs = Vec::new();
    let figures: Vec<Sketch> = figures
        .into_iter()
        .map(|figure| {
            let whole = figure.whole();
            if fits(whole.bounds(), high) {
                return whole;
            }
            paragraphs.push(format!("{}: {}.", figure.name, figure.notes.join("; ")));
            figure.named().0
        })
        .collect();
    pages.flow(figures);
    for paragraph in paragraphs {
        pages.paragraph(&paragraph);
        pages.space(LINE);
    }
    if !others.is_empty() {
        pages.paragraph(&format!("Other marks: {}.", others.join("; ")));
    }
    pages
}

/// A piece with what stands below it.
struct Captioned {
    drawn: Sketch,
    /// The letters, and the name on one line.
    letters: String,
    name: String,
    notes: Vec<String>,
    /// Whether everything to draw had room.
    complete: bool,
}

impl Captioned {
    fn of(piece: &DrawnPiece, scale: f64, style: &Style) -> Self {
        let Figure { sketch, told, complete } = figure(piece, scale, style);
        let notes = piece.notes.iter().chain(&told).map(|note| plain_text::one_line(note));
        Self {
            drawn: sketch,
            letters: piece.letters.join(" + "),
            name: plain_text::one_line(&piece.name),
            notes: notes.collect(),
            complete,
        }
    }

    fn width(&self) -> f64 {
        self.drawn.bounds().width().clamp(NOTES, WIDE)
    }

    /// The piece with its letters and name, and where the next line stands.
    fn named(&self) -> (Sketch, f64) {
        let mut sketch = self.drawn.clone();
        let (bounds, width) = (sketch.bounds(), self.width());
        let mut down = bounds.bottom + 3.4;
        let mut left = bounds.left;
        let long = text_width(&self.letters, LETTER, true) + 2.0;
        if !self.letters.is_empty() && long <= width / 2.0 {
            sketch.text(Text::new(&self.letters, (left, down), Anchor::Start).bold(LETTER));
            left += long;
        } else {
            for line in wrapped(&self.letters, LETTER, true, width) {
                sketch.text(Text::new(&line, (left, down), Anchor::Start).bold(LETTER));
                down += LETTER + 0.9;
            }
        }
        for line in wrapped(&self.name, 3.2, true, width - (left - bounds.left)) {
            sketch.text(Text::new(&line, (left, down), Anchor::Start).bold(3.2));
            down += LINE;
        }
        (sketch, down + 0.6)
    }

    /// The piece with letters, name and notes.
    fn whole(&self) -> Sketch {
        let (mut sketch, mut down) = self.named();
        let left = self.drawn.bounds().left;
        for line in self.notes.iter().flat_map(|note| wrapped(note, SMALLEST, false, self.width())) {
            sketch.text(Text::new(&line, (left, down), Anchor::Start));
            down += LINE;
        }
        sketch
    }
}

/// The size of a piece's letter.
const LETTER: f64 = 4.4;

#[cfg(test)]
pub(super) mod tests {
    use super::super::canvas::{Item, MARGIN, PAGE, Pen};
    use super::super::drawn_piece::{DrawnMark, DrawnShape, MarkPlace};
    use super::*;
    use crate::piece::{Fold, Grain, OutlinePoint};
    use crate::quantity::Length;
    use proptest::prelude::*;

    pub(in crate::report) fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    pub(in crate::report) fn piece(name: &str, shape: DrawnShape) -> DrawnPiece {
        DrawnPiece {
            letters: vec!["A".to_owned()],
            name: name.to_owned(),
            notes: vec!["cut 2".to_owned()],
            shape,
            grain: Grain::Along,
            one_way: false,
            fold: None,
            marks: Vec::new(),
        }
    }

    pub(in crate::report) fn rectangle(across: f64, along: f64) -> DrawnShape {
        DrawnShape::Rectangle { along: inches(along), across: inches(across) }
    }

    pub(in crate::report) fn head() -> PictureHead {
        PictureHead { title: "a skirt".to_owned(), answers: "waist 21 in".to_owned(), date: None }
    }

    fn pages(pieces: &[DrawnPiece]) -> Vec<Sketch> {
        laid_out(&head(), pieces, &[], &Style::default())
    }

    /// What makes a page fit to be cut from: nothing off the paper, every text high enough, and none that another text
    /// or a line runs into.
    #[track_caller]
    pub(in crate::report) fn assert_readable(page: &Sketch) {
        let texts: Vec<&Text> = page.texts().collect();
        for text in &texts {
            assert!(text.size >= SMALLEST, "{text:?}");
            // Capitals are 0.716 of the size.
            assert!(text.size * 0.716 >= 2.0, "{text:?}");
        }
        let bounds = page.bounds();
        let paper = bounds.left >= MARGIN - 4.0 && bounds.top >= MARGIN - 1.0;
        assert!(paper && bounds.right <= PAGE.0 - 4.0 && bounds.bottom <= PAGE.1 - 4.0, "{bounds:?}");
        for (place, text) in texts.iter().enumerate() {
            let frame = text.frame().grown(-0.05);
            for other in texts.iter().skip(place + 1) {
                assert!(!frame.overlaps(other.frame()), "{text:?} and {other:?}");
            }
            for (from, to) in page.segments() {
                assert!(!frame.is_crossed(from, to), "{text:?} is struck through from {from:?} to {to:?}");
            }
        }
    }

    fn shown(page: &Sketch) -> Vec<String> {
        page.texts().map(|text| text.text.clone()).collect()
    }

    #[track_caller]
    fn assert_says(pages: &[Sketch], wanted: &str) {
        let all: Vec<String> = pages.iter().flat_map(shown).collect();
        let parts: Vec<String> = all.iter().map(|text| format!(" {text} ")).collect();
        assert!(parts.iter().any(|text| text.contains(&format!(" {wanted} "))), "{wanted} is not in {all:?}");
    }

    /// By pencil: at 1 : 10 a panel of 20 by 30 in is 50.8 by 76.2 mm.
    #[test]
    fn a_panel_is_drawn_to_scale_with_both_dimensions() {
        let style = Style::default();
        let drawn = figure(&piece("panel", rectangle(20.0, 30.0)), 10.0, &style).sketch;
        let edge = drawn.items.iter().find_map(|item| match item {
            Item::Stroke { points, pen: Pen::Edge } => Some(points.clone()),
            _ => None,
        });
        let wanted = [(0.0, 0.0), (50.8, 0.0), (50.8, 76.2), (0.0, 76.2), (0.0, 0.0)];
        let edge = edge.unwrap();
        assert!(
            edge.iter().zip(wanted).all(|(found, wanted)| (found.0 - wanted.0).hypot(found.1 - wanted.1) < 1e-9),
            "{edge:?}"
        );
        // The dimension along stands 4.5 mm to the left, the dimension across 4.5 mm below.
        let has = |from: (f64, f64), to: (f64, f64)| {
            let near = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).hypot(a.1 - b.1) < 1e-9;
            drawn.segments().any(|(a, b)| (near(a, from) && near(b, to)) || (near(a, to) && near(b, from)))
        };
        assert!(has((-4.5, 0.0), (-4.5, 76.2)) && has((0.0, 80.7), (50.8, 80.7)));
        let texts: Vec<String> = shown(&drawn);
        assert!(texts.contains(&"30".to_owned()) && texts.contains(&"20".to_owned()), "{texts:?}");
    }

    /// By pencil: a quarter of a ring with radii of 3 and 20 in, and both radii as dimensions.
    #[test]
    fn a_ring_reaches_as_far_as_its_hem_and_tells_its_radii() {
        let sector = |turn| DrawnShape::Sector { inner: inches(3.0), outer: inches(20.0), turn };
        let extent = |turn| size(&sector(turn), 25.4).unwrap();
        let near = |found: (f64, f64), wanted: (f64, f64)| {
            assert!(
                (found.0 - wanted.0).abs() < 0.05 && (found.1 - wanted.1).abs() < 0.05,
                "{found:?}, not {wanted:?}"
            );
        };
        near(extent(1.0), (40.0, 40.0));
        near(extent(0.5), (40.0, 20.0));
        // Two radii at right angles: the chord, and from the middle of the hem up to the ends of the waist.
        near(extent(0.25), (20.0 * 2.0_f64.sqrt(), 20.0 - 3.0 * 0.5_f64.sqrt()));
        for turn in [0.1, 0.25, 0.5, 0.75, 1.0] {
            let drawn = pages(&[piece("skirt", sector(turn))]);
            assert_says(&drawn, "radius 3");
            assert_says(&drawn, "radius 20");
            drawn.iter().for_each(assert_readable);
        }
    }

    /// By pencil: a gore 10 in at the foot, 6 in at the top and 20 in high, its sides straight to 12 in, where it is
    /// 7 in wide.
    #[test]
    fn an_outline_tells_how_far_out_it_is_at_every_station() {
        let corner = |across, along| OutlinePoint { across: inches(across), along: inches(along) };
        let gore = [(0.0, 0.0), (10.0, 0.0), (8.5, 12.0), (8.0, 20.0), (2.0, 20.0), (1.5, 12.0)];
        let even = DrawnShape::Corners(gore.map(|(across, along)| corner(across, along)).to_vec());
        let drawn = pages(&[piece("gore", even)]);
        for wanted in ["up 0, out 5", "up 12, out 3 1/2", "up 20, out 3"] {
            assert_says(&drawn, wanted);
        }
        // The same with its right side straight is measured from the line at its left.
        let odd = [(0.0, 0.0), (8.0, 0.0), (8.0, 20.0), (2.0, 20.0), (1.5, 12.0)];
        let odd = DrawnShape::Corners(odd.map(|(across, along)| corner(across, along)).to_vec());
        let drawn = pages(&[piece("gore", odd)]);
        for wanted in ["up 0, at 0 and 8", "up 12, at 1 1/2 and 8", "up 20, at 2 and 8"] {
            assert_says(&drawn, wanted);
        }
        drawn.iter().for_each(assert_readable);
    }

    #[test]
    fn grain_has_one_head_where_a_piece_has_a_way_up() {
        let heads = |one_way| {
            let piece = DrawnPiece { one_way, letters: Vec::new(), ..piece("panel", rectangle(20.0, 30.0)) };
            let drawn = figure(&piece, 10.0, &Style::default()).sketch;
            drawn
                .items
                .iter()
                .filter(|item| matches!(item, Item::Area { fill: super::super::canvas::Fill::Black, .. }))
                .count()
        };
        assert_eq!(heads(false), heads(true) + 1);
    }

    #[test]
    fn marks_are_drawn_where_they_are_and_told_where_they_cannot_be() {
        let mark = |name: &str, distance: f64, from: &str, place| DrawnMark {
            name: name.to_owned(),
            distance: inches(distance),
            from: from.to_owned(),
            place,
        };
        let mut panel = piece("panel", rectangle(20.0, 30.0));
        panel.marks = vec![
            mark("hem fold", 2.0, "lower edge", MarkPlace::Levels(vec![inches(2.0)])),
            mark("fold line", 10.0, "either long edge", MarkPlace::Columns(vec![inches(10.0)])),
            mark("quarter marks", 5.0, "mark to mark", MarkPlace::Told),
        ];
        panel.fold = Some(Fold::Across);
        let drawn = figure(&panel, 10.0, &Style::default());
        // 2 in up from the lower edge is 5.08 mm at 1 : 10.
        let dashed = |from: (f64, f64), to: (f64, f64)| {
            drawn.sketch.items.iter().any(|item| match item {
                Item::Stroke { points, pen: Pen::Dashed } => points
                    .iter()
                    .zip([from, to])
                    .all(|(found, wanted)| (found.0 - wanted.0).hypot(found.1 - wanted.1) < 1e-6),
                _ => false,
            })
        };
        assert!(dashed((0.0, 71.12), (50.8, 71.12)), "{:?}", drawn.sketch);
        assert!(dashed((25.4, 0.0), (25.4, 76.2)));
        let pages = pages(&[panel]);
        for wanted in ["hem fold 2", "fold line 10", "fold", "quarter marks 5: mark to mark"] {
            assert_says(&pages, wanted);
        }
        pages.iter().for_each(assert_readable);
    }

    /// The number a page's scale is one to.
    fn scale_of(page: &Sketch) -> f64 {
        let scale =
            shown(page).iter().find_map(|text| text.strip_prefix("scale 1 : ")?.split(',').next()?.parse().ok());
        scale.unwrap()
    }

    /// By pencil: a panel of 20 by 30 in goes on a page at 1 : 4, whatever is said of it; at 1 : 1000 it would be a dot.
    #[test]
    fn what_is_said_of_a_piece_never_leaves_the_paper_or_makes_the_piece_a_dot() {
        let scale = |piece: DrawnPiece| {
            let drawn = pages(&[piece]);
            drawn.iter().for_each(assert_readable);
            assert!(drawn.iter().flat_map(shown).any(|text| text.contains("the-last")), "{drawn:?}");
            scale_of(&drawn[0])
        };
        let bare = || DrawnPiece { notes: vec!["the-last".to_owned()], ..piece("panel", rectangle(20.0, 30.0)) };
        let letters: Vec<String> =
            ('A'..='Z').flat_map(|one| ['B', 'D', 'F'].map(|two| format!("{one}{two}"))).collect();
        let mark = |name: String| DrawnMark {
            name,
            distance: inches(3.0),
            from: "lower edge".to_owned(),
            place: MarkPlace::Levels(vec![inches(3.0)]),
        };
        let long = "a very long name ".repeat(30);
        assert!(scale(DrawnPiece { letters, ..bare() }) <= 10.0);
        assert!(scale(DrawnPiece { name: "x".repeat(400), ..bare() }) <= 10.0);
        assert!(scale(DrawnPiece { marks: vec![mark(long)], ..bare() }) <= 10.0);
        let notes = (0..200).map(|at| format!("note {at}")).chain(["the-last".to_owned()]);
        assert!(scale(DrawnPiece { notes: notes.collect(), ..bare() }) <= 10.0);
        let marks = (0..120).map(|at| mark(format!("line {at}"))).collect();
        assert!(scale(DrawnPiece { marks, ..bare() }) <= 10.0);
    }

    /// By counting: a zigzag of 60 corners on each side turns at 61 heights, 60 in apart in all; 40 of them are told,
    /// the lowest and the highest among them, and it is said that there are more.
    #[test]
    fn an_edge_that_turns_too_often_says_so() {
        let corner = |across, along| OutlinePoint { across: inches(across), along: inches(along) };
        let right = (0..=60).map(|at| corner(if at % 2 == 0 { 20.0 } else { 19.0 }, f64::from(at)));
        let left = (0..=60).rev().map(|at| corner(if at % 2 == 0 { 0.0 } else { 1.0 }, f64::from(at)));
        let drawn = pages(&[piece("flame", DrawnShape::Corners(right.chain(left).collect()))]);
        drawn.iter().for_each(assert_readable);
        let stations = drawn.iter().flat_map(shown).filter(|text| text.starts_with("up ")).count();
        assert_eq!(stations, 40);
        for wanted in ["up 0, out 10", "up 60, out 10", "40 of the 61 heights"] {
            assert_says(&drawn, wanted);
        }
    }

    #[test]
    fn texts_cannot_leave_their_place() {
        let mut odd = piece("<script>\u{1b}[31m & \"x\"", rectangle(1.0, 1.0));
        odd.notes = vec!["</text><image href='http://x'/>".to_owned()];
        let written = picture_pages(&head(), &[odd], &[], &Style::default()).unwrap();
        let drawn = String::from_utf8(written.concat()).unwrap();
        assert!(!drawn.contains("<script>") && !drawn.contains("<image") && !drawn.contains('\u{1b}'), "{drawn}");
        assert!(drawn.contains("&lt;script&gt;"), "{drawn}");
    }

    #[test]
    fn a_page_is_a4_with_title_date_scale_and_tape_and_nothing_gives_a_title() {
        let dated = PictureHead { date: Some("29 Nov 2026".to_owned()), ..head() };
        let drawn = picture_pages(&dated, &[piece("panel", rectangle(20.0, 30.0))], &[], &Style::default()).unwrap();
        let page = String::from_utf8(drawn.concat()).unwrap();
        for wanted in [
            "width=\"210mm\"",
            "height=\"297mm\"",
            "a skirt",
            "29 Nov 2026",
            "scale 1 : ",
            "inches, to the nearest 1/8",
        ] {
            assert!(page.contains(wanted), "{wanted}: {page}");
        }
        assert!(picture_pages(&head(), &[], &[], &Style::default()).unwrap().len() == 1);
        let again = picture_pages(&dated, &[piece("panel", rectangle(20.0, 30.0))], &[], &Style::default()).unwrap();
        assert_eq!(drawn, again);
    }

    fn shapes() -> impl Strategy<Value = DrawnShape> {
        let half = |range: std::ops::Range<i32>| range.prop_map(|halves| f64::from(halves) / 2.0);
        prop_oneof![
            (half(1..180), half(1..240)).prop_map(|(across, along)| rectangle(across, along)),
            (half(1..240)).prop_map(|along| DrawnShape::FullWidth { along: inches(along), width: inches(44.0) }),
            (half(0..20), half(1..60), prop::sample::select(vec![0.1, 0.25, 0.5, 0.75, 1.0])).prop_map(
                |(inner, depth, turn)| DrawnShape::Sector { inner: inches(inner), outer: inches(inner + depth), turn }
            ),
            (half(2..40), half(2..40), half(2..60)).prop_map(|(foot, top, high)| {
                let corner = |across, along| OutlinePoint { across: inches(across), along: inches(along) };
                DrawnShape::Corners(vec![corner(0.0, 0.0), corner(foot, 0.0), corner(top, high), corner(0.0, high)])
            }),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]
        /// Nothing overlaps and no text is small, at one scale; and every size is told.
        #[test]
        fn any_pieces_are_readable_and_have_all_their_dimensions(
            shapes in prop::collection::vec(shapes(), 1..7),
            folded in any::<bool>(),
        ) {
            let style = Style::default();
            let pieces: Vec<DrawnPiece> = shapes.into_iter().map(|shape| DrawnPiece {
                fold: folded.then_some(Fold::Along),
                ..piece("piece", shape)
            }).collect();
            let drawn = laid_out(&head(), &pieces, &[], &style);
            drawn.iter().for_each(assert_readable);
            let scales: Vec<String> = drawn.iter().flat_map(shown).filter(|text| text.starts_with("scale 1 : ")).collect();
            prop_assert_eq!(scales.len(), drawn.len());
            prop_assert!(scales.iter().all(|scale| scale == &scales[0]));
            for piece in &pieces {
                let say = |length: Length| super::super::picture_page::measure(length, &style);
                match &piece.shape {
                    DrawnShape::Rectangle { along, across } => {
                        assert_says(&drawn, &say(*along));
                        assert_says(&drawn, &say(*across));
                    }
                    DrawnShape::FullWidth { along, width } => {
                        assert_says(&drawn, &say(*along));
                        assert_says(&drawn, &say(*width));
                    }
                    DrawnShape::Sector { inner, outer, .. } => {
                        assert_says(&drawn, &format!("radius {}", say(*outer)));
                        if inner.is_positive() {
                            assert_says(&drawn, &format!("radius {}", say(*inner)));
                        }
                    }
                    DrawnShape::Corners(corners) => {
                        for corner in corners {
                            let up = format!("up {},", say(corner.along));
                            prop_assert!(drawn.iter().flat_map(shown).any(|text| text.contains(&up)), "{}", up);
                        }
                    }
                }
            }
        }
    }
}
