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
    /// The lengths that are cut, shelf first, in the order they are taken up.
    pub uses: Vec<StockUse>,
    /// What must be bought.
    pub bought: Vec<Bought>,
    /// All length laid, from the start of each length used to its last cut; the half-drop start is in it.
    pub length_used: Length,
    /// No plan on this width can use less.
    pub lower_bound: Length,
    /// What was made least, and how much better any plan could be.
    pub quality: PlanQuality,
    /// The price of all lengths that are taken up, shelf and new; none where one of them has no price. Of a
    /// length cut off as needed, what is needed.
    pub cost: Option<Money>,
    /// Finished pieces by name, over all orders; a joined piece counts once.
    pub pieces: BTreeMap<String, i64>,
    /// Joins by piece name, over all orders.
    pub joins: BTreeMap<String, i64>,
    /// What the maker should know about the plan.
    pub notes: Vec<PlanNote>,
}

impl CuttingPlan {
    /// Finished pieces of a name; none of an unknown one.
    pub fn pieces(&self, name: &str) -> i64 {
        self.pieces.get(name).copied().unwrap_or(0)
    }

    /// Joins in all pieces of a name.
    pub fn joins(&self, name: &str) -> i64 {
        self.joins.get(name).copied().unwrap_or(0)
    }

    /// New put-ups of every kind.
    pub fn put_ups_bought(&self) -> i64 {
        self.bought.iter().map(|bought| bought.count).sum()
    }
}

/// How good a plan is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanQuality {
    /// What was made least.
    pub aim: Aim,
    /// No plan comes to less than this share of what this one comes to: 1 where no plan is better.
    pub bound_ratio: f64,
    /// It is proved that no plan is better.
    pub proved: bool,
    /// The search ended before its steps were over because somebody stopped it.
    pub stopped: bool,
}

/// What a plan makes least.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// The length that is laid.
    Length,
    /// What the lengths taken up cost, less what the leftovers worth keeping count for.
    Cost,
}

/// One length and what is cut from it.
#[derive(Clone, Debug, PartialEq)]
pub struct StockUse {
    /// Where it comes from.
    pub source: StockSource,
    /// Its mark on the shelf, or a name such as "new roll 2".
    pub stock: String,
    /// The dye lot, where it is known.
    pub lot: Option<String>,
    /// How long it is; of cloth bought as long as needed, what is needed.
    pub length: Length,
    /// How wide it is, opened.
    pub width: Length,
    /// It is folded lengthwise when it is cut.
    pub folded: bool,
    /// The cuts, in the order a person makes them.
    pub cuts: Vec<Cut>,
    /// From the start to the last cut.
    pub used: Length,
    /// What is left at the end, over the full width.
    pub left_over: Length,
    /// What is left beside the pieces, row by row.
    pub offcuts: Vec<Offcut>,
}

/// Where a length comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockSource {
    /// From the shelf.
    Shelf {
        /// Place in the list of stock, from zero.
        entry: usize,
        /// Which one of the entry's count, from one.
        number: i64,
    },
    /// Bought.
    New {
        /// Place in the list of what is offered, from zero; zero where the supply is endless.
        offer: usize,
        /// Which one, from one.
        number: i64,
    },
}

/// One piece, or one part of a joined piece, on one length.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Place in the list of pieces, from zero.
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
    /// How the piece's frame lies.
    pub lie: Lie,
    /// Through which layers of the cloth.
    pub through: Layers,
    /// Turned half round, head to foot; never on napped goods.
    pub reversed: bool,
    /// Cut as the mirror image.
    pub mirrored: bool,
    /// Which part of a joined piece; none for a whole piece.
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

/// What is left beside the pieces of a row.
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
    /// Place in the list of what is offered, from zero; zero where the supply is endless.
    pub offer: usize,
    /// What it is called.
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
    /// The piece was given the rectangle round it.
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
    /// Narrower pieces are matched along the cloth alone.
    MatchedAlongOnly {
        /// The piece's name.
        piece: String,
    },
    /// A piece comes from several lots.
    LotsMixed {
        /// The piece's name.
        piece: String,
        /// The lots it comes from, as they are shown.
        lots: Vec<String>,
    },
    /// Something is bought although there is more on the shelf, so that no garment is of two lots.
    LotsApart,
    /// A piece that was to stay where an earlier plan had it has been moved.
    PinLetGo {
        /// The piece's name.
        piece: String,
    },
}

impl fmt::Display for PlanNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::RectangleRound { piece } => {
                write!(f, "{piece} was given the rectangle round it; laid by hand it may take less")
            }
            Self::PlacedOpen { piece } => {
                write!(f, "{piece} lies open and whole on single cloth, not on the fold")
            }
            Self::MarksFromPattern => {
                write!(f, "marks count from the start of the first whole pattern; trim each length to it first")
            }
            Self::MatchedAlongOnly { piece } => {
                write!(f, "{piece} is matched along the cloth; check the match from side to side by eye")
            }
            Self::LotsApart => write!(
                f,
                "each garment is cut from one dye lot, and that leaves something on the shelf; where the lot does not \
                 matter, leave it empty in the list of stock"
            ),
            Self::PinLetGo { piece } => write!(f, "{piece} no longer lies where the earlier plan had it"),
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
