//! Remembers which recipes were checked and accepted, by fingerprint, in the state folder.

use super::files::{self, FileProblem};
use crate::recipe::LoadedRecipe;
use std::path::{Path, PathBuf};

/// The list of accepted fingerprints.
pub(super) struct TrustStore {
    file: Option<PathBuf>,
}

impl TrustStore {
    /// The list in a state folder; without a folder nothing is remembered.
    pub(super) fn in_folder(folder: Option<&Path>) -> Self {
        Self { file: folder.map(|folder| folder.join("accepted-recipes.txt")) }
    }

    fn text(&self) -> String {
        // A list that is missing or cannot be read accepts nothing.
        self.file.as_deref().and_then(|file| files::read(file).ok()).unwrap_or_default()
    }

    /// Whether the current text of a recipe was accepted. Shipped recipes always are.
    pub(super) fn holds(&self, recipe: &LoadedRecipe) -> bool {
        recipe.is_shipped || self.text().lines().any(|line| line.split(' ').next() == Some(&*recipe.fingerprint))
    }

    /// Adds a recipe.
    ///
    /// # Errors
    /// The list cannot be written, and the recipe is checked again next time. A list that cannot be read is left alone:
    /// whatever is in it must not be lost for one recipe.
    pub(super) fn add(&self, recipe: &LoadedRecipe) -> Result<(), FileProblem> {
        let Some(file) = self.file.as_deref().filter(|_| !self.holds(recipe)) else { return Ok(()) };
        let mut text = match files::read(file) {
            Ok(text) => text,
            Err(FileProblem::Missing(_)) => String::new(),
            Err(problem) => return Err(problem),
        };
        if !text.is_empty() && !text.ends_with('\n') {
            text.push('\n');
        }
        text.extend([&*recipe.fingerprint, " ", &recipe.text.name, "\n"]);
        files::replace(file, text.as_bytes())
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
        assert_eq!(text, format!("{} mine\n{} mine\n", one.fingerprint, two.fingerprint));
        // A last line without its end is ended first.
        fs::write(&file, text.trim_end()).unwrap();
        let three = recipe("fn inputs() { [  ] }");
        store.add(&three).unwrap();
        assert_eq!(fs::read_to_string(&file).unwrap(), format!("{text}{} mine\n", three.fingerprint));
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
