//! The first wash: what is washed, cut longer or cut as it comes is bought, priced, planned and told alike.
//!
//! Every sum is worked by hand: 96 in are left of 96 / 0.96 = 100 in, and 45 in of width wash to 45 × 0.98 = 44.1 in.

use super::*;
use crate::cutting::StockSource;
use crate::piece::Lie;
use crate::workshop::Washing;
use proptest::prelude::*;
use std::collections::BTreeMap;

const HEADINGS: &str = "material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,nap,shrink along,shrink across,washing,weight,fibre\n";

/// A workshop with these rows of materials.csv and stock.csv.
fn shop(materials: &str, stock: &str) -> Workshop {
    let materials = format!("{HEADINGS}{materials}");
    let stock = format!("stock,material,lot,count,along,across,washed,price,place,held for\n{stock}");
    workshop(&[("materials.csv", &materials), ("stock.csv", &stock)])
}

/// Cotton that loses 4 % of its length and 2 % of its width.
fn cotton(washing: &str) -> String {
    format!("cotton,cloth,45 in,20 yd,$7.20,yd,1/8 yd,,no,no,4 %,2 %,{washing},3 oz/yd^2,100 % cotton\n")
}

/// One panel of 96 by 40 in.
fn panel_of(shop: &Workshop, name: &str) -> Ticket {
    let mut ticket = Ticket::new("panel", "A panel.");
    ticket.materials = vec![listed(shop, name)];
    let shape = Shape::Rectangle { along: Length::inches(96.0), across: Length::inches(40.0) };
    ticket.pieces = vec![piece("panel", 0, shape, 1)];
    ticket.steps = vec![TicketStep::Words("Hem it.".to_owned())];
    ticket
}

fn told(made: &Made) -> Vec<String> {
    OrderSection::named("washing").unwrap().texts(&made.order).unwrap()
}

fn label(made: &Made) -> Vec<String> {
    let rows = made.labels.rows().iter().filter(|row| row[0] == Cell::from("first wash"));
    rows.map(|row| format!("{:?}: {:?}", row[1], row[2]).replace("Text(\"", "").replace("\")", "")).collect()
}

/// The length of cloth in the first row of the cost, in inches, and its money.
fn charged(made: &Made) -> (f64, Option<Money>) {
    let Cell::Quantity(amount) = &made.cost.rows()[0][1] else { panic!("{}", drawn(&made.cost)) };
    (Length::try_from(*amount).unwrap().in_inches(), money_of(&made.cost, "cotton"))
}

/// 100 in are 2 7/9 yd, $20.00 at $7.20; sold by the eighth they are 2 7/8 yd, $20.70.
#[test]
fn washed_first_buys_and_prices_the_length_before_washing() {
    let shop = shop(&cotton("washed first"), "");
    let made = made(&panel_of(&shop, "cotton"), &shop);
    check(
        &made.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
cotton | 2 yd 28 in | 0 yd | 2 7/8 yd | 2 7/8 yd | $20.70 | before washing",
    );
    let (length, price) = charged(&made);
    assert!((length - 100.0).abs() < 1e-9, "{length}");
    assert_eq!((price, made.price), (Some(money(20.0)), Some(money(20.0))));
    assert_eq!(
        told(&made),
        ["Wash and press 100 in of cotton (new cloth) before it is cut. It loses 4 % of its length and 2 % of its \
             width; every size and mark is that of the washed cloth, about 44 1/8 in wide."]
    );
    check(
        &made.steps,
        "
step | what to do
1 | Wash and press 100 in of cotton, then cut.
2 | Hem it.",
    );
    check(
        &made.cut_list,
        "
piece | material | count | shape | along | across | grain | notes
panel | cotton | 1 | rectangle | 96 in | 40 in | along |",
    );
    assert_eq!(label(&made), [""; 0]);
    // 96 × 40 / (0.96 × 0.98) = 4081.63 in² of unwashed cotton, 3.1494 yd² of 3 oz.
    let weight = made.order.weight().unwrap().steps() / crate::quantity::Unit::Ounce.steps();
    assert!((weight - 9.448).abs() < 0.001, "{weight}");
}

