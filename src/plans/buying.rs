//! What must be bought for a list of pieces, and the cost of all lengths used.
//!
//! Never here: a ticket's bill, which knows notions, steps and put-ups.

use super::plan_report::{PlanReport, PlanWords};
use crate::cutting::StockSource;
use crate::piece::{CutPiece, Grain, Shape, StockLength};
use crate::quantity::{Length, Money, Quantity, number, rounding};
use crate::table::{Cell, Table, TableError};

/// Prices from the file of lengths, by index in the stock or among the offers.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Prices {
    /// Price of one length on the shelf, by its index.
    pub shelf: Vec<Option<Money>>,
    /// Price of an offer, by its index: for one length, or by length if it is cut off as needed.
    pub offered: Vec<Option<Quantity>>,
}

impl Prices {
    fn of(&self, source: StockSource, length: Length) -> Option<Money> {
        match source {
            StockSource::Shelf { entry, .. } => self.shelf.get(entry).copied().flatten(),
            StockSource::New { offer, .. } => self.of_offer(offer, length),
        }
    }

    fn of_offer(&self, offer: usize, length: Length) -> Option<Money> {
        self.offered.get(offer).copied().flatten().and_then(|price| priced(price, length))
    }
}

/// The price of a length, given a price for one or by length.
fn priced(price: Quantity, length: Length) -> Option<Money> {
    Money::try_from(price).or_else(|_| price.times(length.into()).and_then(Money::try_from)).ok()
}

fn to_the_cent(money: Money) -> Money {
    rounding::to_the_cent(money.into()).ok().and_then(|cents| Money::try_from(cents).ok()).unwrap_or(money)
}

/// The price of all lengths used, to the cent; `None` if one of them has none.
pub(crate) fn cost(report: &PlanReport<'_>, prices: &Prices) -> Option<Money> {
    let each = report.plan.uses.iter().map(|stock| prices.of(stock.source, stock.length));
    report.plan.cost.or_else(|| each.sum()).map(to_the_cent)
}

/// The lengths of the shelf that stay there although something is bought, because each of them is shorter than every
/// piece. Beside shapes of their own nothing is called too short.
pub(crate) fn too_short(report: &PlanReport<'_>, shelf: &[StockLength]) -> Vec<String> {
    let shortest = |piece: &CutPiece| match *piece.shape {
        Shape::FullWidth { along } => Some(along),
        Shape::Rectangle { along, across } => match piece.grain {
            Grain::Along => Some(along),
            Grain::Across => Some(across),
            Grain::Any | Grain::Bias => Some(along.least(across)),
        },
        Shape::Sector { .. } | Shape::Outline(_) => None,
    };
    let pieces = report.pieces.iter().filter(|piece| piece.count > 0);
    // A piece that may be joined takes parts of any length.
    if report.plan.bought.is_empty() || pieces.clone().any(|piece| piece.may_join.is_some()) {
        return Vec::new();
    }
    let shortest: Option<Vec<Length>> = pieces.map(shortest).collect();
    let Some(shortest) = shortest.and_then(|all| all.into_iter().reduce(Length::least)) else { return Vec::new() };
    shelf.iter().filter(|length| length.along < shortest).map(|length| length.name.clone()).collect()
}

/// What must be bought, one row for each kind of length.
///
/// # Errors
/// Only errors of the table, which a plan made here does not cause.
pub(crate) fn buy_list(report: &PlanReport<'_>, prices: &Prices, words: &PlanWords) -> Result<Table, TableError> {
    let columns = Table::new("buy_list").text("what").count("count").length("each", words.small());
    let mut table = columns.length("in all", words.small()).money("price").ready()?;
    for bought in &report.plan.bought {
        let count = number::from_whole(bought.count);
        let price = prices.of_offer(bought.offer, bought.length).map(|price| to_the_cent(price * count));
        table.push(vec![
            bought.name.as_str().into(),
            bought.count.into(),
            bought.length.into(),
            (bought.length * count).into(),
            price.map_or(Cell::Blank, Cell::from),
        ])?;
    }
    Ok(table)
}
