//! What is bought, what it costs and what is said of it, at the edges; every figure from a pencil.

use super::*;
use crate::piece::Matching;
use crate::quantity::Unit;
use crate::ticket::cost::PricePart;
use crate::workshop::{Overhead, Rates};

const MATERIALS: &str = "\
material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,nap,shrink along,shrink across,washing
lawn,cloth,45 in,20 yd,$6.00,yd,yd,,no,no,,,
print,cloth,137 cm,6 m,$60.00,put-up,put-up,64 cm,no,no,,,
tape,notion,1/2 in,3 yd,$2.30,put-up,put-up,,no,no,,,
button,notion,,,$0.18,each,each,,no,no,5 %,,washed first
";

fn shop(stock: &str) -> Workshop {
    let stock = format!("stock,material,count,along,washed\n{stock}");
    workshop(&[("materials.csv", MATERIALS), ("stock.csv", &stock)])
}

fn inches(value: f64) -> Quantity {
    Length::inches(value).into()
}

/// An order of needs of one notion: how much and how many.
fn needs_of(shop: &Workshop, notion: &str, needs: &[(Quantity, i64)]) -> Ticket {
    let mut ticket = Ticket::new("needs", "");
    ticket.materials = vec![listed(shop, notion)];
    ticket.needs = needs.iter().map(|(amount, count)| Need { count: *count, ..need(0, *amount, "an edge") }).collect();
    ticket
}

/// The row of the buy list of an order of one notion.
fn bought(stock: &str, notion: &str, needs: &[(Quantity, i64)]) -> String {
    let shop = shop(stock);
    let made = made(&needs_of(&shop, notion, needs), &shop);
    drawn(&made.buy_list).lines().nth(1).unwrap_or_default().to_owned()
}

/// A yard of lawn at $6.00, all its width.
fn yard_of_lawn(shop: &Workshop) -> Ticket {
    let mut ticket = Ticket::new("square", "A square.");
    ticket.materials = vec![listed(shop, "lawn")];
    let shape = Shape::Rectangle { along: Length::yards(1.0), across: Length::inches(45.0) };
    ticket.pieces = vec![piece("square", 0, shape, 1)];
    ticket
}

/// 6 in: H1 is an inch too short for them. Of H0 nothing is left, which is nothing that could be too short.
#[test]
fn what_is_used_up_is_not_called_too_short() {
    assert_eq!(
        bought("H0,tape,0,4 in,\nH1,tape,1,5 in,\n", "tape", &[(inches(6.0), 1)]),
        "tape | 6 in | 0 in | 108 in | 1 of 3 yd | $2.30 | too short on the shelf: H1"
    );
}

/// No edge of 200 in and one of 10: nothing is longer than a card.
#[test]
fn a_long_length_that_is_not_there_is_not_joined() {
    let row = bought("", "tape", &[(inches(200.0), 0), (inches(10.0), 1)]);
    assert_eq!(row, "tape | 10 in | 0 in | 108 in | 1 of 3 yd | $2.30 |");
}

/// Two of 150 in off cards of 108: 108 + 42, 66 + 84, three cards at $2.30.
#[test]
fn the_joins_of_several_are_said_in_all() {
    let row = bought("", "tape", &[(inches(150.0), 2)]);
    let note = "150 in is longer than any single length: 2 joins in the 2, from new; add what the joins take";
    assert_eq!(row, format!("tape | 300 in | 0 in | 324 in | 3 of 3 yd | $6.90 | {note}"));
}

/// 60 and 10 in: a card would hold both, but the 10 in come off the rest of 20 in, which is paid for.
#[test]
fn the_shelf_comes_first_even_where_a_card_is_opened_anyway() {
    let row = bought("H1,tape,1,20 in,\n", "tape", &[(inches(60.0), 1), (inches(10.0), 1)]);
    assert_eq!(row, "tape | 70 in | 10 in | 108 in | 1 of 3 yd | $2.30 | from H1");
}

/// Buttons lose nothing in a wash, whatever the list says of their length: 5 of 12 are there, 7 at $0.18 are bought. What
/// lies there by the length serves a need by the length, and what is counted one of so many.
#[test]
fn what_is_counted_and_what_is_measured_are_not_mixed() {
    let twelve = Quantity::number(12.0);
    assert_eq!(bought("K1,button,5,,yes\n", "button", &[(twelve, 1)]), "button | 12 | 5 | 7 | 7 | $1.26 | from K1");
    let stock = "K1,button,5,,\nK2,button,1,9 in,\n";
    assert_eq!(bought(stock, "button", &[(twelve, 1)]), "button | 12 | 5 | 7 | 7 | $1.26 | from K1");
    assert!(bought(stock, "button", &[(inches(6.0), 1)]).ends_with(" | nothing |  | from K2"));
}