/// 40 / 0.98 = 40.82 in, up to 40 7/8.
#[test]
fn cut_longer_takes_the_same_cloth_unwashed() {
    let shop = shop(&cotton("cut longer"), "");
    let made = made(&panel_of(&shop, "cotton"), &shop);
    check(
        &made.cut_list,
        "
piece | material | count | shape | along | across | grain | notes
panel | cotton | 1 | rectangle | 100 in | 40 7/8 in | along | rounded up",
    );
    let (length, price) = charged(&made);
    assert!((length - 100.0).abs() < 1e-9, "{length}");
    assert_eq!(price, Some(money(20.0)));
    assert_eq!(
        told(&made),
        ["cotton is cut unwashed, each piece larger by what the first wash takes of it, 4 % of its length and 2 % of \
             its width. Cut by the list of cuts and mark by the list of marks: sizes in the steps are those that the \
             wash leaves."]
    );
    check(
        &made.steps,
        "
step | what to do
1 | Cut cotton unwashed, by the list of cuts and not by the sizes below: those are what the first wash leaves.
2 | Hem it.",
    );
    let lines =
        "comes to its size in the first wash: cotton loses 4 % of its length and 2 % of its width in the first wash";
    assert_eq!(label(&made), [lines]);
}

/// A panel 96 in long is cut 100 in: its hem of 1 in takes the 4 in and is let down after the wash. A line 48 in from the
/// upper edge is drawn 48 / 0.96 = 50 in from it, one 10 in from the end of a band of 40 in, which lies across, 10 / 0.98
/// = 10.204 in.
#[test]
fn a_hem_takes_up_what_is_cut_longer_and_marks_move_with_the_edges() {
    let shop = shop(&cotton("cut longer"), "");
    let mut ticket = panel_of(&shop, "cotton");
    let band = Shape::Rectangle { along: Length::inches(3.0), across: Length::inches(40.0) };
    ticket.pieces.push(piece("band", 0, band, 1));
    let mark = |piece: &str, name: &str, distance: f64, from: &str| mark(piece, name, Length::inches(distance), from);
    ticket.marks = vec![
        mark("panel", "hem fold", 1.0, "lower edge"),
        mark("panel", "hip line", 48.0, "upper edge"),
        mark("band", "underlap", 10.0, "one end"),
        mark("curtain", "hooks", 9.0, "one to the next, drawn up"),
    ];
    let distances: Vec<f64> = ticket.marks_as_cut().iter().map(|mark| mark.distance.in_inches()).collect();
    for (found, wanted) in distances.iter().zip([5.0, 50.0, 10.204_082, 9.0]) {
        assert!((found - wanted).abs() < 1e-5, "{distances:?}");
    }
    let made = made(&ticket, &shop);
    let hem = "Turn up 5 in, not 1 in, at the hem of panel; let it down after the first wash.";
    assert!(told(&made)[0].ends_with(hem), "{:?}", told(&made));
    assert!(drawn(&made.steps).contains(hem), "{}", drawn(&made.steps));
    assert!(label(&made)[0].starts_with("comes to its size in the first wash; let the hem down after it: cotton"));
    // Washed first, and as it comes, the marks are as the recipe has them.
    for washing in [Washing::WashedFirst, Washing::AsItComes] {
        let ticket = Ticket { washing: Some(washing), ..ticket.clone() };
        assert_eq!(ticket.marks_as_cut(), ticket.marks);
    }
}

#[test]
fn as_it_comes_allows_for_nothing_and_says_so() {
    let shop = shop(&cotton("as it comes"), "");
    let made = made(&panel_of(&shop, "cotton"), &shop);
    let (length, price) = charged(&made);
    assert!((length - 96.0).abs() < 1e-9, "{length}");
    assert_eq!(price, Some(money(19.2)));
    assert_eq!(
        told(&made),
        ["cotton loses 4 % of its length and 2 % of its width in the first wash and is cut as it comes: every size \
             is before washing; an order with washing='washed first' allows for it."]
    );
    let lines = "sizes are before washing: cotton loses 4 % of its length and 2 % of its width in the first wash";
    assert_eq!(label(&made), [lines]);
    check(&made.steps, "step | what to do\n1 | Hem it.");
}

