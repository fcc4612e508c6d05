//! Cloth on which pieces lie, drawn in panels from above down: each piece with its letter, what it is, its marks across
//! and its grain, running marks at the left.
//!
//! Never here: where a piece lies; what is worth keeping; the page.

use super::canvas::{
    Anchor, Fill, Frame, GAP, LINE, Pen, Point, SMALLEST, Sketch, Text, at_most, has_room, holds, places_inside,
    spread, text_width,
};
use super::drawn_lay::{DrawnCut, DrawnLayers, DrawnLength, DrawnRest};
use super::lay_labels::{is_edge, is_same, size};
use super::picture_page::{measure, on_paper};
use super::plain_text;
use crate::quantity::{Length, Style, number};

/// Room for the marks to the left of a panel.
pub(super) const MARKS: f64 = 18.0;
/// Room above a panel for its width.
const ABOVE: f64 = 4.5;
/// How much of the cloth behind the last cut is drawn at most.
const REST: f64 = 12.0;
/// From a running mark to the next.
const PITCH: f64 = 3.4;

/// How a length of cloth is drawn at a scale.
pub(super) struct View<'l> {
    length: &'l DrawnLength,
    scale: f64,
    /// Across on paper, as the cloth lies, folded or not.
    pub(super) wide: f64,
    /// Drawn folded, as it lies on the table.
    folded: bool,
    /// The panels, from and to on paper.
    pub(super) panels: Vec<(f64, f64)>,
}

impl<'l> View<'l> {
    pub(super) fn of(length: &'l DrawnLength, scale: f64, most: f64) -> Self {
        // A cut through only one layer may lie under the fold; then the cloth is drawn opened.
        let folded = length.folded && length.cuts.iter().all(|cut| cut.layers != DrawnLayers::One);
        let wide = on_paper(length.width, scale) / if folded { 2.0 } else { 1.0 };
        let mut view = Self { length, scale, wide, folded, panels: Vec::new() };
        view.panels = panels(length, scale, view.end(), most - ABOVE - 4.0);
        view
    }

    /// Whether every piece has room for its letter, and no more running marks stand at the left than have room.
    pub(super) fn is_legible(&self) -> bool {
        self.length.cuts.iter().all(|cut| {
            let lines = self.lines(cut);
            has_room(&lines, text_width(&cut.letter, SMALLEST, true), SMALLEST)
        }) && self
            .panels
            .iter()
            .all(|panel| number::from_count(self.marks(*panel).len()) * PITCH <= panel.1 - panel.0 + LINE)
    }

    /// Where the drawing ends on paper: a long rest is broken off.
    fn end(&self) -> f64 {
        let used = on_paper(self.length.used, self.scale);
        used + on_paper(self.length.length - self.length.used, self.scale).clamp(0.0, REST)
    }

    fn is_broken(&self) -> bool {
        on_paper(self.length.length - self.length.used, self.scale) > REST
    }

    /// A running mark on paper, the end of a rest where it is drawn.
    fn down(&self, mark: Length) -> f64 {
        let (used, at) = (on_paper(self.length.used, self.scale), on_paper(mark, self.scale));
        if at_most(at, used) || !self.is_broken() { at } else { self.end() }
    }

