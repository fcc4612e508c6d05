//! Lays a ticket's pieces on their materials: on endless stock for the standard plan, on the shelf's stock for the real
//! plan.
//!
//! Never here: planning itself, prices.

use super::job::preferred_unit;
use super::lay_error::LayError;
use super::panels;
use super::ticket::{Ticket, TicketMaterial, TicketPiece};
use super::washing::FirstWash;
use crate::cutting::{CuttingError, CuttingManner, CuttingPlan, CuttingTask, Effort, Planner, StockSource, StockUse};
use crate::piece::{CutPiece, Exact, Goods, GoodsKind, PanelLayout, Piece, Repeat, Shape, Starts, StockLength, Supply};
use crate::plans::PlanReport;
use crate::quantity::{Length, Style, number};
use crate::textile::washing::Loss;
use crate::workshop::{Material, SoldBy, StockPiece, Workshop};
use std::sync::Arc;

/// Search steps for each plan of a ticket: about a thirtieth of a second, unless a proof ends the search sooner.
const EFFORT: u64 = 30_000;

/// One material and the plan for everything cut from it.
#[derive(Clone, Debug)]
pub struct Lay {
    /// The material.
    pub material: TicketMaterial,
    /// The index in [`Ticket::materials`].
    pub index: usize,
    /// How the material meets its first wash.
    pub first_wash: FirstWash,
    /// The usable width it is laid at.
    pub width: Length,
    /// The pieces laid, with their counts for all garments.
    pub pieces: Vec<CutPiece>,
    /// The widths of the panels that each of the pieces makes, if it makes any.
    pub(crate) panels: Vec<Option<PanelLayout>>,
    /// The goods they are laid on.
    pub goods: Goods,
    /// The stock on the shelf that the plan may use; empty for a standard plan.
    pub stock: Vec<StockLength>,
    /// The plan, accepted by the verifier.
    pub plan: Arc<CuttingPlan>,
}

impl Lay {
    /// Returns the plan with everything its report needs. A leftover of at least `keep_from` is worth keeping.
    pub fn report(&self, keep_from: Option<Length>) -> PlanReport<'_> {
        let name = Some(self.material.material.name.as_str());
        let washed_first = Some(self.first_wash.before_laying()).filter(|loss| !loss.is_none());
        PlanReport {
            name,
            pieces: &self.pieces,
            panels: &self.panels,
            goods: &self.goods,
            plan: &self.plan,
            keep_from,
            washed_first,
            shelf: &self.stock,
        }
    }

    /// Returns whether a length that the plan uses is washed already.
    pub(crate) fn is_washed(&self, used: &StockUse) -> bool {
        match used.source {
            StockSource::Shelf { entry, .. } => self.stock.get(entry).is_some_and(|length| length.washed),
            StockSource::New { .. } => false,
        }
    }

    /// Returns whether a length that the plan uses is washed for this order before it is laid.
    pub(crate) fn is_washed_for(&self, used: &StockUse) -> bool {
        !self.first_wash.before_laying().is_none() && !self.is_washed(used)
    }

    /// Returns how much is taken of a length that the plan uses, as it lies on the shelf or is bought, with what lies
    /// before the first start of a pattern.
    pub(crate) fn taken(&self, used: &StockUse) -> Length {
        let laid = used.used + used.lead;
        if self.is_washed_for(used) { self.first_wash.before_laying().before_along(laid) } else { laid }
    }

    /// Returns the length laid as it is bought: before washing, if it is washed first, and with what lies before the
    /// first starts of a pattern.
    pub(crate) fn length_before_washing(&self) -> Length {
        let lead: Length = self.plan.uses.iter().map(|used| used.lead).sum();
        self.first_wash.before_laying().before_along(self.plan.length_used + lead)
    }

    /// Returns the total length laid, in the unit the material is bought in.
    pub fn length_used(&self) -> Length {
        self.plan.length_used.liking(preferred_unit(&self.material.material))
    }
}

