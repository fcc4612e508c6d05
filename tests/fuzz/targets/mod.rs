//! What every text must keep to, whoever wrote it: the fuzzer's targets, shared with the ordinary tests.
//!
//! Each target takes a text and breaks off where something does not hold; the answer tells whether the
//! text was of a kind that the target tries at all.

pub mod page;
pub mod prompt;
pub mod tokens;
pub mod words;

use std::ops::Range;

/// Breaks off unless the bytes lie inside a text and do not cut a character apart.
fn assert_span(text: &str, span: &Range<usize>) {
    assert!(text.get(span.clone()).is_some(), "{span:?} are no whole characters of {text:?}");
}

/// Names from the insides of the program, which no person should meet.
const INSIDES: [&str; 14] = [
    "::",
    "i64",
    "f64",
    "i128",
    "u64",
    "usize",
    "Dynamic",
    "Option",
    "Some(",
    "None",
    "Err(",
    "Measured",
    "ImmutableString",
    "panicked",
];

/// Breaks off where words of the insides are told, or codes that would steer a terminal.
///
/// What was typed may be quoted, and a text may be put together from pieces: a word whose letters were
/// all typed proves nothing where the typed text has texts in it.
fn assert_plain(typed: &str, told: &str) {
    for word in INSIDES {
        let spelt = typed.contains(['"', '\'', '`', '\\']) && word.chars().all(|c| typed.contains(c));
        assert!(!told.contains(word) || typed.contains(word) || spelt, "{word} is told to a person: {told}");
    }
}

/// Breaks off where an output would steer a terminal.
fn assert_steers_nothing(told: &str) {
    let steers = |c: char| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c);
    assert!(!told.contains(steers), "codes for the terminal: {told:?}");
}
