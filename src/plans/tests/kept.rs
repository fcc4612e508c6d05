//! What is kept and what is waste: limits, marks, shares, and the figures of a plan.

use super::*;
use crate::piece::GoodsKind;
use crate::quantity::{Area, Liked, Money, Quantity, Unit};

fn panels() -> [CutPiece; 1] {
    [rectangle("panel", 20.0, 40.0)]
}

/// A length of 45 in with a panel at its start.
fn with_panel(name: &str, length: f64) -> StockUse {
    shelf(name, length, 20.0, vec![cut(&panels(), 0, (0.0, 0.0), (20.0, 40.0))])
}

fn beside(long: f64, width: f64) -> Offcut {
    Offcut { from: Length::ZERO, to: inches(long), across_from: inches(45.0 - width), across_to: inches(45.0) }
}

/// The mark, count, size along and size across, if shown, of each leftover.
type Told = (String, i64, f64, Option<f64>);

fn told(kept: &[Leftover]) -> Vec<Told> {
    let hundredths = |length: Length| (length.in_inches() * 100.0).round() / 100.0;
    kept.iter()
        .map(|left| (left.stock.clone(), left.count, hundredths(left.along), left.across.map(hundredths)))
        .collect()
}

fn left(mark: &str, count: i64, along: f64, across: Option<f64>) -> Told {
    (mark.to_owned(), count, along, across)
}

