//! A lower bound on the length of any plan: the area of the pieces divided by the width.
//!
//! Never here: any particular plan.

use crate::cutting::nanometre::down;
use crate::cutting::place::extent::{area, extent};
use crate::cutting::task::demand::{Group, Measures};
use crate::piece::Lie;
use crate::piece::Shape;
use crate::quantity::number;

/// The least length that these pieces can take, in nanometres: their area divided by the width, and at least the
/// longest piece that must be whole.
pub(in crate::cutting) fn lower_bound(groups: &[Group<'_>], measures: Measures) -> i64 {
    let by_area = covered(groups, measures) / i128::from(measures.width);
    let whole = groups.iter().filter(|group| group.joining.is_none());
    let longest = whole.filter_map(|group| group.choices.iter().map(|(_, extent)| extent.along).min()).max();
    i64::try_from(by_area).unwrap_or(i64::MAX).max(longest.unwrap_or(0))
}

/// The area of these pieces, in square nanometres.
pub(in crate::cutting) fn covered(groups: &[Group<'_>], measures: Measures) -> i128 {
    let width = i128::from(measures.width);
    let areas = groups.iter().map(|group| {
        let count = i128::from(number::from_size(group.numbers.len()));
        let one = match &*group.piece.shape {
            shape @ (Shape::Rectangle { .. } | Shape::FullWidth { .. }) => extent(shape, Lie::Along, measures.width)
                .map_or(0, |extent| i128::from(extent.along) * i128::from(extent.across)),
            // Divided by the width first, so that it stays exact as a whole number.
            shape => {
                i128::from(down(area(shape, measures.width) / number::from_whole(measures.width)).unwrap_or(0)) * width
            }
        };
        count * one
    });
    areas.sum()
}
