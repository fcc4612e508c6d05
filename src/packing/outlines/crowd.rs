//! Pieces on a strip of given length while they are separated: their positions in floats, and the cost of each
//! position.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

use super::depths::Depths;
use super::layout::{Piece, PosePlacement, Table};
use super::outline::Pose;
use crate::number;

/// One pose of a piece, with its size in floats.
#[derive(Clone, Copy, Debug)]
pub(super) struct FloatPose {
    pub(super) pose: Pose,
    pub(super) long: f64,
    pub(super) high: f64,
}

/// The fixed properties of a piece.
#[derive(Clone, Debug)]
pub(super) struct CrowdPiece {
    pub(super) id: Piece,
    pub(super) poses: Vec<FloatPose>,
    pub(super) starts: Option<(f64, f64)>,
    pub(super) at_edge: bool,
}

/// The position of a piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Position {
    pub(super) pose: usize,
    pub(super) along: f64,
    pub(super) across: f64,
}

/// All pieces with their positions, ready to be moved.
#[derive(Clone, Debug)]
pub(super) struct Crowd<'a> {
    pub(super) depths: &'a Depths,
    pub(super) pieces: Vec<CrowdPiece>,
    pub(super) positions: Vec<Position>,
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
    pub(super) fn new(
        table: &Table<'_>,
        depths: &'a Depths,
        placements: &[PosePlacement],
        threads: u64,
    ) -> Option<Self> {
        let mut pieces = Vec::with_capacity(placements.len());
        let mut positions = Vec::with_capacity(placements.len());
        for placement in placements {
            let item = table.prepared.items.get(placement.item)?;
            let poses: Vec<FloatPose> = table
                .prepared
                .fitting(placement.item, placement.mirrored, table.width)
                .into_iter()
                .map(|pose| {
                    let (long, high) = table.size(pose);
                    FloatPose { pose, long: number::from_whole(long), high: number::from_whole(high) }
                })
                .collect();
            let pose = poses.iter().position(|pose| pose.pose == placement.pose)?;
            positions.push(Position {
                pose,
                along: number::from_whole(placement.along),
                across: number::from_whole(placement.across),
            });
            let starts = item.starts.map(|starts| (number::from_whole(starts.first), number::from_whole(starts.every)));
            pieces.push(CrowdPiece { id: (placement.item, placement.mirrored), poses, starts, at_edge: item.at_edge });
        }
        let mut crowd = Self {
            depths,
            weights: vec![1.0; pieces.len() * pieces.len()],
            boxes: Vec::new(),
            outlines: Vec::new(),
            pieces,
            positions,
            width: number::from_whole(table.width),
            length: number::from_whole(table.length(placements)),
            gap: number::from_whole(table.gap),
            noise: number::from_whole(table.width) * 1e-12 + 1e-3,
            looks: 0,
            threads,
        };
        crowd.boxes = (0..crowd.pieces.len()).map(|at| crowd.bounds(at, crowd.positions[at])).collect();
        crowd.outlines = (0..crowd.pieces.len()).map(|at| crowd.outline(at, crowd.positions[at])).collect();
        Some(crowd)
    }

    /// The positions in whole units.
    pub(super) fn placements(&self) -> Option<Vec<PosePlacement>> {
        let placement = |(piece, position): (&CrowdPiece, &Position)| {
            Some(PosePlacement {
                item: piece.id.0,
                mirrored: piece.id.1,
                pose: piece.poses[position.pose].pose,
                along: number::nearest_whole(position.along)?,
                across: number::nearest_whole(position.across)?,
            })
        };
        self.pieces.iter().zip(&self.positions).map(placement).collect()
    }

    pub(super) fn length(&self) -> f64 {
        self.length
    }

    /// Sets the length of the strip and moves pieces beyond it to its end; returns whether every piece fits.
    pub(super) fn set_length(&mut self, length: f64) -> bool {
        self.length = length;
        for at in 0..self.pieces.len() {
            let position = self.positions[at];
            let poses = &self.pieces[at].poses;
            let fits = |pose: &FloatPose| pose.long <= length;
            let pose = if fits(&poses[position.pose]) { Some(position.pose) } else { poses.iter().position(fits) };
            let Some(position) = pose.and_then(|pose| self.clamped(at, Position { pose, ..position })) else {
                return false;
            };
            self.set_position(at, position);
        }
        true
    }

    /// Copies the positions and the length of another.
    pub(super) fn restore_from(&mut self, other: &Self) {
        self.restore(&other.positions);
        self.length = other.length;
    }

    pub(super) fn restore(&mut self, positions: &[Position]) {
        for (at, &position) in positions.iter().enumerate() {
            self.set_position(at, position);
        }
    }

    /// The sum of the depths of all overlapping pairs, and these pairs with their depths.
    pub(super) fn overlaps(&mut self) -> (f64, Vec<(usize, usize, f64)>) {
        let mut pairs = Vec::new();
        for one in 0..self.pieces.len() {
            for other in one + 1..self.pieces.len() {
                let (here, there) = (self.boxes[one], self.boxes[other]);
                if self.is_near(here, there) {
                    let outlines = (self.outlines[one], self.outlines[other]);
                    let depth = self.depths.at(outlines.0, outlines.1, there[0] - here[0], there[2] - here[2]);
                    if depth > self.noise {
                        pairs.push((one, other, depth));
                    }
                }
            }
        }
        self.looks += number::from_size(pairs.len()).unsigned_abs()
            + number::from_size(self.pieces.len() * self.pieces.len() / 2).unsigned_abs();
        (pairs.iter().map(|pair| pair.2).sum(), pairs)
    }

    pub(super) fn outline(&self, at: usize, position: Position) -> usize {
        self.pieces[at].poses[position.pose].pose.outline
    }

    pub(super) fn bounds(&self, at: usize, position: Position) -> [f64; 4] {
        let pose = &self.pieces[at].poses[position.pose];
        [position.along, position.along + pose.long, position.across, position.across + pose.high]
    }

    /// The weighted depths of a piece at a position; stops counting at `most`.
    pub(super) fn cost(&mut self, at: usize, position: Position, most: f64) -> f64 {
        let bounds = self.bounds(at, position);
        let outline = self.outline(at, position);
        let count = self.pieces.len();
        let mut cost = 0.0;
        let mut met = 0;
        for other in 0..count {
            let there = self.boxes[other];
            if other != at && self.is_near(bounds, there) {
                let from = self.outlines[other];
                met += self.depths.looks(from, outline);
                let depth = self.depths.at(from, outline, bounds[0] - there[0], bounds[2] - there[2]);
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
    pub(super) fn is_near(&self, one: [f64; 4], other: [f64; 4]) -> bool {
        (other[0] < one[1] + self.gap)
            & (one[0] < other[1] + self.gap)
            & (other[2] < one[3] + self.gap)
            & (one[2] < other[3] + self.gap)
    }

    pub(super) fn set_position(&mut self, at: usize, position: Position) {
        self.positions[at] = position;
        self.boxes[at] = self.bounds(at, position);
        self.outlines[at] = self.outline(at, position);
    }

    /// The nearest position on the strip that the rules of the piece allow.
    pub(super) fn clamped(&self, at: usize, position: Position) -> Option<Position> {
        let piece = &self.pieces[at];
        let pose = &piece.poses[position.pose];
        if pose.long > self.length {
            return None;
        }
        let mut along = position.along.clamp(0.0, self.length - pose.long);
        if let Some((first, every)) = piece.starts {
            let last = ((self.length - pose.long - first) / every).floor();
            if last < 0.0 {
                return None;
            }
            along = first + ((along - first) / every).round().clamp(0.0, last) * every;
        }
        let across = if piece.at_edge { 0.0 } else { position.across.clamp(0.0, self.width - pose.high) };
        Some(Position { along, across, ..position })
    }
}

#[cfg(test)]
mod tests;
