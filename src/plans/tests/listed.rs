//! Tables of cuts, of what to buy and what it costs; letters; the lengths to draw; amounts in words.

use super::*;
use crate::cutting::Bought;
use crate::piece::{Grain, JoinRule};
use crate::quantity::{InchStep, Money, Quantity, Unit};
use crate::report::DrawnLayers;
use crate::table::Table;
use buying::Prices;
use plan_report::tenths_up;

fn column(table: &Table, name: &str) -> Vec<Cell> {
    table.values(name).unwrap().cloned().collect()
}

fn money(value: f64) -> Money {
    Money::try_from(Quantity::money(value)).unwrap()
}

fn new(offer: usize, name: &str, used: StockUse) -> StockUse {
    StockUse { source: StockSource::New { offer, number: 1 }, stock: name.to_owned(), ..used }
}

/// By hand: two panels, a sleeve turned, on one length; the rest stands in the last row of a length only.
#[test]
fn rows_of_the_table_of_cuts() {
    let pieces = [rectangle("panel", 20.0, 15.0), CutPiece::new("strip", 3, Shape::FullWidth { along: inches(5.0) })];
    let sleeve = Cut { reversed: true, order: Some("32".into()), ..cut(&pieces, 0, (0.0, 30.0), (20.0, 15.0)) };
    let first = vec![cut(&pieces, 0, (0.0, 0.0), (20.0, 15.0)), cut(&pieces, 0, (0.0, 15.0), (20.0, 15.0)), sleeve];
    let strip = vec![cut(&pieces, 1, (0.0, 0.0), (5.0, 45.0))];
    let plan = plan_of(vec![shelf("A", 60.0, 20.0, first), new(0, "new bolt 1", shelf("", 5.0, 5.0, strip))]);
    let goods = Goods::cloth(inches(45.0));
    let ordered = [CutPiece { order: Some("32".to_owned()), ..pieces[0].clone() }, pieces[1].clone()];
    let table =
        |pieces: &[CutPiece], name| cuts(&[PlanReport { name, ..report(pieces, &goods, &plan) }], &words()).unwrap();
    let plain = table(&pieces, None);
    let wide = |value: f64| Cell::from(inches(value));
    assert_eq!(column(&plain, "from"), ["A".into(), "A".into(), Cell::from("new bolt 1")]);
    assert_eq!(column(&plain, "pieces"), [2, 1, 1].map(Cell::Count));
    assert_eq!(column(&plain, "piece"), ["panel".into(), "panel (turned head to foot)".into(), Cell::from("strip")]);
    assert_eq!(column(&plain, "along"), [wide(20.0), wide(20.0), wide(5.0)]);
    assert_eq!(column(&plain, "across"), [wide(15.0), wide(15.0), Cell::Blank]);
    assert_eq!(column(&plain, "mark to"), [wide(20.0), wide(20.0), wide(5.0)]);
    assert_eq!(column(&plain, "left"), [Cell::Blank, wide(40.0), Cell::Blank]);
    assert!(plain.column("order").is_err());
    assert_eq!(column(&table(&ordered, None), "order"), [Cell::Blank, "32".into(), Cell::Blank]);
    // Only what is bought needs the name of the goods.
    let named = table(&pieces, Some("lawn"));
    assert_eq!(column(&named, "from"), ["A".into(), "A".into(), Cell::from("new bolt 1 (lawn)")]);
}

