//! The working minutes of an order: each operation timed by the workshop's rates, else by the recipe's estimate.
//!
//! Never here: what an hour costs.

use super::job::Job;
use super::ticket::Work;
use crate::diagnostic::Diagnose;
use crate::quantity::{Dimension, Liked, Quantity, Style, Time, Unit, number};
use crate::table::{Table, TableError};
use crate::workshop::{Minutes, RateError, names};
use std::collections::BTreeSet;

/// The working time of an order.
#[derive(Debug)]
pub(super) struct OrderMinutes {
    /// One row for each work entry of the ticket.
    pub(super) table: Table,
    /// The sum of all known minutes.
    pub(super) total: Time,
    /// The known minutes of each operation, the longest first.
    pub(super) by_operation: Vec<(String, Time)>,
    /// Whether any work entry has known minutes.
    pub(super) any_known: bool,
    /// Operations whose minutes are unknown, each once.
    pub(super) unknown: Vec<String>,
    /// Whether the order takes time: it has work, or something is cut or sewn.
    pub(super) is_due: bool,
}

impl OrderMinutes {
    /// Returns whether the sum is the time of the whole order.
    pub(super) fn all_known(&self) -> bool {
        self.unknown.is_empty() && (self.any_known || !self.is_due)
    }

    /// Says why minutes are unknown: `no rate for “pack”`; empty if all are known.
    pub(super) fn unknown_words(&self) -> String {
        let names: Vec<String> = self.unknown.iter().map(|operation| format!("“{operation}”")).collect();
        match names.as_slice() {
            [] if self.all_known() => String::new(),
            [] => "the recipe says no work".to_owned(),
            names => format!("no rate for {}", names.join(", ")),
        }
    }

    /// Returns `; no rate for “pack”`, to follow a note on the known minutes; empty if all are known.
    pub(super) fn beside_known(&self) -> String {
        let words = self.unknown_words();
        if words.is_empty() { words } else { format!("; {words}") }
    }

    /// Returns the time of the order for a line of text. Unknown minutes are words, never zero.
    pub(super) fn summary(&self, style: &Style) -> String {
        let clock = Liked { compound: true, ..Liked::unit(Unit::Hour) };
        let known = || style.show(self.total.liking(clock).into());
        match (self.any_known, self.unknown.is_empty()) {
            (true, true) => known(),
            (true, false) => format!("{} and what has no rate", known()),
            (false, _) => "minutes not known".to_owned(),
        }
    }
}

/// Builds the table of minutes. The set-up of an operation counts once in the order, with its first row.
pub(super) fn minutes(job: &Job<'_>) -> Result<OrderMinutes, TableError> {
    let columns = Table::new("minutes").text("operation").mixed("amount", "unit").time("set-up", "min");
    let mut table = columns.time("minutes", "min").text("from").ready()?;
    let mut set_up_already = BTreeSet::new();
    let mut total = Time::ZERO;
    let mut any_known = false;
    let mut unknown: Vec<String> = Vec::new();
    let mut by_operation: Vec<(String, Time)> = Vec::new();
    for work in &job.ticket.work {
        let amount = job.ticket.order_amount(work.amount, work.once);
        let amount = if amount.steps() < 0.0 { Quantity::from_steps(0.0, amount.dimension()) } else { amount };
        let (timed, from) = timed(job, work, amount);
        let set_up = timed
            .map(|timed| if set_up_already.insert(names::key(&work.operation)) { timed.set_up } else { Time::ZERO });
        let minutes = timed.zip(set_up).map(|(timed, set_up)| in_minutes(timed.running + set_up));
        match minutes {
            Some(minutes) => {
                total = total + minutes;
                any_known = true;
                let key = names::key(&work.operation);
                match by_operation.iter_mut().find(|(known, _)| names::key(known) == key) {
                    Some((_, so_far)) => *so_far = *so_far + minutes,
                    None => by_operation.push((work.operation.clone(), minutes)),
                }
            }
            None if unknown.contains(&work.operation) => {}
            None => unknown.push(work.operation.clone()),
        }
        table.push(vec![
            work.operation.as_str().into(),
            amount.into(),
            set_up.map(in_minutes).into(),
            minutes.into(),
            from.into(),
        ])?;
    }
    by_operation.sort_by(|(_, one), (_, other)| other.steps().total_cmp(&one.steps()));
    let ticket = job.ticket;
    let is_due = !(ticket.work.is_empty() && ticket.pieces.is_empty() && ticket.sewing.is_empty());
    Ok(OrderMinutes { table, total, by_operation, any_known, unknown, is_due })
}

fn in_minutes(time: Time) -> Time {
    time.liking(Liked::unit(Unit::Minute))
}

/// Returns the minutes of a work entry and their source, or `None` and the reason.
fn timed(job: &Job<'_>, work: &Work, amount: Quantity) -> (Option<Minutes>, String) {
    let error = match job.workshop.rates.minutes_for(&work.operation, amount) {
        Ok(minutes) => return (Some(minutes), "rates.csv".to_owned()),
        Err(error) => error,
    };
    if let Some(about) = work.about {
        // The estimate is for each one of a count, and for the whole of a length in one garment.
        let times = if amount.dimension() == Dimension::NUMBER {
            amount.steps()
        } else {
            number::from_whole(job.times(work.once))
        };
        return (Some(Minutes { set_up: Time::ZERO, running: about * times }), "the recipe's estimate".to_owned());
    }
    let why = match &error {
        RateError::NoSuchOperation { .. } => "no rate".to_owned(),
        other => other.to_string(),
    };
    (None, error.hint().map_or(why.clone(), |hint| format!("{why}; {hint}")))
}