    /// The pieces that are drawn. A piece on double cloth lies on the table once, and its twin with it.
    fn drawn(&self) -> impl Iterator<Item = &'l DrawnCut> {
        let half = self.length.width.steps() / 2.0 * (1.0 + 1e-9);
        let folded = self.folded;
        self.length
            .cuts
            .iter()
            .filter(move |cut| !folded || cut.layers == DrawnLayers::Fold || cut.across_to.steps() <= half)
    }

    /// The closed lines of a piece on paper, as far as the cloth is drawn across.
    fn lines(&self, cut: &DrawnCut) -> Vec<Vec<Point>> {
        let at = |(along, across): &(Length, Length)| (on_paper(*across, self.scale), on_paper(*along, self.scale));
        let lines = cut.lines.iter().map(|line| line.iter().map(at).collect::<Vec<Point>>());
        let side = Side { axis: Axis::Across, limit: self.wide, keeps_below: true };
        if self.folded { lines.map(|line| side.cut(&line)).collect() } else { lines.collect() }
    }

    /// The running marks of a panel, and where they are.
    fn marks(&self, (from, to): (f64, f64)) -> Vec<(f64, Length)> {
        let cuts = self.drawn().flat_map(|cut| [cut.from, cut.to]);
        let mut marks: Vec<Length> = cuts.chain([Length::ZERO, self.length.length]).collect();
        marks.sort_by(|left, right| left.steps().total_cmp(&right.steps()));
        marks.dedup_by(|next, before| (*next - *before).steps().abs() < Length::centimetres(0.005).steps());
        let placed = marks.into_iter().map(|mark| (self.down(mark), mark));
        placed.filter(|(y, _)| at_most(from, *y) && at_most(*y, to)).collect()
    }

    /// A panel with its origin at the upper left corner of the cloth, and the marks across that have no room in it.
    pub(super) fn panel(&self, panel: (f64, f64), orders: &[String], style: &Style) -> (Sketch, Vec<String>) {
        let mut sketch = Sketch::default();
        let cloth = Frame { left: 0.0, top: 0.0, right: self.wide, bottom: panel.1 - panel.0 };
        sketch.box_of(cloth, Fill::Waste);
        for rest in self.length.rests.iter().filter(|rest| rest.kept) {
            self.rest(&mut sketch, rest, panel, style);
        }
        let cuts = self.drawn();
        let untold = cuts.filter_map(|cut| self.piece(&mut sketch, cut, panel, orders, style)).collect();
        sketch.add(self.empty_panel(panel, style), (0.0, 0.0));
        (sketch, untold)
    }

    /// The edges and running marks of a panel, which is as large as the panel.
    pub(super) fn empty_panel(&self, panel: (f64, f64), style: &Style) -> Sketch {
        let mut sketch = Sketch::default();
        self.edges(&mut sketch, panel);
        let width = format!("{} wide", measure(self.across(), style));
        sketch.text(Text::new(&width, (self.wide / 2.0, -2.6), Anchor::Middle));
        self.running_marks(&mut sketch, panel, style);
        sketch
    }

    /// The width as it lies.
    fn across(&self) -> Length {
        if self.folded { self.length.width * 0.5 } else { self.length.width }
    }

    fn edges(&self, sketch: &mut Sketch, (from, to): (f64, f64)) {
        let high = to - from;
        // Outside the pieces: a second line is the selvedge, long and short dashes are the fold.
        for (x, off, is_fold) in [(0.0, -0.8, false), (self.wide, 0.8, self.folded)] {
            if is_fold {
                sketch.line((x, 0.0), (x, high), Pen::Fold);
                sketch.text(Text::new("fold", (x + 2.2, high / 2.0), Anchor::Middle).upright());
                continue;
            }
            sketch.line((x, 0.0), (x, high), Pen::Edge);
            sketch.line((x + off, 0.0), (x + off, high), Pen::Fine);
        }
        for (y, is_end) in [(0.0, at_most(from, 0.0)), (high, at_most(self.end(), to))] {
            sketch.line((0.0, y), (self.wide, y), if is_end { Pen::Edge } else { Pen::Fine });
        }
        let used = on_paper(self.length.used, self.scale);
        if self.is_broken() && at_most(from, used) && used < to {
            let y = self.end() - from - 3.2;
            break_sign(sketch, (-1.4, y), (self.wide + 1.4, y));
        }
    }

    /// Running marks at the left, moved apart where they are close, each with a leader to its place.
    fn running_marks(&self, sketch: &mut Sketch, panel: (f64, f64), style: &Style) {
        let marks = self.marks(panel);
        let wanted: Vec<f64> = marks.iter().map(|(y, _)| y - panel.0).collect();
        let top = -ABOVE / 2.0;
        let mut places = spread(&wanted, PITCH, top);
        // What would run off the lower end moves up as far as there is room.
        let mut lowest = panel.1 - panel.0 + 3.0;
        for place in places.iter_mut().rev() {
            *place = place.min(lowest);
            lowest = *place - PITCH;
        }
        let mut last = f64::NEG_INFINITY;
        for (((_, mark), at), want) in marks.iter().zip(&places).zip(&wanted) {
            sketch.line((-2.4, *want), (-1.2, *want), Pen::Fine);
            if *at < top - 2.0 || at - last < SMALLEST {
                continue;
            }
            last = *at;
            let end = if (at - want).abs() > 0.05 { *at } else { *want };
            sketch.line((-2.4, *want), (-5.0, end), Pen::Fine);
            sketch.text(Text::new(&measure(*mark, style), (-5.8, *at), Anchor::End));
        }
    }

    fn piece(
        &self,
        sketch: &mut Sketch,
        cut: &DrawnCut,
        (from, to): (f64, f64),
        orders: &[String],
        style: &Style,
    ) -> Option<String> {
        let whole = self.lines(cut);
        let frame = Frame::of(whole.iter().flatten().copied())?;
        if at_most(frame.bottom, from) || at_most(to, frame.top) {
            return None;
        }
        let upper = Side { axis: Axis::Down, limit: from, keeps_below: false };
        let lower = Side { axis: Axis::Down, limit: to, keeps_below: true };
        let lines: Vec<Vec<Point>> = whole
            .iter()
            .map(|line| lower.cut(&upper.cut(line)))
            .map(|line| line.into_iter().map(|(x, y)| (x, y - from)).collect())
            .collect();
        sketch.area(lines.clone(), Fill::White);
        let hatch = cut.order.as_ref().and_then(|order| orders.iter().position(|known| known == order));
        if let Some(place) = hatch {
            sketch.area(lines.clone(), Fill::Order(place));
        }
        for line in &whole {
            for (a, b) in line.iter().copied().zip(line.iter().copied().cycle().skip(1)) {
                // What lies on the fold has no edge along it; other pieces that reach it are cut off there.
                let at_fold = (a.0 - self.wide).abs() < 1e-6 && (b.0 - self.wide).abs() < 1e-6;
                let on_fold = self.folded && at_fold && cut.layers == DrawnLayers::Fold;
                if let Some((a, b)) = between((a, b), from, to).filter(|_| !on_fold) {
                    sketch.line((a.0, a.1 - from), (b.0, b.1 - from), Pen::Edge);
                }
            }
        }
        let mut inside = Inside { sketch, lines: &lines, backed: hatch.is_some(), taken: Vec::new() };
        let starts_here = at_most(from, frame.top);
        let empty = inside.sketch.items.len();
        let mut complete = !starts_here || inside.marks_across(self.told_marks(cut), style);
        if !inside.label(cut, style) {
            // A letter says more than the marks that leave no room for it.
            complete = !starts_here || self.told_marks(cut).next().is_none();
            inside.sketch.items.truncate(empty);
            inside.taken.clear();
            inside.label(cut, style);
        }
        inside.grain(cut);
        let say = |mark: Length| measure(mark, style);
        let untold = || {
            let (along, across) = ((cut.from, cut.to), (cut.across_from, cut.across_to));
            let [from, to, left, right] = [along.0, along.1, across.0, across.1].map(say);
            format!("{} from {from} to {to} along lies from {left} to {right} across", cut.letter)
        };
        (!complete).then(untold)
    }

    /// The marks across to tell in a piece, and whether each is at its left.
    fn told_marks(&self, cut: &DrawnCut) -> impl Iterator<Item = (Length, bool)> {
        // What ends where the next one begins has one mark for both.
        let is_told = self
            .drawn()
            .any(|other| is_same(other.across_to, cut.across_from) && other.from <= cut.from && other.to > cut.from);
        let (width, wide, scale) = (self.length.width, self.wide, self.scale);
        let marks = [(cut.across_from, true), (cut.across_to, false)].into_iter();
        marks.filter(move |(mark, is_left)| {
            let is_drawn = is_edge(*mark, width) || (*is_left && is_told);
            !is_drawn && on_paper(*mark, scale) <= wide
        })
    }

    fn rest(&self, sketch: &mut Sketch, rest: &DrawnRest, (from, to): (f64, f64), style: &Style) {
        let frame = Frame {
            left: on_paper(rest.across_from, self.scale) + 0.6,
            top: self.down(rest.from).max(from) - from + 0.6,
            right: on_paper(rest.across_to, self.scale).min(self.wide) - 0.6,
            bottom: self.down(rest.to).min(to) - from - 0.6,
        };
        if frame.width() < 1.0 || frame.height() < 1.0 {
            return;
        }
        let is_end = rest.to == self.length.length && self.is_broken();
        // The end of a broken rest is left of the sign that breaks it.
        let room = if is_end { Frame { bottom: self.end() - from - 5.6, ..frame } } else { frame };
        sketch.box_of(frame, Fill::White);
        sketch.closed(&frame.corners(), Pen::Dashed);
        let across = measure(rest.across, style);
        let mut long = measure(rest.along, style);
        if rest.unwashed {
            long.push_str(" unwashed");
        }
        let full = is_edge(rest.across_from, self.length.width) && is_edge(rest.across_to, self.length.width);
        let text = if full { format!("keep {long}") } else { format!("keep {long} × {across}") };
        let middle = (f64::midpoint(room.left, room.right), f64::midpoint(room.top, room.bottom));
        let words = Text::new(&text, middle, Anchor::Middle);
        let fits = |text: &Text| {
            let frame = text.frame().grown(GAP);
            frame.width() <= room.width() && frame.height() <= room.height()
        };
        let lines = [words.clone(), words.upright()];
        if let Some(words) = lines.into_iter().find(fits) {
            sketch.text(words);
            return;
        }
        let stacked = ["keep", &long, "×", &across];
        let count = number::from_count(stacked.len());
        let places = stacked.iter().enumerate().map(|(place, text)| {
            let y = middle.1 + (number::from_count(place) - (count - 1.0) / 2.0) * (SMALLEST + 0.5);
            Text::new(text, (middle.0, y), Anchor::Middle)
        });
        let places: Vec<Text> = places.collect();
        let wide = places.iter().map(|text| text.frame().width()).fold(0.0, f64::max);
        if wide + 2.0 * GAP <= room.width() && count * (SMALLEST + 0.5) + GAP <= room.height() && !full {
            for text in places {
                sketch.text(text);
            }
        }
    }
}

