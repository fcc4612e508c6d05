//! Where the judge's rules on a whole plan end: counts, joins, totals and garments, each kept and broken by the
//! least there is. All by hand.

use super::hand::{HandPlan, only, outline, sound};
use super::judged_places::{cut, hand};
use super::scene::{full, nm, oblong};
use super::*;
use crate::cutting::plan::{Bought, CuttingPlan};
use crate::cutting::verify::{JoinedWrong, PlanError};
use crate::quantity::{Money, number};

#[test]
fn each_number_is_there_once_and_the_first_that_is_not_is_named() {
    for (numbers, wrong) in [
        (&[1, 2, 3][..], &[][..]),
        (&[3, 1, 2], &[]),
        (&[1, 2], &[3]),
        (&[2, 3], &[1]),
        (&[1, 3], &[2]),
        (&[1, 2, 3, 4], &[4]),
        (&[0, 1, 2, 3], &[0]),
        (&[1, 2, 2, 3], &[2]),
        (&[1, 1, 2], &[1, 3]),
    ] {
        let hand = hand(700, vec![oblong("panel", 3, 30, 20)]);
        let cuts =
            numbers.iter().zip((0..).step_by(30)).map(|(number, at)| cut(&hand, 0, *number, [at, at + 30, 0, 20]));
        let wanted: Vec<PlanError> = wrong
            .iter()
            .map(|number| PlanError::WrongCount { piece: "panel".into(), wanted: 3, number: *number })
            .collect();
        assert_eq!(hand.on_cloth(cuts.collect()), wanted, "{numbers:?}");
    }
}

/// The parts one after the other along the goods, each this much in from the edge.
fn parts(hand: &HandPlan, lies: &[Lie], sizes: &[(i64, i64)]) -> Vec<Cut> {
    let of = number::from_size(sizes.len());
    let mut from = 0;
    let each = sizes.iter().zip(1..).zip(lies.iter().cycle());
    each.map(|(((along, across), place), lie)| {
        let marks = [from, from + along, 30, 30 + across];
        from += along;
        Cut { lie: *lie, part: Some(JoinedPart { number: place, of }), ..cut(hand, 0, 1, marks) }
    })
    .collect()
}

fn joined(hand: &HandPlan, cuts: Vec<Cut>) -> Vec<PlanError> {
    let joins = cuts.iter().filter(|cut| cut.part.is_some_and(|part| part.number > 1)).count();
    let mut plan = hand.plan(vec![hand.new_cloth(cuts)]);
    if joins > 0 {
        plan.joins.insert("frill".into(), number::from_size(joins));
    }
    hand.errors(&plan)
}

/// A frill of 500 by 1000, at most two joins, no part under 200, 10 on each side of a join: two parts come to 20 more, three
/// to 40 more.
#[test]
fn parts_make_up_their_piece_and_two_allowances_for_each_join() {
    use JoinedWrong::{NotAllowed, Parts, Sum, TooMany, TooShort};
    let frill = |shape: Shape| CutPiece {
        may_join: Some(JoinRule::new(2, nm(200), nm(10))),
        grain: Grain::Any,
        ..CutPiece::new("frill", 1, shape)
    };
    let oblong = || Shape::Rectangle { along: nm(500), across: nm(1_000) };
    let width = || Shape::FullWidth { along: nm(500) };
    let (along, across) = (&[Lie::Along][..], &[Lie::Across][..]);
    for (shape, lies, sizes, wanted) in [
        (oblong(), along, &[(500, 600), (500, 420)][..], None),
        (oblong(), along, &[(500, 820), (500, 200)], None),
        (oblong(), along, &[(500, 821), (500, 199)], Some(TooShort)),
        (oblong(), along, &[(500, 600), (500, 421)], Some(Sum)),
        (oblong(), along, &[(500, 600), (500, 419)], Some(Sum)),
        (oblong(), along, &[(500, 600), (499, 420)], Some(Sum)),
        (oblong(), along, &[(500, 400), (500, 330), (500, 310)], None),
        (oblong(), along, &[(500, 400), (500, 330), (500, 290)], Some(Sum)),
        (oblong(), along, &[(500, 300), (500, 250), (500, 260), (500, 250)], Some(TooMany)),
        (oblong(), along, &[(310, 1_000), (210, 1_000)], None),
        (oblong(), along, &[(310, 1_000), (211, 1_000)], Some(Sum)),
        (oblong(), along, &[(310, 1_000), (210, 999)], Some(Sum)),
        (oblong(), along, &[(321, 1_000), (199, 1_000)], Some(TooShort)),
        (oblong(), along, &[(500, 1_000)], Some(Parts)),
        (oblong(), across, &[(600, 500), (420, 500)], None),
        (oblong(), &[Lie::Along, Lie::Across], &[(500, 600), (420, 500)], Some(NotAllowed)),
        (oblong(), &[Lie::Bias], &[(500, 600), (500, 420)], Some(NotAllowed)),
        (width(), along, &[(310, 1_100), (210, 1_100)], None),
        (width(), along, &[(500, 600), (500, 520)], Some(Sum)),
        (Shape::Sector { inner: nm(0), outer: nm(500), turn: 0.5 }, along, &[(600, 500), (420, 500)], Some(NotAllowed)),
    ] {
        let is_width = shape.is_full_width();
        let hand = hand(1_100, vec![frill(shape)]);
        let mut cuts = parts(&hand, lies, sizes);
        if is_width {
            // A full width starts at the edge.
            for cut in &mut cuts {
                (cut.across_from, cut.across_to) = (nm(0), cut.across_to - nm(30));
            }
        }
        let errors = joined(&hand, cuts);
        let whys: Vec<_> = errors
            .iter()
            .filter_map(|error| if let PlanError::Joined { why, .. } = error { Some(*why) } else { None })
            .collect();
        assert_eq!(whys, wanted.into_iter().collect::<Vec<_>>(), "{sizes:?}: {errors:?}");
        assert!(wanted.is_some() || errors.is_empty(), "{sizes:?}: {errors:?}");
    }
}

