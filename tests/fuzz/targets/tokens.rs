//! Target `tokens`: cutting a text into tokens, the literal pass, quantities, units and lines.

use super::{assert_plain, assert_span};
use shirr::diagnostic::literal_diagnostic;
use shirr::engine::text::rewrite::{
    LITERAL, LITERAL_NAMES, Literals, Rewritten, SHOWN, Words, rewrite, rewrite_expression,
};
use shirr::engine::text::tokens::{TokenKind, Tokens};
use shirr::engine::text::words::as_member;
use shirr::notebook::{Line, is_open, read_line, split_answers, statements, verbs};
use shirr::quantity::{Dimension, LiteralError, LiteralErrorKind, LiteralValue, Quantity, Reading, Style, literal};
use shirr::report::excerpt;

/// Ways to write numbers and money: the default, and others that files may use.
const READINGS: [Reading; 3] = [
    Reading { currency: '$', decimal_comma: false },
    Reading { currency: '€', decimal_comma: true },
    Reading { currency: '£', decimal_comma: false },
];

/// Tries a text in every reading.
pub fn try_text(text: &str) -> bool {
    for reading in READINGS {
        try_tokens(text, reading);
        try_literals(text, reading);
        try_line(text, reading);
    }
    try_answers(text);
    true
}

fn assert_error(text: &str, error: &LiteralError) {
    assert_span(text, &error.span);
    let output = excerpt::text(&literal_diagnostic(None, text, error));
    assert!(!error.to_string().is_empty(), "a fault without words");
    assert_plain(text, &output);
}

/// Tokens are in order, whole and apart; each position of the rewritten text leads back to the typed text.
fn try_tokens(text: &str, reading: Reading) {
    let tokens = match Tokens::read(text, reading) {
        Ok(tokens) => tokens,
        Err(error) => {
            assert_error(text, &error);
            let found = rewrite(None, text, reading).map(|_| ());
            assert_eq!(found.err(), Some(error), "the literal pass finds another fault");
            return;
        }
    };
    let _open = tokens.is_open();
    let mut end = 0;
    for token in &tokens.list {
        assert_span(text, &token.span);
        assert!(end <= token.span.start, "{token:?} begins inside the one before it");
        end = token.span.end;
    }
    let script = rewrite(None, text, reading).expect("the tokens can be read");
    try_rewritten(text, &tokens, script, Words::Script);
    for words in [Words::Sum, Words::Condition] {
        let sum = rewrite_expression(text, reading, words).expect("the tokens can be read");
        try_rewritten(text, &tokens, sum, words);
    }
}

/// Each position of a rewritten text leads back to the typed text.
fn try_rewritten(text: &str, tokens: &Tokens, given: Rewritten, words: Words) {
    let Rewritten { text: rewritten, source, literals, .. } = given;
    assert_eq!(source.tokens(), tokens.list);
    let mut names = LITERAL_NAMES.iter();
    let (mut line, mut column) = (1, 1);
    let (mut rest, mut at) = (rewritten.as_str(), 0);
    // Steps over a piece of the rewritten text; a replacement leads back to the start of its token.
    let mut pass = |piece: &str, start: usize, copied: bool| {
        rest = rest.strip_prefix(piece).unwrap_or_else(|| panic!("{rest:?} should begin with {piece:?}"));
        for (offset, c) in piece.char_indices() {
            let expected = if copied { start + offset } else { start };
            assert_eq!(source.byte_at(line, column), Some(expected), "line {line}, column {column} of {rewritten:?}");
            (line, column) = if c == '\n' { (line + 1, 1) } else { (line, column + 1) };
        }
        rest.len()
    };
    let mut member = false;
    for token in &tokens.list {
        let written = &text[token.span.clone()];
        let is_member = std::mem::replace(&mut member, [".", "?."].contains(&written));
        let stands_for = match (&token.kind, literals) {
            (TokenKind::Literal(_), Literals::Named) => names.next().expect("a name for each").to_string(),
            (TokenKind::Literal(_), Literals::Called) => {
                let written = text[token.span.clone()].replace('\\', "\\\\").replace('"', "\\\"");
                format!("{LITERAL}(\"{written}\")")
            }
            (TokenKind::TextOpen, _) => format!("${{{SHOWN}("),
            (TokenKind::TextClose, _) => ")}".to_owned(),
            (TokenKind::Symbol, _) => match written {
                "×" | "of" => "*".to_owned(),
                "÷" => "/".to_owned(),
                "−" => "-".to_owned(),
                "≤" => "<=".to_owned(),
                "≥" => ">=".to_owned(),
                "≠" => "!=".to_owned(),
                "≈" => String::new(),
                "=" if words == Words::Condition => "==".to_owned(),
                _ => continue,
            },
            (TokenKind::Word, _) if words != Words::Script && is_member => match as_member(written) {
                Some(kept) => kept,
                None => continue,
            },
            (TokenKind::Word, _) if words != Words::Script => match written {
                "and" => "&&".to_owned(),
                "or" => "||".to_owned(),
                "not" => "!".to_owned(),
                _ => continue,
            },
            _ => continue,
        };
        pass(&text[at..token.span.start], at, true);
        pass(&stands_for, token.span.start, false);
        at = token.span.end;
    }
    assert_eq!(pass(&text[at..], at, true), 0, "more was written than typed");
    // Positions that do not exist lead to a valid place or to none.
    for (line, column) in [(0, 0), (0, 1), (1, 0), (line, column), (line, column + 1), (line + 1, 1), (usize::MAX, 1)] {
        if let Some(byte) = source.byte_at(line, column) {
            assert_span(text, &(byte..text.len()));
        }
    }
}

