//! The planner: tries every way it knows to lay the pieces and keeps the best layout.
//!
//! Rows straight across by first fit come first, because they always give an answer and allow joins; then, depending on
//! the pieces, whole lengths, straight cuts, free placement, placement by outline. At equal cost the earlier, plainer
//! layout stays.
//!
//! Never here: the methods themselves, names, lots.

use crate::cutting::effort::Effort;
use crate::cutting::error::CuttingError;
use crate::cutting::nanometre::{length, likes};
use crate::cutting::place::item::{Folding, items};
use crate::cutting::place::layout::Layout;
use crate::cutting::place::on_cloth::{Bed, OnCloth};
use crate::cutting::place::{by_length, by_pattern, nested, on_cloth};
use crate::cutting::plan::{Aim, PlanQuality};
use crate::cutting::search::cost_model::CostModel;
use crate::cutting::search::{bound, lay, shelf_first};
use crate::cutting::task::demand::{Group, Measures};
use crate::cutting::task::manner::{CutsRun, CuttingTask, Laid};
use crate::cutting::task::source::Source;
use crate::quantity::number;
use shirr_packing::{Steps, Watch};

/// At most this many shelf lengths are tried alone for all pieces.
const MOST_ALONE: usize = 6;
/// The solvers get at most this many lengths of one source; larger lists are left to first fit.
const MOST_LENGTHS: i64 = 200;

/// The best layout found, and how good it is.
pub(in crate::cutting) struct Found {
    pub(in crate::cutting) layout: Layout,
    /// Lower bound on the length of any layout.
    pub(in crate::cutting) lower_bound: i64,
    pub(in crate::cutting) quality: PlanQuality,
}

/// The groups of pieces and the sources to plan.
pub(in crate::cutting) struct Scene<'a> {
    pub(in crate::cutting) task: &'a CuttingTask<'a>,
    pub(in crate::cutting) measures: Measures,
    pub(in crate::cutting) sources: &'a [Source],
    pub(in crate::cutting) groups: &'a [Group<'a>],
}

/// The state of the search.
struct PlanSearch<'a> {
    scene: &'a Scene<'a>,
    cost_model: CostModel,
    steps: Steps<'a>,
    seed: u64,
    best: Layout,
    cost: f64,
    /// No layout on the sources can be shorter, or (`least`) cost less.
    lower_bound: i64,
    least: f64,
}

/// Returns the best layout found within the effort.
pub(in crate::cutting) fn plan(scene: &Scene<'_>, effort: Effort, watch: Watch<'_>) -> Result<Found, CuttingError> {
    let folded = scene.task.manner.laid == Laid::Folded && scene.is_cloth();
    let (mut first, shortage) = if folded { (Layout::default(), None) } else { first_fit(scene, watch)? };
    let mut steps = Steps::new(effort.steps, watch);
    by_pattern::reorder(&mut first, scene.groups, scene.sources, scene.measures, &mut steps);
    let cost_model = CostModel::of(scene.sources, scene.measures, scene.task.manner);
    let loss = scene.measures.loss;
    let lower_bound = bound::lower_bound(scene.groups, scene.measures);
    let mut search = PlanSearch {
        scene,
        seed: effort.seed,
        steps,
        cost: if folded || shortage.is_some() { f64::INFINITY } else { cost_model.total(&first, scene.sources, loss) },
        least: cost_model.least(lower_bound, scene.sources),
        cost_model,
        best: first,
        lower_bound,
    };
    if scene.groups.is_empty() {
        search.cost = 0.0;
    } else if folded {
        search.on_cloth(true)?;
    } else if !search.is_done()
        && !search.by_pattern()
        && !search.by_length()
        && (scene.is_cloth() || shortage.is_none())
    {
        search.on_cloth(false).map_err(|error| shortage.clone().unwrap_or(error))?;
    }
    match shortage {
        Some(error) if !search.cost.is_finite() => Err(error),
        _ => Ok(search.finish()),
    }
}

