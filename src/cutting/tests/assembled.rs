//! A plan put together from a layout in whole nanometres: marks, leftovers, totals and notes, all by hand.

use super::scene::{cloth, cut_length, full, new, nm, oblong, placed, prepared, shelf};
use super::*;
use crate::cutting::place::assemble::assemble;
use crate::cutting::place::layout::{CutLength, Layout, Patch, Placed};
use crate::cutting::plan::{PlanNote, PlanQuality};
use crate::cutting::task::source::Source;
use crate::quantity::Money;

const QUALITY: PlanQuality = PlanQuality { aim: Aim::Length, bound_ratio: 0.5, proved: false, stopped: false };

/// The plan of these lengths, as the task has pieces and stock.
fn assembled(task: &CuttingTask<'_>, sources: &[Source], cut_lengths: Vec<CutLength>) -> CuttingPlan {
    let layout = Layout { cut_lengths, by_outline: false };
    assemble(&layout, sources, task, prepared(task).measures, 77, QUALITY)
}

fn as_needed(source: Source) -> Source {
    Source { as_needed: true, most: Some(1), name: "cloth".into(), length: 9_000, ..source }
}

fn in_nm(length: Length) -> i64 {
    crate::quantity::number::nearest_whole(length.steps()).unwrap()
}

/// Goods of a repeat of 16; 3 lost at a cut, 2 squared off each end.
fn patterned() -> (Goods, CuttingManner) {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), loss_per_cut: nm(3), ..cloth(100) };
    (goods, CuttingManner { squaring: nm(2), ..CuttingManner::default() })
}

/// A source of 200 is what squaring and a repeat leave of 220. A matched piece on it needs the repeat before mark 0; without one
/// the repeat is there to be used.
#[test]
fn what_a_length_has_before_its_first_mark_and_behind_its_last() {
    let (goods, manner) = patterned();
    let pieces =
        [CutPiece { matching: Some(Matching::Level), ..oblong("drop", 2, 40, 30) }, oblong("plain", 2, 50, 20)];
    let task = CuttingTask { manner: &manner, ..task(&pieces, &goods, &[], &Supply::Endless) };
    let sources = [Source { spare: 16, ..shelf(0, 200, 90) }, new(0, 200, 100), as_needed(new(1, 0, 100))];
    let on = |source: usize, entry: usize, end: i64| {
        let size = (if entry == 0 { 40 } else { 50 }, 30);
        cut_length(source, vec![placed(entry, 1, (end - size.0, 5), size)])
    };
    let sizes = |plan: &CuttingPlan| {
        let used = &plan.uses[0];
        [used.length, used.lead, used.width, used.used, used.left_over].map(in_nm)
    };
    // 200 + 4 + 16; 200 - 150 - 3 are left.
    let of = |source, entry, end| assembled(&task, &sources, vec![on(source, entry, end)]);
    assert_eq!(sizes(&of(0, 0, 150)), [220, 16, 90, 150, 47]);
    assert_eq!(sizes(&of(0, 1, 150)), [220, 0, 90, 150, 63]);
    assert_eq!(sizes(&of(0, 0, 197)), [220, 16, 90, 197, 0]);
    assert_eq!(sizes(&of(0, 0, 198)), [220, 16, 90, 198, 0]);
    assert_eq!(sizes(&of(0, 0, 196)), [220, 16, 90, 196, 1]);
    // What is cut off as needed is as long as it must be: to the last cut, squared ends and repeat besides.
    let cut = of(2, 0, 150);
    assert_eq!(sizes(&cut), [170, 16, 100, 150, 0]);
    assert_eq!((cut.bought[0].count, in_nm(cut.bought[0].length), cut.bought[0].offer), (1, 170, 1));
    let plain = of(2, 1, 150);
    assert_eq!((sizes(&plain), in_nm(plain.bought[0].length)), ([154, 0, 100, 150, 0], 154));
    // A put-up is bought as it is sold.
    let bought = of(1, 0, 150);
    assert_eq!((bought.bought[0].offer, in_nm(bought.bought[0].length)), (0, 204));
    assert!(of(0, 0, 150).bought.is_empty());
    assert_eq!((in_nm(bought.length_used), in_nm(bought.lower_bound), bought.quality), (150, 77, QUALITY));
}

