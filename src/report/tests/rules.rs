//! What holds for every picture, over many sizes and scales.

use super::super::canvas::Sketch;
use super::super::drawn_piece::DrawnPiece;
use super::super::lay_panel::View;
use super::super::picture::tests::assert_readable;
use super::super::picture_page::{PictureHead, SCALES};
use super::super::piece_figure::figure;
use super::super::{lay_picture, picture};
use super::lays::{cloth, cut, style};
use super::piece_figures::{bare, piece, rectangle};
use crate::piece::Grain;

/// A centimetre is 10 mm by the scale: so long are the edges of a piece and its dimension lines, 4.5 mm beside them.
#[test]
fn a_length_on_paper_is_that_of_the_cloth_by_the_scale() {
    for scale in SCALES {
        for (across, along) in [(7.0, 31.0), (31.0, 7.0), (140.0, 95.5), (2.5, 250.0)] {
            let (wide, high) = (across * 10.0 / scale, along * 10.0 / scale);
            let drawn = figure(&bare(rectangle(across, along)), scale, &style()).sketch;
            let near = |one: (f64, f64), other: (f64, f64)| (one.0 - other.0).hypot(one.1 - other.1) < 1e-6;
            let has = |from, to| drawn.segments().any(|(a, b)| near(a, from) && near(b, to));
            assert!(has((0.0, 0.0), (wide, 0.0)) && has((wide, 0.0), (wide, high)), "{across} {along} {scale}");
            assert!(has((-4.5, high), (-4.5, 0.0)) && has((0.0, high + 4.5), (wide, high + 4.5)));
            let length = cloth((along, along), across, vec![cut("A", "panel", (0.0, 0.0), (along, across))]);
            let view = View::of(&length, scale, 1e6);
            let lay = view.panel(view.panels[0], &[], &style()).0;
            let has = |from, to| lay.segments().any(|(a, b)| near(a, from) && near(b, to));
            assert!(has((0.0, 0.0), (0.0, high)) && has((0.0, high), (wide, high)), "{across} {along} {scale}");
        }
    }
}

/// The arrow of a rectangle runs up, across or half-way between, whatever its size.
#[test]
fn an_arrow_runs_along_the_grain() {
    for (grain, slope) in [(Grain::Along, (0.0, 1.0)), (Grain::Across, (1.0, 0.0)), (Grain::Bias, (1.0, 1.0))] {
        for (across, along) in [(30.0, 45.0), (90.0, 25.0), (3.0, 60.0), (60.0, 3.0)] {
            let piece = DrawnPiece { grain, ..bare(rectangle(across, along)) };
            let drawn = figure(&piece, 10.0, &style()).sketch;
            let (from, to) = drawn.segments().last().unwrap();
            let (x, y) = ((to.0 - from.0).abs(), (to.1 - from.1).abs());
            assert!((x * slope.1 - y * slope.0).abs() < 1e-6 && x + y > 4.9, "{grain:?} {across} {along}");
        }
    }
}

/// Nothing off the page, over another text or under a line; every letter and size is there.
#[test]
fn pages_of_many_sizes_can_be_read() {
    let head = PictureHead { title: "order 7".to_owned(), answers: "waist 54 cm".to_owned(), date: None };
    for (across, along, count) in [(12.0, 80.0, 3_u32), (45.0, 7.0, 5), (3.0, 3.5, 4), (140.0, 31.0, 2)] {
        let pieces: Vec<DrawnPiece> = (0..count).map(|_| piece(rectangle(across, along))).collect();
        let pages = picture::laid_out(&head, &pieces, &[], &style());
        pages.iter().for_each(assert_readable);
        let texts = || pages.iter().flat_map(Sketch::texts).map(|text| text.text.as_str());
        assert_eq!(texts().filter(|text| *text == "panel").count(), pieces.len());
        let cuts = (0..count).map(|at| cut("A", "panel", (f64::from(at) * along, 0.0), (along, across)));
        let long = f64::from(count) * along;
        let pages = lay_picture::laid_out(&head, &[cloth((long + 20.0, long), across, cuts.collect())], &style());
        pages.iter().for_each(assert_readable);
        let legend = format!("{count} × panel, {along} × {across}");
        assert!(pages.iter().flat_map(Sketch::texts).any(|text| text.text == legend), "{legend}");
    }
}
