//! Parses a typed line: a note, a cell, a verb or an expression.

use super::verbs::{self, Verb};
use crate::diagnostic::{Diagnostic, DiagnosticKind, Span};
use crate::engine::text::line_tokens::{LineTokens, Quotes};
use crate::engine::text::tokens::{TokenKind, Tokens};
use crate::quantity::Reading;
use std::borrow::Cow;

/// One line of a page; it continues on the next line while a bracket is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// A blank line or a note.
    Note,
    /// `name = expression`
    Cell {
        /// The cell's name.
        name: String,
        /// The expression as typed.
        expression: String,
    },
    /// `run gathered_skirt as first waist=21 in`: an order that fills a cell. Without a cell it is a
    /// verb like any other.
    Order {
        /// The recipe's name or file.
        recipe: String,
        /// The name of the cell to fill.
        cell: String,
        /// Each input with its answer as typed, without quotes.
        answers: Vec<(String, String)>,
    },
    /// `read pieces.csv as pieces`
    File {
        /// The file's path.
        file: String,
        /// The name of the cell to fill.
        cell: String,
    },
    /// `must first.panels = 2`
    Must(String),
    /// A verb and what follows it.
    Verb {
        /// The verb's name.
        verb: &'static str,
        /// The rest of the line, without notes.
        rest: String,
    },
    /// A sum that fills no cell.
    Expression(String),
}

/// Parses one line.
pub fn read(typed: &str, reading: Reading) -> Line {
    let text = without_notes(typed);
    let text = text.trim();
    if text.is_empty() {
        return Line::Note;
    }
    let first = text.split(|c: char| !(c.is_alphanumeric() || c == '_')).next().unwrap_or_default();
    let rest = text.get(first.len()..).unwrap_or_default();
    let gives_value = rest.trim_start().starts_with('=') && !rest.trim_start().starts_with("==");
    if gives_value && first.starts_with(|c: char| c.is_alphabetic() || c == '_') {
        let expression = rest.trim_start().strip_prefix('=').unwrap_or_default().trim().to_owned();
        return Line::Cell { name: first.to_owned(), expression };
    }
    let text = verbs::in_own_words(text, reading);
    match verbs::leading(&text, reading) {
        Some((verb, rest)) => of_verb(verb, rest.trim()),
        None => Line::Expression(text.into_owned()),
    }
}

/// Parses the line of a verb. Lines that stay on the page become a kind of their own.
fn of_verb(verb: &'static Verb, rest: &str) -> Line {
    let text = str::to_owned;
    match (verb.name, verb.read(rest)) {
        ("must", _) => Line::Must(rest.to_owned()),
        ("run", Ok(order)) if order.has("as") => {
            Line::Order { recipe: text(order.value(0)), cell: text(order.value(1)), answers: order.answers }
        }
        ("read", Ok(file)) => Line::File { file: text(file.value(0)), cell: text(file.value(1)) },
        _ => Line::Verb { verb: verb.name, rest: rest.to_owned() },
    }
}

/// The byte ranges of the words in a sum that may be names of cells.
pub(super) fn words(sum: &str, reading: Reading) -> Vec<std::ops::Range<usize>> {
    let Ok(tokens) = Tokens::read(sum, reading) else { return Vec::new() };
    let text = |index: usize| tokens.list.get(index).and_then(|token| sum.get(token.span.clone())).unwrap_or_default();
    let words = tokens.list.iter().enumerate().filter(|(index, token)| {
        let member = index.checked_sub(1).is_some_and(|before| [".", "?."].contains(&text(before)));
        token.kind == TokenKind::Word && !member && text(index + 1) != ":"
    });
    words.map(|(_, token)| token.span.clone()).collect()
}

/// Whether the text is incomplete: it ends in an open bracket, text or comment.
pub fn is_open(typed: &str, reading: Reading) -> bool {
    open_at(typed, reading).is_some()
}

