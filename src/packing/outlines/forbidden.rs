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

/// Whether a point lies inside a rectangle.
fn is_within(point: Point, low: Point, high: Point) -> bool {
    low.0 < point.0 && point.0 < high.0 && low.1 < point.1 && point.1 < high.1
}

/// Gaps below this are kept as squares.
const COARSE: i64 = 1000;

/// Offsets at which `other` may not lie from `one`.
pub(super) fn forbidden(one: &Outline, other: &Outline, gap: i64) -> Forbidden {
    let around = (gap > 0).then(|| round(gap));
    let mut parts = Vec::with_capacity(one.parts.len() * other.parts.len());
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
    let mut corners = Vec::with_capacity(16);
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
            if self.parts[holder].holds(corner) {
                continue;
            }
            match self.parts.iter().position(|part| part.holds(corner)) {
                Some(part) => holder = part,
                None => free.push(corner),
            }
        }
        free
    }

    /// Pushes the forbidden interval along of each part at this offset across; both ends are still allowed.
    pub(super) fn along(&self, across: i64, mut push: impl FnMut(i64, i64)) {
        if across <= self.low.1 || across >= self.high.1 {
            return;
        }
        for part in self.parts.iter().filter(|part| part.low.1 < across && across < part.high.1) {
            let (low, high) = spread(&part.corners, across, |corner| corner);
            push(low, high);
        }
    }

    /// Pushes the forbidden interval across of each part at this offset along.
    pub(super) fn across(&self, along: i64, mut push: impl FnMut(i64, i64)) {
        if along <= self.low.0 || along >= self.high.0 {
            return;
        }
        for part in self.parts.iter().filter(|part| part.low.0 < along && along < part.high.0) {
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
        if from.1 != to.1 && from.1.min(to.1) <= level && level <= from.1.max(to.1) {
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
mod tests {
    use super::super::outline::prepare;
    use super::*;
    use crate::problem::Polygon;
    use crate::solution::Turn;

    fn set(corners: &[Point]) -> super::super::outline::Prepared {
        let polygon = Polygon { half: true, ..Polygon::new(corners.to_vec(), 1) };
        prepare(&[polygon]).unwrap()
    }

    #[test]
    fn squares_may_touch_but_not_overlap() {
        let square = set(&[(0, 0), (4, 0), (4, 4), (0, 4)]);
        let forbidden = forbidden(&square.outlines[0], &square.outlines[0], 0);
        for along in -6..=6 {
            for across in -6..=6 {
                assert_eq!(forbidden.holds((along, across)), i64::abs(along) < 4 && i64::abs(across) < 4);
            }
        }
        let mut met = Vec::new();
        forbidden.along(3, |low, high| met.push((low, high)));
        assert_eq!(met, vec![(-4, 4)]);
        forbidden.along(4, |_, _| panic!("touching"));
    }

    #[test]
    fn the_gap_is_kept_and_no_more_along_and_across() {
        let square = set(&[(0, 0), (4000, 0), (4000, 4000), (0, 4000)]);
        let forbidden = forbidden(&square.outlines[0], &square.outlines[0], 1000);
        assert!(forbidden.holds((4999, 0)) && !forbidden.holds((5000, 0)));
        assert!(forbidden.holds((0, -4999)) && !forbidden.holds((0, -5000)));
        // Corner to corner: at most two hundredths more than the gap.
        assert!(forbidden.holds((4706, 4706)) && !forbidden.holds((4722, 4722)));
    }

    #[test]
    fn a_notch_holds_what_fits_into_it() {
        let notched = set(&[(0, 0), (30, 0), (30, 30), (20, 30), (20, 10), (10, 10), (10, 30), (0, 30)]);
        let upright = notched.items[0].plain.iter().find(|pose| pose.turn == Turn::None).unwrap().outline;
        let peg = set(&[(0, 0), (10, 0), (10, 20), (0, 20)]);
        let forbidden = forbidden(&notched.outlines[upright], &peg.outlines[0], 0);
        assert!(!forbidden.holds((10, 10)) && forbidden.holds((10, 9)) && forbidden.holds((11, 10)));
    }
}
