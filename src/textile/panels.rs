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

/// Widths that make up `flat`, joins counted, as panels or with one half width:
/// the least n with `n · usable_width - 2 · seam · (⌈n⌉ - 1) ≥ flat`.
pub fn widths_for(flat: Length, usable_width: Length, seam: Length, joins: Widths) -> Result<f64, TextileError> {
    let whole = number::from_whole(panels_for(flat, usable_width, seam)?);
    let half = whole - 0.5;
    // A half width in place of the last whole one leaves the number of joins the same.
    let reached = usable_width * half - seam * 2.0 * (whole - 1.0);
    Ok(if joins == Widths::Half && reached >= flat { half } else { whole })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    #[test]
    fn half_widths_where_they_are_enough() {
        let half = |flat| widths_for(inches(flat), inches(54.0), inches(0.5), Widths::Half);
        assert_eq!(half(20.0), Ok(0.5));
        assert_eq!(half(27.0), Ok(0.5));
        assert_eq!(half(27.1), Ok(1.0));
        assert_eq!(half(80.0), Ok(1.5));
        assert_eq!(half(80.1), Ok(2.0));
        assert_eq!(widths_for(inches(20.0), inches(54.0), inches(0.5), Widths::Whole), Ok(1.0));
    }

    #[test]
    fn the_least_number_that_reaches() {
        for eighths in 1..4000 {
            let flat = inches(f64::from(eighths) / 8.0);
            for (joins, step) in [(Widths::Whole, 1.0), (Widths::Half, 0.5)] {
                let n = widths_for(flat, inches(45.0), inches(0.625), joins).unwrap();
                let reach = |n: f64| inches(45.0) * n - inches(1.25) * (n.ceil() - 1.0);
                assert!(reach(n) >= flat);
                assert!(n - step <= 0.0 || reach(n - step) < flat);
            }
        }
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