/// Quantities and units, as fields and inside the text.
fn try_literals(text: &str, reading: Reading) {
    match literal::read_quantity(text, reading) {
        Ok(value) => try_value(value, reading),
        Err(error) => assert_error(text, &error),
    }
    if let Err(error) = literal::read_unit(text, reading) {
        assert_error(text, &error);
    }
    for (at, c) in text.char_indices() {
        let after_slash = text[..at].ends_with('/');
        match literal::literal_at(text, at, reading, after_slash) {
            Ok(Some(found)) => {
                assert_span(text, &(at..found.end));
                assert!(at < found.end, "a quantity of no letters");
                // Elsewhere it may be the tail of a longer number.
                if literal::may_begin(c) {
                    try_value(found.value, reading);
                }
            }
            Ok(None) => {}
            Err(error) => assert_error(text, &error),
        }
    }
}

fn try_value(value: LiteralValue, reading: Reading) {
    match value {
        LiteralValue::Quantity(quantity) => try_quantity(quantity, reading),
        LiteralValue::Spread { middle, half } => {
            assert_eq!(middle.dimension(), half.dimension());
            try_quantity(middle, reading);
            try_quantity(half, reading);
        }
    }
}

/// A quantity that was read is shown, and what is shown without `≈` reads as the same quantity.
fn try_quantity(quantity: Quantity, reading: Reading) {
    assert!(quantity.steps().is_finite(), "{quantity:?}");
    let Reading { currency, decimal_comma } = reading;
    let style = Style { currency, decimal_comma, ..Style::default() };
    let _on_tape = style.show_on_tape(quantity);
    let shown = style.show(quantity);
    if shown.starts_with('≈') {
        return;
    }
    match literal::read_quantity(&shown, reading) {
        Ok(LiteralValue::Quantity(again)) => {
            assert_eq!(again.dimension(), quantity.dimension(), "{shown:?}");
            let (first, second) = (quantity.steps(), again.steps());
            // A step is a nanometre, a nanogram, a millisecond: less than one is noise on any tape.
            assert!((first - second).abs() <= first.abs() * 1e-9 + 1.0, "{shown:?} is {second}, not {first}");
        }
        // Small units, and units in the denominator, take more digits than a person may write.
        Err(error) if error.kind == LiteralErrorKind::TooLong => {}
        // Products such as money times a length arise in sums and from units like dtex; nobody types them.
        Err(LiteralError { kind: LiteralErrorKind::Trailing { .. }, .. }) if is_product(quantity) => {}
        other => panic!("{shown:?} reads as {other:?}"),
    }
}

/// Whether a quantity is counted in two units multiplied, such as minutes times yards.
fn is_product(quantity: Quantity) -> bool {
    let Dimension { length, mass, time, money } = quantity.dimension();
    [length, mass, time, money].iter().filter(|exponent| **exponent > 0).count() > 1
}

/// A line's parts are parts of the line, and the statements of a text are the text.
fn try_line(text: &str, reading: Reading) {
    let _open = is_open(text, reading);
    let statements = statements(text, reading);
    let lines: Vec<&str> = statements.iter().flat_map(|statement| statement.split('\n')).collect();
    assert_eq!(lines, text.lines().collect::<Vec<_>>(), "lines were lost");
    // Notes may end any line of a statement and are no part of its sum.
    let noted = text.contains('#');
    match read_line(text, reading) {
        Line::Note => {}
        Line::Cell { name, expression } => {
            assert!((noted || text.trim_start().starts_with(&name)) && is_name(&name), "{name:?} is no name");
            assert!(noted || text.contains(&expression), "{expression:?} was not typed");
        }
        Line::Verb { verb, rest } => {
            let first = noted || text.trim_start().starts_with(verb);
            assert!(verbs::named(verb).is_some() && first, "{verb} was not typed");
            assert!(noted || text.contains(&rest), "{rest:?} was not typed");
        }
        Line::Expression(typed) | Line::Must(typed) => {
            assert!(noted || text.contains(&typed), "{typed:?} was not typed");
        }
        Line::File { file, cell } => assert!(noted || (text.contains(&file) && text.contains(&cell))),
        Line::Order { recipe, cell, .. } => assert!(noted || (text.contains(&recipe) && text.contains(&cell))),
    }
}

fn try_answers(text: &str) {
    let (head, answers) = split_answers(text);
    assert!(text.trim_start().starts_with(&head), "{head:?} is not what stands first");
    for (name, answer) in answers {
        assert!(is_name(&name), "{name:?} is no name");
        assert!(text.contains(&name) && text.contains(&answer), "{name:?}={answer:?} was not typed");
    }
}

fn is_name(name: &str) -> bool {
    let inside = name.chars().all(|c| c.is_alphanumeric() || c == '_');
    // Characters such as Ⅷ are both letter and numeral; they count as letters here.
    inside && name.starts_with(|c: char| c.is_alphabetic() || c == '_')
}
