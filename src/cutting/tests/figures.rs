//! Plans whose figures are known beforehand.

use super::*;
use crate::cutting::plan::PlanNote;
use crate::quantity::number;

/// Own arithmetic: a 25 yd roll holds 16 strips of 54 in, so 33 take 3 rolls, though their length
/// is that of 1.98 rolls.
#[test]
fn whole_strips_come_off_whole_rolls() {
    let plan = planned(&[strips(33, inches(54.0))], &tulle(), &[], &Supply::Endless).unwrap();
    assert_eq!(plan.put_ups_bought(), 3);
    let on_each: Vec<usize> = plan.uses.iter().map(|used| used.cuts.len()).collect();
    assert_eq!(on_each, [16, 16, 1]);
    assert_eq!(plan.uses[0].left_over, inches(36.0));
    assert_eq!(plan.length_used, inches(1782.0));
    assert!(plan.quality.proved);
    let names: Vec<&str> = plan.uses.iter().map(|used| used.stock.as_str()).collect();
    assert_eq!(names, ["new roll 1", "new roll 2", "new roll 3"]);
    let second = &plan.uses[0].cuts[1];
    assert_eq!((second.from, second.to), (inches(54.0), inches(108.0)));
    assert_eq!((second.across_from, second.across_to), (Length::ZERO, inches(6.0)));
}

/// Own arithmetic: 120 strips of 10 in, 90 a roll: two 25 yd rolls or one of 100 yd.
#[test]
fn a_hundred_and_twenty_strips() {
    let pieces = [strips(120, inches(10.0))];
    let plan = planned(&pieces, &tulle(), &[], &Supply::Endless).unwrap();
    assert_eq!(plan.put_ups_bought(), 2);
    assert_eq!(plan.uses[0].cuts.len(), 90);
    assert_eq!(plan.length_used, inches(1200.0));
    let long = Goods::roll(inches(6.0), Length::yards(100.0));
    assert_eq!(planned(&pieces, &long, &[], &Supply::Endless).unwrap().put_ups_bought(), 1);
}

/// Own arithmetic: 110 strips of 10 in are 1100 in.
#[test]
fn a_hundred_and_ten_strips() {
    let plan = planned(&[strips(110, inches(10.0))], &tulle(), &[], &Supply::Endless).unwrap();
    assert_eq!((plan.length_used, plan.put_ups_bought()), (inches(1100.0), 2));
}

/// Own arithmetic: 13 cuts of 10 in over the width of 54 in tulle are 130 in.
#[test]
fn full_widths_of_wide_tulle() {
    let plan = planned(&[strips(13, inches(10.0))], &Goods::cloth(inches(54.0)), &[], &Supply::Endless).unwrap();
    assert_eq!((plan.length_used, plan.lower_bound), (inches(130.0), inches(130.0)));
    assert_eq!(plan.bought.len(), 1);
    assert_eq!(plan.bought[0].length, inches(130.0));
    assert_eq!(plan.uses[0].stock, "new cloth");
}

#[test]
fn the_shelf_comes_first_remnants_before_rolls() {
    let roll = StockLength { count: 2, ..StockLength::new("B4", inches(120.0)) };
    let remnant = StockLength { remnant: true, ..StockLength::new("R1", inches(60.0)) };
    let plan = planned(&[strips(8, inches(54.0))], &tulle(), &[roll, remnant], &Supply::Endless).unwrap();
    let uses: Vec<(&str, usize)> = plan.uses.iter().map(|used| (used.stock.as_str(), used.cuts.len())).collect();
    assert_eq!(uses, [("R1", 1), ("B4", 2), ("B4", 2), ("new roll 1", 3)]);
    assert_eq!(plan.uses[2].source, StockSource::Shelf { entry: 0, number: 2 });
    assert_eq!(plan.uses[0].left_over, inches(6.0));
}

