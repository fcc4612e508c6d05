//! Coarser outlines that contain the original ones, so that arcs of many short sides are searched with few corners.
#![allow(clippy::indexing_slicing, reason = "every index is taken modulo the number of corners of its own polygon")]

use super::geometry::{self, Point, turn_of};
use crate::number;

/// The most corners, and corners that point inward, with which an outline stays as it is.
const CORNERS: usize = 40;
const INWARD: usize = 12;
/// No outline grows by more than this share of its size, however many corners it has.
const MOST_GROWTH: f64 = 1.0 / 60.0;

/// A corner, and how far at most the side after it lies outside the original outline.
#[derive(Clone, Copy, Debug)]
struct Corner {
    at: Point,
    grown: f64,
}

/// A way to remove one corner.
#[derive(Clone, Copy, Debug)]
enum Change {
    /// Skips an inward corner.
    Pass,
    /// Drops a side between outward corners; its neighbours are extended to meet here.
    Meet(Point),
}

/// A polygon that contains a tidied one within the same box, with few enough corners as far as the growth allows.
pub(super) fn coarse(corners: &[Point]) -> Vec<Point> {
    let (low, high) = geometry::around(corners);
    let most = number::from_whole((high.0 - low.0).max(high.1 - low.1)) * MOST_GROWTH;
    let mut ring: Vec<Corner> = corners.iter().map(|&at| Corner { at, grown: 0.0 }).collect();
    let mut growths: Vec<Option<(f64, Change)>> = (0..ring.len()).map(|at| change(&ring, at, (low, high))).collect();
    loop {
        let inward = (0..ring.len()).filter(|&at| turn(&ring, at) < 0).count();
        if ring.len() <= CORNERS && inward <= INWARD {
            break;
        }
        // Remove only the kind of corner that exceeds its limit.
        let wanted = |change: &Change| match change {
            Change::Pass => inward > INWARD,
            Change::Meet(_) => ring.len() > CORNERS,
        };
        let easiest = growths
            .iter()
            .enumerate()
            .filter_map(|(at, growth)| {
                growth.filter(|(_, change)| wanted(change)).map(|(growth, change)| (at, growth, change))
            })
            .min_by(|one, other| one.1.total_cmp(&other.1));
        let Some((at, growth, change_at)) = easiest.filter(|&(_, growth, _)| growth <= most) else { break };
        let count = ring.len();
        let before = (at + count - 1) % count;
        match change_at {
            Change::Pass => {
                ring[before].grown = growth;
                ring.remove(at);
                growths.remove(at);
            }
            Change::Meet(point) => {
                let after = (at + 1) % count;
                ring[after].at = point;
                ring[before].grown = ring[before].grown.max(growth);
                ring[after].grown = ring[after].grown.max(growth);
                ring.remove(at);
                growths.remove(at);
            }
        }
        let count = ring.len();
        for near in 0..5 {
            let near = (at + count + near - 2) % count;
            growths[near] = change(&ring, near, (low, high));
        }
    }
    let changed: Vec<Point> = ring.iter().map(|corner| corner.at).collect();
    geometry::tidied(&changed).unwrap_or_else(|| corners.to_vec())
}

fn turn(ring: &[Corner], at: usize) -> i128 {
    let count = ring.len();
    turn_of(ring[(at + count - 1) % count].at, ring[at % count].at, ring[(at + 1) % count].at)
}

/// The change possible at a corner (or the side that begins there), and how far the outline would then stand out.
fn change(ring: &[Corner], at: usize, (low, high): (Point, Point)) -> Option<(f64, Change)> {
    let count = ring.len();
    if count < 6 {
        return None;
    }
    let corner = |offset: usize| ring[(at + offset) % count];
    let (before, here, after, beyond) = (corner(count - 1), corner(0), corner(1), corner(2));
    if turn(ring, at) < 0 {
        let growth = away(before.at, after.at, here.at) + before.grown.max(here.grown);
        return Some((growth, Change::Pass));
    }
    if turn(ring, at + 1) < 0 {
        return None;
    }
    let point = meeting(before.at, here.at, after.at, beyond.at)?;
    // The outline must stay within its box.
    if point.0 < low.0 || point.0 > high.0 || point.1 < low.1 || point.1 > high.1 {
        return None;
    }
    Some((away(here.at, after.at, point) + here.grown, Change::Meet(point)))
}