#[test]
fn an_order_says_otherwise_than_the_list() {
    let shop = shop(&cotton("as it comes"), "");
    let mut ticket = panel_of(&shop, "cotton");
    ticket.washing = Some(Washing::WashedFirst);
    let (length, _) = charged(&made(&ticket, &shop));
    assert!((length - 100.0).abs() < 1e-9, "{length}");
}

#[test]
fn what_nobody_has_measured_is_cut_as_it_comes_and_the_label_says_so() {
    let shop = shop("cotton,cloth,45 in,20 yd,$7.20,yd,1/8 yd,,no,no,,,washed first,,\n", "");
    let made = made(&panel_of(&shop, "cotton"), &shop);
    let (length, _) = charged(&made);
    assert!((length - 96.0).abs() < 1e-9, "{length}");
    assert_eq!(label(&made), [": what cotton loses in the first wash is not known; wash a test piece"]);
    assert_eq!(
        told(&made),
        ["What cotton loses in the first wash is not known, so nothing allows for it: wash a test piece, 8 in or 20 \
             cm each way, and write what it lost into materials.csv."]
    );
}

/// The panel wants 100 in before washing: 102 in unwashed hold it, 2 in are left and stay unwashed; 97 in washed hold
/// it, 1 in is left.
#[test]
fn the_shelf_counts_unwashed_lengths_with_their_washed_size() {
    let of = |stock: &str| {
        let shop = shop(&cotton("washed first"), stock);
        made(&panel_of(&shop, "cotton"), &shop)
    };
    let leftovers = |made: &Made| {
        let table = OrderSection::named("leftovers").unwrap().table(&made.order).unwrap().unwrap();
        drawn(&table)
    };
    let too_short = of("A,cotton,,1,99 in,,,,,\n");
    assert_eq!(drawn(&too_short.buy_list).lines().nth(1).unwrap().split(" | ").nth(4), Some("2 7/8 yd"));
    let unwashed = of("A,cotton,,1,102 in,,,,,\n");
    check(
        &unwashed.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
cotton | 2 yd 28 in | 2 yd 28 in | 0 yd | nothing |  | from A; before washing",
    );
    assert!(
        told(&unwashed)[0].starts_with("Wash and press 100 in of cotton (A) before it is cut."),
        "{:?}",
        told(&unwashed)
    );
    assert_eq!(leftovers(&unwashed), "stock | material | lot | count | along | across\nA | cotton |  | 1 | 2 in |");
    let washed = of("A,cotton,,1,97 in,44 in,yes,,,\n");
    check(
        &washed.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
cotton | 2 yd 24 in | 2 yd 24 in | 0 yd | nothing |  | from A",
    );
    assert_eq!(told(&washed), ["cotton is washed already, and loses nothing more."]);
    assert_eq!(
        leftovers(&washed),
        "stock | material | lot | count | along | across | washed\nA | cotton |  | 1 | 1 in | 44 in | yes"
    );
}

/// Two panels of one garment: a washed and an unwashed length hold one each, and new cloth is taken instead.
#[test]
fn washed_and_unwashed_cloth_are_not_mixed_in_a_garment() {
    let shop = shop(&cotton("washed first"), "A,cotton,,1,97 in,,yes,,,\nB,cotton,,1,102 in,,,,,\n");
    let mut ticket = panel_of(&shop, "cotton");
    ticket.pieces[0].piece.count = 2;
    let stock = |ticket: &Ticket| {
        let made = made(ticket, &shop);
        let uses = made.order.lays().unwrap()[0].plan.uses.clone();
        (uses.into_iter().map(|used| used.stock).collect::<Vec<_>>(), made.plan_notes.clone())
    };
    // The unwashed length holds one of them, as new cloth is unwashed too.
    let (names, notes) = stock(&ticket);
    assert_eq!(names, ["B", "new cloth"]);
    assert_eq!(
        notes,
        ["not used though more is bought: A, which is washed; no garment is cut from washed and unwashed cloth"]
    );
    // Two garments of one panel each take one length each.
    ticket.pieces[0].piece.count = 1;
    ticket.garments = 2;
    assert_eq!(stock(&ticket).0, ["A", "B"]);
    // One of them is washed for the order, which is enough to say so.
    let list = drawn(&made(&ticket, &shop).buy_list);
    assert!(list.ends_with(" | from A and B; before washing"), "{list}");
    // Cut longer, a washed length is left.
    ticket.washing = Some(Washing::CutLonger);
    assert_eq!(stock(&ticket).0, ["B", "new cloth"]);
    let made = made(&ticket, &shop);
    assert_eq!(
        told(&made)[1],
        "A of cotton is washed already and left on the shelf; washing='washed first' uses what is washed."
    );
}

