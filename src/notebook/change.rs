//! The changes a line caused: each cell with its result before and now.

use super::value::{same, shown};
use crate::diagnostic::Diagnostic;
use crate::quantity::Style;
use rhai::Dynamic;

/// A cell's value, or the error that prevents it.
pub(super) type CellResult = Result<Dynamic, Box<Diagnostic>>;

/// A change of one cell or one `must` line.
#[derive(Clone, Debug)]
pub struct Change {
    /// The cell's name, or the condition as typed.
    pub name: String,
    /// Whether it is a `must` line.
    pub is_condition: bool,
    pub(super) now: Option<CellResult>,
    pub(super) before: Option<CellResult>,
}

/// A change as text for display.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CellChangeText {
    /// The cell's name, or the condition as typed.
    pub name: String,
    /// The new value as shown, or its error; `None` if the cell is gone.
    pub now: Option<Result<String, Diagnostic>>,
    /// The old value as shown; `None` if it is unchanged or there was none.
    pub was: Option<String>,
}

impl Change {
    /// Describes the change; `None` if the shown value is unchanged, except for the typed line.
    pub fn describe(&self, style: &Style, line_was_typed: bool) -> Option<CellChangeText> {
        let in_words = |result: &CellResult| match result {
            Ok(value) => shown(value, style),
            Err(error) => Err((**error).clone()),
        };
        let now = self.now.as_ref().map(in_words);
        let before = self.before.as_ref().map(in_words);
        let was = before.clone().and_then(Result::ok).filter(|was| !matches!(&now, Some(Ok(now)) if now == was));
        // A cell that recovers from an error counts as changed.
        let recovered = matches!((&before, &now), (Some(Err(_)), Some(Ok(_))));
        let fails_differently = matches!(&now, Some(Err(_))) && before.as_ref() != now.as_ref();
        let gone = self.now.is_none() && self.before.is_some();
        let changed = line_was_typed
            || gone
            || was.is_some()
            || recovered
            || fails_differently
            || (before.is_none() && now.is_some());
        let is_silent = self.is_condition && matches!(now, Some(Ok(_))) && !recovered && !line_was_typed;
        (changed && !is_silent).then(|| CellChangeText { name: self.name.clone(), now, was })
    }

    /// Whether the cell fails or the condition does not hold.
    pub fn failed(&self) -> bool {
        matches!(self.now, Some(Err(_)))
    }
}

/// Whether the readers of a cell can be skipped, given its result before and now. An error never counts as
/// unchanged.
pub(super) fn unchanged(before: Option<&CellResult>, now: Option<&CellResult>) -> bool {
    match (before, now) {
        (None, None) => true,
        (Some(Ok(before)), Some(Ok(now))) => same(before, now),
        _ => false,
    }
}
