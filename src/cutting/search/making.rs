//! Makes a plan of a task: pinned cuts stay, lots are kept apart, the planner does the rest.
//!
//! Never here: laying pieces, judging the plan.

use crate::cutting::effort::Effort;
use crate::cutting::error::CuttingError;
use crate::cutting::place::assemble::assemble;
use crate::cutting::place::layout::Layout;
use crate::cutting::plan::{Aim, CuttingPlan, PlanNote, PlanQuality};
use crate::cutting::search::bound;
use crate::cutting::search::cost_model::CostModel;
use crate::cutting::search::planner::{self, Found, Scene};
use crate::cutting::task::demand::{Demand, Group, Measures};
use crate::cutting::task::lots::{self, Garment, Lot};
use crate::cutting::task::manner::{CuttingTask, Laid};
use crate::cutting::task::pins::Pins;
use crate::cutting::task::source::{self, Source};
use crate::quantity::number;
use shirr_packing::Watch;

/// The most pieces that are laid to find out which garments a lot of the shelf holds, and how often that is tried; beyond
/// it a lot holds no more.
const MOST_TRIED_PIECES: usize = 2_000_000;
const MOST_TRIES: usize = 2_000;

/// A checked task and its goods in whole nanometres.
struct PlanContext<'a> {
    task: &'a CuttingTask<'a>,
    measures: Measures,
    demand: Demand<'a>,
    watch: Watch<'a>,
}

/// Makes a plan, not yet judged. If `pinned` is false, pinned cuts are dropped.
pub(in crate::cutting) fn make(
    task: &CuttingTask<'_>,
    watch: Watch<'_>,
    pinned: bool,
) -> Result<CuttingPlan, CuttingError> {
    let measures = Measures::of(task)?;
    let demand = Demand::of(task, measures)?;
    let all_sources = source::sources(task, measures, &demand)?;
    let context = PlanContext { task, measures, demand, watch };
    let every = |entry: usize| (1..=task.pieces.get(entry).map_or(0, |piece| piece.count)).collect();
    let groups = context.groups(&all_sources, &every);
    let pins = if pinned { Pins::of(task, &all_sources, &groups) } else { Pins::none_of(task) };
    let sources = pins.rest_of(&all_sources, measures);
    let open = |entry: usize| {
        let placed = pins.placed.get(&entry);
        every(entry).into_iter().filter(|number| placed.is_none_or(|placed| !placed.contains(number))).collect()
    };
    let (mut found, one_lot) = context.by_lots(&sources, &open)?;
    if !pins.fixed.is_empty() {
        found = context.with_pins(found, &pins, &groups, &all_sources);
    }
    let mut plan = assemble(&found.layout, &all_sources, task, measures, found.lower_bound, found.quality);
    plan.notes.extend(lots::kept_apart(&all_sources, &groups, &found.layout, one_lot));
    plan.notes.extend(pins.dropped.into_iter().map(|piece| PlanNote::PinDropped { piece }));
    Ok(plan)
}

/// Whether first fit alone lays all pieces on all lengths available; if so, [`make`] has a plan too. Always false with
/// pinned cuts and on folded cloth.
pub(in crate::cutting) fn first_fit(task: &CuttingTask<'_>, watch: Watch<'_>) -> Result<bool, CuttingError> {
    if !task.manner.pinned.is_empty() || task.manner.laid == Laid::Folded {
        return Ok(false);
    }
    let measures = Measures::of(task)?;
    let demand = Demand::of(task, measures)?;
    let all_sources = source::sources(task, measures, &demand)?;
    let context = PlanContext { task, measures, demand, watch };
    let every = |entry: usize| (1..=task.pieces.get(entry).map_or(0, |piece| piece.count)).collect();
    // Unwashed and washed lengths together may lay what neither does alone.
    let partly = lots::are_partly_washed(&all_sources);
    let is_there = |source: &&Source| source.most != Some(0) && source.length > 0 && !(partly && source.washed);
    let sources: Vec<Source> = all_sources.iter().filter(is_there).cloned().collect();
    let groups = context.groups(&sources, &every);
    let scene = Scene { task, measures, sources: &sources, groups: &groups };
    Ok(planner::first_fit(&scene, watch)?.1.is_none())
}

