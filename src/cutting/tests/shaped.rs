//! Shaped pieces are judged by their true outlines: touching is accepted, ten micrometres of overlap are not.

use super::hand::{HandPlan, only, outline, overlaps, sound, whole};
use super::*;
use crate::cutting::verify::PlanError;

/// Ten micrometres, in centimetres.
const TEN: f64 = 0.001;

/// A gore: 60 long, 20 wide at its foot and 10 at its head.
fn gore(count: i64) -> CutPiece {
    outline("gore", count, &[(0.0, 0.0), (0.0, 20.0), (60.0, 15.0), (60.0, 5.0)])
}

fn disc(name: &str, radius: f64) -> CutPiece {
    CutPiece::new(name, 1, Shape::Sector { inner: cm(0.0), outer: cm(radius), turn: 1.0 })
}

#[test]
fn gores_nest_head_to_foot() {
    let hand = HandPlan::cloth(100.0, vec![gore(2)]);
    let with = |hand: &HandPlan, across: f64, reversed: bool| {
        let second = Cut { reversed, ..hand.cut(0, 2, [0.0, 60.0, across, across + 20.0]) };
        hand.on_cloth(vec![hand.cut(0, 1, [0.0, 60.0, 0.0, 20.0]), second])
    };
    sound(&with(&hand, 15.0, true));
    sound(&with(&hand, 16.0, true));
    only(&with(&hand, 15.0 - 2.0 * TEN, true), overlaps);
    only(&with(&hand, 15.0, false), overlaps);
    sound(&with(&hand, 20.0, false));
    only(&with(&hand, 20.0 - TEN, false), overlaps);
    // Between shaped pieces no loss per cut is required.
    let lossy = HandPlan { goods: Goods { loss_per_cut: cm(1.0), ..Goods::cloth(cm(100.0)) }, ..hand };
    sound(&with(&lossy, 15.0, true));
    let napped = HandPlan { goods: Goods { napped: true, ..Goods::cloth(cm(100.0)) }, ..lossy };
    only(&with(&napped, 15.0, true), |error| matches!(error, PlanError::AgainstNap { .. }));
    let head_up = HandPlan::cloth(100.0, vec![CutPiece { one_way: true, ..gore(2) }]);
    only(&with(&head_up, 15.0, true), |error| matches!(error, PlanError::NotHeadUp { .. }));
    sound(&with(&head_up, 20.0, false));
}

#[test]
fn a_head_is_not_turned_by_choice() {
    let band = CutPiece { grain: Grain::Any, one_way: true, ..rectangle("band", 1, cm(100.0), cm(10.0)) };
    let hand = HandPlan::cloth(140.0, vec![band]);
    let turned = Cut { lie: Lie::Across, ..hand.cut(0, 1, [0.0, 10.0, 0.0, 100.0]) };
    only(&hand.on_cloth(vec![turned]), |error| matches!(error, PlanError::NotHeadUp { .. }));
    let plan = planned(&hand.pieces, &hand.goods, &[], &Supply::Endless).unwrap();
    assert_eq!(plan.uses[0].cuts[0].lie, Lie::Along);
}

/// Two right triangles make a rectangle if the second is turned half round, and only then.
#[test]
fn every_point_of_a_piece_has_its_place() {
    let triangle = |grain| {
        let piece = outline("triangle", 2, &[(0.0, 0.0), (60.0, 0.0), (0.0, 20.0)]);
        HandPlan::cloth(100.0, vec![CutPiece { grain, mirrored: true, ..piece }])
    };
    for (grain, lie, room) in [
        (Grain::Along, Lie::Along, [0.0, 60.0, 0.0, 20.0]),
        (Grain::Across, Lie::Across, [0.0, 20.0, 0.0, 60.0]),
        // √½ · 80 along; across √½ · 60.
        (Grain::Bias, Lie::Bias, [0.0, 56.568_542_5, 0.0, 42.426_406_9]),
    ] {
        let hand = triangle(grain);
        let one = Cut { lie, ..hand.cut(0, 1, room) };
        let with = |number, reversed, mirrored, shift: f64| {
            let [from, to, across_from, across_to] = room;
            let cut = hand.cut(0, number, [from + shift, to + shift, across_from, across_to]);
            Cut { lie, reversed, mirrored, ..cut }
        };
        let judged = |second: Cut| {
            let mut plan = hand.plan(vec![hand.new_cloth(vec![one.clone(), second])]);
            plan.length_used = plan.uses[0].used;
            let mut errors = hand.errors(&plan);
            // Pairs do not matter here.
            errors.retain(|error| !matches!(error, PlanError::Mirrored { .. }));
            errors
        };
        only(&judged(with(2, false, false, 0.0)), overlaps);
        only(&judged(with(2, false, true, 0.0)), overlaps);
        only(&judged(with(2, true, true, 0.0)), overlaps);
        if lie == Lie::Bias {
            continue;
        }
        sound(&judged(with(2, true, false, 0.0)));
        only(&judged(with(2, true, false, -TEN * 4.0)), |error| {
            overlaps(error) || matches!(error, PlanError::OutsideLength { .. })
        });
    }
}

