//! No files import each other in a circle.
//!
//! Imports are read from the syntax tree and followed through re-exports to the file that holds the item. A module and
//! the modules inside it may import each other; test modules are left out.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use syn::visit::Visit;
use syn::{Attribute, Item, ItemMod, ItemUse, Meta, UseTree};

/// Segments of a path: `["cutting", "plan"]` is `crate::cutting::plan`.
type ModulePath = Vec<String>;

/// Imports and re-exports of one file.
#[derive(Default)]
struct Module {
    /// Absolute paths that the file names.
    paths: Vec<ModulePath>,
    /// Names brought in by `use`, each with its path.
    aliases: BTreeMap<String, ModulePath>,
}

fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| match &attribute.meta {
        Meta::List(list) => list.path.is_ident("cfg") && list.tokens.to_string().contains("test"),
        _ => false,
    })
}

/// Resolves a path that begins with `crate`, `self` or `super`; `None` for any other.
fn absolute(at: &[String], path: &[String]) -> Option<ModulePath> {
    match path.first()?.as_str() {
        "crate" => Some(path[1..].to_vec()),
        "self" => Some([at, &path[1..]].concat()),
        "super" => {
            let up = path.iter().take_while(|segment| *segment == "super").count();
            Some([&at[..at.len().checked_sub(up)?], &path[up..]].concat())
        }
        _ => None,
    }
}

/// Collects every path of a `use` with the name it brings in.
fn used(tree: &UseTree, before: &mut ModulePath, found: &mut Vec<(ModulePath, String)>) {
    match tree {
        UseTree::Path(path) => {
            before.push(path.ident.to_string());
            used(&path.tree, before, found);
            before.pop();
        }
        UseTree::Name(name) if name.ident == "self" => {
            found.push((before.clone(), before.last().cloned().unwrap_or_default()));
        }
        UseTree::Name(name) => {
            let name = name.ident.to_string();
            found.push(([before.as_slice(), std::slice::from_ref(&name)].concat(), name));
        }
        UseTree::Rename(rename) => {
            found.push(([before.as_slice(), &[rename.ident.to_string()]].concat(), rename.rename.to_string()));
        }
        UseTree::Glob(_) => found.push((before.clone(), "*".to_owned())),
        UseTree::Group(group) => group.items.iter().for_each(|tree| used(tree, before, found)),
    }
}

struct Paths<'m> {
    at: &'m [String],
    module: Module,
}

impl<'ast> Visit<'ast> for Paths<'_> {
    fn visit_item_mod(&mut self, module: &'ast ItemMod) {
        if !is_test(&module.attrs) {
            syn::visit::visit_item_mod(self, module);
        }
    }

    fn visit_item_use(&mut self, item: &'ast ItemUse) {
        let mut found = Vec::new();
        used(&item.tree, &mut Vec::new(), &mut found);
        for (path, name) in found {
            let whole = absolute(self.at, &path);
            self.module.paths.extend(whole.clone());
            self.module.aliases.insert(name, whole.unwrap_or_else(|| [self.at, &path].concat()));
        }
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments: ModulePath = path.segments.iter().map(|segment| segment.ident.to_string()).collect();
        self.module.paths.extend(absolute(self.at, &segments));
        syn::visit::visit_path(self, path);
    }
}

/// Returns the files of a crate by module path.
fn modules(src: &Path) -> BTreeMap<ModulePath, Module> {
    let mut found = BTreeMap::new();
    let mut folders = vec![src.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let file: PathBuf = entry.unwrap().path();
            // A crate inside this one has its own check.
            if file.is_dir() && !file.join("Cargo.toml").exists() {
                folders.push(file.clone());
            }
            if file.extension().is_none_or(|end| end != "rs") {
                continue;
            }
            let inside = file.strip_prefix(src).unwrap().with_extension("");
            let mut path: ModulePath = inside.iter().map(|part| part.to_string_lossy().into_owned()).collect();
            if path.last().is_some_and(|last| ["mod", "lib", "main"].contains(&last.as_str())) {
                path.pop();
            }
            if path.iter().any(|part| part == "tests") {
                continue;
            }
            let tree = syn::parse_file(&fs::read_to_string(&file).unwrap()).unwrap();
            if tree.items.iter().all(|item| matches!(item, Item::Mod(module) if is_test(&module.attrs))) {
                continue;
            }
            let mut paths = Paths { at: &path, module: Module::default() };
            paths.visit_file(&tree);
            let module = paths.module;
            found.insert(path, module);
        }
    }
    found
}

/// Returns the module whose file holds the item of a path, following up to `hops` re-exports.
fn home(modules: &BTreeMap<ModulePath, Module>, path: &[String], hops: usize) -> ModulePath {
    let mut at = ModulePath::new();
    for (place, segment) in path.iter().enumerate() {
        let inner = [at.as_slice(), std::slice::from_ref(segment)].concat();
        if modules.contains_key(&inner) {
            at = inner;
            continue;
        }
        let alias = modules.get(&at).and_then(|module| module.aliases.get(segment));
        return match alias {
            Some(alias) if hops > 0 && *alias != path[..=place] => {
                home(modules, &[alias, &path[place + 1..]].concat(), hops - 1)
            }
            _ => at,
        };
    }
    at
}

/// Returns the circles among the files of a crate, as lines `file → files of the same circle`.
fn circles(src: &Path) -> Vec<String> {
    let modules = modules(src);
    let edges: BTreeMap<&ModulePath, BTreeSet<ModulePath>> = modules
        .iter()
        .map(|(name, module)| {
            let homes = module.paths.iter().map(|path| home(&modules, path, 16));
            (name, homes.filter(|to| !to.starts_with(name) && !name.starts_with(to)).collect())
        })
        .collect();
    let reached: BTreeMap<&ModulePath, BTreeSet<&ModulePath>> = edges
        .keys()
        .map(|start| {
            let mut reached = BTreeSet::new();
            let mut waiting = vec![*start];
            while let Some(from) = waiting.pop() {
                waiting.extend(edges.get(from).into_iter().flatten().filter(|to| reached.insert(*to)));
            }
            (*start, reached)
        })
        .collect();
    let mut lines = Vec::new();
    for (from, to) in &edges {
        let back = |other: &&ModulePath| reached.get(*other).is_some_and(|reached| reached.contains(from));
        let inside: Vec<String> = to.iter().filter(back).map(|path| path.join("::")).collect();
        if !inside.is_empty() {
            lines.push(format!("{} → {}", from.join("::"), inside.join(", ")));
        }
    }
    lines
}

#[test]
fn no_files_import_each_other_in_a_circle() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let lines = circles(&src);
    assert!(lines.is_empty(), "{} files are in circles:\n{}", lines.len(), lines.join("\n"));
}

#[test]
fn a_circle_through_a_reexport_is_found() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    fs::create_dir(folder.path().join("a")).unwrap();
    write("lib.rs", "mod a; mod b; pub use b::B;");
    write("a/mod.rs", "mod inner; pub use inner::A;");
    write("a/inner.rs", "use crate::B; pub struct A(B);");
    write("b.rs", "pub struct B; #[cfg(test)] mod tests { use crate::a::A; }");
    assert_eq!(circles(folder.path()), Vec::<String>::new());
    write("b.rs", "pub struct B; impl B { fn of(_: crate::a::A) {} }");
    assert_eq!(circles(folder.path()), ["a::inner → b", "b → a::inner"]);
}
