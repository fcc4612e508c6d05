//! Sectors of rings as polygons that contain them: circle, half and quarter skirts, flounces.

use super::geometry::Point;
use crate::number;
use std::f64::consts::{PI, TAU};

/// The most corners of an arc, however small the error asked for.
const MOST_CORNERS: usize = 400;

/// A polygon that contains the sector of a ring between two radii over `turn` turns (a half circle: 0.5),
/// counter-clockwise from the first side along the strip, with its centre at zero. It is nowhere more than about
/// `error` outside the ring.
///
/// The outer arc is circumscribed; the inner one is replaced by chords, which lie on the safe side of it. From a
/// whole turn on, the result is the disc: a slit in the ring makes no room for other pieces. `None` if the radii or
/// the turn describe no sector.
pub fn sector(inner: f64, outer: f64, turn: f64, error: f64) -> Option<Vec<Point>> {
    let sound = inner >= 0.0 && outer > inner && outer <= 1e13 && turn > 0.0 && error > 0.0;
    if !(sound && turn.is_finite()) {
        return None;
    }
    let whole = turn >= 1.0;
    let angle = if whole { TAU } else { turn * TAU };
    // A side stands off the outer arc by r·(1/cos(step/2) − 1), a chord cuts the inner one by r·(1 − cos(step/2)).
    let outer_sides = sides(angle, 2.0 * (outer / (outer + error)).acos());
    let mut corners = Vec::new();
    let step = angle / number::from_count(outer_sides);
    let far = outer / (step / 2.0).cos();
    let mut put = |radius: f64, at: f64| {
        corners.push((away(radius * at.cos())?, away(radius * at.sin())?));
        Some(())
    };
    if !whole {
        put(outer, 0.0)?;
    }
    for side in 0..outer_sides {
        put(far, step * (number::from_count(side) + 0.5))?;
    }
    if !whole {
        put(outer, angle)?;
        if inner > 0.0 {
            let inner_sides = sides(angle, 2.0 * (1.0 - error / inner).max(-1.0).acos());
            for side in 0..=inner_sides {
                let at = angle * (1.0 - number::from_count(side) / number::from_count(inner_sides));
                corners.push((number::nearest_whole(inner * at.cos())?, number::nearest_whole(inner * at.sin())?));
            }
        } else {
            corners.push((0, 0));
        }
    }
    Some(corners)
}

fn sides(angle: f64, most: f64) -> usize {
    // Never fewer than one side to a twelfth of a turn: the circumscribed polygon grows fast below.
    let count = (angle / most.clamp(1e-6, PI / 6.0)).ceil();
    number::nearest_whole(count).and_then(number::count).unwrap_or(MOST_CORNERS).clamp(1, MOST_CORNERS)
}

/// Rounds away from zero, so that rounding cuts nothing off.
fn away(value: f64) -> Option<i64> {
    let noise = 1e-6;
    number::nearest_whole(if value < 0.0 { (value + noise).floor() } else { (value - noise).ceil() })
}

#[cfg(test)]
mod tests {
    use super::super::geometry::{tidied, twice_area};
    use super::*;

    #[test]
    fn the_polygon_holds_the_sector_and_little_more() {
        for (inner, outer, turn) in [(0.0, 480e6, 0.5), (120e6, 900e6, 0.25), (110e6, 1000e6, 0.75), (0.0, 300e6, 1.0)]
        {
            let tidy = tidied(&sector(inner, outer, turn, 1e5).unwrap()).unwrap();
            let area = number::from_wide(twice_area(&tidy)) / 2.0;
            let exact = PI * turn * (outer * outer - inner * inner);
            assert!(area >= exact && area < exact * 1.001, "{turn}: {}", area / exact);
        }
        assert_eq!(sector(2.0, 1.0, 0.5, 1.0), None);
        assert_eq!(sector(0.0, f64::NAN, 0.5, 1.0), None);
        assert!(sector(0.0, 1e13, 0.999, 1e-9).unwrap().len() <= 3 * MOST_CORNERS);
    }

    #[test]
    fn arcs_have_as_few_sides_as_their_error_allows_but_one_to_a_twelfth_of_a_turn() {
        for (angle, most, expected) in [
            (1.0, 0.3, 4),
            (0.9, 0.3001, 3),
            (1.0, 9.0, 2),
            (1.0, 0.6, 2),
            (0.1, 9.0, 1),
            (0.39, 0.001_000_1, 390),
            (1.0, 0.001, 400),
            // No side is shorter than a millionth.
            (1.0005e-4, 1e-9, 101),
        ] {
            assert_eq!(sides(angle, most), expected, "{angle} by {most}");
        }
        for (value, expected) in
            [(2.3, 3), (-2.3, -3), (2.0, 2), (2.000_000_1, 2), (-2.000_000_1, -2), (2.001, 3), (-2.001, -3), (0.0, 0)]
        {
            assert_eq!(away(value), Some(expected), "{value}");
        }
    }

