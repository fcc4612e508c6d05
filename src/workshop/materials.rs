//! The materials that the workshop cuts and sews with, and how they are sold.
//!
//! Never here: what is on the shelf, which is [`stock`](super::stock), and what a piece of work needs.

use super::names;
use super::washing::Washing;
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
    /// The share of its length lost in the first wash, from 0 to less than 1; `None` if nobody has measured it.
    pub shrink_along: Option<f64>,
    /// The share of its width lost in the first wash, from 0 to less than 1; `None` if nobody has measured it.
    pub shrink_across: Option<f64>,
    /// What is done about that loss; `None` if each order says it.
    pub washing: Option<Washing>,
    /// Its weight: by area for cloth and rolls, by length for thread, either for notions.
    pub weight: Option<Quantity>,
    /// What it is made of, as on its label.
    pub fibre: Option<String>,
}

impl Material {
    /// Returns whether it is known to lose something in the first wash.
    pub fn loses(&self) -> bool {
        [self.shrink_along, self.shrink_across].into_iter().flatten().any(|share| share > 0.0)
    }

    /// Returns whether nobody has said what it loses in the first wash.
    pub fn loss_is_unknown(&self) -> bool {
        self.shrink_along.is_none() && self.shrink_across.is_none()
    }

    /// Returns how it is cut in an order that says this about all its goods. What is not known to lose anything is cut
    /// as it comes.
    pub fn washing_in(&self, said: Option<Washing>) -> Washing {
        said.or(self.washing).filter(|_| self.loses()).unwrap_or(Washing::AsItComes)
    }

    /// Returns whether an order that says this must still say how it is cut: a cloth that loses something, of which
    /// the list does not say it.
    pub fn asks_for_washing(&self, said: Option<Washing>) -> bool {
        self.kind.is_cut() && self.loses() && said.or(self.washing).is_none()
    }
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
