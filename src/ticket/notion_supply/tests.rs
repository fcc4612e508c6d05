//! The supply of a notion at its edges: noise, rests, washed lengths and the cap of looks; every figure from a pencil.

use super::*;
use crate::textile::washing::Loss;

/// A length, a box or a reel on the shelf, so many alike.
fn on_shelf(name: &str, count: usize, along: Option<Length>) -> StockPiece {
    StockPiece {
        name: name.to_owned(),
        material: "tape".to_owned(),
        lot: None,
        count,
        along,
        across: None,
        washed: false,
        price: None,
        place: None,
        held_for: None,
    }
}

/// Lengths on the shelf: the name, how many, and how long in inches.
fn shelf(lengths: &[(&str, usize, f64)]) -> Vec<StockPiece> {
    lengths.iter().map(|(name, count, along)| on_shelf(name, *count, Some(Length::inches(*along)))).collect()
}

fn unwashed(pieces: &[StockPiece]) -> Vec<Free<'_>> {
    pieces.iter().map(|piece| Free { piece, along: piece.along, share: 1.0 }).collect()
}

/// The same lengths, washed, where the wash takes this share: the size each had before it.
fn washed(pieces: &[StockPiece], lost: f64) -> Vec<Free<'_>> {
    let share = 1.0 - lost;
    pieces.iter().map(|piece| Free { piece, along: piece.along.map(|along| along / share), share }).collect()
}

fn required(amount: Quantity, lengths: Vec<NeededLength>) -> RequiredMaterial<'static> {
    RequiredMaterial {
        name: "tape".to_owned(),
        material: None,
        listed: true,
        amount,
        includes_thread: false,
        lengths,
        loss: Loss::NONE,
    }
}

fn needed(length: Length, count: i64) -> NeededLength {
    NeededLength { length, count, why: "edge".to_owned() }
}

/// A length that the plan cut: which of the shelf or a new one, how long it is and how much of it is used, in inches.
fn cut_already(entry: Option<usize>, length: Option<f64>, used: f64) -> Opened {
    let mut one = Opened { entry, length: length.map(Length::inches), used: Length::ZERO, cuts: Vec::new() };
    one.cut(Length::inches(used), "tie", None);
    one
}

fn inches_of(amount: Quantity) -> f64 {
    (amount.steps() / Length::inches(1.0).steps() * 1e6).round() / 1e6
}

/// Each length that is open and each entry of the shelf is one look: 2 + 3, then, with one more open, 3 + 3. Lengths
/// shorter than a part are looked at too.
#[test]
fn every_open_length_and_every_entry_of_the_shelf_is_one_look() {
    let pieces = shelf(&[("A", 1, 1.0), ("B", 1, 1.25), ("C", 1, 1.5)]);
    let stock = unwashed(&pieces);
    let bought = || cut_already(None, None, 12.0);
    let mut lengths = Lengths::of(&stock, None, vec![bought(), bought()]);
    assert_eq!(lengths.open(Length::inches(100.0)), Some(2));
    assert_eq!(lengths.looks, 5);
    assert_eq!(lengths.open(Length::inches(100.0)), Some(3));
    assert_eq!(lengths.looks, 11);
}

/// With 10,000,000 looks the search still answers; with one more it does not.
#[test]
fn ten_million_looks_are_allowed_and_not_one_more() {
    let pieces = shelf(&[("A", 1, 1.0), ("B", 1, 1.25), ("C", 1, 1.5)]);
    let stock = unwashed(&pieces);
    for (before, found) in [(10_000_000 - 5, Some(2)), (10_000_000 - 4, None)] {
        let bought = || cut_already(None, None, 12.0);
        let mut lengths = Lengths::of(&stock, None, vec![bought(), bought()]);
        lengths.looks = before;
        assert_eq!(lengths.open(Length::inches(100.0)), found, "{before}");
    }
    // A new one for every part: the looks run out, and only the sum counts.
    let mut lengths = Lengths::of(&[], Some(Length::inches(1.0)), Vec::new());
    assert!(lengths.join(&needed(Length::inches(5_000.0), 1)).is_none());
}