/// Lying across, a plain triangle fills the low corner of its room and its mirror image leaves it free.
#[test]
fn a_mirror_image_is_turned_the_other_way_about() {
    let triangle = outline("triangle", 1, &[(0.0, 0.0), (60.0, 0.0), (0.0, 20.0)]);
    let triangle = CutPiece { grain: Grain::Across, ..triangle };
    let hand = HandPlan::cloth(100.0, vec![triangle, rectangle("patch", 1, cm(5.0), cm(45.0))]);
    let with = |mirrored, reversed, along: f64, across: f64| {
        let cut = hand.cut(0, 1, [0.0, 20.0, 0.0, 60.0]);
        let patch = hand.cut(1, 1, [along, along + 5.0, across, across + 45.0]);
        let mut errors = hand.on_cloth(vec![Cut { lie: Lie::Across, mirrored, reversed, ..cut }, patch]);
        // A single piece and its image are no pair, which does not matter here.
        errors.retain(|error| !matches!(error, PlanError::Mirrored { .. }));
        errors
    };
    // The slanting edge of the plain one goes from the low corner to the high one, that of the image from the far
    // selvedge's side to the near one's: 15 across for each 5 along.
    for (mirrored, reversed, along, across) in
        [(false, false, 0.0, 15.0), (true, false, 0.0, 0.0), (false, true, 15.0, 0.0), (true, true, 15.0, 15.0)]
    {
        for (other_along, other_across) in [(0.0, 15.0), (0.0, 0.0), (15.0, 0.0), (15.0, 15.0)] {
            let errors = with(mirrored, reversed, other_along, other_across);
            if (along, across) == (other_along, other_across) {
                sound(&errors);
            } else {
                only(&errors, overlaps);
            }
        }
        let nearer = if across > 1.0 { -TEN } else { TEN };
        only(&with(mirrored, reversed, along, across + nearer), overlaps);
    }
}

#[test]
fn squares_on_the_bias_lie_corner_in_corner() {
    let square = CutPiece { grain: Grain::Bias, ..rectangle("square", 2, cm(10.0), cm(10.0)) };
    let hand = HandPlan::cloth(100.0, vec![square]);
    let diagonal = 14.142_135_6;
    let bias = |number, at: f64| Cut { lie: Lie::Bias, ..hand.cut(0, number, [at, at + diagonal, at, at + diagonal]) };
    sound(&hand.on_cloth(vec![bias(1, 0.0), bias(2, 7.071_067_8)]));
    only(&hand.on_cloth(vec![bias(1, 0.0), bias(2, 7.071_067_8 - TEN)]), overlaps);
}

#[test]
fn round_pieces_touch_and_lie_in_holes() {
    let ring = CutPiece::new("ring", 1, Shape::Sector { inner: cm(20.0), outer: cm(50.0), turn: 1.0 });
    let hand = HandPlan::cloth(140.0, vec![ring, disc("disc", 20.0)]);
    let with = |hand: &HandPlan, along: f64, across: f64, size: f64| {
        let disc = hand.cut(1, 1, [along, along + size, across, across + size]);
        hand.on_cloth(vec![hand.cut(0, 1, [0.0, 100.0, 0.0, 100.0]), disc])
    };
    // The disc fills the hole.
    sound(&with(&hand, 30.0, 30.0, 40.0));
    for (along, across) in [(TEN, 0.0), (0.0, TEN), (-TEN, 0.0), (TEN, -TEN), (1.0, 1.0)] {
        only(&with(&hand, 30.0 + along, 30.0 + across, 40.0), overlaps);
    }
    let larger = HandPlan::cloth(140.0, vec![hand.pieces[0].clone(), disc("disc", 20.0 + TEN)]);
    only(&with(&larger, 30.0 - TEN, 30.0 - TEN, 40.0 + 2.0 * TEN), overlaps);
    // On the ring itself, and outside, touching at 45 degrees: 70 · √½ is 49.497 474 68.
    only(&with(&hand, 0.0, 30.0, 40.0), overlaps);
    let at = 50.0 + 49.497_474_7 - 20.0;
    sound(&with(&hand, at, at, 40.0));
    only(&with(&hand, at - TEN, at - TEN, 40.0), overlaps);
    // A ring in a ring in a ring.
    let thin = |name: &str, inner, outer| {
        CutPiece::new(name, 1, Shape::Sector { inner: cm(inner), outer: cm(outer), turn: 1.0 })
    };
    let hand = HandPlan::cloth(140.0, vec![thin("a", 30.0, 40.0), thin("b", 20.0, 30.0), thin("c", 5.0, 20.0)]);
    let rings = |shift: f64| {
        hand.on_cloth(vec![
            hand.cut(0, 1, [0.0, 80.0, 0.0, 80.0]),
            hand.cut(1, 1, [10.0, 70.0, 10.0, 70.0]),
            hand.cut(2, 1, [20.0 + shift, 60.0 + shift, 20.0, 60.0]),
        ])
    };
    sound(&rings(0.0));
    only(&rings(TEN), overlaps);
}

