//! The fuzz targets: what must hold for every text. Shared with the ordinary tests.
//!
//! Each target takes a text and panics if something does not hold; it returns whether it tries texts of this kind.

pub mod files;
pub mod order;
pub mod page;
pub mod prompt;
pub mod script;
pub mod tokens;
pub mod words;

use shirr::diagnostic::Diagnostic;
use shirr::engine::limits::StopFlag;
use shirr::recipe::run::answer_in;
use shirr::recipe::{RecipeText, Reply, Task};
use shirr::report::{excerpt, plain_text};
use shirr::workshop::Workshop;
use std::ops::Range;
use std::sync::atomic::Ordering;
use std::time::Duration;

/// Panics unless an error has words that a person can read, at places that lie in its text.
fn assert_told(typed: &str, error: &Diagnostic) {
    let shown = excerpt::text(error);
    assert!(!shown.is_empty(), "an error without words");
    for span in error.labels.iter().map(|label| &label.span) {
        for range in &span.bytes {
            assert_span(&span.text, range);
        }
    }
    assert_plain(typed, &shown);
}

/// Panics unless every error is told as it should be.
fn assert_all_told(typed: &str, errors: &[Diagnostic]) {
    for error in errors {
        assert_told(typed, error);
    }
}

/// The longest that a text may keep a recipe busy: the limits of a recipe are for people who wait, not for a loop that
/// tries thousands.
const PATIENCE: Duration = Duration::from_millis(400);

/// Answers a task for a recipe; `None` if it took too long and was stopped, which on a busy machine tells nothing.
fn answered(recipe: &RecipeText, workshop: &Workshop, task: &Task) -> Option<Reply> {
    let stop = StopFlag::default();
    let stopped = StopFlag::clone(&stop);
    let (done, waiting) = std::sync::mpsc::channel::<()>();
    std::thread::scope(|scope| {
        let flag = StopFlag::clone(&stop);
        scope.spawn(move || {
            if waiting.recv_timeout(PATIENCE) == Err(std::sync::mpsc::RecvTimeoutError::Timeout) {
                flag.store(true, Ordering::Relaxed);
            }
        });
        let reply = answer_in(recipe, workshop, false, task, stop);
        drop(done);
        (!stopped.load(Ordering::Relaxed)).then_some(reply)
    })
}

/// What a person may have read in a text: its lines as a terminal shows them.
fn as_read(text: &str) -> String {
    format!("{text}\n{}", plain_text::lines(text).join("\n"))
}

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