fn kept_of(uses: Vec<StockUse>, change: &dyn Fn(&mut PlanReport<'_>)) -> Vec<Told> {
    let (plan, goods, pieces) = (plan_of(uses), Goods::cloth(inches(45.0)), panels());
    let mut report = report(&pieces, &goods, &plan);
    change(&mut report);
    told(&leftovers(&report, &words(), &BTreeSet::new()))
}

/// An end of 10 in is kept from 10 in on, but not from a hair more; without a limit every end is. A piece beside must be
/// long enough both ways, and without a limit is never kept.
#[test]
fn what_is_exactly_large_enough_is_kept() {
    let ends = |keep: Option<Length>| kept_of(vec![with_panel("A", 30.0)], &|report| report.keep_from = keep).len();
    let hair = Length::from_steps(2.0);
    assert_eq!([Some(inches(10.0)), Some(inches(10.0) + hair), None].map(ends), [1, 0, 1]);
    let sides = |long: f64, width: f64, keep: Option<Length>| {
        let used = StockUse {
            offcuts: vec![Offcut { from: inches(2.0), to: inches(long + 2.0), ..beside(long, width) }],
            left_over: Length::ZERO,
            ..with_panel("A", 20.0)
        };
        kept_of(vec![used], &|report| report.keep_from = keep).len()
    };
    for (long, width) in [(20.0, 5.0), (5.0, 20.0)] {
        let found = [Some(inches(5.0)), Some(inches(5.0) + hair), None].map(|keep| sides(long, width, keep));
        assert_eq!(found, [1, 0, 0]);
    }
    // Nothing is no leftover, however little is kept; cloth bought as needed has none.
    let none = || StockUse { left_over: Length::ZERO, ..with_panel("A", 20.0) };
    assert_eq!(kept_of(vec![none()], &|report| report.keep_from = None), []);
    let needed = StockUse { source: StockSource::New { offer: 0, number: 1 }, left_over: inches(9.0), ..none() };
    assert_eq!(kept_of(vec![needed], &|report| report.keep_from = None), []);
}

/// One length of the shelf keeps its mark for the first leftover; others get numbers, and equal ones of it stay apart.
#[test]
fn a_single_length_keeps_its_mark() {
    let on_shelf = |count| [StockLength { count, ..StockLength::new("A", inches(90.0)) }];
    let used = || StockUse { offcuts: vec![beside(20.0, 5.0), beside(20.0, 5.0)], ..with_panel("A", 60.0) };
    let kept = |count| {
        let (plan, goods, pieces, shelf) =
            (plan_of(vec![used()]), Goods::cloth(inches(45.0)), panels(), on_shelf(count));
        told(&leftovers(&PlanReport { shelf: &shelf, ..report(&pieces, &goods, &plan) }, &words(), &BTreeSet::new()))
    };
    let side = |mark: &str, count| left(mark, count, 20.0, Some(5.0));
    assert_eq!(kept(1), [left("A", 1, 40.0, Some(45.0)), side("A rest 1", 1), side("A rest 2", 1)]);
    assert_eq!(kept(2), [left("A rest 1", 1, 40.0, Some(45.0)), side("A rest 2", 2)]);
}

/// What differs in lot, size or source is not counted together.
#[test]
fn only_leftovers_alike_are_counted_together() {
    let counts = |change: &dyn Fn(&mut StockUse)| {
        let mut second = with_panel("A", 30.0);
        change(&mut second);
        let kept = kept_of(vec![with_panel("A", 30.0), second], &|_| {});
        kept.iter().map(|(_, count, ..)| *count).collect::<Vec<_>>()
    };
    assert_eq!(counts(&|_| {}), [2]);
    assert_eq!(counts(&|used| used.lot = Some("7".to_owned())), [1, 1]);
    assert_eq!(counts(&|used| used.source = StockSource::Shelf { entry: 1, number: 1 }), [1, 1]);
    assert_eq!(counts(&|used| used.source = StockSource::New { offer: 0, number: 1 }), [1, 1]);
    assert_eq!(counts(&|used| (used.length, used.left_over) = (inches(31.0), inches(11.0))), [1, 1]);
    assert_eq!(counts(&|used| used.width = inches(44.0)), [1, 1]);
    assert_eq!(counts(&|used| used.source = StockSource::Shelf { entry: 0, number: 2 }), [2]);
}

/// The name of the goods, or of what was bought without its number, and a number no mark has yet.
#[test]
fn marks_of_what_was_bought() {
    let new = |name: &str| StockUse { source: StockSource::New { offer: 0, number: 1 }, ..with_panel(name, 30.0) };
    let mark = |name: &str, goods: Option<&str>, used: &[&str]| {
        let (plan, cloth, pieces) = (plan_of(vec![new(name)]), Goods::cloth(inches(45.0)), panels());
        let on_shelf = [StockLength::new("Lawn rest 1", inches(9.0))];
        let report = PlanReport { name: goods, shelf: &on_shelf, ..report(&pieces, &cloth, &plan) };
        let used: BTreeSet<String> = used.iter().map(|name| (*name).to_owned()).collect();
        leftovers(&report, &words(), &used).remove(0).stock
    };
    assert_eq!(mark("new bolt 12", None, &[]), "bolt rest 1");
    assert_eq!(mark("wide bolt 3", None, &[]), "wide bolt rest 1");
    assert_eq!(mark("new bolt 12", Some("net"), &[]), "net rest 1");
    assert_eq!(mark("new bolt 12", Some("net"), &["Net  Rest 1", "net rest 2", "net rest 4"]), "net rest 3");
    // The shelf has the first.
    assert_eq!(mark("new bolt 12", Some("lawn"), &[]), "lawn rest 2");
}

/// A roll, and named goods of their full width, imply how wide an end is; unnamed goods and narrower lengths do not.
#[test]
fn the_width_of_an_end_is_told_if_nothing_implies_it() {
    let across = |width: f64, name: Option<&'static str>, kind| {
        let used = StockUse { width: inches(width), ..with_panel("A", 30.0) };
        let (plan, pieces) = (plan_of(vec![used]), panels());
        let goods = Goods { kind, ..Goods::cloth(inches(45.0)) };
        let kept = leftovers(&PlanReport { name, ..report(&pieces, &goods, &plan) }, &words(), &BTreeSet::new());
        told(&kept)[0].3
    };
    let cases = [
        ((45.0, None, GoodsKind::Cloth), Some(45.0)),
        ((45.0, Some("lawn"), GoodsKind::Cloth), None),
        ((46.0, Some("lawn"), GoodsKind::Cloth), None),
        ((44.0, Some("lawn"), GoodsKind::Cloth), Some(44.0)),
        ((44.0, None, GoodsKind::Roll), None),
    ];
    for ((width, name, kind), shown) in cases {
        assert_eq!(across(width, name, kind), shown, "{width} {name:?}");
    }
}

