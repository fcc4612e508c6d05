//! Strips gathered twice and set on a band (common practice, no source; every sum worked by hand).
//!
//! The band covers 22 in, and 30 times as much tulle is laid: 660 in are 110 strips of a 6 in roll, each 10 in long. A
//! roll of 25 yd gives 90 strips. Thread ratios: 301 from published table \[17\]; 504 from
//! memory (published table \[16\]).

use super::*;
use crate::quantity::{Time, Unit};

const MATERIALS: &str = "\
material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,nap,shrink along,shrink across,weight,fibre
tulle,roll,6 in,25 yd,$6.50,put-up,put-up,,no,no,0 %,0 %,,
satin strip,roll,6 in,10 yd,$13.50,put-up,put-up,,no,no,0 %,0 %,,
elastic,notion,1 in,50 yd,$0.95,yd,1/2 yd,,no,no,0 %,0 %,,
hem tape,notion,1/2 in,3 yd,$2.30,put-up,put-up,,no,no,0 %,0 %,,
grey thread,thread,,3000 yd,,put-up,put-up,,no,no,0 %,0 %,,
ivory thread,thread,,3000 yd,$4.40,put-up,put-up,,no,no,0 %,0 %,,
";

const STOCK: &str = "\
stock,material,lot,count,along,across,price,place,held for
B1,tulle,,1,11 yd,,,,
B2,tulle,,2,4 yd 12 in,,,,
B3,tulle,,1,25 yd,,,,order 9
E1,elastic,,1,9 in,,,,
H1,hem tape,,2,3 yd,,,,
T1,ivory thread,,1,2100 yd,,,,
";

const RATES: &str = "\
operation,per,minutes,set-up,value
cut strips,piece,0.15 min,3 min,
overlap and gather,yd,2.2 min,10 min,
gather second pass,yd,4 min,5 min,
thread an elastic,each,4 min,,
wage,,,,$20/h
overhead,,,,$6/h
mark-up,,,,50 %
fee,,,,5 %
waste,,,,5 %
minimum,,,,$18.00
";

const SETTINGS: &str = "setting,value\nprice ending,$0.50\n";

fn shop() -> Workshop {
    let files = [("materials.csv", MATERIALS), ("stock.csv", STOCK), ("rates.csv", RATES), ("settings.csv", SETTINGS)];
    workshop(&files)
}

fn order(shop: &Workshop) -> Ticket {
    let inches = Length::inches;
    let mut ticket = Ticket::new("strips_on_band", "Strips gathered twice, set on a band.");
    ticket.materials = vec![
        listed(shop, "tulle"),
        listed(shop, "satin strip"),
        listed(shop, "elastic"),
        listed(shop, "hem tape"),
        plain_notion(shop, "elastic", "hook"),
    ];
    ticket.pieces = vec![
        piece("tulle strip", 0, Shape::FullWidth { along: inches(10.0) }, 110),
        piece("band", 1, Shape::FullWidth { along: inches(24.0) }, 1),
    ];
    ticket.needs = vec![
        need(2, inches(15.0).into(), "waist, joined over 1 in"),
        need(3, inches(12.0).into(), "two end turnings"),
        need(4, Quantity::number(2.0), "closing"),
    ];
    ticket.sewing = vec![
        sew("301", inches(110.0), "first pass, where it is sewn"),
        sew("301", inches(22.0), "second pass"),
        sew("301", inches(22.0), "basting to the band"),
        sew("504", inches(22.0), "overlocking the same edge"),
    ];
    let set_hooks = Work {
        about: Time::try_from(Quantity::of(1.5, Unit::Minute)).ok(),
        ..work("set a hook", Quantity::number(2.0))
    };
    ticket.work = vec![
        work("cut strips", Quantity::number(110.0)),
        work("overlap and gather", inches(660.0).into()),
        work("gather second pass", inches(110.0).into()),
        work("thread an elastic", Quantity::number(1.0)),
        set_hooks,
        work("pack", Quantity::number(1.0)),
    ];
    ticket.marks = vec![mark("band", "end turning", inches(1.0), "each end")];
    ticket.steps = vec![TicketStep::Words("Fold the band to {fold}.".to_owned())];
    ticket.figures = vec![crate::ticket::Figure {
        name: "fold".to_owned(),
        value: crate::ticket::TicketValue::Quantity(inches(3.0).into()),
        meaning: "the band folded".to_owned(),
    }];
    ticket
}

