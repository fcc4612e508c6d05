//! Cuts that stay where an earlier plan had them: which pieces they are, and what is left of their lengths.
//!
//! Behind its last pinned cut a length is planned anew; the space beside pinned cuts stays empty.
//!
//! Never here: planning the rest.

use crate::cutting::nanometre::{down, up};
use crate::cutting::place::layout::{CutLength, Layout, Placed};
use crate::cutting::task::demand::{Group, Measures, Start};
use crate::cutting::task::manner::{CuttingTask, Laid, PinnedCut};
use crate::cutting::task::source::Source;
use crate::piece::{Layers, Lie};
use std::collections::{BTreeMap, BTreeSet};

/// The pinned cuts that can stay, and the pieces that cannot.
#[derive(Debug, Default)]
pub(in crate::cutting) struct Pins {
    /// The lengths they lie on, each with its number within its source.
    pub(in crate::cutting) fixed: Vec<CutLength>,
    /// Numbers of the pieces already placed, by entry.
    pub(in crate::cutting) placed: BTreeMap<usize, BTreeSet<i64>>,
    pub(in crate::cutting) dropped: BTreeSet<String>,
}

impl Pins {
    /// Finds the pinned cuts of the task on these sources; `groups` holds all its pieces.
    pub(in crate::cutting) fn of(task: &CuttingTask<'_>, sources: &[Source], groups: &[Group<'_>]) -> Self {
        let mut pins = Self::default();
        for pinned in &task.manner.pinned {
            if pins.hold(pinned, task, sources, groups).is_none() {
                pins.dropped.insert(pinned.piece.clone());
            }
        }
        for cut_length in &mut pins.fixed {
            cut_length.end = cut_length.placed.iter().map(|placed| placed.patch().to).max().unwrap_or(0);
        }
        pins
    }

    /// Drops every pinned piece.
    pub(in crate::cutting) fn none_of(task: &CuttingTask<'_>) -> Self {
        let named = |pinned: &PinnedCut| task.pieces.iter().any(|piece| piece.name == pinned.piece);
        let dropped = task.manner.pinned.iter().filter(|pinned| named(pinned)).map(|pinned| pinned.piece.clone());
        Self { dropped: dropped.collect(), ..Self::default() }
    }

    fn hold(
        &mut self,
        pinned: &PinnedCut,
        task: &CuttingTask<'_>,
        sources: &[Source],
        groups: &[Group<'_>],
    ) -> Option<()> {
        let marks = [pinned.from, pinned.to, pinned.across_from, pinned.across_to];
        let marks = marks.map(|mark| down(mark.steps()).filter(|down| up(mark.steps()) == Some(*down)));
        let [Some(from), Some(to), Some(across_from), Some(across_to)] = marks else { return None };
        let fits = |group: &&Group<'_>| {
            let piece = group.piece;
            let starts = match group.start {
                Start::Anywhere => true,
                start @ Start::Pattern { .. } => start.from(from) == from,
            };
            let size = group.choices.iter().any(|(lie, extent)| {
                *lie == pinned.lie && (extent.along, extent.across) == (to - from, across_to - across_from)
            });
            piece.name == pinned.piece && piece.order == pinned.order && starts && size
        };
        let lies = task.manner.laid == Laid::Folded || pinned.through == Layers::One;
        let (group, number) = groups.iter().filter(fits).filter(|_| lies).find_map(|group| {
            let mirrored = |number: &&i64| !group.piece.mirrored || (*number % 2 == 0) == pinned.mirrored;
            let taken = self.placed.get(&group.entry);
            let free = |number: &&i64| taken.is_none_or(|taken| !taken.contains(number));
            group.numbers.iter().filter(mirrored).find(free).map(|number| (group, *number))
        })?;
        let (_, extent) = *group.choices.iter().find(|(lie, _)| *lie == pinned.lie)?;
        let placed = Placed {
            entry: group.entry,
            number,
            part: None,
            lie: pinned.lie,
            reversed: pinned.reversed,
            through: pinned.through,
            from,
            across_from,
            extent,
        };
        self.place(&pinned.stock, placed, task.manner.laid == Laid::Folded, sources)?;
        self.placed.entry(group.entry).or_default().insert(number);
        Some(())
    }

    /// Places it on the first length of this name where no other pinned cut is in the way.
    fn place(&mut self, stock: &str, placed: Placed, folded: bool, sources: &[Source]) -> Option<()> {
        let patch = placed.patch();
        // Bounding boxes of pieces on the bias may overlap: for those the name alone decides.
        let clear = |cut_length: &CutLength| {
            cut_length.placed.iter().map(Placed::patch).all(|other| {
                patch.from >= other.to
                    || other.from >= patch.to
                    || patch.across_from >= other.across_to
                    || other.across_from >= patch.across_to
            })
        };
        for (place, source) in sources.iter().enumerate() {
            if patch.to > source.length || patch.across_to > source.width || patch.from < 0 || patch.across_from < 0 {
                continue;
            }
            for number in source.numbers_called(stock) {
                let known = self
                    .fixed
                    .iter_mut()
                    .find(|cut_length| cut_length.source == place && cut_length.number == Some(number));
                match known {
                    Some(cut_length) if clear(cut_length) || placed.lie == Lie::Bias => {
                        cut_length.placed.push(placed);
                        return Some(());
                    }
                    Some(_) => {}
                    None => {
                        let (number, placed) = (Some(number), vec![placed]);
                        self.fixed.push(CutLength { number, placed, folded, ..CutLength::of(place) });
                        return Some(());
                    }
                }
            }
        }
        None
    }

    /// The sources that the pinned cuts leave: those of the task with fewer of each, then the rest of each length that
    /// has pinned cuts.
    pub(in crate::cutting) fn rest_of(&self, sources: &[Source], measures: Measures) -> Vec<Source> {
        let mut rest = sources.to_vec();
        for cut_length in &self.fixed {
            let Some(source) = sources.get(cut_length.source) else { continue };
            let offset = offset(cut_length, measures);
            rest.push(Source {
                most: Some(1),
                length: (source.length - offset).max(0),
                opened_at: offset,
                ..source.clone()
            });
            if let Some(source) = rest.get_mut(cut_length.source) {
                source.most = source.most.map(|most| (most - 1).max(0));
            }
        }
        rest
    }

    /// The whole layout: the pinned cuts, and the layout of the rest.
    pub(in crate::cutting) fn joined_to(&self, rest: Layout, sources: usize, measures: Measures) -> Layout {
        let mut cut_lengths = self.fixed.clone();
        let by_outline = rest.by_outline;
        for mut more in rest.cut_lengths {
            let Some(fixed) = more.source.checked_sub(sources).and_then(|place| cut_lengths.get_mut(place)) else {
                cut_lengths.push(more);
                continue;
            };
            // Marks on the rest of a length count from behind its last pinned cut.
            let offset = offset(fixed, measures);
            for placed in &mut more.placed {
                placed.from += offset;
            }
            for patch in &mut more.offcuts {
                patch.from += offset;
                patch.to += offset;
            }
            fixed.end = more.end + offset;
            fixed.placed.append(&mut more.placed);
            fixed.offcuts.append(&mut more.offcuts);
        }
        Layout { cut_lengths, by_outline }
    }
}

/// Where a length is planned anew: behind its last pinned cut, and at a start of the pattern if there is one.
fn offset(cut_length: &CutLength, measures: Measures) -> i64 {
    let behind = cut_length.end + measures.loss;
    match measures.lead {
        0 => behind,
        repeat => (behind + repeat - 1).div_euclid(repeat) * repeat,
    }
}
