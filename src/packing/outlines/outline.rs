//! The outlines of pieces in all their poses: turned, mirrored, with the low corner of their box at zero, and cut
//! into convex parts.

use super::coarse;
use super::geometry::{self, Point};
use crate::problem::{Polygon, Starts};
use crate::solution::Turn;
use std::collections::BTreeMap;

/// A polygon in one pose, its box beginning at zero.
#[derive(Debug)]
pub(super) struct Outline {
    /// The convex parts of the outline, or of a coarser one around it in the same box.
    pub(super) parts: Vec<Vec<Point>>,
    /// The size of its box along the strip.
    pub(super) long: i64,
    /// The size of its box across the strip.
    pub(super) high: i64,
}

/// A turn, and the outline it gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pose {
    pub(super) turn: Turn,
    pub(super) outline: usize,
}

/// A kind of piece: its poses and the rules for its placement.
#[derive(Clone, Debug)]
pub(super) struct PreparedPolygon {
    /// The poses of its plain pieces, then of its mirrored ones.
    pub(super) plain: Vec<Pose>,
    pub(super) mirrored: Vec<Pose>,
    pub(super) starts: Option<Starts>,
    pub(super) at_edge: bool,
    /// Twice the area of a piece.
    pub(super) twice_area: i128,
}

impl PreparedPolygon {
    /// The poses of its plain or its mirrored pieces.
    pub(super) fn poses(&self, mirrored: bool) -> &[Pose] {
        if mirrored { &self.mirrored } else { &self.plain }
    }

    /// The first position at or after `along` where a piece may begin.
    pub(super) fn begin(&self, along: i64) -> i64 {
        Starts::next_of(self.starts, along)
    }
}

/// All kinds of a problem, with the outlines they share.
#[derive(Debug)]
pub(super) struct Prepared {
    pub(super) items: Vec<PreparedPolygon>,
    pub(super) outlines: Vec<Outline>,
}

impl Prepared {
    /// The outline of a pose.
    pub(super) fn outline(&self, pose: Pose) -> Option<&Outline> {
        self.outlines.get(pose.outline)
    }

    /// The poses of a piece that fit a strip of this width.
    pub(super) fn fitting(&self, item: usize, mirrored: bool, width: i64) -> Vec<Pose> {
        let Some(item) = self.items.get(item) else { return Vec::new() };
        item.poses(mirrored)
            .iter()
            .copied()
            .filter(|&pose| self.outline(pose).is_some_and(|outline| outline.high <= width))
            .collect()
    }
}

/// The kinds of a problem; `None` if one of them is no simple polygon.
pub(super) fn prepare(polygons: &[Polygon]) -> Option<Prepared> {
    let mut outlines = Vec::new();
    let mut known: BTreeMap<Vec<Point>, usize> = BTreeMap::new();
    let mut items = Vec::with_capacity(polygons.len());
    for polygon in polygons {
        let tidy = geometry::tidied(&polygon.corners)?;
        let (mut plain, mut mirror) = (Vec::new(), Vec::new());
        for (mirrored, poses) in [(false, &mut plain), (true, &mut mirror)] {
            if mirrored && !polygon.mirror {
                continue;
            }
            for turn in Turn::ALL {
                let allowed = match turn {
                    Turn::None => true,
                    Turn::Half => polygon.half,
                    Turn::Quarter | Turn::ThreeQuarters => polygon.quarter,
                };
                if !allowed {
                    continue;
                }
                let corners = turned(&tidy, turn, mirrored);
                let outline = *known.entry(corners).or_insert_with_key(|corners| {
                    outlines.push(outline(corners));
                    outlines.len() - 1
                });
                // A turn with an equal outline would only double the work.
                if poses.iter().all(|pose: &Pose| pose.outline != outline) {
                    poses.push(Pose { turn, outline });
                }
            }
        }
        let twice_area = geometry::twice_area(&tidy);
        items.push(PreparedPolygon {
            plain,
            mirrored: mirror,
            starts: polygon.starts,
            at_edge: polygon.at_edge,
            twice_area,
        });
    }
    Some(Prepared { items, outlines })
}

fn outline(corners: &[Point]) -> Outline {
    let (_, (long, high)) = geometry::around(corners);
    Outline { parts: geometry::convex_parts(&coarse::coarse(corners)), long, high }
}

