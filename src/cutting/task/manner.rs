//! How the maker cuts, which leftovers are kept, and how hard to search for a better plan.
//!
//! Never here: pieces, goods, the search itself.

use crate::cutting::effort::Effort;
use crate::piece::CutPiece;
use crate::piece::{Goods, StockLength, Supply};
use crate::piece::{Layers, Lie};
use crate::quantity::Length;

/// Everything a plan is made from.
#[derive(Clone, Copy, Debug)]
pub struct CuttingTask<'a> {
    /// The pieces to cut.
    pub pieces: &'a [CutPiece],
    /// The goods to cut them from.
    pub goods: &'a Goods,
    /// The lengths on the shelf.
    pub stock: &'a [StockLength],
    /// What may be bought.
    pub supply: &'a Supply,
    /// How it is cut.
    pub manner: &'a CuttingManner,
}

/// How the maker cuts.
#[derive(Clone, Debug, PartialEq)]
pub struct CuttingManner {
    /// Where a cut may run.
    pub cuts: CutsRun,
    /// How cloth lies on the table.
    pub laid: Laid,
    /// Length cut off each end to make it square before anything is measured on it. Marks count from the squared end.
    pub squaring: Length,
    /// A leftover at least this long is worth keeping and a shorter one is waste; `None` if leftovers do not matter.
    pub keep_from: Option<Length>,
    /// Cost of an unpriced shelf length relative to a new one, as a share of the new price by length: close to zero,
    /// because it is paid for. It decides between lengths on the shelf.
    pub shelf_cost_share: f64,
    /// How much work the plan may take.
    pub effort: Effort,
    /// Cuts that stay where an earlier plan had them.
    pub pinned: Vec<PinnedCut>,
}

impl Default for CuttingManner {
    fn default() -> Self {
        Self {
            cuts: CutsRun::Free,
            laid: Laid::Open,
            squaring: Length::ZERO,
            keep_from: None,
            shelf_cost_share: Self::SHELF_COST_SHARE,
            effort: Effort::default(),
            pinned: Vec::new(),
        }
    }
}

impl CuttingManner {
    /// Common practice, no source: what lies on the shelf is used before new goods, however long it is.
    pub const SHELF_COST_SHARE: f64 = 0.001;
}

/// Where a cut may run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CutsRun {
    /// Round each piece, wherever it lies.
    #[default]
    Free,
    /// Straight from edge to edge, as cloth is torn: first across the goods, then along them within a row, then
    /// across within a column.
    Straight,
}

/// How cloth lies on the table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Laid {
    /// Single, right side up.
    #[default]
    Open,
    /// Folded lengthwise, selvedge on selvedge: a cut away from the fold gives a pair, and a cut on the fold opens to a
    /// whole piece. Marks across count from one selvedge of the opened cloth.
    Folded,
}

/// A cut that stays where an earlier plan had it.
#[derive(Clone, Debug, PartialEq)]
pub struct PinnedCut {
    /// Mark of the shelf length, or name of the new length, in the earlier plan.
    pub stock: String,
    /// The piece.
    pub piece: String,
    /// The order it is cut for.
    pub order: Option<String>,
    /// Running mark where it starts.
    pub from: Length,
    /// Running mark where it ends.
    pub to: Length,
    /// Mark across where it starts.
    pub across_from: Length,
    /// Mark across where it ends.
    pub across_to: Length,
    /// How it lies.
    pub lie: Lie,
    /// Whether it is turned half round.
    pub reversed: bool,
    /// Whether it is cut as the mirror image.
    pub mirrored: bool,
    /// The layers it is cut through.
    pub through: Layers,
}

#[cfg(test)]
impl PinnedCut {
    /// A cut of a plan, pinned where it is.
    pub(crate) fn of(stock: &str, cut: &crate::cutting::Cut) -> Self {
        Self {
            stock: stock.to_owned(),
            piece: cut.piece.to_string(),
            order: cut.order.as_deref().map(str::to_owned),
            from: cut.from,
            to: cut.to,
            across_from: cut.across_from,
            across_to: cut.across_to,
            lie: cut.lie,
            reversed: cut.reversed,
            mirrored: cut.mirrored,
            through: cut.through,
        }
    }
}