/// What stands in a piece.
struct Inside<'s> {
    sketch: &'s mut Sketch,
    lines: &'s [Vec<Point>],
    backed: bool,
    taken: Vec<Frame>,
}

impl Inside<'_> {
    fn is_free(&self, frame: Frame) -> bool {
        !self.taken.iter().any(|other| other.overlaps(frame.grown(0.6)))
    }

    fn put(&mut self, text: Text) {
        let frame = text.frame();
        if self.backed {
            self.sketch.box_of(frame.grown(GAP / 2.0), Fill::White);
        }
        self.taken.push(frame);
        self.sketch.text(text);
    }

    /// The letter with as much of name and size as has room; whether even the letter had any.
    fn label(&mut self, cut: &DrawnCut, style: &Style) -> bool {
        let name = plain_text::one_line(&cut.name);
        let measures = size(cut, style);
        let one = format!("{name}, {measures}");
        let (full, flat, short) = (vec![name, measures.clone()], vec![one], vec![measures]);
        let (large, small) = (4.4, 3.4);
        // The lines below the letter, or the one behind it; upright where there is more room that way.
        let tries = [
            (large, &full, false, false),
            (small, &flat, true, false),
            (large, &full, false, true),
            (small, &flat, true, true),
            (small, &short, true, false),
            (small, &short, false, false),
            (small, &short, true, true),
        ];
        for (letter, lines, is_behind, upright) in tries {
            if self.labelled((&cut.letter, letter), lines, is_behind, upright) {
                return true;
            }
        }
        let mut alone = [large, small, SMALLEST].into_iter().flat_map(|letter| [(letter, false), (letter, true)]);
        alone.any(|(letter, upright)| self.labelled((&cut.letter, letter), &[], false, upright))
    }

    /// Puts a letter and lines into the piece if they have room.
    fn labelled(&mut self, (letter, height): (&str, f64), lines: &[String], is_behind: bool, upright: bool) -> bool {
        let widths = lines.iter().map(|line| text_width(line, SMALLEST, false)).fold(0.0, f64::max);
        let long = text_width(letter, height, true);
        let (wide, high) = if is_behind {
            (long + 1.4 + widths, height)
        } else {
            (long.max(widths), height + number::from_count(lines.len()) * LINE)
        };
        let (room_wide, room_high) = if upright { (high, wide) } else { (wide, high) };
        let mut places = places_inside(self.lines, room_wide, room_high);
        let Some(at) = places.find(|at| self.is_free(Frame::around(*at, room_wide, room_high))) else { return false };
        // Places from the middle of the label, to the right and down as it reads.
        let first = if is_behind { ((long - wide) / 2.0, 0.0) } else { (0.0, (height - high) / 2.0) };
        let mut texts = vec![(Text::new(letter, first, Anchor::Middle).bold(height), first)];
        for (place, line) in lines.iter().enumerate() {
            let down = height + (number::from_count(place) + 0.5) * LINE - high / 2.0;
            let off = if is_behind { ((wide - widths) / 2.0, 0.0) } else { (0.0, down) };
            texts.push((Text::new(line, off, Anchor::Middle), off));
        }
        for (text, (x, y)) in texts {
            // Read from below upwards, what is to the right is above, and what is below is to the right.
            let place = if upright { (at.0 + y, at.1 - x) } else { (at.0 + x, at.1 + y) };
            let text = Text { at: place, ..text };
            self.put(if upright { text.upright() } else { text });
        }
        true
    }

    /// The marks across at the sides of a piece, where it reaches them; returns whether all had room.
    fn marks_across(&mut self, marks: impl Iterator<Item = (Length, bool)>, style: &Style) -> bool {
        let Some(all) = Frame::of(self.lines.iter().flatten().copied()) else { return true };
        let off = 0.9;
        let mut complete = true;
        for (mark, is_left) in marks {
            let text = measure(mark, style);
            let long = text_width(&text, SMALLEST, false);
            let place =
                [(long, SMALLEST, false), (SMALLEST, long, true)].into_iter().find_map(|(wide, high, upright)| {
                    let tries = whole_steps(all.height() / 0.8);
                    // From where the piece reaches its side, a little way in.
                    let candidates = tries.flat_map(|step| {
                        let y = all.top + off + high / 2.0 + step * 0.8;
                        [0.0, 0.8, 1.6, 2.4, 3.2, 4.0].map(|further| {
                            let inward = off + wide / 2.0 + further;
                            (inward, (if is_left { all.left + inward } else { all.right - inward }, y))
                        })
                    });
                    let free = candidates.filter(|(_, at)| {
                        let frame = Frame::around(*at, wide, high);
                        holds(self.lines, frame, GAP) && self.is_free(frame)
                    });
                    let (_, at) = free.min_by(|left, right| left.0.total_cmp(&right.0))?;
                    let words = Text::new(&text, at, Anchor::Middle);
                    Some(if upright { words.upright() } else { words })
                });
            complete &= place.is_some();
            if let Some(text) = place {
                self.put(text);
            }
        }
        complete
    }

    /// The grain of the cloth, down the picture; with one head, towards the head of a piece that has a way up.
    fn grain(&mut self, cut: &DrawnCut) {
        for long in [14.0, 9.0, 6.0] {
            let (wide, high) = (2.2, long + 1.0);
            let mut places = places_inside(self.lines, wide, high);
            let Some(at) = places.find(|at| self.is_free(Frame::around(*at, wide, high))) else { continue };
            let (top, bottom) = ((at.0, at.1 - long / 2.0), (at.0, at.1 + long / 2.0));
            if self.backed {
                self.sketch.box_of(Frame::around(at, wide, high), Fill::White);
            }
            self.sketch.line(top, bottom, Pen::Fine);
            let towards_end = cut.along.0 + cut.along.1 > 0.0;
            if !cut.one_way || towards_end {
                self.sketch.arrow_head(bottom, (0.0, 1.0));
            }
            if !cut.one_way || !towards_end {
                self.sketch.arrow_head(top, (0.0, -1.0));
            }
            return;
        }
    }
}

