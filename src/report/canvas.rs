//! A picture as data: areas, strokes and texts on A4 pages, in millimetres from a page's upper left corner.
//!
//! Texts have a frame that holds them in any usual font, so that what overlaps can be worked out before anything is
//! drawn. Never here: SVG; what the picture shows.

use crate::quantity::number;

/// A point to the right and down.
pub(super) type Point = (f64, f64);

/// A4 upright, ISO 216.
pub(super) const PAGE: (f64, f64) = (210.0, 297.0);
/// What most printers leave white.
pub(super) const MARGIN: f64 = 10.0;
/// The smallest size of letters. Capitals and figures of usual sans-serif fonts are 0.716 of it or more (font metrics,
/// from memory), so that they are printed at least 2 mm high.
pub(super) const SMALLEST: f64 = 2.8;
/// From a line of text to the next.
pub(super) const LINE: f64 = 3.7;

/// How long the head of an arrow is, and which share of that either half of its foot is wide.
const HEAD_LONG: f64 = 2.0;
const HEAD_HALF: f64 = 0.3;

/// How a stroke is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pen {
    /// The edge of a piece or of cloth.
    Edge,
    /// Dimension lines, leaders, selvedges, grain.
    Fine,
    /// A fold: long and short dashes.
    Fold,
    /// A mark to make on a piece, and what is worth keeping: dashes.
    Dashed,
}

/// What an area is filled with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fill {
    White,
    Black,
    /// The light hatch of waste.
    Waste,
    /// The hatch of an order, by its place among the orders.
    Order(usize),
}

