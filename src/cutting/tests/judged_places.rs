//! Where the judge's rules on one length end: a plan just within each, and one that is a nanometre beyond. All by hand.

use super::hand::{HandPlan, only, outline, overlaps, sound};
use super::scene::{cloth, full, nm, oblong};
use super::*;
use crate::cutting::verify::PlanError;
use crate::quantity::number;

/// Cloth so many nanometres wide, bought as needed, with a length of 1000 on the shelf.
pub(super) fn hand(width: i64, pieces: Vec<CutPiece>) -> HandPlan {
    HandPlan { goods: cloth(width), stock: vec![StockLength::new("S", nm(1_000))], ..HandPlan::cloth(1.0, pieces) }
}

/// A cut between these marks: along from where to where, then across.
pub(super) fn cut(hand: &HandPlan, entry: usize, number: i64, marks: [i64; 4]) -> Cut {
    hand.cut(entry, number, marks.map(|mark| number::from_whole(mark) / 1e7))
}

/// What is wrong with these cuts on the length of the shelf, with so much left over.
fn on_shelf(hand: &HandPlan, cuts: Vec<Cut>, left: i64) -> Vec<PlanError> {
    let used = StockUse { left_over: nm(left), ..hand.off_the_shelf(0, cuts) };
    hand.errors(&hand.plan(vec![used]))
}

fn is_outside_length(error: &PlanError) -> bool {
    matches!(error, PlanError::OutsideLength { .. })
}

fn is_left_over(error: &PlanError) -> bool {
    matches!(error, PlanError::LeftOver { .. })
}

fn is_stock_size(error: &PlanError) -> bool {
    matches!(error, PlanError::StockSize { .. })
}

fn is_exceeded(error: &PlanError) -> bool {
    matches!(error, PlanError::StockExceeded { .. })
}

fn is_unreadable(error: &PlanError) -> bool {
    matches!(error, PlanError::Unreadable { .. })
}

#[test]
fn a_cut_may_reach_every_end_of_its_length_and_no_nanometre_beyond() {
    let hand = hand(700, vec![oblong("panel", 1, 300, 200)]);
    let judged = |marks: [i64; 4], left| on_shelf(&hand, vec![cut(&hand, 0, 1, marks)], left);
    sound(&judged([0, 300, 0, 200], 700));
    sound(&judged([700, 1_000, 500, 700], 0));
    only(&judged([701, 1_001, 500, 700], 0), is_outside_length);
    only(&judged([-1, 299, 500, 700], 701), is_outside_length);
    let across = |error: &PlanError| matches!(error, PlanError::OutsideWidth { .. });
    only(&judged([0, 300, 501, 701], 700), across);
    only(&judged([0, 300, -1, 199], 700), across);
}

/// 33.4 nm squared off may be cut as 33 or 34: of 1000 at least 932 and at most 934 are there.
#[test]
fn squared_ends_and_the_loss_of_a_cut_are_not_left_over() {
    let mut hand = hand(700, vec![oblong("panel", 1, 300, 200)]);
    hand.manner.squaring = Length::from_steps(33.4);
    let judged =
        |hand: &HandPlan, from: i64, left| on_shelf(hand, vec![cut(hand, 0, 1, [from, from + 300, 0, 200])], left);
    for (from, left, right) in
        [(600, 31, false), (600, 32, true), (600, 34, true), (600, 35, false), (634, 0, true), (634, 1, false)]
    {
        let errors = judged(&hand, from, left);
        assert_eq!(errors.is_empty(), right, "{from} {left}: {errors:?}");
        assert!(errors.iter().all(is_left_over));
    }
    only(&judged(&hand, 635, 0), is_outside_length);
    hand.goods.loss_per_cut = nm(7);
    for (from, left, right) in [(600, 24, false), (600, 25, true), (600, 27, true), (600, 28, false), (630, 0, true)] {
        assert_eq!(judged(&hand, from, left).is_empty(), right, "{from} {left}");
    }
}

#[test]
fn a_cut_keeps_the_loss_clear_along_the_goods_only() {
    let mut hand = hand(700, vec![oblong("panel", 2, 300, 200)]);
    hand.goods.loss_per_cut = nm(7);
    let judged = |along, across| {
        let cuts = [[0, 300, 0, 200], [along, along + 300, across, across + 200]];
        hand.on_cloth(vec![cut(&hand, 0, 1, cuts[0]), cut(&hand, 0, 2, cuts[1])])
    };
    sound(&judged(307, 0));
    only(&judged(306, 0), overlaps);
    sound(&judged(306, 200));
    sound(&judged(0, 200));
    only(&judged(0, 199), overlaps);
}