/// Of three alike two are cut by the plan, each with 5 in left: 40 + 5 + 5 of 100 in, and the rest of a card.
#[test]
fn what_the_plan_cut_is_not_there_untouched() {
    let pieces = shelf(&[("A", 1, 4.0), ("B", 3, 40.0)]);
    let stock = unwashed(&pieces);
    let plan = || vec![cut_already(Some(1), Some(40.0), 35.0), cut_already(Some(1), Some(40.0), 35.0)];
    assert_eq!(Lengths::of(&stock, None, plan()).taken, [0, 2]);
    let mut lengths = Lengths::of(&stock, Some(Length::inches(72.0)), plan());
    let parts = lengths.join(&needed(Length::inches(100.0), 1)).unwrap();
    // 40, then twice 5, then the 4 in of A, then 46 of a new one.
    assert_eq!((parts.joins, parts.from), (4, vec!["B".to_owned(), "A".to_owned(), "new".to_owned()]));
    assert_eq!(lengths.taken, [1, 3]);
}

/// A part shorter than 5 cm is joined only where it is all that is missing: of 41 in, 40 and the inch of A.
#[test]
fn a_short_rest_serves_where_it_is_all_that_is_missing() {
    let pieces = shelf(&[("A", 1, 1.0), ("B", 1, 40.0)]);
    let stock = unwashed(&pieces);
    let joined = |length: f64| {
        let mut lengths = Lengths::of(&stock, Some(Length::inches(30.0)), Vec::new());
        lengths.join(&needed(Length::inches(length), 1)).unwrap().from
    };
    assert_eq!(joined(41.0), ["B", "A"]);
    assert_eq!(joined(42.0), ["B", "new"]);
}

/// A thousandth of a nanometre, which no sum of lengths can tell from none, is no part of its own; twice that is.
#[test]
fn what_is_missing_by_noise_alone_is_not_joined() {
    let noise = 1e-3;
    for (missing, parts) in [(noise, 0), (2.0 * noise, 1)] {
        let mut lengths = Lengths::of(&[], None, Vec::new());
        assert_eq!(lengths.join(&needed(Length::from_steps(missing), 1)).unwrap().joins, 0);
        assert_eq!(lengths.opened.len(), parts, "{missing}");
    }
}

/// Two of 150 in on cards of 108: 108 + 42, then the 66 that are left + 84 of a third.
#[test]
fn each_of_several_long_lengths_is_joined() {
    let mut lengths = Lengths::of(&[], Some(Length::inches(108.0)), Vec::new());
    assert_eq!(lengths.join(&needed(Length::inches(150.0), 2)).unwrap().joins, 2);
    let parts: Vec<Vec<(f64, f64, Option<i64>)>> = lengths
        .opened
        .iter()
        .map(|one| one.cuts.iter().map(|cut| (cut.from.in_inches(), cut.to.in_inches(), cut.part)).collect())
        .collect();
    assert_eq!(
        parts,
        [vec![(0.0, 108.0, Some(1))], vec![(0.0, 42.0, Some(2)), (42.0, 108.0, Some(1))], vec![(0.0, 84.0, Some(2))]]
    );
}

/// Where 10 in are cut from something new, only what lies on the shelf unused and shorter than that is too short; what has
/// no length asks for nothing.
#[test]
fn only_what_is_shorter_than_the_shortest_length_is_too_short() {
    let pieces = shelf(&[("A", 1, 9.0), ("B", 1, 10.0), ("C", 1, 11.0), ("D", 1, 9.5)]);
    let stock = unwashed(&pieces);
    let too_short = |used: Option<Opened>| {
        let opened = used.into_iter().chain([cut_already(None, None, 10.0)]).collect();
        let lengths = vec![needed(Length::ZERO, 1), needed(Length::inches(20.0), 1), needed(Length::inches(10.0), 1)];
        let required = required(Length::inches(30.0).into(), lengths);
        Lengths::of(&stock, None, opened).supply(&required, Vec::new()).too_short
    };
    assert_eq!(too_short(None), ["A", "D"]);
    // What is used, as part of what is joined, is not.
    assert_eq!(too_short(Some(cut_already(Some(0), Some(9.0), 9.0))), ["D"]);
}

/// The shelf has it all: nothing on it is too short for what is bought, because nothing is.
#[test]
fn nothing_is_too_short_where_nothing_is_bought() {
    let pieces = shelf(&[("A", 1, 9.0), ("B", 1, 30.0)]);
    let stock = unwashed(&pieces);
    let required = required(Length::inches(10.0).into(), vec![needed(Length::inches(10.0), 1)]);
    let lengths = Lengths::of(&stock, None, vec![cut_already(Some(1), Some(30.0), 10.0)]);
    let supply = lengths.supply(&required, Vec::new());
    assert_eq!(supply.too_short, [""; 0]);
    assert_eq!((supply.taken_from, inches_of(supply.buy), inches_of(supply.shelf)), (vec!["B".to_owned()], 0.0, 10.0));
}

