//! Where the judge's rules on pinned cuts end: whether a length still has room for one, and whether one is kept. All by
//! hand.

use super::hand::{HandPlan, only, sound};
use super::judged_places::{cut, hand};
use super::scene::{nm, oblong};
use super::*;
use crate::cutting::verify::PlanError;

type Cuts = fn(&HandPlan) -> [Cut; 2];
type Change = fn(&mut PinnedCut);

fn moved(error: &PlanError) -> bool {
    matches!(error, PlanError::NotKept { .. })
}

/// The panel lies at the start of new cloth; it was pinned elsewhere, which matters only where it could lie still. Of the
/// 1000 of the shelf 50 are squared off each end.
#[test]
fn a_pin_binds_where_its_length_still_has_room() {
    let judged = |stock: &str, marks: [i64; 4], change: fn(&mut HandPlan)| {
        let mut hand = hand(700, vec![oblong("panel", 1, 300, 200)]);
        hand.stock.push(StockLength::new("T", nm(450)));
        hand.manner.squaring = nm(50);
        hand.manner.pinned = vec![PinnedCut::of(stock, &cut(&hand, 0, 1, marks))];
        change(&mut hand);
        let used = hand.new_cloth(vec![cut(&hand, 0, 1, [0, 300, 0, 200])]);
        let length = match &hand.supply {
            Supply::Offered(offers) => offers[0].along.unwrap_or(used.length),
            _ => hand.goods.put_up.unwrap_or(used.length),
        };
        let width = match &hand.supply {
            Supply::Offered(offers) => offers[0].across.unwrap_or(used.width),
            _ => used.width,
        };
        let used = StockUse { length, width, left_over: length - used.length, ..used };
        let errors = hand.errors(&hand.plan(vec![used]));
        assert!(errors.iter().all(moved), "{stock} {marks:?}: {errors:?}");
        !errors.is_empty()
    };
    let place = [0, 300, 7, 207];
    for (marks, binds) in [
        ([600, 900, 500, 700], true),
        ([601, 901, 500, 700], false),
        ([0, 300, 0, 200], true),
        ([-1, 299, 0, 200], false),
        ([0, 300, -1, 199], false),
        ([0, 300, 501, 701], false),
        ([0, 301, 0, 200], false),
        ([0, 0, 0, 200], false),
    ] {
        assert_eq!(judged("S", marks, |_| ()), binds, "{marks:?}");
    }
    assert!(judged("S", [0, 300, 400, 600], |hand| hand.stock[0].across = Some(nm(600))));
    assert!(!judged("S", [0, 300, 401, 601], |hand| hand.stock[0].across = Some(nm(600))));
    assert!(!judged("S", place, |hand| hand.stock[0].count = 0));
    assert!(!judged("S", place, |hand| hand.manner.pinned[0].mirrored = true));
    assert!(judged("T", [50, 350, 7, 207], |_| ()) && !judged("T", [51, 351, 7, 207], |_| ()));
    assert!(!judged("U", place, |_| ()));
    assert!(!judged("S", place, |hand| hand.stock[0].across = Some(Length::from_steps(f64::NAN))));
    // Of cloth cut as needed there is always enough, in one length; of whole ones there are as many as needed.
    assert!(judged("new cloth", [8_000, 8_300, 0, 200], |_| ()));
    assert!(!judged("new cloth", [8_000, 8_300, 501, 701], |_| ()));
    assert!(!judged("new cloth 1", place, |_| ()));
    let whole = |hand: &mut HandPlan| hand.goods.put_up = Some(nm(900));
    let name = |number: &str| format!("new {}{number}", hand(700, vec![]).goods.kind.put_up_name());
    for (number, marks, binds) in [
        (" 1", place, true),
        (" 70", [500, 800, 0, 200], true),
        (" 70", [501, 801, 0, 200], false),
        (" 0", place, false),
        (" -1", place, false),
        (" x", place, false),
        ("1", place, false),
        ("", place, false),
    ] {
        assert_eq!(judged(&name(number), marks, whole), binds, "{number}");
    }
    let offered: fn(&mut HandPlan) = |hand| {
        let (along, across) = (Some(nm(900)), Some(nm(600)));
        let bolt = PutUp { name: "bolt".into(), along, across, price: None, most: Some(3) };
        let roll = PutUp { name: "roll".into(), along: Some(nm(400)), most: None, ..bolt.clone() };
        hand.supply = Supply::Offered(vec![bolt, roll]);
    };
    for (stock, marks, binds) in [
        ("new bolt 1", place, true),
        ("new bolt 3", [500, 800, 400, 600], true),
        ("new bolt 3", [501, 801, 400, 600], false),
        ("new bolt 3", [500, 800, 401, 601], false),
        ("new bolt 4", place, false),
        ("new bolt 0", place, false),
        ("new bolt", place, false),
        ("new roll 60", [0, 300, 400, 600], true),
        ("new roll 60", [1, 301, 400, 600], false),
        ("new ribbon 1", place, false),
        ("bolt 1", place, false),
    ] {
        assert_eq!(judged(stock, marks, offered), binds, "{stock} {marks:?}");
    }
    let as_needed: fn(&mut HandPlan) = |hand| {
        let offer = PutUp { name: "bolt".into(), along: None, across: None, price: None, most: Some(3) };
        hand.supply = Supply::Offered(vec![offer]);
    };
    assert!(judged("new bolt", [8_000, 8_300, 0, 200], as_needed) && !judged("new bolt 1", place, as_needed));
    // Where nothing is bought, nothing lies on new cloth.
    let mut shelf_only = hand(700, vec![oblong("panel", 1, 300, 200)]);
    shelf_only.manner.pinned = vec![PinnedCut::of("new cloth", &cut(&shelf_only, 0, 1, place))];
    let on_shelf = shelf_only.plan(vec![shelf_only.off_the_shelf(0, vec![cut(&shelf_only, 0, 1, place)])]);
    only(&shelf_only.errors(&on_shelf), moved);
    shelf_only.supply = Supply::ShelfOnly;
    sound(&shelf_only.errors(&on_shelf));
    // What is no longer wanted need not lie anywhere.
    let mut none = hand(700, vec![oblong("panel", 0, 300, 200), oblong("cuff", 1, 30, 20)]);
    none.manner.pinned = vec![PinnedCut::of("S", &cut(&none, 0, 1, place))];
    sound(&none.on_cloth(vec![cut(&none, 1, 1, [0, 30, 0, 20])]));
}

