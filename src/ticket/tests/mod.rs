//! Two orders worked by hand, odd tickets, and properties of any order.

mod bills;
mod cautions;
mod curtains;
mod first_wash;
mod labels;
mod minutes_and_needs;
mod notions;
mod odd;
mod one_way;
mod random;
mod strips;
mod washing;
mod weights;

use super::ticket::{Mark, Need, Sewing, Ticket, TicketMaterial, TicketPiece, TicketStep, Work};
use super::{LayError, OrderSection, WorkshopOrder};
use crate::cutting::Planner;
use crate::diagnostic::Diagnose;
use crate::piece::{Fold, Grain, JoinRule, OutlinePoint, Piece, Shape};
use crate::plans;
use crate::quantity::{Length, Liked, Money, Quantity, Style, Time};
use crate::table::{Cell, ColumnKind, Table};
use crate::workshop::Workshop;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Draws a table as lines of cells, each quantity in its column's unit.
/// The table as texts, in full where a screen shows whole yards and minutes.
fn drawn(table: &Table) -> String {
    let style = Style::default();
    let in_full = |quantity: Quantity, liked: Liked| style.show(quantity.liking(Liked { whole: false, ..liked }));
    let mut lines = vec![table.columns().iter().map(|column| column.heading.clone()).collect::<Vec<_>>().join(" | ")];
    for row in table.rows() {
        let cells = row.iter().zip(table.columns()).map(|(cell, column)| match (cell, &column.kind) {
            (Cell::Blank, _) => String::new(),
            (Cell::Text(text), _) => text.clone(),
            (Cell::Count(count), _) => count.to_string(),
            (Cell::Number(value), _) => style.show_number(*value),
            (Cell::Flag(flag), _) => flag.to_string(),
            (Cell::Quantity(quantity), ColumnKind::Quantity(unit)) => in_full(*quantity, unit.expression().liked),
            (Cell::Quantity(quantity), _) => in_full(*quantity, quantity.liked()),
        });
        lines.push(cells.collect::<Vec<_>>().join(" | ").trim_end().to_owned());
    }
    lines.join("\n")
}

#[track_caller]
fn check(table: &Table, wanted: &str) {
    let found = drawn(table);
    assert_eq!(found, wanted.trim(), "found:\n{found}");
}

/// An order with everything made from it.
struct Made {
    order: WorkshopOrder,
    cut_list: Rc<Table>,
    buy_list: Rc<Table>,
    stitching: Rc<Table>,
    thread: Rc<Table>,
    minutes: Rc<Table>,
    cost: Rc<Table>,
    price_lines: Rc<Table>,
    not_in_price: Rc<Table>,
    totals: Rc<Table>,
    marks: Rc<Table>,
    steps: Rc<Table>,
    cautions: Rc<Table>,
    labels: Rc<Table>,
    cuts: Rc<Table>,
    plan_sentences: Vec<String>,
    plan_notes: Vec<String>,
    price: Option<Money>,
    price_each: Option<Money>,
    left_out: Vec<String>,
    total_minutes: Option<Time>,
    pieces: i64,
}

impl Made {
    fn of(ticket: &Ticket, workshop: &Workshop, stopped: bool) -> Result<Self, LayError> {
        let style = workshop.settings.style();
        let (workshop, stop) = (Arc::new(workshop.clone()), Arc::new(AtomicBool::new(stopped)));
        let order = WorkshopOrder::new(ticket.clone(), workshop, &style, Planner::new(stop))?;
        let table = |name: &str| OrderSection::named(name).unwrap().table(&order).map(Option::unwrap);
        let texts = |name: &str| OrderSection::named(name).unwrap().texts(&order);
        Ok(Self {
            cut_list: table("cut_list")?,
            buy_list: table("buy_list")?,
            stitching: table("stitching")?,
            thread: table("thread")?,
            minutes: table("minutes")?,
            cost: table("cost")?,
            price_lines: table("price_lines")?,
            not_in_price: table("not_in_price")?,
            totals: table("totals")?,
            marks: table("marks")?,
            steps: table("steps")?,
            cautions: table("cautions")?,
            labels: table("labels")?,
            cuts: Rc::new(plans::cuts(&order.plan_reports()?, &order.plan_words())?),
            plan_sentences: texts("plan")?,
            plan_notes: texts("plan_notes")?,
            price: order.price()?,
            price_each: order.price_each()?,
            left_out: order.left_out()?.to_vec(),
            total_minutes: order.total_minutes()?,
            pieces: order.piece_count(),
            order,
        })
    }

