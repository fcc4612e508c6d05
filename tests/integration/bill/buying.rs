//! Checks what is bought against every way of placing the pieces on the shelf: enough whole put-ups and selling steps,
//! nothing that a choice of free lengths would have spared, nothing wrongly called short, and what is paid.

use super::exact::{Exact, ratio, whole};
use super::goods::workshop;
use super::known::{Known, any_order, hundredths};
use super::oracle::{By, Priced, at};
use super::order::{Row, Sheet};
use super::written::Amount;
use proptest::prelude::*;
use std::collections::BTreeMap;

/// Eighths of an inch in a yard.
const YARD: i64 = 288;

/// How goods are sold: by a step in eighths of an inch, or by the put-up.
#[derive(Clone, Copy, Debug)]
enum Sold {
    Step(i64),
    PutUp,
}

/// Goods by the length. The put-up is in eighths of an inch, as is the length of each shelf entry: length, count, held
/// for another order.
#[derive(Clone, Debug)]
struct Goods {
    price: Option<Priced>,
    sold: Sold,
    put_up: i64,
    shelf: Vec<(i64, i64, bool)>,
}

#[derive(Clone, Debug)]
struct Shop {
    cloth: Goods,
    roll: Goods,
    tape: Goods,
    thread: Goods,
    hook: Option<Priced>,
    hooks: Vec<(i64, bool)>,
}

fn any_goods(
    by: &'static [By],
    sold: &'static [Sold],
    put_ups: std::ops::RangeInclusive<i64>,
) -> impl Strategy<Value = Goods> {
    let price = (1..=3_000_i64, proptest::sample::select(by)).prop_map(|(cents, by)| Priced { cents, by });
    let price = proptest::option::weighted(0.85, price);
    // Many lengths are near those asked for, some are far longer.
    let long = prop_oneof![3 => 1..=1_500_i64, 1 => 1_500..=200_000_i64];
    let shelf = proptest::collection::vec((long, 1..=2_i64, proptest::bool::weighted(0.2)), 0..=3);
    (price, proptest::sample::select(sold), put_ups, shelf).prop_map(|(price, sold, put_up, shelf)| Goods {
        price,
        sold,
        put_up: put_up * YARD,
        shelf,
    })
}

fn any_shop() -> impl Strategy<Value = Shop> {
    const STEPS: &[Sold] = &[Sold::Step(YARD / 8), Sold::Step(YARD / 4), Sold::Step(YARD), Sold::PutUp];
    let each = (1..=300_i64).prop_map(|cents| Priced { cents, by: By::Each });
    (
        any_goods(&[By::Yard, By::Metre, By::PutUp], STEPS, 3..=12),
        any_goods(&[By::PutUp, By::Yard], &[Sold::PutUp], 3..=9),
        any_goods(&[By::Yard, By::PutUp], STEPS, 3..=5),
        any_goods(&[By::PutUp], &[Sold::PutUp], 20..=400),
        proptest::option::weighted(0.85, each),
        proptest::collection::vec((1..=40_i64, proptest::bool::weighted(0.2)), 0..=3),
    )
        .prop_map(|(cloth, roll, tape, thread, hook, hooks)| Shop { cloth, roll, tape, thread, hook, hooks })
}

fn eighths(eighths: i64) -> String {
    format!("{}.{:03} in", eighths / 8, eighths % 8 * 125)
}

impl Goods {
    fn row(&self, start: &str) -> String {
        let by = self.price.map_or(By::Yard, |priced| priced.by).word();
        let price = self.price.map(|priced| format!("${}", hundredths(priced.cents))).unwrap_or_default();
        let sold = match self.sold {
            Sold::Step(step) => eighths(step),
            Sold::PutUp => "put-up".to_owned(),
        };
        format!("{start},{},{price},{by},{sold}\n", eighths(self.put_up))
    }

    fn stock(&self, name: &str) -> String {
        let rows = self.shelf.iter().enumerate().map(|(nth, (along, count, held))| {
            format!("{name} {nth},{name},{count},{},{}\n", eighths(*along), if *held { "order 9" } else { "" })
        });
        rows.collect()
    }

