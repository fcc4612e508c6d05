//! Works out the bill again from the ticket, the rates and the prices, in whole cents and by its own arithmetic: random
//! orders in random workshops, every line and total of the cost.

use super::exact::{Exact, ratio, whole};
use super::goods::workshop;
use super::known::{Known, any_order, hundredths};
use super::order::{Sheet, bill_lines};
use super::written::Amount;
use proptest::prelude::*;
use shirr::quantity::number;
use std::collections::BTreeMap;

/// A price in cents, and what it is for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Priced {
    pub(super) cents: i64,
    pub(super) by: By,
}

/// What a price is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum By {
    Yard,
    Metre,
    PutUp,
    Each,
}

impl By {
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Yard => "yd",
            Self::Metre => "m",
            Self::PutUp => "put-up",
            Self::Each => "each",
        }
    }
}

/// A cone of thread, and its price in cents.
#[derive(Clone, Copy, Debug)]
struct Cone {
    cents: Option<i64>,
}

/// A workshop's rates and prices. Shares are in thousandths, times in hundredths of a minute, money in cents, put-ups
/// in yards.
#[derive(Clone, Debug)]
struct Shop {
    wage: Option<i64>,
    overhead: Option<(bool, i64)>,
    mark_up: Option<i64>,
    fee: Option<i64>,
    waste: Option<i64>,
    minimum: Option<i64>,
    ending: Option<i64>,
    /// Time and set-up for counting, for going along by the yard, and by the metre.
    times: [(i64, i64); 3],
    cloth: Option<Priced>,
    roll: Option<Priced>,
    tape: Option<Priced>,
    hook: Option<Priced>,
    /// `None` if the workshop lists no thread.
    thread: Option<Cone>,
    put_ups: [i64; 4],
}

fn priced(by: &'static [By]) -> impl Strategy<Value = Option<Priced>> {
    proptest::option::weighted(
        0.9,
        (1..=4_000_i64, proptest::sample::select(by)).prop_map(|(cents, by)| Priced { cents, by }),
    )
}

fn any_shop() -> impl Strategy<Value = Shop> {
    let often = 0.85;
    let rates = (
        proptest::option::weighted(0.95, 300..=9_000_i64),
        proptest::option::weighted(often, (any::<bool>(), 1..=900_i64)),
        proptest::option::weighted(often, 0..=3_000_i64),
        proptest::option::weighted(often, 0..=400_i64),
        proptest::option::weighted(often, 0..=400_i64),
        proptest::option::weighted(often, 1..=90_000_i64),
        proptest::option::weighted(often, 0..=99_i64),
    );
    let times = proptest::array::uniform3((1..=2_000_i64, 0..=3_000_i64));
    let goods = (
        priced(&[By::Yard, By::Metre, By::PutUp]),
        priced(&[By::PutUp, By::Yard]),
        priced(&[By::Yard, By::Metre, By::PutUp]),
        priced(&[By::Each]),
        proptest::option::weighted(
            0.9,
            proptest::option::weighted(0.9, 1..=2_000_i64).prop_map(|cents| Cone { cents }),
        ),
        // No piece is longer than 90 in, so every put-up holds at least one.
        proptest::array::uniform4(3..=60_i64),
    );
    (rates, times, goods).prop_map(|(rates, times, goods)| {
        let (wage, overhead, mark_up, fee, waste, minimum, ending) = rates;
        let (cloth, roll, tape, hook, thread, put_ups) = goods;
        Shop { wage, overhead, mark_up, fee, waste, minimum, ending, times, cloth, roll, tape, hook, thread, put_ups }
    })
}

