//! Minutes, notions and thread at their edges; every figure from a pencil.

use super::*;
use crate::quantity::Unit;

const RATES: &str = "\
operation,per,minutes,set-up,value
sew a seam,yd,2 min,3 min,
press,each,10 min,,
wage,,,,$30/h
";

fn minutes(value: f64) -> Quantity {
    Quantity::of(value, Unit::Minute)
}

fn parts(order: &WorkshopOrder) -> Vec<(String, f64)> {
    let parts = order.time_parts().unwrap_or_else(|error| panic!("{}", error.message(&Style::default())));
    parts.into_iter().map(|(name, time)| (name, time / Time::try_from(minutes(1.0)).unwrap())).collect()
}

fn from_of(made: &Made, row: usize) -> String {
    match made.minutes.cell(row, "from") {
        Ok(Cell::Text(from)) => from.clone(),
        other => panic!("{other:?}"),
    }
}

/// 72 in and 36 in are 3 yd: 6 min and the set-up of 3, once; 2 presses are 20. The longer operation comes first.
#[test]
fn an_operation_that_comes_twice_is_set_up_once_and_its_minutes_are_added() {
    let shop = workshop(&[("rates.csv", RATES)]);
    let mut ticket = Ticket::new("skirt", "A skirt.");
    ticket.work = vec![
        work("sew a seam", Length::inches(72.0).into()),
        work("press", Quantity::number(2.0)),
        work("Sew a seam", Length::inches(36.0).into()),
    ];
    let made = made(&ticket, &shop);
    assert_eq!(parts(&made.order), [("press".to_owned(), 20.0), ("sew a seam".to_owned(), 9.0)]);
    assert_eq!(made.total_minutes.map(Quantity::from), Some(minutes(29.0)));
    // 29 min at $30 an hour.
    assert_eq!(money_of(&made.cost, "labour"), Some(money(14.5)));
}

/// A recipe that takes away more than there is sews nothing: no minutes less than none.
#[test]
fn work_less_than_nothing_is_none() {
    let shop = workshop(&[("rates.csv", RATES)]);
    let mut ticket = Ticket::new("skirt", "A skirt.");
    ticket.work = vec![work("press", Quantity::number(-2.0)), work("press", Quantity::number(1.0))];
    let made = made(&ticket, &shop);
    assert_eq!(made.minutes.cell(1, "amount"), Ok(&Quantity::number(0.0).into()));
    assert_eq!(made.minutes.cell(1, "minutes"), Ok(&minutes(0.0).into()));
    assert_eq!(made.total_minutes.map(Quantity::from), Some(minutes(10.0)));
}

/// What is sewn or cut takes time, and so an order without a word of work has no price for labour.
#[test]
fn what_is_sewn_is_due_even_if_nothing_is_cut_from_cloth() {
    let shop = workshop(&[("rates.csv", RATES)]);
    let mut sewn = Ticket::new("mend", "A mend.");
    sewn.sewing = vec![sew("301", Length::inches(10.0), "seam")];
    assert_eq!(made(&sewn, &shop).left_out, ["thread", "labour"]);
    assert_eq!(made(&Ticket::new("nothing", ""), &shop).left_out, [""; 0]);
}

/// The built-in minutes are said with how often they are taken, above and below once, and named once.
#[test]
fn built_in_minutes_say_how_often_they_are_taken() {
    for (share, words) in [
        ("100 %", "built-in minutes"),
        ("132 %", "built-in minutes, 1.32 times"),
        ("50 %", "built-in minutes, 0.5 times"),
    ] {
        let rates = format!("operation,per,minutes,set-up,value\nbuilt-in minutes,,,,{share}\n");
        let shop = workshop(&[("rates.csv", &rates)]);
        let mut ticket = Ticket::new("skirt", "A skirt.");
        let seam = || work("sew a seam", Length::inches(36.0).into());
        ticket.work = vec![seam(), work("cut a piece", Quantity::number(1.0)), seam()];
        let made = made(&ticket, &shop);
        assert_eq!(from_of(&made, 1), words, "{share}");
        let note = drawn(&made.totals);
        assert!(note.contains(&format!("{words}, until you time: sew a seam, cut a piece\n")), "{note}");
    }
}