/// By hand, 2 cm lost at each cut: 49, 42 and 15 cm on 112 cm, 110 with two losses; 47 and 45 on 97 cm, 94 with one;
/// 30, 25 and 22 on the other, 81 with two. First fit, the longest first, has no place left for the 15 cm.
#[test]
fn strips_that_first_fit_has_no_place_for_are_planned() {
    let goods = Goods { loss_per_cut: cm(2.0), ..Goods { kind: GoodsKind::Roll, ..Goods::cloth(cm(15.0)) } };
    let sizes = [25.0, 30.0, 47.0, 15.0, 49.0, 42.0, 22.0, 45.0];
    let pieces: Vec<CutPiece> = sizes.iter().map(|size| strips(1, cm(*size))).collect();
    let stock = [StockLength::new("S0", cm(112.0)), StockLength { count: 2, ..StockLength::new("S1", cm(97.0)) }];
    let plan = planned(&pieces, &goods, &stock, &Supply::ShelfOnly).unwrap();
    assert_eq!(plan.uses.iter().map(|used| used.cuts.len()).sum::<usize>(), 8);
    // With one length less there is no place for all.
    let short = [StockLength::new("S0", cm(112.0)), StockLength::new("S1", cm(97.0))];
    assert!(matches!(planned(&pieces, &goods, &short, &Supply::ShelfOnly), Err(CuttingError::NotEnough { .. })));
}

/// By hand: a strip of 15 in on shelf lengths about thirty, a hundred and a thousand times as long.
#[test]
fn a_long_length_on_the_shelf_is_cut_before_new_goods() {
    for yards in [12.0, 40.0, 400.0] {
        let stock = [StockLength::new("E1", Length::yards(yards))];
        for keep_from in [None, Some(Length::ZERO), Some(inches(5.0))] {
            let manner = CuttingManner { keep_from, ..CuttingManner::default() };
            let goods = Goods { put_up: None, ..tulle() };
            let never = AtomicBool::new(false);
            let pieces = [strips(1, inches(15.0))];
            let task = CuttingTask {
                pieces: &pieces,
                goods: &goods,
                stock: &stock,
                supply: &Supply::Endless,
                manner: &manner,
            };
            let plan = plan(&task, Watch::silent(&never)).unwrap();
            assert!(plan.bought.is_empty(), "{yards} yd, {keep_from:?}: {:?}", plan.bought);
        }
    }
}

/// Common practice, no source: the pieces of one garment come from one dye lot. L7 holds four strips, enough for a
/// skirt.
#[test]
fn each_garment_is_of_one_lot() {
    let roll = StockLength { lot: Some("L7".into()), count: 2, ..StockLength::new("B4", inches(120.0)) };
    let strips = |count, per_garment| CutPiece { per_garment, ..strips(count, inches(54.0)) };
    let lots = |pieces: CutPiece| {
        let plan = planned(&[pieces], &tulle(), std::slice::from_ref(&roll), &Supply::Endless).unwrap();
        let uses = plan.uses.iter().map(|used| (used.stock.clone(), used.cuts.len())).collect::<Vec<_>>();
        (uses, plan.notes)
    };
    let named =
        |uses: &[(&str, usize)]| uses.iter().map(|(name, cuts)| ((*name).to_owned(), *cuts)).collect::<Vec<_>>();
    // Two skirts of four strips: one from the shelf, one bought.
    let (uses, notes) = lots(strips(8, Some(4)));
    assert_eq!(uses, named(&[("B4", 2), ("B4", 2), ("new roll 1", 4)]));
    assert!(matches!(&notes[..], [PlanNote::LotsMixed { .. }]), "{notes:?}");
    // One of eight: the shelf does not hold it, so all of it is bought.
    let (uses, notes) = lots(strips(8, Some(8)));
    assert_eq!(uses, named(&[("new roll 1", 8)]));
    assert_eq!(notes, [PlanNote::LotsApart { left: vec!["B4 (lot L7)".to_owned()] }]);
}

