//! What the pages of every picture share: a head with order, date, scale and tape on each, and figures one below the
//! other on as many pages as they take.
//!
//! Never here: what the figures show; reading a clock.

use super::canvas::{Anchor, Frame, LINE, MARGIN, PAGE, Pen, SMALLEST, Sketch, Text, text_width, wrapped};
use super::canvas_svg::write_page;
use super::plain_text;
use crate::quantity::{Length, Liked, Style, Tape, number};
use std::io;

/// What is told above a picture.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct PictureHead {
    /// The order and what it makes.
    pub title: String,
    /// What the order answers.
    pub answers: String,
    /// The day it is due or drawn, in words.
    pub date: Option<String>,
}

/// The width between the margins.
pub(super) const WIDE: f64 = PAGE.0 - 2.0 * MARGIN;
/// The height left for figures below the head.
pub(super) const HIGH: f64 = PAGE.1 - 2.0 * MARGIN - HEAD;
const HEAD: f64 = 28.0;
const TITLE: f64 = 4.4;
/// Between two figures.
pub(super) const BETWEEN: f64 = 5.0;

/// Scales to draw at: one to so many.
pub(super) const SCALES: [f64; 26] = [
    1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 15.0, 18.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 80.0,
    100.0, 150.0, 200.0, 300.0, 500.0, 1000.0,
];

/// Millimetres on paper of a length at one to `scale`.
pub(super) fn on_paper(length: Length, scale: f64) -> f64 {
    length.in_centimetres() * 10.0 / scale
}

/// A length on the picture's tape, without its unit: the head tells unit and rounding once.
pub(super) fn measure(length: Length, style: &Style) -> String {
    let shown = Style { plain: false, ..*style }.show(length.liking(Liked::unit(style.tape.unit())).into());
    let bare = shown.trim_start_matches("≈ ");
    bare.strip_suffix(style.tape.unit().symbol()).unwrap_or(bare).trim_end().to_owned()
}

/// Figures on pages, from above down.
#[derive(Debug)]
pub(super) struct Pages {
    pages: Vec<Sketch>,
    down: f64,
}

impl Pages {
    pub(super) fn new() -> Self {
        Self { pages: vec![Sketch::default()], down: 0.0 }
    }

    pub(super) fn count(&self) -> usize {
        self.pages.len()
    }

    /// The room left on the last page.
    pub(super) fn left(&self) -> f64 {
        HIGH - self.down
    }

    /// Adds a figure below the others, its left edge at the margin, or on a new page if it has no room here.
    pub(super) fn below(&mut self, figure: Sketch) {
        let bounds = figure.bounds();
        if self.down > 0.0 && self.down + bounds.height() > HIGH + 1e-6 {
            self.pages.push(Sketch::default());
            self.down = 0.0;
        }
        let at = (MARGIN - bounds.left.min(0.0), MARGIN + HEAD + self.down - bounds.top);
        if let Some(page) = self.pages.last_mut() {
            page.add(figure, at);
        }
        self.down += bounds.height();
    }

    /// Adds figures row by row, as many beside each other as the page is wide.
    pub(super) fn flow(&mut self, figures: impl IntoIterator<Item = Sketch>) {
        let mut row = Sketch::default();
        let mut right = 0.0;
        for figure in figures {
            let bounds = figure.bounds();
            let high = row.bounds().height().max(bounds.height());
            if right > 0.0 && (right + bounds.width() > WIDE || (high > self.left() && bounds.height() <= HIGH)) {
                self.below(std::mem::take(&mut row));
                self.space(BETWEEN);
                right = 0.0;
            }
            row.add(figure, (right - bounds.left, -bounds.top));
            right += bounds.width() + BETWEEN * 1.5;
        }
        if !row.items.is_empty() {
            self.below(row);
            self.space(BETWEEN);
        }
    }

    pub(super) fn space(&mut self, high: f64) {
        self.down = (self.down + high).min(HIGH);
    }

    /// Adds a paragraph.
    pub(super) fn paragraph(&mut self, text: &str) {
        for line in wrapped(&plain_text::one_line(text), SMALLEST, false, WIDE) {
            let mut words = Sketch::default();
            words.text(Text::new(&line, (0.0, 0.0), Anchor::Start));
            self.below(words);
            self.space(LINE - SMALLEST);
        }
    }

