//! The room a shape takes on the goods: its bounding rectangle as it lies, and its area.
//!
//! Never here: placing; the verifier's geometry, which is separate.

use crate::cutting::nanometre::down;
use crate::piece::Lie;
use crate::piece::{CutPiece, OutlinePoint, Shape};
use crate::quantity::number;
use std::f64::consts::{FRAC_1_SQRT_2, FRAC_PI_4, PI, TAU};

/// Room along and across the goods, in nanometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::cutting) struct Extent {
    pub(in crate::cutting) along: i64,
    pub(in crate::cutting) across: i64,
}

/// The room a piece takes as it lies; for a sector or an outline, rounded up to a mark of its tape. Rounding never
/// makes a piece too wide that just fits the width.
pub(in crate::cutting) fn room(piece: &CutPiece, lie: Lie, full_width: i64) -> Option<Extent> {
    let extent = extent(&piece.shape, lie, full_width)?;
    let drawn = matches!(*piece.shape, Shape::Sector { .. } | Shape::Outline(_));
    let Some(mark) = piece.shape.mark().filter(|_| drawn).and_then(|mark| down(mark.steps())).filter(|mark| *mark > 0)
    else {
        return Some(extent);
    };
    // A nanometre over a mark is float noise.
    let up = |size: i64| (size + mark - 2).div_euclid(mark).max(1).saturating_mul(mark);
    let across = up(extent.across);
    let across = if extent.across <= full_width { across.min(full_width) } else { across };
    Some(Extent { along: up(extent.along), across })
}

/// The bounding rectangle of a shape as it lies; `full_width` is the width of the goods. `None` if the shape encloses
/// nothing or is too large to be exact.
pub(in crate::cutting) fn extent(shape: &Shape, lie: Lie, full_width: i64) -> Option<Extent> {
    if let Shape::FullWidth { along } = shape {
        return Some(Extent { along: down(along.steps())?, across: full_width });
    }
    let corners = corners(shape)?;
    let round = |direction: (f64, f64)| {
        let places = corners.iter().map(|(along, across)| along * direction.0 + across * direction.1);
        let (least, most) =
            places.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), place| (least.min(place), most.max(place)));
        down(most - least).filter(|size| *size > 0)
    };
    let (along, across) = match lie {
        Lie::Along => ((1.0, 0.0), (0.0, 1.0)),
        Lie::Across => ((0.0, 1.0), (1.0, 0.0)),
        Lie::Bias => ((FRAC_1_SQRT_2, -FRAC_1_SQRT_2), (FRAC_1_SQRT_2, FRAC_1_SQRT_2)),
    };
    Some(Extent { along: round(along)?, across: round(across)? })
}

/// The area of a shape in square nanometres; a full width is `full_width` wide.
pub(in crate::cutting) fn area(shape: &Shape, full_width: i64) -> f64 {
    match shape {
        Shape::Rectangle { along, across } => along.steps() * across.steps(),
        Shape::FullWidth { along } => along.steps() * number::from_whole(full_width),
        Shape::Sector { inner, outer, turn } => {
            PI * turn * (outer.steps() * outer.steps() - inner.steps() * inner.steps())
        }
        Shape::Outline(points) => outline_area(points),
    }
}

fn outline_area(points: &[OutlinePoint]) -> f64 {
    let next = points.iter().cycle().skip(1);
    let twice: f64 = points
        .iter()
        .zip(next)
        .map(|(here, next)| here.along.steps() * next.across.steps() - next.along.steps() * here.across.steps())
        .sum();
    twice.abs() / 2.0
}

