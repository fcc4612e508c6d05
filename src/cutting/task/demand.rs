//! Checks the list of pieces, converts it to whole nanometres and puts it in the order of placing: longest first.
//!
//! Never here: placing.

use crate::cutting::MOST_PIECES;
use crate::cutting::error::CuttingError;
use crate::cutting::nanometre::{LONGEST, down, is_sound, liked, up};
use crate::cutting::place::extent::{Extent, area, room};
use crate::cutting::place::outline::crosses_itself;
use crate::cutting::task::join::Joining;
use crate::cutting::task::manner::CuttingTask;
use crate::piece::Lie;
use crate::piece::{CutPiece, Goods, GoodsKind, Grain, Matching, Repeat, Shape};
use crate::quantity::{Length, Liked, number};
use std::collections::BTreeMap;

/// The goods in whole nanometres.
#[derive(Clone, Copy, Debug)]
pub(in crate::cutting) struct Measures {
    pub(in crate::cutting) width: i64,
    pub(in crate::cutting) width_likes: Liked,
    pub(in crate::cutting) loss: i64,
    /// Length cut off each end before anything else.
    pub(in crate::cutting) squaring: i64,
    /// Length before the first mark in which the first start on the pattern is looked for, on a length with a matched
    /// piece: one repeat, or zero if none is matched.
    pub(in crate::cutting) lead: i64,
    repeat: Option<i64>,
}

impl Measures {
    /// Checks the goods and the squaring.
    pub(in crate::cutting) fn of(task: &CuttingTask<'_>) -> Result<Self, CuttingError> {
        let goods = task.goods;
        let bad = |what: &str, size| CuttingError::BadSize { what: what.to_owned(), size };
        let width = up(goods.width.steps()).filter(is_sound);
        let loss = down(goods.loss_per_cut.steps()).filter(|loss| *loss == 0 || is_sound(loss));
        let squaring = task.manner.squaring;
        let squared = down(squaring.steps()).filter(|squared| *squared == 0 || is_sound(squared));
        let repeat = match goods.repeat {
            Some(Repeat { along, .. }) => {
                Some(number::nearest_whole(along.steps()).filter(is_sound).ok_or_else(|| bad("the repeat", along))?)
            }
            None => None,
        };
        if let Some(Repeat { shift, .. }) = goods.repeat
            && !(shift.steps() >= 0.0 && shift.steps().is_finite())
        {
            return Err(bad("the shift of the pattern", shift));
        }
        let is_matched = task.pieces.iter().any(|piece| piece.matching.is_some() && piece.count > 0);
        Ok(Self {
            width: width.ok_or_else(|| bad("the width of the goods", goods.width))?,
            width_likes: liked(goods.width),
            loss: loss.ok_or_else(|| bad("the loss per cut", goods.loss_per_cut))?,
            squaring: squared.ok_or_else(|| bad("what is squared off each end", squaring))?,
            lead: repeat.filter(|_| is_matched).unwrap_or(0),
            repeat,
        })
    }

    /// Whether the goods have a pattern that repeats.
    pub(in crate::cutting) fn has_pattern(&self) -> bool {
        self.repeat.is_some()
    }

    /// What a length loses at its two ends, which are squared before anything is placed on it.
    pub(in crate::cutting) fn lost_at_ends(&self) -> i64 {
        2 * self.squaring
    }
}

/// Where along the goods a piece may start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) enum Start {
    Anywhere,
    /// At `first`, and at every `repeat` after it.
    Pattern {
        first: i64,
        repeat: i64,
    },
}

impl Start {
    /// Whether it is tied to the pattern of the goods.
    pub(in crate::cutting) fn is_on_pattern(self) -> bool {
        matches!(self, Self::Pattern { .. })
    }

    /// The first start at or after a mark.
    pub(in crate::cutting) fn from(self, mark: i64) -> i64 {
        match self {
            Self::Anywhere => mark,
            Self::Pattern { first, repeat } => mark + (first - mark).rem_euclid(repeat),
        }
    }
}

/// Pieces of one entry that are placed alike.
#[derive(Clone, Debug)]
pub(in crate::cutting) struct Group<'a> {
    pub(in crate::cutting) entry: usize,
    pub(in crate::cutting) piece: &'a CutPiece,
    /// Numbers of the entry's pieces, from one, in order.
    pub(in crate::cutting) numbers: Vec<i64>,
    /// The ways it may lie, the one that takes less length first.
    pub(in crate::cutting) choices: Vec<(Lie, Extent)>,
    pub(in crate::cutting) start: Start,
    pub(in crate::cutting) full_width: bool,
    pub(in crate::cutting) joining: Option<Joining>,
    /// Whether only its grain keeps it from being turned a quarter.
    pub(in crate::cutting) may_ask_to_turn: bool,
}