/// What of a text is at its place; its height is centred there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// A line of text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Text {
    pub(super) at: Point,
    pub(super) text: String,
    pub(super) size: f64,
    pub(super) bold: bool,
    pub(super) anchor: Anchor,
    /// Reads from below upwards, and is centred whatever its anchor.
    pub(super) upright: bool,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Item {
    /// Closed lines, filled by the even-odd rule.
    Area {
        lines: Vec<Vec<Point>>,
        fill: Fill,
    },
    /// Connected straight strokes.
    Stroke {
        points: Vec<Point>,
        pen: Pen,
    },
    Text(Text),
}

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Frame {
    pub(super) fn around((x, y): Point, wide: f64, high: f64) -> Self {
        Self { left: x - wide / 2.0, top: y - high / 2.0, right: x + wide / 2.0, bottom: y + high / 2.0 }
    }

    pub(super) fn of(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        let mut points = points.into_iter();
        let (x, y) = points.next()?;
        let first = Self { left: x, top: y, right: x, bottom: y };
        Some(points.fold(first, |frame, (x, y)| Self {
            left: frame.left.min(x),
            top: frame.top.min(y),
            right: frame.right.max(x),
            bottom: frame.bottom.max(y),
        }))
    }

    pub(super) fn with(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    pub(super) fn grown(self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    pub(super) fn width(self) -> f64 {
        self.right - self.left
    }

    pub(super) fn height(self) -> f64 {
        self.bottom - self.top
    }

    pub(super) fn corners(self) -> [Point; 4] {
        [(self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)]
    }

    pub(super) fn overlaps(self, other: Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether any of a straight stroke is inside.
    pub(super) fn is_crossed(self, from: Point, to: Point) -> bool {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        let sides = [
            (-dx, from.0 - self.left),
            (dx, self.right - from.0),
            (-dy, from.1 - self.top),
            (dy, self.bottom - from.1),
        ];
        for (towards, room) in sides {
            if towards.abs() < 1e-12 {
                if room <= 0.0 {
                    return false;
                }
            } else if towards < 0.0 {
                enters = enters.max(room / towards);
            } else {
                leaves = leaves.min(room / towards);
            }
        }
        enters < leaves
    }
}

/// The share of its size that a character is wide, in a wide usual font (`DejaVu` Sans, from memory; rounded up).
fn share(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '\'' => 0.3,
        ' ' | '.' | ',' | ':' | ';' | 'I' | 'J' | '|' | '/' => 0.35,
        'f' | 't' | 'r' | '(' | ')' | '-' | '[' | ']' | '!' => 0.43,
        'a'..='l' | 'n'..='v' | 'x'..='z' | '0'..='9' | '–' | '?' | '"' | '“' | '”' | '’' => 0.65,
        'w' | '+' | '=' | '×' | '≈' | '~' | '<' | '>' => 0.85,
        'm' | 'M' | 'W' | '%' | '@' | '…' | '½' | '¼' | '¾' | '&' => 1.0,
        'A'..='Z' => 0.8,
        _ => 1.05,
    }
}

/// How wide a text is at most.
pub(super) fn text_width(text: &str, size: f64, bold: bool) -> f64 {
    text.chars().map(share).sum::<f64>() * size * if bold { 1.12 } else { 1.0 }
}

impl Text {
    pub(super) fn new(text: &str, at: Point, anchor: Anchor) -> Self {
        Self { at, text: text.to_owned(), size: SMALLEST, bold: false, anchor, upright: false }
    }

    pub(super) fn bold(self, size: f64) -> Self {
        Self { size, bold: true, ..self }
    }

    pub(super) fn upright(self) -> Self {
        Self { upright: true, anchor: Anchor::Middle, ..self }
    }

    /// The room it takes.
    pub(super) fn frame(&self) -> Frame {
        let wide = text_width(&self.text, self.size, self.bold);
        if self.upright {
            return Frame::around(self.at, self.size, wide);
        }
        let shift = match self.anchor {
            Anchor::Start => wide / 2.0,
            Anchor::Middle => 0.0,
            Anchor::End => -wide / 2.0,
        };
        Frame::around((self.at.0 + shift, self.at.1), wide, self.size)
    }
}

/// Items with one origin: a figure, or a whole page.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Sketch {
    pub(super) items: Vec<Item>,
}

impl Sketch {
    pub(super) fn area(&mut self, lines: Vec<Vec<Point>>, fill: Fill) {
        self.items.push(Item::Area { lines, fill });
    }

    pub(super) fn box_of(&mut self, frame: Frame, fill: Fill) {
        self.area(vec![frame.corners().to_vec()], fill);
    }

    pub(super) fn stroke(&mut self, points: Vec<Point>, pen: Pen) {
        self.items.push(Item::Stroke { points, pen });
    }

    /// The stroke all round a closed line.
    pub(super) fn closed(&mut self, points: &[Point], pen: Pen) {
        let points = points.iter().copied().chain(points.first().copied());
        self.stroke(points.collect(), pen);
    }

    pub(super) fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.stroke(vec![from, to], pen);
    }

    pub(super) fn text(&mut self, text: Text) {
        self.items.push(Item::Text(text));
    }

    /// A filled head of an arrow, with its tip here.
    pub(super) fn arrow_head(&mut self, tip: Point, direction: Point) {
        let length = direction.0.hypot(direction.1).max(1e-9);
        let (x, y) = (direction.0 / length * HEAD_LONG, direction.1 / length * HEAD_LONG);
        let (side_x, side_y) = (y * HEAD_HALF, x * HEAD_HALF);
        let foot = (tip.0 - x, tip.1 - y);
        let corners = vec![tip, (foot.0 - side_x, foot.1 + side_y), (foot.0 + side_x, foot.1 - side_y)];
        self.area(vec![corners], Fill::Black);
    }

    pub(super) fn add(&mut self, other: Self, (x, y): Point) {
        let moved = |points: Vec<Point>| points.into_iter().map(|point| (point.0 + x, point.1 + y)).collect();
        self.items.extend(other.items.into_iter().map(|item| match item {
            Item::Area { lines, fill } => Item::Area { lines: lines.into_iter().map(moved).collect(), fill },
            Item::Stroke { points, pen } => Item::Stroke { points: moved(points), pen },
            Item::Text(text) => Item::Text(Text { at: (text.at.0 + x, text.at.1 + y), ..text }),
        }));
    }

    pub(super) fn texts(&self) -> impl Iterator<Item = &Text> {
        self.items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None })
    }

    /// The straight parts of all strokes.
    pub(super) fn segments(&self) -> impl Iterator<Item = (Point, Point)> {
        let strokes = self.items.iter().filter_map(|item| match item {
            Item::Stroke { points, .. } => Some(points),
            _ => None,
        });
        strokes.flat_map(|points| points.iter().copied().zip(points.iter().copied().skip(1)))
    }

    /// The rectangle round everything.
    pub(super) fn bounds(&self) -> Frame {
        let frames = self.items.iter().filter_map(|item| match item {
            Item::Area { lines, .. } => Frame::of(lines.iter().flatten().copied()),
            Item::Stroke { points, .. } => Frame::of(points.iter().copied()),
            Item::Text(text) => Some(text.frame()),
        });
        frames.reduce(Frame::with).unwrap_or(Frame { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 })
    }

    /// Whether neither text nor stroke is within a gap of a frame.
    pub(super) fn is_free(&self, frame: Frame, gap: f64) -> bool {
        let frame = frame.grown(gap);
        !self.texts().any(|text| text.frame().overlaps(frame))
            && !self.segments().any(|(from, to)| frame.is_crossed(from, to))
    }

    /// Whether a straight stroke would run through no text.
    pub(super) fn is_clear(&self, from: Point, to: Point) -> bool {
        !self.texts().any(|text| text.frame().grown(GAP).is_crossed(from, to))
    }

    /// Adds the first of several places of a text that is free; returns whether one was.
    pub(super) fn place(&mut self, places: impl IntoIterator<Item = Text>) -> bool {
        let free = places.into_iter().find(|text| self.is_free(text.frame(), GAP));
        let is_placed = free.is_some();
        self.items.extend(free.map(Item::Text));
        is_placed
    }
}

