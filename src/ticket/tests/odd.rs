//! Tickets and workshops that are empty, hold too much, or hold entries that do not belong.

use super::*;
use crate::diagnostic::Diagnose;
use crate::piece::MaterialKind;
use crate::quantity::{Time, Unit};
use crate::ticket::LayError;
use crate::workshop::{Material, Overhead, PriceFor, Rates, SoldBy};

fn cloth(width: f64, price: Option<f64>) -> TicketMaterial {
    let material = Material {
        name: "any skirt cloth".to_owned(),
        kind: MaterialKind::Cloth,
        usable_width: Some(Length::inches(width)),
        put_up: None,
        price: price.map(money),
        price_for: PriceFor::Length(Length::yards(1.0)),
        sold_by: SoldBy::Step(Length::from_steps(Unit::Millimetre.steps())),
        repeat: None,
        repeat_across: None,
        nap: false,
        shrink_along: None,
        shrink_across: None,
        washing: None,
        weight: None,
        fibre: None,
    };
    TicketMaterial { input: Some("cloth".to_owned()), listed: false, material }
}

fn with(material: TicketMaterial, pieces: Vec<TicketPiece>) -> Ticket {
    let mut ticket = Ticket::new("skirt", "A skirt.");
    ticket.materials = vec![material];
    ticket.pieces = pieces;
    ticket
}

fn panel(along: Length, across: Length, count: i64) -> TicketPiece {
    piece("panel", 0, Shape::Rectangle { along, across }, count)
}

/// Corners in inches, each as across and along.
fn outline(corners: &[(f64, f64)]) -> Shape {
    let corner =
        |(across, along): &(f64, f64)| OutlinePoint { along: Length::inches(*along), across: Length::inches(*across) };
    Shape::Outline(corners.iter().map(corner).collect())
}

fn refused(ticket: &Ticket) -> LayError {
    Made::of(ticket, &Workshop::default(), false).err().unwrap()
}

#[test]
fn an_empty_ticket_in_no_workshop_has_empty_tables_and_no_price() {
    let made = made(&Ticket::new("nothing", ""), &Workshop::default());
    for table in made.all() {
        assert!(table.is_empty(), "{}:\n{}", table.name(), drawn(&table));
    }
    assert_eq!((made.price, made.price_each, made.pieces), (None, None, 0));
    assert_eq!(made.summary(&Style::default()), "0 pieces to cut, minutes not known, no price");
    let all = made.all();
    let names: Vec<&str> = all.iter().map(|table| table.name()).collect();
    let wanted = [
        "small_cuts",
        "cut_list",
        "buy_list",
        "leftovers",
        "stitching",
        "thread",
        "minutes",
        "cost",
        "price_lines",
        "not_in_price",
        "totals",
        "marks",
        "steps",
        "cautions",
        "labels",
    ];
    assert_eq!(names, wanted);
    assert!(OrderSection::of_member("cut_list").is_some() && OrderSection::of_member("cuts").is_none());
}

#[test]
fn unpriced_cloth_and_untimed_work_are_words_and_no_zero() {
    let mut ticket = with(cloth(45.0, None), vec![panel(Length::inches(20.0), Length::inches(45.0), 2)]);
    ticket.work = vec![work("sew a seam", Quantity::number(2.0))];
    let made = made(&ticket, &Workshop::default());
    check(
        &made.cost,
        "
line | amount | money | note
any skirt cloth | 1 yd 4 in |  | no price in your list
labour |  |  | no rate",
    );
    assert!(made.price_lines.is_empty());
    check(
        &made.not_in_price,
        "
line | money | note
bought for this order |  | what must be bought, without any skirt cloth: no price in your list",
    );
    check(
        &made.totals,
        "
total | amount | note
minutes |  | no rate for “sew a seam”
cost |  | leaves out: any skirt cloth (no price in your list), labour (no rate)",
    );
    assert_eq!(made.total_minutes, None);
    assert_eq!(
        made.summary(&Style::default()),
        "2 pieces to cut, minutes not known, no price; the price leaves out: any skirt cloth, labour"
    );
    assert_eq!(made.price, None);
    assert_eq!(made.buy_list.cell(1, "price"), Ok(&Cell::Blank));
}

