//! Lays drawn to scale as an SVG picture to print and pin over the cutting table.
//!
//! White pieces with black edges, hatched by order; names and sizes run with the grain, running marks are along the
//! edge, selvedges are double lines and a fold is a dashed one. Waste is lightly hatched; a rest worth keeping has a
//! dashed edge and its size. Lengths that are cut alike are drawn once; a long one continues in further panels, as
//! wide and as high as an upright page of A4 or letter allows.
//!
//! Never here: where a piece lies; what is worth keeping.

use super::drawn_lay::{DrawnCut, DrawnLayers, DrawnLength, DrawnRest};
use super::lay_bar;
use super::lay_labels::{Labels, fitted};
use super::lay_page::{PAGE_WIDE, order_fill};
use super::picture::{EDGE, FINE, Point, arrow, dashed, line, ruler, short, words};
use super::plain_text;
use crate::quantity::{Length, Quantity, Style, System, Tape, number};
use std::io::{self, Write};
use svg::Document;
use svg::node::element::path::Data;
use svg::node::element::{ClipPath, Definitions, Group, Path, Pattern, Rectangle};

/// Highest drawing in pixels that fits on such a page.
const PAGE_HIGH: f64 = 960.0;
/// Room for the marks to the left of each panel.
const MARKS: f64 = 62.0;
const GAP: f64 = 16.0;
const HEADING: f64 = 40.0;
const FOOT: f64 = 34.0;
/// Pixels for an inch: a small cloth is not enlarged further.
const LARGEST_SCALE: f64 = 14.0;
/// Pixels for an inch: a long cloth is not made smaller, but continues on the next page.
const SMALLEST_SCALE: f64 = 2.0;
/// Marks closer together than this cannot be read.
const MARK_HIGH: f64 = 9.5;

/// A part of a length, from mark to mark.
#[derive(Clone, Copy)]
struct Panel {
    from: f64,
    to: f64,
}

/// Draws lengths one below the other.
pub(crate) fn write_lays(title: &str, lengths: &[DrawnLength], style: &Style, mut out: impl Write) -> io::Result<()> {
    let mut labels = Labels::of(lengths);
    let mut sheet = Sheet { drawn: Group::new(), y: GAP * 1.5, clips: Definitions::new(), clip_count: 0 };
    let heading = words(&plain_text::one_line(title), 0.0, sheet.y).set("font-weight", "bold").set("font-size", 15);
    sheet.drawn = sheet.drawn.add(heading);
    sheet.y += GAP;
    let longest = lengths.iter().filter(|l| l.roll).map(|length| length.length.steps()).fold(0.0, f64::max);
    for length in lengths {
        if length.roll {
            sheet.make_room(lay_bar::HIGH);
            sheet.add_at(0.0, lay_bar::bar(length, longest, &mut labels, style));
            sheet.y += lay_bar::HIGH;
        } else {
            sheet.cloth(length, &mut labels, style);
        }
    }
    sheet.legend(&labels);
    let high = short(sheet.y + GAP);
    let paper = Rectangle::new().set("width", PAGE_WIDE + 2.0 * GAP).set("height", high).set("fill", "#ffffff");
    let picture = Document::new()
        .set("width", short(PAGE_WIDE + 2.0 * GAP))
        .set("height", high)
        .set("viewBox", (0, 0, short(PAGE_WIDE + 2.0 * GAP), high))
        .add(patterns(sheet.clips, labels.orders()))
        .add(paper)
        .add(
            sheet
                .drawn
                .set("font-family", "sans-serif")
                .set("font-size", 11)
                .set("fill", EDGE)
                .set("transform", format!("translate({GAP} 0)")),
        );
    svg::write(&mut out, &picture)?;
    writeln!(out)
}

/// The picture so far.
struct Sheet {
    drawn: Group,
    y: f64,
    clips: Definitions,
    clip_count: i64,
}

impl Sheet {
    fn add_at(&mut self, x: f64, group: Group) {
        let placed = group.set("transform", format!("translate({} {})", short(x), short(self.y)));
        self.drawn = std::mem::take(&mut self.drawn).add(placed);
    }

