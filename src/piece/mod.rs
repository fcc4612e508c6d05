//! The words for what is cut: pieces, their shapes and how they may lie, joins, goods and their kinds.
//!
//! Recipes, tickets, workshop files, plans and pictures all use these types. Words that a recipe or a file writes
//! for one of them stand beside the type.
//!
//! Never here: planning, files, scripts, tables.

mod goods;
mod join_rule;
mod lie;
#[allow(clippy::module_inception, reason = "the piece is the concept this layer is named for")]
mod piece;
mod shape;

pub use goods::{Goods, GoodsKind, PutUp, StockLength, Supply};
pub use join_rule::JoinRule;
pub use lie::{Fold, Grain, Layers, Lie};
pub use piece::CutPiece;
pub use shape::{OutlinePoint, Shape};