/// Own arithmetic: eleven strips of 60 in are 660 in, which joined could come off seven rolls of 100 in; whole they
/// take eleven. That does not prove that no plan is better: with 40 in left of each roll at 0.6 they count for 836 in,
/// and the lower bound is 660 in.
#[test]
fn nothing_is_proved_of_pieces_that_could_be_joined() {
    let rule = JoinRule::new(1, inches(5.0), Length::ZERO);
    let pieces = [CutPiece { may_join: Some(rule), ..strips(11, inches(60.0)) }];
    let goods = Goods::roll(inches(6.0), inches(100.0));
    let plan = planned(&pieces, &goods, &[], &Supply::Endless).unwrap();
    assert_eq!(plan.put_ups_bought(), 11);
    assert!(!plan.quality.proved && number::is_near(plan.quality.bound_ratio, 660.0 / 836.0), "{:?}", plan.quality);
    let whole = planned(&[strips(11, inches(60.0))], &goods, &[], &Supply::Endless).unwrap();
    assert!(whole.quality.proved);
}

/// Two lots hold the order, one of them dearer: the cheaper is cut, whichever comes first.
#[test]
fn the_lot_that_counts_for_least_is_cut() {
    let lot = |name: &str, lot: &str, price| StockLength {
        lot: Some(lot.into()),
        price: Some(crate::quantity::Money::from_steps(price)),
        ..StockLength::new(name, inches(120.0))
    };
    let dear_first = [lot("A", "L1", 90_000.0), lot("B", "L2", 40_000.0)];
    let plan = planned(&[strips(2, inches(54.0))], &tulle(), &dear_first, &Supply::Endless).unwrap();
    assert_eq!(plan.uses.iter().map(|used| used.stock.as_str()).collect::<Vec<_>>(), ["B"]);
}

#[test]
fn shorter_pieces_lie_beside_longer_ones() {
    let pieces = [rectangle("cuff", 3, cm(20.0), cm(30.0)), rectangle("skirt", 2, cm(50.0), cm(60.0))];
    let plan = planned(&pieces, &Goods::cloth(cm(150.0)), &[], &Supply::Endless).unwrap();
    // The three cuffs lie one behind the other beside the two skirts; separate rows of skirts and cuffs take 70 cm.
    assert_eq!(plan.length_used, cm(60.0));
    assert!(plan.uses[0].cuts.iter().filter(|cut| &*cut.piece == "cuff").all(|cut| cut.across_from == cm(120.0)));
}

#[test]
fn grain_ties_the_frame_to_the_cloth() {
    let laid = |grain, napped, across| {
        let goods = Goods { napped, ..Goods::cloth(cm(150.0)) };
        let piece = CutPiece { grain, ..rectangle("band", 1, cm(100.0), cm(across)) };
        let plan = planned(&[piece], &goods, &[], &Supply::Endless).unwrap();
        (plan.length_used, plan.uses[0].cuts[0].lie)
    };
    assert_eq!(laid(Grain::Along, false, 10.0), (cm(100.0), Lie::Along));
    assert_eq!(laid(Grain::Across, false, 10.0), (cm(10.0), Lie::Across));
    assert_eq!(laid(Grain::Any, false, 10.0), (cm(10.0), Lie::Across));
    assert_eq!(laid(Grain::Any, true, 10.0), (cm(100.0), Lie::Along));
    // Wider than the cloth, so turned.
    assert_eq!(laid(Grain::Any, false, 170.0), (cm(170.0), Lie::Across));
    // (100 + 10) / √2 both ways.
    let (used, lie) = laid(Grain::Bias, false, 10.0);
    assert!((used.in_centimetres() - 77.781_745_930_5).abs() < 1e-6, "{used:?}");
    assert_eq!(lie, Lie::Bias);
}

