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
        let inward = (0..ring.len()).filter(|&at| turn(&ring, at).is_negative()).count();
        // Remove only the kind of corner that exceeds its limit, and none where neither does.
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
    if turn(ring, at).is_negative() {
        let growth = away(before.at, after.at, here.at) + before.grown.max(here.grown);
        return Some((growth, Change::Pass));
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

/// Where two sides meet when extended, on the outer side of both; nowhere if one turns inward.
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
    // Round to a nearby point that leaves nothing of the outline outside: it then lies beyond the side too.
    let around = [(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1)];
    let shifts = around.into_iter().chain(around.into_iter().map(|(along, across)| (2 * along, 2 * across)));
    shifts
        .map(|(along, across)| (met.0 + along, met.1 + across))
        .find(|&point| turn_of(before, point, here) >= 0 && turn_of(point, beyond, after) >= 0)
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

    /// A convex polygon on a parabola.
    fn bowl(corners: i64) -> Vec<Point> {
        (0..corners).map(|i| (40 * i, 10 * i * i)).collect()
    }

    /// The bowl with some of its corners cut off at a tenth (or a fifth) of both their sides.
    fn cut(corners: i64, cuts: &[(i64, i64)]) -> Vec<Point> {
        let cut_at = |i: i64| cuts.iter().find(|cut| cut.0 == i).map(|cut| cut.1);
        let corner = |i: i64| {
            let (along, across) = (40 * i, 10 * i * i);
            match cut_at(i) {
                Some(tenths) => vec![
                    (along - 4 * tenths, across - (2 * i - 1) * tenths),
                    (along + 4 * tenths, across + (2 * i + 1) * tenths),
                ],
                None => vec![(along, across)],
            }
        };
        (0..corners).flat_map(corner).collect()
    }

    #[test]
    fn forty_corners_stay_and_of_more_the_least_cuts_are_filled() {
        assert_eq!(coarse(&bowl(40)), bowl(40));
        // Where the sides beside a cut meet is the corner that was cut off.
        assert_eq!(coarse(&cut(40, &[(33, 1)])), bowl(40));
        assert_eq!(coarse(&cut(40, &[(37, 1)])), bowl(40));
        assert_eq!(coarse(&cut(40, &[(33, 2), (34, 1)])), bowl(40));
        assert_eq!(coarse(&cut(38, &[(31, 1), (32, 1), (33, 1), (34, 2)])).len(), 40);
        assert_eq!(coarse(&cut(39, &[(32, 1), (33, 2)])), cut(39, &[(33, 2)]));
        assert_eq!(coarse(&cut(39, &[(32, 2), (33, 1)])), cut(39, &[(32, 2)]));
        // The list may begin in the middle of a cut.
        let mut turned = cut(40, &[(33, 1)]);
        turned.rotate_left(34);
        let mut expected = bowl(40);
        expected.rotate_left(33);
        assert_eq!(coarse(&turned), expected);
        assert_eq!(coarse(&bowl(41)).len(), 40);
    }

    /// A strip 4,200 long with a saw along it: fourteen peaks 1,000 high with valleys of these depths between them.
    fn saw(depths: &[i64]) -> Vec<Point> {
        let far = number::from_size(depths.len()) * 300;
        let teeth = (0..).zip(depths).flat_map(|(at, depth)| [(at * 300, 1000), (at * 300 + 150, 1000 - depth)]);
        let mut corners: Vec<Point> = [(far, 0), (0, 0)].into_iter().chain(teeth).chain([(far, 1000)]).collect();
        corners.reverse();
        // Wherever it lies along.
        let corners: Vec<Point> = corners.iter().map(|&(along, across)| (along - 7000, across)).collect();
        geometry::tidied(&corners).unwrap()
    }

    fn valleys(corners: &[Point]) -> Vec<i64> {
        let mut inner: Vec<Point> = corners.iter().copied().filter(|corner| (1..1000).contains(&corner.1)).collect();
        inner.sort_unstable();
        inner.into_iter().map(|corner| 1000 - corner.1).collect()
    }

    #[test]
    fn twelve_inward_corners_stay_and_of_more_the_shallowest_are_passed() {
        let twelve = [11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22];
        assert_eq!(coarse(&saw(&twelve)), saw(&twelve));
        for (at, depth) in [(0, 9), (5, 10), (7, 3), (12, 8)] {
            let mut depths = twelve.to_vec();
            depths.insert(at, depth);
            assert_eq!(valleys(&coarse(&saw(&depths))), twelve, "{at}");
        }
        let fifteen = [11, 12, 2, 13, 14, 15, 1, 16, 17, 18, 19, 20, 21, 22, 3];
        assert_eq!(valleys(&coarse(&saw(&fifteen))), twelve);
    }

    #[test]
    fn no_valley_deeper_than_a_sixtieth_of_the_size_is_passed() {
        // Fourteen valleys: 4,200 long, a sixtieth of which is 70.
        let most = |depth: i64| {
            let mut depths = vec![200; 13];
            depths.push(depth);
            valleys(&coarse(&saw(&depths))).len()
        };
        assert_eq!((most(70), most(71)), (13, 14));
        // The longer side counts, whichever it is.
        let upright = |depth: i64| -> Vec<Point> {
            let mut depths = vec![200; 13];
            depths.push(depth);
            saw(&depths).iter().map(|&(along, across)| (-across, along)).collect()
        };
        assert_eq!(
            (coarse(&upright(70)).len() + 1, coarse(&upright(71)).len()),
            (upright(70).len(), upright(71).len())
        );
    }

    fn ring(corners: &[(i64, i64, f64)]) -> Vec<Corner> {
        corners.iter().map(|&(along, across, grown)| Corner { at: (along, across), grown }).collect()
    }

    #[test]
    fn a_cut_is_filled_where_its_neighbours_meet_within_the_box() {
        // An oblong of 20 by 12, cut off at two of its corners.
        let cut = [(0, 0, 0.0), (16, 0, 0.5), (20, 3, 9.0), (20, 12, 9.0), (4, 12, 0.25), (0, 9, 9.0)];
        let ring_of = ring(&cut);
        let found = |at: usize, low: Point, high: Point| match change(&ring_of, at, (low, high)) {
            Some((growth, Change::Meet(point))) => Some((point, growth)),
            _ => None,
        };
        // (20, 0) is 12/5 off the side from (16, 0) to (20, 3), which stood out by a half; (0, 12) likewise.
        let (point, growth) = found(1, (0, 0), (20, 12)).unwrap();
        assert!(point == (20, 0) && (growth - 2.9).abs() < 1e-9, "{growth}");
        let (point, growth) = found(4, (0, 0), (20, 12)).unwrap();
        assert!(point == (0, 12) && (growth - 2.65).abs() < 1e-9, "{growth}");
        assert_eq!((found(1, (0, 0), (19, 12)), found(1, (0, 1), (20, 12))), (None, None));
        assert_eq!((found(4, (1, 0), (20, 12)), found(4, (0, 0), (20, 11))), (None, None));
        // Those beside a whole side meet 12 beyond it, which stood out by 9 and by nothing.
        assert_eq!(found(2, (0, 0), (32, 12)), Some(((32, 12), 21.0)));
        assert_eq!(found(0, (0, -12), (32, 12)), Some(((0, -12), 12.0)));
        assert!(change(&ring(&cut[..5]), 1, ((0, 0), (20, 12))).is_none());
    }

    #[test]
    fn an_inward_corner_stands_as_far_out_as_both_its_sides_do() {
        // (7, 8) lies 4 below the line from (10, 12) to (4, 12).
        for (before, here) in [(0.5, 0.25), (0.125, 0.5)] {
            let notched =
                [(0, 0, 0.0), (20, 0, 0.0), (20, 12, 0.0), (10, 12, before), (7, 8, here), (4, 12, 9.0), (0, 12, 9.0)];
            let bounds = ((0, 0), (20, 12));
            match change(&ring(&notched), 4, bounds) {
                Some((growth, Change::Pass)) => assert!((growth - 4.5).abs() < 1e-9, "{growth}"),
                _ => panic!("no pass"),
            }
            // Beside it nothing is filled.
            assert!(change(&ring(&notched), 3, bounds).is_none());
            assert_eq!(turn(&ring(&notched), 4), -24);
            assert_eq!(turn(&ring(&notched), 0), 240);
        }
        assert!((away((3, 4), (9, 12), (3, 14)) - 6.0).abs() < 1e-12);
        assert!((away((3, 4), (9, 12), (11, 4)) - 6.4).abs() < 1e-12);
        assert!(away((3, 4), (3, 4), (3, 14)).is_infinite());
    }

    #[test]
    fn sides_meet_at_the_nearest_point_that_cuts_nothing_off() {
        let mut rng = fastrand::Rng::with_seed(3);
        let (mut exact, mut shifted) = (0, 0);
        for _ in 0..20_000 {
            let mut random = || (rng.i64(0..40), rng.i64(0..40));
            let (before, here, after, beyond) = (random(), random(), random(), random());
            if turn_of(before, here, after) <= 0 || turn_of(here, after, beyond) <= 0 {
                continue;
            }
            let float = number::from_whole;
            let (run, other) = ((here.0 - before.0, here.1 - before.1), (beyond.0 - after.0, beyond.1 - after.1));
            // Cramer's rule: before + share · run lies on the line through after and beyond.
            let whole = geometry::cross(run, other);
            let found = meeting(before, here, after, beyond);
            if whole <= 0 {
                // Together they turn by half a turn or more: their lines meet on the inner side, or nowhere.
                assert_eq!(found, None);
                continue;
            }
            let share = number::from_wide(geometry::cross((after.0 - before.0, after.1 - before.1), other))
                / number::from_wide(whole);
            let met = (float(before.0) + share * float(run.0), float(before.1) + share * float(run.1));
            // Half way between two whole numbers either is near.
            if [met.0, met.1].iter().any(|value| (value.fract().abs() - 0.5).abs() < 1e-6) {
                continue;
            }
            let near = (number::nearest_whole(met.0).unwrap(), number::nearest_whole(met.1).unwrap());
            let holds = |point: Point| {
                turn_of(before, point, here) >= 0
                    && turn_of(point, beyond, after) >= 0
                    && turn_of(here, point, after) >= 0
            };
            let off = |point: Point| (point.0 - near.0).pow(2) + (point.1 - near.1).pow(2);
            let shifts = [(0, 0), (1, 0), (0, 1), (1, 1), (1, -1), (2, 0), (0, 2), (2, 2), (2, -2)];
            let both = shifts.into_iter().flat_map(|(along, across)| [(along, across), (-along, -across)]);
            let points = both.map(|(along, across)| (near.0 + along, near.1 + across));
            let least = points.filter(|&point| holds(point)).map(off).min();
            assert_eq!(found.map(off), least, "{before:?} {here:?} {after:?} {beyond:?}: {found:?}");
            assert!(found.is_none_or(holds));
            exact += usize::from(least == Some(0));
            shifted += usize::from(least > Some(0));
        }
        assert!(exact > 100 && shifted > 100, "{exact} and {shifted}");
    }

    #[test]
    fn a_coarse_outline_of_any_round_one_holds_it_closely() {
        let mut rng = fastrand::Rng::with_seed(13);
        for round in 0..60 {
            // Corners on an ellipse, here and there drawn in so far that some corners point inward.
            let count = rng.usize(45..160);
            let inward = round % 2 == 0;
            let corners: Vec<Point> = (0..count)
                .map(|at| {
                    let angle = number::from_count(at) / number::from_count(count) * std::f64::consts::TAU;
                    let far = 1e6 * if inward { 1.0 - 0.02 * rng.f64() } else { 1.0 };
                    let whole = |value: f64| number::nearest_whole(value).unwrap();
                    (whole(far * angle.cos()), whole(0.7 * far * angle.sin()))
                })
                .collect();
            let fine = geometry::tidied(&corners).unwrap();
            let rough = coarse(&fine);
            let (low, high) = geometry::around(&fine);
            assert_eq!(geometry::around(&rough), (low, high));
            assert!(inward || rough.len() <= CORNERS, "{} of {}", rough.len(), fine.len());
            let parts = geometry::convex_parts(&rough);
            let holds = |point: Point| {
                let inside = |part: &Vec<Point>| {
                    (0..part.len()).all(|i| turn_of(part[i], part[(i + 1) % part.len()], point) >= 0)
                };
                parts.iter().any(inside)
            };
            assert!(fine.iter().all(|&corner| holds(corner)));
            // No corner of the rough one is further from the fine one than a sixtieth of its size, and a rounding.
            let most = number::from_whole((high.0 - low.0).max(high.1 - low.1)) / 60.0 + 3.0;
            let off = |point: Point| {
                let off = |i: usize| {
                    let (from, to) = (fine[i], fine[(i + 1) % fine.len()]);
                    let run = (number::from_whole(to.0 - from.0), number::from_whole(to.1 - from.1));
                    let past = (number::from_whole(point.0 - from.0), number::from_whole(point.1 - from.1));
                    let share = (past.0 * run.0 + past.1 * run.1) / (run.0 * run.0 + run.1 * run.1);
                    let share = share.clamp(0.0, 1.0);
                    (past.0 - share * run.0).hypot(past.1 - share * run.1)
                };
                (0..fine.len()).map(off).fold(f64::INFINITY, f64::min)
            };
            assert!(rough.iter().all(|&corner| off(corner) <= most));
        }
    }
}
