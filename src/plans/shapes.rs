//! The shape of a piece as it lies on its cloth: the closed lines round it, and its area.
//!
//! A piece's own frame is taken to the cloth in this order: mirroring, which reverses across; the lie, a quarter turn
//! that takes along to across, or an eighth; the half turn; and a shift that takes the low corner of the bounding
//! rectangle to the marks of its cut. Never here: drawing.

use super::plan_report::PlanReport;
use crate::cutting::Cut;
use crate::piece::{Lie, Shape};
use crate::quantity::{Area, Length};
use std::f64::consts::{FRAC_1_SQRT_2, PI, TAU};

/// A place on the cloth in steps of a length: along it, and across it.
pub(super) type Place = (f64, f64);

/// Number of straight steps that draw a whole turn of an arc.
const STEPS: f64 = 96.0;

/// The closed lines of a cut, and the direction on the cloth that runs along the piece.
pub(super) struct Outline {
    pub(super) lines: Vec<Vec<Place>>,
    pub(super) along: Place,
}

/// Returns the outline of a cut on its cloth.
pub(super) fn outline(report: &PlanReport<'_>, cut: &Cut) -> Outline {
    let along = turned(cut, (1.0, 0.0));
    let shape = report.pieces.get(cut.entry).map(|piece| &*piece.shape);
    let own = match shape {
        // Parts of joined pieces, and straight pieces, fill the room of their cut.
        Some(Shape::Sector { .. } | Shape::Outline(_)) | None if cut.part.is_some() => None,
        Some(Shape::Sector { inner, outer, turn }) => Some(sector(inner.steps(), outer.steps(), *turn)),
        Some(Shape::Outline(points)) => {
            Some(vec![points.iter().map(|point| (point.along.steps(), point.across.steps())).collect()])
        }
        Some(Shape::Rectangle { along, across }) if cut.lie == Lie::Bias => {
            let (along, across) = (along.steps(), across.steps());
            Some(vec![vec![(0.0, 0.0), (along, 0.0), (along, across), (0.0, across)]])
        }
        _ => None,
    };
    let Some(own) = own else { return Outline { lines: vec![room(cut)], along } };
    let lines: Vec<Vec<Place>> =
        own.into_iter().map(|line| line.into_iter().map(|place| turned(cut, mirrored(cut, place))).collect()).collect();
    let least = |pick: fn(&Place) -> f64| lines.iter().flatten().map(pick).fold(f64::INFINITY, f64::min);
    let (low_along, low_across) = (least(|place| place.0), least(|place| place.1));
    let (from, across_from) = (cut.from.steps(), cut.across_from.steps());
    let moved = |(along, across): Place| (along - low_along + from, across - low_across + across_from);
    Outline { lines: lines.into_iter().map(|line| line.into_iter().map(moved).collect()).collect(), along }
}

fn room(cut: &Cut) -> Vec<Place> {
    let (from, to) = (cut.from.steps(), cut.to.steps());
    let (left, right) = (cut.across_from.steps(), cut.across_to.steps());
    vec![(from, left), (to, left), (to, right), (from, right)]
}

fn mirrored(cut: &Cut, (along, across): Place) -> Place {
    if cut.mirrored { (along, -across) } else { (along, across) }
}

fn turned(cut: &Cut, (along, across): Place) -> Place {
    let (along, across) = match cut.lie {
        Lie::Along => (along, across),
        Lie::Across => (-across, along),
        Lie::Bias => ((along - across) * FRAC_1_SQRT_2, (along + across) * FRAC_1_SQRT_2),
    };
    if cut.reversed { (-along, -across) } else { (along, across) }
}

/// The lines of a sector: the first straight edge lies along the piece, and the rest turns from it towards across.
fn sector(inner: f64, outer: f64, turn: f64) -> Vec<Vec<Place>> {
    if turn >= 1.0 {
        return [outer, inner].into_iter().filter(|radius| *radius > 0.0).map(|radius| arc(radius, 1.0)).collect();
    }
    let (hem, waist) = (arc(outer, turn), arc(inner, turn));
    let back = if inner > 0.0 { waist.into_iter().rev().collect() } else { vec![(0.0, 0.0)] };
    vec![hem.into_iter().chain(back).collect()]
}

