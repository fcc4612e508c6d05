//! The verifier's own geometry: how far a shape reaches in a direction.
//!
//! Never here: anything of the planner's.

use super::Within;
use crate::piece::Lie;
use crate::piece::{CutPiece, Shape};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI, TAU};

/// Room along and across the goods.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    pub(super) along: Within,
    pub(super) across: Within,
}

/// The room that a piece takes as it lies, for a drawn one rounded up to its marks; `None` if it is not a shape.
/// `width` is that of the goods; a piece that fits it is not rounded beyond it.
pub(super) fn room_of(piece: &CutPiece, lie: Lie, width: Within) -> Option<Room> {
    let room = bare_room_of(piece, lie, width)?;
    let (Shape::Sector { .. } | Shape::Outline(_), Some(mark)) = (&*piece.shape, piece.shape.mark()) else {
        return Some(room);
    };
    let mark = Within::of(mark.steps()).filter(|mark| mark.least > 0)?.least;
    let to_mark = |size: i64| if size % mark <= 1 { (size - size % mark).max(mark) } else { size - size % mark + mark };
    let up = |size: Within| Within { least: to_mark(size.least), most: to_mark(size.most) };
    let across = up(room.across);
    let enough = room.across.least <= width.most;
    let across = if enough {
        Within { least: across.least.min(width.least), most: across.most.min(width.most) }
    } else {
        across
    };
    Some(Room { along: up(room.along), across })
}

/// The room that a piece needs as it lies, without rounding to marks.
pub(super) fn bare_room_of(piece: &CutPiece, lie: Lie, width: Within) -> Option<Room> {
    room(&piece.shape, lie, width)
}

/// The room that a shape needs as it lies; `None` if it is not a shape. `width` is that of the goods.
fn room(shape: &Shape, lie: Lie, width: Within) -> Option<Room> {
    if let Shape::FullWidth { along } = shape {
        return (lie == Lie::Along).then_some(Room { along: Within::of(along.steps())?, across: width });
    }
    // The directions, as angles in the piece's frame, that run along and across the goods.
    let (along, across) = match lie {
        Lie::Along => (0.0, FRAC_PI_2),
        Lie::Across => (FRAC_PI_2, 0.0),
        Lie::Bias => (-FRAC_PI_4, FRAC_PI_4),
    };
    let spread = |angle: f64| Within::of(reach(shape, angle)? + reach(shape, angle + PI)?);
    Some(Room { along: spread(along)?, across: spread(across)? })
}

