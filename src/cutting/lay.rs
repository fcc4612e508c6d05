//! The plain planner: rows straight across the goods, each piece in the first place that takes it.
//!
//! Pieces come longest first, so each row is as long as its first piece and later ones lie beside it.
//! A full width is a row by itself; roll goods are rows of nothing else.
//!
//! Never here: judging the plan; the verifier does that and shares nothing with this.

use super::MOST_PIECES;
use super::demand::{Group, Measures, Start};
use super::extent::Extent;
use super::fault::CuttingFault;
use super::first_fit::FirstFit;
use super::nanometre::{MOST_LAID, length};
use super::plan::{JoinedPart, Lie};
use super::source::Source;
use crate::quantity::{Liked, number};
use std::sync::atomic::{AtomicBool, Ordering};

/// What the planner has laid so far.
#[derive(Debug)]
pub(super) struct Lay<'a> {
    pub(super) sources: Vec<Source>,
    pub(super) taken: Vec<Taken>,
    pub(super) rows: Vec<Row>,
    /// Joins by entry of the list.
    pub(super) joins: Vec<i64>,
    room_across: FirstFit,
    pub(super) width_likes: Liked,
    pub(super) loss: i64,
    laid: i64,
    cuts: i64,
    stop: &'a AtomicBool,
}

/// A length that is being cut.
#[derive(Debug)]
pub(super) struct Taken {
    /// Where the next row may start.
    next: i64,
    /// Where the last row ends.
    pub(super) end: i64,
    pub(super) placed: Vec<Placed>,
    pub(super) rows: Vec<usize>,
}

/// Pieces side by side between two straight cuts.
#[derive(Debug)]
pub(super) struct Row {
    taken: usize,
    pub(super) from: i64,
    pub(super) along: i64,
    /// How much of the width is taken.
    pub(super) across: i64,
    pub(super) width: i64,
}

/// A piece or part in its place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    pub(super) entry: usize,
    pub(super) number: i64,
    pub(super) part: Option<JoinedPart>,
    pub(super) lie: Lie,
    pub(super) from: i64,
    pub(super) across_from: i64,
    pub(super) extent: Extent,
}

/// The direction in which a piece is joined.
#[derive(Clone, Copy)]
enum Joined {
    Along,
    Across,
}

impl<'a> Lay<'a> {
    /// Nothing laid yet.
    pub(super) fn new(sources: Vec<Source>, measures: Measures, entries: usize, stop: &'a AtomicBool) -> Self {
        Self {
            sources,
            taken: Vec::new(),
            rows: Vec::new(),
            joins: vec![0; entries],
            room_across: FirstFit::new(),
            width_likes: measures.width_likes,
            loss: measures.loss,
            laid: 0,
            cuts: 0,
            stop,
        }
    }

    /// Places every piece of a group.
    pub(super) fn place_all(&mut self, group: &Group<'_>) -> Result<(), CuttingFault> {
        for number in group.numbers.clone() {
            if !self.place(group, number, None, &group.choices)? {
                self.place_joined(group, number)?;
            }
        }
        Ok(())
    }

    /// Places one piece or part where it first fits; says whether it fits anywhere.
    fn place(
        &mut self,
        group: &Group<'_>,
        number: i64,
        part: Option<JoinedPart>,
        choices: &[(Lie, Extent)],
    ) -> Result<bool, CuttingFault> {
        if self.stop.load(Ordering::Relaxed) {
            return Err(CuttingFault::Stopped);
        }
        let found = self.beside(group, choices).or_else(|| self.new_row(group.start, choices));
        let Some((row, (lie, extent))) = found else { return Ok(false) };
        self.cuts += 1;
        if self.cuts > MOST_PIECES {
            return Err(CuttingFault::TooManyPieces { most: MOST_PIECES });
        }
        if self.laid > MOST_LAID {
            return Err(CuttingFault::TooMuchLength);
        }
        let Some(place) = self.rows.get_mut(row) else { return Ok(false) };
        let (from, across_from) = (place.from, place.across);
        place.across += extent.across;
        self.room_across.set(row, place.width - place.across);
        if let Some(taken) = self.taken.get_mut(place.taken) {
            taken.placed.push(Placed { entry: group.entry, number, part, lie, from, across_from, extent });
        }
        Ok(true)
    }

    /// The first row with room beside what lies there.
    fn beside(&self, group: &Group<'_>, choices: &[(Lie, Extent)]) -> Option<(usize, (Lie, Extent))> {
        if group.full_width {
            return None;
        }
        choices.iter().find_map(|(lie, extent)| {
            let mut start = 0;
            while let Some(place) = self.room_across.first(start, extent.across) {
                let row = self.rows.get(place)?;
                if extent.along <= row.along && group.start.from(row.from) == row.from {
                    return Some((place, (*lie, *extent)));
                }
                if self.stop.load(Ordering::Relaxed) {
                    return None;
                }
                start = place + 1;
            }
            None
        })
    }

    /// A new row on the first length with room for it, one already taken up before an untouched one.
    fn new_row(&mut self, start: Start, choices: &[(Lie, Extent)]) -> Option<(usize, (Lie, Extent))> {
        for source in 0..self.sources.len() {
            for (lie, extent) in choices {
                if let Some((taken, from)) = self.room_on(source, start, *extent) {
                    return Some((self.open_row(source, taken, from, extent.along)?, (*lie, *extent)));
                }
            }
        }
        None
    }