    fn free(&self) -> Vec<i64> {
        let free = self.shelf.iter().filter(|(.., held)| !held);
        free.flat_map(|(along, count, _)| (0..*count).map(|_| *along)).collect()
    }
}

impl Shop {
    fn files(&self) -> [(&'static str, String); 2] {
        let hook = self.hook.map(|priced| format!("${}", hundredths(priced.cents))).unwrap_or_default();
        let materials = [
            "material,kind,usable width,put-up,price,price for,sold by\n".to_owned(),
            self.cloth.row("cloth,cloth,45 in"),
            self.roll.row("roll,roll,6 in"),
            self.tape.row("tape,notion,1 in"),
            format!("hook,notion,,,{hook},each,each\n"),
            self.thread.row("white thread,thread,"),
        ];
        let hooks =
            self.hooks.iter().enumerate().map(|(nth, (count, held))| {
                format!("hook {nth},hook,{count},,{}\n", if *held { "order 9" } else { "" })
            });
        let stock = [
            "stock,material,count,along,held for\n".to_owned(),
            self.cloth.stock("cloth"),
            self.roll.stock("roll"),
            self.tape.stock("tape"),
            self.thread.stock("white thread"),
            hooks.collect(),
        ];
        [("materials.csv", materials.concat()), ("stock.csv", stock.concat())]
    }
}

/// The least that must be bought, found by trying every place for every piece: a length, or a number of put-ups.
fn least_new(pieces: &[i64], shelf: &[i64], put_up: Option<i64>) -> i64 {
    fn go(
        pieces: &[i64],
        room: &mut Vec<i64>,
        opened: &mut Vec<i64>,
        put_up: Option<i64>,
        so_far: i64,
        best: &mut i64,
    ) {
        let Some((piece, rest)) = pieces.split_first() else {
            *best = so_far.min(*best);
            return;
        };
        if so_far >= *best {
            return;
        }
        let mut tried = Vec::new();
        for place in 0..room.len() {
            if room[place] >= *piece && !tried.contains(&room[place]) {
                tried.push(room[place]);
                room[place] -= piece;
                go(rest, room, opened, put_up, so_far, best);
                room[place] += piece;
            }
        }
        match put_up {
            None => go(rest, room, opened, put_up, so_far + piece, best),
            Some(put_up) => {
                let mut tried = Vec::new();
                for place in 0..opened.len() {
                    if opened[place] >= *piece && !tried.contains(&opened[place]) {
                        tried.push(opened[place]);
                        opened[place] -= piece;
                        go(rest, room, opened, Some(put_up), so_far, best);
                        opened[place] += piece;
                    }
                }
                opened.push(put_up - piece);
                go(rest, room, opened, Some(put_up), so_far + 1, best);
                opened.pop();
            }
        }
    }
    let mut pieces = pieces.to_vec();
    pieces.sort_unstable_by_key(|piece| -piece);
    let mut best = i64::MAX;
    go(&pieces, &mut shelf.to_vec(), &mut Vec::new(), put_up, 0, &mut best);
    best
}

/// What is needed of one material, what is bought, and what is paid in cents.
#[derive(Debug, PartialEq)]
struct Purchase {
    needed: Exact,
    /// What the shop hands over, in eighths of an inch or as a count.
    bought: Exact,
    paid: Option<i64>,
    unpriced: bool,
}

fn purchase(needed: Exact, bought: Exact, price: Option<Priced>, put_up: i64) -> Purchase {
    let nothing = bought == whole(0);
    let paid = price.filter(|_| !nothing).map(|price| at(bought, price, put_up).nearest());
    Purchase { needed, bought, paid, unpriced: price.is_none() && !nothing }
}

/// The purchase for whole pieces of goods by the length.
fn placed(goods: &Goods, pieces: &[i64], shelf: &[i64]) -> Purchase {
    let needed = whole(pieces.iter().sum());
    let bought = match goods.sold {
        Sold::Step(step) => whole(whole(least_new(pieces, shelf, None)).over(step).up() * step),
        Sold::PutUp => whole(least_new(pieces, shelf, Some(goods.put_up)) * goods.put_up),
    };
    purchase(needed, bought, goods.price, goods.put_up / YARD)
}

/// The right purchase of every material, with the shelf or without.
fn purchases(order: &Known, shop: &Shop, with_shelf: bool) -> BTreeMap<&'static str, Purchase> {
    let free = |goods: &Goods| if with_shelf { goods.free() } else { Vec::new() };
    let many = |length: i64, count: i64| vec![length; usize::try_from(count).unwrap()];
    let garments = order.garments;
    let sewn = whole(order.lock * order.times()) * ratio(25, 10)
        + whole(order.over * garments) * ratio(14, 1)
        + whole(order.zig * garments) * ratio(7, 1);
    let wound = sewn * ratio(115, 100);
    let on_cones = whole(free(&shop.thread).iter().sum());
    let missing = if on_cones.is_less_than(wound) { wound - on_cones } else { whole(0) };
    let cones = missing.over(shop.thread.put_up).up();
    let hooks = order.hooks * garments;
    let in_the_drawer: i64 = shop.hooks.iter().filter(|(_, held)| with_shelf && !held).map(|(count, _)| count).sum();
    BTreeMap::from([
        ("cloth", placed(&shop.cloth, &many(order.panel, order.panels * garments), &free(&shop.cloth))),
        ("roll", placed(&shop.roll, &many(order.strip, order.strips * garments), &free(&shop.roll))),
        ("tape", placed(&shop.tape, &many(order.tape, order.tapes * order.times()), &free(&shop.tape))),
        ("hook", purchase(whole(hooks), whole((hooks - in_the_drawer).max(0)), shop.hook, 1)),
        (
            "white thread",
            purchase(wound, whole(cones * shop.thread.put_up), shop.thread.price, shop.thread.put_up / YARD),
        ),
    ])
}

