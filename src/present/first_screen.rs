//! The first screen of an order: its few deciding rows, laid out under their labels to fit a screen.
//!
//! Where there is no room for all, the cuts give way, because the sheet has them, then the shares of the price and what can
//! be typed; nothing else does. Never here: what the rows say.

use crate::report::wrap;
use crate::ticket::{LayError, OverviewRow, WorkshopOrder, overview};

/// The most rows of a screen of 80 columns.
const ROWS: usize = 24;
/// The columns that labels take, with the blanks behind them.
const LABEL: usize = 9;
/// Between two parts of a row: wide where there is room, else narrow.
const GAPS: [&str; 2] = ["   ", "  "];
/// A screen of fewer columns has no column for labels.
const NARROW: usize = 60;
/// The width of a common screen.
const WIDE: usize = 80;

/// Returns the lines of the screen, at most [`ROWS`] of them on a screen of 80 columns or more as far as the cuts can
/// give way; on a narrower one more, 40 of them on 40 columns. `name` is what the order is called where it has no mark;
/// `next` says what can be typed to see the rest.
///
/// # Errors
/// The work was stopped, or an amount is too large.
pub(crate) fn first_screen(
    order: &WorkshopOrder,
    name: &str,
    next: &[String],
    width: usize,
) -> Result<Vec<String>, LayError> {
    let mut rows = overview(order, name)?;
    if !next.is_empty() {
        let shorter = vec![vec![next.iter().take(1).cloned().collect()]];
        rows.push(OverviewRow { label: "NEXT", lines: vec![next.to_vec()], shorter, ..OverviewRow::default() });
    }
    Ok(laid_out_to_fit(&mut rows, width))
}

/// Lays rows out in as many lines as a screen of this width has.
pub(super) fn laid_out_to_fit(rows: &mut [OverviewRow], width: usize) -> Vec<String> {
    let width = width.min(WIDE);
    let room = ROWS + (WIDE - width) * 16 / 40;
    fitted(rows, width, room)
}

/// Lays the rows out in at most `room` lines, if narrow gaps and shorter rows get there.
fn fitted(rows: &mut [OverviewRow], width: usize, room: usize) -> Vec<String> {
    loop {
        let [wide, narrow] = GAPS.map(|gap| laid_out(rows, width, gap));
        if wide.len() <= room {
            return wide;
        }
        if narrow.len() <= room || !shorten(rows) {
            return narrow;
        }
    }
}

/// Replaces one row by the shorter that may stand for it; `false` if none gives way.
fn shorten(rows: &mut [OverviewRow]) -> bool {
    let Some(row) = rows.iter_mut().find(|row| !row.shorter.is_empty()) else { return false };
    row.lines = row.shorter.remove(0);
    true
}

fn laid_out(rows: &[OverviewRow], width: usize, gap: &str) -> Vec<String> {
    let mut lines = Vec::new();
    for row in rows {
        // On a narrow screen the text goes below its label, which would take a fourth of every line.
        let is_narrow = width < NARROW;
        let mut before = match row.label {
            "" => String::new(),
            label if is_narrow => format!("{label}  "),
            label => wrap::pad(label, LABEL, false),
        };
        let indent = if is_narrow { wrap::width(&before).min(2) } else { wrap::width(&before) };
        for parts in &row.lines {
            lines.extend(side_by_side(&before, indent, parts, width, gap));
            before = " ".repeat(indent);
        }
    }
    lines
}

/// Sets parts side by side after a prefix, and below it behind `indent` blanks; a part goes to the next line whole where
/// it fits on one.
fn side_by_side(before: &str, indent: usize, parts: &[String], width: usize, gap: &str) -> Vec<String> {
    let blanks = " ".repeat(indent);
    let mut lines: Vec<String> = vec![before.to_owned()];
    let mut is_first_on_line = true;
    for part in parts.iter().filter(|part| !part.is_empty()) {
        let between = if is_first_on_line { "" } else { gap };
        let fits = |line: &String| wrap::width(line) + between.len() + wrap::width(part) <= width;
        if let Some(line) = lines.last_mut().filter(|line| fits(line)) {
            line.extend([between, part]);
        } else if !is_first_on_line && indent + wrap::width(part) <= width {
            lines.push(format!("{blanks}{part}"));
        } else {
            // Longer than a line, or than what the label leaves of one: broken at blanks.
            let start = if is_first_on_line { lines.pop().unwrap_or_default() } else { blanks.clone() };
            lines.extend(broken(&start, &blanks, part, width));
        }
        is_first_on_line = false;
    }
    lines
}

/// Breaks a part into lines, the first after `start`, the others after `blanks`. Nothing of it is lost, however long a word.
fn broken(start: &str, blanks: &str, part: &str, width: usize) -> Vec<String> {
    let part = part.split_whitespace().collect::<Vec<_>>().join(" ");
    let first = wrap::wrap(&part, width.saturating_sub(wrap::width(start))).into_iter().next().unwrap_or_default();
    let rest = part.strip_prefix(&first).unwrap_or_default().trim_start();
    let mut lines = vec![format!("{start}{first}")];
    if !rest.is_empty() {
        lines.extend(wrap::hang(blanks, rest, width));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(words: &[&str]) -> Vec<String> {
        words.iter().map(|word| (*word).to_owned()).collect()
    }

    #[test]
    fn a_part_is_kept_whole_and_a_long_one_is_broken_at_blanks() {
        let lines =
            side_by_side("BUY      ", 9, &parts(&["blue check lawn 1 yd", "hem tape 3 yd", "thread"]), 40, GAPS[0]);
        assert_eq!(lines, ["BUY      blue check lawn 1 yd", "         hem tape 3 yd   thread"]);
        let lines = side_by_side("FIRE     ", 9, &parts(&["keep away from flames and from heaters"]), 30, GAPS[0]);
        assert_eq!(lines, ["FIRE     keep away from flames", "         and from heaters"]);
        let lines = side_by_side("FIRE  ", 2, &parts(&["keep away from flames and from heaters"]), 24, GAPS[0]);
        assert_eq!(lines, ["FIRE  keep away from", "  flames and from", "  heaters"]);
        // A name longer than a line is cut where the line ends, and goes on below.
        let long = "a".repeat(20);
        let lines = side_by_side("BUY  ", 2, &parts(&[&long, "1 yd"]), 12, GAPS[0]);
        assert_eq!(lines.concat().replace(' ', ""), format!("BUY{long}1yd"));
        assert!(lines.iter().all(|line| wrap::width(line) <= 12), "{lines:?}");
    }

    #[test]
    fn what_has_nothing_shorter_never_gives_way() {
        let row = |label, count: usize| OverviewRow {
            label,
            lines: (0..count).map(|at| vec![format!("{label} {at}")]).collect(),
            ..OverviewRow::default()
        };
        let cuts = OverviewRow { shorter: vec![vec![parts(&["few"])]], ..row("CUT", 20) };
        let mut rows = vec![row("PRICE", 1), cuts, row("MIND", 30)];
        assert_eq!(fitted(&mut rows, 80, 51).len(), 51);
        assert_eq!(fitted(&mut rows, 80, 50).len(), 32);
    }
}
