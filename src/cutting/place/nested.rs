//! Places pieces by their true outlines on lengths of cloth: gores head to foot, sectors inside each other.
//!
//! Never here: choosing the lengths; folded cloth, where pieces take their bounding rectangles.

use crate::cutting::place::extent::Extent;
use crate::cutting::place::extent::{corners, extent};
use crate::cutting::place::layout::{Layout, Placed};
use crate::cutting::place::on_cloth::{Bed, OnCloth};
use crate::cutting::task::demand::{Group, Start};
use crate::piece::{self, Layers, Lie};
use crate::quantity::number;
use shirr_packing::{Polygon, PolygonProblem, Starts, Steps, Stretch, Turn, outlines};
use std::f64::consts::FRAC_1_SQRT_2;

/// The farthest that the polygon round an arc may be from it, in nanometres: 0.1 mm.
const OFF_THE_ARC: f64 = 100_000.0;

/// Pieces of one group with the same shape, as they lie unturned.
struct Drawn<'a> {
    group: &'a Group<'a>,
    numbers: Vec<i64>,
    mirrored: bool,
    lie: Lie,
    /// The polygon to place, and (`reach`) points with the extent of the piece; both in the piece's own frame.
    polygon: Vec<(f64, f64)>,
    reach: Vec<(f64, f64)>,
}

