//! Members of tables and tickets, their words, and the round trip of every table of an order through its file.

use super::*;
use crate::cutting::Planner;
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Expression, value};
use crate::quantity::{Quantity, Reading, number};
use crate::recipe::run::answer_in;
use crate::recipe::{Reply, Task, library};
use crate::report::{excerpt, write_csv};
use crate::table::{Dialect, from_csv};
use crate::workshop::Workshop;
use rhai::Scope;
use std::sync::Arc;

fn host() -> Host {
    let mut host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
    register(&mut host);
    host
}

fn workshop() -> Workshop {
    let files = [
        ("settings.csv", include_str!("../../../recipes/demo/settings.csv")),
        ("materials.csv", include_str!("../../../recipes/demo/materials.csv")),
        ("stock.csv", include_str!("../../../recipes/demo/stock.csv")),
        ("rates.csv", include_str!("../../../recipes/demo/rates.csv")),
    ];
    Workshop::read(&files).unwrap()
}

fn order(recipe: &str, given: &[(&str, &str)]) -> TicketObject {
    let workshop = workshop();
    let given = given.iter().map(|(name, typed)| ((*name).to_owned(), (*typed).into())).collect();
    let text = library::shipped(recipe).unwrap();
    let reply = answer_in(&text, &workshop, false, &Task::Run(given), StopFlag::default());
    let Reply::Ran(ticket) = reply else { panic!("{recipe}: {reply:?}") };
    let style = workshop.settings.style();
    let order = WorkshopOrder::new(*ticket, Arc::new(workshop), &style, Planner::default());
    TicketObject::new(order.unwrap())
}

fn section(order: &WorkshopOrder, name: &str) -> Rc<Table> {
    OrderSection::of_member(name).unwrap().table(order).unwrap().unwrap()
}

fn skirt() -> TicketObject {
    order(
        "gathered_skirt",
        &[("waist", "24 in"), ("skirt", "20 in"), ("fullness", "3"), ("top", "band"), ("cloth", "any 36 in at $6/yd")],
    )
}

fn orders() -> TableObject {
    let text = "order,mark from,days,cloth,cost\n1,14 1/2 in,2,ivory tulle,$12\n2,,5,white satin,\n3,36 in,4,ivory tulle,$7.50\n";
    from_csv::read("orders.csv", text, Reading::default()).unwrap().into()
}

fn answer(first: &TicketObject, typed: &str) -> String {
    let host = host();
    let mut scope = Scope::new();
    scope.push_constant("first", first.clone());
    scope.push_constant("orders", orders());
    match Expression::compile(&host, typed).and_then(|expression| expression.evaluate(&host, &mut scope)) {
        Ok(value) => value::show(&value, &host.style()).unwrap_or_else(|| format!("unshown {}", value::noun(&value))),
        Err(error) => excerpt::text(&error),
    }
}

#[test]
fn a_table_answers_by_column() {
    let first = skirt();
    let check = |typed: &str, shown: &str| assert_eq!(answer(&first, typed), shown, "{typed}");
    check("orders", "3 rows: order, mark from, days, cloth, cost");
    check("orders.rows", "3");
    check("orders.mark_from", "14 1/2 in, blank, 36 in");
    check("orders[\"mark from\"][2]", "36 in");
    check("total(orders.days)", "11");
    check("average(orders.days)", "≈ 3.6667");
    check("largest(orders.days) - smallest(orders.days)", "3");
    check("orders.cloth", "ivory tulle, white satin, ivory tulle");
    check("[orders.days, orders.order]", "[2, 5, 4], [1, 2, 3]");
    check("orders.cost.map(|cost| known(cost))", "yes, no, yes");
    check(
        "total(orders.cost)",
        "row 2 of the list is blank, and a blank has no part in total\n  total(orders.cost)\n        ~~~~~~~~~~~\n  \
         to leave the blank rows out, type total(without_blanks(orders.cost))",
    );
    check("total(without_blanks(orders.cost)) == total(orders.cost.filter(|cost| known(cost)))", "yes");
    check(
        "orders.marc_from",
        "the table “orders” has no column “marc_from”\n  orders.marc_from\n         ~~~~~~~~~\n  did you mean “mark_from”?",
    );
    check("orders + 1", "a table and a plain number cannot be added\n  orders + 1\n  ~~~~~~   ~");
    check("orders == 14 in", "a table and a length cannot be compared\n  orders == 14 in\n  ~~~~~~    ~~~~~");
    check("total(orders)", "total cannot reckon with a table\n  total(orders)\n        ~~~~~~");
    check("orders.push(1)", "a table has no “push”\n  orders.push(1)\n         ~~~~");
}