/// Every cut with its marks; a turn that has no word of its own, a mirror image and a part are notes.
#[test]
fn rows_of_the_plan_table() {
    let pieces = [rectangle("panel", 20.0, 15.0)];
    let plain = cut(&pieces, 0, (3.0, 7.0), (20.0, 15.0));
    let part = Some(JoinedPart { number: 2, of: 3 });
    let cuts = vec![
        plain.clone(),
        Cut { reversed: true, order: Some("32".into()), ..plain.clone() },
        Cut { lie: Lie::Across, reversed: true, mirrored: true, part, ..plain.clone() },
        Cut { lie: Lie::Bias, ..plain.clone() },
    ];
    let goods = Goods::cloth(inches(45.0));
    let table = |folded: bool, name| {
        let uses = vec![
            StockUse { folded, ..shelf("A", 60.0, 50.0, cuts.clone()) },
            shelf("B", 60.0, 50.0, vec![plain.clone()]),
        ];
        plan(&[PlanReport { name, ..report(&pieces, &goods, &plan_of(uses)) }], &words()).unwrap()
    };
    let open = table(false, Some("lawn"));
    assert_eq!(column(&open, "stock"), ["A", "A", "A", "A", "B"].map(Cell::from));
    assert_eq!(column(&open, "cut"), [1, 2, 3, 4, 1].map(Cell::Count));
    assert_eq!(column(&open, "order")[..2], [Cell::Blank, "32".into()]);
    assert_eq!(column(&open, "turned"), ["no", "half", "quarter", "bias", "no"].map(Cell::from));
    assert_eq!(column(&open, "note")[2], "head to foot, mirrored, part 2 of 3".into());
    let bare = |cell: &Cell| cell.is_blank() || *cell == "".into();
    assert!(column(&open, "note").iter().enumerate().all(|(place, note)| place == 2 || bare(note)));
    assert_eq!(column(&open, "material"), vec![Cell::from("lawn"); 5]);
    for (heading, mark) in [("mark from", 3.0), ("mark to", 23.0), ("across from", 7.0), ("across to", 22.0)] {
        assert_eq!(column(&open, heading), vec![Cell::from(inches(mark)); 5], "{heading}");
    }
    assert!(open.column("layers").is_err());
    assert_eq!(column(&table(true, None), "layers"), vec![Cell::from("one"); 5]);
}

/// By pencil: 2 yd at 4.00 a yard, 3 bolts at 12.345 each.
#[test]
fn what_is_bought_and_what_it_costs() {
    let pieces = [rectangle("panel", 20.0, 15.0)];
    let goods = Goods::cloth(inches(45.0));
    let a_yard = Quantity::money(4.0).per(Quantity::of(1.0, Unit::Yard)).unwrap();
    let prices = Prices {
        shelf: vec![None, Some(money(2.25))],
        offered: vec![Some(a_yard), Some(Quantity::money(12.345)), None, Some(Quantity::number(3.0))],
    };
    let bought = |offer: usize, name: &str, count, length: f64| Bought {
        offer,
        name: name.to_owned(),
        count,
        length: inches(length),
        price: None,
    };
    let mut plan = plan_of(Vec::new());
    plan.bought = vec![
        bought(0, "cut", 1, 72.0),
        bought(1, "bolt", 3, 90.0),
        bought(2, "gift", 1, 9.0),
        bought(7, "more", 1, 9.0),
    ];
    let table = buy_list(&report(&pieces, &goods, &plan), &prices, &words()).unwrap();
    assert_eq!(column(&table, "what"), ["cut", "bolt", "gift", "more"].map(Cell::from));
    assert_eq!(column(&table, "count"), [1, 3, 1, 1].map(Cell::Count));
    assert_eq!(column(&table, "each")[..2], [72.0, 90.0].map(|each| Cell::from(inches(each))));
    assert_eq!(column(&table, "in all")[..2], [72.0, 270.0].map(|all| Cell::from(inches(all))));
    // 3 x 12.345 = 37.035, halves away from zero.
    let paid = |cell: &Cell| match cell {
        Cell::Quantity(quantity) => Some(Money::try_from(*quantity).unwrap()),
        _ => None,
    };
    let prices_told: Vec<_> = column(&table, "price").iter().map(paid).collect();
    assert_eq!(prices_told, [Some(money(8.0)), Some(money(37.04)), None, None]);
    let on_shelf =
        |entry| StockUse { source: StockSource::Shelf { entry, number: 1 }, ..shelf("A", 30.0, 20.0, Vec::new()) };
    let of_offer = |offer, length: f64| new(offer, "new", shelf("", length, length, Vec::new()));
    let total = |uses: Vec<StockUse>, known: Option<Money>| {
        let plan = CuttingPlan { cost: known, ..plan_of(uses) };
        cost(&report(&pieces, &goods, &plan), &prices)
    };
    assert_eq!(total(vec![on_shelf(1), of_offer(0, 54.0)], None), Some(money(8.25)));
    assert_eq!(total(vec![of_offer(1, 54.0), of_offer(1, 54.0)], None), Some(money(24.69)));
    for unpriced in [on_shelf(0), on_shelf(2), of_offer(2, 9.0), of_offer(3, 9.0), of_offer(4, 9.0)] {
        assert_eq!(total(vec![on_shelf(1), unpriced], None), None);
    }
    assert_eq!(total(vec![on_shelf(0)], Some(money(7.128))), Some(money(7.13)));
}