#[test]
fn parts_are_numbered_through_and_all_of_one_image() {
    let frill = || CutPiece { may_join: Some(JoinRule::new(2, nm(200), nm(10))), ..oblong("frill", 1, 500, 1_000) };
    let scene = hand(1_100, vec![frill()]);
    let broken: [fn(&mut Cut); 4] = [
        |cut| cut.part = Some(JoinedPart { number: 1, of: 2 }),
        |cut| cut.part = Some(JoinedPart { number: 2, of: 3 }),
        |cut| cut.part = Some(JoinedPart { number: 3, of: 2 }),
        |cut| cut.mirrored = true,
    ];
    for (place, change) in broken.iter().enumerate() {
        let mut cuts = parts(&scene, &[Lie::Along], &[(500, 600), (500, 420)]);
        change(&mut cuts[1]);
        let parts = |error: &PlanError| matches!(error, PlanError::Joined { why: JoinedWrong::Parts, .. });
        assert!(joined(&scene, cuts).iter().any(parts), "{place}");
    }
    // What is there whole and in a part is there twice.
    let mut cuts = parts(&scene, &[Lie::Along], &[(500, 600)]);
    cuts.push(cut(&scene, 0, 1, [500, 1_000, 0, 1_000]));
    cuts[0].part = Some(JoinedPart { number: 1, of: 2 });
    let errors = joined(&scene, cuts);
    assert_eq!(errors[..1], [PlanError::WrongCount { piece: "frill".into(), wanted: 1, number: 1 }], "{errors:?}");
    assert!(!errors.iter().any(|error| matches!(error, PlanError::Joined { .. })));
}

/// A pair, one of it in three parts: that is one mirrored piece of two, and so it is while parts of it are missing.
#[test]
fn a_joined_piece_is_one_of_its_pair() {
    let frill = CutPiece { may_join: Some(JoinRule::new(2, nm(200), nm(10))), ..oblong("frill", 2, 500, 1_000) };
    let pair = hand(1_100, vec![CutPiece { mirrored: true, ..frill }]);
    let mut cuts = parts(&pair, &[Lie::Along], &[(500, 400), (500, 330), (500, 310)]);
    for cut in &mut cuts {
        cut.mirrored = true;
    }
    cuts.push(cut(&pair, 0, 2, [1_500, 2_000, 0, 1_000]));
    sound(&joined(&pair, cuts.clone()));
    cuts.drain(1..3);
    only(&joined(&pair, cuts), |error| matches!(error, PlanError::Joined { why: JoinedWrong::Parts, .. }));
}

type Change = fn(&mut CuttingPlan);

