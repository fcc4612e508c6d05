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
}
