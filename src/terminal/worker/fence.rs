//! What the process that runs recipes may take of the machine: it fences itself in before it reads its first request.

use crate::engine::limits::cap_process_memory;
use std::process::Command;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

/// The exit code of a process that used up its processor time.
pub(super) const OVERTIME: i32 = 3;

/// Bytes that the process may use beyond those it starts with; a script's own limit is two thirds of it.
const MEMORY: usize = 96 << 20;

/// How often the processor time is looked at.
const LOOK: Duration = Duration::from_millis(20);

/// Keeps a process apart from this one before it starts: Ctrl-C at the terminal reaches this one alone.
pub(super) fn prepare(command: &mut Command) {
    #[cfg(unix)]
    {
        use std::os::unix::process::CommandExt;
        command.process_group(0).current_dir("/");
    }
    #[cfg(not(unix))]
    let _as_it_is = command;
}

/// Sets the limits of this process, for ever, and starts its clock.
pub(super) fn close() -> Clock {
    ask_the_system();
    cap_process_memory(MEMORY);
    let until = Arc::new(AtomicU64::new(IDLE));
    let watched = Arc::clone(&until);
    // Without a clock the limits on operations and memory hold still.
    let _begun = std::thread::Builder::new().name("clock".to_owned()).spawn(move || {
        loop {
            std::thread::sleep(LOOK);
            if used() > watched.load(Ordering::Relaxed) {
                std::process::exit(OVERTIME);
            }
        }
    });
    Clock { until }
}

/// No task is running.
const IDLE: u64 = u64::MAX;

/// Ends the process when a task takes too much of the processor's time.
pub(super) struct Clock {
    until: Arc<AtomicU64>,
}

/// A task that is running; the clock stops when this is dropped.
pub(super) struct RunningTask<'c>(&'c Clock);

impl Clock {
    /// One that ends nothing.
    #[cfg(test)]
    pub(super) fn still() -> Self {
        Self { until: Arc::new(AtomicU64::new(IDLE)) }
    }

    pub(super) fn run(&self, most: Duration) -> RunningTask<'_> {
        let most = u64::try_from(most.as_millis()).unwrap_or(IDLE);
        self.until.store(used().saturating_add(most), Ordering::Relaxed);
        RunningTask(self)
    }
}

impl Drop for RunningTask<'_> {
    fn drop(&mut self) {
        self.0.until.store(IDLE, Ordering::Relaxed);
    }
}

/// Milliseconds of processor time that this process has used on all its threads.
#[cfg(unix)]
fn used() -> u64 {
    use rustix::time::{ClockId, clock_gettime};
    let time = Duration::try_from(clock_gettime(ClockId::ProcessCPUTime)).unwrap_or_default();
    u64::try_from(time.as_millis()).unwrap_or(u64::MAX)
}

/// Milliseconds since the first call, where the processor's time is not to be had.
#[cfg(not(unix))]
fn used() -> u64 {
    use std::sync::OnceLock;
    use std::time::Instant;
    static BEGUN: OnceLock<Instant> = OnceLock::new();
    u64::try_from(BEGUN.get_or_init(Instant::now).elapsed().as_millis()).unwrap_or_default()
}

/// Asks the system to hold this process to its limits, whatever goes on inside it. A system that refuses one still has
/// the others, and those that the program counts itself.
#[cfg(unix)]
fn ask_the_system() {
    use rustix::process::{Resource, Rlimit, setrlimit};
    /// Bytes of address space: far more than the memory that the process may use, as threads and the allocator reserve
    /// what they never touch.
    const ADDRESS_SPACE: u64 = 512 << 20;
    let most = |most: u64| Rlimit { current: Some(most), maximum: Some(most) };
    // No core, and no byte in any file.
    for (resource, limit) in [(Resource::As, ADDRESS_SPACE), (Resource::Core, 0), (Resource::Fsize, 0)] {
        let _held = setrlimit(resource, most(limit));
    }
    #[cfg(target_os = "linux")]
    let _told = rustix::process::set_parent_process_death_signal(Some(rustix::process::Signal::KILL));
}

#[cfg(not(unix))]
fn ask_the_system() {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_clock_runs_while_a_task_does() {
        let clock = Clock::still();
        let before = used();
        let task = clock.run(Duration::from_secs(2));
        let until = clock.until.load(Ordering::Relaxed);
        assert!((before + 2_000..=used() + 2_000).contains(&until), "{before} {until}");
        drop(task);
        assert_eq!(clock.until.load(Ordering::Relaxed), IDLE);
    }
}