/// Returns the standard plan for this many garments: endless stock of every material.
pub fn standard_lays(ticket: &Ticket, garments: i64, style: &Style, planner: &Planner) -> Result<Vec<Lay>, LayError> {
    lays(ticket, garments, |_, _| Vec::new(), &manner(None), style, planner)
}

/// Checks that [`standard_lays`] has a plan, without searching for a good one.
///
/// # Errors
/// Those of [`standard_lays`].
pub(crate) fn check_standard_lays(
    ticket: &Ticket,
    garments: i64,
    style: &Style,
    planner: &Planner,
) -> Result<(), LayError> {
    check_lays(ticket, garments, |_, _| Vec::new(), &manner(None), style, planner)
}

/// Returns the real plan for the whole order: stock on the shelf, and what must be bought.
pub(crate) fn shelf_lays(ticket: &Ticket, workshop: &Workshop, planner: &Planner) -> Result<Vec<Lay>, LayError> {
    let on_shelf = |index: usize, material: &TicketMaterial| on_shelf(index, material, ticket, workshop);
    let manner = shelf_manner(workshop);
    lays(ticket, ticket.garments, on_shelf, &manner, &workshop.settings.style(), planner)
}

/// Checks that [`shelf_lays`] has a plan, without searching for a good one.
///
/// # Errors
/// Those of [`shelf_lays`].
pub(super) fn check_shelf_lays(ticket: &Ticket, workshop: &Workshop, planner: &Planner) -> Result<(), LayError> {
    let on_shelf = |index: usize, material: &TicketMaterial| on_shelf(index, material, ticket, workshop);
    let manner = shelf_manner(workshop);
    check_lays(ticket, ticket.garments, on_shelf, &manner, &workshop.settings.style(), planner)
}

/// Returns the lengths of a listed material on the shelf, without those held for another order. They have the sizes at
/// which they are laid: of goods that are washed first, those after the wash.
fn on_shelf(index: usize, material: &TicketMaterial, ticket: &Ticket, workshop: &Workshop) -> Vec<StockLength> {
    if !material.listed {
        return Vec::new();
    }
    let (goods, first_wash) = (&material.material, material.first_wash(ticket.washing));
    let pieces = workshop.stock.of(&goods.name).filter(|piece| ticket.mark.may_take(piece));
    let leaves_washed = leaves_washed(ticket, index).is_some();
    let pieces = pieces.filter(|piece| !leaves_washed || !is_washed(piece, goods));
    let lengths = pieces.filter_map(|piece| {
        let (along, washed) = (piece.along?, is_washed(piece, goods));
        let loss = if washed { Loss::NONE } else { first_wash.before_laying() };
        let across = match piece.across {
            Some(across) => Some(loss.after_across(across)),
            None if washed => goods.usable_width.map(|width| first_wash.loss().after_across(width)),
            None => None,
        };
        Some(StockLength {
            name: piece.name.clone(),
            lot: piece.lot.clone(),
            along: loss.after_along(along),
            across,
            washed,
            count: number::from_size(piece.count),
            price: None,
            remnant: goods.put_up.is_some_and(|put_up| along < put_up),
        })
    });
    lengths.collect()
}

/// Whether a piece of stock differs from unwashed goods; of goods known to lose nothing it does not.
pub(super) fn is_washed(piece: &StockPiece, goods: &Material) -> bool {
    piece.washed && (goods.loses() || goods.loss_is_unknown())
}

/// Why an order leaves washed lengths of a material on the shelf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LeavesWashed {
    /// Its pieces are cut longer for the wash, so they are too long for cloth that has been washed.
    CutLonger,
    /// Its pieces are matched, and what has been washed has a smaller pattern than cloth as it comes.
    SmallerPattern,
}

