//! The true outline of a shaped piece as it lies, in whole nanometres from the low corner of its bounding box.
//!
//! An outline is moved inward by a hair, so that rounding never makes touching an overlap: by [`HAIR`] all round, at
//! sharp corners by up to [`DEEPEST`], and by [`ARC`] at round edges, which become chains of straight edges inside the
//! piece. In total that is less than two micrometres (to a radius of 80 m): pieces that touch are accepted, and an
//! overlap of ten micrometres is refused.
//!
//! Never here: anything of the planner's; whether outlines overlap.

use super::polygon::{Corner, counterclockwise, is_symmetric};
use crate::piece::Lie;
use crate::piece::Shape;
use crate::quantity::number;
use std::f64::consts::{FRAC_1_SQRT_2, FRAC_PI_4, TAU};

/// How far an outline is moved inward, in nanometres.
const HAIR: f64 = 4.0;
/// The most that a sharp corner is moved inward, in nanometres.
const DEEPEST: f64 = 900.0;
/// How far a chain of straight edges is inside a round edge, in nanometres.
const ARC: f64 = 900.0;
/// Corners closer to each other than this, in nanometres, count as one.
const ONE_CORNER: f64 = 20.0;
/// The most straight edges for an eighth of a turn.
const MOST_STEPS: f64 = 2_500.0;

/// How a piece lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Lying {
    pub(super) lie: Lie,
    pub(super) reversed: bool,
    pub(super) mirrored: bool,
}

/// A shape as it lies, its low corner at zero.
#[derive(Clone, Debug)]
pub(super) struct Outline {
    /// In the order of [`counterclockwise`], a hair inside the shape.
    pub(super) corners: Vec<Corner>,
    /// Size across, in nanometres.
    pub(super) across: i64,
    /// Whether it is its own mirror image about a line along the goods.
    pub(super) symmetric: bool,
}

impl Lying {
    /// The outline of a shape as it lies; `None` if the shape has none.
    pub(super) fn outline(self, shape: &Shape) -> Option<Outline> {
        let points = self.placed(shape)?;
        let reach = points.iter().map(|point| point.1).reduce(f64::max)?;
        // The outline of a full ring has a slit to one side; the ring itself has none.
        let ring = matches!(shape, Shape::Sector { turn, .. } if *turn >= 1.0);
        Some(Outline {
            corners: counterclockwise(whole(&inside(&apart(&points)))?),
            across: number::nearest_whole(reach)?,
            symmetric: ring || is_symmetric(&counterclockwise(whole(&points)?)),
        })
    }

    /// The corners of a shape as it lies, its low corner at zero.
    fn placed(self, shape: &Shape) -> Option<Vec<(f64, f64)>> {
        let points: Vec<(f64, f64)> = points(shape)?.into_iter().map(|point| self.turned(point)).collect();
        let along = points.iter().map(|point| point.0).reduce(f64::min)?;
        let across = points.iter().map(|point| point.1).reduce(f64::min)?;
        Some(points.into_iter().map(|point| (point.0 - along, point.1 - across)).collect())
    }

    /// Turns a point of the piece's frame to where it lies, up to a shift.
    fn turned(self, (along, across): (f64, f64)) -> (f64, f64) {
        let (along, across) = match self.lie {
            Lie::Along => (along, across),
            Lie::Across => (-across, along),
            Lie::Bias => ((along - across) * FRAC_1_SQRT_2, (along + across) * FRAC_1_SQRT_2),
        };
        let across = if self.mirrored { -across } else { across };
        if self.reversed { (-along, -across) } else { (along, across) }
    }
}

fn whole(points: &[(f64, f64)]) -> Option<Vec<Corner>> {
    let corner = |(along, across): &(f64, f64)| {
        Some(Corner { along: number::nearest_whole(*along)?, across: number::nearest_whole(*across)? })
    };
    points.iter().map(corner).collect()
}

/// The corners of a shape in its own frame, round edges as chains of straight ones.
fn points(shape: &Shape) -> Option<Vec<(f64, f64)>> {
    match shape {
        Shape::Rectangle { along, across } => {
            let (along, across) = (along.steps(), across.steps());
            Some(vec![(0.0, 0.0), (along, 0.0), (along, across), (0.0, across)])
        }
        Shape::FullWidth { .. } => None,
        Shape::Sector { inner, outer, turn } => sector(inner.steps(), outer.steps(), *turn),
        Shape::Outline(points) => {
            Some(points.iter().map(|point| (point.along.steps(), point.across.steps())).collect())
        }
    }
}

