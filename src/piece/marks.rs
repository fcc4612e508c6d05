//! Marks of the tape, and sizes rounded to them.
//!
//! Never here: which sizes of a shape are rounded.

use crate::quantity::{Length, Quantity, Style, System, rounding};

/// The distance between marks on the tape that shows a size.
pub(super) fn mark_of(size: Length, style: &Style) -> Length {
    let unit = Quantity::from(size).liked().length.unwrap_or(style.tape.unit());
    match unit.system() {
        System::Inch => Length::try_from(style.inch_step.length()).unwrap_or(Length::inches(0.125)),
        _ => Length::centimetres(0.1),
    }
}

/// Rounds a size up to the next mark.
pub(super) fn up_to(size: Length, mark: Length) -> Length {
    rounding::cut(size.into(), mark.into(), true).ok().and_then(|cut| Length::try_from(cut).ok()).unwrap_or(size)
}

/// Rounds a size to the nearest mark of its tape, or up if `never_smaller`.
pub(crate) fn cut_size(size: Length, never_smaller: bool, style: &Style) -> Length {
    let mark = mark_of(size, style);
    let nearest = || rounding::cut(size.into(), mark.into(), false).ok().filter(|cut| cut.steps() > 0.0);
    // A size below half a mark is cut at one mark, not at zero.
    let rounded = if never_smaller { None } else { nearest() };
    rounded.and_then(|cut| Length::try_from(cut).ok()).unwrap_or_else(|| up_to(size, mark))
}