#[test]
fn a_ticket_answers_by_figure_input_and_its_own_words() {
    let first = skirt();
    let check = |typed: &str, shown: &str| assert_eq!(answer(&first, typed), shown, "{typed}");
    let order = first.order();
    check("first", &order.summary(&Style::default()).unwrap());
    check("first.panels", "3");
    check("first.panel_length", &first.ticket().figure("panel length").unwrap().value.show(&Style::default()));
    check("first.waist + 1 in", "25 in");
    check("first.top", "band");
    check("first.pieces", "1");
    check("first.age", "the order says no age\n  first.age\n        ~~~\n  add age='5 years' to its run");
    check(
        "first.used_for",
        "the order says no use\n  first.used_for\n        ~~~~~~~~\n  add use='dance class' to its run",
    );
    check(
        "first.washing",
        "the order says no washing\n  first.washing\n        ~~~~~~~\n  add washing='washed first' to its run",
    );
    check("first.pieces_to_cut", &order.piece_count().to_string());
    check("first.price", &Style::default().show(order.price().unwrap().unwrap().into()));
    check("first.price_each == first.price", "yes");
    check("first.cut_list.rows", &section(order, "cut_list").len().to_string());
    check("first.thread.rows", &section(order, "thread").len().to_string());
    check("total(first.stitching.thread) == total(first.stitching[\"thread\"])", "yes");
    check(
        "first.match",
        "the ticket of gathered_skirt has no “match”\n  first.match\n        ~~~~~\n  its figures are round, panels, panel, top_turning, panel_length, gathered_to, band_cut, band_depth, buttonhole, cloth_used; every order has price, deposit, cost and buy_list too",
    );
    check("first.deposit == 40 % of first.price", "yes");
    check("total(first.cut_list.count)", &order.piece_count().to_string());
    assert!(answer(&first, "first.total_minutes").ends_with(" min"));
    for word in WORDS.iter().filter(|word| word.of == "ticket") {
        let shown = answer(&first, &format!("first.{}", word.name));
        assert!(!shown.contains("has no") && !shown.contains("cannot be a name"), "{}: {shown}", word.name);
        assert_eq!(word.form, format!("first.{}", word.name));
    }
    let shown = answer(&first, "first.pannels");
    assert!(shown.starts_with("the ticket of gathered_skirt has no “pannels”\n"), "{shown}");
    assert!(shown.ends_with("did you mean “panels”?"), "{shown}");
    assert!(answer(&first, "first.colour").contains("its figures are "), "{}", answer(&first, "first.colour"));
    check("first * 2", "a ticket and a plain number cannot be multiplied\n  first * 2\n  ~~~~~   ~");
    assert!(answer(&first, "first == orders").starts_with("a ticket and a table cannot be compared"));
    assert!(answer(&first, "first == first").starts_with("a ticket and a ticket cannot be compared"));
}

/// Each table of money adds up to its own total.
#[test]
fn the_tables_of_money_add_up_at_the_prompt() {
    let first = order(
        "gathered_skirt",
        &[("waist", "24 in"), ("skirt", "20 in"), ("top", "band"), ("cloth", "any 36 in at $6/yd"), ("pieces", "2")],
    );
    let check = |typed: &str, shown: &str| assert_eq!(answer(&first, typed), shown, "{typed}");
    let price = Style::default().show(first.order().price().unwrap().unwrap().into());
    check("total(first.price_lines.money)", &price);
    check("total(without_blanks(first.cost.money)) == first.price_lines.money[0]", "yes");
    check("total(first.not_in_price.money) == without_blanks(first.totals.amount).pop()", "yes");
}

