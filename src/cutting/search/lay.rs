//! The basic planner: rows straight across the goods, each piece in the first place that takes it.
//!
//! Pieces come longest first, so each row is as long as its first piece and later ones lie beside it. A full width is a
//! row by itself; roll goods have no other rows.
//!
//! Never here: judging the plan; the verifier does that and shares no code with this.

use crate::cutting::MOST_PIECES;
use crate::cutting::error::CuttingError;
use crate::cutting::nanometre::{MOST_LAID, length};
use crate::cutting::place::extent::Extent;
use crate::cutting::place::layout::{CutLength, Layout, Patch, Placed};
use crate::cutting::plan::JoinedPart;
use crate::cutting::search::first_fit::RoomTree;
use crate::cutting::task::demand::{Group, Measures, Start};
use crate::cutting::task::source::Source;
use crate::piece::{Layers, Lie};
use crate::quantity::{Liked, number};
use std::sync::atomic::{AtomicBool, Ordering};

/// What the planner has laid so far.
#[derive(Debug)]
pub(in crate::cutting) struct Lay<'a> {
    sources: &'a [Source],
    supplies: Vec<Taking>,
    taken: Vec<Open>,
    rows: Vec<Row>,
    room_across: RoomTree,
    width_likes: Liked,
    loss: i64,
    laid: i64,
    cuts: i64,
    stop: &'a AtomicBool,
}

/// How much of a source is used.
#[derive(Debug)]
struct Taking {
    /// Number of untouched lengths; `None` if there is no limit.
    left: Option<i64>,
    /// Indices of the lengths used in `Lay::taken`; `rooms` holds the room left on each.
    taken: Vec<usize>,
    rooms: RoomTree,
}

/// A length that is being cut.
#[derive(Debug)]
struct Open {
    source: usize,
    /// Where the next row may start.
    next: i64,
    /// Where the last row ends.
    end: i64,
    placed: Vec<Placed>,
    rows: Vec<usize>,
}

/// Pieces side by side between two straight cuts.
#[derive(Debug)]
struct Row {
    taken: usize,
    from: i64,
    along: i64,
    /// How much of the width is taken.
    across: i64,
    width: i64,
}

/// The direction in which a piece is joined.
#[derive(Clone, Copy)]
enum Joined {
    Along,
    Across,
}

impl<'a> Lay<'a> {
    pub(in crate::cutting) fn new(sources: &'a [Source], measures: Measures, stop: &'a AtomicBool) -> Self {
        let untouched = |source: &Source| Taking { left: source.most, taken: Vec::new(), rooms: RoomTree::new() };
        Self {
            sources,
            supplies: sources.iter().map(untouched).collect(),
            taken: Vec::new(),
            rows: Vec::new(),
            room_across: RoomTree::new(),
            width_likes: measures.width_likes,
            loss: measures.loss,
            laid: 0,
            cuts: 0,
            stop,
        }
    }

    /// Returns the layout, source by source.
    pub(in crate::cutting) fn finish(mut self) -> Layout {
        let rows = &self.rows;
        let offcuts = |open: &Open| {
            let rows = open.rows.iter().filter_map(|row| rows.get(*row)).filter(|row| row.across < row.width);
            let patch = |row: &Row| Patch {
                from: row.from,
                to: row.from + row.along,
                across_from: row.across,
                across_to: row.width,
            };
            rows.map(patch).collect()
        };
        // Stable: the lengths of a source stay in the order of their first use.
        self.taken.sort_by_key(|open| open.source);
        let cut_lengths = self.taken.iter().map(|open| CutLength {
            placed: open.placed.clone(),
            end: open.end,
            offcuts: offcuts(open),
            ..CutLength::of(open.source)
        });
        Layout { cut_lengths: cut_lengths.collect(), by_outline: false }
    }

