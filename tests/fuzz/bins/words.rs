//! Writes the fuzzer's dictionary and fuzzes nothing.
//!
//! It is built like the targets, so that the program is compiled once.
#![no_main]

use libfuzzer_sys::fuzz_target;

fn write_dictionary() {
    for word in targets::words::words() {
        let written: String = word.bytes().map(|byte| format!("\\x{byte:02x}")).collect();
        println!("\"{written}\"");
    }
    std::process::exit(0);
}

fuzz_target!(init: write_dictionary(), |_bytes: &[u8]| {});