#[test]
fn a_piece_too_wide_is_joined() {
    let rule = JoinRule::new(3, cm(20.0), cm(1.5));
    let panel = CutPiece { may_join: Some(rule), ..rectangle("panel", 2, cm(60.0), cm(250.0)) };
    let plan = planned(&[panel], &Goods::cloth(cm(137.0)), &[], &Supply::Endless).unwrap();
    // 250 + 2 · 1.5 = 253 = 137 + 116 each: no two short parts fit beside each other.
    assert_eq!((plan.pieces("panel"), plan.joins("panel")), (2, 2));
    assert_eq!(plan.length_used, cm(240.0));
    let widths: Vec<Length> = plan.uses[0].cuts.iter().map(|cut| cut.across_to - cut.across_from).collect();
    assert_eq!(widths, [cm(137.0), cm(116.0), cm(137.0), cm(116.0)]);
    assert_eq!(plan.uses[0].cuts[1].part, Some(JoinedPart { number: 2, of: 2 }));
}

#[test]
fn a_strip_longer_than_a_roll_is_joined() {
    let rule = JoinRule::new(2, inches(10.0), inches(0.5));
    let strip = CutPiece { may_join: Some(rule), ..strips(1, inches(1200.0)) };
    let plan = planned(&[strip], &tulle(), &[], &Supply::Endless).unwrap();
    assert_eq!((plan.put_ups_bought(), plan.joins("strip")), (2, 1));
    assert_eq!(plan.length_used, inches(1201.0));
}

/// The only shelf length is already in use when the wide piece comes; the parts come off the rest of it.
#[test]
fn parts_come_off_the_rest_of_a_length() {
    let rule = JoinRule::new(1, cm(20.0), cm(1.0));
    let panel = CutPiece { may_join: Some(rule), ..rectangle("panel", 1, cm(60.0), cm(250.0)) };
    let stock = [StockLength::new("B1", cm(220.0))];
    let pieces = [panel, strips(1, cm(100.0))];
    let plan = planned(&pieces, &Goods::cloth(cm(137.0)), &stock, &Supply::ShelfOnly).unwrap();
    assert_eq!((plan.uses.len(), plan.joins("panel")), (1, 1));
    assert_eq!((plan.uses[0].used, plan.uses[0].left_over), (cm(220.0), Length::ZERO));
}

/// Two remnants make the piece that neither holds alone.
#[test]
fn a_strip_is_pieced_from_remnants() {
    let rule = JoinRule::new(1, inches(10.0), inches(0.5));
    let strip = CutPiece { may_join: Some(rule), ..strips(1, inches(100.0)) };
    let remnants = [StockLength { count: 2, remnant: true, ..StockLength::new("R1", inches(60.0)) }];
    let plan = planned(&[strip], &tulle(), &remnants, &Supply::ShelfOnly).unwrap();
    let used: Vec<Length> = plan.uses.iter().map(|used| used.used).collect();
    assert_eq!(used, [inches(60.0), inches(41.0)]);
}

#[test]
fn narrower_stock_is_kept_to_its_width() {
    let narrow = StockLength { across: Some(cm(50.0)), remnant: true, ..StockLength::new("R2", cm(200.0)) };
    let pieces = [rectangle("pocket", 4, cm(20.0), cm(30.0)), strips(1, cm(10.0))];
    let plan = planned(&pieces, &Goods::cloth(cm(140.0)), &[narrow], &Supply::Endless).unwrap();
    assert_eq!(plan.uses[0].stock, "R2");
    assert_eq!(plan.uses[0].cuts.len(), 4);
    assert_eq!(plan.uses[0].used, cm(80.0));
    // The full width cannot come off the narrow remnant.
    assert_eq!((plan.uses[1].stock.as_str(), plan.uses[1].used), ("new cloth", cm(10.0)));
}

#[test]
fn what_is_placed_more_simply_is_said() {
    let half = Shape::Sector { inner: cm(8.0), outer: cm(50.0), turn: 0.5 };
    let skirt = CutPiece { on_fold: Some(Fold::Across), ..CutPiece::new("half skirt", 4, half) };
    let plan = planned(&[skirt], &Goods::cloth(cm(112.0)), &[], &Supply::Endless).unwrap();
    // By their bounding rectangles, two side by side, they take 200 cm; nested, less.
    assert!(plan.length_used < cm(190.0), "{:?}", plan.length_used);
    let notes: Vec<String> = plan.notes.iter().map(ToString::to_string).collect();
    assert_eq!(notes, ["half skirt lies open and whole on single cloth, not on the fold"]);
    // 4 · π · 0.5 · (50² − 8²) / 112
    assert!((plan.lower_bound.in_centimetres() - 136.659_280_4).abs() < 1e-6, "{:?}", plan.lower_bound);
}

