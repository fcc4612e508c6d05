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
