//! The literal pass: replaces quantities in script text by host calls or names, and maps positions in the rewritten
//! text back to the typed text.

use super::tokens::{Token, TokenKind, Tokens};
use super::words::as_member;
use crate::diagnostic::Span;
use crate::quantity::{LiteralError, Reading};
use std::borrow::Cow;
use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::ops::Range;
use std::rc::Rc;

/// The host function that replaces a literal. No user's name begins with two underscores.
pub const LITERAL: &str = "__literal";

/// The host function that shows a value inside a text, so that `${1/3}` reads as it would anywhere else.
pub const SHOWN: &str = "__shown";

/// The host function that notes that a statement runs.
pub const RAN: &str = "__ran";

/// A script as typed, with the mapping back from the rewritten text.
///
/// Tokens are read again when a position is needed, so that a page of thousands of cells stores none.
#[derive(Clone, Debug, Default)]
pub struct Source {
    /// The file name for errors; `None` for a line at the prompt.
    pub name: Option<String>,
    /// The text as typed.
    pub typed: String,
    /// How it was read and rewritten; `None` if nothing was rewritten.
    read_as: Option<(Reading, Literals, Words)>,
    /// The numbers of the marks of statements, by the token before which they stand.
    marks: Option<Rc<BTreeMap<usize, usize>>>,
    parts: OnceCell<Parts>,
}

/// The data that positions are looked up in.
#[derive(Clone, Debug, Default)]
struct Parts {
    /// The tokens, with spans into the typed text.
    tokens: Vec<Token>,
    /// For each line, the tokens replaced in it, with column and width before and after.
    shifts: Vec<Vec<Shift>>,
    /// The byte at which each line of the typed text begins.
    lines: Vec<usize>,
}

#[derive(Clone, Copy, Debug)]
struct Shift {
    new_column: usize,
    new_width: usize,
    old_column: usize,
    old_width: usize,
}

/// A script made ready for the engine.
#[derive(Debug)]
pub struct Rewritten {
    /// The text for the script engine.
    pub text: String,
    /// The tokens of the typed text.
    pub tokens: Vec<Token>,
    /// The typed text.
    pub source: Source,
    /// What replaces its literals.
    pub literals: Literals,
}

/// What replaces a literal in the rewritten text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Literals {
    /// A call of [`LITERAL`], which the engine evaluates once, while compiling a script.
    #[default]
    Called,
    /// A name whose value is put into the scope before the run. This halves the compile time of an expression.
    Named,
}

/// Which words and signs have a meaning besides those of the script language.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Words {
    /// A script: no words, since it may use them as names.
    #[default]
    Script,
    /// A typed sum: `and`, `or` and `not` join conditions.
    Sum,
    /// A condition on the rows of a table: besides those words, `=` compares.
    Condition,
}

/// The script operator for a typed sign.
fn sign(written: &str) -> Option<&'static str> {
    Some(match written {
        "×" | "of" => "*",
        "÷" => "/",
        "−" => "-",
        "≤" => "<=",
        "≥" => ">=",
        "≠" => "!=",
        // What was rounded to be shown may be typed in again.
        "≈" => "",
        _ => return None,
    })
}

/// The script operator for a word of a condition.
fn joint(written: &str) -> Option<&'static str> {
    Some(match written {
        "and" => "&&",
        "or" => "||",
        "not" => "!",
        _ => return None,
    })
}

/// Names of literals, in order of appearance.
pub const LITERAL_NAMES: [&str; 16] =
    ["__a", "__b", "__c", "__d", "__e", "__f", "__g", "__h", "__i", "__j", "__k", "__l", "__m", "__n", "__o", "__p"];

/// Computes the replacement of each token in turn; `None` if a token stays as it is.
struct Replacing {
    literals: Literals,
    words: Words,
    named: usize,
    /// Whether the last token was a dot, so that a member follows.
    member: bool,
    /// The tokens so far.
    count: usize,
    marks: Option<Rc<BTreeMap<usize, usize>>>,
}

impl Replacing {
    fn new(literals: Literals, words: Words, marks: Option<Rc<BTreeMap<usize, usize>>>) -> Self {
        Self { literals, words, named: 0, member: false, count: 0, marks }
    }

