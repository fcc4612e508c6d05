//! How the maker cuts, what she keeps, and how hard to look for a better plan.
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
    /// What is to be cut.
    pub pieces: &'a [CutPiece],
    /// What it is cut from.
    pub goods: &'a Goods,
    /// What lies on the shelf.
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
    /// What is cut off each end of a length to make it square before anything is measured on it. Marks count
    /// from the squared end.
    pub squaring: Length,
    /// A leftover at least this long is worth keeping and a shorter one is waste; none where nothing is thought
    /// of leftovers.
    pub keep_from: Option<Length>,
    /// What a length on the shelf without a price counts for beside a new one, as a share of the new price by length:
    /// next to nothing, for it is paid already. It decides between lengths on the shelf.
    pub shelf_worth: f64,
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
            shelf_worth: Self::SHELF_WORTH,
            effort: Effort::default(),
            pinned: Vec::new(),
        }
    }
}

impl CuttingManner {
    /// Common practice, no source: what lies on the shelf is used before new goods, however long it is.
    pub const SHELF_WORTH: f64 = 0.001;
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
    /// Folded lengthwise, selvedge on selvedge: what is cut away from the fold is cut twice, as a pair, and what
    /// is cut on the fold opens to a whole piece. Marks across count from one selvedge of the opened cloth.
    Folded,
}

/// A cut that stays where an earlier plan had it.
#[derive(Clone, Debug, PartialEq)]
pub struct PinnedCut {
    /// The mark of its length on the shelf, or the name of the new length, as the earlier plan had it.
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
    /// Turned half round.
    pub reversed: bool,
    /// Cut as the mirror image.
    pub mirrored: bool,
    /// Through which layers.
    pub through: Layers,
}
