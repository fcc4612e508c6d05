//! What is cut from: the goods, what of them lies on the shelf, and what may be bought.
//!
//! Never here: pieces, placing, money beyond a price that is passed through.

use crate::quantity::{Length, Money};
use serde::{Deserialize, Serialize};

/// How goods are cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum GoodsKind {
    /// Narrow goods cut straight across, so that a piece takes the full width: tulle rolls, ribbon, elastic.
    Roll,
    /// Cloth of a usable width, on which pieces lie side by side.
    Cloth,
}

impl GoodsKind {
    /// Every piece takes the full width, so none lies beside another and nothing is cut on a fold.
    pub fn takes_full_width(self) -> bool {
        match self {
            Self::Roll => true,
            Self::Cloth => false,
        }
    }

    /// What a put-up of it is called.
    pub fn put_up_name(self) -> &'static str {
        match self {
            Self::Roll => "roll",
            Self::Cloth => "bolt",
        }
    }
}

/// The goods a list of pieces is cut from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Goods {
    /// How they are cut.
    pub kind: GoodsKind,
    /// The usable width, selvedges left out.
    pub width: Length,
    /// The length of a new roll or bolt; none for goods sold as long as needed.
    pub put_up: Option<Length>,
    /// The pattern's repeat along the goods.
    pub repeat: Option<Length>,
    /// The pattern drops half a repeat from one width to the next.
    pub half_drop: bool,
    /// The surface has a direction, so every piece lies the same way up.
    pub napped: bool,
    /// What is lost along the goods at each straight cut; usually nothing.
    pub loss_per_cut: Length,
}

impl Goods {
    /// Plain roll goods of a width, sold in put-ups.
    pub fn roll(width: Length, put_up: Length) -> Self {
        Self { kind: GoodsKind::Roll, put_up: Some(put_up), ..Self::cloth(width) }
    }

    /// Plain cloth of a usable width, sold as long as needed.
    pub fn cloth(width: Length) -> Self {
        Self {
            kind: GoodsKind::Cloth,
            width,
            put_up: None,
            repeat: None,
            half_drop: false,
            napped: false,
            loss_per_cut: Length::ZERO,
        }
    }

    /// What a new length of the goods is called.
    pub fn new_length_name(&self) -> &'static str {
        match (self.kind, self.put_up) {
            (GoodsKind::Cloth, None) => "cloth",
            (kind, _) => kind.put_up_name(),
        }
    }
}

/// A length that lies on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StockLength {
    /// Its mark on the shelf.
    pub name: String,
    /// The dye lot, where it is known.
    pub lot: Option<String>,
    /// How long it is.
    pub along: Length,
    /// How wide, where it is narrower than the goods; a wider one is used up to the goods' width.
    pub across: Option<Length>,
    /// How many of it.
    pub count: i64,
    /// What each counts for, where it has a price of its own.
    pub price: Option<Money>,
    /// A usable leftover: these are cut before opened rolls and bolts.
    pub remnant: bool,
}

impl StockLength {
    /// One opened roll or bolt of unknown lot and full width.
    pub fn new(name: &str, along: Length) -> Self {
        Self { name: name.to_owned(), lot: None, along, across: None, count: 1, price: None, remnant: false }
    }
}

/// What may be bought when the shelf does not hold enough.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Supply {
    /// As many new put-ups as it takes, or cloth as long as needed.
    #[default]
    Endless,
    /// Nothing: what the shelf cannot give is a fault.
    ShelfOnly,
    /// These put-ups, tried in the order given.
    Offered(Vec<PutUp>),
}

/// A length that a supplier sells.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PutUp {
    /// What the supplier calls it.
    pub name: String,
    /// How long it is; none for cloth cut as long as needed.
    pub along: Option<Length>,
    /// How wide, where it is narrower than the goods.
    pub across: Option<Length>,
    /// The price of one, or of the whole length needed; passed through.
    pub price: Option<Money>,
    /// How many can be had; none for as many as needed.
    pub most: Option<i64>,
}