#[test]
fn lengths_are_numbered_around_those_that_have_a_number() {
    let (pieces, goods) = ([full("strip", 9, 40)], cloth(100));
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let sources = [shelf(0, 100, 100), Source { name: "bolt".into(), ..new(0, 100, 100) }];
    let one = |source, number: Option<i64>, piece| CutLength {
        number,
        ..cut_length(source, vec![placed(0, piece, (0, 0), (40, 100))])
    };
    let cut_lengths = vec![one(1, None, 1), one(1, Some(2), 2), one(0, None, 3), one(1, None, 4), one(1, Some(5), 5)];
    let plan = assembled(&task, &sources, cut_lengths);
    let told: Vec<_> = plan.uses.iter().map(|used| (used.stock.as_str(), used.source, used.cuts[0].number)).collect();
    let nth = |number| StockSource::New { offer: 0, number };
    assert_eq!(
        told,
        [
            ("S0", StockSource::Shelf { entry: 0, number: 1 }, 3),
            ("new bolt 1", nth(1), 1),
            ("new bolt 2", nth(2), 2),
            ("new bolt 3", nth(3), 4),
            ("new bolt 5", nth(5), 5),
        ]
    );
    assert_eq!((plan.bought[0].count, plan.bought[0].name.as_str()), (4, "bolt"));
    assert_eq!(in_nm(plan.length_used), 200);
}

#[test]
fn what_all_lengths_cost() {
    let (pieces, goods) = ([full("strip", 9, 40)], cloth(100));
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let priced = |source, price: f64| Source { price: Some(Money::from_steps(price)), ..source };
    let sources = [priced(shelf(0, 100, 100), 300.0), priced(new(0, 100, 100), 70.0), new(1, 100, 100)];
    let cost = |of: &[usize]| {
        let one = |source: &usize| cut_length(*source, vec![placed(0, 1, (0, 0), (40, 100))]);
        let plan = assembled(&task, &sources, of.iter().map(one).collect());
        (plan.cost.map(Money::steps), plan.bought.iter().map(|bought| bought.price).collect::<Vec<_>>())
    };
    let price = Some(Money::from_steps(70.0));
    assert_eq!(cost(&[0, 1, 1]), (Some(440.0), vec![price]));
    assert_eq!(cost(&[0, 2]), (None, vec![None]));
    assert_eq!(cost(&[]), (Some(0.0), vec![]));
}

/// Cuts in the order of their marks; a piece counts once whatever its parts; two entries of one name count together.
#[test]
fn cuts_pieces_and_joins() {
    let pieces = [
        CutPiece { mirrored: true, order: Some("7".into()), ..oblong("sleeve", 2, 40, 30) },
        oblong("band", 2, 50, 90),
        oblong("sleeve", 3, 20, 10),
        oblong("none", 0, 20, 10),
    ];
    let goods = cloth(100);
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let part = |number, one| Placed { part: Some(JoinedPart { number, of: 3 }), ..one };
    let all = vec![
        part(2, placed(1, 1, (41, 60), (50, 40))),
        Placed { reversed: true, ..placed(0, 2, (41, 0), (40, 30)) },
        placed(2, 3, (0, 30), (20, 10)),
        Placed { lie: Lie::Across, ..placed(0, 1, (0, 0), (40, 30)) },
        part(1, placed(1, 1, (41, 30), (50, 30))),
        part(3, placed(1, 1, (91, 0), (50, 20))),
    ];
    let mut length = cut_length(0, all);
    length.offcuts = vec![Patch { from: 1, to: 9, across_from: 80, across_to: 96 }];
    let plan = assembled(&task, &[shelf(0, 300, 100)], vec![length]);
    let told: Vec<_> = plan.uses[0]
        .cuts
        .iter()
        .map(|cut| {
            let marks = [cut.from, cut.to, cut.across_from, cut.across_to].map(in_nm);
            (&*cut.piece, cut.number, marks, cut.part.map(|part| part.number))
        })
        .collect();
    assert_eq!(
        told,
        [
            ("sleeve", 1, [0, 40, 0, 30], None),
            ("sleeve", 3, [0, 20, 30, 40], None),
            ("sleeve", 2, [41, 81, 0, 30], None),
            ("band", 1, [41, 91, 30, 60], Some(1)),
            ("band", 1, [41, 91, 60, 100], Some(2)),
            ("band", 1, [91, 141, 0, 20], Some(3)),
        ]
    );
    let flags: Vec<_> =
        plan.uses[0].cuts.iter().map(|cut| (cut.mirrored, cut.reversed, cut.lie, cut.order.is_some())).collect();
    assert_eq!(
        flags[..3],
        [(false, false, Lie::Across, true), (false, false, Lie::Along, false), (true, true, Lie::Along, true)]
    );
    assert_eq!((plan.pieces("sleeve"), plan.pieces("band"), plan.pieces.get("none")), (5, 2, Some(&0)));
    assert_eq!((plan.joins("band"), plan.joins("sleeve")), (2, 0));
    let Offcut { from, to, across_from, across_to } = plan.uses[0].offcuts[0];
    assert_eq!([from, to, across_from, across_to].map(in_nm), [1, 9, 80, 96]);
    assert!(!plan.uses[0].folded);
}

