//! Checks the layers: imports run downward only, and nothing below `terminal` uses the outside world.

use super::common::rust_files;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The layers that each layer may import besides itself.
const MAY_IMPORT: [(&str, &[&str]); 17] = [
    ("packing", &[]),
    ("quantity", &[]),
    ("diagnostic", &["quantity"]),
    ("piece", &["quantity"]),
    ("table", &["quantity", "diagnostic"]),
    ("body", &["quantity", "diagnostic"]),
    ("textile", &["quantity", "diagnostic"]),
    ("workshop", &["quantity", "diagnostic", "piece", "table"]),
    ("cutting", &["packing", "quantity", "diagnostic", "piece"]),
    ("engine", &["quantity", "diagnostic", "body", "textile"]),
    ("report", &["quantity", "diagnostic", "piece", "table"]),
    ("plans", &["quantity", "piece", "table", "textile", "workshop", "cutting", "report"]),
    ("ticket", &["quantity", "diagnostic", "piece", "table", "textile", "workshop", "cutting", "report", "plans"]),
    (
        "recipe",
        &["quantity", "diagnostic", "piece", "body", "textile", "workshop", "cutting", "engine", "report", "ticket"],
    ),
    (
        "present",
        &[
            "quantity", "piece", "table", "textile", "workshop", "cutting", "engine", "report", "plans", "ticket",
            "recipe",
        ],
    ),
    (
        "notebook",
        &["quantity", "diagnostic", "table", "textile", "workshop", "cutting", "engine", "report", "ticket", "recipe"],
    ),
    (
        "terminal",
        &[
            "quantity",
            "diagnostic",
            "table",
            "workshop",
            "cutting",
            "engine",
            "report",
            "plans",
            "ticket",
            "recipe",
            "present",
            "notebook",
        ],
    ),
];

/// Names that only `terminal` may use.
const WORLD: [&str; 10] = [
    "std::fs",
    "std::env",
    "std::process",
    "std::net",
    "std::io::stdin",
    "std::io::stdout",
    "std::io::stderr",
    "SystemTime",
    "Instant",
    "println!",
];

/// The files of each layer with their text, tests included.
fn layers() -> BTreeMap<String, Vec<(PathBuf, String)>> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut layers: BTreeMap<String, Vec<(PathBuf, String)>> = BTreeMap::new();
    for path in rust_files(&src) {
        let inside = path.strip_prefix(&src).unwrap();
        let Some(layer) = inside.parent().and_then(|parent| parent.iter().next()) else { continue };
        let text = fs::read_to_string(&path).unwrap();
        layers.entry(layer.to_string_lossy().into_owned()).or_default().push((path, text));
    }
    layers
}

/// The lines of a file without their comments.
fn code(text: &str) -> impl Iterator<Item = &str> {
    text.lines().map(|line| line.split("//").next().unwrap_or_default())
}

#[test]
fn every_layer_is_in_the_matrix() {
    let known: Vec<&str> = MAY_IMPORT.iter().map(|(layer, _)| *layer).collect();
    for layer in layers().keys() {
        assert!(known.contains(&layer.as_str()), "the layer {layer} has no row in the matrix");
    }
    assert_eq!(layers().len(), known.len());
}

/// Whether a line of code imports from a layer.
fn imports(line: &str, layer: &str) -> bool {
    ["crate::", "shirr::", "shirr_"].iter().any(|root| {
        line.match_indices(&format!("{root}{layer}"))
            .any(|(at, found)| !line[at + found.len()..].starts_with(|c: char| c.is_alphanumeric() || c == '_'))
    })
}

#[test]
fn imports_run_downward_only() {
    let layers = layers();
    let mut wrong = Vec::new();
    for (layer, allowed) in MAY_IMPORT {
        for (path, text) in &layers[layer] {
            for line in code(text) {
                for (other, _) in MAY_IMPORT {
                    if other != layer && !allowed.contains(&other) && imports(line, other) {
                        wrong.push(format!("{}: {}", path.display(), line.trim()));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_matrix_allows_nothing_that_the_code_does_not_use() {
    let layers = layers();
    let mut unused = Vec::new();
    for (layer, allowed) in MAY_IMPORT {
        for other in allowed {
            let used = layers[layer].iter().any(|(_, text)| code(text).any(|line| imports(line, other)));
            if !used {
                unused.push(format!("{layer} imports nothing from {other}"));
            }
        }
    }
    assert!(unused.is_empty(), "{}", unused.join("\n"));
}

#[test]
fn nothing_below_the_terminal_touches_the_world() {
    let mut wrong = Vec::new();
    for (layer, files) in layers() {
        if layer == "terminal" {
            continue;
        }
        for (path, text) in files {
            for line in code(&text) {
                wrong.extend(
                    WORLD
                        .iter()
                        .filter(|touch| line.contains(**touch))
                        .map(|touch| format!("{}: {touch}", path.display())),
                );
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn only_engine_recipe_and_notebook_know_the_script_engine() {
    for (layer, files) in layers() {
        let allowed = ["engine", "recipe", "notebook", "terminal"].contains(&layer.as_str());
        for (path, text) in files {
            let knows = code(&text).any(|line| line.contains("rhai::"));
            assert!(allowed || !knows, "{} names the script engine", path.display());
        }
    }
}

/// What reads from the disk, the only calls of `fs` outside `src/terminal/disk.rs`.
const READS: [&str; 4] = ["metadata(", "canonicalize(", "read_dir(", "File::open("];

/// What writes without saying `fs`.
const WRITES: [&str; 8] = [
    "OpenOptions",
    "File::options",
    "File::create",
    "tempfile",
    "NamedTempFile",
    "sync_all",
    "sync_data",
    "set_permissions",
];

/// Why a line of code writes to the disk; `None` if it does not.
fn write_in(line: &str) -> Option<String> {
    // A call by an imported name would not be seen.
    if line.contains("use std::fs::") {
        return Some("what is in std::fs is called by fs::".to_owned());
    }
    let calls = |name: &str| -> Vec<usize> {
        let is_word = |at: &usize| !line[..*at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
        line.match_indices(name).map(|(at, _)| at).filter(is_word).collect()
    };
    let unknown = calls("fs::").into_iter().find(|at| !READS.iter().any(|read| line[at + 4..].starts_with(read)));
    let write = WRITES.iter().find(|write| !calls(write).is_empty()).map(|write| (*write).to_owned());
    write.or_else(|| unknown.map(|at| line[at..].to_owned()))
}

#[test]
fn every_change_on_the_disk_goes_through_one_file() {
    let mut wrong = Vec::new();
    for (path, text) in layers().into_values().flatten() {
        let is_test = path.iter().any(|part| part == "tests") || path.ends_with("tests.rs");
        if is_test || path.ends_with("terminal/disk.rs") {
            continue;
        }
        let program = text.split("#[cfg(test)]").next().unwrap_or_default();
        for line in code(program) {
            wrong.extend(write_in(line).map(|write| format!("{}: {write}", path.display())));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for write in
        ["fs::write(path, b)", "std::fs::rename(a, b)", "use std::fs::write;", "file.sync_all()", "fs::File::create(a)"]
    {
        assert!(write_in(write).is_some(), "{write}");
    }
    for read in
        ["fs::metadata(path)", "use std::fs;", "let file = fs::File::open(path)", "offs::write()", "NewFile::create(a)"]
    {
        assert!(write_in(read).is_none(), "{read}");
    }
}
