//! The shipped reference is the one that the recipes and tables give today, pictures and all.
//!
//! `UPDATE_REFERENCE=1` writes it anew; the run that wrote still fails.

use shirr::engine::limits::StopFlag;
use shirr::present::reference::{Presented, reference};
use shirr::quantity::Style;
use shirr::recipe::run::answer_in;
use shirr::recipe::{RecipeText, Reply, Task, library};
use shirr::workshop::Workshop;
use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

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
    reference(&recipes, &Style::default()).unwrap()
}

#[test]
fn the_reference_is_current() {
    let files = files();
    if std::env::var_os("UPDATE_REFERENCE").is_some() {
        let _none_yet = fs::remove_dir_all(folder());
        fs::create_dir_all(folder()).unwrap();
        for (name, bytes) in &files {
            fs::write(folder().join(name), bytes).unwrap();
        }
        panic!("the reference was written anew; read what changed");
    }
    let there: BTreeSet<String> = fs::read_dir(folder())
        .expect("recipes/reference is there: UPDATE_REFERENCE=1 cargo test --test integration reference")
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    let wanted: BTreeSet<String> = files.iter().map(|(name, _)| name.clone()).collect();
    assert_eq!(there, wanted, "UPDATE_REFERENCE=1 cargo test --test integration reference");
    for (name, bytes) in files {
        let same = fs::read(folder().join(&name)).unwrap() == bytes;
        assert!(same, "{name} is out of date: UPDATE_REFERENCE=1 cargo test --test integration reference");
    }
}

#[test]
fn every_recipe_has_two_worked_examples_and_a_picture() {
    let files = files();
    assert!(library::shipped_names().count() >= 24);
    for name in library::shipped_names() {
        let presented = presented(name);
        assert!(presented.examples.len() >= 2, "{name}: {} worked examples", presented.examples.len());
        let (_, picture) = files.iter().find(|(file, _)| *file == format!("{name}.svg")).expect(name);
        let picture = std::str::from_utf8(picture).unwrap();
        let first = &presented.examples[0].ticket;
        for piece in &first.pieces {
            assert!(picture.contains(&piece.name), "{name}: {}", piece.name);
        }
    }
}
