//! Rounding requested by name: to a step of any quantity, or to a whole number.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Operation, Quantity, QuantityError, number, rounding};

/// Rounds up to whole steps.
pub fn rounded_up(amount: Quantity, step: Quantity) -> Result<Quantity, TextileError> {
    checked(amount, step)?;
    in_range(rounding::bought(amount, step)?)
}

/// Rounds down to whole steps.
pub fn rounded_down(amount: Quantity, step: Quantity) -> Result<Quantity, TextileError> {
    checked(amount, step)?;
    // Down is minus the negative rounded up; subtracting from zero avoids a negative zero.
    let up = in_range(rounding::bought(amount.negated(), step)?)?;
    Ok(Quantity::from_steps(0.0 - up.steps(), up.dimension()).liking(up.liked()))
}

/// Rounds to the nearest whole step, halves away from zero.
pub fn rounded_nearest(amount: Quantity, step: Quantity) -> Result<Quantity, TextileError> {
    checked(amount, step)?;
    // A half that float noise has pushed just below half still goes away from zero.
    let halves = number::snapped(amount.steps() * 2.0 / step.steps());
    let near = Quantity::from_steps(halves / 2.0 * step.steps(), amount.dimension()).liking(amount.liked());
    in_range(rounding::cut(near, step, false)?)
}

/// Rounds up to a whole number.
pub fn up(value: f64) -> Result<i64, TextileError> {
    rounding::counted(guard::finite("value", value)?).ok_or(TextileError::OutOfRange)
}

/// Rounds down to a whole number.
pub fn down(value: f64) -> Result<i64, TextileError> {
    rounding::rounded_down(guard::finite("value", value)?).ok_or(TextileError::OutOfRange)
}

/// Rounds to the nearest whole number, halves away from zero.
pub fn nearest(value: f64) -> Result<i64, TextileError> {
    let halves = number::snapped(guard::finite("value", value)? * 2.0);
    number::nearest_whole(halves / 2.0).ok_or(TextileError::OutOfRange)
}

fn checked(amount: Quantity, step: Quantity) -> Result<(), TextileError> {
    let (left, right) = (amount.dimension(), step.dimension());
    if left != right {
        return Err(QuantityError::Unlike { operation: Operation::Round, left, right }.into());
    }
    if !amount.steps().is_finite() {
        return Err(TextileError::NotFinite { argument: "amount" });
    }
    if !step.steps().is_finite() {
        return Err(TextileError::NotFinite { argument: "step" });
    }
    if step.steps() <= 0.0 {
        return Err(TextileError::NotPositive { argument: "step", given: step });
    }
    Ok(())
}

fn in_range(amount: Quantity) -> Result<Quantity, TextileError> {
    if amount.steps().is_finite() { Ok(amount) } else { Err(TextileError::OutOfRange) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;

    fn inches(value: f64) -> Quantity {
        Quantity::of(value, Unit::Inch)
    }

    #[track_caller]
    fn same(given: Result<Quantity, TextileError>, wanted: f64) {
        let given = given.unwrap().count_of(Unit::Inch).unwrap();
        assert!((given - wanted).abs() < 1e-9, "{given} is not {wanted}");
    }

    #[test]
    fn to_a_step() {
        same(rounded_up(inches(13.88), inches(0.125)), 14.0);
        same(rounded_down(inches(13.88), inches(0.125)), 13.875);
        same(rounded_down(inches(14.0), inches(0.125)), 14.0);
        same(rounded_down(inches(-0.5), inches(1.0)), -1.0);
        same(rounded_nearest(inches(0.0625), inches(0.125)), 0.125);
        same(rounded_nearest(inches(13.9), inches(0.125)), 13.875);
        let nothing = rounded_down(inches(0.5), inches(1.0)).unwrap().steps();
        assert_eq!(nothing.to_bits(), 0.0f64.to_bits());
    }

    #[test]
    fn only_to_a_step_of_its_own_kind() {
        let error = rounded_up(inches(1.0), Quantity::of(1.0, Unit::Minute)).unwrap_err();
        assert_eq!(error.to_string(), "a length and a time cannot be rounded to each other");
        let error = rounded_up(inches(1.0), inches(0.0)).unwrap_err();
        assert_eq!(error.to_string(), "step is 0 in; it must be more than zero");
        // A step of a plain number may be less than one.
        let halves = rounded_up(Quantity::number(2.3), Quantity::number(0.5)).unwrap();
        assert_eq!(halves.to_number(), Ok(2.5));
        assert!(rounded_nearest(inches(f64::NAN), inches(1.0)).is_err());
        assert!(rounded_down(inches(1.0), inches(f64::INFINITY)).is_err());
    }

    #[test]
    fn whole_numbers() {
        assert_eq!((up(2.1), down(2.9), nearest(2.5), nearest(-2.5)), (Ok(3), Ok(2), Ok(3), Ok(-3)));
        assert_eq!((up(0.1 + 0.2 + 0.7), down(1.1 / 0.1)), (Ok(1), Ok(11)));
        assert_eq!(nearest(2.5 - 1e-12), Ok(3));
        assert!(up(f64::NAN).is_err());
        assert!(down(1e300).is_err());
    }
}
