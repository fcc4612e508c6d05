//! A table where its columns do not fit side by side: one `heading: value` line after the other.

use super::grid::Grid;
use super::wrap;

/// How far a value that takes more than one line is set in.
const INDENT: usize = 2;

/// The rows one below the other, a blank line between them. The first line of each row has `mark`
/// before it and the others as many blanks.
pub(super) fn record_lines(grid: &Grid, mark: &str, width: usize) -> Vec<String> {
    let margin = " ".repeat(wrap::width(mark));
    let mut lines = Vec::new();
    for (number, record) in grid.records().into_iter().enumerate() {
        if number > 0 {
            lines.push(String::new());
        }
        if record.is_empty() {
            // A row of blanks is still a row.
            lines.push(mark.trim_end().to_owned());
        }
        let mut before = mark;
        for (heading, value) in record {
            let room = width.saturating_sub(wrap::width(mark) + INDENT);
            let pair = format!("{heading}: {value}");
            // Most pairs take one line, and then no room for an indent is needed.
            let fits = wrap::width(&pair) <= room + INDENT;
            let wrapped = if fits { vec![pair] } else { wrap::wrap(&pair, room) };
            for (at, line) in wrapped.iter().enumerate() {
                let indent = if at == 0 { "" } else { "  " };
                lines.push(format!("{before}{indent}{line}").trim_end().to_owned());
                before = &margin;
            }
        }
    }
    lines
}
