//! A ticket's pieces laid on their materials: on endless stock for the standard plan, on the shelf for
//! what is really cut.
//!
//! Never here: planning itself, prices.

use super::room::{mark_of, mark_round, up_to};
use super::ticket::{Piece, PieceGrain, Shape, Ticket, TicketMaterial};
use crate::cutting::{
    self, CutPiece, CutShape, CuttingError, CuttingPlan, CuttingTask, Effort, Fold, Goods, GoodsKind, Grain, JoinRule,
    Manner, OutlinePoint, StockLength, Supply, Watch,
};
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::plans::Told;
use crate::quantity::{Length, Quantity, Style, number, rounding};
use crate::table::TableError;
use crate::workshop::{MaterialKind, SoldBy, Workshop};
use std::sync::atomic::AtomicBool;

/// Steps of the search for a ticket's plans: about a thirtieth of a second where it is not proved before.
const EFFORT: u64 = 30_000;

/// One material and the plan for everything cut from it.
#[derive(Clone, Debug)]
pub struct Lay {
    /// The material.
    pub material: TicketMaterial,
    /// Its place in the ticket's list.
    pub index: usize,
    /// Its usable width.
    pub width: Length,
    /// The pieces that were laid, as the plan counts them.
    pub pieces: Vec<CutPiece>,
    /// What they were laid on.
    pub goods: Goods,
    /// What lay on the shelf.
    pub stock: Vec<StockLength>,
    /// The plan, as the verifier accepted it.
    pub plan: CuttingPlan,
}

impl Lay {
    /// The plan with all that it is told by.
    pub fn told(&self, keep_from: Option<Length>) -> Told<'_> {
        let name = Some(self.material.material.name.as_str());
        Told { name, pieces: &self.pieces, goods: &self.goods, plan: &self.plan, keep_from }
    }

    /// All length laid, in the unit the material is sold in.
    pub fn length_used(&self) -> Length {
        let unit = self.material.material.usable_width.map(|width| Quantity::from(width).liked());
        unit.map_or(self.plan.length_used, |liked| self.plan.length_used.liking(liked))
    }
}

/// Why a ticket's pieces cannot be laid.
#[derive(Clone, Debug, PartialEq)]
pub enum LayError {
    /// Nobody has said how wide the material is.
    NoWidth {
        /// The material.
        material: String,
        /// The input it was given for.
        input: Option<String>,
    },
    /// The recipe named a piece and gave it no shape.
    NoShape {
        /// The piece.
        piece: String,
    },
    /// The planner cannot place a piece.
    Cutting {
        /// The material.
        material: String,
        /// The input it was given for.
        input: Option<String>,
        /// Why.
        error: CuttingError,
    },
    /// The order's amounts are beyond what a table holds.
    Table(TableError),
}

impl From<TableError> for LayError {
    fn from(error: TableError) -> Self {
        Self::Table(error)
    }
}

impl Diagnose for LayError {
    fn message(&self, style: &Style) -> String {
        match self {
            Self::NoWidth { material, .. } => format!("nobody has said how wide “{material}” is"),
            Self::NoShape { piece } => format!("the piece “{piece}” was given no shape"),
            Self::Cutting { material, error, .. } => format!("“{material}”: {}", error.message(style)),
            Self::Table(error) => error.to_string(),
        }
    }

    /// A refusal is made of it where the order is still being asked for: see [`LayError::input`].
    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::NoWidth { .. } | Self::NoShape { .. } => DiagnosticKind::Error,
            Self::Cutting { error, .. } => error.kind(),
            Self::Table(error) => error.kind(),
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::NoWidth { .. } => Some("fill in its usable width in materials.csv".to_owned()),
            Self::NoShape { .. } => Some("type .rectangle(along, across) or another shape behind it".to_owned()),
            Self::Cutting { error, .. } => error.hint(),
            Self::Table(error) => error.hint(),
        }
    }
}