impl<'a> PlanContext<'a> {
    fn groups(&self, sources: &[Source], numbers: &dyn Fn(usize) -> Vec<i64>) -> Vec<Group<'a>> {
        self.demand.groups(sources.iter().map(|source| source.length).max().unwrap_or(0), numbers)
    }

    /// Whether a length holds at least one piece.
    fn fits(&self, source: &Source) -> bool {
        self.demand.fits(source.length, source.width)
    }

    /// Plans some pieces on the lengths that `wanted` accepts.
    fn plan(
        &self,
        sources: &[Source],
        wanted: impl Fn(&Source) -> bool,
        numbers: &dyn Fn(usize) -> Vec<i64>,
        effort: Effort,
    ) -> Result<Found, CuttingError> {
        // If none of them holds a piece, all are tried, so that the error says why.
        let none = !sources.iter().any(|source| wanted(source) && self.fits(source));
        let useful = |source: &Source| none || self.fits(source);
        let (places, some): (Vec<usize>, Vec<Source>) = sources
            .iter()
            .enumerate()
            .filter(|(_, source)| wanted(source) && source.most != Some(0) && source.length > 0 && useful(source))
            .map(|(at, source)| (at, source.clone()))
            .unzip();
        let groups = self.groups(&some, numbers);
        let scene = Scene { task: self.task, measures: self.measures, sources: &some, groups: &groups };
        let mut found = planner::plan(&scene, effort, self.watch)?;
        for cut_length in &mut found.layout.cut_lengths {
            cut_length.source = places.get(cut_length.source).copied().unwrap_or(cut_length.source);
        }
        Ok(found)
    }

    /// Plans all open pieces, each garment from one lot if possible, and returns whether it was.
    fn by_lots(&self, sources: &[Source], open: &dyn Fn(usize) -> Vec<i64>) -> Result<(Found, bool), CuttingError> {
        let effort = self.task.manner.effort;
        // A length that holds no piece at all has no say in which lot is cut.
        let useful: Vec<Source> = sources.iter().filter(|source| self.fits(source)).cloned().collect();
        let lots = lots::lots(&useful);
        let cost_model = CostModel::of(sources, self.measures, self.task.manner);
        let needed = bound::covered(&self.groups(sources, open), self.measures);
        let is_large =
            |lot: &&Lot| !lot.is_bought() && is_area_there(sources.iter().filter(|source| lot.holds(source)), needed);
        let large: Vec<&Lot> = lots.iter().filter(is_large).collect();
        let each = shared(effort, large.len());
        let mut best: Option<(f64, Found)> = None;
        for lot in large {
            match self.plan(sources, |source| lot.holds(source), open, each) {
                Err(CuttingError::Stopped) => return Err(CuttingError::Stopped),
                // This lot is too small; the next may be large enough.
                Err(_) => {}
                Ok(found) => {
                    let cost = cost_model.total(&found.layout, sources, self.measures.loss);
                    if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                        best = Some((cost, found));
                    }
                }
            }
        }
        if let Some((_, found)) = best {
            return Ok((self.rated(found, &self.groups(sources, open), sources), true));
        }
        if !lots.is_empty()
            && let Some(found) = self.shared_out(sources, &lots, open)?
        {
            return Ok((found, true));
        }
        // Lots are mixed; what is washed and what is not never is.
        if lots::are_partly_washed(sources) {
            let unwashed = |source: &Source| !source.washed;
            let found = match self.off_the_shelf(sources, unwashed, open)? {
                Some(found) => Ok(found),
                None => self.plan(sources, unwashed, open, effort),
            };
            return match found {
                Ok(found) => Ok((self.rated(found, &self.groups(sources, open), sources), false)),
                Err(CuttingError::Stopped) => Err(CuttingError::Stopped),
                Err(error) => match self.plan(sources, |source| source.washed, open, effort) {
                    Ok(found) => Ok((self.rated(found, &self.groups(sources, open), sources), false)),
                    Err(CuttingError::Stopped) => Err(CuttingError::Stopped),
                    Err(_) => Err(self.not_of_both(error, sources, open)),
                },
            };
        }
        if let Some(found) = self.off_the_shelf(sources, |_| true, open)? {
            return Ok((found, false));
        }
        self.plan(sources, |_| true, open, effort).map(|found| (found, false))
    }

    /// Why neither the washed nor the unwashed goods hold all open pieces: `error`, unless both together hold them.
    fn not_of_both(&self, error: CuttingError, sources: &[Source], open: &dyn Fn(usize) -> Vec<i64>) -> CuttingError {
        let quick = Effort { steps: 0, ..self.task.manner.effort };
        match error {
            CuttingError::NotEnough { piece, missing } if self.plan(sources, |_| true, open, quick).is_ok() => {
                CuttingError::NotOfBoth { piece, missing }
            }
            other => other,
        }
    }

    /// Plans all open pieces on the lengths of the shelf that `wanted` accepts; `None` if those hold them only with more
    /// joins than new goods take, or not at all.
    fn off_the_shelf(
        &self,
        sources: &[Source],
        wanted: impl Fn(&Source) -> bool,
        open: &dyn Fn(usize) -> Vec<i64>,
    ) -> Result<Option<Found>, CuttingError> {
        let is_there = |source: &Source| source.is_on_shelf() && wanted(source);
        if sources.iter().all(Source::is_on_shelf) {
            return Ok(None);
        }
        let groups = self.groups(sources, open);
        let needed = bound::covered(&groups, self.measures);
        if !is_area_there(sources.iter().filter(|source| is_there(source)), needed) {
            return Ok(None);
        }
        match self.plan(sources, is_there, open, self.task.manner.effort) {
            Err(CuttingError::Stopped) => Err(CuttingError::Stopped),
            Err(_) => Ok(None),
            Ok(found) => {
                let mut placed = found.layout.cut_lengths.iter().flat_map(|cut_length| &cut_length.placed);
                let is_joined_only_here = placed.any(|placed| {
                    let group = groups.iter().find(|group| group.entry == placed.entry);
                    placed.part.is_some() && group.is_some_and(|group| lots::is_held_whole(sources, group))
                });
                Ok((!is_joined_only_here).then(|| self.rated(found, &groups, sources)))
            }
        }
    }

    /// Shares the garments out to the lots; `None` if some of them find no place.
    fn shared_out(
        &self,
        sources: &[Source],
        lots: &[Lot],
        open: &dyn Fn(usize) -> Vec<i64>,
    ) -> Result<Option<Found>, CuttingError> {
        let garments = lots::garments(self.task.pieces, open);
        let on_lot = |lot: &Lot, some: &[&Garment], effort| {
            let numbers = lots::together(some);
            let numbers_of = |entry: usize| numbers.numbers(entry);
            self.plan(sources, |source| lot.holds(source), &numbers_of, effort)
        };
        // First fit decides what a lot holds; the full search then lays it.
        let quick = Effort { steps: 0, ..self.task.manner.effort };
        let (mut pieces, mut tries) = (0_usize, 0_usize);
        let mut holds = |lot: &Lot, some: &[&Garment]| {
            pieces = pieces.saturating_add(some.iter().map(|garment| garment.pieces()).sum());
            tries += 1;
            if !lot.is_bought() && (pieces > MOST_TRIED_PIECES || tries > MOST_TRIES) {
                return Ok(false);
            }
            match on_lot(lot, some, quick) {
                Ok(_) => Ok(true),
                Err(CuttingError::Stopped) => Err(CuttingError::Stopped),
                Err(_) => Ok(false),
            }
        };
        let size = |garment: &Garment| {
            let numbers_of = |entry: usize| garment.numbers(entry);
            bound::lower_bound(&self.groups(sources, &numbers_of), self.measures)
        };
        let shares = lots::share_out(lots, &garments, &size, &mut holds)?;
        let Some(shares) = shares else { return Ok(None) };
        let each = shared(self.task.manner.effort, shares.len());
        let laid = |(lot, some): &(&Lot, Vec<&Garment>)| {
            let numbers = lots::together(some);
            let on_shelf = self.off_the_shelf(sources, |source| lot.holds(source), &|entry| numbers.numbers(entry))?;
            on_shelf.map_or_else(|| on_lot(lot, some, each), Ok)
        };
        let shares: Vec<Found> = shares.iter().map(laid).collect::<Result<_, _>>()?;
        let stopped = shares.iter().any(|share| share.quality.stopped);
        let aim = shares.iter().map(|share| share.quality.aim).find(|aim| *aim == Aim::Cost).unwrap_or(Aim::Length);
        // One share laid by rectangles makes the whole layout one.
        let by_outline = shares.iter().all(|share| share.layout.by_outline);
        let cut_lengths = shares.into_iter().flat_map(|share| share.layout.cut_lengths).collect();
        let layout = Layout { cut_lengths, by_outline };
        let quality = PlanQuality { aim, bound_ratio: 0.0, proved: false, stopped };
        let found = Found { layout, lower_bound: 0, quality };
        Ok(Some(self.rated(found, &self.groups(sources, open), sources)))
    }

    /// Joins the rest to the pinned cuts and rates the whole.
    fn with_pins(&self, found: Found, pins: &Pins, groups: &[Group<'_>], sources: &[Source]) -> Found {
        let layout = pins.joined_to(found.layout, sources.len(), self.measures);
        self.rated(Found { layout, ..found }, groups, sources)
    }

    /// Rates a layout among all on these sources: what was proved on some of the sources, or for some of the pieces,
    /// does not hold for all.
    fn rated(&self, found: Found, groups: &[Group<'_>], sources: &[Source]) -> Found {
        let laid = found.layout.laid();
        let lower_bound = bound::lower_bound(groups, self.measures).min(laid);
        let cost_model = CostModel::of(sources, self.measures, self.task.manner);
        let (reached, least) = match found.quality.aim {
            Aim::Length => (number::from_whole(laid), number::from_whole(lower_bound)),
            Aim::Cost => {
                (cost_model.total(&found.layout, sources, self.measures.loss), cost_model.least(lower_bound, sources))
            }
        };
        let proved = least >= reached;
        let bound_ratio = if proved { 1.0 } else { least / reached };
        Found { lower_bound, quality: PlanQuality { bound_ratio, proved, ..found.quality }, ..found }
    }
}

/// The effort of each of so many plans: all of it for two at the most, beyond that a part.
fn shared(effort: Effort, among: usize) -> Effort {
    let plans = u64::try_from(among).unwrap_or(u64::MAX).max(2);
    Effort { steps: effort.steps.saturating_mul(2) / plans, ..effort }
}

/// Whether these lengths of the shelf together have an area. A nanometre more or less on each side of a piece is no reason
/// to buy.
fn is_area_there<'s>(lengths: impl Iterator<Item = &'s Source>, needed: i128) -> bool {
    let area = |source: &Source| {
        let each = i128::from(source.length) * i128::from(source.width);
        each.saturating_mul(i128::from(source.most.unwrap_or(0)))
    };
    lengths.map(area).fold(0, i128::saturating_add) >= needed / 1_000_000 * 999_999
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::tests::scene::shelf;

    #[test]
    fn two_plans_at_the_most_take_all_the_effort_each() {
        let effort = Effort { steps: 1_000, seed: 7 };
        for (among, steps) in [(0, 1_000), (1, 1_000), (2, 1_000), (3, 666), (4, 500), (40, 50)] {
            assert_eq!(shared(effort, among), Effort { steps, seed: 7 }, "{among}");
        }
        assert_eq!(shared(Effort::of(u64::MAX), 2).steps, u64::MAX / 2);
    }

    /// Three of 2 000 by 5 000 and one of 1 000 by 9 999: 39 999 000 of area, so of 40 000 000 a millionth more than there
    /// is.
    #[test]
    fn a_hair_of_area_is_no_reason_to_buy() {
        let lengths = [Source { most: Some(3), ..shelf(0, 2_000, 5_000) }, shelf(1, 1_000, 9_999)];
        let is_there = |needed| is_area_there(lengths.iter(), needed);
        assert!(is_there(39_000_000) && is_there(39_999_999) && !is_there(41_000_000));
        // 40 is what is there but for its millionth part: 39 999 960.
        assert!(!is_there(40_000_000));
        let enough = [shelf(0, 39_999_960, 1)];
        assert!(is_area_there(enough.iter(), 40_000_000));
        assert!(!is_area_there([shelf(0, 39_999_959, 1)].iter(), 40_000_000));
        // New goods are on no shelf, however many there are.
        assert!(!is_area_there([Source { most: None, ..shelf(0, 9_000, 9_000) }].iter(), 1_000_000));
        assert!(is_area_there(std::iter::empty(), 0));
    }
}