/// Whether there is anything to nest: a piece that is not straight.
pub(in crate::cutting) fn has_outlines(groups: &[Group<'_>]) -> bool {
    groups.iter().any(|group| !group.is_straight())
}

/// Returns the best layout found within the steps; `None` if a piece finds no place. `may_reverse`: the cloth allows
/// half turns.
pub(in crate::cutting) fn nested(
    bed: &Bed<'_>,
    groups: &[Group<'_>],
    may_reverse: bool,
    seed: u64,
    steps: &mut Steps<'_>,
) -> Option<OnCloth> {
    let mut drawn = Vec::new();
    for group in groups {
        drawn.extend(draw(group, bed.measures.width)?);
    }
    let polygons = drawn.iter().map(|drawn| drawn.polygon(may_reverse)).collect::<Option<Vec<_>>>()?;
    let stretches = bed
        .lengths
        .iter()
        .map(|(_, source)| Stretch { width: source.width, length: (!source.as_needed).then_some(source.length) });
    let problem = PolygonProblem { stretches: stretches.collect(), polygons, gap: 0 };
    let solution = outlines::solve(&problem, seed, steps).ok()?;
    if !solution.unplaced.is_empty() {
        return None;
    }
    let mut numbers: Vec<_> = drawn.iter().map(|drawn| drawn.numbers.iter()).collect();
    let mut layout = Layout { by_outline: true, ..bed.start() };
    for placement in &solution.placements {
        let (drawn, (_, source)) = (drawn.get(placement.item)?, bed.lengths.get(placement.stretch)?);
        let number = *numbers.get_mut(placement.item)?.next()?;
        let (lie, reversed) = drawn.turned(placement.turn)?;
        let (from, across_from) = (placement.along, placement.across);
        // The room is rounded up to a mark of the tape if the cloth is large enough.
        let (_, room) = *drawn.group.choices.iter().find(|(other, _)| *other == lie)?;
        let own = extent(&drawn.group.piece.shape, lie, bed.measures.width)?;
        let along = if from + room.along <= source.length { room.along } else { own.along };
        let across = if across_from + room.across <= source.width { room.across } else { own.across };
        let one = layout.cut_lengths.get_mut(placement.stretch)?;
        one.placed.push(Placed {
            entry: drawn.group.entry,
            number,
            part: None,
            lie,
            reversed,
            through: Layers::One,
            from,
            across_from,
            extent: Extent { along, across },
        });
        one.end = one.end.max(from + along);
    }
    bed.find_offcuts(&mut layout);
    layout.cut_lengths.retain(|cut_length| !cut_length.placed.is_empty());
    Some(OnCloth { layout, bound: 0, proved: false })
}

/// Draws a group as one shape, or as two if mirrored pieces have another shape.
fn draw<'a>(group: &'a Group<'a>, full_width: i64) -> Option<Vec<Drawn<'a>>> {
    let lie = group.choices.iter().map(|(lie, _)| *lie).min()?;
    let (polygon, reach) = match &*group.piece.shape {
        piece::Shape::FullWidth { .. } => {
            let (_, extent) = group.choices.first()?;
            let (along, across) = (number::from_whole(extent.along), number::from_whole(full_width));
            let corners = vec![(0.0, 0.0), (along, 0.0), (along, across), (0.0, across)];
            (corners.clone(), corners)
        }
        piece::Shape::Sector { inner, outer, turn } => {
            let polygon = outlines::sector(inner.steps(), outer.steps(), *turn, OFF_THE_ARC)?;
            let whole = |point: &(i64, i64)| (number::from_whole(point.0), number::from_whole(point.1));
            (polygon.iter().map(whole).collect(), corners(&group.piece.shape)?)
        }
        shape => (corners(shape)?, corners(shape)?),
    };
    let one = |numbers: Vec<i64>, mirrored| Drawn {
        group,
        numbers,
        mirrored,
        lie,
        polygon: polygon.clone(),
        reach: reach.clone(),
    };
    if !group.piece.mirrored || group.is_straight() {
        return Some(vec![one(group.numbers.clone(), false)]);
    }
    let (even, odd): (Vec<i64>, Vec<i64>) = group.numbers.iter().partition(|number| *number % 2 == 0);
    let mut both = vec![one(odd, false), one(even, true)];
    both.retain(|drawn| !drawn.numbers.is_empty());
    Some(both)
}

impl Drawn<'_> {
    fn polygon(&self, may_reverse: bool) -> Option<Polygon> {
        // The polygon may be larger than the piece; clipped to the piece's bounding box it still holds it.
        let (low, high) = reach_of(&posed(&self.reach, self.mirrored, self.lie, false));
        let points = clipped(posed(&self.polygon, self.mirrored, self.lie, false), low, high);
        let corner = |(along, across): &(f64, f64)| {
            Some((number::nearest_whole(along - low.0)?, number::nearest_whole(across - low.1)?))
        };
        let mut corners = points.iter().map(corner).collect::<Option<Vec<_>>>()?;
        corners.dedup();
        Some(Polygon {
            corners,
            count: number::from_size(self.numbers.len()),
            half: may_reverse && !self.group.piece.one_way,
            quarter: self.group.choices.len() > 1,
            mirror: false,
            starts: match self.group.start {
                Start::Anywhere => None,
                Start::Pattern { first, repeat } => Some(Starts { first, every: repeat }),
            },
            at_edge: false,
        })
    }

    /// Lie and half turn of a piece after a turn from the way it is drawn; `None` if that turn is never used.
    fn turned(&self, turn: Turn) -> Option<(Lie, bool)> {
        match (turn, self.lie) {
            (Turn::None, lie) => Some((lie, false)),
            (Turn::Half, lie) => Some((lie, true)),
            // A mirror image turns the other way.
            (Turn::Quarter, Lie::Along) => Some((Lie::Across, self.mirrored)),
            (Turn::ThreeQuarters, Lie::Along) => Some((Lie::Across, !self.mirrored)),
            (Turn::Quarter | Turn::ThreeQuarters, _) => None,
        }
    }
}

/// Points of a piece as it lies: laid, then mirrored about a line along the goods, then turned half round.
fn posed(points: &[(f64, f64)], mirrored: bool, lie: Lie, reversed: bool) -> Vec<(f64, f64)> {
    let pose = |(along, across): &(f64, f64)| {
        let (along, across) = match lie {
            Lie::Along => (*along, *across),
            Lie::Across => (-across, *along),
            Lie::Bias => ((along - across) * FRAC_1_SQRT_2, (along + across) * FRAC_1_SQRT_2),
        };
        let across = if mirrored { -across } else { across };
        if reversed { (-along, -across) } else { (along, across) }
    };
    points.iter().map(pose).collect()
}

/// The low and the high corner of the bounding box.
fn reach_of(points: &[(f64, f64)]) -> ((f64, f64), (f64, f64)) {
    points
        .iter()
        .fold(((f64::INFINITY, f64::INFINITY), (f64::NEG_INFINITY, f64::NEG_INFINITY)), |(low, high), point| {
            ((low.0.min(point.0), low.1.min(point.1)), (high.0.max(point.0), high.1.max(point.1)))
        })
}

/// Clips a polygon to a box, edge by edge of the box (I. Sutherland and G. Hodgman, 1974, from memory). Only its outer
/// corners stick out of the box, so it stays in one part.
fn clipped(polygon: Vec<(f64, f64)>, low: (f64, f64), high: (f64, f64)) -> Vec<(f64, f64)> {
    // How far a point is inside each edge.
    let insides: [&dyn Fn((f64, f64)) -> f64; 4] =
        [&|point| point.0 - low.0, &|point| high.0 - point.0, &|point| point.1 - low.1, &|point| high.1 - point.1];
    insides.iter().fold(polygon, |polygon, inside| {
        let next = polygon.iter().cycle().skip(1);
        let kept = polygon.iter().zip(next).flat_map(|(here, next)| {
            let (near, far) = (inside(*here), inside(*next));
            let share = near / (near - far);
            let crossing = (here.0 + (next.0 - here.0) * share, here.1 + (next.1 - here.1) * share);
            let crosses = (near >= 0.0) != (far >= 0.0);
            (near >= 0.0).then_some(*here).into_iter().chain(crosses.then_some(crossing))
        });
        kept.collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::task::demand::Measures;
    use crate::cutting::task::source::Source;
    use crate::cutting::tests::scene::{cloth, full, nm, oblong, prepared, shelf};
    use crate::cutting::{CuttingManner, CuttingTask};
    use crate::piece::{CutPiece, Goods, Grain, Matching, OutlinePoint, Repeat, Shape, Supply};
    use crate::quantity::Length;
    use shirr_packing::Watch;
    use std::sync::atomic::AtomicBool;

    #[test]
    fn a_polygon_is_cut_off_at_its_box() {
        let diamond = vec![(-1.0, 5.0), (5.0, -1.0), (11.0, 5.0), (5.0, 11.0)];
        let octagon = clipped(diamond, (0.0, 0.0), (10.0, 10.0));
        assert_eq!(octagon.len(), 8);
        assert_eq!(reach_of(&octagon), ((0.0, 0.0), (10.0, 10.0)));
        // Of a rectangle round a box all round the box is left.
        let round = vec![(0.0, 0.0), (12.0, 0.0), (12.0, 11.0), (0.0, 11.0)];
        let mut left = clipped(round, (2.0, 3.0), (9.0, 8.0));
        left.sort_by(|one, other| one.partial_cmp(other).unwrap());
        assert_eq!(left, [(2.0, 3.0), (2.0, 8.0), (9.0, 3.0), (9.0, 8.0)]);
        let within = vec![(1.0, 1.0), (9.0, 1.0), (9.0, 9.0)];
        assert_eq!(clipped(within.clone(), (0.0, 0.0), (10.0, 10.0)), within);
    }

    /// Own geometry: a half circle with its flat side down is as wide as its radius, and its polygon is no wider.
    #[test]
    fn a_half_circle_goes_on_cloth_as_wide_as_it_is() {
        let polygon = outlines::sector(8e7, 5e8, 0.5, OFF_THE_ARC).unwrap();
        let points = polygon.iter().map(|point| (number::from_whole(point.0), number::from_whole(point.1))).collect();
        let (low, high) = reach_of(&clipped(points, (-5e8, 0.0), (5e8, 5e8)));
        assert!((low.0 + 5e8).abs() < 1.0 && low.1.abs() < 1.0 && (high.0 - 5e8).abs() < 1.0 && high.1 <= 5e8);
    }

    /// By hand, of a point 3 along and 1 across: as it lies, mirrored about a line along the goods, then turned half round.
    #[test]
    fn where_a_point_of_a_piece_comes_to_lie() {
        let root = FRAC_1_SQRT_2;
        for (lie, plain) in
            [(Lie::Along, (3.0, 1.0)), (Lie::Across, (-1.0, 3.0)), (Lie::Bias, (2.0 * root, 4.0 * root))]
        {
            for (mirrored, reversed) in [(false, false), (true, false), (false, true), (true, true)] {
                let across = if mirrored { -plain.1 } else { plain.1 };
                let wanted = if reversed { (-plain.0, -across) } else { (plain.0, across) };
                let found = posed(&[(3.0, 1.0)], mirrored, lie, reversed)[0];
                assert!((found.0 - wanted.0).abs() < 1e-12 && (found.1 - wanted.1).abs() < 1e-12, "{lie:?} {found:?}");
            }
        }
    }

    /// Groups of one piece on goods 100 wide, and what is done with them.
    fn with_group<T>(piece: CutPiece, ask: impl Fn(&[Group<'_>], Measures) -> T) -> T {
        let goods = Goods { repeat: Some(Repeat::straight(nm(16))), ..cloth(100) };
        let (pieces, manner) = ([piece], CuttingManner::default());
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        let prepared = prepared(&task);
        ask(&prepared.groups, prepared.measures)
    }

    /// A triangle with its right angle in the low corner, 40 along and 30 across.
    fn triangle(count: i64) -> CutPiece {
        let corner = |along, across| OutlinePoint { along: nm(along), across: nm(across) };
        CutPiece::new("gusset", count, Shape::Outline(vec![corner(0, 0), corner(40, 0), corner(0, 30)]))
    }

    #[test]
    fn which_turns_lay_a_piece_how() {
        with_group(triangle(1), |groups, _| {
            let drawn = |lie, mirrored| Drawn {
                group: &groups[0],
                numbers: vec![1],
                mirrored,
                lie,
                polygon: Vec::new(),
                reach: Vec::new(),
            };
            for (lie, mirrored, wanted) in [
                (Lie::Along, false, [Some((Lie::Across, false)), Some((Lie::Across, true))]),
                (Lie::Along, true, [Some((Lie::Across, true)), Some((Lie::Across, false))]),
                (Lie::Across, false, [None, None]),
                (Lie::Bias, true, [None, None]),
            ] {
                let drawn = drawn(lie, mirrored);
                assert_eq!([Turn::Quarter, Turn::ThreeQuarters].map(|turn| drawn.turned(turn)), wanted);
                assert_eq!(
                    [Turn::None, Turn::Half].map(|turn| drawn.turned(turn)),
                    [Some((lie, false)), Some((lie, true))]
                );
            }
        });
    }

    #[test]
    fn a_piece_is_drawn_as_it_lies() {
        let polygons = |piece: CutPiece, may_reverse| {
            with_group(piece, |groups, measures| {
                let drawn = draw(&groups[0], measures.width).unwrap();
                let numbers: Vec<Vec<i64>> = drawn.iter().map(|drawn| drawn.numbers.clone()).collect();
                (numbers, drawn.iter().map(|drawn| drawn.polygon(may_reverse).unwrap()).collect::<Vec<_>>())
            })
        };
        let (numbers, drawn) = polygons(triangle(3), true);
        assert_eq!((numbers, &*drawn[0].corners), (vec![vec![1, 2, 3]], &[(0, 0), (40, 0), (0, 30)][..]));
        let flags = |polygon: &Polygon| (polygon.count, polygon.half, polygon.quarter, polygon.mirror, polygon.at_edge);
        assert_eq!(flags(&drawn[0]), (3, true, false, false, false));
        assert!(drawn[0].starts.is_none());
        // Across: 30 along and 40 across, with the right angle in the far corner along.
        let (_, across) = polygons(CutPiece { grain: Grain::Across, ..triangle(1) }, false);
        assert_eq!((&*across[0].corners, across[0].half), (&[(30, 0), (30, 40), (0, 0)][..], false));
        // A pair: the odd ones as drawn, the even ones mirrored.
        let (numbers, pair) = polygons(CutPiece { mirrored: true, ..triangle(4) }, true);
        assert_eq!(numbers, [vec![1, 3], vec![2, 4]]);
        assert_eq!(
            (&*pair[0].corners, &*pair[1].corners),
            (&[(0, 0), (40, 0), (0, 30)][..], &[(0, 30), (40, 30), (0, 0)][..])
        );
        let (_, one_way) = polygons(CutPiece { one_way: true, ..triangle(1) }, true);
        assert!(!one_way[0].half);
        let (_, any) = polygons(CutPiece { grain: Grain::Any, ..triangle(1) }, true);
        assert!(any[0].quarter);
        let (_, matched) = polygons(CutPiece { matching: Some(Matching::Level), ..triangle(1) }, true);
        assert!(matched[0].starts.as_ref().is_some_and(|starts| (starts.first, starts.every) == (0, 16)));
        // Corners that are the same nanometre are one.
        let point =
            |along, across| OutlinePoint { along: Length::from_steps(along), across: Length::from_steps(across) };
        let near = vec![point(0.0, 0.0), point(40.0, 0.0), point(40.2, 0.1), point(0.0, 30.0)];
        let (_, near) = polygons(CutPiece::new("gusset", 1, Shape::Outline(near)), true);
        assert_eq!(&*near[0].corners, [(0, 0), (40, 0), (0, 30)]);
        // A strip is as wide as the goods, and mirrored rectangles are no two shapes.
        let (_, strip) = polygons(full("strip", 1, 40), true);
        assert_eq!(&*strip[0].corners, [(0, 0), (40, 0), (40, 100), (0, 100)]);
        let (numbers, _) = polygons(CutPiece { mirrored: true, ..oblong("cuff", 2, 40, 30) }, true);
        assert_eq!(numbers, [vec![1, 2]]);
        assert!(with_group(triangle(1), |groups, _| has_outlines(groups)));
        assert!(!with_group(full("strip", 1, 40), |groups, _| has_outlines(groups)));
    }

    /// Two triangles make a rectangle of 40 by 30, the second turned half round, which napped cloth does not allow; a length of
    /// 39 holds none of them, and what may be rounded up to a mark is so only where there is room.
    #[test]
    fn triangles_lie_head_to_foot() {
        let stop = AtomicBool::new(false);
        let laid = |piece: CutPiece, source: Source, may_reverse| {
            with_group(piece, |groups, measures| {
                let bed = Bed { lengths: vec![(5, &source)], measures, folded: false };
                let mut steps = Steps::new(20_000, Watch::silent(&stop));
                let found = nested(&bed, groups, may_reverse, 1, &mut steps)?;
                assert!(found.layout.by_outline && !found.proved && found.bound == 0);
                let [one] = found.layout.cut_lengths.as_slice() else { return None };
                let told = |placed: &Placed| (placed.number, placed.reversed, placed.lie);
                let mut placed: Vec<_> = one.placed.iter().map(told).collect();
                placed.sort_by_key(|placed| placed.1);
                assert_eq!(one.source, 5);
                let across = one.placed.last()?.extent.across;
                Some((one.end, placed.len(), placed.last()?.1, across))
            })
        };
        assert_eq!(laid(triangle(2), shelf(0, 40, 30), true), Some((40, 2, true, 30)));
        assert_eq!(laid(triangle(2), shelf(0, 40, 30), false), None);
        assert_eq!(laid(triangle(2), shelf(0, 39, 30), true), None);
        assert_eq!(laid(triangle(2), shelf(0, 40, 29), true), None);
        assert_eq!(laid(triangle(1), shelf(0, 40, 30), false), Some((40, 1, false, 30)));
        let endless = Source { as_needed: true, ..shelf(0, 9_000, 30) };
        assert_eq!(laid(triangle(2), endless, true), Some((40, 2, true, 30)));
        // To a mark of 25 it takes 50 along, where 50 are there.
        let marked = || triangle(1).with_mark(Some(nm(25)));
        assert_eq!(laid(marked(), shelf(0, 50, 90), true), Some((50, 1, false, 50)));
        assert_eq!(laid(marked(), shelf(0, 49, 90), true), Some((40, 1, false, 50)));
        assert_eq!(laid(marked(), shelf(0, 50, 50), true), Some((50, 1, false, 50)));
        assert_eq!(laid(marked(), shelf(0, 50, 49), true), Some((50, 1, false, 30)));
    }
}