#[test]
fn minutes_that_nobody_knows_are_refused_with_the_reason() {
    let first = skirt();
    let workshop = Arc::new(Workshop::default());
    let bare = WorkshopOrder::new(first.ticket().clone(), workshop, &Style::default(), Planner::default()).unwrap();
    assert!(bare.summary(&Style::default()).unwrap().contains(", minutes not known, "));
    let shown = answer(&TicketObject::new(bare), "first.total_minutes");
    assert!(shown.starts_with("the minutes are not all known: no rate for “"), "{shown}");
    assert!(shown.ends_with("such as pack, 8 min each; what is known stands in its minutes"), "{shown}");
}

#[test]
fn an_order_without_a_price_says_so() {
    let bare =
        order("gathered_skirt", &[("waist", "24 in"), ("skirt", "20 in"), ("top", "band"), ("cloth", "any 36 in")]);
    let shown = answer(&bare, "first.price");
    // The demo's rates put a price on labour alone; if nothing has a price, the member says why.
    assert_eq!(bare.order().price().unwrap().is_none(), shown.starts_with("the ticket has no price"), "{shown}");
    let workshop = Arc::new(Workshop::default());
    let without = WorkshopOrder::new(bare.ticket().clone(), workshop, &Style::default(), Planner::default()).unwrap();
    let shown = answer(&TicketObject::new(without), "first.price");
    assert!(shown.starts_with("the ticket has no price: nothing in the order has one"), "{shown}");
}

/// Whether a cell reads back as what was written. A count and a number, and a text and the count, amount or
/// flag it reads back as, are the same; amounts may differ by a billionth of their size or a thousandth of a
/// base step.
fn same(written: &Cell, read: &Cell) -> bool {
    let value = |cell: &Cell| match cell {
        Cell::Count(count) => Some(Quantity::number(number::from_whole(*count))),
        Cell::Number(value) => Some(Quantity::number(*value)),
        Cell::Quantity(quantity) => Some(*quantity),
        _ => None,
    };
    match (written, read) {
        (Cell::Text(digits), Cell::Count(count)) => *digits == count.to_string(),
        (Cell::Text(amount), Cell::Quantity(quantity)) => *amount == Style::default().show(*quantity),
        (Cell::Text(amount), Cell::Number(number)) => *amount == Style::default().show_number(*number),
        (Cell::Text(word), Cell::Flag(flag)) => word == if *flag { "yes" } else { "no" },
        (Cell::Text(left), Cell::Text(right)) => left.trim() == right,
        (Cell::Text(nothing), Cell::Blank) => nothing.trim().is_empty(),
        _ => match (value(written), value(read)) {
            (Some(left), Some(right)) => {
                left.dimension() == right.dimension() && number::is_within(left.steps(), right.steps(), 1e-3)
            }
            _ => written == read,
        },
    }
}

fn same_kind(written: &Table, read: &Table, at: usize) -> bool {
    let (left, right) = (&written.columns()[at].kind, &read.columns()[at].kind);
    let cells = || written.rows().iter().map(|row| &row[at]);
    let blank = cells().all(Cell::is_blank);
    match (left, right) {
        // A file counts `yd in` in yards.
        (ColumnKind::Quantity(left), ColumnKind::Quantity(right)) => left.counted_in('$') == right.counted_in('$'),
        // Texts that are all digits, amounts of one kind, or yes and no read back as those; `same` compares
        // them cell by cell.
        (ColumnKind::Text, _) => true,
        (ColumnKind::Count | ColumnKind::Number | ColumnKind::Flag, ColumnKind::Text) => blank,
        (left, right) => left == right,
    }
}

