//! The sheet that lies on the cutting table: plain characters only, to be printed or pinned up and
//! ticked off by hand.
//!
//! No line is wider than was asked for, whatever the texts are.

use super::grid::{Grid, joined};
use super::plain_text;
use super::records;
use super::wrap;
use crate::quantity::Style;
use crate::table::Table;
use std::io::{self, Write};

/// The width of a sheet unless another is asked for.
pub const SHEET_WIDTH: usize = 80;
/// No sheet is narrower.
const NARROWEST: usize = 24;
/// A label longer than this has its value set in behind it and not in line with the others.
const LONGEST_LABEL: usize = 16;
const GAP: &str = "  ";
const TICK: &str = "[ ] ";

/// What is on one sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// Whose and what: `Order 17: gathered skirt`.
    pub title: String,
    /// What the order says, each with its label: `waist`, `56 cm`.
    pub order: Vec<(String, String)>,
    /// The parts, in the order they are worked through.
    pub sections: Vec<Section>,
}

/// One part of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its heading: `Cut`, `Mark`, `Sew`.
    pub heading: String,
    /// What stands under it.
    pub body: SectionBody,
}

/// What stands under a heading.
#[derive(Clone, Debug, PartialEq)]
pub enum SectionBody {
    /// Rows to be ticked off: cuts.
    Ticked(Table),
    /// Rows to be looked at: marks, needs.
    Listed(Table),
    /// Numbered steps to be ticked off.
    Steps(Vec<String>),
    /// Cautions, in a block that cannot be overlooked.
    Cautions(Vec<String>),
    /// Notes, one paragraph each.
    Notes(Vec<String>),
}

impl Section {
    /// A part of a sheet.
    pub fn new(heading: &str, body: SectionBody) -> Self {
        Self { heading: heading.to_owned(), body }
    }

    /// Whether nothing stands under its heading.
    pub fn is_empty(&self) -> bool {
        match &self.body {
            SectionBody::Ticked(table) | SectionBody::Listed(table) => table.is_empty(),
            SectionBody::Steps(texts) | SectionBody::Cautions(texts) | SectionBody::Notes(texts) => texts.is_empty(),
        }
    }
}

impl Sheet {
    /// Writes the sheet in lines of at most `width` columns.
    ///
    /// Fails only where `out` does.
    pub fn write<W: Write>(&self, style: &Style, width: usize, mut out: W) -> io::Result<()> {
        for line in self.lines(style, width) {
            writeln!(out, "{line}")?;
        }
        out.flush()
    }

    /// The lines of the sheet. A part with nothing in it is left out with its heading.
    pub fn lines(&self, style: &Style, width: usize) -> Vec<String> {
        let width = width.max(NARROWEST);
        let style = Style { plain: true, ..*style };
        let mut lines = underlined(&self.title, '=', width);
        if !self.order.is_empty() {
            lines.push(String::new());
            lines.extend(order_lines(&self.order, width));
        }
        for section in self.sections.iter().filter(|section| !section.is_empty()) {
            lines.push(String::new());
            lines.extend(section_lines(section, &style, width));
        }
        lines
    }
}

fn section_lines(section: &Section, style: &Style, width: usize) -> Vec<String> {
    let heading = || underlined(&section.heading, '-', width);
    let under = match &section.body {
        SectionBody::Ticked(table) => table_lines(&Grid::of(table, style), TICK, width),
        SectionBody::Listed(table) => table_lines(&Grid::of(table, style), "", width),
        SectionBody::Steps(steps) => step_lines(steps, width),
        SectionBody::Notes(notes) => {
            notes.iter().flat_map(|note| wrap::wrap(&plain_text::one_line(note), width)).collect()
        }
        SectionBody::Cautions(cautions) => return caution_block(&section.heading, cautions, width),
    };
    heading().into_iter().chain(under).collect()
}

/// A heading and a rule as long as its longest line.
fn underlined(heading: &str, rule: char, width: usize) -> Vec<String> {
    let mut lines = wrap::wrap(&plain_text::one_line(heading), width);
    let longest = lines.iter().map(|line| wrap::width(line)).max().unwrap_or(0);
    lines.push(rule.to_string().repeat(longest));
    lines
}

fn order_lines(order: &[(String, String)], width: usize) -> Vec<String> {
    let pairs: Vec<(String, String)> = order
        .iter()
        .map(|(label, value)| (format!("{}:", plain_text::one_line(label)), plain_text::one_line(value)))
        .collect();
    let labels = pairs.iter().map(|(label, _)| wrap::width(label));
    let column = labels.filter(|label| *label <= LONGEST_LABEL).max().unwrap_or(0);
    let line = |(label, value): &(String, String)| {
        if wrap::width(label) <= column {
            wrap::hang(&format!("{} ", wrap::pad(label, column, false)), value, width)
        } else {
            let wrapped = wrap::wrap(&format!("{label} {value}"), width.saturating_sub(GAP.len()));
            let lines = wrapped.iter().enumerate();
            lines.map(|(at, line)| if at == 0 { line.clone() } else { format!("{GAP}{line}") }).collect()
        }
    };
    pairs.iter().flat_map(line).collect()
}

/// A table with a mark before each row, wrapped inside its columns; row by row where they do not fit.
fn table_lines(grid: &Grid, mark: &str, width: usize) -> Vec<String> {
    let gaps = GAP.len() * grid.columns().saturating_sub(1);
    let available = width.checked_sub(mark.len() + gaps);
    let Some(widths) = available.and_then(|available| grid.widths_within(available)) else {
        return records::record_lines(grid, mark, width);
    };
    let margin = " ".repeat(mark.len());
    let behind = |before: &str, line: &[String]| format!("{before}{}", joined(line, GAP)).trim_end().to_owned();
    let headings = grid.heading_lines(&widths);
    let rule: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
    let mut lines: Vec<String> = headings.iter().map(|line| behind(&margin, line)).collect();
    lines.push(behind(&margin, &rule));
    for row in grid.row_lines(&widths) {
        let row = row.iter().enumerate();
        lines.extend(row.map(|(at, line)| behind(if at == 0 { mark } else { &margin }, line)));
    }
    lines
}

/// Numbered steps, the numbers in line at their right.
fn step_lines(steps: &[String], width: usize) -> Vec<String> {
    let digits = steps.len().to_string().len();
    let step = |(at, step): (usize, &String)| {
        let prefix = format!("{TICK}{:>digits$}. ", at + 1);
        wrap::hang(&prefix, &plain_text::one_line(step), width)
    };
    steps.iter().enumerate().flat_map(step).collect()
}

fn caution_block(heading: &str, cautions: &[String], width: usize) -> Vec<String> {
    let rule = "!".repeat(width);
    let heading = wrap::wrap(&plain_text::one_line(heading).to_uppercase(), width.saturating_sub(2));
    let mut lines = vec![rule.clone()];
    lines.extend(heading.iter().map(|line| format!("! {line}")));
    for caution in cautions {
        let wrapped = wrap::hang("- ", &plain_text::one_line(caution), width.saturating_sub(2));
        lines.extend(wrapped.iter().map(|line| format!("! {line}").trim_end().to_owned()));
    }
    lines.push(rule);
    lines
}
