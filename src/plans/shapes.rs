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
    use crate::cutting::{CuttingPlan, PlanQuality};
    use crate::piece::{CutPiece, Goods, Layers, OutlinePoint};
    use std::collections::BTreeMap;

    /// A right-angled flag, 30 cm along and 10 cm across, its right angle at the corner it starts from.
    fn lying(lie: Lie, reversed: bool, is_mirrored: bool) -> Vec<(f64, f64)> {
        let centimetres = Length::centimetres;
        let corner = |along, across| OutlinePoint { along: centimetres(along), across: centimetres(across) };
        let shape = Shape::Outline(vec![corner(0.0, 0.0), corner(30.0, 0.0), corner(0.0, 10.0)]);
        let pieces = [CutPiece::new("flag", 1, shape)];
        let goods = Goods::cloth(centimetres(100.0));
        let plan = CuttingPlan {
            uses: Vec::new(),
            bought: Vec::new(),
            length_used: Length::ZERO,
            lower_bound: Length::ZERO,
            quality: PlanQuality { aim: crate::cutting::Aim::Length, bound_ratio: 1.0, proved: true, stopped: false },
            cost: None,
            pieces: BTreeMap::new(),
            joins: BTreeMap::new(),
            notes: Vec::new(),
        };
        let report = PlanReport {
            name: None,
            pieces: &pieces,
            panels: &[],
            goods: &goods,
            plan: &plan,
            keep_from: None,
            washed_first: None,
            shelf: &[],
        };
        let cut = Cut {
            entry: 0,
            number: 1,
            piece: "flag".into(),
            order: None,
            from: centimetres(100.0),
            to: centimetres(130.0),
            across_from: centimetres(20.0),
            across_to: centimetres(30.0),
            lie,
            through: Layers::One,
            reversed,
            mirrored: is_mirrored,
            part: None,
        };
        assert!((area(&report, &cut).steps() / centimetres(1.0).steps().powi(2) - 150.0).abs() < 1e-9);
        let centimetre = centimetres(1.0).steps();
        let places = outline(&report, &cut).lines.concat();
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
}
