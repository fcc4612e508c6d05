//! Finding a recipe by name or file, with the helper files it imports.

use super::files::{self, FileProblem};
use crate::quantity::nearest::nearest;
use crate::recipe::{RecipeText, library};
use std::path::{Path, PathBuf};

/// The recipe of a name, or of a file.
pub(super) fn find(written: &str, here: &Path) -> Result<RecipeText, String> {
    let is_file = written.contains(['/', '\\']) || Path::new(written).extension().is_some_and(|end| end == "rhai");
    let beside = here.join(format!("{written}.rhai"));
    if !is_file {
        if let Some(shipped) = library::shipped(written) {
            return Ok(shipped);
        }
        if !beside.is_file() {
            let holds = |name: &&str| written.len() > 2 && name.contains(&written.to_lowercase());
            let near = nearest(written, library::shipped_names()).or_else(|| library::shipped_names().find(holds));
            let hint = near.map_or_else(
                || "recipes lists those there are; a file is named with its ending: mine.rhai".to_owned(),
                |near| format!("did you mean {near}?"),
            );
            return Err(format!("there is no recipe “{written}”\n  {hint}"));
        }
    }
    let path = if is_file { here.join(written) } else { beside };
    let text = files::read(&path).map_err(|problem| problem.to_string())?;
    if text.trim().is_empty() {
        return Err(format!("{} is empty", path.display()));
    }
    let name = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let mut recipe = RecipeText { name, text, helpers: library::shipped_helpers() };
    let folder = path.parent().unwrap_or(here);
    add_helpers(&mut recipe, folder)?;
    Ok(recipe)
}

/// The files that a recipe is read from, for one that is not shipped: its own, and helper files beside it.
pub(super) fn files_of(written: &str, here: &Path) -> Vec<PathBuf> {
    let Ok(recipe) = find(written, here) else { return vec![here.join(format!("{written}.rhai"))] };
    if recipe.is_shipped() {
        return Vec::new();
    }
    let is_file = Path::new(written).extension().is_some_and(|end| end == "rhai");
    let path = if is_file { here.join(written) } else { here.join(format!("{written}.rhai")) };
    let folder = path.parent().unwrap_or(here).to_path_buf();
    let helpers = recipe.helpers.keys().map(|name| folder.join(format!("{name}.rhai")));
    std::iter::once(path).chain(helpers).collect()
}

/// Reads the helper files it reaches that lie beside it; they go before shipped ones of the same name.
fn add_helpers(recipe: &mut RecipeText, folder: &Path) -> Result<(), String> {
    let mut waiting = library::imports(&recipe.text);
    let mut seen = Vec::new();
    while let Some(name) = waiting.pop() {
        let plain = !name.is_empty() && name.chars().all(|c| c.is_alphanumeric() || c == '_');
        if seen.contains(&name) || !plain {
            continue;
        }
        match files::read(&folder.join(format!("{name}.rhai"))) {
            Ok(text) => {
                waiting.extend(library::imports(&text));
                recipe.helpers.insert(name.clone(), text);
            }
            Err(FileProblem::Missing(_)) => {
                waiting.extend(recipe.helpers.get(&name).map(|text| library::imports(text)).unwrap_or_default());
            }
            Err(problem) => return Err(problem.to_string()),
        }
        seen.push(name);
    }
    Ok(())
}

/// The names of recipe files in a folder: those that have inputs; helper files have none.
pub(super) fn in_folder(folder: &Path) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    paths
        .filter(|path| path.extension().is_some_and(|end| end == "rhai"))
        .filter(|path| files::read(path).is_ok_and(|text| text.contains("fn inputs(")))
        .filter_map(|path| Some(path.file_stem()?.to_string_lossy().into_owned()))
        .collect()
}
