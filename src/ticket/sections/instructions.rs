//! The instructions of an order: its marks and its steps.
//!
//! Never here: cautions, which have sources of their own.

use crate::plans;
use crate::table::{Cell, Table, TableError};
use crate::ticket::job::Job;
use crate::ticket::lay_error::LayError;
use crate::ticket::ticket::TicketStep;
use crate::ticket::wash_words;
use crate::ticket::workshop_order::WorkshopOrder;

/// Builds the table of marks.
pub(super) fn marks(job: &Job<'_>) -> Result<Table, TableError> {
    let columns = Table::new("marks").text("piece").text("mark").length("distance", job.small());
    let mut table = columns.text("from").ready()?;
    for mark in job.ticket.marks_as_cut() {
        table.push(vec![mark.piece.into(), mark.name.into(), mark.distance.into(), mark.from.into()])?;
    }
    Ok(table)
}

/// Builds the table of steps, lengths on the tape of the order; those of washing before cutting come first,
/// and those that cut a piece are told from the plan. A step with an unknown name in braces stays as written.
pub(super) fn steps(order: &WorkshopOrder) -> Result<Table, LayError> {
    let mut table = Table::new("steps").count("step").text("what to do").ready()?;
    let job = order.job();
    let style = job.step_style();
    let mut texts = wash_words::steps(&job, order.lays()?);
    for step in &job.ticket.steps {
        match step {
            TicketStep::Words(step) => {
                let filled = job.ticket.fill_step(step, &style);
                texts.push(if filled.unknown.is_empty() { filled.text } else { step.clone() });
            }
            TicketStep::Cut(piece) => {
                let (words, letters) = (order.plan_words(), order.letters()?);
                let reports = order.plan_reports()?;
                texts.extend(reports.iter().flat_map(|report| plans::cut_steps(report, piece, &letters, &words)));
            }
        }
    }
    for (number, text) in (1_i64..).zip(texts) {
        table.push(vec![Cell::Count(number), text.into()])?;
    }
    Ok(table)
}
