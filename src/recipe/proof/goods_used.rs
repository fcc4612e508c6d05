//! How a recipe uses its goods, learnt from its worked examples: as a cloth or a roll, or as a measured or counted
//! notion. The questions then offer first what is likely to fit.
//!
//! Never here: refusals. What is not offered may still be typed.

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

/// How the goods of an input are used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum GoodsUsed {
    /// Cloth or roll goods from which pieces are cut.
    Cut(GoodsKind),
    /// A notion needed by the length.
    Measured,
    /// A notion counted one by one.
    Counted,
}

/// The most examples tried.
const MAX_EXAMPLES: usize = 6;

impl GoodsUsed {
    /// Returns whether a material suits this use.
    pub(in crate::recipe) fn suits(self, material: &Material) -> bool {
        let counted = material.sold_by == SoldBy::Each || material.price_for == PriceFor::Each;
        match self {
            Self::Cut(kind) => material.kind.cut_as() == Some(kind),
            Self::Measured => !counted,
            // A notion with a put-up, on a card or a reel, is a length, however it is sold.
            Self::Counted => counted || (material.put_up.is_none() && !matches!(material.sold_by, SoldBy::Step(_))),
        }
    }
}

/// Returns how each cloth and notion input is used; inputs on which the examples say nothing or disagree are left out.
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

/// Returns the tickets that `make` fills for the first examples, up to the first example that fails.
fn made(recipe: &Recipe) -> Vec<Ticket> {
    let examples = examples::list(recipe).unwrap_or_default();
    let examples = examples.into_iter().filter_map(Dynamic::try_cast::<Map>);
    let made = examples.filter(|example| !example.contains_key("refuse")).take(MAX_EXAMPLES).map_while(|example| {
        let given = example.get("given").and_then(|given| given.clone().try_cast::<Map>())?;
        let answers = given.into_iter().map(|(name, value)| (name.to_string(), RawAnswer::Script(value))).collect();
        let evaluate = |typed: &str| session::evaluate(&recipe.host, typed);
        let order = OrderData::fill(&recipe.inputs, answers, &recipe.workshop, &evaluate, &recipe.host.style()).ok()?;
        let order: Order = Rc::new(order);
        let handle = TicketHandle::new(&recipe.text.name, &recipe.header.makes, &order);
        // Stop at the first failure: if one example runs too long, the next may do so too.
        let _unused = recipe.host.call(&recipe.script, "make", (order, handle.clone())).ok()?;
        let ticket = handle.0.borrow().ticket.clone();
        Some(ticket)
    });
    let made: Vec<Ticket> = made.collect();
    // Discard the cautions that functions asked for in the examples.
    recipe.host.take_notices();
    made
}
