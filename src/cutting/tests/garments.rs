//! A garment's pieces come from one lot, or the plan has a note of it; and the cost of the lengths.

use super::hand::{HandPlan, only, sound};
use super::*;
use crate::cutting::plan::PlanNote;
use crate::cutting::verify::PlanError;
use crate::quantity::Money;

/// Two garments of a back and two fronts each; a shelf of two lots and one length of unknown lot.
fn scene() -> HandPlan {
    let of = |name, count, per_garment, order: &str| CutPiece {
        per_garment: Some(per_garment),
        order: Some(order.into()),
        ..rectangle(name, count, cm(10.0), cm(10.0))
    };
    let mut hand = HandPlan::cloth(100.0, vec![of("back", 2, 1, "7"), of("front", 4, 2, "7")]);
    let lot =
        |name, lot: Option<&str>| StockLength { lot: lot.map(str::to_owned), ..StockLength::new(name, cm(100.0)) };
    hand.stock = vec![lot("B1", Some("L1")), lot("B2", Some("L2")), lot("B3", Some("L1")), lot("B4", None)];
    hand
}

/// Two backs and four fronts, each on the given length; `None` is new cloth.
fn judged(hand: &HandPlan, lengths: [Option<usize>; 6], notes: Vec<PlanNote>) -> Vec<PlanError> {
    let cuts = (0..6).map(|place| {
        let (entry, number) = if place < 2 { (0, place + 1) } else { (1, place - 1) };
        let at = f64::from(i32::try_from(place).unwrap()) * 10.0;
        hand.cut(entry, number, [0.0, 10.0, at, at + 10.0])
    });
    let mut by_length: std::collections::BTreeMap<Option<usize>, Vec<Cut>> = std::collections::BTreeMap::new();
    for (cut, length) in cuts.zip(lengths) {
        by_length.entry(length).or_default().push(cut);
    }
    let uses = by_length.into_iter().map(|(length, cuts)| match length {
        Some(entry) => hand.off_the_shelf(entry, cuts),
        None => hand.new_cloth(cuts),
    });
    let mut plan = hand.plan(uses.collect());
    plan.notes = notes;
    hand.errors(&plan)
}

/// Washed cloth loses nothing more, so no garment may be of both; no note allows it.
#[test]
fn a_garment_is_never_of_washed_and_unwashed_goods() {
    let mut hand = scene();
    for length in &mut hand.stock {
        length.lot = None;
    }
    hand.stock[0].washed = true;
    let mixed = |error: &PlanError| matches!(error, PlanError::GarmentWashing { .. });
    let (washed, unwashed) = (Some(0), Some(1));
    sound(&judged(&hand, [washed, None, washed, washed, unwashed, unwashed], vec![]));
    for other in [unwashed, None] {
        only(&judged(&hand, [washed, other, washed, other, other, other], vec![]), mixed);
    }
    // Pieces that are not counted by the garment all go with the first.
    for piece in &mut hand.pieces {
        piece.per_garment = None;
    }
    only(&judged(&hand, [washed, None, washed, washed, unwashed, unwashed], vec![]), mixed);
}

/// One garment of two strips of 90 cm. Each length of 100 cm holds one of them: the washed one is left because new cloth is
/// not washed, whatever its lot; the other because of its lot.
#[test]
fn each_length_that_is_left_has_its_own_reason() {
    let strips = CutPiece { per_garment: Some(2), ..strips(2, cm(90.0)) };
    let length = |name: &str, lot: Option<&str>, washed: bool| StockLength {
        lot: lot.map(str::to_owned),
        washed,
        ..StockLength::new(name, cm(100.0))
    };
    let notes = |stock: &[StockLength]| {
        let goods = Goods::cloth(cm(100.0));
        let plan = planned(std::slice::from_ref(&strips), &goods, stock, &Supply::Endless).unwrap();
        assert_eq!(plan.uses.iter().map(|used| used.stock.as_str()).collect::<Vec<_>>(), ["new cloth"]);
        plan.notes
    };
    let lots = |left: &str| PlanNote::LotsApart { left: vec![left.to_owned()] };
    let washed = |left: &str| PlanNote::WashedApart { left: vec![left.to_owned()] };
    let (a, b) = (length("A", Some("K"), true), length("B", Some("L"), false));
    assert_eq!(notes(std::slice::from_ref(&a)), [washed("A (lot K)")]);
    assert_eq!(notes(&[a, b.clone()]), [lots("B (lot L)"), washed("A (lot K)")]);
    assert_eq!(notes(&[b, length("C", None, true)]), [lots("B (lot L)"), washed("C")]);
    assert_eq!(notes(&[length("C", None, true)]), [washed("C")]);
}