/// Lays rows by first fit. If the stock is too short, returns an empty layout and why: a search may still find room.
pub(in crate::cutting) fn first_fit(
    scene: &Scene<'_>,
    watch: Watch<'_>,
) -> Result<(Layout, Option<CuttingError>), CuttingError> {
    let mut lay = lay::Lay::new(scene.sources, scene.measures, watch.stop);
    for group in scene.groups {
        match lay.place_all(group) {
            Err(error @ CuttingError::NotEnough { .. }) => return Ok((Layout::default(), Some(error))),
            placed => placed?,
        }
    }
    Ok((lay.finish(), None))
}

impl Scene<'_> {
    fn is_cloth(&self) -> bool {
        !self.task.goods.kind.takes_full_width()
    }

    /// Whether the solvers cover every way to cut the pieces: none could be joined instead, and no length could begin
    /// elsewhere on the pattern, which matters where widths start differently on it. Only then does a bound of theirs
    /// hold for every plan.
    fn is_settled(&self) -> bool {
        self.groups.iter().all(|group| {
            let starts_alike = self.task.goods.repeat.is_none_or(|repeat| repeat.is_straight());
            group.joining.is_none() && (starts_alike || !group.full_width || !group.start.is_on_pattern())
        })
    }
}

impl<'a> PlanSearch<'a> {
    fn is_done(&self) -> bool {
        self.cost <= self.least
    }

    /// Takes a layout that costs less than the best so far.
    fn offer(&mut self, mut layout: Layout) {
        let Scene { groups, sources, measures, .. } = self.scene;
        by_pattern::reorder(&mut layout, groups, sources, *measures, &mut self.steps);
        let cost = self.cost_model.total(&layout, self.scene.sources, self.scene.measures.loss);
        if cost < self.cost {
            (self.best, self.cost) = (layout, cost);
        }
    }

    /// Tries full widths on a pattern; returns whether the pieces are just that, and few enough for the best plan.
    fn by_pattern(&mut self) -> bool {
        let scene = self.scene;
        let Scene { groups, sources, measures, .. } = scene;
        let found = by_pattern::plan(groups, sources, *measures, &self.cost_model, &mut self.steps);
        let Some(found) = found else { return false };
        self.offer(found);
        self.least = self.cost;
        if let [source] = scene.sources
            && source.as_needed
        {
            self.lower_bound = self.lower_bound.max(self.best.laid());
        }
        true
    }

    /// Tries whole lengths; returns whether the pieces are a matter of length alone.
    fn by_length(&mut self) -> bool {
        let scene = self.scene;
        if let Some(layout) = shelf_first::plan(scene.groups, scene.sources, scene.measures, &self.cost_model) {
            self.cost = self.cost_model.total(&layout, scene.sources, scene.measures.loss);
            self.best = layout;
            if scene.is_settled() {
                self.least = self.cost;
            }
            return true;
        }
        let found =
            by_length::plan(scene.groups, scene.sources, scene.measures, &self.cost_model, self.seed, &mut self.steps);
        let Some(found) = found else { return false };
        let cost = self.cost_model.total(&found.layout, scene.sources, scene.measures.loss);
        // The solver's bound in the plan's own measure; its costs are rounded, so the best layout may cost a hair less.
        let least = cost * found.bound_ratio;
        self.offer(found.layout);
        if scene.is_settled() {
            self.least = self.least.max(if found.proved { self.cost.min(least) } else { least });
        }
        true
    }

    fn on_cloth(&mut self, folded: bool) -> Result<(), CuttingError> {
        let beds = self.beds(folded);
        for (done, lengths) in beds.iter().enumerate() {
            let share = self.steps.left() / u64::try_from(beds.len() - done).unwrap_or(1);
            self.on_beds(lengths, folded, share);
            if self.is_done() {
                break;
            }
        }
        // Try one new length less for as long as that is cheaper.
        while let Some(fewer) = self.without_one_new().filter(|_| !self.is_done()) {
            let before = self.cost;
            self.on_beds(&fewer, folded, self.steps.left() / 2);
            if self.cost >= before {
                break;
            }
        }
        if self.cost.is_finite() { Ok(()) } else { Err(self.no_room()) }
    }

