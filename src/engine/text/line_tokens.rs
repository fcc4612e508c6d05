//! Tokenizes a line of a page, finished or not: its texts, notes and brackets.
//!
//! Uses the scanner of [`super::tokens`], but nothing is an error: measures are scanned as numbers and words. Code
//! that must tell the inside of a text from the rest of a line uses this module.

pub(crate) use super::line_context::{CursorContext, Quotes};
use super::tokens::{Scanner, Token, TokenKind};
use crate::quantity::Reading;
use std::ops::Range;

/// A line in tokens.
#[derive(Debug)]
pub(crate) struct LineTokens<'t> {
    text: &'t str,
    /// In order, without those inside notes and comments.
    pub list: Vec<Token>,
    /// The notes, each with its `#`; a statement of several lines may have one per line.
    pub notes: Vec<Range<usize>>,
    /// What the end of the line is in.
    pub ends_in: CursorContext,
}

impl<'t> LineTokens<'t> {
    /// Tokenizes a line, or a statement of several lines.
    pub(crate) fn read(text: &'t str, quotes: Quotes) -> Self {
        let mut scanner = Scanner::new(text, Reading::default(), Some(quotes));
        // Only measures can be errors, and those of a line are not read.
        let _never_refused = scanner.code(false);
        let Scanner { tokens, notes, ends_in, .. } = scanner;
        Self { text, list: tokens.list, notes, ends_in }
    }

