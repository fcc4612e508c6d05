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