    /// The pages with their heads.
    pub(super) fn finished(self, head: &PictureHead, scale: f64, style: &Style) -> Vec<Sketch> {
        let count = self.pages.len();
        let mut finished = Vec::new();
        for (place, drawn) in self.pages.into_iter().enumerate() {
            let mut page = head_of(head, (place + 1, count), scale, style);
            page.items.extend(drawn.items);
            finished.push(page);
        }
        finished
    }
}

/// Writes pages, each as the bytes of a file.
pub(super) fn written(pages: &[Sketch]) -> io::Result<Vec<Vec<u8>>> {
    pages
        .iter()
        .map(|page| {
            let mut bytes = Vec::new();
            write_page(page, &mut bytes)?;
            Ok(bytes)
        })
        .collect()
}

fn head_of(head: &PictureHead, (page, of): (usize, usize), scale: f64, style: &Style) -> Sketch {
    let mut drawn = Sketch::default();
    let right = PAGE.0 - MARGIN;
    let mut down = MARGIN + TITLE / 2.0;
    let number = if of > 1 { format!("page {page} of {of}") } else { String::new() };
    let date = head.date.as_ref().map(|date| plain_text::one_line(date));
    let corner: Vec<String> = date.into_iter().chain(Some(number).filter(|text| !text.is_empty())).collect();
    let corner = corner.join(", ");
    let taken = text_width(&corner, SMALLEST, false) + 4.0;
    if !corner.is_empty() {
        drawn.text(Text::new(&corner, (right, down), Anchor::End));
    }
    for line in wrapped(&plain_text::one_line(&head.title), TITLE, true, WIDE - taken).iter().take(1) {
        drawn.text(Text::new(line, (MARGIN, down), Anchor::Start).bold(TITLE));
    }
    down += TITLE / 2.0 + LINE / 2.0 + 0.6;
    let mut answers = wrapped(&plain_text::one_line(&head.answers), SMALLEST, false, WIDE - 4.0);
    let more = answers.len() > 3;
    answers.truncate(3);
    if let Some(last) = answers.last_mut().filter(|_| more) {
        last.push_str(" …");
    }
    for line in answers {
        drawn.text(Text::new(&line, (MARGIN, down), Anchor::Start));
        down += LINE;
    }
    let bar = MARGIN + HEAD - 6.5;
    let unit = match style.tape {
        Tape::Inch => format!("inches, to the nearest 1/{}", style.inch_step.marks()),
        Tape::Metric => "centimetres, to the nearest 0.1".to_owned(),
    };
    let told = format!("scale 1 : {scale}, all measures in {unit}");
    drawn.text(Text::new(&told, (MARGIN, bar), Anchor::Start));
    scale_bar(&mut drawn, scale, style, (MARGIN + text_width(&told, SMALLEST, false) + 6.0, bar));
    drawn
}

/// A measured line that shows the scale and survives a printer that shrinks the page.
fn scale_bar(drawn: &mut Sketch, scale: f64, style: &Style, (x, y): (f64, f64)) {
    let (step, unit): (Length, &str) = match style.tape {
        Tape::Inch => (Length::inches(1.0), "in"),
        Tape::Metric => (Length::centimetres(1.0), "cm"),
    };
    let steps = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
    let Some(count) = steps.into_iter().rfind(|count| on_paper(step * *count, scale) <= 40.0) else { return };
    let long = on_paper(step * count, scale);
    drawn.line((x, y), (x + long, y), Pen::Edge);
    for end in [x, x + long] {
        drawn.line((end, y - 1.2), (end, y + 1.2), Pen::Edge);
    }
    drawn.text(Text::new(&format!("{} {unit}", style.show_number(count)), (x + long + 2.0, y), Anchor::Start));
}

/// Whether a figure goes on a page.
pub(super) fn fits(bounds: Frame) -> bool {
    bounds.width() <= WIDE + 1e-6 && bounds.height() <= HIGH + 1e-6
}

/// The first scale of those that give the fewest pages among the tried ones.
pub(super) fn best_scale(tried: impl IntoIterator<Item = (f64, usize)>) -> Option<f64> {
    tried
        .into_iter()
        .min_by(|left, right| left.1.cmp(&right.1).then(left.0.total_cmp(&right.0)))
        .map(|(scale, _)| scale)
}

pub(super) fn whole(value: f64) -> usize {
    number::nearest_whole(value.max(0.0).floor()).and_then(number::count).unwrap_or(0)
}
