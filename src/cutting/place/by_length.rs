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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::tests::scene::{cloth, new, nm, prepared, shelf};
    use crate::cutting::{CuttingManner, CuttingTask};
    use crate::piece::{Goods, Supply};

    /// Whole costs stay whole; where leftovers count by length, a million units of cost for each unit of length, by powers of
    /// ten; never so many that a length costs more than 10¹².
    #[test]
    fn how_fine_costs_are() {
        for (dearest, units, by_length, wanted) in [
            (0.0, 300, true, 1.0),
            (-4.0, 300, true, 1.0),
            (5_000.0, 300, false, 1.0),
            (2e12, 300, false, 0.5),
            // 3 · 10⁸ of 5 000 are 6 · 10⁴, so 10⁵.
            (5_000.0, 300, true, 1e5),
            (5_000.0, 500, true, 1e5),
            (5_000.0, 501, true, 1e6),
            (1e9, 300, true, 1.0),
            (1e9, 1_001, true, 10.0),
            // No unit counts as one: 10⁶ of 500 are 2 000.
            (500.0, 0, true, 1e4),
            // 10⁷ · 3 · 10⁵ were more than 10¹².
            (3e5, 3_000_000, true, 1e12 / 3e5),
        ] {
            let found = scale(dearest, units, by_length);
            assert!(number::is_near(found, wanted), "{dearest}, {units}, {by_length}: {found}");
        }
    }

    /// Pieces of 40 and 60 on goods 100 wide, on lengths of 700, 310 on the shelf, and as needed. Without a loss the unit is 20, so
    /// 700 are 35; with 4 lost at a cut 44 and 64 are whole fours, and 704 are 176.
    #[test]
    fn lengths_and_costs_as_the_solver_takes_them() {
        let told = |sources: &[Source], keep_from: Option<i64>, loss| {
            let manner = CuttingManner { keep_from: keep_from.map(nm), ..CuttingManner::default() };
            let goods = Goods { loss_per_cut: nm(loss), ..cloth(100) };
            let task =
                CuttingTask { pieces: &[], goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
            let measures = prepared(&task).measures;
            let model = CostModel::of(sources, measures, &manner);
            let found = stock(&[40, 60], sources, measures, &model).unwrap();
            let one = |(place, stock): &(usize, StockLength)| {
                let rest = stock.rest.as_ref().map(|rest| (rest.least, rest.value));
                (*place, stock.length, stock.cost, stock.most, rest)
            };
            (found.stock.iter().map(one).collect::<Vec<_>>(), found.unit, found.each_unit)
        };
        let bought = [Source { most: Some(4), ..new(0, 710, 100) }];
        let needed = Source { as_needed: true, length: 9_000, most: Some(1), ..new(1, 0, 100) };
        assert_eq!(told(&bought, None, 0), (vec![(0, 35, 710, Some(4), None)], 20, 0));
        assert_eq!(told(&bought, None, 4), (vec![(0, 178, 710, Some(4), None)], 4, 0));
        let both = [bought[0].clone(), needed];
        let as_needed = |short, long| [(1, short, 40, None, None), (1, long, 60, None, None)];
        let all = |first, short, long| [vec![first], as_needed(short, long).to_vec()].concat();
        assert_eq!(told(&both, None, 0), (all((0, 35, 710, Some(4), None), 2, 3), 20, 0));
        assert_eq!(told(&both, None, 4), (all((0, 178, 710, Some(4), None), 11, 16), 4, 0));
        // 35 million of 710 are 49 296, so 10⁵ units of cost for one of length: 20 that are kept are worth 12 of those, and
        // if all is kept, that of each unit is left out of the whole.
        let (whole, each) = (71_000_000, 1_200_000);
        assert_eq!(told(&bought, Some(50), 0), (vec![(0, 35, whole, Some(4), Some((2, each)))], 20, 0));
        assert_eq!(told(&bought, Some(39), 0), (vec![(0, 35, whole - 35 * each, Some(4), None)], 20, each));
        assert_eq!(told(&bought, Some(0), 0), (vec![(0, 35, whole - 35 * each, Some(4), None)], 20, each));
        // On the shelf half a thousandth counts, of which 98 in a hundred come back: the less of the two is left out of both.
        let mixed = [shelf(0, 300, 100), bought[0].clone()];
        let (small, small_each) = (15_000, 980);
        assert_eq!(
            told(&mixed, Some(0), 0),
            (
                vec![
                    (0, 15, small - 15 * small_each, Some(1), None),
                    (1, 35, whole - 35 * small_each, Some(4), Some((1, each - small_each))),
                ],
                20,
                small_each
            )
        );
        // If new leftovers are waste, only those of the shelf are worth anything.
        assert_eq!(
            told(&mixed, None, 0),
            (vec![(0, 15, small, Some(1), Some((1, small_each))), (1, 35, whole, Some(4), None)], 20, 0)
        );
    }
}
