//! What the keys do while a line is typed: completion and hints.

pub(crate) mod completion;
pub(crate) mod completion_source;
pub(crate) mod hints;
pub(crate) mod typed_line;

use completion_source::CompletionSource;
use hints::HintLook;
use std::rc::Rc;

/// What the prompt knows while a line is typed. Made once; it asks the page anew at every key.
pub(crate) struct TypingHelper {
    pub(crate) source: Rc<dyn CompletionSource>,
    pub(crate) look: HintLook,
    pub(crate) columns: fn() -> usize,
}

impl TypingHelper {
    /// Asks `source`; `columns` tells how wide the window is now.
    pub(crate) fn new(source: Rc<dyn CompletionSource>, look: HintLook, columns: fn() -> usize) -> Self {
        Self { source, look, columns }
    }
}