fn sector(inner: f64, outer: f64, turn: f64) -> Option<Vec<(f64, f64)>> {
    let sound = inner >= 0.0 && outer > inner && turn > 0.0 && turn <= 1.0;
    if !sound || !outer.is_finite() {
        return None;
    }
    let sweep = TAU * turn;
    let off = ARC.min((outer - inner) / 8.0);
    // A chord whose middle is `off` inside the arc spans this angle.
    let step = 2.0 * (1.0 - off / outer).acos();
    let mut angles = Vec::new();
    // The outer edge is farthest out at the eighths of a turn that it passes, so these are corners.
    let mut start = 0.0;
    while start < sweep {
        let end = (start + FRAC_PI_4).min(sweep);
        let parts = ((end - start) / step).ceil().min(MOST_STEPS);
        let steps = number::nearest_whole(parts)?;
        let from = start;
        angles.extend((0..steps).map(|place| from + (end - from) * number::from_whole(place) / parts));
        start += FRAC_PI_4;
    }
    let at = |radius: f64, angle: f64| (radius * angle.cos(), radius * angle.sin());
    let full = turn >= 1.0;
    let mut points: Vec<(f64, f64)> = angles.iter().map(|angle| at(outer, *angle)).collect();
    if full && inner <= 0.0 {
        return Some(points);
    }
    // The outline of a full ring reaches its hole by a slit.
    points.push(at(outer, sweep));
    points.push(at(inner, sweep));
    if inner > 0.0 {
        // Edges that touch the inner circle from outside, so that they are inside the piece.
        let next = angles.iter().copied().skip(1).chain([sweep]);
        let touching: Vec<(f64, f64)> = angles
            .iter()
            .zip(next)
            .map(|(angle, next)| at(inner / ((next - angle) / 2.0).cos(), f64::midpoint(*angle, next)))
            .collect();
        points.extend(touching.into_iter().rev());
        points.push(at(inner, 0.0));
    }
    Some(points)
}

/// Drops corners that almost coincide with the one before.
fn apart(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let near = |one: (f64, f64), two: (f64, f64)| (one.0 - two.0).hypot(one.1 - two.1) < ONE_CORNER;
    let mut kept: Vec<(f64, f64)> = Vec::with_capacity(points.len());
    for point in points {
        if kept.last().is_none_or(|last| !near(*last, *point)) {
            kept.push(*point);
        }
    }
    while let [first, .., last] = kept.as_slice()
        && near(*first, *last)
    {
        kept.pop();
    }
    kept
}

