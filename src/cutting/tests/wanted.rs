//! What is wanted and where it may come from, in whole nanometres: sizes, starts on a pattern, order, lengths; all by hand.

use super::scene::{cloth, full, new, nm, oblong, prepared, shelf};
use super::*;
use crate::cutting::nanometre::{LONGEST, MOST_LAID};
use crate::cutting::task::demand::{Demand, Group, Measures, Start};
use crate::cutting::task::source::Source;
use crate::quantity::Money;

fn measures(goods: &Goods, squaring: Length, pieces: &[CutPiece]) -> Result<Measures, CuttingError> {
    let manner = CuttingManner { squaring, ..CuttingManner::default() };
    Measures::of(&CuttingTask { manner: &manner, ..task(pieces, goods, &[], &Supply::Endless) })
}

#[test]
fn goods_are_sound_or_what_is_wrong_is_named() {
    let plain = cloth(100);
    let wrong = |goods: &Goods, squaring| match measures(goods, squaring, &[]) {
        Err(CuttingError::BadSize { what, .. }) => what,
        other => format!("{other:?}"),
    };
    let sound = |goods: &Goods, squaring| measures(goods, squaring, &[]).is_ok();
    for (size, is_width, is_loss) in [
        (nm(-1), false, false),
        (nm(0), false, true),
        (nm(1), true, true),
        (nm(LONGEST), true, true),
        (nm(LONGEST + 1), false, false),
        (Length::from_steps(f64::NAN), false, false),
    ] {
        let wide = Goods { width: size, ..plain.clone() };
        let lossy = Goods { loss_per_cut: size, ..plain.clone() };
        let repeating = Goods { repeat: Some(Repeat::straight(size)), ..plain.clone() };
        for (goods, squaring, is_sound, what) in [
            (&wide, nm(0), is_width, "the width of the goods"),
            (&lossy, nm(0), is_loss, "the loss per cut"),
            (&plain, size, is_loss, "what is squared off each end"),
            (&repeating, nm(0), is_width, "the repeat"),
        ] {
            assert_eq!(sound(goods, squaring), is_sound, "{what} of {size:?}");
            if !is_sound {
                assert_eq!(wrong(goods, squaring), what);
            }
        }
    }
    for (shift, is_sound) in [(0.0, true), (5.0, true), (-1.0, false), (f64::NAN, false), (f64::INFINITY, false)] {
        let repeat = Some(Repeat { along: nm(16), shift: Length::from_steps(shift) });
        let goods = Goods { repeat, ..plain.clone() };
        assert_eq!(sound(&goods, nm(0)), is_sound, "{shift}");
        if !is_sound {
            assert_eq!(wrong(&goods, nm(0)), "the shift of the pattern");
        }
    }
}

#[test]
fn goods_are_rounded_so_that_a_piece_gains() {
    let part = |steps: f64| Length::from_steps(steps);
    let goods = Goods { loss_per_cut: part(2.7), ..Goods::cloth(part(99.5)) };
    let found = measures(&goods, part(3.9), &[]).unwrap();
    assert_eq!((found.width, found.loss, found.squaring, found.lost_at_ends()), (100, 2, 3, 6));
    assert_eq!((found.lead, found.has_pattern()), (0, false));
}

#[test]
fn a_repeat_is_kept_free_only_for_a_matched_piece() {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let matched = |count| CutPiece { matching: Some(Matching::Level), ..full("drop", count, 40) };
    let lead = |goods: &Goods, pieces: &[CutPiece]| {
        let found = measures(goods, nm(0), pieces).unwrap();
        (found.lead, found.has_pattern())
    };
    assert_eq!(lead(&goods, &[full("plain", 2, 40), matched(1)]), (16, true));
    assert_eq!(lead(&goods, &[matched(0)]), (0, true));
    assert_eq!(lead(&goods, &[full("plain", 2, 40)]), (0, true));
    assert_eq!(lead(&cloth(100), &[matched(1)]), (0, false));
}

