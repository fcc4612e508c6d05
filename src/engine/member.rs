//! The members of host objects, for suggestions and help.

use std::borrow::Cow;

/// A member of a type of host object, or a free word of a recipe's inputs.
#[derive(Clone, Debug)]
pub struct Member {
    /// The type of the object, as [`Host`](super::Host) registers it.
    pub of: &'static str,
    /// The name.
    pub name: &'static str,
    /// How its use is written.
    pub form: Cow<'static, str>,
    /// One line of help.
    pub summary: &'static str,
}

impl Member {
    /// Whether it is used like a function, without an object.
    pub(super) fn is_free(&self) -> bool {
        ["inputs", "unnamed"].contains(&self.of)
    }
}