/// Only where something is needed is there a word of the shelf that has it all.
#[test]
fn where_nothing_is_needed_nothing_is_said_of_the_shelf() {
    let made = made(&Ticket::new("nothing", ""), &shop(""));
    let bill = made.order.bill().unwrap_or_else(|error| panic!("{}", error.message(&Style::default())));
    assert!(bill.to_buy().unwrap().is_empty());
}

/// On bolts of 6 m two drops of 200 cm of a print, at 0 and 256 cm and a repeat before them, leave no room for 3 m: two
/// bolts, $120.00. The repeat is bought and not laid, though it is on one bolt alone.
#[test]
fn a_repeat_on_one_of_two_bolts_is_bought() {
    let shop = shop("");
    let mut ticket = Ticket::new("drops", "Drops.");
    ticket.materials = vec![listed(&shop, "print")];
    let mut drop = piece("drop", 0, Shape::FullWidth { along: Length::centimetres(200.0) }, 2);
    drop.piece.matching = Some(Matching::RunOn);
    ticket.pieces = vec![drop, piece("lining", 0, Shape::FullWidth { along: Length::centimetres(300.0) }, 1)];
    let made = made(&ticket, &shop);
    let row = drawn(&made.buy_list).lines().nth(1).unwrap().to_owned();
    assert!(row.contains(" | 2 bolts of 6 m | $120.00 |"), "{row}");
    let cost = drawn(&made.cost);
    assert!(cost.contains(" m bought, no waste is set, at $60.00 for 6 m"), "{cost}");
}

/// $6.00 of lawn, overhead 0.60, mark-up 6.60, a fee of a quarter of $18.95, 4.74, and rounded up by 0.30 to the lowest
/// price and by 0.71 to the ending: the largest part first.
#[test]
fn the_parts_of_a_price_are_summed_and_sorted() {
    let rates = Rates {
        overhead: Some(Overhead::Share(0.1)),
        mark_up: Some(1.0),
        fee: Some(0.25),
        minimum: Some(money(18.0)),
        ..Rates::default()
    };
    let mut shop = Workshop { rates, ..shop("") };
    shop.settings.price_ending = Some(money(0.95));
    let made = made(&yard_of_lawn(&shop), &shop);
    let parts = made.order.order_price().unwrap_or_else(|error| panic!("{}", error.message(&Style::default()))).parts();
    let wanted = [
        (PricePart::MarkUp, money(6.6)),
        (PricePart::Cloth, money(6.0)),
        (PricePart::Fee, money(4.74)),
        (PricePart::RoundingUp, money(1.01)),
        (PricePart::Overhead, money(0.6)),
    ];
    assert_eq!(parts, wanted);
}

/// 7 % of $25.05 are 1.7535: whatever the cost, the lines add up to the lowest price to the cent.
#[test]
fn a_lowest_price_whose_fee_is_no_whole_cents_is_met() {
    for cents in (101..1900).step_by(37) {
        let mut shop = shop("");
        shop.rates = Rates { fee: Some(0.07), minimum: Some(money(25.05)), ..Rates::default() };
        let mut ticket = yard_of_lawn(&shop);
        ticket.materials[0].material.price = Some(money(f64::from(cents) / 100.0));
        let made = made(&ticket, &shop);
        assert_eq!(made.price, Some(money(25.05)), "{cents}");
        assert_eq!(sum_of(&made.price_lines), money(25.05), "{cents}");
        assert_eq!(money_of(&made.price_lines, "fee"), Some(money(1.75)), "{cents}");
    }
}

/// A cost that is the lowest price and ends as prices end is the price, without a line for either.
#[test]
fn a_price_that_needs_no_rounding_has_no_line_for_it() {
    let mut shop = shop("");
    shop.rates.minimum = Some(money(6.95));
    shop.settings.price_ending = Some(money(0.95));
    let mut ticket = yard_of_lawn(&shop);
    ticket.materials[0].material.price = Some(money(6.95));
    let made = made(&ticket, &shop);
    check(&made.price_lines, "line | money | note\ncost | $6.95 | leaves out: labour");
    assert_eq!((made.price, made.price_each), (Some(money(6.95)), Some(money(6.95))));
}