fn whole_steps(count: f64) -> impl Iterator<Item = f64> {
    let count = number::nearest_whole(count.floor()).unwrap_or(0);
    (0..=count).map(number::from_whole)
}

/// The sign that something is drawn shorter than it is: a zigzag over a gap, from one side to the other.
pub(super) fn break_sign(sketch: &mut Sketch, from: Point, to: Point) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let long = dx.hypot(dy);
    let (x, y) = (dx / long, dy / long);
    let zigzag = |off: f64| -> Vec<Point> {
        let (reach, half) = ((long * 0.08).min(1.3), (3.0 / long).min(0.16));
        let points = [
            (0.0, 0.0),
            (0.5 - half, 0.0),
            (0.5 - half / 2.0, -reach),
            (0.5 + half / 2.0, reach),
            (0.5 + half, 0.0),
            (1.0, 0.0),
        ];
        let at = |(share, side): (f64, f64)| {
            let side = side + off;
            (from.0 + dx * share - y * side, from.1 + dy * share + x * side)
        };
        points.map(at).to_vec()
    };
    let mut gap = zigzag(-0.5);
    gap.extend(zigzag(0.5).into_iter().rev());
    sketch.area(vec![gap], Fill::White);
    sketch.stroke(zigzag(-0.5), Pen::Fine);
    sketch.stroke(zigzag(0.5), Pen::Fine);
}

