//! The words of host objects, for the nearest name and for help.

use std::borrow::Cow;

/// A word that belongs to a kind of host object, or to the inputs of a recipe.
#[derive(Clone, Debug)]
pub struct Member {
    /// The kind of object, as [`Host`](super::Host) registers it.
    pub of: &'static str,
    /// The word.
    pub name: &'static str,
    /// How it is written.
    pub form: Cow<'static, str>,
    /// One line of help.
    pub summary: &'static str,
}

impl Member {
    /// Whether it stands by itself, as a function does, and belongs to no object.
    pub(super) fn is_free(&self) -> bool {
        ["inputs", "unnamed"].contains(&self.of)
    }
}
