//! Widths on a pattern that repeats: figures by hand, the closed form for two kinds, and every order of a short list.
//!
//! All figures are own arithmetic. Lengths are centimetres.

use super::*;
use crate::cutting::plan::PlanNote;
use crate::quantity::number;
use proptest::prelude::*;

fn drops(along: f64, shifts: &[i64]) -> CutPiece {
    let shape = Shape::FullWidth { along: cm(along) };
    let count = number::from_size(shifts.len());
    CutPiece { matching: Some(Matching::Shifts(shifts.to_vec())), ..CutPiece::new("drop", count, shape) }
}

fn half_drop(repeat: f64) -> Goods {
    Goods { repeat: Some(Repeat::half_drop(cm(repeat))), ..Goods::cloth(cm(137.0)) }
}

/// The drops of a plan by their starts: kind and start in centimetres.
fn starts(plan: &CuttingPlan, shifts: &[i64]) -> Vec<(i64, f64)> {
    let cuts = plan.uses.iter().flat_map(|used| &used.cuts);
    cuts.map(|cut| (shifts[usize::try_from(cut.number - 1).unwrap()], cut.from.steps() / 1e7)).collect()
}

#[track_caller]
fn check_starts(along: f64, shifts: &[i64], wanted: &[f64], end: f64) {
    let goods = half_drop(64.0);
    let plan = planned(&[drops(along, shifts)], &goods, &[], &Supply::Endless).unwrap();
    let found = starts(&plan, shifts);
    assert_eq!(found.iter().map(|(_, from)| *from).collect::<Vec<_>>(), wanted, "{found:?}");
    assert_eq!(plan.length_used, cm(end));
    assert_eq!(plan.uses[0].used, cm(end));
    assert_eq!(plan.notes, [PlanNote::MarksFromPattern]);
    assert!(plan.quality.proved);
    // One repeat more is bought, to find the first start.
    assert_eq!((plan.uses[0].lead, plan.bought[0].length), (cm(64.0), cm(end + 64.0)));
}

#[test]
fn drops_start_at_the_next_place_that_serves() {
    // Pairs of two widths, of one and a half, and of two and a half, the leading widths level.
    check_starts(210.0, &[0, 1, 0, 1], &[0.0, 224.0, 448.0, 672.0], 882.0);
    check_starts(210.0, &[0, 1, 0], &[0.0, 224.0, 448.0], 658.0);
    check_starts(210.0, &[0, 1, 0, 0, 1], &[0.0, 224.0, 448.0, 672.0, 896.0], 1106.0);
    // 240 = 3.75 repeats: first all of one kind.
    check_starts(240.0, &[0, 1, 0, 1], &[0.0, 256.0, 544.0, 800.0], 1040.0);
    // Three widths in each, level and running on through the pair; one width in each.
    check_starts(210.0, &[0, 1, 0, 0, 1, 0], &[0.0, 256.0, 480.0, 704.0, 928.0, 1152.0], 1362.0);
    check_starts(210.0, &[-1, -2, -3, 0, 1, 2], &[0.0, 224.0, 448.0, 672.0, 896.0, 1120.0], 1330.0);
    check_starts(210.0, &[0, 0], &[0.0, 256.0], 466.0);
    check_starts(210.0, &[-1, 0], &[0.0, 224.0], 434.0);
    // The kind that there is more of comes first; where marks count from is free.
    check_starts(210.0, &[0, 1, 1], &[0.0, 224.0, 448.0], 658.0);
    // 256 is four repeats, 64 one.
    check_starts(256.0, &[0, 1, 0, 1], &[0.0, 256.0, 544.0, 800.0], 1056.0);
    check_starts(64.0, &[0, 1, 0, 1], &[0.0, 64.0, 160.0, 224.0], 288.0);
    check_starts(230.0, &[0, 1, 0, 1], &[0.0, 256.0, 544.0, 800.0], 1030.0);
}

