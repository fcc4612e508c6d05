//! How a piece may lie on cloth, and how a cut of it does lie: grain, fold, turns and layers, with their words.
//!
//! Never here: which of them a piece gets.

use super::word_of;
use serde::{Deserialize, Serialize};

/// How a piece's frame lies on the cloth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Grain {
    /// Along the piece runs with the selvedge.
    #[default]
    Along,
    /// Along the piece runs from selvedge to selvedge.
    Across,
    /// Along the piece runs at 45 degrees to the selvedge.
    Bias,
    /// With the selvedge or across it, whichever takes less. On napped cloth always along: a piece turned a quarter
    /// there looks another shade.
    Any,
}

impl Grain {
    /// The words in recipes and cut lists.
    pub const WORDS: [(&'static str, Self); 4] =
        [("along", Self::Along), ("across", Self::Across), ("bias", Self::Bias), ("any", Self::Any)];

    /// The word for it.
    pub fn word(self) -> &'static str {
        word_of(self, &Self::WORDS)
    }
}

/// The line of a piece that may lie on a fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Fold {
    /// The middle line that runs along the piece.
    Along,
    /// The middle line that runs across the piece.
    Across,
}

impl Fold {
    /// The words in recipes and lists of pieces.
    pub const WORDS: [(&'static str, Self); 2] = [("along", Self::Along), ("across", Self::Across)];
}

/// How far a piece of a list may be turned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Turn {
    /// Not at all: it has a way up.
    None,
    /// Half round, head to foot.
    #[default]
    Half,
    /// By quarters: with the grain or across it.
    Quarter,
}

impl Turn {
    /// The words in lists of pieces.
    pub(crate) const WORDS: [(&'static str, Self); 3] =
        [("none", Self::None), ("half", Self::Half), ("quarter", Self::Quarter)];

    /// The grain that allows this turn.
    pub(crate) fn grain(self) -> Grain {
        if self == Self::Quarter { Grain::Any } else { Grain::Along }
    }
}

/// How a piece's frame lies on the goods. With the marks of its cut, the half turn and the mirror image, this gives
/// the place of every point of the piece:
///
/// 1. The piece is laid as its variant says.
/// 2. `mirrored`: it is mirrored about a line along the goods (across becomes minus across). So two pieces of a pair
///    that lie alike are a pair on folded cloth; a mirrored piece that lies across is turned the other way from a
///    plain one, and one on the bias lies along the other diagonal.
/// 3. `reversed`: it is then turned half round (along becomes minus along, across minus across).
/// 4. The low corner of its box in that position (least along, least across) is at `from` and `across_from`. `to` and
///    `across_to` end the room it gets, which may extend to a mark of the tape. Folded cloth has two exceptions, so
///    that both layers are alike: the farther of two twins ([`Layers::Both`]) has its high corner across at
///    `across_to`, and a cut on the fold ([`Layers::Fold`]) lies in the middle of its room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Lie {
    /// As drawn: along the piece runs with the selvedge.
    Along,
    /// Turned a quarter: along the piece runs across the goods, and across the piece runs back along them.
    Across,
    /// At 45 degrees, half of that turn: along the piece runs along and across the goods alike, and across the piece
    /// runs across them and back along them.
    Bias,
}

impl Lie {
    /// The words of a written plan, each with the lie and whether the piece is also turned half round. Only a piece
    /// that lies along has a word for that turn; for the others a note says so.
    pub const WORDS: [(&'static str, (Self, bool)); 4] = [
        ("no", (Self::Along, false)),
        ("half", (Self::Along, true)),
        ("quarter", (Self::Across, false)),
        ("bias", (Self::Bias, false)),
    ];

    /// The word for this lie, turned half round if `reversed`.
    pub fn word(self, reversed: bool) -> &'static str {
        word_of((self, reversed && self == Self::Along), &Self::WORDS)
    }
}

/// Which layers of the cloth a cut goes through. Marks are those of the opened cloth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Layers {
    /// Single cloth, or one layer of folded cloth.
    #[default]
    One,
    /// Both layers of folded cloth at once: the twin is the mirror image, as far from the other selvedge.
    Both,
    /// Both layers, on the fold: opened, it is one piece whose middle line is the middle of the cloth. A full-width
    /// piece on folded cloth is cut this way.
    Fold,
}

impl Layers {
    /// The words of a written plan.
    pub const WORDS: [(&'static str, Self); 3] = [("one", Self::One), ("both", Self::Both), ("fold", Self::Fold)];

    /// The word for them.
    pub fn word(self) -> &'static str {
        word_of(self, &Self::WORDS)
    }
}
