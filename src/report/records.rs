//! A table whose columns do not fit side by side: one `heading: value` line after the other.

use super::grid::Grid;
use super::wrap;

/// Indent of the further lines of a value.
const INDENT: usize = 2;

/// The rows one below the other, with a blank line between them. The first line of each row begins with `mark`, the
/// others with as many blanks.
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
            // Most pairs take one line and need no room for an indent.
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
