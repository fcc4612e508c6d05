//! Where the judge's rules on folded cloth end: a plan just within each, and one that is a nanometre or a word beyond. All
//! by hand.

use super::hand::{HandPlan, only, sound};
use super::judged_places::{cut, hand};
use super::scene::{full, nm, oblong};
use super::*;
use crate::cutting::verify::{LayersWrong, PlanError};

fn folded(width: i64, pieces: Vec<CutPiece>) -> HandPlan {
    let mut hand = hand(width, pieces);
    hand.manner.laid = Laid::Folded;
    hand
}

fn layers(why: LayersWrong) -> impl Fn(&PlanError) -> bool {
    move |error| matches!(error, PlanError::Layers { why: found, .. } if *found == why)
}

/// The fold of 1001 is at 500.5: half a nanometre over it is rounding.
#[test]
fn a_piece_of_one_layer_reaches_the_fold_from_either_side() {
    for (width, from, right) in [
        (1_000, 200, true),
        (1_000, 201, false),
        (1_000, 499, false),
        (1_000, 500, true),
        (1_001, 201, true),
        (1_001, 202, false),
        (1_001, 499, false),
        (1_001, 500, true),
        (1_001, 701, true),
    ] {
        let hand = folded(width, vec![oblong("cuff", 1, 70, 300)]);
        let errors = hand.on_cloth(vec![cut(&hand, 0, 1, [0, 70, from, from + 300])]);
        assert_eq!(errors.is_empty(), right, "{width} {from}: {errors:?}");
        assert!(errors.iter().all(layers(LayersWrong::AcrossFold)));
    }
}

#[test]
fn the_middle_of_a_piece_on_the_fold_is_a_nanometre_off_at_most() {
    for (width, from, right) in [
        (1_000, 298, false),
        (1_000, 299, true),
        (1_000, 301, true),
        (1_000, 302, false),
        (1_001, 299, false),
        (1_001, 300, true),
        (1_001, 301, true),
        (1_001, 302, false),
    ] {
        let hand = folded(width, vec![CutPiece { on_fold: Some(Fold::Along), ..oblong("front", 1, 70, 400) }]);
        let front = Cut { through: Layers::Fold, ..cut(&hand, 0, 1, [0, 70, from, from + 400]) };
        let errors = hand.on_cloth(vec![front]);
        assert_eq!(errors.is_empty(), right, "{width} {from}: {errors:?}");
        assert!(errors.iter().all(layers(LayersWrong::OffFold)));
    }
}

#[test]
fn a_piece_is_folded_along_or_across_as_it_says() {
    for (fold, lie, right) in [
        (Some(Fold::Along), Lie::Along, true),
        (Some(Fold::Along), Lie::Across, false),
        (Some(Fold::Across), Lie::Across, true),
        (Some(Fold::Across), Lie::Along, false),
        (None, Lie::Along, false),
        (None, Lie::Across, false),
    ] {
        let front = CutPiece { on_fold: fold, grain: Grain::Any, ..oblong("front", 1, 70, 400) };
        let hand = folded(1_000, vec![front]);
        let marks = if lie == Lie::Along { [0, 70, 300, 700] } else { [0, 400, 465, 535] };
        let errors = hand.on_cloth(vec![Cut { through: Layers::Fold, lie, ..cut(&hand, 0, 1, marks) }]);
        assert_eq!(errors.is_empty(), right, "{fold:?} {lie:?}: {errors:?}");
        assert!(errors.iter().all(layers(LayersWrong::NotOnFold)));
    }
}

/// Beside a strip over the whole row, three pieces overlap one another across like links of a chain, and two of them along:
/// no straight cut frees them. Were they seen from the far half, two would be clear of the one on the fold.
#[test]
fn what_lies_on_the_near_half_is_seen_from_there() {
    let mut hand = folded(
        1_000,
        vec![
            full("band", 1, 50),
            CutPiece { on_fold: Some(Fold::Along), ..oblong("front", 1, 300, 400) },
            oblong("strip", 1, 800, 100),
            oblong("link", 2, 300, 200),
        ],
    );
    hand.manner.cuts = CutsRun::Straight;
    let fold = |cut: Cut| Cut { through: Layers::Fold, ..cut };
    let judged = |link: i64| {
        hand.on_cloth(vec![
            fold(cut(&hand, 0, 1, [0, 50, 0, 1_000])),
            cut(&hand, 2, 1, [50, 850, 0, 100]),
            fold(cut(&hand, 1, 1, [50, 350, 300, 700])),
            cut(&hand, 3, 1, [link, link + 300, 100, 300]),
            cut(&hand, 3, 2, [link + 300, link + 600, 200, 400]),
        ])
    };
    sound(&judged(350));
    let errors = judged(249);
    assert_eq!(errors, [PlanError::NotStraight { stock: "new cloth".into(), at: nm(50) }]);
}