/// Shelf lengths of 8, 9 and 12 in beside the shortest side that must lie along the cloth.
#[test]
fn lengths_shorter_than_every_piece_are_told() {
    let goods = Goods::cloth(inches(45.0));
    let on_shelf = [("A", 8.0), ("B", 9.0), ("C", 12.0)].map(|(name, long)| StockLength::new(name, inches(long)));
    let tell = |pieces: &[CutPiece], buys: bool| {
        let mut plan = plan_of(Vec::new());
        if buys {
            plan.bought.push(Bought { offer: 0, name: "bolt".to_owned(), count: 1, length: inches(90.0), price: None });
        }
        too_short(&report(pieces, &goods, &plan), &on_shelf)
    };
    let grained = |grain| CutPiece { grain, ..rectangle("panel", 12.0, 9.0) };
    let strip = |along: f64| CutPiece::new("strip", 1, Shape::FullWidth { along: inches(along) });
    assert_eq!(tell(&[grained(Grain::Along)], true), ["A", "B"]);
    assert_eq!(tell(&[grained(Grain::Across)], true), ["A"]);
    assert_eq!(tell(&[CutPiece { grain: Grain::Across, ..rectangle("panel", 9.0, 12.0) }], true), ["A", "B"]);
    for grain in [Grain::Any, Grain::Bias] {
        assert_eq!(tell(&[grained(grain)], true), ["A"]);
        assert_eq!(tell(&[CutPiece { grain, ..rectangle("panel", 9.0, 12.0) }], true), ["A"]);
    }
    assert_eq!(tell(&[strip(12.0), strip(9.0)], true), ["A"]);
    assert_eq!(tell(&[strip(13.0), CutPiece { count: 0, ..strip(3.0) }], true), ["A", "B", "C"]);
    assert_eq!(tell(&[strip(12.0)], false), [""; 0]);
    let sector = Shape::Sector { inner: inches(3.0), outer: inches(30.0), turn: 0.5 };
    assert_eq!(tell(&[strip(12.0), CutPiece::new("skirt", 1, sector)], true), [""; 0]);
    let joined = |count| CutPiece { count, may_join: Some(JoinRule::new(1, inches(2.0), inches(0.5))), ..strip(30.0) };
    assert_eq!(tell(&[strip(12.0), joined(1)], true), [""; 0]);
    assert_eq!(tell(&[strip(12.0), joined(0)], true), ["A", "B"]);
    assert_eq!(tell(&[], true), [""; 0]);
}

/// Pieces share a letter if name, order, shape and part agree; what no plan cuts has none.
#[test]
fn what_shares_a_letter() {
    let pieces = [rectangle("panel", 20.0, 15.0), rectangle("panel", 20.0, 14.0), rectangle("band", 20.0, 15.0)];
    let plain = cut(&pieces, 0, (0.0, 0.0), (20.0, 15.0));
    let part =
        |number, along: f64| Cut { part: Some(JoinedPart { number, of: 2 }), to: inches(along), ..plain.clone() };
    let cuts = vec![
        plain.clone(),
        Cut { number: 2, from: inches(20.0), to: inches(40.0), mirrored: true, ..plain.clone() },
        cut(&pieces, 1, (0.0, 0.0), (20.0, 14.0)),
        cut(&pieces, 2, (0.0, 0.0), (20.0, 15.0)),
        part(1, 12.0),
        part(1, 13.0),
        part(2, 12.0),
        Cut { from: inches(5.0), across_from: inches(3.0), across_to: inches(18.0), ..part(1, 17.0) },
    ];
    let goods = Goods::cloth(inches(45.0));
    let plan = plan_of(vec![shelf("A", 60.0, 50.0, cuts.clone())]);
    let report = report(&pieces, &goods, &plan);
    let given = letters(&[report]);
    let found: Vec<String> = cuts.iter().map(|cut| given.of_cut(&report, cut)).collect();
    assert_eq!(found, ["A", "A", "B", "C", "D", "E", "F", "D"]);
    let mut given_to = given.clone();
    let of_pieces = pieces.each_ref().map(|piece| given_to.of_piece(piece).join(", "));
    assert_eq!(of_pieces, ["A, D to F", "B", "C"]);
    let of_none = [part(2, 13.0), Cut { entry: 3, ..plain }];
    assert_eq!(of_none.map(|cut| given.of_cut(&report, &cut)), ["", ""]);
}

