//! Finds a recipe by name or file, with the helper files it imports.

use super::files::{self, FileProblem, Stamp, stamp};
use crate::quantity::nearest::nearest;
use crate::recipe::{LoadedRecipe, RecipeText, library};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// A file that was changed more recently may change again without a new time stamp.
const TICK: Duration = Duration::from_secs(2);

/// A cache of recipes; each is read again if the stamp of one of its files changes.
#[derive(Debug, Default)]
pub(super) struct FoundRecipes(BTreeMap<(PathBuf, String), FoundRecipe>);

#[derive(Debug)]
struct FoundRecipe {
    /// The files it was read from, and missing files that would be read if they existed; empty for a shipped
    /// recipe.
    files: Vec<(PathBuf, Stamp)>,
    recipe: LoadedRecipe,
}

impl FoundRecipe {
    fn is_current(&self) -> bool {
        self.files.iter().all(|(file, before)| stamp(file) == *before)
    }
}

impl FoundRecipes {
    /// Finds a recipe by name or file, in the cache if its files are unchanged.
    pub(super) fn find(&mut self, written: &str, here: &Path) -> Result<LoadedRecipe, String> {
        let place = (here.to_path_buf(), written.to_owned());
        if let Some(found) = self.0.get(&place).filter(|found| found.is_current()) {
            return Ok(found.recipe.clone());
        }
        let (text, files) = read(written, here)?;
        let files: Vec<(PathBuf, Stamp)> = files.into_iter().map(|file| (file.clone(), stamp(&file))).collect();
        let recipe = LoadedRecipe::from(text);
        let settled = |(changed, _): &(SystemTime, u64)| changed.elapsed().is_ok_and(|since| since > TICK);
        // A recipe that changed while it was read, or just before, is read again next time.
        if files.iter().all(|(_, stamp)| stamp.as_ref().is_none_or(settled)) {
            self.0.insert(place, FoundRecipe { files, recipe: recipe.clone() });
        }
        Ok(recipe)
    }
}

/// Reads a recipe by name or file, without the cache.
pub(super) fn find(written: &str, here: &Path) -> Result<RecipeText, String> {
    read(written, here).map(|(recipe, _)| recipe)
}

/// Reads a recipe; also returns the files it depends on, whether they exist or not.
fn read(written: &str, here: &Path) -> Result<(RecipeText, Vec<PathBuf>), String> {
    let is_file = written.contains(['/', '\\']) || Path::new(written).extension().is_some_and(|end| end == "rhai");
    let local_file = here.join(format!("{written}.rhai"));
    if !is_file {
        if let Some(shipped) = library::shipped(written) {
            return Ok((shipped, Vec::new()));
        }
        if !local_file.is_file() {
            let holds = |name: &&str| written.len() > 2 && name.contains(&written.to_lowercase());
            let near = nearest(written, library::shipped_names()).or_else(|| library::shipped_names().find(holds));
            let hint = near.map_or_else(
                || "recipes lists those there are; a file is named with its ending: mine.rhai".to_owned(),
                |near| format!("did you mean {near}?"),
            );
            return Err(format!("there is no recipe “{written}”\n  {hint}"));
        }
    }
    let path = if is_file { here.join(written) } else { local_file };
    let text = files::read(&path).map_err(|problem| problem.to_string())?;
    if text.trim().is_empty() {
        return Err(format!("{} is empty", path.display()));
    }
    let name = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let mut recipe = RecipeText { name, text, helpers: library::shipped_helpers() };
    let folder = path.parent().unwrap_or(here);
    let helpers = add_helpers(&mut recipe, folder)?;
    let helpers = helpers.iter().map(|name| folder.join(format!("{name}.rhai")));
    let files = std::iter::once(path.clone()).chain(helpers).collect();
    Ok((recipe, files))
}

/// The files of a recipe that is not shipped: its own, and helper files beside it. Empty for a shipped recipe.
pub(super) fn files_of(written: &str, here: &Path) -> Vec<PathBuf> {
    if library::shipped_names().any(|name| name == written) {
        return Vec::new();
    }
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

/// Reads the helper files beside a recipe that it imports, directly or through others; they take precedence
/// over shipped ones of the same name. Returns the names of all its imports.
fn add_helpers(recipe: &mut RecipeText, folder: &Path) -> Result<Vec<String>, String> {
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
    Ok(seen)
}

/// The names of the recipes that can be run from a folder.
pub(super) fn names(folder: &Path) -> impl Iterator<Item = String> {
    library::shipped_names().map(str::to_owned).chain(in_folder(folder))
}

/// The names of the recipes in a folder: files that define inputs; helper files do not.
pub(super) fn in_folder(folder: &Path) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    paths
        .filter(|path| path.extension().is_some_and(|end| end == "rhai"))
        .filter(|path| files::read(path).is_ok_and(|text| text.contains("fn inputs(")))
        .filter_map(|path| Some(path.file_stem()?.to_string_lossy().into_owned()))
        .collect()
}