#[test]
fn the_next_start_on_a_pattern() {
    let start = Start::Pattern { first: 5, repeat: 16 };
    for (mark, wanted) in [(0, 5), (5, 5), (6, 21), (21, 21), (22, 37), (-3, 5), (-11, -11), (-12, -11)] {
        assert_eq!(start.from(mark), wanted, "{mark}");
        assert_eq!(Start::Anywhere.from(mark), mark);
    }
    assert!(start.is_on_pattern() && !Start::Anywhere.is_on_pattern());
}

/// A repeat of 16 with shifts of 4: shifts of 0, 1, 3, 1 and 2 start at 0, 4, 12, 4 and 8.
#[test]
fn pieces_that_start_alike_are_one_group() {
    let goods = Goods { repeat: Some(Repeat { along: nm(16), shift: nm(4) }), ..cloth(100) };
    let shifted = Matching::Shifts(vec![0, 1, 3, 1, 2]);
    let told = |piece: CutPiece, goods: &Goods| -> Vec<(Option<i64>, Vec<i64>)> {
        let pieces = [piece];
        let task = task(&pieces, goods, &[], &Supply::Endless);
        let first = |start| match start {
            Start::Pattern { first, repeat } => {
                assert_eq!(repeat, 16);
                Some(first)
            }
            Start::Anywhere => None,
        };
        prepared(&task).groups.into_iter().map(|group| (first(group.start), group.numbers)).collect()
    };
    let of = |matching, piece| CutPiece { matching, ..piece };
    let drops = || full("drop", 5, 40);
    assert_eq!(
        told(of(Some(shifted.clone()), drops()), &goods),
        [(Some(0), vec![1]), (Some(4), vec![2, 4]), (Some(8), vec![5]), (Some(12), vec![3])]
    );
    assert_eq!(
        told(of(Some(Matching::RunOn), drops()), &goods),
        [(Some(0), vec![1, 5]), (Some(4), vec![2]), (Some(8), vec![3]), (Some(12), vec![4])]
    );
    let all = vec![1, 2, 3, 4, 5];
    assert_eq!(told(of(Some(Matching::Level), drops()), &goods), [(Some(0), all.clone())]);
    assert_eq!(told(of(None, drops()), &goods), [(None, all.clone())]);
    let straight = Goods { repeat: Some(Repeat::straight(nm(16))), ..cloth(100) };
    assert_eq!(told(of(Some(shifted.clone()), drops()), &straight), [(Some(0), all.clone())]);
    assert_eq!(told(of(Some(shifted.clone()), drops()), &cloth(100)), [(None, all.clone())]);
    // One that lies among others on the width is joined to none of them.
    assert_eq!(told(of(Some(shifted), oblong("panel", 5, 40, 30)), &goods), [(Some(0), all)]);
}

fn demand<'a>(task: &CuttingTask<'a>) -> Result<Demand<'a>, CuttingError> {
    Demand::of(task, Measures::of(task).unwrap())
}

/// Only the numbers that are asked for; the longest first, and of those the ones that start lower last.
#[test]
fn groups_come_the_longest_first() {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let pieces = [
        full("short", 2, 30),
        CutPiece { matching: Some(Matching::RunOn), ..full("drop", 4, 40) },
        full("plain", 3, 40),
        full("long", 1, 50),
    ];
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let told = |numbers: &dyn Fn(usize) -> Vec<i64>| -> Vec<(usize, Vec<i64>)> {
        let groups = demand(&task).unwrap().groups(700, numbers);
        groups.into_iter().map(|group| (group.entry, group.numbers)).collect()
    };
    let every = |entry: usize| (1..=pieces[entry].count).collect::<Vec<i64>>();
    let all = [(3, vec![1]), (1, vec![1, 3]), (2, vec![1, 2, 3]), (1, vec![2, 4]), (0, vec![1, 2])];
    assert_eq!(told(&every), all);
    let some = |entry| if entry == 1 { vec![2, 3] } else { vec![] };
    assert_eq!(told(&some), [(1, vec![3]), (1, vec![2])]);
}