/// Where the bracket, text or comment begins that an incomplete text ends in; the byte counts without notes.
fn open_at(typed: &str, reading: Reading) -> Option<usize> {
    // Most lines hold nothing that could be open; skip the tokens for them.
    let quotes = typed.contains(['"', '\'', '`', '#']) || typed.contains("/*");
    let count = |signs: &[char]| typed.matches(signs).count();
    if !quotes && count(&['(', '[', '{']) <= count(&[')', ']', '}']) {
        return None;
    }
    match read(typed, reading) {
        // An apostrophe in a cloth's name opens nothing.
        Line::Note | Line::Verb { .. } | Line::File { .. } | Line::Order { .. } => None,
        Line::Cell { .. } | Line::Must(_) | Line::Expression(_) => {
            Tokens::read(&without_notes(typed), reading).ok()?.open_at()
        }
    }
}

/// The error of an incomplete text, marked where what is open begins; `None` for a complete one.
pub(super) fn open_error(typed: &str, reading: Reading) -> Option<Diagnostic> {
    let start = open_at(typed, reading)?;
    let text = without_notes(typed);
    let sign = text.get(start..)?.chars().next()?;
    let (what, hint) = match sign {
        '(' => ("a bracket is opened here and not closed", "close it with )"),
        '[' => ("a bracket is opened here and not closed", "close it with ]"),
        '{' | '#' => ("a bracket is opened here and not closed", "close it with }"),
        '/' => ("a comment is begun here and not ended", "end it with */"),
        '`' => ("a text is begun here and not ended", "end it with `"),
        _ => ("a text is begun here and not ended", "end it with \""),
    };
    let opener = start..start + sign.len_utf8();
    let span = Span::in_text(None, &text, vec![opener]);
    Some(Diagnostic::new(what).of_kind(DiagnosticKind::Syntax).at(span).hinting(hint))
}

/// Splits a text into statements, each one line, or several while a bracket stays open.
pub fn statements(text: &str, reading: Reading) -> Vec<String> {
    let mut statements: Vec<String> = Vec::new();
    let mut waiting = String::new();
    for line in text.lines() {
        if !waiting.is_empty() {
            waiting.push('\n');
        }
        waiting.push_str(line);
        // A statement that never ends must not swallow a page.
        if is_open(&waiting, reading) && waiting.lines().count() < MOST_LINES {
            continue;
        }
        statements.push(std::mem::take(&mut waiting));
    }
    if !waiting.is_empty() {
        statements.push(waiting);
    }
    statements
}

/// Maximum number of lines of one statement.
const MOST_LINES: usize = 200;

/// Removes the notes at the ends of lines.
pub(super) fn without_notes(typed: &str) -> Cow<'_, str> {
    if !typed.contains('#') {
        return Cow::Borrowed(typed);
    }
    let mut text = typed.to_owned();
    for note in LineTokens::read(typed, quotes_of(typed)).notes.into_iter().rev() {
        text.replace_range(note, "");
    }
    Cow::Owned(text)
}

/// The notes of a text, without their `#`, joined by spaces.
pub(crate) fn note_of(typed: &str) -> String {
    if !typed.contains('#') {
        return String::new();
    }
    let notes = LineTokens::read(typed, quotes_of(typed)).notes;
    let notes = notes.into_iter().filter_map(|note| typed.get(note)?.strip_prefix('#'));
    notes.map(str::trim).collect::<Vec<_>>().join(" ")
}

/// Where a text may begin in a line; for a verb, its slots decide.
fn quotes_of(typed: &str) -> Quotes {
    verbs::leading(typed, Reading::default()).map_or(Quotes::Anywhere, |(verb, _)| verb.quotes())
}

/// Splits `waist=14 1/2 in cloth=any 45 in at $6/yd` into names and answers; quotes are not needed. The first
/// part is the text before the first answer.
pub fn split_answers(rest: &str) -> (String, Vec<(String, String)>) {
    let (head, answers) = answers_of(rest);
    (head.to_owned(), answers)
}

/// The name of the last answer, and what is typed behind its `=`; `None` if no answer is begun.
pub(crate) fn last_answer(rest: &str) -> Option<(&str, &str)> {
    let (start, equals) = answer_starts(rest).pop()?;
    Some((rest.get(start..equals)?, rest.get(equals + 1..)?))
}

