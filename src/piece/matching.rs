//! Where pieces start on the pattern of their goods.
//!
//! Never here: lengths; the pattern belongs to the [`Goods`](super::Goods).

use serde::{Deserialize, Serialize};

/// How the pieces of an entry start on a pattern that repeats, counted in shifts of the pattern: a width that is joined
/// to the right of another starts one shift later on the cloth.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Matching {
    /// All at the same place: none is joined beside another.
    Level,
    /// In one row by their numbers, each joined to the right of the one before.
    RunOn,
    /// As listed; behind the last the list begins again, as for the next garment.
    Shifts(Vec<i64>),
}

impl Matching {
    /// Shifts of the piece with this number, from one.
    pub fn shifts(&self, number: i64) -> i64 {
        match self {
            Self::Level => 0,
            Self::RunOn => number - 1,
            Self::Shifts(list) => {
                let turn = i64::try_from(list.len()).unwrap_or(i64::MAX).max(1);
                let place = usize::try_from((number - 1).rem_euclid(turn)).ok();
                place.and_then(|place| list.get(place)).copied().unwrap_or(0)
            }
        }
    }
}