#[derive(Clone, Copy)]
enum Axis {
    Across,
    Down,
}

/// One side of a straight line, level or upright.
#[derive(Clone, Copy)]
struct Side {
    axis: Axis,
    limit: f64,
    keeps_below: bool,
}

impl Side {
    fn place(self, (x, y): Point) -> f64 {
        match self.axis {
            Axis::Across => x,
            Axis::Down => y,
        }
    }

    fn keeps(self, point: Point) -> bool {
        if self.keeps_below { self.place(point) <= self.limit } else { self.place(point) >= self.limit }
    }

    /// The part of a closed line on this side.
    fn cut(self, line: &[Point]) -> Vec<Point> {
        let mut kept = Vec::new();
        for (from, to) in line.iter().copied().zip(line.iter().copied().cycle().skip(1)) {
            if self.keeps(from) {
                kept.push(from);
            }
            if self.keeps(from) != self.keeps(to) {
                let share = (self.limit - self.place(from)) / (self.place(to) - self.place(from));
                kept.push((from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share));
            }
        }
        kept
    }
}

/// The part of a straight line between two heights.
fn between((a, b): (Point, Point), from: f64, to: f64) -> Option<(Point, Point)> {
    let dy = b.1 - a.1;
    if dy.abs() < 1e-12 {
        return (at_most(from, a.1) && at_most(a.1, to)).then_some((a, b));
    }
    let share = |y: f64| ((y - a.1) / dy).clamp(0.0, 1.0);
    let (first, last) = (share(from).min(share(to)), share(from).max(share(to)));
    let at = |share: f64| (a.0 + (b.0 - a.0) * share, a.1 + dy * share);
    (last - first > 1e-9).then(|| (at(first), at(last)))
}

/// Breaks a length into panels of at most a height on paper: between pieces if possible, otherwise right through them.
fn panels(length: &DrawnLength, scale: f64, end: f64, most: f64) -> Vec<(f64, f64)> {
    let on = |length: Length| on_paper(length, scale);
    let mut spans: Vec<(f64, f64)> = length.cuts.iter().map(|cut| (on(cut.from), on(cut.to))).collect();
    spans.sort_by(|left, right| left.0.total_cmp(&right.0));
    let mut clear = Vec::new();
    let mut reach = 0.0_f64;
    for (from, to) in spans {
        if at_most(reach, from) {
            clear.push(from);
        }
        reach = reach.max(to);
    }
    clear.push(reach);
    let mut panels = Vec::new();
    let mut from = 0.0;
    // A panel that is exactly full is still one panel.
    while end - from > most * (1.0 + 1e-6) {
        let between = clear.iter().copied().rfind(|place| *place > from + most * 0.4 && *place <= from + most);
        let to = between.unwrap_or(from + most);
        panels.push((from, to));
        from = to;
    }
    panels.push((from, end));
    panels
}
