//! Leftovers: which are worth keeping, their lines for stock.csv, and how much is waste.
//!
//! Never here: putting them on the shelf.

use super::grouping::has_rest;
use super::plan_report::{PlanReport, PlanWords};
use super::shapes;
use crate::cutting::{Offcut, StockSource, StockUse};
use crate::piece::StockLength;
use crate::quantity::{Area, Length, number};
use crate::table::{Cell, Table, TableError};
use crate::textile::washing::Loss;
use crate::workshop::{Stock, StockPiece, names};
use std::collections::BTreeSet;

/// A leftover worth keeping, or several alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Leftover {
    /// The old mark, or a new one that is unique.
    pub stock: String,
    /// Name of the goods; `None` if they have none.
    pub material: Option<String>,
    /// The dye lot, if known.
    pub lot: Option<String>,
    /// Number of equal leftovers.
    pub count: i64,
    /// How long each is.
    pub along: Length,
    /// Width, if it must be shown.
    pub across: Option<Length>,
    /// Whether it has been washed.
    pub washed: bool,
    /// Width in the plan, shown or not.
    width: Length,
    /// Length in the plan: of goods washed first, that after the wash.
    laid_along: Length,
    /// Whether it comes from the shelf, and the index there or among the offers; equal ones of one source are merged.
    source: (bool, usize),
}

/// The part of the goods that is neither in a piece nor worth keeping.
#[derive(Clone, Copy, Debug)]
pub(super) struct Waste {
    pub(super) area: Area,
    /// Its length at the full width of the goods.
    pub(super) length: Length,
    /// Its share of all goods used.
    pub(super) share: f64,
    /// The share of the pieces in all goods used.
    pub(super) in_pieces: f64,
}

/// The leftovers worth keeping, in the order of the plan. `shelf` is the stock the plan was made from; a new mark
/// differs from every name in `used`.
pub(crate) fn leftovers(report: &PlanReport<'_>, shelf: &[StockLength], used: &BTreeSet<String>) -> Vec<Leftover> {
    let mut used: BTreeSet<String> = used.iter().map(|name| names::key(name)).collect();
    used.extend(shelf.iter().map(|length| names::key(&length.name)));
    let mut kept: Vec<Leftover> = Vec::new();
    let mut old_marks: BTreeSet<usize> = BTreeSet::new();
    for stock in &report.plan.uses {
        let was_washed = match stock.source {
            StockSource::Shelf { entry, .. } => shelf.get(entry).is_some_and(|length| length.washed),
            StockSource::New { .. } => false,
        };
        for Rest { along, across, width, laid_along, washed } in rests(report, stock, was_washed) {
            let source = match stock.source {
                StockSource::Shelf { entry, .. } => (true, entry),
                StockSource::New { offer, .. } => (false, offer),
            };
            let next = Leftover {
                stock: String::new(),
                material: report.name.map(str::to_owned),
                lot: stock.lot.clone(),
                count: 1,
                along,
                across,
                washed,
                width,
                laid_along,
                source,
            };
            let single = source.0 && shelf.get(source.1).is_some_and(|length| length.count == 1);
            let is_equal =
                |other: &&mut Leftover| Leftover { stock: String::new(), count: 1, ..(**other).clone() } == next;
            if let Some(equal) = kept.iter_mut().find(is_equal).filter(|_| !single) {
                equal.count += 1;
            } else {
                let old = (single && old_marks.insert(source.1)).then(|| stock.stock.clone());
                let mark = old.unwrap_or_else(|| new_mark(report, stock, &mut used));
                kept.push(Leftover { stock: mark, ..next });
            }
        }
    }
    kept
}

fn new_mark(report: &PlanReport<'_>, stock: &StockUse, used: &mut BTreeSet<String>) -> String {
    let base = match (stock.source, report.name) {
        (StockSource::New { .. }, Some(name)) => name,
        (StockSource::New { .. }, None) => {
            let name = stock.stock.strip_prefix("new ").unwrap_or(&stock.stock);
            name.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end()
        }
        (StockSource::Shelf { .. }, _) => &stock.stock,
    };
    let mut marks = (1_i64..).map(|number| format!("{base} rest {number}"));
    // The numbers never run out.
    let mark = marks.find(|mark| !used.contains(&names::key(mark))).unwrap_or_default();
    used.insert(names::key(&mark));
    mark
}

/// What is left of one length and worth keeping.
struct Rest {
    along: Length,
    /// Width, if it must be shown.
    across: Option<Length>,
    width: Length,
    laid_along: Length,
    washed: bool,
}

