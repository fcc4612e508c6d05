//! The world outside a page: runs recipes and reads tables for its cells, and detects what has changed since.

use crate::diagnostic::{Diagnose, Diagnostic};
use crate::engine::value::quantity_to_script;
use crate::notebook::{MaterialObject, Source, TableObject, TicketObject, World};
use crate::quantity::Quantity;
use crate::recipe::{Description, Input, InputAnswer, LoadedRecipe, Reply, Task};
use crate::table::from_csv;
use crate::terminal::app::App;
use crate::terminal::files::{self, Stamp, stamp};
use crate::terminal::recipes;
use crate::terminal::workshop_folder;
use crate::workshop::{Workshop, WorkshopFile};
use rhai::Dynamic;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::rc::Rc;
use std::sync::Arc;

/// The stamps of the files that a page depends on, as last seen.
#[derive(Debug, Default)]
pub(crate) struct Watch {
    workshop: Vec<Stamp>,
    others: BTreeMap<Source, Vec<Stamp>>,
}

impl Watch {
    /// Takes the current stamps, for a workshop that has just been read.
    pub(crate) fn of(app: &App<'_>) -> Self {
        Self { workshop: workshop_stamps(app), others: BTreeMap::new() }
    }

    /// Returns the sources that changed since the last call, and updates their stamps.
    pub(crate) fn look(&mut self, app: &App<'_>, sources: &BTreeSet<Source>) -> Vec<Source> {
        let mut changed = Vec::new();
        let workshop = workshop_stamps(app);
        if workshop != self.workshop {
            self.workshop = workshop;
            changed.push(Source::Workshop);
        }
        self.others.retain(|source, _| sources.contains(source));
        for source in sources.iter().filter(|source| **source != Source::Workshop) {
            let now: Vec<Stamp> = files_of(app, source).iter().map(|path| stamp(path)).collect();
            match self.others.get(source) {
                // New here: it was read a moment ago.
                None => {
                    self.others.insert(source.clone(), now);
                }
                Some(before) if *before != now => {
                    self.others.insert(source.clone(), now);
                    changed.push(source.clone());
                }
                Some(_) => {}
            }
        }
        changed
    }
}

fn workshop_stamps(app: &App<'_>) -> Vec<Stamp> {
    let Some(folder) = &app.opened.folder else { return Vec::new() };
    WorkshopFile::ALL.iter().map(|file| stamp(&folder.join(file.name()))).collect()
}

fn files_of(app: &App<'_>, source: &Source) -> Vec<PathBuf> {
    match source {
        Source::Workshop => Vec::new(),
        Source::File(file) => vec![app.folder.join(file)],
        Source::Recipe(name) => recipes::files_of(name, &app.recipe_folders()),
    }
}

impl App<'_> {
    /// Reads the workshop again. On errors it returns them and keeps the old one.
    pub(crate) fn read_workshop_again(&mut self) -> Result<(), Vec<Diagnostic>> {
        let Some(folder) = self.opened.folder.clone() else { return Ok(()) };
        let opened = workshop_folder::open(Some(&folder), &self.folder, None)?;
        // One that could be read whole is better than the settings alone.
        if !opened.faults.is_empty() && self.opened.faults.is_empty() {
            return Err(opened.faults);
        }
        self.opened = opened;
        Ok(())
    }
}

/// Returns a rate or a material by the name that a cell gives it.
pub(super) fn workshop_value(workshop: &Workshop, name: &str) -> Option<Dynamic> {
    let rate = workshop.rate_in_cell(name).map(quantity_to_script);
    rate.or_else(|| Some(Dynamic::from(MaterialObject::new(workshop.material_in_cell(name)?.clone()))))
}

impl World for App<'_> {
    fn inputs(&mut self, recipe: &str) -> Result<Rc<[Input]>, Diagnostic> {
        let recipe = self.find_recipe(recipe)?;
        if let Some(inputs) = self.inputs.get(&recipe.fingerprint) {
            return Ok(Rc::clone(inputs));
        }
        let inputs: Rc<[Input]> = self.description_of(&recipe)?.inputs.clone().into();
        self.inputs.insert(recipe.fingerprint, Rc::clone(&inputs));
        Ok(inputs)
    }

    fn run(&mut self, recipe: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        Ok(Dynamic::from(TicketObject::new(self.order(recipe, Task::Run(answers), false)?)))
    }

    fn make(&mut self, recipe: &str, answers: Vec<(String, InputAnswer)>) -> Result<Dynamic, Diagnostic> {
        Ok(Dynamic::from(TicketObject::new(self.order(recipe, Task::Make(answers), false)?)))
    }

    fn workshop_value(&mut self, name: &str) -> Option<Dynamic> {
        workshop_value(self.opened.reckoned_with(), name)
    }

    fn suppose(&mut self, figures: &[(&str, Quantity)]) -> Result<(), Diagnostic> {
        self.opened.suppose(figures)
    }

    fn read(&mut self, file: &str) -> Result<Dynamic, Diagnostic> {
        let text = files::read(&self.folder.join(file))?;
        let reading = self.opened.workshop.settings.file_reading();
        match from_csv::read_with(file, &text, reading, WorkshopFile::columns_of_any_kind(file)) {
            Ok(table) => Ok(Dynamic::from(TableObject::new(table))),
            Err(file_errors) => {
                let mut errors: Vec<Diagnostic> = Vec::new();
                for file_error in &file_errors {
                    let mut error = file_error.diagnostic(&self.style());
                    // A hint that fits several errors is shown once.
                    if errors.iter().any(|known| known.hint == error.hint) {
                        error.hint = None;
                    }
                    errors.push(error);
                }
                Err(Diagnostic::several("", errors))
            }
        }
    }
}

impl App<'_> {
    /// What a recipe makes and asks, cached by the fingerprint of the recipe.
    pub(crate) fn description(&mut self, name: &str) -> Result<Rc<Description>, Diagnostic> {
        let recipe = self.find_recipe(name)?;
        self.description_of(&recipe)
    }

    fn description_of(&mut self, recipe: &LoadedRecipe) -> Result<Rc<Description>, Diagnostic> {
        if let Some(known) = self.descriptions.get(&recipe.fingerprint) {
            return Ok(Rc::clone(known));
        }
        match self.ask(recipe, Task::Describe) {
            Reply::Described(description) => {
                let description = Rc::new(description);
                self.descriptions.insert(Arc::clone(&recipe.fingerprint), Rc::clone(&description));
                Ok(description)
            }
            reply => Err(crate::terminal::app::no_answer(&reply)),
        }
    }
}
