//! The named roundings: counted, bought, cut, and to the cent. Apart from display, and from rounding that a script
//! requests by name, nothing else rounds.
//!
//! Rounding up or down first snaps a value within [`TOLERANCE`](super::number::TOLERANCE) of a mark to that mark, so
//! that float noise never buys a yard or drops a strip.

use super::error::QuantityError;
use super::number;
use super::value::Quantity;

/// *Counted*: rounds up to a whole number. `None` for NaN and beyond 2^53.
pub(crate) fn counted(value: f64) -> Option<i64> {
    number::nearest_whole(number::snapped(value).ceil())
}

/// Rounds down to a whole number, such as the whole strips on a roll. `None` for NaN and beyond 2^53.
pub(crate) fn rounded_down(value: f64) -> Option<i64> {
    number::nearest_whole(number::snapped(value).floor())
}

/// *Bought*: rounds up to a whole number of selling steps.
pub(crate) fn bought(amount: Quantity, step: Quantity) -> Result<Quantity, QuantityError> {
    to_step(amount, step, |steps| number::snapped(steps).ceil())
}

/// *Cut*: rounds to the nearest mark of the tape, or up to the next if `never_smaller`.
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

/// How far below half a cent float noise can push an amount, relative to it. A hundred operations stay below this,
/// and on a million it is less than a thousandth of a cent; the tolerance of counts would move a bill of $60,000 by a
/// cent.
const CENT_NOISE: f64 = 1e-12;

/// Rounds to the cent, halves away from zero. Only for a price line or a total.
pub(crate) fn to_the_cent(amount: Quantity) -> Result<Quantity, QuantityError> {
    let cents = amount.currency_units()? * 100.0;
    // A half that float noise has pushed just below half still goes away from zero.
    let nudged = cents + cents.signum() * CENT_NOISE * cents.abs().max(1.0);
    let rounded = Quantity::money(nudged.round() / 100.0);
    // Nudging overflows for the largest amounts.
    if rounded.steps().is_finite() { Ok(rounded.liking(amount.liked())) } else { Err(QuantityError::OutOfRange) }
}

/// Rounds shares of a whole to whole per cent that add up to 100: down first, then up where most was lost. Empty or
/// all zero where there is no whole.
pub(crate) fn whole_per_cent(parts: &[f64]) -> Vec<i64> {
    let whole: f64 = parts.iter().sum();
    if !(whole.is_finite() && whole > 0.0) {
        return vec![0; parts.len()];
    }
    let exact: Vec<f64> = parts.iter().map(|part| 100.0 * part / whole).collect();
    let mut shares: Vec<i64> = exact.iter().map(|share| rounded_down(*share).unwrap_or(0)).collect();
    let missing = 100 - shares.iter().sum::<i64>();
    let mut by_loss: Vec<usize> = (0..parts.len()).collect();
    let lost = |at: &usize| exact.get(*at).map_or(0.0, |share| number::snapped(*share).fract());
    by_loss.sort_by(|one, other| lost(other).total_cmp(&lost(one)));
    for at in by_loss.into_iter().take(number::count(missing).unwrap_or(0)) {
        if let Some(share) = shares.get_mut(at) {
            *share += 1;
        }
    }
    shares
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
    fn whole_shares_add_up_to_a_hundred() {
        // Thirds lose a third each: the first of them goes up.
        assert_eq!(whole_per_cent(&[1.0, 1.0, 1.0]), [34, 33, 33]);
        // 45.61, 29.09 and 25.30 of a hundred: the first lost most.
        assert_eq!(whole_per_cent(&[45.61, 29.09, 25.3]), [46, 29, 25]);
        assert_eq!(whole_per_cent(&[0.0, 0.0]), [0, 0]);
        assert_eq!(whole_per_cent(&[f64::NAN]), [0]);
    }

    #[test]
    fn counts_go_up_but_not_for_noise() {
        assert_eq!(counted(665.5 / 5.5), Some(121));
        assert_eq!(counted((666.0 - 0.5) / (6.0 - 0.5)), Some(121));
        assert_eq!(counted(3.000_001), Some(4));
        assert_eq!(rounded_down(900.0 / 54.0), Some(16));
        assert_eq!(rounded_down(2.999_999_999_9), Some(3));
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
        for (amount, expected) in
            [(1.005, 1.01), (-1.005, -1.01), (2.004_999, 2.0), (15.75, 15.75), (0.004_999_999_985, 0.0)]
                .into_iter()
                .chain([(61_612.574_94, 61_612.57), (61_612.575, 61_612.58)])
        {
            let shown = to_the_cent(Quantity::money(amount)).unwrap().currency_units().unwrap();
            assert!((shown - expected).abs() < 1e-9, "{amount} became {shown}");
        }
    }
}
