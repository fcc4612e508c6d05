//! Recipes as such: `recipes`, `describe`, `check`, `draft` and `parcel`.

use super::{Family, after};
use crate::present;
use crate::recipe::{LoadedRecipe, Reply, Task, draft};
use crate::terminal::app::{App, DONE, FAILED, NOT_REMEMBERED, cautions, findings};
use crate::terminal::files::{self, Stamp, stamp};
use crate::terminal::recipe_folders::{ENDING, Place};
use crate::terminal::recipes::{self, HelperFrom};
use crate::terminal::trust_store::TrustStore;
use std::path::{Path, PathBuf};
use std::sync::atomic::Ordering;
use std::time::Duration;

pub(super) const ACTIONS: Family = &[
    ("recipes", |_, app, arguments| Ok(after(app.list_recipes(arguments.value(0))))),
    ("describe", |_, app, arguments| Ok(after(app.describe(arguments.value(0), "run")))),
    ("check", |_, app, arguments| {
        Ok(after(app.check(&arguments.value(0).split_whitespace().map(str::to_owned).collect::<Vec<_>>())))
    }),
];

/// How often a watched file is looked at.
const LOOK_AGAIN: Duration = Duration::from_millis(200);

/// Digits of a fingerprint that are shown, in groups of four: enough to compare by telephone.
const SHOWN_DIGITS: usize = 16;

/// What follows when a recipe passes its check.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Passing {
    /// It is accepted, once it is told what changed.
    Accepts,
    /// That it passed is told, and no more.
    IsTold,
}

