//! Caches plans by their task, so that each is made once.
//!
//! A plan depends on its task alone, so a cached plan is never stale; the oldest are evicted to make room.

use super::error::CuttingError;
use super::plan::{Bought, CuttingPlan, PlanNote, StockUse};
use crate::cutting::task::manner::CuttingTask;
use crate::cutting::task::task_key;
use shirr_packing::{Progress, Watch};
use std::collections::BTreeMap;
use std::fmt;
use std::mem::size_of;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// The most bytes that keys and plans take together.
const MOST_BYTES: usize = 16 << 20;

/// Makes cutting plans and caches them by task. A clone shares the cache and the flag.
#[derive(Clone, Default)]
pub struct Planner {
    cache: Arc<Mutex<Cache>>,
    made: Arc<AtomicU64>,
    stop: Arc<AtomicBool>,
}

impl Planner {
    /// Creates a planner whose work stops when the flag is raised.
    pub fn new(stop: Arc<AtomicBool>) -> Self {
        Self { stop, ..Self::default() }
    }

    /// The flag that stops its work.
    pub fn stop(&self) -> &Arc<AtomicBool> {
        &self.stop
    }

    /// Number of plans computed so far, failed ones included; cached plans do not count again.
    pub fn made(&self) -> u64 {
        self.made.load(Ordering::Relaxed)
    }

    /// Returns the plan of a task, as [`plan`](super::plan()) makes it.
    ///
    /// # Errors
    /// As for [`plan`](super::plan()).
    pub fn plan(&self, task: &CuttingTask<'_>) -> Result<Arc<CuttingPlan>, CuttingError> {
        self.plan_watched(task, &|_| {})
    }

    /// Like [`Self::plan`]; calls `progress` with every better plan and bound during the search.
    ///
    /// # Errors
    /// As for [`plan`](super::plan()).
    pub fn plan_watched(
        &self,
        task: &CuttingTask<'_>,
        progress: &(dyn Fn(Progress) + Sync),
    ) -> Result<Arc<CuttingPlan>, CuttingError> {
        let key = task_key::key(task);
        // A raised flag means that no plan is wanted, not even a cached one.
        let kept = if self.stop.load(Ordering::Relaxed) { None } else { self.with_cache(|cache| cache.find(&key)) };
        if let Some(plan) = kept {
            return Ok(plan);
        }
        self.made.fetch_add(1, Ordering::Relaxed);
        let plan = Arc::new(super::plan(task, Watch { stop: &self.stop, progress })?);
        // A stopped plan is not the full answer to its task.
        if !plan.quality.stopped {
            self.with_cache(|cache| cache.keep(key, &plan));
        }
        Ok(plan)
    }

    /// Checks that [`Self::plan`] finds a plan for the task, without searching for a good one.
    ///
    /// # Errors
    /// As for [`plan`](super::plan()).
    pub fn check(&self, task: &CuttingTask<'_>) -> Result<(), CuttingError> {
        super::check_task(task, Watch::silent(&self.stop))
    }

