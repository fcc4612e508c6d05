//! From cost to price. A mark-up is on the cost; margin and fee are on the price.

use super::error::TextileError;
use super::guard;
use crate::quantity::Money;

/// Price with a mark-up on the cost: `cost · (1 + mark_up)`.
pub fn marked_up(cost: Money, mark_up: f64) -> Result<Money, TextileError> {
    guard::not_negative("cost", cost)?;
    guard::finite_result(cost * (1.0 + guard::not_negative("mark_up", mark_up)?))
}

/// Price that keeps a margin: `cost / (1 - margin)`.
pub fn price_at_margin(cost: Money, margin: f64) -> Result<Money, TextileError> {
    guard::not_negative("cost", cost)?;
    guard::finite_result(cost / (1.0 - guard::share("margin", margin)?))
}

/// The mark-up equal to a margin: `margin / (1 - margin)`.
pub fn mark_up_of_margin(margin: f64) -> Result<f64, TextileError> {
    let margin = guard::share("margin", margin)?;
    guard::finite_result(margin / (1.0 - margin))
}

/// The margin equal to a mark-up: `mark_up / (1 + mark_up)`.
pub fn margin_of_mark_up(mark_up: f64) -> Result<f64, TextileError> {
    let mark_up = guard::not_negative("mark_up", mark_up)?;
    guard::finite_result(mark_up / (1.0 + mark_up))
}

/// Price that leaves `net` after a fee on the price: `net / (1 - fee)`.
pub fn grossed_up(net: Money, fee: f64) -> Result<Money, TextileError> {
    guard::not_negative("net", net)?;
    guard::finite_result(net / (1.0 - guard::share("fee", fee)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    fn money(value: f64) -> Money {
        Money::try_from(Quantity::money(value)).unwrap()
    }

    #[test]
    fn a_margin_of_half_is_a_mark_up_of_the_whole() {
        assert_eq!(mark_up_of_margin(0.5), Ok(1.0));
        assert_eq!(margin_of_mark_up(1.0), Ok(0.5));
        assert_eq!(marked_up(money(40.0), 1.0), price_at_margin(money(40.0), 0.5));
        assert!((grossed_up(money(40.0), 0.065).unwrap() / money(42.780_748_663) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_share_of_the_whole_price_is_refused() {
        assert!(price_at_margin(money(40.0), 1.0).is_err());
        assert!(mark_up_of_margin(1.5).is_err());
        assert!(grossed_up(money(40.0), f64::NAN).is_err());
        assert!(marked_up(money(-1.0), 0.5).is_err());
        assert!(marked_up(money(1.0), -0.5).is_err());
        assert!(margin_of_mark_up(f64::INFINITY).is_err());
    }
}
