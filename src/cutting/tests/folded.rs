//! Cloth that is cut folded: twins are mirror images in mirrored places, a piece on the fold opens to a whole one.

use super::hand::{HandPlan, only, outline, overlaps, sound, whole};
use super::*;
use crate::cutting::verify::LayersWrong;
use crate::cutting::verify::PlanError;

/// Cloth 140 wide, folded, with a sleeve in pairs, a front on the fold, two pockets, a cuff and a strip.
fn scene() -> (HandPlan, Vec<Cut>) {
    let sleeve = outline("sleeve", 2, &[(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 30.0)]);
    let front = rectangle("front", 1, cm(50.0), cm(40.0));
    let mut hand = HandPlan::cloth(
        140.0,
        vec![
            CutPiece { mirrored: true, ..sleeve },
            CutPiece { on_fold: Some(Fold::Along), ..front },
            rectangle("pocket", 2, cm(20.0), cm(15.0)),
            rectangle("cuff", 1, cm(20.0), cm(15.0)),
            strips(1, cm(10.0)),
        ],
    );
    hand.manner.laid = Laid::Folded;
    let both = |cut: Cut| Cut { through: Layers::Both, ..cut };
    let fold = |cut: Cut| Cut { through: Layers::Fold, ..cut };
    let cuts = vec![
        both(hand.cut(0, 1, [0.0, 40.0, 0.0, 30.0])),
        both(Cut { mirrored: true, ..hand.cut(0, 2, [0.0, 40.0, 110.0, 140.0]) }),
        fold(hand.cut(1, 1, [0.0, 50.0, 50.0, 90.0])),
        both(hand.cut(2, 1, [0.0, 20.0, 30.0, 45.0])),
        both(hand.cut(2, 2, [0.0, 20.0, 95.0, 110.0])),
        hand.cut(3, 1, [20.0, 40.0, 30.0, 45.0]),
        fold(hand.cut(4, 1, [50.0, 60.0, 0.0, 140.0])),
    ];
    (hand, cuts)
}

fn layers(why: LayersWrong) -> impl Fn(&PlanError) -> bool {
    move |error| matches!(error, PlanError::Layers { why: found, .. } if *found == why)
}

/// Damages the sound cuts and expects an error of this kind among those found.
#[track_caller]
fn refuses(damage: impl Fn(&mut HandPlan, &mut Vec<Cut>), kind: impl Fn(&PlanError) -> bool) {
    let (mut hand, mut cuts) = scene();
    damage(&mut hand, &mut cuts);
    let errors = hand.on_cloth(cuts);
    assert!(errors.iter().any(kind), "found only {errors:?}");
    assert!(errors.iter().all(|error| !error.to_string().is_empty()));
}

fn shift(cut: &mut Cut, by: f64) {
    cut.across_from = cut.across_from + whole(by);
    cut.across_to = cut.across_to + whole(by);
}

#[test]
fn a_sound_plan_on_folded_cloth() {
    let (hand, cuts) = scene();
    sound(&hand.on_cloth(cuts));
}

#[test]
fn cloth_lies_as_it_is_said_to() {
    let other = |error: &PlanError| matches!(error, PlanError::WronglyLaid { .. });
    let (hand, cuts) = scene();
    let mut plan = hand.plan(vec![hand.new_cloth(cuts)]);
    plan.uses[0].folded = false;
    let errors = hand.errors(&plan);
    assert!(errors.iter().any(other) && errors.iter().any(layers(LayersWrong::OneLayer)), "{errors:?}");
    // Open cloth that the plan has as folded.
    let mut open = HandPlan::cloth(140.0, vec![rectangle("cuff", 1, cm(20.0), cm(15.0))]);
    let cuts = vec![open.cut(0, 1, [0.0, 20.0, 30.0, 45.0])];
    sound(&open.on_cloth(cuts.clone()));
    let mut plan = open.plan(vec![open.new_cloth(cuts.clone())]);
    plan.uses[0].folded = true;
    only(&open.errors(&plan), other);
    let doubled = Cut { through: Layers::Both, ..cuts[0].clone() };
    only(&open.on_cloth(vec![doubled]), layers(LayersWrong::OneLayer));
    // On open cloth a piece that may be on a fold lies whole.
    open.pieces[0].on_fold = Some(Fold::Along);
    sound(&open.on_cloth(cuts));
}

#[test]
fn twins_are_mirror_images_in_mirrored_places() {
    refuses(|_, cuts| shift(&mut cuts[4], 0.000_000_1), layers(LayersWrong::NoTwin));
    refuses(|_, cuts| cuts[4].through = Layers::One, layers(LayersWrong::NoTwin));
    refuses(|_, cuts| drop(cuts.remove(4)), layers(LayersWrong::NoTwin));
    refuses(|_, cuts| cuts[4].number = 1, layers(LayersWrong::NoTwin));
    refuses(|_, cuts| cuts[1].mirrored = false, layers(LayersWrong::NotItsImage));
    refuses(|_, cuts| cuts[0].mirrored = true, layers(LayersWrong::NotItsImage));
    refuses(|_, cuts| cuts[1].reversed = true, layers(LayersWrong::NotItsImage));
    refuses(|_, cuts| cuts[4].mirrored = true, layers(LayersWrong::NotItsImage));
    // Twins that are not mirrored must be their own mirror images.
    refuses(
        |hand, cuts| {
            hand.pieces[0].mirrored = false;
            cuts[1].mirrored = false;
        },
        layers(LayersWrong::Uneven),
    );
    let even = |corners: &[(f64, f64)]| {
        let (mut hand, mut cuts) = scene();
        hand.pieces[0] = outline("sleeve", 2, corners);
        cuts[1].mirrored = false;
        hand.on_cloth(cuts)
    };
    sound(&even(&[(0.0, 0.0), (40.0, 5.0), (40.0, 25.0), (0.0, 30.0)]));
    only(&even(&[(0.0, 0.0), (40.0, 5.0), (40.0, 24.9), (0.0, 30.0)]), layers(LayersWrong::Uneven));
}

