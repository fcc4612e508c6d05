//! What the pages of every picture share: a head with order, date, scale and tape on each, and figures one below the
//! other on as many pages as they take.
//!
//! Never here: what the figures show; reading a clock.

use super::canvas::{
    Anchor, Frame, LINE, MARGIN, PAGE, Pen, SMALLEST, Sketch, Text, at_most, first_lines, text_width, wrapped,
};
use super::canvas_svg::write_page;
use super::plain_text;
use crate::quantity::{Length, Style, Tape, number};
use std::io;

/// What is told above a picture.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct PictureHead {
    /// The order, and what of it is drawn.
    pub title: String,
    /// What the order answers.
    pub answers: String,
    /// The day it is due or drawn, in words.
    pub date: Option<String>,
}

/// The width between the margins.
pub(super) const WIDE: f64 = PAGE.0 - 2.0 * MARGIN;
/// The height left for figures below a head of few lines.
pub(super) const HIGH: f64 = PAGE.1 - 2.0 * MARGIN - HEAD;
/// The height of a head of few lines.
const HEAD: f64 = 28.0;
const TITLE: f64 = 4.4;
/// From a line of the title to the next.
const TITLE_LINE: f64 = TITLE + 0.8;
/// The most lines of the title and of the answers. What is cut short ends with `…`.
const MOST_TITLE: usize = 5;
const MOST_ANSWERS: usize = 8;
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
    style.show_bare(length.into())
}

/// The lines of a head, the same on every page.
struct HeadLines {
    title: Vec<String>,
    answers: Vec<String>,
}

impl HeadLines {
    fn of(head: &PictureHead) -> Self {
        let widest_corner = text_width(&corner(head, (888, 888)), SMALLEST, false) + 4.0;
        let title = wrapped(&plain_text::one_line(&head.title), TITLE, true, WIDE - widest_corner);
        let answers = wrapped(&plain_text::one_line(&head.answers), SMALLEST, false, WIDE - 4.0);
        Self { title: first_lines(title, MOST_TITLE), answers: first_lines(answers, MOST_ANSWERS) }
    }

    /// From the margin down to the middle of a line of the title.
    fn title_line(place: usize) -> f64 {
        TITLE / 2.0 + number::from_count(place) * TITLE_LINE
    }

    /// From the margin down to the middle of a line of the answers.
    fn answer_line(&self, place: usize) -> f64 {
        let title = Self::title_line(self.title.len().saturating_sub(1)) + TITLE / 2.0;
        title + LINE / 2.0 + 0.6 + number::from_count(place) * LINE
    }

    fn height(&self) -> f64 {
        // Below the last line is the scale, and below that some white.
        HEAD.max(self.answer_line(self.answers.len()) + 1.4 + SCALE_UP)
    }
}

/// From the middle of the line with the scale to the lower end of the head.
const SCALE_UP: f64 = 6.5;

/// The height left for figures below a head.
pub(super) fn height_below(head: &PictureHead) -> f64 {
    HIGH + HEAD - HeadLines::of(head).height()
}

/// Figures on pages, from above down.
#[derive(Debug)]
pub(super) struct Pages {
    pages: Vec<Sketch>,
    down: f64,
    /// The height of a page below its head.
    high: f64,
}

impl Pages {
    pub(super) fn new(high: f64) -> Self {
        Self { pages: vec![Sketch::default()], down: 0.0, high }
    }

    pub(super) fn count(&self) -> usize {
        self.pages.len()
    }

    /// The room left on the last page.
    pub(super) fn left(&self) -> f64 {
        self.high - self.down
    }

    /// Adds a figure below the others, its left edge at the margin, or on a new page if it has no room here.
    pub(super) fn below(&mut self, figure: Sketch) {
        let bounds = figure.bounds();
        if self.down > 0.0 && !at_most(self.down + bounds.height(), self.high) {
            self.pages.push(Sketch::default());
            self.down = 0.0;
        }
        let top = MARGIN + HEAD + HIGH - self.high;
        let at = (MARGIN - bounds.left.min(0.0), top + self.down - bounds.top);
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
            if right > 0.0 && (right + bounds.width() > WIDE || (high > self.left() && bounds.height() <= self.high)) {
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
        self.down = (self.down + high).min(self.high);
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

    /// The pages with their heads, which tell the scale.
    pub(super) fn finished(self, head: &PictureHead, scale: f64, style: &Style) -> Vec<Sketch> {
        self.with_heads(head, Some((scale, style)))
    }

    /// The pages with their heads, for figures that have no scale.
    pub(super) fn finished_without_scale(self, head: &PictureHead) -> Vec<Sketch> {
        self.with_heads(head, None)
    }

    fn with_heads(self, head: &PictureHead, scale: Option<(f64, &Style)>) -> Vec<Sketch> {
        let count = self.pages.len();
        let mut finished = Vec::new();
        for (place, drawn) in self.pages.into_iter().enumerate() {
            let mut page = head_of(head, (place + 1, count), scale);
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

/// What stands at the right of the title: the day, and which page it is.
fn corner(head: &PictureHead, (page, of): (usize, usize)) -> String {
    let number = (of > 1).then(|| format!("page {page} of {of}"));
    let date = head.date.as_ref().map(|date| plain_text::one_line(date));
    date.into_iter().chain(number).collect::<Vec<_>>().join(", ")
}

fn head_of(head: &PictureHead, page: (usize, usize), scale: Option<(f64, &Style)>) -> Sketch {
    let mut drawn = Sketch::default();
    let lines = HeadLines::of(head);
    let corner = corner(head, page);
    if !corner.is_empty() {
        let at = (PAGE.0 - MARGIN, MARGIN + HeadLines::title_line(0));
        drawn.text(Text::new(&corner, at, Anchor::End));
    }
    for (place, line) in lines.title.iter().enumerate() {
        let at = (MARGIN, MARGIN + HeadLines::title_line(place));
        drawn.text(Text::new(line, at, Anchor::Start).bold(TITLE));
    }
    for (place, line) in lines.answers.iter().enumerate() {
        drawn.text(Text::new(line, (MARGIN, MARGIN + lines.answer_line(place)), Anchor::Start));
    }
    let Some((scale, style)) = scale else { return drawn };
    let bar = MARGIN + lines.height() - SCALE_UP;
    let unit = match style.tape {
        Tape::Inch => format!("inches, to the nearest 1/{}", style.inch_step.marks()),
        Tape::Metric => format!("centimetres, to the nearest {}", style.show_number(0.1)),
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

/// Whether a figure goes on a page of this height.
pub(super) fn fits(bounds: Frame, high: f64) -> bool {
    at_most(bounds.width(), WIDE) && at_most(bounds.height(), high)
}

/// The first scale of those that give the fewest pages among the tried ones.
pub(super) fn best_scale(tried: impl IntoIterator<Item = (f64, usize)>) -> Option<f64> {
    tried
        .into_iter()
        .min_by(|left, right| left.1.cmp(&right.1).then(left.0.total_cmp(&right.0)))
        .map(|(scale, _)| scale)
}

pub(super) fn whole(value: f64) -> usize {
    number::nearest_whole(value.floor()).and_then(number::count).unwrap_or(0)
}
