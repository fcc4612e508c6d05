//! The working minutes of an order: each operation timed by the workshop's rates, else by the built-in minutes where the
//! workshop takes them, else by the recipe's estimate. What the workshop has not timed itself is marked.
//!
//! Never here: what an hour costs.

use super::job::Job;
use super::ticket::Work;
use crate::diagnostic::Diagnose;
use crate::quantity::{Dimension, Liked, Quantity, Style, Time, Unit, number};
use crate::table::{Table, TableError};
use crate::workshop::{Minutes, RateError, names};
use std::collections::BTreeSet;

/// What minutes are called that the workshop has not timed itself.
pub(super) const BUILT_IN: &str = "built-in minutes";

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
    /// Operations with built-in minutes, each once.
    pub(super) built_in: Vec<String>,
    /// How many times the built-in minutes are taken.
    pub(super) built_in_times: Option<f64>,
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

    /// Says which minutes are built in, for the totals: `built-in minutes, about 1.32 times, until you time: pack`; `None` if all
    /// are the workshop's own.
    pub(super) fn built_in_words(&self, style: &Style) -> Option<String> {
        if self.built_in.is_empty() {
            return None;
        }
        let taken = built_in_times_words(self.built_in_times, style);
        Some(format!("{taken}, until you time: {}", self.built_in.join(", ")))
    }

    /// Says the same without the operations, for a first screen.
    pub(super) fn built_in_briefly(&self, style: &Style) -> Option<String> {
        let taken = built_in_times_words(self.built_in_times, style);
        (!self.built_in.is_empty()).then(|| format!("{taken}, until you time your own"))
    }

    /// Returns `; built-in minutes, 1.32 times`, to follow a note; empty if all are the workshop's own.
    pub(super) fn beside_own(&self, style: &Style) -> String {
        if self.built_in.is_empty() {
            return String::new();
        }
        format!("; {}", built_in_times_words(self.built_in_times, style))
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
    let columns = Table::new("minutes").text("operation").mixed("amount", "unit").whole_minutes("set-up");
    let mut table = columns.whole_minutes("minutes").text("from").ready()?;
    let mut set_up_already = BTreeSet::new();
    let mut total = Time::ZERO;
    let mut any_known = false;
    let mut unknown: Vec<String> = Vec::new();
    let mut by_operation: Vec<(String, Time)> = Vec::new();
    let mut built_in: Vec<String> = Vec::new();
    for work in &job.ticket.work {
        let amount = job.ticket.order_amount(work.amount, work.once);
        let amount = if amount.steps() < 0.0 { Quantity::from_steps(0.0, amount.dimension()) } else { amount };
        let (timed, from) = timed(job, work, amount);
        if timed.is_some_and(|timed| timed.built_in) && !built_in.contains(&work.operation) {
            built_in.push(work.operation.clone());
        }
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
    let built_in_times = job.workshop.rates.built_in_times;
    Ok(OrderMinutes { table, total, by_operation, any_known, unknown, built_in, built_in_times, is_due })
}

/// Returns `built-in minutes, 1.32 times`; without the figure if it is 1.
fn built_in_times_words(times: Option<f64>, style: &Style) -> String {
    match times {
        Some(times) if (times - 1.0).abs() > f64::EPSILON => format!("{BUILT_IN}, {} times", style.show_number(times)),
        _ => BUILT_IN.to_owned(),
    }
}

fn in_minutes(time: Time) -> Time {
    time.liking(Liked::unit(Unit::Minute))
}

/// Returns the minutes of a work entry and their source, or `None` and the reason.
fn timed(job: &Job<'_>, work: &Work, amount: Quantity) -> (Option<Minutes>, String) {
    let error = match job.workshop.rates.minutes_for(&work.operation, amount) {
        Ok(minutes) if minutes.built_in => {
            return (Some(minutes), built_in_times_words(job.workshop.rates.built_in_times, &job.sentence_style));
        }
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
        let minutes = Minutes { built_in: false, set_up: Time::ZERO, running: about * times };
        return (Some(minutes), "the recipe's estimate".to_owned());
    }
    // The whole line to type would fill the column.
    if matches!(error, RateError::NoSuchOperation { nearest: None, .. }) {
        return (None, "no rate; type add rate".to_owned());
    }
    let why = match &error {
        RateError::NoSuchOperation { .. } => "no rate".to_owned(),
        other => other.to_string(),
    };
    (None, error.hint().map_or(why.clone(), |hint| format!("{why}; {hint}")))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 89 minutes are known, as far as any are.
    fn order(unknown: &[&str], any_known: bool, is_due: bool) -> OrderMinutes {
        OrderMinutes {
            table: Table::new("minutes").text("operation").ready().unwrap(),
            total: Time::try_from(Quantity::of(89.0, Unit::Minute)).unwrap(),
            by_operation: Vec::new(),
            any_known,
            unknown: unknown.iter().map(|name| (*name).to_owned()).collect(),
            built_in: Vec::new(),
            built_in_times: None,
            is_due,
        }
    }

    /// All is known where every operation has its minutes, and at least one where anything is made.
    #[test]
    fn the_sum_is_that_of_the_whole_order_only_if_nothing_is_unknown() {
        let cases = [
            (order(&[], true, true), true, ""),
            (order(&[], false, false), true, ""),
            (order(&[], false, true), false, "the recipe says no work"),
            (order(&["pack"], true, true), false, "no rate for “pack”"),
            (order(&["pack", "press"], false, true), false, "no rate for “pack”, “press”"),
        ];
        for (minutes, known, words) in cases {
            assert_eq!((minutes.all_known(), minutes.unknown_words().as_str()), (known, words));
        }
    }

    /// 89 minutes are 1 h 29 min.
    #[test]
    fn a_line_of_text_says_hours_and_minutes_and_what_has_none() {
        let said = |minutes: OrderMinutes| minutes.summary(&Style::default());
        assert_eq!(said(order(&[], true, true)), "1 h 29 min");
        assert_eq!(said(order(&["pack"], true, true)), "1 h 29 min and what has no rate");
        assert_eq!(said(order(&["pack"], false, true)), "minutes not known");
    }

    /// Once is not said, nor what differs from it by the last bit.
    #[test]
    fn built_in_minutes_taken_once_do_not_say_how_often() {
        let said = |times: f64| built_in_times_words(Some(times), &Style::default());
        assert_eq!(said(1.0 + f64::EPSILON), "built-in minutes");
        assert_eq!(said(1.5), "built-in minutes, 1.5 times");
        assert_eq!(said(0.5), "built-in minutes, 0.5 times");
    }
}
