//! What is cut: pieces, their shapes and how they may lie, joins, goods and their kinds.
//!
//! Recipes, tickets, workshop files, plans and pictures all use these types. The words for them in recipes and files
//! are beside each type.
//!
//! Never here: planning, files, scripts, tables.

mod cut_sizes;
mod goods;
mod join_rule;
mod lie;
mod marks;
mod matching;
mod material_kind;
mod panels;
#[allow(clippy::module_inception, reason = "the piece is the concept this layer is named for")]
mod piece;
mod shape;
mod sizes;
mod starts;

pub use goods::{Goods, GoodsKind, PutUp, Repeat, StockLength, Supply};
pub use join_rule::JoinRule;
pub use lie::{Fold, Grain};
pub(crate) use lie::{Layers, Lie, Turn};
pub(crate) use marks::cut_size;
pub use matching::Matching;
pub(crate) use material_kind::MaterialKind;
pub use panels::{Edge, MatchLine, Middle, Panels};
pub(crate) use panels::{Panel, PanelLayout, PanelSide, PanelWidth, WidthPart};
pub use piece::CutPiece;
pub(crate) use piece::Piece;
pub(crate) use shape::Room;
pub use shape::{OutlinePoint, Shape};
pub(crate) use sizes::Exact;
pub(crate) use starts::Starts;

/// The word for a value; empty if it has none.
fn word_of<T: Copy + PartialEq>(meaning: T, words: &[(&'static str, T)]) -> &'static str {
    words.iter().find(|(_, known)| *known == meaning).map_or("", |(word, _)| word)
}
