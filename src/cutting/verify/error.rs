//! What can be wrong with a cutting plan, and the words for it.

use crate::diagnostic::Diagnose;
use crate::quantity::{Length, Quantity, Style};
use std::fmt;

/// What is wrong with a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanError {
    /// A size that is not positive, or marks that are not whole nanometres.
    Unreadable {
        /// The length, the piece or the goods.
        what: String,
    },
    /// A length that is neither on the shelf nor offered, or not as the plan has it.
    UnknownStock {
        /// What the plan calls it.
        stock: String,
    },
    /// A length used twice, or more of it than there is.
    StockExceeded {
        /// What the plan calls it.
        stock: String,
    },
    /// A length or width that differs from that of the stock.
    StockSize {
        /// What the plan calls it.
        stock: String,
    },
    /// A length that is used but not cut.
    NothingCut {
        /// What the plan calls it.
        stock: String,
    },
    /// A cut beyond the end or the start of its length.
    OutsideLength {
        /// The piece.
        piece: String,
        /// The length.
        stock: String,
    },
    /// A cut beyond the width.
    OutsideWidth {
        /// The piece.
        piece: String,
        /// The length.
        stock: String,
    },
    /// Two cuts or offcuts in the same place.
    Overlap {
        /// The length.
        stock: String,
        /// Running mark where they meet.
        at: Length,
    },
    /// Cuts that are not listed in order from the start of the length.
    OutOfOrder {
        /// The length.
        stock: String,
    },
    /// A cut for a piece that is not in the list, or under another name.
    UnknownPiece {
        /// What the plan calls it.
        piece: String,
    },
    /// A piece, or a part of one, of the wrong size.
    WrongSize {
        /// The piece.
        piece: String,
    },
    /// A piece that does not lie as its grain allows.
    AgainstGrain {
        /// The piece.
        piece: String,
    },
    /// A piece that lies head to foot, or turned by choice, on napped goods.
    AgainstNap {
        /// The piece.
        piece: String,
    },
    /// A one-way piece that lies head to foot, or turned by choice.
    NotHeadUp {
        /// The piece.
        piece: String,
    },
    /// An outline that encloses nothing or crosses itself.
    NoShape {
        /// The piece.
        piece: String,
    },
    /// A length that is single although cloth is folded, or folded although cloth is single.
    WronglyLaid {
        /// The length.
        stock: String,
    },
    /// A piece that the layers of the cloth do not allow there.
    Layers {
        /// The piece.
        piece: String,
        /// Why.
        why: LayersWrong,
    },
    /// Cuts that cannot all be made straight from edge to edge.
    NotStraight {
        /// The length.
        stock: String,
        /// Running mark of the first row where they cannot.
        at: Length,
    },
    /// A pinned piece that has moved, and the plan has no note of it.
    NotKept {
        /// The piece.
        piece: String,
        /// The length it was pinned on.
        stock: String,
    },
    /// A garment from several lots, and the plan has no note of it.
    GarmentLots {
        /// One of its pieces.
        piece: String,
        /// Number of the garment in its order, from one.
        garment: i64,
    },
    /// A garment from washed and unwashed goods.
    GarmentWashing {
        /// One of its pieces.
        piece: String,
        /// Number of the garment in its order, from one.
        garment: i64,
    },
    /// A matched piece that does not start on the pattern.
    OffPattern {
        /// The piece.
        piece: String,
    },
    /// A length that does not keep the room before its first mark in which the pattern is found.
    NoLead {
        /// The length.
        stock: String,
    },
    /// Mirrored pieces that do not make pairs with plain ones.
    Mirrored {
        /// The piece.
        piece: String,
    },
    /// A piece that is missing, or there more than once.
    WrongCount {
        /// The piece.
        piece: String,
        /// The count in the list of pieces.
        wanted: i64,
        /// The number that is missing or there more than once.
        number: i64,
    },
    /// A joined piece whose parts do not make it up, or that may not be joined like this.
    Joined {
        /// The piece.
        piece: String,
        /// Why.
        why: JoinedWrong,
    },
    /// A leftover or an offcut that is not what the cuts leave.
    LeftOver {
        /// The length.
        stock: String,
    },
    /// A total of the plan that does not match its cuts.
    Total {
        /// Which total.
        what: String,
    },
}

/// What is wrong with a piece on single or folded cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayersWrong {
    /// It is cut through two layers, and the cloth is single.
    OneLayer,
    /// It lies across the fold.
    AcrossFold,
    /// Its twin on the other layer is missing.
    NoTwin,
    /// Its twin on the other layer is not its mirror image.
    NotItsImage,
    /// It may not be cut on the fold, or not as it lies.
    NotOnFold,
    /// Its middle is not on the fold.
    OffFold,
    /// Its two halves are not mirror images.
    Uneven,
}

