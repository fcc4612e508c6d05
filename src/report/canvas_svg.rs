//! Writes pages of a canvas as SVG, each an A4 page of its own file.
//!
//! The writer of the svg crate escapes every text. Never here: where anything lies.

use super::canvas::{Anchor, Fill, Item, PAGE, Pen, Point, Sketch, Text};
use super::plain_text;
use crate::quantity::number;
use std::collections::BTreeSet;
use std::io::{self, Write};
use svg::Document;
use svg::node::element::path::Data;
use svg::node::element::{Definitions, Group, Path, Pattern};

const INK: &str = "#000000";
const GREY: &str = "#555555";

/// Writes one page.
pub(super) fn write_page(page: &Sketch, mut out: impl Write) -> io::Result<()> {
    let (wide, high) = PAGE;
    let mut paper = Sketch::default();
    let corners = vec![(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)];
    paper.area(vec![corners], Fill::White);
    let mut group = Group::new().set("font-family", "sans-serif").set("fill", INK);
    for item in paper.items.iter().chain(&page.items) {
        group = match item {
            Item::Area { lines, fill } => group.add(
                Path::new()
                    .set("d", lines.iter().fold(Data::new(), |data, line| drawn(data, line).close()))
                    .set("fill", colour(*fill))
                    .set("fill-rule", "evenodd"),
            ),
            Item::Stroke { points, pen } => {
                let (width, stroke, dashes) = match pen {
                    Pen::Edge => (0.35, INK, None),
                    Pen::Fine => (0.18, GREY, None),
                    Pen::Fold => (0.3, INK, Some("4 1 1 1")),
                    Pen::Dashed => (0.22, INK, Some("1.6 0.9")),
                };
                let path = Path::new()
                    .set("d", drawn(Data::new(), points))
                    .set("fill", "none")
                    .set("stroke", stroke)
                    .set("stroke-width", width);
                group.add(match dashes {
                    Some(dashes) => path.set("stroke-dasharray", dashes),
                    None => path,
                })
            }
            Item::Text(text) => group.add(words(text)),
        };
    }
    let fills: BTreeSet<usize> = page.items.iter().filter_map(order_of).collect();
    let document = Document::new()
        .set("width", format!("{wide}mm"))
        .set("height", format!("{high}mm"))
        .set("viewBox", format!("0 0 {wide} {high}"))
        .add(patterns(&fills))
        .add(group);
    svg::write(&mut out, &document)?;
    writeln!(out)
}

fn order_of(item: &Item) -> Option<usize> {
    match item {
        Item::Area { fill: Fill::Order(place), .. } => Some(*place),
        _ => None,
    }
}

fn colour(fill: Fill) -> String {
    match fill {
        Fill::White => "#ffffff".to_owned(),
        Fill::Black => INK.to_owned(),
        Fill::Waste => "url(#waste)".to_owned(),
        Fill::Order(place) => format!("url(#order{place})"),
    }
}

fn drawn(data: Data, points: &[Point]) -> Data {
    let mut points = points.iter().map(|(x, y)| (short(*x), short(*y)));
    let Some(first) = points.next() else { return data };
    points.fold(data.move_to(first), Data::line_to)
}

fn words(text: &Text) -> svg::node::element::Text {
    let anchor = match text.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let (x, y) = text.at;
    // The base line lies so that both capitals and letters that hang below it are inside the frame.
    let base = y + text.size * 0.27;
    let words = svg::node::element::Text::new(plain_text::one_line(&text.text))
        .set("x", short(x))
        .set("y", short(base))
        .set("font-size", short(text.size))
        .set("text-anchor", anchor);
    let words = if text.bold { words.set("font-weight", "bold") } else { words };
    if text.upright { words.set("transform", format!("rotate(-90 {} {})", short(x), short(y))) } else { words }
}

/// Rounds to a hundredth of a millimetre, finer than any printer.
fn short(value: f64) -> f64 {
    let short = (value * 100.0).round() / 100.0;
    // Avoids a negative zero.
    if short == 0.0 { 0.0 } else { short }
}

/// Hatches: a light one for waste, and one for each order that differs from all others by direction, spacing or kind.
fn patterns(orders: &BTreeSet<usize>) -> Definitions {
    let stroke = |data: Data, width: f64| {
        Path::new().set("d", data).set("fill", "none").set("stroke", "#8a8a8a").set("stroke-width", width)
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
    let mut definitions = Definitions::new().add(tile("waste", 1.2, 45.0).add(stroke(rule(1.2), 0.12)));
    for place in orders {
        let kind = place % 6;
        // After six, the kinds repeat at closer and closer spacing.
        let size = short(2.6 / (1.0 + number::from_count(place / 6) * 0.5));
        let name = format!("order{place}");
        let drawn = match kind {
            0 => tile(&name, size, 0.0).add(stroke(rule(size), 0.25)),
            1 => tile(&name, size, 90.0).add(stroke(rule(size), 0.25)),
            2 => tile(&name, size, -30.0).add(stroke(rule(size), 0.25)),
            3 => {
                let dot = Data::new().move_to((size / 2.0 - 0.2, size / 2.0)).line_to((size / 2.0 + 0.2, size / 2.0));
                tile(&name, size, 0.0).add(stroke(dot, 0.45))
            }
            4 => tile(&name, size, 0.0)
                .add(stroke(rule(size), 0.2))
                .add(stroke(Data::new().move_to((0, 0)).line_to((0, size)), 0.2)),
            _ => tile(&name, size, 30.0).add(stroke(rule(size), 0.25).set("stroke-dasharray", "1.2 0.9")),
        };
        definitions = definitions.add(drawn);
    }
    definitions
}