    fn all(&self) -> Vec<Rc<Table>> {
        let tables = OrderSection::in_files().map(|(section, _)| section.table(&self.order).unwrap().unwrap());
        tables.collect()
    }

    fn plan(&self) -> Result<Table, LayError> {
        self.order.plan()
    }

    fn summary(&self, style: &Style) -> String {
        self.order.summary(style).unwrap()
    }
}

fn made(ticket: &Ticket, workshop: &Workshop) -> Made {
    match Made::of(ticket, workshop, false) {
        Ok(made) => made,
        Err(error) => panic!("{}", error.message(&Style::default())),
    }
}

fn money(value: f64) -> Money {
    Money::try_from(Quantity::money(value)).unwrap()
}

fn workshop(files: &[(&str, &str)]) -> Workshop {
    Workshop::read(files).unwrap_or_else(|errors| {
        panic!("{}", errors.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"));
    })
}

/// A material of the workshop's list, as the answer to an input.
fn listed(workshop: &Workshop, name: &str) -> TicketMaterial {
    let material = workshop.materials.find(name).unwrap().clone();
    TicketMaterial { input: Some(name.to_owned()), listed: true, material }
}

/// A notion that only the recipe names.
fn plain_notion(workshop: &Workshop, like: &str, name: &str) -> TicketMaterial {
    let mut material = workshop.materials.find(like).unwrap().clone();
    name.clone_into(&mut material.name);
    (material.price, material.usable_width, material.put_up) = (None, None, None);
    TicketMaterial { input: None, listed: false, material }
}

pub(super) fn piece(name: &str, material: usize, shape: Shape, count: i64) -> TicketPiece {
    TicketPiece { piece: Piece::new(name, count, shape), material, once: false }
}

pub(super) fn need(material: usize, amount: Quantity, why: &str) -> Need {
    Need { material, amount, count: 1, why: why.to_owned(), once: false }
}

fn sew(class: &str, length: Length, why: &str) -> Sewing {
    Sewing { class: class.to_owned(), length, why: why.to_owned(), once: false }
}

fn work(operation: &str, amount: Quantity) -> Work {
    Work { operation: operation.to_owned(), amount, about: None, once: false }
}

fn mark(piece: &str, name: &str, distance: Length, from: &str) -> Mark {
    Mark { piece: piece.to_owned(), name: name.to_owned(), distance, from: from.to_owned() }
}

/// The money of a line of a table of money.
fn money_of(table: &Table, line: &str) -> Option<Money> {
    let lines = table.values("line").unwrap().zip(table.values("money").unwrap());
    let found = lines.into_iter().find(|(name, _)| **name == Cell::from(line))?.1.clone();
    if let Cell::Quantity(quantity) = found { Money::try_from(quantity).ok() } else { None }
}

/// The sum of a table of money; what is blank is left out.
fn sum_of(table: &Table) -> Money {
    let money = table.values("money").unwrap().filter_map(|cell| match cell {
        Cell::Quantity(quantity) => Money::try_from(*quantity).ok(),
        _ => None,
    });
    money.sum()
}

/// One of the totals, if it is an amount of money.
fn total_of(totals: &Table, name: &str) -> Option<Money> {
    let lines = totals.values("total").unwrap().zip(totals.values("amount").unwrap());
    let found = lines.into_iter().find(|(total, _)| **total == Cell::from(name))?.1.clone();
    if let Cell::Quantity(quantity) = found { Money::try_from(quantity).ok() } else { None }
}
