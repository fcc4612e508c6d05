//! Where on a pattern the matched full widths of a list start, and so how long one may be before the next must wait.
//!
//! Never here: in which order they are cut.

use super::goods::Repeat;
use super::matching::Matching;
use super::piece::CutPiece;
use crate::quantity::{Length, number};
use std::collections::BTreeSet;

/// The places within a repeat where the matched full widths of a list start, in whole nanometres.
pub(crate) struct Starts {
    repeat: i64,
    /// In order, each once.
    phases: Vec<i64>,
}

impl Starts {
    /// The most pieces of an entry that are looked at: so many starts lie closer than a mark of any tape.
    const MOST: i64 = 10_000;

    /// The starts of these pieces on a pattern.
    pub(crate) fn of(pieces: &[CutPiece], pattern: Repeat) -> Self {
        let whole = |length: Length| number::nearest_whole(length.steps()).unwrap_or(0);
        let repeat = whole(pattern.along).max(1);
        let mut phases = BTreeSet::new();
        for piece in pieces.iter().filter(|piece| piece.shape.is_full_width()) {
            let Some(matching) = &piece.matching else { continue };
            let last = if *matching == Matching::Level { 1 } else { Self::MOST };
            let starts = (1..=piece.count.min(last)).map(|number| pattern.phase(matching.shifts(number)));
            phases.extend(starts.map(|start| whole(start) % repeat));
        }
        Self { repeat, phases: phases.into_iter().collect() }
    }

    /// Whether one of the pieces may start behind another that is cut `wanted` long, but no longer behind the same piece
    /// cut `longer`.
    pub(crate) fn is_one_between(&self, wanted: Length, longer: Length) -> bool {
        let whole = |length: Length| number::nearest_whole(length.steps());
        let (Some(wanted), Some(longer)) = (whole(wanted), whole(longer)) else { return false };
        self.phases.iter().any(|phase| {
            let end = (phase + wanted).rem_euclid(self.repeat);
            let next = self.phases.get(self.phases.partition_point(|next| *next < end));
            let next = next.copied().or_else(|| Some(self.phases.first()? + self.repeat));
            next.is_some_and(|next| next - end < longer - wanted)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::Shape;

    fn of(shifts: &[i64], along: f64, shift: f64) -> Starts {
        let drop = Shape::FullWidth { along: Length::centimetres(200.0) };
        let count = number::from_size(shifts.len());
        let piece =
            CutPiece { matching: Some(Matching::Shifts(shifts.to_vec())), ..CutPiece::new("drop", count, drop) };
        Starts::of(&[piece], Repeat { along: Length::centimetres(along), shift: Length::centimetres(shift) })
    }

    /// On 64 with a shift of 24, pieces that all start alike may start at whole repeats only: 256, not 264 = 11 shifts.
    /// Two that start a shift apart may also start at 256 + 24 = 280 and at 256 - 24 = 232, not at 264 or 272.
    #[test]
    fn the_next_piece_starts_at_differences_of_the_starts() {
        let at = |starts: &Starts, place: f64| {
            let (before, behind) = (Length::centimetres(place - 0.03), Length::centimetres(place + 0.03));
            starts.is_one_between(before, behind)
        };
        let places =
            |starts: &Starts| -> Vec<i32> { (224..=288).filter(|place| at(starts, f64::from(*place))).collect() };
        assert_eq!(places(&of(&[0, 0], 64.0, 24.0)), [256]);
        assert_eq!(places(&of(&[0, 1], 64.0, 24.0)), [232, 256, 280]);
        assert_eq!(places(&of(&[0, 1, 2], 64.0, 24.0)), [232, 240, 256, 272, 280]);
        assert_eq!(places(&of(&[0, 1], 64.0, 32.0)), [224, 256, 288]);
        // Where a piece ends at the start of the next, nothing is wasted.
        let level = of(&[0], 64.0, 24.0);
        assert!(!level.is_one_between(Length::centimetres(255.9), Length::centimetres(256.0)));
        assert!(level.is_one_between(Length::centimetres(256.0), Length::centimetres(256.1)));
        assert!(!of(&[], 64.0, 24.0).is_one_between(Length::centimetres(255.0), Length::centimetres(257.0)));
    }
}
