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

#[cfg(test)]
mod tests {
    use super::*;

    /// The result of a cell that is a number, and of one that fails.
    fn results() -> (impl Fn(i64) -> Option<CellResult>, impl Fn(&str) -> Option<CellResult>) {
        (|value| Some(Ok(Dynamic::from_int(value))), |why: &str| Some(Err(Box::new(Diagnostic::new(why)))))
    }

    /// What is told: `2 was 1`, an error with a `!` behind it, `gone`, or nothing.
    fn told(is_condition: bool, before: Option<CellResult>, now: Option<CellResult>, typed: bool) -> String {
        let change = Change { name: "a".to_owned(), is_condition, now, before };
        let Some(text) = change.describe(&Style::default(), typed) else { return String::new() };
        assert_eq!(text.name, "a");
        let now = match text.now {
            Some(Ok(now)) => now,
            Some(Err(error)) => format!("{}!", error.message),
            None => "gone".to_owned(),
        };
        text.was.map_or_else(|| now.clone(), |was| format!("{now} was {was}"))
    }

    #[test]
    fn a_cell_is_told_where_what_is_shown_of_it_changed() {
        let (is, fails) = results();
        let cell = |before, after| told(false, before, after, false);
        assert_eq!(cell(None, None), "");
        assert_eq!(cell(None, is(1)), "1");
        assert_eq!(cell(None, fails("x")), "x!");
        assert_eq!(cell(is(1), is(1)), "");
        assert_eq!(cell(is(1), is(2)), "2 was 1");
        assert_eq!(cell(is(1), fails("x")), "x! was 1");
        assert_eq!(cell(is(1), None), "gone was 1");
        assert_eq!(cell(fails("x"), is(1)), "1");
        assert_eq!(cell(fails("x"), fails("x")), "");
        assert_eq!(cell(fails("x"), fails("y")), "y!");
        assert_eq!(cell(fails("x"), None), "gone");
        // The line that was typed is always told.
        assert_eq!(told(false, is(1), is(1), true), "1");
        assert_eq!(told(false, fails("x"), fails("x"), true), "x!");
        assert_eq!(told(false, is(1), is(2), true), "2 was 1");
    }

    #[test]
    fn a_condition_is_told_when_it_fails_and_when_it_holds_again() {
        let (is, fails) = results();
        let yes = || Some(Ok(Dynamic::from_bool(true)));
        let condition = |before, after| told(true, before, after, false);
        assert_eq!(condition(None, yes()), "");
        assert_eq!(condition(yes(), yes()), "");
        assert_eq!(condition(fails("x"), yes()), "yes");
        assert_eq!(condition(yes(), fails("x")), "x! was yes");
        assert_eq!(condition(fails("x"), fails("x")), "");
        assert_eq!(condition(yes(), None), "gone was yes");
        assert_eq!(told(true, None, yes(), true), "yes");
        let failed = |now| Change { name: String::new(), is_condition: false, now, before: None }.failed();
        assert!(failed(fails("x")) && !failed(is(1)) && !failed(None));
    }

    #[test]
    fn readers_are_skipped_where_a_value_is_the_same_and_never_behind_an_error() {
        let (is, fails) = results();
        let unchanged = |before: Option<CellResult>, now: Option<CellResult>| unchanged(before.as_ref(), now.as_ref());
        assert!(unchanged(None, None) && unchanged(is(1), is(1)));
        assert!(!unchanged(is(1), is(2)) && !unchanged(None, is(1)) && !unchanged(is(1), None));
        assert!(!unchanged(fails("x"), fails("x")) && !unchanged(is(1), fails("x")) && !unchanged(fails("x"), is(1)));
    }
}
