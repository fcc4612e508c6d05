//! The fuzz targets: what must hold for every text. Shared with the ordinary tests.
//!
//! Each target takes a text and panics if something does not hold; it returns whether it tries texts of this kind.

pub mod page;
pub mod prompt;
pub mod tokens;
pub mod words;

use std::ops::Range;

/// Panics unless the bytes lie inside a text and cut no character apart.
fn assert_span(text: &str, span: &Range<usize>) {
    assert!(text.get(span.clone()).is_some(), "{span:?} are no whole characters of {text:?}");
}

/// Internal names that no person should see.
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

/// Panics if an output contains internal names.
///
/// The output may quote what was typed, and a string may be assembled from pieces: a word whose letters were all typed
/// proves nothing if string literals were typed.
fn assert_plain(typed: &str, output: &str) {
    for word in INSIDES {
        let spelt = typed.contains(['"', '\'', '`', '\\']) && word.chars().all(|c| typed.contains(c));
        assert!(!output.contains(word) || typed.contains(word) || spelt, "{word} is told to a person: {output}");
    }
}

/// Panics if an output contains codes that would steer a terminal.
fn assert_steers_nothing(output: &str) {
    let steers = |c: char| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c);
    assert!(!output.contains(steers), "codes for the terminal: {output:?}");
}