#[test]
fn what_is_told_of_pieces() {
    let disc = || CutPiece::new("disc", 1, Shape::Sector { inner: nm(0), outer: nm(20_000), turn: 1.0 });
    let notes = |piece: CutPiece, goods: &Goods, folded: bool, by_outline: bool| {
        let pieces = [piece];
        let task = task(&pieces, goods, &[], &Supply::Endless);
        let mut length = cut_length(0, vec![placed(0, 1, (0, 0), (40, 30))]);
        length.folded = folded;
        let layout = Layout { cut_lengths: vec![length], by_outline };
        let sources = [shelf(0, 300_000, 100_000)];
        assemble(&layout, &sources, &task, prepared(&task).measures, 0, QUALITY).notes
    };
    let wide = || cloth(100_000);
    let name = |piece: &str| piece.to_owned();
    let round = |piece: &str| PlanNote::RectangleRound { piece: name(piece) };
    assert_eq!(notes(disc(), &wide(), false, false), [round("disc")]);
    assert_eq!(notes(disc(), &wide(), false, true), []);
    assert_eq!(notes(CutPiece { count: 0, ..disc() }, &wide(), false, false), []);
    let panel = || oblong("panel", 1, 40, 30);
    assert_eq!(notes(panel(), &wide(), false, false), []);
    assert_eq!(notes(full("strip", 1, 40), &wide(), false, false), []);
    let bias = || CutPiece { grain: Grain::Bias, ..panel() };
    assert_eq!(notes(bias(), &wide(), false, false), [round("panel")]);
    assert_eq!(notes(bias(), &wide(), false, true), []);
    let on_fold = || CutPiece { on_fold: Some(Fold::Along), ..panel() };
    assert_eq!(notes(on_fold(), &wide(), false, false), [PlanNote::PlacedOpen { piece: name("panel") }]);
    assert_eq!(notes(on_fold(), &wide(), true, false), []);
    let patterned = Goods { repeat: Some(Repeat::straight(nm(16))), ..wide() };
    let matched = |piece| CutPiece { matching: Some(Matching::Level), ..piece };
    let along_only = PlanNote::MatchedAlongOnly { piece: name("panel") };
    assert_eq!(notes(matched(panel()), &patterned, false, false), [PlanNote::MarksFromPattern, along_only]);
    assert_eq!(notes(matched(full("strip", 1, 40)), &patterned, false, false), [PlanNote::MarksFromPattern]);
    assert_eq!(notes(matched(panel()), &wide(), false, false), []);
    assert_eq!(notes(panel(), &patterned, false, false), []);
    assert_eq!(notes(CutPiece { count: 0, ..matched(panel()) }, &patterned, false, false), []);
}

