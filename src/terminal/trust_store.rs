//! Remembers which recipes were checked and accepted, by fingerprint, in the state folder, and keeps the text of each
//! recipe that was accepted last.

use super::files::{self, FileProblem};
use super::today;
use crate::recipe::{LoadedRecipe, RecipeText, library, one_file};
use std::path::{Path, PathBuf};

/// The list of accepted fingerprints.
pub(super) struct TrustStore {
    folder: Option<PathBuf>,
}

/// A line of the list: `fingerprint day name`; older lines have no day.
struct Accepted<'l> {
    fingerprint: &'l str,
    day: Option<&'l str>,
}

impl<'l> Accepted<'l> {
    fn read(line: &'l str) -> Self {
        let (fingerprint, rest) = line.split_once(' ').unwrap_or((line, ""));
        Self { fingerprint, day: rest.split(' ').next().filter(|word| today::is_day(word)) }
    }
}

impl TrustStore {
    /// The list in a state folder; without a folder nothing is remembered.
    pub(super) fn in_folder(folder: Option<&Path>) -> Self {
        Self { folder: folder.map(Path::to_path_buf) }
    }

    fn file(&self) -> Option<PathBuf> {
        Some(self.folder.as_ref()?.join("accepted-recipes.txt"))
    }

    /// Where the text of a recipe is kept that was accepted last.
    fn kept_file(&self, recipe: &LoadedRecipe) -> Option<PathBuf> {
        Some(self.folder.as_ref()?.join("accepted").join(format!("{}.rhai", recipe.text.name)))
    }

    fn text(&self) -> String {
        // A list that is missing or cannot be read accepts nothing.
        self.file().and_then(|file| files::read(&file).ok()).unwrap_or_default()
    }

    /// Whether the current text of a recipe was accepted. Shipped recipes always are.
    pub(super) fn holds(&self, recipe: &LoadedRecipe) -> bool {
        recipe.is_shipped || self.accepted(recipe).is_some()
    }

    /// That the current text of a recipe was accepted, in words, with the day if it is known; `None` if it was not.
    pub(super) fn accepted(&self, recipe: &LoadedRecipe) -> Option<String> {
        let text = self.text();
        let mut lines = text.lines().map(Accepted::read).filter(|line| line.fingerprint == &*recipe.fingerprint);
        let day = lines.next()?.day;
        Some(day.map_or_else(|| "checked and accepted".to_owned(), |day| format!("checked and accepted on {day}")))
    }

    /// The text that was accepted last under the name of a recipe, if it is another.
    pub(super) fn kept(&self, recipe: &LoadedRecipe) -> Option<LoadedRecipe> {
        let text = files::read(&self.kept_file(recipe)?).ok()?;
        let (text, helpers) = one_file::apart(&text).ok()?;
        let helpers = library::shipped_helpers().into_iter().chain(helpers).collect();
        let kept = LoadedRecipe::from(RecipeText { name: recipe.text.name.clone(), text, helpers });
        (kept.fingerprint != recipe.fingerprint).then_some(kept)
    }

    /// Adds a recipe.
    ///
    /// # Errors
    /// The list cannot be written, and the recipe is checked again next time. A list that cannot be read is left alone:
    /// whatever is in it must not be lost for one recipe.
    pub(super) fn add(&self, recipe: &LoadedRecipe) -> Result<(), FileProblem> {
        let (Some(file), Some(kept)) = (self.file(), self.kept_file(recipe)) else { return Ok(()) };
        if recipe.is_shipped {
            return Ok(());
        }
        let whole = recipe.text.in_one_file();
        if files::read(&kept).ok().as_deref() != Some(&whole) {
            files::replace_private(&kept, whole.as_bytes())?;
        }
        if self.holds(recipe) {
            return Ok(());
        }
        let mut text = match files::read(&file) {
            Ok(text) => text,
            Err(FileProblem::Missing(_)) => String::new(),
            Err(problem) => return Err(problem),
        };
        if !text.is_empty() && !text.ends_with('\n') {
            text.push('\n');
        }
        text.extend([&*recipe.fingerprint, " ", &today::in_figures(), " ", &recipe.text.name, "\n"]);
        files::replace(&file, text.as_bytes())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::{RecipeText, library};
    use std::collections::BTreeMap;
    use std::fs;

    fn recipe(text: &str) -> LoadedRecipe {
        LoadedRecipe::from(RecipeText { name: "mine".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() })
    }

    #[test]
    fn a_recipe_is_accepted_by_its_whole_text_and_only_once() {
        let state = tempfile::tempdir().unwrap();
        let file = state.path().join("accepted-recipes.txt");
        let store = TrustStore::in_folder(Some(state.path()));
        let (one, two) = (recipe("fn inputs() { [] }"), recipe("fn inputs() { [ ] }"));
        assert!(!store.holds(&one) && store.holds(&LoadedRecipe::from(library::shipped("puff_sleeve").unwrap())));
        store.add(&one).unwrap();
        assert!(store.holds(&one) && !store.holds(&two));
        store.add(&one).unwrap();
        store.add(&two).unwrap();
        let text = fs::read_to_string(&file).unwrap();
        let day = today::in_figures();
        assert_eq!(text, format!("{} {day} mine\n{} {day} mine\n", one.fingerprint, two.fingerprint));
        // A last line without its end is ended first.
        fs::write(&file, text.trim_end()).unwrap();
        let three = recipe("fn inputs() { [  ] }");
        store.add(&three).unwrap();
        assert_eq!(fs::read_to_string(&file).unwrap(), format!("{text}{} {day} mine\n", three.fingerprint));
        assert!([&one, &two, &three].into_iter().all(|recipe| store.holds(recipe)));
    }

    #[test]
    fn a_list_that_cannot_be_read_accepts_nothing_and_is_left_alone() {
        let state = tempfile::tempdir().unwrap();
        let file = state.path().join("accepted-recipes.txt");
        fs::write(&file, [0xff, 0xfe]).unwrap();
        let store = TrustStore::in_folder(Some(state.path()));
        let one = recipe("fn inputs() { [] }");
        assert!(!store.holds(&one) && store.add(&one).is_err());
        assert_eq!(fs::read(&file).unwrap(), [0xff, 0xfe]);
        // Where nothing is remembered nothing is accepted, and nothing fails.
        let nowhere = TrustStore::in_folder(None);
        assert!(nowhere.add(&one).is_ok() && !nowhere.holds(&one));
    }
}
