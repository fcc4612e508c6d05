//! Finds a recipe by name or file, with the helper files it imports.

use super::files::{self, FileProblem, Stamp, stamp};
use super::recipe_folders::{ENDING, Located, Place, RecipeFolders};
use crate::quantity::nearest::nearest;
use crate::recipe::one_file::{self, MOST_HELPERS};
use crate::recipe::{LoadedRecipe, RecipeText, library};
use crate::report::plain_text::is_unseen;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// A file that was changed more recently may change again without a new time stamp.
const TICK: Duration = Duration::from_secs(2);

/// A cache of recipes; each is read again if the stamp of one of its files changes.
#[derive(Debug, Default)]
pub(super) struct FoundRecipes(BTreeMap<(RecipeFolders, String), FoundRecipe>);

#[derive(Debug)]
struct FoundRecipe {
    /// The files it was read from, and missing files that would be read if they existed.
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
    pub(super) fn find(&mut self, written: &str, folders: &RecipeFolders) -> Result<LoadedRecipe, String> {
        let place = (folders.clone(), written.to_owned());
        if let Some(found) = self.0.get(&place).filter(|found| found.is_current()) {
            return Ok(found.recipe.clone());
        }
        let read = read(written, folders)?;
        let files: Vec<(PathBuf, Stamp)> = read.files.into_iter().map(|file| (file.clone(), stamp(&file))).collect();
        let recipe = LoadedRecipe::from(read.recipe);
        let settled = |(changed, _): &(SystemTime, u64)| changed.elapsed().is_ok_and(|since| since > TICK);
        // A recipe that changed while it was read, or just before, is read again next time.
        if files.iter().all(|(_, stamp)| stamp.as_ref().is_none_or(settled)) {
            self.0.insert(place, FoundRecipe { files, recipe: recipe.clone() });
        }
        Ok(recipe)
    }
}

/// A recipe as it was read.
#[derive(Debug)]
pub(super) struct ReadRecipe {
    pub(super) recipe: RecipeText,
    /// Where it was found, and what else has its name.
    pub(super) located: Located,
    /// Each helper file that it imports, directly or through others, and where it came from.
    pub(super) helpers: BTreeMap<String, HelperFrom>,
    /// The files it depends on, whether they exist or not.
    files: Vec<PathBuf>,
}

/// Where the text of a helper file came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum HelperFrom {
    /// The file of the recipe, below it.
    SameFile,
    /// A file beside the recipe.
    Beside,
    /// It comes with the program.
    Shipped,
    /// Nowhere: it is missing.
    Missing,
}

/// Reads a recipe by name or file, without the cache.
pub(super) fn read(written: &str, folders: &RecipeFolders) -> Result<ReadRecipe, String> {
    let located = folders.locate(written);
    let path = match &located.place {
        Place::Shipped => {
            let recipe = library::shipped(written).ok_or_else(|| no_recipe(written, folders))?;
            let helpers = recipe.reached().keys().map(|name| ((*name).to_owned(), HelperFrom::Shipped)).collect();
            let files = located.decides.clone();
            return Ok(ReadRecipe { recipe, located, helpers, files });
        }
        Place::File(path) if located.by_name && !path.is_file() => return Err(no_recipe(written, folders)),
        Place::File(path) => path.clone(),
    };
    let text = files::read_recipe(&path).map_err(|problem| problem.to_string())?;
    if text.trim().is_empty() {
        return Err(format!("{} is empty", path.display()));
    }
    let (text, inside) = one_file::apart(&text).map_err(|problem| format!("{}: {problem}", path.display()))?;
    let name = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let mut recipe = RecipeText { name, text, helpers: library::shipped_helpers() };
    let folder = path.parent().unwrap_or(&folders.here);
    let helpers = add_helpers(&mut recipe, &inside, folder)?;
    let beside = helpers.keys().map(|name| folder.join(format!("{name}.{ENDING}")));
    let mut files = located.decides.clone();
    files.push(path.clone());
    files.extend(beside);
    Ok(ReadRecipe { recipe, located, helpers, files })
}

fn no_recipe(written: &str, folders: &RecipeFolders) -> String {
    let names: Vec<String> = names(folders).collect();
    let holds = |name: &&str| written.len() > 2 && name.contains(&written.to_lowercase());
    let known = || names.iter().map(String::as_str);
    let near = nearest(written, known()).or_else(|| known().find(holds));
    let hint = near.map_or_else(
        || "recipes lists those there are; a file is named with its ending: mine.rhai".to_owned(),
        |near| format!("did you mean {near}?"),
    );
    format!("there is no recipe “{written}”\n  {hint}")
}