/// A length of 60 in with lead, lot and a rest: marks count from 0, and the rest ends with the length.
#[test]
fn a_length_is_drawn_from_its_mark_0() {
    let pieces = [
        CutPiece { one_way: true, ..rectangle("panel", 20.0, 15.0) },
        CutPiece::new("strip", 3, Shape::FullWidth { along: inches(5.0) }),
    ];
    let panel = cut(&pieces, 0, (0.0, 3.0), (20.0, 15.0));
    let part = Some(JoinedPart { number: 1, of: 2 });
    let strip = Cut { part, order: Some("32".into()), ..cut(&pieces, 1, (20.0, 0.0), (4.0, 45.0)) };
    let offcut = Offcut { from: inches(0.0), to: inches(20.0), across_from: inches(18.0), across_to: inches(22.0) };
    let used = StockUse {
        lead: inches(7.0),
        left_over: inches(29.0),
        lot: Some("7".to_owned()),
        offcuts: vec![offcut],
        ..shelf("A", 60.0, 24.0, vec![panel, strip])
    };
    let goods = Goods::cloth(inches(45.0));
    let draw = |uses: Vec<StockUse>, goods: &Goods, name| {
        let plan = plan_of(uses);
        let report = PlanReport { name, ..report(&pieces, goods, &plan) };
        drawn_lengths(&report, &words(), &letters(&[report]))
    };
    let drawn = draw(vec![used.clone()], &goods, Some("lawn")).remove(0);
    assert_eq!((drawn.heading.as_str(), drawn.times, drawn.roll, drawn.folded), ("A (lawn, lot 7)", 1, false, false));
    assert_eq!(
        (drawn.length, drawn.lead, drawn.used, drawn.width),
        (inches(53.0), inches(7.0), inches(24.0), inches(45.0))
    );
    let [panel, strip] = &drawn.cuts[..] else { panic!() };
    assert_eq!((panel.letter.as_str(), panel.name.as_str(), panel.size.as_str()), ("A", "panel", "20 in × 15 in"));
    assert_eq!((panel.one_way, panel.order.as_deref(), panel.layers), (true, None, DrawnLayers::One));
    assert_eq!(
        (panel.from, panel.to, panel.across_from, panel.across_to),
        (inches(0.0), inches(20.0), inches(3.0), inches(18.0))
    );
    assert_eq!(panel.own_size, (inches(20.0), Some(inches(15.0))));
    assert_eq!((strip.letter.as_str(), strip.name.as_str(), strip.size.as_str()), ("B", "strip 1/2", "4 in"));
    assert_eq!((strip.one_way, strip.order.as_deref(), strip.own_size), (false, Some("32"), (inches(4.0), None)));
    let [beside, end] = &drawn.rests[..] else { panic!() };
    assert_eq!(
        (beside.from, beside.to, beside.across_from, beside.across_to),
        (inches(0.0), inches(20.0), inches(18.0), inches(22.0))
    );
    assert_eq!((beside.kept, beside.along, beside.across, beside.unwashed), (false, inches(20.0), inches(4.0), false));
    assert_eq!(
        (end.from, end.to, end.across_from, end.across_to),
        (inches(24.0), inches(53.0), inches(0.0), inches(45.0))
    );
    assert_eq!((end.kept, end.along, end.across), (true, inches(29.0), inches(45.0)));
    // Its length is told as its first cut is.
    let metric = Cut { to: Length::centimetres(50.8), ..used.cuts[0].clone() };
    let mixed = StockUse { cuts: vec![metric, used.cuts[1].clone()], ..used.clone() };
    let unit = |length: Length| Quantity::from(length).liked().length;
    let drawn = draw(vec![mixed], &goods, None).remove(0);
    assert_eq!([drawn.length, drawn.lead, drawn.used].map(unit), [Some(Unit::Centimetre); 3]);
    // Nap gives every piece a way up.
    let napped = Goods { napped: true, ..goods.clone() };
    assert!(draw(vec![used.clone()], &napped, None)[0].cuts.iter().all(|cut| cut.one_way));
    // Lengths cut alike are drawn once, under the name of one.
    let alike = draw(vec![used.clone(), used.clone()], &goods, None);
    assert_eq!((alike.len(), alike[0].times, alike[0].heading.as_str()), (1, 2, "A (lot 7)"));
    let bolt = |number: i64| StockUse {
        source: StockSource::New { offer: 0, number },
        stock: format!("new bolt {number}"),
        lot: None,
        ..used.clone()
    };
    let alike = draw(vec![bolt(1), bolt(2)], &goods, None);
    assert_eq!((alike.len(), alike[0].times, alike[0].heading.as_str()), (1, 2, "new bolts 1 to 2"));
    assert_eq!(draw(vec![bolt(1)], &goods, None)[0].heading, "new bolt 1");
    // Cloth bought as needed, and a length used up, have no end.
    let ends = |used: StockUse| draw(vec![StockUse { offcuts: Vec::new(), ..used }], &goods, None)[0].rests.len();
    let needed = || StockUse { length: inches(31.0), ..bolt(1) };
    assert_eq!(ends(used.clone()), 1);
    assert_eq!(ends(needed()), 0);
    assert_eq!(ends(StockUse { left_over: Length::ZERO, ..used }), 0);
}

