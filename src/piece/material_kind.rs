//! The kind of a material, and what follows from it alone.
//!
//! Never here: a single material, its price, its stock.

use super::goods::GoodsKind;
use super::word_of;
use crate::quantity::Dimension;
use serde::{Deserialize, Serialize};

/// The kind of a material.
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
    /// The words in a list of materials.
    pub const WORDS: [(&'static str, Self); 4] =
        [("cloth", Self::Cloth), ("roll", Self::Roll), ("notion", Self::Notion), ("thread", Self::Thread)];

    /// The word for it.
    pub fn word(self) -> &'static str {
        word_of(self, &Self::WORDS)
    }

    /// All words: "cloth, roll, notion or thread".
    pub fn words() -> String {
        let [rest @ .., last] = Self::WORDS.map(|(word, _)| word);
        format!("{} or {last}", rest.join(", "))
    }

    /// How pieces are cut from it; `None` if nothing is cut from it.
    pub fn cut_as(self) -> Option<GoodsKind> {
        match self {
            Self::Cloth => Some(GoodsKind::Cloth),
            Self::Roll => Some(GoodsKind::Roll),
            Self::Notion | Self::Thread => None,
        }
    }

    /// Whether pieces are cut from it; anything else is a notion or thread.
    pub fn is_cut(self) -> bool {
        self.cut_as().is_some()
    }

    /// Whether a recipe's input may ask for it. Thread follows from the stitching.
    pub fn is_asked_for(self) -> bool {
        self != Self::Thread
    }

    /// The dimensions in which its weight may be given.
    pub fn weighed_by(self) -> &'static [Dimension] {
        match self {
            Self::Cloth | Self::Roll => &[Dimension::MASS_BY_AREA],
            Self::Thread => &[Dimension::MASS_BY_LENGTH],
            Self::Notion => &[Dimension::MASS_BY_AREA, Dimension::MASS_BY_LENGTH],
        }
    }
}
