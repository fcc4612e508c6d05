//! What the keys do while a line is typed: completion and hints.

pub(crate) mod completion;
pub(crate) mod completion_source;
pub(crate) mod hints;
pub(crate) mod typed_line;