#[test]
fn an_operation_that_is_mistyped_says_which_is_near_and_one_like_no_other_how_to_add_it() {
    let shop = workshop(&[("rates.csv", RATES)]);
    let mut ticket = Ticket::new("skirt", "A skirt.");
    ticket.work = vec![work("sew a sean", Length::inches(36.0).into()), work("embroider", Quantity::number(1.0))];
    let made = made(&ticket, &shop);
    assert!(from_of(&made, 1).starts_with("no rate; ") && from_of(&made, 1).contains("sew a seam"));
    assert_eq!(from_of(&made, 2), "no rate; type add rate");
}

const NOTIONS: &str = "\
material,kind,usable width,put-up,price,price for,sold by
tape,notion,1 in,50 yd,$0.90,yd,yd
braid,notion,1 in,50 yd,$0.90,yd,yd
white overlock cones,thread,,2000 yd,,put-up,put-up
grey overlock cones,thread,,2000 yd,$5.00,put-up,put-up
black overlock cones,thread,,2000 yd,$6.00,put-up,put-up
grey thread,thread,,1000 yd,,put-up,put-up
ivory thread,thread,,1000 yd,$4.00,put-up,put-up
navy thread,thread,,1000 yd,$3.00,put-up,put-up
";

/// The same list, its tape sold on cards of 2 yd.
fn tape_on_cards() -> String {
    NOTIONS.replace("tape,notion,1 in,50 yd,$0.90,yd,yd", "tape,notion,1 in,2 yd,$1.80,put-up,put-up")
}

fn buying(made: &Made) -> Vec<(String, Quantity)> {
    let names = made.buy_list.values("material").unwrap();
    let needed = made.buy_list.values("needed").unwrap();
    names
        .zip(needed)
        .map(|pair| match pair {
            (Cell::Text(name), Cell::Quantity(needed)) => (name.clone(), *needed),
            other => panic!("{other:?}"),
        })
        .collect()
}

fn inches(value: f64) -> Quantity {
    Length::inches(value).into()
}

#[track_caller]
fn bought(made: &Made, wanted: &[(&str, f64)]) {
    let found = buying(made);
    let names: Vec<&str> = found.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, wanted.iter().map(|(name, _)| *name).collect::<Vec<_>>());
    for ((name, found), (_, wanted)) in found.iter().zip(wanted) {
        let apart = (found.steps() - inches(*wanted).steps()).abs();
        assert!(apart <= 1e-6 * inches(1.0).steps(), "{name}: {found:?}, not {wanted} in");
    }
}

/// Three lengths of 10 in, and one of 6: 36 in of one tape, though two inputs name it. Another has its own line, and so
/// has what is counted of the first.
#[test]
fn needs_of_one_material_are_one_line() {
    let shop = workshop(&[("materials.csv", NOTIONS)]);
    let mut ticket = Ticket::new("bag", "A bag.");
    ticket.materials = vec![listed(&shop, "tape"), listed(&shop, "tape"), listed(&shop, "braid")];
    let mut three = need(0, inches(10.0), "ties");
    three.count = 3;
    ticket.needs = vec![three, need(1, inches(6.0), "loop"), need(2, inches(8.0), "edge")];
    bought(&made(&ticket, &shop), &[("tape", 36.0), ("braid", 8.0)]);
    // Less than none of something is none of it.
    ticket.needs[0].count = -1;
    bought(&made(&ticket, &shop), &[("tape", 6.0), ("braid", 8.0)]);
}

/// Two things that only recipes name are two things, though they are called alike.
#[test]
fn unlisted_needs_are_added_only_to_the_same_one() {
    let shop = workshop(&[("materials.csv", NOTIONS)]);
    let mut ticket = Ticket::new("bag", "A bag.");
    ticket.materials = vec![plain_notion(&shop, "tape", "ring"), plain_notion(&shop, "tape", "ring")];
    ticket.needs = vec![need(0, inches(10.0), "here"), need(1, inches(4.0), "there"), need(0, inches(5.0), "here too")];
    bought(&made(&ticket, &shop), &[("ring", 15.0), ("ring", 4.0)]);
}