    /// Places every piece of a group.
    pub(in crate::cutting) fn place_all(&mut self, group: &Group<'_>) -> Result<(), CuttingError> {
        for (place, number) in group.numbers.iter().enumerate() {
            if !self.place(group, *number, None, &group.choices)? {
                self.place_joined(group, *number, place)?;
            }
        }
        Ok(())
    }

    /// Places one piece or part where it first fits; returns whether it fits anywhere.
    fn place(
        &mut self,
        group: &Group<'_>,
        number: i64,
        part: Option<JoinedPart>,
        choices: &[(Lie, Extent)],
    ) -> Result<bool, CuttingError> {
        if self.stop.load(Ordering::Relaxed) {
            return Err(CuttingError::Stopped);
        }
        let found = self.row_with_room(group, choices).or_else(|| self.new_row(group.start, choices));
        let Some((row, (lie, extent))) = found else { return Ok(false) };
        self.cuts += 1;
        if self.cuts > MOST_PIECES {
            return Err(CuttingError::TooManyPieces { most: MOST_PIECES });
        }
        if self.laid > MOST_LAID {
            return Err(CuttingError::TooMuchLength);
        }
        let Some(place) = self.rows.get_mut(row) else { return Ok(false) };
        let (from, across_from) = (place.from, place.across);
        place.across += extent.across;
        self.room_across.set(row, place.width - place.across);
        if let Some(taken) = self.taken.get_mut(place.taken) {
            let (entry, reversed, through) = (group.entry, false, Layers::One);
            taken.placed.push(Placed { entry, number, part, lie, reversed, through, from, across_from, extent });
        }
        Ok(true)
    }

