//! The instructions of an order: its marks and its steps.
//!
//! Never here: cautions, which have sources of their own.

use crate::table::{Cell, Table, TableError};
use crate::ticket::job::Job;

/// Builds the table of marks.
pub(super) fn marks(job: &Job<'_>) -> Result<Table, TableError> {
    let columns = Table::new("marks").text("piece").text("mark").length("distance", job.small());
    let mut table = columns.text("from").ready()?;
    for mark in &job.ticket.marks {
        let distance = mark.distance.into();
        table.push(vec![mark.piece.as_str().into(), mark.name.as_str().into(), distance, mark.from.as_str().into()])?;
    }
    Ok(table)
}

/// Builds the table of steps, lengths on both tapes. A step with an unknown name in braces stays as written.
pub(super) fn steps(job: &Job<'_>) -> Result<Table, TableError> {
    let mut table = Table::new("steps").count("step").text("what to do").ready()?;
    for (number, step) in (1_i64..).zip(&job.ticket.steps) {
        let filled = job.ticket.fill_step(step, &job.style);
        let text = if filled.unknown.is_empty() { filled.text } else { step.clone() };
        table.push(vec![Cell::Count(number), text.into()])?;
    }
    Ok(table)
}