/// 100 in of lockstitch take 287.5 in of thread, 100 in of overedge 1,610: the first reel with a price and the first
/// cones with one. Without an overedge no cones are bought; without reels the cones sew the seams too.
#[test]
fn seams_take_the_first_priced_reel_and_edges_the_first_priced_cones() {
    let shop = workshop(&[("materials.csv", NOTIONS)]);
    let mut ticket = Ticket::new("bag", "A bag.");
    let hundred = Length::inches(100.0);
    ticket.sewing = vec![sew("301", hundred, "seam"), sew("504", hundred, "edge")];
    bought(&made(&ticket, &shop), &[("ivory thread", 287.5), ("grey overlock cones", 1610.0)]);
    let edges = ticket.sewing.pop();
    bought(&made(&ticket, &shop), &[("ivory thread", 287.5)]);
    ticket.sewing.extend(edges);
    let unpriced = NOTIONS.replace("$5.00", "").replace("$6.00", "").replace("$4.00", "").replace("$3.00", "");
    let shop = workshop(&[("materials.csv", &unpriced)]);
    bought(&made(&ticket, &shop), &[("grey thread", 287.5), ("white overlock cones", 1610.0)]);
    let cones: String =
        unpriced.lines().filter(|line| !line.contains(" thread,")).map(|line| format!("{line}\n")).collect();
    let shop = workshop(&[("materials.csv", &cones)]);
    bought(&made(&ticket, &shop), &[("white overlock cones", 1897.5)]);
}

/// Thread that a recipe asks for, 20 in to draw up by, and that of the seams are one reel, shown in whole yards.
#[test]
fn thread_that_is_asked_for_and_thread_that_is_sewn_are_one_reel() {
    let shop = workshop(&[("materials.csv", NOTIONS)]);
    let mut ticket = Ticket::new("bag", "A bag.");
    ticket.materials = vec![listed(&shop, "ivory thread")];
    ticket.needs = vec![need(0, inches(20.0), "to draw up by")];
    ticket.sewing = vec![sew("301", Length::inches(100.0), "seam")];
    let made = made(&ticket, &shop);
    bought(&made, &[("ivory thread", 307.5)]);
    assert!(buying(&made)[0].1.liked().whole);
    // Thread is wound off and never cut into lengths.
    assert!(made.all().iter().find(|table| table.name() == "small_cuts").unwrap().is_empty());
}

const SHELF: &str = "stock,material,lot,count,along,across,price,place,held for\n";

fn with_shelf(rows: &str) -> Workshop {
    workshop(&[("materials.csv", NOTIONS), ("stock.csv", &format!("{SHELF}{rows}"))])
}

fn from_shelf(made: &Made, row: usize) -> f64 {
    match made.buy_list.cell(row, "from the shelf") {
        Ok(Cell::Quantity(taken)) => taken.steps() / inches(1.0).steps(),
        other => panic!("{other:?}"),
    }
}

/// A reel on the shelf serves as far as it goes, and the rest is bought.
#[test]
fn a_reel_serves_as_far_as_it_goes() {
    let mut ticket = Ticket::new("bag", "A bag.");
    ticket.sewing = vec![sew("301", Length::inches(100.0), "seam")];
    let made_of = |rows: &str| made(&ticket, &with_shelf(rows));
    assert!((from_shelf(&made_of("T1,ivory thread,,1,1000 yd,,,,\n"), 1) - 287.5).abs() < 1e-6);
    // 1,000 yd hold 36,000 in; of 14,000 in of lockstitch, 40,250 in of thread, the rest is bought.
    ticket.sewing = vec![sew("301", Length::inches(14_000.0), "seam")];
    let long = made(&ticket, &with_shelf("T1,ivory thread,,1,1000 yd,,,,\n"));
    assert!((from_shelf(&long, 1) - 36_000.0).abs() < 1e-6, "{}", drawn(&long.buy_list));
}

/// Goods that are in no list are bought as they are needed, whatever lies on the shelf under such a name.
#[test]
fn unlisted_goods_are_bought_to_the_inch() {
    let shop = with_shelf("S1,tape,,1,5 yd,,,,\n");
    let mut ticket = Ticket::new("bag", "A bag.");
    let mut own = listed(&shop, "tape");
    own.listed = false;
    own.material.sold_by = crate::workshop::SoldBy::PutUp;
    ticket.materials = vec![own];
    ticket.needs = vec![need(0, inches(10.0), "loop")];
    let made = made(&ticket, &shop);
    assert!(from_shelf(&made, 1).abs() < 1e-9);
    assert_eq!(made.buy_list.cell(1, "to buy"), Ok(&inches(10.0).into()));
}

/// A length as long as a whole card is cut in one piece; an inch more has a join. What is not there, of no length or of
/// no count, is not cut.
#[test]
fn a_length_is_joined_only_where_no_card_holds_it() {
    let shop = workshop(&[("materials.csv", &tape_on_cards())]);
    let joined = |needs: &[(f64, i64)]| {
        let mut ticket = Ticket::new("bag", "A bag.");
        ticket.materials = vec![listed(&shop, "tape")];
        ticket.needs =
            needs.iter().map(|(length, count)| Need { count: *count, ..need(0, inches(*length), "edge") }).collect();
        let made = made(&ticket, &shop);
        let cuts = made.all().into_iter().find(|table| table.name() == "small_cuts").unwrap();
        (drawn(&made.buy_list).contains("join"), cuts.rows().len())
    };
    assert_eq!(joined(&[(72.0, 1)]), (false, 1));
    assert_eq!(joined(&[(73.0, 1)]), (true, 2));
    assert_eq!(joined(&[(10.0, 1), (0.0, 1), (12.0, 0)]), (false, 1));
}

