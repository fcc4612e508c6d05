//! A length that is cut straight across, drawn as a bar with its running marks, in as many rows as it takes.
//!
//! Never here: cloth on which pieces lie side by side.

use super::canvas::{Anchor, Fill, Frame, GAP, Pen, SMALLEST, Sketch, Text, at_most, text_width};
use super::drawn_lay::{DrawnCut, DrawnLength, DrawnRest};
use super::lay_panel::break_sign;
use super::picture_page::{WIDE, measure, on_paper};
use crate::quantity::{Length, Style, number};

/// A bar lower than this has no room for a letter.
const LOWEST: f64 = 4.6;
/// How much of a rest is drawn at most.
const REST: f64 = 30.0;
/// The longest row; its first and last marks may stand out at either side.
const ROW: f64 = WIDE - 12.0;

/// Whether the longest cut goes into a row.
pub(super) fn has_room(length: &DrawnLength, scale: f64) -> bool {
    length.cuts.iter().all(|cut| on_paper(cut.to - cut.from, scale) <= ROW)
}

/// Whether a bar is drawn wider than its scale has it, so that its letters can be read.
pub(super) fn is_widened(length: &DrawnLength, scale: f64) -> bool {
    on_paper(length.width, scale) < LOWEST
}

/// A stretch of a length in one row.
#[derive(Clone, Copy)]
enum Stretch<'c> {
    Cut(&'c DrawnCut),
    /// Between cuts.
    Gap(Length, Length),
    /// From the last cut to the end, and what of it is kept.
    Rest(Length, Length, Option<&'c DrawnRest>),
}

impl Stretch<'_> {
    fn start(&self) -> Length {
        match self {
            Self::Cut(cut) => cut.from,
            Self::Gap(from, _) | Self::Rest(from, _, _) => *from,
        }
    }
}

/// The rows of a bar, each with its marks below.
pub(super) fn rows(length: &DrawnLength, scale: f64, orders: &[String], style: &Style) -> Vec<Sketch> {
    let wide = |stretch: &Stretch<'_>| match stretch {
        Stretch::Cut(cut) => on_paper(cut.to - cut.from, scale),
        Stretch::Gap(from, to) => on_paper(*to - *from, scale),
        Stretch::Rest(from, to, _) => on_paper(*to - *from, scale).min(REST),
    };
    let mut rows: Vec<(f64, Vec<Stretch<'_>>)> = vec![(0.0, Vec::new())];
    for stretch in stretches(length) {
        let long = wide(&stretch);
        match rows.last_mut() {
            Some((taken, row)) if at_most(*taken + long, ROW) || row.is_empty() => {
                *taken += long;
                row.push(stretch);
            }
            _ => rows.push((long, vec![stretch])),
        }
    }
    let count = rows.len();
    let drawn = rows.iter().enumerate().map(|(place, (_, row))| {
        let start = place == 0;
        row_of(length, row, (start, place + 1 == count), scale, orders, style)
    });
    drawn.collect()
}

fn stretches(length: &DrawnLength) -> Vec<Stretch<'_>> {
    let mut found = Vec::new();
    let mut at = Length::ZERO;
    for cut in &length.cuts {
        if cut.from > at {
            found.push(Stretch::Gap(at, cut.from));
        }
        found.push(Stretch::Cut(cut));
        at = at.most(cut.to);
    }
    if length.length > at {
        let kept = length.rests.iter().find(|rest| rest.kept && rest.to == length.length);
        found.push(Stretch::Rest(at, length.length, kept));
    }
    found
}

