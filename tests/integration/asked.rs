//! Checks that each setting, each option of `cut` and each word of the recipe contract occurs in a test that checks an
//! answer, not only in a transcript, which the program wrote, or in a test of what goes wrong.
//!
//! A recipe that is shipped counts as such a test: its examples and ledgers are worked out by hand.

use shirr::recipe::contract::words::WORDS;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { files(&path, found) } else { found.push(path) }
    }
}

/// The tests that check answers, as one text.
fn tests() -> String {
    let mut found = Vec::new();
    for folder in ["tests/integration", "tests/ledgers", "src", "recipes"] {
        files(&root().join(folder), &mut found);
    }
    let is_test = |path: &PathBuf| {
        let name = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
        let in_source = name.starts_with("src/") && (name.ends_with("/tests.rs") || name.contains("/tests/"));
        let recipe = name.starts_with("recipes/") && path.extension().is_some_and(|end| end == "rhai");
        let ends_badly =
            ["hostile.rs", "open_recipes.rs", "asked.rs", "corpus.rs"].iter().any(|end| name.ends_with(end));
        (in_source || recipe || name.starts_with("tests/")) && !ends_badly
    };
    let texts: Vec<String> =
        found.iter().filter(|path| is_test(path)).map(|path| fs::read_to_string(path).unwrap()).collect();
    assert!(texts.len() > 150, "{} files", texts.len());
    texts.join("\n")
}

/// Whether it stands there as a word of its own: no letter before it that would make it another.
fn has(text: &str, wanted: &str) -> bool {
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    text.match_indices(wanted).any(|(at, _)| {
        let before = text[..at].chars().next_back().is_some_and(is_word);
        let after = text[at + wanted.len()..].chars().next().is_some_and(is_word);
        !(before && wanted.starts_with(is_word) || after && wanted.ends_with(is_word))
    })
}

/// The part of a source file between two texts.
fn part(path: &str, from: &str, to: &str) -> String {
    let text = fs::read_to_string(root().join(path)).unwrap();
    let rest = text.split_once(from).unwrap_or_else(|| panic!("{path} has no {from}")).1;
    rest.split_once(to).unwrap().0.to_owned()
}

#[track_caller]
fn all_are_asked(missing: &[String]) {
    assert!(missing.is_empty(), "in no test that checks an answer: {missing:?}");
}

#[test]
fn every_word_of_a_recipe_is_in_a_test_that_checks_an_answer() {
    let tests = tests();
    let mut missing = Vec::new();
    for word in WORDS.iter() {
        let wanted = match word.of {
            "inputs" => format!("{}(\"", word.name),
            "unnamed" => format!("{}(", word.name),
            of @ ("order" | "plan" | "ticket") => format!("{of}.{}", word.name),
            _ => format!(".{}", word.name),
        };
        if !has(&tests, &wanted) {
            missing.push(format!("{} {wanted}", word.of));
        }
    }
    assert!(WORDS.len() > 60);
    all_are_asked(&missing);
}

#[test]
fn every_option_of_cut_is_in_a_test_that_checks_an_answer() {
    let tests = tests();
    let fields = part("src/terminal/arguments.rs", "pub(super) struct CutOrder {", "\n}");
    let mut options = Vec::new();
    for (line, next) in fields.lines().zip(fields.lines().skip(1)) {
        if line.trim().starts_with("#[arg(long") {
            let name = next.trim().trim_start_matches("pub(super) ").split(':').next().unwrap();
            options.push(format!("--{}", name.replace('_', "-")));
        }
    }
    assert_eq!(options.len(), 11, "{options:?}");
    options.retain(|option| !has(&tests, &format!("\"{option}\"")));
    all_are_asked(&options);
}

#[test]
fn every_setting_is_in_a_test_that_checks_an_answer() {
    let tests = tests();
    let table = part("src/workshop/settings.rs", "const SETTINGS: [(&str, Setting);", "\n];");
    let names = table.lines().filter_map(|line| line.trim().strip_prefix("(\"")?.split('"').next());
    let mut names: Vec<String> = names.map(str::to_owned).collect();
    assert_eq!(names.len(), 9, "{names:?}");
    // As a line of settings.csv, in a file or within a text.
    let is_set = |name: &String| {
        [",", ";"]
            .iter()
            .any(|comma| ["\n", "\\n", "\""].iter().any(|before| tests.contains(&format!("{before}{name}{comma}"))))
    };
    names.retain(|name| !is_set(name));
    all_are_asked(&names);
}
