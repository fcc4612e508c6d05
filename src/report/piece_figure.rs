//! One piece drawn to scale: its edge, dimension lines, stations of a shaped edge, marks, fold and grain.
//!
//! What has no room beside the lines is told in words instead, so that nothing is left out and nothing overlaps.
//! Never here: where the piece stands on its page.

use super::canvas::{
    Anchor, Fill, Frame, GAP, LINE, Pen, Point, SMALLEST, Sketch, Text, places_inside, spread, text_width,
};
use super::drawn_piece::{DrawnMark, DrawnPiece, DrawnShape, MarkPlace};
use super::listed::listed;
use super::outline_places::{along_edge, crossings, evenly, extents, inside, least_mark};
use super::picture_page::{measure, on_paper};
use super::plain_text;
use crate::piece::{Fold, Grain, OutlinePoint};
use crate::quantity::{Length, Style, number};
use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// A drawn piece.
pub(super) struct Figure {
    pub(super) sketch: Sketch,
    /// What is told in words below it.
    pub(super) told: Vec<String>,
    /// Whether every dimension had room beside its line.
    pub(super) complete: bool,
}

/// From an edge to its dimension line.
const OFF: f64 = 4.5;
/// From the piece to the column of its marks and stations.
const COLUMN: f64 = 9.0;
/// Straight steps that draw an arc of a whole turn.
const STEPS: f64 = 96.0;
/// The most stations told of an outline.
const MOST_STATIONS: usize = 40;
/// The most texts in the column beside a piece, and the widest of them. Others are told below it.
const MOST_BESIDE: usize = 48;
const WIDEST_BESIDE: f64 = 70.0;
/// The size of the letter in a piece.
const LETTER: f64 = 5.0;

/// The closed lines of a shape from the upper left corner of the rectangle round it, and the middle of its circles.
struct Shaped {
    lines: Vec<Vec<Point>>,
    middle: Point,
    wide: f64,
    high: f64,
}

/// Width and height on paper.
pub(super) fn size(shape: &DrawnShape, scale: f64) -> Option<(f64, f64)> {
    shaped(shape, scale).map(|shaped| (shaped.wide, shaped.high))
}

fn shaped(shape: &DrawnShape, scale: f64) -> Option<Shaped> {
    let on = |length: Length| on_paper(length, scale);
    let upright = |wide: f64, high: f64| vec![vec![(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]];
    let drawn: Vec<Vec<Point>> = match shape {
        DrawnShape::Rectangle { along, across } => upright(on(*across), on(*along)),
        DrawnShape::FullWidth { along, width } => upright(on(*width), on(*along)),
        DrawnShape::Corners(corners) => {
            vec![corners.iter().map(|corner| (on(corner.across), -on(corner.along))).collect()]
        }
        DrawnShape::Sector { inner, outer, turn } if *turn >= 1.0 => {
            let circles = [outer, inner].into_iter().filter(|radius| radius.is_positive());
            circles.map(|radius| arc(on(*radius), 1.0)).collect()
        }
        DrawnShape::Sector { inner, outer, turn } => {
            // From the hem back along the waist; a sector without a waist comes to a point.
            let waist = if inner.is_positive() { arc(on(*inner), *turn) } else { vec![(0.0, 0.0)] };
            vec![arc(on(*outer), *turn).into_iter().chain(waist.into_iter().rev()).collect()]
        }
    };
    let frame = Frame::of(drawn.iter().flatten().copied())?;
    let moved = |(x, y): Point| (x - frame.left, y - frame.top);
    Some(Shaped {
        lines: drawn.into_iter().map(|line| line.into_iter().map(moved).collect()).collect(),
        middle: moved((0.0, 0.0)),
        wide: frame.width(),
        high: frame.height(),
    })
}

/// Points on an arc that hangs down from its middle, symmetric about the vertical.
fn arc(radius: f64, turn: f64) -> Vec<Point> {
    let steps = (STEPS * turn).ceil().max(2.0);
    let mut points = Vec::new();
    let mut step = 0.0;
    while step <= steps {
        let angle = (step / steps - 0.5) * turn * 2.0 * PI;
        points.push((radius * angle.sin(), radius * angle.cos()));
        step += 1.0;
    }
    points
}

/// A text to be placed once all lines are drawn, and what is told below if it has no room.
struct Pending {
    places: Vec<Text>,
    otherwise: String,
    /// A dimension, which ought to be beside its line.
    matters: bool,
}

/// A line of the column to the right: where its leader starts, and its text.
struct Callout {
    from: Point,
    text: String,
}

struct Draft<'p> {
    piece: &'p DrawnPiece,
    shaped: Shaped,
    scale: f64,
    style: &'p Style,
    sketch: Sketch,
    pending: Vec<Pending>,
    column: Vec<Callout>,
    told: Vec<String>,
}

