//! The state that all commands share (output, workshop, stop flag), and how they ask recipes and make and show
//! orders.

use super::export;
use super::files;
use super::output::Output;
use super::recipe_folders::{Place, RecipeFolders};
use super::recipes::{self, FoundRecipes};
use super::today;
use super::trust_store::TrustStore;
use super::worker::{Asked, Worker};
use super::workshop_folder::Opened;
use crate::cutting::Planner;
use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::engine::limits::{Limits, StopFlag};
use crate::engine::{Host, value};
use crate::notebook;
use crate::present::{self, PictureNote};
use crate::quantity::Style;
use crate::recipe::{
    CheckReport, ClothRange, Description, Input, LoadedRecipe, OpenRecipes, RecipeText, RecipeVersion, Reply, Task,
    lines_changed, what_changed,
};
use crate::report::{self, excerpt, wrap};
use crate::table::Dialect;
use crate::ticket::{self, Ticket, WorkshopOrder, cautions};
use rhai::Dynamic;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// Exit code: done.
pub(super) const DONE: u8 = 0;
/// Exit code: a sum, check or cell failed.
pub(super) const FAILED: u8 = 1;
/// Exit code: the command line is wrong.
pub(super) const WRONG_COMMAND: u8 = 2;
/// Exit code: interrupted.
pub(super) const INTERRUPTED: u8 = 130;

/// The state that all commands share.
pub(super) struct App<'d> {
    pub(super) output: Output<'d>,
    pub(super) opened: Opened,
    pub(super) stop: StopFlag,
    pub(super) folder: PathBuf,
    /// The folder of the user's own workshop and recipes.
    pub(super) data_folder: Option<PathBuf>,
    pub(super) state_folder: Option<PathBuf>,
    pub(super) planner: Planner,
    pub(super) recipes: OpenRecipes,
    pub(super) found: FoundRecipes,
    /// The names of recipes that were looked at for others of the same name.
    pub(super) looked_at: BTreeSet<String>,
    /// What recipes make and ask, by fingerprint.
    pub(super) descriptions: BTreeMap<Arc<str>, Rc<Description>>,
    pub(super) inputs: BTreeMap<Arc<str>, Rc<[Input]>>,
    /// The environment variables that the program reads.
    pub(super) variables: BTreeMap<String, String>,
    /// Whether to show the progress of a search.
    pub(super) shows_progress: bool,
    /// Whether a person sits at the terminal, who can be asked.
    pub(super) asks: bool,
    pub(super) worker: Worker,
}