/// Own arithmetic: 19 in are left of 19 / 0.95 = 20 in.
#[test]
fn elastic_and_tape_have_a_loss_of_their_own() {
    let row = |washing: &str| format!("elastic,notion,1 in,50 yd,$0.90,yd,1 in,,no,no,5 %,0 %,{washing},,\n");
    let needed = |washing: &str| {
        let shop = shop(&format!("{}{}", cotton("as it comes"), row(washing)), "");
        let mut ticket = panel_of(&shop, "cotton");
        ticket.materials.push(listed(&shop, "elastic"));
        ticket.needs = vec![need(1, Length::inches(19.0).into(), "waist")];
        let made = made(&ticket, &shop);
        let Cell::Quantity(needed) = &made.buy_list.rows()[1][1] else { panic!("{}", drawn(&made.buy_list)) };
        let ready = OrderSection::named("have_ready").unwrap().table(&made.order).unwrap().unwrap();
        let Cell::Quantity(each) = &ready.rows()[0][2] else { panic!("{}", drawn(&ready)) };
        assert_eq!(Length::try_from(*needed).unwrap(), Length::try_from(*each).unwrap());
        (Length::try_from(*needed).unwrap(), told(&made).pop().unwrap())
    };
    let (first, longer, as_it_comes) = (needed("washed first"), needed("cut longer"), needed("as it comes"));
    assert_eq!((first.0, longer.0, as_it_comes.0), (Length::inches(20.0), Length::inches(20.0), Length::inches(19.0)));
    assert_eq!(
        first.1,
        "elastic loses 5 % of its length in the first wash: each length is taken longer by that; wash it before it is \
         sewn in."
    );
    assert_eq!(as_it_comes.1, "elastic loses 5 % of its length in the first wash and is taken as it comes.");
    // Nothing said is nothing done.
    assert_eq!(needed("").0, Length::inches(19.0));
}

#[test]
fn a_lining_that_loses_more_than_its_face_is_a_caution() {
    let named = |input: &str, of_face: &str, of_lining: &str| {
        let row = |name: &str, loss: &str| format!("{name},cloth,54 in,,$7,yd,1/8 yd,,no,no,{loss},,\n");
        let shop = shop(&format!("{}{}", row("linen", of_face), row("sateen", of_lining)), "");
        let mut ticket = panel_of(&shop, "linen");
        ticket.materials[0].input = Some("face".to_owned());
        ticket.materials.push(TicketMaterial { input: Some(input.to_owned()), ..listed(&shop, "sateen") });
        ticket.pieces.push(piece("lining", 1, Shape::FullWidth { along: Length::inches(96.0) }, 1));
        let made = made(&ticket, &shop);
        let keys = made.cautions.values("key").unwrap().zip(made.cautions.values("caution").unwrap());
        let found = keys.filter(|(key, _)| **key == Cell::from("lining-shrinks"));
        found
            .map(|(_, text)| if let Cell::Text(text) = text { text.clone() } else { String::new() })
            .collect::<Vec<_>>()
    };
    let cautions = |of_face: &str, of_lining: &str| named("lining", of_face, of_lining);
    assert_eq!(
        cautions("3 %,2 %,as it comes", "5 %,2 %,as it comes"),
        ["The lining, sateen, loses 5 % of its length and 2 % of its width when it is washed, and linen 3 % of its \
             length and 2 % of its width: it will draw the face up. Wash the lining first, cut it longer, or clean the \
             whole dry."]
    );
    assert_eq!(cautions("3 %,2 %,washed first", "3 %,2 %,as it comes").len(), 1);
    assert_eq!(cautions("3 %,2 %,as it comes", "3 %,2 %,as it comes").len(), 0);
    assert_eq!(named("interlining", "3 %,2 %,as it comes", "5 %,2 %,as it comes").len(), 0);
    assert_eq!(named("curtain lining", "3 %,2 %,as it comes", "5 %,2 %,as it comes").len(), 1);
    assert_eq!(cautions("3 %,2 %,as it comes", "5 %,2 %,washed first").len(), 0);
    assert_eq!(cautions("3 %,2 %,as it comes", "5 %,2 %,cut longer").len(), 0);
}

