//! What the workshop cuts and sews with, and how it is sold.
//!
//! Never here: what is on the shelf, which is [`stock`](super::stock), and what a piece of work needs.

use super::names;
use crate::quantity::{Dimension, Length, Money, Quantity};
use serde::{Deserialize, Serialize};

/// What kind of thing a material is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum MaterialKind {
    /// Cloth from a bolt: pieces are laid out on its width.
    Cloth,
    /// Roll goods: a piece takes the full width.
    Roll,
    /// Elastic, tape, hooks, buttons.
    Notion,
    /// Thread by the cone or reel.
    Thread,
}

impl MaterialKind {
    /// The words of materials.csv.
    pub(super) const WORDS: [(&'static str, Self); 4] =
        [("cloth", Self::Cloth), ("roll", Self::Roll), ("notion", Self::Notion), ("thread", Self::Thread)];

    /// Whether pieces are cut from its width. What is not cut is bought by the length or counted.
    pub fn is_cut(self) -> bool {
        match self {
            Self::Cloth | Self::Roll => true,
            Self::Notion | Self::Thread => false,
        }
    }

    /// The word for one put-up of what pieces are cut from.
    pub(crate) fn put_up_word(self) -> &'static str {
        match self {
            Self::Roll => "roll",
            Self::Cloth | Self::Notion | Self::Thread => "bolt",
        }
    }

    /// What its weight may be given by.
    pub(super) fn weighed_by(self) -> &'static [Dimension] {
        match self {
            Self::Cloth | Self::Roll => &[Dimension::MASS_BY_AREA],
            Self::Thread => &[Dimension::MASS_BY_LENGTH],
            Self::Notion => &[Dimension::MASS_BY_AREA, Dimension::MASS_BY_LENGTH],
        }
    }
}

/// What a material's price buys.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PriceFor {
    /// This length, such as a yard.
    Length(Length),
    /// One of them.
    Each,
    /// One whole put-up.
    PutUp,
}

/// In what steps a material is sold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum SoldBy {
    /// In whole steps of this length, such as an eighth of a yard.
    Step(Length),
    /// One by one.
    Each,
    /// In whole put-ups.
    PutUp,
}

/// One material.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Material {
    /// Its name, unlike every other.
    pub name: String,
    /// What kind of thing it is.
    pub kind: MaterialKind,
    /// Its width without the selvedges; of a tape or an elastic, its width.
    pub usable_width: Option<Length>,
    /// The length a supplier sells on one roll, bolt, card or cone.
    pub put_up: Option<Length>,
    /// Its list price.
    pub price: Option<Money>,
    /// What the price buys.
    pub price_for: PriceFor,
    /// In what steps it is sold.
    pub sold_by: SoldBy,
    /// How far its pattern runs along the cloth before it comes again.
    pub repeat: Option<Length>,
    /// Whether the pattern steps half a repeat from selvedge to selvedge.
    pub half_drop: bool,
    /// Whether all pieces must lie the same way up.
    pub nap: bool,
    /// The part of its length lost in the first wash, from 0 to less than 1.
    pub shrink_along: f64,
    /// The part of its width lost in the first wash, from 0 to less than 1.
    pub shrink_across: f64,
    /// Its weight: by the area of cloth and rolls, by the length of thread, either of notions.
    pub weight: Option<Quantity>,
    /// What it is made of, as on its label.
    pub fibre: Option<String>,
}

/// All materials of a workshop, in the order of its file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Materials {
    /// The materials; no two have one name.
    pub list: Vec<Material>,
}

impl Materials {
    /// The material of this name, whatever its capitals and blanks.
    pub fn find(&self, name: &str) -> Option<&Material> {
        let key = names::key(name);
        self.list.iter().find(|material| names::key(&material.name) == key)
    }

    /// The name nearest to a mistyped one.
    pub fn nearest(&self, name: &str) -> Option<&str> {
        names::nearest(name, self.list.iter().map(|material| material.name.as_str()))
    }
}
