//! What several tests need: the Rust files of a folder, and the demo workshop.

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

/// Reads the demo workshop.
pub(crate) fn demo_workshop() -> Workshop {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/demo");
    let names = ["settings.csv", "materials.csv", "stock.csv", "trials.csv", "rates.csv", "sizes.csv"];
    let texts = names.map(|name| fs::read_to_string(folder.join(name)).unwrap());
    let files: Vec<(&str, &str)> = names.into_iter().zip(texts.iter().map(String::as_str)).collect();
    Workshop::read(&files).unwrap()
}
