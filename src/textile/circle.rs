//! Skirts and flounces cut from a circle or part of one.
//!
//! `turn` is how much of a full circle the cloth goes round: 1, 3/4, 1/2, 1/4, or anything up to 2.

use super::fault::TextileFault;
use super::guard;
use crate::quantity::{Area, Length, Quantity};
use std::f64::consts::PI;

/// The most that a skirt goes round: two full circles.
const MOST_TURN: f64 = 2.0;

/// Radius to cut the inner edge at: `edge / (2 π · turn)`.
pub fn circle_radius(edge: Length, turn: f64) -> Result<Length, TextileFault> {
    guard::positive("edge", edge)?;
    guard::result(edge / (2.0 * PI * turn_of(turn)?))
}

/// Length of the edge cut at a radius, such as the hem round a skirt: `2 π · turn · radius`.
pub fn circle_sweep(radius: Length, turn: f64) -> Result<Length, TextileFault> {
    guard::positive("radius", radius)?;
    guard::result(radius * (2.0 * PI * turn_of(turn)?))
}

/// Cloth in a ring or part of one: `π · turn · (outer² - inner²)`.
pub fn circle_area(inner: Length, outer: Length, turn: f64) -> Result<Area, TextileFault> {
    guard::not_negative("inner", inner)?;
    guard::positive("outer", outer)?;
    guard::within("inner", inner, "outer", outer)?;
    // Edges that are one but for float noise leave nothing between them, never less.
    let square = (outer * outer - inner * inner).most(Area::ZERO);
    guard::result(square * (PI * turn_of(turn)?))
}

fn turn_of(turn: f64) -> Result<f64, TextileFault> {
    if guard::positive("turn", turn)? <= MOST_TURN {
        Ok(turn)
    } else {
        let most = Quantity::number(MOST_TURN);
        Err(TextileFault::TooLarge { argument: "turn", given: Quantity::number(turn), most })
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
    fn a_turn_is_more_than_zero_and_no_more_than_two() {
        for bad in [0.0, -0.5, 2.01, f64::NAN, f64::INFINITY] {
            assert!(circle_radius(Length::inches(21.0), bad).is_err(), "{bad}");
            assert!(circle_sweep(Length::inches(21.0), bad).is_err(), "{bad}");
            assert!(circle_area(Length::inches(3.0), Length::inches(21.0), bad).is_err(), "{bad}");
        }
        let fault = circle_radius(Length::inches(21.0), 360.0).unwrap_err();
        assert_eq!(fault.to_string(), "turn is 360; the most is 2");
        assert!(circle_area(Length::inches(21.0), Length::inches(3.0), 1.0).is_err());
    }
}