    fn next(&mut self, token: &Token, written: &str) -> Option<Cow<'static, str>> {
        let mark = self.marks.as_ref().and_then(|marks| marks.get(&self.count)).copied();
        self.count += 1;
        let instead = self.replaced(token, written);
        match mark {
            Some(number) => Some(Cow::Owned(format!("{RAN}({number});{}", instead.as_deref().unwrap_or(written)))),
            None => instead,
        }
    }

    fn replaced(&mut self, token: &Token, written: &str) -> Option<Cow<'static, str>> {
        let member = std::mem::replace(&mut self.member, matches!(written, "." | "?."));
        match (&token.kind, self.literals) {
            (TokenKind::Literal(_), Literals::Named) => {
                self.named += 1;
                LITERAL_NAMES.get(self.named - 1).map(|name| Cow::Borrowed(*name))
            }
            (TokenKind::Literal(_), Literals::Called) => {
                let text = written.replace('\\', "\\\\").replace('"', "\\\"");
                Some(Cow::Owned(format!("{LITERAL}(\"{text}\")")))
            }
            (TokenKind::TextOpen, _) => Some(Cow::Owned(format!("${{{SHOWN}("))),
            (TokenKind::TextClose, _) => Some(Cow::Borrowed(")}")),
            (TokenKind::Symbol, _) if written == "=" && self.words == Words::Condition => Some(Cow::Borrowed("==")),
            (TokenKind::Symbol, _) => sign(written).map(Cow::Borrowed),
            (TokenKind::Word, _) if self.words == Words::Script => None,
            (TokenKind::Word, _) if member => as_member(written).map(Cow::Owned),
            (TokenKind::Word, _) => joint(written).map(Cow::Borrowed),
            _ => None,
        }
    }
}

/// Rewrites a script; its literals become calls.
pub fn rewrite(name: Option<&str>, typed: &str, reading: Reading) -> Result<Rewritten, LiteralError> {
    rewritten(name, typed, reading, Words::Script, None, |_| Literals::Called)
}

/// Rewrites a script, with a mark before the tokens that are numbered.
pub(crate) fn rewrite_marked(
    name: &str,
    typed: &str,
    reading: Reading,
    marks: Rc<BTreeMap<usize, usize>>,
) -> Result<Rewritten, LiteralError> {
    rewritten(Some(name), typed, reading, Words::Script, Some(marks), |_| Literals::Called)
}

/// Rewrites one expression; its literals become names if possible.
pub fn rewrite_expression(typed: &str, reading: Reading, words: Words) -> Result<Rewritten, LiteralError> {
    rewritten(None, typed, reading, words, None, |tokens| {
        let count = tokens.iter().filter(|token| matches!(token.kind, TokenKind::Literal(_))).count();
        // A closure in the expression would have to capture the names.
        let function = tokens.iter().any(|token| typed.get(token.span.clone()) == Some("|"));
        if function || count > LITERAL_NAMES.len() { Literals::Called } else { Literals::Named }
    })
}

fn rewritten(
    name: Option<&str>,
    typed: &str,
    reading: Reading,
    words: Words,
    marks: Option<Rc<BTreeMap<usize, usize>>>,
    literals: impl FnOnce(&[Token]) -> Literals,
) -> Result<Rewritten, LiteralError> {
    let tokens = Tokens::read(typed, reading)?.list;
    let literals = literals(&tokens);
    let mut text = String::with_capacity(typed.len() + 16 * tokens.len());
    let mut replacing = Replacing::new(literals, words, marks.clone());
    let mut at = 0;
    for token in &tokens {
        let written = typed.get(token.span.clone()).unwrap_or_default();
        let Some(instead) = replacing.next(token, written) else { continue };
        text.push_str(typed.get(at..token.span.start).unwrap_or_default());
        text.push_str(&instead);
        at = token.span.end;
    }
    text.push_str(typed.get(at..).unwrap_or_default());
    let source = Source {
        name: name.map(str::to_owned),
        typed: typed.to_owned(),
        read_as: Some((reading, literals, words)),
        marks,
        parts: OnceCell::new(),
    };
    Ok(Rewritten { text, tokens, source, literals })
}

