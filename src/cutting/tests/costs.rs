//! What lengths and layouts count for, by hand: whole lengths, lengths cut off as needed, leftovers, the shelf.

use super::scene::{cloth, cut_length, full, new, nm, oblong, placed, prepared, shelf};
use super::*;
use crate::cutting::place::layout::Layout;
use crate::cutting::search::bound::{covered, lower_bound};
use crate::cutting::search::cost_model::CostModel;
use crate::cutting::task::source::Source;
use crate::quantity::{Money, number};

/// A cost model of goods 100 wide.
fn model(sources: &[Source], manner: &CuttingManner) -> CostModel {
    let goods = cloth(100);
    let measures = prepared(&task(&[], &goods, &[], &Supply::Endless)).measures;
    CostModel::of(sources, measures, manner)
}

fn priced(source: Source, price: f64) -> Source {
    Source { price: Some(Money::from_steps(price)), ..source }
}

fn as_needed(source: Source) -> Source {
    Source { as_needed: true, length: 9_000, most: Some(1), ..source }
}

/// Whole, used and kept of each source.
#[track_caller]
fn counts(sources: &[Source], manner: &CuttingManner, wanted: &[[f64; 3]]) {
    let model = model(sources, manner);
    assert_eq!(sources.len(), wanted.len());
    for (place, wanted) in wanted.iter().enumerate() {
        let counts = model.counts(place).unwrap();
        let found = [counts.whole, counts.used, counts.kept];
        let near = found.iter().zip(wanted).all(|(found, wanted)| number::is_near(*found, *wanted));
        assert!(near, "{place}: {found:?} for {wanted:?}");
    }
    assert!(model.counts(sources.len()).is_none() && model.kept_from(sources.len()).is_none());
}

#[test]
fn without_prices_length_counts_by_its_width() {
    let manner = CuttingManner::default();
    counts(&[new(0, 700, 100)], &manner, &[[700.0, 1.0, 0.6]]);
    counts(&[new(0, 700, 50)], &manner, &[[350.0, 0.5, 0.3]]);
    counts(&[as_needed(new(0, 0, 100))], &manner, &[[9_000.0, 1.0, 0.6]]);
    // One length of the shelf: half a thousandth.
    counts(&[shelf(0, 300, 100)], &manner, &[[0.15, 0.000_5, 0.000_49]]);
    // Three sizes: a half, three quarters and the whole of a thousandth, by their area. 300 by 100 is more than 500 by 50.
    let sizes = [shelf(0, 300, 100), shelf(1, 500, 50), shelf(2, 900, 100), shelf(3, 300, 100), new(0, 700, 100)];
    counts(
        &sizes,
        &manner,
        &[
            [0.225, 0.000_75, 0.000_735],
            [0.125, 0.000_25, 0.000_245],
            [0.9, 0.001, 0.000_98],
            [0.225, 0.000_75, 0.000_735],
            [700.0, 1.0, 0.6],
        ],
    );
    for (share, wanted) in [(0.2, 0.1), (2.0, 0.5), (1.0, 0.5), (-1.0, 0.0)] {
        let manner = CuttingManner { shelf_cost_share: share, ..CuttingManner::default() };
        counts(&[shelf(0, 300, 100)], &manner, &[[300.0 * wanted, wanted, wanted * 0.98]]);
    }
}

#[test]
fn prices_count_and_lengths_without_one_as_the_dearest() {
    let manner = CuttingManner::default();
    counts(
        &[priced(new(0, 700, 100), 2_100.0), priced(new(1, 500, 50), 1_000.0), new(2, 400, 50), shelf(0, 200, 100)],
        &manner,
        &[[2_100.0, 3.0, 1.8], [1_000.0, 2.0, 1.2], [600.0, 1.5, 0.9], [0.3, 0.001_5, 0.001_47]],
    );
    // The price of a length of the shelf counts a hair less than that of a new one; what it is a leftover of keeps more.
    counts(
        &[priced(shelf(0, 700, 100), 2_100.0), new(0, 400, 100)],
        &manner,
        &[[2_099.79, 2.999_7, 2.939_706], [1_199.88, 2.999_7, 1.799_82]],
    );
    // A price for whatever is needed says nothing of a nanometre; neither does a price of nothing, but that is its cost.
    counts(
        &[priced(as_needed(new(0, 0, 100)), 800.0), priced(new(1, 400, 100), 0.0)],
        &manner,
        &[[9_000.0, 1.0, 0.6], [0.0, 1.0, 0.6]],
    );
    // A priced length is not one of the unpriced ones that are ranked.
    counts(
        &[priced(shelf(0, 100, 100), 100.0), shelf(1, 300, 100), shelf(2, 500, 100)],
        &manner,
        &[[99.99, 0.9999, 0.979_902], [0.149_985, 0.000_499_95, 0.000_489_951], [0.499_95, 0.000_999_9, 0.000_979_902]],
    );
    // A length that pinned cuts opened costs nothing more, whatever its price.
    let opened = Source { opened_at: 60, ..priced(new(0, 700, 100), 2_100.0) };
    counts(&[opened], &manner, &[[0.0, 3.0, 1.8]]);
}

