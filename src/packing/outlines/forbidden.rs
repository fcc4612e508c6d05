//! The no-fit polygon of two outlines, where one may not lie beside the other: the union of the Minkowski sums of
//! their convex parts, exact on whole numbers.
#![allow(clippy::indexing_slicing, reason = "every index is one of its own list")]

use super::geometry::{self, Point};
use super::outline::Outline;
use crate::number;
use std::f64::consts::PI;

/// The offsets from one piece to another at which they overlap or come nearer than the gap: the insides of the parts.
///
/// Testing the interiors of the parts is enough: pieces that overlap do so in an area, and the cuts between parts
/// hide no area.
#[derive(Debug)]
pub(super) struct Forbidden {
    pub(super) parts: Vec<Part>,
    pub(super) low: Point,
    pub(super) high: Point,
}

/// A convex part.
#[derive(Debug)]
pub(super) struct Part {
    pub(super) corners: Vec<Point>,
    low: Point,
    high: Point,
}

impl Part {
    fn holds(&self, offset: Point) -> bool {
        is_within(offset, self.low, self.high) && geometry::is_inside(&self.corners, offset)
    }
}

/// Whether a point lies inside a rectangle, not on its border.
fn is_within(point: Point, low: Point, high: Point) -> bool {
    is_between(point.0, low.0, high.0) && is_between(point.1, low.1, high.1)
}

fn is_between(level: i64, low: i64, high: i64) -> bool {
    low < level && level < high
}

/// Gaps below this are kept as squares.
const COARSE: i64 = 1000;

/// Offsets at which `other` may not lie from `one`.
pub(super) fn forbidden(one: &Outline, other: &Outline, gap: i64) -> Forbidden {
    let around = (gap > 0).then(|| round(gap));
    let mut parts = Vec::new();
    for part in &other.parts {
        let opposite: Vec<Point> = part.iter().map(|&(along, across)| (-along, -across)).collect();
        for base in &one.parts {
            let mut corners = geometry::sum(base, &opposite);
            if let Some(around) = &around {
                corners = geometry::sum(&corners, around);
            }
            let (low, high) = geometry::around(&corners);
            parts.push(Part { corners, low, high });
        }
    }
    let corners: Vec<Point> = parts.iter().flat_map(|part| [part.low, part.high]).collect();
    let (low, high) = geometry::around(&corners);
    Forbidden { parts, low, high }
}

/// A polygon around a circle of radius `gap`: outside it the gap is kept. Sixteen sides, touching the circle along and
/// across; a square for a small gap.
fn round(gap: i64) -> Vec<Point> {
    if gap < COARSE {
        // Rounding to whole units would distort so small a circle.
        return vec![(-gap, -gap), (gap, -gap), (gap, gap), (-gap, gap)];
    }
    let radius = number::from_whole(gap);
    // The corners lie on the rays half way between the sides; rounding up never cuts into the circle.
    let up = |value: f64| number::nearest_whole((value * (1.0 + 1e-12)).ceil()).unwrap_or(gap);
    let far = radius / (PI / 16.0).cos();
    let (steep, flat) = (up(radius * (PI / 16.0).tan()), up(far * (PI * 3.0 / 16.0).cos()));
    let shallow = up(far * (PI * 3.0 / 16.0).sin());
    let eighth = [(gap, steep), (flat, shallow), (shallow, flat), (steep, gap)];
    let mut corners = Vec::new();
    for quarter in 0..4 {
        for (along, across) in eighth {
            corners.push(match quarter {
                0 => (along, across),
                1 => (-across, along),
                2 => (-along, -across),
                _ => (across, -along),
            });
        }
    }
    corners
}

impl Forbidden {
    /// Whether the offset is forbidden.
    pub(super) fn holds(&self, offset: Point) -> bool {
        is_within(offset, self.low, self.high) && self.parts.iter().any(|part| part.holds(offset))
    }

    /// The corners of all parts that lie in no part, part by part.
    pub(super) fn free_corners(&self) -> Vec<Point> {
        let mut free = Vec::new();
        // A corner often lies in the part that held the corner before.
        let mut holder = 0;
        for &corner in self.parts.iter().flat_map(|part| &part.corners) {
            if !self.parts[holder].holds(corner) {
                match self.parts.iter().position(|part| part.holds(corner)) {
                    Some(part) => holder = part,
                    None => free.push(corner),
                }
            }
        }
        free
    }

    /// Pushes the forbidden interval along of each part at this offset across; both ends are still allowed.
    pub(super) fn along(&self, across: i64, mut push: impl FnMut(i64, i64)) {
        if !is_between(across, self.low.1, self.high.1) {
            return;
        }
        for part in self.parts.iter().filter(|part| is_between(across, part.low.1, part.high.1)) {
            let (low, high) = spread(&part.corners, across, |corner| corner);
            push(low, high);
        }
    }

    /// Pushes the forbidden interval across of each part at this offset along.
    pub(super) fn across(&self, along: i64, mut push: impl FnMut(i64, i64)) {
        if !is_between(along, self.low.0, self.high.0) {
            return;
        }
        for part in self.parts.iter().filter(|part| is_between(along, part.low.0, part.high.0)) {
            let (low, high) = spread(&part.corners, along, |(along, across)| (across, along));
            push(low, high);
        }
    }
}

/// The whole numbers between which a line at `level` runs inside a convex polygon: both on its border or just
/// outside.
fn spread(corners: &[Point], level: i64, view: impl Fn(Point) -> Point) -> (i64, i64) {
    let (mut low, mut high) = (i64::MAX, i64::MIN);
    let mut from = view(corners[corners.len() - 1]);
    for &corner in corners {
        let to = view(corner);
        // A corner at the level belongs to the side that rises from it: inside, each chain of sides has one.
        if (from.1.min(to.1)..from.1.max(to.1)).contains(&level) {
            let (before, after) = met(from, to, level);
            low = low.min(before);
            high = high.max(after);
        }
        from = to;
    }
    (low, high)
}

/// The whole numbers before and after the point where a side meets a level.
fn met(from: Point, to: Point, level: i64) -> (i64, i64) {
    let (rise, run, part) = ((to.1 - from.1).abs(), to.0 - from.0, (level - from.1).abs());
    if let Some(product) = run.checked_mul(part) {
        let floor = product.div_euclid(rise);
        return (from.0 + floor, from.0 + floor + i64::from(product.rem_euclid(rise) != 0));
    }
    let (product, rise) = (i128::from(run) * i128::from(part), i128::from(rise));
    let floor = product.div_euclid(rise);
    let whole = i64::try_from(floor).unwrap_or(run);
    (from.0 + whole, from.0 + whole + i64::from(product.rem_euclid(rise) != 0))
}

#[cfg(test)]
mod tests;