    /// Tries every way of folding these lengths and of laying the pieces on them.
    fn on_beds(&mut self, lengths: &[(usize, &'a Source)], folded: bool, share: u64) {
        if !folded {
            return self.on_bed(lengths.to_vec(), Folding::Open, share);
        }
        // Pieces on the fold lie one behind the other, away from it side by side.
        self.on_bed(lengths.to_vec(), Folding::OnFold, share / 2);
        if self.scene.groups.iter().any(|group| group.piece.on_fold.is_some()) {
            self.on_bed(lengths.to_vec(), Folding::AwayFromFold, share / 2);
        }
    }

    /// Tries every way of laying the pieces on these lengths.
    fn on_bed(&mut self, lengths: Vec<(usize, &Source)>, folding: Folding, share: u64) {
        let folded = folding != Folding::Open;
        let bed = Bed { lengths, measures: self.scene.measures, folded };
        let sources: Vec<&Source> = bed.lengths.iter().map(|(_, source)| *source).collect();
        let Some(items) = items(self.scene.groups, &sources, folding) else { return };
        let outlines = !folded && self.scene.measures.loss == 0 && nested::has_outlines(self.scene.groups);
        let straight_only = self.scene.task.manner.cuts == CutsRun::Straight;
        let mut left = self.steps.apart(share);
        // If there are outlines, most of the steps are for them.
        let parts = match (straight_only, outlines) {
            (true, _) => 1,
            (false, true) => 10,
            (false, false) => 3,
        };
        let mut steps = left.apart(left.left() / parts);
        let rows = on_cloth::straight(&bed, &items, self.seed, &mut steps);
        // Free cuts may go below the bound of straight cuts; and what is cut twice at once can also be cut one by one.
        self.take(rows, &bed, straight_only && !folded);
        if straight_only || self.is_done() || !self.scene.is_cloth() {
            return;
        }
        let mut steps = left.apart(left.left() / if outlines { 9 } else { 1 });
        let free = on_cloth::free(&bed, &items, self.seed, &mut steps);
        self.take(free, &bed, !folded && !nested::has_outlines(self.scene.groups));
        if outlines && !self.is_done() {
            let may_reverse = !self.scene.task.goods.napped;
            let nested = nested::nested(&bed, self.scene.groups, may_reverse, self.seed, &mut left);
            self.take(nested, &bed, false);
        }
    }

    /// Takes a layout on cloth, and its bound if that holds for every plan.
    fn take(&mut self, found: Option<OnCloth>, bed: &Bed<'_>, bound_holds: bool) {
        let Some(found) = found else { return };
        let alone = self.scene.sources.len() == 1 && bed.lengths.len() == 1;
        let bound_holds = bound_holds && alone && self.scene.is_settled();
        if bound_holds && found.bound > self.lower_bound {
            self.lower_bound = found.bound;
            self.least = self.least.max(self.cost_model.least(found.bound, self.scene.sources));
        }
        let proved = bound_holds && found.proved;
        self.offer(found.layout);
        if proved {
            self.lower_bound = self.lower_bound.max(self.best.laid());
            self.least = self.least.max(self.cost);
        }
    }

    /// The lists of lengths to try, in order: each shelf length that may hold everything alone, the smallest first;
    /// then all lengths that first fit used, and cloth cut off as needed if there is any.
    fn beds(&self, folded: bool) -> Vec<Vec<(usize, &'a Source)>> {
        let sources = || self.scene.sources.iter().enumerate();
        let area = i128::from(self.lower_bound) * i128::from(self.scene.measures.width);
        let holds = |source: &Source| i128::from(source.length) * i128::from(source.width);
        let alone = sources().filter(|(_, source)| !source.as_needed && source.is_on_shelf() && holds(source) >= area);
        let mut alone: Vec<(usize, &Source)> = alone.collect();
        alone.sort_by_key(|(_, source)| holds(source));
        alone.truncate(MOST_ALONE);
        let mut beds: Vec<Vec<(usize, &Source)>> = alone.into_iter().map(|one| vec![one]).collect();
        let mut all: Vec<(usize, &Source)> = Vec::new();
        for (place, source) in sources() {
            let taken = number::from_size(self.best.cut_lengths.iter().filter(|one| one.source == place).count());
            let by_area = (area / holds(source).max(1)).saturating_mul(2).saturating_add(2);
            let wanted =
                if folded || !self.cost.is_finite() { i64::try_from(by_area).unwrap_or(i64::MAX) } else { taken };
            let wanted = if source.as_needed { 1 } else { wanted };
            let wanted = source.most.map_or(wanted, |most| wanted.min(most));
            all.extend(std::iter::repeat_n((place, source), number::count(wanted.min(MOST_LENGTHS)).unwrap_or(0)));
        }
        // Only the last length may be cut off as needed.
        let endless = all.iter().position(|(_, source)| source.as_needed);
        all.truncate(endless.map_or(all.len(), |place| place + 1));
        beds.push(all);
        beds
    }

    /// The lengths of the best layout without its last new one; `None` if it uses no new whole length.
    fn without_one_new(&self) -> Option<Vec<(usize, &'a Source)>> {
        let cut_lengths = self
            .best
            .cut_lengths
            .iter()
            .filter_map(|cut_length| Some((cut_length.source, self.scene.sources.get(cut_length.source)?)));
        let mut lengths: Vec<(usize, &Source)> = cut_lengths.collect();
        let last = lengths.iter().rposition(|(_, source)| !source.as_needed && !source.is_on_shelf())?;
        lengths.remove(last);
        (!lengths.is_empty()).then_some(lengths)
    }

    /// Why nothing was found on folded cloth.
    fn no_room(&self) -> CuttingError {
        let sources: Vec<&Source> = self.scene.sources.iter().collect();
        let half = sources.iter().map(|source| source.width / 2).max().unwrap_or(0);
        for group in self.scene.groups {
            let items = items(std::slice::from_ref(group), &sources, Folding::OnFold).unwrap_or_default();
            let narrowest = |item: &crate::cutting::place::item::Item| {
                if item.turned.is_some() { item.extent.across.min(item.extent.along) } else { item.extent.across }
            };
            if let Some(wide) = items.iter().find(|item| narrowest(item) > half) {
                return CuttingError::TooWide {
                    piece: group.piece.name.clone(),
                    across: length(narrowest(wide), likes(group.piece)),
                    usable: length(half, self.scene.measures.width_likes),
                    fits_turned: group.may_ask_to_turn && wide.extent.along <= half,
                };
            }
        }
        match self.scene.groups.first() {
            Some(group) => CuttingError::NotEnough {
                piece: group.piece.name.clone(),
                missing: number::from_size(group.numbers.len()),
            },
            None => CuttingError::Stopped,
        }
    }

    fn finish(self) -> Found {
        let laid = self.best.laid();
        let lower_bound = self.lower_bound.min(laid);
        // If no new length is bought whole, only length can be saved on cloth; on rolls, the price of those that have
        // one.
        let is_priced = |cut_length: &crate::cutting::place::layout::CutLength| {
            let priced = |source: &Source| source.price.is_some() && !self.scene.is_cloth();
            let source = self.scene.sources.get(cut_length.source);
            source.is_some_and(|source| !source.as_needed && (!source.is_on_shelf() || priced(source)))
        };
        let by_cost = self.best.cut_lengths.iter().any(is_priced);
        let (least, reached) =
            if by_cost { (self.least, self.cost) } else { (number::from_whole(lower_bound), number::from_whole(laid)) };
        let proved = least >= reached;
        let quality = PlanQuality {
            aim: if by_cost { Aim::Cost } else { Aim::Length },
            bound_ratio: if proved { 1.0 } else { least / reached },
            proved,
            stopped: self.steps.is_stopped(),
        };
        Found { layout: self.best, lower_bound, quality }
    }
}

#[cfg(test)]
mod tests;
