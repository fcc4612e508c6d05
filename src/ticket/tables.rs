//! The tables of one order, all made at once from its ticket and its workshop.
//!
//! Never here: how one table comes about; drawing; files.

use super::buying::Bill;
use super::cautions;
use super::cost::{self, Basis};
use super::cut_list;
use super::cut_order;
use super::instructions;
use super::job::Job;
use super::labels;
use super::lay::{Lay, LayFault, shelf_lays, standard_lays};
use super::minutes;
use super::needs;
use super::plan_table;
use super::stitching;
use super::ticket::Ticket;
use super::weights;
use crate::quantity::{Liked, Mass, Money, Style, Time, Unit};
use crate::table::Table;
use crate::workshop::Workshop;
use std::sync::atomic::AtomicBool;

/// Everything that follows from one order's ticket in one workshop.
#[derive(Clone, Debug)]
pub struct OrderTables {
    /// Every piece with its cut size.
    pub cut_list: Table,
    /// What comes from the shelf and what must be bought.
    pub buy_list: Table,
    /// Every sewing line with its thread.
    pub stitching: Table,
    /// The thread of each stitch class.
    pub thread: Table,
    /// Every piece of work with its minutes.
    pub minutes: Table,
    /// From materials to the price.
    pub cost: Table,
    /// The marks to make.
    pub marks: Table,
    /// The steps in words.
    pub steps: Table,
    /// The cautions with their sources.
    pub cautions: Table,
    /// What goes on the labels.
    pub labels: Table,
    /// The same in sentences.
    pub label_sentences: Vec<String>,
    /// The cuts in the order they are made, runs of equal ones told once.
    pub cuts: Table,
    /// What to cut from what, in sentences.
    pub plan_sentences: Vec<String>,
    /// What the maker should know about the plan.
    pub plan_notes: Vec<String>,
    /// The price of the order, to the cent; none if nothing in it has a price.
    pub price: Option<Money>,
    /// The price of one garment, to the cent.
    pub price_each: Option<Money>,
    /// What is not in the price, because nobody knows what it costs.
    pub without: Vec<String>,
    /// What the order weighs without its thread; else the materials whose weight is not known.
    pub weight: Result<Mass, Vec<String>>,
    /// All minutes that are known.
    pub total_minutes: Time,
    /// All pieces to cut.
    pub pieces: i64,
    /// The real plan: the shelf first, then what must be bought.
    pub lays: Vec<Lay>,
}

/// The tables of one order, amounts shown as the workshop's settings say.
///
/// # Errors
/// A piece that cannot be laid, and amounts beyond any number.
pub fn tables(ticket: &Ticket, workshop: &Workshop, stop: &AtomicBool) -> Result<OrderTables, LayFault> {
    tables_in(ticket, workshop, &workshop.settings.style(), stop)
}

/// The tables of one order, amounts inside steps shown in a style of the caller's.
///
/// # Errors
/// As for [`tables`].
pub fn tables_in(
    ticket: &Ticket,
    workshop: &Workshop,
    style: &Style,
    stop: &AtomicBool,
) -> Result<OrderTables, LayFault> {
    let job = Job::new(ticket, workshop, style);
    let standard = standard_lays(ticket, ticket.garments, style, stop)?;
    let lays = shelf_lays(ticket, workshop, stop)?;
    let stitching = stitching::stitching(&job)?;
    let minutes = minutes::minutes(&job)?;
    let labels = labels::table(&job)?;
    let wanted = needs::wanted(&job, &stitching);
    let bill = Bill::of(&job, &lays, &wanted, true, stop)?;
    let bill_without_shelf = Bill::of(&job, &standard, &wanted, false, stop)?;
    let cost = cost::cost(
        &job,
        &Basis {
            standard: &standard,
            wanted: &wanted,
            stitching: &stitching,
            minutes: &minutes,
            bill: &bill,
            bill_without_shelf: &bill_without_shelf,
        },
    )?;
    Ok(OrderTables {
        cut_list: cut_list::cut_list(&job)?,
        buy_list: bill.table()?,
        stitching: stitching.lines,
        thread: stitching.classes,
        total_minutes: minutes.total,
        weight: weights::order_weight(&job),
        minutes: minutes.table,
        cost: cost.table,
        marks: instructions::marks(&job)?,
        steps: instructions::steps(&job)?,
        cautions: cautions::table(ticket, workshop.settings.market)?,
        label_sentences: labels::sentences(&labels),
        labels,
        cuts: cut_order::cuts(&job, &lays)?,
        plan_sentences: cut_order::sentences(&job, &lays),
        plan_notes: cut_order::notes(&job, &lays),
        price: cost.price,
        price_each: cost.each,
        without: cost.without,
        pieces: cut_list::piece_count(&job),
        lays,
    })
}

impl OrderTables {
    /// The tables in the order they are read and written.
    pub fn all(&self) -> [&Table; 10] {
        [
            &self.cut_list,
            &self.buy_list,
            &self.stitching,
            &self.thread,
            &self.minutes,
            &self.cost,
            &self.marks,
            &self.steps,
            &self.cautions,
            &self.labels,
        ]
    }

    /// The table of a name, such as `cut_list`.
    pub fn named(&self, name: &str) -> Option<&Table> {
        self.all().into_iter().find(|table| table.name() == name)
    }

    /// Every single cut with its marks: `plan`. Made when it is asked for, since a long plan is a long table.
    ///
    /// # Errors
    /// None for a plan that was made here; the table answers for itself.
    pub fn plan(&self, ticket: &Ticket, workshop: &Workshop) -> Result<Table, LayFault> {
        Ok(plan_table::plan(&Job::new(ticket, workshop, &workshop.settings.style()), &self.lays)?)
    }

    /// The order in one breath: `2 pieces to cut, 48 min, $23.40`.
    pub fn summary(&self, style: &Style) -> String {
        let pieces =
            if self.pieces == 1 { "1 piece to cut".to_owned() } else { format!("{} pieces to cut", self.pieces) };
        let clock = Liked { compound: true, ..Liked::unit(Unit::Hour) };
        let mut parts = vec![pieces, style.show(self.total_minutes.liking(clock).into())];
        parts.push(self.price.map_or("no price".to_owned(), |price| style.show(price.into())));
        let without =
            if self.without.is_empty() { String::new() } else { format!(" without {}", self.without.join(", ")) };
        format!("{}{without}", parts.join(", "))
    }
}