impl Parts {
    /// Columns count characters from zero.
    fn of(
        typed: &str,
        (reading, literals, words): (Reading, Literals, Words),
        marks: Option<Rc<BTreeMap<usize, usize>>>,
    ) -> Self {
        let tokens = Tokens::read(typed, reading).map(|tokens| tokens.list).unwrap_or_default();
        let mut replacing = Replacing::new(literals, words, marks);
        let mut shifts = vec![Vec::new()];
        let (mut at, mut new_column, mut old_column) = (0, 0, 0);
        for token in &tokens {
            let written = typed.get(token.span.clone()).unwrap_or_default();
            let Some(instead) = replacing.next(token, written) else { continue };
            for c in typed.get(at..token.span.start).unwrap_or_default().chars() {
                if c == '\n' {
                    shifts.push(Vec::new());
                    (new_column, old_column) = (0, 0);
                } else {
                    (new_column, old_column) = (new_column + 1, old_column + 1);
                }
            }
            let (new_width, old_width) = (instead.chars().count(), written.chars().count());
            if let Some(shifts) = shifts.last_mut() {
                shifts.push(Shift { new_column, new_width, old_column, old_width });
            }
            (new_column, old_column) = (new_column + new_width, old_column + old_width);
            at = token.span.end;
        }
        let rest = typed.get(at..).unwrap_or_default();
        shifts.resize(shifts.len() + rest.matches('\n').count(), Vec::new());
        let lines = std::iter::once(0).chain(typed.match_indices('\n').map(|(byte, _)| byte + 1)).collect();
        Self { tokens, shifts, lines }
    }
}

impl Source {
    fn parts(&self) -> &Parts {
        self.parts.get_or_init(|| match self.read_as {
            Some(read_as) => Parts::of(&self.typed, read_as, self.marks.clone()),
            None => Parts::default(),
        })
    }

    /// Its tokens; empty if nothing was rewritten.
    pub fn tokens(&self) -> &[Token] {
        &self.parts().tokens
    }

    /// The byte of the typed text at a line and column (both from one) of the rewritten text.
    pub fn byte_at(&self, line: usize, column: usize) -> Option<usize> {
        let new = column.checked_sub(1)?;
        let shifts = self.parts().shifts.get(line.checked_sub(1)?)?;
        let mut old = new;
        for shift in shifts.iter().take_while(|shift| shift.new_column <= new) {
            old = if new < shift.new_column + shift.new_width {
                shift.old_column
            } else {
                shift.old_column + shift.old_width + (new - shift.new_column - shift.new_width)
            };
        }
        let start = *self.parts().lines.get(line - 1)?;
        let text = self.typed.get(start..)?;
        let end = text.find('\n').unwrap_or(text.len());
        let offset = text.get(..end)?.char_indices().nth(old).map_or(end, |(byte, _)| byte);
        Some(start + offset)
    }

    /// The span of an error: the line that holds the first of these byte ranges.
    pub fn marked(&self, ranges: Vec<Range<usize>>) -> Span {
        Span::in_text(self.name.as_deref(), &self.typed, ranges)
    }