/// The wash takes 5 %: 20 in before it are 19 of a washed length of 38 in (40 before), and 40 are 38 of one of 57 in. Of
/// 100 in in all 3 are saved; 40 in are new.
#[test]
fn washed_lengths_are_cut_and_counted_as_they_lie() {
    let pieces = shelf(&[("A", 1, 38.0), ("B", 1, 57.0)]);
    let stock = washed(&pieces, 0.05);
    let opened = vec![
        cut_already(Some(0), Some(40.0), 20.0),
        cut_already(Some(1), Some(60.0), 40.0),
        cut_already(None, Some(108.0), 40.0),
    ];
    let lengths = vec![needed(Length::inches(20.0), 1), needed(Length::inches(40.0), 2)];
    let required = required(Length::inches(100.0).into(), lengths);
    let supply = Lengths::of(&stock, Some(Length::inches(108.0)), opened).supply(&required, Vec::new());
    assert_eq!(
        [supply.needed, supply.shelf, supply.buy].map(|amount| inches_of(amount).to_string()),
        ["97", "57", "108"]
    );
    let cuts = supply.cuts.iter().map(|one| {
        let cut = &one.cuts[0];
        [Some(cut.from), Some(cut.to), one.length, one.left].map(|length| length.map(|length| inches_of(length.into())))
    });
    let wanted = [[0.0, 19.0, 38.0, 19.0], [0.0, 38.0, 57.0, 19.0], [0.0, 40.0, 108.0, 68.0]].map(|row| row.map(Some));
    assert_eq!(cuts.collect::<Vec<_>>(), wanted);
}

fn reels(lengths: &[f64]) -> Vec<StockPiece> {
    let name = |at: usize| format!("T{}", at + 1);
    lengths.iter().enumerate().map(|(at, along)| on_shelf(&name(at), 1, Some(Length::from_steps(*along)))).collect()
}

/// By noise nothing is short: a reel that lacks no more than a thousandth of a nanometre holds the whole, and what several
/// lack by no more than that is not taken from the next.
#[test]
fn a_reel_that_lacks_noise_alone_holds_the_whole() {
    let noise = 1e-3;
    let taken = |lengths: &[f64]| {
        let pieces = reels(lengths);
        let amount = Quantity::from_steps(2.0 * noise, Dimension::LENGTH);
        wound_off(&required(amount, Vec::new()), &unwashed(&pieces)).taken_from
    };
    assert_eq!(taken(&[noise, 5.0 * noise]), ["T1"]);
    assert_eq!(taken(&[0.9 * noise, 5.0 * noise]), ["T2"]);
    assert_eq!(taken(&[0.5 * noise, 0.5 * noise, 0.75 * noise]), ["T1", "T2"]);
}

/// 200 in that lose 5 % and a washed reel of 95 in, 100 before the wash: 95 come from it, 100 are bought, and the order
/// takes 195. Two such reels of a bigger order: 190 in, 300 are bought of 500.
#[test]
fn a_washed_reel_gives_what_it_lost_less() {
    for (count, asked, wanted) in [(1, 200.0, ["195", "95", "100"]), (2, 500.0, ["490", "190", "300"])] {
        let pieces = shelf(&[("T", count, 95.0)]);
        let supply = wound_off(&required(Length::inches(asked).into(), Vec::new()), &washed(&pieces, 0.05));
        assert_eq!([supply.needed, supply.shelf, supply.buy].map(|amount| inches_of(amount).to_string()), wanted);
    }
}

/// 12 of boxes of 5 and 3: all of both, the smaller first, and 4 are bought. Of 4 the box of 5 holds all. Of less than
/// none nothing is bought.
#[test]
fn what_is_counted_comes_from_the_smallest_box_that_holds_it() {
    let pieces = [on_shelf("K1", 5, None), on_shelf("K2", 3, None), on_shelf("K3", 6, None)];
    let supply = |asked: f64, boxes: usize| {
        let supply = wound_off(&required(Quantity::number(asked), Vec::new()), &unwashed(&pieces[..boxes]));
        (supply.taken_from, [supply.needed, supply.shelf, supply.buy].map(Quantity::steps))
    };
    assert_eq!(supply(12.0, 2), (vec!["K2".to_owned(), "K1".to_owned()], [12.0, 8.0, 4.0]));
    assert_eq!(supply(4.0, 3), (vec!["K1".to_owned()], [4.0, 4.0, 0.0]));
    assert_eq!(supply(-3.0, 2), (vec![], [-3.0, 0.0, 0.0]));
}
