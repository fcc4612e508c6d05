//! What the first screen of an order says: the few rows that a maker decides by, each row short parts under a label.
//!
//! Everything else of an order is in its sections. Never here: how the rows are laid out, how much room there is.

mod answers;
mod cuts;
mod money;
mod warnings;

use super::lay_error::LayError;
use super::workshop_order::WorkshopOrder;

/// One row of a first screen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct OverviewRow {
    /// A word in capitals; empty for the head.
    pub(crate) label: &'static str,
    /// Each begins a line of its own; its parts are kept whole where a line has room for them.
    pub(crate) lines: Vec<Vec<String>>,
    /// What may stand instead where room is short, each shorter than the one before.
    pub(crate) shorter: Vec<Vec<Vec<String>>>,
    /// Whether it is another for another cloth, so that it says nothing while the cloth is not chosen.
    pub(crate) goes_by_cloth: bool,
}

impl OverviewRow {
    /// A row whose parts stand side by side.
    fn of(label: &'static str, parts: Vec<String>) -> Self {
        Self { label, lines: vec![parts], ..Self::default() }
    }

    /// A row of sentences, each on lines of its own.
    fn of_sentences(label: &'static str, sentences: impl IntoIterator<Item = String>) -> Self {
        Self { label, lines: sentences.into_iter().map(|sentence| vec![sentence]).collect(), ..Self::default() }
    }

    /// The same row, as one that goes by the cloth.
    fn by_cloth(self) -> Self {
        Self { goes_by_cloth: true, ..self }
    }

    fn is_empty(&self) -> bool {
        self.lines.iter().all(Vec::is_empty)
    }
}

/// Returns the rows of an order's first screen, without those that have nothing to say. `name` is what the order is
/// called where it has no mark.
///
/// # Errors
/// The work was stopped, or an amount is too large.
pub(crate) fn overview(order: &WorkshopOrder, name: &str) -> Result<Vec<OverviewRow>, LayError> {
    let mut rows = vec![
        answers::head(order, name),
        money::price(order)?.by_cloth(),
        money::left_out(order)?,
        OverviewRow::of_sentences("MINUTES", order.minutes()?.built_in_briefly(&order.job().sentence_style)),
        money::to_buy(order)?.by_cloth(),
        cuts::row(order)?.by_cloth(),
        answers::usual(order),
        answers::gathers(order),
        OverviewRow::of_sentences("WASH", super::wash_words::brief(&order.job(), order.lays()?, order.small_cuts()?))
            .by_cloth(),
    ];
    rows.extend(warnings::about_the_plan(order)?.into_iter().map(OverviewRow::by_cloth));
    rows.push(money::goes_to(order)?.by_cloth());
    rows.push(warnings::to_mind(order));
    rows.extend(warnings::cautions(order));
    rows.retain(|row| !row.is_empty());
    Ok(rows)
}