/// Four drops of 240 cm on a half drop of 64 cm at 4 %: washed, the repeat is 61.44 cm; cut longer, a drop is 250 cm.
/// Whatever the plan, the length before washing is the same.
#[test]
fn a_plan_of_washed_cloth_and_one_of_longer_drops_agree() {
    let row = |half: &str| format!("print,cloth,137 cm,,$20,m,1 mm,64 cm,{half},yes,4 %,0 %,washed first,,\n");
    for half in ["yes", "no"] {
        let shop = shop(&row(half), "");
        let mut ticket = Ticket::new("drops", "Drops.");
        ticket.materials = vec![listed(&shop, "print")];
        let mut drop = piece("drop", 0, Shape::FullWidth { along: Length::centimetres(240.0) }, 4);
        drop.piece.matching = Some(crate::piece::Matching::RunOn);
        ticket.pieces = vec![drop];
        let lay = |washing: Washing| {
            let ticket = Ticket { washing: Some(washing), ..ticket.clone() };
            let made = made(&ticket, &shop);
            let lay = made.order.lays().unwrap()[0].clone();
            let starts: Vec<f64> =
                lay.plan.uses.iter().flat_map(|used| &used.cuts).map(|cut| cut.from.in_centimetres()).collect();
            (lay.plan.length_used.in_centimetres(), lay.length_before_washing().in_centimetres(), starts)
        };
        let (washed, longer) = (lay(Washing::WashedFirst), lay(Washing::CutLonger));
        assert!((washed.1 - longer.1).abs() < 1e-4, "{washed:?} {longer:?}");
        assert!((washed.0 / 0.96 - longer.0).abs() < 1e-4);
        for (washed, longer) in washed.2.iter().zip(&longer.2) {
            assert!((washed / 0.96 - longer).abs() < 1e-4, "{washed} {longer}");
        }
    }
}

/// An order of so many drops of 240 cm of a print, matched from width to width.
fn drops(shop: &Workshop, count: i64, washing: Washing) -> Ticket {
    let mut ticket = Ticket::new("drops", "Drops.");
    ticket.materials = vec![listed(shop, "print")];
    ticket.washing = Some(washing);
    let mut drop = piece("drop", 0, Shape::FullWidth { along: Length::centimetres(240.0) }, count);
    drop.piece.matching = Some(crate::piece::Matching::RunOn);
    ticket.pieces = vec![drop];
    ticket
}

/// The lengths of an order's first cloth that are cut, each with the marks where its cuts start, in centimetres.
fn starts(made: &Made) -> Vec<(String, Vec<f64>)> {
    let used = made.order.lays().unwrap()[0].plan.uses.iter();
    let tenth = |cut: &crate::cutting::Cut| (cut.from.in_centimetres() * 10.0).round() / 10.0;
    used.map(|used| (used.stock.clone(), used.cuts.iter().map(tenth).collect())).collect()
}

