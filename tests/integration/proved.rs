//! What a check finds in a recipe: faults planted in the shipped recipes, each on its line, and nothing in recipes that
//! are in order. The faults and the recipes in order were written by another hand than the check.

use shirr::diagnostic::Diagnostic;
use shirr::engine::limits::StopFlag;
use shirr::recipe::run::answer_in;
use shirr::recipe::{RecipeText, Reply, Task, library};
use shirr::report::excerpt;
use shirr::workshop::Workshop;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// A fault as `tests/planted_faults/README.md` describes it.
#[derive(Debug)]
struct Planted {
    name: String,
    kind: String,
    file: String,
    from: String,
    to: String,
    line: usize,
    also: Option<usize>,
}

fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(folder);
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut found: Vec<PathBuf> = entries.filter(|path| path.extension().is_some_and(|end| end == ending)).collect();
    found.sort();
    found
}

fn planted() -> Vec<Planted> {
    let mut all = Vec::new();
    for path in files("planted_faults", "txt") {
        let text = fs::read_to_string(&path).unwrap();
        for entry in text.split("\n\n").filter(|entry| !entry.trim().is_empty()) {
            let field = |key: &str| {
                let line = entry.lines().find_map(|line| line.strip_prefix(&format!("{key}:")))?;
                Some(line.strip_prefix(' ').unwrap_or(line).replace("\\n", "\n"))
            };
            let file = field("in").unwrap();
            let file = file.strip_prefix("recipes/").and_then(|file| file.strip_suffix(".rhai")).unwrap();
            all.push(Planted {
                name: field("name").unwrap(),
                kind: field("kind").unwrap(),
                file: file.to_owned(),
                from: field("from").unwrap(),
                to: field("to").unwrap(),
                line: field("line").unwrap().parse().unwrap(),
                also: field("also").map(|line| line.parse().unwrap()),
            });
        }
    }
    all
}

/// The recipe with the fault: that of the file itself, or one that imports it.
fn with_fault(planted: &Planted) -> RecipeText {
    let changed = |text: &str| {
        assert_eq!(text.matches(&planted.from).count(), 1, "{planted:?}");
        text.replace(&planted.from, &planted.to)
    };
    if let Some(recipe) = library::shipped(&planted.file) {
        return RecipeText { text: changed(&recipe.text), ..recipe };
    }
    let import = format!("import \"{}\"", planted.file);
    let recipes = library::shipped_names().filter_map(library::shipped);
    let mut importing = recipes.filter(|recipe| recipe.text.contains(&import));
    let mut recipe = importing.next().unwrap_or_else(|| panic!("nothing imports {}", planted.file));
    let helper = recipe.helpers.get_mut(&planted.file).unwrap();
    *helper = changed(helper);
    recipe
}

/// The files and lines at which a finding points first.
fn places(found: &Diagnostic) -> Vec<(String, usize)> {
    let own = found.labels.first().map(|label| (label.span.file.clone().unwrap_or_default(), label.span.line));
    own.into_iter().chain(found.related.iter().flat_map(places)).collect()
}

/// Everything that a check says of a recipe.
fn said(recipe: &RecipeText, task: &Task) -> Vec<Diagnostic> {
    match answer_in(recipe, &Workshop::default(), false, task, StopFlag::default()) {
        Reply::Checked(report) => report.findings.into_iter().chain(report.cautions).collect(),
        Reply::Failed(errors) => errors,
        other => panic!("{}: {other:?}", recipe.name),
    }
}

/// How many faults of a sort are found at all, and how many on their line; each that is not in words.
fn tried(sort: &str, task: &Task) -> (usize, usize, usize, Vec<String>) {
    let (mut all, mut found, mut on_line, mut missed) = (0, 0, 0, Vec::new());
    let mut by_kind: BTreeMap<String, usize> = BTreeMap::new();
    for planted in planted().iter().filter(|planted| planted.kind.starts_with(sort)) {
        all += 1;
        *by_kind.entry(planted.kind.clone()).or_default() += 1;
        let said = said(&with_fault(planted), task);
        let file = format!("{}.rhai", planted.file);
        let is_there =
            |(known, line): &(String, usize)| *known == file && (*line == planted.line || Some(*line) == planted.also);
        found += usize::from(!said.is_empty());
        if said.iter().flat_map(places).any(|place| is_there(&place)) {
            on_line += 1;
        } else {
            let words: Vec<String> = said.iter().map(excerpt::text).collect();
            missed.push(format!(
                "{file}, line {}: {} ({})\n{}",
                planted.line,
                planted.name,
                planted.kind,
                words.join("\n")
            ));
        }
    }
    assert!(by_kind.values().all(|count| *count >= 3), "{by_kind:?}");
    (all, found, on_line, missed)
}

#[test]
fn every_fault_that_stands_in_the_text_is_found_and_nearly_every_one_on_its_line() {
    let (all, found, on_line, missed) = tried("text: ", &Task::Check);
    let missed = missed.join("\n\n");
    assert!(all >= 250, "{all} faults");
    assert_eq!(found, all, "{missed}");
    assert!(on_line * 100 >= all * 95, "{on_line} of {all} on their line\n{missed}");
}

#[test]
fn most_faults_that_show_by_running_are_found() {
    let (all, found, _, missed) = tried("run: ", &Task::Check);
    assert!(all >= 30 && found * 100 >= all * 85, "{found} of {all}\n{}", missed.join("\n\n"));
}

/// Reading alone must say nothing of the shipped recipes either, and be sure of what it reads.
#[test]
fn nothing_is_said_of_the_shipped_recipes() {
    for name in library::shipped_names() {
        let recipe = library::shipped(name).unwrap();
        let words: Vec<String> = said(&recipe, &Task::Read).iter().map(excerpt::text).collect();
        assert!(words.is_empty(), "{name}\n{}", words.join("\n"));
        match answer_in(&recipe, &Workshop::default(), false, &Task::Check, StopFlag::default()) {
            Reply::Checked(report) => {
                assert!(report.cautions.is_empty(), "{name}: {:?}", report.cautions);
                assert_eq!(report.unread, 0, "{name}");
            }
            other => panic!("{name}: {other:?}"),
        }
    }
}

#[test]
fn nothing_is_said_of_recipes_that_are_in_order() {
    let paths = files("sound_recipes", "rhai");
    assert!(paths.len() >= 50);
    for path in paths {
        let text = fs::read_to_string(&path).unwrap();
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let recipe = RecipeText { name: name.clone(), text, helpers: library::shipped_helpers() };
        let words: Vec<String> = said(&recipe, &Task::Check).iter().map(excerpt::text).collect();
        assert!(words.is_empty(), "{name}\n{}", words.join("\n"));
    }
}
