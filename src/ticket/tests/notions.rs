//! Notions and thread from the shelf: pieces, not lumps, each from a named length, the shortest that serves first.

use super::*;
use crate::ticket::small_cuts::SmallCuts;
use proptest::prelude::*;
use std::collections::BTreeMap;

const MATERIALS: &str = "\
material,kind,usable width,put-up,price,price for,sold by
hem tape,notion,1/2 in,3 yd,$2.30,put-up,put-up
elastic,notion,1 in,50 yd,$0.95,yd,1/2 yd
button,notion,,,$0.18,each,each
thread,thread,,3000 yd,$4.40,put-up,put-up
";

fn shop(stock: &str) -> Workshop {
    let stock = format!("stock,material,count,along,held for\n{stock}");
    workshop(&[("materials.csv", MATERIALS), ("stock.csv", &stock)])
}

/// An order of needs alone: the material, the amount, how many, what for.
fn order(shop: &Workshop, needs: &[(usize, Quantity, i64, &str)]) -> Ticket {
    let mut ticket = Ticket::new("needs", "");
    ticket.materials = ["hem tape", "elastic", "button"].iter().map(|name| listed(shop, name)).collect();
    ticket.needs = needs
        .iter()
        .map(|(material, amount, count, why)| Need { count: *count, ..need(*material, *amount, why) })
        .collect();
    ticket
}

fn inches(value: f64) -> Quantity {
    Length::inches(value).into()
}

fn section(made: &Made, name: &str) -> Rc<Table> {
    OrderSection::named(name).unwrap().table(&made.order).unwrap().unwrap()
}

/// By hand: two tapes of 6 in are two pieces. Rests of 8 and 7 in hold one each, though neither holds 12 in.
#[test]
fn two_tapes_come_from_two_rests() {
    let shop = shop("H1,hem tape,1,8 in,\nH2,hem tape,1,7 in,\nH3,hem tape,1,3 yd,\nE1,elastic,1,13 1/2 yd,\n");
    let needs = [(0, inches(6.0), 2, "an end turning"), (1, inches(15.0), 1, "round the waist")];
    let made = made(&order(&shop, &needs), &shop);
    check(
        &section(&made, "have_ready"),
        "
what | times | each | for
hem tape | 2 | 6 in | an end turning
elastic | 1 | 15 in | round the waist",
    );
    // Two orders of three buttons on each of two cuffs take twelve.
    let buttons = [(2, Quantity::number(3.0), 2, "a cuff")];
    let two = Ticket { garments: 2, ..order(&shop, &buttons) };
    check(&section(&self::made(&two, &shop), "have_ready"), "what | times | each | for\nbutton | 12 |  | a cuff");
    check(
        &made.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
hem tape | 12 in | 12 in | 0 in | nothing |  | from H2 and H1
elastic | 15 in | 15 in | 0 in | nothing |  | from E1",
    );
    check(
        &section(&made, "small_cuts"),
        "
what | stock | times | each | mark from | mark to | left | for
hem tape | H2 | 1 | 6 in | 0 in | 6 in | 1 in | an end turning
hem tape | H1 | 1 | 6 in | 0 in | 6 in | 2 in | an end turning
elastic | E1 | 1 | 15 in | 0 in | 15 in | 471 in | round the waist",
    );
}

/// By hand: of one length of 108 in both tapes are cut one behind the other, 0 to 6 and 6 to 12, and 96 in are left.
#[test]
fn two_tapes_come_off_one_length_one_behind_the_other() {
    let shop = shop("H2,hem tape,1,3 yd,\n");
    let made = made(&order(&shop, &[(0, inches(6.0), 2, "an end turning")]), &shop);
    let cuts = made.order.small_cuts().unwrap();
    let [tape] = cuts else { panic!("{cuts:?}") };
    let marks: Vec<(f64, f64)> = tape.cuts.iter().map(|cut| (cut.from.in_inches(), cut.to.in_inches())).collect();
    assert_eq!(marks, [(0.0, 6.0), (6.0, 12.0)]);
    assert_eq!((tape.stock.as_deref(), tape.left.unwrap().in_inches()), (Some("H2"), 96.0));
    check(
        &section(&made, "small_cuts"),
        "
what | stock | times | each | mark from | mark to | left | for
hem tape | H2 | 2 | 6 in | 0 in | 12 in | 96 in | an end turning",
    );
}

