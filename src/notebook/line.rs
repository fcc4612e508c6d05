//! What a typed line is: a note, a cell, a verb or an expression.

use crate::engine::tokens::{TokenKind, Tokens};
use crate::quantity::Reading;

/// One line of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// Nothing, or a note.
    Note,
    /// `name = expression`
    Cell {
        /// The name.
        name: String,
        /// What it is worth.
        expression: String,
    },
    /// A verb and what follows it.
    Verb {
        /// The verb.
        verb: &'static str,
        /// The rest of the line.
        rest: String,
    },
    /// Something to work out.
    Expression(String),
}

/// Words that begin a line as verbs, unless `=` follows.
pub const VERBS: [&str; 7] = ["run", "sheet", "recipes", "describe", "check", "help", "leave"];

/// Reads one line.
pub fn read(typed: &str, reading: Reading) -> Line {
    let text = without_note(typed).trim();
    if text.is_empty() {
        return Line::Note;
    }
    let first = text.split(|c: char| !(c.is_alphanumeric() || c == '_')).next().unwrap_or_default();
    let rest = text.get(first.len()..).unwrap_or_default();
    let gives_value = rest.trim_start().starts_with('=') && !rest.trim_start().starts_with("==");
    if gives_value && first.starts_with(|c: char| c.is_alphabetic() || c == '_') {
        let expression = rest.trim_start().trim_start_matches('=').trim().to_owned();
        return Line::Cell { name: first.to_owned(), expression };
    }
    let stands_alone = rest.is_empty() || rest.starts_with(char::is_whitespace);
    if let Some(verb) = VERBS.iter().find(|verb| **verb == first && stands_alone) {
        // `run + 1` is a sum with a cell of that name, not the verb.
        let sum = Tokens::read(rest, reading).is_ok_and(|tokens| {
            tokens.list.first().is_some_and(|token| {
                token.kind == TokenKind::Symbol && !matches!(rest.get(token.span.clone()), Some("." | "/" | "~"))
            })
        });
        if !sum {
            return Line::Verb { verb, rest: rest.trim().to_owned() };
        }
    }
    Line::Expression(text.to_owned())
}

/// The line without the note at its end: `#` between blanks, outside a text.
fn without_note(typed: &str) -> &str {
    let mut inside_text = false;
    let mut before = ' ';
    for (at, c) in typed.char_indices() {
        let after = typed.get(at + 1..).and_then(|rest| rest.chars().next());
        match c {
            // Behind a number the mark is inches, not the beginning of a text.
            '"' if inside_text || !(before.is_numeric()) => inside_text = !inside_text,
            '#' if !inside_text && before.is_whitespace() && !matches!(after, Some('{' | '"')) => {
                return typed.get(..at).unwrap_or(typed);
            }
            _ => {}
        }
        before = c;
    }
    typed
}

/// `waist=14 1/2 in cloth=any 45 in at $6/yd` as names and answers; quotes are not needed. The first
/// part is what stands before the first answer.
pub fn split_answers(rest: &str) -> (String, Vec<(String, String)>) {
    let mut starts = Vec::new();
    let mut word = 0;
    let mut quoted = false;
    for (at, c) in rest.char_indices() {
        match c {
            '\'' | '"' if rest.get(..at).is_some_and(|before| before.ends_with('=')) => quoted = true,
            '\'' | '"' if quoted => quoted = false,
            _ if quoted => {}
            '=' => {
                let name = rest.get(word..at).unwrap_or_default();
                let fits = !name.is_empty() && name.chars().all(|c| c.is_alphanumeric() || c == '_');
                let compares = rest.get(at + 1..).is_some_and(|after| after.starts_with('='));
                if fits && !compares && !name.starts_with(|c: char| c.is_numeric()) {
                    starts.push((word, at));
                }
            }
            _ if c.is_whitespace() => word = at + c.len_utf8(),
            _ => {}
        }
    }
    let head = rest.get(..starts.first().map_or(rest.len(), |(start, _)| *start)).unwrap_or_default();
    let answers = starts.iter().enumerate().map(|(index, (start, equals))| {
        let end = starts.get(index + 1).map_or(rest.len(), |(next, _)| *next);
        let name = rest.get(*start..*equals).unwrap_or_default().to_owned();
        let answer = rest.get(equals + 1..end).unwrap_or_default().trim();
        (name, unquoted(answer).to_owned())
    });
    (head.trim().to_owned(), answers.collect())
}

fn unquoted(text: &str) -> &str {
    for mark in ['\'', '"'] {
        if let Some(inner) = text.strip_prefix(mark).and_then(|text| text.strip_suffix(mark)) {
            return inner;
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(typed: &str) -> Line {
        read(typed, Reading::default())
    }

    #[test]
    fn kinds_of_line() {
        assert_eq!(line("# bought on Monday"), Line::Note);
        assert_eq!(
            line("waist = 56 cm  # measured twice"),
            Line::Cell { name: "waist".to_owned(), expression: "56 cm".to_owned() }
        );
        assert_eq!(
            line("run puff_sleeve arm=22 cm"),
            Line::Verb { verb: "run", rest: "puff_sleeve arm=22 cm".to_owned() }
        );
        assert_eq!(line("run = 3"), Line::Cell { name: "run".to_owned(), expression: "3".to_owned() });
        assert_eq!(line("run + 3"), Line::Expression("run + 3".to_owned()));
        assert_eq!(line("waist == 3 in"), Line::Expression("waist == 3 in".to_owned()));
        assert_eq!(line("14 1/2\" + 5' 3\" # on the door"), Line::Expression("14 1/2\" + 5' 3\"".to_owned()));
        assert_eq!(line("\"a # b\""), Line::Expression("\"a # b\"".to_owned()));
    }

    #[test]
    fn answers_need_no_quotes() {
        let (recipe, answers) =
            split_answers("skirt waist=14 1/2 in cloth=any 45 in at $6/yd end='cuff' passes=[6, 5]");
        assert_eq!(recipe, "skirt");
        let expected = [("waist", "14 1/2 in"), ("cloth", "any 45 in at $6/yd"), ("end", "cuff"), ("passes", "[6, 5]")];
        let expected: Vec<(String, String)> = expected.map(|(n, a)| (n.to_owned(), a.to_owned())).to_vec();
        assert_eq!(answers, expected);
    }
}