/// What is wrong with a joined piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JoinedWrong {
    /// It may not be joined, or not in this shape.
    NotAllowed,
    /// More joins than allowed.
    TooMany,
    /// A part is shorter than allowed.
    TooShort,
    /// Parts are missing, or there twice.
    Parts,
    /// The parts do not add up to the piece and its allowances.
    Sum,
}

impl Diagnose for PlanError {
    fn message(&self, style: &Style) -> String {
        match self {
            Self::Unreadable { what } => format!("{what} has a size that cannot be read"),
            Self::UnknownStock { stock } => format!("{stock} is neither on the shelf nor offered like this"),
            Self::StockExceeded { stock } => format!("more is cut from {stock} than there is of it"),
            Self::StockSize { stock } => format!("{stock} does not have the length and width that the plan gives it"),
            Self::NothingCut { stock } => format!("{stock} is taken up and nothing is cut from it"),
            Self::OutsideLength { piece, stock } => format!("{piece} lies beyond the end of {stock}"),
            Self::OutsideWidth { piece, stock } => format!("{piece} lies beyond the width of {stock}"),
            Self::Overlap { stock, at } => {
                format!("two things lie in the same place on {stock}, at {}", style.show(Quantity::from(*at)))
            }
            Self::OutOfOrder { stock } => format!("the cuts on {stock} are not in order"),
            Self::UnknownPiece { piece } => format!("{piece} is not in the list of pieces like this"),
            Self::WrongSize { piece } => format!("{piece} is not cut to its size"),
            Self::AgainstGrain { piece } => format!("{piece} does not lie along its grain"),
            Self::AgainstNap { piece } => format!("{piece} lies against the nap"),
            Self::NotHeadUp { piece } => format!("{piece} has a head, and it is turned away from where it belongs"),
            Self::NoShape { piece } => format!("{piece}: its outline crosses itself or encloses nothing"),
            Self::WronglyLaid { stock } => {
                format!("{stock} is not laid as asked: all cloth lies single, or all of it folded")
            }
            Self::Layers { piece, why } => format!("{piece}: {}", why.words()),
            Self::NotStraight { stock, at } => format!(
                "the cuts on {stock} cannot all be made straight from edge to edge, from {} on",
                style.show(Quantity::from(*at))
            ),
            Self::NotKept { piece, stock } => format!("{piece} does not lie where it was to stay, on {stock}"),
            Self::GarmentLots { piece, garment } => {
                format!("{piece}: garment {garment} comes from several lots, and the plan does not say so")
            }
            Self::GarmentWashing { piece, garment } => {
                format!("{piece}: garment {garment} comes from washed and unwashed goods")
            }
            Self::OffPattern { piece } => format!("{piece} does not start on the pattern"),
            Self::NoLead { stock } => format!("{stock} keeps no room to find the first start of the pattern"),
            Self::Mirrored { piece } => format!("{piece}: the mirrored pieces do not make pairs"),
            Self::WrongCount { piece, wanted, number } => {
                format!("{piece}: number {number} of {wanted} is not there exactly once")
            }
            Self::Joined { piece, why } => format!("{piece}: {}", why.words()),
            Self::LeftOver { stock } => format!("what is left of {stock} is not what its cuts leave"),
            Self::Total { what } => format!("the plan's {what} is not what its cuts come to"),
        }
    }
}

impl LayersWrong {
    fn words(self) -> &'static str {
        match self {
            Self::OneLayer => "it is cut through two layers, and the cloth lies single",
            Self::AcrossFold => "it lies across the fold",
            Self::NoTwin => "it is cut through both layers, and its twin on the other one is missing",
            Self::NotItsImage => "what is cut with it on the other layer is not its mirror image",
            Self::NotOnFold => "it may not be cut on the fold as it lies",
            Self::OffFold => "its middle does not lie on the fold",
            Self::Uneven => "its two halves are not alike, so that both layers do not give the same",
        }
    }
}

impl JoinedWrong {
    fn words(self) -> &'static str {
        match self {
            Self::NotAllowed => "it may not be joined like this",
            Self::TooMany => "it has more joins than allowed",
            Self::TooShort => "a part is shorter than allowed",
            Self::Parts => "a part is missing or there twice",
            Self::Sum => "its parts do not come to the piece and its allowances",
        }
    }
}

impl fmt::Display for PlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message(&Style::default()))
    }
}

impl std::error::Error for PlanError {}