/// Only cloth is folded, whatever the manner of the whole task.
#[test]
fn a_roll_of_strips_lies_single() {
    let mut hand = folded(700, vec![full("strip", 1, 40)]);
    hand.goods.kind = GoodsKind::Roll;
    let mut plan = hand.plan(vec![hand.new_cloth(vec![cut(&hand, 0, 1, [0, 40, 0, 700])])]);
    plan.uses[0].folded = false;
    sound(&hand.errors(&plan));
    plan.uses[0].folded = true;
    assert!(hand.errors(&plan).iter().any(|error| matches!(error, PlanError::WronglyLaid { .. })));
}

/// Squares of 300, so that they lie either way in the same place.
#[test]
fn twins_lie_alike() {
    let hand = folded(1_000, vec![CutPiece { grain: Grain::Any, ..oblong("square", 2, 300, 300) }]);
    let judged = |change: fn(&mut Cut)| {
        let both = |cut: Cut| Cut { through: Layers::Both, ..cut };
        let near = both(cut(&hand, 0, 1, [0, 300, 0, 300]));
        let mut far = both(cut(&hand, 0, 2, [0, 300, 700, 1_000]));
        change(&mut far);
        hand.on_cloth(vec![near, far])
    };
    sound(&judged(|_| ()));
    only(&judged(|cut| cut.lie = Lie::Across), layers(LayersWrong::NotItsImage));
    only(&judged(|cut| cut.reversed = true), layers(LayersWrong::NotItsImage));
    only(&judged(|cut| (cut.across_from, cut.across_to) = (nm(699), nm(999))), layers(LayersWrong::NoTwin));
    only(&judged(|cut| cut.through = Layers::One), layers(LayersWrong::NoTwin));
}

/// Of 420 in two parts of 220, each with an allowance of 10: the twin of a first part is a first part.
#[test]
fn twins_are_the_same_part_of_their_pieces() {
    let frill = CutPiece { may_join: Some(JoinRule::new(1, nm(50), nm(10))), ..oblong("frill", 2, 100, 420) };
    let hand = folded(1_000, vec![frill]);
    let judged = |far: [i64; 2]| {
        let part = |number, part: i64, from: i64, across: i64| {
            let cut = cut(&hand, 0, number, [from, from + 100, across, across + 220]);
            Cut { through: Layers::Both, part: Some(JoinedPart { number: part, of: 2 }), ..cut }
        };
        let cuts = vec![part(1, 1, 0, 0), part(1, 2, 100, 0), part(2, 1, far[0], 780), part(2, 2, far[1], 780)];
        let mut plan = hand.plan(vec![hand.new_cloth(cuts)]);
        plan.joins.insert("frill".into(), 2);
        hand.errors(&plan)
    };
    sound(&judged([0, 100]));
    only(&judged([100, 0]), layers(LayersWrong::NotItsImage));
}

/// A part lies on the fold only as a full width does.
#[test]
fn a_joined_piece_is_not_cut_on_the_fold_unless_it_is_a_full_width() {
    let judged = |shape: Shape, across: [i64; 2]| {
        let front = CutPiece {
            on_fold: Some(Fold::Along),
            may_join: Some(JoinRule::new(1, nm(50), nm(10))),
            ..CutPiece::new("front", 1, shape)
        };
        let hand = folded(1_000, vec![front]);
        let part = |number, from, to| {
            let cut = cut(&hand, 0, 1, [from, to, across[0], across[1]]);
            Cut { through: Layers::Fold, part: Some(JoinedPart { number, of: 2 }), ..cut }
        };
        let mut plan = hand.plan(vec![hand.new_cloth(vec![part(1, 0, 180), part(2, 180, 320)])]);
        plan.joins.insert("front".into(), 1);
        hand.errors(&plan)
    };
    sound(&judged(Shape::FullWidth { along: nm(300) }, [0, 1_000]));
    let oblong = Shape::Rectangle { along: nm(300), across: nm(400) };
    only(&judged(oblong, [300, 700]), layers(LayersWrong::NotOnFold));
}
