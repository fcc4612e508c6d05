//! Properties of any order: more garments never cost less, what is bought covers what is needed, totals are the sums of
//! their lines, and no amount is negative.

use super::*;
use proptest::prelude::*;

const MATERIALS: &str = "\
material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,nap,shrink along,shrink across,weight,fibre
tulle,roll,6 in,25 yd,$6.50,put-up,put-up,,no,no,0 %,0 %,,
lawn,cloth,44 in,12 yd,$9.25,yd,1/8 yd,,no,no,0 %,0 %,,
face,cloth,137 cm,30 m,$29.00,m,0.1 m,64 cm,yes,yes,0 %,0 %,,
elastic,notion,1 in,50 yd,$0.95,yd,1/2 yd,,no,no,0 %,0 %,,
hem tape,notion,1/2 in,3 yd,$2.30,put-up,put-up,,no,no,0 %,0 %,,
hook,notion,,,$0.11,each,each,,no,no,0 %,0 %,,
button,notion,,,,each,each,,no,no,0 %,0 %,,
thread,thread,,3000 yd,$4.40,put-up,put-up,,no,no,0 %,0 %,,
";

const STOCK: &str = "\
stock,material,lot,count,along,across,price,place,held for
B1,tulle,L7,2,7 yd,,,,
C1,lawn,C3,1,2 yd,,,,
C2,lawn,C3,1,30 in,20 in,,,
E1,elastic,,3,20 in,,,,
H1,hem tape,,1,50 in,,,,
K1,hook,,9,,,,,
";

const RATES: &str = "\
operation,per,minutes,set-up,value
cut,piece,0.15 min,3 min,
gather,yd,2.2 min,10 min,
";

fn any_shop() -> impl Strategy<Value = Workshop> {
    let share = || prop::option::of(0.0..0.9_f64);
    let rates = (share(), share(), share(), prop::option::of(0.0..60.0_f64), any::<bool>(), any::<bool>());
    rates.prop_map(|(mark_up, fee, waste, minimum, wage, ending)| {
        let ending = if ending { "setting,value\nprice ending,$0.95\n" } else { "setting,value\n" };
        let wage = if wage { "wage,,,,$21/h\noverhead,,,,$5.50/h\n" } else { "overhead,,,,12 %\n" };
        let rates = format!("{RATES}{wage}");
        let mut shop = workshop(&[
            ("materials.csv", MATERIALS),
            ("stock.csv", STOCK),
            ("rates.csv", &rates),
            ("settings.csv", ending),
        ]);
        (shop.rates.mark_up, shop.rates.fee, shop.rates.waste) = (mark_up, fee, waste);
        shop.rates.minimum = minimum.map(money);
        shop
    })
}

fn any_pieces() -> impl Strategy<Value = Vec<TicketPiece>> {
    let rectangle = (1..3_usize, 1.0..43.0_f64, 1.0..43.0_f64).prop_map(|(material, along, across)| {
        (material, Shape::Rectangle { along: Length::inches(along), across: Length::inches(across) })
    });
    let strip = (0..3_usize, 1.0..200.0_f64)
        .prop_map(|(material, along)| (material, Shape::FullWidth { along: Length::inches(along) }));
    let shape = prop_oneof![rectangle, strip];
    let one =
        (shape, 1..7_i64, any::<bool>()).prop_map(|((material, shape), count, once)| (material, shape, count, once));
    prop::collection::vec(one, 0..5).prop_map(|pieces| {
        let named = pieces.into_iter().enumerate();
        let pieces = named.map(|(at, (material, shape, count, once))| TicketPiece {
            once,
            ..piece(&format!("piece {at}"), material, shape, count)
        });
        pieces.collect()
    })
}

fn any_needs() -> impl Strategy<Value = Vec<Need>> {
    let length =
        (3..5_usize, 0.0..150.0_f64).prop_map(|(material, inches)| (material, Quantity::from(Length::inches(inches))));
    let count = (5..7_usize, 0..20_u8).prop_map(|(material, count)| (material, Quantity::number(f64::from(count))));
    let one = (prop_oneof![length, count], any::<bool>());
    prop::collection::vec(one, 0..5).prop_map(|needs| {
        needs.into_iter().map(|((material, amount), once)| Need { once, ..need(material, amount, "") }).collect()
    })
}

