//! The figures of a plan: how much is cut, laid, wasted and paid, and how good the plan is.
//!
//! Never here: sentences.

use super::keeping::{Leftover, waste};
use super::plan_report::{PlanReport, PlanWords};
use crate::cutting::StockSource;
use crate::quantity::{Length, Liked, Money, Quantity, Tape, Unit, number};
use crate::table::{Cell, Table, TableError};

/// The table of figures, one row each.
///
/// # Errors
/// Only errors of the table, which a plan made here does not cause.
pub(crate) fn summary(
    report: &PlanReport<'_>,
    kept: &[Leftover],
    cost: Option<Money>,
    words: &PlanWords,
) -> Result<Table, TableError> {
    let plan = report.plan;
    let waste = waste(report, kept);
    let large = Liked::unit(match words.tape {
        Tape::Inch => Unit::Yard,
        Tape::Metric => Unit::Metre,
    });
    let share = |share: f64| Cell::from(Quantity::number(share).liking(Liked::unit(Unit::Percent)));
    let long = |length: Length| Cell::from(length.liking(large));
    let from_shelf = plan.uses.iter().filter(|stock| matches!(stock.source, StockSource::Shelf { .. })).count();
    let joins: i64 = plan.joins.values().sum();
    let leftovers: i64 = kept.iter().map(|leftover| leftover.count).sum();
    let mut table = Table::new("summary").text("figure").mixed("value", "unit").ready()?;
    let figures = [
        ("pieces", Cell::Count(plan.pieces.values().sum())),
        ("joins", joins.into()),
        ("lengths taken", Cell::count(plan.uses.len())),
        ("from the shelf", Cell::count(from_shelf)),
        ("bought", number::from_size(plan.uses.len() - from_shelf).into()),
        ("length used", long(plan.length_used)),
        ("lower bound", long(plan.lower_bound)),
        ("best possible", share(plan.quality.bound_ratio)),
        ("proved", plan.quality.proved.into()),
        ("cost", cost.map_or(Cell::Blank, Cell::from)),
        ("use of cloth", share(waste.in_pieces)),
        ("leftovers worth keeping", leftovers.into()),
        ("waste", if report.is_roll() { long(waste.length) } else { Quantity::from(waste.area).liking(large).into() }),
        ("waste, share", share(waste.share)),
    ];
    for (figure, value) in figures {
        table.push(vec![figure.into(), value])?;
    }
    Ok(table)
}
