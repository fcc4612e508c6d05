//! Writes the reference into a folder: the shipped recipes and those in the current folder, the pages about the
//! program, its man page and completions.

use crate::diagnostic::Diagnostic;
use crate::present::reference::{PAGE, Presented, reference};
use crate::recipe::{LoadedRecipe, RecipeText, Reply, Task};
use crate::report::excerpt;
use crate::terminal::app::{App, DONE, no_answer};
use crate::terminal::{files, manual, recipes};
use std::path::Path;

impl App<'_> {
    /// Writes the reference; a recipe that fails is reported and left out.
    pub(crate) fn reference(&mut self, folder: &Path) -> u8 {
        let mut presented = Vec::new();
        for name in recipes::names(&self.recipe_folders()) {
            match self.find_recipe(&name).and_then(|recipe| self.present(&recipe)) {
                Ok(recipe) => presented.push(recipe),
                Err(error) => self.output.eprint(&format!("{name} is left out: {}", excerpt::text(&error))),
            }
        }
        let folder = self.folder.join(folder);
        let drawn = reference(&presented, &self.style());
        let files = match drawn.and_then(|files| Ok([files, manual::files()?].concat())) {
            Ok(files) => files,
            Err(error) => return self.failed(&error.to_string()),
        };
        match files::replace_all(&folder, &files) {
            Ok(()) => {
                let page = folder.join(PAGE);
                self.output.eprint(&format!("{} recipes are in {}", presented.len(), page.display()));
                DONE
            }
            Err(problem) => self.failed(&problem.to_string()),
        }
    }

    fn present(&mut self, recipe: &LoadedRecipe) -> Result<Presented, Diagnostic> {
        let description = match self.ask(recipe, Task::Describe) {
            Reply::Described(description) => description,
            reply => return Err(no_answer(&reply)),
        };
        match self.ask(recipe, Task::Examples) {
            Reply::Worked(examples) => Ok(Presented { recipe: RecipeText::clone(&recipe.text), description, examples }),
            reply => Err(no_answer(&reply)),
        }
    }
}