/// Where each answer begins, and its `=`.
fn answer_starts(rest: &str) -> Vec<(usize, usize)> {
    let name_before = |equals: usize| {
        let before = rest.get(..equals)?;
        let head = before.trim_end_matches(|c: char| c.is_alphanumeric() || c == '_');
        let name = before.get(head.len()..)?;
        let apart = head.is_empty() || head.ends_with(char::is_whitespace);
        (apart && !name.is_empty() && !name.starts_with(char::is_numeric)).then_some((head.len(), equals))
    };
    if !rest.contains('=') {
        return Vec::new();
    }
    LineTokens::read(rest, Quotes::InAnswers).equals_signs().filter_map(name_before).collect()
}

/// As [`split_answers`], with the first part borrowed from the line.
pub(super) fn answers_of(rest: &str) -> (&str, Vec<(String, String)>) {
    let starts = answer_starts(rest);
    let head = rest.get(..starts.first().map_or(rest.len(), |(start, _)| *start)).unwrap_or_default();
    let answers = starts.iter().enumerate().map(|(index, (start, equals))| {
        let end = starts.get(index + 1).map_or(rest.len(), |(next, _)| *next);
        let name = rest.get(*start..*equals).unwrap_or_default().to_owned();
        let answer = rest.get(equals + 1..end).unwrap_or_default().trim();
        // A comma before the next answer is as good as a blank.
        let answer = if index + 1 < starts.len() { answer.trim_end_matches(',') } else { answer };
        (name, unquoted(answer).to_owned())
    });
    (head.trim().trim_end_matches(','), answers.collect())
}

