//! Limits on a script: operations, depth, sizes, memory; and the flag that stops it.
//!
//! Counted in operations, not in seconds: the same script stops at the same place on any machine. The script engine
//! begins a new count in every function that is handed to `map`, `sort` and the like, so the count here is our own. In
//! a process that runs one script at a time, what is allocated counts as operations too: one operation of the engine
//! may copy a whole list.

use cap::Cap;
use rhai::{Dynamic, Engine};
use std::alloc::System;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};

/// Counts what the whole program has allocated, so that a script's growth can be seen.
#[global_allocator]
static ALLOCATOR: Cap<System> = Cap::new(System, usize::MAX);

/// Whether what is allocated counts as operations.
static CHARGES_COPIES: AtomicBool = AtomicBool::new(false);

/// Bytes allocated that count as one operation.
const BYTES_AN_OPERATION: usize = 128;

/// The limits of one kind of script.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Operations of one run.
    pub operations: u64,
    /// Bytes by which memory may grow in one run.
    pub memory: usize,
}

impl Limits {
    /// For a line at the prompt.
    pub const CELL: Self = Self { operations: 1_000_000, memory: 64 << 20 };
    /// For a recipe: part of a second, and hundreds of times what the longest shipped one needs.
    pub const RECIPE: Self = Self { operations: 2_000_000, memory: 64 << 20 };
}

/// Why a script was stopped before its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stopped {
    /// The user stopped it.
    ByUser,
    /// It used too much memory.
    Memory,
    /// It went on for too long.
    Operations,
}

/// Set from outside to stop a running script.
pub type StopFlag = Arc<AtomicBool>;

/// Bytes allocated now by the whole program.
pub fn memory_in_use() -> usize {
    ALLOCATOR.allocated()
}

/// Ends this process once its memory grows by more than `bytes` from now on, and counts what scripts allocate as
/// operations: for a process that runs one script at a time and nothing else.
pub fn cap_process_memory(bytes: usize) {
    CHARGES_COPIES.store(true, Ordering::Relaxed);
    // Refused only below the memory in use already; the check inside the engine still holds then.
    let _refused = ALLOCATOR.set_limit(memory_in_use().saturating_add(bytes));
}

/// What a run has used so far. Shared by the engine's progress callback and by functions that charge for what they do.
#[derive(Clone, Debug, Default)]
pub struct Meter(Arc<Used>);

#[derive(Debug, Default)]
struct Used {
    operations: AtomicU64,
    memory_at_start: AtomicUsize,
    /// Bytes allocated since the process began, when last looked.
    allocated: AtomicUsize,
}

impl Meter {
    /// Begins a run.
    pub fn begin(&self) {
        self.0.operations.store(0, Ordering::Relaxed);
        self.0.memory_at_start.store(memory_in_use(), Ordering::Relaxed);
        self.0.allocated.store(ALLOCATOR.total_allocated(), Ordering::Relaxed);
    }

    /// Counts operations; returns how many there are now. The next operation of the script finds that there are too
    /// many.
    pub fn charge(&self, operations: u64) -> u64 {
        self.0.operations.fetch_add(operations, Ordering::Relaxed).saturating_add(operations)
    }

    /// One more operation of the script, with what was allocated since the last one.
    fn step(&self, limits: Limits) -> Option<Stopped> {
        let mut operations = 1;
        if CHARGES_COPIES.load(Ordering::Relaxed) {
            let now = ALLOCATOR.total_allocated();
            let since = now.saturating_sub(self.0.allocated.swap(now, Ordering::Relaxed));
            operations += u64::try_from(since / BYTES_AN_OPERATION).unwrap_or(u64::MAX);
        }
        if self.charge(operations) > limits.operations {
            return Some(Stopped::Operations);
        }
        let grown = memory_in_use().saturating_sub(self.0.memory_at_start.load(Ordering::Relaxed));
        (grown > limits.memory).then_some(Stopped::Memory)
    }
}

/// Sets limits on an engine. The caller begins each run on the meter that is returned.
pub fn apply(engine: &mut Engine, limits: Limits, stop: StopFlag) -> Meter {
    engine
        // Counted here, since the engine forgets what functions handed to `map` and the like have done.
        .set_max_operations(0)
        .set_max_call_levels(32)
        .set_max_expr_depths(64, 32)
        .set_max_variables(500)
        .set_max_functions(200)
        .set_max_modules(16)
        // One operation may copy a whole list or group, so their sizes bound its cost too.
        .set_max_string_size(100_000)
        .set_max_array_size(5_000)
        .set_max_map_size(2_000);
    let meter = Meter::default();
    let of_run = meter.clone();
    engine.on_progress(move |_| {
        if stop.load(Ordering::Relaxed) {
            return Some(Dynamic::from(Stopped::ByUser));
        }
        of_run.step(limits).map(Dynamic::from)
    });
    meter
}

#[cfg(test)]
mod tests;
