//! Places pieces side by side on lengths of cloth: in straight rows, or freely.
//!
//! Never here: choosing the lengths.

use crate::cutting::place::item::Item;
use crate::cutting::place::layout::{CutLength, Layout, Patch};
use crate::cutting::place::offcuts;
use crate::cutting::task::demand::{Measures, Start};
use crate::cutting::task::source::Source;
use crate::piece::Layers;
use crate::quantity::number;
use shirr_packing::{Placement, Rectangle, RectangleProblem, Starts, Steps, Stretch, rectangles, straight};

/// A layout, and a lower bound on its length.
pub(in crate::cutting) struct OnCloth {
    pub(in crate::cutting) layout: Layout,
    /// The least that any layout takes of one endless length; zero on other lengths.
    pub(in crate::cutting) bound: i64,
    pub(in crate::cutting) proved: bool,
}

/// The lengths to place pieces on, in the order they are filled, each with the index of its source.
pub(in crate::cutting) struct Bed<'a> {
    pub(in crate::cutting) lengths: Vec<(usize, &'a Source)>,
    pub(in crate::cutting) measures: Measures,
    pub(in crate::cutting) folded: bool,
}

impl Bed<'_> {
    /// The width on the table.
    fn width(&self, source: &Source) -> i64 {
        if self.folded { source.width / 2 } else { source.width }
    }

    /// Whether it is a single length, cut off as needed.
    fn is_endless(&self) -> bool {
        matches!(self.lengths.as_slice(), [(_, source)] if source.as_needed)
    }

    /// The items and lengths as a problem for a solver.
    fn problem(&self, items: &[Item]) -> RectangleProblem {
        let rectangles = items.iter().map(|item| Rectangle {
            along: item.extent.along,
            across: item.extent.across,
            count: number::from_size(item.wants.len()),
            quarter: item.turned.is_some(),
            at_edge: item.is_at_edge(),
            starts: item.pattern().map(|(first, every)| Starts { first, every }),
        });
        let stretches = self.lengths.iter().map(|(_, source)| Stretch {
            width: self.width(source),
            length: (!source.as_needed).then_some(source.length),
        });
        RectangleProblem { stretches: stretches.collect(), rectangles: rectangles.collect(), loss: self.measures.loss }
    }

    /// The lengths without pieces.
    pub(in crate::cutting) fn start(&self) -> Layout {
        let cut_length = |(source, _): &(usize, &Source)| CutLength { folded: self.folded, ..CutLength::of(*source) };
        Layout { cut_lengths: self.lengths.iter().map(cut_length).collect(), by_outline: false }
    }

    /// Finds the rectangles left beside the pieces.
    pub(in crate::cutting) fn find_offcuts(&self, layout: &mut Layout) {
        for (cut_length, (_, source)) in layout.cut_lengths.iter_mut().zip(&self.lengths) {
            cut_length.offcuts = offcuts::beside(cut_length, source.width);
        }
    }

    /// Puts the pieces of the items where a solver placed their rectangles.
    fn filled(&self, items: &[Item], placements: impl IntoIterator<Item = Placement>) -> Option<Layout> {
        let mut wants: Vec<_> = items.iter().map(|item| item.wants.iter()).collect();
        let mut layout = self.start();
        for placement in placements {
            let (item, want) = (items.get(placement.item)?, *wants.get_mut(placement.item)?.next()?);
            let (_, source) = self.lengths.get(placement.stretch)?;
            item.place(want, placement, layout.cut_lengths.get_mut(placement.stretch)?, source.width);
        }
        Some(layout)
    }

    fn on_cloth(&self, mut layout: Layout, bound: i64, proved: bool) -> OnCloth {
        layout.cut_lengths.retain(|cut_length| !cut_length.placed.is_empty());
        let endless = self.is_endless();
        OnCloth { layout, bound: if endless { bound } else { 0 }, proved: endless && proved }
    }
}

/// Places the items with straight cuts from edge to edge; `None` if a piece finds no place.
pub(in crate::cutting) fn straight(bed: &Bed<'_>, items: &[Item], seed: u64, steps: &mut Steps<'_>) -> Option<OnCloth> {
    let solution = straight::solve(&bed.problem(items), seed, steps).ok()?;
    if !solution.unplaced.is_empty() {
        return None;
    }
    let mut layout = bed.filled(items, solution.placements())?;
    for row in solution.rows.iter().filter(|_| !bed.folded) {
        let (Some(cut_length), Some((_, source))) =
            (layout.cut_lengths.get_mut(row.stretch), bed.lengths.get(row.stretch))
        else {
            continue;
        };
        for time in (0..row.times).filter(|_| row.used < source.width) {
            let from = row.from + time * row.apart;
            let patch = Patch { from, to: from + row.along, across_from: row.used, across_to: source.width };
            cut_length.offcuts.push(patch);
        }
    }
    Some(bed.on_cloth(layout, solution.bound, solution.proved))
}

/// Places the items freely, to be cut round; `None` if a piece finds no place.
pub(in crate::cutting) fn free(bed: &Bed<'_>, items: &[Item], seed: u64, steps: &mut Steps<'_>) -> Option<OnCloth> {
    let solution = rectangles::solve(&bed.problem(items), seed, steps).ok()?;
    if !solution.unplaced.is_empty() {
        return None;
    }
    let mut layout = bed.filled(items, solution.placements)?;
    bed.find_offcuts(&mut layout);
    Some(bed.on_cloth(layout, solution.bound, solution.proved))
}