    /// Index of the token that contains a byte.
    pub fn token_at(&self, byte: usize) -> Option<usize> {
        let at = self.tokens().partition_point(|token| token.span.end <= byte);
        self.tokens().get(at).is_some_and(|token| token.span.start <= byte).then_some(at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_lead_back_to_what_was_typed() {
        let typed = "let ä = 14 in;\nlet b = 1 cm + 2 yd 6 in + 5\" + x;";
        let Rewritten { text: rewritten, source, .. } = rewrite(None, typed, Reading::default()).unwrap();
        let second = rewritten.lines().nth(1).unwrap();
        for word in ["let", "b", "+ x", "x;"] {
            let new = second.rfind(word).map(|byte| second[..byte].chars().count() + 1).unwrap();
            let byte = source.byte_at(2, new).unwrap();
            assert!(typed[byte..].starts_with(word), "{word}: {:?}", &typed[byte..]);
        }
        let inside = second.find("1 cm").map(|byte| second[..byte].chars().count() + 1).unwrap();
        assert!(typed[source.byte_at(2, inside).unwrap()..].starts_with("1 cm"));
        let first = rewritten.lines().next().unwrap();
        assert_eq!(first, "let ä = __literal(\"14 in\");");
    }

    #[test]
    fn literals_of_an_expression_are_named_unless_a_function_stands_in_it() {
        let rewritten = |typed: &str| rewrite_expression(typed, Reading::default(), Words::Sum).unwrap().text;
        assert_eq!(
            rewritten("14 in + `${2 cm}` * 3"),
            "14 in + `${2 cm}` * 3".replace("14 in", "__a").replace("${2 cm}", "${__shown(__b)}")
        );
        assert_eq!(rewritten("[1].map(|x| x * 1 in)"), "[1].map(|x| x * __literal(\"1 in\"))");
        let source = rewrite_expression("ä + 14 in + oops", Reading::default(), Words::Sum).unwrap().source;
        assert_eq!(source.byte_at(1, "ä + __a + ".chars().count() + 1), Some("ä + 14 in + ".len()));
    }

    #[test]
    fn as_many_literals_are_named_as_there_are_names() {
        let rewritten = |count: usize| {
            let typed = vec!["1 in"; count].join(" + ");
            rewrite_expression(&typed, Reading::default(), Words::Sum).unwrap()
        };
        let sixteen = rewritten(16);
        assert_eq!(sixteen.literals, Literals::Named);
        assert_eq!(sixteen.text, LITERAL_NAMES.join(" + "));
        let seventeen = rewritten(17);
        assert_eq!(seventeen.literals, Literals::Called);
        assert_eq!(seventeen.text, ["__literal(\"1 in\")"; 17].join(" + "));
        let marks = rewrite(None, "14\" + 2 in", Reading::default()).unwrap().text;
        assert_eq!(marks, "__literal(\"14\\\"\") + __literal(\"2 in\")");
    }

    #[test]
    fn every_place_of_a_text_of_several_lines_is_found() {
        // Rewritten: “ab __a c”, “__b + __c” and two lines without literals.
        let typed = "ab 14 in c\n(2 cm + 3 in\n\nx)";
        let source = rewrite_expression(typed, Reading::default(), Words::Sum).unwrap().source;
        for (line, column, byte) in [
            (1, 1, Some(0)),
            (1, 3, Some(2)),
            (1, 4, Some(3)),
            (1, 6, Some(3)),
            (1, 7, Some(8)),
            (1, 8, Some(9)),
            (1, 9, Some(10)),
            (1, 99, Some(10)),
            (2, 1, Some(11)),
            (2, 2, Some(12)),
            (2, 4, Some(12)),
            (2, 5, Some(16)),
            (2, 6, Some(17)),
            (2, 8, Some(19)),
            (2, 10, Some(19)),
            (2, 11, Some(23)),
            (3, 1, Some(24)),
            (4, 1, Some(25)),
            (4, 2, Some(26)),
            (5, 1, None),
            (0, 1, None),
            (1, 0, None),
        ] {
            assert_eq!(source.byte_at(line, column), byte, "{line}:{column}");
        }
        assert_eq!([source.token_at(0), source.token_at(1), source.token_at(2)], [Some(0), Some(0), None]);
        assert_eq!(source.token_at(typed.len()), None);
        assert!(Source::default().tokens().is_empty());
    }

    #[test]
    fn signs_and_words_of_people_stand_for_those_of_the_script() {
        let of = |typed: &str, words| rewrite_expression(typed, Reading::default(), words).unwrap().text;
        assert_eq!(of("a × 3 ÷ b − c ≤ d", Words::Sum), "a * 3 / b - c <= d");
        assert_eq!(of("15% of $80", Words::Sum), "__a * __b");
        assert_eq!(of("≈ 3 in ≥ b ≠ c", Words::Sum), " __a >= b != c");
        assert_eq!(of("a?.thread.and", Words::Sum), "a?.__thread.and");
        assert_eq!(of("a <= b = 1", Words::Condition), "a <= b == 1");
        assert_eq!(of("not a and b.or or c = 1", Words::Sum), "! a && b.or || c = 1");
        assert_eq!(of("a = 1 and b == 2", Words::Condition), "a == 1 && b == 2");
        assert_eq!(of("first.thread.for + a.call(1)", Words::Sum), "first.__thread.__for + a.call(1)");
        let script = rewrite(None, "let not = 1; not + or × 2", Reading::default()).unwrap();
        assert_eq!(script.text, "let not = 1; not + or * 2");
        let source = rewrite_expression("a and b or oops", Reading::default(), Words::Sum).unwrap().source;
        assert_eq!(source.byte_at(1, "a && b || ".len() + 1), Some("a and b or ".len()));
    }
}