/// Returns why an order leaves washed lengths of its material at an index on the shelf; `None` if it uses them.
pub(super) fn leaves_washed(ticket: &Ticket, index: usize) -> Option<LeavesWashed> {
    let material = ticket.materials.get(index)?;
    let (goods, first_wash) = (&material.material, material.first_wash(ticket.washing));
    if !first_wash.after_cutting().is_none() {
        return Some(LeavesWashed::CutLonger);
    }
    // Of a pattern of which nobody knows what the wash took, it is not known either whether it meets.
    let shrinks = goods.repeat.is_some() && goods.shrink_along.is_none_or(|share| share > 0.0);
    let of_it = |entry: &&TicketPiece| entry.material == index;
    let is_matched = ticket.pieces.iter().filter(of_it).any(|entry| entry.piece.matching.is_some());
    (first_wash.before_laying().is_none() && shrinks && is_matched).then_some(LeavesWashed::SmallerPattern)
}

/// Keeps every leftover if the workshop sets no smallest remnant.
fn shelf_manner(workshop: &Workshop) -> CuttingManner {
    manner(Some(workshop.settings.smallest_remnant.unwrap_or(Length::ZERO)))
}

/// Returns how a ticket's pieces are cut. The effort is small because a page is recalculated while its user types.
pub(super) fn manner(keep_from: Option<Length>) -> CuttingManner {
    CuttingManner { keep_from, effort: Effort::of(EFFORT), ..CuttingManner::default() }
}

fn lays(
    ticket: &Ticket,
    garments: i64,
    stock: impl Fn(usize, &TicketMaterial) -> Vec<StockLength>,
    manner: &CuttingManner,
    style: &Style,
    planner: &Planner,
) -> Result<Vec<Lay>, LayError> {
    let planned = |task: Result<LayTask<'_>, LayError>| {
        let task = task?;
        let plan = task.with(manner, |task| planner.plan(task))?;
        let LayTask { material, index, pieces, panels, goods, stock } = task;
        let first_wash = material.first_wash(ticket.washing);
        Ok(Lay {
            material: material.clone(),
            index,
            first_wash,
            width: goods.width,
            pieces,
            panels,
            goods,
            stock,
            plan,
        })
    };
    lay_tasks(ticket, garments, stock, style).map(planned).collect()
}

fn check_lays(
    ticket: &Ticket,
    garments: i64,
    stock: impl Fn(usize, &TicketMaterial) -> Vec<StockLength>,
    manner: &CuttingManner,
    style: &Style,
    planner: &Planner,
) -> Result<(), LayError> {
    let check = |task: Result<LayTask<'_>, LayError>| task?.with(manner, |task| planner.check(task));
    lay_tasks(ticket, garments, stock, style).try_for_each(check)
}

/// The pieces cut from one material of a ticket, and the stock for them.
struct LayTask<'t> {
    material: &'t TicketMaterial,
    index: usize,
    pieces: Vec<CutPiece>,
    panels: Vec<Option<PanelLayout>>,
    goods: Goods,
    stock: Vec<StockLength>,
}

impl LayTask<'_> {
    fn with<T>(
        &self,
        manner: &CuttingManner,
        cut: impl FnOnce(&CuttingTask<'_>) -> Result<T, CuttingError>,
    ) -> Result<T, LayError> {
        let Self { pieces, goods, stock, .. } = self;
        cut(&CuttingTask { pieces, goods, stock, supply: &Supply::Endless, manner }).map_err(|error| {
            let TicketMaterial { material, input, .. } = self.material;
            LayError::Cutting { material: material.name.clone(), input: input.clone(), error }
        })
    }
}

/// Returns the tasks of all materials from which something is cut, in ticket order.
fn lay_tasks<'t>(
    ticket: &'t Ticket,
    garments: i64,
    stock: impl Fn(usize, &TicketMaterial) -> Vec<StockLength>,
    style: &Style,
) -> impl Iterator<Item = Result<LayTask<'t>, LayError>> {
    ticket.materials.iter().enumerate().filter_map(move |(index, material)| {
        let list = cutting_list(ticket, index, garments, style).transpose()?;
        let panels = ticket.pieces.iter().filter(|entry| entry.material == index);
        let panels = panels.map(|entry| panels::layout(ticket, entry, garments)).collect();
        let task = |CuttingList { pieces, goods }| {
            let stock = stock(index, material);
            LayTask { material, index, pieces, panels, goods, stock }
        };
        Some(list.map(task))
    })
}

