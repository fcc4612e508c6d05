//! Checks that the shipped reference, with pictures, man page and completions, is what today's recipes and tables give.
//!
//! `UPDATE_REFERENCE=1` rewrites it; the run that rewrites still fails.

use crate::sessions::{replay, transcript_folder};
use shirr::engine::limits::StopFlag;
use shirr::present::reference::{Presented, reference};
use shirr::quantity::Style;
use shirr::recipe::run::answer_in;
use shirr::recipe::{RecipeText, Reply, Task, library};
use shirr::terminal::manual;
use shirr::workshop::Workshop;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("recipes/reference")
}

fn presented(name: &str) -> Presented {
    let recipe = library::shipped(name).unwrap();
    let ask =
        |recipe: &RecipeText, task: &Task| answer_in(recipe, &Workshop::default(), false, task, StopFlag::default());
    let description = match ask(&recipe, &Task::Describe) {
        Reply::Described(description) => description,
        other => panic!("{name}: {other:?}"),
    };
    match ask(&recipe, &Task::Examples) {
        Reply::Worked(examples) => Presented { recipe, description, examples },
        other => panic!("{name}: {other:?}"),
    }
}

fn files() -> Vec<(String, Vec<u8>)> {
    let recipes: Vec<Presented> = library::shipped_names().map(presented).collect();
    [reference(&recipes, &Style::default()).unwrap(), manual::files().unwrap()].concat()
}

/// The paths of all files in a folder and its subfolders.
fn paths_in(folder: &Path, before: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = format!("{before}{}", path.file_name().unwrap().to_string_lossy());
        if path.is_dir() {
            found.extend(paths_in(&path, &format!("{name}/")));
        } else {
            found.insert(name);
        }
    }
    found
}

#[test]
fn the_reference_is_current() {
    let files = files();
    if std::env::var_os("UPDATE_REFERENCE").is_some() {
        let _none_yet = fs::remove_dir_all(folder());
        fs::create_dir_all(folder()).unwrap();
        for (name, bytes) in &files {
            let path = folder().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
        panic!("the reference was written anew; read what changed");
    }
    let existing = paths_in(&folder(), "");
    let wanted: BTreeSet<String> = files.iter().map(|(name, _)| name.clone()).collect();
    assert_eq!(existing, wanted, "UPDATE_REFERENCE=1 cargo test --test integration reference");
    for (name, bytes) in files {
        let same = fs::read(folder().join(&name)).unwrap() == bytes;
        assert!(same, "{name} is out of date: UPDATE_REFERENCE=1 cargo test --test integration reference");
    }
}

#[test]
fn the_command_writes_the_same_files() {
    let here = transcript_folder("reference");
    let output = replay("$ shirr reference out\n", here.path());
    assert!(!output.contains("[exit") && !output.contains("is left out"), "{output}");
    let out = here.path().join("out");
    assert_eq!(paths_in(&out, ""), paths_in(&folder(), ""));
    for name in paths_in(&out, "") {
        assert!(fs::read(out.join(&name)).unwrap() == fs::read(folder().join(&name)).unwrap(), "{name}");
    }
}

#[test]
fn every_recipe_has_two_worked_examples_and_a_picture() {
    let files = files();
    assert!(library::shipped_names().count() >= 24);
    for name in library::shipped_names() {
        let presented = presented(name);
        assert!(presented.examples.len() >= 2, "{name}: {} worked examples", presented.examples.len());
        assert!(files.iter().any(|(file, _)| *file == format!("{name}.svg")), "{name}");
        let is_page = |file: &str| {
            file.strip_prefix(name).is_some_and(|end| {
                end == ".svg"
                    || end
                        .strip_prefix('_')
                        .and_then(|end| end.strip_suffix(".svg"))
                        .is_some_and(|page| page.parse::<u8>().is_ok())
            })
        };
        let pages = files.iter().filter(|(file, _)| is_page(file));
        let picture: String = pages.map(|(_, page)| std::str::from_utf8(page).unwrap()).collect();
        let first = &presented.examples[0].ticket;
        for entry in &first.pieces {
            assert!(picture.contains(&entry.piece.name), "{name}: {}", entry.piece.name);
        }
    }
}

/// The output of a program; `None` if this machine does not have it.
fn answer(program: &str, arguments: &[&str]) -> Option<Output> {
    Command::new(program).args(arguments).output().ok()
}

#[test]
fn the_shells_here_read_their_completions() {
    let shells = [("bash", "shirr.bash"), ("zsh", "_shirr"), ("fish", "shirr.fish")];
    let mut seen = 0;
    for (shell, script) in shells {
        let script = folder().join("completions").join(script);
        if let Some(output) = answer(shell, &["-n", &script.to_string_lossy()]) {
            assert!(output.status.success() && output.stderr.is_empty(), "{shell}: {output:?}");
            seen += 1;
        }
    }
    assert!(seen >= 1, "there is no shell here that could read its completions");
}

#[test]
fn bash_completes_commands_and_options() {
    let script = folder().join("completions/shirr.bash");
    let completed = |typed: &str| {
        let words = typed.split(' ').count();
        let ask = format!(
            "source {}; COMP_WORDS=({typed}); COMP_CWORD={}; _shirr shirr \"${{COMP_WORDS[COMP_CWORD]}}\" x; echo ${{COMPREPLY[@]}}",
            script.display(),
            words - 1
        );
        let output = answer("bash", &["-c", &ask]).unwrap();
        let mut offered: Vec<String> =
            String::from_utf8(output.stdout).unwrap().split_whitespace().map(str::to_owned).collect();
        offered.sort();
        offered.join(" ")
    };
    assert_eq!(completed("shirr de"), "describe");
    assert_eq!(completed("shirr re"), "recipes reckon reference");
    assert_eq!(completed("shirr cut --st"), "--steps --straight");
    assert_eq!(completed("shirr run --a"), "--all --anyway");
}

#[test]
fn the_man_page_is_read_without_a_word_against_it() {
    let page = folder().join("shirr.1");
    let Some(output) = answer("groff", &["-man", "-Kutf8", "-Tutf8", "-ww", "-z", &page.to_string_lossy()]) else {
        return;
    };
    assert!(output.status.success() && output.stderr.is_empty(), "{output:?}");
}
