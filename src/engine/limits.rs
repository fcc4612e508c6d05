//! Limits on a script: operations, depth, sizes, memory; and the flag that stops it.
//!
//! Counted in operations, not in seconds: the same script stops at the same place on any machine.

use cap::Cap;
use rhai::{Dynamic, Engine};
use std::alloc::System;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// Counts what the whole program has allocated, so that a script's growth can be seen.
#[global_allocator]
static ALLOCATOR: Cap<System> = Cap::new(System, usize::MAX);

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
}

/// Set from outside to stop a running script.
pub type StopFlag = Arc<AtomicBool>;

/// Bytes allocated now by the whole program.
pub fn memory_in_use() -> usize {
    ALLOCATOR.allocated()
}

/// Ends this process once its memory grows by more than `bytes` from now on: for a child that runs one recipe.
pub fn cap_process_memory(bytes: usize) {
    // Refused only below the memory in use already; the check inside the engine still holds then.
    let _refused = ALLOCATOR.set_limit(memory_in_use().saturating_add(bytes));
}

/// Sets limits on an engine. At the start of each run the caller stores the memory in use in the returned gauge.
pub fn apply(engine: &mut Engine, limits: Limits, stop: StopFlag) -> Arc<AtomicUsize> {
    engine
        .set_max_operations(limits.operations)
        .set_max_call_levels(32)
        .set_max_expr_depths(64, 32)
        .set_max_variables(500)
        .set_max_functions(200)
        .set_max_modules(16)
        // One operation may copy a whole list or group, so their sizes bound its cost too.
        .set_max_string_size(100_000)
        .set_max_array_size(5_000)
        .set_max_map_size(2_000);
    let at_start = Arc::new(AtomicUsize::new(usize::MAX));
    let gauge = Arc::clone(&at_start);
    engine.on_progress(move |_| {
        if stop.load(Ordering::Relaxed) {
            return Some(Dynamic::from(Stopped::ByUser));
        }
        let grown = memory_in_use().saturating_sub(gauge.load(Ordering::Relaxed));
        (grown > limits.memory).then(|| Dynamic::from(Stopped::Memory))
    });
    at_start
}
