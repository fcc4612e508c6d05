//! The problem as the searches see it: equal rectangles as one kind, sizes in their greatest common unit.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::{Problem, Starts};
use crate::quantity::number;

/// More pieces than this are refused: a plan names every one of them.
const MOST_PIECES: i64 = 4_000_000;
/// Sums of lengths stay below this, so that no position overflows.
const LONGEST: i64 = 1 << 60;

/// Equal rectangles, however many entries of the problem they come from.
#[derive(Clone, Debug)]
pub(super) struct Kind {
    pub(super) count: usize,
    /// Which entries of the problem they come from, and how many from each.
    from: Vec<(usize, usize)>,
}

/// A kind in one of the ways it may lie.
#[derive(Clone, Debug)]
pub(super) struct Form {
    pub(super) kind: usize,
    pub(super) across: i64,
    pub(super) along: i64,
    pub(super) turned: bool,
    pub(super) at_edge: bool,
    pub(super) starts: Option<Starts>,
    pub(super) area: f64,
}

impl Form {
    /// The first position along, not before `from`, where it may begin.
    pub(super) fn start(&self, from: i64) -> i64 {
        match self.starts {
            None => from,
            Some(starts) if from <= starts.first => starts.first,
            Some(starts) => {
                let over = (from - starts.first) % starts.every;
                if over == 0 { from } else { from + (starts.every - over) }
            }
        }
    }

    /// Its area, exact.
    pub(super) fn size(&self) -> i128 {
        i128::from(self.across) * i128::from(self.along)
    }
}

/// A stretch of the given width, with its length where it has an end.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    pub(super) width: i64,
    pub(super) limit: Option<i64>,
}

/// One piece where it lies, in units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Put {
    pub(super) form: usize,
    pub(super) room: usize,
    pub(super) along: i64,
    pub(super) across: i64,
}

/// A plan in units: what is better has less area left out, then less of the endless room used.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) puts: Vec<Put>,
    pub(super) missing: i128,
    pub(super) length: i64,
}

impl Layout {
    /// Nothing can be better.
    pub(super) fn meets(&self, bound: i64) -> bool {
        self.missing == 0 && self.length <= bound
    }

    pub(super) fn is_better_than(&self, other: &Layout) -> bool {
        (self.missing, self.length).cmp(&(other.missing, other.length)) == Ordering::Less
    }
}

/// The problem in units.
#[derive(Clone, Debug)]
pub(super) struct Parts {
    pub(super) kinds: Vec<Kind>,
    pub(super) forms: Vec<Form>,
    pub(super) rooms: Vec<Room>,
    /// All pieces that fit somewhere.
    pub(super) pieces: usize,
    /// Entries of the problem that fit nowhere.
    pub(super) never: Vec<(usize, i64)>,
    unit_along: i64,
    unit_across: i64,
}

/// What makes rectangles equal.
type Likeness = (i64, i64, bool, bool, Option<(i64, i64)>);

impl Parts {
    /// The problem in units; none if it is no problem (sizes or counts below what makes sense, or beyond all bounds).
    pub(super) fn new(problem: &Problem) -> Option<Self> {
        let endless = problem.stretches.iter().filter(|stretch| stretch.length.is_none()).count();
        let last_endless = problem.stretches.last().is_some_and(|stretch| stretch.length.is_none());
        let sound = problem.stretches.iter().all(|stretch| stretch.width > 0 && stretch.length.is_none_or(|l| l > 0));
        if problem.stretches.is_empty() || !sound || endless > usize::from(last_endless) {
            return None;
        }
        let merged = merged(problem)?;
        let (unit_along, unit_across) = units(&merged);
        let rooms: Vec<Room> = problem
            .stretches
            .iter()
            .map(|stretch| Room {
                // All pieces in one line reach no further than LONGEST: more room than that is never needed.
                width: stretch.width.min(LONGEST) / unit_across,
                limit: stretch.length.map(|length| length.min(LONGEST) / unit_along),
            })
            .collect();
        let mut parts =
            Self { kinds: Vec::new(), forms: Vec::new(), rooms, pieces: 0, never: Vec::new(), unit_along, unit_across };
        for (likeness, from) in merged {
            parts.add(likeness, from);
        }
        parts.never.sort_unstable();
        Some(parts)
    }