/// At 4 % the repeat of 64 cm is 61.44 cm on what is washed. As it comes the second drop starts at 4 × 64 = 256 cm; washed
/// first, on the washed length, at 4 × 61.44 = 245.76 cm. Without a match the washed length serves either way.
#[test]
fn a_washed_length_does_not_meet_the_pattern_of_unwashed_cloth() {
    let shop_of = |loss: &str| {
        let row = format!("print,cloth,137 cm,,$20,m,1 mm,64 cm,no,no,{loss},,,\n");
        shop(&row, "A,print,,1,20 m,137 cm,yes,,,\n")
    };
    let shop = shop_of("4 %,0 %");
    let made_of = |ticket: &Ticket| made(ticket, &shop);
    let as_it_comes = made_of(&drops(&shop, 2, Washing::AsItComes));
    assert_eq!(starts(&as_it_comes), [("new cloth".to_owned(), vec![0.0, 256.0])]);
    assert_eq!(
        told(&as_it_comes)[1],
        "A of print is washed already and left on the shelf: the wash made the pattern smaller, so it does not meet that \
         of unwashed cloth; washing='washed first' uses what is washed."
    );
    let first = made_of(&drops(&shop, 2, Washing::WashedFirst));
    assert_eq!(starts(&first), [("A".to_owned(), vec![0.0, 245.8])]);
    let mut plain = drops(&shop, 2, Washing::AsItComes);
    plain.pieces[0].piece.matching = None;
    assert_eq!(starts(&made_of(&plain)), [("A".to_owned(), vec![0.0, 240.0])]);
    // Nobody has measured the loss: nor is it known how small the washed pattern is.
    let shop = shop_of(",");
    let unknown = made(&drops(&shop, 2, Washing::AsItComes), &shop);
    assert_eq!(starts(&unknown), [("new cloth".to_owned(), vec![0.0, 256.0])]);
    assert!(told(&unknown)[0].ends_with("does not meet that of unwashed cloth."), "{:?}", told(&unknown));
    // Where nothing is lost, washed cloth is as good as any.
    let shop = shop_of("0 %,0 %");
    let none = made(&drops(&shop, 2, Washing::AsItComes), &shop);
    assert_eq!(starts(&none), [("A".to_owned(), vec![0.0, 256.0])]);
}

/// A shift of 24 cm on 64 cm: behind 240 cm the next of the row starts at 4 × 64 + 24 = 280 cm. Washed at 4 % both are
/// smaller, 61.44 and 23.04 cm: 4 × 61.44 + 23.04 = 268.8 cm.
#[test]
fn washed_first_makes_the_repeat_and_its_shift_smaller() {
    let shop = shop("print,cloth,137 cm,,$20,m,1 mm,64 cm,24 cm,no,4 %,0 %,,,\n", "");
    let of = |washing: Washing| {
        let made = made(&drops(&shop, 2, washing), &shop);
        let repeat = made.order.lays().unwrap()[0].goods.repeat.unwrap();
        let sizes = [repeat.along, repeat.shift].map(|length| (length.in_centimetres() * 100.0).round());
        (starts(&made)[0].1.clone(), sizes)
    };
    assert_eq!(of(Washing::AsItComes), (vec![0.0, 280.0], [6400.0, 2400.0]));
    assert_eq!(of(Washing::WashedFirst), (vec![0.0, 268.8], [6144.0, 2304.0]));
}

/// A drop of 256.155 cm stands nearest the mark 256.2 cm, which is past the next start, 4 × 64.04 = 256.16 cm: rounded, two
/// that start alike would take 320.2 + 256.2 cm. The shift of 24 cm is no start of theirs.
#[test]
fn a_drop_is_not_rounded_past_the_next_start() {
    let shop = shop("print,cloth,137 cm,,$20,m,1 mm,64.04 cm,24 cm,no,0 %,0 %,,,\n", "");
    let mut ticket = drops(&shop, 2, Washing::AsItComes);
    ticket.pieces[0].piece.shape = Shape::FullWidth { along: Length::centimetres(256.155) }.into();
    ticket.pieces[0].piece.matching = Some(crate::piece::Matching::Level);
    let lay = made(&ticket, &shop).order.lays().unwrap()[0].clone();
    assert!((lay.plan.length_used.in_centimetres() - (256.16 + 256.155)).abs() < 1e-5, "{:?}", lay.plan.length_used);
    // Where no start lies between, a mark of the tape is better.
    ticket.pieces[0].piece.shape = Shape::FullWidth { along: Length::centimetres(255.155) }.into();
    let lay = made(&ticket, &shop).order.lays().unwrap()[0].clone();
    assert!((lay.plan.uses[0].cuts[0].to.in_centimetres() - 255.2).abs() < 1e-6);
}