#[test]
fn a_straight_repeat_a_third_and_no_pattern() {
    let used = |goods: &Goods, pieces: &[CutPiece]| planned(pieces, goods, &[], &Supply::Endless).unwrap().length_used;
    let straight = Goods { repeat: Some(Repeat::straight(cm(64.0))), ..Goods::cloth(cm(137.0)) };
    assert_eq!(used(&straight, &[drops(210.0, &[0, 1, 2, 3])]), cm(978.0));
    // Shifts of 21 1/3: 210 ends 18 behind a repeat, and 3 1/3 later the next of the row may start.
    let third = Goods { repeat: Some(Repeat { along: cm(64.0), shift: cm(64.0) / 3.0 }), ..Goods::cloth(cm(137.0)) };
    let laid = used(&third, &[drops(210.0, &[0, 1, 2])]);
    assert!((laid.steps() - (3.0 * 210.0 + 2.0 * 10.0 / 3.0) * 1e7).abs() < 4.0, "{laid:?}");
    // Without matching nothing is skipped, and nothing is bought to find a start.
    let plain = CutPiece { matching: None, ..drops(210.0, &[0, 1]) };
    let plan = planned(&[plain], &half_drop(64.0), &[], &Supply::Endless).unwrap();
    assert_eq!((plan.length_used, plan.bought[0].length, plan.uses[0].lead), (cm(420.0), cm(420.0), Length::ZERO));
}

/// 210 + 14 + 210 = 434 need 498 with the repeat before them; 497 hold one drop.
#[test]
fn a_shelf_length_serves_only_with_a_repeat_before_it() {
    let goods = half_drop(64.0);
    let from_shelf = |along: f64| {
        let stock = [StockLength::new("F2", cm(along))];
        let plan = planned(&[drops(210.0, &[0, 1])], &goods, &stock, &Supply::Endless).unwrap();
        plan.uses.iter().filter(|used| used.stock == "F2").map(|used| used.cuts.len()).sum::<usize>()
    };
    assert_eq!((from_shelf(498.0), from_shelf(497.9), from_shelf(274.0), from_shelf(273.9)), (2, 1, 1, 0));
}

/// Drops of 210 cm on a repeat of 64 cm, and plain bands. 150 cm hold no drop, so all of it is for bands: one of 100 cm,
/// 50 cm left; 230 cm hold no drop with the repeat before it, but a band of 200 cm. New cloth for bands alone is as long as
/// they are; that for a drop a repeat longer.
#[test]
fn only_a_length_with_a_matched_piece_loses_a_repeat() {
    let goods = half_drop(64.0);
    let cut_from = |band: f64, shelf: &[(&str, f64)]| {
        let stock: Vec<StockLength> = shelf.iter().map(|(name, along)| StockLength::new(name, cm(*along))).collect();
        let pieces = [drops(210.0, &[0]), CutPiece::new("band", 1, Shape::FullWidth { along: cm(band) })];
        let plan = planned(&pieces, &goods, &stock, &Supply::Endless).unwrap();
        let of = |piece: &str| {
            let used = plan.uses.iter().find(|used| used.cuts.iter().any(|cut| &*cut.piece == piece)).unwrap();
            let sizes = [used.length, used.lead, used.left_over].map(|length| length.in_centimetres().round());
            (used.stock.clone(), sizes)
        };
        (of("drop"), of("band"))
    };
    let new_drop = ("new cloth".to_owned(), [274.0, 64.0, 0.0]);
    assert_eq!(cut_from(100.0, &[("F", 150.0)]), (new_drop.clone(), ("F".to_owned(), [150.0, 0.0, 50.0])));
    assert_eq!(cut_from(200.0, &[("F", 230.0)]), (new_drop, ("F".to_owned(), [230.0, 0.0, 30.0])));
    let drop = ("F".to_owned(), [274.0, 64.0, 0.0]);
    assert_eq!(cut_from(100.0, &[("F", 274.0)]), (drop.clone(), ("new cloth".to_owned(), [100.0, 0.0, 0.0])));
    // A length that might have held the drop is whole again where only the band lies on it.
    assert_eq!(cut_from(270.0, &[("F", 274.0), ("G", 400.0)]), (drop, ("G".to_owned(), [400.0, 0.0, 130.0])));
}