fn any_ticket() -> impl Strategy<Value = Ticket> {
    let sewing = prop::collection::vec((prop::sample::select(vec!["301", "504", "999"]), 0.0..500.0_f64), 0..4);
    let work_done = prop::collection::vec((prop::sample::select(vec!["cut", "gather", "pack"]), 0.0..90.0_f64), 0..4);
    (any_pieces(), any_needs(), sewing, work_done, 1..5_i64).prop_map(|(pieces, needs, sewing, done, garments)| {
        let shop = workshop(&[("materials.csv", MATERIALS)]);
        let mut ticket = Ticket::new("any", "");
        ticket.garments = garments;
        let names = ["tulle", "lawn", "face", "elastic", "hem tape", "hook", "button"];
        ticket.materials = names.iter().map(|name| listed(&shop, name)).collect();
        ticket.pieces = pieces;
        ticket.needs = needs;
        ticket.sewing = sewing.into_iter().map(|(class, inches)| sew(class, Length::inches(inches), "")).collect();
        ticket.work = done
            .into_iter()
            .map(|(operation, amount)| match operation {
                "gather" => work(operation, Length::inches(amount).into()),
                _ => work(operation, Quantity::number(amount)),
            })
            .collect();
        ticket
    })
}

fn steps(cell: &Cell) -> f64 {
    if let Cell::Quantity(quantity) = cell { quantity.steps() } else { 0.0 }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(192))]

    #[test]
    fn twice_the_garments_never_cost_less(ticket in any_ticket(), shop in any_shop()) {
        let double = Ticket { garments: ticket.garments * 2, ..ticket.clone() };
        let (one, two) = (made(&ticket, &shop), made(&double, &shop));
        prop_assert!(two.price.map_or(0.0, Money::steps) >= one.price.map_or(0.0, Money::steps) - 1e-3);
        prop_assert!(two.total_minutes >= one.total_minutes);
        let bought = |tables: &Made| steps(&tables.buy_list.total("price").unwrap());
        prop_assert!(bought(&two) >= bought(&one) - 1e-3, "{}\n{}", drawn(&one.buy_list), drawn(&two.buy_list));
    }

    #[test]
    fn what_is_bought_covers_what_is_needed(ticket in any_ticket(), shop in any_shop()) {
        let made = made(&ticket, &shop);
        for row in made.buy_list.rows() {
            let [needed, shelf, buy] = [1, 2, 3].map(|at| steps(&row[at]));
            // A plan rounds each piece down to a whole nanometre; thirty pieces lose far less than a thousand.
            prop_assert!(shelf + buy >= needed - 1e3, "{}", drawn(&made.buy_list));
            prop_assert!(shelf <= needed + 1e3, "{}", drawn(&made.buy_list));
        }
    }

    #[test]
    fn totals_are_the_sums_of_their_lines_to_the_cent(ticket in any_ticket(), shop in any_shop()) {
        let made = made(&ticket, &shop);
        let cost = sum_of(&made.cost);
        prop_assert_eq!(total_of(&made.totals, "cost").unwrap_or(Money::ZERO), cost);
        prop_assert_eq!(money_of(&made.price_lines, "cost").unwrap_or(Money::ZERO), cost);
        prop_assert_eq!(made.price.unwrap_or(Money::ZERO), sum_of(&made.price_lines));
        prop_assert_eq!(total_of(&made.totals, "price"), made.price);
        let bought = made.buy_list.total("price").unwrap();
        let paid = money_of(&made.not_in_price, "bought for this order").unwrap_or(Money::ZERO);
        prop_assert_eq!(Money::from_steps(steps(&bought)), paid);
        let empty_shelf = total_of(&made.totals, "goods with an empty shelf").unwrap_or(Money::ZERO);
        prop_assert_eq!(empty_shelf, sum_of(&made.not_in_price));
        let each = made.price_each.map_or(0.0, Money::steps) / 100.0;
        prop_assert!((each - each.round()).abs() < 1e-6, "{each}");
        for table in [&made.cost, &made.price_lines, &made.not_in_price] {
            for cell in table.values("money").unwrap() {
                let cents = steps(cell) / 100.0;
                prop_assert!((cents - cents.round()).abs() < 1e-6, "{}", drawn(table));
            }
        }
    }

    #[test]
    fn nothing_is_less_than_nothing(ticket in any_ticket(), shop in any_shop()) {
        let made = made(&ticket, &shop);
        for table in made.all() {
            for cell in table.rows().iter().flatten() {
                let less = match cell {
                    Cell::Quantity(quantity) => quantity.steps() < 0.0,
                    Cell::Count(count) => *count < 0,
                    _ => false,
                };
                prop_assert!(!less, "{}:\n{}", table.name(), drawn(&table));
            }
        }
    }
}