/// 40 by 30 on 100: three side by side lying along, two lying across. Four take 80 or 60, five 80 or 90, seven 120 or 120, ten 160 or 150.
#[test]
fn a_piece_that_may_be_turned_lies_as_takes_less_length() {
    let lie = |count, longest| {
        let pieces = [CutPiece { grain: Grain::Any, ..oblong("panel", count, 40, 30) }];
        let goods = cloth(100);
        let task = task(&pieces, &goods, &[], &Supply::Endless);
        let groups = demand(&task).unwrap().groups(longest, &|_| vec![1]);
        groups[0].choices.iter().map(|(lie, _)| *lie).collect::<Vec<_>>()
    };
    let (along, across) = ([Lie::Along, Lie::Across], [Lie::Across, Lie::Along]);
    for (count, wanted) in [(2, across), (3, along), (4, across), (5, along), (6, along), (7, along), (10, across)] {
        assert_eq!(lie(count, 700), wanted, "{count}");
    }
    // One that is longer than any length does not lie that way, nor one wider than the goods.
    assert_eq!((lie(5, 40), lie(5, 39)), (along.to_vec(), across.to_vec()));
    let wide = |along, across| {
        let pieces = [CutPiece { grain: Grain::Any, ..oblong("panel", 1, along, across) }];
        let goods = cloth(100);
        let task = task(&pieces, &goods, &[], &Supply::Endless);
        demand(&task).unwrap().groups(700, &|_| vec![1])[0].choices[0].0
    };
    assert_eq!((wide(40, 100), wide(40, 101), wide(110, 120)), (Lie::Along, Lie::Across, Lie::Along));
}

#[test]
fn whether_a_length_holds_any_piece() {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let matched = |piece| CutPiece { matching: Some(Matching::Level), ..piece };
    let pieces = [oblong("panel", 1, 40, 30), matched(oblong("drop", 1, 60, 50)), matched(full("wide", 1, 55))];
    let plain = task(&pieces, &goods, &[], &Supply::Endless);
    let of = demand(&plain).unwrap();
    for (length, width, wanted) in [(40, 30, true), (39, 30, false), (40, 29, false), (30, 40, false)] {
        assert_eq!(of.fits(length, width), wanted, "{length} by {width}");
    }
    assert_eq!((of.shortest_matched(100), of.shortest_matched(99)), (Some(55), Some(60)));
    assert_eq!((of.shortest_matched(50), of.shortest_matched(49)), (Some(60), None));
    let rule = JoinRule::new(1, nm(5), nm(1));
    let joined = [CutPiece { may_join: Some(rule), ..matched(full("wide", 1, 55)) }];
    let joined = task(&joined, &goods, &[], &Supply::Endless);
    let of = demand(&joined).unwrap();
    assert!(of.fits(1, 1));
    assert_eq!(of.shortest_matched(1), Some(0));
}

