//! A cutting plan: which piece comes from which length, between which marks, and what is left.
//!
//! Marks run along a length from its start, and across it from one selvedge. Every length in a plan is
//! a whole number of nanometres.
//!
//! Never here: making or judging a plan, writing it out.

use crate::piece::{Layers, Lie};
use crate::quantity::{Length, Money};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

/// Which piece comes from which length.
#[derive(Clone, Debug, PartialEq)]
pub struct CuttingPlan {
    /// The lengths that are cut, shelf first, in the order they are used.
    pub uses: Vec<StockUse>,
    /// What must be bought.
    pub bought: Vec<Bought>,
    /// Total length laid, from the start of each length used to its last cut, a half-drop start included.
    pub length_used: Length,
    /// No plan on this width can use less length.
    pub lower_bound: Length,
    /// What the plan minimises, and how close it is to the best possible.
    pub quality: PlanQuality,
    /// Total price of all lengths used, from the shelf and new; `None` if one of them has no price. For a length cut
    /// off as needed, the price of what is needed.
    pub cost: Option<Money>,
    /// Finished pieces by name, over all orders; a joined piece counts once.
    pub pieces: BTreeMap<String, i64>,
    /// Joins by piece name, over all orders.
    pub joins: BTreeMap<String, i64>,
    /// What the maker should know about the plan.
    pub notes: Vec<PlanNote>,
}

impl CuttingPlan {
    /// Number of finished pieces with this name; 0 for an unknown name.
    pub fn pieces(&self, name: &str) -> i64 {
        self.pieces.get(name).copied().unwrap_or(0)
    }

    /// Number of joins in all pieces with this name.
    pub fn joins(&self, name: &str) -> i64 {
        self.joins.get(name).copied().unwrap_or(0)
    }

    /// Number of new lengths bought, of every kind.
    pub fn put_ups_bought(&self) -> i64 {
        self.bought.iter().map(|bought| bought.count).sum()
    }
}

/// How good a plan is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanQuality {
    /// What the plan minimises.
    pub aim: Aim,
    /// Proven lower bound divided by this plan's value, at most 1; 1 if no plan is better.
    pub bound_ratio: f64,
    /// Whether it is proved that no plan is better.
    pub proved: bool,
    /// Whether the search was stopped before its steps were used up.
    pub stopped: bool,
}

/// What a plan minimises.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// The length laid.
    Length,
    /// The cost of the lengths used, less the value of leftovers worth keeping.
    Cost,
}

/// One length and what is cut from it.
#[derive(Clone, Debug, PartialEq)]
pub struct StockUse {
    /// Where it comes from.
    pub source: StockSource,
    /// Its mark on the shelf, or a name such as "new roll 2".
    pub stock: String,
    /// The dye lot, if known.
    pub lot: Option<String>,
    /// Its length; for cloth bought as needed, the length needed.
    pub length: Length,
    /// One repeat if a matched piece is cut from it, or else zero: up to this much is trimmed off before mark 0, which
    /// lies where the pattern first starts as needed.
    pub lead: Length,
    /// Its width, opened.
    pub width: Length,
    /// Whether it is folded lengthwise when it is cut.
    pub folded: bool,
    /// The cuts, in the order a person makes them.
    pub cuts: Vec<Cut>,
    /// Length from the start to the last cut.
    pub used: Length,
    /// Length left at the end, over the full width.
    pub left_over: Length,
    /// Rectangles left beside the pieces.
    pub offcuts: Vec<Offcut>,
}

/// Where a length comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockSource {
    /// From the shelf.
    Shelf {
        /// Index in the list of stock.
        entry: usize,
        /// Which one of the entry's count, from one.
        number: i64,
    },
    /// Bought.
    New {
        /// Index in the list of offers; 0 if the supply is endless.
        offer: usize,
        /// Which one, from one.
        number: i64,
    },
}

