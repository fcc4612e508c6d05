//! The pieces of an order drawn to one scale, as an SVG picture to print or pin up.
//!
//! White pieces with black edges, the grain as an arrow, a fold as a dashed middle line; name, count and sizes are
//! below each. Nothing is shown by colour alone.
//!
//! Never here: where a piece lies on its cloth; rounding sizes.

use super::plain_text;
use crate::piece::{Fold, Grain, OutlinePoint};
use crate::quantity::{Length, Style, Tape, number};
use std::f64::consts::PI;
use std::io::{self, Write};
use svg::Document;
use svg::node::element::path::Data;
use svg::node::element::{Group, Path, Text};

/// A piece to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct DrawnPiece {
    pub name: String,
    /// Lines below it: count, sizes, how it lies.
    pub notes: Vec<String>,
    /// Its edge.
    pub shape: DrawnShape,
    /// How it lies on the cloth, which gives the thread direction in the piece's own frame.
    pub grain: Grain,
    /// The middle line that is on a fold: along the piece, or across it.
    pub fold: Option<Fold>,
}

/// The edge of a piece in its own frame.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum DrawnShape {
    /// Corners in order; it closes by itself.
    Corners(Vec<OutlinePoint>),
    /// A length of the goods over their full width, with selvedges at both sides.
    FullWidth {
        /// Along the goods.
        along: Length,
        /// Their width.
        width: Length,
    },
    /// A ring or a part of one.
    Sector {
        /// Inner radius.
        inner: Length,
        /// Outer radius.
        outer: Length,
        /// Share of a whole turn, at most 1.
        turn: f64,
    },
}

/// The largest side of the largest piece, in picture units.
const LARGEST: f64 = 300.0;
/// The most that a row of pieces takes, in picture units.
const WIDE: f64 = 900.0;
const GAP: f64 = 24.0;
const LINE: f64 = 16.0;
/// Width of a character of the notes, generously.
const CHARACTER: f64 = 7.0;
/// Straight steps that draw an arc of a whole turn.
const STEPS: f64 = 96.0;

pub(super) const EDGE: &str = "#000000";
pub(super) const FINE: &str = "#555555";

/// A point to the right and down, in picture units.
pub(super) type Point = (f64, f64);

/// A piece as drawn: its closed lines from its upper left corner, and their extent.
struct Figure<'p> {
    piece: &'p DrawnPiece,
    lines: Vec<Vec<Point>>,
    width: f64,
    height: f64,
    /// Picture units for a base step.
    scale: f64,
}

/// Draws the pieces to one scale, in their order, row by row.
pub(crate) fn write_picture(title: &str, pieces: &[DrawnPiece], style: &Style, mut out: impl Write) -> io::Result<()> {
    let largest = pieces.iter().map(|piece| reach(&piece.shape)).fold(0.0, f64::max);
    // A picture without pieces still has its title.
    let scale = if largest > 0.0 { LARGEST / largest } else { 1.0 };
    let figures: Vec<Figure<'_>> = pieces.iter().map(|piece| figure(piece, scale)).collect();

    let mut drawn = Group::new().set("font-family", "sans-serif").set("font-size", 12).set("fill", EDGE);
    drawn = drawn.add(words(&plain_text::one_line(title), GAP, GAP + 4.0).set("font-weight", "bold"));
    let (mut x, mut y, mut row) = (GAP, GAP * 2.0, 0.0_f64);
    let mut right = WIDE / 2.0;
    for figure in &figures {
        let notes = std::iter::once(&figure.piece.name).chain(&figure.piece.notes);
        let notes: Vec<String> = notes.map(|note| plain_text::one_line(note)).collect();
        let widest = notes.iter().map(|note| number::from_count(note.chars().count()) * CHARACTER).fold(0.0, f64::max);
        let (wide, high) = (figure.width.max(widest), figure.height + LINE * (number::from_count(notes.len()) + 0.5));
        if x > GAP && x + wide > WIDE - GAP {
            (x, y, row) = (GAP, y + row + GAP, 0.0);
        }
        drawn = drawn.add(drawing(figure).set("transform", format!("translate({} {})", short(x), short(y))));
        for (line, note) in notes.iter().enumerate() {
            let below = y + figure.height + LINE * (number::from_count(line) + 1.0);
            let text = words(note, x, below);
            drawn = drawn.add(if line == 0 { text.set("font-weight", "bold") } else { text });
        }
        (x, row) = (x + wide + GAP, row.max(high));
        right = right.max(x);
    }
    let foot = y + row + GAP;
    drawn = drawn.add(ruler(style, scale, foot));
    let (wide, high) = (short(right), short(foot + GAP * 1.5));
    let paper = Path::new().set("fill", "#ffffff").set(
        "d",
        Data::new().move_to((0, 0)).horizontal_line_to(wide).vertical_line_to(high).horizontal_line_to(0).close(),
    );
    let picture = Document::new().set("viewBox", (0, 0, wide, high)).set("width", wide).set("height", high);
    svg::write(&mut out, &picture.add(paper).add(drawn))?;
    writeln!(out)
}

