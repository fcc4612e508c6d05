//! Checks that each setting, option of `cut`, word of the recipe contract, verb and table column occurs in a test that
//! checks an answer, not only in a transcript, which the program wrote, or in a test of what goes wrong.
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
    let within = sources().filter_map(|(_, text)| text.split_once(TESTS_WITHIN).map(|(_, tests)| tests.to_owned()));
    let whole = texts.into_iter().chain(within).collect::<Vec<_>>().join("\n");
    // A text that goes on in the next line.
    whole.split("\\\n").map(str::trim_start).collect()
}

/// Where the tests within a source file begin.
const TESTS_WITHIN: &str = "#[cfg(test)]\nmod tests {";

/// The sources by their paths, files of tests left out.
fn sources() -> impl Iterator<Item = (String, String)> {
    let mut found = Vec::new();
    files(&root().join("src"), &mut found);
    let read = found.into_iter().filter_map(|path| {
        let name = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
        let is_rust = path.extension().is_some_and(|end| end == "rs");
        let is_code = is_rust && !name.ends_with("/tests.rs") && !name.contains("/tests/");
        is_code.then(|| (name, fs::read_to_string(&path).unwrap()))
    });
    read.collect::<Vec<_>>().into_iter()
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

#[test]
fn every_verb_is_in_a_test_that_checks_an_answer() {
    let tests = tests();
    // As the first word of a line that is typed.
    let is_typed = |name: &str| {
        ["\"", "\n", "\\n", "> "].iter().any(|before| {
            ["\"", " ", "\\n", "\n"].iter().any(|after| tests.contains(&format!("{before}{name}{after}")))
        })
    };
    let names: Vec<&str> = shirr::notebook::verbs::names().collect();
    assert!(names.len() > 20, "{names:?}");
    let missing: Vec<String> = names.into_iter().filter(|name| !is_typed(name)).map(str::to_owned).collect();
    all_are_asked(&missing);
}

/// The headings that a source file gives its columns: the first text of each call that makes one, and in the files of a
/// workshop the texts of constants.
fn headings(path: &str, text: &str) -> Vec<String> {
    let made = [
        ".text(",
        ".count(",
        ".number(",
        ".flag(",
        ".money(",
        ".mixed(",
        ".length(",
        ".whole_length(",
        ".whole_minutes(",
        ".area(",
        ".mass(",
        ".time(",
        ".quantity(",
        "Column::words(",
        "Column::count(",
        "Column::measure(",
    ];
    let code = text.split(TESTS_WITHIN).next().unwrap();
    let mut found = Vec::new();
    for call in made {
        for part in code.split(call).skip(1) {
            if let Some(heading) = part.strip_prefix('"').and_then(|rest| rest.split('"').next()) {
                found.push(heading.to_owned());
            }
        }
    }
    if path.starts_with("src/workshop/") {
        let named = code.lines().filter_map(|line| line.split_once(": &str = \"")?.1.strip_suffix("\";"));
        found.extend(named.filter(|name| name.starts_with(char::is_lowercase)).map(str::to_owned));
    }
    found
}

#[test]
fn every_column_of_a_table_is_in_a_test_that_checks_an_answer() {
    let tests = tests();
    let mut all: Vec<(String, String)> = sources()
        .filter(|(path, _)| !path.starts_with("src/terminal/"))
        .flat_map(|(path, text)| headings(&path, &text).into_iter().map(move |heading| (heading, path.clone())))
        .collect();
    all.sort();
    all.dedup_by(|one, other| one.0 == other.0);
    assert!(all.len() > 90, "{} columns", all.len());
    // As a text of its own, as a heading beside others, or as a column of a table on a page.
    let is_read = |heading: &str| {
        let name = heading.replace(' ', "_").replace(['(', ')'], "");
        let alone = ["\"", ",", "| ", "\n"].iter().any(|before| {
            ["\"", ",", " |", "\n", "\\n", " [", " ("]
                .iter()
                .any(|after| tests.contains(&format!("{before}{heading}{after}")))
        });
        alone || has(&tests, &format!(".{name}"))
    };
    all.retain(|(heading, _)| !is_read(heading));
    all_are_asked(&all.iter().map(|(heading, path)| format!("{heading} of {path}")).collect::<Vec<_>>());
}
