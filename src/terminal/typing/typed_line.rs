//! Parses a line that is being typed, up to the cursor: its verb, the word that was begun, the call around it.
//! The line is unfinished, so nothing is rejected.
//!
//! Never here: completions and hints.

use crate::engine::function::Function;
use crate::engine::functions;
use crate::engine::text::line_tokens::{CursorContext, LineTokens, Quotes};
use crate::engine::text::tokens::TokenKind;
use crate::notebook::verbs::{self, Verb};
use crate::notebook::{last_answer, split_answers};
use crate::quantity::{Reading, Unit};

/// A call of a built-in function that is not closed yet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Call {
    pub(crate) function: &'static Function,
    /// Which argument the cursor is in, from 0.
    pub(crate) argument: usize,
}

/// What the typed line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TypedFor {
    /// A line of the page: it may begin with a verb.
    Page,
    /// An answer to a question.
    Question,
}

/// The verb of a line and the text after it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TypedVerb<'l> {
    pub(crate) verb: &'static Verb,
    /// The text between the verb and the cursor.
    pub(crate) rest: &'l str,
}

/// A line up to the cursor.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TypedLine<'l> {
    /// The line up to the cursor; of several lines, the one the cursor is on.
    pub(crate) before: &'l str,
    /// The byte position of that line in the whole input.
    pub(crate) offset: usize,
    /// Its verb, if it has one.
    pub(crate) verb: Option<TypedVerb<'l>>,
    /// Whether the cursor is in code, a text or a comment.
    pub(crate) context: CursorContext,
    /// The innermost call of a built-in function around the cursor.
    pub(crate) call: Option<Call>,
}

impl<'l> TypedLine<'l> {
    /// Parses a line up to `cursor`, a byte position.
    pub(crate) fn read(line: &'l str, cursor: usize, typed_for: TypedFor) -> Self {
        let whole = line.get(..cursor).unwrap_or(line);
        let offset = whole.rfind('\n').map_or(0, |at| at + 1);
        let before = whole.get(offset..).unwrap_or_default();
        let verb = (typed_for == TypedFor::Page).then(|| verb_of(before)).flatten();
        let tokens = LineTokens::read(before, verb.map_or(Quotes::Anywhere, |typed| typed.verb.quotes()));
        Self { before, offset, verb, context: tokens.ends_in, call: call_around_end(before, &tokens) }
    }

    /// The byte position of the word at the cursor in `before`; a word is letters, digits and `_`.
    pub(crate) fn word_start(&self) -> usize {
        self.before.len() - last_word(self.before).len()
    }

    /// The word at the cursor.
    pub(crate) fn word(&self) -> &'l str {
        last_word(self.before)
    }

    /// The owner of the member at the cursor: `first` in `first.pan`, `a.b` in `a.b.c`.
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

    /// The beginning of a unit, if nothing else can follow here: after a number, or after `as`.
    pub(crate) fn unit(&self) -> Option<&'l str> {
        let word = self.word();
        let letters = word.trim_start_matches(char::is_numeric);
        if letters.len() < word.len() {
            return (!letters.is_empty()).then_some(letters);
        }
        let head = self.before.get(..self.word_start())?;
        let last = last_word(head.trim_end());
        let behind_number = last.starts_with(char::is_numeric) && last.chars().all(char::is_numeric);
        let behind_as = last == "as" && head.trim() != "as";
        (behind_number || behind_as).then_some(word)
    }

    /// Whether a unit is one of several options here: `$6/yd`, `g/m^2`.
    pub(crate) fn may_be_unit(&self) -> bool {
        let head = self.before.get(..self.word_start()).and_then(|head| head.strip_suffix('/'));
        let last = last_word(head.unwrap_or_default());
        let letters = last.trim_start_matches(char::is_numeric);
        !last.is_empty() && (letters.is_empty() || Unit::named(letters).is_some())
    }

    /// The recipe and answers of a line that runs one; `None` for other lines.
    pub(crate) fn order(&self) -> Option<Order<'l>> {
        let verb = self.verb.filter(|typed| typed.verb.takes_answers())?;
        let recipe = verb.rest.split_whitespace().next()?;
        let behind = verb.rest.trim_start().get(recipe.len()..)?;
        if !behind.starts_with(char::is_whitespace) {
            return None;
        }
        let (head, answers) = split_answers(behind);
        let mut words: Vec<String> = head.split_whitespace().map(str::to_owned).collect();
        let answering = !answers.is_empty();
        if !answering && !behind.ends_with(char::is_whitespace) {
            // The last word is still being typed.
            words.pop();
        }
        let naming = !answering && words.last().is_some_and(|word| word == "as");
        let named = words.iter().any(|word| word == "as");
        let answered = answers.into_iter().map(|(name, _)| name).collect();
        Some(Order { recipe, answered, naming, named, answering, last: last_answer(behind) })
    }
}

