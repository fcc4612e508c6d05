//! Completion and hints while a line is typed.

pub(crate) mod completion;
pub(crate) mod completion_source;
pub(crate) mod hints;
pub(crate) mod typed_line;

use completion_source::CompletionSource;
use hints::HintLook;
use std::rc::Rc;

/// The helper of the line editor. Made once; it queries the page at every key.
pub(crate) struct TypingHelper {
    pub(crate) source: Rc<dyn CompletionSource>,
    pub(crate) look: HintLook,
    pub(crate) columns: fn() -> usize,
}

impl TypingHelper {
    /// Answers from `source`; `columns` returns the current width of the window.
    pub(crate) fn new(source: Rc<dyn CompletionSource>, look: HintLook, columns: fn() -> usize) -> Self {
        Self { source, look, columns }
    }
}