/// A listed tape and one of that name which is in no list are two things.
#[test]
fn a_listed_need_is_not_added_to_an_unlisted_one() {
    let shop = workshop(&[("materials.csv", NOTIONS)]);
    let mut ticket = Ticket::new("bag", "A bag.");
    let mut own = listed(&shop, "tape");
    own.listed = false;
    for materials in [[listed(&shop, "tape"), own.clone()], [own, listed(&shop, "tape")]] {
        ticket.materials = materials.to_vec();
        ticket.needs = vec![need(0, inches(10.0), "loop"), need(1, inches(4.0), "edge")];
        bought(&made(&ticket, &shop), &[("tape", 10.0), ("tape", 4.0)]);
    }
}

/// With a wage and no minutes there is no labour to pay: not known, and never $0.00.
#[test]
fn unknown_minutes_cost_nothing_that_is_known() {
    let shop = workshop(&[("rates.csv", "operation,per,minutes,set-up,value\nwage,,,,$30/h\n")]);
    let mut ticket = Ticket::new("bag", "A bag.");
    ticket.work = vec![work("embroider", Quantity::number(1.0))];
    let made = made(&ticket, &shop);
    assert_eq!(money_of(&made.cost, "labour"), None);
    assert_eq!(made.left_out, ["labour"]);
}

/// 73 in of tape out of two rests of 40 in, though cards are 2 yd: nothing is bought, and the join is said of what is
/// taken. Once a card is bought, the join is said where that is.
#[test]
fn what_is_taken_from_the_shelf_says_its_joins_itself() {
    let lists = |rests: i64| {
        let stock = format!("{SHELF}R1,tape,,{rests},40 in,,,,\n");
        let shop = workshop(&[("materials.csv", &tape_on_cards()), ("stock.csv", &stock)]);
        let mut ticket = Ticket::new("bag", "A bag.");
        ticket.materials = vec![listed(&shop, "tape")];
        ticket.needs = vec![need(0, inches(73.0), "edge")];
        let made = made(&ticket, &shop);
        let bill = made.order.bill().unwrap_or_else(|error| panic!("{}", error.message(&Style::default())));
        (drawn(&bill.to_buy().unwrap()), drawn(&bill.taken_from_the_shelf().unwrap()))
    };
    let (bought, taken) = lists(2);
    assert!(bought.contains("nothing: the shelf has it all") && !bought.contains("join"), "{bought}");
    assert!(taken.contains("73 in") && taken.contains("1 join"), "{taken}");
    let (bought, taken) = lists(1);
    assert!(bought.contains("1 of 2 yd") && bought.contains("1 join"), "{bought}");
    assert!(taken.contains("40 in") && !taken.contains("join"), "{taken}");
}

/// Tape at $0.90 a yard, 36 in of it: the note says that it is what must be bought, and leaves nothing out.
#[test]
fn what_is_bought_with_all_prices_known_leaves_nothing_out() {
    let shop = workshop(&[("materials.csv", NOTIONS)]);
    let mut ticket = Ticket::new("bag", "A bag.");
    ticket.materials = vec![listed(&shop, "tape")];
    ticket.needs = vec![need(0, inches(36.0), "edge")];
    check(
        &made(&ticket, &shop).not_in_price,
        "
line | money | note
bought for this order | $0.90 | what must be bought: whole put-ups and selling steps",
    );
}

