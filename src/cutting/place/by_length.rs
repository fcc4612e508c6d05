//! Plans full-width pieces from whole lengths: how many of which piece come from which length.
//!
//! Never here: pieces side by side, a pattern that must match.

use crate::cutting::nanometre::size;
use crate::cutting::place::extent::Extent;
use crate::cutting::place::item::Want;
use crate::cutting::place::layout::{CutLength, Layout, Placed};
use crate::cutting::plan::JoinedPart;
use crate::cutting::search::cost_model::CostModel;
use crate::cutting::task::demand::{Group, Measures};
use crate::cutting::task::source::Source;
use crate::piece::{Layers, Lie};
use crate::quantity::number;
use shirr_packing::{KeptRest, LengthProblem, PieceLength, Steps, StockLength, lengths};
use std::collections::BTreeMap;

/// A layout, and the proven lower bound divided by its cost.
pub(in crate::cutting) struct ByLength {
    pub(in crate::cutting) layout: Layout,
    pub(in crate::cutting) bound_ratio: f64,
    pub(in crate::cutting) proved: bool,
}

/// The stock as the solver takes it.
struct Stock {
    /// Each with the index of its source.
    stock: Vec<(usize, StockLength)>,
    /// Nanometres in one of the solver's units of length.
    unit: i64,
    /// The part of a unit's cost that is the same for every length; left out of the solver's costs.
    each_unit: i64,
}

