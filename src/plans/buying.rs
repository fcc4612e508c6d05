//! What a list of pieces makes the maker buy, and what all that is taken up costs.
//!
//! Never here: a ticket's bill, which knows notions, steps and put-ups.

use super::plan_report::{PlanReport, PlanWords};
use crate::cutting::StockSource;
use crate::quantity::{Length, Money, Quantity, number, rounding};
use crate::table::{Cell, Table, TableError};

/// Prices as the file of lengths has them, by the places the plan counts.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Prices {
    /// Of one length on the shelf, by its place in the list.
    pub shelf: Vec<Option<Money>>,
    /// Of what is offered, by its place: of one length, or by the length of what is cut off as needed.
    pub offered: Vec<Option<Quantity>>,
}

impl Prices {
    fn of(&self, source: StockSource, length: Length) -> Option<Money> {
        match source {
            StockSource::Shelf { entry, .. } => self.shelf.get(entry).copied().flatten(),
            StockSource::New { offer, .. } => {
                self.offered.get(offer).copied().flatten().and_then(|p| priced(p, length))
            }
        }
    }
}

/// The price of a length at a price for one, or by the length.
fn priced(price: Quantity, length: Length) -> Option<Money> {
    Money::try_from(price).or_else(|_| price.times(length.into()).and_then(Money::try_from)).ok()
}

fn to_the_cent(money: Money) -> Money {
    rounding::to_the_cent(money.into()).ok().and_then(|cents| Money::try_from(cents).ok()).unwrap_or(money)
}

/// The price of all lengths that are taken up, to the cent; none where one of them has none.
pub(crate) fn cost(told: &PlanReport<'_>, prices: &Prices) -> Option<Money> {
    let each = told.plan.uses.iter().map(|stock| prices.of(stock.source, stock.length));
    told.plan.cost.or_else(|| each.sum()).map(to_the_cent)
}

/// What must be bought, a row for each kind of length.
///
/// # Errors
/// None for a plan that was made here; the table answers for itself.
pub(crate) fn buy_list(told: &PlanReport<'_>, prices: &Prices, words: &PlanWords) -> Result<Table, TableError> {
    let columns = Table::new("buy_list").text("what").count("count").length("each", words.small());
    let mut table = columns.length("in all", words.small()).money("price").ready()?;
    for bought in &told.plan.bought {
        let source = StockSource::New { offer: bought.offer, number: 1 };
        let count = number::from_whole(bought.count);
        let price = prices.of(source, bought.length).map(|price| to_the_cent(price * count));
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
