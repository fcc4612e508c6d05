//! Pieces on a strip of given length while they are separated: their positions in floats, and the cost of each
//! position.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::depths::Depths;
use super::layout::{Lay, Piece, Table};
use super::outline::Pose;
use crate::number;

/// One pose of a piece, with its size in floats.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    pub(super) pose: Pose,
    pub(super) long: f64,
    pub(super) high: f64,
}

/// The fixed properties of a piece.
#[derive(Clone, Debug)]
pub(super) struct Member {
    pub(super) piece: Piece,
    pub(super) ways: Vec<Way>,
    pub(super) starts: Option<(f64, f64)>,
    pub(super) at_edge: bool,
}

/// The position of a piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub(super) way: usize,
    pub(super) along: f64,
    pub(super) across: f64,
}

/// All pieces with their positions, ready to be moved.
#[derive(Clone, Debug)]
pub(super) struct Crowd<'a> {
    pub(super) depths: &'a Depths,
    pub(super) members: Vec<Member>,
    pub(super) places: Vec<Place>,
    /// The boxes of the pieces: low and high along, low and high across.
    pub(super) boxes: Vec<[f64; 4]>,
    /// The outline of each piece in its current pose.
    pub(super) outlines: Vec<usize>,
    /// The weight of the depth for each pair of pieces; it grows while they overlap.
    pub(super) weights: Vec<f64>,
    pub(super) width: f64,
    pub(super) length: f64,
    pub(super) gap: f64,
    /// Depths below this are noise.
    pub(super) noise: f64,
    /// Looks since steps were last taken.
    pub(super) looks: u64,
    /// How many threads share the steps.
    pub(super) threads: u64,
}

impl<'a> Crowd<'a> {
    /// The pieces at the positions of a layout; `None` if one cannot be placed on the strip.
    pub(super) fn new(table: &Table<'_>, depths: &'a Depths, lays: &[Lay], threads: u64) -> Option<Self> {
        let mut members = Vec::with_capacity(lays.len());
        let mut places = Vec::with_capacity(lays.len());
        for lay in lays {
            let item = table.prepared.items.get(lay.item)?;
            let ways: Vec<Way> = table
                .prepared
                .fitting(lay.item, lay.mirrored, table.width)
                .into_iter()
                .map(|pose| {
                    let (long, high) = table.size(pose);
                    Way { pose, long: number::from_whole(long), high: number::from_whole(high) }
                })
                .collect();
            let way = ways.iter().position(|way| way.pose == lay.pose)?;
            places.push(Place { way, along: number::from_whole(lay.along), across: number::from_whole(lay.across) });
            let starts = item.starts.map(|starts| (number::from_whole(starts.first), number::from_whole(starts.every)));
            members.push(Member { piece: (lay.item, lay.mirrored), ways, starts, at_edge: item.at_edge });
        }
        let mut crowd = Self {
            depths,
            weights: vec![1.0; members.len() * members.len()],
            boxes: Vec::new(),
            outlines: Vec::new(),
            members,
            places,
            width: number::from_whole(table.width),
            length: number::from_whole(table.length(lays)),
            gap: number::from_whole(table.gap),
            noise: number::from_whole(table.width) * 1e-12 + 1e-3,
            looks: 0,
            threads,
        };
        crowd.boxes = (0..crowd.members.len()).map(|at| crowd.space(at, crowd.places[at])).collect();
        crowd.outlines = (0..crowd.members.len()).map(|at| crowd.outline(at, crowd.places[at])).collect();
        Some(crowd)
    }

    /// The positions in whole units.
    pub(super) fn lays(&self) -> Option<Vec<Lay>> {
        let lay = |(member, place): (&Member, &Place)| {
            Some(Lay {
                item: member.piece.0,
                mirrored: member.piece.1,
                pose: member.ways[place.way].pose,
                along: number::nearest_whole(place.along)?,
                across: number::nearest_whole(place.across)?,
            })
        };
        self.members.iter().zip(&self.places).map(lay).collect()
    }

    pub(super) fn length(&self) -> f64 {
        self.length
    }

