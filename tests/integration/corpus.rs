//! Runs the fuzz targets over the kept texts and over random texts of the trade's words.
//!
//! The targets are in tests/fuzz/targets and shared with `scripts/fuzz`.

#[allow(unreachable_pub, reason = "they are public for the fuzz package, which is a crate of its own")]
#[path = "../fuzz/targets/mod.rs"]
mod targets;

use proptest::prelude::*;
use std::fs;
use std::path::Path;

type Target = fn(&str) -> bool;

const TARGETS: [(&str, Target); 6] = [
    ("tokens", targets::tokens::try_text),
    ("page", targets::page::try_text),
    ("prompt", targets::prompt::try_text),
    ("script", targets::script::try_text),
    ("order", targets::order::try_text),
    ("files", targets::files::try_text),
];

#[test]
fn kept_texts_still_hold() {
    for (name, try_text) in TARGETS {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus").join(name);
        let mut paths: Vec<_> = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        paths.sort();
        assert!((10..=60).contains(&paths.len()), "{} texts are kept for {name}", paths.len());
        for path in paths {
            let text = fs::read_to_string(&path).unwrap();
            assert!(text.len() <= 200, "{} has {} bytes", path.display(), text.len());
            println!("{}: {text:?}", path.display());
            assert!(try_text(&text), "{} is no text for {name}", path.display());
        }
    }
}

#[test]
fn texts_that_lead_outside_are_not_tried_at_the_prompt() {
    for text in ["save ../page", "  write a to /tmp/a.csv", "open a\\b", "run x\nread ../../orders.csv as o"] {
        assert!(!targets::prompt::try_text(text), "{text:?} was tried");
    }
}

/// Texts of fewer than twenty words, some of which are arbitrary characters.
fn text() -> impl Strategy<Value = String> {
    let words: Vec<String> = targets::words::words().into_iter().collect();
    assert!(words.len() > 250, "{} words", words.len());
    let word = prop_oneof![
        12 => proptest::sample::select(words),
        2 => "[a-c]",
        2 => Just(" = ".to_owned()),
        1 => "\\PC{1,3}",
        1 => any::<char>().prop_map(String::from),
    ];
    let between = prop_oneof![3 => Just(""), 3 => Just(" "), 1 => Just("\n")];
    proptest::collection::vec((word, between), 0..20)
        .prop_map(|parts| parts.into_iter().map(|(word, between)| word + between).collect())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    #[test]
    fn random_texts_are_cut_into_tokens(text in text()) {
        targets::tokens::try_text(&text);
    }

    #[test]
    fn random_lines_are_put_on_a_page(text in text()) {
        targets::page::try_text(&text);
    }
}

proptest! {
    // Each case starts the whole program.
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn random_lines_are_piped_into_the_program(text in text()) {
        targets::prompt::try_text(&text);
    }
}