/// The files that a recipe depends on, whether they exist or not.
pub(super) fn files_of(written: &str, folders: &RecipeFolders) -> Vec<PathBuf> {
    let located = folders.locate(written);
    match located.place {
        // Only a file of its name at home would change it.
        Place::Shipped => located.decides,
        Place::File(_) => read(written, folders).map_or(located.decides, |read| read.files),
    }
}

/// Adds the helper files that a recipe imports, directly or through others: those in its own file, then those beside it,
/// then the shipped ones. Returns the names of all its imports.
fn add_helpers(
    recipe: &mut RecipeText,
    inside: &BTreeMap<String, String>,
    folder: &Path,
) -> Result<BTreeMap<String, HelperFrom>, String> {
    let mut waiting = library::imports(&recipe.text);
    let mut seen = BTreeMap::new();
    while let Some(name) = waiting.pop() {
        let plain = !name.is_empty() && name.chars().all(|c| c.is_alphanumeric() || c == '_');
        if seen.contains_key(&name) || !plain {
            continue;
        }
        if seen.len() >= MOST_HELPERS {
            return Err(format!("{} imports more than {MOST_HELPERS} helper files", recipe.name));
        }
        let from = if let Some(text) = inside.get(&name) {
            recipe.helpers.insert(name.clone(), text.clone());
            HelperFrom::SameFile
        } else {
            match files::read_recipe(&folder.join(format!("{name}.{ENDING}"))) {
                Ok(text) => {
                    recipe.helpers.insert(name.clone(), text);
                    HelperFrom::Beside
                }
                Err(FileProblem::Missing(_)) if recipe.helpers.contains_key(&name) => HelperFrom::Shipped,
                Err(FileProblem::Missing(_)) => HelperFrom::Missing,
                Err(problem) => return Err(problem.to_string()),
            }
        };
        waiting.extend(recipe.helpers.get(&name).map(|text| library::imports(text)).unwrap_or_default());
        seen.insert(name, from);
    }
    Ok(seen)
}

/// The names of the recipes that can be run: the shipped ones, those at home and those in the folder.
pub(super) fn names(folders: &RecipeFolders) -> impl Iterator<Item = String> {
    let mut names: Vec<String> = library::shipped_names().map(str::to_owned).collect();
    names.extend(folders.homes.iter().chain([&folders.here]).flat_map(|folder| in_folder(folder)));
    names.sort();
    names.dedup();
    names.into_iter()
}

