//! The materials that the workshop cuts and sews with, and how they are sold.
//!
//! Never here: what is on the shelf, which is [`stock`](super::stock), and what a piece of work needs.

use super::names;
use crate::piece::{MaterialKind, Repeat};
use crate::quantity::{Length, Money, Quantity};
use serde::{Deserialize, Serialize};

/// What a material's price buys.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PriceFor {
    /// This length, such as a yard.
    Length(Length),
    /// One item.
    Each,
    /// One whole put-up.
    PutUp,
}

/// The steps in which a material is sold.
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
    /// Its unique name.
    pub name: String,
    /// Cloth, roll, notion or thread.
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
    /// How its pattern repeats along the cloth.
    pub repeat: Option<Repeat>,
    /// Distance across the cloth after which its pattern repeats, if that is less than the width: checks and stripes
    /// that meet at a join only there.
    pub repeat_across: Option<Length>,
    /// Whether all pieces must lie the same way up.
    pub nap: bool,
    /// The share of its length lost in the first wash, from 0 to less than 1.
    pub shrink_along: f64,
    /// The share of its width lost in the first wash, from 0 to less than 1.
    pub shrink_across: f64,
    /// Its weight: by area for cloth and rolls, by length for thread, either for notions.
    pub weight: Option<Quantity>,
    /// What it is made of, as on its label.
    pub fibre: Option<String>,
}

/// All materials of a workshop, in the order of its file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Materials {
    /// The materials, with unique names.
    pub list: Vec<Material>,
}

impl Materials {
    /// The material with this name, ignoring case and extra blanks.
    pub fn find(&self, name: &str) -> Option<&Material> {
        let key = names::key(name);
        self.list.iter().find(|material| names::key(&material.name) == key)
    }

    /// The name nearest to a mistyped one.
    pub fn nearest(&self, name: &str) -> Option<&str> {
        names::nearest(name, self.list.iter().map(|material| material.name.as_str()))
    }
}
