//! The manual is tested: its sessions come out, its recipe passes, its lists are current, its paths exist.
//!
//! `UPDATE_README=1` rewrites the lists between their markers; the run that rewrote still fails.

use crate::sessions::{desk, replay};
use shirr::engine::limits::StopFlag;
use shirr::engine::{Member, help};
use shirr::notebook::verbs;
use shirr::recipe::run::answer_in;
use shirr::recipe::{RecipeText, Reply, Task, library, words};
use shirr::workshop::Workshop;
use std::fs;
use std::path::Path;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn read(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap()
}

/// The fenced blocks of a language.
fn blocks(text: &str, language: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut inside: Option<Vec<&str>> = None;
    for line in text.lines() {
        match &mut inside {
            None if line == format!("```{language}") => inside = Some(Vec::new()),
            Some(block) if line == "```" => {
                found.push(block.join("\n") + "\n");
                inside = None;
            }
            Some(block) => block.push(line),
            None => {}
        }
    }
    found
}

#[test]
fn every_session_comes_out_as_printed() {
    let mut seen = 0;
    for name in ["README.md", "DEVELOPERS.md"] {
        for block in blocks(&read(name), "text") {
            let here = desk("manual");
            // A page that ends with a fault has an exit code that a person at the prompt does not see.
            let shown = replay(&block, here.path());
            let shown = if block.contains("[exit") { shown } else { shown.replace("[exit 1]\n", "") };
            assert_eq!(shown, block, "{name}");
            seen += 1;
        }
    }
    assert!(seen >= 3, "{seen} sessions");
}

#[test]
fn the_recipe_in_the_manual_passes_its_check() {
    let recipes = blocks(&read("README.md"), "rhai");
    assert!(!recipes.is_empty());
    for text in recipes {
        let recipe = RecipeText { name: "pouch".to_owned(), text, helpers: library::shipped_helpers() };
        match answer_in(&recipe, &Workshop::default(), false, &Task::Check, StopFlag::default()) {
            Reply::Checked(report) => assert!(report.passed(), "{:?}", report.findings),
            other => panic!("{other:?}"),
        }
    }
}

fn word_list() -> String {
    let kinds = [
        ("inputs", "Inputs, in `fn inputs()`"),
        ("input", "After an input"),
        ("unnamed", "Goods that the workshop does not list"),
        ("order", "`order`"),
        ("gathers", "How something gathers"),
        ("cloth or notion", "A cloth or a notion"),
        ("ticket", "`ticket`"),
        ("piece", "After `ticket.piece(…)`"),
        ("entry of the ticket", "After `ticket.need(…)`, `ticket.sew(…)`, `ticket.work(…)`"),
        ("plan", "`plan`, in `after_cutting`"),
    ];
    let listed: usize = kinds.iter().map(|(of, _)| words_of(of).count()).sum();
    assert_eq!(listed, words::WORDS.len(), "a kind of word is missing from the list");
    let mut list = String::new();
    for (of, heading) in kinds {
        list.push_str(&format!("\n**{heading}**\n\n| word | what it does |\n|---|---|\n"));
        for word in words_of(of) {
            list.push_str(&format!("| `{}` | {} |\n", word.form, word.summary));
        }
    }
    list
}

fn words_of(of: &str) -> impl Iterator<Item = &'static Member> {
    words::WORDS.iter().filter(move |word| word.of == of)
}

fn function_list() -> String {
    let mut list = String::from("\n| topic | functions |\n|---|---|\n");
    for topic in help::topics() {
        let forms: Vec<String> = topic.functions.iter().map(|function| format!("`{}`", function.form())).collect();
        list.push_str(&format!("| {} | {} |\n", topic.name, forms.join(", ")));
    }
    list
}

fn verb_list() -> String {
    let mut list = String::from("\n| line | what it does |\n|---|---|\n");
    for verb in verbs::VERBS {
        list.push_str(&format!("| `{}` | {} |\n", verb.form(), verb.summary));
    }
    list
}

fn recipe_list() -> String {
    let mut list = String::from("\n| recipe | makes |\n|---|---|\n");
    for name in library::shipped_names() {
        list.push_str(&format!("| `{name}` | {} |\n", library::shipped(name).unwrap().header().makes));
    }
    list
}

#[test]
fn the_lists_in_the_manual_are_current() {
    let written = read("README.md");
    let mut current = written.clone();
    let lists =
        [("verbs", verb_list()), ("recipes", recipe_list()), ("words", word_list()), ("functions", function_list())];
    for (marker, list) in lists {
        let (open, close) = (format!("<!-- {marker} -->\n"), format!("<!-- /{marker} -->"));
        let start = current.find(&open).unwrap() + open.len();
        let end = current.find(&close).unwrap();
        current.replace_range(start..end, &format!("{list}\n"));
    }
    if written != current {
        if std::env::var_os("UPDATE_README").is_some() {
            fs::write(root().join("README.md"), current).unwrap();
        }
        panic!("README.md's lists are out of date; UPDATE_README=1 cargo test --test integration manual");
    }
}

#[test]
fn the_paths_that_the_manual_names_are_there() {
    let mut seen = 0;
    for name in ["README.md", "DEVELOPERS.md"] {
        for part in read(name).split('`').skip(1).step_by(2) {
            let looks_like_a_path =
                ["src/", "tests/", "scripts/", "recipes/", ".ci/"].iter().any(|root| part.starts_with(root));
            if looks_like_a_path && !part.contains(['*', ' ']) {
                assert!(root().join(part).exists(), "{name} names {part}, which is not there");
                seen += 1;
            }
        }
    }
    assert!(seen > 20, "{seen} paths");
}

#[test]
fn the_test_command_of_the_manual_is_what_runs_elsewhere() {
    assert!(read("README.md").contains("```sh\nbash scripts/check\n```"));
    assert!(read(".ci/run").contains("bash scripts/check"));
}