/// Two straight pieces that overlap are told of once, though a shaped one lies elsewhere.
#[test]
fn an_overlap_of_straight_pieces_is_told_of_once() {
    let disc = CutPiece::new("disc", 1, Shape::Sector { inner: nm(0), outer: cm(1.0), turn: 1.0 });
    let hand = HandPlan::cloth(20.0, vec![rectangle("panel", 2, cm(3.0), cm(2.0)), disc]);
    let errors = hand.on_cloth(vec![
        hand.cut(0, 1, [0.0, 3.0, 0.0, 2.0]),
        hand.cut(0, 2, [1.0, 4.0, 0.0, 2.0]),
        hand.cut(1, 1, [0.0, 2.0, 10.0, 12.0]),
    ]);
    assert_eq!(errors, [PlanError::Overlap { stock: "new cloth".into(), at: cm(1.0) }]);
}

#[test]
fn cuts_are_listed_along_and_where_they_start_alike_across() {
    let hand = hand(700, vec![oblong("panel", 2, 300, 200)]);
    let cuts = vec![cut(&hand, 0, 1, [0, 300, 0, 200]), cut(&hand, 0, 2, [0, 300, 200, 400])];
    let mut plan = hand.plan(vec![hand.new_cloth(cuts)]);
    sound(&hand.errors(&plan));
    plan.uses[0].cuts.swap(0, 1);
    only(&hand.errors(&plan), |error| matches!(error, PlanError::OutOfOrder { .. }));
}

#[test]
fn half_a_nanometre_cannot_be_read() {
    let hand = hand(700, vec![oblong("panel", 1, 300, 200)]);
    let half = Length::from_steps(0.5);
    let changes: [fn(&mut StockUse) -> &mut Length; 4] =
        [|used| &mut used.length, |used| &mut used.width, |used| &mut used.used, |used| &mut used.left_over];
    for change in changes {
        let mut plan = hand.plan(vec![hand.off_the_shelf(0, vec![cut(&hand, 0, 1, [0, 300, 0, 200])])]);
        let length = change(&mut plan.uses[0]);
        *length = *length + half;
        let errors = hand.errors(&plan);
        assert!(errors.iter().any(is_unreadable), "{errors:?}");
        assert!(
            errors.iter().all(|error| is_unreadable(error) || matches!(error, PlanError::Total { .. })),
            "{errors:?}"
        );
    }
}

#[test]
fn goods_that_cannot_be_read_are_named_and_nothing_else() {
    let changes: [fn(&mut HandPlan); 6] = [
        |hand| hand.goods.width = Length::from_steps(f64::NAN),
        |hand| hand.goods.loss_per_cut = Length::from_steps(f64::NAN),
        |hand| hand.manner.squaring = nm(-1),
        |hand| hand.goods.repeat = Some(Repeat { along: Length::from_steps(0.9), shift: nm(0) }),
        |hand| hand.goods.repeat = Some(Repeat { along: nm(64), shift: nm(-1) }),
        |hand| hand.goods.repeat = Some(Repeat { along: Length::from_steps(f64::NAN), shift: nm(0) }),
    ];
    let marks = [0, 300, 0, 200];
    for (place, change) in changes.iter().enumerate() {
        let mut hand = hand(700, vec![oblong("panel", 1, 300, 200)]);
        let plan = hand.plan(vec![hand.new_cloth(vec![cut(&hand, 0, 1, marks)])]);
        change(&mut hand);
        let errors = hand.errors(&plan);
        assert!(errors.len() == 1 && errors.iter().all(is_unreadable), "{place}: {errors:?}");
    }
    let mut hand = hand(700, vec![oblong("panel", 1, 300, 200)]);
    hand.goods.repeat = Some(Repeat { along: nm(1), shift: nm(0) });
    sound(&hand.on_cloth(vec![cut(&hand, 0, 1, marks)]));
}