#[test]
fn every_table_of_an_order_cut_from_the_shelf() {
    let shop = shop();
    let made = made(&order(&shop), &shop);
    check(
        &made.cut_list,
        "
piece | material | count | shape | along | across | grain | notes
tulle strip | tulle | 110 | full width | 10 in |  | along |
band | satin strip | 1 | full width | 24 in |  | along |",
    );
    // 11 yd give 39 strips and each 4 yd 12 in gives 15; the other 41 come off a new roll. The elastic on the shelf is
    // shorter than the one piece needed.
    check(
        &made.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
tulle | 30 yd 20 in | 19 yd 6 in | 25 yd | 1 roll of 25 yd | $6.50 | from B1 and B2
satin strip | 24 in | 0 yd | 10 yd | 1 roll of 10 yd | $13.50 |
elastic | 15 in | 0 in | 18 in | 1/2 yd | $0.48 | too short on the shelf: E1
hem tape | 12 in | 12 in | 0 in | nothing |  | from H1
hook | 2 | 0 | 2 | 2 |  | no price in your list
ivory thread | ≈ 22 yd 5 in | ≈ 22 yd 5 in | 0 yd | nothing |  | from T1",
    );
    // Of thread a screen shows whole yards, of anything else what is measured off.
    let needed = made.buy_list.values("needed").unwrap();
    let whole: Vec<bool> = needed.map(|cell| matches!(cell, Cell::Quantity(needed) if needed.liked().whole)).collect();
    assert_eq!(whole, [false, false, false, false, false, true]);
    // The same list on a narrow screen, in two: what is bought, and what is taken.
    let bill = made.order.bill().unwrap_or_else(|error| panic!("{}", error.message(&Style::default())));
    check(
        &bill.to_buy().unwrap(),
        "
material | bought as | price | note
tulle | 1 roll of 25 yd | $6.50 |
satin strip | 1 roll of 10 yd | $13.50 |
elastic | 1/2 yd | $0.48 | too short on the shelf: E1
hook | 2 |  | no price in your list",
    );
    check(
        &bill.taken_from_the_shelf().unwrap(),
        "
material | taken | from | note
tulle | 19 yd 6 in | B1 and B2 |
hem tape | 12 in | H1 |
ivory thread | ≈ 22 yd 5 in | T1 |",
    );
    // 110 in * 2.5 * 1.15 = 316 1/4 in, half of it on the needle; 22 in * 14 * 1.15 = 354.2 in, a fifth of it.
    check(
        &made.stitching,
        "
class | why | length | thread | needle thread | under thread | waste
301 | first pass, where it is sewn | 3 yd 2 in | 8 yd 28 1/4 in | 4 yd 14 1/8 in | 4 yd 14 1/8 in | 15 %
301 | second pass | 22 in | 1 yd 27 1/4 in | 31 5/8 in | 31 5/8 in | 15 %
301 | basting to the band | 22 in | 1 yd 27 1/4 in | 31 5/8 in | 31 5/8 in | 15 %
504 | overlocking the same edge | 22 in | ≈ 9 yd 30 1/4 in | ≈ 1 yd 34 7/8 in | ≈ 7 yd 31 3/8 in | 15 %",
    );
    check(
        &made.thread,
        "
class | stitch | length | thread | needle thread | under thread | waste | needles | ratio from
301 | lockstitch | 4 yd 10 in | 12 yd 10 3/4 in | 6 yd 5 3/8 in | 6 yd 5 3/8 in | 15 % | 1 | published table [17]
504 | three-thread overedge | 22 in | ≈ 9 yd 30 1/4 in | ≈ 1 yd 34 7/8 in | ≈ 7 yd 31 3/8 in | 15 % | 1 | published table [15], second-hand",
    );
    // 3 + 110 * 0.15; 10 + 18 1/3 * 2.2; 5 + 3 1/18 * 4; 4; 2 * 1.5.
    check(
        &made.minutes,
        "
operation | amount | set-up | minutes | from
cut strips | 110 | 3 min | 19.5 min | rates.csv
overlap and gather | 660 in | 10 min | ≈ 50.3 min | rates.csv
gather second pass | 110 in | 5 min | ≈ 17.2 min | rates.csv
thread an elastic | 1 | 0 min | 4 min | rates.csv
set a hook | 2 | 0 min | 3 min | the recipe's estimate
pack | 1 |  |  | no rate; type add rate",
    );
    check(
        &made.marks,
        "
piece | mark | distance | from
band | end turning | 1 in | each end",
    );
    check(&made.steps, "step | what to do\n1 | Fold the band to 3 in.");
    check(
        &made.cuts,
        "
from | pieces | piece | along | across | mark to | left
each of 2 lengths of B2 | 15 | tulle strip | 10 in |  | 150 in | 6 in
B1 | 39 | tulle strip | 10 in |  | 390 in | 6 in
new roll 1 (tulle) | 41 | tulle strip | 10 in |  | 410 in | 490 in
new roll 1 (satin strip) | 1 | band | 24 in |  | 24 in | 336 in",
    );
    assert_eq!(
        made.plan_sentences,
        [
            "From each of 2 lengths of B2 (tulle): 15 tulle strips of 10 in, marks 10 in, 20 in and so on to 150 in; 6 in left.",
            "From roll B1 (tulle): 39 tulle strips of 10 in, marks 10 in, 20 in and so on to 390 in; 6 in left.",
            "From new roll 1 (tulle): 41 tulle strips of 10 in, marks 10 in, 20 in and so on to 410 in; 13 yd 22 in left.",
            "From new roll 1 (satin strip): 1 band of 24 in; 9 yd 12 in left.",
        ]
    );
    assert_eq!(made.plan_notes, ["B3, 25 yd of tulle, is reserved for order 9, not used",]);
}