fn row_of(
    length: &DrawnLength,
    row: &[Stretch<'_>],
    (is_first, is_last): (bool, bool),
    scale: f64,
    orders: &[String],
    style: &Style,
) -> Sketch {
    let mut sketch = Sketch::default();
    let high = on_paper(length.width, scale).max(LOWEST);
    let mut x = 0.0;
    // Marks with their places, in their order along the row.
    let mut marks: Vec<(f64, Length)> = Vec::new();
    let mut runs: Vec<(f64, f64, Vec<f64>, &DrawnCut)> = Vec::new();
    for stretch in row {
        let from = x;
        if marks.is_empty() {
            marks.push((from, stretch.start()));
        }
        match stretch {
            Stretch::Cut(cut) => {
                x += on_paper(cut.to - cut.from, scale);
                let box_of = Frame { left: from, top: 0.0, right: x, bottom: high };
                sketch.box_of(box_of, Fill::White);
                if let Some(place) = order_of(cut, orders) {
                    sketch.box_of(box_of, Fill::Order(place));
                }
                marks.push((x, cut.to));
                match runs.last_mut() {
                    Some((_, end, ends, first)) if are_alike(first, cut) && at_most(from, *end) => {
                        *end = x;
                        ends.push(x);
                    }
                    _ => runs.push((from, x, vec![x], cut)),
                }
            }
            Stretch::Gap(start, end) => {
                x += on_paper(*end - *start, scale);
                sketch.box_of(Frame { left: from, top: 0.0, right: x, bottom: high }, Fill::Waste);
                marks.push((x, *end));
            }
            Stretch::Rest(start, end, kept) => {
                let whole = on_paper(*end - *start, scale);
                x += whole.min(REST);
                let frame = Frame { left: from, top: 0.0, right: x, bottom: high };
                sketch.box_of(frame, if kept.is_some() { Fill::White } else { Fill::Waste });
                if whole > REST {
                    break_sign(&mut sketch, (x - 4.0, -0.8), (x - 4.0, high + 0.8));
                }
                if let Some(rest) = kept {
                    let room = if whole > REST { x - 6.0 } else { x };
                    let unwashed = if rest.unwashed { " unwashed" } else { "" };
                    kept_words(&mut sketch, (from, room), high, &format!("{}{unwashed}", measure(rest.along, style)));
                }
                marks.push((x, *end));
            }
        }
    }
    for run in &runs {
        label(&mut sketch, run, high, orders);
    }
    // The selvedges, and both ends where the length begins and ends.
    for y in [0.0, high] {
        sketch.line((0.0, y), (x, y), Pen::Edge);
    }
    if is_first {
        sketch.line((0.0, 0.0), (0.0, high), Pen::Edge);
    }
    if is_last {
        sketch.line((x, 0.0), (x, high), Pen::Edge);
    }
    running_marks(&mut sketch, &marks, high, style);
    sketch
}

/// What a rest is kept as, in one line or in two.
fn kept_words(sketch: &mut Sketch, (from, to): (f64, f64), high: f64, long: &str) {
    let at = |down: f64| (f64::midpoint(from, to), high / 2.0 + down);
    let half = 0.5 * (SMALLEST + 0.3);
    let one = vec![Text::new(&format!("keep {long}"), at(0.0), Anchor::Middle)];
    let two = vec![Text::new("keep", at(-half), Anchor::Middle), Text::new(long, at(half), Anchor::Middle)];
    let fits = |texts: &Vec<Text>| {
        // The last line is as far from the lower edge as the first is from the upper.
        texts.iter().map(Text::frame).all(|frame| frame.width() + 2.0 * GAP < to - from && frame.top >= GAP)
    };
    if let Some(texts) = [one, two].into_iter().find(fits) {
        for text in texts {
            sketch.text(text);
        }
    }
}

/// The letter in each piece of a run, with lines between the pieces; where a piece is too narrow for it, the letter
/// once with their count, and short lines at both selvedges that leave it free.
fn label(sketch: &mut Sketch, (from, to, ends, cut): &(f64, f64, Vec<f64>, &DrawnCut), high: f64, orders: &[String]) {
    let count = number::from_count(ends.len()).max(1.0);
    let each = (to - from) / count;
    let size = 4.0_f64.min(high - 1.4);
    let backed = order_of(cut, orders).is_some();
    let put = |sketch: &mut Sketch, text: &str, x: f64| {
        let words = Text::new(text, (x, high / 2.0), Anchor::Middle).bold(size);
        if backed {
            sketch.box_of(words.frame().grown(GAP / 2.0), Fill::White);
        }
        sketch.text(words);
    };
    let fits = |text: &str, room: f64| text_width(text, size, true) + 2.0 * GAP + 0.4 < room;
    let single = fits(&cut.letter, each);
    let whole = single || ends.len() == 1;
    for end in ends.iter().copied().chain([*from]) {
        if whole {
            sketch.line((end, 0.0), (end, high), Pen::Edge);
        } else {
            let short = ((high - size) / 2.0 - GAP).clamp(0.2, 1.2);
            sketch.line((end, 0.0), (end, short), Pen::Edge);
            sketch.line((end, high - short), (end, high), Pen::Edge);
        }
    }
    if single {
        for end in ends {
            put(sketch, &cut.letter, end - each / 2.0);
        }
        return;
    }
    // The ends of a run are lines all the way.
    if !whole {
        for end in [from, to] {
            sketch.line((*end, 0.0), (*end, high), Pen::Edge);
        }
    }
    let text = if ends.len() > 1 { format!("{} × {}", ends.len(), cut.letter) } else { cut.letter.clone() };
    if fits(&text, to - from) {
        put(sketch, &text, f64::midpoint(*from, *to));
    }
}

/// Marks below a bar: the first and the last, and as many between as have room; each other only has a short line.
fn running_marks(sketch: &mut Sketch, marks: &[(f64, Length)], high: f64, style: &Style) {
    let down = high + 2.0 + SMALLEST / 2.0;
    let words = |(x, mark): &(f64, Length)| Text::new(&measure(*mark, style), (*x, down), Anchor::Middle);
    for (x, _) in marks {
        sketch.line((*x, high), (*x, high + 1.3), Pen::Fine);
    }
    let ends = marks.first().into_iter().chain(marks.last());
    let mut taken: Vec<Frame> = Vec::new();
    for mark in ends.chain(marks) {
        let text = words(mark);
        let frame = text.frame().grown(0.7);
        if !taken.iter().any(|other| other.overlaps(frame)) {
            taken.push(frame);
            sketch.text(text);
        }
    }
}

fn order_of(cut: &DrawnCut, orders: &[String]) -> Option<usize> {
    let order = cut.order.as_ref()?;
    orders.iter().position(|known| known == order)
}

fn are_alike(left: &DrawnCut, right: &DrawnCut) -> bool {
    left.letter == right.letter
        && left.name == right.name
        && left.order == right.order
        && left.own_size == right.own_size
}