/// What a maker measures on the cut piece: its own frame, whichever way it lies.
#[test]
fn a_piece_is_drawn_with_its_own_size() {
    let sector = Shape::Sector { inner: inches(3.0), outer: inches(10.0), turn: 0.25 };
    let pieces = [
        rectangle("panel", 20.0, 15.0),
        CutPiece::new("strip", 1, Shape::FullWidth { along: inches(5.0) }),
        CutPiece::new("skirt", 1, sector),
    ];
    let goods = Goods::cloth(inches(45.0));
    let own = |cut: Cut| {
        let plan = plan_of(vec![shelf("A", 60.0, 50.0, vec![cut])]);
        let report = report(&pieces, &goods, &plan);
        let drawn = drawn_lengths(&report, &words(), &letters(&[report])).remove(0).cuts.remove(0);
        (drawn.own_size.0.in_inches().round(), drawn.own_size.1.map(|across| across.in_inches().round()))
    };
    let part = Some(JoinedPart { number: 1, of: 2 });
    let lying = |entry, along: f64, across: f64| cut(&pieces, entry, (3.0, 7.0), (along, across));
    assert_eq!(own(lying(0, 20.0, 15.0)), (20.0, Some(15.0)));
    assert_eq!(own(Cut { lie: Lie::Across, ..lying(0, 15.0, 20.0) }), (20.0, Some(15.0)));
    assert_eq!(own(Cut { lie: Lie::Bias, ..lying(0, 24.75, 24.75) }), (20.0, Some(15.0)));
    assert_eq!(own(Cut { part, ..lying(0, 12.0, 15.0) }), (12.0, Some(15.0)));
    assert_eq!(own(Cut { part, lie: Lie::Across, ..lying(0, 15.0, 12.0) }), (12.0, Some(15.0)));
    assert_eq!(own(lying(1, 6.0, 45.0)), (5.0, None));
    assert_eq!(own(Cut { part, ..lying(1, 4.0, 45.0) }), (4.0, None));
    // A quarter of a ring fills a square of its outer radius.
    assert_eq!(own(lying(2, 11.0, 12.0)), (10.0, Some(10.0)));
    // Of an unknown piece there is only its cut.
    let unknown = Cut { entry: 9, ..lying(0, 6.0, 7.0) };
    let plan = plan_of(vec![shelf("A", 60.0, 50.0, vec![unknown])]);
    let report_of_unknown = report(&pieces, &goods, &plan);
    let drawn = drawn_lengths(&report_of_unknown, &words(), &letters(&[report_of_unknown])).remove(0).cuts.remove(0);
    assert_eq!((drawn.own_size, drawn.one_way), ((inches(6.0), Some(inches(7.0))), false));
    assert_eq!(drawn.letter, "");
    let layers = |through| {
        let cut = Cut { through, ..lying(0, 20.0, 15.0) };
        let plan = plan_of(vec![shelf("A", 60.0, 50.0, vec![cut])]);
        let report = report(&pieces, &goods, &plan);
        drawn_lengths(&report, &words(), &letters(&[report]))[0].cuts[0].layers
    };
    let all = [Layers::One, Layers::Both, Layers::Fold].map(layers);
    assert_eq!(all, [DrawnLayers::One, DrawnLayers::Both, DrawnLayers::Fold]);
}

