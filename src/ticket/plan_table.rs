//! The plan table: every single cut with its marks, in the order a person makes them.
//!
//! Never here: runs told in one sentence.

use super::job::Job;
use super::lay::Lay;
use crate::cutting::{Cut, Lie};
use crate::table::{Table, TableFault};

/// One row for each cut. Marks run along each length from its start, and across it from one selvedge.
pub(super) fn plan(job: &Job<'_>, lays: &[Lay]) -> Result<Table, TableFault> {
    let columns = Table::new("plan").text("stock").count("cut").text("order").text("piece");
    let columns = columns.length("mark from", job.small()).length("mark to", job.small());
    let columns = columns.length("across from", job.small()).length("across to", job.small());
    let mut table = columns.text("turned").text("material").text("note").ready()?;
    for lay in lays {
        for stock in &lay.plan.uses {
            for (number, cut) in (1_i64..).zip(&stock.cuts) {
                table.push(vec![
                    stock.stock.as_str().into(),
                    number.into(),
                    cut.order.as_deref().into(),
                    cut.piece.as_ref().into(),
                    cut.from.into(),
                    cut.to.into(),
                    cut.across_from.into(),
                    cut.across_to.into(),
                    turned(cut).into(),
                    lay.material.material.name.as_str().into(),
                    note(cut).into(),
                ])?;
            }
        }
    }
    Ok(table)
}

fn turned(cut: &Cut) -> &'static str {
    match (cut.lie, cut.reversed) {
        (Lie::Along, false) => "no",
        (Lie::Along, true) => "half",
        (Lie::Across, _) => "quarter",
        (Lie::Bias, _) => "bias",
    }
}

fn note(cut: &Cut) -> String {
    let mirrored = cut.mirrored.then(|| "mirrored".to_owned());
    let part = cut.part.map(|part| format!("part {} of {}", part.number, part.of));
    mirrored.into_iter().chain(part).collect::<Vec<_>>().join(", ")
}