/// Returns the best layout found within the steps; `None` if the pieces do not all go on these lengths, or if more than
/// their length matters.
pub(in crate::cutting) fn plan(
    groups: &[Group<'_>],
    sources: &[Source],
    measures: Measures,
    cost_model: &CostModel,
    seed: u64,
    steps: &mut Steps<'_>,
) -> Option<ByLength> {
    let alone = |group: &Group<'_>| group.full_width && !group.start.is_on_pattern();
    if !groups.iter().all(alone) || sources.iter().any(|source| source.width < measures.width) {
        return None;
    }
    let mut wanted = wanted(groups, sources)?;
    let lengths: Vec<i64> = wanted.keys().copied().collect();
    let Stock { stock, unit, each_unit } = stock(&lengths, sources, measures, cost_model)?;
    let pieces = wanted.iter().map(|(length, wants)| PieceLength {
        length: (length + measures.loss) / unit,
        count: number::from_size(wants.len()),
    });
    let problem =
        LengthProblem { stock: stock.iter().map(|(_, stock)| stock.clone()).collect(), pieces: pieces.collect() };
    let solution = lengths::solve(&problem, seed, steps).ok()?;
    let mut lists: Vec<(i64, std::vec::IntoIter<Want>)> =
        lengths.iter().filter_map(|length| Some((*length, wanted.remove(length)?.into_iter()))).collect();
    let mut cut_lengths: Vec<CutLength> = Vec::new();
    // Pieces cut as needed from one source all go on one length, one after another.
    let mut as_needed: BTreeMap<usize, usize> = BTreeMap::new();
    for pattern in &solution.patterns {
        let (source, stock) = stock.get(pattern.stock)?;
        let endless = sources.get(*source)?.as_needed;
        let mut cuts = pattern.cuts.clone();
        cuts.sort_by_key(|(piece, _)| std::cmp::Reverse(problem.pieces.get(*piece).map(|piece| piece.length)));
        debug_assert!(stock.length > 0, "stock has a length");
        for _ in 0..pattern.times {
            let place = as_needed.get(source).copied().filter(|_| endless).unwrap_or_else(|| {
                cut_lengths.push(CutLength::of(*source));
                cut_lengths.len() - 1
            });
            if endless {
                as_needed.insert(*source, place);
            }
            let one = cut_lengths.get_mut(place)?;
            for (piece, count) in &cuts {
                let (along, list) = lists.get_mut(*piece)?;
                let extent = Extent { along: *along, across: measures.width };
                one.put(list.by_ref().take(size(*count)), extent, measures.loss);
            }
        }
    }
    cut_lengths.sort_by_key(|cut_length| cut_length.source);
    // Add the cost that is the same for every plan, which the solver left out.
    let units = problem.pieces.iter().map(|piece| i128::from(piece.length) * i128::from(piece.count)).sum::<i128>();
    let alike = number::from_wide(units) * number::from_whole(each_unit);
    let (least, cost) = (number::from_whole(solution.bound) + alike, number::from_whole(solution.cost) + alike);
    let share = if cost > 0.0 { least / cost } else { 1.0 };
    let bound_ratio = if solution.proved { 1.0 } else { share.clamp(0.0, 1.0) };
    Some(ByLength { layout: Layout { cut_lengths, by_outline: false }, bound_ratio, proved: solution.proved })
}

impl CutLength {
    /// Lays pieces one after another behind those already there.
    pub(in crate::cutting) fn put(&mut self, wants: impl Iterator<Item = Want>, extent: Extent, loss: i64) {
        for want in wants {
            let from = if self.placed.is_empty() { 0 } else { self.end + loss };
            self.placed.push(Placed {
                entry: want.entry,
                number: want.number,
                part: want.part,
                lie: Lie::Along,
                reversed: false,
                through: Layers::One,
                from,
                across_from: 0,
                extent,
            });
            self.end = from + extent.along;
        }
    }
}

/// All pieces by length, those longer than the longest stock in parts; `None` if one cannot be divided.
pub(in crate::cutting) fn wanted(groups: &[Group<'_>], sources: &[Source]) -> Option<BTreeMap<i64, Vec<Want>>> {
    let longest = sources.iter().map(|source| source.length).max()?;
    let mut wanted: BTreeMap<i64, Vec<Want>> = BTreeMap::new();
    for group in groups {
        let (_, extent) = group.choices.first()?;
        let parts = if extent.along <= longest {
            vec![extent.along]
        } else {
            group.joining?.parts(extent.along, longest, group.piece).ok()?
        };
        let of = number::from_size(parts.len());
        for number in &group.numbers {
            for (place, along) in (1..).zip(&parts) {
                let part = (of > 1).then_some(JoinedPart { number: place, of });
                let want = Want { entry: group.entry, number: *number, twin: None, part };
                wanted.entry(*along).or_default().push(want);
            }
        }
    }
    Some(wanted)
}

/// Converts the sources to the solver's stock, and chooses its unit of length. A source cut as needed becomes one stock
/// length for each length of a piece, at the cost of that length.
///
/// If every leftover is kept, part of a unit's cost is the same for every length; the solver sees only the rest of the
/// cost.
fn stock(lengths: &[i64], sources: &[Source], measures: Measures, cost_model: &CostModel) -> Option<Stock> {
    let loss = measures.loss;
    let whole = sources.iter().filter(|source| !source.as_needed).map(|source| source.length + loss);
    // Only the pieces set the unit: the end of a length beyond whole units can hold no piece.
    let unit = lengths.iter().map(|length| length + loss).fold(0, gcd).max(1);
    let keep = |place: usize| cost_model.kept_from(place).map(|least| least.div_euclid(unit).max(1));
    let mut whole_ones = (0..sources.len()).filter(|place| sources.get(*place).is_some_and(|source| !source.as_needed));
    let any_kept = whole_ones.clone().any(|place| keep(place).is_some());
    let dearest = sources.iter().enumerate().filter_map(|(place, source)| {
        let counts = cost_model.counts(place)?;
        Some(if source.as_needed { counts.used * number::from_whole(*lengths.last()?) } else { counts.whole })
    });
    let scale = scale(dearest.fold(0.0, f64::max), whole.max().unwrap_or(1) / unit, any_kept);
    let money = |cost: f64| number::nearest_whole(cost * scale);
    let kept = (0..sources.len()).filter_map(|place| Some(cost_model.counts(place)?.kept)).reduce(f64::min);
    let all_kept = any_kept && whole_ones.all(|place| keep(place).is_some_and(|least| least <= 1));
    let each_unit = if all_kept { money(kept? * number::from_whole(unit))? } else { 0 };
    let mut stock = Vec::new();
    for (place, source) in sources.iter().enumerate() {
        let counts = cost_model.counts(place)?;
        let without = |cost: i64, length: i64| (cost - each_unit * length).max(0);
        if source.as_needed {
            for length in lengths {
                let cost = money(counts.used * number::from_whole(*length))?;
                let length = (length + loss) / unit;
                stock.push((place, StockLength { length, cost: without(cost, length), most: None, rest: None }));
            }
            continue;
        }
        let length = (source.length + loss).div_euclid(unit);
        let each = money(counts.kept * number::from_whole(unit))?;
        let rest =
            keep(place).map(|least| KeptRest { least, value: (each - each_unit).max(0) }).filter(|rest| rest.value > 0);
        let cost = without(money(counts.whole)?, length);
        stock.push((place, StockLength { length, cost, most: source.most, rest }));
    }
    Some(Stock { stock, unit, each_unit })
}

/// The least cost units per unit of length if leftovers count by length: fine enough that shelf lengths, which count
/// for a thousandth, differ even by one unit.
const FINE: f64 = 1e6;
/// The largest cost of one length, in the solver's cost units.
const LARGEST: f64 = 1e12;

/// How many of the solver's cost units make one unit of the cost model. Whole costs stay whole; if leftovers count by
/// length, a length's cost has enough units for each unit of its length.
fn scale(dearest: f64, units: i64, by_length: bool) -> f64 {
    if dearest <= 0.0 {
        return 1.0;
    }
    let wanted = if by_length { FINE * number::from_whole(units.max(1)) / dearest } else { 1.0 };
    let scale = if wanted <= 1.0 { 1.0 } else { 10.0_f64.powf(wanted.log10().ceil()) };
    // Costs that are lengths in nanometres are too large for the solver.
    if dearest * scale > LARGEST { LARGEST / dearest } else { scale }
}

/// The greatest gcd divisor.
fn gcd(left: i64, right: i64) -> i64 {
    if right == 0 { left.abs() } else { gcd(right, left % right) }
}