    fn add(&mut self, (along, across, quarter, at_edge, starts): Likeness, from: Vec<(usize, usize)>) {
        let (along_units, across_units) = (along / self.unit_along, across / self.unit_across);
        let starts =
            starts.map(|(first, every)| Starts { first: first / self.unit_along, every: every / self.unit_along });
        let kind = self.kinds.len();
        let mut ways = vec![(across_units, along_units, false)];
        if quarter && along != across {
            // A turned piece needs both axes in one unit; `units` sees to it.
            ways.push((along_units, across_units, true));
        }
        let before = self.forms.len();
        for (across, along, turned) in ways {
            let area = number::from_whole(across) * number::from_whole(along);
            let form = Form { kind, across, along, turned, at_edge, starts, area };
            if self.rooms.iter().any(|room| fits(&form, *room)) {
                self.forms.push(form);
            }
        }
        if self.forms.len() == before {
            self.never.extend(from.iter().map(|&(entry, count)| (entry, number::from_size(count))));
            return;
        }
        let count = from.iter().map(|&(_, count)| count).sum();
        self.pieces += count;
        self.kinds.push(Kind { count, from });
    }

    /// The endless room, if there is one.
    pub(super) fn endless(&self) -> Option<usize> {
        let last = self.rooms.len().checked_sub(1)?;
        self.rooms[last].limit.is_none().then_some(last)
    }

    /// How many of each kind there are to place.
    pub(super) fn counts(&self) -> Vec<usize> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }

    /// Area of one piece of each kind.
    pub(super) fn sizes(&self) -> Vec<i128> {
        let mut sizes = vec![0; self.kinds.len()];
        for form in &self.forms {
            sizes[form.kind] = form.size();
        }
        sizes
    }

    /// Area of all pieces.
    pub(super) fn area(&self) -> i128 {
        self.kinds.iter().zip(self.sizes()).map(|(kind, size)| size * i128::from(wide(kind.count))).sum()
    }

    /// The layout that the given places make.
    pub(super) fn layout(&self, puts: Vec<Put>) -> Layout {
        let placed: i128 = puts.iter().map(|put| self.forms[put.form].size()).sum();
        let endless = self.endless();
        let length = puts
            .iter()
            .filter(|put| Some(put.room) == endless)
            .map(|put| put.along + self.forms[put.form].along)
            .max()
            .unwrap_or(0);
        Layout { puts, missing: self.area() - placed, length }
    }

    /// A length in units as the length it is.
    pub(super) fn real_length(&self, units: i64) -> i64 {
        units.saturating_mul(self.unit_along)
    }

    /// The pieces of a layout by their entries in the problem: where they lie, and how many of which are left out.
    pub(super) fn named(&self, layout: &Layout) -> (Vec<super::Spot>, Vec<(usize, i64)>) {
        let mut stock: Vec<(usize, Vec<(usize, usize)>)> =
            self.kinds.iter().map(|kind| (0, kind.from.clone())).collect();
        let mut order: Vec<&Put> = layout.puts.iter().collect();
        order.sort_unstable_by_key(|put| (put.room, put.along, put.across));
        let mut spots = Vec::with_capacity(order.len());
        for put in order {
            let form = &self.forms[put.form];
            let (at, from) = &mut stock[form.kind];
            while *at < from.len() && from[*at].1 == 0 {
                *at += 1;
            }
            let Some((entry, count)) = from.get_mut(*at) else { continue };
            *count -= 1;
            spots.push(super::Spot {
                rectangle: *entry,
                stretch: put.room,
                along: put.along * self.unit_along,
                across: put.across * self.unit_across,
                turned: form.turned,
            });
        }
        let mut out = self.never.clone();
        for (_, from) in stock {
            out.extend(
                from.into_iter().filter(|&(_, count)| count > 0).map(|(e, count)| (e, number::from_size(count))),
            );
        }
        out.sort_unstable();
        (spots, out)
    }

    /// The same pieces with both axes changed, on one room of width `limit` and of this room's width as its length.
    ///
    /// Only for pieces free of edge and pattern, on one room: whoever asks has made sure.
    pub(super) fn sideways(&self, limit: i64) -> Self {
        let mut other = self.clone();
        let width = self.rooms.first().map_or(0, |room| room.width);
        other.rooms = vec![Room { width: limit, limit: Some(width) }];
        for form in &mut other.forms {
            std::mem::swap(&mut form.across, &mut form.along);
        }
        other
    }

    /// Whether [`Self::sideways`] may be asked for.
    pub(super) fn is_plain(&self) -> bool {
        self.rooms.len() == 1 && self.forms.iter().all(|form| !form.at_edge && form.starts.is_none())
    }
}