    /// Moves to the next page if this one has no room for that height.
    fn make_room(&mut self, high: f64) {
        let page = (self.y / PAGE_HIGH).floor();
        if self.y + high > (page + 1.0) * PAGE_HIGH && high < PAGE_HIGH {
            self.y = (page + 1.0) * PAGE_HIGH + GAP;
        }
    }

    fn cloth(&mut self, length: &DrawnLength, labels: &mut Labels, style: &Style) {
        let view = View::of(length);
        let high = view.panels.iter().map(|panel| (panel.to - panel.from) * view.scale).fold(0.0, f64::max);
        self.make_room(high + HEADING + FOOT);
        let heading = words(&plain_text::one_line(&heading(length, style)), 0.0, self.y + 12.0);
        self.drawn = std::mem::take(&mut self.drawn).add(heading.set("font-weight", "bold"));
        self.y += HEADING;
        let step = view.wide + MARKS + GAP;
        let in_row = number::count(number::nearest_whole((PAGE_WIDE / step).floor()).unwrap_or(1)).unwrap_or(1).max(1);
        for row in view.panels.chunks(in_row) {
            let high = row.iter().map(|panel| (panel.to - panel.from) * view.scale).fold(0.0, f64::max);
            self.make_room(high + FOOT);
            for (place, panel) in row.iter().enumerate() {
                let x = MARKS + number::from_count(place) * step;
                self.clip_count += 1;
                let clip = format!("panel{}", self.clip_count);
                let inside = Rectangle::new()
                    .set("x", -1)
                    .set("y", -1)
                    .set("width", short(view.wide + 2.0))
                    .set("height", short((panel.to - panel.from) * view.scale + 2.0));
                self.clips = std::mem::take(&mut self.clips).add(ClipPath::new().set("id", clip.as_str()).add(inside));
                self.add_at(x, view.panel(length, *panel, &clip, labels, style));
            }
            self.y += high + GAP + 4.0;
        }
        let foot = ruler(&tape_of(length, style), view.scale, 4.0);
        self.add_at(MARKS - GAP, foot);
        self.y += FOOT;
    }

    /// Lists the orders with their hatches, and the pieces that have a number instead of a name.
    fn legend(&mut self, labels: &Labels) {
        let mut lines: Vec<(Option<usize>, String)> = Vec::new();
        for (place, order) in labels.orders().iter().enumerate() {
            lines.push((Some(place), order.clone()));
        }
        lines.extend(labels.numbered().into_iter().map(|words| (None, words)));
        if lines.is_empty() {
            return;
        }
        self.make_room(18.0);
        for (hatch, text) in lines {
            self.make_room(18.0);
            let x = if hatch.is_some() { 34.0 } else { 0.0 };
            let mut group = Group::new().add(words(&plain_text::one_line(&text), x, 11.0));
            if let Some(place) = hatch {
                let swatch = || Rectangle::new().set("width", 26).set("height", 13).set("stroke", EDGE);
                group = group.add(swatch().set("fill", "#ffffff"));
                group = group.add(swatch().set("fill", order_fill(place)));
            }
            self.add_at(0.0, group);
            self.y += 18.0;
        }
    }
}

/// The scale is shown on the tape that the cloth is measured on.
fn tape_of(length: &DrawnLength, style: &Style) -> Style {
    let unit = Quantity::from(length.width).liked().length.unwrap_or(style.tape.unit());
    let tape = if unit.system() == System::Inch { Tape::Inch } else { Tape::Metric };
    Style { tape, ..*style }
}

fn heading(length: &DrawnLength, style: &Style) -> String {
    let show = |length: Length| style.show(length.into());
    let folded = if length.folded { ", folded lengthwise, selvedges together" } else { "" };
    let multiplier = if length.times > 1 { format!(" × {}", length.times) } else { String::new() };
    format!("{}{multiplier}: {} by {} wide{folded}", length.heading, show(length.length), show(length.width))
}

/// How a length of cloth is drawn: its scale and its panels.
struct View {
    /// Pixels for a base step.
    scale: f64,
    /// Width in pixels.
    wide: f64,
    /// Base steps drawn across: as the cloth lies, folded or not.
    across: f64,
    /// Drawn folded, as it lies on the table.
    folded: bool,
    panels: Vec<Panel>,
}