/// 210 + 14 + 210 = 434 need 498 with the repeat before them: bolts as long hold two drops each, so three take two bolts. Every
/// way was tried.
#[test]
fn drops_on_whole_bolts_are_proved() {
    let goods = Goods { put_up: Some(cm(498.0)), ..half_drop(64.0) };
    let plan = planned(&[drops(210.0, &[0, 1, 0])], &goods, &[], &Supply::Endless).unwrap();
    assert_eq!((plan.put_ups_bought(), plan.quality.aim, plan.quality.proved), (2, Aim::Cost, true));
    let short = Goods { put_up: Some(cm(497.9)), ..goods };
    let plan = planned(&[drops(210.0, &[0, 1, 0])], &short, &[], &Supply::Endless).unwrap();
    assert_eq!((plan.put_ups_bought(), plan.quality.proved), (3, true));
}

/// The least length for `first` drops of one kind and `second` of the other, half a repeat apart.
///
/// With f the part of a repeat that a drop has beyond whole ones: up to a half (and more than none) the step to the
/// other kind is the shorter one, so they alternate as often as the counts allow; otherwise they change once.
fn closed_form(along: f64, repeat: f64, first: i64, second: i64) -> f64 {
    let same = repeat * (along / repeat - 1e-12).ceil();
    let other = repeat * ((along / repeat - 0.5 - 1e-12).ceil() + 0.5);
    let steps = first + second - 1;
    let (fewer, more) = (first.min(second), first.max(second));
    let changes = match fewer {
        0 => 0,
        _ if other < same && fewer == more => 2 * fewer - 1,
        _ if other < same => 2 * fewer,
        _ => 1,
    };
    number::from_whole(changes) * other + number::from_whole(steps - changes) * same + along
}

/// The least length over every order of the drops.
fn every_order(along: i64, repeat: i64, starts: &mut Vec<i64>, last: Option<i64>) -> i64 {
    if starts.is_empty() {
        return last.map_or(0, |last| last + along);
    }
    let mut best = i64::MAX;
    for place in 0..starts.len() {
        let start = starts.remove(place);
        let from = last.map_or(start, |last| last + along + (start - last - along).rem_euclid(repeat));
        let end = every_order(along, repeat, starts, Some(from)) - last.map_or(start, |_| 0);
        best = best.min(end);
        starts.insert(place, start);
    }
    best
}

