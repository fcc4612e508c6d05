//! Whole and half widths of cloth seamed side by side, for skirts and curtains.

use super::error::TextileError;
use super::guard;
use super::joins::strips_joined;
use crate::quantity::{Length, number};

/// Whether a curtain may hold a width cut in half lengthwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Widths {
    /// Whole widths only.
    Whole,
    /// Whole widths, and one half width if that is enough.
    Half,
}

impl Widths {
    /// The words a recipe uses.
    pub const WORDS: [(&'static str, Self); 2] = [("whole widths", Self::Whole), ("half widths", Self::Half)];

    /// Parses a recipe's words.
    pub fn named(words: &str) -> Result<Self, TextileError> {
        Self::WORDS.into_iter().find(|(known, _)| *known == words).map(|(_, widths)| widths).ok_or_else(|| {
            TextileError::UnknownWord {
                argument: "joins",
                given: words.to_owned(),
                known: Self::WORDS.into_iter().map(|(known, _)| known).collect(),
            }
        })
    }
}

/// Whole panels that make up `flat`, joins counted, `flat` to the raw edges:
/// the least n with `n · usable_width - 2 · seam · (n - 1) ≥ flat`.
pub fn panels_for(flat: Length, usable_width: Length, seam: Length) -> Result<i64, TextileError> {
    guard::remaining(("usable_width", usable_width), ("seam", seam), 2)?;
    strips_joined(flat, usable_width, seam)
}

/// What one more width joined at its side adds: `usable_width - 2 · seam`, and on a pattern that repeats across the
/// cloth as many whole repeats as go into that, because only there the two widths meet in pattern.
///
/// Zero is no repeat across. A repeat that is wider than what a join leaves is met by the selvedges as they are printed.
pub fn gained_by_width(usable_width: Length, seam: Length, repeat_across: Length) -> Result<Length, TextileError> {
    let gained = guard::remaining(("usable_width", usable_width), ("seam", seam), 2)?;
    guard::not_negative("repeat_across", repeat_across)?;
    if !repeat_across.is_positive() || repeat_across > gained {
        return Ok(gained);
    }
    let repeats = guard::count_down("repeats", gained / repeat_across)?;
    Ok(repeat_across * number::from_whole(repeats))
}

/// Widths that make up `flat`, joins counted, as panels or with one half width: the least n with
/// `(⌈n⌉ - 1) · gained + last ≥ flat`, where `gained` is [`gained_by_width`] and `last` is a whole or a half width.
pub fn widths_for(
    flat: Length,
    usable_width: Length,
    seam: Length,
    joins: Widths,
    repeat_across: Length,
) -> Result<f64, TextileError> {
    guard::positive("flat", flat)?;
    let gained = gained_by_width(usable_width, seam, repeat_across)?;
    let needed = |last: Length| if flat > last { guard::counted("widths", (flat - last) / gained, 0) } else { Ok(0) };
    let whole = number::from_whole(needed(usable_width)?) + 1.0;
    let half = number::from_whole(needed(usable_width / 2.0)?) + 0.5;
    Ok(if joins == Widths::Half && half < whole { half } else { whole })
}

/// Flat width to the raw edges that so many widths make, whole ones or with one half width at an end:
/// `(⌈n⌉ - 1) · gained + last`, as in [`widths_for`].
pub fn widths_reach(
    widths: f64,
    usable_width: Length,
    seam: Length,
    repeat_across: Length,
) -> Result<Length, TextileError> {
    guard::positive("widths", widths)?;
    let halves = guard::count("half widths", guard::counted("half widths", widths * 2.0, 1)?)?;
    let gained = gained_by_width(usable_width, seam, repeat_across)?;
    let last = if halves % 2.0 == 0.0 { usable_width } else { usable_width / 2.0 };
    guard::finite_result(gained * ((halves / 2.0).ceil() - 1.0) + last)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    #[test]
    fn half_widths_where_they_are_enough() {
        let half = |flat| widths_for(inches(flat), inches(54.0), inches(0.5), Widths::Half, Length::ZERO);
        assert_eq!(half(20.0), Ok(0.5));
        assert_eq!(half(27.0), Ok(0.5));
        assert_eq!(half(27.1), Ok(1.0));
        assert_eq!(half(80.0), Ok(1.5));
        assert_eq!(half(80.1), Ok(2.0));
        assert_eq!(widths_for(inches(20.0), inches(54.0), inches(0.5), Widths::Whole, Length::ZERO), Ok(1.0));
    }

    #[test]
    fn the_least_number_that_reaches() {
        for eighths in 1..4000 {
            let flat = inches(f64::from(eighths) / 8.0);
            for (joins, step) in [(Widths::Whole, 1.0), (Widths::Half, 0.5)] {
                for (across, gained) in [(0.0, 43.75), (60.0, 43.75), (4.0, 40.0)] {
                    let across = inches(across);
                    let n = widths_for(flat, inches(45.0), inches(0.625), joins, across).unwrap();
                    let last = |n: f64| if n.fract() == 0.0 { 45.0 } else { 22.5 };
                    let reach = |n: f64| inches(gained) * (n.ceil() - 1.0) + inches(last(n));
                    assert!(reach(n) >= flat);
                    assert!(n - step <= 0.0 || reach(n - step) < flat);
                    assert_eq!(widths_reach(n, inches(45.0), inches(0.625), across), Ok(reach(n)));
                }
            }
        }
    }

    /// Own arithmetic: 45 less two half inches leaves 44, in which a check of 3 in goes 14 times: 42 for each width
    /// joined. Three widths make 42 + 42 + 45 = 129.
    #[test]
    fn checks_meet_at_whole_repeats() {
        let check = inches(3.0);
        assert_eq!(gained_by_width(inches(45.0), inches(0.5), check), Ok(inches(42.0)));
        let widths = |flat| widths_for(inches(flat), inches(45.0), inches(0.5), Widths::Whole, check);
        assert_eq!((widths(129.0), widths(129.5)), (Ok(3.0), Ok(4.0)));
        assert_eq!(widths_for(inches(129.5), inches(45.0), inches(0.5), Widths::Whole, Length::ZERO), Ok(3.0));
    }

    #[test]
    fn faults_name_the_arguments_of_the_formula_called() {
        let error = panels_for(inches(100.0), inches(0.0), inches(0.5)).unwrap_err();
        assert_eq!(error.to_string(), "usable width is 0 in; it must be more than zero");
        // Both seams are less than the width, though three would be more.
        assert_eq!(panels_for(inches(5.0), inches(6.0), inches(2.5)), Ok(1));
        let error = Widths::named("thirds").unwrap_err();
        assert_eq!(error.to_string(), "joins is “thirds”; it must be one of whole widths, half widths");
    }
}
