//! What stands before the cursor of a line that is being typed: its verb, the word that was begun, the
//! call around it. The line is unfinished, so nothing is refused.
//!
//! Never here: what is offered or hinted.

use crate::engine::function::Function;
use crate::engine::functions;
use crate::notebook::split_answers;
use crate::quantity::Unit;

/// What the cursor stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CursorContext {
    /// Names, numbers, signs.
    Code,
    /// A text that was begun.
    Text,
    /// A note.
    Note,
}

/// A call of a built-in function that is not closed yet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Call {
    /// The function.
    pub(crate) function: &'static Function,
    /// Which argument the cursor is in, from 0.
    pub(crate) argument: usize,
}

/// The verb of a line and the bytes behind it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Verb<'l> {
    /// The verb.
    pub(crate) name: &'static str,
    /// Its form.
    pub(crate) form: &'static str,
    /// What stands between it and the cursor.
    pub(crate) rest: &'l str,
}

/// A line up to the cursor.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TypedLine<'l> {
    /// The line up to the cursor; of several lines, the one the cursor is on.
    pub(crate) before: &'l str,
    /// Where that line begins in what was given.
    pub(crate) offset: usize,
    /// Its verb, if it has one.
    pub(crate) verb: Option<Verb<'l>>,
    /// What the cursor stands in.
    pub(crate) context: CursorContext,
    /// The innermost call of a built-in function around the cursor.
    pub(crate) call: Option<Call>,
}

/// Verbs whose line is an expression, in which a text may begin anywhere.
const OF_EXPRESSIONS: [&str; 3] = ["must", "show", "vary"];

impl<'l> TypedLine<'l> {
    /// Reads a line up to the cursor, in bytes.
    pub(crate) fn read(line: &'l str, cursor: usize, verbs: &[(&'static str, &'static str)]) -> Self {
        let whole = line.get(..cursor).unwrap_or(line);
        let offset = whole.rfind('\n').map_or(0, |at| at + 1);
        let before = whole.get(offset..).unwrap_or_default();
        let verb = verb_of(before, verbs);
        let expression = verb.is_none_or(|verb| OF_EXPRESSIONS.contains(&verb.name));
        let (context, call) = scan(before, expression);
        Self { before, offset, verb, context, call }
    }

    /// Where the word at the cursor begins, in `before`: letters, digits and `_`.
    pub(crate) fn word_start(&self) -> usize {
        self.before.len() - last_word(self.before).len()
    }

    /// The word at the cursor.
    pub(crate) fn word(&self) -> &'l str {
        last_word(self.before)
    }

    /// What the word at the cursor is a member of: `first` in `first.pan`, `a.b` in `a.b.c`.
    pub(crate) fn owner(&self) -> Option<&'l str> {
        let end = self.before.get(..self.word_start())?.strip_suffix('.')?.len();
        let path = self.before.get(..end)?;
        let mut start = end;
        loop {
            let part = last_word(path.get(..start)?);
            if part.is_empty() || part.starts_with(char::is_numeric) {
                return None;
            }
            start -= part.len();
            match path.get(..start)?.strip_suffix('.') {
                Some(more) => start = more.len(),
                None => return path.get(start..),
            }
        }
    }

    /// The beginning of a unit, if only a unit can stand here: behind a number, or behind `as`.
    pub(crate) fn unit(&self) -> Option<&'l str> {
        let word = self.word();
        let letters = word.trim_start_matches(char::is_numeric);
        if letters.len() < word.len() {
            return (!letters.is_empty()).then_some(letters);
        }
        let head = self.before.get(..self.word_start())?;
        let apart = head.ends_with(char::is_whitespace);
        let last = last_word(head.trim_end());
        let behind_number = last.starts_with(char::is_numeric) && last.chars().all(char::is_numeric);
        let behind_as = last == "as" && head.trim() != "as";
        (apart && (behind_number || behind_as)).then_some(word)
    }

    /// Whether a unit may stand here beside other things: `$6/yd`, `g/m^2`.
    pub(crate) fn may_be_unit(&self) -> bool {
        let head = self.before.get(..self.word_start()).and_then(|head| head.strip_suffix('/'));
        let last = last_word(head.unwrap_or_default());
        let letters = last.trim_start_matches(char::is_numeric);
        !last.is_empty() && (letters.is_empty() || Unit::named(letters).is_some())
    }

    /// The recipe and answers of a line that runs one.
    pub(crate) fn order(&self) -> Option<Order<'l>> {
        let verb = self.verb.filter(|verb| ["run", "sheet"].contains(&verb.name))?;
        let recipe = verb.rest.split_whitespace().next()?;
        let behind = verb.rest.trim_start().get(recipe.len()..)?;
        if !behind.starts_with(char::is_whitespace) {
            return None;
        }
        let (head, answers) = split_answers(behind);
        let mut words: Vec<String> = head.split_whitespace().map(str::to_owned).collect();
        let answering = !answers.is_empty();
        if !answering && !behind.ends_with(char::is_whitespace) {
            // What is still being typed is no word yet.
            words.pop();
        }
        let naming = !answering && words.last().is_some_and(|word| word == "as");
        let named = words.iter().any(|word| word == "as");
        Some(Order { recipe, given: answers.into_iter().map(|(name, _)| name).collect(), naming, named, answering })
    }
}

