//! Marks of the tape, and the rectangle round a sector or an outline that goes up to them: listed, laid and drawn.
//!
//! Never here: where it lies on the cloth.

use super::ticket::Shape;
use crate::quantity::{Length, Quantity, Style, System, rounding};
use std::f64::consts::{FRAC_PI_2, TAU};

/// The rectangle round a shape, along and across the piece, both up to a mark of the tape.
pub fn room_round(shape: &Shape, style: &Style) -> (Length, Length) {
    let (along, across) = rectangle_round(shape);
    let mark = mark_of(along, style);
    (up_to(along, mark), up_to(across, mark))
}

/// The marks that the room round a shape goes up to.
pub(super) fn mark_round(shape: &Shape, style: &Style) -> Length {
    mark_of(rectangle_round(shape).0, style)
}

/// The rectangle round a shape as it is, along and across the piece.
fn rectangle_round(shape: &Shape) -> (Length, Length) {
    let points: Vec<(Length, Length)> = match shape {
        Shape::Outline(points) => points.iter().map(|(across, along)| (*along, *across)).collect(),
        Shape::Sector { inner, outer, turn } => {
            let sweep = TAU * turn;
            let at = |radius: Length, angle: f64| (radius * angle.cos(), radius * angle.sin());
            let quarters = (0..4_u8).map(|quarter| f64::from(quarter) * FRAC_PI_2).filter(|angle| *angle <= sweep);
            let ends = [at(*inner, 0.0), at(*inner, sweep), at(*outer, sweep)];
            quarters.map(|angle| at(*outer, angle)).chain(ends).collect()
        }
        Shape::Rectangle { along, across } => vec![(Length::ZERO, Length::ZERO), (*along, *across)],
        Shape::FullWidth { along } => vec![(Length::ZERO, Length::ZERO), (*along, Length::ZERO)],
    };
    let spread = |pick: fn(&(Length, Length)) -> Length| {
        let mut places = points.iter().map(pick);
        let Some(first) = places.next() else { return Length::ZERO };
        let (least, most) = places.fold((first, first), |(least, most), place| (least.least(place), most.most(place)));
        most - least
    };
    (spread(|point| point.0), spread(|point| point.1))
}

/// The marks of the tape that a size likes.
pub(super) fn mark_of(size: Length, style: &Style) -> Length {
    let unit = Quantity::from(size).liked().length.unwrap_or(style.tape.unit());
    match unit.system() {
        System::Inch => Length::try_from(style.inch_step.length()).unwrap_or(Length::inches(0.125)),
        _ => Length::centimetres(0.1),
    }
}

/// A size up to the next mark.
pub(super) fn up_to(size: Length, mark: Length) -> Length {
    rounding::cut(size.into(), mark.into(), true).ok().and_then(|cut| Length::try_from(cut).ok()).unwrap_or(size)
}
