//! Pictures and texts whose whole layout is worked out by pencil, and what holds for every picture.

use super::canvas::{Anchor, Fill, Item, Pen, Point, Sketch};

mod canvas;
mod heads;
mod lay_limits;
mod lay_pages;
mod lays;
mod outlines;
mod pages;
mod piece_figures;
mod piece_limits;
mod piece_sides;
mod rolls;
mod rules;
mod screens;
mod screens_of_lays;
mod tables;
mod words;

/// What is drawn, an item a line, places to a thousandth of a millimetre: `edge (0 0) (50.8 0)` for a stroke with a
/// pen, `white (0 0) (4 0) (4 3)` for an area, `20 at (25.4 83.6) middle` for a text in the usual letters.
pub(super) fn told(sketch: &Sketch) -> Vec<String> {
    sketch.items.iter().map(told_item).collect()
}

fn told_item(item: &Item) -> String {
    match item {
        Item::Stroke { points, pen } => {
            let pen = match pen {
                Pen::Edge => "edge",
                Pen::Fine => "fine",
                Pen::Fold => "fold",
                Pen::Dashed => "dashed",
            };
            format!("{pen} {}", places(points))
        }
        Item::Area { lines, fill } => {
            let fill = match fill {
                Fill::White => "white".to_owned(),
                Fill::Black => "black".to_owned(),
                Fill::Waste => "waste".to_owned(),
                Fill::Order(place) => format!("order {place}"),
            };
            format!("{fill} {}", lines.iter().map(|line| places(line)).collect::<Vec<_>>().join(" and "))
        }
        Item::Text(text) => {
            let anchor = match text.anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            let size = if (text.size - 2.8).abs() > 1e-9 { format!(" {}", short(text.size)) } else { String::new() };
            let bold = if text.bold { " bold" } else { "" };
            let upright = if text.upright { " upright" } else { "" };
            format!("{} at {} {anchor}{size}{bold}{upright}", text.text, place(text.at))
        }
    }
}

fn places(points: &[Point]) -> String {
    points.iter().copied().map(place).collect::<Vec<_>>().join(" ")
}

fn place((x, y): Point) -> String {
    format!("({} {})", short(x), short(y))
}

/// To a thousandth, without a negative zero.
fn short(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0 + 0.0
}

#[track_caller]
fn assert_drawn(sketch: &Sketch, wanted: &[&str]) {
    let found = told(sketch);
    let differ = found.iter().zip(wanted).position(|(found, wanted)| found != wanted);
    let place = differ.unwrap_or(found.len().min(wanted.len()));
    assert!(
        differ.is_none() && found.len() == wanted.len(),
        "{} of {} items; the first that differs is {place}: {:?}, not {:?}\n{}",
        found.len(),
        wanted.len(),
        found.get(place),
        wanted.get(place),
        found.join("\n")
    );
}
