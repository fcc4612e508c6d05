//! The progress of a search: one line on the screen that is overwritten, shown only if somebody watches.
//!
//! Never here: the search.

use crate::cutting::Progress;
use crate::quantity::number;
use std::io::Write;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// Minimum time between two updates: nobody reads faster.
const BETWEEN: Duration = Duration::from_millis(200);

/// The progress line; it remembers the width last written.
pub(super) struct ProgressLine {
    /// `None` if nobody watches.
    shown: Option<Mutex<Shown>>,
}

struct Shown {
    last: Option<Instant>,
    columns: usize,
}

impl ProgressLine {
    /// A line on the error output; silent unless `watched`.
    pub(super) fn new(watched: bool) -> Self {
        Self { shown: watched.then(|| Mutex::new(Shown { last: None, columns: 0 })) }
    }

    /// Shows a better plan or bound, unless the last update was a moment ago.
    pub(super) fn show(&self, progress: Progress) {
        let Some(Ok(mut shown)) = self.shown.as_ref().map(Mutex::lock) else { return };
        if shown.last.is_some_and(|last| last.elapsed() < BETWEEN) {
            return;
        }
        shown.last = Some(Instant::now());
        let line = words(progress);
        let over = " ".repeat(shown.columns.saturating_sub(line.chars().count()));
        shown.columns = line.chars().count();
        write(&format!("\r{line}{over}"));
    }

    /// Removes the line from the screen.
    pub(super) fn clear(&self) {
        let Some(Ok(mut shown)) = self.shown.as_ref().map(Mutex::lock) else { return };
        if shown.columns > 0 {
            write(&format!("\r{}\r", " ".repeat(shown.columns)));
            shown.columns = 0;
        }
    }
}

fn write(text: &str) {
    let mut stream = std::io::stderr().lock();
    // There is no third stream to report this on.
    let _written = stream.write_all(text.as_bytes()).and_then(|()| stream.flush());
}

fn words(progress: Progress) -> String {
    let (best, bound) = (number::from_whole(progress.best), number::from_whole(progress.bound));
    if best <= 0.0 {
        return "searching".to_owned();
    }
    let over = number::snapped((1.0 - bound / best).max(0.0) * 1000.0).ceil() / 10.0;
    format!("searching: no plan can be more than {over} % better than the best so far; Ctrl-C shows it")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gap_is_never_told_too_small() {
        let text = words(Progress { best: 1000, bound: 981 });
        assert!(text.contains("more than 1.9 % better"), "{text}");
        let text = words(Progress { best: 3000, bound: 2000 });
        assert!(text.contains("more than 33.4 % better"), "{text}");
    }
}