/// Draws a piece from the upper left corner of the rectangle round it; what stands to its left or above has negative
/// places.
pub(super) fn figure(piece: &DrawnPiece, scale: f64, style: &Style) -> Figure {
    let Some(shaped) = shaped(&piece.shape, scale) else {
        return Figure { sketch: Sketch::default(), told: Vec::new(), complete: true };
    };
    let mut draft = Draft {
        piece,
        shaped,
        scale,
        style,
        sketch: Sketch::default(),
        pending: Vec::new(),
        column: Vec::new(),
        told: Vec::new(),
    };
    draft.edge();
    draft.dimensions();
    draft.marks();
    draft.column();
    let complete = draft.settle();
    draft.letter();
    draft.grain();
    Figure { sketch: draft.sketch, told: draft.told, complete }
}

impl Draft<'_> {
    fn say(&self, length: Length) -> String {
        measure(length, self.style)
    }

    fn edge(&mut self) {
        self.sketch.area(self.shaped.lines.clone(), Fill::White);
        for line in &self.shaped.lines {
            self.sketch.closed(line, Pen::Edge);
        }
        let (wide, high) = (self.shaped.wide, self.shaped.high);
        if matches!(self.piece.shape, DrawnShape::FullWidth { .. }) && wide > 4.0 {
            // A second line inside both sides is the selvedge.
            for x in [0.8, wide - 0.8] {
                self.sketch.line((x, 0.0), (x, high), Pen::Fine);
            }
        }
        match self.piece.fold {
            Some(Fold::Across) => self.fold((0.0, high / 2.0), (wide, high / 2.0)),
            Some(Fold::Along) => self.fold((wide / 2.0, 0.0), (wide / 2.0, high)),
            None => {}
        }
    }

    /// The line on a fold, as far as it is in the piece, with the word beside it.
    fn fold(&mut self, from: Point, to: Point) {
        for (from, to) in inside(&self.shaped.lines, from, to) {
            self.sketch.line(from, to, Pen::Fold);
        }
        let upright = to.0 - from.0 < to.1 - from.1;
        let shares = [0.5, 0.3, 0.7, 0.15, 0.85];
        let places = shares.into_iter().flat_map(|share| {
            let (x, y) = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
            [-1.0, 1.0].map(|side| {
                let off = side * (SMALLEST / 2.0 + GAP + 0.3);
                if upright {
                    Text::new("fold", (x + off, y), Anchor::Middle).upright()
                } else {
                    Text::new("fold", (x, y + off), Anchor::Middle)
                }
            })
        });
        // Beside a piece too narrow for the word, the fold goes on and the word stands at its end.
        let end = Text::new("fold", (from.0, from.1 - SMALLEST), Anchor::Middle);
        self.pending.push(Pending {
            places: places.chain([end]).collect(),
            otherwise: "the middle line with long and short dashes is on the fold".to_owned(),
            matters: false,
        });
    }

    fn dimensions(&mut self) {
        let (wide, high) = (self.shaped.wide, self.shaped.high);
        match self.piece.shape.clone() {
            DrawnShape::Rectangle { along, across } => {
                self.straight((0.0, high), (0.0, 0.0), (-1.0, 0.0), self.say(along));
                self.straight((0.0, high), (wide, high), (0.0, 1.0), self.say(across));
            }
            DrawnShape::FullWidth { along, width } => {
                self.straight((0.0, high), (0.0, 0.0), (-1.0, 0.0), self.say(along));
                self.straight((0.0, high), (wide, high), (0.0, 1.0), format!("full width {}", self.say(width)));
            }
            DrawnShape::Corners(corners) => {
                let (along, across) = extents(&corners);
                self.straight((0.0, high), (0.0, 0.0), (-1.0, 0.0), self.say(along.1 - along.0));
                self.straight((0.0, high), (wide, high), (0.0, 1.0), self.say(across.1 - across.0));
                self.stations(&corners);
            }
            DrawnShape::Sector { inner, outer, turn } => self.radii(inner, outer, turn),
        }
    }

    /// A dimension line beside an edge, on the side that `away` points to.
    fn straight(&mut self, from: Point, to: Point, away: Point, text: String) {
        let out = |(x, y): Point, by: f64| (x + away.0 * by, y + away.1 * by);
        let (a, b) = (out(from, OFF), out(to, OFF));
        for point in [from, to] {
            self.sketch.line(out(point, 0.8), out(point, OFF + 1.2), Pen::Fine);
        }
        self.sketch.line(a, b, Pen::Fine);
        let length = (b.0 - a.0).hypot(b.1 - a.1);
        if length > 5.0 {
            self.sketch.arrow_head(a, (a.0 - b.0, a.1 - b.1));
            self.sketch.arrow_head(b, (b.0 - a.0, b.1 - a.1));
        }
        let mut places = Vec::new();
        let long = text_width(&text, SMALLEST, false);
        for share in [0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0] {
            let at = (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
            let upright = away.1.abs() < 0.01 && long < length;
            let (half_wide, half_high) = if upright { (SMALLEST, long) } else { (long, SMALLEST) };
            let reach = 0.5 * (away.0.abs() * half_wide + away.1.abs() * half_high) + GAP + 0.5;
            for further in [0.0, LINE, 2.0 * LINE] {
                let centre = out(at, reach + further);
                let words = Text::new(&text, centre, Anchor::Middle);
                places.push(if upright { words.upright() } else { words });
            }
        }
        self.pending.push(Pending { places, otherwise: text, matters: true });
    }

    /// Both radii of a ring or a part of one, measured from its middle.
    fn radii(&mut self, inner: Length, outer: Length, turn: f64) {
        let centre = self.shaped.middle;
        let (waist, hem) = (on_paper(inner, self.scale), on_paper(outer, self.scale));
        for (dx, dy) in [(1.5, 0.0), (0.0, 1.5)] {
            self.sketch.line((centre.0 - dx, centre.1 - dy), (centre.0 + dx, centre.1 + dy), Pen::Fine);
        }
        let told = |length: Length| format!("radius {}", self.say(length));
        let (short, long) = (told(inner), told(outer));
        if turn < 1.0 {
            let angle = turn * PI;
            let along =
                |side: f64, radius: f64| (centre.0 + side * angle.sin() * radius, centre.1 + angle.cos() * radius);
            let away = |side: f64| (side * angle.cos(), -angle.sin());
            self.straight(centre, along(1.0, hem), away(1.0), long);
            if inner.is_positive() {
                self.straight(centre, along(-1.0, waist), away(-1.0), short);
            }
            let (wide, high) = (self.shaped.wide, self.shaped.high);
            let across = outer * (2.0 * if turn < 0.5 { angle.sin() } else { 1.0 });
            self.straight((0.0, high), (wide, high), (0.0, 1.0), format!("{} over all", self.say(across)));
            return;
        }
        // In a whole ring the longer radius runs to the right, and the shorter to the left with its text beyond.
        self.radius(centre, 1.0, (waist.min(hem * 0.2), hem), hem, long);
        if inner.is_positive() {
            self.radius(centre, -1.0, (waist, hem), waist, short);
        }
    }

    fn radius(&mut self, centre: Point, side: f64, (near, far): (f64, f64), reach: f64, text: String) {
        let tip = (centre.0 + side * reach, centre.1);
        self.sketch.line((centre.0 + side * 1.5, centre.1), tip, Pen::Fine);
        self.sketch.arrow_head(tip, (side, 0.0));
        let long = text_width(&text, SMALLEST, false);
        let off = SMALLEST / 2.0 + GAP + 0.3;
        let (from, to) = (centre.0 + side * near, centre.0 + side * far);
        let middle = f64::midpoint(from, to);
        let beyond = tip.0 + side * (long / 2.0 + 1.2);
        let outside = centre.0 + side * (far + long / 2.0 + 1.5);
        let (on_line, after) = ([(middle, -off), (middle, off)], [(beyond, 0.0), (beyond, off)]);
        // A line that ends before its place has the text behind its tip.
        let places = if near >= reach { [after, on_line] } else { [on_line, after] };
        let places = places.into_iter().flatten().chain([(outside, 0.0), (outside, off * 2.0)]);
        let places = places.map(|(x, down)| Text::new(&text, (x, centre.1 + down), Anchor::Middle)).collect();
        self.pending.push(Pending { places, otherwise: text, matters: true });
    }

    /// How far out a shaped edge is at each height where it turns: from the middle line if both sides are alike, else
    /// from the line at its left. Of an edge that turns at too many heights, evenly chosen ones are told, with a word on
    /// the others.
    fn stations(&mut self, corners: &[OutlinePoint]) {
        let (along, across) = extents(corners);
        let mut heights: Vec<Length> = corners.iter().map(|corner| corner.along - along.0).collect();
        heights.sort_by(|left, right| left.steps().total_cmp(&right.steps()));
        heights.dedup_by(|next, before| *next - *before < least_mark());
        let all = heights.len();
        let rows: Vec<(Length, Vec<Length>)> = evenly(&heights, all.min(MOST_STATIONS))
            .into_iter()
            .map(|height| (height, crossings(corners, height + along.0, across.0)))
            .filter(|(_, outs)| !outs.is_empty())
            .collect();
        let middle = (across.1 - across.0) * 0.5;
        let even = |outs: &Vec<Length>| {
            let mirrored = outs.iter().rev().map(|out| middle * 2.0 - *out);
            outs.iter().zip(mirrored).all(|(out, other)| (out.steps() - other.steps()).abs() < least_mark().steps())
        };
        let is_even = rows.iter().all(|(_, outs)| even(outs));
        let (wide, high) = (self.shaped.wide, self.shaped.high);
        let base = if is_even { wide / 2.0 } else { 0.0 };
        let runs = if is_even {
            inside(&self.shaped.lines, (base, 0.0), (base, high))
        } else {
            vec![((base, 0.0), (base, high))]
        };
        if self.piece.fold != Some(Fold::Along) || !is_even {
            for (from, to) in runs {
                self.sketch.line(from, to, Pen::Fine);
            }
        }
        let told = number::from_count(rows.len());
        if all > MOST_STATIONS {
            self.told.push(format!(
                "{} of the {} heights where the edge turns are stations; between them it runs as drawn",
                self.style.show_number(told),
                self.style.show_number(number::from_count(all))
            ));
        }
        for (height, outs) in rows {
            self.station((height, &outs), middle, base, is_even);
        }
        self.told.push(if is_even {
            "stations: up from the lower edge, out from the middle line to either side".to_owned()
        } else {
            "stations: up from the lower edge, at so far to the right of the thin line at the left".to_owned()
        });
    }

    /// The station at a height, with its distances from the left: dots on the edge, and its text in the column.
    fn station(&mut self, (height, outs): (Length, &[Length]), middle: Length, base: f64, is_even: bool) {
        let y = self.shaped.high - on_paper(height, self.scale);
        let Some(right) = outs.last() else { return };
        let x = on_paper(*right, self.scale);
        self.sketch.line((base - 0.8, y), (base + 0.8, y), Pen::Fine);
        for out in outs {
            let dot = Frame::around((on_paper(*out, self.scale), y), 0.9, 0.9);
            self.sketch.box_of(dot, Fill::Black);
        }
        let place = if is_even {
            let half = outs.iter().filter(|out| **out - middle > -least_mark()).map(|out| *out - middle);
            format!("out {}", listed(&half.map(|out| self.say(out)).collect::<Vec<_>>()))
        } else {
            format!("at {}", listed(&outs.iter().map(|out| self.say(*out)).collect::<Vec<_>>()))
        };
        self.beside((x, y), format!("up {}, {place}", self.say(height)), None);
    }

    /// A text in the column beside the piece, or below it if it is too long or one too many.
    fn beside(&mut self, from: Point, text: String, below: Option<String>) {
        if self.column.len() < MOST_BESIDE && has_room_beside(&text) {
            self.column.push(Callout { from, text });
        } else {
            self.told.push(below.unwrap_or(text));
        }
    }

    fn marks(&mut self) {
        let (wide, high) = (self.shaped.wide, self.shaped.high);
        for mark in &self.piece.marks {
            let words = format!("{} {}", plain_text::one_line(&mark.name), self.say(mark.distance));
            match &mark.place {
                MarkPlace::Levels(levels) => {
                    for level in levels {
                        let y = high - on_paper(*level, self.scale);
                        let runs = inside(&self.shaped.lines, (0.0, y), (wide, y));
                        for (from, to) in &runs {
                            self.sketch.line(*from, *to, Pen::Dashed);
                        }
                        if let Some((_, to)) = runs.last() {
                            self.beside(*to, words.clone(), Some(told(mark, &words)));
                        } else {
                            self.told.push(told(mark, &words));
                        }
                    }
                }
                MarkPlace::Columns(columns) => {
                    for column in columns {
                        let x = on_paper(*column, self.scale);
                        for (from, to) in inside(&self.shaped.lines, (x, 0.0), (x, high)) {
                            self.sketch.line(from, to, Pen::Dashed);
                        }
                        let places = (0..5).map(|line| (x, -1.0 - SMALLEST / 2.0 - LINE * number::from_whole(line)));
                        let places = places.map(|at| Text::new(&words, at, Anchor::Middle));
                        let places: Vec<Text> = places.filter(|_| has_room_beside(&words)).collect();
                        self.pending.push(Pending { places, otherwise: told(mark, &words), matters: false });
                    }
                }
                MarkPlace::Notches(places) => {
                    let lies = wide > high;
                    for place in places {
                        let at = on_paper(*place, self.scale);
                        if lies {
                            self.notch((at, 0.0), (0.0, 1.0));
                            self.notch((at, high), (0.0, -1.0));
                        } else {
                            self.notch((0.0, high - at), (1.0, 0.0));
                            self.notch((wide, high - at), (-1.0, 0.0));
                        }
                    }
                    self.told.push(told(mark, &words));
                }
                MarkPlace::HeadNotches(along) => {
                    let line = self.shaped.lines.first().cloned().unwrap_or_default();
                    for forward in [true, false] {
                        if let Some((at, into)) = along_edge(&line, on_paper(*along, self.scale), forward) {
                            self.notch(at, into);
                        }
                    }
                    self.told.push(told(mark, &words));
                }
                MarkPlace::Ring(radius) => {
                    if let DrawnShape::Sector { turn, .. } = self.piece.shape {
                        let (x, y) = self.shaped.middle;
                        let points = arc(on_paper(*radius, self.scale), turn);
                        self.sketch.stroke(points.into_iter().map(|(dx, dy)| (x + dx, y + dy)).collect(), Pen::Dashed);
                    }
                    self.told.push(told(mark, &words));
                }
                MarkPlace::Slit(depth) => {
                    if let DrawnShape::Sector { inner, .. } = self.piece.shape {
                        let (x, y) = self.shaped.middle;
                        let from = y + on_paper(inner, self.scale);
                        let to = from + on_paper(*depth, self.scale);
                        self.sketch.line((x, from), (x, to), Pen::Dashed);
                        self.sketch.line((x - 1.0, to), (x + 1.0, to), Pen::Edge);
                    }
                    self.told.push(told(mark, &words));
                }
                MarkPlace::Told => self.told.push(told(mark, &words)),
            }
        }
    }

    /// A short cut into an edge.
    fn notch(&mut self, at: Point, into: Point) {
        self.sketch.line(at, (at.0 + into.0 * 1.8, at.1 + into.1 * 1.8), Pen::Edge);
    }

    /// The column to the right: its texts one below the other, each with a leader from its place.
    fn column(&mut self) {
        self.column.sort_by(|left, right| left.from.1.total_cmp(&right.from.1));
        let wanted: Vec<f64> = self.column.iter().map(|callout| callout.from.1).collect();
        let x = self.shaped.wide + COLUMN;
        // They may begin above the piece, as long as they end below it by no more.
        let places = spread(&wanted, LINE, f64::NEG_INFINITY);
        for (callout, y) in std::mem::take(&mut self.column).into_iter().zip(places) {
            let bend = (self.shaped.wide + 2.0, callout.from.1);
            self.sketch.stroke(vec![(callout.from.0 + 0.9, callout.from.1), bend, (x - 0.8, y)], Pen::Fine);
            self.sketch.text(Text::new(&callout.text, (x, y), Anchor::Start));
        }
    }

    /// Places the texts that have several places, now that all lines are drawn; returns whether every dimension had
    /// one.
    fn settle(&mut self) -> bool {
        let mut complete = true;
        for pending in std::mem::take(&mut self.pending) {
            if !self.sketch.place(pending.places) {
                complete &= !pending.matters;
                self.told.push(pending.otherwise);
            }
        }
        complete
    }

    /// The letter in the piece, if there is room.
    fn letter(&mut self) {
        let [letter] = self.piece.letters.as_slice() else { return };
        for size in [LETTER, 3.6, SMALLEST] {
            let wide = text_width(letter, size, true);
            let places = places_inside(&self.shaped.lines, wide, size);
            if self.sketch.place(places.map(|at| Text::new(letter, at, Anchor::Middle).bold(size))) {
                return;
            }
        }
    }

    /// The grain: an arrow with a head at both ends, or at one where the piece has a way up.
    fn grain(&mut self) {
        let Some((x, y)) = threads(&self.piece.shape, self.piece.grain) else { return };
        let reach = self.shaped.wide.min(self.shaped.high);
        for long in [18.0, 12.0, 8.0, 5.0] {
            if long > reach * 1.2 && long > 5.0 {
                continue;
            }
            let (wide, high) = (x.abs() * long + 1.4, y.abs() * long + 1.4);
            let mut places = places_inside(&self.shaped.lines, wide, high);
            let free = places.find(|at| self.sketch.is_free(Frame::around(*at, wide, high), 0.6));
            if let Some(at) = free {
                let half = long / 2.0;
                let (from, to) = ((at.0 - x * half, at.1 - y * half), (at.0 + x * half, at.1 + y * half));
                self.sketch.line(from, to, Pen::Fine);
                self.sketch.arrow_head(to, (x, y));
                if !self.piece.one_way {
                    self.sketch.arrow_head(from, (-x, -y));
                }
                return;
            }
        }
        // A piece too narrow for it has its grain beside it.
        let bounds = self.sketch.bounds();
        let half = 4.0;
        let at = (bounds.left - 2.0 - half * x.abs(), self.shaped.high.min(9.0) / 2.0);
        let (from, to) = ((at.0 - x * half, at.1 - y * half), (at.0 + x * half, at.1 + y * half));
        if self.sketch.is_clear(from, to) {
            self.sketch.line(from, to, Pen::Fine);
            self.sketch.arrow_head(to, (x, y));
            if !self.piece.one_way {
                self.sketch.arrow_head(from, (-x, -y));
            }
        }
    }
}