impl View {
    fn of(length: &DrawnLength) -> Self {
        // A cut through only one layer may lie under the fold; then the cloth is drawn opened.
        let folded = length.folded && length.cuts.iter().all(|cut| cut.layers != DrawnLayers::One);
        let across = length.width.steps() / if folded { 2.0 } else { 1.0 };
        // Only the beginning of a long rest is drawn; the text in it says how long it is.
        let (used, whole) = (length.used.steps(), length.length.steps());
        let end = whole.min(used * 1.2 + across * 0.25).max(1.0);
        let inch = Length::inches(1.0).steps();
        let high = PAGE_HIGH - HEADING - FOOT - GAP * 4.0;
        let scale_in = |panels: f64| {
            let wide = (PAGE_WIDE - panels * (MARKS + GAP)) / (panels * across);
            wide.min(high * panels / end)
        };
        let best = [1.0, 2.0, 3.0, 4.0, 5.0].into_iter().map(scale_in).fold(0.0, f64::max);
        let scale = best.max(SMALLEST_SCALE / inch).min(LARGEST_SCALE / inch);
        let mut scale = scale.min((PAGE_WIDE - MARKS - GAP) / across);
        let mut found = panels(length, end, high / scale);
        // Panels that are broken between pieces end early; a little smaller, the last bit needs no panel of its own.
        let few = (end * scale / high - 1e-6).ceil();
        for smaller in [0.97, 0.94, 0.9, 0.85] {
            let tried = panels(length, end, high / (best * smaller));
            if number::from_count(found.len()) > few
                && best * smaller * inch > SMALLEST_SCALE
                && tried.len() < found.len()
            {
                (scale, found) = (scale.min(best * smaller), tried);
            }
        }
        let panels = found;
        Self { scale, wide: across * scale, across, folded, panels }
    }

    fn panel(&self, length: &DrawnLength, panel: Panel, clip: &str, labels: &mut Labels, style: &Style) -> Group {
        let high = (panel.to - panel.from) * self.scale;
        let mut inside = Group::new().set("clip-path", format!("url(#{clip})"));
        let whole = || Rectangle::new().set("width", short(self.wide)).set("height", short(high));
        inside = inside.add(whole().set("fill", "#ffffff")).add(whole().set("fill", "url(#waste)"));
        let seen = |from: Length, to: Length| from.steps() < panel.to && to.steps() > panel.from;
        for rest in length.rests.iter().filter(|rest| rest.kept && seen(rest.from, rest.to)) {
            inside = inside.add(self.rest(rest, panel));
        }
        // A piece on double cloth lies on the table once, and its twin with it.
        let half = length.width.steps() / 2.0 * (1.0 + 1e-9);
        let upper = |cut: &&DrawnCut| !self.folded || cut.layers == DrawnLayers::Fold || cut.across_to.steps() <= half;
        for cut in length.cuts.iter().filter(|cut| seen(cut.from, cut.to)).filter(upper) {
            inside = inside.add(self.piece(cut, panel, labels));
        }
        let mut group = Group::new().add(inside);
        for (x, selvedge) in [(0.0, true), (self.wide, !self.folded)] {
            if selvedge {
                let off = if x > 0.0 { 3.0 } else { -3.0 };
                for x in [x, x + off] {
                    group = group.add(line((x, 0.0), (x, high)).set("stroke", EDGE).set("stroke-width", 0.8));
                }
            } else {
                group = group.add(dashed((x, 0.0), (x, high)).set("stroke", EDGE).set("stroke-width", 1.6));
                let at = format!("rotate(-90 {} {})", short(x + 10.0), short(high / 2.0));
                group =
                    group.add(words("fold", x + 10.0, high / 2.0).set("transform", at).set("text-anchor", "middle"));
            }
        }
        let width = Length::from_steps(self.across).liking(length.width.liked());
        group = group.add(
            words(&style.show(width.into()), self.wide / 2.0, -5.0).set("text-anchor", "middle").set("font-size", 10),
        );
        for y in [0.0, high] {
            group = group.add(line((0.0, y), (self.wide, y)).set("stroke", FINE).set("stroke-width", 0.8));
        }
        self.marks(length, panel, group, style)
    }