#[test]
fn unlisted_cloth_is_bought_by_the_exact_length() {
    let made = made(
        &with(cloth(45.0, Some(6.0)), vec![panel(Length::inches(20.0), Length::inches(45.0), 2)]),
        &Workshop::default(),
    );
    check(
        &made.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
any skirt cloth | 1 yd 4 in | 0 yd | 1 yd 4 in | 1 yd 4 in | $6.67 |",
    );
    assert_eq!(made.price, Some(money(6.67)));
    // The recipe says no work: nobody knows the minutes, and the price has no labour in it.
    assert_eq!(
        made.summary(&Style::default()),
        "2 pieces to cut, minutes not known, $6.67; the price leaves out: labour"
    );
    check(
        &made.totals,
        "
total | amount | note
minutes |  | the recipe says no work
cost | $6.67 | leaves out: labour (the recipe says no work)
price | $6.67 | leaves out: labour
goods with an empty shelf | $6.67 | what is not in the price, added up",
    );
}

#[test]
fn overhead_by_the_minute_is_left_out_in_words_where_no_minute_is_known() {
    let mut ticket = with(cloth(45.0, Some(6.0)), vec![panel(Length::yards(1.0), Length::inches(45.0), 1)]);
    ticket.work = vec![work("sew a seam", Quantity::number(2.0))];
    let an_hour = Quantity::money(6.0).per(Quantity::of(1.0, Unit::Hour)).unwrap();
    let rates = Rates { overhead: Some(Overhead::ByTime(an_hour)), ..Rates::default() };
    let made = made(&ticket, &Workshop { rates, ..Workshop::default() });
    assert_eq!(made.left_out, ["labour", "overhead"]);
    assert_eq!(money_of(&made.price_lines, "cost"), Some(money(6.0)));
}

#[test]
fn mark_up_fee_lowest_price_and_ending_each_have_their_line() {
    let ticket = with(cloth(45.0, Some(6.0)), vec![panel(Length::yards(1.0), Length::inches(45.0), 1)]);
    // $6.00 and 10 % overhead; a mark-up of 100 % of the cost; a fee of 25 % of the price.
    let rates = Rates { overhead: Some(Overhead::Share(0.1)), mark_up: Some(1.0), fee: Some(0.25), ..Rates::default() };
    let mut shop = Workshop { rates, ..Workshop::default() };
    assert_eq!(money_of(&made(&ticket, &shop).cost, "overhead"), Some(money(0.6)));
    let money_of = |shop: &Workshop, line: &str| {
        let made = made(&ticket, shop);
        assert_eq!(Some(sum_of(&made.price_lines)), made.price);
        if line == "price" { made.price } else { money_of(&made.price_lines, line) }
    };
    assert_eq!(money_of(&shop, "mark-up"), Some(money(6.6)));
    assert_eq!(money_of(&shop, "fee"), Some(money(4.4)));
    assert_eq!(money_of(&shop, "price"), Some(money(17.6)));
    shop.rates.minimum = Some(money(18.0));
    shop.settings.price_ending = Some(money(0.95));
    // The fee is a quarter of the final price, 4.7375; three quarters of the raise to $18.00 are kept.
    assert_eq!(money_of(&shop, "fee"), Some(money(4.74)));
    assert_eq!(money_of(&shop, "up to the lowest price"), Some(money(0.3)));
    assert_eq!(money_of(&shop, "rounded up"), Some(money(0.71)));
    assert_eq!(money_of(&shop, "price"), Some(money(18.95)));
    shop.settings.price_ending = None;
    assert_eq!(money_of(&shop, "fee"), Some(money(4.5)));
    assert_eq!(money_of(&shop, "up to the lowest price"), Some(money(0.3)));
    assert_eq!(money_of(&shop, "price"), Some(money(18.0)));
}

/// $6.00 of cloth and no fee: to $7.80 the lowest price adds 1.80, and the next price that ends in .95 adds 0.15.
#[test]
fn without_a_fee_the_lowest_price_and_the_ending_are_raised_whole() {
    let ticket = with(cloth(45.0, Some(6.0)), vec![panel(Length::yards(1.0), Length::inches(45.0), 1)]);
    let mut shop = Workshop { rates: Rates { minimum: Some(money(7.8)), ..Rates::default() }, ..Workshop::default() };
    shop.settings.price_ending = Some(money(0.95));
    let made = made(&ticket, &shop);
    assert_eq!(money_of(&made.price_lines, "up to the lowest price"), Some(money(1.8)));
    assert_eq!(money_of(&made.price_lines, "rounded up"), Some(money(0.15)));
    assert_eq!(made.price, Some(money(7.95)));
}

