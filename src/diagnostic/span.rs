//! Where in a text an error is.

use serde::{Deserialize, Serialize};
use std::ops::Range;

/// A part of a text that an error points at.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Label {
    /// The line and its marked bytes.
    pub span: Span,
    /// What is wrong there; empty if the message says it.
    pub words: String,
}

/// One line of a text, and the bytes of it that matter.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Span {
    /// `None` for a line typed at the prompt.
    pub file: Option<String>,
    /// Counted from 1.
    pub line: usize,
    /// The column's heading, in a file of rows.
    pub heading: Option<String>,
    /// The line without its end.
    pub text: String,
    /// Ranges in `text`, in reading order; an empty range marks one place.
    pub bytes: Vec<Range<usize>>,
}

impl Label {
    /// A label without words of its own.
    pub fn of(span: Span) -> Self {
        Self { span, words: String::new() }
    }
}

impl Span {
    /// The line of `text` with the first of these byte ranges; ranges on other lines are dropped.
    pub fn in_text(file: Option<&str>, text: &str, ranges: Vec<Range<usize>>) -> Self {
        let first = ranges.first().map_or(0, |range| range.start);
        let (line, within) = line_of(text, first);
        let shown = text.get(within.clone()).unwrap_or_default().trim_end();
        let clamped = |byte: usize| byte.clamp(within.start, within.start + shown.len()) - within.start;
        let on_line = ranges.into_iter().filter(|range| within.start <= range.start && range.start <= within.end);
        let bytes = on_line.map(|range| clamped(range.start)..clamped(range.end)).collect();
        Self { file: file.map(str::to_owned), line, heading: None, text: shown.to_owned(), bytes }
    }
}

/// The number of the line that holds a byte, from 1, and the byte range of that line.
fn line_of(text: &str, byte: usize) -> (usize, Range<usize>) {
    let byte = byte.min(text.len());
    let before = text.get(..byte).unwrap_or_default();
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let end = text.get(byte..).and_then(|rest| rest.find('\n')).map_or(text.len(), |newline| byte + newline);
    (before.matches('\n').count() + 1, start..end)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_on_other_lines_are_dropped() {
        let text = "one\n  two two \nthree";
        let span = Span::in_text(Some("a.txt"), text, vec![6..9, 10..13, 16..18]);
        assert_eq!((span.line, span.text.as_str(), span.bytes), (2, "  two two", vec![2..5, 6..9]));
        let end = Span::in_text(None, text, std::iter::once(text.len()..text.len()).collect());
        assert_eq!((end.line, end.text.as_str(), end.bytes.as_slice()), (3, "three", std::slice::from_ref(&(5..5))));
    }
}