/// The distance of a point from a line.
fn away(from: Point, to: Point, point: Point) -> f64 {
    let length = number::from_whole(to.0 - from.0).hypot(number::from_whole(to.1 - from.1));
    if length > 0.0 { number::from_wide(turn_of(from, to, point)).abs() / length } else { f64::INFINITY }
}

/// Where two sides meet when extended, on the outer side of both.
fn meeting(before: Point, here: Point, after: Point, beyond: Point) -> Option<Point> {
    let float = |from: Point, to: Point| (number::from_whole(to.0 - from.0), number::from_whole(to.1 - from.1));
    let (run, other) = (float(before, here), float(beyond, after));
    let between = float(here, after);
    let cross = run.0 * other.1 - run.1 * other.0;
    // The sides must turn towards each other by less than half a turn.
    if cross >= 0.0 {
        return None;
    }
    let part = (between.0 * other.1 - between.1 * other.0) / cross;
    if !(part >= 0.0 && part.is_finite()) {
        return None;
    }
    let (along, across) = (number::nearest_whole(part * run.0)?, number::nearest_whole(part * run.1)?);
    let met = (here.0.checked_add(along)?, here.1.checked_add(across)?);
    // Round to a nearby point that leaves nothing of the outline outside.
    let around = [(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1)];
    let shifts = around.into_iter().chain(around.into_iter().map(|(along, across)| (2 * along, 2 * across)));
    shifts.map(|(along, across)| (met.0 + along, met.1 + across)).find(|&point| {
        turn_of(before, point, here) >= 0 && turn_of(point, beyond, after) >= 0 && turn_of(here, point, after) >= 0
    })
}

#[cfg(test)]
mod tests {
    use super::super::sector::sector;
    use super::*;

    #[test]
    fn the_coarse_outline_holds_the_fine_one() {
        for (inner, outer, turn) in [(95e6, 480e6, 0.5), (110e6, 1e9, 0.25), (0.0, 4e8, 1.0), (300e6, 520e6, 0.7)] {
            let fine = geometry::tidied(&sector(inner, outer, turn, 1e5).unwrap()).unwrap();
            let rough = coarse(&fine);
            assert!(rough.len() <= CORNERS + INWARD, "{inner} {turn}: {} of {}", rough.len(), fine.len());
            assert_eq!(geometry::around(&rough), geometry::around(&fine));
            let areas = (geometry::twice_area(&rough), geometry::twice_area(&fine));
            assert!(areas.0 > areas.1 && areas.0 < areas.1 * 102 / 100, "{areas:?}");
            // The fine outline lies within the parts of the rough one: no corner is outside, no side leaves.
            let parts = geometry::convex_parts(&rough);
            let holds = |point: Point| {
                parts
                    .iter()
                    .any(|part| (0..part.len()).all(|i| turn_of(part[i], part[(i + 1) % part.len()], point) >= 0))
            };
            assert!(fine.iter().all(|&corner| holds(corner)));
            let middle = |i: usize| {
                let (from, to) = (fine[i], fine[(i + 1) % fine.len()]);
                (i64::midpoint(from.0, to.0), i64::midpoint(from.1, to.1))
            };
            // Half a unit may be lost in rounding the middle of a side.
            assert!((0..fine.len()).filter(|&i| !holds(middle(i))).count() <= fine.len() / 2);
        }
        let gore = [(0, 500), (85, 0), (175, 0), (260, 500)];
        assert_eq!(coarse(&gore), gore.to_vec());
    }
}