#[test]
fn nothing_else_lies_across_the_fold() {
    // It overlaps the front as well; the fold is what matters here.
    refuses(|_, cuts| shift(&mut cuts[5], 30.0), layers(LayersWrong::AcrossFold));
    refuses(
        |_, cuts| {
            cuts[6].through = Layers::One;
        },
        layers(LayersWrong::AcrossFold),
    );
    // On the other layer it may lie in the mirrored place.
    let (hand, mut cuts) = scene();
    shift(&mut cuts[5], 65.0);
    sound(&hand.on_cloth(cuts));
    let (mut hand, mut cuts) = scene();
    hand.pieces[3].count = 2;
    cuts.push(hand.cut(3, 2, [20.0, 40.0, 95.0, 110.0]));
    sound(&hand.on_cloth(cuts));
}

#[test]
fn what_is_on_the_fold_may_be_and_has_its_middle_there() {
    refuses(|hand, _| hand.pieces[1].on_fold = None, layers(LayersWrong::NotOnFold));
    refuses(|hand, _| hand.pieces[1].on_fold = Some(Fold::Across), layers(LayersWrong::NotOnFold));
    refuses(|_, cuts| shift(&mut cuts[2], 0.000_000_2), layers(LayersWrong::OffFold));
    let hair = |by: f64| {
        let (hand, mut cuts) = scene();
        shift(&mut cuts[2], by);
        hand.on_cloth(cuts)
    };
    sound(&hair(0.000_000_1));
    let drawn = |corners: &[(f64, f64)]| {
        let (mut hand, cuts) = scene();
        hand.pieces[1] = CutPiece { on_fold: Some(Fold::Along), ..outline("front", 1, corners) };
        hand.on_cloth(cuts)
    };
    sound(&drawn(&[(0.0, 0.0), (50.0, 10.0), (45.0, 20.0), (50.0, 30.0), (0.0, 40.0)]));
    only(&drawn(&[(0.0, 0.0), (50.0, 10.0), (45.0, 21.0), (50.0, 30.0), (0.0, 40.0)]), layers(LayersWrong::Uneven));
}

/// Half a circle on the fold, its room rounded up to a mark: it lies in the middle of that room.
#[test]
fn a_round_piece_on_the_fold_lies_in_the_middle_of_its_room() {
    let half = Shape::Sector { inner: cm(5.0), outer: cm(30.3), turn: 0.5 };
    let skirt = CutPiece {
        grain: Grain::Across,
        on_fold: Some(Fold::Across),
        ..CutPiece::new("skirt", 1, half).with_mark(Some(cm(1.0)))
    };
    let mut hand = HandPlan::cloth(140.0, vec![skirt, rectangle("patch", 1, cm(5.0), cm(5.0))]);
    hand.manner.laid = Laid::Folded;
    let skirt =
        |hand: &HandPlan| Cut { through: Layers::Fold, lie: Lie::Across, ..hand.cut(0, 1, [0.0, 31.0, 39.5, 100.5]) };
    let with = |hand: &HandPlan, across: f64| {
        let patch = hand.cut(1, 1, [26.0, 31.0, across, across + 5.0]);
        hand.on_cloth(vec![skirt(hand), patch])
    };
    // Its straight edge is at 30.3 along, 0.7 before the end of its room, from 39.7 to 100.3 across.
    sound(&with(&hand, 34.7));
    only(&with(&hand, 34.701), overlaps);
    sound(&with(&hand, 100.3));
    only(&with(&hand, 100.299), overlaps);
    hand.pieces[0].grain = Grain::Along;
    let along = Cut { lie: Lie::Along, ..hand.cut(0, 1, [0.0, 61.0, 54.5, 85.5]) };
    let patch = hand.cut(1, 1, [70.0, 75.0, 0.0, 5.0]);
    only(&hand.on_cloth(vec![Cut { through: Layers::Fold, ..along }, patch]), layers(LayersWrong::NotOnFold));
}

/// The farther twin is the image of the nearer one, with its spare room.
#[test]
fn the_farther_twin_ends_at_its_mark() {
    let (mut hand, mut cuts) = scene();
    hand.pieces[0] = CutPiece {
        mirrored: true,
        ..outline("sleeve", 2, &[(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 29.5)]).with_mark(Some(cm(1.0)))
    };
    shift(&mut cuts[3], -0.5);
    shift(&mut cuts[4], 0.5);
    sound(&hand.on_cloth(cuts.clone()));
    for (entry, by) in [(3, -0.001), (4, 0.001)] {
        let mut cuts = cuts.clone();
        shift(&mut cuts[entry], by);
        assert!(hand.on_cloth(cuts).iter().any(overlaps), "{entry}");
    }
}