/// The largest extent of a shape, in base steps.
fn reach(shape: &DrawnShape) -> f64 {
    lines(shape, 1.0).iter().flatten().map(|(x, y)| x.max(*y)).fold(0.0, f64::max)
}

fn figure(piece: &DrawnPiece, scale: f64) -> Figure<'_> {
    let lines = lines(&piece.shape, scale);
    let most = |of: fn(&Point) -> f64| lines.iter().flatten().map(of).fold(0.0, f64::max);
    let (width, height) = (most(|point| point.0), most(|point| point.1));
    Figure { piece, lines, width, height, scale }
}

/// The closed lines of a shape, moved to begin at the upper left corner.
fn lines(shape: &DrawnShape, scale: f64) -> Vec<Vec<Point>> {
    let drawn: Vec<Vec<Point>> = match shape {
        DrawnShape::Corners(corners) => {
            vec![corners.iter().map(|corner| (corner.across.steps() * scale, -corner.along.steps() * scale)).collect()]
        }
        DrawnShape::FullWidth { along, width } => {
            let (along, width) = (along.steps() * scale, width.steps() * scale);
            vec![vec![(0.0, 0.0), (width, 0.0), (width, along), (0.0, along)]]
        }
        DrawnShape::Sector { inner, outer, turn } if *turn >= 1.0 => {
            let circles = [outer, inner].into_iter().filter(|radius| radius.is_positive());
            circles.map(|radius| arc(radius.steps() * scale, 1.0)).collect()
        }
        DrawnShape::Sector { inner, outer, turn } => {
            // From the hem back along the waist; a sector without a waist comes to a point.
            let waist = arc(inner.steps() * scale, *turn);
            vec![arc(outer.steps() * scale, *turn).into_iter().chain(waist.into_iter().rev()).collect()]
        }
    };
    let least = |of: fn(&Point) -> f64| drawn.iter().flatten().map(of).fold(f64::INFINITY, f64::min);
    let (left, top) = (least(|point| point.0), least(|point| point.1));
    drawn.into_iter().map(|line| line.into_iter().map(|(x, y)| (x - left, y - top)).collect()).collect()
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

fn drawing(figure: &Figure<'_>) -> Group {
    let edge =
        |data: Data| Path::new().set("d", data).set("fill", "#ffffff").set("fill-rule", "evenodd").set("stroke", EDGE);
    let closed = figure.lines.iter().fold(Data::new(), |data, line| {
        let mut points = line.iter().map(|(x, y)| (short(*x), short(*y)));
        let Some(first) = points.next() else { return data };
        points.fold(data.move_to(first), Data::line_to).close()
    });
    let mut group = Group::new().add(edge(closed).set("stroke-width", 1.5));
    if matches!(figure.piece.shape, DrawnShape::FullWidth { .. }) {
        // A second line inside both sides is the selvedge.
        for x in [3.0, figure.width - 3.0] {
            group = group.add(line((x, 0.0), (x, figure.height)).set("stroke", FINE).set("stroke-width", 0.75));
        }
    }
    let middle = (figure.width / 2.0, figure.height / 2.0);
    match figure.piece.fold {
        Some(Fold::Across) => group = group.add(dashed((0.0, middle.1), (figure.width, middle.1))),
        Some(Fold::Along) => group = group.add(dashed((middle.0, 0.0), (middle.0, figure.height))),
        None => {}
    }
    // Beside the middle, so that it is not on a fold; in a ring, in the cloth below the waist.
    let (at, reach) = match figure.piece.shape {
        DrawnShape::Sector { inner, outer, .. } => {
            let depth = (outer - inner).steps() * figure.scale;
            ((middle.0, figure.height - depth / 2.0), depth)
        }
        _ => ((figure.width * 0.3, middle.1), figure.width.min(figure.height)),
    };
    let half = (reach * 0.175).clamp(0.0, 40.0);
    let Some((x, y)) = threads(&figure.piece.shape, figure.piece.grain) else { return group };
    arrow(at, (x * half, y * half)).into_iter().fold(group, Group::add)
}

/// The direction of the threads in the picture, a vector of length 1; `None` if the grain may run either way. A
/// sector's frame lies along its first straight edge, which is drawn as far to the left of the vertical as the second
/// to its right.
fn threads(shape: &DrawnShape, grain: Grain) -> Option<Point> {
    let tilt = match shape {
        DrawnShape::Sector { turn, .. } if *turn < 1.0 => turn * PI,
        _ => 0.0,
    };
    let from_upright = tilt
        + match grain {
            Grain::Along => 0.0,
            Grain::Across => PI / 2.0,
            Grain::Bias => PI * 0.75,
            Grain::Any => return None,
        };
    Some((-from_upright.sin(), from_upright.cos()))
}

/// An arrow with a head at both ends.
pub(super) fn arrow(at: Point, direction: Point) -> [Path; 3] {
    let (from, to) = ((at.0 - direction.0, at.1 - direction.1), (at.0 + direction.0, at.1 + direction.1));
    let head = |tip: Point, (x, y): Point| {
        let length = x.hypot(y).max(1e-9);
        let (x, y) = (x / length * 5.0, y / length * 5.0);
        let data = Data::new()
            .move_to((short(tip.0), short(tip.1)))
            .line_to((short(tip.0 - x - y * 0.5), short(tip.1 - y + x * 0.5)))
            .line_to((short(tip.0 - x + y * 0.5), short(tip.1 - y - x * 0.5)))
            .close();
        Path::new().set("d", data).set("fill", FINE)
    };
    [line(from, to).set("stroke", FINE), head(to, direction), head(from, (-direction.0, -direction.1))]
}

pub(super) fn line(from: Point, to: Point) -> Path {
    let data = Data::new().move_to((short(from.0), short(from.1))).line_to((short(to.0), short(to.1)));
    Path::new().set("d", data).set("fill", "none")
}

pub(super) fn dashed(from: Point, to: Point) -> Path {
    line(from, to).set("stroke", FINE).set("stroke-dasharray", "8 3 2 3")
}

pub(super) fn words(text: &str, x: f64, y: f64) -> Text {
    Text::new(text).set("x", short(x)).set("y", short(y))
}

/// A measured line that shows the scale.
pub(super) fn ruler(style: &Style, scale: f64, y: f64) -> Group {
    let (step, unit): (Length, fn(f64) -> String) = match style.tape {
        Tape::Inch => (Length::inches(1.0), |value| format!("{value} in")),
        Tape::Metric => (Length::centimetres(1.0), |value| format!("{value} cm")),
    };
    let fits =
        [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0].into_iter().rfind(|count| step.steps() * scale * count <= 120.0);
    let Some(count) = fits else { return Group::new() };
    let long = step.steps() * scale * count;
    let ends = [GAP, GAP + long].map(|x| line((x, y - 4.0), (x, y + 4.0)).set("stroke", EDGE));
    let group = Group::new().add(line((GAP, y), (GAP + long, y)).set("stroke", EDGE));
    ends.into_iter().fold(group, Group::add).add(words(&unit(count), GAP + long + 8.0, y + 4.0))
}

/// Rounds to two decimals, finer than any printer.
pub(super) fn short(value: f64) -> f64 {
    let short = (value * 100.0).round() / 100.0;
    // Avoids a negative zero.
    if short == 0.0 { 0.0 } else { short }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    fn piece(name: &str, shape: DrawnShape) -> DrawnPiece {
        DrawnPiece {
            name: name.to_owned(),
            notes: vec!["2 of them".to_owned()],
            shape,
            grain: Grain::Along,
            fold: None,
        }
    }

    fn picture(pieces: &[DrawnPiece]) -> String {
        let mut bytes = Vec::new();
        write_picture("a skirt", pieces, &Style::default(), &mut bytes).unwrap();
        String::from_utf8(bytes).unwrap()
    }

    fn rectangle(across: f64, along: f64) -> DrawnShape {
        let corners = [(0.0, 0.0), (across, 0.0), (across, along), (0.0, along)];
        DrawnShape::Corners(corners.map(|(x, y)| OutlinePoint { across: inches(x), along: inches(y) }).to_vec())
    }

    #[test]
    fn pieces_are_drawn_to_one_scale() {
        let drawn = [piece("panel", rectangle(20.0, 30.0)), piece("band", rectangle(24.0, 6.0))];
        let figures: Vec<Figure<'_>> =
            drawn.iter().map(|piece| figure(piece, LARGEST / inches(30.0).steps())).collect();
        let sizes: Vec<(f64, f64)> = figures.iter().map(|figure| (short(figure.width), short(figure.height))).collect();
        assert_eq!(sizes, [(200.0, 300.0), (240.0, 60.0)]);
    }

    #[test]
    fn a_ring_reaches_as_far_as_its_hem_and_a_quarter_as_its_chord() {
        let sector = |turn| DrawnShape::Sector { inner: inches(3.0), outer: inches(20.0), turn };
        let size = |turn| {
            let drawn = piece("skirt", sector(turn));
            let figure = figure(&drawn, 1.0 / inches(1.0).steps());
            (figure.width, figure.height)
        };
        let near = |found: (f64, f64), wanted: (f64, f64)| {
            assert!(
                (found.0 - wanted.0).abs() < 0.05 && (found.1 - wanted.1).abs() < 0.05,
                "{found:?}, not {wanted:?}"
            );
        };
        near(size(1.0), (40.0, 40.0));
        near(size(0.5), (40.0, 20.0));
        // Two radii at right angles: the chord, and from the middle of the hem up to the ends of the waist.
        near(size(0.25), (20.0 * 2.0_f64.sqrt(), 20.0 - 3.0 * 0.5_f64.sqrt()));
    }

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
        let panel = rectangle(20.0, 30.0);
        assert!(near(threads(&panel, Grain::Along).unwrap(), (0.0, 1.0)));
        assert!(near(threads(&panel, Grain::Across).unwrap(), (-1.0, 0.0)));
        assert!(near(threads(&panel, Grain::Bias).unwrap(), (-slant, -slant)));
    }

    #[test]
    fn texts_cannot_leave_their_place() {
        let mut odd = piece("<script>\u{1b}[31m & \"x\"", rectangle(1.0, 1.0));
        odd.notes = vec!["</text><image href='http://x'/>".to_owned()];
        let drawn = picture(&[odd]);
        assert!(!drawn.contains("<script>") && !drawn.contains("<image") && !drawn.contains('\u{1b}'), "{drawn}");
        assert!(drawn.contains("&lt;script&gt;"), "{drawn}");
    }

    #[test]
    fn the_same_pieces_give_the_same_picture_and_nothing_gives_a_title() {
        let pieces = [
            piece("panel", rectangle(20.0, 30.0)),
            piece("strip", DrawnShape::FullWidth { along: inches(10.0), width: inches(6.0) }),
        ];
        assert_eq!(picture(&pieces), picture(&pieces));
        assert!(picture(&pieces).contains("10 in"), "a ruler");
        assert!(picture(&[]).contains("a skirt"));
    }
}