/// A count in wide arithmetic.
pub(super) fn wide(count: usize) -> i64 {
    number::from_size(count)
}

/// Whether a form fits into an empty room.
pub(super) fn fits(form: &Form, room: Room) -> bool {
    form.across <= room.width && room.limit.is_none_or(|limit| form.start(0) + form.along <= limit)
}

/// Equal rectangles together, in a fixed order; none if a size, a count or a start makes no sense.
fn merged(problem: &Problem) -> Option<BTreeMap<Likeness, Vec<(usize, usize)>>> {
    let mut merged: BTreeMap<Likeness, Vec<(usize, usize)>> = BTreeMap::new();
    let (mut pieces, mut reach) = (0i64, 0i128);
    for (entry, piece) in problem.rectangles.iter().enumerate() {
        if piece.along <= 0 || piece.across <= 0 || piece.count < 0 {
            return None;
        }
        let starts = match piece.starts {
            None => None,
            Some(starts) if starts.every <= 0 => return None,
            Some(Starts { first, every }) if first < 0 => Some((first.rem_euclid(every), every)),
            Some(Starts { first, every }) => Some((first, every)),
        };
        pieces = pieces.checked_add(piece.count)?;
        let (first, every) = starts.unwrap_or((0, 0));
        let longest = i128::from(piece.along.max(piece.across)) + i128::from(every);
        reach = reach.checked_add(longest * i128::from(piece.count) + i128::from(first))?;
        if pieces > MOST_PIECES || reach > i128::from(LONGEST) {
            return None;
        }
        if piece.count > 0 {
            let quarter = piece.quarter && !piece.at_edge;
            merged
                .entry((piece.along, piece.across, quarter, piece.at_edge, starts))
                .or_default()
                .push((entry, number::count(piece.count)?));
        }
    }
    Some(merged)
}

/// The greatest units that measure every size exactly, along and across.
fn units(merged: &BTreeMap<Likeness, Vec<(usize, usize)>>) -> (i64, i64) {
    let (mut unit_along, mut unit_across, mut any_turn) = (0, 0, false);
    for &(along, across, quarter, _, starts) in merged.keys() {
        unit_along = common(unit_along, along);
        unit_across = common(unit_across, across);
        any_turn |= quarter;
        if let Some((first, every)) = starts {
            unit_along = common(common(unit_along, first), every);
        }
    }
    if any_turn {
        unit_along = common(unit_along, unit_across);
        unit_across = unit_along;
    }
    // With nothing to place, any unit will do, and one keeps the lengths as they are.
    (unit_along.max(1), unit_across.max(1))
}

fn common(mut one: i64, mut other: i64) -> i64 {
    while other != 0 {
        (one, other) = (other, one % other);
    }
    one
}