/// Two pieces whose places differ in one thing only: with that one changed, the pin is not kept.
#[test]
fn a_pin_is_kept_by_the_same_piece_in_the_same_place_and_lie() {
    let ordered = |order: &str| CutPiece { order: Some(order.into()), ..oblong("panel", 1, 300, 200) };
    let turned = CutPiece { grain: Grain::Any, ..oblong("panel", 2, 300, 300) };
    let pair = CutPiece { mirrored: true, ..oblong("panel", 2, 300, 200) };
    let (long, wide) = (oblong("panel", 1, 310, 200), oblong("panel", 1, 300, 210));
    let changes: [(Vec<CutPiece>, Cuts, Change); 6] = [
        (
            vec![ordered("7"), ordered("8")],
            |hand| [cut(hand, 0, 1, [0, 300, 0, 200]), cut(hand, 1, 1, [400, 700, 0, 200])],
            |pin| pin.order = Some("8".into()),
        ),
        (
            vec![turned.clone()],
            |hand| [cut(hand, 0, 1, [0, 300, 0, 300]), cut(hand, 0, 2, [400, 700, 0, 300])],
            |pin| pin.lie = Lie::Across,
        ),
        (
            vec![turned],
            |hand| [cut(hand, 0, 1, [0, 300, 0, 300]), cut(hand, 0, 2, [400, 700, 0, 300])],
            |pin| pin.reversed = true,
        ),
        (
            vec![pair],
            |hand| [cut(hand, 0, 1, [0, 300, 0, 200]), Cut { mirrored: true, ..cut(hand, 0, 2, [400, 700, 0, 200]) }],
            |pin| pin.mirrored = true,
        ),
        (
            vec![oblong("panel", 1, 300, 200), long],
            |hand| [cut(hand, 0, 1, [0, 300, 0, 200]), cut(hand, 1, 1, [400, 710, 0, 200])],
            |pin| pin.to = nm(310),
        ),
        (
            vec![oblong("panel", 1, 300, 200), wide],
            |hand| [cut(hand, 0, 1, [0, 300, 0, 200]), cut(hand, 1, 1, [400, 700, 0, 210])],
            |pin| pin.across_to = nm(210),
        ),
    ];
    for (place, (pieces, cuts, change)) in changes.into_iter().enumerate() {
        let mut hand = hand(700, pieces);
        let cuts = cuts(&hand);
        hand.manner.pinned = vec![PinnedCut::of("new cloth", &cuts[0])];
        sound(&hand.on_cloth(cuts.to_vec()));
        change(&mut hand.manner.pinned[0]);
        assert!(matches!(hand.on_cloth(cuts.to_vec())[..], [PlanError::NotKept { .. }]), "{place}");
    }
    // A panel that was cut through both layers is now cut in each of them by itself.
    let mut folded = hand(700, vec![oblong("panel", 2, 300, 200)]);
    folded.manner.laid = Laid::Folded;
    let cuts = vec![cut(&folded, 0, 1, [0, 300, 0, 200]), cut(&folded, 0, 2, [0, 300, 500, 700])];
    folded.manner.pinned = vec![PinnedCut::of("new cloth", &cuts[0])];
    sound(&folded.on_cloth(cuts.clone()));
    folded.manner.pinned[0].through = Layers::Both;
    only(&folded.on_cloth(cuts), moved);
}