/// Whether a place is at most at another: a millionth of a millimetre is none.
pub(super) fn at_most(place: f64, limit: f64) -> bool {
    place <= limit + 1e-6
}

/// The least distance from a text to anything else.
pub(super) const GAP: f64 = 0.4;

/// Whether a place is inside closed lines, by the even-odd rule.
pub(super) fn is_inside(lines: &[Vec<Point>], (x, y): Point) -> bool {
    let crossings =
        edges(lines).filter(|((ax, ay), (bx, by))| (*ay > y) != (*by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax));
    crossings.count() % 2 == 1
}

pub(super) fn edges(lines: &[Vec<Point>]) -> impl Iterator<Item = (Point, Point)> {
    lines.iter().flat_map(|line| line.iter().copied().zip(line.iter().copied().cycle().skip(1)))
}

/// Whether a frame is wholly inside closed lines, a gap away from them.
pub(super) fn holds(lines: &[Vec<Point>], frame: Frame, gap: f64) -> bool {
    let frame = frame.grown(gap);
    frame.corners().into_iter().all(|corner| is_inside(lines, corner))
        && !edges(lines).any(|(from, to)| frame.is_crossed(from, to))
}

/// The places for a frame of this size inside closed lines, those near the middle first. Each is only worked out when
/// it is asked for.
pub(super) fn places_inside(lines: &[Vec<Point>], wide: f64, high: f64) -> impl Iterator<Item = Point> {
    let all = Frame::of(lines.iter().flatten().copied());
    let room = all.filter(|all| all.width() > wide && all.height() > high);
    room.into_iter().flat_map(move |all| {
        let (mx, my) = (f64::midpoint(all.left, all.right), f64::midpoint(all.top, all.bottom));
        let mut grid: Vec<Point> = (-TRIED..=TRIED)
            .flat_map(|down| (-TRIED..=TRIED).map(move |over| (over, down)))
            .map(|(over, down)| (share_of(over) * all.width(), share_of(down) * all.height()))
            .collect();
        grid.sort_by(|left, right| left.0.hypot(left.1).total_cmp(&right.0.hypot(right.1)));
        let places = grid.into_iter().map(move |(x, y)| (mx + x, my + y));
        places.filter(move |place| holds(lines, Frame::around(*place, wide, high), GAP * 1.5))
    })
}

/// Places that are tried from the middle to either side.
const TRIED: i64 = 12;

/// The share of a whole side that some of these places are from its middle.
fn share_of(places: i64) -> f64 {
    number::from_whole(places) / number::from_whole(2 * TRIED)
}

/// Whether a frame of this size has any place inside closed lines.
pub(super) fn has_room(lines: &[Vec<Point>], wide: f64, high: f64) -> bool {
    places_inside(lines, wide, high).next().is_some()
}

/// Moves places apart along a line, so that neighbours are at least `apart` from each other and none is before `from`.
/// The order is kept.
pub(super) fn spread(wanted: &[f64], apart: f64, from: f64) -> Vec<f64> {
    // Runs of places that touch move together, each run round the middle of what its places want.
    let mut runs: Vec<(f64, usize)> = Vec::new();
    for place in wanted {
        runs.push((place.max(from), 1));
        while let [.., (before, many), (last, more)] = runs.as_slice() {
            let reach = before + number::from_count(*many) * apart;
            if *last >= reach - 1e-9 {
                break;
            }
            let (weight, count) = (number::from_count(*many), number::from_count(*more));
            let start = ((before * weight + (last - weight * apart) * count) / (weight + count)).max(from);
            let joined = (start, many + more);
            runs.truncate(runs.len() - 2);
            runs.push(joined);
        }
    }
    runs.into_iter()
        .flat_map(|(start, many)| (0..many).map(move |place| start + number::from_count(place) * apart))
        .collect()
}