impl App<'_> {
    /// Checks recipes, and accepts those that pass. What changed in one that was accepted before is told first.
    pub(crate) fn check(&mut self, names: &[String]) -> u8 {
        let mut code = DONE;
        for name in names {
            code = code.max(self.check_one(name, Passing::Accepts));
        }
        code
    }

    /// Checks recipes, and again each time one of their files is saved, until it is interrupted. A recipe that is being
    /// written is not accepted each time, or what changed since would never be told.
    pub(crate) fn watch(&mut self, names: &[String]) -> u8 {
        let stamps = |app: &Self| {
            let folders = app.recipe_folders();
            let files = names.iter().flat_map(|name| recipes::files_of(name, &folders));
            files.map(|file| (stamp(&file), file)).collect::<Vec<(Stamp, PathBuf)>>()
        };
        loop {
            let before = stamps(self);
            for name in names {
                self.check_one(name, Passing::IsTold);
            }
            self.output.print("save it, and it is checked again; Ctrl-C ends this");
            self.output.flush();
            while stamps(self) == before {
                if self.stop.load(Ordering::SeqCst) || self.output.problem().is_some() {
                    return DONE;
                }
                std::thread::sleep(LOOK_AGAIN);
            }
            // An editor may empty a file before it writes it.
            loop {
                let saved = stamps(self);
                std::thread::sleep(LOOK_AGAIN);
                if stamps(self) == saved {
                    break;
                }
            }
            self.output.print("");
        }
    }

    fn check_one(&mut self, name: &str, passing: Passing) -> u8 {
        let recipe = match self.find_recipe(name) {
            Ok(recipe) => recipe,
            Err(error) => return self.failed_with(&error),
        };
        match self.ask(&recipe, Task::Check) {
            Reply::Checked(report) if report.passed() => {
                let mut code = DONE;
                if passing == Passing::Accepts {
                    self.tell_changes(&recipe);
                    if let Err(problem) = TrustStore::in_folder(self.state_folder.as_deref()).add(&recipe) {
                        code = self.failed(&format!("{problem}\n  {NOT_REMEMBERED}"));
                    }
                }
                self.output.print(&format!(
                    "{}: nothing to mend; {} examples right; {} sizes tried, {} refused with a reason",
                    recipe.text.name, report.examples, report.orders, report.refused
                ));
                let cautions = cautions(&report);
                if !cautions.is_empty() {
                    self.output.print(&cautions);
                }
                code
            }
            Reply::Checked(report) => {
                self.output.eprint(&findings(&recipe.text, &report));
                FAILED
            }
            reply => self.unexpected(&reply),
        }
    }

    /// Lists the recipes that can be run from here; with a word, those about it: `skirt`, `curtains`.
    pub(crate) fn list_recipes(&mut self, about: &str) -> u8 {
        let folders = self.recipe_folders();
        let listed = recipes::names(&folders).filter_map(|name| {
            let read = recipes::read(&name, &folders).ok();
            let whose = match read.as_ref().map(|read| &read.located.place) {
                Some(Place::File(path)) if folders.is_at_home(path) => "your own: ",
                Some(Place::File(_)) => "in this folder: ",
                _ => "",
            };
            let header = read.map(|read| read.recipe.header()).unwrap_or_default();
            (about.is_empty() || header.is_about(&name, about)).then(|| (name, format!("{whose}{}", header.makes)))
        });
        let listed: Vec<(String, String)> = listed.collect();
        if listed.is_empty() {
            return self.failed(&format!("no recipe is about “{about}”\n  type recipes for the whole list"));
        }
        let widest = listed.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
        for (name, makes) in listed {
            self.output.print_wrapped(&format!("{name:widest$}  {makes}"));
        }
        DONE
    }

    /// Prints what a recipe makes and asks; `run` is how its run is typed here, such as `shirr run`.
    pub(crate) fn describe(&mut self, name: &str, run: &str) -> u8 {
        let recipe = match self.find_recipe(name) {
            Ok(recipe) => recipe,
            Err(error) => return self.failed_with(&error),
        };
        match self.ask(&recipe, Task::Describe) {
            Reply::Described(description) => {
                let origin = self.origin(name, &recipe);
                let (style, workshop) = (self.style(), &self.opened.workshop);
                for line in present::description(&recipe.text, &description, &origin, workshop, &style, run) {
                    if line.is_empty() {
                        self.output.print("");
                    }
                    self.output.print_wrapped(&line);
                }
                DONE
            }
            reply => self.unexpected(&reply),
        }
    }

    /// Where a recipe that does not come with the program is from: its file, its helper files, its fingerprint, and
    /// whether it was checked.
    fn origin(&self, name: &str, recipe: &LoadedRecipe) -> Vec<String> {
        if recipe.is_shipped {
            return Vec::new();
        }
        let mut lines = Vec::new();
        if let Ok(read) = recipes::read(name, &self.recipe_folders()) {
            if let Place::File(path) = &read.located.place {
                lines.push(format!("file {}", path.display()));
            }
            let told = |(name, from): (&String, &HelperFrom)| {
                let from = match from {
                    HelperFrom::SameFile => "in the same file",
                    HelperFrom::Beside => "beside it",
                    HelperFrom::Shipped => "comes with the program",
                    HelperFrom::Missing => "missing",
                };
                format!("{name} ({from})")
            };
            if !read.helpers.is_empty() {
                lines.push(format!("helper files {}", read.helpers.iter().map(told).collect::<Vec<_>>().join(", ")));
            }
        }
        let digits: Vec<char> = recipe.fingerprint.chars().take(SHOWN_DIGITS).collect();
        let groups: Vec<String> = digits.chunks(4).map(|group| group.iter().collect()).collect();
        let accepted = TrustStore::in_folder(self.state_folder.as_deref()).accepted(recipe);
        let accepted =
            accepted.unwrap_or_else(|| "not checked yet; that is done before it runs the first time".to_owned());
        lines.push(format!("fingerprint {}   {accepted}", groups.join(" ")));
        lines
    }

    /// Writes a new recipe to begin with, like another where one is named.
    pub(crate) fn draft(&mut self, name: &str, like: Option<&str>) -> u8 {
        let begins = name.starts_with(|c: char| c.is_alphabetic());
        if !begins || !name.chars().all(|c| c.is_alphanumeric() || c == '_') {
            let problem =
                format!("“{name}” cannot be the name of a recipe\n  letters, digits and _ make a name: tea_towel");
            return self.wrong_command(&problem);
        }
        let folders = self.recipe_folders();
        // A new recipe that hides another, or is hidden, would surprise whoever runs it.
        if recipes::names(&folders).any(|known| known == name) {
            return self.failed(&format!("there is a recipe {name} already\n  give yours another name"));
        }
        let text = match like.map(|like| self.find_recipe(like)) {
            None => draft::draft(name, self.opened.workshop.settings.style().tape),
            Some(Ok(recipe)) => draft::draft_like(&recipe.text),
            Some(Err(error)) => return self.failed_with(&error),
        };
        let folder = folders.for_new();
        let file = format!("{name}.{ENDING}");
        match files::create_all(folder, &[(file.clone(), text.into_bytes())]) {
            Ok(()) => {
                self.output.print(&format!(
                    "{} is your recipe; change it with any editor of plain text",
                    folder.join(file).display()
                ));
                self.output.print_wrapped(&format!(
                    "shirr check {name} --watch tells what to mend each time you save it; shirr run {name} runs it"
                ));
                DONE
            }
            Err(problem) => self.failed(&problem.to_string()),
        }
    }

    /// Writes a recipe with its helper files into one file, to pass on.
    pub(crate) fn parcel(&mut self, name: &str, file: &Path) -> u8 {
        let recipe = match self.find_recipe(name) {
            Ok(recipe) => recipe,
            Err(error) => return self.failed_with(&error),
        };
        let path = self.folder.join(file);
        if path.extension().is_none_or(|end| end != ENDING) {
            return self
                .wrong_command(&format!("a recipe's file ends in .{ENDING}: shirr parcel {name} {name}.{ENDING}"));
        }
        let (Some(folder), Some(name_of_file)) = (path.parent(), path.file_name()) else {
            return self.wrong_command("name the file");
        };
        let whole = recipe.text.in_one_file();
        if u64::try_from(whole.len()).is_ok_and(|bytes| bytes > files::MOST_RECIPE_BYTES) {
            let most = files::MOST_RECIPE_BYTES >> 10;
            return self
                .failed(&format!("in one file it would hold more than {most} kB, which nobody could read here"));
        }
        match files::create_all(folder, &[(name_of_file.to_string_lossy().into_owned(), whole.into_bytes())]) {
            Ok(()) => {
                let helpers = recipe.text.reached().len();
                let with = match helpers {
                    0 => "it needs no helper files".to_owned(),
                    1 => "1 helper file is in it".to_owned(),
                    many => format!("{many} helper files are in it"),
                };
                self.output.eprint(&format!("{} is one file to pass on; {with}", path.display()));
                DONE
            }
            Err(problem) => self.failed(&problem.to_string()),
        }
    }
}
