//! The questions of a recipe, asked at the prompt one after the other.

use super::commands::Desk;
use super::lines::{After, Talk};
use crate::engine::Fault;

/// Questions that are being asked.
pub(super) struct Asking {}

/// What came of an order.
pub(super) enum Asked {
    /// Something is missing.
    Question(Box<Asking>),
    /// All is answered.
    All(Vec<(String, String)>),
}

impl Asking {
    pub(super) fn begin(_: &Talk, _: &mut Desk<'_>, _: &str, _: Option<&str>, answers: Vec<(String, String)>, _: &str) -> Result<Asked, Fault> {
        Ok(Asked::All(answers))
    }
}

impl Talk {
    pub(super) fn ask(&mut self, _: &mut Desk<'_>) {}
    pub(super) fn answered(&mut self, _: &mut Desk<'_>, _: &str) -> After {
        After::Done
    }
}