    fn with_cache<T>(&self, act: impl FnOnce(&mut Cache) -> T) -> T {
        // The maps are consistent between calls, so a lock poisoned by another thread can still be used.
        act(&mut self.cache.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl fmt::Debug for Planner {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Planner").field("made", &self.made).field("stop", &self.stop).finish_non_exhaustive()
    }
}

struct Kept {
    bytes: usize,
    plan: Arc<CuttingPlan>,
}

struct Cache {
    plans: BTreeMap<Arc<[u8]>, Kept>,
    by_age: BTreeMap<u64, Arc<[u8]>>,
    next_age: u64,
    bytes: usize,
    most_bytes: usize,
}

impl Default for Cache {
    fn default() -> Self {
        Self { plans: BTreeMap::new(), by_age: BTreeMap::new(), next_age: 0, bytes: 0, most_bytes: MOST_BYTES }
    }
}

impl Cache {
    fn find(&self, key: &[u8]) -> Option<Arc<CuttingPlan>> {
        self.plans.get(key).map(|kept| Arc::clone(&kept.plan))
    }

    fn keep(&mut self, key: Vec<u8>, plan: &Arc<CuttingPlan>) {
        let key: Arc<[u8]> = key.into();
        let bytes = key.len() + bytes_of(plan);
        // An entry larger than the whole cache would only evict all others.
        if bytes > self.most_bytes || self.plans.contains_key(&key) {
            return;
        }
        self.by_age.insert(self.next_age, Arc::clone(&key));
        self.plans.insert(key, Kept { bytes, plan: Arc::clone(plan) });
        self.next_age += 1;
        self.bytes += bytes;
        while self.bytes > self.most_bytes {
            let Some((_, oldest)) = self.by_age.pop_first() else { break };
            self.bytes -= self.plans.remove(&oldest).map_or(0, |kept| kept.bytes);
        }
        debug_assert_eq!(self.plans.len(), self.by_age.len());
    }
}

/// Approximate memory of a plan, in bytes.
fn bytes_of(plan: &CuttingPlan) -> usize {
    /// Bytes of a map entry besides its text: the count and the share of the map's node.
    const COUNTED: usize = 64;
    let of_use = |used: &StockUse| {
        let texts = used.stock.len() + used.lot.as_ref().map_or(0, String::len);
        size_of::<StockUse>() + texts + size_of_val(used.cuts.as_slice()) + size_of_val(used.offcuts.as_slice())
    };
    let of_note = |note: &PlanNote| match note {
        PlanNote::RectangleRound { piece }
        | PlanNote::PlacedOpen { piece }
        | PlanNote::MatchedAlongOnly { piece }
        | PlanNote::PinDropped { piece } => piece.len(),
        PlanNote::LotsMixed { piece, lots } => piece.len() + lots.iter().map(|lot| COUNTED + lot.len()).sum::<usize>(),
        PlanNote::LotsApart { left } | PlanNote::WashedApart { left } => {
            left.iter().map(|left| COUNTED + left.len()).sum()
        }
        PlanNote::MarksFromPattern => 0,
    };
    let names = plan.pieces.keys().chain(plan.joins.keys());
    size_of::<CuttingPlan>()
        + plan.uses.iter().map(of_use).sum::<usize>()
        + plan.bought.iter().map(|bought| size_of::<Bought>() + bought.name.len()).sum::<usize>()
        + names.map(|name| COUNTED + name.len()).sum::<usize>()
        + plan.notes.iter().map(|note| size_of::<PlanNote>() + of_note(note)).sum::<usize>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::CuttingManner;
    use crate::piece::{CutPiece, Goods, Shape, Supply};
    use crate::quantity::Length;

    #[test]
    fn the_oldest_plans_give_way() {
        let goods = Goods::roll(Length::inches(6.0), Length::yards(25.0));
        let manner = CuttingManner::default();
        let of = |inches: u32| {
            let strip = Shape::FullWidth { along: Length::inches(f64::from(inches)) };
            let pieces = [CutPiece::new("strip", 100, strip)];
            let task =
                CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
            let plan = super::super::plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap();
            (task_key::key(&task), Arc::new(plan))
        };
        let (key, plan) = of(10);
        let one = key.len() + bytes_of(&plan);
        assert!(one > 100 * size_of::<crate::cutting::Cut>(), "{one}");
        let mut cache = Cache { most_bytes: 5 * one, ..Cache::default() };
        for inches in 4..40 {
            let (key, plan) = of(inches);
            cache.keep(key.clone(), &plan);
            cache.keep(key.clone(), &plan);
            assert_eq!(cache.find(&key), Some(plan));
            let bytes: usize = cache.plans.iter().map(|(key, kept)| key.len() + bytes_of(&kept.plan)).sum();
            assert_eq!(bytes, cache.bytes);
            assert!(cache.bytes <= cache.most_bytes && cache.plans.len() == cache.by_age.len());
        }
        assert!(cache.plans.len() > 2 && cache.find(&of(4).0).is_none() && cache.find(&of(38).0).is_some());
        // An entry larger than the whole cache is not kept and evicts nothing.
        let before = cache.plans.len();
        cache.most_bytes = 10;
        cache.keep(key, &plan);
        assert_eq!(cache.plans.len(), before);
    }

    /// By hand: every text by its letters, and 64 bytes beside each name that is counted.
    #[test]
    fn what_a_plan_takes() {
        let strip = CutPiece::new("strip", 3, Shape::FullWidth { along: Length::inches(5.0) });
        let (pieces, goods, manner) =
            ([strip], Goods::roll(Length::inches(6.0), Length::yards(25.0)), CuttingManner::default());
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        let plain = super::super::plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap();
        let cut = size_of::<crate::cutting::Cut>();
        let of_use = size_of::<StockUse>() + "new roll 1".len() + 3 * cut;
        let of_bought = size_of::<Bought>() + "roll".len();
        assert_eq!(bytes_of(&plain), size_of::<CuttingPlan>() + of_use + of_bought + 64 + "strip".len());
        let more = |change: &dyn Fn(&mut CuttingPlan)| {
            let mut plan = plain.clone();
            change(&mut plan);
            bytes_of(&plan) - bytes_of(&plain)
        };
        let note = |note: PlanNote| more(&|plan| plan.notes.push(note.clone())) - size_of::<PlanNote>();
        let piece = || "panel".to_owned();
        let list = || vec!["ab".to_owned(), "cde".to_owned()];
        for one in [
            PlanNote::RectangleRound { piece: piece() },
            PlanNote::PlacedOpen { piece: piece() },
            PlanNote::MatchedAlongOnly { piece: piece() },
            PlanNote::PinDropped { piece: piece() },
        ] {
            assert_eq!(note(one), 5);
        }
        assert_eq!(note(PlanNote::MarksFromPattern), 0);
        assert_eq!(note(PlanNote::LotsMixed { piece: piece(), lots: list() }), 5 + 2 * 64 + 5);
        assert_eq!(note(PlanNote::LotsApart { left: list() }), 2 * 64 + 5);
        assert_eq!(note(PlanNote::WashedApart { left: list() }), 2 * 64 + 5);
        assert_eq!(more(&|plan| plan.uses[0].lot = Some("K7".to_owned())), 2);
        let offcut = crate::cutting::Offcut {
            from: Length::ZERO,
            to: Length::ZERO,
            across_from: Length::ZERO,
            across_to: Length::ZERO,
        };
        assert_eq!(more(&|plan| plan.uses[0].offcuts = vec![offcut; 2]), 2 * size_of_val(&offcut));
        assert_eq!(more(&|plan| plan.joins.extend([("strips".to_owned(), 2)])), 64 + 6);
        assert_eq!(MOST_BYTES, 16 * 1_024 * 1_024);
    }

    /// By hand: room for two entries; the third lets the first go, and a fourth of twice the size both of the others.
    #[test]
    fn an_entry_that_just_fits_is_kept() {
        let goods = Goods::roll(Length::inches(6.0), Length::yards(25.0));
        let manner = CuttingManner::default();
        let pieces = [CutPiece::new("strip", 3, Shape::FullWidth { along: Length::inches(5.0) })];
        let task =
            CuttingTask { pieces: &pieces, goods: &goods, stock: &[], supply: &Supply::Endless, manner: &manner };
        let plan = Arc::new(super::super::plan(&task, Watch::silent(&AtomicBool::new(false))).unwrap());
        let one = 10 + bytes_of(&plan);
        let mut cache = Cache { most_bytes: 2 * one, ..Cache::default() };
        let kept = |cache: &Cache| (1..6).filter(|key| cache.find(&[*key; 10]).is_some()).collect::<Vec<u8>>();
        for (key, wanted) in [(1, &[1][..]), (2, &[1, 2]), (2, &[1, 2]), (3, &[2, 3])] {
            cache.keep(vec![key; 10], &plan);
            assert_eq!(kept(&cache), wanted);
        }
        // One that fills the cache alone, and one a byte larger.
        cache.keep(vec![9; 10 + one], &plan);
        assert!(kept(&cache).is_empty() && cache.find(&vec![9; 10 + one]).is_some() && cache.bytes == 2 * one);
        cache.keep(vec![8; 11 + one], &plan);
        assert!(cache.find(&vec![8; 11 + one]).is_none() && cache.find(&vec![9; 10 + one]).is_some());
    }
}