/// Marks the columns that were refused as texts. Texts that are amounts, "1 yd 28 1/2 in" and "1" of what is
/// bought, are refused as unlike until their heading says so; nothing else of an order may be refused.
fn as_texts(table: &Table, file: &str, errors: &[crate::table::TableFileError]) -> Table {
    for error in errors {
        let (_, column) = table.column(error.column.as_deref().unwrap_or_default()).unwrap();
        assert_eq!(column.kind, ColumnKind::Text, "{error}\n{file}");
    }
    let (headings, rows) = file.split_once("\r\n").unwrap();
    let retyped = headings.split_inclusive([',', ';']).map(|heading| {
        let (name, end) = heading.split_at(heading.trim_end_matches([',', ';']).len());
        let blamed = errors.iter().any(|error| error.column.as_deref() == Some(name.trim_start_matches('\u{feff}')));
        if blamed { format!("{name} (text){end}") } else { heading.to_owned() }
    });
    let file = format!("{}\r\n{rows}", retyped.collect::<String>());
    from_csv::read(&table.file_name(), &file, Reading::default()).unwrap_or_else(|errors| panic!("{errors:#?}\n{file}"))
}

#[test]
fn every_table_of_an_order_reads_back_from_its_file() {
    let orders = [
        skirt(),
        order(
            "gathered_skirt",
            &[
                ("waist", "21 in"),
                ("hips", "23 in"),
                ("skirt", "12 in"),
                ("elastic_width", "3/4 in"),
                ("shorter", "8 %"),
                ("cloth", "any 43 in at $6/yd"),
                ("elastic", "any"),
                ("pieces", "3"),
            ],
        ),
        order(
            "curtains",
            &[
                ("track", "180 cm"),
                ("drop", "220 cm"),
                ("face", "garden face cloth"),
                ("lining", "curtain lining"),
                ("tape", "heading tape"),
            ],
        ),
        order(
            "puff_sleeve",
            &[
                ("head", "30 cm"),
                ("arm", "22 cm"),
                ("sleeve", "6 cm"),
                ("cap", "10 cm"),
                ("puff", "1.6"),
                ("end", "cuff"),
                ("cloth", "any 112 cm at $6/yd"),
                ("cuff_cloth", "any 112 cm"),
            ],
        ),
        order(
            "strips_on_band",
            &[
                ("waist", "14 in"),
                ("strip", "10 in"),
                ("gathers", "[6, 5]"),
                ("overlap", "0 in"),
                ("ends", "covered"),
                ("tulle", "ivory tulle"),
                ("satin", "ivory satin"),
                ("elastic", "any"),
            ],
        ),
        order(
            "gathered_trim",
            &[
                ("edge", "58 in"),
                ("form", "ring"),
                ("fullness", "2.5"),
                ("kind", "double"),
                ("depth", "2 in"),
                ("cloth", "any 44 in at $5/yd"),
            ],
        ),
    ];
    let mut read_back = 0;
    for order in &orders {
        let order = order.order();
        let sections =
            OrderSection::in_files().map(|(section, _)| section).chain(OrderSection::on_sheet().map(|of| of.0));
        let tables = sections.filter_map(|section| section.table(order).unwrap());
        let tables: Vec<Rc<Table>> = tables.chain([Rc::new(order.plan().unwrap())]).collect();
        for table in tables.iter().filter(|table| !table.is_empty()) {
            for dialect in Dialect::ALL {
                let mut file = Vec::new();
                write_csv(table, dialect, &Style::default(), &mut file).unwrap();
                let file = String::from_utf8(file).unwrap();
                let found = from_csv::read(&table.file_name(), &file, Reading::default());
                let found = found.unwrap_or_else(|errors| as_texts(table, &file, &errors));
                let headings = |table: &Table| -> Vec<String> {
                    table.columns().iter().map(|column| column.heading.clone()).collect()
                };
                assert_eq!(headings(table), headings(&found), "{file}");
                assert_eq!((table.name(), table.len()), (found.name(), found.len()), "{file}");
                for at in 0..table.columns().len() {
                    assert!(
                        same_kind(table, &found, at),
                        "{}: {:?}\n{file}",
                        table.columns()[at].heading,
                        found.columns()[at]
                    );
                }
                for (written, read) in table.rows().iter().zip(found.rows()) {
                    for (written, read) in written.iter().zip(read) {
                        assert!(same(written, read), "{written:?} as {read:?} in\n{file}");
                    }
                }
                read_back += 1;
            }
        }
    }
    assert!(read_back > 80, "{read_back}");
}