#[test]
fn totals_are_right_or_named() {
    let hand = hand(700, vec![oblong("panel", 1, 300, 200), oblong("panel", 2, 300, 200)]);
    let cuts = || vec![cut(&hand, 0, 1, [0, 300, 0, 200])];
    let more = || vec![cut(&hand, 1, 1, [0, 300, 0, 200]), cut(&hand, 1, 2, [0, 300, 200, 400])];
    let sound_plan = || hand.plan(vec![hand.off_the_shelf(0, cuts()), hand.new_cloth(more())]);
    sound(&hand.errors(&sound_plan()));
    assert_eq!((sound_plan().pieces["panel"], sound_plan().length_used), (3, nm(600)));
    let share = "share of the best possible";
    let changes: [(Change, Option<&str>); 14] = [
        (|plan| plan.lower_bound = nm(600), None),
        (|plan| plan.lower_bound = nm(601), Some("lower bound")),
        (|plan| plan.lower_bound = nm(-1), Some("lower bound")),
        (|plan| plan.lower_bound = Length::from_steps(0.5), Some("lower bound")),
        (|plan| plan.length_used = nm(599), Some("length used")),
        (|plan| *plan.pieces.entry("panel".into()).or_default() = 2, Some("count of pieces")),
        (|plan| plan.joins = [("panel".into(), 1)].into(), Some("count of joins")),
        (|plan| plan.quality.bound_ratio = 1.0, None),
        (|plan| plan.quality.bound_ratio = 1.001, Some(share)),
        (|plan| plan.quality.bound_ratio = -0.001, Some(share)),
        (|plan| (plan.quality.bound_ratio, plan.quality.proved) = (1.0, true), None),
        (|plan| (plan.quality.bound_ratio, plan.quality.proved) = (0.999, true), Some(share)),
        (|plan| plan.cost = Some(Money::ZERO), Some("cost")),
        (|plan| plan.bought.push(plan.bought[0].clone()), Some("list of what is bought")),
    ];
    for (place, (change, wanted)) in changes.into_iter().enumerate() {
        let mut plan = sound_plan();
        change(&mut plan);
        let wanted: Vec<PlanError> = wanted.into_iter().map(|what| PlanError::Total { what: what.into() }).collect();
        assert_eq!(hand.errors(&plan), wanted, "{place}");
    }
}

/// Three bolts of two offers: each offer is listed once, with its count, its length and its price.
#[test]
fn what_is_bought_is_counted_by_the_offer() {
    let money = |steps| Some(Money::from_steps(steps));
    let mut hand = hand(700, vec![oblong("panel", 3, 300, 200)]);
    let offer = |name: &str, along, price| PutUp { name: name.into(), along, across: None, price, most: None };
    hand.supply = Supply::Offered(vec![
        offer("bolt", Some(nm(900)), money(70_000.0)),
        offer("cloth", None, money(50_000.0)),
        offer("bolt", Some(nm(800)), None),
    ]);
    let used = |offer, number, panel, length: i64| StockUse {
        source: StockSource::New { offer, number },
        length: nm(length),
        left_over: nm(length - 300),
        ..hand.new_cloth(vec![cut(&hand, 0, panel, [0, 300, 0, 200])])
    };
    let bought = |offer, count, length, price| Bought { offer, name: "bolt".into(), count, length: nm(length), price };
    let plan = |third: StockUse, list: Vec<Bought>, cost| CuttingPlan {
        bought: list,
        cost,
        ..hand.plan(vec![used(0, 1, 1, 900), used(0, 2, 2, 900), third])
    };
    let right = || vec![bought(0, 2, 900, money(70_000.0)), bought(1, 1, 300, money(50_000.0))];
    sound(&hand.errors(&plan(used(1, 1, 3, 300), right(), money(190_000.0))));
    let listed = |error: &PlanError| matches!(error, PlanError::Total { what } if what == "list of what is bought");
    let costs = |error: &PlanError| matches!(error, PlanError::Total { what } if what == "cost");
    let changes: [fn(&mut Vec<Bought>); 7] = [
        |list| list[1].offer = 7,
        |list| list[0].count = 1,
        |list| list[0].count = 3,
        |list| list[0].length = nm(899),
        |list| list[1].price = None,
        |list| list[1].price = Some(Money::from_steps(50_001.0)),
        |list| list.truncate(1),
    ];
    for change in changes {
        let mut list = right();
        change(&mut list);
        only(&hand.errors(&plan(used(1, 1, 3, 300), list, money(190_000.0))), listed);
    }
    // One of the two bolts is not as long as the other.
    let mut unlike = plan(used(1, 1, 3, 300), right(), money(190_000.0));
    unlike.uses[1] = used(0, 2, 2, 800);
    assert!(hand.errors(&unlike).iter().any(listed));
    for (cost, kept) in [(190_001.0, true), (189_999.0, true), (190_002.0, false), (189_998.0, false)] {
        let errors = hand.errors(&plan(used(1, 1, 3, 300), right(), money(cost)));
        assert!(errors.is_empty() == kept && errors.iter().all(costs), "{cost}");
    }
    // One without a price leaves the whole without.
    let list = || vec![bought(0, 2, 900, money(70_000.0)), bought(2, 1, 800, None)];
    sound(&hand.errors(&plan(used(2, 1, 3, 800), list(), None)));
    only(&hand.errors(&plan(used(2, 1, 3, 800), list(), money(140_000.0))), costs);
    only(&hand.errors(&plan(used(1, 1, 3, 300), right(), None)), costs);
}