fn arc(radius: f64, turn: f64) -> Vec<Place> {
    let steps = (STEPS * turn).ceil().max(2.0);
    let mut places = Vec::new();
    let mut step = 0.0;
    while step <= steps {
        let angle = step / steps * turn * TAU;
        places.push((radius * angle.cos(), radius * angle.sin()));
        step += 1.0;
    }
    places
}

/// The area of the piece itself.
pub(super) fn area(report: &PlanReport<'_>, cut: &Cut) -> Area {
    let room = || (cut.to - cut.from) * (cut.across_to - cut.across_from);
    match report.pieces.get(cut.entry).map(|piece| &*piece.shape) {
        Some(Shape::Sector { inner, outer, turn }) if cut.part.is_none() => {
            (*outer * *outer - *inner * *inner) * (PI * turn)
        }
        Some(Shape::Outline(points)) if cut.part.is_none() => {
            let next = points.iter().cycle().skip(1);
            let twice: Area =
                points.iter().zip(next).map(|(here, next)| here.along * next.across - next.along * here.across).sum();
            (if twice.is_positive() { twice } else { -twice }) * 0.5
        }
        Some(Shape::Rectangle { along, across }) if cut.lie == Lie::Bias => *along * *across,
        _ => room(),
    }
}

pub(super) fn length(steps: f64) -> Length {
    Length::from_steps(steps)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::{CutPiece, Goods, Layers, OutlinePoint};
    use crate::plans::tests::{plan_of, report};

    /// A right-angled flag, 30 cm along and 10 cm across, its right angle at the corner it starts from.
    fn lying(lie: Lie, reversed: bool, is_mirrored: bool) -> Vec<(f64, f64)> {
        let centimetres = Length::centimetres;
        let corner = |along, across| OutlinePoint { along: centimetres(along), across: centimetres(across) };
        let shape = Shape::Outline(vec![corner(0.0, 0.0), corner(30.0, 0.0), corner(0.0, 10.0)]);
        let cut = Cut { lie, reversed, mirrored: is_mirrored, ..cut(None) };
        let (outline, area) = outlined(shape, &cut);
        assert!((area.steps() / centimetres(1.0).steps().powi(2) - 150.0).abs() < 1e-9);
        let centimetre = centimetres(1.0).steps();
        let places = outline.lines.concat();
        places.iter().map(|(along, across)| ((along / centimetre).round(), (across / centimetre).round())).collect()
    }

    /// Own geometry: where the right angle, the far end along and the far end across come to lie.
    #[test]
    fn a_piece_lies_as_its_cut_says() {
        assert_eq!(lying(Lie::Along, false, false), [(100.0, 20.0), (130.0, 20.0), (100.0, 30.0)]);
        assert_eq!(lying(Lie::Along, false, true), [(100.0, 30.0), (130.0, 30.0), (100.0, 20.0)]);
        assert_eq!(lying(Lie::Along, true, false), [(130.0, 30.0), (100.0, 30.0), (130.0, 20.0)]);
        // A quarter turn: along the piece runs across the cloth, across the piece back along it.
        assert_eq!(lying(Lie::Across, false, false), [(110.0, 20.0), (110.0, 50.0), (100.0, 20.0)]);
        assert_eq!(lying(Lie::Across, true, false), [(100.0, 50.0), (100.0, 20.0), (110.0, 50.0)]);
    }

    const ROOT: f64 = FRAC_1_SQRT_2;

    /// Own geometry: a point 3 along and 1 across, at an eighth of a turn 2·√½ along and 4·√½ across.
    #[test]
    fn which_way_a_point_is_turned() {
        for (lie, plain) in
            [(Lie::Along, (3.0, 1.0)), (Lie::Across, (-1.0, 3.0)), (Lie::Bias, (2.0 * ROOT, 4.0 * ROOT))]
        {
            for reversed in [false, true] {
                let (along, across) = turned(&Cut { lie, reversed, ..cut(None) }, (3.0, 1.0));
                let sign = if reversed { -1.0 } else { 1.0 };
                assert!((along - sign * plain.0).abs() < 1e-12 && (across - sign * plain.1).abs() < 1e-12, "{lie:?}");
            }
        }
        assert_eq!(mirrored(&Cut { mirrored: true, ..cut(None) }, (3.0, 1.0)), (3.0, -1.0));
        assert_eq!(mirrored(&cut(None), (3.0, 1.0)), (3.0, 1.0));
    }

    /// Own geometry: 96 steps make a turn, so a quarter has 24 of them and a sliver two; each point lies on the arc.
    #[test]
    fn arcs_are_drawn_by_steps() {
        for (turn, steps) in [(0.25, 24), (0.5, 48), (1.0, 96), (0.251, 25), (0.001, 2)] {
            let arc = arc(10.0, turn);
            assert_eq!(arc.len(), steps + 1, "{turn}");
            assert!(arc.iter().all(|(along, across)| (along.hypot(*across) - 10.0).abs() < 1e-9));
            let (first, last) = (arc[0], arc[steps]);
            let angle = turn * TAU;
            assert!((first.0 - 10.0).abs() < 1e-12 && first.1.abs() < 1e-12);
            assert!((last.0 - 10.0 * angle.cos()).abs() < 1e-9 && (last.1 - 10.0 * angle.sin()).abs() < 1e-9);
        }
        let quarter = arc(10.0, 0.25);
        assert!((quarter[12].0 - 10.0 * ROOT).abs() < 1e-9 && (quarter[12].1 - 10.0 * ROOT).abs() < 1e-9);
    }

    #[test]
    fn a_sector_is_one_line_and_a_ring_two() {
        let sizes = |inner, outer, turn| sector(inner, outer, turn).iter().map(Vec::len).collect::<Vec<_>>();
        assert_eq!(sizes(0.0, 10.0, 0.25), [26]);
        assert_eq!(sizes(4.0, 10.0, 0.25), [50]);
        assert_eq!((sizes(0.0, 10.0, 1.0), sizes(4.0, 10.0, 1.0)), (vec![97], vec![97, 97]));
        // Out along the hem, and back along the waist from its far end.
        let line = &sector(4.0, 10.0, 0.25)[0];
        let near = |place: Place, wanted: Place| (place.0 - wanted.0).hypot(place.1 - wanted.1) < 1e-9;
        assert!(near(line[0], (10.0, 0.0)) && near(line[24], (0.0, 10.0)));
        assert!(near(line[25], (0.0, 4.0)) && near(line[49], (4.0, 0.0)));
        assert!(near(sector(0.0, 10.0, 0.25)[0][25], (0.0, 0.0)));
    }

    fn cut(part: Option<crate::cutting::JoinedPart>) -> Cut {
        let centimetres = Length::centimetres;
        Cut {
            entry: 0,
            number: 1,
            piece: "flag".into(),
            order: None,
            from: centimetres(100.0),
            to: centimetres(130.0),
            across_from: centimetres(20.0),
            across_to: centimetres(30.0),
            lie: Lie::Along,
            through: Layers::One,
            reversed: false,
            mirrored: false,
            part,
        }
    }

    /// What a cut of this shape is drawn as, and its area.
    fn outlined(shape: Shape, cut: &Cut) -> (Outline, Area) {
        let pieces = [CutPiece::new("flag", 1, shape)];
        let goods = Goods::cloth(Length::centimetres(100.0));
        let plan = plan_of(Vec::new());
        let report = report(&pieces, &goods, &plan);
        (outline(&report, cut), area(&report, cut))
    }

    /// The corners of its only line, in nanometres.
    fn drawn_exactly(shape: Shape, cut: &Cut) -> Vec<Place> {
        outlined(shape, cut).0.lines.concat()
    }

    /// The corners of a cut's lines, and its area, in whole centimetres and their squares.
    fn drawn(shape: Shape, cut: &Cut) -> (Vec<Vec<(f64, f64)>>, f64) {
        let (outline, area) = outlined(shape, cut);
        let centimetre = Length::centimetres(1.0).steps();
        let round = |place: &Place| ((place.0 / centimetre).round(), (place.1 / centimetre).round());
        let lines = outline.lines.iter().map(|line| line.iter().map(round).collect()).collect();
        (lines, area.steps() / centimetre.powi(2))
    }

    /// By hand: the room of the cut is 30 by 10; only shaped pieces, and straight ones on the bias, are less than their room.
    #[test]
    fn straight_pieces_and_parts_fill_the_room_of_their_cut() {
        let centimetres = Length::centimetres;
        let room = vec![vec![(100.0, 20.0), (130.0, 20.0), (130.0, 30.0), (100.0, 30.0)]];
        let rectangle = || Shape::Rectangle { along: centimetres(6.0), across: centimetres(8.0) };
        let sector = |turn| Shape::Sector { inner: centimetres(3.0), outer: centimetres(5.0), turn };
        let corner = |along, across| OutlinePoint { along: centimetres(along), across: centimetres(across) };
        let flag = || Shape::Outline(vec![corner(0.0, 10.0), corner(30.0, 0.0), corner(0.0, 0.0)]);
        let part = Some(crate::cutting::JoinedPart { number: 1, of: 2 });
        for (shape, part) in [
            (Shape::FullWidth { along: centimetres(6.0) }, None),
            (rectangle(), None),
            (rectangle(), part),
            (sector(0.5), part),
            (flag(), part),
        ] {
            assert_eq!(drawn(shape.clone(), &cut(part)), (room.clone(), 300.0), "{shape:?}");
        }
        // To the nanometre: a corner at 0 is at the low corner of its room.
        let corners = |cut: &Cut| drawn_exactly(rectangle(), cut);
        let half = FRAC_1_SQRT_2 * 1e7;
        let wanted = [(100e7 + 8.0 * half, 20e7), (100e7 + 14.0 * half, 20e7 + 6.0 * half)];
        let found = corners(&Cut { lie: Lie::Bias, ..cut(None) });
        for (place, (along, across)) in wanted.into_iter().enumerate() {
            assert!((found[place].0 - along).abs() < 0.1 && (found[place].1 - across).abs() < 0.1, "{found:?}");
        }
        // Half a turn of π · (25 - 9), and half of 30 by 10, whichever way round it is given.
        let (lines, area) = drawn(sector(0.5), &cut(None));
        assert!(lines[0].len() == 98 && (area - 8.0 * PI).abs() < 1e-9);
        let (lines, area) = drawn(flag(), &cut(None));
        assert_eq!(lines, [[(100.0, 30.0), (130.0, 20.0), (100.0, 20.0)]]);
        assert!((area - 150.0).abs() < 1e-9);
        // By the cross products of its sides: -7, 23, 10 and -2 come to twice 12.
        let askew = [(1.0, 2.0), (5.0, 3.0), (4.0, 7.0), (2.0, 6.0)].map(|(along, across)| corner(along, across));
        assert!((drawn(Shape::Outline(askew.to_vec()), &cut(None)).1 - 12.0).abs() < 1e-9);
        // On the bias 6 by 8 lies askew: 8·√½ before its low corner, 6·√½ and 14·√½ on; its area is its own.
        let bias = Cut { lie: Lie::Bias, ..cut(None) };
        let (lines, area) = drawn(rectangle(), &bias);
        assert_eq!(lines, [[(106.0, 20.0), (110.0, 24.0), (104.0, 30.0), (100.0, 26.0)]]);
        assert!((area - 48.0).abs() < 1e-9);
    }

    /// Along a piece runs along the goods, across them, or by half to each; turned half round, back.
    #[test]
    fn which_way_a_piece_lies() {
        let shape = || Shape::FullWidth { along: Length::centimetres(6.0) };
        let way = |lie, reversed| outlined(shape(), &Cut { lie, reversed, ..cut(None) }).0.along;
        let cases = [(Lie::Along, (1.0, 0.0)), (Lie::Across, (0.0, 1.0)), (Lie::Bias, (FRAC_1_SQRT_2, FRAC_1_SQRT_2))];
        for (lie, (along, across)) in cases {
            let (ahead, back) = (way(lie, false), way(lie, true));
            assert!((ahead.0 - along).abs() < 1e-12 && (ahead.1 - across).abs() < 1e-12, "{lie:?}: {ahead:?}");
            assert!((back.0 + along).abs() < 1e-12 && (back.1 + across).abs() < 1e-12, "{lie:?}: {back:?}");
        }
    }
}