    /// Which length of a source has room for a row, and from which mark.
    fn room_on(&mut self, source: usize, start: Start, extent: Extent) -> Option<(usize, i64)> {
        let source = self.sources.get_mut(source).filter(|source| extent.across <= source.width)?;
        let mut first = 0;
        while let Some(place) = source.rooms.first(first, extent.along) {
            let from = start.from(self.taken.get(*source.taken.get(place)?)?.next);
            if from + extent.along <= source.length {
                return Some((place, from));
            }
            first = place + 1;
        }
        let from = start.from(0);
        if source.left == Some(0) || from + extent.along > source.length {
            return None;
        }
        source.left = source.left.map(|left| left - 1);
        source.taken.push(self.taken.len());
        self.taken.push(Taken { next: 0, end: 0, placed: Vec::new(), rows: Vec::new() });
        Some((source.rooms.push(source.length), from))
    }

    fn open_row(&mut self, source: usize, place: usize, from: i64, along: i64) -> Option<usize> {
        let source = self.sources.get_mut(source)?;
        let index = *source.taken.get(place)?;
        let taken = self.taken.get_mut(index)?;
        self.laid += from + along - taken.end;
        taken.end = from + along;
        taken.next = taken.end + self.loss;
        source.rooms.set(place, source.length - taken.next);
        let row = self.room_across.push(source.width);
        taken.rows.push(row);
        self.rows.push(Row { taken: index, from, along, across: 0, width: source.width });
        Some(row)
    }

    /// Places a piece that fits nowhere whole as parts, or says why not.
    fn place_joined(&mut self, group: &Group<'_>, number: i64) -> Result<(), CuttingFault> {
        let (Some(joining), Some((longest, widest))) = (group.joining, self.untouched()) else {
            return Err(self.no_room(group, number));
        };
        // A pattern may not begin at the start of a length.
        let longest = longest - group.start.from(0);
        let mut refused = None;
        let mut best: Option<(Lie, Extent, Joined, Vec<i64>)> = None;
        for (lie, extent) in &group.choices {
            let parts = match (extent.along <= longest, extent.across <= widest) {
                (true, false) => joining.parts(extent.across, widest, group.piece).map(|parts| (Joined::Across, parts)),
                (false, true) => joining.parts(extent.along, longest, group.piece).map(|parts| (Joined::Along, parts)),
                _ => Err(self.no_room(group, number)),
            };
            match parts {
                Ok((joined, parts)) if best.as_ref().is_none_or(|(.., best)| parts.len() < best.len()) => {
                    best = Some((*lie, *extent, joined, parts));
                }
                Ok(_) => {}
                Err(fault) => refused = refused.or(Some(fault)),
            }
        }
        let can_join = group.is_straight();
        let Some((lie, extent, joined, parts)) = best.filter(|_| can_join) else {
            return Err(refused.filter(|_| can_join).unwrap_or_else(|| self.no_room(group, number)));
        };
        let of = number::from_size(parts.len());
        for (part, size) in (1..).zip(parts) {
            let extent = match joined {
                Joined::Along => Extent { along: size, ..extent },
                Joined::Across => Extent { across: size, ..extent },
            };
            if !self.place(group, number, Some(JoinedPart { number: part, of }), &[(lie, extent)])? {
                return Err(self.no_room(group, number));
            }
        }
        if let Some(joins) = self.joins.get_mut(group.entry) {
            *joins += of - 1;
        }
        Ok(())
    }

    /// The longest and the widest of what is still untouched.
    fn untouched(&self) -> Option<(i64, i64)> {
        let more = || self.sources.iter().filter(|source| source.has_more());
        Some((more().map(|source| source.length).max()?, more().map(|source| source.width).max()?))
    }

    /// Why a piece fits nowhere.
    fn no_room(&self, group: &Group<'_>, number: i64) -> CuttingFault {
        let piece = group.piece.name.clone();
        let missing = group.numbers.end() - number + 1;
        let widest = self.sources.iter().max_by_key(|source| source.width);
        let longest = self.sources.iter().max_by_key(|source| source.length);
        let (Some(widest), Some(longest)) = (widest, longest) else {
            return CuttingFault::NotEnough { piece, missing };
        };
        let likes = super::demand::likes(group.piece);
        let narrowest = group.choices.iter().map(|(_, extent)| extent).min_by_key(|extent| extent.across);
        let shortest = group.choices.iter().map(|(_, extent)| extent).min_by_key(|extent| extent.along);
        match (narrowest, shortest) {
            (Some(extent), _) if extent.across > widest.width => CuttingFault::TooWide {
                piece,
                across: length(extent.across, likes),
                usable: length(widest.width, self.width_likes),
                fits_turned: group.choices.len() == 1 && !group.full_width && extent.along <= widest.width,
            },
            (_, Some(extent)) if group.start.from(0) + extent.along > longest.length => {
                if longest.as_needed {
                    return CuttingFault::TooMuchLength;
                }
                CuttingFault::TooLong {
                    piece,
                    along: length(extent.along, likes),
                    longest: length(longest.length, longest.liked.unwrap_or(likes)),
                }
            }
            _ if self.sources.iter().any(|source| source.as_needed) => CuttingFault::TooMuchLength,
            _ => CuttingFault::NotEnough { piece, missing },
        }
    }
}