    /// Draws running marks along the edge, and only a tick where a mark has no room.
    fn marks(&self, length: &DrawnLength, panel: Panel, mut group: Group, style: &Style) -> Group {
        let cuts = length.cuts.iter().flat_map(|cut| [cut.from, cut.to]);
        let mut marks: Vec<Length> =
            cuts.filter(|mark| mark.steps() >= panel.from && mark.steps() <= panel.to).collect();
        marks.sort_by(|left, right| left.steps().total_cmp(&right.steps()));
        marks.dedup();
        let mut last = f64::NEG_INFINITY;
        for mark in marks {
            let y = (mark.steps() - panel.from) * self.scale;
            group = group.add(line((-9.0, y), (-3.0, y)).set("stroke", EDGE).set("stroke-width", 0.8));
            if y - last >= MARK_HIGH {
                last = y;
                let text = words(&style.show(mark.into()), -11.0, y + 3.0);
                group = group.add(text.set("text-anchor", "end").set("font-size", 9));
            }
        }
        group
    }

    fn at(&self, panel: Panel, (along, across): (Length, Length)) -> Point {
        (across.steps() * self.scale, (along.steps() - panel.from) * self.scale)
    }

    fn piece(&self, cut: &DrawnCut, panel: Panel, labels: &mut Labels) -> Group {
        let closed = cut.lines.iter().fold(Data::new(), |data, line| {
            let mut points = line.iter().map(|place| self.at(panel, *place)).map(|(x, y)| (short(x), short(y)));
            let Some(first) = points.next() else { return data };
            points.fold(data.move_to(first), Data::line_to).close()
        });
        let path =
            |fill: &str| Path::new().set("d", closed.clone()).set("fill", fill.to_owned()).set("fill-rule", "evenodd");
        let mut group = Group::new().add(path("#ffffff"));
        if let Some(place) = labels.order_of(cut) {
            group = group.add(path(&order_fill(place)));
        }
        group = group.add(path("none").set("stroke", EDGE).set("stroke-width", 1.2));
        let folded = self.folded && cut.layers == DrawnLayers::Fold;
        let (along, across) = cut.middle;
        // Only half of a piece on the fold is drawn; its name is in the middle of that half.
        let quarter = (cut.across_to - cut.across_from) * 0.25;
        let middle = if folded { (along, cut.across_from + quarter) } else { (along, across) };
        if middle.0.steps() < panel.from || middle.0.steps() >= panel.to {
            return group;
        }
        let (mut room_along, mut room_across) = (cut.room.0.steps() * self.scale, cut.room.1.steps() * self.scale);
        if folded {
            let lying = cut.along.1.abs() > 0.5;
            if lying { room_along /= 2.0 } else { room_across /= 2.0 }
        }
        // The part of a piece that continues in the next panel is no room for its name.
        let to_edge = ((middle.0.steps() - panel.from).min(panel.to - middle.0.steps())) * self.scale;
        if cut.along.0.abs() > 0.5 {
            room_along = room_along.min(to_edge);
        } else {
            room_across = room_across.min(to_edge);
        }
        let centre = self.at(panel, middle);
        // Along the cloth is down the picture, across it to the right.
        let turn = upright(cut.along.0.atan2(cut.along.1).to_degrees());
        let label = fitted(cut, labels, (room_along, room_across));
        for text in label.texts(centre, turn) {
            group = group.add(text);
        }
        if let Some((place, half)) = label.grain(centre, cut.along, (room_along, room_across)) {
            group = arrow(place, (0.0, half)).into_iter().fold(group, Group::add);
        }
        group
    }