/// Whatever the cost: a lowest price is the price to the cent, and the lines that lead to it add up.
#[test]
fn a_lowest_price_is_met_to_the_cent() {
    for cents in (101..1900).step_by(37) {
        let cost = f64::from(cents) / 100.0;
        let ticket = with(cloth(45.0, Some(cost)), vec![panel(Length::yards(1.0), Length::inches(45.0), 1)]);
        let rates = Rates { fee: Some(0.07), minimum: Some(money(25.0)), ..Rates::default() };
        let made = made(&ticket, &Workshop { rates, ..Workshop::default() });
        assert_eq!(made.price, Some(money(25.0)), "{cost}");
        assert_eq!(sum_of(&made.price_lines), money(25.0), "{cost}");
        // The fee is a share of what is asked: 1.75 of 25.00.
        assert_eq!(money_of(&made.price_lines, "fee"), Some(money(1.75)), "{cost}");
    }
}

/// A mark-up of nothing is no part of what a price pays for.
#[test]
fn a_price_is_parted_into_what_costs_something() {
    let ticket = with(cloth(45.0, Some(6.0)), vec![panel(Length::yards(1.0), Length::inches(45.0), 1)]);
    let rates = Rates { mark_up: Some(0.0), fee: Some(0.25), ..Rates::default() };
    let made = made(&ticket, &Workshop { rates, ..Workshop::default() });
    let parts = made.order.order_price().unwrap_or_else(|error| panic!("{}", error.message(&Style::default()))).parts();
    let money_of_parts: Vec<Money> = parts.iter().map(|(_, money)| *money).collect();
    assert_eq!(money_of_parts, [money(6.0), money(2.0)]);
    assert_eq!(money_of(&made.price_lines, "mark-up"), Some(money(0.0)));
}

/// Something is cut and nobody says how long it takes: the minutes are not known, and no wage is paid for them.
#[test]
fn what_is_cut_without_a_word_of_work_has_no_known_minutes() {
    let ticket = with(cloth(45.0, Some(6.0)), vec![panel(Length::yards(1.0), Length::inches(45.0), 1)]);
    let wage = Quantity::money(20.0).per(Quantity::of(1.0, Unit::Hour)).unwrap();
    let shop = Workshop { rates: Rates { wage: Some(wage), ..Rates::default() }, ..Workshop::default() };
    let cut = made(&ticket, &shop);
    assert_eq!(cut.total_minutes, None);
    assert_eq!(cut.left_out, ["labour"]);
    let nothing = made(&Ticket::new("nothing", ""), &shop);
    assert_eq!(nothing.left_out, [""; 0]);
}

#[test]
fn shapes_and_notes_are_said_in_words() {
    let inches = Length::inches;
    let mut panel = panel(inches(20.1), inches(45.0), 2);
    panel.piece.on_fold = Some(Fold::Along);
    panel.piece.may_join = Some(JoinRule::new(1, inches(6.0), inches(0.5)));
    panel.piece.never_smaller = true;
    let ring = Shape::Sector { inner: inches(4.0), outer: inches(20.0), turn: 0.5 };
    let flag = outline(&[(0.0, 0.0), (8.0, 0.0), (4.0, 10.0)]);
    let facing = Shape::Rectangle { along: Length::centimetres(5.0), across: Length::centimetres(30.0) };
    let mut sleeve = piece("flag", 0, flag, 2);
    (sleeve.piece.mirrored, sleeve.piece.grain) = (true, Grain::Bias);
    let pieces =
        vec![panel, piece("skirt", 0, ring, 1), sleeve, TicketPiece { once: true, ..piece("facing", 0, facing, 1) }];
    let mut ticket = with(cloth(60.0, None), pieces);
    ticket.garments = 2;
    check(
        &made(&ticket, &Workshop::default()).cut_list,
        "
piece | material | count | shape | along | across | grain | notes
panel | any skirt cloth | 4 | rectangle | 20 1/8 in | 45 in | along | on the fold, the fold along the piece; may be joined (one join, no part under 6 in, 1/2 in at each side of a join); rounded up
skirt | any skirt cloth | 2 | half ring, radius 4 in to 20 in | 40 in | 20 in | along | the size is that of the rectangle round it
flag | any skirt cloth | 4 | shaped, see picture | 10 in | 8 in | bias | the size is that of the rectangle round it; in pairs, left and right
facing | any skirt cloth | 1 | rectangle | ≈ 2 in | ≈ 11 3/4 in | along | once for the order; exactly 5 cm by 30 cm",
    );
}

