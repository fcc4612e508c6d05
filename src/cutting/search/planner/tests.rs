//! Which lengths are tried together, why nothing was found, and what is known of a plan: all by hand.

use super::*;
use crate::cutting::tests::scene::{cloth, cut_length, full, new, nm, oblong, placed, prepared, shelf};
use crate::cutting::{CuttingManner, CuttingPlan, Watch};
use crate::piece::{CutPiece, Fold, Goods, GoodsKind, Grain, JoinRule, Matching, PutUp, Repeat, StockLength, Supply};
use crate::quantity::Money;
use std::sync::atomic::AtomicBool;

static GO_ON: AtomicBool = AtomicBool::new(false);

/// Layouts with one piece on each of these sources.
fn cut_from(sources: &[usize]) -> Layout {
    let one = |source: &usize| cut_length(*source, vec![placed(0, 1, (0, 0), (40, 30))]);
    Layout { cut_lengths: sources.iter().map(one).collect(), by_outline: false }
}

/// A search on these sources of goods 100 wide that has found a layout.
fn searching<T>(
    sources: &[Source],
    lower_bound: i64,
    best: &[usize],
    cost: f64,
    ask: impl Fn(&PlanSearch<'_>) -> T,
) -> T {
    let (pieces, goods, manner) = ([oblong("panel", 1, 40, 30)], cloth(100), CuttingManner::default());
    let task = CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
    let prepared = prepared(&task);
    let scene = Scene { task: &task, measures: prepared.measures, sources, groups: &prepared.groups };
    let search = PlanSearch {
        scene: &scene,
        cost_model: CostModel::of(sources, prepared.measures, &manner),
        steps: Steps::new(1_000, Watch::silent(&GO_ON)),
        seed: 1,
        best: cut_from(best),
        cost,
        lower_bound,
        least: 0.0,
    };
    ask(&search)
}

fn places(bed: &[(usize, &Source)]) -> Vec<usize> {
    bed.iter().map(|(place, _)| *place).collect()
}

/// The list of lengths by their places, for pieces that take 260 of the width of 100.
fn beds(sources: &[Source], best: &[usize], cost: f64, folded: bool) -> Vec<Vec<usize>> {
    searching(sources, 260, best, cost, |search| search.beds(folded).iter().map(|bed| places(bed)).collect())
}

fn as_needed(source: Source) -> Source {
    Source { as_needed: true, most: Some(1), ..source }
}

#[test]
fn a_shelf_length_that_may_hold_all_is_tried_alone_the_smallest_first() {
    let sources = [
        shelf(0, 300, 100),
        // 25 000, and 25 999 of 26 000.
        shelf(1, 500, 50),
        shelf(2, 25_999, 1),
        shelf(3, 260, 100),
        new(0, 700, 100),
        as_needed(new(1, 9_000, 100)),
        new(2, 700, 100),
    ];
    // Then what first fit took, up to what is cut off as needed.
    assert_eq!(beds(&sources, &[1, 4, 4], 9.0, false), [vec![3], vec![0], vec![1, 4, 4, 5]]);
    assert_eq!(beds(&sources, &[6], 9.0, false), [vec![3], vec![0], vec![5]]);
    assert_eq!(beds(&sources[..5], &[0], 9.0, false), [vec![3], vec![0], vec![0]]);
}

/// 260 by 100 goes 2 whole times into 100 by 100: twice that and two are offered, as far as there are so many.
#[test]
fn where_first_fit_says_nothing_twice_the_area_is_offered() {
    let some = |most: i64, source: Source| Source { most: Some(most), ..source };
    let sources = [
        some(3, shelf(0, 100, 100)),
        some(9, shelf(1, 100, 50)),
        some(7, new(0, 110, 100)),
        new(1, 90, 100),
        as_needed(new(2, 9_000, 100)),
    ];
    // 6 of which there are 3; 26 000 of 5 000 is 5, so 12 of which there are 9; 2 and 6; 2 and 6; one.
    let count = |cost, folded| {
        let beds = beds(&sources, &[0], cost, folded);
        assert_eq!(beds.len(), 1);
        (0..5).map(|place| beds[0].iter().filter(|one| **one == place).count()).collect::<Vec<_>>()
    };
    assert_eq!(count(f64::INFINITY, false), [3, 9, 6, 6, 1]);
    assert_eq!(count(9.0, true), [3, 9, 6, 6, 1]);
    assert_eq!(count(9.0, false), [1, 0, 0, 0, 1]);
}

#[test]
fn lists_of_lengths_are_kept_short() {
    let many: Vec<Source> = (0..9).map(|entry| shelf(entry, 300 + i64::try_from(entry).unwrap(), 100)).collect();
    let tried = beds(&many, &[0], 9.0, false);
    assert_eq!(tried, [vec![0], vec![1], vec![2], vec![3], vec![4], vec![5], vec![0]]);
    let of_new = |taken: usize| beds(&[new(0, 110, 100)], &vec![0; taken], 9.0, false)[0].len();
    assert_eq!((of_new(199), of_new(200), of_new(201)), (199, 200, 200));
}

#[test]
fn one_new_length_less() {
    let sources = [shelf(0, 300, 100), new(0, 700, 100), as_needed(new(1, 9_000, 100)), new(2, 500, 100)];
    let without = |best: &[usize]| {
        searching(&sources, 260, best, 9.0, |search| search.without_one_new().map(|fewer| places(&fewer)))
    };
    assert_eq!(without(&[0, 1, 1, 2]), Some(vec![0, 1, 2]));
    assert_eq!(without(&[0, 1, 3]), Some(vec![0, 1]));
    assert_eq!(without(&[3, 1, 0]), Some(vec![3, 0]));
    assert_eq!(without(&[0, 2]), None);
    assert_eq!(without(&[1]), None);
    assert_eq!(without(&[]), None);
}

#[test]
fn a_search_is_done_when_nothing_can_cost_less() {
    // Nothing costs less than none.
    #[expect(clippy::redundant_closure_for_method_calls, reason = "the method alone is of one lifetime")]
    let done = |cost: f64| searching(&[new(0, 700, 100)], 260, &[0], cost, |search| search.is_done());
    assert!(done(0.0) && !done(0.1));
}

fn planned(
    pieces: &[CutPiece],
    goods: &Goods,
    stock: &[StockLength],
    supply: &Supply,
    manner: &CuttingManner,
) -> Result<CuttingPlan, CuttingError> {
    crate::cutting::plan(&CuttingTask { pieces, goods, stock, supply, manner }, Watch::silent(&GO_ON))
}

fn quick() -> CuttingManner {
    CuttingManner { effort: Effort::of(3_000), ..CuttingManner::default() }
}

fn folded() -> CuttingManner {
    CuttingManner { laid: Laid::Folded, ..quick() }
}

/// Cloth 100 wide, folded: a piece that is cut singly may be 50 wide, one on the fold 100.
#[test]
fn what_is_too_wide_for_half_the_cloth() {
    let goods = cloth(100);
    let refused = |piece: CutPiece| planned(&[piece], &goods, &[], &Supply::Endless, &folded()).err();
    let too_wide = |across, fits_turned| {
        Some(CuttingError::TooWide { piece: "panel".into(), across: nm(across), usable: nm(50), fits_turned })
    };
    let grained = |grain, piece| CutPiece { grain, ..piece };
    let on_fold = |piece| CutPiece { on_fold: Some(Fold::Along), ..piece };
    assert_eq!(refused(oblong("panel", 2, 30, 50)), None);
    assert_eq!(refused(oblong("panel", 2, 50, 51)), too_wide(51, true));
    assert_eq!(refused(oblong("panel", 2, 51, 52)), too_wide(52, false));
    assert_eq!(refused(grained(Grain::Any, oblong("panel", 2, 30, 60))), None);
    assert_eq!(refused(grained(Grain::Any, oblong("panel", 2, 55, 60))), too_wide(55, false));
    assert_eq!(refused(grained(Grain::Any, oblong("panel", 2, 60, 53))), too_wide(53, false));
    assert_eq!(refused(on_fold(oblong("panel", 2, 30, 100))), None);
    assert_eq!(refused(on_fold(oblong("panel", 2, 30, 102))), too_wide(51, true));
    // The first that is too wide is named.
    let two = [oblong("cuff", 2, 30, 40), oblong("panel", 2, 60, 70), oblong("yoke", 2, 60, 90)];
    let error = planned(&two, &goods, &[], &Supply::Endless, &folded()).err();
    assert_eq!(error, too_wide(70, false));
    // Narrower shelf: what counts is the widest.
    let stock =
        [StockLength { across: Some(nm(60)), ..StockLength::new("R", nm(900)) }, StockLength::new("S", nm(800))];
    let shelf_only = |piece: CutPiece| planned(&[piece], &goods, &stock, &Supply::ShelfOnly, &folded()).err();
    assert_eq!(shelf_only(oblong("panel", 2, 50, 51)), too_wide(51, true));
}

/// Two of 30 by 50 lie through both layers on 30 of folded cloth 100 wide, so four take 60 and a length of 59 is too short.
#[test]
fn folded_cloth_that_is_too_short() {
    let goods = cloth(100);
    let pieces = [oblong("panel", 4, 30, 50)];
    let plan = |along| planned(&pieces, &goods, &[StockLength::new("S", nm(along))], &Supply::ShelfOnly, &folded());
    assert_eq!(plan(60).unwrap().length_used, nm(60));
    assert_eq!(plan(59).unwrap_err(), CuttingError::NotEnough { piece: "panel".into(), missing: 4 });
}

/// What is minimised: the price where whole lengths are bought, on rolls also where priced ones come off the shelf;
/// otherwise the length.
#[test]
fn what_a_plan_minimises() {
    let aim = |goods: &Goods, stock: &[StockLength], supply: &Supply| {
        planned(&[full("strip", 3, 40)], goods, stock, supply, &quick()).unwrap().quality.aim
    };
    let money = Some(Money::from_steps(70_000.0));
    let shelf = |price| [StockLength { price, ..StockLength::new("S", nm(150)) }];
    let put_up = |along: Option<i64>| {
        let offer = PutUp { name: "bolt".into(), along: along.map(nm), across: None, price: money, most: None };
        Supply::Offered(vec![offer])
    };
    let (open, roll) = (cloth(100), Goods { kind: GoodsKind::Roll, ..cloth(100) });
    for goods in [&open, &roll] {
        assert_eq!(aim(goods, &[], &put_up(Some(150))), Aim::Cost);
        assert_eq!(aim(goods, &[], &put_up(None)), Aim::Length);
        assert_eq!(aim(goods, &[], &Supply::Endless), Aim::Length);
        assert_eq!(aim(goods, &shelf(None), &put_up(Some(150))), Aim::Length);
    }
    assert_eq!(aim(&open, &shelf(money), &put_up(Some(150))), Aim::Length);
    // One strip off the shelf and two of a new length: that is bought whole.
    let short = [StockLength { price: money, ..StockLength::new("S", nm(50)) }];
    assert_eq!(aim(&open, &short, &put_up(Some(150))), Aim::Cost);
    assert_eq!(aim(&roll, &shelf(money), &put_up(Some(150))), Aim::Cost);
}

/// Two of 40 by 60 on cloth 100 wide lie one behind the other on 80; their area is that of 48. That 80 is least is found by
/// the search, where it may tell; where they might be joined instead only the area is known.
#[test]
fn how_good_a_plan_is_known_to_be() {
    let known = |piece: CutPiece, goods: &Goods, stock: &[StockLength], manner: &CuttingManner| {
        let plan = planned(&[piece], goods, stock, &Supply::Endless, manner).unwrap();
        (plan.length_used, plan.lower_bound, plan.quality.proved, plan.quality.bound_ratio)
    };
    let goods = cloth(100);
    let panel = oblong("panel", 2, 40, 60);
    let rule = JoinRule::new(1, nm(5), nm(1));
    let may_join = CutPiece { may_join: Some(rule), ..panel.clone() };
    let straight = CuttingManner { cuts: CutsRun::Straight, ..quick() };
    for manner in [&quick(), &straight] {
        assert_eq!(known(panel.clone(), &goods, &[], manner), (nm(80), nm(80), true, 1.0));
        assert_eq!(known(may_join.clone(), &goods, &[], manner), (nm(80), nm(48), false, 0.6));
    }
    // Of two lengths that it could come from one alone proves nothing.
    let stock = [StockLength::new("S", nm(85))];
    assert_eq!(known(panel, &goods, &stock, &quick()), (nm(80), nm(48), false, 0.6));
    assert_eq!(known(oblong("panel", 2, 40, 50), &goods, &stock, &quick()), (nm(40), nm(40), true, 1.0));
}

#[test]
fn what_the_solvers_settle() {
    let is_settled = |piece: CutPiece, repeat: Option<Repeat>| {
        let goods = Goods { repeat, ..cloth(100) };
        let (pieces, manner) = ([piece, oblong("patch", 1, 20, 30)], quick());
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        let prepared = prepared(&task);
        Scene { task: &task, measures: prepared.measures, sources: &prepared.sources, groups: &prepared.groups }
            .is_settled()
    };
    let (straight, drop) = (Some(Repeat::straight(nm(16))), Some(Repeat::half_drop(nm(16))));
    let matched = |piece| CutPiece { matching: Some(Matching::RunOn), ..piece };
    assert!(is_settled(full("strip", 2, 40), None) && is_settled(full("strip", 2, 40), drop));
    assert!(is_settled(matched(full("strip", 2, 40)), straight));
    assert!(is_settled(matched(full("strip", 2, 40)), None));
    assert!(!is_settled(matched(full("strip", 2, 40)), drop));
    assert!(is_settled(matched(oblong("panel", 2, 40, 30)), drop));
    let rule = JoinRule::new(1, nm(5), nm(1));
    assert!(!is_settled(CutPiece { may_join: Some(rule), ..full("strip", 2, 40) }, None));
}

/// One strip of 40 off a length of 50 and two of a new one: every way was tried, so that none costs less.
#[test]
fn what_the_shelf_serves_is_proved() {
    let (goods, stock) = (Goods { put_up: Some(nm(100)), ..cloth(100) }, [StockLength::new("S", nm(50))]);
    let plan = planned(&[full("strip", 3, 40)], &goods, &stock, &Supply::Endless, &quick()).unwrap();
    assert_eq!((plan.uses.len(), plan.quality.aim, plan.quality.proved), (2, Aim::Cost, true));
}

/// Five pieces round a middle one fill 30 by 30, which no straight cuts can part. With straight cuts the rows are of 10 and
/// 20, so the next length is 40.
#[test]
fn a_pinwheel_takes_more_with_straight_cuts() {
    let pieces = [oblong("a", 2, 20, 10), oblong("b", 2, 10, 20), oblong("middle", 1, 10, 10)];
    let used = |cuts| {
        let manner = CuttingManner { cuts, ..quick() };
        planned(&pieces, &cloth(30), &[], &Supply::Endless, &manner).unwrap().length_used
    };
    assert_eq!((used(CutsRun::Free), used(CutsRun::Straight)), (nm(30), nm(40)));
}

/// Cloth 100 wide, folded. Two fronts of 30 by 20 on the fold lie one behind the other, 60; away from it they are cut through
/// both layers in one place of 20, beside a pair of panels of 30 by 30. What is too wide for a half stays on the fold: one of
/// 10 by 60 takes 10 more.
#[test]
fn what_may_lie_on_the_fold_lies_away_from_it_where_that_is_shorter() {
    let front = CutPiece { on_fold: Some(Fold::Along), ..oblong("front", 2, 30, 20) };
    let back = CutPiece { on_fold: Some(Fold::Along), ..oblong("back", 1, 10, 60) };
    let used =
        |pieces: &[CutPiece]| planned(pieces, &cloth(100), &[], &Supply::Endless, &folded()).unwrap().length_used;
    let panels = oblong("panel", 2, 30, 30);
    assert_eq!(used(&[front.clone(), panels.clone()]), nm(30));
    assert_eq!(used(&[front, panels, back]), nm(40));
}
