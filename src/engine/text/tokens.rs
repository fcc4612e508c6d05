//! The tokenizer of script text, for finding literals, marking operands and counting open brackets.
//!
//! Comments, nested ones too, are skipped. A text is one token, but `${ … }` inside a back-ticked text is code. The
//! same scanner tokenizes a line of a page, finished or not: see [`super::line_tokens`].
//!
//! Never here: what a token means; the script engine decides that.

use super::line_context::{CursorContext, Quotes};
use crate::quantity::literal::{self, LiteralValue};
use crate::quantity::{LiteralError, LiteralErrorKind, Reading};
use std::ops::Range;

/// The kind of a token.
#[derive(Clone, Debug, PartialEq)]
pub enum TokenKind {
    /// A quantity, or a number that the script engine cannot read.
    Literal(LiteralValue),
    /// A plain number.
    Number,
    /// A name or a word of the script language.
    Word,
    /// A text, or a part of one.
    Text,
    /// An operator or other sign.
    Symbol,
    /// `(`, `[`, `{` and `#{`.
    Open,
    /// `)`, `]` and `}`.
    Close,
    /// `${`, where code begins inside a text.
    TextOpen,
    /// The `}` that ends such code.
    TextClose,
}

/// One token and its span.
#[derive(Clone, Debug, PartialEq)]
pub struct Token {
    /// The kind.
    pub kind: TokenKind,
    /// Its bytes in the text.
    pub span: Range<usize>,
}

/// The tokens of a script, and whether it ends inside a text or a comment.
#[derive(Debug, Default)]
pub struct Tokens {
    /// The tokens, in order.
    pub list: Vec<Token>,
    /// Where a text or a comment that may go on over the next lines is begun and not closed.
    unfinished: Option<usize>,
}

/// Most texts in the code of one another.
const MOST_TEXTS: usize = 32;

/// One letter more than `2026-12-03` has, so that what goes on behind a day is seen.
const LONGEST_DAY: usize = 11;

/// Longest number that is looked at as a whole; more digits than this mean nothing.
const MOST_DIGITS: usize = 400;

/// Signs of several characters that are one token.
const LONG_SYMBOLS: [&str; 24] = [
    "===", "!==", ":=", "..=", "...", "<<=", ">>=", "**=", "**", "/=", "..", "=>", "==", "!=", "<=", ">=", "&&", "||",
    "??", "?.", "+=", "-=", "*=", "::",
];

impl Tokens {
    /// Reads a script.
    pub fn read(text: &str, reading: Reading) -> Result<Self, LiteralError> {
        let mut scanner = Scanner::new(text, reading, None);
        scanner.code(false)?;
        Ok(scanner.tokens)
    }

    /// Where the first bracket, text or comment begins that is not closed, if the next line may close it.
    pub fn open_at(&self) -> Option<usize> {
        let mut open = Vec::new();
        for token in &self.list {
            match bracket(&token.kind) {
                1 => open.push(token.span.start),
                -1 => drop(open.pop()),
                _ => {}
            }
        }
        open.into_iter().chain(self.unfinished).min()
    }

    /// Whether the script is incomplete: an open bracket, text or comment.
    pub fn is_open(&self) -> bool {
        self.open_at().is_some()
    }
}

fn bracket(kind: &TokenKind) -> i32 {
    match kind {
        TokenKind::Open => 1,
        TokenKind::Close => -1,
        _ => 0,
    }
}

pub(super) struct Scanner<'t> {
    text: &'t str,
    reading: Reading,
    at: usize,
    /// Number of open brackets.
    depth: i32,
    /// Number of texts that are open, each in code of the one around it.
    texts: usize,
    /// Where texts may begin in a line of a page; `None` for a script.
    line: Option<Quotes>,
    pub(super) tokens: Tokens,
    /// The notes of a line, each with its `#`.
    pub(super) notes: Vec<Range<usize>>,
    /// What the end of the text is in.
    pub(super) ends_in: CursorContext,
}

impl<'t> Scanner<'t> {
    pub(super) fn new(text: &'t str, reading: Reading, line: Option<Quotes>) -> Self {
        Self {
            text,
            reading,
            at: 0,
            depth: 0,
            texts: 0,
            line,
            tokens: Tokens::default(),
            notes: Vec::new(),
            ends_in: CursorContext::Code,
        }
    }
}

