//! Errors as data: [`Diagnostic`] for everything that goes wrong, and the trait [`Diagnose`] that makes one from each
//! layer's own error enum.
//!
//! Code branches on [`DiagnosticKind`] alone and never inspects a message. A diagnostic is passed on from a child
//! process, so a change of its form must raise `recipe::run::PROTOCOL`.
//!
//! Never here: drawing the marked line, which `report` does; the sentences of any layer.

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