#[test]
fn pieces_are_checked_at_their_limits() {
    let corner = |along, across| OutlinePoint { along: nm(along), across: nm(across) };
    let outline = |corners: &[(i64, i64)]| {
        let corners = corners.iter().map(|(along, across)| corner(*along, *across)).collect();
        CutPiece::new("piece", 1, Shape::Outline(corners))
    };
    let sector =
        |inner, outer, turn| CutPiece::new("piece", 1, Shape::Sector { inner: nm(inner), outer: nm(outer), turn });
    let error = |piece: CutPiece| {
        let (pieces, goods) = ([piece], cloth(100));
        demand(&task(&pieces, &goods, &[], &Supply::Endless)).err()
    };
    let (none, no_shape) = (None, Some(CuttingError::NoShape { piece: "piece".into() }));
    let bad = |size| Some(CuttingError::BadSize { what: "piece".into(), size: nm(size) });
    for (piece, wanted) in [
        (oblong("piece", 1, LONGEST, 1), none.clone()),
        (oblong("piece", 1, LONGEST + 1, 1), bad(LONGEST + 1)),
        (oblong("piece", 1, 1, LONGEST + 1), bad(LONGEST + 1)),
        (oblong("piece", 1, 40, 0), bad(0)),
        (full("piece", 1, 0), bad(0)),
        (full("piece", 0, 1), none.clone()),
        (sector(0, 100_000, 1.0), none.clone()),
        (sector(99_999, 100_000, 0.5), none.clone()),
        (sector(100_000, 100_000, 0.5), no_shape.clone()),
        (sector(-1, 100_000, 0.5), no_shape.clone()),
        (sector(0, 100_000, 1.1), no_shape.clone()),
        (sector(0, 100_000, 0.0), no_shape.clone()),
        (sector(0, 0, 0.5), bad(0)),
        // Half of 1 by 2, and half of 1 by 1.
        (outline(&[(0, 0), (1, 0), (0, 2)]), none.clone()),
        (outline(&[(0, 0), (1, 0), (0, 1)]), no_shape.clone()),
        (outline(&[(0, 0), (40, 0)]), no_shape.clone()),
        (outline(&[(-LONGEST, 0), (40, 0), (0, 30)]), none),
        (outline(&[(-LONGEST - 1, 0), (40, 0), (0, 30)]), bad(-LONGEST - 1)),
        (outline(&[(0, 0), (40, 0), (0, LONGEST + 1)]), bad(LONGEST + 1)),
    ] {
        let told = format!("{piece:?}");
        assert_eq!(error(piece), wanted, "{told}");
    }
    // All pieces together, of any entries.
    let count = |counts: &[i64]| {
        let pieces: Vec<CutPiece> = counts.iter().map(|count| full("strip", *count, 40)).collect();
        let goods = cloth(100);
        demand(&task(&pieces, &goods, &[], &Supply::Endless)).err()
    };
    assert_eq!(count(&[400_000, 600_000]), None);
    assert_eq!(count(&[400_000, 600_001]), Some(CuttingError::TooManyPieces { most: 1_000_000 }));
}

#[test]
fn only_its_grain_keeps_a_piece_from_being_turned() {
    let may_ask = |piece: CutPiece, napped: bool| {
        let (pieces, goods) = ([piece], Goods { napped, ..cloth(100) });
        prepared(&task(&pieces, &goods, &[], &Supply::Endless)).groups[0].may_ask_to_turn
    };
    let panel = |grain| CutPiece { grain, ..oblong("panel", 1, 40, 30) };
    for (grain, wanted) in [(Grain::Along, true), (Grain::Across, true), (Grain::Bias, false), (Grain::Any, false)] {
        assert_eq!(may_ask(panel(grain), false), wanted, "{grain:?}");
        assert!(!may_ask(panel(grain), true));
        assert!(!may_ask(CutPiece { one_way: true, ..panel(grain) }, false));
    }
    assert!(!may_ask(full("strip", 1, 40), false));
    let lies = |piece: CutPiece, napped: bool| {
        let (pieces, goods) = ([piece], Goods { napped, ..cloth(100) });
        let groups = prepared(&task(&pieces, &goods, &[], &Supply::Endless)).groups;
        groups[0].choices.iter().map(|(lie, _)| *lie).collect::<Vec<_>>()
    };
    assert_eq!(lies(panel(Grain::Any), false), [Lie::Across, Lie::Along]);
    assert_eq!(lies(panel(Grain::Any), true), [Lie::Along]);
    assert_eq!(lies(CutPiece { one_way: true, ..panel(Grain::Any) }, false), [Lie::Along]);
    assert_eq!(lies(CutPiece { grain: Grain::Any, ..full("strip", 1, 40) }, false), [Lie::Along]);
    assert_eq!(lies(panel(Grain::Across), true), [Lie::Across]);
    assert_eq!(lies(panel(Grain::Bias), false), [Lie::Bias]);
    let is_straight = |piece: CutPiece| {
        let (pieces, goods) = ([piece], cloth(100_000));
        prepared(&task(&pieces, &goods, &[], &Supply::Endless)).groups[0].is_straight()
    };
    assert!(is_straight(panel(Grain::Any)) && is_straight(full("strip", 1, 40)) && !is_straight(panel(Grain::Bias)));
    let disc = Shape::Sector { inner: nm(0), outer: nm(900), turn: 1.0 };
    assert!(!is_straight(CutPiece::new("disc", 1, disc)));
}

