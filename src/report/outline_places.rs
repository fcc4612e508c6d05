//! Where heights and lines meet the outline of a piece.
//!
//! Never here: drawing, and what is said of these places.

use super::canvas::{Frame, Point, edges, is_inside};
use crate::piece::OutlinePoint;
use crate::quantity::Length;

/// Marks closer than this are one.
pub(super) fn least_mark() -> Length {
    Length::centimetres(0.005)
}

/// So many of several heights, as evenly as it goes, the first and the last among them.
pub(super) fn evenly(heights: &[Length], many: usize) -> Vec<Length> {
    let (last, steps) = (heights.len().saturating_sub(1), many.saturating_sub(1).max(1));
    (0..many).filter_map(|step| heights.get(step * last / steps).copied()).collect()
}

/// The least and most along and across.
pub(super) fn extents(corners: &[OutlinePoint]) -> ((Length, Length), (Length, Length)) {
    let ends = |pick: fn(&OutlinePoint) -> Length| {
        let mut places = corners.iter().map(pick);
        let first = places.next().unwrap_or(Length::ZERO);
        places.fold((first, first), |(least, most), place| (least.least(place), most.most(place)))
    };
    (ends(|corner| corner.along), ends(|corner| corner.across))
}

/// Where an outline crosses a height, as distances from its left, in order.
pub(super) fn crossings(corners: &[OutlinePoint], height: Length, left: Length) -> Vec<Length> {
    let mut found: Vec<Length> = Vec::new();
    let near = least_mark();
    let is_at = |length: Length| (length.steps() - height.steps()).abs() < near.steps();
    for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        if is_at(from.along) {
            found.push(from.across - left);
        } else if !is_at(to.along) && (from.along < height) != (to.along < height) {
            let share = (height - from.along).steps() / (to.along - from.along).steps();
            found.push(from.across + (to.across - from.across) * share - left);
        }
    }
    found.sort_by(|left, right| left.steps().total_cmp(&right.steps()));
    found.dedup_by(|next, before| *next - *before < near);
    found
}

/// The parts of a straight line that are inside closed lines.
pub(super) fn inside(lines: &[Vec<Point>], from: Point, to: Point) -> Vec<(Point, Point)> {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let mut shares = vec![0.0, 1.0];
    for (a, b) in edges(lines) {
        let edge = (b.0 - a.0, b.1 - a.1);
        let cross = dx * edge.1 - dy * edge.0;
        if cross.abs() < 1e-12 {
            continue;
        }
        let (x, y) = (a.0 - from.0, a.1 - from.1);
        let (share, on_edge) = ((x * edge.1 - y * edge.0) / cross, (x * dy - y * dx) / cross);
        if (0.0..=1.0).contains(&on_edge) && share > 0.0 && share < 1.0 {
            shares.push(share);
        }
    }
    shares.sort_by(f64::total_cmp);
    let at = |share: f64| (from.0 + dx * share, from.1 + dy * share);
    let runs = shares.iter().zip(shares.iter().skip(1)).filter(|(start, end)| **end - **start > 1e-9);
    runs.filter(|(start, end)| is_inside(lines, at(f64::midpoint(**start, **end))))
        .map(|(start, end)| (at(*start), at(*end)))
        .collect()
}

/// The place so far along an edge from the middle of its top, and the direction into the piece there.
pub(super) fn along_edge(line: &[Point], far: f64, forward: bool) -> Option<(Point, Point)> {
    let middle = Frame::of(line.iter().copied()).map(|frame| f64::midpoint(frame.left, frame.right))?;
    let round: Vec<Point> = if forward { line.to_vec() } else { line.iter().rev().copied().collect() };
    // The upper crossing of the middle line is where it starts.
    let count = round.len();
    let pairs = || round.iter().copied().zip(round.iter().copied().cycle().skip(1)).enumerate();
    let starts = pairs().filter_map(|(place, (a, b))| {
        let crosses = (a.0 <= middle) != (b.0 <= middle);
        crosses.then(|| (place, a.1 + (middle - a.0) / (b.0 - a.0) * (b.1 - a.1)))
    });
    let (first, y) = starts.min_by(|left, right| left.1.total_cmp(&right.1))?;
    let (mut at, mut left) = ((middle, y), far);
    for step in 0..count {
        let next = *round.get((first + 1 + step) % count)?;
        let (dx, dy) = (next.0 - at.0, next.1 - at.1);
        let long = dx.hypot(dy);
        // A head ends where its edge runs level or down a side; a notch beyond it is not on the head.
        if long >= left && long > 0.0 {
            let share = left / long;
            let place = (at.0 + dx * share, at.1 + dy * share);
            let square = (-dy / long, dx / long);
            let lines = [line.to_vec()];
            let tried = (place.0 + square.0 * 0.2, place.1 + square.1 * 0.2);
            let into = if is_inside(&lines, tried) { square } else { (-square.0, -square.1) };
            return Some((place, into));
        }
        left -= long;
        at = next;
    }
    None
}
