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
        if !is_due(shown.last.map(|last| last.elapsed())) {
            return;
        }
        shown.last = Some(Instant::now());
        write(&shown.over(&words(progress)));
    }

    /// Removes the line from the screen.
    pub(super) fn clear(&self) {
        let Some(Ok(mut shown)) = self.shown.as_ref().map(Mutex::lock) else { return };
        write(&shown.cleared());
    }
}

/// Whether the line may be written again, so long after the last time.
fn is_due(since: Option<Duration>) -> bool {
    since.is_none_or(|since| since >= BETWEEN)
}

impl Shown {
    /// What writes a line over the one on the screen.
    fn over(&mut self, line: &str) -> String {
        let columns = line.chars().count();
        let over = " ".repeat(self.columns.saturating_sub(columns));
        self.columns = columns;
        format!("\r{line}{over}")
    }

    /// What removes the line from the screen; nothing if none is there.
    fn cleared(&mut self) -> String {
        let columns = std::mem::take(&mut self.columns);
        if columns == 0 { String::new() } else { format!("\r{}\r", " ".repeat(columns)) }
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

    #[test]
    fn nothing_is_told_before_the_first_plan_and_no_gap_below_none() {
        assert_eq!(words(Progress { best: 0, bound: 0 }), "searching");
        assert!(words(Progress { best: 1, bound: 0 }).contains("more than 100 % better"));
        assert!(words(Progress { best: 40, bound: 41 }).contains("more than 0 % better"));
        // 7 of 8 is an eighth, which needs no rounding: 12.5 %; 7 of 9 is 22.22 and so on, told as 22.3.
        assert!(words(Progress { best: 8, bound: 7 }).contains("more than 12.5 % better"));
        assert!(words(Progress { best: 9, bound: 7 }).contains("more than 22.3 % better"));
    }

    #[test]
    fn a_shorter_line_hides_the_longer_one_and_is_removed_once() {
        let mut shown = Shown { last: None, columns: 0 };
        assert_eq!(shown.cleared(), "");
        assert_eq!(shown.over("sevenish"), "\rsevenish");
        assert_eq!(shown.over("three"), "\rthree   ");
        assert_eq!(shown.over("four"), "\rfour ");
        assert_eq!(shown.cleared(), "\r    \r");
        assert_eq!(shown.cleared(), "");
        assert!(is_due(None) && !is_due(Some(Duration::ZERO)) && is_due(Some(BETWEEN)));
        assert!(
            !is_due(Some(BETWEEN.saturating_sub(Duration::from_millis(1)))) && is_due(Some(Duration::from_secs(2)))
        );
    }

    #[test]
    fn where_nobody_watches_there_is_no_line() {
        assert!(ProgressLine::new(false).shown.is_none());
        let watched = ProgressLine::new(true);
        let columns = |line: &ProgressLine| line.shown.as_ref().unwrap().lock().unwrap().columns;
        assert_eq!(columns(&watched), 0);
        watched.show(Progress { best: 0, bound: 0 });
        assert_eq!(columns(&watched), "searching".len());
        // A moment later the line stays as it is.
        watched.show(Progress { best: 40, bound: 30 });
        assert_eq!(columns(&watched), "searching".len());
        watched.clear();
        assert_eq!(columns(&watched), 0);
    }
}