/// Two garments of a back and two fronts, cut from a shelf of lot K, of no known lot, and new.
#[test]
fn the_lots_of_pieces_and_of_garments_are_told() {
    let of = |name, count, per_garment: Option<i64>, order: &str| CutPiece {
        per_garment,
        order: Some(order.into()),
        ..oblong(name, count, 40, 30)
    };
    let lot = |source, lot: &str| Source { lot: Some(lot.into()), ..source };
    let sources = [lot(shelf(0, 300, 100), "K"), shelf(1, 300, 100), new(0, 300, 100), lot(shelf(2, 300, 100), "L")];
    let notes = |pieces: &[CutPiece], on: &[(usize, &[(usize, i64)])], known: bool| {
        let stock = [StockLength { lot: known.then(|| "K".to_owned()), ..StockLength::new("S0", nm(300)) }];
        let goods = cloth(100);
        let task = task(pieces, &goods, &stock, &Supply::Endless);
        let one = |(source, cuts): &(usize, &[(usize, i64)])| {
            cut_length(*source, cuts.iter().map(|(entry, number)| placed(*entry, *number, (0, 0), (40, 30))).collect())
        };
        assembled(&task, &sources, on.iter().map(one).collect()).notes
    };
    let mixed = |piece: &str, lots: &[&str]| PlanNote::LotsMixed {
        piece: piece.into(),
        lots: lots.iter().map(|lot| (*lot).to_owned()).collect(),
    };
    let pieces = [of("back", 2, Some(1), "7"), of("front", 4, Some(2), "7")];
    let all_of_one: [(usize, &[(usize, i64)]); 1] = [(0, &[(0, 1), (0, 2), (1, 1), (1, 2), (1, 3), (1, 4)])];
    assert_eq!(notes(&pieces, &all_of_one, true), []);
    // Each garment of its own lot: every entry comes from both.
    let each: [(usize, &[(usize, i64)]); 2] = [(0, &[(0, 1), (1, 1), (1, 2)]), (3, &[(0, 2), (1, 3), (1, 4)])];
    assert_eq!(notes(&pieces, &each, true), [mixed("back", &["K", "L"]), mixed("front", &["K", "L"])]);
    // Backs of one lot and fronts of another: no entry is of two, but the garments are.
    let apart: [(usize, &[(usize, i64)]); 2] = [(0, &[(0, 1), (0, 2)]), (2, &[(1, 1), (1, 2), (1, 3), (1, 4)])];
    let both = ["K", "newly bought"];
    assert_eq!(notes(&pieces, &apart, true), [mixed("back", &both), mixed("front", &both)]);
    // The same of two orders, or not counted by the garment, is told of neither.
    let orders = [of("back", 2, Some(1), "7"), of("front", 4, Some(2), "8")];
    assert_eq!(notes(&orders, &apart, true), []);
    for uncounted in [None, Some(0)] {
        let pieces = [of("back", 2, Some(1), "7"), of("front", 4, uncounted, "7")];
        assert_eq!(notes(&pieces, &apart, true), []);
    }
    // Only the second garment is of two: its front 3 is of no known lot. All fronts are then of two, and its back with them.
    let one: [(usize, &[(usize, i64)]); 2] = [(0, &[(0, 1), (0, 2), (1, 1), (1, 2), (1, 4)]), (1, &[(1, 3)])];
    assert_eq!(notes(&pieces, &one, true), [mixed("back", &["K", "not known"]), mixed("front", &["K", "not known"])]);
    // One back, with two of four fronts: those of the next garment are of another lot, which is nothing to the back.
    let one_back = [of("back", 1, Some(1), "7"), of("front", 4, Some(2), "7")];
    let next: [(usize, &[(usize, i64)]); 2] = [(0, &[(0, 1), (1, 1), (1, 2)]), (3, &[(1, 3), (1, 4)])];
    assert_eq!(notes(&one_back, &next, true), [mixed("front", &["K", "L"])]);
    // Where no lot is known nothing can be told: not of the lengths that are cut, and not of the shelf.
    let unknown: [(usize, &[(usize, i64)]); 2] = [(1, &[(0, 1), (1, 1), (1, 2), (1, 3)]), (2, &[(0, 2), (1, 4)])];
    assert_eq!(notes(&pieces, &unknown, false), []);
    let shelf_known = notes(&pieces, &unknown, true);
    assert_eq!(
        shelf_known,
        [mixed("back", &["newly bought", "not known"]), mixed("front", &["newly bought", "not known"])]
    );
}

/// Totals are shown in the unit of the first length that has one, else of the first piece.
#[test]
fn the_units_of_a_plan() {
    let pieces = [CutPiece::new("strip", 1, Shape::FullWidth { along: inches(10.0) })];
    let goods = cloth(100);
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let cuts = || vec![cut_length(1, vec![placed(0, 1, (0, 0), (254_000_000, 100))])];
    let plan = |liked: Option<Length>| {
        let liked = liked.map(Length::liked);
        let sources = [shelf(0, 300_000_000, 100), Source { liked, ..new(0, 300_000_000, 100) }];
        assembled(&task, &sources, cuts())
    };
    let same = |one: Length, other: Length| one.liked() == other.liked();
    let by_piece = plan(None);
    let by_length = plan(Some(cm(1.0)));
    assert!(!same(cm(1.0), inches(1.0)));
    for (plan, unit) in [(&by_piece, inches(1.0)), (&by_length, cm(1.0))] {
        assert!(same(plan.length_used, unit) && same(plan.lower_bound, unit) && same(plan.bought[0].length, unit));
        assert!(same(plan.uses[0].length, unit) && same(plan.uses[0].left_over, unit) && same(plan.uses[0].used, unit));
        assert!(same(plan.uses[0].cuts[0].to, inches(1.0)));
    }
}
