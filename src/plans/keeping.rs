//! Leftovers: which are worth keeping, their lines for stock.csv, and how much is waste.
//!
//! Never here: putting them on the shelf.

use super::grouping::has_rest;
use super::letters::letters;
use super::panels::{EntryPanels, Strip};
use super::plan_report::{PlanReport, PlanWords};
use super::shapes;
use crate::cutting::{Cut, Offcut, StockSource, StockUse};
use crate::quantity::{Area, Length, number};
use crate::table::{Cell, Table, TableError};
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
    /// Its area in the plan: of goods washed first, that after the wash.
    laid: Area,
    /// Whether the plan has it in a piece, from which it is split or trimmed.
    in_pieces: bool,
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

/// The leftovers worth keeping, in the order of the plan. A new mark differs from every name on the shelf and in `used`.
pub(crate) fn leftovers(report: &PlanReport<'_>, words: &PlanWords, used: &BTreeSet<String>) -> Vec<Leftover> {
    let mut used: BTreeSet<String> = used.iter().map(|name| names::key(name)).collect();
    used.extend(report.shelf.iter().map(|length| names::key(&length.name)));
    let mut found: Vec<Leftover> = Vec::new();
    let mut old_marks: BTreeSet<usize> = BTreeSet::new();
    for (stock, rests) in report.plan.uses.iter().zip(kept(report, words)) {
        for rest in rests {
            let source = match stock.source {
                StockSource::Shelf { entry, .. } => (true, entry),
                StockSource::New { offer, .. } => (false, offer),
            };
            let next = Leftover {
                stock: String::new(),
                material: report.name.map(str::to_owned),
                lot: stock.lot.clone(),
                count: 1,
                along: rest.along,
                across: rest.shows_across.then_some(rest.across),
                washed: rest.washed,
                laid: rest.laid,
                in_pieces: rest.in_pieces,
                source,
            };
            let single = source.0 && report.shelf.get(source.1).is_some_and(|length| length.count == 1);
            let is_equal =
                |other: &&mut Leftover| Leftover { stock: String::new(), count: 1, ..(**other).clone() } == next;
            if let Some(equal) = found.iter_mut().find(is_equal).filter(|_| !single) {
                equal.count += 1;
            } else {
                let old = (single && old_marks.insert(source.1)).then(|| stock.stock.clone());
                let mark = old.unwrap_or_else(|| new_mark(report, stock, &mut used));
                found.push(Leftover { stock: mark, ..next });
            }
        }
    }
    found
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

/// What is left of one length and worth keeping, at the marks of the tape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rest {
    pub(super) along: Length,
    pub(super) across: Length,
    /// Whether its goods do not imply its width.
    shows_across: bool,
    /// Whether it has been washed by then.
    washed: bool,
    /// Whether its sizes are those before the wash, of goods that are washed first.
    pub(super) unwashed: bool,
    laid: Area,
    in_pieces: bool,
}

/// What is worth keeping of each length of a plan: its end, what lies beside the pieces, and what is split and trimmed
/// off them. Sheet, files and pictures all have it from here.
pub(super) fn kept(report: &PlanReport<'_>, words: &PlanWords) -> Vec<Vec<Rest>> {
    let strips = strips(report);
    report.plan.uses.iter().map(|stock| rests(report, words, &strips, stock)).collect()
}

/// What is split and trimmed off the pieces of a length and worth keeping, along and across.
pub(super) fn kept_off_pieces(report: &PlanReport<'_>, words: &PlanWords, stock: &StockUse) -> Vec<(Length, Length)> {
    let rests = rests(report, words, &strips(report), stock).into_iter();
    rests.filter(|rest| rest.in_pieces).map(|rest| (rest.along, rest.across)).collect()
}

fn strips(report: &PlanReport<'_>) -> Vec<Strip> {
    report.all_panels(&letters(&[*report])).iter().flat_map(EntryPanels::strips).collect()
}

