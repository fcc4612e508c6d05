//! A length that is cut straight across, drawn as a bar with its running marks.
//!
//! Never here: cloth on which pieces lie side by side.

use super::drawn_lay::{DrawnCut, DrawnLength};
use super::lay_labels::{CHARACTER, Labels, whole_name};
use super::lay_page::{PAGE_WIDE, order_fill};
use super::picture::{EDGE, FINE, line, short, words};
use super::plain_text;
use crate::quantity::{Length, Style, number};
use svg::node::element::path::Data;
use svg::node::element::{Group, Path, Rectangle};

/// Height of a bar with its heading and its marks.
pub(super) const HIGH: f64 = 92.0;
const TOP: f64 = 26.0;
const BAR: f64 = 34.0;
const SIZE: f64 = 9.0;
/// More marks do not fit on a page.
const MOST_MARKS: usize = 40;
/// Space between two marks.
const APART: f64 = 5.0;

/// Draws the bar at the scale at which the longest of all fills the page.
pub(super) fn bar(length: &DrawnLength, longest: f64, labels: &mut Labels, style: &Style) -> Group {
    let scale = (PAGE_WIDE - 8.0) / longest.max(1.0);
    let show = |length: Length| style.show(length.into());
    let multiplier = if length.times > 1 { format!(" × {}", length.times) } else { String::new() };
    let heading = plain_text::one_line(&format!("{}{multiplier}: {}", length.heading, show(length.length)));
    let mut group = Group::new().add(words(&heading, 0.0, 14.0).set("font-weight", "bold"));
    let block = |from: Length, to: Length| {
        Rectangle::new()
            .set("x", short(from.steps() * scale))
            .set("y", TOP)
            .set("width", short(((to - from).steps() * scale).max(0.1)))
            .set("height", BAR)
    };
    group = group.add(block(Length::ZERO, length.length).set("fill", "#ffffff"));
    group = group.add(block(Length::ZERO, length.length).set("fill", "url(#waste)").set("stroke", EDGE));
    for rest in length.rests.iter().filter(|rest| rest.kept) {
        group = group
            .add(block(rest.from, rest.to).set("fill", "#ffffff").set("stroke", FINE).set("stroke-dasharray", "5 3"));
        let wide = (rest.to - rest.from).steps() * scale;
        let label = format!("keep {}", rest.size);
        if wide > number::from_count(label.chars().count()) * SIZE * CHARACTER {
            let x = (rest.from.steps() * scale) + wide / 2.0;
            group =
                group.add(words(&label, x, TOP + BAR / 2.0 + 3.0).set("text-anchor", "middle").set("font-size", SIZE));
        }
    }
    for run in length.cuts.chunk_by(are_equal) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else { continue };
        group = group.add(block(first.from, last.to).set("fill", "#ffffff"));
        if let Some(place) = labels.order_of(first) {
            group = group.add(block(first.from, last.to).set("fill", order_fill(place)));
        }
        // Lines are thinner where cuts are close together, so that they do not become a bar of ink.
        let edge = ((first.to - first.from).steps() * scale / 3.0).clamp(0.15, 1.0);
        let ends = run.iter().flat_map(|cut| [cut.from, cut.to]);
        let lines = ends.fold(Data::new(), |data, mark| {
            data.move_to((short(mark.steps() * scale), TOP)).vertical_line_to(TOP + BAR + 4.0)
        });
        let edges = Path::new().set("d", lines).set("fill", "none").set("stroke", EDGE);
        group = group.add(edges.set("stroke-width", short(edge)));
    }
    group = names(length, scale, labels, group);
    // A second line inside both edges is the selvedge.
    for y in [TOP + 2.5, TOP + BAR - 2.5] {
        let right = length.length.steps() * scale;
        group = group.add(line((0.0, y), (right, y)).set("stroke", FINE).set("stroke-width", 0.6));
    }
    marks(length, scale, style, group)
}

/// Writes the name once for a run of equal pieces.
fn names(length: &DrawnLength, scale: f64, labels: &mut Labels, mut group: Group) -> Group {
    for run in length.cuts.chunk_by(are_equal) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else { continue };
        let wide = (last.to - first.from).steps() * scale;
        let times = if run.len() > 1 { format!("{} × ", run.len()) } else { String::new() };
        let whole = format!("{times}{}", whole_name(first));
        let fits = |text: &str| number::from_count(text.chars().count()) * SIZE * CHARACTER + 4.0 < wide;
        let text = if fits(&whole) { whole } else { format!("{times}{}", labels.number(first)) };
        if !fits(&text) {
            continue;
        }
        let x = first.from.steps() * scale + wide / 2.0;
        group = group.add(
            words(&text, x, TOP + BAR / 2.0 + 3.0)
                .set("text-anchor", "middle")
                .set("font-size", SIZE)
                .set("stroke", "#ffffff")
                .set("stroke-width", 3)
                .set("paint-order", "stroke"),
        );
    }
    group
}

/// Marks below the bar: first where the pieces change, then as many others as fit.
fn marks(length: &DrawnLength, scale: f64, style: &Style, mut group: Group) -> Group {
    let runs = || length.cuts.chunk_by(are_equal);
    let changes = runs().rev().filter_map(<[DrawnCut]>::last);
    let others = runs().flat_map(|run| run.split_last().map(|(_, before)| before).unwrap_or_default());
    let mut taken: Vec<(f64, f64)> = Vec::new();
    for cut in changes.chain(others) {
        let text = style.show(cut.to.into());
        let right = cut.to.steps() * scale + 2.0;
        let left = right - number::from_count(text.chars().count()) * SIZE * CHARACTER;
        // A mark has a least width, so no more than these fit below a bar.
        if taken.len() > MOST_MARKS {
            break;
        }
        if taken.iter().all(|(from, to)| right + APART <= *from || left >= *to + APART) {
            taken.push((left, right));
            group = group.add(words(&text, right, TOP + BAR + 14.0).set("text-anchor", "end").set("font-size", SIZE));
        }
    }
    group
}

fn are_equal(left: &DrawnCut, right: &DrawnCut) -> bool {
    whole_name(left) == whole_name(right)
}