    fn rest(&self, rest: &DrawnRest, panel: Panel) -> Group {
        let (left, top) = self.at(panel, (rest.from, rest.across_from));
        let right = (rest.across_to.steps() * self.scale).min(self.wide);
        let bottom = ((rest.to.steps() - panel.from) * self.scale).min((panel.to - panel.from) * self.scale + 6.0);
        let (wide, high) = (right - left, bottom - top);
        let edge = Rectangle::new()
            .set("x", short(left + 1.5))
            .set("y", short(top + 1.5))
            .set("width", short((wide - 3.0).max(0.5)))
            .set("height", short((high - 3.0).max(0.5)))
            .set("fill", "#ffffff")
            .set("stroke", FINE)
            .set("stroke-dasharray", "5 3");
        let label = format!("keep {}", rest.size);
        let long = number::from_count(label.chars().count());
        let flat = (wide / (long * 0.56)).min(high * 0.7).min(11.0);
        let upright = (high / (long * 0.56)).min(wide * 0.7).min(11.0);
        let (x, y) = (left + wide / 2.0, top + high / 2.0);
        let group = Group::new().add(edge);
        if flat.max(upright) < 6.0 {
            return group;
        }
        let text = words(&label, x, y + 3.5).set("text-anchor", "middle").set("font-size", short(flat.max(upright)));
        if flat >= upright {
            group.add(text)
        } else {
            group.add(text.set("transform", format!("rotate(-90 {} {})", short(x), short(y))))
        }
    }
}

/// Turns an angle so that a text at it is not upside down.
fn upright(degrees: f64) -> f64 {
    if degrees >= 89.0 {
        degrees - 180.0
    } else if degrees < -91.0 {
        degrees + 180.0
    } else {
        degrees
    }
}

