//! The lengths to cut from, in the order they are used: remnants, other shelf lengths, what is bought.
//!
//! Never here: pieces.

use crate::cutting::error::CuttingError;
use crate::cutting::nanometre::{MOST_LAID, is_sound, liked, up};
use crate::cutting::plan::StockSource;
use crate::cutting::task::demand::{Demand, Measures};
use crate::cutting::task::manner::CuttingTask;
use crate::piece::{Goods, PutUp, Supply};
use crate::quantity::{Length, Liked, Money};

/// Equal lengths: an entry of the shelf, or an offer.
#[derive(Clone, Debug)]
pub(in crate::cutting) struct Source {
    pub(in crate::cutting) origin: Origin,
    pub(in crate::cutting) name: String,
    pub(in crate::cutting) lot: Option<String>,
    pub(in crate::cutting) washed: bool,
    pub(in crate::cutting) price: Option<Money>,
    /// Usable length of each, its ends squared; for one cut as needed, the most that a plan lays.
    pub(in crate::cutting) length: i64,
    /// What of each is kept free besides, to find the first start of the pattern.
    pub(in crate::cutting) spare: i64,
    pub(in crate::cutting) as_needed: bool,
    pub(in crate::cutting) width: i64,
    pub(in crate::cutting) liked: Option<Liked>,
    /// How many there are; `None` if there is no limit.
    pub(in crate::cutting) most: Option<i64>,
    /// Where the length is free behind its pinned cuts; zero if it has none.
    pub(in crate::cutting) opened_at: i64,
    /// Whether those settle where on it the pattern starts.
    pub(in crate::cutting) settled: bool,
}

/// Index of a source in the task's stock or offers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) enum Origin {
    Shelf(usize),
    Offer(usize),
}

impl Origin {
    /// The `number`th length of it.
    pub(in crate::cutting) fn nth(self, number: i64) -> StockSource {
        match self {
            Self::Shelf(entry) => StockSource::Shelf { entry, number },
            Self::Offer(offer) => StockSource::New { offer, number },
        }
    }
}

impl Source {
    /// Whether it is on the shelf.
    pub(in crate::cutting) fn is_on_shelf(&self) -> bool {
        matches!(self.origin, Origin::Shelf(_))
    }

    /// The numbers whose lengths a plan calls `stock`.
    pub(in crate::cutting) fn numbers_called(&self, stock: &str) -> impl Iterator<Item = i64> {
        let last = match self.origin {
            Origin::Shelf(_) if self.name == stock => self.most.unwrap_or(0),
            Origin::Shelf(_) => 0,
            // There is but one, and what its name ends in is no number of it.
            Origin::Offer(_) if self.as_needed => 1,
            // The number is at the end of the name.
            Origin::Offer(_) => {
                let digits = stock.len() - stock.trim_end_matches(|c: char| c.is_ascii_digit()).len();
                stock.get(stock.len() - digits..).and_then(|digits| digits.parse().ok()).unwrap_or(1)
            }
        };
        let first = if self.is_on_shelf() { 1 } else { last };
        let label = stock.to_owned();
        let most = self.most.unwrap_or(i64::MAX);
        (first..=last).filter(move |number| *number <= most && self.label(*number) == label)
    }

    /// The name of the `number`th length in a plan.
    pub(in crate::cutting) fn label(&self, number: i64) -> String {
        match self.origin {
            Origin::Shelf(_) => self.name.clone(),
            Origin::Offer(_) if self.as_needed => format!("new {}", self.name),
            Origin::Offer(_) => format!("new {} {number}", self.name),
        }
    }
}

/// Returns the shelf, remnants first and the smallest of them first, then what may be bought in the order given.
pub(in crate::cutting) fn sources(
    task: &CuttingTask<'_>,
    measures: Measures,
    demand: &Demand<'_>,
) -> Result<Vec<Source>, CuttingError> {
    let (goods, stock) = (task.goods, task.stock);
    let mut sources = Vec::new();
    for remnants in [true, false] {
        let from = sources.len();
        for (entry, shelf) in stock.iter().enumerate().filter(|(_, shelf)| shelf.remnant == remnants) {
            let offer = PutUp {
                name: shelf.name.clone(),
                along: Some(shelf.along),
                across: shelf.across,
                price: shelf.price,
                most: Some(shelf.count),
            };
            let (lot, washed) = (shelf.lot.clone(), shelf.washed);
            sources.push(Source { lot, washed, ..source(Origin::Shelf(entry), &offer, measures, demand)? });
        }
        if let Some(added) = sources.get_mut(from..) {
            added.sort_by_key(|source: &Source| i128::from(source.length) * i128::from(source.width));
        }
    }
    let endless;
    let offers: &[PutUp] = match task.supply {
        Supply::Endless => {
            endless = [new_put_up(goods)];
            &endless
        }
        Supply::ShelfOnly => &[],
        Supply::Offered(offers) => offers,
    };
    for (place, offer) in offers.iter().enumerate() {
        sources.push(source(Origin::Offer(place), offer, measures, demand)?);
    }
    // Squaring the ends leaves nothing of a very short length.
    sources.retain(|source| source.most != Some(0) && source.length > 0);
    Ok(sources)
}

fn new_put_up(goods: &Goods) -> PutUp {
    PutUp { name: goods.new_length_name().to_owned(), along: goods.put_up, across: None, price: None, most: None }
}

fn source(origin: Origin, offer: &PutUp, measures: Measures, demand: &Demand<'_>) -> Result<Source, CuttingError> {
    let checked = |size: Length| {
        let whole = up(size.steps()).filter(is_sound);
        whole.ok_or_else(|| CuttingError::BadSize { what: offer.name.clone(), size })
    };
    if let Some(count) = offer.most.filter(|count| *count < 0) {
        return Err(CuttingError::NegativeCount { what: offer.name.clone(), count });
    }
    let as_needed = offer.along.is_none();
    let width = offer.across.map_or(Ok(measures.width), checked)?.min(measures.width);
    let (length, spare) = match offer.along {
        Some(along) => without_spare(checked(along)? - measures.lost_at_ends(), width, measures, demand),
        None => (MOST_LAID, 0),
    };
    Ok(Source {
        origin,
        name: offer.name.clone(),
        lot: None,
        washed: false,
        price: offer.price,
        length,
        spare,
        as_needed,
        width,
        liked: offer.along.map(liked),
        opened_at: 0,
        settled: false,
        most: if as_needed { Some(offer.most.unwrap_or(1).min(1)) } else { offer.most },
    })
}

/// Divides a length into what is usable and what is kept free to find the pattern: a repeat where a matched piece may lie.
/// A length that is too short for one with the repeat before it is as long as can be for all other pieces.
fn without_spare(length: i64, width: i64, measures: Measures, demand: &Demand<'_>) -> (i64, i64) {
    let usable = match demand.shortest_matched(width) {
        None => length,
        Some(shortest) if length - measures.lead < shortest => length.min(shortest - 1),
        Some(_) => length - measures.lead,
    };
    (usable, length - usable)
}
