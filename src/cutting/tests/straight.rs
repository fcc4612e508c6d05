//! Straight cuts from edge to edge, and ends that are squared off.

use super::hand::{HandPlan, only, outline, sound, whole};
use super::*;
use crate::cutting::verify::PlanError;

fn not_straight(error: &PlanError) -> bool {
    matches!(error, PlanError::NotStraight { .. })
}

#[test]
fn rows_columns_and_pieces_one_above_the_other() {
    let mut hand = HandPlan::cloth(
        60.0,
        vec![
            rectangle("tall", 1, cm(30.0), cm(20.0)),
            rectangle("short", 2, cm(15.0), cm(20.0)),
            rectangle("narrow", 1, cm(10.0), cm(10.0)),
            strips(1, cm(5.0)),
        ],
    );
    hand.manner.cuts = CutsRun::Straight;
    let cuts = |narrow: [f64; 4]| {
        vec![
            hand.cut(0, 1, [0.0, 30.0, 0.0, 20.0]),
            hand.cut(1, 1, [0.0, 15.0, 20.0, 40.0]),
            hand.cut(1, 2, [15.0, 30.0, 20.0, 40.0]),
            hand.cut(2, 1, narrow),
            hand.cut(3, 1, [30.0, 35.0, 0.0, 60.0]),
        ]
    };
    sound(&hand.on_cloth(cuts([10.0, 20.0, 50.0, 60.0])));
    sound(&hand.on_cloth(cuts([0.0, 10.0, 40.0, 50.0])));
}

/// A pinwheel: five pieces, none of which a straight cut can separate.
#[test]
fn a_pinwheel_is_refused_only_where_cuts_are_straight() {
    let mut hand = HandPlan::cloth(
        30.0,
        vec![
            rectangle("a", 2, cm(20.0), cm(10.0)),
            rectangle("b", 2, cm(10.0), cm(20.0)),
            rectangle("middle", 1, cm(10.0), cm(10.0)),
        ],
    );
    let cuts = vec![
        hand.cut(0, 1, [0.0, 20.0, 0.0, 10.0]),
        hand.cut(1, 1, [0.0, 10.0, 10.0, 30.0]),
        hand.cut(2, 1, [10.0, 20.0, 10.0, 20.0]),
        hand.cut(0, 2, [10.0, 30.0, 20.0, 30.0]),
        hand.cut(1, 2, [20.0, 30.0, 0.0, 20.0]),
    ];
    sound(&hand.on_cloth(cuts.clone()));
    hand.manner.cuts = CutsRun::Straight;
    only(&hand.on_cloth(cuts), not_straight);
}

#[test]
fn shaped_pieces_count_as_the_rectangles_round_them() {
    let gore = outline("gore", 2, &[(0.0, 0.0), (0.0, 20.0), (60.0, 15.0), (60.0, 5.0)]);
    let mut hand = HandPlan::cloth(100.0, vec![gore]);
    let with = |hand: &HandPlan, across: f64| {
        let second = Cut { reversed: true, ..hand.cut(0, 2, [0.0, 60.0, across, across + 20.0]) };
        hand.on_cloth(vec![hand.cut(0, 1, [0.0, 60.0, 0.0, 20.0]), second])
    };
    sound(&with(&hand, 15.0));
    hand.manner.cuts = CutsRun::Straight;
    only(&with(&hand, 15.0), not_straight);
    sound(&with(&hand, 20.0));
}

/// On folded cloth a cut goes through both layers, so both must come apart together.
#[test]
fn both_layers_come_apart_at_once() {
    let mut hand = HandPlan::cloth(
        100.0,
        vec![
            CutPiece { on_fold: Some(Fold::Along), ..rectangle("front", 1, cm(30.0), cm(40.0)) },
            rectangle("side", 2, cm(15.0), cm(30.0)),
            rectangle("loop", 2, cm(15.0), cm(30.0)),
        ],
    );
    hand.manner = CuttingManner { laid: Laid::Folded, cuts: CutsRun::Straight, ..CuttingManner::default() };
    let cuts = |far: f64| {
        vec![
            Cut { through: Layers::Fold, ..hand.cut(0, 1, [0.0, 30.0, 30.0, 70.0]) },
            Cut { through: Layers::Both, ..hand.cut(1, 1, [0.0, 15.0, 0.0, 30.0]) },
            Cut { through: Layers::Both, ..hand.cut(1, 2, [0.0, 15.0, 70.0, 100.0]) },
            hand.cut(2, 1, [15.0, 30.0, 0.0, 30.0]),
            hand.cut(2, 2, [far, far + 15.0, 70.0, 100.0]),
        ]
    };
    sound(&hand.on_cloth(cuts(15.0)));
    // The second loop is not at the same marks along as the first one, on the other layer.
    only(&hand.on_cloth(cuts(20.0)), not_straight);
}

#[test]
fn ends_are_squared_off() {
    let mut hand = HandPlan::cloth(100.0, vec![rectangle("panel", 1, cm(90.0), cm(50.0))]);
    hand.manner.squaring = cm(2.5);
    hand.stock = vec![StockLength::new("B1", cm(95.0)), StockLength::new("B2", cm(94.9))];
    let cuts = vec![hand.cut(0, 1, [0.0, 90.0, 0.0, 50.0])];
    sound(&hand.on_cloth(cuts.clone()));
    sound(&hand.errors(&hand.plan(vec![hand.off_the_shelf(0, cuts.clone())])));
    let mut short = hand.off_the_shelf(1, cuts.clone());
    short.left_over = Length::ZERO;
    only(&hand.errors(&hand.plan(vec![short])), |error| matches!(error, PlanError::OutsideLength { .. }));
    // Cloth bought as needed is longer by the squared ends, and these are not left over.
    let mut plan = hand.plan(vec![hand.new_cloth(cuts.clone())]);
    plan.uses[0].length = cm(90.0);
    plan.bought[0].length = cm(90.0);
    assert!(hand.errors(&plan).iter().any(|error| matches!(error, PlanError::StockSize { .. })));
    hand.stock[0].along = cm(120.0);
    let mut long = hand.off_the_shelf(0, cuts);
    assert_eq!(long.left_over, cm(25.0));
    sound(&hand.errors(&hand.plan(vec![long.clone()])));
    long.left_over = long.left_over + whole(5.0);
    only(&hand.errors(&hand.plan(vec![long])), |error| matches!(error, PlanError::LeftOver { .. }));
    hand.manner.squaring = cm(-1.0);
    let errors = hand.on_cloth(vec![hand.cut(0, 1, [0.0, 90.0, 0.0, 50.0])]);
    only(&errors, |error| matches!(error, PlanError::Unreadable { .. }));
}