/// A line that runs a recipe, up to the cursor.
#[derive(Debug)]
pub(crate) struct Order<'l> {
    /// The recipe.
    pub(crate) recipe: &'l str,
    /// The inputs that are answered.
    pub(crate) given: Vec<String>,
    /// The name of the new cell is being typed.
    pub(crate) naming: bool,
    /// The new cell has its `as`.
    pub(crate) named: bool,
    /// The cursor is behind an `input=`.
    pub(crate) answering: bool,
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// The letters, digits and `_` at the end of a text.
fn last_word(text: &str) -> &str {
    let head = text.trim_end_matches(is_word);
    text.get(head.len()..).unwrap_or_default()
}

/// Signs that make a sum of what would be a verb, as in `run + 1`; a path may begin with `.`, `/` or `~`.
const SUM_SIGNS: &str = "+-*=<>!&|,;:%^?)]}";

fn verb_of<'l>(before: &'l str, verbs: &[(&'static str, &'static str)]) -> Option<Verb<'l>> {
    let text = before.trim_start();
    let behind = |name: &str| text.strip_prefix(name).filter(|rest| rest.starts_with(char::is_whitespace));
    let (name, form) = verbs.iter().filter(|(name, _)| behind(name).is_some()).max_by_key(|(name, _)| name.len())?;
    let rest = behind(name)?.trim_start();
    (!rest.starts_with(|c| SUM_SIGNS.contains(c))).then_some(Verb { name, form, rest })
}

/// An open bracket: the function it belongs to, and the commas behind it.
struct Open {
    function: Option<&'static Function>,
    commas: usize,
}

fn scan(before: &str, expression: bool) -> (CursorContext, Option<Call>) {
    let mut open: Vec<Open> = Vec::new();
    let mut text: Option<char> = None;
    let mut escaped = false;
    let mut previous = ' ';
    let mut note = false;
    for (at, c) in before.char_indices() {
        let after = before.get(at + c.len_utf8()..).unwrap_or_default();
        if let Some(mark) = text {
            if escaped {
                escaped = false;
            } else if c == '\\' {
                escaped = true;
            } else if c == mark {
                text = None;
            }
            previous = c;
            continue;
        }
        match c {
            '#' if previous.is_whitespace() && !after.starts_with(['{', '"']) => note = true,
            '/' if expression && after.starts_with('/') => note = true,
            // Behind a number the marks are inches and feet; answers and file names may hold apostrophes.
            '"' | '\'' | '`' if !previous.is_numeric() && (expression || previous == '=' || !open.is_empty()) => {
                text = Some(c);
            }
            '(' => {
                let head = before.get(..at).unwrap_or_default();
                let name = last_word(head);
                let method = head.strip_suffix(name).is_some_and(|head| head.ends_with('.'));
                let function = (!method).then(|| functions::named(name)).flatten();
                open.push(Open { function, commas: 0 });
            }
            '[' | '{' => open.push(Open { function: None, commas: 0 }),
            ')' | ']' | '}' => {
                // One too many closes nothing.
                let _closed = open.pop();
            }
            ',' => {
                if let Some(innermost) = open.last_mut() {
                    innermost.commas += 1;
                }
            }
            _ => {}
        }
        if note {
            return (CursorContext::Note, None);
        }
        previous = c;
    }
    let call = open.iter().rev().find_map(|open| Some(Call { function: open.function?, argument: open.commas }));
    (if text.is_some() { CursorContext::Text } else { CursorContext::Code }, call)
}