fn same(found: Option<Amount>, wanted: Exact, unit: &str) -> bool {
    let wanted = Amount::read(&format!("{} {unit}", wanted.as_text()));
    found.zip(wanted).is_some_and(|(found, wanted)| found.agrees_with(wanted))
}

/// Checks one row of `buy_list.csv` against the right purchase; `goods` comes with the length of a piece, 0 for thread.
fn check_row(row: &Row, wanted: &Purchase, goods: Option<(&Goods, i64)>) -> Result<(), TestCaseError> {
    let name = row.text("material");
    let (unit, scale) = if goods.is_some() { ("in", ratio(1, 8)) } else { ("", whole(1)) };
    let needed = row.amount_beside("needed", "needed unit");
    prop_assert!(same(needed, wanted.needed * scale, unit), "{name}: needed {needed:?}, not {wanted:?}");
    let bought = row.amount_beside("to buy", "buy unit");
    prop_assert!(same(bought, wanted.bought * scale, unit), "{name}: bought {bought:?}, not {wanted:?}");
    prop_assert_eq!(row.text("bought as") == "nothing", wanted.bought == whole(0), "{}", name);
    let paid = wanted.paid.map(hundredths).unwrap_or_default();
    prop_assert_eq!(row.text("price ($)"), paid, "{}", name);
    let note = row.text("note");
    prop_assert_eq!(note.contains("no price"), wanted.unpriced, "{}: {}", name, note);
    // Only free lengths are taken, and only a length that holds no piece is too short.
    let Some((goods, piece)) = goods else { return Ok(()) };
    let (taken, short) = note.split_once("too short on the shelf:").unwrap_or((note, ""));
    for (nth, (along, _, held)) in goods.shelf.iter().enumerate() {
        let named = |words: &str| words.contains(&format!("{name} {nth}"));
        prop_assert!(!(*held && named(note)), "{name} {nth} is held, and named: {note}");
        prop_assert!(!named(short) || *along < piece, "{name} {nth} is not too short: {note}");
        prop_assert!(!named(taken) || *along >= piece || piece == 0, "{name} {nth} holds nothing: {note}");
    }
    Ok(())
}

fn beside(not_in_price: &Sheet, line: &str) -> Option<i64> {
    let row = not_in_price.rows.iter().find(|row| row.text("line") == line)?;
    Some(row.text("money ($)").replace('.', "").parse().unwrap_or(0))
}

