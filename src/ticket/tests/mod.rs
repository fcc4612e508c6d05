//! Two orders worked by hand, odd tickets, and what holds for any order.

mod curtains;
mod labels;
mod odd;
mod random;
mod strips;

use super::ticket::{Mark, Need, Piece, PieceGrain, Sewing, Shape, Ticket, TicketMaterial, Work};
use super::{OrderTables, tables};
use crate::diagnostic::Diagnose;
use crate::quantity::{Length, Money, Quantity, Style};
use crate::table::{Cell, ColumnKind, Table};
use crate::workshop::Workshop;
use std::sync::atomic::AtomicBool;

/// A table as lines of cells, each quantity in its column's unit.
fn drawn(table: &Table) -> String {
    let style = Style::default();
    let mut lines = vec![table.columns().iter().map(|column| column.heading.clone()).collect::<Vec<_>>().join(" | ")];
    for row in table.rows() {
        let cells = row.iter().zip(table.columns()).map(|(cell, column)| match (cell, &column.kind) {
            (Cell::Blank, _) => String::new(),
            (Cell::Text(text), _) => text.clone(),
            (Cell::Count(count), _) => count.to_string(),
            (Cell::Number(value), _) => style.show_number(*value),
            (Cell::Flag(flag), _) => flag.to_string(),
            (Cell::Quantity(quantity), ColumnKind::Quantity(unit)) => style.show_in(*quantity, unit.expression()),
            (Cell::Quantity(quantity), _) => style.show(*quantity),
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

fn made(ticket: &Ticket, workshop: &Workshop) -> OrderTables {
    match tables(ticket, workshop, &AtomicBool::new(false)) {
        Ok(tables) => tables,
        Err(fault) => panic!("{}", fault.message(&Style::default())),
    }
}

fn money(value: f64) -> Money {
    Money::try_from(Quantity::money(value)).unwrap()
}

fn workshop(files: &[(&str, &str)]) -> Workshop {
    Workshop::read(files).unwrap_or_else(|faults| {
        panic!("{}", faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"));
    })
}

/// The material of the workshop's list, as an input's answer.
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

pub(super) fn piece(name: &str, material: usize, shape: Shape, count: i64) -> Piece {
    Piece {
        name: name.to_owned(),
        material,
        shape,
        count,
        mirrored: false,
        on_fold: None,
        grain: PieceGrain::Along,
        matched: false,
        level: false,
        may_join: None,
        never_smaller: false,
        once: false,
    }
}

pub(super) fn need(material: usize, amount: Quantity, why: &str) -> Need {
    Need { material, amount, why: why.to_owned(), once: false }
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

/// The line of a cost table, its money.
fn money_of(cost: &Table, line: &str) -> Option<Money> {
    let lines = cost.values("line").unwrap().zip(cost.values("money").unwrap());
    let found = lines.into_iter().find(|(name, _)| **name == Cell::from(line))?.1.clone();
    if let Cell::Quantity(quantity) = found { Money::try_from(quantity).ok() } else { None }
}

/// The sum of the lines of one part of a cost table.
fn sum_of(cost: &Table, part: &str) -> Money {
    let lines = cost.values("part").unwrap().zip(cost.values("money").unwrap());
    let money = lines.filter(|(word, _)| **word == Cell::from(part)).filter_map(|(_, cell)| match cell {
        Cell::Quantity(quantity) => Money::try_from(*quantity).ok(),
        _ => None,
    });
    money.sum()
}
