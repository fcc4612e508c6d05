//! What several tests need: the Rust files of a folder, the demo workshop, the recipes, and how many cases a random test draws.

use shirr::recipe::{Request, library};
use shirr::workshop::Workshop;
use std::fs;
use std::path::{Path, PathBuf};

/// Every Rust file in a folder and the folders in it.
pub(crate) fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(rust_files(&path));
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
    found
}

/// A request as it crosses to another process: its length in four bytes, the lowest first, and its text.
pub(crate) fn framed(request: &Request) -> Vec<u8> {
    let text = serde_json::to_vec(request).unwrap();
    let length = u32::try_from(text.len()).unwrap().to_le_bytes();
    [length.as_slice(), &text].concat()
}

/// Reads the demo workshop.
pub(crate) fn demo_workshop() -> Workshop {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/demo");
    let names = ["settings.csv", "materials.csv", "stock.csv", "trials.csv", "rates.csv", "sizes.csv"];
    let texts = names.map(|name| fs::read_to_string(folder.join(name)).unwrap());
    let files: Vec<(&str, &str)> = names.into_iter().zip(texts.iter().map(String::as_str)).collect();
    Workshop::read(&files).unwrap()
}

/// The recipes that `SHIRR_RECIPES` names, a comma between them; `None` if it is not set, which is all of them.
fn only() -> Option<Vec<String>> {
    std::env::var("SHIRR_RECIPES").ok().map(|names| names.split(',').map(str::to_owned).collect())
}

/// Whether all recipes are tested, so that totals over all of them can be held to.
pub(crate) fn tests_all_recipes() -> bool {
    only().is_none()
}

/// Whether a recipe is one of those that are tested.
pub(crate) fn is_tested(recipe: &str) -> bool {
    only().is_none_or(|only| only.iter().any(|name| name == recipe))
}

/// The names of the shipped recipes, or of those that are tested.
pub(crate) fn recipes() -> Vec<&'static str> {
    library::shipped_names().filter(|name| is_tested(name)).collect()
}

/// How many cases a random test draws: as many as `SHIRR_CASES` says, else `usual`.
///
/// # Panics
///
/// `SHIRR_CASES` is no number.
pub(crate) fn cases(usual: u32) -> u32 {
    std::env::var("SHIRR_CASES").map_or(usual, |cases| cases.parse().unwrap())
}