impl LayError {
    /// The input for which the order must be turned away.
    pub fn input(&self) -> Option<&str> {
        match self {
            Self::NoWidth { input, .. } | Self::Cutting { input, .. } => input.as_deref(),
            Self::NoShape { .. } | Self::Table(_) => None,
        }
    }
}

/// The standard plan for so many garments: endless stock of every material.
pub fn standard_lays(ticket: &Ticket, garments: i64, style: &Style, stop: &AtomicBool) -> Result<Vec<Lay>, LayError> {
    lays(ticket, garments, |_| Vec::new(), &manner(None), style, stop)
}

/// The plan for the whole order from what lies on the shelf, and what must be bought.
pub fn shelf_lays(ticket: &Ticket, workshop: &Workshop, stop: &AtomicBool) -> Result<Vec<Lay>, LayError> {
    let on_shelf = |material: &TicketMaterial| {
        if !material.listed {
            return Vec::new();
        }
        // What is held for another order stays where it is.
        let pieces = workshop.stock.of(&material.material.name).filter(|piece| piece.held_for.is_none());
        let lengths = pieces.filter_map(|piece| {
            let along = piece.along?;
            Some(StockLength {
                name: piece.name.clone(),
                lot: piece.lot.clone(),
                along,
                across: piece.across,
                count: number::from_size(piece.count),
                price: None,
                remnant: material.material.put_up.is_some_and(|put_up| along < put_up),
            })
        });
        lengths.collect()
    };
    // Where nobody has said what is too short to keep, every leftover is kept.
    let keep_from = workshop.settings.smallest_remnant.unwrap_or(Length::ZERO);
    lays(ticket, ticket.garments, on_shelf, &manner(Some(keep_from)), &workshop.settings.style(), stop)
}

/// How a ticket's pieces are cut. A page is worked out anew while she types, so its plans take a small effort.
pub(super) fn manner(keep_from: Option<Length>) -> Manner {
    Manner { keep_from, effort: Effort::of(EFFORT), ..Manner::default() }
}

fn lays(
    ticket: &Ticket,
    garments: i64,
    stock: impl Fn(&TicketMaterial) -> Vec<StockLength>,
    manner: &Manner,
    style: &Style,
    stop: &AtomicBool,
) -> Result<Vec<Lay>, LayError> {
    let mut lays = Vec::new();
    for (index, material) in ticket.materials.iter().enumerate() {
        let Some(CuttingList { pieces, goods }) = cutting_list(ticket, index, garments, style)? else { continue };
        let stock = stock(material);
        let task = CuttingTask { pieces: &pieces, goods: &goods, stock: &stock, supply: &Supply::Endless, manner };
        let plan = cutting::plan(&task, Watch::silent(stop)).map_err(|error| LayError::Cutting {
            material: material.material.name.clone(),
            input: material.input.clone(),
            error,
        })?;
        lays.push(Lay { material: material.clone(), index, width: goods.width, pieces, goods, stock, plan });
    }
    Ok(lays)
}

/// What is cut from one material, and the material as it is cut.
#[derive(Clone, Debug)]
pub struct CuttingList {
    /// The pieces, in the order of the ticket.
    pub pieces: Vec<CutPiece>,
    /// The goods.
    pub goods: Goods,
}

/// What so many garments of a ticket take from its material at a place of its list; none where nothing is cut
/// from it.
///
/// # Errors
/// A piece without a shape, a material of unknown width.
pub fn cutting_list(
    ticket: &Ticket,
    material: usize,
    garments: i64,
    style: &Style,
) -> Result<Option<CuttingList>, LayError> {
    let pieces = ticket.pieces.iter().filter(|piece| piece.material == material);
    let pieces: Vec<CutPiece> =
        pieces.map(|piece| cut_piece(ticket, piece, garments, style)).collect::<Result<_, _>>()?;
    match ticket.materials.get(material).filter(|_| !pieces.is_empty()) {
        Some(material) => Ok(Some(CuttingList { pieces, goods: goods(material)? })),
        None => Ok(None),
    }
}