impl Group<'_> {
    /// Whether its edges run along and across the goods, so that it can be divided straight.
    pub(in crate::cutting) fn is_straight(&self) -> bool {
        let straight = matches!(*self.piece.shape, Shape::Rectangle { .. } | Shape::FullWidth { .. });
        straight && self.piece.grain != Grain::Bias
    }

    /// Whether one of its pieces lies whole on a length of a width.
    pub(in crate::cutting) fn lies_whole_on(&self, length: i64, width: i64) -> bool {
        self.choices.iter().any(|(_, extent)| extent.along <= length && extent.across <= width)
    }
}

/// The pieces of a task in whole nanometres, checked. Which of them are planned on which lengths is asked for each time:
/// see [`Self::groups`].
#[derive(Debug)]
pub(in crate::cutting) struct Demand<'a> {
    entries: Vec<Entry<'a>>,
    width: i64,
}

/// The pieces of one entry.
#[derive(Debug)]
struct Entry<'a> {
    /// One group for all that start alike on the pattern.
    groups: Vec<Group<'a>>,
    /// Which of the groups each piece is in, by its number less one; empty if there is but one group.
    group_of: Vec<usize>,
}

impl<'a> Demand<'a> {
    /// Checks every piece, and the number of all.
    pub(in crate::cutting) fn of(task: &CuttingTask<'a>, measures: Measures) -> Result<Self, CuttingError> {
        let mut all = 0_i64;
        for piece in task.pieces {
            check(piece, task.goods.kind)?;
            all = all.saturating_add(piece.count);
            if all > MOST_PIECES {
                return Err(CuttingError::TooManyPieces { most: MOST_PIECES });
            }
        }
        let goods = task.goods;
        let mut entries = Vec::with_capacity(task.pieces.len());
        for (entry, piece) in task.pieces.iter().enumerate() {
            let full_width = piece.shape.is_full_width();
            let choices = choices(piece, goods, measures.width)?;
            let joining = piece.may_join.as_ref().map(|rule| Joining::of(rule, &piece.name)).transpose()?;
            let may_ask_to_turn =
                !full_width && !goods.napped && !piece.one_way && matches!(piece.grain, Grain::Along | Grain::Across);
            let (starts, group_of) = starts(piece, goods, measures);
            let group = |start| Group {
                entry,
                piece,
                numbers: Vec::new(),
                choices: choices.clone(),
                start,
                full_width,
                joining,
                may_ask_to_turn,
            };
            entries.push(Entry { groups: starts.into_iter().map(group).collect(), group_of });
        }
        Ok(Self { entries, width: measures.width })
    }

    fn all(&self) -> impl Iterator<Item = &Group<'a>> {
        self.entries.iter().flat_map(|entry| &entry.groups)
    }

    /// Whether a length holds at least one piece, or a part of one that may be joined.
    pub(in crate::cutting) fn fits(&self, length: i64, width: i64) -> bool {
        self.all().any(|group| group.joining.is_some() || group.lies_whole_on(length, width))
    }

    /// The shortest length that a matched piece, or a part of one, takes on goods of a width; `None` if none fits across.
    pub(in crate::cutting) fn shortest_matched(&self, width: i64) -> Option<i64> {
        let matched = self.all().filter(|group| group.start.is_on_pattern());
        let lengths = matched.filter_map(|group| {
            let fitting = group.choices.iter().filter(|(_, extent)| extent.across <= width);
            if group.joining.is_some() { Some(0) } else { fitting.map(|(_, extent)| extent.along).min() }
        });
        lengths.min()
    }

    /// The requested pieces, longest first. `longest` is the longest length to cut from; `numbers` returns which pieces
    /// of an entry are requested.
    pub(in crate::cutting) fn groups(&self, longest: i64, numbers: &dyn Fn(usize) -> Vec<i64>) -> Vec<Group<'a>> {
        let mut groups: Vec<Group<'a>> = Vec::new();
        for (entry, requested) in self.entries.iter().enumerate() {
            for (place, numbers) in requested.sorted(numbers(entry)) {
                let Some(group) = requested.groups.get(place) else { continue };
                let mut group = Group { numbers, ..group.clone() };
                group.choices.sort_by_key(|(_, extent)| length_taken(group.piece, *extent, self.width, longest));
                groups.push(group);
            }
        }
        // Longest first; among equals those that start lower last, otherwise as listed.
        groups.sort_by_key(|group| {
            let along = group.choices.first().map_or(0, |(_, extent)| extent.along);
            let lower = matches!(group.start, Start::Pattern { first: 1.., .. });
            (std::cmp::Reverse(along), lower)
        });
        groups
    }
}

