//! Whole files: the demo workshop, bad files with the exact words of their errors, and data written and read back.

use super::*;
use crate::diagnostic::Diagnose;
use crate::quantity::{InchStep, Length, Money, Quantity, Tape, Time, Unit};
use crate::table::Dialect;

mod adding;
mod bad_files;
mod built_in;
mod demo;
mod round_trip;
mod set_up;
mod two_fronts;

fn read(files: &[(&str, &str)]) -> Workshop {
    match Workshop::read(files) {
        Ok(workshop) => workshop,
        Err(errors) => panic!("{}", shown(&errors)),
    }
}

/// Errors as they are shown: the error, then the hint after an arrow.
fn shown(errors: &[WorkshopFileError]) -> String {
    let line = |error: &WorkshopFileError| match error.hint() {
        Some(hint) => format!("{error}\n  -> {hint}"),
        None => error.to_string(),
    };
    errors.iter().map(line).collect::<Vec<_>>().join("\n")
}

fn inches(value: f64) -> Length {
    Length::inches(value)
}

fn dollars(value: f64) -> Money {
    Money::try_from(Quantity::money(value)).unwrap()
}