fn goods(material: &TicketMaterial) -> Result<Goods, LayError> {
    let facts = &material.material;
    let width = facts
        .usable_width
        .ok_or_else(|| LayError::NoWidth { material: facts.name.clone(), input: material.input.clone() })?;
    Ok(Goods {
        kind: if facts.kind == MaterialKind::Roll { GoodsKind::Roll } else { GoodsKind::Cloth },
        width,
        // What is sold by the length is bought as long as needed; only what is sold by the roll or bolt is
        // bought whole, and then its rest is stock.
        put_up: facts.put_up.filter(|_| !matches!(facts.sold_by, SoldBy::Step(_))),
        repeat: facts.repeat,
        half_drop: facts.half_drop,
        napped: facts.nap,
        loss_per_cut: Length::ZERO,
    })
}

/// A size as it is cut: at the nearest mark of the tape it likes, or up where it may never be smaller.
pub fn cut_size(size: Length, never_smaller: bool, style: &Style) -> Length {
    let mark = mark_of(size, style);
    let nearest = || rounding::cut(size.into(), mark.into(), false).ok().filter(|cut| cut.steps() > 0.0);
    // What is smaller than half a mark is cut at one mark rather than not at all.
    let rounded = if never_smaller { None } else { nearest() };
    rounded.and_then(|cut| Length::try_from(cut).ok()).unwrap_or_else(|| up_to(size, mark))
}

/// The sizes of a rectangle as it is cut, along and across the piece. Where the mark lies beyond the edge of a cloth that
/// the size itself does not pass, the size stays: there is no more cloth.
pub fn cut_rectangle(ticket: &Ticket, piece: &Piece, along: Length, across: Length, style: &Style) -> (Length, Length) {
    let width = ticket.materials.get(piece.material).and_then(|material| material.material.usable_width);
    let cut = |size: Length, lies_across: bool| {
        let cut = cut_size(size, piece.never_smaller, style);
        let is_beyond = |width: Length| lies_across && cut > width && size <= width;
        if width.is_some_and(is_beyond) { size } else { cut }
    };
    let turned = piece.grain == PieceGrain::Across;
    (cut(along, turned), cut(across, !turned))
}

fn cut_piece(ticket: &Ticket, piece: &Piece, garments: i64, style: &Style) -> Result<CutPiece, LayError> {
    let size = |length: Length| cut_size(length, piece.never_smaller, style);
    let shape = match &piece.shape {
        Shape::Rectangle { along, across } => {
            let (along, across) = cut_rectangle(ticket, piece, *along, *across, style);
            CutShape::Rectangle { along, across }
        }
        Shape::FullWidth { along } => CutShape::FullWidth { along: size(*along) },
        Shape::Sector { inner, outer, turn } => CutShape::Sector { inner: *inner, outer: *outer, turn: *turn },
        Shape::Outline(points) if points.is_empty() => return Err(LayError::NoShape { piece: piece.name.clone() }),
        // An outline is drawn as it hangs: its first coordinate runs across the piece, its second up along it.
        Shape::Outline(points) => CutShape::Outline(
            points.iter().map(|(across, along)| OutlinePoint { along: *along, across: *across }).collect(),
        ),
    };
    let times = if piece.once { 1 } else { garments };
    Ok(CutPiece {
        grain: match piece.grain {
            PieceGrain::Along => Grain::Along,
            PieceGrain::Across => Grain::Across,
            PieceGrain::Bias => Grain::Bias,
            PieceGrain::Any => Grain::Any,
        },
        on_fold: piece.on_fold.map(|line| if line == PieceGrain::Across { Fold::Across } else { Fold::Along }),
        mirrored: piece.mirrored,
        matched: piece.matched,
        level: piece.level,
        may_join: piece.may_join.map(|rule| JoinRule {
            most: rule.most,
            shortest: rule.shortest,
            allowance: rule.allowance,
        }),
        per_garment: (!piece.once).then_some(piece.count),
        never_smaller: piece.never_smaller,
        mark: Some(mark_round(&piece.shape, style)),
        ..CutPiece::new(&piece.name, piece.count.saturating_mul(times), shape)
    })
}
