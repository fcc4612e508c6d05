//! Writes to the two streams. Only the progress line and the messages of the argument parser bypass it.
//!
//! Text from recipes and files is stripped of control characters on its way out. Once a pipe is closed, output
//! is dropped silently.

use crate::quantity::Style;
use crate::report::{Look, plain_text, wrap};
use std::io::Write;

/// The two streams of the program.
pub(super) struct Output<'o> {
    out: &'o mut dyn Write,
    err: &'o mut dyn Write,
    closed: bool,
    /// The width in columns.
    pub(super) width: usize,
    /// Measures the terminal again, if its width may change.
    pub(super) measure: Option<fn() -> Option<usize>>,
    /// Measures the rows of the terminal, if a person sits there.
    pub(super) measure_rows: Option<fn() -> Option<usize>>,
    /// How tables are drawn.
    pub(super) look: Look,
    /// Words instead of signs.
    pub(super) plain: bool,
}

/// The width if none is known; wide, because a file cuts nothing off.
const WIDE: usize = 120;
/// A terminal of fewer rows is not paged.
const LEAST_ROWS: usize = 5;
/// Minimum width: below it no layout works, and the terminal wraps.
const NARROW: usize = 20;

impl<'o> Output<'o> {
    pub(super) fn new(
        out: &'o mut dyn Write,
        err: &'o mut dyn Write,
        width: Option<usize>,
        look: Look,
        plain: bool,
    ) -> Self {
        Self {
            out,
            err,
            closed: false,
            width: width.unwrap_or(WIDE).max(NARROW),
            measure: None,
            measure_rows: None,
            look,
            plain,
        }
    }

    /// Updates the width from the window, before an answer.
    pub(super) fn follow_window(&mut self) {
        if let Some(width) = self.measure.and_then(|measure| measure()) {
            self.width = width.max(NARROW);
        }
    }

    /// Adds to a style how values are shown on this output.
    pub(super) fn style(&self, style: Style) -> Style {
        Style { plain: self.plain, ..style }
    }

    /// Writes an answer as whole lines.
    pub(super) fn print(&mut self, text: &str) {
        let text = plain_text::lines(text).join("\n");
        self.write_out(text.trim_end_matches('\n').as_bytes());
        self.write_out(b"\n");
    }

    /// Writes a long answer; at a terminal a screen at a time, until the person has seen enough.
    pub(super) fn print_by_screens(&mut self, text: &str) {
        let lines = plain_text::lines(text);
        // One row is for the question.
        let rows = self.measure_rows.and_then(|measure| measure()).filter(|rows| *rows >= LEAST_ROWS);
        let Some(rows) = rows.map(|rows| rows - 1).filter(|rows| lines.len() > *rows) else {
            return self.print(text);
        };
        let mut shown = 0;
        for screen in lines.chunks(rows) {
            self.print(&screen.join("\n"));
            shown += screen.len();
            if shown < lines.len() && !self.wants_more(shown, lines.len()) {
                return;
            }
        }
    }

    /// Asks whether to go on; anything but an empty line ends.
    fn wants_more(&mut self, shown: usize, all: usize) -> bool {
        self.write_out(format!("-- {shown} of {all} lines. Enter: more, q: enough ").as_bytes());
        self.flush();
        let mut typed = String::new();
        let read = std::io::stdin().read_line(&mut typed);
        read.is_ok_and(|bytes| bytes > 0) && typed.trim().is_empty()
    }

    /// Writes an answer in prose; a long line is wrapped with a hanging indent.
    pub(super) fn print_wrapped(&mut self, text: &str) {
        for line in text.lines() {
            let (before, words) = line.split_at(hanging_indent(line, self.width));
            let wrapped = wrap::width(line) > self.width;
            self.print(&if wrapped { wrap::hang(before, words, self.width).join("\n") } else { line.to_owned() });
        }
    }

    /// Writes a problem, a caution or progress as whole lines.
    pub(super) fn eprint(&mut self, text: &str) {
        // Earlier answers come first if both streams go to one terminal.
        self.flush();
        let text = wrap_problem(&plain_text::lines(text), self.width);
        let written =
            self.err.write_all(text.trim_end_matches('\n').as_bytes()).and_then(|()| self.err.write_all(b"\n"));
        // There is no third stream to report this on.
        let _flushed = written.and_then(|()| self.err.flush());
    }

    /// Writes bytes as they are: a message to a parent process.
    pub(super) fn send(&mut self, bytes: &[u8]) {
        self.write_out(bytes);
    }

    fn write_out(&mut self, bytes: &[u8]) {
        if !self.closed {
            self.closed = self.out.write_all(bytes).is_err();
        }
    }

    /// Flushes the answers.
    pub(super) fn flush(&mut self) {
        if !self.closed {
            self.closed = self.out.flush().is_err();
        }
    }
}

/// Wraps the long lines of a problem. A line with marks below it was typed and stays whole, because the marks
/// point into it.
fn wrap_problem(lines: &[String], width: usize) -> String {
    let marks = |line: &String| line.contains('~') && line.chars().all(|c| c == '~' || c == ' ');
    let mut wrapped_lines = Vec::with_capacity(lines.len());
    for (at, line) in lines.iter().enumerate() {
        let typed = marks(line) || lines.get(at + 1).is_some_and(marks);
        if typed || wrap::width(line) <= width {
            wrapped_lines.push(line.clone());
            continue;
        }
        let (before, words) = line.split_at(hanging_indent(line, width));
        wrapped_lines.extend(wrap::hang(before, words, width));
    }
    wrapped_lines.join("\n")
}

/// The byte position where the text of a line begins: after its name and the spaces behind it if that is in the
/// left half, else after its own indent.
fn hanging_indent(line: &str, width: usize) -> usize {
    let indent = line.len() - line.trim_start().len();
    let gap = line.get(indent..).and_then(|rest| rest.find("  ")).map(|at| indent + at);
    let behind = gap.and_then(|gap| {
        let rest = line.get(gap..)?;
        Some(line.len() - rest.trim_start().len())
    });
    behind.filter(|behind| *behind * 2 <= width).unwrap_or(indent)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_problem_is_broken_at_blanks_and_what_was_typed_is_not() {
        let text = "a length and a time cannot be added\n  waist + 3 min + 14 1/2 in\n  ~~~~~   ~~~~~\n  type a length on both sides";
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let expected = "a length and a\ntime cannot be\nadded\n  waist + 3 min + 14 1/2 in\n  ~~~~~   ~~~~~\n  type a length on\n  both sides";
        assert_eq!(wrap_problem(&lines, 18), expected);
        assert_eq!(wrap_problem(&lines, 80), text);
    }
}