impl App<'_> {
    pub(super) fn style(&self) -> Style {
        self.output.style(self.opened.workshop.settings.style())
    }

    /// An engine for cells.
    pub(super) fn host(&self) -> Host {
        let reading = self.opened.workshop.settings.reading();
        let mut host = Host::new(reading, self.style(), Limits::CELL, Arc::clone(&self.stop));
        notebook::register(&mut host);
        host
    }

    /// Whether a recipe of this name can be run here.
    pub(super) fn is_recipe(&self, name: &str) -> bool {
        recipes::names(&self.recipe_folders()).any(|known| known == name)
    }

    /// The folders in which recipes are looked for.
    pub(super) fn recipe_folders(&self) -> RecipeFolders {
        RecipeFolders::new(&self.folder, self.opened.folder.as_deref(), self.data_folder.as_deref())
    }

    /// Finds a recipe by name or file. That another of the same name is not taken is said once.
    pub(super) fn find_recipe(&mut self, name: &str) -> Result<LoadedRecipe, Diagnostic> {
        let folders = self.recipe_folders();
        let recipe = self.found.find(name, &folders).map_err(Diagnostic::new)?;
        if self.looked_at.insert(name.to_owned()) {
            let located = folders.locate(name);
            let used = match &located.place {
                Place::Shipped => "the one that comes with the program".to_owned(),
                Place::File(path) => path.display().to_string(),
            };
            let told = match &located.hidden {
                Some(Place::Shipped) => "not the one that comes with the program".to_owned(),
                Some(Place::File(other)) => {
                    let other = other.strip_prefix(&self.folder).unwrap_or(other).display();
                    format!("not {other}: for that, type the name of the file")
                }
                None => return Ok(recipe),
            };
            self.output.eprint(&format!("{name} is {used}, {told}"));
        }
        Ok(recipe)
    }

    pub(super) fn failed(&mut self, message: &str) -> u8 {
        self.output.eprint(message);
        if self.stop.load(Ordering::SeqCst) { INTERRUPTED } else { FAILED }
    }

    /// Prints an error in full; returns the exit code.
    pub(super) fn failed_with(&mut self, error: &Diagnostic) -> u8 {
        self.failed(&excerpt::text(error))
    }

    pub(super) fn wrong_command(&mut self, message: &str) -> u8 {
        self.output.eprint(message);
        WRONG_COMMAND
    }

    /// Prints the cautions that functions raised.
    pub(super) fn print_cautions(&mut self, host: &Host) {
        for key in host.take_notices() {
            if let Some(caution) = cautions::caution(key) {
                let lines = wrap::hang("caution: ", &caution.whole_text(), self.output.width);
                self.output.eprint(&lines.join("\n"));
            }
        }
    }

    /// Prints the body measures to check again before anything is cut by them.
    pub(super) fn print_warnings(&mut self, ticket: &Ticket) {
        for warning in &ticket.warnings {
            let lines = wrap::hang("measure again: ", warning, self.output.width);
            self.output.eprint(&lines.join("\n"));
        }
    }

    /// Warns of a product that makes no sense, such as money times length.
    pub(super) fn warn_odd_product(&mut self, value: &Dynamic) {
        let Some(quantity) = value::quantity_from_script(value) else { return };
        let dimension = quantity.dimension();
        if let Some(product) = dimension.odd_product() {
            let shown = self.style().show(quantity);
            let sign = self.opened.workshop.settings.style().currency;
            let price = if dimension.money > 0 && dimension.length > 0 {
                format!("; a price by the length is typed {sign}6/yd")
            } else {
                String::new()
            };
            self.output.eprint(&format!("  {shown} is {product}, which is no measure of the trade{price}"));
        }
    }

    /// Sends a task to a recipe: in this process if it is shipped, else in a process of its own, accepted or not.
    pub(super) fn ask(&mut self, recipe: &LoadedRecipe, task: Task) -> Reply {
        if matches!(task, Task::Run(_) | Task::Make(_))
            && let Err(faults) = self.opened.check()
        {
            return Reply::Failed(vec![faults]);
        }
        let plain = self.output.plain;
        if recipe.is_shipped {
            return self.recipes.answer(recipe, &self.opened.workshop, plain, task);
        }
        self.worker.answer(&Asked { recipe, opened: &self.opened, plain, task: &task }, &self.stop)
    }

    /// Checks a recipe that was never accepted, and accepts it if there are no findings. `anyway` skips this.
    fn accept(&mut self, recipe: &LoadedRecipe, anyway: bool) -> Result<(), Diagnostic> {
        let accepted = TrustStore::in_folder(self.state_folder.as_deref());
        if anyway || accepted.holds(recipe) {
            return Ok(());
        }
        self.output.eprint(&format!("checking {} before it is run for the first time", recipe.text.name));
        match self.ask(recipe, Task::Check) {
            Reply::Checked(report) if report.passed() => {
                self.tell_changes(recipe);
                // The order does not depend on it.
                if let Err(problem) = accepted.add(recipe) {
                    self.output.eprint(&format!("{problem}\n  {NOT_REMEMBERED}"));
                }
                Ok(())
            }
            Reply::Checked(report) => {
                let mend = Diagnostic::new("mend it, or run it all the same with --anyway");
                Err(Diagnostic::several(findings(&recipe.text, &report), vec![mend]))
            }
            reply => Err(no_answer(&reply)),
        }
    }

    /// Tells what changed in a recipe since it was accepted, if it was, with another text.
    pub(super) fn tell_changes(&mut self, recipe: &LoadedRecipe) {
        let Some(before) = TrustStore::in_folder(self.state_folder.as_deref()).kept(recipe) else { return };
        let style = self.style();
        let asked = [&before, recipe].map(|text| (self.ask(text, Task::Describe), self.ask(text, Task::Examples)));
        let told = match &asked {
            [
                (Reply::Described(first), Reply::Worked(examples)),
                (Reply::Described(second), Reply::Worked(examples_now)),
            ] => {
                let was = RecipeVersion { text: &before.text, description: first, examples };
                let is = RecipeVersion { text: &recipe.text, description: second, examples: examples_now };
                what_changed(was, is, &style)
            }
            // One of them no longer runs here.
            _ => vec![lines_changed(&before.text, &recipe.text)],
        };
        self.output.eprint(&format!("{} is not the text that you accepted:", recipe.text.name));
        for line in told {
            let lines = wrap::hang("- ", &line, self.output.width);
            self.output.eprint(&lines.join("\n"));
        }
    }

    pub(super) fn unexpected(&mut self, reply: &Reply) -> u8 {
        self.failed_with(&no_answer(reply))
    }

    fn ticket(&mut self, recipe: &str, task: Task, anyway: bool) -> Result<Ticket, Diagnostic> {
        let recipe = self.find_recipe(recipe)?;
        self.accept(&recipe, anyway)?;
        match self.ask(&recipe, task) {
            Reply::Ran(ticket) if ticket.version == ticket::VERSION => Ok(*ticket),
            reply => Err(no_answer(&reply)),
        }
    }

    /// Runs a recipe for one order. What follows from the order is computed on demand.
    pub(super) fn order(&mut self, recipe: &str, task: Task, anyway: bool) -> Result<WorkshopOrder, Diagnostic> {
        let mut ticket = self.ticket(recipe, task, anyway)?;
        let style = self.style();
        let workshop = Arc::clone(self.opened.reckoned_with());
        if self.opened.is_supposing() {
            ticket.take_prices_of(&workshop);
        }
        let order = WorkshopOrder::new(ticket, workshop, &style, self.planner.clone());
        order.map_err(|error| error.diagnostic(&style))
    }

    /// Shows the first screen of an order; `name` is what it is called where it has no mark, `next` what can be typed.
    pub(super) fn show_first(&mut self, order: &WorkshopOrder, name: &str, next: &[String]) -> Result<(), Diagnostic> {
        let shown = present::first_screen(order, name, next, self.output.width);
        let shown = shown.map_err(|error| error.diagnostic(&self.style()))?;
        self.output.print(&shown.join("\n"));
        Ok(())
    }

    /// Shows everything of an order, a screen at a time where a person sits at a terminal.
    pub(super) fn show_all(&mut self, order: &WorkshopOrder) -> Result<(), Diagnostic> {
        let style = self.style();
        let shown = present::on_screen(order, &style, self.output.look, self.output.width);
        let shown = shown.map_err(|error| error.diagnostic(&style))?;
        self.print_warnings(order.ticket());
        self.output.print_by_screens(&shown.join("\n"));
        Ok(())
    }

    pub(super) fn csv_dialect(&self) -> Dialect {
        self.opened.workshop.settings.dialect
    }

    /// Writes the files of an order; `name` is what the order is called, if it has a name. Files of these names that are
    /// there are replaced, unless `to_replace` is what to type for that.
    pub(super) fn export(
        &mut self,
        order: &WorkshopOrder,
        name: Option<&str>,
        folder: &Path,
        to_replace: Option<&str>,
    ) -> u8 {
        let typed = folder;
        let folder = self.folder.join(folder);
        let (dialect, settings, style) = (self.csv_dialect(), &self.opened.workshop.settings, self.style());
        let date = today::in_words();
        let note = PictureNote { order: name, date: Some(&date) };
        let written = match present::order_files(order, dialect, settings, note) {
            Ok(made) => {
                let there = made.files.iter().find(|(file, _)| folder.join(file).exists());
                match (to_replace, there) {
                    (Some(to_replace), Some((file, _))) => {
                        let there = typed.join(file);
                        Err(format!("there is a file {} already\n  to replace it, type {to_replace}", there.display()))
                    }
                    _ => files::replace_all(&folder, &made.files)
                        .and_then(|()| export::remove_earlier_pages(&folder, &present::ORDER_PICTURES, &made.files))
                        .map(|()| made.tables)
                        .map_err(|problem| export::problem_text(&problem)),
                }
            }
            Err(error) => Err(export::not_written(error, &folder, &style)),
        };
        match written {
            Ok(count) => {
                let drawn =
                    if order.ticket().pieces.is_empty() { "" } else { ", pictures of the pieces and of the lays" };
                self.output.eprint(&format!("{count} tables{drawn} are in {}", folder.display()));
                DONE
            }
            Err(problem) => self.failed(&problem),
        }
    }

    /// Shows the work sheet of an order.
    pub(super) fn sheet(&mut self, recipe: &str, answers: Vec<(String, String)>, anyway: bool) -> u8 {
        let order = match self.order(recipe, Task::run(answers), anyway) {
            Ok(order) => order,
            Err(error) => return self.failed_with(&error),
        };
        match self.show_sheet(&order) {
            Ok(()) => DONE,
            Err(error) => self.failed_with(&error),
        }
    }

    pub(super) fn show_sheet(&mut self, order: &WorkshopOrder) -> Result<(), Diagnostic> {
        let style = self.style();
        let sheet = present::work_sheet(order, &style).map_err(|error| error.diagnostic(&style))?;
        let width = self.output.width.min(report::SHEET_WIDTH);
        self.output.print(&sheet.lines(&style, width).join("\n"));
        Ok(())
    }
}