#[test]
fn offcuts_lie_between_the_cuts_and_within_what_is_used() {
    let hand = hand(700, vec![oblong("panel", 2, 300, 200)]);
    let cuts = vec![cut(&hand, 0, 1, [0, 300, 0, 200]), cut(&hand, 0, 2, [600, 900, 0, 200])];
    let judged = |offcuts: &[[i64; 4]]| {
        let mut used = hand.off_the_shelf(0, cuts.clone());
        used.offcuts = offcuts
            .iter()
            .map(|[from, to, across_from, across_to]| Offcut {
                from: nm(*from),
                to: nm(*to),
                across_from: nm(*across_from),
                across_to: nm(*across_to),
            })
            .collect();
        hand.errors(&hand.plan(vec![used]))
    };
    sound(&judged(&[[0, 900, 200, 700], [300, 600, 0, 200]]));
    for beyond in [
        [-1, 300, 200, 700],
        [300, 901, 200, 700],
        [300, 600, -1, 200],
        [0, 900, 200, 701],
        [300, 300, 0, 9],
        [300, 600, 9, 9],
        [300, 600, 9, 5],
    ] {
        only(&judged(&[beyond]), is_left_over);
    }
    for (one, other) in [
        ([0, 900, 199, 700], [310, 320, 0, 9]),
        ([299, 600, 0, 200], [310, 320, 300, 400]),
        ([0, 900, 200, 700], [300, 600, 0, 201]),
    ] {
        only(&judged(&[one, other]), overlaps);
    }
}

/// One of a length of the shelf, of which there are so many; and so of what is offered.
#[test]
fn no_more_lengths_are_cut_than_there_are() {
    let numbered = |hand: &HandPlan, source: StockSource, length: i64| {
        let cuts = vec![cut(hand, 0, 1, [0, 300, 0, 200])];
        let on_shelf = matches!(source, StockSource::Shelf { .. });
        let used = if on_shelf { hand.off_the_shelf(0, cuts) } else { hand.new_cloth(cuts) };
        hand.errors(&hand.plan(vec![StockUse { source, length: nm(length), left_over: nm(length - 300), ..used }]))
    };
    let scene = || hand(700, vec![oblong("panel", 1, 300, 200)]);
    let judged = |hand: &HandPlan, source: StockSource, length: i64, right: bool| {
        let errors = numbered(hand, source, length);
        assert!(errors.is_empty() == right && errors.iter().all(is_exceeded), "{source:?}: {errors:?}");
    };
    let mut two = scene();
    two.stock[0].count = 2;
    for (number, right) in [(0, false), (1, true), (2, true), (3, false)] {
        judged(&two, StockSource::Shelf { entry: 0, number }, 1_000, right);
    }
    let new = |number| StockSource::New { offer: 0, number };
    // Cloth cut as needed is one length; of whole ones there are as many as needed.
    for (number, right) in [(0, false), (1, true), (2, false)] {
        judged(&scene(), new(number), 300, right);
    }
    let mut whole = scene();
    whole.goods.put_up = Some(nm(900));
    judged(&whole, new(70), 900, true);
    let offered = |along: Option<i64>, most| {
        let offer = PutUp { name: "bolt".into(), along: along.map(nm), across: None, price: None, most };
        HandPlan { supply: Supply::Offered(vec![offer]), ..scene() }
    };
    for (along, most, number, right) in [
        (Some(900), None, 70, true),
        (Some(900), Some(3), 3, true),
        (Some(900), Some(3), 4, false),
        (Some(900), Some(3), 0, false),
        (None, None, 1, true),
        (None, None, 2, false),
        (None, Some(5), 1, true),
        (None, Some(5), 2, false),
        (None, Some(0), 1, false),
    ] {
        judged(&offered(along, most), new(number), along.unwrap_or(300), right);
    }
}

#[test]
fn a_length_is_as_long_and_as_wide_as_the_shelf_or_the_offer_has_it() {
    let scene = || hand(700, vec![oblong("panel", 1, 300, 200)]);
    let judged = |hand: &HandPlan, width: i64, length: i64| {
        let used = hand.off_the_shelf(0, vec![cut(hand, 0, 1, [0, 300, 0, 200])]);
        let used = StockUse { width: nm(width), length: nm(length), left_over: nm(length - 300), ..used };
        hand.errors(&hand.plan(vec![used]))
    };
    let mut hand = scene();
    for (listed, width) in [(None, 700), (Some(600), 600), (Some(700), 700), (Some(800), 700), (Some(701), 700)] {
        hand.stock[0].across = listed.map(nm);
        sound(&judged(&hand, width, 1_000));
        only(&judged(&hand, width - 1, 1_000), is_stock_size);
        only(&judged(&hand, width + 1, 1_000), is_stock_size);
        only(&judged(&hand, width, 999), is_stock_size);
        only(&judged(&hand, width, 1_001), is_stock_size);
    }
    hand.stock[0].across = Some(Length::from_steps(f64::NAN));
    only(&judged(&hand, 700, 1_000), is_stock_size);
    let mut hand = scene();
    hand.stock[0].along = Length::from_steps(f64::NAN);
    only(&judged(&hand, 700, 1_000), is_stock_size);
    // 300 and twice 50 squared off.
    let mut hand = scene();
    hand.manner.squaring = nm(50);
    for (length, right) in [(399, false), (400, true), (401, false)] {
        let used = hand.new_cloth(vec![cut(&hand, 0, 1, [0, 300, 0, 200])]);
        let mut errors = hand.errors(&hand.plan(vec![StockUse { length: nm(length), ..used }]));
        errors.retain(is_stock_size);
        assert_eq!(errors.is_empty(), right, "{length}");
    }
}

