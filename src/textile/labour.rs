//! The cost of working time.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Dimension, Liked, Money, Quantity, Time};

/// `time · wage`, unrounded; the wage is money per time.
pub fn labour_cost(time: Time, wage: Quantity) -> Result<Money, TextileError> {
    guard::not_negative("time", time)?;
    if wage.dimension() != Dimension::MONEY_BY_TIME || !wage.steps().is_finite() || wage.steps() < 0.0 {
        return Err(TextileError::NotAWage { given: wage });
    }
    Ok(Money::try_from(Quantity::from(time).times(wage)?)?.liking(Liked::default()))
}

/// Time for a batch: `set_up + each · count`.
pub fn batch_time(set_up: Time, each: Time, count: i64) -> Result<Time, TextileError> {
    guard::not_negative("set_up", set_up)?;
    guard::not_negative("each", each)?;
    guard::finite_result(set_up + each * guard::count_or_none("count", count)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;

    fn minutes(value: f64) -> Time {
        Time::try_from(Quantity::of(value, Unit::Minute)).unwrap()
    }

    fn by_the_hour(value: f64) -> Quantity {
        Quantity::money(value).per(Quantity::of(1.0, Unit::Hour)).unwrap()
    }

    #[test]
    fn time_at_a_wage_is_money() {
        assert_eq!(labour_cost(minutes(48.0), by_the_hour(20.0)).map(Quantity::from), Ok(Quantity::money(16.0)));
        let error = labour_cost(minutes(48.0), Quantity::money(20.0)).unwrap_err();
        assert_eq!(error.to_string(), "wage is $20.00; it must be money by the time, zero or more");
        assert_eq!(labour_cost(minutes(48.0), by_the_hour(0.0)).map(Quantity::from), Ok(Quantity::money(0.0)));
        assert!(labour_cost(minutes(-1.0), by_the_hour(20.0)).is_err());
        assert!(labour_cost(minutes(1.0), by_the_hour(-20.0)).is_err());
        let endless = Quantity::from_steps(f64::INFINITY, Dimension::MONEY_BY_TIME);
        let error = labour_cost(minutes(1.0), endless).unwrap_err();
        assert!(matches!(error, TextileError::NotAWage { .. }), "{error}");
        assert_eq!(batch_time(minutes(10.0), minutes(4.0), 5), Ok(minutes(30.0)));
    }
}
