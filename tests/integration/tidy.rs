//! Checks the source tree: module docs, file lengths, leftover words, the top level, the licences of dependencies.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file of the tree but those that `.gitignore` names; read from the disk, so that a tree without a repository is
/// checked too.
fn tracked() -> Vec<PathBuf> {
    let ignored = fs::read_to_string(root().join(".gitignore")).unwrap();
    let mut passed_over = vec![root().join(".git")];
    for line in ignored.lines() {
        // Patterns are not read here; each line is the path of a folder.
        let path = line.strip_prefix('/').filter(|path| !path.contains(['*', '?', '[', '!']));
        passed_over.push(root().join(path.unwrap_or_else(|| panic!("{line} in .gitignore is no path from the top"))));
    }
    let mut files = Vec::new();
    collect(root(), &passed_over, &mut files);
    assert!(files.len() > 500, "there are only {} files", files.len());
    files
}

fn collect(folder: &Path, passed_over: &[PathBuf], files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if passed_over.contains(&path) {
            continue;
        }
        if path.is_dir() {
            collect(&path, passed_over, files);
        } else if path.is_file() {
            files.push(path);
        }
    }
}

fn is_rust(path: &Path) -> bool {
    path.extension().is_some_and(|end| end == "rs")
}

#[test]
fn every_module_says_what_it_is() {
    for path in tracked().into_iter().filter(|path| is_rust(path)) {
        let text = fs::read_to_string(&path).unwrap();
        assert!(text.starts_with("//! "), "{} does not begin with //!", path.display());
    }
}

#[test]
fn files_stay_short_enough_to_read() {
    for path in tracked().into_iter().filter(|path| is_rust(path)) {
        let lines = fs::read_to_string(&path).unwrap().lines().count();
        assert!(lines <= 700, "{} has {lines} lines", path.display());
    }
}

#[test]
fn no_leftovers() {
    // Assembled here, so that this file does not match.
    let words = [["TO", "DO"].concat(), ["FIX", "ME"].concat(), ["X", "XX"].concat(), ["db", "g!("].concat()];
    for path in tracked() {
        let Ok(text) = fs::read_to_string(&path) else { continue };
        for word in &words {
            assert!(!text.contains(word.as_str()), "{} has a leftover {word}", path.display());
        }
        if path.extension().is_some_and(|end| ["rs", "rhai", "toml"].iter().any(|known| end == *known)) {
            let trailing = text.lines().position(|line| line.ends_with([' ', '\t']));
            assert_eq!(trailing, None, "{} has blanks at the end of a line", path.display());
        }
    }
}

#[test]
fn nothing_else_lies_at_the_top() {
    let allowed = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "src",
        "scripts",
        "tests",
        "recipes",
        ".ci",
        ".gitignore",
        ".rustfmt.toml",
        // Cases on which property tests in src once failed.
        "proptest-regressions",
    ];
    for path in tracked() {
        let first = path.strip_prefix(root()).unwrap().iter().next().unwrap().to_string_lossy().into_owned();
        assert!(allowed.contains(&first.as_str()), "{first} lies at the top level");
    }
}

/// Accepted licences. Of a package that offers a choice, one licence must be here.
const LICENCES: [&str; 13] = [
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "ISC",
    "MPL-2.0",
    "MPL-2.0+",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
    "CC0-1.0",
];

/// Whether [`LICENCES`] meets an expression: `A OR B` needs one of both, `A AND B` needs both.
fn is_met(expression: &str) -> bool {
    let expression = expression.replace('/', " OR ").replace(['(', ')'], " ");
    expression.split(" AND ").all(|part| part.split(" OR ").any(|licence| LICENCES.contains(&licence.trim())))
}

#[test]
fn every_package_below_us_has_a_licence_we_know() {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked"])
        .current_dir(root())
        .output()
        .unwrap();
    let tree: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let packages = tree["packages"].as_array().unwrap();
    assert!(packages.len() > 50);
    for package in packages {
        let name = package["name"].as_str().unwrap();
        let licence = package["license"].as_str().unwrap_or_default();
        assert!(is_met(licence), "{name} is under “{licence}”");
    }
    assert!(!is_met("GPL-3.0-only") && !is_met("MIT AND GPL-3.0-only") && is_met("GPL-3.0-only OR MIT"));
}

#[test]
fn every_script_has_its_line_in_the_list() {
    let list = fs::read_to_string(root().join("scripts/README.md")).unwrap();
    for entry in fs::read_dir(root().join("scripts")).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name == "README.md" || list.contains(&format!("`{name}`")), "scripts/README.md does not name {name}");
    }
}

/// `scripts/planted.list` names what is replaced in a file; the text before must stand there once, as the list has it.
#[test]
fn every_planted_fault_still_has_its_place() {
    let list = fs::read_to_string(root().join("scripts/planted.list")).unwrap();
    let (mut blocks, mut stale) = (0, Vec::new());
    for block in list.split("\n== ").skip(1) {
        let mut lines = block.trim_matches('\n').lines();
        let (name, path) = (lines.next().unwrap(), lines.next().unwrap());
        let before: Vec<&str> = lines.filter_map(|line| line.strip_prefix('-')).collect();
        let text = fs::read_to_string(root().join(path)).unwrap_or_default();
        if before.is_empty() || text.matches(&before.join("\n")).count() != 1 {
            stale.push(format!("{path}: {name}"));
        }
        blocks += 1;
    }
    assert!(blocks > 20, "{blocks} blocks");
    assert!(
        stale.is_empty(),
        "scripts/planted.list quotes what does not stand in its file once:\n{}",
        stale.join("\n")
    );
}

#[test]
fn every_known_mutant_still_has_its_line() {
    let list = fs::read_to_string(root().join("scripts/mutants.known")).unwrap();
    let (mut quoted, mut stale) = (0, Vec::new());
    for (place, line) in list.lines().filter(|line| line.starts_with("src/")).filter_map(|line| line.split_once(" | "))
    {
        let path = place.split(' ').next().unwrap();
        let text = fs::read_to_string(root().join(path)).unwrap_or_default();
        if !text.lines().any(|known| known.trim() == line.trim()) {
            stale.push(format!("{path}: {line}"));
        }
        quoted += 1;
    }
    assert!(quoted > 5, "{quoted} lines");
    assert!(stale.is_empty(), "scripts/mutants.known quotes lines that are not in their files:\n{}", stale.join("\n"));
}