fn told(sources: &[Source]) -> Vec<(&str, i64, i64, Option<i64>)> {
    sources.iter().map(|source| (source.name.as_str(), source.length, source.width, source.most)).collect()
}

#[test]
fn remnants_come_first_and_the_smallest_of_them_then_what_may_be_bought() {
    let length = |name: &str, along, across: Option<i64>, remnant| StockLength {
        across: across.map(nm),
        remnant,
        ..StockLength::new(name, nm(along))
    };
    let stock = [
        length("A", 500, None, false),
        length("B", 400, Some(130), false),
        // 24 000, and more by length but not by area.
        length("C", 240, None, true),
        length("D", 300, Some(70), true),
        StockLength { count: 0, ..length("E", 100, None, true) },
    ];
    let offer = |name: &str, along: Option<i64>, across: Option<i64>, most| PutUp {
        name: name.into(),
        along: along.map(nm),
        across: across.map(nm),
        price: Some(Money::from_steps(5.0)),
        most,
    };
    let supply = Supply::Offered(vec![
        offer("bolt", Some(900), Some(80), Some(4)),
        offer("short", Some(600), None, None),
        offer("gone", Some(600), None, Some(0)),
        offer("cut", None, None, None),
        offer("cuts", None, None, Some(7)),
        offer("no cut", None, None, Some(0)),
    ]);
    let (pieces, goods) = ([oblong("panel", 1, 40, 30)], cloth(100));
    let sources = prepared(&task(&pieces, &goods, &stock, &supply)).sources;
    assert_eq!(
        told(&sources),
        [
            ("D", 300, 70, Some(1)),
            ("C", 240, 100, Some(1)),
            ("B", 400, 100, Some(1)),
            ("A", 500, 100, Some(1)),
            ("bolt", 900, 80, Some(4)),
            ("short", 600, 100, None),
            ("cut", MOST_LAID, 100, Some(1)),
            ("cuts", MOST_LAID, 100, Some(1)),
        ]
    );
    assert!(sources.iter().all(|source| source.as_needed == source.name.starts_with("cut") && source.spare == 0));
    let shelf_only = prepared(&task(&pieces, &goods, &stock[..1], &Supply::ShelfOnly)).sources;
    assert_eq!(told(&shelf_only), [("A", 500, 100, Some(1))]);
    let endless = |put_up: Option<i64>| {
        let goods = Goods { put_up: put_up.map(nm), ..cloth(100) };
        let sources = prepared(&task(&pieces, &goods, &[], &Supply::Endless)).sources;
        sources
            .into_iter()
            .map(|source| (source.name, source.length, source.most, source.as_needed))
            .collect::<Vec<_>>()
    };
    assert_eq!(endless(None), [("cloth".to_owned(), MOST_LAID, Some(1), true)]);
    assert_eq!(endless(Some(700)), [("bolt".to_owned(), 700, None, false)]);
}

#[test]
fn what_is_squared_off_both_ends_is_not_there() {
    let (pieces, goods) = ([oblong("panel", 1, 40, 30)], cloth(100));
    let stock: Vec<StockLength> = [100, 7, 6, 5].map(|along| StockLength::new("S", nm(along))).to_vec();
    let manner = CuttingManner { squaring: nm(3), ..CuttingManner::default() };
    let task = CuttingTask { manner: &manner, ..task(&pieces, &goods, &stock, &Supply::ShelfOnly) };
    assert_eq!(prepared(&task).sources.iter().map(|source| source.length).collect::<Vec<_>>(), [1, 94]);
}