#[test]
fn nothing_costs_nothing() {
    let hand = hand(700, vec![]);
    for (cost, right) in [(None, true), (Some(Money::ZERO), true), (Some(Money::from_steps(2.0)), false)] {
        assert_eq!(hand.errors(&CuttingPlan { cost, ..hand.plan(vec![]) }).is_empty(), right, "{cost:?}");
    }
}

/// Every one of 120 outlines crosses itself.
#[test]
fn at_most_a_hundred_faults_are_told() {
    let bow = outline("bow", 0, &[(0.0, 0.0), (20.0, 20.0), (20.0, 0.0), (0.0, 10.0)]);
    let hand = hand(700, vec![bow; 120]);
    assert_eq!(hand.errors(&hand.plan(vec![])).len(), 100);
}

/// Two sides to a garment, and a belt that is counted by no garment: numbers 3 and 4 are the second garment's.
#[test]
fn a_garment_of_two_goods_is_named_by_its_number() {
    let sides = CutPiece { per_garment: Some(2), ..oblong("side", 4, 30, 20) };
    let mut scene = hand(700, vec![sides, full("belt", 1, 9)]);
    scene.stock.push(StockLength::new("T", nm(1_000)));
    let judged = |scene: &HandPlan, first: &[i64], belt_first: bool| {
        let on = |length: usize, wanted: &dyn Fn(i64) -> bool, belt: bool| {
            let numbers = (1..=4).filter(|number| wanted(*number));
            let mut cuts: Vec<Cut> =
                numbers.map(|number| cut(scene, 0, number, [0, 30, number * 20, number * 20 + 20])).collect();
            cuts.extend(belt.then(|| cut(scene, 1, 1, [30, 39, 0, 700])));
            scene.off_the_shelf(length, cuts)
        };
        let one = on(0, &|number| first.contains(&number), belt_first);
        let two = on(1, &|number| !first.contains(&number), !belt_first);
        scene.errors(&scene.plan(vec![one, two]))
    };
    scene.stock[0].washed = true;
    let washing = |piece: &str, garment| [PlanError::GarmentWashing { piece: piece.into(), garment }];
    sound(&judged(&scene, &[1, 2], true));
    assert_eq!(judged(&scene, &[1, 2, 3], true), washing("side", 2));
    assert_eq!(judged(&scene, &[2], true), washing("side", 1));
    // The belt goes with the first garment.
    assert_eq!(judged(&scene, &[1, 2], false), washing("belt", 1));
    sound(&judged(&scene, &[3, 4], false));
    scene.stock[0].washed = false;
    // Of a length that nobody knows it is not said that it is washed.
    let cuts = |numbers: [i64; 2]| numbers.map(|number| cut(&scene, 0, number, [0, 30, number * 20, number * 20 + 20]));
    let mut unknown = scene.off_the_shelf(0, cuts([1, 3]).to_vec());
    unknown.source = StockSource::Shelf { entry: 9, number: 1 };
    let errors = scene.errors(&scene.plan(vec![unknown, scene.off_the_shelf(1, cuts([2, 4]).to_vec())]));
    assert!(!errors.is_empty() && !errors.iter().any(|error| matches!(error, PlanError::GarmentWashing { .. })));
    scene.stock[0].lot = Some("L".into());
    let lots = |garment| [PlanError::GarmentLots { piece: "side".into(), garment }];
    sound(&judged(&scene, &[1, 2], false));
    assert_eq!(judged(&scene, &[1, 2, 3], true), lots(2));
    assert_eq!(judged(&scene, &[2], true), lots(1));
    // Three of its four sides come from other goods than the first: that is told once.
    scene.pieces[0].per_garment = Some(4);
    assert_eq!(judged(&scene, &[1], true), lots(1));
    scene.stock[0].lot = None;
    scene.stock[0].washed = true;
    assert_eq!(judged(&scene, &[1], true), washing("side", 1));
    scene.stock[0].washed = false;
    scene.stock[0].lot = Some("L".into());
    // Counted by none, as by a garment of no pieces, nothing is known of lots.
    scene.pieces[0].per_garment = Some(0);
    sound(&judged(&scene, &[1], true));
}