/// By hand: 4 yd of tape in one is longer than a card of 3 yd. With 2 yd and 1 1/2 yd on the shelf, and 1 3/4 in that are too
/// little to join, 2 + 1 1/2 + 1/2 yd: two joins, and one card is opened.
#[test]
fn what_no_length_holds_is_joined_and_said() {
    let shop = shop("H1,hem tape,1,2 yd,\nH2,hem tape,1,1 1/2 yd,\nH3,hem tape,1,1 3/4 in,\n");
    let made = made(&order(&shop, &[(0, Length::yards(4.0).into(), 1, "round the hem")]), &shop);
    check(
        &made.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
hem tape | 4 yd | 3 1/2 yd | 3 yd | 1 of 3 yd | $2.30 | from H1 and H2; too short on the shelf: H3; 4 yd is longer than any single length: 2 joins, from H1, H2 and new; add what the joins take",
    );
    assert_eq!(
        made.plan_notes,
        ["hem tape: 4 yd is longer than any single length: 2 joins, from H1, H2 and new; add what the joins take"]
    );
    check(
        &section(&made, "small_cuts"),
        "
what | stock | times | each | mark from | mark to | left | for
hem tape | H1 | 1 | 72 in | 0 in | 72 in | 0 in | round the hem (part 1, to be joined)
hem tape | H2 | 1 | 54 in | 0 in | 54 in | 0 in | round the hem (part 2, to be joined)
hem tape | new | 1 | 18 in | 0 in | 18 in | 90 in | round the hem (part 3, to be joined)",
    );
}

/// By hand: what is held stays where it is, and the sheet says so; a length of 5 in is too short for 6 in, one of 7 in
/// is not.
#[test]
fn held_lengths_stay_and_only_short_ones_are_short() {
    let shop = shop("H1,hem tape,1,3 yd,order 9\nH2,hem tape,1,5 in,\nH3,hem tape,1,7 in,\nK1,button,20,,order 9\n");
    let needs = [(0, inches(6.0), 2, "an end turning"), (2, Quantity::number(3.0), 1, "closes it")];
    let made = made(&order(&shop, &needs), &shop);
    check(
        &made.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
hem tape | 12 in | 6 in | 108 in | 1 of 3 yd | $2.30 | from H3; too short on the shelf: H2
button | 3 | 0 | 3 | 3 | $0.54 |",
    );
    assert_eq!(
        made.plan_notes,
        [
            "H1, 3 yd of hem tape, is reserved for order 9, not used",
            "K1, 20 of button, is reserved for order 9, not used",
        ]
    );
}

/// By hand: what is held for this order is its own, by whatever words: 6 in come off H2, the shorter of the two that hold
/// them.
#[test]
fn what_is_held_for_this_order_serves_it() {
    let shop = shop("H1,hem tape,1,3 yd,order 9\nH2,hem tape,1,1 yd,Order  9\nH3,hem tape,1,8 in,order 10\n");
    let mut ticket = order(&shop, &[(0, inches(6.0), 1, "an end turning")]);
    for mark in ["9", "order 9"] {
        ticket.mark.order = Some(mark.to_owned());
        let made = made(&ticket, &shop);
        let row = drawn(&made.buy_list).lines().nth(1).unwrap().to_owned();
        assert_eq!(row, "hem tape | 6 in | 6 in | 0 in | nothing |  | from H2", "{mark}");
        assert_eq!(made.plan_notes, ["H3, 8 in of hem tape, is reserved for order 10, not used"]);
    }
}

/// By hand: 100 in of lockstitch take 250 in of thread and 15 % more, 287 1/2 in, not quite 8 yd. Reels of 5, 9 and 2000
/// yd: the 9 yd is the shortest that holds it. Without it and the long one, the 5 yd and what a second reel has.
#[test]
fn thread_comes_off_the_shortest_reel_that_holds_it() {
    let note = |stock: &str| {
        let shop = shop(stock);
        let mut ticket = order(&shop, &[(2, Quantity::number(3.0), 1, "closes it")]);
        ticket.sewing = vec![sew("301", Length::inches(100.0), "hem")];
        let made = made(&ticket, &shop);
        let notes: Vec<String> = made
            .buy_list
            .rows()
            .iter()
            .map(|row| match (&row[4], &row[6]) {
                (Cell::Text(bought), Cell::Text(note)) => format!("{bought}; {note}"),
                other => panic!("{other:?}"),
            })
            .collect();
        notes
    };
    assert_eq!(
        note(
            "T1,thread,1,2000 yd,\nT2,thread,1,5 yd,\nT3,thread,1,9 yd,\nK1,button,50,,\nK2,button,4,,\nK3,button,2,,\n"
        ),
        ["nothing; from K2", "nothing; from T3"]
    );
    assert_eq!(
        note("T1,thread,1,6 yd,\nT2,thread,1,5 yd,\nK1,button,2,,\nK2,button,1,,\n"),
        ["nothing; from K2 and K1", "nothing; from T2 and T1"]
    );
    assert_eq!(note("T1,thread,1,7 yd,\n"), ["3; ", "1 of 3000 yd; from T1"]);
}