/// A repeat of 16 is kept free on a length that holds a matched piece of 40 behind it, so on 56; on 55 no such piece may lie, and
/// other pieces only up to 39.
#[test]
fn a_length_keeps_a_repeat_free_where_a_matched_piece_may_lie() {
    let goods = Goods { repeat: Some(Repeat::half_drop(nm(16))), ..cloth(100) };
    let pieces = [CutPiece { matching: Some(Matching::Level), ..full("drop", 1, 40) }, full("band", 1, 30)];
    let of = |along, across: Option<i64>| {
        let stock = [StockLength { across: across.map(nm), ..StockLength::new("S", nm(along)) }];
        let source = prepared(&task(&pieces, &goods, &stock, &Supply::ShelfOnly)).sources[0].clone();
        (source.length, source.spare)
    };
    assert_eq!((of(100, None), of(56, None), of(55, None)), ((84, 16), (40, 16), (39, 16)));
    assert_eq!((of(40, None), of(39, None), of(38, None)), ((39, 1), (39, 0), (38, 0)));
    // Too narrow for the drop.
    assert_eq!(of(100, Some(99)), (100, 0));
}

#[test]
fn a_length_that_makes_no_sense_is_named() {
    let (pieces, goods) = ([oblong("panel", 1, 40, 30)], cloth(100));
    let error = |stock: &StockLength| {
        let stock = std::slice::from_ref(stock);
        plan(&task(&pieces, &goods, stock, &Supply::Endless), Watch::silent(&AtomicBool::new(false))).unwrap_err()
    };
    let plain = StockLength::new("B4", nm(500));
    let bad = |size| CuttingError::BadSize { what: "B4".into(), size: nm(size) };
    assert_eq!(error(&StockLength { along: nm(0), ..plain.clone() }), bad(0));
    assert_eq!(error(&StockLength { across: Some(nm(-2)), ..plain.clone() }), bad(-2));
    let negative = StockLength { count: -1, ..plain };
    assert_eq!(error(&negative), CuttingError::NegativeCount { what: "B4".into(), count: -1 });
}

#[test]
fn which_lengths_a_plan_calls_by_a_name() {
    let many = Source { most: Some(3), ..shelf(0, 300, 100) };
    let bolt = |most| Source { most, ..new(0, 700, 100) };
    let cut = |name: &str| Source { as_needed: true, most: Some(1), name: name.to_owned(), ..new(0, 700, 100) };
    for (source, name, wanted) in [
        (&many, "S0", &[1, 2, 3][..]),
        (&many, "S1", &[]),
        (&many, "new S0 1", &[]),
        (&bolt(None), "new N0 12", &[12]),
        (&bolt(None), "new N0 1", &[1]),
        (&bolt(None), "new N0", &[]),
        (&bolt(None), "N0 1", &[]),
        (&bolt(Some(12)), "new N0 12", &[12]),
        (&bolt(Some(11)), "new N0 12", &[]),
        (&cut("cloth"), "new cloth", &[1]),
        (&cut("cloth"), "new cloth 1", &[]),
        (&cut("cloth"), "cloth", &[]),
        // A name may end in a number that is none of its length.
        (&cut("linen 140"), "new linen 140", &[1]),
    ] {
        assert_eq!(source.numbers_called(name).collect::<Vec<_>>(), wanted, "{name}");
    }
    assert_eq!([many.label(2), bolt(None).label(2), cut("cloth").label(1)], ["S0", "new N0 2", "new cloth"]);
}

#[test]
fn a_group_lies_whole_on_a_length_in_any_of_its_ways() {
    let (pieces, goods) = ([CutPiece { grain: Grain::Any, ..oblong("panel", 1, 40, 30) }], cloth(100));
    let task = task(&pieces, &goods, &[], &Supply::Endless);
    let groups: Vec<Group<'_>> = prepared(&task).groups;
    for (length, width, wanted) in [(40, 30, true), (30, 40, true), (39, 39, false), (30, 39, false), (29, 90, false)] {
        assert_eq!(groups[0].lies_whole_on(length, width), wanted, "{length} by {width}");
    }
}