#[test]
fn the_price_is_standard_cost_worked_by_hand() {
    let shop = shop();
    let made = made(&order(&shop), &shop);
    // tulle 1100 in * 1.05 = 32 1/12 yd at $0.26; satin 24 in * 1.05 = 0.7 yd at $1.35, a half cent up;
    // elastic 5/12 yd at $0.95; hem tape 1/3 yd of 3 yd at $2.30; thread 796.95 in of 3000 yd at $4.40.
    // 94 1/18 min at $20/h and at $6/h. 50.74 * 1.5 = 76.11; 76.11 / 0.95 = 80.12; the next ending is 80.50.
    // Bought: 6.50 + 13.50 + 0.48; with an empty shelf 13.00 + 13.50 + 0.48 + 2.30 + 4.40.
    check(
        &made.cost,
        "
line | amount | money | note
tulle | 32 yd 3 in | $8.34 | 30 yd 20 in laid, 5 % waste, at $6.50 for 25 yd
satin strip | ≈ 25 1/4 in | $0.95 | 24 in laid, 5 % waste, at $13.50 for 10 yd
elastic | 15 in | $0.40 | at $0.95 for 1 yd
hem tape | 12 in | $0.26 | at $2.30 for 3 yd
hook | 2 |  | no price in your list
ivory thread | ≈ 22 yd 5 in | $0.03 | 15 % for ends and breaks in it, at $4.40 for 3000 yd
labour | ≈ 1 h 34 min | $31.35 | at $20.00/h; no rate for “pack”
overhead | ≈ 1 h 34 min | $9.41 | at $6.00/h; no rate for “pack”",
    );
    check(
        &made.price_lines,
        "
line | money | note
cost | $50.74 | leaves out: hook, the minutes of “pack”
mark-up | $25.37 | 50 % of the cost
fee | $4.03 | selling fee 5 %
rounded up | $0.36 | to the next $0.50",
    );
    check(
        &made.not_in_price,
        "
line | money | note
bought for this order | $20.48 | what must be bought, without hook: no price in your list
saved by using stock | $13.20 | with an empty shelf $33.68 would be spent",
    );
    check(
        &made.totals,
        "
total | amount | note
minutes | ≈ 1 h 34 min | no rate for “pack”
cost | $50.74 | leaves out: hook (no price in your list), the minutes of “pack” (no rate)
price | $80.50 | leaves out: hook, the minutes of “pack”
goods with an empty shelf | $33.68 | what is not in the price, added up",
    );
    // Each table adds up to its own total, and no line is in two of them.
    assert_eq!(sum_of(&made.cost), money(50.74));
    assert_eq!(sum_of(&made.price_lines), money(80.5));
    assert_eq!(sum_of(&made.not_in_price), money(33.68));
    assert_eq!(made.total_minutes, None);
    assert_eq!(made.price, Some(money(80.5)));
    assert_eq!(made.left_out, ["hook", "the minutes of “pack”"]);
    assert_eq!(
        made.summary(&Style::default()),
        "111 pieces to cut, ≈ 1 h 34 min and what has no rate, $80.50; the price leaves out: hook, the minutes of “pack”"
    );
}