/// What a long edge and perhaps a short piece are cut from, where cards are 2 yd and the shelf has these rests: the words
/// of the note from the number of joins on, and what is bought.
fn joined_from(rests: &[(i64, &str)], needs: &[f64]) -> (String, f64) {
    let mut stock = SHELF.to_owned();
    for (place, (count, along)) in (1..).zip(rests) {
        stock.push_str(&format!("R{place},tape,,{count},{along},,,,\n"));
    }
    let shop = workshop(&[("materials.csv", &tape_on_cards()), ("stock.csv", &stock)]);
    let mut ticket = Ticket::new("bag", "A bag.");
    ticket.materials = vec![listed(&shop, "tape")];
    ticket.needs = needs.iter().map(|length| need(0, inches(*length), "edge")).collect();
    let made = made(&ticket, &shop);
    let Ok(Cell::Text(note)) = made.buy_list.cell(1, "note") else { panic!("{}", drawn(&made.buy_list)) };
    let Ok(Cell::Quantity(bought)) = made.buy_list.cell(1, "to buy") else { panic!("{}", drawn(&made.buy_list)) };
    let words = note.split("single length: ").nth(1).unwrap_or_else(|| panic!("{note}"));
    let words = words.split("; add what the joins take").next().unwrap().to_owned();
    (words, bought.steps() / inches(1.0).steps())
}

/// 100 in: the longest rest first, so that the joins are few, then the shortest that holds all that is missing; rests
/// shorter than 5 cm stay, and a card is opened only for what the shelf cannot serve.
#[test]
fn a_long_edge_is_joined_from_the_rests_of_the_shelf() {
    let from = |rests: &[(i64, &str)]| joined_from(rests, &[100.0]);
    // 50 + 30 + 20 of a card; 1 7/8 in is too short for a join, 2 in and 5 cm are not.
    assert_eq!(from(&[(1, "30 in"), (1, "50 in"), (1, "1 7/8 in")]), ("2 joins, from R2, R1 and new".to_owned(), 72.0));
    for short in ["2 in", "5 cm"] {
        let three = "3 joins, from R2, R1, R3 and new".to_owned();
        assert_eq!(from(&[(1, "30 in"), (1, "50 in"), (1, short)]), (three, 72.0), "{short}");
    }
    // Both of two alike, and a third part of a card.
    assert_eq!(from(&[(2, "40 in")]), ("2 joins, from R1 and new".to_owned(), 72.0));
    assert_eq!(from(&[(3, "40 in")]), ("2 joins, from R1".to_owned(), 0.0));
    // After 60 in 40 are missing: of 50 and 45 the shorter, and of 50 and 40 the one that is just enough.
    assert_eq!(from(&[(1, "60 in"), (1, "50 in"), (1, "45 in")]).0, "1 join, from R1 and R3");
    assert_eq!(from(&[(1, "60 in"), (1, "50 in"), (1, "40 in")]).0, "1 join, from R1 and R3");
}

/// A short piece is cut whole first; what it leaves on a rest is of the shelf, what it leaves on a card is bought.
#[test]
fn what_a_piece_leaves_is_joined_after_the_rest_of_the_shelf_only_if_it_is_bought() {
    // 30 in of R1 leave 50, longer than R2: 50 + 10 + 40 of a card.
    assert_eq!(joined_from(&[(1, "80 in"), (1, "10 in")], &[30.0, 100.0]).0, "2 joins, from R1, R2 and new");
    // 30 in go on a card and leave 42, longer than R1, which comes first all the same: 20 + 42 + 38 of another card.
    assert_eq!(joined_from(&[(1, "20 in")], &[30.0, 100.0]), ("2 joins, from R1 and new".to_owned(), 144.0));
}

/// Of reels the smallest that holds all of it, even if it holds just that; where none does, the smallest first, as many
/// as it takes.
#[test]
fn thread_is_wound_off_the_smallest_reel_that_holds_it() {
    let taken = |reels: &[&str], seam: f64| {
        let rows = (1..).zip(reels).map(|(place, along)| format!("T{place},ivory thread,,1,{along},,,,\n"));
        let shop = with_shelf(&rows.collect::<String>());
        let mut ticket = Ticket::new("bag", "A bag.");
        ticket.sewing = vec![sew("301", Length::inches(seam), "seam")];
        let made = made(&ticket, &shop);
        let Ok(Cell::Text(note)) = made.buy_list.cell(1, "note") else { panic!("{}", drawn(&made.buy_list)) };
        (note.clone(), (from_shelf(&made, 1) * 1e6).round() / 1e6)
    };
    // 100 in of lockstitch take 287.5 in.
    assert_eq!(taken(&["100 yd", "20 yd", "9 yd"], 100.0), ("from T3".to_owned(), 287.5));
    assert_eq!(taken(&["100 yd", "287.5 in", "9 yd"], 100.0), ("from T2".to_owned(), 287.5));
    // 400 in of lockstitch take 1,150 in: all of 324, the rest of 826 from 900, and none of the longest.
    assert_eq!(taken(&["25 yd", "9 yd", "30 yd"], 400.0), ("from T2 and T1".to_owned(), 1150.0));
}