/// Two squares cost $12.00, one $6.00. Of an order of no garment the work that is done once is paid all the same.
#[test]
fn a_price_is_shared_by_the_garments() {
    let shop = shop("");
    let two = made(&Ticket { garments: 2, ..yard_of_lawn(&shop) }, &shop);
    check(
        &two.totals,
        "
total | amount | note
minutes |  | the recipe says no work
cost | $12.00 | leaves out: labour (the recipe says no work)
price | $12.00 | leaves out: labour
price for one garment | $6.00 | of 2
goods with an empty shelf | $12.00 | what is not in the price, added up",
    );
    let wage = Quantity::money(20.0).per(Quantity::of(1.0, Unit::Hour)).unwrap();
    let shop = Workshop { rates: Rates { wage: Some(wage), ..Rates::default() }, ..shop };
    let mut none = Ticket::new("talk", "");
    none.garments = 0;
    let hour = Time::try_from(Quantity::of(60.0, Unit::Minute)).ok();
    none.work = vec![Work { about: hour, once: true, ..work("talk it over", Quantity::number(1.0)) }];
    let none = made(&none, &shop);
    assert_eq!((none.price, none.price_each), (Some(money(20.0)), Some(money(20.0))));
}

/// Of two garments: 3 each at about 2 min are 12 min, a length of about 2 min in each 4, one for the whole order 2.
#[test]
fn an_estimate_is_for_each_of_a_count_and_for_the_whole_of_a_length() {
    let about = Time::try_from(Quantity::of(2.0, Unit::Minute)).ok();
    let mut ticket = Ticket::new("hem", "A hem.");
    ticket.garments = 2;
    ticket.work = vec![
        Work { about, ..work("set a hook", Quantity::number(3.0)) },
        Work { about, ..work("turn a rouleau", inches(50.0)) },
        Work { about, once: true, ..work("draw the pattern", inches(50.0)) },
    ];
    let made = made(&ticket, &Workshop::default());
    let minutes = |row: usize| match made.minutes.cell(row, "minutes") {
        Ok(Cell::Quantity(time)) => time.steps() / Quantity::of(1.0, Unit::Minute).steps(),
        other => panic!("{other:?}"),
    };
    assert_eq!([1, 2, 3].map(|row| minutes(row).to_string()), ["12", "4", "2"]);
    assert_eq!(made.minutes.cell(1, "from"), Ok(&"the recipe's estimate".into()));
    // An estimate is not one of the built-in minutes.
    check(
        &made.totals,
        "
total | amount | note
minutes | 18 min |
cost |  | leaves out: labour (no wage is set)",
    );
}

/// Half of what takes 10 min takes 5: only less than nothing is nothing.
#[test]
fn half_of_an_operation_takes_half_its_minutes() {
    let shop = workshop(&[("rates.csv", "operation,per,minutes,set-up,value\npress,each,10 min,,\n")]);
    let mut ticket = Ticket::new("press", "");
    ticket.work = vec![work("press", Quantity::number(0.5))];
    assert_eq!(made(&ticket, &shop).total_minutes.map(Quantity::from), Some(Quantity::of(5.0, Unit::Minute)));
}

/// What is timed by the built-in minutes and what nobody has timed are told one behind the other.
#[test]
fn built_in_and_unknown_minutes_are_both_told() {
    let rates = "operation,per,minutes,set-up,value\nbuilt-in minutes,,,,100 %\nwage,,,,$30/h\n";
    let shop = workshop(&[("rates.csv", rates)]);
    let mut ticket = Ticket::new("skirt", "A skirt.");
    ticket.work = vec![work("sew a seam", inches(36.0)), work("embroider", Quantity::number(1.0))];
    let made = made(&ticket, &shop);
    let lines = drawn(&made.totals);
    let note = |total: &str| lines.lines().find(|line| line.starts_with(total)).unwrap().rsplit(" | ").next().unwrap();
    assert_eq!(note("minutes"), "no rate for “embroider”; built-in minutes, until you time: sew a seam");
    assert_eq!(note("price"), "leaves out: the minutes of “embroider”; with built-in minutes");
}

/// The rows of a table that has a name and an amount: the name and the amount in inches or as it is counted.
fn amounts(table: &Table, name: &str, amount: &str) -> Vec<(String, f64)> {
    let rows = table.values(name).unwrap().zip(table.values(amount).unwrap());
    let rows = rows.map(|(name, amount)| match (name, amount) {
        (Cell::Text(name), Cell::Quantity(amount)) => {
            let unit = Length::try_from(*amount).map_or(1.0, |_| Length::inches(1.0).steps());
            (name.clone(), (amount.steps() / unit * 1e6).round() / 1e6)
        }
        other => panic!("{other:?}"),
    });
    rows.collect()
}

fn named(rows: &[(&str, f64)]) -> Vec<(String, f64)> {
    rows.iter().map(|(name, amount)| ((*name).to_owned(), *amount)).collect()
}