/// Each grain allows the lies that the trade gives it; the bias takes 800 times half the square root of two both ways.
#[test]
fn each_grain_allows_its_own_lies() {
    let sizes = [(Lie::Along, [0, 300, 0, 500]), (Lie::Across, [0, 500, 0, 300]), (Lie::Bias, [0, 566, 0, 565])];
    for (grain, allowed) in [
        (Grain::Along, [true, false, false]),
        (Grain::Across, [false, true, false]),
        (Grain::Bias, [false, false, true]),
        (Grain::Any, [true, true, false]),
    ] {
        let hand = hand(700, vec![CutPiece { grain, ..oblong("panel", 1, 300, 500) }]);
        for ((lie, marks), right) in sizes.into_iter().zip(allowed) {
            let errors = hand.on_cloth(vec![Cut { lie, ..cut(&hand, 0, 1, marks) }]);
            assert_eq!(errors.is_empty(), right, "{grain:?} {lie:?}: {errors:?}");
            assert!(errors.iter().all(|error| matches!(error, PlanError::AgainstGrain { .. })));
        }
    }
}

/// What lies across because its grain says so is not turned by choice.
#[test]
fn a_nap_and_a_head_forbid_turning_about_and_turning_by_choice() {
    for (grain, lie, reversed, right) in [
        (Grain::Along, Lie::Along, false, true),
        (Grain::Along, Lie::Along, true, false),
        (Grain::Across, Lie::Across, false, true),
        (Grain::Across, Lie::Across, true, false),
        (Grain::Any, Lie::Along, false, true),
        (Grain::Any, Lie::Across, false, false),
    ] {
        let marks = if lie == Lie::Along { [0, 300, 0, 500] } else { [0, 500, 0, 300] };
        let mut hand = hand(700, vec![CutPiece { grain, ..oblong("panel", 1, 300, 500) }]);
        let judged = |hand: &HandPlan| hand.on_cloth(vec![Cut { lie, reversed, ..cut(hand, 0, 1, marks) }]);
        sound(&judged(&hand));
        hand.pieces[0].one_way = true;
        let head = judged(&hand);
        hand.goods.napped = true;
        let nap = judged(&hand);
        let wrong =
            (matches!(head[..], [PlanError::NotHeadUp { .. }]), matches!(nap[..], [PlanError::AgainstNap { .. }]));
        assert!(if right { head.is_empty() && nap.is_empty() } else { wrong == (true, true) }, "{head:?} {nap:?}");
    }
}

/// A triangle of 42 by 72, marks every 10: it takes its own size or that up to the marks.
#[test]
fn a_drawn_piece_takes_its_size_or_that_up_to_a_mark() {
    let triangle = outline("gore", 1, &[(0.0, 0.0), (42e-7, 0.0), (0.0, 72e-7)]).with_mark(Some(nm(10)));
    let hand = hand(700, vec![triangle]);
    for (along, across, right) in [
        (50, 80, true),
        (42, 72, true),
        (42, 80, true),
        (41, 72, false),
        (43, 80, false),
        (51, 80, false),
        (50, 81, false),
    ] {
        let errors = hand.on_cloth(vec![cut(&hand, 0, 1, [0, along, 0, across])]);
        assert_eq!(errors.is_empty(), right, "{along} {across}: {errors:?}");
        assert!(errors.iter().all(|error| matches!(error, PlanError::WrongSize { .. })));
    }
}

