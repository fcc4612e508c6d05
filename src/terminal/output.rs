//! Writes to the two streams. Only the progress line and the messages of the argument parser bypass it.
//!
//! Text from recipes and files is stripped of control characters on its way out. Once a pipe is closed, output
//! is dropped silently; what is lost otherwise, as on a full disk, is told at the end.

use super::files;
use crate::quantity::Style;
use crate::report::{Look, plain_text, wrap};
use std::io::{self, ErrorKind, Write};

/// The two streams of the program.
pub(super) struct Output<'o> {
    out: &'o mut dyn Write,
    err: &'o mut dyn Write,
    /// What became of the stream of answers; nothing more is written to it.
    broken: Option<io::Error>,
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
            broken: None,
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
        let read = io::stdin().read_line(&mut typed);
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

    /// The stream of answers, for messages to a parent process.
    pub(super) fn stream(&mut self) -> &mut dyn Write {
        self.out
    }

    fn write_out(&mut self, bytes: &[u8]) {
        if self.broken.is_none() {
            self.broken = self.out.write_all(bytes).err();
        }
    }

    /// Flushes the answers.
    pub(super) fn flush(&mut self) {
        if self.broken.is_none() {
            self.broken = self.out.flush().err();
        }
    }

    /// Why answers were lost, in words. A closed pipe is no reason: whoever read it has seen enough.
    pub(super) fn problem(&self) -> Option<String> {
        let broken = self.broken.as_ref().filter(|error| error.kind() != ErrorKind::BrokenPipe)?;
        Some(format!("the answers cannot be written: {}", files::reason(broken)))
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

    /// What is written to the two streams by `write`, at a width.
    fn written(width: Option<usize>, write: impl Fn(&mut Output<'_>)) -> (String, String) {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        write(&mut Output::new(&mut out, &mut err, width, Look::Columns, false));
        (String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
    }

    #[test]
    fn a_width_that_is_not_known_is_wide_and_none_is_below_twenty() {
        for (known, wanted) in [(None, 120), (Some(40), 40), (Some(20), 20), (Some(19), 20), (Some(300), 300)] {
            let (mut out, mut err) = (Vec::new(), Vec::new());
            assert_eq!(Output::new(&mut out, &mut err, known, Look::Columns, false).width, wanted, "{known:?}");
        }
        let follows = |measure: fn() -> Option<usize>| {
            let (mut out, mut err) = (Vec::new(), Vec::new());
            let mut output = Output::new(&mut out, &mut err, Some(72), Look::Columns, false);
            output.measure = Some(measure);
            output.follow_window();
            output.width
        };
        assert_eq!([follows(|| Some(40)), follows(|| Some(7)), follows(|| None)], [40, 20, 72]);
    }

    #[test]
    fn an_answer_is_whole_lines_and_a_problem_comes_after_what_was_answered() {
        let (out, err) = written(None, |output| {
            output.print("56 cm");
            output.print("a\nb\n\n");
            output.print("");
            output.stream().write_all(b"as it is").unwrap();
            output.eprint("no cell\n\n");
        });
        assert_eq!((out.as_str(), err.as_str()), ("56 cm\na\nb\n\nas it is", "no cell\n"));
    }

    #[test]
    fn no_escape_code_reaches_either_stream() {
        let (out, err) = written(None, |output| {
            output.print("ivory \u{1b}[2Jnet");
            output.eprint("denim\u{1b}[31m");
        });
        assert_eq!((out.as_str(), err.as_str()), ("ivory net\n", "denim\n"));
    }

    /// 40 columns: a line of 40 stays as it is, blanks and all, and one of 41 is broken.
    #[test]
    fn a_line_is_broken_only_where_it_is_wider_than_the_window() {
        let forty = "waist  56 cm  and  hips  61 cm  measured";
        assert_eq!(forty.len(), 40);
        let (out, _) = written(Some(40), |output| output.print_wrapped(forty));
        assert_eq!(out, format!("{forty}\n"));
        let (out, err) = written(Some(40), |output| {
            output.print_wrapped("waist  56 cm, measured over the shift twice");
            output.eprint("waist  56 cm, measured over the shift twice");
        });
        let broken = "waist  56 cm, measured over the shift\n       twice\n";
        assert_eq!((out.as_str(), err.as_str()), (broken, broken));
        // Two lines are two lines.
        assert_eq!(written(Some(40), |output| output.print_wrapped("a\nb")).0, "a\nb\n");
    }

    /// The line with marks, and the one above it, stay whole; a line with a mark and words in it is a line of words.
    #[test]
    fn only_marks_alone_hold_a_line_together() {
        let lines: Vec<String> =
            ["one two three four", "~~~  ~~~~~~~~~~~~~~~", "no ~ mark is on it here"].map(str::to_owned).to_vec();
        let whole = "one two three four\n~~~  ~~~~~~~~~~~~~~~\nno ~ mark\nis on it\nhere";
        assert_eq!(wrap_problem(&lines, 10), whole);
        let last = ["is a fifth".to_owned(), "one two three".to_owned()];
        assert_eq!(wrap_problem(&last, 10), "is a fifth\none two\nthree");
        // No marks are in a line of blanks.
        let blank = ["one two three".to_owned(), "   ".to_owned()];
        assert_eq!(wrap_problem(&blank, 10), "one two\nthree\n   ");
    }

    #[test]
    fn lines_hang_behind_a_name_in_the_left_half() {
        for (line, width, at) in [
            ("waist  56 cm", 40, 7),
            ("  waist   56 cm", 40, 10),
            ("  waist 56 cm", 40, 2),
            ("waist 56 cm", 40, 0),
            // Ten columns of twenty are the left half, of nineteen they are not.
            ("12345678  x", 20, 10),
            ("12345678  x", 19, 0),
            (" 1234567  x", 19, 1),
        ] {
            assert_eq!(hanging_indent(line, width), at, "{line} in {width}");
        }
    }

    /// Takes four bytes and no more, as a pipe that closes.
    struct Closing(Vec<u8>);

    impl Write for Closing {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            if self.0.len() >= 4 {
                return Err(ErrorKind::BrokenPipe.into());
            }
            self.0.extend(bytes);
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            if self.0.is_empty() { Err(ErrorKind::BrokenPipe.into()) } else { Ok(()) }
        }
    }

    #[test]
    fn behind_a_pipe_that_closed_nothing_more_is_written() {
        let (mut out, mut err) = (Closing(Vec::new()), Vec::new());
        let mut output = Output::new(&mut out, &mut err, None, Look::Columns, false);
        output.print("abc");
        assert!(output.broken.is_none());
        output.print("def");
        assert!(output.broken.is_some());
        // One that cannot be flushed is closed too.
        let (mut out, mut err) = (Closing(Vec::new()), Vec::new());
        let mut output = Output::new(&mut out, &mut err, None, Look::Columns, false);
        output.flush();
        output.print("abc");
        assert!(output.broken.is_some());
        drop(output);
        assert_eq!(out.0, b"");
    }

    /// Six rows: five lines and the question. Of five lines nothing is left to ask for, nor where the rows are too few.
    #[test]
    fn what_fits_the_screen_is_shown_at_once() {
        let five = "1\n2\n3\n4\n5";
        let seven = "1\n2\n3\n4\n5\n6\n7";
        let shown = |text: &str, rows: Option<fn() -> Option<usize>>| {
            written(None, |output| {
                output.measure_rows = rows;
                output.print_by_screens(text);
            })
            .0
        };
        assert_eq!(shown(five, Some(|| Some(6))), format!("{five}\n"));
        assert_eq!(shown(seven, None), format!("{seven}\n"));
        assert_eq!(shown(seven, Some(|| None)), format!("{seven}\n"));
        assert_eq!(shown(seven, Some(|| Some(4))), format!("{seven}\n"));
    }
}