/// A line that runs a recipe, up to the cursor.
#[derive(Debug)]
pub(crate) struct Order<'l> {
    /// The recipe, or the cell of an order that the line changes.
    pub(crate) recipe: &'l str,
    /// The inputs that are answered already.
    pub(crate) answered: Vec<String>,
    /// Whether the name of the new cell is being typed.
    pub(crate) naming: bool,
    /// Whether `as` was typed.
    pub(crate) named: bool,
    /// Whether the cursor is after an `input=`.
    pub(crate) answering: bool,
    /// The last input, and everything between its `=` and the cursor.
    pub(crate) last: Option<(&'l str, &'l str)>,
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// The letters, digits and `_` at the end of a text.
fn last_word(text: &str) -> &str {
    let head = text.trim_end_matches(is_word);
    text.get(head.len()..).unwrap_or_default()
}

fn verb_of(before: &str) -> Option<TypedVerb<'_>> {
    let (verb, rest) = verbs::leading(before, Reading::default())?;
    rest.starts_with(char::is_whitespace).then(|| TypedVerb { verb, rest: rest.trim_start() })
}

/// An open bracket: the function it belongs to, and the number of commas after it.
struct Open {
    function: Option<&'static Function>,
    commas: usize,
}

/// The innermost call of a built-in function that is open at the end.
fn call_around_end(before: &str, tokens: &LineTokens<'_>) -> Option<Call> {
    if tokens.ends_in == CursorContext::Comment {
        return None;
    }
    let mut open: Vec<Open> = Vec::new();
    for token in &tokens.list {
        match token.kind {
            TokenKind::Open => {
                let head = before.get(..token.span.start).unwrap_or_default();
                let name = if tokens.text_of(token) == "(" { last_word(head) } else { "" };
                let method = head.strip_suffix(name).is_some_and(|head| head.ends_with('.'));
                let function = (!method).then(|| functions::named(name)).flatten();
                open.push(Open { function, commas: 0 });
            }
            TokenKind::Close => {
                // A surplus bracket closes nothing.
                let _closed = open.pop();
            }
            TokenKind::Symbol if tokens.text_of(token) == "," => {
                if let Some(innermost) = open.last_mut() {
                    innermost.commas += 1;
                }
            }
            _ => {}
        }
    }
    open.iter().rev().find_map(|open| Some(Call { function: open.function?, argument: open.commas }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(line: &str) -> TypedLine<'_> {
        TypedLine::read(line, line.len(), TypedFor::Page)
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
            ("waist = 5 cm # wai", CursorContext::Comment),
            ("# wai", CursorContext::Comment),
            ("\"a # b\" + wai", CursorContext::Code),
            ("2 in // wai", CursorContext::Comment),
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
        let verb = |line: &str| typed(line).verb.map(|typed| (typed.verb.name, typed.rest.to_owned()));
        assert_eq!(verb("  run skirt"), Some(("run", "skirt".to_owned())));
        assert_eq!(verb("take back "), Some(("take", "back ".to_owned())));
        assert_eq!(verb("run"), None);
        assert_eq!(verb("run = 3"), None);
        assert_eq!(verb("run + 3"), None);
        assert_eq!(verb("a = 1\nopen ./x"), Some(("open", "./x".to_owned())));
        let unit = |line: &str| typed(line).unit().map(str::to_owned);
        for line in ["12 c", "12c", "1/2 c", "½ c", "waist as c", "5 ft 3 c", "f(2, 3 c"] {
            assert_eq!(unit(line), Some("c".to_owned()), "{line}");
        }
        for line in ["band2 c", "12", "as c", "  as c", "x c", "c", "a.b2 c", "2b c", "as(c", "12(c"] {
            assert_eq!(unit(line), None, "{line}");
        }
        assert!(typed("$6/y").may_be_unit() && typed("g/m").may_be_unit() && !typed("waist/m").may_be_unit());
        assert!(typed("3 lb/m").may_be_unit() && typed("3lb/m").may_be_unit() && !typed("/y").may_be_unit());
        assert!(!typed("6 y").may_be_unit());
        let owner = |line: &str| typed(line).owner().map(str::to_owned);
        assert_eq!(owner("2 * first.pan"), Some("first".to_owned()));
        assert_eq!(owner("first.cut_list."), Some("first.cut_list".to_owned()));
        assert_eq!(owner("a.b.c.d"), Some("a.b.c".to_owned()));
        assert_eq!(owner("x + a_1.b"), Some("a_1".to_owned()));
        assert_eq!(owner("2.5"), None);
        assert_eq!(owner("2.5.c"), None);
        assert_eq!(owner("first..pan"), None);
        assert_eq!(owner("first.pan "), None);
    }

    #[test]
    fn a_call_is_that_of_a_round_bracket_and_not_in_a_note() {
        let call = |line: &str| typed(line).call.map(|call| (call.function.name, call.argument));
        assert_eq!(call("strips_for[1, "), None);
        assert_eq!(call("strips_for(1, 2, # "), None);
        assert_eq!(call("strips_for(1; 2, 3, "), Some(("strips_for", 2)));
        assert_eq!(call("waist.a(strips_for("), Some(("strips_for", 0)));
        assert_eq!(typed("waist = 3").word_start(), 8);
        assert_eq!((typed("2 * wa_1").word_start(), typed("2 * wa_1").word()), (4, "wa_1"));
        assert_eq!(TypedLine::read("ab\ncd", 5, TypedFor::Page).offset, 3);
        assert!(TypedLine::read("run skirt", 9, TypedFor::Question).verb.is_none());
    }

    #[test]
    fn an_order_is_read_as_far_as_it_is_typed() {
        type Read<'l> = Option<(&'l str, Vec<String>, bool, bool, bool)>;
        fn order(line: &str) -> Read<'_> {
            let order = TypedLine::read(line, line.len(), TypedFor::Page).order()?;
            Some((order.recipe, order.answered, order.naming, order.named, order.answering))
        }
        let answered = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
        for (line, naming, named) in [
            ("run skirt ", false, false),
            ("run skirt a", false, false),
            ("run skirt as", false, false),
            ("run skirt as ", true, true),
            ("run skirt as fi", true, true),
            ("run skirt as first ", false, true),
            ("run skirt as first wa", false, true),
        ] {
            assert_eq!(order(line), Some(("skirt", Vec::new(), naming, named, false)), "{line}");
        }
        let whole = "run skirt as first waist=3 in cloth=any wi";
        assert_eq!(order(whole), Some(("skirt", answered(&["waist", "cloth"]), false, true, true)));
        assert_eq!(typed(whole).order().unwrap().last, Some(("cloth", "any wi")));
        // Behind an answer the word `as` is a unit's, and no name follows it.
        assert_eq!(order("run skirt waist=3 in as"), Some(("skirt", answered(&["waist"]), false, false, true)));
        for none in ["run skirt", "describe skirt ", "waist = 3 ", "run "] {
            assert_eq!(order(none), None, "{none}");
        }
    }
}
