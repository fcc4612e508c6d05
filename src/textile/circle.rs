//! Skirts and flounces cut from a circle or part of one.
//!
//! `turn` is how much of a full circle the cloth goes round: 1, 3/4, 1/2, 1/4, or anything up to 2.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Area, Length, Quantity};
use std::f64::consts::PI;

/// The most that a skirt may go round: two full circles.
const MOST_TURN: f64 = 2.0;

/// Radius to cut the inner edge at: `edge / (2 π · turn)`.
pub fn circle_radius(edge: Length, turn: f64) -> Result<Length, TextileError> {
    guard::positive("edge", edge)?;
    guard::finite_result(edge / (2.0 * PI * turn_of(turn)?))
}

/// Length of the edge cut at a radius, such as the hem round a skirt: `2 π · turn · radius`.
pub fn circle_sweep(radius: Length, turn: f64) -> Result<Length, TextileError> {
    guard::positive("radius", radius)?;
    guard::finite_result(radius * (2.0 * PI * turn_of(turn)?))
}

/// Cloth in a ring or part of one: `π · turn · (outer² - inner²)`.
pub fn circle_area(inner: Length, outer: Length, turn: f64) -> Result<Area, TextileError> {
    guard::not_negative("inner", inner)?;
    guard::positive("outer", outer)?;
    guard::within("inner", inner, "outer", outer)?;
    // Edges that are equal but for float noise leave nothing between them, never a negative area.
    let square = (outer * outer - inner * inner).most(Area::ZERO);
    guard::finite_result(square * (PI * turn_of(turn)?))
}

/// Radius to cut the inner edge at, less the allowance of the seam there: `edge / (2 π · turn) - allowance`. `edge`
/// includes what the side seams take.
pub fn circle_cut_radius(edge: Length, turn: f64, allowance: Length) -> Result<Length, TextileError> {
    guard::remaining(("radius", circle_radius(edge, turn)?), ("allowance", allowance), 1)
}

/// Radius to cut the outer edge at: `radius + length + hem`, from the seam line, not from the cut edge.
pub fn circle_outer_radius(radius: Length, length: Length, hem: Length) -> Result<Length, TextileError> {
    guard::positive("radius", radius)?;
    guard::positive("length", length)?;
    guard::finite_result(radius + length + guard::not_negative("hem", hem)?)
}

/// Width of cloth that a part of a circle takes with one straight edge along the selvedge: a half or a smaller part
/// down to a quarter takes its outer radius, three quarters and more take twice that.
pub fn sector_across(outer: Length, turn: f64) -> Result<Length, TextileError> {
    guard::positive("outer", outer)?;
    let turn = part_of(turn)?;
    let edge = (2.0 * PI * turn).sin();
    let above = if turn < 0.25 { edge } else { 1.0 };
    let below = match turn {
        ..=0.5 => 0.0,
        ..=0.75 => -edge,
        _ => 1.0,
    };
    guard::finite_result(outer * (above + below))
}

/// Length of cloth that it takes along the selvedge in the same position.
pub fn sector_along(inner: Length, outer: Length, turn: f64) -> Result<Length, TextileError> {
    guard::not_negative("inner", inner)?;
    guard::positive("outer", outer)?;
    guard::within("inner", inner, "outer", outer)?;
    let turn = part_of(turn)?;
    let edge = (2.0 * PI * turn).cos();
    let back = match turn {
        ..=0.25 => inner * edge,
        ..=0.5 => outer * edge,
        _ => Length::ZERO - outer,
    };
    guard::finite_result((outer - back).most(Length::ZERO))
}

/// Checks a part of a circle that is cut in one piece: at most the whole.
fn part_of(turn: f64) -> Result<f64, TextileError> {
    if guard::positive("turn", turn)? <= 1.0 {
        Ok(turn)
    } else {
        let most = Quantity::number(1.0);
        Err(TextileError::TooLarge { argument: "turn", given: Quantity::number(turn), most })
    }
}

fn turn_of(turn: f64) -> Result<f64, TextileError> {
    if guard::positive("turn", turn)? <= MOST_TURN {
        Ok(turn)
    } else {
        let most = Quantity::number(MOST_TURN);
        Err(TextileError::TooLarge { argument: "turn", given: Quantity::number(turn), most })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sweep_undoes_a_radius() {
        for turn in [0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0] {
            let radius = circle_radius(Length::inches(21.0), turn).unwrap();
            assert_eq!(circle_sweep(radius, turn), Ok(Length::inches(21.0)));
        }
    }

    #[test]
    fn a_seam_comes_off_inside_and_a_hem_is_added_outside() {
        let cm = Length::centimetres;
        let seam_line = circle_radius(cm(114.0), 1.0).unwrap();
        assert_eq!(circle_cut_radius(cm(114.0), 1.0, cm(1.0)), Ok(seam_line - cm(1.0)));
        assert!(circle_cut_radius(cm(6.0), 1.0, cm(1.0)).is_err());
        assert_eq!(circle_outer_radius(cm(10.0), cm(40.0), cm(2.0)), Ok(cm(52.0)));
    }

    #[test]
    fn a_part_of_a_circle_lies_in_its_rectangle() {
        let cm = Length::centimetres;
        for (turn, across, along) in [(0.25, 40.0, 40.0), (0.5, 40.0, 80.0), (0.75, 80.0, 80.0), (1.0, 80.0, 80.0)] {
            assert_eq!(sector_across(cm(40.0), turn), Ok(cm(across)), "{turn}");
            assert_eq!(sector_along(cm(5.0), cm(40.0), turn), Ok(cm(along)), "{turn}");
        }
        // A twelfth of a turn: half its radius across; a sixth: an inner edge of 10 ends 5 from the middle.
        assert_eq!(sector_across(cm(40.0), 1.0 / 12.0), Ok(cm(20.0)));
        assert_eq!(sector_along(cm(10.0), cm(40.0), 1.0 / 6.0), Ok(cm(35.0)));
        assert_eq!(sector_along(cm(0.0), cm(40.0), 1.0 / 3.0), Ok(cm(60.0)));
        let error = sector_across(cm(40.0), 1.5).unwrap_err();
        assert_eq!(error.to_string(), "turn is 1.5; the most is 1");
        assert!(sector_along(cm(41.0), cm(40.0), 0.5).is_err());
        assert!(sector_along(cm(0.0), cm(0.0), 0.5).is_err() && circle_area(cm(0.0), cm(0.0), 0.5).is_err());
    }

    #[test]
    fn a_turn_is_more_than_zero_and_no_more_than_two() {
        for bad in [0.0, -0.5, 2.01, f64::NAN, f64::INFINITY] {
            assert!(circle_radius(Length::inches(21.0), bad).is_err(), "{bad}");
            assert!(circle_sweep(Length::inches(21.0), bad).is_err(), "{bad}");
            assert!(circle_area(Length::inches(3.0), Length::inches(21.0), bad).is_err(), "{bad}");
        }
        let error = circle_radius(Length::inches(21.0), 360.0).unwrap_err();
        assert_eq!(error.to_string(), "turn is 360; the most is 2");
        assert!(circle_area(Length::inches(21.0), Length::inches(3.0), 1.0).is_err());
    }
}