/// By pencil, on a tape of eighths: of 60.06 in, squaring took 10.06 and pieces 20.06, which all stand at 60, 10 and 20, so
/// that 30 are left. Lead and use of 10.07 in stand at 10 1/8 each, a length of 20.14 at 20 1/8: nothing is left, not less.
#[test]
fn an_end_is_what_the_marks_leave() {
    let pieces = panels();
    let goods = Goods::cloth(inches(45.0));
    let end = |length: f64, lead: f64, used: f64, left_over: f64| {
        let used =
            StockUse { lead: inches(lead), left_over: inches(left_over), ..shelf("A", length, used, Vec::new()) };
        let plan = plan_of(vec![used]);
        let (along, across, unwashed) = keeping::end_at_marks(&report(&pieces, &goods, &plan), &words(), &plan.uses[0]);
        assert!(!unwashed);
        ((along.in_inches() * 1000.0).round(), across.in_inches().round())
    };
    assert_eq!(end(60.06, 0.0, 20.06, 29.94), (30_000.0, 45.0));
    assert_eq!(end(60.06, 10.06, 20.06, 29.94), (30_000.0, 45.0));
    assert_eq!(end(20.14, 10.07, 10.07, 0.0), (0.0, 45.0));
    assert_eq!(end(20.0, 4.0, 10.0, 6.0), (6_000.0, 45.0));
}

/// By pencil: 60 x 45 in are 2700 square inches, of which the panel takes 800, the end 1800, and 100 lie beside. Washed
/// before or by now, a piece beside is washed.
#[test]
fn shares_of_the_goods() {
    let (pieces, goods) = (panels(), Goods::cloth(inches(45.0)));
    let used = StockUse { offcuts: vec![beside(20.0, 5.0)], ..with_panel("A", 60.0) };
    let plan = plan_of(vec![used]);
    let shares = |keep: f64| {
        let report = PlanReport { keep_from: Some(inches(keep)), ..report(&pieces, &goods, &plan) };
        let kept = leftovers(&report, &words(), &BTreeSet::new());
        let waste = keeping::waste(&report, &kept);
        let square = (waste.area / (inches(1.0) * inches(1.0)), waste.length.in_inches());
        (goods_shares(&report, &kept), square)
    };
    let is = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-9, "{found} for {wanted}");
    for (keep, wasted, kept) in [(5.0, 0.0, 1900.0), (6.0, 100.0, 1800.0), (41.0, 1900.0, 0.0)] {
        let (shares, (area, length)) = shares(keep);
        is(shares.in_pieces, 800.0 / 2700.0);
        is(shares.wasted, wasted / 2700.0);
        is(shares.kept, kept / 2700.0);
        is(area, wasted);
        is(length, wasted / 45.0);
    }
    // A piece beside from 2 to 20 in, 5 in wide, is 90 of the 100.
    let late = Offcut { from: inches(2.0), ..beside(20.0, 5.0) };
    let part = plan_of(vec![StockUse { offcuts: vec![late], ..with_panel("A", 60.0) }]);
    let report_of_part = report(&pieces, &goods, &part);
    let shares = goods_shares(&report_of_part, &leftovers(&report_of_part, &words(), &BTreeSet::new()));
    is(shares.wasted, 10.0 / 2700.0);
    // Where nothing is kept, its share is not less than nothing, whatever the rounding.
    for length in 21..300 {
        let plan = plan_of(vec![with_panel("A", f64::from(length))]);
        let report = PlanReport { keep_from: Some(inches(999.0)), ..report(&pieces, &goods, &plan) };
        let kept = goods_shares(&report, &[]).kept;
        assert!((0.0..1e-9).contains(&kept), "{length}: {kept}");
    }
    let nothing = plan_of(Vec::new());
    let none = goods_shares(&report(&pieces, &goods, &nothing), &[]);
    is(none.in_pieces, 0.0);
    is(none.wasted, 0.0);
}