    /// The text of a token.
    pub(crate) fn text_of(&self, token: &Token) -> &'t str {
        self.text.get(token.span.clone()).unwrap_or_default()
    }

    /// Bytes at which `=` is a token of its own, outside texts.
    pub(crate) fn equals_signs(&self) -> impl Iterator<Item = usize> {
        let signs = self.list.iter().filter(|token| token.kind == TokenKind::Symbol && self.text_of(token) == "=");
        signs.map(|token| token.span.start)
    }

    /// Spans of a free-standing word, outside texts: after a blank or a comma, and before a blank or the end.
    pub(crate) fn words<'w>(&'w self, word: &'w str) -> impl DoubleEndedIterator<Item = Range<usize>> + 'w {
        let alone = |span: &Range<usize>| {
            let before = self.text.get(..span.start).and_then(|before| before.chars().next_back());
            let behind = self.text.get(span.end..).and_then(|behind| behind.chars().next());
            before.is_some_and(|c| c.is_whitespace() || c == ',') && behind.is_none_or(char::is_whitespace)
        };
        let words = self.list.iter().filter(move |token| token.kind == TokenKind::Word && self.text_of(token) == word);
        words.map(|token| token.span.clone()).filter(alone)
    }

    /// The text split at the commas outside brackets and texts; empty parts are left out.
    pub(crate) fn at_commas(&self) -> Vec<&'t str> {
        let mut depth = 0;
        let mut parts = Vec::new();
        let mut start = 0;
        for token in &self.list {
            match token.kind {
                TokenKind::Open => depth += 1,
                TokenKind::Close => depth -= 1,
                TokenKind::Symbol if depth == 0 && self.text_of(token) == "," => {
                    parts.push(self.text.get(start..token.span.start).unwrap_or_default());
                    start = token.span.end;
                }
                _ => {}
            }
        }
        parts.push(self.text.get(start..).unwrap_or_default());
        parts.into_iter().map(str::trim).filter(|part| !part.is_empty()).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ends_in(text: &str, quotes: Quotes) -> CursorContext {
        LineTokens::read(text, quotes).ends_in
    }

    #[test]
    fn texts_and_notes_of_a_sum() {
        for (line, inside) in [
            ("waist", CursorContext::Code),
            ("14 1/2\" + wai", CursorContext::Code),
            ("5' 3\" + wai", CursorContext::Code),
            ("5 ' + wai", CursorContext::Code),
            ("\"wai", CursorContext::Text),
            ("\"a\\\" wai", CursorContext::Text),
            ("\"a\" + wai", CursorContext::Code),
            ("`a ${wai", CursorContext::Code),
            ("`a ${1} wai", CursorContext::Text),
            ("waist = 5 cm # wai", CursorContext::Comment),
            ("# wai", CursorContext::Comment),
            ("\"a # b\" + wai", CursorContext::Code),
            ("2 in // wai", CursorContext::Comment),
            ("2 in /* wai", CursorContext::Comment),
            ("a = (1 + # one\n wai", CursorContext::Code),
            ("12 in 5xyz + 0x", CursorContext::Code),
            ("it's", CursorContext::Code),
            ("a_'b", CursorContext::Code),
            ("'wai", CursorContext::Text),
            ("(\"wai", CursorContext::Text),
            ("\"ab\n", CursorContext::Code),
            ("\"ab\nc", CursorContext::Code),
            ("2 in // wai\n", CursorContext::Code),
            ("2 in /* a */ wai", CursorContext::Code),
            ("2 in /* a /* b */ wai", CursorContext::Comment),
            ("a #{b: 1", CursorContext::Code),
            ("a #\"wai", CursorContext::Text),
            ("a #\"wai\"# b", CursorContext::Code),
            ("a#wai", CursorContext::Code),
            (".5 xyz # wai", CursorContext::Comment),
            ("a = .5 + \"wai", CursorContext::Text),
            ("`wai", CursorContext::Text),
            ("`a` + wai", CursorContext::Code),
        ] {
            assert_eq!(ends_in(line, Quotes::Anywhere), inside, "{line}");
        }
    }

    #[test]
    fn texts_and_notes_of_a_line_of_words() {
        for (line, inside) in [
            ("run skirt cloth=maker's wai", CursorContext::Code),
            ("run skirt cloth='maker wai", CursorContext::Text),
            ("run skirt cloth='maker' wai", CursorContext::Code),
            ("run skirt waist=f(\"wai", CursorContext::Text),
            ("run skirt waist=14\" hips=(5' 3\"", CursorContext::Code),
            ("run skirt note=a\\ hips='a\\' wai", CursorContext::Code),
            ("read o'brien", CursorContext::Code),
            ("read a//b/*.csv", CursorContext::Code),
            ("read o'brien.csv as x # wai", CursorContext::Comment),
            ("open \"my # page", CursorContext::Comment),
            ("open \"my # page\"", CursorContext::Code),
            ("open \"my", CursorContext::Code),
            ("open \"", CursorContext::Code),
            ("open (\"my", CursorContext::Text),
            ("open (my) \"my", CursorContext::Code),
            ("open my\"page\" # x", CursorContext::Comment),
            ("open 'my # page", CursorContext::Comment),
            ("run skirt waist='", CursorContext::Text),
            ("run skirt note='a // b' wai", CursorContext::Code),
        ] {
            assert_eq!(ends_in(line, Quotes::InAnswers), inside, "{line}");
        }
    }

    #[test]
    fn words_commas_and_signs_outside_texts() {
        let line = LineTokens::read("a as b, \"c as d, e\" as f(1, 2) =, == 3", Quotes::Anywhere);
        assert_eq!(line.words("as").map(|span| span.start).collect::<Vec<_>>(), [2, 20]);
        assert_eq!(line.at_commas(), ["a as b", "\"c as d, e\" as f(1, 2) =", "== 3"]);
        assert_eq!(line.equals_signs().collect::<Vec<_>>(), [31]);
    }

    fn texts(line: &str, quotes: Quotes) -> Vec<&str> {
        let tokens = LineTokens::read(line, quotes);
        tokens.list.iter().map(|token| tokens.text_of(token)).collect()
    }

    #[test]
    fn a_mark_begins_a_text_only_where_one_may_stand() {
        let inside = |line| texts(line, Quotes::InAnswers);
        assert_eq!(inside("open \"my page\" x"), ["open", "\"my page\"", "x"]);
        assert_eq!(inside("open \"\" x"), ["open", "\"\"", "x"]);
        assert_eq!(inside("open ,\"a\""), ["open", ",", "\"", "a", "\""]);
        assert_eq!(inside("open \"my\npage\""), ["open", "\"", "my", "page", "\""]);
        assert_eq!(inside("waist=14 \"x\""), ["waist", "=", "14", "\"", "x", "\""]);
        assert_eq!(inside("a=f(\"b\", 'c')"), ["a", "=", "f", "(", "\"b\"", ",", "'", "c", "'", ")"]);
        assert_eq!(inside("a='b\\' c"), ["a", "=", "'b\\'", "c"]);
        assert_eq!(inside("a=\"b\\\" c\" d"), ["a", "=", "\"b\\\" c\"", "d"]);
        assert_eq!(texts("'b\\' c' d", Quotes::Anywhere), ["'b\\' c'", "d"]);
        assert_eq!(texts("€45½ + .5", Quotes::Anywhere), ["€", "45½", "+", ".", "5"]);
    }

    #[test]
    fn notes_begin_behind_a_blank_and_go_to_the_end_of_the_line() {
        let notes = |line| LineTokens::read(line, Quotes::Anywhere).notes;
        assert_eq!(notes("a # b"), std::iter::once(2..5).collect::<Vec<_>>());
        assert_eq!(notes("# b\na # c"), [0..3, 6..9]);
        assert_eq!(notes("#{a: 1} # n"), std::iter::once(8..11).collect::<Vec<_>>());
        assert!(notes("a#b").is_empty());
        assert!(notes("\"a # b\"").is_empty());
    }

    #[test]
    fn a_word_stands_free_between_blanks() {
        let found = |line| {
            let tokens = LineTokens::read(line, Quotes::Anywhere);
            tokens.words("as").map(|span| span.start).collect::<Vec<_>>()
        };
        assert_eq!(found("as as"), [3]);
        assert_eq!(found("a,as b"), [2]);
        assert_eq!(found("a as, (as) as"), [11]);
        assert_eq!(found("a =as b"), [0; 0]);
        assert_eq!(found("a bas as_ b"), [0; 0]);
        let parts = |line| LineTokens::read(line, Quotes::Anywhere).at_commas();
        assert_eq!(parts(" a, b,, f([1, 2], 3) ,"), ["a", "b", "f([1, 2], 3)"]);
        assert_eq!(parts(""), [""; 0]);
    }
}