/// A quarter ring takes a smaller one in its hollow.
#[test]
fn part_rings_lie_in_each_other() {
    let quarter = CutPiece::new("flounce", 2, Shape::Sector { inner: cm(30.0), outer: cm(40.0), turn: 0.25 });
    let hand = HandPlan::cloth(140.0, vec![quarter]);
    let with = |by: f64| {
        hand.on_cloth(vec![hand.cut(0, 1, [0.0, 40.0, 0.0, 40.0]), hand.cut(0, 2, [by, 40.0 + by, by, 40.0 + by])])
    };
    // Moved along the diagonal by 1 the rings overlap; by 40 they are clear of each other.
    only(&with(1.0), overlaps);
    sound(&with(40.0));
    let inner_one = CutPiece::new("yoke", 1, Shape::Sector { inner: cm(10.0), outer: cm(30.0), turn: 0.25 });
    let hand = HandPlan::cloth(140.0, vec![CutPiece { count: 1, ..hand.pieces[0].clone() }, inner_one]);
    let with = |by: f64| {
        hand.on_cloth(vec![hand.cut(0, 1, [0.0, 40.0, 0.0, 40.0]), hand.cut(1, 1, [by, 30.0 + by, by, 30.0 + by])])
    };
    sound(&with(0.0));
    only(&with(TEN), overlaps);
}

/// The room is rounded up to a mark of the tape, and the outline begins at its first mark.
#[test]
fn the_room_after_an_outline_may_be_lain_in() {
    let triangle = outline("triangle", 1, &[(0.0, 0.0), (59.5, 0.0), (59.5, 19.5)]);
    let hand =
        HandPlan::cloth(100.0, vec![triangle.with_mark(Some(cm(1.0))), rectangle("patch", 1, cm(10.0), cm(10.0))]);
    let with = |along: f64| {
        hand.on_cloth(vec![hand.cut(0, 1, [0.0, 60.0, 0.0, 20.0]), hand.cut(1, 1, [along, along + 10.0, 10.0, 20.0])])
    };
    sound(&with(59.5));
    only(&with(59.5 - TEN), overlaps);
    // The triangle is below 10 across up to 30.51 along.
    sound(&with(20.0));
    only(&with(21.0), overlaps);
}

#[test]
fn an_outline_that_crosses_itself_is_no_shape() {
    let bow = outline("bow", 1, &[(0.0, 0.0), (20.0, 20.0), (20.0, 0.0), (0.0, 10.0)]);
    let hand = HandPlan::cloth(100.0, vec![bow.clone()]);
    let errors = hand.on_cloth(vec![hand.cut(0, 1, [0.0, 20.0, 0.0, 20.0])]);
    only(&errors, |error| matches!(error, PlanError::NoShape { .. }));
    let error = planned(&[bow], &hand.goods, &[], &Supply::Endless).unwrap_err();
    assert_eq!(error, CuttingError::NoShape { piece: "bow".into() });
}

/// An offcut beside a shaped piece keeps clear of its bounding rectangle.
#[test]
fn offcuts_keep_clear_of_the_room_round_shapes() {
    let hand = HandPlan::cloth(100.0, vec![gore(1)]);
    let mut plan = hand.plan(vec![hand.new_cloth(vec![hand.cut(0, 1, [0.0, 60.0, 0.0, 20.0])])]);
    let offcut = |across: f64| Offcut { from: cm(0.0), to: cm(60.0), across_from: whole(across), across_to: cm(100.0) };
    plan.uses[0].offcuts = vec![offcut(20.0)];
    sound(&hand.errors(&plan));
    plan.uses[0].offcuts = vec![offcut(19.0)];
    only(&hand.errors(&plan), overlaps);
    plan.uses[0].offcuts = vec![offcut(20.0), offcut(90.0)];
    only(&hand.errors(&plan), overlaps);
}

/// Gores whose slanting edges all touch: no touch counts as an overlap, and one that is moved is found.
#[test]
fn two_thousand_gores_are_judged() {
    let hand = HandPlan::cloth(155.0, vec![gore(2_000)]);
    let mut cuts = Vec::new();
    let (mut row, mut place) = (0.0, 0.0);
    for number in 1..=2_000 {
        let reversed = number % 2 == 0;
        cuts.push(Cut { reversed, ..hand.cut(0, number, [row, row + 60.0, place, place + 20.0]) });
        place += 15.0;
        if place > 135.0 {
            (row, place) = (row + 60.0, 0.0);
        }
    }
    sound(&hand.on_cloth(cuts.clone()));
    let moved = &mut cuts[1_234];
    moved.across_from = moved.across_from + whole(2.0 * TEN);
    moved.across_to = moved.across_to + whole(2.0 * TEN);
    only(&hand.on_cloth(cuts), overlaps);
}