/// The closed form is that of every order tried, for each part of a repeat that a drop may have beyond whole ones.
#[test]
fn the_closed_form_is_that_of_every_order() {
    for along in 57..=73 {
        for (first, second) in (0..5).flat_map(|first| (0..5).map(move |second| (first, second))).skip(1) {
            let mut starts: Vec<i64> = (0..first).map(|_| 0).chain((0..second).map(|_| 8)).collect();
            let wanted = number::from_whole(every_order(along, 16, &mut starts, None));
            let found = closed_form(number::from_whole(along), 16.0, first, second);
            assert!((found - wanted).abs() < 1e-6, "{along}, {first} and {second}: {found} for {wanted}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn two_kinds_take_what_the_closed_form_says(
        along in 20_i32..4000,
        repeat in 5_i32..900,
        (first, second) in (0_i64..7, 0_i64..7),
    ) {
        let (along, repeat) = (f64::from(along) / 10.0, f64::from(repeat) / 5.0);
        prop_assume!(first + second > 0);
        let shifts: Vec<i64> = (0..first).map(|_| 0).chain((0..second).map(|_| 1)).collect();
        let plan = planned(&[drops(along, &shifts)], &half_drop(repeat), &[], &Supply::Endless).unwrap();
        let wanted = closed_form(along, repeat, first, second);
        let found = plan.length_used.steps() / 1e7;
        prop_assert!((found - wanted).abs() < 1e-5, "{found} for {wanted}");
        // Never more than drops up to whole repeats, with the half step between the kinds.
        let whole = repeat * (along / repeat - 1e-12).ceil();
        let half_step = if first > 0 && second > 0 { repeat / 2.0 } else { 0.0 };
        prop_assert!(found <= whole * number::from_whole(first + second) + half_step + 1e-5);
        // No drop is short, none begins before the last one ends, and like starts are whole repeats apart.
        let cuts = &plan.uses[0].cuts;
        for pair in cuts.windows(2) {
            prop_assert!(pair[1].from >= pair[0].to);
        }
        for cut in cuts {
            prop_assert!((cut.to - cut.from).steps() >= cm(along).steps() - 1.0);
        }
        for (kind, from) in starts(&plan, &shifts) {
            let (first_kind, first_from) = starts(&plan, &shifts)[0];
            let apart = (from - first_from) / repeat - 0.5 * number::from_whole(kind - first_kind);
            prop_assert!((apart - apart.round()).abs() < 1e-6, "{kind} starts at {from}");
        }
    }

    #[test]
    fn no_order_of_eight_drops_takes_less(
        along in 3_i64..90,
        repeat in 2_i64..40,
        shift in 0_i64..40,
        shifts in prop::collection::vec(-3_i64..4, 1..9),
    ) {
        let shift = shift % repeat;
        let goods = Goods {
            repeat: Some(Repeat { along: cm(number::from_whole(repeat)), shift: cm(number::from_whole(shift)) }),
            ..Goods::cloth(cm(137.0))
        };
        let plan = planned(&[drops(number::from_whole(along), &shifts)], &goods, &[], &Supply::Endless).unwrap();
        let mut starts: Vec<i64> = shifts.iter().map(|shifts| (shifts * shift).rem_euclid(repeat)).collect();
        let wanted = every_order(along, repeat, &mut starts, None);
        prop_assert_eq!(plan.length_used, cm(number::from_whole(wanted)));
        prop_assert!(plan.quality.proved);
    }

    /// Shelf lengths with the repeat before them: an exhaustive search over which drops go on which length, each in
    /// every order, buys just as much.
    #[test]
    fn new_cloth_is_bought_only_for_what_the_shelf_cannot_serve(
        along in 5_i64..40,
        repeat in 3_i64..20,
        shifts in prop::collection::vec(0_i64..2, 1..6),
        shelf in prop::collection::vec(10_i64..120, 0..4),
    ) {
        let repeat = 2 * repeat;
        let goods = half_drop(number::from_whole(repeat));
        let stock: Vec<StockLength> = shelf
            .iter()
            .enumerate()
            .map(|(place, along)| StockLength::new(&format!("S{place}"), cm(number::from_whole(*along))))
            .collect();
        let plan = planned(&[drops(number::from_whole(along), &shifts)], &goods, &stock, &Supply::Endless).unwrap();
        let fits = |set: &[i64], length: i64| {
            let mut starts: Vec<i64> = set.iter().map(|shifts| shifts * repeat / 2).collect();
            set.is_empty() || every_order(along, repeat, &mut starts, None) <= length - repeat
        };
        let bought = |set: &[i64]| {
            let mut starts: Vec<i64> = set.iter().map(|shifts| shifts * repeat / 2).collect();
            if set.is_empty() { 0 } else { every_order(along, repeat, &mut starts, None) + repeat }
        };
        let places = shelf.len() + 1;
        let mut least = i64::MAX;
        for choice in 0..places.pow(u32::try_from(shifts.len()).unwrap()) {
            let mut lists = vec![Vec::new(); places];
            let mut left = choice;
            for shift in &shifts {
                lists[left % places].push(*shift);
                left /= places;
            }
            let (new, on_shelf) = lists.split_last().unwrap();
            if on_shelf.iter().zip(&shelf).all(|(set, length)| fits(set, *length)) {
                least = least.min(bought(new));
            }
        }
        let new: Length = plan.bought.iter().map(|bought| bought.length).sum();
        prop_assert_eq!(new, cm(number::from_whole(least)));
    }
}
