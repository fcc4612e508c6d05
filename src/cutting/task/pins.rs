//! Cuts that stay where an earlier plan had them: which pieces they are, and what is left of their lengths.
//!
//! Behind its last pinned cut a length is planned anew; the space beside pinned cuts stays empty.
//!
//! Never here: planning the rest.

use crate::cutting::nanometre::{down, up};
use crate::cutting::place::layout::{CutLength, Layout, Patch, Placed};
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
    /// For each of those, the mark within the first repeat where a piece without a shift may start; `None` if nothing on it
    /// is matched. Only differences between marks count: a length may begin anywhere on the pattern.
    origins: Vec<Option<i64>>,
    /// Numbers of the pieces already placed, by entry.
    pub(in crate::cutting) placed: BTreeMap<usize, BTreeSet<i64>>,
    pub(in crate::cutting) dropped: BTreeSet<String>,
}

impl Pins {
    /// Finds the pinned cuts of the task on these sources; `groups` holds all its pieces.
    pub(in crate::cutting) fn of(task: &CuttingTask<'_>, sources: &[Source], groups: &[Group<'_>]) -> Self {
        let mut pins = Self::default();
        let cuts: Vec<Option<Pinned<'_>>> =
            task.manner.pinned.iter().map(|pinned| Pinned::of(pinned, task, groups)).collect();
        let mut by_name: BTreeMap<&str, Vec<&Pinned<'_>>> = BTreeMap::new();
        for cut in cuts.iter().flatten() {
            by_name.entry(&cut.pinned.stock).or_default().push(cut);
        }
        for (pinned, cut) in task.manner.pinned.iter().zip(&cuts) {
            let others = by_name.get(pinned.stock.as_str()).map_or(&[][..], Vec::as_slice);
            if cut.as_ref().and_then(|cut| pins.hold(cut, others, task, sources)).is_none() {
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

    /// Holds a pinned cut on the first length of its name where no other is in the way and the pattern agrees. `others`
    /// are all pinned cuts on lengths of that name.
    fn hold(
        &mut self,
        cut: &Pinned<'_>,
        others: &[&Pinned<'_>],
        task: &CuttingTask<'_>,
        sources: &[Source],
    ) -> Option<()> {
        let patch = cut.patch;
        let folded = task.manner.laid == Laid::Folded;
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
            for number in source.numbers_called(&cut.pinned.stock) {
                let is_it = |length: &CutLength| length.source == place && length.number == Some(number);
                let at = self.fixed.iter().position(is_it);
                let known = at.and_then(|at| self.fixed.get(at));
                if known.is_some_and(|known| !clear(known) && cut.pinned.lie != Lie::Bias) {
                    continue;
                }
                let settled = at.and_then(|at| self.origins.get(at).copied().flatten());
                let origin = settled.or_else(|| cut.best_origin(others, &self.placed));
                let Some((group, number_of_piece)) = cut.piece(origin, &self.placed) else { continue };
                let placed = cut.placed(group, number_of_piece)?;
                let at = at.unwrap_or_else(|| {
                    self.fixed.push(CutLength { number: Some(number), folded, ..CutLength::of(place) });
                    self.origins.push(None);
                    self.fixed.len() - 1
                });
                self.fixed.get_mut(at)?.placed.push(placed);
                if group.start.is_on_pattern() {
                    *self.origins.get_mut(at)? = origin;
                }
                self.placed.entry(group.entry).or_default().insert(number_of_piece);
                return Some(());
            }
        }
        None
    }

    /// The sources that the pinned cuts leave: those of the task with fewer of each, then the rest of each length that
    /// has pinned cuts.
    pub(in crate::cutting) fn rest_of(&self, sources: &[Source], measures: Measures) -> Vec<Source> {
        let mut rest = sources.to_vec();
        for (cut_length, origin) in self.fixed.iter().zip(&self.origins) {
            let Some(source) = sources.get(cut_length.source) else { continue };
            let offset = offset(cut_length, *origin, measures);
            rest.push(Source {
                most: Some(1),
                length: (source.length - offset).max(0),
                opened_at: offset,
                settled: origin.is_some(),
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
            let place = more.source.checked_sub(sources);
            let Some(fixed) = place.and_then(|place| cut_lengths.get_mut(place)) else {
                cut_lengths.push(more);
                continue;
            };
            // Marks on the rest of a length count from behind its last pinned cut.
            let origin = place.and_then(|place| self.origins.get(place).copied().flatten());
            let offset = offset(fixed, origin, measures);
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

/// Where a length is planned anew: behind its last pinned cut, and where a piece without a shift may start if the pinned
/// cuts settle that.
fn offset(cut_length: &CutLength, origin: Option<i64>, measures: Measures) -> i64 {
    let behind = cut_length.end + measures.loss;
    match origin {
        Some(origin) if measures.lead > 0 => Start::Pattern { first: origin, repeat: measures.lead }.from(behind),
        _ => behind,
    }
}

/// The most pairs of a pinned cut and a group of pieces that are compared to find where a pattern starts; beyond it the
/// first start that serves one cut is taken.
const MOST_COMPARED: usize = 1_000_000;

/// A pinned cut that some pieces of the list fit.
struct Pinned<'g> {
    pinned: &'g PinnedCut,
    patch: Patch,
    /// The pieces of its name, order and size, wherever they start on the pattern.
    groups: Vec<&'g Group<'g>>,
}

impl<'g> Pinned<'g> {
    /// `None` if its marks are no whole nanometres, or nothing fits it.
    fn of(pinned: &'g PinnedCut, task: &CuttingTask<'_>, groups: &'g [Group<'g>]) -> Option<Self> {
        let marks = [pinned.from, pinned.to, pinned.across_from, pinned.across_to];
        let marks = marks.map(|mark| down(mark.steps()).filter(|down| up(mark.steps()) == Some(*down)));
        let [Some(from), Some(to), Some(across_from), Some(across_to)] = marks else { return None };
        let lies = task.manner.laid == Laid::Folded || pinned.through == Layers::One;
        let fits = |group: &&Group<'_>| {
            let piece = group.piece;
            let size = group.choices.iter().any(|(lie, extent)| {
                *lie == pinned.lie && (extent.along, extent.across) == (to - from, across_to - across_from)
            });
            lies && piece.name == pinned.piece && piece.order == pinned.order && size
        };
        let groups: Vec<&Group<'_>> = groups.iter().filter(fits).collect();
        let patch = Patch { from, to, across_from, across_to };
        (!groups.is_empty()).then_some(Self { pinned, patch, groups })
    }

    /// Whether a piece of a group may start at its mark, if the pattern starts at `origin`.
    fn starts(&self, group: &Group<'_>, origin: Option<i64>) -> bool {
        match (group.start, origin) {
            (Start::Anywhere, _) => true,
            (start, Some(origin)) => start.from(self.patch.from - origin) == self.patch.from - origin,
            (Start::Pattern { .. }, None) => false,
        }
    }

    /// The first piece that is free and may start there, with its group.
    fn piece(&self, origin: Option<i64>, taken: &BTreeMap<usize, BTreeSet<i64>>) -> Option<(&'g Group<'g>, i64)> {
        self.groups.iter().filter(|group| self.starts(group, origin)).find_map(|group| {
            let mirrored = |number: &&i64| !group.piece.mirrored || (*number % 2 == 0) == self.pinned.mirrored;
            let taken = taken.get(&group.entry);
            let free = |number: &&i64| taken.is_none_or(|taken| !taken.contains(number));
            group.numbers.iter().filter(mirrored).find(free).map(|number| (*group, *number))
        })
    }

    /// Where the pattern must start for the most of the pinned cuts on lengths of one name to stay; `None` if the piece is
    /// not on a pattern.
    fn best_origin(&self, others: &[&Pinned<'_>], taken: &BTreeMap<usize, BTreeSet<i64>>) -> Option<i64> {
        let mut origins: Vec<i64> = Vec::new();
        for group in &self.groups {
            if let Start::Pattern { first, repeat } = group.start {
                let origin = (self.patch.from - first).rem_euclid(repeat);
                if !origins.contains(&origin) {
                    origins.push(origin);
                }
            }
        }
        let pairs: usize = others.iter().map(|other| other.groups.len()).sum();
        if pairs.saturating_mul(origins.len()) > MOST_COMPARED {
            origins.truncate(1);
        }
        let stay = |origin: i64| {
            let mut taken = taken.clone();
            let stays = |other: &&&Pinned<'_>| match other.piece(Some(origin), &taken) {
                Some((group, number)) => taken.entry(group.entry).or_default().insert(number),
                None => false,
            };
            others.iter().filter(stays).count()
        };
        // Of equals the first.
        origins.into_iter().rev().max_by_key(|origin| stay(*origin))
    }

    fn placed(&self, group: &Group<'_>, number: i64) -> Option<Placed> {
        let (_, extent) = *group.choices.iter().find(|(lie, _)| *lie == self.pinned.lie)?;
        Some(Placed {
            entry: group.entry,
            number,
            part: None,
            lie: self.pinned.lie,
            reversed: self.pinned.reversed,
            through: self.pinned.through,
            from: self.patch.from,
            across_from: self.patch.across_from,
            extent,
        })
    }
}