/// What is kept, as lines of stock; a column says what is washed if anything is.
#[test]
fn leftovers_are_listed_as_stock_is() {
    let (pieces, goods) = (panels(), Goods::cloth(inches(45.0)));
    let used = StockUse { offcuts: vec![beside(20.0, 5.0)], lot: Some("7".to_owned()), ..with_panel("A", 60.0) };
    let plan = plan_of(vec![used]);
    let table = |name, loss: f64, washed: bool| {
        let on_shelf = [StockLength { washed, count: 2, ..StockLength::new("A", inches(60.0)) }];
        let washed_first = (loss > 0.0).then(|| Loss::new(loss, 0.0).unwrap());
        let report = PlanReport { name, washed_first, shelf: &on_shelf, ..report(&pieces, &goods, &plan) };
        let kept = leftovers(&report, &words(), &BTreeSet::new());
        let of_stock: Vec<_> = leftovers_as_stock(&kept).list.iter().map(|one| (one.along, one.count)).collect();
        assert_eq!(of_stock.len(), 2);
        assert!(of_stock.iter().all(|(along, count)| along.is_some() && *count == 1));
        leftovers_table(&kept, &words()).unwrap()
    };
    let plain = table(Some("lawn"), 0.0, false);
    let row = |mark: &str, along: f64, across: Cell| {
        vec![mark.into(), "lawn".into(), "7".into(), Cell::Count(1), inches(along).into(), across]
    };
    let rows = [row("A rest 1", 40.0, Cell::Blank), row("A rest 2", 20.0, inches(5.0).into())];
    assert_eq!(plain.rows(), rows);
    let flags = |table: &crate::table::Table| table.values("washed").unwrap().cloned().collect::<Vec<_>>();
    assert_eq!(flags(&table(Some("lawn"), 0.05, false)), [Cell::from("no"), "yes".into()]);
    assert_eq!(flags(&table(Some("lawn"), 0.0, true)), [Cell::from("yes"), "yes".into()]);
    assert_eq!(table(None, 0.0, false).cell(1, "material"), Ok(&Cell::Blank));
}

/// By pencil: 3 lengths of which one is bought, 3 pieces, 5 joins; 2 leftovers of 40 in and 1 of 10 in; two of 60 x 45 and
/// one of 30 x 45 in are 6750 square inches, 2400 in pieces, 4050 kept, 300 waste: 300 / 1296 square yards.
#[test]
fn the_figures_of_a_plan() {
    let (pieces, goods) = (panels(), Goods::cloth(inches(45.0)));
    let bought = StockUse { source: StockSource::New { offer: 0, number: 1 }, ..with_panel("new bolt 1", 30.0) };
    let mut plan = plan_of(vec![with_panel("A", 60.0), with_panel("A", 60.0), bought]);
    plan.pieces = [("panel".to_owned(), 2), ("band".to_owned(), 1)].into();
    plan.joins = [("band".to_owned(), 1), ("panel".to_owned(), 4)].into();
    let value = |goods: &Goods, cost: Option<Money>, figure: &str| {
        let report = report(&pieces, goods, &plan);
        let kept = leftovers(&report, &words(), &BTreeSet::new());
        let table = summary(&report, &kept, cost, &words()).unwrap();
        assert_eq!(table.len(), 14);
        let row = table.values("figure").unwrap().position(|cell| *cell == figure.into()).unwrap();
        table.cell(row + 1, "value").unwrap().clone()
    };
    let counts = [("pieces", 3), ("joins", 5), ("lengths taken", 3), ("from the shelf", 2), ("bought", 1)];
    for (figure, count) in counts.into_iter().chain([("leftovers worth keeping", 3)]) {
        assert_eq!(value(&goods, None, figure), Cell::Count(count), "{figure}");
    }
    let shown = |cell: &Cell| match cell {
        Cell::Quantity(quantity) => words().words.show(*quantity),
        other => format!("{other:?}"),
    };
    let quantities = [
        ("length used", "1 yd 24 in"),
        ("lower bound", "1 1/2 yd"),
        ("best possible", "98.2 %"),
        ("use of cloth", "about 35.5556 %"),
        ("waste, share", "about 4.4444 %"),
        ("waste", "about 0.2315 yd^2"),
        ("cost", "Blank"),
        ("proved", "Flag(false)"),
    ];
    for (figure, text) in quantities {
        assert_eq!(shown(&value(&goods, None, figure)), text, "{figure}");
    }
    let price = Money::try_from(Quantity::money(12.5)).unwrap();
    assert_eq!(value(&goods, Some(price), "cost"), Cell::from(price));
    // Of a roll the waste is a length: 300 square inches at 45 in are 6.667 in.
    let roll = Goods { kind: GoodsKind::Roll, ..goods };
    let Cell::Quantity(waste) = value(&roll, None, "waste") else { panic!() };
    assert!((Length::try_from(waste).unwrap().in_inches() - 300.0 / 45.0).abs() < 1e-9);
    assert_eq!(waste.liked(), Liked::unit(Unit::Yard));
    assert!(Area::try_from(waste).is_err());
}