/// What it means that the list of accepted recipes cannot be written.
pub(super) const NOT_REMEMBERED: &str = "the recipe passed, but is checked again the next time it is run";

pub(super) fn findings(recipe: &RecipeText, report: &CheckReport) -> String {
    let mut text = format!("{}: {} to mend", recipe.name, report.findings.len());
    for finding in &report.findings {
        text.push_str(&format!("\n- {}", excerpt::text(finding)));
    }
    let cautions = cautions(report);
    if !cautions.is_empty() {
        text.push_str(&format!("\n{cautions}"));
    }
    text
}

/// What a check would have a writer look at, and what it could not look at; empty if there is nothing.
pub(super) fn cautions(report: &CheckReport) -> String {
    let mut lines = Vec::new();
    if !report.cautions.is_empty() {
        lines.push(format!("{} worth a look:", report.cautions.len()));
        lines.extend(report.cautions.iter().map(|caution| format!("- {}", excerpt::text(caution))));
    }
    if !report.never_ran.is_empty() {
        lines.push(format!("nothing that was tried came to {}", lines_in_words(&report.never_ran)));
    }
    if report.unread > 0 {
        let places = if report.unread == 1 { "place" } else { "places" };
        lines.push(format!("{} {places} in the text could not be looked at, only tried", report.unread));
    }
    lines.join("\n")
}

