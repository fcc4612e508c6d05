//! How a piece that does not fit whole may be joined.
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

impl JoinRule {
    /// At most `most` joins, no part shorter than `shortest`, `allowance` at each side of a join.
    pub fn new(most: i64, shortest: Length, allowance: Length) -> Self {
        Self { most, shortest, allowance }
    }

    /// The rule as a cut list notes it; `say` formats a length.
    pub fn words(&self, say: impl Fn(Length) -> String) -> String {
        let most = if self.most == 1 { "one join".to_owned() } else { format!("at most {} joins", self.most) };
        let (shortest, allowance) = (say(self.shortest), say(self.allowance));
        format!("may be joined ({most}, no part under {shortest}, {allowance} at each side of a join)")
    }
}
