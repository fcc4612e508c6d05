//! Errors as data: one [`Diagnostic`] for everything that goes wrong, and the trait [`Diagnose`] by which each
//! layer's own error enum becomes one.
//!
//! Code branches on [`DiagnosticKind`] alone and never asks what a message contains. A diagnostic crosses from a
//! child process, so that a change of its form raises `recipe::run::PROTOCOL`.
//!
//! Never here: drawing the line with its marks, which is `report`'s; the sentences of any layer.

mod diagnose;
#[allow(clippy::module_inception, reason = "the diagnostic is the concept this layer is named for")]
mod diagnostic;
mod kind;
mod quantities;
mod span;

pub(crate) use diagnose::Diagnose;
pub use diagnostic::Diagnostic;
pub(crate) use kind::DiagnosticKind;
pub use quantities::literal_diagnostic;
pub(crate) use span::{Label, Span};
