//! Ctrl-C: stops what is being computed.

use crate::engine::limits::StopFlag;
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// A flag that Ctrl-C sets while something is computed. Only the first call of a process can listen.
pub(super) fn listen() -> StopFlag {
    let flag = StopFlag::default();
    let seen = Arc::clone(&flag);
    // A second listener in one process is refused; then the flag is simply never set by a key.
    let _listening = ctrlc::set_handler(move || {
        // A second press while the first is not yet heeded ends the program.
        if seen.swap(true, Ordering::SeqCst) {
            std::process::exit(130);
        }
    });
    flag
}
