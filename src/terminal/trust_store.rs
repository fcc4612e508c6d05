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