impl Shop {
    fn files(&self) -> [(&'static str, String); 3] {
        let [count, along, metres] =
            self.times.map(|(each, set_up)| format!("{} min,{} min", hundredths(each), hundredths(set_up)));
        let mut rates = format!(
            "operation,per,minutes,set-up,value\ncount a thing,each,{count},\ngo along,yd,{along},\ngo along in metres,m,{metres},\n"
        );
        let mut rate = |name: &str, value: Option<String>| {
            if let Some(value) = value {
                rates += &format!("{name},,,,{value}\n");
            }
        };
        let share = |thousandths: i64| format!("{}.{} %", thousandths / 10, thousandths % 10);
        rate("wage", self.wage.map(|cents| format!("${}/h", hundredths(cents))));
        rate(
            "overhead",
            self.overhead.map(
                |(by_time, figure)| {
                    if by_time { format!("${}/h", hundredths(figure)) } else { share(figure) }
                },
            ),
        );
        rate("mark-up", self.mark_up.map(share));
        rate("fee", self.fee.map(share));
        rate("waste", self.waste.map(share));
        rate("minimum", self.minimum.map(|cents| format!("${}", hundredths(cents))));
        let ending = self.ending.map(|cents| format!("price ending,${}\n", hundredths(cents))).unwrap_or_default();
        let price = |priced: Option<Priced>, usual: By| {
            let by = priced.map_or(usual, |priced| priced.by).word();
            let price = priced.map(|priced| format!("${}", hundredths(priced.cents))).unwrap_or_default();
            format!("{price},{by}")
        };
        let [cloth, roll, tape, thread] = self.put_ups;
        let mut materials = format!(
            "material,kind,usable width,put-up,price,price for,sold by\n\
             cloth,cloth,45 in,{cloth} yd,{},1/8 yd\nroll,roll,6 in,{roll} yd,{},put-up\n\
             tape,notion,1 in,{tape} yd,{},1/2 yd\nhook,notion,,,{},each\n",
            price(self.cloth, By::Yard),
            price(self.roll, By::PutUp),
            price(self.tape, By::Yard),
            price(self.hook, By::Each),
        );
        if let Some(Cone { cents }) = self.thread {
            let cents = cents.map(|cents| format!("${}", hundredths(cents))).unwrap_or_default();
            materials += &format!("white thread,thread,,{thread} yd,{cents},put-up,put-up\n");
        }
        [
            ("rates.csv", rates),
            ("settings.csv", format!("setting,value\ntape,inch\n{ending}")),
            ("materials.csv", materials),
        ]
    }
}

/// Cents for an amount in eighths of an inch, or for a count; `put_up` is in yards.
pub(super) fn at(eighths: Exact, priced: Priced, put_up: i64) -> Exact {
    let one = match priced.by {
        By::Yard => Exact::YARD,
        By::Metre => Exact::METRE,
        By::PutUp => whole(put_up) * Exact::YARD,
        By::Each => whole(1),
    };
    eighths / one * whole(priced.cents)
}

type Lines = Vec<(String, Option<i64>)>;

/// The cost in cents, line by line, from the first material to the price of one garment.
fn bill(order: &Known, shop: &Shop) -> Lines {
    let garments = whole(order.garments);
    let mut lines: Lines = Vec::new();
    let waste = whole(1) + ratio(i128::from(shop.waste.unwrap_or(0)), 1000);
    let laid = |length: i64, count: i64| whole(length) * whole(count) * garments * waste;
    let [cloth, roll, tape, thread] = shop.put_ups;
    let cents =
        |amount: Exact, priced: Option<Priced>, put_up: i64| priced.map(|priced| at(amount, priced, put_up).nearest());
    lines.push(("cloth".to_owned(), cents(laid(order.panel, order.panels), shop.cloth, cloth)));
    lines.push(("roll".to_owned(), cents(laid(order.strip, order.strips), shop.roll, roll)));
    lines.push(("tape".to_owned(), cents(whole(order.tape) * whole(order.tapes * order.times()), shop.tape, tape)));
    lines.push(("hook".to_owned(), cents(whole(order.hooks) * garments, shop.hook, 1)));
    // Thread by stitch class, in tenths of the seam, plus 15 % for ends and breaks.
    let sewn = whole(order.lock * order.times()) * ratio(25, 10)
        + whole(order.over) * garments * ratio(140, 10)
        + whole(order.zig) * garments * ratio(70, 10);
    let wound = sewn * ratio(115, 100);
    match shop.thread {
        Some(Cone { cents: price }) => {
            let price = price.map(|cents| Priced { cents, by: By::PutUp });
            lines.push(("white thread".to_owned(), cents(wound, price, thread)));
        }
        None => lines.push(("thread".to_owned(), None)),
    }
    let minutes = minutes(order, shop);
    let by_the_hour = |cents: i64| (minutes * ratio(i128::from(cents), 60)).nearest();
    lines.push(("labour".to_owned(), shop.wage.map(by_the_hour)));
    let so_far = sum(&lines);
    match shop.overhead {
        Some((true, cents)) => lines.push(("overhead".to_owned(), Some(by_the_hour(cents)))),
        Some((false, share)) => {
            if let Some(so_far) = so_far {
                lines.push(("overhead".to_owned(), Some((whole(so_far) * ratio(i128::from(share), 1000)).nearest())));
            }
        }
        None => {}
    }
    if let Some(cost) = sum(&lines) {
        lines.push(("cost".to_owned(), Some(cost)));
        price(cost, order, shop, &mut lines);
    }
    lines
}

fn sum(lines: &Lines) -> Option<i64> {
    lines.iter().filter_map(|(_, cents)| *cents).reduce(|sum, cents| sum + cents)
}

/// All minutes: each operation's set-up once, estimates without a set-up.
fn minutes(order: &Known, shop: &Shop) -> Exact {
    let [(count, count_set_up), (along, along_set_up), (metres, metres_set_up)] = shop.times;
    let garments = whole(order.garments);
    let times = whole(order.times());
    let hundredths = whole(count * order.things) * garments
        + whole(count_set_up + along_set_up + metres_set_up)
        + whole(along) * (whole(order.way + order.lock) * garments / Exact::YARD)
        + whole(metres) * (whole(order.over) * times / Exact::METRE)
        + whole(order.guess * order.things) * times
        + whole(order.guess) * times;
    hundredths / whole(100)
}

/// Appends the lines from the cost to the price.
fn price(cost: i64, order: &Known, shop: &Shop, lines: &mut Lines) {
    let mark_up = shop.mark_up.map(|share| (whole(cost) * ratio(i128::from(share), 1000)).nearest());
    if let Some(mark_up) = mark_up {
        lines.push(("mark-up".to_owned(), Some(mark_up)));
    }
    let net = cost + mark_up.unwrap_or(0);
    let fee = ratio(i128::from(shop.fee.unwrap_or(0)), 1000);
    // The gross price less its fee is the net price.
    let gross = (whole(net) / (whole(1) - fee)).nearest();
    let lowest = shop.minimum.map_or(gross, |minimum| gross.max(minimum));
    let asked = match shop.ending {
        Some(ending) => (whole(lowest) - whole(ending)).over(100).up().max(0) * 100 + ending,
        None => lowest,
    };
    // The fee is a share of the final price.
    let taken = if asked > gross { (whole(asked) * fee).nearest() } else { gross - net };
    if shop.fee.is_some() {
        lines.push(("fee".to_owned(), Some(taken)));
    }
    let rest = asked - net - taken;
    if lowest > gross {
        // The fee on what the lowest price adds is already in the fee.
        let added = if asked > lowest { (whole(lowest - gross) * (whole(1) - fee)).nearest() } else { rest };
        lines.push(("up to the lowest price".to_owned(), Some(added)));
        if asked > lowest {
            lines.push(("rounded up".to_owned(), Some(rest - added)));
        }
    } else if asked > lowest {
        lines.push(("rounded up".to_owned(), Some(rest)));
    }
    lines.push(("price".to_owned(), Some(asked)));
    if order.garments > 1 {
        lines.push((
            "price for one garment".to_owned(),
            Some(ratio(i128::from(asked), i128::from(order.garments)).nearest()),
        ));
    }
}

/// The lines of the bill in cents. Every figure in a column of money has its two decimals.
fn printed(files: &BTreeMap<String, Sheet>) -> Lines {
    for table in ["cost", "price_lines", "not_in_price"] {
        for row in &files[table].rows {
            let money = row.text("money ($)");
            assert!(money.is_empty() || money.split_once('.').is_some_and(|(_, cents)| cents.len() == 2), "{money}");
        }
    }
    let cents = |money: Amount| number::nearest_whole(money.value * 100.0).unwrap();
    bill_lines(files).into_iter().map(|(line, money)| (line, money.map(cents))).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::common::cases(300)))]

    #[test]
    fn every_line_of_a_random_bill_is_the_oracles(order in any_order(false), shop in any_shop()) {
        let files = shop.files();
        let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let workshop = workshop(&files);
        let ran = order.run(workshop.path());
        prop_assert!(ran.is_ok(), "{}", ran.unwrap_err());
        prop_assert_eq!(printed(&ran.unwrap()), bill(&order, &shop));
    }
}