#[test]
fn the_shelf_never_moves_the_price() {
    let full = shop();
    let bare = Workshop { stock: crate::workshop::Stock::default(), ..full.clone() };
    let (from_shelf, all_bought) = (made(&order(&full), &full), made(&order(&bare), &bare));
    assert_eq!(from_shelf.price, all_bought.price);
    assert_eq!(money_of(&all_bought.not_in_price, "bought for this order"), Some(money(33.68)));
    assert_eq!(money_of(&all_bought.not_in_price, "saved by using stock"), None);
}

#[test]
fn set_up_and_once_for_the_order_do_not_come_again_with_each_garment() {
    let shop = shop();
    let mut three = order(&shop);
    three.garments = 3;
    three.pieces[1].once = true;
    three.needs[2].amount = Quantity::number(1.5);
    let made = made(&three, &shop);
    // 330 strips; the band counts once. 1 1/2 hooks are two in each garment.
    assert_eq!(made.pieces, 331);
    assert_eq!(made.minutes.cell(1, "minutes"), Ok(&Quantity::of(3.0 + 330.0 * 0.15, Unit::Minute).into()));
    assert_eq!(made.buy_list.cell(5, "needed"), Ok(&Cell::from(Quantity::number(6.0))));
    // 45 in of elastic are bought as 1 1/2 yd, and 36 in of hem tape fit on the shelf's two lengths.
    assert_eq!(made.buy_list.cell(3, "bought as"), Ok(&"1 1/2 yd".into()));
    let each = made.price_each.unwrap() * 3.0 - made.price.unwrap();
    assert!(each.steps().abs() <= 300.0, "{each:?}");
}

/// Own arithmetic: 120 strips of 10 in take two rolls of 25 yd, 90 to a roll; 33 strips of 54 in take three, 16 to
/// a roll, though their sum is less than two.
#[test]
fn whole_strips_are_placed_on_whole_rolls() {
    let shop = shop();
    let bare = Workshop { stock: crate::workshop::Stock::default(), ..shop };
    let strips = |count: i64, inches: f64| {
        let mut ticket = Ticket::new("strips", "");
        ticket.materials = vec![listed(&bare, "tulle")];
        ticket.pieces = vec![piece("strip", 0, Shape::FullWidth { along: Length::inches(inches) }, count)];
        made(&ticket, &bare)
    };
    let short = strips(120, 10.0);
    assert_eq!(short.buy_list.cell(1, "bought as"), Ok(&"2 rolls of 25 yd".into()));
    assert_eq!(
        short.plan_sentences,
        [
            "From new roll 1 (tulle): 90 strips of 10 in, marks 10 in, 20 in and so on to 900 in.",
            "From new roll 2 (tulle): 30 strips of 10 in, marks 10 in, 20 in and so on to 300 in; 16 yd 24 in left."
        ]
    );
    let long = strips(33, 54.0);
    assert_eq!(long.buy_list.cell(1, "bought as"), Ok(&"3 rolls of 25 yd".into()));
    assert_eq!(
        long.plan_sentences,
        [
            "From each of new rolls 1 to 2 (tulle): 16 strips of 54 in, marks 54 in, 108 in and so on to 864 in; 36 in left.",
            "From new roll 3 (tulle): 1 strip of 54 in; 23 1/2 yd left.",
        ]
    );
}