/// Checks the order's purchases against the right ones.
fn check(order: &Known, shop: &Shop) -> Result<(), TestCaseError> {
    let files = shop.files();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let workshop = workshop(&files);
    let ran = order.run(workshop.path());
    prop_assert!(ran.is_ok(), "{}", ran.unwrap_err());
    let ran = ran.unwrap();
    let wanted = purchases(order, shop, true);
    prop_assert_eq!(ran["buy_list"].rows.len(), wanted.len());
    for row in &ran["buy_list"].rows {
        let goods = match row.text("material") {
            "cloth" => Some((&shop.cloth, order.panel)),
            "roll" => Some((&shop.roll, order.strip)),
            "tape" => Some((&shop.tape, order.tape)),
            // Thread is wound off, so no length is too short.
            "white thread" => Some((&shop.thread, 0)),
            _ => None,
        };
        check_row(row, &wanted[row.text("material")], goods)?;
    }

    // What is paid, and how much more with an empty shelf, if the same materials lack a price.
    let empty = purchases(order, shop, false);
    let paid = |all: &BTreeMap<&str, Purchase>| all.values().filter_map(|one| one.paid).sum::<i64>();
    let unpriced = |all: &BTreeMap<&'static str, Purchase>| -> Vec<&'static str> {
        all.iter().filter(|(_, one)| one.unpriced).map(|(name, _)| *name).collect()
    };
    let spent = paid(&wanted);
    let is_listed = spent > 0 || !unpriced(&wanted).is_empty();
    prop_assert_eq!(beside(&ran["not_in_price"], "bought for this order"), is_listed.then_some(spent));
    let spared = paid(&empty) - spent;
    let is_listed = spared > 0 && unpriced(&wanted) == unpriced(&empty);
    prop_assert_eq!(beside(&ran["not_in_price"], "saved by using stock"), is_listed.then_some(spared));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::common::cases(300)))]

    #[test]
    fn nothing_is_bought_that_free_lengths_would_spare(order in any_order(true), shop in any_shop()) {
        check(&order, &shop)?;
    }
}

/// Three tapes of 2 yd take three cards of 3 yd, though 6 yd are two cards; with a rest of 2 1/8 yd on the shelf they
/// take two.
#[test]
fn a_card_is_bought_for_each_that_is_opened() {
    let order = Known {
        panel: 80,
        panels: 1,
        strip: 80,
        strips: 1,
        tape: 2 * YARD,
        tapes: 1,
        hooks: 1,
        lock: 80,
        over: 80,
        zig: 8,
        things: 1,
        way: 80,
        guess: 100,
        once: false,
        odd: false,
        garments: 3,
    };
    let goods = |put_up: i64| Goods {
        price: Some(Priced { cents: 240, by: By::PutUp }),
        sold: Sold::PutUp,
        put_up: put_up * YARD,
        shelf: Vec::new(),
    };
    let mut shop =
        Shop { cloth: goods(10), roll: goods(10), tape: goods(3), thread: goods(100), hook: None, hooks: Vec::new() };
    let tape = |shop: &Shop| purchases(&order, shop, true).remove("tape").unwrap();
    assert_eq!((tape(&shop).bought, tape(&shop).paid), (whole(9 * YARD), Some(720)));
    check(&order, &shop).unwrap();
    shop.tape.shelf = vec![(2 * YARD + YARD / 8, 1, false)];
    assert_eq!((tape(&shop).bought, tape(&shop).paid), (whole(6 * YARD), Some(480)));
    check(&order, &shop).unwrap();
}

/// By hand: pieces of 5, 4 and 3 on shelf lengths of 7 and 6 need none new; on 6 and 4 they need a new 3.
#[test]
fn trying_everything_finds_the_least() {
    assert_eq!(least_new(&[3, 4, 5], &[7, 6], None), 0);
    assert_eq!(least_new(&[3, 4, 5], &[6, 4], None), 3);
    assert_eq!(least_new(&[6, 6, 6], &[], Some(9)), 3);
    assert_eq!(least_new(&[6, 6, 3, 3], &[], Some(9)), 2);
    assert_eq!(least_new(&[6, 6, 3, 3], &[6, 3], Some(9)), 1);
}
