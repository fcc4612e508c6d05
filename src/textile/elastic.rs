//! Elastic at a waist, a wrist, a hem: how long to cut it, and when it presses too hard.
//!
//! The limits are the program's own caution, from studies of adults (a band 5 % shorter than the body already pressed
//! noticeably); no figures for children were found. They do not promise comfort.

use super::error::TextileError;
use super::guard;
use crate::quantity::{Length, Quantity, Unit, number};

/// Above this reduction a caution is shown.
pub const REDUCTION_CAUTION: f64 = 0.10;

/// Above this reduction the length is refused.
pub const REDUCTION_MOST: f64 = 0.25;

/// The caution that a reduction needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ElasticCaution {
    /// Up to 10 % shorter than the body.
    None,
    /// More than 10 %: warn.
    Tight,
    /// More than 25 %: refuse.
    TooTight,
}

/// The caution for a reduction, however the length was found.
pub fn elastic_caution(reduction: f64) -> ElasticCaution {
    let above = |limit: f64| reduction > limit && !number::is_near(reduction, limit);
    // NaN and infinity are never allowed.
    if !reduction.is_finite() || above(REDUCTION_MOST) {
        ElasticCaution::TooTight
    } else if above(REDUCTION_CAUTION) {
        ElasticCaution::Tight
    } else {
        ElasticCaution::None
    }
}

/// Length that the joined elastic measures relaxed: `body · (1 - reduction)`.
pub fn elastic_worn(body: Length, reduction: f64) -> Result<Length, TextileError> {
    guard::positive("body", body)?;
    guard::not_negative("reduction", reduction)?;
    allowed(reduction)?;
    Ok(body * (1.0 - reduction))
}

/// Length to cut: `body · (1 - reduction) + overlap`.
pub fn elastic_length(body: Length, reduction: f64, overlap: Length) -> Result<Length, TextileError> {
    guard::not_negative("overlap", overlap)?;
    guard::finite_result(elastic_worn(body, reduction)? + overlap)
}

/// Length to cut of elastic that is shorter than the body by a length: `body - shorter + overlap`. The same limits
/// hold as for a share.
pub fn elastic_shorter_by(body: Length, shorter: Length, overlap: Length) -> Result<Length, TextileError> {
    guard::positive("body", body)?;
    guard::not_negative("shorter", shorter)?;
    guard::not_negative("overlap", overlap)?;
    allowed(guard::finite_result(shorter / body)?)?;
    guard::finite_result(body - shorter + overlap)
}

/// The share by which relaxed elastic is shorter than the body: `1 - relaxed / body`; negative if it hangs loose. For
/// a length given in inches rather than as a reduction.
pub fn elastic_reduction(body: Length, relaxed: Length) -> Result<f64, TextileError> {
    guard::positive("body", body)?;
    guard::positive("relaxed", relaxed)?;
    let reduction = guard::finite_result(1.0 - relaxed / body)?;
    allowed(reduction)?;
    Ok(reduction)
}

/// How far the elastic stretches to go over something: `over / relaxed - 1`; negative if it hangs loose.
pub fn elastic_stretch(relaxed: Length, over: Length) -> Result<f64, TextileError> {
    guard::positive("relaxed", relaxed)?;
    guard::positive("over", over)?;
    guard::finite_result(over / relaxed - 1.0)
}

fn allowed(reduction: f64) -> Result<(), TextileError> {
    match elastic_caution(reduction) {
        ElasticCaution::TooTight => {
            Err(TextileError::ElasticTooTight { given: percent(reduction), most: percent(REDUCTION_MOST) })
        }
        ElasticCaution::Tight | ElasticCaution::None => Ok(()),
    }
}

fn percent(share: f64) -> Quantity {
    Quantity::of(share * 100.0, Unit::Percent)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reduction_over_a_quarter_is_refused_and_over_a_tenth_cautioned() {
        let error = elastic_worn(Length::inches(21.0), 0.3).unwrap_err();
        assert_eq!(
            error.to_string(),
            "reduction is 30 %; elastic cut more than 25 % shorter than the body is not reckoned here"
        );
        assert!(elastic_worn(Length::inches(21.0), 0.25).is_ok());
        assert!(elastic_worn(Length::inches(21.0), -0.1).is_err());
        assert!(elastic_worn(Length::inches(21.0), f64::NAN).is_err());
        assert_eq!(elastic_caution(0.1), ElasticCaution::None);
        assert_eq!(elastic_caution(0.3 - 0.2), ElasticCaution::None);
        assert_eq!(elastic_caution(0.11), ElasticCaution::Tight);
        assert_eq!(elastic_caution(0.26), ElasticCaution::TooTight);
        assert_eq!(elastic_caution(f64::NAN), ElasticCaution::TooTight);
        assert_eq!(elastic_caution(f64::INFINITY), ElasticCaution::TooTight);
    }

    #[test]
    fn a_length_asked_for_in_inches_meets_the_same_limits() {
        let body = Length::inches(21.0);
        let reduction = elastic_reduction(body, Length::inches(18.0)).unwrap();
        assert_eq!(elastic_caution(reduction), ElasticCaution::Tight);
        assert!(elastic_reduction(body, Length::inches(15.0)).is_err());
        let (three, one) = (Length::inches(3.0), Length::inches(1.0));
        assert_eq!(elastic_shorter_by(body, three, one), Ok(Length::inches(19.0)));
        assert_eq!(elastic_shorter_by(body, body / 4.0, one), Ok(Length::inches(16.75)));
        let error = elastic_shorter_by(body, Length::inches(6.0), one).unwrap_err();
        assert!(error.to_string().starts_with("reduction is ≈ 28.5714 %"), "{error}");
    }
}
