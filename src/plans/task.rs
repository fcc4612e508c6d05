//! Makes a cutting task from the rows of a file of pieces and a file of lengths.
//!
//! Never here: reading the files, planning.

use super::buying::Prices;
use crate::cutting::{CutsRun, CuttingManner, CuttingTask, Effort, Laid, PinnedCut};
use crate::piece::{CutPiece, Goods, GoodsKind, Matching, PutUp, Repeat, Shape, StockLength, Supply, Turn};
use crate::quantity::{Length, Money, Quantity, System, Tape};
use crate::workshop::{LengthRows, PieceRow, PlanRow};

/// How the maker wants it cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Choices {
    /// Cuts run straight from edge to edge.
    pub straight: bool,
    /// Cloth is folded lengthwise.
    pub folded: bool,
    /// Length lost at each cut.
    pub loss: Option<Length>,
    /// Length that squaring cuts off each end.
    pub squaring: Option<Length>,
    /// A leftover at least this long is kept.
    pub keep_from: Option<Length>,
    /// How hard to search.
    pub effort: Effort,
}

/// Everything a plan is made from, and what its report needs.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CutTask {
    /// The pieces.
    pub pieces: Vec<CutPiece>,
    /// The goods.
    pub goods: Goods,
    /// The lengths on the shelf.
    pub stock: Vec<StockLength>,
    /// What may be bought.
    pub supply: Supply,
    /// How it is cut.
    pub manner: CuttingManner,
    /// The prices of the lengths.
    pub prices: Prices,
    /// Name of the material, if the file has one.
    pub material: Option<String>,
    /// The tape its pieces are measured on.
    pub tape: Tape,
    /// Names of lengths that are held for an order and not cut.
    pub held: Vec<String>,
}

impl CutTask {
    /// The task in the planner's form.
    pub(crate) fn task(&self) -> CuttingTask<'_> {
        CuttingTask {
            pieces: &self.pieces,
            goods: &self.goods,
            stock: &self.stock,
            supply: &self.supply,
            manner: &self.manner,
        }
    }
}

/// Makes the task. `default_tape` is the workshop's tape; the cuts in `earlier`, of an earlier plan, are pinned.
pub(crate) fn cut_task(
    pieces: &[PieceRow],
    lengths: &LengthRows,
    earlier: &[PlanRow],
    choices: &Choices,
    default_tape: Tape,
) -> CutTask {
    let roll = pieces.iter().all(|piece| piece.across.is_none());
    let widest = lengths.list.iter().filter_map(|row| row.across).reduce(Length::most);
    let goods = Goods {
        kind: if roll { GoodsKind::Roll } else { GoodsKind::Cloth },
        // A roll is cut straight across, so any width will do if none is given.
        width: widest.unwrap_or(Length::centimetres(10.0)),
        put_up: None,
        repeat: lengths.repeat.map(Repeat::straight),
        napped: lengths.napped,
        loss_per_cut: choices.loss.unwrap_or(Length::ZERO),
    };
    let available = || lengths.list.iter().filter(|row| !row.held);
    let mut prices = Prices::default();
    let mut stock = Vec::new();
    let mut offered = Vec::new();
    for row in available() {
        let across = row.across.filter(|across| *across < goods.width);
        match (row.count, row.along) {
            (Some(count), Some(along)) => {
                let price = row.price.and_then(|price| Money::try_from(price).ok());
                prices.shelf.push(price);
                let (name, lot) = (row.stock.clone(), row.lot.clone());
                stock.push(StockLength { name, lot, along, across, washed: row.washed, count, price, remnant: false });
            }
            (_, along) => {
                prices.offered.push(row.price);
                let price = row.price.and_then(|price| Money::try_from(price).ok());
                offered.push(PutUp { name: row.stock.clone(), along, across, price, most: row.count });
            }
        }
    }
    let manner = CuttingManner {
        cuts: if choices.straight { CutsRun::Straight } else { CutsRun::Free },
        laid: if choices.folded { Laid::Folded } else { Laid::Open },
        squaring: choices.squaring.unwrap_or(Length::ZERO),
        keep_from: choices.keep_from,
        effort: choices.effort,
        pinned: earlier.iter().map(pinned).collect(),
        ..CuttingManner::default()
    };
    CutTask {
        pieces: pieces.iter().map(cut_piece).collect(),
        goods,
        stock,
        supply: if offered.is_empty() { Supply::ShelfOnly } else { Supply::Offered(offered) },
        manner,
        prices,
        material: available().find_map(|row| row.material.clone()),
        tape: tape(pieces, default_tape),
        held: lengths.list.iter().filter(|row| row.held).map(|row| row.stock.clone()).collect(),
    }
}

fn cut_piece(row: &PieceRow) -> CutPiece {
    let shape = match row.across {
        Some(across) => Shape::Rectangle { along: row.along, across },
        None => Shape::FullWidth { along: row.along },
    };
    CutPiece {
        order: row.order.clone(),
        grain: row.turn.grain(),
        one_way: row.turn == Turn::None,
        on_fold: row.fold,
        matching: row.matched.then_some(Matching::Level),
        may_join: row.join,
        ..CutPiece::new(&row.name, row.count, shape)
    }
}

fn pinned(row: &PlanRow) -> PinnedCut {
    PinnedCut {
        stock: row.stock.clone(),
        piece: row.piece.clone(),
        order: row.order.clone(),
        from: row.along.0,
        to: row.along.1,
        across_from: row.across.0,
        across_to: row.across.1,
        lie: row.lie,
        reversed: row.reversed,
        mirrored: row.mirrored,
        through: row.layers,
    }
}

/// The workshop's tape, unless all pieces are measured on the other.
fn tape(pieces: &[PieceRow], default_tape: Tape) -> Tape {
    let other = |piece: &PieceRow| {
        let unit = Quantity::from(piece.along).liked().length;
        unit.is_some_and(|unit| (unit.system() == System::Inch) != (default_tape == Tape::Inch))
    };
    if !pieces.is_empty() && pieces.iter().all(other) { default_tape.other() } else { default_tape }
}