/// A washed tape loses nothing more: 19 in come off it where unwashed tape gives 19 / 0.95 = 20 in. Washed lengths of 40 in
/// hold two, one of 19 in holds one.
#[test]
fn a_washed_tape_is_cut_no_longer() {
    let of = |washing: &str, stock: &str, count: i64| {
        let row = format!("elastic,notion,1 in,50 yd,$0.90,yd,1 in,,no,no,5 %,0 %,{washing},,\n");
        let shop = shop(&format!("{}{row}", cotton("as it comes")), stock);
        let mut ticket = panel_of(&shop, "cotton");
        ticket.materials.push(listed(&shop, "elastic"));
        ticket.needs = vec![Need { count, ..need(1, Length::inches(19.0).into(), "waist") }];
        let made = made(&ticket, &shop);
        let bill = drawn(&made.buy_list).lines().nth(2).unwrap().to_owned();
        let cuts = OrderSection::named("small_cuts").unwrap().table(&made.order).unwrap().unwrap();
        (bill, drawn(&cuts).lines().skip(1).map(str::to_owned).collect::<Vec<_>>(), told(&made).pop().unwrap())
    };
    for washing in ["washed first", "cut longer"] {
        let (bill, cuts, told) = of(washing, "E1,elastic,,1,40 in,,yes,,,\n", 2);
        assert_eq!(bill, "elastic | 38 in | 38 in | 0 in | nothing |  | from E1");
        assert_eq!(cuts, ["elastic | E1 | 2 | 19 in | 0 in | 38 in | 2 in | waist"]);
        assert_eq!(told, "elastic is cut from E1, which is washed already and loses nothing more.");
        let (bill, cuts, told) = of(washing, "E1,elastic,,1,19 in,,yes,,,\n", 2);
        assert_eq!(bill, "elastic | 39 in | 19 in | 20 in | 20 in | $0.50 | from E1");
        assert_eq!(
            cuts,
            [
                "elastic | E1 | 1 | 19 in | 0 in | 19 in | 0 in | waist",
                "elastic | new | 1 | 20 in | 0 in | 20 in |  | waist"
            ]
        );
        assert!(told.ends_with("What is cut from E1 is washed already and is cut no longer."), "{told}");
        // Of 19 1/2 in unwashed only 18.525 in would be left.
        assert!(of(washing, "E1,elastic,,1,19 1/2 in,,,,,\n", 1).0.ends_with("too short on the shelf: E1"));
    }
    assert_eq!(
        of("as it comes", "E1,elastic,,1,40 in,,yes,,,\n", 2).1,
        ["elastic | E1 | 2 | 19 in | 0 in | 38 in | 2 in | waist"]
    );
}

/// A cloth, its shelf and a list of pieces.
#[derive(Clone, Debug)]
struct Case {
    shop: Workshop,
    ticket: Ticket,
    along: f64,
    across: f64,
}

fn any_case(lost: bool) -> impl Strategy<Value = Case> {
    let percent = move |most: u8| if lost { (1..most).boxed() } else { Just(0).boxed() };
    let stock = prop::collection::vec((5_u8..120, any::<bool>(), any::<bool>(), 1_u8..3), 0..4);
    let grain = prop::sample::select(vec![Grain::Along, Grain::Across, Grain::Any]);
    let one = (2.0..30.0_f64, 2.0..30.0_f64, 1..4_i64, grain, any::<bool>());
    let pieces = prop::collection::vec(one, 1..4);
    (percent(13), percent(11), 40_u8..60, stock, pieces, 1..4_i64).prop_map(
        |(along, across, width, stock, pieces, garments)| {
            let stock: String = (stock.iter().enumerate())
                .map(|(at, (length, washed, lot, count))| {
                    let (lot, washed) = (if *lot { "L" } else { "" }, if *washed { "yes" } else { "no" });
                    format!("S{at},cotton,{lot},{count},{length} in,,{washed},,,\n")
                })
                .collect();
            let row = format!("cotton,cloth,{width} in,,$7.20,yd,1/8 yd,,no,no,{along} %,{across} %,,,100 % cotton\n");
            let shop = shop(&row, &stock);
            let mut ticket = Ticket::new("any", "");
            ticket.materials = vec![listed(&shop, "cotton")];
            ticket.garments = garments;
            let pieces = pieces.into_iter().enumerate().map(|(at, (long, wide, count, grain, full))| {
                let (along, across) = (Length::inches(long), Length::inches(wide));
                let shape = if full { Shape::FullWidth { along } } else { Shape::Rectangle { along, across } };
                let mut piece = piece(&format!("piece {at}"), 0, shape, count);
                piece.piece.grain = if full { Grain::Along } else { grain };
                piece
            });
            ticket.pieces = pieces.collect();
            Case { shop, ticket, along: f64::from(along) / 100.0, across: f64::from(across) / 100.0 }
        },
    )
}