/// Of 700 at 3 each, cut up to 600, with 7 lost at the last cut 93 are left: worth 93 · 1.8 if that is long enough to keep.
#[test]
fn a_leftover_is_taken_off_only_if_it_is_long_enough_to_keep() {
    let bought = [priced(new(0, 700, 100), 2_100.0)];
    let cost = |keep_from: Option<i64>, end: i64| {
        let manner = CuttingManner { keep_from: keep_from.map(nm), ..CuttingManner::default() };
        model(&bought, &manner).of_length(0, end, 7, &bought)
    };
    let whole = 2_100.0;
    assert!(number::is_near(cost(None, 600), whole));
    assert!(number::is_near(cost(Some(94), 600), whole));
    assert!(number::is_near(cost(Some(93), 600), whole - 93.0 * 1.8));
    // Even if all is kept, nothing at all is no leftover, and neither is what the loss takes.
    assert!(number::is_near(cost(Some(0), 692), whole - 1.8));
    assert!(number::is_near(cost(Some(0), 693), whole) && number::is_near(cost(Some(0), 699), whole));
    // A leftover is never worth more than its length costs.
    let free = [priced(new(0, 700, 100), 0.0)];
    let manner = CuttingManner { keep_from: Some(nm(50)), ..CuttingManner::default() };
    assert!(number::is_near(model(&free, &manner).of_length(0, 600, 7, &free), 0.0));
    // What is paid for and on the shelf is kept however short; what is cut off as needed leaves nothing.
    let mixed = [shelf(0, 700, 100), as_needed(new(0, 0, 100)), new(1, 700, 100), priced(shelf(1, 700, 100), 5.0)];
    let model = model(&mixed, &manner);
    assert_eq!((0..4).map(|place| model.kept_from(place)).collect::<Vec<_>>(), [Some(1), Some(50), Some(50), Some(50)]);
    // 5 · 0.9999 for 700: the unpriced count by length as the dearest priced length.
    let each = 5.0 * 0.9999 / 700.0;
    assert!(number::is_near(model.of_length(1, 600, 7, &mixed), 600.0 * each));
    let unpriced = 0.000_5 * each;
    assert!(number::is_near(model.of_length(0, 692, 7, &mixed), 700.0 * unpriced - 0.98 * unpriced));
    assert!(number::is_near(model.of_length(4, 600, 7, &mixed), 0.0));
    let pieces = |source, along| cut_length(source, vec![placed(0, 1, (0, 0), (along, 100))]);
    let layout = Layout { cut_lengths: vec![pieces(1, 600), pieces(0, 692)], by_outline: false };
    assert!(number::is_near(model.total(&layout, &mixed, 7), 600.0 * each + 700.0 * unpriced - 0.98 * unpriced));
}

/// 300 at 2 each, twice; 500 at 3 each, once; beyond that 5 each as long as needed.
#[test]
fn the_least_that_a_length_can_cost() {
    let sources = [
        Source { most: Some(1), ..priced(new(0, 500, 100), 1_500.0) },
        Source { most: Some(2), ..priced(new(1, 300, 100), 600.0) },
        priced(new(2, 100, 100), 500.0),
    ];
    let none = model(&sources, &CuttingManner::default());
    for (length, wanted) in [(0, 0.0), (250, 500.0), (600, 1_200.0), (601, 1_203.0), (1_100, 2_700.0), (1_300, 3_700.0)]
    {
        assert!(number::is_near(none.least(length, &sources), wanted), "{length}");
    }
    // An opened length costs nothing for what is left of it, and one cut off as needed is not held to its number.
    let opened = [Source { opened_at: 9, most: Some(1), ..new(0, 300, 100) }, as_needed(new(1, 0, 100))];
    let model = model(&opened, &CuttingManner::default());
    assert!(
        number::is_near(model.least(400, &opened), 100.0) && number::is_near(model.least(10_300, &opened), 10_000.0)
    );
}

/// Two of 30 by 40 and three of 20 by 50: 5 400 on a width of 100 are 54; a longer piece that must be whole is longer.
#[test]
fn no_plan_is_shorter_than_its_area_or_its_longest_piece() {
    let goods = cloth(100);
    let bound = |more: CutPiece| {
        let pieces = [oblong("a", 2, 30, 40), oblong("b", 3, 20, 50), more];
        let task = task(&pieces, &goods, &[], &Supply::Endless);
        let prepared = prepared(&task);
        (covered(&prepared.groups, prepared.measures), lower_bound(&prepared.groups, prepared.measures))
    };
    assert_eq!(bound(full("none", 0, 90)), (5_400, 54));
    assert_eq!(bound(full("strip", 1, 7)), (6_100, 61));
    assert_eq!(bound(oblong("long", 1, 80, 10)), (6_200, 80));
    let either = CutPiece { grain: Grain::Any, ..oblong("long", 1, 80, 10) };
    assert_eq!(bound(either), (6_200, 62));
    let rule = JoinRule::new(3, nm(5), nm(1));
    assert_eq!(bound(CutPiece { may_join: Some(rule), ..oblong("long", 1, 80, 10) }), (6_200, 62));
    // A triangle of half 40 by 60 counts for half of that, in whole rows of the width.
    let corner = |along, across| OutlinePoint { along: nm(along), across: nm(across) };
    let triangle = Shape::Outline(vec![corner(0, 0), corner(40, 0), corner(0, 60)]);
    assert_eq!(bound(CutPiece::new("gusset", 2, triangle)), (5_400 + 2 * 1_200, 78));
}