/// Points with the same extent as the shape in every direction that a lie needs; `None` for a full width.
pub(in crate::cutting) fn corners(shape: &Shape) -> Option<Vec<(f64, f64)>> {
    match shape {
        Shape::Rectangle { along, across } => {
            let (along, across) = (along.steps(), across.steps());
            Some(vec![(0.0, 0.0), (along, 0.0), (along, across), (0.0, across)])
        }
        Shape::FullWidth { .. } => None,
        Shape::Sector { inner, outer, turn } => {
            let (inner, outer) = (inner.steps(), outer.steps());
            let sweep = TAU * turn;
            let at = |radius: f64, angle: f64| (radius * angle.cos(), radius * angle.sin());
            let mut points = vec![at(inner, 0.0), at(inner, sweep), at(outer, sweep)];
            // In those directions the outer edge is farthest out at the eighths of a turn that it passes.
            let eighths = (0..8).map(|eighth| f64::from(eighth) * FRAC_PI_4).filter(|angle| *angle <= sweep);
            points.extend(eighths.map(|angle| at(outer, angle)));
            Some(points)
        }
        Shape::Outline(points) => {
            Some(points.iter().map(|point| (point.along.steps(), point.across.steps())).collect())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;

    #[track_caller]
    fn check(shape: &Shape, lie: Lie, along: f64, across: f64) {
        let extent = extent(shape, lie, 0).unwrap();
        let millimetres = |whole: i64| number::from_whole(whole) / 1e6;
        assert!((millimetres(extent.along) - along).abs() < 1e-5, "along is {}", millimetres(extent.along));
        assert!((millimetres(extent.across) - across).abs() < 1e-5, "across is {}", millimetres(extent.across));
    }

    /// Own arithmetic: 27.9 in goes up to 28 in; 45.1 in across goes up to 45 1/8 in, 44.95 in only to the 45 in of the
    /// goods.
    #[test]
    fn the_room_round_a_drawn_piece_goes_up_to_a_mark() {
        let inches = Length::inches;
        let corner = |along: f64, across: f64| OutlinePoint { along: inches(along), across: inches(across) };
        let outline = |along, across| Shape::Outline(vec![corner(0.0, 0.0), corner(along, 0.0), corner(along, across)]);
        let piece = |shape| CutPiece::new("gore", 1, shape).with_mark(Some(inches(0.125)));
        let full = 45 * 25_400_000;
        let sized = |piece: &CutPiece| room(piece, Lie::Along, full).map(|room| (room.along, room.across));
        let eighths = |count: i64| count * 3_175_000;
        assert_eq!(sized(&piece(outline(27.9, 44.95))), Some((eighths(224), full)));
        assert_eq!(sized(&piece(outline(28.0, 12.51))), Some((eighths(224), eighths(101))));
        assert_eq!(sized(&piece(outline(28.0, 45.1))), Some((eighths(224), eighths(361))));
        // Up to a mark it would be 45 1/8 in, more than the goods have, though not the piece.
        let odd = Length::inches(45.05).steps();
        let odd = number::nearest_whole(odd).unwrap();
        let wide = piece(outline(28.0, 45.02));
        assert_eq!(room(&wide, Lie::Along, odd).map(|room| room.across), Some(odd));
        let rectangle = Shape::Rectangle { along: inches(27.9), across: inches(12.51) };
        assert_eq!(room(&piece(rectangle.clone()), Lie::Along, full), extent(&rectangle, Lie::Along, full));
    }

    fn sector(inner: f64, outer: f64, turn: f64) -> Shape {
        Shape::Sector { inner: Length::centimetres(inner), outer: Length::centimetres(outer), turn }
    }

    #[test]
    fn sectors_by_the_quarter() {
        // Own geometry: a half circle is 2R by R, a quarter R by R, three quarters 2R by 2R.
        check(&sector(5.0, 40.0, 1.0), Lie::Along, 800.0, 800.0);
        check(&sector(5.0, 40.0, 0.75), Lie::Along, 800.0, 800.0);
        check(&sector(5.0, 40.0, 0.5), Lie::Along, 800.0, 400.0);
        check(&sector(5.0, 40.0, 0.5), Lie::Across, 400.0, 800.0);
        check(&sector(5.0, 40.0, 0.25), Lie::Along, 400.0, 400.0);
        // A third: from -R/2 to R along, R across.
        check(&sector(0.0, 40.0, 1.0 / 3.0), Lie::Along, 600.0, 400.0);
        // An eighth of a ring starts where the inner edge ends: r cos 45 to R.
        check(&sector(10.0, 40.0, 0.125), Lie::Along, 400.0 - 100.0 * FRAC_1_SQRT_2, 400.0 * FRAC_1_SQRT_2);
        // A quarter on the bias spreads sqrt 2 R one way and R the other.
        check(&sector(0.0, 40.0, 0.25), Lie::Bias, 800.0 * FRAC_1_SQRT_2, 400.0);
    }

    #[test]
    fn a_rectangle_on_the_bias() {
        let shape = Shape::Rectangle { along: Length::centimetres(30.0), across: Length::centimetres(10.0) };
        check(&shape, Lie::Bias, 400.0 * FRAC_1_SQRT_2, 400.0 * FRAC_1_SQRT_2);
    }

    #[test]
    fn an_outline_and_its_area() {
        let corner =
            |along, across| OutlinePoint { along: Length::centimetres(along), across: Length::centimetres(across) };
        let triangle = Shape::Outline(vec![corner(1.0, 1.0), corner(7.0, 1.0), corner(1.0, 5.0)]);
        check(&triangle, Lie::Along, 60.0, 40.0);
        assert!((area(&triangle, 0) / 1e14 - 12.0).abs() < 1e-9);
    }
}