const NEAR: f64 = 100.0;

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(96) })]

    /// Worked from the list and the shelf alone: what is bought and what is taken, washed, reaches the last cut; each
    /// piece has its size after the wash; no garment is of washed and of unwashed cloth.
    #[test]
    fn what_is_bought_washed_and_cut_covers_every_piece(
        case in any_case(true), washing in prop::sample::select(vec![Washing::WashedFirst, Washing::CutLonger]),
    ) {
        let Case { shop, ticket, along, across } = &case;
        let ticket = Ticket { washing: Some(washing), ..ticket.clone() };
        let made = made(&ticket, shop);
        let lay = &made.order.lays().unwrap()[0];
        // What a length has after cutting, if all of its wash comes before or after.
        let width = ticket.materials[0].material.usable_width.unwrap().steps();
        let (mut taken_new, mut garments) = (0.0, BTreeMap::new());
        for used in &lay.plan.uses {
            let end = used.cuts.iter().map(|cut| cut.to.steps()).fold(0.0, f64::max);
            let (held, washed) = match used.source {
                StockSource::Shelf { .. } => {
                    let stock = shop.stock.find(&used.stock).unwrap();
                    (stock.along.unwrap().steps(), stock.washed)
                }
                StockSource::New { .. } => (f64::INFINITY, false),
            };
            prop_assert!(!(washed && washing == Washing::CutLonger));
            let before = if washed || washing == Washing::CutLonger { end } else { end / (1.0 - along) };
            prop_assert!(before <= held + NEAR, "{before} of {held}");
            if matches!(used.source, StockSource::New { .. }) {
                taken_new += before;
            }
            for cut in &used.cuts {
                let piece = &ticket.pieces[cut.entry].piece;
                let (long, wide) = match *piece.shape {
                    Shape::Rectangle { along, across } => (along.steps(), across.steps()),
                    Shape::FullWidth { along } => (along.steps(), width * (1.0 - across)),
                    _ => unreachable!(),
                };
                let (long, wide) = if cut.lie == Lie::Across { (wide, long) } else { (long, wide) };
                let left = match washing {
                    Washing::CutLonger => (1.0 - along, 1.0 - across),
                    _ => (1.0, 1.0),
                };
                // Half a mark of the tape is what any cut may be short of its exact size.
                let short = if washing == Washing::CutLonger { NEAR } else { Length::inches(1.0 / 16.0).steps() + NEAR };
                prop_assert!((cut.to - cut.from).steps() * left.0 >= long - short);
                prop_assert!((cut.across_to - cut.across_from).steps() * left.1 >= wide - short);
                let widest = if washing == Washing::WashedFirst { width * (1.0 - across) } else { width };
                prop_assert!(cut.across_to.steps() <= widest + NEAR);
                let garment = (cut.number - 1) / piece.count;
                prop_assert_eq!(*garments.entry(garment).or_insert(washed), washed, "garment {}", garment);
            }
        }
        let Cell::Quantity(bought) = &made.buy_list.rows()[0][3] else { panic!() };
        prop_assert!(bought.steps() >= taken_new - NEAR, "{}", drawn(&made.buy_list));
        let left = if washing == Washing::WashedFirst { 1.0 - along } else { 1.0 };
        prop_assert!((lay.length_before_washing().steps() * left - lay.plan.length_used.steps()).abs() <= NEAR);
    }

    #[test]
    fn without_a_loss_nothing_changes(case in any_case(false)) {
        let all = Washing::WORDS.map(|(_, washing)| {
            let made = made(&Ticket { washing: Some(washing), ..case.ticket.clone() }, &case.shop);
            let tables: Vec<String> = made.all().iter().map(|table| drawn(table)).collect();
            (drawn(&made.plan().unwrap()), tables, made.price, made.plan_sentences.clone(), told(&made))
        });
        prop_assert_eq!(&all[0], &all[1]);
        prop_assert_eq!(&all[1], &all[2]);
        prop_assert!(all[0].4.is_empty());
    }
}
