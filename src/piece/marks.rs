//! Marks of the tape, and sizes taken to them.
//!
//! Never here: which sizes of a shape are taken to a mark.

use crate::quantity::{Length, Quantity, Style, System, rounding};

/// The distance between marks on the tape that a size likes to be shown on.
pub(super) fn mark_of(size: Length, style: &Style) -> Length {
    let unit = Quantity::from(size).liked().length.unwrap_or(style.tape.unit());
    match unit.system() {
        System::Inch => Length::try_from(style.inch_step.length()).unwrap_or(Length::inches(0.125)),
        _ => Length::centimetres(0.1),
    }
}

/// A size up to the next mark.
pub(super) fn up_to(size: Length, mark: Length) -> Length {
    rounding::cut(size.into(), mark.into(), true).ok().and_then(|cut| Length::try_from(cut).ok()).unwrap_or(size)
}

/// A size as it is cut: at the nearest mark of the tape it likes, or up where it may never be smaller.
pub(crate) fn cut_size(size: Length, never_smaller: bool, style: &Style) -> Length {
    let mark = mark_of(size, style);
    let nearest = || rounding::cut(size.into(), mark.into(), false).ok().filter(|cut| cut.steps() > 0.0);
    // What is smaller than half a mark is cut at one mark rather than not at all.
    let rounded = if never_smaller { None } else { nearest() };
    rounded.and_then(|cut| Length::try_from(cut).ok()).unwrap_or_else(|| up_to(size, mark))
}
