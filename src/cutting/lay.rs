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
        let (lie, extent, joined, parts) = self.division(group, number)?;
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

    /// The division of a piece into the fewest parts: across the widest length that is long enough, or
    /// along the longest that is wide enough.
    fn division(&self, group: &Group<'_>, number: i64) -> Result<(Lie, Extent, Joined, Vec<i64>), CuttingFault> {
        let Some(joining) = group.joining.filter(|_| group.is_straight()) else {
            return Err(self.no_room(group, number));
        };
        let (mut best, mut refused) = (None, None);
        let mut fewest = usize::MAX;
        for (lie, extent) in &group.choices {
            let open = || self.sources.iter().map(|source| (source.room(), source.width));
            let width = open().filter(|(room, _)| *room >= extent.along).map(|(_, width)| width).max();
            let room = open().filter(|(_, width)| *width >= extent.across).map(|(room, _)| room).max();
            // A pattern may not begin at the start of a length.
            let room = room.map(|room| room - group.start.from(0)).filter(|room| *room > 0);
            // What is cut over the full width has its selvedges; narrower lengths do not make it up.
            let across = width.filter(|_| !group.full_width).map(|width| (Joined::Across, extent.across, width));
            let along = room.map(|room| (Joined::Along, extent.along, room));
            for (joined, size, room) in across.into_iter().chain(along) {
                match joining.parts(size, room, group.piece) {
                    // One part would be the whole piece, and that has found no place.
                    Ok(parts) if (2..fewest).contains(&parts.len()) => {
                        fewest = parts.len();
                        best = Some((*lie, *extent, joined, parts));
                    }
                    Ok(_) => {}
                    Err(fault) => refused = refused.or(Some(fault)),
                }
            }
        }
        best.ok_or_else(|| match self.no_room(group, number) {
            // It would fit whole, were there more: that is the thing to say, not what its rest would need.
            enough @ CuttingFault::NotEnough { .. } => enough,
            other => refused.unwrap_or(other),
        })
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
                fits_turned: group.may_ask_to_turn && extent.along <= widest.width,
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
