//! Remembers which recipes were checked and accepted, by fingerprint, in the state folder.

use super::files;
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

    /// Adds a recipe. If it cannot be saved, the recipe is checked again next time.
    pub(super) fn add(&self, recipe: &LoadedRecipe) {
        let Some(file) = &self.file else { return };
        let mut text = self.text();
        if !text.is_empty() && !text.ends_with('\n') {
            text.push('\n');
        }
        text.extend([&*recipe.fingerprint, " ", &recipe.text.name, "\n"]);
        let _remembered = files::replace(file, text.as_bytes());
    }
}