/// Moves the outline inward by a hair.
fn inside(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let next = || points.iter().cycle().skip(1);
    // Summed from the first corner, so that it stays exact far from zero.
    let (base_along, base_across) = points.first().copied().unwrap_or_default();
    let twice: f64 = points
        .iter()
        .zip(next())
        .map(|(here, next)| {
            (here.0 - base_along) * (next.1 - base_across) - (next.0 - base_along) * (here.1 - base_across)
        })
        .sum();
    let inward = if twice < 0.0 { -1.0 } else { 1.0 };
    // The direction into the piece from each edge, starting with the edge after the first corner.
    let normals: Vec<(f64, f64)> = points
        .iter()
        .zip(next())
        .map(|(here, next)| {
            let (along, across) = (next.0 - here.0, next.1 - here.1);
            let length = along.hypot(across).max(f64::MIN_POSITIVE);
            (-across / length * inward, along / length * inward)
        })
        .collect();
    let before = normals.iter().cycle().skip(normals.len().saturating_sub(1));
    points
        .iter()
        .zip(&normals)
        .zip(before)
        .map(|((point, after), before)| {
            let (along, across) = (before.0 + after.0, before.1 + after.1);
            let share = 1.0 + before.0 * after.0 + before.1 * after.1;
            let length = along.hypot(across);
            if length < 1e-9 {
                return *point;
            }
            let by = (HAIR * length / share.max(f64::MIN_POSITIVE)).min(DEEPEST);
            (point.0 + along / length * by, point.1 + across / length * by)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;

    fn lying(lie: Lie, reversed: bool, mirrored: bool) -> Lying {
        Lying { lie, reversed, mirrored }
    }

    fn corner(along: f64, across: f64) -> crate::piece::OutlinePoint {
        crate::piece::OutlinePoint { along: Length::from_steps(along), across: Length::from_steps(across) }
    }

    fn places(lying: Lying, shape: &Shape) -> Vec<(i64, i64)> {
        let corners = whole(&lying.placed(shape).unwrap()).unwrap();
        let mut places: Vec<_> = corners.iter().map(|corner| (corner.along, corner.across)).collect();
        places.sort_unstable();
        places
    }

    /// Own arithmetic: a right triangle of 200 along and 100 across, its right angle at the start.
    #[test]
    fn every_way_to_lie_puts_the_right_corner_in_its_place() {
        let triangle = Shape::Outline(vec![corner(0.0, 0.0), corner(200.0, 0.0), corner(0.0, 100.0)]);
        for (how, wanted) in [
            (lying(Lie::Along, false, false), [(0, 0), (0, 100), (200, 0)]),
            (lying(Lie::Along, false, true), [(0, 0), (0, 100), (200, 100)]),
            (lying(Lie::Along, true, false), [(0, 100), (200, 0), (200, 100)]),
            (lying(Lie::Along, true, true), [(0, 0), (200, 0), (200, 100)]),
            // Along becomes across, and across becomes against along.
            (lying(Lie::Across, false, false), [(0, 0), (100, 0), (100, 200)]),
            (lying(Lie::Across, false, true), [(0, 200), (100, 0), (100, 200)]),
            (lying(Lie::Across, true, false), [(0, 0), (0, 200), (100, 200)]),
            // √½ · 200 is 141.42, √½ · 100 is 70.71.
            (lying(Lie::Bias, false, false), [(0, 71), (71, 0), (212, 141)]),
            (lying(Lie::Bias, false, true), [(0, 71), (71, 141), (212, 0)]),
        ] {
            assert_eq!(places(how, &triangle), wanted, "{how:?}");
        }
    }

    #[test]
    fn a_hair_inside_is_inside_all_round() {
        let square = Shape::Rectangle { along: Length::from_steps(1e6), across: Length::from_steps(1e6) };
        let outline = lying(Lie::Along, false, false).outline(&square).unwrap();
        let mut places: Vec<_> = outline.corners.iter().map(|corner| (corner.along, corner.across)).collect();
        places.sort_unstable();
        assert_eq!(places, [(4, 4), (4, 999_996), (999_996, 4), (999_996, 999_996)]);
    }

    #[test]
    fn a_round_edge_is_kept_to_a_micrometre_inside() {
        for (inner, turn) in [(0.0, 1.0), (3e8, 1.0), (2e8, 0.3), (0.0, 0.75), (4.999_9e8, 0.5)] {
            let outer = 5e8;
            let points = sector(inner, outer, turn).unwrap();
            for (one, two) in points.iter().zip(points.iter().cycle().skip(1)) {
                let middle = f64::midpoint(one.0, two.0).hypot(f64::midpoint(one.1, two.1));
                let ends = one.0.hypot(one.1);
                assert!(ends < outer + 1.0 && ends > inner - 1.0, "{inner} {turn}: {ends}");
                assert!(middle > inner - 1.0 && middle < outer + 1.0);
                let on_an_edge = middle > outer - 1_000.0 || middle < inner + 1_000.0;
                let straight = (one.0.atan2(one.1) - two.0.atan2(two.1)).abs() < 1e-9 || inner <= 0.0;
                assert!(on_an_edge || straight, "{inner} {turn}: {middle}");
            }
        }
    }

    #[test]
    fn a_sector_is_even_where_its_middle_runs_along() {
        for (turn, lie, wanted) in [
            (0.5, Lie::Across, true),
            (0.5, Lie::Along, false),
            (0.25, Lie::Bias, false),
            (0.75, Lie::Bias, true),
            (0.4, Lie::Across, false),
        ] {
            let shape = Shape::Sector { inner: Length::from_steps(1e7), outer: Length::from_steps(5e7), turn };
            let outline = lying(lie, false, false).outline(&shape).unwrap();
            assert_eq!(outline.symmetric, wanted, "{turn} {lie:?}");
        }
    }

    #[track_caller]
    fn close(found: &[(f64, f64)], wanted: &[(f64, f64)]) {
        assert_eq!(found.len(), wanted.len(), "{found:?}");
        for (one, two) in found.iter().zip(wanted) {
            assert!((one.0 - two.0).abs() < 1e-5 && (one.1 - two.1).abs() < 1e-5, "{found:?} {wanted:?}");
        }
    }

    /// Half the triangle has the sides 7, 24 and 25 (in millimetres). Its edges move by 4 nm: the tip by 4 · 25 / 7; at the
    /// foot 24 · across - 7 · along = 4 · 25 meets along = 4, at 128 / 24.
    #[test]
    fn a_corner_moves_to_where_its_moved_edges_meet() {
        for (along, across) in [(0.0, 0.0), (9e8, -3e8), (-4e8, 2e8)] {
            let at = |one: f64, two: f64| (along + one, across + two);
            let corners = [at(0.0, 0.0), at(24e6, 7e6), at(0.0, 14e6)];
            let mut wanted =
                [at(4.0, 128.0 / 24.0), at(24e6 - 100.0 / 7.0, 7e6), at(4.0, 14e6 - 128.0 / 24.0)].to_vec();
            close(&inside(&corners), &wanted);
            wanted.reverse();
            close(&inside(&corners.into_iter().rev().collect::<Vec<_>>()), &wanted);
        }
        // A single corner has no edges that could move.
        assert_eq!((inside(&[]), inside(&[(5.0, 7.0)])), (vec![], vec![(5.0, 7.0)]));
    }

    /// Its tip would move by 4 · 2000; and a spike that is a line stays where it is.
    #[test]
    fn a_needle_moves_by_a_micrometre_at_most() {
        let needle = inside(&[(0.0, 0.0), (1e9, 5e5), (0.0, 1e6)]);
        close(&needle[1..2], &[(1e9 - DEEPEST, 5e5)]);
        assert!((DEEPEST - 900.0).abs() < 0.5 && DEEPEST + ARC < 2_000.0 - 8.0 * HAIR);
        let spiked = inside(&[(0.0, 0.0), (9e6, 0.0), (5e6, 0.0), (5e6, 3e6), (0.0, 3e6)]);
        close(&spiked[1..2], &[(9e6, 0.0)]);
    }

    /// The hypotenuse of 12 and 16 is 20.
    #[test]
    fn corners_under_twenty_nanometres_apart_are_one() {
        for (points, wanted) in [
            (&[(5.0, 7.0)][..], 1),
            (&[(5.0, 7.0), (6.0, 9.0)], 1),
            (&[(0.0, 0.0), (12.0, 16.0), (90.0, 5.0)], 3),
            (&[(0.0, 0.0), (-12.0, 15.9), (90.0, 5.0)], 2),
            (&[(0.0, 0.0), (15.9, -12.0), (90.0, 5.0)], 2),
            (&[(500.0, 700.0), (512.0, 716.0), (90.0, 5.0)], 3),
            (&[(500.0, 700.0), (512.0, 715.0), (90.0, 5.0)], 2),
            // What comes back near the first on its way has come from afar.
            (&[(0.0, 0.0), (90.0, 5.0), (3.0, 4.0), (60.0, 80.0)], 4),
            // Each is near the one before; the second is not near the first, and the last one is.
            (&[(0.0, 0.0), (15.0, 0.0), (25.0, 0.0), (90.0, 70.0), (9.0, 12.0), (3.0, 4.0)], 3),
        ] {
            assert_eq!(apart(points).len(), wanted, "{points:?}");
            assert_eq!(apart(points).first(), points.first());
        }
        assert_eq!(apart(&[]), []);
    }

    #[test]
    fn a_sector_has_a_ring_of_cloth_and_at_most_a_turn() {
        for (inner, outer, turn, wanted) in [
            (0.0, 5e7, 1.0, true),
            (1.0, 5e7, 0.01, true),
            (-1.0, 5e7, 0.5, false),
            (5e7, 5e7, 0.5, false),
            (5e7, 4e7, 0.5, false),
            (1e7, 5e7, 0.0, false),
            (1e7, 5e7, -0.5, false),
            (1e7, 5e7, 1.000_001, false),
            (1e7, f64::INFINITY, 0.5, false),
            (f64::NAN, 5e7, 0.5, false),
        ] {
            assert_eq!(sector(inner, outer, turn).is_some(), wanted, "{inner} {outer} {turn}");
        }
    }

    /// A chord 900 nm inside an arc of radius r spans 2 · acos(1 - 900 / r); an eighth of a turn is 0.785 398 of arc.
    #[test]
    fn a_round_edge_has_as_many_chords_as_its_depth_asks() {
        for (inner, outer, turn, wanted) in [
            // 0.785 398 / 0.003 793 28 is 207.05, and 206.93 were it 901 nm: a whole turn without a slit.
            (0.0, 500_384_000.0, 1.0, 8 * 208),
            // The depth is an eighth of the radius: an eighth of a turn needs less than one chord of 1.010 7.
            (0.0, 3_200.0, 1.0, 8),
            // Half a turn has both ends of its straight edge more, a quarter and a bit has a third eighth begun.
            (0.0, 3_200.0, 0.5, 4 + 2),
            (0.0, 3_200.0, 0.26, 3 + 2),
            // A hole of a nanometre is one.
            (1.0, 3_200.0, 1.0, 2 * 8 + 3),
            (1.0, 3_200.0, 0.5, 2 * 4 + 3),
            // An eighth of a ring's 1600 is 200: 0.785 398 / 0.040 000 7 is 19.6. Both edges, the slit, and its ends.
            (998_400.0, 1_000_000.0, 1.0, 2 * 8 * 20 + 3),
            (998_400.0, 1_000_000.0, 0.25, 2 * 2 * 20 + 3),
            // At a hundred metres there would be 2927.
            (0.0, 1e11, 0.25, 2 * 2_500 + 2),
        ] {
            assert_eq!(sector(inner, outer, turn).unwrap().len(), wanted, "{inner} {outer} {turn}");
        }
    }

    /// A quarter of a ring: its outer corners at 0, 45 and 90 degrees; its inner chords touch the inner arc, whose
    /// ends are corners as well.
    #[test]
    fn a_part_of_a_ring_has_its_corners_on_its_edges() {
        let points = sector(3e8, 5e8, 0.25).unwrap();
        let has = |along: f64, across: f64| {
            points.iter().any(|point| (point.0 - along).abs() < 1e-5 && (point.1 - across).abs() < 1e-5)
        };
        let eighth = 5e8 * FRAC_1_SQRT_2;
        for (along, across) in [(5e8, 0.0), (eighth, eighth), (0.0, 5e8), (0.0, 3e8), (3e8, 0.0)] {
            assert!(has(along, across), "{along} {across}");
        }
        let inner = points.iter().filter(|point| point.0.hypot(point.1) < 4e8);
        let farthest = inner.map(|point| point.0.hypot(point.1)).fold(0.0, f64::max);
        // The same chords: 900 nm deep at 5e8, so 3e8 / 5e8 as deep at 3e8, outside it.
        assert!((3e8 + 500.0..3e8 + 560.0).contains(&farthest), "{farthest}");
    }

    #[test]
    fn an_outline_knows_its_size_across() {
        let oblong = Shape::Rectangle { along: Length::from_steps(3e7), across: Length::from_steps(7e7) };
        let size = |lie| lying(lie, false, false).outline(&oblong).unwrap().across;
        // Half a square root of two times a hundred.
        assert_eq!((size(Lie::Along), size(Lie::Across), size(Lie::Bias)), (70_000_000, 30_000_000, 70_710_678));
        let width = Shape::FullWidth { along: Length::from_steps(3e7) };
        assert!(lying(Lie::Along, false, false).outline(&width).is_none());
        let ring = |turn| Shape::Sector { inner: Length::from_steps(1e7), outer: Length::from_steps(5e7), turn };
        assert!(lying(Lie::Along, false, false).outline(&ring(1.0)).unwrap().symmetric);
        assert!(!lying(Lie::Along, false, false).outline(&ring(0.99)).unwrap().symmetric);
    }
}
