//! What the goods of a recipe are used as, learnt from its own worked examples: a cloth or a roll, a notion that is
//! measured off or one that is counted. So the questions offer first what is likely to fit.
//!
//! Never here: a refusal. What is not offered may still be typed.

use crate::piece::GoodsKind;
use crate::quantity::Dimension;
use crate::recipe::answers::answering::RawAnswer;
use crate::recipe::host::order::{Order, OrderData};
use crate::recipe::host::session;
use crate::recipe::host::ticket_words::TicketHandle;
use crate::recipe::opened::Recipe;
use crate::recipe::proof::examples;
use crate::ticket::Ticket;
use crate::workshop::{Material, PriceFor, SoldBy};
use rhai::{Dynamic, Map};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::rc::Rc;

/// What an input's goods are used as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum GoodsUsed {
    /// Pieces are cut from them.
    Cut(GoodsKind),
    /// A notion by the length.
    Measured,
    /// A notion by the piece.
    Counted,
}

/// Examples that are tried.
const MOST: usize = 6;

impl GoodsUsed {
    /// Whether a material is of this use.
    pub(in crate::recipe) fn suits(self, material: &Material) -> bool {
        let counted = material.sold_by == SoldBy::Each || material.price_for == PriceFor::Each;
        match self {
            Self::Cut(kind) => material.kind.cut_as() == Some(kind),
            Self::Measured => !counted,
            // What comes on a card or a reel is a length, too, however it is sold.
            Self::Counted => counted || (material.put_up.is_none() && !matches!(material.sold_by, SoldBy::Step(_))),
        }
    }
}

/// What each cloth and notion is used as; none where the examples say nothing, or one thing and another.
pub(in crate::recipe) fn of(recipe: &Recipe) -> BTreeMap<String, GoodsUsed> {
    let mut found: BTreeMap<String, Option<GoodsUsed>> = BTreeMap::new();
    for ticket in made(recipe) {
        let pieces = ticket.pieces.iter().map(|piece| (piece.material, None));
        let needs = ticket.needs.iter().map(|need| (need.material, Some(need.amount.dimension())));
        for (material, measured_in) in pieces.chain(needs) {
            let Some(known) = ticket.materials.get(material) else { continue };
            let Some(input) = &known.input else { continue };
            let kind = known.material.kind;
            let used = match (kind.cut_as(), measured_in) {
                (Some(goods), None) => GoodsUsed::Cut(goods),
                (None, Some(Dimension::LENGTH)) if kind.is_asked_for() => GoodsUsed::Measured,
                (None, Some(Dimension::NUMBER)) if kind.is_asked_for() => GoodsUsed::Counted,
                _ => continue,
            };
            let before = found.entry(input.clone()).or_insert(Some(used));
            if *before != Some(used) {
                *before = None;
            }
        }
    }
    found.into_iter().filter_map(|(input, used)| Some((input, used?))).collect()
}

/// The tickets of the first examples, cut or not; an example that fails says nothing here.
fn made(recipe: &Recipe) -> Vec<Ticket> {
    let examples = examples::list(recipe).unwrap_or_default();
    let examples = examples.into_iter().filter_map(Dynamic::try_cast::<Map>);
    let made = examples.filter(|example| !example.contains_key("refuse")).take(MOST).map_while(|example| {
        let given = example.get("given").and_then(|given| given.clone().try_cast::<Map>())?;
        let given = given.into_iter().map(|(name, value)| (name.to_string(), RawAnswer::Script(value))).collect();
        let evaluate = |typed: &str| session::evaluate(&recipe.host, typed);
        let order = OrderData::fill(&recipe.inputs, given, &recipe.workshop, &evaluate, &recipe.host.style()).ok()?;
        let order: Order = Rc::new(order);
        let handle = TicketHandle::new(&recipe.text.name, &recipe.header.makes, &order);
        // One that goes on for too long is not tried a second time.
        let _unused = recipe.host.call(&recipe.script, "make", (order, handle.clone())).ok()?;
        let ticket = handle.0.borrow().ticket.clone();
        Some(ticket)
    });
    let made: Vec<Ticket> = made.collect();
    // What the examples' functions asked to be cautious of is no news.
    recipe.host.take_notices();
    made
}
