//! Gathering: how much flat cloth a gathered edge takes.
//!
//! Fullness is flat length over finished length, 1 or more; passes multiply. Trade usage, no single source; worked
//! values are in `tests/worked/gathering.csv`.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Flat length that gathers to `finished`: `finished · fullness`.
pub fn gathered_flat(finished: Length, fullness: f64) -> Result<Length, TextileError> {
    guard::positive("finished", finished)?;
    guard::finite_result(finished * guard::fullness("fullness", fullness)?)
}

/// Length that `flat` gathers to: `flat / fullness`.
pub fn gathered_length(flat: Length, fullness: f64) -> Result<Length, TextileError> {
    guard::positive("flat", flat)?;
    guard::finite_result(flat / guard::fullness("fullness", fullness)?)
}

/// Fullness of a test strip: `flat / finished`.
pub fn fullness_of(flat: Length, finished: Length) -> Result<f64, TextileError> {
    guard::positive("flat", flat)?;
    guard::positive("finished", finished)?;
    guard::within("finished", finished, "flat", flat)?;
    Ok(guard::finite_result(flat / finished)?.max(1.0))
}

/// Fullness of several passes, one after another: their product.
pub fn passes_together(passes: &[f64]) -> Result<f64, TextileError> {
    if passes.is_empty() {
        return Err(TextileError::Empty { argument: "passes" });
    }
    let together = passes
        .iter()
        .try_fold(1.0, |product, pass| Ok::<f64, TextileError>(product * guard::fullness("passes", *pass)?))?;
    guard::finite_result(together)
}

/// Share of its length that cloth loses in gathering: `1 - 1/fullness`.
pub fn take_up(fullness: f64) -> Result<f64, TextileError> {
    Ok(1.0 - 1.0 / guard::fullness("fullness", fullness)?)
}

/// Fullness for a share lost in gathering: `1 / (1 - take_up)`.
pub fn fullness_of_take_up(take_up: f64) -> Result<f64, TextileError> {
    guard::finite_result(1.0 / (1.0 - guard::share("take_up", take_up)?))
}

/// Fullness that a tucking foot gives: one tuck of `depth` in every `every` stitches takes
/// `every · stitch + 2 · depth` of cloth into `every · stitch` of seam.
///
/// A geometric model of our own; a test strip shows what the machine really does.
pub fn foot_fullness(stitch: Length, depth: Length, every: i64) -> Result<f64, TextileError> {
    guard::positive("stitch", stitch)?;
    guard::not_negative("depth", depth)?;
    let seam = stitch * guard::count("every", every)?;
    guard::finite_result(1.0 + depth * 2.0 / seam)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Diagnose;

    #[test]
    fn a_fullness_below_one_is_refused_in_plain_words() {
        let error = gathered_flat(Length::inches(10.0), 0.5).unwrap_err();
        assert_eq!(error.to_string(), "fullness is 0.5; a gathered edge needs 1 or more");
        assert!(error.hint().is_some());
        assert_eq!(
            fullness_of(Length::inches(10.0), Length::inches(12.0)).unwrap_err().to_string(),
            "finished is 12 in; it cannot be more than flat, 10 in"
        );
    }

    #[test]
    fn bad_figures_never_give_a_number() {
        let inch = Length::inches(1.0);
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -2.0, 0.0, 0.999] {
            assert!(gathered_flat(inch, bad).is_err(), "{bad}");
            assert!(gathered_length(inch, bad).is_err(), "{bad}");
            assert!(take_up(bad).is_err(), "{bad}");
            assert!(passes_together(&[2.0, bad]).is_err(), "{bad}");
        }
        for bad in [f64::NAN, f64::INFINITY, -2.0, 0.0] {
            assert!(gathered_flat(Length::inches(bad), 2.0).is_err(), "{bad}");
            assert!(fullness_of(inch, Length::inches(bad)).is_err(), "{bad}");
            assert!(foot_fullness(Length::inches(bad), inch, 1).is_err(), "{bad}");
        }
        assert_eq!(gathered_flat(Length::inches(1e200), 1e200), Err(TextileError::OutOfRange));
        assert_eq!(passes_together(&[]), Err(TextileError::Empty { argument: "passes" }));
        assert_eq!(foot_fullness(inch, inch, 0).unwrap_err().to_string(), "every is 0; it must be more than zero");
    }

    #[test]
    fn passes_multiply_and_a_foot_tucks() {
        assert_eq!(passes_together(&[6.0, 5.0]), Ok(30.0));
        let fullness = foot_fullness(Length::centimetres(0.25), Length::centimetres(0.3), 6).unwrap();
        assert!((fullness - 1.4).abs() < 1e-12);
        let lost = take_up(2.5).unwrap();
        assert!((fullness_of_take_up(lost).unwrap() - 2.5).abs() < 1e-12);
    }
}