    /// Sets the length of the strip and moves pieces beyond it to its end; returns whether every piece fits.
    pub(super) fn cut(&mut self, length: f64) -> bool {
        self.length = length;
        for at in 0..self.members.len() {
            let place = self.places[at];
            let way = self.members[at].ways[place.way];
            if way.long > length && self.members[at].ways.iter().all(|way| way.long > length) {
                return false;
            }
            let place = if way.long > length {
                let way = self.members[at].ways.iter().position(|way| way.long <= length).unwrap_or(0);
                Place { way, ..place }
            } else {
                place
            };
            let Some(place) = self.bound(at, place) else { return false };
            self.put(at, place);
        }
        true
    }

    /// Copies the positions and the length of another.
    pub(super) fn restore_from(&mut self, other: &Self) {
        self.restore(&other.places);
        self.length = other.length;
    }

    pub(super) fn restore(&mut self, places: &[Place]) {
        for (at, &place) in places.iter().enumerate() {
            self.put(at, place);
        }
    }

    /// The sum of the depths of all overlapping pairs, and these pairs with their depths.
    pub(super) fn upon(&mut self) -> (f64, Vec<(usize, usize, f64)>) {
        let mut pairs = Vec::new();
        for one in 0..self.members.len() {
            for other in one + 1..self.members.len() {
                if !self.meet(self.boxes[one], self.boxes[other]) {
                    continue;
                }
                let outlines = (self.outlines[one], self.outlines[other]);
                let (here, there) = (self.boxes[one], self.boxes[other]);
                let depth = self.depths.at(outlines.0, outlines.1, there[0] - here[0], there[2] - here[2]);
                if depth > self.noise {
                    pairs.push((one, other, depth));
                }
            }
        }
        self.looks += number::from_size(pairs.len()).unsigned_abs()
            + number::from_size(self.members.len() * self.members.len() / 2).unsigned_abs();
        (pairs.iter().map(|pair| pair.2).sum(), pairs)
    }

    pub(super) fn outline(&self, at: usize, place: Place) -> usize {
        self.members[at].ways[place.way].pose.outline
    }

    pub(super) fn space(&self, at: usize, place: Place) -> [f64; 4] {
        let way = &self.members[at].ways[place.way];
        [place.along, place.along + way.long, place.across, place.across + way.high]
    }

    /// The weighted depths of a piece at a position; stops counting at `most`.
    pub(super) fn cost(&mut self, at: usize, place: Place, most: f64) -> f64 {
        let space = self.space(at, place);
        let outline = self.outline(at, place);
        let count = self.members.len();
        let mut cost = 0.0;
        let mut met = 0;
        for other in 0..count {
            let there = self.boxes[other];
            if other != at && self.meet(space, there) {
                let from = self.outlines[other];
                met += self.depths.looks(from, outline);
                let depth = self.depths.at(from, outline, space[0] - there[0], space[2] - there[2]);
                if depth > self.noise {
                    cost += depth * self.weights[at * count + other];
                    if cost >= most {
                        break;
                    }
                }
            }
        }
        self.looks += met + number::from_size(count).unsigned_abs();
        cost
    }

    /// Whether two boxes are nearer than the gap.
    #[allow(
        clippy::needless_bitwise_bool,
        reason = "which test fails cannot be foretold, and branches guessed wrong are slow"
    )]
    pub(super) fn meet(&self, one: [f64; 4], other: [f64; 4]) -> bool {
        (other[0] < one[1] + self.gap)
            & (one[0] < other[1] + self.gap)
            & (other[2] < one[3] + self.gap)
            & (one[2] < other[3] + self.gap)
    }

    pub(super) fn put(&mut self, at: usize, place: Place) {
        self.places[at] = place;
        self.boxes[at] = self.space(at, place);
        self.outlines[at] = self.outline(at, place);
    }

    /// The nearest position on the strip that the rules of the piece allow.
    pub(super) fn bound(&self, at: usize, place: Place) -> Option<Place> {
        let member = &self.members[at];
        let way = &member.ways[place.way];
        if way.long > self.length {
            return None;
        }
        let mut along = place.along.clamp(0.0, self.length - way.long);
        if let Some((first, every)) = member.starts {
            let last = ((self.length - way.long - first) / every).floor();
            if last < 0.0 {
                return None;
            }
            along = first + ((along - first) / every).round().clamp(0.0, last) * every;
        }
        let across = if member.at_edge { 0.0 } else { place.across.clamp(0.0, self.width - way.high) };
        Some(Place { along, across, ..place })
    }
}