impl Item {
    /// Whether it lies on the fold.
    fn is_at_edge(&self) -> bool {
        self.through == Layers::Fold
    }

    /// The first start on the pattern, and the distance from one start to the next.
    fn pattern(&self) -> Option<(i64, i64)> {
        match self.start {
            Start::Anywhere => None,
            Start::Pattern { first, repeat } => Some((first, repeat)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::place::item::{Folding, items};
    use crate::cutting::tests::scene::{cloth, cut_length, nm, oblong, placed, prepared, shelf};
    use crate::cutting::{CuttingManner, CuttingTask};
    use crate::piece::{CutPiece, Goods, Supply};
    use shirr_packing::Watch;
    use std::sync::atomic::AtomicBool;

    /// What `solve` makes of pieces on one length of goods 100 wide.
    fn on_one(
        piece: CutPiece,
        source: &Source,
        loss: i64,
        solve: impl Fn(&Bed<'_>, &[Item], u64, &mut Steps<'_>) -> Option<OnCloth>,
    ) -> Option<OnCloth> {
        let goods = Goods { loss_per_cut: nm(loss), ..cloth(100) };
        let (pieces, manner, stop) = ([piece], CuttingManner::default(), AtomicBool::new(false));
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        let prepared = prepared(&task);
        let bed = Bed { lengths: vec![(4, source)], measures: prepared.measures, folded: false };
        let items = items(&prepared.groups, &[source], Folding::Open)?;
        solve(&bed, &items, 1, &mut Steps::new(5_000, Watch::silent(&stop)))
    }

    fn endless() -> Source {
        Source { as_needed: true, ..shelf(0, 9_000, 100) }
    }

    /// Six of 40 by 30 lie three to a row, with 10 of the width left beside each row; what a cut loses parts the rows.
    #[test]
    fn rows_leave_a_strip_beside_them() {
        let offcuts = |source: &Source, loss| {
            let found = on_one(oblong("panel", 6, 40, 30), source, loss, straight).unwrap();
            let one = &found.layout.cut_lengths[0];
            let mut told: Vec<_> = one.offcuts.iter().map(|p| (p.from, p.to, p.across_from, p.across_to)).collect();
            told.sort_unstable();
            (told, one.end, one.source, found.bound, found.proved)
        };
        assert_eq!(offcuts(&endless(), 0), (vec![(0, 40, 90, 100), (40, 80, 90, 100)], 80, 4, 80, true));
        // On a length that is there anyway nothing is known of less.
        let (strips, end, _, bound, proved) = offcuts(&shelf(0, 90, 100), 0);
        assert!(strips.iter().all(|strip| (strip.2, strip.3) == (90, 100)) && (end, bound, proved) == (80, 0, false));
        assert_eq!(offcuts(&shelf(0, 80, 90), 0), (vec![], 80, 4, 0, false));
        // What a cut loses lies between the rows.
        assert_eq!(offcuts(&endless(), 3), (vec![(0, 40, 90, 100), (43, 83, 90, 100)], 83, 4, 83, true));
    }

    #[test]
    fn a_length_that_is_too_short_holds_nothing() {
        let panel = || oblong("panel", 6, 40, 30);
        for solve in [straight, free] {
            assert!(on_one(panel(), &shelf(0, 80, 90), 0, solve).is_some());
            assert!(on_one(panel(), &shelf(0, 79, 90), 0, solve).is_none());
            assert!(on_one(panel(), &shelf(0, 80, 89), 0, solve).is_none());
        }
        let found = on_one(panel(), &endless(), 0, free).unwrap();
        assert_eq!((found.bound, found.proved, found.layout.laid()), (80, true, 80));
        let found = on_one(panel(), &shelf(0, 90, 100), 0, free).unwrap();
        assert_eq!((found.bound, found.proved), (0, false));
    }

    /// 60 of 100 cm are taken on 80 cm: 40 cm beside the piece are left.
    #[test]
    fn what_is_left_beside_pieces_is_found_on_each_length() {
        const CM: i64 = 10_000_000;
        let (wide, narrow) = (shelf(0, 900 * CM, 100 * CM), shelf(1, 900 * CM, 70 * CM));
        let goods = cloth(100 * CM);
        let manner = CuttingManner::default();
        let task = CuttingTask { pieces: &[], goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        let measures = prepared(&task).measures;
        let bed = Bed { lengths: vec![(0, &wide), (1, &narrow)], measures, folded: false };
        let one = |source| cut_length(source, vec![placed(0, 1, (0, 0), (80 * CM, 60 * CM))]);
        let mut layout = Layout { cut_lengths: vec![one(0), one(1)], by_outline: false };
        bed.find_offcuts(&mut layout);
        let patch = |across_to: i64| Patch { from: 0, to: 80 * CM, across_from: 60 * CM, across_to: across_to * CM };
        assert_eq!(layout.cut_lengths[0].offcuts, [patch(100)]);
        assert_eq!(layout.cut_lengths[1].offcuts, [patch(70)]);
        let empty = bed.start();
        assert_eq!(empty.cut_lengths.iter().map(|one| one.source).collect::<Vec<_>>(), [0, 1]);
    }
}