#[test]
fn a_ticket_all_in_centimetres_is_shown_so_in_an_inch_workshop() {
    let metric = panel(Length::centimetres(50.0), Length::centimetres(30.0), 1);
    let made = made(&with(cloth(45.0, None), vec![metric]), &Workshop::default());
    assert_eq!(made.cut_list.columns()[4].heading_with_unit('$'), "along (cm)");
    assert_eq!(made.stitching.columns()[2].heading_with_unit('$'), "length (m)");
}

/// A join as long as a listed elastic is wide, and a corner at nothing, are no reason to leave the tape she measured with;
/// one mark in inches is.
#[test]
fn only_what_is_cut_or_marked_decides_the_tape() {
    let corners = [(0.0, 0.0), (30.0, 0.0), (20.0, 50.0), (10.0, 50.0)].map(|(across, along)| OutlinePoint {
        across: if across > 0.0 { Length::centimetres(across) } else { Length::inches(0.0) },
        along: Length::centimetres(along),
    });
    let mut ticket = with(cloth(45.0, None), vec![piece("gore", 0, Shape::Outline(corners.to_vec()), 1)]);
    ticket.sewing = vec![sew("301", Length::inches(0.5), "join of the elastic")];
    ticket.marks = vec![mark("gore", "hem fold", Length::centimetres(4.0), "lower edge")];
    let along = |ticket: &Ticket| {
        let made = made(ticket, &Workshop::default());
        made.cut_list.columns()[4].heading_with_unit('$')
    };
    assert_eq!(along(&ticket), "along (cm)");
    ticket.marks.push(mark("gore", "hip line", Length::inches(7.0), "upper edge"));
    assert_eq!(along(&ticket), "along (in)");
}

#[test]
fn the_finest_mark_is_said_as_the_workshop_writes_figures() {
    let ticket = with(cloth(45.0, None), vec![panel(Length::centimetres(50.0), Length::centimetres(40.0), 1)]);
    for (settings, words) in [
        ("setting,value\ntape,metric\ndecimal mark,comma\n", "cm, to 0,1"),
        ("setting,value\ntape,metric\n", "cm, to 0.1"),
        ("setting,value\ntape,inch\ntape step,1/16 in\n", "cm, to 0.1"),
    ] {
        let shop = Workshop::read(&[("settings.csv", settings)]).unwrap();
        assert_eq!(Made::of(&ticket, &shop, false).unwrap().order.tape_words(), words);
    }
}

#[test]
fn pieces_side_by_side_are_told_with_their_marks() {
    let panels = panel(Length::inches(20.0), Length::inches(15.0), 5);
    let made = made(&with(cloth(45.0, None), vec![panels]), &Workshop::default());
    assert_eq!(
        made.plan_sentences,
        ["From new cloth (any skirt cloth): 5 panels, 20 in long by 15 in wide, marks 0 in to 40 in."]
    );
}

/// Own arithmetic: the second gore lies head to foot against the far selvedge, so its near edge runs from 25 in across
/// at its narrow end to 45 - 30.1 = 14.9 in at its wide end. It can start where the first has narrowed to 25 in, by 5.1
/// in of 10.1 in: at 27.9 * 5.1 / 10.1 = 14.09 in along. Both get 28 in along for 27.9 in, so they end at 42 1/8 in;
/// across, 30.1 in get 30 1/8 in.
#[test]
fn marks_along_the_cloth_add_up_for_outlines_too() {
    let shape = outline(&[(0.0, 0.0), (30.1, 0.0), (20.0, 27.9), (10.0, 27.9)]);
    let made = made(&with(cloth(45.0, None), vec![piece("gore", 0, shape, 2)]), &Workshop::default());
    assert_eq!(
        made.plan_sentences.first().map(String::as_str),
        Some(
            "From new cloth (any skirt cloth): 1 gore, 28 in long by 30 1/8 in wide, marks 0 in to 28 in, across 0 in \
             to 30 1/8 in; 1 gore, 28 in long by about 30 1/8 in wide, marks about 14 1/8 in to about 42 1/8 in, \
             across about 14 7/8 in to 45 in, turned head to foot."
        )
    );
    check(
        &made.cut_list,
        "
piece | material | count | shape | along | across | grain | notes
gore | any skirt cloth | 2 | shaped, see picture | 28 in | 30 1/8 in | along | the size is that of the rectangle round it",
    );
}