/// A repeat of 100.4 is marked at 100, and its shift of 50.2 at 50; nine shifts are 450, half a repeat.
#[test]
fn matched_pieces_start_on_the_pattern_to_a_nanometre() {
    let mut hand = hand(
        700,
        vec![CutPiece { matching: Some(Matching::Shifts(vec![0, 9])), ..full("drop", 2, 40) }, full("band", 1, 20)],
    );
    hand.goods.repeat = Some(Repeat { along: Length::from_steps(100.4), shift: Length::from_steps(50.2) });
    let judged = |hand: &HandPlan, cuts: Vec<Cut>, lead: f64, longer: i64| {
        let used = hand.new_cloth(cuts);
        let used = StockUse { lead: Length::from_steps(lead), length: used.length + nm(longer), ..used };
        hand.errors(&hand.plan(vec![used]))
    };
    let off = |error: &PlanError| matches!(error, PlanError::OffPattern { .. });
    let drops = |hand: &HandPlan, second: i64| {
        let band = cut(hand, 1, 1, [63, 83, 0, 700]);
        vec![cut(hand, 0, 1, [7, 47, 0, 700]), band, cut(hand, 0, 2, [second, second + 40, 0, 700])]
    };
    for (second, right) in
        [(157, true), (156, true), (158, true), (155, false), (159, false), (107, false), (257, true)]
    {
        let errors = judged(&hand, drops(&hand, second), 101.0, 101);
        assert!(errors.is_empty() == right && errors.iter().all(off), "{second}: {errors:?}");
    }
    // One repeat of the length lies before the first mark, in whole nanometres.
    let no_lead = |error: &PlanError| matches!(error, PlanError::NoLead { .. });
    sound(&judged(&hand, drops(&hand, 157), 100.0, 100));
    for wrong in [0.0, 99.0, 100.5, 102.0] {
        only(&judged(&hand, drops(&hand, 157), wrong, 100), no_lead);
    }
    for longer in [99, 102] {
        assert!(judged(&hand, drops(&hand, 157), 100.0, longer).iter().any(is_stock_size), "{longer}");
    }
    // What nobody knows is not matched.
    let mut plan = hand.plan(vec![hand.new_cloth(vec![cut(&hand, 1, 1, [0, 20, 0, 700])])]);
    plan.uses[0].cuts[0].entry = 9;
    let errors = hand.errors(&plan);
    assert!(errors.iter().any(|error| matches!(error, PlanError::UnknownPiece { .. })));
    assert!(!errors.iter().any(no_lead), "{errors:?}");
    // A panel is not in the row of drops, so it is shifted by none.
    hand.pieces = vec![CutPiece { matching: Some(Matching::Shifts(vec![0, 9])), ..oblong("panel", 2, 40, 30) }];
    let panels = |second: i64| vec![cut(&hand, 0, 1, [7, 47, 0, 30]), cut(&hand, 0, 2, [second, second + 40, 0, 30])];
    sound(&judged(&hand, panels(107), 100.0, 100));
    only(&judged(&hand, panels(157), 100.0, 100), off);
}

/// Widths start a third of the repeat of 90 later each, or 50.5 of 100: that start is rounded, and so is each mark.
#[test]
fn each_width_starts_its_shift_later_than_the_one_before() {
    let judged = |along: i64, shift: f64, pieces: Vec<CutPiece>, second: i64| {
        let mut hand = hand(700, pieces);
        hand.goods.repeat = Some(Repeat { along: nm(along), shift: Length::from_steps(shift) });
        let last = hand.pieces.len() - 1;
        let across = if last == 0 { 700 } else { 30 };
        let number = if last == 0 { 2 } else { 1 };
        let cuts = vec![cut(&hand, 0, 1, [7, 47, 0, 700]), cut(&hand, last, number, [second, second + 40, 0, across])];
        let used = hand.new_cloth(cuts);
        let used = StockUse { lead: nm(along), length: used.length + nm(along), ..used };
        let errors = hand.errors(&hand.plan(vec![used]));
        assert!(errors.iter().all(|error| matches!(error, PlanError::OffPattern { .. })), "{errors:?}");
        errors.is_empty()
    };
    let drops = || vec![CutPiece { matching: Some(Matching::RunOn), ..full("drop", 2, 40) }];
    for (second, right) in [(127, true), (217, true), (97, false), (157, false)] {
        assert_eq!(judged(90, 30.0, drops(), second), right, "{second}");
    }
    // 157.5 and one and a half to either side.
    for (second, right) in [(155, false), (156, true), (159, true), (160, false)] {
        assert_eq!(judged(100, 50.5, drops(), second), right, "{second}");
    }
    // A panel starts as the first width does.
    let mixed = || {
        let drop = CutPiece { matching: Some(Matching::RunOn), ..full("drop", 1, 40) };
        vec![drop, CutPiece { matching: Some(Matching::RunOn), ..oblong("panel", 1, 40, 30) }]
    };
    for (second, right) in [(97, true), (127, false), (67, false)] {
        assert_eq!(judged(90, 30.0, mixed(), second), right, "{second}");
    }
}