fn rests(report: &PlanReport<'_>, words: &PlanWords, strips: &[Strip], stock: &StockUse) -> Vec<Rest> {
    let was_washed = report.was_washed(stock);
    let beside = |offcut: &Offcut, in_pieces| {
        let (along, across) = beside_at_marks(words, offcut);
        let washed = was_washed || !report.loss_of(stock).is_none();
        let laid = (offcut.to - offcut.from) * (offcut.across_to - offcut.across_from);
        Rest { along, across, shows_across: true, washed, unwashed: false, laid, in_pieces }
    };
    let strip_off =
        |cut: &Cut, strip: &Strip| Offcut { from: cut.from, to: cut.to, across_from: strip.from, across_to: strip.to };
    let of_cut = |cut: &Cut| {
        let its = strips.iter().filter(|strip| (strip.entry, strip.drop) == (cut.entry, cut.number));
        its.map(|strip| strip_off(cut, strip)).collect::<Vec<_>>()
    };
    let end = end_is_kept(report, stock).then(|| {
        let (along, across, unwashed) = end_at_marks(report, words, stock);
        // Rolls, and goods with a name, imply their full width.
        let is_plain = report.is_roll() || report.name.is_some() && stock.width >= report.goods.width;
        let laid = stock.left_over * stock.width;
        Rest { along, across, shows_across: !is_plain, washed: was_washed, unwashed, laid, in_pieces: false }
    });
    let offcuts = stock.offcuts.iter().filter(|offcut| offcut_is_kept(report, offcut));
    let off: Vec<Offcut> = stock.cuts.iter().flat_map(of_cut).filter(|offcut| offcut_is_kept(report, offcut)).collect();
    let beside_pieces = offcuts.map(|offcut| beside(offcut, false));
    end.into_iter().chain(beside_pieces).chain(off.iter().map(|offcut| beside(offcut, true))).collect()
}

/// The end of a length at the marks of the tape, along and across, and whether it is still to be washed. Of goods washed
/// first only what the pieces need is washed: the end of an unwashed length has its size before the wash.
pub(super) fn end_at_marks(report: &PlanReport<'_>, words: &PlanWords, stock: &StockUse) -> (Length, Length, bool) {
    let (loss, liked) = (report.loss_of(stock), stock.left_over.liked());
    if !loss.is_none() {
        let (along, across) = (loss.before_along(stock.left_over), loss.before_across(stock.width));
        return (words.at_mark(along).liking(liked), words.at_mark(across), true);
    }
    let lost = stock.length - stock.lead - stock.used - stock.left_over;
    let parts = [stock.lead, lost, stock.used].map(|part| words.at_mark(part)).into_iter().sum::<Length>();
    ((words.at_mark(stock.length) - parts).most(Length::ZERO).liking(liked), words.at_mark(stock.width), false)
}

/// What lies beside pieces, along and across, from mark to mark.
pub(super) fn beside_at_marks(words: &PlanWords, offcut: &Offcut) -> (Length, Length) {
    (words.between(offcut.from, offcut.to), words.between(offcut.across_from, offcut.across_to))
}

/// Whether the end of a length is worth keeping.
pub(super) fn end_is_kept(report: &PlanReport<'_>, stock: &StockUse) -> bool {
    let long = report.keep_from.is_none_or(|least| stock.left_over >= least);
    has_rest(stock) && stock.left_over.is_positive() && long
}

/// Whether an offcut is worth keeping.
pub(super) fn offcut_is_kept(report: &PlanReport<'_>, offcut: &Offcut) -> bool {
    report.is_worth_keeping(offcut.to - offcut.from, offcut.across_to - offcut.across_from)
}

/// The waste of all goods used; goods bought as needed are used as far as they are laid.
pub(super) fn waste(report: &PlanReport<'_>, kept: &[Leftover]) -> Waste {
    let plan = report.plan;
    let taken: Area = plan.uses.iter().map(|stock| stock.length * stock.width).sum();
    let cuts = plan.uses.iter().flat_map(|stock| &stock.cuts);
    let area_of = |left: &Leftover| left.laid * number::from_whole(left.count);
    let off_pieces: Area = kept.iter().filter(|left| left.in_pieces).map(area_of).sum();
    let pieces = cuts.map(|cut| shapes::area(report, cut)).sum::<Area>() - off_pieces;
    let kept: Area = kept.iter().map(area_of).sum();
    let rest = taken - pieces - kept;
    // An area below zero is float noise.
    let area = rest.most(Area::ZERO);
    let of_taken = |part: Area| if taken.is_positive() { part / taken } else { 0.0 };
    Waste { area, length: area / report.goods.width, share: of_taken(area), in_pieces: of_taken(pieces) }
}

/// Where the goods of a plan go, as shares of all that is taken up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct GoodsShares {
    /// In the pieces.
    pub(crate) in_pieces: f64,
    /// In leftovers worth keeping.
    pub(crate) kept: f64,
    /// Wasted.
    pub(crate) wasted: f64,
}

/// Returns where the goods of a plan go.
pub(crate) fn goods_shares(report: &PlanReport<'_>, kept: &[Leftover]) -> GoodsShares {
    let waste = waste(report, kept);
    let kept = (1.0 - waste.in_pieces - waste.share).max(0.0);
    GoodsShares { in_pieces: waste.in_pieces, kept, wasted: waste.share }
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