/// Breaks a length into panels: between pieces if possible, otherwise right through them.
fn panels(length: &DrawnLength, end: f64, most: f64) -> Vec<Panel> {
    let mut spans: Vec<(f64, f64)> = length.cuts.iter().map(|cut| (cut.from.steps(), cut.to.steps())).collect();
    spans.sort_by(|left, right| left.0.total_cmp(&right.0));
    let mut clear = Vec::new();
    let mut reach = 0.0_f64;
    for (from, to) in spans {
        if from >= reach {
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
        panels.push(Panel { from, to });
        from = to;
    }
    panels.push(Panel { from, to: end });
    panels
}

/// Hatches: a light one for waste, and one for each order that differs from all others by direction, spacing or kind.
fn patterns(definitions: Definitions, orders: &[String]) -> Definitions {
    let stroke = |data: Data, width: f64, colour: &str| {
        Path::new().set("d", data).set("fill", "none").set("stroke", colour.to_owned()).set("stroke-width", width)
    };
    let tile = |name: &str, size: f64, turn: f64| {
        Pattern::new()
            .set("id", name)
            .set("width", size)
            .set("height", size)
            .set("patternUnits", "userSpaceOnUse")
            .set("patternTransform", format!("rotate({turn})"))
    };
    let rule = |size: f64| Data::new().move_to((0, 0)).line_to((size, 0));
    let waste = tile("waste", 4.0, 45.0).add(stroke(rule(4.0), 0.5, "#9a9a9a"));
    let mut definitions = definitions.add(waste);
    for (place, _) in orders.iter().enumerate() {
        let kind = place % 6;
        // After six, the kinds repeat at closer and closer spacing.
        let size = 9.0 / (1.0 + number::from_count(place / 6) * 0.5);
        let name = format!("order{place}");
        let grey = "#8a8a8a";
        let drawn = match kind {
            0 => tile(&name, size, 0.0).add(stroke(rule(size), 0.9, grey)),
            1 => tile(&name, size, 90.0).add(stroke(rule(size), 0.9, grey)),
            2 => tile(&name, size, -30.0).add(stroke(rule(size), 0.9, grey)),
            3 => {
                let dot = Data::new().move_to((size / 2.0 - 0.8, size / 2.0)).line_to((size / 2.0 + 0.8, size / 2.0));
                tile(&name, size, 0.0).add(stroke(dot, 1.6, grey))
            }
            4 => tile(&name, size, 0.0).add(stroke(rule(size), 0.7, grey)).add(stroke(
                Data::new().move_to((0, 0)).line_to((0, size)),
                0.7,
                grey,
            )),
            _ => tile(&name, size, 30.0).add(stroke(rule(size), 0.9, grey).set("stroke-dasharray", "4 3")),
        };
        definitions = definitions.add(drawn);
    }
    definitions
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    /// A rectangle at a mark along and a mark across, with its length and width.
    fn piece(name: &str, (from, left): (f64, f64), (along, across): (f64, f64)) -> DrawnCut {
        let corners = [(from, left), (from + along, left), (from + along, left + across), (from, left + across)];
        DrawnCut {
            name: name.to_owned(),
            order: None,
            size: format!("{along} in × {across} in"),
            from: inches(from),
            to: inches(from + along),
            across_from: inches(left),
            across_to: inches(left + across),
            lines: vec![corners.map(|(along, across)| (inches(along), inches(across))).to_vec()],
            along: (1.0, 0.0),
            middle: (inches(from + along / 2.0), inches(left + across / 2.0)),
            room: (inches(along / 2.0), inches(across / 2.0)),
            layers: DrawnLayers::One,
        }
    }

    fn length(long: f64, cuts: Vec<DrawnCut>) -> DrawnLength {
        DrawnLength {
            heading: "A".to_owned(),
            times: 1,
            length: inches(long),
            used: inches(long),
            width: inches(44.0),
            roll: false,
            folded: false,
            cuts,
            rests: Vec::new(),
        }
    }

    fn drawn(lengths: &[DrawnLength]) -> String {
        let mut bytes = Vec::new();
        write_lays("a lay", lengths, &Style::default(), &mut bytes).unwrap();
        String::from_utf8(bytes).unwrap()
    }

    #[test]
    fn texts_cannot_leave_their_place() {
        let odd = piece("<script>\u{1b}[31m & \"x\"", (0.0, 0.0), (30.0, 40.0));
        let picture = drawn(&[length(30.0, vec![odd])]);
        assert!(!picture.contains("<script>") && !picture.contains('\u{1b}'), "{picture}");
        assert!(picture.contains("&lt;script&gt;"), "{picture}");
    }

    #[test]
    fn a_piece_too_small_for_its_name_has_a_number_that_the_legend_explains() {
        let tiny = piece("underarm gusset for a costume", (0.0, 0.0), (2.0, 2.0));
        let picture = drawn(&[length(60.0, vec![tiny, piece("panel", (2.0, 0.0), (58.0, 40.0))])]);
        assert!(picture.contains("1  underarm gusset for a costume, 2 in × 2 in"), "{picture}");
        assert!(!picture.contains("2  panel"), "{picture}");
    }

    #[test]
    fn twins_on_double_cloth_are_drawn_once_as_they_lie() {
        let both = |left| DrawnCut { layers: DrawnLayers::Both, ..piece("front", (0.0, left), (30.0, 20.0)) };
        let folded = DrawnLength { folded: true, ..length(30.0, vec![both(0.0), both(24.0)]) };
        let picture = drawn(&[folded]);
        assert_eq!(picture.matches("front, double").count(), 1, "{picture}");
        assert!(picture.contains("22 in") && picture.contains("stroke-dasharray"), "{picture}");
    }

    #[test]
    fn a_long_cloth_goes_on_between_pieces() {
        let cuts: Vec<DrawnCut> =
            (0..40).map(|row| piece("drop", (f64::from(row) * 90.0, 0.0), (90.0, 44.0))).collect();
        let whole = length(3600.0, cuts);
        let view = View::of(&whole);
        assert!(view.panels.len() > 1);
        for panel in &view.panels {
            let rows = panel.from / inches(90.0).steps();
            assert!((rows - rows.round()).abs() < 1e-6, "a panel begins within a piece");
        }
        let covered: f64 = view.panels.iter().map(|panel| panel.to - panel.from).sum();
        assert!((covered - whole.length.steps()).abs() < 1.0);
        let one = View::of(&length(61.5, vec![piece("drop", (0.0, 0.0), (61.5, 44.0))]));
        assert_eq!(one.panels.len(), 1);
    }

    #[test]
    fn orders_are_told_apart_by_their_hatch_and_one_alone_has_none() {
        let of =
            |order: &str, from| DrawnCut { order: Some(order.to_owned()), ..piece("strip", (from, 0.0), (9.0, 44.0)) };
        let two = drawn(&[length(20.0, vec![of("31", 0.0), of("32", 9.0)])]);
        assert!(two.contains("url(#order0)") && two.contains("url(#order1)"), "{two}");
        let one = drawn(&[length(20.0, vec![of("31", 0.0), of("31", 9.0)])]);
        assert!(!one.contains("url(#order0)"), "{one}");
    }
}
