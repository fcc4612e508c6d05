//! What cloth weighs: from its area, by a sample on the scales, and in a parcel.
//!
//! Mass per unit area by weighing a measured sample is the method of ISO 3801 and of school-room tests; cloth weight
//! is mass per area, in any unit.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Area, Dimension, Length, Mass, Quantity, number};

/// Weight of a piece of cloth: `along · across · weight`.
pub fn cloth_weight(along: Length, across: Length, weight: Quantity) -> Result<Mass, TextileError> {
    area_weight(guard::positive("along", along)? * guard::positive("across", across)?, weight)
}

/// Weight of an area of cloth: `area · weight`.
pub fn area_weight(area: Area, weight: Quantity) -> Result<Mass, TextileError> {
    guard::not_negative("area", area)?;
    guard::finite_result(Mass::try_from(Quantity::from(area).times(by_area(weight)?)?)?)
}

/// Cloth weight of a sample that was measured and weighed: `mass / (along · across)`.
pub fn weight_of_sample(mass: Mass, along: Length, across: Length) -> Result<Quantity, TextileError> {
    guard::positive("mass", mass)?;
    let area = guard::positive("along", along)? * guard::positive("across", across)?;
    let weight = Quantity::from(mass).per(area.into())?;
    if weight.steps().is_finite() { Ok(weight) } else { Err(TextileError::OutOfRange) }
}

/// Length of a roll or remnant from its weight: `mass / (width · weight)`. Its core is weighed with it.
pub fn length_by_weight(mass: Mass, width: Length, weight: Quantity) -> Result<Length, TextileError> {
    guard::positive("mass", mass)?;
    let by_length = Quantity::from(guard::positive("width", width)?).times(by_area(weight)?)?;
    guard::finite_result(Length::try_from(Quantity::from(mass).per(by_length)?)?)
}

/// Weight to pay postage for: `goods + packing`, rounded up to the next whole `step`.
pub fn postage_weight(goods: Mass, packing: Mass, step: Mass) -> Result<Mass, TextileError> {
    let parcel = guard::positive("goods", goods)? + guard::not_negative("packing", packing)?;
    guard::positive("step", step)?;
    let steps = guard::counted("steps", parcel / step, 1)?;
    guard::finite_result((step * number::from_whole(steps)).liking(parcel.liked()))
}

/// Checks that a quantity is a weight of cloth and more than zero.
fn by_area(weight: Quantity) -> Result<Quantity, TextileError> {
    if weight.dimension() != Dimension::MASS_BY_AREA {
        return Err(TextileError::NotAClothWeight { given: weight });
    }
    if !weight.steps().is_finite() {
        return Err(TextileError::NotFinite { argument: "weight" });
    }
    if weight.steps() <= 0.0 {
        return Err(TextileError::NotPositive { argument: "weight", given: weight });
    }
    Ok(weight)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Diagnose;
    use crate::quantity::Unit;

    fn grams(value: f64) -> Mass {
        Mass::try_from(Quantity::of(value, Unit::Gram)).unwrap()
    }

    fn centimetres(value: f64) -> Length {
        Length::centimetres(value)
    }

    #[test]
    fn a_sample_undoes_a_weight() {
        let weight = weight_of_sample(grams(1.5), centimetres(10.0), centimetres(10.0)).unwrap();
        assert_eq!(cloth_weight(centimetres(100.0), centimetres(100.0), weight), Ok(grams(150.0)));
        assert_eq!(length_by_weight(grams(300.0), centimetres(100.0), weight), Ok(centimetres(200.0)));
    }

    #[test]
    fn postage_goes_up_to_a_step_but_not_for_noise() {
        assert_eq!(postage_weight(grams(240.0), grams(60.0), grams(100.0)), Ok(grams(300.0)));
        assert_eq!(postage_weight(grams(240.0), grams(61.0), grams(100.0)), Ok(grams(400.0)));
        assert_eq!(postage_weight(grams(0.1), grams(0.2), grams(0.3)), Ok(grams(0.3)));
        assert_eq!(postage_weight(grams(1.0), grams(0.0), grams(100.0)), Ok(grams(100.0)));
        assert_eq!(postage_weight(grams(1e-10), grams(0.0), grams(100.0)), Ok(grams(100.0)), "one step is the least");
        let error = postage_weight(grams(1.0), grams(0.0), grams(0.0)).unwrap_err();
        assert_eq!(error.to_string(), "step is 0 g; it must be more than zero");
        assert!(postage_weight(grams(1e9), grams(0.0), grams(0.001)).is_err(), "more steps than can be meant");
    }

    #[test]
    fn what_is_no_cloth_weight_is_refused() {
        let error = cloth_weight(centimetres(1.0), centimetres(1.0), grams(3.0).into()).unwrap_err();
        assert_eq!(error.to_string(), "weight is 3 g; it must be a weight of cloth, mass by the area");
        assert!(error.hint().is_some());
        let nothing = Quantity::from_steps(0.0, Dimension::MASS_BY_AREA);
        assert!(cloth_weight(centimetres(1.0), centimetres(1.0), nothing).is_err());
        let endless = Quantity::from_steps(f64::INFINITY, Dimension::MASS_BY_AREA);
        assert!(length_by_weight(grams(1.0), centimetres(1.0), endless).is_err());
    }
}
