//! Ctrl-C: stops what is being computed.

use crate::engine::limits::StopFlag;
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// Returns a flag that Ctrl-C sets. Only the first call of a process can listen.
pub(super) fn listen() -> StopFlag {
    let flag = StopFlag::default();
    let seen = Arc::clone(&flag);
    // A second listener in one process is refused; Ctrl-C then never sets its flag.
    let _listening = ctrlc::set_handler(move || {
        // A second press before the flag is cleared ends the program.
        if seen.swap(true, Ordering::SeqCst) {
            std::process::exit(130);
        }
    });
    flag
}