#[test]
fn things_that_do_not_belong_are_left_out_or_named() {
    let mut ticket = with(cloth(45.0, Some(6.0)), vec![panel(Length::inches(20.0), Length::inches(45.0), 1)]);
    ticket.needs =
        vec![need(7, Quantity::number(2.0), "of nothing"), need(0, Quantity::number(2.0), "cloth by the piece")];
    ticket.sewing = vec![sew("999", Length::inches(10.0), "no such stitch")];
    ticket.cautions = vec!["unheard-of".to_owned(), "blades".to_owned()];
    let made = made(&ticket, &Workshop::default());
    assert_eq!(made.left_out, ["any skirt cloth", "thread of stitch class 999", "labour"]);
    assert_eq!(made.stitching.cell(1, "thread"), Ok(&Cell::Blank));
    assert_eq!(
        made.cost.cell(2, "note"),
        Ok(&"“any skirt cloth” is sold by the length; a plain number was asked for".into())
    );
    let keys: Vec<&Cell> = made.cautions.values("key").unwrap().collect();
    assert_eq!(keys, [&"unheard-of".into(), &"blades".into(), &"iron".into()]);
}

#[test]
fn counts_beyond_any_plan_and_amounts_beyond_any_number_are_refused_in_words() {
    let mut many = with(cloth(45.0, Some(6.0)), vec![panel(Length::inches(1.0), Length::inches(1.0), 1)]);
    many.garments = i64::MAX;
    assert!(matches!(refused(&many), LayError::Cutting { .. }));
    let mut long = Ticket::new("long", "");
    long.garments = i64::MAX;
    long.sewing = vec![sew("301", Length::inches(1e300), "round the world")];
    assert_eq!(
        refused(&long).message(&Style::default()),
        "row 1 of “stitching”: the value of “length” is too large to reckon with"
    );
    let mut less = with(cloth(45.0, Some(6.0)), vec![panel(Length::inches(1.0), Length::inches(1.0), 1)]);
    less.garments = -2;
    assert!(matches!(refused(&less), LayError::Cutting { .. }));
    let mut none = Ticket::new("none", "");
    none.garments = -2;
    none.work = vec![Work {
        about: Time::try_from(Quantity::of(2.0, Unit::Minute)).ok(),
        ..work("sew", Quantity::number(2.0))
    }];
    assert_eq!(made(&none, &Workshop::default()).total_minutes, Some(Time::ZERO));
}

#[test]
fn the_stop_flag_ends_the_work() {
    let ticket = with(cloth(45.0, Some(6.0)), vec![panel(Length::inches(1.0), Length::inches(1.0), 1)]);
    assert!(Made::of(&ticket, &Workshop::default(), true).is_err());
}

/// A card whose length nobody wrote down: how many are bought cannot be said, and that is said instead of a price. What
/// is used of it costs 30 in of $2.00 a yard all the same.
#[test]
fn goods_by_the_put_up_without_its_size_have_words_and_no_price() {
    let mut tape = cloth(1.0, Some(2.0));
    tape.material.kind = MaterialKind::Notion;
    tape.material.sold_by = SoldBy::PutUp;
    tape.listed = true;
    let mut ticket = with(tape, Vec::new());
    ticket.needs = vec![need(0, Length::inches(30.0).into(), "round the edge")];
    let made = made(&ticket, &Workshop::default());
    check(
        &made.buy_list,
        "
material | needed | from the shelf | to buy | bought as | price | note
any skirt cloth | 30 in | 0 in | 30 in | 30 in |  | sold by the put-up, and its put-up is not known",
    );
    assert_eq!(made.price, Some(money(1.67)));
}