/// One piece, or one part of a joined piece, on one length.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Index in the list of pieces.
    pub entry: usize,
    /// Which one of the entry's count, from one.
    pub number: i64,
    /// The piece's name.
    pub piece: Arc<str>,
    /// The order it is cut for.
    pub order: Option<Arc<str>>,
    /// Running mark along the length where it starts.
    pub from: Length,
    /// Running mark where it ends.
    pub to: Length,
    /// Mark across the width where it starts.
    pub across_from: Length,
    /// Mark across the width where it ends.
    pub across_to: Length,
    /// How the piece lies on the goods.
    pub lie: Lie,
    /// The layers of the cloth it is cut through.
    pub through: Layers,
    /// Whether it is turned half round, head to foot; never on napped goods.
    pub reversed: bool,
    /// Whether it is cut as the mirror image.
    pub mirrored: bool,
    /// Which part of a joined piece; `None` for a whole piece.
    pub part: Option<JoinedPart>,
}

/// Which part of a joined piece a cut is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JoinedPart {
    /// Which part, from one.
    pub number: i64,
    /// How many parts make the piece.
    pub of: i64,
}

/// A rectangle left beside the pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offcut {
    /// Running mark where it starts.
    pub from: Length,
    /// Running mark where it ends.
    pub to: Length,
    /// Mark across where it starts.
    pub across_from: Length,
    /// Mark across where it ends.
    pub across_to: Length,
}

/// A put-up or a length that must be bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought {
    /// Index in the list of offers; 0 if the supply is endless.
    pub offer: usize,
    /// Name of the goods.
    pub name: String,
    /// How many.
    pub count: i64,
    /// How long each is.
    pub length: Length,
    /// The price of one, passed through from the offer.
    pub price: Option<Money>,
}

/// What the maker should know about a plan.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlanNote {
    /// The piece was placed by its bounding rectangle.
    RectangleRound {
        /// The piece's name.
        piece: String,
    },
    /// A piece drawn on the fold was placed open.
    PlacedOpen {
        /// The piece's name.
        piece: String,
    },
    /// Marks count from the first whole pattern.
    MarksFromPattern,
    /// A piece narrower than the goods is matched along the cloth only.
    MatchedAlongOnly {
        /// The piece's name.
        piece: String,
    },
    /// A piece comes from several lots.
    LotsMixed {
        /// The piece's name.
        piece: String,
        /// The lots it comes from, as shown to the user.
        lots: Vec<String>,
    },
    /// Goods are bought although the shelf has more, so that no garment is cut from two lots.
    LotsApart {
        /// The lengths that stay on the shelf, each with its lot, as shown to the user.
        left: Vec<String>,
    },
    /// Goods are bought although the shelf has more, so that no garment is cut from washed and unwashed goods.
    WashedApart {
        /// The washed lengths that stay on the shelf, as shown to the user.
        left: Vec<String>,
    },
    /// A pinned piece could not stay where the earlier plan had it.
    PinDropped {
        /// The piece's name.
        piece: String,
    },
}

impl fmt::Display for PlanNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::RectangleRound { piece } => {
                write!(f, "{piece}: laid as the rectangle round it; by hand it may take less")
            }
            Self::PlacedOpen { piece } => {
                write!(f, "{piece} lies open and whole on single cloth, not on the fold")
            }
            Self::MarksFromPattern => {
                write!(f, "marks count from the start of the first whole pattern; trim each length to it first")
            }
            Self::MatchedAlongOnly { piece } => {
                write!(f, "{piece}: matched along the cloth; check from side to side by eye")
            }
            Self::LotsApart { left } => write!(
                f,
                "not used though more is bought: {}; each garment is cut from one dye lot, and no lot left holds one more",
                left.join(", ")
            ),
            Self::WashedApart { left } => write!(
                f,
                "not used though more is bought: {}, which is washed; no garment is cut from washed and unwashed cloth",
                left.join(", ")
            ),
            Self::PinDropped { piece } => write!(f, "{piece} no longer lies where the earlier plan had it"),
            Self::LotsMixed { piece, lots } => {
                write!(
                    f,
                    "{piece} comes from several lots ({}); compare them by daylight before cutting",
                    lots.join(", ")
                )
            }
        }
    }
}