/// Whether a text may stand beside a piece, and not below it.
fn has_room_beside(text: &str) -> bool {
    text_width(text, SMALLEST, false) <= WIDEST_BESIDE
}

fn told(mark: &DrawnMark, words: &str) -> String {
    format!("{words}: {}", mark.from)
}

/// The direction of the threads in the picture, a vector of length 1 towards the head of the cloth; `None` if the grain
/// may run either way. A piece stands on its lower edge. A sector's frame lies along its first straight edge, which is
/// drawn as far to the left of the vertical as the second to its right.
fn threads(shape: &DrawnShape, grain: Grain) -> Option<Point> {
    let (along, across) = match shape {
        DrawnShape::Sector { turn, .. } if *turn < 1.0 => {
            let (sine, cosine) = (turn * PI).sin_cos();
            ((-sine, cosine), (cosine, sine))
        }
        _ => ((0.0, -1.0), (1.0, 0.0)),
    };
    match grain {
        Grain::Along => Some(along),
        // Laid across, a piece has its own across back along the cloth; on the bias, half of that turn.
        Grain::Across => Some((-across.0, -across.1)),
        Grain::Bias => Some(((along.0 - across.0) * FRAC_1_SQRT_2, (along.1 - across.1) * FRAC_1_SQRT_2)),
        Grain::Any => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::picture::tests::{inches, piece, rectangle};
    use super::*;

    #[test]
    fn the_grain_of_a_sector_runs_along_its_first_straight_edge() {
        // Own geometry: of a half ring both straight edges are level; of a quarter the first hangs down to the left.
        let sector = |turn| DrawnShape::Sector { inner: inches(3.0), outer: inches(20.0), turn };
        let half = threads(&sector(0.5), Grain::Along).unwrap();
        let quarter = threads(&sector(0.25), Grain::Along).unwrap();
        let slant = 0.5_f64.sqrt();
        let near = |found: Point, wanted: Point| (found.0 - wanted.0).hypot(found.1 - wanted.1) < 1e-9;
        assert!(near(half, (-1.0, 0.0)), "{half:?}");
        assert!(near(quarter, (-slant, slant)), "{quarter:?}");
        // A piece stands on its lower edge: its way up is up the picture.
        let panel = rectangle(20.0, 30.0);
        assert!(near(threads(&panel, Grain::Along).unwrap(), (0.0, -1.0)));
        assert!(near(threads(&panel, Grain::Across).unwrap(), (-1.0, 0.0)));
        assert!(near(threads(&panel, Grain::Bias).unwrap(), (-slant, -slant)));
        // Of a sixth, 30 degrees to the left of down; its own across is 30 degrees above the level, and the bias half-way.
        let (sine, cosine) = (15.0_f64.to_radians().sin(), 15.0_f64.to_radians().cos());
        let sixth = |grain| threads(&sector(1.0 / 6.0), grain).unwrap();
        assert!(near(sixth(Grain::Along), (-0.5, 0.75_f64.sqrt())));
        assert!(near(sixth(Grain::Across), (-(0.75_f64.sqrt()), -0.5)));
        assert!(near(sixth(Grain::Bias), (-cosine, sine)));
    }

    /// By pencil: on a triangle 6 in at the foot, 8 in high, a head notch 2 in along each side from the point is at
    /// 2 · 3/√73 to the side and 2 · 8/√73 below it.
    #[test]
    fn a_head_notch_is_measured_along_the_edge() {
        let corner = |across, along| OutlinePoint { across: inches(across), along: inches(along) };
        let flag = DrawnShape::Corners(vec![corner(0.0, 0.0), corner(6.0, 0.0), corner(3.0, 8.0)]);
        let line = shaped(&flag, 25.4).unwrap().lines.remove(0);
        let root = 73.0_f64.sqrt();
        let (side, down) = (6.0 / root, 16.0 / root);
        let mut found: Vec<Point> =
            [true, false].into_iter().filter_map(|forward| along_edge(&line, 2.0, forward)).map(|(at, _)| at).collect();
        found.sort_by(|left, right| left.0.total_cmp(&right.0));
        let wanted = [(3.0 - side, down), (3.0 + side, down)];
        assert!(
            found.iter().zip(wanted).all(|(found, wanted)| (found.0 - wanted.0).hypot(found.1 - wanted.1) < 1e-6)
                && found.len() == 2,
            "{found:?}"
        );
    }

    #[test]
    fn a_piece_too_small_for_its_letter_still_has_its_dimensions() {
        let drawn = figure(&piece("tab", rectangle(0.25, 0.5)), 10.0, &Style::default());
        let texts: Vec<&str> =
            drawn.sketch.texts().map(|text| text.text.as_str()).chain(drawn.told.iter().map(String::as_str)).collect();
        assert!(texts.contains(&"1/4") && texts.contains(&"1/2"), "{texts:?}");
    }
}
