//! A table's cells as texts, and the widths at which its columns fit side by side.

use super::amounts;
use super::plain_text;
use super::wrap;
use crate::quantity::Style;
use crate::table::{Cell, Column, Table};

/// A word up to this length is not broken to make a column narrower.
const LONGEST_WORD_KEPT: usize = 12;

/// The texts of a table, column by column.
pub(super) struct Grid {
    columns: Vec<GridColumn>,
    rows: usize,
}

struct GridColumn {
    heading: String,
    cells: Vec<String>,
    /// Right-aligned, for numbers.
    right: bool,
    /// Screen columns needed without any break.
    natural: usize,
    /// The narrowest possible width: no number is ever broken.
    least: usize,
    /// Whether it may be left out.
    gives_way: bool,
}

impl Grid {
    pub(super) fn of(table: &Table, style: &Style) -> Self {
        let columns = table.columns().iter().enumerate().map(|(at, column)| {
            let cells: Vec<_> = table.rows().iter().filter_map(|row| row.get(at)).collect();
            let heading = plain_text::one_line(&column.heading);
            let texts: Vec<String> = cells.iter().map(|cell| amounts::shown(cell, column, style)).collect();
            let mut natural = wrap::width(&heading);
            let mut least = wrap::longest_part(&heading).min(LONGEST_WORD_KEPT);
            for (cell, text) in cells.iter().zip(&texts) {
                natural = natural.max(wrap::width(text));
                let whole = wrap::width(text);
                let breakable = wrap::longest_part(text).min(LONGEST_WORD_KEPT);
                least = least.max(if amounts::is_number(cell) { whole } else { breakable });
            }
            let right = is_right_aligned(column, cells.iter().copied());
            GridColumn {
                heading,
                cells: texts,
                right,
                natural: natural.max(1),
                least: least.max(1),
                gives_way: column.gives_way,
            }
        });
        Self { columns: columns.collect(), rows: table.len() }
    }

    /// Leaves out the columns that give way; returns their headings.
    pub(super) fn leave_out(&mut self) -> Vec<String> {
        let left_out =
            self.columns.iter().filter(|column| column.gives_way).map(|column| column.heading.clone()).collect();
        self.columns.retain(|column| !column.gives_way);
        left_out
    }

    pub(super) fn columns(&self) -> usize {
        self.columns.len()
    }

    /// The widths of the columns without any break.
    pub(super) fn natural_widths(&self) -> Vec<usize> {
        self.columns.iter().map(|column| column.natural).collect()
    }

    /// Widths that add up to at most `available`; `None` if not even the numbers fit.
    pub(super) fn widths_within(&self, available: usize) -> Option<Vec<usize>> {
        let mut widths: Vec<usize> = self.columns.iter().map(|column| column.least).collect();
        let mut left = available.checked_sub(widths.iter().sum())?;
        while left > 0 {
            // The narrowest column that still breaks its texts grows first.
            let growing = widths.iter_mut().zip(&self.columns).filter(|(width, column)| **width < column.natural);
            let Some((narrowest, _)) = growing.min_by_key(|(width, _)| **width) else { break };
            *narrowest += 1;
            left -= 1;
        }
        Some(widths)
    }

    /// The headings at these widths: one or more lines, each a padded text for every column.
    pub(super) fn heading_lines(&self, widths: &[usize]) -> Vec<Vec<String>> {
        self.lines_of(widths, |column| Some(&column.heading))
    }

    /// The rows at these widths, each as by [`heading_lines`](Self::heading_lines).
    pub(super) fn row_lines(&self, widths: &[usize]) -> Vec<Vec<Vec<String>>> {
        (0..self.rows).map(|row| self.lines_of(widths, |column| column.cells.get(row))).collect()
    }

    /// The rows as pairs of heading and text, without blank cells.
    pub(super) fn records(&self) -> Vec<Vec<(&str, &str)>> {
        let record = |row: usize| {
            let cells = self.columns.iter().filter_map(move |column| Some((column, column.cells.get(row)?)));
            let filled = cells.filter(|(_, cell)| !cell.is_empty());
            filled.map(|(column, cell)| (column.heading.as_str(), cell.as_str())).collect()
        };
        (0..self.rows).map(record).collect()
    }

    fn lines_of<'a>(
        &'a self,
        widths: &[usize],
        text: impl Fn(&'a GridColumn) -> Option<&'a String>,
    ) -> Vec<Vec<String>> {
        let wrapped: Vec<(Vec<String>, usize, bool)> = self
            .columns
            .iter()
            .zip(widths)
            .map(|(column, width)| (wrap::wrap(text(column).map_or("", |text| text), *width), *width, column.right))
            .collect();
        let height = wrapped.iter().map(|(lines, _, _)| lines.len()).max().unwrap_or(0);
        let line = |at: usize| {
            let texts = wrapped.iter();
            texts.map(|(lines, width, right)| wrap::pad(lines.get(at).map_or("", |l| l), *width, *right)).collect()
        };
        (0..height).map(line).collect()
    }
}

/// Whether a column is right-aligned: it holds numbers, by its kind or in fact.
pub(super) fn is_right_aligned<'c>(column: &Column, cells: impl Iterator<Item = &'c Cell>) -> bool {
    let mut filled = cells.filter(|cell| !cell.is_blank()).peekable();
    column.kind.is_numeric() || (filled.peek().is_some() && filled.all(amounts::is_number))
}

/// A line of padded texts with a gap between them and no blanks at its end.
pub(super) fn joined(texts: &[String], gap: &str) -> String {
    texts.join(gap).trim_end().to_owned()
}
