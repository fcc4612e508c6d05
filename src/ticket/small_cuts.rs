//! The cuts of what is needed by the length: elastic, tapes and cords, each from a named length with its marks.
//!
//! Never here: choosing the lengths, which the supply of the notions does; cloth.

use crate::plans::TICK;
use crate::quantity::Length;
use crate::table::{Cell, Table, TableError};

/// One length of a notion and what is cut from it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SmallCuts {
    /// The notion.
    pub(crate) material: String,
    /// Its mark on the shelf; `None` if it is bought.
    pub(crate) stock: Option<String>,
    /// How long it is; `None` if it is bought as long as needed.
    pub(crate) length: Option<Length>,
    /// The cuts from its start on, one behind the other.
    pub(crate) cuts: Vec<SmallCut>,
    /// What is left behind the last cut; `None` if it is bought as long as needed.
    pub(crate) left: Option<Length>,
}

/// One cut from a length of a notion.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SmallCut {
    /// Running mark where it starts.
    pub(crate) from: Length,
    /// Running mark where it ends.
    pub(crate) to: Length,
    /// What it is for.
    pub(crate) why: String,
    /// Which part of a length that is joined, from one; `None` if it is whole.
    pub(crate) part: Option<i64>,
}

impl SmallCut {
    /// Returns the cut with its marks at a share of where they are.
    pub(super) fn times(self, share: f64) -> Self {
        Self { from: part_of(self.from, share), to: part_of(self.to, share), ..self }
    }
}

/// A share of a length, to the nanometre as the marks of a plan are.
pub(super) fn part_of(length: Length, share: f64) -> Length {
    let is_all = share.total_cmp(&1.0).is_eq();
    if is_all { length } else { Length::from_steps((length.steps() * share).round()).liking(length.liked()) }
}

impl SmallCuts {
    /// Its mark on the shelf with the notion, or that it is new.
    pub(crate) fn stock_name(&self) -> &str {
        self.stock.as_deref().unwrap_or("new")
    }

    /// Equal cuts for the same purpose, one behind the other: the first of them, and how many.
    pub(super) fn runs(&self) -> Vec<(&SmallCut, &SmallCut, i64)> {
        let mut runs: Vec<(&SmallCut, &SmallCut, i64)> = Vec::new();
        for cut in &self.cuts {
            // A mark is a whole number of nanometres, and the length of a cut is one mark less the other.
            let is_alike = |first: &SmallCut| {
                let difference = ((cut.to - cut.from) - (first.to - first.from)).steps().abs();
                first.why == cut.why && first.part.is_none() && cut.part.is_none() && difference < 2.0
            };
            match runs.last_mut() {
                Some((first, last, times)) if is_alike(first) => {
                    *last = cut;
                    *times += 1;
                }
                _ => runs.push((cut, cut, 1)),
            }
        }
        runs
    }
}

/// Builds the table of the cuts: equal ones one behind the other in one row, and what is left in the last row of each
/// length.
pub(super) fn table(lengths: &[SmallCuts], unit: &'static str) -> Result<Table, TableError> {
    let columns = Table::new("small_cuts").text("what").text("stock").count("times").length("each", unit);
    let columns = columns.length("mark from", unit).length("mark to", unit);
    let mut table = columns.length("left", unit).text("for").ready()?;
    for length in lengths {
        let runs = length.runs();
        let last_run = runs.len().saturating_sub(1);
        for (at, (first, last, times)) in runs.into_iter().enumerate() {
            let why = match first.part {
                Some(part) => format!("{} (part {part}, to be joined)", first.why),
                None => first.why.clone(),
            };
            table.push(vec![
                length.material.as_str().into(),
                length.stock_name().into(),
                times.into(),
                (first.to - first.from).into(),
                first.from.into(),
                last.to.into(),
                length.left.filter(|_| at == last_run).map_or(Cell::Blank, Cell::from),
                why.into(),
            ])?;
        }
    }
    Ok(table)
}

/// The cuts as lines of a sheet, each to be ticked off: the notion with the length it is cut from, then the cuts with
/// their marks. `bare` shows a length without its unit.
pub(super) fn lines(lengths: &[SmallCuts], bare: impl Fn(Length) -> String) -> Vec<String> {
    let mut lines = Vec::new();
    for length in lengths {
        let long = length.length.map(|length| format!(", {} long", bare(length))).unwrap_or_default();
        let left = length.left.map(|left| format!("; {} left", bare(left))).unwrap_or_default();
        lines.push(format!("{}, {}{long}{left}", length.material, length.stock_name()));
        for cut in &length.cuts {
            let part = cut.part.map(|part| format!(", part {part}, to be joined")).unwrap_or_default();
            lines.push(format!("{TICK}{:>8} to {:>8}  {}{part}", bare(cut.from), bare(cut.to), cut.why));
        }
    }
    lines
}