/// The least that is new, by trying every piece on every length: a length, or whole put-ups.
fn least_new(pieces: &[i64], room: &mut Vec<i64>, put_up: Option<i64>) -> i64 {
    let Some((piece, rest)) = pieces.split_first() else { return 0 };
    let mut least = i64::MAX;
    for place in 0..room.len() {
        if room[place] >= *piece {
            room[place] -= piece;
            least = least.min(least_new(rest, room, put_up));
            room[place] += piece;
        }
    }
    match put_up {
        None => least.min(least_new(rest, room, put_up).saturating_add(*piece)),
        Some(put_up) => {
            room.push(put_up - piece);
            least = least.min(least_new(rest, room, Some(put_up)).saturating_add(put_up));
            room.pop();
            least
        }
    }
}

type AnyNeeds = Vec<(usize, i64, i64)>;
type AnyShelf = Vec<(usize, i64, i64, bool)>;

fn any_needs() -> impl Strategy<Value = AnyNeeds> {
    prop::collection::vec((0..2_usize, 1..=108_i64, 1..=2_i64), 1..=3)
}

fn any_shelf() -> impl Strategy<Value = AnyShelf> {
    let length = prop_oneof![3 => 1..=120_i64, 1 => 120..=600_i64];
    prop::collection::vec((0..2_usize, length, 1..=2_i64, prop::bool::weighted(0.2)), 0..=4)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Whole pieces, each from a length that is there and not held, one behind the other; what is taken and what is new
    /// adds up; nothing is bought that the shelf would have spared; nothing that holds a piece is called too short.
    #[test]
    fn needs_are_cut_from_the_shelf_before_anything_is_bought(needs in any_needs(), shelf in any_shelf()) {
        let names = ["hem tape", "elastic"];
        let rows = shelf.iter().enumerate().map(|(place, (material, along, count, held))| {
            format!("S{place},{},{count},{along} in,{}\n", names[*material], if *held { "order 9" } else { "" })
        });
        let shop = shop(&rows.collect::<String>());
        let wanted: Vec<(usize, Quantity, i64, &str)> =
            needs.iter().map(|(material, along, count)| (*material, inches(whole(*along)), *count, "hem")).collect();
        let made = made(&order(&shop, &wanted), &shop);
        let cuts: &[SmallCuts] = made.order.small_cuts().unwrap();
        for (material, name) in names.iter().enumerate() {
            let mut pieces: Vec<i64> = needs.iter().filter(|need| need.0 == material)
                .flat_map(|(_, along, count)| (0..*count).map(|_| *along)).collect();
            if pieces.is_empty() {
                continue;
            }
            pieces.sort_unstable();
            let mine = || cuts.iter().filter(|one| one.material == *name);
            let mut found: Vec<i64> = mine().flat_map(|one| &one.cuts)
                .map(|cut| nearest((cut.to - cut.from).in_inches())).collect();
            found.sort_unstable();
            prop_assert_eq!(&found, &pieces);
            let mut used: BTreeMap<&str, i64> = BTreeMap::new();
            for one in mine() {
                let mut end = Length::ZERO;
                for cut in &one.cuts {
                    prop_assert!(cut.from == end && cut.part.is_none(), "{:?}", one);
                    end = cut.to;
                }
                prop_assert!(one.length.is_none_or(|length| end <= length), "{:?}", one);
                prop_assert!(one.left.is_none_or(|left| (left + end - one.length.unwrap()).steps().abs() < 2.0));
                if let Some(stock) = &one.stock {
                    *used.entry(stock).or_default() += 1;
                }
            }
            for (stock, times) in used {
                let (of, _, count, held) = shelf[stock[1..].parse::<usize>().unwrap()];
                prop_assert!(of == material && times <= count && !held, "{stock} {times} times");
            }
            let free = shelf.iter().filter(|one| one.0 == material && !one.3);
            let mut room: Vec<i64> = free.flat_map(|(_, along, count, _)| (0..*count).map(|_| *along)).collect();
            let put_up = (material == 0).then_some(108);
            let least = least_new(&pieces, &mut room, put_up);
            let bought: i64 = mine().filter(|one| one.stock.is_none())
                .map(|one| nearest(one.length.unwrap_or_else(|| one.cuts.last().unwrap().to).in_inches())).sum();
            prop_assert_eq!(bought, least, "{:?}", cuts);
            let row = made.buy_list.rows().iter().find(|row| row[0] == Cell::from(*name)).unwrap();
            let Cell::Text(note) = &row[6] else { panic!("{row:?}") };
            let short = note.split_once("too short on the shelf: ").map_or("", |(_, short)| short);
            for (place, (_, along, _, _)) in shelf.iter().enumerate().map(|(place, one)| (place, *one)) {
                prop_assert!(!short.contains(&format!("S{place}")) || along < pieces[0], "S{place}: {note}");
            }
        }
    }
}

fn whole(value: i64) -> f64 {
    crate::quantity::number::from_whole(value)
}

fn nearest(value: f64) -> i64 {
    crate::quantity::number::nearest_whole(value).unwrap()
}
