//! The supply of an order's notions: the shelf first, then what must be bought.
//!
//! A length of elastic or tape is cut in one piece, so the planner places it whole on the stock, like strips on rolls.
//! What is counted or wound off is only added up. Never here: prices and selling steps.

use super::job::Job;
use super::lay::{LayError, manner};
use super::needs::RequiredMaterial;
use crate::cutting::{CuttingError, CuttingPlan, CuttingTask, Planner, StockSource};
use crate::piece::{CutPiece, Goods, GoodsKind, Shape, StockLength, Supply};
use crate::quantity::{Dimension, Length, Quantity, number};
use crate::workshop::{SoldBy, StockPiece};
use std::sync::Arc;

/// How much of a notion comes from the shelf, and how much must be bought.
pub(super) struct NotionSupply {
    pub(super) shelf: Quantity,
    /// What must be bought, before rounding up to a selling step.
    pub(super) buy: Quantity,
    /// The names of the stock it is taken from.
    pub(super) taken_from: Vec<String>,
    /// The names of stock that is too short for every length needed.
    pub(super) too_short: Vec<String>,
}

/// Returns the supply of one notion. The shelf counts only with `use_shelf`, and if the workshop lists the notion.
pub(super) fn supply(
    job: &Job<'_>,
    required: &RequiredMaterial<'_>,
    use_shelf: bool,
    planner: &Planner,
) -> Result<NotionSupply, LayError> {
    let stock: Vec<&StockPiece> = if use_shelf && required.listed { free(job, required) } else { Vec::new() };
    match placed(required, &stock, planner) {
        Some(Ok(plan)) => Ok(from_plan(required, &stock, &plan)),
        Some(Err(CuttingError::Stopped)) => {
            let (material, error) = (required.name.clone(), CuttingError::Stopped);
            Err(LayError::Cutting { material, input: None, error })
        }
        // A length longer than any put-up is pieced together, so only the sum of the lengths counts.
        Some(Err(_)) | None => Ok(added_up(required, &stock)),
    }
}

/// Returns the stock of it on the shelf that is held for no order.
fn free<'a>(job: &Job<'a>, required: &RequiredMaterial<'_>) -> Vec<&'a StockPiece> {
    let pieces = job.workshop.stock.of(&required.name).filter(|piece| piece.held_for.is_none() && piece.count > 0);
    let measured = required.amount.dimension() == Dimension::LENGTH;
    pieces.filter(|piece| piece.along.is_some() == measured).collect()
}

/// Plans the lengths; `None` if the notion is counted, wound off or unlisted.
fn placed(
    required: &RequiredMaterial<'_>,
    stock: &[&StockPiece],
    planner: &Planner,
) -> Option<Result<Arc<CuttingPlan>, CuttingError>> {
    let material = required.material.filter(|_| required.listed && !required.lengths.is_empty())?;
    let width = material.usable_width.unwrap_or(Length::inches(1.0));
    let put_up = if material.sold_by == SoldBy::PutUp { material.put_up } else { None };
    let goods = Goods { kind: GoodsKind::Roll, put_up, ..Goods::cloth(width) };
    let pieces: Vec<CutPiece> = required
        .lengths
        .iter()
        .filter(|(length, _)| length.is_positive())
        .map(|(length, times)| CutPiece::new(&required.name, *times, Shape::FullWidth { along: *length }))
        .collect();
    let lengths: Vec<StockLength> = stock
        .iter()
        .filter_map(|piece| {
            let along = piece.along?;
            let count = number::from_size(piece.count);
            Some(StockLength {
                count,
                remnant: put_up.is_some_and(|put_up| along < put_up),
                ..StockLength::new(&piece.name, along)
            })
        })
        .collect();
    // Every end of a notion is kept.
    let (supply, manner) = (&Supply::Endless, &manner(Some(Length::ZERO)));
    let task = CuttingTask { pieces: &pieces, goods: &goods, stock: &lengths, supply, manner };
    Some(planner.plan(&task))
}

fn from_plan(required: &RequiredMaterial<'_>, stock: &[&StockPiece], plan: &CuttingPlan) -> NotionSupply {
    let like = |length: Length| Quantity::from(length).liking(required.amount.liked());
    let (mut shelf, mut new) = (Length::ZERO, Length::ZERO);
    let mut taken_from: Vec<String> = Vec::new();
    for used in &plan.uses {
        if matches!(used.source, StockSource::New { .. }) {
            new = new + used.used;
            continue;
        }
        shelf = shelf + used.used;
        if !taken_from.contains(&used.stock) {
            taken_from.push(used.stock.clone());
        }
    }
    // Every put-up that the plan opens is bought, even if the sum of the lengths would fit on fewer.
    let opened = plan.bought.iter().filter(|_| required.material.is_some_and(|m| m.sold_by == SoldBy::PutUp));
    let opened: Length = opened.map(|bought| bought.length * number::from_whole(bought.count)).sum();
    // Only stock that holds none of the lengths is too short, not what is left for another reason.
    let shortest = required.lengths.iter().map(|(length, _)| *length).filter(|length| length.is_positive());
    let shortest = shortest.reduce(Length::least).filter(|_| new.is_positive());
    let is_short =
        |piece: &StockPiece| shortest.is_some_and(|shortest| piece.along.is_some_and(|along| along < shortest));
    let too_short = stock.iter().filter(|piece| is_short(piece));
    let too_short = too_short.map(|piece| piece.name.clone()).collect();
    NotionSupply { shelf: like(shelf), buy: like(new.most(opened)), taken_from, too_short }
}

fn added_up(required: &RequiredMaterial<'_>, stock: &[&StockPiece]) -> NotionSupply {
    let steps = required.amount.steps();
    let like = |steps: f64| Quantity::from_steps(steps, required.amount.dimension()).liking(required.amount.liked());
    let mut held = 0.0;
    let mut taken_from = Vec::new();
    for piece in stock {
        if held >= steps {
            break;
        }
        held += piece.along.map_or(1.0, Length::steps) * number::from_count(piece.count);
        taken_from.push(piece.name.clone());
    }
    let taken = held.min(steps).max(0.0);
    NotionSupply { shelf: like(taken), buy: like((steps - taken).max(0.0)), taken_from, too_short: Vec::new() }
}