/// How far from its origin the shape reaches in the direction of an angle.
fn reach(shape: &Shape, angle: f64) -> Option<f64> {
    let (sine, cosine) = angle.sin_cos();
    match shape {
        Shape::Rectangle { along, across } => {
            Some((along.steps() * cosine).max(0.0) + (across.steps() * sine).max(0.0))
        }
        Shape::FullWidth { .. } => None,
        Shape::Sector { inner, outer, turn } => {
            let sweep = TAU * turn;
            if angle.rem_euclid(TAU) <= sweep {
                return Some(outer.steps());
            }
            // Outside the sweep the nearer straight edge reaches farthest, by its far end or its near one.
            let slope = cosine.max((angle - sweep).cos());
            Some((outer.steps() * slope).max(inner.steps() * slope))
        }
        Shape::Outline(points) => {
            points.iter().map(|point| point.along.steps() * cosine + point.across.steps() * sine).reduce(f64::max)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;

    const GOODS: Within = Within { least: 90, most: 90 };

    fn nm(steps: f64) -> Length {
        Length::from_steps(steps)
    }

    /// Size along and across, as far as it is whole or rounded to a nanometre either way.
    fn sizes(shape: Shape, lie: Lie) -> Option<[(i64, i64); 2]> {
        let room = bare_room_of(&CutPiece::new("piece", 1, shape), lie, GOODS)?;
        Some([(room.along.least, room.along.most), (room.across.least, room.across.most)])
    }

    #[test]
    fn a_rectangle_reaches_its_sides_and_a_width_that_of_the_goods() {
        let oblong = || Shape::Rectangle { along: nm(300.0), across: nm(500.0) };
        assert_eq!(sizes(oblong(), Lie::Along), Some([(300, 300), (500, 500)]));
        assert_eq!(sizes(oblong(), Lie::Across), Some([(500, 500), (300, 300)]));
        // 800 times half the square root of two is 565.69.
        assert_eq!(sizes(oblong(), Lie::Bias), Some([(565, 566), (565, 566)]));
        let width = || Shape::FullWidth { along: nm(300.0) };
        assert_eq!(sizes(width(), Lie::Along), Some([(300, 300), (90, 90)]));
        assert!(sizes(width(), Lie::Across).is_none() && sizes(width(), Lie::Bias).is_none());
    }

    /// An outer radius of 5000 and an inner one of 2000. A tenth of a turn is 36 degrees, whose cosine is 0.809 017 and
    /// whose sine is 0.587 785.
    #[test]
    fn a_part_of_a_ring_reaches_as_far_as_its_arcs_and_its_straight_edges() {
        let ring = |turn| Shape::Sector { inner: nm(2_000.0), outer: nm(5_000.0), turn };
        for (turn, lie, along, across) in [
            (1.0, Lie::Along, (10_000, 10_000), (10_000, 10_000)),
            (0.75, Lie::Along, (10_000, 10_000), (10_000, 10_000)),
            (0.5, Lie::Along, (10_000, 10_000), (5_000, 5_000)),
            (0.5, Lie::Across, (5_000, 5_000), (10_000, 10_000)),
            (0.25, Lie::Along, (5_000, 5_000), (5_000, 5_000)),
            // To the near ends on one side: 5000 - 0.809 017 · 2000. Up to 5000 · 0.587 785.
            (0.1, Lie::Along, (3_381, 3_382), (2_938, 2_939)),
            (0.1, Lie::Across, (2_938, 2_939), (3_381, 3_382)),
            // At 45 degrees: 5000 · cos 9° - 2000 · cos 45°, and 5000 · cos 45° - 2000 · cos 81°.
            (0.1, Lie::Bias, (3_222, 3_223), (3_524, 3_525)),
        ] {
            assert_eq!(sizes(ring(turn), lie), Some([along, across]), "{turn} {lie:?}");
        }
    }

    #[test]
    fn a_drawn_piece_takes_room_up_to_a_mark_but_not_beyond_the_goods() {
        let corner = |along, across| crate::piece::OutlinePoint { along: nm(along), across: nm(across) };
        let room = |along: f64, across: f64, mark: Option<f64>| {
            let corners = vec![corner(0.0, 0.0), corner(along, 0.0), corner(0.0, across)];
            let piece = CutPiece::new("piece", 1, Shape::Outline(corners)).with_mark(mark.map(nm));
            let room = room_of(&piece, Lie::Along, GOODS)?;
            assert_eq!((room.along.least, room.across.least), (room.along.most, room.across.most));
            Some((room.along.least, room.across.least))
        };
        for (along, across, wanted) in [
            (40.0, 70.0, (40, 70)),
            // A nanometre past a mark is rounding; two are not.
            (41.0, 71.0, (40, 70)),
            (42.0, 72.0, (50, 80)),
            (39.0, 69.0, (40, 70)),
            // There is always a first mark.
            (1.0, 1.0, (10, 10)),
            (95.0, 85.0, (100, 90)),
        ] {
            assert_eq!(room(along, across, Some(10.0)), Some(wanted), "{along} {across}");
        }
        // Goods of 90 end between the marks of 40; a piece that is too wide for them is not cut down to them.
        assert_eq!(room(50.0, 85.0, Some(40.0)), Some((80, 90)));
        assert_eq!(room(50.0, 90.0, Some(40.0)), Some((80, 90)));
        assert_eq!(room(50.0, 91.0, Some(40.0)), Some((80, 120)));
        assert_eq!(room(42.0, 72.0, None), Some((42, 72)));
        assert_eq!((room(42.0, 72.0, Some(1.0)), room(42.0, 72.0, Some(0.0))), (Some((42, 72)), None));
        // Other pieces are cut to the nanometre.
        let oblong = CutPiece::new("piece", 1, Shape::Rectangle { along: nm(42.0), across: nm(72.0) });
        let room = room_of(&oblong.with_mark(Some(nm(10.0))), Lie::Along, GOODS).unwrap();
        assert_eq!((room.along.most, room.across.most), (42, 72));
    }
}