    /// How far a corner is from the centre, and the line through it and another.
    fn far((along, across): Point) -> f64 {
        number::from_whole(along).hypot(number::from_whole(across))
    }

    fn line(from: Point, to: Point) -> f64 {
        let area = number::from_wide(super::super::geometry::cross(from, to)).abs();
        area / far((to.0 - from.0, to.1 - from.1))
    }

    #[test]
    fn a_quarter_of_a_ring_has_the_corners_its_radii_and_error_ask_for() {
        // Half a side of the outer arc turns by √(2·100/100,000) = 0.0447: 18 sides; of the inner one by 0.0707: 12.
        let corners = sector(40_000.0, 100_000.0, 0.25, 100.0).unwrap();
        assert_eq!(corners.len(), 18 + 2 + 12 + 1);
        assert_eq!((corners[0], corners[19]), ((100_000, 0), (0, 100_000)));
        assert_eq!((corners[20], corners[32]), ((0, 40_000), (40_000, 0)));
        // The outer sides touch the circle from outside, and their corners stand out by no more than the error.
        for pair in corners[..20].windows(2) {
            assert!((-0.1..1.5).contains(&(line(pair[0], pair[1]) - 100_000.0)), "{pair:?}");
        }
        assert!(corners[1..19].iter().all(|&corner| (50.0..101.5).contains(&(far(corner) - 100_000.0))));
        // The inner chords run from the circle to the circle, and cut off no more than the error.
        for pair in corners[20..].windows(2) {
            assert!((-100.0..-50.0).contains(&(line(pair[0], pair[1]) - 40_000.0)), "{pair:?}");
        }
        assert!(corners[20..].iter().all(|&corner| (far(corner) - 40_000.0).abs() < 1.0));
        let angle = |corner: Point| number::from_whole(corner.1).atan2(number::from_whole(corner.0));
        assert!(corners[..20].windows(2).all(|pair| angle(pair[0]) < angle(pair[1])));
        assert!(corners[20..].windows(2).all(|pair| angle(pair[0]) > angle(pair[1])));
    }

    #[test]
    fn a_full_sector_ends_at_its_centre_and_a_whole_turn_is_a_disc() {
        let wedge = sector(0.0, 100_000.0, 0.25, 100.0).unwrap();
        assert_eq!((wedge.len(), wedge.last()), (18 + 2 + 1, Some(&(0, 0))));
        // 2π / 0.0894 = 70.2 sides all around, whatever is cut out of it and however often it goes round.
        for (inner, turn) in [(0.0, 1.0), (40_000.0, 1.0), (40_000.0, 7.5)] {
            let disc = sector(inner, 100_000.0, turn, 100.0).unwrap();
            assert_eq!(disc.len(), 71);
            assert!((0..71).all(|at| (-0.1..1.5).contains(&(line(disc[at], disc[(at + 1) % 71]) - 100_000.0))));
        }
        // However small what is cut out is.
        assert_eq!(sector(0.75, 100.0, 0.25, 1.0).unwrap().last(), Some(&(1, 0)));
        // An error beyond the inner radius still leaves a chord to each twelfth of a turn.
        assert_eq!(sector(40_000.0, 100_000.0, 0.2499, 120_000.0).unwrap().len(), 3 + 2 + 3 + 1);
    }

    #[test]
    fn corners_are_rounded_outward_but_for_noise() {
        let rounded = [0.4, 2.1, 2.000_000_1, 3.0, 0.0, -0.4, -2.1, -2.000_000_1, -3.0].map(away);
        assert_eq!(rounded, [1, 3, 2, 3, 0, -1, -3, -2, -3].map(Some));
    }

    #[test]
    fn what_describes_no_sector_is_refused() {
        for (inner, outer, turn, error, sound) in [
            (0.0, 1e13, 0.5, 1e6, true),
            (0.0, 1.1e13, 0.5, 1e6, false),
            (-0.5, 100.0, 0.5, 1.0, false),
            (100.0, 100.0, 0.5, 1.0, false),
            (99.0, 100.0, 0.5, 1.0, true),
            (0.0, 100.0, 0.0, 1.0, false),
            (0.0, 100.0, 0.001, 1.0, true),
            (0.0, 100.0, f64::INFINITY, 1.0, false),
            (0.0, 100.0, 0.5, 0.0, false),
            (0.0, 100.0, 0.5, 0.5, true),
        ] {
            assert_eq!(sector(inner, outer, turn, error).is_some(), sound, "{inner} {outer} {turn} {error}");
        }
    }
}
