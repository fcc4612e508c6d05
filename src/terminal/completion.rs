//! What the tab key offers: functions from the table, verbs, cells of the page, recipes.

use crate::engine::functions;
use crate::notebook::verbs;
use crate::recipe::library;
use rustyline::completion::Completer;
use rustyline::highlight::Highlighter;
use rustyline::hint::Hinter;
use rustyline::validate::Validator;
use rustyline::{Context, Helper};

/// The words that may be completed.
#[derive(Debug, Default)]
pub(super) struct Words {
    /// Names of the page's cells.
    pub(super) cells: Vec<String>,
}

/// Verbs that a recipe's name follows.
const OF_RECIPES: [&str; 4] = ["run", "sheet", "describe", "check"];

impl Words {
    /// Where the word at the cursor begins, and what it may become.
    pub(super) fn offers(&self, line: &str, cursor: usize) -> (usize, Vec<String>) {
        let before = line.get(..cursor).unwrap_or(line);
        let start = before
            .rfind(|c: char| !(c.is_alphanumeric() || c == '_'))
            .map_or(0, |at| at + before.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8));
        let word = before.get(start..).unwrap_or_default();
        let first = before.split_whitespace().next().unwrap_or_default();
        let mut names: Vec<String> = if start > 0 && OF_RECIPES.contains(&first) && !before.contains('=') {
            library::shipped_names().map(str::to_owned).collect()
        } else {
            let verbs = verbs::names().filter(|_| start == 0).map(str::to_owned);
            let functions = functions::all().map(|function| function.name.to_owned());
            self.cells.iter().cloned().chain(functions).chain(verbs).collect()
        };
        names.retain(|name| !word.is_empty() && name.starts_with(word));
        names.sort();
        names.dedup();
        (start, names)
    }
}

impl Completer for Words {
    type Candidate = String;

    fn complete(&self, line: &str, cursor: usize, _: &Context<'_>) -> rustyline::Result<(usize, Vec<String>)> {
        Ok(self.offers(line, cursor))
    }
}

impl Hinter for Words {
    type Hint = String;
}
impl Highlighter for Words {}
impl Validator for Words {}
impl Helper for Words {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_word_at_the_cursor_is_completed_from_what_is_known() {
        let words = Words { cells: vec!["waist".to_owned(), "waist_flat".to_owned()] };
        let offers = |line: &str| words.offers(line, line.len());
        assert_eq!(offers("2 * wai"), (4, vec!["waist".to_owned(), "waist_flat".to_owned()]));
        assert_eq!(offers("strips_f"), (0, vec!["strips_for".to_owned(), "strips_for_frill".to_owned()]));
        assert_eq!(offers("des"), (0, vec!["describe".to_owned()]));
        assert_eq!(offers("x + des"), (4, Vec::new()));
        assert_eq!(offers("run gathered_s"), (4, vec!["gathered_skirt".to_owned()]));
        assert_eq!(offers("ärmel * take"), ("ärmel * ".len(), vec!["take_up".to_owned()]));
        assert_eq!(offers("1 + "), (4, Vec::new()));
    }
}