    /// The first row with room beside its pieces.
    fn row_with_room(&self, group: &Group<'_>, choices: &[(Lie, Extent)]) -> Option<(usize, (Lie, Extent))> {
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

    /// Opens a row on the first length with room for it; of one source, a length in use comes before an untouched one.
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

    /// Which length of a source has room for a row, and the mark where the row starts.
    fn room_on(&mut self, place: usize, start: Start, extent: Extent) -> Option<(usize, i64)> {
        let source = self.sources.get(place).filter(|source| extent.across <= source.width)?;
        let supply = self.supplies.get_mut(place)?;
        let mut first = 0;
        while let Some(place) = supply.rooms.first(first, extent.along) {
            let from = start.from(self.taken.get(*supply.taken.get(place)?)?.next);
            if from + extent.along <= source.length {
                return Some((place, from));
            }
            first = place + 1;
        }
        let from = start.from(0);
        if supply.left == Some(0) || from + extent.along > source.length {
            return None;
        }
        supply.left = supply.left.map(|left| left - 1);
        supply.taken.push(self.taken.len());
        self.taken.push(Open { source: place, next: 0, end: 0, placed: Vec::new(), rows: Vec::new() });
        Some((supply.rooms.push(source.length), from))
    }

    fn open_row(&mut self, source: usize, place: usize, from: i64, along: i64) -> Option<usize> {
        let (source, supply) = (self.sources.get(source)?, self.supplies.get_mut(source)?);
        let index = *supply.taken.get(place)?;
        let taken = self.taken.get_mut(index)?;
        self.laid += from + along - taken.end;
        taken.end = from + along;
        taken.next = taken.end + self.loss;
        supply.rooms.set(place, source.length - taken.next);
        let row = self.room_across.push(source.width);
        taken.rows.push(row);
        self.rows.push(Row { taken: index, from, along, across: 0, width: source.width });
        Some(row)
    }

    /// Each source, with the longest stretch it still has.
    fn rooms(&self) -> impl Iterator<Item = (&Source, i64)> {
        self.sources.iter().zip(&self.supplies).map(|(source, supply)| {
            (source, if supply.left == Some(0) { supply.rooms.largest() } else { source.length })
        })
    }

    /// Places a piece that fits nowhere whole in parts.
    fn place_joined(&mut self, group: &Group<'_>, number: i64, place: usize) -> Result<(), CuttingError> {
        let (lie, extent, joined, parts) = self.division(group, place)?;
        let of = number::from_size(parts.len());
        for (part, size) in (1..).zip(parts) {
            let extent = match joined {
                Joined::Along => Extent { along: size, ..extent },
                Joined::Across => Extent { across: size, ..extent },
            };
            if !self.place(group, number, Some(JoinedPart { number: part, of }), &[(lie, extent)])? {
                return Err(self.no_room(group, place));
            }
        }
        Ok(())
    }

    /// Divides a piece into the fewest parts: across the widest length that is long enough, or along the longest that
    /// is wide enough.
    fn division(&self, group: &Group<'_>, place: usize) -> Result<(Lie, Extent, Joined, Vec<i64>), CuttingError> {
        let Some(joining) = group.joining.filter(|_| group.is_straight()) else {
            return Err(self.no_room(group, place));
        };
        let (mut best, mut refused) = (None, None);
        let mut fewest = usize::MAX;
        for (lie, extent) in &group.choices {
            let open = || self.rooms().map(|(source, room)| (room, source.width));
            let width = open().filter(|(room, _)| *room >= extent.along).map(|(_, width)| width).max();
            let room = open().filter(|(_, width)| *width >= extent.across).map(|(room, _)| room).max();
            // The pattern may not begin at the start of a length.
            let room = room.map(|room| room - group.start.from(0)).filter(|room| *room > 0);
            // A full-width piece has both selvedges; parts of narrower lengths do not make it up.
            let across = width.filter(|_| !group.full_width).map(|width| (Joined::Across, extent.across, width));
            let along = room.map(|room| (Joined::Along, extent.along, room));
            for (joined, size, room) in across.into_iter().chain(along) {
                match joining.parts(size, room, group.piece) {
                    // A single part is the whole piece, which has found no place.
                    Ok(parts) if (2..fewest).contains(&parts.len()) => {
                        fewest = parts.len();
                        best = Some((*lie, *extent, joined, parts));
                    }
                    Ok(_) => {}
                    Err(error) => refused = refused.or(Some(error)),
                }
            }
        }
        best.ok_or_else(|| match self.no_room(group, place) {
            // The piece would fit whole if there were more stock: report that, not why it cannot be divided.
            enough @ CuttingError::NotEnough { .. } => enough,
            other => refused.unwrap_or(other),
        })
    }

    /// Why the piece at this index of its group fits nowhere.
    fn no_room(&self, group: &Group<'_>, place: usize) -> CuttingError {
        let piece = group.piece.name.clone();
        let missing = number::from_size(group.numbers.len() - place);
        let widest = self.sources.iter().max_by_key(|source| source.width);
        let longest = self.sources.iter().max_by_key(|source| source.length);
        let (Some(widest), Some(longest)) = (widest, longest) else {
            return CuttingError::NotEnough { piece, missing };
        };
        let likes = crate::cutting::nanometre::likes(group.piece);
        let narrowest = group.choices.iter().map(|(_, extent)| extent).min_by_key(|extent| extent.across);
        let shortest = group.choices.iter().map(|(_, extent)| extent).min_by_key(|extent| extent.along);
        match (narrowest, shortest) {
            (Some(extent), _) if extent.across > widest.width => CuttingError::TooWide {
                piece,
                across: length(extent.across, likes),
                usable: length(widest.width, self.width_likes),
                fits_turned: group.may_ask_to_turn && extent.along <= widest.width,
            },
            (_, Some(extent)) if group.start.from(0) + extent.along > longest.length => {
                if longest.as_needed {
                    return CuttingError::TooMuchLength;
                }
                CuttingError::TooLong {
                    piece,
                    along: length(extent.along, likes),
                    longest: length(longest.length, longest.liked.unwrap_or(likes)),
                }
            }
            _ if self.sources.iter().any(|source| source.as_needed) => CuttingError::TooMuchLength,
            _ => CuttingError::NotEnough { piece, missing },
        }
    }
}