/// Mirrors first (low across becomes high), then turns counter-clockwise. The corners begin with the lowest, so that
/// equal outlines are equal lists.
fn turned(corners: &[Point], turn: Turn, mirrored: bool) -> Vec<Point> {
    let mut moved: Vec<Point> = corners
        .iter()
        .map(|&(along, across)| {
            let across = if mirrored { -across } else { across };
            match turn {
                Turn::None => (along, across),
                Turn::Quarter => (-across, along),
                Turn::Half => (-along, -across),
                Turn::ThreeQuarters => (across, -along),
            }
        })
        .collect();
    if mirrored {
        moved.reverse();
    }
    let (low, _) = geometry::around(&moved);
    for corner in &mut moved {
        *corner = (corner.0 - low.0, corner.1 - low.1);
    }
    let first = moved.iter().enumerate().min_by_key(|(_, corner)| **corner).map_or(0, |(at, _)| at);
    moved.rotate_left(first);
    moved
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(corners: &[Point]) -> Polygon {
        Polygon { half: true, quarter: true, mirror: true, ..Polygon::new(corners.to_vec(), 2) }
    }

    #[test]
    fn a_piece_lies_in_as_many_ways_as_differ() {
        let square = prepare(&[shape(&[(5, 5), (7, 5), (7, 7), (5, 7)])]).unwrap();
        assert_eq!((square.outlines.len(), square.items[0].plain.len()), (1, 1));
        let oblong = prepare(&[shape(&[(0, 0), (7, 0), (7, 2), (0, 2)])]).unwrap();
        assert_eq!((oblong.outlines.len(), oblong.items[0].mirrored.len()), (2, 2));
        let hook = prepare(&[shape(&[(0, 0), (7, 0), (7, 2), (0, 5)])]).unwrap();
        assert_eq!((hook.outlines.len(), hook.items[0].plain.len()), (8, 4));
        // Turned a quarter, what ran along runs across.
        let quarter = hook.items[0].plain.iter().find(|pose| pose.turn == Turn::Quarter).unwrap();
        assert_eq!(hook.outlines[quarter.outline].parts, vec![vec![(0, 0), (5, 0), (5, 7), (3, 7)]]);
    }

    #[test]
    fn pieces_begin_where_the_pattern_does() {
        let mut striped = shape(&[(0, 0), (7, 0), (7, 2)]);
        striped.starts = Some(Starts { first: 3, every: 10 });
        let items = prepare(&[striped]).unwrap().items;
        assert_eq!([0, 3, 4, 13, 14].map(|along| items[0].begin(along)), [3, 3, 13, 13, 23]);
    }

    #[test]
    fn a_hook_is_mirrored_first_and_then_turned() {
        let hook = [(0, 0), (7, 0), (7, 2), (0, 5)];
        for (turn, mirrored, expected) in [
            (Turn::None, false, [(0, 0), (7, 0), (7, 2), (0, 5)]),
            (Turn::Half, false, [(0, 3), (7, 0), (7, 5), (0, 5)]),
            (Turn::Quarter, false, [(0, 0), (5, 0), (5, 7), (3, 7)]),
            (Turn::ThreeQuarters, false, [(0, 0), (2, 0), (5, 7), (0, 7)]),
            (Turn::None, true, [(0, 0), (7, 3), (7, 5), (0, 5)]),
            (Turn::Half, true, [(0, 0), (7, 0), (7, 5), (0, 2)]),
            (Turn::Quarter, true, [(0, 0), (5, 0), (2, 7), (0, 7)]),
            (Turn::ThreeQuarters, true, [(0, 7), (3, 0), (5, 0), (5, 7)]),
        ] {
            assert_eq!(turned(&hook, turn, mirrored), expected, "{turn:?}, {mirrored}");
            // Wherever it was drawn.
            let moved = hook.map(|corner| (corner.0 - 30, corner.1 + 11));
            assert_eq!(turned(&moved, turn, mirrored), expected);
        }
    }

    #[test]
    fn a_piece_lies_only_as_it_may_and_where_it_fits() {
        let hook = Polygon::new(vec![(0, 0), (7, 0), (7, 2), (0, 5)], 2);
        let turns = |polygon: Polygon, mirrored: bool, width: i64| -> Vec<Turn> {
            let poses = prepare(&[polygon]).unwrap().fitting(0, mirrored, width);
            poses.iter().map(|pose| pose.turn).collect()
        };
        let half = Polygon { half: true, ..hook.clone() };
        let quarter = Polygon { quarter: true, ..hook.clone() };
        assert_eq!(turns(hook.clone(), false, 9), vec![Turn::None]);
        assert_eq!(turns(half, false, 9), vec![Turn::None, Turn::Half]);
        assert_eq!(turns(quarter.clone(), false, 7), vec![Turn::None, Turn::Quarter, Turn::ThreeQuarters]);
        assert_eq!(turns(quarter.clone(), false, 6), vec![Turn::None]);
        assert_eq!(turns(quarter.clone(), false, 4), Vec::new());
        assert_eq!(turns(hook.clone(), true, 9), Vec::new());
        assert_eq!(turns(Polygon { mirror: true, ..quarter }, true, 7).len(), 3);
        // Kinds share the outlines they have in common; each has the size of its box, and its own area.
        let oblong = |long: i64, high: i64, quarter: bool| Polygon {
            quarter,
            at_edge: quarter,
            ..Polygon::new(vec![(0, 0), (long, 0), (long, high), (0, high)], 1)
        };
        let both = prepare(&[oblong(7, 3, true), oblong(3, 7, false), hook]).unwrap();
        assert_eq!((both.outlines.len(), both.items[1].plain[0].outline), (3, both.items[0].plain[1].outline));
        let sizes: Vec<(i64, i64)> = both.outlines.iter().map(|outline| (outline.long, outline.high)).collect();
        assert_eq!(sizes, vec![(7, 3), (3, 7), (7, 5)]);
        assert_eq!(both.items.iter().map(|item| item.twice_area).collect::<Vec<_>>(), vec![42, 42, 49]);
        assert_eq!((both.items[0].at_edge, both.items[1].at_edge), (true, false));
        assert_eq!(both.fitting(3, false, 99), Vec::new());
        assert!(prepare(&[oblong(7, 0, false)]).is_none());
    }
}
