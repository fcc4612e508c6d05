//! Fuzzes the target `order`.
#![no_main]

use libfuzzer_sys::{Corpus, fuzz_target};

fuzz_target!(|bytes: &[u8]| -> Corpus {
    let text = std::str::from_utf8(bytes).ok();
    if text.is_some_and(targets::order::try_text) { Corpus::Keep } else { Corpus::Reject }
});
