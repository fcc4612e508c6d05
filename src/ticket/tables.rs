//! The tables of one order, all made at once from its ticket and its workshop.
//!
//! Never here: how one table comes about; drawing; files.

use super::buying::Bill;
use super::cautions;
use super::cost::{self, Basis};
use super::cut_list;
use super::instructions;
use super::job::Job;
use super::labels;
use super::lay::{Lay, LayError, shelf_lays, standard_lays};
use super::lay_notes;
use super::minutes;
use super::needs;
use super::stitching;
use super::ticket::Ticket;
use super::weights;
use crate::cutting::Planner;
use crate::plans::{self, Leftover, PlanWords, Told};
use crate::quantity::{Length, Liked, Mass, Money, Style, Time, Unit};
use crate::report::DrawnLength;
use crate::table::Table;
use crate::workshop::Workshop;
use std::collections::BTreeSet;

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
    /// How good the plan is: what no plan can go below.
    pub plan_merit: Vec<String>,
    /// What is left and worth keeping, under the headings of stock.csv.
    pub leftovers: Table,
    /// The same, as what is written there is made from.
    pub kept: Vec<Leftover>,
    /// A leftover at least this long is worth keeping.
    pub keep_from: Option<Length>,
    /// How the plan is told.
    pub plan_words: PlanWords,
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
pub fn tables(ticket: &Ticket, workshop: &Workshop, planner: &Planner) -> Result<OrderTables, LayError> {
    tables_in(ticket, workshop, &workshop.settings.style(), planner)
}

/// The tables of one order, amounts inside steps shown in a style of the caller's.
///
/// # Errors
/// As for [`tables`].
pub fn tables_in(
    ticket: &Ticket,
    workshop: &Workshop,
    style: &Style,
    planner: &Planner,
) -> Result<OrderTables, LayError> {
    let job = Job::new(ticket, workshop, style);
    let standard = standard_lays(ticket, ticket.garments, style, planner)?;
    let lays = shelf_lays(ticket, workshop, planner)?;
    let stitching = stitching::stitching(&job)?;
    let minutes = minutes::minutes(&job)?;
    let labels = labels::table(&job)?;
    let wanted = needs::wanted(&job, &stitching);
    let bill = Bill::of(&job, &lays, &wanted, true, planner)?;
    let bill_without_shelf = Bill::of(&job, &standard, &wanted, false, planner)?;
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
    let words = job.plan_words();
    let keep_from = workshop.settings.smallest_remnant;
    let told: Vec<Told<'_>> = lays.iter().map(|lay| lay.told(keep_from)).collect();
    let kept = leftovers(workshop, &lays, keep_from);
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
        cuts: plans::cuts(&told, &words)?,
        plan_sentences: told.iter().flat_map(|told| plans::sentences(told, &words)).collect(),
        plan_merit: plans::stopped_sentence(&told).into_iter().chain(plans::merit_sentences(&told, &words)).collect(),
        plan_notes: lay_notes::notes(&job, &lays),
        leftovers: plans::leftovers_table(&kept, &words)?,
        kept,
        keep_from,
        plan_words: words,
        price: cost.price,
        price_each: cost.each,
        without: cost.without,
        pieces: cut_list::piece_count(&job),
        lays,
    })
}

/// What is left of every lay and worth keeping, its marks unlike all on the shelf.
fn leftovers(workshop: &Workshop, lays: &[Lay], keep_from: Option<Length>) -> Vec<Leftover> {
    let mut used: BTreeSet<String> = workshop.stock.list.iter().map(|piece| piece.name.clone()).collect();
    let mut kept = Vec::new();
    for lay in lays {
        let found = plans::leftovers(&lay.told(keep_from), &lay.stock, &used);
        used.extend(found.iter().map(|leftover| leftover.stock.clone()));
        kept.extend(found);
    }
    kept
}

impl OrderTables {
    /// The tables in the order they are read and written.
    pub fn all(&self) -> [&Table; 11] {
        [
            &self.cut_list,
            &self.buy_list,
            &self.leftovers,
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
    pub fn plan(&self) -> Result<Table, LayError> {
        let told: Vec<Told<'_>> = self.lays.iter().map(|lay| lay.told(self.keep_from)).collect();
        Ok(plans::plan(&told, &self.plan_words)?)
    }

    /// The lengths of all lays as they are drawn.
    pub fn drawn_lengths(&self) -> Vec<DrawnLength> {
        let words = &self.plan_words;
        self.lays.iter().flat_map(|lay| plans::drawn_lengths(&lay.told(self.keep_from), words)).collect()
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
