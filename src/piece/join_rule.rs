//! What a piece that does not fit whole may be joined from.
//!
//! Never here: dividing a piece, which is planning.

use crate::quantity::Length;
use serde::{Deserialize, Serialize};

/// How a piece may be pieced together.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct JoinRule {
    /// The most joins in one piece.
    pub most: i64,
    /// The shortest part, its allowances included, measured in the direction that is joined.
    pub shortest: Length,
    /// Seam allowance at each side of a join; a join takes two.
    pub allowance: Length,
}