/// Marks of an eighth and of a millimetre; two yards or metres and more are told in them, a hair less is not.
#[test]
fn amounts_in_words() {
    let metric = PlanWords { words: Style { tape: Tape::Metric, ..words().words }, tape: Tape::Metric };
    let inch = words();
    let near = |found: Length, wanted: Length| assert!((found - wanted).steps().abs() < 1.0, "{found:?}");
    near(inch.at_mark(inches(7.07)), inches(7.125));
    near(inch.at_mark(inches(7.06)), inches(7.0));
    let quarters = PlanWords { words: Style { inch_step: InchStep::Quarter, ..inch.words }, ..inch };
    near(quarters.at_mark(inches(7.13)), inches(7.25));
    let cm = Length::centimetres;
    near(metric.at_mark(cm(7.06)), cm(7.1));
    near(metric.at_mark(cm(7.04)), cm(7.0));
    near(inch.between(inches(7.06), inches(20.07)), inches(13.125));
    assert_eq!((inch.small(), metric.small()), ("in", "cm"));
    assert_eq!([inches(72.0), inches(71.875)].map(|length| inch.say_long(length)), ["2 yd", "71 7/8 in"]);
    assert_eq!([cm(200.0), cm(199.9)].map(|length| metric.say_long(length)), ["2 m", "199.9 cm"]);
    assert_eq!(inch.say_part(inches(18.0), inches(72.0)), "1/2 yd");
    assert_eq!(metric.say_part(cm(350.0), cm(199.0)), "350 cm");
    assert_eq!([inches(7.0), inches(7.06)].map(|length| inch.bare_or_about(length)), ["7", "about 7"]);
    assert_eq!([inch.bare(cm(2.54)), metric.bare(inches(1.0))], ["1", "2.5"]);
    assert_eq!([inch.say_bare(inches(7.0)), metric.say_bare(cm(7.5))], ["7", "7.5"]);
    // A unit that is not the tape's stays.
    assert_eq!(inch.say_bare(Length::yards(3.0)), "3 yd");
    assert_eq!([inch.per_cent(125.0), inch.per_cent(0.0)], ["12.5 %", "0 %"]);
    let shares = [(0.0, 0.0), (-0.5, 0.0), (0.125, 125.0), (0.1251, 126.0), (0.000_01, 1.0), (1.0, 1000.0)];
    for (share, tenths) in shares {
        assert!((tenths_up(share) - tenths).abs() < 1e-9, "{share}");
    }
}

/// Only a length that was washed on the shelf is washed; the others lose what goods lose, if they are washed first.
#[test]
fn what_was_washed_loses_nothing() {
    let (pieces, goods, plan) = ([rectangle("panel", 20.0, 15.0)], Goods::cloth(inches(45.0)), plan_of(Vec::new()));
    let on_shelf = [true, false].map(|washed| StockLength { washed, ..StockLength::new("A", inches(60.0)) });
    let loss = Loss::new(0.05, 0.02).unwrap();
    let report = PlanReport { washed_first: Some(loss), shelf: &on_shelf, ..report(&pieces, &goods, &plan) };
    let of = |source| StockUse { source, ..shelf("A", 60.0, 50.0, Vec::new()) };
    let of_shelf = |entry| of(StockSource::Shelf { entry, number: 1 });
    let cases = [
        (of_shelf(0), true),
        (of_shelf(1), false),
        (of_shelf(2), false),
        (of(StockSource::New { offer: 0, number: 1 }), false),
    ];
    assert_eq!([0, 1].map(|entry| report.is_on_pattern(entry) || report.takes_full_width(entry)), [false; 2]);
    let striped = Goods { repeat: Some(Repeat::straight(inches(9.0))), ..goods.clone() };
    assert!(!PlanReport { goods: &striped, ..report }.is_on_pattern(1), "there is no such piece");
    for (used, washed) in cases {
        assert_eq!(report.was_washed(&used), washed, "{used:?}");
        assert_eq!(report.loss_of(&used).is_none(), washed, "{used:?}");
        assert!(PlanReport { washed_first: None, ..report }.loss_of(&used).is_none());
    }
}