/// The names of the recipes in a folder: files that define inputs; helper files do not.
fn in_folder(folder: &Path) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    paths
        .filter(|path| path.extension().is_some_and(|end| end == "rhai"))
        .filter(|path| files::read_recipe(path).is_ok_and(|text| text.contains("fn inputs(")))
        .filter_map(|path| Some(path.file_stem()?.to_string_lossy().into_owned()))
        .filter(|name| !name.chars().any(is_unseen))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    fn here(folder: &Path) -> RecipeFolders {
        RecipeFolders::new(folder, None, None)
    }

    fn find(written: &str, folder: &Path) -> Result<RecipeText, String> {
        read(written, &here(folder)).map(|read| read.recipe)
    }

    /// A recipe that asks nothing, and has an import where one is named.
    fn recipe(import: &str) -> String {
        let import = if import.is_empty() { String::new() } else { format!("import \"{import}\" as {import};\n") };
        format!("{import}fn inputs() {{ [] }}\nfn make(order, ticket) {{ }}\n")
    }

    #[test]
    fn a_recipe_is_found_by_name_or_by_its_file() {
        let here = tempfile::tempdir().unwrap();
        let at = |name: &str| here.path().join(name);
        fs::create_dir(at("sub")).unwrap();
        for name in ["mine.rhai", "sub/other.rhai", "gathered_skirt.rhai"] {
            fs::write(at(name), recipe("")).unwrap();
        }
        fs::write(at("empty.rhai"), " \n").unwrap();
        fs::write(at("helper.rhai"), "fn wide() { 3 }\n").unwrap();
        for (written, name) in [("mine", "mine"), ("mine.rhai", "mine"), ("sub/other.rhai", "other")] {
            let found = find(written, here.path()).unwrap();
            assert_eq!((found.name.as_str(), found.text), (name, recipe("")), "{written}");
        }
        // A name is that of the shipped recipe, a file that of the folder.
        assert_ne!(find("gathered_skirt", here.path()).unwrap().text, recipe(""));
        assert_eq!(find("gathered_skirt.rhai", here.path()).unwrap().text, recipe(""));
        assert!(find("empty", here.path()).unwrap_err().ends_with("empty.rhai is empty"));
        assert!(find("none.rhai", here.path()).unwrap_err().starts_with("there is no file "));
        let mut found = in_folder(here.path());
        found.sort();
        assert_eq!(found, ["gathered_skirt", "mine"]);
        let folders = self::here(here.path());
        assert!(names(&folders).any(|name| name == "mine") && names(&folders).any(|name| name == "puff_sleeve"));
        assert!(in_folder(&at("none")).is_empty());
    }

    #[test]
    fn a_recipe_that_is_not_there_is_told_with_one_that_is() {
        let here = tempfile::tempdir().unwrap();
        let hint = |written: &str| {
            let error = find(written, here.path()).unwrap_err();
            let (message, hint) = error.split_once("\n  ").unwrap();
            assert_eq!(message, format!("there is no recipe “{written}”"));
            hint.to_owned()
        };
        assert_eq!(hint("gathered_skrit"), "did you mean gathered_skirt?");
        // Three letters within a name are enough, two are not.
        assert_eq!(hint("BUNT"), "did you mean bunting?");
        assert!(hint("nti").starts_with("did you mean bunting"));
        assert!(hint("zz").starts_with("recipes lists those there are"));
        assert!(hint("nt").starts_with("recipes lists those there are"));
    }

    #[test]
    fn helpers_beside_a_recipe_are_read_with_it_and_watched() {
        let here = tempfile::tempdir().unwrap();
        let at = |name: &str| here.path().join(name);
        fs::write(at("mine.rhai"), recipe("one")).unwrap();
        fs::write(at("one.rhai"), "import \"two\" as two;\nfn a() { 1 }\n").unwrap();
        fs::write(at("two.rhai"), "import \"one\" as one;\nfn b() { 2 }\n").unwrap();
        fs::write(at("apart.rhai"), "fn c() { 3 }\n").unwrap();
        let found = find("mine", here.path()).unwrap();
        assert!(found.helpers["one"].contains("fn a") && found.helpers["two"].contains("fn b"));
        assert!(!found.helpers.contains_key("apart"));
        let folders = self::here(here.path());
        let files = files_of("mine", &folders);
        assert!(["mine.rhai", "one.rhai", "two.rhai"].iter().all(|name| files.contains(&at(name))), "{files:?}");
        assert!(!files.contains(&at("apart.rhai")));
        assert_eq!(files_of("mine.rhai", &folders)[0], at("mine.rhai"));
        // A shipped one changes only by a file of its name.
        assert_eq!(files_of("gathered_skirt", &folders), [at("gathered_skirt.rhai")]);
        // One that is not there yet is watched under the name it would have.
        assert_eq!(files_of("later", &folders), [at("later.rhai")]);
        // A helper that cannot be read is told.
        fs::write(at("two.rhai"), [0xff, 0xfe]).unwrap();
        assert!(find("mine", here.path()).unwrap_err().contains("two.rhai is not plain text"));
    }

    #[test]
    fn a_recipe_is_read_again_when_one_of_its_files_changes() {
        let here = tempfile::tempdir().unwrap();
        let at = |name: &str| here.path().join(name);
        let written = |name: &str, text: &str, age: u64| {
            fs::write(at(name), text).unwrap();
            let when = SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000 + age);
            fs::File::options().write(true).open(at(name)).unwrap().set_modified(when).unwrap();
        };
        written("mine.rhai", &recipe("one"), 0);
        let mut found = FoundRecipes::default();
        let folders = self::here(here.path());
        let first = found.find("mine", &folders).unwrap();
        assert_eq!(found.0.len(), 1);
        let again = found.find("mine", &folders).unwrap();
        assert_eq!(first.fingerprint, again.fingerprint);
        // A helper that was missing is there now; then the recipe itself is another.
        written("one.rhai", "fn a() { 1 }\n", 1);
        let helped = found.find("mine", &folders).unwrap();
        assert_ne!(first.fingerprint, helped.fingerprint);
        written("mine.rhai", &recipe(""), 2);
        assert_ne!(helped.fingerprint, found.find("mine", &folders).unwrap().fingerprint);
        // What was written this moment may be written again within it, and is not kept.
        fs::write(at("now.rhai"), recipe("")).unwrap();
        found.find("now", &folders).unwrap();
        assert_eq!(found.0.len(), 1);
    }
}