/// Breaks a text into lines of at most a width; a word that is wider goes on in the next line.
pub(super) fn wrapped(text: &str, size: f64, bold: bool, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for part in text.split_whitespace().flat_map(|word| broken(word, size, bold, width)) {
        match lines.last_mut() {
            Some(line) if part.begins && text_width(&format!("{line} {}", part.text), size, bold) <= width => {
                line.push(' ');
                line.push_str(&part.text);
            }
            _ => lines.push(part.text),
        }
    }
    lines
}

/// A word, or as much of one as goes into a line.
struct WordPart {
    text: String,
    /// Whether it is the beginning of its word.
    begins: bool,
}

/// A word in parts that are each no wider than a width; a single character is never broken.
fn broken(word: &str, size: f64, bold: bool, width: f64) -> Vec<WordPart> {
    let mut parts: Vec<WordPart> = Vec::new();
    for c in word.chars() {
        match parts.last_mut() {
            Some(part) if text_width(&format!("{}{c}", part.text), size, bold) <= width => part.text.push(c),
            last => {
                let begins = last.is_none();
                parts.push(WordPart { text: c.to_string(), begins });
            }
        }
    }
    parts
}

/// The first lines of a wrapped text, the last of them with `…` if there are more.
pub(super) fn first_lines(mut lines: Vec<String>, most: usize) -> Vec<String> {
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            last.push_str(" …");
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stroke_crosses_a_frame_or_passes_it() {
        let frame = Frame { left: 0.0, top: 0.0, right: 10.0, bottom: 4.0 };
        assert!(frame.is_crossed((-5.0, 2.0), (15.0, 2.0)));
        assert!(frame.is_crossed((2.0, 1.0), (3.0, 2.0)), "wholly inside");
        assert!(frame.is_crossed((-1.0, 3.0), (3.0, -1.0)), "over a corner");
        assert!(!frame.is_crossed((-3.0, 2.0), (2.0, -3.0)), "past a corner");
        assert!(!frame.is_crossed((0.0, 4.0), (10.0, 4.0)), "along an edge");
    }

    /// By pencil: 10 and 11 with 3 between them have 10 1/2 in their middle, so 9 and 12. 0, 0.5 and 1 would begin at
    /// −2.5, before the start, and so begin there.
    #[test]
    fn places_are_spread_round_where_they_want_to_be() {
        let near = |found: Vec<f64>, wanted: &[f64]| {
            assert_eq!(found.len(), wanted.len());
            assert!(found.iter().zip(wanted).all(|(found, wanted)| (found - wanted).abs() < 1e-9), "{found:?}");
        };
        near(spread(&[10.0, 20.0], 3.0, 0.0), &[10.0, 20.0]);
        near(spread(&[10.0, 11.0], 3.0, 0.0), &[9.0, 12.0]);
        near(spread(&[0.0, 0.5, 1.0], 3.0, 0.0), &[0.0, 3.0, 6.0]);
    }

    #[test]
    fn a_ring_holds_a_frame_in_its_cloth_and_not_in_its_hole() {
        let square = |half: f64| vec![(-half, -half), (half, -half), (half, half), (-half, half)];
        let ring = [square(10.0), square(4.0)];
        assert!(!holds(&ring, Frame::around((0.0, 0.0), 2.0, 2.0), 0.0));
        assert!(holds(&ring, Frame::around((7.0, 0.0), 2.0, 2.0), 0.0));
        assert!(places_inside(&ring, 3.0, 3.0).all(|(x, y)| x.abs().max(y.abs()) > 5.0));
    }

    /// By pencil: a small letter of size 10 is 6.5 wide, so that 20 hold three of them and no fourth.
    #[test]
    fn a_word_wider_than_its_line_goes_on_in_the_next() {
        assert_eq!(wrapped("abcdefgh on", 10.0, false, 20.0), ["abc", "def", "gh", "on"]);
        assert_eq!(wrapped("ab c", 10.0, false, 30.0), ["ab c"]);
        let text = "x".repeat(1000);
        assert_eq!(wrapped(&text, 2.8, true, 90.0).concat(), text);
    }
}
