//! The three named roundings; nothing is rounded anywhere else except to be shown.
//!
//! Each first takes what lies within [`TOLERANCE`](super::number::TOLERANCE) of a mark to be that
//! mark, so that float noise never buys a yard or drops a strip.

use super::error::QuantityError;
use super::number;
use super::value::Quantity;

/// *Counted*: up to a whole number. None when there is no such number.
pub(crate) fn counted(value: f64) -> Option<i64> {
    number::nearest_whole(number::snapped(value).ceil())
}

/// Down to a whole number: how many whole strips a roll holds.
pub(crate) fn whole_ones(value: f64) -> Option<i64> {
    number::nearest_whole(number::snapped(value).floor())
}

/// *Bought*: up to a whole number of selling steps.
pub(crate) fn bought(amount: Quantity, step: Quantity) -> Result<Quantity, QuantityError> {
    to_step(amount, step, |steps| number::snapped(steps).ceil())
}

/// *Cut*: to the nearest mark of the tape, or up to the next where it may never be smaller.
pub(crate) fn cut(size: Quantity, mark: Quantity, never_smaller: bool) -> Result<Quantity, QuantityError> {
    if never_smaller { bought(size, mark) } else { to_step(size, mark, f64::round) }
}

fn to_step(amount: Quantity, step: Quantity, round: fn(f64) -> f64) -> Result<Quantity, QuantityError> {
    amount.minus(step)?;
    if step.steps() <= 0.0 {
        return Err(QuantityError::NoStep);
    }
    let steps = round(amount.steps() / step.steps()) * step.steps();
    Ok(Quantity::from_steps(steps, amount.dimension()).liking(amount.liked()))
}

/// How far below half a cent float noise can push an amount, as a share of it. A hundred operations come to less, and
/// on a million it is less than a thousandth of a cent: the tolerance of counts would move a bill of $60,000 by a cent.
const CENT_NOISE: f64 = 1e-12;

/// To the cent, halves away from zero: for a price line or a total, nowhere else.
pub(crate) fn to_the_cent(amount: Quantity) -> Result<Quantity, QuantityError> {
    let cents = amount.currency_units()? * 100.0;
    // Halves that float noise has pushed just below half still go away from zero.
    let nudged = cents + cents.signum() * CENT_NOISE * cents.abs().max(1.0);
    let rounded = Quantity::money(nudged.round() / 100.0);
    // The largest of all amounts would be nudged beyond what can be reckoned with.
    if rounded.steps().is_finite() { Ok(rounded.liking(amount.liked())) } else { Err(QuantityError::OutOfRange) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;

    #[test]
    fn an_amount_too_large_to_be_rounded_is_refused() {
        assert_eq!(
            to_the_cent(Quantity::from_steps(f64::MAX, crate::quantity::Dimension::MONEY)),
            Err(QuantityError::OutOfRange)
        );
    }

    #[test]
    fn counts_go_up_but_not_for_noise() {
        assert_eq!(counted(665.5 / 5.5), Some(121));
        assert_eq!(counted((666.0 - 0.5) / (6.0 - 0.5)), Some(121));
        assert_eq!(counted(3.000_001), Some(4));
        assert_eq!(whole_ones(900.0 / 54.0), Some(16));
        assert_eq!(whole_ones(2.999_999_999_9), Some(3));
    }

    #[test]
    fn bought_goes_up_and_cut_goes_to_the_nearest_mark() {
        let eighth = Quantity::of(0.125, Unit::Inch);
        let need = Quantity::of(13.88, Unit::Inch);
        assert_eq!(cut(need, eighth, false).unwrap().count_of(Unit::Inch), Ok(13.875));
        assert_eq!(cut(need, eighth, true).unwrap().count_of(Unit::Inch), Ok(14.0));
        assert_eq!(bought(need, Quantity::of(1.0, Unit::Inch)).unwrap().count_of(Unit::Inch), Ok(14.0));
        assert_eq!(bought(need, Quantity::of(0.0, Unit::Inch)), Err(QuantityError::NoStep));
        assert!(bought(need, Quantity::of(1.0, Unit::Minute)).is_err());
    }

    #[test]
    fn cents_go_half_away_from_zero() {
        for (given, wanted) in
            [(1.005, 1.01), (-1.005, -1.01), (2.004_999, 2.0), (15.75, 15.75), (0.004_999_999_985, 0.0)]
                .into_iter()
                .chain([(61_612.574_94, 61_612.57), (61_612.575, 61_612.58)])
        {
            let shown = to_the_cent(Quantity::money(given)).unwrap().currency_units().unwrap();
            assert!((shown - wanted).abs() < 1e-9, "{given} became {shown}");
        }
    }
}