impl Entry<'_> {
    /// Some of its pieces by their group, the first group first, each with its numbers in order.
    fn sorted(&self, numbers: Vec<i64>) -> BTreeMap<usize, Vec<i64>> {
        let mut sorted: BTreeMap<usize, Vec<i64>> = BTreeMap::new();
        if self.group_of.is_empty() {
            sorted.insert(0, numbers);
        } else {
            for number in numbers {
                if let Some(place) = number::count(number - 1).and_then(|before| self.group_of.get(before)) {
                    sorted.entry(*place).or_default().push(number);
                }
            }
        }
        sorted.retain(|_, numbers| !numbers.is_empty());
        sorted
    }
}

/// The starts that the pieces of an entry have on the pattern, and which of them each piece has, by its number less one;
/// the second list is empty if all start alike.
fn starts(piece: &CutPiece, goods: &Goods, measures: Measures) -> (Vec<Start>, Vec<usize>) {
    let (Some(matching), Some(repeat), Some(every)) = (&piece.matching, &goods.repeat, measures.repeat) else {
        return (vec![Start::Anywhere], Vec::new());
    };
    let first = |number: i64| number::nearest_whole(repeat.phase(matching.shifts(number)).steps()).unwrap_or(0) % every;
    // A piece that lies among others on the width is joined to none of them.
    if *matching == Matching::Level || repeat.is_straight() || !piece.shape.is_full_width() {
        return (vec![Start::Pattern { first: 0, repeat: every }], Vec::new());
    }
    let firsts: Vec<i64> = (1..=piece.count).map(first).collect();
    let mut starts = firsts.clone();
    starts.sort_unstable();
    starts.dedup();
    let group_of = firsts.iter().map(|first| starts.partition_point(|start| start < first)).collect();
    (starts.into_iter().map(|first| Start::Pattern { first, repeat: every }).collect(), group_of)
}

fn check(piece: &CutPiece, kind: GoodsKind) -> Result<(), CuttingError> {
    let name = || piece.name.clone();
    if piece.count < 0 {
        return Err(CuttingError::NegativeCount { what: name(), count: piece.count });
    }
    if piece.mirrored && piece.count % 2 != 0 {
        return Err(CuttingError::OddPairs { piece: name(), count: piece.count });
    }
    let positive = |size: Length| match down(size.steps()).filter(is_sound) {
        Some(_) => Ok(()),
        None => Err(CuttingError::BadSize { what: name(), size }),
    };
    match &*piece.shape {
        Shape::Rectangle { along, across } => {
            positive(*along)?;
            positive(*across)?;
        }
        Shape::FullWidth { along } => {
            positive(*along)?;
            if matches!(piece.grain, Grain::Across | Grain::Bias) {
                return Err(CuttingError::FullWidthTurned { piece: name() });
            }
        }
        Shape::Sector { inner, outer, turn } => {
            positive(*outer)?;
            let ring = inner.steps() >= 0.0 && inner.steps() < outer.steps();
            // NaN fails this test too.
            if !(ring && *turn > 0.0 && *turn <= 1.0) {
                return Err(CuttingError::NoShape { piece: name() });
            }
        }
        Shape::Outline(points) => {
            let sound = points.iter().flat_map(|point| [point.along, point.across]);
            if let Some(size) =
                sound.into_iter().find(|place| down(place.steps()).is_none_or(|place| place.abs() > LONGEST))
            {
                return Err(CuttingError::BadSize { what: name(), size });
            }
            if points.len() < 3 || area(&piece.shape, 0) < 1.0 || crosses_itself(points) {
                return Err(CuttingError::NoShape { piece: name() });
            }
        }
    }
    if kind.takes_full_width() && !piece.shape.is_full_width() {
        return Err(CuttingError::NotOffARoll { piece: name() });
    }
    Ok(())
}

/// The ways its grain allows it to lie.
fn choices(piece: &CutPiece, goods: &Goods, width: i64) -> Result<Vec<(Lie, Extent)>, CuttingError> {
    let whole = piece.shape.is_full_width();
    let lies: &[Lie] = match piece.grain {
        Grain::Any if whole || goods.napped || piece.one_way => &[Lie::Along],
        Grain::Along => &[Lie::Along],
        Grain::Across => &[Lie::Across],
        Grain::Bias => &[Lie::Bias],
        Grain::Any => &[Lie::Along, Lie::Across],
    };
    let extent = |lie: &Lie| Some((*lie, room(piece, *lie, width)?));
    let choices: Option<Vec<_>> = lies.iter().map(extent).collect();
    choices.ok_or_else(|| CuttingError::NoShape { piece: piece.name.clone() })
}

/// The length that all pieces of an entry take in rows of one extent.
fn length_taken(piece: &CutPiece, extent: Extent, width: i64, longest: i64) -> i128 {
    let side_by_side = width / extent.across;
    if side_by_side == 0 || extent.along > longest {
        return i128::MAX;
    }
    let rows = piece.count.div_euclid(side_by_side) + i64::from(piece.count % side_by_side > 0);
    i128::from(rows) * i128::from(extent.along)
}
