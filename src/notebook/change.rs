//! What a line changed: which cells, from what to what.

use super::value::{same, shown};
use crate::diagnostic::Diagnostic;
use crate::quantity::Style;
use rhai::Dynamic;

/// What a cell is worth, or why it cannot be worked out.
pub(super) type CellResult = Result<Dynamic, Box<Diagnostic>>;

/// What happened to one cell or one `must` line.
#[derive(Clone, Debug)]
pub struct Change {
    /// The cell's name, or the condition.
    pub name: String,
    /// Whether it is a `must` line.
    pub is_condition: bool,
    pub(super) now: Option<CellResult>,
    pub(super) before: Option<CellResult>,
}

/// A change in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CellChangeText {
    /// The cell's name, or the condition.
    pub name: String,
    /// Its value as shown, or what is wrong with it; none where the cell is gone.
    pub now: Option<Result<String, Diagnostic>>,
    /// What it was before, where that was something else.
    pub was: Option<String>,
}

impl Change {
    /// In words; none where nothing is news: the same value as before, shown the same way.
    pub fn told(&self, style: &Style, line_was_typed: bool) -> Option<CellChangeText> {
        let in_words = |worth: &CellResult| match worth {
            Ok(value) => shown(value, style),
            Err(error) => Err((**error).clone()),
        };
        let now = self.now.as_ref().map(in_words);
        let before = self.before.as_ref().map(in_words);
        let was = before.clone().and_then(Result::ok).filter(|was| !matches!(&now, Some(Ok(now)) if now == was));
        // A cell that can be worked out again is news as much as one with another value.
        let mended = matches!((&before, &now), (Some(Err(_)), Some(Ok(_))));
        let fails_anew = matches!(&now, Some(Err(_))) && before.as_ref() != now.as_ref();
        let gone = self.now.is_none() && self.before.is_some();
        let news =
            line_was_typed || gone || was.is_some() || mended || fails_anew || (before.is_none() && now.is_some());
        let holds = self.is_condition && matches!(now, Some(Ok(_))) && !mended && !line_was_typed;
        (news && !holds).then(|| CellChangeText { name: self.name.clone(), now, was })
    }

    /// Whether it cannot be worked out, or does not hold.
    pub fn failed(&self) -> bool {
        matches!(self.now, Some(Err(_)))
    }
}

/// Whether what reads a cell need not be worked out again.
pub(super) fn unchanged(before: Option<&CellResult>, now: Option<&CellResult>) -> bool {
    match (before, now) {
        (None, None) => true,
        (Some(Ok(before)), Some(Ok(now))) => same(before, now),
        _ => false,
    }
}
