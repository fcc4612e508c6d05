//! The text in a piece of a drawn lay: its name and size as large as they fit, otherwise a number that a legend
//! explains.
//!
//! Never here: where the piece lies.

use super::drawn_lay::{DrawnCut, DrawnLayers, DrawnLength};
use super::picture::{Point, short, words};
use super::plain_text;
use crate::quantity::number;
use std::collections::BTreeMap;
use svg::node::element::Text;

/// The largest letters needed to read over a table.
const LARGEST: f64 = 12.0;
/// The smallest letters that can be read.
const SMALLEST: f64 = 6.0;
/// Width of a character relative to the size of the letters.
pub(super) const CHARACTER: f64 = 0.56;
const LINE: f64 = 1.15;

/// The orders of all pieces, and the numbers of the pieces whose names do not fit.
pub(super) struct Labels {
    orders: Vec<String>,
    numbers: BTreeMap<String, usize>,
}

impl Labels {
    pub(super) fn of(lengths: &[DrawnLength]) -> Self {
        let cuts = || lengths.iter().flat_map(|length| &length.cuts);
        let mut orders: Vec<String> = Vec::new();
        for cut in cuts() {
            if let Some(order) = &cut.order
                && !orders.contains(order)
            {
                orders.push(order.clone());
            }
        }
        // A single order needs no hatch to be distinguished.
        let plain = cuts().any(|cut| cut.order.is_none());
        if orders.len() == 1 && !plain {
            orders.clear();
        }
        Self { orders, numbers: BTreeMap::new() }
    }

    /// The orders that are hatched, in order of appearance.
    pub(super) fn orders(&self) -> &[String] {
        &self.orders
    }

    pub(super) fn order_of(&self, cut: &DrawnCut) -> Option<usize> {
        let order = cut.order.as_ref()?;
        self.orders.iter().position(|known| known == order)
    }

    /// The number in place of a piece's name.
    pub(super) fn number(&mut self, cut: &DrawnCut) -> String {
        let next = self.numbers.len() + 1;
        self.numbers.entry(whole_name(cut)).or_insert(next).to_string()
    }

    /// The numbered pieces, each with its number.
    pub(super) fn numbered(&self) -> Vec<String> {
        let mut used: Vec<(usize, &String)> = self.numbers.iter().map(|(name, number)| (*number, name)).collect();
        used.sort();
        used.into_iter().map(|(number, name)| format!("{number}  {name}")).collect()
    }
}

fn name(cut: &DrawnCut) -> String {
    let order = cut.order.as_ref().map(|order| format!(" [{order}]")).unwrap_or_default();
    let layers = match cut.layers {
        DrawnLayers::One => "",
        DrawnLayers::Both => ", double",
        DrawnLayers::Fold => ", on the fold",
    };
    plain_text::one_line(&format!("{}{order}{layers}", cut.name))
}

pub(super) fn whole_name(cut: &DrawnCut) -> String {
    format!("{}, {}", name(cut), cut.size)
}

/// The lines in a piece, their size, and whether they run along the piece or across it.
pub(super) struct Label {
    lines: Vec<String>,
    size: f64,
    across: bool,
}

/// The most that fits: name and size along the piece or across it, in two lines or one; a number; nothing.
pub(super) fn fitted(cut: &DrawnCut, labels: &mut Labels, room: (f64, f64)) -> Label {
    let whole = vec![name(cut), cut.size.clone()];
    let crossed = (room.1, room.0);
    for (lines, across, least) in
        [(&whole, false, 7.0), (&whole, true, 7.0), (&whole, false, SMALLEST), (&whole, true, SMALLEST)]
    {
        let size = size(lines, if across { crossed } else { room });
        if size >= least {
            return Label { lines: lines.clone(), size, across };
        }
    }
    let flat = vec![whole_name(cut)];
    for across in [false, true] {
        let size = size(&flat, if across { crossed } else { room });
        if size >= SMALLEST {
            return Label { lines: flat, size, across };
        }
    }
    let number = vec![labels.number(cut)];
    let fits = size(&number, room).min(9.0);
    Label { lines: if fits >= 4.0 { number } else { Vec::new() }, size: fits, across: false }
}

/// The largest size of lines that fit in a room, given as half of it to each side.
fn size(lines: &[String], (long, high): (f64, f64)) -> f64 {
    let longest = lines.iter().map(|line| line.chars().count()).max().unwrap_or(0).max(1);
    let by_length = 2.0 * long * 0.94 / (number::from_count(longest) * CHARACTER);
    let by_height = 2.0 * high * 0.9 / (number::from_count(lines.len()) * LINE);
    by_length.min(by_height).min(LARGEST)
}

impl Label {
    /// The texts around a point, at an angle, with a white rim so that no hatch runs through them.
    pub(super) fn texts(&self, (x, y): Point, turn: f64) -> Vec<Text> {
        let turn = match (self.across, turn.abs() < 1.0) {
            (false, _) => turn,
            (true, true) => -90.0,
            (true, false) => turn + 90.0,
        };
        let count = number::from_count(self.lines.len());
        let lines = self.lines.iter().enumerate();
        lines
            .map(|(place, text)| {
                let below = (number::from_count(place) - (count - 1.0) / 2.0) * self.size * LINE + self.size * 0.36;
                words(text, x, y + below)
                    .set("text-anchor", "middle")
                    .set("font-size", short(self.size))
                    .set("stroke", "#ffffff")
                    .set("stroke-width", 2.5)
                    .set("paint-order", "stroke")
                    .set("transform", format!("rotate({} {} {})", short(turn), short(x), short(y)))
            })
            .collect()
    }

    /// The middle and half the length of an arrow with the grain of the cloth, down the picture, if one has room
    /// beside the lines.
    pub(super) fn grain(&self, (x, y): Point, along: (f64, f64), room: (f64, f64)) -> Option<(Point, f64)> {
        if self.lines.is_empty() {
            return None;
        }
        let upright = along.0.abs() > 0.9;
        let lying = along.1.abs() > 0.9;
        if !upright && !lying {
            return None;
        }
        // Half the room down the picture, and half the room to the side.
        let (down, side) = if upright { room } else { (room.1, room.0) };
        let longest = number::from_count(self.lines.iter().map(|line| line.chars().count()).max().unwrap_or(0));
        let high = number::from_count(self.lines.len()) * self.size * LINE / 2.0;
        let long = longest * self.size * CHARACTER / 2.0;
        let beside = if upright == self.across { long } else { high };
        let half = (down * 0.8).min(26.0);
        (side > beside + 14.0 && half >= 7.0).then_some(((x - beside - 8.0, y), half))
    }
}