#[cfg(test)]
mod tests {
    use super::super::completion_source::{CompletionSource, ExamplePage};
    use super::*;

    fn typed(line: &str) -> TypedLine<'_> {
        TypedLine::read(line, line.len(), &ExamplePage::default().verbs())
    }

    #[test]
    fn a_text_and_a_note_are_told_from_code() {
        for (line, context) in [
            ("waist", CursorContext::Code),
            ("14 1/2\" + wai", CursorContext::Code),
            ("5' 3\" + wai", CursorContext::Code),
            ("\"wai", CursorContext::Text),
            ("\"a\\\" wai", CursorContext::Text),
            ("\"a\" + wai", CursorContext::Code),
            ("waist = 5 cm # wai", CursorContext::Note),
            ("# wai", CursorContext::Note),
            ("\"a # b\" + wai", CursorContext::Code),
            ("2 in // wai", CursorContext::Note),
            ("run skirt cloth=maker's wai", CursorContext::Code),
            ("run skirt cloth='maker wai", CursorContext::Text),
            ("read o'brien", CursorContext::Code),
        ] {
            assert_eq!(typed(line).context, context, "{line}");
        }
    }

    #[test]
    fn the_call_around_the_cursor_is_the_innermost_open_one() {
        let call = |line: &str| typed(line).call.map(|call| (call.function.name, call.argument));
        assert_eq!(call("strips_for("), Some(("strips_for", 0)));
        assert_eq!(call("a + strips_for(610 1/2 in, 6 in, "), Some(("strips_for", 2)));
        assert_eq!(call("strips_for(take_up(1, "), Some(("take_up", 1)));
        assert_eq!(call("strips_for(take_up(1, 2), "), Some(("strips_for", 1)));
        assert_eq!(call("strips_for([6, 5"), Some(("strips_for", 0)));
        assert_eq!(call("strips_for((1 + 2"), Some(("strips_for", 0)));
        assert_eq!(call("strips_for(1, 2)"), None);
        assert_eq!(call("x.strips_for("), None);
        assert_eq!(call("unknown("), None);
        assert_eq!(call(")) strips_for(\"a, b"), Some(("strips_for", 0)));
    }

    #[test]
    fn verbs_units_and_owners() {
        let verb = |line: &str| typed(line).verb.map(|verb| (verb.name, verb.rest.to_owned()));
        assert_eq!(verb("  run skirt"), Some(("run", "skirt".to_owned())));
        assert_eq!(verb("take back "), Some(("take back", String::new())));
        assert_eq!(verb("run"), None);
        assert_eq!(verb("run = 3"), None);
        assert_eq!(verb("run + 3"), None);
        assert_eq!(verb("a = 1\nopen ./x"), Some(("open", "./x".to_owned())));
        let unit = |line: &str| typed(line).unit().map(str::to_owned);
        for line in ["12 c", "12c", "1/2 c", "½ c", "waist as c", "5 ft 3 c", "f(2, 3 c"] {
            assert_eq!(unit(line), Some("c".to_owned()), "{line}");
        }
        for line in ["band2 c", "12", "as c", "x c", "c", "a.b2 c"] {
            assert_eq!(unit(line), None, "{line}");
        }
        assert!(typed("$6/y").may_be_unit() && typed("g/m").may_be_unit() && !typed("waist/m").may_be_unit());
        let owner = |line: &str| typed(line).owner().map(str::to_owned);
        assert_eq!(owner("2 * first.pan"), Some("first".to_owned()));
        assert_eq!(owner("first.cut_list."), Some("first.cut_list".to_owned()));
        assert_eq!(owner("2.5"), None);
        assert_eq!(owner("first.pan "), None);
    }
}