#[test]
fn mirrored_pieces_come_in_pairs() {
    let sleeve = CutPiece { mirrored: true, ..rectangle("sleeve", 4, cm(40.0), cm(30.0)) };
    let plan = planned(&[sleeve], &Goods::cloth(cm(112.0)), &[], &Supply::Endless).unwrap();
    assert_eq!(plan.uses[0].cuts.iter().filter(|cut| cut.mirrored).count(), 2);
}

#[test]
fn what_is_offered_is_taken_in_order_with_its_price() {
    let offer = |name: &str, along, most, price| PutUp {
        name: name.to_owned(),
        along: Some(along),
        across: None,
        price: Some(crate::quantity::Money::from_steps(price)),
        most,
    };
    let offers =
        vec![offer("short roll", inches(100.0), Some(1), 20_000.0), offer("long roll", inches(900.0), None, 65_000.0)];
    let manner = CuttingManner { effort: Effort::of(30_000), ..CuttingManner::default() };
    let supply = Supply::Offered(offers);
    let (twenty, tulle) = ([strips(20, inches(54.0))], tulle());
    let offered = CuttingTask { manner: &manner, ..task(&twenty, &tulle, &[], &supply) };
    let plan = plan(&offered, Watch::silent(&AtomicBool::new(false))).unwrap();
    let bought: Vec<(&str, i64, f64)> =
        plan.bought.iter().map(|bought| (bought.name.as_str(), bought.count, bought.price.unwrap().steps())).collect();
    // Two long rolls hold all twenty; one long roll and the short one hold seventeen.
    assert_eq!(bought, [("long roll", 2, 65_000.0)]);
    assert_eq!(plan.uses[1].stock, "new long roll 2");
    assert_eq!(plan.cost, Some(crate::quantity::Money::from_steps(130_000.0)));
    assert!(plan.quality.proved && plan.quality.aim == Aim::Cost);
}

#[test]
fn a_loss_per_cut_is_kept_clear() {
    let goods = Goods { loss_per_cut: inches(0.5), ..tulle() };
    // 16 strips of 56 in and 15 losses are 903.5 in: one strip too many for a roll of 900 in.
    let plan = planned(&[strips(16, inches(56.0))], &goods, &[], &Supply::Endless).unwrap();
    assert_eq!(plan.put_ups_bought(), 2);
    assert_eq!(plan.uses[0].used, inches(15.0 * 56.0 + 14.0 * 0.5));
    assert_eq!(plan.uses[0].left_over, inches(900.0 - 847.0 - 0.5));
    // 30 strips of 30 in, with 29 losses between them, fill this roll exactly; the last cut needs no loss after it.
    let exact = Goods { put_up: Some(inches(30.0 * 30.0 + 29.0 * 0.5)), ..goods };
    let plan = planned(&[strips(30, inches(30.0))], &exact, &[], &Supply::Endless).unwrap();
    assert_eq!((plan.put_ups_bought(), plan.uses[0].left_over), (1, Length::ZERO));
}

#[test]
fn nothing_to_cut_is_a_plan_too() {
    let plan = planned(&[strips(0, inches(54.0))], &tulle(), &[], &Supply::ShelfOnly).unwrap();
    assert!(plan.uses.is_empty() && plan.bought.is_empty());
    assert_eq!((plan.pieces("strip"), plan.length_used), (0, Length::ZERO));
}

#[test]
fn thirds_of_a_roll_fit_three_times() {
    let goods = Goods::roll(inches(6.0), cm(200.0));
    let plan = planned(&[strips(6, cm(200.0) / 3.0)], &goods, &[], &Supply::Endless).unwrap();
    assert_eq!(plan.put_ups_bought(), 2);
}