/// Tape by the length, tape by the piece and thread that is in no list are three lines: 10 in, 2, and of 100 in of
/// lockstitch 287.5 in. Thread is shown in yards.
#[test]
fn lengths_counts_and_plain_thread_have_lines_of_their_own() {
    let shop = shop("");
    let mut ticket = needs_of(&shop, "tape", &[(inches(10.0), 1), (Quantity::number(2.0), 1)]);
    ticket.sewing = vec![sew("301", Length::inches(100.0), "seam")];
    let made = made(&ticket, &shop);
    let wanted = [("tape", 10.0), ("tape", 2.0), ("thread", 287.5)];
    assert_eq!(amounts(&made.buy_list, "material", "needed"), named(&wanted));
    let Ok(Cell::Quantity(thread)) = made.cost.cell(3, "amount") else { panic!("{}", drawn(&made.cost)) };
    assert_eq!(thread.liked().length, Some(Unit::Yard));
}

const THREADS: &str = "\
material,kind,put-up,price,price for,sold by
grey cones for the overlock,thread,2000 yd,$5.00,put-up,put-up
ivory thread,thread,1000 yd,$4.00,put-up,put-up
tape,notion,50 yd,$0.90,yd,yd
";

/// 10 and 20 in of lockstitch are one class, blanks or not: 30 x 2.5 x 1.15 = 86.25 in of thread. Overedges of two and of
/// three threads come off the cones: 50 x 12 x 1.15 + 100 x 14 x 1.15 = 690 + 1,610 in. In the cost thread stands in whole
/// yards, tape as it is measured off.
#[test]
fn stitches_are_summed_by_their_class() {
    let threads = workshop(&[("materials.csv", THREADS)]);
    let mut ticket = needs_of(&threads, "tape", &[(inches(10.0), 1)]);
    let line = |class: &str, length: f64| sew(class, Length::inches(length), "seam");
    ticket.sewing = vec![line("301", 10.0), line("504", 100.0), line(" 301 ", 20.0), line("503", 50.0)];
    let made = made(&ticket, &threads);
    let wanted = [("301", 30.0), ("503", 50.0), ("504", 100.0)];
    assert_eq!(amounts(&made.thread, "class", "length"), named(&wanted));
    assert_eq!(amounts(&made.thread, "class", "thread"), named(&[("301", 86.25), ("503", 690.0), ("504", 1610.0)]));
    assert_eq!(made.stitching.cell(3, "class"), Ok(&"301".into()));
    assert_eq!(made.stitching.cell(1, "waste"), Ok(&Quantity::number(0.15).into()));
    let wanted = [("tape", 10.0), ("ivory thread", 86.25), ("grey cones for the overlock", 2300.0)];
    assert_eq!(amounts(&made.buy_list, "material", "needed"), named(&wanted));
    let whole = made.cost.values("amount").unwrap().map(|cell| match cell {
        Cell::Quantity(amount) => Some(amount.liked().whole),
        _ => None,
    });
    assert_eq!(whole.take(3).collect::<Vec<_>>(), [Some(false), Some(true), Some(true)]);
}

/// The lining loses 5 % and its face 3 %: the first screen says it in one row. Where both lose alike it has none.
#[test]
fn a_lining_that_loses_more_has_a_row_of_the_first_screen() {
    for (loss, told) in [("5 %", 1), ("3 %", 0)] {
        let materials = format!(
            "material,kind,usable width,shrink along,shrink across,washing\n\
             linen,cloth,54 in,3 %,2 %,as it comes\nsateen,cloth,54 in,{loss},2 %,as it comes\n"
        );
        let shop = workshop(&[("materials.csv", &materials)]);
        let mut ticket = Ticket::new("panel", "A panel.");
        let input = |name: &str, input: &str| TicketMaterial { input: Some(input.to_owned()), ..listed(&shop, name) };
        ticket.materials = vec![input("linen", "face"), input("sateen", "lining")];
        let shape = || Shape::FullWidth { along: Length::inches(96.0) };
        ticket.pieces = vec![piece("panel", 0, shape(), 1), piece("lining", 1, shape(), 1)];
        let made = made(&ticket, &shop);
        let rows = crate::ticket::overview::overview(&made.order, "panel")
            .unwrap_or_else(|error| panic!("{}", error.message(&Style::default())));
        let lines: Vec<_> = rows.iter().filter(|row| row.label == "LINING").flat_map(|row| &row.lines).collect();
        assert_eq!(lines.len(), told, "{lines:?}");
        assert!(lines.iter().all(|line| line.concat().contains("sateen")), "{lines:?}");
    }
}
