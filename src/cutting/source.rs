//! Where lengths come from, in the order they are taken up: remnants, opened rolls, what is bought.
//!
//! Never here: pieces.

use super::fault::CuttingFault;
use super::first_fit::FirstFit;
use super::goods::{Goods, GoodsKind, PutUp, StockLength, Supply};
use super::nanometre::{MOST_LAID, is_sound, liked, up};
use super::plan::StockSource;
use crate::quantity::{Length, Liked, Money};

/// Lengths that are alike: an entry of the shelf, or something that is offered.
#[derive(Debug)]
pub(super) struct Source {
    pub(super) origin: Origin,
    pub(super) name: String,
    pub(super) lot: Option<String>,
    pub(super) price: Option<Money>,
    /// How long each is; of one as long as needed, the most that a plan lays.
    pub(super) length: i64,
    pub(super) as_needed: bool,
    pub(super) width: i64,
    pub(super) liked: Option<Liked>,
    /// How many are still untouched; none for as many as needed.
    pub(super) left: Option<i64>,
    /// The lengths taken up, by their place in the planner's list, and the room left on each.
    pub(super) taken: Vec<usize>,
    pub(super) rooms: FirstFit,
}

/// Where a source stands in what the caller gave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Origin {
    Shelf(usize),
    Offer(usize),
}

impl Origin {
    /// The `number`th of it.
    pub(super) fn nth(self, number: i64) -> StockSource {
        match self {
            Self::Shelf(entry) => StockSource::Shelf { entry, number },
            Self::Offer(offer) => StockSource::New { offer, number },
        }
    }
}

impl Source {
    /// The most length left in one piece: an untouched length, or the rest of one.
    pub(super) fn room(&self) -> i64 {
        if self.left == Some(0) { self.rooms.largest() } else { self.length }
    }

    /// What the `number`th is called in a plan.
    pub(super) fn label(&self, number: i64) -> String {
        match self.origin {
            Origin::Shelf(_) => self.name.clone(),
            Origin::Offer(_) if self.as_needed => format!("new {}", self.name),
            Origin::Offer(_) => format!("new {} {number}", self.name),
        }
    }
}

/// The shelf, remnants first, then what may be bought; each in the order given.
pub(super) fn sources(
    goods: &Goods,
    width: i64,
    stock: &[StockLength],
    supply: &Supply,
) -> Result<Vec<Source>, CuttingFault> {
    let mut sources = Vec::new();
    for remnants in [true, false] {
        for (entry, shelf) in stock.iter().enumerate().filter(|(_, shelf)| shelf.remnant == remnants) {
            let offer = PutUp {
                name: shelf.name.clone(),
                along: Some(shelf.along),
                across: shelf.across,
                price: None,
                most: Some(shelf.count),
            };
            sources.push(Source { lot: shelf.lot.clone(), ..source(Origin::Shelf(entry), &offer, width)? });
        }
    }
    let endless;
    let offers: &[PutUp] = match supply {
        Supply::Endless => {
            endless = [new_put_up(goods)];
            &endless
        }
        Supply::ShelfOnly => &[],
        Supply::Offered(offers) => offers,
    };
    for (place, offer) in offers.iter().enumerate() {
        sources.push(source(Origin::Offer(place), offer, width)?);
    }
    sources.retain(|source| source.left != Some(0));
    Ok(sources)
}

fn new_put_up(goods: &Goods) -> PutUp {
    let name = match (goods.kind, goods.put_up) {
        (GoodsKind::Roll, _) => "roll",
        (GoodsKind::Cloth, Some(_)) => "bolt",
        (GoodsKind::Cloth, None) => "cloth",
    };
    PutUp { name: name.to_owned(), along: goods.put_up, across: None, price: None, most: None }
}

fn source(origin: Origin, offer: &PutUp, goods_width: i64) -> Result<Source, CuttingFault> {
    let size = |given: Length| {
        let whole = up(given.steps()).filter(is_sound);
        whole.ok_or_else(|| CuttingFault::BadSize { what: offer.name.clone(), given })
    };
    if let Some(count) = offer.most.filter(|count| *count < 0) {
        return Err(CuttingFault::NegativeCount { what: offer.name.clone(), count });
    }
    let as_needed = offer.along.is_none();
    Ok(Source {
        origin,
        name: offer.name.clone(),
        lot: None,
        price: offer.price,
        length: offer.along.map_or(Ok(MOST_LAID), size)?,
        as_needed,
        width: offer.across.map_or(Ok(goods_width), size)?.min(goods_width),
        liked: offer.along.map(liked),
        left: if as_needed { Some(offer.most.unwrap_or(1).min(1)) } else { offer.most },
        taken: Vec::new(),
        rooms: FirstFit::new(),
    })
}