/// The leftovers of one length that are worth keeping. Of goods washed first only what the pieces need is washed: the
/// end of an unwashed length stays unwashed, at its full size.
fn rests(report: &PlanReport<'_>, stock: &StockUse, was_washed: bool) -> Vec<Rest> {
    let mut found = Vec::new();
    let loss = report.washed_first.filter(|_| !was_washed).unwrap_or(Loss::NONE);
    // Rolls, and goods with a name, imply their full width.
    let shown_width = |width: Length| {
        let plain = report.is_roll() || report.name.is_some() && width >= report.goods.width;
        (!plain).then_some(width)
    };
    if end_is_kept(report, stock) {
        found.push(Rest {
            along: loss.before_along(stock.left_over),
            across: shown_width(stock.width).map(|width| loss.before_across(width)),
            width: stock.width,
            laid_along: stock.left_over,
            washed: was_washed,
        });
    }
    for offcut in stock.offcuts.iter().filter(|offcut| offcut_is_kept(report, offcut)) {
        let across = offcut.across_to - offcut.across_from;
        let along = offcut.to - offcut.from;
        let washed = was_washed || !loss.is_none();
        found.push(Rest { along, across: Some(across), width: across, laid_along: along, washed });
    }
    found
}

/// Whether the end of a length is worth keeping.
pub(super) fn end_is_kept(report: &PlanReport<'_>, stock: &StockUse) -> bool {
    let long = report.keep_from.is_none_or(|least| stock.left_over >= least);
    has_rest(stock) && stock.left_over.is_positive() && long
}

/// Whether an offcut is worth keeping; it must be long enough both ways, because a long sliver is useless.
pub(super) fn offcut_is_kept(report: &PlanReport<'_>, offcut: &Offcut) -> bool {
    let least = report.keep_from;
    least.is_some_and(|least| offcut.to - offcut.from >= least && offcut.across_to - offcut.across_from >= least)
}

/// The waste of all goods used; goods bought as needed are used as far as they are laid.
pub(super) fn waste(report: &PlanReport<'_>, kept: &[Leftover]) -> Waste {
    let plan = report.plan;
    let taken: Area = plan.uses.iter().map(|stock| stock.length * stock.width).sum();
    let cuts = plan.uses.iter().flat_map(|stock| &stock.cuts);
    let pieces: Area = cuts.map(|cut| shapes::area(report, cut)).sum();
    let kept: Area = kept.iter().map(|left| left.laid_along * left.width * number::from_whole(left.count)).sum();
    let rest = taken - pieces - kept;
    // An area below zero is float noise.
    let area = if rest <= Area::ZERO { Area::ZERO } else { rest };
    let of_taken = |part: Area| if taken.is_positive() { part / taken } else { 0.0 };
    Waste { area, length: area / report.goods.width, share: of_taken(area), in_pieces: of_taken(pieces) }
}

/// The leftovers worth keeping, in the columns of stock.csv.
///
/// # Errors
/// Only errors of the table, which a plan made here does not cause.
pub(crate) fn leftovers_table(kept: &[Leftover], words: &PlanWords) -> Result<Table, TableError> {
    let columns = Table::new("leftovers").text("stock").text("material").text("lot").count("count");
    let columns = columns.length("along", words.small()).length("across", words.small());
    let partly_washed = kept.iter().any(|leftover| leftover.washed);
    let mut table = if partly_washed { columns.text("washed") } else { columns }.ready()?;
    for leftover in kept {
        let mut row: Vec<Cell> = vec![
            leftover.stock.as_str().into(),
            leftover.material.as_deref().into(),
            leftover.lot.as_deref().into(),
            leftover.count.into(),
            leftover.along.into(),
            leftover.across.map_or(Cell::Blank, Cell::from),
        ];
        if partly_washed {
            row.push(if leftover.washed { "yes" } else { "no" }.into());
        }
        table.push(row)?;
    }
    Ok(table)
}

/// The leftovers worth keeping as pieces of stock, to be written as lines of stock.csv.
pub(crate) fn leftovers_as_stock(kept: &[Leftover]) -> Stock {
    let list = kept.iter().map(|leftover| StockPiece {
        name: leftover.stock.clone(),
        material: leftover.material.clone().unwrap_or_default(),
        lot: leftover.lot.clone(),
        count: number::count(leftover.count).unwrap_or(0),
        along: Some(leftover.along),
        across: leftover.across,
        washed: leftover.washed,
        price: None,
        place: None,
        held_for: None,
    });
    Stock { list: list.collect() }
}
