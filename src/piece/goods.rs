//! The goods that pieces are cut from, what of them is on the shelf, and what may be bought.
//!
//! Never here: pieces, placing, money beyond a price that is passed through.

use crate::quantity::{Length, Money, number};
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
    /// Whether every piece takes the full width, so that none lies beside another and nothing is cut on a fold.
    pub fn takes_full_width(self) -> bool {
        match self {
            Self::Roll => true,
            Self::Cloth => false,
        }
    }

    /// The name of one put-up.
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
    /// The length of a new roll or bolt; `None` for goods sold as long as needed.
    pub put_up: Option<Length>,
    /// The pattern's repeat.
    pub repeat: Option<Repeat>,
    /// The surface has a direction, so every piece lies the same way up.
    pub napped: bool,
    /// Length lost at each straight cut; usually zero.
    pub loss_per_cut: Length,
}

impl Goods {
    /// Plain roll goods of a width, sold in put-ups.
    pub fn roll(width: Length, put_up: Length) -> Self {
        Self { kind: GoodsKind::Roll, put_up: Some(put_up), ..Self::cloth(width) }
    }

    /// Plain cloth of a usable width, sold as long as needed.
    pub fn cloth(width: Length) -> Self {
        Self { kind: GoodsKind::Cloth, width, put_up: None, repeat: None, napped: false, loss_per_cut: Length::ZERO }
    }

    /// The name of a new length of the goods.
    pub fn new_length_name(&self) -> &'static str {
        match (self.kind, self.put_up) {
            (GoodsKind::Cloth, None) => "cloth",
            (kind, _) => kind.put_up_name(),
        }
    }
}

/// A pattern that repeats along the goods.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Repeat {
    /// Length of one repeat.
    pub along: Length,
    /// How much later on the goods a width starts than the one it is joined to the right of: zero on a straight repeat,
    /// half of `along` on a half drop.
    pub shift: Length,
}

impl Repeat {
    /// A repeat that runs straight across the goods.
    pub fn straight(along: Length) -> Self {
        Self { along, shift: along * 0.0 }
    }

    /// A repeat that drops by half from one width to the next.
    pub fn half_drop(along: Length) -> Self {
        Self { along, shift: along / 2.0 }
    }

    /// A repeat that starts so much later on each width than on the one to its left. Whole repeats of a shift change
    /// nothing and are taken off.
    pub fn shifted(along: Length, shift: Length) -> Self {
        let repeats = number::snapped(shift / along);
        let beyond = repeats - repeats.floor();
        if beyond > 0.0 { Self { along, shift: shift - along * repeats.floor() } } else { Self::straight(along) }
    }

    /// Whether the pattern runs straight across, so that widths side by side start level.
    pub fn is_straight(&self) -> bool {
        !self.shift.is_positive()
    }

    /// Whether it drops by half.
    pub fn is_half_drop(&self) -> bool {
        number::is_within(self.shift * 2.0 / self.along, 1.0, 1e-9)
    }

    /// Where a piece so many shifts on starts, behind the first start: less than one repeat.
    pub fn phase(&self, shifts: i64) -> Length {
        let share = number::from_whole(shifts) * (self.shift / self.along);
        let share = number::snapped(share - share.floor());
        self.along * if share >= 1.0 { 0.0 } else { share }
    }
}

/// A length on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StockLength {
    /// Its mark on the shelf.
    pub name: String,
    /// The dye lot, if known.
    pub lot: Option<String>,
    /// How long it is.
    pub along: Length,
    /// Width, if narrower than the goods; a wider length is used up to the goods' width.
    pub across: Option<Length>,
    /// Whether it has been washed; no garment is cut from washed and unwashed goods.
    pub washed: bool,
    /// Number of such lengths.
    pub count: i64,
    /// The price of each, if it has one of its own.
    pub price: Option<Money>,
    /// A usable leftover: it is cut before opened rolls and bolts.
    pub remnant: bool,
}

impl StockLength {
    /// One opened roll or bolt of unknown lot and full width.
    pub fn new(name: &str, along: Length) -> Self {
        Self {
            name: name.to_owned(),
            lot: None,
            along,
            across: None,
            washed: false,
            count: 1,
            price: None,
            remnant: false,
        }
    }
}

/// What may be bought when the shelf does not hold enough.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Supply {
    /// As many new put-ups as it takes, or cloth as long as needed.
    #[default]
    Endless,
    /// Nothing: a shelf that does not hold enough is an error.
    ShelfOnly,
    /// These put-ups, tried in the order given.
    Offered(Vec<PutUp>),
}

/// A length that a supplier sells.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PutUp {
    /// What the supplier calls it.
    pub name: String,
    /// Length; `None` for cloth cut as long as needed.
    pub along: Option<Length>,
    /// Width, if narrower than the goods.
    pub across: Option<Length>,
    /// The price of one, or of the whole length needed; passed through.
    pub price: Option<Money>,
    /// How many can be had; `None` for as many as needed.
    pub most: Option<i64>,
}