impl Scanner<'_> {
    fn rest(&self) -> &str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn push(&mut self, kind: TokenKind, length: usize) {
        self.depth += bracket(&kind);
        self.tokens.list.push(Token { kind, span: self.at..self.at + length });
        self.at += length;
    }

    fn previous(&self) -> Option<(&TokenKind, &str)> {
        let token = self.tokens.list.last()?;
        Some((&token.kind, self.text.get(token.span.clone())?))
    }

    /// Reads code to the end, or to the `}` that closes an interpolation.
    pub(super) fn code(&mut self, inside_text: bool) -> Result<(), LiteralError> {
        let mut depth = 0i32;
        let start = self.at;
        while let Some(c) = self.rest().chars().next() {
            match c {
                _ if c.is_whitespace() => self.at += c.len_utf8(),
                '#' if self.line.is_some() && self.begins_note() => self.note(),
                '/' if self.has_comments() && self.rest().starts_with("//") => self.line_comment(),
                '/' if self.has_comments() && self.rest().starts_with("/*") => self.block_comment(),
                '"' | '\'' | '`' if self.line.is_some_and(|quotes| !self.begins_text(c, quotes)) => {
                    self.push(TokenKind::Symbol, 1);
                }
                '"' => self.quoted('"'),
                '\'' => self.quoted('\''),
                '`' => self.back_ticked()?,
                '#' if self.rest().starts_with("#{") => {
                    depth += 1;
                    self.push(TokenKind::Open, 2);
                }
                '#' => self.hashes(),
                '}' if inside_text && depth == 0 => {
                    self.push(TokenKind::TextClose, 1);
                    return Ok(());
                }
                '(' | '[' | '{' | ')' | ']' | '}' => {
                    let kind = if "([{".contains(c) { TokenKind::Open } else { TokenKind::Close };
                    depth += bracket(&kind);
                    self.push(kind, 1);
                }
                _ if c.is_alphabetic() || c == '_' => {
                    let length = self.run(|c| c.is_alphanumeric() || c == '_');
                    self.push(TokenKind::Word, length);
                }
                // In a line, an unfinished measure is no error.
                _ if self.line.is_some() && (c.is_numeric() || literal::may_begin(c)) => {
                    self.push(TokenKind::Number, self.run(char::is_numeric).max(c.len_utf8()));
                }
                _ if self.line.is_none() && self.begins_number(c) => self.number()?,
                _ => {
                    let long = LONG_SYMBOLS.iter().find(|symbol| self.rest().starts_with(**symbol));
                    self.push(TokenKind::Symbol, long.map_or(c.len_utf8(), |symbol| symbol.len()));
                }
            }
        }
        if inside_text {
            self.unfinished_from(start);
        }
        Ok(())
    }

    fn unfinished_from(&mut self, start: usize) {
        self.tokens.unfinished.get_or_insert(start);
    }

    fn run(&self, keeps: impl Fn(char) -> bool) -> usize {
        self.rest().find(|c| !keeps(c)).unwrap_or(self.rest().len())
    }

    fn begins_number(&self, c: char) -> bool {
        let point = c == '.' && self.rest().chars().nth(1).is_some_and(|next| next.is_ascii_digit());
        // After a value, a point begins a member, not a number.
        let after_value = matches!(
            self.tokens.list.last(),
            Some(Token { kind: TokenKind::Word | TokenKind::Number | TokenKind::Close, span }) if span.end == self.at
        );
        literal::may_begin(c) || (point && !after_value)
    }

    fn number(&mut self) -> Result<(), LiteralError> {
        if let Some(length) = self.day() {
            let written = self.rest().get(..length).unwrap_or_default().to_owned();
            return Err(LiteralError { span: self.at..self.at + length, kind: LiteralErrorKind::Date { written } });
        }
        let plain = self.plain_number();
        if let Some(length) = plain {
            self.push(TokenKind::Number, length);
            return Ok(());
        }
        let after_slash = matches!(self.previous(), Some((TokenKind::Symbol, "/" | "÷")));
        if let Some(found) = literal::literal_at(self.text, self.at, self.reading, after_slash)? {
            let start = self.at;
            self.push(TokenKind::Literal(found.value), found.end - self.at);
            let percent = self.text.get(..found.end).is_some_and(|text| text.ends_with('%'));
            if percent && self.of() {
                return Ok(());
            }
            let follows = self.rest().trim_start().chars().next();
            if percent && follows.is_some_and(|c| c.is_alphanumeric() || c == '(') {
                return Err(LiteralError { span: start..found.end, kind: LiteralErrorKind::NoRemainder });
            }
            // The literal's replacement would merge with a word that follows it directly.
            let grown = self.run(|c| c.is_alphanumeric() || c == '_');
            if grown > 0 {
                let written = self.rest().get(..grown).unwrap_or_default().to_owned();
                let span = self.at..self.at + grown;
                return Err(LiteralError { span, kind: LiteralErrorKind::Trailing { written } });
            }
            return Ok(());
        }
        let mut length = self.run(|c| c.is_ascii_digit() || c == '_');
        let fraction = self.rest().get(length..).and_then(|rest| rest.strip_prefix('.'));
        if let Some(decimals) = fraction.filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit())) {
            length += 1 + decimals.find(|c: char| !(c.is_ascii_digit() || c == '_')).unwrap_or(decimals.len());
        }
        let kind = if length == 0 { TokenKind::Symbol } else { TokenKind::Number };
        let length = length.max(self.rest().chars().next().map_or(1, char::len_utf8));
        self.push(kind, length);
        Ok(())
    }

    /// Reads the `of` of `15 % of $80`, an operator and not a name; returns whether it was there.
    fn of(&mut self) -> bool {
        let behind = self.rest().trim_start();
        let rest = behind.strip_prefix("of");
        let found = rest.is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() || c == '_'));
        if found {
            self.at += self.rest().len() - behind.len();
            self.push(TokenKind::Symbol, 2);
        }
        found
    }

    /// Length of a day such as `2026-12-03` or `3/12/2026`, which would be worked out as a sum.
    fn day(&self) -> Option<usize> {
        let signs = self.rest().bytes().take(LONGEST_DAY);
        let length = signs.take_while(|c| c.is_ascii_digit() || matches!(c, b'-' | b'/')).count();
        let written = self.rest().get(..length)?;
        let parts: Vec<&str> = written.split(['-', '/']).collect();
        let [first, _, last] = parts.as_slice() else { return None };
        let one_sign = written.contains('-') != written.contains('/');
        let short = parts.iter().filter(|part| (1..=2).contains(&part.len())).count() == 2;
        let alone = !self.rest().get(length..)?.starts_with(|c: char| c.is_alphanumeric() || c == '_' || c == '.');
        // `1000-10-5` is a sum: only the years of this work make a day.
        let is_year = |part: &str| part.len() == 4 && ["19", "20"].iter().any(|century| part.starts_with(century));
        (one_sign && short && alone && (is_year(first) || is_year(last))).then_some(length)
    }

    /// Length of a number of the script language that looks like a number with a unit: `0x1F`, `1e5`.
    fn plain_number(&self) -> Option<usize> {
        let rest = self.rest();
        let digits = rest.bytes().take(MOST_DIGITS).take_while(|c| c.is_ascii_digit() || *c == b'.').count();
        let mut after = rest.get(digits..)?.chars();
        let (mark, next) = (after.next()?, after.next()?);
        let radix = rest.starts_with('0') && digits == 1 && "xob".contains(mark) && next.is_ascii_hexdigit();
        let exponent = "eE".contains(mark) && (next.is_ascii_digit() || "+-".contains(next));
        let tail = |from: usize, keeps: fn(char) -> bool| {
            rest.get(from..).map_or(0, |tail| tail.find(|c| !keeps(c)).unwrap_or(tail.len()))
        };
        if radix {
            return Some(digits + 1 + tail(digits + 1, |c| c.is_ascii_hexdigit() || c == '_'));
        }
        exponent.then(|| digits + 2 + tail(digits + 2, |c| c.is_ascii_digit()))
    }

    /// Whether `#` here begins a note: after a blank, and not as part of `#{` or `#"`.
    fn begins_note(&self) -> bool {
        let blank = self.before().is_none_or(char::is_whitespace);
        blank && !self.rest().starts_with("#{") && !self.rest().starts_with("#\"")
    }

    fn note(&mut self) {
        let start = self.at;
        self.line_comment();
        self.notes.push(start..self.at);
    }

    /// False where names of files and goods may contain `//` and `/*`.
    fn has_comments(&self) -> bool {
        self.line != Some(Quotes::InAnswers)
    }

    fn before(&self) -> Option<char> {
        self.text.get(..self.at)?.chars().next_back()
    }

    /// Whether a quotation mark in a line begins a text, instead of meaning inches, feet or an apostrophe.
    fn begins_text(&self, mark: char, quotes: Quotes) -> bool {
        let before = self.before().unwrap_or(' ');
        let typed = self.text.get(..self.at).unwrap_or_default().trim_end();
        let after_number = typed.ends_with(char::is_numeric);
        let inside_word = before.is_alphanumeric() || before == '_';
        match quotes {
            Quotes::Anywhere => !after_number && !inside_word,
            Quotes::InAnswers if before == '=' => true,
            Quotes::InAnswers if mark == '\'' || after_number || inside_word => false,
            Quotes::InAnswers => {
                let line = self.rest().get(1..).and_then(|rest| rest.lines().next()).unwrap_or_default();
                self.depth > 0 || (before.is_whitespace() && line.contains(mark))
            }
        }
    }

    fn line_comment(&mut self) {
        self.at += self.run(|c| c != '\n');
        if self.rest().is_empty() {
            self.ends_in = CursorContext::Comment;
        }
    }

    fn block_comment(&mut self) {
        let (mut depth, start) = (0, self.at);
        while !self.rest().is_empty() {
            if self.rest().starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if self.rest().starts_with("*/") {
                depth -= 1;
                self.at += 2;
                if depth == 0 {
                    return;
                }
            } else {
                self.at += self.rest().chars().next().map_or(1, char::len_utf8);
            }
        }
        self.unfinished_from(start);
        self.ends_in = CursorContext::Comment;
    }

    fn quoted(&mut self, mark: char) {
        let mut escaped = false;
        let mut length = 1;
        for c in self.rest().chars().skip(1) {
            if c == '\n' && !escaped {
                break;
            }
            length += c.len_utf8();
            match c {
                _ if escaped => escaped = false,
                '\\' if !(mark == '\'' && self.line == Some(Quotes::InAnswers)) => escaped = true,
                _ if c == mark => return self.push(TokenKind::Text, length),
                _ => {}
            }
        }
        // A text in these marks ends on its line, unless the line ends in a backslash.
        if escaped {
            self.unfinished_from(self.at);
        }
        self.push(TokenKind::Text, length);
        self.ends_in_text();
    }

    /// Notes that the end of the input is inside a text, if an unclosed text reaches it.
    fn ends_in_text(&mut self) {
        if self.rest().is_empty() {
            self.ends_in = CursorContext::Text;
        }
    }

    /// Reads `#"…"#`, with any number of `#`. Many `#` that begin none are one sign, so that they are counted
    /// once.
    fn hashes(&mut self) {
        let hashes = self.run(|c| c == '#');
        match self.rest().as_bytes().get(hashes) {
            Some(b'"') => {}
            // The last one begins a group.
            Some(b'{') => {
                return self.push(TokenKind::Symbol, hashes - 1);
            }
            _ => {
                return self.push(TokenKind::Symbol, hashes);
            }
        }
        let close = format!("\"{}", "#".repeat(hashes));
        let end = self.rest().get(hashes + 1..).and_then(|body| body.find(&close));
        if end.is_none() {
            self.unfinished_from(self.at);
        }
        let length = end.map_or(self.rest().len(), |end| hashes + 1 + end + close.len());
        self.push(TokenKind::Text, length);
        if end.is_none() {
            self.ends_in_text();
        }
    }

    fn back_ticked(&mut self) -> Result<(), LiteralError> {
        let start = self.at;
        if self.texts >= MOST_TEXTS {
            // Nobody writes this, and each one takes room on the stack.
            self.unfinished_from(start);
            self.push(TokenKind::Text, self.rest().len());
            self.ends_in_text();
            return Ok(());
        }
        self.texts += 1;
        let read = self.text_with_code(start);
        self.texts -= 1;
        read
    }

    fn text_with_code(&mut self, start: usize) -> Result<(), LiteralError> {
        self.at += 1;
        loop {
            let length = self.run(|c| c != '`' && c != '$');
            self.push(TokenKind::Text, length);
            if self.rest().starts_with("${") {
                self.push(TokenKind::TextOpen, 2);
                self.code(true)?;
                let ends_in_code = self.previous().is_none_or(|(kind, _)| *kind != TokenKind::TextClose);
                if self.line.is_some() && ends_in_code {
                    return Ok(());
                }
            } else if self.rest().starts_with('$') {
                self.at += 1;
            } else if self.rest().starts_with('`') {
                self.at += 1;
                return Ok(());
            } else {
                self.unfinished_from(start);
                self.ends_in_text();
                return Ok(());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(text: &str) -> Vec<&str> {
        let tokens = Tokens::read(text, Reading::default()).unwrap();
        tokens.list.iter().map(|token| &text[token.span.clone()]).collect()
    }

    fn literals(text: &str) -> Vec<&str> {
        let tokens = Tokens::read(text, Reading::default()).unwrap();
        let literals = tokens.list.iter().filter(|token| matches!(token.kind, TokenKind::Literal(_)));
        literals.map(|token| &text[token.span.clone()]).collect()
    }

    #[test]
    fn literals_are_found_where_code_is_and_nowhere_else() {
        assert_eq!(literals("let a = 14 1/2 in + b.max(2 yd 6 in); // 3 cm"), ["14 1/2 in", "2 yd 6 in"]);
        assert_eq!(literals("\"3 cm\" + `4 cm ${5 cm} 6 cm` /* 7 cm /* 8 */ 9 cm */ + 1 cm"), ["5 cm", "1 cm"]);
        assert_eq!(literals("#\"3 cm\"# + '4' + 5'"), ["5'"]);
        assert_eq!(literals("25 % * x"), ["25 %"]);
        assert_eq!(literals("a / (1/2 in)"), ["1/2 in"]);
    }

    #[test]
    fn nothing_grows_together_with_a_literal() {
        for text in ["5'3", "$5x", "14\"x", "2 m^25"] {
            let error = Tokens::read(text, Reading::default()).unwrap_err();
            assert!(error.to_string().ends_with("cannot follow here"), "{text}: {error}");
        }
        assert_eq!(words("15% of(80)"), ["15%", "of", "(", "80", ")"]);
        assert!(Tokens::read("15 % offer", Reading::default()).is_err());
    }

    #[test]
    fn numbers_of_the_script_language_stay() {
        for text in ["0..10", "5.max(3)", "0x1F", "1e5 + 2", "1_000", "if x == 3 { 4 } else { 5 }", "3/8", "x2 + 1"] {
            assert_eq!(literals(text), Vec::<&str>::new(), "{text}");
        }
        assert_eq!(words("5.max(3)"), ["5", ".", "max", "(", "3", ")"]);
        assert_eq!(words("0..=10"), ["0", "..=", "10"]);
    }

    #[test]
    fn an_unfinished_line_is_known() {
        for (text, open) in [
            ("(1 + ", Some(0)),
            ("fn f() { 1", Some(7)),
            ("2 + `abc", Some(4)),
            ("2 + \"abc\\", Some(4)),
            ("/* abc", Some(0)),
            ("(1) + [2", Some(6)),
            ("(1)", None),
            // No next line could end such a text.
            ("2 + \"abc", None),
        ] {
            assert_eq!(Tokens::read(text, Reading::default()).unwrap().open_at(), open, "{text}");
        }
    }

    #[test]
    fn every_long_sign_is_one_token() {
        for symbol in LONG_SYMBOLS {
            assert_eq!(words(&format!("a {symbol} b")), ["a", symbol, "b"]);
        }
        assert_eq!(words("a<b"), ["a", "<", "b"]);
        assert_eq!(words("a =< b"), ["a", "=", "<", "b"]);
    }

    #[test]
    fn numbers_are_one_token_with_all_that_belongs_to_them() {
        for number in ["0x1F", "0b11", "0o17", "1e5", "1E+5", "1e-15", "2.5e3", "1_000.25", "12.5", ".5", "0xab_c"] {
            assert_eq!(words(number), [number]);
            let tokens = Tokens::read(number, Reading::default()).unwrap();
            assert_eq!(tokens.list[0].kind, TokenKind::Number, "{number}");
        }
        assert_eq!(words("5..7"), ["5", "..", "7"]);
        assert_eq!(words("1.x"), ["1", ".", "x"]);
        assert_eq!(words("a.5"), ["a", ".", "5"]);
        assert_eq!(words("(a).5"), ["(", "a", ")", ".", "5"]);
        assert_eq!(words("(a) .5"), ["(", "a", ")", ".5"]);
        assert_eq!(words("1e5x"), ["1e5", "x"]);
    }

    #[test]
    fn a_day_is_no_sum_and_a_sum_is_no_day() {
        for day in ["2026-12-03", "2026-1-3", "3/12/2026", "12-03-1999", "(2026/12/03)"] {
            let error = Tokens::read(day, Reading::default()).unwrap_err();
            assert!(matches!(error.kind, LiteralErrorKind::Date { .. }), "{day}");
            assert_eq!(&day[error.span.clone()], day.trim_matches(['(', ')']));
        }
        for sum in
            ["1000-10-5", "2026-123-4", "2026-12/3", "26-12-03", "2026-12", "2026-12-3-4", "1826-12-03", "2026-1-2.5"]
                .into_iter()
                .chain([
                    "2026-12-03-4",
                    "2026-12-031",
                    "12-2026-03",
                    "2026--12",
                    "2026-12-",
                    "2126-12-03",
                    "2026-12-03_",
                ])
        {
            assert!(Tokens::read(sum, Reading::default()).is_ok(), "{sum}");
        }
    }

    #[test]
    fn a_share_is_of_something() {
        for wrong in ["15 % x", "15 % (3)", "15 % 3", "15 % offer", "15 % of_x"] {
            assert!(Tokens::read(wrong, Reading::default()).is_err(), "{wrong}");
        }
        assert_eq!(words("15 % + 3"), ["15 %", "+", "3"]);
        assert_eq!(words("15 %   of x"), ["15 %", "of", "x"]);
        assert_eq!(words("15 %"), ["15 %"]);
    }

    #[test]
    fn texts_and_notes_are_left_out_of_the_code() {
        assert_eq!(words("a // b\nc"), ["a", "c"]);
        assert_eq!(words("a /* b /* c */ d */ e"), ["a", "e"]);
        assert_eq!(words("\"a\\\"b\" c"), ["\"a\\\"b\"", "c"]);
        assert_eq!(words("\"a\nb"), ["\"a", "b"]);
        assert_eq!(words("'ä' c"), ["'ä'", "c"]);
        assert_eq!(words("#\"a \" b\"# c"), ["#\"a \" b\"#", "c"]);
        assert_eq!(words("##\"x\"#y\"## z"), ["##\"x\"#y\"##", "z"]);
        assert_eq!(words("`a ${b + `c`} d` e"), ["a ", "${", "b", "+", "c", "}", " d", "e"]);
        assert_eq!(words("`a $b` c"), ["a ", "b", "c"]);
        assert_eq!(words("`${ {1} }` c"), ["", "${", "{", "1", "}", "}", "", "c"]);
        let kinds: Vec<TokenKind> = Tokens::read("`${#{a: 1}}`", Reading::default())
            .unwrap()
            .list
            .into_iter()
            .map(|token| token.kind)
            .collect();
        // The first } ends the group, and what follows is still code.
        assert_eq!(literals("`${#{a: 1 in}.a + 2 in} 3 in`"), ["1 in", "2 in"]);
        let (open, close) = (TokenKind::Open, TokenKind::Close);
        assert_eq!(kinds[1..4], [TokenKind::TextOpen, open, TokenKind::Word]);
        assert_eq!(kinds[kinds.len() - 3..], [close, TokenKind::TextClose, TokenKind::Text]);
    }

    #[test]
    fn what_follows_a_literal_is_marked_where_it_stands() {
        let wrong = |text: &str| {
            let error = Tokens::read(text, Reading::default()).unwrap_err();
            (text[error.span.clone()].to_owned(), error.kind)
        };
        let trailing = |written: &str| (written.to_owned(), LiteralErrorKind::Trailing { written: written.to_owned() });
        assert_eq!(wrong("1 + 14\"x_2 + 3"), trailing("x_2"));
        assert_eq!(wrong("1 + 5'3"), trailing("3"));
        assert_eq!(wrong("2 + 15 % x"), ("15 %".to_owned(), LiteralErrorKind::NoRemainder));
        assert_eq!(wrong("2 + 15 % (x)").0, "15 %");
        assert_eq!(words("3 in (2)"), ["3 in", "(", "2", ")"]);
        assert_eq!(words("15 %)"), ["15 %", ")"]);
        assert_eq!(words("15 % * (3)"), ["15 %", "*", "(", "3", ")"]);
    }

    #[test]
    fn a_fraction_behind_a_division_sign_is_questioned() {
        for wrong in ["a / 1/2 in", "a ÷ 1/2 in"] {
            assert!(Tokens::read(wrong, Reading::default()).is_err(), "{wrong}");
        }
        assert_eq!(literals("a * 1/2 in"), ["1/2 in"]);
    }

    #[test]
    fn letters_that_only_begin_like_a_number_of_the_script_language() {
        for (text, word) in [("0xg", "xg"), ("1x1", "x1"), ("00x1", "x1"), ("1ex", "ex"), ("0z1", "z1"), ("1f5", "f5")]
        {
            let error = Tokens::read(text, Reading::default()).unwrap_err();
            assert!(matches!(&error.kind, LiteralErrorKind::UnknownUnit { written, .. } if written == word), "{text}");
            assert_eq!(&text[error.span], word);
        }
        assert_eq!(words("0b2"), ["0b2"]);
        assert_eq!(words("0x1Fg"), ["0x1F", "g"]);
        assert_eq!(words("1_0.2_5.6"), ["1_0.2_5", ".", "6"]);
        assert_eq!(words("1._5"), ["1", ".", "_5"]);
        assert_eq!(words("$ + 1"), ["$", "+", "1"]);
        let digits = "1".repeat(400);
        assert_eq!(words(&format!("{digits}e5")), [format!("{digits}e5")]);
        assert!(Tokens::read(&format!("{digits}1e5"), Reading::default()).is_err());
    }

    #[test]
    fn texts_stand_in_each_other_so_often_and_beside_each_other_without_end() {
        let nested = |count: usize| format!("{}1 in{}", "`${".repeat(count), "}`".repeat(count));
        assert_eq!(literals(&nested(32)), ["1 in"]);
        assert_eq!(Tokens::read(&nested(32), Reading::default()).unwrap().open_at(), None);
        assert_eq!(literals(&nested(33)), Vec::<&str>::new());
        assert_eq!(Tokens::read(&nested(33), Reading::default()).unwrap().open_at(), Some(3 * 32));
        assert_eq!(literals(&format!("{}1 in", "`a` + ".repeat(40))), ["1 in"]);
    }

    #[test]
    fn signs_and_ends_of_texts() {
        assert_eq!(words("\"a\\\nb\" c"), ["\"a\\\nb\"", "c"]);
        assert_eq!(words("'a\\'b' c"), ["'a\\'b'", "c"]);
        assert_eq!(words("##{a: 1}"), ["#", "#{", "a", ":", "1", "}"]);
        assert_eq!(words("a ### b"), ["a", "###", "b"]);
        assert_eq!(words("#\"a"), ["#\"a"]);
        assert_eq!(words("a /* b */ c // d"), ["a", "c"]);
        assert_eq!(words("a / b /c"), ["a", "/", "b", "/", "c"]);
        assert_eq!(words("a /*ä*/ _b"), ["a", "_b"]);
        assert_eq!(words("~b"), ["~", "b"]);
    }

    #[test]
    fn what_is_open_is_the_first_that_is_not_closed() {
        let open = |text: &str| Tokens::read(text, Reading::default()).unwrap().open_at();
        assert_eq!(open(") ("), Some(2));
        assert_eq!(open("(1 + [2)"), Some(0));
        assert_eq!(open("(1 + `ab"), Some(0));
        assert_eq!(open("1 + #\"ab"), Some(4));
        assert_eq!(open("`a ${1 + "), Some(5));
        assert_eq!(open("/* a /* b */"), Some(0));
        assert!(Tokens::read("(", Reading::default()).unwrap().is_open());
        assert!(!Tokens::read("()", Reading::default()).unwrap().is_open());
    }
}