/// Checks the oracle against an order worked out with a pencil. Two garments of two panels of 18 in, three strips of 5
/// in, two tapes of 2 in and two hooks; a yard of lockstitch, half a yard of overedge and an inch of zigzag; three things
/// and a yard.
#[test]
fn the_oracle_agrees_with_a_pencil() {
    let order = Known {
        panel: 144,
        panels: 2,
        strip: 40,
        strips: 3,
        tape: 16,
        tapes: 2,
        hooks: 2,
        lock: 288,
        over: 144,
        zig: 8,
        things: 3,
        way: 288,
        guess: 200,
        once: false,
        odd: false,
        garments: 2,
    };
    let by = |cents, by| Some(Priced { cents, by });
    let shop = Shop {
        wage: Some(2400),
        overhead: Some((true, 600)),
        mark_up: Some(500),
        fee: Some(40),
        waste: Some(100),
        minimum: None,
        ending: Some(50),
        times: [(100, 200), (300, 400), (500, 600)],
        cloth: by(600, By::Yard),
        roll: by(900, By::PutUp),
        tape: by(90, By::Yard),
        hook: by(10, By::Each),
        thread: Some(Cone { cents: Some(500) }),
        put_ups: [20, 25, 50, 50],
    };
    // 72 in and a tenth at $6/yd: 2.2 yd, $13.20. 30 in and a tenth of a 25 yd roll at $9: 33/900 of it, $0.33. 8 in at
    // $0.90/yd, $0.20. Four hooks, $0.40. Thread: 72 in × 2.5, 36 × 14, 2 × 7 are 180 + 504 + 14 = 698 in, with 15 %
    // 802.7 in of 1,800 at $5: 2.2297, $2.23. Work: 6 things 6 min and 2; 4 yd along 12 min and 4; a yard in metres
    // 0.9144 × 5 = 4.572 min and 6; estimates 6 × 2 and 2 × 2: 50.572 min, at $0.40 $20.2288, at $0.10 $5.0572.
    let cost = 1320 + 33 + 20 + 40 + 223 + 2023 + 506;
    assert_eq!(cost, 4165);
    // Half of it on top: 20.825, $20.83; net $62.48; by 0.96 $65.0833; up to $65.50, 4 % of that $2.62; 40 cents more.
    let wanted = [
        ("cloth", 1320),
        ("roll", 33),
        ("tape", 20),
        ("hook", 40),
        ("white thread", 223),
        ("labour", 2023),
        ("overhead", 506),
        ("cost", cost),
        ("mark-up", 2083),
        ("fee", 262),
        ("rounded up", 40),
        ("price", 6550),
        ("price for one garment", 3275),
    ];
    assert_eq!(bill(&order, &shop), wanted.map(|(line, cents)| (line.to_owned(), Some(cents))));
}
