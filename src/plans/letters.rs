//! The letters of an order's pieces, which pictures and sheets share.
//!
//! A, B … Z, AA, AB and on, in the order of the first cut along the plans: one letter for all pieces that are alike in
//! name, size, part and order. So a letter chalked on a cut piece tells what it is and whose. A width that is joined
//! beside others has a letter of its own, because it stands in one place only. Never here: drawing.

use super::plan_report::PlanReport;
use crate::cutting::{Cut, JoinedPart};
use crate::piece::{CutPiece, Shape};
use crate::quantity::Length;

/// The letter of each kind of piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Letters {
    kinds: Vec<Kind>,
}

/// What pieces of one letter have in common.
#[derive(Clone, Debug, PartialEq)]
struct Kind {
    piece: String,
    order: Option<String>,
    shape: Shape,
    /// Of a part of a joined piece, which it is and how large: parts of one piece may be cut differently.
    part: Option<(JoinedPart, Length, Length)>,
    /// Of a width that is joined beside others, its number.
    width: Option<i64>,
}

/// Gives the pieces of several plans their letters, in the order in which they are cut.
pub(crate) fn letters(reports: &[PlanReport<'_>]) -> Letters {
    let mut letters = Letters::default();
    for report in reports {
        for cut in report.plan.uses.iter().flat_map(|stock| &stock.cuts) {
            if let Some(kind) = kind_of(report, cut) {
                letters.place(kind);
            }
        }
    }
    letters
}

impl Letters {
    /// The letter of a cut; empty if it is not in these plans.
    pub(crate) fn of_cut(&self, report: &PlanReport<'_>, cut: &Cut) -> String {
        let kind = kind_of(report, cut);
        kind.and_then(|kind| self.kinds.iter().position(|known| *known == kind)).map_or(String::new(), letter)
    }

    /// The letters of a piece: one, or one for each of the parts it is joined from or the widths it is cut into; three or
    /// more that follow each other are told as `B to F`. A piece that no plan cuts gets the next letter.
    pub(crate) fn of_piece(&mut self, piece: &CutPiece) -> Vec<String> {
        let is_it = |kind: &Kind| kind.piece == piece.name && kind.order == piece.order && kind.shape == *piece.shape;
        let known: Vec<usize> =
            self.kinds.iter().enumerate().filter(|(_, kind)| is_it(kind)).map(|(place, _)| place).collect();
        if !known.is_empty() {
            return runs(&known);
        }
        let kind = Kind {
            piece: piece.name.clone(),
            order: piece.order.clone(),
            shape: Shape::clone(&piece.shape),
            part: None,
            width: None,
        };
        vec![letter(self.place(kind))]
    }

    fn place(&mut self, kind: Kind) -> usize {
        self.kinds.iter().position(|known| *known == kind).unwrap_or_else(|| {
            self.kinds.push(kind);
            self.kinds.len() - 1
        })
    }
}

fn kind_of(report: &PlanReport<'_>, cut: &Cut) -> Option<Kind> {
    let piece = report.pieces.get(cut.entry)?;
    Some(Kind {
        piece: piece.name.clone(),
        order: piece.order.clone(),
        shape: Shape::clone(&piece.shape),
        part: cut.part.map(|part| (part, cut.to - cut.from, cut.across_to - cut.across_from)),
        width: report.panels_of(cut.entry).map(|_| cut.number),
    })
}

/// The letters at places, with those of a run told by its first and last.
fn runs(places: &[usize]) -> Vec<String> {
    let runs = places.chunk_by(|one, next| one + 1 == *next);
    let told = |run: &[usize]| match run {
        [first, _, .., last] => vec![format!("{} to {}", letter(*first), letter(*last))],
        few => few.iter().copied().map(letter).collect(),
    };
    runs.flat_map(told).collect()
}

/// The letter at a place: A to Z, then AA, AB and on.
fn letter(place: usize) -> String {
    let mut left = place;
    let mut letters = Vec::new();
    loop {
        let sign = u8::try_from(left % 26).map_or('?', |sign| char::from(b'A' + sign));
        letters.insert(0, sign);
        if left < 26 {
            return letters.into_iter().collect();
        }
        left = left / 26 - 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By counting: 26 single letters, 26 times 26 pairs, then three.
    #[test]
    fn letters_go_on_after_z() {
        let found = [0, 1, 25, 26, 27, 51, 52, 701, 702].map(letter);
        assert_eq!(found, ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]);
    }

    /// By counting: places 0, 1; 3 to 5; 30 is AE.
    #[test]
    fn a_run_of_letters_is_told_by_its_ends() {
        assert_eq!(runs(&[0, 1, 3, 4, 5, 30]), ["A", "B", "D to F", "AE"]);
    }
}
