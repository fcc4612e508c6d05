//! Hems, turnings and shrinkage: what is added to a finished size before it is cut.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Size to cut: `finished + first + second`, one allowance at each end.
pub fn cut_size(finished: Length, first: Length, second: Length) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    let first = guard::not_negative("first", first)?;
    guard::finite_result(finished + first + guard::not_negative("second", second)?)
}

/// Size left once both allowances are taken up: `cut - first - second`.
pub fn finished_size(cut: Length, first: Length, second: Length) -> Result<Length, TextileError> {
    guard::positive("cut", cut)?;
    let taken = guard::not_negative("first", first)? + guard::not_negative("second", second)?;
    if taken < cut {
        Ok(cut - taken)
    } else {
        Err(TextileError::EatsTheStrip {
            argument: "first_and_second_together",
            given: taken.into(),
            times: 1,
            strip: "cut",
            limit: cut.into(),
        })
    }
}

/// Length to cut so that `length` is left after washing: `length / (1 - shrinkage)`.
pub fn before_shrinking(length: Length, shrinkage: f64) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    guard::finite_result(length / (1.0 - guard::share("shrinkage", shrinkage)?))
}

/// Length left after washing: `length · (1 - shrinkage)`.
pub fn after_shrinking(length: Length, shrinkage: f64) -> Result<Length, TextileError> {
    guard::positive("length", length)?;
    Ok(length * (1.0 - guard::share("shrinkage", shrinkage)?))
}

/// Share of its length that cloth lost: `1 - after / before`.
pub fn shrinkage_of(before: Length, after: Length) -> Result<f64, TextileError> {
    guard::positive("before", before)?;
    guard::positive("after", after)?;
    guard::within("after", after, "before", before)?;
    Ok((1.0 - after / before).max(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Diagnose;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    #[test]
    fn shrinkage_divides_and_is_not_added() {
        let cut = before_shrinking(inches(96.0), 0.04).unwrap();
        assert_eq!(cut, inches(100.0));
        assert_eq!(after_shrinking(cut, 0.04), Ok(inches(96.0)));
        assert!((shrinkage_of(inches(100.0), inches(96.0)).unwrap() - 0.04).abs() < 1e-12);
        let error = before_shrinking(inches(96.0), 8.0).unwrap_err();
        assert_eq!(error.to_string(), "shrinkage is 8; it must be less than 1 (100 %)");
        assert_eq!(error.hint().as_deref(), Some("write shrinkage as 8 % or 0.08"));
        let error = before_shrinking(inches(96.0), 1.0).unwrap_err();
        assert_eq!(error.to_string(), "shrinkage is 1; it must be less than 1 (100 %)");
        assert!(after_shrinking(inches(96.0), 1.0).is_err());
        assert!(before_shrinking(inches(96.0), f64::NAN).is_err());
        assert!(shrinkage_of(inches(96.0), inches(100.0)).is_err());
    }

    #[test]
    fn allowances_are_added_once_at_each_end() {
        assert_eq!(cut_size(inches(20.0), inches(2.5), inches(0.5)), Ok(inches(23.0)));
        assert_eq!(finished_size(inches(23.0), inches(2.5), inches(0.5)), Ok(inches(20.0)));
        let error = finished_size(inches(3.0), inches(2.5), inches(0.5)).unwrap_err();
        assert_eq!(error.to_string(), "first and second together is 3 in; it must be less than cut, 3 in");
        assert!(cut_size(inches(0.0), inches(2.5), inches(0.5)).is_err());
    }
}