/// Strips the quotes around a text, if any: file names may be quoted. The second may be missing at the end of a line.
pub(super) fn unquoted(text: &str) -> &str {
    let text = text.trim();
    for mark in ['\'', '"'] {
        if let Some(inner) = text.strip_prefix(mark) {
            return inner.strip_suffix(mark).unwrap_or(inner).trim();
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
        assert_eq!(line("must first.panels = 2 # two"), Line::Must("first.panels = 2".to_owned()));
        assert_eq!(line("must -x < 2 in"), Line::Must("-x < 2 in".to_owned()));
        assert_eq!(
            line("run gathered_skirt as first waist=21 in cloth=any 45 in"),
            Line::Order {
                recipe: "gathered_skirt".to_owned(),
                cell: "first".to_owned(),
                answers: vec![("waist".to_owned(), "21 in".to_owned()), ("cloth".to_owned(), "any 45 in".to_owned())]
            }
        );
        assert_eq!(
            line("run gathered_skirt waist=21 in cloth=any 45 in as first"),
            Line::Order {
                recipe: "gathered_skirt".to_owned(),
                cell: "first".to_owned(),
                answers: vec![("waist".to_owned(), "21 in".to_owned()), ("cloth".to_owned(), "any 45 in".to_owned())]
            }
        );
        assert!(matches!(line("run a waist=3 in as second"), Line::Order { cell, .. } if cell == "second"));
        for verb in ["gathered_skirt waist=56 cm as in", "gathered_skirt waist='a as b'"] {
            assert_eq!(line(&format!("run {verb}")), Line::Verb { verb: "run", rest: verb.to_owned() });
        }
        assert_eq!(
            line("read my pieces.csv as pieces"),
            Line::File { file: "my pieces.csv".to_owned(), cell: "pieces".to_owned() }
        );
    }

    #[test]
    fn a_statement_goes_on_while_a_bracket_is_open_but_not_for_what_a_note_says() {
        let read = |text: &str| statements(text, Reading::default());
        assert_eq!(read("a = (1 + # (one\n 2)\n# don't (\nb = 3"), ["a = (1 + # (one\n 2)", "# don't (", "b = 3"]);
        assert_eq!(read("describe it's\n\na = 1"), ["describe it's", "", "a = 1"]);
        assert_eq!(read("a = (1\nb = 2"), ["a = (1\nb = 2"]);
        assert_eq!(note_of("a = (1 + # one\n 2) # two"), "one two");
    }

    #[test]
    fn a_quote_that_was_not_closed_ends_with_the_line() {
        let (_, answers) = split_answers("skirt as q cloth='white lawn' elastic='elastic 1 in");
        assert_eq!(answers[1], ("elastic".to_owned(), "elastic 1 in".to_owned()));
        assert_eq!(unquoted("\"sheet.txt"), "sheet.txt");
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

    #[test]
    fn commas_between_answers_are_as_good_as_blanks() {
        let blanks = split_answers("skirt as first waist=21 in passes=[6, 5] cloth='any 45 in' for=Pip");
        let commas = split_answers("skirt as first, waist=21 in, passes=[6, 5] , cloth='any 45 in', for=Pip");
        assert_eq!(blanks, commas);
    }

    #[test]
    fn what_is_open_is_marked_where_it_begins() {
        let reading = Reading::default();
        let told = |typed: &str| open_error(typed, reading).map(|error| crate::report::excerpt::text(&error));
        assert_eq!(
            told("band = (waist + 10 in").unwrap(),
            "a bracket is opened here and not closed\n  band = (waist + 10 in\n         ~\n  close it with )"
        );
        // An inch mark after a blank, and a text that no later line can end, leave nothing open.
        assert_eq!(told("band = 14 \" + 2 in"), None);
        assert_eq!(told("band = \"ivory"), None);
        assert_eq!(statements("a = \"ivory\nb = 3", reading), ["a = \"ivory", "b = 3"]);
    }

    #[test]
    fn a_name_before_an_equals_sign_makes_a_cell() {
        let cell =
            |name: &str, expression: &str| Line::Cell { name: name.to_owned(), expression: expression.to_owned() };
        assert_eq!(line("_a = 3"), cell("_a", "3"));
        assert_eq!(line("  ärmel_2=22 cm "), cell("ärmel_2", "22 cm"));
        assert_eq!(line("a =  == 3"), cell("a", "== 3"));
        for sum in ["9a = 3", "a == 3", "a b = 3", "= 3", "(a) = 3"] {
            assert_eq!(line(sum), Line::Expression(sum.to_owned()));
        }
        assert_eq!(line("a ==3"), Line::Expression("a ==3".to_owned()));
        assert_eq!(line("undo 2"), Line::Verb { verb: "take", rest: "back 2".to_owned() });
        assert_eq!(line("strike   waist  # gone"), Line::Verb { verb: "strike", rest: "waist".to_owned() });
        for note in ["", "   ", "  # bought"] {
            assert_eq!(line(note), Line::Note);
        }
        // Without a name for its table or its order a line is a verb that says what it lacks.
        assert!(matches!(line("read pieces.csv"), Line::Verb { verb: "read", .. }));
        assert!(matches!(line("run gathered_skirt"), Line::Verb { verb: "run", .. }));
    }

    #[test]
    fn words_of_a_sum_are_neither_members_nor_headings() {
        let words = |sum: &str| {
            let spans = words(sum, Reading::default());
            spans.into_iter().map(|span| sum[span].to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(words("first.price + waist * 2 cm - up(hips)"), ["first", "waist", "up", "hips"]);
        assert_eq!(words("x?.y + #{d: e}"), ["x", "e"]);
        assert_eq!(words("waist"), ["waist"]);
        assert_eq!(words("\"waist\" + 3"), [""; 0]);
    }

    #[test]
    fn an_open_bracket_text_or_comment_waits_for_more_and_nothing_else_does() {
        let is_open = |typed: &str| is_open(typed, Reading::default());
        for typed in
            ["a = (1", "a = [1", "(1) + (2", "a = `x", "a = 1 /* x", "must (a", "a = (1)) + ((2", "a = \"(\" + (1"]
        {
            assert!(is_open(typed), "{typed}");
        }
        for typed in [
            "a = (1)",
            "a = 1)",
            "a = 1 /* x */",
            "# (",
            "run skirt cloth=maker's",
            "read o'brien.csv as x",
            "a = \"(\"",
            "open (x",
            "a = 1 # (",
        ] {
            assert!(!is_open(typed), "{typed}");
        }
    }

    #[test]
    fn what_is_open_is_closed_by_its_own_sign() {
        for (typed, sign, what, hint) in [
            ("a = (1", "(", "a bracket is opened here and not closed", "close it with )"),
            ("a = [1", "[", "a bracket is opened here and not closed", "close it with ]"),
            ("a = {1", "{", "a bracket is opened here and not closed", "close it with }"),
            ("a = 1 + /* x", "/", "a comment is begun here and not ended", "end it with */"),
            ("a = `x", "`", "a text is begun here and not ended", "end it with `"),
        ] {
            let error = open_error(typed, Reading::default()).unwrap();
            assert_eq!((error.message.as_str(), error.hint.as_deref()), (what, Some(hint)), "{typed}");
            let marked = &error.labels[0].span.bytes[0];
            let at = typed.find(sign).unwrap();
            assert_eq!((marked.start, marked.end), (at, at + 1), "{typed}");
        }
        assert_eq!(open_error("a = (1)", Reading::default()), None);
    }

    /// Two hundred lines at most are one statement; the rest is read by itself.
    #[test]
    fn a_statement_that_never_ends_swallows_no_page() {
        let text = format!("a = ({}", "\n1".repeat(250));
        let found = statements(&text, Reading::default());
        assert_eq!(found[0].lines().count(), 200);
        assert_eq!(found.len(), 1 + 51);
        assert!(found[1..].iter().all(|statement| statement == "1"));
        assert_eq!(statements("a = 1\n\nb = (2", Reading::default()), ["a = 1", "", "b = (2"]);
    }

    #[test]
    fn an_answer_ends_where_the_next_name_begins() {
        let answers = |rest: &str| split_answers(rest).1.into_iter().map(|(name, answer)| format!("{name}|{answer}"));
        for (rest, head, wanted) in [
            ("skirt as first", "skirt as first", vec![]),
            ("skirt,a=3 in", "skirt,a", vec![]),
            ("skirt, a= 3 in ", "skirt", vec!["a|3 in"]),
            ("a=3 in b_2=4", "", vec!["a|3 in", "b_2|4"]),
            // The comma behind the last answer is its own.
            ("skirt a=3,, b=4,", "skirt", vec!["a|3", "b|4,"]),
            // No name begins with a digit, nor within a word or a bracket.
            ("skirt a=up(x=3) 2b=4", "skirt", vec!["a|up(x=3) 2b=4"]),
            ("skirt a=(b=3)", "skirt", vec!["a|(b=3)"]),
            ("skirt a=3 = 4", "skirt", vec!["a|3 = 4"]),
            ("skirt a='b=3' c=4", "skirt", vec!["a|b=3", "c|4"]),
        ] {
            assert_eq!(answers(rest).collect::<Vec<_>>(), wanted, "{rest}");
            if !wanted.is_empty() {
                assert_eq!(split_answers(rest).0, head, "{rest}");
            }
        }
        assert_eq!(last_answer("skirt a=3 in b= 4 c"), Some(("b", " 4 c")));
        assert_eq!(last_answer("skirt"), None);
        for (text, wanted) in
            [(" 'a b' ", "a b"), ("'a", "a"), ("a'", "a'"), ("\"a\" ", "a"), ("' a '", "a"), ("'a\"", "a\"")]
        {
            assert_eq!(unquoted(text), wanted, "{text}");
        }
    }

    #[test]
    fn each_line_of_a_statement_may_have_its_note() {
        assert_eq!(without_notes("a = (1 + # one\n 2) # two"), "a = (1 + \n 2) ");
        assert_eq!(without_notes("a = \"#\""), "a = \"#\"");
        assert_eq!(note_of("a = 3 #   measured # twice "), "measured # twice");
        assert_eq!(note_of("a = \"# 3\""), "");
    }
}