/// The pieces cut from one material, and the material as the planner sees it.
#[derive(Clone, Debug)]
pub struct CuttingList {
    /// The pieces, in ticket order, with their counts for all garments.
    pub pieces: Vec<CutPiece>,
    /// The goods.
    pub goods: Goods,
}

/// Returns what this many garments take of the material at this index; `None` if nothing is cut from it.
///
/// # Errors
/// A piece without a shape, a material of unknown width.
pub fn cutting_list(
    ticket: &Ticket,
    material: usize,
    garments: i64,
    style: &Style,
) -> Result<Option<CuttingList>, LayError> {
    let of_it = |entry: &&TicketPiece| entry.material == material;
    let pieces = ticket.pieces.iter().filter(of_it);
    let pieces: Vec<CutPiece> =
        pieces.map(|entry| cut_piece(ticket, entry, garments, style)).collect::<Result<_, _>>()?;
    let Some(material) = ticket.materials.get(material).filter(|_| !pieces.is_empty()) else { return Ok(None) };
    let goods = goods(material, ticket)?;
    let starts = goods.repeat.map(|repeat| Starts::of(&pieces, repeat));
    let exact = ticket.pieces.iter().filter(of_it).map(|entry| ticket.exact_cut(entry));
    let pieces = pieces.into_iter().zip(exact).map(|(cut, exact)| on_pattern(cut, &exact, starts.as_ref())).collect();
    Ok(Some(CuttingList { pieces, goods }))
}

/// Returns the goods as they are laid: of those that are washed first, the sizes after the wash.
fn goods(material: &TicketMaterial, ticket: &Ticket) -> Result<Goods, LayError> {
    let facts = &material.material;
    let loss = material.first_wash(ticket.washing).before_laying();
    let width = facts
        .usable_width
        .ok_or_else(|| LayError::NoWidth { material: facts.name.clone(), input: material.input.clone() })?;
    // Goods sold by the length are bought as long as needed; only goods sold by the roll or bolt are bought whole, and
    // then the rest is stock.
    let put_up = facts.put_up.filter(|_| !matches!(facts.sold_by, SoldBy::Step(_)));
    Ok(Goods {
        kind: facts.kind.cut_as().unwrap_or(GoodsKind::Cloth),
        width: loss.after_across(width),
        put_up: put_up.map(|put_up| loss.after_along(put_up)),
        repeat: facts.repeat.map(|repeat| after(repeat, loss)),
        napped: facts.nap,
        loss_per_cut: Length::ZERO,
    })
}

/// The repeat of goods after a wash.
fn after(repeat: Repeat, loss: Loss) -> Repeat {
    Repeat { along: loss.after_along(repeat.along), shift: loss.after_along(repeat.shift) }
}

fn cut_piece(ticket: &Ticket, entry: &TicketPiece, garments: i64, style: &Style) -> Result<CutPiece, LayError> {
    let TicketPiece { piece, once, .. } = entry;
    if matches!(&*piece.shape, Shape::Outline(points) if points.is_empty()) {
        return Err(LayError::NoShape { piece: piece.name.clone() });
    }
    let times = if *once { 1 } else { garments };
    Ok(CutPiece {
        count: piece.count.saturating_mul(times),
        per_garment: (!once).then_some(piece.count),
        ..ticket.cut_piece(entry, style)
    })
}

/// A matched full width with its cut size, which is left unrounded if rounding it up would put it past a place where the
/// next one may start: a hair more than a repeat wastes a whole one.
fn on_pattern(cut: CutPiece, exact: &Piece<Exact>, starts: Option<&Starts>) -> CutPiece {
    let (Some(starts), Shape::FullWidth { along: wanted }, Shape::FullWidth { along }) =
        (starts.filter(|_| exact.matching.is_some()), &*exact.shape, &*cut.shape)
    else {
        return cut;
    };
    if starts.is_one_between(*wanted, *along) {
        return CutPiece { shape: Shape::FullWidth { along: *wanted }.into(), ..cut };
    }
    cut
}