/// Numbers of lines, runs of them drawn together: `lines 3, 7 to 9`.
fn lines_in_words(numbers: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for number in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == *number => *last = *number,
            _ => runs.push((*number, *number)),
        }
    }
    let told =
        |(first, last): &(usize, usize)| if first == last { first.to_string() } else { format!("{first} to {last}") };
    let noun = if numbers.len() == 1 { "line" } else { "lines" };
    format!("{noun} {}", runs.iter().map(told).collect::<Vec<_>>().join(", "))
}

/// The error for a reply that holds no answer, or not the one that was asked for.
pub(super) fn no_answer(reply: &Reply) -> Diagnostic {
    match reply {
        Reply::Failed(errors) => match errors.as_slice() {
            [error] => error.clone(),
            errors => Diagnostic::several("", errors.to_vec()),
        },
        Reply::Refused(refusals) => refused(refusals.clone()),
        _ => Diagnostic::new("the recipe gave an answer that was not asked for"),
    }
}

/// The error for a refused order: every answer to mend, and where there are several, one line to type.
pub(super) fn refused(mut refusals: Vec<Diagnostic>) -> Diagnostic {
    let typing = |refusal: &Diagnostic| match &refusal.kind {
        DiagnosticKind::Refusal { typing, .. } => typing.as_deref().map(str::to_owned),
        _ => None,
    };
    let all: Option<Vec<String>> = refusals.iter().map(typing).collect();
    let Some(all) = all.filter(|all| all.len() > 1) else {
        for refusal in &mut refusals {
            let typing = typing(refusal).map(|typing| format!("type {typing}"));
            refusal.hint = refusal.hint.take().or(typing);
        }
        return Diagnostic::several("I cannot work this out yet:", refusals);
    };
    for (refusal, typing) in refusals.iter_mut().zip(&all) {
        // The line below has it with the others.
        refusal.hint.take_if(|hint| *hint == format!("type {typing}"));
    }
    let head = format!("I cannot work this out yet: {} answers to mend", all.len());
    let line = Diagnostic::new(format!("type these, the rest as before: {}", all.join(" ")));
    refusals.push(line);
    Diagnostic::several(head, refusals)
}

/// Finds the answer that leaves a cloth open, and its place among the answers.
pub(super) fn open_cloth(app: &App<'_>, answers: &[(String, String)]) -> Option<(usize, ClothRange)> {
    let reading = app.opened.workshop.settings.reading();
    answers.iter().enumerate().find_map(|(at, (_, answer))| Some((at, ClothRange::read(answer, reading)?)))
}
