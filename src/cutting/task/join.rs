//! Divides a piece that does not fit whole into parts that are joined again.
//!
//! Never here: whether a piece may be joined in this direction, placing the parts.

use crate::cutting::error::CuttingError;
use crate::cutting::nanometre::{down, is_sound, length, liked, up};
use crate::piece::{CutPiece, JoinRule};

/// A join rule in whole nanometres.
#[derive(Clone, Copy, Debug)]
pub(in crate::cutting) struct Joining {
    most: i64,
    shortest: i64,
    allowance: i64,
}

impl Joining {
    /// Checks a rule.
    pub(in crate::cutting) fn of(rule: &JoinRule, piece: &str) -> Result<Self, CuttingError> {
        if rule.most < 0 {
            return Err(CuttingError::NegativeCount { what: format!("joins in {piece}"), count: rule.most });
        }
        let bad = |what: &str, size| CuttingError::BadSize { what: format!("{what} of {piece}"), size };
        let shortest = up(rule.shortest.steps()).filter(|shortest| *shortest == 0 || is_sound(shortest));
        let allowance = down(rule.allowance.steps()).filter(|allowance| *allowance == 0 || is_sound(allowance));
        Ok(Self {
            most: rule.most,
            shortest: shortest.ok_or_else(|| bad("shortest part", rule.shortest))?,
            allowance: allowance.ok_or_else(|| bad("join allowance", rule.allowance))?,
        })
    }

    /// The fewest parts that make `size` with none longer than `room`, allowances included; full ones first.
    ///
    /// n parts with allowance a lose 2a at each of n - 1 joins, so n is the least with
    /// n·room - 2a(n - 1) ≥ size.
    pub(in crate::cutting) fn parts(self, size: i64, room: i64, piece: &CutPiece) -> Result<Vec<i64>, CuttingError> {
        let name = || piece.name.clone();
        let shown = |whole| length(whole, crate::cutting::nanometre::likes(piece));
        let lost = 2 * self.allowance;
        if room <= lost {
            return Err(CuttingError::NoRoomForJoins { piece: name(), allowances: shown(lost), usable: shown(room) });
        }
        let joins = (size - room).max(0).div_euclid(room - lost) + i64::from((size - room).max(0) % (room - lost) > 0);
        if joins > self.most {
            return Err(CuttingError::TooManyJoins { piece: name(), needed: joins, most: self.most });
        }
        if joins > crate::cutting::MOST_PIECES {
            return Err(CuttingError::TooManyPieces { most: crate::cutting::MOST_PIECES });
        }
        let rest = size + lost * joins - room * joins;
        let mut parts = vec![room; crate::cutting::nanometre::size(joins)];
        parts.push(rest);
        if rest >= self.shortest {
            return Ok(parts);
        }
        // A short last part borrows from the one before it; if that is not enough, all are made equal.
        let last_two = share(room + rest, 2);
        if joins > 0 && last_two.iter().all(|part| *part >= self.shortest) {
            parts.truncate(crate::cutting::nanometre::size(joins - 1));
            parts.extend(last_two);
            return Ok(parts);
        }
        let alike = share(room * joins + rest, joins + 1);
        let least = alike.iter().copied().min().unwrap_or(rest);
        if least >= self.shortest {
            return Ok(alike);
        }
        let shortest = piece.may_join.map_or(shown(self.shortest), |rule| rule.shortest);
        Err(CuttingError::PartTooShort { piece: name(), part: length(least, liked(shortest)), shortest })
    }
}

/// Divides a length into parts that are equal to the nanometre, the longer ones first.
fn share(total: i64, parts: i64) -> Vec<i64> {
    (0..parts).map(|part| total / parts + i64::from(part < total % parts)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::Shape;
    use crate::quantity::Length;

    const INCH: i64 = 25_400_000;

    fn parts(size: i64, room: i64, most: i64, shortest: f64, allowance: f64) -> Result<Vec<i64>, CuttingError> {
        let rule = JoinRule::new(most, Length::inches(shortest), Length::inches(allowance));
        let shape = Shape::FullWidth { along: Length::inches(1.0) };
        let piece = CutPiece { may_join: Some(rule), ..CutPiece::new("band", 1, shape) };
        let parts = Joining::of(&rule, "band")?.parts(size * INCH, room * INCH, &piece)?;
        Ok(parts.into_iter().map(|part| part / (INCH / 2)).collect())
    }

    #[test]
    fn the_joins_of_the_handbook_rule() {
        // Own arithmetic: 420 in flat of 54 in strips, 1/4 in allowances, is 8 strips. Half inches here.
        let parts_of_420 = parts(420, 54, 9, 1.0, 0.25).unwrap();
        assert_eq!(parts_of_420.len(), 8);
        assert_eq!(parts_of_420.iter().sum::<i64>(), 2 * 420 + 7);
        // And: 132 in of 45 in cloth, 1/2 in allowances, is 3 widths.
        assert_eq!(parts(132, 45, 9, 1.0, 0.5).unwrap(), [90, 90, 88]);
        assert_eq!(parts(45, 45, 9, 1.0, 0.5).unwrap(), [90]);
    }

    #[test]
    fn a_short_last_part_borrows() {
        assert_eq!(parts(56, 54, 2, 8.0, 0.5).unwrap(), [57, 57]);
        assert_eq!(parts(110, 54, 2, 20.0, 0.0).unwrap(), [108, 56, 56]);
        assert_eq!(parts(110, 54, 2, 30.0, 0.0).unwrap().iter().min(), Some(&73));
        assert!(matches!(parts(56, 54, 2, 29.0, 0.0), Err(CuttingError::PartTooShort { .. })));
    }

    #[test]
    fn a_rule_that_cannot_be_kept() {
        assert!(matches!(parts(420, 54, 6, 1.0, 0.25), Err(CuttingError::TooManyJoins { needed: 7, most: 6, .. })));
        assert!(matches!(parts(420, 54, 6, 1.0, 27.0), Err(CuttingError::NoRoomForJoins { .. })));
        assert!(matches!(parts(420, 54, -1, 1.0, 1.0), Err(CuttingError::NegativeCount { .. })));
    }
}
