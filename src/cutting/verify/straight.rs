//! Checks that a length comes apart by straight cuts from edge to edge: across the whole width into rows, along each
//! row into columns, across each column into pieces, which are trimmed at their sides.
//!
//! Rows and columns are as fine as possible; if coarser ones came apart, so would these. Shaped pieces count as their
//! bounding rectangles.
//!
//! Never here: whether cuts overlap.

use super::overlap::Patch;
use super::shaped::{PlacedCut, is_farther};
use super::{Errors, PlanError};
use crate::cutting::plan::StockUse;
use crate::quantity::{Length, number};

pub(super) fn check(used: &StockUse, placed: &[PlacedCut<'_>], width: i64, errors: &mut Errors) {
    let boxes = if used.folded { halves(placed, width) } else { placed.iter().map(|placed| placed.patch).collect() };
    if let Some(mark) = first_row_not_straight(boxes) {
        let at = Length::from_steps(number::from_whole(mark));
        errors.add(PlanError::NotStraight { stock: used.stock.clone(), at });
    }
}

/// The cuts of both layers as seen from the near half, in half nanometres across: a cut goes through both layers.
fn halves(placed: &[PlacedCut<'_>], width: i64) -> Vec<Patch> {
    let mut boxes: Vec<Patch> = placed
        .iter()
        .map(|placed| {
            let patch = placed.patch;
            let (near, far) = (2 * patch.across_from, 2 * patch.across_to);
            // What lies on the fold reaches beyond it, where nothing else is seen.
            let (across_from, across_to) =
                if is_farther(patch, width) { (2 * width - far, 2 * width - near) } else { (near, far) };
            Patch { across_from, across_to, ..patch }
        })
        .collect();
    let place = |patch: &Patch| (patch.from, patch.to, patch.across_from, patch.across_to);
    boxes.sort_by_key(place);
    boxes.dedup_by_key(|patch| place(patch));
    boxes
}

/// The start of the first row that does not come apart.
fn first_row_not_straight(boxes: Vec<Patch>) -> Option<i64> {
    let along = |patch: &Patch| (patch.from, patch.to);
    let across = |patch: &Patch| (patch.across_from, patch.across_to);
    for row in apart(boxes, along) {
        let from = row.iter().map(|patch| patch.from).min();
        // Each piece of a column must be clear of the next along the goods.
        if apart(row, across).into_iter().any(|column| apart(column, along).iter().any(|pieces| pieces.len() > 1)) {
            return from;
        }
    }
    None
}

/// Groups that straight lines can separate without touching any box.
fn apart(mut boxes: Vec<Patch>, reach: impl Fn(&Patch) -> (i64, i64)) -> Vec<Vec<Patch>> {
    boxes.sort_by_key(&reach);
    let mut groups: Vec<Vec<Patch>> = Vec::new();
    let mut end = i64::MIN;
    for patch in boxes {
        let (from, to) = reach(&patch);
        match groups.last_mut() {
            Some(group) if from < end => group.push(patch),
            _ => groups.push(vec![patch]),
        }
        end = end.max(to);
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::*;

    fn straight(boxes: &[[i64; 4]]) -> bool {
        let patch = |[from, to, across_from, across_to]: &[i64; 4]| Patch {
            from: *from,
            to: *to,
            across_from: *across_from,
            across_to: *across_to,
        };
        first_row_not_straight(boxes.iter().map(patch).collect()).is_none()
    }

    /// Own arithmetic, on squared paper.
    #[test]
    fn three_stages_are_enough_and_a_pinwheel_is_not_straight() {
        assert!(straight(&[]));
        assert!(straight(&[[0, 3, 0, 2], [0, 2, 2, 4], [2, 3, 2, 3], [3, 5, 0, 4]]));
        // Four rectangles round a middle square: no cut goes from edge to edge.
        assert!(!straight(&[[0, 2, 0, 1], [0, 1, 1, 3], [1, 3, 2, 3], [2, 3, 0, 2], [1, 2, 1, 2]]));
        // Trimmed at the sides of its column, on either side.
        assert!(straight(&[[0, 2, 0, 3], [2, 4, 1, 2], [4, 6, 2, 3], [0, 6, 3, 5]]));
        // Two side by side in one column: that would be a fourth stage.
        assert!(!straight(&[[0, 2, 0, 3], [2, 4, 0, 1], [2, 4, 1, 3], [0, 4, 3, 5], [0, 4, 3, 4]]));
        assert!(!straight(&[[0, 2, 0, 3], [2, 4, 0, 1], [2, 4, 1, 3], [0, 3, 3, 5], [3, 4, 3, 5]]));
    }
}