/// A garment of two strips of 90 cm and a washed length that holds neither: the shelf holds both strips, so none is bought,
/// though one length of 300 cm of new cloth would do as well.
#[test]
fn a_washed_length_does_not_keep_the_rest_of_the_shelf_from_being_tried() {
    let strips = CutPiece { per_garment: Some(2), ..strips(2, cm(90.0)) };
    let stock = [
        StockLength { washed: true, ..StockLength::new("A", cm(100.0)) },
        StockLength::new("B", cm(95.0)),
        StockLength::new("C", cm(98.0)),
    ];
    let plan = planned(&[strips], &Goods::cloth(cm(100.0)), &stock, &Supply::Endless).unwrap();
    assert_eq!(plan.uses.iter().map(|used| used.stock.as_str()).collect::<Vec<_>>(), ["B", "C"]);
    assert!(plan.bought.is_empty() && plan.notes.is_empty(), "{:?}", plan.notes);
}

#[test]
fn a_garment_comes_from_one_lot() {
    let mut hand = scene();
    let mixed = |error: &PlanError| matches!(error, PlanError::GarmentLots { .. });
    let (one, two, like_one, unknown) = (Some(0), Some(1), Some(2), Some(3));
    sound(&judged(&hand, [one, one, one, one, one, one], vec![]));
    // Each garment from a lot of its own, or from two lengths of one lot.
    sound(&judged(&hand, [one, two, one, one, two, two], vec![]));
    sound(&judged(&hand, [one, None, like_one, one, None, None], vec![]));
    sound(&judged(&hand, [unknown, None, unknown, unknown, None, None], vec![]));
    for lengths in [
        [one, two, two, two, two, two],
        [one, one, one, one, one, two],
        [one, one, one, one, one, None],
        [one, one, one, one, one, unknown],
        [None, None, None, None, None, unknown],
    ] {
        only(&judged(&hand, lengths, vec![]), mixed);
        let note = |piece: &str| PlanNote::LotsMixed { piece: piece.into(), lots: vec![] };
        sound(&judged(&hand, lengths, vec![note("front")]));
        sound(&judged(&hand, lengths, vec![note("front"), note("back")]));
        only(&judged(&hand, lengths, vec![note("cuff")]), mixed);
    }
    // Backs and fronts of different orders do not make a garment.
    hand.pieces[1].order = Some("8".into());
    sound(&judged(&hand, [one, one, two, two, two, two], vec![]));
    // If it is not known how many make a garment, nothing is checked.
    hand.pieces[1].order = Some("7".into());
    hand.pieces[1].per_garment = None;
    sound(&judged(&hand, [one, one, one, two, one, two], vec![]));
}

/// The planner has a note of every garment of several lots.
#[test]
fn the_planner_tells_of_mixed_garments() {
    let hand = scene();
    let short = |name, lot: &str| StockLength { lot: Some(lot.into()), ..StockLength::new(name, cm(10.0)) };
    let narrow = Goods::cloth(cm(30.0));
    let plan = planned(&hand.pieces, &narrow, &[short("B1", "L1"), short("B2", "L2")], &Supply::ShelfOnly).unwrap();
    // Both backs and a front come from the first, the other fronts from the second.
    let notes: Vec<String> = plan.notes.iter().map(ToString::to_string).collect();
    assert_eq!(
        notes,
        [
            "back comes from several lots (L1, L2); compare them by daylight before cutting",
            "front comes from several lots (L1, L2); compare them by daylight before cutting",
        ]
    );
}

#[test]
fn a_plan_costs_what_its_lengths_cost() {
    let money = |steps| Some(Money::from_steps(steps));
    let mut hand = HandPlan::cloth(100.0, vec![rectangle("panel", 1, cm(50.0), cm(60.0))]);
    hand.pieces[0].count = 2;
    hand.stock = vec![StockLength { price: money(70_000.0), ..StockLength::new("B1", cm(60.0)) }];
    let offer = |price| PutUp { name: "cloth".into(), along: None, across: None, price, most: None };
    hand.supply = Supply::Offered(vec![offer(money(123_456.0))]);
    let mut plan = planned(&hand.pieces, &hand.goods, &hand.stock, &hand.supply).unwrap();
    assert_eq!(plan.uses.len(), 2);
    assert_eq!(plan.cost, money(193_456.0));
    let wrong = |error: &PlanError| matches!(error, PlanError::Total { what } if what == "cost");
    for (steps, right) in [(193_457.0, true), (193_458.0, false), (193_454.0, false), (123_456.0, false)] {
        plan.cost = money(steps);
        assert_eq!(hand.errors(&plan).iter().any(wrong), !right, "{steps}");
    }
    plan.cost = None;
    only(&hand.errors(&plan), wrong);
    hand.stock[0].price = None;
    sound(&hand.errors(&plan));
    plan.cost = money(123_456.0);
    only(&hand.errors(&plan), wrong);
}
